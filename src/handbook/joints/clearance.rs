//! Running clearance of a bush: by what was asked, or by the rule for its duty, which engine data always overrule.

use super::fits::{Grade, tolerance};
use crate::formula;
use crate::handbook::constants::row as constant_row;
use crate::handbook::table::{cited, rows, seen};
use crate::proof::{Mark, Refusal, Source, Worked};
use crate::quantity::{Mm, Quantity, Ratio, figure};
use schemars::JsonSchema;
use serde::Deserialize;
use std::sync::LazyLock;

formula! {
    /// Clearance by a workshop rule, so many thou per inch of diameter and so many more.
    clearance_by_rule(s: Ratio = "thou per inch" in -5.0..=10.0, D: Mm = "the shaft diameter" in 0.5..=1_000.0, o: Ratio = "thou more" in -5.0..=10.0)
        -> c: Mm { 0.0254 * (s * D / 25.4 + o) }
    source CommonPractice "motor-shop, model engineers' and works rules; the row names its own"
}
formula! {
    /// Least bore for a shaft and its least clearance.
    bore_least(d_s: Mm = "the largest shaft" in 0.5..=1_000.0, c_min: crate::quantity::Shift = "the least clearance" in -5.0..=5.0)
        -> D_min: Mm { d_s + c_min }
    source Derived "limits add by worst case"
}
formula! {
    /// Greatest bore for a shaft and its greatest clearance.
    bore_most(d_s: Mm = "the smallest shaft" in 0.5..=1_000.0, c_max: crate::quantity::Shift = "the greatest clearance" in -5.0..=5.0)
        -> D_max: Mm { d_s + c_max }
    source Derived "limits add by worst case"
}
formula! {
    /// Clearance between a bore and a shaft; negative binds.
    clearance(D: Mm = "the bore" in 0.5..=1_000.0, d_s: Mm = "the shaft" in 0.5..=1_000.0)
        -> c: crate::quantity::Shift { D - d_s }
    source Derived "difference of two diameters"
}
formula! {
    /// How wide the window of the finished bore is.
    window(D_max: Mm = "the greatest bore" in 0.5..=1_000.0, D_min: Mm = "the least bore" in 0.5..=1_000.0)
        -> w: crate::quantity::Shift { D_max - D_min }
    source Derived "difference of two limits"
}
formula! {
    /// Greatest doubt of the shaft that leaves half of the window for the bore.
    shaft_doubt_most(c_min: crate::quantity::Shift = "the least clearance" in -5.0..=5.0,
        c_max: crate::quantity::Shift = "the greatest clearance" in -5.0..=5.0)
        -> U_s: Mm { max(0.0, (c_max - c_min) / 4.0) }
    source Derived "the shaft's doubt comes off the window twice: half of it left"
}
formula! {
    /// Greatest doubt of an instrument that can prove a size inside a window.
    doubt_most(k: Ratio = "the share of the window" in 0.01..=1.0, w: crate::quantity::Shift = "the window" in -1.0..=5.0)
        -> U_max: Mm { max(0.0, k * w) }
    source Own "a quarter of the window"
}

/// What a bush does.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Duty {
    /// Gearbox shafts.
    Gear,
    /// Rocker spindles.
    Rocker,
    /// Gudgeon pins.
    SmallEnd,
    /// King pins.
    Kingpin,
    /// Anything else that is oiled and turns.
    General,
}

impl Duty {
    /// Every duty.
    pub const ALL: [Self; 5] = [Self::Gear, Self::Rocker, Self::SmallEnd, Self::Kingpin, Self::General];

    /// As it is typed.
    pub const fn text(self) -> &'static str {
        match self {
            Self::Gear => "gear",
            Self::Rocker => "rocker",
            Self::SmallEnd => "small-end",
            Self::Kingpin => "kingpin",
            Self::General => "general",
        }
    }
}

#[derive(Debug, Deserialize)]
struct Row {
    rule: String,
    duty: String,
    slope_low_thou_per_in: f64,
    slope_high_thou_per_in: f64,
    offset_low_thou: f64,
    offset_high_thou: f64,
    source: String,
    #[serde(deserialize_with = "seen")]
    seen: Mark,
}

const CLEARANCES: &str = include_str!("../../../shared/duty-clearances.csv");

fn table() -> &'static [Row] {
    static ROWS: LazyLock<Vec<Row>> = LazyLock::new(|| rows(CLEARANCES));
    &ROWS
}

/// The clearance of a duty.
#[derive(Clone, Debug, PartialEq)]
pub struct DutyClearance {
    /// Least.
    pub low: Worked<Mm>,
    /// Greatest.
    pub high: Worked<Mm>,
    /// The rules it comes from, by name.
    pub rules: String,
    /// The same as a shop says them.
    pub told: String,
    /// Where the rules come from.
    pub source: Source,
}

