//! The bore as it came: how worn, how round, how straight, and what would clean it.

use super::keys::{Axis, Bore, Definition};
use super::names::{
    AXIS_SHIFT, CLEAN_OLD, CLEAN_WORN, CLEARANCE_NOW, LEAST, OUT_OF_ROUND, TAPER, WEAR, WEAR_SHARE, WORST,
};
use crate::handbook::constants::constant;
use crate::handbook::joints::clearance;
use crate::handbook::measuring::cylinder;
use crate::job::{PartFacts, Reading, Warm};
use crate::operations::{Answer, Bench, Name};
use crate::proof::{At, Cause, Check, Fact, Keep, Origin, Refusal, Side, Verdict, Worked};
use crate::quantity::{Mm, Quantity, Ratio, Shift};
use crate::shop::Gauge;

/// What was found of the bore.
pub(super) struct Found {
    /// Greatest diameter.
    pub worst: Worked<Mm>,
    /// Least diameter.
    pub least: Worked<Mm>,
    /// How far the axis moves where it is bored about the worn place.
    pub shift: Worked<Mm>,
    /// The same where both axes of the worn place are worn on one side; none where the axis itself was read.
    pub shift_both: Option<Worked<Mm>>,
    /// How far it leans over its length, at the worst; none where nobody says.
    pub lean: Option<Worked<Mm>>,
    /// What cleans it about the worn place, and about the old axis.
    pub clean: [Worked<Mm>; 2],
    /// What cleans a side.
    pub side: Worked<Mm>,
    /// Whether the unworn ring was measured, and is no larger than the bore.
    pub unworn_sure: bool,
    /// Whether lobes were seen, where the readings say.
    pub lobes: Option<Verdict>,
    /// Diameters by depth along each axis, mm; of radii the widest and the narrowest.
    pub profile: Vec<(Option<String>, Vec<f64>)>,
}

/// What it is worn.
pub(super) struct Wear {
    unworn: Worked<Mm>,
    wear: Worked<Shift>,
    /// Whether it is no smaller than its unworn ring.
    can_be: bool,
}

/// Diameters by axis, then by depth.
type Grid = Vec<Vec<Worked<Mm>>>;

/// The greater of two differences.
fn greater(one: Option<Worked<Shift>>, other: Worked<Shift>) -> Option<Worked<Shift>> {
    Some(match one {
        Some(one) if one.number() >= other.number() => one,
        _ => other,
    })
}

fn by_size(a: &&Worked<Mm>, b: &&Worked<Mm>) -> std::cmp::Ordering {
    a.number().total_cmp(&b.number())
}

/// Greatest less least of some diameters.
fn spread<'a>(of: impl Iterator<Item = &'a Worked<Mm>> + Clone) -> Result<Option<Worked<Shift>>, Refusal> {
    match (of.clone().max_by(by_size), of.min_by(by_size)) {
        (Some(most), Some(least)) => cylinder::unlike(most, least).map(Some),
        _ => Ok(None),
    }
}

/// Greatest of one row less what is chosen of another.
fn most_less<'a>(
    one: impl Iterator<Item = &'a Worked<Mm>>,
    other: Option<&Worked<Mm>>,
) -> Result<Option<Worked<Shift>>, Refusal> {
    match (one.max_by(by_size), other) {
        (Some(most), Some(other)) => cylinder::unlike(most, other).map(Some),
        _ => Ok(None),
    }
}

/// How unlike the axes and the depths are where the depths are kept apart.
fn at_same_depth(grid: &Grid) -> Result<[Option<Worked<Shift>>; 2], Refusal> {
    let depths = grid.first().map_or(0, Vec::len);
    let (mut round, mut taper) = (None, None);
    for depth in 0..depths {
        let across = grid.iter().filter_map(|axis| axis.get(depth));
        round = spread(across)?.map_or(round.clone(), |found| greater(round, found));
    }
    for axis in grid {
        taper = spread(axis.iter())?.map_or(taper.clone(), |found| greater(taper, found));
    }
    Ok([round, taper])
}

