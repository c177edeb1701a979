//! What a slip at the prompt is told: what was typed, what would do, and how to go on, in the words of the trade and of this program.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use std::path::Path;
use std::process::{Command, Output};

fn run(folder: &Path, words: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_setover")).current_dir(folder).args(words).output().expect("runs")
}

fn said(output: &Output) -> String {
    let all = String::from_utf8_lossy(&output.stdout).into_owned() + &String::from_utf8_lossy(&output.stderr);
    all.split_whitespace().collect::<Vec<_>>().join(" ")
}

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// A folder with a shop, which works in inches where that is said, and jobs.
fn folder(inches: bool, jobs: &[(&str, &str)]) -> tempfile::TempDir {
    let folder = tempfile::tempdir().expect("a folder");
    let shop = std::fs::read_to_string(root().join("examples/shop.yaml")).expect("the shop");
    let shop = if inches { shop.replace("units: metric", "units: inch") } else { shop };
    assert!(!inches || shop.contains("units: inch"), "{shop}");
    std::fs::write(folder.path().join("shop.yaml"), shop).expect("written");
    for (name, text) in jobs {
        std::fs::write(folder.path().join(name), text).expect("written");
    }
    folder
}

#[test]
fn what_is_no_command_of_ours_is_told_in_our_own_words() {
    for (words, says) in [
        (&["plan"][..], "JOB is missing. It goes so: setover plan JOB… `setover plan --help` has examples."),
        (&["plan", "a", "--units", "foo"], "`--units` is one of metric, inch, both, not `foo`. `setover plan --help`"),
        (&["plan", "a", "--units"], "`--units` wants one of these behind it: metric, inch, both"),
        (&["plan", "a", "--unit", "inch"], "there is no option `--unit` here; did you mean `--units`?"),
        (&["day", "a", "--date", "foo"], "`--date`: `foo` is no day such as `2026-12-01`"),
        (&["log", "a", "--withdraws", "3", "--corrects", "4"], "`--withdraws` and `--corrects` do not go together"),
        (&["schema", "jop"], "`FILE` is one of job, shop, not `jop`; did you mean `job`?"),
        (&["start", "a", "b"], "`b` is one word too many"),
        (&["sheet"], "there is no command `sheet`; did you mean `sheets`?"),
    ] {
        let output = run(root(), words);
        let text = said(&output);
        assert_eq!(output.status.code(), Some(2), "{words:?}: {text}");
        assert!(text.contains(says), "{words:?}: {text}");
        for theirs in ["error:", "possible values", "For more information", "Usage:", "invalid value"] {
            assert!(!text.contains(theirs), "{words:?}: {theirs}: {text}");
        }
    }
}

#[test]
fn a_file_that_is_none_says_what_to_do() {
    let folder = folder(false, &[("empty.yaml", "\n")]);
    let text = said(&run(folder.path(), &["plan", "empty.yaml"]));
    assert!(text.contains("the file is empty: `setover ask OPERATION` writes a job") && !text.contains('^'), "{text}");
    let text = said(&run(folder.path(), &["plan", "."]));
    assert!(text.contains("this is a folder: name a file in it"), "{text}");
}

#[test]
fn what_a_job_has_not_is_called_what_it_is() {
    let folder = folder(false, &[("face.yaml", include_str!("../../examples/face.yaml"))]);
    let text = said(&run(folder.path(), &["plan", "face.yaml", "--part", "piston"]));
    assert!(text.contains("there is no part `piston` in this job; known here: distance piece"), "{text}");
    let text = said(&run(folder.path(), &["plan", "face.yaml", "--operation", "lap"]));
    assert!(text.contains("there is no operation `lap` in this job; known here: face"), "{text}");
}

