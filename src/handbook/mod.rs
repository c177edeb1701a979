//! Layer 4. What the trade knows: formulas written once, typed tables, refusals. No shop, no findings, no files.
//!
//! Tables lie in `shared/`, built into the program; every row has its source and how well that is known.

pub mod at_hand;
pub mod change_over;
pub mod citations;
pub mod constants;
pub mod cutting;
pub mod form;
pub mod joints;
mod kept;
pub mod materials;
pub mod measuring;
pub mod order_rules;
pub mod remedies;
pub mod rigging;
pub mod set_up_minutes;
mod state_kind;
mod table;
pub mod threads;
pub mod wear;

pub use cutting::tool_material::ToolMaterial;
pub use joints::fits::Fit;
pub use kept::Quick;
pub use materials::groups::Material;
pub use state_kind::StateKind;
pub use table::{SourceEntry, cited, sources};
pub use threads::bolts::BoltClass;
pub use threads::insert::Lead;
pub use threads::insert_length::InsertLength;
pub use threads::series::Thread;
