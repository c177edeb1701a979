//! Random work beside the press: parts warmed, made cold, pressed in and out.

use super::{Asked, Entry, Maker};

const HOUSINGS: &[&str] = &["cast aluminium", "6082-T6", "AZ91", "GG25", "mild steel", "ductile iron"];
const BUSHES: &[&str] = &["LG2", "phosphor bronze", "mild steel", "GG25", "case-hardened steel"];

/// Thickness of a shoulder, mm.
const THICK: f64 = 3.0;

impl Maker {
    /// One of them.
    pub fn pressing(&mut self, wild: bool) -> Asked {
        match self.chance.bits() % 4 {
            0 => self.warm(wild),
            1 => self.chill(wild),
            2 => self.press_in(wild),
            _ => self.press_out(wild),
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
            asked.text("chilled-in", self.one_of(&["freezer", "dry-ice", "nitrogen", ""]));
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

    fn press_in(&mut self, wild: bool) -> Asked {
        let mut asked = self.on_part("press-in", if wild { HOUSINGS } else { &["cast aluminium", "6082-T6"] });
        let d = self.between(15.0, if wild { 60.0 } else { 25.0 });
        let doubt = if wild { 0.006 } else { 0.002 };
        asked.put("housing.bore", Entry::Read(d, doubt));
        let length = d * self.between(0.6, if wild { 2.0 } else { 0.8 });
        let outside = d * self.between(1.9, if wild { 2.0 } else { 2.6 });
        asked.text("housing.outside", format!("{outside:.2} mm"));
        asked.text("housing.length", format!("{length:.1} mm"));
        asked.text("housing.finish", "Ra 0.8 um");
        let tight = d * self.between(0.0007, if wild { 0.003 } else { 0.0009 });
        asked.put("bush.outside", Entry::Read(d + tight, doubt));
        asked.put("bush.bore", Entry::Read(d * self.between(0.7, if wild { 0.9 } else { 0.75 }), doubt));
        let bush = if wild && self.often(0.4) { length * self.between(1.05, 1.5) } else { length };
        asked.text("bush.length", format!("{bush:.1} mm"));
        asked.text("bush.material", self.one_of(if wild { BUSHES } else { &["phosphor bronze"] }));
        asked.text("bush.finish", "Ra 0.8 um");
        if wild && self.often(0.4) {
            asked.text("flange.diameter", format!("{:.1} mm", d * 1.4));
            asked.text("flange.thickness", "2 mm");
        }
        asked.text("stands", self.one_of(&["flush", "proud", ""]));
        if wild {
            asked.text("bored-after", self.one_of(&["true", "false", ""]));
            asked.text("opened-by", self.one_of(&["0.05 mm", "0.12 mm", "", "", ""]));
            let by = self.one_of(&["0.01 mm", "0.1 mm", "", "", ""]);
            asked.text("chilled-by", by);
            if !by.is_empty() {
                asked.text("chilled-in", self.one_of(&["freezer", "dry-ice", "nitrogen", "", ""]));
            }
            if self.often(0.5) {
                asked.text("running.housing", format!("{:.0} degC", self.between(40.0, 120.0)));
            }
        }
        asked.text("support.inside", format!("{:.1} mm", d * self.between(1.1, if wild { 2.0 } else { 1.2 })));
        let under = self.one_of(&["boss", "boss", "thin-flange", ""]);
        asked.text("support.under", if wild { under } else { "boss" });
        if wild && self.often(0.5) {
            asked.text("support.height", format!("{:.1} mm", self.between(2.0, 30.0)));
        }
        asked
    }

    fn press_out(&mut self, wild: bool) -> Asked {
        let mut asked = self.on_part("press-out", if wild { HOUSINGS } else { &["cast aluminium", "6082-T6"] });
        let d = self.between(15.0, if wild { 60.0 } else { 25.0 });
        let length = d * self.between(0.6, if wild { 2.0 } else { 0.8 });
        asked.text("housing.outside", format!("{:.2} mm", d * self.between(1.9, 2.6)));
        asked.text("housing.length", format!("{length:.1} mm"));
        let shoulder = self.one_of(&["nothing", "shoulder", "flange", "both", ""]);
        let held = if wild { shoulder } else { self.one_of(&["nothing", "shoulder"]) };
        let shoulder = held == "shoulder" || (held == "both" && self.often(0.5));
        if shoulder {
            asked.text("housing.shoulder-bore", format!("{:.2} mm", d * 0.97));
            asked.text("housing.shoulder-thickness", format!("{THICK:.1} mm"));
        }
        asked.put("bush.outside", Entry::Read(d, 0.02));
        asked.put("bush.bore", Entry::Read(d * self.between(0.7, if wild { 0.9 } else { 0.75 }), 0.02));
        asked.text("bush.length", format!("{length:.1} mm"));
        asked.text("bush.material", self.one_of(if wild { BUSHES } else { &["phosphor bronze"] }));
        let known = !wild || self.often(0.8);
        let tight = format!("{:.4} mm", d * self.between(0.0007, if wild { 0.003 } else { 0.0009 }));
        asked.text("interference", if known { tight } else { String::new() });
        asked.text("held-by", held);
        let from = self.one_of(&["outer", "inner", ""]);
        asked.text("push-from", if wild { from } else { "inner" });
        if held == "flange" && self.often(0.7) {
            asked.text("flange.diameter", format!("{:.1} mm", d * 1.15));
            asked.text("flange.thickness", "2 mm");
        }
        let share = self.between(0.93, if wild { 1.0 } else { 0.95 });
        asked.text("mandrel.diameter", format!("{:.2} mm", d * share));
        let through = if shoulder { THICK } else { 0.0 };
        asked.text("mandrel.length", format!("{:.0} mm", through + length * self.between(1.1, 1.5)));
        asked.text("support.inside", format!("{:.1} mm", d * self.between(1.1, 1.3)));
        asked.text("support.height", format!("{:.0} mm", length * self.between(if wild { 0.8 } else { 1.1 }, 1.6)));
        let under = self.one_of(&["boss", "boss", "thin-flange", ""]);
        asked.text("support.under", if wild { under } else { "boss" });
        if wild {
            asked.text("temper", "artificial");
            asked.text("warm-to", self.one_of(&["90 degC", "170 degC", ""]));
            asked.text("near", self.one_of(&["[nothing]", "[seals]", "[bearings, paint]", ""]));
            asked.text("guarded", self.one_of(&["true", "false", ""]));
        }
        asked
    }
}
