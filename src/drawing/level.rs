//! Lines of equal height on a face that was read on a grid: straight within a quarter of each cell that has four readings, and nowhere
//! else, so that none crosses what has no metal.

use super::Spot;
use std::collections::BTreeMap;

/// A place on the face, mm.
type At = (f64, f64);

/// Lines at these heights, each from end to end.
#[must_use]
pub fn level_lines(places: &[Spot], heights: &[f64]) -> Vec<Vec<At>> {
    let quarters: Vec<[(At, f64); 3]> = cells(places).iter().flat_map(quarters).collect();
    heights.iter().flat_map(|height| joined(quarters.iter().filter_map(|of| crossing(of, *height)).collect())).collect()
}

/// The cells of a grid whose four corners were read.
fn cells(places: &[Spot]) -> Vec<[(At, f64); 4]> {
    let sorted = |of: fn(&Spot) -> f64| {
        let mut all: Vec<f64> = places.iter().map(of).collect();
        all.sort_by(f64::total_cmp);
        all.dedup();
        all
    };
    let (xs, ys) = (sorted(|spot| spot.x), sorted(|spot| spot.y));
    let read: BTreeMap<(u64, u64), f64> =
        places.iter().map(|spot| ((spot.x.to_bits(), spot.y.to_bits()), spot.height)).collect();
    let corner = |x: f64, y: f64| Some(((x, y), *read.get(&(x.to_bits(), y.to_bits()))?));
    let pairs = |of: &[f64]| of.windows(2).filter_map(|two| <[f64; 2]>::try_from(two).ok()).collect::<Vec<_>>();
    let (along, down) = (pairs(&xs), pairs(&ys));
    let cell = |[left, right]: [f64; 2], [top, bottom]: [f64; 2]| {
        Some([corner(left, top)?, corner(right, top)?, corner(right, bottom)?, corner(left, bottom)?])
    };
    along.iter().flat_map(|x| down.iter().filter_map(|y| cell(*x, *y)).collect::<Vec<_>>()).collect()
}

/// A cell in four, about its middle, which stands as high as its corners do on the whole.
fn quarters(cell: &[(At, f64); 4]) -> [[(At, f64); 3]; 4] {
    let [a, b, c, d] = *cell;
    let middle = |of: fn(&(At, f64)) -> f64| cell.iter().map(of).sum::<f64>() / 4.0;
    let middle = ((middle(|((x, _), _)| *x), middle(|((_, y), _)| *y)), middle(|(_, height)| *height));
    [[a, b, middle], [b, c, middle], [c, d, middle], [d, a, middle]]
}

/// Where a height crosses a quarter of a cell.
fn crossing(corners: &[(At, f64); 3], height: f64) -> Option<[At; 2]> {
    let [a, b, c] = *corners;
    let meet = |one: (At, f64), other: (At, f64)| {
        // From the lower to the higher, so that two quarters find one place on the side that they share.
        let (low, high) = if (one.1, one.0) <= (other.1, other.0) { (one, other) } else { (other, one) };
        let share = (height - low.1) / (high.1 - low.1);
        let is_between = low.1 < height && height <= high.1;
        let between = |from: f64, to: f64| from + share * (to - from);
        is_between.then(|| (between(low.0.0, high.0.0), between(low.0.1, high.0.1)))
    };
    let mut found = [meet(a, b), meet(b, c), meet(c, a)].into_iter().flatten();
    found.next().zip(found.next()).filter(|(from, to)| from != to).map(|(from, to)| [from, to])
}

/// Pieces that meet as one line.
fn joined(pieces: Vec<[At; 2]>) -> Vec<Vec<At>> {
    let mut lines: Vec<Vec<At>> = Vec::new();
    let mut left = pieces;
    while let Some([from, to]) = left.pop() {
        let mut line = vec![from, to];
        loop {
            let (first, last) = (line.first().copied(), line.last().copied());
            let goes_on = |end: Option<At>| {
                let end = end?;
                left.iter().position(|piece| piece.contains(&end)).map(|at| (at, end))
            };
            let other = |piece: [At; 2], end: At| if piece[0] == end { piece[1] } else { piece[0] };
            if let Some((at, end)) = goes_on(last) {
                let next = other(left.swap_remove(at), end);
                line.push(next);
            } else if let Some((at, end)) = goes_on(first) {
                let next = other(left.swap_remove(at), end);
                line.insert(0, next);
            } else {
                break;
            }
        }
        lines.push(line);
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;

    fn grid(across: usize, down: usize, height: impl Fn(f64, f64) -> f64) -> Vec<Spot> {
        let all = (0..across * down).map(|n| ((n % across) as f64 * 10.0, (n / across) as f64 * 10.0));
        all.map(|(x, y)| Spot { x, y, height: height(x, y), says: String::new(), touches: None }).collect()
    }

    #[test]
    fn on_a_plane_each_line_is_straight_and_as_high_as_it_says() {
        let places = grid(5, 4, |x, y| 0.001 * x + 0.0005 * y);
        let lines = level_lines(&places, &[0.012, 0.025]);
        assert_eq!(lines.len(), 2, "{lines:?}");
        for (line, height) in lines.iter().zip([0.012, 0.025]) {
            assert!(line.iter().all(|(x, y)| (0.001 * x + 0.0005 * y - height).abs() < 1e-12), "{line:?}");
            assert!(line.len() > 4);
        }
    }

    #[test]
    fn round_a_hill_a_line_closes_and_nothing_crosses_what_was_not_read() {
        let hill = |x: f64, y: f64| 0.030 - 0.00005 * ((x - 20.0).powi(2) + (y - 20.0).powi(2));
        let whole = grid(5, 5, hill);
        let lines = level_lines(&whole, &[0.018]);
        assert_eq!(lines.len(), 1);
        assert_eq!(lines[0].first(), lines[0].last());
        // Without its middle no cell about that has four readings.
        let mut holed = whole;
        holed.retain(|spot| (spot.x, spot.y) != (20.0, 20.0));
        let is_in_hole = |(x, y): &At| (*x - 20.0).abs() < 9.99 && (*y - 20.0).abs() < 9.99;
        let levels: Vec<f64> = (1..30).map(|n| f64::from(n) * 0.001).collect();
        assert!(!level_lines(&holed, &levels).iter().flatten().any(is_in_hole));
        // A flat face has none.
        assert!(level_lines(&grid(3, 3, |_, _| 0.0), &[0.0, 0.001]).is_empty());
    }
}
