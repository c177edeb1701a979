//! Which way it comes, what must pass the support, and the set-up.

use super::keys::{HeldBy, PressOut, PushFrom};
use super::push::Old;
use super::{BORE, GRIPPED, HOUSING, JOINT, TIGHT, TRAVEL, sketch};
use crate::handbook::joints::press;
use crate::handbook::rigging::Aspect;
use crate::handbook::{StateKind, set_up_minutes};
use crate::operations::kit;
use crate::operations::press_joint::{Metals, press_opens, support_clears, under_the_boss};
use crate::operations::{Answer, Bench, Blank, Carried, HeldIn, SetUp, Station, Target};
use crate::proof::{Check, Fact, Keep, Origin, Refusal, Verdict, Words, Worked};
use crate::quantity::{Mm, Quantity, Rounds, Shift};
use crate::shop::{Gauge, Machine};

impl PressOut {
    pub(super) fn all_of_it(&self, bench: &Bench, answer: &mut Answer) -> Result<(), Refusal> {
        let metals = Metals::of(self.housing.material.as_ref(), &self.bush.material, bench)?;
        metals.cautions().for_each(|id| answer.caution(id));
        let old = self.as_it_sits(bench, answer)?;
        self.way_out(answer);
        self.support_clears(bench, &old, answer)?;
        under_the_boss(bench, self.support.as_ref(), &old.housing, answer)?;
        self.mandrel_fits(bench, &old, answer)?;
        self.comes_right_out(bench, &old, answer);
        self.pile_goes_in(bench, &old, answer)?;
        self.push(bench, &metals, &old, answer)?;
        self.pieces(&metals, answer);
        self.warmth(bench, &metals, &old, answer)?;
        answer.set_ups.push(self.at_the_press(bench, &metals, answer)?);
        Ok(())
    }

    /// The bush as it sits in its housing.
    fn as_it_sits(&self, bench: &Bench, answer: &mut Answer) -> Result<Old, Refusal> {
        let of_bush = bench.part_of(&self.bush.material.value, self.bush.material.place);
        let at_bush = bench.with_part(&of_bush);
        let d = answer.read(&at_bush, "bush outside", Gauge::Outside, &self.bush.outside)?;
        let d = answer.record(&JOINT, d);
        let bore = answer.read(&at_bush, "bush bore", Gauge::Inside, &self.bush.bore)?;
        let bore = answer.record(&BORE, bore);
        let tight = match &self.interference {
            Some(at) => Worked::exact(Shift::new(at.value.number()), Origin::Typed(at.place)),
            None => {
                let usual = press::usual_interference(d.number())?;
                let most = usual.band().map_or(usual.number(), |band| band.1);
                answer.assume("usual-at-the-most", Worked::assumed(Shift::new(most), "the high end of the usual fit"))
            }
        };
        let tight = answer.record(&TIGHT, tight);
        let bush = self.bush.length.value.number() - self.flange.as_ref().map_or(0.0, |f| f.thickness.value.number());
        let housing = self.housing.length.as_ref().map(|at| at.value.number());
        if housing.is_none() {
            answer.assume_words(Words::of("housing-as-long"));
        }
        let gripped = housing.map_or(bush, |housing| housing.min(bush)).max(0.0);
        let gripped = Worked::exact(Mm::new(gripped), Origin::Typed(self.bush.length.place));
        let gripped = answer.record(&GRIPPED, gripped);
        let travel = housing.map_or(bush, |housing| housing.max(bush));
        let travel = answer.record(&TRAVEL, Worked::exact(Mm::new(travel), Origin::Typed(self.bush.length.place)));
        let housing = answer.record(&HOUSING, (&self.housing.outside).into());
        Ok(Old { d, bore, tight, gripped, travel, housing })
    }