/// The same where they are mixed: of every two axes, and of the ends whichever is wider.
fn at_mixed_depths(grid: &Grid) -> Result<[Option<Worked<Shift>>; 2], Refusal> {
    let (mut round, mut taper) = (None, None);
    for (at, one) in grid.iter().enumerate() {
        for (_, other) in grid.iter().enumerate().filter(|(other, _)| *other != at) {
            let least = other.iter().min_by(by_size);
            round = most_less(one.iter(), least)?.map_or(round.clone(), |found| greater(round, found));
        }
    }
    let top = grid.iter().filter_map(|axis| axis.first()).max_by(by_size);
    let bottom = grid.iter().filter_map(|axis| axis.last()).max_by(by_size);
    if let (Some(top), Some(bottom)) = (top, bottom) {
        taper = greater(taper, cylinder::unlike(top, bottom)?);
        taper = greater(taper, cylinder::unlike(bottom, top)?);
    }
    Ok([round, taper])
}

/// How far the axis moves at the most where it is bored about the worn place: both of its widest axes worn on one side alone.
fn shift_both(grid: &Grid, unworn: &Worked<Mm>) -> Result<Worked<Mm>, Refusal> {
    let widest = grid.iter().filter_map(|axis| axis.iter().max_by(by_size));
    let mut shifts = Vec::new();
    for widest in widest {
        shifts.push(cylinder::axis_shift(&cylinder::wear(widest, unworn)?)?);
    }
    shifts.sort_by(|a, b| b.number().total_cmp(&a.number()));
    let none = || Refusal::NotGiven { what: "the diameters of two axes", key: "readings.thrust" };
    let [one, other, ..] = shifts.as_slice() else { return Err(none()) };
    cylinder::axis_shift_both(one, other)
}

impl Bore {
    /// Every diameter, at 20 °C.
    fn grid(&self, bench: &Bench, answer: &mut Answer) -> Result<Grid, Refusal> {
        let asked = &self.readings.value;
        if asked.axes.len() < 2 {
            // One axis says nothing of round.
            return Err(Refusal::NotGiven { what: "the diameters of two axes", key: "readings.thrust" });
        }
        let warm = self.warmth();
        let mut grid = Grid::new();
        for (_, row) in &asked.axes {
            let reads = answer.read_row(bench, "readings", Gauge::Inside, row, asked.with.as_ref())?;
            let mut axis = Vec::new();
            for read in reads.into_iter().flatten() {
                let read = read.becomes::<Mm>();
                axis.push(match &warm {
                    Some(warm) => answer.at_20(bench, "readings", &read, warm)?,
                    None => read,
                });
            }
            grid.push(axis);
        }
        Ok(grid)
    }

    /// How warm cylinder and gauge were as it was read.
    pub(super) fn warmth(&self) -> Option<Warm> {
        let asked = &self.readings.value;
        asked.at.as_ref().map(|at| Warm { at: at.clone(), gauge_at: asked.gauge_at.clone() })
    }

    /// How far it is worn at its worst place.
    pub(super) fn wear_of(
        &self,
        bench: &Bench,
        (worst, least): (&Worked<Mm>, &Worked<Mm>),
        answer: &mut Answer,
    ) -> Result<Wear, Refusal> {
        let unworn = match &self.unworn {
            // Read in the same cylinder with the same gauge it was as warm as the rest, where nothing else is said of it.
            Some(at) => {
                let read = answer.read(bench, "unworn", Gauge::Inside, at)?;
                match self.warmth().filter(|_| matches!(&at.value, Reading::Size { warmth: None, .. })) {
                    Some(warm) => answer.at_20(bench, "unworn", &read, &warm)?,
                    None => read,
                }
            }
            None => {
                let nominal = Worked::exact(self.nominal.value, Origin::Typed(self.nominal.place));
                let doubt = constant::<Mm>("unworn-doubt")?.number();
                answer.assume("unworn-as-nominal", nominal.with_doubt(Cause::Named("the unworn ring"), doubt))
            }
        };
        let wear = answer.record(&WEAR, cylinder::wear(worst, &unworn)?);
        self.unworn_is_least(bench, (&unworn, least), answer)?;
        answer.record(&WEAR_SHARE, cylinder::wear_share(&wear, &(&self.nominal).into())?);
        // A bore that is smaller than its unworn ring, even at worst, was misread in one of the two.
        let can_be = wear.worst(Side::High, bench.guard()).number() >= 0.0;
        let limit = self.limits.as_ref().and_then(|limits| limits.wear.as_ref());
        Self::within(bench, answer, "wear", (&WEAR, &wear), limit.map(|limit| (limit, can_be)));
        Ok(Wear { unworn, wear, can_be })
    }

