//! The keys of `ream-bush`, as typed.

use crate::handbook::StateKind;
use crate::handbook::joints::clearance::Duty;
use crate::handbook::joints::warm_limits::{Near, Temper};
use crate::job::{Address, Reading};
use crate::operations::hole_making::Oilway;
use crate::operations::kit::Clearance;
use crate::operations::press_joint::{Bush, Flange, Housing, Running, Stands, Support};
use crate::operations::{Hold, SetUpWish};
use crate::proof::{At, Worked};
use crate::quantity::Mm;
use crate::shop::By;
use schemars::JsonSchema;
use serde::Deserialize;

/// A bush pressed in, drilled for oil and reamed.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
#[schemars(extend("x-wants" = [["housing.material", "part.material"]]))]
pub struct ReamBush {
    /// What it is pressed into.
    pub(super) housing: Housing,
    /// The bush.
    pub(super) bush: Bush,
    /// The shaft that runs in it (measured).
    pub(super) shaft: At<Reading>,
    /// Running clearance: limits or a fit; left out, the rule for its duty.
    pub(super) clearance: Option<At<Clearance>>,
    /// What proves the finished bore; left out, the shop's instruments.
    pub(super) gauge: Option<At<GaugeBy>>,
    /// What it does; left out, general work is assumed where the clearance is by rule.
    pub(super) duty: Option<At<Duty>>,
    /// Oil holes through it; left out, none.
    #[serde(default)]
    pub(super) oil_holes: Vec<OilHole>,
    /// How it goes in.
    pub(super) assemble: Option<At<Assemble>>,
    /// All that is in the housing while it is warm, or so near that it becomes as warm; left out, what `fitted` says of it: nobody
    /// knows where neither does.
    pub(super) near: Option<Vec<At<Near>>>,
    /// How an aluminium housing was hardened.
    pub(super) temper: Option<At<Temper>>,
    /// Reamed by hand or by machine.
    pub(super) by: Option<At<By>>,
    /// Another bush that is reamed in one line with this one; left out, it is reamed alone.
    pub(super) line_with: Option<At<Address>>,
    /// How the part is held.
    pub(super) hold: Option<Hold>,
    /// A flange of the bush; left out, it has none.
    pub(super) flange: Option<Flange>,
    /// A groove in its bore; left out, it has none.
    pub(super) groove: Option<At<Groove>>,
    /// How far it stands out.
    pub(super) stands: Option<At<Stands>>,
    /// Temperatures when it runs.
    pub(super) running: Option<Running>,
    /// What the part stands on at the press; asked of a bush that goes into a cold housing, and of one that comes out beyond it.
    pub(super) support: Option<Support>,
    /// Set-up wishes; left out, none.
    pub(super) set_up: Option<SetUpWish>,
    /// Outside and bore that the bush is made to, where another plan chose them.
    #[serde(skip)]
    #[schemars(skip)]
    pub(super) made_to: Option<MadeTo>,
}

/// What proves the finished bore in the place of an instrument.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub(super) enum GaugeBy {
    /// A pair of plugs, go and not go.
    Plugs,
    /// The shaft that will run in it.
    Shaft,
}

/// A hole for oil through the bush.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub(super) struct OilHole {
    /// Its diameter.
    pub diameter: At<Mm>,
    /// Where its middle is along the bush.
    pub at: At<Mm>,
    /// From which end; left out, the outer one.
    pub from: Option<At<End>>,
    /// When it is drilled; left out, after pressing.
    pub drill: Option<At<DrillWhen>>,
    /// The oilway that it must meet.
    pub oilway: Option<Oilway>,
    /// How far its drill stands out of the chuck; left out, the whole length of a short-series drill.
    pub stick_out: Option<At<Mm>>,
}

/// An end of the bush.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub(super) enum End {
    /// Where the press stands.
    Outer,
    /// The far one.
    Inner,
}

/// When an oil hole is drilled.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub(super) enum DrillWhen {
    /// After pressing, before reaming.
    AfterPress,
    /// Before pressing.
    BeforePress,
    /// After reaming.
    AfterReam,
}

/// How the bush goes in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub(super) enum Assemble {
    /// Pressed in cold.
    Press,
    /// Into a warm housing.
    WarmHousing,
    /// Chilled.
    ChillBush,
    /// Chilled, into a warm housing.
    WarmAndChill,
}

impl Assemble {
    /// Whether the housing is heated.
    pub(super) fn warms(self) -> bool {
        matches!(self, Self::WarmHousing | Self::WarmAndChill)
    }

    /// Whether the bush is chilled.
    pub(super) fn chills(self) -> bool {
        matches!(self, Self::ChillBush | Self::WarmAndChill)
    }

    /// What oven and freezer leave for the press.
    pub(super) fn readies(self) -> impl Iterator<Item = StateKind> {
        let (warm, cold) = (self.warms().then_some(StateKind::Warm), self.chills().then_some(StateKind::Cold));
        warm.into_iter().chain(cold)
    }
}

/// A groove in the bore.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub(super) enum Groove {
    /// Round the bore.
    Around,
    /// Along the bore.
    Lengthwise,
    /// A screw line.
    Spiral,
    /// The bush is split right through.
    Split,
}

/// What a bush is made to, as it stands on a plan.
#[derive(Clone, Debug)]
pub(in crate::operations) struct MadeTo {
    pub(super) outside: Option<Worked<Mm>>,
    pub(super) bore: Option<Worked<Mm>>,
}
