//! Bush and housing at each station, to scale: what exists when the set-up begins, and what it takes off.

use super::keys::{DrillWhen, End, OilHole, ReamBush};
use super::names::{
    ASSEMBLY_CLEARANCE, BORE_MAX, BORE_MIN, BORE_PRESSED, BUSH_BORE, BUSH_LENGTH, BUSH_OUTSIDE, BUSH_TEMPERATURE,
    FINISH, HOUSING_BORE, HOUSING_HOTTEST, OIL_HOLE, OIL_HOLE_AT, OVEN_SETTING,
};
use crate::drawing::{Item, Point, Shows, Side, Sketch, lengthwise, rectangle};
use crate::operations::Answer;
use crate::operations::hole_making::{Oilway, ViceJaws};
use crate::operations::press_joint::Frame;
use crate::quantity::Quantity;

/// What is drawn of a mandrel, a reamer or a support whose length is not known, in parts of the bush's length.
const SHOWN: f64 = 0.5;
/// What is drawn of a jaw, in parts of the housing's outside.
const JAW: f64 = 0.15;
/// What is gripped is the housing where it is as wide, mm.
const AS_WIDE: f64 = 0.5;

/// Which oil holes are there.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Drilled {
    /// None yet.
    None,
    /// Those that were drilled before the bush was pressed in.
    Before,
    /// All.
    All,
}

/// The frame of this bush with the holes that are there.
fn frame_of(asked: &ReamBush, answer: &Answer, bore: &str, drilled: Drilled) -> Option<Frame> {
    let length = asked.bush.length.value.number();
    let is_there = |hole: &&OilHole| match drilled {
        Drilled::None => false,
        Drilled::Before => hole.drill.as_ref().is_some_and(|at| at.value == DrillWhen::BeforePress),
        Drilled::All => hole.drill.as_ref().is_none_or(|at| at.value != DrillWhen::AfterReam),
    };
    let from_outer = |hole: &OilHole| {
        let along = hole.at.value.number();
        let outer = hole.from.as_ref().is_none_or(|end| end.value == End::Outer);
        (hole.diameter.value.number(), if outer { along } else { length - along })
    };
    let holes = asked.oil_holes.iter().filter(is_there).map(from_outer).collect();
    let oilways = asked.oil_holes.iter().filter_map(|hole| hole.oilway.as_ref());
    let typed = |oilway: &Oilway| Some((oilway.diameter.value.typed()?, oilway.at.value.typed()?));
    let oilways = oilways.filter_map(typed).collect();
    Frame::of(&asked.asked(), answer, bore, holes).map(|frame| Frame { oilways, ..frame })
}

fn known(answer: &Answer, key: &str) -> bool {
    answer.value(key).is_some()
}

/// Housing and bush side by side, as they lie on the bench: what is measured is dimensioned.
pub(super) fn apart(asked: &ReamBush, answer: &Answer) -> Sketch {
    frame_of(asked, answer, BUSH_BORE.key, Drilled::None).map(|frame| frame.apart(answer)).unwrap_or_default()
}

/// Housing and bush as they stand in oven and freezer, with their temperatures.
pub(super) fn warmed(asked: &ReamBush, answer: &Answer) -> Sketch {
    let mut sketch = Sketch::default();
    let Some(frame) = frame_of(asked, answer, BUSH_BORE.key, Drilled::None) else { return sketch };
    frame.side_by_side(answer, &mut sketch);
    frame.axis(&mut sketch, 0.0);
    let how = asked.assembles();
    let wall = f64::midpoint(frame.joint, frame.housing) / 2.0;
    if how.warms() && known(answer, OVEN_SETTING.key) {
        let at = Point::new(-wall, 0.3 * frame.housing_length);
        sketch.push(Item::Reads { at, towards: Side::Left, shows: Shows::named(OVEN_SETTING.means, OVEN_SETTING.key) });
        if known(answer, HOUSING_HOTTEST.key) {
            let at = Point::new(-wall, 0.7 * frame.housing_length);
            sketch.push(Item::Reads {
                at,
                towards: Side::Left,
                shows: Shows::named(HOUSING_HOTTEST.means, HOUSING_HOTTEST.key),
            });
        }
    }
    if how.chills() && known(answer, BUSH_TEMPERATURE.key) {
        let outside = answer.value(BUSH_OUTSIDE.key).map_or(frame.joint, |value| value.number);
        let at = Point::new(frame.beside(outside) + (frame.bore + outside) / 4.0, 0.5 * frame.length);
        sketch.push(Item::Reads { at, towards: Side::Right, shows: Shows::value(BUSH_TEMPERATURE.key) });
    }
    if known(answer, ASSEMBLY_CLEARANCE.key) {
        sketch.between("housing bore left", "housing bore right", Side::Above, Shows::diameter(HOUSING_BORE.key));
    }
    sketch
}

