//! What one operation of a job knows and the next did not read: how far a cut went, what bore stands in the part, what is still lapped off
//! it, how warm it runs. Each job here was proven as long as its operations were judged one by one.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common::{plan, plan_left, shop, with};
use setover::plan::Plan;
use setover::proof::Verdict;
use setover::quantity::Unit;

macro_rules! job {
    ($name:literal) => {
        include_str!(concat!("one_part/", $name, ".yaml"))
    };
}

/// In the shop of the examples, which has a four-jaw chuck.
fn in_shop(job: &str) -> Plan {
    plan(job, Some(&shop(include_str!("../examples/shop.yaml"))))
}

fn verdict(plan: &Plan, at: usize, id: &str) -> Option<Verdict> {
    let check = plan.operations[at].answer.checks.iter().find(|check| check.id == id);
    check.and_then(|check| check.verdict()).filter(|verdict| *verdict != Verdict::Proven)
}

/// A job, the operation that is wrong by what another one does, the check that says so, and what is changed so that it is right.
type Wrong = (&'static str, usize, &'static str, Verdict, (&'static str, &'static str));

/// What stood beside each other, each proven alone.
const WRONG: &[Wrong] = &[
    // A shim goes on from a length that is still lapped; a head joint is no length of that gap.
    (
        job!("shimmed-before-the-lap"),
        2,
        "size-still-there",
        Verdict::Doubtful,
        ("- lap:\n", "- lap:\n          set-up: {closes: room-over-piston}\n"),
    ),
    // A hard case is counted whole by each of two cuts of one face.
    (
        job!("case-cut-twice"),
        1,
        "size-there-yet",
        Verdict::Doubtful,
        ("removed-before: 0 mm\n          least-case", "removed-before: 0.31 ± 0.01 mm\n          least-case"),
    ),
    // The least length is asked of the face, and the lap goes under it.
    (
        job!("lapped-under-its-least"),
        1,
        "least-kept",
        Verdict::Doubtful,
        ("least-length: 21.50 mm", "least-length: 21.40 mm"),
    ),
    // A float that was found before the case is lapped; a joint over a piston moves no such float.
    (
        job!("float-found-before-the-lap"),
        1,
        "size-still-there",
        Verdict::Doubtful,
        ("joint: case\n", "joint: case\n          set-up: {closes: room-over-piston}\n"),
    ),
    // Both faces of a joint are lapped, and one of them alone counted on the room over the piston.
    (
        job!("both-faces-of-a-joint-lapped"),
        0,
        "size-still-there",
        Verdict::Doubtful,
        ("          joint: head\n          out-first: []", "          joint: cover\n          out-first: []"),
    ),
    (job!("lapped-at-both-ends"), 0, "size-still-there", Verdict::Doubtful, ("joint: base", "joint: case")),
    // A held bush grows into its bore by its wall, whether anybody said how thick that is or not.
    (
        job!("held-bush-without-its-wall"),
        0,
        "running",
        Verdict::Doubtful,
        ("carried-by: GG25", "carried-by: GG25\n          bush-wall: 0.5 mm"),
    ),
    // A bush is reamed to a clearance that frost takes.
    (
        job!("reamed-and-nipped-in-frost"),
        0,
        "clearance-when-cold",
        Verdict::Doubtful,
        ("coldest: -10 degC", "coldest: 15 degC"),
    ),
    // An aluminium case nips its steel shaft in frost.
    (
        job!("nipped-in-frost"),
        0,
        "frost",
        Verdict::Doubtful,
        ("{bore: 50 degC, shaft: 50 degC}", "{bore: 50 degC, shaft: 50 degC, coldest: 10 degC}"),
    ),
    (job!("nipped-in-frost"), 1, "frost", Verdict::Doubtful, ("coldest: -30 degC", "coldest: 10 degC")),
    // The liner hides the magnesium that goes into the oven with it.
    (job!("liner-in-magnesium"), 0, "oven-stop", Verdict::Fails, ("material: AZ91", "material: LM4")),
    // A tube that was taken as a bar.
    (
        job!("bored-then-turned"),
        1,
        "solid-as-taken",
        Verdict::Doubtful,
        ("outside: 19.55 .. 19.60 mm", "inside: 19.0 mm\n          outside: 22.55 .. 22.60 mm"),
    ),
    (job!("drilled-then-turned"), 1, "solid-as-taken", Verdict::Doubtful, ("", "")),
    // The blade is through before its dial says so: by what was turned off, and by what was bored out.
    (
        job!("parted-where-it-was-turned"),
        1,
        "size-still-there",
        Verdict::Doubtful,
        ("{outside: 22 mm", "{outside: 15.95 mm"),
    ),
    (
        job!("parted-as-solid-and-bored"),
        1,
        "solid-as-taken",
        Verdict::Doubtful,
        ("{outside: 22 mm", "{bore: 16.05 mm, outside: 22 mm"),
    ),
    // The joint does not know how warm its own part runs.
    (job!("hotter-than-the-joint"), 0, "joint-runs-warmer", Verdict::Doubtful, ("{bore: 170 degC", "{bore: 90 degC")),
    // A spigot is turned, and the bore through it is wider; whichever comes first, and whatever bore was typed.
    (
        job!("spigot-bored-away"),
        0,
        "wall-between",
        Verdict::Doubtful,
        (
            "present: 24.6 ± 0.02 mm\n      outside: 23.95 .. 24.00 mm",
            "present: 46.6 ± 0.02 mm\n      outside: 45.95 .. 46.00 mm",
        ),
    ),
    (
        job!("spigot-bored-away"),
        1,
        "wall-between",
        Verdict::Doubtful,
        (
            "present: 24.6 ± 0.02 mm\n      outside: 23.95 .. 24.00 mm",
            "present: 46.6 ± 0.02 mm\n      outside: 45.95 .. 46.00 mm",
        ),
    ),
    (
        job!("bored-wider-than-typed"),
        1,
        "wall-between",
        Verdict::Doubtful,
        (
            "present: 26.6 ± 0.02 mm\n      outside: 25.95 .. 26.00 mm",
            "present: 32.6 ± 0.02 mm\n      outside: 31.95 .. 32.00 mm",
        ),
    ),
    // The wall of a tube was read before its bore is opened; an edge before the bore beside it is.
    (
        job!("wall-of-a-tube-that-is-bored"),
        1,
        "size-still-there",
        Verdict::Doubtful,
        ("wall: 17.9 ± 0.2 mm", "wall: 14.9 ± 0.2 mm"),
    ),
    (
        job!("bore-opened-beside-an-insert"),
        1,
        "size-still-there",
        Verdict::Doubtful,
        ("edge: 9.0 ± 0.2 mm", "edge: 31.0 ± 0.2 mm"),
    ),
    // A size as it was found is no size to go on from, whether it is typed once or twice.
    (
        job!("milled-on-both-sides-as-found"),
        1,
        "size-still-there",
        Verdict::Doubtful,
        ("of: a/mill-face/thickness", "of: a/mill-face/thickness_after"),
    ),
    (
        job!("pressed-into-a-bore-as-found"),
        1,
        "size-still-there",
        Verdict::Doubtful,
        ("bore-hole/present", "bore-hole/diameter_after"),
    ),
    (job!("one-reading-for-two"), 1, "size-still-there", Verdict::Doubtful, ("", "")),
    (job!("boss-turned-after-pressing"), 0, "size-still-there", Verdict::Doubtful, ("", "")),
    // Two readings of one wall that do not agree.
    (
        job!("seat-and-insert-of-one-feature"),
        1,
        "size-still-there",
        Verdict::Doubtful,
        ("tang: out\n      set-up:\n        feature: stud", "tang: out\n      set-up:\n        feature: another"),
    ),
    // A face that is flat before the oven and the press is not flat behind them.
    (job!("lapped-then-pressed"), 0, "stays-flat", Verdict::Doubtful, ("", "")),
    // Capitals make no other hole.
    (job!("two-inserts-into-one-hole"), 1, "taken-twice", Verdict::Doubtful, ("feature: Stud", "feature: another")),
    // The wall about one bore is thick for one operation and thin for another.
    (
        job!("one-boss-two-outsides"),
        0,
        "one-outside",
        Verdict::Doubtful,
        ("outside: 30 ± 0.1 mm", "outside: 46 ± 0.1 mm"),
    ),
    // A cut, a blade, that meets the metal beyond the cut before it.
    (
        job!("turned-further"),
        1,
        "as-far-as-it-was-cut",
        Verdict::Fails,
        ("length: 30.0 ± 0.2 mm", "length: 20.0 ± 0.2 mm"),
    ),
    (job!("bored-further"), 1, "as-far-as-it-was-cut", Verdict::Fails, ("", "")),
    (
        job!("parted-behind-the-turn"),
        1,
        "as-far-as-it-was-cut",
        Verdict::Doubtful,
        ("outside: 16 mm", "outside: 24.6 mm"),
    ),
    // What was mapped, and how deep an insert sat, before the mill took the face away.
    (job!("mapped-before-the-mill"), 1, "size-still-there", Verdict::Doubtful, ("", "")),
    // The float that the face of the same job moves.
    (job!("float-before-the-face"), 1, "size-still-there", Verdict::Doubtful, ("", "")),
    // A base that is milled after it was found square.
    (job!("base-milled-anew"), 1, "size-still-there", Verdict::Doubtful, ("", "")),
    // A part moved over in its jaws, of which one stands far out.
    (
        job!("moved-over-in-its-jaws"),
        0,
        "jaw-reach",
        Verdict::Fails,
        ("eccentric: 22.0 ± 0.1 mm", "eccentric: 0.1 ± 0.05 mm"),
    ),
    // How far a hole lay off the middle before its outside was turned, how true a track ran before that was.
    (
        job!("off-its-middle-before-the-turn"),
        1,
        "form-still-so",
        Verdict::Doubtful,
        ("outside: {of: impeller boss/turn/diameter_after}", "outside: 64.0 ± 0.1 mm"),
    ),
    (
        job!("track-read-before-it-is-turned"),
        1,
        "form-still-so",
        Verdict::Doubtful,
        ("size: {of: pump shaft/turn/diameter_after}", "size: 24.1 ± 0.004 mm"),
    ),
    // What is lapped off a case lets its halves come together: it closes the float, whatever is typed.
    (
        job!("lapped-off-a-case-and-counted-open"),
        1,
        "link-the-right-way",
        Verdict::Fails,
        ("opens: {of: case", "closes: {of: case"),
    ),
    // Touched where it stands nearest, and measured before it is round.
    (job!("touched-off-its-middle"), 0, "measured-between", Verdict::Doubtful, ("true-to: outside", "true-to: bore")),
];

