//! What is handed on of work that is not finished: by the log metal still stands there, or a later set-up of the same work takes the size
//! further, so that the size as it was left is none to go on from. And what is handed on as it was found, which that very work cuts.

use super::behind::MADE_BEFORE;
use super::half;
use super::made::made_by;
use crate::operations::{Answer, DOUBT_PLAUSIBLE, OfPart, PartSize, SetUp, Target, Value};
use crate::plan::log::Logged;
use crate::plan::order::Task;
use crate::proof::{Check, Verdict, Words};
use crate::shop::Gauge;

/// The check of a size that another operation takes metal from.
const STILL_THERE: &str = "size-still-there";
/// The check of what was read of a surface before a cut of it.
const STILL_SO: &str = "form-still-so";

/// The check of a size whose reading, as the log has it, is doubtful.
const AS_READ: &str = "read-as-it-was";

/// The check of a size that nobody measured when the work was done.
const NOT_MEASURED: &str = "size-measured-since";

/// The check of a size that goes on from one of which it is not sure that it will be so.
const NOT_SURE: &str = "goes-on-from-what-is-sure";

/// What makes the size that an operation leaves no surer than what it went by.
const OF_ITS_SIZES: [&str; 8] =
    [STILL_THERE, STILL_SO, "size-there-yet", "log-stale", "log-contradicted", "cleans-up", NOT_MEASURED, NOT_SURE];

/// Holds each operation against those that it names, which come before it in the group: what is said of one is said of all that go on
/// from it.
pub(in crate::plan) fn check(worked: &mut [(usize, &Task, Answer)], log: &Logged) {
    for at in 0..worked.len() {
        let found = worked.get(at).and_then(|(_, task, _)| handed_on(task, worked, log));
        let Some((check, (.., answer))) = found.zip(worked.get_mut(at)) else { continue };
        match check.of_every_set_up {
            true => {
                answer.check(check);
            }
            false => answer.check_of_size(check, ""),
        }
    }
    for (.., answer) in worked.iter_mut().filter(|(.., answer)| answer.is_unfinished()) {
        aims_at_what_was_to_be(answer);
    }
}

/// What else was to come out with a size is worked from that as it stands now: where that is not finished, it is nothing to aim at.
fn aims_at_what_was_to_be(answer: &mut Answer) {
    let open: Vec<&str> = answer.checks.iter().filter_map(|check| check.unfinished).collect();
    let blanks = answer.set_ups.iter_mut().flat_map(|set_up| &mut set_up.blanks);
    let others = blanks.filter(|blank| blank.log.is_none_or(|line| !open.contains(&line.key)));
    for blank in others.filter(|blank| matches!(blank.target, Some(Target::Aim(_)))) {
        blank.target = None;
    }
}

/// What is said of the first address that an operation reads of work which is not finished.
fn handed_on(task: &Task, worked: &[(usize, &Task, Answer)], log: &Logged) -> Option<Check> {
    task.named.addresses.iter().find_map(|at| {
        let owner = at.value.owner();
        let (_, by, answer) = worked.iter().find(|(_, by, _)| by.address == owner)?;
        let handed = answer.value(at.value.value.as_deref()?)?;
        let is_doubted = || log.is_doubted(&owner) || is_misread(answer, handed.key) || was_made_before(answer);
        if handed.origin.entry().is_some() && is_doubted() {
            let check = Check::of_kind(AS_READ, Verdict::Doubtful).with("size", handed.means);
            return Some(check.with("by", owner.to_string()).at(at.place));
        }
        if half::was_not_measured(answer, handed.key) {
            let check = Check::of_kind(NOT_MEASURED, Verdict::Doubtful).of_every_set_up().with("size", handed.means);
            return Some(check.with("by", owner.to_string()).with("key", handed.key).at(at.place));
        }
        if let Some(left) = cut_by_itself((by, answer), handed) {
            return Some(as_found(by, handed, left).at(at.place));
        }
        let further = further((by, answer), handed.key);
        if let Some(left) = further.and_then(|further| further.left) {
            return Some(as_found(by, handed, Some(left)).at(at.place));
        }
        if !answer.is_unfinished() && further.is_none() {
            let check = Check::of_kind(NOT_SURE, Verdict::Doubtful).with("size", handed.means);
            return is_unsure((by, answer), handed).then(|| check.with("by", owner.to_string()).at(at.place));
        }
        let by = by.address.to_string();
        let mut check =
            Check::of_kind(STILL_THERE, Verdict::Doubtful).with("size", handed.means).with("by", by.clone());
        check.remedy(Words::of("finish-it-first").with("by", by));
        Some(check.at(at.place))
    })
}

