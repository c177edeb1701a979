//! A hold point's limits: at the limit every check that stamps is proven when the size is typed anew, a step beyond it one is not.
#![allow(clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common;

use common::*;
use setover::job::{Address, JobFile, Ledger};
use setover::operations::{HoldPoint, Holds, Limits, LimitsFrom, Measured, Request, holds_for};
use setover::plan::{Cards, Plan, Planned, work};
use setover::proof::{Figure, Place, Verdict};
use setover::quantity::Unit;
use setover::reading::Node;

fn holds(planned: &Planned, key: &str, gauge: f64) -> Option<Holds> {
    let value = planned.answer.value(key).expect(key);
    holds_for(&planned.answer.checks, Measured { value, gauge, guard: setover::handbook::constants::guard_factor() })
}

const COVER: &str = "
job: a cover screw
parts:
  - part: chest
    material: cast aluminium
    operations:
      - thread-insert: {hold: {in: clamps, tested: 60 N·m}, thread: M6, wall: WALL mm, hole: HOLE, present-hole: 6.0 ± 0.1 mm, present-depth: 10 ± 0.2 mm, edge: 13 ± 0.3 mm, bolt: {class: 4.6, reach: 6 mm}, tang: out, length: 1D}
";

fn cover(wall: f64, hole: &str) -> Plan {
    plan(&COVER.replace("WALL", &format!("{wall:.5} ± 0.2")).replace("HOLE", hole), None)
}

#[test]
fn a_wall_at_its_limit_is_proven_and_one_thinner_is_not() {
    for wall in [13.5, 19.0, 25.0] {
        let limits = holds(first(&cover(wall, "blind")), "wall", 0.2).expect("limits");
        let least = limits.least.expect("a least wall");
        assert_eq!(limits.most, None, "no wall is too thick");
        let needed = value(first(&cover(wall, "blind")), "wall_needed");
        assert!((least - needed).abs() < 1e-6, "{least} against {needed}, worked by its formula");
        assert_eq!(verdict(first(&cover(least + 2e-5, "blind")), "break-through"), Verdict::Proven);
        assert_ne!(verdict(first(&cover(least - 1e-3, "blind")), "break-through"), Verdict::Proven);
    }
}

#[test]
fn a_better_gauge_leaves_a_wider_window() {
    let it = cover(19.0, "blind");
    let least = |gauge| holds(first(&it), "wall", gauge).and_then(|limits| limits.least).expect("a limit");
    assert!(least(0.05) < least(0.2) && least(0.2) < least(0.4));
}

/// What no check follows has no limits: nothing is invented.
#[test]
fn a_size_that_nothing_is_judged_by_has_no_limits() {
    assert_eq!(holds(first(&cover(19.0, "blind")), "thread_percent", 0.1), None);
}

const BUSH: &str = include_str!("fixtures/ream-bush.yaml");

/// The closed-in bore: the plan foretells it, the gauge measures it. Inside the limits the bush can be reamed as printed.
#[test]
fn the_closed_in_bore_has_two_limits_about_what_is_foretold() {
    let it = in_shop(BUSH);
    let limits = holds(first(&it), "bore_after_pressing", 0.0095).expect("limits");
    let foretold = value(first(&it), "bore_after_pressing");
    assert!(limits.least.is_some_and(|least| least < foretold) && limits.most.is_some_and(|most| most > foretold));
}

/// The hold point of a step.
fn hold_at<'a>(planned: &'a Planned, step: &str) -> &'a HoldPoint<String> {
    let steps = planned.answer.set_ups.iter().flat_map(|set_up| &set_up.steps);
    let mut held = steps.filter(|held| held.id.starts_with(step)).filter_map(|step| step.hold_point.as_ref());
    held.next().unwrap_or_else(|| panic!("no hold point at {step}"))
}

fn demo() -> Plan {
    let shop = shop(&std::fs::read_to_string("demo/shop.yaml").expect("text"));
    plan(&std::fs::read_to_string("demo/tidewater.yaml").expect("text"), Some(&shop))
}

