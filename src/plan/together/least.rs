//! How thick a part must stay: somebody asks it of one cut over its faces, and what comes behind that cut takes more.

use super::made::{Made, agree, made_by};
use super::place::is_on_a_face;
use crate::operations::{Answer, PartSize, Value};
use crate::plan::order::Task;
use crate::proof::{Check, Fact, Keep, Verdict};

/// The check of a part that is left thinner than an earlier cut was asked to leave it.
const LEAST_KEPT: &str = "least-kept";

/// Under this a size lies on its limit, mm.
const DUST: f64 = 1e-9;

/// Holds what each operation takes off the faces of its part against how thick those before it were asked to leave it. Those of one part
/// come together, in the order of the file.
pub(in crate::plan) fn check(worked: &mut [(usize, &Task, Answer)]) {
    let mut found: Vec<Option<Check>> = worked.iter().map(|_| None).collect();
    for (at, own) in worked.iter().enumerate() {
        let behind = worked.get(at + 1..).unwrap_or_default();
        if let Some((taker, check)) = asked(own).and_then(|asked| undercut(&asked, own.1, behind))
            && let Some(found) = found.get_mut(at + 1 + taker)
        {
            found.get_or_insert(check);
        }
    }
    for ((.., answer), check) in worked.iter_mut().zip(found) {
        if let Some(check) = check {
            answer.check_of_size(check, "");
        }
    }
}

/// A size over two faces that must not come under a limit.
struct Asked<'a> {
    left: &'a Value,
    least: f64,
}

/// The size over its faces that an operation leaves, and the least that it was asked to leave; none where nobody asked.
fn asked<'a>((_, task, answer): &'a (usize, &Task, Answer)) -> Option<Asked<'a>> {
    let left = made_by(task, answer).into_iter().find(|made| made.size == PartSize::Faces)?.left;
    let of_it = answer.checks.iter().filter(|check| check.about == Some(left.key));
    let limits = of_it.filter_map(|check| check.judged.as_ref()).filter(|judged| judged.keep == Keep::AtLeast);
    limits.map(|judged| judged.limit).max_by(f64::total_cmp).map(|least| Asked { left, least })
}

/// The first of those behind that takes it under, by its place among them.
fn undercut(asked: &Asked, own: &Task, behind: &[(usize, &Task, Answer)]) -> Option<(usize, Check)> {
    let low = |value: &Value| value.number - value.plus_minus;
    let (mut last, mut least) = (asked.left, low(asked.left));
    // What is under its limit already says so on its own sheet.
    if least < asked.least - DUST {
        return None;
    }
    for (at, (_, task, answer)) in behind.iter().enumerate() {
        if task.part.name != own.part.name {
            continue;
        }
        let made = made_by(task, answer);
        if let Some(cut) = made.iter().find(|made| made.size == PartSize::Faces && goes_on(made, last)) {
            (last, least) = (cut.left, least.min(low(cut.left)));
        } else if is_on_a_face(&made)
            && !made.iter().any(|made| made.size == PartSize::Faces)
            && let Some(gone) = made.iter().find(|made| made.size == PartSize::Gone)
        {
            least -= gone.left.number + gone.left.plus_minus;
        } else {
            continue;
        }
        if least < asked.least - DUST {
            let mm = |number: f64| Fact::figure(number, asked.left.unit);
            let check = Check::of_kind(LEAST_KEPT, Verdict::Doubtful).at(task.place);
            let check =
                check.with("by", own.address.to_string()).with("left", mm(least)).with("least", mm(asked.least));
            return Some((at, check));
        }
    }
    None
}

/// Whether a cut over two faces goes on from what was left.
fn goes_on(made: &Made, left: &Value) -> bool {
    !made.takes_nothing() && made.found.is_some_and(|found| found.unit == left.unit && agree(found, left))
}
