//! Form from readings: least squares against LAPACK, zones and what encloses against linear programming (`forms.py`), and least
//! squares against the reference data sets of a national standards body (`read/strd.csv`).

use super::{number, rows};
use nalgebra::DMatrix;
use setover::handbook::form::{NoForm, columns, least_enclosing, least_squares, minimum_zone};
use std::collections::BTreeMap;

/// Whole numbers as `forms.py` makes them: a linear congruence of 64 bits, of which the upper 31 count.
pub(super) struct Dice(u64);

impl Dice {
    pub(super) fn of(seed: u64, case: u64) -> Self {
        let mut dice = Self(seed.wrapping_add(case * 1_000_003));
        for _ in 0..3 {
            dice.next(1);
        }
        dice
    }

    pub(super) fn next(&mut self, below: i64) -> i64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        i64::try_from(((self.0 >> 33) * below.unsigned_abs()) >> 31).expect("31 bits")
    }
}

fn readings(case: u64, dice: &mut Dice, (least, most): (i64, i64)) -> Vec<i64> {
    let n = least + dice.next(most - least + 1);
    let mut off = Vec::new();
    for _ in 0..n {
        let mut size = dice.next(1001) - 500;
        match case % 10 {
            0 => size = 0,
            1 => size = 100 * size.div_euclid(100),
            _ => {}
        }
        if dice.next(20) == 0 && case % 10 > 1 {
            size *= 4;
        }
        off.push(size);
    }
    off
}

type Read = (DMatrix<f64>, Vec<f64>);

fn plane(seed: u64, case: u64, many: (i64, i64)) -> Result<Read, NoForm> {
    let mut dice = Dice::of(seed, case);
    let off = readings(case, &mut dice, many);
    let (lean, dip) = (dice.next(201) - 100, dice.next(201) - 100);
    let (mut places, mut read) = (Vec::new(), Vec::new());
    for z in off {
        let (mut x, mut y) = (dice.next(20_001), dice.next(20_001));
        match case % 10 {
            1 => (x, y) = (2_000 * (x / 2_000), 2_000 * (y / 2_000)),
            2 => y = 2 * x,
            _ => {}
        }
        places.push([x as f64 / 100.0, y as f64 / 100.0, 1.0]);
        read.push((z * 10_000 + (lean * x + dip * y)) as f64 / 1e8);
    }
    Ok((columns(&places)?, read))
}

fn turn(case: u64, dice: &mut Dice, at: i64, n: i64) -> f64 {
    let degrees = 36_000 * at / n;
    let degrees = if case % 2 == 1 { degrees } else { (degrees + dice.next(24_000 / n + 1)) % 36_000 };
    (degrees as f64 / 100.0).to_radians()
}

fn circle(seed: u64, case: u64, many: (i64, i64)) -> Result<Read, NoForm> {
    let mut dice = Dice::of(seed, case + 10_000);
    let off = readings(case, &mut dice, many);
    let (a, b) = (dice.next(2001) - 1000, dice.next(2001) - 1000);
    let (mut places, mut read) = (Vec::new(), Vec::new());
    let n = i64::try_from(off.len()).expect("few");
    for (at, z) in (0..).zip(off) {
        let (s, c) = turn(case, &mut dice, at, n).sin_cos();
        places.push([1.0, c, s]);
        read.push(z as f64 / 1e4 + a as f64 / 1e4 * c + b as f64 / 1e4 * s);
    }
    Ok((columns(&places)?, read))
}

fn cylinder(seed: u64, case: u64, many: (i64, i64)) -> Result<Read, NoForm> {
    let mut dice = Dice::of(seed, case + 20_000);
    let off = readings(case, &mut dice, many);
    let radius = 33 + dice.next(40);
    let (wide, lean) = (dice.next(2001) - 1000, dice.next(201) - 100);
    let (mut places, mut read) = (Vec::new(), Vec::new());
    let n = i64::try_from(off.len()).expect("few");
    for (at, z) in (0..).zip(off) {
        let angle = turn(case, &mut dice, at, n);
        let depth = (dice.next(12_001) - 6_000) as f64 / 100.0;
        let (s, c) = angle.sin_cos();
        places.push([1.0, c, s, depth * c, depth * s]);
        read.push(radius as f64 + z as f64 / 1e4 + wide as f64 / 1e4 * c + lean as f64 / 1e6 * depth * s);
    }
    Ok((columns(&places)?, read))
}

