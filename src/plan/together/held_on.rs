//! The diameter on which a part is held, where other operations of the part make it or cut it away: a mandrel goes into the bore that is made
//! to its size, jaws stand on the journal as it was found. For the day, which may put operations in another order than the file has.

use super::made::{Made, made_by};
use super::other_name::makers_of;
use super::taken::cut_behind;
use crate::handbook::constants::row;
use crate::job::Address;
use crate::operations::{Answer, PartSize};
use crate::plan::log::Logged;
use crate::plan::order::Task;
use crate::quantity::Quantity;

/// Under this two diameters are one, mm.
const DUST: f64 = 1e-9;

/// What the file has beside an operation that its grip, and what it was judged by, hang on.
#[derive(Clone, Debug, Default)]
pub(in crate::plan) struct HeldOn {
    /// Operations before it that make the diameter on which it is held.
    pub made_by: Vec<Address>,
    /// Operations behind it that cut that diameter away.
    pub cut_by: Vec<Address>,
    /// Operations that make a size which it goes by, whatever their place is called.
    pub sized_by: Vec<Address>,
    /// Operations behind it that take from a size which it goes by, and that nothing is said of.
    pub sizes_cut_by: Vec<Address>,
}

/// What a cut does to a diameter.
enum Does {
    Makes,
    CutsAway,
}

/// Finds it for each operation of a group. They come in the order of the files.
pub(in crate::plan) fn held_on(worked: &[(usize, &Task, Answer)], log: &Logged) -> Vec<HeldOn> {
    if worked.len() < 2 {
        return vec![HeldOn::default(); worked.len()];
    }
    let behind = cut_behind(worked, log);
    let own = (0..).zip(worked).zip(behind);
    own.map(|((at, own), sizes_cut_by)| HeldOn { sizes_cut_by, ..of(at, own, worked) }).collect()
}

fn of(at: usize, (_, own, _): &(usize, &Task, Answer), all: &[(usize, &Task, Answer)]) -> HeldOn {
    let mut held = HeldOn { sized_by: makers_of(at, all), ..HeldOn::default() };
    let Some(hold) = own.request.operation().gripped() else { return held };
    let Some(gripped) = hold.diameter.as_ref().map(|at| at.value.number()) else { return held };
    let size = if hold.fills_the_bore() { PartSize::Inside } else { PartSize::Outside };
    for (other, (_, by, cut)) in all.iter().enumerate() {
        if other == at || by.part.name != own.part.name {
            continue;
        }
        let mut of_size = made_by(by, cut).into_iter().filter(|made| made.size == size && !made.opens);
        match of_size.find_map(|made| does(&made, gripped)) {
            Some(Does::Makes) if other < at => held.made_by.push(by.address.clone()),
            Some(Does::CutsAway) if other > at => held.cut_by.push(by.address.clone()),
            _ => {}
        }
    }
    held
}

/// Whether a cut makes the diameter that is gripped.
pub(super) fn makes_it(made: &Made, gripped: f64) -> bool {
    !made.opens && matches!(does(made, gripped), Some(Does::Makes))
}

/// What a cut does to the diameter that is gripped, by which of its two sizes that is nearer to; nothing where it is neither.
fn does(made: &Made, gripped: f64) -> Option<Does> {
    // What is gripped is typed as it is called.
    let near = row("fit-size-near").map_or(0.0, |row| row.value);
    let (low, high) = made.ends();
    let off_left = (low - gripped).max(gripped - high).max(0.0);
    let Some(found) = made.found else { return (off_left <= near).then_some(Does::Makes) };
    if made.takes_nothing() {
        return None;
    }
    let off_found = ((gripped - found.number).abs() - found.plus_minus).max(0.0);
    if off_left + DUST < off_found {
        return (off_left <= near).then_some(Does::Makes);
    }
    (off_found + DUST < off_left && off_found <= near).then_some(Does::CutsAway)
}
