//! Random facing cuts: `face` and `skim`.

use super::{Asked, BESIDE, Entry, Maker, Other, THIS};

/// Sizes that the rest stands on, mm.
#[derive(Clone, Copy)]
struct Ring {
    outside: f64,
    inside: f64,
    length: f64,
}

impl Maker {
    /// A facing cut; seldom one half of a pair.
    pub fn facing(&mut self, word: &'static str, wild: bool) -> Asked {
        let mut asked = self.one_face(word, wild);
        if word == "skim" && self.often(0.15) {
            let mut half = asked.clone();
            let wear = self.read(0.02, 0.2, (0.005, 0.03));
            half = half.with("wear", wear);
            asked.text("pair", format!("\"{BESIDE}\""));
            half.text("pair", format!("\"{THIS}\""));
            asked.other = Some(Box::new(Other::OfAPair(half)));
        }
        asked
    }

    fn one_face(&mut self, word: &'static str, wild: bool) -> Asked {
        let mut asked = Asked::new(word);
        let face = word == "face";
        let hard = face && self.often(0.4);
        self.metal(&mut asked, wild, hard);
        let outside = (if wild { self.between(20.0, 220.0) } else { self.between(40.0, 130.0) } * 10.0).round() / 10.0;
        let share = if wild { self.between(0.0, 0.9) } else { self.between(0.2, 0.5) };
        let inside = if share < 0.1 { 0.0 } else { (outside * share * 10.0).round() / 10.0 };
        let length = if wild { self.between(3.0, 70.0) } else { outside * self.between(0.5, 0.7) };
        let ring = Ring { outside, inside, length };
        asked.put("outside", Entry::Mm(outside));
        if inside > 0.0 {
            asked.put("inside", Entry::Mm(inside));
        }
        let doubt = self.between(0.005, 0.03);
        asked.put("length", Entry::Read(length, doubt));
        let dish = !face && self.often(0.5);
        if !dish || self.often(0.7) {
            let wear = self.read(0.02, if wild { 0.6 } else { 0.3 }, (0.005, 0.02));
            asked.put("wear", wear);
        }
        if dish {
            let depth = self.read(0.03, 0.15, (0.01, 0.02));
            asked.put("dish", depth);
            let from = self.one_of(&["straight-edge", "local"]);
            asked.text("from", from);
        }
        asked.text("finish", if hard { "Ra 1.6 um" } else { "Ra 3.2 um" });
        if !wild || self.often(0.6) {
            let flat = self.between(0.02, 0.08);
            asked.put("flat-within", Entry::Mm(flat));
        }
        if face {
            self.of_a_face(&mut asked, wild, hard, ring);
        } else {
            self.of_a_skim(&mut asked, ring);
        }
        if wild && self.often(0.2) {
            let gaps = self.one_of(&["2", "4", "6"]);
            asked.text("interrupted", gaps);
        }
        if wild && self.often(0.3) {
            asked.text("feed-direction", "outward");
        }
        if self.often(if wild { 0.15 } else { 0.05 }) {
            let (mass, off) = (self.between(0.5, 6.0), self.between(0.05, 3.0));
            asked.text("mass", format!("{mass:.2} kg"));
            asked.put("off-centre", Entry::Mm(off));
        }
        self.hold(&mut asked, wild, ring);
        if self.often(0.4) {
            asked.put("thickness-at-rim", Entry::Read(length, 0.02));
        }
        asked
    }

    fn metal(&mut self, asked: &mut Asked, wild: bool, hard: bool) {
        let metal = match (hard, wild) {
            (true, _) => "case-hardened steel",
            (false, true) => self.one_of(&["mild steel", "cast iron", "EN8", "LG2", "GG25", "stainless"]),
            (false, false) => self.one_of(&["mild steel", "grey-iron-soft"]),
        };
        asked.part.push(("material", Entry::Text(metal.into())));
        if hard {
            let hrc = self.between(57.0, 62.0);
            asked.part.push(("hardness", Entry::Text(format!("{hrc:.0} HRC"))));
            if !wild || self.often(0.9) {
                let case = self.read(if wild { 0.8 } else { 1.2 }, 1.6, (0.03, 0.12));
                asked.part.push(("case-depth", case));
            }
        }
    }

