//! The sizes of the joint and of the running bore, as bars on one scale.

use super::keys::ReamBush;
use super::names::{BORE_HIGH, BORE_LOW, BORE_MAX, BORE_MIN, BUSH_BORE, BUSH_OUTSIDE, FINISH, HOUSING_BORE, SHAFT};
use crate::operations::{Between, Ends, Fit, FitGroup, Picture};
use crate::proof::Words;

impl ReamBush {
    /// Bush in housing, shaft in bush; a bore to make only where one is `reamed`.
    pub(super) fn fit_picture(&self, reamed: bool) -> Picture {
        let bought = if self.bush.bore.is_some() { "bore-as-bought" } else { "bore-as-made" };
        let joint = FitGroup {
            set_up: "measure-and-dress",
            sizes: vec![
                (Words::of("housing-bore"), Ends::Doubt(HOUSING_BORE.key)),
                (Words::of("bush-outside"), Ends::Doubt(BUSH_OUTSIDE.key)),
            ],
            between: Some((Words::of("tight-by"), Between::Grip)),
            ruler: Words::of("size-in-housing"),
            left_to: None,
            limits: None,
        };
        let mut running = FitGroup {
            set_up: "cool-and-measure",
            sizes: vec![
                (Words::of(bought), Ends::Doubt(BUSH_BORE.key)),
                (Words::of("bore-closed-in"), Ends::Limits(BORE_LOW.key, BORE_HIGH.key)),
                (Words::of("the-shaft"), Ends::Doubt(SHAFT.key)),
            ],
            between: None,
            ruler: Words::of("mark-measured-bore"),
            left_to: None,
            limits: None,
        };
        if reamed {
            running.sizes.push((Words::of("bore-to-make"), Ends::Limits(BORE_MIN.key, BORE_MAX.key)));
            running.between = Some((Words::of("clearance"), Between::Room));
            running.left_to = Some((Words::of("stock-left"), FINISH.key));
        }
        Picture::Fit(Fit { groups: vec![joint, running] })
    }
}
