//! A gap that sizes in a row open and close, and whose doubt matters in it.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common::{doubt, first, in_shop, plan, shop, state, try_plan, value, verdict, with};
use approx::assert_abs_diff_eq;
use setover::proof::{Chance, Outcome, Verdict};

const GAP: &str = "job: Flywheel gap\nparts:\n  - part: flywheel\n    material: cast iron\n    operations:\n      - chain:\n          \
                   of: gap from case to flywheel rim\n          wanted: 2.0 .. 3.5 mm\n          links:\n            \
                   - {link: case face, by: +1, size: 31.40 ± 0.03 mm}\n            \
                   - {link: hub, by: -1, size: 28.60 ± 0.03 mm}\n            \
                   - {link: shaft, by: +10, size: 28.020 ± 0.004 mm}\n            \
                   - {link: hub bore, by: -10, size: 28.012 ± 0.0095 mm}\n";

fn chosen(it: &setover::plan::Planned, name: &str) -> String {
    it.answer.choices.iter().find(|choice| choice.name == name).expect("a choice").chosen.clone()
}

#[test]
fn a_flywheel_on_its_taper() {
    let it = in_shop(GAP);
    let it = first(&it);
    assert_abs_diff_eq!(value(it, "gap"), 2.88, epsilon = 1e-9);
    assert_abs_diff_eq!(doubt(it, "gap"), 0.1115, epsilon = 5e-5);
    assert_abs_diff_eq!(value(it, "worst_case"), 0.195, epsilon = 1e-9);
    assert_abs_diff_eq!(value(it, "dearest_share"), 0.726, epsilon = 5e-4);
    assert_eq!(chosen(it, "dearest_link"), "hub bore");
    assert_eq!(chosen(it, "shares_of_doubt"), "case face 7.2 %; hub 7.2 %; shaft 12.9 %; hub bore 72.6 %");
    let without = (0.03_f64.powi(2) * 2.0 + 0.04_f64.powi(2) + 0.0475_f64.powi(2)).sqrt();
    assert_abs_diff_eq!(value(it, "halve_saves"), doubt(it, "gap") - without, epsilon = 1e-12);
    assert_eq!((verdict(it, "wanted"), it.verdict), (Verdict::Proven, Verdict::Proven));
}

/// A taper of 1 in 10 on diameter moves by ten: by one the doubt is two and a half times too small, by five the gap is wrong.
#[test]
fn another_sensitivity_is_another_gap() {
    let of = |by: &str| {
        let other = with(&with(GAP, "by: +10", &format!("by: +{by}")), "by: -10", &format!("by: -{by}"));
        let it = in_shop(&other);
        (value(first(&it), "gap"), doubt(first(&it), "gap"))
    };
    assert_abs_diff_eq!(of("1").0, 2.808, epsilon = 1e-9);
    assert_abs_diff_eq!(of("1").1, 0.0437, epsilon = 5e-5);
    assert_abs_diff_eq!(of("5").0, 2.84, epsilon = 1e-9);
}

/// Two depths by one gauge: what both share cancels only where somebody says how well it repeats.
#[test]
fn one_gauge_cancels_only_where_its_repeat_is_known() {
    let job = with(GAP, "size: 31.40 ± 0.03 mm", "size: {size: 31.40 mm, with: depth gauge}");
    let job = with(&job, "size: 28.60 ± 0.03 mm", "size: {size: 28.60 mm, with: depth gauge}");
    let whole = doubt(first(&in_shop(&job)), "gap");
    assert_abs_diff_eq!(whole, doubt(first(&in_shop(GAP)), "gap"), epsilon = 1e-12);
    let repeats = with(crate::common::SHOP, "uncertainty: 30 um}", "uncertainty: 30 um, repeat: 10 um}");
    let known = plan(&job, Some(&shop(&repeats)));
    let taper = (0.04_f64.powi(2) + 0.095_f64.powi(2)).sqrt();
    assert_abs_diff_eq!(doubt(first(&known), "gap"), (taper.powi(2) + 2.0 * 0.01_f64.powi(2)).sqrt(), epsilon = 1e-9);
    // Both opening: they are off together.
    let sum = with(&job, "by: -1, size", "by: 1, size");
    assert_abs_diff_eq!(doubt(first(&in_shop(&sum)), "gap"), taper.hypot(0.06), epsilon = 1e-9);
}