/// A size that a problem tells and nobody typed so stands in the units of the shop.
#[test]
fn a_shop_of_inches_is_told_inches_in_every_problem() {
    let turn = "job: a pin\nshop: shop.yaml\nparts:\n  - part: pin\n    material: EN8\n    operations:\n      - turn: {present: 1.0000 ± 0.0005 in, outside: 1.2 in, length: 1 in, over-all: 3.00 ± 0.01 in}\n";
    for (inches, units, says, not) in [
        (true, "inch", "smaller than it is now (1.0000 in)", "25.4"),
        (false, "metric", "(25.4 mm)", "(1.0000 in)"),
        (true, "metric", "(25.4 mm)", "(1.0000 in)"),
        (false, "both", "25.4 mm (1.0000 in)", "(1.0000 in ("),
    ] {
        let copied = folder(inches, &[("turn.yaml", turn)]);
        let text = said(&run(copied.path(), &["plan", "turn.yaml", "--units", units]));
        assert!(text.contains(says) && !text.contains(not), "{units}: {text}");
    }
    let copied = folder(true, &[("turn.yaml", turn)]);
    assert!(said(&run(copied.path(), &["plan", "turn.yaml"])).contains("(1.0000 in)"));
}

#[test]
fn a_pitch_without_its_unit_is_asked_back_as_a_pitch() {
    let text = said(&run(root(), &["book", "which-thread", "diameter=6.33 mm", "pitch=26"]));
    assert!(text.contains("`26 tpi` are threads on an inch") && !text.contains("26 in"), "{text}");
}

/// A slip of the pen is told while the gauge is still in the hand; what is no slip is told nothing of.
#[test]
fn a_line_of_the_log_by_which_something_fails_says_so_at_once() {
    let folder = folder(false, &[("ream-bush.yaml", include_str!("../../examples/ream-bush.yaml"))]);
    let log = |words: &[&str]| said(&run(folder.path(), &[&["log", "ream-bush.yaml"], words].concat()));
    let names = log(&["pump end case/ream-bush"]);
    assert!(names.contains("finish_bore"), "{names}");
    let slip = log(&["pump end case/ream-bush", "finish_bore=61.020 ± 0.004 mm"]);
    assert!(slip.starts_with("L1 ") && slip.contains("By L1 pump end case/ream-bush fails:"), "{slip}");
    assert!(slip.contains("slip of the pen?") && slip.contains("--corrects L1"), "{slip}");
    // A figure that stands there already is told how it is put right at the prompt.
    let twice = log(&["pump end case/ream-bush", "finish_bore=16.020 ± 0.004 mm"]);
    assert!(twice.contains("--corrects L1"), "{twice}");
    let right = log(&["pump end case/ream-bush", "finish_bore=16.020 ± 0.004 mm", "--corrects", "L1"]);
    assert!(right.starts_with("L2 ") && !right.contains("fails"), "{right}");
    // What is taken back leaves what was there before it.
    let back = log(&["--withdraws", "L2"]);
    assert!(back.contains("L1 counts again"), "{back}");
    let back = log(&["--withdraws", "L1"]);
    assert!(back.contains("no finish_bore counts now") && back.contains("as planned again"), "{back}");
}

/// Work that is done and in doubt is named as such, with what is in doubt.
#[test]
fn what_is_done_and_in_doubt_is_told_apart() {
    let copied = folder(false, &[]);
    for (from, to) in [("demo/shop.yaml", "shop.yaml"), ("demo/one-day/cuts.yaml", "day/cuts.yaml")] {
        let to = copied.path().join(to);
        std::fs::create_dir_all(to.parent().expect("a folder")).expect("made");
        std::fs::copy(root().join(from), to).expect("copied");
    }
    let entry = ["log", "day/cuts.yaml", "pump shaft/polish-seal", "diameter_after=24.930 mm", "with=micrometer 0-25"];
    let logged = run(copied.path(), &entry);
    assert!(logged.status.success(), "{}", said(&logged));
    let text = said(&run(copied.path(), &["plan", "day/cuts.yaml"]));
    assert!(text.contains("DONE, doubtful") && text.contains("wear gone"), "{text}");
    assert!(text.contains("; 1 done;"), "{text}");
    let since = said(&run(copied.path(), &["plan", "day/cuts.yaml", "--since", "L0"]));
    assert!(!since.contains("does-not-apply") && !since.contains("not-checked"), "{since}");
}

/// A day of one part says whole sentences of it.
#[test]
fn what_a_day_of_one_part_takes_as_done_names_the_part() {
    let text = said(&run(root(), &["day", "examples/ream-bush.yaml"]));
    assert!(text.contains("washed: pump end case") && !text.contains("of the day but"), "{text}");
}

