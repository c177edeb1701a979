//! The boring bar: how slender it stands, and what it leaves of the old shape because it gives way.

use super::found::Found;
use super::keys::{Axis, Bore};
use super::names::{BAR_SHARE, BAR_SLENDER, BAR_STIFFNESS, COPIED, COPIED_SHARE, PASSES};
use crate::handbook::constants::constant;
use crate::handbook::cutting::{cutting_force, deflection, stock, times};
use crate::handbook::measuring::cylinder;
use crate::operations::{Answer, Bench, turning};
use crate::proof::{Check, Fact, Keep, Mark, Origin, Outcome, Refusal, Source, Verdict, Words, Worked};
use crate::quantity::{Angle, Decimals, Mm, MmPerRev, Newton, Quantity, Ratio, Rounds, SpringRate};
use crate::shop::{BarMaterial, BoringBar};

/// The check of the bar.
pub(super) const BAR: &str = "bar";

/// More passes at one setting than these only rub.
const MOST_PASSES: u8 = 6;

impl Bore {
    /// The bar named, else the thickest of the shop that reaches and goes into the bore with room for its chips.
    pub(super) fn bar_of<'a>(&self, bench: &Bench<'a>, least: f64) -> Result<Option<&'a BoringBar>, Refusal> {
        let share = constant::<Ratio>("bar-share-of-hole")?.number();
        let all = bench.shop.into_iter().flat_map(|shop| shop.boring_bars());
        let named = |bar: &&BoringBar| match &self.bar {
            Some(name) => bar.name.value == name.value,
            None => bar.diameter.value.number() <= share * least,
        };
        let needed = self.needed()?.number();
        let short = |bar: &BoringBar| bar.reach.as_ref().is_some_and(|reach| reach.value.number() < needed);
        let thick = |bar: &BoringBar| bar.diameter.value.number();
        let by = |a: &&BoringBar, b: &&BoringBar| short(a).cmp(&short(b)).then(thick(b).total_cmp(&thick(a)));
        Ok(all.filter(named).min_by(by))
    }

    /// How far a bar must stand out: the length, what it comes through by, and air.
    fn needed(&self) -> Result<Worked<Mm>, Refusal> {
        times::length_fed(&(&self.length).into(), &constant("overrun")?, &constant("bar-clear")?)
    }

    /// Judges the bar for one bored size.
    pub(super) fn bar_for(
        &self,
        bench: &Bench,
        found: &Found,
        (bored, honing): (&Worked<Mm>, &Worked<Mm>),
        row: &mut Answer,
    ) -> Result<(), Refusal> {
        const ID: &str = BAR;
        let Some(bar) = self.bar_of(bench, found.least.number())? else {
            row.not_checked(&[ID], &[ID]);
            return Ok(());
        };
        let (guard, needed) = (bench.guard(), self.needed()?);
        row.fact("bar", bar.name.value.clone());
        let out = Fact::mm(needed.number()).to(Decimals::Exactly(0)).rounded(Rounds::Up);
        let longer = Words::of("longer-bar").with("out", out);
        if let Some(reach) = bar.reach.as_ref().filter(|reach| reach.value.number() < needed.number()) {
            let check = Check::judge(ID, &Worked::<Mm>::from(reach), Keep::AtLeast, &needed, guard);
            row.check(Check { state: Outcome::Made(Verdict::Fails), ..check }).remedy(longer);
            return Ok(());
        }
        let diameter = Worked::<Mm>::from(&bar.diameter);
        let share = row.record(&BAR_SHARE, stock::bar_in_hole(&diameter, &found.least)?);
        let (well, most): (Worked<Ratio>, Worked<Ratio>) =
            (constant("bar-share-of-hole")?, constant("bar-share-of-hole-most")?);
        let check = Check::judge_two(ID, (&share, &well), Keep::AtMost, (&share, &most), guard);
        row.check(check.about(BAR_SHARE.key));
        let slender = row.record(&BAR_SLENDER, stock::bar_slenderness(&needed, &diameter)?);
        let [modulus, well, most] = match made_of(bar) {
            BarMaterial::Steel => ["bar-modulus-steel", "bar-overhang-steel", "bar-overhang-steel-most"],
            BarMaterial::Carbide => ["bar-modulus-carbide", "bar-overhang-carbide", "bar-overhang-carbide-most"],
        };
        let (well, most): (Worked<Ratio>, Worked<Ratio>) = (constant(well)?, constant(most)?);
        let check = Check::judge_two(ID, (&slender, &well), Keep::AtMost, (&slender, &most), guard);
        // How far a bar stands out of which nobody says how far it reaches, nobody knows.
        match bar.reach {
            Some(_) => row.check(check.about(BAR_SLENDER.key)),
            None => row.check(check.not_better_than(Verdict::Doubtful).about(BAR_SLENDER.key)).remedy(longer),
        };
        let moment = deflection::second_moment_round(&diameter)?;
        let stiff = deflection::stiffness_cantilever(&constant(modulus)?, &moment, &needed)?;
        let stiff = row.record(&BAR_STIFFNESS, stiff);
        let Some(cut) = self.cut_pushes(bench, bar, &cylinder::depth_tightest(bored, &found.least)?, row)? else {
            row.not_checked(&[ID], &["material"]);
            return Ok(());
        };
        let share = row.record(&COPIED_SHARE, deflection::share_left(&cut, &stiff)?);
        let apart = match self.about() {
            Axis::Old => found.shift.clone(),
            Axis::Worn => Worked::row(Mm::new(0.0), "bored about it: 0", Source::fixed("geometry", Mark::Derived)),
        };
        let varies = cylinder::depth_varies(&found.worst, &found.least, &apart)?;
        let (passes, left) = passes(&share, &varies)?;
        row.record(&PASSES, passes);
        let left = row.record(&COPIED, left);
        let most = honing.scaled(constant::<Ratio>("copied-share-of-honing")?.number(), "what the hone may find of it");
        let check = Check::judge(ID, &left, Keep::AtMost, &most, guard).about(COPIED.key);
        row.check(check.not_worse_than(Verdict::Doubtful));
        Ok(())
    }

    /// How hard the finishing cut pushes for each millimetre of its depth; none where nobody names the metal.
    fn cut_pushes(
        &self,
        bench: &Bench,
        bar: &BoringBar,
        depth: &Worked<Mm>,
        row: &mut Answer,
    ) -> Result<Option<Worked<SpringRate>>, Refusal> {
        if bench.part.material.is_some() && bar.edge_angle.is_none() {
            row.assume::<Angle>("edge-angle", constant("edge-angle-unknown")?);
        }
        let depth = depth.at_least(0.01, "no cut is thinner");
        let feed = constant::<MmPerRev>("cylinder-boring-feed")?;
        row.fact("feed", Fact::figure(feed.number(), crate::quantity::Unit::MmPerRev));
        let Some(force) = Self::force_of_cut(bench, bar, &depth)? else { return Ok(None) };
        deflection::stiffness_of_cut(&constant("radial-force-share")?, &force, &depth).map(Some)
    }

    /// The force of a cut so deep at its edge; none where nobody names the metal.
    pub(super) fn force_of_cut(
        bench: &Bench,
        bar: &BoringBar,
        depth: &Worked<Mm>,
    ) -> Result<Option<Worked<Newton>>, Refusal> {
        let Some(metal) = &bench.part.material else { return Ok(None) };
        let metal = turning::cuts_as(&metal.value, bench.part.hardness.as_ref().map(|at| at.value))?;
        let angle = bar.edge_angle.as_ref().map_or_else(|| constant("edge-angle-unknown"), |angle| Ok(angle.into()))?;
        let feed = constant("cylinder-boring-feed")?;
        let (chip, _) = cutting_force::chip(&feed, depth, &(&bar.nose).into(), &angle)?;
        let specific = cutting_force::specific_force(
            &cutting_force::force_at_one(&metal)?,
            &chip,
            &cutting_force::exponent(&metal)?,
        )?;
        let tool = cutting_force::tool_factor(bar.material.value)?;
        cutting_force::cutting_force(&specific, &constant("force-factor-wear")?, &tool, depth, &feed).map(Some)
    }
}

fn made_of(bar: &BoringBar) -> BarMaterial {
    bar.bar.as_ref().map_or(BarMaterial::Steel, |at| at.value)
}

/// The passes at one setting after which spring leaves next to nothing, two at least, and what it leaves then.
fn passes(share: &Worked<Ratio>, varies: &Worked<Mm>) -> Result<(Worked<Ratio>, Worked<Mm>), Refusal> {
    let least = constant::<Mm>("copied-least")?.number();
    let one = |count: u8| Worked::exact(Ratio::new(f64::from(count)), Origin::Assumed("passes at one setting".into()));
    let mut count = 2;
    loop {
        let passes = one(count);
        let left = deflection::left_by_spring(share, &passes, varies)?;
        if left.number() <= least || count >= MOST_PASSES {
            return Ok((passes, left));
        }
        count += 1;
    }
}
