//! Whole drawings: the three sections that the first operations need, and the odd ones.

use super::{Fault, Stretch, draw};
use crate::drawing::{Item, Point, Shows, Side, Sketch, Stroke, drilled, rectangle, ring_section};
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
        "limits" => "25.021\n25.000",
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
        .thread(0.0, 9.62, 8.0)
        .push(Item::Moving { outline: rectangle(-22.0, 21.0, 22.0, 28.0), label: "gear rim, turns".into() })
        .axis(0.0, 0.0, 18.0)
        .dimension(p(22.0, 0.0), p(22.0, 18.0), Side::Right, Shows::value("wall"))
        .dimension(p(0.0, 15.52), p(0.0, 18.0), Side::Right, Shows::value("metal_left"))
        .dimension(p(22.0, 18.0), p(22.0, 21.0), Side::Right, Shows::value("gap"))
        .dimension(p(-4.2, 0.0), p(-4.2, 13.0), Side::Left, Shows::value("drilled_depth"))
        .dimension(p(-4.81, 0.0), p(-4.81, 8.0), Side::Left, Shows::value("full_thread_depth"))
        .dimension(p(-4.2, 0.0), p(4.2, 0.0), Side::Above, Shows::diameter("drill_diameter"))
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
        .dimension(p(-12.5, 30.0), p(12.5, 30.0), Side::Below, Shows::diameter("limits"))
        .dimension(p(-14.0, 0.0), p(14.0, 0.0), Side::Above, Shows::diameter("outside"))
        .dimension(p(-28.0, 0.0), p(-28.0, 30.0), Side::Left, Shows::value("length"))
        .label(p(20.0, 15.0), Side::Right, "oil hole Ø3, drilled after the bush is pressed in")
        .label(p(13.5, 5.0), Side::Right, "bush, leaded bronze")
        .label(p(22.0, 25.0), Side::Right, "lug")
        .push(Item::Roughness {
            at: p(-20.0, 0.0),
            towards: Side::Above,
            shows: Shows { before: "Ra ", value: "finish" },
        })
        .push(Item::Roughness {
            at: p(28.0, 22.0),
            towards: Side::Right,
            shows: Shows { before: "Ra ", value: "finish" },
        })
        .push(Item::Indicator { at: p(22.0, 0.0), towards: Side::Above })
        .push(Item::Exaggerated { what: "metal reamed away".into(), factor: 4.0 });
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
        .dimension(p(150.0, 0.0), p(150.0, 2.0), Side::Right, Shows::value("thickness"))
        .dimension(p(-135.0, 0.0), p(-135.0, 0.5), Side::Left, Shows::value("groove"))
        .dimension(p(-120.0, 2.0), p(120.0, 2.0), Side::Below, Shows::diameter("bore"))
        .dimension(p(-150.0, 2.0), p(150.0, 2.0), Side::Below, Shows::diameter("ring"))
        .push(Item::Datum { at: p(100.0, 2.0), towards: Side::Below, letter: 'A' })
        .push(Item::Feed { from: p(110.0, 0.0), to: p(80.0, 0.0) })
        .push(Item::Roughness {
            at: p(145.0, 0.0),
            towards: Side::Above,
            shows: Shows { before: "Ra ", value: "finish" },
        });
    sketch
}

/// The three demonstration sketches with the room that a sheet gives them.
fn demonstration() -> Page {
    let mut page = Page::new(Paper::A4);
    for (name, top, sketch) in [("insert", 26.0, insert_hole()), ("bush", 114.0, bush()), ("ring", 202.0, thin_ring())]
    {
        let room = Rect::new(14.0, top, 196.0, top + 82.0);
        let area = page.area(name, room);
        draw(&mut page, area, room, &sketch, value).unwrap();
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
fn a_wall_is_drawn_to_scale_and_a_thin_ring_says_that_it_is_not() {
    let texts = |sketch: &Sketch| {
        let mut page = Page::new(Paper::A4);
        let room = Rect::new(14.0, 30.0, 196.0, 115.0);
        let area = page.area("sketch", room);
        let drawing = draw(&mut page, area, room, sketch, value).unwrap();
        let words: Vec<String> = page
            .marks
            .iter()
            .filter_map(|m| if let crate::sheet::page::Ink::Text(t) = &m.ink { Some(t.text.clone()) } else { None })
            .collect();
        assert!(room.holds(&drawing.bounds, 0.01));
        (drawing, words)
    };
    let (wall, words) = texts(&insert_hole());
    assert_eq!(wall.stretch, Stretch::None);
    assert!(words.contains(&format!("Scale {}", wall.scale)) && !words.contains(&"NOT TO".to_owned()));
    let (ring, words) = texts(&thin_ring());
    assert!(matches!(ring.stretch, Stretch::Height(_)));
    assert_eq!(words.iter().filter(|w| *w == "NOT TO").count(), 2, "thickness and groove, not the diameters");
}

#[test]
fn no_figure_is_invented() {
    let mut page = Page::new(Paper::A4);
    let room = Rect::new(14.0, 30.0, 196.0, 115.0);
    let area = page.area("sketch", room);
    let fault =
        draw(&mut page, area, room, &insert_hole(), |name| value(name).filter(|_| name != "metal_left")).unwrap_err();
    assert_eq!(fault, Fault::NoValue { key: "metal_left" });
    assert!(page.marks.is_empty());
}

#[test]
fn what_cannot_be_drawn_says_why() {
    let mut page = Page::new(Paper::A4);
    let room = Rect::new(14.0, 30.0, 196.0, 115.0);
    let area = page.area("sketch", room);
    assert_eq!(draw(&mut page, area, room, &Sketch::default(), value), Err(Fault::Empty));
    let mut broken = insert_hole();
    broken.label(p(f64::NAN, 0.0), Side::Left, "x");
    assert!(matches!(draw(&mut page, area, room, &broken, value), Err(Fault::NotFinite { number: 17, .. })));
    let small = Rect::new(14.0, 30.0, 34.0, 40.0);
    assert!(matches!(draw(&mut page, area, small, &insert_hole(), value), Err(Fault::NoRoom { .. })));
    let mut strange = insert_hole();
    strange.label(p(1.0, 1.0), Side::Left, "漢");
    assert!(matches!(draw(&mut page, area, room, &strange, value), Err(Fault::Letters(_))));
}

#[test]
fn odd_shapes_stay_legible() {
    let rooms =
        [Rect::new(12.0, 30.0, 198.0, 120.0), Rect::new(12.0, 30.0, 110.0, 120.0), Rect::new(12.0, 30.0, 198.0, 260.0)];
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
            .dimension(p(width, 0.0), p(width, height), Side::Right, Shows::value("wall"))
            .dimension(p(0.0, 0.0), p(0.0, height / 10.0), Side::Left, Shows::value("metal_left"))
            .dimension(p(0.0, height), p(width, height), Side::Below, Shows::diameter("limits"))
            .label(p(width / 2.0, height / 2.0), Side::Right, "casting of the gearbox, drive side")
            .push(Item::Datum { at: p(width / 2.0, height), towards: Side::Below, letter: 'A' })
            .push(Item::Roughness {
                at: p(width / 4.0, 0.0),
                towards: Side::Above,
                shows: Shows { before: "Ra ", value: "finish" },
            })
            .push(Item::Feed { from: p(width, 0.0), to: p(width * 0.6, 0.0) });
        let mut page = Page::new(Paper::A4);
        let area = page.area("sketch", room);
        draw(&mut page, area, room, &sketch, value).unwrap_or_else(|e| panic!("{width} × {height} in {room:?}: {e}"));
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
