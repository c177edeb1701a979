//! A part in the oven: it opens far enough at the press, and nothing in it is spoilt by the oven at its hottest.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common::{SHOP, agrees, first, in_shop, plan, shop, state, try_plan, value, verdict, with};
use setover::proof::{Outcome, Verdict};
use setover::quantity::Print;
use setover::shop::Shop;

const JOB: &str = include_str!("../examples/warm.yaml");

/// By hand: room 0.024, so 0.022 + 0.024 over 24 mm of 21 to 23 millionths a degree; a fifth is lost on the way; the oven is off
/// by 10 either way.
#[test]
fn the_example_is_proven_and_its_figures_are_those_by_hand() {
    let plan = in_shop(JOB);
    assert_eq!(first(&plan).verdict, Verdict::Proven, "{:?}", first(&plan).answer.checks);
    agrees("0.024", value(first(&plan), "assembly_clearance"));
    agrees("0.046", value(first(&plan), "must_open"));
    let needed = value(first(&plan), "housing_temperature");
    assert!((103.0..=115.0).contains(&needed), "{needed}");
    let wanted = value(first(&plan), "temperature_wanted");
    assert!(wanted >= 20.0 + (needed - 20.0) / 0.8, "{wanted}: a fifth is lost on the way");
    agrees("10.0", value(first(&plan), "oven_setting") - wanted);
    agrees("20.0", value(first(&plan), "housing_hottest") - wanted);
    let set_up = &first(&plan).answer.set_ups[0];
    let tail = set_up.tail.unwrap();
    assert!(tail.watched && tail.holds, "an oven is not left on");
    assert_eq!(set_up.leaves[0].to_string(), "pump cover/warm:warm");
}

/// The doubt of an oven is a difference: 10 °C of it are 18 °F, and no 50.
#[test]
fn the_doubt_of_an_oven_is_printed_as_a_difference() {
    for (print, said) in [(Print::Imperial, "18 °F"), (Print::Metric, "10 °C")] {
        let plan = plan(JOB, Some(&Shop { units: print, ..shop(SHOP) }));
        let assumed: Vec<String> = first(&plan).answer.assumed.iter().map(ToString::to_string).collect();
        let oven = assumed.iter().find(|assumed| assumed.contains("the oven may be")).expect("an oven");
        assert!(oven.contains(said), "{oven}");
    }
}

/// What was asked is not what is needed: it would stick half way.
#[test]
fn what_does_not_open_far_enough_fails() {
    let to =
        |degrees: &str| in_shop(&with(JOB, "temper: as-cast", &format!("temper: as-cast\n          to: {degrees}")));
    assert_eq!(verdict(first(&to("60 degC")), "opens-enough"), Verdict::Fails);
    assert_eq!(verdict(first(&to("130 degC")), "opens-enough"), Verdict::Proven);
    // What chilling takes off needs less.
    let chilled =
        with(JOB, "temper: as-cast", "temper: as-cast\n          to: 85 degC\n          chilled-by: 0.020 mm");
    assert_eq!(verdict(first(&in_shop(&chilled)), "opens-enough"), Verdict::Proven);
    assert!(try_plan(&with(JOB, "temper: as-cast", "temper: as-cast\n          to: 20 degC"), None).is_err());
}

/// Each thing that must not become so warm, and the metal and its temper; what nobody looked for proves nothing.
#[test]
fn what_is_in_it_bears_the_oven_at_its_hottest() {
    let near = |what: &str| verdict(first(&in_shop(&with(JOB, "[nothing]", what))), "neighbours-bear-it");
    for what in ["seals", "bearings", "magnets", "fuel", "plastic", "shut-hollow"] {
        assert_eq!(near(&format!("[{what}]")), Verdict::Fails, "{what}");
    }
    for what in ["babbitt", "solder", "paint", "adhesive", "oil"] {
        assert_eq!(near(&format!("[{what}]")), Verdict::Doubtful, "{what}");
    }
    assert_eq!(near("[paint, seals]"), Verdict::Fails, "the worst decides");
    assert_eq!(near("[nothing, seals]"), Verdict::Fails, "a word does not wipe out another");
    for missing in [
        "          near: [nothing]                 # seals, bearings, babbitt, solder, magnets, paint, fuel ...\n",
        "          interference: 0.022 mm          # the greatest of what is to drop in\n",
    ] {
        let job = with(&with(JOB, missing, ""), "temper: as-cast", "temper: as-cast\n          to: 130 degC");
        assert_eq!(first(&in_shop(&job)).verdict, Verdict::Doubtful, "{missing}");
    }
    let empty = in_shop(&with(JOB, "[nothing]", "[]"));
    assert_eq!(state(first(&empty), "neighbours-bear-it"), Outcome::NotChecked);
}

