//! What a sheet tells the hand at the machine: the step of the spindle, the gauge that reads so far, what a division is worth, how a
//! chuck is tightened, and the length that lies in the drawer.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common::{committed_jobs, first, in_shop, plan, shop, state, try_plan, value, with};
use setover::handbook::ToolMaterial;
use setover::handbook::cutting::speeds::{Work, start_speed};
use setover::operations::{PassKind, Station};
use setover::plan::Plan;
use setover::proof::{Dialled, Outcome, Verdict};
use setover::quantity::Print;
use setover::sheet::layout;
use setover::sheet::page::Ink;
use std::f64::consts::PI;

const SHOP: &str = include_str!("../examples/shop.yaml");
const DRILL: &str = include_str!("../examples/drill.yaml");
const INSERT: &str = include_str!("../examples/thread-insert.yaml");
const PLATE: [f64; 8] = [80.0, 135.0, 210.0, 325.0, 660.0, 1115.0, 1750.0, 2720.0];

/// The highest step that is not over the wish, or up to a twentieth over it, which the shop's habit of nine tenths leaves under the
/// top of any row: a drill, a spot-facer and a milling cutter as a turning tool.
#[test]
fn a_drill_takes_the_step_just_over_its_wish_as_a_turning_tool_does() {
    let start = start_speed(&"GG25".parse().unwrap(), Work::Drill, ToolMaterial::Hss).unwrap().number();
    let mut over = 0;
    for tenths in 50..=120 {
        let diameter = f64::from(tenths) / 10.0;
        let plan = plan(&with(DRILL, "diameter: 8 mm", &format!("diameter: {diameter} mm")), Some(&shop(SHOP)));
        let wish = 0.9 * start * 1000.0 / (PI * diameter);
        let wanted = PLATE.iter().rfind(|step| **step <= 1.05 * wish).copied().unwrap_or(PLATE[0]);
        assert_eq!(value(first(&plan), "drill_spindle_speed"), wanted, "{diameter}: {wish}");
        let checked = first(&plan).answer.checks.iter().find(|check| check.id == "drill-too-fast").unwrap();
        assert_eq!(checked.verdict(), Some(Verdict::Proven), "{diameter}");
        over += usize::from(wanted > wish);
    }
    assert!(over > 3, "{over}");
}

fn texts(plan: &Plan) -> Vec<String> {
    let pages = layout::pages(std::slice::from_ref(plan)).unwrap();
    let marks = pages.iter().flat_map(|page| &page.marks);
    marks.filter_map(|mark| if let Ink::Text(text) = &mark.ink { Some(text.text.clone()) } else { None }).collect()
}

/// Where a dial goes on by what was measured the line says what a division is, or gives divisions at once, whatever unit the dial has.
#[test]
fn nobody_is_left_to_find_out_what_a_division_is() {
    let dials = SHOP.lines().find(|line| line.contains("{axis: top")).unwrap();
    let mut shops = vec![SHOP.to_owned()];
    for (set_over, division) in [("0 deg", "0.001 in"), ("30 deg", "0.001 in"), ("30 deg", "0.02 mm")] {
        let own = dials.replace("set-over: 0 deg", &format!("set-over: {set_over}"));
        let own = own.replace("division: 0.02 mm, per-turn: 2 mm", &format!("division: {division}, per-turn: 2 mm"));
        let across = format!("axis: across, division: {division}, per-turn: 4 mm, reads: radius");
        let own = own.replace("axis: across, division: 0.02 mm, per-turn: 4 mm, reads: diameter", &across);
        let own = if division.ends_with("in") { own.replace("per-turn: 2 mm", "per-turn: 0.1 in") } else { own };
        let own = if division.ends_with("in") { own.replace("per-turn: 4 mm", "per-turn: 0.1 in") } else { own };
        shops.push(SHOP.replace(dials, &own));
    }
    let mut seen = 0;
    for text in shops.iter().flat_map(|own| [own.clone(), own.replace("units: metric", "units: imperial")]) {
        for name in ["face", "turn", "bore-hole", "skim", "mill-face"] {
            let job = std::fs::read_to_string(format!("examples/{name}.yaml")).unwrap();
            let plan = plan(&job, Some(&shop(&text)));
            let all = texts(&plan);
            for (at, line) in all.iter().enumerate().filter(|(_, line)| line.starts_with("whole div")) {
                let near = &all[at.saturating_sub(4)..(at + 2).min(all.len())];
                let said = near.iter().any(|text| {
                    text.contains("mm ÷ ") || text.contains("in ÷ ") || text.contains(" × ") && !text.contains("mm")
                });
                assert!(said, "{name}: {line}: {near:?}");
                seen += 1;
            }
        }
    }
    assert!(seen > 12, "{seen}");
}

