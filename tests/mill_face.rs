//! A milled face: trammed, clamped where it bears, thick enough, cut in passes that the mill stands, measured before the last.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common::{agrees, first, in_shop, plan, shop, state, try_plan, value, verdict, with};
use setover::proof::{Outcome, Verdict};
use setover::quantity::Print;
use setover::shop::Shop;

const JOB: &str = include_str!("../examples/mill-face.yaml");

fn of(check: &str, job: &str) -> Verdict {
    verdict(first(&in_shop(job)), check)
}

fn left_out(key: &str, check: &str) {
    let line = JOB.lines().find(|line| line.trim_start().starts_with(&format!("{key}:"))).expect(key);
    let plan = in_shop(&JOB.replace(&format!("{line}\n"), ""));
    assert_eq!(state(first(&plan), check), Outcome::NotChecked, "{check} without {key}");
    assert_eq!(first(&plan).verdict, Verdict::Doubtful, "without {key}");
}

/// A face of another width; a part that is solid under a narrow one is as thick as that.
fn as_wide(job: &str, width: &str) -> String {
    let walls = if width.parse::<f64>().unwrap() < 36.0 { width } else { "36" };
    with(&with(job, "width: 36 mm", &format!("width: {width} mm")), "walls: 36 mm", &format!("walls: {walls} mm"))
}

/// By hand: two passes of 0.4; 0.02/200 over a track of 36 under 50 is hollow by (50 - sqrt(50^2 - 36^2))/2 x 0.0001 = 0.00077; over
/// the width 0.0036 and the hold's 0.03 out of square; f = fz z, vf = f n.
#[test]
fn the_example_holds_and_its_figures_are_those_of_hand() {
    let plan = in_shop(JOB);
    assert_eq!(first(&plan).verdict, Verdict::Proven, "{:#?}", first(&plan).answer.checks);
    let of = |key| value(first(&plan), key);
    agrees("2", of("passes"));
    agrees("1", of("lanes"));
    agrees("0.40", of("deepest_pass"));
    agrees("17.20", of("thickness_after"));
    agrees("0.00077", of("hollow"));
    agrees("0.0336", of("out_of_square"));
    assert!((of("feed") - of("feed_per_tooth") * of("teeth")).abs() < 1e-12);
    assert!((of("feed_rate") - of("feed") * of("spindle_speed")).abs() < 1e-9);
    assert!((of("surface_speed") - std::f64::consts::PI * 50.0 * of("spindle_speed") / 1000.0).abs() < 1e-9);
    // Two strokes of 110 + 50 + 1 + 1.
    assert!((of("time") - 2.0 * 162.0 / of("feed_rate")).abs() < 1e-9);
    let steps: Vec<&str> = first(&plan).answer.set_ups[0].steps.iter().map(|step| step.id).collect();
    let at = |id: &str| steps.iter().position(|step| *step == id).unwrap_or_else(|| panic!("{id} in {steps:?}"));
    assert!(at("tram") < at("clamp") && at("touch-unworn") < at("cut"));
    assert!(at("cut") < at("measure-last") && at("measure-last") < at("last-pass"));
}

/// Without a gauge or a dial the last pass goes by feel.
#[test]
fn the_last_pass_goes_by_a_gauge_and_a_dial() {
    let text = include_str!("../examples/shop.yaml");
    let lines = |gone: &str| {
        text.lines().filter(|line| !line.contains(gone)).map(|line| format!("{line}\n")).collect::<String>()
    };
    let between = |shop_text: &str| verdict(first(&plan(JOB, Some(&shop(shop_text)))), "measured-between");
    assert_eq!(between(text), Verdict::Proven);
    assert_eq!(between(&lines("kind: outside micrometer")), Verdict::Doubtful);
    let (no_dial, doubt) = (lines("axis: quill"), |text: &str| {
        let plan = plan(JOB, Some(&shop(text)));
        first(&plan).answer.value("thickness_after").unwrap().plus_minus
    });
    assert_ne!(no_dial, text);
    assert_eq!(between(&no_dial), Verdict::Doubtful);
    assert!(doubt(&no_dial) >= doubt(text), "what nobody knows is no finer");
}

