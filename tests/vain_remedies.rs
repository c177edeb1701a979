//! What a sheet advises is not what was done already, and what it tells to dial on can be dialled.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use std::io::Write;
use std::path::Path;
use std::process::{Command, Output, Stdio};

const SHOP: &str = include_str!("../examples/shop.yaml");

fn said(output: &Output) -> String {
    let all = String::from_utf8_lossy(&output.stdout).into_owned() + &String::from_utf8_lossy(&output.stderr);
    all.split_whitespace().collect::<Vec<_>>().join(" ")
}

fn run(folder: &Path, words: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_setover")).args(words).current_dir(folder).output().expect("runs")
}

/// The plan of a job in a shop, with all that it says.
fn plan(job: &str, shop: &str) -> String {
    let folder = tempfile::tempdir().unwrap();
    std::fs::write(folder.path().join("job.yaml"), job).unwrap();
    std::fs::write(folder.path().join("shop.yaml"), shop).unwrap();
    said(&run(folder.path(), &["plan", "job.yaml", "--all"]))
}

/// The float was read itself: what is left to do is to read it better. A pack measured as one is told where it does.
#[test]
fn a_float_that_was_read_itself_is_read_with_a_finer_gauge() {
    let shim = |doubt: &str, float: &str| {
        let job = format!(
            "job: j\nshop: shop.yaml\nparts:\n  - part: pump\n    operations:\n      - shim: {{float: {float}, float-found: {{size: 0.43 ± {doubt}, with-pack: 0 mm}}}}\n"
        );
        plan(&job, SHOP)
    };
    let in_doubt = shim("0.05 mm", "0.08 to 0.15 mm");
    assert!(in_doubt.contains("read the float again with a finer gauge"), "{in_doubt}");
    assert!(
        !in_doubt.contains("measure the float itself") && !in_doubt.contains("measure the pack as one"),
        "{in_doubt}"
    );
    let sure = shim("0.004 mm", "0.05 to 0.25 mm");
    assert!(!sure.contains("read the float again"), "{sure}");
}

/// What makes a bush cold was said: it is not asked for again.
#[test]
fn what_makes_a_bush_cold_is_not_asked_for_where_it_was_said() {
    let press = |cold: &str| {
        let job = include_str!("../examples/press-in.yaml");
        let at = job.find("          bush: ").unwrap();
        plan(&format!("{}          chilled-by: 0.5 mm\n{cold}{}", &job[..at], &job[at..]), SHOP)
    };
    let (said, unsaid) = (press("          chilled-in: nitrogen\n"), press(""));
    assert!(unsaid.contains("say `chilled-in` (dry-ice, nitrogen)"), "{unsaid}");
    assert!(!said.contains("say `chilled-in`") && said.contains("it is no colder than"), "{said}");
}

/// Every piston that will not do says by which of its checks.
#[test]
fn a_piston_that_fails_says_by_what() {
    let job = include_str!("../examples/bore.yaml");
    let text = plan(job, SHOP);
    assert!(!text.contains("a check of it fails"), "{text}");
    let worn = job.replace("46.090 46.060 46.020", "46.490 46.060 46.020");
    assert_ne!(worn, job);
    assert!(plan(&worn, SHOP).contains("FAILS it fails: "), "{}", plan(&worn, SHOP));
}

/// A metal that was named is not asked for.
#[test]
fn of_two_metals_the_one_that_lacks_is_asked_for() {
    let job = include_str!("../examples/bore.yaml");
    let without: String =
        job.lines().filter(|line| !line.contains("piston-metal")).map(|line| format!("{line}\n")).collect();
    let text = plan(&without, SHOP.split("  pistons:").next().unwrap());
    assert!(!text.contains("type material, piston-metal"), "{text}");
}

