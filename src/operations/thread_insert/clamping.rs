//! The bolt: what its torque clamps, against its own proof load and against what the insert hole holds.

use super::case::Case;
use super::checks::FLOOR;
use super::keys::{Bolt, BoltThreads};
use super::names::{BOLT_FORCE, CLAMPING, CLAMPING_MOST, PROOF_LOAD, PULL_OUT};
use super::strength::Holds;
use crate::handbook::constants::constant;
use crate::handbook::threads::thread_strength as strength;
use crate::operations::{Answer, Bench};
use crate::proof::{Check, Fact, Keep, Refusal, Remedy, Side, Verdict, Words, Worked};
use crate::quantity::{Decimals, Newton, NewtonMetre, Quantity, Ratio, Rounds, Stress, Unit};

/// The forces of a bolt.
struct Forces {
    /// Clamping force, with the band of the nut factor.
    clamps: Worked<Newton>,
    /// The most that it clamps.
    most: Worked<Newton>,
    /// Up to here the bolt keeps its length.
    proof: Worked<Newton>,
    /// Here it breaks.
    breaks: Worked<Newton>,
    /// Whether the proof stress is only a share of the tensile strength.
    proof_unknown: bool,
}

impl Case<'_> {
    /// Judges the bolt: clamping, pull-out, whether the hole outlasts it.
    pub(super) fn bolt(&self, bench: &Bench, bolt: &Bolt, holds: &Holds, row: &mut Answer) -> Result<(), Refusal> {
        let factor = nut_factor(bolt, row)?;
        let forces = self.forces(bench, bolt, &factor, row)?;
        let guard = bench.guard();
        let place = bolt.torque.as_ref().map_or(bolt.class.place, |torque| torque.place);

        let held = Check::judge_two(
            "clamping",
            (&forces.most, &forces.proof),
            Keep::AtMost,
            (&forces.clamps, &forces.proof),
            guard,
        );
        let held = held.about(CLAMPING_MOST.key).at(place);
        let held = if forces.proof_unknown { held.not_better_than(Verdict::Doubtful) } else { held };
        let broken = forces.most.number() > forces.breaks.number();
        let held = if broken { held.judged_as(Verdict::Fails) } else { held };
        let room = self.room_for_bolt(bolt, holds, guard, row);
        let hollow = self.hollow_shell(bolt)?;
        let held = row.check(held.not_better_than(hollow));
        if hollow != Verdict::Proven {
            held.remedy(Words::of("plug-torque"));
        }
        // No torque helps where the bolt bottoms or its shell is hollow.
        let by_torque = room != Some(Verdict::Fails) && hollow == Verdict::Proven;
        let torque = if by_torque { self.torque_that_holds(bolt, &factor, holds, &forces, guard)? } else { None };
        if let Some(torque) = torque {
            held.remedy(torque.clone());
            held.remedies.extend(["smaller-torque", "higher-class"].map(Remedy::of));
            self.pull_out(holds, &forces, guard, Some(torque), bolt, row)?;
        } else {
            held.remedy(Words::of("higher-class"));
            self.pull_out(holds, &forces, guard, None, bolt, row)?;
        }
        if self.asked.spark_plug() {
            // A plug is no bolt that could be the weaker part on purpose: its shell is hollow.
            row.does_not_apply(&["outlasts"]);
            return Ok(());
        }
        let outlasts = Check::judge("outlasts", &holds.force, Keep::AtLeast, &forces.breaks, guard);
        let outlasts = outlasts.about(PULL_OUT.key).at(bolt.class.place).not_worse_than(Verdict::Doubtful);
        row.check(doubtful_where(outlasts, holds));
        Ok(())
    }

    /// The shell of a spark plug is hollow: over the usual torque of plugs the load of a bolt of its size says nothing.
    fn hollow_shell(&self, bolt: &Bolt) -> Result<Verdict, Refusal> {
        let most = constant::<NewtonMetre>("spark-plug-torque-most")?.number();
        let over = bolt.torque.as_ref().is_some_and(|torque| torque.value.number() > most);
        Ok(if self.asked.spark_plug() && over { Verdict::Doubtful } else { Verdict::Proven })
    }

    /// A bolt that meets the floor of a blind hole clamps nothing, whatever its torque. Its point, up to a pitch, counts.
    fn room_for_bolt(&self, bolt: &Bolt, holds: &Holds, guard: f64, row: &mut Answer) -> Option<Verdict> {
        let Some(floor) = &holds.floor else {
            row.does_not_apply(&[FLOOR]);
            return None;
        };
        let Some(reach) = &bolt.reach else {
            row.not_checked(&[FLOOR], &["bolt.reach"]);
            return None;
        };
        let place = reach.place;
        let reach = Worked::from(reach);
        let (short, long) = (reach.number(), reach.number() + self.pitch.number());
        let check = Check::judge(FLOOR, &reach.with_band(short, long), Keep::AtMost, floor, guard);
        row.check(check.at(place)).verdict()
    }

    fn forces(&self, bench: &Bench, bolt: &Bolt, factor: &Worked<Ratio>, row: &mut Answer) -> Result<Forces, Refusal> {
        let tensile = bolt.class.value.tensile(self.diameter.number())?;
        let area = self.asked.thread.value.stress_area()?;
        let (proof, proof_unknown) = self.proof_stress(bolt, &tensile, row)?;
        let clamps = match &bolt.torque {
            Some(torque) => strength::clamping_by_torque(&torque.into(), factor, &self.diameter)?,
            None => strength::clamping_by_proof(
                &row.assume("clamping-share", constant("clamping-share-of-proof")?),
                &proof,
                &area,
            )?,
        };
        let clamps = row.record(&CLAMPING, clamps);
        let most = row.record(&CLAMPING_MOST, clamps.worst(Side::High, bench.guard()));
        let proof = row.record(&PROOF_LOAD, strength::bolt_load(&area, &proof)?);
        let breaks = row.record(&BOLT_FORCE, strength::bolt_load(&area, &tensile)?);
        Ok(Forces { clamps, most, proof, breaks, proof_unknown })
    }

    fn proof_stress(
        &self,
        bolt: &Bolt,
        tensile: &Worked<Stress>,
        row: &mut Answer,
    ) -> Result<(Worked<Stress>, bool), Refusal> {
        Ok(match bolt.class.value.proof(self.diameter.number())? {
            Some(proof) => (proof, false),
            None => {
                let share = constant("bolt-proof-share-unknown")?;
                (row.assume("proof-unknown", strength::proof_from_tensile(&share, tensile)?), true)
            }
        })
    }

    /// Pull-out at its worst end against both clamping forces; at the middle against the greater one.
    fn pull_out(
        &self,
        holds: &Holds,
        forces: &Forces,
        guard: f64,
        torque: Option<Words>,
        bolt: &Bolt,
        row: &mut Answer,
    ) -> Result<(), Refusal> {
        let bare = "the band of the nut factor is judged by the greatest force";
        let usual = strength::times_force(&constant("strength-over-clamping")?, &forces.clamps.nominal(bare))?;
        let most = strength::times_force(&constant("strength-over-clamping-most")?, &forces.most)?;
        let proven = if most.number() > usual.number() { most } else { usual };
        let least = strength::times_force(&constant("strength-over-clamping-least")?, &forces.most)?;
        let check = Check::judge_two("pull-out", (&holds.force, &proven), Keep::AtLeast, (&holds.force, &least), guard);
        let check = check.about(PULL_OUT.key).at(bolt.class.place);
        let check = row.check(
            doubtful_where(check, holds).with("floor", Fact::figure(proven.number(), Unit::N).rounded(Rounds::Up)),
        );
        if holds.unread {
            check.remedy(Words::of("give-reach"));
        }
        check.remedies.extend(torque.map(Remedy::from));
        check.remedies.extend(["longer-insert", "smaller-class", "next-size", "solid-bush"].map(Remedy::of));
        Ok(())
    }

    /// The torque at which clamping and pull-out would both be proven, rounded down; where a greater torque was typed.
    fn torque_that_holds(
        &self,
        bolt: &Bolt,
        factor: &Worked<Ratio>,
        holds: &Holds,
        forces: &Forces,
        guard: f64,
    ) -> Result<Option<Words>, Refusal> {
        let Some(typed) = &bolt.torque else { return Ok(None) };
        let bad = holds.force.worst(Side::Low, guard).at_least(0.0, "it holds nothing");
        let (usual, easy) = (factor.nominal("the nut factor as it is"), factor.worst(Side::Low, guard));
        let by = |force: &Worked<Newton>, k: &Worked<Ratio>| strength::torque_short(k, &self.diameter, force);
        let limits = [
            by(&strength::share_of_force(&bad, &constant("strength-over-clamping")?)?, &usual)?,
            by(&strength::share_of_force(&bad, &constant("strength-over-clamping-most")?)?, &easy)?,
            by(&forces.proof, &easy)?,
        ];
        let least = limits.iter().map(Worked::number).fold(f64::INFINITY, f64::min);
        if least >= typed.value.number() {
            return Ok(None);
        }
        let torque = Fact::figure(least, Unit::Nm).to(Decimals::Exactly(1)).rounded(Rounds::Down);
        Ok(Some(Words::of("torque-that-holds").with("torque", torque)))
    }
}

/// What rests on a doubtful ratio, or on a reach that nobody gave, is doubtful.
fn doubtful_where(check: Check, holds: &Holds) -> Check {
    if holds.doubtful || holds.unread { check.not_better_than(Verdict::Doubtful) } else { check }
}

/// The nut factor: typed, by the threads, or assumed between dry and oiled.
fn nut_factor(bolt: &Bolt, row: &mut Answer) -> Result<Worked<Ratio>, Refusal> {
    if let Some(typed) = &bolt.nut_factor {
        let factor = Worked::<Ratio>::from(typed);
        let share = constant::<Ratio>("nut-factor-typed-share")?.number() * factor.number();
        let (low, high) = (factor.number() - share, factor.number() + share);
        return Ok(factor.with_band(low, high));
    }
    match bolt.threads.as_ref().map(|at| at.value) {
        Some(BoltThreads::Dry) => constant("nut-factor-dry"),
        Some(BoltThreads::Oiled) => constant("nut-factor-oiled"),
        None if bolt.torque.is_none() => constant("nut-factor-unknown"),
        None => Ok(row.assume("nut-factor", constant("nut-factor-unknown")?)),
    }
}
