//! Two parts that go together: tolerances, clearances, interferences; what fits are usual; the old allowances in inches.

use super::fits::{self, Grade};
use crate::formula;
use crate::handbook::table::{cited, rows, seen};
use crate::proof::{Mark, Refusal, Source, Worked};
use crate::quantity::{Mm, Quantity, Ratio, Shift, figure};
use serde::Deserialize;
use std::sync::LazyLock;

formula! {
    /// The most that a hole is larger than its shaft; negative is an interference.
    clearance_most(D_max: Mm = "the largest hole" in 0.0..=600.0, d_min: Mm = "the smallest shaft" in 0.0..=600.0)
        -> c_max: Shift { D_max - d_min }
    source Derived "ISO 286-1: largest hole less smallest shaft"
}
formula! {
    /// The least that a hole is larger than its shaft; negative is an interference.
    clearance_least(D_min: Mm = "the smallest hole" in 0.0..=600.0, d_max: Mm = "the largest shaft" in 0.0..=600.0)
        -> c_min: Shift { D_min - d_max }
    source Derived "ISO 286-1: smallest hole less largest shaft"
}
formula! {
    /// An old allowance: so many thousandths for each inch of diameter, and an offset.
    old_allowance(D: Mm = "the diameter" in 1.0..=2500.0, k: Ratio = "the allowance in thousandths" in 0.0..=5.0,
        a: Mm = "the offset" in 0.0..=0.1)
        -> i: Mm { D * k / 1000.0 + a }
    source Derived "the row's slope times the diameter, and its offset"
}

/// The tolerance of a grade at a size, as a figure with its source.
///
/// # Errors
/// As [`fits::tolerance`].
pub fn tolerance(grade: Grade, size: f64) -> Result<Worked<Mm>, Refusal> {
    let um = fits::tolerance(grade, size)?;
    let says = format!("tolerance of the grade at {} mm: {} µm", figure(size), figure(um));
    Ok(Worked::row(Mm::new(um / 1000.0), says, fits::source()))
}

/// A row of the usual fits of pressed bushes, as it was printed.
#[derive(Debug, Deserialize)]
pub struct UsualFit {
    /// What is fitted.
    pub case: String,
    over_mm: Option<f64>,
    upto_mm: Option<f64>,
    housing: String,
    bush_outside: String,
    bush_bore_before: String,
    bush_bore_after: String,
    shaft: String,
    source: String,
    #[serde(deserialize_with = "seen")]
    seen: Mark,
    /// A remark.
    pub note: String,
}

const USUAL: &str = include_str!("../../../shared/usual-fits.csv");
const ALLOWANCES: &str = include_str!("../../../shared/old-inch-allowances.csv");

/// Every usual fit of a pressed bush.
pub(crate) fn usual_cases() -> impl Iterator<Item = &'static UsualFit> {
    static ROWS: LazyLock<Vec<UsualFit>> = LazyLock::new(|| rows(USUAL));
    ROWS.iter()
}

/// The usual fits of pressed bushes whose rows hold at a diameter.
pub(crate) fn usual_fits(diameter: f64) -> impl Iterator<Item = &'static UsualFit> {
    usual_cases().filter(move |row| {
        row.over_mm.is_none_or(|over| diameter > over) && row.upto_mm.is_none_or(|upto| diameter <= upto)
    })
}

impl UsualFit {
    /// The diameters that it holds for, as a person says them; empty where it holds for all.
    pub fn sizes(&self) -> String {
        match (self.over_mm.filter(|over| *over > 0.0), self.upto_mm) {
            (Some(over), Some(upto)) => format!("over {} to {} mm", figure(over), figure(upto)),
            (Some(over), None) => format!("over {} mm", figure(over)),
            (None, Some(upto)) => format!("up to {} mm", figure(upto)),
            (None, None) => String::new(),
        }
    }

