//! The geometry of thread forms, each from its own standard's formulas.

use crate::formula;
use crate::proof::{Refusal, Worked};
use crate::quantity::{Mm, Tpi};
use serde::Deserialize;

/// A thread form.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Form {
    /// ISO 68-1, 60°.
    Iso,
    /// Unified (ASME B1.1), the same basic profile.
    Unified,
    /// Whitworth (BS 84, ISO 228-1), 55°.
    Whitworth,
    /// BA (BS 93), 47½°.
    Ba,
    /// Cycle (BS 811), 60°.
    Cycle,
}

impl Form {
    /// Half the included angle of the flanks, degrees.
    pub(crate) const fn half_angle(self) -> f64 {
        match self {
            Self::Iso | Self::Unified | Self::Cycle => 30.0,
            Self::Whitworth => 27.5,
            Self::Ba => 23.75,
        }
    }

    /// The standard that the geometry follows.
    pub const fn standard(self) -> &'static str {
        match self {
            Self::Iso => "ISO 68-1",
            Self::Unified => "ASME B1.1",
            Self::Whitworth => "BS 84 / ISO 228-1",
            Self::Ba => "BS 93",
            Self::Cycle => "BS 811",
        }
    }

    /// Basic pitch diameter of a thread of this form, mm.
    ///
    /// # Errors
    /// [`Refusal::Outside`] for a size that is no thread of a workshop.
    pub fn pitch_diameter(self, major: &Worked<Mm>, pitch: &Worked<Mm>) -> Result<Worked<Mm>, Refusal> {
        match self {
            Self::Iso | Self::Unified => iso_pitch_diameter(major, pitch),
            Self::Whitworth => whitworth_pitch_diameter(major, pitch),
            Self::Ba => ba_pitch_diameter(major, pitch),
            Self::Cycle => cycle_pitch_diameter(major, pitch),
        }
    }

    /// Basic minor diameter of a thread of this form, mm.
    ///
    /// # Errors
    /// As [`Self::pitch_diameter`].
    pub fn minor_diameter(self, major: &Worked<Mm>, pitch: &Worked<Mm>) -> Result<Worked<Mm>, Refusal> {
        match self {
            Self::Iso | Self::Unified => iso_minor_diameter(major, pitch),
            Self::Whitworth => whitworth_minor_diameter(major, pitch),
            Self::Ba => ba_minor_diameter(major, pitch),
            Self::Cycle => cycle_minor_diameter(major, pitch),
        }
    }
}

formula! {
    /// Pitch of so many threads on an inch.
    pitch_of_count(N: Tpi = "the threads on an inch" in 2.0..=400.0)
        -> P: Mm { 25.4 / N }
    source Derived "an inch is 25.4 mm"
}
formula! {
    /// Basic pitch diameter, 60° form, d2 = d − 0.649519 P.
    iso_pitch_diameter(d: Mm = "the major diameter" in 0.2..=700.0, P: Mm = "the pitch" in 0.05..=12.0)
        -> d2: Mm { d - 0.649519 * P }
    source Read "ISO 68-1: d2 = d - 3/4 H, H = 0.866025 P"
}
formula! {
    /// Basic minor diameter of the nut thread, 60° form, D1 = D − 1.082532 P.
    iso_minor_diameter(d: Mm = "the major diameter" in 0.2..=700.0, P: Mm = "the pitch" in 0.05..=12.0)
        -> d1: Mm { d - 1.082532 * P }
    source Read "ISO 68-1: D1 = D - 5/4 H"
}
formula! {
    /// Effective diameter, Whitworth form, d2 = d − 0.640327 P.
    whitworth_pitch_diameter(d: Mm = "the major diameter" in 0.2..=300.0, P: Mm = "the pitch" in 0.3..=12.0)
        -> d2: Mm { d - 0.640327 * P }
    source Read "BS 84: depth of thread h = 0.640327 P"
}
formula! {
    /// Core diameter, Whitworth form, d1 = d − 1.280654 P.
    whitworth_minor_diameter(d: Mm = "the major diameter" in 0.2..=300.0, P: Mm = "the pitch" in 0.3..=12.0)
        -> d1: Mm { d - 1.280654 * P }
    source Read "BS 84: core diameter = major - 2 h"
}
formula! {
    /// Effective diameter, BA form, d2 = d − 0.6 P.
    ba_pitch_diameter(d: Mm = "the major diameter" in 0.2..=7.0, P: Mm = "the pitch" in 0.05..=1.1)
        -> d2: Mm { d - 0.6 * P }
    source Read "BS 93: depth of thread 0.6 P"
}
formula! {
    /// Core diameter, BA form, d1 = d − 1.2 P.
    ba_minor_diameter(d: Mm = "the major diameter" in 0.2..=7.0, P: Mm = "the pitch" in 0.05..=1.1)
        -> d1: Mm { d - 1.2 * P }
    source Read "BS 93: core diameter = major - 1.2 P"
}
formula! {
    /// Effective diameter, cycle form, d2 = d − 0.532692 P.
    cycle_pitch_diameter(d: Mm = "the major diameter" in 0.5..=60.0, P: Mm = "the pitch" in 0.3..=2.0)
        -> d2: Mm { d - 0.532692 * P }
    source Read "BS 811: depth of thread h = H - P/3 = 0.532692 P"
}
formula! {
    /// Core diameter, cycle form, d1 = d − 1.065384 P.
    cycle_minor_diameter(d: Mm = "the major diameter" in 0.5..=60.0, P: Mm = "the pitch" in 0.3..=2.0)
        -> d1: Mm { d - 1.065384 * P }
    source Read "BS 811: core diameter = major - 2 h"
}
formula! {
    /// Depth of a British thread on one side: what the effective diameter lies under the major.
    thread_depth(d: Mm = "the major diameter" in 0.2..=300.0, d2: Mm = "the effective diameter" in 0.1..=300.0)
        -> h: Mm { d - d2 }
    source Read "BS 84, BS 93, BS 811: the effective diameter lies one depth of thread under the major"
}
