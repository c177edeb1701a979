//! The day on one page: bars, the list with clock times, and below in two columns what must be to hand and what is said beside.

mod bars;
mod columns;
mod list;

use super::block::{BODY, Block, SECOND, STRONG, Style, in_line, plain};
use super::flow::EDGE;
use super::strip::on_one_line;
use super::{Bundle, Fault, Working, bundles};
use crate::in_order::InOrder;
use crate::plan::Plan;
use crate::plan::day::Day;
use crate::sheet::page::{Anchor, Kind, Page, Paper, Point, Rect};
use crate::sheet::pdf::{self, Chapter, Leaf, Meta, Packed};
use crate::sheet::words::day as said;
use crate::sheet::{check, fonts, words};
use bars::Minutes;

/// Height of the strip, mm.
const STRIP: f64 = 23.8;
/// Between parts of the page, mm.
const GAP: f64 = 1.0;
/// The page as faults and labels name it.
const ID: &str = "day";

/// Pages in the making: where the next thing stands.
struct Sheet {
    paper: Paper,
    pages: Vec<Page>,
    y: f64,
    /// Height of a row of the list, mm.
    row: f64,
}

impl Sheet {
    fn new(paper: Paper, row: f64) -> Self {
        let mut sheet = Self { paper, pages: Vec::new(), y: 0.0, row };
        sheet.turn();
        sheet
    }

    /// Begins the next page.
    fn turn(&mut self) {
        self.pages.push(Page::new(self.paper));
        self.y = EDGE + STRIP;
    }

    /// Width between the margins, mm.
    fn width(&self) -> f64 {
        self.paper.size().0 - 2.0 * EDGE
    }

    fn floor(&self) -> f64 {
        self.paper.size().1 - EDGE
    }

    /// Puts a block at the left margin, on the next page where this one has no room.
    fn put(&mut self, name: &'static str, block: &Block, kind: Kind) {
        if self.y + block.height > self.floor() && self.y > EDGE + STRIP {
            self.turn();
        }
        let (top, right) = (self.y, self.paper.size().0 - EDGE);
        if let Some(page) = self.pages.last_mut() {
            let area = page.area(name, Rect::new(EDGE, top, right, top + block.height));
            block.clone().onto(page, area, (EDGE, top), kind);
        }
        self.y += block.height;
    }
}

/// The page of a day; a long day goes on overleaf.
///
/// # Errors
/// As [`super::pages`].
pub fn day_pages(day: &Day) -> Result<Vec<Page>, Fault> {
    let letters = |fault| Fault::Letters { sheet: ID.into(), part: said::TIMETABLE, fault };
    let mut sheet = put_all(day, Minutes::Whole, list::AIRY).map_err(letters)?;
    // A page is worth more than air between the rows, and than the minutes of the machines, which are seen in the bars.
    let tighter = [Minutes::Whole, Minutes::Hands, Minutes::None].into_iter();
    for (minutes, row) in tighter.flat_map(|minutes| list::CLOSER.map(|row| (minutes, row))) {
        if sheet.pages.len() > 1 {
            let closer = put_all(day, minutes, row).map_err(letters)?;
            if closer.pages.len() < sheet.pages.len() {
                sheet = closer;
            }
        }
    }
    let count = sheet.pages.len();
    for (at, page) in sheet.pages.iter_mut().enumerate() {
        let before = page.marks.len();
        strip(day, page, (at + 1, count)).map_err(letters)?;
        page.lead_with(before, at == 0);
        let faults = check::faults(page);
        if !faults.is_empty() {
            return Err(Fault::Page { sheet: ID.into(), page: at + 1, faults });
        }
    }
    Ok(sheet.pages)
}

/// All but the strip, with so much of the minutes of the machines, the rows of the list so high.
fn put_all(day: &Day, minutes: Minutes, row: f64) -> Result<Sheet, fonts::Fault> {
    let mut sheet = Sheet::new(day.paper, row);
    bars::put(&mut sheet, day)?;
    bars::minutes(&mut sheet, day, minutes)?;
    list::put(&mut sheet, day)?;
    columns::put(&mut sheet, day)?;
    Ok(sheet)
}

