//! The narrowest zone that holds all readings, and the least that encloses them: one exchange of reference sets for both.
//!
//! What is sought is the least of the greatest `|z - φ p|` (zone) or of the greatest `z - φ p` (enclosing) over all p. Its proof is
//! a few readings with multipliers λ: Σ λ φ = 0, so whatever p is, Σ λ z is the same, and no zone is narrower. A reading that
//! stands out further than the zone of the set goes in for the one of the set that must go out so that the multipliers keep
//! their signs; the zone grows with each exchange (de la Vallée Poussin; the same steps are those of the simplex method on the
//! multipliers).

use super::{NoForm, scaled};
use nalgebra::{DMatrix, DVector};

/// A zone with its proof.
#[derive(Clone, Debug, PartialEq)]
pub struct Zone {
    /// The parameters, one for each column.
    pub parameters: Vec<f64>,
    /// Of a zone its whole width; of what encloses the greatest residual.
    pub height: f64,
    /// What is left of each reading.
    pub residuals: Vec<f64>,
    /// The readings of the proof, each with its multiplier: `height` is the sum over them of multiplier times reading.
    pub proof: Vec<(usize, f64)>,
    /// How often a reading was exchanged.
    pub exchanges: usize,
}

/// The narrowest zone: the parameters for which greatest less least of `z - columns p` is least. One column must be the same in
/// every row, or stand for it.
///
/// # Errors
/// [`NoForm`] where there are too few readings, where they lie so that the columns hang on each other, or where one is no number.
pub fn minimum_zone(columns: &DMatrix<f64>, z: &[f64]) -> Result<Zone, NoForm> {
    let found = Exchange::of(columns, z, true)?.run()?;
    Ok(Zone {
        height: 2.0 * found.height,
        proof: found.proof.iter().map(|(at, by)| (*at, 2.0 * by)).collect(),
        ..found
    })
}

/// The least that encloses: the parameters for which the greatest of `z - columns p` is least; that is `height`.
///
/// # Errors
/// As [`minimum_zone`]; [`NoForm::InLine`] too where the readings lie to one side, so that nothing bounds it.
pub fn least_enclosing(columns: &DMatrix<f64>, z: &[f64]) -> Result<Zone, NoForm> {
    Exchange::of(columns, z, false)?.run()
}

/// What of a pivot or a step is none.
const NONE: f64 = 1e-11;

/// Exchanges after which ties are broken by number alone, which never turns in a circle.
const USUAL: usize = 50;

/// A column of the table of multipliers: a reading with its sign, or one of the columns that it starts from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Member {
    Reading(usize, bool),
    Start(usize),
}

/// The exchange: `φ` scaled, readings by their greatest, the members of the set.
struct Exchange {
    phi: DMatrix<f64>,
    factors: Vec<f64>,
    z: Vec<f64>,
    scale: f64,
    both_sides: bool,
    set: Vec<Member>,
}

impl Exchange {
    fn of(columns: &DMatrix<f64>, z: &[f64], both_sides: bool) -> Result<Self, NoForm> {
        if z.len() != columns.nrows() || !z.iter().all(|x| x.is_finite()) {
            return Err(NoForm::NoNumber);
        }
        if z.len() <= columns.ncols() {
            return Err(NoForm::TooFew);
        }
        let (phi, factors) = scaled(columns)?;
        let scale = z.iter().fold(0.0_f64, |most, x| most.max(x.abs()));
        let scale = if scale > 0.0 { scale } else { 1.0 };
        let set = (0..=phi.ncols()).map(Member::Start).collect();
        Ok(Self { phi, factors, z: z.iter().map(|x| x / scale).collect(), scale, both_sides, set })
    }

    /// Rows of the table: one for each column of φ, and one for the sum of the multipliers.
    fn rows(&self) -> usize {
        self.phi.ncols() + 1
    }

