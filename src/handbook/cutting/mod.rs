//! Speeds, feeds, force, finish, holding, time: what a cut asks of tool, machine and chuck.

pub mod coolants;
pub mod cutting_force;
pub mod deflection;
pub mod drill_column;
pub mod drill_forces;
pub mod drilling;
pub mod finish;
pub mod grip;
pub mod jaw_force;
pub mod milling;
pub mod oil_hole;
pub mod ring_and_plate;
pub mod speeds;
pub mod spot_face;
pub mod stock;
pub mod times;
pub mod tipping;
pub mod tool_material;
pub mod work_holding;
