//! Lengths that inserts are sold in.

use super::insert_rows::rule;
use super::series::Thread;
use crate::handbook::constants::constant;
use crate::proof::{Mark, Refusal, Source, Worked};
use crate::quantity::{Mm, Quantity, Ratio, Wanted, figure};
use schemars::JsonSchema;
use serde::{Deserialize, Deserializer, de};

/// A length of an insert: a standard one in diameters, or a length of its own.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum InsertLength {
    /// One diameter.
    One,
    /// One and a half.
    OneAndHalf,
    /// Two.
    Two,
    /// Two and a half.
    TwoAndHalf,
    /// Three.
    Three,
    /// So many micrometres.
    Of(u32),
}

/// The thread of spark plugs, whose inserts are sold by the plug's reach.
const SPARK_PLUG: &str = "M14x1.25";

impl InsertLength {
    /// Every standard length, shortest first.
    pub const ALL: [Self; 5] = [Self::One, Self::OneAndHalf, Self::Two, Self::TwoAndHalf, Self::Three];

    /// A length in millimetres.
    pub(crate) fn of_mm(mm: f64) -> Self {
        Self::Of((mm * 1000.0).round().clamp(0.0, f64::from(u32::MAX)) as u32)
    }

    /// Whether inserts of this thread hold spark plugs, where the hole goes through a head.
    pub(crate) fn by_reach(thread: Thread) -> bool {
        thread.name() == SPARK_PLUG
    }

    /// The lengths of spark plugs' reaches, shortest first.
    ///
    /// # Errors
    /// [`Refusal::NoRow`] where the table of rules lacks one.
    pub fn reaches() -> Result<Vec<Self>, Refusal> {
        let names = ["spark-plug-reach-short", "spark-plug-reach-middle", "spark-plug-reach-long"];
        names.into_iter().map(|name| Ok(Self::of_mm(rule(name)?.number()))).collect()
    }

    /// As it is written.
    pub fn text(self) -> String {
        match self {
            Self::Of(micrometres) => format!("{} mm", figure(f64::from(micrometres) / 1000.0)),
            standard => format!("{}D", figure(standard.times().unwrap_or_default())),
        }
    }

    /// In diameters, where it is a standard length.
    pub const fn times(self) -> Option<f64> {
        match self {
            Self::One => Some(1.0),
            Self::OneAndHalf => Some(1.5),
            Self::Two => Some(2.0),
            Self::TwoAndHalf => Some(2.5),
            Self::Three => Some(3.0),
            Self::Of(_) => None,
        }
    }

    /// Its nominal length on a thread.
    ///
    /// # Errors
    /// [`Refusal::Outside`] for a diameter that no insert has.
    pub fn nominal(self, diameter: &Worked<Mm>) -> Result<Worked<Mm>, Refusal> {
        match self {
            Self::Of(micrometres) => {
                let mm = f64::from(micrometres) / 1000.0;
                let source = Source::fixed("length in millimetres", Mark::CommonPractice);
                Ok(Worked::row(Mm::new(mm), format!("an insert {} mm long", figure(mm)), source))
            }
            standard => super::insert::insert_length(&standard.diameters(), diameter),
        }
    }

    /// The standard length that a length in millimetres is on this thread, else itself.
    pub(crate) fn as_sold(self, thread: Thread) -> Self {
        let Self::Of(micrometres) = self else { return self };
        let near = constant::<Mm>("shortest-mm-of-length").map_or(0.0, |near| near.number());
        let off = |length: &Self| {
            let long = length.times().unwrap_or_default() * thread.major().number();
            (long - f64::from(micrometres) / 1000.0).abs()
        };
        Self::ALL.into_iter().find(|length| off(length) <= near).unwrap_or(self)
    }

    /// The length in diameters, as a figure with its source.
    pub fn diameters(self) -> Worked<Ratio> {
        let source = Source::fixed("ASME B18.29.2M notes: nominal lengths 1D to 3D", Mark::Read);
        Worked::row(Ratio::new(self.times().unwrap_or_default()), format!("standard length {}", self.text()), source)
    }

    /// The next shorter standard length.
    pub(crate) fn shorter(self) -> Option<Self> {
        let times = self.times()?;
        Self::ALL.into_iter().rfind(|length| length.times().is_some_and(|other| other < times))
    }
}

impl std::str::FromStr for InsertLength {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, String> {
        let text = text.trim();
        // `1.5 D` and `1.5 x D` are 1.5D.
        let close: String = text.chars().filter(|c| !c.is_whitespace() && !matches!(c, 'x' | '×' | '*')).collect();
        if let Some(standard) = Self::ALL.into_iter().find(|length| length.text().eq_ignore_ascii_case(&close)) {
            return Ok(standard);
        }
        let wanted: Result<Wanted<Mm>, _> = text.parse();
        match wanted {
            Ok(wanted) if wanted.nominal.number() > 0.0 && wanted.low == wanted.high => {
                Ok(Self::of_mm(wanted.nominal.number()))
            }
            _ => Err(format!("`{text}` is no length of an insert: give 1D, 1.5D, 2D, 2.5D, 3D or one length in mm")),
        }
    }
}

impl<'de> Deserialize<'de> for InsertLength {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        String::deserialize(from)?.parse().map_err(de::Error::custom)
    }
}

impl JsonSchema for InsertLength {
    fn schema_name() -> std::borrow::Cow<'static, str> {
        "InsertLength".into()
    }
    fn json_schema(_: &mut schemars::SchemaGenerator) -> schemars::Schema {
        schemars::json_schema!({ "type": "string", "description": "1D, 1.5D, 2D, 2.5D, 3D or a length in mm", "examples": ["1.5D", "12.7 mm"] })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_length_in_millimetres_is_the_standard_one_where_it_is() {
        let thread: Thread = "M8".parse().unwrap();
        for (text, wanted) in [
            ("1.5D", "1.5D"),
            ("1.5 D", "1.5D"),
            ("1.5 x D", "1.5D"),
            ("2 d", "2D"),
            ("12 mm", "1.5D"),
            ("12.7 mm", "12.7 mm"),
            ("16.0 mm", "2D"),
        ] {
            assert_eq!(text.parse::<InsertLength>().unwrap().as_sold(thread).text(), wanted);
        }
        assert!("1.2D".parse::<InsertLength>().is_err());
        assert_eq!(InsertLength::reaches().unwrap().len(), 3);
    }
}
