//! Cases of the trade to the digits printed, and what must hold between neighbours: the cutting force is typed, so that only
//! the hold is judged.

use super::{Cut, Held};
use crate::handbook::Material;
use crate::operations::facing::facing_checks;
use crate::operations::{Answer, Hold};
use crate::proof::{CheckRule, Place, State, Verdict, Weight, Worked};
use crate::quantity::{Kilogram, Mm, Newton, Quantity, RevPerMin};
use crate::reading::Node;
use crate::shop::Chuck;

const CHECKS: &[CheckRule] = facing_checks!();

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
        let held = Held {
            hold: &hold,
            chuck: chuck.as_ref(),
            in_shop: self.shop,
            guard: 2.0,
            material: &material,
            outside: mm(self.sizes[0]),
            inside: mm(self.sizes[1]),
            length: mm(self.sizes[2]),
            left: mm(self.left.0).with_doubt(crate::proof::Cause::Named("length"), self.left.1),
            removed: mm(self.removed),
            overhang: hold.overhang.as_ref().map(Worked::from),
            rim: self.rim.map(mm),
            flat_within: flat,
            square_within: self.square.map(mm),
            true_within,
            mass: self.mass.map(|mass| Worked::assumed(Kilogram::new(mass), "a case")),
            gaps: self.gaps,
            cut: Cut { force: &force, step: &step, nose: &nose, pushes_back: self.pushes_back },
        };
        let mut answer = Answer::declaring(CHECKS);
        held.judge(&mut answer).unwrap();
        answer.complete();
        answer
    }
}

