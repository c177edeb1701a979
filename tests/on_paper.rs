//! What a sheet shows of what was asked and typed: a blank for each reading, the stop that is set in its cell, sizes as they were
//! written, sketches that lie as the work lies, scales of drawing standards, nothing cut off on the cover.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common;
use common::laws::{PRINTED, of_sheet, texts};
use setover::drawing::{Balloon, Item, Point, Sketch};
use setover::operations::SetUp;
use setover::plan::Plan;
use setover::proof::{Dialled, Verdict};
use setover::quantity::Print;
use setover::sheet::layout::{self, Extras, Working};
use setover::sheet::page::{Fill, Ink, Page};
use setover::shop::{Paper, Shop};

const DEMO: (&str, &str) = (include_str!("../demo/tidewater.yaml"), include_str!("../demo/shop.yaml"));
const EXAMPLE_SHOP: &str = include_str!("../examples/shop.yaml");

fn pages(plan: &Plan) -> Vec<Page> {
    layout::pages(std::slice::from_ref(plan)).expect("pages")
}

fn printed((job, shop): (&str, &str), (paper, units): (Paper, Print)) -> Plan {
    common::plan(job, Some(&Shop { paper, units, ..common::shop(shop) }))
}

fn example(name: &str) -> String {
    let all = common::committed_jobs();
    all.into_iter().find(|(path, _)| path.ends_with(&format!("examples/{name}.yaml"))).expect("an example").1
}

fn frames(page: &Page, area: &str) -> usize {
    let of = |mark: &&setover::sheet::page::Mark| {
        let here = page.area_of(mark.area).is_some_and(|one| one.name == area);
        here && matches!(mark.ink, Ink::Polygon { fill: Fill::None, .. })
    };
    page.marks.iter().filter(of).count()
}

fn said(page: &Page, area: &str) -> String {
    texts(page, area).iter().map(|text| text.text.as_str()).collect::<Vec<_>>().join(" ")
}

/// The set-ups of a plan that are not stopped, with their numbers.
fn set_ups(plan: &Plan) -> Vec<(String, &SetUp<String>)> {
    let of = plan.operations.iter().zip(1..).filter(|(planned, _)| planned.verdict != Verdict::Fails);
    let all = of.flat_map(|(planned, operation)| {
        let numbered = planned.answer.set_ups.iter().zip(1..);
        numbered.map(move |(set_up, number)| (format!("{operation}.{number}"), set_up))
    });
    all.collect()
}

/// On the demo's sheets in one unit every reading that is asked has its blank, on either paper.
#[test]
fn each_reading_has_its_blank() {
    let mut several = 0;
    for on in [PRINTED[0], (Paper::Letter, Print::Metric)] {
        let plan = printed(DEMO, on);
        let laid = pages(&plan);
        for (id, set_up) in set_ups(&plan) {
            let asked: usize = set_up.blanks.iter().map(|blank| blank.readings.max(1)).sum();
            let blanks = frames(of_sheet(&laid, &id)[0], "measure");
            assert!(
                set_up.blanks.is_empty() || blanks == asked,
                "{id} on {on:?}: {blanks} blanks for {asked} readings"
            );
            several += usize::from(set_up.blanks.iter().any(|blank| blank.readings > 1));
        }
    }
    assert!(several > 8, "{several}");
}

/// Where hold points ask several readings, each has its blank there: among cuts too, where the row below reckons with it.
#[test]
fn a_hold_point_has_a_blank_for_each_place() {
    let plan = printed(DEMO, PRINTED[0]);
    let laid = pages(&plan);
    let mut seen = 0;
    for (id, set_up) in set_ups(&plan) {
        let holds = set_up.steps.iter().filter_map(|step| step.hold_point.as_ref()).map(|hold| hold.readings);
        let several: usize = holds.filter(|readings| *readings > 1).sum();
        if several > 0 {
            let page = of_sheet(&laid, &id)[0];
            let in_a_frame = |mark: &&setover::sheet::page::Mark| {
                let is_open = matches!(mark.ink, Ink::Polygon { fill: Fill::None, .. });
                is_open && (mark.bounds.height() - 8.0).abs() < 0.5 && (mark.bounds.width() - 12.0).abs() < 1.0
            };
            let here = |mark: &&setover::sheet::page::Mark| {
                page.area_of(mark.area).is_some_and(|area| area.name == "cuts") && in_a_frame(mark)
            };
            assert_eq!(page.marks.iter().filter(here).count(), several, "{id}");
            seen += usize::from(set_up.cuts().next().is_some());
        }
    }
    assert!(seen > 2);
}

