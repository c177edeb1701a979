//! What hurts somebody, or costs a part, beside what is worked of the cut: weight out of balance, metals that gall or are eaten out,
//! frost, a bore that is shut, a spring pass in a metal that burns.

use crate::common;

use common::*;
use setover::plan::Plan;
use setover::proof::{Outcome, Verdict};

const TURN: &str = include_str!("../examples/turn.yaml");
const REAM: &str = include_str!("../examples/ream-bush.yaml");
const PRESSED: &str = include_str!("../examples/press-in.yaml");
const FIT: &str = include_str!("../examples/fit-up.yaml");
const WARM: &str = include_str!("../examples/warm.yaml");

fn own(job: &str) -> Plan {
    plan(job, Some(&shop(include_str!("../examples/shop.yaml"))))
}

fn steps(plan: &Plan) -> Vec<&str> {
    first(plan).answer.set_ups.iter().flat_map(|set_up| set_up.steps.iter().map(|step| step.id)).collect()
}

fn warned(plan: &Plan, of: &str) -> bool {
    let answer = &first(plan).answer;
    let said = answer.cautions.iter().chain(answer.set_ups.iter().flat_map(|set_up| &set_up.cautions));
    said.into_iter().any(|text| text.contains(of))
}

/// A metal without spring passes is never gone over again: magnesium dust burns, titanium glazes.
#[test]
fn no_sheet_goes_over_a_cut_again_that_must_not_rub() {
    for (metal, again) in [("mild steel", true), ("AZ91", false), ("316", false)] {
        let plan = own(&with(TURN, "material: mild steel", &format!("material: {metal}")));
        let passes = first(&plan).answer.set_ups[0].steps.iter().filter_map(|step| step.cut.as_ref());
        let springs = passes.flat_map(|cut| &cut.passes).any(|pass| pass.kind == setover::operations::PassKind::Spring);
        assert_eq!(springs, again, "{metal}");
        assert_eq!(steps(&plan).contains(&"finish"), again, "{metal}");
        assert_eq!(steps(&plan).contains(&"finish-once"), !again, "{metal}");
    }
}

/// Chips of magnesium are out of the machine before anything wet or glowing is cut on it; of another metal nobody sweeps.
#[test]
fn no_magnesium_stays_in_the_tray() {
    let last = |metal: &str| {
        let plan = own(&with(TURN, "material: mild steel", &format!("material: {metal}")));
        let set_up = &first(&plan).answer.set_ups[0];
        (set_up.steps.last().unwrap().id, set_up.minutes.unwrap())
    };
    let (steel, magnesium) = (last("mild steel"), last("AZ91"));
    assert_ne!(steel.0, "sweep-what-burns");
    assert_eq!(magnesium.0, "sweep-what-burns");
}

/// What is heavy is not lifted by one, whatever is done to it, and it is turned by what it weighs.
#[test]
fn a_heavy_part_is_not_lifted_by_one() {
    const HEAVY: &str = "board or cradle";
    let jobs = [PRESSED, WARM, TURN, include_str!("../examples/mill-face.yaml"), include_str!("../examples/lap.yaml")];
    for job in jobs {
        let part = job.lines().find(|line| line.starts_with("  - part: ")).unwrap();
        let weighing = |mass: &str| own(&with(job, part, &format!("{part}\n    mass: {mass}")));
        assert!(warned(&weighing("22 kg"), HEAVY), "{part}");
        assert!(!warned(&weighing("2 kg"), HEAVY), "{part}");
    }
    let balance =
        |mass: &str| state(first(&own(&with(TURN, "shaft\n", &format!("shaft\n    mass: {mass}\n")))), "balance");
    assert_eq!((balance("0.27 kg"), balance("6 kg")), (Outcome::DoesNotApply, Outcome::Made(Verdict::Doubtful)));
}