/// What is asked of some readings, as figures; the last is the one that must agree whatever the parameters do.
fn found(what: &str, (places, read): &Read) -> Result<Vec<f64>, NoForm> {
    if what.ends_with("-least-squares") {
        let fit = least_squares(places, read)?;
        return Ok(fit.parameters.iter().copied().chain([fit.spread()]).collect());
    }
    let zone = what.ends_with("-zone");
    let found = if zone { minimum_zone(places, read)? } else { encloses(places, read)? };
    // The proof: whatever the parameters are, no zone is narrower, nothing that encloses is less.
    let scale = read.iter().fold(0.0_f64, |most, z| most.max(z.abs())).max(1.0);
    for column in 0..places.ncols() {
        let sum: f64 = found.proof.iter().map(|(at, by)| by * places[(*at, column)]).sum();
        let wanted = if !zone && column == 0 { 1.0 } else { 0.0 };
        let widest = places.column(column).amax().max(1.0);
        assert!((sum - wanted).abs() <= 1e-11 * widest, "{what}: {sum} for {wanted}");
    }
    if zone {
        let by_proof: f64 = found.proof.iter().map(|(at, by)| by * read[*at]).sum();
        assert!((by_proof - found.height).abs() <= 1e-12 * scale * 10.0, "{what}: {by_proof} {}", found.height);
        let spread = least_squares(places, read)?.spread();
        assert!(found.height <= spread + 1e-12, "{what}: never wider than that of least squares");
    }
    Ok(vec![found.height])
}

/// The least that encloses: radius and place are sought, the radius least. As the solver asks it, the first column left to it.
fn encloses(places: &DMatrix<f64>, read: &[f64]) -> Result<setover::handbook::form::Zone, NoForm> {
    let other = places.columns(1, places.ncols() - 1).into_owned();
    least_enclosing(&other, read)
}

#[test]
fn form_from_random_readings() {
    let all = rows("forms.csv");
    let seed = all.iter().find(|row| row["what"] == "seed").map(|row| number(row, "result") as u64).expect("a seed");
    println!("seed {seed}");
    let mut counts: BTreeMap<String, (usize, usize)> = BTreeMap::new();
    let mut wrong = Vec::new();
    for row in all.iter().filter(|row| row["what"] != "seed") {
        let (what, case) = (row["what"].as_str(), number(row, "case") as u64);
        let squares = what.ends_with("-least-squares");
        let read = match what.split('-').next() {
            Some("plane") => plane(seed, case, if squares { (3, 400) } else { (4, 120) }),
            Some("circle") => circle(seed, case, if squares { (3, 400) } else { (4, 120) }),
            _ => cylinder(
                seed,
                case,
                if squares {
                    (5, 400)
                } else if what.ends_with("zone") {
                    (6, 120)
                } else {
                    (8, 120)
                },
            ),
        };
        let got = read.and_then(|read| {
            assert_eq!(read.1.len(), number(row, "n") as usize, "{what} {case}: the same readings");
            let scale = read.1.iter().fold(0.0_f64, |most, z| most.max(z.abs()));
            let most: Vec<f64> = read.0.column_iter().map(|column| column.amax()).collect();
            Ok((found(what, &read)?, scale, most))
        });
        let count = counts.entry(what.to_owned()).or_default();
        match (row["result"].as_str(), got) {
            ("in-line" | "nothing-bounds-it", Err(NoForm::InLine)) => count.1 += 1,
            (result, Ok((got, scale, most))) if result.starts_with(|c: char| c == '-' || c.is_ascii_digit()) => {
                let wanted: Vec<f64> = result.split(' ').map(|figure| figure.parse().expect("a figure")).collect();
                // A parameter counts by what it does over the whole of its column.
                let by = most.iter().copied().chain([1.0]).skip(if squares { 0 } else { most.len() });
                let off = got.iter().zip(&wanted).zip(by).map(|((got, wanted), by)| (got - wanted).abs() * by);
                let off = off.fold(0.0, f64::max);
                count.0 += 1;
                if got.len() != wanted.len() || off > 1e-9 * scale.max(1e-3) {
                    wrong.push(format!("{what} {case}: {got:?} for {wanted:?}, off {off:e}, scale {scale}"));
                }
            }
            (result, got) => wrong.push(format!("{what} {case}: {:?} for {result}", got.map(|got| got.0))),
        }
    }
    println!("{counts:?}");
    assert!(wrong.is_empty(), "{} wrong, first:\n{}", wrong.len(), wrong[..wrong.len().min(12)].join("\n"));
    assert_eq!(counts.len(), 7);
    assert!(counts.values().all(|(agree, refused)| agree + refused == 2000 && *agree > 1500), "{counts:?}");
}

/// A set of reference data: the places of its readings, the readings, and the parameters certified.
type Certified = (Vec<Vec<f64>>, Vec<f64>, Vec<f64>);

