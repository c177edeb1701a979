//! Least squares by QR: parameters, residuals, and how far each reading counts in each parameter.

use super::{NoForm, scaled};
use nalgebra::{DMatrix, DVector};

/// What least squares finds.
#[derive(Clone, Debug, PartialEq)]
pub struct Fit {
    /// The parameters, one for each column.
    pub parameters: Vec<f64>,
    /// What is left of each reading.
    pub residuals: Vec<f64>,
    /// How far each reading counts: parameter = sum over the readings of its row here times the reading.
    counts: DMatrix<f64>,
}

impl Fit {
    /// How far each reading counts in a parameter; nothing where there is no such parameter.
    pub fn counts(&self, parameter: usize) -> Vec<f64> {
        if parameter < self.counts.nrows() {
            self.counts.row(parameter).iter().copied().collect()
        } else {
            Default::default()
        }
    }

    /// Greatest less least residual.
    pub fn spread(&self) -> f64 {
        self.peak() - self.valley()
    }

    /// Greatest residual.
    pub fn peak(&self) -> f64 {
        self.residuals.iter().copied().fold(f64::NEG_INFINITY, f64::max)
    }

    /// Least residual.
    pub fn valley(&self) -> f64 {
        self.residuals.iter().copied().fold(f64::INFINITY, f64::min)
    }

    /// Root of the mean square of the residuals.
    pub fn rms(&self) -> f64 {
        let squares: f64 = self.residuals.iter().map(|r| r * r).sum();
        (squares / self.residuals.len() as f64).sqrt()
    }
}

/// The parameters p for which the sum of squares of `z - columns p` is least.
///
/// # Errors
/// [`NoForm`] where there are too few readings, where they lie so that the columns hang on each other, or where one is no number.
pub fn least_squares(columns: &DMatrix<f64>, z: &[f64]) -> Result<Fit, NoForm> {
    if z.len() != columns.nrows() || !z.iter().all(|x| x.is_finite()) {
        return Err(NoForm::NoNumber);
    }
    if z.len() < columns.ncols() {
        return Err(NoForm::TooFew);
    }
    let (all, factors) = scaled(columns)?;
    let (q, r) = all.qr().unpack();
    let mut counts = r.solve_upper_triangular(&q.transpose()).ok_or(NoForm::InLine)?;
    counts.row_iter_mut().zip(&factors).for_each(|(mut row, factor)| row /= *factor);
    let z = DVector::from_column_slice(z);
    let parameters = &counts * &z;
    let residuals = &z - columns * &parameters;
    Ok(Fit { parameters: parameters.iter().copied().collect(), residuals: residuals.iter().copied().collect(), counts })
}

#[cfg(test)]
mod tests {
    use super::super::columns;
    use super::*;
    use approx::assert_abs_diff_eq;

    /// The 4 × 3 grid of a cover, micrometres over millimetres.
    fn cover() -> (DMatrix<f64>, Vec<f64>) {
        let reads = [[0.0, 6.0, 14.0, 9.0], [11.0, 22.0, 31.0, 17.0], [4.0, 19.0, 24.0, -3.0]];
        let rows: Vec<[f64; 3]> = (0..3)
            .flat_map(|row| (0..4).map(move |column| [60.0 * f64::from(column), 50.0 * f64::from(row), 1.0]))
            .collect();
        (columns(&rows).unwrap(), reads.concat())
    }

    #[test]
    fn a_face_by_least_squares() {
        let (columns, z) = cover();
        let fit = least_squares(&columns, &z).unwrap();
        assert_abs_diff_eq!(fit.parameters[0], 0.025_555_6, epsilon = 1e-6);
        assert_abs_diff_eq!(fit.parameters[1], 0.037_5, epsilon = 1e-6);
        assert_abs_diff_eq!(fit.parameters[2], 8.658_33, epsilon = 1e-4);
        assert_abs_diff_eq!(fit.spread(), 37.408_3, epsilon = 1e-3);
        assert_abs_diff_eq!(fit.peak(), 17.4, epsilon = 1e-6);
        assert_abs_diff_eq!(fit.rms(), 9.531_85, epsilon = 1e-4);
        let again: f64 = fit.counts(2).iter().zip(&z).map(|(c, z)| c * z).sum();
        assert_abs_diff_eq!(again, fit.parameters[2], epsilon = 1e-9);
    }

    #[test]
    fn readings_on_a_line_give_no_face() {
        let rows: Vec<[f64; 3]> = (0..5).map(|k| [f64::from(k), 2.0 * f64::from(k), 1.0]).collect();
        assert_eq!(least_squares(&columns(&rows).unwrap(), &[0.0; 5]), Err(NoForm::InLine));
        assert_eq!(columns(&rows[..2]), Err(NoForm::TooFew));
        assert_eq!(least_squares(&columns(&rows).unwrap(), &[f64::NAN; 5]), Err(NoForm::NoNumber));
    }
}
