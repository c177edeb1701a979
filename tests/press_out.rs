//! An old bush pressed out: the right way, with everything clear, within what press, bush and casting stand.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common::{SHOP, agrees, first, in_shop, plan, shop, state, try_plan, value, verdict, with};
use setover::plan::Plan;
use setover::proof::{Outcome, Verdict};

const JOB: &str = include_str!("../examples/press-out.yaml");
const HELD: &str = "held-by: flange                 # nothing, flange, shoulder, both";
const FROM: &str = "push-from: inner                # the end that the mandrel stands on";
const TIGHT: &str = "interference: 0.030 mm          # the greatest that it may have";
const MANDREL: &str = "mandrel: {diameter: 23.5 mm, length: 40 mm}";
const SUPPORT: &str = "support: {inside: 32 mm, height: 40 mm, under: boss}";
const FLANGE: &str = "          flange: {diameter: 30 mm, thickness: 3 mm}\n";

fn of(from: &str, to: &str) -> Plan {
    in_shop(&with(JOB, from, to))
}

fn judged(from: &str, to: &str, check: &str) -> Verdict {
    verdict(first(&of(from, to)), check)
}

/// By hand: 0.2 p pi 24.02 20 for the joint, half as much again where it is stuck; the housing may close to
/// 24.02 - 0.02 - 0.030; the mandrel covers half of the wall from (18.10 + 24.02)/2 on.
#[test]
fn the_example_is_proven_and_its_figures_are_those_by_hand() {
    let plan = in_shop(JOB);
    assert_eq!(first(&plan).verdict, Verdict::Proven, "{:?}", first(&plan).answer.checks);
    agrees("20.0", value(first(&plan), "gripped_length"));
    let force = 0.2 * value(first(&plan), "grip_pressure") * std::f64::consts::PI * 24.02 * 20.0;
    assert!((value(first(&plan), "push_force") / force - 1.0).abs() < 0.03, "{force}");
    assert!((value(first(&plan), "push_force_stuck") / value(first(&plan), "push_force") - 1.5).abs() < 1e-9);
    agrees("23.970", value(first(&plan), "housing_bore_least"));
    agrees("30", value(first(&plan), "must_pass"));
    let set_up = &first(&plan).answer.set_ups[0];
    assert_eq!(set_up.leaves[0].to_string(), "pump cover/press-out:pressed-out");
    assert!(!set_up.pause, "nobody leaves a bush half way out");
}

/// Against its flange or a shoulder the casting breaks; which way it comes must be said.
#[test]
fn it_comes_the_way_that_it_is_pushed_or_not_at_all() {
    assert_eq!(judged(FROM, "push-from: outer", "way-out"), Verdict::Fails);
    assert_eq!(judged(HELD, "held-by: both", "way-out"), Verdict::Fails);
    let shoulder = |from: &str| {
        let job = with(&with(JOB, HELD, "held-by: shoulder"), FLANGE, "");
        let job = with(&job, "length: 20 mm}", "length: 26 mm, shoulder-bore: 23.8 mm}");
        in_shop(&with(&job, FROM, from))
    };
    assert_eq!(verdict(first(&shoulder("push-from: inner")), "way-out"), Verdict::Proven);
    assert_eq!(verdict(first(&shoulder("push-from: outer")), "way-out"), Verdict::Fails);
    for missing in [HELD, FROM] {
        let plan = of(missing, "# not said");
        assert_eq!(state(first(&plan), "way-out"), Outcome::NotChecked, "{missing}");
        assert_eq!(first(&plan).verdict, Verdict::Doubtful, "{missing}");
    }
    // A flange that lies there is no `nothing`.
    assert!(try_plan(&with(JOB, HELD, "held-by: nothing"), None).is_err());
    let plan = of(HELD, "# not said");
    assert!(first(&plan).answer.set_ups[0].steps.iter().any(|step| step.id == "find-what-holds-it"));
}

