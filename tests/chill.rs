//! A part made cold: small enough at the press, sound, dry, and nobody stifled.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common::{agrees, first, in_shop, state, try_plan, value, verdict, with};
use setover::proof::{Outcome, Verdict};

const JOB: &str = include_str!("../examples/chill.yaml");

/// By hand: the freezer at -18 is -15 at the worst; two fifths are lost on the way, so 21 degrees stay, over 24 mm of 18 millionths:
/// 0.009; the part must lose 0.022 + 0.024 - 0.040 = 0.006.
#[test]
fn the_example_is_proven_and_its_figures_are_those_by_hand() {
    let plan = in_shop(JOB);
    assert_eq!(first(&plan).verdict, Verdict::Proven, "{:?}", first(&plan).answer.checks);
    agrees("0.006", value(first(&plan), "must_lose"));
    agrees("-1.0", value(first(&plan), "temperature_at_press"));
    agrees("0.009", value(first(&plan), "chill_gain"));
    assert_eq!(first(&plan).answer.set_ups[0].leaves[0].to_string(), "bush of the pump cover/chill:cold");
}

#[test]
fn what_is_not_small_enough_is_doubtful_and_never_proven() {
    let opened = |line: &str| {
        let job =
            with(JOB, "          opened-by: 0.040 mm             # what the warm housing opens at the least\n", line);
        in_shop(&job)
    };
    assert_eq!(verdict(first(&opened("          opened-by: 0.036 mm\n")), "cold-enough"), Verdict::Doubtful);
    assert_eq!(verdict(first(&opened("")), "cold-enough"), Verdict::Doubtful, "alone the freezer is too weak");
    let unknown = with(JOB, "          interference: 0.022 mm          # the greatest in its housing\n", "");
    assert_eq!(state(first(&in_shop(&unknown)), "cold-enough"), Outcome::NotChecked);
    let ice = with(
        &with(JOB, "in: freezer", "in: nitrogen"),
        "bagged: true",
        "bagged: true\n          aired: true\n          plated: false",
    );
    let ice = with(&ice, "          opened-by: 0.040 mm             # what the warm housing opens at the least\n", "");
    let ice = with(&ice, "interference: 0.022 mm", "interference: 0.016 mm");
    assert_eq!(first(&in_shop(&ice)).verdict, Verdict::Proven);
}

/// Frost, a shut room, a shut vessel.
#[test]
fn nobody_is_stifled_and_no_frost_is_pressed_in() {
    let ice = |how: &str| in_shop(&with(&with(JOB, "in: freezer", "in: dry-ice"), "bagged: true", how));
    assert_eq!(verdict(first(&ice("bagged: true\n          aired: false")), "air-to-breathe"), Verdict::Fails);
    assert_eq!(state(first(&ice("bagged: true")), "air-to-breathe"), Outcome::NotChecked);
    assert_eq!(verdict(first(&ice("bagged: true\n          aired: true")), "air-to-breathe"), Verdict::Proven);
    assert_eq!(state(first(&in_shop(JOB)), "air-to-breathe"), Outcome::DoesNotApply);
    assert_eq!(verdict(first(&ice("bagged: false")), "stays-dry"), Verdict::Doubtful);
    assert_eq!(state(first(&ice("# none")), "stays-dry"), Outcome::NotChecked);
    let shut = ice("bagged: true");
    let cautions = &first(&shut).answer.set_ups[0].cautions;
    assert!(cautions.iter().any(|words| words.contains("shut vessel")), "{cautions:?}");
    assert!(cautions.iter().any(|words| words.contains("displace the air")), "{cautions:?}");
}

/// A shut bag bursts in nitrogen: it hangs bare, and no step speaks of a bag where there is none.
#[test]
fn no_bag_goes_into_nitrogen() {
    let bags = |cold: &str, bagged: &str| {
        let job = with(&with(JOB, "in: freezer", cold), "bagged: true", &format!("{bagged}\n          aired: true"));
        let plan = in_shop(&job);
        let steps =
            first(&plan).answer.set_ups[0].steps.iter().map(|step| step.words.to_lowercase()).collect::<Vec<_>>();
        (
            state(first(&plan), "stays-dry"),
            steps.iter().filter(|words| words.contains("dry bag") || words.contains("out of the bag")).count(),
        )
    };
    assert_eq!(bags("in: nitrogen", "bagged: true"), (Outcome::DoesNotApply, 0));
    assert_eq!(bags("in: nitrogen", "bagged: false"), (Outcome::DoesNotApply, 0));
    assert_eq!(bags("in: freezer", "bagged: true"), (Outcome::Made(Verdict::Proven), 2));
    assert_eq!(bags("in: freezer", "bagged: false"), (Outcome::Made(Verdict::Doubtful), 0));
}

