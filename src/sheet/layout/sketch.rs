//! The sketch block: the largest sketch that leaves the set-up on one page, with its scale, projection and what had no room.

use super::Sheet;
use super::block::{BODY, Block, HEAD, in_line, plain};
use super::lists::bar;
use crate::drawing::{Item, Shows, Sketch};
use crate::operations::Value;
use crate::proof::Judged;
use crate::quantity::{Shown, Unit, shown};
use crate::sheet::draughting::{self, Draft, Fault, Scale, Stretch};
use crate::sheet::page::{Kind, Page, Point, Rect};
use crate::sheet::told;
use crate::sheet::words;
use crate::sheet::{figures, fonts};

/// Between the sketch and what stands beside it, mm.
const GUTTER: f64 = 4.0;
/// Between the name and the projection in the bar, with its ends, mm.
const AIR: f64 = 5.0;

/// How much of a page a sketch may take.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Placing {
    /// Beside the holding: share of the width, height in mm.
    Beside(f64, f64),
    /// Over the whole width, so many mm high.
    Wide(f64),
    /// On a page of its own.
    Apart,
}

/// The most room that a sketch takes on the page of the cuts: what the smaller placings are held against.
pub(super) const MOST: Placing = Placing::Wide(110.0);

/// The placings tried, in order. Of those whose drawing shows the part well, the first that costs no page is taken, else
/// the first of those with the fewest pages.
pub(super) const PLACINGS: [Placing; 14] = [
    Placing::Beside(0.54, 86.0),
    Placing::Beside(0.66, 86.0),
    Placing::Beside(0.54, 60.0),
    Placing::Beside(0.66, 60.0),
    Placing::Beside(0.54, 45.0),
    Placing::Beside(0.66, 45.0),
    Placing::Beside(0.44, 60.0),
    Placing::Beside(0.75, 70.0),
    Placing::Beside(0.44, 45.0),
    Placing::Beside(0.54, 38.0),
    Placing::Beside(0.66, 38.0),
    Placing::Beside(0.54, 110.0),
    Placing::Wide(70.0),
    MOST,
];

/// A drawing smaller than the part and than this share of the largest (one step of ISO 5455) is not taken: its details would
/// be lost.
const SMALLEST: f64 = 0.39;

impl Placing {
    /// Width and height for the drawing, mm; `page` is the room of a whole page.
    fn room(self, page: (f64, f64)) -> (f64, f64) {
        match self {
            Self::Beside(share, high) => ((page.0 * share).floor(), high),
            Self::Wide(high) => (page.0, high),
            Self::Apart => (page.0, page.1 - 24.0),
        }
    }

    /// Where what stands beside the sketch begins, mm.
    pub(super) fn beside(self, width: f64) -> Option<f64> {
        match self {
            Self::Beside(share, _) => Some((width * share).floor() + GUTTER),
            _ => None,
        }
    }
}

/// A sketch drawn.
#[derive(Clone, Debug)]
pub(super) struct Drawn {
    /// With its bar.
    pub block: Block,
    scale: Scale,
    stretch: Stretch,
}

impl Drawn {
    /// Whether it shows the part about as well as the largest drawing: to scale where that is, and not much smaller. Where
    /// every millimetre counts a drawing half as large as the part will do, as long as it can be read.
    pub(super) fn is_worth_taking(&self, largest: &Self, close: bool) -> bool {
        let to_scale = self.stretch == Stretch::None || largest.stretch != Stretch::None || close;
        let whole = if close { 0.5 } else { 1.0 };
        let share = if close { SMALLEST * SMALLEST } else { SMALLEST };
        to_scale && self.scale.factor() >= f64::min(whole, share * largest.scale.factor())
    }
}

/// The drawings of one sheet: the sketch laid out once for a scale, each drawing made once, however often the sheet is set.
#[derive(Default)]
pub(super) struct Drawings {
    draft: Option<Draft>,
    made: Vec<(Placing, Option<Drawn>)>,
}

impl Drawings {
    /// The sketch drawn for a placing; nothing where it does not fit.
    pub(super) fn drawn(&mut self, sheet: &Sheet, placing: Placing, page: (f64, f64)) -> Result<Option<Drawn>, Fault> {
        if let Some((_, drawn)) = self.made.iter().find(|(known, _)| *known == placing) {
            return Ok(drawn.clone());
        }
        let Some(set_up) = sheet.set_up else { return Ok(None) };
        let draft = match &mut self.draft {
            Some(draft) => draft,
            none => none.insert(drafted(sheet, settable(&set_up.sketch))?),
        };
        let drawn = attempt(sheet, draft, &[], placing.room(page))?;
        self.made.push((placing, drawn.clone()));
        Ok(drawn)
    }
}

/// The sketch with its words as they may stand on a page.
fn settable(sketch: &Sketch) -> Sketch {
    let mut sketch = sketch.clone();
    for item in &mut sketch.items {
        if let Item::Label { text, .. } | Item::Moving { label: text, .. } | Item::Exaggerated { what: text, .. } = item
        {
            *text = plain(text);
        }
    }
    sketch
}

