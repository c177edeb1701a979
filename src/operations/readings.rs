//! Sizes as they were read: with the doubt of what read them, or handed over by another operation.

use super::answer::DOUBT_PLAUSIBLE;
use super::{Answer, Bench};
use crate::handbook::constants::constant;
use crate::handbook::measuring::warmth;
use crate::handbook::threads::insert_drill;
use crate::job::{Address, Difference, Reading, Warm};
use crate::proof::{At, Cause, Check, Fact, Origin, Refusal, Side, Verdict, Words, Worked};
use crate::quantity::{Celsius, Decimals, Measured, Mm, Quantity, Ratio, Row, Shift};
use crate::shop::{DoubtOf, Gauge, Instrument, doubt_of_reading, shares_of_reading};

/// The value of every drilled hole that is the drill itself.
const DRILLED: &str = "drill_diameter";

/// What is said of an instrument that cannot have read a size.
pub(crate) const CANNOT_READ: &str = "no-reading-of-that-instrument";

impl Answer {
    /// A size as it was read, with its doubt ([`shares_of_reading`]): where readings of one instrument meet in one figure, what
    /// they share of it is counted so, and where nobody knows what they share, the worse of quite apart and off together. A doubt
    /// over a tenth of the size is doubtful.
    ///
    /// # Errors
    /// [`Refusal::NotHandedOver`] where the size of another operation is asked for and was not worked out;
    /// [`Refusal::Unread`] where the doubt is half the size or more.
    pub fn read(
        &mut self,
        bench: &Bench,
        key: &'static str,
        gauge: Gauge,
        at: &At<Reading>,
    ) -> Result<Worked<Mm>, Refusal> {
        let read = self.reading(bench, key, gauge, &at.value, at)?;
        let (size, doubt) = (read.number().abs(), read.plus_minus());
        if doubt > 0.0 && doubt >= size * constant::<Ratio>("doubt-share-unread")?.number() {
            return Err(Refusal::Unread { what: key, size, doubt });
        }
        self.plausible(key, size * constant::<Ratio>("doubt-share-plausible")?.number(), doubt, at.place);
        // A difference may be one of two readings of an instrument that reads no size so small.
        if matches!(&at.value, Reading::Size { size, with: None, .. } if size.plus_minus.is_some()) {
            self.not_too_fine(bench, key, &read, gauge, at.place)?;
        }
        Ok(read)
    }

    /// A difference as it was read (wear, dish, float): a doubt over the figure itself is doubtful.
    ///
    /// # Errors
    /// As [`Self::read`].
    pub(crate) fn read_difference(
        &mut self,
        bench: &Bench,
        key: &'static str,
        gauge: Gauge,
        at: &At<Difference>,
    ) -> Result<Worked<Mm>, Refusal> {
        let read = self.reading(bench, key, gauge, &at.value, at)?;
        self.plausible(key, read.number().abs(), read.plus_minus(), at.place);
        Ok(read)
    }

    /// A figure that another operation hands on, size or difference: a doubt over the figure itself is doubtful.
    ///
    /// # Errors
    /// As [`Self::read`].
    pub(crate) fn read_handed(
        &mut self,
        bench: &Bench,
        key: &'static str,
        gauge: Gauge,
        address: &At<Address>,
    ) -> Result<Worked<Mm>, Refusal> {
        let read = self.handed(bench, key, gauge, address)?;
        self.plausible(key, read.number().abs(), read.plus_minus(), address.place);
        Ok(read)
    }

    fn plausible(&mut self, key: &'static str, most: f64, doubt: f64, place: crate::proof::Place) {
        // 1e-9: a doubt of just the share is none too many. Of a nought no doubt is a share: it is counted, that is all.
        let verdict = if most > 0.0 && doubt > most * (1.0 + 1e-9) { Verdict::Doubtful } else { Verdict::Proven };
        let check = Check::of_kind(DOUBT_PLAUSIBLE.id, verdict).at(place);
        self.check(check.with("key", key).with("doubt", Fact::mm(doubt)));
    }

