//! Hardness as it is quoted: a number on a scale. The scales are not one quantity; the book converts inside its range.

use super::exact::Fraction;
use serde::{Deserialize, Deserializer, de};
use std::fmt;

/// A hardness scale.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Scale {
    /// Rockwell C.
    Hrc,
    /// Brinell, ball 10/3000 unless the table says otherwise.
    Hb,
    /// Vickers.
    Hv,
}

impl Scale {
    /// As it is written after the number.
    pub const fn text(self) -> &'static str {
        match self {
            Self::Hrc => "HRC",
            Self::Hb => "HB",
            Self::Hv => "HV",
        }
    }
}

/// A hardness as it was quoted.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Hardness {
    /// The number on the scale.
    pub number: f64,
    /// The scale.
    pub scale: Scale,
}

/// How the scales are written, a longer spelling before one that ends it.
const SPELLINGS: [(&str, Scale); 6] = [
    ("HRC", Scale::Hrc),
    ("RC", Scale::Hrc),
    ("HBW", Scale::Hb),
    ("BHN", Scale::Hb),
    ("HB", Scale::Hb),
    ("HV", Scale::Hv),
];

impl std::str::FromStr for Hardness {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, String> {
        let text = text.trim();
        let upper = text.to_ascii_uppercase();
        // The load of a Vickers test stands behind its scale.
        let without_load =
            upper.strip_suffix("10").or_else(|| upper.strip_suffix("30")).filter(|to| to.ends_with("HV"));
        let upper = without_load.unwrap_or(&upper);
        SPELLINGS
            .into_iter()
            .find_map(|(spelling, scale)| {
                let figure = upper.strip_suffix(spelling).or_else(|| upper.strip_prefix(spelling))?;
                Some((Fraction::read(figure.trim())?.times(1, 1), scale))
            })
            .filter(|(number, _)| *number > 0.0)
            .map(|(number, scale)| Self { number, scale })
            .ok_or_else(|| format!("`{text}` is not a hardness such as `58 HRC`, `220 HB` or `650 HV`"))
    }
}

impl fmt::Display for Hardness {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} {}", super::figure(self.number), self.scale.text())
    }
}

impl<'de> Deserialize<'de> for Hardness {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        struct Quoted;
        impl de::Visitor<'_> for Quoted {
            type Value = Hardness;
            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str("a hardness with its scale, such as `58 HRC`")
            }
            fn visit_str<E: de::Error>(self, text: &str) -> Result<Hardness, E> {
                text.parse().map_err(E::custom)
            }
        }
        from.deserialize_any(Quoted)
    }
}

impl schemars::JsonSchema for Hardness {
    fn schema_name() -> std::borrow::Cow<'static, str> {
        "Hardness".into()
    }
    fn json_schema(_: &mut schemars::SchemaGenerator) -> schemars::Schema {
        schemars::json_schema!({ "type": "string", "description": "a hardness with its scale", "examples": ["58 HRC", "220 HB"] })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_hardness_is_a_figure_on_one_scale() {
        for (text, number, scale) in [
            ("58 HRC", 58.0, Scale::Hrc),
            ("58 Rc", 58.0, Scale::Hrc),
            ("HRC 58", 58.0, Scale::Hrc),
            ("RC 60", 60.0, Scale::Hrc),
            ("220 HB", 220.0, Scale::Hb),
            ("200 BHN", 200.0, Scale::Hb),
            ("210 HBW", 210.0, Scale::Hb),
            ("62.5HV", 62.5, Scale::Hv),
            ("250 HV10", 250.0, Scale::Hv),
            ("650 HV30", 650.0, Scale::Hv),
        ] {
            assert_eq!(text.parse(), Ok(Hardness { number, scale }), "{text}");
        }
        for text in ["58", "HRC", "58 HRB", "inf HRC", "nan HV", "1e2 HB", "-5 HRC", "0 HRC", "58 HB HRC", "58,5 HRC"] {
            assert!(text.parse::<Hardness>().is_err(), "{text}");
        }
    }
}
