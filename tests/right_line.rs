//! The line of the log that is named is the one that did it: who goes by the wrong one takes back what was right.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::log_loop::Bench;

const FIT: &str = include_str!("fixtures/fit/three-in-a-chain.yaml");
const BORE: &str = include_str!("../examples/bore.yaml");
const SHIM: &str = include_str!("../examples/shim.yaml");

/// The lines of a page that tell of an address.
fn of(page: &str, address: &str) -> String {
    page.lines().filter(|line| line.contains(address)).collect::<Vec<_>>().join("\n")
}

/// A correction that betters what it corrects is the cause of nothing that another line did; nor is a line that counts no more.
#[test]
fn what_no_longer_holds_names_the_line_by_which_it_does_not() {
    let bench = Bench::of(FIT);
    bench.log(&["cover/bore-hole", "diameter_after=25.033 ± 0.002 mm"]);
    bench.log(&["cover/press-in", "bore_after_pressing=17.990 ± 0.004 mm"]);
    bench.log(&["shaft/turn", "diameter_after=17.80 ± 0.004 mm"]);
    bench.log(&["shaft in cover/fit-up", "clearance=0.190 ± 0.010 mm"]);
    bench.log(&["--withdraws", "L3"]);
    bench.log(&["cover/bore-hole", "diameter_after=25.020 ± 0.002 mm", "corrects=1"]);
    for page in [bench.said(&["plan", "job.yaml"]), bench.said(&["plan", "job.yaml", "--since", "L0"])] {
        let clearance = of(&page, "fit-up/clearance: ");
        assert!(clearance.contains("fails (L4)") && !clearance.contains("L6"), "{clearance}\n{page}");
    }
    // Since the line that did it nothing of that changed.
    let since = bench.said(&["plan", "job.yaml", "--since", "L4"]);
    assert!(!of(&since, "fit-up/clearance: ").contains("fails"), "{since}");
}

/// What stands in the place of a slip is held against what the sheet asked for before the slip was written, not against what follows from it.
#[test]
fn a_right_correction_is_not_called_wrong() {
    let bench = Bench::of(BORE);
    let told = |size: &str, more: &[&str]| bench.log(&[&["pump barrel/bore", size], more].concat());
    told("piston=42.420 ± 0.004 mm", &[]);
    let right = told("piston=46.420 ± 0.004 mm", &["--corrects", "L1"]);
    assert!(!right.contains("outside what the sheet asked"), "{right}");
    let wrong = told("piston=46.300 ± 0.004 mm", &["--corrects", "L2"]);
    assert!(
        wrong.contains("outside what the sheet asked") || wrong.contains("DOUBTFUL") || wrong.contains("fails"),
        "{wrong}"
    );
}

/// A line is judged also where the work failed before it: what it does not better it is told of.
#[test]
fn a_slip_is_told_also_where_the_work_fails_already() {
    let bench = Bench::of(SHIM);
    let first = bench.log(&["idler shaft/shim", "float_left=0.50 ± 0.01 mm"]);
    assert!(first.contains("fails") || first.contains("NOT FINISHED"), "{first}");
    let slip = bench.log(&["idler shaft/shim", "pack_thickness=16.0 mm"]);
    assert!(slip.contains("pack_thickness=\"SIZE\"") || slip.contains("fails"), "{slip}");
}

/// What the first half of a pair does to the second is laid to the line of the first, though the second has a line of its own behind it.
#[test]
fn a_later_line_of_its_own_is_not_blamed_for_what_another_did() {
    let bench = Bench::of(&crate::cut_elsewhere::PAIR.replace("job: Pair", "job: Pair\nshop: shop.yaml"));
    bench.log(&["half A/skim", "length_after=7.40 ± 0.004 mm"]);
    bench.log(&["half B/skim", "length_after=7.78 ± 0.004 mm"]);
    let page = bench.said(&["plan", "job.yaml"]);
    let both = of(&page, "half B/skim/both-halves: ");
    assert!(both.contains("fails (L1)"), "{both}\n{page}");
}
