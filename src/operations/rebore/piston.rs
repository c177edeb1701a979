//! One piston: to what the bore is finished for it, whether that cleans it, and whether the clearance can be proven.

use super::found::Found;
use super::keys::{Axis, Bore};
use super::names::{
    BORE_MAX, BORE_MIN, BORED, CLEARANCE, COMPRESSION, FINISH, HONING_LEFT, PISTON, RING_GAP, RUNNING, SWEPT,
};
use crate::handbook::Material;
use crate::handbook::constants::constant;
use crate::handbook::joints::{clearance, lapping};
use crate::handbook::materials::groups::Kind;
use crate::handbook::measuring::oversizes::{Cooling, usual_clearance};
use crate::handbook::measuring::running::clearance_running;
use crate::handbook::measuring::{cylinder, window};
use crate::job::Reading;
use crate::operations::kit::mm;
use crate::operations::{Answer, Bench};
use crate::proof::{At, Cause, Check, Keep, Origin, Refusal, Side, Verdict, Words, Worked};
use crate::quantity::{Celsius, Expansion, Measured, Mm, Quantity, Ratio, Rounds, Shift};
use crate::shop::{Gauge, PistonStock, shares_of_reading};

/// What is left for the hone and is less than this, mm, is the dust of binary fractions.
const NOTHING: f64 = 1e-6;

/// A piston that may be taken.
pub(super) struct Candidate<'a> {
    /// As it is marked.
    pub marked: String,
    /// Its oversize.
    pub oversize: Worked<Mm>,
    /// What lies in the drawer; none of one that would be bought.
    pub stock: Option<&'a PistonStock>,
    /// The metal of the pistons for it in the drawer, where all that are known are of one.
    pub others: Option<&'a At<Material>>,
}

/// The check of the clearance when it runs warm.
pub(super) const RUNS_WARM: &str = "running";

impl Candidate<'_> {
    /// Whether somebody measured it.
    pub(super) fn measured(&self) -> bool {
        self.stock.is_some_and(|stock| stock.size.is_some())
    }
}

/// The limits of the clearance, and whether somebody typed them.
struct Window {
    low: Worked<Shift>,
    high: Worked<Shift>,
    typed: bool,
}

impl Window {
    /// A check no better than doubtful where nobody typed the clearance.
    fn by_it(&self, check: Check) -> Check {
        if self.typed { check } else { check.not_better_than(Verdict::Doubtful) }
    }
}

/// What a piston's bore comes to.
struct Made {
    piston: Worked<Mm>,
    /// Whether somebody measured it.
    measured: bool,
    /// The finished bore, as a size to make or as it was left.
    finish: Worked<Mm>,
    /// The same with the doubt of reading it.
    read: Worked<Mm>,
    bored: Worked<Mm>,
    honing: Worked<Shift>,
    least: Worked<Mm>,
    most: Worked<Mm>,
    /// Whether by the log it was honed, and metal still stands for the hone.
    stands: bool,
}

/// A check of what was not honed to size yet: nothing is spoilt by metal that stands, and nothing proven, and no other piston is got for it.
fn honed_short(check: Check) -> Check {
    Check { remedy: None, ..check.not_worse_than(Verdict::Doubtful) }
}

impl Bore {
    /// Whether the log holds anything of what is worked for a piston.
    pub(super) fn is_logged(bench: &Bench) -> Result<bool, Refusal> {
        let sizes = [&PISTON, &BORED, &FINISH];
        let size = sizes.iter().try_fold(false, |any, name| Ok::<_, Refusal>(any || bench.left(name)?.is_some()))?;
        Ok(size || bench.left(&RING_GAP)?.is_some())
    }

