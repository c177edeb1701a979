//! The depth stop: how far it goes from its zero, and what the drill then reaches.

use super::case::Case;
use super::keys::ZeroKind;
use super::names::STOP_TRAVEL;
use crate::handbook::threads::insert;
use crate::operations::Answer;
use crate::operations::hole_making::{lacking, stop_set};
use crate::proof::{Cause, Fact, Refusal, Words, Worked};
use crate::quantity::{Mm, Quantity};

/// The choice that lists the other zeros: for a reader of the JSON, never on a sheet.
pub(super) const OTHER_ZEROS: &str = "other_zeros";

impl Case<'_> {
    /// Sets the stop for a depth to the tip: the travel is put on record, what the tip reaches comes back with the doubts of
    /// stop and zero. Where the zero cannot be taken the depth stands, and no travel is given.
    pub(super) fn set_stop(&self, depth: &Worked<Mm>, row: &mut Answer) -> Result<Worked<Mm>, Refusal> {
        let stop = Cause::Set("depth stop");
        let Some(tip) = &self.zero.tip else { return Ok(depth.clone().with_doubt(stop, self.stop)) };
        let set = |tip: &Worked<Mm>| {
            insert::stop_travel(
                depth,
                &tip.nominal("the stop is set by the middle; the depth reached carries what the zero lacks"),
            )
        };
        let travel = row.record(&STOP_TRAVEL, set(tip)?);
        row.fact("stop_set", stop_set(&travel, self.zero.dial.division));
        let others = self
            .zero
            .others
            .iter()
            .map(|(kind, tip)| Ok((*kind, set(tip)?.number())))
            .collect::<Result<Vec<_>, Refusal>>()?;
        if !others.is_empty() {
            let said = |(kind, travel): &(ZeroKind, f64)| {
                Fact::Joined(vec![kind.text().into(), " ".into(), Fact::mm(*travel)])
            };
            row.choose(
                OTHER_ZEROS,
                Fact::Series(others.iter().map(said).collect(), ", "),
                Words::of("other-zeros-why"),
            );
        }
        Ok(insert::depth_reached(&travel, tip)?.with_doubt(stop, self.stop))
    }

    /// What wall, stop and zero together lack in surety, by the guard factor, as a figure of its own.
    pub(super) fn wall_and_stop(&self, guard: f64) -> Result<Worked<Mm>, Refusal> {
        let face = Worked::assumed(Mm::new(0.0), "the face");
        let reached = match &self.zero.tip {
            Some(tip) => {
                insert::depth_reached(&insert::stop_travel(&face, &tip.nominal("the middle of the zero"))?, tip)?
            }
            None => face,
        };
        lacking(&self.wall, reached, self.stop, guard)
    }
}
