//! The one set-up: read, tap, move jaw after jaw, read again.

use super::circle::ByShims;
use super::jaws::Move;
use super::keys::{JAWS, SetTrue};
use super::least::is_moved;
use super::names::{AFTER, ECCENTRICITY, FACE_AFTER, LEAN, MOVE_FIRST, MOVE_SECOND, SECOND_AFTER, TILT, WITHIN};
use crate::handbook::{StateKind, set_up_minutes};
use crate::job::State;
use crate::operations::Limits;
use crate::operations::kit::{self, mm};
use crate::operations::turning;
use crate::operations::{Answer, Bench, Blank, HeldIn, HoldPoint, SetUp, Station, Target, Value};
use crate::proof::{Check, Fact, Refusal, Verdict, Words};
use crate::quantity::{Quantity, Unit};
use crate::shop::{Gauge, Machine};

/// The set-up.
pub(super) const TRUE_IT: &str = "true-it";
/// Decimals of a millimetre that an indicator of a workshop is read to.
const PLACES: i32 = 3;

impl SetTrue {
    pub(super) fn work_it(&self, bench: &Bench, answer: &mut Answer) -> Result<(), Refusal> {
        bench.part.material.iter().flat_map(|at| at.value.safety_without_chips()).for_each(|id| answer.caution(id));
        answer.fact("within", mm(self.true_within.value.number()));
        let centre = self.centre(bench, answer)?;
        let shims = self.judge_centre(bench, answer, &centre)?;
        let moves = self.moves(bench, answer, &centre)?;
        answer.picture = Some(self.polar(answer, &centre, (&moves, shims.as_ref())));
        self.face(bench, answer)?;
        self.second_plane(bench, answer, &centre)?;
        self.of_one_body(bench, answer)?;
        self.clears_the_bed(bench, answer)?;
        self.device_there(bench, answer);
        self.the_set_up(bench, answer, (&moves, shims.as_ref()))
    }

    /// Whether the shop has what it is held in. A three-jaw chuck is on every lathe.
    fn device_there(&self, bench: &Bench, answer: &mut Answer) {
        const ID: &str = "device-there";
        let lathe = kit::machine_for(bench, self.set_up.as_ref(), Machine::lathe);
        let Some(lathe) = lathe else {
            return if bench.shop.is_none() { answer.no_shop(&[ID]) } else { answer.not_checked(&[ID], &["lathe"]) };
        };
        let held_in = &self.hold.value.held_in;
        let there = match held_in.value {
            HeldIn::FourJaw => lathe.four_jaw.is_some(),
            HeldIn::Faceplate => lathe.faceplate.is_some(),
            _ => return answer.does_not_apply(&[ID]),
        };
        let verdict = if there { Verdict::Proven } else { Verdict::Doubtful };
        let check = Check::of_kind(ID, verdict).with("in", held_in.value.named_on_a_lathe());
        answer.check(check.at(held_in.place));
    }

    /// Whether what is gripped clears the bed, the jaws about it.
    fn clears_the_bed(&self, bench: &Bench, answer: &mut Answer) -> Result<(), Refusal> {
        const ID: &str = "swing";
        let lathe = kit::machine_for(bench, self.set_up.as_ref(), Machine::lathe);
        match (&self.hold.value.diameter, lathe) {
            (_, None) if bench.shop.is_none() => answer.no_shop(&[ID]),
            (None, _) => answer.not_checked(&[ID], &["hold.diameter"]),
            (_, None) => answer.not_checked(&[ID], &["lathe"]),
            (Some(at), Some(lathe)) => {
                // Where nobody says how wide the chuck is, the part alone.
                turning::part_clears_the_bed(&at.into(), lathe, bench.guard(), answer)?;
                return turning::clears_the_bed(&at.into(), Some(&self.hold.value), lathe, bench.guard(), answer);
            }
        }
        Ok(())
    }

