//! Checks: one line each, the failing first, with what would mend them; and what else was worked and compared.

use super::block::{BODY, Block, HAIR, STRONG, Style};
use super::flow::Section;
use super::lists::{Caption, bars, chunks, headed};
use super::{Look, Sheet};
use crate::operations::Alternative;
use crate::proof::{Check, Verdict};
use crate::quantity::Print;
use crate::sheet::figures::{self, Cell};
use crate::sheet::fonts::Fault;
use crate::sheet::page::{Anchor, Fill, Point, Rect};
use crate::sheet::words;

/// Width of the verdicts, mm.
const VERDICT: f64 = 21.0;
/// Between columns, mm.
const GUTTER: f64 = 2.6;
/// Between a margin and its unit, mm.
const UNIT: f64 = 1.6;
/// Above and below a alternative, mm.
const CLOSE: f64 = 0.4;
/// Width of the mark before a failing check, mm.
const MARK: f64 = 1.4;
/// Where a verdict begins, mm.
const INDENT: f64 = 2.2;
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
    is_elsewhere: bool,
}

impl Row {
    fn elsewhere(verdict: Verdict, asks: String) -> Self {
        Self {
            verdict,
            word: words::verdict(verdict),
            asks,
            cells: Default::default(),
            units: Vec::new(),
            remedies: Vec::new(),
            is_elsewhere: true,
        }
    }

