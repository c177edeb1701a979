//! Parts that are one of a pair: each must name the other, and one half that fails fails both.

use super::stale::Cut;
use crate::operations::Answer;
use crate::plan::order::{Task, places};
use crate::proof::{Check, Fact, Verdict, Words};

/// Each half must be planned and named by the other; the worse verdict of the two stands on both sheets, and so does that they do not
/// lose the same.
pub(in crate::plan) fn check(worked: &mut [(usize, &Task, Answer)], logged: &[Cut]) {
    let places = places(worked.iter().map(|(_, task, _)| *task));
    let partners: Vec<Option<usize>> = worked
        .iter()
        .map(|(_, task, _)| task.request.partner().and_then(|address| places.get(&address).copied()))
        .collect();
    let partner = |at: usize| partners.get(at).copied().flatten();
    let alone: Vec<Verdict> = worked.iter().map(|(.., answer)| answer.verdict_without("both-halves")).collect();
    let lost: Vec<Option<Lost>> = worked.iter().map(|(_, task, answer)| Lost::of(task, answer, logged)).collect();
    let loses = |at: usize| lost.get(at).copied().flatten();
    for at in 0..worked.len() {
        let Some((_, task, _)) = worked.get(at) else { continue };
        let Some(address) = task.request.partner() else {
            named_by_another(at, &partners, worked);
            continue;
        };
        let other = partner(at);
        let mutual = other.is_some_and(|other| other != at && partner(other) == Some(at));
        let planned = if mutual { Verdict::Proven } else { Verdict::Fails };
        let both = other.filter(|_| mutual).map(|other| [at, other]);
        let both = both.map(|halves| halves.iter().filter_map(|half| alone.get(*half)).copied().max());
        let pair = address.part.clone();
        let Some((.., answer)) = worked.get_mut(at) else { continue };
        answer.check_now(Check::of_kind("pair-planned", planned).with("pair", pair.clone()));
        let unlike = other.filter(|_| mutual).and_then(|other| loses(at)?.unlike(&loses(other)?));
        match both.flatten() {
            Some(verdict) => {
                let verdict = if unlike.is_some() { verdict.max(Verdict::Doubtful) } else { verdict };
                let check = answer.check_now(Check::of_kind("both-halves", verdict).with("pair", pair));
                unlike.into_iter().for_each(|words| {
                    check.remedy(words);
                });
            }
            None => answer.not_checked(&["both-halves"], &["pair"]),
        }
    }
}

/// What a half loses: by the plan, or as it was left; and what that may be off.
#[derive(Clone, Copy)]
struct Lost {
    by: f64,
    doubt: f64,
}

/// Under this two depths are one, mm.
const DUST: f64 = 1e-6;

impl Lost {
    fn of(task: &Task, answer: &Answer, logged: &[Cut]) -> Option<Self> {
        if !logged.iter().any(|cut| cut.of == task.address) {
            return answer.value("removed").map(|removed| Self { by: removed.number, doubt: 0.0 });
        }
        let (found, left) = (answer.value("length")?, answer.value("length_after")?);
        Some(Self { by: found.number - left.number, doubt: found.plus_minus.hypot(left.plus_minus) })
    }

    /// What is said where the other loses another depth.
    fn unlike(&self, other: &Self) -> Option<Words> {
        let off = (self.by - other.by).abs() > self.doubt + other.doubt + DUST;
        let mm = |lost: &Self| Fact::mm(lost.by);
        off.then(|| Words::of("pair-unlike").with("own", mm(self)).with("other", mm(other)))
    }
}

/// One that names no other is stopped as well where another names it: cut alone it would no longer fit that one.
fn named_by_another(at: usize, partners: &[Option<usize>], worked: &mut [(usize, &Task, Answer)]) {
    let Some(other) = partners.iter().position(|named| *named == Some(at)) else { return };
    let Some(pair) = worked.get(other).map(|(_, task, _)| task.address.part.clone()) else { return };
    let Some((.., answer)) = worked.get_mut(at) else { return };
    if answer.checks.iter().any(|check| check.id == "pair-planned") {
        answer.check(Check::of_kind("pair-planned", Verdict::Fails).with("pair", pair));
    }
}
