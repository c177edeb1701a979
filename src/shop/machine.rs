//! Machines: the spindle and feed steps on the plate, power, dials, chuck; press and oven.

use super::axis::Axis;
use super::habits::{oven_slip, stop_slip};
use super::instrument::under_the_least;
use crate::handbook::constants::row;
use crate::handbook::cutting::jaw_force::force_by_diameter;
use crate::proof::At;
use crate::quantity::{
    Angle, Celsius, KiloWatt, Measured, Mm, MmPerRev, Newton, Quantity, Ratio, RevPerMin, Steps, Warmth, figure,
};
use crate::reading::Problem;
use schemars::JsonSchema;
use serde::Deserialize;

/// A machine of the shop.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Machine {
    /// A centre lathe.
    Lathe(Cutting),
    /// A milling machine.
    Mill(Cutting),
    /// A drill press.
    DrillPress(Cutting),
    /// An arbor or hydraulic press.
    Press(Press),
    /// An oven.
    Oven(Oven),
    /// A freezer.
    Freezer(Freezer),
    /// The bench.
    Bench(Bench),
}

/// A machine that cuts.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Cutting {
    /// Its name.
    pub name: At<String>,
    /// Spindle steps on the plate.
    pub spindle: At<Steps<RevPerMin>>,
    /// Feed steps along the bed; left out, it is fed by hand.
    pub feeds_along: Option<At<Steps<MmPerRev>>>,
    /// Feed steps across; left out, it is fed by hand.
    pub feeds_across: Option<At<Steps<MmPerRev>>>,
    /// Feed steps of the quill; left out, it is fed by hand.
    pub feeds_quill: Option<At<Steps<MmPerRev>>>,
    /// Motor power; left out, not checked: power.
    pub power: Option<At<KiloWatt>>,
    /// Drive efficiency; left out, {drive-efficiency-geared-head} of a geared head is assumed.
    pub efficiency: Option<At<Ratio>>,
    /// The back gear: up to which step, with which efficiency; left out, every step has the drive's efficiency.
    pub back_gear: Option<BackGear>,
    /// Largest diameter that clears the bed; left out, not checked: swing.
    pub swing: Option<At<Mm>>,
    /// Largest diameter that clears the cross slide; left out, {swing-over-slide-share} of the swing is assumed.
    pub swing_over_slide: Option<At<Mm>>,
    /// Bore through its chuck and spindle, where that is narrowest; left out, {spindle-bore-share} of the chuck's diameter is assumed.
    pub bore: Option<At<Mm>>,
    /// Greatest depth of cut that it stands; left out, the tool alone limits it.
    pub most_depth: Option<At<Mm>>,
    /// Its chuck; left out, what a chuck must stand is not checked.
    pub chuck: Option<Chuck>,
    /// Its four-jaw chuck; left out, nothing of it is known.
    pub four_jaw: Option<Chuck>,
    /// Its faceplate; left out, what is bolted to it turns at the lowest step.
    pub faceplate: Option<Faceplate>,
    /// Its dials; left out, none: what a dial would read is not told.
    #[serde(default)]
    pub dials: Vec<Dial>,
    /// Doubt of its quill or tailstock depth stop; left out, that of the habits, else {depth-stop-doubt} is assumed.
    pub depth_stop: Option<At<Measured<Mm>>>,
}

/// The steps that run through the back gear.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct BackGear {
    /// The highest step that runs through it.
    pub up_to: At<RevPerMin>,
    /// Its efficiency.
    pub efficiency: At<Ratio>,
}

/// A chuck.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Chuck {
    /// Highest speed on its body; left out, by what a body of its diameter stands; without that, and of a four-jaw chuck, not
    /// checked: chuck speed.
    pub most: Option<At<RevPerMin>>,
    /// Total force of all its jaws at rest, by its paper or by a gauge; left out, by its diameter; a four-jaw chuck's is not known.
    pub jaw_force: Option<At<Newton>>,
    /// Where the jaw force comes from; left out, it is the maker's figure.
    pub jaw_force_by: Option<At<JawForceBy>>,
    /// Its diameter; left out, its jaw force and what its body stands are not worked by it.
    pub diameter: Option<At<Mm>>,
    /// Width of a jaw's face; left out, a sixteenth of the chuck's diameter, an eighth for soft jaws.
    pub jaw_width: Option<At<Mm>>,
    /// The greatest diameter that its jaws grip from outside; left out, the chuck's diameter.
    pub reach: Option<At<Mm>>,
    /// Its mass; left out, it is not counted.
    pub mass: Option<At<crate::quantity::Kilogram>>,
    /// Of a chuck whose jaws move each on its own: how far one turn of the key moves a jaw; left out, moves are told by the
    /// indicator, not by turns.
    pub screw_pitch: Option<At<Mm>>,
}

