//! What a machine carries between two set-ups: the aspects that a change-over is made of.

/// Lists the aspects once: the enum, its words, and the list of all.
macro_rules! aspects {
    ($($(#[$about:meta])* $Aspect:ident = $word:literal),+ $(,)?) => {
        /// What may have to be changed on a machine before the next set-up can stand on it.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, serde::Serialize, schemars::JsonSchema)]
        pub enum Aspect {
            $($(#[$about])* #[serde(rename = $word)] $Aspect),+
        }

        impl Aspect {
            /// Every aspect.
            pub const ALL: &'static [Self] = &[$(Self::$Aspect),+];

            /// Its word.
            pub const fn text(self) -> &'static str {
                match self { $(Self::$Aspect => $word),+ }
            }
        }
    };
}

aspects! {
    /// What holds the part: a hold word.
    Device = "device",
    /// The size that soft jaws are bored to, or which way round hard ones stand.
    Jaws = "jaws",
    /// The tailstock, where it is set over.
    Tailstock = "tailstock",
    /// The top slide, where it is set over.
    TopSlide = "top-slide",
    /// A tool in the post.
    Tool = "tool",
    /// The train of the feed.
    Feed = "feed",
    /// Chips that must not mix with those before.
    Swarf = "swarf",
    /// The head of a mill, trammed.
    Head = "head",
    /// What the spindle of a mill or drill press carries.
    Spindle = "spindle",
    /// Parallels or stop of a vice.
    Parallels = "vice-parallels",
    /// Height and tilt of a drill table.
    Table = "table",
    /// The belt that sets the speed.
    Belt = "belt",
    /// The temperature of an oven or freezer.
    Setting = "setting",
    /// How clean the bench is, or what stands on it.
    State = "state",
    /// The bath of the wash.
    Bath = "bath",
}

impl std::str::FromStr for Aspect {
    type Err = String;

    fn from_str(word: &str) -> Result<Self, String> {
        let known = Self::ALL.iter().find(|aspect| aspect.text() == word);
        known.copied().ok_or_else(|| format!("`{word}` is nothing that a machine carries"))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_aspect_is_read_from_its_word_and_no_other() {
        for aspect in Aspect::ALL {
            assert_eq!(aspect.text().parse(), Ok(*aspect));
        }
        assert!("flywheel".parse::<Aspect>().is_err());
    }
}
