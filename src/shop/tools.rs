//! Cutting tools, drills, taps.

use crate::handbook::{Lead, Thread, ToolMaterial};
use crate::proof::At;
use crate::quantity::{Angle, Mm, Quantity};
use crate::reading::Problem;
use schemars::JsonSchema;
use serde::Deserialize;

/// A tool of the shop.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Tool {
    /// A turning tool.
    Turning(TurningTool),
    /// A boring bar.
    BoringBar(BoringBar),
    /// A parting blade.
    PartingBlade(PartingBlade),
    /// A set of drills.
    Drills(DrillSet),
    /// A single drill.
    Drill(Drill),
    /// A tap.
    Tap(Tap),
    /// A tap for wire thread inserts.
    InsertTap(InsertTap),
    /// A countersink.
    Countersink(Countersink),
    /// A milling cutter.
    MillingCutter(MillingCutter),
}

/// A turning tool.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct TurningTool {
    /// Its name.
    pub name: At<String>,
    /// What it cuts with.
    pub material: At<ToolMaterial>,
    /// Nose radius.
    pub nose: At<Mm>,
    /// Angle between the cutting edge and the direction of feed (κr of ISO 3002); left out, {edge-angle-unknown} is assumed.
    pub edge_angle: Option<At<Angle>>,
    /// Greatest depth of cut that it stands; left out, the machine alone limits it.
    pub most_depth: Option<At<Mm>>,
}

/// A boring bar.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct BoringBar {
    /// Its name.
    pub name: At<String>,
    /// Bar diameter.
    pub diameter: At<Mm>,
    /// What the bar is made of; left out, steel.
    pub bar: Option<At<BarMaterial>>,
    /// How far it may stand out of its holder; left out, not checked: bar reach.
    pub reach: Option<At<Mm>>,
    /// What it cuts with.
    pub material: At<ToolMaterial>,
    /// Nose radius.
    pub nose: At<Mm>,
    /// Angle between the cutting edge and the direction of feed; left out, {edge-angle-unknown} is assumed.
    pub edge_angle: Option<At<Angle>>,
}

/// What a boring bar is made of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum BarMaterial {
    /// Steel.
    Steel,
    /// Solid carbide.
    Carbide,
}

/// A parting blade.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct PartingBlade {
    /// Its name.
    pub name: At<String>,
    /// What it cuts with.
    pub material: At<ToolMaterial>,
    /// Its width.
    pub width: At<Mm>,
    /// How far it reaches out of its holder; left out, not checked: blade reach.
    pub reach: Option<At<Mm>>,
}

/// A set of drills by a fixed step, or of listed sizes.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct DrillSet {
    /// Its name.
    pub name: At<String>,
    /// What they are made of.
    pub material: At<ToolMaterial>,
    /// Smallest; left out, the set has its listed `sizes` alone.
    pub from: Option<At<Mm>>,
    /// Largest; left out, the set has its listed `sizes` alone.
    pub to: Option<At<Mm>>,
    /// Step; left out, the set has its listed `sizes` alone.
    pub by: Option<At<Mm>>,
    /// Listed sizes; left out, the set goes `from` `to` `by`.
    pub sizes: Option<Vec<At<AsTyped>>>,
    /// Point angle; left out, {drill-point-angle} is assumed.
    pub point: Option<At<Angle>>,
}

/// A single drill.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Drill {
    /// Its name; left out, its size.
    pub name: Option<At<String>>,
    /// Its diameter.
    pub size: At<AsTyped>,
    /// What it is made of.
    pub material: At<ToolMaterial>,
    /// Point angle; left out, {drill-point-angle} is assumed.
    pub point: Option<At<Angle>>,
}

/// A size with the words that it was typed with: those stand on the drawer.
#[derive(Clone, Debug, PartialEq)]
pub struct AsTyped {
    /// The size.
    pub size: Mm,
    /// As it was typed.
    pub text: String,
}

impl<'de> Deserialize<'de> for AsTyped {
    fn deserialize<D: serde::Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        let text = String::deserialize(from)?;
        let size = Mm::deserialize(serde::de::value::StrDeserializer::new(&text))?;
        Ok(Self { size, text: text.trim().to_owned() })
    }
}

impl JsonSchema for AsTyped {
    fn inline_schema() -> bool {
        Mm::inline_schema()
    }
    fn schema_name() -> std::borrow::Cow<'static, str> {
        Mm::schema_name()
    }
    fn json_schema(generator: &mut schemars::SchemaGenerator) -> schemars::Schema {
        Mm::json_schema(generator)
    }
}

/// A tap.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Tap {
    /// Its thread.
    pub thread: At<Thread>,
    /// Its lead; left out, plug.
    pub lead: Option<At<Lead>>,
    /// How deep it goes, from its point to where it is thicker than its hole; left out, what the thread of a hand tap is long.
    pub reach: Option<At<Mm>>,
    /// Whether it still has its male centre; left out, a bottoming tap has none and every other up to 8 mm has one.
    pub male_centre: Option<At<bool>>,
}

/// A tap for wire thread inserts.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct InsertTap {
    /// The thread of the insert.
    pub thread: At<Thread>,
    /// Its lead.
    pub lead: At<Lead>,
    /// Whether it still has its male centre; left out, a bottoming tap has none and every other has one.
    pub male_centre: Option<At<bool>>,
}

/// A countersink.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Countersink {
    /// Its name; left out, none.
    pub name: Option<At<String>>,
    /// Included angle.
    pub angle: At<Angle>,
    /// Largest diameter; left out, it is taken for wide enough.
    pub diameter: Option<At<Mm>>,
}

