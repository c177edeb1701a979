//! The pictures that compare: of lengths in one wall the columns are the standard lengths, drawn as deep as they are worked, the
//! chosen one framed; of sizes that fit the bars end at their values.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::{common, seeds};

use common::jobs::random_jobs_keep;
use common::{shop, try_plan};
use proptest::prelude::*;
use setover::drawing::{
    Bar, BarGroup, Bars, Goes, Grip, LinkRow, Links, Pack, Polar, Ruler, Spoke, Spot, Spots, Stretch, Touches, Vector,
    Wear, WearAxis, WearKind, WearLine,
};
use setover::operations::Picture;
use setover::plan::{Plan, Planned};
use setover::quantity::Print;
use setover::sheet::check::faults;
use setover::sheet::draughting::{bars, ladder, links, pack, polar, spots, wear};
use setover::sheet::page::{Fill, Ink, Page, Paper, Point, Rect};
use setover::sheet::{layout, pictures};
use std::collections::BTreeSet;

/// The zone of the sketch on each paper.
const SKETCHES: [(Paper, Rect); 2] =
    [(Paper::A4, Rect::new(12.0, 55.0, 134.0, 125.0)), (Paper::Letter, Rect::new(12.0, 55.0, 138.0, 115.0))];

/// The zone of what is no set-up, less its bar.
const WAYS_OUT: [(Paper, Rect); 2] =
    [(Paper::A4, Rect::new(12.0, 134.0, 198.0, 237.0)), (Paper::Letter, Rect::new(12.0, 124.0, 203.9, 221.0))];

const PRINTS: [Print; 3] = [Print::Metric, Print::Imperial, Print::Both];

const ROOM: Rect = Rect::new(12.0, 50.0, 198.0, 230.0);

/// Every closed shape of a page with its line, mm.
fn shapes(page: &Page) -> Vec<(Vec<Point>, Option<f64>)> {
    let shape = |ink: &Ink| match ink {
        Ink::Polygon { points, stroke, .. } => Some((points.clone(), *stroke)),
        _ => None,
    };
    page.marks.iter().filter_map(|mark| shape(&mark.ink)).collect()
}

fn texts(page: &Page) -> Vec<(String, Rect)> {
    let text = |mark: &setover::sheet::page::Mark| match &mark.ink {
        Ink::Text(text) => Some((text.text.clone(), mark.bounds)),
        _ => None,
    };
    page.marks.iter().filter_map(text).collect()
}

fn lengths(planned: &Planned, page: &mut Page, said: &mut Vec<String>) {
    let answer = &planned.answer;
    let Some(Picture::Lengths(of)) = &answer.picture else { return };
    let Some(drawing) = pictures::ladder(answer, of, Print::Metric) else { return };
    let area = page.area("lengths", ROOM);
    let drawn = match ladder(page, area, ROOM, &drawing) {
        Ok(drawn) => drawn,
        Err(fault) => return said.push(fault.to_string()),
    };
    let all = &answer.alternatives;
    if drawn.columns.len() != all.len() {
        said.push(format!("{} columns for {} lengths", drawn.columns.len(), all.len()));
    }
    for (one, column) in all.iter().zip(&drawn.columns) {
        let inside = |p: &Point| p.x > column.left && p.x < column.right;
        let here: Vec<_> = shapes(page).into_iter().filter(|(points, _)| points.iter().all(inside)).collect();
        if !texts(page)
            .iter()
            .any(|(text, at)| text.starts_with(&one.name) && column.left < at.left && at.right < column.right)
        {
            said.push(format!("{} does not stand over its column", one.name));
        }
        for key in [of.depth, of.tip].iter().filter_map(|key| one.answer.value(key)) {
            let y = drawn.face + key.number * drawn.scale.factor();
            let ends = |points: &[Point]| points.iter().any(|p| (p.y - y).abs() < 0.1 * drawn.scale.factor());
            if !here.iter().any(|(points, _)| ends(points)) {
                said.push(format!("{}: {} is not drawn at {}", one.name, key.key, key.number));
            }
        }
        let framed = here.iter().any(|(points, stroke)| {
            *stroke == Some(0.7) && Rect::about(points).is_some_and(|r| r.width() > column.width() - 1.0)
        });
        if framed != one.chosen {
            said.push(format!("{}: framed {framed}, chosen {}", one.name, one.chosen));
        }
    }
    // The far side is a line over all columns, as far under the face as the wall is thick.
    let far = drawn.face + answer.value(of.wall).unwrap().number * drawn.scale.factor();
    let across = |ink: &Ink| match ink {
        Ink::Line { points, .. } => {
            points.iter().all(|p| (p.y - far).abs() < 1e-6)
                && points.len() == 2
                && (points[0].x - points[1].x).abs() > 20.0
        }
        _ => false,
    };
    if !page.marks.iter().any(|mark| across(&mark.ink)) {
        said.push("the far side is not drawn at the wall's thickness".into());
    }
}

