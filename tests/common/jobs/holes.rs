//! Random holes.

use super::{Asked, Entry, Maker};

/// Thread, major diameter, pitch and usual drill, mm.
const THREADS: &[(&str, f64, f64, f64)] =
    &[("M3", 3.0, 0.5, 2.5), ("M5", 5.0, 0.8, 4.2), ("M8", 8.0, 1.25, 6.8), ("M10", 10.0, 1.5, 8.5)];

impl Maker {
    /// A tapped hole.
    pub fn tap(&mut self, wild: bool) -> Asked {
        let mut asked = Asked::new("tap");
        let metal =
            self.one_of(&["cast aluminium", "mild steel", "GG25", if wild { "friction lining" } else { "LG2" }]);
        asked.part.push(("material", Entry::Text(metal.into())));
        let &(thread, major, pitch, drill) = self.one_of(&THREADS.iter().collect::<Vec<_>>());
        asked.text("thread", thread);
        let off = if wild { (-0.15 * pitch, 0.3 * pitch) } else { (0.0, 0.03 * pitch) };
        let hole = self.read(drill + off.0, drill + off.1, (0.002, if wild { 0.1 } else { 0.01 }));
        asked.put("hole", hole);
        let depth = self.between(0.8 * major, 2.0 * major);
        asked.put("depth", Entry::Mm(depth));
        if self.often(0.3) {
            asked.text("through", "true");
            if !wild || self.often(0.8) {
                let wall = self.read(depth + 0.3, depth + 6.0, (0.05, 0.25));
                asked.put("wall", wall);
            }
        } else if !wild || self.often(0.8) {
            let least = depth + if wild { 2.0 } else { 9.0 } * pitch;
            let deep = self.read(least, least + 6.0, (0.05, 0.4));
            asked.put("hole-depth", deep);
        }
        let (lead, worn) = (self.one_of(&["", "plug", "bottoming"]), self.one_of(&["", "true", "false"]));
        asked.text("lead", lead);
        asked.text("worn", worn);
        if !wild || self.often(0.7) {
            self.held(&mut asked, wild);
        }
        asked
    }

    /// A drilled hole.
    pub fn drill(&mut self, wild: bool) -> Asked {
        let mut asked = Asked::new("drill");
        let metals = ["cast aluminium", "GG25", "mild steel"];
        let all = ["cast aluminium", "GG25", "mild steel", "LG2", "AZ91", "friction lining", "case-hardened steel"];
        let metal = self.one_of(if wild { &all } else { &metals });
        asked.part.push(("material", Entry::Text(metal.into())));
        let size = (self.between(2.0, if wild { 20.0 } else { 12.0 }) * 10.0).round() / 10.0;
        asked.put("diameter", Entry::Mm(size));
        let wall = self.between(1.2 * size + 3.0, 3.0 * size + 6.0);
        let doubt = self.between(0.02, if wild { 0.5 } else { 0.2 });
        asked.put("wall", Entry::Read(wall, doubt));
        if self.often(0.3) {
            asked.text("through", "true");
            if !wild {
                asked.text("beyond", "clear");
            } else if self.often(0.8) {
                let gap = self.read(1.0, 20.0, (0.05, 0.4));
                asked.put("beyond", gap);
            }
        } else {
            let deepest = wall - if wild { 0.2 } else { 0.4 * size + 2.0 };
            let depth = self.between(0.4 * deepest, deepest);
            asked.put("depth", Entry::Mm(depth));
            if self.often(0.4) {
                let least = self.between(0.5, 2.0);
                asked.put("least-left", Entry::Mm(least));
            }
        }
        if self.often(0.5) {
            let edge = self.read(if wild { 0.55 } else { 1.2 } * size, 3.0 * size, (0.05, 0.3));
            asked.put("edge", edge);
        }
        if !wild || self.often(0.7) {
            let start = if wild { self.one_of(&["flat", "flat", "round", "slope", "rough"]) } else { "flat" };
            asked.text("starts-on", start);
        }
        if self.often(0.5) {
            asked.put("stick-out", Entry::Mm((wall + 0.4 * size + 6.0).ceil()));
        }
        if !wild || self.often(0.7) {
            self.held(&mut asked, wild);
        }
        asked
    }