    /// A size that another operation leaves. One that is planned without doubt is no surer than a reading without ±; one of an
    /// operation that fails is doubtful: it will not be there.
    fn handed(
        &mut self,
        bench: &Bench,
        key: &'static str,
        gauge: Gauge,
        address: &At<Address>,
    ) -> Result<Worked<Mm>, Refusal> {
        let handed = bench.handed::<Mm>(&address.value)?;
        let handed =
            if address.value.value.as_deref() == Some(DRILLED) { hole_of_drill(bench, &handed)? } else { handed };
        if bench.look_up(&address.value).is_some_and(|entry| entry.fails) {
            let check = Check::of_kind(DOUBT_PLAUSIBLE.id, Verdict::Doubtful).at(address.place);
            let check = self.check(check.with("key", key).with("doubt", Fact::mm(handed.plus_minus())));
            check.remedy(Words::of("handed-by-what-fails").with("address", address.value.to_string()));
        }
        if handed.plus_minus() > 0.0 {
            return Ok(handed);
        }
        let bare = Measured { value: Mm::new(handed.number()), plus_minus: None, grain: Some(0.0) };
        let (half, how) = doubt_of_reading(bench.shop, &bare, None, gauge)?;
        match how {
            DoubtOf::Default(instrument) => self.assume_words(
                doubt_words("doubt-of-default-instrument", key, half).with("instrument", &instrument.name.value),
            ),
            DoubtOf::LastDigit => self.assume_words(doubt_words("doubt-of-what-is-handed", key, half)),
            DoubtOf::Nothing | DoubtOf::Typed | DoubtOf::Named(_) => {}
        }
        Ok(handed.with_doubt(Cause::Reading(address.place), half))
    }

    fn reading<T>(
        &mut self,
        bench: &Bench,
        key: &'static str,
        gauge: Gauge,
        reading: &Reading,
        at: &At<T>,
    ) -> Result<Worked<Mm>, Refusal> {
        let (size, with, warmth) = match reading {
            Reading::Of(address) => return self.handed(bench, key, gauge, address),
            Reading::Size { size, with, warmth } => (size, with.as_ref(), warmth.as_ref()),
        };
        let with = with.map(|name| name.value.as_str());
        let (shares, doubt_of) = shares_of_reading(bench.shop, size, with, gauge, (at.place, 0))?;
        let read = Worked::exact(size.value, Origin::Typed(at.place));
        let read = shares.into_iter().fold(read, |read, (cause, half)| read.with_doubt(cause, half));
        let half = read.plus_minus();
        match doubt_of {
            DoubtOf::Default(instrument) => self.assume_words(
                doubt_words("doubt-of-default-instrument", key, half).with("instrument", &instrument.name.value),
            ),
            DoubtOf::LastDigit => self.assume_words(doubt_words("doubt-of-last-digit", key, half)),
            DoubtOf::Named(instrument) => self.is_its_reading(key, instrument, &read, gauge, at.place),
            DoubtOf::Nothing | DoubtOf::Typed => {}
        }
        match warmth {
            Some(warmth) => self.at_20(bench, key, &read, warmth),
            None => Ok(read),
        }
    }

    /// A doubt that is typed far finer than whatever the shop has reads such a size is a slip of the point, or rests on an instrument that
    /// nobody named: doubtful.
    fn not_too_fine<Q: Quantity>(
        &mut self,
        bench: &Bench,
        key: &'static str,
        read: &Worked<Q>,
        gauge: Gauge,
        place: crate::proof::Place,
    ) -> Result<(), Refusal> {
        // Of what is read in several ways nobody knows with what.
        if gauge == Gauge::FromCentre {
            return Ok(());
        }
        let least = finest_doubt(bench, read.number().abs(), gauge)?;
        // 1e-9: a doubt of just the share is none too fine.
        if read.plus_minus() < least * (1.0 - 1e-9) {
            let check = Check::of_kind(DOUBT_PLAUSIBLE.id, Verdict::Doubtful).at(place);
            let doubt = Fact::mm(read.plus_minus()).to(Decimals::AsTyped);
            self.check(check.with("key", key).with("doubt", doubt)).remedy(Words::of("doubt-too-fine"));
        }
        Ok(())
    }

    /// What the instrument that was named cannot have read is doubtful, however small its doubt.
    fn is_its_reading<Q: Quantity>(
        &mut self,
        key: &'static str,
        instrument: &Instrument,
        read: &Worked<Q>,
        gauge: Gauge,
        place: crate::proof::Place,
    ) {
        if instrument.may_have_read(read.number().abs(), gauge) {
            return;
        }
        let check = Check::of_kind(DOUBT_PLAUSIBLE.id, Verdict::Doubtful).at(place);
        let check = self.check(check.with("key", key).with("doubt", Fact::mm(read.plus_minus())));
        let words =
            Words::of(CANNOT_READ).with("instrument", &instrument.name.value).with("kind", &instrument.kind.value);
        let ends = [("from", &instrument.from), ("to", &instrument.to)];
        check.remedy(ends.into_iter().fold(words, |words, (end, at)| words.with(end, Fact::mm(at.value.number()))));
    }