/// Where a reading as it is expected may lie outside what goes on, that is said of a size; how warm a housing gets is waited for.
#[test]
fn a_size_that_may_lie_outside_is_told_and_no_warmth_is() {
    let plan = printed(DEMO, PRINTED[0]);
    let laid = pages(&plan);
    let told = |id: &str| said(of_sheet(&laid, id)[0], "cuts").contains("Readings may lie outside.");
    assert!(told("5.4") && !told("5.2"));
}

/// In both units too, where the frame has the room beside the picture under the steps: of a bore that was closed in each place is read.
#[test]
fn a_hold_point_above_a_picture_has_a_blank_for_each_place_in_both_units() {
    let plan = printed(DEMO, (Paper::A4, Print::Both));
    let laid = pages(&plan);
    let page = of_sheet(&laid, "5.4")[0];
    assert!(said(page, "cuts").contains("mark measured bore"), "{}", said(page, "cuts"));
    let is_narrow = |mark: &&setover::sheet::page::Mark| {
        let here = page.area_of(mark.area).is_some_and(|area| area.name == "cuts");
        let is_open = matches!(mark.ink, Ink::Polygon { fill: Fill::None, .. });
        here && is_open && (mark.bounds.height() - 8.0).abs() < 0.5 && (mark.bounds.width() - 12.0).abs() < 1.0
    };
    assert_eq!(page.marks.iter().filter(is_narrow).count(), 4);
}

/// An adjustable reamer has no dial: what it is set to is said over the sizes of its passes.
#[test]
fn what_has_no_dial_is_set_to_a_size() {
    let plan = printed(DEMO, PRINTED[0]);
    let laid = pages(&plan);
    let cuts = said(of_sheet(&laid, "5.6")[0], "cuts");
    assert!(cuts.contains("SET TO, mm") && !cuts.contains("DIAL"), "{cuts}");
}

/// The picture of a pack calls its shims as the step does, by what stands on them, in whatever unit sizes are printed.
#[test]
fn a_pack_has_one_name_on_its_sheet() {
    for on in [(Paper::A4, Print::Imperial), (Paper::Letter, Print::Both), (Paper::A4, Print::Metric)] {
        let plan = printed((&example("shim"), EXAMPLE_SHOP), on);
        let laid = pages(&plan);
        for area in ["sketch", "cuts"] {
            let said = said(&laid[0], area);
            assert!(said.contains("0.100 + 0.100 + 0.500 mm"), "{on:?}, {area}: {said}");
        }
    }
}

/// What the hand watches as a bush is pressed out is the force at which it stops: it is the large one, and stands at the arrow.
#[test]
fn the_force_at_which_the_hand_stops_is_the_large_one() {
    for (on, stop, asked) in
        [((Paper::A4, Print::Metric), "9100", "6070"), ((Paper::Letter, Print::Imperial), "2050", "1370")]
    {
        let plan = printed((&example("press-out"), EXAMPLE_SHOP), on);
        let laid = pages(&plan);
        let large: Vec<&str> = texts(&laid[0], "measure")
            .iter()
            .filter(|text| text.role == setover::sheet::page::Role::Figure)
            .map(|text| text.text.as_str())
            .collect();
        assert_eq!(large, [stop]);
        let (sketch, measure) = (said(&laid[0], "sketch"), said(&laid[0], "measure"));
        assert!(sketch.contains(stop) && !sketch.contains(asked), "{sketch}");
        assert!(measure.contains(&format!("expected {asked}")), "{measure}");
        assert!(said(&laid[0], "cuts").contains(&format!("Over {stop}")));
    }
}

/// What should make a face flat and what may go at the most are two figures, and the sheet says which is which.
#[test]
fn what_makes_a_face_flat_is_told_apart_from_what_may_go() {
    let plan = printed((&example("lap"), EXAMPLE_SHOP), PRINTED[0]);
    let laid = pages(&plan);
    let cuts = said(of_sheet(&laid, "1.2")[0], "cuts");
    assert!(
        cuts.contains("With 0.043 mm off in all it should be flat; never take off more than this: at most 0.094 mm"),
        "{cuts}"
    );
}

