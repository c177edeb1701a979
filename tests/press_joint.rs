//! The press joint: what the book answers is what the operation works out, and whatever is made worse never becomes better.

#![allow(clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common;
use crate::seeds;

use common::*;
use proptest::prelude::*;
use setover::lookup;
use setover::plan::Planned;
use setover::proof::{At, Outcome, Place, Side, Verdict, Worked};
use setover::quantity::{Mm, Quantity, Shift};
use setover::reading::Node;

use setover::handbook::Material;
use setover::handbook::joints::joint::{PressJoint, Service, Stressed};

/// A page of the book by its keys.
fn page(keys: &[(&str, String)]) -> lookup::Reply {
    let place = Place::start(0);
    let mut tree = Node::yaml("{}", place).expect("a tree");
    for (key, value) in keys {
        tree.insert(key, Node::text(place, value.clone()));
    }
    let topic = At { value: "bush".to_owned(), place };
    lookup::open(&topic, None, tree, None).unwrap_or_else(|all| panic!("{all:#?}"))
}

fn shown(page: &lookup::Reply, key: &str) -> f64 {
    page.values.iter().find(|value| value.key == key).unwrap_or_else(|| panic!("no {key}")).number
}

#[derive(Clone, Debug)]
struct Drawn {
    delta: f64,
    doubt: f64,
    bore: f64,
    outside: f64,
    bush: &'static str,
    housing: &'static str,
    running: Option<(f64, f64)>,
}

impl Drawn {
    fn job(&self) -> String {
        let half = self.doubt / std::f64::consts::SQRT_2;
        let running = self.running.map_or(String::new(), |(shaft, housing)| {
            format!("          running: {{shaft: {shaft:.1} degC, housing: {housing:.1} degC}}\n")
        });
        format!(
            "
job: drawn
parts:
  - part: lug
    material: {}
    operations:
      - ream-bush:
          housing: {{bore: 20.000 ± {half:.9} mm, outside: {:.6} mm, length: 20 mm, finish: Ra 0.8 um}}
          bush: {{outside: {:.9} ± {half:.9} mm, bore: {:.6} ± 0.004 mm, length: 20 mm, material: {}, finish: Ra 0.8 um}}
          shaft: {:.4} ± 0.003 mm
          clearance: 1 .. 2 thou
          gauge: plugs
{running}",
            self.housing,
            self.outside,
            20.0 + self.delta,
            self.bore,
            self.bush,
            self.bore + 0.03
        )
    }

    fn page(&self) -> lookup::Reply {
        page(&[
            ("joint", "20 mm".into()),
            ("bore", format!("{:.6} mm", self.bore)),
            ("outside", format!("{:.6} mm", self.outside)),
            ("interference", format!("{:.9} ± {:.9} mm", self.delta, self.doubt)),
            ("bush", self.bush.into()),
            ("housing", self.housing.into()),
            ("length", "20 mm".into()),
            ("finish", "Ra 0.8 um".into()),
        ])
    }
}

fn drawn() -> impl Strategy<Value = Drawn> {
    let bush = prop::sample::select(vec!["phosphor bronze", "LG2", "AB2", "brass", "mild steel", "GG15-GG20"]);
    let housing = prop::sample::select(vec!["cast aluminium", "magnesium castings", "GG25-GG30", "mild steel"]);
    let running = prop::option::of((20.0..160.0_f64, 20.0..140.0_f64));
    (0.008..0.08_f64, 0.001..0.008_f64, 10.0..18.5_f64, 23.0..80.0_f64, bush, housing, running).prop_map(
        |(delta, doubt, bore, outside, bush, housing, running)| Drawn {
            delta: (delta * 1e6).round() / 1e6,
            doubt,
            bore,
            outside,
            bush,
            housing,
            running,
        },
    )
}

/// What the last digit typed of an interference makes of a figure, in its unit.
fn noise(key: &str) -> f64 {
    match key {
        _ if key.contains("force") => 1e-2,
        _ if ["pressure", "hoop", "stress", "torque"].iter().any(|word| key.contains(word)) => 1e-5,
        _ => 1e-8,
    }
}