    /// What a size that was read warm is at 20 °C. Where nobody says how warm the gauge was and the part was not near 20 °C, the
    /// gauge was anything between, and the figure is doubtful.
    pub(super) fn at_20(
        &mut self,
        bench: &Bench,
        key: &'static str,
        read: &Worked<Mm>,
        warm: &Warm,
    ) -> Result<Worked<Mm>, Refusal> {
        let metal = bench.part.material.as_ref();
        let metal =
            metal.ok_or(Refusal::NotGiven { what: "the metal of a part that was read warm", key: "material" })?;
        let (alpha, of_gauges) = (metal.value.expansion()?, constant("expansion-of-gauges")?);
        let doubt = constant::<crate::quantity::Expansion>("expansion-doubt")?.number();
        let (alpha, of_gauges) = (
            // Of one alloy it is one doubt, which two sizes against each other share; of two it is two.
            alpha.with_doubt(Cause::Named(metal.value.id()), doubt),
            Worked::with_doubt(of_gauges, Cause::Named("expansion of the gauge"), doubt),
        );
        let thermometer = constant::<Celsius>("temperature-read-doubt")?.number();
        let part = Worked::from(&warm.at).with_doubt(Cause::Reading(warm.at.place), thermometer);
        let usual = Worked::assumed(Celsius::new(warmth::USUAL), "the temperature that sizes are meant at");
        let gauge = match &warm.gauge_at {
            Some(at) => Worked::from(at).with_doubt(Cause::Reading(at.place), thermometer),
            None => {
                let off = (warm.at.value.number() - warmth::USUAL).abs();
                if off > constant::<Celsius>("gauge-warmth-unsaid")?.number() {
                    let check = Check::of_kind(DOUBT_PLAUSIBLE.id, Verdict::Doubtful).at(warm.at.place);
                    let check = self.check(check.with("key", key).with("doubt", Fact::mm(read.plus_minus())));
                    check.remedy(Words::of("say-how-warm-the-gauge-was"));
                }
                usual.with_band(warmth::USUAL, warm.at.value.number())
            }
        };
        warmth::at_20(read, &of_gauges, &gauge, &alpha, &part)
    }

    /// Readings in a row, each with the doubt of one instrument: what they share of it cancels where they are compared, as far as
    /// it is known. A nought is a reading too. Nothing where nothing was read.
    ///
    /// # Errors
    /// [`Refusal::NoRow`] where the table lacks its least.
    pub fn read_row(
        &mut self,
        bench: &Bench,
        key: &'static str,
        gauge: Gauge,
        row: &At<Row<Shift>>,
        with: Option<&At<String>>,
    ) -> Result<Vec<Option<Worked<Shift>>>, Refusal> {
        let least = constant::<Mm>("typed-doubt-least")?.number();
        // The greatest reading of the row says which instrument reads it.
        let greatest = row.value.greatest().max(least);
        let of = Measured { value: Mm::new(greatest), plus_minus: None, grain: Some(row.value.grain) };
        let mut found = None;
        let mut reads = Vec::with_capacity(row.value.reads.len());
        for (nth, read) in (0..).zip(&row.value.reads) {
            let Some(read) = read else {
                reads.push(None);
                continue;
            };
            let (shares, doubt_of) =
                shares_of_reading(bench.shop, &of, with.map(|name| name.value.as_str()), gauge, (row.place, nth))?;
            let read = Worked::exact(*read, Origin::Typed(row.place));
            let read = shares.into_iter().fold(read, |read, (cause, half)| read.with_doubt(cause, half));
            found = Some((read.plus_minus(), doubt_of));
            reads.push(Some(read));
        }
        match found {
            Some((half, DoubtOf::Default(instrument))) => self.assume_words(
                doubt_words("doubt-of-default-instrument", key, half).with("instrument", &instrument.name.value),
            ),
            Some((half, DoubtOf::LastDigit)) => self.assume_words(doubt_words("doubt-of-last-digit", key, half)),
            Some((half, DoubtOf::Named(instrument))) => {
                let greatest = Worked::exact(Mm::new(greatest), Origin::Typed(row.place));
                let greatest = greatest.with_doubt(Cause::Reading(row.place), half);
                self.is_its_reading(key, instrument, &greatest, gauge, row.place);
            }
            _ => {}
        }
        Ok(reads)
    }

    /// A reading that may be left out.
    ///
    /// # Errors
    /// As [`Self::read`].
    pub(crate) fn read_if(
        &mut self,
        bench: &Bench,
        key: &'static str,
        gauge: Gauge,
        at: Option<&At<Reading>>,
    ) -> Result<Option<Worked<Mm>>, Refusal> {
        at.map(|at| self.read(bench, key, gauge, at)).transpose()
    }

