//! A bore read as radii from an axis that goes through it: where its own axis is, how that leans, and the least cylinder that holds
//! every reading.

use super::{Fit, NoForm, Zone, columns, least_enclosing, least_squares, minimum_zone};

/// Where a radius was read: so many degrees round, and so far from the middle depth, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Place {
    /// Degrees round.
    pub degrees: f64,
    /// From the middle depth, mm.
    pub z: f64,
}

impl Place {
    /// What a radius there has of the axis: off along 0°, its lean, off along 90°, its lean.
    pub fn axis(&self) -> [f64; 4] {
        let (sin, cos) = self.degrees.to_radians().sin_cos();
        [cos, self.z * cos, sin, self.z * sin]
    }
}

/// `y = R + (a + c z) cos θ + (b + d z) sin θ`: parameters R, a, c, b, d by least squares. Against the distance from the axis as it
/// truly is it errs by e²/2R.
///
/// # Errors
/// [`NoForm`] where there are too few readings, or where they stand so that an axis does not follow.
pub fn cylinder(places: &[Place], y: &[f64]) -> Result<Fit, NoForm> {
    least_squares(&columns(&rows(places))?, y)
}

/// The same with a radius that grows with the depth: parameters R, a, c, b, d and the growth.
///
/// # Errors
/// As [`cylinder`].
pub fn cone(places: &[Place], y: &[f64]) -> Result<Fit, NoForm> {
    let row = |(place, [r, a, c, b, d]): (&Place, [f64; 5])| [r, a, c, b, d, place.z];
    let rows: Vec<[f64; 6]> = places.iter().zip(rows(places)).map(row).collect();
    least_squares(&columns(&rows)?, y)
}

/// The least cylinder that holds every reading, wherever its axis is: its radius is the height. No smaller bore cleans.
///
/// # Errors
/// As [`cylinder`]; [`NoForm::InLine`] too where the readings lie to one side.
pub fn enclosing(places: &[Place], y: &[f64]) -> Result<Zone, NoForm> {
    let rows: Vec<[f64; 4]> = places.iter().map(Place::axis).collect();
    least_enclosing(&columns(&rows)?, y)
}

/// The two cylinders nearest each other between which every reading lies: how far they are apart is the height.
///
/// # Errors
/// As [`cylinder`].
pub fn between(places: &[Place], y: &[f64]) -> Result<Zone, NoForm> {
    minimum_zone(&columns(&rows(places))?, y)
}

fn rows(places: &[Place]) -> Vec<[f64; 5]> {
    let row = |place: &Place| {
        let [a, c, b, d] = place.axis();
        [1.0, a, c, b, d]
    };
    places.iter().map(row).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_abs_diff_eq;

    /// A bore read at three depths and six angles from 33.340 mm, micrometres.
    fn bore() -> (Vec<Place>, Vec<f64>) {
        let reads = [
            [52.0, 28.0, 15.0, 27.0, 22.0, 34.0],
            [40.0, 23.0, 3.0, 3.0, 5.0, 23.0],
            [30.0, 17.0, -6.0, -18.0, -14.0, 12.0],
        ];
        let places = [-40.0, 0.0, 40.0]
            .into_iter()
            .flat_map(|z| (0..6).map(move |at| Place { degrees: 60.0 * f64::from(at), z }))
            .collect();
        (places, reads.concat().iter().map(|um| 33.340 + um / 1000.0).collect())
    }

    #[test]
    fn the_axis_of_a_bore_and_the_least_cylinder_that_cleans_it() {
        let (places, y) = bore();
        let fit = cylinder(&places, &y).unwrap();
        for (got, wanted, off) in [
            (fit.parameters[0], 33.356_444, 1e-6),
            (fit.parameters[1], 0.018_444, 1e-6),
            (fit.parameters[3], -0.000_192, 1e-6),
            (fit.parameters[2], 1.4583e-4, 1e-8),
            (fit.parameters[4], 9.382e-5, 1e-8),
            (fit.spread(), 0.03839, 5e-6),
        ] {
            assert_abs_diff_eq!(got, wanted, epsilon = off);
        }
        assert_abs_diff_eq!(2.0 * 80.0 * cone(&places, &y).unwrap().parameters[5], -0.05233, epsilon = 5e-6);
        let least = enclosing(&places, &y).unwrap();
        assert_abs_diff_eq!(2.0 * least.height, 66.759, epsilon = 5e-5);
        assert_abs_diff_eq!(least.proof.iter().map(|(_, by)| by).sum::<f64>(), 1.0, epsilon = 1e-12);
        assert_abs_diff_eq!(between(&places, &y).unwrap().height, 0.038, epsilon = 5e-6);
        // About the axis of least squares it needs more, about that of the gauge more still.
        let about_mean = fit.parameters[0] + fit.peak();
        assert_abs_diff_eq!(2.0 * about_mean + 0.06, 66.8192, epsilon = 5e-5);
        assert!(least.height < about_mean && about_mean < y.iter().copied().fold(0.0, f64::max));
    }

    /// Readings of one side tell nothing of an axis.
    #[test]
    fn readings_of_one_side_hold_no_cylinder() {
        let places: Vec<Place> = (0..8).map(|at| Place { degrees: f64::from(at), z: f64::from(at % 3) }).collect();
        assert!(enclosing(&places, &[30.0; 8]).is_err());
    }
}
