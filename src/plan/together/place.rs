//! Whether two operations of one part work at one place of it, as far as a size goes: by the features that they name, else by how near the
//! sizes lie to each other.

use super::made::{CAME, Made, agree, share};
use crate::operations::{Closes, OfPart, PartSize, Value};
use crate::plan::order::Task;

/// How surely a size is the one that another operation makes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::plan) enum Here {
    /// Both name one feature, and no other size of it is meant.
    Surely,
    /// It may be another.
    Perhaps,
}

/// Whether one of two operations goes on from what the other leaves: it takes a size from it, and not one as that found it.
pub(in crate::plan) fn goes_on_from(one: &Task, other: &Task) -> bool {
    let mut named = one.named.addresses.iter().filter(|at| at.value.owner() == other.address);
    named.any(|at| at.value.value.as_deref().is_none_or(|key| !is_as_found(other, key)))
}

/// Whether a value of an operation is a size as it was found; the bore of a bush before it is in is.
fn is_as_found(task: &Task, key: &str) -> bool {
    let is_found = |part| key == CAME || matches!(part, Some(OfPart::Found(_)));
    task.request.declared().iter().any(|name| name.key == key && is_found(name.part))
}

/// Whether the features that both name are one; none where one of them names none.
pub(in crate::plan) fn one_feature(own: &Task, by: &Task) -> Option<bool> {
    let (own, by) = (own.request.set_up()?.feature.as_ref()?, by.request.set_up()?.feature.as_ref()?);
    Some(own.value == by.value)
}

/// Whether such a size is one that such work makes.
pub(super) const fn is_of_kind(size: PartSize, made: PartSize) -> bool {
    use PartSize::{
        Around, Bar, Bushed, ClearanceVolume, Depth, Edge, Faces, Gone, Inside, Map, Outside, Reached, Seat, SetDown,
        Squish, Wall,
    };
    match size {
        Wall => matches!(made, Faces | Wall | Inside | Outside),
        Squish => matches!(made, Faces | Squish),
        Inside => matches!(made, Inside | Bushed | Seat),
        Seat => matches!(made, Inside | Seat | Bushed),
        Faces => matches!(made, Faces | Wall),
        Outside => matches!(made, Outside),
        Bar => matches!(made, Bar | Faces),
        Around => matches!(made, Outside | Faces),
        Edge => matches!(made, Outside | Faces | Inside),
        Depth => matches!(made, Depth | Faces | Wall | Outside),
        Reached => matches!(made, Depth),
        Gone => matches!(made, Gone),
        SetDown => matches!(made, SetDown | Faces),
        Map => matches!(made, Faces | Gone),
        ClearanceVolume => matches!(made, ClearanceVolume),
        // How true it runs is held against its truing; nobody finds a bushed bore otherwise than as a bore.
        PartSize::RunOut | Bushed => false,
    }
}