/// A round that keeps a shaft from cracking is asked as a range: a nose that is too sharp for it is as wrong as one too round.
#[test]
fn a_corner_may_be_too_sharp() {
    let of = |corner: &str| verdict(first(&own(&with(TURN, "corner: 0.4 mm", &format!("corner: {corner}")))), "corner");
    assert_eq!(["0.4 mm", "0.3 .. 0.5 mm", "0.4 ± 0.1 mm"].map(of), [Verdict::Proven; 3]);
    assert_eq!(["0.1 mm", "1 .. 1.5 mm", "0.25 .. 0.35 mm"].map(of), [Verdict::Fails; 3]);
}

/// 50 mm of the bar and 70 long weigh 0.26 kg: what weighs six is no bar, and nobody knows where the rest of it is.
#[test]
fn what_weighs_more_than_its_sizes_is_in_doubt() {
    let of = |more: &str| own(&with(TURN, "inside: 0 mm", &format!("inside: 0 mm{more}")));
    let balance = |more: &str| state(first(&of(more)), "balance");
    assert_eq!(balance(""), Outcome::DoesNotApply);
    assert_eq!(balance("\n          mass: 0.27 kg"), Outcome::DoesNotApply);
    assert_eq!(balance("\n          mass: 6 kg"), Outcome::Made(Verdict::Doubtful));
    assert_ne!(first(&of("\n          mass: 6 kg")).verdict, Verdict::Proven);
}

/// By hand: cast aluminium grows 22.0, phosphor bronze 18.4: 3.6e-6 * 20 * 80 K = 0.0058 mm tighter at -60 degC, a seventh more stress on
/// a housing that stands just under its limit.
#[test]
fn a_housing_shrinks_on_to_its_bush_in_frost() {
    const ID: &str = "stress-when-cold";
    let of = |coldest: &str| {
        let running = format!("running: {{housing: 20 degC, shaft: 20 degC{coldest}}}\n          duty: gear");
        in_shop(&with(REAM, "duty: gear", &running))
    };
    assert_eq!(verdict(first(&of(", coldest: -60 degC")), ID), Verdict::Doubtful);
    assert_eq!(verdict(first(&of(", coldest: 19 degC")), ID), Verdict::Proven);
    // What nobody named is the frost of a shed.
    assert_eq!(verdict(first(&of("")), ID), verdict(first(&of(", coldest: -10 degC")), ID));
    let margin = |coldest: &str| {
        let plan = of(coldest);
        let check = first(&plan).answer.checks.iter().filter(|check| check.id == ID);
        check.filter_map(|check| check.judged).map(|judged| judged.margin).fold(f64::INFINITY, f64::min)
    };
    assert!(margin(", coldest: -60 degC") < margin(", coldest: -20 degC"));
}

/// Air and oil that find no way out of a shut bore stand under the bush.
#[test]
fn a_bore_that_is_shut_lets_no_air_out() {
    const ID: &str = "air-comes-out";
    for (job, length) in [(REAM, "outside: 40 mm, length: 20 mm,"), (PRESSED, "outside: 46 mm, length: 20 mm,")] {
        let of = |through: &str| in_shop(&with(job, length, &format!("{length} through: {through},")));
        assert_eq!(verdict(first(&of("false")), ID), Verdict::Doubtful);
        assert_ne!(first(&of("false")).verdict, Verdict::Proven);
        assert_eq!(verdict(first(&of("true")), ID), Verdict::Proven);
        let unsaid = in_shop(job);
        assert!(first(&unsaid).answer.assumed.iter().any(|line| line.contains("goes right through")));
    }
}