/// A table's feed is small in metres and in feet: in each unit of print it is read in the small one, and never as nought.
#[test]
fn the_feed_a_minute_is_that_of_the_table_in_each_unit_of_print() {
    let own = shop(include_str!("../examples/shop.yaml"));
    for (units, a_mm, name) in [(Print::Metric, 1.0, "mm"), (Print::Imperial, 1.0 / 25.4, "in")] {
        let plan = plan(JOB, Some(&Shop { units, ..own.clone() }));
        let rate = value(first(&plan), "feed_rate") * a_mm;
        let ending = format!(" {name}/min");
        for id in ["cut", "last-pass"] {
            let step = first(&plan).answer.set_ups[0].steps.iter().find(|step| step.id == id).expect(id);
            let (before, _) = step.words.split_once(&ending).unwrap_or_else(|| panic!("{}", step.words));
            let text = before.rsplit(' ').next().unwrap();
            assert!(
                text.split_once('.').is_none_or(|(_, parts)| parts.len() <= 2),
                "no table is fed so finely: {text}"
            );
            let figure: f64 = text.parse().expect("a figure");
            assert!((figure / rate - 1.0).abs() < 0.01, "{figure} for {rate}: {}", step.words);
        }
    }
}

#[test]
fn a_face_stays_thick_enough_and_is_clean() {
    let thick = |thick: &str| of("thickness-left", &with(JOB, "18.00 ± 0.05", thick));
    assert_eq!(thick("18.00 ± 0.05"), Verdict::Proven);
    assert_eq!(thick("17.85 ± 0.05"), Verdict::Doubtful);
    assert_eq!(thick("17.70 ± 0.05"), Verdict::Fails);
    assert_eq!(of("cleans-up", &with(JOB, "uneven: 0.50 ± 0.05", "uneven: 0.75 ± 0.05")), Verdict::Doubtful);
    assert_eq!(of("cleans-up", &with(JOB, "uneven: 0.50 ± 0.05", "uneven: 0.90 ± 0.05")), Verdict::Fails);
    left_out("least-thickness", "thickness-left");
    left_out("uneven", "cleans-up");
    assert!(try_plan(&with(JOB, "removed: 0.8 mm", "removed: 18 mm"), None).is_err(), "nothing left");
}

/// A spindle that leans leaves a hollow, steps between its tracks, and a face out of square.
#[test]
fn a_face_is_as_flat_as_the_tram() {
    let tram = |reads: &str| with(JOB, "reads: 0.02 ± 0.01", &format!("reads: {reads}"));
    assert_eq!(of("flat-by-tram", &tram("2.00 ± 0.01")), Verdict::Fails, "0.077 of 0.05");
    assert_eq!(of("square", &tram("0.40 ± 0.01")), Verdict::Fails, "0.072 and 0.03");
    assert_eq!(of("square", &tram("0.38 ± 0.04")), Verdict::Doubtful);
    // Two tracks: a step of 0.0001 x 30 each 0.01 of lean more.
    let wide = |reads: &str| with(&tram(reads), "width: 36 mm", "width: 60 mm");
    assert_eq!(of("flat-by-tram", &wide("0.02 ± 0.01")), Verdict::Proven);
    assert_eq!(of("flat-by-tram", &wide("0.40 ± 0.01")), Verdict::Fails);
    let one = value(first(&in_shop(&tram("0.40 ± 0.01"))), "out_of_flat");
    assert!(value(first(&in_shop(&wide("0.40 ± 0.01"))), "out_of_flat") > one);
    for key in ["tram", "flat-within"] {
        left_out(key, "flat-by-tram");
    }
    left_out("square-within", "square");
    let untrue = in_shop(&with(JOB, ", true-within: 0.03 mm", ""));
    assert_eq!(state(first(&untrue), "square"), Outcome::NotChecked);
}

