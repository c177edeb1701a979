//! What nobody said of a joint betters nothing: the frost that is assumed, what carries a bush, how thin its walls are, where round it
//! the work was read.

use crate::common;

use common::*;
use setover::plan::{Plan, Planned};
use setover::proof::{Outcome, Verdict};

const REAM: &str = include_str!("../examples/ream-bush.yaml");
const FIT: &str = include_str!("../examples/fit-up.yaml");
const CHILL: &str = include_str!("../examples/chill.yaml");
const TRUED: &str = include_str!("../examples/set-true.yaml");

/// A steel bush in a boss of cast aluminium, pressed in cold.
const STEEL: &str = "job: Bush\nparts:\n  - part: case\n    material: cast aluminium\n    operations:\n      - press-in:\n          \
                     housing: {bore: 60.000 ± 0.004 mm, outside: 80 mm, length: 30 mm, through: true, finish: Ra 0.8 um}\n          \
                     bush: {outside: 60.055 ± 0.004 mm, bore: 40.000 ± 0.004 mm, length: 30 mm, material: mild steel, finish: Ra 0.8 um}\n          \
                     running: {housing: 20 degC}\n          stands: flush\n          support: {inside: 66 mm, under: boss}\n";

fn steps(plan: &Plan) -> Vec<&str> {
    first(plan).answer.set_ups.iter().flat_map(|set_up| set_up.steps.iter().map(|step| step.id)).collect()
}

/// By hand: 60.0 * (22.0 - 11.5)e-6 * 30 = 0.0189 mm more on 0.0607: 69.8 * (0.0796 / 0.0607) = 91.5 of 80 MPa at -10 degC.
#[test]
fn frost_that_nobody_named_squeezes_the_bush_as_well() {
    const ID: &str = "stress-when-cold";
    let at = |outside: &str, running: &str| {
        let job = with(STEEL, "outside: 60.055", &format!("outside: {outside}"));
        in_shop(&with(&job, "          running: {housing: 20 degC}\n", running))
    };
    let typed = |coldest: i32| format!("          running: {{housing: 20 degC, coldest: {coldest} degC}}\n");
    for outside in ["60.025", "60.035", "60.045", "60.055", "60.065"] {
        let frozen = at(outside, &typed(-10));
        for unsaid in ["", "          running: {housing: 20 degC}\n"] {
            let unsaid = at(outside, unsaid);
            assert_eq!(verdict(first(&unsaid), ID), verdict(first(&frozen), ID), "{outside}");
            assert!(first(&unsaid).answer.assumed.iter().any(|line| line.contains("−10 °C")), "{outside}");
        }
        assert!(verdict(first(&at(outside, &typed(-30))), ID) >= verdict(first(&frozen), ID), "{outside}");
        assert!(verdict(first(&at(outside, &typed(10))), ID) <= verdict(first(&frozen), ID), "{outside}");
    }
    assert_eq!(verdict(first(&at("60.055", "")), ID), Verdict::Fails);
    assert_eq!(verdict(first(&at("60.025", "")), ID), Verdict::Proven);
    // What is said to prove the joint stands in that frost too.
    let job = with(REAM, "outside: 20.042", "outside: 20.045");
    let tight = in_shop(&job);
    assert_eq!(verdict(first(&tight), ID), Verdict::Doubtful);
    let most = value(first(&tight), "outside_most_proven");
    let made = |outside: f64| in_shop(&with(REAM, "outside: 20.042", &format!("outside: {outside:.3}")));
    assert_eq!(first(&made((most * 1000.0).floor() / 1000.0)).verdict, Verdict::Proven);
    assert_eq!(first(&made((most * 1000.0).floor() / 1000.0 + 0.001)).verdict, Verdict::Doubtful);
}

