//! The days of the log must rise with the work: a later set-up of an operation is not done before an earlier one, nor a set-up before what
//! lays its feature open.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::log_loop::Bench;

const REAM: &str = include_str!("../examples/ream-bush.yaml");
const INSERT: &str = include_str!("../examples/thread-insert.yaml");
const OUT: &str = include_str!("../examples/press-out.yaml");
const BORE: &str = include_str!("../examples/bore.yaml");

/// Whether the operation at a place of the plan is asked about its days.
fn is_asked(bench: &Bench, at: usize) -> bool {
    bench.plan()["operations"][at].to_string().contains("log-made-before")
}

/// Finished a day before it was pressed in, or a hole drilled behind the insert that is in it: one of the days is wrong.
#[test]
fn a_later_set_up_is_not_done_before_an_earlier_one() {
    let told = |job: &str, of: &str, lines: [(&str, &str); 2]| {
        let bench = Bench::of(job);
        for (size, day) in lines {
            bench.log(&[of, size, "--date", day]);
        }
        (is_asked(&bench, 0), bench.verdict(0))
    };
    let bush = |pressed: &str, reamed: &str| {
        let lines = [("bore_after_pressing=15.930 ± 0.004 mm", pressed), ("finish_bore=16.022 ± 0.004 mm", reamed)];
        told(REAM, "pump end case/ream-bush", lines)
    };
    assert_eq!(bush("2026-12-04", "2026-12-03"), (true, "doubtful".to_owned()));
    for reamed in ["2026-12-04", "2026-12-05"] {
        assert!(!bush("2026-12-04", reamed).0, "{reamed}");
    }
    let insert = |drilled: &str, home: &str| {
        let lines = [("drilled_depth=13.0 ± 0.1 mm", drilled), ("set_down=0.40 ± 0.05 mm", home)];
        told(INSERT, "timing chest/thread-insert", lines).0
    };
    assert!(insert("2026-12-04", "2026-12-03"));
    assert!(!insert("2026-12-03", "2026-12-04") && !insert("2026-12-04", "2026-12-04"));
    let barrel = |bored: &str, honed: &str| {
        let lines = [("bored_size=46.450 ± 0.004 mm", bored), ("finish_bore=46.500 ± 0.004 mm", honed)];
        told(BORE, "pump barrel/bore", lines).0
    };
    assert!(barrel("2026-12-04", "2026-12-03") && !barrel("2026-12-03", "2026-12-04"));
}

/// A slip that is put right on a later day was read when it was read.
#[test]
fn a_correction_of_a_later_day_is_no_later_reading() {
    let bench = Bench::of(REAM);
    let of = "pump end case/ream-bush";
    bench.log(&[of, "bore_after_pressing=15.390 ± 0.004 mm", "--date", "2026-12-02"]);
    bench.log(&[of, "finish_bore=16.022 ± 0.004 mm", "--date", "2026-12-03"]);
    bench.log(&[of, "bore_after_pressing=15.930 ± 0.004 mm", "corrects=1", "--date", "2026-12-04"]);
    assert!(!is_asked(&bench, 0));
}

/// No new bush is pressed in, nor is the bore behind it measured, before the old one is out.
#[test]
fn nothing_goes_in_before_the_old_bush_is_out() {
    let out = OUT.split_once("    operations:\n").expect("a press-out").1;
    let job = REAM.replacen("    operations:\n", &format!("    operations:\n{out}"), 1);
    let told = |out: &str| {
        let bench = Bench::of(&job);
        let of = "pump end case/ream-bush";
        bench.log(&[of, "bore_after_pressing=15.930 ± 0.004 mm", "--date", "2026-12-02"]);
        bench.log(&[of, "finish_bore=16.022 ± 0.004 mm", "--date", "2026-12-06"]);
        let said = bench.log(&["pump end case/press-out", "done=yes", "--date", out]);
        (is_asked(&bench, 1), said.contains("L3 is of"))
    };
    // Before both, between them, behind both.
    assert_eq!(["2026-12-01", "2026-12-04", "2026-12-07"].map(|day| told(day).0), [false, true, true]);
}
