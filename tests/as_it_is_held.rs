//! What a sheet shows of how work is held, and what stands at the bench where nothing can be drawn: jaws of a vice on the real grip,
//! soft jaws by how they were made, a limit for each hold point, room for a pencil, boxes to tick.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common::laws::{PRINTED, texts};
use crate::common::{first, in_shop, plan, shop, with};
use setover::drawing::{Balloon, Item, Sketch};
use setover::plan::Plan;
use setover::plan::day::{Asked, day};
use setover::quantity::Print;
use setover::sheet::page::{Ink, Kind, Page};
use setover::sheet::{day_html, layout};
use setover::shop::{Paper, Shop};

const SHOP: &str = include_str!("../examples/shop.yaml");
const DRILL: &str = include_str!("../examples/drill.yaml");
const TAP: &str = include_str!("../examples/tap.yaml");
const SPOT_FACE: &str = include_str!("../examples/spot-face.yaml");
const THREAD_INSERT: &str = include_str!("../examples/thread-insert.yaml");
const REAM_BUSH: &str = include_str!("../examples/ream-bush.yaml");
const MILL_FACE: &str = include_str!("../examples/mill-face.yaml");
const PRESS_IN: &str = include_str!("../examples/press-in.yaml");
const HAND: &str = include_str!("../examples/hand.yaml");
const WITHOUT_A_SHAPE: [&str; 4] = [
    HAND,
    include_str!("../examples/deburr.yaml"),
    include_str!("../examples/wash.yaml"),
    include_str!("../examples/measure.yaml"),
];

fn printed(job: &str, (paper, units): (Paper, Print)) -> Plan {
    plan(job, Some(&Shop { paper, units, ..shop(SHOP) }))
}

fn pages(plan: &Plan) -> Vec<Page> {
    layout::pages(std::slice::from_ref(plan)).expect("pages")
}

fn said(page: &Page, area: &str) -> String {
    texts(page, area).iter().map(|text| text.text.as_str()).collect::<Vec<_>>().join(" ")
}

/// Top and bottom of each jaw of a sketch, mm under the face.
fn jaws(sketch: &Sketch) -> Vec<(f64, f64)> {
    let outlines =
        sketch.items.iter().filter_map(|item| if let Item::Jaw(outline) = item { Some(outline) } else { None });
    let ends = |outline: &Vec<setover::drawing::Point>| {
        let y = || outline.iter().map(|point| point.y);
        (y().fold(f64::INFINITY, f64::min), y().fold(f64::NEG_INFINITY, f64::max))
    };
    outlines.map(ends).collect()
}

fn grips(sketch: &Sketch) -> usize {
    let is_grip = |item: &&Item| matches!(item, Item::Balloon { balloon: Balloon::Grip, .. });
    sketch.items.iter().filter(is_grip).count()
}

/// Grip 12, 6 out: the jaws begin 6 under the face and end 18 under it, on both sides of the hole; where nobody said both, none is drawn.
#[test]
fn the_jaws_of_a_vice_stand_on_the_real_grip() {
    let seat = with(
        SPOT_FACE,
        "hold: {in: clamps, tested: 60 N·m}",
        "hold: {in: vice, grip: 9 mm, overhang: 4 mm, tested: 60 N·m}",
    );
    for (job, grip, out) in [(DRILL, 12.0, 6.0), (TAP, 12.0, 6.0), (&seat, 9.0, 4.0)] {
        let plan = in_shop(job);
        let sketch = &first(&plan).answer.set_ups[0].sketch;
        assert_eq!(jaws(sketch), [(out, out + grip); 2], "{job}");
        assert_eq!(grips(sketch), 1);
        let on_paper = said(&pages(&plan)[0], "beside");
        assert!(on_paper.contains(&format!("Grip {grip} mm, {out} mm out.")), "{on_paper}");
        for key in [", grip: 12 mm", ", overhang: 6 mm", "grip: 9 mm, ", "overhang: 4 mm, "] {
            if job.contains(key) {
                let without = in_shop(&with(job, key, ""));
                let sketch = &first(&without).answer.set_ups[0].sketch;
                assert_eq!((jaws(sketch).len(), grips(sketch)), (0, 0), "{key}");
            }
        }
    }
}