/// An operation in an inch shop whose reamer is not there, and whose insert and tap are not.
fn inch_jobs() -> tempfile::TempDir {
    let bush = "job: a bush\nshop: shop.yaml\nparts:\n  - part: cover\n    material: cast aluminium\n    operations:\n      - ream-bush: {housing: {bore: 18.010 ± 0.004 mm, outside: 40 mm, length: 20 mm}, bush: {outside: 18.045 ± 0.004 mm, bore: 13.7 ± 0.004 mm, length: 20 mm, material: PB1}, shaft: 13.77 ± 0.003 mm, clearance: 1 to 2 thou, assemble: press, gauge: plugs}\n";
    let insert = "job: a stud\nshop: bare.yaml\nparts:\n  - part: cover\n    material: cast aluminium\n    operations:\n      - thread-insert: {hold: {in: clamps, tested: 60 N·m}, thread: M8, wall: 40.0 ± 0.3 mm, hole: blind, present-hole: none, lead: bottoming}\n";
    let copied = folder(false, &[("bush.yaml", bush), ("stud.yaml", insert)]);
    let bare = "shop: a shed\nmachines:\n  - drill-press: {name: press drill, spindle: 400 750 1250 rev/min}\ndrawers:\n  inserts: [{thread: M8, length: 1D, count: 4}]\n";
    std::fs::write(copied.path().join("bare.yaml"), bare).expect("written");
    copied
}

/// What is missing is wanted where it cuts, and not once that is done; what would do in its place is said of nothing else.
#[test]
fn what_is_missing_is_wanted_where_it_cuts() {
    let copied = inch_jobs();
    let day = |job: &str| said(&run(copied.path(), &["day", job]));
    let text = day("bush.yaml");
    let missing = text.split("Missing: buy or borrow ").nth(1).unwrap_or_else(|| panic!("{text}"));
    assert!(missing.starts_with("an expanding reamer") && missing.contains("for 1.4 at"), "{text}");
    let log = |words: &[&str]| said(&run(copied.path(), &[&["log", "bush.yaml", "cover/ream-bush"], words].concat()));
    let plan = || said(&run(copied.path(), &["plan", "bush.yaml"]));
    assert!(plan().contains("Get these first") && !plan().contains("DONE"), "{}", plan());
    log(&["bore_after_pressing=13.66 ± 0.004 mm"]);
    log(&["finish_bore=13.81 ± 0.002 mm"]);
    let done = plan();
    assert!(done.contains("DONE by the log: 1.1, 1.2, 1.3, 1.4; nothing is left to be done."), "{done}");
    assert!(!done.contains("Get these first"), "{done}");
    let text = day("bush.yaml");
    assert!(!text.contains("Missing: buy or borrow"), "{text}");
    let text = day("stud.yaml");
    let tap = text.split("Missing: buy or borrow ").nth(1).and_then(|rest| rest.split("insert M8").next());
    assert!(tap.is_some_and(|tap| !tap.contains("would do as well")), "{text}");
}

/// The entry that left the size which a check is about is its cause, not the last one of the operation; what was not asked before
/// was not proven.
#[test]
fn what_no_longer_holds_names_the_entry_of_its_own_size() {
    let copied = inch_jobs();
    let log = |words: &[&str]| said(&run(copied.path(), &[&["log", "bush.yaml", "cover/ream-bush"], words].concat()));
    log(&["finish_bore=13.90 ± 0.002 mm"]);
    log(&["bore_after_pressing=13.66 ± 0.004 mm"]);
    let plan = said(&run(copied.path(), &["plan", "bush.yaml"]));
    assert!(plan.contains("cover/ream-bush/fit-runs: does not apply → fails (L1)"), "{plan}");
    let since = said(&run(copied.path(), &["plan", "bush.yaml", "--since", "L0"]));
    assert!(since.contains("fit-runs: does not apply → fails (L1)"), "{since}");
}

/// Whether a shop was given is known: no reason says both.
#[test]
fn a_reason_says_which_of_two_it_is() {
    let copied = inch_jobs();
    let with = said(&run(copied.path(), &["plan", "bush.yaml"]));
    assert!(with.contains("no reamer of the shop will do") && !with.contains("no shop was given"), "{with}");
    let job = std::fs::read_to_string(copied.path().join("bush.yaml")).expect("read").replace("shop: shop.yaml\n", "");
    std::fs::write(copied.path().join("bush.yaml"), job).expect("written");
    let without = said(&run(copied.path(), &["plan", "bush.yaml"]));
    assert!(without.contains("no shop was given") && !without.contains("of the shop will do"), "{without}");
}

