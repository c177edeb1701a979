//! What an operation makes of a size of its part, and whether a size that was read may be that.

use crate::handbook::constants::row;
use crate::operations::{Answer, OfPart, PartSize, Value};
use crate::plan::order::Task;

/// Under this two sizes are one: binary fractions leave dust.
const DUST: f64 = 1e-9;

/// A size as the work of an operation leaves it.
pub(in crate::plan) struct Made<'a> {
    /// Which size.
    pub size: PartSize,
    /// As it was found, where it was there before.
    pub found: Option<&'a Value>,
    /// As it is left, or about so large.
    pub left: &'a Value,
    /// Whether it only comes to light: how large it is nobody knows before it is measured.
    pub opens: bool,
}

/// What an operation makes.
pub(in crate::plan) fn made_by<'a>(task: &Task, answer: &'a Answer) -> Vec<Made<'a>> {
    let declared = task.request.declared();
    let found = |size: PartSize| {
        let mut as_found = declared.iter().filter(|name| name.part == Some(OfPart::Found(size)));
        as_found.find_map(|name| answer.value(name.key))
    };
    let made = declared.iter().filter_map(|name| match name.part? {
        OfPart::Leaves(size) => {
            // What was gone before is beside what goes now, and not what that is cut from.
            let found = found(size).filter(|_| size != PartSize::Gone);
            Some(Made { size, found, left: answer.value(name.key)?, opens: false })
        }
        OfPart::Opens(size) => Some(Made { size, found: None, left: answer.value(name.key)?, opens: true }),
        OfPart::Found(_) => None,
    });
    made.collect()
}

/// Whether the log may tell of an operation at all.
pub(in crate::plan) fn may_be_logged(task: &Task, answer: &Answer) -> bool {
    task.request.declared().iter().any(|name| name.left.is_some() && answer.value(name.key).is_some())
}

/// Whether two readings may be of one size.
pub(in crate::plan) fn agree(one: &Value, other: &Value) -> bool {
    let ((low, high), (least, most)) = (reach(one), reach(other));
    low <= most + DUST && least <= high + DUST
}

/// From where to where a value may lie: its band, and its doubt about that.
fn reach(value: &Value) -> (f64, f64) {
    let (low, high) = value.band.unwrap_or((value.number, value.number));
    (low - value.plus_minus, high + value.plus_minus)
}

impl Made<'_> {
    /// Whether the log says how it was left.
    pub(in crate::plan) fn is_as_left(&self) -> bool {
        self.left.origin.entry().is_some()
    }

    /// From where to where it may be left: between its limits, else as far off as it is doubtful.
    pub(in crate::plan) fn ends(&self) -> (f64, f64) {
        self.left.band.unwrap_or_else(|| reach(self.left))
    }

    /// Whether it takes from such a size whichever of the two comes first: walls and the room over a piston are as much as there is in
    /// the end.
    pub(in crate::plan) fn takes_whenever(&self, size: PartSize) -> bool {
        let of_face = matches!(size, PartSize::Wall | PartSize::Squish);
        let of_outside = matches!(size, PartSize::Around | PartSize::Edge);
        (self.size == PartSize::Faces && (of_face || size == PartSize::Edge))
            || (self.size == PartSize::Outside && of_outside)
    }

    /// Whether it comes before whatever goes by it, wherever it stands in the file: a hole before what is done in it, an old bush before
    /// its bore is measured.
    pub(in crate::plan) const fn comes_first(&self) -> bool {
        (self.opens && !matches!(self.size, PartSize::SetDown))
            || (self.found.is_none() && matches!(self.size, PartSize::Inside | PartSize::Depth))
    }

    /// Whether a size is the very reading of the one that was found.
    pub(in crate::plan) fn was_read_as(&self, value: &Value) -> bool {
        self.found.is_some_and(|found| found.unit == value.unit && (found.number - value.number).abs() <= DUST)
    }

    /// Whether a size is the one that was found: read so, or the nominal of what was found worn.
    pub(in crate::plan) fn was(&self, value: &Value) -> bool {
        let Some(found) = self.found.filter(|found| found.unit == value.unit) else { return false };
        let near = row("fit-size-near").map_or(0.0, |row| row.value);
        let is_nominal_of = value.plus_minus <= DUST && (value.number - found.number).abs() <= near + found.plus_minus;
        agree(value, found) || is_nominal_of
    }

    /// How much is taken from what was found; nothing where it was not there.
    pub(in crate::plan) fn takes(&self) -> f64 {
        self.found.map_or(0.0, |found| (found.number - self.left.number).abs())
    }

    /// Whether nothing is cut of what was found.
    pub(in crate::plan) fn takes_nothing(&self) -> bool {
        self.found.is_some_and(|found| (found.number - self.left.number).abs() <= f64::EPSILON * found.number.abs())
    }

    /// Whether a size may be what is left, as far as one can say.
    pub(in crate::plan) fn may_leave(&self, value: &Value) -> bool {
        self.opens || agree(value, self.left)
    }

    /// Whether a size stands as it was read, whatever of its plan the work leaves: it covers all of that. A nominal size covers what it
    /// lies in. Of work that was logged it stands where the two readings agree.
    pub(in crate::plan) fn stands(&self, value: &Value) -> bool {
        if self.is_as_left() {
            return agree(value, self.left);
        }
        if self.opens || value.unit != self.left.unit {
            return false;
        }
        if self.size == PartSize::Gone {
            // As much at the least: more may be gone from before.
            return reach(value).1 + self.slack(value) >= self.ends().0 - DUST;
        }
        let ((low, high), (least, most)) = (reach(value), self.ends());
        let slack = DUST + self.slack(value);
        let is_nominal = high - low <= DUST;
        match is_nominal {
            true => (least - slack..=most + slack).contains(&value.number),
            false => low <= least + slack && most <= high + slack,
        }
    }

    /// How far a size may be off that was typed as it will be left: of limits by nothing, else by a little of its doubt, or of what is cut
    /// where it has none.
    fn slack(&self, value: &Value) -> f64 {
        let share = row("typed-as-left").map_or(0.0, |row| row.value);
        match (self.left.band, self.found) {
            (Some(_), _) => 0.0,
            (None, Some(found)) if value.plus_minus <= DUST => share * (found.number - self.left.number).abs(),
            _ => share * value.plus_minus,
        }
    }
}
