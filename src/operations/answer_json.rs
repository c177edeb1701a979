//! Parts of an answer as the JSON has them: by their keys in order, a refusal in its words.

use super::Value;
use crate::proof::Refusal;
use serde::{Serialize, Serializer};
use std::collections::BTreeMap;

pub(super) fn by_key<S: Serializer>(values: &[Value], serializer: S) -> Result<S::Ok, S::Error> {
    let sorted: BTreeMap<&str, &Value> = values.iter().map(|value| (value.key, value)).collect();
    sorted.serialize(serializer)
}

#[allow(clippy::ref_option)] // As the serialiser asks it.
pub(super) fn said<S: Serializer>(refused: &Option<Refusal>, serializer: S) -> Result<S::Ok, S::Error> {
    refused.as_ref().map(ToString::to_string).serialize(serializer)
}