/// A bush grows by what holds it: how its own metal compares with the shaft's proves nothing.
#[test]
fn a_bush_that_nobody_said_is_carried_by_what_is_not_proven_to_run() {
    const KEYS: &str = "          running: {bore: 60 degC, shaft: 70 degC}\n          carried-by: GG25\n";
    let of = |metal: &str, shaft: &str, keys: &str| {
        let job = with(FIT, "material: phosphor bronze", &format!("material: {metal}"));
        let job = with(&job, "shaft-material: mild steel", &format!("shaft-material: {shaft}"));
        in_shop(&with(&job, KEYS, keys))
    };
    for metal in ["phosphor bronze", "LG2"] {
        for shaft in ["304", "phosphor bronze", "mild steel"] {
            let unsaid = of(metal, shaft, "");
            assert_eq!(state(first(&unsaid), "running"), Outcome::NotChecked, "{shaft} in {metal}");
            assert!(first(&unsaid).verdict > Verdict::Proven);
            let free = of(metal, shaft, "          running: {bore: 60 degC, shaft: 70 degC}\n");
            assert!(verdict(first(&free), "running") > Verdict::Proven, "{shaft} in {metal}");
        }
    }
    // A boss carries itself.
    assert_eq!(state(first(&of("mild steel", "mild steel", "")), "running"), Outcome::DoesNotApply);
    assert_eq!(first(&of("phosphor bronze", "mild steel", KEYS)).verdict, Verdict::Proven);
}

/// A wall under 3 mm is cold again before anybody knows, and a bush under 1 mm warm again: thinner never betters.
#[test]
fn what_is_thin_loses_more_on_the_way_than_anybody_knows() {
    let ream = |boss: &str, bore: &str| {
        let job = with(REAM, "outside: 40 mm", &format!("outside: {boss}"));
        in_shop(&with(&job, "bore: 15.950 ± 0.004 mm, length", &format!("bore: {bore} ± 0.004 mm, length")))
    };
    let drops = |boss: &str, bore: &str| verdict(first(&ream(boss, bore)), "drops-in");
    assert_eq!((drops("40 mm", "15.950"), drops("26.1 mm", "15.950")), (Verdict::Proven, Verdict::Proven));
    assert_eq!((drops("25.9 mm", "15.950"), drops("24 mm", "15.950")), (Verdict::Doubtful, Verdict::Doubtful));
    assert_eq!((drops("40 mm", "18.03"), drops("40 mm", "18.05")), (Verdict::Proven, Verdict::Doubtful));
    let said = |plan: &Planned| {
        let check = plan.answer.checks.iter().find(|check| check.id == "drops-in").unwrap();
        check.remedies.iter().map(|remedy| remedy.as_str().to_owned()).collect::<String>()
    };
    assert!(said(first(&ream("25.9 mm", "15.950"))).contains("a wall so thin"));
    assert!(said(first(&ream("40 mm", "18.05"))).contains("a bush so thin"));
    let chill = |bore: &str| {
        let job = if bore.is_empty() {
            with(CHILL, "          bore: 20 mm\n", "")
        } else {
            with(CHILL, "bore: 20 mm", &format!("bore: {bore} mm"))
        };
        verdict(first(&in_shop(&job)), "cold-enough")
    };
    assert_eq!(["", "20", "22"].map(chill), [Verdict::Proven; 3]);
    assert_eq!(["22.1", "23.6", "23.9"].map(chill), [Verdict::Doubtful; 3]);
    let press = |boss: &str, bore: &str, more: &str| {
        let job = include_str!("../examples/press-in.yaml");
        let job = with(job, "outside: 46 mm", &format!("outside: {boss} mm"));
        let job = with(&job, "bore: 18.000 ± 0.004 mm", &format!("bore: {bore} ± 0.004 mm"));
        verdict(first(&in_shop(&with(&job, "stands: flush", &format!("{more}stands: flush")))), "drops-in")
    };
    let warm = "opened-by: 0.056 mm\n          ";
    assert_eq!((press("46", "18.000", warm), press("29.9", "18.000", warm)), (Verdict::Proven, Verdict::Doubtful));
    let both = "opened-by: 0.050 mm\n          chilled-by: 0.006 mm\n          ";
    assert_eq!((press("46", "18.000", both), press("46", "22.500", both)), (Verdict::Proven, Verdict::Doubtful));
}

