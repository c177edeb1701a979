//! A source and how well it is known.

use std::borrow::Cow;
use std::fmt;

/// How well a source is known.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Mark {
    /// The source was read.
    Read,
    /// The source was read in a damaged copy.
    ReadDamaged,
    /// Remembered, not read.
    FromMemory,
    /// A fact of the trade.
    CommonPractice,
    /// Follows by algebra or geometry from what stands beside it.
    Derived,
    /// Our own choice.
    Own,
}

impl Mark {
    /// Every mark.
    pub const ALL: [Self; 6] =
        [Self::Read, Self::ReadDamaged, Self::FromMemory, Self::CommonPractice, Self::Derived, Self::Own];

    /// As tables and sheets spell it.
    pub const fn text(self) -> &'static str {
        match self {
            Self::Read => "read",
            Self::ReadDamaged => "read, damaged copy",
            Self::FromMemory => "from memory",
            Self::CommonPractice => "common practice",
            Self::Derived => "derived",
            Self::Own => "own",
        }
    }

    /// The mark that a table spells so.
    pub fn named(text: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|mark| mark.text() == text)
    }
}

/// Where a figure or a formula comes from.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Source {
    /// The book, standard or page, in words.
    pub text: Cow<'static, str>,
    /// How well it is known.
    pub mark: Mark,
}

impl Source {
    /// A source named in the code.
    pub const fn fixed(text: &'static str, mark: Mark) -> Self {
        Self { text: Cow::Borrowed(text), mark }
    }
}

impl fmt::Display for Source {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.mark {
            Mark::Own | Mark::CommonPractice if self.text == self.mark.text() => f.write_str(&self.text),
            mark => write!(f, "{} ({})", self.text, mark.text()),
        }
    }
}
