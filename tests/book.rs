//! The book opened at a question: names, figures with source and mark, both sides of a disagreement, refusals, placed errors.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use serde_json::Value;
use std::process::{Command, Output};

fn book(words: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_setover")).arg("book").args(words).output().expect("runs")
}

fn text(words: &[&str]) -> String {
    let output = book(words);
    assert_eq!(output.status.code(), Some(0), "{words:?}: {}", String::from_utf8_lossy(&output.stderr));
    String::from_utf8(output.stdout).expect("text")
}

fn json(words: &[&str]) -> Value {
    let words: Vec<&str> = words.iter().copied().chain(["--format", "json"]).collect();
    serde_json::from_str(&text(&words)).expect("json")
}

fn refused(words: &[&str]) -> String {
    let output = book(words);
    assert_eq!(output.status.code(), Some(2), "{words:?}");
    assert!(output.stdout.is_empty(), "{words:?}");
    String::from_utf8(output.stderr).expect("text")
}

fn number(page: &Value, key: &str) -> f64 {
    page["values"][key]["value"].as_f64().unwrap_or_else(|| panic!("no {key} in {page:#}"))
}

/// One question of each topic.
const ONE_OF_EACH: &[&[&str]] = &[
    &["thread", "1/4 BSF"],
    &["thread", "M8", "material=cast aluminium", "class=8.8", "drill=7.0 mm"],
    &["which-thread", "diameter=6.33 ± 0.02 mm", "pitch=26 tpi"],
    &["insert", "M8x1.25"],
    &["insert", "1/4 BSF"],
    &["fit", "25 H7/p6"],
    &[
        "bush",
        "joint=20 mm",
        "bore=16 mm",
        "outside=40 mm",
        "interference=0.02 .. 0.04 mm",
        "bush=phosphor bronze",
        "housing=LM25",
        "length=25 mm",
    ],
    &["reamer", "16 H7", "material=phosphor bronze"],
    &["material", "phosphor bronze"],
    &["speed", "material=EN8", "tool=HSS", "work=turn-finish", "diameter=38 mm", "--shop", "tests/fixtures/shop.yaml"],
    &["drill", "diameter=10 mm", "material=mild steel", "depth=45 mm"],
    &[
        "turn",
        "material=EN8",
        "tool=HSS",
        "diameter=38 mm",
        "depth=1 mm",
        "feed=0.1 mm/rev",
        "nose=0.4 mm",
        "length=60 mm",
        "passes=2",
    ],
    &[
        "mill",
        "material=mild steel",
        "tool=HSS",
        "cutter=16 mm",
        "teeth=4",
        "width=4 mm",
        "depth=10 mm",
        "chip=0.03 mm",
        "length=80 mm",
    ],
    &["hardness", "40 HRC"],
    &["instrument", "outside micrometer", "size=80 mm"],
    &["sources"],
];

const MARKS: [&str; 6] = ["(read)", "(read, damaged copy)", "(from memory)", "(common practice)", "(derived)", "(own)"];

/// A source with its mark, or that it was given or assumed.
fn is_sourced(source: &str) -> bool {
    let plain = ["given", "own", "common practice"].contains(&source);
    plain || source.starts_with("assumed: ") || MARKS.iter().any(|mark| source.ends_with(mark))
}

#[test]
fn every_figure_has_its_unit_source_and_mark() {
    for words in ONE_OF_EACH {
        let page = json(words);
        let candidates = page["candidates"].as_array().unwrap();
        let values = candidates.iter().map(|c| &c["values"]).chain([&page["values"]]);
        for (key, value) in values.flat_map(|v| v.as_object().unwrap()) {
            assert!(value["value"].as_f64().unwrap().is_finite(), "{words:?} {key}");
            assert!(!value["unit"].as_str().unwrap().is_empty(), "{words:?} {key}");
            assert!(is_sourced(value["source"].as_str().unwrap()), "{words:?} {key}: {}", value["source"]);
        }
        for row in page["rows"].as_array().unwrap() {
            assert!(is_sourced(row["source"].as_str().unwrap()), "{words:?} {row}");
            assert!(MARKS.contains(&format!("({})", row["mark"].as_str().unwrap()).as_str()), "{words:?} {row}");
        }
    }
}

