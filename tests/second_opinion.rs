//! A second opinion: figures that other people's libraries or tables give, against this program. The results are committed
//! (`tests/second-opinion/README.md` says how they were made and what is independent), so no Python is needed here.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

#[path = "second-opinion/chain.rs"]
mod chain;
#[path = "second-opinion/correlation.rs"]
mod correlation;
#[path = "second-opinion/days.rs"]
mod days;
#[path = "second-opinion/doubts.rs"]
mod doubts;
#[path = "second-opinion/forms.rs"]
mod forms;

use setover::handbook::joints::fits::{self, Class, Grade};
use setover::handbook::{Thread, joints::press};
use setover::proof::{Cause, Worked};
use setover::quantity::{
    Angle, Celsius, KiloWatt, MPerMin, Minutes, Mm, MmPerRev, Newton, NewtonMetre, Quantity, Ratio, RevPerMin,
    Roughness, SpringRate, Stress, Tpi, Written,
};
use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

/// The rows of a committed result, each by the names of its columns.
fn rows(name: &str) -> Vec<BTreeMap<String, String>> {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/second-opinion").join(name);
    let mut reader = csv::ReaderBuilder::new().comment(Some(b'#')).from_path(path).expect("table");
    reader.deserialize().map(|row| row.expect("a row")).collect()
}

fn number(row: &BTreeMap<String, String>, column: &str) -> f64 {
    row[column].parse().unwrap_or_else(|_| panic!("{column}: {}", row[column]))
}

fn given<Q: Quantity>(number: f64) -> Worked<Q> {
    Worked::assumed(Q::new(number), "given")
}

/// Lower and upper deviation, or why there are none.
type Limits = Result<(f64, f64), String>;

/// The two deviations that the program gives a symbol and grade at a size.
fn own_deviations(symbol: &str, grade: &str, size: f64) -> Limits {
    let own_grade = if grade == "01" { Grade::ZeroOne } else { Grade::Number(grade.parse().expect("a grade")) };
    if symbol == "IT" {
        return fits::tolerance(own_grade, size).map(|it| (0.0, it)).map_err(|refusal| refusal.to_string());
    }
    let class: Class = format!("{symbol}{grade}").parse()?;
    class.deviations(size).map(|d| (d.lower, d.upper)).map_err(|refusal| refusal.to_string())
}

#[test]
fn iso_286_at_both_borders_of_every_step() {
    let (mut agree, mut explained, mut wrong) = (0, BTreeSet::new(), Vec::new());
    let mut own: BTreeMap<(String, String, String), Limits> = BTreeMap::new();
    for row in rows("iso286.csv") {
        let key = (row["symbol"].clone(), row["grade"].clone(), row["size_mm"].clone());
        let (lower, upper) = (number(&row, "lower_um"), number(&row, "upper_um"));
        let ours = own
            .entry(key)
            .or_insert_with_key(|(symbol, grade, size)| own_deviations(symbol, grade, size.parse().expect("a size")));
        // js and JS share out an odd tolerance: tables round the half.
        let near = if row["symbol"].eq_ignore_ascii_case("js") { 0.5 } else { 1e-9 };
        let agrees = matches!(ours, Ok(ours) if (ours.0 - lower).abs() <= near && (ours.1 - upper).abs() <= near);
        match (agrees, row["disagreement"].as_str()) {
            (true, "") => agree += 1,
            (false, id) if !id.is_empty() && ours.is_ok() => drop(explained.insert(id.to_owned())),
            _ => wrong.push(format!("{row:?}: {ours:?}")),
        }
    }
    println!("ISO 286: {agree} cells agree; disagreements explained: {explained:?}");
    assert!(
        wrong.is_empty(),
        "{} cells, first:\n{}",
        wrong.len(),
        wrong.iter().take(10).cloned().collect::<Vec<_>>().join("\n")
    );
    assert!(agree > 38_000 && explained.len() == 18, "{agree} {explained:?}");
}

