//! Two bushes in one line: both pressed, both measured, one reaming. The second of them in the order of work has the common
//! set-up; the first ends at its measured closed-in bore, or where its own oil holes are drilled.

use super::keys::ReamBush;
use super::names::{BORE_HIGH, BORE_LOW, BORE_MAX, BORE_MIN, BORE_PRESSED, FINISH, LINE_PLACE, OIL_AFTER, OIL_HOLE};
use crate::handbook::constants::constant;
use crate::job::Address;
use crate::operations::kit::mm;
use crate::operations::{Answer, Bench, SetUp};
use crate::proof::{Check, Fact, Origin, Refusal, Side, Verdict, Words, Worked};
use crate::quantity::{Mm, Quantity, Ratio};
use crate::reading::Problem;

/// The other bush of the line.
pub(super) struct Line {
    pub other: Address,
    /// Whether this one has the common set-up.
    pub second: bool,
    /// Limits of the other's finished bore, mm.
    pub bore: (f64, f64),
    /// The other's closed-in bore and its ends, mm, where it was worked.
    pressed: Option<(f64, (f64, f64))>,
    /// Whether the other has oil holes, and whether any is drilled once it is in.
    pub oil_holes: bool,
    pub drilled_in: bool,
}

impl ReamBush {
    /// Finds the other bush of a line.
    pub(super) fn line(&self, bench: &Bench, answer: &mut Answer) -> Result<Option<Line>, Refusal> {
        let Some(other) = &self.line_with else {
            answer.does_not_apply(&["in-line"]);
            return Ok(None);
        };
        let owner = other.value.owner();
        answer.fact("line_with", owner.to_string());
        let of = |key: &str| bench.look_up(&owner.value(key)).map(|entry| entry.figure.number);
        let (Some(low), Some(high)) = (of(BORE_MIN.key), of(BORE_MAX.key)) else {
            return Err(Refusal::NotHandedOver { address: owner.to_string() });
        };
        let second = of(LINE_PLACE.key).is_some();
        let place = if second { 2.0 } else { 1.0 };
        answer
            .record(&LINE_PLACE, Worked::exact(Ratio::new(place), Origin::Assumed("order of work in the line".into())));
        // One reamer goes through both: a bush that must not go in leaves nothing to be reamed in line.
        let fails = bench.look_up(&owner.value(BORE_MIN.key)).is_some_and(|entry| entry.fails);
        let verdict = if fails { Verdict::Fails } else { Verdict::Proven };
        // One pass goes through both: where one of them is reamed by the log, the other has no pilot in its closed-in bore any more.
        let reamed = |of: &Address| bench.look_up(&of.value(FINISH.key)).is_some_and(|entry| entry.as_left);
        let is_over = reamed(&owner) && !reamed(bench.address);
        let check = Check::of_kind("in-line", if is_over { verdict.max(Verdict::Doubtful) } else { verdict });
        let check = answer.check(check.at(other.place));
        if is_over && !fails {
            check.remedy(Words::of("reamed-by-itself"));
        }
        let pressed = of(BORE_PRESSED.key).zip(of(BORE_LOW.key).zip(of(BORE_HIGH.key))).filter(|_| !is_over);
        let (oil_holes, drilled_in) = (of(OIL_HOLE.key).is_some(), of(OIL_AFTER.key).is_some());
        Ok(Some(Line { other: owner, second, bore: (low, high), pressed, oil_holes, drilled_in }))
    }

    /// What makes a line impossible: the other bush is not there, does not name this one, or no bore satisfies both.
    pub(super) fn line_problems(&self, bench: &Bench) -> Vec<Problem> {
        let Some(other) = &self.line_with else { return Vec::new() };
        let owner = other.value.owner();
        let problem = |says: String| vec![Problem::new(other.place, says)];
        if owner == *bench.address {
            return problem("a bush is not in line with itself: name the other one".into());
        }
        let of = |address: &Address, key: &str| bench.look_up(&address.value(key)).map(|entry| entry.figure.number);
        let ends = |address: &Address| of(address, BORE_MIN.key).zip(of(address, BORE_MAX.key));
        let Some(theirs) = ends(&owner) else {
            return problem(format!("`{owner}` is no bush of this job that names this one by its own `line-with`"));
        };
        let Some(ours) = ends(bench.address) else { return Vec::new() };
        let real = |(low, high): (f64, f64)| low <= high;
        if real(ours) && real(theirs) && !real((ours.0.max(theirs.0), ours.1.min(theirs.1))) {
            let say = |(low, high): (f64, f64)| format!("{low:.4} to {high:.4} mm");
            let says = format!(
                "no one bore satisfies this bush ({}) and that of `{owner}` ({}): unlike bores are bored, not reamed in one line",
                say(ours),
                say(theirs)
            );
            return problem(says);
        }
        Vec::new()
    }

    /// The pilot of a line reamer in the bore that is not being cut, and the steps before the reamer goes through both.
    pub(super) fn pilots(&self, line: &Line, answer: &Answer, set_up: &mut SetUp) {
        let own = answer.value(BORE_LOW.key).map(|value| value.number);
        let theirs = line.pressed.map(|(_, ends)| ends.0);
        let (Some(own), Some(theirs)) = (own, theirs) else { return };
        let Ok(under) = constant::<Mm>("line-pilot-under-bore") else { return };
        let (least, most) = (under.band_end(Side::Low), under.band_end(Side::High));
        let span = |bore: f64| Fact::span(mm(bore - most), mm(bore - least));
        let words =
            Words::of("pilot-in-the-other-bush").with("pilot_there", span(theirs)).with("pilot_here", span(own));
        set_up.step_with(words);
    }
}

/// The closed-in bores of both bushes of a line as one figure: the smaller, with a band up to the larger. What the other is doubtful by counts
/// once: with the doubt of this one, and beyond it where that is less.
pub(super) fn common(pressed: &Worked<Mm>, line: Option<&Line>, guard: f64) -> Worked<Mm> {
    let Some((theirs, (low, high))) = line.and_then(|line| line.pressed) else { return pressed.clone() };
    let (own_low, own_high) = (pressed.band_end(Side::Low), pressed.band_end(Side::High));
    let own = pressed.plus_minus() * guard / 2.0;
    let (low, high) = ((low + own).min(theirs), (high - own).max(theirs));
    let smaller = pressed.shifted((theirs - pressed.number()).min(0.0), "the smaller of the two bores of the line");
    smaller.with_band(low.min(own_low), high.max(own_high))
}
