//! A shim of the drawer with what its thickness is worth.

use crate::handbook::constants::constant;
use crate::proof::{Cause, Refusal, Worked};
use crate::quantity::{Measured, Mm, Quantity};
use crate::shop::{DoubtOf, Gauge, ShimStock, Shop, shares_of_reading};

/// Its thickness, and whether it was measured: one that is known by its mark alone, or was read with what cannot have read it, has
/// the doubt of a mark. None where there is none in the drawer.
///
/// # Errors
/// [`Refusal::NoRow`] where the table lacks a doubt.
pub fn shim_thickness(shop: &Shop, stock: &ShimStock) -> Result<Option<(Worked<Mm>, bool)>, Refusal> {
    let Some(at) = stock.thickness().filter(|_| stock.count.value > 0) else { return Ok(None) };
    let thickness = Worked::from(at);
    let with = stock.with.as_ref().map(|name| name.value.as_str());
    let read = Measured { value: at.value, plus_minus: None, grain: Some(0.0) };
    let (shares, of) = shares_of_reading(Some(shop), &read, with, Gauge::Outside, (at.place, 0))?;
    let measured = stock.thickness.is_some()
        && match of {
            DoubtOf::LastDigit => false,
            DoubtOf::Named(instrument) => instrument.may_have_read(at.value.number(), Gauge::Outside),
            DoubtOf::Nothing | DoubtOf::Typed | DoubtOf::Default(_) => true,
        };
    let thickness = match measured {
        true => shares.into_iter().fold(thickness, |t, (cause, half)| t.with_doubt(cause, half)),
        false => thickness.with_doubt(Cause::Own(at.place, 0), constant::<Mm>("shim-marked-doubt")?.number()),
    };
    Ok(Some((thickness, measured)))
}
