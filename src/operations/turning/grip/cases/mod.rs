//! Cases of the hold with a typed cutting force, so that nothing else is judged: to the digits printed in [`printed`], by what
//! is known in [`known`], and what must hold between neighbours in [`worse`].

mod known;
mod printed;
mod worse;

use super::{Cut, Held, Kept, Under, Way};
use crate::handbook::Material;
use crate::operations::{Answer, Hold};
use crate::proof::{CheckRule, Outcome, Place, Verdict, Worked};
use crate::quantity::{Kilogram, Mm, Newton, Quantity, RevPerMin};
use crate::reading::Node;
use crate::shop::Chuck;

/// What weighs in these cases.
const CHECKS: &[CheckRule] = &[
    CheckRule::must("grip", &["hold.diameter", "hold.grip", "hold.overhang"]),
    CheckRule::must("grip-moment", &["hold.diameter", "hold.grip", "hold.overhang"]),
    CheckRule::must("grip-length", &["hold.grip", "hold.overhang", "hold.diameter"]),
    CheckRule::must("jaw-pressure", &["hold.grip"]),
    CheckRule::must("jaw-reach", &["hold.diameter"]),
    CheckRule::must("tool-clear", &["hold.overhang"]),
    CheckRule::must("overhang", &["hold.overhang", "hold.diameter"]),
    CheckRule::must("ring-stress", &["hold.diameter"]),
    CheckRule::must("dish", &["hold.diameter", "flat-within"]),
    CheckRule::must("flange", &["hold.diameter", "thickness-at-rim"]),
    CheckRule::must("grip-looked-at", &["hold.tested"]),
    CheckRule::may("ring-lobe", &["hold.diameter", "hold.true-within"]),
    CheckRule::may("square", &["square-within", "hold.true-within"]),
    CheckRule::may("gives-way", &["hold.overhang", "square-within"]),
];

/// A hold as it would be typed, and the cut.
#[derive(Clone)]
struct Case {
    hold: String,
    chuck: String,
    material: &'static str,
    /// Outside, inside, length; inside 0 is solid.
    sizes: [f64; 3],
    /// Length or thickness after the cut and its doubt.
    left: (f64, f64),
    removed: f64,
    nose: f64,
    /// Force used, and its worst end.
    force: (f64, f64),
    /// Doubt of what is remembered of the force.
    remembered: f64,
    step: f64,
    gaps: u32,
    mass: Option<f64>,
    flat: Option<f64>,
    square: Option<f64>,
    rim: Option<f64>,
    pushes_back: bool,
    shop: bool,
}

/// A chuck of 160 mm that turns so slowly that nothing is lost.
const CHUCK: &str = "{most: 1e9 rev/min, jaw-force: 20 kN, diameter: 160 mm}";

impl Case {
    fn new(hold: &str, sizes: [f64; 3], force: f64) -> Self {
        Self {
            hold: hold.into(),
            chuck: CHUCK.replace("1e9", "60000"),
            material: "mild steel",
            sizes,
            left: (sizes[2], 0.0),
            removed: 0.0,
            nose: 0.2,
            force: (force, force),
            remembered: 0.0,
            step: 1.0,
            gaps: 0,
            mass: None,
            flat: None,
            square: None,
            rim: None,
            pushes_back: false,
            shop: true,
        }
    }

    fn hold(&self, from: &str, to: &str) -> Self {
        assert!(self.hold.contains(from), "no `{from}` in {}", self.hold);
        Self { hold: self.hold.replace(from, to), ..self.clone() }
    }

    fn judged(&self) -> Answer {
        let read = |text: &str| Node::yaml(text, Place::start(0)).unwrap();
        let hold: Hold = read(&self.hold).read().unwrap();
        let chuck: Option<Chuck> = (!self.chuck.is_empty()).then(|| read(&self.chuck).read().unwrap());
        let material: Material = self.material.parse().unwrap();
        let mm = |number: f64| Worked::assumed(Mm::new(number), "a case");
        let force = Worked::assumed(Newton::new(self.force.0), "a case").with_band(self.force.0, self.force.1);
        let force = force.with_doubt(crate::proof::Cause::Named("remembered"), self.remembered);
        let (step, nose) = (Worked::assumed(RevPerMin::new(self.step), "a case"), mm(self.nose));
        let true_within = hold.true_within.as_ref().map(Worked::<Mm>::from);
        let flat = self.flat.or(self.square).map(mm).or_else(|| true_within.clone());
        let under = Under {
            hold: &hold,
            bore: None,
            scroll: None,
            chuck: chuck.as_ref(),
            in_shop: self.shop,
            guard: 2.0,
            material: &material,
            cut_at: mm(self.sizes[0]),
            outside: mm(self.sizes[0]),
            thickest: mm(self.sizes[0]),
            inside: Worked::exact(Mm::new(self.sizes[1]), crate::proof::Origin::Typed(Place::start(0))),
            length: mm(self.sizes[2]),
            left: mm(self.left.0).with_doubt(crate::proof::Cause::Named("length"), self.left.1),
            removed: mm(self.removed),
            overhang: hold.overhang.as_ref().map(Worked::from),
            whole: None,
            rim: self.rim.map(mm),
            flat_within: flat,
            square_within: self.square.map(mm),
            round_within: true_within.clone(),
            true_within,
            thinnest: mm(self.sizes[0]),
            bored: mm(self.sizes[1]),
            into_the_grip: None,
            off: None,
            swings: None,
            way: &Way::Across,
            mass: self.mass.map(|mass| Worked::assumed(Kilogram::new(mass), "a case")),
            gaps: self.gaps,
            gripped: hold.diameter.as_ref().map(Worked::from),
            grip: hold.grip.as_ref().map(Worked::from),
            kept: &Kept::default(),
        };
        let cut = Cut { force: &force, step: &step, nose: &nose, last: 0.2, pushes_back: self.pushes_back };
        let held = Held { under: &under, cut, told: true };
        let mut answer = Answer::declaring(CHECKS);
        held.judge(&mut answer).unwrap();
        answer.complete();
        answer
    }
}

