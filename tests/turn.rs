//! An outside turned to size: what goes, what the dial counts, what springs, and everything that throws it out of the jaws.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common::{agrees, first, held, in_shop, plan, shop, state, try_plan, value, verdict, with};
use setover::operations::SetUp;
use setover::plan::Plan;
use setover::proof::{Dialled, Outcome, Verdict};

const JOB: &str = include_str!("../examples/turn.yaml");
const SHOP: &str = include_str!("../examples/shop.yaml");

fn own(job: &str) -> Plan {
    plan(job, Some(&shop(SHOP)))
}

fn other(job: &str, from: &str, to: &str) -> Plan {
    assert!(SHOP.contains(from), "{from}");
    plan(job, Some(&shop(&SHOP.replace(from, to))))
}

fn set_up(plan: &Plan) -> &SetUp<String> {
    &first(plan).answer.set_ups[0]
}

/// Divisions of every dial, in order, spring passes too.
fn divisions(plan: &Plan) -> Vec<f64> {
    let passes = set_up(plan).cuts().flat_map(|cut| &cut.passes);
    passes
        .filter_map(|pass| if let Some(Dialled::Slide(dial)) = &pass.dial { Some(dial.divisions) } else { None })
        .collect()
}

/// By hand: 24.60 down to the middle of 23.95 and 24.00 is 0.625 on the diameter, 0.3125 on the radius; the dial counts the
/// diameter in 0.02, so 31 divisions; at 1120 rev/min the outside runs at 86.6 m/min.
#[test]
fn the_metal_goes_to_the_middle_of_the_limits_by_the_dial_that_is_there() {
    let job = with(JOB, "finish: Ra 3.2 um", "finish: Ra 3.2 um\n          tool: hss-knife");
    let plan = own(&job);
    agrees("23.975", value(first(&plan), "diameter_after"));
    agrees("0.3125", value(first(&plan), "removed"));
    let (step, speed) = (value(first(&plan), "spindle_speed"), value(first(&plan), "surface_speed_outside"));
    assert!((speed - std::f64::consts::PI * 24.6 * step / 1000.0).abs() < 1e-9);
    // Two near-equal cuts, the greater first; the last is set by what was measured, and once more at the same dial.
    assert_eq!(divisions(&plan), [16.0, 31.0, 31.0]);
    let ids: Vec<&str> = set_up(&plan).steps.iter().map(|step| step.id).collect();
    let at = |id: &str| ids.iter().position(|own| *own == id).unwrap_or_else(|| panic!("no {id} in {ids:?}"));
    assert!(at("touch") < at("rough") && at("rough") < at("measure-last") && at("measure-last") < at("finish"));
    // 24.60 less 16 divisions of 0.02, and up to 0.05 more: what is touched runs out by as much as it was trued within.
    let hold = set_up(&plan).steps[at("measure-last")].hold_point.as_ref().unwrap();
    let (least, most) = hold.limits.numbers();
    assert!(least.unwrap() >= 24.26 - 1e-9 && most.unwrap() <= 24.35 + 1e-9, "{:?}", hold.limits);
    assert!(hold.then.as_ref().unwrap().contains("what is over 23.975"), "{:?}", hold.then);
}

/// A dial that counts the radius reads half of that for the same metal, and half of what was measured is dialled on; one of which
/// nobody says what it counts is taken so, for then too little goes and not too much, and proves nothing.
#[test]
fn a_dial_that_counts_the_radius_is_set_for_half() {
    let job = with(JOB, "finish: Ra 3.2 um", "finish: Ra 3.2 um\n          tool: hss-knife");
    let radius = other(&job, "reads: diameter", "reads: radius");
    assert_eq!(divisions(&radius), [8.0, 16.0, 16.0]);
    let says = |plan: &Plan| {
        set_up(plan)
            .steps
            .iter()
            .filter_map(|step| step.hold_point.as_ref()?.then.clone())
            .collect::<Vec<_>>()
            .join("|")
    };
    assert!(says(&radius).contains("by half of what is over"), "{}", says(&radius));
    let unsaid = other(&job, ", reads: diameter", "");
    assert_eq!(divisions(&unsaid), divisions(&radius));
    assert_eq!(verdict(first(&unsaid), "dial-known"), Verdict::Doubtful);
    assert_ne!(first(&unsaid).verdict, Verdict::Proven);
    let none = other(&job, ", {axis: across, division: 0.02 mm, per-turn: 4 mm, reads: diameter}", "");
    assert_eq!(verdict(first(&none), "dial-known"), Verdict::Doubtful);
    assert_eq!(verdict(first(&none), "measured-between"), Verdict::Doubtful);
}

