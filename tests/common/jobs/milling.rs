//! Random milled faces.

use super::{Asked, Entry, Maker};

impl Maker {
    /// A milled face.
    pub fn mill_face(&mut self, wild: bool) -> Asked {
        let mut asked = Asked::new("mill-face");
        let metals = ["GG25", "cast aluminium", if wild { "case-hardened steel" } else { "LG2" }, "mild steel"];
        let metal = self.one_of(if wild { &metals } else { &metals[..3] });
        asked.part.push(("material", Entry::Text(metal.into())));
        if metal == "case-hardened steel" && self.often(0.5) {
            asked.part.push(("case-depth", Entry::Read(0.9, 0.1)));
            asked.put("least-case", Entry::Mm(0.4));
        }
        let width = self.between(15.0, if wild { 120.0 } else { 36.0 });
        asked.put("width", Entry::Mm(width));
        let length = self.between(width, if wild { 300.0 } else { 120.0 });
        asked.put("length", Entry::Mm(length));
        let thick = self.between(8.0, 40.0);
        asked.put("thickness", Entry::Read(thick, if wild { 0.3 } else { 0.02 }));
        let removed = self.between(if wild { 0.03 } else { 0.4 }, if wild { 4.0 } else { 0.9 });
        asked.put("removed", Entry::Mm((removed * 100.0).ceil() / 100.0));
        let cutter = if wild && self.often(0.5) { self.between(10.0, 80.0).round() } else { 50.0 };
        asked.put("cutter", Entry::Mm(cutter));
        if self.often(0.3) {
            asked.text("teeth", "6");
        }
        if !wild || self.often(0.8) {
            asked.put("stick-out", Entry::Mm(if wild { 120.0 } else { 60.0 }));
        }
        let way = if wild { self.one_of(&["", "conventional", "climb"]) } else { "conventional" };
        asked.text("way", way);
        if !wild || self.often(0.8) {
            let raw = self.between(0.02, if wild { 2.0 } else { 0.3 });
            asked.put("uneven", Entry::Read(raw, if wild { 0.1 } else { 0.01 }));
        }
        if !wild || self.often(0.8) {
            let lean = self.between(0.005, if wild { 0.3 } else { 0.02 });
            asked.put("tram.reads", Entry::Read(lean, 0.004));
            asked.put("tram.over", Entry::Mm(200.0));
        }
        if !wild || self.often(0.8) {
            asked.put("flat-within", Entry::Mm(if wild { 0.02 } else { 0.06 }));
            asked.put("square-within", Entry::Mm(if wild { 0.05 } else { 0.12 }));
        }
        if !wild || self.often(0.8) {
            asked.put("least-thickness", Entry::Mm(thick - if wild { 1.0 } else { 1.5 }));
        }
        let bears = if wild { self.one_of(&["", "on-solid", "on-hollow"]) } else { "on-solid" };
        asked.text("bears", bears);
        if !wild {
            let held = self.one_of(&["clamps", "vice", "angle-plate"]);
            asked.text("hold.in", held);
            if held == "vice" {
                asked.put("hold.grip", Entry::Mm(thick / 2.0));
                asked.put("hold.overhang", Entry::Mm(thick / 2.0));
            } else {
                asked.text("hold.clamped", "on-a-ledge");
            }
            asked.text("hold.tested", "400.0 N·m");
            asked.put("hold.true-within", Entry::Mm(0.03));
        } else if self.often(0.8) {
            self.held(&mut asked, wild);
            if self.often(0.5) {
                asked.put("hold.true-within", Entry::Mm(0.05));
            }
        }
        asked
    }
}
