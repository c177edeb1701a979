//! What is typed otherwise than it is read is answered with what is read, and keys are shown as they are typed.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use std::io::Write;
use std::path::Path;
use std::process::{Command, Output, Stdio};

fn run_in(folder: &Path, words: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_setover")).args(words).current_dir(folder).output().expect("runs")
}

fn run(words: &[&str]) -> Output {
    run_in(Path::new(env!("CARGO_MANIFEST_DIR")), words)
}

fn said(output: &Output) -> String {
    String::from_utf8_lossy(&output.stdout).into_owned() + &String::from_utf8_lossy(&output.stderr)
}

/// What is said of a job that is given at standard input.
fn said_of(job: &str) -> String {
    let mut child = Command::new(env!("CARGO_BIN_EXE_setover"))
        .args(["plan", "-"])
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    let job = job.replace("shop: shop.yaml", "shop: examples/shop.yaml");
    child.stdin.take().unwrap().write_all(job.as_bytes()).unwrap();
    said(&child.wait_with_output().unwrap())
}

/// What is said of a shop in which this machine stands.
fn shop_with(machine: &str) -> String {
    let folder = tempfile::tempdir().unwrap();
    std::fs::write(folder.path().join("shop.yaml"), format!("shop: x\nmachines:\n  - {machine}\n")).unwrap();
    said(&run_in(
        folder.path(),
        &["try", "drill", "diameter=6 mm", "wall=8 ± 0.2 mm", "depth=4 mm", "--shop", "shop.yaml"],
    ))
}

/// The text between the backticks of a message that tells what to write.
fn told(says: &str) -> Vec<String> {
    says.split('`').skip(1).step_by(2).map(str::to_owned).collect()
}

#[test]
fn a_list_of_a_plate_is_answered_with_the_list_that_is_read() {
    let lathe = |spindle: &str| shop_with(&format!("lathe: {{name: l, spindle: {spindle}, power: 1 hp}}"));
    for typed in ["[35, 60, 105]", "35, 60, 105 rev/min", "\"35, 60, 105 rev/min\"", "35 60 105"] {
        let says = lathe(typed);
        assert!(says.contains("1 problem"), "{typed}: {says}");
        let suggested =
            told(&says).into_iter().find(|text| text.contains("35 60 105")).unwrap_or_else(|| panic!("{says}"));
        let suggested = suggested.strip_prefix("spindle: ").unwrap_or(&suggested);
        let read = lathe(suggested);
        assert!(!read.contains("problem"), "{typed}: {suggested}: {read}");
    }
    for typed in ["35±2 60 rpm", "35±2 rpm"] {
        assert!(lathe(typed).contains("a step is one figure"), "{typed}: {}", lathe(typed));
    }
    for typed in ["35-900 rpm", "35 .. 900 rpm", "35 to 900 rpm"] {
        let says = lathe(typed);
        assert!(
            says.contains("a range is no list of steps") && !says.contains("limits are written"),
            "{typed}: {says}"
        );
    }
    // What is wrong with one step is said of it, and nothing of the others.
    let says = lathe("[35 rpm, 60 mm]");
    assert!(says.contains("`60 mm` has no unit") && says.contains("1 problem"), "{says}");
    assert!(!says.contains("above zero"), "{says}");
}

#[test]
fn units_of_another_kind_are_told_with_what_to_write() {
    let press = |most: &str| shop_with(&format!("press: {{name: p, most: {most}}}"));
    for (typed, write) in [
        ("12000 lb", "lbf"),
        ("6 t", "kN"),
        ("6 tonne", "kN"),
        ("6000 kgf", "kN"),
        ("600 kg", "kN"),
        ("20 bar", "kN"),
        ("300 psi", "lbf"),
    ] {
        let says = press(typed);
        assert!(told(&says).contains(&write.to_owned()), "{typed}: {says}");
        assert!(!press(&format!("5 {write}")).contains("problem"), "{write}");
    }
    let job = |torque: &str| {
        said_of(
            &include_str!("../examples/skim.yaml").replace("stop: step}", &format!("stop: step, tested: {torque}}}")),
        )
    };
    for (typed, write) in [
        ("16 lb-ft", "lbf·ft"),
        ("16 ft lb", "lbf·ft"),
        ("16 ft-lbf", "lbf·ft"),
        ("200 in-lb", "lbf·in"),
        ("2 kgf·m", "N·m"),
    ] {
        let says = job(typed);
        assert!(told(&says).contains(&write.to_owned()), "{typed}: {says}");
        assert!(!job(&format!("16 {write}")).contains("problem"), "{write}");
    }
}