/// Limits count at their worst, the root of their squares is shown and never judged.
#[test]
fn limits_are_judged_at_their_worst() {
    let job = with(GAP, "size: 31.40 ± 0.03 mm", "limits: 31.10 .. 31.70 mm");
    let job = with(&job, "size: 28.60 ± 0.03 mm", "limits: 28.30 .. 28.90 mm");
    let it = in_shop(&job);
    let it = first(&it);
    assert_abs_diff_eq!(value(it, "limits_worst"), 0.6, epsilon = 1e-9);
    assert_abs_diff_eq!(value(it, "root_sum_square"), 0.3 * 2.0_f64.sqrt(), epsilon = 1e-9);
    let judged = it.answer.checks.iter().find(|check| check.id == "wanted").unwrap().judged.unwrap();
    assert_abs_diff_eq!(judged.margin, 3.5 - 2.88 - 0.6 - doubt(it, "gap"), epsilon = 1e-9);
    assert_eq!(it.verdict, Verdict::Doubtful, "by the root it would be proven");
}

/// What is missing never makes it better.
#[test]
fn what_is_missing_betters_nothing() {
    let open = with(GAP, "          wanted: 2.0 .. 3.5 mm\n", "");
    let open = in_shop(&open);
    assert_eq!(state(first(&open), "wanted"), Outcome::NotChecked);
    assert_eq!(first(&open).verdict, Verdict::Doubtful);
    for silent in ["size: 28.012 mm", "size: {size: 28.012 mm, with: bore gauge}"] {
        let job = with(GAP, "size: 28.012 ± 0.0095 mm", silent);
        let it = plan(&job, None);
        assert_eq!(verdict(first(&it), "doubts-known"), Verdict::Doubtful, "{silent}");
        assert_eq!(first(&it).verdict, Verdict::Doubtful, "{silent}");
    }
    let out = in_shop(&with(GAP, "2.0 .. 3.5 mm", "2.9 .. 3.5 mm"));
    assert_eq!(first(&out).verdict, Verdict::Fails);
}

#[test]
fn what_is_no_chain_is_refused_at_its_place() {
    let says = |job: &str, words: &str| {
        let problems = try_plan(job, None).expect_err(words);
        assert!(problems.iter().any(|p| p.says.contains(words) && p.place.is_some()), "{problems:#?}");
    };
    says(&with(GAP, "by: +10", "by: 0"), "counts nought");
    says(&with(GAP, "size: 28.020 ± 0.004 mm", "size: 28.020 ± 0.004 mm, limits: 28.0 .. 28.1 mm"), "one of the two");
    says(&with(GAP, "size: 28.60 ± 0.03 mm", "size: {size: 28.60 mm, at: 40 degC}"), "names its metal");
    says(&with(GAP, "2.0 .. 3.5 mm", "2.0 mm"), "two limits");
    // What was typed twice counts twice, and no list says so.
    says(&with(GAP, "link: hub bore,", "link: Hub,"), "of this name is there already");
    let refused = |job: &str, words: &str| {
        let it = in_shop(job);
        let why = first(&it).answer.refused.as_ref().expect("refused").to_string();
        assert!(why.contains(words) && first(&it).verdict == Verdict::Fails, "{why}");
    };
    refused(&with(GAP, "by: +10, size: 28.020 ± 0.004 mm", "by: +10"), "the size of a link");
    refused(GAP.split("            - {link: hub,").next().unwrap(), "two links at least");
}

