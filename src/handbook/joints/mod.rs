//! Limits and fits, pressed and shrunk joints, reaming to a running fit, the track of a seal, a lapped joint.

pub mod clearance;
pub mod fit_pair;
pub mod fits;
pub mod heating;
pub mod joint;
pub mod lapping;
pub mod press;
pub mod reaming;
pub mod reaming_rows;
pub mod reaming_run;
pub mod seal;
pub mod warm_limits;