/// Flange and all pass the support, which stands under the boss.
#[test]
fn what_comes_out_passes_the_support() {
    let support = |inside: &str| of(SUPPORT, &format!("support: {{inside: {inside}, height: 40 mm, under: boss}}"));
    assert_eq!(
        verdict(first(&support("30.2 mm")), "support-clears"),
        Verdict::Fails,
        "the bush passes, its flange not"
    );
    assert_eq!(verdict(first(&support("31 mm")), "support-clears"), Verdict::Proven);
    assert_eq!(verdict(first(&support("43 mm")), "under-the-boss"), Verdict::Fails);
    let thin = of(SUPPORT, "support: {inside: 32 mm, height: 40 mm, under: thin-flange}");
    assert_eq!(verdict(first(&thin), "under-the-boss"), Verdict::Fails);
    let unknown = of(FLANGE, "");
    assert_eq!(state(first(&unknown), "support-clears"), Outcome::NotChecked, "how large its flange is nobody said");
    assert_eq!(first(&unknown).verdict, Verdict::Doubtful);
    assert_eq!(first(&of(SUPPORT, "# none")).verdict, Verdict::Doubtful);
}

/// Larger than the bore, smaller than the housing at its least and than the shoulder that it goes through; long enough, with room
/// beneath.
#[test]
fn the_mandrel_neither_jams_nor_stops_short() {
    let mandrel = |keys: &str, check: &str| judged(MANDREL, &format!("mandrel: {{{keys}}}"), check);
    assert_eq!(mandrel("diameter: 18.5 mm, length: 40 mm", "mandrel-covers"), Verdict::Fails);
    assert_eq!(mandrel("diameter: 23.76 mm, length: 40 mm", "mandrel-clears"), Verdict::Proven);
    assert_eq!(mandrel("diameter: 23.9 mm, length: 40 mm", "mandrel-clears"), Verdict::Fails);
    assert_eq!(mandrel("diameter: 23.5 mm, length: 15 mm", "comes-right-out"), Verdict::Fails);
    let low = "support: {inside: 32 mm, height: 18 mm, under: boss}";
    assert_eq!(judged(SUPPORT, low, "comes-right-out"), Verdict::Fails);
    for missing in ["mandrel: {diameter: 23.5 mm}", "# none"] {
        let plan = of(MANDREL, missing);
        assert_eq!(state(first(&plan), "comes-right-out"), Outcome::NotChecked);
        assert_eq!(first(&plan).verdict, Verdict::Doubtful);
    }
    let shoulder = with(&with(JOB, HELD, "held-by: shoulder"), FLANGE, "");
    assert_eq!(state(first(&in_shop(&shoulder)), "mandrel-clears"), Outcome::NotChecked);
    let narrow = with(&shoulder, "length: 20 mm}", "length: 26 mm, shoulder-bore: 23 mm}");
    assert_eq!(verdict(first(&in_shop(&narrow)), "mandrel-clears"), Verdict::Fails);
}

/// Tighter, in a thinner boss, with a thinner wall, it is never better; what nobody knows is not proven.
#[test]
fn the_push_is_within_what_press_bush_and_casting_stand() {
    let mut worst = Verdict::Proven;
    for tight in ["0.030", "0.045", "0.060", "0.100", "0.200"] {
        let now = first(&of(TIGHT, &format!("interference: {tight} mm"))).verdict;
        assert!(now >= worst, "{tight}");
        worst = now;
    }
    assert_eq!(worst, Verdict::Doubtful, "a soft bush yields before the casting splits");
    let hard =
        with(&with(JOB, "cast aluminium", "GG25"), "material: LG2}", "material: mild steel}\n          guarded: true");
    let tight = with(&hard, "0.030 mm ", "0.100 mm ");
    assert_eq!(verdict(first(&in_shop(&tight)), "housing-stands"), Verdict::Fails, "a hard one splits it");
    let mut worst = Verdict::Proven;
    for outside in ["46 mm", "40 mm", "37 mm", "36.5 mm"] {
        let now = first(&of("outside: 46 mm", &format!("outside: {outside}"))).verdict;
        assert!(now >= worst, "{outside}");
        worst = now;
    }
    let unknown = of(TIGHT, "# not known");
    for check in ["press-force", "housing-stands", "bush-stands-push"] {
        assert_eq!(state(first(&unknown), check), Outcome::NotChecked, "{check}");
    }
    assert_eq!(first(&unknown).verdict, Verdict::Doubtful);
    // A long bush takes more push than its wall stands: it swells and jams.
    let long = with(&with(JOB, "46 mm, length: 20 mm", "46 mm, length: 87 mm"), "length: 23 mm", "length: 90 mm");
    assert_eq!(verdict(first(&in_shop(&long)), "bush-stands-push"), Verdict::Fails);
}

