//! The sketch in its zone: its scale and projection at its foot, and what had no room in words beside it.

use super::Sheet;
use super::block::{BODY, Block, DRAWN, in_line, plain};
use super::{in_figures, wanted};
use crate::drawing::{Balloon, Item, Projection, Sketch};
use crate::operations::{Target, Value};
use crate::plan::View;
use crate::proof::{Dialled, Fact, Origin, Verdict};
use crate::quantity::{Decimals, Print, Rounds, Shown, Unit, as_written, parts_of_an_inch, shown};
use crate::sheet::as_typed::{self, Typed};
use crate::sheet::draughting::{Draft, Drawing, Fault};
use crate::sheet::figures;
use crate::sheet::fonts::Font;
use crate::sheet::page::{Anchor, AreaId, Kind, Page, Point, Rect, Role, Text};
use crate::sheet::told;
use crate::sheet::words;

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
    /// Its scale: so many mm of paper are one of the part; nothing of what has no scale.
    pub factor: f64,
}

/// Draws the sketch into its zone: whole, else with smaller letters, else with sizes left out, the least important first:
/// those that no check judges, from the last in its list, then those judged. One that cannot be drawn so has a page of its
/// own.
pub(super) fn draw(sheet: &Sheet, page: &mut Page, area: AreaId, zone: Rect) -> Result<Drawn, Fault> {
    let Some(mut sketch) = sheet.set_up.map(|set_up| settable(sheet, &set_up.sketch)) else { return Err(Fault::Empty) };
    let alone = Sheet { sketched_in: first_unit(sheet.sketched_in), ..sheet.clone() };
    let sheet = if larger_in_one_unit(sheet, &alone, &sketch, zone)? { &alone } else { sheet };
    if let Some((sketch, draft)) = largest(sheet, &sketch, zone)?
        && let Some(drawing) = drawn(sheet, &sketch, draft, (page, area, zone))?
    {
        return Ok(Drawn { balloons: drawing.balloons, factor: drawing.scale.factor(), ..Drawn::default() });
    }
    let whole = sketch.clone();
    let mut left_out = Vec::new();
    while left_out.len() < MOST_LEFT_OUT
        && let Some(key) = remove_least(sheet, &mut sketch)
    {
        left_out.push(key);
        if let Some(drawing) = attempt(sheet, &sketch, BODY.capital, (page, area, zone))? {
            let left_out = say_left_out(sheet, &left_out);
            let factor = drawing.scale.factor();
            return Ok(Drawn { balloons: drawing.balloons, left_out, apart: None, factor });
        }
    }
    apart(sheet, whole, page, area, zone)
}

fn first_unit(print: Print) -> Print {
    if print == Print::Both { Print::Metric } else { print }
}

/// Whether a sketch is drawn larger where its figures stand in the first unit of print alone: what is set and measured has
/// both on its sheet.
fn larger_in_one_unit(sheet: &Sheet, alone: &Sheet, sketch: &Sketch, zone: Rect) -> Result<bool, Fault> {
    if sheet.sketched_in == alone.sketched_in {
        return Ok(false);
    }
    let scale = |sheet: &Sheet| -> Result<f64, Fault> {
        let Some(mut draft) = whole(sheet, sketch, zone)? else { return Ok(0.0) };
        Ok(draft.scale_in(zone.width(), zone.height())?.map_or(0.0, |scale| scale.factor()))
    };
    Ok(scale(alone)? > scale(sheet)?)
}

/// A sketch smaller than this is hard to read: five of the part are one on the paper.
const SMALL: f64 = 0.2;
/// And so is a round part less high, mm of paper.
const SMALL_ROUND: f64 = 40.0;
/// So many times as large is worth a sign that stands elsewhere on the sheet too.
const WORTH: f64 = 2.0;