/// Whether it is not sure that a size will be left so: the work must not be done as it is planned, or goes by a size that is not sure itself.
/// What the log has is judged as it was read; but what fails as it was left is to be another piece, of another size.
fn is_unsure((task, answer): (&Task, &Answer), handed: &Value) -> bool {
    let is_left = handed.origin.entry().is_some();
    let leaves = |part: Option<OfPart>| matches!(part, Some(OfPart::Leaves(_) | OfPart::Opens(_) | OfPart::Comes));
    let is_made = task.request.declared().iter().any(|own| own.key == handed.key && leaves(own.part));
    let is_of_size = |check: &&Check| OF_ITS_SIZES.contains(&check.id);
    let worse = |check: &Check| check.stamps().is_some_and(|verdict| verdict != Verdict::Proven);
    let fails = answer.refused.is_some() || answer.checks.iter().any(|check| check.stamps() == Some(Verdict::Fails));
    is_made && (fails || (!is_left && answer.checks.iter().filter(is_of_size).any(worse)))
}

/// Whether an operation says of a size that it cannot be as the log has it.
fn is_misread(answer: &Answer, key: &str) -> bool {
    let of_it = |check: &&Check| check.id == DOUBT_PLAUSIBLE.id && check.about == Some(key);
    answer.checks.iter().filter(of_it).any(|check| check.verdict() == Some(Verdict::Fails))
}

/// Whether the log has it for a day on which what it goes by was not done.
fn was_made_before(answer: &Answer) -> bool {
    answer.checks.iter().any(|check| check.id == MADE_BEFORE)
}

/// What is said of a size, or of how a surface lay, that is handed on as it was found by the work that cuts it.
fn as_found(by: &Task, handed: &Value, left: Option<&'static str>) -> Check {
    let by = by.address.to_string();
    let (id, of) = if left.is_some() { (STILL_THERE, "size") } else { (STILL_SO, "form") };
    let mut check = Check::of_kind(id, Verdict::Doubtful).with(of, handed.means).with("by", by.clone());
    if let Some(left) = left {
        check.remedy(Words::of("go-on-from-it").with("by", by).with("left", left));
    }
    check
}

/// Whether an operation cuts what it hands on as it was found, with the key of what it leaves of it: nothing of how a surface lay.
fn cut_by_itself((task, answer): (&Task, &Answer), handed: &Value) -> Option<Option<&'static str>> {
    let made = || made_by(task, answer).into_iter().filter(|made| !made.takes_nothing());
    let surfaces: &[PartSize] = match task.request.declared().iter().find(|own| own.key == handed.key)?.part? {
        OfPart::Found(PartSize::Map) => &[PartSize::Faces, PartSize::Gone],
        OfPart::Found(_) => {
            let left = made().find(|made| made.found.is_some_and(|found| found.key == handed.key))?;
            return Some(Some(left.left.key));
        }
        OfPart::Form(surfaces) => surfaces,
        OfPart::Leaves(_) | OfPart::Passing(_) | OfPart::Opens(_) | OfPart::Comes => return None,
    };
    made().any(|made| surfaces.contains(&made.size)).then_some(None)
}

/// What becomes of a size that a later set-up of its own operation takes further.
#[derive(Clone, Copy)]
struct Further {
    /// What the log has of it since; nothing where that is still to be done.
    left: Option<&'static str>,
}

/// Whether a size that the log has is cut further by a later set-up of the operation: bored before the hone, closed in before the reamer.
fn further((task, answer): (&Task, &Answer), key: &str) -> Option<Further> {
    let declared = task.request.declared();
    let of_part = |key: &str| {
        let left = declared.iter().find(|own| own.key == key).and_then(|own| own.left);
        left.filter(|left| !left.is_foreign).map(|left| left.gauge)
    };
    let is_left = |key: &str| answer.value(key).is_some_and(|value| value.origin.entry().is_some());
    let asks = |set_up: &SetUp| set_up.blanks.iter().any(|blank| blank.log.is_some_and(|left| left.key == key));
    let own = answer.set_ups.iter().position(asks).filter(|_| is_left(key))?;
    let later = answer.set_ups.iter().skip(own + 1).flat_map(|set_up| &set_up.blanks).filter_map(|blank| blank.log);
    let same =
        |other: &str| matches!(of_part(key), Some(Gauge::Inside | Gauge::Outside)) && of_part(other) == of_part(key);
    let further: Vec<&'static str> =
        later.filter(|left| left.closes && left.key != key && same(left.key)).map(|left| left.key).collect();
    let left = further.iter().rev().copied().find(|key| is_left(key));
    (!further.is_empty()).then_some(Further { left })
}
