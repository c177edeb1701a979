//! Where the centre is, what no jaw mends, and whether such readings can tell.

use super::keys::{Counts, SetTrue};
use super::least::left_of;
use super::names::{
    AFTER, ECCENTRICITY, FORM, LEAN, LEAN_TOWARDS, LOBES_2, LOBES_3, PLACES_AFTER, SECOND_AFTER, TIR_OFF, TIR_READ,
    TOWARDS, WITHIN,
};
use crate::handbook::constants::{constant, row};
use crate::handbook::form::circle::{spaced, waves, widest_gap};
use crate::handbook::form::truing::{off_centre, read_in_a_turn};
use crate::handbook::form::{Fit, NoForm};
use crate::handbook::measuring::window;
use crate::operations::kit::mm;
use crate::operations::{Answer, Bench, HeldIn, OfRow};
use crate::proof::{Check, Keep, Mark, Place, Refusal, Source, Verdict, Words, Worked};
use crate::quantity::{Angle, Mm, Quantity, Ratio, Shift};
use crate::shop::Gauge;

/// The centre as two ways at right angles: along the first jaw and across.
#[derive(Clone, Debug)]
pub(super) struct Centre {
    pub(super) along: Worked<Shift>,
    pub(super) across: Worked<Shift>,
}

impl Centre {
    /// How far it is off.
    pub(super) fn off(&self) -> Result<Worked<Mm>, Refusal> {
        off_centre(&self.along, &self.across)
    }

    /// Towards where, degrees from the first jaw; its doubt is that across over how far it is off.
    pub(super) fn towards(&self) -> Worked<Angle> {
        let (a, b) = (self.along.number(), self.across.number());
        let (e, angle) = (a.hypot(b), b.atan2(a));
        // Where it is off by no more than a computer rounds by it leans nowhere.
        let times = |along: f64| if e > NOTHING { (along / e).to_degrees() } else { 0.0 };
        let terms = [(times(-angle.sin()), &self.along), (times(angle.cos()), &self.across)];
        // A hair before the first jaw is the first jaw.
        let degrees = (angle.to_degrees() * 10.0).round().rem_euclid(3_600.0) / 10.0;
        let degrees = if degrees == 0.0 { 0.0 } else { angle.to_degrees().rem_euclid(360.0) };
        let turned: f64 = terms.iter().map(|(times, term)| times * term.number()).sum();
        Worked::sum(&terms, degrees - turned, "the angle of both parts, from the first jaw", CIRCLE).recast()
    }
}

/// So far off is not off at all, mm.
const NOTHING: f64 = 1e-9;

/// Shims under two of three jaws.
pub(super) struct ByShims {
    /// What an indicator will read in a turn because the drawer has no shim just so thick, mm.
    pub(super) left: f64,
    /// Each jaw with its shim, mm.
    pub(super) under: [(u8, f64); 2],
}

/// Where what is found of a circle comes from.
pub(super) const CIRCLE: Source = Source::fixed("least squares, by QR", Mark::Derived);

/// A parameter of a fit as a figure: the sum of what each reading counts in it.
fn parameter(fit: &Fit, at: usize, reads: &[Worked<Shift>], turned: f64) -> Worked<Shift> {
    let counts = fit.counts(at);
    let terms: Vec<(f64, &Worked<Shift>)> = counts.iter().map(|count| turned * count).zip(reads).collect();
    Worked::sum(&terms, 0.0, "least squares over all readings", CIRCLE)
}

/// Why no centre follows from readings.
fn no_centre(why: NoForm) -> Refusal {
    Refusal::NoForm { what: "centre", why: why.to_string() }
}

/// The centre from readings round it, and the fit.
pub(super) fn centre(angles: &[f64], reads: &[Worked<Shift>], turned: f64) -> Result<(Centre, Fit), Refusal> {
    let numbers: Vec<f64> = reads.iter().map(Worked::number).collect();
    let fit = waves(angles, &numbers, 1).map_err(no_centre)?;
    let of = |at: usize| parameter(&fit, at, reads, turned);
    Ok((Centre { along: of(1), across: of(2) }, fit))
}

/// Half of what so many lobes make an indicator read, where there are readings enough to tell.
fn lobes(angles: &[f64], reads: &[Worked<Shift>], count: u8) -> Result<Option<Worked<Mm>>, Refusal> {
    let numbers: Vec<f64> = reads.iter().map(Worked::number).collect();
    let Ok(fit) = waves(angles, &numbers, count) else { return Ok(None) };
    let of = |at: usize| parameter(&fit, at, reads, 1.0);
    let first = 2 * usize::from(count) - 1;
    off_centre(&of(first), &of(first + 1)).map(Some)
}