/// Iron bursts: without a guard it is not pressed. Bronze in iron only grips harder when it is warm.
#[test]
fn what_flies_is_caught_and_warmth_helps_or_is_left_out() {
    let iron = |guard: &str| of("material: LG2}", &format!("material: GG25}}\n          {guard}"));
    assert_eq!(verdict(first(&iron("guarded: false")), "pieces-caught"), Verdict::Fails);
    assert_eq!(state(first(&iron("# none")), "pieces-caught"), Outcome::NotChecked);
    assert_eq!(verdict(first(&iron("guarded: true")), "pieces-caught"), Verdict::Proven);
    assert_eq!(state(first(&in_shop(JOB)), "pieces-caught"), Outcome::DoesNotApply);
    let warm = |job: &str, to: &str| in_shop(&with(job, "held-by", &format!("warm-to: {to}\n          held-by")));
    assert_eq!(verdict(first(&warm(JOB, "100 degC")), "warmth-loosens"), Verdict::Proven);
    let iron = with(JOB, "material: cast aluminium", "material: GG25");
    assert_eq!(verdict(first(&warm(&iron, "100 degC")), "warmth-loosens"), Verdict::Fails);
    assert_eq!(verdict(first(&warm(JOB, "200 degC")), "may-be-so-warm"), Verdict::Fails);
}

/// The oven may be off by 10 degrees either way: what is to be 150 may be 170, and what sits in it must bear that.
#[test]
fn what_is_warmed_to_be_pressed_out_may_become_hotter_than_was_asked() {
    let warm = |to: &str, more: &str| {
        in_shop(&with(JOB, "held-by", &format!("warm-to: {to}\n          {more}\n          held-by")))
    };
    let at = |to: &str| verdict(first(&warm(to, "near: [nothing]")), "may-be-so-warm");
    agrees("170", value(first(&warm("150 degC", "near: [nothing]")), "housing_hottest"));
    agrees("160", value(first(&warm("150 degC", "near: [nothing]")), "oven_setting"));
    assert_eq!((at("130 degC"), at("131 degC"), at("161 degC")), (Verdict::Proven, Verdict::Doubtful, Verdict::Fails));
    assert_eq!(first(&warm("100 degC", "near: [nothing]")).verdict, Verdict::Doubtful, "nothing warms it");
    let job = with(
        JOB,
        "held-by",
        "warm-to: 100 degC\n          near: [nothing]\n          temper: as-cast\n          held-by",
    );
    let cool = in_shop(&format!("{job}      - hand: {{does: Warm it through., minutes: 30 min, leaves: [warm]}}\n"));
    assert_eq!(first(&cool).verdict, Verdict::Proven, "{:?}", first(&cool).answer.checks);
    assert_eq!(verdict(first(&warm("125 degC", "near: [seals]")), "neighbours-bear-it"), Verdict::Fails);
    let unsaid = warm("100 degC", "# nothing said");
    assert_eq!(state(first(&unsaid), "neighbours-bear-it"), Outcome::NotChecked);
    assert_ne!(first(&unsaid).verdict, Verdict::Proven);
    assert_eq!(state(first(&in_shop(JOB)), "neighbours-bear-it"), Outcome::DoesNotApply);
}