/// The whole sketch; where it would be small, or finds no room, without what stands with its target where it is measured, if it is
/// much larger so.
fn largest(sheet: &Sheet, sketch: &Sketch, zone: Rect) -> Result<Option<(Sketch, Draft)>, Fault> {
    let (width, height) = (zone.width(), zone.height());
    let mut best = None;
    let mut least = 0.0;
    let lighter = || lighter(sheet, sketch);
    for lighter in std::iter::once(sketch.clone()).chain(std::iter::once_with(lighter).flatten()) {
        let Some(mut draft) = whole(sheet, &lighter, zone)? else { continue };
        let scale = draft.scale_in(width, height)?.map_or(0.0, |scale| scale.factor());
        if scale >= least {
            best = Some((lighter, draft));
            least = scale * WORTH;
        }
        if scale > SMALL && !sketch.round.is_some_and(|diameter| diameter * scale < SMALL_ROUND) {
            break;
        }
    }
    Ok(best)
}

/// The sketch without the sign of roughness, and without further sizes too, where those stand with their target in the zone of what
/// is measured.
fn lighter(sheet: &Sheet, sketch: &Sketch) -> Vec<Sketch> {
    let Some(set_up) = sheet.set_up.filter(|_| !sheet.may_not_be_cut()) else { return Vec::new() };
    let targets = set_up.blanks.iter().filter_map(|blank| blank.target.as_ref()).skip(1);
    let aims: Vec<(f64, Unit)> = targets
        .filter_map(|target| match target {
            Target::Aim(Fact::Figure { number, unit, .. }) | Target::UpTo(Fact::Figure { number, unit, .. }) => {
                Some((*number, *unit))
            }
            _ => None,
        })
        .collect();
    let stands = |key: &str| {
        let value = sheet.planned.answer.value(key);
        value.is_some_and(|value| aims.contains(&(value.number, value.unit)))
    };
    let without = |also_sizes: bool| {
        let mut lighter = sketch.clone();
        lighter.items.retain(|item| match item {
            Item::Roughness { shows, .. } => !stands(shows.value),
            Item::Dimension { shows, .. } => !(also_sizes && stands(shows.value)),
            _ => true,
        });
        lighter
    };
    let mut all: Vec<Sketch> = vec![without(false), without(true)];
    all.dedup_by_key(|sketch| sketch.items.len());
    all.retain(|lighter| lighter.items.len() < sketch.items.len());
    all
}

/// The whole sketch: with the smaller letters only where they allow a larger scale; nothing where it does not fit.
fn whole(sheet: &Sheet, sketch: &Sketch, zone: Rect) -> Result<Option<Draft>, Fault> {
    let of = |capital| Draft::new(sketch.clone(), capital, |key| Some(said_in(sheet, sketch, key)));
    Draft::larger(of, [DRAWN.capital, BODY.capital], (zone.width(), zone.height()))
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
            say_apart(page, area, zone)?;
            let corner = Point::new(0.0, drawing.bounds.top - 0.3);
            let block = Block::of_page(&own, corner, drawing.bounds.height() + 1.2);
            return Ok(Drawn {
                balloons: drawing.balloons,
                left_out: say_left_out(sheet, &left_out),
                apart: Some(block),
                factor: 0.0,
            });
        }
        match remove_least(sheet, &mut sketch) {
            Some(key) => left_out.push(key),
            None => return Err(Fault::NoRoom { width: room.width(), height: room.height() }),
        }
    }
}

/// Says in the zone of a sketch that it stands elsewhere.
pub(super) fn say_apart(page: &mut Page, area: AreaId, zone: Rect) -> Result<(), Fault> {
    let says = Text::new(Font::Bold, Role::Body, BODY.capital, words::SKETCH_APART);
    page.open(Kind::P);
    let said = page.text(area, Point::new(zone.left, zone.top + 2.0 * BODY.capital), Anchor::Left, says);
    page.close();
    said?;
    Ok(())
}

fn attempt(
    sheet: &Sheet,
    sketch: &Sketch,
    capital: f64,
    (page, area, room): (&mut Page, AreaId, Rect),
) -> Result<Option<Drawing>, Fault> {
    let draft = Draft::new(sketch.clone(), capital, |key| Some(said_in(sheet, sketch, key)))?;
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
        let name = sheet.planned.answer.value(key).map_or("", |value| value.means);
        told::Named { name: name.into(), figure: in_sketch(sheet, key).in_line() }
    };
    in_line(&told::sketch(sketch, of, drawing, named))
}

