//! What the log tells of work is what the next step goes by: the pack, the face, the barrel, the decision, the day.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common::{first, plan, plan_left, shop, value, verdict, with};
use approx::assert_abs_diff_eq;
use setover::plan::{Plan, Planned};
use setover::proof::Verdict;
use setover::quantity::Unit;
use std::path::Path;
use std::process::{Command, Output};

const SHOP: &str = include_str!("../examples/shop.yaml");
const SHIM: &str = include_str!("../examples/shim.yaml");
const BORE: &str = include_str!("../examples/bore.yaml");
const LAP: &str = include_str!("../examples/lap.yaml");
const PRESS: &str = include_str!("../examples/press-in.yaml");

fn left(job: &str, of: (&str, &str), sizes: &[(&str, f64, f64)]) -> Plan {
    let sizes: Vec<_> = sizes.iter().map(|(key, size, doubt)| (*key, *size, Unit::Mm, *doubt)).collect();
    plan_left(job, &shop(SHOP), of, &sizes)
}

fn remedies(planned: &Planned, id: &str) -> String {
    let checks = planned.answer.checks.iter().filter(|check| check.id == id);
    checks.flat_map(|check| &check.remedies).map(|remedy| remedy.words.as_str()).collect::<Vec<_>>().join("; ")
}

/// A float that came out otherwise than its links foretold says itself how thick the next pack is.
#[test]
fn the_next_pack_goes_by_the_float_that_was_left() {
    let shimmed = |float: f64| {
        let it = left(SHIM, ("idler shaft", "shim"), &[("pack_thickness", 0.700, 0.004), ("float_left", float, 0.006)]);
        ["float_bare", "pack_wanted", "off_aim"].map(|key| value(first(&it), key))
    };
    let [bare, wanted, off] = shimmed(0.050);
    assert_abs_diff_eq!(bare, 0.750, epsilon = 1e-9);
    assert_abs_diff_eq!(wanted, 0.550, epsilon = 1e-9);
    assert_abs_diff_eq!(off, -0.150, epsilon = 1e-9);
    let foretold = value(first(&plan(SHIM, Some(&shop(SHOP)))), "pack_wanted");
    assert_abs_diff_eq!(shimmed(0.190)[1], foretold, epsilon = 1e-9);
}

/// What was cut through its case is another piece when the gap is closed: its size is nothing to go on from, however well it was read.
#[test]
fn a_piece_that_fails_as_it_was_left_is_in_no_gap() {
    const CHAIN: &str = "      - chain: {of: gear end clearance, wanted: 0.2 .. 2.0 mm, links: [{link: case depth, size: 22.30 ± 0.01 mm}, {link: piece, by: -1, size: {of: distance piece/face/length_after}}]}\n";
    let job = format!("{}{CHAIN}", include_str!("../examples/face.yaml"));
    let goes_on = |length: f64| {
        let it = left(&job, ("distance piece", "face"), &[("length_after", length, 0.005)]);
        let fails = it.operations[0].verdict == Verdict::Fails;
        let checks = &it.operations[1].answer.checks;
        let said =
            checks.iter().find(|check| check.id == "goes-on-from-what-is-sure").and_then(|check| check.verdict());
        (fails, said)
    };
    assert_eq!(goes_on(21.57), (false, None));
    assert_eq!(goes_on(21.00), (true, Some(Verdict::Doubtful)));
}

/// What is bought does: a thickness is rounded down only where that still gives the float.
#[test]
fn no_pack_is_ordered_that_would_not_do() {
    let to_order = |float: &str, round: &str| {
        let job = with(&with(SHIM, "0.10 .. 0.30 mm", float), "down to 0.05 mm", round);
        let it = plan(&job, Some(&shop(SHOP)));
        (value(first(&it), "pack_to_order"), value(first(&it), "pack_wanted"))
    };
    let (size, wanted) = to_order("0.16 .. 0.22 mm", "down to 0.10 mm");
    assert_abs_diff_eq!(size, wanted, epsilon = 1e-9);
    let (size, wanted) = to_order("0.10 .. 0.30 mm", "down to 0.05 mm");
    assert!(size < wanted && wanted - size < 0.05, "{size} {wanted}");
}