fn fit(planned: &Planned, page: &mut Page, said: &mut Vec<String>) {
    let answer = &planned.answer;
    let Some(Picture::Fit(of)) = &answer.picture else { return };
    let Some(drawing) = pictures::bars(answer, of, Print::Metric, |_| true) else { return };
    let area = page.area("fit", ROOM);
    let drawn = match bars(page, area, ROOM, &drawing) {
        Ok(drawn) => drawn,
        Err(fault) => return said.push(fault.to_string()),
    };
    let words = texts(page);
    let place = |name: &str| words.iter().find(|(text, _)| text == name).map(|(_, at)| *at);
    for group in &drawing.groups {
        // The ruler alone says where a size stands: its nought and its scale, as printed.
        let (nought, label) = &group.ruler.ticks[0];
        let nought_x = words.iter().filter(|(text, _)| text == label).map(|(_, at)| at.centre().x);
        let below = |r: &Rect, name: &str| place(name).is_some_and(|at| at.top < r.bottom && at.bottom > r.top);
        let xs: Vec<f64> = nought_x.collect();
        for bar in &group.bars {
            let ends = [bar.low, bar.high].map(|at| (at - nought) * 1000.0 * drawn.scale);
            let is_drawn = shapes(page).iter().filter_map(|(points, _)| Rect::about(points)).any(|r| {
                below(&r, &bar.name)
                    && xs.iter().any(|x| (r.left - x - ends[0]).abs() < 0.05 && (r.right - x - ends[1]).abs() < 0.05)
            });
            if !is_drawn {
                said.push(format!("{} does not end at its values", bar.name));
            }
        }
    }
    for (group, drawn) in of.groups.iter().zip(&drawing.groups) {
        let values = group.sizes.iter().filter_map(|(_, ends)| match ends {
            setover::operations::Ends::Limits(low, high) => {
                Some((answer.value(low)?.number, answer.value(high)?.number))
            }
            setover::operations::Ends::Doubt(key) => {
                let value = answer.value(key)?;
                let band = value.band.unwrap_or((value.number, value.number));
                Some((band.0 - value.plus_minus, band.1 + value.plus_minus))
            }
        });
        if values.zip(&drawn.bars).any(|((low, high), bar)| (low, high) != (bar.low, bar.high)) {
            said.push("a bar is not its value".into());
        }
    }
}

/// Readings round a circle in the zone of the sketch: each dot as far out as it was read, larger by what is printed; the centre so
/// too; nothing overlaps or leaves the zone.
fn round(drawing: &Polar, paper: Paper, room: Rect) -> Vec<String> {
    let mut page = Page::new(paper);
    let area = page.area("sketch", room);
    let drawn = match polar(&mut page, area, room, drawing) {
        Ok(drawn) => drawn,
        Err(fault) => return vec![fault.to_string()],
    };
    let mut said: Vec<String> = faults(&page).iter().map(ToString::to_string).collect();
    let figure = setover::quantity::figure;
    let printed = match drawn.times {
        smaller if smaller < 1.0 => format!("1:{}", figure(1.0 / smaller)),
        larger => format!("{}:1", figure(larger)),
    };
    if !texts(&page).iter().any(|(text, _)| text.ends_with(&printed)) {
        said.push(format!("it does not say {printed}"));
    }
    let middles: Vec<Point> = page
        .marks
        .iter()
        .filter(|mark| matches!(&mark.ink, Ink::Polygon { stroke: None, .. }))
        .map(|mark| mark.bounds.centre())
        .collect();
    for read in &drawing.reads {
        let (angle, radius) = (read.degrees.to_radians(), drawn.ring + drawn.times * read.over);
        let at = Point::new(drawn.axis.x + radius * angle.sin(), drawn.axis.y - radius * angle.cos());
        if !middles.iter().any(|middle| (middle - at).norm() < 0.05) {
            said.push(format!("the reading at {} is not drawn where it is", read.degrees));
        }
    }
    let centre =
        Point::new(drawn.axis.x + drawn.times * drawing.centre.y, drawn.axis.y - drawn.times * drawing.centre.x);
    let ends = |mark: &setover::sheet::page::Mark| match &mark.ink {
        Ink::Polygon { points, stroke: None, .. } => {
            points.iter().any(|p| (p - centre).norm() < 0.05) || (mark.bounds.centre() - centre).norm() < 0.05
        }
        _ => false,
    };
    if !page.marks.iter().any(ends) {
        said.push("the centre is not drawn where it is".into());
    }
    said
}