/// Readings with which five and seven places tell two and three lobes from the centre.
const PLACES_FOR_LOBES: [(usize, u8); 2] = [(5, 2), (7, 3)];

impl SetTrue {
    /// What `true-within` allows an indicator to read in a turn.
    pub(super) fn allowed(&self) -> Worked<Mm> {
        let allowed = Worked::from(&self.true_within);
        match self.counts.as_ref().map(|at| at.value) {
            Some(Counts::Eccentricity) => {
                allowed.scaled(2.0, "the centre off by so much reads twice as much in a turn")
            }
            Some(Counts::Tir) | None => allowed,
        }
    }

    /// The centre: from the readings, or as it was found.
    pub(super) fn centre(&self, bench: &Bench, answer: &mut Answer) -> Result<Centre, Refusal> {
        let turned = if self.indicator_turned() { -1.0 } else { 1.0 };
        let Some((angles, row)) = self.reads() else { return self.centre_found(bench, answer) };
        let reads = answer.read_row(bench, "readings", Gauge::Indicator, row, self.with.as_ref())?;
        let reads: Vec<Worked<Shift>> = reads.into_iter().flatten().collect();
        let (centre, fit) = centre(&angles, &reads, turned)?;
        self.form(bench, answer, (&angles, &reads, row.place), &fit)?;
        Ok(centre)
    }

    /// The centre as it was found: its readings were not written down, so nobody sees what no jaw mends.
    fn centre_found(&self, bench: &Bench, answer: &mut Answer) -> Result<Centre, Refusal> {
        let found = self.found.as_ref();
        let found = found.ok_or(Refusal::NotGiven { what: "where the centre is", key: "readings" })?;
        let off = answer.read_difference(bench, "found.eccentricity", Gauge::Indicator, &found.eccentricity)?;
        answer.not_checked(&["form-enough", "lobes-seen"], &["readings"]);
        let angle = found.towards.value.number().to_radians();
        let along = |times: f64| off.becomes::<Shift>().scaled(times, "its part along this way");
        Ok(Centre { along: along(angle.cos()), across: along(angle.sin()) })
    }

    /// What is left when the centre is taken out, and whether these readings can see lobes.
    fn form(
        &self,
        bench: &Bench,
        answer: &mut Answer,
        (angles, reads, place): (&[f64], &[Worked<Shift>], Place),
        fit: &Fit,
    ) -> Result<(), Refusal> {
        if let Some(as_read) = spread_as_read(reads) {
            answer.record(&TIR_READ, as_read);
        }
        for ((places, count), name) in PLACES_FOR_LOBES.into_iter().zip([&LOBES_2, &LOBES_3]) {
            if angles.len() >= places
                && let Some(lobes) = lobes(angles, reads, count)?
            {
                answer.record(name, lobes);
            }
        }
        let sees_form = angles.len() > 3;
        match spread_of(&fit.residuals, reads).filter(|_| sees_form) {
            Some(form) => {
                let form = answer.record(&FORM, form);
                let check = Check::judge("form-enough", &form, Keep::AtMost, &self.allowed(), bench.guard());
                let check = answer.check(not_over_an_arc(check, over_an_arc(angles)?).about(FORM.key).at(place));
                if over_an_arc(angles)? {
                    check.remedy(Words::of(ALL_ROUND));
                }
            }
            None => answer.not_checked(&["form-enough"], &["readings"]),
        }
        self.lobes_seen((angles.len(), spaced(angles)), place, answer);
        Ok(())
    }

    /// Whether so many places can see lobes.
    fn lobes_seen(&self, (places, apart): (usize, bool), place: Place, answer: &mut Answer) {
        answer.fact("places", places.to_string());
        let never_in_three = self.last_held_in.as_ref().is_some_and(|at| at.value.jaws() != Some(3));
        let seen = apart && (places >= 8 || (places > 4 && never_in_three));
        let verdict = if seen { Verdict::Proven } else { Verdict::Doubtful };
        let check = answer.check(Check::of_kind("lobes-seen", verdict).at(place));
        // Where so few places were read, what it was held in tells nothing more.
        if places > 4 && self.last_held_in.is_none() {
            check.remedy(Words::of("say-what-it-was-held-in"));
        }
    }