/// Whether a size that one operation found is the one that another makes, and how surely; none where it is another size. A feature says
/// where somebody works, not what is measured there: a wall, a thickness or an outside that was read as the very size that the cut
/// found is that size, whatever the features are called.
pub(in crate::plan) fn here(
    (own, found): (&Task, &[(PartSize, &Value)]),
    (by, all): (&Task, &[Made]),
    (size, value, made): (PartSize, &Value, &Made),
) -> Option<Here> {
    if !is_of_kind(size, made.size) {
        return None;
    }
    if made.size == PartSize::Depth {
        // A hole is known by how wide it is.
        let holes = found.iter().filter(|(size, _)| *size == PartSize::Inside);
        let mut wide = holes.flat_map(|(size, value)| all.iter().map(move |made| (*size, *value, made)));
        return wide.find_map(|wide| here((own, found), (by, all), wide));
    }
    let named = one_feature(own, by);
    let (is_apart, is_one) = (named == Some(false), named == Some(true));
    let was_that = || made.found.is_some_and(|found| agree(value, found));
    let perhaps = match (size, made.size) {
        // A hole has another name than the face or the round that it is cut in, and is as much less deep, whatever the two are called.
        (PartSize::Depth, PartSize::Faces) => true,
        (PartSize::Depth, PartSize::Outside) => made.found.is_some() && !made.is_lost_in(value),
        // What is cut off a face is off the room over the piston, which is no size of the face: by any name, but where somebody says that
        // it closes something else. And it is off the set-down of every insert in that face, whatever that is called.
        (PartSize::Squish, PartSize::Faces) => !closes_elsewhere(by),
        (PartSize::SetDown, PartSize::Faces) => true,
        (PartSize::Map, PartSize::Faces) => !is_apart,
        // Two maps are of two faces, where nobody says otherwise.
        (PartSize::Map, _) => is_one || (!is_apart && own.request.word() != by.request.word() && is_on_a_face(all)),
        // What a seat is sunk into its hole is no deeper: a seat has another name than its hole.
        (PartSize::Depth, PartSize::Wall) => is_one || is_sunk_about_a_hole(found, made),
        // Both joints of a cylinder, whatever they are called.
        (PartSize::Squish | PartSize::ClearanceVolume, _) => made.lies_between(value),
        // Pieces of one bar have each their name, and a part is as long from whichever end it is cut.
        (PartSize::Bar, _) => made.lies_between(value),
        // Which edge is the nearest nobody says: what takes a good share of it may be that. A hole has another name than the bore, the
        // side or the round beside it, and that is an edge to it all the same.
        (PartSize::Edge, PartSize::Inside) => !is_one && takes_much(value, made),
        (PartSize::Edge, _) => takes_much(value, made),
        // A wall between the outside and a bore that is opened behind it, whatever the two are called.
        (PartSize::Wall, PartSize::Inside) => {
            made.may_stand_about(value) && !made.is_lost_in(value) && (made.around.is_some() || takes_much(value, made))
        }
        // Of one surface: one feature, the very diameter that the other leaves, or a face of the part where nobody says which.
        (PartSize::Gone, _) => is_one || (!is_apart && (goes_on_there(found, all) || both_on_faces(found, all))),
        // The face that is lapped holds every insert of the part.
        (PartSize::SetDown, _) => true,
        // Two seats sunk into walls of one thickness are two walls; a hole under a seat has the wall of that.
        (PartSize::Wall, PartSize::Wall) => {
            let alike = own.address.operation == by.address.operation || own.request.word() == by.request.word();
            let is_there = !is_apart || is_sunk_about_a_hole(found, made);
            // Of one place the two readings are of one wall, whatever they say.
            is_one || (is_there && !alike && made.lies_between(value))
        }
        // A seat that is sunk about the bore of a joint shortens it: a thickness elsewhere stands as it was.
        (PartSize::Faces, PartSize::Wall) => is_sunk_about_a_seat(found, made),
        // A boss that is milled on its side was as thick as it was wide.
        (PartSize::Around, PartSize::Faces) => {
            if is_apart {
                was_that()
            } else {
                made.lies_between(value)
            }
        }
        // A hole is drilled from a face that is milled: what is cut off that is off the metal under it, unless it is lost in the reading of
        // that. Whoever names both the face and the hole says which face it is.
        (PartSize::Wall, PartSize::Faces) if made.is_milled && !is_apart => {
            is_one || made.lies_between(value) || !made.is_lost_in(value)
        }
        // Across a diameter that is turned, the metal is as thick as that was found; of a tube, as its wall.
        (PartSize::Wall, PartSize::Outside) => was_that() || made.was_the_wall(value),
        (PartSize::Wall | PartSize::Around, _) if is_apart => was_that(),
        (PartSize::Wall, _) => is_one || made.lies_between(value),
        // Two faces of one length are two features of it.
        (PartSize::Faces, _) if is_apart => made.lies_between(value) || (made.found.is_none() && is_near(value, made)),
        // A bore that was read as a bush leaves it, or as that bush came, is that of the bush.
        (PartSize::Inside | PartSize::Seat, PartSize::Bushed) if is_apart => {
            agree(value, made.left) || made.lies_between(value)
        }
        // Into the bore of a sleeve goes a bush that was made for it: a seat is no bush that is merely about as wide.
        (PartSize::Seat, PartSize::Bushed) if !is_one => made.lies_between(value) || is_close(value, made),
        _ if is_apart => false,
        _ if is_one => return by_name(value, made),
        _ => made.lies_between(value) || ((is_bore(made.size) || made.found.is_none()) && is_near(value, made)),
    };
    perhaps.then_some(Here::Perhaps)
}

