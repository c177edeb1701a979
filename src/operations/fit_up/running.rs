//! The clearance when it runs: bore and shaft each grow by their own metal and their own warmth; what carries the bore may hold it.

use super::keys::FitUp;
use super::names::{
    BORE_GROWS, BORE_HELD, BORE_WARM, CARRIER_GROWS, FOLLOWING, LEAST_RUNNING, RUNNING, SEIZES, SHAFT_GROWS,
    SHAFT_WARM, USUAL_WALL, WALL_INWARD,
};
use crate::handbook::constants::{constant, row};
use crate::handbook::joints::heating::temperature_to_enter;
use crate::handbook::materials::groups::{Kind, Material};
use crate::handbook::measuring::stack::{grown_by, wall_grows_inward};
use crate::operations::{Answer, Bench, Name, kit};
use crate::proof::{At, Cause, Check, Keep, Mark, Refusal, Source, Verdict, Words, Worked};
use crate::quantity::{Celsius, Expansion, Mm, Quantity, Ratio, Shift};

/// The check of what runs.
const ID: &str = "running";

/// The fit cold.
pub(super) struct Cold {
    pub(super) bore: Worked<Mm>,
    pub(super) shaft: Worked<Mm>,
    pub(super) clearance: Worked<Shift>,
    /// How far the clearance as written down lies from what both readings give.
    pub(super) apart: Option<Worked<Mm>>,
    pub(super) limits: (Worked<Shift>, Worked<Shift>),
}

/// Where what is worked warm comes from.
const WARM: Source = Source::fixed("linear expansion of bore and shaft", Mark::Derived);

/// Metals that a bore is bushed with: something else carries them.
const BUSHES: [Kind; 4] = [Kind::CopperAlloy, Kind::Sintered, Kind::Plastic, Kind::Lining];

/// What a size grows; its own doubt moves that by millionths.
fn grown(size: &Worked<Mm>, alpha: &Worked<Expansion>, at: &Worked<Celsius>) -> Result<Worked<Shift>, Refusal> {
    grown_by(&size.nominal("its doubt does not matter in what it grows"), alpha, at)
}

impl FitUp {
    /// Judges the clearance when it runs, where metals or warmth ask for it.
    pub(super) fn judge_running(&self, bench: &Bench, answer: &mut Answer, cold: &Cold) -> Result<(), Refusal> {
        let (of_bore, of_shaft) = (self.bore_metal(bench.part), self.shaft_metal(bench.part));
        let (Some(of_bore), Some(of_shaft)) = (of_bore, of_shaft) else {
            let unnamed = [(of_bore.is_none(), "bore-material"), (of_shaft.is_none(), "shaft-material")];
            let unnamed: Vec<&str> = unnamed.into_iter().filter_map(|(is, key)| is.then_some(key)).collect();
            answer.not_checked(&[ID], &unnamed);
            return Ok(());
        };
        let Some(running) = &self.running else {
            if self.carrier_unsaid(bench) {
                // It grows by what holds it: how the shaft compares with its own metal tells nothing.
                answer.not_checked(&[ID], &["running", "carried-by"]);
                return Ok(());
            }
            return self.judge_unsaid(bench, answer, cold, (&of_bore.value, &of_shaft.value));
        };
        let bore_at = kit::runs_at(&running.bore, Cause::Reading(running.bore.place))?;
        let shaft_at = kit::runs_at(&running.shaft, Cause::Reading(running.shaft.place))?;
        let shaft_alpha = kit::expansion(&of_shaft.value, Cause::Named("expansion of the shaft"))?;
        let shaft_grows = answer.record(&SHAFT_GROWS, grown(&cold.shaft, &shaft_alpha, &shaft_at)?);
        answer.record(&SHAFT_WARM, warm(&cold.shaft, &shaft_grows));
        let own = kit::expansion(&of_bore.value, Cause::Named("expansion of the bore"))?;
        let bore_grows = answer.record(&BORE_GROWS, grown(&cold.bore, &own, &bore_at)?);
        answer.record(&BORE_WARM, warm(&cold.bore, &bore_grows));
        let mut tightest = self.judge_warm(bench, answer, cold, (&RUNNING, &bore_grows, &shaft_grows));
        if let Some(carrier) = &self.carried_by {
            let alpha = kit::expansion(&carrier.value, Cause::Named("expansion of what carries the bore"))?;
            let follows = grown(&cold.bore, &alpha, &bore_at)?;
            let held = match self.wall_inward((&of_bore.value, &own, &alpha), &bore_at, answer)? {
                Some(inward) => {
                    let terms = [(1.0, &follows), (-1.0, &inward)];
                    Worked::sum(&terms, 0.0, "what carries it grows, less what its wall grows inward", WARM)
                }
                None => follows,
            };
            let held = answer.record(&CARRIER_GROWS, held);
            answer.record(&BORE_HELD, warm(&cold.bore, &held));
            let following = self.judge_warm(bench, answer, cold, (&FOLLOWING, &held, &shaft_grows));
            self.judge_usual_wall(bench, answer, cold, (&of_bore.value, &own, &alpha), &bore_at, &following)?;
            if following.number() < tightest.number() {
                tightest = following;
            }
        } else if self.carrier_unsaid(bench) {
            let check = answer.checks.iter_mut().find(|check| check.id == ID);
            check.map(|check| check.remedy(Words::of("say-what-carries-it").with("metal", of_bore.value.typed())));
        } else {
            answer.assume_words(Words::of("carries-itself"));
        }
        let closes = tightest.scaled(-1.0, "what the shaft must not grow");
        answer.record(&SEIZES, temperature_to_enter(&shaft_at, &closes, &shaft_alpha, &cold.shaft)?);
        Ok(())
    }