/// No gauge is named at a hold point for a size that it does not open to, an indicator no more than a micrometer.
#[test]
fn an_indicator_is_named_for_what_it_reads() {
    let face = include_str!("../examples/face.yaml");
    let solid = with(&with(face, "          inside: 32 mm\n", ""), ", stop: step", "");
    let own = shop(SHOP);
    let reach = own.instruments.iter().find(|one| one.name.value == "lever indicator").unwrap().to.value;
    let reach = setover::quantity::Quantity::number(reach);
    let mut seen = [0, 0];
    for wear in ["0.10", "0.20", "0.25", "0.30", "0.35", "0.45", "0.60"] {
        let plan = plan(&with(&solid, "wear: 0.25", &format!("wear: {wear}")), Some(&own));
        let it = first(&plan);
        for hold in
            it.answer.set_ups.iter().flat_map(|set_up| &set_up.steps).filter_map(|step| step.hold_point.as_ref())
        {
            if hold.measures != "removed" {
                continue;
            }
            // Of what must not be cut it is only asked how much at the least would prove it.
            let Some(most) = hold.limits.numbers().1 else { continue };
            let named = hold.gauge == "lever indicator";
            assert!(!named || most <= reach, "{wear}: {most} by {}", hold.gauge);
            let check = it.answer.checks.iter().find(|check| check.id == "measured-between").unwrap();
            assert!(named || check.verdict() == Some(Verdict::Doubtful), "{wear}");
            seen[usize::from(named)] += 1;
        }
        assert!(!texts(&plan).iter().any(|text| text.contains("the an ")), "{wear}");
    }
    assert!(seen[0] > 0 && seen[1] > 0, "{seen:?}");
}

/// Only a chuck that has a scroll is cleaned there.
#[test]
fn four_jaws_are_tightened_one_by_one() {
    let turn = include_str!("../examples/turn.yaml");
    for (held_in, scroll) in [("jaws", true), ("soft-jaws", true), ("four-jaw", false)] {
        let from = turn.lines().find_map(|line| line.split_once("in: ")?.1.split([',', '}']).next()).unwrap();
        let plan = plan(&turn.replace(&format!("in: {from}"), &format!("in: {held_in}")), Some(&shop(SHOP)));
        let said = first(&plan).answer.set_ups[0].hold.iter().any(|line| line.words.contains("Scroll"));
        assert_eq!(said, scroll, "{held_in}");
    }
}

/// Of lengths that are all doubtful none is chosen that must be bought while one lies in the drawer that has no more doubts.
#[test]
fn no_length_is_bought_while_one_as_good_lies_in_the_drawer() {
    let mut seen = 0;
    let mut jobs: Vec<(String, Plan)> = Vec::new();
    for (path, text) in committed_jobs() {
        jobs.extend(try_plan(&text, Some(&shop(SHOP))).ok().map(|plan| (path, plan)));
    }
    for drawer in ["1D", "1.5D", "2D", "2.5D", "3D"] {
        for wall in ["14 ± 0.9", "16 ± 0.9", "18.0 ± 0.3", "24 ± 2", "31 ± 3"] {
            let own = with(
                SHOP,
                "{thread: M8x1.25, length: 1D, count: 6}",
                &format!("{{thread: M8x1.25, length: {drawer}, count: 6}}"),
            );
            let own = with(&own, ", {thread: M8x1.25, length: 1.5D, count: 4}", "");
            let job = with(INSERT, "18.0 ± 0.3", wall);
            jobs.push((format!("{drawer} {wall}"), plan(&job, Some(&shop(&own)))));
        }
    }
    for (path, plan) in &jobs {
        for planned in plan.operations.iter().filter(|planned| planned.word == "thread-insert") {
            let Some(chosen) = planned.answer.alternatives.iter().find(|row| row.chosen) else { continue };
            if planned.verdict != Verdict::Doubtful || chosen.answer.verdict() != Verdict::Doubtful {
                continue;
            }
            let typed = planned.answer.choices.iter().any(|choice| choice.why.contains("asked for"));
            let doubts = |answer: &setover::operations::Answer<String>| {
                answer.checks.iter().filter(|check| check.stamps() == Some(Verdict::Doubtful)).count()
            };
            let bought = planned.answer.lacks.contains(&"insert");
            if typed || !bought {
                continue;
            }
            seen += 1;
            for row in planned.answer.alternatives.iter().filter(|row| row.answer.verdict() == Verdict::Doubtful) {
                assert!(doubts(&row.answer) >= doubts(&chosen.answer), "{path}: {} for {}", row.name, chosen.name);
            }
        }
    }
    assert!(seen > 0, "{seen}");
}

