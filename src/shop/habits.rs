//! The shop's habits: factors and margins that its person has settled on.

use super::instrument::under_the_least;
use crate::handbook::constants::guard_factor;
use crate::proof::At;
use crate::quantity::{Celsius, Measured, Mm, Quantity, Ratio, Shift, Warmth, figure};
use crate::reading::Problem;
use schemars::JsonSchema;
use serde::Deserialize;

/// Habits; each left out takes the default of the book, listed as assumed.
#[derive(Clone, Debug, Default, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Habits {
    /// Factor on handbook speeds; left out, 1.
    pub speed_factor: Option<At<Ratio>>,
    /// Least cut that leaves clean metal all over a face; left out, {clean-up} is assumed.
    pub clean_up: Option<At<Mm>>,
    /// Factor on the standard uncertainty in verdicts; left out, {guard-factor}.
    pub guard: Option<At<Ratio>>,
    /// How much the shop's drills cut over size; left out, the table.
    pub drill_over: Option<At<Mm>>,
    /// Doubt of a quill or tailstock depth stop (± figure, or the figure alone); left out, {depth-stop-doubt} is assumed.
    pub depth_stop_doubt: Option<At<Measured<Mm>>>,
    /// Highest temperature that the oven is used at; left out, the shop's `oven`.
    pub oven: Option<At<Celsius>>,
    /// Temperature of the freezer; left out, the shop's `freezer`.
    pub freezer: Option<At<Celsius>>,
    /// How far the oven's thermometer may be off, either way; left out, {oven-doubt} is assumed.
    pub oven_doubt: Option<At<Warmth>>,
    /// How much over its own size a fixed reamer has been seen to cut in this shop; left out, the usual figure is assumed.
    pub cuts_over: Option<At<Shift>>,
    /// The most shims in one pack; left out, {shims-in-a-pack-most}.
    pub most_shims: Option<At<u32>>,
}

impl Habits {
    /// The guard factor: the shop's own, else the usual one.
    pub fn guard(&self) -> f64 {
        self.guard.as_ref().map_or_else(guard_factor, |guard| guard.value.number())
    }

    /// The half-width of the depth stop, however it was typed.
    pub(crate) fn depth_stop(&self) -> Option<f64> {
        let typed = self.depth_stop_doubt.as_ref()?;
        Some(typed.plus_minus.unwrap_or(typed.value.value.number()))
    }

    pub(super) fn problems(&self, all: &mut Vec<Problem>) {
        if let Some(at) = self.oven_doubt.as_ref().filter(|at| at.value.number() <= 0.0) {
            all.push(Problem::new(at.place, "no oven is without doubt: `oven-doubt` is above zero"));
        }
        if let Some(at) = &self.oven_doubt {
            oven_slip(at, all);
        }
        if let Some(at) = self.depth_stop_doubt.as_ref()
            && self.depth_stop().is_some_and(|doubt| doubt <= 0.0)
        {
            all.push(Problem::new(at.place, "no stop is without doubt: `depth-stop-doubt` is above zero"));
        }
        if let Some(at) = &self.depth_stop_doubt {
            stop_slip(at, all);
        }
        if let Some(at) = self.cuts_over.as_ref().filter(|at| at.value.number() < 0.0) {
            all.push(Problem::new(at.place, CUTS_UNDER));
        }
        for (key, typed, least, most) in
            [("speed-factor", &self.speed_factor, 0.1, 2.0), ("guard", &self.guard, 1.0, 3.0)]
        {
            if let Some(at) = typed
                && !(least..=most).contains(&at.value.number())
            {
                all.push(Problem::new(at.place, format!("`{key}` lies between {least} and {most}")));
            }
        }
    }
}

/// A stop that is surer than any is: a slip.
pub(super) fn stop_slip(at: &At<Measured<Mm>>, all: &mut Vec<Problem>) {
    let doubt = at.plus_minus.unwrap_or(at.value.value.number());
    if let Some(least) = under_the_least(doubt, "depth-stop-least") {
        let says = format!("no stop stands surer than {} mm: look at the unit", figure(least));
        all.push(Problem::new(at.place, says));
    }
}

/// An oven that is surer than any is: a slip.
pub(super) fn oven_slip(at: &At<Warmth>, all: &mut Vec<Problem>) {
    if let Some(least) = under_the_least(at.value.number(), "oven-doubt-least") {
        let says = format!("no oven is surer than {} degC either way: look at the figure", figure(least));
        all.push(Problem::new(at.place, says));
    }
}

/// What is said of a reamer that is to cut smaller than it is.
pub(super) const CUTS_UNDER: &str = "a reamer cuts its own size or over it: `cuts-over` is not below zero";
