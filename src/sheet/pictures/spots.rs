//! How high the places of a face stand, as they are written.

use super::first;
use crate::drawing::{Spot, Spots, Touches, level_lines};
use crate::operations::{HighSpot, HighSpots};
use crate::quantity::Print;
use crate::sheet::words;

/// Micrometres in a millimetre, and millimetres in an inch.
const MICROMETRES: f64 = 1000.0;
const INCH: f64 = 25.4;
/// A face whose heights are all less is written with a figure more, mm.
const FINE: f64 = 0.01;

/// How a height is written: how many to the millimetre, its decimals, its unit.
struct Written {
    times: f64,
    decimals: usize,
    unit: &'static str,
}

impl Written {
    fn of(whole: f64, print: Print) -> Self {
        let more = usize::from(whole < FINE);
        match print {
            Print::Imperial => Self { times: 1.0 / INCH, decimals: 4 + more, unit: "in" },
            Print::Metric | Print::Both => Self { times: MICROMETRES, decimals: more, unit: "µm" },
        }
    }

    fn says(&self, mm: f64) -> String {
        format!("{:.*}", self.decimals, (mm * self.times).max(0.0))
    }
}

/// The places of a face as a drawing list; nothing where none was read.
#[must_use]
pub fn spots(of: &HighSpots, print: Print) -> Option<Spots> {
    let print = first(print);
    let whole = of.places.iter().map(|spot| spot.height).reduce(f64::max)?;
    let written = Written::of(whole, print);
    let bands: [String; 5] = std::array::from_fn(|band| {
        let end = |at: usize| written.says(whole * at as f64 / 5.0);
        words::band_of(&end(band), &end(band + 1))
    });
    let spot = |spot: &HighSpot| Spot {
        x: spot.x,
        // Across the face is up, as it is read.
        y: -spot.y,
        height: spot.height,
        says: written.says(spot.height),
        touches: spot.touches.map(|upper| if upper { Touches::Upper } else { Touches::Lower }),
    };
    let places: Vec<Spot> = of.places.iter().map(spot).collect();
    let borders: Vec<f64> = (1..bands.len()).map(|at| whole * at as f64 / bands.len() as f64).collect();
    let lines = if of.on_grid { level_lines(&places, &borders) } else { Vec::new() };
    let lines_say = (!lines.is_empty()).then(|| words::LINES_OF_HEIGHT.to_owned());
    Some(Spots { places, whole, lines, lines_say, bands, says: vec![words::heights_in(written.unit)] })
}
