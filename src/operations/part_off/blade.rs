//! The blade: which one, whether it reaches and is stout enough for that, and where it cuts.

use super::keys::PartOff;
use super::names::{FROM_JAWS, REACH, WIDTH};
use crate::handbook::ToolMaterial;
use crate::handbook::constants::{constant, row};
use crate::handbook::cutting::stock;
use crate::operations::turning::{self, Edge, Piece};
use crate::operations::{Answer, Bench};
use crate::proof::{Check, Fact, Keep, Mark, Refusal, Source, Verdict, Words, Worked};
use crate::quantity::{Angle, Decimals, Mm, Quantity, Ratio, Rounds};
use crate::shop::PartingBlade;

/// The blade that parts.
pub(super) struct Blade {
    pub edge: Edge,
    pub width: Worked<Mm>,
}

impl PartOff {
    /// The blade named, else the narrowest of the shop that reaches and is stout enough for it, of the width typed where one is; what
    /// the shop lacks is a doubt and a line on the missing list.
    pub(super) fn blade(&self, bench: &Bench, bore: &Worked<Mm>, answer: &mut Answer) -> Result<Blade, Refusal> {
        const ID: &str = "blade-reach";
        let asked = stock::blade_reach(&(&self.outside).into(), bore, &constant("blade-past-the-middle")?)?;
        let runs_out = self.hold.as_ref().and_then(|hold| hold.true_within.as_ref());
        let runs_out = runs_out.map_or(0.0, |within| within.value.number());
        let asked = answer.record(&REACH, asked.shifted(runs_out, "and what the bar runs out"));
        let blades: Vec<&PartingBlade> = bench.shop.into_iter().flat_map(|shop| shop.parting_blades()).collect();
        let width = |blade: &&&PartingBlade| blade.width.value.number();
        let of_this_width = |blade: &PartingBlade| match &self.width {
            Some(typed) => (blade.width.value.number() - typed.value.number()).abs() < 1e-9,
            None => true,
        };
        let stout = row("blade-slender")?.value;
        let narrowest = |reaches: bool, stands: bool| {
            let fits = blades.iter().filter(|blade| {
                let reach = blade.reach.as_ref().map_or(0.0, |reach| reach.value.number());
                let stout = stout * blade.width.value.number();
                of_this_width(blade) && (!reaches || reach >= asked.number()) && (!stands || stout >= asked.number())
            });
            fits.min_by(|a, b| width(a).total_cmp(&width(b))).copied()
        };
        let named = self.blade.as_ref().map(|name| blades.iter().find(|blade| blade.name.value == name.value).copied());
        let named = named.map(|blade| blade.filter(|blade| of_this_width(blade)));
        let taken = named.unwrap_or_else(|| {
            narrowest(true, true).or_else(|| narrowest(true, false)).or_else(|| narrowest(false, false))
        });
        match (taken, bench.shop) {
            (_, None) => answer.no_shop(&[ID]),
            (None, Some(_)) => {
                let reach = Fact::mm(asked.number()).to(Decimals::Exactly(1)).rounded(Rounds::Up);
                answer.missing.push(match (&self.width, &self.blade) {
                    (Some(width), _) => Words::of("blade-of-width")
                        .with("width", Fact::mm(width.value.number()).to(Decimals::Exactly(2)))
                        .with("reach", reach),
                    (None, Some(name)) => Words::of("blade").with("wanted", Fact::from(&name.value)),
                    (None, None) => Words::of("blade").with("wanted", reach),
                });
                answer.check(Check::of_kind(ID, Verdict::Doubtful));
            }
            (Some(blade), Some(_)) => match &blade.reach {
                Some(reach) => {
                    let check = Check::judge(ID, &asked, Keep::AtMost, &reach.into(), bench.guard());
                    answer.check(check.about(REACH.key));
                }
                None => answer.not_checked(&[ID], &["blade.reach"]),
            },
        }
        let width: Worked<Mm> = match (taken, &self.width) {
            (_, Some(width)) => width.into(),
            (Some(blade), None) => (&blade.width).into(),
            (None, None) => answer.assume("blade-width", constant("blade-width-unknown")?),
        };
        let width = answer.record(&WIDTH, width);
        self.stands_aside(bench, &asked, &width, answer)?;
        let material = taken.map_or(ToolMaterial::Hss, |blade| blade.material.value);
        let name = taken.map_or(Fact::named("a-parting-blade"), |blade| Fact::from(&blade.name.value));
        answer.fact("tool", name.clone());
        let square = Worked::row(
            Angle::new(90.0),
            "a blade cuts square to its feed: 90°",
            Source::fixed("geometry", Mark::Derived),
        );
        let edge = Edge { name, material, nose: constant("blade-corner")?, angle: square, most_depth: None };
        Ok(Blade { edge, width })
    }

    /// A blade that stands out by many times its width bends aside, jams in its slot and breaks.
    fn stands_aside(
        &self,
        bench: &Bench,
        asked: &Worked<Mm>,
        width: &Worked<Mm>,
        answer: &mut Answer,
    ) -> Result<(), Refusal> {
        let of = |name| Ok::<_, Refusal>(width.scaled(row(name)?.value, "so many times the width of the blade"));
        let (well, most) = (of("blade-slender")?, of("blade-slender-most")?);
        let check = Check::judge_two("blade-slender", (asked, &well), Keep::AtMost, (asked, &most), bench.guard());
        let place = self.blade.as_ref().map(|at| at.place).or(self.width.as_ref().map(|at| at.place));
        answer.check(check.about(REACH.key).at(place.unwrap_or(self.outside.place)));
        Ok(())
    }
}

/// Judges how far from the jaws the blade cuts.
pub(super) fn near_the_jaws(
    bench: &Bench,
    piece: &Piece,
    stands: &Worked<Mm>,
    answer: &mut Answer,
) -> Result<(), Refusal> {
    const ID: &str = "near-the-jaws";
    let Some(out) = turning::stands_out(piece) else {
        answer.not_checked(&[ID], &["hold.overhang"]);
        return Ok(());
    };
    let from = answer.record(&FROM_JAWS, stock::blade_from_jaws(&out, stands)?);
    let of = |share: Worked<Ratio>| piece.outside.scaled(share.number(), "so many diameters from the jaws");
    let (well, most) = (of(constant("parting-from-jaws")?), of(constant("parting-from-jaws-most")?));
    let check = Check::judge_two(ID, (&from, &well), Keep::AtMost, (&from, &most), bench.guard());
    answer.check(check.about(FROM_JAWS.key));
    Ok(())
}
