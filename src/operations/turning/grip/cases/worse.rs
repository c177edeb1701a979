//! What is worse is never better.

use super::{Case, collar, hub, plate, ring, state, value, washer};
use crate::operations::Answer;
use crate::proof::Verdict;

/// Every check of a case, as bad as it is: proven, or not.
fn badness(answer: &Answer) -> Vec<(&'static str, Option<Verdict>)> {
    answer.checks.iter().map(|check| (check.id, check.stamps())).collect()
}

/// No check of the worse case stands better, those aside whose question the change takes away.
#[track_caller]
fn no_better(good: &Case, bad: &Case, what: &str) {
    for ((id, better), (_, worse)) in badness(&good.judged()).into_iter().zip(badness(&bad.judged())) {
        assert!(
            better.is_none() || worse >= better,
            "{what}: {id} {better:?} became {worse:?} ({} → {})",
            good.hold,
            bad.hold
        );
    }
}

#[test]
fn what_is_worse_is_never_better() {
    let bases = [collar(), hub(), ring(), washer(), plate(), collar().hold(", stop: step", "")];
    for base in &bases {
        // Less jaw force: what holds, holds worse (what squeezes, squeezes less: asked elsewhere).
        let held = |case: &Case| {
            let it = case.judged();
            ["grip", "grip-moment"].map(|id| state(&it, id).verdict())
        };
        let chuck = |force: f64| Case {
            chuck: format!("{{most: 1800 rev/min, jaw-force: {force} kN, diameter: 160 mm}}"),
            ..base.clone()
        };
        let squeezed = |case: &Case| {
            let it = case.judged();
            ["jaw-pressure", "ring-lobe", "ring-stress", "dish"].map(|id| state(&it, id).verdict())
        };
        for pair in [60.0, 30.0, 20.0, 12.0, 8.0, 4.0, 1.0].windows(2) {
            let (more, less) = (chuck(pair[0]), chuck(pair[1]));
            assert!(held(&less).iter().zip(held(&more)).all(|(less, more)| *less >= more), "{pair:?}");
            assert!(squeezed(&more).iter().zip(squeezed(&less)).all(|(more, less)| *more >= less), "{pair:?}");
        }
        for factor in [1.2, 1.5, 2.0, 4.0] {
            let force = Case { force: (base.force.0 * factor, base.force.1 * factor), ..base.clone() };
            no_better(base, &force, "more force");
            let worst = Case { force: (base.force.0, base.force.1 * factor), ..base.clone() };
            no_better(base, &worst, "a worse end of the force");
            let doubt = Case { remembered: base.force.0 * (factor - 1.0), ..base.clone() };
            no_better(base, &doubt, "a force remembered worse");
            let doubt = Case { left: (base.left.0, base.left.1 + 0.1 * factor), ..base.clone() };
            no_better(base, &doubt, "more doubt of the thickness");
            let faster = Case { step: base.step * factor * 2.0, ..base.clone() };
            no_better(base, &faster, "faster");
            let thinner = Case { left: (base.left.0 / factor, base.left.1), ..base.clone() };
            if base.left.0 < 10.0 {
                no_better(base, &thinner, "thinner");
            }
        }
        for gaps in [12, 2] {
            no_better(base, &Case { gaps, ..base.clone() }, "blows");
        }
        no_better(base, &Case { pushes_back: true, ..base.clone() }, "hard metal");
    }
}