/// Iron breaks cold where it would have bent; hardened steel grows; plastic cracks; a plating parts; unsaid, nothing is proven.
#[test]
fn what_the_cold_spoils_is_not_proven() {
    let of = |metal: &str, cold: &str, plated: &str| {
        let job = with(&with(JOB, "material: LG2", &format!("material: {metal}")), "in: freezer", cold);
        in_shop(&with(&job, "bagged: true", &format!("bagged: true\n          aired: true\n          {plated}")))
    };
    let judged = |metal: &str, cold: &str| verdict(first(&of(metal, cold, "plated: false")), "bears-cold");
    for metal in ["mild steel", "GG25", "case-hardened steel"] {
        assert_eq!(judged(metal, "in: freezer"), Verdict::Proven, "{metal}");
        assert_eq!(judged(metal, "in: dry-ice"), Verdict::Doubtful, "{metal}");
    }
    assert_eq!(judged("LG2", "in: nitrogen"), Verdict::Proven);
    assert_eq!(verdict(first(&of("LG2", "in: nitrogen", "plated: true")), "bears-cold"), Verdict::Doubtful);
    assert_eq!(state(first(&of("LG2", "in: nitrogen", "# none")), "bears-cold"), Outcome::NotChecked);
    assert_eq!(verdict(first(&of("LG2", "in: freezer", "# none")), "bears-cold"), Verdict::Proven);
    assert!(try_plan(&with(JOB, "bore: 20 mm", "bore: 24 mm"), None).is_err());
}

/// No housing opens by five millimetres; of one whose metal is not known only what iron does is proven.
#[test]
fn what_no_warmth_opens_makes_no_room() {
    let opened = |by: &str| in_shop(&with(JOB, "opened-by: 0.040 mm", &format!("opened-by: {by}")));
    assert_eq!(verdict(first(&opened("5 mm")), "can-be-so-warm"), Verdict::Fails);
    assert_eq!(first(&opened("5 mm")).verdict, Verdict::Fails);
    assert_eq!(verdict(first(&opened("0.060 mm")), "can-be-so-warm"), Verdict::Doubtful);
    assert_eq!(verdict(first(&opened("0.040 mm")), "can-be-so-warm"), Verdict::Proven);
    // Known to be aluminium it may be 0.060, and is never 0.100.
    let housing = |by: &str| {
        let job = with(JOB, "material: LG2\n", "material: cast aluminium\n");
        in_shop(&with(&job, "opened-by: 0.040 mm", &format!("material: LG2\n          opened-by: {by}")))
    };
    assert_eq!(verdict(first(&housing("0.060 mm")), "can-be-so-warm"), Verdict::Proven);
    assert_eq!(verdict(first(&housing("0.100 mm")), "can-be-so-warm"), Verdict::Fails);
}

/// A thick part is not cold in half an hour: volume over surface, 30 minutes a millimetre. By hand: solid of 80 by 100 has 14.3 mm of
/// it; the hold point reads its metal, not the air.
#[test]
fn what_is_thick_lies_longer_in_the_cold() {
    let minutes = |plan: &setover::plan::Plan| first(plan).answer.set_ups[0].tail.unwrap().minutes;
    let thin = in_shop(JOB);
    agrees("30", minutes(&thin));
    let solid = in_shop(&with(
        &with(&with(JOB, "outside: 24 mm", "outside: 80 mm"), "          bore: 20 mm\n", ""),
        "length: 20 mm",
        "length: 100 mm",
    ));
    agrees("430", minutes(&solid));
    let words: Vec<&String> = first(&solid).answer.set_ups[0].steps.iter().map(|step| &step.words).collect();
    assert!(words.iter().any(|words| words.contains("430 min")), "{words:?}");
    assert!(words.iter().any(|words| words.contains("not the air")), "{words:?}");
    let mut last = 0.0;
    for bore in [22, 20, 16, 10, 2] {
        let now = minutes(&in_shop(&with(JOB, "bore: 20 mm", &format!("bore: {bore} mm"))));
        assert!(now >= last, "{bore}");
        last = now;
    }
}

/// The deeper the cold the less a metal shrinks a degree; and no thermometer of a workshop reads nitrogen.
#[test]
fn deep_cold_takes_less_off_than_the_figure_of_room_temperature() {
    let cold = |how: &str| {
        in_shop(&with(&with(JOB, "in: freezer", how), "bagged: true", "bagged: false\n          aired: true"))
    };
    let a_degree = |plan: &setover::plan::Plan| {
        value(first(plan), "chill_gain") / (20.0 - value(first(plan), "temperature_at_press"))
    };
    let [freezer, ice, nitrogen] = ["in: freezer", "in: dry-ice", "in: nitrogen"].map(|how| a_degree(&cold(how)));
    assert!(freezer > ice && ice > nitrogen, "{freezer} {ice} {nitrogen}");
    let steps: Vec<&str> = first(&cold("in: nitrogen")).answer.set_ups[0].steps.iter().map(|step| step.id).collect();
    assert!(steps.contains(&"boiling-has-stopped") && !steps.contains(&"read-the-cold"), "{steps:?}");
}