/// So they do where a thread is repaired, and on the housing of a bush that is reamed where it is the housing that is gripped.
#[test]
fn the_jaws_stand_on_the_real_grip_of_inserts_and_bushes() {
    let vice = "hold: {in: vice, diameter: 40 mm, grip: 9 mm, overhang: 4 mm, tested: 15 N·m}";
    let insert = with(THREAD_INSERT, "edge: 14 ± 0.2 mm", "edge: 60 ± 0.2 mm");
    for (job, set_up) in [(insert.as_str(), "drill-and-tap"), (REAM_BUSH, "ream-by-hand")] {
        let plan = in_shop(&with(job, "hold: {in: clamps, tested: 15 N·m}", vice));
        let set_ups = &first(&plan).answer.set_ups;
        let sketch = &set_ups.iter().find(|own| own.id == set_up).expect("a set-up").sketch;
        assert_eq!(jaws(sketch), [(4.0, 13.0); 2], "{set_up}");
        assert_eq!(grips(sketch), 1, "{set_up}");
    }
    let wide = vice.replace("40 mm", "44 mm");
    let plan = in_shop(&with(REAM_BUSH, "hold: {in: clamps, tested: 15 N·m}", &wide));
    let set_ups = &first(&plan).answer.set_ups;
    assert!(set_ups.iter().all(|own| own.id != "ream-by-hand" || jaws(&own.sketch).is_empty()), "{wide}");
}

/// On a mill the jaw is seen behind the work, beyond both its ends.
#[test]
fn the_jaw_behind_a_milled_face_reaches_beyond_it() {
    let line = MILL_FACE.lines().find(|line| line.contains("hold:")).expect("a hold");
    let held = "          hold: {in: vice, grip: 8 mm, overhang: 6 mm, tested: 120 N·m, true-within: 0.03 mm}";
    let plan = in_shop(&MILL_FACE.replace(line, held));
    let sketch = &first(&plan).answer.set_ups[0].sketch;
    assert!(jaws(sketch).contains(&(6.0, 14.0)), "{:?}", jaws(sketch));
    assert_eq!(grips(sketch), 1);
}

/// Jaws that open in a bore were turned, not bored.
#[test]
fn soft_jaws_are_named_as_they_were_made() {
    let face = include_str!("fixtures/face.yaml");
    let inside =
        with(&with(face, "diameter: 52 mm", "diameter: 32 mm, grips: inside"), "inside: 32 mm", "inside: 30 mm");
    let held = |job: &str| {
        let lines =
            first(&in_shop(job)).answer.set_ups[0].hold.iter().map(|line| line.words.clone()).collect::<Vec<_>>();
        lines.join(" ")
    };
    assert!(held(face).contains("soft jaws bored to size"), "{}", held(face));
    let opened = held(&inside);
    assert!(opened.contains("soft jaws turned to size") && !opened.contains("bored"), "{opened}");
}

/// The thread that is hung over a seal track may read as far as it shifts of itself, less what the gauge is off; a tenth more is refused.
#[test]
fn how_far_the_oiled_thread_may_walk_stands_at_its_hold_point() {
    let plan = in_shop(include_str!("../examples/polish-seal.yaml"));
    let set_up = &first(&plan).answer.set_ups[0];
    let hold = set_up.steps.iter().find(|step| step.id == "try-for-lead").and_then(|step| step.hold_point.as_ref());
    let (least, most) = hold.expect("a hold point").limits.numbers();
    let most = most.expect("a limit");
    assert_eq!(least, None);
    assert!(most > 0.3 && most < 0.5, "{most}");
    let page = &pages(&printed(include_str!("../examples/polish-seal.yaml"), PRINTED[0]))[0];
    assert!(said(page, "measure").contains("Thread walked along up to 0.4 mm"), "{}", said(page, "measure"));
    // A track that is too smooth carries no oil: both ends stand at the sign.
    assert!(said(page, "sketch").contains("Ra 0.8 µm, min 0.2 µm"), "{}", said(page, "sketch"));
}