    /// What readings in a row tell that were taken after the move: form and lobes as they are judged before it, and the worse of
    /// both counts, for no jaw moves a form, and fewer places see less of it.
    fn form_after(&self, bench: &Bench, answer: &mut Answer) -> Result<(), Refusal> {
        let place = self.true_within.place;
        if let Some(form) = bench.left_beside(&FORM)? {
            let check = Check::judge("form-enough", &form, Keep::AtMost, &self.allowed(), bench.guard());
            if answer.value(FORM.key).is_none_or(|before| before.number < form.number()) {
                answer.record(&FORM, form);
            }
            answer.check(check.about(FORM.key).at(place));
        }
        if let Some(places) = bench.left_beside(&PLACES_AFTER)? {
            // As many as before the move stand where those did; four stand at the jaws.
            let apart = self.reads().is_some_and(|(angles, _)| spaced(&angles));
            self.lobes_seen((places.number() as usize, apart), place, answer);
        }
        Ok(())
    }

    /// The readings of the second plane against the first.
    pub(super) fn second_plane(&self, bench: &Bench, answer: &mut Answer, first: &Centre) -> Result<(), Refusal> {
        const ID: &str = "second-plane-true";
        let Some(second) = &self.second else {
            // A long part that runs true near the jaws may swing at its end.
            let hold = &self.hold.value;
            let out = hold.overhang.as_ref().zip(hold.diameter.as_ref());
            let most = constant::<Ratio>("one-plane-overhang-most")?.number();
            match out.filter(|(out, diameter)| out.value.number() > most * diameter.value.number()) {
                Some((out, _)) => {
                    let check = answer.check(Check::of_kind(ID, Verdict::Doubtful).at(out.place));
                    check.remedy(Words::of("read-the-far-end"));
                }
                None => answer.does_not_apply(&[ID]),
            }
            return Ok(());
        };
        let turned = if self.indicator_turned() { -1.0 } else { 1.0 };
        let row = &second.jaw_readings;
        let reads = answer.read_row(bench, "second", Gauge::Indicator, row, self.with.as_ref())?;
        let reads: Vec<Worked<Shift>> = reads.into_iter().flatten().collect();
        let (other, fit) = centre(&super::keys::JAWS, &reads, turned)?;
        let less = |one: &Worked<Shift>, less: &Worked<Shift>| {
            Worked::sum(&[(1.0, one), (-1.0, less)], 0.0, "the second plane less the first", CIRCLE)
        };
        let lean = Centre { along: less(&other.along, &first.along), across: less(&other.across, &first.across) };
        answer.record(&LEAN, lean.off()?);
        answer.record(&LEAN_TOWARDS, lean.towards());
        answer.fact("apart", crate::operations::kit::mm(second.apart.value.number()));
        let left = bench.left(&SECOND_AFTER)?;
        // What is no centre no jaw takes out.
        let stays = spread_of(&fit.residuals, &reads).filter(|_| left.is_none());
        let foretold = nothing_left(&read_in_a_turn(&other.off()?)?);
        let after = answer.record(&SECOND_AFTER, left.unwrap_or(foretold));
        for read in stays.iter().chain([&after]) {
            let check = Check::judge(ID, read, Keep::AtMost, &self.allowed(), bench.guard());
            answer.check(check.about(SECOND_AFTER.key).at(row.place));
        }
        Ok(())
    }