/// How bad a check is; what is not made is as bad as doubtful.
fn rank(it: &Planned, check: &str) -> u8 {
    match state(it, check) {
        Outcome::Made(Verdict::Proven) => 0,
        Outcome::Made(Verdict::Doubtful) | Outcome::NotChecked | Outcome::NoShop => 1,
        Outcome::Made(Verdict::Fails) => 2,
        Outcome::DoesNotApply => 0,
    }
}

const STRESSES: [&str; 5] = ["bush-yield", "bush-plastic", "housing-stress", "housing-iron", "stress-when-warm"];

proptest! {
    #![proptest_config(seeds::config(48, "tests/regressions/press_joint.txt"))]

    #[test]
    fn the_book_and_the_operation_agree(mut it in drawn()) {
        it.running = None;
        let (plan, page) = (in_shop(&it.job()), it.page());
        let worked = first(&plan);
        for key in [
            "interference_min", "interference_max", "joint_pressure", "joint_pressure_nominal", "joint_pressure_min",
            "hoop_bush", "hoop_housing", "housing_stress", "close_in", "close_in_most", "close_in_share",
            "bore_after_pressing", "press_force", "holding_force", "slip_torque",
        ] {
            // The book holds no force where there is none.
            let Some(of_book) = page.values.iter().find(|value| value.key == key) else { continue };
            let (a, b) = (value(worked, key), of_book.number);
            prop_assert!((a - b).abs() <= 1e-7 * a.abs() + noise(key), "{key}: operation {a}, book {b}\n{it:?}");
        }
        let notes = page.notes.join("\n");
        let of_housing = if it.housing.starts_with("GG") { "housing-iron" } else { "housing-stress" };
        prop_assert_eq!(notes.contains("FAILS: the housing"), rank(worked, of_housing) == 2);
        prop_assert_eq!(notes.contains("DOUBTFUL: the housing"), rank(worked, of_housing) == 1);
        // The book knows no doubt of the bore: it may be proven there where the operation is just doubtful.
        prop_assert!(!notes.contains("DOUBTFUL: the bush is asked") || rank(worked, "bush-yield") >= 1);
    }

    /// More interference, a worse reading, a thinner wall, more warmth never help bush or housing.
    #[test]
    fn what_is_worse_never_looks_better(it in drawn(), more in 0.0005..0.03_f64, thinner in 0.3..10.0_f64, wider in 1.0..4.0_f64) {
        let base = in_shop(&it.job());
        let tighter = Drawn { delta: it.delta + more, ..it.clone() };
        let thin = Drawn { outside: (it.outside - thinner).max(20.8), ..it.clone() };
        let doubted = Drawn { doubt: it.doubt * wider, ..it.clone() };
        for (name, worse) in [("tighter", &tighter), ("thinner", &thin), ("doubted", &doubted)] {
            let plan = in_shop(&worse.job());
            for check in STRESSES {
                // A thinner boss gives way: the bush is pressed less by it.
                if name == "thinner" && (check.starts_with("bush") || check == "stress-when-warm") {
                    continue;
                }
                let (before, after) = (rank(first(&base), check), rank(first(&plan), check));
                prop_assert!(after >= before, "{name}: {check} was {before}, became {after}\n{}", it.job());
            }
        }
        let doubted = in_shop(&doubted.job());
        for check in ["interference", "grip-when-warm", "stock-least", "stock-most", "clearance-when-warm"] {
            prop_assert!(rank(first(&doubted), check) >= rank(first(&base), check), "{check}\n{}", it.job());
        }
        let looser = in_shop(&Drawn { delta: it.delta - more, ..it.clone() }.job());
        for check in ["interference", "grip-when-warm"] {
            prop_assert!(rank(first(&looser), check) >= rank(first(&base), check), "{check}\n{}", it.job());
        }
    }

    /// Whatever outside is said to make the joint proven does, at both ends of what is said.
    #[test]
    fn what_would_prove_it_proves_it(it in drawn()) {
        let plan = in_shop(&it.job());
        let of = |key: &str| first(&plan).answer.value(key).map(|v| v.number);
        let Some((low, high)) = of("outside_least_proven").zip(of("outside_most_proven")) else { return Ok(()) };
        for outside in [low + 1e-6, (low + high) / 2.0, high - 1e-6] {
            let so = in_shop(&Drawn { delta: outside - 20.0, ..it.clone() }.job());
            for check in ["interference", "bush-yield", "housing-stress", "housing-iron", "grip-when-warm", "stress-when-warm"] {
                prop_assert!(rank(first(&so), check) == 0, "{outside}: {check}\n{}", it.job());
            }
        }
    }
}