    /// What holds it: a shoulder whose bore was typed does, if it is smaller than the bush.
    pub(super) fn held(&self) -> Option<HeldBy> {
        let said = self.held_by.as_ref().map(|at| at.value);
        let outside = self.bush.outside.value.typed();
        let shoulder = self.housing.shoulder_bore.as_ref().map(|at| at.value.number());
        let stands = shoulder.is_some_and(|bore| outside.is_none_or(|outside| bore < outside));
        match said {
            Some(HeldBy::Nothing) if stands => Some(HeldBy::Shoulder),
            said => said,
        }
    }

    /// Does it come the way that it is pushed? Against its flange or a shoulder the casting breaks.
    fn way_out(&self, answer: &mut Answer) {
        const ID: &str = "way-out";
        let (Some(held), Some(from)) = (self.held(), &self.push_from) else {
            let missing: &[&'static str] = match (&self.held_by, &self.push_from) {
                (None, None) => &["held-by", "push-from"],
                (None, Some(_)) => &["held-by"],
                _ => &["push-from"],
            };
            answer.not_checked(&[ID], missing);
            return;
        };
        let verdict = match (held, from.value) {
            (HeldBy::Nothing, _) | (HeldBy::Flange | HeldBy::Shoulder, PushFrom::Inner) => Verdict::Proven,
            (HeldBy::Flange | HeldBy::Shoulder, PushFrom::Outer) | (HeldBy::Both, _) => Verdict::Fails,
        };
        let check = answer.check(Check::of_kind(ID, verdict).at(from.place));
        if held == HeldBy::Both {
            check.remedy(Words::of("cut-it-out"));
        } else {
            check.remedy(Words::of("push-from-the-other-end"));
        }
    }

    /// Does what comes out pass the support?
    fn support_clears(&self, bench: &Bench, old: &Old, answer: &mut Answer) -> Result<(), Refusal> {
        let flange = self.flange.as_ref().map(|flange| Worked::<Mm>::from(&flange.diameter));
        let flanged = matches!(self.held(), Some(HeldBy::Flange | HeldBy::Both));
        let known = !flanged || flange.is_some();
        support_clears(bench, self.support.as_ref(), flange.unwrap_or_else(|| old.d.clone()), answer)?;
        if !known && self.support.is_some() {
            answer.checks.retain(|check| check.id != "support-clears");
            answer.not_checked(&["support-clears"], &["flange"]);
        }
        Ok(())
    }

    /// Does the mandrel reach, and is there room beneath, until it falls free?
    fn comes_right_out(&self, bench: &Bench, old: &Old, answer: &mut Answer) {
        const ID: &str = "comes-right-out";
        let reach = self.mandrel.as_ref().and_then(|mandrel| mandrel.length.as_ref());
        let room = self.support.as_ref().and_then(|support| support.height.as_ref());
        let (Some(reach), Some(room)) = (reach, room) else {
            let missing = if reach.is_none() { "mandrel.length" } else { "support.height" };
            answer.not_checked(&[ID], &[missing]);
            return;
        };
        let bush: Worked<Mm> = (&self.bush.length).into();
        let thick = match (&self.housing.shoulder_thickness, self.held()) {
            (Some(thick), _) => thick.value.number(),
            (None, Some(HeldBy::Shoulder | HeldBy::Both)) => {
                answer.not_checked(&[ID], &["housing.shoulder-thickness"]);
                return;
            }
            (None, _) => 0.0,
        };
        // Pushed from its inner end the mandrel goes through the shoulder before it meets the bush.
        let reaches = old.travel.shifted(thick, "and the thickness of the shoulder");
        for (at, least, which) in [(reach, &reaches, "the-mandrel-reaches"), (room, &bush, "the-room-beneath")] {
            let check = Check::judge(ID, &at.into(), Keep::AtLeast, least, bench.guard()).at(at.place);
            answer.check(check.with("which", Words::of(which))).remedy(Words::of("longer-or-higher"));
        }
    }