/// The sizes left out, in words.
fn say_left_out(sheet: &Sheet, left_out: &[&'static str]) -> String {
    // What may not be cut has no size to be cut to; of what fails of it the figure stands here.
    if sheet.planned.verdict == Verdict::Fails {
        let figures = left_out.iter().filter_map(|key| in_figures::of_check(sheet, key));
        return figures.map(|figure| figure.replace('\n', " ")).collect::<Vec<_>>().join("; ");
    }
    if left_out.is_empty() {
        return String::new();
    }
    let print = first_unit(sheet.plan.print);
    // What is measured stands with its target where that is.
    let stands = |key: &&&str| {
        let value = sheet.planned.answer.value(key);
        value.is_some_and(|value| wanted::between(sheet, value).is_some() || wanted::is_aimed_at(sheet, value))
    };
    let said = left_out.iter().filter(|key| !stands(key)).map(|key| match sheet.planned.answer.value(key) {
        Some(value) => {
            let figure = as_typed::size(sheet.plan, value).map_or_else(
                || shown(value.number, Some(value.plus_minus), value.unit, value.rounds, print),
                |typed| typed.line(),
            );
            format!("{} {figure}", value.means)
        }
        None => format!("{key} {}", words::NONE),
    });
    let said: Vec<String> = said.collect();
    if said.is_empty() { String::new() } else { format!("{} {}", words::LEFT_OUT, said.join("; ")) }
}

/// The sketch with its words as they may stand on a page.
fn settable(sheet: &Sheet, sketch: &Sketch) -> Sketch {
    let mut sketch = sketch.tool_above();
    sketch.projection = Some(match sheet.plan.view {
        View::FirstAngle => Projection::First,
        View::ThirdAngle => Projection::Third,
    });
    for item in &mut sketch.items {
        if let Item::Label { text, .. } | Item::Moving { label: text, .. } = item {
            *text = plain(text);
        }
    }
    if sheet.may_not_be_cut() {
        // No zero is taken here, and no tool set.
        sketch.items.retain(|item| !matches!(item, Item::Balloon { balloon: Balloon::Zero | Balloon::Tool, .. }));
        // Nor is anything brought to a size: what is known of the part stands, and what fails.
        sketch.items.retain(|item| match item {
            Item::Roughness { .. } => false,
            Item::Dimension { shows, .. } => {
                let known =
                    |key: &str| sheet.planned.answer.value(key).is_none_or(|value| wanted::is_known(sheet, value));
                known(shows.value) && shows.least.is_none_or(known)
            }
            _ => true,
        });
        if sheet.number == 1 {
            in_figures::with_what_fails(sheet, &mut sketch);
        }
    }
    sketch
}

/// Takes the least important size out of a sketch, and after those a figure that fails; gives back its name.
fn remove_least(sheet: &Sheet, sketch: &mut Sketch) -> Option<&'static str> {
    let is_judged = |item: &Item| match item {
        Item::Dimension { shows, .. } => {
            sheet.planned.answer.value(shows.value).is_some_and(|value| in_figures::is_judged(sheet, value))
        }
        _ => false,
    };
    let sized = |item: &Item| matches!(item, Item::Dimension { .. });
    let plain = sketch.items.iter().rposition(|item| sized(item) && !is_judged(item));
    let named = |item: &Item| matches!(item, Item::Reads { shows, .. } if sheet.failing().iter().any(|check| check.id == shows.value));
    let at = plain.or_else(|| sketch.items.iter().rposition(sized));
    let at = at.or_else(|| sketch.items.iter().rposition(named))?;
    match sketch.items.remove(at) {
        Item::Dimension { shows, .. } | Item::Reads { shows, .. } => Some(shows.value),
        _ => None,
    }
}

