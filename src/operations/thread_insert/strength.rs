//! Does the metal outlast the bolt? And what the makers' own length tables ask.

use super::*;
use crate::handbook::{constants::constant, threads::{insert, insert_rows, thread_strength as strength}};
use crate::proof::{Keep, Mark, Source};
use crate::quantity::{Mm2, Stress};

/// How far a thin boss swells: 1 for a boss of 1.9 times the hole's thread and over, and where no edge is given.
pub(super) fn dilation(edge: Option<&Worked<Mm>>, major: &Worked<Mm>, answer: &mut Answer) -> Result<Worked<Ratio>, Refusal> {
    let stiff = |why: &str| {
        let source = Source::fixed("from 1.9 x the thread a boss counts as stiff: Alexander, VDI 2230", Mark::FromMemory);
        Ok(Worked::method(Ratio::new(1.0), vec![why.into()], source))
    };
    let Some(edge) = edge else { return stiff("no edge given: the boss is taken as stiff") };
    let boss = insert::boss_across(edge)?;
    match boss.number() / major.number() {
        ratio if ratio >= 1.9 => stiff("boss at least 1.9 x the hole's thread: stiff"),
        ratio if ratio >= 1.4 => strength::boss_dilation(&boss, major),
        _ => {
            // Below 1.4 the rule says nothing; its last figure is kept and said so. The edge check fails there by itself.
            answer.assume_words(Words::of("boss-below-rule"));
            let source = Source::fixed("last figure of the rule at s/d 1.4: Alexander, VDI 2230", Mark::FromMemory);
            Ok(Worked::method(Ratio::new(0.75), vec!["boss under 1.4 x the hole's thread".into()], source))
        }
    }
}

impl Case<'_> {
    pub(super) fn strength(&self, bench: &Bench, nominal: &Worked<Mm>, row: &mut Answer) -> Result<(), Refusal> {
        let engaged = self.engaged(nominal, row)?;
        let engaged = row.record(&ENGAGED, engaged);
        let area = self.shear_area(&engaged)?;
        let tau = strength::shear_strength(&self.material.shear_over_tensile()?, &self.material.tensile_low()?)?;
        let holds = row.record(&PULL_OUT, strength::pull_out(&tau, &area, &self.dilation)?);
        let Some(bolt) = &self.asked.bolt else { return Ok(()) };

        let tensile = bolt.class.value.tensile(self.diameter.number())?;
        let stress_area = self.asked.thread.value.stress_area()?;
        let breaks = row.record(&BOLT_FORCE, strength::bolt_load(&stress_area, &tensile)?);
        let clamping = self.clamping(bolt, &stress_area, &tensile, row)?;
        let clamping = row.record(&CLAMPING, clamping);
        let least = insert::strength_floor(&clamping)?;
        // Proven when the hole outlasts the bolt; doubtful down to 1.5 times the clamping force; below that it fails.
        let outlasts = Check::judge("pull-out", &holds, Keep::AtLeast, &breaks, bench.guard());
        let outlasts = outlasts.about(PULL_OUT.key).at(bolt.class.place);
        let enough = Check::judge("pull-out", &holds, Keep::AtLeast, &least, bench.guard());
        let verdict = match (outlasts.verdict(), enough.verdict()) {
            (Some(Verdict::Proven), _) => Verdict::Proven,
            (_, Some(Verdict::Proven)) => Verdict::Doubtful,
            _ => Verdict::Fails,
        };
        let floor = Fact::figure(least.number(), crate::quantity::Unit::N);
        let check = row.check(outlasts.judged_as(verdict).with("floor", floor));
        check.remedies.extend(["longer-insert", "smaller-class", "next-size"].map(Words::of));
        self.tables(bench, &tau, &tensile, row);
        Ok(())
    }

    /// The shorter of what the coil occupies and what the bolt reaches.
    fn engaged(&self, nominal: &Worked<Mm>, row: &mut Answer) -> Result<Worked<Mm>, Refusal> {
        let coil = insert::assembled_length(nominal, &self.pitch)?;
        match self.asked.bolt.as_ref().and_then(|bolt| bolt.reach.as_ref()) {
            Some(reach) => {
                let bolt = insert::engaged_by_reach(&reach.into(), &self.pitch)?;
                Ok(if bolt.number() < coil.number() { bolt } else { coil })
            }
            None => {
                row.assume_words(Words::of("bolt-fills-the-coil"));
                Ok(coil)
            }
        }
    }

    fn shear_area(&self, engaged: &Worked<Mm>) -> Result<Worked<Mm2>, Refusal> {
        let form = self.asked.thread.value.form();
        let (major, pitch_max) = (&self.hole.major_min, &self.hole.pitch_max);
        if form.half_angle() == 30.0 {
            return strength::nut_shear_area(&self.pitch, engaged, major, pitch_max);
        }
        let half = Worked::row(crate::quantity::Angle::new(form.half_angle()), format!("{}: half the flank angle", form.standard()), Source::fixed(form.standard(), Mark::Read));
        strength::shear_area_any_form(&self.pitch, engaged, major, pitch_max, &half)
    }

    /// Torque over K·d where the torque is given, else three quarters of the proof load; both say what they assume.
    fn clamping(&self, bolt: &Bolt, area: &Worked<Mm2>, tensile: &Worked<Stress>, row: &mut Answer) -> Result<Worked<Newton>, Refusal> {
        if let Some(torque) = &bolt.torque {
            let factor = row.assume("nut-factor", constant("nut-factor-dry")?);
            return strength::clamping_by_torque(&torque.into(), &factor, &self.diameter);
        }
        let share = row.assume("clamping-share", constant("clamping-share-of-proof")?);
        let proof = match bolt.class.value.proof(self.diameter.number())? {
            Some(proof) => proof,
            None => row.assume("proof-unknown", insert::proof_from_tensile(tensile)?),
        };
        strength::clamping_by_proof(&share, &proof, area)
    }

    /// The two published length tables stand beside the arithmetic, with their makers' basis. They carry a margin of 1.6 to 2
    /// over bare stripping, so they are shown and do not judge.
    fn tables(&self, bench: &Bench, tau: &Worked<Stress>, tensile: &Worked<Stress>, row: &mut Answer) {
        let Some(bolt) = &self.asked.bolt else { return };
        let by_tensile = self.material.tensile_low().ok().and_then(|rm| insert_rows::by_tensile(rm.number(), bolt.class.value.text()));
        let by_shear = insert_rows::by_shear(tau.number(), tensile.number());
        for (name, asked) in [(&TABLE_A, by_tensile), (&TABLE_B, by_shear)] {
            if let Some(asked) = asked {
                row.record(name, asked);
            }
        }
    }
}
