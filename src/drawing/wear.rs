//! A bore by its depth: how wide it was found along each axis, against what it may be bored to and what would clean it.

/// The bore.
#[derive(Clone, Debug, PartialEq)]
pub struct Wear {
    /// The depths at which it was read, mm, each as it is written.
    pub depths: Vec<(f64, String)>,
    /// What stands over the depths.
    pub caption: String,
    /// The axes, each with a diameter at every depth.
    pub axes: Vec<WearAxis>,
    /// What they are held against.
    pub lines: Vec<WearLine>,
}

/// One axis of the bore.
#[derive(Clone, Debug, PartialEq)]
pub struct WearAxis {
    /// Its name.
    pub name: String,
    /// Diameters in the order of the depths, mm.
    pub sizes: Vec<f64>,
}

/// A diameter that the bore is held against.
#[derive(Clone, Debug, PartialEq)]
pub struct WearLine {
    /// It, mm.
    pub at: f64,
    /// What it is.
    pub name: String,
    /// It, as it is written.
    pub says: String,
    /// Which kind it is.
    pub kind: WearKind,
}

/// What a bore is held against.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum WearKind {
    /// As it was new.
    New,
    /// What would clean it.
    Cleans,
    /// What it would be bored to.
    Oversize,
    /// What it is bored to.
    Taken,
}
