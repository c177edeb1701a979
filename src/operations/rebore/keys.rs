//! The keys of a rebore, what cannot be, and what it answers.

use super::names;
use super::readings::{Radii, Readings};
use crate::handbook::Material;
use crate::handbook::measuring::oversizes::{Cooling, Series};
use crate::job::{Difference, PartFacts, Reading};
use crate::operations::hole_making::HELD_VALUES;
use crate::operations::kit::above_zero;
use crate::operations::{Answer, Bench, Declared, Hold, Operation, SetUpWish, Stage, turning};
use crate::proof::{At, CheckRule, Refusal};
use crate::quantity::{Celsius, Mm, Quantity, Ratio, Shift, Wanted, figure};
use crate::reading::Problem;
use schemars::JsonSchema;
use serde::Deserialize;

/// By which definition a bore is judged.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub(super) enum Definition {
    /// Axes at one depth, depths down one axis.
    SameDepth,
    /// Greatest of one axis less least of the other; greatest of the top less greatest of the bottom.
    MixedDepth,
}

/// Which axis it is bored about.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub(super) enum Axis {
    /// That of the unworn ring.
    Old,
    /// The middle of the worn place.
    Worn,
}

/// What wear is allowed.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub(super) struct Limits {
    /// Wear.
    pub(super) wear: Option<At<Mm>>,
    /// Taper.
    pub(super) taper: Option<At<Mm>>,
    /// Out of round.
    pub(super) out_of_round: Option<At<Mm>>,
}

/// What stands about the bore.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub(super) struct About {
    /// Outside at its thinnest place (measured).
    pub(super) size: At<Reading>,
    /// How far the bore lies off it (measured).
    pub(super) eccentric: Option<At<Difference>>,
}

/// A ring that was tried in a bore.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub(super) struct Ring {
    /// Its gap there (measured).
    pub(super) found: At<Difference>,
    /// The bore where it was found.
    #[serde(rename = "in")]
    pub(super) bore: At<Mm>,
}

/// Temperatures that they run at.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub(super) struct Warm {
    /// The piston.
    pub(super) piston: At<Celsius>,
    /// The bore.
    pub(super) bore: At<Celsius>,
}

/// A worn cylinder bored and honed for another piston.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Bore {
    /// The bore when it was new.
    pub(super) nominal: At<Mm>,
    /// How long it is.
    pub(super) length: At<Mm>,
    /// What was read in it (measured).
    pub(super) readings: At<Readings>,
    /// The diameter where nothing runs (measured); left out, the nominal, and it is doubtful.
    pub(super) unworn: Option<At<Reading>>,
    /// The piston that is in it now (measured).
    pub(super) piston_now: Option<At<Reading>>,
    /// What wear is allowed; left out, wear, taper and out of round are not judged.
    pub(super) limits: Option<Limits>,
    /// By which definition taper and out of round are meant; left out, the worse of both.
    pub(super) definition: Option<At<Definition>>,
    /// Which axis it is bored about; left out, the old one.
    pub(super) axis: Option<At<Axis>>,
    /// In which unit oversizes are bought; left out, either.
    pub(super) series: Option<At<Series>>,
    /// Clearance of the piston (wanted); left out, by its metal and the cooling, and it is doubtful.
    pub(super) clearance: Option<At<Wanted<Mm>>>,
    /// Metal of the piston, where the drawer does not say it; left out, aluminium is assumed where the clearance is by rule.
    pub(super) piston_metal: Option<At<Material>>,
    /// What cools the cylinder; left out, air.
    pub(super) cooling: Option<At<Cooling>>,
    /// What the hone takes, on the diameter.
    pub(super) honing: Option<At<Mm>>,
    /// What cleans a side.
    pub(super) clean_up: Option<At<Mm>>,
    /// What stands about the bore.
    pub(super) outside: Option<About>,
    /// Least wall that may be left (wanted).
    pub(super) least_wall: Option<At<Mm>>,
    /// The ring gap.
    pub(super) ring_gap: Option<Ring>,
    /// Stroke; left out, the volumes are not worked.
    pub(super) stroke: Option<At<Mm>>,
    /// Compression with the nominal bore; left out, the compression afterwards is not worked.
    pub(super) compression: Option<At<Ratio>>,
    /// How far the piston stays below the top of the bore; left out, level.
    pub(super) deck: Option<At<Mm>>,
    /// Temperatures that they run at.
    pub(super) running: Option<Warm>,
    /// Least clearance when they run warm (wanted).
    pub(super) least_running: Option<At<Shift>>,
    /// How far the base face is off square over the length of the bore (measured).
    pub(super) base_square: Option<At<Difference>>,
    /// How it is held.
    pub(super) hold: Option<Hold>,
    /// The boring bar by its name in the shop; left out, the stiffest that goes in.
    pub(super) bar: Option<At<String>>,
    /// Machine, name, feature, remark; left out, none.
    pub(super) set_up: Option<SetUpWish>,
}

