//! Reaming: what a reamer measures, how much it may take, in which steps, how fast, and what must not be reamed.

use super::fits::Class;
use crate::formula;
use crate::handbook::constants::{constant, row as constant_row, worst};
use crate::handbook::materials::groups::{Kind, Material};
use crate::handbook::measuring::instruments;
use crate::handbook::table::cited;
use crate::proof::{Refusal, Worked};
use crate::quantity::{Mm, Quantity, figure};

formula! {
    /// Largest size of a fixed reamer for a hole class: `a` is 0.15 IT, rounded **up** to a whole micrometre.
    reamer_high(D_max: Mm = "the greatest hole" in 0.1..=500.0, a: Mm = "the share kept for cutting over" in 0.0..=1.0)
        -> d_max: Mm { D_max - a }
    source Read "DIN 1420 as a reamer maker's table prints it"
}
formula! {
    /// Smallest size of a fixed reamer: `b` is 0.35 IT, rounded **up** to a whole micrometre.
    reamer_low(d_max: Mm = "the largest size of the reamer" in 0.1..=500.0, b: Mm = "the reamer's own tolerance" in 0.0..=1.0)
        -> d_min: Mm { d_max - b }
    source Read "DIN 1420 as a reamer maker's table prints it"
}
formula! {
    /// Stock left for the reamer, on diameter; negative where the bore is already too large.
    stock_left(D_m: Mm = "the middle of the finished bore" in 0.1..=1_000.0, D_p: Mm = "the bore after pressing" in 0.01..=1_000.0)
        -> s: crate::quantity::Shift { D_m - D_p }
    source Derived "difference of two diameters"
}
formula! {
    /// Middle of two limits.
    middle(D_min: Mm = "the least bore" in 0.01..=1_000.0, D_max: Mm = "the greatest bore" in 0.01..=1_000.0)
        -> D_m: Mm { (D_min + D_max) / 2.0 }
    source Derived "half of the sum"
}
/// The size of a fixed reamer.
#[derive(Clone, Debug, PartialEq)]
pub struct ReamerSize {
    /// Smallest, mm.
    pub low: Worked<Mm>,
    /// Largest, mm.
    pub high: Worked<Mm>,
}

/// The size of a reamer for a hole class at a nominal size, mm (DIN 1420). The *fractions* of the tolerance are rounded up, not
/// the diameters.
///
/// # Errors
/// [`Refusal::Outside`] or [`Refusal::NoRow`] where the hole class has no limits at that size.
pub fn reamer_size(nominal: f64, class: &Class) -> Result<ReamerSize, Refusal> {
    let deviations = class.deviations(nominal)?;
    let tolerance = deviations.upper - deviations.lower;
    let (_, greatest) = class.limits(nominal)?;
    let high = reamer_high(&greatest, &share_of_tolerance("reamer-high-share", tolerance)?)?;
    let low = reamer_low(&high, &share_of_tolerance("reamer-width-share", tolerance)?)?;
    Ok(ReamerSize { low, high })
}

/// A share of a tolerance in µm, rounded up to a whole one, as mm.
fn share_of_tolerance(share: &'static str, tolerance: f64) -> Result<Worked<Mm>, Refusal> {
    let row = constant_row(share)?;
    let exact = row.value * tolerance;
    let up = (exact - 1e-9).ceil();
    let line = format!("{} × {tolerance} µm = {} µm, rounded up: {up} µm", row.value, figure(exact));
    Ok(Worked::method(Mm::new(up / 1000.0), vec![line], cited(row.source, row.seen)))
}

/// How a bore is reamed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Way {
    /// With a fixed reamer and a wrench.
    FixedByHand,
    /// With an expanding reamer: more stock is only more passes.
    Expanding,
    /// With a reamer in a spindle.
    Machine,
}

