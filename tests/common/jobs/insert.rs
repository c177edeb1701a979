//! Random thread inserts.

use super::{Asked, Entry, Maker};

/// Thread, major diameter, pitch, mm; the first are those of a tap drawer, the others wait for a measured tap.
const THREADS: &[(&str, f64, f64)] = &[
    ("M4", 4.0, 0.7),
    ("M5", 5.0, 0.8),
    ("M6", 6.0, 1.0),
    ("M8", 8.0, 1.25),
    ("M8x1", 8.0, 1.0),
    ("M10", 10.0, 1.5),
    ("M12", 12.0, 1.75),
    ("M12x1.5", 12.0, 1.5),
    ("5/16-18 UNC", 7.938, 1.411),
    ("3/8-16 UNC", 9.525, 1.5875),
    ("No. 10-32 UNF", 4.826, 0.794),
    ("1/4 BSF", 6.35, 0.977),
    ("3/8 BSW", 9.525, 1.5875),
    ("2 BA", 4.7, 0.81),
    ("1/4-26 BSC", 6.35, 0.977),
];
const OF_THE_DRAWER: usize = 10;

impl Maker {
    /// An insert.
    pub fn insert(&mut self, wild: bool) -> Asked {
        let threads = &THREADS[..if wild { THREADS.len() } else { OF_THE_DRAWER }];
        let &(thread, major, pitch) = self.one_of(&threads.iter().collect::<Vec<_>>());
        let mut asked = Asked::new("thread-insert");
        let metal = if wild {
            self.one_of(&["cast aluminium", "aluminium", "GG25", "mild steel", "EN8", "AZ91", "LG2", "cast iron"])
        } else {
            self.one_of(&["cast aluminium", "grey-iron-barrel", "mild steel"])
        };
        asked.part.push(("material", Entry::Text(metal.into())));
        asked.text("thread", format!("\"{thread}\""));
        let deep = 1.5 * major + 8.0 * pitch;
        let doubts = if wild { (0.002, 0.6) } else { (0.05, 0.3) };
        let wall = if wild { (2.5 * pitch, 5.0 * major) } else { (deep, deep + 15.0) };
        let wall = self.read(wall.0, wall.1, doubts);
        asked.put("wall", wall);
        self.behind(&mut asked, wild, doubts);
        self.old_hole(&mut asked, wild, (major, pitch), doubts);
        if self.often(0.5) {
            let edge = self.read(if wild { 0.8 } else { 1.6 } * major, 2.5 * major, (0.1, 0.3));
            asked.put("edge", edge);
        }
        let lead = self.one_of(&["", "plug", "bottoming", if wild { "taper" } else { "bottoming" }]);
        asked.text("lead", if wild { lead } else { "bottoming" });
        if self.often(0.6) {
            self.bolt(&mut asked, wild, (major, pitch));
        }
        let (tang, sunk) = (self.one_of(&["", "out", "in"]), self.one_of(&["", "true", "false"]));
        asked.text("tang", if wild { tang } else { "out" });
        asked.text("countersink", sunk);
        asked.text("hold.in", "clamps");
        asked.text("hold.tested", "200 N·m");
        self.zero(&mut asked, wild);
        if wild && self.often(0.2) {
            asked.text("length", "2D");
        }
        asked
    }

    /// Through or blind, and what lies behind.
    fn behind(&mut self, asked: &mut Asked, wild: bool, doubts: (f64, f64)) {
        let through = self.often(0.3);
        asked.text("hole", if through { "through" } else { "blind" });
        if through && !wild {
            asked.text("beyond", "clear");
        } else if through && self.often(0.8) {
            let beyond = self.read(1.0, 25.0, doubts);
            asked.put("beyond", beyond);
        }
        if self.often(0.5) {
            let least = self.between(0.5, 3.0);
            asked.put("least-left", Entry::Mm(least));
        }
    }

    fn old_hole(&mut self, asked: &mut Asked, wild: bool, (major, pitch): (f64, f64), doubts: (f64, f64)) {
        if self.often(if wild { 0.15 } else { 0.4 }) {
            asked.text("present-hole", "none");
        } else if !wild || self.often(0.8) {
            let hole = self.read(major - pitch, major + if wild { 0.3 * pitch } else { 0.05 * pitch }, (0.01, 0.08));
            asked.put("present-hole", hole);
            if !wild || self.often(0.7) {
                let depth = self.read(0.8 * major, if wild { 2.0 } else { 1.5 } * major, doubts);
                asked.put("present-depth", depth);
            }
            if !wild || self.often(0.5) {
                let chamfer = self.read(0.2, 1.0, (0.02, 0.1));
                asked.put("present-chamfer", chamfer);
            }
        }
    }

    fn bolt(&mut self, asked: &mut Asked, wild: bool, (major, pitch): (f64, f64)) {
        let class = self.one_of(&["\"4.6\"", "\"8.8\"", if wild { "BS R" } else { "\"5.8\"" }]);
        asked.text("bolt.class", if wild { class } else { "\"4.6\"" });
        if !wild || self.often(0.85) {
            let (least, most) = if wild { (0.7 * major, 2.2 * major) } else { (1.2 * major, 1.5 * major - pitch) };
            let reach = self.between(least, most);
            asked.put("bolt.reach", Entry::Mm(reach));
        }
        if self.often(0.5) {
            let torque = self.between(0.006, if wild { 0.06 } else { 0.014 }) * major.powi(3);
            asked.text("bolt.torque", format!("{torque:.2} N·m"));
        }
        let threads = self.one_of(&["", "dry", "oiled"]);
        asked.text("bolt.threads", threads);
        if self.often(0.1) {
            asked.text("bolt.nut-factor", "0.17");
        }
    }

    fn zero(&mut self, asked: &mut Asked, wild: bool) {
        let zero = self.one_of(&[
            "",
            "",
            "face",
            "strip",
            if wild { "corner" } else { "" },
            if wild { "old-hole" } else { "" },
        ]);
        asked.text("zero", zero);
        if zero == "strip" && self.often(0.5) {
            asked.text("strip", "0.50 mm");
        }
    }
}