/// A value as a sketch shows it; behind its name, where it stands named.
fn said_in(sheet: &Sheet, sketch: &Sketch, key: &str) -> String {
    let named =
        |item: &Item| matches!(item, Item::Reads { shows, .. } if shows.value == key && !shows.before.is_empty());
    let figure = in_sketch(sheet, key);
    match sheet.planned.answer.value(key).filter(|_| sketch.items.iter().any(named)) {
        Some(value) => format!("{}: {}", value.means, figure.in_line()),
        None => figure.stacked(),
    }
}

/// A figure in the lines that a sketch sets it in, and the limit that it is judged by.
struct InLines {
    /// Number, doubt, other unit.
    figure: Vec<String>,
    /// The limit.
    limit: Option<String>,
}

impl InLines {
    fn of(line: String) -> Self {
        Self { figure: vec![line], limit: None }
    }

    /// Under each other.
    fn stacked(self) -> String {
        self.figure.into_iter().chain(self.limit).collect::<Vec<_>>().join("\n")
    }

    /// In one line: the limit stands apart.
    fn in_line(self) -> String {
        let figure = self.figure.join(" ").replace('\n', " ");
        std::iter::once(figure).chain(self.limit).collect::<Vec<_>>().join(", ")
    }
}

/// A value as a sketch shows it: sizes without their unit, which the foot of the sheet names, unless they were written in
/// another, and with the limit that they are judged by. A value that was not worked out is a dash.
fn in_sketch(sheet: &Sheet, key: &str) -> InLines {
    let print = sheet.sketched_in;
    let Some(value) = sheet.planned.answer.value(key) else {
        return InLines::of(in_figures::of_check(sheet, key).unwrap_or_else(|| words::NONE.into()));
    };
    let own = words::unit_of_sizes(print);
    let with_unit = |number: String, unit: &str| match value.unit {
        Unit::Mm if unit == own => number,
        _ => format!("{number} {unit}").trim_end().to_owned(),
    };
    // What is made between two limits has them, the larger above: a doubt behind ± would be read as what is allowed.
    if let Some((low, high, decimals)) = wanted::between(sheet, value) {
        let (low, high) = Shown::window(low, high, value.unit, decimals, print);
        let ends = [high, low].map(|end| with_unit(figures::number(&end.number), end.unit));
        return InLines { figure: ends.into(), limit: None };
    }
    // A cold that is enough is read against its limit, not about its middle.
    if let Some(most) = wanted::cold_enough(sheet, value) {
        return InLines::of(figures::target_line(&most, print));
    }
    // The doubt in a line of its own: figures beside each other would drive the dimensions apart.
    let in_lines = |number: String, doubt: Option<String>, unit: &str| match doubt {
        None => vec![with_unit(words::marked(&number, value.from_memory), unit)],
        Some(doubt) => vec![words::marked(&number, value.from_memory), format!("± {}", with_unit(doubt, unit))],
    };
    let typed = as_typed::size(sheet.plan, value).or_else(|| as_called(value));
    // A limit stands in the unit of the size that it is read with.
    let print = match typed.as_ref().map(|typed| typed.unit) {
        Some(unit) if unit == words::unit_of_sizes(Print::Imperial) => Print::Imperial,
        Some(unit) if unit == words::unit_of_sizes(Print::Metric) => Print::Metric,
        _ => print,
    };
    let figure = match typed {
        Some(typed) => {
            let beside = in_other_unit(sheet, value, typed.unit);
            in_lines(typed.number, typed.doubt, typed.unit).into_iter().chain(beside).collect()
        }
        None => {
            let shown = as_set(sheet, value);
            let doubt = shown.doubt.as_ref().map(ToString::to_string);
            let mut lines = in_lines(figures::number(&shown.number), doubt, shown.unit);
            lines.extend(shown.beside.iter().map(|beside| format!("({})", figures::number(&beside.number))));
            lines
        }
    };
    InLines { figure, limit: in_figures::limit_of(sheet, value, print) }
}

