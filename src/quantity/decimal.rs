//! A number written with so many decimals.

/// A number with so many decimals as `{:.n}` writes it. Only what lies by a tie needs the exact decimals of the binary fraction,
/// which are slow to come by.
pub(super) fn decimal(x: f64, decimals: usize) -> String {
    const SCALES: [u32; 7] = [1, 10, 100, 1_000, 10_000, 100_000, 1_000_000];
    /// Below this a product is off by far less than [`BY_A_TIE`].
    const MOST: f64 = 1e11;
    const BY_A_TIE: f64 = 0.001_7;
    let scale = SCALES.get(decimals).copied().unwrap_or(0);
    let scaled = x.abs() * f64::from(scale);
    let plain = scale > 0 && scaled < MOST && (scaled.fract() - 0.5).abs() > BY_A_TIE;
    if !plain {
        return format!("{x:.decimals$}");
    }
    let (digits, scale) = (scaled.round() as u64, u64::from(scale));
    let mut text = String::with_capacity(24);
    if x.is_sign_negative() {
        text.push('-');
    }
    text += itoa::Buffer::new().format(digits / scale);
    if decimals > 0 {
        text.push('.');
        let mut buffer = itoa::Buffer::new();
        let fraction = buffer.format(digits % scale);
        text.extend(std::iter::repeat_n('0', decimals.saturating_sub(fraction.len())));
        text += fraction;
    }
    text
}

#[cfg(test)]
mod tests {
    use super::decimal;

    #[test]
    fn decimals_are_those_of_the_exact_number() {
        let mut state = 1_u64;
        for round in 0..200_000_u32 {
            state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            let decimals = (round % 8) as usize;
            let size = 10_f64.powi((round % 19) as i32 - 6);
            let x = ((state >> 11) as f64 / (1_u64 << 53) as f64 - 0.5) * size;
            // As it comes, and at, or a hair off, a tie.
            let tie = ((x * 1e3).round() + 0.5) / 1e3;
            for x in [x, tie, tie * (1.0 + f64::EPSILON), x.round(), x.round() + 0.5] {
                assert_eq!(decimal(x, decimals), format!("{x:.decimals$}"), "{x} {decimals}");
                assert_eq!(x.round_ties_even(), format!("{x:.0}").parse::<f64>().unwrap(), "{x}");
            }
        }
        for x in [0.0, -0.0, f64::NAN, f64::INFINITY, f64::NEG_INFINITY, f64::MAX, f64::MIN_POSITIVE, 0.5, 1.5, 2.5] {
            assert_eq!(decimal(x, 2), format!("{x:.2}"));
            assert_eq!(decimal(x, 0), format!("{x:.0}"));
        }
    }
}
