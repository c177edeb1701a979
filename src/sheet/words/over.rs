//! Words of an operation over a range of a key.

use crate::proof::Verdict;

/// What the signs of a line picture mean.
pub(in crate::sheet) const SIGNS: &str = "# proven, ~ doubtful, x fails";
/// Where nothing turns.
pub(in crate::sheet) const NO_TURN: &str = "No verdict turns in this range.";

/// One sign of a line picture.
pub(in crate::sheet) const fn sign(verdict: Verdict) -> char {
    match verdict {
        Verdict::Proven => '#',
        Verdict::Doubtful => '~',
        Verdict::Fails => 'x',
    }
}

/// What the picture runs over.
pub(in crate::sheet) fn from_to(key: &str, low: &str, high: &str) -> String {
    format!("{key} from {low} (left) to {high} (right)")
}

/// Where a verdict turns; `better` along the range.
pub(in crate::sheet) fn turn(name: &str, at: &str, was: &str, now: &str, better: bool) -> String {
    match better {
        true => format!("{name}: {now} from {at}; below it {was}"),
        false => format!("{name}: {was} up to {at}; above it {now}"),
    }
}

/// The heads of the table.
pub(in crate::sheet) fn head(key: &str) -> Vec<String> {
    vec![key.to_owned(), "verdict".to_owned(), "chosen".to_owned()]
}

/// Where a verdict turns to and fro.
pub(in crate::sheet) fn often(name: &str) -> String {
    format!("{name}: its verdict turns to and fro here, also between the values worked: try the one that is meant")
}
