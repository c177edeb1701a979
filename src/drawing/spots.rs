//! A face from above, read at places: how high each stands over the lowest plane that touches it.

/// The face.
#[derive(Clone, Debug, PartialEq)]
pub struct Spots {
    /// The places.
    pub places: Vec<Spot>,
    /// From the lowest plane to the highest, mm.
    pub whole: f64,
    /// Lines of equal height where two bands meet, each from end to end, mm; none where nobody knows what lies between the places.
    pub lines: Vec<Vec<(f64, f64)>>,
    /// What is said of the lines.
    pub lines_say: Option<String>,
    /// What each band of height is, the lowest first, as it is written.
    pub bands: [String; 5],
    /// What is said of it.
    pub says: Vec<String>,
}

/// One place.
#[derive(Clone, Debug, PartialEq)]
pub struct Spot {
    /// Along the face, mm.
    pub x: f64,
    /// Down it, mm.
    pub y: f64,
    /// How high it stands over the lowest plane, mm.
    pub height: f64,
    /// The same as it is written.
    pub says: String,
    /// Which of the planes it touches.
    pub touches: Option<Touches>,
}

/// One of the two planes that hold a face between them.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Touches {
    /// The upper.
    Upper,
    /// The lower.
    Lower,
}

impl Spots {
    /// The band of a height, the lowest 0.
    #[must_use]
    pub fn band(&self, height: f64) -> usize {
        let bands = self.bands.len();
        let share = if self.whole > 0.0 { height / self.whole } else { 0.0 };
        // A hair under the border of a band is that band: the dust of binary fractions.
        ((share * bands as f64 + 1e-9).max(0.0) as usize).min(bands - 1)
    }
}