    /// Does support, housing and mandrel, one on the other, go in under the ram?
    fn pile_goes_in(&self, bench: &Bench, old: &Old, answer: &mut Answer) -> Result<(), Refusal> {
        let none = || Worked::exact(Mm::new(0.0), Origin::Assumed("no height given".into()));
        let height = self.support.as_ref().and_then(|support| support.height.as_ref());
        let mandrel = self.mandrel.as_ref().and_then(|mandrel| mandrel.length.as_ref());
        let place = mandrel.or(height).map_or(self.bush.length.place, |at| at.place);
        let [height, mandrel] = [height, mandrel].map(|at| at.map_or_else(none, Worked::from));
        press_opens(bench, self.set_up.as_ref(), (&[&height, &old.travel, &mandrel], place), answer)
    }

    /// What may break is caught: iron and hard steel burst.
    fn pieces(&self, metals: &Metals, answer: &mut Answer) {
        const ID: &str = "pieces-caught";
        if !metals.brittle() {
            answer.does_not_apply(&[ID]);
            return;
        }
        let Some(at) = &self.guarded else { return answer.not_checked(&[ID], &["guarded"]) };
        let verdict = if at.value { Verdict::Proven } else { Verdict::Fails };
        answer.check(Check::of_kind(ID, verdict).at(at.place));
    }

    fn at_the_press(&self, bench: &Bench, metals: &Metals, answer: &Answer) -> Result<SetUp, Refusal> {
        let mut set_up = SetUp::at("press-out", Station::Press);
        set_up.pause = false;
        let press = kit::machine_for(bench, self.set_up.as_ref(), Machine::press);
        set_up.on(press.map(|press| press.name.value.as_str()));
        set_up.hold.push(Words::of("supported-square").into());
        // What may burst is guarded before anything pushes on it.
        if metals.brittle() {
            set_up.step("never-hammer-iron");
        }
        set_up.step("look-from-both-ends");
        set_up.step(match self.held() {
            Some(HeldBy::Nothing) => "nothing-holds-it",
            Some(HeldBy::Flange) => "out-flange-first",
            Some(HeldBy::Shoulder) => "away-from-the-shoulder",
            Some(HeldBy::Both) => "do-not-push",
            None => "find-what-holds-it",
        });
        if let Some(support) = &self.support {
            set_up.step_with(Words::of("support-of").with("inside", kit::mm_as_typed(support.inside.value.number())));
        }
        match &self.mandrel {
            Some(mandrel) => set_up
                .step_with(Words::of("mandrel-of").with("size", kit::mm_as_typed(mandrel.diameter.value.number()))),
            None => set_up.step("turn-a-mandrel"),
        };
        if self.warm_to.is_some() {
            set_up.step("while-warm");
            set_up.warns(&["hot-part"]);
        }
        set_up.step("push-it-out").step("catch-it").step("look-at-the-bore");
        set_up.warns(&["press", "lets-go"]);
        set_up.sketch = sketch::at_the_press(self, answer);
        set_up.takes(set_up_minutes::start("bush, pressing out")?);
        set_up.carries(Aspect::Device, Carried::Held(HeldIn::PressSupport));
        set_up.needs = kit::of_part(bench, &[StateKind::Washed]);
        set_up.leaves = vec![kit::of_this(bench, StateKind::PressedOut)];
        if self.warm_to.is_some() {
            set_up.needs.extend(kit::of_part(bench, &[StateKind::Warm]));
            set_up.leaves.push(kit::of_this(bench, StateKind::Warm));
        }
        // Up to where the step says stop, in its digits; what its joint asks beside it.
        let most = answer.value(super::FORCE_STUCK.key);
        let most = most.map(|most| Target::UpTo(Fact::figure(most.number, most.unit).rounded(Rounds::Up)));
        let asked = kit::found(answer, super::FORCE.key);
        let line = kit::blank("force-read", asked, None);
        set_up.blanks = vec![Blank { target: most, ..line }.expected()];
        Ok(set_up)
    }
}
