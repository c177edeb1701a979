//! What a newcomer types and is told: lines that answer several questions, words of the trade for topics and choices, and what a
//! program gets of a slip.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common::{SHOP, piped, shop, state, try_plan};
use serde_json::Value;
use setover::plan::Planned;
use setover::proof::{Outcome, Verdict};
use std::path::Path;

fn talk(folder: &Path, words: &[&str], answers: &str) -> (String, Option<i32>) {
    let output = piped(folder, words, answers);
    let said = String::from_utf8_lossy(&output.stdout).into_owned() + &String::from_utf8_lossy(&output.stderr);
    (said, output.status.code())
}

fn flat(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

fn said(words: &[&str]) -> String {
    flat(&talk(Path::new(env!("CARGO_MANIFEST_DIR")), words, "").0)
}

const ALONE: &str = "back shed\nmetric\nA4\n38 62 100 rev/min\n0.75 kW\n0.06 0.10 mm/rev\n0.03 0.05 mm/rev\n0.02 mm\n2 mm\n0.02 mm\n4 mm\ndiameter\n0.1 mm\n20 mm\n230 mm\n1.0 mm\n160 mm\n1800 rev/min\n25 kN\nnone\nHSS\n0.4 mm\n12 mm\n60 mm\nHSS\n0.2 mm\n2 mm\nHSS\n15 mm\nnone\nnone\nnone\n1 mm\n13 mm\n0.1 mm\nnone\nnone\n0 mm to 25 mm\n0.005 mm\nnone\nnone\nnone\n0.8 mm\n0.006 mm\n0.002 mm\n";
const IN_LINES: &str = "back shed\nmetric, A4\n38 62 100 rev/min\n0.75 kW, 230 mm, 1.0 mm\n0.06 0.10 mm/rev\n0.03 0.05 mm/rev\n0.02 mm, 2 mm\n0.02 mm, 4 mm, diameter\n0.1 mm, 20 mm\n160 mm, 1800 rev/min, 25 kN\nnone\nHSS, 0.4 mm\n12 mm, 60 mm, HSS, 0.2 mm\n2 mm, HSS, 15 mm\nnone\nnone\nnone\n1 mm, 13 mm, 0.1 mm\nnone\nnone\n0 mm to 25 mm, 0.005 mm\nnone\nnone\nnone\n0.8 mm, 0.006 mm, 0.002 mm\n";

/// A machine or a tool is told in one line as well as bit by bit: the shop is the same, and half as much is asked.
#[test]
fn a_shop_may_be_told_a_line_a_thing() {
    let made = |answers: &str| {
        let folder = tempfile::tempdir().unwrap();
        let (text, code) = talk(folder.path(), &["start", "."], answers);
        assert_eq!(code, Some(0), "{text}");
        (std::fs::read_to_string(folder.path().join("shop.yaml")).unwrap(), text.matches("\n> ").count())
    };
    let ((alone, many), (lines, few)) = (made(ALONE), made(IN_LINES));
    assert_eq!(alone, lines);
    assert_eq!((many, few), (ALONE.lines().count(), IN_LINES.lines().count()), "each answer was asked for");
    assert!(few <= 25 && many > 40, "{few} {many}");
    // What is passed over in a line is not asked again, more than was asked is told, and a slip asks for the whole line.
    let folder = tempfile::tempdir().unwrap();
    let answers = "\n\n38 62 rev/min\n-, 230 mm\nstop\n";
    let (text, _) = talk(folder.path(), &["start", "."], answers);
    let shop = std::fs::read_to_string(folder.path().join("shop.yaml")).unwrap();
    assert!(shop.contains("swing: 230 mm") && shop.contains("# power:"), "{shop}");
    assert_eq!(text.matches("How strong is its motor").count(), 1, "{text}");
    let folder = tempfile::tempdir().unwrap();
    let answers = "\n\n38 62 rev/min\n1 kW, 230 mm, 1 mm, 7 mm\n1 kW, 230\n1 kW, 230 mm\nstop\n";
    let (text, _) = talk(folder.path(), &["start", "."], answers);
    assert!(flat(&text).contains("No more stands in that line than this: power"), "{text}");
    assert!(flat(&text).contains("A length needs its unit"), "{text}");
    let shop = std::fs::read_to_string(folder.path().join("shop.yaml")).unwrap();
    assert!(shop.contains("power: 1 kW") && shop.contains("swing: 230 mm"), "{shop}");
}

/// Where everything is skipped, no more than twelve questions are asked.
#[test]
fn who_skips_all_is_asked_little() {
    let folder = tempfile::tempdir().unwrap();
    let (text, code) = talk(folder.path(), &["start", "."], &"\n".repeat(40));
    assert_eq!(code, Some(0), "{text}");
    assert!(text.matches("\n> ").count() <= 12, "{text}");
}

/// The metal is asked for once where all hangs on it, and a hardness is one that this metal has.
#[test]
fn ask_knows_what_it_must_and_what_fits() {
    let folder = tempfile::tempdir().unwrap();
    let (text, _) = talk(folder.path(), &["ask", "turn"], "bar\nGG25\n\n24.6 ± 0.02 mm\nstop\n");
    let text = flat(&text);
    assert!(text.contains("What is the part made of?") && text.contains("skipped, it is asked again"), "{text}");
    assert!(!text.contains("58 HRC"), "{text}");
    assert!(text.contains("the book has 180 to 220 HB") || text.contains("HB; the book has"), "{text}");
    assert!(!text.contains(" .. "), "{text}");
    let (text, _) = talk(folder.path(), &["ask", "drill"], "bar\nGG25\n\n8 mm\n40 ± 0.3 mm\n15 mm\n\n\n\n\n\n\n\n\n");
    assert!(flat(&text).contains("What is it held in? (hold.in)"), "{text}");
}

/// Beside each question stands the range of what it asks for: the type's, and where nought is no such size that too.
#[test]
fn ask_says_the_range_of_each_answer() {
    let folder = tempfile::tempdir().unwrap();
    let answers = "bar\nEN8\n\n24.6 ± 0.02 mm\n23.95 to 24.00 mm\n22 ± 0.2 mm\n70 ± 0.2 mm\n";
    let (text, _) = talk(folder.path(), &["ask", "turn"], answers);
    let text = flat(&text);
    for own in [
        "How long is the part over both ends (±)? [must be known; measured, more than 0, as in 70 ± 0.2 mm]",
        "What is the diameter now, and how sure are you (±)? [must be known; measured, more than 0, as in",
        "[must be known; wanted, more than 0, as in 23.95 to 24.00 mm]",
    ] {
        assert!(text.contains(own), "{own}: {text}");
    }
    let (text, _) = talk(folder.path(), &["ask", "shim"], "shaft\n\n\n");
    assert!(flat(&text).contains("wanted, of either sign, as in 0.10 to 0.30 mm"), "{text}");
    // What stands in brackets is so: nought is refused where more is wanted, and read where it may be.
    let (text, _) =
        talk(folder.path(), &["ask", "turn", "-o", "other.yaml"], &answers.replace("70 ± 0.2 mm", "0 mm\n70 ± 0.2 mm"));
    assert!(flat(&text).contains("`over-all` must be above zero"), "{text}");
    let keys: Value = serde_json::from_str(&talk(folder.path(), &["keys", "warm", "--format", "json"], "").0).unwrap();
    let range = |key: &str| keys.as_array().unwrap().iter().find(|own| own["key"] == key).unwrap()["range"].clone();
    assert_eq!((range("bore"), range("to")), ("0 or more".into(), "-273.15 degC or more".into()), "{keys}");
}

/// Words of choices are meant whatever their capitals and hyphens, of holds whatever the trade calls them.
#[test]
fn a_choice_is_known_by_its_word_however_it_is_written() {
    let job = |hold: &str, through: &str| {
        format!(
            "job: x\nparts:\n  - part: a\n    material: cast aluminium\n    operations:\n      - Drill: {{diameter: 8 mm, wall: 40 ± 0.3 mm, {through}, hold: {{in: {hold}, tested: 40 N m}}}}\n"
        )
    };
    let planned = |hold: &str, through: &str| {
        let plan = try_plan(&job(hold, through), Some(&shop(SHOP))).unwrap_or_else(|all| panic!("{hold}: {all:#?}"));
        plan.operations[0].answer.values.iter().map(|value| value.number.to_bits()).collect::<Vec<_>>()
    };
    for (typed, plain) in [
        ("Vice", "vice"),
        ("VISE", "vice"),
        ("soft jaws", "soft-jaws"),
        ("Soft_Jaws", "soft-jaws"),
        ("angle plate", "angle-plate"),
        ("3 jaw", "jaws"),
        ("three-jaw chuck", "jaws"),
        ("Four jaw", "four-jaw"),
    ] {
        assert_eq!(planned(typed, "depth: 15 mm"), planned(plain, "depth: 15 mm"), "{typed}");
    }
    for yes in ["yes", "True", "Y", "TRUE"] {
        assert_eq!(planned("vice", &format!("through: {yes}")), planned("vice", "through: true"), "{yes}");
    }
    for (hold, through, says) in
        [("chuck", "depth: 15 mm", "`chuck` is not known here"), ("vice", "through: maybe", "`yes` or `no` is wanted")]
    {
        let all = try_plan(&job(hold, through), Some(&shop(SHOP))).unwrap_err();
        assert!(all.iter().any(|problem| problem.says.contains(says)), "no `{says}`: {all:#?}");
    }
}

/// A size with its threads an inch and no series may be two threads: which was taken is said.
#[test]
fn a_thread_that_may_be_two_says_which_was_taken() {
    let job = |thread: &str| {
        format!(
            "job: x\nparts:\n  - part: a\n    material: cast aluminium\n    operations:\n      - thread-insert: {{thread: {thread}, wall: 40 ± 0.3 mm, hole: blind}}\n      - tap: {{thread: {thread}, hole: 6.6 ± 0.02 mm, depth: 12 mm, hole-depth: 20 ± 0.3 mm}}\n"
        )
    };
    let taken = |thread: &str| {
        let plan = try_plan(&job(thread), None).unwrap_or_else(|all| panic!("{all:#?}"));
        let doubted = |one: &&Planned| state(one, "series-known") == Outcome::Made(Verdict::Doubtful);
        plan.operations.iter().filter(doubted).count()
    };
    assert_eq!((taken("5/16-18"), taken("5/16-18 UNC"), taken("5/16 BSW")), (2, 0, 0));
    for of in ["thread", "insert"] {
        assert!(said(&["book", of, "5/16-18"]).contains("5/16 BSW has the same size and pitch"), "{of}");
        assert!(!said(&["book", of, "5/16-18 UNC"]).contains("no series was typed"), "{of}");
        // No Whitworth thread of that size has 28 threads an inch.
        assert!(!said(&["book", of, "1/4-28"]).contains("no series was typed"), "{of}");
    }
    assert!(said(&["book", "insert", "5/16-18 UNC"]).contains("drill of the list: Q (0.3320 in)"));
}

/// Names of the trade for what the book holds; each bare topic lists something.
#[test]
fn the_book_is_opened_by_the_words_of_the_trade() {
    for (typed, own) in [
        ("gauges", "instrument"),
        ("metals", "material"),
        ("steels", "material"),
        ("screws", "thread"),
        ("bolt", "thread"),
        ("tapping", "thread"),
        ("Tolerances", "fit"),
        ("feeds", "speed"),
        ("milling", "mill"),
    ] {
        let behind = |topic: &str| said(&["book", topic]).split_once("can be asked").unwrap().1.to_owned();
        assert_eq!(behind(typed), behind(own), "{typed}");
    }
    for (topic, names) in [
        ("fit", "solid cast bronze"),
        ("hardness", "220 HB"),
        ("drill", "letter Q 0.3320 in"),
        ("speed", "setover book materials"),
        ("turn", "setover book materials"),
        ("mill", "setover book materials"),
        ("reamer", "setover book materials"),
    ] {
        assert!(said(&["book", topic]).contains(names), "{topic}: {}", said(&["book", topic]));
    }
    assert!(said(&["book", "screws", "M8"]).contains("6.8 mm"), "{}", said(&["book", "screws", "M8"]));
    assert!(said(&["book", "xyzzy"]).contains("the book has no topic `xyzzy`"));
    assert!(said(&["keys", "lathe.dials"]).contains("division"), "{}", said(&["keys", "lathe.dials"]));
    assert!(!said(&["keys", "turn"]).contains(" .. "), "{}", said(&["keys", "turn"]));
}

/// Each slip with the word that helps.
#[test]
fn a_slip_is_told_with_what_was_meant() {
    let in_shop = |keys: &str| {
        let folder = tempfile::tempdir().unwrap();
        std::fs::write(folder.path().join("shop.yaml"), format!("shop: x\n{keys}\n")).unwrap();
        let job = "job: x\nshop: shop.yaml\nparts:\n  - part: a\n    material: EN8\n    operations: [{drill: {diameter: 8 mm, wall: 20 mm, depth: 5 mm}}]\n";
        std::fs::write(folder.path().join("job.yaml"), job).unwrap();
        flat(&talk(folder.path(), &["plan", "job.yaml"], "").0)
    };
    let lathe = |more: &str| in_shop(&format!("machines:\n  - lathe: {{name: a, spindle: 100 rev/min, {more}}}"));
    for (text, says) in [
        (lathe("dials: {axis: across, division: 0.02 mm}"), "begins with a dash, as in `- axis: …`"),
        (
            lathe("dials: [{axis: longitudinal, division: 0.02 mm}]"),
            "`longitudinal` elsewhere is `along` here on a lathe and `table-long` on a mill",
        ),
        (lathe("cross: 0.02 mm"), "what is called `cross` elsewhere is `feeds-across` here"),
        (in_shop("reamers:\n  - fixed: {name: a, size: 5/8 H7}"), "is `5/8 in H7` meant?"),
        (said(&["book", "thread", "1/4 fine"]), "may be `1/4-28 UNF` or `1/4 BSF`: write which"),
        (said(&["book", "thread", "1/4 coarse"]), "may be `1/4-20 UNC` or `1/4 BSW`: write which"),
        (said(&["book", "thread", "1/4 in BSF"]), "1/4 BSF: BSF"),
        (said(&["book", "thread", "W1/4"]), "1/4 BSW: BSW"),
        (said(&["book", "thread", "M8-6H"]), "the class of a thread is not read here: write `M8`"),
        (said(&["book", "thread", "5/16-18 UNC-2B"]), "write `5/16-18 UNC`"),
        (said(&["book", "thread", ".25-20"]), "is `1/4-20 UNC` meant?"),
        (said(&["book", "material", "A356"]), "aluminium"),
        (said(&["book", "material", "A36"]), "mild steel"),
        (said(&["book", "material", "A57"]), "no name comes near it"),
        (said(&["watch", "-"]), "`setover plan -`"),
    ] {
        assert!(text.contains(says), "no `{says}`: {text}");
    }
}

/// A program is told of an argument as an argument, and the name of a file once.
#[test]
fn a_program_gets_the_argument_that_is_wrong() {
    let json = |words: &[&str]| -> Value {
        let folder = tempfile::tempdir().unwrap();
        serde_json::from_str(&talk(folder.path(), words, "").0).unwrap()
    };
    let slip = json(&["try", "drill", "diameter=8 mm", "depth=5 mm", "wall=8", "--format", "json"]);
    let of_wall = slip["problems"].as_array().unwrap().iter().find(|one| one["argument"] == "wall=8").cloned().unwrap();
    assert!(of_wall["file"].is_null() && of_wall["line"].is_null(), "{slip}");
    assert_eq!(of_wall["column"], 6, "{slip}");
    let gone = json(&["plan", "no.yaml", "--format", "json"]);
    assert_eq!(gone["problems"][0]["says"], "there is no such file or folder", "{gone}");
}

/// In a shop of inches no name of a figure has a metric temperature, and a density is one of its own.
#[test]
fn what_a_figure_is_called_is_in_the_units_of_the_shop() {
    let plan = said(&["plan", "examples/fit-up.yaml", "--values", "--units", "inch"]);
    assert!(plan.contains("at 68 °F") && !plan.contains("20 degC"), "{plan}");
    assert!(said(&["plan", "examples/fit-up.yaml", "--values"]).contains("at 20 degC"));
    let steel = said(&["book", "material", "mild steel", "--units", "inch"]);
    assert!(steel.contains("0.28") && steel.contains("lb/in3") && !steel.contains("g/cm3"), "{steel}");
}

/// An answer goes to a file where one is named, never over what it was worked from or what somebody else wrote.
#[test]
fn an_answer_goes_to_the_file_that_is_named() {
    let folder = tempfile::tempdir().unwrap();
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    for name in ["face.yaml", "shop.yaml"] {
        std::fs::copy(root.join("examples").join(name), folder.path().join(name)).unwrap();
    }
    let run = |words: &[&str]| talk(folder.path(), words, "");
    let read = |name: &str| std::fs::read_to_string(folder.path().join(name)).unwrap();
    let shown = run(&["plan", "face.yaml"]).0;
    assert_eq!(run(&["plan", "face.yaml", "-o", "answer.txt"]).1, Some(0));
    assert_eq!(read("answer.txt"), shown);
    assert_eq!(run(&["plan", "face.yaml", "-o", "answer.txt"]).1, Some(0), "what it wrote it writes again");
    assert_eq!(run(&["plan", "face.yaml", "-o", "-"]).0, shown);
    assert_eq!(run(&["plan", "face.yaml", "--format", "json", "-o", "answer.json"]).1, Some(0));
    assert!(serde_json::from_str::<Value>(&read("answer.json")).is_ok());
    let words = ["try", "drill", "diameter=8 mm", "wall=20 ± 0.2 mm", "depth=5 mm", "part.material=EN8"];
    for (format, file) in [("text", "drill.txt"), ("svg", "drill.svg")] {
        let output = run(&[&words[..], &["--format", format, "-o", file]].concat());
        assert!(!read(file).is_empty(), "{}", output.0);
    }
    std::fs::write(folder.path().join("mine.txt"), "a letter").unwrap();
    assert_eq!(run(&["plan", "face.yaml", "-o", "mine.txt"]).1, Some(3));
    assert_eq!(read("mine.txt"), "a letter");
    let job = read("face.yaml");
    assert_eq!(run(&["plan", "face.yaml", "-o", "face.yaml", "--force"]).1, Some(3));
    assert_eq!(read("face.yaml"), job);
}

/// A job that is to lie in another folder is asked for in the shop that it will name there, and in no other.
#[test]
fn a_job_of_another_folder_is_asked_in_its_own_shop() {
    let folder = tempfile::tempdir().unwrap();
    let own = folder.path().join("own");
    std::fs::create_dir(&own).unwrap();
    std::fs::write(folder.path().join("shop.yaml"), "shop: the other\nunits: inch\n").unwrap();
    std::fs::write(own.join("shop.yaml"), SHOP).unwrap();
    let answers = "lid\ncast aluminium\n\nM8\n24.0 ± 0.3 mm\nblind\n";
    let words = ["ask", "thread-insert", "-o", "own/lid.yaml", "--shop", "own/shop.yaml"];
    let (text, code) = talk(folder.path(), &words, answers);
    assert!(code != Some(2) && !text.contains("no such file"), "{text}");
    assert!(std::fs::read_to_string(own.join("lid.yaml")).unwrap().contains("shop: shop.yaml"));
    // What was shown is what the file gives.
    let (plan, _) = talk(&own, &["plan", "lid.yaml"], "");
    let checks = plan.split("Checks").nth(1).unwrap().split("Get these first").next().unwrap();
    assert!(flat(&text).contains(&flat(checks)), "{text}: {plan}");
}

/// Who stops is asked nothing more, whichever question it was.
#[test]
fn who_stops_is_asked_no_more() {
    let folder = tempfile::tempdir().unwrap();
    for answers in ["stop\n120 mm\n", "barrel\nGG25\nstop\n120 mm\n", "barrel\nstop\nGG25\n120 mm\n"] {
        let (said, code) = talk(folder.path(), &["ask", "skim"], answers);
        let asked = said.split_once("stop` ends the questions").map_or("", |(_, then)| then).matches("> ").count();
        let before = answers.lines().position(|line| line == "stop").unwrap() + 1;
        assert_eq!((asked, code), (before, Some(2)), "{answers}: {said}");
    }
}