/// A faceplate.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Faceplate {
    /// Highest speed on its body; left out, what is bolted to it turns at the lowest step, whatever it weighs.
    pub most: Option<At<RevPerMin>>,
    /// Its diameter; left out, the largest that swings there is taken for what its body stands.
    pub diameter: Option<At<Mm>>,
}

/// Where a chuck's jaw force comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum JawForceBy {
    /// The maker's paper: a new, greased chuck and a strong arm.
    Maker,
    /// A gauge between the jaws.
    Gauge,
}

/// What a cross-slide dial counts.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Reads {
    /// Slide travel, a change on the radius.
    Radius,
    /// The change on the diameter.
    Diameter,
}

/// A dial.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Dial {
    /// Which slide.
    pub axis: At<Axis>,
    /// One division.
    pub division: At<Mm>,
    /// One turn; left out, whole turns are not told apart.
    pub per_turn: Option<At<Mm>>,
    /// Top slide: degrees from the bed; left out, parallel to the bed is assumed.
    pub set_over: Option<At<Angle>>,
    /// Cross slide: what it counts; left out, a radius is assumed, and what hangs on it is doubtful.
    pub reads: Option<At<Reads>>,
}

/// A press.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Press {
    /// Its name.
    pub name: At<String>,
    /// The greatest force; left out, not checked: press reaches.
    pub most: Option<At<Newton>>,
    /// How high a pile goes in between its table and its ram, drawn up; left out, a pile over {press-daylight-usual} is in doubt.
    pub daylight: Option<At<Mm>>,
}

/// An oven.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Oven {
    /// Its name.
    pub name: At<String>,
    /// The highest temperature, where neither habits nor shop say; left out, it is doubtful whether the oven gets warm enough.
    pub most: Option<At<Celsius>>,
    /// How far its thermometer may be off, either way; left out, that of the habits, else {oven-doubt} is assumed.
    pub doubt: Option<At<Warmth>>,
    /// How many parts it takes at a time; left out, one.
    pub room: Option<At<u32>>,
    /// The greatest length that goes in; left out, every part is taken to go in.
    pub inside: Option<At<Mm>>,
}

/// A freezer.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Freezer {
    /// Its name.
    pub name: At<String>,
    /// Its temperature, where the habits do not say; left out, {freezer-temperature} is assumed.
    pub at: Option<At<Celsius>>,
    /// How many parts it takes at a time; left out, one.
    pub room: Option<At<u32>>,
}

/// A bench.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Bench {
    /// Its name.
    pub name: At<String>,
}

impl Machine {
    /// Its name.
    pub fn name(&self) -> &str {
        match self {
            Self::Lathe(m) | Self::Mill(m) | Self::DrillPress(m) => &m.name.value,
            Self::Press(m) => &m.name.value,
            Self::Oven(m) => &m.name.value,
            Self::Freezer(m) => &m.name.value,
            Self::Bench(m) => &m.name.value,
        }
    }

    /// The cutting machine, where it is a lathe.
    pub fn lathe(&self) -> Option<&Cutting> {
        if let Self::Lathe(machine) = self { Some(machine) } else { None }
    }

    /// The cutting machine, where it drills with a quill.
    pub fn drills(&self) -> Option<&Cutting> {
        match self {
            Self::Mill(machine) | Self::DrillPress(machine) => Some(machine),
            _ => None,
        }
    }