/// What breaks a law, each with its operation.
fn broken(plan: &Plan) -> BTreeSet<String> {
    let mut all = BTreeSet::new();
    for planned in &plan.operations {
        let (mut page, mut said) = (Page::new(Paper::A4), Vec::new());
        lengths(planned, &mut page, &mut said);
        fit(planned, &mut page, &mut said);
        said.extend(faults(&page).iter().map(ToString::to_string));
        if let Some(Picture::Polar(of)) = &planned.answer.picture {
            for (print, (paper, room)) in PRINTS.iter().flat_map(|print| SKETCHES.map(|sketch| (*print, sketch))) {
                let drawing = pictures::polar(&planned.answer, of, print).expect("a centre");
                said.extend(round(&drawing, paper, room));
            }
        }
        for print in PRINTS {
            match &planned.answer.picture {
                Some(Picture::Wear(of)) => {
                    said.extend(pictures::wear(&planned.answer, of, print).iter().flat_map(worn))
                }
                Some(Picture::Spots(of)) => said.extend(pictures::spots(of, print).iter().flat_map(face)),
                Some(Picture::Pack(of)) => {
                    said.extend(pictures::pack(&planned.answer, of, print).iter().flat_map(shimmed))
                }
                Some(Picture::Links(of)) => {
                    said.extend(pictures::links(&planned.answer, of, print).iter().flat_map(linked))
                }
                _ => {}
            }
        }
        all.extend(said.into_iter().map(|fault| format!("{}: {fault}", planned.address)));
    }
    all
}

#[test]
fn the_demonstration_and_the_examples_keep_the_laws() {
    let read = |path: &str| std::fs::read_to_string(path).unwrap();
    let own = shop(&read("demo/shop.yaml"));
    let plan = try_plan(&read("demo/tidewater.yaml"), Some(&own)).unwrap();
    let compares = |planned: &&Planned| matches!(planned.answer.picture, Some(Picture::Lengths(_) | Picture::Fit(_)));
    assert_eq!(plan.operations.iter().filter(compares).count(), 6, "four inserts, two bushes");
    let mut all = broken(&plan);
    let own = shop(&read("examples/shop.yaml"));
    for word in ["ream-bush", "thread-insert", "set-true", "lap", "shim", "chain"] {
        let plan = try_plan(&read(&format!("examples/{word}.yaml")), Some(&own)).unwrap();
        assert!(plan.operations.iter().all(|planned| planned.answer.picture.is_some()), "{word} has no picture");
        all.extend(broken(&plan));
    }
    assert!(all.is_empty(), "{all:#?}");
}

#[test]
fn random_jobs_keep_the_laws() {
    random_jobs_keep(60, |plan| broken(plan).into_iter().collect());
}

/// Readings as no shop has them.
fn any_polar() -> impl Strategy<Value = Polar> {
    let size = prop_oneof![Just(0.0), -0.5..0.5_f64, -30.0..30.0_f64, -0.0005..0.0005_f64];
    let reads = prop::collection::vec(size.clone(), 4..=24);
    let jaws = prop::sample::select(vec![0_u8, 3, 4]);
    let says = prop::collection::vec(prop::sample::select(vec!["1. loosen", "29.9999 mm", "key 11 turns 359°"]), 0..=3);
    let moved = prop::option::of(prop::sample::select(vec![Goes::In, Goes::Out]));
    (reads, (size.clone(), size), 0.0..0.5_f64, jaws, prop::collection::vec((says, moved), 4)).prop_map(
        |(reads, (along, across), allowed, jaws, done)| {
            let count = reads.len() as f64;
            let spoke = |(at, over): (usize, f64)| Spoke {
                degrees: at as f64 * 360.0 / count,
                over,
                says: format!("{over:.3} mm"),
            };
            // Three jaws do not move apart: shims go in.
            let grip = |(at, (says, goes)): (usize, (Vec<&str>, Option<Goes>))| Grip {
                degrees: at as f64 * 360.0 / f64::from(jaws),
                number: Some(at as u8 + 1),
                goes: goes.filter(|_| jaws == 4),
                says: match jaws {
                    4 => says.into_iter().map(str::to_owned).collect(),
                    _ => ["shim under it", "0.3000 in"].iter().take(says.len()).map(|&text| text.to_owned()).collect(),
                },
            };
            Polar {
                reads: reads.into_iter().enumerate().map(spoke).collect(),
                centre: Vector::new(along, across),
                allowed,
                grips: done.into_iter().take(usize::from(jaws)).enumerate().map(grip).collect(),
                says: [
                    vec!["centre off 29.9999 ± 0.0001 mm".into(), "towards 359°".into()],
                    vec!["dashed: what is allowed in a turn, 0.0999 in;".into()],
                ],
            }
        },
    )
}

