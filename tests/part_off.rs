//! A piece parted off: the blade's reach, the way from the jaws, and what holds the piece as it comes off.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common::{agrees, first, plan, shop, state, try_plan, value, verdict, with};
use setover::plan::Plan;
use setover::proof::{Outcome, Verdict};

const JOB: &str = include_str!("../examples/part-off.yaml");
const SHOP: &str = include_str!("../examples/shop.yaml");

fn own(job: &str) -> Plan {
    plan(job, Some(&shop(SHOP)))
}

fn other(job: &str, from: &str, to: &str) -> Plan {
    assert!(SHOP.contains(from), "{from}");
    plan(job, Some(&shop(&SHOP.replace(from, to))))
}

/// The shop with one cross feed: no blade is fed finer for what grip and motor carry.
fn one_feed() -> String {
    with(SHOP, "0.03 0.05 0.08 0.10 0.13 0.20 mm/rev", "0.05 mm/rev")
}

/// By hand: a wall of 5, half a millimetre past the bore and a tenth that it runs out; the blade's far side stands 8.4 + 2 from the end, 9.6 from the jaws.
#[test]
fn a_blade_reaches_past_the_bore_and_cuts_near_the_jaws() {
    let plan = own(JOB);
    agrees("5.6", value(first(&plan), "blade_reach_asked"));
    agrees("9.6", value(first(&plan), "from_jaws"));
    assert_eq!(verdict(first(&plan), "blade-reach"), Verdict::Proven);
    // Solid it is 11.6; a blade that reaches 11 does not part it, and one of which nobody says proves nothing.
    let solid = with(&with(JOB, "          bore: 12 mm\n", ""), "caught: rod", "caught: sawn");
    agrees("11.6", value(first(&own(&solid)), "blade_reach_asked"));
    let short = other(&solid, "width: 2 mm, reach: 14 mm", "width: 2 mm, reach: 11 mm");
    assert_eq!(verdict(first(&short), "blade-reach"), Verdict::Fails);
    let unsaid = other(JOB, "width: 2 mm, reach: 14 mm", "width: 2 mm");
    assert_eq!(state(first(&unsaid), "blade-reach"), Outcome::NotChecked);
    assert_ne!(first(&unsaid).verdict, Verdict::Proven);
    let roomy = with(JOB, "over-all: 60", "over-all: 90");
    let near = |out: &str| verdict(first(&own(&with(&roomy, "overhang: 20 mm", out))), "near-the-jaws");
    assert_eq!(near("overhang: 20 mm"), Verdict::Proven);
    // 22 is one diameter: 35 leaves 24.6, 60 leaves 49.6.
    assert_eq!(near("overhang: 35 mm"), Verdict::Doubtful);
    let far = with(&with(JOB, "overhang: 20 mm", "overhang: 60 mm"), "over-all: 60", "over-all: 100");
    assert_eq!(verdict(first(&own(&far)), "near-the-jaws"), Verdict::Fails);
    // The blade runs into the jaws.
    assert_eq!(verdict(first(&own(&with(JOB, "overhang: 20 mm", "overhang: 10 mm"))), "tool-clear"), Verdict::Fails);
}

/// What is sawn off is not parted through: of 22 mm solid the dial stops at a core of 4, that is 9 on the radius; of a wall of 5 a
/// millimetre and a half still hold, so 3.5; through a wall of 2 it goes half.
#[test]
fn what_is_sawn_off_is_not_parted_through() {
    let depth = |job: &str| {
        let plan = own(job);
        let set_up = &first(&plan).answer.set_ups[0];
        let pass = set_up.cuts().next().unwrap().passes[0].clone();
        let said = set_up.steps.iter().map(|step| step.words.as_str()).collect::<Vec<_>>().join(" ");
        (pass.depth, said)
    };
    let sawn = with(JOB, "caught: rod", "caught: sawn");
    let (through, _) = depth(JOB);
    assert!((through - 5.1).abs() < 1e-9, "{through}");
    for (job, least, most, holds) in [
        (with(&sawn, "          bore: 12 mm\n", ""), 8.9, 9.0, "a core of 4.0 mm still holds"),
        (sawn.clone(), 3.4, 3.5, "1.5 mm of the wall still hold"),
        (with(&sawn, "bore: 12 mm", "bore: 18 mm"), 0.9, 1.0, "1.0 mm of the wall still hold"),
    ] {
        let (depth, said) = depth(&job);
        assert!((least..=most + 1e-9).contains(&depth), "{depth}");
        assert!(said.contains(holds) && said.contains("saw the last through"), "{said}");
    }
}