    fn column(&self, member: Member) -> DVector<f64> {
        DVector::from_iterator(
            self.rows(),
            (0..self.rows()).map(|row| match member {
                Member::Start(at) => f64::from(u8::from(at == row)),
                Member::Reading(..) if row == self.phi.ncols() => 1.0,
                Member::Reading(at, over) => self.sign(over) * self.phi.get((at, row)).copied().unwrap_or(f64::NAN),
            }),
        )
    }

    fn sign(&self, over: bool) -> f64 {
        if over { 1.0 } else { -1.0 }
    }

    /// What a member is worth: while any of the columns that it starts from counts, nothing but being rid of those.
    fn worth(&self, member: Member, starting: bool) -> f64 {
        match member {
            Member::Start(_) => {
                if starting {
                    -1.0
                } else {
                    0.0
                }
            }
            Member::Reading(at, over) if !starting => self.sign(over) * self.z.get(at).copied().unwrap_or(f64::NAN),
            Member::Reading(..) => 0.0,
        }
    }

    fn table(&self) -> DMatrix<f64> {
        DMatrix::from_columns(&self.set.iter().map(|member| self.column(*member)).collect::<Vec<_>>())
    }

    /// The multipliers of the set.
    fn multipliers(&self) -> Result<DVector<f64>, NoForm> {
        let mut sum = DVector::zeros(self.rows());
        if let Some(last) = sum.iter_mut().last() {
            *last = 1.0;
        }
        self.table().lu().solve(&sum).ok_or(NoForm::InLine)
    }

    /// Parameters and width for which every member of the set touches.
    fn touching(&self, starting: bool) -> Result<DVector<f64>, NoForm> {
        let worth = DVector::from_iterator(self.rows(), self.set.iter().map(|member| self.worth(*member, starting)));
        self.table().transpose().lu().solve(&worth).ok_or(NoForm::InLine)
    }

    /// The reading that stands out furthest, and by how much; by number the first that stands out at all.
    fn furthest(&self, touching: &DVector<f64>, starting: bool, by_number: bool) -> Option<Member> {
        let mut found: Option<(Member, f64)> = None;
        let sides = if self.both_sides { &[true, false][..] } else { &[true][..] };
        for at in 0..self.z.len() {
            let across = self.phi.row(at).iter().zip(touching.iter()).map(|(phi, p)| phi * p).sum::<f64>();
            let width = touching.iter().next_back().copied().unwrap_or(f64::NAN);
            for &over in sides {
                let member = Member::Reading(at, over);
                let out = self.worth(member, starting) - self.sign(over) * across - width;
                if out > NONE && !self.set.contains(&member) && found.is_none_or(|(_, most)| out > most) {
                    found = Some((member, out));
                    if by_number {
                        return found.map(|(member, _)| member);
                    }
                }
            }
        }
        found.map(|(member, _)| member)
    }

    /// Takes a reading in; out goes the member whose multiplier is the first to reach nothing.
    fn take_in(&mut self, member: Member) -> Result<(), NoForm> {
        let share = self.table().lu().solve(&self.column(member)).ok_or(NoForm::InLine)?;
        let multipliers = self.multipliers()?;
        let mut out: Option<(usize, f64)> = None;
        for (at, (share, multiplier)) in share.iter().zip(multipliers.iter()).enumerate() {
            let step = multiplier.max(0.0) / share;
            if *share > NONE && out.is_none_or(|(_, least)| step < least - NONE) {
                out = Some((at, step));
            }
        }
        let (at, _) = out.ok_or(NoForm::InLine)?;
        if let Some(place) = self.set.get_mut(at) {
            *place = member;
        }
        Ok(())
    }

    /// Exchanges until nothing stands out; gives how often.
    fn settle(&mut self, starting: bool) -> Result<usize, NoForm> {
        let most = 50 * USUAL + 10 * self.z.len();
        for done in 0..most {
            let touching = self.touching(starting)?;
            match self.furthest(&touching, starting, done > USUAL) {
                Some(member) => self.take_in(member)?,
                None => return Ok(done),
            }
        }
        Err(NoForm::InLine)
    }

