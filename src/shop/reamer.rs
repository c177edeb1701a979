//! Reamers.

use crate::handbook::Fit;
use crate::proof::At;
use crate::quantity::{Mm, Quantity, Shift};
use crate::reading::Problem;
use schemars::JsonSchema;
use serde::Deserialize;

/// By hand or by machine.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum By {
    /// With a wrench, by hand.
    Hand,
    /// In a spindle.
    Machine,
}

/// A reamer of the shop.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Reamer {
    /// A fixed reamer for a hole class.
    Fixed(FixedReamer),
    /// An expanding reamer with its range.
    Expanding(ExpandingReamer),
}

/// A fixed reamer: the hole class that it is made for, as in `16 H7`.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct FixedReamer {
    /// Its name.
    pub name: At<String>,
    /// The hole that it is made for.
    pub size: At<Fit>,
    /// Hand or machine reamer.
    pub by: Option<At<By>>,
    /// How much over its own size it has been seen to cut in this shop.
    pub cuts_over: Option<At<Shift>>,
}

/// An expanding reamer.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct ExpandingReamer {
    /// Its name.
    pub name: At<String>,
    /// Smallest setting.
    pub from: At<Mm>,
    /// Largest setting.
    pub to: At<Mm>,
    /// Hand or machine reamer.
    pub by: Option<At<By>>,
}

impl Reamer {
    /// Its name.
    pub fn name(&self) -> &str {
        match self {
            Self::Fixed(reamer) => &reamer.name.value,
            Self::Expanding(reamer) => &reamer.name.value,
        }
    }

    /// Hand or machine, where the shop says.
    pub fn by(&self) -> Option<By> {
        match self {
            Self::Fixed(reamer) => reamer.by.as_ref(),
            Self::Expanding(reamer) => reamer.by.as_ref(),
        }
        .map(|by| by.value)
    }

    pub(super) fn problems(&self, all: &mut Vec<Problem>) {
        match self {
            Self::Expanding(reamer) if reamer.to.value.number() <= reamer.from.value.number() => {
                all.push(Problem::new(reamer.to.place, "an expanding reamer goes `from` a size up `to` a larger one"));
            }
            Self::Fixed(reamer) if reamer.cuts_over.as_ref().is_some_and(|at| at.value.number() < 0.0) => {
                let place = reamer.cuts_over.as_ref().map_or(reamer.size.place, |at| at.place);
                all.push(Problem::new(place, super::habits::CUTS_UNDER));
            }
            Self::Fixed(reamer) if !reamer.size.value.is_one_hole() => {
                all.push(Problem::new(reamer.size.place, "a fixed reamer is named by its hole, as in `16 H7`"));
            }
            _ => {}
        }
    }
}
