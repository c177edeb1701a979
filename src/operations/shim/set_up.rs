//! The one set-up: dry without shims, measured both ways, shimmed, measured again.

use super::bare::Bare;
use super::keys::Shim;
use super::names::{APART, BARE, LEFT, PACK};
use super::pack::Judged;
use crate::handbook::measuring::stack;
use crate::handbook::{StateKind, set_up_minutes};
use crate::job::State;
use crate::operations::kit::{self, mm};
use crate::operations::linked::{self, Linked};
use crate::operations::{Answer, Bench, Drawer, HoldPoint, Pack, PackLink, Picture, Pull, SetUp, Station};
use crate::proof::{Check, Fact, Refusal, Verdict, Words, Worked};
use crate::quantity::{Decimals, Mm, Quantity, Shift};
use crate::shop::Gauge;

/// The set-up.
const FIT_SHIMS: &str = "fit-shims";
/// Readings of a float: pushed one way and the other, at two places.
const READINGS: usize = 2;

impl Shim {
    pub(super) fn work_it(&self, bench: &Bench, answer: &mut Answer) -> Result<(), Refusal> {
        bench.part.material.iter().flat_map(|at| at.value.safety_without_chips()).for_each(|id| answer.caution(id));
        let face = |face: &Option<crate::proof::At<String>>, usual| {
            face.as_ref().map_or_else(|| Fact::named(usual), |at| Fact::from(&at.value))
        };
        answer.fact("hard_face", face(&self.pack.hard_face, "the-hard-face"));
        answer.fact("turning_face", face(&self.pack.turning_face, "the-turning-face"));
        let foretold = self.bare(bench, answer)?;
        let aim = self.aimed_at(answer);
        let growth = self.growth(answer, &foretold.links)?;
        let frost = self.frost(answer, &foretold.links)?;
        let on = Judged { bare: &foretold, growth: growth.as_ref(), frost: frost.as_ref(), aim: &aim };
        let shown = self.shown_by_the_float(bench, answer, &on)?;
        let (bare, fitted) = shown.map_or((None, bench.left(&PACK)?), |(bare, pack)| (Some(bare), Some(pack)));
        let bare = bare.as_ref().unwrap_or(&foretold);
        let on = Judged { bare, ..on };
        let taken = self.choose_pack(bench, answer, &on)?;
        let taken = match fitted {
            Some(fitted) => self.as_fitted(bench, answer, &on, (taken, fitted))?,
            None => taken,
        };
        let pulls = pulls(bench, answer, &taken.shims);
        answer.picture = Some(self.picture(bare, taken.shims));
        let pack = taken.thick;
        let planned = stack::float_left(&foretold.float, &pack)?;
        let left = self.as_left(bench, answer, &on, &planned)?;
        self.measurable(bench, answer, &on, (&pack, &left))?;
        self.the_set_up(bench, answer, (bare, &pack, &planned))?;
        answer.set_ups.iter_mut().for_each(|set_up| set_up.pulls.extend(pulls.iter().cloned()));
        Ok(())
    }

    /// The pack between its faces, and what opens and closes the float.
    fn picture(&self, bare: &Bare, shims: Vec<f64>) -> Picture {
        let link = |link: &Linked| PackLink { name: link.name.clone(), by: link.by, size: link.size.number() };
        Picture::Pack(Box::new(Pack {
            set_up: FIT_SHIMS,
            links: bare.links.iter().map(link).collect(),
            shims,
            bare: BARE.key,
            left: LEFT.key,
            wanted: (self.float.value.low.number(), self.float.value.high.number()),
        }))
    }

    /// The float as the log has it, in the place of the one planned: it is judged by what measured it.
    fn as_left(
        &self,
        bench: &Bench,
        answer: &mut Answer,
        on: &Judged,
        planned: &Worked<Shift>,
    ) -> Result<Worked<Shift>, Refusal> {
        let Some(left) = bench.left(&LEFT)? else { return Ok(planned.clone()) };
        self.closed_by_log(bench, answer, planned)?;
        answer.checks.retain(|check| !["float", "running", "frost"].contains(&check.id));
        let left = answer.record(&LEFT, left);
        self.judge_float(bench, answer, "float", &left, true);
        match on.growth {
            Some(growth) => {
                let running = Worked::sum(
                    &[(1.0, &left), (1.0, growth)],
                    0.0,
                    "the float as left, and what warmth adds",
                    super::pack::PILE,
                );
                let running = answer.record(&super::names::RUNNING, running);
                self.judge_float(bench, answer, "running", &running, true);
            }
            None => self.not_seen_warm(answer, on, &left)?,
        }
        self.judge_frost(bench, answer, (&left, on.frost));
        another_does(answer, (self.float.value.low.number(), self.float.value.high.number()));
        Ok(left)
    }

