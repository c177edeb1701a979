//! What machines carry when the hands begin: as it is said, as what is in hand or inside asks, as it was set true, as the log's last
//! entry left them, or nothing.

use super::carried::{Wants, has_room};
use super::frame::Assumed;
use super::ground::Ground;
use super::items::{Item, Stands};
use super::logged;
use super::passing;
use crate::handbook::StateKind;
use crate::plan::WorkedSetUp;
use crate::quantity::{ClockTime, Date};

/// What stands in its machine as it was set true there, for work that is still to come: the machine, and what it carries for that.
pub(super) fn held_true(
    ground: &Ground,
    machines: &mut [(Stands, Wants)],
    piece_of: &dyn Fn(usize) -> Option<usize>,
    assumed: &mut Vec<Assumed>,
) -> Vec<(usize, usize)> {
    let items = ground.known.items;
    let is_held = |(at, item): &(usize, &Item)| item.leaves(StateKind::True) && ground.done.is(*at);
    let comes = |at: usize| passing::riders(items, at).into_iter().any(|rider| piece_of(rider).is_some());
    let held = items.iter().enumerate().filter(is_held).filter(|(at, _)| comes(*at));
    held.filter_map(|(_, item)| want_on(ground, machines, (item, None), assumed)).collect()
}

/// What the last work on a machine left on it, as the log tells: the machine, what it carries, and by which entry.
pub(super) fn by_log(ground: &Ground, machines: &mut [(Stands, Wants)]) -> Vec<(usize, usize, u32)> {
    let mut all = Vec::new();
    for machine in 0..machines.len() {
        let Some((name, kind)) = machines.get(machine).map(|(stands, _)| (stands.name.clone(), stands.kind)) else {
            continue;
        };
        let Some((item, entry)) = last_on(ground, &name).filter(|_| !has_room(kind)) else { continue };
        // What it is left with is no change-over of the day.
        let found = want_on(ground, machines, (item, Some(&name)), &mut Vec::new());
        all.extend(found.map(|(machine, want)| (machine, want, entry)));
    }
    all
}

/// What a set-up wants of the machine that it stood on, where that is one of the day's.
fn want_on(
    ground: &Ground,
    machines: &mut [(Stands, Wants)],
    (item, on): (&Item, Option<&str>),
    assumed: &mut Vec<Assumed>,
) -> Option<(usize, usize)> {
    let shop = ground.known.shop;
    let own = item.stands(shop);
    let name = on.unwrap_or(&own.name);
    let machine = machines.iter().position(|(known, _)| known.name == name)?;
    let (stands, wants) = machines.get_mut(machine)?;
    Some((machine, wants.number(item, stands, shop, assumed)?))
}

/// An entry of a log that tells of work on a machine.
struct Told<'a> {
    item: &'a Item<'a>,
    worked: &'a WorkedSetUp,
}

impl Told<'_> {
    /// When it was, where it says so.
    fn moment(&self) -> Option<(Date, ClockTime)> {
        self.worked.date.zip(self.worked.to.or(self.worked.from))
    }
}

/// The last work that the log tells of on a machine, and its entry; none where nobody can tell which was the last: entries of two logs without
/// a time, or work that is done and that no log tells of.
fn last_on<'a>(ground: &Ground<'a>, name: &str) -> Option<(&'a Item<'a>, u32)> {
    let Ground { known, done, .. } = ground;
    let stood_on = |item: &Item, worked: &WorkedSetUp| match &worked.machine {
        Some(machine) => machine == name,
        None => item.stands(known.shop).name == name,
    };
    let told = |(at, item): (usize, &Item)| done.is(at) && logged::entries(item).next().is_none();
    if { known.items.iter().enumerate() }.any(|own| told(own) && own.1.stands(known.shop).name == name) {
        return None;
    }
    // In one log the later entry is the later work.
    let mut of_jobs: Vec<Told> = Vec::new();
    for item in known.items {
        for worked in logged::entries(item).filter(|worked| stood_on(item, worked)) {
            match of_jobs.iter_mut().find(|other| other.item.sheet.0 == item.sheet.0) {
                Some(other) if other.worked.entry >= worked.entry => {}
                Some(other) => *other = Told { item, worked },
                None => of_jobs.push(Told { item, worked }),
            }
        }
    }
    let last = match of_jobs.as_slice() {
        [only] => only,
        several => {
            let moments: Option<Vec<_>> = several.iter().map(Told::moment).collect();
            let latest = moments?.into_iter().max()?;
            let mut last = several.iter().filter(|told| told.moment() == Some(latest));
            last.next().filter(|_| last.next().is_none())?
        }
    };
    Some((last.item, last.worked.entry))
}