    /// Its kind: the word that the shop file and the table of change-overs have for it.
    pub const fn kind(&self) -> &'static str {
        match self {
            Self::Lathe(_) => "lathe",
            Self::Mill(_) => "mill",
            Self::DrillPress(_) => "drill-press",
            Self::Press(_) => "press",
            Self::Oven(_) => "oven",
            Self::Freezer(_) => "freezer",
            Self::Bench(_) => "bench",
        }
    }

    /// How many parts it takes at a time, where it is an oven or a freezer: what the shop says.
    pub const fn room(&self) -> Option<&At<u32>> {
        match self {
            Self::Oven(oven) => oven.room.as_ref(),
            Self::Freezer(freezer) => freezer.room.as_ref(),
            _ => None,
        }
    }

    /// The greatest length that goes in, where it is an oven and the shop says.
    pub const fn inside(&self) -> Option<&At<Mm>> {
        if let Self::Oven(oven) = self { oven.inside.as_ref() } else { None }
    }

    /// The temperature that it says of itself, where it is a freezer.
    pub(crate) fn freezes_at(&self) -> Option<At<Celsius>> {
        if let Self::Freezer(freezer) = self { freezer.at.clone() } else { None }
    }

    /// The press, where it is one.
    pub fn press(&self) -> Option<&Press> {
        if let Self::Press(press) = self { Some(press) } else { None }
    }

    pub(super) fn problems(&self, all: &mut Vec<Problem>) {
        if let Self::Lathe(machine) | Self::Mill(machine) | Self::DrillPress(machine) = self {
            machine.problems(all);
        }
        if let Some(room) = self.room().filter(|room| room.value == 0) {
            all.push(Problem::new(room.place, "what takes no part is none: `room` is at least 1"));
        }
        if let Self::Oven(oven) = self
            && let Some(inside) = oven.inside.as_ref().filter(|inside| inside.value.number() <= 0.0)
        {
            all.push(Problem::new(inside.place, "`inside` of the oven is above zero"));
        }
        if let Self::Oven(oven) = self
            && let Some(doubt) = oven.doubt.as_ref().filter(|doubt| doubt.value.number() <= 0.0)
        {
            all.push(Problem::new(doubt.place, "no oven is without doubt: its `doubt` is above zero"));
        }
        if let Self::Oven(oven) = self
            && let Some(doubt) = &oven.doubt
        {
            oven_slip(doubt, all);
        }
    }
}

impl Chuck {
    /// Sizes and forces of nothing.
    fn problems(&self, all: &mut Vec<Problem>) {
        let none = |key: &str| format!("`{key}` of the chuck must be above zero");
        for (key, size) in [("diameter", &self.diameter), ("jaw-width", &self.jaw_width), ("reach", &self.reach)] {
            all.extend(size.iter().filter(|at| at.value.number() <= 0.0).map(|at| Problem::new(at.place, none(key))));
        }
        let most = self.most.iter().filter(|at| at.value.number() <= 0.0);
        all.extend(most.map(|at| Problem::new(at.place, none("most"))));
        let force = self.jaw_force.iter().filter(|at| at.value.number() <= 0.0);
        all.extend(force.map(|at| Problem::new(at.place, none("jaw-force"))));
        self.beyond_its_kind(all);
        if let (Some(by), None) = (&self.jaw_force_by, &self.jaw_force) {
            all.push(Problem::new(by.place, "`jaw-force-by` belongs to a `jaw-force`"));
        }
    }
}

impl Chuck {
    /// What no chuck of its diameter does: a slip of the point, which would let work fly.
    fn beyond_its_kind(&self, all: &mut Vec<Problem>) {
        let Some(diameter) = self.diameter.as_ref().map(|at| at.value.number()).filter(|size| *size > 0.0) else {
            return;
        };
        let most = |id| row(id).map_or(f64::INFINITY, |row| row.value);
        let band = force_by_diameter(diameter).and_then(|force| force.band());
        if let (Some(force), Some((low, high))) = (&self.jaw_force, band)
            && force.value.number() > most("jaw-force-beyond") * high
        {
            let (low, high) = (figure(low / 1000.0), figure(high / 1000.0));
            let says = format!("no hand puts so much on a chuck of {} mm: {low} to {high} kN", figure(diameter));
            all.push(Problem::new(force.place, says));
        }
        let fastest = most("chuck-body-beyond") * 60_000.0 / (std::f64::consts::PI * diameter);
        if let Some(at) = self.most.as_ref().filter(|at| at.value.number() > fastest) {
            let says = format!("no chuck of {} mm turns so fast: read its stamp again", figure(diameter));
            all.push(Problem::new(at.place, says));
        }
    }
}

impl Faceplate {
    /// Sizes and speeds of nothing.
    fn problems(&self, all: &mut Vec<Problem>) {
        let none = |key: &str| format!("`{key}` of the faceplate must be above zero");
        let size = self.diameter.iter().filter(|at| at.value.number() <= 0.0);
        all.extend(size.map(|at| Problem::new(at.place, none("diameter"))));
        let most = self.most.iter().filter(|at| at.value.number() <= 0.0);
        all.extend(most.map(|at| Problem::new(at.place, none("most"))));
    }
}

/// So much of a line may be what typed figures were rounded by.
const LINE: f64 = 0.015;

impl Cutting {
    /// The dial of an axis.
    pub fn dial(&self, axis: Axis) -> Option<&Dial> {
        self.dials.iter().find(|dial| dial.axis.value == axis)
    }

    /// The drive efficiency at a spindle step, where the shop says.
    pub(crate) fn efficiency_at(&self, step: RevPerMin) -> Option<At<Ratio>> {
        let through_gear = self.back_gear.as_ref().filter(|gear| step.number() <= gear.up_to.value.number());
        through_gear.map(|gear| gear.efficiency.clone()).or_else(|| self.efficiency.clone())
    }

