//! What operations of one part say of each other.
//!
//! An operation is worked alone: it knows its own keys, its part and what it names of others by `of`. That a drill opens the very hole
//! whose size a tap was given, that a face is cut whose thickness a thread insert counts on, that an oven warms a joint which was judged
//! as if it stayed cool: none of them can see it. Here all operations of a part stand side by side, with the answers that they gave, and
//! what one of them contradicts in another becomes a check of that other. Nothing here makes a figure; a verdict can only become worse.
//!
//! Before anything is worked:
//! - [`parts`]: what several jobs say of one part is one, or refused.
//! - [`stale`]: a size that was read before the log tells of a cut to it.
//! - [`by_place`]: an entry of the log that knows its operation by its place in the file alone.
//!
//! Once those of a group (operations that need each other or share a part) are worked, by [`check`]:
//! - [`rules`]: the order in which they stand in the file, against the rules of order; [`scope`] says which two a rule binds.
//! - [`taken`]: a size that one found and another makes, opens, uncovers or cuts ([`made`]), at one place of the part ([`place`]).
//! - [`other_name`]: a size that is typed as a cut leaves it which stands behind, at a place of another name.
//! - [`sound`]: a hole that one makes where another says that there is none.
//! - [`trued`]: a cut that asks to run truer than its truing left the part.
//! - [`pairs`]: halves that are cut alike or not at all.
//! - [`joints`] and [`made_room`]: ovens that warm a joint again, or not as far as another counts on; a joint that runs warmer.
//! - [`behind`]: work that by the log was done on an earlier day than what it goes by, or than what a rule has before it.
//! - [`aired`]: what goes into an oven wet with what burns.
//! - [`heated_with`]: a bearing that was fitted before an oven beside which nothing is said to sit.
//! - [`twice`]: a feature that is given a second bush, or a second insert.
//! - [`contents`]: what was pressed into a part that goes into a bath.
//! - [`gripped`]: a diameter that was turned off and is gripped all the same.
//! - [`nowhere`]: a diameter that is gripped and that no operation of the part finds, makes or was held on.
//! - [`in_bush`]: a bore that is cut in a bush, worked for another metal.
//! - [`further`]: a cut, or a grip, that goes further along than the one that made the diameter it begins at.
//! - [`hollow`]: a part that was taken as solid, or narrower, and was bored before.
//! - [`tubes`]: a bore of one operation and an outside of another, with too thin a wall between them.
//! - [`pieces`]: a length that no piece of a bar has.
//! - [`parted`]: a bar that is parted off where it was turned thinner.
//! - [`least`]: a part that is left thinner than an earlier cut was asked to leave it.
//! - [`unfinished`]: a size that is handed on of work which the log calls not finished, or of which its reading is doubtful, or as it was
//!   before that work cut it.
//! - [`half`]: work of which the log has a size, and not the one that it is done for.
//! - [`flat`]: a face that was made flat, and is moved behind that.
//! - [`forms`]: how a surface lay or looked, read before another cut of it.
//! - [`ways`]: metal that is counted in a gap the wrong way.
//! - [`outsides`]: a wall about one bore, thick for one operation and thin for another.
//! - [`refused`]: a size that work takes from which could not be worked.
//! - [`sunk`]: inserts of the job, or a bush that stands out, in a face that is lapped without counting them.
//! - [`drilled`]: a hole that is drilled from the solid where one is already.
//! - [`burred`]: a hole that is drilled into a bore behind the work that finished it.
//!
//! For the day:
//! - [`held_on`]: operations that make, or cut away, the diameter on which another is held, or a size that it goes by.
//!
//! Over all groups:
//! - [`drawers`], which hand out what lies in a drawer once.
//! - [`links`]: sizes that are read of a part of another group, which that cuts.
//! - [`given_up`]: what was set true and by the log gave its place in the machine to other work.
//! - [`clean`]: what asks for a clean part behind work that leaves chips in it.
//! - [`readied`]: what a joint needs warm or cold, and nothing makes so.
//!
//! Who is meant is found by what operations declare of their values (`found`, `leaves`) and leave behind, never by their names: an
//! operation that is added takes part without a line here.

mod aired;
mod behind;
mod burred;
pub(super) mod by_place;
pub(super) mod clean;
mod contents;
mod days;
pub(super) mod drawers;
mod drilled;
mod flat;
mod forms;
mod further;
pub(super) mod given_up;
mod gripped;
pub(super) mod half;
pub(super) mod heated_with;
pub(super) mod held_on;
mod hollow;
mod in_bush;
mod joints;
mod least;
pub(super) mod links;
mod made;
mod made_room;
mod nowhere;
mod other_name;
mod outsides;
mod pairs;
mod parted;
pub(super) mod parts;
mod pieces;
mod place;
pub(super) mod readied;
mod refused;
mod rules;
pub(super) mod scope;
mod sound;
pub(super) mod stale;
mod sunk;
mod taken;
mod trued;
mod tubes;
mod twice;
mod unfinished;
mod ways;

use super::log::Logged;
use super::order::Task;
use crate::operations::Answer;

/// Holds the operations of a group against each other. They come in the order of the files, those of one part together.
pub(super) fn check(worked: &mut [(usize, &Task, Answer)], log: &Logged) {
    rules::check(worked, log);
    behind::check(worked, log);
    taken::check(worked, log);
    other_name::check(worked, log);
    flat::check(worked, log);
    forms::check(worked, log);
    sound::check(worked);
    trued::check(worked);
    twice::check(worked);
    pairs::check(worked, &log.cuts);
    joints::check(worked);
    made_room::check(worked, log);
    aired::check(worked);
    heated_with::check(worked);
    contents::check(worked);
    in_bush::check(worked);
    further::check(worked);
    pieces::check(worked);
    parted::check(worked);
    gripped::check(worked);
    nowhere::check(worked);
    hollow::check(worked);
    tubes::check(worked);
    least::check(worked);
    outsides::check(worked);
    half::check(worked, log);
    unfinished::check(worked, log);
    ways::check(worked);
    refused::check(worked);
    burred::check(worked);
    drilled::check(worked);
    sunk::check(worked);
}