/// A hundred chains against draws of all their readings: the doubt is twice the spread to three in a hundred.
#[test]
fn the_doubt_is_twice_the_spread_of_draws() {
    const SEED: u64 = 18_890_311;
    const DRAWS: usize = 20_000;
    println!("seed {SEED}, {DRAWS} draws each");
    let mut chance = Chance::from_seed(SEED);
    for _ in 0..100 {
        let count = 2 + (chance.bits() % 6) as usize;
        let links: Vec<(i64, f64, f64)> = (0..count)
            .map(|_| {
                let by = (chance.bits() % 21) as i64 - 10;
                let by = if by == 0 { 1 } else { by };
                (by, 5.0 + 50.0 * chance.even(), 0.001 + 0.03 * chance.even())
            })
            .collect();
        let typed: String = links
            .iter()
            .enumerate()
            .map(|(nth, (by, size, doubt))| {
                format!("            - {{link: x {nth}, by: {by}, size: {size:.3} ± {doubt:.4} mm}}\n")
            })
            .collect();
        let job = GAP.split("            - {link: case").next().unwrap().to_owned() + &typed;
        let it = plan(&job, None);
        let mut squares = 0.0;
        for _ in 0..DRAWS {
            // Twelve even draws less six are as good as normal here.
            let mut normal = || (0..12).map(|_| chance.even()).sum::<f64>() - 6.0;
            let off: f64 = links.iter().map(|(by, _, doubt)| *by as f64 * doubt / 2.0 * normal()).sum();
            squares += off * off;
        }
        let spread = 2.0 * (squares / DRAWS as f64).sqrt();
        let held = doubt(first(&it), "gap");
        assert!((spread / held - 1.0).abs() < 0.03, "{spread} {held}\n{job}");
    }
}

/// Two links of one length against each other, read warm: of one alloy what nobody knows of its expansion cancels, of two it does not.
#[test]
fn the_expansion_of_two_alloys_is_not_one_doubt() {
    let of = |one: &str, other: &str| {
        let link = |name: &str, by: i32, metal: &str| {
            format!(
                "            - {{link: {name}, by: {by}, size: {{size: 100.000 ± 0.001 mm, at: 38 degC, gauge-at: 20 degC}}, material: {metal}}}\n"
            )
        };
        let links = link("case", 1, one) + &link("shaft", -1, other);
        let job = format!(
            "job: Warm\nparts:\n  - part: case\n    material: GG25\n    operations:\n      - chain:\n          of: float\n          wanted: -1 .. 1 mm\n          links:\n{links}"
        );
        doubt(first(&in_shop(&job)), "gap")
    };
    let (one, two) = (of("GG25", "GG25"), of("GG25", "phosphor bronze"));
    // 100 mm, 18 K and 1e-6 each, k = 2.
    let apart = 100.0 * 18.0 * 1e-6 * 2.0_f64.sqrt();
    assert!(two > one && two >= apart, "{one} {two}");
    let squares = two.powi(2) - one.powi(2);
    assert!(squares >= apart.powi(2) - 1e-9, "{squares}");
}

/// A chain in which nobody said what closes the gap is the stack of its links: a thin one of the wrong sign hides in it.
#[test]
fn links_that_all_open_say_so_themselves() {
    let of = |job: &str| {
        let it = in_shop(job);
        (verdict(first(&it), "opened-and-closed"), first(&it).verdict)
    };
    let stack = "job: t\nparts:\n  - part: pump\n    material: cast iron\n    operations:\n      - chain:\n          wanted: 0.40 to 0.90 mm\n          \
                 links:\n            - {link: step, by: 1, size: 0.450 ± 0.01 mm}\n            - {link: gasket, by: 1, size: 0.150 ± 0.01 mm}\n";
    assert_eq!(of(stack), (Verdict::Proven, Verdict::Proven), "somebody said so");
    let unsaid = with(stack, "gasket, by: 1,", "gasket,");
    assert_eq!(of(&unsaid), (Verdict::Doubtful, Verdict::Doubtful));
    let it = in_shop(&unsaid);
    assert!(first(&it).answer.assumed.iter().any(|words| words.ends_with("gasket")), "{:?}", first(&it).answer.assumed);
    assert_eq!(of(&with(stack, "gasket, by: 1,", "gasket, by: -1,")).0, Verdict::Proven);
    // One forgotten among others that say so hides as well; the first link begins the gap.
    let three =
        with(stack, "gasket, by: 1,", "gasket, by: -1,") + "            - {link: washer, size: 0.15 ± 0.01 mm}\n";
    assert_eq!(of(&three), (Verdict::Doubtful, Verdict::Doubtful));
    assert_eq!(of(&with(&with(&three, "washer,", "washer, by: 1,"), "step, by: 1,", "step,")).0, Verdict::Proven);
}