/// By hand: a pass leaves its share q of the depth that it meets; after the last cut and one pass more at its dial
/// 2 q² (a + 0.05)/(1 − q) is left on the diameter.
#[test]
fn what_spring_leaves_falls_with_every_pass_and_grows_with_the_overhang() {
    let plan = own(JOB);
    let of = |key: &str| value(first(&plan), key);
    let share = of("share_left");
    let spring = of("passes") - of("cuts");
    let depth = set_up(&plan).cuts().flat_map(|cut| &cut.passes).map(|pass| pass.depth).fold(0.0, f64::max);
    let left = 2.0 * share.powf(spring + 1.0) * (depth + 0.05) / (1.0 - share);
    assert!((left - of("spring_left")).abs() < 1e-9, "{left} {}", of("spring_left"));
    let longer = own(&with(&with(JOB, "overhang: 30 mm", "overhang: 60 mm"), "over-all: 70", "over-all: 100"));
    assert!(value(first(&longer), "share_left") > 7.5 * share, "twice as far gives eight times as much");
}

/// By hand: a shaft of 12.6 that stands out 45 leaves the share q of each cut, so it is read 2 q (a + 0.05)/(1 − q) too large before the
/// last cut; dialled on and cut again at one dial, that much goes twice. Over a quarter of limits 0.01 apart it is passed again first.
#[test]
fn spring_is_cut_away_before_it_is_measured_and_never_taken_twice() {
    let slender = [
        ("present: 24.60 ± 0.02 mm", "present: 12.60 ± 0.004 mm"),
        ("outside: 23.95 .. 24.00 mm", "outside: 11.99 .. 12.00 mm"),
        ("diameter: 24.6 mm", "diameter: 12.6 mm"),
        ("overhang: 30 mm", "overhang: 37 mm"),
        ("over-all: 70", "over-all: 77"),
        (", stop: rod", ""),
    ];
    let job = slender.iter().fold(JOB.to_owned(), |job, (from, to)| with(&job, from, to));
    let before = |plan: &Plan| {
        let steps = &set_up(plan).steps;
        let hold = steps.iter().position(|step| step.id == "measure-last").unwrap();
        steps[..hold].iter().filter(|step| step.id == "again-before-measuring").count()
    };
    let plan = own(&job);
    let of = |key: &str| value(first(&plan), key);
    let share = of("share_left");
    let depth = set_up(&plan).cuts().flat_map(|cut| &cut.passes).map(|pass| pass.depth).fold(0.0, f64::max);
    let once = 2.0 * share * (depth + 0.05) / (1.0 - share);
    assert_eq!(before(&plan), 1, "{once} of 0.0025");
    assert!((once * share - of("spring_measured")).abs() < 1e-9, "{} {}", once * share, of("spring_measured"));
    assert_eq!(verdict(first(&plan), "spring-when-measured"), Verdict::Proven);
    let wide = own(&with(&job, "11.99 .. 12.00", "11.9 .. 12.0"));
    assert_eq!(before(&wide), 0, "a tenth of a millimetre bears it");
    // A bronze only rubs at the same dial: where it springs so far it is in doubt.
    let rubs = own(&with(&with(&job, "material: mild steel", "material: LG2"), "11.99 .. 12.00", "11.999 .. 12.000"));
    assert_eq!(before(&rubs), 0);
    assert_ne!(verdict(first(&rubs), "spring-when-measured"), Verdict::Proven);
}