#[test]
fn every_topic_of_the_list_is_asked_here() {
    for topic in setover::lookup::TOPICS {
        assert!(ONE_OF_EACH.iter().any(|words| words[0] == *topic), "{topic}");
    }
}

#[test]
fn the_same_question_gives_the_same_bytes() {
    for words in ONE_OF_EACH {
        assert_eq!(text(words), text(words), "{words:?}");
    }
}

#[test]
fn one_thread_has_many_names() {
    let page = text(&["thread", "8-32 UNC"]);
    for name in ["No. 8-32", "#8-32 UNC", "No. 8-32 UNC", "8-32"] {
        assert_eq!(text(&["thread", name]), page, "{name}");
    }
    assert_eq!(text(&["thread", "thread=#8-32 UNC"]), page);
    assert_eq!(text(&["thread", "1/4", "BSF"]), text(&["thread", "1/4 BSF"]));
}

#[test]
fn a_thread_without_limits_says_so_and_two_bases_differ() {
    let page = json(&["thread", "1/4 BSF"]);
    assert!(page["values"].get("nut_minor_max").is_none());
    assert!(page["notes"][0].as_str().unwrap().starts_with("no limit was read"), "{}", page["notes"]);
    let m8 = json(&["thread", "M8"]);
    let (basic, iso) = (number(&m8, "thread_percent_three_quarter_h"), number(&m8, "thread_percent_five_eighths_h"));
    assert!((iso - basic - 14.8).abs() < 0.1, "{basic} {iso}");
    assert_eq!(number(&m8, "nut_minor_max"), 6.912);
}

#[test]
fn lists_that_disagree_are_a_band() {
    let page = json(&["thread", "1/4 BSF"]);
    assert_eq!(
        (&page["values"]["tapping_drill"]["low"], &page["values"]["tapping_drill"]["high"]),
        (&5.3.into(), &5.4.into())
    );
    let drill = json(&["drill", "diameter=10 mm", "material=mild steel"]);
    let torque = &drill["values"]["drill_torque"];
    assert_eq!(drill["candidates"].as_array().unwrap().len(), 3);
    assert!(torque["low"].as_f64() < torque["high"].as_f64());
    let of_forms =
        drill["candidates"].as_array().unwrap().iter().map(|c| c["values"]["drill_torque"]["value"].as_f64().unwrap());
    assert_eq!(torque["value"].as_f64(), of_forms.reduce(f64::max), "the worst form decides");
    assert!(torque["value"].as_f64() <= torque["high"].as_f64(), "its own band goes on above it");
}

fn names(page: &Value) -> Vec<&str> {
    page["candidates"].as_array().unwrap().iter().map(|c| c["name"].as_str().unwrap()).collect()
}

#[test]
fn quarter_inch_threads_and_m6_are_told_apart() {
    let page = json(&["which-thread", "diameter=6.33 ± 0.02 mm", "pitch=26 tpi"]);
    let says = |name: &str| {
        let all = page["candidates"].as_array().unwrap();
        let found = all.iter().find(|c| c["name"].as_str().unwrap().starts_with(name));
        found.unwrap_or_else(|| panic!("no {name}"))["says"].as_str().unwrap().to_owned()
    };
    assert!(names(&page)[0].starts_with("1/4 BSF"));
    assert_eq!(says("1/4 BSF"), "agrees");
    assert_eq!(says("1/4-26 BSC"), "agrees; told from 1/4 BSF by flank angle gauge (60 deg, not 55)");
    assert!(
        says("1/4-28 UNF").starts_with("near miss; told from 1/4 BSF by length over 10 threads (9.07 mm, not 9.77)")
    );
    assert!(says("M6").starts_with("near miss; told from 1/4 BSF by diameter (at most 6.00 mm"));
}

