//! The sizes of the joint and of the running bore, as bars on one scale.

use super::keys::ReamBush;
use super::names::{BORE_MAX, BORE_MIN, FINISH, SHAFT};
use crate::operations::press_joint::{of_bore, of_joint};
use crate::operations::{Between, Ends, Fit, Picture};
use crate::proof::Words;

impl ReamBush {
    /// Bush in housing, shaft in bush; a bore to make only where one is `reamed`.
    pub(super) fn fit_picture(&self, reamed: bool) -> Picture {
        let bought = if self.bush.bore.is_some() { "bore-as-bought" } else { "bore-as-made" };
        let mut running = of_bore(bought);
        running.sizes.push((Words::of("the-shaft"), Ends::Doubt(SHAFT.key)));
        if reamed {
            running.sizes.push((Words::of("bore-to-make"), Ends::Limits(BORE_MIN.key, BORE_MAX.key)));
            running.between = Some((Words::of("clearance"), Between::Room));
            running.left_to = Some((Words::of("stock-left"), FINISH.key));
        }
        Picture::Fit(Fit { groups: vec![of_joint(), running] })
    }
}