/// A shoulder whose bore was measured is there, though nobody said that it holds.
#[test]
fn a_measured_shoulder_holds_and_is_cleared() {
    let job = with(&with(JOB, FLANGE, ""), HELD, "held-by: nothing");
    let job = with(&job, "length: 20 mm}", "length: 20 mm, shoulder-bore: 15 mm}");
    let it = in_shop(&job);
    assert_eq!(verdict(first(&it), "mandrel-clears"), Verdict::Fails, "23.5 through 15");
    let pushed = in_shop(&with(&job, FROM, "push-from: outer"));
    assert_eq!(verdict(first(&pushed), "way-out"), Verdict::Fails, "against its shoulder");
}

/// A housing of plastic is not made as warm as one of metal.
#[test]
fn a_plastic_housing_stays_cool() {
    let job = with(
        &with(JOB, "material: cast aluminium", "material: nylon"),
        FLANGE,
        &format!("{FLANGE}          warm-to: 145 degC\n"),
    );
    assert_eq!(verdict(first(&in_shop(&job)), "may-be-so-warm"), Verdict::Fails);
}

/// The oven that warms it must be large and hot enough, as for any part that is warmed.
#[test]
fn what_is_warmed_to_come_out_goes_into_an_oven_that_reaches_it() {
    let own = |most: &str| {
        let oven = "machines:\n  - oven: {name: stove, doubt: 5 degC, inside: 300 mm}\n";
        let text = with(include_str!("../examples/shop.yaml"), "machines:\n", oven);
        shop(&with(&text, "oven: 150 degC", &format!("oven: {most}")))
    };
    let job = |longest: &str| {
        let warm = with(
            JOB,
            "          held-by:",
            "          warm-to: 120 degC\n          near: [nothing]\n          held-by:",
        );
        with(&warm, "    operations:", &format!("    longest: {longest}\n    operations:"))
    };
    let of = |longest: &str, most: &str, check: &str| verdict(first(&plan(&job(longest), Some(&own(most)))), check);
    assert_eq!(
        (of("200 mm", "250 degC", "goes-in"), of("420 mm", "250 degC", "goes-in")),
        (Verdict::Proven, Verdict::Fails)
    );
    assert_eq!(
        (of("200 mm", "250 degC", "oven-reaches"), of("200 mm", "90 degC", "oven-reaches")),
        (Verdict::Proven, Verdict::Doubtful)
    );
}

/// A slender mandrel bows out. By hand: pi² 205000 51.8 / 400² is 655 N, both ends free to turn; over 1000 N are asked.
#[test]
fn a_slender_mandrel_bows_out_under_the_push() {
    let job = "
job: a small bush
parts:
  - part: lever
    material: mild steel
    operations:
      - press-out:
          housing: {outside: 20 mm, length: 10 mm}
          bush: {outside: 6.01 ± 0.005 mm, bore: 2.5 ± 0.02 mm, length: 10 mm, material: phosphor bronze}
          interference: 0.004 mm
          held-by: nothing
          push-from: outer
          mandrel: {diameter: 5.7 mm, length: 20 mm}
          support: {inside: 10 mm, height: 60 mm, under: boss}
";
    assert_eq!(first(&in_shop(job)).verdict, Verdict::Proven, "{:?}", first(&in_shop(job)).answer.checks);
    let mut worst = Verdict::Proven;
    for length in [20, 100, 150, 200, 300, 400] {
        let plan = in_shop(&with(job, "length: 20 mm}", &format!("length: {length} mm}}")));
        let now = verdict(first(&plan), "mandrel-bows");
        assert!(now >= worst, "{length}");
        worst = now;
    }
    assert_eq!(worst, Verdict::Fails);
    let long = in_shop(&with(job, "length: 20 mm}", "length: 400 mm}"));
    assert!(
        (value(first(&long), "mandrel_carries") - 655.0).abs() < 15.0,
        "{}",
        value(first(&long), "mandrel_carries")
    );
    assert_eq!(state(first(&of(", length: 40 mm}", "}")), "mandrel-bows"), Outcome::NotChecked);
    assert_eq!(state(first(&of(MANDREL, "# none")), "mandrel-bows"), Outcome::NotChecked);
}

