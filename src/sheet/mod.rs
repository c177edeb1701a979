//! Layer 9. Pages: the page model, layout, draughting, one back end an output. No arithmetic about metal, and no name of an
//! operation, stands here.

mod as_typed;
pub mod check;
pub mod day_html;
pub mod day_json;
pub mod decide_html;
pub mod decide_json;
pub mod draughting;
mod figures;
pub mod fonts;
mod html;
pub mod json;
pub mod layout;
pub mod lookup;
pub mod over_svg;
pub mod page;
pub mod pdf;
pub mod pictures;
mod printed;
mod shaken;
pub mod svg;
pub mod terminal;
mod told;
mod why;
pub(crate) mod words;
mod xml;

use crate::spread;
pub use shaken::ShakenOut;
pub use why::{TypedAt, Why};