proptest! {
    #![proptest_config(seeds::config(300, "tests/regressions/pictures.txt"))]

    #[test]
    fn readings_round_a_circle_keep_the_laws_whatever_they_are(drawing in any_polar()) {
        for (paper, room) in SKETCHES {
            let said = round(&drawing, paper, room);
            prop_assert!(said.is_empty(), "{said:#?}");
        }
    }
}

/// A job that trues a part: `{keys}` in it.
fn trued(keys: &str, units: &str) -> Plan {
    let own = std::fs::read_to_string("examples/shop.yaml").unwrap().replace("units: metric", units);
    let job = format!(
        "job: trued\nparts:\n  - part: shaft\n    material: mild steel\n    operations:\n      - set-true: {{with: lever indicator, {keys}}}\n"
    );
    try_plan(&job, Some(&shop(&own))).unwrap()
}

fn words_of(plan: &Plan) -> Vec<String> {
    let pages = layout::pages(std::slice::from_ref(plan)).unwrap();
    pages.iter().flat_map(texts).map(|(text, _)| text).collect()
}

#[test]
fn the_four_jaw_shows_which_jaw_gives_way_first_and_how_far() {
    let keys = "jaw-readings: 0 -0.045 -0.130 -0.075 mm, true-within: 0.02 mm, hold: {in: four-jaw}";
    for units in ["units: metric", "units: inch", "units: both"] {
        let plan = trued(keys, units);
        let Some(Picture::Polar(of)) = &plan.operations[0].answer.picture else { panic!("no picture") };
        let drawing = pictures::polar(&plan.operations[0].answer, of, plan.print).unwrap();
        let by = if units.ends_with("inch") { "0.0026 in" } else { "0.065 mm" };
        let said = |jaw: usize| drawing.grips[jaw].says.join(" ");
        assert!(said(2).starts_with(&format!("a) loosen {by}")), "{}", said(2));
        assert!(said(0).starts_with(&format!("b) tighten {by}")), "{}", said(0));
        assert_eq!((drawing.grips[2].goes, drawing.grips[0].goes), (Some(Goes::Out), Some(Goes::In)));
        let words = words_of(&plan);
        assert!(words.iter().any(|word| word == "a) loosen"), "on the sheet in {units}: {words:#?}");
        assert!(!words.iter().any(|word| word.contains("could not be drawn")));
    }
}

#[test]
fn in_a_bore_the_jaw_that_is_loosened_comes_in() {
    let keys = "jaw-readings: 0 -0.045 -0.130 -0.075 mm, true-within: 0.02 mm, hold: {in: four-jaw}, jaws: inside";
    let plan = trued(keys, "units: metric");
    let Some(Picture::Polar(of)) = &plan.operations[0].answer.picture else { panic!("no picture") };
    let drawing = pictures::polar(&plan.operations[0].answer, of, Print::Metric).unwrap();
    assert!(drawing.grips[0].says[0] == "a) loosen" && drawing.grips[0].goes == Some(Goes::In));
}

#[test]
fn what_fails_shows_no_jaw_to_be_moved() {
    let keys = "readings: {at: 0 45 90 135 180 225 270 315 deg, reads: -28 -37 -21 29 28 37 21 -29 um}, true-within: 0.01 mm, hold: {in: four-jaw}";
    let plan = trued(keys, "units: metric");
    assert_eq!(plan.operations[0].verdict, setover::proof::Verdict::Fails);
    let words = words_of(&plan);
    assert!(words.iter().any(|word| word.contains("off centre ") && word.contains(":1")), "{words:#?}");
    assert!(!words.iter().any(|word| word.contains("loosen") || word.contains("tighten")), "{words:#?}");
}

