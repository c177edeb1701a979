//! What the insert hole holds. And what the makers' own length tables ask.

use super::case::Case;
use super::checks;
use super::names::{ENGAGED, PULL_OUT, TABLE_A, TABLE_B};
use crate::handbook::threads::{insert, insert_rows, thread_strength as strength};
use crate::operations::{Answer, Bench};
use crate::proof::{Mark, Refusal, Source, Words, Worked};
use crate::quantity::{Angle, Mm, Mm2, Newton, Quantity, Ratio, Stress};

/// What the insert hole holds, and whether its ratio of strengths is a doubtful one.
pub(super) struct Holds {
    pub force: Worked<Newton>,
    pub doubtful: bool,
    /// Whether it rests on a reach that nobody gave.
    pub unread: bool,
    /// How deep a blind hole is at its full diameter.
    pub floor: Option<Worked<Mm>>,
}

impl Case<'_> {
    pub(super) fn strength(
        &self,
        bench: &Bench,
        nominal: &Worked<Mm>,
        floor: Option<&Worked<Mm>>,
        row: &mut Answer,
    ) -> Result<(), Refusal> {
        if self.asked.bolt.is_none() {
            row.does_not_apply(checks::BOLT);
        }
        let (engaged, unread) = self.engaged(nominal, row)?;
        let engaged = row.record(&ENGAGED, engaged);
        let area = self.shear_area(&engaged)?;
        let (ratio, doubtful) = strength::shear_over_tensile(&self.material)?;
        let tau = strength::shear_strength(&ratio, &self.material.tensile_low()?)?;
        let (dilation, thin) = self.dilation(bench, row)?;
        let force = row.record(&PULL_OUT, strength::pull_out(&tau, &area, &dilation)?);
        let doubtful = doubtful || thin;
        let Some(bolt) = &self.asked.bolt else { return Ok(()) };
        self.bolt(bench, bolt, &Holds { force, doubtful, unread, floor: floor.cloned() }, row)?;
        self.tables(&tau, row)
    }

    /// How far a thin boss swells, and whether that is doubtful; where no edge is given the boss is taken as stiff.
    fn dilation(&self, bench: &Bench, row: &mut Answer) -> Result<(Worked<Ratio>, bool), Refusal> {
        let Some(edge) = &self.edge else {
            row.assume_words(Words::of("boss-stiff"));
            let source =
                Source::fixed("from 1.9 x the thread a boss counts as stiff: Alexander, VDI 2230", Mark::FromMemory);
            return Ok((
                Worked::method(Ratio::new(1.0), vec!["no edge given: the boss is taken as stiff".into()], source),
                false,
            ));
        };
        strength::dilation(&insert::boss_across(edge)?, &self.hole.major_min, bench.guard())
    }

    /// The shorter of what the coil occupies and what the bolt reaches; and whether the reach is not known.
    fn engaged(&self, nominal: &Worked<Mm>, row: &mut Answer) -> Result<(Worked<Mm>, bool), Refusal> {
        let coil = insert::assembled_length(nominal, &self.pitch)?;
        let Some(reach) = self.asked.bolt.as_ref().and_then(|bolt| bolt.reach.as_ref()) else {
            row.assume_words(Words::of("bolt-fills-the-coil"));
            return Ok((coil, true));
        };
        // A bolt that does not reach half a pitch past the face holds by nothing.
        let bolt = insert::engaged_by_reach(&reach.into(), &self.pitch)?.at_least(0.0, "no thread is engaged");
        Ok((if bolt.number() < coil.number() { bolt } else { coil }, false))
    }

    fn shear_area(&self, engaged: &Worked<Mm>) -> Result<Worked<Mm2>, Refusal> {
        let form = self.asked.thread.value.form();
        let (major, pitch_max) = (&self.hole.major_min, &self.hole.pitch_max);
        if form.half_angle() == 30.0 {
            return strength::nut_shear_area(&self.pitch, engaged, major, pitch_max);
        }
        let source = Source::fixed(form.standard(), Mark::Read);
        let half =
            Worked::row(Angle::new(form.half_angle()), format!("{}: half the flank angle", form.standard()), source);
        strength::shear_area_any_form(&self.pitch, engaged, major, pitch_max, &half)
    }

    /// The two published length tables stand beside the arithmetic, with their makers' basis. They carry a margin of 1.6 to 2
    /// over bare stripping, so they are shown and do not judge.
    fn tables(&self, tau: &Worked<Stress>, row: &mut Answer) -> Result<(), Refusal> {
        let Some(bolt) = &self.asked.bolt else { return Ok(()) };
        let tensile = bolt.class.value.tensile(self.diameter.number())?;
        let by_tensile = self
            .material
            .tensile_low()
            .ok()
            .and_then(|rm| insert_rows::by_tensile(rm.number(), bolt.class.value.text()));
        let by_shear = insert_rows::by_shear(tau.number(), tensile.number());
        for (name, asked) in [(&TABLE_A, by_tensile), (&TABLE_B, by_shear)] {
            if let Some(asked) = asked {
                row.record(name, asked);
            }
        }
        Ok(())
    }
}