/// Checks that each piston answers for itself.
pub(super) const OF_PISTON: &[&str] = &[
    "cleans-up",
    "cleans-up-other",
    "lobes",
    "piston-in-hand",
    "clearance",
    "can-be-measured",
    "wall",
    "ring-gap",
    "running",
    "bar",
    "hone-left",
];

const CHECKS: &[CheckRule] = &[
    CheckRule::found("wear", &["limits.wear"]),
    CheckRule::found("taper", &["limits.taper"]),
    CheckRule::found("out-of-round", &["limits.out-of-round"]),
    CheckRule::found("worn-clearance", &["piston-now"]),
    CheckRule::must("metal-takes-it", &["part.material"]),
    CheckRule::must("read-all-along", &["readings.depths"]),
    CheckRule::must("unworn-is-least", &["unworn"]),
    CheckRule::must("cleans-up", &["readings.thrust", "readings.pin"]),
    CheckRule::advice("cleans-up-other", &["unworn"]),
    CheckRule::may("lobes", &["readings.thrust", "readings.pin"]),
    CheckRule::must("piston-in-hand", &["drawers.pistons"]),
    CheckRule::must("clearance", &["clearance"]),
    CheckRule::may("can-be-measured", &["drawers.pistons"]),
    CheckRule::must("wall", &["outside", "least-wall"]),
    CheckRule::may("ring-gap", &["ring-gap"]),
    CheckRule::must("running", &["running", "least-running"]),
    CheckRule::must("base-square", &["base-square"]),
    CheckRule::must("bar", &["bar"]),
    CheckRule::must("on-a-mill", &["mill"]),
    CheckRule::must("held", &["hold"]),
    CheckRule::must("stays-round", &["hold"]),
    CheckRule::must("grip", &["hold.tested"]),
    CheckRule::must("grip-looked-at", &["hold.tested"]),
    CheckRule::must("grip-length", &["hold.grip", "hold.overhang", "hold.diameter"]),
    CheckRule::must("bar-hard-enough", &["bar"]),
    CheckRule::must("spindle-too-fast", &["mill"]),
    CheckRule::must("hone-left", &["honing"]),
];

impl Bore {
    fn problems_of_radii(&self, radii: &Radii, places: usize, all: &mut Vec<Problem>) {
        let nominal = self.nominal.value.number();
        if radii.from.value.typed().is_some_and(|from| (2.0 * from - nominal).abs() > nominal / 10.0) {
            let says = "twice `from` is over a tenth off the nominal bore: it is the radius at the indicator's nought";
            all.push(Problem::new(radii.from.place, says));
        }
        if radii.reads.len() != places {
            all.push(Problem::new(radii.angles.place, "`reads` has a row for every depth, no more and no fewer"));
        }
        let round = radii.angles.value.reads.len();
        if round < 3 || radii.angles.value.numbers().is_none() {
            all.push(Problem::new(radii.angles.place, "three angles at least, each with its figure"));
        }
        for row in &radii.reads {
            let reads = row.value.numbers();
            if row.value.reads.len() != round || reads.is_none() {
                all.push(Problem::new(row.place, "a row has a reading at every angle"));
            }
            if reads.is_some_and(|reads| reads.iter().any(|read| read.abs() > nominal / 20.0)) {
                all.push(Problem::new(row.place, "a reading is over a tenth off the radius: not this bore"));
            }
        }
    }

