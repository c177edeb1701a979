//! The joint, the room that warmth and cold make for the bush, and the set-ups.

use super::PressIn;
use crate::handbook::joints::heating;
use crate::handbook::joints::reaming::{NotReamed, forbids_reaming};
use crate::handbook::materials::groups::Kind;
use crate::handbook::{StateKind, set_up_minutes};
use crate::operations::kit;
use crate::operations::press_joint::names::at_press::LEFT_AT_THE_PRESS;
use crate::operations::press_joint::names::closed_in::BORE_PRESSED;
use crate::operations::press_joint::names::fitted::BUSH_OUTSIDE;
use crate::operations::press_joint::names::joint::{BUSH_BORE, HOUSING_BORE};
use crate::operations::press_joint::names::room::ASSEMBLY_CLEARANCE;
use crate::operations::press_joint::{
    Asked, Chilled, ColdIn, Frame, GoesIn, Joint, Metals, READINGS, Sizes, bore_gauge, can_be_so_cold, can_be_so_warm,
    closed_in_at_most, closed_in_expected, foretold, measured_when_cold, of_bore, of_joint, room_to_drop_in,
    says_what_is_proven, too_thin, under_the_boss, with_thin,
};
use crate::operations::{Answer, Bench, Fit, HoldPoint, Limits, Picture, SetUp, Station};
use crate::proof::{Check, Fact, Keep, Refusal, Verdict, Words, Worked};
use crate::quantity::{Decimals, Quantity, Shift, Unit};
use crate::shop::Gauge;

/// The end of what a workshop reads of a bore, mm, and its decimals.
const THOUSANDTH: f64 = 0.001;
const PLACES: i32 = 3;

/// Under this two lengths are one, mm.
const ROUNDING: f64 = 1e-9;

impl PressIn {
    pub(super) fn all_of_it(&self, bench: &Bench, answer: &mut Answer) -> Result<(), Refusal> {
        let bush = self.bush.bush();
        let asked = self.asked(&bush);
        let metals = asked.metals(bench)?;
        metals.cautions().chain(metals.rots()).for_each(|id| answer.caution(id));
        let warmth = Fact::figure(heating::REFERENCE, Unit::DegC).to(Decimals::Exactly(0));
        answer.fact("reference_temperature", warmth);
        asked.says_how_it_stands(answer);
        asked.air_comes_out(answer);
        asked.goes_in_straight(bench, answer);
        let sizes = asked.sizes(bench, answer)?;
        let bored_after = self.bored_after.as_ref().is_some_and(|at| at.value);
        self.may_be_bored(bored_after, answer);
        asked.pair_goes_in(&metals, answer);
        let climate = asked.climate(&metals, &sizes, bored_after, answer)?;
        let of_bush = bench.part_of(&self.bush.material.value, self.bush.material.place);
        let at_bush = bench.with_part(&of_bush);
        let outside = answer.read(&at_bush, "bush outside", Gauge::Outside, &self.bush.outside)?;
        let bore = answer.read(&at_bush, "bush bore", Gauge::Inside, &self.bush.bore)?;
        let made = asked.made(bench, (&metals, &sizes, &climate), (bore, outside.clone(), true), answer)?;
        let joint = asked.joint(bench, &metals, (&sizes, &made), &climate, answer)?;
        asked.grip_when_warm(bench, &joint, &climate, answer)?;
        asked.grip_when_cold(bench, &joint, &climate, answer)?;
        under_the_boss(bench, self.support.as_ref(), &sizes.housing_outside, answer)?;
        asked.comes_through(bench, self.support.as_ref(), (&outside, &made.bore), answer)?;
        asked.pile_goes_in(bench, self.support.as_ref(), answer)?;
        let drops = self.drops_in(bench, &metals, (&sizes, &joint), answer)?;
        let goes = GoesIn { warm: self.opened_by.is_some(), cold: self.cold_from(), drops };
        let dressed = self.measure_and_dress(&asked, bench, answer)?;
        let home = self.press_home(&asked, bench, &metals, goes, answer)?;
        let measured = cool_and_measure(&asked, bench, &metals, goes, answer)?;
        answer.set_ups.extend([dressed, home, measured]);
        answer.picture = Some(Picture::Fit(Fit { groups: vec![of_joint(), of_bore("bore-as-bought")] }));
        Ok(())
    }

