//! Which piston: those of the drawer and those that can be bought, least metal first.

use super::bar::BAR;
use super::keys::{Bore, OF_PISTON};
use super::names::{BORE_MAX, BORE_MIN, BORED, CLEAN_OLD, CLEAN_WORN, FINISH, OUTSIDE, PISTON};
use super::piston::{Candidate, RUNS_WARM};
use crate::handbook::constants::constant;
use crate::handbook::measuring::oversizes::{Series, oversizes};
use crate::in_order::InOrder;
use crate::operations::{Answer, Bench, Picture, WornBore, kit};
use crate::proof::{Check, Outcome, Refusal, Verdict, Words, Worked};
use crate::quantity::{Mm, Quantity, figure};
use crate::shop::{Gauge, PistonStock};

/// The reason for what fails by a check of its own.
const FAILS: &str = "does-not-do";

/// Two oversizes that differ by less are one: far finer than 0.010 in and 0.25 mm.
const SAME: f64 = 1e-6;

/// The check of a piston that lies in the drawer: what a purchase mends.
const IN_HAND: &str = "piston-in-hand";

/// The alternative whose piston comes nearest to one that was measured.
fn nearest(answer: &Answer, measured: f64) -> Option<usize> {
    let off = |row: &Answer| row.value(PISTON.key).map_or(f64::INFINITY, |piston| (piston.number - measured).abs());
    let all = answer.alternatives.iter().map(|row| off(&row.answer)).enumerate();
    all.min_by(|a, b| a.1.total_cmp(&b.1)).map(|(at, _)| at)
}

/// Where none will do: the first that would but for this check. A longer bar, or more clearance, makes it good, no other piston does.
fn but_for(answer: &Answer, id: &str) -> Option<usize> {
    let would = |row: &Answer| {
        let fails = row.checks.iter().any(|check| check.id != id && check.stamps() == Some(Verdict::Fails));
        row.refused.is_none() && !fails
    };
    answer.alternatives.iter().position(|row| would(&row.answer))
}

/// How many checks leave a piston doubtful, beside its being in hand: what nobody could check makes no piston surer.
fn doubts_of(row: &Answer) -> usize {
    let is_open = |check: &&Check| check.weight.stamps() && check.state == Outcome::NotChecked;
    let is_doubtful = |check: &&Check| check.stamps() == Some(Verdict::Doubtful) || is_open(check);
    row.checks.iter().filter(is_doubtful).filter(|check| check.id != IN_HAND).count()
}

/// The words for a bore that no piston fills.
const NO_PISTON_IS_LEFT: &str = "no-piston-is-left";

/// Where the bore was left larger than a piston may have it: that piston is none any more. The one that fits it as it stands is named, else the
/// next that it can still be made to.
fn too_large(bench: &Bench, (taken, all): (usize, &[Candidate]), answer: &mut Answer) -> Result<(), Refusal> {
    let Some(left) = bench.left(&FINISH)?.map_or_else(|| bench.left(&BORED), |left| Ok(Some(left)))? else {
        return Ok(());
    };
    let least = left.number() - left.plus_minus();
    let is_over = |row: &Answer| row.value(BORE_MAX.key).is_some_and(|most| most.number < least);
    let over: Vec<bool> = answer.alternatives.iter().map(|row| is_over(&row.answer)).collect();
    for (row, _) in answer.alternatives.iter_mut().zip(&over).filter(|(_, over)| **over) {
        row.answer.check(Check::of_kind("clearance", Verdict::Fails).about(BORE_MAX.key));
        row.why_not = row.why_not.take().map(|_| Words::of("bored-too-large"));
    }
    if over.get(taken) != Some(&true) {
        return Ok(());
    }
    let may =
        |row: &Answer| row.verdict() != Verdict::Fails && row.value(BORED.key).is_some_and(|it| it.number > least);
    let of = |fits: &dyn Fn(&Answer) -> bool| {
        answer.alternatives.iter().position(|row| fits(&row.answer)).and_then(|at| all.get(at))
    };
    let words = match (of(&|row| fits_as_it_stands(row, bench.left(&FINISH).ok().flatten().as_ref())), of(&may)) {
        (Some(fits), _) => Words::of("another-piston-fits").with("marked", fits.marked.clone()),
        (None, Some(next)) => Words::of("next-piston").with("marked", next.marked.clone()),
        (None, None) => Words::of(NO_PISTON_IS_LEFT),
    };
    let fails = |check: &&mut Check| check.id == "clearance" && check.verdict() == Some(Verdict::Fails);
    // Where none is left it is the bore that is lost, and no piston.
    let none_is_left = words.id == NO_PISTON_IS_LEFT;
    answer.checks.iter_mut().filter(fails).for_each(|check| {
        check.remedy(words.clone());
        check.about = check.about.map(|key| if none_is_left { FINISH.key } else { key });
    });
    Ok(())
}

