//! An operation over a range of a key: each verdict turns where it is said to turn, and nowhere else.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use std::process::{Command, Output};

fn run(arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_setover"))
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .args(arguments)
        .output()
        .expect("runs")
}

const KEYS: [&str; 9] = [
    "try",
    "thread-insert",
    "thread=M8x1.25",
    "hole=blind",
    "least-left=1 mm",
    "present-hole=8 mm",
    "part.material=cast aluminium",
    "--shop",
    "examples/shop.yaml",
];

fn with(more: &[&str]) -> Output {
    run(&KEYS.iter().chain(more).copied().collect::<Vec<_>>())
}

/// The verdict of a length (or of the operation) in a wall.
fn verdict(wall: f64, name: &str) -> String {
    let output = with(&[&format!("wall={wall:.3} mm ± 0.3 mm"), "lead=bottoming", "--format", "json"]);
    let json: serde_json::Value = serde_json::from_slice(&output.stdout).expect("JSON");
    let operation = &json["operations"][0];
    let found = operation["alternatives"].as_array().unwrap().iter().find(|other| other["name"] == name);
    found.map_or(&operation["verdict"], |other| &other["verdict"]).as_str().unwrap().to_lowercase()
}

/// A turning point in inch is told to a tenth of a thou, and so is every row.
#[test]
fn no_figure_is_finer_than_a_tenth_of_a_thou() {
    let output = with(&["lead=bottoming", "wall=0.6 in", "--over", "wall=0.4 in to 0.8 in"]);
    let said = String::from_utf8(output.stdout).unwrap();
    let figures =
        said.split_whitespace().zip(said.split_whitespace().skip(1)).filter(|(_, unit)| unit.starts_with("in"));
    let decimals: Vec<usize> =
        figures.filter_map(|(figure, _)| Some(figure.split_once('.')?.1.trim_end_matches(';').len())).collect();
    assert!(decimals.len() > 5 && decimals.iter().all(|own| *own <= 4), "{decimals:?}: {said}");
}

#[test]
fn a_verdict_turns_where_it_is_said_to() {
    let output = with(&["wall=18.0 ± 0.3 mm", "lead=bottoming", "--over", "wall=12 mm to 30 mm"]);
    let text = String::from_utf8_lossy(&output.stdout).into_owned();
    let mut seen = 0;
    for line in text.lines().filter(|line| line.contains("; below it ")) {
        let (name, rest) = line.trim().split_once(": ").unwrap();
        let (better, rest) = rest.split_once(" from ").unwrap();
        let (at, worse) = rest.split_once(" mm; below it ").unwrap();
        let at: f64 = at.parse().unwrap();
        assert_eq!(verdict(at, name), better.to_lowercase(), "at {at}: {line}");
        assert_eq!(verdict(at - 0.002, name), worse.to_lowercase(), "below {at}: {line}");
        seen += 1;
    }
    assert!(seen >= 4, "{text}");
    assert!(!text.contains("up to"), "a thicker wall never makes it worse: {text}");
    assert!(
        text.contains("# proven, ~ doubtful, x fails") && text.lines().all(|line| line.chars().count() <= 100),
        "{text}"
    );
}

#[test]
fn two_keys_make_a_grid_and_what_is_no_range_is_refused() {
    let text = with(&["wall=18 ± 0.3 mm", "--over", "wall=12 mm to 30 mm", "--over", "least-left=0.5 to 3 mm"]);
    let text = String::from_utf8_lossy(&text.stdout).into_owned();
    let rows: Vec<&str> = text.lines().filter(|line| line.starts_with("  wall ") && !line.contains(':')).collect();
    assert_eq!(rows.len(), 13, "{text}");
    // Where it turns is told for each row and for the two ends, as finely as for one key.
    let turn = |piece: &str| text.lines().find(|line| line.trim_start().starts_with(piece)).map(str::trim);
    let row = turn("wall 18.00 mm: ").unwrap_or_else(|| panic!("{text}"));
    let end = turn("least-left 0.50 mm: doubtful from wall ").unwrap_or_else(|| panic!("{text}"));
    let at = |line: &str, key: &str| -> f64 {
        line.split(key).nth(1).and_then(|rest| rest.split(" mm").next()).and_then(|at| at.trim().parse().ok()).unwrap()
    };
    let of = |wall: f64, left: f64| {
        let (wall, left) = (format!("wall={wall:.3} ± 0.3 mm"), format!("least-left={left:.3} mm"));
        let others = KEYS.iter().copied().filter(|key| !key.starts_with("least-left="));
        run(&others.chain([wall.as_str(), left.as_str()]).collect::<Vec<_>>()).status.code()
    };
    let (left, wall) = (at(row, "least-left "), at(end, "from wall "));
    assert_eq!((of(18.0, left), of(18.0, left + 0.002)), (Some(0), Some(1)), "{row}");
    assert_eq!((of(wall, 0.5), of(wall - 0.002, 0.5)), (Some(0), Some(1)), "{end}");
    // A thicker wall down and a smaller rest to the left never fail where the other holds.
    let fails: Vec<usize> = rows.iter().map(|row| row.matches('x').count()).collect();
    assert!(fails.windows(2).all(|pair| pair[1] <= pair[0]), "{fails:?}");
    for bad in ["wall", "wall=12", "wall=12 mm to 10 mm", "wall=12 mm to 1 in", "wall=a to b"] {
        let output = with(&["wall=18 ± 0.3 mm", "--over", bad]);
        assert_eq!(output.status.code(), Some(2), "{bad}");
        assert!(!output.stderr.is_empty());
    }
    let output = with(&["wall=18 ± 0.3 mm", "--over", "wal=12 mm to 30 mm"]);
    assert!(String::from_utf8_lossy(&output.stderr).contains("did you mean `wall`?"));
}

