//! What the log says is done stands outside the day, and is the ground that the rest of it is built on.

use super::frame::{Assumed, DoneByLog};
use super::items::Item;
use super::link::Link;
use super::search::Minute;
use super::times::Times;
use crate::plan::WorkedSetUp;
use crate::plan::worked::may_be_read_at;
use crate::proof::{Check, Verdict};

/// Takes in what the log says is done; gives it, with its entries. Nothing is built on what fails by what was
/// logged: it stands among what is left out with its reason; but what would undo or spoil it comes too late all the same.
pub(super) fn logged(
    items: &[Item],
    musts: &[Link],
    times: &Times,
    done: &mut [Option<Minute>],
    assumed: &mut Vec<Assumed>,
) -> Vec<DoneByLog> {
    let mut all = Vec::new();
    for (at, (item, slot)) in items.iter().zip(done).enumerate() {
        if let Some((worked, check)) = unfinished(item) {
            let says = check.remedies.first().map_or(&check.asks, |remedy| &remedy.words);
            assumed.push(Assumed::NotFinished(item.id(), worked.entry, says.clone()));
        }
        let is_open = slot.is_none();
        let Some(worked) = entries(item).filter(|worked| worked.is_done && is_open).last() else { continue };
        let when = when(worked, times);
        if item.operation.verdict == Verdict::Fails {
            *slot = Some(when.unwrap_or(times.start));
            continue;
        }
        let rests = item.set_up.tail.is_some() || musts.iter().any(|link| link.before == at && link.rest > 0);
        if when.is_none() && rests {
            assumed.push(Assumed::DoneAt(item.id(), times.start));
        }
        *slot = Some(when.unwrap_or(times.start));
        let (part, set_up) = (item.operation.address.part.clone(), item.set_up.title.clone());
        let (not_logged, doubts) = (not_logged(item), doubts(item));
        all.push(DoneByLog { id: item.id(), part, set_up, entry: worked.entry, not_logged, doubts });
    }
    all
}

/// The entry of the log by which a set-up is not finished, with the check that says so.
pub(super) fn unfinished<'a>(item: &Item<'a>) -> Option<(&'a WorkedSetUp, &'a Check<String>)> {
    let answer = &item.operation.answer;
    let stands = |worked: &WorkedSetUp| {
        let mut own = worked.gives.iter().filter(|key| may_be_read_at(&answer.set_ups, item.sheet.2, key));
        own.find_map(|key| answer.unfinished(key))
    };
    entries(item).find_map(|worked| Some((worked, stands(worked)?)))
}

/// When it was done, as minutes of the day that is planned: before that day its beginning. None where nobody said.
fn when(worked: &WorkedSetUp, times: &Times) -> Option<Minute> {
    if worked.date.zip(times.date).is_some_and(|(then, today)| then < today) {
        return Some(0);
    }
    worked.to.map(|to| to.minutes().min(times.start))
}

/// The entries of the log that tell of a set-up, in their order.
pub(super) fn entries<'a>(item: &Item<'a>) -> impl Iterator<Item = &'a WorkedSetUp> + use<'a> {
    let (_, operation, set_up) = item.sheet;
    item.plan.worked.iter().filter(move |worked| worked.at == (operation, set_up))
}

/// When the log says that a set-up was done; none where it does not.
pub(super) fn done_at(item: &Item, times: &Times) -> Option<Minute> {
    entries(item).filter(|worked| worked.is_done).last().and_then(|worked| when(worked, times))
}

/// When the log says that the work in hand was begun, on the day that is planned, and by which entry.
pub(super) fn begun_at(item: &Item, times: &Times) -> Option<(Minute, u32)> {
    let last = entries(item).last().filter(|worked| !worked.is_done)?;
    let is_today = worked_today(last, times);
    let from = last.from.filter(|_| is_today)?.minutes();
    (from <= times.start).then_some((from, last.entry))
}

/// Whether an entry is of the day that is planned; where nobody says of which it is, it is.
fn worked_today(worked: &WorkedSetUp, times: &Times) -> bool {
    worked.date.zip(times.date).is_none_or(|(then, today)| then == today)
}

/// What the log gives of the operation of a set-up.
fn gives(item: &Item, key: &str) -> bool {
    let own = item.plan.worked.iter().filter(|worked| worked.at.0 == item.sheet.1);
    own.flat_map(|worked| &worked.gives).any(|given| given == key)
}

/// What of a set-up is doubtful as it was left: done is not proven.
fn doubts(item: &Item) -> Vec<String> {
    let answer = &item.operation.answer;
    let is_own = |check: &&Check<String>| answer.is_of_set_up(check, item.sheet.2);
    let doubtful = answer.checks.iter().filter(|check| check.stamps() == Some(Verdict::Doubtful));
    doubtful.filter(is_own).map(|check| check.called.clone()).collect()
}

/// What is to be written down of a set-up and is not in the log.
fn not_logged(item: &Item) -> Vec<&'static str> {
    let asked = item.set_up.blanks.iter().filter_map(|blank| Some(blank.log?.key));
    asked.filter(|key| !gives(item, key)).collect()
}