    /// A bush that an edge spoils is bought to its size.
    fn may_be_bored(&self, bored_after: bool, answer: &mut Answer) {
        const ID: &str = "may-be-bored";
        if !bored_after {
            answer.does_not_apply(&[ID]);
            return;
        }
        let spoils = forbids_reaming(&self.bush.material.value);
        let spoils = matches!(spoils, Some(NotReamed::Sintered | NotReamed::PtfeLined));
        let verdict = if spoils { Verdict::Fails } else { Verdict::Proven };
        answer.check(Check::of_kind(ID, verdict).at(self.bush.material.place));
    }

    /// What the bush is cold from.
    fn cold_from(&self) -> Option<ColdIn> {
        self.chilled_by.as_ref().map(|_| self.chilled_in.as_ref().map_or(ColdIn::Freezer, |at| at.value))
    }

    /// What the warm housing opens and the cold bush loses at the least, mm, where either was said.
    pub(super) fn gives(&self) -> Option<f64> {
        let said = [&self.opened_by, &self.chilled_by].into_iter().flatten().map(|at| at.value.number());
        said.reduce(|all, more| all + more)
    }

    /// Is there room for it at the press where the housing opens, and the bush shrinks, as little as was said? And can they?
    fn drops_in(
        &self,
        bench: &Bench,
        metals: &Metals,
        (sizes, joint): (&Sizes, &Joint),
        answer: &mut Answer,
    ) -> Result<bool, Refusal> {
        const ID: &str = "drops-in";
        let d = sizes.d.nominal("a change of size: the doubt of the diameter is small beside it");
        can_be_so_warm(bench, self.opened_by.as_ref(), (Some(&metals.housing), &metals.bush, &d), answer)?;
        let chilled = Chilled { by: self.chilled_by.as_ref(), cold_in: self.chilled_in.as_ref() };
        can_be_so_cold(bench, chilled, (Some(&metals.bush), &d), answer)?;
        let Some(place) = self.opened_by.as_ref().or(self.chilled_by.as_ref()).map(|at| at.place) else {
            answer.does_not_apply(&[ID]);
            return Ok(false);
        };
        let room = answer.record(&ASSEMBLY_CLEARANCE, room_to_drop_in(&d)?);
        let gives = self.gives().unwrap_or_default();
        let left = joint.measured.shifted(-gives, "what the warm housing opens and the cold bush loses, at the least");
        let left = answer.record(&LEFT_AT_THE_PRESS, left);
        let limit = Worked::assumed(Shift::new(ROUNDING - room.number()), "the room to drop in");
        let check = Check::judge(ID, &left, Keep::AtMost, &limit, bench.guard()).about(LEFT_AT_THE_PRESS.key);
        let drops = check.is_proven();
        let housing = self.opened_by.as_ref().map(|_| (sizes.housing_outside.number(), sizes.d.number()));
        let bush = answer.value(BUSH_OUTSIDE.key).zip(answer.value(BUSH_BORE.key));
        let bush = bush.filter(|_| self.chilled_by.is_some()).map(|(outside, bore)| (outside.number, bore.number));
        let thin = too_thin(housing, bush)?;
        with_thin(answer, check.at(place), thin).remedy(Words::of("warmer-or-colder"));
        Ok(drops)
    }

