//! Random bushes.

use super::{Asked, Entry, Maker, Other, THIS};

impl Maker {
    /// A bush; seldom two in one line.
    pub fn bush(&mut self, wild: bool) -> Asked {
        let mut asked = self.one_bush(wild);
        if self.often(if wild { 0.15 } else { 0.1 }) {
            let mut second = asked.clone();
            asked.text("set-up.name", "left");
            asked.text("line-with", format!("\"{THIS}/right\""));
            second.text("set-up.name", "right");
            second.text("line-with", format!("\"{THIS}/left\""));
            asked.other = Some(Box::new(Other::InLine(second)));
        }
        asked
    }

    fn one_bush(&mut self, wild: bool) -> Asked {
        let mut asked = Asked::new("ream-bush");
        let housing = if wild {
            self.one_of(&["cast aluminium", "mild steel", "AZ91", "aluminium", "GG25"])
        } else {
            self.one_of(&["cast aluminium", "mild steel", "cast aluminium"])
        };
        let metal = if wild {
            self.one_of(&[
                "phosphor bronze",
                "leaded bronze",
                "leaded bronze",
                "brass",
                "sintered bronze",
                "bronze",
                "acetal",
            ])
        } else {
            "phosphor bronze"
        };
        asked.part.push(("material", Entry::Text(housing.into())));
        let bore = (self.between(10.0, 40.0) * 1000.0).round() / 1000.0;
        let over = if wild { self.between(-0.02, 0.09) } else { 0.008 + self.between(0.5, 0.8) * bore / 1000.0 };
        let wall = if wild { self.between(0.55, 0.9) } else { self.between(0.68, 0.8) };
        let boss = if wild { self.between(1.25, 3.5) } else { self.between(1.8, 3.0) };
        let (inner, length) = (bore * wall, bore * if wild { self.between(0.6, 1.6) } else { self.between(0.6, 1.0) });
        let doubt = if wild { (0.001, 0.02) } else { (0.002, 0.004) };
        let bush_bore = inner - if wild { 0.0 } else { 0.05 };
        let size = |size: f64, maker: &mut Self| Entry::Read(size, maker.between(doubt.0, doubt.1));
        let housing_bore = size(bore, self);
        let outside = size(bore + over, self);
        let bored = size(bush_bore, self);
        let shaft = size(inner, self);
        asked.put("housing.bore", housing_bore);
        asked.put("housing.outside", Entry::Mm(bore * boss));
        asked.put("housing.length", Entry::Mm(length));
        asked.text("housing.material", housing);
        if !wild || self.often(0.7) {
            let finish = self.one_of(&["Ra 0.8 um", "Ra 1.6 um"]);
            let finish = if wild { finish } else { "Ra 0.8 um" };
            asked.text("housing.finish", finish);
            asked.text("bush.finish", finish);
        }
        if self.often(0.3) {
            let fitted = self.one_of(&["nothing", "seals", "bearings"]);
            asked.text("housing.fitted", if wild { fitted } else { "nothing" });
        }
        if !wild || self.often(0.85) {
            asked.put("bush.outside", outside);
        }
        if !wild || self.often(0.85) {
            asked.put("bush.bore", bored);
        }
        asked.put("bush.length", Entry::Mm(length));
        asked.text("bush.material", metal);
        asked.put("shaft", shaft);
        self.clearance(&mut asked, wild, inner);
        let assemble = self.one_of(&["press", "warm-housing", "chill-bush", "warm-and-chill"]);
        let warms = housing == "cast aluminium" && assemble != "chill-bush";
        asked.text("assemble", if wild || warms { assemble } else { "press" });
        if !wild {
            asked.put("support.inside", Entry::Mm(bore * (1.0 + boss) / 2.0));
            asked.text("support.under", "boss");
            asked.text("near", "[nothing]");
            asked.text("temper", "as-cast");
        }
        let by = self.one_of(&["hand", "hand", "machine"]);
        asked.text("by", if wild { by } else { "hand" });
        self.in_the_bush(&mut asked, wild, length);
        let gauge = self.one_of(&["", "plugs", "shaft"]);
        asked.text("gauge", if wild { gauge } else { "plugs" });
        asked
    }

    fn clearance(&mut self, asked: &mut Asked, wild: bool, shaft: f64) {
        let clearance =
            self.one_of(&["1 .. 2 thou", "0.03 .. 0.06 mm", "H7/f7", if wild { "" } else { "1 .. 2.5 thou" }]);
        let hole = if wild { self.one_of(&["H7/f7", "H7/h6", "H7/p6", "H8/e8"]) } else { "H7/f7" };
        let fit = format!("{shaft:.0} {hole}");
        asked.text("clearance", if clearance == "H7/f7" { &fit } else { clearance });
        if self.often(0.6) || clearance.is_empty() {
            let duty = self.one_of(&["gear", "rocker", "kingpin"]);
            asked.text("duty", duty);
        }
    }

    /// Oil holes, groove, warmth.
    fn in_the_bush(&mut self, asked: &mut Asked, wild: bool, length: f64) {
        if self.often(0.4) {
            let drill = match wild {
                true => self.one_of(&["", "drill: before-press, ", "drill: after-ream, "]),
                false => "",
            };
            let at = length / 3.0;
            let oilway = if wild {
                String::new()
            } else {
                asked.text("hold.in", "clamps");
                asked.text("hold.tested", "30 N·m");
                format!(
                    ", oilway: {{diameter: 5.0 ± 0.1 mm, at: {at:.1} ± 0.2 mm, depth: 5 ± 0.5 mm, open: both-ends}}, stick-out: 30 mm"
                )
            };
            asked.text("oil-holes", format!("[{{diameter: 3 mm, {drill}at: {at:.1} mm{oilway}}}]"));
        }
        if self.often(0.15) {
            let groove = self.one_of(&["around", "lengthwise", "spiral", "split"]);
            asked.text("groove", if wild { groove } else { "around" });
        }
        // Typed with care it says how warm it runs.
        if self.often(if wild { 0.4 } else { 0.9 }) {
            let (shaft, housing) = (self.between(40.0, 130.0), self.between(30.0, if wild { 120.0 } else { 50.0 }));
            if self.often(0.7) {
                asked.text("running.shaft", format!("{:.0} degC", if wild { shaft } else { housing }));
            }
            asked.text("running.housing", format!("{housing:.0} degC"));
        }
    }
}
