//! States of the part and of what the operation works on.

use crate::handbook::StateKind;
use crate::job::State;
use crate::operations::Bench;

/// States of the whole part.
pub fn of_part(bench: &Bench, kinds: &[StateKind]) -> Vec<State> {
    kinds.iter().map(|kind| State::of_part(&bench.part.name, *kind)).collect()
}

/// A state of what this operation works on.
pub fn of_this(bench: &Bench, kind: StateKind) -> State {
    State::of_operation(bench.address, kind)
}
