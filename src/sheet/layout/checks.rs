//! All checks of an operation: one line each, the failing first, with what would mend them; and what else was worked and
//! compared. They stand on the working page.

use super::Sheet;
use super::block::{BODY, Block, HAIR, STRONG, Style, as_one};
use super::flow::Section;
use super::lists::{Caption, bars, chunks, headed};
use crate::in_order::InOrder;
use crate::operations::Alternative;
use crate::proof::{Check, Verdict};
use crate::quantity::Print;
use crate::sheet::figures::{self, Cell};
use crate::sheet::fonts::Fault;
use crate::sheet::page::{Anchor, Fill, Kind, Point, Rect, Scope};
use crate::sheet::words;

/// Width of the verdicts, mm.
const VERDICT: f64 = 21.0;
/// Between columns, mm.
const GUTTER: f64 = 2.6;
/// Between a margin and its unit, mm.
const UNIT: f64 = 1.6;
/// Above and below a check, mm.
const PAD: f64 = 0.45;
/// Above and below a alternative, mm.
const CLOSE: f64 = 0.4;
/// Width of the mark before a failing check, mm.
const MARK: f64 = 1.4;
/// Where a verdict begins, mm.
const INDENT: f64 = 2.2;
/// Most lines of a name in its column.
const MOST_LINES: f64 = 6.0;
/// Widest name of a alternative, mm.
const NAME: f64 = 44.0;

/// A check with its figures as they will be set.
struct Row {
    verdict: Verdict,
    /// Its verdict in a word; advice has one of its own.
    word: &'static str,
    asks: String,
    cells: [Vec<Cell>; 3],
    units: Vec<&'static str>,
    remedies: Vec<String>,
}

impl Row {
    fn unmade(asks: String) -> Self {
        Self {
            verdict: Verdict::Doubtful,
            word: words::verdict(Verdict::Doubtful),
            asks,
            cells: Default::default(),
            units: Vec::new(),
            remedies: Vec::new(),
        }
    }

    fn has_figures(&self) -> bool {
        !self.units.is_empty()
    }
}

/// The columns of the figures: where their decimal points stand, and their right ends for figures without one, mm.
struct Columns {
    words: f64,
    point: [f64; 3],
    right: [f64; 3],
    unit: f64,
}

/// The checks of an operation.
pub(super) fn section(sheet: &Sheet, width: f64) -> Result<Section, Fault> {
    let made = sheet.planned.answer.checks.iter().filter(|check| check.verdict().is_some());
    let mut rows: Vec<Row> = made.map(|check| row(check, sheet.plan.print)).collect();
    let [must, _] = sheet.planned.unmade();
    rows.extend(must.iter().map(|unmade| Row::unmade(words::unmade(unmade))));
    // The failing first; within a verdict those with figures before those without.
    rows.order_by_key(|row| (std::cmp::Reverse(row.verdict), !row.has_figures(), row.word != words::ADVICE));
    let columns = Columns::of(&rows, width)?;
    let mut blocks = Vec::new();
    for row in &rows {
        blocks.extend(check(row, &columns, width)?);
    }
    as_one(&mut blocks, Kind::Table);
    let captions = if rows.iter().any(Row::has_figures) { columns.captions() } else { Vec::new() };
    let bar = Some(headed(width, words::CHECKS, words::CHECKS, &captions)?);
    Ok(Section { name: words::CHECKS, bar, rows: blocks })
}

fn row(check: &Check<String>, print: Print) -> Row {
    let all = check.judged.as_ref().map_or_else(Default::default, |judged| {
        [figures::got(judged, print), figures::limit(judged, print), figures::margin(judged, print)]
    });
    let longest = all.iter().max_by_key(|lines| lines.len());
    let units = longest.map_or_else(Vec::new, |cells| cells.iter().map(|cell| cell.unit).collect());
    let remedies = super::verdict::remedies(check).iter().map(|text| format!("→ {text}")).collect();
    Row {
        verdict: check.stamps().or(check.verdict().map(|_| Verdict::Proven)).unwrap_or(Verdict::Doubtful),
        word: words::verdict_of(check),
        asks: words::marked(&check.asks, check.from_memory),
        cells: all,
        units,
        remedies,
    }
}

/// Widths of a figure up to its decimal point and from it on, mm; nothing where it has none.
fn about_point(cell: &Cell) -> Result<Option<(f64, f64)>, Fault> {
    if cell.from_point.is_empty() {
        return Ok(None);
    }
    let before = BODY.width(&cell.before)?;
    Ok(Some((before, BODY.width(&cell.figure())? - before)))
}

impl Columns {
    fn of(rows: &[Row], width: f64) -> Result<Self, Fault> {
        let captions = [words::FIGURE, words::LIMIT, words::MARGIN];
        let (mut point, mut right) = ([0.0; 3], [0.0; 3]);
        let mut unit = 0.0_f64;
        for text in rows.iter().flat_map(|row| &row.units) {
            unit = unit.max(BODY.width(text)?);
        }
        let mut end = width - unit - UNIT;
        for ((at, caption), (point, right)) in
            captions.iter().enumerate().rev().zip(point.iter_mut().zip(&mut right).rev())
        {
            let (mut before, mut after, mut whole) = (0.0_f64, 0.0_f64, BODY.width(caption)?);
            for cell in rows.iter().filter_map(|row| row.cells.get(at)).flatten() {
                match about_point(cell)? {
                    Some((b, a)) => (before, after) = (before.max(b), after.max(a)),
                    None => whole = whole.max(BODY.width(&cell.figure())?),
                }
            }
            let wide = whole.max(before + after);
            (*point, *right) = (end - after, end);
            end -= wide + GUTTER;
        }
        Ok(Self { words: end - VERDICT - INDENT, point, right, unit: width - unit })
    }

