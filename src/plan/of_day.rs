//! What a day needs of a shop and of an operation, beside the answers.

use super::order::Task;
use super::together::held_on::HeldOn;
use crate::job::Address;
use crate::operations::SetUpWish;
use crate::proof::At;
use crate::quantity::{ClockTime, Date, Mm, Quantity};
use crate::shop::{Machine, Opening, OwnChangeOver, Shop};

/// What a day needs of a shop: when it is open, where work stands, and what a change-over takes.
#[derive(Clone, Debug)]
pub struct ShopOfDay {
    /// When it is open.
    pub opening: Opening,
    /// Its machines, in their order.
    pub machines: Vec<PlaceOfWork>,
    /// Its own minutes of change-overs.
    pub change_over: Vec<OwnChangeOver>,
}

/// A machine as a day sees it.
#[derive(Clone, Debug)]
pub struct PlaceOfWork {
    /// Its name.
    pub name: String,
    /// Its kind.
    pub kind: &'static str,
    /// How many parts go in, where the shop says.
    pub room: Option<u32>,
    /// The greatest length that goes in, where the shop says, mm.
    pub inside: Option<f64>,
}

/// What a day needs of an operation beside its answer.
#[derive(Clone, Debug, Default)]
pub struct OfDay {
    /// What it asks of its set-up.
    pub wish: SetUpWish,
    /// Operations whose values it reads.
    pub reads: Vec<Address>,
    /// The operation that it is one of a pair with.
    pub partner: Option<Address>,
    /// What its part is bolted to others in.
    pub assembly: Option<String>,
    /// Places that its part takes in an oven or freezer, where the job says.
    pub places: Option<u32>,
    /// Its part's greatest length, where the job says.
    pub longest: Option<At<Mm>>,
    /// Operations before it in the file that make the diameter on which it is held.
    pub held_on: Vec<Address>,
    /// Operations behind it in the file that cut that diameter away.
    pub grip_cut_by: Vec<Address>,
    /// Operations that make a size which it goes by, whatever their place is called.
    pub sized_by: Vec<Address>,
    /// Operations behind it in the file that take from a size which it goes by.
    pub sizes_cut_by: Vec<Address>,
}

/// A set-up that the log tells of.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct WorkedSetUp {
    /// Its operation and itself by number in the plan, from nought.
    pub at: (usize, usize),
    /// The entry.
    pub entry: u32,
    /// The day of it.
    pub date: Option<Date>,
    /// When the hands began, where it says so.
    pub from: Option<ClockTime>,
    /// When it was done, where it says so.
    pub to: Option<ClockTime>,
    /// On which machine, where it says so.
    pub machine: Option<String>,
    /// Whether it is done: it was measured, or has an end. Else it is only begun.
    pub is_done: bool,
    /// The values that the entry gives.
    pub gives: Vec<String>,
}

impl ShopOfDay {
    /// What a day needs of a shop.
    pub(super) fn of(shop: &Shop) -> Self {
        let place = |machine: &Machine| PlaceOfWork {
            name: machine.name().into(),
            kind: machine.kind(),
            room: machine.room().map(|room| room.value),
            inside: machine.inside().map(|inside| inside.value.number()),
        };
        Self {
            opening: shop.opening(),
            machines: shop.machines.iter().map(place).collect(),
            change_over: shop.change_over.clone(),
        }
    }
}

impl OfDay {
    /// What a day needs of an operation.
    pub(super) fn of(task: &Task, held: &HeldOn) -> Self {
        Self {
            wish: task.request.set_up().cloned().unwrap_or_default(),
            reads: task.named.addresses.iter().map(|need| need.value.owner()).collect(),
            partner: task.request.partner(),
            assembly: task.of_part.assembly.clone(),
            places: task.of_part.places,
            longest: task.of_part.longest.clone(),
            held_on: held.made_by.clone(),
            grip_cut_by: held.cut_by.clone(),
            sized_by: held.sized_by.clone(),
            sizes_cut_by: held.sizes_cut_by.clone(),
        }
    }
}