#[test]
fn every_disagreement_has_its_reason() {
    for (reasons, cells) in [("disagreements.csv", "iso286.csv"), ("disagreements-threads.csv", "threads.csv")] {
        let reasons: BTreeMap<String, String> =
            rows(reasons).into_iter().map(|row| (row["id"].clone(), row["why"].clone())).collect();
        for row in rows(cells).iter().filter(|row| !row["disagreement"].is_empty()) {
            let why = reasons.get(&row["disagreement"]).unwrap_or_else(|| panic!("{row:?} has no reason"));
            assert!(why.len() > 20, "{why}");
        }
    }
}

/// The form's own arithmetic, which the program uses too: the table of the standard rounds the depth first.
const FORM_NOT_TABLE: &str = "T08";

/// A designation without what stands in brackets.
fn without_remark(designation: &str) -> String {
    match (designation.find(" ("), designation.find(')')) {
        (Some(from), Some(to)) => format!("{}{}", &designation[..from], &designation[to + 1..]),
        _ => designation.to_owned(),
    }
}

#[test]
fn threads_against_public_tables() {
    let mut wrong = Vec::new();
    let mut agree = 0;
    for row in rows("threads.csv") {
        let thread: Thread = without_remark(&row["designation"]).parse().unwrap_or_else(|e| panic!("{e}"));
        let ours = match row["quantity"].as_str() {
            "major_diameter" => Ok(thread.major()),
            "pitch_diameter" => thread.pitch_diameter(),
            "minor_diameter_internal" => thread.minor_diameter(),
            other => panic!("{other}"),
        };
        let (ours, last_digit) = (ours.expect("a diameter").number(), number(&row, "last_digit_mm"));
        // A printed table is compared with our print, to the third decimal; a recomputed form with the figure itself.
        let ours = if last_digit > 0.0 { (ours * 1000.0).round() / 1000.0 } else { ours };
        let difference = (ours - number(&row, "value_mm")).abs();
        let agrees = difference <= last_digit / 2.0 + 0.0005 + 1e-9;
        let id = row["disagreement"].as_str();
        if agrees != (id.is_empty() || id == FORM_NOT_TABLE) {
            wrong.push(format!("{row:?}: {difference}"));
        }
        agree += usize::from(agrees);
    }
    println!("threads: {agree} diameters agree");
    assert!(wrong.is_empty(), "{} diameters:\n{}", wrong.len(), wrong.join("\n"));
    assert!(agree > 550, "{agree}");
}

fn in_held_unit<Q: Quantity>(text: &str) -> Result<f64, String> {
    text.parse::<Written<Q>>().map(|written| written.value.number()).map_err(|e| format!("{text}: {e}"))
}

#[test]
fn units_against_pint() {
    let mut wrong = Vec::new();
    for row in rows("units.csv") {
        let (text, wanted) = (row["text"].as_str(), number(&row, "value"));
        let ours = match row["unit"].as_str() {
            "mm" if text.ends_with("tpi") => in_held_unit::<Tpi>(text).map(|tpi| 25.4 / tpi),
            "mm" => in_held_unit::<Mm>(text),
            "um" => in_held_unit::<Roughness>(text),
            "deg" => in_held_unit::<Angle>(text),
            "degC" => in_held_unit::<Celsius>(text),
            "N" => in_held_unit::<Newton>(text),
            "N·m" => in_held_unit::<NewtonMetre>(text),
            "N/mm" => in_held_unit::<SpringRate>(text),
            "MPa" => in_held_unit::<Stress>(text),
            "kW" => in_held_unit::<KiloWatt>(text),
            "min" => in_held_unit::<Minutes>(text),
            "m/min" => in_held_unit::<MPerMin>(text),
            "mm/rev" => in_held_unit::<MmPerRev>(text),
            "rev/min" => in_held_unit::<RevPerMin>(text),
            other => Err(format!("no unit {other}")),
        };
        let near = number(&row, "relative_tolerance") * wanted.abs();
        if !ours.as_ref().is_ok_and(|ours| (ours - wanted).abs() <= near) {
            wrong.push(format!("{text}: {ours:?}, pint {wanted}"));
        }
    }
    assert!(wrong.is_empty(), "{} readings:\n{}", wrong.len(), wrong.join("\n"));
}

/// Kinds of statistics that no code of this program has: nothing to compare.
const NO_CODE: &[&str] = &[
    "circle",
    "cylinder",
    "line",
    "normal-coverage",
    "normal-one-sided",
    "normal-two-sided",
    "plane",
    "standard-from-limit",
    "t-two-sided",
];