/// Work that stands out over three diameters, that nobody says is held, or that is hardly gripped, is thrown.
#[test]
fn what_may_be_thrown_is_never_proven() {
    let far = own(&with(&with(JOB, "overhang: 30 mm", "overhang: 90 mm"), "over-all: 70", "over-all: 130"));
    assert_eq!(verdict(first(&far), "overhang"), Verdict::Fails, "90 is over 3 x 24.6");
    let line = JOB.lines().find(|line| line.contains("hold:")).unwrap();
    let loose = own(&JOB.replace(&format!("{line}\n"), ""));
    for id in ["grip", "grip-moment", "overhang", "tool-clear", "spring-left", "cleans-up"] {
        assert_eq!(state(first(&loose), id), Outcome::NotChecked, "{id}");
    }
    assert_eq!(first(&loose).verdict, Verdict::Doubtful);
    let short = own(&with(JOB, "grip: 40 mm", "grip: 3 mm"));
    assert_eq!(verdict(first(&short), "grip-length"), Verdict::Fails);
    assert!(verdict(first(&short), "grip-moment") != Verdict::Proven);
    let collet = own(&held(JOB, "in: jaws", "in: collet"));
    assert_eq!(verdict(first(&collet), "grip-looked-at"), Verdict::Doubtful);
    let hub = own(&with(JOB, "diameter: 24.6 mm", "diameter: 18 mm"));
    assert_eq!(state(first(&hub), "flange"), Outcome::NotChecked, "nobody says how thick the rim is");
}

/// The tool runs into the jaws where it is turned as far as it stands out.
#[test]
fn the_tool_stops_before_the_jaws() {
    let clear = |length: &str| verdict(first(&own(&with(JOB, "length: 22.0 ± 0.2", length))), "tool-clear");
    assert_eq!(clear("length: 22.0 ± 0.2"), Verdict::Proven);
    assert_eq!(clear("length: 29.5 ± 0.2"), Verdict::Fails);
    let said = try_plan(&with(JOB, "length: 22.0 ± 0.2", "length: 80 ± 0.2"), None).expect_err("longer than the part");
    assert!(said[0].says.contains("further than the part is long"), "{}", said[0].says);
}

/// Nose and edge leave what they are: a rounder nose than the corner may have, and a cone in place of a square shoulder.
#[test]
fn a_corner_and_a_shoulder_are_as_the_tool_leaves_them() {
    assert_eq!(verdict(first(&own(&with(JOB, "corner: 0.4 mm", "corner: 0.1 mm"))), "corner"), Verdict::Fails);
    let unsaid = own(&with(JOB, "          corner: 0.4 mm\n", ""));
    assert_eq!(state(first(&unsaid), "corner"), Outcome::NotChecked);
    assert_eq!(first(&unsaid).verdict, Verdict::Doubtful);
    let free = own(&with(JOB, "corner: 0.4 mm", "shoulder: 0 mm"));
    assert_eq!(state(first(&free), "corner"), Outcome::DoesNotApply);
    let named = with(JOB, "finish: Ra 3.2 um", "finish: Ra 3.2 um\n          tool: hss-knife");
    let slanting =
        other(&named, "nose: 0.2 mm, edge-angle: 90 deg}\n  - boring", "nose: 0.2 mm, edge-angle: 75 deg}\n  - boring");
    assert_eq!(verdict(first(&slanting), "shoulder-square"), Verdict::Fails);
    // The carriage's dial reads 0.1, so it stops within 0.05.
    assert_eq!(verdict(first(&own(JOB)), "shoulder-kept"), Verdict::Proven);
    assert_ne!(verdict(first(&own(&with(JOB, "22.0 ± 0.2", "22.0 ± 0.02"))), "shoulder-kept"), Verdict::Proven);
    let by_eye = other(JOB, ", {axis: along, division: 0.1 mm, per-turn: 20 mm}", "");
    assert_eq!(verdict(first(&by_eye), "shoulder-kept"), Verdict::Doubtful);
}

