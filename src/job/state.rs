//! What is true before a set-up and after it.

use super::Address;
use crate::handbook::StateKind;
use std::fmt;

/// What a state is true of.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum StateOf {
    /// A part, by its name.
    Part(String),
    /// A feature of a part (one bore, one face), by both names.
    Feature(String, String),
    /// What an operation works on.
    Operation(Address),
    /// Parts that are bolted together, by their name.
    Assembly(String),
}

/// A state that a set-up needs or leaves.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct State {
    /// What it is true of.
    pub of: StateOf,
    /// What is true.
    pub kind: StateKind,
}

impl State {
    /// A state of a whole part.
    pub fn of_part(part: &str, kind: StateKind) -> Self {
        Self { of: StateOf::Part(part.into()), kind }
    }

    /// A state of what an operation works on.
    pub(crate) fn of_operation(address: &Address, kind: StateKind) -> Self {
        Self { of: StateOf::Operation(address.clone()), kind }
    }
}

impl State {
    /// Whether this is what is asked: of the very same, or, of what stays so, of anything of a part of which it is asked.
    pub(crate) fn holds_of(&self, asked: &Self) -> bool {
        let of_part = |part: &str| match &self.of {
            StateOf::Part(own) | StateOf::Feature(own, _) => own == part,
            StateOf::Operation(address) => address.part == part,
            StateOf::Assembly(_) => false,
        };
        let of_it = matches!(&asked.of, StateOf::Part(part) if !asked.kind.passes() && of_part(part));
        self.kind == asked.kind && (self.of == asked.of || of_it)
    }
}

impl fmt::Display for StateOf {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Part(part) => f.write_str(part),
            Self::Feature(part, feature) => write!(f, "{part}, {feature}"),
            Self::Operation(address) => address.fmt(f),
            Self::Assembly(name) => write!(f, "assembly {name}"),
        }
    }
}

/// As JSON prints it: `case/left:bore-measured`.
impl fmt::Display for State {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}:{}", self.of, self.kind.text())
    }
}

impl serde::Serialize for State {
    fn serialize<S: serde::Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.collect_str(self)
    }
}

impl schemars::JsonSchema for State {
    fn schema_name() -> std::borrow::Cow<'static, str> {
        "State".into()
    }
    fn inline_schema() -> bool {
        true
    }
    fn json_schema(_: &mut schemars::SchemaGenerator) -> schemars::Schema {
        schemars::json_schema!({ "type": "string" })
    }
}
