//! Limits and fits, pressed and shrunk joints, reaming to a running fit.

pub mod clearance;
pub mod fit_pair;
pub mod fits;
pub mod heating;
pub mod joint;
pub mod press;
pub mod reaming;
pub mod reaming_rows;
pub mod reaming_run;
pub mod warm_limits;