/// What is told to be dialled on is in the unit of the sheet: a dial that counts in another is said to, where it is set to zero. Where both
/// count alike nothing is said.
#[test]
fn a_dial_of_another_unit_says_how_it_counts() {
    let jobs = [
        include_str!("../examples/face.yaml"),
        include_str!("../examples/skim.yaml"),
        include_str!("../examples/turn.yaml"),
        include_str!("../examples/bore-hole.yaml"),
        include_str!("../examples/mill-face.yaml"),
    ];
    let metric = SHOP.to_owned();
    let pairs = [
        ("division: 0.02 mm", "division: 1 thou"),
        ("per-turn: 2 mm", "per-turn: 0.1 in"),
        ("per-turn: 4 mm", "per-turn: 0.2 in"),
    ];
    let thou = pairs.iter().fold(metric.clone(), |shop, (mm, thou)| shop.replace(mm, thou));
    assert_ne!(metric, thou);
    let imperial = |shop: &str| match shop.contains("units: metric") {
        true => shop.replace("units: metric", "units: inch"),
        false => format!("units: inch\n{shop}"),
    };
    for job in jobs {
        for (shop, says) in [
            (metric.clone(), None),
            (thou.clone(), Some("(in thou)")),
            (imperial(&metric), Some("(in mm)")),
            (imperial(&thou), None),
        ] {
            let text = plan(job, &shop);
            assert!(text.contains("dial"), "{text}");
            for told in ["(in thou)", "(in mm)"] {
                assert_eq!(text.contains(told), says == Some(told), "{told}: {text}");
            }
        }
    }
}

/// A step is taken off by whole divisions of its slide, whatever they are, as the contact is: as many as its last cut stands at.
#[test]
fn a_step_is_told_in_divisions_of_its_dial() {
    for (division, turn) in
        [("0.02 mm", ["2 mm", "4 mm"]), ("1 thou", ["0.1 in", "0.2 in"]), ("0.05 mm", ["2 mm", "4 mm"])]
    {
        let text = plan(
            include_str!("../examples/skim.yaml"),
            &SHOP
                .replace("division: 0.02 mm, per-turn: 2 mm", &format!("division: {division}, per-turn: {}", turn[0]))
                .replace("division: 0.02 mm, per-turn: 4 mm", &format!("division: {division}, per-turn: {}", turn[1])),
        );
        let told = text
            .split("Step: ")
            .nth(1)
            .and_then(|rest| rest.split(" div past").next())
            .unwrap_or_else(|| panic!("{text}"));
        let divisions = told.rsplit(' ').next().unwrap();
        assert!(text.contains("spring: top slide") && text.contains(&format!("({divisions} div)")), "{told}: {text}");
    }
}

/// The reading that alone leaves an answer in doubt is asked for; skipped, the rest goes on.
#[test]
fn a_reading_that_would_settle_a_doubt_is_asked_for() {
    let asked_of = |word: &str, answers: &str| {
        let folder = tempfile::tempdir().unwrap();
        std::fs::write(folder.path().join("shop.yaml"), SHOP).unwrap();
        let mut child = Command::new(env!("CARGO_BIN_EXE_setover"))
            .args(["ask", word, "-o", "-", "--shop", "shop.yaml"])
            .current_dir(folder.path())
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .unwrap();
        // It may end before it has read all.
        let _ = child.stdin.take().unwrap().write_all(answers.as_bytes());
        said(&child.wait_with_output().unwrap())
    };
    let asked = |answers: &str| asked_of("thread-insert", answers);
    // A float is known by how much it was found.
    let shim = asked_of("shim", "pump\n\n\n0.08 to 0.15 mm\n0.43 ± 0.008 mm\n0 mm\n\n\n\n\n");
    assert!(shim.contains("float-found: size: 0.43 ± 0.008 mm with-pack: 0 mm"), "{shim}");
    let none = asked_of("shim", "pump\n\n\n0.08 to 0.15 mm\n\n\n\n\n\n\n");
    assert!(none.contains("give `float-found` or `chain`"), "{none}");
    // What holds it, for which most waits, is asked first; its edge between: both are skipped.
    let before = "chest\ncast aluminium\n\nM8x1.25\n18.0 ± 0.3 mm\nblind\n\n8.0 ± 0.05 mm\n\n";
    let given = asked(&format!("{before}12 ± 0.2 mm\n\n\n\n\n"));
    assert!(given.contains("(present-depth) Skipped, the sheet stays doubtful: metal left"), "{given}");
    assert!(given.contains("present-hole: 8.0 ± 0.05 mm present-depth: 12 ± 0.2 mm"), "{given}");
    let skipped = asked(&format!("{before}\n\n\n\n\n\n"));
    assert!(skipped.contains("present-hole: 8.0 ± 0.05 mm") && !skipped.contains("present-depth: "), "{skipped}");
}
