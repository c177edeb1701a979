//! A state as a job names it: `washed` of the part at hand, `cover:washed` of another, `cover/left:pressed` of what an operation
//! works on.

use crate::handbook::StateKind;
use crate::job::{Address, State, StateOf};
use schemars::JsonSchema;
use serde::{Deserialize, Deserializer, de};

/// A state as typed.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct StateWord {
    of: Option<StateOf>,
    kind: StateKind,
}

impl StateWord {
    /// The state, of this part where no other is named.
    pub(super) fn state(&self, part: &str) -> State {
        let of = self.of.clone().unwrap_or_else(|| StateOf::Part(part.into()));
        State { of, kind: self.kind }
    }

    /// The same in words: of the part at hand what is true alone.
    pub(super) fn said(&self) -> String {
        let kind = self.kind.text().replace('-', " ");
        self.of.as_ref().map_or_else(|| kind.clone(), |of| format!("{of}: {kind}"))
    }
}

impl std::str::FromStr for StateWord {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, String> {
        let (of, kind) = match text.rsplit_once(':') {
            Some((of, kind)) if of.contains('/') => (Some(StateOf::Operation(of.trim().parse::<Address>()?)), kind),
            Some((part, kind)) => (Some(StateOf::Part(part.trim().to_owned())), kind),
            None => (None, text),
        };
        Ok(Self { of, kind: kind.trim().parse()? })
    }
}

impl<'de> Deserialize<'de> for StateWord {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        String::deserialize(from)?.parse().map_err(de::Error::custom)
    }
}

impl JsonSchema for StateWord {
    fn schema_name() -> std::borrow::Cow<'static, str> {
        "State".into()
    }
    fn inline_schema() -> bool {
        true
    }
    fn json_schema(_: &mut schemars::SchemaGenerator) -> schemars::Schema {
        schemars::json_schema!({ "type": "string", "description": "a state, or part:state, or part/operation:state" })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_state_is_of_this_part_of_another_or_of_an_operation() {
        let said = |text: &str| text.parse::<StateWord>().map(|word| word.state("case").to_string());
        assert_eq!(said("washed"), Ok("case:washed".into()));
        assert_eq!(said("cover: measured"), Ok("cover:measured".into()));
        assert_eq!(said("cover/left:pressed"), Ok("cover/left:pressed".into()));
        assert!(said("polished up").is_err() && said("cover:").is_err());
    }
}
