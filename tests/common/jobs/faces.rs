//! Random joint faces to be lapped.

use super::{Asked, Entry, Maker};

impl Maker {
    /// A face with its readings.
    pub fn lapping(&mut self, wild: bool) -> Asked {
        let mut asked = Asked::new("lap");
        let metal = self.one_of(if wild {
            &["cast aluminium", "AZ91", "LG2", "GG25", "friction lining"]
        } else {
            &["cast aluminium", "GG25", "mild steel"]
        });
        asked.part.push(("material", Entry::Text(metal.into())));
        let out = self.between(0.005, if wild { 0.12 } else { 0.05 });
        let (long, wide) = (self.between(80.0, 220.0), self.between(60.0, 140.0));
        if self.often(0.6) {
            let columns = self.one_of(if wild { &["2", "3", "5"] } else { &["3", "4"] });
            let columns: usize = columns.parse().unwrap();
            let x: Vec<String> =
                (0..columns).map(|k| format!("{:.1}", long * k as f64 / (columns - 1) as f64)).collect();
            let y: Vec<String> = (0..3).map(|k| format!("{:.1}", wide * f64::from(k) / 2.0)).collect();
            let rows: Vec<String> = (0..3).map(|_| self.heights(columns, out)).collect();
            let (x, y, rows) = (x.join(" "), y.join(" "), rows.join(", "));
            asked.text("grid", format!("{{x: {x} mm, y: {y} mm, reads: [{rows}]}}"));
        } else {
            let heights = self.heights(8, out);
            // The circle of the readings lies on the face, whichever way that is the wider.
            let radius = wide.min(long) / 2.0;
            let at = "0 45 90 135 180 225 270 315 deg";
            asked.text("points", format!("{{radius: {radius:.1} mm, at: {at}, reads: {heights}}}"));
        }
        if !wild || self.often(0.7) {
            asked.text("with", "lever indicator");
        }
        let within = self.between(0.01, 0.06);
        asked.put("flat-within", Entry::Mm(within));
        if !wild || self.often(0.7) {
            asked.put("face.long", Entry::Mm(long * 1.1));
            asked.put("face.wide", Entry::Mm(wide * 1.1));
            let out = self.one_of(&["[]", "[{what: studs, count: 4}, {what: dowels, count: 0}]"]);
            asked.text("out-first", out);
        }
        let zone = self.one_of(&["", "", "minimum", "least-squares"]);
        asked.text("zone", zone);
        if self.often(0.4) {
            asked.text("joint", "head");
            asked.text("bore", "67.18 mm");
            asked.text("swept", "315 cm3");
            asked.text("clearance-volume", "62 cm3");
            let most = self.one_of(&["", "6.12", "6.3"]);
            asked.text("most-compression", most);
        }
        if self.often(0.5) {
            let squish = self.read(0.7, 1.2, (0.01, 0.06));
            asked.put("squish", squish);
            let least = self.between(0.6, 0.9);
            asked.put("least-squish", Entry::Mm(least));
        }
        if self.often(0.4) {
            let depth = self.between(0.3, 0.9);
            asked.text("inserts", format!("[{{thread: M6, set-down: {depth:.2} ± 0.05 mm}}]"));
        }
        if wild && self.often(0.2) {
            let proud = self.read(0.01, 0.1, (0.002, 0.01));
            asked.put("proud", proud);
        }
        let grits = self.one_of(&["", "", "[320, 600]", "[240]"]);
        asked.text("grits", grits);
        if self.often(0.3) {
            asked.text("finish-stock", "0.015 mm");
        }
        asked
    }

    fn heights(&mut self, count: usize, out: f64) -> String {
        let all: Vec<String> = (0..count).map(|_| format!("{:.0}", 1000.0 * self.between(0.0, out))).collect();
        format!("{} um", all.join(" "))
    }
}
