//! Picking from what the shop owns: drills, tools, taps, and the instrument that a reading is taken with.

use super::{
    BoringBar, Countersink, Gauge, InsertTap, Instrument, PartingBlade, PickedDrill, Shop, Tap, Tool, TurningTool,
};
use crate::handbook::Thread;
use crate::handbook::constants::constant;
use crate::in_order::InOrder;
use crate::proof::{At, Cause, Place, Refusal};
use crate::quantity::{Measured, Mm, Quantity};

impl Shop {
    /// Every drill of the shop, smallest first.
    pub fn drills(&self) -> Vec<PickedDrill> {
        let mut all: Vec<PickedDrill> = self.tools.iter().flat_map(Tool::drills).collect();
        all.order_by(|a, b| a.diameter.total_cmp(&b.diameter));
        all
    }

    /// The turning tools, in the order of the file.
    pub(crate) fn turning_tools(&self) -> impl Iterator<Item = &TurningTool> {
        self.tools.iter().filter_map(|tool| if let Tool::Turning(t) = tool { Some(t) } else { None })
    }

    /// The boring bars, in the order of the file.
    pub(crate) fn boring_bars(&self) -> impl Iterator<Item = &BoringBar> {
        self.tools.iter().filter_map(|tool| if let Tool::BoringBar(bar) = tool { Some(bar) } else { None })
    }

    /// The parting blades, in the order of the file.
    pub(crate) fn parting_blades(&self) -> impl Iterator<Item = &PartingBlade> {
        self.tools.iter().filter_map(|tool| if let Tool::PartingBlade(blade) = tool { Some(blade) } else { None })
    }

    /// The taps of a thread, in the order of the file.
    pub(crate) fn taps(&self, thread: Thread) -> impl Iterator<Item = &Tap> {
        self.tools.iter().filter_map(move |tool| match tool {
            Tool::Tap(tap) if tap.thread.value == thread => Some(tap),
            _ => None,
        })
    }

    /// The countersinks, in the order of the file.
    pub(crate) fn countersinks(&self) -> impl Iterator<Item = &Countersink> {
        self.tools.iter().filter_map(|tool| if let Tool::Countersink(sink) = tool { Some(sink) } else { None })
    }

    /// The insert taps of a thread, in the order of the file.
    pub(crate) fn insert_taps(&self, thread: Thread) -> impl Iterator<Item = &InsertTap> {
        self.tools.iter().filter_map(move |tool| match tool {
            Tool::InsertTap(tap) if tap.thread.value == thread => Some(tap),
            _ => None,
        })
    }
}

impl Shop {
    /// The instrument that is taken by default for such a size.
    pub fn default_instrument(&self, size: f64, gauge: Gauge) -> Option<&Instrument> {
        let chosen = |i: &&Instrument| i.default.as_ref().is_some_and(|d| d.value) && i.can_read(size, gauge);
        self.instruments.iter().find(chosen)
    }
}

/// Where the doubt of a reading comes from.
#[derive(Clone, Copy, Debug)]
pub enum DoubtOf<'a> {
    /// 0 itself, typed without a doubt and read with nothing named, has none.
    Nothing,
    /// Typed beside it.
    Typed,
    /// The instrument that was named.
    Named(&'a Instrument),
    /// The instrument that the shop takes by default.
    Default(&'a Instrument),
    /// Half a unit of the last digit typed, but not under the least of the table.
    LastDigit,
}

/// The instrument that was named, where the shop has it.
fn named<'a>(shop: Option<&'a Shop>, with: Option<&str>) -> Option<&'a Instrument> {
    shop?.instrument(with?)
}