/// A milling cutter.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct MillingCutter {
    /// Its name; left out, its diameter.
    pub name: Option<At<String>>,
    /// Diameter.
    pub diameter: At<Mm>,
    /// Teeth; left out, {mill-teeth} is assumed.
    pub teeth: Option<At<u32>>,
    /// Diameter of its shank, or of the arbor or nose that carries it; left out, a share of its diameter, {mill-shank-most} at the most.
    pub shank: Option<At<Mm>>,
    /// What it cuts with.
    pub material: At<ToolMaterial>,
    /// Whether its end cuts a flat bottom; left out, it does not.
    pub flat_bottom: Option<At<bool>>,
}

/// A drill picked from the shop.
#[derive(Clone, Debug, PartialEq)]
pub struct PickedDrill {
    /// Its diameter, mm.
    pub diameter: f64,
    /// The set or single that it comes from, where that has a name.
    pub from: Option<String>,
    /// Its size as the shop file types it, where it is listed.
    pub typed: Option<String>,
    /// What it is made of.
    pub material: ToolMaterial,
    /// Its point angle, where the shop says.
    pub point: Option<At<Angle>>,
}

impl Tool {
    pub(super) fn drills(&self) -> Vec<PickedDrill> {
        match self {
            Self::Drills(set) => set.diameters().into_iter().map(|diameter| set.pick(diameter)).collect(),
            Self::Drill(drill) => {
                vec![PickedDrill {
                    diameter: drill.size.value.size.number(),
                    from: drill.name.as_ref().map(|name| name.value.clone()),
                    typed: Some(drill.size.value.text.clone()),
                    material: drill.material.value,
                    point: drill.point.clone(),
                }]
            }
            _ => Vec::new(),
        }
    }

    pub(super) fn problems(&self, all: &mut Vec<Problem>) {
        let (edge, nose) = match self {
            Self::Turning(t) => (t.edge_angle.as_ref(), Some(&t.nose)),
            Self::BoringBar(b) => (b.edge_angle.as_ref(), Some(&b.nose)),
            _ => (None, None),
        };
        if let Some(edge) = edge.filter(|e| !(30.0..=120.0).contains(&e.value.number())) {
            all.push(Problem::new(
                edge.place,
                "`edge-angle` (cutting edge to direction of feed) lies between 30 and 120 deg",
            ));
        }
        if let Some(nose) = nose.filter(|n| n.value.number() <= 0.0 || n.value.number() > 20.0) {
            all.push(Problem::new(nose.place, "a nose radius lies above 0 and up to 20 mm"));
        }
        let sizes = match self {
            Self::BoringBar(b) => vec![Some(&b.diameter), b.reach.as_ref()],
            Self::PartingBlade(b) => vec![Some(&b.width), b.reach.as_ref()],
            _ => Vec::new(),
        };
        for size in sizes.into_iter().flatten().filter(|size| size.value.number() <= 0.0) {
            all.push(Problem::new(size.place, "a bar or a blade has no size that is not above zero"));
        }
        let point = match self {
            Self::Drills(set) => set.point.as_ref(),
            Self::Drill(drill) => drill.point.as_ref(),
            _ => None,
        };
        if let Some(point) = point.filter(|p| !(60.0..=180.0).contains(&p.value.number())) {
            all.push(Problem::new(point.place, "a drill's point angle lies between 60 and 180 deg (180 is flat)"));
        }
        if let Self::Drills(set) = self {
            set.problems(all);
        }
    }
}

/// Parts of a millimetre that a tenth of it and a hundred-and-twenty-eighth of an inch are whole numbers of.
const PARTS: f64 = 1e7;

/// A set with more drills than this is a slip of the pen.
const MOST_DRILLS: f64 = 2_000.0;

impl DrillSet {
    fn diameters(&self) -> Vec<f64> {
        let listed = self.sizes.iter().flatten().map(|size| size.value.size.number());
        let (Some(from), Some(to), Some(by)) = (&self.from, &self.to, &self.by) else { return listed.collect() };
        let (from, to, by) = (from.value.number(), to.value.number(), by.value.number());
        // Counted in whole parts, so that 8.4 mm is 8.4 mm, and 1/4 in is 1/4 in, however many steps lie below it.
        let parts = |mm: f64| (mm * PARTS).round();
        let count = ((parts(to) - parts(from)) / parts(by)).floor().clamp(0.0, MOST_DRILLS) as u32;
        listed.chain((0..=count).map(|i| (parts(from) + f64::from(i) * parts(by)) / PARTS)).collect()
    }

    fn pick(&self, diameter: f64) -> PickedDrill {
        let listed = self.sizes.iter().flatten().find(|size| size.value.size.number() == diameter);
        PickedDrill {
            diameter,
            from: Some(self.name.value.clone()),
            typed: listed.map(|size| size.value.text.clone()),
            material: self.material.value,
            point: self.point.clone(),
        }
    }

    fn problems(&self, all: &mut Vec<Problem>) {
        let place = self.name.place;
        match (&self.from, &self.to, &self.by, &self.sizes) {
            (Some(from), Some(to), Some(by), _) => {
                let (least, most, step) = (from.value.number(), to.value.number(), by.value.number());
                if least <= 0.0 || most < least || step < 0.001 || (most - least) / step > MOST_DRILLS {
                    all.push(Problem::new(
                        by.place,
                        "a set runs `from` a size above zero up `to` a larger one `by` steps of at least 0.001 mm",
                    ));
                }
            }
            (None, None, None, Some(sizes)) if !sizes.is_empty() => {}
            _ => all.push(Problem::new(place, "a set of drills needs `from`, `to` and `by`, or a list of `sizes`")),
        }
    }
}
