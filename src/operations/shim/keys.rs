//! The keys of shimming, what cannot be, and what it answers.

use super::names;
use crate::handbook::Material;
use crate::job::{Address, Difference, PartFacts, Reading};
use crate::operations::kit::{above_zero, no_frost};
use crate::operations::{Answer, Bench, Declared, OfRow, Operation, SetUpWish, linked};
use crate::proof::{At, CheckRule, Refusal, Worked};
use crate::quantity::{Celsius, Measured, Mm, Quantity, Shift, Wanted};
use crate::reading::Problem;
use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::{Deserialize, Deserializer, de};
use std::borrow::Cow;

/// A size in the path of the float.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub(super) struct Link {
    /// What it is.
    pub(super) link: At<String>,
    /// Its size as read, where it opens the float; left out, it `closes` the float.
    pub(super) opens: Option<At<Reading>>,
    /// Its size as read, where it closes the float; left out, it `opens` the float.
    pub(super) closes: Option<At<Reading>>,
    /// What it is made of: it grows by that; left out, how it grows is not worked.
    pub(super) material: Option<At<Material>>,
    /// Whether it runs as warm as the case or as the shaft; left out, anything between.
    pub(super) warm_as: Option<At<WarmAs>>,
}

impl Link {
    /// Its size as read, and whether it opens or closes.
    pub(super) fn read(&self) -> Option<(&At<Reading>, f64)> {
        match (&self.opens, &self.closes) {
            (Some(opens), None) => Some((opens, 1.0)),
            (None, Some(closes)) => Some((closes, -1.0)),
            _ => None,
        }
    }
}

/// What a link is as warm as.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub(super) enum WarmAs {
    /// The case.
    Case,
    /// The shaft.
    Shaft,
}

/// The float as it was found.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub(super) struct FloatFound {
    /// How much it was (measured).
    pub(super) size: At<Difference>,
    /// The pack that was in (measured); `0 mm` where none was.
    pub(super) with_pack: At<Difference>,
}

/// What the pack must be like.
#[derive(Clone, Debug, Default, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub(super) struct PackWish {
    /// The most shims in it; left out, the shop's habit.
    pub(super) most: Option<At<u32>>,
    /// The hard face that it sits against; left out, the sheet says `the hard face`.
    pub(super) hard_face: Option<At<String>>,
    /// The face that turns against it; left out, the sheet says `the face that turns`.
    pub(super) turning_face: Option<At<String>>,
    /// A shim under this does not stand against the turning face; left out, {shim-thin}.
    pub(super) thin: Option<At<Mm>>,
}

/// How a pack to be ordered is rounded: `exact`, or `down to 0.05 mm`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Round {
    /// As it is.
    Exact,
    /// Down to a step.
    DownTo(Mm),
}

impl<'de> Deserialize<'de> for Round {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        let text = String::deserialize(from)?;
        let step = text.strip_prefix("down").and_then(|rest| rest.trim_start().strip_prefix("to"));
        let step = step.map(|step| step.trim().parse::<Measured<Mm>>());
        match (text.as_str(), step) {
            ("exact", _) => Ok(Self::Exact),
            (_, Some(Ok(Measured { value, plus_minus: None, .. }))) => Ok(Self::DownTo(value)),
            _ => Err(de::Error::custom("`exact`, or a step as in `down to 0.05 mm`")),
        }
    }
}

impl JsonSchema for Round {
    fn schema_name() -> Cow<'static, str> {
        "Round".into()
    }
    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({ "type": "string", "description": "`exact`, or down to a step", "examples": ["down to 0.05 mm"] })
    }
}

/// How warm it runs.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub(super) struct Warm {
    /// The case.
    pub(super) case: At<Celsius>,
    /// The shaft.
    pub(super) shaft: At<Celsius>,
    /// The coldest that both stand in; left out, frost is assumed.
    pub(super) coldest: Option<At<Celsius>>,
}