#[test]
fn which_thread_answers_with_either_reading_and_for_a_nut() {
    assert!(names(&json(&["which-thread", "pitch=1.0 ± 0.02 mm"])).iter().any(|n| n.starts_with("M6 ")));
    assert!(names(&json(&["which-thread", "diameter=7.85 ± 0.02 mm"])).iter().any(|n| n.starts_with("M8 ")));
    let nut = json(&["which-thread", "of=nut", "diameter=6.70 ± 0.03 mm", "pitch=1.25 ± 0.03 mm"]);
    assert!(names(&nut)[0].starts_with("M8 "), "{:?}", names(&nut));
    let nothing = json(&["which-thread", "diameter=250 ± 0.02 mm"]);
    assert!(names(&nothing).is_empty() && nothing["notes"].to_string().contains("no thread of the book"));
}

#[test]
fn a_vintage_insert_is_doubtful_and_a_read_depth_is_kept() {
    let m8 = json(&["insert", "M8x1.25"]);
    let half = &m8["candidates"][1];
    assert_eq!(half["name"], "1.5D");
    // The handbook's drawing note of M8 x 1.25 x 12: 23.5 mm.
    assert_eq!(half["values"]["drilled_depth_plug"]["value"], 23.5);
    assert!(!m8["notes"].to_string().contains("DOUBTFUL"));
    assert!(json(&["insert", "1/4 BSF"])["notes"].to_string().contains("DOUBTFUL"));
}

#[test]
fn a_fit_has_limits_clearance_and_old_allowances() {
    let page = json(&["fit", "25 H7/p6"]);
    let um = |key| ((number(&page, key) - 25.0) * 1000.0).round();
    assert_eq!((um("hole_min"), um("hole_max"), um("shaft_min"), um("shaft_max")), (0.0, 21.0, 22.0, 35.0));
    assert_eq!((number(&page, "clearance_max") * 1000.0).round(), -1.0);
    assert_eq!((number(&page, "clearance_min") * 1000.0).round(), -35.0);
    let under = |heading: &str| {
        page["rows"].as_array().unwrap().iter().filter(|r| r["under"].as_str().unwrap().starts_with(heading)).count()
    };
    assert_eq!((under("old inch"), under("running clearance"), under("deviations")), (6, 5, 2));
    assert!(under("usual fits") > 3);
}

#[test]
fn a_family_of_metals_is_said_to_be_one() {
    let page = json(&["material", "aluminium"]);
    assert_eq!(number(&page, "tensile_strength"), number(&json(&["material", "cast aluminium"]), "tensile_strength"));
    assert!(page["notes"].to_string().contains("DOUBTFUL: `aluminium` is a family"), "{}", page["notes"]);
    assert!(text(&["material", "steel"]).starts_with("`steel` is a family and no alloy; its weakest"));
    assert!(text(&["material", "EN24"]).contains("a nickel-chrome-moly steel"), "{}", text(&["material", "EN24"]));
    assert!(!json(&["material", "LM25"])["notes"].to_string().contains("is a family"));
    let speed = |metal: &str| {
        number(
            &json(&["speed", &format!("material={metal}"), "tool=HSS", "work=drill", "diameter=8 mm"]),
            "surface_speed",
        )
    };
    assert!(speed("bronze") <= speed("leaded bronze").min(speed("phosphor bronze")).min(speed("aluminium bronze")));
}

#[test]
fn a_limit_of_a_fit_is_not_bettered_by_rounding() {
    for (fit, says) in [
        ("25 JS7", ["24.9895 mm", "25.0105 mm"]),
        ("10 js6", ["9.9955 mm", "10.0045 mm"]),
        ("25 H7", ["25.000 mm", "25.021 mm"]),
    ] {
        let page = text(&["fit", fit]);
        assert!(says.iter().all(|says| page.contains(says)), "{page}");
    }
    assert_eq!(number(&json(&["fit", "1 in H7"]), "hole_max"), number(&json(&["fit", "25.4 H7"]), "hole_max"));
}

const BUSH: [&str; 6] =
    ["bush", "joint=20 mm", "outside=40 mm", "bush=phosphor bronze", "housing=LM25", "length=25 mm"];

fn bush(bore: &str, interference: &str) -> Value {
    let more = [format!("bore={bore}"), format!("interference={interference}")];
    json(&BUSH.iter().copied().chain(more.iter().map(String::as_str)).collect::<Vec<_>>())
}

