//! A name that is a family of metals is never better than the worst of its members; a hardness that a metal cannot have is doubted.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common;

use common::*;
use setover::handbook::Material;
use setover::plan::{Plan, Planned};
use setover::proof::{Check, Outcome, Verdict};

const FACE: &str = include_str!("fixtures/face.yaml");
const SKIM: &str = include_str!("fixtures/skim.yaml");
const INSERT: &str = include_str!("fixtures/thread-insert.yaml");
const REAM: &str = include_str!("fixtures/ream-bush.yaml");

fn made_of(job: &str, from: &str, metal: &str) -> Plan {
    in_shop(&with(job, &format!("material: {from}"), &format!("material: {metal}")))
}

fn check<'a>(planned: &'a Planned, id: &str) -> &'a Check<String> {
    planned.answer.checks.iter().find(|check| check.id == id).unwrap_or_else(|| panic!("no check {id}"))
}

fn members(family: &str) -> Vec<String> {
    let family: Material = family.parse().unwrap();
    assert!(family.family().is_some());
    family.members().iter().map(|member| member.id().to_owned()).collect()
}

/// A thread that holds in a wrought bar and tears out of a casting.
#[test]
fn aluminium_is_never_proven_where_the_casting_is_not() {
    let job = with(INSERT, "class: \"4.6\", reach: 8 mm", "class: \"8.8\", reach: 16 mm");
    let job = with(&job, "          edge: 14 ± 0.2 mm\n", "          edge: 30 ± 0.2 mm\n          length: 1D\n");
    let job = with(&job, "least-left: 1 mm", "least-left: 0.5 mm");
    let of = |metal: &str| made_of(&job, "cast aluminium", metal);
    let (cast, wrought) = (of("cast aluminium"), of("6082-T6"));
    let strength = |plan: &Plan| {
        let made = first(plan).answer.checks.iter().filter(|c| ["pull-out", "outlasts"].contains(&c.id));
        made.filter_map(Check::verdict).max().unwrap()
    };
    assert!(strength(&cast) > strength(&wrought), "{:?} {:?}", strength(&cast), strength(&wrought));
    for name in ["aluminium", "aluminum", "Aluminium alloy"] {
        let family = of(name);
        assert_eq!(strength(&family), strength(&cast), "{name}");
        assert!(first(&family).verdict >= first(&cast).verdict.max(Verdict::Doubtful), "{name}");
        let named = check(first(&family), "alloy-named");
        assert_eq!(named.verdict(), Some(Verdict::Doubtful));
        assert!(named.asks.contains("Cast aluminium <= 12 % Si"), "{}", named.asks);
        assert!(named.remedy.as_ref().unwrap().contains("Wrought aluminium"), "{:?}", named.remedy);
        let of_thread = |c: &&Check<String>| ["clamping", "pull-out"].contains(&c.id);
        let mut all = first(&family).answer.checks.iter().filter(of_thread);
        let weak = all.find(|c| c.asks.contains("worst of the family")).unwrap();
        assert!(weak.asks.contains("Cast aluminium"), "{}", weak.asks);
    }
    assert_eq!(state(first(&cast), "alloy-named"), Outcome::DoesNotApply);
}

/// Every family, in every operation: no check is better than that of any member, and none vanishes.
#[test]
fn no_check_of_a_family_is_better_than_that_of_any_member() {
    let jobs = [
        (FACE, "case-hardened steel", vec!["steel", "stainless", "cast iron", "bronze", "aluminium", "4140"]),
        (SKIM, "mild steel", vec!["steel", "stainless steel", "gray iron", "bronze", "aluminum"]),
        (INSERT, "cast aluminium", vec!["aluminium", "cast iron", "ductile iron", "bronze", "steel"]),
        (REAM, "phosphor bronze", vec!["bronze"]),
        (REAM, "cast aluminium", vec!["aluminium", "cast iron"]),
    ];
    for (job, from, families) in jobs {
        for family in families {
            let name = format!("{from} -> {family}");
            let job = job.replace("    hardness: 60 HRC\n", "");
            let whole = made_of(&job, from, family);
            let whole = first(&whole);
            assert!(whole.verdict >= Verdict::Doubtful, "{name}");
            for member in members(family) {
                let plan = made_of(&job, from, &member);
                let one = first(&plan);
                let ids = |planned: &Planned| planned.answer.checks.iter().map(|c| c.id).collect::<Vec<_>>();
                assert!(ids(one).iter().all(|id| ids(whole).contains(id)), "{name}: {member}");
                // With the choice frozen: another length or reamer is another plan.
                let chosen =
                    |planned: &Planned| planned.answer.alternatives.iter().find(|a| a.chosen).map(|a| a.name.clone());
                if chosen(one) != chosen(whole) {
                    continue;
                }
                for check in &one.answer.checks {
                    let all = self::check(whole, check.id);
                    assert!(all.stamps() >= check.stamps(), "{name}: {} of {member}", check.id);
                }
            }
        }
    }
}

