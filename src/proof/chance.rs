//! Numbers as if by chance, the same from the same seed on every machine.

/// A stream of numbers: SplitMix64 (Steele, Lea and Flood, Fast splittable pseudorandom number generators, 2014).
#[derive(Clone, Debug)]
pub struct Chance {
    state: u64,
    kept: Option<f64>,
}

impl Chance {
    /// A stream from a seed.
    pub const fn from_seed(seed: u64) -> Self {
        Self { state: seed, kept: None }
    }

    /// The next 64 bits.
    pub const fn bits(&mut self) -> u64 {
        self.state = self.state.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.state;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }

    /// Evenly from 0 up to but not including 1.
    pub fn even(&mut self) -> f64 {
        (self.bits() >> 11) as f64 / (1_u64 << 53) as f64
    }

    /// From the normal distribution of mean 0 and standard deviation 1 (Box and Muller, 1958).
    pub fn normal(&mut self) -> f64 {
        if let Some(kept) = self.kept.take() {
            return kept;
        }
        let radius = (-2.0 * (1.0 - self.even()).ln()).sqrt();
        let (sine, cosine) = (std::f64::consts::TAU * self.even()).sin_cos();
        self.kept = Some(radius * sine);
        radius * cosine
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_stream_is_the_published_one() {
        let mut chance = Chance::from_seed(1_234_567);
        let first = [chance.bits(), chance.bits(), chance.bits()];
        assert_eq!(first, [6_457_827_717_110_365_317, 3_203_168_211_198_807_973, 9_817_491_932_198_370_423]);
    }

    #[test]
    fn normal_numbers_have_the_moments_and_tails_of_the_normal_distribution() {
        let mut chance = Chance::from_seed(7);
        let all: Vec<f64> = (0..40_000).map(|_| chance.normal()).collect();
        let mean = all.iter().sum::<f64>() / 40_000.0;
        let variance = all.iter().map(|x| x * x).sum::<f64>() / 40_000.0;
        let inside = all.iter().filter(|x| x.abs() <= 1.96).count() as f64 / 40_000.0;
        assert!(mean.abs() < 0.02 && (variance - 1.0).abs() < 0.03 && (inside - 0.95).abs() < 0.005);
    }
}
