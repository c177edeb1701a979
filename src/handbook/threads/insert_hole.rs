//! The thread of an insert hole: what the insert tap cuts, form by form.

use super::thread_form::Form;
use crate::formula;
use crate::proof::{Refusal, Worked};
use crate::quantity::Mm;

/// The three diameters of the insert hole's own thread, mm: what the insert tap cuts.
#[derive(Clone, Debug)]
pub struct InsertHole {
    /// Least major diameter.
    pub major_min: Worked<Mm>,
    /// Least pitch diameter.
    pub pitch_min: Worked<Mm>,
    /// Least minor diameter.
    pub minor_min: Worked<Mm>,
}

impl InsertHole {
    /// The hole of an insert whose inner thread has this form, major diameter and pitch.
    ///
    /// # Errors
    /// [`Refusal::Outside`] for a size that is no insert of a workshop.
    pub fn of(form: Form, major: &Worked<Mm>, pitch: &Worked<Mm>) -> Result<Self, Refusal> {
        let (major_min, pitch_min, minor_min) = match form {
            Form::Iso | Form::Unified => (sti_major(major, pitch)?, sti_pitch(major, pitch)?, sti_minor(major, pitch)?),
            Form::Whitworth => {
                (whitworth_hole_major(major, pitch)?, whitworth_hole_pitch(major, pitch)?, major.clone())
            }
            Form::Ba => (ba_hole_major(major, pitch)?, ba_hole_pitch(major, pitch)?, major.clone()),
            Form::Cycle => (cycle_hole_major(major, pitch)?, cycle_hole_pitch(major, pitch)?, major.clone()),
        };
        Ok(Self { major_min, pitch_min, minor_min })
    }
}

formula! {
    /// Least major diameter of the insert hole: two thread heights of ¾H outside the nominal.
    sti_major(D: Mm = "the nominal diameter" in 1.0..=100.0, P: Mm = "the pitch" in 0.2..=6.0)
        -> D_hole: Mm { D + 1.299038 * P }
    source Read "Machinery's Handbook 31, p. 1007: least major diameters of insert taps, less the 0.08 P of USCTI table 341"
}
formula! {
    /// Least pitch diameter of the insert hole.
    sti_pitch(D: Mm = "the nominal diameter" in 1.0..=100.0, P: Mm = "the pitch" in 0.2..=6.0)
        -> D2_hole: Mm { D + 0.649519 * P }
    source Read "Machinery's Handbook 31, pp. 1006-1007: least pitch diameters of insert taps, less their H limit"
}
formula! {
    /// Least minor diameter of the insert hole.
    sti_minor(D: Mm = "the nominal diameter" in 1.0..=100.0, P: Mm = "the pitch" in 0.2..=6.0)
        -> D1_hole: Mm { D + 0.216506 * P }
    source FromMemory "ASME B18.29.1/.2M, DIN 8140: insert hole, 60 deg form"
}
formula! {
    /// Major diameter of a Whitworth-form insert hole: two depths of its own form outside the nominal.
    whitworth_hole_major(D: Mm = "the nominal diameter" in 1.0..=60.0, P: Mm = "the pitch" in 0.3..=6.0)
        -> D_hole: Mm { D + 1.280654 * P }
    source FromMemory "by analogy with the 60 deg form, h = 0.640327 P of BS 84"
}
formula! {
    /// Pitch diameter of a Whitworth-form insert hole.
    whitworth_hole_pitch(D: Mm = "the nominal diameter" in 1.0..=60.0, P: Mm = "the pitch" in 0.3..=6.0)
        -> D2_hole: Mm { D + 0.640327 * P }
    source FromMemory "by analogy with the 60 deg form, h = 0.640327 P of BS 84"
}
formula! {
    /// Major diameter of a BA-form insert hole.
    ba_hole_major(D: Mm = "the nominal diameter" in 1.0..=7.0, P: Mm = "the pitch" in 0.2..=1.1)
        -> D_hole: Mm { D + 1.2 * P }
    source FromMemory "by analogy with the 60 deg form, h = 0.6 P of BS 93"
}
formula! {
    /// Pitch diameter of a BA-form insert hole.
    ba_hole_pitch(D: Mm = "the nominal diameter" in 1.0..=7.0, P: Mm = "the pitch" in 0.2..=1.1)
        -> D2_hole: Mm { D + 0.6 * P }
    source FromMemory "by analogy with the 60 deg form, h = 0.6 P of BS 93"
}
formula! {
    /// Major diameter of a cycle-form insert hole.
    cycle_hole_major(D: Mm = "the nominal diameter" in 1.0..=40.0, P: Mm = "the pitch" in 0.3..=2.0)
        -> D_hole: Mm { D + 1.065384 * P }
    source FromMemory "by analogy with the 60 deg form, h = 0.532692 P of BS 811"
}
formula! {
    /// Pitch diameter of a cycle-form insert hole.
    cycle_hole_pitch(D: Mm = "the nominal diameter" in 1.0..=40.0, P: Mm = "the pitch" in 0.3..=2.0)
        -> D2_hole: Mm { D + 0.532692 * P }
    source FromMemory "by analogy with the 60 deg form, h = 0.532692 P of BS 811"
}
