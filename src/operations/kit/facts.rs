//! Figures as a sheet shows them.

use crate::operations::Bench;
use crate::proof::{DividedIn, Fact, Side, Worked};
use crate::quantity::{Decimals, Print, Quantity, Rounds, Unit, drawer_name, figure, listed_size};

/// A length.
pub fn mm(number: f64) -> Fact {
    Fact::mm(number)
}

/// What is left at worst, to hundredths of a millimetre, rounded towards the worse.
pub fn hundredths(number: f64) -> Fact {
    Fact::mm(number).to(Decimals::Exactly(2)).rounded(Rounds::Down)
}

/// About how long: what to get for a size, without saying the size.
pub fn about(number: f64) -> Fact {
    Fact::mm(number).to(Decimals::Exactly(0)).rounded(Rounds::Down)
}

/// A length with the digits that it was typed with.
pub fn mm_as_typed(number: f64) -> Fact {
    Fact::mm(number).to(Decimals::AsTyped)
}

/// A drill: the fraction of an inch that it is called by, its number or letter with its size, else its size.
pub fn drill_size(number: f64) -> Fact {
    match drawer_name(number) {
        Some(name) if name.ends_with(" in") => name.into(),
        Some(name) => Fact::Joined(vec![format!("{name} (").into(), mm_as_typed(listed_size(number)), ")".into()]),
        None => tool_size(number),
    }
}

/// Whether a tool or a shim of that size is marked in millimetres: it is whole hundredths of one and not whole thousandths of an
/// inch.
pub fn is_marked_in_mm(number: f64) -> bool {
    let whole = |steps: f64| (steps - steps.round()).abs() < 1e-6;
    whole(number * 100.0) && !whole(number / 25.4 * 1000.0)
}

/// A size of a tool as it is marked, whatever unit is printed.
pub fn tool_size(number: f64) -> Fact {
    if is_marked_in_mm(number) { format!("{} mm", figure(number)).into() } else { mm_as_typed(number) }
}

/// Shims as they lie, by what stands on them, whatever unit is printed; nothing where none lies there.
pub fn shims_as_marked(all: &[f64]) -> Option<Fact> {
    if all.is_empty() {
        return None;
    }
    if all.iter().all(|thickness| is_marked_in_mm(*thickness)) {
        let each: Vec<String> = all.iter().map(|thickness| format!("{thickness:.3}")).collect();
        return Some(format!("{} mm", each.join(" + ")).into());
    }
    let each = all.iter().map(|thickness| Fact::mm(*thickness).to(Decimals::Exactly(3)));
    Some(Fact::Series(each.collect(), " + "))
}

/// A drill by the name on its drawer where it has one, else its size as other lengths are shown.
pub fn by_its_drawer(number: f64) -> Fact {
    drawer_name(number).map_or_else(|| mm(number), |_| drill_size(number))
}

/// A temperature.
pub fn degrees(number: f64) -> Fact {
    Fact::figure(number, Unit::DegC)
}

/// A figure at an end of its band, its doubt grown in step with it.
pub fn at_end<Q: Quantity>(figure: &Worked<Q>, side: Side) -> Worked<Q> {
    let (number, end) = (figure.number(), figure.band_end(side));
    if end == number && figure.band().is_none() {
        return figure.clone();
    }
    let factor = if number > 0.0 { end / number } else { 1.0 };
    let words = match side {
        Side::High => "the high end of its band",
        Side::Low => "the low end of its band",
    };
    figure.scaled(factor, words).at_least(end, words).at_most(end, words)
}

/// What is said of a dial that counts in another unit than its sheet is printed in, in which it is told what is still to be dialled on;
/// nothing of one that counts alike, or that nobody told of.
pub fn dial_units(bench: &Bench, dial: Option<f64>) -> Fact {
    let known = bench.shop.zip(dial);
    let counts = known.map(|(shop, division)| (DividedIn::of_division(division).print(shop.units), shop.units));
    match counts {
        Some((Print::Imperial, Print::Metric)) => Fact::named("counts-thou"),
        Some((Print::Metric, Print::Imperial)) => Fact::named("counts-mm"),
        _ => "".into(),
    }
}