/// Speed and force are those of the slowest and toughest member, in every run.
#[test]
fn a_family_is_cut_at_the_slowest_speed_of_its_members() {
    use setover::handbook::ToolMaterial;
    use setover::handbook::cutting::cutting_force::force_at_one;
    use setover::handbook::cutting::speeds::{Work, start_speed};
    for name in ["steel", "cast iron", "bronze", "stainless", "aluminium"] {
        let family: Material = name.parse().unwrap();
        for work in Work::ALL {
            let start = |m: &Material| start_speed(m, work, ToolMaterial::Hss).ok().map(|speed| speed.number());
            let slowest =
                members(name).iter().filter_map(|id| start(&id.parse().unwrap())).fold(f64::INFINITY, f64::min);
            assert_eq!(start(&family).unwrap_or(f64::INFINITY), slowest, "{name} {}", work.text());
        }
        let force = |m: &Material| force_at_one(m).map(|kc| kc.number()).unwrap();
        let most = members(name).iter().map(|id| force(&id.parse().unwrap())).fold(0.0, f64::max);
        assert_eq!(force(&family), most, "{name}");
    }
}

#[test]
fn a_hardness_that_the_metal_cannot_have_is_doubted() {
    let face = |metal: &str, hardness: &str| {
        let job = with(FACE, "material: case-hardened steel", &format!("material: {metal}"));
        let plan = in_shop(&with(&job, "hardness: 60 HRC", &format!("hardness: {hardness}")));
        let check = check(first(&plan), "hardness-plausible").clone();
        if check.verdict() != Some(Verdict::Proven) {
            assert!(first(&plan).verdict >= Verdict::Doubtful);
        }
        check.verdict()
    };
    let (proven, doubtful) = (Some(Verdict::Proven), Some(Verdict::Doubtful));
    for (metal, hardness, verdict) in [
        ("case-hardened steel", "60 HRC", proven),
        ("case-hardened steel", "55 HRC", proven),
        ("case-hardened steel", "54 HRC", doubtful),
        ("case-hardened steel", "66 HRC", doubtful),
        ("case-hardened steel", "700 HV", proven),
        ("case-hardened steel", "400 HV", doubtful),
        ("mild steel", "58 HRC", doubtful),
        ("mild steel", "150 HB", proven),
        ("mild steel", "250 HB", doubtful),
        ("EN19T", "30 HRC", proven),
        ("EN19T", "45 HRC", doubtful),
        ("LM25", "90 HB", proven),
        ("LM25", "200 HB", doubtful),
        // No conversion outside steel: it cannot be told.
        ("LM25", "90 HV", doubtful),
    ] {
        assert_eq!(face(metal, hardness), verdict, "{metal} {hardness}");
    }
    let none = with(FACE, "    hardness: 60 HRC\n", "");
    assert_eq!(state(first(&in_shop(&none)), "hardness-plausible"), Outcome::DoesNotApply);
}

#[test]
fn a_harder_or_softer_reading_away_from_the_row_never_betters_the_check() {
    for metal in ["case-hard-60", "hard-50", "mild-steel", "en8-1045", "4140-30hrc", "grey-iron-soft", "al-cast"] {
        let row: Material = metal.parse().unwrap();
        let (low, high, unit, _) = row.hardness_range().unwrap();
        let of = |number: f64| {
            let job = with(FACE, "material: case-hardened steel", &format!("material: {metal}"));
            let plan = in_shop(&with(&job, "hardness: 60 HRC", &format!("hardness: {number:.1} {unit}")));
            verdict(first(&plan), "hardness-plausible")
        };
        for way in [-1.0, 1.0] {
            let from = if way < 0.0 { low } else { high };
            let steps = [0.0, 0.02, 0.05, 0.1].map(|share| from * (1.0 + way * share));
            let said: Vec<Verdict> = steps.iter().map(|number| of(*number)).collect();
            assert!(said.is_sorted(), "{metal}: {said:?}");
            assert_eq!(said[0], Verdict::Proven, "{metal}");
        }
    }
}

#[test]
fn a_metal_named_by_number_is_read_bare() {
    for (name, id) in
        [("303", "stainless-303"), ("6082", "al-wrought"), ("1.4305", "stainless-303"), ("4140", "4140-soft")]
    {
        let job = |name: &str| made_of(SKIM, "mild steel", name);
        let (bare, quoted) = (job(name), job(&format!("\"{name}\"")));
        let said =
            |plan: &Plan| first(plan).answer.checks.iter().map(|c| (c.asks.clone(), c.state)).collect::<Vec<_>>();
        assert_eq!(said(&bare), said(&quoted), "{name}");
        assert_eq!(name.parse::<Material>().unwrap().id(), id);
    }
    assert!(try_plan(&with(SKIM, "material: mild steel", "material: 7777"), None).is_err());
}

