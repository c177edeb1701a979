//! The wall that is left about the bore, the base face that it stands on, and what the hone takes.

use super::found::Found;
use super::keys::{Axis, Bore};
use super::names::{BASE_SQUARE, LEANS_OVER, WALL};
use crate::handbook::constants::constant;
use crate::handbook::measuring::cylinder;
use crate::operations::{Answer, Bench};
use crate::proof::{At, Check, Keep, Mark, Refusal, Side, Source, Verdict, Worked};
use crate::quantity::{Mm, Quantity};
use crate::shop::Gauge;

/// Where what leans a piston over comes from.
const LEANS: Source = Source::fixed("one on top of the other at the worst", Mark::Derived);

impl Bore {
    /// What it is trued within.
    pub(super) fn true_within(&self) -> Option<&At<Mm>> {
        self.hold.as_ref()?.true_within.as_ref()
    }

    /// The wall at its thinnest, judged at the greatest bore that may be left.
    pub(super) fn wall(
        &self,
        bench: &Bench,
        found: &Found,
        (finish, [most, bored]): (&Worked<Mm>, [&Worked<Mm>; 2]),
        row: &mut Answer,
    ) -> Result<(), Refusal> {
        const ID: &str = "wall";
        let mut missing = Vec::new();
        missing.extend(self.outside.is_none().then_some("outside"));
        missing.extend(
            self.outside.as_ref().is_some_and(|about| about.eccentric.is_none()).then_some("outside.eccentric"),
        );
        missing.extend(self.true_within().is_none().then_some("hold.true-within"));
        missing.extend(self.least_wall.is_none().then_some("least-wall"));
        let about = self.outside.as_ref().and_then(|about| Some((about, about.eccentric.as_ref()?)));
        let (Some((about, eccentric)), Some(within)) = (about, self.true_within()) else {
            row.not_checked(&[ID], &missing);
            return Ok(());
        };
        let outside = row.read(bench, "outside.size", Gauge::Outside, &about.size)?;
        let off = row.read_difference(bench, "outside.eccentric", Gauge::FromCentre, eccentric)?;
        let moved = match self.about() {
            Axis::Worn => found.shift.clone(),
            Axis::Old => {
                Worked::row(Mm::new(0.0), "the old axis does not move: 0", Source::fixed("geometry", Mark::Derived))
            }
        };
        let wall = cylinder::wall_left(&outside, finish, &off, &within.into(), &moved)?;
        let wall = row.record(&WALL, wall);
        let Some(least) = &self.least_wall else {
            row.not_checked(&[ID], &missing);
            return Ok(());
        };
        // It is bored no smaller again, whatever the limits say.
        let most = most.number().max(bored.worst(Side::High, bench.guard()).number());
        let over = (most - finish.number()).max(0.0) / 2.0;
        // It moves along both axes where both are worn on one side, and leans as far as its base is off.
        let further = found.shift_both.as_ref().filter(|_| self.about() == Axis::Worn);
        let further = further.map_or(0.0, |both| (both.number() - found.shift.number()).max(0.0));
        let leans = found.lean.as_ref().map_or(0.0, Worked::number);
        let thinnest = wall.shifted(-over - further - leans, "in the greatest bore that may be left, and as it leans");
        let least_wall = Worked::<Mm>::from(least).becomes();
        let check = Check::judge(ID, &thinnest, Keep::AtLeast, &least_wall, bench.guard()).about(WALL.key);
        row.check(check.at(least.place));
        Ok(())
    }

    /// The base face square to the bore: as near as it is trued, and never further off than any face that a cylinder stands on.
    /// Gives how far that leans the bore over its length, at the worst.
    pub(super) fn base_square(&self, bench: &Bench, answer: &mut Answer) -> Result<Option<Worked<Mm>>, Refusal> {
        const ID: &str = "base-square";
        let (Some(at), Some(within)) = (&self.base_square, self.true_within()) else {
            let missing = if self.base_square.is_none() { ID } else { "hold.true-within" };
            answer.not_checked(&[ID], &[missing]);
            return Ok(None);
        };
        let off = answer.read_difference(bench, ID, Gauge::Indicator, at)?;
        let off = answer.record(&BASE_SQUARE, off.becomes());
        let (within, most): (Worked<Mm>, Worked<Mm>) = (Worked::from(within), constant("base-square-most")?);
        let limit = if within.number() < most.number() { &within } else { &most };
        let check = Check::judge(ID, &off, Keep::AtMost, &limit.becomes(), bench.guard());
        answer.check(check.at(at.place));
        // Trued more loosely a face stands no squarer: what both may add up to leans the piston over.
        let both = [(1.0, &off), (1.0, &within.becomes())];
        let leans = Worked::sum(&both, 0.0, "the face off square, and what truing leaves beside it", LEANS);
        let leans = answer.record(&LEANS_OVER, leans);
        let check = Check::judge(ID, &leans, Keep::AtMost, &most.becomes(), bench.guard()).about(LEANS_OVER.key);
        answer.check(check.not_worse_than(Verdict::Doubtful).at(at.place));
        let worst = off.worst(Side::High, bench.guard()).number() - off.number();
        Ok(Some(off.shifted(worst, "as far as it may lean").becomes()))
    }
}