/// A key without which nothing is worked out says that, or what is given in its place.
#[test]
fn a_key_on_which_all_rests_says_so() {
    let text = said(&run(root(), &["keys", "bore"]));
    assert!(text.contains("left out, radii are given"), "{text}");
    for operation in ["lap", "warm", "chill", "bore"] {
        let text = said(&run(root(), &["keys", operation]));
        for wrong in ["not checked: opens enough", "not checked: flat, enough points", "not checked: cleans up, lobes"]
        {
            assert!(!text.contains(wrong), "{operation}: {text}");
        }
    }
}

/// A key that is missing is shown with the value that its operation's own example has, in the units of the shop.
#[test]
fn what_is_missing_is_shown_as_the_keys_show_it() {
    for (operation, says) in [
        ("drill", "as in `diameter: 8 mm`"),
        ("turn", "as in `present: 24.60 ± 0.02 mm`"),
        ("fit-up", "as in `bore: 25.012 ± 0.008 mm`"),
        ("face", "as in `length: 21.85 ± 0.01 mm`"),
    ] {
        let keys = said(&run(root(), &["keys", operation]));
        let own = says.trim_start_matches("as in ");
        assert!(keys.contains(own), "{own}: {keys}");
        let text = said(&run(root(), &["try", operation]));
        assert!(text.contains(says), "{says}: {text}");
    }
    let job = "job: x\nshop: shop.yaml\nparts:\n  - part: a\n    operations:\n      - drill: {wall: 1 in}\n";
    let copied = folder(true, &[("job.yaml", job)]);
    let text = said(&run(copied.path(), &["plan", "job.yaml"]));
    assert!(text.contains("as in `diameter: 0.31 in`"), "{text}");
}

/// A gauge that reads outside sizes alone is no bore gauge, whatever its name.
#[test]
fn a_snap_gauge_reads_no_bore_and_a_plug_no_shaft() {
    let fit = "job: x\nshop: shop.yaml\nparts:\n  - part: a\n    material: cast iron\n    operations:\n      - fit-up: {bore: {size: 25.012 mm, with: odd}, shaft: 24.985 ± 0.003 mm}\n";
    for (kind, refused) in [("snap gauge", true), ("bore gauge", false)] {
        let copied = folder(false, &[("job.yaml", fit)]);
        let shop = format!(
            "shop: x\ninstruments:\n  - {{name: odd, kind: {kind}, from: 0 mm, to: 50 mm, uncertainty: 0.004 mm}}\n"
        );
        std::fs::write(copied.path().join("shop.yaml"), shop).expect("written");
        let text = said(&run(copied.path(), &["plan", "job.yaml"]));
        assert_eq!(text.contains("cannot have read this"), refused, "{kind}: {text}");
    }
}

/// The words that are wanted most are completed, and the page for `man` has a section for every command.
#[test]
fn operations_and_topics_are_completed_and_the_manual_is_one_page() {
    for shell in ["bash", "zsh", "fish"] {
        let text = said(&run(root(), &["completions", shell]));
        assert!(text.contains("thread-insert") && text.contains("which-thread"), "{shell}");
    }
    let page = String::from_utf8_lossy(&run(root(), &["man"]).stdout).into_owned();
    for section in ["SETOVER PLAN", "SETOVER COMPLETIONS", "EXIT STATUS", "FILES", "ENVIRONMENT"] {
        assert!(page.contains(&format!(".SH {section}\n")), "{section}: {page}");
    }
    assert!(page.contains("\\-\\-since") && page.contains("setover plan demo/tidewater.yaml"), "{page}");
    // No line is a command to the typesetter that was none of the page's own.
    let own = [".SH", ".SS", ".TP", ".PP", ".nf", ".fi", ".br", ".RS", ".RE", ".IP", ".TH", ".ie", ".el"];
    for line in page.lines().filter(|line| line.starts_with('.')) {
        assert!(own.iter().any(|macro_of| line.starts_with(macro_of)), "{line}");
    }
}