/// By hand: the mean of the rows of the metal times 0.88 and the shop's habit; the force of 2 mm at 0.05 with 1.3 for the slot.
#[test]
fn a_blade_runs_slower_and_pushes_harder_than_a_turning_tool() {
    let plan = own(JOB);
    let (step, speed) = (value(first(&plan), "spindle_speed"), value(first(&plan), "surface_speed_outside"));
    assert!((speed - std::f64::consts::PI * 22.0 * step / 1000.0).abs() < 1e-9);
    assert_eq!(value(first(&plan), "surface_speed_mean"), speed * (1.0 + 12.0 / 22.0) / 2.0);
    let text = serde_json::to_string(&setover::sheet::json::output(std::slice::from_ref(&plan))).unwrap();
    assert!(text.contains("·0.88·0.9") && text.contains("·1.3·1.495·2·0.05"), "the rows stand in the working");
    // Twice the width asks twice the force.
    let force = |width: &str| {
        let shop = shop(&with(&one_feed(), "width: 2 mm", &format!("width: {width}")));
        value(first(&crate::common::plan(JOB, Some(&shop))), "cutting_force")
    };
    assert!((force("4 mm") / force("2 mm") - 2.0).abs() < 1e-9);
}

/// Between centres the halves close on the blade; on a mandrel it is the same.
#[test]
fn it_is_never_parted_between_centres() {
    let held = |to: &str| verdict(first(&own(&crate::common::held(JOB, "in: jaws", to))), "never-between-centres");
    assert_eq!(held("in: jaws"), Verdict::Proven);
    assert_eq!(held("in: mandrel"), Verdict::Fails);
    assert_eq!(held("in: faceplate"), Verdict::Doubtful);
    let line = JOB.lines().find(|line| line.contains("hold:")).unwrap();
    let loose = own(&JOB.replace(&format!("{line}\n"), ""));
    for id in ["never-between-centres", "near-the-jaws", "grip", "overhang", "tool-clear"] {
        assert_eq!(state(first(&loose), id), Outcome::NotChecked, "{id}");
    }
    assert_eq!(first(&loose).verdict, Verdict::Doubtful);
    assert!(own(JOB).operations[0].answer.set_ups[0].steps.iter().any(|step| step.id == "tailstock-back"));
}

/// A piece that nobody holds flies.
#[test]
fn the_piece_is_caught() {
    let caught = |to: &str| own(&with(JOB, "caught: rod", to));
    assert_eq!(verdict(first(&caught("caught: rod")), "caught"), Verdict::Proven);
    assert_eq!(verdict(first(&caught("caught: tray")), "caught"), Verdict::Proven, "20 g");
    assert_eq!(verdict(first(&caught("caught: sawn")), "caught"), Verdict::Proven);
    let unsaid = own(&with(JOB, "          caught: rod\n", ""));
    assert_eq!(state(first(&unsaid), "caught"), Outcome::NotChecked);
    assert_ne!(first(&unsaid).verdict, Verdict::Proven);
    // 100 mm wide, 18 long, and of bronze: over a kilogram.
    let heavy = JOB.replace("outside: 22 mm", "outside: 100 mm").replace("diameter: 22 mm", "diameter: 100 mm");
    let heavy = heavy
        .replace("8.2 .. 8.6", "18.2 .. 18.6")
        .replace("caught: rod", "caught: tray")
        .replace("overhang: 20", "overhang: 40");
    let heavy = heavy.replace("over-all: 60", "over-all: 90");
    assert_eq!(verdict(first(&own(&heavy)), "caught"), Verdict::Doubtful);
    assert!(try_plan(&with(JOB, "bore: 12 mm", "bore: 0 mm"), None).is_err(), "a bore of nothing is none");
    let said = try_plan(&with(JOB, "          bore: 12 mm\n", ""), None).expect_err("a rod in a solid piece");
    assert!(said[0].says.contains("a solid one has none"), "{}", said[0].says);
    let whole = try_plan(&with(JOB, "8.2 .. 8.6", "60 .. 61"), None).expect_err("all of it");
    assert!(whole[0].says.contains("nothing is parted off"), "{}", whole[0].says);
}