    fn measure_and_dress(&self, asked: &Asked, bench: &Bench, answer: &Answer) -> Result<SetUp, Refusal> {
        let mut set_up = SetUp::at("measure-and-dress", Station::Bench);
        set_up.hold.push(Words::of("on-the-bench").into());
        let porous = self.bush.material.value.kind() == Kind::Sintered;
        set_up
            .step(if porous { "both-at-20-porous" } else { "both-at-20" })
            .step("measure-housing")
            .step("measure-the-bush");
        says_what_is_proven(&mut set_up, answer);
        set_up.step("deburr-and-chamfer").step("mark-which-end");
        if !asked.cold {
            set_up.step("degrease-both");
        }
        if let Some(frame) = Frame::of(asked, answer, BUSH_BORE.key, Vec::new()) {
            set_up.sketch = frame.apart(answer);
        }
        set_up.takes(set_up_minutes::start("bush, measuring and dressing")?);
        set_up.needs = kit::of_part(bench, &[StateKind::Washed]);
        set_up.leaves = vec![kit::of_this(bench, StateKind::Dressed)];
        let sizes = [
            ("housing-found", HOUSING_BORE.key, Gauge::Inside),
            ("bush-outside-found", BUSH_OUTSIDE.key, Gauge::Outside),
            ("bush-bore-found", BUSH_BORE.key, Gauge::Inside),
        ];
        let line =
            |(id, key, gauge)| kit::read_with(kit::blank(id, kit::found(answer, key), None), READINGS, bench, gauge);
        set_up.blanks = sizes.into_iter().map(line).collect();
        Ok(set_up)
    }

    fn press_home(
        &self,
        asked: &Asked,
        bench: &Bench,
        metals: &Metals,
        goes: GoesIn,
        answer: &mut Answer,
    ) -> Result<SetUp, Refusal> {
        let mut set_up = asked.at_the_press(("press-in", bench, answer), metals, &[], goes);
        if let Some(frame) = Frame::of(asked, answer, BUSH_BORE.key, Vec::new()) {
            set_up.sketch = frame.at_the_press(answer);
        }
        set_up.takes(set_up_minutes::start("bush, pressing home")?);
        set_up.pause = false;
        set_up.warns(&["it-tilts"]);
        set_up.needs = vec![kit::of_this(bench, StateKind::Dressed)];
        let asked = [(goes.warm, StateKind::Warm), (goes.cold.is_some(), StateKind::Cold)];
        let needed = asked.into_iter().filter(|(is_so, _)| *is_so).map(|(_, kind)| kind);
        set_up.needs.extend(kit::of_part(bench, &needed.collect::<Vec<_>>()));
        set_up.leaves = vec![kit::of_this(bench, StateKind::Pressed)];
        if goes.warm {
            set_up.leaves.push(kit::of_this(bench, StateKind::Warm));
        }
        Ok(set_up)
    }
}

/// Cold again, the closed-in bore is measured.
fn cool_and_measure(
    asked: &Asked,
    bench: &Bench,
    metals: &Metals,
    goes: GoesIn,
    answer: &Answer,
) -> Result<SetUp, Refusal> {
    let mut set_up = measured_when_cold(bench, metals, goes.warm || goes.cold.is_some(), answer)?;
    if let Some(bore) = answer.value(BORE_PRESSED.key) {
        let gauge = bore_gauge(bench, bore.number)?;
        // A bush that grips has closed in.
        let before = answer.value(BUSH_BORE.key).filter(|_| asked.bush.bore.is_some()).map(|before| before.number);
        // By more or less than was foretold it is not home, loose or collapsed.
        let (least, most) = foretold(bore, gauge.doubt, bench.guard());
        let most = before.map_or(most, |before| most.min(before - THOUSANDTH));
        let (most, says) =
            if before.is_some() { closed_in_at_most(bench, answer, gauge.doubt, most) } else { (most, None) };
        let ends = if least < most { (Some(least), Some(most)) } else { (Some(least), None) };
        let limits = Limits::asked(ends, PLACES, Unit::Mm);
        let hold = HoldPoint::asking(bore.key, READINGS, gauge.name, limits).saying(says);
        let words = Words::of("measure-closed-in-only");
        let words = match closed_in_expected(answer) {
            Some(expected) => words.with("expected", expected),
            None => words,
        };
        set_up.hold_at(words, hold);
    }
    set_up.step("what-was-measured-decides");
    if let Some(frame) = Frame::of(asked, answer, BORE_PRESSED.key, Vec::new()) {
        set_up.sketch = frame.pressed();
    }
    set_up.takes(set_up_minutes::start("bore, six readings")?);
    Ok(set_up)
}
