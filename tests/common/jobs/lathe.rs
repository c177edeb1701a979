//! Random work on the lathe: an outside turned, a hole bored, a piece parted off.

use super::{Asked, Entry, Maker};

/// To a tenth of a millimetre.
fn tenth(mm: f64) -> f64 {
    (mm * 10.0).round() / 10.0
}

impl Maker {
    /// One of the three.
    pub fn on_the_lathe(&mut self, which: u64, wild: bool) -> Asked {
        match which % 3 {
            0 => self.turn(wild),
            1 => self.bore_hole(wild),
            _ => self.part_off(wild),
        }
    }

    fn lathe_metal(&mut self, asked: &mut Asked, wild: bool) {
        let usual = ["mild steel", "GG25", "LG2"];
        let all = [
            "mild steel",
            "GG25",
            "LG2",
            "stainless",
            "cast aluminium",
            "steel",
            "case-hardened steel",
            "friction lining",
        ];
        let metal = self.one_of(if wild { &all } else { &usual });
        asked.part.push(("material", Entry::Text(metal.into())));
        if metal == "case-hardened steel" {
            asked.part.push(("hardness", Entry::Text("60 HRC".into())));
            if self.often(0.6) {
                let case = self.read(0.6, 1.4, (0.03, 0.1));
                asked.part.push(("case-depth", case));
            }
        }
    }

    fn lathe_hold(&mut self, asked: &mut Asked, wild: bool, (gripped, grip, out): (f64, f64, f64)) {
        if wild && self.often(0.1) {
            return;
        }
        let held = match wild {
            true => self.one_of(&["jaws", "soft-jaws", "four-jaw", "collet", "faceplate", "jaws"]),
            false => "jaws",
        };
        asked.text("hold.in", held);
        asked.put("hold.diameter", Entry::Mm(gripped));
        asked.put("hold.grip", Entry::Mm(grip));
        if !wild || self.often(0.8) {
            asked.put("hold.overhang", Entry::Mm(out));
        }
        if !wild || self.often(0.8) {
            let within = self.one_of(&["0.02 mm", "0.05 mm", "0.1 mm"]);
            asked.text("hold.true-within", within);
        }
        if self.often(0.4) {
            let nipped = self.one_of(&["light", "normal", "hard"]);
            asked.text("hold.nipped", nipped);
        }
        if self.often(0.3) || held == "faceplate" || held == "collet" {
            let torque = self.between(10.0, 120.0);
            asked.text("hold.tested", format!("{torque:.0} N·m"));
        }
        let stop = self.one_of(&["", "none", "step", "rod"]);
        // What has no jaws has no step of them.
        let stop = if stop == "step" && !held.ends_with("jaws") && held != "four-jaw" { "" } else { stop };
        // No step of hard jaws is deep.
        asked.text("hold.stop", if wild { stop } else { "rod" });
        if held == "faceplate" {
            asked.put("hold.swings", Entry::Mm(gripped * 1.2));
        }
    }

    fn lathe_extras(&mut self, asked: &mut Asked, wild: bool) {
        if wild && self.often(0.3) {
            let gaps = self.one_of(&["1", "2", "6"]);
            asked.text("interrupted", gaps);
        }
        if wild && self.often(0.2) {
            let (mass, off) = (self.between(0.5, 4.0), self.between(0.05, 2.0));
            asked.text("mass", format!("{mass:.2} kg"));
            asked.put("off-centre", Entry::Mm(off));
        }
    }

    fn finish_and_case(&mut self, asked: &mut Asked) {
        let finish = self.one_of(&["Ra 1.6 um", "Ra 3.2 um", "Ra 6.3 um"]);
        asked.text("finish", finish);
        if asked.part.iter().any(|(key, _)| *key == "case-depth") {
            let least = self.between(0.1, 0.5);
            asked.put("least-case", Entry::Mm(least));
            let before = self.read(0.02, 0.1, (0.005, 0.02));
            asked.put("removed-before", before);
        }
    }

