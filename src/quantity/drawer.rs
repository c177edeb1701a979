//! Drills by the names on their drawers: `#7`, `letter F`, `5/16 in`. A drawer has a name where a caliper has a figure.

use super::decimal::decimal;
use super::misread::Misread;
use std::borrow::Cow;
use std::sync::LazyLock;

/// A drill of the list: its name and its size in inches, as they are written there.
struct Listed {
    name: Cow<'static, str>,
    inches: &'static str,
}

/// The numbers, then the letters.
fn rows() -> &'static [Listed] {
    static ROWS: LazyLock<Vec<Listed>> = LazyLock::new(|| {
        let lines = include_str!("../../shared/drill-sizes.csv").lines().filter(|line| !line.starts_with('#'));
        let row = |line: &'static str| {
            let mut cells = line.split(',');
            let (name, inches) = (cells.next()?, cells.next()?);
            let is_number = name.bytes().all(|b| b.is_ascii_digit());
            Some(Listed { name: if is_number { format!("#{name}").into() } else { name.into() }, inches })
        };
        lines.skip(1).filter_map(row).collect()
    });
    &ROWS
}

/// The size of a drill by its name, as inches would be typed; nothing where no drill is named.
pub(super) fn inches(text: &str) -> Option<Result<String, Misread>> {
    let text = text.trim();
    if !text.starts_with(|c: char| c == '#' || c.is_ascii_alphabetic()) {
        return None;
    }
    // As it is printed: `#7 (0.2010 in)`.
    let (text, printed) = text.split_once(" (").map_or((text, false), |(name, _)| (name, true));
    let small = text.to_ascii_lowercase();
    let named = small.strip_prefix("drill ").unwrap_or(&small);
    let bare = named.strip_suffix(" drill").unwrap_or(named).trim();
    let with_word = printed || bare.len() < small.len();
    let after = |words: &[&str]| {
        let word = words.iter().find(|word| bare.starts_with(**word))?;
        bare.get(word.len()..).map(str::trim)
    };
    let size = |row: &Listed| Ok(format!("{} in", row.inches));
    if let Some(number) = after(&["#", "number ", "no.", "no "]) {
        let is_number = !number.is_empty() && number.bytes().all(|b| b.is_ascii_digit());
        let known = rows().iter().find(|row| row.name.strip_prefix('#') == Some(number));
        let says = "number drills go from #1 (0.228 in) to #80 (0.0135 in)";
        let none = || Err(Misread::Meanings { text: text.to_owned(), says });
        return is_number.then(|| known.map_or_else(none, size));
    }
    let letter = after(&["letter "]).or_else(|| with_word.then_some(bare))?;
    rows().iter().find(|row| row.name.eq_ignore_ascii_case(letter)).map(size)
}

/// A single letter is no size: it may be the name of a drill.
pub(super) fn is_bare_letter(text: &str) -> bool {
    text.len() == 1 && text.bytes().all(|b| b.is_ascii_uppercase())
}

/// The size nearest to `mm` that a metric drawer has: a whole twentieth of a millimetre.
pub fn metric_drill(mm: f64) -> f64 {
    (mm * 20.0).round() / 20.0
}

/// The name on the drawer of a drill of that size, mm: a number, a letter or a fraction of an inch; none where it is a whole
/// twentieth of a millimetre, which a metric drawer has.
pub fn drawer_name(mm: f64) -> Option<String> {
    /// A list in millimetres is rounded to hundredths.
    const NEAR: f64 = 0.0056;
    if !mm.is_finite() || mm <= 0.0 || (mm - metric_drill(mm)).abs() * 20.0 < 1e-6 {
        return None;
    }
    let inch = mm / 25.4;
    let parts = (inch * 64.0).round();
    if parts >= 1.0 && (parts / 64.0 - inch).abs() * 25.4 < 1e-4 {
        return Some(fraction(parts as u32));
    }
    let off = |row: &Listed| row.inches.parse::<f64>().map_or(f64::INFINITY, |size| (size - inch).abs() * 25.4);
    let nearest = rows().iter().min_by(|a, b| off(a).total_cmp(&off(b)))?;
    (off(nearest) < NEAR).then(|| nearest.name.to_string())
}

/// So many sixty-fourths of an inch.
fn fraction(parts: u32) -> String {
    let (whole, mut above, mut below) = (parts / 64, parts % 64, 64);
    while above > 0 && above.is_multiple_of(2) {
        (above, below) = (above / 2, below / 2);
    }
    match (whole, above) {
        (whole, 0) => format!("{whole} in"),
        (0, above) => format!("{above}/{below} in"),
        (whole, above) => format!("{whole} {above}/{below} in"),
    }
}

