//! Reading digits exactly: a size is a whole number times the unit's exact ratio, divided once at the end.

/// A fraction of whole numbers, as it was written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Fraction {
    /// Numerator.
    pub up: i128,
    /// Denominator, above zero.
    pub down: i128,
    /// Whether it was written as a decimal (`12.50`) and not as a fraction (`1/2`).
    pub decimal: bool,
}

/// Digits beyond this are not a workshop's size: numerator and denominator stay far inside `i128`.
const MOST: i128 = 1_000_000_000_000;

impl Fraction {
    /// Reads `18.0`, `.594`, `18.`, `-3`, `3/8`, `1 3/8`, `1-3/8` or `1.3/8`; `None` where the text is no number or has too many
    /// digits.
    pub(super) fn read(text: &str) -> Option<Self> {
        let text = text.trim();
        let (negative, digits) = match text.strip_prefix(['-', '−']) {
            Some(rest) => (true, rest.trim_start()),
            None => (false, text.strip_prefix('+').unwrap_or(text)),
        };
        let read = if digits.contains('/') { Self::common(digits) } else { Self::decimal(digits) }?;
        (read.up < MOST && read.down < MOST).then_some(Self { up: if negative { -read.up } else { read.up }, ..read })
    }

    fn common(text: &str) -> Option<Self> {
        let (head, below) = text.split_once('/')?;
        let head = head.trim_end();
        let (whole, above) = head.rsplit_once([' ', '-', '.']).unwrap_or(("0", head));
        let (whole, above) = (whole_number(whole.trim_end())?, whole_number(above)?);
        let down = whole_number(below.trim()).filter(|d| (1..=1024).contains(d))?;
        // `1.3/8` is a whole number and a part of one; `1.5/2` and `0.5/2` could be a decimal over two, and are neither.
        if head.contains('.') && (whole == 0 || above >= down) {
            return None;
        }
        Some(Self { up: whole.checked_mul(down)?.checked_add(above)?, down, decimal: false })
    }

    fn decimal(text: &str) -> Option<Self> {
        let (whole, parts) = text.split_once('.').unwrap_or((text, ""));
        let down = 10_i128.checked_pow(parts.len().try_into().ok()?)?;
        Some(Self { up: whole_number(&[whole, parts].concat())?, down, decimal: true })
    }

    /// The number when one unit of it is `up / down` of the base unit.
    pub(super) fn times(self, up: i128, down: i128) -> f64 {
        let (above, below) = (self.up * up, self.down * down);
        let shared = common_divisor(above.unsigned_abs(), below.unsigned_abs()).max(1) as i128;
        (above / shared) as f64 / (below / shared) as f64
    }
}

fn whole_number(digits: &str) -> Option<i128> {
    let plain = !digits.is_empty() && digits.len() <= 15 && digits.bytes().all(|b| b.is_ascii_digit());
    if plain { digits.parse().ok() } else { None }
}

fn common_divisor(a: u128, b: u128) -> u128 {
    if b == 0 { a } else { common_divisor(b, a % b) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn spellings_of_one_size_end_in_the_same_bits() {
        let inch = |t: &str| Fraction::read(t).unwrap().times(254, 10).to_bits();
        assert_eq!(inch("1 3/8"), inch("1-3/8"));
        assert_eq!(inch("1 3/8"), inch("1.375"));
        assert_eq!(inch("1 3/8"), inch("1.3/8"));
        assert_eq!(inch(".594"), inch("0.594"));
        assert_eq!(inch("18."), inch("18"));
        assert_eq!(inch("1 1/2"), 38.1_f64.to_bits());
    }

    #[test]
    fn what_is_not_a_number_is_none() {
        for text in [
            "",
            ".",
            "-",
            "1..2",
            "1.2.3",
            "1.5/2",
            "0.5/2",
            "1/0",
            "1/2/3",
            "1e3",
            "nan",
            "inf",
            "0x10",
            "--1",
            "1 2",
            "99999999999999999999",
        ] {
            assert_eq!(Fraction::read(text), None, "{text}");
        }
    }
}