#[test]
fn more_interference_means_more_of_everything_until_the_bush_yields() {
    let (less, more) = (bush("14 mm", "0.02 mm"), bush("14 mm", "0.03 mm"));
    for key in ["joint_pressure", "hoop_housing", "close_in", "press_force", "holding_force", "housing_temperature"] {
        assert!(number(&less, key) < number(&more, key), "{key}");
    }
    let thin = bush("17 mm", "0.02 .. 0.06 mm");
    let pressure = &thin["values"]["joint_pressure"];
    assert!(pressure["low"].as_f64() < pressure["high"].as_f64(), "the metal's yield is a band");
    assert_eq!(pressure["low"], thin["values"]["full_yield_pressure"]["value"]);
    assert!(thin["notes"].to_string().contains("the whole bush yields"));
}

#[test]
fn a_loose_bush_holds_nothing_and_the_page_says_so() {
    let page = bush("16 mm", "0.001 mm");
    assert!(page["values"].get("holding_force").is_none());
    assert!(!page["refused"].as_array().unwrap().is_empty());
}

#[test]
fn din_1420_rounds_the_fractions() {
    let page = json(&["reamer", "16 H7"]);
    let um = |key| ((number(&page, key) - 16.0) * 1000.0).round();
    assert_eq!((um("reamer_min"), um("reamer_max")), (8.0, 15.0));
}

#[test]
fn a_speed_never_starts_at_a_ceiling_and_takes_the_step_below() {
    let shop = ["--shop", "tests/fixtures/shop.yaml"];
    let page = json(&["speed", "material=EN8", "tool=HSS", "work=turn-finish", "diameter=38 mm", shop[0], shop[1]]);
    assert_eq!(page["candidates"][0]["values"]["spindle_speed"]["value"], 165.0);
    assert!(number(&page, "spindle_wanted") > 165.0);
    let slow = json(&["speed", "material=EN8", "tool=HSS", "work=turn-finish", "diameter=600 mm", shop[0], shop[1]]);
    assert!(slow["candidates"][0]["says"].as_str().unwrap().contains("no step is low enough"));
    let hard = json(&["speed", "material=case-hardened steel", "tool=HSS", "work=turn-rough", "diameter=20 mm"]);
    assert!(hard["values"].get("surface_speed").is_none());
    assert!(hard["rows"][0]["says"].as_str().unwrap().contains("grind"));
    let both = ["cut=interrupted, internal", "cut=internal interrupted"].map(|cut| {
        number(&json(&["speed", "material=EN8", "tool=HSS", "work=turn-finish", "diameter=38 mm", cut]), "speed_factor")
    });
    assert_eq!(both[0].to_bits(), both[1].to_bits());
}

/// Within a thousandth of a figure worked by hand.
fn near(page: &Value, key: &str, by_hand: f64) {
    let number = number(page, key);
    assert!((number / by_hand - 1.0).abs() < 1e-3, "{key}: {number}, by hand {by_hand}");
}

/// Normalised EN8, kc1.1 1500, mc 0.22: kc 1500 × 0.1^−0.22 = 2489; HSS and a worn edge 1.15 × 1.3; the step 165 on 38 mm.
#[test]
fn a_cut_in_the_lathe_has_its_force_power_and_time() {
    let page = json(
        &ONE_OF_EACH
            .iter()
            .find(|words| words[0] == "turn")
            .unwrap()
            .iter()
            .copied()
            .chain(["spindle=165 rev/min"])
            .collect::<Vec<_>>(),
    );
    for (key, by_hand) in [
        ("surface_speed", 19.698),
        ("feed_rate", 16.5),
        ("metal_removed", 1.9698),
        ("cutting_force", 372.2),
        ("cutting_power", 0.12218),
        ("power_at_motor", 0.16291),
        ("spindle_torque", 7.071),
        ("feed_marks", 3.125),
        ("time", 7.2727),
    ] {
        near(&page, key, by_hand);
    }
}

