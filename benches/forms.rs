//! What form from readings costs: the zone of a face, what encloses a bore. `cargo bench --bench forms`.

mod timing;

use nalgebra::DMatrix;
use setover::handbook::form::{NoForm, least_enclosing, minimum_zone};
use timing::timed;

/// A number between −1 and 1 for each count, the same at every run.
fn noise(count: usize) -> f64 {
    let mixed = (count as u64 + 1).wrapping_mul(0x9E37_79B9_7F4A_7C15);
    ((mixed ^ (mixed >> 31)) % 20_001) as f64 / 10_000.0 - 1.0
}

/// Heights of a face read on a grid of so many by so many places 10 mm apart: dished by 30 µm, with 5 µm of noise.
fn face(side: usize) -> (DMatrix<f64>, Vec<f64>) {
    let place = |at: usize| ((at % side) as f64 * 10.0, (at / side) as f64 * 10.0);
    let columns = DMatrix::from_fn(side * side, 3, |at, column| {
        [place(at).0, place(at).1, 1.0].get(column).copied().unwrap_or(0.0)
    });
    let middle = (side as f64 - 1.0) * 5.0;
    let dish = |(x, y): (f64, f64)| ((x - middle).powi(2) + (y - middle).powi(2)) / (2.0 * middle * middle);
    let heights = (0..side * side).map(|at| 0.030 * dish(place(at)) + 0.005 * noise(at)).collect();
    (columns, heights)
}

/// Radii of a bore read at so many places round it and along it: an axis off and leaning, and 10 µm of noise.
fn bore(count: usize) -> (DMatrix<f64>, Vec<f64>) {
    let at = |nth: usize| (std::f64::consts::TAU * (nth % 24) as f64 / 24.0, (nth / 24) as f64);
    let row = |nth: usize| {
        let (angle, along) = at(nth);
        [angle.cos(), angle.sin(), along * angle.cos(), along * angle.sin()]
    };
    let columns = DMatrix::from_fn(count, 4, |nth, column| row(nth).get(column).copied().unwrap_or(0.0));
    let radii = (0..count).map(|nth| {
        let (angle, along) = at(nth);
        33.4 + 0.01 * angle.cos() + 2e-5 * along * angle.sin() + 0.010 * noise(nth)
    });
    (columns, radii.collect())
}

const TIMES: usize = 21;

fn main() -> Result<(), NoForm> {
    for side in [7, 20] {
        let (columns, heights) = face(side);
        timed(&format!("least zone of {} places of a face", side * side), TIMES, || minimum_zone(&columns, &heights))?;
    }
    let (columns, radii) = bore(10_000);
    timed("what encloses 10000 places of a bore", TIMES, || least_enclosing(&columns, &radii))
}