/// A bush is made once, whatever bronze it is of: what is made is judged for every member.
#[test]
fn what_is_made_for_a_family_is_judged_for_every_member() {
    let family = made_of(&with(REAM, "outside: 20.045 ± 0.004 mm, ", ""), "phosphor bronze", "bronze");
    let family = first(&family);
    let (outside, limits) = (value(family, "bush_outside_to_make"), doubt(family, "bush_outside_to_make"));
    let typed = with(REAM, "outside: 20.045 ± 0.004 mm", &format!("outside: {outside:.9} ± {limits:.9} mm"));
    let ids = ["interference", "bush-yield", "housing-stress", "grip-when-warm", "stress-when-warm", "oven-stop"];
    let mut compared = 0;
    for member in members("bronze") {
        let one = made_of(&typed, "phosphor bronze", &member);
        for id in ids {
            let (of_family, of_one) = (check(family, id), check(first(&one), id));
            assert!(of_family.verdict() >= of_one.verdict(), "{id} of {member}");
            let margin = |check: &Check<String>| check.judged.map(|judged| judged.margin);
            if let (Some(of_family), Some(of_one), true) =
                (margin(of_family), margin(of_one), of_family.verdict() == of_one.verdict())
            {
                assert!(of_family <= of_one + 1e-6, "{id} of {member}: {of_family} {of_one}");
                compared += 1;
            }
        }
    }
    assert!(compared > 5, "{compared}");
}

/// A metal that is typed as the book prints it is that metal, not one whose name differs by a sign alone.
#[test]
fn a_metal_by_its_printed_name_is_itself() {
    let id = |name: &str| name.parse::<setover::handbook::Material>().map(|metal| metal.id().to_owned());
    let rows = include_str!("../shared/materials.csv").lines().filter(|line| !line.starts_with('#')).skip(1);
    let mut seen = 0;
    for row in rows {
        let mut cells = row.split(',');
        let (own, name) = (cells.next().unwrap(), cells.next().unwrap());
        if name.starts_with('"') {
            continue;
        }
        assert_eq!(id(name), Ok(own.to_owned()), "{name}");
        seen += 1;
    }
    assert!(seen > 20, "{seen} rows were looked at");
    assert_ne!(id("Cast aluminium > 12 % Si"), id("Cast aluminium <= 12 % Si"));
}

/// What is chosen for a family holds for it no worse than the operation says: the row that the slowest member begins with has its
/// own top, and no member is refused for want of another's.
#[test]
fn what_is_chosen_for_a_family_is_refused_for_no_member() {
    const HSS: &str = "shop: x\nmachines:\n  - lathe: {name: lathe, spindle: 38 62 100 165 270 430 700 1120 rev/min, power: 0.75 kW, feeds-along: 0.05 0.10 0.15 0.25 mm/rev, feeds-across: 0.03 0.05 0.08 0.13 mm/rev, swing: 250 mm, most-depth: 1 mm, chuck: {diameter: 150 mm, most: 1800 rev/min, jaw-force: 22 kN}, dials: [{axis: top, division: 0.02 mm, per-turn: 2 mm}, {axis: across, division: 0.02 mm, per-turn: 4 mm, reads: diameter}]}\ntools:\n  - turning: {name: knife, material: HSS, nose: 0.4 mm}\n";
    let job = |metal: &str| {
        format!(
            "job: x\nparts:\n  - part: a\n    material: {metal}\n    operations:\n      - skim: {{outside: 120 mm, length: 8.00 ± 0.02 mm, wear: 0.15 ± 0.02 mm, least-thickness: 7.4 mm, hold: {{in: jaws, diameter: 127 mm, grip: 6 mm}}}}\n"
        )
    };
    let mut chosen = 0;
    for metal in
        ["cast iron", "iron", "grey iron", "steel", "aluminium", "bronze", "stainless", "4140", "EN24", "ductile iron"]
    {
        let plan = try_plan(&job(metal), Some(&shop(HSS))).unwrap_or_else(|all| panic!("{metal}: {all:#?}"));
        let planned = first(&plan);
        for row in planned.answer.alternatives.iter().filter(|row| row.chosen) {
            chosen += 1;
            assert_eq!(row.answer.refused, None, "{metal}: {}", row.name);
            assert!(row.answer.verdict() <= planned.verdict, "{metal}: {} {:?}", row.name, planned.verdict);
        }
    }
    assert!(chosen > 5, "{chosen}");
}
