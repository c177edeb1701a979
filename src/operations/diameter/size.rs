//! The diameter: how much goes, whether it comes clean all round, whether dial and gauge keep its limits.

use super::{CrossDial, LEAST, MOST, PRESENT, PRESENT_BORE, REMOVED, WINDOW};
use crate::handbook::constants::{constant, row};
use crate::handbook::cutting::stock;
use crate::handbook::cutting::work_holding::share_of;
use crate::job::Reading;
use crate::operations::kit::{self, LeftWithin};
use crate::operations::turning::Amount;
use crate::operations::{Answer, Bench, Name};
use crate::proof::{At, Cause, Check, Fact, Keep, Mark, Origin, Place, Refusal, Side, Source, Verdict, Words, Worked};
use crate::quantity::{Mm, Quantity, Wanted};
use crate::shop::{Gauge, Instrument};

/// What is asked of a diameter.
#[derive(Clone)]
pub(in crate::operations) struct Asked<'a> {
    pub present: &'a At<Reading>,
    pub wanted: &'a At<Wanted<Mm>>,
    /// A bore grows; an outside shrinks.
    pub inside: bool,
    /// The name of what is left, and what the log says was left.
    pub after: (&'a Name<Mm>, Option<Worked<Mm>>),
}

/// The diameter and its metal.
pub(in crate::operations) struct Size<'a> {
    pub inside: bool,
    pub present: Worked<Mm>,
    /// What is aimed at.
    pub after: Worked<Mm>,
    /// What the log says was left.
    pub left: Option<Worked<Mm>>,
    /// The name of either.
    pub name: &'a Name<Mm>,
    /// The limits, mm.
    pub limits: [f64; 2],
    /// From limit to limit, where there are two.
    pub width: Option<Worked<Mm>>,
    /// Metal that goes on the radius: at the middle of the limits, and at the limits that take least and most; of what was left, what
    /// is gone.
    pub removed: Worked<Mm>,
    pub removed_least: Worked<Mm>,
    pub removed_most: Worked<Mm>,
    pub amount: Amount,
    /// What a division changes the diameter by, mm.
    pub division: f64,
    pub gauge: Option<&'a Instrument>,
    /// How far the old surface lies off the axis: what is touched stands so much nearer than its middle.
    pub off: Off,
    /// Where the diameter as found was typed.
    pub place: Place,
}

/// How far the surface that is touched may lie off the axis that is cut, mm: at the least and at the most.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(in crate::operations) struct Off {
    pub least: f64,
    pub most: f64,
    /// Whether the dial is counted from there.
    pub is_counted: bool,
}

impl Off {
    fn of(clean: &CleansUp) -> Result<Self, Refusal> {
        let Some(off) = &clean.off else { return Ok(Self::default()) };
        let is_counted = off.high() > row("swing-off-counted-from")?.value;
        let least = if is_counted { (off.number() - off.plus_minus()).max(0.0) } else { 0.0 };
        Ok(Self { least, most: off.high() + if is_counted { off.plus_minus() } else { 0.0 }, is_counted })
    }
}

/// What the cut must reach below to be clean all round.
pub(in crate::operations) struct CleansUp {
    /// How far the surface as found lies off the axis that is cut, in all; none where nobody says.
    pub off: Option<Worked<Mm>>,
    /// The keys that would say it.
    pub missing: Vec<&'static str>,
}

impl<'a> Asked<'a> {
    /// The gauge for such a size.
    const fn gauge(&self) -> Gauge {
        if self.inside { Gauge::Inside } else { Gauge::Outside }
    }

