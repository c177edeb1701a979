//! A size with what it may be over and under, in the orders and signs that drawings have: brought to the one that is read.

use super::exact::Fraction;

/// `24 0/-0.05 mm`, `24 -0.05/+0 mm` as `24 +0/-0.05 mm`; with both on one side, `20 +0.053/+0.020 mm`, as the two limits; none where
/// it is neither.
pub(super) fn in_order(text: &str) -> Option<String> {
    let at = text.rfind(|c: char| c.is_ascii_digit() || c == '.')? + 1;
    let (figures, unit) = text.split_at_checked(at)?;
    let (size, one, other) = parts(figures)?;
    let read = |part: &str| Fraction::read(part).filter(|read| read.decimal);
    let (nominal, first, second) = (read(size)?, read(one)?, read(other)?);
    let number = |read: Fraction| read.up as f64 / read.down as f64;
    let in_turn = number(first) >= number(second);
    let (up, down) = if in_turn { (first, second) } else { (second, first) };
    let unit = unit.trim_start();
    if up.up >= 0 && down.up <= 0 {
        let (up, down) = if in_turn { (one, other) } else { (other, one) };
        let bare = |part: &str| part.trim_start_matches(['+', '-', '−']).to_owned();
        return Some(format!("{size} +{}/-{} {unit}", bare(up), bare(down)));
    }
    // Both are over it, or under it.
    let digits = [nominal, up, down].iter().map(|read| read.down).max()?;
    let limit = |by: Fraction| {
        let whole = nominal.up * (digits / nominal.down) + by.up * (digits / by.down);
        let places = digits.to_string().len() - 1;
        format!("{:.places$}", whole as f64 / digits as f64)
    };
    Some(format!("{} to {} {unit}", limit(down), limit(up)))
}

/// The size and the two figures behind it, of which the one or the other has a sign and a nought may have none.
fn parts(figures: &str) -> Option<(&str, &str, &str)> {
    let (size, rest) = figures.trim().split_once(' ')?;
    let rest = rest.trim();
    let signed = |part: &str| part.starts_with(['+', '-', '−']);
    let nought = |part: &str| part.trim_matches(['0', '.']).is_empty() && part.contains('0');
    let (one, other) = rest.split_once('/').or_else(|| rest.split_once(' '))?;
    let (one, other) = (one.trim(), other.trim());
    let are_signed = (signed(one) || nought(one)) && (signed(other) || nought(other)) && (signed(one) || signed(other));
    (are_signed && size.starts_with(|c: char| c.is_ascii_digit() || c == '.')).then_some((size, one, other))
}

#[cfg(test)]
mod tests {
    use super::super::{Measured, Mm, Quantity, Wanted};

    /// Each form that is read, with the limits that it has, and the plain form that has the same.
    #[test]
    fn limits_are_read_in_every_order_that_drawings_have() {
        for (typed, low, high) in [
            ("24 +0/-0.05 mm", 23.95, 24.0),
            ("24 +0 -0.05 mm", 23.95, 24.0),
            ("24.00 0/-0.05 mm", 23.95, 24.0),
            ("24.00 0 -0.05 mm", 23.95, 24.0),
            ("24.00 -0.05/+0 mm", 23.95, 24.0),
            ("24.00 -0.05/0 mm", 23.95, 24.0),
            ("24.00 -0.05 +0.00 mm", 23.95, 24.0),
            ("24 +0.1/0 mm", 24.0, 24.1),
            ("24 +0.1/-0 mm", 24.0, 24.1),
            ("20 +0.053/+0.020 mm", 20.02, 20.053),
            ("20 +0.020 +0.053 mm", 20.02, 20.053),
            ("20 -0.020/-0.041 mm", 19.959, 19.98),
            ("20 −0.020/−0.041 mm", 19.959, 19.98),
            ("1.000 -.0005/-.0015 in", 25.3619, 25.3873),
            ("23.95 – 24.00 mm", 23.95, 24.0),
            ("23.95–24.00 mm", 23.95, 24.0),
            ("23.95 mm – 24.00 mm", 23.95, 24.0),
            ("23.95 — 24.00 mm", 23.95, 24.0),
            ("23.95…24.00 mm", 23.95, 24.0),
            ("23.95 ... 24.00 mm", 23.95, 24.0),
            ("23.95...24.00 mm", 23.95, 24.0),
            (".943\" – .945\"", 23.9522, 24.003),
        ] {
            let read: Wanted<Mm> = typed.parse().unwrap_or_else(|fault| panic!("{typed}: {fault}"));
            let (got_low, got_high) = (read.low.number(), read.high.number());
            assert!((got_low - low).abs() < 1e-9 && (got_high - high).abs() < 1e-9, "{typed}: {got_low} {got_high}");
        }
    }

    /// What may be a size and what is taken off it is asked back, and never told as limits that it cannot mean.
    #[test]
    fn one_figure_behind_a_size_is_asked_back() {
        let wanted = |text: &str| text.parse::<Wanted<Mm>>().unwrap_err().to_string();
        for (typed, says) in [
            ("24 -0.05 mm", "both sides: `24 +0/-0.05 mm`"),
            ("24-0.05 mm", "both sides: `24 +0/-0.05 mm`"),
            ("24 +0.05 mm", "both sides: `24 +0.05/-0 mm`"),
            ("24+0.05 mm", "both sides: `24 +0.05/-0 mm`"),
            ("24 –0.05 mm", "the lower end comes first"),
            ("18-19 mm", "limits are written `18 to 19 mm`"),
            ("24.00/23.95 mm", "is not a number"),
        ] {
            assert!(wanted(typed).contains(says), "{typed}: {}", wanted(typed));
        }
        // What is measured is given with ±, in whatever form its ends were typed.
        for typed in ["17.7 – 18.3 mm", "17.7…18.3 mm", "17.7 to 18.3 mm", "18 +0.3/-0.3 mm", "18 -0.3/+0.3 mm"] {
            let says = typed.parse::<Measured<Mm>>().unwrap_err().to_string();
            assert!(says.contains("as in `18 ± 0.3 mm`"), "{typed}: {says}");
        }
        // No other unit is told where the unit has a figure of its own.
        let says = "0..91e-6/K".parse::<Measured<super::super::Expansion>>().unwrap_err().to_string();
        assert_eq!(says, "this is measured: give one figure, with ± for its doubt");
        // A mixed fraction has a dash too.
        assert_eq!("1–3/8 in".parse::<Measured<Mm>>().ok().map(|read| read.value.number()), None);
        assert_eq!("1-3/8 in".parse::<Measured<Mm>>().unwrap().value.number(), 34.925);
    }
}
