//! `book speed material=… tool=… work=… diameter=…`: every source's speed, where to begin, the step of this shop's machine.

use super::{Offer, Question, Reply, Row, wording};
use crate::handbook::constants::constant;
use crate::handbook::cutting::speeds::{self, Work};
use crate::handbook::joints::{reaming, reaming_run};
use crate::handbook::materials::groups::Kind;
use crate::handbook::{Material, ToolMaterial};
use crate::operations::Name;
use crate::proof::{At, Origin, Refusal, Worked};
use crate::quantity::{MPerMin, Mm, MmPerRev, Quantity, Ratio, RevPerMin, figure};
use crate::reading::{Problem, near};
use crate::shop::{Cutting, Machine, Shop};
use schemars::JsonSchema;
use serde::{Deserialize, Deserializer};

/// Cutting speed by every source, and the step of a machine.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub(super) struct SpeedAsked {
    /// The metal.
    material: At<Material>,
    /// What the tool is made of.
    tool: At<ToolMaterial>,
    /// The kind of work.
    work: At<WorkAsked>,
    /// At the cutting edge: of the work in the lathe, of the tool elsewhere.
    diameter: At<Mm>,
    /// What makes the cut slower or faster, in any order.
    cut: Option<At<Factors>>,
    /// A machine of the shop; left out, every machine that can do it.
    machine: Option<At<String>>,
}

const DIAMETER: Name<Mm> = Name::new("diameter", "diameter at the cutting edge");
const SPEED: Name<MPerMin> =
    Name::new("surface_speed", "cutting speed to begin with, and the band of what may be a start");
const FACTOR: Name<Ratio> = Name::new("speed_factor", "factors of the cut, together");
const WANTED: Name<MPerMin> = Name::new("surface_speed_wanted", "cutting speed with the factors and the shop's habit");
const SPINDLE: Name<RevPerMin> = Name::new("spindle_wanted", "spindle speed wanted");
const STEP: Name<RevPerMin> = Name::new("spindle_speed", "spindle step at or below");
const REAL: Name<MPerMin> = Name::new("surface_speed_real", "cutting speed that the step gives");
const SUITS: Name<Mm> = Name::new("suits_diameter", "diameter up to which that step keeps to the speed wanted");
const FEED: Name<MmPerRev> = Name::new("feed", "feed of a hand-fed drill by its diameter, the low end first");

/// A kind of work by its short or its long name.
#[derive(Clone, Copy, Debug)]
pub(super) struct WorkAsked(Work);

const WORKS: [(&str, Work); 6] = [
    ("turn-rough", Work::TurnRough),
    ("turn-finish", Work::TurnFinish),
    ("drill", Work::Drill),
    ("ream", Work::Ream),
    ("tap", Work::Tap),
    ("mill", Work::Mill),
];

impl<'de> Deserialize<'de> for WorkAsked {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        let text = String::deserialize(from)?;
        let named = |(short, work): &&(&str, Work)| text == *short || text == work.text();
        let found = WORKS.iter().find(named).map(|(_, work)| Self(*work));
        let known = || near(&text, WORKS.map(|(short, _)| short));
        found.ok_or_else(|| serde::de::Error::custom(format!("`{text}` is no kind of work; {}", known())))
    }
}

/// What makes a cut slower or faster: the word and its row in the table of constants.
const FACTORS: [(&str, &str); 7] = [
    ("hard-skin", "speed-factor-hard-skin"),
    ("internal", "speed-factor-internal"),
    ("interrupted", "speed-factor-interrupted"),
    ("unstable", "speed-factor-unstable"),
    ("parting", "speed-factor-parting"),
    ("face-grooving", "speed-factor-face-grooving"),
    ("rigid", "speed-factor-rigid"),
];

/// Factors named in one text: `internal, interrupted`.
#[derive(Clone, Debug)]
pub(super) struct Factors(Vec<&'static str>);

impl<'de> Deserialize<'de> for Factors {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        let text = String::deserialize(from)?;
        let one = |word: &str| {
            let found = FACTORS.iter().find(|(known, _)| *known == word).map(|(_, row)| *row);
            let says = || format!("`{word}` is no factor of a cut; {}", near(word, FACTORS.map(|(known, _)| known)));
            found.ok_or_else(|| serde::de::Error::custom(says()))
        };
        text.split([',', ' ']).filter(|word| !word.is_empty()).map(one).collect::<Result<_, _>>().map(Self)
    }
}

impl Question for SpeedAsked {
    const PLAIN: Option<&'static str> = None;

    fn names() -> Vec<(String, String)> {
        super::metals()
    }

    fn reply(&self, shop: Option<&Shop>) -> Result<Reply, Vec<Problem>> {
        let (material, tool, work) = (&self.material.value, self.tool.value, self.work.value.0);
        let machines = self.machines(shop)?;
        let mut reply = Reply::new(wording::speed_title(material, work, tool));
        reply.put(&DIAMETER, &Worked::from(&self.diameter));
        for row in speeds::every_speed_row(material, work, tool) {
            reply.rows.push(wording::cutting_row(row));
        }
        if work == Work::Ream && reaming::forbids_reaming(material).is_some() {
            reply.note(wording::NOT_REAMED);
        } else if let Err(refusal) = self.begin(&mut reply, shop, &machines) {
            reply.refuse(SPEED.means, refusal);
        }
        if work == Work::Drill {
            reply.put_or_say(&FEED, speeds::drill_feed(self.diameter.value.number()));
        }
        Ok(reply)
    }
}