/// Words that lead to the housing lead there through no bush, on either paper in each unit of print.
#[test]
fn no_leader_goes_through_another_body() {
    for (paper, units) in [Paper::A4, Paper::Letter].into_iter().flat_map(|p| [(p, Print::Metric), (p, Print::Both)]) {
        let plan = printed(DEMO, (paper, units));
        let laid = pages(&plan);
        let page = of_sheet(&laid, "5.2")[0];
        let longest =
            page.marks.iter().filter(|mark| page.area_of(mark.area).is_some_and(|area| area.name == "sketch"));
        let slanting = longest.filter_map(|mark| match &mark.ink {
            Ink::Line { points, .. } if points.len() <= 3 => {
                let far = (points[0] - points[1]).norm();
                let (wide, high) = ((points[0].x - points[1].x).abs(), (points[0].y - points[1].y).abs());
                (wide > 0.5 && high > 0.5 && wide > 2.0 * high).then_some(far)
            }
            _ => None,
        });
        let longest = slanting.fold(0.0, f64::max);
        assert!(longest < 25.0, "{paper:?} {units:?}: {longest:.0} mm");
    }
}

/// Findings stand with what to do about them where cautions, the sketch or a line to write on can leave them the room.
#[test]
fn a_finding_stands_whole_where_the_page_can_hold_it() {
    let plan = printed(DEMO, PRINTED[0]);
    let laid = pages(&plan);
    let verdict = said(of_sheet(&laid, "6.2")[0], "verdict");
    assert!(verdict.contains("some of the bush wall stays elastic") && !verdict.contains("more, W6"), "{verdict}");
    let shop = common::with(EXAMPLE_SHOP, ", {axis: along, division: 0.1 mm, per-turn: 20 mm}", "");
    for on in [PRINTED[0], (Paper::A4, Print::Both)] {
        let plan = printed((&example("turn"), &shop), on);
        let laid = pages(&plan);
        let verdict = said(of_sheet(&laid, "1.1")[0], "verdict");
        assert!(verdict.contains("no dial of the carriage is known"), "{on:?}: {verdict}");
        assert_eq!(laid.len(), 1);
    }
}

/// The stop of an oil hole stands in the cell that the hand looks at, and in the words as the same figure.
#[test]
fn the_stop_of_an_oil_hole_stands_in_its_cell() {
    let plan = printed(DEMO, PRINTED[0]);
    let laid = pages(&plan);
    let mut seen = 0;
    for (id, set_up) in set_ups(&plan).into_iter().filter(|(_, set_up)| set_up.id == "drill-oil-holes") {
        let cuts = said(of_sheet(&laid, &id)[0], "cuts");
        for cut in set_up.cuts() {
            let Some(Dialled::Stop(stop)) = &cut.passes[0].dial else { panic!("{id}: no stop in {cuts}") };
            let figure = format!("{:.2}", stop.travel_mm);
            let words = set_up.steps.iter().find(|step| step.id == "zero-of-the-oil-hole").unwrap();
            assert!(words.words.contains(&figure), "{}", words.words);
            assert_eq!(cuts.matches(&figure).count(), 2, "{id}: in the words and in the cell: {cuts}");
            seen += 1;
        }
    }
    assert!(seen > 1, "{seen}");
}

/// A stop that is sure to a few hundredths of a millimetre is not told to a ten-thousandth of an inch, and never deeper than it was
/// worked.
#[test]
fn a_stop_is_no_finer_than_it_is_set() {
    let plan = printed((&example("drill"), EXAMPLE_SHOP), (Paper::Letter, Print::Imperial));
    let stops = common::first(&plan).answer.set_ups[0].cuts().filter_map(|cut| match &cut.passes[0].dial {
        Some(Dialled::Stop(stop)) => Some(stop.travel_mm / 25.4),
        _ => None,
    });
    let cuts = said(&pages(&plan)[0], "cuts");
    for stop in stops {
        let down = (stop * 1000.0 + 1e-6).floor() / 1000.0;
        assert!(cuts.contains(&format!("{down:.3} in")), "{down:.3} in {cuts}");
        assert!(!cuts.contains(&format!("{stop:.4}")), "{stop:.4} in {cuts}");
    }
}