#[test]
fn statistics_against_scipy() {
    let mut skipped = BTreeMap::<String, usize>::new();
    let mut checked = 0;
    for row in rows("statistics.csv") {
        let wanted = number(&row, "value");
        let ours = match (row["kind"].as_str(), row["given"].as_str()) {
            ("root-sum-square", parts) => {
                let parts: Vec<f64> = parts.split(' ').map(|part| part.parse().expect("a part")).collect();
                let names = ["a", "b", "c", "d", "e", "f", "g", "h"].into_iter();
                let doubted = |all: Worked<Mm>, (name, part): (_, &f64)| all.with_doubt(Cause::Named(name), *part);
                let worked = names.zip(&parts).fold(given::<Mm>(0.0), doubted);
                worked.plus_minus()
            }
            (kind, _) => {
                *skipped.entry(kind.to_owned()).or_default() += 1;
                continue;
            }
        };
        checked += 1;
        assert!((ours - wanted).abs() <= number(&row, "tolerance") * wanted.abs().max(1.0), "{row:?}: {ours}");
    }
    for (kind, count) in &skipped {
        println!("no code, not compared: {kind} ({count})");
    }
    let unexpected: Vec<&String> = skipped.keys().filter(|kind| !NO_CODE.contains(&kind.as_str())).collect();
    assert!(checked >= 8 && unexpected.is_empty(), "{checked} {unexpected:?}");
}

#[test]
fn doubt_against_the_uncertainties_package_and_a_million_draws() {
    let mut checked = BTreeSet::new();
    for row in rows("uncertainty.csv") {
        let worked = doubts::work_case(&row["case"], &row["given"]).unwrap_or_else(|e| panic!("{}: {e}", row["case"]));
        let (wanted, expanded) = (number(&row, "value"), number(&row, "expanded_k2"));
        assert!((worked.number() - wanted).abs() <= 1e-9 * wanted.abs(), "{row:?}: {}", worked.number());
        // The package takes the slope, the program moves each reading by its doubt: they part where the formula bends.
        assert!((worked.plus_minus() / expanded - 1.0).abs() <= 2e-3, "{row:?}: {}", worked.plus_minus());
        assert!((worked.plus_minus() / number(&row, "expanded_k2_drawn") - 1.0).abs() <= 0.01, "{row:?}");
        checked.insert(row["case"].clone());
    }
    assert_eq!(checked.len(), 22);
}

#[test]
fn a_pressed_bush_against_scipy() {
    let cases = rows("press.csv");
    for row in &cases {
        let of = |column: &str| number(row, column);
        let (d, bore, outside) = (given(of("joint_mm")), given(of("bush_bore_mm")), given(of("housing_outside_mm")));
        let (e_i, e_o) = (given(of("bush_e_mpa")), given(of("housing_e_mpa")));
        let gives = press::bush_gives(&d, &bore, &given::<Ratio>(of("bush_nu"))).expect("bush");
        let opens = press::housing_gives(&d, &outside, &given::<Ratio>(of("housing_nu"))).expect("housing");
        let p = press::joint_pressure(&given(of("interference_mm")), &d, &gives, &e_i, &opens, &e_o).expect("pressure");
        let figures = [
            ("joint_pressure_mpa", p.number()),
            ("hoop_bush_bore_mpa", press::hoop_bush_bore(&p, &d, &bore).expect("hoop").number()),
            ("hoop_bush_outside_mpa", press::hoop_bush_outside(&p, &d, &bore).expect("hoop").number()),
            ("hoop_housing_joint_mpa", press::hoop_housing_bore(&p, &d, &outside).expect("hoop").number()),
            ("hoop_housing_outside_mpa", press::hoop_housing_outside(&p, &d, &outside).expect("hoop").number()),
            ("close_in_mm", press::close_in(&p, &d, &bore, &e_i).expect("close-in").number()),
            ("growth_mm", press::boss_growth(&p, &d, &outside, &e_o).expect("growth").number()),
        ];
        for (column, ours) in figures {
            assert!((ours / of(column) - 1.0).abs() <= of("relative_tolerance"), "{} {column}: {ours}", row["case"]);
        }
    }
    assert_eq!(cases.len(), 32);
}