/// Lapped and not mapped since, nothing goes on the plate again; out of flat still, it is lapped on as long as there is room.
#[test]
fn a_face_that_was_lapped_is_mapped_before_it_is_lapped_again() {
    let barrel = |sizes: &[(&str, f64, f64)]| left(LAP, ("barrel", "lap"), sizes).operations[1].clone();
    let lapped = barrel(&[("removed", 0.089, 0.006)]);
    assert_eq!(verdict(&lapped, "flat-after"), Verdict::Doubtful);
    assert!(remedies(&lapped, "flat-after").contains("map it"), "{}", remedies(&lapped, "flat-after"));
    let half = barrel(&[("removed", 0.040, 0.006), ("flat_after", 0.045, 0.006)]);
    assert_eq!((verdict(&half, "flat-after"), half.answer.is_unfinished()), (Verdict::Doubtful, true));
    let gone = barrel(&[("removed", 0.089, 0.006), ("flat_after", 0.045, 0.006)]);
    assert_eq!(verdict(&gone, "flat-after"), Verdict::Fails);
    assert_eq!(
        verdict(&barrel(&[("removed", 0.080, 0.003), ("flat_after", 0.010, 0.003)]), "flat-after"),
        Verdict::Proven
    );
}

/// A bore that is still to be honed is no bore for a fit.
#[test]
fn a_bore_before_its_hone_is_handed_on_to_nobody() {
    let fit = "  - part: piston\n    material: LM13\n    operations:\n      - fit-up:\n          bore: {of: pump barrel/bore/bored_size}\n          bore-material: GG25\n          shaft: 46.420 ± 0.004 mm\n          clearance: 0.015 .. 0.100 mm\n";
    let fitted = |job: &str, sizes: &[(&str, f64, f64)]| {
        let plan = left(job, ("pump barrel", "bore"), sizes);
        let checks = &plan.operations[1].answer.checks;
        checks.iter().find(|check| check.id == "size-still-there").and_then(|check| check.verdict())
    };
    let bored = format!("{BORE}{fit}");
    assert_eq!(fitted(&bored, &[("bored_size", 46.450, 0.004)]), Some(Verdict::Doubtful));
    let honed = with(&bored, "bore/bored_size", "bore/finish_bore");
    assert_eq!(fitted(&honed, &[("bored_size", 46.450, 0.004), ("finish_bore", 46.500, 0.004)]), None);
}

/// Trued more loosely a base face stands no squarer.
#[test]
fn a_base_face_is_no_squarer_for_being_trued_loosely() {
    let of = |off: &str, within: &str| {
        let job = with(&with(BORE, "base-square: 0.010 ± 0.003", off), "true-within: 0.02", within);
        verdict(first(&plan(&job, Some(&shop(SHOP)))), "base-square")
    };
    let mut last = Verdict::Proven;
    for within in ["0.01", "0.02", "0.03", "0.04", "0.05"] {
        let verdict = of("base-square: 0.004 ± 0.002", &format!("true-within: {within}"));
        assert!(verdict >= last, "{within}");
        last = verdict;
        assert_ne!(of("base-square: 0.030 ± 0.006", &format!("true-within: {within}")), Verdict::Proven, "{within}");
    }
    assert_eq!(of("base-square: 0.010 ± 0.003", "true-within: 0.02"), Verdict::Proven);
}