/// Limits that dial and gauge do not keep, that nobody gave, or that do not come clean all round.
#[test]
fn limits_are_kept_by_dial_and_gauge_or_not_at_all() {
    let kept = |outside: &str| first(&own(&with(JOB, "23.95 .. 24.00", outside))).answer.checks.clone();
    let of = |outside: &str, id: &str| kept(outside).iter().find(|check| check.id == id).unwrap().state;
    assert_eq!(of("23.95 .. 24.00", "size-kept"), Outcome::Made(Verdict::Proven));
    // Half a division and 4 um of the micrometer are 0.0108 together: over half of 0.02.
    assert_eq!(of("23.99 .. 24.01", "size-kept"), Outcome::Made(Verdict::Doubtful));
    assert_eq!(of("23.999 .. 24.001", "can-be-measured"), Outcome::Made(Verdict::Doubtful));
    assert_eq!(of("24.00", "size-kept"), Outcome::NotChecked);
    // At 24.40 only 0.1 goes a side; run out by 0.05 it lies 0.025 off.
    assert_eq!(of("24.35 .. 24.40", "cleans-up"), Outcome::Made(Verdict::Proven));
    assert_ne!(of("24.56 .. 24.58", "cleans-up"), Outcome::Made(Verdict::Proven));
    let said = try_plan(&with(JOB, "23.95 .. 24.00", "24.70 .. 24.80"), None).expect_err("nothing to turn");
    assert!(said[0].says.contains("smaller than it is now"), "{}", said[0].says);
}

/// A case that is turned through cannot be put back.
#[test]
fn a_case_is_not_turned_through() {
    let hard = |depth: &str| {
        let job = JOB.replace(
            "    material: mild steel\n",
            &format!("    material: case-hardened steel\n    hardness: 60 HRC\n{depth}"),
        );
        let job = job.replace(
            "          finish:",
            "          least-case: 0.3 mm\n          removed-before: 0 mm\n          finish:",
        );
        verdict(first(&own(&job)), "case")
    };
    assert_eq!(hard(""), Verdict::Doubtful, "nobody knows it");
    assert_eq!(hard("    case-depth: 1.0 ± 0.05 mm\n"), Verdict::Proven);
    // 0.325 goes at the lower limit: 0.225 is left of 0.55.
    assert_eq!(hard("    case-depth: 0.55 ± 0.05 mm\n"), Verdict::Fails);
}

/// Blows, no shop, and another spelling of the same.
#[test]
fn blows_are_counted_and_a_shop_that_is_not_there_judges_nothing() {
    let (plain, blows) =
        (own(JOB), own(&with(JOB, "finish: Ra 3.2 um", "finish: Ra 3.2 um\n          interrupted: 2")));
    assert!(value(first(&blows), "grip_by_torque") > 1.2 * value(first(&plain), "grip_by_torque"));
    let nobody = plan(JOB, None);
    for id in ["size-kept", "dial-known", "measured-between", "swing"] {
        assert_eq!(state(first(&nobody), id), Outcome::NoShop, "{id}");
    }
    let spelt = own(&with(JOB, "overhang: 30 mm", "overhang: 3 cm"));
    assert_eq!(first(&spelt).verdict, first(&plain).verdict);
    let unmeasured = in_shop(&with(JOB, "24.60 ± 0.02", "24.6"));
    assert!(first(&unmeasured).answer.assumed.iter().any(|line| line.contains("present")));
}

/// A bore leaves nothing under it to grip from outside; of a hub its own bore is asked.
#[test]
fn no_tube_is_gripped_on_its_own_bore() {
    let bored = with(JOB, "inside: 0 mm", "inside: 20 mm");
    let at = |hold: &str| try_plan(&with(&bored, "diameter: 24.6 mm", hold), None);
    let all = at("diameter: 20 mm").expect_err("no wall");
    assert!(all.iter().any(|p| p.says.contains("gripped at or under the bore (20 mm)")), "{all:?}");
    assert!(at("diameter: 20.1 mm").is_ok());
    assert!(at("diameter: 18 mm, inside: 8 mm").is_ok(), "a hub");
    assert!(at("diameter: 24.6 mm, grips: inside").is_err(), "jaws in a bore as large as the outside");
}

/// A mandrel stands in a bore, and is as large as that.
#[test]
fn no_mandrel_stands_in_a_solid_part() {
    let at = |bore: &str, diameter: &str| {
        let job = with(JOB, "inside: 0 mm", &format!("inside: {bore} mm"));
        let line = job.lines().find(|line| line.trim().starts_with("hold:")).unwrap().to_owned();
        let job = with(
            &job,
            &line,
            &format!("          hold: {{in: mandrel, {diameter}tested: 60 N·m, true-within: 0.05 mm}}"),
        );
        try_plan(&job, None).err().map(|all| format!("{all:?}"))
    };
    assert!(at("0", "").is_some_and(|says| says.contains("stands in a bore")));
    let bored = "12";
    assert!(at(bored, "diameter: 20 mm, ").is_some_and(|says| says.contains("as large as the bore")));
    assert_eq!((at(bored, "diameter: 12 mm, "), at(bored, "")), (None, None));
}

