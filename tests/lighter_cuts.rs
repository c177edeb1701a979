//! A cut that grip or motor do not carry is made lighter: slower, finer, or in more cuts. So a worse reading, which only asks for more metal and
//! more cuts, never makes it proven where a better one does not.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common::{first, plan, shop, value, with};
use setover::plan::Planned;
use setover::proof::Verdict;

const SHOP: &str = include_str!("../examples/shop.yaml");
const SKIM: &str = include_str!("../examples/skim.yaml");
const TURN: &str = include_str!("../examples/turn.yaml");

fn with_jaws(force: &str) -> String {
    with(SHOP, "jaw-force: 20 kN, diameter: 160 mm", &format!("jaw-force: {force}, diameter: 160 mm"))
}

fn planned(job: &str, shop_text: &str) -> Planned {
    first(&plan(job, Some(&shop(shop_text)))).clone()
}

fn choice(planned: &Planned, name: &str) -> Option<String> {
    planned.answer.choices.iter().find(|choice| choice.name == name).map(|choice| choice.chosen.clone())
}

/// The more doubtful the wear, the more metal is planned for, and the more cuts that is: never a better verdict.
#[test]
fn more_doubt_of_the_wear_makes_no_cut_proven() {
    let slots = with(SKIM, "interrupted: 6", "interrupted: 2");
    let mut seen = Vec::new();
    for force in
        ["0.3 kN", "0.6 kN", "1 kN", "1.5 kN", "2 kN", "3 kN", "4 kN", "5 kN", "5.6 kN", "6 kN", "6.6 kN", "8 kN"]
    {
        let of = |doubt: &str| {
            let job = with(&slots, "wear: 0.15 ± 0.03 mm", &format!("wear: 0.15 ± {doubt} mm"));
            planned(&job, &with_jaws(force)).verdict
        };
        let verdicts = ["0.01", "0.03", "0.05", "0.07", "0.09"].map(of);
        assert!(verdicts.is_sorted(), "{force}: {verdicts:?}");
        seen.extend(verdicts);
    }
    assert!(seen.contains(&Verdict::Fails) && seen.contains(&Verdict::Proven), "{seen:?}");
}

/// It is cut in more cuts than the fewest where that is what the jaws carry, and says so.
#[test]
fn a_weak_grip_asks_for_lighter_cuts() {
    let slots = with(&with(SKIM, "interrupted: 6", "interrupted: 2"), "wear: 0.15 ± 0.03 mm", "wear: 0.15 ± 0.05 mm");
    let (strong, weak) = (planned(&slots, SHOP), planned(&slots, &with_jaws("6.6 kN")));
    assert_eq!((strong.verdict, choice(&strong, "cuts_more")), (Verdict::Proven, None));
    assert_eq!(weak.verdict, Verdict::Proven);
    let lighter = ["cuts_more", "feed_cap", "speed_cap"].map(|name| choice(&weak, name).is_some());
    assert!(lighter.contains(&true), "{lighter:?}");
    assert!(value(&weak, "cutting_force") < value(&strong, "cutting_force"));
    assert!(value(&weak, "time") > value(&strong, "time"));
}

/// Where the cut could be as light as the edge bites it is not refused for being deep.
#[test]
fn a_very_weak_grip_gets_many_light_cuts() {
    let deep = with(&with(TURN, "present: 24.60", "present: 26.60"), "diameter: 24.6 mm", "diameter: 26.6 mm");
    let of = |force: &str| {
        let planned = planned(&deep, &with_jaws(force));
        let cuts: Option<u32> = choice(&planned, "cuts_more").and_then(|cuts| cuts.parse().ok());
        (planned.verdict, cuts.unwrap_or(2))
    };
    let [weak, weaker, hopeless] = ["2 kN", "1.5 kN", "0.3 kN"].map(of);
    assert!(weak.0 == Verdict::Proven && weaker.0 == Verdict::Proven, "{weak:?} {weaker:?}");
    assert!(weak.1 > 5 && weaker.1 > weak.1, "{weak:?} {weaker:?}");
    assert_eq!(hopeless.0, Verdict::Fails);
}

/// A motor that does not pull the cut is spared by a lighter one; none that is weaker makes anything surer.
#[test]
fn a_weak_motor_asks_for_a_lighter_cut() {
    let of = |kilowatts: &str| planned(TURN, &with(SHOP, "power: 0.75 kW", &format!("power: {kilowatts} kW")));
    let all = ["0.75", "0.2", "0.1", "0.05", "0.02", "0.01", "0.001"].map(of);
    let verdicts = all.each_ref().map(|planned| planned.verdict);
    assert!(verdicts.is_sorted(), "{verdicts:?}");
    let (whole, spared) = (&all[0], all.iter().rfind(|planned| planned.verdict == Verdict::Proven).unwrap());
    assert!(value(spared, "power_at_motor") < value(whole, "power_at_motor"), "{verdicts:?}");
    assert!(value(spared, "time") > value(whole, "time"));
}