fn state(answer: &Answer, id: &str) -> State {
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
    check.remedies.iter().map(said).collect()
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

/// A flywheel of 11 kg with six gaps, a millimetre of it in the grip.
#[test]
fn a_flywheel_by_a_millimetre() {
    let mut case = Case::new(
        "{in: jaws, diameter: 120 mm, grip: 1 mm, overhang: 38 mm, stop: step, nipped: hard}",
        [230.0, 0.0, 40.0],
        150.0,
    );
    (case.material, case.mass, case.gaps) = ("GG15", Some(11.0), 6);
    let it = case.judged();
    agrees("12.7", value(&it, "grip_length_asked"));
    agrees("1333", value(&it, "jaw_pressure"));
    kilonewtons("18.8", &it, "grip_by_moment");
    kilonewtons("15.0", &it, "grip_by_moment_worst");
    for id in ["grip-length", "jaw-pressure", "grip-moment"] {
        assert_eq!(verdict(&it, id), Verdict::Fails, "{id}");
    }
    let longer = case.hold("grip: 1 mm", "grip: 15 mm").hold("overhang: 38 mm", "overhang: 25 mm").judged();
    for (printed, key) in [
        ("10.8", "grip_by_torque"),
        ("8.1", "grip_by_torque_worst"),
        ("8.6", "grip_by_moment"),
        ("6.9", "grip_by_moment_worst"),
        ("11.2", "jaw_force_low"),
    ] {
        kilonewtons(printed, &longer, key);
    }
    agrees("46", value(&longer, "jaw_pressure"));
    for id in ["grip-length", "jaw-pressure", "grip", "grip-moment"] {
        assert_eq!(verdict(&longer, id), Verdict::Proven, "{id}");
    }
}

#[test]
fn a_ring_gripped_over_its_whole_length() {
    let mut case =
        Case::new("{in: soft-jaws, diameter: 52 mm, grip: 21.85 mm, overhang: 0 mm}", [52.0, 32.0, 21.85], 100.0);
    case.removed = 0.30;
    let it = case.judged();
    agrees("-1.00", value(&it, "tool_clear"));
    assert_eq!(verdict(&it, "tool-clear"), Verdict::Fails);
    assert_eq!(remedies(&it, "tool-clear"), ["grip-less 19.8 mm"]);
    let less = case.hold("grip: 21.85 mm, overhang: 0 mm", "grip: 19.8 mm, overhang: 2.05 mm").judged();
    assert_eq!(verdict(&less, "tool-clear"), Verdict::Proven);
}

#[test]
fn a_diameter_that_the_jaws_do_not_reach() {
    let at = |diameter: &str| {
        let hold = format!("{{in: jaws, diameter: {diameter}, grip: 10 mm, overhang: 10 mm}}");
        verdict(&Case::new(&hold, [240.0, 0.0, 20.0], 100.0).judged(), "jaw-reach")
    };
    assert_eq!(at("238 mm"), Verdict::Fails);
    assert_eq!(at("160 mm"), Verdict::Doubtful);
    assert_eq!(at("144 mm"), Verdict::Proven);
    let inside = |diameter: &str| {
        let hold = format!("{{in: jaws, grips: inside, diameter: {diameter}, grip: 10 mm, overhang: 10 mm}}");
        verdict(&Case::new(&hold, [240.0, 0.0, 20.0], 100.0).judged(), "jaw-reach")
    };
    assert_eq!(inside("56 mm"), Verdict::Proven);
    assert_eq!(inside("55 mm"), Verdict::Fails);
}

#[test]
fn a_bar_that_stands_out_on_a_short_grip() {
    let case =
        Case::new("{in: jaws, diameter: 30 mm, grip: 8 mm, overhang: 60 mm, nipped: hard}", [30.0, 0.0, 68.0], 200.0);
    let it = case.judged();
    // Gripped as it is cut, torque alone; the axial force is held too where nothing stops it.
    let torque = value(&case.hold("nipped: hard", "nipped: hard, stop: rod").judged(), "grip_by_torque") / 1000.0;
    agrees("5.0", torque);
    kilonewtons("5.6", &it, "grip_by_torque");
    kilonewtons("4.2", &it, "grip_by_torque_worst");
    kilonewtons("22.6", &it, "grip_by_moment");
    kilonewtons("18.1", &it, "grip_by_moment_worst");
    assert_eq!((verdict(&it, "grip"), verdict(&it, "grip-moment")), (Verdict::Proven, Verdict::Fails));
    let longer = case.hold("grip: 8 mm", "grip: 30 mm").judged();
    kilonewtons("8.6", &longer, "grip_by_moment");
    kilonewtons("6.9", &longer, "grip_by_moment_worst");
    assert_eq!(verdict(&longer, "grip-moment"), Verdict::Proven);
    // The remedies are true: seated and gripped as long as they say it carries.
    let said = remedies(&it, "grip-moment");
    assert!(said.iter().any(|line| line.starts_with("seat-against-stop")), "{said:?}");
    let grip = said.iter().find_map(|line| line.strip_prefix("longer-grip ")).unwrap();
    let so_long = case.hold("grip: 8 mm", &format!("grip: {grip}")).judged();
    assert_eq!(verdict(&so_long, "grip-moment"), Verdict::Proven, "{grip}");
}

fn washer() -> Case {
    let mut case = Case::new("{in: jaws, diameter: 100 mm, grip: 3 mm, overhang: 1 mm}", [100.0, 60.0, 4.0], 50.0);
    case.flat = Some(0.02);
    case
}

#[test]
fn a_washer_dishes_under_any_nip() {
    let normal = washer().judged();
    agrees("0.111", value(&normal, "dish_by_jaws"));
    kilonewtons("14.0", &normal, "jaw_force_high");
    let light = washer().hold("grip: 3 mm", "grip: 3 mm, nipped: light").judged();
    agrees("0.048", value(&light, "dish_by_jaws"));
    for it in [&normal, &light] {
        assert_eq!(verdict(it, "dish"), Verdict::Fails);
        assert!(remedies(it, "dish").iter().any(|line| line == "other-hold"), "{:?}", remedies(it, "dish"));
    }
    assert!(remedies(&normal, "dish")[0].contains("0.0477"), "{:?}", remedies(&normal, "dish"));
    let unsaid = Case { flat: None, ..washer() }.judged();
    assert_eq!((state(&unsaid, "dish"), missing(&unsaid, "dish")), (State::NotChecked, vec!["flat-within"]));
    let thick = Case { left: (45.1, 0.0), ..washer() }.judged();
    assert_eq!(state(&thick, "dish"), State::DoesNotApply);
    let perhaps = Case { left: (45.1, 0.2), ..washer() }.judged();
    assert!(state(&perhaps, "dish").verdict().is_some(), "a doubt does not take the question away");
}

fn ring() -> Case {
    let hold = "{in: jaws, diameter: 80 mm, grip: 8 mm, overhang: 12 mm, true-within: 0.02 mm}";
    let case = Case::new(hold, [80.0, 64.0, 20.0], 50.0);
    Case { chuck: "{most: 60000 rev/min, jaw-force: 12 kN, diameter: 160 mm}".into(), ..case }
}

#[test]
fn a_ring_is_squeezed_out_of_round_and_bent() {
    let of = |jaws: &str, nip: &str, material: &'static str| {
        let case = ring().hold("in: jaws", &format!("in: {jaws}, nipped: {nip}"));
        Case { material, ..case }.judged()
    };
    let hard = of("jaws", "normal", "mild steel");
    agrees("0.0226", value(&hard, "ring_lobe"));
    assert_eq!(verdict(&hard, "ring-lobe"), Verdict::Fails);
    let light = of("jaws", "light", "mild steel");
    agrees("0.0097", value(&light, "ring_lobe"));
    assert_eq!(verdict(&light, "ring-lobe"), Verdict::Doubtful);
    let soft = of("soft-jaws", "light", "mild steel");
    agrees("0.0024", value(&soft, "ring_lobe"));
    assert_eq!(verdict(&soft, "ring-lobe"), Verdict::Proven);
    let bent = |it: &Answer| it.checks.iter().find(|check| check.id == "ring-stress").unwrap().judged.unwrap().got;
    agrees("89.3", bent(&hard));
    agrees("38.3", bent(&light));
    assert_eq!(verdict(&hard, "ring-stress"), Verdict::Proven);
    assert_eq!(verdict(&of("jaws", "normal", "GG15"), "ring-stress"), Verdict::Fails);
    assert_eq!(verdict(&of("jaws", "light", "GG15"), "ring-stress"), Verdict::Doubtful);
}