    fn captions(&self) -> Vec<Caption> {
        self.right.into_iter().zip([words::FIGURE, words::LIMIT, words::MARGIN]).collect()
    }
}

fn check(row: &Row, columns: &Columns, width: f64) -> Result<Vec<Block>, Fault> {
    let x = INDENT + VERDICT;
    let room = if row.has_figures() { columns.words } else { width - x };
    let style = if row.verdict == Verdict::Proven { BODY } else { STRONG };
    let mut blocks = chunks(&style.wrap(&row.asks, room)?, x, PAD, style)?;
    if blocks.is_empty() {
        blocks.push(Block::new(0.0));
    }
    as_one(&mut blocks, Kind::Cell);
    if let Some(first) = blocks.first_mut() {
        let end = figures_of(first, row, columns)?;
        first.height = first.height.max(end + PAD);
        verdict(first, row.verdict, row.word, PAD)?;
    }
    for (at, remedy) in row.remedies.iter().enumerate() {
        let lines = BODY.wrap(remedy, width - x)?;
        if let (Some(last), 0) = (blocks.last_mut(), at) {
            last.keep = true;
        }
        let mut some = chunks(&lines, x, PAD / 2.0, BODY)?;
        as_one(&mut some, Kind::Cell);
        blocks.extend(some);
    }
    as_one(&mut blocks, Kind::Row);
    // Never the last line alone on the next page.
    if let [_, .., before, _] = blocks.as_mut_slice() {
        before.keep = true;
    }
    if row.verdict == Verdict::Fails {
        for block in &mut blocks {
            block.rectangle(Rect::new(0.0, 0.0, MARK, block.height), Fill::Ink, None);
        }
    }
    if let Some(last) = blocks.last_mut() {
        last.line(Point::new(0.0, last.height), Point::new(width, last.height), HAIR);
    }
    Ok(blocks)
}

fn figures_of(block: &mut Block, row: &Row, columns: &Columns) -> Result<f64, Fault> {
    let mut end = 0.0_f64;
    for (cells, (point, right)) in row.cells.iter().zip(columns.point.iter().zip(&columns.right)) {
        let mut y = PAD;
        if cells.is_empty() {
            continue;
        }
        block.open(Kind::Cell);
        for cell in cells {
            let text = cell.figure();
            let x = match about_point(cell)? {
                Some((before, _)) => point - before,
                None => right - BODY.width(&text)?,
            };
            y = block.lines(x, y, BODY, &[text])?;
        }
        block.close();
        end = end.max(y);
    }
    let mut y = PAD;
    if !row.units.is_empty() {
        block.open(Kind::Cell);
        for unit in &row.units {
            y = block.lines(columns.unit, y, BODY, &[(*unit).to_owned()])?;
        }
        block.close();
    }
    Ok(end.max(y))
}

/// The verdict of a row in a word: what is not proven stands bold.
fn verdict(block: &mut Block, verdict: Verdict, word: &str, top: f64) -> Result<(), Fault> {
    let style: Style = if verdict == Verdict::Proven { BODY } else { STRONG };
    let head = Some((Kind::HeadCell(Scope::Row), None));
    block.lead(head, Point::new(INDENT, top + style.capital), (Anchor::Left, style), word)?;
    block.height = block.height.max(top + style.capital + top);
    Ok(())
}

/// What else was worked: name, verdict, why not.
pub(super) fn alternatives(alternatives: &[Alternative<String>], print: Print, width: f64) -> Result<Section, Fault> {
    let mut wide = 0.0_f64;
    for alternative in alternatives {
        wide = wide.max(STRONG.width(&super::block::plain(&alternative.name))?);
    }
    let name = wide.min(NAME.min(width / 3.0)) + GUTTER;
    let x = INDENT + VERDICT + name;
    let mut blocks = Vec::new();
    for alternative in alternatives {
        let why = words::why(alternative, print);
        let style = if alternative.chosen { STRONG } else { BODY };
        if STRONG.width(&super::block::plain(&alternative.name))? > MOST_LINES * NAME {
            // A name that would be higher than the page in its column.
            let of = words::verdict(alternative.answer.verdict());
            let text = format!("{of}: {}, {why}", alternative.name);
            blocks.extend(chunks(&style.wrap(&text, width - INDENT)?, INDENT, CLOSE, style)?);
            continue;
        }
        let mut block = Block::new(0.0);
        block.open(Kind::Cell);
        let named = block.paragraph(INDENT + VERDICT, CLOSE, name - GUTTER, STRONG, &alternative.name)?;
        block.close();
        block.open(Kind::Cell);
        let said = block.paragraph(x, CLOSE, width - x, style, &why)?;
        block.close();
        block.height = named.max(said) + CLOSE;
        let of = alternative.answer.verdict();
        verdict(&mut block, of, words::verdict(of), CLOSE)?;
        block.wrap(Kind::Row, false);
        block.wrap(Kind::Table, true);
        blocks.push(block);
    }
    Ok(Section { name: words::ALTERNATIVES, bar: Some(bars(width, words::ALTERNATIVES, &[])?), rows: blocks })
}