/// Whether a piston runs in the finished bore as that was left, as sure as it was read.
fn fits_as_it_stands(row: &Answer, finished: Option<&Worked<Mm>>) -> bool {
    let limits = row.value(BORE_MIN.key).zip(row.value(BORE_MAX.key));
    let is_between = |left: &Worked<Mm>| {
        let ends = left.number() - left.plus_minus()..=left.number() + left.plus_minus();
        limits.is_some_and(|(least, most)| least.number <= *ends.start() && *ends.end() <= most.number)
    };
    row.verdict() != Verdict::Fails && finished.is_some_and(is_between)
}

/// Where what was measured is no piston that it was taken for: further off its size, or off what its mark foretells, than one that was
/// measured again would be. How sure either reading was called makes no piston another.
fn is_no_such(answer: &Answer, taken: (usize, &Candidate), measured: &Worked<Mm>) -> Result<bool, Refusal> {
    let (at, candidate) = taken;
    let known = answer.alternatives.get(at).and_then(|row| row.answer.value(PISTON.key));
    let Some(known) = known else { return Ok(false) };
    let most: Worked<Mm> = constant(if candidate.measured() { "piston-off-its-size" } else { "piston-off-its-mark" })?;
    Ok((known.number - measured.number()).abs() > most.number())
}

impl Bore {
    pub(super) fn work_it(&self, bench: &Bench, answer: &mut Answer) -> Result<(), Refusal> {
        bench.part.material.iter().flat_map(|at| at.value.safety()).for_each(|id| answer.caution(id));
        self.metal_takes_it(bench, answer);
        let mut found = self.found(bench, answer)?;
        self.read_all_along(answer)?;
        found.lean = self.base_square(bench, answer)?;
        if let Some(about) = &self.outside {
            let outside = answer.read(bench, "outside.size", Gauge::Outside, &about.size)?;
            answer.record(&OUTSIDE, outside);
        }
        let all = self.candidates(bench);
        for candidate in &all {
            let named = candidate.marked.clone();
            answer.alternative(bench, named, |bench, row| self.with_piston(bench, &found, candidate, row));
        }
        let verdicts: Vec<Verdict> = answer.alternatives.iter().map(|row| row.answer.verdict()).collect();
        let first = |wanted| verdicts.iter().position(|verdict| *verdict == wanted);
        let doubts: Vec<usize> = answer.alternatives.iter().map(|row| doubts_of(&row.answer)).collect();
        // Of what is doubtful the one that least is in doubt of, beside its being bought: of two alike the least metal.
        let least_in_doubt = || {
            let all =
                (0..).zip(verdicts.iter().zip(&doubts)).filter(|(_, (verdict, _))| **verdict == Verdict::Doubtful);
            all.min_by_key(|(at, (_, doubts))| (**doubts, *at)).map(|(at, _): (usize, _)| at)
        };
        let in_hand = bench.left(&PISTON)?.and_then(|left| nearest(answer, left.number()));
        let (best, why) = match (first(Verdict::Proven), least_in_doubt()) {
            (Some(at), _) => (at, "least-metal-proven"),
            (None, Some(at)) if first(Verdict::Doubtful) == Some(at) => (at, "least-metal-doubtful"),
            (None, Some(at)) => (at, "least-in-doubt"),
            (None, None) => match (but_for(answer, BAR), but_for(answer, RUNS_WARM)) {
                (Some(at), _) => (at, "but-for-the-bar"),
                (None, Some(at)) => (at, "but-for-the-running"),
                (None, None) => (all.len().saturating_sub(1), "no-piston-will-do"),
            },
        };
        let taken = in_hand.unwrap_or(best);
        let instead = all.get(best).filter(|_| best != taken);
        let surest = verdicts.get(taken).copied();
        for (at, alternative) in answer.alternatives.iter_mut().enumerate() {
            let reason = match alternative.answer.verdict() {
                _ if at == taken => None,
                Verdict::Fails if alternative.answer.refused.is_some() => Some("not-worked-out"),
                Verdict::Fails => Some(FAILS),
                _ if in_hand.is_some() => Some("not-in-hand"),
                verdict if Some(verdict) > surest => Some("less-sure-than-chosen"),
                _ if doubts.get(at) > doubts.get(taken) => Some("less-sure-than-chosen"),
                _ => Some("takes-more-metal"),
            };
            let fails = |check: &&Check| check.stamps() == Some(Verdict::Fails);
            let failing = alternative.answer.checks.iter().find(fails).map(|check| check.id.replace('-', " "));
            alternative.why_not = reason.map(|reason| match (reason, failing) {
                (FAILS, failing) => Words::of(FAILS).with("check", failing.unwrap_or_default()),
                (reason, _) => Words::of(reason),
            });
        }
        answer.choose_alternative(taken);
        if let Some(candidate) = all.get(taken) {
            match (in_hand, instead) {
                (Some(_), Some(instead)) => {
                    answer.choose("piston", instead.marked.clone(), Words::of(why));
                    answer.fitted("piston", candidate.marked.clone(), Words::of("in-hand"));
                }
                (Some(_), None) => answer.choose("piston", candidate.marked.clone(), Words::of("in-hand")),
                (None, _) => answer.choose("piston", candidate.marked.clone(), Words::of(why)),
            }
            answer.fact("oversize", candidate.marked.clone());
            answer.takes.extend(candidate.stock.map(PistonStock::take));
            // What no bar bores for it is not bought yet; what lies in the drawer unmeasured is not bought again.
            if candidate.stock.is_none() && in_hand.is_none() && surest != Some(Verdict::Fails) {
                answer.missing.push(Words::of("piston").with("marked", candidate.marked.clone()));
            }
            for key in [&BORED, &FINISH] {
                if let Some(left) = bench.left(key)? {
                    kit::grown(bench, (-1.0, &found.least, &left), (key.key, self.readings.place), answer);
                }
            }
            if Self::is_logged(bench)? {
                answer.checks.retain(|check| !OF_PISTON.contains(&check.id));
                self.with_piston(bench, &found, candidate, answer)?;
                too_large(bench, (taken, &all), answer)?;
                // The piston in hand stands in the list as the bore now stands.
                let open = answer.checks.iter().filter(|check| check.stamps() > Some(Verdict::Proven));
                let open: Vec<Check> = open.filter(|check| OF_PISTON.contains(&check.id)).cloned().collect();
                if let Some(row) = answer.alternatives.get_mut(taken) {
                    open.into_iter().for_each(|check| {
                        row.answer.check(check);
                    });
                }
            }
            if let Some(measured) = bench.left(&PISTON)?
                && is_no_such(answer, (taken, candidate), &measured)?
            {
                let check = answer.check(Check::of_kind(IN_HAND, Verdict::Doubtful).of_every_set_up());
                check.remedy(Words::of("no-such-piston").with("marked", candidate.marked.clone()));
            }
        }
        answer.picture = Some(Picture::Wear(Box::new(WornBore {
            depths: self.readings.value.depths.value.numbers().unwrap_or_default(),
            axes: found.profile.clone(),
            nominal: self.nominal.value.number(),
            cleans: [CLEAN_WORN.key, CLEAN_OLD.key],
            bored: Some(BORED.key),
        })));
        self.set_ups(bench, &found, answer)
    }