/// On the press: mandrel with pilot and shoulder, the bush at the mouth, a support under the housing.
pub(super) fn at_the_press(asked: &ReamBush, answer: &Answer) -> Sketch {
    let bore = if known(answer, BUSH_BORE.key) { BUSH_BORE.key } else { BORE_PRESSED.key };
    let frame = frame_of(asked, answer, bore, Drilled::Before);
    frame.map(|frame| frame.at_the_press(answer)).unwrap_or_default()
}

/// The bush in its housing as it comes from the press.
pub(super) fn pressed(asked: &ReamBush, answer: &Answer) -> Sketch {
    frame_of(asked, answer, BORE_PRESSED.key, Drilled::Before).map(|frame| frame.pressed()).unwrap_or_default()
}

/// At the drill press: the part lies with its axis level, the hole under the spindle.
pub(super) fn oil_drilled(asked: &ReamBush, answer: &Answer) -> Sketch {
    let mut sketch = Sketch::default();
    let Some(frame) = frame_of(asked, answer, BORE_PRESSED.key, Drilled::Before) else { return sketch };
    let all = frame_of(asked, answer, BORE_PRESSED.key, Drilled::All).map(|all| all.holes).unwrap_or_default();
    let now: Vec<(f64, f64)> = all.into_iter().filter(|hole| !frame.holes.contains(hole)).collect();
    frame.within(&mut sketch);
    for (diameter, at) in &now {
        let y = frame.top + at;
        sketch.cut_away(frame.hole(*diameter, y));
        sketch.detail(Point::new(frame.drilled_from(*diameter, y), y), *diameter);
    }
    frame.axis(&mut sketch, frame.top);
    let mut sketch = laid_level(&sketch);
    let Some((diameter, at)) = now.first() else { return sketch };
    // Lying down the hole stands upright on top: depth became length, right became up.
    let (x, surface) = (frame.top + at, -frame.housing / 2.0);
    let (r, clear) = (diameter / 2.0, 0.6 * diameter);
    let point = r / 59.0_f64.to_radians().tan();
    let (tip, top) = (surface - clear, surface - clear - point - 2.0 * diameter);
    let p = Point::new;
    sketch.tooling(vec![p(x - r, top), p(x + r, top), p(x + r, tip - point), p(x, tip), p(x - r, tip - point)]);
    sketch.breaks(p(x - r, top), p(x + r, top));
    sketch.axis(x, top, -frame.bore / 2.0 * 0.8);
    sketch.push(Item::Feed { from: p(x + 3.0 * r, top), to: p(x + 3.0 * r, tip) });
    sketch
        .faces_about(["drill left", "drill right"], (x, *diameter), (top, tip - point))
        .between("drill left", "drill right", Side::Above, Shows::diameter(OIL_HOLE.key))
        .face("axis of the hole", p(x, top), p(x, 0.0))
        .balloon(crate::drawing::Balloon::Tool, p(x - r, f64::midpoint(top, tip - point)), Side::Left);
    if frame.drilled_from(*diameter, frame.top + at) < frame.housing / 2.0 {
        // Down the oilway the drill takes its zero on the bush.
        sketch.balloon(crate::drawing::Balloon::Zero, p(x + r, -frame.joint / 2.0), Side::Right);
    }
    let outer = p(frame.top, frame.joint / 2.0);
    sketch.face("outer end of the bush", p(frame.top, -frame.joint / 2.0), outer);
    if answer.value(OIL_HOLE_AT.key).is_some_and(|value| (value.number - at).abs() < 0.05) {
        sketch.between("outer end of the bush", "axis of the hole", Side::Above, Shows::value(OIL_HOLE_AT.key));
    }
    sketch
}