/// Figures that stand on the sheets of the demonstration.
#[test]
fn the_limits_of_the_demonstration_are_those_worked_by_hand() {
    let demo = demo();
    // 1.357 − 1.00 are left over at worst with the chosen length: 13.5 − 0.357 = 13.143, up to what is read.
    let wall = hold_at(&demo.operations[1], "measure-wall");
    assert_eq!(
        (wall.measures, wall.limits.numbers(), wall.limits.from),
        ("wall", (Some(13.15), None), LimitsFrom::Checks)
    );
    let bore = hold_at(&demo.operations[4], "measure-closed-in");
    assert_eq!((bore.measures, bore.readings), ("bore_after_pressing", 4));
    assert_eq!((bore.limits.numbers(), bore.gauge.as_str()), ((Some(15.897), Some(15.916)), "bore gauge"));
    // No check hangs on the length of a part that goes by its case: as found, with its doubt.
    let length = hold_at(&demo.operations[6], "measure-again");
    assert_eq!((length.measures, length.readings, length.limits.from), ("length", 4, LimitsFrom::AsFound));
    let found = demo.operations[6].answer.value("length").expect("length");
    let ends = (found.number - found.plus_minus, found.number + found.plus_minus);
    let (least, most) = length.limits.numbers();
    assert!((least.expect("least") - ends.0).abs() < 1e-9 && (most.expect("most") - ends.1).abs() < 1e-9);
}

/// The checks that stamp and are proven in the plan, and are not with the size as it was measured.
fn lost<'a>(base: &'a Planned, measured: &Planned) -> Vec<&'a str> {
    let stamp =
        |it: &Planned, id: &str| it.answer.checks.iter().filter(|check| check.id == id).find_map(|c| c.stamps());
    let proven = base.answer.checks.iter().filter(|check| check.stamps() == Some(Verdict::Proven));
    proven.map(|check| check.id).filter(|id| stamp(measured, id) != Some(Verdict::Proven)).collect()
}

/// At each end everything that was proven still is; two steps of the gauge beyond it something is not (what is worked anew with the
/// size has other choices, which may be worth one step). Gives how many ends were
/// tried.
fn ends_decide(base: &Planned, hold: &HoldPoint<String>, step: f64, again: &dyn Fn(f64) -> Plan) -> usize {
    assert_eq!(hold.limits.from, LimitsFrom::Checks, "{hold:?}");
    let (least, most) = hold.limits.numbers();
    let ends = [(least, -2.0 * step), (most, 2.0 * step)];
    let tried = ends.iter().filter_map(|(end, beyond)| Some(((*end)? + hold.taken_off, *beyond)));
    tried
        .map(|(end, beyond)| {
            assert_eq!(lost(base, first(&again(end))), Vec::<&str>::new(), "{} at {end}", hold.measures);
            assert_ne!(lost(base, first(&again(end + beyond))), Vec::<&str>::new(), "{} beyond {end}", hold.measures);
        })
        .count()
}

#[test]
fn a_wall_decides_at_its_limit() {
    let mut tried = 0;
    for wall in [13.5, 14.0, 19.0, 25.0] {
        let job = |wall: f64| {
            let job = COVER.replace("WALL", &format!("{wall:.5} ± 0.2")).replace("HOLE", "blind");
            plan(&job.replace("length: 1D", "length: 1D, lead: bottoming"), None)
        };
        let base = job(wall);
        tried += ends_decide(first(&base), hold_at(first(&base), "measure-wall"), 0.01, &job);
    }
    assert_eq!(tried, 4);
}

const FACE: &str = "
job: a ring
parts:
  - part: ring
    material: mild steel
    operations:
      - face: {outside: 200 mm, inside: 120 mm, length: LENGTH ± 0.01 mm, wear: WEAR ± 0.02 mm, finish: Ra 3.2 um,
          least-length: 29 mm, hold: {in: soft-jaws, diameter: 200 mm, grip: 12 mm, overhang: 15 mm, true-within: 0.02 mm}}
";

const SKIM: &str = include_str!("fixtures/skim.yaml");

/// A thickness or a length that has a least: again before the part is held, and before the last cut by what was taken off.
#[test]
fn a_length_is_looked_at_as_it_was_found() {
    // Dial and target are printed for the length as read: of another the sheet is worked again, and what is dialled on before the
    // last cut is never less than nothing.
    let mut tried = 0;
    let jobs = ["0.40", "0.30", "0.50"].map(|wear| FACE.replace("WEAR", wear).replace("LENGTH", "30.0000"));
    let skims = ["7.5", "7.7"].map(|least| SKIM.replace("least-thickness: 7.5", &format!("least-thickness: {least}")));
    for job in jobs.iter().chain(&skims) {
        let plan = in_shop(job);
        let it = first(&plan);
        // Of what fails nothing is printed to be dialled: its reading is sought that would prove it.
        if it.verdict == Verdict::Fails {
            continue;
        }
        let value = |key: &str| it.answer.value(key).expect(key);
        let (found, target) = (value("length"), value("length_after").number);
        for step in it.answer.set_ups.iter().flat_map(|set_up| &set_up.steps) {
            let Some(hold) = step.hold_point.as_ref().filter(|hold| hold.measures == "length") else { continue };
            let (least, most) = hold.limits.numbers();
            let (least, most) = (least.expect("least") + hold.taken_off, most.expect("most") + hold.taken_off);
            assert_eq!(hold.limits.from, LimitsFrom::AsFound, "{job}");
            assert!(least >= found.number - found.plus_minus - 1e-9, "{job}");
            assert!(most <= found.number + found.plus_minus + 1e-9, "{job}");
            assert!(least - hold.taken_off > target, "what is left to dial on: {job}");
            tried += 1;
        }
    }
    assert!(tried >= 4, "{tried}");
}

