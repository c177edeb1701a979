//! Reamers.

use crate::handbook::Fit;
use crate::handbook::joints::fits::Class;
use crate::proof::At;
use crate::quantity::{Form, Mm, Quantity, Shift, Written};
use crate::reading::Problem;
use schemars::JsonSchema;
use serde::{Deserialize, Deserializer, de};

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
    /// The hole that it is made for, as in `16 H7`; a plain size where no class stands on it.
    pub size: At<ReamedHole>,
    /// Hand or machine reamer; left out, it is taken for either.
    pub by: Option<At<By>>,
    /// How much over its own size it has been seen to cut in this shop; left out, that of the habits, else the usual figure is
    /// assumed.
    pub cuts_over: Option<At<Shift>>,
}

/// The hole that a fixed reamer is made for: a size with its class, or the size alone.
#[derive(Clone, Debug)]
pub struct ReamedHole {
    fit: Fit,
    /// Whether a class stands on the reamer; where none does, that of most reamers is taken.
    pub has_class: bool,
}

/// The class that a reamer without one is taken for.
const USUAL_CLASS: &str = "H7";

impl ReamedHole {
    /// Its size and class.
    pub fn hole(&self) -> Option<(f64, &Class)> {
        self.fit.nominal.zip(self.fit.hole.as_ref())
    }
}

impl std::str::FromStr for ReamedHole {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, String> {
        let refused = match text.parse::<Fit>() {
            Ok(fit) => return Ok(Self { fit, has_class: true }),
            Err(refused) => refused,
        };
        let plain = text.parse::<Written<Mm>>().ok().filter(|size| size.form == Form::Plain);
        let usual = plain.and_then(|size| format!("{} mm {USUAL_CLASS}", size.value.number()).parse().ok());
        usual.map(|fit| Self { fit, has_class: false }).ok_or(refused)
    }
}

impl<'de> Deserialize<'de> for ReamedHole {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        String::deserialize(from)?.parse().map_err(de::Error::custom)
    }
}

impl JsonSchema for ReamedHole {
    fn schema_name() -> std::borrow::Cow<'static, str> {
        "ReamedHole".into()
    }

    fn json_schema(_: &mut schemars::SchemaGenerator) -> schemars::Schema {
        schemars::json_schema!({
            "type": "string",
            "description": "a fit of ISO 286, or a plain size",
            "examples": ["25 H7", "1 in H7", "5/8 in"]
        })
    }
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
    /// Hand or machine reamer; left out, it is taken for either.
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
            Self::Fixed(reamer) if !reamer.size.value.fit.is_one_hole() => {
                all.push(Problem::new(reamer.size.place, "a fixed reamer is named by its hole, as in `16 H7`"));
            }
            // Nobody reams so small a hole: likelier it was marked in inches.
            Self::Fixed(reamer) if reamer.size.value.fit.nominal.is_some_and(|size| size < 1.0) => {
                let fit = &reamer.size.value.fit;
                let says =
                    format!("`{fit}` is a hole of less than 1 mm: with inches it is written as in `0.375 in H7`");
                all.push(Problem::new(reamer.size.place, says));
            }
            _ => {}
        }
    }
}