    /// Where nobody said how warm it runs: metals that grow unlike ask for it, and so does who asks what is left when it runs. Of
    /// metals that grow nearly alike, what warmth may take is doubtful at worst.
    fn judge_unsaid(
        &self,
        bench: &Bench,
        answer: &mut Answer,
        cold: &Cold,
        (of_bore, of_shaft): (&Material, &Material),
    ) -> Result<(), Refusal> {
        let shaft = of_shaft.expansion()?;
        let bores = self.carried_by.iter().map(|at| &at.value).chain([of_bore]);
        let bores = bores.map(Material::expansion).collect::<Result<Vec<_>, _>>()?;
        let alike = constant::<Expansion>("expansion-alike")?.number();
        let unlike = bores.iter().any(|bore| (bore.number() - shaft.number()).abs() > alike);
        if unlike || self.least_running.is_some() {
            answer.not_checked(&[ID], &["running"]);
            return Ok(());
        }
        let read_to = row("no-gauge-reads-to")?.value;
        let at = constant::<Celsius>("bush-yield-temperature-most")?;
        let shaft_grows = grown(&cold.shaft, &shaft, &at)?;
        let grows = bores.iter().map(|bore| grown(&cold.bore, bore, &at)).collect::<Result<Vec<_>, _>>()?;
        let moves = |grows: &Worked<Shift>| (grows.number() - shaft_grows.number()).abs();
        let most = grows.into_iter().max_by(|a, b| moves(a).total_cmp(&moves(b)));
        let Some(most) = most.filter(|most| moves(most) > read_to) else {
            answer.does_not_apply(&[ID]);
            return Ok(());
        };
        answer.assume_words(Words::of("stays-cool").with("value", kit::degrees(at.number())));
        self.judge_warm(bench, answer, cold, (&RUNNING, &most, &shaft_grows));
        Ok(())
    }

    /// What the wall of a bush that is held takes from its bore: nothing where it grows less than what carries it.
    fn wall_inward(
        &self,
        (metal, own, carrier): (&Material, &Worked<Expansion>, &Worked<Expansion>),
        at: &Worked<Celsius>,
        answer: &mut Answer,
    ) -> Result<Option<Worked<Shift>>, Refusal> {
        let Some(wall) = &self.bush_wall else {
            answer.assume_words(Words::of("wall-not-counted"));
            return Ok(None);
        };
        let inward = wall_grows_inward(&wall.into(), own, carrier, &metal.poisson()?, at)?;
        let inward = inward.at_least(0.0, "a bush that grows less is not held");
        Ok(Some(answer.record(&WALL_INWARD, inward)))
    }