#[test]
fn a_ring_with_almost_no_wall_fails_with_its_figure() {
    for bore in [79.0, 79.999, 79.999_999_9] {
        let thin = Case { sizes: [80.0, bore, 20.0], ..ring() }.judged();
        assert_eq!(verdict(&thin, "ring-lobe"), Verdict::Fails, "{bore}");
        assert_eq!(verdict(&thin, "ring-stress"), Verdict::Fails, "{bore}");
        assert!(value(&thin, "ring_lobe").is_finite());
    }
    let solid = Case { sizes: [80.0, 0.0, 20.0], ..ring() }.judged();
    let hub = Case { sizes: [120.0, 84.0, 20.0], ..ring() }.judged();
    for it in [solid, hub] {
        assert_eq!([state(&it, "ring-lobe"), state(&it, "ring-stress")], [State::DoesNotApply; 2]);
    }
}

/// A long liner gripped on its end bends there more than its whole length would let it.
#[test]
fn a_long_ring_works_no_further_than_the_load_spreads() {
    let stress = |length: f64| {
        let it = Case { sizes: [80.0, 64.0, length], ..ring() }.judged();
        it.checks.iter().find(|check| check.id == "ring-stress").unwrap().judged.unwrap().got
    };
    assert!(stress(30.0) < stress(20.0));
    assert_eq!(stress(200.0), stress(100.0));
}

fn plate() -> Case {
    let mut case =
        Case::new("{in: soft-jaws, diameter: 60 mm, grip: 12 mm, overhang: 43 mm}", [120.0, 0.0, 55.0], 60.0);
    (case.flat, case.rim) = (Some(0.02), Some(2.5));
    case
}

