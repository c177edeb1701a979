//! A through hole: is the wall long enough for the coil, and what stands out behind it?

use super::*;
use crate::handbook::threads::insert;
use crate::proof::{Keep, Mark, Source};

impl Case<'_> {
    pub(super) fn through(&self, bench: &Bench, nominal: &Worked<Mm>, row: &mut Answer) -> Result<(), Refusal> {
        row.record(&FULL_THREAD, self.wall.clone());
        let through = Worked::method(
            Mm::new(self.wall.number()),
            vec!["drilled through: the hole is as deep as the wall".into()],
            Source::fixed("a through hole", Mark::Derived),
        );
        row.record(&DRILLED_DEPTH, through);
        let needed = if self.countersink { insert::through_wall_countersunk(nominal, &self.pitch)? } else { nominal.clone() };
        let needed = row.record(&WALL_NEEDED, needed);
        let check = Check::judge("wall-for-insert", &self.wall, Keep::AtLeast, &needed, bench.guard());
        let check = row.check(check.about(WALL.key).at(self.asked.wall.place));
        check.remedies.extend(["shorter-insert", "solid-bush"].map(Words::of));
        self.beyond(bench, row)
    }

    /// What stands past the far face, while cutting and when assembled, against what moves there.
    fn beyond(&self, bench: &Bench, row: &mut Answer) -> Result<(), Refusal> {
        let hole = &self.hole;
        let tap = insert::stick_out(&hole.threads_of_lead, &hole.centre, &self.pitch)?;
        let cutting = if tap.number() >= hole.point.number() { tap } else { hole.point.clone() };
        let cutting = row.record(&CUTTING_OUT, cutting);
        let reach = self.asked.bolt.as_ref().and_then(|bolt| bolt.reach.as_ref());
        let bolt = match reach {
            Some(reach) => Some(row.record(&BOLT_OUT, insert::bolt_end_past_wall(&reach.into(), &self.wall)?)),
            None => None,
        };
        let Some(gap) = &self.beyond else {
            row.assume_words(Words::of("nothing-moves-beyond"));
            return Ok(());
        };
        let place = self.asked.beyond.as_ref().map_or(self.asked.wall.place, |at| at.place);
        let check = Check::judge("while-cutting", &cutting, Keep::AtMost, gap, bench.guard());
        row.check(check.about(CUTTING_OUT.key).at(place));
        if let Some(bolt) = bolt {
            let check = Check::judge("when-assembled", &bolt, Keep::AtMost, gap, bench.guard());
            row.check(check.about(BOLT_OUT.key).at(place));
        } else {
            row.assume_words(Words::of("reach-not-given"));
        }
        Ok(())
    }
}