#[test]
fn what_hurts_at_the_mill_is_asked_for() {
    assert_eq!(of("way-of-cut", &with(JOB, "conventional", "climb")), Verdict::Doubtful);
    assert_eq!(of("clamped-on-metal", &with(JOB, "on-solid", "on-hollow")), Verdict::Doubtful);
    left_out("way", "way-of-cut");
    left_out("bears", "clamped-on-metal");
    left_out("stick-out", "cutter-stiff");
    // A thin cutter far out bends: 12 mm out of 120.
    // What carries a single tooth is thin, however wide it sweeps.
    let fly = |across: &str| {
        let job =
            with(&with(JOB, "cutter: 50 mm", &format!("cutter: {across} mm")), "stick-out: 60 mm", "stick-out: 120 mm");
        let job = job.replacen("          cutter:", "          teeth: 1\n          cutter:", 1);
        value(first(&in_shop(&job)), "cutter_gives")
    };
    assert!(fly("80") >= fly("25") * 0.9, "{} {}", fly("80"), fly("25"));
    let thin = with(&with(JOB, "cutter: 50 mm", "cutter: 12 mm"), "stick-out: 60 mm", "stick-out: 120 mm");
    assert_eq!(of("cutter-stiff", &thin), Verdict::Fails);
    // Held by nothing, untried, tried too little, on a support under a press.
    left_out("hold", "held");
    let held = |hold: &str| with(JOB, "{in: clamps, clamped: on-a-ledge, tested: 120 N·m, true-within: 0.03 mm}", hold);
    assert_eq!(of("grip-looked-at", &held("{in: clamps, true-within: 0.03 mm}")), Verdict::Doubtful);
    assert_eq!(of("grip", &held("{in: clamps, tested: 5 N·m, true-within: 0.03 mm}")), Verdict::Fails);
    assert_eq!(first(&in_shop(&held("{in: press-support, tested: 120 N·m}"))).verdict, Verdict::Fails);
    let hard = with(JOB, "    material: GG25\n", "    material: mild steel\n    hardness: 60 HRC\n");
    assert_eq!(of("cutter-hard-enough", &hard), Verdict::Fails);
    assert_eq!(first(&in_shop(&with(JOB, "GG25", "friction lining"))).verdict, Verdict::Fails);
}

/// More metal is more passes, each no deeper than the machine stands; one pass alone is not measured; a weak motor is found.
#[test]
fn passes_power_and_machine() {
    let deep =
        with(&with(JOB, "removed: 0.8 mm", "removed: 4.0 mm"), "least-thickness: 17 mm", "least-thickness: 13 mm");
    let plan = in_shop(&deep);
    agrees("4", value(first(&plan), "passes"));
    assert_eq!(verdict(first(&plan), "most-depth"), Verdict::Proven);
    let thin = with(&with(JOB, "removed: 0.8 mm", "removed: 0.16 mm"), "uneven: 0.50 ± 0.05", "uneven: 0.05 ± 0.02");
    assert_eq!(of("measured-between", &thin), Verdict::Doubtful);
    assert_eq!(of("bite", &with(&thin, "removed: 0.16 mm", "removed: 0.04 mm")), Verdict::Fails);
    let text = include_str!("fixtures/shop.yaml");
    let weak = shop(Box::leak(text.replace("power: 1.1 kW", "power: 0.01 kW").into_boxed_str()));
    let weak = try_plan(JOB, Some(&weak)).expect("a plan");
    assert_eq!(verdict(first(&weak), "power"), Verdict::Doubtful);
    let press = shop(Box::leak(text.replace("  - mill:", "  - drill-press:").into_boxed_str()));
    let none = try_plan(JOB, Some(&press)).expect("a plan");
    assert_eq!(verdict(first(&none), "on-a-mill"), Verdict::Doubtful, "the shop has no mill");
    let job = with(JOB, "bears: on-solid", "bears: on-solid\n          set-up: {machine: turret mill}");
    let named = try_plan(&job, Some(&press)).expect("a plan");
    assert_eq!(verdict(first(&named), "on-a-mill"), Verdict::Fails, "its chuck drops out");
    assert_eq!(state(first(&plan_without(JOB)), "on-a-mill"), Outcome::NoShop);
}