    /// A held bush of which nobody said how thick it is, though it grows more than what carries it: the wall that such bushes have is
    /// counted in, and what is too tight with it is doubtful.
    fn judge_usual_wall(
        &self,
        bench: &Bench,
        answer: &mut Answer,
        cold: &Cold,
        (metal, own, carrier): (&Material, &Worked<Expansion>, &Worked<Expansion>),
        at: &Worked<Celsius>,
        following: &Worked<Shift>,
    ) -> Result<(), Refusal> {
        let alike = constant::<Expansion>("expansion-alike")?.number();
        if self.bush_wall.is_some() || self.wall_unsaid(bench) || own.number() - carrier.number() <= alike {
            return Ok(());
        }
        let wall = cold
            .bore
            .nominal("a wall by the bore is no finer")
            .scaled(constant::<Ratio>("bush-wall-usual")?.number(), "the wall that such bushes have");
        let inward = wall_grows_inward(&wall, own, carrier, &metal.poisson()?, at)?;
        let terms = [(1.0, following), (-1.0, &inward)];
        let left = Worked::sum(
            &terms,
            0.0,
            "the clearance following what carries it, less what a usual wall grows inward",
            WARM,
        );
        let left = answer.record(&USUAL_WALL, left);
        for limit in self.least_warm(answer, cold) {
            let check = Check::judge(ID, &left, Keep::AtLeast, &limit, bench.guard()).about(USUAL_WALL.key);
            let check = answer.check(check.not_worse_than(Verdict::Doubtful).at(self.bore.place));
            check.remedy(Words::of("say-how-thick"));
        }
        Ok(())
    }

    /// The least that may be left when it runs: nothing, and what was asked for or the limit cold.
    fn least_warm(&self, answer: &mut Answer, cold: &Cold) -> [Worked<Shift>; 2] {
        let asked = match &self.least_running {
            Some(least) => answer.record(&LEAST_RUNNING, least.into()),
            None => cold.limits.0.clone(),
        };
        [Worked::assumed(Shift::new(0.0), "nothing left seizes"), asked]
    }

    /// Whether the bore is in a plastic, whose wall grows far into it where it is held, and nobody said how thick that is.
    fn wall_unsaid(&self, bench: &Bench) -> bool {
        let grows = |metal: &At<Material>| matches!(metal.value.kind(), Kind::Plastic | Kind::Lining);
        self.bush_wall.is_none() && self.carried_by.is_some() && self.bore_metal(bench.part).is_some_and(grows)
    }

    /// Whether the bore is in a metal of bushes, which something else carries, and nobody said what.
    fn carrier_unsaid(&self, bench: &Bench) -> bool {
        let is_bush = |metal: &At<Material>| BUSHES.contains(&metal.value.kind());
        self.carried_by.is_none() && self.bore_metal(bench.part).is_some_and(is_bush)
    }

    /// One way in which the bore may grow: against the least that was asked when it runs, else against the limits; below nothing
    /// it seizes, whatever was asked.
    fn judge_warm(
        &self,
        bench: &Bench,
        answer: &mut Answer,
        cold: &Cold,
        (name, bore, shaft): (&Name<Shift>, &Worked<Shift>, &Worked<Shift>),
    ) -> Worked<Shift> {
        let terms = [(1.0, &cold.clearance), (1.0, bore), (-1.0, shaft)];
        let warm = Worked::sum(&terms, 0.0, "the clearance cold, what the bore grows less what the shaft grows", WARM);
        let warm = answer.record(name, warm);
        let least = self.least_warm(answer, cold).map(|limit| (Keep::AtLeast, limit));
        let limits = least.into_iter().chain([(Keep::AtMost, cold.limits.1.clone())]);
        let place = self.running.as_ref().map_or(self.bore.place, |running| running.bore.place);
        let thick = self.wall_unsaid(bench);
        let unsaid = thick || self.carrier_unsaid(bench);
        for (keep, limit) in limits {
            let check = Check::judge(ID, &warm, keep, &limit, bench.guard()).about(name.key).at(place);
            let check = if self.running.is_none() { check.not_worse_than(Verdict::Doubtful) } else { check };
            let check = answer.check(if unsaid { check.not_better_than(Verdict::Doubtful) } else { check });
            if thick {
                check.remedy(Words::of("say-how-thick"));
            }
        }
        warm
    }
}

/// A size grown.
fn warm(cold: &Worked<Mm>, grows: &Worked<Shift>) -> Worked<Mm> {
    Worked::sum(&[(1.0, cold), (1.0, &grows.becomes())], 0.0, "cold, and what it grows", WARM)
}