#[test]
fn no_suggestion_is_refused_in_its_turn() {
    let turn = |finish: &str| said_of(&include_str!("../examples/turn.yaml").replace("Ra 3.2 um", finish));
    for (typed, says) in [
        ("63 rms", "only Ra is read here"),
        ("RMS 63", "only Ra is read here"),
        ("smooth", "a roughness is a figure"),
        ("63", "needs its unit, as in `Ra 63 um` or `Ra 63 uin`"),
        ("0.8 um", "write the parameter before the figure: `Ra 0.8 um`"),
        ("6 parsecs", "has no unit that a roughness can have"),
    ] {
        let found = turn(&format!("\"{typed}\""));
        assert!(found.contains(says), "{typed}: {found}");
        for suggested in told(&found).into_iter().filter(|text| text.starts_with("Ra ")) {
            assert!(!turn(&suggested).contains("problem"), "{typed}: {suggested}");
        }
    }
    for (typed, right) in [("M8 x 1.25 LH", "M8 x 1.25"), ("1/4 BSF left hand", "1/4 BSF"), ("M8x1-LH", "M8x1")] {
        let insert = |thread: &str| {
            let job = include_str!("../examples/thread-insert.yaml");
            said_of(&job.replace("thread: M8x1.25 ", &format!("thread: \"{thread}\" ")))
        };
        let says = insert(typed);
        assert!(says.contains("left-hand threads are not worked here") && !says.contains("did you mean"), "{says}");
        assert!(
            told(&says).contains(&right.to_owned()) && !insert(right).contains("1 problem"),
            "{says} {}",
            insert(right)
        );
    }
    let share = said_of(&include_str!("../examples/turn.yaml").replace("24.60 ± 0.02 mm", "24.60 mm ± 5 %"));
    assert!(share.contains("a share is not read here") && !share.contains("% mm"), "{share}");
    let letter = said_of(&include_str!("../examples/drill.yaml").replacen("diameter: ", "diameter: Q # ", 1));
    assert!(told(&letter).contains(&"letter Q".to_owned()), "{letter}");
}

/// What read a size has a place of its own, which is told wherever a size is typed with it.
#[test]
fn the_instrument_of_a_reading_is_told_where_it_goes() {
    let shim = |found: &str| {
        let job = format!(
            "job: j\nshop: examples/shop.yaml\nparts:\n  - part: pump\n    operations:\n      - shim: {{float: 0.1 to 0.2 mm, float-found: {{size: {found}, with-pack: 0 mm}}}}\n"
        );
        said_of(&job)
    };
    for typed in ["0.43 mm with lever indicator", "0.43 ± 0.01 mm with lever indicator", "0.43 mm by lever indicator"]
    {
        let says = shim(typed);
        let suggested =
            told(&says).into_iter().find(|text| text.starts_with("{size:")).unwrap_or_else(|| panic!("{says}"));
        assert!(!shim(&suggested).contains("problem"), "{typed}: {suggested}: {}", shim(&suggested));
    }
    assert!(!shim("25 by 30 mm").contains("with:"), "{}", shim("25 by 30 mm"));
    for what in ["shim", "ream-bush", "thread-insert"] {
        assert!(
            said(&run(&["keys", what])).replace('\n', " ").contains("`{size: 12.50 mm, with: depth gauge}`"),
            "{what}"
        );
    }
}

#[test]
fn keys_show_a_list_with_its_dashes_and_a_group_without() {
    let bush = said(&run(&["keys", "ream-bush"]));
    assert!(bush.contains("  oil-holes:") && bush.contains("    - diameter "), "{bush}");
    assert!(bush.contains("\n    in  ") && !bush.contains("- in "), "a hold is a group: {bush}");
    let shop = said(&run(&["keys", "shop"]));
    assert!(shop.contains("    - lathe:") && shop.contains("    - mill:"), "each machine is one of a list: {shop}");
    let bore = said(&run(&["keys", "bore"]));
    let readings: Vec<&str> =
        bore.lines().skip_while(|line| !line.starts_with("  readings:")).skip(1).take(3).collect();
    assert!(!readings.iter().any(|line| line.trim_start().starts_with("- ")), "{readings:?}");
}