/// The closed-in bore as it was measured with the gauge of the shop, entered in the log.
#[test]
fn a_closed_in_bore_decides_at_both_limits() {
    let mut tried = 0;
    for clearance in ["1 .. 2 thou", "1 .. 2.2 thou", "1.2 .. 2.2 thou"] {
        let text = BUSH.replace("1 .. 2.5 thou", clearance);
        let measured = |bore: Option<f64>| {
            let job: JobFile<Request> = Node::yaml(&text, Place::start(0)).expect("yaml").read().expect("job");
            let mut log = Ledger::default();
            let at = Address::of("pump end case", "ream-bush");
            if let Some(bore) = bore {
                log.leave(&at, "bore_after_pressing", Figure::as_left(bore, Unit::Mm, 0.0095, 1));
            }
            let cards = Cards::built_in(Request::WORDS.iter().copied()).expect("cards");
            work(&job, Some(&shop(SHOP)), &cards, log).expect("plan")
        };
        let base = measured(None);
        let hold = hold_at(first(&base), "measure-closed-in");
        println!("{clearance}: {:?} {}", hold.limits.numbers(), hold.gauge);
        // The lower end is two coarse steps under the first setting printed, so that no pass is cut too deep, and no less than what was
        // foretold with what plan and gauge may be off.
        let foretold = first(&base).answer.value("bore_after_pressing").expect("foretold");
        let low = foretold.band.map_or(foretold.number, |band| band.0) - foretold.plus_minus.hypot(0.0095);
        let floor = (value(first(&base), "setting_first") - 0.1).max(low);
        let least = hold.limits.numbers().0.expect("a least bore");
        assert!(least >= floor && least < floor + 0.0015, "{least} against {floor}");
        assert_eq!(lost(first(&base), first(&measured(Some(least)))), Vec::<&str>::new());
        let mut upper = hold.clone();
        upper.limits = Limits { least: None, ..Limits::clone(&hold.limits) }.into();
        tried += ends_decide(first(&base), &upper, 0.001, &|bore| measured(Some(bore)));
    }
    assert!(tried >= 3, "{tried}");
}

/// A window in which nothing lies stops good work as well as bad: no page has one, and what a page expects lies inside its own window.
#[test]
fn what_is_foretold_lies_inside_its_own_window() {
    let bush = include_str!("../examples/ream-bush.yaml");
    let by = bush.lines().find(|line| line.trim_start().starts_with("by:")).unwrap();
    let bore = bush.lines().find(|line| line.contains("bore: 15.950 ± 0.004 mm")).unwrap();
    let shim = include_str!("../examples/shim.yaml");
    let float = shim.lines().find(|line| line.trim_start().starts_with("float:")).unwrap();
    let mut seen = 0;
    let jobs = [
        with(bush, by, "          by: machine"),
        with(bush, bore, &bore.replace("15.950 ± 0.004", "15.950 ± 0.012")),
        with(shim, float, "          float: 0.20 .. 0.30 mm"),
        include_str!("jobs/tiny.yaml").to_owned(),
    ];
    for job in jobs {
        for it in &in_shop(&job).operations {
            let steps = it.answer.set_ups.iter().flat_map(|set_up| &set_up.steps);
            for hold in steps.filter_map(|step| step.hold_point.as_ref()) {
                let (least, most) = hold.limits.numbers();
                if let (Some(least), Some(most)) = (least, most) {
                    assert!(least <= most, "{}: {least} to {most}", hold.measures);
                }
                if hold.measures == "bore_after_pressing" {
                    let expected = value(it, hold.measures);
                    assert!(least.is_none_or(|least| least <= expected), "{expected}: {least:?}");
                    assert!(most.is_none_or(|most| expected <= most), "{expected}: {most:?}");
                    seen += 1;
                }
            }
        }
    }
    assert!(seen >= 3, "{seen}");
}
