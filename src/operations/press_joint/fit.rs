//! The sizes of the joint and of the bush in it, as bars on one scale.

use super::names::fitted::{BORE_HIGH, BORE_LOW, BUSH_OUTSIDE};
use super::names::joint::{BUSH_BORE, HOUSING_BORE};
use crate::operations::{Between, Ends, FitGroup};
use crate::proof::Words;

/// Bush in housing.
pub(in crate::operations) fn of_joint() -> FitGroup {
    FitGroup {
        set_up: "measure-and-dress",
        sizes: vec![
            (Words::of("housing-bore"), Ends::Doubt(HOUSING_BORE.key)),
            (Words::of("bush-outside"), Ends::Doubt(BUSH_OUTSIDE.key)),
        ],
        between: Some((Words::of("tight-by"), Between::Grip)),
        ruler: Words::of("size-in-housing"),
        left_to: None,
        limits: None,
    }
}

/// Its bore, by that name, as it was and as it closes in.
pub(in crate::operations) fn of_bore(called: &'static str) -> FitGroup {
    FitGroup {
        set_up: "cool-and-measure",
        sizes: vec![
            (Words::of(called), Ends::Doubt(BUSH_BORE.key)),
            (Words::of("bore-closed-in"), Ends::Limits(BORE_LOW.key, BORE_HIGH.key)),
        ],
        between: None,
        ruler: Words::of("mark-measured-bore"),
        left_to: None,
        limits: None,
    }
}
