//! Random parts trued in their chuck.

use super::{Asked, Entry, Maker};

impl Maker {
    /// Readings round a part, in four jaws, in three or on a faceplate.
    pub fn truing(&mut self, wild: bool) -> Asked {
        let mut asked = Asked::new("set-true");
        let metal = self.one_of(&["mild steel", "GG25", "case-hardened steel", "LG2"]);
        asked.part.push(("material", Entry::Text(metal.into())));
        let held = self.one_of(&["four-jaw", "four-jaw", "three-jaw", "faceplate"]);
        asked.text("hold.in", held);
        if !wild {
            asked.put("hold.diameter", Entry::Mm(60.0));
        }
        if !wild || self.often(0.7) {
            asked.text("with", "lever indicator");
        }
        let places = if wild { self.one_of(&["3", "4", "5", "6", "8", "12"]) } else { self.one_of(&["4", "8"]) };
        let places: u32 = places.parse().unwrap();
        match self.chance.bits() % if wild { 3 } else { 2 } {
            0 => {
                let angles = (0..places).map(|k| format!("{}", 360 * k / places)).collect::<Vec<_>>().join(" ");
                let reads = self.reads(places as usize);
                asked.text("readings", format!("{{at: {angles} deg, reads: {reads}}}"));
            }
            1 => {
                let reads = self.reads(4);
                asked.text("jaw-readings", reads);
            }
            _ => {
                let (off, towards) = (self.between(0.005, 0.3), self.between(0.0, 359.0));
                asked.text("found", format!("{{eccentricity: {off:.3} ± 0.003 mm, towards: {towards:.0} deg}}"));
            }
        }
        let within = self.between(if wild { 0.005 } else { 0.03 }, 0.1);
        asked.put("true-within", Entry::Mm(within));
        if self.often(0.4) {
            let reads = self.reads(4);
            asked.text("face-readings", reads);
            asked.put("face-diameter", Entry::Mm(60.0));
            let (outside, square) = (self.between(60.0, 120.0), self.between(0.01, 0.1));
            asked.put("face-outside", Entry::Mm(outside));
            asked.put("square-within", Entry::Mm(square));
        }
        if wild {
            let (jaws, indicator) = (self.one_of(&["", "outside", "inside"]), self.one_of(&["", "outside", "inside"]));
            asked.text("jaws", jaws);
            asked.text("indicator", indicator);
            let (plunger, counts) = (self.one_of(&["", "plus", "minus"]), self.one_of(&["", "tir", "eccentricity"]));
            asked.text("plunger-in", plunger);
            asked.text("counts", counts);
            let last = self.one_of(&["", "three-jaw", "collet"]);
            asked.text("last-held-in", last);
        }
        if asked.get("jaw-readings").is_some() && self.often(0.4) {
            let reads = self.reads(4);
            asked.text("second", format!("{{jaw-readings: {reads}, apart: 80 mm}}"));
        }
        asked
    }

    fn reads(&mut self, places: usize) -> String {
        let all: Vec<String> = (0..places).map(|_| format!("{:.0}", self.between(-60.0, 60.0))).collect();
        format!("{} um", all.join(" "))
    }
}
