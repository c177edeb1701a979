//! A circle from readings round it: how far its centre is off, towards where, and its lobes.

use super::{Fit, NoForm, least_squares};
use nalgebra::DMatrix;

/// The mean and, for each number of waves up to `waves`, how much goes with its cosine and its sine: `z = m + Σ (a_k cos kθ + b_k
/// sin kθ)` by least squares, at whatever angles (degrees) it was read. Parameters m, a₁, b₁, a₂, b₂ …; the first pair is how far
/// the centre is off.
///
/// # Errors
/// [`NoForm`] where there are too few readings for so many waves, or where they stand so that the waves cannot be told apart.
pub fn waves(degrees: &[f64], z: &[f64], waves: u8) -> Result<Fit, NoForm> {
    let columns = 1 + 2 * usize::from(waves);
    if degrees.len() < columns {
        return Err(NoForm::TooFew);
    }
    let at = |row: usize, column: usize| {
        let angle = degrees.get(row).copied().unwrap_or(f64::NAN).to_radians();
        let wave = column.div_ceil(2) as f64;
        match column {
            0 => 1.0,
            _ if column % 2 == 1 => (wave * angle).cos(),
            _ => (wave * angle).sin(),
        }
    };
    let all = DMatrix::from_fn(degrees.len(), columns, at);
    if all.iter().all(|x| x.is_finite()) { least_squares(&all, z) } else { Err(NoForm::NoNumber) }
}

/// The widest gap between neighbouring readings round a turn, degrees; of none the whole turn.
#[must_use]
pub fn widest_gap(degrees: &[f64]) -> f64 {
    let mut sorted: Vec<f64> = degrees.iter().map(|angle| angle.rem_euclid(360.0)).collect();
    sorted.sort_by(f64::total_cmp);
    let round = sorted.first().map(|first| first + 360.0);
    let next = sorted.iter().skip(1).copied().chain(round);
    let widest = sorted.iter().zip(next).map(|(one, other)| other - one).max_by(f64::total_cmp);
    widest.unwrap_or(360.0)
}

/// Whether readings stand equally far apart all the way round, in whatever order.
#[must_use]
pub fn spaced(degrees: &[f64]) -> bool {
    let mut sorted: Vec<f64> = degrees.iter().map(|angle| angle.rem_euclid(360.0)).collect();
    sorted.sort_by(f64::total_cmp);
    let apart = 360.0 / degrees.len() as f64;
    let round = sorted.first().map(|first| first + 360.0);
    let next = sorted.iter().skip(1).copied().chain(round);
    // A tenth of a degree is no more than a mark on a chuck is good for.
    degrees.len() > 2 && sorted.iter().zip(next).all(|(one, other)| (other - one - apart).abs() < 0.1)
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_abs_diff_eq;

    const EIGHT: [f64; 8] = [0.0, 45.0, 90.0, 135.0, 180.0, 225.0, 270.0, 315.0];

    #[test]
    fn a_gap_goes_over_the_first_reading_too() {
        assert_abs_diff_eq!(widest_gap(&[0.0, 90.0, 180.0, 270.0]), 90.0);
        assert_abs_diff_eq!(widest_gap(&[100.0, 0.0, 50.0]), 260.0);
        assert_abs_diff_eq!(widest_gap(&[-10.0, 45.0]), 305.0);
        assert_abs_diff_eq!(widest_gap(&[]), 360.0);
    }

    #[test]
    fn four_readings_give_the_centre() {
        let four = [0.0, 90.0, 180.0, 270.0];
        let fit = waves(&four, &[0.0, -0.045, -0.130, -0.075], 1).unwrap();
        assert_abs_diff_eq!(fit.parameters[1], 0.065, epsilon = 1e-12);
        assert_abs_diff_eq!(fit.parameters[2], 0.015, epsilon = 1e-12);
        assert_abs_diff_eq!(fit.residuals[0].abs(), 0.0025, epsilon = 1e-12);
        assert!(spaced(&four) && !spaced(&[0.0, 80.0, 180.0, 270.0]));
    }

    /// Eight readings with three lobes in them; every second of them takes the lobes for a centre that is off.
    #[test]
    fn four_readings_take_three_lobes_for_a_centre_that_is_off() {
        let reads = [-28.0, -37.0, -21.0, 29.0, 28.0, 37.0, 21.0, -29.0].map(|um: f64| um / 1000.0);
        let off = |fit: &Fit| (fit.parameters[1].hypot(fit.parameters[2]), fit.parameters[2].atan2(fit.parameters[1]));
        let eight = waves(&EIGHT, &reads, 1).unwrap();
        let (e, towards) = off(&eight);
        assert_abs_diff_eq!(e, 0.03964, epsilon = 5e-6);
        assert_abs_diff_eq!(towards.to_degrees().rem_euclid(360.0), 199.65, epsilon = 0.005);
        assert_abs_diff_eq!(eight.spread(), 0.02405, epsilon = 5e-6);
        let three = waves(&EIGHT, &reads, 3).unwrap();
        assert_abs_diff_eq!(three.parameters[5].hypot(three.parameters[6]), 0.01208, epsilon = 5e-6);
        let half = [reads[0], reads[2], reads[4], reads[6]];
        let (e, towards) = off(&waves(&[0.0, 90.0, 180.0, 270.0], &half, 1).unwrap());
        assert_abs_diff_eq!(e, 0.0350, epsilon = 5e-5);
        assert_abs_diff_eq!(towards.to_degrees().rem_euclid(360.0), 216.87, epsilon = 0.005);
    }

    /// Five readings at uneven angles: the short sum over them would be wrong.
    #[test]
    fn uneven_angles_are_no_matter() {
        let fit = waves(&[10.0, 80.0, 150.0, 215.0, 300.0], &[0.021, 0.034, -0.006, -0.031, -0.014], 1).unwrap();
        assert_abs_diff_eq!(fit.parameters[1], 0.01935, epsilon = 1e-5);
        assert_abs_diff_eq!(fit.parameters[2], 0.02798, epsilon = 1e-5);
        let (a, b) = (fit.counts(1), fit.counts(2));
        let towards = fit.parameters[2].atan2(fit.parameters[1]);
        let along: f64 = a.iter().zip(&b).map(|(a, b)| (a * towards.cos() + b * towards.sin()).powi(2)).sum();
        assert_abs_diff_eq!(along.sqrt(), 0.6488, epsilon = 5e-5);
    }
}
