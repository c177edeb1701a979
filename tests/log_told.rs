//! What the log tells of itself: the very line that was changed by hand, and what a line does where the job goes on from another.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::log_loop::Bench;
use setover::job::{Log, LogFault, LogFaultKind, NewLine};
use setover::proof::Place;

/// A log of so many remarks, as the program writes it.
fn lines(count: u32) -> String {
    let mut text = String::new();
    for n in 1..=count {
        let line = NewLine { keys: vec![("note".into(), format!("remark {n}"))], ..NewLine::default() };
        text += &line.text(text.as_bytes(), n);
    }
    text
}

fn faults(text: &str) -> Vec<(LogFaultKind, u32, (u32, u32))> {
    let one = |fault: &LogFault| (fault.kind, fault.line, fault.between);
    Log::read(text.as_bytes(), Place::start(0)).faults.iter().map(one).collect()
}

#[test]
fn the_very_lines_that_were_changed_are_named() {
    let text = lines(9);
    assert_eq!(faults(&text), []);
    for changed in 1..=8_u32 {
        let other = text.replace(&format!("remark {changed}"), &format!("remork {changed}"));
        assert_eq!(faults(&other), [(LogFaultKind::Changed, changed, (changed, 9))]);
    }
    // Two of them, with whole ones between.
    let two = text.replace("remark 3", "remark 8").replace("remark 6", "remark 66");
    let named: Vec<u32> = faults(&two).iter().map(|(_, line, _)| *line).collect();
    assert_eq!(named, [3, 6]);
    // The last one is torn, whether another was changed before it or not.
    let last = two.replace("remark 9", "remark 0");
    assert_eq!(faults(&last).last().map(|(kind, line, _)| (*kind, *line)), Some((LogFaultKind::Torn, 9)));
    assert_eq!(faults(&last).len(), 3);
    // Ends of lines of another system change nothing.
    assert_eq!(faults(&text.replace('\n', "\r\n")), []);
    let carried = two.replace('\n', "\r\n");
    assert_eq!(faults(&carried).iter().map(|(_, line, _)| *line).collect::<Vec<_>>(), [3, 6]);
}

/// A line that was written by hand, without a sum, is held by the next that has one.
#[test]
fn a_line_without_a_sum_is_one_of_those_that_the_next_holds() {
    let mut text = lines(2) + "- {n: 3, note: by hand}\n# a remark between\n";
    for n in 4..=6 {
        text += &NewLine::default().text(text.as_bytes(), n);
    }
    assert_eq!(faults(&text), []);
    let changed = text.replace("by hand", "by head");
    assert_eq!(faults(&changed), [(LogFaultKind::Changed, 5, (3, 7))]);
    // What was written behind a change is right; what stood there tells when it was changed.
    let mut later: String = changed.lines().take(6).map(|line| line.to_owned() + "\n").collect();
    later += &NewLine::default().text(later.as_bytes(), 6);
    assert_eq!(faults(&later), [(LogFaultKind::Changed, 5, (3, 6))]);
}

const FACED: &str = "
job: a collar
shop: shop.yaml
parts:
  - part: collar
    material: mild steel
    operations:
      - face: {outside: 58 mm, inside: 30 mm, length: 21.87 ± 0.016 mm, wear: 0.16 ± 0.01 mm, least-length: 21.0 mm, finish: Ra 1.6 um, hold: {in: soft-jaws, diameter: 58 mm, grip: 10 mm, overhang: 12 mm, true-within: 0.01 mm}}
";

const GOES_ON: &str = "
job: a float
shop: shop.yaml
parts:
  - part: idler
    material: mild steel
    operations:
      - shim:
          float: 0.15 .. 0.25 mm
          chain:
            - {link: case, opens: 28.600 ± 0.008 mm, material: mild steel}
            - {link: shaft, closes: 6.040 ± 0.002 mm, material: mild steel}
            - {link: collar, closes: {of: collar/face/length_after}, material: mild steel}
          pack: {most: 3, hard-face: bearing, turning-face: collar, thin: 0.20 mm}
";

/// The page of a plan, of a decision and of the log itself each name the line.
#[test]
fn every_page_names_the_line_that_was_changed() {
    let bench = Bench::of(FACED);
    for n in 1..=3 {
        bench.log(&["collar/face", &format!("note=remark {n}")]);
    }
    let path = bench.path().join("job.log.yaml");
    let text = std::fs::read_to_string(&path).expect("a log");
    std::fs::write(&path, text.replace("remark 2", "remark 5")).expect("changed");
    for words in [&["log", "job.yaml"][..], &["plan", "job.yaml"], &["day", "job.yaml"]] {
        let said = bench.said(words).split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(
            said.contains("ine 2 was changed by hand when line 3 stood there already: - {n: 2,"),
            "{words:?}: {said}"
        );
    }
}

/// A job that goes on from another is judged with it; alone it says what it wants, and of whom.
#[test]
fn a_line_of_a_job_that_goes_on_from_another_is_judged_with_it() {
    let bench = Bench::of(GOES_ON);
    bench.write("faced.yaml", FACED);
    let bad = ["idler/shim", "float_left=0.05 ± 0.01 mm"];
    let alone = bench.log(&bad).split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(alone.contains("Written down, not judged: job.yaml goes on from collar/face, of another job."), "{alone}");
    assert!(alone.contains("setover plan job.yaml OTHER.yaml") && alone.contains("--and OTHER.yaml"), "{alone}");
    let together = bench.log(&[&bad[..], &["--and", "faced.yaml", "--corrects", "1"]].concat());
    assert!(!together.contains("not judged") && together.contains("By L2 idler/shim is NOT FINISHED"), "{together}");
    let good = bench.log(&["idler/shim", "float_left=0.20 ± 0.01 mm", "--and", "faced.yaml", "--corrects", "2"]);
    assert!(!good.contains("not judged") && !good.contains("NOT FINISHED"), "{good}");
    // The names that it takes are told with it too.
    let names = bench.said(&["log", "job.yaml", "idler/shim", "--and", "faced.yaml"]);
    assert!(names.contains("float_left"), "{names}");
    // A line of the other takes this one's float away: told where it was written.
    let bench = Bench::of(GOES_ON);
    bench.write("faced.yaml", &FACED.replace("least-length: 21.0 mm", "least-length: 20.5 mm"));
    let words = ["log", "faced.yaml", "collar/face", "length_after=20.95 ± 0.01 mm", "--date", "2026-12-04"];
    let other = String::from_utf8(bench.run(&[&words[..], &["--and", "job.yaml"]].concat()).stdout).expect("text");
    assert!(other.contains("By L1 idler/shim fails"), "{other}");
    // A job that has a fault says that, and wants no other.
    bench.write("faced.yaml", &FACED.replace("outside: 58 mm", "outside: 58"));
    let faulty = bench.log(&["idler/shim", "note=x", "--and", "faced.yaml"]);
    assert!(
        faulty.contains("not judged: it cannot be worked as it stands. setover plan job.yaml faced.yaml"),
        "{faulty}"
    );
}
