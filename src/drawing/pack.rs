//! A pack of shims between the face that it lies on and the face that turns, and the sizes that leave it room.

/// The pack.
#[derive(Clone, Debug, PartialEq)]
pub struct Pack {
    /// Sizes that open and close the float, each from where the one before ends; none where the float was measured itself.
    pub links: Vec<Stretch>,
    /// Thicknesses of the shims in the order in which they lie, mm.
    pub shims: Vec<f64>,
    /// What the pack is, and its thickness, as they are written.
    pub pack: [String; 2],
    /// The float that is left, mm.
    pub left: f64,
    /// What the float is, and what it may be: from the pack on.
    pub floats: Vec<Stretch>,
}

/// A length from one place to another.
#[derive(Clone, Debug, PartialEq)]
pub struct Stretch {
    /// What it is.
    pub name: String,
    /// From where, mm.
    pub from: f64,
    /// To where, mm.
    pub to: f64,
    /// How it is written.
    pub says: String,
    /// Whether it is hatched: it closes, or it is what is allowed.
    pub is_hatched: bool,
}
