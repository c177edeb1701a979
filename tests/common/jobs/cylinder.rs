//! Random cylinders rebored.

use super::{Asked, Entry, Maker, seed};
use setover::proof::Chance;

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
        if self.number / 13 % 3 == 1 {
            let readings = radii(self.number, wild, nominal);
            return asked.with("readings", Entry::Text(readings));
        }
        asked
    }
}

/// The same bore read from the gauge's own axis, in rounds at three depths. It draws from a chance of its own, so that what stands
/// behind it in the job stays what it was.
fn radii(number: u64, wild: bool, nominal: f64) -> String {
    let mut chance = Chance::from_seed(seed() ^ number.wrapping_mul(0x9E37_79B9_7F4A_7C15));
    chance.bits();
    let mut between = |low: f64, high: f64| low + (high - low) * chance.even();
    let angles: Vec<f64> = match (wild, number % 2) {
        (true, 0) => vec![10.0, 80.0, 150.0, 215.0, 300.0],
        (true, _) => (0..12).map(|at| 30.0 * f64::from(at)).collect(),
        (false, _) => (0..8).map(|at| 45.0 * f64::from(at)).collect(),
    };
    // How far the gauge stands off, how the bore leans under it, how oval and how lobed it is worn, um.
    let (off, way, lean) = (between(0.0, 30.0), between(0.0, 360.0), between(-10.0, 10.0));
    let (oval, lobes, worn) = (between(0.0, 20.0), between(0.0, if wild { 15.0 } else { 4.0 }), between(20.0, 60.0));
    let mut row = |share: f64| {
        let reads: Vec<String> = angles
            .iter()
            .map(|at| {
                let turned = |times: f64| (times * (at - way)).to_radians().cos();
                let of_axis = (off + share * lean) * turned(1.0);
                let read =
                    20.0 + share * (worn + oval * turned(2.0) + lobes * turned(3.0)) + of_axis + between(-2.0, 2.0);
                format!("{read:.0}")
            })
            .collect();
        format!("{} um", reads.join(" "))
    };
    let reads = [1.0, 0.6, 0.2].map(&mut row).join(", ");
    let angles: Vec<String> = angles.iter().map(f64::to_string).collect();
    let with = if wild && number.is_multiple_of(4) { "" } else { "with: lever indicator, " };
    let from = nominal / 2.0 - 0.01;
    format!(
        "{{kind: radius, {with}from: {from:.3} ± 0.004 mm, depths: 5 20 28 mm, angles: {} deg, reads: [{reads}]}}",
        angles.join(" ")
    )
}