/// Draws the sketch with sizes left out, the least important first: those that no check judges, from the last in its list,
/// then those judged. What is left out stands under it in words.
pub(super) fn thinned(sheet: &Sheet, page: (f64, f64)) -> Result<Drawn, Fault> {
    let room = Placing::Apart.room(page);
    let Some(mut sketch) = sheet.set_up.map(|set_up| settable(&set_up.sketch)) else { return Err(Fault::Empty) };
    let mut left_out = Vec::new();
    while let Some(key) = remove_least(sheet, &mut sketch) {
        left_out.push(key);
        let mut draft = drafted(sheet, sketch.clone())?;
        if let Some(drawn) = attempt(sheet, &mut draft, &left_out, room)? {
            return Ok(drawn);
        }
    }
    Err(Fault::NoRoom { width: room.0, height: room.1 })
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

fn attempt(
    sheet: &Sheet,
    draft: &mut Draft,
    left_out: &[&'static str],
    (width, height): (f64, f64),
) -> Result<Option<Drawn>, Fault> {
    let Some((page, drawing)) = draw(sheet, draft, width, height)? else { return Ok(None) };
    let bar = heading(sheet, width)?;
    let corner = Point::new(0.0, drawing.bounds.top - 0.3);
    let picture = Block::of_page(&page, corner, drawing.bounds.bottom - corner.y + 0.3);
    let mut block = bar.clone();
    block.set(&picture, 0.0, bar.height);
    block.height = bar.height + picture.height;
    block.height = say_left_out(sheet, &mut block, left_out, width)?;
    Ok(Some(Drawn { block, scale: drawing.scale, stretch: drawing.stretch }))
}

/// The bar over the sketch: its name, the unit of its sizes where there is room (the foot says it too), the projection.
fn heading(sheet: &Sheet, width: f64) -> Result<Block, Fault> {
    let projection = words::projection(sheet.plan.view);
    let whole = format!("{}, {}", words::SKETCH, words::lengths(sheet.plan.print));
    let taken = HEAD.width(&whole)? + BODY.width(projection)? + AIR;
    let name = if taken <= width { whole.as_str() } else { words::SKETCH };
    Ok(bar(width, name, &[(width - 1.0, projection)])?)
}

/// The sizes left out, in words under the sketch.
fn say_left_out(sheet: &Sheet, block: &mut Block, left_out: &[&'static str], width: f64) -> Result<f64, fonts::Fault> {
    if left_out.is_empty() {
        return Ok(block.height);
    }
    let said = left_out.iter().map(|key| match sheet.planned.answer.value(key) {
        Some(value) => {
            let figure = shown(value.number, Some(value.plus_minus), value.unit, value.rounds, sheet.plan.print);
            format!("{} {figure}", value.means)
        }
        None => format!("{key} {}", words::NONE),
    });
    let text = format!("{} {}", words::LEFT_OUT, said.collect::<Vec<_>>().join("; "));
    block.paragraph(0.0, block.height + 1.0, width, BODY, &text)
}

/// The sketch with its figures.
fn drafted(sheet: &Sheet, sketch: Sketch) -> Result<Draft, Fault> {
    Draft::new(sketch, |key| Some(in_sketch(sheet, key)))
}

/// The drawing on a page of its own making; nothing where there is no room.
fn draw(
    sheet: &Sheet,
    draft: &mut Draft,
    width: f64,
    height: f64,
) -> Result<Option<(Page, draughting::Drawing)>, Fault> {
    let mut page = Page::new(sheet.paper);
    let room = Rect::new(0.0, 0.0, width, height);
    let area = page.area(words::SKETCH, room);
    let figure = page.open(Kind::Figure);
    let drawn = draft.draw(&mut page, area, room);
    page.close();
    match drawn {
        Ok(drawing) => {
            // What the drawing says of itself; the finished page says the rest.
            page.describe(figure, drawing.notes.join(". "));
            Ok(Some((page, drawing)))
        }
        Err(Fault::NoRoom { .. }) => Ok(None),
        Err(fault) => Err(fault),
    }
}

/// The sketches of a page in words, of which each has its drawing's notes so far.
pub(super) fn tell(sheet: &Sheet, page: &mut Page) {
    let figures = page.numbered_elements().filter(|(_, element)| element.kind == Kind::Figure);
    let figures: Vec<_> = figures.filter_map(|(id, element)| Some((id, element.alt.clone()?))).collect();
    for (figure, notes) in figures {
        page.describe(figure, told(sheet, &notes));
    }
}

/// The sketch of a sheet in words.
fn told(sheet: &Sheet, notes: &str) -> String {
    let Some(set_up) = sheet.set_up else { return notes.into() };
    let of = told::Of { part: &sheet.planned.address.part, set_up: &set_up.title, station: set_up.station };
    let named = |shows: &Shows| {
        let name = sheet.planned.answer.value(shows.value).map_or(shows.value, |value| value.means);
        told::Named { name: name.into(), figure: in_sketch(sheet, shows.value).replace('\n', " ") }
    };
    in_line(&told::sketch(&set_up.sketch, of, notes, named))
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

/// Whether a size of the sketch rests on memory, so that the foot has to say what its mark means.
pub(super) fn rests_on_memory(sheet: &Sheet) -> bool {
    let rests = |key: &str| sheet.planned.answer.value(key).is_some_and(|value| value.from_memory);
    sheet.set_up.is_some_and(|set_up| {
        set_up.sketch.items.iter().any(|item| match item {
            Item::Dimension { shows, .. } | Item::Roughness { shows, .. } => rests(shows.value),
            _ => false,
        })
    })
}

/// The figures of the check that a value was judged in; of several the worst.
fn judged<'a>(sheet: &Sheet<'a>, value: &Value) -> Option<&'a Judged> {
    let about = sheet.planned.answer.checks.iter().filter(|check| check.about == Some(value.key));
    about.filter_map(|check| Some((check.verdict()?, check.judged.as_ref()?))).max_by_key(|(v, _)| *v).map(|(_, j)| j)
}