/// The strip: what day it is, when it ends, whose jobs, how good the order is.
fn strip(day: &Day, page: &mut Page, (number, pages): (usize, usize)) -> Result<(), fonts::Fault> {
    let (width, right) = (page.paper.size().0, page.paper.size().0 - EDGE);
    let half = (width - check::PIN.0) / 2.0 - 1.0;
    let left_zone = Rect::new(EDGE, EDGE, half, EDGE + 13.0);
    let mut block = Block::new(left_zone.height());
    let title = day.date.map_or_else(|| said::DAY_PAGE.to_owned(), |date| date.to_string());
    block.text(Point::new(0.0, 5.6), Anchor::Left, SECOND, &title)?;
    let of_page = on_one_line(BODY, &words::page(number, pages), left_zone.width())?;
    block.text(Point::new(0.0, 11.8), Anchor::Left, BODY, &of_page)?;
    block.wrap(Kind::H1, false);
    put(page, "day", left_zone, &block);
    // Hours with many breaks stand in two lines.
    let right_zone = Rect::new(width - half, EDGE, right, EDGE + 13.4);
    let open = format!("{} {}", said::OPEN, said::hours(day));
    let open = if BODY.width(&plain(&open))? <= right_zone.width() || day.hours.len() < 2 {
        vec![on_one_line(BODY, &open, right_zone.width())?]
    } else {
        let two = said::hours_in_two(day);
        two.iter().map(|line| on_one_line(BODY, line, right_zone.width())).collect::<Result<Vec<_>, _>>()?
    };
    let bases: &[f64] = if open.len() == 2 { &[5.3, 8.6, 12.8] } else { &[5.6, 11.8] };
    let mut block = Block::new(right_zone.height());
    let finish = format!("{} {}", said::FINISH, said::finish(day));
    // The end on another day has its date too, and smaller letters where it is long.
    let style = if SECOND.width(&plain(&finish))? <= right_zone.width() { SECOND } else { STRONG };
    let finish = on_one_line(style, &finish, right_zone.width())?;
    let stand = std::iter::once((style, &finish)).chain(open.iter().map(|line| (BODY, line)));
    for ((style, text), base) in stand.zip(bases) {
        block.text(Point::new(right_zone.width(), *base), Anchor::Right, style, text)?;
    }
    put(page, "finish", right_zone, &block);
    let zone = Rect::new(EDGE, EDGE + 13.5, right, EDGE + STRIP);
    let mut block = Block::new(zone.height());
    let names = day.jobs.iter().chain(&day.engines).chain(&day.shop).cloned().collect::<Vec<_>>().join(" · ");
    let lines = [(STRONG, names), (BODY, format!("{} · {}", said::proof(day), said::sums(day)))];
    for ((style, text), base) in lines.iter().zip([4.4, 9.4]) {
        let text = on_one_line(*style, text, zone.width())?;
        block.text(Point::new(0.0, base), Anchor::Left, *style, &text)?;
    }
    put(page, "facts", zone, &block);
    Ok(())
}

fn put(page: &mut Page, name: &str, zone: Rect, block: &Block) {
    let area = page.area(name, zone);
    block.clone().onto(page, area, (zone.left, zone.top), Kind::P);
}

/// Base line and height of a row between rules that holds texts in one line: as wished, and more where a letter is tall.
fn row_of(texts: &[(Style, &str)], wished: f64) -> Result<(f64, f64), fonts::Fault> {
    const AIR: f64 = 0.1;
    row_with(texts, wished, AIR)
}

/// The same with so much air over and under the letters.
fn row_with(texts: &[(Style, &str)], wished: f64, air: f64) -> Result<(f64, f64), fonts::Fault> {
    const UNDER: f64 = 0.9;
    let (mut above, mut below) = (0.0, 0.0);
    for (style, text) in texts {
        let size = fonts::measure(style.font, style.capital, text)?;
        (above, below) = (f64::max(above, size.above), f64::max(below, size.below));
    }
    let base = f64::max(wished - UNDER, above + air);
    Ok((base, f64::max(wished, base + below + air)))
}

/// A tick box in a row that is so high.
fn tick_box(block: &mut Block, x: f64, height: f64) {
    const SIDE: f64 = 3.0;
    let top = (height - SIDE) / 2.0;
    block.open_as(Kind::Cell, words::BLANK);
    block.rectangle(Rect::new(x, top, x + SIDE, top + SIDE), crate::sheet::page::Fill::None, Some(0.25));
    block.close();
}

/// A text cut to a width, where it is longer.
fn fitted(style: Style, text: &str, width: f64) -> Result<String, fonts::Fault> {
    on_one_line(style, text, width)
}

/// The page of a day as PDF, with the sheets of the jobs behind it in the order of the day; without jobs the page alone.
///
/// # Errors
/// As [`super::pdf()`].
pub fn day_pdf(day: &Day, plans: &[Plan]) -> Result<Vec<u8>, Fault> {
    let packed = |pages: &[Page]| -> Result<Vec<Packed>, Fault> {
        Ok(pages.iter().zip(1..).map(|(page, number)| Packed::new(page, number)).collect::<Result<_, _>>()?)
    };
    let mut all = packed(&day_pages(day)?)?;
    let own = Leaf { id: ID.into(), title: said::TIMETABLE.into(), page: 0 };
    let mut chapters = vec![Chapter { title: said::DAY_PAGE.into(), sheets: vec![own] }];
    let mut behind = Vec::new();
    for bundle in in_order(day, plans)? {
        behind.push(Leaf { id: bundle.id, title: bundle.title, page: all.len() });
        all.extend(bundle.pages);
    }
    if !behind.is_empty() {
        chapters.push(Chapter { title: words::SHEETS.into(), sheets: behind });
    }
    let names = |names: Vec<&String>| names.into_iter().map(|name| in_line(name)).collect::<Vec<_>>().join("; ");
    let meta = Meta {
        title: format!("{}: {}", said::DAY_PAGE, names(day.jobs.iter().collect())),
        author: names(day.shop.iter().collect()),
        language: words::LANGUAGE.into(),
        date: day.date.map(|date| date.to_string()),
        chapters,
    };
    Ok(pdf::bound(all, &meta)?)
}

/// The sheets of the day's timetable, in its order: none of what is done, left out, or for another day.
fn in_order(day: &Day, plans: &[Plan]) -> Result<Vec<Bundle<Packed>>, Fault> {
    let packed = |_: &str, pages: Vec<Page>| -> Result<Vec<Packed>, Fault> {
        Ok(pages.iter().zip(1..).map(|(page, number)| Packed::new(page, number)).collect::<Result<_, _>>()?)
    };
    let place = |id: &str| day.lines.iter().position(|line| line.id == id);
    let all = bundles(plans, Working::None.into(), packed)?.into_iter();
    let mut all: Vec<_> = all.filter_map(|sheet| Some((place(&sheet.id)?, sheet))).collect();
    all.order_by_key(|(place, _)| *place);
    Ok(all.into_iter().map(|(_, sheet)| sheet).collect())
}
