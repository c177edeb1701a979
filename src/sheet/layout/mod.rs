//! Laying a plan out on pages: one page a set-up.

use super::page::Page;
use super::pdf::{self, Meta};
use crate::plan::Plan;

/// Why pages could not be made.
#[derive(Debug, thiserror::Error)]
pub enum Fault {
    /// The file could not be written as PDF.
    #[error("{0}")]
    Pdf(#[from] pdf::Fault),
}

/// The pages of several plans.
///
/// # Errors
/// Where a text or a sketch cannot be laid out.
pub fn pages(_plans: &[Plan]) -> Result<Vec<Page>, Fault> {
    Ok(Vec::new())
}

/// The sheets of several plans as one PDF.
///
/// # Errors
/// As [`pages`], and where the PDF cannot be written.
pub fn pdf(plans: &[Plan]) -> Result<Vec<u8>, Fault> {
    let meta =
        Meta { title: "Setup sheets".into(), author: String::new(), language: "en-GB".into(), bookmarks: Vec::new() };
    Ok(pdf::write(&pages(plans)?, &meta)?)
}
