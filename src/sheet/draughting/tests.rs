//! Whole drawings: the three sections that the first operations need, and the odd ones.

use super::{Fault, draw};
use crate::drawing::{Balloon, Item, Point, Shows, Side, Sketch, Stroke, drilled, rectangle, ring_section};
use crate::sheet::check;
use crate::sheet::page::{Page, Paper, Rect};

fn p(x: f64, y: f64) -> Point {
    Point::new(x, y)
}

fn value(name: &str) -> Option<String> {
    let text = match name {
        "wall" => "18.00 ± 0.30",
        "drilled_depth" => "13.00",
        "metal_left" => "2.48\nleast 1.00",
        "drill_diameter" => "8.40",
        "gap" => "3.00",
        "full_thread_depth" => "8.00",
        "finish" => "0.8",
        "long" => "a very long limit of a size that somebody typed in full",
        "greatest" => "25.021",
        "least" => "25.000",
        "length" => "30.00",
        "outside" => "28.035",
        "thickness" => "2.000",
        "groove" => "0.500",
        "bore" => "240.00",
        "ring" => "300.00",
        _ => return None,
    };
    Some(text.to_owned())
}

/// An insert hole in a thin wall, with a gear rim beyond it.
fn insert_hole() -> Sketch {
    let mut sketch = Sketch::default();
    sketch
        .section(rectangle(-22.0, 0.0, 22.0, 18.0), 0)
        .cut_away(drilled(0.0, 8.4, 13.0, 118.0))
        .face("upper face", p(-22.0, 0.0), p(22.0, 0.0))
        .face("far side", p(-22.0, 18.0), p(22.0, 18.0))
        .face("tip", p(0.0, 15.52), p(0.0, 15.52))
        .face("what moves", p(-22.0, 21.0), p(22.0, 21.0))
        .face("floor", p(-4.2, 13.0), p(4.2, 13.0))
        .face("last thread", p(-4.81, 8.0), p(4.81, 8.0))
        .faces_about(["hole left", "hole right"], (0.0, 8.4), (0.0, 13.0))
        .thread(0.0, 9.62, 8.0)
        .push(Item::Moving { outline: rectangle(-22.0, 21.0, 22.0, 28.0), label: "gear rim, turns".into() })
        .axis(0.0, 0.0, 18.0)
        .between("upper face", "far side", Side::Right, Shows::value("wall"))
        .between("tip", "far side", Side::Right, Shows::value("metal_left"))
        .between("far side", "what moves", Side::Right, Shows::value("gap"))
        .between("upper face", "floor", Side::Left, Shows::value("drilled_depth"))
        .between("upper face", "last thread", Side::Left, Shows::value("full_thread_depth"))
        .between("hole left", "hole right", Side::Above, Shows::diameter("drill_diameter"))
        .label(p(10.0, 6.0), Side::Right, "casting, aluminium")
        .push(Item::Datum { at: p(-16.0, 0.0), towards: Side::Above, letter: 'A' })
        .push(Item::Feed { from: p(12.0, -14.0), to: p(12.0, -2.0) });
    sketch
}

/// A bush in a lug with an oil hole.
fn bush() -> Sketch {
    let mut sketch = Sketch::default();
    for lug in ring_section(0.0, 56.0, 28.0, 0.0, 30.0) {
        sketch.section(lug, 0);
    }
    for bush in ring_section(0.0, 28.0, 25.0, 0.0, 30.0) {
        sketch.section(bush, 1);
    }
    for reamed in ring_section(0.0, 25.0, 24.4, 0.0, 30.0) {
        sketch.cut_away(reamed);
    }
    for y in [0.0, 30.0] {
        sketch.line(Stroke::Visible, vec![p(-12.2, y), p(12.2, y)]);
    }
    sketch
        .void(rectangle(12.2, 13.5, 28.0, 16.5))
        .axis(0.0, 0.0, 30.0)
        .line(Stroke::Centre, vec![p(11.0, 15.0), p(29.0, 15.0)])
        .faces_about(["bore left", "bore right"], (0.0, 25.0), (0.0, 30.0))
        .faces_about(["bush left", "bush right"], (0.0, 28.0), (0.0, 30.0))
        .face("top", p(-28.0, 0.0), p(28.0, 0.0))
        .face("bottom", p(-28.0, 30.0), p(28.0, 30.0))
        .between("bore left", "bore right", Side::Below, Shows::limits("greatest", "least"))
        .between("bush left", "bush right", Side::Above, Shows::diameter("outside"))
        .between("top", "bottom", Side::Left, Shows::value("length"))
        .detail(p(12.35, 0.0), 0.3)
        .balloon(Balloon::Zero, p(-22.0, 0.0), Side::Above)
        .label(p(20.0, 15.0), Side::Right, "oil hole Ø3, drilled after the bush is pressed in")
        .label(p(13.5, 5.0), Side::Right, "bush, leaded bronze")
        .label(p(22.0, 25.0), Side::Right, "lug")
        .push(Item::Roughness { at: p(-20.0, 0.0), towards: Side::Above, shows: Shows::roughness("finish") })
        .push(Item::Roughness { at: p(28.0, 22.0), towards: Side::Right, shows: Shows::roughness("finish") })
        .push(Item::Indicator { at: p(22.0, 0.0), towards: Side::Above });
    sketch
}

