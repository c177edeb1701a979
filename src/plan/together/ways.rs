//! Metal that one operation takes off and another counts in a gap: whether it opens that gap or closes it is no matter of taste. What is
//! lapped off a joint lets its parts come together, and a face says itself what its metal does to the float.

use super::made::made_by;
use super::place::is_on_a_face;
use crate::operations::{Answer, OfPart, PartSize};
use crate::plan::order::Task;
use crate::proof::{Check, Words};

/// The check of a link that counts the wrong way.
const WAY: &str = "link-the-right-way";
/// What a face says that its metal does to the float as new.
const CHANGE: &str = "float_change_from_new";

/// Holds each link of a gap that is metal which another operation of the group takes off against what that does there.
pub(in crate::plan) fn check(worked: &mut [(usize, &Task, Answer)]) {
    let found: Vec<Option<Check>> = worked.iter().map(|(.., answer)| wrong_way(answer, worked)).collect();
    for ((.., answer), check) in worked.iter_mut().zip(found) {
        if let Some(check) = check {
            answer.check_of_size(check, "");
        }
    }
}

/// What is said of the first link that counts otherwise than the operation that leaves it says, or than a joint that it laps has it.
fn wrong_way(answer: &Answer, worked: &[(usize, &Task, Answer)]) -> Option<Check> {
    answer.elsewhere.iter().find_map(|read| {
        let link = read.link.as_ref()?;
        let owner = link.of.value.owner();
        let (_, task, by) = worked.iter().find(|(_, task, _)| task.address == owner)?;
        let key = link.of.value.value.as_deref()?;
        let declared = task.request.declared().into_iter().find(|own| own.key == key)?;
        (declared.part == Some(OfPart::Leaves(PartSize::Gone))).then_some(())?;
        let opens = opens(task, by)?;
        (opens != (link.by > 0.0)).then(|| {
            let cure = if opens { "it-opens-the-gap" } else { "it-closes-the-gap" };
            let owner = owner.to_string();
            let mut check = Check::of_kind(WAY, link.wrong).with("link", read.what.clone()).with("by", owner.clone());
            check.remedy(Words::of(cure).with("by", owner));
            check.at(link.of.place)
        })
    })
}

/// Whether the metal that an operation takes off opens a gap across that face; nothing where nobody says.
fn opens(task: &Task, answer: &Answer) -> Option<bool> {
    if let Some(change) = answer.value(CHANGE) {
        return Some(change.number > 0.0);
    }
    let laps = is_on_a_face(&made_by(task, answer)) && answer.closes.is_some();
    laps.then_some(false)
}