    /// Puts down where the centre is and judges what is foretold after the move: nothing, with the doubt of the readings. Gives
    /// the shims that move it, where it stands in three jaws.
    pub(super) fn judge_centre(
        &self,
        bench: &Bench,
        answer: &mut Answer,
        centre: &Centre,
    ) -> Result<Option<ByShims>, Refusal> {
        let off = answer.record(&ECCENTRICITY, centre.off()?);
        answer.record(&TOWARDS, centre.towards());
        let turn = answer.record(&TIR_OFF, read_in_a_turn(&off)?);
        let allowed = answer.record(&WITHIN, self.allowed());
        let place = self.true_within.place;
        let left = bench.left(&AFTER)?;
        let planned = left.is_none();
        let shims = self.by_shims(bench, answer, centre)?;
        let after = match &shims {
            Some(shims) => Worked::sum(&[(1.0, &nothing_left(&turn))], shims.left, "what the shims leave", CIRCLE),
            None if self.hold.value.held_in.value == HeldIn::FourJaw => {
                let left = left_of([&centre.along, &centre.across]);
                Worked::sum(&[(1.0, &nothing_left(&turn))], left, "what the jaws that stay leave", CIRCLE)
            }
            None => nothing_left(&turn),
        };
        let after = answer.record(&AFTER, left.unwrap_or(after));
        let check = Check::judge("true-enough", &after, Keep::AtMost, &allowed, bench.guard()).about(AFTER.key);
        // How far a shim moves the work in three jaws nobody has tried here.
        let tried = self.hold.value.held_in.value.jaws() != Some(3);
        let check = match planned {
            // Nothing is wrong before the part was moved: it is read again after it.
            true if tried => check.not_worse_than(Verdict::Doubtful),
            true => check.judged_as(Verdict::Doubtful),
            // What is not true yet is moved again: nothing is spoilt by it.
            false => check.not_worse_than(Verdict::Doubtful).unfinished(AFTER.key).past_finer_reading(),
        };
        let of_an_arc = self.reads_an_arc(bench)?;
        let check = not_over_an_arc(check, of_an_arc);
        let is_open = check.unfinished.is_some();
        let untried = planned && !tried;
        let again =
            || Words::of("move-it-again").with("left", mm(after.number())).with("half", mm(after.number() / 2.0));
        let check = answer.check(check.at(place));
        if of_an_arc {
            check.remedy(Words::of(ALL_ROUND));
        }
        if is_open {
            check.remedy(again());
        } else if untried {
            check.remedy(Words::of("read-what-the-shims-did"));
        }
        // What the tool sees in a turn is the centre and the form together: as greatest less least of the readings taken again.
        if let Some(spread) = bench.left_beside(&TIR_READ)?.filter(|_| !self.asks_for_centre()) {
            let spread = answer.record(&TIR_READ, spread);
            let check = Check::judge("true-enough", &spread, Keep::AtMost, &allowed, bench.guard());
            let check = if is_open { check.not_worse_than(Verdict::Doubtful).unfinished(AFTER.key) } else { check };
            let check = not_over_an_arc(check.past_finer_reading(), of_an_arc);
            let check = answer.check(check.about(TIR_READ.key).at(place));
            if is_open {
                check.remedy(again());
            }
        }
        self.form_after(bench, answer)?;
        self.measurable(bench, answer, (&turn, &allowed), place)?;
        Ok(shims)
    }

    /// Whether what counts for the centre was read over an arc: as typed, and after the move where as many were read again, there.
    fn reads_an_arc(&self, bench: &Bench) -> Result<bool, Refusal> {
        let Some((angles, _)) = self.reads() else { return Ok(false) };
        let again = match (bench.left(&AFTER)?, bench.left_beside(&PLACES_AFTER)?) {
            (None, _) => true,
            (Some(_), places) => places.is_some_and(|places| places.number() as usize == angles.len()),
        };
        Ok(again && over_an_arc(&angles)?)
    }

    /// What the centre makes an indicator read in a turn, from readings taken again after the move; and what is left of them when the
    /// centre is taken out.
    pub(super) fn read_after(&self, reads: &[Worked<Shift>]) -> Result<Vec<OfRow>, Refusal> {
        let typed = self.reads().map(|(angles, _)| angles).filter(|angles| angles.len() == reads.len());
        let angles = typed.or_else(|| (reads.len() == super::keys::JAWS.len()).then(|| super::keys::JAWS.to_vec()));
        let reason = "there are not as many readings as there were before the move";
        let angles = angles.ok_or_else(|| Refusal::NoForm { what: "centre", why: reason.to_owned() })?;
        let (centre, fit) = centre(&angles, reads, 1.0)?;
        let mut all = vec![(AFTER.key, read_in_a_turn(&centre.off()?)?.figure())];
        let form = spread_of(&fit.residuals, reads).filter(|_| reads.len() > 3);
        all.extend(form.map(|form| (FORM.key, form.figure())));
        let places = Worked::assumed(Ratio::new(reads.len() as f64), "places that were read after the move");
        all.push((PLACES_AFTER.key, places.figure()));
        all.extend(spread_as_read(reads).map(|spread| (TIR_READ.key, spread.figure())));
        Ok(all)
    }

    /// What an indicator reads in a turn in the second plane, from readings with each of the four jaws facing it, taken after the
    /// move: by the centre, or more where the readings themselves lie further apart. Where the centre alone is asked for, form counts as
    /// it does in the first plane.
    pub(super) fn second_after(&self, reads: &[Worked<Shift>]) -> Result<Vec<OfRow>, Refusal> {
        let (centre, fit) = at_the_jaws(reads)?;
        let apart = if self.asks_for_centre() { spread_of(&fit.residuals, reads) } else { spread_as_read(reads) };
        let turn = read_in_a_turn(&centre.off()?)?;
        Ok(vec![(SECOND_AFTER.key, larger(turn, apart).figure())])
    }

