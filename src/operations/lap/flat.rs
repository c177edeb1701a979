//! How far a face is out of flat: by least squares, and exactly, with its proof.

use super::keys::{Lap, ZoneBy};
use super::names::{FLAT_FOUND, FLAT_LEAST_SQUARES, FLAT_PEAK, FLAT_RMS, FLAT_VALLEY};
use super::places::{Grid, Points, Read};
use crate::handbook::form::{Fit, NoForm, Zone, columns, least_squares, minimum_zone};
use crate::operations::Answer;
use crate::proof::{Mark, Refusal, Source, Worked};
use crate::quantity::{Mm, Quantity, Shift, figure};

/// A face that was read.
#[derive(Clone, Debug)]
pub(super) struct Flat {
    /// How far it is out of flat.
    pub(super) found: Worked<Mm>,
    /// The readings that touch the two planes: along, across, whether it is the upper one.
    pub(super) contacts: Vec<(f64, f64, bool)>,
    /// How high each reading stands over the lower of them, mm.
    pub(super) heights: Vec<f64>,
}

/// Where the figures of least squares come from.
const SQUARES: Source = Source::fixed("least squares, by QR; ISO 12781-1", Mark::FromMemory);
/// Where the exact zone comes from: readings and multipliers prove it, whoever names it.
const ZONE: Source = Source::fixed("the narrowest zone (ISO 1101), by exchange, with its proof", Mark::Derived);

/// Why a face has no planes.
fn no_plane(why: NoForm) -> Refusal {
    Refusal::NoForm { what: "flatness", why: why.to_string() }
}

/// A row of the plane z = a x + b y + c.
fn row(read: &Read) -> [f64; 3] {
    [read.x, read.y, 1.0]
}

/// How far each reading counts in what is left of two: the one less the other.
fn counts_apart(fit: &Fit, reads: &[Read], (high, low): (usize, usize)) -> Vec<f64> {
    let (Some(above), Some(below)) = (reads.get(high).map(row), reads.get(low).map(row)) else { return Vec::new() };
    let counts: Vec<Vec<f64>> = (0..3).map(|parameter| fit.counts(parameter)).collect();
    let in_plane = |at: usize| -> f64 {
        let each = above.iter().zip(below).zip(&counts);
        each.map(|((a, b), counts)| (a - b) * counts.get(at).copied().unwrap_or(0.0)).sum()
    };
    (0..reads.len()).map(|at| f64::from(u8::from(at == high)) - f64::from(u8::from(at == low)) - in_plane(at)).collect()
}

/// Greatest less least of what is left over a plane of least squares, as a figure with its doubt.
fn spread(fit: &Fit, reads: &[Read]) -> Option<Worked<Shift>> {
    let residuals = || fit.residuals.iter().enumerate();
    let (high, _) = residuals().max_by(|a, b| a.1.total_cmp(b.1))?;
    let (low, _) = residuals().min_by(|a, b| a.1.total_cmp(b.1))?;
    let counts = counts_apart(fit, reads, (high, low));
    let terms: Vec<(f64, &Worked<Shift>)> = counts.into_iter().zip(reads.iter().map(|read| &read.z)).collect();
    Some(Worked::sum(&terms, 0.0, "highest less lowest over the plane of least squares", SQUARES))
}