/// A metal of the book.
fn metal(name: &str) -> Material {
    name.parse().expect(name)
}

fn mm(number: f64) -> Worked<Mm> {
    Worked::assumed(Mm::new(number), "a test")
}

fn shift(number: f64) -> Worked<Shift> {
    Worked::assumed(Shift::new(number), "a test")
}

fn verdict_of(stressed: &Option<Stressed>) -> Option<Verdict> {
    stressed.as_ref().expect("strength").check("a-test", 2.0).verdict()
}

/// Bronze 20/16 in cast aluminium 60, 0.09 mm: the strongest bush presses the housing, the weakest grips.
#[test]
fn a_bush_that_yields_all_through_in_a_thick_boss() {
    let (bush, housing) = (metal("PB1"), metal("cast aluminium"));
    let joint = PressJoint::new((&bush, &housing), &mm(20.0), &mm(16.0), &mm(60.0));
    let delta = shift(0.09);
    agrees("71.2", joint.elastic(&delta).expect("elastic").number());
    agrees("33.9", joint.for_grip(&delta).expect("grip").number());
    agrees("38.4", joint.for_stress(&delta).expect("stress").number());
    let of_bush = joint.of_bush(&delta, Service::cold(true), 2.0).expect("bush");
    agrees("30.5", of_bush.as_ref().expect("yield").proven_to.number());
    assert_eq!(verdict_of(&of_bush), Some(Verdict::Doubtful));
    let of_housing = joint.of_housing(&delta, Service::cold(true), 2.0).expect("housing");
    agrees("35.6", of_housing.as_ref().expect("yield").pressure_proven.number());
    assert_eq!(verdict_of(&of_housing), Some(Verdict::Doubtful));
    let page = page(&[
        ("joint", "20 mm".into()),
        ("bore", "16 mm".into()),
        ("outside", "60 mm".into()),
        ("interference", "0.09 mm".into()),
        ("bush", "PB1".into()),
        ("housing", "cast aluminium".into()),
    ]);
    agrees("38.4", shown(&page, "joint_pressure"));
    let notes = page.notes.join("\n");
    assert!(notes.contains("the whole bush yields") && notes.contains("DOUBTFUL: the housing"), "{notes}");
}

/// Bronze in grey iron, 0.026 mm: proven cold; at 120 °C the bush grows into the iron.
#[test]
fn a_bush_in_grey_iron_is_tighter_when_it_is_warm() {
    let (bush, housing) = (metal("PB1"), metal("GG15"));
    let joint = PressJoint::new((&bush, &housing), &mm(20.0), &mm(16.0), &mm(40.0));
    let cold = joint.of_housing(&shift(0.026), Service::cold(true), 2.0).expect("housing");
    agrees("36.0", cold.as_ref().expect("strength").worst.number());
    agrees("37.5", cold.as_ref().expect("strength").proven_to.number());
    assert_eq!(verdict_of(&cold), Some(Verdict::Proven));
    let warm = Service { bush: 120.0, housing: 120.0, hottest: 120.0, cut_after: true };
    let hot = joint.of_housing(&shift(0.0418), warm, 2.0).expect("housing");
    agrees("57.9", hot.as_ref().expect("strength").worst.number());
    assert_eq!(verdict_of(&hot), Some(Verdict::Doubtful));
    let of_bush = joint.of_bush(&shift(0.0418), warm, 2.0).expect("bush");
    agrees("34.7", of_bush.as_ref().expect("yield").worst.number());
    agrees("27.4", of_bush.as_ref().expect("yield").proven_to.number());
    assert_eq!(verdict_of(&of_bush), Some(Verdict::Doubtful));
}

/// A bush of grey iron breaks and does not yield: no cap on its pressure, its compression against its tensile strength.
#[test]
fn a_bush_of_grey_iron_has_no_plastic_cap() {
    let (bush, housing) = (metal("GG15"), metal("mild steel"));
    let joint = PressJoint::new((&bush, &housing), &mm(20.0), &mm(15.0), &mm(60.0));
    let of = |delta: f64| verdict_of(&joint.of_bush(&shift(delta), Service::cold(true), 2.0).expect("bush"));
    assert_eq!([0.02, 0.05, 0.2].map(of), [Some(Verdict::Proven), Some(Verdict::Doubtful), Some(Verdict::Fails)]);
    let elastic = joint.elastic(&shift(0.2)).expect("elastic").number();
    assert_eq!(joint.for_stress(&shift(0.2)).expect("stress").number(), elastic);
    assert!(joint.first_yield().expect("none").is_none());
}