    /// Works one piston; on a bench with the log, with its sizes as they were left.
    pub(super) fn with_piston(
        &self,
        bench: &Bench,
        found: &Found,
        candidate: &Candidate,
        row: &mut Answer,
    ) -> Result<(), Refusal> {
        let window = self.window(candidate, row)?;
        let made = self.make(bench, candidate, &window, row)?;
        self.hone_left(bench, &made, row)?;
        self.cleans(bench, found, &made, row)?;
        let clearance = row.record(&CLEARANCE, clearance::clearance(&made.read, &made.piston)?);
        let still_to_hone = self.still_to_hone(bench, &made, row)?;
        for (keep, limit) in [(Keep::AtLeast, &window.low), (Keep::AtMost, &window.high)] {
            let check = Check::judge("clearance", &clearance, keep, limit, bench.guard()).about(CLEARANCE.key);
            let stands = made.stands && keep == Keep::AtLeast;
            let check = if stands { honed_short(check).unfinished(FINISH.key) } else { window.by_it(check) };
            let check = row.check(check);
            if stands {
                check.remedy(still_to_hone.clone());
            }
        }
        // As loose as a piston is scrapped for: a slip of size or unit.
        let most: Worked<Shift> = cylinder::of_bore(&constant("worn-clearance-most")?, &Worked::from(&self.nominal))?;
        if window.high.number() > most.number() {
            let check = row.check(Check::of_kind("clearance", Verdict::Doubtful).about(CLEARANCE.key));
            check.remedy(Words::of("as-loose-as-worn").with("most", mm(most.number())));
        }
        self.measurable(bench, &made, (&clearance, &window), row)?;
        self.wall(bench, found, (&made.finish, [&made.most, &made.bored]), row)?;
        self.ring(bench, &made.finish, row)?;
        self.volumes(&made.finish, row)?;
        self.running(bench, candidate, &made, row)?;
        self.bar_for(bench, found, (&made.bored, &made.honing.at_least(0.0, "nothing is left").becomes()), row)
    }

    /// The clearance as typed, else by the metal of the piston and what cools the cylinder.
    fn window(&self, candidate: &Candidate, row: &mut Answer) -> Result<Window, Refusal> {
        if let Some(at) = &self.clearance {
            let end = |size: Mm| Worked::exact(size, Origin::Typed(at.place)).becomes::<Shift>();
            return Ok(Window { low: end(at.value.low), high: end(at.value.high), typed: true });
        }
        let metal = self.metal_said(candidate).map(|at| at.value.kind());
        if metal.is_none() {
            row.assume_words(Words::of("piston-of-aluminium"));
        }
        row.assume_words(Words::of("clearance-by-rule"));
        let cooling = self.cooling.as_ref().map_or(Cooling::Air, |at| at.value);
        let [low, high] = usual_clearance(metal.unwrap_or(Kind::Aluminium), cooling)?;
        let of = |share: &Worked<Ratio>| cylinder::of_bore(share, &(&self.nominal).into());
        Ok(Window { low: of(&low)?, high: of(&high)?, typed: false })
    }

    /// The metal of a piston: as the drawer says, else as typed.
    fn metal_said<'a>(&'a self, candidate: &'a Candidate) -> Option<&'a At<Material>> {
        let own = candidate.stock.and_then(|stock| stock.metal.as_ref());
        own.or(self.piston_metal.as_ref())
    }

    /// The metal of a piston; where nobody says it, that of the others: no size runs cooler for being unknown.
    fn metal_of<'a>(&'a self, candidate: &'a Candidate) -> Option<&'a Material> {
        self.metal_said(candidate).or(candidate.others).map(|at| &at.value)
    }

    fn make(&self, bench: &Bench, candidate: &Candidate, window: &Window, row: &mut Answer) -> Result<Made, Refusal> {
        let logged = bench.left(&PISTON)?;
        let measured = candidate.measured() || logged.is_some();
        let read = candidate.stock.and_then(|stock| Some((stock.size.as_ref()?, stock.with.clone())));
        let piston = match (logged, read) {
            (Some(left), _) => left,
            (None, Some((size, with))) => {
                let size = At { value: Reading::Size { size: size.value, with, warmth: None }, place: size.place };
                row.read(bench, "piston", Gauge::Outside, &size)?
            }
            (None, None) => {
                cylinder::piston_marked(&(&self.nominal).into(), &candidate.oversize, &window.low, &window.high)?
            }
        };
        let piston = row.record(&PISTON, piston);
        let in_hand = if measured { Verdict::Proven } else { Verdict::Doubtful };
        row.check(Check::of_kind("piston-in-hand", in_hand));
        let exact = piston.nominal("a size to make: how surely it is read is judged apart");
        let left = bench.left(&FINISH)?;
        let is_left = left.is_some();
        let finish = match left {
            Some(left) => left,
            None => cylinder::finish_bore(&exact, &window.low, &window.high)?,
        };
        let finish = row.record(&FINISH, finish);
        let honing: Worked<Mm> = match &self.honing {
            Some(typed) => typed.into(),
            None => row.assume("honing", constant("honing-stock")?),
        };
        let (bored, honing) = match bench.left(&BORED)? {
            Some(left) => (left.clone(), cylinder::unlike(&finish, &left)?),
            None => (cylinder::before_honing(&finish, &honing)?, honing.becomes()),
        };
        let (bored, honing) = (row.record(&BORED, bored), row.record(&HONING_LEFT, honing));
        let guard = bench.guard();
        let least = row.record(&BORE_MIN, clearance::bore_least(&piston.worst(Side::High, guard), &window.low)?);
        let most = row.record(&BORE_MAX, clearance::bore_most(&piston.worst(Side::Low, guard), &window.high)?);
        if !is_left && least.number() <= most.number() {
            // Whatever its own sheet accepts is handed on, till it is measured: anything between the limits.
            row.record(&FINISH, finish.clone().with_band(least.number(), most.number()));
        }
        let read = if is_left { finish.clone() } else { self.as_read(bench, &finish)? };
        // Smaller than any clearance allows, it is honed on.
        let stands = is_left && finish.number() < least.number();
        Ok(Made { piston, measured, finish, read, bored, honing, least, most, stands })
    }

