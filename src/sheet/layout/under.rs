//! The zone of the verdict shared out: what is not proven from its top down, the foot from its bottom up. Cautions, the standing
//! line, and what marks and units are stand in the foot, in that order; of cautions that would go on the last stand under the steps, where those leave the room. All else yields to them: findings, which stand on
//! the working page too, the worst of them last; then words that are no check's. Only cautions that are higher than the zone go on
//! overleaf, each whole.

use super::block::{BODY, Block};
use super::flow::Section;
use super::lists;
use super::verdict::{self, Finding};
use super::{Sheet, words};
use crate::sheet::fonts::Fault;
use crate::sheet::page::{Kind, Point};

/// Between verdict and foot, mm.
pub(super) const ABOVE_FOOT: f64 = 0.4;
/// Fewest lines for which a sheet goes on overleaf.
pub(super) const FEWEST: usize = 3;
/// Least height of a line of words, mm.
pub(super) const LINE: f64 = verdict::LINE;
/// What heights may be short of what they were made for, mm.
const DUST: f64 = 1e-9;

/// What stands in the zone, and what goes on.
pub(super) struct Shared {
    /// From the top of the zone down.
    pub verdict: Vec<Block>,
    /// From its bottom up.
    pub foot: Vec<Block>,
    /// What has no room.
    pub over: Vec<Section>,
    /// How many findings are only named.
    pub named: usize,
}

fn high(rows: &[Block]) -> f64 {
    rows.iter().map(|row| row.height).sum()
}

/// Cautions that stand in the foot, and the rows that all of them take there.
pub(super) struct Cautions<'a> {
    all: &'a [String],
    rows: Vec<Block>,
}

impl<'a> Cautions<'a> {
    pub(super) fn of(all: &'a [String], width: f64) -> Result<Self, Fault> {
        Ok(Self { all, rows: lists::run_in(all, width)? })
    }

    /// The foot with the first of them.
    fn foot(&self, sheet: &Sheet, (memory, width): (bool, f64), held: usize) -> Result<Foot, Fault> {
        let (here, later) = self.all.split_at(held.min(self.all.len()));
        let here = if later.is_empty() { self.rows.clone() } else { lists::run_in(here, width)? };
        Ok(Foot { rows: verdict::foot(sheet, here, memory, width)?, later: lists::run_in(later, width)? })
    }
}

/// The foot with so many of the cautions, and what goes on.
struct Foot {
    rows: Vec<Block>,
    /// The others, overleaf.
    later: Vec<Block>,
}

/// What is to be shared out of a zone.
pub(super) struct Wanted<'a> {
    /// What is no check's.
    pub lines: Vec<Finding>,
    /// What was found, the worst first.
    pub findings: Vec<Finding>,
    /// The cautions that stand in the foot.
    pub cautions: &'a Cautions<'a>,
    /// What is read first, where the others leave it a line.
    pub first: Option<Block>,
    /// Whether the page has a mark of memory.
    pub memory: bool,
    /// Whether the sheet goes on overleaf anyhow.
    pub goes_on: bool,
}