    /// An oil hole through a bush.
    pub fn oil_hole(&mut self, wild: bool) -> Asked {
        let mut asked = Asked::new("drill-oil-hole");
        let metal = self.one_of(&["LG2", "phosphor bronze", if wild { "friction lining" } else { "GG25" }]);
        asked.part.push(("material", Entry::Text(metal.into())));
        let size = (self.between(2.0, if wild { 8.0 } else { 4.0 }) * 10.0).round() / 10.0;
        asked.put("diameter", Entry::Mm(size));
        let length = self.between(16.0, 60.0);
        let at = self.between(if wild { 0.1 } else { 0.4 }, if wild { 0.95 } else { 0.6 }) * length;
        asked.put("at", Entry::Mm(at));
        let angle = if wild && self.often(0.6) { self.between(15.0, 90.0) } else { 90.0 };
        asked.text("angle", format!("{angle:.1} deg"));
        if wild {
            asked.text("start", "flat");
        }
        let wall = self.between(if wild { 0.6 } else { 1.6 }, 4.0);
        asked.put("wall", Entry::Read(wall, if wild { 0.2 } else { 0.04 }));
        if !wild || self.often(0.7) {
            let bore = self.read(if wild { 4.0 } else { 14.0 }, 40.0, (0.01, 0.1));
            asked.put("beyond", bore);
        }
        if !wild || self.often(0.8) {
            asked.put("length", Entry::Mm(length));
        }
        if !wild || self.often(0.8) {
            let off = if wild { self.between(-4.0, 4.0) } else { 0.0 };
            asked.put("oilway.diameter", Entry::Read(size + self.between(1.6, 3.0), 0.05));
            asked.put("oilway.at", Entry::Read((at + off).max(0.5), 0.1));
            let open = if wild { self.one_of(&["", "one-end", "both-ends"]) } else { "both-ends" };
            asked.text("oilway.open", open);
        }
        let before = if wild { self.one_of(&["", "press", "ream", "nothing"]) } else { "ream" };
        asked.text("before", before);
        if self.often(0.5) {
            asked.put("stick-out", Entry::Mm((3.0 * size + 4.0 * wall + 10.0).ceil()));
        }
        if !wild || self.often(0.7) {
            self.held(&mut asked, wild);
        }
        asked
    }

    /// A seat about a hole.
    pub fn spot_face(&mut self, wild: bool) -> Asked {
        let mut asked = Asked::new("spot-face");
        let metals = ["cast aluminium", "GG25", "mild steel", if wild { "friction lining" } else { "LG2" }];
        let metal = self.one_of(&metals);
        asked.part.push(("material", Entry::Text(metal.into())));
        let hole = self.between(5.0, 14.0);
        asked.put("hole", Entry::Read(hole, if wild { 0.08 } else { 0.01 }));
        let seat = if wild && self.often(0.5) { (hole * 2.0).round() + 4.0 } else { 18.0 };
        asked.put("diameter", Entry::Mm(seat));
        let depth = self.between(1.0, if wild { 6.0 } else { 2.5 });
        asked.put("depth", Entry::Mm(depth));
        match (wild, self.often(0.2)) {
            (true, true) => asked.text("pilot", "none"),
            _ if !wild || self.often(0.8) => {
                let play = self.between(if wild { -0.02 } else { 0.04 }, if wild { 0.4 } else { 0.08 });
                asked.put("pilot", Entry::Read(hole - play, 0.005));
            }
            _ => {}
        }
        if !wild || self.often(0.8) {
            let long = self.between(if wild { 2.0 } else { 10.0 }, 25.0);
            asked.put("pilot-length", Entry::Mm(long));
            asked.put("square-within", Entry::Mm(if wild { 0.05 } else { 0.3 }));
        }
        if !wild || self.often(0.8) {
            let raw = self.between(0.1, if wild { 3.0 } else { 0.6 });
            asked.put("uneven", Entry::Read(raw, 0.05));
        }
        if !wild || self.often(0.8) {
            let wall = self.between(depth + if wild { 1.0 } else { 8.0 }, 30.0);
            asked.put("wall", Entry::Read(wall, 0.1));
            asked.put("least-left", Entry::Mm(if wild { 4.0 } else { 6.0 }));
        }
        if self.often(0.4) {
            asked.put("head", Entry::Mm(if wild { seat } else { 13.0 }));
            let edge = self.between(if wild { 0.3 } else { 0.8 }, 2.0) * seat;
            asked.put("edge", Entry::Read(edge, 0.1));
        }
        if self.often(0.3) {
            asked.text("teeth", "4");
        }
        if !wild || self.often(0.7) {
            self.held(&mut asked, wild);
        }
        asked
    }

    /// A hold under a tool that turns: tried, where somebody is careful.
    pub(super) fn held(&mut self, asked: &mut Asked, wild: bool) {
        let all: &[&str] = &["vice", "clamps", "angle-plate", "jaws", "soft-jaws", "collet", "press-support"];
        let held = self.one_of(if wild { all } else { &all[..4] });
        asked.text("hold.in", held);
        if !wild || self.often(0.5) {
            let stood = self.between(if wild { 0.5 } else { 60.0 }, 120.0);
            asked.text("hold.tested", format!("{stood:.1} N·m"));
        }
        if held == "vice" {
            asked.text("hold.grip", if wild { "4 mm" } else { "15 mm" });
            asked.text("hold.overhang", "20 mm");
        }
        if held.ends_with("jaws") {
            let across = self.between(20.0, 80.0);
            asked.put("hold.diameter", Entry::Mm(across));
            let grip = self.between(if wild { 0.2 } else { 8.0 }, 25.0);
            asked.put("hold.grip", Entry::Mm(grip));
            let out = self.between(5.0, if wild { 60.0 } else { 20.0 });
            asked.put("hold.overhang", Entry::Mm(out));
            asked.text("hold.stop", if wild { "" } else { "step" });
        }
    }
}