    /// What is done to a bore that was finished too small: honed on to what its sheet accepts, bored on where that is more than a hone takes.
    fn still_to_hone(&self, bench: &Bench, made: &Made, row: &Answer) -> Result<Words, Refusal> {
        let (least, most) = self.accepted(bench, row).unwrap_or_else(|| (made.least.number(), made.most.number()));
        let left = least - made.finish.number();
        if left > constant::<Shift>("honing-stock-most")?.number() {
            return Ok(Words::of("bore-on").with("left", mm(left)));
        }
        let limits = (mm(least).rounded(Rounds::Up), mm(most).rounded(Rounds::Down));
        Ok(Words::of("hone-on").with("least", limits.0).with("most", limits.1))
    }

    /// A bore to make with the doubt that reading it will have.
    fn as_read(&self, bench: &Bench, size: &Worked<Mm>) -> Result<Worked<Mm>, Refusal> {
        let asked = &self.readings.value;
        let grain = asked.rows().map(|row| row.value.grain).fold(0.0, f64::max);
        let typed = Measured { value: size.value(), plus_minus: None, grain: Some(grain) };
        let with = asked.bore_gauge().map(|with| with.value.as_str());
        let (shares, _) = shares_of_reading(bench.shop, &typed, with, Gauge::Inside, (self.length.place, 0))?;
        Ok(shares.into_iter().fold(size.clone(), |size, (cause, half)| size.with_doubt(cause, half)))
    }

    /// What the hone is left: neither the marks of the tool nor a shape that a hand cannot keep.
    fn hone_left(&self, bench: &Bench, made: &Made, row: &mut Answer) -> Result<(), Refusal> {
        let left = &made.honing;
        let (least, most): (Worked<Shift>, Worked<Shift>) =
            (constant("honing-stock-least")?, constant("honing-stock-most")?);
        let end = |side| left.worst(side, bench.guard()).number();
        let verdict = match left.as_there(Side::Low) {
            stock if stock < NOTHING => Verdict::Fails,
            _ if end(Side::Low) < least.number() || end(Side::High) > most.number() => Verdict::Doubtful,
            _ => Verdict::Proven,
        };
        let thick = left.number() > f64::midpoint(least.number(), most.number());
        let (keep, limit) = if thick { (Keep::AtMost, &most) } else { (Keep::AtLeast, &least) };
        let check = Check::judge("hone-left", left, keep, limit, bench.guard()).judged_as(verdict);
        let place = self.honing.as_ref().map_or(self.nominal.place, |at| at.place);
        let check = check.about(HONING_LEFT.key).at(place);
        let check = check.with("least", mm(least.number())).with("most", mm(most.number()));
        let is_left = row.value(BORED.key).is_some_and(|bored| bored.origin.entry().is_some());
        // What was honed is gone: nothing of it stands any more.
        let is_honed = row.value(FINISH.key).is_some_and(|finish| finish.origin.entry().is_some());
        let over = is_left && !is_honed && end(Side::High) > most.number();
        // What the log says was bored is not bored far enough: no stone takes the rest.
        let check = if over { check.unfinished(BORED.key) } else { check };
        let stamps = check.verdict() != Some(Verdict::Proven);
        let check = row.check(if is_left && stamps { check.of_every_set_up() } else { check });
        if stamps && !is_honed {
            check.remedy(match (thick, over) {
                (true, true) => Words::of("bore-on").with("left", mm(left.number())),
                (true, false) => Words::of("hone-less"),
                (false, _) => Words::of("larger-piston-then"),
            });
        }
        Ok(())
    }