/// A case is not milled through unasked.
#[test]
fn a_case_is_asked_for() {
    let hard = with(JOB, "    material: GG25\n", "    material: case-hardened steel\n");
    assert_eq!(of("case", &hard), Verdict::Doubtful, "nobody knows its depth");
    let known = with(&hard, "case-hardened steel\n", "case-hardened steel\n    case-depth: 0.9 ± 0.1 mm\n");
    assert_ne!(of("case", &known), Verdict::Proven, "nobody says how much must stay");
    let asked =
        with(&known, "bears:", "least-case: 0.4 mm\n          removed-before: 0.00 ± 0.01 mm\n          bears:");
    assert_eq!(of("case", &asked), Verdict::Fails, "0.1 of 0.4 left");
    assert_eq!(state(first(&in_shop(JOB)), "case"), Outcome::DoesNotApply);
}

fn plan_without(job: &str) -> setover::plan::Plan {
    plan(job, None)
}

/// A face that lies out of true has its lowest place deeper than it is uneven.
#[test]
fn a_face_that_is_held_out_of_true_comes_clean_later() {
    let at = |true_within: &str| in_shop(&with(JOB, "true-within: 0.03 mm", true_within));
    assert_eq!(verdict(first(&at("true-within: 0.03 mm")), "cleans-up"), Verdict::Proven);
    assert_ne!(verdict(first(&at("true-within: 0.40 mm")), "cleans-up"), Verdict::Proven);
    let unsaid = in_shop(&with(JOB, ", true-within: 0.03 mm", ""));
    assert_eq!(state(first(&unsaid), "cleans-up"), Outcome::NotChecked);
}

/// What is thin bows between the jaws, and between the supports of its clamps.
#[test]
fn a_thin_plate_is_not_stiff_enough_as_it_is_held() {
    let of = |thick: &str, hold: &str| {
        let job = with(JOB, "thickness: 18.00 ± 0.05 mm", &format!("thickness: {thick} ± 0.05 mm"));
        verdict(first(&in_shop(&with(&job, "in: clamps", &format!("in: {hold}")))), "thin-as-held")
    };
    assert_eq!((of("18.00", "clamps"), of("18.00", "vice")), (Verdict::Proven, Verdict::Proven));
    assert_eq!((of("2.00", "clamps"), of("2.00", "vice")), (Verdict::Doubtful, Verdict::Doubtful));
}

/// A face wider than its cutter is cut track by track, and takes so many times as long.
#[test]
fn a_wide_face_says_its_tracks_and_counts_them() {
    let of = |width: &str| {
        let plan = in_shop(&with(JOB, "width: 36 mm", &format!("width: {width} mm")));
        let set_up = &first(&plan).answer.set_ups[0];
        let words: String = set_up.steps.iter().map(|step| step.words.as_str()).collect::<Vec<_>>().join(" ");
        (words.contains("tracks side by side"), words.contains("no stop,"), set_up.minutes.unwrap())
    };
    let ((one, whole, few), (many, stopless, more)) = (of("36"), of("200"));
    assert_eq!((one, whole, many, stopless), (false, true, true, false));
    assert!(more > few + 10.0, "{few} {more}");
    // In a vice nothing is clamped.
    let vice = in_shop(&with(JOB, "in: clamps", "in: vice"));
    let words: Vec<&str> = first(&vice).answer.set_ups[0].steps.iter().map(|step| step.words.as_str()).collect();
    assert!(!words.iter().any(|words| words.contains("lamp")), "{words:?}");
}

/// One place is measured, touched on and counted from: its highest. As it was typed it meets its hold point, whatever doubt it has; of
/// another thickness the plan is another; and what stays after each pass is that place less what came off.
#[test]
fn what_is_measured_first_is_where_the_cutter_is_touched_on() {
    for (typed, doubt) in [(18.00, 0.05), (18.00, 0.01), (19.20, 0.10)] {
        let plan = in_shop(&with(JOB, "18.00 ± 0.05", &format!("{typed:.2} ± {doubt:.2}")));
        let set_up = &first(&plan).answer.set_ups[0];
        let hold = |id: &str| {
            set_up.steps.iter().find(|step| step.id == id).and_then(|step| step.hold_point.as_ref()).unwrap()
        };
        let (before, last) = (hold("measure-highest-and-lowest"), hold("measure-last"));
        let (least, most) = before.limits.numbers();
        let (least, most) = (least.unwrap(), most.expect("thicker is another plan too"));
        assert!(least <= typed && typed <= most, "{least} to {most}");
        assert!(least >= typed - doubt - 0.002 && most <= typed + doubt + 0.002, "{least} to {most}");
        // After the first pass of 0.4 the whole face stands so much lower, and 0.4 is still to come.
        let (least, _) = last.limits.numbers();
        assert!(least.unwrap() <= typed - 0.4, "{least:?}");
        agrees(&format!("{:.2}", typed - 0.8), value(first(&plan), "thickness_after"));
    }
    // The lowest place of the raw face that is sure to come clean, where somebody says how true it is held.
    let words = |job: &str| {
        let plan = in_shop(job);
        first(&plan).answer.set_ups[0].steps.iter().map(|step| step.words.clone()).collect::<Vec<_>>().join(" ")
    };
    assert!(words(JOB).contains("0.71 mm less"), "{}", words(JOB));
    assert!(!words(&with(JOB, ", true-within: 0.03 mm", "")).contains("lowest"));
}

