//! The set-up: how it is held, every cut with its dial readings, what is measured.

use super::cuts::Cutting;
use super::sketch::{self, Shoulder};
use super::{FeedDirection, Ground, Metal};
use crate::handbook::set_up_minutes;
use crate::operations::{Answer, Bench, Blank, Cut, HeldIn, Hold, Pass, PassKind, SetUp, Station, Value};
use crate::proof::{Fact, Refusal, Words};
use crate::quantity::Quantity;

/// What an operation adds to the set-up.
pub(in crate::operations) struct Extra {
    /// The set-up's id in the card.
    pub id: &'static str,
    /// The state that it leaves.
    pub state: &'static str,
    /// Steps after the cut.
    pub after: Vec<Words>,
    /// Lines to measure, beside the shared ones.
    pub blanks: Vec<Blank>,
    /// The matching shoulder, for the sketch.
    pub shoulder: Option<Shoulder>,
}

/// Writes the one set-up of the operation into the answer.
pub(in crate::operations) fn set_up(
    bench: &Bench,
    ground: &Ground,
    metal: &Metal,
    cutting: &Cutting,
    extra: Extra,
    answer: &mut Answer,
) -> Result<(), Refusal> {
    let mut set_up = SetUp::at(extra.id, Station::Lathe);
    set_up.machine = ground.lathe.map(|lathe| lathe.name.value.clone());
    set_up.minutes = set_up_minutes::start(chucking(ground.asked.hold))?;
    held(ground, &mut set_up);
    before(ground, metal, &mut set_up);
    let direction = direction(ground, answer);
    let cut = cut(ground, cutting, answer)?;
    set_up.cut(Words::of(direction), cut);
    for words in extra.after {
        set_up.step_with(words);
    }
    if ground.asked.relief.is_some_and(super::Relief::recut) {
        set_up.step("recut-relief");
    }
    set_up.step("micrometer-remainder").step("deburr").step("wash-and-measure");
    set_up.sketch = sketch::draw(ground, metal, extra.shoulder, answer);
    set_up.needs = ["washed", "measured"].map(|state| format!("{}:{state}", bench.part.name)).into();
    set_up.leaves = vec![format!("{}:{}", bench.address, extra.state)];
    set_up.cautions.extend(["swarf", "chuck-key", "work-secure"]);
    set_up.blanks = blanks(answer);
    set_up.blanks.extend(extra.blanks);
    answer.set_ups.push(set_up);
    Ok(())
}

/// The row of the table of set-up minutes.
fn chucking(hold: Option<&Hold>) -> &'static str {
    match hold.map(|hold| hold.held_in.value) {
        Some(HeldIn::FourJaw) => "four-jaw chuck, dial",
        Some(HeldIn::Faceplate | HeldIn::Clamps) => "faceplate",
        Some(HeldIn::AnglePlate) => "angle plate",
        Some(HeldIn::Mandrel) => "between centres",
        _ => "three-jaw chuck",
    }
}

fn held(ground: &Ground, set_up: &mut SetUp) {
    let Some(hold) = ground.asked.hold else {
        set_up.hold.push(Words::of("hold-not-named"));
        return;
    };
    let held_in = hold.held_in.value;
    set_up.hold.push(Words::of("held-in").with("in", held_in.text()));
    if held_in == HeldIn::SoftJaws {
        set_up.hold.push(Words::of("bore-soft-jaws"));
    }
    if held_in.jaws().is_some() {
        let nip = hold.nipped.as_ref().map_or(crate::operations::Nip::Normal, |at| at.value);
        set_up.hold.push(Words::of("nip").with("nip", nip.text()));
    }
    if let Some(gripped) = &hold.diameter {
        set_up.hold.push(Words::of("gripped-on").with("gripped", Fact::mm(gripped.value.number())));
    }
    if let Some(grip) = &hold.grip {
        set_up.hold.push(Words::of("grip-length").with("grip", Fact::mm(grip.value.number())));
    }
    if let Some(stop) = &hold.stop {
        set_up.hold.push(Words::of("seated-on").with("stop", stop.value.text()));
    }
    let within = hold.true_within.as_ref().map(|within| Fact::mm(within.value.number()));
    match within {
        Some(within) => set_up.hold.push(Words::of("true-within").with("within", within)),
        None => set_up.hold.push(Words::of("true-as-it-will-go")),
    }
}

fn before(ground: &Ground, metal: &Metal, set_up: &mut SetUp) {
    if ground.asked.off_centre.is_some_and(|off| off.value.number() > 0.0) {
        set_up.step("counterweight");
    }
    if ground.asked.hold.is_some_and(super::grip::asks_for_test) {
        set_up.step("try-the-grip");
    }
    set_up.step("turn-by-hand").step("lock-carriage").step("touch-unworn");
    if metal.test_hardness {
        set_up.step("test-hardness");
    }
}

/// Inward if nobody says: the tool meets the whole metal first and backs off into the bore.
fn direction(ground: &Ground, answer: &mut Answer) -> &'static str {
    match ground.asked.feed_direction.map(|direction| direction.value) {
        Some(FeedDirection::Outward) => "cut-outward",
        Some(FeedDirection::Inward) => "cut-inward",
        None => {
            answer.assume_words(Words::of("feed-direction"));
            "cut-inward"
        }
    }
}

/// The cut with the dial of every pass, counted from the touch; spring passes at the last reading again.
fn cut(ground: &Ground, cutting: &Cutting, answer: &Answer) -> Result<Cut, Refusal> {
    let division = ground.dial.division.number();
    let count = cutting.cuts.divisions.len();
    let mut passes = Vec::new();
    let mut reached = 0;
    for (at, divisions) in cutting.cuts.divisions.iter().enumerate() {
        reached += divisions;
        let kind = if at + 2 < count { PassKind::Rough } else { PassKind::Finish };
        passes.push(pass(ground, kind, f64::from(*divisions) * division, f64::from(reached) * division)?);
    }
    for _ in 0..cutting.cuts.spring {
        passes.push(pass(ground, PassKind::Spring, 0.0, f64::from(reached) * division)?);
    }
    let minutes = answer.value(super::TIME.key).map_or(0.0, |time| time.number);
    Ok(Cut {
        tool: cutting.edge.name.clone(),
        spindle: Some(cutting.speed.step.number()),
        feed: Some(cutting.feed.step.number()).filter(|_| !cutting.feed.by_hand),
        passes,
        minutes,
    })
}

fn pass(ground: &Ground, kind: PassKind, depth: f64, reached: f64) -> Result<Pass, Refusal> {
    let dial = ground.dial.reads(reached, ground.print)?;
    Ok(Pass { kind, depth, dial })
}

fn blanks(answer: &Answer) -> Vec<Blank> {
    let said = |key: &str| answer.value(key).map(Value::fact);
    let line = |id: &'static str, found: Option<&str>, target: &str| {
        let target = said(target)?;
        Some(Blank { words: Words::of(id), as_found: found.and_then(said), target: Some(target) })
    };
    [
        line("length-left", Some("length"), super::LENGTH_AFTER.key),
        line("finish-left", None, super::FINISH.key),
        line("relief-left", None, super::RELIEF_LEFT.key),
        line("float-left", None, super::FLOAT_AFTER.key),
    ]
    .into_iter()
    .flatten()
    .collect()
}