    /// Whether the bore comes clean: bored is proven, honed alone is doubtful; and whether lobes that two points never see would.
    fn cleans(&self, bench: &Bench, found: &Found, made: &Made, row: &mut Answer) -> Result<(), Refusal> {
        let guard = bench.guard();
        let none = || Worked::<Mm>::exact(Mm::new(0.0), Origin::Typed(self.readings.place));
        let within = self.true_within().map_or_else(none, Worked::from);
        let leans = found.lean.clone().unwrap_or_else(none);
        // What it may run out by after it was trued, and lean, is less than what cleans a side, or it is needed beside it.
        let off = cylinder::off_by_truing(&within, &leans, &found.side)?.number();
        let [worn, old] = found.clean.each_ref().map(|clean| clean.shifted(off, "trued no closer"));
        let elsewhere = found.shift_both.as_ref();
        let elsewhere =
            elsewhere.map(|shift| cylinder::reach_elsewhere(&found.least, shift, &within, &leans)).transpose()?;
        let about_worn = elsewhere.filter(|elsewhere| elsewhere.number() > worn.number());
        let about_worn = about_worn.as_ref().unwrap_or(&worn);
        let (worn, old) = (&worn, &old);
        let judged = |id, clean: &Worked<Mm>| {
            Check::judge_two(id, (&made.bored, clean), Keep::AtLeast, (&made.finish, clean), guard)
        };
        let sure = |check: Check| if found.unworn_sure { check } else { check.not_better_than(Verdict::Doubtful) };
        let place = self.readings.place;
        let (own, other) = match self.about() {
            Axis::Old => (sure(judged("cleans-up", old)), judged("cleans-up-other", worn)),
            Axis::Worn => (judged("cleans-up", about_worn), sure(judged("cleans-up-other", old))),
        };
        // Only the bound of the axis that it is bored about is a bound of the size that is bored.
        row.check(own.about(BORED.key).at(place));
        row.check(other.at(place));
        let margin = cylinder::unlike(&made.bored, worn)?;
        let check = match found.lobes {
            Some(seen) => Check::of_kind("lobes", seen),
            None => Check::judge("lobes", &margin, Keep::AtLeast, &constant("lobe-unseen")?, guard),
        };
        row.check(check.not_worse_than(Verdict::Doubtful).at(place));
        Ok(())
    }

    /// The doubt of the clearance against a quarter of its window.
    fn measurable(
        &self,
        bench: &Bench,
        made: &Made,
        (clearance, window): (&Worked<Shift>, &Window),
        row: &mut Answer,
    ) -> Result<(), Refusal> {
        const ID: &str = "can-be-measured";
        if !made.measured {
            row.not_checked(&[ID], &["drawers.pistons"]);
            return Ok(());
        }
        let doubt = Worked::assumed(Mm::new(clearance.plus_minus()), "the doubt of the clearance");
        let quarter = window::quarter(&window.low.becomes(), &window.high.becomes())?;
        let check = Check::judge(ID, &doubt, Keep::AtMost, &quarter, bench.guard());
        row.check(check.not_worse_than(Verdict::Doubtful));
        Ok(())
    }

    fn ring(&self, bench: &Bench, finish: &Worked<Mm>, row: &mut Answer) -> Result<(), Refusal> {
        const ID: &str = "ring-gap";
        let gap = match (bench.left(&RING_GAP)?, &self.ring_gap) {
            (Some(left), _) => left,
            (None, Some(ring)) => {
                let found = row.read_difference(bench, "ring-gap.found", Gauge::Inside, &ring.found)?;
                cylinder::ring_gap(&found.becomes(), finish, &(&ring.bore).into())?
            }
            (None, None) => {
                row.not_checked(&[ID], &[ID]);
                return Ok(());
            }
        };
        let gap = row.record(&RING_GAP, gap);
        let place = self.ring_gap.as_ref().map_or(self.nominal.place, |ring| ring.found.place);
        for (keep, share) in [(Keep::AtLeast, "ring-gap-least"), (Keep::AtMost, "ring-gap-most")] {
            let limit = cylinder::of_bore(&constant(share)?, finish)?;
            let check = Check::judge(ID, &gap, keep, &limit, bench.guard()).about(RING_GAP.key);
            // A gap that is short is filed, in the place of one that is wide another ring is fitted: no piston is ruled out by it, and no
            // bore is spoilt.
            row.check(check.not_worse_than(Verdict::Doubtful).at(place));
        }
        Ok(())
    }

