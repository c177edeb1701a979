//! Floor 4. What the trade knows: formulas written once, typed tables, refusals. No shop, no findings, no files.
//!
//! Tables lie in `shared/`, built into the program; every row has its source and how well that is known.

pub mod bolts;
pub mod citations;
pub mod clearance;
pub mod constants;
pub mod coolants;
pub mod cutting_force;
pub mod deflection;
pub mod drilling;
pub mod finish;
pub mod fit_pair;
pub mod fits;
pub mod hardness;
pub mod heating;
pub mod insert;
mod insert_hole;
pub mod insert_rows;
pub mod instruments;
pub mod materials;
pub mod order_rules;
pub mod press;
pub mod reaming;
pub mod safety;
pub mod set_up_minutes;
pub mod speed_series;
pub mod speeds;
mod table;
pub mod tap_leads;
pub mod tapers;
pub mod tapping;
pub mod thread_form;
pub mod thread_match;
mod thread_names;
pub mod thread_strength;
pub mod threads;
pub mod times;
mod tool_material;
pub mod uncertainty;
pub mod work_holding;

pub use bolts::BoltClass;
pub use fits::Fit;
pub use insert::{InsertLength, Lead};
pub use materials::Material;
pub use table::{SourceEntry, cited, sources};
pub use threads::Thread;
pub use tool_material::ToolMaterial;
