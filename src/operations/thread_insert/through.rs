//! A through hole: is the wall long enough for the coil, and what stands out behind it, while cutting and when closed?

use super::case::Case;
use super::names::{BOLT_OUT, LEFT_ASSEMBLED, LEFT_CUTTING, TAP_OUT, TIP_BEHIND, WALL, WALL_NEEDED};
use crate::handbook::constants::constant;
use crate::handbook::threads::insert;
use crate::operations::kit::hundredths;
use crate::operations::{Answer, Bench};
use crate::proof::{Cause, Check, Keep, Refusal, Remedy, Side, Verdict, Words, Worked};
use crate::quantity::{Mm, Quantity};

/// A remedy with what it leaves of the tip and of the tap's end.
type Gain = (&'static str, Worked<Mm>, Worked<Mm>);

impl Case<'_> {
    /// The drill goes through by so much that it surely comes out; the tap goes only as deep as the insert needs.
    pub(super) fn through(
        &self,
        bench: &Bench,
        nominal: &Worked<Mm>,
        tap: &Worked<Mm>,
        row: &mut Answer,
    ) -> Result<(), Refusal> {
        row.does_not_apply(&["break-through"]);
        self.wall_for_insert(bench, nominal, row)?;
        let wall = self.wall.nominal("the stop is set for the wall as read and what that lacks in surety");
        let sure = insert::through_depth(&wall, &self.wall_and_stop(bench.guard())?, &constant("through-overrun")?)?;
        let reached = self.set_stop(&insert::depth_to_point(&sure, &self.hole.point)?, row)?;
        let tip = row.record(&TIP_BEHIND, insert::behind_wall(&reached, &self.wall)?);
        let end = insert::tap_end(tap, &self.hole.centre)?.with_doubt(Cause::Set("depth stop"), self.stop);
        let tap = row.record(&TAP_OUT, insert::behind_wall(&end, &self.wall)?);
        self.while_cutting(bench, &tip, &tap, row)?;
        self.when_assembled(bench, row)
    }

    fn wall_for_insert(&self, bench: &Bench, nominal: &Worked<Mm>, row: &mut Answer) -> Result<(), Refusal> {
        let needed =
            if self.countersink { insert::through_wall_countersunk(nominal, &self.pitch)? } else { nominal.clone() };
        let needed = row.record(&WALL_NEEDED, needed);
        let check = Check::judge("wall-for-insert", &self.wall, Keep::AtLeast, &needed, bench.guard());
        let mut check = check.about(WALL.key).at(self.asked.wall.place);
        check.remedies.extend(["shorter-insert", "solid-bush"].map(Remedy::of));
        row.check(if self.asked.spark_plug() { self.in_the_chamber(bench, check, nominal)? } else { check });
        Ok(())
    }

    /// A spark plug's insert: no coil stands in the chamber and no more than a pitch of bare thread; doubtful until the reach of
    /// the plug is known, and where a countersink sets the coil down further.
    fn in_the_chamber(&self, bench: &Bench, mut check: Check, nominal: &Worked<Mm>) -> Result<Check, Refusal> {
        let reach = self.asked.bolt.as_ref().and_then(|bolt| bolt.reach.as_ref());
        if reach.is_none() || self.countersink {
            check.remedy(Words::of("plug-reach-and-head"));
            check = check.not_better_than(Verdict::Doubtful);
        }
        let foot = insert::foot_least(nominal, &self.pitch)?;
        let bare = insert::metal_left(
            &self.wall,
            &foot.shifted(self.pitch.number() / 2.0, "set down no further than half a pitch"),
        )?;
        let bare = Check::judge("wall-for-insert", &bare, Keep::AtMost, &self.pitch, bench.guard());
        let glows = bare.verdict().unwrap_or(Verdict::Fails);
        let sticks = reach.is_some_and(|reach| {
            reach.value.number() > self.wall.worst_number(Side::Low, bench.guard()) + self.pitch.number()
        });
        if !bare.is_proven() || sticks {
            check.remedy(Words::of("bare-thread-glows"));
            check = check.not_better_than(glows.max(Verdict::Doubtful));
        }
        Ok(check)
    }

    /// What is left of the gap behind the wall while cutting, by the drill's tip or the tap's end, whichever comes nearer.
    fn while_cutting(
        &self,
        bench: &Bench,
        tip: &Worked<Mm>,
        tap: &Worked<Mm>,
        row: &mut Answer,
    ) -> Result<(), Refusal> {
        let Some(gap) = self.gap("while-cutting", row) else { return Ok(()) };
        let (by_tip, by_tap) = (insert::gap_left(&gap, tip)?, insert::gap_left(&gap, tap)?);
        let worse = |left: &Worked<Mm>| left.worst_number(Side::Low, bench.guard());
        let left = if worse(&by_tap) < worse(&by_tip) { &by_tap } else { &by_tip };
        let left = row.record(&LEFT_CUTTING, left.clone());
        let least = constant("clear-while-cutting")?;
        let check = Check::judge("while-cutting", &left, Keep::AtLeast, &least, bench.guard());
        let check = row.check(self.by_its_zero(check.about(LEFT_CUTTING.key).at(self.beyond_place())));
        for (id, tip, tap) in self.cutting_remedies(&by_tip, &by_tap)? {
            let then = if worse(&tap) < worse(&tip) { tap } else { tip };
            let verdict = Check::judge("while-cutting", &then, Keep::AtLeast, &least, bench.guard()).verdict();
            let words = Words::of(id).with("then", hundredths(worse(&then)));
            check.remedy(Remedy::giving(words, verdict.unwrap_or(Verdict::Fails)));
        }
        check.remedy(Words::of("take-out-what-moves"));
        Ok(())
    }

    /// Remedies of the tip and of the tap's end, with what each leaves.
    fn cutting_remedies(&self, by_tip: &Worked<Mm>, by_tap: &Worked<Mm>) -> Result<Vec<Gain>, Refusal> {
        let hole = &self.hole;
        let mut all = Vec::new();
        if hole.point.number() > 0.0 {
            all.push((
                "flat-bottom-through",
                by_tip.shifted(hole.point.number(), "a flat-bottomed finish has no point"),
                by_tap.clone(),
            ));
        }
        let shorter = hole.threads_of_lead.number() - hole.bottoming.number();
        if shorter > 0.0 {
            let gain = shorter * self.pitch.number() + hole.centre.number();
            all.push(("bottoming-lead", by_tip.clone(), by_tap.shifted(gain, "a bottoming lead without centre")));
        }
        if hole.centre.number() > 0.0 {
            all.push((
                "grind-centre-through",
                by_tip.clone(),
                by_tap.shifted(hole.centre.number(), "the centre ground off"),
            ));
        }
        Ok(all)
    }

    /// What is left of the gap when the joint is closed. The reach counts full thread; the point of the bolt, up to a pitch
    /// long, stands past it.
    fn when_assembled(&self, bench: &Bench, row: &mut Answer) -> Result<(), Refusal> {
        let reach = self.asked.bolt.as_ref().and_then(|bolt| bolt.reach.as_ref());
        let out = match reach {
            Some(reach) => {
                let reach = Worked::from(reach);
                let long = reach.number() + self.pitch.number();
                let reach = reach.clone().with_band(reach.number(), long);
                Some(row.record(&BOLT_OUT, insert::bolt_behind_wall(&reach, &self.wall)?))
            }
            None => None,
        };
        let Some(gap) = self.gap("when-assembled", row) else { return Ok(()) };
        let Some(out) = out else {
            row.not_checked(&["when-assembled"], &["bolt.reach"]);
            return Ok(());
        };
        let left = row.record(&LEFT_ASSEMBLED, insert::gap_left(&gap, &out)?);
        let check =
            Check::judge("when-assembled", &left, Keep::AtLeast, &constant("clear-when-assembled")?, bench.guard());
        row.check(check.about(LEFT_ASSEMBLED.key).at(self.beyond_place())).remedy(Words::of("take-out-what-moves"));
        Ok(())
    }

    /// The gap behind the wall; where there is none to judge, the check says so.
    fn gap(&self, id: &'static str, row: &mut Answer) -> Option<Worked<Mm>> {
        match (&self.beyond, &self.asked.beyond) {
            (Some(gap), _) => return Some(gap.clone()),
            (None, Some(_)) => {
                row.assume_words(Words::of("clear-beyond"));
                row.does_not_apply(&[id]);
            }
            (None, None) => row.not_checked(&[id], &["beyond"]),
        }
        None
    }

    fn beyond_place(&self) -> crate::proof::Place {
        self.asked.beyond.as_ref().map_or(self.asked.wall.place, |at| at.place)
    }
}