/// By hand, a shaft 0.050 off towards 30 degrees and oval by 0.012: over 100 degrees of its turn a circle fits it to 0.002, and where that is
/// trued an indicator reads 0.078.
#[test]
fn an_arc_says_nothing_of_the_rest_of_the_turn() {
    let head = TRUED.split_once("      - set-true:\n").unwrap().0;
    let of = |at: &[f64], off: f64, oval: f64| {
        let wave = |angle: f64| off * (angle - 30.0).to_radians().cos() + oval * (2.0 * angle).to_radians().cos();
        let start = at.first().map_or(0.0, |first| wave(*first));
        let list = |of: &dyn Fn(f64) -> String| at.iter().map(|angle| of(*angle)).collect::<Vec<_>>().join(" ");
        let (at, reads) = (list(&|a| format!("{a}")), list(&|a| format!("{:.4}", wave(a) - start)));
        in_shop(&format!(
            "{head}      - set-true:\n          readings: {{at: {at} deg, reads: {reads} mm}}\n          with: lever indicator\n          \
             true-within: 0.02 mm\n          hold: {{in: four-jaw, diameter: 50 mm}}\n          last-held-in: four-jaw\n"
        ))
    };
    let spread = |count: usize, over: f64| (0..count).map(|k| over * k as f64 / count as f64).collect::<Vec<_>>();
    for arc in [100.0, 140.0, 180.0, 240.0] {
        let plan = of(&spread(8, arc), 0.050, 0.0);
        let it = first(&plan);
        for check in ["lobes-seen", "form-enough", "true-enough"] {
            assert!(verdict(it, check) > Verdict::Proven, "{check} over {arc}");
        }
        assert!(it.verdict > Verdict::Proven);
    }
    // All round, five places of what was never in three jaws see its form; not where they stand unequally.
    assert_eq!(first(&of(&spread(8, 360.0), 0.050, 0.002)).verdict, Verdict::Proven);
    assert_eq!(first(&of(&spread(5, 360.0), 0.050, 0.002)).verdict, Verdict::Proven);
    let unequal = of(&[0.0, 60.0, 140.0, 220.0, 300.0], 0.050, 0.002);
    assert_eq!(verdict(first(&unequal), "lobes-seen"), Verdict::Doubtful);
    assert_eq!(verdict(first(&unequal), "true-enough"), Verdict::Proven);
    assert!(steps(&unequal).contains(&"read-again"));
}

/// As warm as the joint is taken to become it runs as loose as it would if somebody had said so.
#[test]
fn a_bush_runs_no_tighter_for_want_of_a_temperature() {
    const ID: &str = "loose-when-warm";
    let of = |clearance: &str, running: &str| {
        let job = with(REAM, "clearance: 1 .. 2.5 thou", &format!("clearance: {clearance}"));
        in_shop(&with(&job, "duty: gear", &format!("{running}duty: gear")))
    };
    for clearance in ["1 .. 2 thou", "0.020 .. 0.040 mm", "1 .. 2.5 thou", "1 .. 3 thou"] {
        let unsaid = of(clearance, "");
        let typed = of(clearance, "running: {housing: 100 degC}\n          ");
        assert!(verdict(first(&unsaid), ID) >= verdict(first(&typed), ID), "{clearance}");
        assert_eq!(verdict(first(&typed), ID) == Verdict::Proven, clearance.contains("2.5") || clearance.contains('3'));
    }
}