#[test]
fn what_one_operation_knows_the_next_is_judged_by() {
    let mut not_so = Vec::new();
    for (job, at, id, wanted, (from, to)) in WRONG {
        let wrong = in_shop(job);
        if verdict(&wrong, *at, id) != Some(*wanted) || wrong.operations[*at].verdict < *wanted {
            not_so.push(format!("{id} is {:?} in {job}", verdict(&wrong, *at, id)));
        }
        if !from.is_empty() && verdict(&in_shop(&with(job, from, to)), *at, id).is_some() {
            not_so.push(format!("{id} stays with {to} in {job}"));
        }
    }
    assert!(not_so.is_empty(), "{}", not_so.join("\n"));
}

/// The diameter that is measured before the last cut is what the dial has cut from where it was touched: on the near side of the axis.
#[test]
fn what_is_measured_before_the_last_cut_is_counted_from_where_it_was_touched() {
    let window = |eccentric: &str| {
        let job = with(job!("touched-off-its-middle"), "eccentric: 0.30 ± 0.02 mm", &format!("eccentric: {eccentric}"));
        let plan = in_shop(&job);
        let steps = &plan.operations[0].answer.set_ups[0].steps;
        let of_step = steps.iter().rev().find_map(|step| step.hold_point.as_ref()).expect("a hold point");
        let dial = steps.iter().filter_map(|step| step.cut.as_ref()).flat_map(|cut| &cut.passes).count();
        assert!(dial > 1);
        of_step.limits.numbers()
    };
    let (Some(low), Some(high)) = window("0.30 ± 0.02 mm") else { panic!("both ends") };
    // 0.74 on the dial from 24.20 less twice 0.30: not 24.94.
    assert!(low < 24.34 && 24.34 < high && high < 24.6, "{low} to {high}");
    let (Some(low), Some(high)) = window("0.05 ± 0.02 mm") else { panic!("both ends") };
    assert!(high - low > 0.1, "what it may lie off widens it: {low} to {high}");
}