/// Held out of true it is thinner at one end than where it was touched on.
#[test]
fn the_thinnest_place_is_that_of_a_face_held_out_of_true() {
    let margin = |true_within: &str| {
        let plan = in_shop(&with(JOB, "true-within: 0.03 mm", &format!("true-within: {true_within}")));
        first(&plan)
            .answer
            .checks
            .iter()
            .find(|check| check.id == "thickness-left")
            .and_then(|check| check.judged.as_ref())
            .map(|judged| judged.margin)
            .unwrap()
    };
    assert!((margin("0.03 mm") - margin("0.10 mm") - 0.07).abs() < 1e-6);
}

/// The force that turns the work out of its hold is furthest from its middle at a corner: a face asks the same whichever way it is
/// fed, and never less for being wider or longer. By hand: 57.9 mm for 36 by 110.
#[test]
fn the_hold_stands_the_cut_at_the_furthest_corner() {
    let sides = |width: &str, length: &str| {
        let job = with(&as_wide(JOB, width), "length: 110 mm", &format!("length: {length} mm"));
        first(&in_shop(&job)).clone()
    };
    let asked = |width: &str, length: &str| value(&sides(width, length), "torque_to_stand");
    let by_hand = value(first(&in_shop(JOB)), "cutting_force") * 0.0579 * 3.0;
    assert!((asked("36", "110") / by_hand - 1.0).abs() < 0.01, "{by_hand}");
    assert!(asked("360", "110") > 3.0 * asked("36", "110"), "ten tracks beside each other");
    assert_eq!(verdict(&sides("360", "110"), "grip"), Verdict::Fails);
    let mut last = 0.0;
    for width in ["30", "36", "60", "110", "200", "360"] {
        let now = asked(width, "110");
        let force = value(&sides(width, "110"), "cutting_force");
        assert!(now / force >= last, "{width}");
        last = now / force;
    }
}

/// What stands high over a vice that holds little of it is levered out, what is thin sways; how deep it is held must be said.
#[test]
fn in_a_vice_it_is_gripped_deep_and_stands_no_blade() {
    let vice = |width: &str, thick: &str, grip: &str| {
        let job = with(
            JOB,
            "{in: clamps, clamped: on-a-ledge, tested: 120 N·m",
            &format!("{{in: vice, tested: 120 N·m{grip}"),
        );
        let job = with(&as_wide(&job, width), "18.00 ± 0.05", thick);
        first(&in_shop(&with(&job, "least-thickness: 17 mm", "least-thickness: 2 mm"))).clone()
    };
    let deep = vice("36", "18.00 ± 0.05", ", grip: 10 mm, overhang: 8 mm");
    for check in ["grip-length", "work-sways"] {
        assert_eq!(verdict(&deep, check), Verdict::Proven, "{check}");
    }
    let unsaid = vice("36", "18.00 ± 0.05", "");
    for check in ["grip-length", "work-sways"] {
        assert_eq!(state(&unsaid, check), Outcome::NotChecked, "{check}");
    }
    assert_ne!(unsaid.verdict, Verdict::Proven);
    assert_eq!(verdict(&vice("36", "130.00 ± 0.05", ", grip: 1 mm, overhang: 129 mm"), "grip-length"), Verdict::Fails);
    // It stands out by what is not gripped, whatever was said.
    assert_eq!(verdict(&vice("36", "130.00 ± 0.05", ", grip: 10 mm, overhang: 5 mm"), "grip-length"), Verdict::Fails);
    let mut worst = Verdict::Proven;
    for grip in ["30", "20", "16", "10", "6", "3"] {
        let now = verdict(&vice("36", "60.00 ± 0.05", &format!(", grip: {grip} mm, overhang: 20 mm")), "grip-length");
        assert!(now >= worst, "{grip}");
        worst = now;
    }
    let mut worst = Verdict::Proven;
    for width in ["36", "20", "12", "8", "6", "4"] {
        let now = verdict(&vice(width, "40.00 ± 0.05", ", grip: 12 mm, overhang: 28 mm"), "work-sways");
        assert!(now >= worst, "{width}");
        worst = now;
    }
    assert_eq!(worst, Verdict::Fails, "a blade");
}