/// Where nothing gives the shape of a part there is a frame to draw it in, with ticks; what must be true before work in its own words,
/// what runs unattended and what is true then stand on its sheet.
#[test]
fn what_nobody_can_draw_has_room_for_a_pencil() {
    for (job, on) in WITHOUT_A_SHAPE.iter().flat_map(|job| PRINTED.map(|on| (job, on))) {
        let page = &pages(&printed(job, on))[0];
        let here =
            |mark: &&setover::sheet::page::Mark| page.area_of(mark.area).is_some_and(|area| area.name == "sketch");
        let (mut frames, mut ticks) = (0, 0);
        for mark in page.marks.iter().filter(here) {
            frames += usize::from(matches!(mark.ink, Ink::Polygon { .. }));
            ticks += usize::from(matches!(mark.ink, Ink::Line { .. }));
        }
        assert!(frames == 1 && ticks >= 10, "{on:?}: {frames} frames, {ticks} ticks");
        assert!(said(page, "sketch").starts_with("No sketch"), "{}", said(page, "sketch"));
    }
    let page = &pages(&printed(HAND, PRINTED[0]))[0];
    let steps = said(page, "cuts");
    for words in
        ["True before it is begun: washed.", "Then 120 min unattended", "It is done when this is true: joined."]
    {
        assert!(steps.contains(words), "{words}: {steps}");
    }
    let measure = said(page, "measure");
    assert!(measure.contains("began at") && measure.contains("ready at"), "{measure}");
    assert_eq!(said(page, "stamp"), "DOUBTFUL work in its own words: doubtful");
}

/// On either paper in each unit what stands under the press is drawn half as large as it is: smaller nobody sees the bush.
#[test]
fn what_stands_under_the_press_is_not_drawn_small() {
    for on in PRINTED.into_iter().chain([(Paper::Letter, Print::Both)]) {
        let plan = printed(PRESS_IN, on);
        let all = pages(&plan);
        let sketch = said(&all[1], "sketch");
        assert!(sketch.contains("Scale 1:2") || sketch.contains("Scale 1:1"), "{on:?}: {sketch}");
    }
}

/// A nominal size is aimed at as it was written, also where both units are printed.
#[test]
fn a_nominal_size_stands_as_it_was_written_beside_its_inches() {
    let page = &pages(&printed(SPOT_FACE, (Paper::Letter, Print::Both)))[0];
    let measure = said(page, "measure");
    assert!(measure.contains("Seat across, clean 18 mm (0.7087 in)"), "{measure}");
}

/// Each table of the day on paper has cells that name its rows, and on a screen what is to be at hand is ticked as it is found.
#[test]
fn a_day_names_its_rows_and_has_boxes_to_tick() {
    let plan = plan(include_str!("../demo/tidewater.yaml"), Some(&shop(include_str!("../demo/shop.yaml"))));
    let day = day(&[plan], &Asked { days: 1, ..Asked::default() }).unwrap_or_else(|all| panic!("{all:#?}"));
    for page in layout::day_pages(&day).expect("pages") {
        let tables = page.numbered_elements().filter(|(_, element)| element.kind == Kind::Table).map(|(id, _)| id);
        for table in tables {
            let within = |id| page.lineage(id).any(|(of, _)| of == table);
            let inside = page.numbered_elements().filter(|(id, _)| within(*id));
            let (mut heads, mut cells) = (0, 0);
            for (_, element) in inside {
                heads += usize::from(matches!(element.kind, Kind::HeadCell(_)));
                cells += usize::from(element.kind == Kind::Cell);
            }
            assert!(heads > 0, "a table of {cells} cells and no head");
        }
    }
    let html = day_html::day_html(&day).expect("a page");
    let boxes = html.matches("type=\"checkbox\"").count();
    assert_eq!(boxes, day.pull.len() + day.lines.len());
}

/// A shoulder that stands already is looked for beyond the stop of the tool; where its length has no limits it may stand anywhere there.
#[test]
fn a_length_without_limits_has_no_greatest_at_its_shoulder() {
    let limits = |length: &str| {
        let job = format!(
            "job: One\nparts:\n  - part: spindle\n    material: GG25\n    operations:\n      - turn: {{present: 28.84 ± 0.03 mm, outside: \
             28.312 .. 28.500 mm, length: {length}, over-all: 60.6 ± 0.2 mm, shoulder: 32.84 mm, finish: Ra 6.3 um, hold: {{in: jaws, \
             diameter: 28.8 mm, grip: 37.5 mm, overhang: 21.2 mm, true-within: 0.1 mm, stop: rod}}}}\n"
        );
        let plan = in_shop(&job);
        let steps = &first(&plan).answer.set_ups[0].steps;
        let hold = steps.iter().find(|step| step.id == "shoulder-stands").and_then(|step| step.hold_point.as_ref());
        hold.expect("a hold point").limits.numbers()
    };
    assert_eq!(limits("11.0 mm"), (Some(11.0), None));
    let (least, most) = limits("11.0 ± 0.5 mm");
    assert!(least.is_some_and(|least| least >= 11.0) && most.is_some_and(|most| most <= 11.5), "{least:?} {most:?}");
}