#[test]
fn a_longer_overhang_a_shorter_grip_and_a_thinner_wall_are_never_better() {
    let of = |grip: f64, out: f64| {
        format!("{{in: jaws, diameter: 60 mm, grip: {grip:.3} mm, overhang: {out:.3} mm, true-within: 0.02 mm}}")
    };
    let case = |grip: f64, out: f64| Case::new(&of(grip, out), [60.0, 40.0, 60.0], 80.0);
    let verdicts = |case: &Case, ids: &[&str]| -> Vec<Option<Verdict>> {
        let it = case.judged();
        ids.iter().map(|id| state(&it, id).verdict()).collect()
    };
    for out in [5.0, 10.0, 20.0, 40.0, 80.0, 160.0] {
        let ids = ["grip", "grip-moment", "grip-length", "overhang", "gives-way"];
        let (near, far) = (verdicts(&case(12.0, out), &ids), verdicts(&case(12.0, out * 1.7), &ids));
        assert!(near.iter().zip(&far).all(|(near, far)| far >= near), "{out}: {near:?} {far:?}");
    }
    for grip in [40.0, 20.0, 10.0, 5.0, 3.0, 1.0, 0.4] {
        let ids = ["grip", "grip-moment", "grip-length", "jaw-pressure", "ring-stress"];
        let (long, short) = (verdicts(&case(grip, 20.0), &ids), verdicts(&case(grip * 0.6, 20.0), &ids));
        assert!(long.iter().zip(&short).all(|(long, short)| short >= long), "{grip}: {long:?} {short:?}");
    }
    for bore in [20.0, 40.0, 50.0, 55.0, 58.0, 59.5] {
        let of = |bore: f64| Case { sizes: [60.0, bore, 60.0], ..case(12.0, 20.0) };
        let ids = ["ring-stress", "ring-lobe"];
        let (thick, thin) = (verdicts(&of(bore), &ids), verdicts(&of(bore + 0.4), &ids));
        assert!(thick.iter().zip(&thin).all(|(thick, thin)| thin >= thick), "{bore}: {thick:?} {thin:?}");
    }
}

/// A key left out is never better than the worst that could be typed for it.
#[test]
fn a_missing_key_is_never_better_than_the_worst_typed() {
    let stamps = |case: &Case, ids: &[&str]| -> Vec<Option<Verdict>> {
        let it = case.judged();
        ids.iter().map(|id| it.checks.iter().find(|check| check.id == *id).unwrap().stamps()).collect()
    };
    let holds = ["grip", "grip-moment"];
    let no_better = |missing: &Case, worst: &Case, ids: &[&str]| {
        let (missing, worst) = (stamps(missing, ids), stamps(worst, ids));
        // Not made is doubtful; a typed worst may fail outright.
        let capped = worst.iter().map(|verdict| verdict.map(|verdict| verdict.min(Verdict::Doubtful)));
        assert!(missing.iter().zip(capped).all(|(missing, worst)| *missing >= worst), "{missing:?} {worst:?}");
    };
    let base = collar();
    let bare = |key: &str| {
        let (before, after) = base.hold.split_once(key).unwrap();
        let after = after.split_once(',').map_or("}", |(_, rest)| rest);
        Case { hold: format!("{before}{after}").replace(", }", "}"), ..base.clone() }
    };
    no_better(
        &bare("grip:"),
        &base.hold("grip: 10 mm", "grip: 0.6 mm"),
        &["grip-moment", "grip-length", "jaw-pressure"],
    );
    no_better(
        &bare("overhang:"),
        &base.hold("overhang: 12 mm", "overhang: 400 mm"),
        &["grip-moment", "overhang", "tool-clear"],
    );
    no_better(&bare("diameter:"), &base.hold("diameter: 52 mm", "diameter: 33 mm"), &holds);
    let stop = base.hold.split_once(", stop").unwrap().0.to_owned() + "}";
    no_better(&Case { hold: stop, ..base.clone() }, &base.hold("stop: step", "stop: none").clone(), &holds);
    for nip in ["normal", "hard"] {
        let base = collar().hold("stop: step", &format!("stop: none, nipped: {nip}"));
        let unknown = Case { chuck: "{most: 1800 rev/min, diameter: 160 mm}".into(), ..base.clone() };
        let typed = |force: f64| Case {
            chuck: format!("{{most: 1800 rev/min, jaw-force: {force} kN, diameter: 160 mm}}"),
            ..base.clone()
        };
        for force in [15.0, 25.0, 40.0] {
            let it = (unknown.judged(), typed(force).judged());
            assert!(value(&it.0, "jaw_force_low") <= value(&it.1, "jaw_force_low") + 1e-9, "{force}");
            assert!(value(&it.0, "jaw_force_high") >= value(&it.1, "jaw_force_high") - 1e-9, "{force}");
        }
    }
}