/// By hand: the wall is (20.0 − bore)/2 less half of the run-out of 0.05; 1 mm stands, half of it is doubtful, less fails, in
/// whatever it is held.
#[test]
fn a_tube_is_not_turned_to_a_shell() {
    let at = |bore: &str, hold: &str| {
        let job = with(JOB, "inside: 0 mm", &format!("inside: {bore}"));
        own(&held(&with(&job, "23.95 .. 24.00", "20.0 .. 20.05"), "in: jaws", hold))
    };
    for hold in ["in: jaws, inside: 0 mm", "in: collet, tested: 30 N·m"] {
        let plan = at("19.9 mm", hold);
        agrees("0.025", value(first(&plan), "wall_left"));
        assert_eq!(verdict(first(&plan), "wall-stands"), Verdict::Fails, "{hold}");
        assert_eq!(first(&plan).verdict, Verdict::Fails, "{hold}");
    }
    assert_eq!(verdict(first(&at("18.5 mm", "in: jaws")), "wall-stands"), Verdict::Doubtful);
    assert_eq!(verdict(first(&at("17.9 mm", "in: jaws")), "wall-stands"), Verdict::Proven);
    assert_eq!(state(first(&own(JOB)), "wall-stands"), Outcome::DoesNotApply);
    let unsaid = own(&with(&with(JOB, "inside: 0 mm", "inside: 10 mm"), ", true-within: 0.05 mm", ""));
    assert_eq!(state(first(&unsaid), "wall-stands"), Outcome::NotChecked);
}

/// What holds the part limits the speed: a four-jaw chuck that stands less than the three-jaw one is not run at its speed.
#[test]
fn a_four_jaw_chuck_is_not_run_over_its_own_speed() {
    let example = include_str!("../examples/turn.yaml").replace("in: jaws", "in: four-jaw");
    let example_shop = include_str!("../examples/shop.yaml");
    let of_four = |line: &&str| line.trim_start().starts_with("four-jaw:");
    let shop_text: String =
        example_shop.lines().filter(|line| !of_four(line)).map(|line| format!("{line}\n")).collect();
    assert_ne!(shop_text, example_shop);
    let own =
        shop_text.replace("      chuck: {most: 1800", "      four-jaw: {most: 200 rev/min}\n      chuck: {most: 1800");
    assert_ne!(own, shop_text);
    let step = |shop_text: &str| {
        let plan = crate::common::try_plan(&example, Some(&crate::common::shop(shop_text))).expect("plans");
        plan.operations[0].answer.values.iter().find(|value| value.key == "spindle_speed").expect("a step").number
    };
    assert!(step(&own) <= 200.0, "{}", step(&own));
    assert_eq!(step(&shop_text), 38.0, "nobody says how fast a four-jaw chuck may run: the lowest step");
}

/// "Never under" is never under the limit, in inches neither.
#[test]
fn the_least_that_may_be_left_is_rounded_inward_in_the_unit_that_is_printed() {
    let inch = include_str!("../examples/shop.yaml").replace("units: metric", "units: inch");
    let plan = crate::common::plan(include_str!("../examples/turn.yaml"), Some(&crate::common::shop(&inch)));
    let steps = plan.operations[0].answer.set_ups[0].steps.iter().map(|step| step.words.clone());
    let says = steps.into_iter().find(|words| words.starts_with("Never under")).expect("a limit");
    let figure: f64 = says.split(' ').nth(2).and_then(|number| number.parse().ok()).expect("a figure");
    assert!(says.contains(" in,") && figure * 25.4 >= 23.95 - 1e-9 && figure * 25.4 < 23.96, "{says}");
}

