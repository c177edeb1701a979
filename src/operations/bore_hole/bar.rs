//! The boring bar: does it go into the hole with room for its chips, does it reach, does it stand stiff?

use super::names::{BAR_OUT, BAR_SHARE, BAR_SLENDER};
use crate::handbook::constants::constant;
use crate::handbook::cutting::{deflection, stock, times};
use crate::operations::turning::{Candidate, Edge};
use crate::operations::{Answer, Bench};
use crate::proof::{Check, Fact, Keep, Mark, Refusal, Source, Words, Worked};
use crate::quantity::{Decimals, Mm, Quantity, Ratio, Rounds, SpringRate};
use crate::shop::{BarMaterial, BoringBar};

/// The checks of the bar.
const ALL: [&str; 3] = ["bar-in-hole", "bar-reach", "bar-slender"];

/// What a bar is worked for.
pub(super) struct Hole<'a> {
    /// The hole as found.
    pub present: &'a Worked<Mm>,
    /// How far it is bored.
    pub depth: &'a Worked<Mm>,
    pub through: bool,
}

/// The bars of the shop, each as a tool that may cut.
pub(super) fn candidates<'a>(bars: &[&'a BoringBar]) -> Vec<Candidate<'a>> {
    let candidate = |bar: &&'a BoringBar| {
        let bar: &'a BoringBar = bar;
        Candidate { name: &bar.name, edge: Box::new(move |row| edge(bar, row)) }
    };
    bars.iter().map(candidate).collect()
}

fn edge(bar: &BoringBar, answer: &mut Answer) -> Result<Edge, Refusal> {
    answer.fact("tool", bar.name.value.clone());
    let angle = match &bar.edge_angle {
        Some(angle) => angle.into(),
        None => answer.assume("edge-angle", constant("edge-angle-unknown")?),
    };
    Ok(Edge {
        name: (&bar.name.value).into(),
        material: bar.material.value,
        nose: (&bar.nose).into(),
        angle,
        most_depth: None,
    })
}

fn made_of(bar: &BoringBar) -> BarMaterial {
    bar.bar.as_ref().map_or(BarMaterial::Steel, |at| at.value)
}

impl Hole<'_> {
    /// Judges a bar in this hole; without one its checks wait for it.
    pub(super) fn judge(&self, bench: &Bench, bar: Option<&BoringBar>, answer: &mut Answer) -> Result<(), Refusal> {
        let out = answer.record(&BAR_OUT, self.stands_out()?);
        answer.fact("bar_out", Fact::mm(out.number()).to(Decimals::Exactly(1)).rounded(Rounds::Up));
        if bench.shop.is_none() {
            answer.no_shop(&ALL);
            return Ok(());
        }
        let Some(bar) = bar else {
            answer.not_checked(&ALL, &["bar"]);
            return Ok(());
        };
        let guard = bench.guard();
        let diameter = Worked::<Mm>::from(&bar.diameter);
        let share = answer.record(&BAR_SHARE, stock::bar_in_hole(&diameter, self.present)?);
        let (well, most): (Worked<Ratio>, Worked<Ratio>) =
            (constant("bar-share-of-hole")?, constant("bar-share-of-hole-most")?);
        let check = Check::judge_two("bar-in-hole", (&share, &well), Keep::AtMost, (&share, &most), guard);
        let check = answer.check(check.about(BAR_SHARE.key));
        if !check.is_proven() {
            let thick = Fact::mm(well.number() * self.present.number()).to(Decimals::Exactly(1)).rounded(Rounds::Down);
            check.remedy(Words::of("thinner-bar").with("bar", thick));
        }
        match &bar.reach {
            Some(reach) => {
                let check = Check::judge("bar-reach", &out, Keep::AtMost, &reach.into(), guard);
                answer.check(check.about(BAR_OUT.key));
            }
            None => answer.not_checked(&["bar-reach"], &["bar.reach"]),
        }
        let slender = answer.record(&BAR_SLENDER, stock::bar_slenderness(&out, &diameter)?);
        let (well, most) = match made_of(bar) {
            BarMaterial::Steel => ("bar-overhang-steel", "bar-overhang-steel-most"),
            BarMaterial::Carbide => ("bar-overhang-carbide", "bar-overhang-carbide-most"),
        };
        if bar.bar.is_none() {
            answer.assume_words(Words::of("bar-of-steel"));
        }
        let (well, most): (Worked<Ratio>, Worked<Ratio>) = (constant(well)?, constant(most)?);
        let check = Check::judge_two("bar-slender", (&slender, &well), Keep::AtMost, (&slender, &most), guard);
        let check = answer.check(check.about(BAR_SLENDER.key));
        if !check.is_proven() {
            let thick = Fact::mm(out.number() / well.number()).to(Decimals::Exactly(1)).rounded(Rounds::Up);
            check.remedy(Words::of("stiffer-bar").with("bar", thick));
        }
        Ok(())
    }

    /// How far the bar stands out: the depth, what it comes through by, and air before the tool post.
    fn stands_out(&self) -> Result<Worked<Mm>, Refusal> {
        let through = match self.through {
            true => constant("overrun")?,
            false => Worked::row(Mm::new(0.0), "it does not come through: 0", Source::fixed("geometry", Mark::Derived)),
        };
        times::length_fed(self.depth, &through, &constant("bar-clear")?)
    }

    /// How stiff the bar stands at its nose.
    pub(super) fn stiffness(&self, bar: &BoringBar) -> Result<Worked<SpringRate>, Refusal> {
        let modulus = constant(match made_of(bar) {
            BarMaterial::Steel => "bar-modulus-steel",
            BarMaterial::Carbide => "bar-modulus-carbide",
        })?;
        let moment = deflection::second_moment_round(&Worked::<Mm>::from(&bar.diameter))?;
        deflection::stiffness_cantilever(&modulus, &moment, &self.stands_out()?)
    }
}