/// What a drawing list breaks in the zone of the sketch of each paper.
fn in_zones(
    mut draw: impl FnMut(&mut Page, setover::sheet::page::AreaId, Rect) -> Result<Vec<String>, String>,
) -> Vec<String> {
    let mut all = Vec::new();
    for (paper, room) in SKETCHES {
        let mut page = Page::new(paper);
        let area = page.area("sketch", room);
        match draw(&mut page, area, room) {
            Ok(said) => all.extend(said),
            Err(said) => return vec![said],
        }
        all.extend(faults(&page).iter().map(ToString::to_string));
    }
    all
}

/// A face: each mark at its place at the scale that is printed, the blackest where it is highest.
fn face(drawing: &Spots) -> Vec<String> {
    in_zones(|page, area, room| {
        let drawn = spots(page, area, room, drawing).map_err(|fault| fault.to_string())?;
        let mut said = Vec::new();
        if !texts(page).iter().any(|(text, _)| *text == format!("Scale {}", drawn.scale)) {
            said.push("it does not print its scale".to_owned());
        }
        let on_paper = |(x, y): &(f64, f64)| {
            Point::new(drawn.nought.x + x * drawn.scale.factor(), drawn.nought.y + y * drawn.scale.factor())
        };
        // Of each line all is drawn but what a mark or a height covers, and pieces too short to be told from strokes of a height; where it
        // has no room it is left out whole.
        const SHORTEST: f64 = 3.5;
        let with_lines = texts(page).iter().any(|(text, _)| text.starts_with("lines between"));
        let covered = |at: Point| {
            page.marks.iter().any(|mark| {
                !matches!(mark.ink, Ink::Line { .. }) && {
                    let room = mark.bounds.grown(2.0 + SHORTEST);
                    room.left <= at.x && at.x <= room.right && room.top <= at.y && at.y <= room.bottom
                }
            })
        };
        let is_drawn = |at: Point| {
            page.marks.iter().any(|mark| {
                let Ink::Line { points, .. } = &mark.ink else { return false };
                points.windows(2).any(|two| {
                    let (a, b) = (two[1] - two[0], at - two[0]);
                    let share = (a.dot(&b) / a.norm_squared().max(1e-12)).clamp(0.0, 1.0);
                    (b - a * share).norm() < 0.02
                })
            })
        };
        let long = |points: &[Point]| points.windows(2).map(|two| (two[1] - two[0]).norm()).sum::<f64>();
        let lines = drawing.lines.iter().map(|line| line.iter().map(on_paper).collect::<Vec<_>>());
        for at in lines.filter(|line| with_lines && long(line) >= SHORTEST).flatten() {
            if !covered(at) && !is_drawn(at) {
                said.push(format!("a line of equal height is not drawn at {at}"));
            }
        }
        // No line beside a height looks like a stroke of it.
        let places: Vec<Point> = drawing.places.iter().map(|spot| on_paper(&(spot.x, spot.y))).collect();
        let holds = |r: &Rect, p: &Point| r.left < p.x && p.x < r.right && r.top < p.y && p.y < r.bottom;
        for mark in &page.marks {
            let Ink::Line { points, .. } = &mark.ink else { continue };
            let on_the_face =
                Rect::about(&places).is_some_and(|face| points.iter().all(|p| holds(&face.grown(0.1), p)));
            let hatches = places.iter().any(|place| points.iter().all(|p| (p - place).norm() < 2.5));
            if !on_the_face || hatches {
                continue;
            }
            if texts(page).iter().any(|(_, at)| points.iter().any(|p| holds(&at.grown(0.8), p))) {
                said.push(format!("a line ends close to a height: {points:?}"));
            }
            if long(points) < SHORTEST {
                said.push(format!("a line of {:.1} mm: {points:?}", long(points)));
            }
        }
        for spot in &drawing.places {
            let at = Point::new(
                drawn.nought.x + spot.x * drawn.scale.factor(),
                drawn.nought.y + spot.y * drawn.scale.factor(),
            );
            let marked = |mark: &setover::sheet::page::Mark, black: bool| match &mark.ink {
                Ink::Polygon { fill, stroke: Some(_), .. } => {
                    (mark.bounds.centre() - at).norm() < 0.05 && (*fill == Fill::Ink) == black
                }
                _ => false,
            };
            if !page.marks.iter().any(|mark| marked(mark, drawing.band(spot.height) == 4)) {
                said.push(format!("the place at {}, {} has no mark of its height", spot.x, spot.y));
            }
        }
        Ok(said)
    })
}