/// A part that is moved over in its jaws sends one of them as far out again as it stands off.
#[test]
fn a_jaw_that_stands_further_out_must_clear_the_bed() {
    let swept = |eccentric: &str| {
        let job = with(job!("moved-over-in-its-jaws"), "22.0 ± 0.1 mm", eccentric);
        let plan = in_shop(&job);
        let swing = plan.operations[0].answer.checks.iter().find(|check| check.id == "swing").unwrap();
        swing.judged.expect("figures").got
    };
    assert!(swept("22.0 ± 0.1 mm") - swept("0.1 ± 0.05 mm") > 43.0);
}

/// What an operation found of a surface that it cuts itself is gone when it is done: nobody goes on from it.
#[test]
fn what_is_handed_on_as_it_was_found_is_gone() {
    let fit = |of: &str| {
        format!(
            "{}      - fit-up:\n          bore: 25.10 ± 0.004 mm\n          bore-material: LG2\n          shaft: {{of: pump shaft/turn/{of}}}\n          clearance: 0.05 .. 3 mm\n",
            job!("track-read-before-it-is-turned").split_once("      - polish-seal").unwrap().0
        )
    };
    let said = |of: &str| verdict(&in_shop(&fit(of)), 1, "size-still-there");
    assert_eq!((said("present"), said("diameter_after")), (Some(Verdict::Doubtful), None));
    let gap = |of: &str| {
        format!(
            "{}      - chain:\n          wanted: 0 .. 9 mm\n          links:\n            - {{link: off its middle, size: {{of: impeller boss/bore-hole/{of}}}}}\n            - {{link: other, size: 1.00 ± 0.01 mm}}\n",
            job!("off-its-middle-before-the-turn")
        )
    };
    let said = |of: &str| verdict(&in_shop(&gap(of)), 2, "form-still-so");
    assert_eq!((said("eccentric"), said("diameter_after")), (Some(Verdict::Doubtful), None));
}

