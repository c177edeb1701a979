//! Which tool: by hardness first, then by what its nose can bite.

use super::Ground;
use crate::handbook::{ToolMaterial, constants::constant, cutting::finish};
use crate::operations::{Answer, Bench};
use crate::proof::{Check, Place, Refusal, Verdict, Words, Worked};
use crate::quantity::{Angle, Mm, Quantity, figure};
use crate::shop::TurningTool;

/// The edge that cuts.
pub(in crate::operations) struct Edge {
    pub name: String,
    pub material: ToolMaterial,
    pub nose: Worked<Mm>,
    pub angle: Worked<Angle>,
    /// Greatest depth that it stands, where the shop says.
    pub most_depth: Option<Worked<Mm>>,
}

/// The tool named, else the first of the shop that suits the metal; of those that suit, one whose nose can bite.
pub(super) fn choose(
    bench: &Bench,
    ground: &Ground,
    removed: &Worked<Mm>,
    answer: &mut Answer,
) -> Result<Edge, Refusal> {
    let Some(shop) = bench.shop else {
        return Ok(assumed(ground, answer));
    };
    let named = ground.asked.tool.and_then(|name| shop.turning_tools().find(|tool| tool.name.value == name.value));
    if let (Some(name), None) = (ground.asked.tool, named) {
        answer.missing.push(Words::of("tool").with("wanted", name.value.clone()));
        answer.check(Check::of_kind("tool-in-shop", Verdict::Fails).with("wanted", name.value.clone()).at(name.place));
    }
    let place = ground.asked.tool.map(|name| name.place);
    if let Some(tool) = named
        && !refused(ground, tool.material.value)
    {
        answer.choose("tool", tool.name.value.clone(), Words::of("tool-named"));
        judge(ground, tool.material.value, place, answer);
        return Ok(of(tool, answer));
    }
    let least: Worked<crate::quantity::Ratio> = constant("least-depth-over-nose")?;
    let bites = |tool: &&TurningTool| {
        finish::least_depth(&least, &(&tool.nose).into()).is_ok_and(|depth| depth.number() <= removed.number() + 1e-9)
    };
    let best = shop
        .turning_tools()
        .filter_map(|tool| Some((rank(ground, tool.material.value)?, !bites(&tool), tool)))
        .min_by_key(|(rank, blunt, _)| (*rank, *blunt));
    match best {
        Some((_, _, tool)) => {
            if let Some(named) = named {
                judge(ground, named.material.value, place, answer);
            }
            let why = match named {
                Some(named) => Words::of("tool-put-aside").with("named", named.name.value.clone()),
                None => Words::of("tool-that-suits"),
            };
            answer.choose("tool", tool.name.value.clone(), why);
            judge(ground, tool.material.value, None, answer);
            Ok(of(tool, answer))
        }
        None => {
            nothing_suits(ground, named.map(|tool| tool.material.value), place, answer);
            Ok(assumed(ground, answer))
        }
    }
}

/// High-speed steel on a hard part.
fn refused(ground: &Ground, tool: ToolMaterial) -> bool {
    ground.too_hard_for_hss && tool.is_steel()
}

/// Lower is better; none does not suit. Hard parts want CBN or ceramic, then carbide; others a steel or carbide first.
fn rank(ground: &Ground, tool: ToolMaterial) -> Option<u8> {
    let very_hard = matches!(tool, ToolMaterial::Cbn | ToolMaterial::Ceramic);
    match (ground.too_hard_for_hss, very_hard) {
        _ if refused(ground, tool) => None,
        (true, true) => Some(0),
        (true, false) => Some(1),
        _ if super::speed::book(ground, tool, false).is_err() => None,
        (false, true) => Some(1),
        (false, false) => Some(0),
    }
}

/// Is the tool hard enough: HSS fails on a hard part, carbide is doubtful there.
fn judge(ground: &Ground, tool: ToolMaterial, place: Option<Place>, answer: &mut Answer) {
    if !ground.too_hard_for_hss {
        return;
    }
    let verdict = match tool {
        ToolMaterial::Cbn | ToolMaterial::Ceramic => Verdict::Proven,
        tool if tool.is_carbide() => Verdict::Doubtful,
        _ => Verdict::Fails,
    };
    let check = Check::of_kind("tool-hard-enough", verdict).with("edge", tool.text());
    answer.check(place.map_or(check.clone(), |place| check.at(place)));
}

/// Nothing in the shop: a hard part fails, another is doubtful; both go on the missing list.
fn nothing_suits(ground: &Ground, named: Option<ToolMaterial>, place: Option<Place>, answer: &mut Answer) {
    if ground.too_hard_for_hss {
        answer.missing.push(Words::of("hard-tool"));
        judge(ground, named.unwrap_or(ToolMaterial::Hss), place, answer);
    } else {
        answer.missing.push(Words::of("tool").with("wanted", "a turning tool for this metal"));
        let check = Check::of_kind("tool-in-shop", Verdict::Doubtful).with("wanted", "for this metal");
        answer.check(place.map_or(check.clone(), |place| check.at(place)));
    }
}

/// A nose of 0.2 mm: CBN on a hard part, else high-speed steel.
fn assumed(ground: &Ground, answer: &mut Answer) -> Edge {
    let soft = if super::speed::book(ground, ToolMaterial::Hss, false).is_ok() {
        ToolMaterial::Hss
    } else {
        ToolMaterial::Carbide
    };
    let hard = ground.cuts_as.kind() == crate::handbook::materials::groups::Kind::HardSteel;
    let material = if ground.too_hard_for_hss || hard { ToolMaterial::Cbn } else { soft };
    let name = format!("{}, nose {} mm", material.text(), figure(ASSUMED_NOSE));
    answer.assume_words(Words::of("tool").with("value", name.clone()));
    answer.fact("tool", name.clone());
    Edge {
        name,
        material,
        nose: Worked::assumed(Mm::new(ASSUMED_NOSE), "a small nose"),
        angle: Worked::assumed(Angle::new(90.0), "a knife tool"),
        most_depth: None,
    }
}

/// Nose radius of an edge that nobody named, mm (our own choice).
const ASSUMED_NOSE: f64 = 0.2;

fn of(tool: &TurningTool, answer: &mut Answer) -> Edge {
    answer.fact("tool", tool.name.value.clone());
    let knife = || Worked::assumed(Angle::new(90.0), "a knife tool");
    Edge {
        name: tool.name.value.clone(),
        material: tool.material.value,
        nose: (&tool.nose).into(),
        angle: answer.typed_or(tool.edge_angle.as_ref(), "edge-angle", knife),
        most_depth: tool.most_depth.as_ref().map(Worked::from),
    }
}
