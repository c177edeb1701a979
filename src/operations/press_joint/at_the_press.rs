//! The bush as it goes in at the press: steps, hold and cautions, whichever operation asks.

use super::asked::Asked;
use super::cold::ColdIn;
use super::cooled::cools;
use super::gauge::sure_to_tell;
use super::keys::Stands;
use super::made::outsides;
use super::metals::Metals;
use super::names::at_press::LEFT_AT_THE_PRESS;
use super::names::closed_in::BORE_PRESSED;
use super::names::fitted::{BUSH_OUTSIDE, OUTSIDE_LEAST, OUTSIDE_MOST};
use super::names::joint::{BUSH_BORE, HOUSING_OUTSIDE, PRESS_FORCE};
use super::names::room::ASSEMBLY_CLEARANCE;
use crate::handbook::StateKind;
use crate::handbook::materials::groups::Kind;
use crate::handbook::rigging::Aspect;
use crate::operations::kit::mm;
use crate::operations::{Answer, Bench, Blank, Carried, HeldIn, Name, SetUp, Station, Target, kit};
use crate::proof::{Fact, Refusal, Words};
use crate::quantity::{Decimals, Mm, Quantity, Rounds};
use crate::shop::{Gauge, Machine};

/// How the bush goes in.
#[derive(Clone, Copy)]
pub(in crate::operations) struct GoesIn {
    /// The housing is warm.
    pub warm: bool,
    /// What the bush is cold from, where it is.
    pub cold: Option<ColdIn>,
    /// What warmth and cold make room for it; else it is not fitted where the housing is warm, and pressed where only the bush is
    /// cold.
    pub drops: bool,
}