/// The outlines of a sketch lying down: its axis, which stood upright, runs to the right. Sizes and faces stay behind.
fn laid_level(sketch: &Sketch) -> Sketch {
    let one = |item: &Item| match item {
        Item::Section { outline, hatch } => Some(Item::Section { outline: lengthwise(outline), hatch: *hatch }),
        Item::CutAway(outline) => Some(Item::CutAway(lengthwise(outline))),
        Item::Void(outline) => Some(Item::Void(lengthwise(outline))),
        Item::Line { stroke, points } => Some(Item::Line { stroke: *stroke, points: lengthwise(points) }),
        Item::Break { from, to } => match lengthwise(&[*from, *to]).as_slice() {
            [from, to] => Some(Item::Break { from: *from, to: *to }),
            _ => None,
        },
        Item::Detail { at, across } => lengthwise(&[*at]).first().map(|at| Item::Detail { at: *at, across: *across }),
        _ => None,
    };
    Sketch { items: sketch.items.iter().filter_map(one).collect(), ..Sketch::default() }
}

/// The bush reamed to its finished bore, its axis as it is held: the reamer with its taper entering.
pub(super) fn reamed(asked: &ReamBush, answer: &Answer, by_hand: bool) -> Sketch {
    let mut sketch = Sketch::default();
    let Some(frame) = frame_of(asked, answer, BORE_PRESSED.key, Drilled::All) else { return sketch };
    let finished = answer.value(FINISH.key).map_or(frame.bore, |value| value.number);
    frame.within(&mut sketch);
    // On the housing where it is that which is gripped.
    let gripped = asked.hold.as_ref().and_then(|hold| hold.diameter.as_ref()).map(|at| at.value.number());
    if let Some(jaws) = ViceJaws::of(asked.hold.as_ref(), frame.housing_length)
        && gripped.is_some_and(|across| (across - frame.housing).abs() < AS_WIDE)
    {
        jaws.draw_on(&mut sketch, frame.housing / 2.0, JAW * frame.housing);
    }
    let (top, end, p) = (frame.top, frame.top + frame.length, Point::new);
    let (from, to) = (frame.bore / 2.0, finished / 2.0);
    if to > from {
        for side in [-1.0, 1.0] {
            sketch.cut_away(rectangle((side * from).min(side * to), top, (side * from).max(side * to), end));
        }
        sketch.detail(p(f64::midpoint(from, to), end), to - from);
    }
    sketch.faces_about(["finished left", "finished right"], (0.0, finished), (top, end)).between(
        "finished left",
        "finished right",
        Side::Below,
        Shows::limits(BORE_MAX.key, BORE_MIN.key),
    );
    sketch.between("outer end", "inner end", Side::Left, Shows::value(BUSH_LENGTH.key));
    // The taper's small end stands a little in the mouth; how long the reamer is nobody said.
    let shown = SHOWN * frame.length;
    let (enters, taper, above) = (top + 0.15 * shown, top - 0.35 * shown, top - shown);
    let small = 0.92 * from;
    sketch.tooling(vec![p(-to, above), p(to, above), p(to, taper), p(small, enters), p(-small, enters), p(-to, taper)]);
    sketch.breaks(p(-to, above), p(to, above)).breaks(p(-small, enters), p(small, enters));
    frame.axis(&mut sketch, above);
    sketch.push(Item::Turning { at: p(0.0, above), wrench: by_hand });
    sketch.balloon(crate::drawing::Balloon::Tool, p(to, f64::midpoint(above, taper)), Side::Right);
    sketch
}