#[test]
fn a_range_is_drawn_too() {
    let svg = |over: &[&str]| {
        let output = with(&[&["wall=18.0 ± 0.3 mm", "--format", "svg"], over].concat());
        assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
        String::from_utf8_lossy(&output.stdout).into_owned()
    };
    let one = svg(&["--over", "wall=12 mm to 30 mm"]);
    assert!(one.starts_with("<svg") || one.starts_with("<?xml"), "{one}");
    for piece in ["1.5D", "proven", "doubtful", "FAILS", "wall from 12.000 mm", "; below it "] {
        assert!(one.contains(piece), "{piece}: {one}");
    }
    let two = svg(&["--over", "wall=12 mm to 30 mm", "--over", "least-left=0.5 to 3 mm"]);
    assert!(two.contains("<desc>") && two.matches("wall ").count() >= 13, "{two}");
    assert_eq!(one, svg(&["--over", "wall=12 mm to 30 mm"]), "the same bytes");
    let json = with(&["wall=18.0 ± 0.3 mm", "--format", "json", "--over", "wall=12 mm to 30 mm"]);
    assert_eq!(json.status.code(), Some(2));
}

/// Ends as a shop of inches types them: fractions, and thou beside inches. What is no range of a size is told for what it is.
#[test]
fn a_range_is_read_as_sizes_are() {
    for range in
        ["wall=1/2 in to 1 1/4 in", "wall=1/2 to 1 1/4 in", "wall=500 thou to 1 1/4 in", "wall=0.5 in .. 1.25 in"]
    {
        let output = with(&["--over", range]);
        let said = String::from_utf8_lossy(&output.stdout).into_owned() + &String::from_utf8_lossy(&output.stderr);
        assert_eq!(output.status.code(), Some(0), "{range}: {said}");
        assert!(said.contains("1.25") && said.contains("0.5"), "{range}: {said}");
    }
    for (range, says) in [
        ("length=1D to 3D", "--over goes along sizes"),
        ("hole=blind to through", "--over goes along sizes"),
        ("wall=20 mm to 12 mm", "the lower end comes first"),
        ("wall=12 mm to 20 rev/min", "no units of one kind"),
        ("wal=12 mm to 20 mm", "did you mean `wall`?"),
        ("wall=12 mm", "not of the form"),
    ] {
        let output = with(&["--over", range]);
        let said = String::from_utf8_lossy(&output.stderr).into_owned();
        assert_eq!(output.status.code(), Some(2), "{range}: {said}");
        assert!(said.contains(says), "{range}: {said}");
    }
}

/// A verdict that turns twice between two columns of the range is told of twice: by a range as wide or as narrow, from the same size on.
#[test]
fn no_turn_is_lost_between_two_columns() {
    let proven_from = |range: &str| {
        let output = with(&[
            "wall=18 mm ± 0.1 mm",
            "present-depth=12 ± 0.1 mm",
            "lead=bottoming",
            "--over",
            &format!("wall={range}"),
        ]);
        let text = String::from_utf8(output.stdout).unwrap();
        let line = text.lines().find(|line| line.trim_start().starts_with("1D: proven from"));
        line.unwrap_or_else(|| panic!("{text}")).split_whitespace().nth(3).unwrap().parse::<f64>().unwrap()
    };
    let narrow = proven_from("16 mm to 18 mm");
    for wide in ["12 mm to 30 mm", "10 mm to 40 mm", "5 mm to 100 mm"] {
        assert!((proven_from(wide) - narrow).abs() < 0.02, "{wide}: {narrow}");
    }
}