    fn problems_of_readings(&self, all: &mut Vec<Problem>) {
        let Readings { depths, axes, radii, .. } = &self.readings.value;
        let places = depths.value.reads.len();
        let length = self.length.value.number();
        if depths.value.numbers().is_some_and(|all| all.iter().any(|depth| !(0.0..=length).contains(depth))) {
            let says = format!("the bore is {} mm long: a depth lies in it", figure(length));
            all.push(Problem::of_sizes(depths.place, says));
        }
        if places < 2 {
            all.push(Problem::new(depths.place, "two depths at least: one says nothing of taper"));
        }
        if let Some(radii) = radii {
            self.problems_of_radii(radii, places, all);
        }
        for (name, row) in axes {
            if row.value.reads.len() != places {
                all.push(Problem::new(
                    row.place,
                    format!("`{name}` has a reading at every depth, no more and no fewer"),
                ));
            }
            let nominal = self.nominal.value.number();
            let far = |read: f64| (read - nominal).abs() > nominal / 10.0;
            match row.value.numbers() {
                None => {
                    all.push(Problem::new(row.place, "a reading is missing: read there too, or leave its depth out"))
                }
                Some(reads) if reads.iter().any(|read| far(*read)) => {
                    let says =
                        format!("`{name}` holds a diameter that is over a tenth off the nominal bore: not this bore");
                    all.push(Problem::new(row.place, says));
                }
                Some(_) => {}
            }
        }
    }
}

/// What the finished bore must be is settled by the hone: until then it can still be made larger. What a piston takes off, what
/// is left for the hone and what holds the bar is settled by the boring.
const STAGES: &[Stage] = &[
    Stage::of(&["bore-the-cylinder"], &[]),
    Stage::of(&["hone-the-cylinder"], &["clearance", "can-be-measured", "running", "ring-gap"]),
];

impl Operation for Bore {
    fn values(&self) -> &'static [&'static [Declared]] {
        &[names::VALUES, HELD_VALUES]
    }

    fn checks(&self) -> &'static [CheckRule] {
        CHECKS
    }

    fn stages(&self) -> &'static [Stage] {
        STAGES
    }

    fn runs_as_warm(&self) -> Option<&At<Celsius>> {
        self.running.as_ref().map(|running| &running.bore)
    }

    fn gripped(&self) -> Option<&crate::operations::Hold> {
        self.hold.as_ref()
    }

    fn set_up(&self) -> Option<&SetUpWish> {
        self.set_up.as_ref()
    }

    fn cuts_as(&self, part: &PartFacts, metal: &Material) -> Result<Material, Refusal> {
        turning::cuts_as(metal, part.hardness.as_ref().map(|at| at.value))
    }

    fn problems(&self, _: &PartFacts) -> Vec<Problem> {
        let mut all = Vec::new();
        above_zero("`nominal`", &self.nominal, &mut all);
        above_zero("`length`", &self.length, &mut all);
        above_zero("`unworn`", self.unworn.as_ref(), &mut all);
        above_zero("`piston-now`", self.piston_now.as_ref(), &mut all);
        above_zero("`clearance`", self.clearance.as_ref(), &mut all);
        if let Some(one) = self.clearance.as_ref().filter(|at| at.value.low.number() >= at.value.high.number()) {
            all.push(Problem::new(one.place, "`clearance` has two limits, as in `0.06 to 0.10 mm`"));
        }
        above_zero("`stroke`", self.stroke.as_ref(), &mut all);
        above_zero("`least-wall`", self.least_wall.as_ref(), &mut all);
        above_zero("`size` of the outside", self.outside.as_ref().map(|about| &about.size), &mut all);
        above_zero("`in` of the ring", self.ring_gap.as_ref().map(|ring| &ring.bore), &mut all);
        if let Some(hold) = &self.hold {
            hold.problems(Some(self.length.value.number()), &mut all);
            if hold.fills_the_bore() {
                all.push(Problem::new(hold.held_in.place, "what holds it stands in the very bore that is to be bored"));
            }
        }
        if let Some(least) = self.least_running.as_ref().filter(|at| at.value.number() < 0.0) {
            let says = "`least-running` is 0 mm at the least: under it the piston is larger than its bore, and seizes";
            all.push(Problem::new(least.place, says));
        }
        if let Some(compression) = self.compression.as_ref().filter(|at| at.value.number() <= 1.0) {
            all.push(Problem::new(compression.place, "a compression is above one"));
        }
        self.problems_of_readings(&mut all);
        all
    }

    fn work(&self, bench: &Bench, answer: &mut Answer) -> Result<(), Refusal> {
        self.work_it(bench, answer)
    }
}