/// hm 0.03 on a quarter of the cutter: 0.06 a tooth, 0.24 a turn; at 400 rev/min 96 mm/min, 3.84 cm³/min.
#[test]
fn a_cut_of_the_mill_starts_from_the_chip() {
    let words = ONE_OF_EACH.iter().find(|words| words[0] == "mill").unwrap();
    let page = json(&words.iter().copied().chain(["spindle=400 rev/min"]).collect::<Vec<_>>());
    for (key, by_hand) in [
        ("engaged", 0.25),
        ("chip_thinning", 1.1547),
        ("feed_per_tooth", 0.06),
        ("feed_rate", 96.0),
        ("metal_removed", 3.84),
        ("cutting_power", 0.18043),
        ("spindle_torque", 4.3075),
        ("time", 0.83333),
    ] {
        near(&page, key, by_hand);
    }
    // A face mill at 45°: the chip over its sine; nothing is thinned.
    let face = json(&words.iter().copied().chain(["edge=45 deg"]).collect::<Vec<_>>());
    near(&face, "feed_per_tooth", 0.042426);
    assert!(face["values"].get("chip_thinning").is_none());
    let wide: Vec<&str> =
        words.iter().map(|word| if word.starts_with("width") { "width=17 mm" } else { word }).collect();
    assert!(refused(&wide).contains("wider than the cutter"));
}

/// 45 mm and the point of 3.0 and 1 mm of approach at 0.102 mm/rev and 543.7 rev/min.
#[test]
fn a_hole_takes_its_time_and_a_step_suits_a_diameter() {
    let page = json(&["drill", "diameter=10 mm", "material=mild steel", "depth=45 mm"]);
    near(&page, "time", 0.88368);
    near(&page, "metal_removed", 4.3554);
    assert!(json(&["drill", "diameter=10 mm", "material=mild steel"])["values"].get("time").is_none());
    let shop = ["--shop", "tests/fixtures/shop.yaml"];
    let page = json(&["speed", "material=EN8", "tool=HSS", "work=turn-finish", "diameter=38 mm", shop[0], shop[1]]);
    let lathe = &page["candidates"][0]["values"];
    let (suits, step) = (&lathe["suits_diameter"]["value"], &lathe["spindle_speed"]["value"]);
    let kept = std::f64::consts::PI * suits.as_f64().unwrap() * step.as_f64().unwrap() / 1000.0;
    assert!(
        (kept - number(&page, "surface_speed_wanted")).abs() < 1e-9,
        "at that diameter the step gives the speed wanted"
    );
}

#[test]
fn a_percentage_has_its_drill_and_a_british_thread_its_depth() {
    let page = json(&["thread", "1/4 BSF", "percent=75"]);
    near(&page, "drill_for_percent_full_depth", 5.4117);
    near(&page, "thread_depth", 0.62555);
    let m8 = json(&["thread", "M8", "percent=75"]);
    near(&m8, "drill_for_percent_three_quarter_h", 8.0 - 1.299038 * 1.25 * 0.75);
    near(&m8, "drill_for_percent_five_eighths_h", 8.0 - 1.082532 * 1.25 * 0.75);
    assert!(m8["values"].get("thread_depth").is_none(), "bolt and nut of 60° are not equally deep");
}

/// Lamé at the far sides: 2 p d² / (D² − d²) and −p (d² + b²) / (d² − b²).
#[test]
fn a_bush_has_its_stresses_at_both_sides() {
    let page = bush("14 mm", "0.02 mm");
    let p = number(&page, "joint_pressure");
    near(&page, "hoop_housing_outside", 2.0 * p * 400.0 / (1600.0 - 400.0));
    near(&page, "hoop_bush_at_joint", -p * (400.0 + 196.0) / (400.0 - 196.0));
}

#[test]
fn nothing_is_given_outside_a_range() {
    for words in [
        &["hardness", "70 HRC"][..],
        &["hardness", "100 HB", "material=cast aluminium"],
        &["fit", "0.5 A7"],
        &["drill", "diameter=10 mm", "material=EN8", "depth=80 mm"],
        &["instrument", "outside micrometer", "size=500 mm"],
    ] {
        let page = json(words);
        assert!(!page["refused"].as_array().unwrap().is_empty(), "{words:?}");
    }
}

