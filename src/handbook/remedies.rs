//! What is usually done with a worn feature, and what follows from it.

use super::table::{rows, seen};
use crate::proof::Mark;
use serde::{Deserialize, Deserializer};
use std::sync::LazyLock;

/// The word of a remedy that is no operation: another part.
pub const REPLACE: &str = "replace";

/// A row of the table.
#[derive(Debug, Deserialize)]
pub struct RemedyRow {
    /// Words of the feature's name, all of which are in it.
    pub feature: String,
    /// Words which, if they are in it too, tell that another row is meant.
    #[serde(deserialize_with = "parted")]
    pub unless: Vec<String>,
    /// The word of an operation, or [`REPLACE`].
    pub remedy: String,
    /// What is never used again once that was done: a gasket, a seal.
    #[serde(deserialize_with = "parted")]
    pub fresh: Vec<String>,
    /// Mates that take a size from it.
    #[serde(deserialize_with = "parted")]
    pub follows: Vec<String>,
    /// Source keys.
    pub source: String,
    /// How well the source is known.
    #[serde(deserialize_with = "seen")]
    pub seen: Mark,
}

fn parted<'de, D: Deserializer<'de>>(from: D) -> Result<Vec<String>, D::Error> {
    let text = String::deserialize(from)?;
    Ok(text.split(';').map(str::trim).filter(|word| !word.is_empty()).map(str::to_owned).collect())
}

/// A row of what operations cut.
#[derive(Debug, Deserialize)]
pub struct CutsOffRow {
    /// The word of the operation.
    pub operation: String,
    /// Where it takes metal off: a `plane`, an `outside`, or the `inside` of what stands about a hole.
    pub takes: String,
    /// Source keys.
    pub source: String,
    /// How well the source is known.
    #[serde(deserialize_with = "seen")]
    pub seen: Mark,
}

/// A row of what is wrong with a plan and not with a part.
#[derive(Debug, Deserialize)]
pub struct NotThePartRow {
    /// The id of a check.
    pub check: String,
    /// What is changed: machine, tool, hold, drawer or gauge.
    pub by: String,
    /// Source keys.
    pub source: String,
    /// How well the source is known.
    #[serde(deserialize_with = "seen")]
    pub seen: Mark,
}

const CUTS_OFF: &str = include_str!("../../shared/cuts-off.csv");
const NOT_THE_PART: &str = include_str!("../../shared/not-the-part.csv");
const REMEDIES: &str = include_str!("../../shared/remedies.csv");

/// Every row.
pub fn all() -> &'static [RemedyRow] {
    static ROWS: LazyLock<Vec<RemedyRow>> = LazyLock::new(|| rows(REMEDIES));
    &ROWS
}

/// Every row of what operations cut.
pub fn cuts_off() -> &'static [CutsOffRow] {
    static ROWS: LazyLock<Vec<CutsOffRow>> = LazyLock::new(|| rows(CUTS_OFF));
    &ROWS
}

/// Whether an operation takes metal off its part: what is too small or too thin already it makes smaller.
pub fn takes_metal_off(operation: &str) -> bool {
    cuts_off().iter().any(|row| row.operation == operation)
}

/// Whether what is usually done with a feature of such a name is done to a face.
pub fn is_plane(feature: &str) -> bool {
    let cuts = |remedy: &&str| cuts_off().iter().any(|row| row.operation == **remedy && row.takes == "plane");
    usual(feature).iter().any(cuts)
}

/// Every row of what is wrong with a plan and not with a part.
pub fn not_the_part() -> &'static [NotThePartRow] {
    static ROWS: LazyLock<Vec<NotThePartRow>> = LazyLock::new(|| rows(NOT_THE_PART));
    &ROWS
}

/// Whether what fails a check is the machine, the tool, the hold, the drawer or the gauge, and no part need be scrapped for it.
pub fn is_of_the_plan(check: &str) -> bool {
    not_the_part().iter().any(|row| row.check == check)
}

/// What is usually done with a feature of such a name, first choice first; for one that the table has not, another part.
pub fn usual(feature: &str) -> Vec<&'static str> {
    let found = known(feature);
    if found.is_empty() { vec![REPLACE] } else { found }
}

/// What is usually done with a feature of such a name, first choice first; nothing for one that the table has not.
pub fn known(feature: &str) -> Vec<&'static str> {
    let name = feature.to_lowercase();
    let has = |word: &str| name.split(|c: char| !c.is_alphanumeric()).any(|own| own == word);
    let is_meant = |row: &&RemedyRow| row.feature.split(' ').all(has) && !row.unless.iter().any(|word| has(word));
    let mut found: Vec<&str> = Vec::new();
    for remedy in all().iter().filter(is_meant).map(|row| row.remedy.as_str()) {
        if !found.contains(&remedy) {
            found.push(remedy);
        }
    }
    // Another part is what is left where nothing else will do.
    found.sort_by_key(|remedy| *remedy == REPLACE);
    found
}

/// What is usually done where an operation cures: the operation first.
pub fn beside(operation: &str) -> Vec<&'static str> {
    let of = |row: &&RemedyRow| all().iter().any(|own| own.remedy == operation && own.feature == row.feature);
    let (first, then): (Vec<_>, Vec<_>) =
        all().iter().filter(of).map(|row| row.remedy.as_str()).partition(|remedy| *remedy == operation);
    let mut all: Vec<&str> = first.into_iter().chain(then).collect();
    all.dedup();
    all
}

/// The row of a remedy, whatever the feature.
pub fn of(remedy: &str) -> Option<&'static RemedyRow> {
    all().iter().find(|row| row.remedy == remedy && remedy != REPLACE)
}

#[cfg(test)]
mod tests {
    use super::{beside, known, of, usual};

    #[test]
    fn a_feature_is_known_by_a_word_of_its_name() {
        assert_eq!(usual("Joint face"), ["lap", "skim", "face", "mill-face", "replace"]);
        assert_eq!(usual("surface"), ["replace"]);
        for (feature, first) in [
            ("bore", "bore"),
            ("bush bore", "ream-bush"),
            ("M8 stud hole", "thread-insert"),
            ("tapped hole", "thread-insert"),
            ("pin hole", "ream-bush"),
            ("end play", "shim"),
            ("axial play", "shim"),
            ("flatness", "lap"),
        ] {
            assert_eq!(known(feature).first(), Some(&first), "{feature}");
        }
        for unknown in ["big end bore", "backlash", "guide play", "little end"] {
            assert!(known(unknown).is_empty(), "{unknown}");
        }
        assert_eq!(beside("skim"), ["skim", "lap", "face", "mill-face", "replace"]);
        assert!(beside("wash").is_empty());
        assert_eq!(of("bore").unwrap().follows, ["piston", "rings"]);
        assert!(of("replace").is_none());
    }
}