/// Light metals lose strength over 100 °C, and a hot bush is trusted to first yield only.
#[test]
fn warmth_lowers_what_is_trusted() {
    let (bush, housing) = (metal("PB1"), metal("cast aluminium"));
    let joint = PressJoint::new((&bush, &housing), &mm(20.0), &mm(16.0), &mm(40.0));
    let limit = |service: Service| {
        let of_housing = joint.of_housing(&shift(0.02), service, 2.0).expect("housing").expect("yield");
        let of_bush = joint.of_bush(&shift(0.02), service, 2.0).expect("bush").expect("yield");
        (of_housing.proven_to.number(), of_bush.proven_to.number())
    };
    let at = |hottest: f64| Service { bush: hottest, housing: hottest, hottest, cut_after: true };
    let (cool, warm) = (limit(at(100.0)), limit(at(100.1)));
    assert_eq!((cool.0, warm.0), (80.0, 72.0));
    agrees("30.5", cool.1);
    agrees("27.4", warm.1);
    agrees("27.4", limit(Service { cut_after: false, ..at(20.0) }).1);
}

/// No interference presses nothing and closes nothing; a gap stays a gap.
#[test]
fn a_gap_stays_a_gap() {
    let (bush, housing) = (metal("PB1"), metal("cast aluminium"));
    let joint = PressJoint::new((&bush, &housing), &mm(20.0), &mm(16.0), &mm(40.0));
    for delta in [shift(-0.01), shift(0.0)] {
        assert_eq!(joint.for_stress(&delta).expect("stress").number(), 0.0);
        assert_eq!(joint.close_in(&delta).expect("close-in").number(), 0.0);
    }
    let banded = shift(-0.001).with_band(-0.003, 0.01);
    let close = joint.close_in(&banded).expect("close-in");
    assert_eq!(close.number(), 0.0);
    assert!(close.band_end(Side::High) > 0.004, "the end that presses closes the bore");
}

/// A bore read so badly that the wall may not be there at all is no bush to be judged.
#[test]
fn a_wall_that_may_not_be_there_is_refused() {
    let job = "
job: foil
parts:
  - part: lug
    material: cast aluminium
    operations:
      - ream-bush:
          housing: {bore: 20.000 ± 0.004 mm, outside: 60 mm, length: 20 mm}
          bush: {outside: 20.030 ± 0.004 mm, bore: 18.5 ± 1.6 mm, length: 20 mm, material: phosphor bronze}
          shaft: 18.55 ± 0.003 mm
          clearance: 1 .. 2 thou
";
    let plan = in_shop(job);
    assert_eq!(first(&plan).verdict, Verdict::Fails);
    assert!(
        first(&plan).answer.refused.as_ref().is_some_and(|why| why.to_string().contains("bore of the bush")),
        "{:?}",
        first(&plan).answer.refused
    );
}

/// The shop's guard factor widens every worst end: more of it never betters a verdict.
#[test]
fn more_guard_never_betters_a_verdict() {
    let job = include_str!("fixtures/ream-bush.yaml");
    let mut before: Option<Vec<u8>> = None;
    for guard in ["1", "1.65", "2", "3"] {
        let plan = common::plan(job, Some(&shop(&with(SHOP, "guard: 2", &format!("guard: {guard}")))));
        let ranks: Vec<u8> = first(&plan).answer.checks.iter().map(|check| rank(first(&plan), check.id)).collect();
        if let Some(less) = before.replace(ranks.clone()) {
            let mut pairs = less.iter().zip(&ranks);
            assert!(pairs.all(|(a, b)| b >= a), "{guard}: {less:?} {ranks:?}");
        }
        let most = value(first(&plan), "interference_max");
        let wanted = 0.035 + guard.parse::<f64>().expect("a number") / 2.0 * 0.004 * std::f64::consts::SQRT_2;
        assert!((most - wanted).abs() < 1e-9, "{guard}: {most}");
    }
}