fn run(words: &[&str]) -> String {
    let output = std::process::Command::new(env!("CARGO_BIN_EXE_setover")).args(words).output().unwrap();
    String::from_utf8_lossy(&output.stdout).into_owned() + &String::from_utf8_lossy(&output.stderr)
}

/// Who reads the sheet as text can hold: every limit of a hold point stands there too.
#[test]
fn the_limits_of_a_hold_point_stand_in_the_text_as_on_paper() {
    let mut seen = 0;
    for name in ["face", "skim", "turn", "fit-up", "polish-seal", "part-off", "press-in", "shim", "bore", "tap"] {
        let path = format!("examples/{name}.yaml");
        let text = run(&["sheets", &path, "--format", "text", "-o", "-"]);
        let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
        let plan = plan(&std::fs::read_to_string(&path).unwrap(), Some(&shop(SHOP)));
        let steps = first(&plan).answer.set_ups.iter().flat_map(|set_up| &set_up.steps);
        for hold in steps.filter_map(|step| step.hold_point.as_ref()) {
            for end in [&hold.limits.least, &hold.limits.most].into_iter().flatten() {
                let figure = end.said(None, Print::Metric);
                let number = figure.split(' ').next().unwrap();
                assert!(text.contains(number), "{name}: {figure} of {}", hold.measures);
                seen += 1;
            }
        }
    }
    assert!(seen > 20, "{seen}");
}

/// A feed of a turn stands where a machine sets one; a quill without feeds and a table are fed by what the words say.
#[test]
fn no_feed_is_set_on_a_machine_that_has_none() {
    let mut seen = 0;
    for (path, text) in committed_jobs() {
        let Ok(plan) = try_plan(&text, Some(&shop(SHOP))) else { continue };
        for set_up in plan.operations.iter().flat_map(|planned| &planned.answer.set_ups) {
            if set_up.station != Station::Drilling {
                continue;
            }
            for cut in set_up.cuts().filter(|cut| cut.spindle.is_some()) {
                seen += 1;
                assert_eq!(cut.feed, None, "{path} {}: the mill of this shop has no feeds", set_up.id);
            }
        }
    }
    assert!(seen > 10, "{seen}");
}

/// A drawer is searched by what stands on a shim, not by what a micrometer once read of it.
#[test]
fn shims_are_called_as_they_are_marked() {
    let own = with(SHOP, "{thickness: 0.27 mm, count: 1}", "{thickness: 0.281 mm, marked: 0.27 mm, count: 1}");
    let plan = plan(include_str!("../examples/shim.yaml"), Some(&shop(&own)));
    let mut steps = first(&plan).answer.set_ups.iter().flat_map(|set_up| &set_up.steps);
    let lay = steps.find(|step| step.id == "lay-the-pack").unwrap();
    let taken = first(&plan).answer.choices.iter().find(|choice| choice.name == "pack").unwrap();
    let holds = taken.chosen.contains("0.281");
    assert_eq!(lay.words.contains("0.270") && lay.words.contains("as marked"), holds, "{} {}", lay.words, taken.chosen);
    let only = with(&own, "{thickness: 0.10 mm, count: 4}, ", "");
    let plan = crate::common::plan(include_str!("../examples/shim.yaml"), Some(&shop(&only)));
    let mut steps = first(&plan).answer.set_ups.iter().flat_map(|set_up| &set_up.steps);
    let lay = steps.find(|step| step.id == "lay-the-pack").unwrap();
    assert!(lay.words.contains("0.270") && lay.words.contains("they measure"), "{}", lay.words);
}