/// The stock on diameter that a reamer may take: to the inner pair proven, to the outer pair doubtful.
#[derive(Clone, Debug, PartialEq)]
pub struct Stock {
    /// Less only rubs.
    pub least: Worked<Mm>,
    /// More cuts oversize, or will not turn by hand.
    pub most: Worked<Mm>,
    /// Over this it fails.
    pub doubtful_most: Worked<Mm>,
    /// What a bush made here is bored to leave.
    pub aim: Worked<Mm>,
}

/// The stock limits of a way of reaming at a diameter in mm.
///
/// # Errors
/// [`Refusal::NoRow`] where the table of constants lacks one.
pub fn stock(way: Way, diameter: f64) -> Result<Stock, Refusal> {
    let aimed =
        |name| -> Result<Worked<Mm>, Refusal> { Ok(constant::<Mm>(name)?.nominal("aimed at: the band is the limits")) };
    let of = |name, most, doubtful_most, aim| {
        Ok(Stock { least: worst(name, false)?, most, doubtful_most: constant(doubtful_most)?, aim: aimed(aim)? })
    };
    let by_hand = "ream-stock-hand";
    match way {
        Way::FixedByHand => of(by_hand, worst(by_hand, true)?, "ream-stock-hand-doubtful", by_hand),
        Way::Expanding => of(by_hand, constant("ream-stock-expanding-most")?, "ream-stock-doubtful-most", by_hand),
        Way::Machine => {
            let small = diameter <= constant_row("ream-stock-machine-small")?.value;
            let row = if small { "ream-stock-machine-to-11" } else { "ream-stock-machine-over-11" };
            of(row, worst(row, true)?, "ream-stock-doubtful-most", row)
        }
    }
}

formula! {
    /// What a fixed reamer cuts: its own size and what it cuts over.
    reamer_cuts(d_r: Mm = "the largest size of the reamer" in 0.1..=500.0, o: crate::quantity::Shift = "what it cuts over" in -0.5..=0.5)
        -> D_c: Mm { d_r + o }
    source Derived "size and what it cuts over"
}

/// What a fixed reamer cuts over where the shop has not seen it: a band from nothing.
///
/// # Errors
/// [`Refusal::NoRow`] where the table of constants lacks it.
pub(crate) fn usual_cuts_over(by_hand: bool) -> Result<Worked<crate::quantity::Shift>, Refusal> {
    constant(if by_hand { "cuts-over-by-hand" } else { "cuts-over-by-machine" })
}

/// The settings of an expanding reamer on the way from a bore to its target, mm on diameter: coarse steps to near size, then
/// fine ones. The last is the target; it is passed twice.
///
/// # Errors
/// [`Refusal::NoRow`] where the table of constants lacks the steps.
pub fn approach(bore: f64, target: f64) -> Result<Vec<f64>, Refusal> {
    let step = |name| constant_row(name).map(|row| row.value);
    let (coarse, near, fine) = (step("ream-step-coarse")?, step("ream-step-near")?, step("ream-step-fine")?);
    let stock = target - bore;
    let count = |length: f64, step: f64| (length / step - 1e-9).ceil().max(0.0);
    let coarse_way = (stock - near).max(0.0);
    let coarse_passes = count(coarse_way, coarse);
    let fine_passes = count(stock.min(near), fine);
    let from = bore + coarse_way;
    let each = |k: f64| if coarse_passes > 0.0 { bore + coarse_way * k / coarse_passes } else { bore };
    let coarse_settings = counted(coarse_passes).map(each);
    let fine_settings = counted(fine_passes).map(|k| from + (target - from) * k / fine_passes);
    Ok(coarse_settings.chain(fine_settings).collect())
}

/// 1, 2, 3 … up to a count.
fn counted(count: f64) -> impl Iterator<Item = f64> {
    std::iter::successors(Some(1.0), |k| Some(k + 1.0)).take_while(move |k| *k <= count + 1e-9)
}

/// Bush kinds that lose what they are made for when they are reamed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NotReamed {
    /// Its pores are smeared shut.
    Sintered,
    /// Its lining is a few hundredths thick.
    PtfeLined,
    /// Its running layer is a few hundredths thick.
    Plated,
    /// It is as hard as the reamer.
    Hardened,
}