/// A hard part takes no blade of high-speed steel, and a shop without a blade says so.
#[test]
fn a_blade_must_stand_the_metal() {
    let hard =
        JOB.replace("    material: phosphor bronze\n", "    material: case-hardened steel\n    hardness: 60 HRC\n");
    assert_eq!(verdict(first(&own(&hard)), "tool-hard-enough"), Verdict::Fails);
    let none = SHOP.lines().filter(|line| !line.contains("parting-blade")).collect::<Vec<_>>().join("\n");
    let plan = crate::common::plan(JOB, Some(&shop(&none)));
    assert_eq!(verdict(first(&plan), "blade-reach"), Verdict::Doubtful);
    assert!(first(&plan).answer.missing.iter().any(|line| line.contains("parting blade")));
}

/// By hand: 0.03 of the depth gauge and half a division of 0.1 of the carriage, root of their squares 0.0583.
#[test]
fn a_length_that_cannot_be_set_so_near_is_not_proven() {
    let kept = |length: &str| verdict(first(&own(&with(JOB, "length: 8.2 .. 8.6 mm", length))), "length-kept");
    assert_eq!(verdict(first(&own(JOB)), "length-kept"), Verdict::Proven);
    assert_eq!(kept("length: 8.33 .. 8.47 mm"), Verdict::Proven, "0.07 to each side");
    assert_eq!(kept("length: 8.35 .. 8.45 mm"), Verdict::Doubtful, "0.05 to each side");
    assert_eq!(kept("length: 8.59 .. 8.60 mm"), Verdict::Doubtful);
    let gaugeless =
        other(JOB, "  - {name: depth gauge, kind: depth gauge, from: 0 mm, to: 150 mm, uncertainty: 30 um}\n", "");
    assert_eq!(verdict(first(&gaugeless), "length-kept"), Verdict::Doubtful, "nothing measures it to the blade");
}

/// A bar of which more than chuck and headstock hide stands out behind and whips, however well the jaws hold.
#[test]
fn a_long_bar_that_comes_out_behind_the_spindle_is_not_proven() {
    let behind = |over_all: &str| first(&own(&with(JOB, "over-all: 60 ± 0.2 mm", over_all))).clone();
    assert_eq!(verdict(&behind("over-all: 60 ± 0.2 mm"), "whips-behind"), Verdict::Proven, "40 + 20: nothing");
    assert_eq!(verdict(&behind("over-all: 300 mm"), "whips-behind"), Verdict::Proven, "240");
    let long = behind("over-all: 700 mm");
    assert_eq!(verdict(&long, "whips-behind"), Verdict::Doubtful);
    assert_ne!(long.verdict, Verdict::Proven);
    // By hand: so long that it whirls under the speed of the cut, it flails.
    assert_eq!(verdict(&behind("over-all: 3000 mm"), "whips-behind"), Verdict::Fails);
    assert_eq!(behind("over-all: 3000 mm").verdict, Verdict::Fails);
}

/// A tube is not gripped on its own bore.
#[test]
fn no_tube_is_gripped_on_its_own_bore() {
    let job = with(JOB, "diameter: 22 mm", "diameter: 12 mm");
    let all = try_plan(&job, None).expect_err("no wall");
    assert!(all.iter().any(|p| p.says.contains("gripped at or under the bore (12 mm)")), "{all:?}");
}