/// What a proof is limited to is no reason why something is doubtful.
#[test]
fn a_doubtful_stamp_says_of_what() {
    let job = with(INSERT, "18.0 ± 0.3", "18 ± 2");
    for (wall, text) in [("18.0 ± 0.3", INSERT), ("18 ± 2", &job)] {
        let text = text.lines().filter(|line| !line.trim_start().starts_with("bolt:")).collect::<Vec<_>>().join("\n");
        let plan = plan(&text, Some(&shop(SHOP)));
        let pages = layout::pages(std::slice::from_ref(&plan)).unwrap();
        for page in &pages {
            let of =
                |role: &str| crate::common::laws::texts(page, role).iter().map(|t| t.text.clone()).collect::<Vec<_>>();
            let stamp = of("stamp").join(" ");
            if stamp.contains("DOUBTFUL") {
                assert!(!stamp.contains("strength not asked"), "{wall}: {stamp}");
            }
        }
    }
}

/// A dial, a motor or a bed of nothing is a slip of the shop file, told by its line.
#[test]
fn a_machine_of_nothing_is_refused() {
    for (from, to, key) in [
        ("per-turn: 2 mm, set-over", "per-turn: 0 mm, set-over", "per-turn"),
        ("power: 0.75 kW", "power: 0 kW", "power"),
        ("swing: 230 mm", "swing: 0 mm", "swing"),
        ("most-depth: 1.0 mm", "most-depth: 0 mm", "most-depth"),
    ] {
        let text = with(SHOP, from, to);
        let own: setover::shop::Shop =
            setover::reading::Node::yaml(&text, setover::proof::Place::start(1)).unwrap().read().unwrap();
        let all = own.problems();
        let line = text.lines().position(|line| line.contains(to)).unwrap() as u32 + 1;
        let told = |problem: &setover::reading::Problem| {
            problem.says.contains(key) && problem.place.is_some_and(|place| place.line == line)
        };
        assert!(all.iter().any(told), "{key}: {all:?}");
    }
}

/// Lapping makes nothing but fines.
#[test]
fn magnesium_is_lapped_with_care_for_its_fines() {
    let job = include_str!("../examples/lap.yaml");
    let metal = job.lines().find_map(|line| line.trim().strip_prefix("material: ")).unwrap();
    for (of, warned) in [("AZ91", true), (metal, false)] {
        let plan = plan(&job.replace(&format!("material: {metal}"), &format!("material: {of}")), Some(&shop(SHOP)));
        let all = first(&plan).answer.set_ups.iter().flat_map(|set_up| &set_up.cautions);
        let said = all.into_iter().any(|caution| caution.contains("Magnesium fines"));
        assert_eq!(said, warned, "{of}");
    }
}

/// Where nobody named a dial the last cut is reckoned all the same, and its spring pass is that again.
#[test]
fn a_cut_that_a_reading_ends_is_reckoned_without_a_dial() {
    let plan = plan(include_str!("jobs/chain-after-a-cut.yaml"), None);
    let all = texts(&plan);
    let at = all.iter().position(|text| text == "last:").expect("the last cut by its reading");
    assert!(all[at + 1].contains("measured"), "{:?}", &all[at..at + 4]);
    assert!(!all[at..].iter().any(|text| text.starts_with("whole div")), "no dial, no divisions");
    assert!(all[at..].iter().any(|text| text == "dial untouched"), "{:?}", &all[at..]);
}

/// A sheet that must not be cut gives no size to cut to, not even where its sketch had no room for it.
#[test]
fn what_must_not_be_cut_names_no_target_beside_its_sketch() {
    let mut seen = 0;
    for (path, text) in committed_jobs() {
        for own in [Some(shop(SHOP)), None] {
            let Ok(plan) = try_plan(&text, own.as_ref()) else { continue };
            if plan.operations.iter().any(|planned| planned.verdict != Verdict::Fails) {
                continue;
            }
            let all = texts(&plan).join(" ");
            assert!(!all.contains("No room in the sketch"), "{path}");
            // Nor what to get for it, nor the limit of a check that holds: either is what was aimed at.
            assert!(!all.contains("Get these first") && !all.contains("closest:"), "{path}");
            seen += 1;
        }
    }
    assert!(seen > 2, "{seen}");
}