    /// Each part with the class or limits that the row gives it.
    pub fn parts(&self) -> impl Iterator<Item = (&'static str, &str)> {
        [
            ("housing", self.housing.as_str()),
            ("bush outside", &self.bush_outside),
            ("bush bore before pressing", &self.bush_bore_before),
            ("bush bore after pressing", &self.bush_bore_after),
            ("shaft", &self.shaft),
        ]
        .into_iter()
        .filter(|(_, class)| !class.is_empty())
    }

    /// Whether the row names a class as housing or bush.
    pub fn names(&self, class: &str) -> bool {
        self.parts().any(|(_, printed)| printed.split([' ', '.']).any(|word| word == class))
    }

    /// Where it comes from.
    pub fn source(&self) -> Source {
        cited(&self.source, self.seen)
    }
}

#[derive(Debug, Deserialize)]
struct AllowanceRow {
    fit: String,
    slope_low_thou_per_in: f64,
    slope_high_thou_per_in: f64,
    offset_thou: f64,
    source: String,
    #[serde(deserialize_with = "seen")]
    seen: Mark,
    note: String,
}

/// An old allowance of interference at a diameter.
#[derive(Debug)]
pub struct OldAllowance {
    /// The fit's old name.
    pub fit: &'static str,
    /// The interference, with a band where the row has one.
    pub interference: Worked<Mm>,
    /// Where the rule comes from.
    pub source: Source,
    /// A remark.
    pub note: &'static str,
}

/// The old inch allowances of press and shrink fits at a diameter.
///
/// # Errors
/// [`Refusal::Outside`] for a diameter that no workshop presses.
pub(crate) fn old_allowances(diameter: &Worked<Mm>) -> Result<Vec<OldAllowance>, Refusal> {
    static ROWS: LazyLock<Vec<AllowanceRow>> = LazyLock::new(|| rows(ALLOWANCES));
    ROWS.iter().map(|row| row.at(diameter)).collect()
}

impl AllowanceRow {
    fn at(&'static self, diameter: &Worked<Mm>) -> Result<OldAllowance, Refusal> {
        let source = cited(&self.source, self.seen);
        let offset = Worked::row(
            Mm::new(self.offset_thou * 0.0254),
            format!("{}: offset {} thou", self.fit, figure(self.offset_thou)),
            source.clone(),
        );
        let with = |slope: f64| {
            let says = format!("{}: {} thou for each inch", self.fit, figure(slope));
            old_allowance(diameter, &Worked::row(Ratio::new(slope), says, source.clone()), &offset)
        };
        let (low, high) = (with(self.slope_low_thou_per_in)?, with(self.slope_high_thou_per_in)?);
        let (least, most) = (low.number(), high.number());
        let interference = if least < most { high.with_band(least, most) } else { high };
        Ok(OldAllowance { fit: &self.fit, interference, source, note: &self.note })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::handbook::table::audit;

    #[test]
    fn every_row_loads() {
        for (all, good, first) in [audit::<UsualFit>(USUAL), audit::<AllowanceRow>(ALLOWANCES)] {
            assert_eq!(all, good, "{first}");
        }
    }

    #[test]
    fn a_drive_fit_of_an_inch_is_three_quarters_of_a_thou() {
        let inch = Worked::assumed(Mm::new(25.4), "an inch");
        let all = old_allowances(&inch).unwrap();
        let of = |fit: &str| all.iter().find(|row| row.fit == fit).unwrap().interference.clone();
        approx::assert_relative_eq!(of("drive").number(), 0.75 * 0.0254, epsilon = 1e-12);
        assert_eq!(of("press").band(), Some((0.0254, 0.0508)));
    }

    #[test]
    fn a_row_ends_up_to_and_including() {
        let cases = |d: f64| usual_fits(d).filter(|row| row.case == "sintered bronze").count();
        assert_eq!((cases(50.0), cases(50.001)), (1, 1));
        assert!(usual_fits(18.0).any(|row| row.case == "bimetal wrapped" && row.names("H7")));
    }
}