/// Metal that was taken off is a difference: a tenth of it is no measure of what reads it. What a gap of any kind does with it is asked.
#[test]
fn metal_that_another_operation_took_is_no_size_of_the_gap() {
    let closes = with(job!("lapped-off-a-case-and-counted-open"), "opens: {of: case", "closes: {of: case");
    let left = [("removed", 0.044, Unit::Mm, 0.006), ("flat_after", 0.010, Unit::Mm, 0.006)];
    let of = |job: &str| plan_left(job, &shop(include_str!("../examples/shop.yaml")), ("case", "lap"), &left);
    let plan = of(&closes);
    assert_eq!((verdict(&plan, 1, "doubt-plausible"), plan.operations[1].verdict), (None, Verdict::Proven));
    let at = closes.find("  - part: idler shaft").unwrap();
    let chain = |by: &str| {
        let gap = format!(
            "  - part: cover\n    material: mild steel\n    operations:\n      - chain:\n          wanted: -9 .. 9 mm\n          links:\n            - {{link: lapped, {by}size: {{of: case/lap/removed}}}}\n            - {{link: gasket, size: 0.500 ± 0.010 mm}}\n"
        );
        verdict(&of(&format!("{}{gap}", &closes[..at])), 1, "link-the-right-way")
    };
    assert_eq!((chain(""), chain("by: -1, ")), (Some(Verdict::Doubtful), None));
}