#[test]
fn a_temper_that_nobody_knows_is_as_bad_as_the_worst() {
    let temper = |line: &str| in_shop(&with(JOB, "temper: as-cast", line));
    assert_eq!(verdict(first(&temper("temper: natural")), "temper-bears-it"), Verdict::Fails);
    assert_eq!(state(first(&temper("# none")), "temper-bears-it"), Outcome::NotChecked);
    let mild = temper("to: 75 degC\n          chilled-by: 0.030 mm");
    assert_eq!(verdict(first(&mild), "temper-bears-it"), Verdict::Proven, "every temper bears 95");
    let iron = in_shop(&with(JOB, "cast aluminium", "GG25"));
    assert_eq!(state(first(&iron), "temper-bears-it"), Outcome::DoesNotApply);
}

/// Over the stop of the metal no setting is printed; an oven of whose thermometer more may be wrong is hotter at its hottest.
#[test]
fn over_its_stop_it_is_not_heated() {
    let to = |metal: &str, degrees: &str| {
        let job = with(JOB, "temper: as-cast", &format!("temper: as-cast\n          to: {degrees}"));
        in_shop(&with(&job, "cast aluminium", metal))
    };
    assert_eq!(verdict(first(&to("cast aluminium", "131 degC")), "oven-stop"), Verdict::Doubtful);
    let hot = to("cast aluminium", "161 degC");
    assert_eq!(verdict(first(&hot), "oven-stop"), Verdict::Fails);
    assert!(
        first(&hot).answer.value("oven_setting").is_none() && first(&hot).answer.value("part_temperature").is_none()
    );
    assert!(first(&hot).answer.set_ups[0].steps.iter().any(|step| step.id == "do-not-heat"));
    assert_eq!(verdict(first(&to("AZ91", "101 degC")), "oven-stop"), Verdict::Fails);
    assert_eq!(verdict(first(&to("case-hardened steel", "101 degC")), "oven-stop"), Verdict::Fails);
    let vague = with(SHOP, "guard: 2,", "guard: 2, oven-doubt: 30 degC,");
    assert_eq!(verdict(first(&plan(JOB, Some(&shop(&vague)))), "oven-stop"), Verdict::Fails);
}

/// An oven that does not reach it is on the missing list.
#[test]
fn the_oven_reaches_it() {
    let iron = with(&with(JOB, "cast aluminium", "GG25"), "temper: as-cast", "to: 170 degC");
    let weak = in_shop(&iron);
    assert_eq!(verdict(first(&weak), "oven-reaches"), Verdict::Doubtful);
    assert!(!first(&weak).answer.missing.is_empty());
}

/// Nothing takes two millimetres off a bush, and only one of aluminium in nitrogen loses a tenth of 24.
#[test]
fn what_no_cold_takes_off_makes_no_room() {
    let chilled = |interference: &str, by: &str| {
        let job = with(JOB, "interference: 0.022 mm ", &format!("interference: {interference} "));
        in_shop(&with(&job, "temper: as-cast", &format!("temper: as-cast\n          chilled-by: {by}")))
    };
    assert_eq!(verdict(first(&chilled("2 mm", "2.2 mm")), "can-be-so-cold"), Verdict::Fails);
    assert_eq!(verdict(first(&chilled("0.022 mm", "0.1 mm")), "can-be-so-cold"), Verdict::Doubtful);
    assert_ne!(first(&chilled("0.022 mm", "0.1 mm")).verdict, Verdict::Proven);
    // What a freezer leaves is not so cold at the press, whatever the bush is of; dry ice is.
    let lies_in = |what: &str| chilled("0.022 mm", &format!("0.012 mm\n          chilled-in: {what}"));
    assert_eq!(verdict(first(&chilled("0.022 mm", "0.012 mm")), "can-be-so-cold"), Verdict::Doubtful);
    assert_eq!(verdict(first(&lies_in("freezer")), "can-be-so-cold"), Verdict::Doubtful);
    assert_eq!(verdict(first(&lies_in("dry-ice")), "can-be-so-cold"), Verdict::Proven);
    assert_eq!(state(first(&in_shop(JOB)), "can-be-so-cold"), Outcome::DoesNotApply);
}