    /// Every piston that may be taken, least metal first; what was measured before what is only marked.
    fn candidates<'a>(&self, bench: &Bench<'a>) -> Vec<Candidate<'a>> {
        let asked = self.series.as_ref().map_or(Series::Both, |at| at.value);
        let suits = |series: Series| asked == Series::Both || series == asked;
        let row = |mm: f64| oversizes().iter().find(|row| (row.mm() - mm).abs() < SAME);
        let drawer = bench.shop.map_or(&[][..], |shop| &shop.drawers.pistons);
        let of_it = || drawer.iter().filter(|stock| stock.of.value == bench.part.name);
        let first = of_it().find_map(|stock| stock.metal.as_ref());
        let is_alike =
            |stock: &PistonStock| stock.metal.as_ref().is_none_or(|at| Some(&at.value) == first.map(|at| &at.value));
        let others = first.filter(|_| of_it().all(is_alike));
        let of_drawer = |stock: &'a PistonStock| {
            let oversize = stock.oversize.value.number();
            let known = row(oversize);
            // One that the table does not know is of neither series, and is shown with both.
            let shown = stock.of.value == bench.part.name && known.is_none_or(|row| suits(row.series));
            let marked = known.map_or_else(|| format!("+{} mm", figure(oversize)), |row| row.marked());
            shown.then(|| Candidate { marked, oversize: Worked::from(&stock.oversize), stock: Some(stock), others })
        };
        let mut all: Vec<Candidate> = drawer.iter().filter_map(of_drawer).collect();
        for row in oversizes().iter().filter(|row| suits(row.series)) {
            let has =
                all.iter().any(|other| (other.oversize.number() - row.mm()).abs() < SAME && other.stock.is_some());
            if !has {
                all.push(Candidate { marked: row.marked(), oversize: row.worked(), stock: None, others });
            }
        }
        all.order_by(|a, b| a.oversize.number().total_cmp(&b.oversize.number()).then(b.measured().cmp(&a.measured())));
        all
    }
}