/// Shares a zone so wide and high.
pub(super) fn shared(sheet: &Sheet, (width, height): (f64, f64), wanted: Wanted) -> Result<Shared, Fault> {
    let Wanted { lines, findings, cautions, first, memory, goes_on } = wanted;
    let rest = verdict::rest(sheet, width)?;
    let marked = |finding: &Finding| finding.rows.iter().any(Block::marks_memory);
    let memory = memory || lines.iter().chain(&findings).chain([&rest]).any(marked);
    let room = height - ABOVE_FOOT;
    // The worst, and a line for what else there is.
    let stamping = |finding: &Finding| finding.stamps && !finding.alone.is_empty();
    let at_worst = findings.iter().position(stamping).or_else(|| findings.iter().position(|finding| finding.stamps));
    let at_worst = at_worst.unwrap_or(findings.len());
    let least = |worst: &Finding| worst.height().min(worst.with_figures()).min(worst.least());
    let worst = findings.get(at_worst).map_or(0.0, least);
    // Where all have their room the rest stands in that line, else what had none: whichever of them is higher.
    let counted = verdict::more(&[], sheet, (width, 0.0))?.height.min(rest.height());
    let named: Vec<String> = findings.iter().map(|finding| finding.name.clone()).collect();
    let line = if named.is_empty() { counted } else { counted.max(verdict::more(&named, sheet, (width, 0.0))?.height) };
    let said: f64 = lines.iter().map(Finding::height).sum();
    // Long words beside the checks may go on, and so may all of them where the sheet goes on anyhow.
    let may_go_on = goes_on || said >= FEWEST as f64 * LINE;
    let asked = Asked { least: room - worst - line, worst, said, goes_on };
    let (foot, keeps) = asked.foot(sheet, (memory, width), cautions, may_go_on)?;
    let mut over = Vec::new();
    if !foot.later.is_empty() {
        let bar = lists::bars(width, words::CAUTIONS, &[])?.1;
        over.push(Section { name: words::CAUTIONS, bar: Some((bar.clone(), bar)), rows: foot.later });
    }
    let mut free = room - high(&foot.rows) - line;
    let mut rows = Vec::new();
    let mut later = Vec::new();
    for one in lines {
        if keeps || one.height() + worst <= free + DUST {
            free -= one.height();
            rows.extend(one.rows);
        } else {
            later.extend(one.rows);
        }
    }
    // What is no check's and has no room goes on.
    over.extend((!later.is_empty()).then_some(Section { name: words::NOTE, bar: None, rows: later }));
    let all: f64 = findings.iter().map(Finding::height).sum();
    let every = all + rest.height() <= free + line + DUST;
    let mut named = Vec::new();
    for (at, finding) in findings.into_iter().enumerate() {
        // Nothing before the worst takes its room.
        let kept = if at < at_worst && !every { worst } else { 0.0 };
        if every || finding.height() + kept <= free + DUST {
            free -= finding.height();
            rows.extend(finding.rows);
        } else if !finding.best.is_empty() && finding.with_best() + kept <= free + DUST {
            free -= finding.with_best();
            rows.extend(finding.best);
        } else if !finding.alone.is_empty() && finding.with_figures() + kept <= free + DUST {
            free -= finding.with_figures();
            rows.extend(finding.alone);
        } else if at == at_worst && !finding.bare.is_empty() && finding.least() <= free + DUST {
            free -= finding.least();
            rows.extend(finding.bare);
        } else {
            named.push(finding.name);
        }
    }
    let free = free + line;
    if named.is_empty() && rest.height() <= free + DUST {
        if let Some(first) = first.filter(|first| rest.height() + first.height <= free + DUST) {
            rows.insert(0, first);
        }
        rows.extend(rest.rows);
    } else {
        rows.push(verdict::more(&named, sheet, (width, free))?);
    }
    let mut heading = Block::new(0.0);
    heading.unseen(Kind::H2, Point::new(0.0, BODY.capital), words::VERDICT_HEADING)?;
    rows.insert(0, heading);
    Ok(Shared { verdict: rows, foot: foot.rows, over, named: named.len() })
}

/// What the foot and the line of what is proven take at most where they stand whole, mm.
pub(super) fn least(sheet: &Sheet, cautions: &Cautions, width: f64) -> Result<f64, Fault> {
    let foot = cautions.foot(sheet, (true, width), cautions.all.len())?;
    Ok(verdict::rest(sheet, width)?.height() + high(&foot.rows) + ABOVE_FOOT)
}

/// What the foot may take.
struct Asked {
    /// Its height with the least that the verdict needs, mm.
    least: f64,
    /// Height of the least that says what the worst of the findings is, mm.
    worst: f64,
    /// Height of the words that are no check's, mm.
    said: f64,
    /// Whether the sheet goes on overleaf anyhow.
    goes_on: bool,
}

impl Asked {
    /// The foot, and whether the words that are no check's stay with it: all of it, else with the worst of the findings on the
    /// working page alone, else with those words overleaf, else with some cautions overleaf.
    fn foot(
        &self,
        sheet: &Sheet,
        (memory, width): (bool, f64),
        cautions: &Cautions,
        may_go_on: bool,
    ) -> Result<(Foot, bool), Fault> {
        let of = |held| cautions.foot(sheet, (memory, width), held);
        let stands = |foot: &Foot, free: f64| high(&foot.rows) <= free + DUST;
        let free_of = |keeps: bool, free: f64| free - if keeps { self.said } else { 0.0 };
        let whole = of(cautions.all.len())?;
        if stands(&whole, free_of(true, self.least)) {
            return Ok((whole, true));
        }
        let named_alone = self.least + self.worst;
        if !self.goes_on && stands(&whole, free_of(true, named_alone)) {
            return Ok((whole, true));
        }
        if may_go_on && stands(&whole, self.least) {
            return Ok((whole, false));
        }
        for keeps in [true, false] {
            // No page is turned for a word or two.
            if (keeps || may_go_on) && stands(&whole, free_of(keeps, named_alone)) {
                return Ok((whole, keeps));
            }
        }
        // From all of them down to none.
        let is_enough = |foot: &Foot| foot.later.len() >= FEWEST || self.goes_on;
        for keeps in [true, false] {
            for held in (0..cautions.all.len()).rev() {
                let some = of(held)?;
                if stands(&some, free_of(keeps, self.least)) && (is_enough(&some) || held == 0) {
                    return Ok((some, keeps));
                }
            }
        }
        Ok((of(0)?, false))
    }
}
