//! What crosses from one operation to another and comes home from the log: one reading stays one reading, a unit is a unit, and
//! what was made once makes nothing else look made.
#![allow(clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common;

use common::*;
use setover::handbook::cutting::stock;
use setover::job::{Address, JobFile, Ledger, PartFacts};
use setover::operations::{Bench, Request};
use setover::plan::{Cards, Plan, work};
use setover::proof::{Cause, Figure, Origin, Place, Refusal, Worked};
use setover::quantity::{Mm, Newton, Quantity, Unit};
use setover::reading::Node;

const CHAIN: &str = "
job: three cuts, one reading
parts:
  - part: ring
    material: cast iron
    operations:
      - face: {set-up: {name: one}, outside: 52 mm, inside: 32 mm, length: 21.85 ± 0.01 mm, wear: 0.25 ± 0.02 mm, finish: Ra 1.6 um, hold: {in: soft-jaws, diameter: 52 mm, grip: 10 mm, overhang: 12 mm, stop: step}}
      - face: {set-up: {name: two}, outside: 52 mm, inside: 32 mm, length: {of: ring/one/length_after}, wear: 0.25 ± 0.02 mm, finish: Ra 1.6 um, hold: {in: soft-jaws, diameter: 52 mm, grip: 10 mm, overhang: 12 mm, stop: step}}
      - face: {set-up: {name: three}, outside: 52 mm, inside: 32 mm, length: {of: ring/two/length_after}, wear: 0.25 ± 0.02 mm, finish: Ra 1.6 um, hold: {in: soft-jaws, diameter: 52 mm, grip: 10 mm, overhang: 12 mm, stop: step}}
";

/// Three cuts from one reading: each sets its dial anew, so the doubt is that of the reading and of one, two, three settings
/// (root of the sum of squares), and each setting has an owner.
#[test]
fn each_cut_adds_the_setting_of_its_own_dial_and_the_reading_stays_one() {
    let plan = in_shop(CHAIN);
    let dial = doubt(&plan.operations[0], "removed");
    assert!(dial > 0.0);
    for (operation, settings) in plan.operations.iter().zip([1.0, 2.0, 3.0_f64]) {
        let by_hand = (0.01_f64.powi(2) + settings * dial.powi(2)).sqrt();
        assert!((doubt(operation, "length_after") - by_hand).abs() < 1e-12, "{settings} settings");
    }
    let shares = &plan.operations[2].answer.value("length_after").expect("a length").shares;
    let readings = shares.iter().filter(|share| matches!(share.0, Cause::Own(..))).count();
    let owners: Vec<Cause> = shares.iter().map(|share| share.0).filter(|c| matches!(c, Cause::SetBy(..))).collect();
    assert_eq!((readings, owners.len()), (1, 2), "{shares:?}");
    assert_ne!(owners[0], owners[1], "the dial of one cut is not the dial of another");
}

/// A bench at which one reading of an operation before, as it was read and after a cut, lies to be taken over.
fn with_bench<T>(ask: impl FnOnce(&Bench) -> T) -> T {
    let before = Address::of("ring", "face");
    let read = Worked::<Mm>::exact(Mm::new(21.85), Origin::Typed(Place::start(0)))
        .with_doubt(Cause::Reading(Place::start(0)), 0.03);
    let removed = Worked::<Mm>::assumed(Mm::new(0.2), "a test").with_doubt(Cause::Set("dial"), 0.004);
    let after = stock::length_after(&read, &removed).expect("a length");
    let mut ledger = Ledger::default();
    ledger.plan(&before, false, vec![("length", read.figure()), ("length_after", after.figure())]);
    let part = PartFacts { name: "ring".into(), ..PartFacts::default() };
    ask(&Bench::new(None, &part, &Address::of("ring", "other"), &ledger))
}

#[test]
fn a_reading_that_comes_in_by_two_ways_is_one_reading() {
    let at = |value: &str| Address::of("ring", "face").value(value);
    let (whole, cut) = with_bench(|bench| {
        let take = |value: &str| bench.handed::<Mm>(&at(value)).expect("handed over");
        (take("length"), take("length_after"))
    });
    // By hand: 21.85 − 21.65; the reading stands in both and goes out, the dial's 0.004 stays.
    let difference = stock::length_after(&whole, &cut).expect("a difference");
    assert!((difference.number() - 0.2).abs() < 1e-12);
    assert!((difference.plus_minus() - 0.004).abs() < 1e-12, "{}", difference.plus_minus());
    assert!((cut.plus_minus() - 0.03_f64.hypot(0.004)).abs() < 1e-12);
    // And a dial of the operation at hand is another than the dial of the one before.
    let own = Worked::<Mm>::assumed(Mm::new(0.1), "a test").with_doubt(Cause::Set("dial"), 0.004);
    let twice = stock::length_after(&cut, &own).expect("a length").plus_minus();
    assert!((twice - (0.03_f64.powi(2) + 2.0 * 0.004_f64.powi(2)).sqrt()).abs() < 1e-12);
}