/// Whether a bush material alone forbids the reamer.
pub fn forbids_reaming(material: &Material) -> Option<NotReamed> {
    match material.kind() {
        Kind::Sintered => Some(NotReamed::Sintered),
        Kind::HardSteel => Some(NotReamed::Hardened),
        _ if material.id() == "ptfe" => Some(NotReamed::PtfeLined),
        _ => None,
    }
}

/// The uncertainty (k = 2) of the bore gauge that most shops have: one that is set by a micrometer. The same figure is taken
/// for bores beside the row's range: it comes from the setting, not from the size.
///
/// # Errors
/// [`Refusal::NoRow`] where the table has no such gauge.
pub(crate) fn usual_bore_gauge() -> Result<Worked<Mm>, Refusal> {
    let name = "bore gauge set by micrometer";
    let row = instruments::table().iter().find(|row| row.instrument == name);
    row.map(instruments::Row::uncertainty).ok_or_else(|| Refusal::NoRow { table: "instrument", wanted: name.into() })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Source: the maker's table of DIN 1420 reamers for H7 holes, all seven steps, and its example 10 D8.
    #[test]
    fn fractions_are_rounded_up_and_not_diameters() {
        let size = |nominal: f64, class: &str| {
            let size = reamer_size(nominal, &class.parse().unwrap()).unwrap();
            let um = |x: &Worked<Mm>| ((x.number() - nominal) * 1000.0).round();
            (um(&size.low), um(&size.high))
        };
        let printed = [
            (2.0, 4.0, 8.0),
            (5.0, 5.0, 10.0),
            (8.0, 6.0, 12.0),
            (16.0, 8.0, 15.0),
            (25.0, 9.0, 17.0),
            (40.0, 12.0, 21.0),
            (60.0, 14.0, 25.0),
        ];
        for (nominal, low, high) in printed {
            assert_eq!(size(nominal, "H7"), (low, high), "{nominal}");
        }
        assert_eq!(size(10.0, "D8"), (50.0, 58.0));
        assert_ne!(size(16.0, "H7"), (10.0, 16.0), "that is what rounding the diameters gives");
    }

    /// Source: own: a phosphor bronze bush, 15.9295 to 16.0221.
    #[test]
    fn the_worked_bush_is_approached_in_steps() {
        let settings = approach(15.9295, 16.0221).unwrap();
        let shown: Vec<String> = settings.iter().map(|s| format!("{s:.3}")).collect();
        assert_eq!(shown, ["15.961", "15.992", "16.002", "16.012", "16.022"]);
        assert_eq!(approach(16.0, 16.015).unwrap().len(), 2);
        assert!(approach(16.0, 15.9).unwrap().is_empty());
        assert_eq!(approach(15.8, 16.03).unwrap().len() + 1, 8, "0.23 mm is only more passes");
    }

    #[test]
    fn stock_goes_by_the_way_of_reaming() {
        let of = |way, d| {
            let stock = stock(way, d).unwrap();
            (stock.least.number(), stock.most.number(), stock.doubtful_most.number())
        };
        assert_eq!(of(Way::FixedByHand, 16.0), (0.02, 0.18, 0.25));
        assert_eq!(of(Way::Expanding, 16.0), (0.02, 0.4, 0.8));
        assert_eq!(of(Way::Machine, 10.0), (0.1, 0.3, 0.8));
        assert_eq!(of(Way::Machine, 16.0), (0.2, 0.4, 0.8));
    }

    #[test]
    fn some_bushes_are_never_reamed() {
        let of = |name: &str| forbids_reaming(&name.parse().unwrap());
        assert_eq!(of("sintered bronze"), Some(NotReamed::Sintered));
        assert_eq!(of("PTFE"), Some(NotReamed::PtfeLined));
        assert_eq!(of("case-hardened steel"), Some(NotReamed::Hardened));
        assert_eq!(of("hard-50"), Some(NotReamed::Hardened));
        assert_eq!(of("phosphor bronze"), None);
    }
}