    /// An outside.
    fn turn(&mut self, wild: bool) -> Asked {
        let mut asked = Asked::new("turn");
        self.lathe_metal(&mut asked, wild);
        let size = tenth(if wild { self.between(6.0, 120.0) } else { self.between(15.0, 60.0) });
        let off = if wild { self.between(0.05, 6.0) } else { self.between(0.3, 2.0) };
        let present = size + off;
        let doubt = self.between(0.005, 0.04);
        asked.put("present", Entry::Read(present, doubt));
        let width = self.between(0.02, 0.2);
        asked.text("outside", format!("{:.3} .. {size:.3} mm", size - width));
        let length = tenth(self.between(0.3, if wild { 2.5 } else { 0.8 }) * size).max(6.0);
        asked.text("length", if self.often(0.7) { format!("{length:.1} ± 0.3 mm") } else { format!("{length:.1} mm") });
        let (out, grip) = (length + self.between(if wild { 0.0 } else { 3.0 }, 12.0), self.between(0.5, 1.5) * size);
        asked.put("over-all", Entry::Read(out + grip + 2.0, 0.2));
        match self.chance.bits() % 4 {
            0 => asked.put("shoulder", Entry::Mm(0.0)),
            1 => asked.put("shoulder", Entry::Mm(present + 4.0)),
            _ => {}
        }
        if self.often(0.7) {
            let corner = self.one_of(&["0.2 mm", "0.4 mm", "0.8 mm"]);
            asked.text("corner", corner);
        }
        if self.often(0.3) {
            asked.put("inside", Entry::Mm(tenth(0.4 * size)));
        }
        self.finish_and_case(&mut asked);
        self.lathe_extras(&mut asked, wild);
        let gripped = if wild && self.often(0.3) { 0.6 * size } else { present };
        if gripped < size {
            let rim = self.read(0.1 * size, size, (0.02, 0.1));
            asked.put("thickness-at-rim", rim);
        }
        self.lathe_hold(&mut asked, wild, (tenth(gripped), tenth(grip), tenth(out)));
        asked
    }

    /// A bore.
    fn bore_hole(&mut self, wild: bool) -> Asked {
        let mut asked = Asked::new("bore-hole");
        self.lathe_metal(&mut asked, wild);
        let size = tenth(if wild { self.between(8.0, 60.0) } else { self.between(18.0, 40.0) });
        let present = size - if wild { self.between(0.05, 5.0) } else { self.between(0.3, 2.0) };
        let doubt = self.between(0.005, 0.04);
        asked.put("present", Entry::Read(present, doubt));
        let width = self.between(0.02, 0.2);
        asked.text("bore", format!("{size:.3} .. {:.3} mm", size + width));
        let depth = tenth(self.between(0.4, if wild { 3.0 } else { 1.2 }) * size).max(4.0);
        let through = self.often(0.5);
        asked.text("depth", if self.often(0.5) { format!("{depth:.1} ± 0.3 mm") } else { format!("{depth:.1} mm") });
        let whole = if through { depth + 0.4 } else { depth + self.between(5.0, 20.0) };
        if through {
            asked.text("through", "true");
            if self.often(0.8) {
                let gap = self.read(1.5, 12.0, (0.1, 0.5));
                asked.put("behind", if self.often(0.2) { Entry::Text("clear".into()) } else { gap });
            }
        } else if !wild || self.often(0.8) {
            let deep = self.read(depth, whole, (0.1, 0.4));
            asked.put("present-depth", deep);
        }
        let outside = tenth(size + self.between(if wild { 2.0 } else { 12.0 }, 40.0));
        asked.put("outside", Entry::Read(outside, 0.05));
        asked.put("over-all", Entry::Read(whole + 0.5, 0.1));
        if !wild || self.often(0.7) {
            let off = self.read(0.02, if wild { 1.0 } else { 0.1 }, (0.01, 0.02));
            asked.put("eccentric", off);
        }
        if !wild || self.often(0.8) {
            let least = self.between(0.1, 0.9) * (outside - size) / 2.0;
            asked.put("least-wall", Entry::Mm(least));
        }
        let true_to = self.one_of(&["", "bore", "outside"]);
        asked.text("true-to", true_to);
        if self.often(0.6) {
            asked.text("corner", "0.4 mm");
        }
        self.finish_and_case(&mut asked);
        self.lathe_extras(&mut asked, wild);
        let grip = 0.6 * whole;
        self.lathe_hold(&mut asked, wild, (outside, tenth(grip), tenth(whole - grip)));
        asked
    }

    /// A piece parted off.
    fn part_off(&mut self, wild: bool) -> Asked {
        let mut asked = Asked::new("part-off");
        self.lathe_metal(&mut asked, wild);
        let size = tenth(self.between(6.0, if wild { 80.0 } else { 30.0 }));
        asked.put("outside", Entry::Mm(size));
        let length = tenth(self.between(2.0, 0.8 * size + 3.0));
        asked.text("length", format!("{length:.1} .. {:.1} mm", length + 0.4));
        let bored = self.often(0.5);
        if bored {
            asked.put("bore", Entry::Mm(tenth(0.5 * size)));
        }
        let caught = if bored { self.one_of(&["", "rod", "tray", "sawn"]) } else { self.one_of(&["", "tray", "sawn"]) };
        asked.text("caught", if wild || !caught.is_empty() { caught } else { "tray" });
        let (out, grip) = (length + self.between(4.0, if wild { 60.0 } else { 10.0 }), size + 5.0);
        asked.put("over-all", Entry::Read(out + grip + 1.0, 0.2));
        self.lathe_extras(&mut asked, wild);
        self.lathe_hold(&mut asked, wild, (size, tenth(grip), tenth(out)));
        asked
    }
}