/// A thin ring, 300 × 2 mm, with a groove and a cut over its face.
fn thin_ring() -> Sketch {
    let mut sketch = Sketch::default();
    let face = |s: f64| {
        vec![
            p(s * 120.0, 0.0),
            p(s * 130.0, 0.0),
            p(s * 130.0, 0.5),
            p(s * 140.0, 0.5),
            p(s * 140.0, 0.0),
            p(s * 150.0, 0.0),
            p(s * 150.0, 2.0),
            p(s * 120.0, 2.0),
        ]
    };
    sketch.section(face(-1.0), 0).section(face(1.0), 0);
    for y in [0.0, 2.0] {
        sketch.line(Stroke::Visible, vec![p(-120.0, y), p(120.0, y)]);
    }
    sketch
        .axis(0.0, 0.0, 2.0)
        .face("upper face", p(-150.0, 0.0), p(150.0, 0.0))
        .face("back", p(-150.0, 2.0), p(150.0, 2.0))
        .face("floor of the groove", p(-140.0, 0.5), p(-130.0, 0.5))
        .faces_about(["bore left", "bore right"], (0.0, 240.0), (0.0, 2.0))
        .faces_about(["ring left", "ring right"], (0.0, 300.0), (0.0, 2.0))
        .between("upper face", "back", Side::Right, Shows::value("thickness"))
        .between("upper face", "floor of the groove", Side::Left, Shows::value("groove"))
        .between("bore left", "bore right", Side::Below, Shows::diameter("bore"))
        .between("ring left", "ring right", Side::Below, Shows::diameter("ring"))
        .push(Item::Datum { at: p(100.0, 2.0), towards: Side::Below, letter: 'A' })
        .push(Item::Feed { from: p(110.0, 0.0), to: p(80.0, 0.0) })
        .push(Item::Roughness { at: p(145.0, 0.0), towards: Side::Above, shows: Shows::roughness("finish") });
    sketch
}

/// The three demonstration sketches with the room that a sheet gives them.
fn demonstration() -> Page {
    let mut page = Page::new(Paper::A4);
    for (name, top, sketch) in [("insert", 26.0, insert_hole()), ("bush", 114.0, bush()), ("ring", 202.0, thin_ring())]
    {
        let room = Rect::new(14.0, top, 196.0, top + 82.0);
        let area = page.area(name, room);
        draw(&mut page, area, room, (&sketch, 3.5), value).unwrap();
    }
    page
}

#[test]
fn the_demonstration_has_no_fault() {
    let page = demonstration();
    let faults: Vec<String> = check::faults(&page).iter().map(ToString::to_string).collect();
    assert!(faults.is_empty(), "{faults:#?}");
}

#[test]
fn a_drawing_prints_its_scale_and_a_thin_cut_has_a_detail_with_its_own() {
    let mut sketch = Sketch::default();
    sketch
        .section(rectangle(0.0, 0.0, 60.0, 20.0), 0)
        .cut_away(rectangle(0.0, -0.2, 60.0, 0.0))
        .face("new face", p(0.0, 0.0), p(60.0, 0.0))
        .face("face as found", p(0.0, -0.2), p(60.0, -0.2))
        .between("new face", "face as found", Side::Right, Shows::value("groove"))
        .detail(p(60.0, -0.1), 0.2);
    let mut page = Page::new(Paper::A4);
    let room = Rect::new(14.0, 30.0, 136.0, 100.0);
    let area = page.area("sketch", room);
    let drawing = draw(&mut page, area, room, (&sketch, 3.5), value).unwrap();
    assert!(room.holds(&drawing.bounds, 0.01));
    assert_eq!((drawing.scale.to_string(), drawing.details.len()), ("1:1".to_owned(), 1));
    let text = |mark: &'_ crate::sheet::page::Mark| match &mark.ink {
        crate::sheet::page::Ink::Text(text) => Some(text.text.clone()),
        _ => None,
    };
    let words: Vec<String> = page.marks.iter().filter_map(text).collect();
    let words: Vec<&str> = words.iter().map(String::as_str).collect();
    assert_eq!(drawing.details[0].1.to_string(), "10:1");
    assert!(words.contains(&"Scale 1:1") && words.contains(&"A  10:1") && words.contains(&"0.500"));
}

