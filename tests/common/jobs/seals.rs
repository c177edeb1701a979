//! Random tracks of lip seals.

use super::{Asked, Entry, Maker};

impl Maker {
    /// A track with its groove.
    pub fn seal_track(&mut self, wild: bool) -> Asked {
        let mut asked = Asked::new("polish-seal");
        let metal = self.one_of(if wild {
            &["mild steel", "GG25", "LG2", "case-hardened steel", "friction lining"]
        } else {
            &["case-hardened steel", "mild steel"]
        });
        asked.part.push(("material", Entry::Text(metal.into())));
        if !wild || self.often(0.7) {
            let hard = self.one_of(&["58 HRC", "50 HRC", "650 HV", "40 HRC", "200 HB"]);
            asked.part.push(("hardness", Entry::Text(hard.into())));
        }
        if self.often(0.7) {
            let case = self.read(0.3, 1.2, (0.02, 0.15));
            asked.part.push(("case-depth", case));
        }
        let track = self.one_of(&["12", "25", "40", "60"]);
        let track: f64 = track.parse().unwrap();
        asked.put("track", Entry::Mm(track));
        let worn = self.between(0.0, if wild { 0.15 } else { 0.05 });
        let doubt = self.between(0.002, 0.008);
        asked.put("size", Entry::Read(((track - worn) * 1000.0).round() / 1000.0, doubt));
        let groove = self.read(0.006, if wild { 0.08 } else { 0.016 }, (0.001, 0.004));
        asked.put("groove", groove);
        if self.often(0.7) {
            for (key, low, high) in [("groove-width", 0.3, 1.5), ("lip-width", 0.2, 0.8), ("free-track", 0.5, 6.0)] {
                let wide = self.between(low, high);
                asked.put(key, Entry::Mm(wide));
            }
        }
        if !wild || self.often(0.8) {
            let (out, off) = (self.read(0.01, 0.16, (0.002, 0.01)), self.read(0.01, 0.1, (0.004, 0.02)));
            asked.put("run-out", out);
            asked.put("seal-off-centre", off);
            let speed = self.one_of(&["600 rev/min", "1800 rev/min", "4500 rev/min"]);
            asked.text("speed", speed);
            let dirt = self.one_of(&["", "clean", "clean", "dirty"]);
            asked.text("dirt", dirt);
            if self.often(0.8) {
                let swings = self.one_of(&["90 mm", "200 mm"]);
                asked.text("swings", swings);
            }
        }
        let finish = self.one_of(&["", "Ra 0.2 .. 0.8 um", "Ra 0.3 .. 0.6 um", if wild { "Ra 0.8 um" } else { "" }]);
        asked.text("finish", finish);
        let found = self.one_of(&["", "Ra 1.1 um", "Ra 0.4 um"]);
        asked.text("finish-found", found);
        let lead = self.one_of(if wild { &["", "still", "walks"] } else { &["", "still", "still"] });
        asked.text("lead", lead);
        if self.often(0.3) {
            asked.put("passes-over", Entry::Mm(track + 0.3));
        }
        if self.often(0.3) {
            asked.put("sleeve-wall", Entry::Mm(0.25));
        }
        if self.often(0.5) {
            let before = self.read(0.0, 0.1, (0.002, 0.01));
            asked.put("removed-before", before);
        }
        asked
    }
}