    /// Whether it is the centre that must be so true, and not what is read.
    fn asks_for_centre(&self) -> bool {
        self.counts.as_ref().is_some_and(|at| at.value == Counts::Eccentricity)
    }

    /// The doubt of what is read against a quarter of what is allowed.
    fn measurable(
        &self,
        bench: &Bench,
        answer: &mut Answer,
        (turn, allowed): (&Worked<Mm>, &Worked<Mm>),
        place: Place,
    ) -> Result<(), Refusal> {
        if self.with.is_none() && bench.shop.is_none() {
            answer.no_shop(&["can-be-measured"]);
            return Ok(());
        }
        let doubt = Worked::assumed(Mm::new(turn.plus_minus()), "the doubt of what is read in a turn");
        let nothing = Worked::assumed(Mm::new(0.0), "nothing");
        let quarter = window::quarter(&nothing, allowed)?;
        let check = Check::judge("can-be-measured", &doubt, Keep::AtMost, &quarter, bench.guard());
        answer.check(check.not_worse_than(Verdict::Doubtful).at(place));
        Ok(())
    }

    /// Whether it stands in three jaws, where shims move it.
    pub(super) fn in_three_jaws(&self) -> bool {
        matches!(self.hold.value.held_in.value, HeldIn::Jaws | HeldIn::SoftJaws)
    }
}

/// What is said where readings leave a wide gap.
const ALL_ROUND: &str = "read-all-round";

/// Whether readings leave so wide a gap that nobody knows how the work stands there.
fn over_an_arc(angles: &[f64]) -> Result<bool, Refusal> {
    // A tenth of a degree is no more than a mark on a chuck is good for.
    Ok(widest_gap(angles) > row("gap-unread-most")?.value + 0.1)
}

/// What was read over an arc proves nothing of the rest of the turn.
fn not_over_an_arc(check: Check, arc: bool) -> Check {
    if arc { check.not_better_than(Verdict::Doubtful) } else { check }
}

/// Greatest less least of readings.
pub(super) fn spread_as_read(reads: &[Worked<Shift>]) -> Option<Worked<Mm>> {
    spread_of(&reads.iter().map(Worked::number).collect::<Vec<_>>(), reads)
}

/// The larger of what is read in a turn by the centre and of how far readings lie apart.
pub(super) fn larger(turn: Worked<Mm>, apart: Option<Worked<Mm>>) -> Worked<Mm> {
    match apart {
        Some(apart) if apart.number() > turn.number() => apart,
        _ => turn,
    }
}

/// Greatest less least of what belongs to readings, with the doubt of those two.
pub(super) fn spread_of(of: &[f64], reads: &[Worked<Shift>]) -> Option<Worked<Mm>> {
    let most = of.iter().enumerate().max_by(|a, b| a.1.total_cmp(b.1))?.0;
    let least = of.iter().enumerate().min_by(|a, b| a.1.total_cmp(b.1))?.0;
    let (high, low) = (reads.get(most)?, reads.get(least)?);
    let apart = of.get(most)? - of.get(least)?;
    let more = apart - (high.number() - low.number());
    let terms = [(1.0, high), (-1.0, low)];
    Some(Worked::sum(&terms, more, "greatest less least; the two readings count, each once", CIRCLE).becomes())
}

/// The centre from readings with each of the four jaws facing the indicator.
pub(super) fn at_the_jaws(reads: &[Worked<Shift>]) -> Result<(Centre, Fit), Refusal> {
    if reads.len() != super::keys::JAWS.len() {
        let reason = "four readings: with jaw 1, 2, 3 and 4 facing the indicator";
        return Err(Refusal::NoForm { what: "centre", why: reason.to_owned() });
    }
    centre(&super::keys::JAWS, reads, 1.0)
}

/// Nothing, with the doubt of what was read.
pub(super) fn nothing_left(read: &Worked<Mm>) -> Worked<Mm> {
    Worked::sum(&[(1.0, read)], -read.number(), "moved by what was read: the doubt of the readings stays", CIRCLE)
}

/// The share of a shim's thickness, turned about: shims to centre in three jaws.
pub(super) fn shims_to_centre() -> Result<Worked<Ratio>, Refusal> {
    constant("shims-to-centre-three-jaws")
}