    /// Nothing of a bore is smaller than what never wore: a ring that was read larger hides the wear that centres the boring.
    fn unworn_is_least(
        &self,
        bench: &Bench,
        (unworn, least): (&Worked<Mm>, &Worked<Mm>),
        answer: &mut Answer,
    ) -> Result<(), Refusal> {
        const ID: &str = "unworn-is-least";
        let Some(at) = &self.unworn else {
            answer.does_not_apply(&[ID]);
            return Ok(());
        };
        let least_wear = cylinder::wear(least, unworn)?;
        // What was read worse than the shop can is held as if it were read well: a coarser reading hides no slip.
        let well_read = unworn.plus_minus().min(constant::<Mm>("ring-read-well")?.number()).hypot(least.plus_minus());
        let doubt = least_wear.plus_minus().min(well_read) * bench.guard() / 2.0;
        let may_be = least_wear.number() + doubt >= 0.0;
        let verdict = if may_be { Verdict::Proven } else { Verdict::Doubtful };
        answer.check(Check::of_kind(ID, verdict).at(at.place));
        Ok(())
    }

    /// Works what was found and judges it; nothing of this stamps.
    pub(super) fn found(&self, bench: &Bench, answer: &mut Answer) -> Result<Found, Refusal> {
        if let Some(radii) = &self.readings.value.radii {
            return self.found_by_radii(bench, radii, answer);
        }
        let grid = self.grid(bench, answer)?;
        let all = || grid.iter().flatten();
        let none = || Refusal::NotGiven { what: "the diameter of the bore", key: "readings.thrust" };
        let worst = answer.record(&WORST, all().max_by(by_size).ok_or_else(none)?.clone());
        let least = answer.record(&LEAST, all().min_by(by_size).ok_or_else(none)?.clone());
        let Wear { unworn, wear, can_be } = self.wear_of(bench, (&worst, &least), answer)?;
        let limits = self.limits.as_ref();
        let by = self.definition.as_ref().map(|at| at.value);
        let [mut round, mut taper] = match by {
            Some(Definition::MixedDepth) => [None, None],
            Some(Definition::SameDepth) | None => at_same_depth(&grid)?,
        };
        if by != Some(Definition::SameDepth) {
            let [other_round, other_taper] = at_mixed_depths(&grid)?;
            round = other_round.map_or(round.clone(), |found| greater(round, found));
            taper = other_taper.map_or(taper.clone(), |found| greater(taper, found));
        }
        if let Some(round) = round {
            let round = answer.record(&OUT_OF_ROUND, round);
            let limit = limits.and_then(|limits| limits.out_of_round.as_ref());
            Self::within(bench, answer, "out-of-round", (&OUT_OF_ROUND, &round), limit.map(|limit| (limit, true)));
        }
        if let Some(taper) = taper {
            let taper = answer.record(&TAPER, taper);
            let limit = limits.and_then(|limits| limits.taper.as_ref());
            Self::within(bench, answer, "taper", (&TAPER, &taper), limit.map(|limit| (limit, true)));
        }
        self.worn_clearance(bench, answer, &worst)?;
        let clean = self.clean_up(bench, answer)?;
        let shift = answer.record(&AXIS_SHIFT, cylinder::axis_shift(&wear)?);
        let about_worn = answer.record(&CLEAN_WORN, cylinder::clean_up_worn(&worst, &clean)?);
        let about_old = cylinder::clean_up_old(&worst, &unworn, &clean)?;
        // A ring that reads larger than the bore does not make it cleaner.
        let about_old = if about_old.number() < about_worn.number() { about_worn.clone() } else { about_old };
        let about_old = answer.record(&CLEAN_OLD, about_old);
        let unworn_sure = self.unworn.is_some() && can_be;
        let shift_both = Some(shift_both(&grid, &unworn)?);
        let names = self.readings.value.axes.iter().map(|(name, _)| Some(name.clone()));
        let profile = names.zip(grid.iter().map(|axis| axis.iter().map(Worked::number).collect())).collect();
        let clean_up = [about_worn, about_old];
        let (lobes, lean, side) = (None, None, clean);
        Ok(Found { worst, least, shift, shift_both, lean, clean: clean_up, side, unworn_sure, lobes, profile })
    }

