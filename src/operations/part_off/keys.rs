//! The keys of a piece that is parted off, what cannot be a real part, and what it answers.

use super::names;
use crate::handbook::Material;
use crate::job::{PartFacts, Reading};
use crate::operations::kit::above_zero;
use crate::operations::{Answer, Bench, Declared, Hold, Operation, SetUpWish, turning};
use crate::proof::{At, CheckRule, Refusal};
use crate::quantity::{Kilogram, Mm, Quantity, Wanted, figure};
use crate::reading::Problem;
use schemars::JsonSchema;
use serde::Deserialize;

/// What holds the piece as it comes off.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub(super) enum Caught {
    /// A rod in the tailstock stands in its bore and does not press.
    Rod,
    /// It falls free into a tray on the bed.
    Tray,
    /// It is not parted through: the last is sawn by hand, spindle stopped.
    Sawn,
}

/// A piece parted off.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
#[schemars(extend("x-wants" = [["part.material"]]))]
pub struct PartOff {
    /// Outside where it is parted.
    pub(super) outside: At<Mm>,
    /// Length of the piece, from the free end to the blade (wanted).
    pub(super) length: At<Wanted<Mm>>,
    /// Length of the part over both ends (measured).
    pub(super) over_all: At<Reading>,
    /// Bore of the piece; left out, it is solid.
    pub(super) bore: Option<At<Mm>>,
    /// Width of the blade, also of one that is none of the shop's; left out, {blade-width-unknown} is assumed where the shop has no blade.
    pub(super) width: Option<At<Mm>>,
    /// The blade by its name in the shop; left out, the narrowest that reaches.
    pub(super) blade: Option<At<String>>,
    /// What holds the piece as it comes off.
    pub(super) caught: Option<At<Caught>>,
    /// Gaps that interrupt the cut; left out, none.
    pub(super) interrupted: Option<At<u32>>,
    /// How the part is held.
    pub(super) hold: Option<Hold>,
    /// Mass of the part.
    pub(super) mass: Option<At<Kilogram>>,
    /// How far its centre of mass lies off the spindle's axis.
    pub(super) off_centre: Option<At<Mm>>,
    /// Machine, name, feature, remark; left out, none.
    pub(super) set_up: Option<SetUpWish>,
}

impl PartOff {
    pub(super) fn asked(&self) -> turning::Asked<'_> {
        turning::Asked {
            over_both_ends: true,
            interrupted: self.interrupted.as_ref(),
            hold: self.hold.as_ref(),
            mass: self.mass.as_ref(),
            off_centre: self.off_centre.as_ref(),
            set_up: self.set_up.as_ref(),
            ..turning::Asked::default()
        }
    }
}

impl Operation for PartOff {
    fn values(&self) -> &'static [&'static [Declared]] {
        &[names::VALUES, turning::OF_CUT, turning::OF_HOLD, turning::OF_ACROSS, turning::OF_CLEAR]
    }

    fn checks(&self) -> &'static [CheckRule] {
        const {
            &[
                CheckRule::must("blade-reach", &["blade.reach"]),
                CheckRule::must("blade-slender", &[]),
                CheckRule::must("piece-stands", &[]),
                CheckRule::must("near-the-jaws", &["hold.overhang"]),
                CheckRule::must("caught", &["caught"]),
                CheckRule::must("never-between-centres", &["hold"]),
                CheckRule::must("length-kept", &["limits of the length"]),
                CheckRule::must("dial-known", &[]),
                CheckRule::must("tool-hard-enough", &[]),
                CheckRule::must("swing", &[]),
                CheckRule::must("chuck-speed", &[]),
                CheckRule::must("grip", &["hold.diameter", "hold.grip", "hold.overhang"]),
                CheckRule::must("grip-moment", &["hold.diameter", "hold.grip", "hold.overhang"]),
                CheckRule::must("grip-length", &["hold.grip", "hold.overhang", "hold.diameter"]),
                CheckRule::must("jaw-pressure", &["hold.grip"]),
                CheckRule::must("jaw-reach", &["hold.diameter"]),
                CheckRule::must("tool-clear", &["hold.overhang"]),
                CheckRule::must("overhang", &["hold.overhang", "hold.diameter"]),
                CheckRule::must("whips-behind", &["hold.grip", "hold.overhang"]),
                CheckRule::must("seats-on-step", &["hold.grip", "hold.overhang"]),
                CheckRule::must("goes-through", &["hold.grip", "hold.overhang", "hold.diameter"]),
                CheckRule::must("ring-stress", &["hold.diameter"]),
                CheckRule::must("grip-looked-at", &["hold.tested"]),
                CheckRule::may("ring-lobe", &["hold.diameter", "hold.true-within"]),
                CheckRule::may("power", &["power of the machine"]),
                CheckRule::may("balance", &["off-centre"]),
                CheckRule::may("spindle-too-fast", &[]),
                CheckRule::may("never-cut", &[]),
                CheckRule::advice("built-up-edge", &[]),
                CheckRule::advice("speed-share", &[]),
            ]
        }
    }

    fn hold(&self) -> Option<&Hold> {
        self.hold.as_ref()
    }

    fn set_up(&self) -> Option<&SetUpWish> {
        self.set_up.as_ref()
    }

    fn cuts_as(&self, part: &PartFacts, metal: &Material) -> Result<Material, Refusal> {
        turning::cuts_as(metal, part.hardness.as_ref().map(|at| at.value))
    }

    fn problems(&self, part: &PartFacts) -> Vec<Problem> {
        let mut all = Vec::new();
        above_zero("`outside`", &self.outside, &mut all);
        above_zero("`length`", &self.length, &mut all);
        above_zero("`over-all`", &self.over_all, &mut all);
        above_zero("`width`", self.width.as_ref(), &mut all);
        turning::lathe_problems(&self.asked(), part, self.outside.place, &mut all);
        let outside = self.outside.value.number();
        if let Some(bore) = self.bore.as_ref().filter(|bore| bore.value.number() >= outside) {
            let says = format!("`bore` must be smaller than `outside` ({} mm)", figure(outside));
            all.push(Problem::of_sizes(bore.place, says));
        }
        let is_hollow = self.bore.as_ref().is_some_and(|bore| bore.value.number() > 0.0);
        if let Some(caught) = self.caught.as_ref().filter(|at| at.value == Caught::Rod && !is_hollow) {
            all.push(Problem::new(caught.place, "a rod stands in the bore of the piece: a solid one has none"));
        }
        if let Some(over_all) = self.over_all.value.typed() {
            if self.length.value.high.number() >= over_all {
                all.push(Problem::new(self.length.place, "the piece is as long as the part: nothing is parted off"));
            }
            turning::hold_problems(self.hold.as_ref(), over_all, &mut all);
        }
        if let Some(hold) = &self.hold {
            let bored = self.bore.as_ref().map(|bore| turning::Bored::Part(bore.value.number()));
            turning::nothing_to_grip(hold, outside, bored, &mut all);
        }
        all
    }

    fn work(&self, bench: &Bench, answer: &mut Answer) -> Result<(), Refusal> {
        self.work_it(bench, answer)
    }
}
