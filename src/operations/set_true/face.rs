//! The face: how far it leans, and what is foretold after it was tapped square.

use super::circle::{at_the_jaws, centre, larger, nothing_left, spread_as_read, spread_of};
use super::keys::{JAWS, SetTrue};
use super::names::{FACE_AFTER, LEAN, TILT, TILT_RIM, TILT_TOWARDS};
use crate::handbook::form::truing::{at_diameter, read_in_a_turn};
use crate::operations::{Answer, Bench, OfRow};
use crate::proof::{At, Check, Fact, Keep, Mark, Refusal, Source, Verdict, Words, Worked};
use crate::quantity::{Mm, Quantity, Shift};
use crate::shop::Gauge;

impl SetTrue {
    /// How far the face leans, and its check where square-within is asked.
    pub(super) fn face(&self, bench: &Bench, answer: &mut Answer) -> Result<(), Refusal> {
        const ID: &str = "square-enough";
        let (Some(row), Some(at)) = (&self.face_readings, &self.face_diameter) else {
            match self.square_within {
                Some(_) => answer.not_checked(&[ID], &["face-readings", "face-diameter"]),
                None => answer.does_not_apply(&[ID]),
            }
            return Ok(());
        };
        let reads = answer.read_row(bench, "face-readings", Gauge::Indicator, row, self.with.as_ref())?;
        let reads: Vec<Worked<Shift>> = reads.into_iter().flatten().collect();
        let turned = self.plunger_in.as_ref().is_some_and(|at| at.value == super::keys::PlungerIn::Minus);
        let (lean, fit) = centre(&JAWS, &reads, if turned { -1.0 } else { 1.0 })?;
        let tilt = answer.record(&TILT, read_in_a_turn(&lean.off()?)?);
        answer.record(&TILT_TOWARDS, lean.towards());
        let read_at = at.into();
        let outside = self.rim_of_face(at);
        let rim = answer.record(&TILT_RIM, at_diameter(&tilt, &read_at, &outside)?);
        let Some(square) = &self.square_within else {
            answer.does_not_apply(&[ID]);
            return Ok(());
        };
        if self.face_outside.is_none() {
            answer.assume_words(Words::of("read-at-its-rim").with("across", Fact::mm(at.value.number())));
        }
        let left = bench.left(&FACE_AFTER)?;
        let planned = left.is_none();
        // What is no lean no tap takes out.
        let stays = spread_of(&fit.residuals, &reads).filter(|_| planned);
        let stays = stays.map(|stays| at_diameter(&stays, &read_at, &outside)).transpose()?;
        let after = answer.record(&FACE_AFTER, left.unwrap_or_else(|| nothing_left(&rim)));
        for read in stays.iter().chain([&after]) {
            let check = Check::judge(ID, read, Keep::AtMost, &square.into(), bench.guard()).about(FACE_AFTER.key);
            // Nothing is wrong before the face was tapped: it is read again after it.
            let check = if planned { check.not_worse_than(Verdict::Doubtful) } else { check };
            answer.check(check.at(square.place));
        }
        Ok(())
    }

    /// Can face and axis both run true? Whatever was tapped, the angle between them stands in the metal: with the axis true the face reads at
    /// the rim what the two lean apart, which is no less than what one leans more than the other.
    pub(super) fn of_one_body(&self, bench: &Bench, answer: &mut Answer) -> Result<(), Refusal> {
        const ID: &str = "square-enough";
        let (Some(second), Some(at), Some(square)) = (&self.second, &self.face_diameter, &self.square_within) else {
            return Ok(());
        };
        let recorded = |key: &str, answer: &Answer| answer.value(key).and_then(|value| value.figure().worked::<Mm>());
        let both = recorded(LEAN.key, answer).zip(recorded(TILT_RIM.key, answer));
        let Some((lean, rim)) = both.filter(|_| bench.left(&FACE_AFTER).is_ok_and(|left| left.is_none())) else {
            return Ok(());
        };
        let outside = self.rim_of_face(at);
        let by_axis = at_diameter(&lean, &(&second.apart).into(), &outside)?;
        let sign = if by_axis.number() < rim.number() { -1.0 } else { 1.0 };
        let source = Source::fixed("one body has one angle between face and axis", Mark::Derived);
        let stays = Worked::sum(&[(sign, &by_axis), (-sign, &rim)], 0.0, "what one of the two leans more", source);
        let check = Check::judge(ID, &stays, Keep::AtMost, &square.into(), bench.guard()).about(TILT_RIM.key);
        if !check.is_proven() {
            answer.check(check.at(square.place)).remedy(Words::of("face-it-in-this-hold"));
        }
        Ok(())
    }

    /// How large the face is over its rim; where nobody said, it was read there.
    fn rim_of_face(&self, at: &At<Mm>) -> Worked<Mm> {
        self.face_outside.as_ref().unwrap_or(at).into()
    }

    /// What an indicator would read at the rim, from readings of the face taken again after it was tapped.
    pub(super) fn face_after(&self, reads: &[Worked<Shift>]) -> Result<Vec<OfRow>, Refusal> {
        let (lean, _) = at_the_jaws(reads)?;
        let lacking = Refusal::NotGiven { what: "where the face was read", key: "face-diameter" };
        let at = self.face_diameter.as_ref().ok_or(lacking)?;
        let (read_at, outside): (Worked<Mm>, _) = (at.into(), self.rim_of_face(at));
        let read = larger(read_in_a_turn(&lean.off()?)?, spread_as_read(reads));
        let rim = at_diameter(&read, &read_at, &outside)?;
        Ok(vec![(FACE_AFTER.key, rim.figure())])
    }
}