/// Plastic is never made as hot as a metal.
#[test]
fn plastic_goes_into_no_hot_oven() {
    let to = |metal: &str, to: &str| {
        let job = with(JOB, "material: cast aluminium", &format!("material: {metal}"));
        let job = with(&job, "          temper: as-cast\n", &format!("          to: {to}\n"));
        verdict(first(&in_shop(&job)), "oven-stop")
    };
    for metal in ["acetal", "nylon", "PTFE"] {
        // The oven may make it hotter by twice its doubt.
        assert_eq!(to(metal, "130 degC"), Verdict::Fails, "{metal}");
        assert_eq!(to(metal, "65 degC"), Verdict::Doubtful, "{metal}");
        assert_eq!(to(metal, "55 degC"), Verdict::Proven, "{metal}");
    }
}

/// A part that is longer than the oven fails, one of which nobody says how long it is is doubtful, and an oven of which nobody says
/// how much goes in takes every part.
#[test]
fn the_part_goes_into_the_oven() {
    let small = with(SHOP, "machines:", "machines:\n  - oven: {name: small oven, most: 230 degC, inside: 380 mm}");
    let of = |job: &str, text: &str| plan(job, Some(&shop(text)));
    let long = |longest: &str| with(JOB, "operations:", &format!("longest: {longest}\n    operations:"));
    assert_eq!(verdict(first(&of(&long("379 mm"), &small)), "goes-in"), Verdict::Proven);
    let over = of(&long("420 mm"), &small);
    assert_eq!((verdict(first(&over), "goes-in"), first(&over).verdict), (Verdict::Fails, Verdict::Fails));
    let unsaid = of(JOB, &small);
    assert_eq!(state(first(&unsaid), "goes-in"), Outcome::NotChecked);
    assert_eq!(first(&unsaid).verdict, Verdict::Doubtful);
    // What the operation knows of its size rules it out alone.
    let boss = with(JOB, "outside: 46 mm", "outside: 400 mm");
    assert_eq!(verdict(first(&of(&boss, &small)), "goes-in"), Verdict::Fails);
    assert_eq!(state(first(&of(&long("420 mm"), SHOP)), "goes-in"), Outcome::DoesNotApply);
}

/// Of two ovens the one that is named is judged: how far it may be off, and how hot it gets.
#[test]
fn the_oven_that_is_named_is_the_one_that_is_judged() {
    let two = "machines:\n  - oven: {name: lab oven, most: 250 degC, doubt: 2 degC}\n  - oven: {name: old stove, most: 110 degC, doubt: 30 degC}\n";
    let own = with(&with(SHOP, "machines:\n", two), "oven: 150 degC, ", "");
    let at = |machine: &str| {
        let job = with(
            JOB,
            "          bore: 24 mm",
            &format!("          set-up: {{machine: {machine}}}\n          bore: 24 mm"),
        );
        plan(&job, Some(&shop(&own)))
    };
    let (lab, stove) = (at("lab oven"), at("old stove"));
    let off = |plan| value(first(plan), "housing_hottest") - value(first(plan), "temperature_wanted");
    agrees("4.0", off(&lab));
    agrees("60.0", off(&stove));
    assert_eq!(verdict(first(&lab), "oven-reaches"), Verdict::Proven);
    assert_eq!(verdict(first(&stove), "oven-reaches"), Verdict::Doubtful);
    assert_ne!(verdict(first(&stove), "oven-stop"), Verdict::Proven);
}
