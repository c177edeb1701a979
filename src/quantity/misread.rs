//! Why a text is not a size.

use super::{Kind, Quantity, Unit};

/// Why a text is not a size of the kind wanted.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum Misread {
    /// A decimal comma.
    #[error("the decimal sign is a point: `{0}`")]
    Comma(String),
    /// Commas between the sizes of a list.
    #[error("the sizes of a list stand with blanks between them and their unit once, behind the last: `{0}`")]
    Listed(String),
    /// A comma that parts thousands, or is the decimal sign.
    #[error(
        "`{text}`: a comma parts thousands for one and is the decimal sign for another: write `{whole}` or `{point}`"
    )]
    Thousands {
        /// The text.
        text: String,
        /// Without the comma.
        whole: String,
        /// With a point in its place.
        point: String,
    },
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
    /// A word that says there is none.
    #[error("`{text}`: write `0 {unit}` where there is none, or leave the key out where it may be left out")]
    SaidToBeNone {
        /// The text.
        text: String,
        /// The unit of such a figure.
        unit: &'static str,
    },
    /// A number and no unit.
    #[error("{what} needs its unit, as in `{}`{}", whole(.before, .text, .unit), or(.before, .text, *.other))]
    Bare {
        /// What was wanted.
        what: &'static str,
        /// The word that goes before it; empty where none does.
        before: &'static str,
        /// The text.
        text: String,
        /// A unit that would do.
        unit: &'static str,
        /// Another that the figure may have been meant in.
        other: Option<&'static str>,
    },
    /// Digits that are no number, and the unit behind them.
    #[error("`{0}` is not a number{hint}", hint = hint(.0, .1))]
    Number(String, &'static str),
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
    /// A letter where a size is wanted.
    #[error("`{0}`: a letter alone is no size: write `letter {0}` for the drill that is called so")]
    Letter(String),
    /// A size with what read it, in one text.
    #[error("`{text}`: what read it is named beside the size: `{{size: {size}, with: {with}}}`")]
    With {
        /// The text.
        text: String,
        /// The size.
        size: String,
        /// What read it.
        with: String,
    },
    /// A tolerance class where it is not read.
    #[error("`{text}`: a tolerance class is not read here: {}", if *.wanted { "write the limits that it stands for, as `setover book fit` gives them (in quotes)" } else { "give the figure alone" })]
    Class {
        /// The text.
        text: String,
        /// Whether limits may stand here.
        wanted: bool,
    },
    /// Two units stand in one size; the same with one, where its doubt alone has another.
    #[error("one size has one unit: `{0}` has two{one}", one = .1.as_ref().map_or_else(String::new, |one| format!("; write `{one}`")))]
    Units(String, Option<String>),
    /// Two ends, or a size with what may be above and below it, where one figure was measured.
    #[error("this is measured: give one figure, with ± for its doubt{}", .as_in.as_ref().map_or_else(String::new, |typed| format!(", as in `{typed}`")))]
    OneFigure {
        /// The middle of what was typed, with ± half of it.
        as_in: Option<String>,
    },
    /// No figure where one must stand.
    #[error("a figure is missing before the unit, or behind ±")]
    Nothing,
    /// Not the form that this key takes.
    #[error("{0}")]
    Form(&'static str),
}

impl Misread {
    /// A figure of a kind without its unit, as it was typed, or as many as stand in a list.
    pub fn bare<Q: Quantity>(text: impl Into<String>) -> Self {
        Self::without_unit(Q::KIND, text.into())
    }

    pub(super) fn without_unit(kind: &Kind, text: String) -> Self {
        // A common fraction is one of an inch.
        let is_fraction = kind.unit == Unit::Mm && text.contains('/') && !text.contains('+');
        // Nobody knows yet in which of the two the shop works.
        let (unit, other) = if is_fraction { ("in", None) } else { (kind.unit.text(), in_inches(kind.unit)) };
        Self::Bare { what: kind.what, before: kind.before, text: text.trim_end_matches('.').into(), unit, other }
    }
}

/// The unit that a shop of inches would have meant.
const fn in_inches(unit: Unit) -> Option<&'static str> {
    Some(match unit {
        Unit::Mm => "in",
        Unit::MmPerRev => "in/rev",
        Unit::MmPerMin => "in/min",
        Unit::MPerMin => "ft/min",
        Unit::Um => "uin",
        Unit::N => "lbf",
        Unit::Nm => "lbf·ft",
        Unit::NPerMm => "lbf/in",
        Unit::MPa => "psi",
        Unit::KW => "hp",
        Unit::Kg => "lb",
        Unit::DegC => "degF",
        Unit::Cm3 => "in3",
        _ => return None,
    })
}

/// Two numbers with a dash between them were meant as limits; blanks stand in no number.
fn hint(text: &str, unit: &str) -> String {
    if let Some(both) = one_side(text, unit) {
        return format!("; what it may be over and under is written on both sides: `{both}`");
    }
    if let Some((low, high)) = dashed(text) {
        return format!("; limits are written `{}`", format!("{low} to {high} {unit}").trim_end());
    }
    let close: String = text.split_whitespace().collect();
    let blanks = close != text && !text.contains('/') && is_number(&close);
    if blanks { format!("; without blanks it is `{close}`") } else { String::new() }
}

/// A size with what is added to it or taken off alone (`24 -0.05`, `24+0.05`): with nothing on the other side.
fn one_side(text: &str, unit: &str) -> Option<String> {
    let at = text.find(['+', '-', '−']).filter(|at| *at > 0)?;
    let (size, by) = text.split_at_checked(at)?;
    let (sign, by) = by.split_at_checked(by.chars().next()?.len_utf8())?;
    let (larger, smaller) = (size.trim().parse::<f64>().ok()?, by.trim().parse::<f64>().ok()?);
    // Two ends have the larger one last.
    if sign != "+" && smaller >= larger {
        return None;
    }
    let (size, by) = (size.trim(), by.trim());
    Some(
        if sign == "+" { format!("{size} +{by}/-0 {unit}") } else { format!("{size} +0/-{by} {unit}") }
            .trim()
            .to_owned(),
    )
}

fn is_number(part: &str) -> bool {
    !part.is_empty() && part.trim().parse::<f64>().is_ok()
}

/// Two figures with a dash between them.
pub(super) fn dashed(text: &str) -> Option<(&str, &str)> {
    let (low, high) = text.split_once(['-', '–'])?;
    let figure = |part: &str| part.trim().parse::<f64>().ok();
    figure(low).zip(figure(high)).is_some_and(|(low, high)| low < high).then(|| (low.trim(), high.trim()))
}

/// A figure as it is typed whole.
fn whole(before: &str, text: &str, unit: &str) -> String {
    let before = if before.is_empty() { String::new() } else { format!("{before} ") };
    format!("{before}{text} {unit}")
}

/// The same figure in another unit.
fn or(before: &str, text: &str, other: Option<&str>) -> String {
    other.map_or_else(String::new, |unit| format!(" or `{}`", whole(before, text, unit)))
}
