//! `drill-oil-hole`: an oil hole through the wall of a bush, in from its oilway. Does it meet the oilway, does its mouth stay off the
//! ends of the bush, does it stand in its time between pressing and reaming, and do its chips come out?

mod keys;
mod names;
mod place;
mod sketch;
mod work;

pub(super) use keys::DrillOilHole;
