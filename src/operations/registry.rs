//! The registry: what a job may ask, each operation by its word. Which they are stands in one list alone; another list, made
//! elsewhere by the same macro, is worked and printed in the same way.

use super::{Answer, Bench, Declared, Hold, Operation, SetUpWish, kit::above_zero};
use crate::job::{Address, PartFacts};
use crate::proof::{CheckRule, Refusal};
use crate::reading::Problem;

/// One operation as a job asks for it, whichever list it is of.
pub trait Registered: Send + Sync {
    /// Its word.
    fn word(&self) -> &'static str;

    /// The operation behind it.
    fn operation(&self) -> &dyn Operation;

    /// The same, to put other metals and sizes in.
    fn operation_mut(&mut self) -> &mut dyn Operation;

    /// A copy of it.
    fn copied(&self) -> Box<dyn Registered>;

    /// Every value that it can give.
    fn declared(&self) -> Vec<&'static Declared> {
        self.operation().values().iter().copied().flatten().collect()
    }

    /// Every check that it makes.
    fn declared_checks(&self) -> &'static [CheckRule] {
        self.operation().checks()
    }

    /// What it asks of its set-up.
    fn set_up(&self) -> Option<&SetUpWish> {
        self.operation().set_up()
    }

    /// What cannot be a real part, each at its place.
    fn problems(&self, part: &PartFacts) -> Vec<Problem> {
        let mut all = self.operation().problems(part);
        above_zero("`mass` of the part", part.mass.as_ref(), &mut all);
        all
    }

    /// The operation that it is one of a pair with.
    fn partner(&self) -> Option<Address> {
        self.operation().partner()
    }

    /// Operations that it looks at as it is worked, whichever comes first.
    fn beside(&self) -> Vec<Address> {
        self.operation().partner().into_iter().chain(self.operation().beside()).collect()
    }

    /// How the part is held.
    fn hold(&self) -> Option<&Hold> {
        self.operation().hold()
    }

    /// Values that others may ask before it is worked.
    fn asks(&self, bench: &Bench) -> Answer {
        let mut answer = Answer::declaring(self.declared_checks());
        answer.refused = self.operation().asks(bench, &mut answer).err();
        answer
    }

    /// What cannot stand beside the other operations of the job.
    fn disagrees(&self, bench: &Bench) -> Vec<Problem> {
        self.operation().disagrees(bench)
    }

    /// The answer of an operation that is refused before it is worked: every check stands in it, none was made.
    fn refused(&self, refusal: Refusal) -> Answer {
        let mut answer = Answer::declaring(self.declared_checks());
        answer.refused = Some(refusal);
        answer.complete();
        answer
    }
}

/// Makes the list of what a job may ask: each word with the operation behind it; their cards lie in one folder, the shortest
/// job with each in another, named from the file that holds the list.
#[macro_export]
macro_rules! operations {
    ($(#[$about:meta])* $Request:ident from $cards:literal and $examples:literal; $($word:literal => $file:ident::$Op:ident),+ $(,)?) => {
        $(#[$about])*
        #[derive(Clone, Debug, serde::Deserialize, schemars::JsonSchema)]
        pub enum $Request {
            $(
                #[serde(rename = $word)]
                #[allow(missing_docs)]
                $Op(Box<$file::$Op>)
            ),+
        }

        impl $Request {
            /// The words of all operations, in the order of the help.
            pub const WORDS: &'static [&'static str] = &[$($word),+];

            /// The file of each, in the same order.
            pub const FILES: &'static [&'static str] = &[$(stringify!($file)),+];

            /// The card of an operation's word.
            pub fn built_in_card(word: &str) -> Option<&'static str> {
                match word {
                    $($word => Some(include_str!(concat!($cards, $word, ".yaml"))),)+
                    _ => None,
                }
            }
        }

        impl $Request {
            /// The shortest job with an operation's word.
            pub fn example(word: &str) -> Option<&'static str> {
                match word {
                    $($word => Some(include_str!(concat!($examples, $word, ".yaml"))),)+
                    _ => None,
                }
            }
        }

        impl $crate::operations::Registered for $Request {
            fn word(&self) -> &'static str {
                match self { $(Self::$Op(_) => $word),+ }
            }

            fn operation(&self) -> &dyn $crate::operations::Operation {
                match self { $(Self::$Op(operation) => operation.as_ref()),+ }
            }

            fn operation_mut(&mut self) -> &mut dyn $crate::operations::Operation {
                match self { $(Self::$Op(operation) => operation.as_mut()),+ }
            }

            fn copied(&self) -> Box<dyn $crate::operations::Registered> {
                Box::new(self.clone())
            }
        }
    };
}