/// A hardness by Brinell is as good as one by Vickers: carbide is not refused because its own limit lies beyond the end of the scale.
#[test]
fn a_brinell_reading_refuses_no_carbide() {
    let read = |hardness: &str| {
        let job = with(JOB, "    operations:", &format!("    hardness: {hardness}\n    operations:"));
        first(&own(&with(&job, "          hold:", "          tool: carbide-04\n          hold:"))).clone()
    };
    let (brinell, vickers) = (read("190 HB"), read("200 HV"));
    assert!(brinell.answer.refused.is_none(), "{:?}", brinell.answer.refused);
    assert_eq!(verdict(&brinell, "tool-hard-enough"), Verdict::Proven);
    assert_eq!(verdict(&vickers, "tool-hard-enough"), Verdict::Proven);
    assert_eq!(value(&brinell, "spindle_speed"), value(&vickers, "spindle_speed"));
    let mut worst = Verdict::Proven;
    for hard in [190, 300, 450, 500, 600, 617, 630, 650] {
        let now = verdict(&read(&format!("{hard} HB")), "tool-hard-enough");
        assert!(now >= worst, "{hard}");
        worst = now;
    }
    assert_eq!(worst, Verdict::Fails);
}

/// A mandrel is driven by the chuck or by a plate: it turns no faster than they may.
#[test]
fn a_mandrel_turns_no_faster_than_what_drives_it() {
    let job = "
job: a sleeve
parts:
  - part: sleeve
    material: 6082-T6
    operations:
      - turn:
          present: 16.00 ± 0.02 mm
          outside: 15.55 .. 15.60 mm
          inside: 8.0 mm
          length: 10 ± 0.2 mm
          over-all: 30 ± 0.2 mm
          corner: 0.4 mm
          finish: Ra 3.2 um
          hold: {in: HELD, diameter: DIAMETER, grip: 15 mm, overhang: 15 mm, true-within: 0.02 mm, tested: 30 N·m}
";
    let fast = |held: &str, chuck: &str| {
        let text = with(SHOP, "700 1120 rev/min", "700 1120 1800 2800 4000 rev/min");
        let text = with(&text, "chuck: {most: 1800 rev/min,", &format!("chuck: {{{chuck}"));
        first(&plan(
            &with(&with(job, "HELD", held), "DIAMETER", if held == "mandrel" { "8.0 mm" } else { "16.0 mm" }),
            Some(&shop(&text)),
        ))
        .clone()
    };
    let mandrel = fast("mandrel", "most: 1800 rev/min,");
    assert_eq!(verdict(&mandrel, "chuck-speed"), Verdict::Proven);
    assert!(value(&mandrel, "spindle_speed") * 1.06 <= 1800.0, "{}", value(&mandrel, "spindle_speed"));
    assert!(value(&fast("mandrel", "most: 1200 rev/min,"), "spindle_speed") * 1.06 <= 1200.0);
    assert_eq!(
        state(&fast("collet", "most: 1800 rev/min,"), "chuck-speed"),
        Outcome::DoesNotApply,
        "in the spindle itself"
    );
}

/// As the carriage goes along the work the cross slide comes under it: it clears less than the bed does.
#[test]
fn long_work_clears_the_cross_slide() {
    let big = |size: u32, length: &str, slide: &str| {
        let job = with(JOB, "present: 24.60 ± 0.02 mm", &format!("present: {size}.00 ± 0.02 mm"));
        let job = with(&job, "23.95 .. 24.00", &format!("{}.35 .. {}.40", size - 1, size - 1));
        let job = with(&with(&job, "diameter: 24.6 mm", &format!("diameter: {size} mm")), "length: 22.0", length);
        let text = with(SHOP, "      swing: 230 mm\n", &format!("      swing: 230 mm\n{slide}"));
        first(&plan(&job, Some(&shop(&text)))).clone()
    };
    assert_eq!(verdict(&big(100, "length: 25.0", ""), "clears-the-slide"), Verdict::Proven);
    assert_eq!(verdict(&big(150, "length: 25.0", ""), "clears-the-slide"), Verdict::Doubtful, "0.55 of 230, assumed");
    assert_eq!(state(&big(150, "length: 15.0", ""), "clears-the-slide"), Outcome::DoesNotApply);
    assert_eq!(
        verdict(&big(150, "length: 25.0", "      swing-over-slide: 130 mm\n"), "clears-the-slide"),
        Verdict::Fails
    );
    assert_eq!(
        verdict(&big(150, "length: 25.0", "      swing-over-slide: 170 mm\n"), "clears-the-slide"),
        Verdict::Proven
    );
}