#[test]
fn no_figure_is_invented() {
    let mut page = Page::new(Paper::A4);
    let room = Rect::new(14.0, 30.0, 196.0, 115.0);
    let area = page.area("sketch", room);
    let fault = draw(&mut page, area, room, (&insert_hole(), 3.0), |name| value(name).filter(|_| name != "metal_left"))
        .unwrap_err();
    assert_eq!(fault, Fault::NoValue { key: "metal_left" });
    assert!(page.marks.is_empty());
}

#[test]
fn what_cannot_be_drawn_says_why() {
    let mut page = Page::new(Paper::A4);
    let room = Rect::new(14.0, 30.0, 196.0, 115.0);
    let area = page.area("sketch", room);
    assert_eq!(draw(&mut page, area, room, (&Sketch::default(), 3.0), value), Err(Fault::Empty));
    let mut broken = insert_hole();
    broken.label(p(f64::NAN, 0.0), Side::Left, "x");
    assert!(matches!(draw(&mut page, area, room, (&broken, 3.0), value), Err(Fault::NotFinite { number: 17, .. })));
    let small = Rect::new(14.0, 30.0, 34.0, 40.0);
    assert!(matches!(draw(&mut page, area, small, (&insert_hole(), 3.0), value), Err(Fault::NoRoom { .. })));
    let mut strange = insert_hole();
    strange.label(p(1.0, 1.0), Side::Left, "漢");
    assert!(matches!(draw(&mut page, area, room, (&strange, 3.0), value), Err(Fault::Letters(_))));
}

#[test]
fn odd_shapes_stay_legible() {
    let rooms =
        [Rect::new(12.0, 30.0, 198.0, 120.0), Rect::new(12.0, 30.0, 134.0, 120.0), Rect::new(12.0, 30.0, 198.0, 260.0)];
    let sizes = [
        (300.0, 2.0),
        (2.0, 300.0),
        (0.2, 0.2),
        (5000.0, 3000.0),
        (60.0, 18.0),
        (18.0, 60.0),
        (1000.0, 0.1),
        (120.0, 120.0),
    ];
    for (room, (width, height)) in rooms.iter().flat_map(|r| sizes.iter().map(move |s| (*r, *s))) {
        let mut sketch = Sketch::default();
        sketch
            .section(rectangle(0.0, 0.0, width, height), 0)
            .cut_away(rectangle(0.0, 0.0, width, height / 10.0))
            .face("upper face", p(0.0, 0.0), p(width, 0.0))
            .face("new face", p(0.0, height / 10.0), p(width, height / 10.0))
            .face("back", p(0.0, height), p(width, height))
            .face("left", p(0.0, 0.0), p(0.0, height))
            .face("right", p(width, 0.0), p(width, height))
            .between("upper face", "back", Side::Right, Shows::value("wall"))
            .between("upper face", "new face", Side::Left, Shows::value("metal_left"))
            .between("left", "right", Side::Below, Shows::limits("greatest", "least"))
            .detail(p(0.0, height / 20.0), height / 10.0)
            .label(p(width / 2.0, height / 2.0), Side::Right, "casting of the gearbox, drive side")
            .push(Item::Datum { at: p(width / 2.0, height), towards: Side::Below, letter: 'A' })
            .push(Item::Roughness { at: p(width / 4.0, 0.0), towards: Side::Above, shows: Shows::roughness("finish") })
            .push(Item::Feed { from: p(width, 0.0), to: p(width * 0.6, 0.0) });
        let mut page = Page::new(Paper::A4);
        let area = page.area("sketch", room);
        draw(&mut page, area, room, (&sketch, 3.5), value)
            .unwrap_or_else(|e| panic!("{width} × {height} in {room:?}: {e}"));
        let faults: Vec<String> = check::faults(&page).iter().map(ToString::to_string).collect();
        assert!(faults.is_empty(), "{width} × {height} in {room:?}: {faults:#?}");
    }
}

/// Not a check: writes the demonstration as a PDF to the path in `SETOVER_DEMONSTRATION`, to be looked at.
#[test]
fn the_demonstration_can_be_looked_at() {
    if let Some(path) = std::env::var_os("SETOVER_DEMONSTRATION") {
        let bytes = crate::sheet::pdf::write(&[demonstration()], &crate::sheet::pdf::Meta::default()).unwrap();
        std::fs::write(path, bytes).unwrap();
    }
}
