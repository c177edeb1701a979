//! The sketch in its zone: its scale and projection at its foot, and what had no room in words beside it.

use super::Sheet;
use super::block::{BODY, Block, DRAWN, in_line, plain};
use crate::drawing::{Balloon, Item, Projection, Sketch};
use crate::operations::Value;
use crate::proof::Judged;
use crate::quantity::{Shown, Unit, shown};
use crate::sheet::draughting::{Draft, Drawing, Fault};
use crate::sheet::figures;
use crate::sheet::fonts::Font;
use crate::sheet::page::{Anchor, AreaId, Kind, Page, Point, Rect, Role, Text};
use crate::sheet::told;
use crate::sheet::words;
use crate::shop::View;

/// What a page of its own keeps for the strip and the line of the scale, mm.
const STRIP: f64 = 70.0;

/// A sketch drawn, and what of it stands elsewhere.
#[derive(Clone, Debug, Default)]
pub(super) struct Drawn {
    /// Its balloons.
    pub balloons: Vec<Balloon>,
    /// The sizes left out, in words.
    pub left_out: String,
    /// The sketch, where it has a page of its own.
    pub apart: Option<Block>,
}

/// Draws the sketch into its zone: whole, else with smaller letters, else with sizes left out, the least important first:
/// those that no check judges, from the last in its list, then those judged. One that cannot be drawn so has a page of its
/// own.
pub(super) fn draw(sheet: &Sheet, page: &mut Page, area: AreaId, zone: Rect) -> Result<Drawn, Fault> {
    let Some(mut sketch) = sheet.set_up.map(|set_up| settable(sheet, &set_up.sketch)) else { return Err(Fault::Empty) };
    if let Some(draft) = whole(sheet, &sketch, zone)?
        && let Some(drawing) = drawn(sheet, &sketch, draft, (page, area, zone))?
    {
        return Ok(Drawn { balloons: drawing.balloons, ..Drawn::default() });
    }
    let whole = sketch.clone();
    let mut left_out = Vec::new();
    while left_out.len() < MOST_LEFT_OUT
        && let Some(key) = remove_least(sheet, &mut sketch)
    {
        left_out.push(key);
        if let Some(drawing) = attempt(sheet, &sketch, BODY.capital, (page, area, zone))? {
            let left_out = say_left_out(sheet, &left_out);
            return Ok(Drawn { balloons: drawing.balloons, left_out, apart: None });
        }
    }
    apart(sheet, whole, page, area, zone)
}

/// The whole sketch: with the smaller letters only where they allow a larger scale; nothing where it does not fit.
fn whole(sheet: &Sheet, sketch: &Sketch, zone: Rect) -> Result<Option<Draft>, Fault> {
    let (width, height) = (zone.width(), zone.height());
    let of = |capital| Draft::new(sketch.clone(), capital, |key| Some(in_sketch(sheet, key)));
    let (mut large, mut small) = (of(DRAWN.capital)?, of(BODY.capital)?);
    let Some(scale) = large.scale_in(width, height)? else {
        return Ok(small.scale_in(width, height)?.map(|_| small));
    };
    let larger = small.scale_over((width, height), scale)?;
    Ok(Some(if larger.is_some() { small } else { large }))
}

/// Most sizes that are left out of a sketch before it has a page of its own.
const MOST_LEFT_OUT: usize = 4;

/// The sketch on a page of its own, with sizes left out where even that is needed.
fn apart(sheet: &Sheet, mut sketch: Sketch, page: &mut Page, area: AreaId, zone: Rect) -> Result<Drawn, Fault> {
    let (width, height) = sheet.paper.size();
    let room = Rect::new(0.0, 0.0, width - 2.0 * super::flow::EDGE, height - STRIP);
    let mut left_out = Vec::new();
    loop {
        let mut own = Page::new(sheet.paper);
        let on = own.area(words::SKETCH, room);
        if let Some(drawing) = attempt(sheet, &sketch, BODY.capital, (&mut own, on, room))? {
            let says = Text::new(Font::Bold, Role::Body, BODY.capital, words::SKETCH_APART);
            page.open(Kind::P);
            let said = page.text(area, Point::new(zone.left, zone.top + 2.0 * BODY.capital), Anchor::Left, says);
            page.close();
            said?;
            let corner = Point::new(0.0, drawing.bounds.top - 0.3);
            let block = Block::of_page(&own, corner, drawing.bounds.height() + 1.2);
            return Ok(Drawn {
                balloons: drawing.balloons,
                left_out: say_left_out(sheet, &left_out),
                apart: Some(block),
            });
        }
        match remove_least(sheet, &mut sketch) {
            Some(key) => left_out.push(key),
            None => return Err(Fault::NoRoom { width: room.width(), height: room.height() }),
        }
    }
}

fn attempt(
    sheet: &Sheet,
    sketch: &Sketch,
    capital: f64,
    (page, area, room): (&mut Page, AreaId, Rect),
) -> Result<Option<Drawing>, Fault> {
    let draft = Draft::new(sketch.clone(), capital, |key| Some(in_sketch(sheet, key)))?;
    drawn(sheet, sketch, draft, (page, area, room))
}