    /// Puts a reading in the place of every column that is still one of the start, its multiplier being nothing.
    fn leave_start(&mut self) -> Result<(), NoForm> {
        let multipliers = self.multipliers()?;
        for at in 0..self.set.len() {
            let start = matches!(self.set.get(at), Some(Member::Start(_)));
            if !start {
                continue;
            }
            if multipliers.get(at).is_none_or(|left| left.abs() > 1e-7) {
                return Err(NoForm::InLine);
            }
            let inverse = self.table().try_inverse().ok_or(NoForm::InLine)?;
            let counts = |member: Member| (inverse.row(at) * self.column(member)).sum().abs();
            let all = (0..self.z.len()).map(|reading| Member::Reading(reading, true));
            let best = all.filter(|member| !self.set.contains(member)).map(|member| (member, counts(member)));
            let best = best.max_by(|a, b| a.1.total_cmp(&b.1)).filter(|best| best.1 > NONE).ok_or(NoForm::InLine)?;
            if let Some(place) = self.set.get_mut(at) {
                *place = best.0;
            }
        }
        Ok(())
    }

    fn run(mut self) -> Result<Zone, NoForm> {
        let mut exchanges = self.settle(true)?;
        self.leave_start()?;
        exchanges += self.settle(false)?;
        let (touching, multipliers) = (self.touching(false)?, self.multipliers()?);
        let height = self.scale * touching.iter().next_back().copied().unwrap_or(f64::NAN);
        let parameters: Vec<f64> =
            touching.iter().zip(&self.factors).map(|(p, factor)| self.scale * p / factor).collect();
        let across = |at: usize| self.phi.row(at).iter().zip(touching.iter()).map(|(phi, p)| phi * p).sum::<f64>();
        let residuals = self.z.iter().enumerate().map(|(at, z)| self.scale * (z - across(at))).collect();
        let mut proof: Vec<(usize, f64)> = Vec::new();
        for (member, multiplier) in self.set.iter().zip(multipliers.iter()).filter(|(_, by)| **by > NONE) {
            if let Member::Reading(at, over) = *member {
                proof.push((at, self.sign(over) * multiplier));
            }
        }
        proof.sort_by_key(|(at, _)| *at);
        // A zone is never narrower than nothing; the greatest of what is enclosed may well be below it.
        let height = if self.both_sides { height.max(0.0) } else { height };
        Ok(Zone { parameters, height, residuals, proof, exchanges })
    }
}

#[cfg(test)]
mod tests {
    use super::super::{columns, least_squares};
    use super::*;
    use approx::assert_abs_diff_eq;

    fn cover() -> (DMatrix<f64>, Vec<f64>) {
        let reads = [[0.0, 6.0, 14.0, 9.0], [11.0, 22.0, 31.0, 17.0], [4.0, 19.0, 24.0, -3.0]];
        let rows: Vec<[f64; 3]> = (0..3)
            .flat_map(|row| (0..4).map(move |column| [60.0 * f64::from(column), 50.0 * f64::from(row), 1.0]))
            .collect();
        (columns(&rows).unwrap(), reads.concat())
    }

    /// Three below and one above: the multipliers are the areas of the triangle's parts.
    #[test]
    fn the_narrowest_zone_of_a_cover() {
        let (columns, z) = cover();
        let zone = minimum_zone(&columns, &z).unwrap();
        assert_abs_diff_eq!(zone.height, 31.0, epsilon = 1e-9);
        assert_abs_diff_eq!(zone.parameters[0], 0.05, epsilon = 1e-9);
        assert_abs_diff_eq!(zone.parameters[1], -0.12, epsilon = 1e-9);
        assert_abs_diff_eq!(zone.parameters[2], 15.5, epsilon = 1e-9);
        let expected = [(0, -1.0 / 3.0), (3, -1.0 / 6.0), (6, 1.0), (11, -0.5)];
        assert_eq!(zone.proof.len(), 4);
        for ((at, by), (place, multiplier)) in zone.proof.iter().zip(expected) {
            assert_eq!(*at, place);
            assert_abs_diff_eq!(*by, multiplier, epsilon = 1e-9);
        }
        assert!(zone.exchanges < 20, "{}", zone.exchanges);
    }

