//! The fit as bands: shaft and bore as read, and the clearance cold and warm between its limits.

use super::names::{BORE, CLEARANCE, FOLLOWING, LEAST, LEAST_RUNNING, MOST, RUNNING, SHAFT, USUAL_WALL};
use crate::operations::{Answer, Ends, Fit, FitGroup, FitLimit, Picture};
use crate::proof::Words;

/// Shaft and bore; under them the clearance at 20 °C and each way in which it runs, limits as lines.
pub(super) fn picture(answer: &Answer) -> Picture {
    let sizes = FitGroup {
        set_up: super::SET_UP,
        sizes: vec![(Words::of("the-shaft"), Ends::Doubt(SHAFT.key)), (Words::of("the-bore"), Ends::Doubt(BORE.key))],
        between: None,
        ruler: Words::of("mark-the-bore"),
        left_to: None,
        limits: None,
    };
    let given = |key: &str| answer.value(key).is_some();
    // Each clearance that is judged, once.
    let warm =
        [("band-running", RUNNING.key), ("band-held", FOLLOWING.key), ("band-usual-wall", USUAL_WALL.key)].into_iter();
    let warm = warm.filter(|(_, key)| given(key));
    let bands = std::iter::once(("band-cold", CLEARANCE.key)).chain(warm);
    let bands: Vec<_> = bands.map(|(name, key)| (Words::of(name), Ends::Doubt(key))).collect();
    let (cold, all) = ((0, 1), (0, bands.len()));
    let limits = match given(LEAST_RUNNING.key) {
        true => vec![(LEAST.key, cold), (MOST.key, cold), (LEAST_RUNNING.key, (1, bands.len()))],
        false => vec![(LEAST.key, all), (MOST.key, all)],
    };
    let limits = limits.into_iter().map(|(key, holds)| FitLimit { key, holds }).collect();
    let clearances = FitGroup {
        set_up: super::SET_UP,
        sizes: bands,
        between: None,
        ruler: Words::of("clearance-of"),
        left_to: None,
        limits: Some((Words::of("its-limits"), limits)),
    };
    Picture::Fit(Fit { groups: vec![sizes, clearances] })
}
