//! What an oil hole is asked like any hole through the wall of a bush: its oilway, its drill, what it comes out into, how the work is held.

use super::checks::{CHECKS, LIKE_ANY_HOLE};
use super::keys::{DrillWhen, End, OilHole, ReamBush};
use super::names::{OIL_SPEED, OIL_SURFACE};
use super::oil::{Drilled as Oil, OilHoles};
use crate::handbook::cutting::speeds;
use crate::job::PartFacts;
use crate::operations::answer::DOUBT_PLAUSIBLE;
use crate::operations::hole_making::drilled::names as of_drill;
use crate::operations::hole_making::drilled::{Drilled, Thick};
use crate::operations::hole_making::{self, Called};
use crate::operations::{Answer, Bench, Declared, kit};
use crate::proof::{At, Cause, Fact, Mark, Origin, Outcome, Refusal, Source, Verdict, Words, Worked};
use crate::quantity::{Mm, Quantity, RevPerMin};

/// What of its figures stands with those of the bush, of the first hole.
pub(super) const VALUES: &[Declared] = &[
    hole_making::OILWAY.declare(),
    hole_making::OILWAY_AT.declare(),
    hole_making::SUNK.declare(),
    hole_making::BESIDE.declare(),
    hole_making::ROOM.declare(),
    hole_making::TORQUE_TO_STAND.declare(),
    of_drill::STICK_OUT.declare(),
    of_drill::CHUCK_CLEAR.declare(),
    of_drill::LEFT_BEHIND.declare(),
    of_drill::TORQUE.declare(),
    of_drill::THRUST.declare(),
    of_drill::BOWS_AT.declare(),
    of_drill::TWISTS_AT.declare(),
];

/// What the keys of its oilway are called.
const CALLED: Called = Called {
    oilway: "oil-holes.oilway",
    open: "oil-holes.oilway.open",
    depth: "oil-holes.oilway.depth",
    from_inner: None,
};

/// What the sheet of the bush says of its machine already.
const SAID: [&str; 3] = ["machine", "steps-not-checked", "hard-group"];

impl ReamBush {
    /// Every oil hole: of several the worst of each check stands, and one that was not asked leaves it open.
    pub(super) fn like_any_hole(
        &self,
        bench: &Bench,
        oil: &mut OilHoles,
        [outside, bore]: [&Worked<Mm>; 2],
        answer: &mut Answer,
    ) -> Result<(), Refusal> {
        if self.oil_holes.is_empty() {
            return Ok(());
        }
        let of_bush = PartFacts {
            material: Some(self.bush.material.clone()),
            hardness: None,
            case_depth: None,
            case_depth_total: None,
            through_hardened: None,
            ..bench.part.clone()
        };
        let at_bush = bench.with_part(&of_bush);
        let source = Source::fixed("half of what lies round the bore", Mark::Derived);
        let wall = Worked::sum(&[(0.5, outside), (-0.5, bore)], 0.0, "wall of the bush as it sits", source);
        let place = self.bush.length.place;
        let mut all = Vec::new();
        for (nth, (hole, drilled)) in self.oil_holes.iter().zip(&mut oil.drilled).enumerate() {
            let mut own = Answer::declaring(CHECKS);
            let thick = Thick::Bush { wall: &wall, bore, place };
            // What the tables lack of its metal leaves open what hangs on it. What its motor does not carry is run slower.
            let slower = self.one(&at_bush, (hole, drilled, thick), &mut own).ok().flatten();
            let slower = slower.filter(|step| drilled.spindle.is_some_and(|own| step.number() < own));
            if let Some(step) = slower {
                drilled.spindle = Some(step.number());
                if nth == 0 {
                    let across = Worked::exact(Mm::new(drilled.diameter), Origin::Typed(hole.diameter.place));
                    answer.record(&OIL_SURFACE, speeds::surface_speed(&step, &across)?);
                    answer.record(&OIL_SPEED, step);
                }
            }
            own.complete();
            all.push(own);
        }
        for id in LIKE_ANY_HOLE {
            let mut checks: Vec<_> =
                all.iter().flat_map(|own| &own.checks).filter(|check| check.id == id).cloned().collect();
            let open = checks.iter().find(|check| check.state == Outcome::NotChecked).cloned();
            let fails = checks.iter().any(|check| check.verdict() == Some(Verdict::Fails));
            checks.retain(|check| open.is_none() || (fails && check.verdict() == Some(Verdict::Fails)));
            for mut check in open.filter(|_| !fails).into_iter().chain(checks) {
                check.about = check.about.filter(|key| VALUES.iter().any(|own| own.key == *key));
                answer.check(check);
            }
        }
        let stops = all.iter().zip(&oil.drilled).filter(|(_, hole)| hole.after_press);
        let stops: Vec<Fact> = stops
            .filter_map(|(own, _)| own.facts.iter().find(|fact| fact.0 == "stop_set"))
            .map(|fact| fact.1.clone())
            .collect();
        answer.fact("oil_stop", if stops.is_empty() { Fact::named("not-known") } else { Fact::Series(stops, "; ") });
        for own in all {
            for value in own.values {
                let is_new = answer.value(value.key).is_none();
                if is_new && VALUES.iter().any(|known| known.key == value.key) {
                    answer.values.push(value);
                }
            }
            let said = own.assumed.into_iter().filter(|words| !SAID.contains(&words.id));
            said.for_each(|words| answer.assume_words(words));
            let of_readings = own.checks.into_iter().filter(|check| check.id == DOUBT_PLAUSIBLE.id);
            of_readings.filter(|check| check.verdict().is_some()).for_each(|check| {
                answer.check(check);
            });
        }
        Ok(())
    }

    /// One of them, as it is asked alone, with the step that it runs at.
    fn one(
        &self,
        bench: &Bench,
        (hole, drilled, thick): (&OilHole, &Oil, Thick),
        answer: &mut Answer,
    ) -> Result<Option<Worked<RevPerMin>>, Refusal> {
        let machine = self.drilling_machine(bench);
        let is_in = hole.drill.as_ref().is_none_or(|at| at.value != DrillWhen::BeforePress);
        let diameter = At { value: Mm::new(drilled.diameter), place: hole.diameter.place };
        let at = Worked::exact(Mm::new(drilled.at), Origin::Typed(hole.at.place));
        let at = at.with_doubt(Cause::Set("setting out"), hole_making::set_out(answer)?);
        let oilway = hole.oilway.as_ref();
        let is_from_inner = hole.from.as_ref().is_some_and(|end| end.value == End::Inner);
        let from_inner = is_from_inner.then(|| self.bush.length.value.number());
        hole_making::meets(bench, (oilway, Called { from_inner, ..CALLED }), (&at, &Worked::from(&diameter)), answer)?;
        let sunk = hole_making::sunk(bench, oilway, (CALLED, is_in), answer)?;
        let asked = Drilled {
            diameter: &diameter,
            wall: thick,
            sunk,
            through: true,
            bore: None,
            beyond: None,
            stick_out: hole.stick_out.as_ref(),
            hold: self.hold.as_ref(),
            set_up: self.set_up.as_ref(),
        };
        let case = asked.case(bench, machine, answer)?;
        let depth = asked.through(bench, &case, answer)?;
        Ok(asked.run(bench, &case, &depth, machine, answer)?.step)
    }

    /// How far the drill of the first hole stands out, on the line of the hold.
    pub(super) fn stands_out(&self, answer: &Answer) -> Option<Words> {
        let out = answer.value(of_drill::STICK_OUT.key)?.number;
        Some(Words::of("drill-stands-out").with("out", kit::mm_as_typed(out)))
    }
}