    /// A difference that may be left out.
    ///
    /// # Errors
    /// As [`Self::read`].
    pub(crate) fn read_difference_if(
        &mut self,
        bench: &Bench,
        key: &'static str,
        gauge: Gauge,
        at: Option<&At<Difference>>,
    ) -> Result<Option<Worked<Mm>>, Refusal> {
        at.map(|at| self.read_difference(bench, key, gauge, at)).transpose()
    }
}

/// The least doubt that a reading of such a size has here.
///
/// # Errors
/// [`Refusal::NoRow`] where the table lacks it.
pub(super) fn finest_doubt(bench: &Bench, size: f64, gauge: Gauge) -> Result<f64, Refusal> {
    let all = bench.shop.map_or(&[][..], |shop| &shop.instruments);
    let reads = all.iter().filter(|instrument| instrument.may_have_read(size, gauge));
    let finest = reads.map(|instrument| instrument.uncertainty.value.number()).reduce(f64::min);
    Ok(match finest {
        Some(finest) => finest * constant::<Ratio>("doubt-share-too-fine")?.number(),
        None => constant::<Mm>("doubt-too-fine")?.number(),
    })
}

/// A size as it was read after the work, at 20 °C, with what is doubtful of the reading. A nought was read too: it has the doubt of
/// what read it.
///
/// # Errors
/// [`Refusal::NoRow`] where the table lacks its least; as [`warmth::at_20`] of one that was read warm.
pub(crate) fn read_left(
    bench: &Bench,
    key: &'static str,
    gauge: Gauge,
    size: &Measured<Mm>,
    (with, warm): (Option<&str>, Option<&Warm>),
    place: crate::proof::Place,
) -> Result<(Worked<Mm>, Vec<Check>), Refusal> {
    let least = constant::<Mm>("typed-doubt-least")?.number();
    let of = Measured { value: Mm::new(size.value.number().abs().max(least)), ..*size };
    let (shares, doubt_of) = shares_of_reading(bench.shop, &of, with, gauge, (place, 0))?;
    let read = Worked::exact(size.value, Origin::Typed(place));
    let read = shares.into_iter().fold(read, |read, (cause, half)| read.with_doubt(cause, half));
    let mut answer = Answer::default();
    if let DoubtOf::Named(instrument) = doubt_of {
        answer.is_its_reading(key, instrument, &read, gauge, place);
    }
    if size.plus_minus.is_some() && with.is_none() {
        answer.not_too_fine(bench, key, &read, gauge, place)?;
    }
    let read = warm.map_or_else(|| Ok(read.clone()), |warm| answer.at_20(bench, key, &read, warm))?;
    Ok((read, answer.checks))
}

/// Readings in a row that were taken after the work, each with the doubt of one instrument, and what is doubtful of them.
///
/// # Errors
/// [`Refusal::NoRow`] where the table lacks its least.
pub(crate) fn read_row_left(
    bench: &Bench,
    key: &'static str,
    gauge: Gauge,
    row: &At<Row<Shift>>,
    with: Option<&str>,
) -> Result<(Vec<Worked<Shift>>, Vec<Check>), Refusal> {
    let greatest = row.value.greatest().max(constant::<Mm>("typed-doubt-least")?.number());
    let of = Measured { value: Mm::new(greatest), plus_minus: None, grain: Some(row.value.grain) };
    let mut answer = Answer::default();
    let mut reads = Vec::new();
    for (nth, read) in (0..).zip(row.value.reads.iter().flatten()) {
        let (shares, doubt_of) = shares_of_reading(bench.shop, &of, with, gauge, (row.place, nth))?;
        let read = Worked::exact(*read, Origin::Typed(row.place));
        let read = shares.into_iter().fold(read, |read, (cause, half)| read.with_doubt(cause, half));
        if let DoubtOf::Named(instrument) = doubt_of {
            answer.is_its_reading(key, instrument, &read, gauge, row.place);
        }
        reads.push(read);
    }
    Ok((reads, answer.checks))
}

/// A hole is as large as its drill, and larger by what a drill cuts over: as the shop's habit, else by the rows.
pub(super) fn hole_of_drill(bench: &Bench, drill: &Worked<Mm>) -> Result<Worked<Mm>, Refusal> {
    let habit = bench.shop.and_then(|shop| shop.habits.drill_over.as_ref());
    let over = habit.map_or_else(|| insert_drill::drill_over(drill), |habit| Ok(habit.into()))?;
    let (low, high) = (drill.band_end(Side::Low), drill.band_end(Side::High) + over.high());
    Ok(drill.clone().with_band(low, high))
}

fn doubt_words(id: &'static str, key: &'static str, half: f64) -> Words {
    Words::of(id).with("key", key).with("doubt", Fact::mm(half).to(Decimals::AsTyped).plus_minus())
}
