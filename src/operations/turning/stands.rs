//! Does an edge stand up to the metal, and to the blows of the cut?

use super::Piece;
use super::edge::Edge;
use crate::handbook::ToolMaterial;
use crate::handbook::materials::groups::Kind;
use crate::operations::kit::hard;
use crate::operations::{Answer, Bench};
use crate::proof::{Check, Fact, Refusal, Verdict, Words};

/// Is the edge hard enough, and does it stand the blows? High-speed steel goes soft on a hard part, carbide is doubtful there;
/// CBN and ceramic are for hard metal and break under blows: `true` where the metal or the cut is not for such an edge.
pub(super) fn hard_enough(bench: &Bench, piece: &Piece, edge: &Edge, row: &mut Answer) -> Result<bool, Refusal> {
    if bench.shop.is_none() {
        row.no_shop(&["tool-hard-enough"]);
        return Ok(false);
    }
    let brittle = matches!(edge.material, ToolMaterial::Cbn | ToolMaterial::Ceramic);
    let blows = brittle && piece.asked.slots() > 0;
    let soft_steel = brittle && piece.cuts_as.kind() == Kind::Steel;
    let verdict = match edge.material {
        tool if tool.is_steel() && piece.too_hard_for_hss => Verdict::Fails,
        tool if tool.is_carbide() => piece.for_carbide()?,
        _ if blows || soft_steel => Verdict::Doubtful,
        _ => Verdict::Proven,
    };
    let place = piece.asked.tool.filter(|name| Fact::from(&name.value) == edge.name).map(|name| name.place);
    let untried = hard::is_untried(&piece.material, piece.hardness);
    let best = if untried { Verdict::Doubtful } else { Verdict::Proven };
    let check = Check::of_kind("tool-hard-enough", verdict).not_better_than(best).with("edge", edge.material.text());
    let check = row.check(place.map_or(check.clone(), |place| check.at(place)));
    if untried {
        check.remedy(Words::of("try-it-with-a-file"));
    }
    if verdict != Verdict::Proven && !brittle {
        check.remedy(Words::of("harder-edge"));
    }
    if blows {
        check.remedy(Words::of("tougher-edge"));
    }
    if soft_steel {
        check.remedy(Words::of("edge-for-soft-steel"));
    }
    Ok(blows || soft_steel)
}
