//! The depth stop of the quill: what it is worth, and what wall and stop together lack.

use crate::handbook::constants::constant;
use crate::handbook::threads::insert;
use crate::operations::kit::mm_as_typed;
use crate::operations::{Answer, Bench, SetUp};
use crate::proof::{Cause, Counted, Dialled, DividedIn, Fact, Mark, Refusal, Source, Words, Worked};
use crate::quantity::{Decimals, Mm, Quantity, Rounds};
use crate::shop::{Axis, Cutting, Machine};

/// The doubt of the depth stop, mm: the machine's, else the shop's habit, else the table's, assumed.
pub(in crate::operations) fn depth_stop(
    bench: &Bench,
    machine: Option<&Machine>,
    answer: &mut Answer,
) -> Result<f64, Refusal> {
    let of_machine = machine.and_then(|m| m.drills()).and_then(|m| m.depth_stop.as_ref());
    let typed = of_machine.map(|stop| stop.plus_minus.unwrap_or(stop.value.value.number()));
    match typed.or_else(|| bench.shop.and_then(|shop| shop.habits.depth_stop())) {
        Some(typed) => Ok(typed),
        None => {
            let usual = constant::<Mm>("depth-stop-doubt")?.number();
            answer.assume_words(Words::of("depth-stop").with("value", mm_as_typed(usual).plus_minus()));
            Ok(usual)
        }
    }
}

/// The dial of a quill.
#[derive(Clone, Copy, Debug)]
pub(in crate::operations) struct QuillDial {
    /// Its division, mm; as fine as a stop is set, where the machine has no dial that sets one.
    pub division: f64,
    /// Whether the machine has one that sets it.
    is_there: bool,
    /// Whether its lines lie too far apart to set a depth.
    is_coarse: bool,
}

impl QuillDial {
    /// Says at the machine how the stop is set where the quill's own lines do not.
    pub(in crate::operations) fn told(self, set_up: &mut SetUp) {
        if self.is_coarse {
            set_up.hold.push(Words::of("stop-by-a-block").into());
        }
    }

    /// The stop set so far: where there is no dial in the unit that the shop prints.
    pub(in crate::operations) fn set(self, travel: f64) -> Dialled {
        let counted = Counted::of("stop", travel, self.division, None);
        Dialled::Stop(if self.is_there { counted } else { Counted { divided_in: DividedIn::Either, ..counted } })
    }
}

/// The quill's dial. One whose lines lie further apart than a stop is sure sets no depth: down to a whole line of it the hole would be short by
/// that, and the stop is set by measure.
pub(in crate::operations) fn quill_dial(machine: Option<&Machine>) -> Result<QuillDial, Refusal> {
    let quill = machine.and_then(Machine::drills).and_then(|machine| machine.dial(Axis::Quill));
    let unknown = constant::<Mm>("quill-division-unknown")?.number();
    let coarse = constant::<Mm>("depth-stop-doubt")?.number();
    let division = quill.map(|dial| dial.division.value.number());
    let sets = division.filter(|division| *division <= coarse);
    let is_coarse = division.is_some() && sets.is_none();
    Ok(QuillDial { division: sets.unwrap_or(unknown), is_there: sets.is_some(), is_coarse })
}

/// The axis along which the table is moved back from a touch beside the hole: one with a dial, where it is told.
pub(in crate::operations) fn table_axis(machine: &Machine) -> Option<Axis> {
    let cutting = machine.drills()?;
    [Axis::TableLong, Axis::TableCross].into_iter().find(|axis| cutting.dial(*axis).is_some())
}

/// Whether the table comes back by a dial from a touch beside the hole: by one that is told, and that of a mill whose plate lists any dial.
pub(in crate::operations) fn comes_back(machine: &Machine) -> bool {
    let dialled = |cutting: &Cutting| matches!(machine, Machine::Mill(_)) && !cutting.dials.is_empty();
    table_axis(machine).is_some() || machine.drills().is_some_and(dialled)
}

/// A travel of the stop down to whole divisions: never deeper than was worked.
pub(in crate::operations) fn stop_set(travel: &Worked<Mm>, division: f64) -> Fact {
    let divisions = (travel.number() / division + 1e-9).floor();
    Fact::mm(divisions * division).to(Decimals::Exactly(2)).rounded(Rounds::Down)
}

/// What the wall, the stop and where it was set to zero lack in surety together, by the guard factor, as a figure of its own.
pub(in crate::operations) fn lacking(
    wall: &Worked<Mm>,
    reached: Worked<Mm>,
    stop: f64,
    guard: f64,
) -> Result<Worked<Mm>, Refusal> {
    let left = insert::metal_left(wall, &reached.with_doubt(Cause::Set("depth stop"), stop))?;
    let lines = vec!["root of the sum of squares of wall, stop and zero".into()];
    let (doubt, source) = (Mm::new(left.plus_minus() * guard / 2.0), Source::fixed("GUM", Mark::FromMemory));
    Ok(Worked::method_of(doubt, lines, source, [left.origin()]))
}
