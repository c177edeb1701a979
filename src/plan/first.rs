//! Of all that is open in an operation, what is mended first: the one reading, or the one key, that proves the most.

/// What proves the most of what is open.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct First {
    /// What it is.
    pub by: FirstBy,
    /// How many checks it proves.
    pub proves: usize,
    /// How many are open.
    pub open: usize,
}

/// What proves checks.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum FirstBy {
    /// A reading, taken more closely.
    Read {
        /// Its key.
        key: String,
        /// What it is.
        means: String,
        /// To what doubt, with its unit.
        to: String,
    },
    /// A key that was not given.
    Given {
        /// The key, nested ones with dots.
        key: String,
        /// What it is.
        means: String,
    },
}
