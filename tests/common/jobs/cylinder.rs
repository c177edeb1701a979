//! Random cylinders rebored.

use super::{Asked, Entry, Maker};

impl Maker {
    /// A worn cylinder, read on two axes.
    pub fn cylinder(&mut self, wild: bool) -> Asked {
        let mut asked = Asked::new("bore");
        let metal = self.one_of(&["GG25", "GG25", "ductile iron", "cast aluminium"]);
        asked.part.push(("material", Entry::Text(metal.into())));
        let nominal = self.between(46.0, 57.0).round();
        asked.put("nominal", Entry::Mm(nominal));
        let length = self.between(30.0, if wild { 120.0 } else { 50.0 });
        asked.put("length", Entry::Mm(length));
        let worn = self.between(0.02, if wild { 0.4 } else { 0.12 });
        let axis = |of: f64| {
            let reads: Vec<String> =
                [1.0, 0.6, 0.2].iter().map(|at| format!("{:.3}", nominal + 0.01 + of * at * worn)).collect();
            format!("{} mm", reads.join(" "))
        };
        let (across, along) = (axis(1.0), axis(0.7));
        let with = if !wild || self.often(0.6) { "with: bore gauge, " } else { "" };
        let warm = if self.often(0.3) { "at: 24 degC, gauge-at: 23 degC, " } else { "" };
        asked.text(
            "readings",
            format!("{{kind: diameter, {with}{warm}depths: 5 20 28 mm, thrust: {across}, pin: {along}}}"),
        );
        if !wild || self.often(0.6) {
            asked.put("unworn", Entry::Read(nominal + 0.01, 0.008));
        }
        if self.often(0.6) {
            let now = nominal - self.between(0.02, 0.15);
            asked.put("piston-now", Entry::Read(now, 0.004));
        }
        if self.often(0.6) {
            asked.text("limits", "{wear: 0.10 mm, taper: 0.10 mm, out-of-round: 0.05 mm}");
        }
        let (definition, axis) = (self.one_of(&["", "same-depth", "mixed-depth"]), self.one_of(&["", "old", "worn"]));
        asked.text("definition", definition);
        asked.text("axis", axis);
        let series = self.one_of(&["", "inch", "metric", "both"]);
        asked.text("series", series);
        if !wild || self.often(0.6) {
            asked.text("clearance", format!("{:.3} .. {:.3} mm", nominal / 1000.0, nominal / 600.0));
        } else {
            let cooling = self.one_of(&["", "air", "water"]);
            asked.text("cooling", cooling);
        }
        let piston = self.one_of(&["LM13", "LM13", "", "GG25"]);
        asked.text("piston-metal", piston);
        if self.often(0.7) {
            let outside = nominal + self.between(6.0, 14.0);
            asked.text("outside", format!("{{size: {outside:.3} ± 0.05 mm, eccentric: 0.10 ± 0.04 mm}}"));
            let wall = self.between(1.0, 4.0);
            asked.put("least-wall", Entry::Mm(wall));
        }
        if self.often(0.5) {
            let found = self.between(0.12, 0.25);
            asked.text("ring-gap", format!("{{found: {found:.3} ± 0.02 mm, in: {:.3} mm}}", nominal + 0.25));
        }
        if self.often(0.5) {
            asked.put("stroke", Entry::Mm(nominal));
            asked.text("compression", "6.5");
            let deck = self.one_of(&["", "0.5 mm"]);
            asked.text("deck", deck);
        }
        if self.often(0.6) {
            asked.text("running", "{piston: 120 degC, bore: 110 degC}");
            asked.text("least-running", "0 mm");
        }
        if self.often(0.6) {
            let off = self.between(0.002, 0.03);
            asked.put("base-square", Entry::Read(off, 0.002));
        }
        if wild {
            let honing = self.one_of(&["", "0.05 mm", "0.01 mm", "0.12 mm"]);
            asked.text("honing", honing);
            let clean = self.one_of(&["", "0.03 mm"]);
            asked.text("clean-up", clean);
            let bar = self.one_of(&["", "bar 12"]);
            asked.text("bar", bar);
        }
        if self.often(0.8) {
            let held = self.one_of(&["clamps", "angle-plate", "vice", "jaws", "soft-jaws", "press-support"]);
            asked.text("hold.in", if wild { held } else { "clamps" });
            asked.put("hold.true-within", Entry::Mm(0.02));
            if !wild || self.often(0.5) {
                asked.text("hold.tested", "20.0 N·m");
            }
            if wild && self.often(0.5) {
                asked.put("hold.diameter", Entry::Mm(nominal + 10.0));
                asked.text("hold.grip", "20 mm");
                asked.text("hold.overhang", "10 mm");
            }
        }
        asked
    }
}