impl Lap {
    /// Both ways, and which of them decides.
    pub(super) fn flat(&self, answer: &mut Answer, reads: &[Read]) -> Result<Flat, Refusal> {
        let rows: Vec<[f64; 3]> = reads.iter().map(row).collect();
        let z: Vec<f64> = reads.iter().map(|read| read.z.number()).collect();
        let columns = columns(&rows).map_err(no_plane)?;
        let fit = least_squares(&columns, &z).map_err(no_plane)?;
        let zone = minimum_zone(&columns, &z).map_err(no_plane)?;
        let over_it = |number: f64, says: Vec<String>| Worked::method(Mm::new(number.max(0.0)), says, SQUARES);
        let squares = spread(&fit, reads).ok_or_else(|| no_plane(NoForm::TooFew))?.becomes::<Mm>();
        let squares = answer.record(&FLAT_LEAST_SQUARES, squares);
        answer.record(&FLAT_PEAK, over_it(fit.peak(), vec!["the highest over the plane of least squares".into()]));
        answer.record(&FLAT_VALLEY, over_it(-fit.valley(), vec!["the lowest under the plane of least squares".into()]));
        answer.record(&FLAT_RMS, over_it(fit.rms(), vec!["root of the mean square over it".into()]));
        let (exact, proof) = exact(&zone, reads);
        let over = |residuals: &[f64]| -> Vec<f64> {
            let lowest = residuals.iter().copied().fold(f64::INFINITY, f64::min);
            residuals.iter().map(|residual| residual - lowest).collect()
        };
        let (found, heights) = match self.zone.as_ref().map(|at| at.value) {
            Some(ZoneBy::LeastSquares) => (squares, over(&fit.residuals)),
            Some(ZoneBy::Minimum) | None => (exact, over(&zone.residuals)),
        };
        let contacts = proof.iter().map(|(by, read)| (read.x, read.y, *by > 0.0)).collect();
        Ok(Flat { found: answer.record(&FLAT_FOUND, found), contacts, heights })
    }
}

impl Lap {
    /// How far it is out of flat by a map that was taken again at the same places.
    pub(super) fn mapped_again(&self, reads: &[Worked<Shift>]) -> Result<Worked<Mm>, Refusal> {
        let of_points = || self.points.as_ref().map(Points::places);
        let places = self.grid.as_ref().map(Grid::places).or_else(of_points).unwrap_or_default();
        if places.len() != reads.len() {
            let reason = "there are not as many readings as the face was mapped at";
            return Err(Refusal::NoForm { what: "flatness", why: reason.to_owned() });
        }
        let reads: Vec<Read> = places.into_iter().zip(reads).map(|((x, y), z)| Read { x, y, z: z.clone() }).collect();
        let rows: Vec<[f64; 3]> = reads.iter().map(row).collect();
        let z: Vec<f64> = reads.iter().map(|read| read.z.number()).collect();
        let columns = columns(&rows).map_err(no_plane)?;
        if self.zone.as_ref().is_some_and(|at| at.value == ZoneBy::LeastSquares) {
            let fit = least_squares(&columns, &z).map_err(no_plane)?;
            return spread(&fit, &reads).map(|spread| spread.becomes()).ok_or_else(|| no_plane(NoForm::TooFew));
        }
        Ok(exact(&minimum_zone(&columns, &z).map_err(no_plane)?, &reads).0)
    }
}

/// The readings of a proof, each with its multiplier.
type Proof<'a> = Vec<(f64, &'a Read)>;

/// The width of the narrowest zone as a figure with its doubt, and its proof.
fn exact<'a>(zone: &Zone, reads: &'a [Read]) -> (Worked<Mm>, Proof<'a>) {
    let proof: Proof = zone.proof.iter().filter_map(|(at, by)| Some((*by, reads.get(*at)?))).collect();
    let terms: Vec<(f64, &Worked<Shift>)> = proof.iter().map(|(by, read)| (*by, &read.z)).collect();
    (Worked::sum(&terms, 0.0, &proof_in_words(&proof), ZONE).becomes(), proof)
}

/// The readings that touch the planes, each with its multiplier: whatever the plane, their sum is the same, so that none lies closer.
fn proof_in_words(proof: &[(f64, &Read)]) -> String {
    let each = |(by, read): &(f64, &Read)| {
        let (x, y, z) = (figure(read.x), figure(read.y), figure(read.z.number()));
        format!("{by:+.6} × {z} mm at ({x}, {y})")
    };
    let rule = "no two planes lie closer, since these multipliers add up to nothing alone, along and across";
    format!("{}: {rule}", proof.iter().map(each).collect::<Vec<_>>().join(" "))
}
