//! What stands in a part, or near it, that bears less warmth than its metal; and what a temper of aluminium bears.

use super::heating::StopTemperature;
use crate::handbook::constants::constant;
use crate::handbook::table::{cited, rows, seen};
use crate::proof::{Mark, Refusal, Worked};
use crate::quantity::{Celsius, Quantity, figure};
use schemars::JsonSchema;
use serde::Deserialize;
use std::sync::LazyLock;

/// What is in the part, or so near that it becomes as warm.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Near {
    /// Nothing that warmth spoils.
    Nothing,
    /// Seals and rings of rubber.
    Seals,
    /// Rolling bearings.
    Bearings,
    /// White metal: a tin or lead lining.
    Babbitt,
    /// Soft solder.
    Solder,
    /// Magnets.
    Magnets,
    /// Paint or lacquer.
    Paint,
    /// Threads or joints that are glued.
    Adhesive,
    /// Cages, insulation, caps.
    Plastic,
    /// Fuel, or what smells of it.
    Fuel,
    /// Oil in pores and hollows.
    Oil,
    /// A hollow that is shut and may be wet.
    ShutHollow,
}

impl Near {
    /// Each with its word.
    pub const ALL: [(Self, &'static str); 12] = [
        (Self::Nothing, "nothing"),
        (Self::Seals, "seals"),
        (Self::Bearings, "bearings"),
        (Self::Babbitt, "babbitt"),
        (Self::Solder, "solder"),
        (Self::Magnets, "magnets"),
        (Self::Paint, "paint"),
        (Self::Adhesive, "adhesive"),
        (Self::Plastic, "plastic"),
        (Self::Fuel, "fuel"),
        (Self::Oil, "oil"),
        (Self::ShutHollow, "shut-hollow"),
    ];

    /// Its word.
    pub fn text(self) -> &'static str {
        Self::ALL.iter().find(|(near, _)| *near == self).map_or("", |(_, word)| word)
    }

    /// Whether its limit is that of seals and rolling bearings, which stands beside the stops of the metals.
    const fn beside_the_metals(self) -> bool {
        matches!(self, Self::Seals | Self::Bearings)
    }
}

/// How an aluminium was hardened.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Temper {
    /// As cast, or annealed.
    AsCast,
    /// Aged warm: T5, T6.
    Artificial,
    /// Aged at room temperature: T3, T4.
    Natural,
}

impl Temper {
    /// Every temper.
    pub const ALL: [Self; 3] = [Self::AsCast, Self::Artificial, Self::Natural];

    const fn row(self) -> &'static str {
        match self {
            Self::AsCast => "temper:as-cast",
            Self::Artificial => "temper:artificial",
            Self::Natural => "temper:natural",
        }
    }
}

#[derive(Debug, Deserialize)]
struct Row {
    what: String,
    doubtful_degc: f64,
    fails_degc: f64,
    reason: String,
    source: String,
    #[serde(deserialize_with = "seen")]
    seen: Mark,
}

const LIMITS: &str = include_str!("../../../shared/warm-limits.csv");

fn table() -> &'static [Row] {
    static ROWS: LazyLock<Vec<Row>> = LazyLock::new(|| rows(LIMITS));
    &ROWS
}

/// How warm a thing may become, and why no warmer.
#[derive(Clone, Debug)]
pub struct WarmLimit {
    /// Its two limits.
    pub stop: StopTemperature,
    /// Why.
    pub reason: &'static str,
}

fn limit(what: &str) -> Result<WarmLimit, Refusal> {
    let row = table().iter().find(|row| row.what == what);
    let row = row.ok_or_else(|| Refusal::NoRow { table: "warm limits", wanted: what.into() })?;
    let end = |at: f64| {
        Worked::row(Celsius::new(at), format!("{}: {} °C", row.what, figure(at)), cited(&row.source, row.seen))
    };
    let stop = StopTemperature { doubtful: end(row.doubtful_degc), fails: end(row.fails_degc) };
    Ok(WarmLimit { stop, reason: &row.reason })
}

/// How warm a thing of the table may become.
///
/// # Errors
/// [`Refusal::NoRow`] where the table lacks it.
pub fn of_near(near: Near) -> Result<WarmLimit, Refusal> {
    if near.beside_the_metals() {
        let stop: Worked<Celsius> = constant("stop-temperature-seals-bearings-and-case-hardened")?;
        let stop = StopTemperature { doubtful: stop.clone(), fails: stop };
        return Ok(WarmLimit { stop, reason: "rubber and grease do not come back from more" });
    }
    limit(near.text())
}

/// How warm an aluminium of this temper may become.
///
/// # Errors
/// [`Refusal::NoRow`] where the table lacks it.
pub fn of_temper(temper: Temper) -> Result<WarmLimit, Refusal> {
    limit(temper.row())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_row_loads_and_every_thing_has_its_limits_in_order() {
        let (all, good, first) = crate::handbook::table::audit::<Row>(LIMITS);
        assert_eq!(all, good, "{first}");
        for (near, word) in Near::ALL {
            let read: Near = serde_json::from_str(&format!("\"{word}\"")).unwrap();
            assert_eq!(read, near);
            if near != Near::Nothing {
                let limit = of_near(near).unwrap().stop;
                assert!(limit.doubtful.number() <= limit.fails.number(), "{word}");
            }
        }
        for temper in Temper::ALL {
            assert!(of_temper(temper).unwrap().stop.doubtful.number() >= 100.0);
        }
    }
}