/// No page of a committed job is one that had to be printed line by line, on either paper and in any units.
#[test]
fn every_committed_sheet_is_laid_out_as_a_sheet() {
    let mut pages = 0;
    for ((path, text), at) in committed_jobs().into_iter().zip(0..) {
        let (units, paper) = if at % 2 == 0 { ("metric", "A4") } else { ("both", "Letter") };
        let own =
            SHOP.replace("units: metric", &format!("units: {units}")).replace("paper: A4", &format!("paper: {paper}"));
        let Ok(plan) = try_plan(&text, Some(&shop(&own))) else { continue };
        for line in texts(&plan) {
            assert!(!line.contains("could not be laid out as usual"), "{path}, {units}, {paper}: {line}");
            pages += 1;
        }
    }
    assert!(pages > 1000, "{pages}");
}

/// Parts that have nothing to do with each other are worked one after the other: four times as many take four times as long, not sixteen
/// times.
#[test]
fn many_parts_take_as_long_as_they_are_many() {
    let face = include_str!("../examples/face.yaml");
    let operations = face.split_once("    operations:\n").unwrap().1;
    let head =
        "    material: case-hardened steel\n    hardness: 60 HRC\n    case-depth: 1.0 ± 0.1 mm\n    operations:\n";
    let shop = shop(SHOP);
    let took = |count: usize| {
        let parts: String = (0..count).map(|at| format!("  - part: piece {at}\n{head}{operations}")).collect();
        let job = format!("job: Many\nparts:\n{parts}");
        let from = std::time::Instant::now();
        assert_eq!(plan(&job, Some(&shop)).operations.len(), count);
        from.elapsed().as_secs_f64()
    };
    // Other work may take the machine away in between: the least of several counts.
    let (mut few, mut many) = (f64::INFINITY, f64::INFINITY);
    for _ in 0..12 {
        (few, many) = (few.min(took(40)), many.min(took(160)));
        if many < 9.0 * few {
            return;
        }
    }
    panic!("{few} s, {many} s");
}

/// A short drill does not reach through a thick wall, and a small insert tap breaks in hard steel: the hole for an insert is a hole, and
/// its thread is a thread.
#[test]
fn the_tools_of_an_insert_are_asked_what_those_of_a_hole_are() {
    const INSERT: &str = include_str!("../examples/thread-insert.yaml");
    let of = |job: &str, id: &str| state(first(&in_shop(job)), id);
    let proven = Outcome::Made(Verdict::Proven);
    assert_eq!((of(INSERT, "drill-reaches"), of(INSERT, "tap-stands-it")), (proven, proven));
    let deep = |wall: &str| {
        let through = with(INSERT, "hole: blind", "hole: through\n          beyond: clear");
        of(&with(&through, "wall: 18.0 ± 0.3 mm", &format!("wall: {wall} ± 0.3 mm")), "drill-reaches")
    };
    assert_eq!(deep("18.0"), proven);
    for wall in ["60.0", "90.0", "200.0"] {
        assert_ne!(deep(wall), proven, "through {wall} mm");
    }
    let hard = with(INSERT, "material: cast aluminium", "material: 4140\n    hardness: 30 HRC");
    let small = with(&with(&hard, "M8x1.25", "M3x0.5"), "present-hole: 8.0 mm", "present-hole: 3.0 mm");
    assert_eq!(of(&small, "tap-stands-it"), Outcome::Made(Verdict::Doubtful));
}

/// Nothing that wins metal under the new hole is proven while nobody knows how deep the old one goes.
#[test]
fn no_remedy_is_proven_under_an_old_hole_of_unknown_depth() {
    const INSERT: &str = include_str!("../examples/thread-insert.yaml");
    let thin = with(INSERT, "wall: 18.0 ± 0.3 mm", "wall: 15.0 ± 0.3 mm");
    let line = thin.lines().find(|line| line.contains("present-depth:")).unwrap().to_owned();
    let proven = |job: &str| {
        let plan = in_shop(job);
        let check = first(&plan).answer.checks.iter().find(|check| check.id == "break-through").unwrap().clone();
        check.remedies.iter().filter(|remedy| remedy.gives == Some(Verdict::Proven)).count()
    };
    assert!(proven(&thin) > 0);
    assert_eq!(proven(&thin.replace(&format!("{line}\n"), "")), 0);
}

