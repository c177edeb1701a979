//! The drill of the insert hole: that of the table, else one that is sure to stay inside the limits with what it cuts over.

use super::keys::ThreadInsert;
use crate::handbook::threads::{insert, insert_drill};
use crate::handbook::{ToolMaterial, constants::constant};
use crate::operations::kit::drill_size;
use crate::operations::{Answer, Bench};
use crate::proof::{Check, Fact, Origin, Refusal, Verdict, Words, Worked};
use crate::quantity::{Angle, Mm, Quantity, figure};
use crate::shop::PickedDrill;

/// The drill that was taken.
pub(super) struct Taken {
    pub diameter: Worked<Mm>,
    pub material: ToolMaterial,
    pub point: Worked<Angle>,
}

const CHECK: &str = "drill-in-limits";

/// A drill that is not the table's, the hole that it cuts, and how that stands to the limits.
type OtherDrill<'d> = (&'d PickedDrill, Worked<Mm>, Check);

impl ThreadInsert {
    /// The table's drill where the shop owns it; else the largest owned that the limits hold with what it cuts over; else the
    /// table's, which the shop then lacks.
    pub(super) fn drill(
        &self,
        bench: &Bench,
        answer: &mut Answer,
        limits: (&Worked<Mm>, &Worked<Mm>),
        row: &insert::InsertRow,
    ) -> Result<Taken, Refusal> {
        let table = row.drill(limits.0, limits.1)?;
        let drills = bench.shop.map(|shop| shop.drills()).unwrap_or_default();
        let same = |drill: &&PickedDrill| (drill.diameter - table.number()).abs() < 1e-6;
        // Forms without a table of limits are doubtful whatever is drilled.
        let sure = if row.doubtful() { Verdict::Doubtful } else { Verdict::Proven };
        let mut own = Check::of_kind(CHECK, sure);
        if let Some(owned) = drills.iter().find(same) {
            answer.check(analogous(own, row));
            return owned_drill(answer, owned, table.clone(), "drill-of-table-owned");
        }
        if let Some((owned, picked, check)) = self.other_drill(bench, &drills, limits)? {
            answer.check(analogous(check.not_better_than(sure), row));
            return owned_drill(answer, owned, picked, "largest-drill-that-stays-inside");
        }
        if bench.shop.is_some() {
            answer.missing.push(Words::of("drill").with("size", drill_size(table.number())));
            own = own.not_better_than(Verdict::Doubtful);
        }
        answer.check(analogous(own, row));
        let table = answer.assume("drill-of-table", table);
        answer.choose(
            "drill",
            Words::of("drill-size-of-table").with("size", drill_size(table.number())),
            Words::of(if bench.shop.is_some() { "drill-of-table" } else { "drill-of-table-alone" }),
        );
        let point = answer.assume("point-angle", constant("drill-point-angle")?);
        Ok(Taken { diameter: table, material: ToolMaterial::Hss, point })
    }

    /// The largest drill that is proven inside the limits, else the largest that is inside them at the middle.
    fn other_drill<'d>(
        &self,
        bench: &Bench,
        drills: &'d [PickedDrill],
        limits: (&Worked<Mm>, &Worked<Mm>),
    ) -> Result<Option<OtherDrill<'d>>, Refusal> {
        let habit = bench.shop.and_then(|shop| shop.habits.drill_over.as_ref());
        let mut may_do = None;
        // Only sizes about the limits are worth working out.
        let about =
            |drill: &&PickedDrill| drill.diameter <= limits.1.number() && drill.diameter >= limits.0.number() / 1.1;
        for owned in drills.iter().rev().filter(about) {
            let rule = format!(
                "{}: {} mm, not the drill of the table",
                owned.from.as_deref().unwrap_or("single drill"),
                figure(owned.diameter)
            );
            let picked =
                Worked::exact(Mm::new(owned.diameter), Origin::Picked { rule, wanted: limits.1.origin().clone() });
            let over = habit.map_or_else(|| insert_drill::drill_over(&picked), |habit| Ok(habit.into()))?;
            let check = insert_drill::judge_drill(CHECK, &picked, &over, limits, bench.guard())?;
            let small = insert_drill::too_small(&picked, limits.0)?;
            match check.verdict() {
                Some(Verdict::Proven) => return Ok(Some((owned, picked, check))),
                Some(Verdict::Doubtful) if !small && may_do.is_none() => may_do = Some((owned, picked, check)),
                _ => {}
            }
        }
        Ok(may_do)
    }
}

/// What a drill of the shop gives.
fn owned_drill(
    answer: &mut Answer,
    owned: &PickedDrill,
    diameter: Worked<Mm>,
    why: &'static str,
) -> Result<Taken, Refusal> {
    let from = owned.from.as_ref().map_or(Fact::named("single-drill"), |from| from.into());
    let named = Words::of("drill-from").with("size", drill_size(owned.diameter)).with("from", from);
    answer.choose("drill", named, Words::of(why));
    let point = match &owned.point {
        Some(typed) => typed.into(),
        None => answer.assume("point-angle", constant("drill-point-angle")?),
    };
    Ok(Taken { diameter, material: owned.material, point })
}

/// A form whose limits follow by analogy says so.
fn analogous(mut check: Check, row: &insert::InsertRow) -> Check {
    if row.doubtful() {
        check.remedy(Words::of("measure-tap-and-coil"));
    }
    check
}
