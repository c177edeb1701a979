//! A size as the log has it, against what was asked of it.

use super::mm;
use crate::operations::answer::DOUBT_PLAUSIBLE;
use crate::operations::{Answer, Bench};
use crate::proof::{At, Check, Fact, Keep, Mark, Origin, Place, Side, Source, Verdict, Words, Worked};
use crate::quantity::{Mm, Quantity, Wanted};

/// What is asked of a size that was left.
#[derive(Clone, Copy, Debug)]
pub struct LeftWithin {
    /// The check that it answers.
    pub id: &'static str,
    /// The name of the size.
    pub key: &'static str,
    /// Its limits, mm.
    pub limits: [f64; 2],
    /// Where they were typed.
    pub place: Place,
    /// On which side of them metal still stands that can be cut.
    pub stands: Side,
    /// Whether it is off: the same work cuts no more of it, and would only make another.
    pub is_off: bool,
}

impl LeftWithin {
    /// Judges it against both limits. What still stands can be cut: nothing is spoilt by it, and nothing proven.
    pub fn judge(&self, bench: &Bench, left: &Worked<Mm>, answer: &mut Answer) {
        let [least, most] = self.limits;
        for (keep, limit, side) in [(Keep::AtLeast, least, Side::Low), (Keep::AtMost, most, Side::High)] {
            let limit = Worked::exact(Mm::new(limit), Origin::Typed(self.place));
            let check = Check::judge(self.id, left, keep, &limit, bench.guard()).about(self.key).at(self.place);
            let stands = side == self.stands;
            let check = match stands {
                // The sheet that parted it cannot make it shorter; what is further off than its limits are apart is a slip.
                true if self.is_off => check.fails_beyond(most - least),
                true => check.not_worse_than(Verdict::Doubtful),
                false => check,
            };
            let check = if stands && !self.is_off { check.unfinished(self.key) } else { check };
            let proven = check.is_proven();
            let words = match (stands, check.unfinished.is_some()) {
                (true, _) if self.is_off => "face-it",
                (true, true) => "cut-on",
                (true, false) => "at-its-limit",
                (false, _) => "too-much-gone",
            };
            let words = Words::of(words).with("least", mm(least)).with("most", mm(most));
            let more = [(left.number() - most).abs(), (left.number() - least).abs()];
            let more = Fact::span(mm(more[0].min(more[1])), mm(more[0].max(more[1])));
            let words = words.with("more", more).with("left", mm(left.number()));
            // What the card would do of it before the cut comes too late.
            let check = Check { remedy: None, ..check };
            let check = answer.check(check);
            if !proven {
                check.remedy(words);
            }
        }
    }
}

/// A check of a size as it was written down that asks in words of its own, and not how finely it was read.
pub fn asked_as(check: Check, id: &'static str) -> Check {
    Check { asks: Words::of(id), called: Words::of(id), remedy: Some(Words::of(id)), ..check }
}

/// What is gone by two measurements: so many times the larger less the smaller.
pub fn gone(times: f64, (larger, smaller): (&Worked<Mm>, &Worked<Mm>)) -> Worked<Mm> {
    Worked::sum(&[(times, larger), (-times, smaller)], 0.0, "as found and as left", MEASURED)
}

/// Whether by what was written down as `key` metal grew, `times` the size as found less that as left (of a bore less than nothing): no cut does that, so that the figure
/// was misread or miswritten. A size that may be the one that was found is left to what judges how much is gone.
pub fn grown(
    bench: &Bench,
    (times, found, left): (f64, &Worked<Mm>, &Worked<Mm>),
    (key, place): (&'static str, Place),
    answer: &mut Answer,
) -> bool {
    let gone = gone(times, (found, left));
    let none = Worked::exact(Mm::new(0.0), Origin::Typed(place));
    let check = Check::judge(DOUBT_PLAUSIBLE.id, &gone, Keep::AtLeast, &none, bench.guard());
    let has_grown = gone.number() + times.abs() * found.plus_minus() < 0.0;
    if has_grown {
        let check = check.about(key).with("key", key).with("doubt", Fact::mm(left.plus_minus())).at(place);
        answer
            .check(asked_as(check, "metal-gone").past_finer_reading())
            .remedy(Words::of("metal-grew").with("by", Fact::mm(-gone.number() / times.abs())));
    }
    has_grown
}

/// Whether a face that was measured at several places lies as evenly as it must: sizes further apart than it may lean and be uneven tell
/// of one that does more. Which of its two ends is out no size tells: doubtful.
pub fn left_even(left: Option<&Worked<Mm>>, asked: [Option<&At<Wanted<Mm>>>; 2], bench: &Bench, answer: &mut Answer) {
    let band = left.filter(|left| left.is_spread()).and_then(Worked::band);
    let Some(((low, high), place)) = band.zip(asked.into_iter().flatten().next().map(|at| at.place)) else { return };
    let may = asked.into_iter().flatten().map(|at| at.value.high.number()).sum::<f64>();
    let may = Worked::exact(Mm::new(may), Origin::Typed(place));
    let apart = Worked::assumed(Mm::new(high - low), "the greatest of the readings less the least");
    let check = Check::judge(DOUBT_PLAUSIBLE.id, &apart, Keep::AtMost, &may, bench.guard());
    if !check.is_proven() {
        answer.check(asked_as(check.not_worse_than(Verdict::Doubtful).at(place), "left-even"));
    }
}

/// Whether a size was read so closely, when it was written down, as it must be: a share of what there is to measure in. A reading about as
/// coarse as the limits are apart tells nothing, whichever instrument could have told it.
pub fn measured_so_closely(
    bench: &Bench,
    (key, left): (&'static str, &Worked<Mm>),
    share: &Worked<Mm>,
    place: Place,
    answer: &mut Answer,
) {
    let doubt = Worked::assumed(Mm::new(left.plus_minus()), "the doubt with which it was read");
    let check = Check::judge("measured-so-closely", &doubt, Keep::AtMost, share, bench.guard()).about(key).at(place);
    answer.check(check.not_worse_than(Verdict::Doubtful));
}

/// How far two sizes that were measured beside each other are off the whole that they are of, without the sign.
pub fn off_the_whole((one, other): (&Worked<Mm>, &Worked<Mm>), whole: &Worked<Mm>) -> Worked<Mm> {
    let sign = if one.number() + other.number() < whole.number() { -1.0 } else { 1.0 };
    Worked::sum(&[(sign, one), (sign, other), (-sign, whole)], 0.0, "both together less the whole", MEASURED)
}

/// What is aimed at: that of the plan, also where the log has what became of it.
pub fn aimed(answer: &Answer, key: &str) -> Option<Fact> {
    let planned = answer.facts.iter().find(|fact| fact.0 == key).map(|fact| fact.1.clone());
    planned.or_else(|| super::found(answer, key))
}

/// Where a difference of two readings comes from.
const MEASURED: Source = Source::fixed("measured before and after", Mark::Derived);