/// Plugs tell no finer than what they were measured with; without a micrometer they tell nothing.
#[test]
fn plugs_are_as_good_as_what_reads_them() {
    const REAM: &str = include_str!("../examples/ream-bush.yaml");
    let text = include_str!("../examples/shop.yaml");
    let bare: String = text
        .lines()
        .filter(|line| !line.contains("kind: outside micrometer"))
        .map(|line| format!("{line}\n"))
        .collect();
    assert_ne!(text, bare);
    let clearance = REAM.lines().find(|line| line.trim_start().starts_with("clearance:")).unwrap();
    let gauge = REAM.lines().find(|line| line.trim_start().starts_with("gauge:")).unwrap();
    let bare_job = REAM.replace(&format!("{gauge}\n"), "");
    let of = |clear: &str, shop_text: &str, more: &str| {
        let job = with(&bare_job, clearance, &format!("          clearance: {clear}{more}"));
        state(first(&plan(&job, Some(&shop(shop_text)))), "plugs-are-read")
    };
    let plugs = "\n          gauge: plugs";
    assert_eq!(of("0.025 .. 0.063 mm", text, plugs), Outcome::Made(Verdict::Proven));
    assert_eq!(of("0.025 .. 0.043 mm", text, plugs), Outcome::Made(Verdict::Doubtful));
    assert_eq!(of("0.025 .. 0.063 mm", &bare, plugs), Outcome::Made(Verdict::Doubtful));
    assert_eq!(of("0.025 .. 0.063 mm", text, ""), Outcome::DoesNotApply);
}

/// No water comes near magnesium, whatever else is cut in it.
#[test]
fn nothing_wet_runs_over_magnesium() {
    const REAM: &str = include_str!("../examples/ream-bush.yaml");
    let wet = |metal: &str| {
        let job = with(REAM, "material: cast aluminium", &format!("material: {metal}"));
        let plan = in_shop(&job);
        let steps = first(&plan).answer.set_ups.iter().flat_map(|set_up| &set_up.steps);
        steps.map(|step| step.words.clone()).any(|text| text.contains("soluble oil"))
    };
    assert!(wet("cast aluminium"), "the bush's own fluid");
    assert!(!wet("AZ91"));
}

/// A ladder counts from zero and the last cut goes on by what was measured: its line says so, and from where; the passes are counted
/// on, and none but the last is the finish. The same on either paper.
#[test]
fn the_last_cut_goes_on_from_where_the_ladder_left_the_dial() {
    let job = with(include_str!("../examples/turn.yaml"), "24.6", "30.00");
    let mut said = Vec::new();
    for paper in ["A4", "Letter"] {
        let plan = plan(&job, Some(&shop(&SHOP.replace("paper: A4", &format!("paper: {paper}")))));
        let set_up = &first(&plan).answer.set_ups[0];
        let cuts: Vec<_> = set_up.steps.iter().filter_map(|step| step.cut.as_ref()).collect();
        let [before, last] = cuts.as_slice() else { panic!("{} cuts", cuts.len()) };
        assert!(before.passes.len() > 1 && before.passes.iter().all(|pass| pass.kind != PassKind::Finish));
        let Some(Dialled::Slide(stands)) = before.passes.last().and_then(|pass| pass.dial.as_ref()) else { panic!() };
        let all = texts(&plan);
        let at = all.iter().position(|text| *text == format!("{} last:", before.passes.len() + 1)).expect("counted on");
        let line = &all[at..(at + 8).min(all.len())];
        assert!(line.iter().any(|text| text.ends_with("= ON by")), "{line:?}");
        let from = match stands.turns {
            0 => format!("from {} to", stands.divisions),
            turns => format!("from {turns} turn{} {} to", if turns == 1 { "" } else { "s" }, stands.divisions),
        };
        assert!(line.contains(&from), "{from}: {line:?}");
        let spring = format!("{} spring", before.passes.len() + last.passes.len());
        assert!(all.contains(&spring), "{spring}");
        assert!(all.iter().any(|text| text == "DIAL, from zero"));
        said.push(all.into_iter().filter(|text| text.starts_with("Dial on")).collect::<Vec<_>>());
    }
    assert!(!said[0].is_empty() && said[0] == said[1], "{said:?}");
}