/// Under what the nose makes, the edge that builds up and the machine make the face: a mirror is not proven by its feed.
#[test]
fn no_mirror_is_proven_by_its_feed() {
    let of = |finish: &str| verdict(first(&own(&with(JOB, "Ra 3.2 um", finish))), "finish");
    let mut worst = Verdict::Proven;
    for finish in ["Ra 3.2 um", "Ra 1.6 um", "Ra 0.8 um", "Ra 0.7 um", "Ra 0.4 um", "Ra 0.2 um"] {
        let now = of(finish);
        assert!(now >= worst, "{finish}");
        worst = now;
    }
    assert_ne!(worst, Verdict::Proven);
    assert_eq!(of("Ra 1.6 um"), Verdict::Proven);
}

/// A trial cut that is all round of the nose has no cylinder for a gauge, and one that only rubs no diameter.
#[test]
fn a_trial_cut_bites_and_is_wide_enough_to_be_measured() {
    let one_cut = with(JOB, "present: 24.60 ± 0.02 mm", "present: 24.30 ± 0.02 mm");
    let trial = |length: &str| {
        let job = with(&one_cut, "length: 22.0 ± 0.2 mm", length);
        let plan = own(&job);
        let steps: Vec<&str> = set_up(&plan).steps.iter().map(|step| step.id).collect();
        (steps.contains(&"trial-cut"), steps.contains(&"one-cut-no-trial"), verdict(first(&plan), "measured-between"))
    };
    let long = trial("length: 22.0 ± 0.2 mm");
    if long.0 {
        assert_eq!(trial("length: 1.0 ± 0.2 mm"), (false, true, Verdict::Doubtful));
    } else {
        panic!("no trial: {long:?}");
    }
}

/// A disc on a stub weighs as a disc; what is clamped on the surface that is turned is met by the tool.
#[test]
fn a_thick_shoulder_weighs_and_clamps_stand_clear() {
    let job = |shoulder: &str| {
        with(JOB, "          present:", &format!("          shoulder: {shoulder}\n          present:"))
    };
    let needed = |shoulder: &str| value(first(&own(&job(shoulder))), "grip_by_moment");
    assert!(needed("120 mm") > 1.3 * needed("26 mm"), "{} {}", needed("120 mm"), needed("26 mm"));
    let line = JOB.lines().find(|line| line.contains("hold:")).unwrap();
    let held = |clamped: &str| {
        let hold = format!(
            "          hold: {{in: faceplate, tested: 60 N·m, overhang: 60 mm, true-within: 0.05 mm{clamped}}}"
        );
        own(&with(JOB, line, &hold))
    };
    assert_eq!(verdict(first(&held(", clamped: on-the-face")), "clear-of-clamps"), Verdict::Fails);
    assert_eq!(verdict(first(&held(", clamped: behind")), "clear-of-clamps"), Verdict::Proven);
    assert_eq!(state(first(&held("")), "clear-of-clamps"), Outcome::NotChecked);
}

/// Where no dial counts the carriage a stop on the bed is set by a gauge.
#[test]
fn a_carriage_without_a_dial_is_stopped_by_a_gauge() {
    let stops = |shop_file: &str| -> Vec<&'static str> {
        let plan = plan(JOB, Some(&shop(shop_file)));
        let ids = set_up(&plan).steps.iter().map(|step| step.id);
        ids.filter(|id| id.starts_with("set-the-stop")).collect()
    };
    let bare = with(SHOP, ", {axis: along, division: 0.1 mm, per-turn: 20 mm}]", "]");
    assert_eq!(stops(SHOP), ["set-the-stop"]);
    assert_eq!(stops(&bare), ["set-the-stop-by-a-gauge"]);
}

/// A part with a shoulder is one body: no edge runs through metal that goes on behind it.
#[test]
fn the_section_of_a_shouldered_part_is_one_body() {
    use setover::drawing::Item;
    for (job, bodies) in [(JOB.to_owned(), 1), (with(JOB, "inside: 0 mm", "inside: 6 mm"), 2)] {
        let it = in_shop(&job);
        let items = &first(&it).answer.set_ups[0].sketch.items;
        let sections = items.iter().filter(|item| matches!(item, Item::Section { .. })).count();
        assert_eq!(sections, bodies, "{items:?}");
    }
}