/// However wide a cutter is, what carries it in a small mill is not: as stiff as that it is, unless the shop says otherwise.
#[test]
fn a_wide_cutter_is_carried_by_a_shank_no_thicker_than_any() {
    let gives = |shank: &str| {
        let shop_text = crate::common::SHOP.replace("material: HSS, shank: 25 mm}", &format!("material: HSS{shank}}}"));
        value(first(&plan(JOB, Some(&shop(&shop_text)))), "cutter_gives")
    };
    let said = ", shank: 25 mm";
    // 413 N on 60 mm of 25 mm.
    let force = value(first(&in_shop(JOB)), "cutting_force");
    let by_hand = force * 60f64.powi(3) / (3.0 * 200_000.0 * std::f64::consts::PI * 25f64.powi(4) / 64.0);
    assert!((gives(said) / by_hand - 1.0).abs() < 0.1, "{} {by_hand}", gives(said));
    assert!(gives(", shank: 22 mm") > gives(said) && gives(", shank: 40 mm") < gives(said));
    // One that nobody measured is taken as thin as arbors are.
    assert_eq!(gives(""), gives(", shank: 16 mm"));
}

/// The cutter runs over the whole face: into the jaws of a vice that stand too high, into clamps on the face.
#[test]
fn the_cutter_clears_what_holds_the_work() {
    const CLAMPED: &str = "in: clamps, clamped: on-a-ledge,";
    let held = |hold: &str| with(JOB, CLAMPED, hold);
    assert_eq!(of("clear-of-clamps", JOB), Verdict::Proven);
    assert_eq!(of("clear-of-clamps", &held("in: clamps, clamped: on-the-face,")), Verdict::Fails);
    assert_eq!(state(first(&in_shop(&held("in: clamps,"))), "clear-of-clamps"), Outcome::NotChecked);
    // 18.0 thick and 0.8 off it: 17.9 gripped is cut into the jaws, 16.1 leaves 1.1, 16.7 leaves half a millimetre.
    let vice = |grip: &str, out: &str| held(&format!("in: vice, grip: {grip} mm, overhang: {out} mm,"));
    assert_eq!(of("clear-of-clamps", &vice("17.9", "0.1")), Verdict::Fails);
    assert_eq!(of("clear-of-clamps", &vice("16.7", "1.3")), Verdict::Doubtful);
    assert_eq!(of("clear-of-clamps", &vice("16.1", "1.9")), Verdict::Proven);
    // What was measured to stand up less stands up less.
    assert_eq!(of("clear-of-clamps", &vice("16.1", "0.9")), Verdict::Fails);
}

/// Another number of teeth is another cutter than the one in the drawer; one that hardly stands out of the spindle mills nothing.
#[test]
fn what_is_typed_of_the_cutter_is_held_against_the_drawer_and_the_cut() {
    let line = JOB.lines().find(|line| line.trim_start().starts_with("cutter:")).unwrap();
    let teeth = |n: u32| with(JOB, line, &format!("{line}\n          teeth: {n}"));
    assert_eq!(of("cutter-in-drawer", &teeth(6)), Verdict::Proven);
    assert_eq!(of("cutter-in-drawer", &teeth(2)), Verdict::Doubtful);
    let out = JOB.lines().find(|line| line.trim_start().starts_with("stick-out:")).unwrap();
    let near = with(JOB, out, "          stick-out: 0.6 mm");
    let said = try_plan(&near, Some(&shop(include_str!("../examples/shop.yaml")))).unwrap_err();
    assert!(said[0].to_string().contains("`stick-out`"), "{}", said[0]);
}