    /// Whether the depths see the whole of it: wear, taper and what cleans it up stand on its worst place.
    pub(super) fn read_all_along(&self, answer: &mut Answer) -> Result<(), Refusal> {
        let depths = &self.readings.value.depths;
        let length = self.length.value.number();
        let mut all = depths.value.numbers().unwrap_or_default();
        all.sort_by(f64::total_cmp);
        let (first, last) = (all.first().copied().unwrap_or(length), all.last().copied().unwrap_or_default());
        let between =
            all.windows(2).map(|two| if let [one, next] = two { next - one } else { 0.0 }).fold(0.0, f64::max);
        let share = |name| constant::<Ratio>(name).map(|share| share.number() * length);
        // Rings turn about near the ends, and wear most there.
        let at_an_end = first.max(length - last);
        let seen = between <= share("bore-unread-most")? && at_an_end <= share("bore-end-unread-most")?;
        let verdict = if seen { Verdict::Proven } else { Verdict::Doubtful };
        let apart = between.max(at_an_end);
        answer.check(Check::of_kind("read-all-along", verdict).at(depths.place).with("apart", Fact::mm(apart)));
        Ok(())
    }

    /// Which axis it is bored about.
    pub(super) fn about(&self) -> Axis {
        self.axis.as_ref().map_or(Axis::Old, |at| at.value)
    }

    pub(super) fn within(
        bench: &Bench,
        answer: &mut Answer,
        id: &'static str,
        (name, got): (&Name<Shift>, &Worked<Shift>),
        limit: Option<(&At<Mm>, bool)>,
    ) {
        let Some((limit, can_be)) = limit else { return };
        let most = Worked::<Mm>::from(limit).becomes::<Shift>();
        let check = Check::judge(id, got, Keep::AtMost, &most, bench.guard()).about(name.key);
        let check = if can_be { check } else { check.not_better_than(Verdict::Doubtful) };
        answer.check(check.at(limit.place));
    }

    /// The piston that is in it now: against the clearance asked, else against shares of the bore.
    pub(super) fn worn_clearance(&self, bench: &Bench, answer: &mut Answer, worst: &Worked<Mm>) -> Result<(), Refusal> {
        const ID: &str = "worn-clearance";
        let Some(at) = &self.piston_now else { return Ok(()) };
        let of_piston = PartFacts { material: self.piston_metal.clone(), ..bench.part.clone() };
        let piston = answer.read(&bench.with_part(&of_piston), "piston-now", Gauge::Outside, at)?;
        let now = answer.record(&CLEARANCE_NOW, clearance::clearance(worst, &piston)?);
        let guard = bench.guard();
        let share = |name| cylinder::of_bore(&constant(name)?, &Worked::<Mm>::from(&self.nominal));
        let (well, most): (Worked<Shift>, Worked<Shift>) =
            (share("worn-clearance-doubtful")?, share("worn-clearance-most")?);
        let check = match &self.clearance {
            Some(wanted) => {
                let limit = Worked::exact(wanted.value.high, Origin::Typed(wanted.place)).becomes::<Shift>();
                Check::judge(ID, &now, Keep::AtMost, &limit, guard)
            }
            None => Check::judge_two(ID, (&now, &well), Keep::AtMost, (&now, &most), guard),
        };
        // So loose that no new standard piston cures it, whatever clearance was asked; at the worst end nobody can say.
        let check = match now.number() > most.number() {
            true => check.judged_as(Verdict::Fails),
            false if now.worst(Side::High, guard).number() > most.number() => check.not_better_than(Verdict::Doubtful),
            false => check,
        };
        answer.check(check.about(CLEARANCE_NOW.key).at(at.place));
        Ok(())
    }

    /// What cleans a side: typed, the shop's habit, or usual.
    pub(super) fn clean_up(&self, bench: &Bench, answer: &mut Answer) -> Result<Worked<Mm>, Refusal> {
        let clean: Worked<Mm> = match (&self.clean_up, bench.shop.and_then(|shop| shop.habits.clean_up.as_ref())) {
            (Some(typed), _) => typed.into(),
            (None, Some(habit)) => answer.assume("clean-up-habit", habit.into()),
            (None, None) => answer.assume("clean-up", constant("clean-up")?),
        };
        Ok(clean.nominal("a choice of the shop, not a reading"))
    }
}