impl SpeedAsked {
    /// The machines of the shop that can do such work, or the one named.
    fn machines<'a>(&self, shop: Option<&'a Shop>) -> Result<Vec<&'a Cutting>, Vec<Problem>> {
        let can = |machine: &'a Machine| match self.work.value.0 {
            Work::TurnRough | Work::TurnFinish => machine.lathe(),
            Work::Mill => {
                if let Machine::Mill(mill) = machine {
                    Some(mill)
                } else {
                    None
                }
            }
            Work::Drill | Work::Ream | Work::Tap => machine.drills().or_else(|| machine.lathe()),
        };
        let able: Vec<&Cutting> = shop.iter().flat_map(|shop| &shop.machines).filter_map(can).collect();
        let Some(named) = &self.machine else { return Ok(able) };
        let chosen: Vec<&Cutting> = able.iter().copied().filter(|m| m.name.value == named.value).collect();
        if chosen.is_empty() {
            let known = near(&named.value, able.iter().map(|m| m.name.value.as_str()));
            return Err(vec![Problem::new(named.place, wording::no_machine(&named.value, &known))]);
        }
        Ok(chosen)
    }

    fn begin(&self, reply: &mut Reply, shop: Option<&Shop>, machines: &[&Cutting]) -> Result<(), Refusal> {
        let (material, tool) = (&self.material.value, self.tool.value);
        let start = match self.work.value.0 {
            Work::Ream => reaming_run::reaming_speed_with(material, tool)?,
            work => speeds::start_speed(material, work, tool)?,
        };
        reply.put(&SPEED, &start);
        let factor = self.factor(reply)?;
        let habit = shop.and_then(|shop| shop.habits.speed_factor.as_ref());
        let habit = habit.map_or_else(|| Worked::assumed(Ratio::new(1.0), wording::NO_HABIT), Worked::from);
        let wanted = speeds::speed_by_factors(&start, &factor, &habit)?;
        reply.put(&WANTED, &wanted);
        let diameter = Worked::from(&self.diameter);
        let spindle = speeds::spindle_speed(&wanted, &diameter)?;
        reply.put(&SPINDLE, &spindle);
        let steel = matches!(self.material.value.kind(), Kind::Steel | Kind::Stainless);
        if self.tool.value.is_carbide()
            && steel
            && wanted.number() < constant::<MPerMin>("built-up-edge-speed")?.number()
        {
            reply.note(wording::BUILT_UP_EDGE);
        }
        if machines.is_empty() {
            reply.note(wording::NO_SHOP);
        }
        reply.offers_heading = Some(wording::MACHINES);
        for machine in machines {
            reply.offers.push(step(machine, &wanted, &spindle, &diameter)?);
        }
        Ok(())
    }

    /// The product of the factors named, not under the floor.
    fn factor(&self, reply: &mut Reply) -> Result<Worked<Ratio>, Refusal> {
        let named = self.cut.as_ref().map(|cut| cut.value.0.as_slice()).unwrap_or_default();
        let factors = named.iter().map(|name| constant::<Ratio>(name)).collect::<Result<Vec<_>, _>>()?;
        for (name, factor) in named.iter().zip(&factors) {
            if let Origin::Row(cited) = &**factor.origin() {
                let figure = (factor.number(), factor.number(), "");
                reply.rows.push(Row::figure(
                    wording::FACTORS,
                    name.replace('-', " "),
                    figure,
                    "",
                    cited.source.clone(),
                ));
            }
        }
        let floor = constant::<Ratio>("speed-factor-floor")?;
        let together = speeds::factors_together(&factors, &floor)?;
        reply.put(&FACTOR, &together);
        Ok(together)
    }
}

/// The step of a machine at or below the speed wanted; where none is low enough, the lowest, and by how much it is over.
fn step(
    machine: &Cutting,
    speed: &Worked<MPerMin>,
    wanted: &Worked<RevPerMin>,
    diameter: &Worked<Mm>,
) -> Result<Offer, Refusal> {
    let name = &machine.name.value;
    let most = wanted.number();
    let found = machine.spindle.value.at_or_below(most);
    let step = found.or_else(|| machine.spindle.value.lowest()).unwrap_or(RevPerMin::new(most));
    let says = match found {
        Some(_) => String::new(),
        None => wording::step_over(step.number() / most),
    };
    let rule = format!("{name}: the step at or below {} rev/min is {} rev/min", figure(most), figure(step.number()));
    let step = Worked::exact(step, Origin::Picked { rule, wanted: wanted.origin().clone() });
    let real = speeds::surface_speed(&step, diameter)?;
    let suits = speeds::diameter_for_speed(speed, &step)?;
    Ok(Offer::new(name, says).with(&STEP, &step).with(&REAL, &real).with(&SUITS, &suits))
}

impl JsonSchema for WorkAsked {
    fn inline_schema() -> bool {
        true
    }
    fn schema_name() -> std::borrow::Cow<'static, str> {
        "WorkAsked".into()
    }
    fn json_schema(_: &mut schemars::SchemaGenerator) -> schemars::Schema {
        schemars::json_schema!({ "type": "string", "enum": WORKS.map(|(short, _)| short) })
    }
}

impl JsonSchema for Factors {
    fn inline_schema() -> bool {
        true
    }
    fn schema_name() -> std::borrow::Cow<'static, str> {
        "Factors".into()
    }
    fn json_schema(_: &mut schemars::SchemaGenerator) -> schemars::Schema {
        let known = FACTORS.map(|(word, _)| word).join(", ");
        schemars::json_schema!({ "type": "string", "description": format!("one or more of {known}") })
    }
}