#[test]
fn inch_and_metric_spellings_are_the_same_bits() {
    let of = |d: &str| text(&["drill", &format!("diameter={d}"), "material=EN8"]);
    assert_eq!(of("6.35 mm"), of("1/4 in"));
    assert_eq!(of("6.35 mm"), of("250 thou"));
}

#[test]
fn what_cannot_be_read_is_placed_and_near_names_are_given() {
    let caret = |said: &str| said.lines().any(|line| line.trim_start_matches(['|', ' ']).starts_with('^'));
    for (words, says) in [
        (&["thread", "1/4 BFS"][..], "did you mean `1/4 BSF`"),
        (&["thred", "M8"], "did you mean `thread`"),
        (&["thread", "class=8.8"], "`thread` is missing"),
        (&["thread", "M8", "thread=M8"], "given twice"),
        (&["material", "fosfor bronze"], "did you mean `Phosphor bronze`"),
        (&["fit", "H7/p6"], "`25 H7/p6`"),
        (&["fit", "600 H7"], "up to 500"),
        (&["which-thread", "of=nut"], "give what was measured"),
        (&["which-thread", "6.33 mm"], "key=value"),
        (&["which-thread", "diameter=6.33"], "needs its unit"),
        (&["reamer", "25 H7/p6"], "not one hole"),
        (&["hardness", "58"], "not a hardness"),
        (&["instrument", "outsid micrometer"], "did you mean `outside micrometer`"),
        (&["sources", "mh32"], "mh31"),
        (&["speed", "material=EN8", "tool=HSS", "work=turn", "diameter=38 mm"], "`turn-rough` or `turn-finish`"),
        (
            &[
                "bush",
                "joint=20 mm",
                "bore=25 mm",
                "outside=40 mm",
                "interference=0.02 mm",
                "bush=brass",
                "housing=LM25",
            ],
            "smaller than the joint",
        ),
    ] {
        let said = refused(words);
        assert!(said.contains(says), "{words:?}: {said}");
        assert!(caret(&said), "{words:?}: {said}");
    }
}

#[test]
fn the_list_of_sources_counts_every_mark() {
    let page = json(&["sources"]);
    assert!(number(&page, "sources") > 200.0 && number(&page, "citations") > 4000.0);
    let rows = page["rows"].as_array().unwrap();
    assert!(rows.iter().any(|r| r["what"] == "mh31" && r["says"].as_str().unwrap().contains("from memory")));
    assert_eq!(json(&["sources", "mh31"])["rows"].as_array().unwrap().len(), 1);
}

/// What a topic gives as examples of its keys is answered, in millimetres and in inches.
#[test]
fn the_examples_of_each_topic_are_answered() {
    for units in ["metric", "inch"] {
        for topic in setover::lookup::TOPICS.iter().filter(|topic| **topic != "sources") {
            let run = |words: &[String]| {
                std::process::Command::new(env!("CARGO_BIN_EXE_setover"))
                    .current_dir(env!("CARGO_MANIFEST_DIR"))
                    .args(["book", topic, "--units", units, "--shop", "examples/shop.yaml"])
                    .args(words)
                    .output()
                    .expect("runs")
            };
            let listed: serde_json::Value =
                serde_json::from_slice(&run(&["--format".into(), "json".into()]).stdout).unwrap();
            let keys = listed[0].as_array().unwrap();
            let words = |only_must: bool| -> Vec<String> {
                let told = keys.iter().filter(|key| !only_must || key["required"] == true);
                let typed = told.filter(|key| !key["example"].as_str().unwrap().is_empty());
                typed
                    .map(|key| format!("{}={}", key["key"].as_str().unwrap(), key["example"].as_str().unwrap()))
                    .collect()
            };
            for words in [words(true), words(false)] {
                if words.is_empty() {
                    continue;
                }
                let output = run(&words);
                let said = String::from_utf8_lossy(&output.stderr);
                assert_eq!(output.status.code(), Some(0), "{topic} {words:?}: {said}");
                assert!(!words.iter().any(|word| word.contains("12.5") || word.contains("=0.49")), "{topic} {words:?}");
            }
        }
    }
}