/// A block that stands high on a narrow seat: the twist that it stood turns it about the upright axis and says little of tilting.
const BLOCK: &str = "job: j\nparts:\n  - part: block\n    material: GG25\n    operations:\n      - mill-face:\n          width: 30 mm\n          length: 300 mm\n          thickness: 250.00 ± 0.05 mm\n          removed: 0.8 mm\n          cutter: 50 mm\n          stick-out: 60 mm\n          way: conventional\n          uneven: 0.50 ± 0.05 mm\n          tram: {reads: 0.02 ± 0.01 mm, over: 200 mm}\n          flat-within: 0.05 mm\n          square-within: 0.10 mm\n          least-thickness: 17 mm\n          walls: 30 mm\n          bears: on-solid\n          hold: {in: clamps, clamped: on-a-ledge, tested: 165 N·m, true-within: 0.03 mm}\n";

const CLAMPS: &str = "{in: clamps, clamped: on-a-ledge, tested: 165 N·m, true-within: 0.03 mm}";

fn tips(job: &str) -> Verdict {
    of("tips-over", job)
}

/// By hand: safety 2, blows 1.5, the force at 250.05 mm; 165 N·m under clamps of friction 0.15 on a seat of 30 right 54.7 N·m.
#[test]
fn a_tall_narrow_block_is_tipped_by_its_cut() {
    let plan = in_shop(BLOCK);
    let of = |key| value(first(&plan), key);
    agrees("54.7", of("righting_moment"));
    assert!(of("tipping_moment") >= 3.0 * of("cutting_force") * 0.250_05 - 1e-6, "{}", of("tipping_moment"));
    assert_eq!((tips(BLOCK), first(&plan).verdict), (Verdict::Fails, Verdict::Fails));
    assert_eq!(tips(JOB), Verdict::Proven, "a low one stands");
}

/// Higher, on a narrower seat, by less twist, less deep in its vice: never better, and each from one end to the other.
#[test]
fn what_tips_more_easily_is_never_judged_better() {
    let falls = |said: &[Verdict], what: &str| {
        assert!(said.windows(2).all(|two| two[1] >= two[0]), "{what}: {said:?}");
        assert_eq!((said.first(), said.last()), (Some(&Verdict::Proven), Some(&Verdict::Fails)), "{what}: {said:?}");
    };
    let high = |job: &str, mm: u32| with(job, "thickness: 250.00", &format!("thickness: {mm}.00"));
    let all = |jobs: Vec<String>| jobs.iter().map(|job| tips(job)).collect::<Vec<_>>();
    falls(&all([18, 25, 40, 60, 100, 150, 250].map(|mm| high(BLOCK, mm)).to_vec()), "higher");
    let seat = |mm: u32| with(BLOCK, "walls: 30 mm", &format!("walls: 30 mm\n          seat: {mm} mm"));
    falls(&all([900, 600, 300, 200, 100, 30, 10].map(seat).to_vec()), "a narrower seat");
    let twist = |nm: u32| with(&high(BLOCK, 60), "tested: 165 N·m", &format!("tested: {nm} N·m"));
    falls(&all([600, 400, 250, 165, 80, 20].map(twist).to_vec()), "less twist");
    let vice = |grip: u32| {
        let hold =
            format!("{{in: vice, grip: {grip} mm, overhang: {} mm, tested: 165 N·m, true-within: 0.03 mm}}", 60 - grip);
        with(&high(BLOCK, 60), CLAMPS, &hold)
    };
    falls(&all([50, 40, 30, 20, 10, 5, 2].map(vice).to_vec()), "a shallower vice");
    let jaws = |grip: u32| {
        let hold = format!(
            "{{in: jaws, diameter: 30 mm, inside: 0 mm, grip: {grip} mm, overhang: {} mm, tested: 165 N·m, true-within: 0.03 mm}}",
            60 - grip
        );
        with(&high(BLOCK, 60), CLAMPS, &hold)
    };
    let said = all([50, 30, 10, 5, 2].map(jaws).to_vec());
    assert!(said.windows(2).all(|two| two[1] >= two[0]), "less in the jaws: {said:?}");
    let plate = |mm: u32| {
        with(&high(BLOCK, mm), CLAMPS, "{in: angle-plate, clamped: on-a-ledge, tested: 165 N·m, true-within: 0.03 mm}")
    };
    let said = all([20, 60, 150, 250].map(plate).to_vec());
    assert!(said.windows(2).all(|two| two[1] >= two[0]), "higher against a plate: {said:?}");
}