/// 8.4 parted off a bar of 60: there is a piece of 8.4, and 49.6 of the bar. Nothing is 21.85 long, and nothing 58.
#[test]
fn a_length_is_that_of_a_piece() {
    let bar = include_str!("../examples/part-off.yaml");
    let of = |length: &str| {
        let face = format!(
            "      - face: {{outside: 22 mm, inside: 12 mm, length: {length}, wear: 0.12 ± 0.02 mm, finish: Ra 3.2 um, least-length: 1 mm, hold: {{in: collet, tested: 30 N·m, diameter: 22 mm, grip: 4 mm, overhang: 2 mm, true-within: 0.02 mm}}}}\n"
        );
        verdict(&in_shop(&format!("{bar}{face}")), 1, "length-of-a-piece")
    };
    assert_eq!(of("21.85 ± 0.01 mm"), Some(Verdict::Doubtful));
    assert_eq!(of("58.0 ± 0.05 mm"), Some(Verdict::Fails));
    for there in ["8.40 ± 0.02 mm", "49.6 ± 0.2 mm", "{of: spacer blank/part-off/length_parted}"] {
        assert_eq!(of(there), None, "{there}");
    }
    let on = format!(
        "{bar}      - turn: {{present: 22.0 ± 0.02 mm, outside: 20.95 .. 20.98 mm, length: 5.0 ± 0.2 mm, over-all: 60 ± 0.2 mm, inside: 12 mm, corner: 0.4 mm, hold: {{in: jaws, diameter: 22 mm, grip: 30 mm, overhang: 15 mm, true-within: 0.05 mm, stop: rod}}}}\n"
    );
    assert_eq!(verdict(&in_shop(&with(&on, "corner: 0.4 mm,", "")), 1, "length-of-a-piece"), Some(Verdict::Fails));
}

/// The same face lapped behind the press stays as it was lapped.
#[test]
fn a_face_that_is_lapped_last_stays_flat() {
    let job = job!("lapped-then-pressed");
    let (lap, press) = (job.find("  - lap:").unwrap(), job.find("  - press-in:").unwrap());
    let (head, lapped, pressed) = (&job[..lap], &job[lap..press], &job[press..]);
    let plan = in_shop(&format!("{head}{pressed}{lapped}"));
    assert_eq!(verdict(&plan, 1, "stays-flat"), None);
    assert_eq!(plan.operations[1].word, "lap");
}

/// Read on a later day than the track was turned, its groove and how true it runs are those of the turned track; of an earlier day, or of
/// none, they are gone.
#[test]
fn a_form_that_was_read_since_the_cut_is_there() {
    let folder = tempfile::tempdir().unwrap();
    let job = job!("track-read-before-it-is-turned");
    let run = |words: &[&str]| {
        let mut run = std::process::Command::new(env!("CARGO_BIN_EXE_setover"));
        let out = run.args(words).current_dir(folder.path()).output().unwrap();
        format!("{}{}", String::from_utf8_lossy(&out.stdout), String::from_utf8_lossy(&out.stderr))
    };
    std::fs::write(folder.path().join("shop.yaml"), include_str!("../examples/shop.yaml")).unwrap();
    std::fs::write(folder.path().join("job.yaml"), job).unwrap();
    run(&["log", "job.yaml", "pump shaft/turn", "diameter_after=24.960 ± 0.004 mm", "--date", "2026-11-20"]);
    let doubted = |set_up: &str, size: &str| {
        let job = with(job, "          track: 25 mm\n", &format!("{set_up}          track: 25 mm\n"));
        let job = with(&job, "{of: pump shaft/turn/diameter_after}", size);
        std::fs::write(folder.path().join("job.yaml"), job).unwrap();
        let said = run(&["plan", "job.yaml", "--operation", "polish-seal", "--all"]);
        assert!(said.contains("Polish a seal track"), "{said}");
        said.split_whitespace().collect::<Vec<_>>().join(" ").contains("cuts that surface before this")
    };
    let on = "{of: pump shaft/turn/diameter_after}";
    assert!(doubted("", on) && doubted("          set-up: {measured: 2026-11-20}\n", on));
    assert!(!doubted("          set-up: {measured: 2026-11-21}\n", on));
    // Whoever typed the size that was left read the rest with it.
    assert!(!doubted("", "24.961 ± 0.004 mm"));
}