impl Asked<'_> {
    /// The set-up at the press; `before` are steps that come before the mandrel.
    pub(in crate::operations) fn at_the_press(
        &self,
        (id, bench, answer): (&'static str, &Bench, &Answer),
        metals: &Metals,
        before: &[&'static str],
        goes: GoesIn,
    ) -> SetUp {
        let mut set_up = SetUp::at(id, Station::Press);
        let press = kit::machine_for(bench, self.set_up, Machine::press);
        set_up.on(press.map(|press| press.name.value.as_str()));
        set_up.hold.push(Words::of("supported-square").into());
        // What may burst is guarded before anything pushes on it.
        if metals.brittle() {
            set_up.step("never-hammer-iron");
        }
        if let Some(from) = goes.cold {
            set_up.step(if from == ColdIn::Freezer { "wipe-the-frost" } else { "wipe-the-frost-with-tongs" });
        }
        for step in before {
            set_up.step(step);
        }
        set_up.step("mandrel");
        let pushes = self.can_push_it(bench, answer);
        let if_it_sticks = if pushes { "if-it-sticks" } else { "if-it-sticks-here" };
        if let Some(room) = little_room(answer).filter(|_| goes.drops) {
            set_up.step_with(Words::of("little-room-here").with("room", mm(room).rounded(Rounds::Down)));
        }
        match (goes.warm, goes.cold.is_some()) {
            (false, false) => set_up.step("oil-the-bush").step("press-cold"),
            (true, _) if !goes.drops => set_up.step("do-not-fit"),
            (true, _) => set_up.step("drop-in-warm").step("hold-until-it-grips").step(if_it_sticks),
            (false, true) if !goes.drops => {
                set_up.step("press-chilled").step("hold-until-it-is-tight").step(if_it_sticks)
            }
            (false, true) => set_up.step("drop-in-chilled").step("hold-until-it-is-tight").step(if_it_sticks),
        };
        if goes.warm {
            set_up.warns(&["hot-part"]);
        }
        match goes.cold {
            Some(ColdIn::Freezer) => set_up.warns(&["freezer"]),
            Some(ColdIn::DryIce | ColdIn::Nitrogen) => set_up.warns(&["cold-burns", "dry-ice"]),
            None => {}
        }
        set_up.step(if self.flange.is_some() { "flange-home" } else { "stands-as-wanted" });
        set_up.blanks.extend(force_blank(goes, pushes, answer));
        set_up.warns(&["press"]);
        set_up.carries(Aspect::Device, Carried::Held(HeldIn::PressSupport));
        set_up
    }

    /// Whether the press can push home what sticks, at the greatest force that it takes.
    fn can_push_it(&self, bench: &Bench, answer: &Answer) -> bool {
        let most = kit::machine_for(bench, self.set_up, Machine::press).and_then(|press| press.most.as_ref());
        let takes = answer.value(PRESS_FORCE.key).map_or(f64::INFINITY, |value| value.number + value.plus_minus);
        bench.shop.is_none() || most.is_some_and(|most| takes <= most.value.number())
    }

    /// How far it stands out, in words.
    pub(in crate::operations) fn says_how_it_stands(&self, answer: &mut Answer) {
        let stands = match self.stands.map(|at| at.value) {
            None if self.flange.is_some() => Words::of("where-its-flange-stops-it"),
            Some(Stands::Flush) if self.flange.is_some() => Words::of("flush-in-a-recess"),
            None | Some(Stands::Flush) => Words::of("flush"),
            Some(Stands::Proud) => Words::of("a-little-proud"),
            Some(Stands::By(by)) if by.number() < 0.0 => Words::of("below-the-face").with("by", mm(-by.number())),
            Some(Stands::By(by)) => Words::of("proud-by").with("by", mm(by.number())),
        };
        answer.fact("stands", stands);
        if self.stands.is_none() && self.flange.is_none() {
            answer.assume_words(Words::of("stands-flush"));
        }
    }
}

/// Where the force is written down, up to what the steps say, in their digits: over that it is cocked. What drops in has one only
/// where it stuck and this press may push it on; what is pressed chilled has another than was worked, and no limit beside it.
fn force_blank(goes: GoesIn, pushes: bool, answer: &Answer) -> Option<Blank> {
    let most = answer.value(PRESS_FORCE.key);
    let most = most.map(|most| Target::UpTo(Fact::figure(most.number, most.unit).rounded(Rounds::Up)));
    let (id, target) = match (goes.drops, goes.warm || goes.cold.is_some()) {
        (true, _) if pushes => ("force-if-stuck", most),
        (false, false) => ("force-home", most),
        (false, true) if !goes.warm => ("force-home", None),
        _ => return None,
    };
    Some(Blank { target, ..kit::blank(id, None, None) })
}

/// The room that is left at the press at the worst, mm, where that is less than it is warmed for: what oven and freezer give is counted as
/// it leaves them, and most of it may be lost on the way.
fn little_room(answer: &Answer) -> Option<f64> {
    let number = |name: &Name<Mm>| answer.value(name.key).map(|value| value.number);
    let room = -answer.value(LEFT_AT_THE_PRESS.key)?.number;
    (room < number(&ASSEMBLY_CLEARANCE)? && room > 0.0).then_some(room)
}

impl Metals {
    /// Whether one of them cracks without warning.
    pub(in crate::operations) fn brittle(&self) -> bool {
        [&self.bush, &self.housing].iter().any(|metal| matches!(metal.kind(), Kind::GreyIron | Kind::HardSteel))
    }
}

/// Readings of a bore, or of an outside: near both ends, two ways across.
pub(in crate::operations) const READINGS: usize = 4;

/// How far up the closed-in bore may be read, and what is said of it: near the bore that it had (with the gauge's doubt) nothing
/// is sure. Where what was foretold lies there itself, good work must be able to meet it, and the joint is in doubt.
pub(in crate::operations) fn closed_in_at_most(
    bench: &Bench,
    answer: &Answer,
    gauge: Option<f64>,
    most: f64,
) -> (f64, Option<Words>) {
    let value = |name: &Name<Mm>| answer.value(name.key);
    let Some((before, foretold)) = value(&BUSH_BORE).zip(value(&BORE_PRESSED)) else { return (most, None) };
    let sure = sure_to_tell(bench, (before.number, before.plus_minus), gauge);
    if most <= sure {
        (most, None)
    } else if foretold.number <= sure {
        (sure, Some(Words::of("closed-in-over-that")))
    } else {
        (most, Some(Words::of("closed-in-for-sure").with("sure", mm(sure).rounded(Rounds::Down))))
    }
}

/// What the closed-in bore is expected to be read as: the ends of what its picture shows.
pub(in crate::operations) fn closed_in_expected(answer: &Answer) -> Option<Fact> {
    let bore = answer.value(BORE_PRESSED.key)?;
    let (low, high) = bore.band.unwrap_or((bore.number, bore.number));
    let end = |at: f64, rounds: Rounds| mm(at).to(Decimals::Exactly(3)).rounded(rounds);
    Some(Fact::span(end(low - bore.plus_minus, Rounds::Down), end(high + bore.plus_minus, Rounds::Up)))
}

/// The set-up in which the closed-in bore is measured once all is cold again; `rests` where it was warm or cold.
///
/// # Errors
/// [`Refusal::NoRow`] where the table lacks the wait.
pub(in crate::operations) fn measured_when_cold(
    bench: &Bench,
    metals: &Metals,
    rests: bool,
    answer: &Answer,
) -> Result<SetUp, Refusal> {
    let mut set_up = SetUp::at("cool-and-measure", Station::Bench);
    set_up.hold.push(Words::of("on-the-bench").into());
    set_up.step("cool-to-20");
    if rests {
        set_up.rest = Some(cools(metals, answer)?);
    }
    set_up.needs = vec![kit::of_this(bench, StateKind::Pressed)];
    set_up.leaves = vec![kit::of_this(bench, StateKind::BoreMeasured)];
    let closed_in = kit::blank("closed-in-left", None, kit::found(answer, BORE_PRESSED.key));
    let closed_in = closed_in.left_as(&BORE_PRESSED).wanted();
    let outside = kit::blank("outside-left", kit::found(answer, HOUSING_OUTSIDE.key), None);
    set_up.blanks = vec![
        kit::read_with(closed_in, READINGS, bench, Gauge::Inside),
        kit::read_with(outside, 1, bench, Gauge::Outside),
    ];
    Ok(set_up)
}

/// The outsides that would be proven, as a step, once the bush is measured.
pub(in crate::operations) fn says_what_is_proven(set_up: &mut SetUp, answer: &Answer) {
    match (answer.value(OUTSIDE_LEAST.key), answer.value(OUTSIDE_MOST.key)) {
        (Some(low), Some(high)) => {
            let ends = outsides((low.number, high.number));
            set_up.step_with(Words::of("outside-that-is-proven").with("outsides", ends));
        }
        _ if no_outside_is_proven(answer) && !set_up.steps.iter().any(|step| step.id == NONE_PROVEN) => {
            set_up.step(NONE_PROVEN);
        }
        _ => {}
    }
}

/// The step that says that no outside would be proven.
pub(in crate::operations) const NONE_PROVEN: &str = "no-outside-is-proven";

/// Whether no outside would be proven: who makes the bush is told before.
pub(in crate::operations) fn no_outside_is_proven(answer: &Answer) -> bool {
    let is_known = |name: &crate::operations::Name<crate::quantity::Mm>| answer.value(name.key).is_some();
    is_known(&BUSH_OUTSIDE) && !(is_known(&OUTSIDE_LEAST) && is_known(&OUTSIDE_MOST))
}
