//! What an operation makes of a size of its part, and whether a size that was read may be that.

use crate::handbook::constants::row;
use crate::operations::{Answer, Declared, OfPart, PartSize, Station, Target, Value};
use crate::plan::order::Task;
use crate::proof::Fact;

/// The bore within what is turned.
const WITHIN: &str = "inside";

/// The bore of a bush before it is pressed in.
pub(super) const CAME: &str = "bush_bore";

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
    /// The outside of the part about it, where that is known.
    pub around: Option<&'a Value>,
    /// The hole that a wall was found about.
    pub hole: Option<&'a Value>,
    /// The bore within an outside.
    pub within: Option<&'a Value>,
    /// The bore of a bush as it was before it is pressed in.
    pub came: Option<&'a Value>,
    /// Whether it is made on a drilling machine, where holes go down from its faces.
    pub is_milled: bool,
    /// Whether it only comes to light: how large it is nobody knows before it is measured.
    pub opens: bool,
}

/// What an operation makes.
pub(in crate::plan) fn made_by<'a>(task: &Task, answer: &'a Answer) -> Vec<Made<'a>> {
    let declared = task.request.declared();
    let is_milled = answer.set_ups.iter().any(|set_up| set_up.station == Station::Drilling);
    let made = declared.iter().filter_map(|name| match name.part? {
        OfPart::Leaves(size) => {
            // What was gone before is beside what goes now, and not what that is cut from.
            let found = found(&declared, answer, size).filter(|_| size != PartSize::Gone);
            let around = self::found(&declared, answer, PartSize::Around).filter(|_| size == PartSize::Inside);
            let hole = self::found(&declared, answer, PartSize::Inside).filter(|_| size == PartSize::Wall);
            let within = answer.value(WITHIN).filter(|_| size == PartSize::Outside);
            let came = answer.value(CAME).filter(|_| size == PartSize::Bushed);
            Some(Made {
                size,
                found,
                left: answer.value(name.key)?,
                around,
                hole,
                within,
                came,
                is_milled,
                opens: false,
            })
        }
        OfPart::Opens(size) => {
            let left = answer.value(name.key)?;
            Some(Made {
                size,
                found: None,
                left,
                around: None,
                hole: None,
                within: None,
                came: None,
                is_milled,
                opens: true,
            })
        }
        OfPart::Found(_) | OfPart::Passing(_) | OfPart::Form(_) | OfPart::Comes => None,
    });
    made.collect()
}

/// A size of the part as an operation found it.
fn found<'a>(declared: &[&Declared], answer: &'a Answer, size: PartSize) -> Option<&'a Value> {
    let mut as_found = declared.iter().filter(|name| name.part == Some(OfPart::Found(size)));
    as_found.find_map(|name| answer.value(name.key))
}

/// Whether the log may tell of an operation at all.
pub(in crate::plan) fn may_be_logged(task: &Task, answer: &Answer) -> bool {
    task.request.declared().iter().any(|name| name.left.is_some() && answer.value(name.key).is_some())
}

/// What the sheet of an operation asks a size to be left as: between which two limits.
pub(super) fn asked_of(answer: &Answer, left: &Value) -> Option<(f64, f64)> {
    let blanks = answer.set_ups.iter().flat_map(|set_up| &set_up.blanks);
    let mut of_it = blanks.filter(|blank| blank.log.is_some_and(|line| line.key == left.key));
    let number = |fact: &Fact| match fact {
        Fact::Figure { number, unit, .. } if *unit == left.unit => Some(*number),
        _ => None,
    };
    of_it.find_map(|blank| match blank.target.as_ref()? {
        Target::Between(least, most) => number(least).zip(number(most)),
        Target::Aim(Fact::Figure { number, doubt: Some(doubt), unit, .. }) if *unit == left.unit => {
            Some((number - doubt, number + doubt))
        }
        Target::Aim(_) | Target::UpTo(_) => None,
    })
}

/// Whether two readings may be of one size.
pub(in crate::plan) fn agree(one: &Value, other: &Value) -> bool {
    let ((low, high), (least, most)) = (reach(one), reach(other));
    low <= most + DUST && least <= high + DUST
}

/// A row of the table; nothing where it is not there.
pub(super) fn share(name: &'static str) -> f64 {
    row(name).map_or(0.0, |row| row.value)
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
        let of_face = matches!(size, PartSize::Wall | PartSize::Squish | PartSize::Around);
        let of_outside = matches!(size, PartSize::Around | PartSize::Edge);
        (self.size == PartSize::Faces && (of_face || size == PartSize::Edge))
            || (self.size == PartSize::Outside && (of_outside || size == PartSize::Wall))
            || (self.size == PartSize::Inside && matches!(size, PartSize::Wall | PartSize::Edge))
            || (self.size == PartSize::Wall && size == PartSize::Faces)
    }

    /// How much is taken from one side.
    pub(in crate::plan) fn takes_of_a_side(&self) -> f64 {
        let is_across = matches!(self.size, PartSize::Outside | PartSize::Inside);
        if is_across { self.takes() / 2.0 } else { self.takes() }
    }

    /// Whether a wall may be the one between a bore that is opened and the outside about it: as thick as that was found. Where nobody
    /// has the outside it may be.
    pub(in crate::plan) fn may_stand_about(&self, wall: &Value) -> bool {
        let Some(found) = self.found.filter(|found| found.unit == wall.unit) else { return false };
        self.around.is_none_or(|around| {
            let (metal, doubt) = (around.number - found.number, around.plus_minus + found.plus_minus);
            (wall.number - metal / 2.0).abs() <= wall.plus_minus + doubt / 2.0 + DUST
        })
    }

    /// Whether a wall is that of the tube which was found: half of what its outside is over its bore.
    pub(in crate::plan) fn was_the_wall(&self, wall: &Value) -> bool {
        let tube = self.found.zip(self.within).filter(|(_, within)| within.number > DUST);
        tube.is_some_and(|(outside, within)| {
            let (metal, doubt) = (outside.number - within.number, outside.plus_minus + within.plus_minus);
            (wall.number - metal / 2.0).abs() <= wall.plus_minus + doubt / 2.0 + DUST
        })
    }

    /// Whether what is taken from one side is lost in the doubt with which a size was read.
    pub(in crate::plan) fn is_lost_in(&self, value: &Value) -> bool {
        self.takes_of_a_side() <= share("typed-as-left") * value.plus_minus
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

    /// Whether a size lies between what the work found and what it leaves, within the doubt of both readings.
    pub(in crate::plan) fn lies_between(&self, value: &Value) -> bool {
        let Some(found) = self.found.or(self.came).filter(|found| found.unit == value.unit) else { return false };
        let (low, high) = (found.number.min(self.left.number), found.number.max(self.left.number));
        let near = value.plus_minus + found.plus_minus;
        (low - near..=high + near).contains(&value.number)
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
        let share = share("typed-as-left");
        match (self.left.band, self.found) {
            (Some(_), _) => 0.0,
            (None, Some(found)) if value.plus_minus <= DUST => share * (found.number - self.left.number).abs(),
            _ => share * value.plus_minus,
        }
    }
}