/// What was not bored far enough is bored on: no stone takes the rest, and the sheet of the hone is none to hone by.
#[test]
fn a_barrel_that_was_bored_short_is_bored_on() {
    let at = |size: f64| {
        let plan = left(BORE, ("pump barrel", "bore"), &[("bored_size", size, 0.004)]);
        let answer = &first(&plan).answer;
        let all: Vec<Verdict> = (0..answer.set_ups.len()).map(|at| answer.verdict_of_set_up(at)).collect();
        (answer.is_unfinished(), all, remedies(first(&plan), "hone-left"))
    };
    let (unfinished, _, told) = at(46.450);
    assert!(!unfinished && told.is_empty(), "{told}");
    for short in [46.20, 46.00] {
        let (unfinished, all, told) = at(short);
        assert!(unfinished && all.iter().all(|verdict| *verdict != Verdict::Proven), "{short}: {all:?}");
        assert!(told.contains("bore on"), "{told}");
    }
}

/// A folder with a shop and some files.
fn folder(files: &[(&str, &str)]) -> tempfile::TempDir {
    let folder = tempfile::tempdir().expect("folder");
    for (name, text) in [("shop.yaml", SHOP)].iter().chain(files) {
        std::fs::write(folder.path().join(name), text).expect("a file");
    }
    folder
}

fn run(folder: &Path, words: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_setover")).args(words).current_dir(folder).output().expect("runs")
}

fn said(folder: &Path, words: &[&str]) -> String {
    let output = run(folder, words);
    String::from_utf8_lossy(&output.stdout).into_owned() + &String::from_utf8_lossy(&output.stderr)
}

/// A ± that nothing in the shop reads so finely is no surer in the log than in the job.
#[test]
fn a_doubt_that_nothing_reads_is_in_doubt_in_the_log_too() {
    let state = |size: &str| {
        let folder = folder(&[("job.yaml", BORE)]);
        said(folder.path(), &["log", "job.yaml", "pump barrel/bore", &format!("finish_bore={size}")]);
        let plan: serde_json::Value =
            serde_json::from_str(&said(folder.path(), &["plan", "job.yaml", "--format", "json"])).expect("JSON");
        let checks = plan["operations"][0]["checks"].as_array().expect("checks").clone();
        let check = checks.into_iter().find(|check| check["check"] == "doubt-plausible").expect("it");
        check["state"].as_str().expect("a state").to_owned()
    };
    assert_eq!((state("46.500 ± 0.008 mm").as_str(), state("46.500 ± 0.0001 mm").as_str()), ("proven", "doubtful"));
}

/// A wall that the bore of the job takes under its limit is not reused; a bore that was made since it was read is measured again.
#[test]
fn what_the_job_takes_is_not_decided_to_be_reused() {
    let inspect = |feature: &str| {
        format!(
            "job: as it came\nshop: shop.yaml\nparts:\n  - part: pump barrel\n    inspect:\n      - {{{feature}}}\n"
        )
    };
    let wall = inspect("feature: thinnest wall, found: 4.95 ± 0.06 mm, service: at least 4.80 mm");
    let worn = inspect("feature: cylinder bore, found: {of: pump barrel/bore/bore_worst}, service: at most 46.05 mm");
    let folder = folder(&[("job.yaml", BORE), ("wall.yaml", &wall), ("worn.yaml", &worn)]);
    let decided = said(folder.path(), &["decide", "wall.yaml", "job.yaml"]);
    assert!(decided.contains("bore leaves it outside") && !decided.contains("thinnest wall: reuse"), "{decided}");
    let before = said(folder.path(), &["decide", "worn.yaml", "job.yaml"]);
    assert!(before.contains("cylinder bore: bore") && !before.contains("nobody has measured"), "{before}");
    said(folder.path(), &["log", "job.yaml", "pump barrel/bore", "finish_bore=46.500 mm", "with=bore gauge"]);
    let after = said(folder.path(), &["decide", "worn.yaml", "job.yaml"]);
    assert!(after.contains("read before pump barrel/bore was done") && !after.contains("order: piston"), "{after}");
}