/// A width that was typed is the width that is worked with: the blade of that width, else none that the shop has.
#[test]
fn a_width_that_was_typed_binds() {
    let at = |width: &str| own(&with(JOB, "caught: rod", &format!("caught: rod\n          width: {width}")));
    let wide = at("6 mm");
    let force = |job: &str| value(first(&plan(job, Some(&shop(&one_feed())))), "cutting_force");
    let six = with(JOB, "caught: rod", "caught: rod\n          width: 6 mm");
    assert!((force(&six) / force(JOB) - 3.0).abs() < 1e-9);
    assert_eq!(verdict(first(&wide), "blade-reach"), Verdict::Doubtful, "none of 6 mm in the drawer");
    assert!(first(&wide).answer.missing.iter().any(|says| says.contains(" wide that reaches 5.6 mm")));
    assert_ne!(first(&wide).verdict, Verdict::Proven);
    assert_eq!(verdict(first(&at("2 mm")), "blade-reach"), Verdict::Proven);
    let named = with(JOB, "caught: rod", "caught: rod\n          width: 6 mm\n          blade: blade 2");
    assert_eq!(verdict(first(&own(&named)), "blade-reach"), Verdict::Doubtful, "the blade named is another's width");
}

/// A blade bends aside where it stands out by many times its width: the shop's next wider one is taken where it reaches.
#[test]
fn a_slender_blade_is_not_let_into_a_slot() {
    let bar = |outside: &str| {
        with(&with(JOB, "outside: 22 mm", outside), "diameter: 22 mm", &outside.replace("outside", "diameter"))
    };
    let thin = |width: &str, outside: &str| {
        let blade = format!("width: {width} mm, reach: 40 mm");
        verdict(first(&other(&bar(outside), "width: 2 mm, reach: 14 mm", &blade)), "blade-slender")
    };
    // A wall of 5 and half a millimetre past the bore.
    assert_eq!(thin("0.75", "outside: 22 mm"), Verdict::Proven);
    let mut worst = Verdict::Proven;
    for outside in ["22", "24", "28", "40", "60"] {
        let now = verdict(
            first(&own(&with(
                &bar(&format!("outside: {outside} mm")),
                "length: 8.2",
                "width: 0.8 mm\n          length: 8.2",
            ))),
            "blade-slender",
        );
        assert!(now >= worst, "{outside}");
        worst = now;
    }
    assert_eq!(worst, Verdict::Fails);
    // 17.5, half a millimetre and a tenth are 9 times 2 and 6 times 3.
    let both =
        "width: 2 mm, reach: 40 mm}\n  - parting-blade: {name: the wider, material: HSS, width: 3 mm, reach: 40 mm";
    let plan = other(&bar("outside: 47 mm"), "width: 2 mm, reach: 14 mm", both);
    agrees("18.1", value(first(&plan), "blade_reach_asked"));
    agrees("3.0", value(first(&plan), "blade_width"));
    assert_eq!(verdict(first(&plan), "blade-slender"), Verdict::Proven);
}

/// Touched on its high side the bar's other side lies lower by all that it runs out: the dial goes on till that is through.
#[test]
fn the_blade_goes_on_till_the_low_side_is_through() {
    let depth = |out: &str| {
        let plan = own(&with(JOB, "true-within: 0.1 mm", out));
        let set_up = &first(&plan).answer.set_ups[0];
        set_up.steps.iter().filter_map(|step| step.cut.as_ref()).map(|cut| cut.passes[0].depth).next().unwrap()
    };
    assert!((depth("true-within: 0.1 mm") - 5.1).abs() < 1e-9, "{}", depth("true-within: 0.1 mm"));
    assert!((depth("true-within: 1.0 mm") - 6.0).abs() < 1e-9);
}

/// A slice that bends away from its blade jams it.
#[test]
fn a_thin_slice_is_not_parted_off_whole() {
    let of = |length: &str| {
        verdict(first(&own(&with(JOB, "length: 8.2 .. 8.6 mm", &format!("length: {length}")))), "piece-stands")
    };
    assert_eq!((of("8.2 .. 8.6 mm"), of("1.2 .. 1.6 mm")), (Verdict::Proven, Verdict::Proven));
    assert_eq!((of("0.7 .. 1.0 mm"), of("0.2 .. 0.4 mm")), (Verdict::Doubtful, Verdict::Fails));
}