#[test]
fn sizes_stand_as_they_were_written() {
    let on = (Paper::Letter, Print::Imperial);
    let turned = pages(&printed((&example("turn"), EXAMPLE_SHOP), on));
    let held = said(&turned[0], "beside");
    assert!(held.contains("Grip 1.575 in") && held.contains("0.969 in"), "no finer than a hand sees: {held}");
    let parted = printed((&example("part-off"), EXAMPLE_SHOP), on);
    let cuts = said(&pages(&parted)[0], "cuts");
    let limits = cuts.split_once("looked at twice.").unwrap_or_else(|| panic!("{cuts}")).1;
    let limits = limits.split('5').next().unwrap();
    assert!(!limits.contains("mm"), "what is made is measured in the unit of its target: {cuts}");
    let parted = pages(&printed((&example("part-off"), EXAMPLE_SHOP), PRINTED[0]));
    assert!(!said(&parted[0], "sketch").contains("2.000"), "the blade is 2: {}", said(&parted[0], "sketch"));
    let seat = pages(&printed((&example("spot-face"), EXAMPLE_SHOP), PRINTED[0]));
    assert!(!said(&seat[0], "measure").contains("18.000"), "{}", said(&seat[0], "measure"));
    let turned = pages(&printed((&example("turn"), EXAMPLE_SHOP), PRINTED[0]));
    let target = said(&turned[0], "measure");
    assert!(target.contains("3.2 µm") && !target.contains("3.20"), "{target}");
}

/// A collar whose case is cut nearly through: the layer that is left is drawn and dimensioned, and the case that would do is named.
#[test]
fn what_fails_of_a_case_is_dimensioned_and_the_case_that_would_do_is_named() {
    const JOB: &str = "job: Case\nparts:\n  - part: winch collar\n    material: case-hardened steel\n    hardness: 60 HRC\n    case-depth: 0.60 ± 0.05 mm\n    operations:\n      \
        - face: {outside: 52 mm, inside: 32 mm, length: 21.85 ± 0.01 mm, wear: 0.45 ± 0.02 mm, finish: Ra 1.6 um, square-within: 0.02 mm, \
        hold: {in: soft-jaws, diameter: 52 mm, grip: 10 mm, overhang: 12 mm, true-within: 0.01 mm, stop: step}, least-case: 0.5 mm, removed-before: 0 mm}";
    let plan = common::in_shop(JOB);
    let planned = common::first(&plan);
    assert_eq!(planned.verdict, Verdict::Fails);
    let dimensioned = |item: &Item| matches!(item, Item::Dimension { faces: ["case ends", "new face"], shows, .. } if shows.value == "case_left");
    assert!(planned.answer.set_ups[0].sketch.items.iter().any(dimensioned));
    let first = &pages(&plan)[0];
    let sketch = said(first, "sketch");
    assert!(!sketch.contains("case:"), "dimensioned, and no label: {sketch}");
    let ways = said(first, "ways out");
    let case = ways.split_once("how deep the hard case is").unwrap_or_else(|| panic!("{ways}")).1;
    let least = case.split_once("at least ").unwrap_or_else(|| panic!("{ways}")).1;
    let least: f64 = least.split_whitespace().next().unwrap().parse().unwrap();
    // What fails is put right by it, and by a hundredth less it is not.
    let with = |depth: f64| {
        let plan = common::in_shop(&JOB.replace("0.60 ± 0.05", &format!("{depth:.3} ± 0.05")));
        common::verdict(common::first(&plan), "case")
    };
    assert_eq!(with(least), Verdict::Proven, "{least}: {ways}");
    assert_ne!(with(least - 0.011), Verdict::Proven, "{least}: {ways}");
}

/// The sketch of the first set-up of an example.
fn sketch_of(name: &str, set_up: &str) -> Sketch {
    let plan = printed((&example(name), EXAMPLE_SHOP), PRINTED[0]);
    let all = plan.operations.iter().flat_map(|planned| &planned.answer.set_ups);
    all.into_iter().find(|one| one.id == set_up).expect("the set-up").sketch.clone()
}

fn down(item: &Item) -> bool {
    matches!(item, Item::Feed { from, to } if from.x == to.x && to.y > from.y)
}

fn upright(item: &Item) -> bool {
    matches!(item, Item::Line { stroke: setover::drawing::Stroke::Centre, points } if points[0].x == points[1].x)
}

#[test]
fn what_is_bored_under_a_spindle_stands_upright_under_its_tool() {
    let sketch = sketch_of("bore", "bore-the-cylinder");
    assert!(sketch.items.iter().any(upright) && sketch.items.iter().any(down), "{sketch:?}");
    let tool = |item: &Item| matches!(item, Item::Tooling(outline) if outline.iter().all(|p: &Point| p.y < 0.0));
    assert!(sketch.items.iter().any(tool), "the tool stands above the mouth");
    let named = |item: &Item| matches!(item, Item::Balloon { balloon: Balloon::Tool, .. });
    assert!(sketch.items.iter().any(named));
}