/// An entry that was written and taken back again changed nothing.
#[test]
fn an_entry_that_was_taken_back_is_the_cause_of_nothing() {
    let folder = folder(&[("job.yaml", SHIM)]);
    let log = |words: &[&str]| said(folder.path(), &[&["log", "job.yaml"], words].concat());
    log(&["idler shaft/shim", "pack_thickness=0.700 mm", "with=micrometer"]);
    log(&["idler shaft/shim", "float_left=0.190 mm", "with=lever indicator"]);
    log(&["--withdraws", "L2"]);
    let since = said(folder.path(), &["plan", "job.yaml", "--since", "L0"]);
    assert!(since.contains("(L1)") && !since.contains("(L3)") && !since.contains("(L2)"), "{since}");
}

/// What the log says is over is not handed out again, whatever came of it.
#[test]
fn a_set_up_that_is_over_is_not_in_the_day_again() {
    let folder = folder(&[("job.yaml", PRESS)]);
    said(
        folder.path(),
        &["log", "job.yaml", "pump cover/press-in", "bore_after_pressing=18.012 mm", "with=bore gauge"],
    );
    let told = said(folder.path(), &["day", "job.yaml"]);
    assert!(
        !told.lines().any(|line| line.contains("1.1") && line.contains("Measure and dress") && line.contains("–")),
        "{told}"
    );
}

/// What the log has by a gauge that cannot have read it, or with a ± that nothing reads, is nothing to go on from; the first is not
/// even written.
#[test]
fn a_reading_that_cannot_be_is_not_handed_on() {
    const BORED: &str = include_str!("one_part/pressed-into-a-bore-as-found.yaml");
    let job = with(BORED, "bore-hole/present", "bore-hole/diameter_after").replacen("job:", "shop: shop.yaml\njob:", 1);
    let of = |size: &str| {
        let folder = folder(&[("job.yaml", &job)]);
        said(folder.path(), &["log", "job.yaml", "pump cover/bore-hole", &format!("diameter_after={size}")]);
        let plan: serde_json::Value =
            serde_json::from_str(&said(folder.path(), &["plan", "job.yaml", "--format", "json"])).expect("JSON");
        let checks = plan["operations"][1]["checks"].as_array().expect("checks").clone();
        checks.into_iter().any(|check| check["check"] == "read-as-it-was" && check["state"] == "doubtful")
    };
    assert_eq!((of("24.510 ± 0.008 mm"), of("24.510 ± 0.0001 mm")), (false, true));
    let folder = folder(&[("job.yaml", &job)]);
    let log = |with: &str| {
        let told = run(folder.path(), &["log", "job.yaml", "pump cover/bore-hole", "diameter_after=24.510 mm", with]);
        (told.status.code(), String::from_utf8_lossy(&told.stderr).into_owned())
    };
    let (code, told) = log("with=micrometer");
    assert!(code == Some(2) && told.contains("by its kind"), "{code:?} {told}");
    assert_eq!(log("with=bore gauge").0, Some(0));
}

/// What was pressed in drops out of a part that is warmed once more.
#[test]
fn an_oven_whose_joint_is_in_is_wanted_no_more() {
    const WARMED: &str = "shop: shop.yaml\njob: Warm\nparts:\n  - part: cover\n    material: cast aluminium\n    operations:\n      - warm: {bore: 24 mm, outside: 46 mm, length: 20 mm, interference: 0.022 mm, near: [nothing], temper: as-cast}\n      - press-in: {housing: {bore: 24.010 ± 0.004 mm, outside: 46 mm, length: 20 mm, finish: Ra 0.8 um}, bush: {outside: 24.036 ± 0.004 mm, bore: 18.000 ± 0.004 mm, length: 20 mm, material: phosphor bronze}, opened-by: 0.045 mm, stands: flush, support: {inside: 30 mm, under: boss}}\n";
    let folder = folder(&[("job.yaml", WARMED)]);
    let is_doubted = || {
        let plan: serde_json::Value =
            serde_json::from_str(&said(folder.path(), &["plan", "job.yaml", "--format", "json"])).expect("JSON");
        let checks = plan["operations"][0]["checks"].as_array().expect("checks").clone();
        checks.into_iter().any(|check| check["check"] == "wanted-warm-still" && check["state"] == "doubtful")
    };
    assert!(!is_doubted());
    let told = said(folder.path(), &["log", "job.yaml", "cover/press-in", "bore_after_pressing=17.985 mm"]);
    assert!(is_doubted(), "{told}");
}

