//! What is done where polishing will not do: the seal shifted, a sleeve, or the track built up and ground.

use super::keys::PolishSeal;
use super::names::TRACK_NEEDED;
use crate::handbook::constants::constant;
use crate::handbook::joints::seal;
use crate::operations::kit::mm_as_typed;
use crate::operations::{Answer, Bench};
use crate::proof::{Check, Fact, Keep, Refusal, Verdict, Words, Worked};
use crate::quantity::Quantity;

/// The checks after which no polishing helps.
const DECIDE: [&str; 3] = ["polish-only", "size", "case"];

impl PolishSeal {
    /// The way that is taken, the others as remedies.
    pub(super) fn ways(&self, bench: &Bench, answer: &mut Answer) -> Result<(), Refusal> {
        let shifts = self.room_to_shift(bench, answer)?;
        let decides =
            |check: &&mut Check| DECIDE.contains(&check.id) && check.verdict().is_some_and(|it| it != Verdict::Proven);
        let mut polished = Verdict::Proven;
        for check in answer.checks.iter_mut().filter(decides) {
            polished = polished.max(check.verdict().unwrap_or(Verdict::Proven));
            if shifts {
                check.remedy(Words::of("shift-the-seal"));
            }
            if let Some(wall) = &self.sleeve_wall {
                check.remedy(Words::of("sleeve-it").with("wall", mm_as_typed(wall.value.number())));
            }
            check.remedy(Words::of("build-up-and-grind"));
        }
        let (way, why) = match (polished, shifts, self.sleeve_wall.is_some()) {
            (Verdict::Proven | Verdict::Doubtful, ..) => ("way-polish", "it-can-be-polished"),
            (Verdict::Fails, true, _) => ("way-shift", "there-is-fresh-track"),
            (Verdict::Fails, false, true) => ("way-sleeve", "no-fresh-track"),
            (Verdict::Fails, false, false) => ("way-grind", "neither-track-nor-sleeve"),
        };
        answer.choose("way", Fact::named(way), Words::of(why));
        Ok(())
    }

    /// Whether fresh track for the lip is left beside the groove.
    fn room_to_shift(&self, bench: &Bench, answer: &mut Answer) -> Result<bool, Refusal> {
        let (Some(free), Some(groove), Some(lip)) = (&self.free_track, &self.groove_width, &self.lip_width) else {
            return Ok(false);
        };
        let clear = constant("seal-shift-clear")?;
        let needed = answer.record(&TRACK_NEEDED, seal::track_for_shift(&groove.into(), &lip.into(), &clear)?);
        let check = Check::judge("room-to-shift", &Worked::from(free), Keep::AtLeast, &needed, bench.guard());
        let room = check.is_proven();
        answer.check(check.at(free.place));
        Ok(room)
    }
}
