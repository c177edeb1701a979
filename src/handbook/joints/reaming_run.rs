//! How a machine reamer runs: slower than a drill, fed faster, and with what on it.

use super::reaming_rows::table;
use crate::formula;
use crate::handbook::cutting::coolants;
use crate::handbook::cutting::speeds::{Work, drill_feed, rows_of, start_speed};
use crate::handbook::cutting::tool_material::ToolMaterial;
use crate::handbook::materials::groups::Material;
use crate::proof::{Refusal, Source, Worked};
use crate::quantity::{MPerMin, MmPerRev, Quantity, Ratio};

formula! {
    /// Reaming speed where the book has only the drilling speed.
    speed_from_drilling(k: Ratio = "the share of the drilling speed" in 0.1..=1.0, v: MPerMin = "the drilling speed" in 0.1..=1_000.0)
        -> v_r: MPerMin { k * v }
    source Read "Army lathe manual: half the drilling speed"
}
formula! {
    /// Reaming feed: a reamer that is fed like a drill rubs.
    feed_from_drilling(k: Ratio = "how many times the drilling feed" in 0.5..=5.0, f: MmPerRev = "the drilling feed" in 0.001..=3.0)
        -> f_r: MmPerRev { k * f }
    source CommonPractice "twice to three times the drilling feed"
}

/// Cutting speed of a machine reamer of HSS on a hand-fed machine: the book's row or half the drilling speed, whichever is the
/// slower, for a fast reamer chatters and cuts oversize.
///
/// # Errors
/// [`Refusal::NoRow`] where the book has neither.
pub fn reaming_speed(material: &Material) -> Result<Worked<MPerMin>, Refusal> {
    let own = start_speed(material, Work::Ream, ToolMaterial::Hss);
    let drilling = start_speed(material, Work::Drill, ToolMaterial::Hss);
    let drilling = match (&own, drilling) {
        (Ok(_), Err(_)) => start_speed(material, Work::Drill, ToolMaterial::HssCo),
        (_, drilling) => drilling,
    };
    let half = drilling.and_then(|v| speed_from_drilling(&share_of(material)?, &v));
    slower(own, half)
}

/// Cutting speed of a machine reamer by what it cuts with: of HSS [`reaming_speed`], of anything else the book's row, but not
/// faster than a drill of HSS begins: the rows of carbide reamers are a producer's.
///
/// # Errors
/// [`Refusal::NoRow`] where the book has no row.
pub fn reaming_speed_with(material: &Material, tool: ToolMaterial) -> Result<Worked<MPerMin>, Refusal> {
    if tool.is_steel() && tool != ToolMaterial::CarbonSteel {
        return reaming_speed(material);
    }
    let own = start_speed(material, Work::Ream, tool)?;
    slower(Ok(own), start_speed(material, Work::Drill, ToolMaterial::Hss))
}

/// The slower of two speeds, or the one there is.
fn slower(
    own: Result<Worked<MPerMin>, Refusal>,
    other: Result<Worked<MPerMin>, Refusal>,
) -> Result<Worked<MPerMin>, Refusal> {
    match (own, other) {
        (Ok(own), Ok(other)) if other.number() < own.number() => Ok(other),
        (Err(_), other) => other,
        (own, _) => own,
    }
}

fn share_of(material: &Material) -> Result<Worked<Ratio>, Refusal> {
    let rows = rows_of(material, "ream-vc-factor", Some(ToolMaterial::Hss));
    let own = rows.into_iter().find_map(|row| Some((row, row.low?)));
    own.map_or_else(share_of_drilling, |(row, share)| Ok(Worked::row(Ratio::new(share), row.says(), row.source())))
}

fn share_of_drilling() -> Result<Worked<Ratio>, Refusal> {
    let row = table().iter().find(|row| row.topic == "speed" && row.unit.contains("drilling"));
    row.and_then(|row| row.ends::<Ratio>(1.0))
        .map(|ends| ends.0)
        .ok_or_else(|| Refusal::NoRow { table: "reaming speed", wanted: "a share of the drilling speed".into() })
}

/// Feed of a machine reamer, as a band: twice to three times that of a drill.
///
/// # Errors
/// [`Refusal::NoRow`] outside the table of drill feeds.
pub(crate) fn reaming_feed(diameter: f64) -> Result<Worked<MmPerRev>, Refusal> {
    let row = table().iter().find(|row| row.topic == "feed" && row.unit.contains("drilling"));
    let (twice, thrice) = row
        .and_then(|row| row.ends::<Ratio>(1.0))
        .ok_or_else(|| Refusal::NoRow { table: "reaming feed", wanted: "so many times the drilling feed".into() })?;
    let drill = drill_feed(diameter)?;
    let most = drill.band().map_or(drill.number(), |band| band.1);
    let feed = feed_from_drilling(&twice, &drill)?;
    let (low, high) = (feed.number(), thrice.number() * most);
    Ok(feed.with_band(low, high))
}

/// What to ream a metal with, and who says so: the row for reaming before the row for everything.
pub(crate) fn lubricant(material: &Material) -> Option<(&'static str, Source)> {
    let of = |operation: &str| coolants::of(material).find(|row| row.operation == operation);
    of("ream").or_else(|| of("any")).map(|row| (row.coolant.as_str(), row.source()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_reamer_is_slower_than_a_drill_and_fed_faster() {
        let bronze: Material = "phosphor bronze".parse().unwrap();
        let gunmetal: Material = "leaded bronze".parse().unwrap();
        assert_eq!(reaming_speed(&bronze).unwrap().number(), 4.5);
        assert_eq!(reaming_speed(&gunmetal).unwrap().number(), 8.0);
        assert_eq!(reaming_feed(16.0).unwrap().number(), 2.0 * drill_feed(16.0).unwrap().number());
        assert!(lubricant(&bronze).unwrap().0.starts_with("cutting oil"));
    }
}