fn any_spots() -> impl Strategy<Value = Spots> {
    // From place to place it is not four times as far along as across.
    let sizes = (10.0..90.0_f64, 0.5..2.0_f64, 2..7_usize, 2..7_usize);
    let heights = prop::collection::vec(prop_oneof![0.0..0.03_f64, 0.0..0.002_f64, 0.0..1.5_f64], 49);
    (sizes, heights).prop_map(|((apart, shape, across, down), heights)| {
        let count = across * down;
        let heights: Vec<f64> = heights.into_iter().take(count).collect();
        let whole = heights.iter().copied().fold(0.0, f64::max);
        let place = |(n, height): (usize, &f64)| Spot {
            x: (n % across) as f64 * apart,
            y: -((n / across) as f64 * apart * shape),
            height: *height,
            says: format!("{:.0}", height * 1000.0),
            touches: (n == 0).then_some(Touches::Upper),
        };
        let places: Vec<Spot> = heights.iter().enumerate().map(place).collect();
        let lines = setover::drawing::level_lines(&places, &[1, 2, 3, 4].map(|at| whole * f64::from(at) / 5.0));
        Spots {
            places,
            whole,
            lines,
            lines_say: Some("Lines between these:".into()),
            bands: std::array::from_fn(|n| format!("{n}.9999 to 1{n}.9999")),
            says: vec!["in over the lower plane; black is high.".into()],
        }
    })
}

/// A pack: as thick as it is at the scale that is printed.
fn shimmed(drawing: &Pack) -> Vec<String> {
    in_zones(|page, area, room| {
        let drawn = match pack(page, area, room, drawing) {
            Ok(drawn) => drawn,
            // It has a page of its own.
            Err(_) if drawing.links.len() > 5 => return Ok(Vec::new()),
            Err(fault) => return Err(fault.to_string()),
        };
        let mut said = Vec::new();
        let printed = format!("pack {}", drawn.pack);
        if !texts(page).iter().any(|(text, _)| text.ends_with(&printed)) {
            said.push(format!("it does not say {printed}"));
        }
        let mut at = drawn.from;
        for shim in &drawing.shims {
            let (from, to) = (at, at + shim * drawn.pack.factor());
            let is_plate = |(points, _): &(Vec<Point>, Option<f64>)| {
                Rect::about(points).is_some_and(|r| (r.left - from).abs() < 0.01 && (r.right - to).abs() < 0.01)
            };
            if !shapes(page).iter().any(is_plate) {
                said.push(format!("a shim of {shim} is not drawn so thick"));
            }
            at = to;
        }
        Ok(said)
    })
}

fn any_pack() -> impl Strategy<Value = Pack> {
    let shims = prop::collection::vec(0.02..1.2_f64, 0..=5);
    let links = prop::collection::vec((0.1..180.0_f64, any::<bool>()), 0..=12);
    let floats = (-0.3..0.4_f64, 0.02..0.4_f64, -0.4..0.8_f64, 0.001..0.1_f64);
    (shims, links, floats).prop_map(|(shims, links, (low, wide, left, doubt))| {
        let mut at = 0.0;
        let link = |(n, (size, closes)): (usize, &(f64, bool))| {
            let from = at;
            at += if *closes { -size } else { *size };
            let name = ["case", "gasket as nipped", "shaft between its two shoulders"][n % 3].to_owned();
            Stretch { name, from, to: at, says: format!("{size:.4} in"), is_hatched: *closes }
        };
        let float = |name: &str, from: f64, to: f64| Stretch {
            name: name.into(),
            from,
            to,
            says: format!("{from:.3} to {to:.3} mm"),
            is_hatched: name == "float wanted",
        };
        let each: Vec<String> = shims.iter().map(|shim| format!("{shim:.3}")).collect();
        Pack {
            links: links.iter().enumerate().map(link).collect(),
            pack: [format!("from the hard face: {}", each.join(" + ")), format!("{:.3} mm", shims.iter().sum::<f64>())],
            shims,
            left,
            floats: vec![float("float wanted", low, low + wide), float("float left", left - doubt, left + doubt)],
        }
    })
}