    fn of_a_face(&mut self, asked: &mut Asked, wild: bool, hard: bool, ring: Ring) {
        if self.often(0.6) {
            asked.put("square-within", Entry::Mm(0.03));
        }
        let least = ring.length - self.between(0.7, 1.5);
        asked.put("least-length", Entry::Mm(least));
        if hard {
            let least = self.between(0.2, if wild { 0.6 } else { 0.4 });
            asked.put("least-case", Entry::Mm(least));
        }
        if !wild || self.often(0.5) {
            let before = self.read(0.02, 0.1, (0.005, 0.02));
            asked.put("removed-before", if self.often(0.5) { Entry::Text("0 mm".into()) } else { before });
        }
        if self.often(0.3) {
            let way = self.one_of(&["opens", "closes"]);
            asked.text("float", way);
            let found = self.read(if wild { 0.2 } else { 0.5 }, 0.8, (0.005, 0.02));
            asked.put("as-found-float", found);
            let rides = self.one_of(&["in-groove", "across"]);
            asked.text("bears", rides);
            if self.often(0.5) {
                asked.text("float-wanted", "0.10 .. 0.25 mm");
            }
        }
        if ring.inside > 0.0 && self.often(0.25) {
            let wall = ring.outside - ring.inside;
            asked.put("relief.outside", Entry::Mm(ring.outside - 0.3 * wall));
            asked.put("relief.inside", Entry::Mm(ring.inside + 0.3 * wall));
            let depth = self.read(0.8, 1.4, (0.02, 0.05));
            asked.put("relief.depth", depth);
            asked.put("relief.gap", Entry::Mm(0.2));
        }
    }

    fn of_a_skim(&mut self, asked: &mut Asked, ring: Ring) {
        let least = ring.length - self.between(0.6, 1.4);
        asked.put("least-thickness", Entry::Mm(least));
        if self.often(0.4) {
            // A step is not higher than the part is thick: the metal under it would be what decides, and more step were worse.
            let most = (0.5 * ring.length).min(4.0);
            let present = self.read(0.5 * most, most, (0.01, 0.05));
            asked.put("step.present", present);
            let cut = self.one_of(&["same", "none", "0.10 mm"]);
            asked.text("step.cut", cut);
            if self.often(0.6) {
                asked.text("springs.count", "6");
                asked.text("springs.rate", "9 N/mm");
                if self.often(0.7) {
                    asked.text("springs.most-change", "40 N");
                }
            }
        }
        if self.often(0.25) {
            let height = self.read(20.0, 30.0, (0.02, 0.1));
            let Entry::Read(size, _) = height else { return };
            asked.put("pack.height", height);
            let least = size - self.between(0.3, 1.0);
            asked.put("pack.least", Entry::Mm(least));
            asked.text("pack.plates", "8");
            let is_a_plate = self.one_of(&["", "true", "false"]);
            asked.text("pack.is-a-plate", is_a_plate);
        }
    }

    fn hold(&mut self, asked: &mut Asked, wild: bool, ring: Ring) {
        let held = match wild {
            true => self.one_of(&["soft-jaws", "jaws", "four-jaw", "mandrel", "faceplate", "collet", "clamps"]),
            false => "soft-jaws",
        };
        // A mandrel stands in a bore.
        let held = if held == "mandrel" && ring.inside <= 0.0 { "collet" } else { held };
        asked.text("hold.in", held);
        let on_a_mandrel = held == "mandrel";
        let grips_inside = wild && !on_a_mandrel && ring.inside > 30.0 && self.often(0.2);
        let on_a_hub = wild && self.often(0.3);
        let own_bore = on_a_hub && ring.inside > 20.0 && self.often(0.4);
        let gripped = match (grips_inside || on_a_mandrel, own_bore, on_a_hub) {
            (true, _, _) => ring.inside,
            (_, true, _) => 0.8 * ring.inside,
            (_, _, true) => ring.inside + (ring.outside - ring.inside) * 0.6,
            _ => ring.outside,
        };
        asked.put("hold.diameter", Entry::Mm(gripped));
        if own_bore && !grips_inside && !on_a_mandrel {
            asked.put("hold.inside", Entry::Mm(0.3 * ring.inside));
        }
        let grip = if wild { self.between(0.05, 0.95) } else { self.between(0.5, 0.65) } * ring.length;
        if !wild || self.often(0.9) {
            asked.put("hold.grip", Entry::Mm(grip));
        }
        if !wild || self.often(0.8) {
            let room = ring.length - grip;
            asked.put("hold.overhang", Entry::Mm(if wild { self.between(0.0, 1.0) * room } else { room }));
        }
        let true_within = self.one_of(&["0.01 mm", "0.02 mm", "0.03 mm"]);
        asked.put("hold.true-within", Entry::Text(if wild { true_within } else { "0.03 mm" }.into()));
        let nipped = self.one_of(&["", "light", "normal", "hard"]);
        asked.text("hold.nipped", if wild { nipped } else { "normal" });
        if self.often(if matches!(held, "jaws" | "soft-jaws" | "four-jaw") { 0.2 } else { 0.7 }) {
            let torque = self.between(if wild { 10.0 } else { 60.0 }, 120.0);
            asked.text("hold.tested", format!("{torque:.0} N·m"));
        }
        let stop = self.one_of(&["", "none", "step", "rod"]);
        // What has no jaws has no step of them.
        let stop = if stop == "step" && !held.ends_with("jaws") && held != "four-jaw" { "" } else { stop };
        asked.text("hold.stop", if wild { stop } else { "step" });
        if grips_inside {
            asked.text("hold.grips", "inside");
        }
    }
}