/// What was measured is answered in a line a thread; the figures of each wait until they are asked for.
#[test]
fn which_thread_it_may_be_is_a_line_each() {
    let words = ["book", "which-thread", "diameter=6.33 ± 0.02 mm", "pitch=26 tpi"];
    let lines = |more: &[&str]| {
        let output = run(root(), &[&words[..], more].concat());
        String::from_utf8_lossy(&output.stdout).into_owned()
    };
    let (short, whole) = (lines(&[]), lines(&["--all"]));
    assert!(short.contains("1/4 BSF (BSF, 55 deg): agrees") && short.contains("flank angle gauge"), "{short}");
    assert!(short.lines().count() < 25 && !short.contains("distance_of_pitch"), "{short}");
    assert!(short.contains("the same with --all") && whole.contains("distance_of_pitch"), "{whole}");
}

/// A rule of thumb is told as a shop says it, and not by its name in a table.
#[test]
fn a_rule_of_thumb_is_told_as_a_shop_says_it() {
    let job = "job: x\nshop: shop.yaml\nparts:\n  - part: a\n    material: GG25\n    operations:\n      - fit-up: {bore: 25.012 ± 0.004 mm, shaft: 24.985 ± 0.003 mm}\n";
    let copied = folder(false, &[("job.yaml", job)]);
    let text = said(&run(copied.path(), &["plan", "job.yaml"]));
    assert!(text.contains("the duty general (1 thou an inch and 1 thou, or 1.5 thou an inch)"), "{text}");
    assert!(!text.contains("motor-1"), "{text}");
}

/// The slips of a first job, each told by what is to be done about it.
#[test]
fn slips_of_a_first_job_are_told_by_their_cure() {
    let job = |operation: &str| {
        format!("job: x\nshop: shop.yaml\nparts:\n  - part: a\n    material: EN8\n    operations:\n{operation}\n")
    };
    for (operation, says) in [
        (
            "      - drill:\n        diameter: 7 mm\n        wall: 18.0 mm",
            "nothing stands under `drill`: its keys stand in line with it",
        ),
        ("      - drill: {diameter 7 mm, wall: 18.0 mm}", "write `diameter: 7 mm`"),
        ("      - drill: {diameter=7 mm, wall: 18.0 mm}", "write `diameter: 7 mm`"),
        ("      - drill: diameter: 7 mm, wall: 18.0 mm", "write `drill: {diameter: 7 mm, wall: 18.0 mm}`"),
        ("      - drill: {diameter: 7 mm, wall: }", "`wall` has nothing after it: give a value"),
        (
            "      - fit-up: {bore: 20 H7, shaft: 19.98 ± 0.01 mm}",
            "`20 H7`: a tolerance class is not read here: give the figure alone",
        ),
        (
            "      - turn: {present: 24.60 ± 0.02 mm, outside: 20 h6, length: 20 mm, over-all: 60.0 ± 0.1 mm}",
            "write the limits that it stands for",
        ),
    ] {
        let copied = folder(false, &[("job.yaml", &job(operation))]);
        let text = said(&run(copied.path(), &["plan", "job.yaml"]));
        assert!(text.contains(says), "{says}: {text}");
    }
    let copied = folder(false, &[("job.yaml", &job("      - drill: {diameter: 7 mm, wall: 18.0 mm}"))]);
    let text = said(&run(copied.path(), &["plan", "job"]));
    assert!(text.contains("there is no such file or folder; did you mean `job.yaml`?"), "{text}");
}

/// What mends a check stands before what is only worth a try, and what was worked and is not enough stands last.
#[test]
fn what_mends_it_stands_first() {
    let words = [
        "try",
        "thread-insert",
        "thread=M6",
        "wall=13.5 ± 0.2 mm",
        "hole=blind",
        "length=1.5D",
        "lead=bottoming",
        "least-left=1 mm",
        "present-hole=6 mm",
        "present-depth=9 mm",
        "part.material=cast aluminium",
        "--shop",
        "examples/shop.yaml",
    ];
    let text = said(&run(root(), &words));
    let after = text.split("FAILS metal left").nth(1).unwrap_or_else(|| panic!("{text}"));
    let fails = after.split(" proven; closest").next().unwrap_or_default();
    let at = |piece: &str| fails.find(piece).unwrap_or_else(|| panic!("{piece}: {fails}"));
    assert!(at("at worst, proven") < at("take a shorter insert"), "{fails}");
    assert!(at("take a shorter insert") < at("at worst, fails"), "{fails}");
}