    fn the_set_up(
        &self,
        bench: &Bench,
        answer: &mut Answer,
        (moves, shims): (&[Move], Option<&ByShims>),
    ) -> Result<(), Refusal> {
        let hold = &self.hold.value;
        let mut set_up = SetUp::at(TRUE_IT, Station::Lathe);
        let lathe = kit::machine_for(bench, self.set_up.as_ref(), Machine::lathe);
        set_up.on(lathe.map(|lathe| lathe.name.value.as_str()));
        set_up.hold.push(kit::held_in(Some(hold), "in-the-chuck").into());
        kit::rig(&mut set_up, Some(hold), HeldIn::FourJaw);
        let on_a_plate = hold.held_in.value == HeldIn::Faceplate;
        // A plate has no jaw to count from.
        let of_hold = |jaws, plate| if on_a_plate { plate } else { jaws };
        set_up.step(of_hold("clean-jaws", "clean-plate")).step(of_hold("nip-lightly", "nip-on-the-plate"));
        set_up.step(of_hold("nought-at-first", "nought-at-the-mark"));
        set_up.step(of_hold("read-all-round", "read-all-round-the-plate"));
        if answer.value(TILT.key).is_some() {
            set_up.step(of_hold("tap-the-face", "tap-the-face-on-the-plate"));
        }
        // An axis that runs off by no more than its readings are sure of is not tapped.
        let leans = answer.value(LEAN.key).is_some_and(|lean| lean.number > lean.plus_minus);
        if leans {
            set_up.step("tap-the-far-end");
        }
        if answer.value(TILT.key).is_some() || leans {
            set_up.step("read-anew-once-tapped");
        }
        match () {
            () if !moves.is_empty() => {
                // A pair that stays is not touched: it would only be disturbed.
                for (step, key) in [("first-pair", MOVE_FIRST.key), ("second-pair", MOVE_SECOND.key)] {
                    if answer.value(key).is_none_or(is_moved) {
                        set_up.step(step);
                    }
                }
            }
            () if self.in_three_jaws() => {
                if let Some(words) = shims.and_then(Self::slip_in) {
                    set_up.step_with(words);
                }
            }
            () => {
                set_up.step("tap-on-the-faceplate");
            }
        }
        set_up.step(match hold.held_in.value {
            HeldIn::FourJaw => "nip-evenly",
            HeldIn::Faceplate => "nip-the-clamps",
            _ => "nip-with-the-key",
        });
        let readings = self.reads().map_or(JAWS.len(), |(angles, _)| angles.len());
        set_up.hold_at(Words::of("read-again"), self.read_again(bench, answer, readings));
        set_up.step(of_hold("key-out", "spanner-off"));
        set_up.takes(set_up_minutes::start(self.minutes())?);
        set_up.needs = kit::of_part(bench, &[StateKind::Washed]);
        set_up.leaves =
            vec![State::of_part(&bench.part.name, StateKind::Held), State::of_part(&bench.part.name, StateKind::True)];
        set_up.warns(&[of_hold("chuck-key", "locked-out")]);
        if on_a_plate {
            set_up.warns(&["faceplate-balance"]);
        }
        let line = kit::blank("reads-in-a-turn", None, None);
        let target = answer.value(AFTER.key).map(|_| Target::UpTo(mm(self.most_read(bench, answer))));
        let line = Blank { target, ..line }.left_as(&AFTER).of_all_readings();
        set_up.blanks.push(kit::read_with(line, readings, bench, Gauge::Indicator));
        let most = |of: &Value, allowed: f64| kit::most_to_read(allowed, of.plus_minus * bench.guard() / 2.0);
        let mut line = |id, of: Option<&Value>, allowed: Option<f64>, name| {
            let Some((of, allowed)) = of.zip(allowed) else { return };
            let line = Blank { target: Some(Target::UpTo(mm(most(of, allowed)))), ..kit::blank(id, None, None) };
            set_up.blanks.push(kit::read_with(
                line.wanted_as(name).of_all_readings(),
                JAWS.len(),
                bench,
                Gauge::Indicator,
            ));
        };
        let square = self.square_within.as_ref().map(|square| square.value.number());
        line("face-reads", answer.value(FACE_AFTER.key), square, &FACE_AFTER);
        let turn = answer.value(WITHIN.key).map(|within| within.number);
        line("second-reads", answer.value(SECOND_AFTER.key), turn, &SECOND_AFTER);
        answer.set_ups.push(set_up);
        Ok(())
    }

    /// What an indicator may show in a turn so that it is sure to be true: what is allowed less the doubt of reading it.
    fn most_read(&self, bench: &Bench, answer: &Answer) -> f64 {
        let number = |key: &str| answer.value(key).map_or(0.0, |value| value.number);
        kit::most_to_read(number(WITHIN.key), Self::doubt_of_reading(bench, answer))
    }

    fn doubt_of_reading(bench: &Bench, answer: &Answer) -> f64 {
        answer.value(AFTER.key).map_or(0.0, |after| after.plus_minus) * bench.guard() / 2.0
    }

    fn read_again(&self, bench: &Bench, answer: &Answer, readings: usize) -> Option<HoldPoint> {
        answer.value(ECCENTRICITY.key)?;
        let named = self.with.as_ref().map(|name| Fact::from(&name.value));
        let used = kit::gauge_used(bench, self.true_within.value.number(), Gauge::Indicator, false).name;
        let limits = Limits::asked((None, Some(self.most_read(bench, answer))), PLACES, Unit::Mm);
        let within = answer.value(WITHIN.key).map_or(0.0, |within| within.number);
        let says = kit::cannot_decide(within, Self::doubt_of_reading(bench, answer));
        Some(HoldPoint::asking(AFTER.key, readings, named.unwrap_or(used), limits).saying(says))
    }

    const fn minutes(&self) -> &'static str {
        match self.hold.value.held_in.value {
            HeldIn::FourJaw => "four-jaw chuck, dial",
            HeldIn::Faceplate => "faceplate, clamping",
            _ => "three jaws, shims",
        }
    }
}