/// Draws a sketch where it fits.
fn drawn(
    sheet: &Sheet,
    sketch: &Sketch,
    mut draft: Draft,
    (page, area, room): (&mut Page, AreaId, Rect),
) -> Result<Option<Drawing>, Fault> {
    if draft.scale_in(room.width(), room.height())?.is_none() {
        return Ok(None);
    }
    let figure = page.open(Kind::Figure);
    let drawing = draft.draw(page, area, room);
    page.close();
    let drawing = drawing?;
    page.describe(figure, told(sheet, sketch, &drawing));
    Ok(Some(drawing))
}

/// A drawn sketch in words.
fn told(sheet: &Sheet, sketch: &Sketch, drawing: &Drawing) -> String {
    let Some(set_up) = sheet.set_up else { return String::new() };
    let of = told::Of { part: &sheet.planned.address.part, set_up: &set_up.title, station: set_up.station };
    let named = |key: &'static str| {
        let name = sheet.planned.answer.value(key).map_or(key, |value| value.means);
        told::Named { name: name.into(), figure: in_sketch(sheet, key).replace('\n', " ") }
    };
    in_line(&told::sketch(sketch, of, drawing, named))
}

/// The sizes left out, in words.
fn say_left_out(sheet: &Sheet, left_out: &[&'static str]) -> String {
    if left_out.is_empty() {
        return String::new();
    }
    let said = left_out.iter().map(|key| match sheet.planned.answer.value(key) {
        Some(value) => {
            let figure = shown(value.number, Some(value.plus_minus), value.unit, value.rounds, sheet.plan.print);
            format!("{} {figure}", value.means)
        }
        None => format!("{key} {}", words::NONE),
    });
    format!("{} {}", words::LEFT_OUT, said.collect::<Vec<_>>().join("; "))
}

/// The sketch with its words as they may stand on a page.
fn settable(sheet: &Sheet, sketch: &Sketch) -> Sketch {
    let mut sketch = sketch.clone();
    sketch.projection = Some(match sheet.plan.view {
        View::FirstAngle => Projection::First,
        View::ThirdAngle => Projection::Third,
    });
    for item in &mut sketch.items {
        if let Item::Label { text, .. } | Item::Moving { label: text, .. } = item {
            *text = plain(text);
        }
    }
    sketch
}

/// Takes the least important size out of a sketch; gives back its name.
fn remove_least(sheet: &Sheet, sketch: &mut Sketch) -> Option<&'static str> {
    let is_judged = |item: &Item| match item {
        Item::Dimension { shows, .. } => {
            sheet.planned.answer.value(shows.value).is_some_and(|value| judged(sheet, value).is_some())
        }
        _ => false,
    };
    let sized = |item: &Item| matches!(item, Item::Dimension { .. });
    let plain = sketch.items.iter().rposition(|item| sized(item) && !is_judged(item));
    let at = plain.or_else(|| sketch.items.iter().rposition(sized))?;
    match sketch.items.remove(at) {
        Item::Dimension { shows, .. } => Some(shows.value),
        _ => None,
    }
}

/// A value as a sketch shows it: sizes without their unit, which the sketch's heading names, and with the limit that it is
/// judged by. A value that was not worked out is a dash.
fn in_sketch(sheet: &Sheet, key: &str) -> String {
    let print = sheet.plan.print;
    let Some(value) = sheet.planned.answer.value(key) else { return words::NONE.into() };
    let with_unit = |number: String, unit: &str| match value.unit {
        Unit::Mm => number,
        _ => format!("{number} {unit}").trim_end().to_owned(),
    };
    let shown = Shown::usual(value.number, Some(value.plus_minus), value.unit, value.rounds, print);
    let number = figures::number(&shown.number);
    // The doubt in a line of its own, of the first unit of print alone: figures beside each other would drive the
    // dimensions apart.
    let mut lines = match &shown.doubt {
        None => vec![words::marked(&with_unit(number, shown.unit), value.from_memory)],
        Some(doubt) => {
            vec![words::marked(&number, value.from_memory), format!("± {}", with_unit(doubt.to_string(), shown.unit))]
        }
    };
    lines.extend(shown.beside.iter().map(|beside| format!("({})", figures::number(&beside.number))));
    if let Some(judged) = judged(sheet, value) {
        // In the first unit of print alone.
        let limit = figures::limit_of(judged, print);
        let limit = with_unit(figures::number(&limit.number), limit.unit);
        lines.push(format!("{} {limit}", words::keep(judged.keep)));
    }
    lines.join("\n")
}

/// The figures of the check that a value was judged in; of several the worst.
fn judged<'a>(sheet: &Sheet<'a>, value: &Value) -> Option<&'a Judged> {
    let about = sheet.planned.answer.checks.iter().filter(|check| check.about == Some(value.key));
    about.filter_map(|check| Some((check.verdict()?, check.judged.as_ref()?))).max_by_key(|(v, _)| *v).map(|(_, j)| j)
}
