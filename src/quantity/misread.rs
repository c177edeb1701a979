//! Why a text is not a size.

/// Why a text is not a size of the kind wanted.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum Misread {
    /// A decimal comma.
    #[error("the decimal sign is a point: `{0}`")]
    Comma(String),
    /// No unit that this kind can have.
    #[error("`{text}` has no unit that {what} can have ({units})")]
    Unit {
        /// The text.
        text: String,
        /// What was wanted.
        what: &'static str,
        /// The units that would do.
        units: String,
    },
    /// A number and no unit.
    #[error("{what} needs its unit, as in `{text} {unit}`{}", or(.text, *.other))]
    Bare {
        /// What was wanted.
        what: &'static str,
        /// The text.
        text: String,
        /// A unit that would do.
        unit: &'static str,
        /// Another that the figure may have been meant in.
        other: Option<&'static str>,
    },
    /// Digits that are no number.
    #[error("`{0}` is not a number{hint}", hint = as_span(.0))]
    Number(String),
    /// Below the least that can be.
    #[error("{what} cannot be {text}")]
    Impossible {
        /// What was wanted.
        what: &'static str,
        /// The text.
        text: String,
    },
    /// The word that goes before is missing.
    #[error("write the parameter before the figure: `{before} {text}`")]
    Before {
        /// The word.
        before: &'static str,
        /// The text.
        text: String,
    },
    /// The two ends of a span stand the wrong way round.
    #[error("the lower end comes first: `{0}`")]
    Order(String),
    /// The last figure has no unit while the one before it has.
    #[error("{last} of what? give the unit behind it, as in `{text} {unit}`")]
    OfWhat {
        /// The last figure.
        last: String,
        /// The text.
        text: String,
        /// The unit of the figure before.
        unit: &'static str,
    },
    /// A word with two meanings, or another thing than what is asked for.
    #[error("`{text}`: {says}")]
    Meanings {
        /// The text.
        text: String,
        /// The meanings, and what to write.
        says: &'static str,
    },
    /// Two units stand in one size.
    #[error("one size has one unit: `{0}` has two")]
    Units(String),
    /// Not the form that this key takes.
    #[error("{0}")]
    Form(&'static str),
}

/// Two numbers with a dash between them were meant as limits.
fn as_span(text: &str) -> String {
    let is_number = |part: &str| !part.is_empty() && part.trim().parse::<f64>().is_ok();
    match text.split_once(['-', '–']) {
        Some((low, high)) if is_number(low) && is_number(high) => {
            format!("; limits are written `{} .. {}`", low.trim(), high.trim())
        }
        _ => String::new(),
    }
}

/// The same figure in another unit.
fn or(text: &str, other: Option<&str>) -> String {
    other.map_or_else(String::new, |unit| format!(" or `{text} {unit}`"))
}
