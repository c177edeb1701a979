//! Oversizes that pistons are sold in, and the clearance of a piston whose maker says nothing.

use crate::handbook::materials::groups::Kind;
use crate::handbook::table::{cited, rows, seen};
use crate::proof::{Mark, Refusal, Worked};
use crate::quantity::{Mm, Quantity, Ratio};
use schemars::JsonSchema;
use serde::Deserialize;
use std::sync::LazyLock;

/// In which unit oversizes are counted: 0.010 in is not 0.25 mm.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Series {
    /// Hundredths of an inch.
    #[serde(alias = "imperial", alias = "inches")]
    Inch,
    /// Quarters of a millimetre.
    Metric,
    /// Either.
    Both,
}

/// A row of the table of oversizes.
#[derive(Clone, Debug, Deserialize)]
pub struct Oversize {
    /// Its series.
    pub series: Series,
    /// In the unit of its series.
    pub oversize: f64,
    source: String,
    #[serde(deserialize_with = "seen")]
    seen: Mark,
}

impl Oversize {
    /// As it is marked.
    pub fn marked(&self) -> String {
        match self.series {
            Series::Metric => format!("+{:.2} mm", self.oversize),
            Series::Inch | Series::Both => format!("+{:.3} in", self.oversize),
        }
    }

    /// In millimetres.
    pub fn mm(&self) -> f64 {
        match self.series {
            Series::Metric => self.oversize,
            Series::Inch | Series::Both => self.oversize * 25.4,
        }
    }

    /// The figure with its source.
    pub fn worked(&self) -> Worked<Mm> {
        Worked::row(Mm::new(self.mm()), format!("oversize {}", self.marked()), cited(&self.source, self.seen))
    }
}

#[derive(Debug, Deserialize)]
struct Clearance {
    piston: String,
    cooling: Cooling,
    least_permille: f64,
    most_permille: f64,
    source: String,
    #[serde(deserialize_with = "seen")]
    seen: Mark,
}

/// What takes the heat away.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Cooling {
    /// Fins.
    Air,
    /// A jacket.
    Water,
}

const OVERSIZES: &str = include_str!("../../../shared/oversizes.csv");
const CLEARANCES: &str = include_str!("../../../shared/piston-clearance.csv");

/// Every oversize.
pub fn oversizes() -> &'static [Oversize] {
    static ROWS: LazyLock<Vec<Oversize>> = LazyLock::new(|| rows(OVERSIZES));
    &ROWS
}

/// Least and greatest clearance of a piston by its metal and by what cools the cylinder, as shares of the bore.
///
/// # Errors
/// [`Refusal::NoRow`] for a metal that the table lacks.
pub fn usual_clearance(piston: Kind, cooling: Cooling) -> Result<[Worked<Ratio>; 2], Refusal> {
    static ROWS: LazyLock<Vec<Clearance>> = LazyLock::new(|| rows(CLEARANCES));
    let metal = match piston {
        Kind::Aluminium => "aluminium",
        Kind::GreyIron | Kind::DuctileIron => "iron",
        _ => "another metal",
    };
    let row = ROWS.iter().find(|row| row.piston == metal && row.cooling == cooling);
    let row = row.ok_or_else(|| Refusal::NoRow { table: "piston clearance", wanted: metal.into() })?;
    let share = |permille: f64| {
        let says = format!("{} piston: {permille} thousandths of the bore", row.piston);
        Worked::row(Ratio::new(permille / 1000.0), says, cited(&row.source, row.seen))
    };
    Ok([share(row.least_permille), share(row.most_permille)])
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_row_loads() {
        let (all, good, first) = crate::handbook::table::audit::<Oversize>(OVERSIZES);
        assert_eq!(all, good, "{first}");
        let (all, good, first) = crate::handbook::table::audit::<Clearance>(CLEARANCES);
        assert_eq!(all, good, "{first}");
        assert_eq!(oversizes().first().map(Oversize::mm), Some(0.254));
    }
}