/// What is not known is asked for: how it is held, what twist it stood, how deep it is gripped. A twist against a stop proves nothing.
#[test]
fn tipping_is_asked_for_where_something_lacks() {
    let low = with(BLOCK, "thickness: 250.00", "thickness: 18.00");
    let held = |hold: &str| {
        let plan = in_shop(&with(&low, CLAMPS, hold));
        let check = first(&plan).answer.checks.iter().find(|check| check.id == "tips-over").unwrap();
        assert!(first(&plan).verdict != Verdict::Proven);
        (check.state, check.missing.clone())
    };
    assert_eq!(held("{in: clamps, clamped: on-a-ledge}"), (Outcome::NotChecked, vec!["hold.tested"]));
    assert_eq!(held("{in: vice, tested: 165 N·m}"), (Outcome::NotChecked, vec!["hold.grip"]));
    assert_eq!(held("{in: jaws, grip: 9 mm, tested: 165 N·m}"), (Outcome::NotChecked, vec!["hold.diameter"]));
    assert_eq!(held("{in: collet, grip: 9 mm, tested: 165 N·m}").0, Outcome::NotChecked);
    let stopped =
        with(&low, CLAMPS, "{in: clamps, clamped: on-a-ledge, stop: rod, tested: 165 N·m, true-within: 0.03 mm}");
    assert_eq!((tips(&low), tips(&stopped)), (Verdict::Proven, Verdict::Doubtful));
    let unheld = with(&low, &format!("          hold: {CLAMPS}\n"), "");
    assert_eq!(state(first(&in_shop(&unheld)), "tips-over"), Outcome::NotChecked);
}

/// A table that has feed steps is fed by the one at or below what the teeth want, and judged by it; where none is so fine, or the shop names
/// none, the sheet says that it is fed by hand, and at what rate. Never a power feed that the machine has not.
#[test]
fn the_table_is_fed_by_a_step_that_it_has_or_by_hand() {
    let text = include_str!("../examples/shop.yaml");
    let spindle = text.lines().filter(|line| line.contains("spindle:")).nth(1).expect("that of the mill");
    let own = |feeds: &str| shop(&with(text, spindle, &format!("{spindle}\n      feeds-along: {feeds} mm/rev")));
    let said = |plan: &setover::plan::Plan| {
        let steps = &first(plan).answer.set_ups[0].steps;
        let of = |id: &str| steps.iter().find(|step| step.id == id).expect(id).words.clone();
        [of("cut"), of("last-pass")]
    };
    let usual = in_shop(JOB);
    let wished = value(first(&usual), "feed");
    assert!(said(&usual).iter().all(|words| words.contains("a tooth, by hand, ")), "{:?}", said(&usual));
    let coarse = plan(JOB, Some(&own("2.0 4.0")));
    assert!(said(&coarse).iter().all(|words| words.contains("a tooth, by hand, ")), "{:?}", said(&coarse));
    assert!(first(&coarse).answer.assumed.iter().any(|line| line.contains("no feed step of")));
    assert!((value(first(&coarse), "feed") - wished).abs() < 1e-12);
    let fine = plan(JOB, Some(&own("0.1 0.3 2.0")));
    assert!(said(&fine).iter().all(|words| words.contains("by its step, 0.3 mm/rev")), "{:?}", said(&fine));
    let of = |key| value(first(&fine), key);
    assert!(wished > 0.3 && (of("feed") - 0.3).abs() < 1e-9, "{wished}");
    assert!((of("feed_per_tooth") - 0.3 / of("teeth")).abs() < 1e-9);
    assert!((of("feed_rate") - 0.3 * of("spindle_speed")).abs() < 1e-9);
    assert!(of("cutting_force") < value(first(&usual), "cutting_force"));
}