/// A bush that is made here is read before it is pressed: where its gauge could not tell then that it closed in, it does not now either.
#[test]
fn a_bush_to_be_made_is_told_as_one_that_was_made() {
    const MADE: &str =
        "job: Bush\nshop: shop.yaml\nparts:\n  - part: case\n    material: cast aluminium\n    operations:\n";
    let made = |outside: &str, bore: &str, boss: &str| {
        let job = REAM.split_once("      - ream-bush:\n").unwrap().1;
        let job = with(&format!("{MADE}      - ream-bush:\n{job}"), "outside: 20.042 ± 0.004 mm, ", outside);
        in_shop(&with(&with(&job, "bore: 15.950 ± 0.004 mm, ", bore), "outside: 40 mm", &format!("outside: {boss} mm")))
    };
    for boss in ["40", "32", "30", "28"] {
        let plan = made("", "", boss);
        let it = first(&plan);
        let Some(outside) = it.answer.value("bush_outside_to_make").map(|value| value.number) else { continue };
        let bore = value(it, "bush_bore_to_make");
        let so = made(&format!("outside: {outside:.4} ± 0.004 mm, "), &format!("bore: {bore:.4} ± 0.004 mm, "), boss);
        let closes = |plan: &Plan| state(first(plan), "closes-in");
        let told = matches!(closes(&so), Outcome::Made(Verdict::Proven) | Outcome::DoesNotApply);
        assert!(told || matches!(closes(&plan), Outcome::Made(Verdict::Doubtful)), "{boss}: {outside} {bore}");
        assert!(it.verdict >= first(&so).verdict, "{boss}: {outside} {bore}");
    }
    assert_eq!(first(&made("", "", "40")).verdict, Verdict::Proven);
}

/// A large joint of metals that grow nearly alike comes loose warm as well as one of metals that do not: by length, and not by their rate.
#[test]
fn metals_that_grow_nearly_alike_come_loose_in_a_large_joint() {
    let of = |bore: f64, running: &str| {
        let (press, outside) = (bore + 0.010, bore * 1.6);
        let job = format!(
            "job: t\nparts:\n  - part: case\n    material: cast aluminium\n    operations:\n      - press-in:\n          housing: {{bore: {bore:.3} ± 0.002 mm, outside: {outside:.1} mm, length: 40 mm, finish: Ra 0.8 um}}\n          bush: {{outside: {press:.3} ± 0.002 mm, bore: {:.3} ± 0.002 mm, length: 40 mm, material: brass, finish: Ra 0.8 um}}\n          stands: flush\n          support: {{inside: {:.0} mm, under: boss}}\n{running}",
            bore * 0.88,
            bore + 6.0
        );
        let plan = in_shop(&job);
        (first(&plan).verdict, verdict(first(&plan), "grip-when-warm"))
    };
    assert_eq!(of(80.010, "").1, Verdict::Doubtful, "nobody said how warm, and nothing grips at what is assumed");
    for running in ["", "          running: {housing: 100 degC}\n", "          running: {housing: 60 degC}\n"] {
        assert_ne!(of(80.010, running).0, Verdict::Proven, "{running}");
    }
}

/// A large bore of a metal that grows nearly as its shaft does may close when both are warm: what warmth may take is doubtful where
/// nobody said how warm it runs, and what is asked of it warm is not answered by silence.
#[test]
fn a_large_bore_may_close_in_warmth_that_nobody_told_of() {
    let of = |bore: &str, asked: &str| {
        let job = format!(
            "job: t\nparts:\n  - part: flywheel\n    material: grey iron 200-260 HB\n    operations:\n      - fit-up:\n          \
             bore: {bore} ± 0.001 mm\n          shaft: 80.010 ± 0.001 mm\n          shaft-material: mild steel\n          \
             clearance: 0.030 to 0.060 mm\n{asked}"
        );
        let plan = in_shop(&job);
        (first(&plan).verdict, state(first(&plan), "running"))
    };
    assert_eq!(of("80.042 mm", ""), (Verdict::Doubtful, Outcome::Made(Verdict::Doubtful)));
    assert_eq!(of("80.055 mm", ""), (Verdict::Proven, Outcome::Made(Verdict::Proven)));
    let warm = "          running: {bore: 90 degC, shaft: 90 degC}\n";
    assert_ne!(of("80.042 mm", warm).0, Verdict::Proven);
    assert_eq!(of("80.055 mm", "          least-running: 0.010 mm\n").1, Outcome::NotChecked);
}