/// Pushed from its inner end the mandrel goes through the shoulder before it meets the bush.
#[test]
fn the_thickness_of_a_shoulder_is_in_the_way_of_the_mandrel() {
    let job = with(&with(JOB, HELD, "held-by: shoulder"), FLANGE, "");
    let of = |thick: &str| {
        let job = with(&job, "length: 20 mm}", &format!("length: 23 mm, shoulder-bore: 23.8 mm{thick}}}"));
        in_shop(&with(&job, MANDREL, "mandrel: {diameter: 23.5 mm, length: 26 mm}"))
    };
    assert_eq!(verdict(first(&of(", shoulder-thickness: 3 mm")), "comes-right-out"), Verdict::Proven, "23 and 3");
    assert_eq!(verdict(first(&of(", shoulder-thickness: 5 mm")), "comes-right-out"), Verdict::Fails);
    assert_eq!(state(first(&of("")), "comes-right-out"), Outcome::NotChecked);
}

/// An aluminium that was aged at room temperature does not bear the oven that others do.
#[test]
fn a_temper_that_nobody_knows_is_not_made_so_warm() {
    let warm = |temper: &str| {
        of(HELD, &format!("held-by: flange\n          warm-to: 120 degC\n          near: [nothing]{temper}"))
    };
    assert_eq!(state(first(&warm("")), "temper-bears-it"), Outcome::NotChecked);
    assert_eq!(verdict(first(&warm("\n          temper: as-cast")), "temper-bears-it"), Verdict::Proven);
    assert_eq!(verdict(first(&warm("\n          temper: natural")), "temper-bears-it"), Verdict::Fails);
    assert_eq!(state(first(&in_shop(JOB)), "temper-bears-it"), Outcome::DoesNotApply);
}

/// Blocks of 2 m and a mandrel of 2 m were proven on an arbor press.
#[test]
fn what_stands_under_the_ram_goes_in() {
    let of = |shop_says: &str, height: &str, length: &str| {
        let owned = shop(&with(
            SHOP,
            "{name: arbor press, most: 30 kN}",
            &format!("{{name: arbor press, most: 30 kN{shop_says}}}"),
        ));
        let job = with(JOB, MANDREL, &format!("mandrel: {{diameter: 23.5 mm, length: {length}}}"));
        let job = with(&job, SUPPORT, &format!("support: {{inside: 32 mm, height: {height}, under: boss}}"));
        let plan = plan(&job, Some(&owned));
        first(&plan).clone()
    };
    let unasked = of("", "40 mm", "40 mm");
    assert_eq!(state(&unasked, "press-opens"), Outcome::DoesNotApply);
    assert_eq!(value(&unasked, "pile_under_the_ram"), 40.0 + 20.0 + 40.0);
    let high = of("", "2000 mm", "40 mm");
    assert_eq!((verdict(&high, "press-opens"), high.verdict), (Verdict::Doubtful, Verdict::Doubtful));
    let opens = |shop_says: &str, height: &str, length: &str| verdict(&of(shop_says, height, length), "press-opens");
    assert_eq!(opens("", "40 mm", "300 mm"), Verdict::Doubtful);
    assert_eq!(opens(", daylight: 420 mm", "40 mm", "300 mm"), Verdict::Proven);
    assert_eq!(opens(", daylight: 90 mm", "40 mm", "40 mm"), Verdict::Doubtful);
}