/// A worn bore: each reading has its mark where its diameter and its depth are at the scales that are printed, and each line that it is
/// held against stands at its diameter.
fn worn(drawing: &Wear) -> Vec<String> {
    let mut all = Vec::new();
    for (paper, room) in WAYS_OUT {
        let mut page = Page::new(paper);
        let area = page.area("ways out", room);
        let drawn = match wear(&mut page, area, room, drawing) {
            Ok(drawn) => drawn,
            // So many have the working page, and so have names without an end.
            Err(_) if drawing.lines.len() > 12 => continue,
            Err(fault) => return vec![fault.to_string()],
        };
        for axis in &drawing.axes {
            for (size, (depth, _)) in axis.sizes.iter().zip(&drawing.depths) {
                let at = drawn.at(*size, *depth);
                let is_mark = |(points, _): &(Vec<Point>, Option<f64>)| {
                    Rect::about(points).is_some_and(|r| (r.centre() - at).norm() < 0.01)
                };
                if !shapes(&page).iter().any(is_mark) {
                    all.push(format!("{} has no mark at {size}, {depth}", axis.name));
                }
            }
        }
        for line in &drawing.lines {
            let x = drawn.at(line.at, 0.0).x;
            let upright = |mark: &setover::sheet::page::Mark| match &mark.ink {
                Ink::Line { points, .. } => points.iter().all(|point| (point.x - x).abs() < 0.01),
                _ => false,
            };
            if !page.marks.iter().any(upright) {
                all.push(format!("{} has no line", line.name));
            }
        }
        all.extend(faults(&page).iter().map(ToString::to_string));
    }
    all
}

fn any_worn() -> impl Strategy<Value = Wear> {
    let depths = prop::collection::vec(1.0..60.0_f64, 2..=5);
    let lines = prop::collection::vec((0.0..1.5_f64, 0..4_usize), 1..=9);
    (depths, prop::collection::vec(0.0..0.3_f64, 15), 1..=3_usize, lines, 20.0..110.0_f64).prop_map(
        |(gaps, worn, axes, lines, bore)| {
            let mut deep = 0.0;
            let depths: Vec<(f64, String)> = gaps
                .iter()
                .map(|gap| {
                    deep += gap + 6.0;
                    (deep, format!("{deep:.1}"))
                })
                .collect();
            let axis = |at: usize| WearAxis {
                name: ["thrust", "pin", "across both"][at].to_owned(),
                sizes: worn[5 * at..5 * at + depths.len()].iter().map(|worn| bore + worn).collect(),
            };
            let kinds = [WearKind::New, WearKind::Cleans, WearKind::Oversize, WearKind::Taken];
            let line = |(at, (over, kind)): (usize, &(f64, usize))| WearLine {
                at: bore + over,
                name: format!("bored for +0.0{at}0 in"),
                says: format!("{:.3} mm", bore + over),
                kind: kinds[*kind],
            };
            Wear {
                axes: (0..axes).map(axis).collect(),
                lines: lines.iter().enumerate().map(line).collect(),
                depths,
                caption: "depth, mm".to_owned(),
            }
        },
    )
}

/// Links: each bar as long as its share.
fn linked(drawing: &Links) -> Vec<String> {
    let mut all = Vec::new();
    for (paper, room) in WAYS_OUT {
        let mut page = Page::new(paper);
        let area = page.area("ways out", room);
        let drawn = match links(&mut page, area, room, drawing) {
            Ok(drawn) => drawn,
            // So many have the working page.
            Err(_) if drawing.rows.len() > 6 => continue,
            Err(fault) => return vec![fault.to_string()],
        };
        for row in &drawing.rows {
            let end = drawn.from + drawn.whole * row.share;
            let is_bar = |(points, _): &(Vec<Point>, Option<f64>)| {
                Rect::about(points).is_some_and(|r| (r.left - drawn.from).abs() < 0.01 && (r.right - end).abs() < 0.01)
            };
            if row.share > 0.0 && !shapes(&page).iter().any(is_bar) {
                all.push(format!("{} has no bar as long as its share", row.name));
            }
        }
        all.extend(faults(&page).iter().map(ToString::to_string));
    }
    all
}

fn any_links() -> impl Strategy<Value = Links> {
    let rows = prop::collection::vec((0.0..1.0_f64, 0..3_usize), 2..=12);
    (rows, prop_oneof![-0.5..3.0_f64, -50.0..50.0_f64], prop_oneof![0.001..0.2_f64, 0.1..20.0_f64]).prop_map(
        |(rows, middle, half)| {
            let sum: f64 = rows.iter().map(|row| row.0).sum::<f64>().max(1e-9);
            let row = |(share, name): &(f64, usize)| LinkRow {
                name: [
                    "hub",
                    "case face to gauge plane of the shaft",
                    "a very long name of a link that somebody typed",
                ][*name]
                    .to_owned(),
                size: "−10 × 28.0120 ± 0.0095".into(),
                share: share / sum,
                says: format!("{:.1} %", 100.0 * share / sum),
            };
            let bar = |name: &str, low: f64, high: f64| Bar {
                name: name.into(),
                low,
                high,
                ends: [format!("{low:.3}"), format!("{high:.3}")],
            };
            let bars =
                vec![bar("wanted", middle - half, middle + half), bar("the links leave", middle, middle + half / 3.0)];
            let ticks = [-1.0, 0.0, 1.0].map(|at| (middle + at * half, format!("{:.3}", middle + at * half))).to_vec();
            let ruler = Ruler { caption: "mm".into(), ticks, fine: half / 10.0, under: None };
            Links {
                captions: ["link", "counts", "share of the doubt"].map(str::to_owned),
                rows: rows.iter().map(row).collect(),
                closing: Bars { groups: vec![BarGroup { bars, gap: None, limits: Vec::new(), ruler }] },
            }
        },
    )
}