/// An end float shimmed.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Shim {
    /// What the float must be (limits; negative is a preload).
    pub(super) float: At<Wanted<Shift>>,
    /// What is aimed at; left out, the middle.
    pub(super) aim: Option<At<Shift>>,
    /// The sizes in its path, two or more.
    #[serde(default)]
    pub(super) chain: Vec<Link>,
    /// The float as it was found with a pack in.
    pub(super) float_found: Option<FloatFound>,
    /// What the pack must be like; left out, any pack that fits.
    #[serde(default)]
    pub(super) pack: PackWish,
    /// How a pack to be ordered is rounded; left out, not at all.
    pub(super) round: Option<At<Round>>,
    /// How warm it runs.
    pub(super) warm: Option<Warm>,
    /// Name, feature, remark; left out, none.
    pub(super) set_up: Option<SetUpWish>,
}

/// More shims than this in one pack are a spring.
pub(super) const MOST_SHIMS: u32 = 6;

impl Shim {
    /// The sizes that other operations leave, link by link.
    pub(super) fn of_others(&self) -> impl Iterator<Item = &At<Address>> {
        self.chain.iter().filter_map(|link| match &link.read()?.0.value {
            Reading::Of(address) => Some(address),
            Reading::Size { .. } => None,
        })
    }

    fn problems_of_links(&self, all: &mut Vec<Problem>) {
        linked::named_once(self.chain.iter().map(|link| &link.link), all);
        for link in &self.chain {
            match link.read() {
                Some((size, _)) => linked::problems(size, link.material.as_ref(), all),
                None => {
                    all.push(Problem::new(link.link.place, "a link `opens` the float or `closes` it: one of the two"));
                }
            }
        }
        if let [only] = self.chain.as_slice() {
            all.push(Problem::new(only.link.place, "a float lies between two links at least"));
        }
    }
}

impl Operation for Shim {
    fn values(&self) -> &'static [&'static [Declared]] {
        &[names::VALUES]
    }

    fn checks(&self) -> &'static [CheckRule] {
        const {
            &[
                CheckRule::must("float", &["chain", "float-found"]),
                CheckRule::must("doubts-known", &["chain"]),
                CheckRule::must("chain-closed", &["chain", "float-found"]),
                CheckRule::must("thin-alone", &[]),
                CheckRule::must("all-cuts-known", &["chain"]),
                CheckRule::may("running", &["warm"]),
                CheckRule::may("frost", &["warm"]),
                CheckRule::may("can-be-measured", &["chain", "float-found"]),
            ]
        }
    }

    fn set_up(&self) -> Option<&SetUpWish> {
        self.set_up.as_ref()
    }

    fn left_of_row(&self, key: &str, reads: &[Worked<Shift>]) -> Option<Result<Vec<OfRow>, Refusal>> {
        (key == names::PACK.key).then(|| Ok(Self::one_by_one(reads)))
    }

    // A float lies between parts: each link names its own metal.
    fn metals<'a>(&'a mut self, _: &'a mut PartFacts) -> Vec<&'a mut At<Material>> {
        Vec::new()
    }

    fn problems(&self, _: &PartFacts) -> Vec<Problem> {
        let mut all = Vec::new();
        let (low, high) = (self.float.value.low.number(), self.float.value.high.number());
        if low >= high {
            all.push(Problem::new(self.float.place, "`float` has two limits, as in `0.15 to 0.25 mm`"));
        }
        if let Some(aim) = self.aim.as_ref().filter(|aim| !(low..=high).contains(&aim.value.number())) {
            all.push(Problem::new(aim.place, "`aim` lies between the limits of `float`"));
        }
        self.problems_of_links(&mut all);
        if let Some(warm) = &self.warm {
            no_frost(warm.coldest.as_ref(), &[Some(&warm.case), Some(&warm.shaft)], &mut all);
        }
        if let Some(most) = self.pack.most.as_ref().filter(|most| most.value > MOST_SHIMS) {
            let says = format!("a pack of more than {MOST_SHIMS} shims is a spring: `most` is 0 to {MOST_SHIMS}");
            all.push(Problem::new(most.place, says));
        }
        above_zero("`thin`", self.pack.thin.as_ref(), &mut all);
        if let Some(At { value: Round::DownTo(step), place }) = &self.round
            && step.number() <= 0.0
        {
            all.push(Problem::new(*place, "the step to round down to is above zero"));
        }
        all
    }

    fn work(&self, bench: &Bench, answer: &mut Answer) -> Result<(), Refusal> {
        self.work_it(bench, answer)
    }
}