#[test]
fn a_track_is_polished_by_what_presses_on_it() {
    let sketch = sketch_of("polish-seal", "polish-it");
    let is = |wanted: fn(&Item) -> bool| sketch.items.iter().any(wanted);
    assert!(is(|item| matches!(item, Item::Tooling(_))) && is(down));
    assert!(is(|item| matches!(item, Item::CutAway(_))) && is(|item| matches!(item, Item::Detail { .. })));
}

#[test]
fn the_free_hole_of_a_support_and_the_limit_of_an_oven_are_shown() {
    let press = sketch_of("press-in", "press-in");
    assert!(press.values().any(|key| key == "support_inside"), "{press:?}");
    let named = |item: &Item| matches!(item, Item::Reads { shows, .. } if shows.value == "press_force" && !shows.before.is_empty());
    assert!(press.items.iter().any(named), "a force has its name");
    let plan = printed((&example("warm"), EXAMPLE_SHOP), PRINTED[0]);
    let sketch = said(&pages(&plan)[0], "sketch");
    assert!(sketch.contains("max"), "the heat that it must stay under: {sketch}");
}

/// Scales are those of drawing standards: one, two or five with tens and hundreds.
#[test]
fn every_scale_is_one_of_drawing_standards() {
    let standard = |scale: &str| {
        let (paper, part) = scale.split_once(':').filter(|(paper, part)| !paper.is_empty() && !part.is_empty())?;
        let is =
            |one: &str| one.trim_end_matches('0').len() == 1 && matches!(one.chars().next(), Some('1' | '2' | '5'));
        (paper.chars().chain(part.chars()).all(|c| c.is_ascii_digit()))
            .then(|| is(paper) && is(part) && (paper == "1" || part == "1"))
    };
    let mut seen = 0;
    for (path, job) in common::committed_jobs().into_iter().filter(|(path, _)| !path.starts_with("tests")) {
        let shop = if path.starts_with("demo") { DEMO.1 } else { EXAMPLE_SHOP };
        for on in [PRINTED[0], PRINTED[1]] {
            for page in pages(&printed((&job, shop), on)) {
                let words = page.marks.iter().filter_map(|mark| match &mark.ink {
                    Ink::Text(text) if !text.text.contains("date") => Some(text.text.as_str()),
                    _ => None,
                });
                for word in words.flat_map(|text| text.split_whitespace()).map(|word| word.trim_end_matches([',', ';']))
                {
                    if let Some(is) = standard(word) {
                        assert!(is, "{path} {on:?}: {word}");
                        seen += 1;
                    }
                    assert!(!word.starts_with('×') || word == "×", "{path}: {word}");
                }
            }
        }
    }
    assert!(seen > 50, "{seen}");
}

/// Part, work and reason stand whole on the cover, on either paper.
#[test]
fn nothing_is_cut_off_on_the_cover() {
    for on in PRINTED {
        let plan = printed(DEMO, on);
        let extras = Extras { working: Working::None, cover: true };
        let laid = layout::pages_with(std::slice::from_ref(&plan), extras).expect("pages");
        let cover = &laid[0];
        let cut: Vec<String> = cover
            .marks
            .iter()
            .filter_map(|mark| match &mark.ink {
                Ink::Text(text) if text.text.ends_with('…') => Some(text.text.clone()),
                _ => None,
            })
            .collect();
        assert_eq!(cut, Vec::<String>::new(), "{on:?}");
    }
}

/// The picture of a fit stands on the sheet where its sizes are measured, on the smaller paper too.
#[test]
fn the_picture_of_a_fit_stands_where_it_is_measured() {
    for on in PRINTED {
        let plan = printed((&example("ream-bush"), EXAMPLE_SHOP), on);
        let laid = pages(&plan);
        for (id, _) in set_ups(&plan).into_iter().filter(|(_, set_up)| set_up.id == "measure-and-dress") {
            let page = of_sheet(&laid, &id)[0];
            let there = ["cuts", "picture"].map(|area| said(page, area)).concat();
            assert!(there.contains("housing bore") && there.contains("tight by"), "{id} {on:?}: {there}");
        }
    }
}