fn state(answer: &Answer, id: &str) -> Outcome {
    answer.checks.iter().find(|check| check.id == id).unwrap_or_else(|| panic!("no {id}")).state
}

fn verdict(answer: &Answer, id: &str) -> Verdict {
    state(answer, id).verdict().unwrap_or_else(|| panic!("{id} was not made: {:?}", state(answer, id)))
}

fn missing(answer: &Answer, id: &str) -> Vec<&'static str> {
    answer.checks.iter().find(|check| check.id == id).unwrap().missing.clone()
}

fn value(answer: &Answer, key: &str) -> f64 {
    answer.value(key).unwrap_or_else(|| panic!("no {key}")).number
}

fn remedies(answer: &Answer, id: &str) -> Vec<String> {
    let check = answer.checks.iter().find(|check| check.id == id).unwrap();
    let said = |words: &crate::proof::Words| {
        let facts = words.facts.iter().map(|fact| fact.1.said(None, crate::quantity::Print::Metric));
        std::iter::once(words.id.to_owned()).chain(facts).collect::<Vec<_>>().join(" ")
    };
    check.remedies.iter().map(|remedy| said(remedy)).collect()
}

#[track_caller]
fn agrees(printed: &str, got: f64) {
    let digits = printed.split_once('.').map_or(0, |(_, d)| d.len()) as i32;
    let off = (got - printed.parse::<f64>().unwrap()).abs();
    assert!(off <= 0.500_001 * 10f64.powi(-digits), "printed {printed}, got {got}");
}

#[track_caller]
fn kilonewtons(printed: &str, answer: &Answer, key: &str) {
    agrees(printed, value(answer, key) / 1000.0);
}

fn washer() -> Case {
    let mut case = Case::new("{in: jaws, diameter: 100 mm, grip: 3 mm, overhang: 1 mm}", [100.0, 60.0, 4.0], 50.0);
    case.flat = Some(0.02);
    case
}

fn ring() -> Case {
    let hold = "{in: jaws, diameter: 80 mm, grip: 8 mm, overhang: 12 mm, true-within: 0.02 mm}";
    let case = Case::new(hold, [80.0, 64.0, 20.0], 50.0);
    Case { chuck: "{most: 60000 rev/min, jaw-force: 12 kN, diameter: 160 mm}".into(), ..case }
}

fn plate() -> Case {
    let mut case =
        Case::new("{in: soft-jaws, diameter: 60 mm, grip: 12 mm, overhang: 43 mm}", [120.0, 0.0, 55.0], 60.0);
    (case.flat, case.rim) = (Some(0.02), Some(2.5));
    case
}

/// The worked example of facing: a hardened collar in soft jaws.
fn collar() -> Case {
    let hold = "{in: soft-jaws, diameter: 52 mm, grip: 10 mm, overhang: 12 mm, true-within: 0.01 mm, stop: step}";
    let force = 4700.0 * (0.05 * (0.16_f64 / 0.4).sqrt()).powf(-0.30) * 0.16 * 0.05;
    let mut case = Case::new(hold, [52.0, 32.0, 21.85], force * 1.3);
    case.chuck = "{most: 1800 rev/min, jaw-force: 20 kN, diameter: 160 mm}".into();
    case.force.1 = force * 1.5;
    case.material = "case-hardened steel";
    (case.left, case.removed, case.step) = ((21.55, 0.014), 0.30, 430.0);
    (case.square, case.pushes_back) = (Some(0.02), true);
    case
}

/// The worked example of skimming: a slotted hub.
fn hub() -> Case {
    let hold = "{in: soft-jaws, diameter: 60 mm, inside: 0 mm, grip: 12 mm, overhang: 20 mm, true-within: 0.02 mm, stop: step}";
    let force = 1350.0 * 0.08_f64.powf(-0.21) * 0.24 * 0.08;
    let mut case = Case::new(hold, [120.0, 84.0, 8.0], force * 1.3 * 1.15);
    case.chuck = "{most: 1800 rev/min, jaw-force: 20 kN, diameter: 160 mm}".into();
    case.force.1 = force * 1.5 * 1.2;
    (case.left, case.removed, case.step, case.gaps) = ((7.76, 0.02), 0.24, 38.0, 6);
    case.rim = Some(8.0 - 0.02);
    case
}