    fn volumes(&self, finish: &Worked<Mm>, row: &mut Answer) -> Result<(), Refusal> {
        let Some(stroke) = self.stroke.as_ref().map(Worked::<Mm>::from) else { return Ok(()) };
        let swept = row.record(&SWEPT, cylinder::swept(finish, &stroke)?);
        let Some(compression) = self.compression.as_ref().map(Worked::<Ratio>::from) else { return Ok(()) };
        let nominal = Worked::from(&self.nominal);
        let above = cylinder::above_piston(&cylinder::swept(&nominal, &stroke)?, &compression)?;
        let above = match &self.deck {
            Some(deck) => cylinder::above_larger(&above, finish, &nominal, &deck.into())?,
            None => {
                row.assume_words(Words::of("piston-level"));
                above
            }
        };
        row.record(&COMPRESSION, lapping::compression(&swept, &above)?);
        Ok(())
    }

    /// The clearance when both run warm, where their metals differ or somebody gives the temperatures.
    fn running(&self, bench: &Bench, candidate: &Candidate, made: &Made, row: &mut Answer) -> Result<(), Refusal> {
        const ID: &str = RUNS_WARM;
        let (Some(bore), Some(piston)) = (bench.part.material.as_ref(), self.metal_of(candidate)) else {
            let lacks =
                [(bench.part.material.is_none(), "material"), (self.metal_said(candidate).is_none(), "piston-metal")];
            let lacks: Vec<&str> = lacks.into_iter().filter(|(lacks, _)| *lacks).map(|(_, key)| key).collect();
            row.not_checked(&[ID], &lacks);
            return Ok(());
        };
        let (of_bore, of_piston) = (bore.value.expansion()?, piston.expansion()?);
        let alike = constant::<Expansion>("expansion-alike")?.number();
        let Some(warm) = &self.running else {
            match (of_bore.number() - of_piston.number()).abs() > alike {
                _ if self.metal_said(candidate).is_none() => row.not_checked(&[ID], &["piston-metal"]),
                _ if self.least_running.is_some() => row.not_checked(&[ID], &["running"]),
                true => row.not_checked(&[ID], &["running", "least-running"]),
                false => row.does_not_apply(&[ID]),
            }
            return Ok(());
        };
        let doubt = constant::<Expansion>("expansion-doubt")?.number();
        let thought = constant::<Celsius>("temperature-running-doubt")?.number();
        let of_bore = of_bore.with_doubt(Cause::Named("expansion of the bore"), doubt);
        let of_piston = of_piston.with_doubt(Cause::Named("expansion of the piston"), doubt);
        let hot = |at: &At<Celsius>| Worked::from(at).with_doubt(Cause::Reading(at.place), thought);
        let left =
            clearance_running(&made.read, &of_bore, &hot(&warm.bore), &made.piston, &of_piston, &hot(&warm.piston))?;
        let left = row.record(&RUNNING, left);
        // Nothing left seizes, whatever was asked.
        let nothing = Worked::assumed(Shift::new(0.0), "nothing left seizes");
        let judge = |limit: &Worked<Shift>| {
            let check = Check::judge(ID, &left, Keep::AtLeast, limit, bench.guard()).about(RUNNING.key);
            if made.stands { honed_short(check) } else { check }
        };
        let seizes = judge(&nothing);
        let (check, place) = match &self.least_running {
            Some(least) if least.value.number() > 0.0 => (judge(&least.into()), least.place),
            Some(least) => (seizes, least.place),
            None if seizes.verdict() == Some(Verdict::Fails) => (seizes, warm.bore.place),
            None => {
                row.not_checked(&[ID], &["least-running"]);
                return Ok(());
            }
        };
        match (self.metal_said(candidate), candidate.others) {
            (None, Some(others)) if check.verdict() == Some(Verdict::Fails) => {
                row.assume_words(Words::of("piston-as-others").with("metal", others.value.typed().to_owned()));
                row.check(check.at(place));
            }
            // That the others are of a metal which runs proves nothing of this one.
            (None, _) => row.not_checked(&[ID], &["piston-metal"]),
            (Some(_), _) => {
                row.check(check.at(place));
            }
        }
        Ok(())
    }
}
