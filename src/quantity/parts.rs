//! Sizes that the trade calls by parts of an inch.

/// The finest part of an inch that drills and gauges are called by.
const PARTS: u32 = 64;

/// A size in mm by its parts of an inch, `15/64 in`; nothing where it is no whole ones, or whole tenths of a millimetre.
#[must_use]
pub fn parts_of_an_inch(mm: f64) -> Option<String> {
    let whole = |count: f64| (count - count.round()).abs() < 1e-6;
    let parts = mm / 25.4 * f64::from(PARTS);
    if !whole(parts) || whole(mm * 10.0) || !(1.0..1e6).contains(&parts) {
        return None;
    }
    // Whole, above nought and far from the end of its type.
    let (mut up, mut down) = (parts.round() as u32, PARTS);
    while up.is_multiple_of(2) && down > 1 {
        (up, down) = (up / 2, down / 2);
    }
    Some(match (up / down, up % down) {
        (0, rest) => format!("{rest}/{down} in"),
        (inches, 0) => format!("{inches} in"),
        (inches, rest) => format!("{inches} {rest}/{down} in"),
    })
}

#[cfg(test)]
mod tests {
    use super::parts_of_an_inch;

    #[test]
    fn a_size_in_parts_of_an_inch_is_called_so_and_no_other() {
        for (mm, name) in [
            (6.35, Some("1/4 in")),
            (3.175, Some("1/8 in")),
            (0.396_875, Some("1/64 in")),
            (34.925, Some("1 3/8 in")),
            (5.953_125, Some("15/64 in")),
            (12.7, None),
            (6.3, None),
            (8.25, None),
            (0.0, None),
            (-6.35, None),
        ] {
            assert_eq!(parts_of_an_inch(mm).as_deref(), name);
        }
    }
}
