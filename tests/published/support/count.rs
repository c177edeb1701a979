//! What counts: each printed figure once, by the house that printed it, never one that stands in the program's own tables.

use super::rows::{Half, Kind, Row};
use setover::proof::Mark;

/// Several pages of one house are one source; the two halves of the book do not share one.
const HOUSES: &[(&str, &str)] = &[
    ("Mitsubishi Materials", "Mitsubishi Materials"),
    ("GATE Production and Industrial Engineering", "GATE Production and Industrial Engineering papers"),
    ("Groover", "Groover: Fundamentals of Modern Manufacturing"),
    ("Shigley", "Shigley: Mechanical Engineering Design, and its solutions"),
    ("Filo", "Filo worked answers"),
    ("Dormer", "Dormer catalogues"),
    ("NPL", "National Physical Laboratory (NPL)"),
    ("Bell, A Beginner", "National Physical Laboratory (NPL)"),
];

/// The house that printed a figure.
pub fn house(source: &str) -> &str {
    if source.contains("qammunity.org") {
        return "qammunity.org worked answers";
    }
    HOUSES.iter().find(|(start, _)| source.starts_with(start)).map_or(source, |(_, house)| house)
}

/// Why a printed figure is checked and not counted; none where it counts.
pub fn not_counted(row: &Row, all: &[Row]) -> Option<&'static str> {
    let shared_house = || {
        let own = house(&row.source);
        all.iter()
            .any(|other| other.half == Half::Joining && other.kind == Kind::Published && house(&other.source) == own)
    };
    match row.subject.as_str() {
        _ if row.kind != Kind::Published => Some("an error in print or a rule of thumb"),
        _ if matches!(row.mark(), Mark::Own | Mark::Derived) => Some("own or derived"),
        "drill-feed-factor" | "drill-torque-diameter-factor" => Some("a cell of shared/drilling-f.csv"),
        "reamer-deviation-upper" | "reamer-deviation-lower" => Some("a cell of shared/reaming.csv"),
        "insert-drilled-depth" => Some("the note that the rules of shared/insert-rules.csv were read from"),
        "roughness-loss" => Some("worked with the factor that shared/constants.csv read on the same page"),
        subject if subject.starts_with("fit-") && row.source.starts_with("Narayana") => {
            Some("a source of rows of shared/iso286.csv")
        }
        _ if row.half == Half::Cutting && shared_house() => Some("its source is counted in the joining half"),
        _ => None,
    }
}