#[test]
fn a_thin_plate_on_a_hub_fails_and_an_unknown_one_is_not_proven() {
    let it = plate().judged();
    agrees("12.0", value(&it, "flange_slenderness"));
    assert_eq!(verdict(&it, "flange"), Verdict::Fails);
    assert_eq!(state(&it, "dish"), State::DoesNotApply);
    let unknown = Case { rim: None, ..plate() }.judged();
    assert_eq!((state(&unknown, "flange"), missing(&unknown, "flange")), (State::NotChecked, vec!["thickness-at-rim"]));
    let check = unknown.checks.iter().find(|check| check.id == "flange").unwrap();
    assert_eq!((check.weight, check.stamps()), (Weight::Must, Some(Verdict::Doubtful)));
    let unsaid = Case { rim: Some(10.0), flat: None, ..plate() }.judged();
    assert_eq!(verdict(&unsaid, "flange"), Verdict::Doubtful, "nobody says how flat");
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

#[test]
fn the_collar_to_the_digits_printed() {
    let it = collar().judged();
    for (printed, key) in [
        ("5359", "jaw_force_low"),
        ("14000", "jaw_force_high"),
        ("2755", "grip_by_torque"),
        ("2384", "grip_by_torque_worst"),
        ("2464", "grip_by_moment"),
        ("2270", "grip_by_moment_worst"),
        ("2755", "grip_needed"),
        ("2384", "grip_needed_worst"),
        ("4.0", "grip_length_asked"),
        ("24.6", "jaw_pressure"),
        ("11.0", "tool_clear"),
        ("0.0009", "ring_lobe"),
        ("0.0020", "dish_by_jaws"),
    ] {
        agrees(printed, value(&it, key));
    }
    let stress = it.checks.iter().find(|check| check.id == "ring-stress").unwrap().judged.unwrap();
    agrees("50.9", stress.got);
    agrees("400", stress.limit);
    for id in [
        "grip",
        "grip-moment",
        "grip-length",
        "jaw-pressure",
        "jaw-reach",
        "tool-clear",
        "overhang",
        "ring-stress",
        "dish",
        "ring-lobe",
        "square",
        "gives-way",
    ] {
        assert_eq!(verdict(&it, id), Verdict::Proven, "{id}");
    }
    for id in ["flange", "grip-looked-at"] {
        assert_eq!(state(&it, id), State::DoesNotApply, "{id}");
    }
    let gauged = Case { chuck: collar().chuck.replace("20 kN", "20 kN, jaw-force-by: gauge"), ..collar() }.judged();
    agrees("7656", value(&gauged, "jaw_force_low"));
    agrees("14000", value(&gauged, "jaw_force_high"));
}

#[test]
fn the_collar_without_a_stop_with_a_rod_and_in_hard_jaws() {
    let figures = |it: &Answer, printed: [&str; 4]| {
        let keys = ["grip_by_torque", "grip_by_torque_worst", "grip_by_moment", "grip_by_moment_worst"];
        keys.iter().zip(printed).for_each(|(key, printed)| agrees(printed, value(it, key)));
    };
    let both = |it: &Answer| (verdict(it, "grip"), verdict(it, "grip-moment"));
    let none = collar().hold("stop: step", "stop: none");
    let it = none.judged();
    figures(&it, ["4967", "5332", "6756", "7740"]);
    agrees("6756", value(&it, "grip_needed"));
    assert_eq!(both(&it), (Verdict::Proven, Verdict::Doubtful));
    assert!(
        remedies(&it, "grip-moment")[0].starts_with("seat-against-stop 2270 N"),
        "{:?}",
        remedies(&it, "grip-moment")
    );
    let unsaid = collar().hold(", stop: step", "").judged();
    figures(&unsaid, ["4967", "5332", "6756", "7740"]);
    let hard = none.hold("stop: none", "stop: none, nipped: hard").judged();
    agrees("10719", value(&hard, "jaw_force_low"));
    agrees("0.0012", value(&hard, "ring_lobe"));
    agrees("0.0028", value(&hard, "dish_by_jaws"));
    agrees("35.1", value(&hard, "jaw_pressure"));
    agrees("72.7", hard.checks.iter().find(|check| check.id == "ring-stress").unwrap().judged.unwrap().got);
    assert!(hard.checks.iter().all(|check| check.verdict().is_none_or(|verdict| verdict == Verdict::Proven)));
    let rod = collar().hold("stop: step", "stop: rod").judged();
    figures(&rod, ["2755", "2384", "6756", "7740"]);
    assert_eq!(both(&rod), (Verdict::Proven, Verdict::Doubtful));
    let plain = none.hold("in: soft-jaws", "in: jaws").judged();
    figures(&plain, ["6209", "6664", "7368", "8441"]);
    agrees("0.0035", value(&plain, "ring_lobe"));
    assert_eq!(both(&plain), (Verdict::Doubtful, Verdict::Doubtful));
    assert_eq!(verdict(&plain, "ring-lobe"), Verdict::Doubtful);
    let plain_step = collar().hold("in: soft-jaws", "in: jaws").judged();
    figures(
        &plain_step,
        [
            "3444",
            "2980",
            &format!("{:.0}", value(&plain_step, "grip_by_moment")),
            &format!("{:.0}", value(&plain_step, "grip_by_moment_worst")),
        ],
    );
    assert_eq!(both(&plain_step), (Verdict::Proven, Verdict::Proven));
}

/// The worked example of skimming: a slotted hub.
fn hub() -> Case {
    let hold = "{in: soft-jaws, diameter: 60 mm, grip: 12 mm, overhang: 20 mm, true-within: 0.02 mm, stop: step}";
    let force = 1350.0 * 0.08_f64.powf(-0.21) * 0.24 * 0.08;
    let mut case = Case::new(hold, [120.0, 84.0, 8.0], force * 1.3 * 1.15);
    case.chuck = "{most: 1800 rev/min, jaw-force: 20 kN, diameter: 160 mm}".into();
    case.force.1 = force * 1.5 * 1.2;
    (case.left, case.removed, case.step, case.gaps) = ((7.76, 0.02), 0.24, 38.0, 6);
    case.rim = Some(8.0 - 0.02);
    case
}

#[test]
fn the_hub_to_the_digits_printed() {
    let it = hub().judged();
    for (printed, key) in [
        ("5598", "jaw_force_low"),
        ("14000", "jaw_force_high"),
        ("3952", "grip_by_torque"),
        ("3568", "grip_by_torque_worst"),
        ("2981", "grip_by_moment"),
        ("2860", "grip_by_moment_worst"),
        ("3952", "grip_needed"),
        ("6.7", "grip_length_asked"),
        ("20.3", "jaw_pressure"),
        ("19.06", "tool_clear"),
        ("3.9", "flange_slenderness"),
        ("0.0010", "flange_gives"),
    ] {
        agrees(printed, value(&it, key));
    }
    for id in ["grip", "grip-moment", "grip-length", "jaw-pressure", "jaw-reach", "tool-clear", "overhang", "flange"] {
        assert_eq!(verdict(&it, id), Verdict::Proven, "{id}");
    }
    for id in ["dish", "ring-stress", "ring-lobe", "grip-looked-at"] {
        assert_eq!(state(&it, id), State::DoesNotApply, "{id}");
    }
    let none = hub().hold("stop: step", "stop: none").judged();
    for (printed, key) in [
        ("4073", "grip_by_torque"),
        ("4125", "grip_by_moment"),
        ("3678", "grip_by_torque_worst"),
        ("3960", "grip_by_moment_worst"),
    ] {
        agrees(printed, value(&none, key));
    }
    assert_eq!((verdict(&none, "grip"), verdict(&none, "grip-moment")), (Verdict::Proven, Verdict::Proven));
}

#[test]
fn a_hold_that_no_table_judges_is_tried() {
    for held_in in ["mandrel", "collet", "faceplate", "clamps", "vice", "angle-plate"] {
        let case = hub().hold("in: soft-jaws", &format!("in: {held_in}")).hold(", stop: step", "");
        let it = case.judged();
        assert_eq!(verdict(&it, "grip-looked-at"), Verdict::Doubtful, "{held_in}");
        // 2.0 × 1.5 × 65.86 × 120/2000 = 11.86; at the worst end 1.5 × 1.5 × 79.30 × 0.06 = 10.71.
        assert_eq!(remedies(&it, "grip-looked-at"), ["bar-and-balance 11.9 N·m"]);
        for id in
            ["grip", "grip-moment", "grip-length", "jaw-pressure", "jaw-reach", "ring-lobe", "ring-stress", "dish"]
        {
            assert_eq!(state(&it, id), State::DoesNotApply, "{held_in}: {id}");
        }
        for id in ["tool-clear", "overhang", "flange"] {
            assert_eq!(verdict(&it, id), Verdict::Proven, "{held_in}: {id}");
        }
        let tried = |torque: &str| {
            let it = case.hold("grip: 12 mm", &format!("grip: 12 mm, tested: {torque}")).judged();
            assert_eq!(state(&it, "grip-looked-at"), State::DoesNotApply);
            verdict(&it, "grip")
        };
        assert_eq!(tried("12.0 ± 0.1 N·m"), Verdict::Proven);
        assert_eq!(tried("12.0 ± 0.5 N·m"), Verdict::Doubtful);
        assert_eq!(tried("12 N·m"), Verdict::Doubtful, "half a unit of the last digit");
        assert_eq!(tried("11 ± 0.1 N·m"), Verdict::Fails);
    }
}

#[test]
fn what_is_missing_is_said() {
    let all = |case: Case| {
        let it = case.judged();
        move |id: &str| (state(&it, id), missing(&it, id))
    };
    let short = all(collar().hold(", grip: 10 mm", ""));
    assert_eq!(short("grip-moment"), (State::NotChecked, vec!["hold.grip"]));
    assert_eq!(short("grip-length"), (State::NotChecked, vec!["hold.grip"]));
    assert_eq!(short("jaw-pressure"), (State::NotChecked, vec!["hold.grip"]));
    assert_eq!(short("grip").0, State::Made(Verdict::Proven));
    let bare = all(collar().hold("diameter: 52 mm, ", ""));
    for id in ["grip", "grip-moment", "jaw-reach", "ring-stress", "dish", "flange", "overhang"] {
        assert_eq!(bare(id), (State::NotChecked, vec!["hold.diameter"]), "{id}");
    }
    let no_chuck = all(Case { chuck: String::new(), ..collar() });
    assert_eq!(no_chuck("grip"), (State::NotChecked, vec!["chuck.jaw-force", "hold.tested"]));
    assert_eq!(no_chuck("grip-moment"), (State::NotChecked, vec!["chuck.jaw-force"]));
    for id in ["ring-stress", "ring-lobe", "dish", "jaw-pressure", "jaw-reach"] {
        assert_eq!(no_chuck(id).0, State::NotChecked, "{id}");
    }
    let small = all(Case { chuck: "{diameter: 70 mm}".into(), ..collar() });
    assert_eq!(small("grip").0, State::NotChecked, "outside the table of chucks");
    let four = all(Case { chuck: "{diameter: 160 mm}".into(), ..collar().hold("soft-jaws", "four-jaw") });
    assert_eq!(four("grip").0, State::NotChecked, "the table is of scroll chucks");
    let no_speed = all(Case { chuck: "{jaw-force: 20 kN, jaw-width: 20 mm, reach: 160 mm}".into(), ..collar() });
    assert_eq!(no_speed("grip-moment"), (State::NotChecked, vec!["chuck.most"]));
    assert_eq!(no_speed("ring-stress").0, State::Made(Verdict::Proven));
    let no_shop = all(Case { shop: false, chuck: String::new(), ..collar() });
    assert_eq!(no_shop("grip"), (State::NotChecked, vec!["hold.tested"]));
    for id in ["ring-stress", "ring-lobe", "dish", "jaw-pressure", "jaw-reach"] {
        assert_eq!(no_shop(id).0, State::NoShop, "{id}");
    }
    let tried =
        Case { shop: false, chuck: String::new(), ..collar().hold("stop: step", "stop: step, tested: 20 N·m") };
    assert_eq!(verdict(&tried.judged(), "grip"), Verdict::Proven);
}

#[test]
fn a_chuck_of_which_only_the_diameter_is_known() {
    let it = Case { chuck: "{diameter: 160 mm}".into(), ..collar() }.judged();
    // 0.40 × 0.7 × 15 kN less what the speed takes (2387 rev/min at the body), and 0.70 × 40 kN.
    agrees("28000", value(&it, "jaw_force_high"));
    agrees("4097", value(&it, "jaw_force_low"));
    assert!(it.assumed.iter().any(|words| words.id == "jaw-force-by-diameter"));
    let light = Case { chuck: "{diameter: 160 mm}".into(), ..collar().hold("stop: step", "stop: step, nipped: light") };
    agrees("4000", value(&light.judged(), "jaw_force_high"));
}

/// A light nip that does not carry, of a part that a normal nip spoils: not doubtful, but another hold.
#[test]
fn no_nip_will_do() {
    let case = washer().hold("grip: 3 mm", "grip: 3 mm, nipped: light");
    let heavy = Case { force: (150.0, 150.0), ..case };
    let it = heavy.judged();
    assert_eq!(verdict(&it, "grip-moment"), Verdict::Fails);
    assert!(remedies(&it, "grip-moment").iter().any(|line| line == "other-hold"));
}

/// The force outwards of the jaws is the same however lightly they were closed.
#[test]
fn a_light_nip_at_speed_is_not_proven() {
    let hold = "{in: soft-jaws, diameter: 60 mm, grip: 20 mm, overhang: 10 mm, stop: step, nipped: light}";
    let at = |step: f64, most: &str| {
        let mut case = Case::new(hold, [60.0, 0.0, 30.0], 10.0);
        (case.step, case.chuck) = (step, CHUCK.replace("1e9", most));
        let it = case.judged();
        (verdict(&it, "grip"), value(&it, "jaw_force_low"))
    };
    assert_eq!(at(100.0, "1800").0, Verdict::Proven);
    assert_eq!(at(900.0, "1800").0, Verdict::Doubtful, "{}", at(900.0, "1800").1);
}

#[test]
fn jaws_that_open_press_harder_at_speed_and_lose_nothing() {
    let hold = "{in: jaws, grips: inside, diameter: 64 mm, grip: 8 mm, overhang: 12 mm, true-within: 0.02 mm}";
    let at = |step: f64| {
        let case = Case { hold: hold.into(), step, chuck: CHUCK.replace("1e9", "1800"), ..ring() };
        let it = case.judged();
        assert!(state(&it, "dish").verdict().is_some(), "a plate gripped inside always asks");
        (value(&it, "jaw_force_low"), value(&it, "jaw_force_high"), value(&it, "ring_lobe"))
    };
    let (slow, fast) = (at(10.0), at(1500.0));
    assert_eq!(slow.0, fast.0);
    assert!(fast.1 > 1.5 * slow.1 && fast.2 > slow.2);
}

/// Every check of a case, as bad as it is: proven, or not.
fn badness(answer: &Answer) -> Vec<(&'static str, Option<Verdict>)> {
    answer.checks.iter().map(|check| (check.id, check.stamps())).collect()
}

/// No check of the worse case stands better, those aside whose question the change takes away.
#[track_caller]
fn no_better(good: &Case, bad: &Case, what: &str) {
    for ((id, better), (_, worse)) in badness(&good.judged()).into_iter().zip(badness(&bad.judged())) {
        assert!(
            better.is_none() || worse >= better,
            "{what}: {id} {better:?} became {worse:?} ({} → {})",
            good.hold,
            bad.hold
        );
    }
}

#[test]
fn what_is_worse_is_never_better() {
    let bases = [collar(), hub(), ring(), washer(), plate(), collar().hold(", stop: step", "")];
    for base in &bases {
        // Less jaw force: what holds, holds worse (what squeezes, squeezes less: asked elsewhere).
        let held = |case: &Case| {
            let it = case.judged();
            ["grip", "grip-moment"].map(|id| state(&it, id).verdict())
        };
        let chuck = |force: f64| Case {
            chuck: format!("{{most: 1800 rev/min, jaw-force: {force} kN, diameter: 160 mm}}"),
            ..base.clone()
        };
        let squeezed = |case: &Case| {
            let it = case.judged();
            ["jaw-pressure", "ring-lobe", "ring-stress", "dish"].map(|id| state(&it, id).verdict())
        };
        for pair in [60.0, 30.0, 20.0, 12.0, 8.0, 4.0, 1.0].windows(2) {
            let (more, less) = (chuck(pair[0]), chuck(pair[1]));
            assert!(held(&less).iter().zip(held(&more)).all(|(less, more)| *less >= more), "{pair:?}");
            assert!(squeezed(&more).iter().zip(squeezed(&less)).all(|(more, less)| *more >= less), "{pair:?}");
        }
        for factor in [1.2, 1.5, 2.0, 4.0] {
            let force = Case { force: (base.force.0 * factor, base.force.1 * factor), ..base.clone() };
            no_better(base, &force, "more force");
            let worst = Case { force: (base.force.0, base.force.1 * factor), ..base.clone() };
            no_better(base, &worst, "a worse end of the force");
            let doubt = Case { remembered: base.force.0 * (factor - 1.0), ..base.clone() };
            no_better(base, &doubt, "a force remembered worse");
            let doubt = Case { left: (base.left.0, base.left.1 + 0.1 * factor), ..base.clone() };
            no_better(base, &doubt, "more doubt of the thickness");
            let faster = Case { step: base.step * factor * 2.0, ..base.clone() };
            no_better(base, &faster, "faster");
            let thinner = Case { left: (base.left.0 / factor, base.left.1), ..base.clone() };
            if base.left.0 < 10.0 {
                no_better(base, &thinner, "thinner");
            }
        }
        for gaps in [12, 2] {
            no_better(base, &Case { gaps, ..base.clone() }, "blows");
        }
        no_better(base, &Case { pushes_back: true, ..base.clone() }, "hard metal");
    }
}

#[test]
fn a_longer_overhang_a_shorter_grip_and_a_thinner_wall_are_never_better() {
    let of = |grip: f64, out: f64| {
        format!("{{in: jaws, diameter: 60 mm, grip: {grip} mm, overhang: {out} mm, true-within: 0.02 mm}}")
    };
    let case = |grip: f64, out: f64| Case::new(&of(grip, out), [60.0, 40.0, 60.0], 80.0);
    let verdicts = |case: &Case, ids: &[&str]| -> Vec<Option<Verdict>> {
        let it = case.judged();
        ids.iter().map(|id| state(&it, id).verdict()).collect()
    };
    for out in [5.0, 10.0, 20.0, 40.0, 80.0, 160.0] {
        let ids = ["grip", "grip-moment", "grip-length", "overhang", "gives-way"];
        let (near, far) = (verdicts(&case(12.0, out), &ids), verdicts(&case(12.0, out * 1.7), &ids));
        assert!(near.iter().zip(&far).all(|(near, far)| far >= near), "{out}: {near:?} {far:?}");
    }
    for grip in [40.0, 20.0, 10.0, 5.0, 3.0, 1.0, 0.4] {
        let ids = ["grip", "grip-moment", "grip-length", "jaw-pressure", "ring-stress"];
        let (long, short) = (verdicts(&case(grip, 20.0), &ids), verdicts(&case(grip * 0.6, 20.0), &ids));
        assert!(long.iter().zip(&short).all(|(long, short)| short >= long), "{grip}: {long:?} {short:?}");
    }
    for bore in [20.0, 40.0, 50.0, 55.0, 58.0, 59.5] {
        let of = |bore: f64| Case { sizes: [60.0, bore, 60.0], ..case(12.0, 20.0) };
        let ids = ["ring-stress", "ring-lobe"];
        let (thick, thin) = (verdicts(&of(bore), &ids), verdicts(&of(bore + 0.4), &ids));
        assert!(thick.iter().zip(&thin).all(|(thick, thin)| thin >= thick), "{bore}: {thick:?} {thin:?}");
    }
}

/// A key left out is never better than the worst that could be typed for it.
#[test]
fn a_missing_key_is_never_better_than_the_worst_typed() {
    let stamps = |case: &Case, ids: &[&str]| -> Vec<Option<Verdict>> {
        let it = case.judged();
        ids.iter().map(|id| it.checks.iter().find(|check| check.id == *id).unwrap().stamps()).collect()
    };
    let holds = ["grip", "grip-moment"];
    let no_better = |missing: &Case, worst: &Case, ids: &[&str]| {
        let (missing, worst) = (stamps(missing, ids), stamps(worst, ids));
        // Not made is doubtful; a typed worst may fail outright.
        let capped = worst.iter().map(|verdict| verdict.map(|verdict| verdict.min(Verdict::Doubtful)));
        assert!(missing.iter().zip(capped).all(|(missing, worst)| *missing >= worst), "{missing:?} {worst:?}");
    };
    for base in [collar(), collar().hold("stop: step", "stop: rod")] {
        let bare = |key: &str| {
            let (before, after) = base.hold.split_once(key).unwrap();
            let after = after.split_once(',').map_or("}", |(_, rest)| rest);
            Case { hold: format!("{before}{after}").replace(", }", "}"), ..base.clone() }
        };
        no_better(
            &bare("grip:"),
            &base.hold("grip: 10 mm", "grip: 0.6 mm"),
            &["grip-moment", "grip-length", "jaw-pressure"],
        );
        no_better(
            &bare("overhang:"),
            &base.hold("overhang: 12 mm", "overhang: 400 mm"),
            &["grip-moment", "overhang", "tool-clear"],
        );
        no_better(&bare("diameter:"), &base.hold("diameter: 52 mm", "diameter: 33 mm"), &holds);
        let stop = base.hold.split_once(", stop").unwrap().0.to_owned() + "}";
        no_better(&Case { hold: stop, ..base.clone() }, &base.hold("stop: step", "stop: none").clone(), &holds);
        break;
    }
    for nip in ["normal", "hard"] {
        let base = collar().hold("stop: step", &format!("stop: none, nipped: {nip}"));
        let unknown = Case { chuck: "{most: 1800 rev/min, diameter: 160 mm}".into(), ..base.clone() };
        let typed = |force: f64| Case {
            chuck: format!("{{most: 1800 rev/min, jaw-force: {force} kN, diameter: 160 mm}}"),
            ..base.clone()
        };
        for force in [15.0, 25.0, 40.0] {
            let it = (unknown.judged(), typed(force).judged());
            assert!(value(&it.0, "jaw_force_low") <= value(&it.1, "jaw_force_low") + 1e-9, "{force}");
            assert!(value(&it.0, "jaw_force_high") >= value(&it.1, "jaw_force_high") - 1e-9, "{force}");
        }
    }
}
