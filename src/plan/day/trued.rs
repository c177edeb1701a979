//! What was set true and is so no more when the hands begin: its chuck came off, or other work stood in it.

use super::done::Done;
use super::frame::Assumed;
use super::items::Item;
use super::known::Known;
use super::passing::riders;
use crate::handbook::StateKind;
use crate::operations::Station;
use crate::plan::WorkedSetUp;

impl Done {
    /// What is set true again, though it was done: other work was done since in that machine, or its part was worked in another. Gives what
    /// that is.
    pub(super) fn true_no_more(&mut self, known: &Known, assumed: &mut Vec<Assumed>) -> Vec<usize> {
        let mut all = Vec::new();
        for (at, item) in known.items.iter().enumerate().filter(|(_, item)| item.leaves(StateKind::True)) {
            let as_held = riders(known.items, at);
            if !self.is(at) || as_held.iter().all(|rider| self.is_begun(*rider)) {
                continue;
            }
            let machine = item.stands(known.shop).name;
            let gives_it_up = |(other, own): &(usize, &Item)| {
                let here = own.stands(known.shop).name == machine;
                let away = own.same_part(item) && own.set_up.station != Station::Bench;
                *other != at && !as_held.contains(other) && (here || away) && self.is_since(known, at, *other)
            };
            let Some((_, by)) = known.items.iter().enumerate().find(gives_it_up) else { continue };
            assumed.push(Assumed::TrueNoMore(item.id(), by.id()));
            self.when.get_mut(at).into_iter().for_each(|slot| *slot = None);
            all.push(at);
        }
        all
    }

    /// Whether one set-up may have been worked after another that is done: what nobody can tell may have been.
    fn is_since(&self, known: &Known, first: usize, other: usize) -> bool {
        if self.in_hand == Some(other) {
            return true;
        }
        let (Some(one), Some(own)) = (known.items.get(first), known.items.get(other)) else { return false };
        match told(one).zip(told(own)).filter(|_| one.sheet.0 == own.sheet.0) {
            Some((one, own)) => {
                let by_day = one.date.zip(own.date).filter(|(one, own)| one != own).map(|(one, own)| own > one);
                let by_clock = || one.to.zip(own.to).map(|(one, own)| own > one);
                self.is(other) && by_day.or_else(by_clock).unwrap_or(own.entry > one.entry)
            }
            None => self.at(other).is_some_and(|time| self.at(first).is_some_and(|first| time >= first)),
        }
    }
}

/// The last line of the log by which a set-up is done.
fn told<'a>(item: &Item<'a>) -> Option<&'a WorkedSetUp> {
    let (_, operation, set_up) = item.sheet;
    item.plan.worked.iter().rfind(|worked| worked.at == (operation, set_up) && worked.is_done)
}