    fn the_set_up(
        &self,
        bench: &Bench,
        answer: &mut Answer,
        (bare, pack, left): (&Bare, &Worked<Mm>, &Worked<Shift>),
    ) -> Result<(), Refusal> {
        let mut set_up = SetUp::at(FIT_SHIMS, Station::Bench);
        set_up.hold.push(Words::of("in-its-case").into());
        set_up.step("all-washed");
        if linked::waits_for_a_cut(bench, self.of_others()) {
            set_up.step("measure-the-cuts-first");
        }
        set_up.step("dry-without-shims");
        let gauge = kit::gauge_used(bench, bare.float.number().abs(), Gauge::Indicator, false);
        // Further from what was planned than both are worth, a link is missing or a reading is wrong.
        let near = |planned: &Worked<Shift>, doubt: f64| {
            let near = planned.plus_minus().hypot(doubt) * bench.guard() / 2.0;
            (planned.number() - near, planned.number() + near)
        };
        let (least, most) = near(&bare.float, gauge.doubt.unwrap_or(0.0));
        let before = HoldPoint::of(BARE.key, READINGS, gauge, bench.guard()).then("outside-work-again");
        set_up.hold_at(Words::of("measure-both-ways"), before.between(least, most));
        set_up.step(if pack.number() > 0.0 { "lay-the-pack" } else { "lay-none" });
        let (low, high) = (self.float.value.low.number(), self.float.value.high.number());
        // What is left is smaller: another gauge may read it.
        // An end load is no float that an indicator reads.
        let is_float = left.number() >= 0.0;
        if is_float {
            let gauge = kit::gauge_used(bench, high, Gauge::Indicator, false);
            let (least, most) = near(left, linked::held_with(bench, left.number(), gauge.doubt.unwrap_or(0.0))?);
            // However near to the plan, what is not wanted does not stay; what the gauge may read off is kept from it where there is room.
            let off = gauge.doubt.unwrap_or(0.0) * bench.guard() / 2.0;
            let off = if low + off < high - off { off } else { 0.0 };
            let inside = (least.max(low + off), most.min(high - off));
            let (least, most) = if inside.0 < inside.1 { inside } else { (least, most) };
            let after = HoldPoint::of(LEFT.key, READINGS, gauge, bench.guard()).then("outside-work-again");
            set_up.hold_at(Words::of("measure-again"), after.between(least, most));
        }
        if low < 0.0 {
            set_up.step("preload-by-turning");
            set_up.warns(&["preload-is-drag"]);
        }
        set_up.step("write-it-down");
        set_up.takes(set_up_minutes::start("shims, trial")?);
        if is_float {
            set_up.warns(&["no-end-load"]);
        }
        set_up.needs = kit::of_part(bench, &[StateKind::Washed]);
        set_up.leaves = vec![State::of_part(&bench.part.name, StateKind::Shimmed)];
        let target = Fact::span(mm(low), mm(high));
        let line = kit::blank("float-left", kit::found(answer, LEFT.key), Some(target)).expected();
        set_up.blanks.push(kit::read_with(line.left_as(&LEFT), READINGS, bench, Gauge::Indicator));
        let pack_in = kit::blank("pack-in", None, kit::found(answer, PACK.key)).also_left_as(&PACK);
        set_up.blanks.push(kit::read_with(pack_in, 1, bench, Gauge::Outside));
        answer.set_ups.push(set_up);
        Ok(())
    }
}

/// Where the pack that is in leaves a wrong float and the drawer has one that does, nothing is spoilt: that one goes in. It does by the
/// float as it was measured and by that of the links: where the two lie too far apart for that one is wrong, and nobody knows which.
fn another_does(answer: &mut Answer, (low, high): (f64, f64)) {
    let instead = answer.choices.iter().find(|choice| choice.name == "pack").and_then(|choice| choice.instead.clone());
    let does = answer.alternatives.iter().any(|row| row.answer.verdict() != Verdict::Fails);
    let Some(instead) = instead.filter(|_| does) else { return };
    let apart = answer.value(APART.key).map_or(0.0, |apart| apart.number);
    let taken = answer.alternatives.iter().find(|row| row.name == instead);
    let leaves = taken.and_then(|row| row.answer.value(LEFT.key)).map(|left| left.number);
    let is_inside_by_both = leaves.is_some_and(|left| low <= left - apart && left + apart <= high);
    let fails = |check: &&mut Check| check.verdict() == Some(Verdict::Fails);
    for check in answer.checks.iter_mut().filter(fails).filter(|check| ["float", "running"].contains(&check.id)) {
        let stays = check.clone().not_worse_than(Verdict::Doubtful).unfinished(LEFT.key);
        *check = Check { remedy: None, remedies: Vec::new(), ..stays };
        check.remedy(match is_inside_by_both {
            true => Words::of("another-pack").with("instead", instead.clone()),
            false => Words::of("measure-both-again"),
        });
    }
    if !is_inside_by_both {
        answer.choices.iter_mut().filter(|choice| choice.name == "pack").for_each(|choice| choice.instead = None);
    }
}

/// The shims of the pack as they are pulled out of their drawer, those of one thickness together.
fn pulls(bench: &Bench, answer: &Answer, shims: &[f64]) -> Vec<Pull> {
    let mut all: Vec<Pull> = Vec::new();
    let is_there = bench.shop.is_some() && answer.missing.is_empty();
    for shim in shims.iter().filter(|_| is_there) {
        let item = Words::of("a-shim").with("size", Fact::mm(*shim).to(Decimals::Exactly(3)));
        match all.iter_mut().find(|own| own.item == item) {
            Some(own) => own.count += 1,
            None => all.push(Pull { drawer: Drawer::Shims, item, count: 1 }),
        }
    }
    all
}