/// Metals of one kind that weld to themselves, running or pressed.
#[test]
fn two_of_a_kind_gall() {
    let fit = |bore: &str, shaft: &str| {
        let job = with(FIT, "material: phosphor bronze", &format!("material: {bore}"));
        in_shop(&with(&job, "shaft-material: mild steel", &format!("shaft-material: {shaft}")))
    };
    let runs = |bore: &str, shaft: &str| verdict(first(&fit(bore, shaft)), "pair-runs");
    assert_eq!(runs("phosphor bronze", "mild steel"), Verdict::Proven);
    for metal in ["316", "Titanium", "cast aluminium"] {
        assert_eq!(runs(metal, metal), Verdict::Doubtful, "{metal}");
    }
    // One of the two is a metal of bearings, or hard.
    let soft = [("mild steel", "mild steel"), ("6082", "mild steel"), ("AZ91", "mild steel"), ("316", "mild steel")];
    for (bore, shaft) in soft.into_iter().chain([("phosphor bronze", "Titanium"), ("phosphor bronze", "LG2")]) {
        assert_eq!(runs(bore, shaft), Verdict::Doubtful, "{shaft} in {bore}");
    }
    for (bore, shaft) in [("GG25", "mild steel"), ("mild steel", "case-hardened steel"), ("SAE 841", "mild steel")] {
        assert_eq!(runs(bore, shaft), Verdict::Proven, "{shaft} in {bore}");
    }
    let pressed = |bush: &str| {
        let job = with(PRESSED, "material: phosphor bronze", &format!("material: {bush}"));
        let plan = in_shop(&with(&job, "material: cast aluminium", "material: 6082-T6"));
        state(first(&plan), "pair-goes-in")
    };
    assert_eq!(pressed("6082-T6"), Outcome::Made(Verdict::Doubtful));
    assert_eq!(pressed("phosphor bronze"), Outcome::Made(Verdict::Proven));
}

/// The same where the bush is reamed as well: it is pressed in by the same press, and a shaft runs in it.
#[test]
fn what_is_reamed_goes_in_and_runs_by_the_same_rules() {
    let of = |metals: &str, shaft: &str, assemble: &str| {
        let job = with(REAM, "length: 20 mm, material: cast aluminium", &format!("length: 20 mm, material: {metals}"));
        let job = if metals == "Titanium" { with(&job, "phosphor bronze", metals) } else { job };
        let runs =
            format!("{assemble}\n          running: {{housing: 20 degC, shaft: 20 degC, shaft-material: {shaft}}}");
        let plan = in_shop(&with(&job, "assemble: warm-and-chill", &format!("assemble: {runs}")));
        ["pair-goes-in", "pair-runs"].map(|check| state(first(&plan), check))
    };
    let [proven, doubtful] = [Verdict::Proven, Verdict::Doubtful].map(Outcome::Made);
    assert_eq!(of("cast aluminium", "mild steel", "press"), [proven, proven]);
    assert_eq!(of("Titanium", "mild steel", "press"), [doubtful, doubtful]);
    assert_eq!(of("Titanium", "Titanium", "warm-and-chill"), [Outcome::DoesNotApply, doubtful]);
    let stands = |length: &str| {
        let job =
            with(REAM, "bore: 15.950 ± 0.004 mm, length: 20 mm", &format!("bore: 15.950 ± 0.004 mm, length: {length}"));
        let job = with(&with(&job, "at: 10 mm", "at: 30 mm"), "at: 10.2", "at: 30.2");
        state(first(&in_shop(&with(&job, "gauge: plugs", "stands: 19 mm\n          gauge: plugs"))), "goes-in-straight")
    };
    assert_eq!((stands("39 mm"), stands("36 mm")), (proven, doubtful));
}

/// Magnesium beside bronze is eaten out; porous bronze is never washed.
#[test]
fn a_bush_goes_in_as_its_metal_asks() {
    let in_magnesium = in_shop(&with(PRESSED, "material: cast aluminium", "material: AZ91"));
    assert!(warned(&in_magnesium, "eaten out") && !warned(&in_shop(PRESSED), "eaten out"));
    let porous = in_shop(&with(PRESSED, "material: phosphor bronze", "material: sintered bronze"));
    assert!(steps(&porous).contains(&"both-at-20-porous") && !steps(&porous).contains(&"both-at-20"));
    assert!(steps(&in_shop(PRESSED)).contains(&"both-at-20"));
}

