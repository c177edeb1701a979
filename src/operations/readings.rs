//! Sizes as they were read: with the doubt of what read them, or handed over by another operation.

use super::answer::DOUBT_PLAUSIBLE;
use super::{Answer, Bench};
use crate::handbook::constants::constant;
use crate::job::{Address, Difference, Reading};
use crate::proof::{At, Cause, Check, Fact, Origin, Refusal, Verdict, Words, Worked};
use crate::quantity::{Decimals, Measured, Mm, Quantity, Ratio};
use crate::shop::{DoubtOf, Gauge, doubt_of_reading};

impl Answer {
    /// A size as it was read, with its doubt ([`doubt_of_reading`]). A doubt over a tenth of the size is doubtful.
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

    fn plausible(&mut self, key: &'static str, most: f64, doubt: f64, place: crate::proof::Place) {
        // 1e-9: a doubt of just the share is none too many.
        let verdict = if doubt > most * (1.0 + 1e-9) { Verdict::Doubtful } else { Verdict::Proven };
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
        if bench.look_up(&address.value).is_some_and(|entry| entry.fails) {
            let check = Check::of_kind(DOUBT_PLAUSIBLE.id, Verdict::Doubtful).at(address.place);
            let check = self.check(check.with("key", key).with("doubt", Fact::mm(handed.plus_minus())));
            check.remedy(Words::of("handed-by-what-fails").with("address", address.value.to_string()));
        }
        if handed.plus_minus() > 0.0 {
            return Ok(handed);
        }
        let bare = Measured { value: Mm::new(handed.number()), plus_minus: None, grain: None };
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
        let (size, with) = match reading {
            Reading::Of(address) => return self.handed(bench, key, gauge, address),
            Reading::Size { size, with } => (size, with.as_ref()),
        };
        let with = with.map(|name| name.value.as_str());
        let (half, how) = doubt_of_reading(bench.shop, size, with, gauge)?;
        match how {
            DoubtOf::Default(instrument) => self.assume_words(
                doubt_words("doubt-of-default-instrument", key, half).with("instrument", &instrument.name.value),
            ),
            DoubtOf::LastDigit => self.assume_words(doubt_words("doubt-of-last-digit", key, half)),
            DoubtOf::Nothing | DoubtOf::Typed | DoubtOf::Named(_) => {}
        }
        Ok(Worked::exact(size.value, Origin::Typed(at.place)).with_doubt(Cause::Reading(at.place), half))
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

fn doubt_words(id: &'static str, key: &'static str, half: f64) -> Words {
    Words::of(id).with("key", key).with("doubt", Fact::mm(half).to(Decimals::AsTyped).plus_minus())
}
