//! Roughness that a nose radius leaves, and the feed for a roughness wanted.
//!
//! Ra ~ f²/(32 r) is the shop's form; the exact mean of a parabola is f²/(31.2 r), 2.6 % more. Real over ideal is a factor by
//! material and tool ([`real_over_ideal`]).

use crate::formula;
use crate::handbook::materials::groups::{Kind, Material};
use crate::handbook::{ToolMaterial, constants::constant};
use crate::proof::{Refusal, Worked};
use crate::quantity::{Mm, MmPerRev, Ratio, Roughness};

formula! {
    /// Ideal height of the feed marks of a round nose.
    roughness_rt(f: MmPerRev = "the feed" in 0.001..=5.0, r: Mm = "the nose radius" in 0.01..=20.0)
        -> Rt: Roughness { 1000.0 * sq(f) / (8.0 * r) }
    source Read "tool maker's catalogue: Rz = 1000 f^2/(8 r)"
}
formula! {
    /// Mean roughness of the feed marks, real over ideal by a factor.
    roughness_ra(f: MmPerRev = "the feed" in 0.001..=5.0, r: Mm = "the nose radius" in 0.01..=20.0,
        k: Ratio = "the real over the ideal roughness" in 0.5..=5.0)
        -> Ra: Roughness { k * 1000.0 * sq(f) / (32.0 * r) }
    source Read "textbook form Ra = f^2/(32 r)"
}
formula! {
    /// Feed that leaves a wanted mean roughness.
    feed_for_ra(Ra: Roughness = "the roughness wanted" in 0.01..=100.0, r: Mm = "the nose radius" in 0.01..=20.0,
        k: Ratio = "the real over the ideal roughness" in 0.5..=5.0)
        -> f: MmPerRev { sqrt(32.0 * Ra / 1000.0 * r / k) }
    source Derived "Ra = k f^2/(32 r), turned round"
}
formula! {
    /// The most feed that a nose stands before its round no longer makes the surface.
    feed_most(k: Ratio = "the most feed over the nose radius" in 0.05..=1.0, r: Mm = "the nose radius" in 0.01..=20.0)
        -> f: MmPerRev { k * r }
    source FromMemory "Boothroyd: the round-nose form holds to about f = r/2"
}
formula! {
    /// The least depth at which a nose cuts and does not push.
    least_depth(k: Ratio = "the least depth over the nose radius" in 0.1..=1.0, r: Mm = "the nose radius" in 0.01..=20.0)
        -> a_min: Mm { k * r }
    source Read "tool maker's page: depth at least 2/3 of the nose radius"
}

/// How much rougher a real face is than the ideal one; of a family, the roughest of its members.
///
/// # Errors
/// [`Refusal::NoRow`] where the table of constants lacks the row.
pub(crate) fn real_over_ideal(material: &Material, tool: ToolMaterial) -> Result<Worked<Ratio>, Refusal> {
    material.worst_of(|member| of_alloy(member, tool), |a, b| a.high().total_cmp(&b.high()))
}

fn of_alloy(material: &Material, tool: ToolMaterial) -> Result<Worked<Ratio>, Refusal> {
    constant(match (material.kind(), tool) {
        (Kind::HardSteel, tool) if tool.is_carbide() => "real-over-ideal-roughness-hard-steel-carbide",
        (Kind::HardSteel, _) => "real-over-ideal-roughness-hard-steel-cbn",
        (Kind::GreyIron | Kind::DuctileIron, _) => "real-over-ideal-roughness-cast-iron",
        (Kind::CopperAlloy | Kind::Sintered | Kind::Aluminium | Kind::Magnesium, _) => {
            "real-over-ideal-roughness-copper-alloy-aluminium"
        }
        _ if material.id() == "free-cutting-steel" => "real-over-ideal-roughness-free-cutting",
        _ => "real-over-ideal-roughness-hss-on-steel",
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::Quantity;

    fn exact<Q: Quantity>(number: f64) -> Worked<Q> {
        Worked::assumed(Q::new(number), "given")
    }

    /// Source: textbook problem, 0.25 mm/rev and 1.2 mm: 1.6 um; with 1.25 for ductile metal 2.0 um.
    #[test]
    fn roughness_of_a_round_nose() {
        let ra = |k| roughness_ra(&exact(0.25), &exact(1.2), &exact(k)).unwrap().number();
        assert_eq!((format!("{:.1}", ra(1.0)), format!("{:.1}", ra(1.25))), ("1.6".into(), "2.0".into()));
    }

    /// Feed and roughness are each other's inverse.
    #[test]
    fn the_feed_for_a_roughness_gives_it() {
        let feed = feed_for_ra(&exact(1.6), &exact(0.2), &exact(1.88)).unwrap();
        assert_eq!(format!("{:.4}", feed.number()), "0.0738");
        let back = roughness_ra(&feed, &exact(0.2), &exact(1.88)).unwrap();
        assert!((back.number() - 1.6).abs() < 1e-12);
    }
}