/// A size that was written in one unit, in the other in brackets, where a sketch has both.
fn in_other_unit(sheet: &Sheet, value: &Value, unit: &str) -> Option<String> {
    if sheet.sketched_in != Print::Both || value.unit != Unit::Mm {
        return None;
    }
    let written_in_inches = unit == words::unit_of_sizes(Print::Imperial);
    let print = if written_in_inches { Print::Metric } else { Print::Imperial };
    let shown = Shown::usual(value.number, None, value.unit, value.rounds, print);
    let number = figures::number(&shown.number);
    // The foot says what brackets hold: what else stands there says its unit.
    Some(if written_in_inches { format!("({number} {})", shown.unit) } else { format!("({number})") })
}

/// A size of a table or of the drawer that is called by parts of an inch.
fn as_called(value: &Value) -> Option<Typed> {
    let number = parts_of_an_inch(value.number).filter(|_| is_named(value))?;
    let number = number.trim_end_matches(" in").to_owned();
    Some(Typed { number, doubt: None, unit: "in" })
}

/// Whether a size stands so in a table or in the drawer, or was written so.
fn is_named(value: &Value) -> bool {
    let whole = |parts: f64| (parts - parts.round()).abs() < 1e-6;
    let of_a_list = match *value.origin {
        Origin::Row(_) | Origin::Picked { .. } | Origin::Assumed(_) => true,
        Origin::Typed(_) => whole(value.number * 1000.0),
        _ => false,
    };
    of_a_list && value.plus_minus <= 0.0 && value.unit == Unit::Mm
}

/// Whether a size without doubt is reckoned to whole tenths: behind those stand noughts that nobody reads.
fn is_whole_tenths(value: &Value) -> bool {
    let tenths = value.number * 10.0;
    value.unit == Unit::Mm
        && value.plus_minus <= 0.0
        && value.number.abs() >= 1.0
        && (tenths - tenths.round()).abs() < 1e-6
}

/// A value as it is set and read: what a stop is set to as it is set, two limits as a gauge reads them, a size to be made as
/// the blank for it has it.
fn as_set(sheet: &Sheet, value: &Value) -> Shown {
    let print = sheet.sketched_in;
    // What a table or the drawer has is called as it stands there.
    let decimals = match value.unit {
        Unit::DegC => Decimals::Exactly(0),
        _ if is_named(value) || (is_whole_tenths(value) && print == Print::Metric) => Decimals::AsTyped,
        _ => Decimals::Usual,
    };
    let doubt = Some(value.plus_minus);
    let own = as_written(value.number, (value.unit, decimals), print);
    let usual = Shown::of(value.number, doubt, value.unit, (decimals, value.rounds), own);
    let Some(set_up) = sheet.set_up.filter(|_| value.unit == Unit::Mm) else { return usual };
    let window = set_up.sketch.items.iter().find_map(|item| match item {
        Item::Dimension { shows, .. } => {
            let of = |key| sheet.planned.answer.value(key).map(|value| value.number);
            let (least, most) = (of(shows.least?)?, of(shows.value)?);
            let (least, most) = (least.min(most), least.max(most));
            let (low, high) = Shown::window(least, most, Unit::Mm, Decimals::Usual, print);
            if shows.least == Some(value.key) { Some(low) } else { (shows.value == value.key).then_some(high) }
        }
        _ => None,
    });
    if let Some(limit) = window {
        return limit;
    }
    let stops = set_up.cuts().flat_map(|cut| &cut.passes).filter_map(|pass| match &pass.dial {
        Some(Dialled::Stop(counted)) => Some(counted),
        _ => None,
    });
    let mut stops = stops.filter(|counted| (counted.travel_mm - value.number).abs() < counted.division_mm);
    if let Some(counted) = stops.next() {
        let decimals = Decimals::Exactly(2);
        let doubt = Some(value.plus_minus);
        return Shown::of(counted.travel_mm, doubt, Unit::Mm, (decimals, Rounds::Nearest), print);
    }
    let made = set_up.blanks.iter().filter_map(|blank| match &blank.target {
        Some(Target::Aim(fact @ Fact::Figure { number, unit: Unit::Mm, .. })) if *number == value.number => {
            fact.shown(None, print)
        }
        _ => None,
    });
    made.into_iter().next().unwrap_or(usual)
}