#[test]
fn a_figure_is_never_taken_in_another_unit() {
    let address = Address::of("ring", "face").value("length");
    let wrong = with_bench(|bench| bench.handed::<Newton>(&address).expect_err("a force is no length"));
    assert_eq!(wrong, Refusal::WrongUnit { address: "ring/face/length".into(), is: Unit::Mm, asked: Unit::N });
    let plan = logged(CHAIN_BUSH, "pump/ream-bush", "bore_after_pressing", (15.96, Unit::N));
    let refused = plan.operations[0].answer.refused.as_ref().expect("refused");
    assert!(refused.to_string().contains("pump/ream-bush/bore_after_pressing is in N"), "{refused}");
}

const CHAIN_BUSH: &str = "
job: a bush
parts:
  - part: pump
    material: cast aluminium
    operations:
      - ream-bush: {housing: {bore: 20.010 ± 0.004 mm, outside: 40 mm, length: 20 mm}, bush: {outside: 20.045 ± 0.004 mm, bore: 15.950 ± 0.004 mm, length: 20 mm, material: LG2}, shaft: 15.984 ± 0.003 mm, clearance: 1 .. 2 thou}
";

/// A job worked with one size in the log.
fn logged(job: &str, operation: &str, value: &str, (number, unit): (f64, Unit)) -> Plan {
    let job: JobFile<Request> = JobFile::read(Node::yaml(job, Place::start(0)).expect("yaml")).expect("job");
    let mut log = Ledger::default();
    log.leave(&operation.parse().expect("an address"), value, Figure::as_left(number, unit, 0.1, 1));
    work(&job, Some(&shop(SHOP)), &Cards::built_in(Request::WORDS.iter().copied()).expect("cards"), log).expect("plan")
}

const THIN: &str = "
job: an insert in a wall of 18
parts:
  - part: chest
    material: cast aluminium
    operations:
      - thread-insert: {hold: {in: clamps, tested: 60 N·m}, thread: M8x1.25, wall: 18.0 ± 0.3 mm, hole: blind, present-hole: 8.0 mm, present-depth: 12 ± 0.1 mm, edge: 14 ± 0.2 mm, bolt: {class: '4.6', reach: 8 mm}, tang: out}
";

/// An insert of 24 mm is 6 mm longer than the wall. Whatever the log says was left, no length is judged by another's hole.
#[test]
fn what_was_left_of_one_length_proves_no_other() {
    let plain = in_shop(THIN);
    let longest = plain.operations[0].answer.alternatives.iter().find(|row| row.name == "3D").expect("3D");
    assert_eq!(longest.answer.verdict(), setover::proof::Verdict::Fails, "24 mm in 18 mm");
    for declared in plain.operations[0].answer.values.iter().filter(|value| value.unit == Unit::Mm) {
        for left in [declared.number, 0.5, 24.0] {
            let with_log = logged(THIN, "chest/thread-insert", declared.key, (left, Unit::Mm));
            let rows = |plan: &Plan| plan.operations[0].answer.alternatives.clone();
            assert_eq!(rows(&plain), rows(&with_log), "{} left at {left}", declared.key);
            // What the log takes of the one that was chosen judges that one, and never betters it.
            let (was, is) = (plain.operations[0].verdict, with_log.operations[0].verdict);
            let taken = ["drilled_depth", "set_down"].contains(&declared.key);
            assert!(if taken { is >= was } else { is == was }, "{} left at {left}: {was:?}, {is:?}", declared.key);
        }
    }
}

/// What an operation gives beside sizes of the part (its cutter, its track, a share of the case) is no length of a face, whatever its unit
/// is; a size is.
#[test]
fn what_is_handed_on_is_a_size_of_the_part_and_no_figure_of_a_tool() {
    let declared = in_shop(CHAIN).operations.remove(0);
    let asked = |key: &str| {
        try_plan(&CHAIN.replacen("ring/one/length_after", &format!("ring/one/{key}"), 1), Some(&shop(SHOP)))
    };
    let refused = |key: &str| match asked(key) {
        Ok(_) => false,
        Err(problems) => problems.iter().any(|problem| problem.to_string().contains("is no size of a part")),
    };
    let lengths: Vec<&str> =
        declared.answer.values.iter().filter(|value| value.unit == Unit::Mm).map(|value| value.key).collect();
    for size in ["length", "length_after", "removed"] {
        assert!(lengths.contains(&size) && !refused(size), "{size} may be handed on");
    }
    for figure in ["least_depth", "tool_clear", "grip_length_asked"] {
        assert!(lengths.contains(&figure) && refused(figure), "{figure} is no length of a ring");
    }
}
