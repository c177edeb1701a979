//! The states that work on a part needs and leaves: the words that the day's order is made of.

/// Lists the kinds of state once: the enum, its words, and the list of all.
macro_rules! kinds {
    ($($(#[$about:meta])* $Kind:ident = $word:literal),+ $(,)?) => {
        /// What may be true of a part, of a feature, of what an operation works on, or of an assembly.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum StateKind {
            $($(#[$about])* $Kind),+
        }

        impl StateKind {
            /// Every kind.
            pub const ALL: &'static [Self] = &[$(Self::$Kind),+];

            /// Its word.
            pub const fn text(self) -> &'static str {
                match self { $(Self::$Kind => $word),+ }
            }
        }
    };
}

kinds! {
    /// Clean: no oil, no grit.
    Washed = "washed",
    /// Aired until nothing is left of what it was washed in.
    Aired = "aired",
    /// Its sizes as found are written down.
    Measured = "measured",
    /// How a fit runs is written down.
    FitMeasured = "fit-measured",
    /// What is made of it is decided.
    Decided = "decided",
    /// Edges broken, ready to go together.
    Dressed = "dressed",
    /// Warm from the oven.
    Warm = "warm",
    /// Cold from the freezer.
    Cold = "cold",
    /// The old bush is out.
    PressedOut = "pressed-out",
    /// The bush is home.
    Pressed = "pressed",
    /// The closed-in bore is measured.
    BoreMeasured = "bore-measured",
    /// The oil holes are through.
    OilHoleDrilled = "oil-hole-drilled",
    /// Reamed to its running fit.
    Reamed = "reamed",
    /// Brought to size without cutting, or left at it.
    Sized = "sized",
    /// Roughed.
    Rough = "rough",
    /// Finished to size.
    Finished = "finished",
    /// An end faced.
    Faced = "faced",
    /// A contact skimmed.
    Skimmed = "skimmed",
    /// Bored.
    Bored = "bored",
    /// Honed.
    Honed = "honed",
    /// Lapped.
    Lapped = "lapped",
    /// The base of a barrel lapped.
    BaseLapped = "base-lapped",
    /// Lapped, and the bores that its joint splits still to be bored.
    JointLapped = "joint-lapped",
    /// Drilled.
    Drilled = "drilled",
    /// Tapped.
    Tapped = "tapped",
    /// The thread insert is in.
    InsertFitted = "insert-fitted",
    /// Joined.
    Joined = "joined",
    /// Pinned.
    Pinned = "pinned",
    /// Done by hand as its card says.
    Done = "done",
    /// Gripped in its machine.
    Held = "held",
    /// Running true in its machine.
    True = "true",
    /// Flat.
    Flat = "flat",
    /// Polished for a seal.
    Polished = "polished",
    /// Its shims chosen and in.
    Shimmed = "shimmed",
    /// Studs and dowels are out.
    StudsOut = "studs-out",
    /// Every stud hole that needs work is done.
    StudHolesDone = "stud-holes-done",
    /// Its bearing is on.
    BearingFitted = "bearing-fitted",
}

impl StateKind {
    /// Whether a part comes into it more than once in its life: it is clean again after it was cut, measured again, deburred
    /// again.
    pub const fn comes_again(self) -> bool {
        matches!(
            self,
            Self::Washed | Self::Aired | Self::Measured | Self::FitMeasured | Self::Dressed | Self::BoreMeasured
        )
    }

    /// Whether it passes off unattended: what is warm or cold is fetched while it is.
    pub const fn passes(self) -> bool {
        matches!(self, Self::Warm | Self::Cold)
    }
}

impl std::str::FromStr for StateKind {
    type Err = String;

    fn from_str(word: &str) -> Result<Self, String> {
        let known = Self::ALL.iter().find(|kind| kind.text() == word);
        known.copied().ok_or_else(|| format!("`{word}` is no state of a part"))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_kind_is_read_from_its_word_and_no_other() {
        for kind in StateKind::ALL {
            assert_eq!(kind.text().parse(), Ok(*kind));
        }
        assert!("polished up".parse::<StateKind>().is_err());
    }
}