/// The doubt (k = 2) of a reading, mm: as typed, else of the instrument named; a bare 0 has none; else of the shop's default instrument for such a
/// size whose kind reads it and that is no finer than what was typed, else half a unit of the last digit typed (of a common fraction
/// `fraction-doubt`) but not under `typed-doubt-least`.
///
/// # Errors
/// [`Refusal::NoRow`] where the table lacks its least.
pub fn doubt_of_reading<'a>(
    shop: Option<&'a Shop>,
    size: &Measured<Mm>,
    with: Option<&str>,
    gauge: Gauge,
) -> Result<(f64, DoubtOf<'a>), Refusal> {
    let number = size.value.number();
    let of = |instrument: &Instrument| instrument.uncertainty.value.number();
    if let Some(typed) = size.plus_minus {
        return Ok((typed, DoubtOf::Typed));
    }
    if let Some(named) = named(shop, with) {
        return Ok((of(named), DoubtOf::Named(named)));
    }
    if number == 0.0 {
        return Ok((0.0, DoubtOf::Nothing));
    }
    let (by_rule, least) = (constant::<Mm>("fraction-doubt")?.number(), constant::<Mm>("typed-doubt-least")?.number());
    // Half a unit of the last digit typed; a common fraction is read off a rule.
    let digit = size.grain.map_or(by_rule, |grain| grain / 2.0);
    match shop.and_then(|shop| shop.default_instrument(number, gauge)) {
        // What was typed more coarsely than the instrument reads was read off a rule, and not off that.
        Some(default) if of(default) >= digit => Ok((of(default), DoubtOf::Default(default))),
        Some(_) => Ok((digit.min(by_rule).max(least), DoubtOf::LastDigit)),
        None => Ok((digit.max(least), DoubtOf::LastDigit)),
    }
}

/// The doubt (k = 2) of one reading by cause: as typed, all its own; with an instrument what its readings share apart, and what
/// was typed over its doubt; what was typed counts alone where nobody knows the instrument. `at` and `nth` say which reading it is.
///
/// # Errors
/// As [`doubt_of_reading`].
pub fn shares_of_reading<'a>(
    shop: Option<&'a Shop>,
    size: &Measured<Mm>,
    with: Option<&str>,
    gauge: Gauge,
    (at, nth): (Place, u16),
) -> Result<(Vec<(Cause, f64)>, DoubtOf<'a>), Refusal> {
    let (half, how) = doubt_of_reading(
        shop,
        &Measured { plus_minus: size.plus_minus.filter(|_| named(shop, with).is_none()), ..*size },
        with,
        gauge,
    )?;
    let (DoubtOf::Named(instrument) | DoubtOf::Default(instrument)) = how else {
        return Ok((if half > 0.0 { vec![(Cause::Own(at, nth), half)] } else { Vec::new() }, how));
    };
    let typed = size.plus_minus.unwrap_or(0.0);
    let surplus = (typed * typed - half * half).max(0.0).sqrt();
    let setter = shop.and_then(|shop| shop.setter_of(instrument, size.value.number().abs()));
    Ok((instrument.shares(setter, surplus, at, nth), how))
}

impl Shop {
    /// The instrument that another is set by at a size: the first named whose range covers it.
    fn setter_of(&self, instrument: &Instrument, size: f64) -> Option<&Instrument> {
        let named = instrument.set_by.iter().filter_map(|name: &At<String>| self.instrument(&name.value));
        named.into_iter().find(|setter| setter.covers(size))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Beside an instrument that nobody knows, and of a nought, what was typed behind ± counts all the same.
    #[test]
    fn a_doubt_that_was_typed_is_never_dropped() {
        for size in [0.0, 18.0] {
            for with in [None, Some("depth gauge")] {
                let read = Measured { value: Mm::new(size), plus_minus: Some(0.4), grain: Some(0.1) };
                let (shares, _) = shares_of_reading(None, &read, with, Gauge::Depth, (Place::start(0), 0)).unwrap();
                assert_eq!(shares.iter().map(|(_, half)| *half).collect::<Vec<_>>(), [0.4], "{size} {with:?}");
            }
        }
    }
}