    /// Two above and two below.
    #[test]
    fn the_narrowest_zone_of_a_barrel_top() {
        let reads = [0.0, 42.0, 18.0, -35.0, 6.0, 47.0, 9.0, -30.0];
        let rows: Vec<[f64; 3]> = (0..8)
            .map(|k| (f64::from(k) * 45.0).to_radians())
            .map(|angle| [48.0 * angle.cos(), 48.0 * angle.sin(), 1.0])
            .collect();
        let columns = columns(&rows).unwrap();
        let zone = minimum_zone(&columns, &reads).unwrap();
        assert_abs_diff_eq!(zone.height, 77.0, epsilon = 1e-9);
        assert!(zone.proof.iter().all(|(_, by)| (by.abs() - 0.5).abs() < 1e-9), "{:?}", zone.proof);
        assert_abs_diff_eq!(least_squares(&columns, &reads).unwrap().spread(), 82.682, epsilon = 1e-3);
    }

    /// The multipliers prove the zone: they cancel the columns and give its height, and every reading lies in it.
    #[test]
    fn what_is_found_is_proved() {
        let mut seed = 7_u64;
        let mut random = move || {
            seed ^= seed << 13;
            seed ^= seed >> 7;
            seed ^= seed << 17;
            (seed >> 11) as f64 / (1_u64 << 53) as f64
        };
        for case in 0..400 {
            let n = 4 + case % 30;
            let flat = case % 7 == 0;
            let rows: Vec<[f64; 3]> =
                (0..n).map(|_| [random() * 200.0, (random() * 8.0).floor() * 20.0, 1.0]).collect();
            let z: Vec<f64> = (0..n).map(|_| if flat { (random() * 3.0).floor() } else { random() }).collect();
            let Ok(columns) = columns(&rows) else { continue };
            let Ok(zone) = minimum_zone(&columns, &z) else { continue };
            let of = |each: &dyn Fn(usize) -> f64| zone.proof.iter().map(|(at, by)| by * each(*at)).sum::<f64>();
            (0..3).for_each(|column| assert_abs_diff_eq!(of(&|at| rows[at][column]), 0.0, epsilon = 1e-7));
            assert_abs_diff_eq!(of(&|at| z[at]), zone.height, epsilon = 1e-9);
            assert!(zone.residuals.iter().all(|r| r.abs() <= zone.height / 2.0 + 1e-9), "case {case}");
            assert!(zone.height <= least_squares(&columns, &z).unwrap().spread() + 1e-9);
        }
    }

    /// The least circle about four points, from their radii and angles about a centre near by.
    #[test]
    fn the_least_that_encloses() {
        let rows: Vec<[f64; 2]> =
            [0.0_f64, 90.0, 180.0, 270.0].map(f64::to_radians).iter().map(|angle| [angle.cos(), angle.sin()]).collect();
        let zone = least_enclosing(&columns(&rows).unwrap(), &[2.0, 0.0, 0.0, 0.0]).unwrap();
        assert_abs_diff_eq!(zone.height, 1.0, epsilon = 1e-9);
        assert_abs_diff_eq!(zone.parameters[0], 1.0, epsilon = 1e-9);
        // Readings to one side alone bound nothing.
        let half: Vec<[f64; 2]> =
            [0.0_f64, 30.0, 60.0].map(f64::to_radians).iter().map(|a| [a.cos(), a.sin()]).collect();
        assert_eq!(least_enclosing(&columns(&half).unwrap(), &[1.0, 0.0, 1.0]), Err(NoForm::InLine));
    }
}
