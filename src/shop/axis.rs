//! The slides and spindles that have a dial: our words for them, and what others call them.

use crate::proof::Fact;
use crate::reading::near;
use schemars::JsonSchema;
use serde::{Deserialize, Deserializer, de};

/// The slide or spindle that a dial belongs to.
#[derive(Clone, Copy, Debug, PartialEq, Eq, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Axis {
    /// Cross slide.
    Across,
    /// Carriage.
    Along,
    /// Top slide.
    Top,
    /// Quill.
    Quill,
    /// Knee.
    Knee,
    /// Table, long way.
    TableLong,
    /// Table, cross way.
    TableCross,
}

impl<'de> Deserialize<'de> for Axis {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        String::deserialize(from)?.parse().map_err(de::Error::custom)
    }
}

impl std::str::FromStr for Axis {
    type Err = NoAxis;

    /// By our word; what others call a slide is told with ours.
    fn from_str(text: &str) -> Result<Self, NoAxis> {
        let small = text.trim().to_lowercase().replace([' ', '_'], "-");
        if let Some((_, axis)) = Self::WORDS.into_iter().find(|(word, _)| *word == small) {
            return Ok(axis);
        }
        const CALLED: [(&[&str], &str); 6] = [
            (&["cross", "cross-slide", "facing", "x"], "across"),
            (&["compound", "compound-slide", "compound-rest", "top-slide"], "top"),
            (&["carriage", "saddle", "apron", "lead-screw", "leadscrew", "z"], "along"),
            (&["spindle", "down-feed", "tailstock"], "quill"),
            (&["table"], "table-long"),
            (&["cross-table", "in-and-out", "y"], "table-cross"),
        ];
        if ["long", "longitudinal", "lengthwise"].contains(&small.as_str()) {
            return Err(NoAxis::Either { text: text.into(), lathe: "along", mill: "table-long" });
        }
        let called = CALLED.iter().find(|(words, _)| words.contains(&small.as_str()));
        Err(match called {
            Some((_, ours)) => NoAxis::Called { text: text.into(), ours },
            None => NoAxis::Unknown { text: text.into(), near: near(text, Self::WORDS.map(|(word, _)| word)) },
        })
    }
}

/// Why a word is no slide of ours.
#[derive(Debug, thiserror::Error)]
pub enum NoAxis {
    /// Another word for one that there is.
    #[error("what is called `{text}` elsewhere is `{ours}` here: write `axis: {ours}`")]
    Called {
        /// The word.
        text: String,
        /// Ours.
        ours: &'static str,
    },
    /// Another word for one of two, by the machine.
    #[error("what is called `{text}` elsewhere is `{lathe}` here on a lathe and `{mill}` on a mill")]
    Either {
        /// The word.
        text: String,
        /// Ours on a lathe.
        lathe: &'static str,
        /// Ours on a mill.
        mill: &'static str,
    },
    /// No slide.
    #[error("`{text}` is no slide; {near}")]
    Unknown {
        /// The word.
        text: String,
        /// The nearest of ours.
        near: String,
    },
}

impl Axis {
    /// Our words for them.
    const WORDS: [(&'static str, Self); 7] = [
        ("across", Self::Across),
        ("along", Self::Along),
        ("top", Self::Top),
        ("quill", Self::Quill),
        ("knee", Self::Knee),
        ("table-long", Self::TableLong),
        ("table-cross", Self::TableCross),
    ];

    /// Its name.
    pub const fn named(self) -> Fact {
        Fact::named(match self {
            Self::Across => "axis-across",
            Self::Along => "axis-along",
            Self::Top => "axis-top",
            Self::Quill => "axis-quill",
            Self::Knee => "axis-knee",
            Self::TableLong => "axis-table-long",
            Self::TableCross => "axis-table-cross",
        })
    }

    /// As a dial's reading names it.
    pub const fn text(self) -> &'static str {
        match self {
            Self::Across => "cross slide",
            Self::Along => "carriage",
            Self::Top => "top slide",
            Self::Quill => "quill",
            Self::Knee => "knee",
            Self::TableLong => "table, long",
            Self::TableCross => "table, cross",
        }
    }
}
