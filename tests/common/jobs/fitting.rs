//! Random gaps, floats and fits that were measured.

use super::{Asked, Entry, Maker};

impl Maker {
    /// A gap, a float or a fit.
    pub fn fitting(&mut self, number: u64, wild: bool) -> Asked {
        match number % 3 {
            0 => self.shim(wild),
            1 => self.fit_up(wild),
            _ => self.chain(wild),
        }
    }

    /// A gap of two to five links.
    pub fn chain(&mut self, wild: bool) -> Asked {
        let mut asked = Asked::new("chain");
        let count = 2 + self.chance.bits() % 4;
        let mut links = Vec::new();
        let mut gap = 0.0;
        for nth in 0..count {
            let by = match nth {
                0 => 1.0,
                _ if wild && self.often(0.3) => self.one_of(&["10", "-10", "-2.5"]).parse().unwrap(),
                _ => -1.0,
            };
            let size = (self.between(if nth == 0 { 60.0 } else { 5.0 }, if nth == 0 { 80.0 } else { 15.0 }) * 1000.0)
                .round()
                / 1000.0;
            gap += by * size;
            let size = match self.chance.bits() % if wild { 4 } else { 2 } {
                0 => format!("size: {{size: {size:.3} mm, with: lever indicator}}"),
                1 => format!("size: {size:.3} ± {:.4} mm", self.between(0.002, 0.03)),
                2 => format!("limits: {:.3} .. {:.3} mm", size - 0.02, size + 0.02),
                _ => format!("size: {size:.3} mm"),
            };
            links.push(format!("{{link: link {nth}, by: {by}, {size}}}"));
        }
        asked.text("links", format!("[{}]", links.join(", ")));
        if !wild || self.often(0.8) {
            let half = self.between(0.05, 1.0);
            asked.text("wanted", format!("{:.3} .. {:.3} mm", gap - half, gap + half));
        }
        if wild && self.often(0.5) {
            asked.text("of", "gap from cover to gear");
        }
        asked
    }

    /// An end float with a drawer of shims.
    pub fn shim(&mut self, wild: bool) -> Asked {
        let mut asked = Asked::new("shim");
        let metal = self.one_of(&["mild steel", "GG25", "case-hardened steel", "aluminium"]);
        asked.part.push(("material", Entry::Text(metal.into())));
        let bare = self.between(0.0, if wild { 1.6 } else { 1.0 });
        let low = self.between(if wild { -0.1 } else { 0.05 }, 0.2);
        let half = self.between(0.03, 0.2);
        asked.text("float", format!("{low:.3} .. {:.3} mm", low + 2.0 * half));
        let by_links = !wild || self.often(0.7);
        if by_links {
            let depth = (self.between(40.0, 90.0) * 1000.0).round() / 1000.0;
            let gasket = 0.25;
            let shaft = (depth + gasket - bare - 6.0) * 1000.0;
            let shaft = shaft.round() / 1000.0;
            let doubted = if wild && self.often(0.3) { "" } else { " ± 0.006" };
            let metals = [self.one_of(&["cast aluminium", "GG25", "aluminium"]), self.one_of(&["mild steel", "steel"])];
            let warm_as = if wild && self.often(0.4) { ", warm-as: case" } else { "" };
            let links = [
                format!("{{link: depth, opens: {depth:.3} ± 0.008 mm, material: {}{warm_as}}}", metals[0]),
                format!("{{link: gasket, opens: {gasket:.3}{doubted} mm}}"),
                "{link: spigot, closes: {size: 6.000 mm, with: micrometer}}".to_owned(),
                format!("{{link: shaft, closes: {shaft:.3} ± 0.005 mm, material: {}}}", metals[1]),
            ];
            asked.text("chain", format!("[{}]", links.join(", ")));
        }
        if !by_links || self.often(0.3) {
            let pack = (bare.min(0.5) * 1000.0).round() / 1000.0;
            let found = (bare - pack).max(0.0);
            asked.text("float-found", format!("{{size: {found:.3} ± 0.010 mm, with-pack: {pack:.3} ± 0.004 mm}}"));
        }
        if self.often(0.5) {
            let (case, shaft) = (self.between(20.0, 90.0), self.between(20.0, 90.0));
            asked.text("warm", format!("{{case: {case:.0} degC, shaft: {shaft:.0} degC}}"));
        }
        if wild {
            let pack =
                self.one_of(&["", "{most: 2}", "{most: 0}", "{thin: 0.3 mm, hard-face: bearing, turning-face: gear}"]);
            asked.text("pack", pack);
            let round = self.one_of(&["", "exact", "down to 0.05 mm"]);
            asked.text("round", round);
        }
        asked
    }

    /// A measured shaft in a measured bore.
    pub fn fit_up(&mut self, wild: bool) -> Asked {
        let mut asked = Asked::new("fit-up");
        let metal = self.one_of(&["phosphor bronze", "GG25", "cast aluminium"]);
        asked.part.push(("material", Entry::Text(metal.into())));
        let shaft = (self.between(8.0, 80.0) * 1000.0).round() / 1000.0;
        let room = self.between(if wild { -0.02 } else { 0.02 }, 0.12);
        asked.put("bore", Entry::Read(shaft + room, self.between(0.003, 0.012)));
        asked.put("shaft", Entry::Read(shaft, self.between(0.002, 0.006)));
        if !wild || self.often(0.7) {
            let shaft_metal = self.one_of(&["mild steel", "case-hardened steel", "LM13", "steel"]);
            asked.text("shaft-material", shaft_metal);
        }
        if wild && self.often(0.3) {
            asked.text("bore-material", "phosphor bronze");
        }
        match self.chance.bits() % if wild { 4 } else { 1 } {
            0 | 1 => asked.text("clearance", format!("{:.3} .. {:.3} mm", room.abs() * 0.5, room.abs() * 1.5 + 0.02)),
            2 => asked.text("clearance", format!("{:.0} H7/f7", shaft.round())),
            _ => asked.text("duty", self.one_of(&["gear", "rocker", "general"])),
        }
        if !wild || self.often(0.5) {
            let (bore, shaft) = (self.between(20.0, 120.0), self.between(20.0, 120.0));
            asked.text("running", format!("{{bore: {bore:.0} degC, shaft: {shaft:.0} degC}}"));
            if self.often(0.4) {
                asked.text("carried-by", "GG25");
                if self.often(0.5) {
                    asked.text("bush-wall", self.one_of(&["2 mm", "3 mm", "6 mm"]));
                }
            }
            if wild && self.often(0.5) {
                asked.text("least-running", "0.005 mm");
            }
        }
        asked
    }
}