proptest! {
    #![proptest_config(seeds::config(200, "tests/regressions/pictures.txt"))]

    #[test]
    fn a_face_keeps_the_laws_whatever_was_read(drawing in any_spots()) {
        let said = face(&drawing);
        prop_assert!(said.is_empty(), "{said:#?}");
    }

    #[test]
    fn a_pack_keeps_the_laws_whatever_lies_in_it(drawing in any_pack()) {
        let said = shimmed(&drawing);
        prop_assert!(said.is_empty(), "{said:#?}");
    }

    #[test]
    fn worn_bores_keep_the_laws_whatever_they_are(drawing in any_worn()) {
        let said = worn(&drawing);
        prop_assert!(said.is_empty(), "{said:#?}");
    }

    #[test]
    fn links_keep_the_laws_whatever_they_are(drawing in any_links()) {
        let said = linked(&drawing);
        prop_assert!(said.is_empty(), "{said:#?}");
    }
}

#[test]
fn a_chain_is_no_stop_and_shows_its_links_the_dearest_first() {
    let own = shop(&std::fs::read_to_string("examples/shop.yaml").unwrap());
    let plan = try_plan(&std::fs::read_to_string("examples/chain.yaml").unwrap(), Some(&own)).unwrap();
    let words = words_of(&plan);
    let at = |text: &str| words.iter().position(|word| word == text).unwrap_or_else(|| panic!("{text}: {words:#?}"));
    assert!(at("hub bore at its gauge plane") < at("shaft at its gauge plane"));
    assert!(at("72.6 %") < at("12.9 %"));
    assert!(words.iter().any(|word| word == "−(0.050 to 0.060)"), "a sign before limits is of both: {words:#?}");
    assert!(!words.iter().any(|word| word.contains("STOP")), "nothing fails: {words:#?}");
}

/// A bore against its oversizes stands on its first sheet where that has the room, on the page for a screen and alone.
#[test]
fn a_worn_bore_stands_against_its_oversizes() {
    let own = shop(&std::fs::read_to_string("examples/shop.yaml").unwrap());
    let plans = [try_plan(&std::fs::read_to_string("examples/bore.yaml").unwrap(), Some(&own)).unwrap()];
    let alt = "<desc>Wear of the bore against the oversizes";
    assert!(layout::html(&plans, layout::Working::None).unwrap().contains(alt));
    let drawn = layout::pictures(&plans).unwrap();
    assert!(drawn[0].contains(alt));
    for said in ["cleans it about the old axis", "bored for +0.020 in", "as new", "thrust", "diameters 50:1, depths"] {
        assert!(drawn[0].contains(said), "{said}: {}", drawn[0]);
    }
}

#[test]
fn every_picture_stands_once_in_the_page_for_a_screen_and_alone_as_svg() {
    let own = shop(&std::fs::read_to_string("examples/shop.yaml").unwrap());
    for (word, alt) in [
        ("set-true", "Readings round the work"),
        ("lap", "The face from above"),
        ("shim", "The pack and the float"),
        ("chain", "Links of the gap"),
    ] {
        let plan = try_plan(&std::fs::read_to_string(format!("examples/{word}.yaml")).unwrap(), Some(&own)).unwrap();
        let plans = [plan];
        let html = layout::html(&plans, layout::Working::None).unwrap();
        // Each stands in the column that is read and on the page that is printed.
        let sheets = 2 * plans[0].operations.iter().map(|planned| planned.answer.set_ups.len().max(1)).sum::<usize>();
        assert_eq!(html.matches(&format!("<desc>{alt}")).count(), sheets, "{word}");
        let drawn = layout::pictures(&plans).unwrap();
        assert_eq!(drawn.len(), plans[0].operations.len(), "{word}");
        assert!(drawn.iter().all(|svg| svg.contains(alt)), "{word}");
    }
}
