//! Random work by hand: washing, measuring, deburring, and what a job says in its own words.

use super::{Asked, Entry, Maker};

const METALS: &[&str] =
    &["cast aluminium", "mild steel", "GG25", "AZ91", "LG2", "case-hardened steel", "friction lining"];

impl Maker {
    /// One of the four.
    pub fn by_hand(&mut self, wild: bool) -> Asked {
        // In turn: there are few of them, and each must come.
        self.chance.bits();
        match self.number / 42 % 4 {
            0 => self.wash(wild),
            1 => self.measure(wild),
            2 => self.deburr(wild),
            _ => self.hand(wild),
        }
    }

    fn of_metal(&mut self, word: &'static str, wild: bool) -> Asked {
        let mut asked = Asked::new(word);
        let metal = self.one_of(METALS);
        if !wild || self.often(0.8) {
            asked.part.push(("material", Entry::Text(metal.into())));
        } else {
            asked.part.push(("note", Entry::Text("metal not known".into())));
        }
        asked
    }

    fn wash(&mut self, wild: bool) -> Asked {
        let mut asked = self.of_metal("wash", wild);
        let usual = ["paraffin", "water and detergent"];
        let all = ["paraffin", "white spirit", "hot caustic", "phosphoric pickle", "petrol", "brake cleaner"];
        let cleaner = if wild { self.one_of(&all) } else { self.one_of(&usual) };
        asked.text("cleaner", cleaner);
        let dirt = self.one_of(&["oil", "grit", "carbon", "sealant"]);
        asked.text("dirt", dirt);
        if !wild || self.often(0.7) {
            let (count, out) = (self.one_of(&["0", "1", "4"]), self.one_of(&["true", "true", "false"]));
            asked.text("cavities", count);
            asked.text("plugs-out", if wild { out } else { "true" });
        }
        asked
    }

    fn measure(&mut self, wild: bool) -> Asked {
        let mut asked = self.of_metal("measure", wild);
        let middle = self.between(2.0, if wild { 60.0 } else { 24.0 });
        let window = self.between(if wild { 0.004 } else { 0.04 }, 0.2);
        let gauge = if wild { self.one_of(&["outside", "inside", "depth"]) } else { "outside" };
        let mut size = format!("{{name: the size, gauge: {gauge}");
        if !wild || self.often(0.8) {
            size += &format!(", size: {:.4} .. {:.4} mm", middle, middle + window);
        }
        if self.often(0.3) {
            size += ", readings: 6";
        }
        asked.text("what", format!("[{size}}}]"));
        if self.often(0.6) {
            let warm = self.between(15.0, if wild { 60.0 } else { 24.0 });
            asked.text("temperature", format!("{warm:.1} degC"));
        }
        let cooled = self.one_of(&["", "true", "false"]);
        asked.text("cooled", cooled);
        asked
    }

    fn deburr(&mut self, wild: bool) -> Asked {
        let mut asked = self.of_metal("deburr", wild);
        let edges = self.one_of(&["1", "4", "12"]);
        asked.text("edges", edges);
        let by =
            self.one_of(if wild { &["stone", "emery", "file", "countersink"] } else { &["stone", "file", "scraper"] });
        asked.text("by", by);
        let turning = self.one_of(&["", "false", if wild { "true" } else { "false" }]);
        asked.text("turning", turning);
        asked
    }

    fn hand(&mut self, wild: bool) -> Asked {
        let mut asked = self.of_metal("hand", wild);
        asked.text("does", "\"Fit the new gasket, dry.\"");
        if !wild || self.often(0.6) {
            asked.text("minutes", "20 min");
        }
        if self.often(0.4) {
            asked.text("waits", "{minutes: 1.5 h, watched: true, holds: false}");
        }
        if self.often(0.5) {
            asked.text("needs", "[washed]");
            asked.text("leaves", "[joined]");
        }
        asked
    }
}