    fn problems(&self, all: &mut Vec<Problem>) {
        let mut swings = |diameter: Option<&At<Mm>>, what: &'static str| {
            if let (Some(swing), Some(diameter)) = (&self.swing, diameter)
                && diameter.value.number() > swing.value.number()
            {
                let says = format!("the {what} is larger than this swing: one of the two is wrong");
                all.push(Problem::new(swing.place, says));
            }
        };
        for chuck in self.chuck.iter().chain(&self.four_jaw) {
            swings(chuck.diameter.as_ref(), "chuck");
        }
        let of_plate = self.faceplate.as_ref().and_then(|plate| plate.diameter.as_ref());
        swings(of_plate, "faceplate");
        self.chuck.iter().chain(&self.four_jaw).for_each(|chuck| chuck.problems(all));
        self.faceplate.iter().for_each(|plate| plate.problems(all));
        if let Some(pitch) = self.chuck.as_ref().and_then(|chuck| chuck.screw_pitch.as_ref()) {
            all.push(Problem::new(
                pitch.place,
                "`screw-pitch` belongs to `four-jaw`: a scroll moves all its jaws at once",
            ));
        }
        if let Some(stop) = &self.depth_stop
            && stop.plus_minus.unwrap_or(stop.value.value.number()) <= 0.0
        {
            all.push(Problem::new(stop.place, "no stop is without doubt: `depth-stop` is above zero"));
        }
        if let Some(stop) = &self.depth_stop {
            stop_slip(stop, all);
        }
        for dial in &self.dials {
            if let Some(reads) = &dial.reads
                && dial.axis.value != Axis::Across
            {
                all.push(Problem::new(reads.place, "`reads` belongs to the dial `across` only"));
            }
            if let Some(set_over) = &dial.set_over
                && (dial.axis.value != Axis::Top || set_over.value.number() >= 90.0)
            {
                all.push(Problem::new(set_over.place, "`set-over` belongs to the dial `top`, under 90 deg"));
            }
            if dial.division.value.number() <= 0.0 {
                all.push(Problem::new(dial.division.place, "a division is above zero"));
            }
            if let Some(least) = under_the_least(dial.division.value.number(), "division-least") {
                let says = format!("no dial is divided finer than {} mm: look at the unit", figure(least));
                all.push(Problem::new(dial.division.place, says));
            }
            let most = row("divisions-most").map_or(f64::INFINITY, |row| row.value);
            if let Some(turn) =
                dial.per_turn.as_ref().filter(|turn| turn.value.number() > most * dial.division.value.number())
            {
                let says = format!("no dial has more than {most} divisions on it: look at `division` and `per-turn`");
                all.push(Problem::new(turn.place, says));
            }
            if let Some(turn) = dial.per_turn.as_ref().filter(|turn| turn.value.number() < dial.division.value.number())
            {
                let says = "a turn of a dial has one division at least: leave `per-turn` out where it is not known";
                all.push(Problem::new(turn.place, says));
            } else if let Some(turn) = &dial.per_turn {
                let lines = turn.value.number() / dial.division.value.number();
                // Hundredths of a line are what the figures were rounded by.
                if (lines - lines.round()).abs() > LINE {
                    let says = format!(
                        "a dial has whole lines, and this is {} of them a turn: type what one turn moves, its lines times the division",
                        figure(lines)
                    );
                    all.push(Problem::new(turn.place, says));
                }
            }
        }
        for (key, none) in [
            ("power", self.power.as_ref().filter(|at| at.value.number() <= 0.0).map(|at| at.place)),
            ("swing", self.swing.as_ref().filter(|at| at.value.number() <= 0.0).map(|at| at.place)),
            (
                "swing-over-slide",
                self.swing_over_slide.as_ref().filter(|at| at.value.number() <= 0.0).map(|at| at.place),
            ),
            ("bore", self.bore.as_ref().filter(|at| at.value.number() <= 0.0).map(|at| at.place)),
            ("most-depth", self.most_depth.as_ref().filter(|at| at.value.number() <= 0.0).map(|at| at.place)),
        ] {
            let says = format!("`{key}` of a machine is above zero: leave it out where it is not known");
            all.extend(none.map(|place| Problem::new(place, says)));
        }
        let efficiencies = self.efficiency.iter().chain(self.back_gear.iter().map(|gear| &gear.efficiency));
        for efficiency in efficiencies.filter(|e| !(0.05..=1.0).contains(&e.value.number())) {
            all.push(Problem::new(efficiency.place, "an efficiency lies between 0.05 and 1"));
        }
    }
}