    /// Works the metal out, and judges the limits.
    pub(crate) fn work(
        &self,
        bench: &Bench<'a>,
        dial: &CrossDial,
        clean: &CleansUp,
        answer: &mut Answer,
    ) -> Result<Size<'a>, Refusal> {
        let present = answer.read(bench, "present", self.gauge(), self.present)?;
        let present = answer.record(if self.inside { &PRESENT_BORE } else { &PRESENT }, present);
        let Wanted { low, high, .. } = self.wanted.value;
        let (low, high) = (low.number(), high.number());
        let typed = |number: f64| Worked::exact(Mm::new(number), Origin::Typed(self.wanted.place));
        let (least, most) = (answer.record(&LEAST, typed(low)), answer.record(&MOST, typed(high)));
        let aim = typed(f64::midpoint(low, high));
        let between = |to: &Worked<Mm>| match self.inside {
            true => stock::depth_on_radius(to, &present),
            false => stock::depth_on_radius(&present, to),
        };
        let removed = answer.record(&REMOVED, between(&aim)?);
        let (name, left) = self.after.clone();
        let both = |gone: Worked<Mm>| (gone.clone(), gone.at_least(0.0, "nothing is put on"));
        let (removed_least, removed_most) = match (&left, self.inside) {
            (Some(left), true) => both(kit::gone(0.5, (left, &present))),
            (Some(left), false) => both(kit::gone(0.5, (&present, left))),
            (None, true) => (between(&least)?, between(&most)?),
            (None, false) => (between(&most)?, between(&least)?),
        };
        let division = dial.on_diameter();
        let gauge = bench.shop.and_then(|_| kit::instrument(bench, aim.number(), self.gauge()));
        let after = aim.with_doubt(Cause::Set("dial"), division.number() / 2.0);
        let after = gauge.map_or_else(
            || after.clone(),
            |gauge| after.clone().with_doubt(Cause::Named("the gauge"), gauge.uncertainty.value.number()),
        );
        if left.is_some() {
            answer.fact(name.key, Fact::mm(after.number()));
        }
        // Whatever its own sheet accepts is handed on, till it is measured: anything between the limits.
        answer.record(name, left.clone().unwrap_or_else(|| after.clone().with_band(low, high)));
        let divisions = nearest(&from_where_it_is_touched(&removed, clean)?, dial)?;
        let width = (high > low).then(|| typed(high - low));
        let amount = Amount { divisions, division: dial.depth() };
        let size = Size {
            inside: self.inside,
            present,
            after,
            left,
            name,
            limits: [low, high],
            width,
            removed,
            removed_least,
            removed_most,
            amount,
            division: division.number(),
            gauge,
            off: Off::of(clean)?,
            place: self.present.place,
        };
        size.cleans_up(bench, clean, answer);
        size.kept(bench, [&least, &most], self.wanted, answer);
        size.can_be_measured(bench, self.wanted, answer)?;
        Ok(size)
    }
}

/// The tool is touched on where the old surface stands nearest to it: from there it goes as much further as that lies off the axis.
/// What is no more than any chuck runs out by is found by the gauge before the last cut.
fn from_where_it_is_touched(removed: &Worked<Mm>, clean: &CleansUp) -> Result<Worked<Mm>, Refusal> {
    let from = row("swing-off-counted-from")?.value;
    let Some(off) = clean.off.as_ref().filter(|off| off.high() > from) else { return Ok(removed.clone()) };
    let source = Source::fixed("touched on where it stands nearest", Mark::Derived);
    Ok(Worked::sum(&[(1.0, removed), (1.0, off)], 0.0, "from the place that is touched", source))
}

/// The whole divisions of the dial that come nearest: one at least.
fn nearest(removed: &Worked<Mm>, dial: &CrossDial) -> Result<u32, Refusal> {
    let depth = Worked::assumed(Mm::new(dial.depth()), "depth that a division gives");
    let (up, divisions) = stock::whole_divisions(removed, &depth)?;
    let over = up.number() - removed.number();
    Ok(if divisions > 1 && over > depth.number() / 2.0 { divisions - 1 } else { divisions.max(1) })
}