/// A face that was milled short, a seat that was cut short, are cut on: nothing is spoilt by metal that stands.
#[test]
fn what_was_cut_short_is_cut_on() {
    for (job, word, key, short, done) in [
        (include_str!("../examples/mill-face.yaml"), "mill-face", "thickness_after", 17.9, 17.2),
        (include_str!("../examples/spot-face.yaml"), "spot-face", "seat_depth", 0.5, 2.0),
    ] {
        let at = |size: f64| {
            let plan = left(job, ("pump cover", word), &[(key, size, 0.02)]);
            let it = first(&plan);
            (it.answer.is_unfinished(), it.verdict, remedies(it, "cleans-up"))
        };
        let (unfinished, verdict, told) = at(short);
        assert!(unfinished && verdict == Verdict::Doubtful && told.contains("still stand"), "{word}: {told}");
        let (unfinished, _, told) = at(done);
        assert!(!unfinished && told.is_empty(), "{word}: {told}");
    }
}

/// A correction that is wrong as well is told as the first slip was.
#[test]
fn a_correction_that_fails_too_is_told() {
    const FACED: &str = include_str!("../examples/face.yaml");
    let folder = folder(&[("job.yaml", FACED), ("shop.yaml", include_str!("../examples/shop.yaml"))]);
    let logged = |size: &str, more: &[&str]| {
        let size = format!("length_after={size} mm");
        let words = [&["log", "job.yaml", "distance piece/face", size.as_str(), "with=micrometer"], more].concat();
        said(folder.path(), &words)
    };
    let first = logged("21.00", &[]);
    assert!(first.contains("fails"), "{first}");
    let second = logged("21.10", &["--corrects", "L1"]);
    assert!(second.contains("By L2 distance piece/face fails"), "{second}");
    let unfinished = logged("21.80", &["--corrects", "L2"]);
    assert!(unfinished.contains("NOT FINISHED"), "{unfinished}");
    let still = logged("21.82", &["--corrects", "L3"]);
    assert!(still.contains("By L4 distance piece/face is NOT FINISHED"), "{still}");
}

/// What changed by a size that another operation left is put to the line that left it, not to the last line of its own operation.
#[test]
fn a_change_names_the_line_that_its_figure_comes_from() {
    const CHAIN: &str = "job: c\nshop: shop.yaml\nparts:\n  - part: collar\n    material: mild steel\n    operations:\n      - mill-face: {width: 36 mm, length: 110 mm, thickness: 18.00 ± 0.02 mm, removed: 0.8 mm, cutter: 50 mm}\n      - shim: {float: 0.05 .. 0.15 mm, chain: [{link: case, opens: 18.00 ± 0.005 mm}, {link: collar, closes: {of: collar/mill-face/thickness_after}}]}\n";
    let folder = folder(&[("job.yaml", CHAIN), ("shop.yaml", include_str!("../examples/shop.yaml"))]);
    said(folder.path(), &["log", "job.yaml", "collar/mill-face", "thickness_after=17.21 ± 0.005 mm"]);
    said(folder.path(), &["log", "job.yaml", "collar/shim", "float_left=0.10 ± 0.01 mm"]);
    let since = said(folder.path(), &["plan", "job.yaml", "--since", "L0"]);
    let of = |key: &str| since.lines().skip_while(|line| !line.contains(key)).take(2).collect::<String>();
    assert!(of("collar/shim/float_bare").contains("(L1)"), "{since}");
    assert!(of("collar/shim/float_left").contains("(L2)"), "{since}");
}
