//! Random work beside the press: parts warmed, made cold, pressed in and out.

use super::{Asked, Entry, Maker};

const HOUSINGS: &[&str] = &["cast aluminium", "6082-T6", "AZ91", "GG25", "mild steel", "ductile iron"];
const BUSHES: &[&str] = &["LG2", "phosphor bronze", "mild steel", "GG25", "case-hardened steel"];

impl Maker {
    /// One of them.
    pub fn pressing(&mut self, wild: bool) -> Asked {
        match self.chance.bits() % 2 {
            0 => self.warm(wild),
            _ => self.chill(wild),
        }
    }

    fn on_part(&mut self, word: &'static str, metals: &[&'static str]) -> Asked {
        let mut asked = Asked::new(word);
        let metal = self.one_of(metals);
        asked.part.push(("material", Entry::Text(metal.into())));
        asked
    }

    fn warm(&mut self, wild: bool) -> Asked {
        let mut asked = self.on_part("warm", HOUSINGS);
        let bore = self.between(8.0, if wild { 80.0 } else { 40.0 });
        let wall = self.between(3.0, 20.0);
        asked.text("bore", format!("{bore:.2} mm"));
        asked.text("outside", format!("{:.2} mm", bore + 2.0 * wall));
        asked.text("length", format!("{:.1} mm", bore * self.between(0.5, 1.5)));
        let typed = wild && self.often(0.5);
        if !typed || self.often(0.6) {
            asked.text("interference", format!("{:.4} mm", self.between(0.004, if wild { 0.09 } else { 0.03 })));
        }
        if typed || self.often(0.2) {
            asked.text("to", format!("{:.0} degC", self.between(40.0, if wild { 260.0 } else { 120.0 })));
        }
        if self.often(0.4) {
            asked.text("chilled-by", format!("{:.4} mm", self.between(0.002, 0.02)));
        }
        let near = self.one_of(&["[nothing]", "[nothing]", "[paint, oil]", "[seals, bearings]", "[magnets]", ""]);
        asked.text("near", if wild { near } else { "[nothing]" });
        let temper = self.one_of(&["as-cast", "artificial", "natural", ""]);
        asked.text("temper", if wild { temper } else { "artificial" });
        asked
    }

    fn chill(&mut self, wild: bool) -> Asked {
        let mut asked = self.on_part("chill", BUSHES);
        let cold = self.one_of(if wild { &["freezer", "dry-ice", "nitrogen"] } else { &["freezer"] });
        asked.text("in", cold);
        let outside = self.between(8.0, if wild { 80.0 } else { 40.0 });
        asked.text("outside", format!("{outside:.2} mm"));
        if self.often(0.8) {
            asked.text("bore", format!("{:.2} mm", outside * self.between(0.5, 0.9)));
        }
        asked.text("length", format!("{:.1} mm", outside * self.between(0.5, 1.5)));
        if !wild || self.often(0.7) {
            asked.text("interference", format!("{:.4} mm", self.between(0.004, 0.04)));
        }
        if !wild || self.often(0.5) {
            asked.text("opened-by", format!("{:.4} mm", self.between(0.03, 0.08)));
        }
        for key in ["bagged", "aired", "plated"] {
            let said = self.one_of(if wild { &["true", "false", ""] } else { &["true"] });
            asked.text(key, if key == "plated" && !wild { "false" } else { said });
        }
        asked
    }
}
