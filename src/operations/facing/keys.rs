//! The keys that face and skim share, listed once: as the keys of each operation, and as what this module is [`Asked`].

use crate::job::{Difference, Reading};
use crate::operations::turning;
use crate::proof::At;
use crate::quantity::{Mm, Wanted};
use schemars::JsonSchema;
use serde::Deserialize;

/// Which way the tool is fed over the face.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub(crate) enum FeedDirection {
    /// From the outside to the centre.
    Inward,
    /// From the centre to the outside.
    Outward,
}

/// What metal taken here does to the end float.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub(crate) enum FloatWay {
    /// The float grows.
    Opens,
    /// The float shrinks.
    Closes,
    /// It does not stand in the path of the float.
    None,
}

/// Where the mating part bore when the float was measured.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub(crate) enum Bears {
    /// In the groove.
    InGroove,
    /// Across it, on the unworn metal beside.
    Across,
}

/// A relief.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub(crate) struct Relief {
    /// Its outside diameter.
    pub(super) outside: At<Mm>,
    /// Its inside diameter.
    pub(super) inside: At<Mm>,
    /// Its depth as found from the unworn surface (measured).
    pub(super) depth: At<Difference>,
    /// Outside diameter of the inner ring that sits on the land inside it (measured).
    pub(super) ring_outside: Option<At<Reading>>,
    /// Least gap that must be left (wanted); left out, {relief-gap} is assumed.
    pub(super) gap: Option<At<Wanted<Mm>>>,
    /// Whether it is cut again to its depth; left out, it is not.
    pub(super) recut: Option<At<bool>>,
}

impl Relief {
    /// Whether it is cut again.
    pub(super) fn recut(&self) -> bool {
        self.recut.as_ref().is_some_and(|recut| recut.value)
    }
}

/// Lists the keys: the struct that borrows them as they were typed, and the macro that writes an operation with them.
macro_rules! keys {
    ($d:tt
        required { $($(#[$rdoc:meta])* $required:ident: $Required:ty,)+ }
        optional { $($(#[$odoc:meta])* $optional:ident: $Optional:ty,)+ }
    ) => {
        /// The keys that both have, as they were typed.
        #[derive(Clone, Copy, Debug)]
        pub(in crate::operations) struct Asked<'a> {
            /// Whether `length` is over both ends of the part; else it is the thickness at the contact.
            pub over_both_ends: bool,
            $($(#[$rdoc])* pub $required: &'a $Required,)+
            $($(#[$odoc])* pub $optional: Option<&'a $Optional>,)+
        }

        /// Writes an operation that faces: the keys that face and skim share, and its own.
        macro_rules! facing_operation {
            ($d(#[$d about:meta])* $d Op:ident { $d($d(#[$d note:meta])* $d key:ident: $d Type:ty),* $d(,)? }) => {
                #[derive(Clone, Debug, serde::Deserialize, schemars::JsonSchema)]
                #[serde(deny_unknown_fields, rename_all = "kebab-case")]
                $d(#[$d about])*
                pub struct $d Op {
                    $($(#[$rdoc])* $required: $Required,)+
                    $($(#[$odoc])* $optional: Option<$Optional>,)+
                    $d($d(#[$d note])* $d key: $d Type),*
                }

                impl $d Op {
                    fn asked(&self) -> crate::operations::facing::Asked<'_> {
                        crate::operations::facing::Asked {
                            over_both_ends: Self::OVER_BOTH_ENDS,
                            $($required: &self.$required,)+
                            $($optional: self.$optional.as_ref(),)+
                        }
                    }
                }
            };
        }
        pub(in crate::operations) use facing_operation;
    };
}

keys! { $
    required {
        /// Outside diameter of the contact.
        outside: crate::proof::At<crate::quantity::Mm>,
        /// Length over both ends, on unworn metal (measured).
        length: crate::proof::At<crate::job::Reading>,
    }
    optional {
        /// Inside diameter; left out, it is solid to the centre.
        inside: crate::proof::At<crate::quantity::Mm>,
        /// Least length that may be left (wanted); left out, what is left is held against no least.
        least_length: crate::proof::At<crate::quantity::Wanted<crate::quantity::Mm>>,
        /// Roughness wanted.
        finish: crate::proof::At<crate::quantity::Wanted<crate::quantity::Roughness>>,
        /// How square to the axis it must be (wanted).
        square_within: crate::proof::At<crate::quantity::Wanted<crate::quantity::Mm>>,
        /// How flat it must be (wanted); left out, as square as it must be, else as true as it is held.
        flat_within: crate::proof::At<crate::quantity::Wanted<crate::quantity::Mm>>,
        /// Thickness of the free rim behind the face, as found (measured).
        thickness_at_rim: crate::proof::At<crate::job::Reading>,
        /// Slots that interrupt the cut; left out, none.
        interrupted: crate::proof::At<u32>,
        /// How the part is held.
        hold: crate::operations::Hold,
        /// A recess that clears a bearing's ring or cage.
        relief: crate::operations::facing::Relief,
        /// The tool by its name in the shop; left out, the one that does it in least time is chosen.
        tool: crate::proof::At<String>,
        /// Which way the tool is fed.
        feed_direction: crate::proof::At<crate::operations::facing::FeedDirection>,
        /// What metal taken here does to the end float; left out, the float is not worked.
        float: crate::proof::At<crate::operations::facing::FloatWay>,
        /// End float as it was found (measured).
        as_found_float: crate::proof::At<crate::job::Difference>,
        /// End float wanted, for the shim.
        float_wanted: crate::proof::At<crate::quantity::Wanted<crate::quantity::Mm>>,
        /// Whether the part ran in its groove when the float was measured, or the groove was bridged; left out, there is no
        /// `as-found-float`.
        bears: crate::proof::At<crate::operations::facing::Bears>,
        /// Least hard case that may be left (wanted).
        least_case: crate::proof::At<crate::quantity::Wanted<crate::quantity::Mm>>,
        /// Metal taken off here in earlier overhauls (measured); left out, none is assumed where a case is judged.
        removed_before: crate::proof::At<crate::job::Difference>,
        /// Least cut that leaves clean metal all over.
        clean_up: crate::proof::At<crate::quantity::Mm>,
        /// Mass of the part, for the balance.
        mass: crate::proof::At<crate::quantity::Kilogram>,
        /// How far its centre of mass lies off the spindle's axis.
        off_centre: crate::proof::At<crate::quantity::Mm>,
        /// Set-up wishes; left out, none.
        set_up: crate::operations::SetUpWish,
    }
}

impl<'a> Asked<'a> {
    /// Those that any cut on a lathe may have.
    pub(super) fn of_any_cut(&self) -> turning::Asked<'a> {
        turning::Asked {
            over_both_ends: self.over_both_ends,
            finish: self.finish,
            square_within: self.square_within,
            flat_within: self.flat_within,
            thickness_at_rim: self.thickness_at_rim,
            interrupted: self.interrupted,
            hold: self.hold,
            tool: self.tool,
            mass: self.mass,
            off_centre: self.off_centre,
            set_up: self.set_up,
        }
    }

    /// Those of the hard case below the cut.
    pub(super) fn of_the_case(&self) -> turning::CaseKeys<'a> {
        turning::CaseKeys { least: self.least_case, usual: None, removed_before: self.removed_before }
    }

    /// The run-out that the hold is trued to.
    pub(crate) fn true_within(&self) -> Option<&'a At<Mm>> {
        self.hold.and_then(|hold| hold.true_within.as_ref())
    }
}