    /// Its words, figure, limit and worst margin in a line.
    fn in_line(&self) -> String {
        let mut figures = Vec::new();
        for (at, unit) in self.units.iter().enumerate() {
            let cells = self.cells.iter().filter_map(|cells| cells.get(at)).map(Cell::figure);
            figures.push(format!("{} {unit}", cells.collect::<Vec<_>>().join(", ")).trim_end().to_owned());
        }
        let colon = if figures.is_empty() { "" } else { ": " };
        format!("✓ {}{colon}{}", self.asks, figures.join("; "))
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

/// The checks of a sheet.
pub(super) fn section(sheet: &Sheet, look: Look) -> Result<Section, Fault> {
    let print = sheet.plan.print;
    let mut rows = rows(sheet.checks(), print);
    if sheet.number == 1 {
        let [must, _] = sheet.planned.unmade();
        rows.extend(must.iter().map(|unmade| Row::elsewhere(Verdict::Doubtful, words::unmade(unmade))));
    }
    // The failing first; within a verdict those with figures of their own before those of other sheets.
    rows.sort_by_key(|row| (std::cmp::Reverse(row.verdict), row.is_elsewhere, row.word != words::ADVICE));
    let columns = Columns::of(&rows, look.width)?;
    let mut blocks = Vec::new();
    let (proven, rows): (Vec<Row>, Vec<Row>) =
        rows.into_iter().partition(|row| look.close && row.verdict == Verdict::Proven && row.word != words::ADVICE);
    for row in &rows {
        blocks.extend(check(row, &columns, look)?);
    }
    blocks.extend(in_two_columns(&proven, look)?);
    let captions = if rows.iter().any(Row::has_figures) { columns.captions() } else { Vec::new() };
    let heading = if proven.is_empty() { words::CHECKS } else { words::CHECKS_TICKED };
    Ok(Section { name: words::CHECKS, bar: Some(headed(look.width, heading, words::CHECKS, &captions)?), rows: blocks })
}

/// A row for each check of this sheet and for each that fails on another; one for all that are doubtful on others.
fn rows(checks: Vec<(&Check<String>, Option<String>)>, print: Print) -> Vec<Row> {
    let mut rows = Vec::new();
    let mut doubtful: Vec<String> = Vec::new();
    for (check, elsewhere) in checks {
        match elsewhere {
            None => rows.push(row(check, print)),
            Some(id) if check.stamps() == Some(Verdict::Fails) => {
                rows.push(Row::elsewhere(Verdict::Fails, words::on_sheet(&check.asks, &id)));
            }
            Some(id) if !doubtful.contains(&id) => doubtful.push(id),
            Some(_) => {}
        }
    }
    if !doubtful.is_empty() {
        // Ids of one operation: by the number of the set-up.
        doubtful.sort_by_key(|id| (id.len(), id.clone()));
        rows.push(Row::elsewhere(Verdict::Doubtful, words::on_sheets(&doubtful)));
    }
    rows
}

fn row(check: &Check<String>, print: Print) -> Row {
    let all = check.judged.as_ref().map_or_else(Default::default, |judged| {
        [figures::got(judged, print), figures::limit(judged, print), figures::margin(judged, print)]
    });
    let longest = all.iter().max_by_key(|lines| lines.len());
    let units = longest.map_or_else(Vec::new, |cells| cells.iter().map(|cell| cell.unit).collect());
    let remedies = check.remedy.iter().chain(&check.remedies).map(|text| format!("→ {text}")).collect();
    Row {
        verdict: check.stamps().or(check.verdict().map(|_| Verdict::Proven)).unwrap_or(Verdict::Doubtful),
        word: words::verdict_of(check),
        asks: words::marked(&check.asks, check.from_memory),
        cells: all,
        units,
        remedies,
        is_elsewhere: false,
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

fn check(row: &Row, columns: &Columns, look: Look) -> Result<Vec<Block>, Fault> {
    let x = INDENT + VERDICT;
    let room = if row.has_figures() { columns.words } else { look.width - x };
    let style = if row.verdict == Verdict::Proven { BODY } else { STRONG };
    let mut blocks = chunks(&style.wrap(&row.asks, room)?, x, look.pad, style)?;
    if blocks.is_empty() {
        blocks.push(Block::new(0.0));
    }
    if let Some(first) = blocks.first_mut() {
        let end = figures_of(first, row, columns, look)?;
        first.height = first.height.max(end + look.pad);
        verdict(first, row.verdict, row.word, look.pad)?;
    }
    for (at, remedy) in row.remedies.iter().enumerate() {
        let lines = BODY.wrap(remedy, look.width - x)?;
        if let (Some(last), 0) = (blocks.last_mut(), at) {
            last.keep = true;
        }
        blocks.extend(chunks(&lines, x, look.pad / 2.0, BODY)?);
    }
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
        last.line(Point::new(0.0, last.height), Point::new(look.width, last.height), HAIR);
    }
    Ok(blocks)
}

/// What is proven, closely: words, figure, limit and worst margin in a line.
fn in_two_columns(rows: &[Row], look: Look) -> Result<Vec<Block>, Fault> {
    let half = (look.width - GUTTER) / 2.0;
    let mut cells = Vec::new();
    for row in rows {
        cells.push(BODY.wrap(&row.in_line(), half)?);
    }
    // Cells of as many lines stand beside each other.
    cells.sort_by_key(Vec::len);
    let mut blocks = Vec::new();
    for pair in cells.chunks(2) {
        let mut block = Block::new(0.0);
        for (column, lines) in pair.iter().enumerate() {
            let end = block.lines(column as f64 * (half + GUTTER), 0.3, BODY, lines)?;
            block.height = block.height.max(end + 0.1);
        }
        blocks.push(block);
    }
    Ok(blocks)
}

fn figures_of(block: &mut Block, row: &Row, columns: &Columns, look: Look) -> Result<f64, Fault> {
    let mut end = 0.0_f64;
    for (cells, (point, right)) in row.cells.iter().zip(columns.point.iter().zip(&columns.right)) {
        let mut y = look.pad;
        for cell in cells {
            let text = cell.figure();
            let x = match about_point(cell)? {
                Some((before, _)) => point - before,
                None => right - BODY.width(&text)?,
            };
            y = block.lines(x, y, BODY, &[text])?;
        }
        end = end.max(y);
    }
    let mut y = look.pad;
    for unit in &row.units {
        y = block.lines(columns.unit, y, BODY, &[(*unit).to_owned()])?;
    }
    Ok(end.max(y))
}

/// The verdict of a row in a word: what is not proven stands bold.
fn verdict(block: &mut Block, verdict: Verdict, word: &str, top: f64) -> Result<(), Fault> {
    let style: Style = if verdict == Verdict::Proven { BODY } else { STRONG };
    block.text(Point::new(INDENT, top + style.capital), Anchor::Left, style, word)?;
    block.height = block.height.max(top + style.capital + top);
    Ok(())
}

/// What else was worked, in a line each.
pub(super) fn compared(alternatives: &[Alternative<String>]) -> Vec<String> {
    let mut lines = Vec::new();
    for alternative in alternatives {
        let verdict = words::verdict(alternative.answer.verdict());
        lines.push(format!("{} {verdict}, {}", alternative.name, words::why(alternative)));
    }
    lines
}

/// What else was worked: name, verdict, why not.
pub(super) fn alternatives(alternatives: &[Alternative<String>], width: f64) -> Result<Section, Fault> {
    let mut wide = 0.0_f64;
    for alternative in alternatives {
        wide = wide.max(STRONG.width(&super::block::plain(&alternative.name))?);
    }
    let name = wide.min(NAME.min(width / 3.0)) + GUTTER;
    let x = INDENT + VERDICT + name;
    let mut blocks = Vec::new();
    for alternative in alternatives {
        let why = words::why(alternative);
        let style = if alternative.chosen { STRONG } else { BODY };
        let mut block = Block::new(0.0);
        let named = block.paragraph(INDENT + VERDICT, CLOSE, name - GUTTER, STRONG, &alternative.name)?;
        let said = block.paragraph(x, CLOSE, width - x, style, &why)?;
        block.height = named.max(said) + CLOSE;
        let of = alternative.answer.verdict();
        verdict(&mut block, of, words::verdict(of), CLOSE)?;
        blocks.push(block);
    }
    Ok(Section { name: words::ALTERNATIVES, bar: Some(bars(width, words::ALTERNATIVES, &[])?), rows: blocks })
}