/// A drill by the name that a table has for it (`#7`, `F`, `27/64`), as a person finds it and measures it: `#7 (0.2010 in)`,
/// `27/64 in`; nothing of a name that is none.
pub fn by_drawer(name: &str) -> Option<String> {
    match rows().iter().find(|row| row.name == name) {
        Some(row) => Some(format!("{name} ({} in)", decimal(row.inches.parse().ok()?, 4))),
        None => name.contains('/').then(|| format!("{} in", name.replace('-', " "))),
    }
}

/// Every drill that is called by a number or a letter, with its size in inches as it is listed.
pub fn drawer_list() -> impl Iterator<Item = (String, &'static str)> {
    rows().iter().map(|row| {
        let is_letter = row.name.bytes().all(|b| b.is_ascii_alphabetic());
        (if is_letter { format!("letter {}", row.name) } else { row.name.to_string() }, row.inches)
    })
}

/// The size, mm, of a drill by the name that a table has for it; nothing of a name that is none.
pub fn size_by_drawer(name: &str) -> Option<f64> {
    if let Some(row) = rows().iter().find(|row| row.name == name) {
        return row.inches.parse::<f64>().ok().map(|inches| inches * 25.4);
    }
    let (whole, part) = name.split_once('-').unwrap_or(("0", name));
    let (above, below) = part.split_once('/')?;
    let number = |text: &str| text.parse::<f64>().ok();
    Some((number(whole)? + number(above)? / number(below)?) * 25.4)
}

/// The size of the list, mm, of a drill that is called by a number or a letter; any other as it is.
pub fn listed_size(mm: f64) -> f64 {
    drawer_name(mm).and_then(|name| size_by_drawer(&name)).unwrap_or(mm)
}

#[cfg(test)]
mod tests {
    use super::super::{Mm, Quantity, Written};
    use super::*;

    fn mm(text: &str) -> f64 {
        text.parse::<Written<Mm>>().unwrap_or_else(|e| panic!("{text}: {e}")).value.number()
    }

    #[test]
    fn a_drill_is_read_by_its_name() {
        for name in ["#7", "# 7", "no. 7", "No 7", "number 7", "#7 drill", "drill #7", "#7 (0.2010 in)"] {
            assert_eq!(mm(name).to_bits(), mm("0.2010 in").to_bits(), "{name}");
        }
        for name in ["letter F", "letter f", "F drill", "drill F", "F (0.2570 in)"] {
            assert_eq!(mm(name).to_bits(), mm("0.257 in").to_bits(), "{name}");
        }
        let says = |text: &str| text.parse::<Written<Mm>>().unwrap_err().to_string();
        assert!(says("F").contains("write `letter F`"), "{}", says("F"));
        assert!(says("#95").contains("from #1"), "{}", says("#95"));
        assert!(says("foo").contains("has no unit"), "{}", says("foo"));
        assert!("#7".parse::<Written<super::super::Newton>>().is_err(), "a force is no drill");
    }

    #[test]
    fn a_size_has_the_name_of_its_drawer() {
        assert_eq!(rows().len(), 80 + 26);
        let size = |row: &Listed| row.inches.parse::<f64>().unwrap();
        assert!(rows()[..80].is_sorted_by(|a, b| size(a) > size(b)), "numbers fall");
        assert!(rows()[80..].is_sorted_by(|a, b| size(a) < size(b)), "letters rise");
        for (mm, name) in [(0.2010 * 25.4, "#7"), (5.11, "#7"), (7.9375, "5/16 in"), (28.971_875, "1 9/64 in")] {
            assert_eq!(drawer_name(mm).as_deref(), Some(name), "{mm}");
        }
        for mm in [8.5, 8.45, 12.7, 0.0, f64::NAN, 200.003] {
            assert_eq!(drawer_name(mm), None, "{mm}");
        }
        // What a list in millimetres has rounded is the size of its drawer.
        assert_eq!([8.43, 10.08, 5.11].map(listed_size), [0.3320 * 25.4, 0.3970 * 25.4, 0.2010 * 25.4]);
        assert_eq!([8.5, 7.9375, 6.7].map(listed_size), [8.5, 7.9375, 6.7]);
        assert_eq!(
            ["Q", "17/64", "1-1/32"].map(size_by_drawer),
            [Some(0.3320 * 25.4), Some(17.0 / 64.0 * 25.4), Some(33.0 / 32.0 * 25.4)]
        );
        assert_eq!(by_drawer("F").as_deref(), Some("F (0.2570 in)"));
        assert_eq!(by_drawer("1-1/64").as_deref(), Some("1 1/64 in"));
    }
}