#[test]
fn keys_of_a_part_of_a_file_are_shown_by_their_name() {
    for (what, holds) in [
        ("lathe", "spindle"),
        ("machines.lathe", "spindle"),
        ("machines.lath", "nothing"),
        ("shop.machines.lathe", "spindle"),
        ("inspect", "feature"),
        ("thread-insert.hold", "overhang"),
        ("ream-bush.oil-holes.oilway", "diameter"),
    ] {
        let output = run(&["keys", what]);
        let says = said(&output);
        match holds {
            "nothing" => assert_eq!(output.status.code(), Some(2), "{says}"),
            holds => assert!(output.status.success() && says.contains(holds), "{what}: {says}"),
        }
    }
    let hold = said(&run(&["keys", "hold"]));
    assert!(hold.contains("`setover keys ") && hold.contains(".hold`"), "{hold}");
    let command = told(&hold).into_iter().find(|text| text.starts_with("setover keys ")).unwrap();
    assert!(run(&command.split(' ').skip(1).collect::<Vec<_>>()).status.success(), "{command}");
}

#[test]
fn what_a_command_lacks_is_told_with_its_meaning() {
    let lacks = said(&run(&["book", "speed", "material=EN8", "tool=HSS", "work=drill"]));
    assert!(
        lacks.contains("`diameter` is missing (at the cutting edge") && lacks.contains("as in `diameter: "),
        "{lacks}"
    );
    for topic in ["speed", "speeds"] {
        assert!(said(&run(&["book", topic])).contains("`tool: HSS`"), "{topic}");
    }
    let no_key = said(&run(&["try", "drill", "--over", "12 mm to 14 mm"]));
    assert!(no_key.contains("which key?"), "{no_key}");
    let wall = ["try", "drill", "--over", "wall=12 mm to 14 mm", "--over", "wall=12 mm to 15 mm"];
    assert!(said(&run(&wall)).contains("`wall` is given twice"), "{}", said(&run(&wall)));
    let day = said(&run(&["day", "examples/face.yaml", "--from", "12:00", "--to", "10:00"]));
    assert!(day.contains("--to 10:00 is not after --from 12:00"), "{day}");
    let piston = shop_with("bench: {name: b}\ndrawers:\n  pistons:\n    - {for: x, size: 46 mm}");
    assert!(piston.contains("as in `oversize: 0.50 mm`"), "{piston}");
}

/// An address has slashes of its own: of a part with more of them it is read from its end.
#[test]
fn a_part_with_slashes_in_its_name_can_be_logged_and_asked_for() {
    let folder = tempfile::tempdir().unwrap();
    std::fs::write(folder.path().join("shop.yaml"), include_str!("../examples/shop.yaml")).unwrap();
    for name in ["collar/left", "a/b/c", "collar"] {
        let job = include_str!("../examples/face.yaml").replace("distance piece", name);
        std::fs::write(folder.path().join("job.yaml"), job).unwrap();
        let _ = std::fs::remove_file(folder.path().join("job.log.yaml"));
        let of = format!("{name}/face");
        let takes = said(&run_in(folder.path(), &["log", "job.yaml", &of]));
        assert!(takes.contains("length_after"), "{name}: {takes}");
        let log = run_in(folder.path(), &["log", "job.yaml", &of, "length_after=21.4 ± 0.01 mm"]);
        assert!(log.status.success() && said(&log).contains(&of), "{name}: {}", said(&log));
        let plan = said(&run_in(folder.path(), &["plan", "job.yaml"]));
        assert!(plan.contains("DONE by the log"), "{name}: {plan}");
    }
    let why = said(&run_in(folder.path(), &["why", "job.yaml", "collar/face/length_after"]));
    assert!(why.contains("21.4"), "{why}");
}

/// What two jobs say of one part is told with what the other says.
#[test]
fn a_part_of_two_metals_is_told_with_both() {
    let folder = tempfile::tempdir().unwrap();
    let face = include_str!("../examples/face.yaml").replace("shop: shop.yaml\n", "");
    let metal = face.lines().find(|line| line.trim_start().starts_with("material:")).unwrap().to_owned();
    std::fs::write(folder.path().join("one.yaml"), &face).unwrap();
    let other = "job: other\nparts:\n  - part: distance piece\n    material: phosphor bronze\n    operations:\n      - wash: {dirt: oil, cleaner: paraffin}\n";
    std::fs::write(folder.path().join("two.yaml"), other).unwrap();
    let says = said(&run_in(folder.path(), &["plan", "one.yaml", "two.yaml"]));
    assert!(says.contains("another job says `material: "), "{metal}: {says}");
}