/// Whether a face is said to close no room over a piston.
fn closes_elsewhere(by: &Task) -> bool {
    let closes = by.request.set_up().and_then(|wish| wish.closes.as_ref());
    closes.is_some_and(|at| at.value != Closes::RoomOverPiston)
}

/// Whether a seat was sunk about a hole that is as wide as the one that is meant.
pub(super) fn is_sunk_about_a_hole(found: &[(PartSize, &Value)], made: &Made) -> bool {
    let mut holes = found.iter().filter(|(size, _)| *size == PartSize::Inside);
    holes.any(|(_, own)| made.hole.is_some_and(|hole| agree(own, hole)))
}

/// Whether a seat was sunk about the bore that something is pressed into.
fn is_sunk_about_a_seat(found: &[(PartSize, &Value)], made: &Made) -> bool {
    let mut seats = found.iter().filter(|(size, _)| *size == PartSize::Seat);
    seats.any(|(_, own)| made.hole.is_some_and(|hole| agree(own, hole)))
}

/// Whether a size lies so close to what is left that it is no other.
fn is_close(value: &Value, made: &Made) -> bool {
    let (low, high) = made.ends();
    let off = (low - value.number).max(value.number - high) - value.plus_minus;
    value.unit == made.left.unit && off <= share("fit-size-near")
}

/// Whether a cut takes so much from a side that an edge as near is another then.
fn takes_much(edge: &Value, made: &Made) -> bool {
    made.takes_of_a_side() > share("edge-share-cut") * edge.number
}

/// Whether one found a diameter that the other leaves.
fn goes_on_there(found: &[(PartSize, &Value)], all: &[Made]) -> bool {
    let is_diameter = |size: PartSize| matches!(size, PartSize::Outside | PartSize::Inside);
    let diameters = found.iter().filter(|(size, _)| is_diameter(*size));
    diameters.into_iter().any(|(size, value)| all.iter().any(|made| made.size == *size && agree(value, made.left)))
}

/// Whether both work a face: neither goes by a diameter.
fn both_on_faces(found: &[(PartSize, &Value)], all: &[Made]) -> bool {
    !found.iter().any(|(size, _)| is_round(*size)) && is_on_a_face(all)
}

/// Whether what an operation makes is a face.
pub(in crate::plan) fn is_on_a_face(made: &[Made]) -> bool {
    !made.iter().any(|made| is_round(made.size))
}

/// Whether a size goes round.
const fn is_round(size: PartSize) -> bool {
    matches!(size, PartSize::Outside) || is_bore(size)
}

/// Whether a size is one of which a part has many, alike.
const fn is_bore(size: PartSize) -> bool {
    matches!(size, PartSize::Inside | PartSize::Seat | PartSize::Bushed)
}

/// How far a size lies outside what may be left, as a share of the smaller of the two; its doubt is not counted.
fn off(value: &Value, made: &Made) -> Option<f64> {
    let (low, high) = made.ends();
    let off = (low - value.number).max(value.number - high).max(0.0);
    let smaller = value.number.min(high);
    (value.unit == made.left.unit && smaller > 0.0).then(|| (off - value.plus_minus).max(0.0) / smaller)
}

/// Whether nobody who gives no feature would call them two sizes.
fn is_near(value: &Value, made: &Made) -> bool {
    off(value, made).is_some_and(|off| off <= share("one-size-unnamed"))
}

/// Of one feature: an oil hole in a bore and a step on a shaft are other sizes of it.
fn by_name(value: &Value, made: &Made) -> Option<Here> {
    let off = off(value, made)?;
    match off {
        _ if off <= share("one-size-named") => Some(Here::Surely),
        _ if off <= share("another-size-named") => Some(Here::Perhaps),
        _ => None,
    }
}