/// The default clearance of a duty for a shaft. Where two rules cross the smaller is the low end; nothing below 0.010 mm; a
/// window narrower than 0.010 mm is widened upward. The oscillating rule is an interference fit and belongs to no duty.
///
/// # Errors
/// [`Refusal::NoRow`] where the table has no rule for the duty or no tolerance grade for the size.
pub(crate) fn duty_clearance(duty: Duty, shaft: &Worked<Mm>) -> Result<DutyClearance, Refusal> {
    let of_duty: Vec<&Row> = table().iter().filter(|row| row.duty == duty.text()).collect();
    let mut ends: Vec<Worked<Mm>> = Vec::new();
    for row in &of_duty {
        let ratio =
            |x: f64| Worked::row(Ratio::new(x), format!("{}: {}", row.rule, figure(x)), cited(&row.source, row.seen));
        let d = shaft.nominal("a workshop rule goes by the size, not by its last hundredths");
        ends.push(clearance_by_rule(&ratio(row.slope_low_thou_per_in), &d, &ratio(row.offset_low_thou))?);
        ends.push(clearance_by_rule(&ratio(row.slope_high_thou_per_in), &d, &ratio(row.offset_high_thou))?);
    }
    let by_size = |a: &&Worked<Mm>, b: &&Worked<Mm>| a.number().total_cmp(&b.number());
    let lacking = || Refusal::NoRow { table: "running clearance", wanted: duty.text().into() };
    let (mut low, mut high) = match (ends.iter().min_by(by_size), ends.iter().max_by(by_size)) {
        (Some(low), Some(high)) => (low.clone(), high.clone()),
        _ => return Err(lacking()),
    };
    if duty == Duty::Kingpin {
        let half = tolerance(Grade::Number(7), shaft.number())? / 2000.0;
        low = low.shifted(-half, "less half of IT7");
        high = high.shifted(half, "and half of IT7");
    }
    let least = constant_row("clearance-least")?.value;
    let window = constant_row("clearance-window-least")?.value;
    low = low.at_least(least, "no default below");
    high = high.at_least(low.number() + window, "window widened upward to");
    let rules: Vec<&str> = of_duty.iter().map(|row| row.rule.as_str()).collect();
    let keys: Vec<&str> = of_duty.iter().map(|row| row.source.as_str()).collect();
    let mark = of_duty.iter().map(|row| row.seen).max().unwrap_or(Mark::Own);
    let source = cited(&keys.join(";"), mark);
    let told: Vec<String> = of_duty.iter().map(|row| row.told()).collect();
    Ok(DutyClearance { low, high, rules: rules.join(" and "), told: told.join(", or "), source })
}

impl Row {
    /// The rule as a shop says it: so much an inch of diameter, and so much.
    fn told(&self) -> String {
        let of = |low: f64, high: f64| match low == high {
            true => figure(low),
            false => format!("{} to {}", figure(low), figure(high)),
        };
        let slope = of(self.slope_low_thou_per_in, self.slope_high_thou_per_in);
        let offset = of(self.offset_low_thou, self.offset_high_thou);
        match (slope.as_str(), offset.as_str()) {
            (slope, "0") => format!("{slope} thou an inch"),
            ("0", offset) => format!("{offset} thou"),
            (slope, offset) => format!("{slope} thou an inch and {offset} thou"),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::proof::Worked;

    fn of(duty: Duty, d: f64) -> (String, String) {
        let both = duty_clearance(duty, &Worked::assumed(Mm::new(d), "a test")).unwrap();
        (format!("{:.4}", both.low.number()), format!("{:.4}", both.high.number()))
    }

    #[test]
    fn every_row_loads() {
        let (all, good, first) = crate::handbook::table::audit::<Row>(CLEARANCES);
        assert_eq!(all, good, "{first}");
        assert!(
            table().iter().any(|row| row.rule == "oscillating" && row.duty.is_empty()),
            "an interference fit is no default"
        );
    }

    #[test]
    fn gear_is_one_to_two_thou_and_rocker_goes_between_two_rules() {
        assert_eq!(of(Duty::Gear, 16.0), ("0.0254".into(), "0.0508".into()));
        let (low, high) = of(Duty::Rocker, 12.7);
        assert_eq!((low.as_str(), high.as_str()), ("0.0210", "0.0444"));
    }

    #[test]
    fn where_rules_cross_the_smaller_is_the_low_end() {
        assert_eq!(of(Duty::General, 16.0), ("0.0240".into(), "0.0414".into()));
        // At 3 in, 1.5 thou per inch (4.5) has passed 1 thou per inch and 1 thou (4.0).
        assert_eq!(of(Duty::General, 76.2), ("0.1016".into(), "0.1143".into()));
        // Where they meet, at 2 in, the window is widened upward.
        assert_eq!(of(Duty::General, 50.8), ("0.0762".into(), "0.0862".into()));
    }

    #[test]
    fn nothing_below_a_hundredth_and_no_window_under_one() {
        assert_eq!(of(Duty::SmallEnd, 17.5), ("0.0100".into(), "0.0200".into()));
        assert_eq!(of(Duty::SmallEnd, 40.0), ("0.0160".into(), "0.0320".into()));
        assert_eq!(of(Duty::Kingpin, 20.0), ("0.0403".into(), "0.0613".into()));
    }
}
