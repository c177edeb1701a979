//! Operations that do not look at one another are worked by all processors at once: what each gives is what it gives in a job of its
//! own, whatever else stands in the job and whoever is done first.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common;

use common::*;
use setover::sheet::json::output;

/// Bushes in one line in two parts, a size handed from one to the other, and two halves of a pair; the number names the parts.
const LEFT: &str = "
  - part: case N
    material: cast aluminium
    operations:
      - ream-bush: {line-with: cover N/ream-bush, housing: {bore: 20.010 ± 0.004 mm, outside: 40 mm}, bush: {outside: 20.045 ± 0.004 mm, bore: 15.95 ± 0.004 mm, length: 20 mm, material: LG2}, shaft: 15.984 ± 0.003 mm, clearance: 1 .. 2 thou}
  - part: upper N
    material: mild steel
    operations:
      - skim: {outside: 120 mm, inside: 84 mm, length: 8.00 ± 0.02 mm, wear: 0.15 ± 0.03 mm, finish: Ra 3.2 um, least-thickness: 7.5 mm, pair: lower N}
";
const RIGHT: &str = "
  - part: cover N
    material: cast aluminium
    operations:
      - ream-bush: {line-with: case N/ream-bush, housing: {bore: 20.010 ± 0.004 mm, outside: 40 mm}, bush: {outside: 20.045 ± 0.004 mm, bore: 15.95 ± 0.004 mm, length: 20 mm, material: LG2}, shaft: {of: case N/ream-bush/shaft}, clearance: 1 .. 2 thou}
  - part: lower N
    material: mild steel
    operations:
      - skim: {outside: 120 mm, inside: 84 mm, length: 9.00 ± 0.02 mm, wear: 0.30 ± 0.02 mm, finish: Ra 3.2 um, pair: upper N}
";

/// A job of numbered parts: all that stand left first, those that stand right behind them the other way round.
fn job(numbers: &[usize]) -> String {
    let of = |text: &str, number: &usize| text.trim_start_matches('\n').replace(" N", &format!(" {number}"));
    let left: String = numbers.iter().map(|number| of(LEFT, number)).collect();
    let right: String = numbers.iter().rev().map(|number| of(RIGHT, number)).collect();
    format!("job: several in line\nparts:\n{left}{right}")
}

/// What is said of the operations of each part, its own number left out and lines of the file too.
fn said(numbers: &[usize]) -> Vec<(String, String)> {
    let mut answer = serde_json::to_value(output(&[in_shop(&job(numbers))])).expect("JSON");
    without_lines(&mut answer);
    let all = answer["operations"].as_array().expect("operations").clone();
    let one = |operation: serde_json::Value| {
        let part = operation["part"].as_str().expect("a part").to_owned();
        let number = part.rsplit(' ').next().expect("a number").to_owned();
        let text = operation.to_string();
        let plain = ["case", "cover", "upper", "lower"]
            .iter()
            .fold(text, |text, name| text.replace(&format!("{name} {number}"), name));
        (part, plain)
    };
    all.into_iter().map(one).collect()
}

fn without_lines(value: &mut serde_json::Value) {
    match value {
        serde_json::Value::Object(fields) => {
            fields.shift_remove("line");
            fields.values_mut().for_each(without_lines);
        }
        serde_json::Value::Array(items) => items.iter_mut().for_each(without_lines),
        _ => {}
    }
}

#[test]
fn what_an_operation_gives_hangs_on_none_that_it_does_not_look_at() {
    let alone = said(&[0]);
    assert_eq!(alone.len(), 4);
    let numbers: Vec<usize> = (0..25).collect();
    for _ in 0..4 {
        let together = said(&numbers);
        assert_eq!(together.len(), 4 * numbers.len());
        for (part, text) in &together {
            let name = part.split(' ').next().expect("a name");
            let own = alone.iter().find(|(own, _)| own.starts_with(name)).expect("the same alone");
            assert_eq!(*text, own.1, "{part}");
        }
        let order: Vec<&str> = together.iter().map(|(part, _)| part.as_str()).collect();
        assert_eq!((order[0], order[1], order[50], order[99]), ("case 0", "upper 0", "cover 24", "lower 0"));
    }
}

#[test]
fn those_in_line_and_those_of_a_pair_were_seen_together() {
    let plan = in_shop(&job(&[0, 1, 2, 3, 4]));
    for planned in &plan.operations {
        let check = if planned.word == "skim" { "both-halves" } else { "in-line" };
        assert!(state(planned, check).verdict().is_some(), "{}", planned.address);
    }
    let places = |name: &str| {
        let bush = |planned: &&setover::plan::Planned| planned.address.part.starts_with(name);
        plan.operations.iter().filter(bush).map(|planned| value(planned, "in_line_place")).collect::<Vec<_>>()
    };
    assert_eq!((places("case"), places("cover")), (vec![1.0; 5], vec![2.0; 5]));
}

/// One part in two jobs is one part: what one says of it holds in both, and what they say of it does not contradict.
#[test]
fn a_part_in_two_jobs_is_one_part() {
    use setover::job::JobFile;
    use setover::operations::Request;
    use setover::plan::{Cards, Given, Logged, work_together};
    use setover::proof::Place;
    use setover::reading::Node;
    let face = include_str!("../examples/face.yaml").replace("shop: shop.yaml\n", "");
    let part = face.lines().find_map(|line| line.trim().strip_prefix("- part: ")).unwrap().to_owned();
    let other = |says: &str| {
        let job = format!(
            "job: Other\nparts:\n  - part: {part}\n{says}    operations:\n      - deburr: {{edges: 4, by: stone, turning: false}}\n"
        );
        let jobs: Vec<JobFile<Request>> = [face.as_str(), job.as_str()]
            .iter()
            .enumerate()
            .map(|(nth, text)| JobFile::read(Node::yaml(text, Place::start(nth as u32)).unwrap()).unwrap())
            .collect();
        let cards = Cards::built_in(Request::WORDS.iter().copied()).unwrap();
        let given: Vec<Given<Request>> =
            jobs.iter().map(|job| Given { job, shop: None, cards: &cards, log: Logged::default() }).collect();
        work_together(&given).map_err(|all| format!("{all:?}"))
    };
    assert!(other("").is_ok());
    assert!(other("    material: GG25\n").is_err_and(|says| says.contains("another job says `material: ")));
    assert!(other("    hardness: 40 HRC\n").is_err_and(|says| says.contains("another job says `hardness: ")));
}
