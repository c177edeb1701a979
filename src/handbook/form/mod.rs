//! Form from readings: circles, faces and bores by least squares, and by the narrowest zone or the least that encloses.
//!
//! Everything here works on plain numbers and says, beside what it finds, how far each reading counts in it: whoever asks puts
//! the doubts of the readings together by that.

pub mod bore;
pub mod circle;
mod exchange;
mod least_squares;
pub mod truing;

pub use exchange::{Zone, least_enclosing, minimum_zone};
pub use least_squares::{Fit, least_squares};

use nalgebra::DMatrix;

/// Why no form follows from some readings.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum NoForm {
    /// Fewer readings than what is asked.
    #[error("there are fewer readings than the form has unknowns")]
    TooFew,
    /// They lie so that what is asked does not follow from them: all on a line, all at one place.
    #[error("the readings lie on a line or at one place: nothing follows across it")]
    InLine,
    /// A figure that is no number, or lists of unlike length.
    #[error("a reading or a place is no number")]
    NoNumber,
}

/// A share of the greatest under which a direction is none.
const NO_DIRECTION: f64 = 1e-9;

/// One row for each reading from the numbers that go with it.
///
/// # Errors
/// [`NoForm::NoNumber`] where a number is not finite, [`NoForm::TooFew`] where there are fewer rows than columns.
pub fn columns<const M: usize>(rows: &[[f64; M]]) -> Result<DMatrix<f64>, NoForm> {
    if rows.len() < M {
        return Err(NoForm::TooFew);
    }
    let all = DMatrix::from_row_iterator(rows.len(), M, rows.iter().flatten().copied());
    if all.iter().all(|x| x.is_finite()) { Ok(all) } else { Err(NoForm::NoNumber) }
}

/// The same columns, each by its greatest figure, with those factors: so that metres beside micrometres lose no digits.
fn scaled(columns: &DMatrix<f64>) -> Result<(DMatrix<f64>, Vec<f64>), NoForm> {
    let greatest: Vec<f64> = columns.column_iter().map(|column| column.amax()).collect();
    if greatest.iter().any(|most| *most <= 0.0 || !most.is_finite()) {
        return Err(NoForm::InLine);
    }
    let mut all = columns.clone();
    all.column_iter_mut().zip(&greatest).for_each(|(mut column, most)| column /= *most);
    let singular = all.clone().singular_values();
    if singular.min() <= NO_DIRECTION * singular.max() { Err(NoForm::InLine) } else { Ok((all, greatest)) }
}