/// The parameters that a national standards body certifies, to so many digits as QR in this arithmetic keeps.
#[test]
fn least_squares_of_certified_data() {
    let mut sets: BTreeMap<String, Certified> = BTreeMap::new();
    for row in rows("read/strd.csv") {
        let set = sets.entry(row["set"].clone()).or_default();
        let figures = |text: &str| -> Vec<f64> { text.split(' ').map(|f| f.parse().expect("a figure")).collect() };
        match row["kind"].as_str() {
            "certified" => set.2 = figures(&row["figures"]),
            _ => {
                let mut all = figures(&row["figures"]);
                set.1.push(all.remove(0));
                set.0.push(all);
            }
        }
    }
    assert_eq!(sets.len(), 6);
    for (name, (x, y, certified)) in sets {
        let power = |x: f64, upto: i32| (0..=upto).map(move |k| x.powi(k));
        let of = |x: &Vec<f64>| -> Vec<f64> {
            match (name.as_str(), certified.len()) {
                ("Longley", _) => [1.0].into_iter().chain(x.iter().copied()).collect(),
                (_, many) => power(x[0], i32::try_from(many).expect("few") - 1).collect(),
            }
        };
        let table: Vec<Vec<f64>> = x.iter().map(of).collect();
        let places = DMatrix::from_row_iterator(table.len(), certified.len(), table.iter().flatten().copied());
        let fit = least_squares(&places, &y).expect("they follow");
        let digits = fit.parameters.iter().zip(&certified).map(|(got, wanted)| {
            let off = ((got - wanted) / wanted).abs();
            if off == 0.0 { 15.0 } else { (-off.log10()).min(15.0) }
        });
        let least = digits.fold(15.0, f64::min);
        println!("{name}: {least:.1} digits");
        // Powers up to the fifth of 0 to 20 lose seven digits, readings that lie a million off their curve two more.
        let asked = if name == "Wampler5" {
            5.0
        } else if name.starts_with("Wampler") {
            7.0
        } else {
            10.0
        };
        assert!(least >= asked, "{name}: {least:.1} digits: {:?} for {certified:?}", fit.parameters);
    }
}

/// Figures small enough to be worked with a pencil: a grid of nine, a twisted face, four points of a circle, and an arc so short that the
/// linear fit of its circle lies far from it.
#[test]
fn faces_and_circles_worked_by_hand() {
    let grid = |z: [f64; 9]| {
        let rows: Vec<[f64; 3]> = (0..9).map(|at| [f64::from(at % 3) * 50.0, f64::from(at / 3) * 50.0, 1.0]).collect();
        let all = columns(&rows).expect("a grid");
        (least_squares(&all, &z).expect("a plane"), minimum_zone(&all, &z).expect("a zone"))
    };
    let (plane, zone) = grid([0.0, 8.0, 12.0, 5.0, 20.0, 18.0, 9.0, 16.0, 30.0]);
    assert!((plane.peak() - plane.valley() - 9.833).abs() < 5e-4, "{}", plane.peak() - plane.valley());
    assert!((zone.height - 9.5).abs() < 1e-9, "{}", zone.height);
    let (plane, zone) = grid([10.0, 0.0, -10.0, 0.0, 0.0, 0.0, -10.0, 0.0, 10.0]);
    assert!((plane.peak() - plane.valley() - 20.0).abs() < 1e-9 && (zone.height - 20.0).abs() < 1e-9);
    // x² + y² = 2 a x + 2 b y + c: centre a, b.
    let circle = |points: &[(f64, f64)]| {
        let rows: Vec<[f64; 3]> = points.iter().map(|(x, y)| [2.0 * x, 2.0 * y, 1.0]).collect();
        let squares: Vec<f64> = points.iter().map(|(x, y)| x * x + y * y).collect();
        let fit = least_squares(&columns(&rows).expect("points"), &squares).expect("a circle");
        let (a, b, c) = (fit.parameters[0], fit.parameters[1], fit.parameters[2]);
        (a, b, (c + a * a + b * b).sqrt())
    };
    let (a, b, radius) = circle(&[(40.03, 0.0), (0.0, 39.98), (-39.97, 0.0), (0.0, -40.02)]);
    assert!((a - 0.03).abs() < 5e-5 && (b + 0.02).abs() < 5e-5 && (radius - 40.0).abs() < 5e-5, "{a} {b} {radius}");
    let parabola: Vec<(f64, f64)> = (0..7).map(|at| f64::from(at) / 2.0).map(|x| (x, x * x)).collect();
    let (a, b, radius) = circle(&parabola);
    assert!(
        (a + 11.8393).abs() < 5e-5 && (b - 8.4464).abs() < 5e-5 && (radius - 14.6864).abs() < 5e-5,
        "{a} {b} {radius}"
    );
}
