//! The set-ups of all jobs of a day, each with the place where it stands.

use crate::handbook::StateKind;
use crate::handbook::order_rules::{self, Work};
use crate::operations::{SetUp, Station};
use crate::plan::{PlaceOfWork, Plan, Planned, ShopOfDay};

/// A set-up of a job.
#[derive(Clone, Copy)]
pub(super) struct Item<'a> {
    /// Job, operation and set-up by number, from nought.
    pub sheet: (usize, usize, usize),
    /// Whether several jobs are planned.
    pub of_many: bool,
    /// Its job.
    pub plan: &'a Plan,
    /// Its operation.
    pub operation: &'a Planned,
    /// Itself.
    pub set_up: &'a SetUp<String>,
}

/// Where a set-up stands.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Stands {
    /// The machine's name, or the kind of place.
    pub name: String,
    /// The kind of machine, as the tables have it.
    pub kind: &'static str,
    /// How many parts go in, where the shop says.
    pub room: Option<u32>,
    /// The greatest length that goes in, mm.
    pub inside: Option<f64>,
}

/// The kind of machine that makes cold.
const FREEZER: &str = "freezer";

impl Stands {
    fn of(place: &PlaceOfWork) -> Self {
        Self { name: place.name.clone(), kind: place.kind, room: place.room, inside: place.inside }
    }
}

/// Every set-up in the order of the files.
pub(super) fn items(plans: &[Plan]) -> Vec<Item<'_>> {
    let of_many = plans.len() > 1;
    let mut all = Vec::new();
    for (job, plan) in plans.iter().enumerate() {
        for (at, operation) in plan.operations.iter().enumerate() {
            let set_ups = operation.answer.set_ups.iter().enumerate();
            all.extend(set_ups.map(|(number, set_up)| Item {
                sheet: (job, at, number),
                of_many,
                plan,
                operation,
                set_up,
            }));
        }
    }
    all
}

/// The id of a sheet as it is printed; plans that were not worked together are told apart by their place.
pub(super) fn id(plan: &Plan, (job, operation, set_up): (usize, usize, usize), of_many: bool) -> String {
    let own = plan.sheet_id(operation + 1, set_up + 1);
    if of_many && plan.nth.is_none() { format!("{}/{own}", job + 1) } else { own }
}

impl Item<'_> {
    /// The id of its sheet.
    pub(super) fn id(&self) -> String {
        id(self.plan, self.sheet, self.of_many)
    }

    /// Whether two set-ups are of one operation.
    pub(super) fn same_operation(&self, other: &Self) -> bool {
        (self.sheet.0, self.sheet.1) == (other.sheet.0, other.sheet.1)
    }

    /// Whether two set-ups are of one part.
    pub(super) fn same_part(&self, other: &Self) -> bool {
        self.operation.address.part == other.operation.address.part
    }

    /// The work in it, as the rules see it.
    pub(super) fn work(&self) -> Work<'_> {
        let steps = self.set_up.steps.iter().map(|step| step.id).collect();
        Work::of(&self.operation.word, steps, self.set_up.leaves.iter().map(|state| state.kind).collect())
    }

    /// The freezer beside the oven, where it makes one part warm and another cold.
    pub(super) fn beside(&self, shop: Option<&ShopOfDay>) -> Option<Stands> {
        if !self.leaves(StateKind::Warm) || !self.leaves(StateKind::Cold) || self.stands(shop).kind != "oven" {
            return None;
        }
        let named = shop.into_iter().flat_map(|shop| &shop.machines).find(|machine| machine.kind == FREEZER);
        let none = || Stands { name: FREEZER.to_owned(), kind: FREEZER, room: None, inside: None };
        Some(named.map_or_else(none, Stands::of))
    }

    /// Whether it only makes a part warm or cold.
    pub(super) fn passes_off(&self) -> bool {
        let leaves = &self.set_up.leaves;
        !leaves.is_empty() && leaves.iter().all(|state| state.kind.passes())
    }

    /// Whether it presses, and may take what is warm or cold.
    pub(super) fn presses(&self) -> bool {
        let work = self.work();
        order_rules::all().iter().filter(|rule| rule.fetches()).any(|rule| rule.after.is_in(&work))
    }

    /// Whether its part lies in the oven or freezer with it: all that is warmed does, and what an operation of one set-up makes cold.
    pub(super) fn takes_part(&self) -> bool {
        self.leaves(StateKind::Warm) || self.operation.answer.set_ups.len() == 1
    }

    pub(super) fn leaves(&self, kind: StateKind) -> bool {
        self.set_up.leaves.iter().any(|state| state.kind == kind)
    }

    /// Where it stands: the machine that it names, else the shop's first of that kind, else the kind of place.
    pub(super) fn stands(&self, shop: Option<&ShopOfDay>) -> Stands {
        let kinds: &[&'static str] = match self.set_up.station {
            Station::Lathe => &["lathe"],
            Station::Drilling => &["mill", "drill-press"],
            Station::Press => &["press"],
            Station::Oven if self.leaves(StateKind::Cold) && !self.leaves(StateKind::Warm) => &[FREEZER],
            Station::Oven => &["oven"],
            Station::Bench => &["bench"],
        };
        let machines = || shop.into_iter().flat_map(|shop| &shop.machines);
        let named = machines().find(|machine| machine.name == self.set_up.machine);
        let of_kind = || machines().find(|machine| kinds.contains(&machine.kind));
        match named.or_else(of_kind) {
            Some(place) => Stands::of(place),
            None => {
                let kind = kinds.first().copied().unwrap_or_default();
                Stands { name: self.set_up.machine.clone(), kind, room: None, inside: None }
            }
        }
    }

    /// Whether it cuts and presses nothing: it stands at the bench, with no cut.
    pub(super) fn only_measures(&self) -> bool {
        self.set_up.station == Station::Bench && self.set_up.cuts().next().is_none()
    }

    /// Whether metal is cut where it stands.
    pub(super) const fn cuts_metal(&self) -> bool {
        matches!(self.set_up.station, Station::Lathe | Station::Drilling)
    }
}