impl Size<'_> {
    /// Metal that goes on the radius at the most, on the side to which the old surface lies off the axis.
    pub(crate) fn removed_at_its_deepest(&self, clean: &CleansUp) -> Worked<Mm> {
        let Some(off) = &clean.off else { return self.removed_most.clone() };
        let source = Source::fixed("cut about another axis, one side loses more", Mark::Derived);
        Worked::sum(&[(1.0, &self.removed_most), (1.0, off)], 0.0, "on the side that it lies off to", source)
    }

    /// The smallest diameter wanted, mm.
    pub(super) const fn least(&self) -> f64 {
        let [least, _] = self.limits;
        least
    }

    /// The largest, mm.
    pub(super) const fn most(&self) -> f64 {
        let [_, most] = self.limits;
        most
    }

    /// The diameter as found with so much of it gone (grown, in a bore), mm.
    pub(super) fn after_so_much(&self, changed: f64) -> f64 {
        let present = self.present.number();
        if self.inside { present + changed } else { present - changed }
    }

    /// How much a diameter has changed when the dial has gone so far from the place that was touched, mm, and by how much it may be more or
    /// less: the touched place stands nearer than the middle, on either side of it.
    pub(super) fn changed_by(&self, dial: f64) -> (f64, f64) {
        let Off { least, most, .. } = self.off;
        (dial - (least + most), most - least)
    }

    /// Whether a cut that has gone so far from the place that was touched has met the surface all round, mm on the diameter.
    pub(super) fn is_round_after(&self, dial: f64) -> bool {
        dial / 2.0 >= 2.0 * self.off.most
    }

    /// The metal on the radius that is left down to the middle of the limits, mm, when the dial has gone so far from the place that was
    /// touched, mm on the diameter.
    pub(super) fn still_to_cut(&self, dial: f64) -> Result<Worked<Mm>, Refusal> {
        let (gone, wider) = self.changed_by(dial);
        let gone = gone + wider;
        let changed = if self.inside { gone } else { -gone };
        let source = Source::fixed("the cuts before it, by the dial", Mark::Derived);
        let there = Worked::sum(
            &[(1.0, &self.present)],
            changed,
            "the diameter as found, and what the cuts take at the most",
            source,
        );
        let aim = Worked::assumed(Mm::new(f64::midpoint(self.least(), self.most())), "the middle of the limits");
        if self.inside { stock::depth_on_radius(&aim, &there) } else { stock::depth_on_radius(&there, &aim) }
    }

    /// As worn as a place of the old surface may be and still comes clean, mm: at the limit that takes least, cut about another axis.
    pub(super) fn comes_clean_to(&self) -> f64 {
        if self.inside { self.least() - 2.0 * self.off.most } else { self.most() + 2.0 * self.off.most }
    }

    /// What is there in the end: as it was left, else the limit that is reached when most metal is gone.
    pub(in crate::operations) fn most_gone(&self, place: Place) -> Worked<Mm> {
        let [least, most] = self.limits;
        let limit = || Worked::exact(Mm::new(if self.inside { most } else { least }), Origin::Typed(place));
        self.left.clone().unwrap_or_else(limit)
    }

    /// Enough goes that no place of the old surface is left, at the limit that takes least.
    fn cleans_up(&self, bench: &Bench, clean: &CleansUp, answer: &mut Answer) {
        let Some(off) = &clean.off else {
            answer.not_checked(&["cleans-up"], &clean.missing);
            return;
        };
        let check = Check::judge("cleans-up", &self.removed_least, Keep::AtLeast, off, bench.guard());
        answer.check(check.about(REMOVED.key));
    }

    /// The last cut is set by the gauge to the nearest division: both together stay inside the limits.
    fn kept(&self, bench: &Bench, limits: [&Worked<Mm>; 2], wanted: &At<Wanted<Mm>>, answer: &mut Answer) {
        const ID: &str = "size-kept";
        if let Some(left) = self.left.as_ref().filter(|_| self.width.is_some()) {
            let stands = if self.inside { Side::Low } else { Side::High };
            let asked = LeftWithin {
                id: ID,
                key: self.name.key,
                limits: self.limits,
                place: wanted.place,
                stands,
                is_off: false,
            };
            return asked.judge(bench, left, answer);
        }
        if bench.shop.is_none() {
            answer.no_shop(&[ID]);
            return;
        }
        if self.width.is_none() {
            answer.not_checked(&[ID], &["limits of the diameter"]);
            return;
        }
        let [least, most] = limits;
        for (keep, limit) in [(Keep::AtLeast, least), (Keep::AtMost, most)] {
            let check = Check::judge(ID, &self.after, keep, limit, bench.guard()).about(self.name.key).at(wanted.place);
            let check = if self.gauge.is_none() { check.not_better_than(Verdict::Doubtful) } else { check };
            let proven = check.is_proven();
            let check = answer.check(check);
            if !proven {
                check.remedy(Words::of("finer-by-the-top-slide"));
            }
        }
    }

    /// Is the gauge worth a quarter of the limits?
    fn can_be_measured(&self, bench: &Bench, wanted: &At<Wanted<Mm>>, answer: &mut Answer) -> Result<(), Refusal> {
        const ID: &str = "can-be-measured";
        let Some(width) = &self.width else {
            answer.does_not_apply(&[ID]);
            return Ok(());
        };
        let says = vec!["from limit to limit".into()];
        let window = Worked::method(Mm::new(width.number()), says, Source::fixed("the limits", Mark::Own));
        let window = answer.record(&WINDOW, window);
        if bench.shop.is_none() {
            answer.no_shop(&[ID]);
            return Ok(());
        }
        let share = share_of(&constant("measuring-share")?, &window)?;
        if let Some(left) = &self.left {
            kit::measured_so_closely(bench, (self.name.key, left), &share, wanted.place, answer);
        }
        let limit = Fact::mm(share.number());
        let Some(gauge) = self.gauge else {
            answer.missing.push(Words::of("instrument").with("size", kit::about(self.after.number())));
            let check = Check::of_kind(ID, Verdict::Doubtful).with("instrument", "none").with("limit", limit);
            answer.check(check.at(wanted.place));
            return Ok(());
        };
        let worth = Worked::from(&gauge.uncertainty);
        let check = Check::judge(ID, &worth, Keep::AtMost, &share, bench.guard()).about(WINDOW.key);
        let check = check.with("instrument", gauge.name.value.clone()).at(wanted.place);
        answer.check(check.not_worse_than(Verdict::Doubtful));
        Ok(())
    }
}