/// What is fetched hot out of an oven and weighs more than one lifts is fetched by two, or by a hoist.
#[test]
fn what_is_heavy_is_not_carried_hot_by_one() {
    let of = |outside: &str, length: &str| {
        let line = WARM.lines().find(|line| line.contains("outside:")).unwrap();
        let other = WARM.lines().find(|line| line.trim().starts_with("length:")).unwrap();
        let job = with(WARM, line, &format!("          outside: {outside}"));
        in_shop(&with(&job, other, &format!("          length: {length}")))
    };
    assert!(warned(&of("400 mm", "300 mm"), "hoist") && !warned(&of("46 mm", "20 mm"), "hoist"));
}

/// An insert that the job itself fits lies in the face that is lapped.
#[test]
fn inserts_of_the_job_are_counted_in_its_lap() {
    let insert = include_str!("../examples/thread-insert.yaml");
    let lap = include_str!("../examples/lap.yaml");
    let body = |text: &str| {
        let rest = text.split_once("    operations:\n").unwrap().1;
        rest.split_once("\n  - part:").map_or(rest, |it| it.0).trim_end().to_owned() + "\n"
    };
    let of = |operations: &str| {
        let head =
            "job: Lapped\nshop: shop.yaml\nparts:\n  - part: cover\n    material: cast aluminium\n    operations:\n";
        let plan = in_shop(&format!("{head}{operations}"));
        let lap = plan.operations.iter().find(|it| it.word == "lap").unwrap();
        lap.answer.checks.iter().any(|check| check.id == "inserts-counted")
    };
    let uncounted = with(lap, "          inserts: [{thread: M6, set-down: 0.75 ± 0.1 mm}]\n", "");
    assert!(of(&(body(insert) + &body(&uncounted))));
    assert!(!of(&(body(insert) + &body(lap))) && !of(&body(&uncounted)));
}

/// By hand: a wall of 4 mm, 60 high, pushed at one end: 60 * 4^3 / 12 = 320 mm4 give way by nearly a millimetre under 414 N.
#[test]
fn a_hollow_case_sways_by_its_walls() {
    let mill = include_str!("../examples/mill-face.yaml");
    let mill = &with(mill, "          walls: 36 mm\n", "");
    let of = |more: &str| {
        let job = with(mill, "thickness: 18.00", "thickness: 60.00");
        let job = with(&job, "least-thickness: 17 mm", "least-thickness: 59 mm");
        own(&with(&job, "          bears:", &format!("{more}          bears:")))
    };
    let (solid, thin, thick) = (of(""), of("          walls: 4 mm\n"), of("          walls: 36 mm\n"));
    let sways = |plan: &Plan| value(first(plan), "work_sways");
    assert!(sways(&thin) > 100.0 * sways(&solid));
    assert_eq!(sways(&thick), sways(&solid), "solid is as thick as the face is wide");
    assert_eq!(verdict(first(&thin), "work-sways"), Verdict::Fails);
    assert!(first(&solid).answer.assumed.iter().any(|line| line.contains("walls not given")));
    // A casting may be hollow: solid it holds, and nobody says that it is. A block of steel is none.
    assert_eq!(state(first(&solid), "work-sways"), Outcome::NotChecked);
    assert_eq!(verdict(first(&of("          walls: 36 mm\n")), "work-sways"), Verdict::Proven);
    let steel = with(&with(mill, "GG25", "mild steel"), "removed: 0.8 mm", "removed: 0.6 mm");
    assert_eq!(verdict(first(&own(&steel)), "work-sways"), Verdict::Proven);
}

/// A joint that closes a cylinder asks for the room over its piston.
#[test]
fn a_head_is_not_lapped_without_a_word_of_squish() {
    let lap = include_str!("../examples/lap.yaml");
    let bare = with(&with(lap, "          squish: 0.95 ± 0.05 mm\n", ""), "          least-squish: 0.80 mm\n", "");
    let plan = in_shop(&bare);
    assert_eq!(state(&plan.operations[1], "squish"), Outcome::NotChecked);
    assert_ne!(plan.operations[1].verdict, Verdict::Proven);
    assert_eq!(state(&plan.operations[0], "squish"), Outcome::DoesNotApply, "a cover");
}

/// Pushed far above a short seat a bush tilts; a thin wall is cold again before it is at the press.
#[test]
fn what_is_long_tilts_and_what_is_thin_cools() {
    let of = |length: &str, stands: &str| {
        let job = with(
            PRESSED,
            "bore: 18.000 ± 0.004 mm, length: 20 mm",
            &format!("bore: 18.000 ± 0.004 mm, length: {length}"),
        );
        verdict(first(&in_shop(&with(&job, "stands: flush", &format!("stands: {stands}")))), "goes-in-straight")
    };
    assert_eq!(
        (of("20 mm", "flush"), of("39 mm", "19 mm"), of("120 mm", "100 mm")),
        (Verdict::Proven, Verdict::Proven, Verdict::Doubtful)
    );
    let warm = |outside: &str| {
        verdict(first(&in_shop(&with(WARM, "outside: 46 mm", &format!("outside: {outside}")))), "opens-enough")
    };
    assert_eq!((warm("30 mm"), warm("29 mm")), (Verdict::Proven, Verdict::Doubtful));
}

/// Out of a bath that burns nothing goes into a warm cupboard, and no such bath stands open in a shop where an oven is at heat.
#[test]
fn what_burns_is_kept_from_heat() {
    let wash = include_str!("../examples/wash.yaml");
    let burns = in_shop(wash);
    assert!(steps(&burns).contains(&"drain-what-burns") && !steps(&burns).contains(&"dry"));
    let water = in_shop(&with(wash, "cleaner: paraffin", "cleaner: water and detergent"));
    assert!(steps(&water).contains(&"dry") && !steps(&water).contains(&"drain-what-burns"));
    let day = |cleaner: &str| {
        let other = format!(
            "  - part: bracket\n    material: GG25\n    operations:\n      - wash: {{cleaner: {cleaner}, dirt: oil}}\n"
        );
        let plan = in_shop(&format!("{}\n{other}", WARM.trim_end()));
        let asked = setover::plan::day::Asked { days: 1, ..Default::default() };
        let day = setover::plan::day::day(&[plan], &asked).unwrap_or_else(|all| panic!("{all:#?}"));
        let at = |id: &str| day.lines.iter().find(|line| line.id == id).unwrap().clone();
        let (load, bath) = (at("1.1"), at("2.1"));
        bath.end <= load.start || bath.start >= load.by_itself_until.unwrap()
    };
    assert!(day("brake cleaner") && day("paraffin"));
    assert!(!day("water and detergent"), "water is washed in while the oven works");
}

/// What comes off the joint of a case comes off the bores that it splits.
#[test]
fn a_case_is_not_lapped_without_a_word_of_its_bores() {
    let lap = include_str!("../examples/lap.yaml");
    let of = |joint: &str| state(&in_shop(&with(lap, "joint: cover", joint)).operations[0], "bores-stay-round");
    assert_eq!(of("joint: cover"), Outcome::DoesNotApply);
    assert_eq!(of("joint: case"), Outcome::NotChecked);
    let across = |what: &str| of(&format!("joint: case\n          bores-across: {what}"));
    assert_eq!(across("none"), Outcome::Made(Verdict::Proven));
    assert_eq!(across("bored-after"), Outcome::Made(Verdict::Proven));
    assert_eq!(across("stay"), Outcome::Made(Verdict::Fails));
}
