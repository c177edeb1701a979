//! The zones of a first page filled under its sketch, shared out in one way: steps, what is measured, what was found, the foot;
//! and what goes on.

use super::block::{Block, STRONG};
use super::flow::{Flow, Section, TooHigh, fitting};
use super::zones::Zones;
use super::{
    Fault, Sheet, beside, check, cuts, fonts, lists, measure, overleaf, picture, sketch, strip, under, verdict, ways,
    words,
};
use crate::operations::SetUp;
use crate::sheet::page::{Ink, Kind, Page, Rect};

/// Least height of a sketch, and of ways out, mm.
pub(super) const LOWEST: f64 = 36.0;

/// A picture that has no room weighs more than all blanks and cells that have none.
const PICTURE: usize = 100;

/// How the zones of a sheet share its page.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Shares {
    /// Whether steps go on under what is measured, and the verdict begins where that ends.
    pub(super) below: bool,
    /// How many of the cautions, from the last, stand under the steps.
    pub(super) cautions: usize,
}

/// The strip's zones, the sketch and what stands beside it.
pub(super) struct Top {
    pub(super) page: Page,
    pub(super) zones: Zones,
    pub(super) drawn: sketch::Drawn,
    pub(super) beside: beside::Beside,
    pub(super) over: Vec<Section>,
}

/// The pages of a sheet, and what gave way on them.
pub(super) struct Laid {
    pub(super) pages: Vec<Page>,
    /// How much of what belongs under the steps, or into a cell or a blank of theirs, has no room.
    pub(super) lacks: usize,
    /// Whether all steps stand in their zone.
    pub(super) steps_stand: bool,
    /// How many findings are only named.
    pub(super) named: usize,
    /// Whether metal is taken off under what is measured, and how many rows of steps stand there.
    pub(super) behind: (bool, usize),
    /// How much is free under the steps, or the ways out, but for cautions, mm.
    pub(super) free: f64,
}

/// The steps of a set-up as they are set.
struct Steps {
    section: Section,
    /// Whether the picture that belongs under them, if one does, stands there.
    pictured: bool,
    /// How high that is, mm.
    picture: f64,
    /// How many cells and blanks of theirs yield to the words.
    lacks: usize,
    /// Whether all of them stand in their zone.
    stands: bool,
}

impl Sheet<'_> {
    /// The pages under such a top; nothing where cautions have no room under the steps.
    pub(super) fn laid(&self, top: &Top, shares: Shares) -> Result<Option<Laid>, Fault> {
        let Top { zones, beside, .. } = top;
        let (mut page, mut over) = (top.page.clone(), top.over.clone());
        let mut below = zones.verdict;
        let letters = |part: &'static str| move |fault| self.letters(part, fault);
        let (wide, mut with_verdict) = (zones.cuts.width(), beside.with_verdict.clone());
        let mut findings = verdict::findings(self, wide).map_err(letters(words::CHECKS))?;
        let cautions = lists::cautions(self);
        let (in_foot, under_steps) = cautions.split_at(cautions.len().saturating_sub(shares.cautions));
        let (mut lacks, mut steps_stand, mut free_under, mut behind) = (0, true, 0.0, (false, 0));
        let in_foot = under::Cautions::of(in_foot, zones.verdict.width()).map_err(letters(words::CHECKS))?;
        let moved = lists::cautions_apart(under_steps, wide).map_err(letters(words::CAUTIONS))?;
        let moved_high = moved.as_ref().map_or(0.0, |(bar, rows)| bar.height + lists::high(rows));
        if self.may_not_be_cut() {
            let zone = zones.ways_out();
            let zone = Rect { bottom: zone.bottom - moved_high, ..zone };
            free_under = zone.height() + moved_high - LOWEST;
            if zone.height() < LOWEST {
                return Ok(None);
            }
            let made = ways::section(self, zone, &mut findings).map_err(letters(words::WAYS_OUT))?;
            let (mut here, mut later) = (made.section, made.later);
            let held = beside::over_steps(&beside.before_steps, wide).map_err(letters(words::HOLD))?;
            if later.is_empty() {
                here.rows.extend(held)
            } else {
                later.extend(held)
            };
            picture::onto(self, &mut here, zone).map_err(letters(words::WAYS_OUT))?;
            // A line or two stand with the verdict rather than overleaf.
            if later.iter().map(|row| row.height).sum::<f64>() < under::FEWEST as f64 * under::LINE {
                findings.push(verdict::Finding::of(String::new(), std::mem::take(&mut later)));
            }
            let bar = here.bar.as_ref().map(|bar| (bar.1.clone(), bar.1.clone()));
            // What was worked out without a set-up may stand whole in the place of a sketch.
            if self.set_up.is_some() || !here.rows.is_empty() {
                fill(&mut page, "ways out", zone, here, &mut over).map_err(letters(words::WAYS_OUT))?;
            }
            over.extend((!later.is_empty()).then_some(Section { name: words::WAYS_OUT, bar, rows: later }));
            cautions_onto(&mut page, moved, zones.ways_out());
        } else if let Some(set_up) = self.set_up {
            let steps = self.steps(set_up, top, moved_high)?;
            (lacks, steps_stand) = (steps.lacks, steps.stands);
            let (mut made, pictured) = (steps.section, steps.pictured);
            // What the shop lacks stands before the steps, where those leave the room.
            let first = lists::notes(&with_verdict, wide).map_err(letters(words::NOTE))?;
            let bar = made.bar.as_ref().map_or(0.0, |bar| bar.0.height);
            let taken: f64 = made.rows.iter().chain(&first).map(|row| row.height).sum();
            if taken + bar + moved_high <= zones.cuts.height() {
                made.rows.splice(0..0, first);
                with_verdict.clear();
            }
            let free = zones.cuts.height() - bar - lists::high(&made.rows);
            if moved.is_some() && moved_high > free {
                return Ok(None);
            }
            free_under = free;
            // Where the verdict begins higher, one line to write on is enough.
            let is_note = shares.below && set_up.blanks.is_empty();
            let high = if is_note { measure::A_NOTE } else { zones.measure.height() };
            let spare =
                self.spare(zones.verdict, &in_foot, (&findings, &with_verdict)).map_err(letters(words::CHECKS))?;
            let spare = if shares.below { 0.0 } else { spare };
            let measured = measure::section(self, set_up, (wide, high), high + spare);
            let measured = measured.map_err(letters(words::MEASURE))?;
            let ends = overleaf::end_of(&measured, zones);
            let mut place = zones.measure;
            if ends > place.bottom && ends <= place.bottom + spare {
                // Every blank and figure of it, with the verdict below.
                place.bottom = ends;
                below.top = below.top.max(ends + overleaf::CLOSE);
            }
            let ends = ends.min(place.bottom);
            // A picture that has no room under the steps stands under what is measured, where the verdict leaves it that.
            let spread = Rect::new(zones.cuts.left, ends, zones.cuts.right, zones.verdict.top + spare);
            let beneath = if pictured || shares.below {
                None
            } else {
                picture::beneath(self, spread).map_err(letters(words::CUTS))?
            };
            lacks += if pictured || beneath.is_some() { 0 } else { PICTURE };
            let under = overleaf::beneath(&made, &measured, zones).map_err(letters(words::CUTS))?;
            let under = under.filter(|_| shares.below);
            behind = under.as_ref().map_or(behind, |under| (under.cuts(), under.there.rows.len()));
            let here = under.as_ref().map_or(made, |under| under.here.clone());
            fill(&mut page, "cuts", zones.cuts, here, &mut over).map_err(letters(words::CUTS))?;
            cautions_onto(&mut page, moved, zones.cuts);
            fill(&mut page, "measure", place, measured, &mut over).map_err(letters(words::MEASURE))?;
            if let Some(picture) = beneath {
                let bottom = ends + picture.height;
                let area = page.area("picture", Rect { bottom, ..spread });
                stack(&mut page, area, spread.left, spread.top, vec![picture]);
                below.top = below.top.max(bottom + overleaf::CLOSE);
            }
            if shares.below {
                let ends = under.as_ref().map_or(ends, |under| under.zone.bottom);
                below.top = (ends + overleaf::CLOSE).min(below.bottom);
            }
            match under {
                Some(under) if under.zone.bottom < below.bottom => {
                    fill(&mut page, "cuts", under.zone, under.there, &mut over).map_err(letters(words::CUTS))?;
                }
                under => over.extend(under.map(|under| under.there)),
            }
        }
        let named = self.verdict_zone(&mut page, below, &in_foot, (findings, &with_verdict), &mut over);
        let named = named.map_err(letters(words::CHECKS))?;
        let full = lists::list(words::IN_FULL, &strip::in_full(self), wide).map_err(letters(words::IN_FULL))?;
        over.extend(full);
        let pages = self.going_on(page, &over, top.drawn.apart.clone())?;
        Ok(Some(Laid { pages: self.finished(&self.id(), pages)?, lacks, steps_stand, named, behind, free: free_under }))
    }

    /// The steps of a set-up with the picture that belongs under them, over so many mm that are kept for others.
    fn steps(&self, set_up: &SetUp<String>, Top { zones, beside, .. }: &Top, kept: f64) -> Result<Steps, Fault> {
        let letters = |part: &'static str| move |fault| self.letters(part, fault);
        let (wide, zone) = (zones.cuts.width(), Rect { bottom: zones.cuts.bottom - kept, ..zones.cuts });
        let before = beside::over_steps(&beside.before_steps, wide).map_err(letters(words::HOLD))?;
        let high = zone.height() - lists::high(&before);
        let set = |high: f64| -> Result<Steps, Fault> {
            let made = cuts::section(self, set_up, wide, high).map_err(letters(words::CUTS))?;
            let (mut section, yields) = (made.section, made.yields);
            section.rows.splice(0..0, before.clone());
            let rows = section.rows.len();
            picture::onto(self, &mut section, zone).map_err(letters(words::CUTS))?;
            let picture = section.rows.iter().skip(rows).map(|row| row.height).sum();
            let pictured = section.rows.len() > rows || !picture::stands_under_steps(self);
            let taken = lists::high(&section.rows);
            let stands = taken + section.bar.as_ref().map_or(0.0, |bar| bar.0.height) <= zone.height();
            Ok(Steps { section, pictured, picture, lacks: yields, stands })
        };
        let steps = set(high)?;
        if steps.pictured {
            return Ok(steps);
        }
        // Set as closely as steps may be, they may leave a picture the room; then no closer than it asks.
        let close = set(0.0)?;
        if !close.pictured {
            return Ok(steps);
        }
        let beside = set(high - close.picture)?;
        Ok(if beside.pictured { beside } else { close })
    }

    /// The first page, those that it goes on to, and the sketch where it has one of its own.
    fn going_on(&self, first: Page, over: &[Section], apart: Option<Block>) -> Result<Vec<Page>, Fault> {
        let mut pages = vec![first];
        if !over.is_empty() || apart.is_some() {
            let mut flow = Flow::new(self.paper, Zones::of(self.paper).strip());
            for section in over {
                flow.put(section).map_err(|TooHigh(part)| Fault::TooHigh { sheet: self.id(), part })?;
            }
            if let Some(block) = apart {
                let section = Section { name: words::SKETCH, bar: None, rows: vec![block] };
                flow.put(&section).map_err(|TooHigh(part)| Fault::TooHigh { sheet: self.id(), part })?;
            }
            pages.extend(flow.pages);
        }
        Ok(pages)
    }

    /// What the verdict and the foot leave of their zone when all of them stands there, mm.
    fn spare(
        &self,
        zone: Rect,
        cautions: &under::Cautions,
        (findings, more): (&[verdict::Finding], &[String]),
    ) -> Result<f64, fonts::Fault> {
        let mut taken = under::least(self, cautions, zone.width())?;
        for text in self.notes.iter().filter(|_| self.sketched).chain(more) {
            taken += verdict::line(text, zone.width())?.height();
        }
        taken += findings.iter().map(verdict::Finding::height).sum::<f64>();
        Ok(f64::max(zone.height() - taken - overleaf::CLOSE, 0.0))
    }

    /// The verdict from the top of its zone, the foot from its bottom. Findings that have no room are named, as many as it
    /// gives: they stand on the working page.
    fn verdict_zone(
        &self,
        page: &mut Page,
        zone: Rect,
        cautions: &under::Cautions,
        (findings, more): (Vec<verdict::Finding>, &[String]),
        over: &mut Vec<Section>,
    ) -> Result<usize, fonts::Fault> {
        let width = zone.width();
        let said = self.notes.iter().filter(|_| self.sketched).chain(more);
        let said = said.map(|text| verdict::line(text, width)).collect::<Result<Vec<_>, _>>()?;
        let (lines, findings) = findings.into_iter().partition::<Vec<_>, _>(|finding| finding.name.is_empty());
        let wanted = under::Wanted {
            lines: said.into_iter().chain(lines).collect(),
            findings,
            cautions,
            first: self.read_first(width)?,
            memory: rests_on_memory(page),
            goes_on: !over.is_empty(),
        };
        let shared = under::shared(self, (width, zone.height()), wanted)?;
        let border = zone.bottom - shared.foot.iter().map(|row| row.height).sum::<f64>();
        let area = page.area("verdict", Rect::new(zone.left, zone.top, zone.right, border - under::ABOVE_FOOT));
        stack(page, area, zone.left, zone.top, shared.verdict);
        let area = page.area("foot", Rect::new(zone.left, border, zone.right, zone.bottom));
        stack(page, area, zone.left, border, shared.foot);
        over.extend(shared.over);
        Ok(shared.named)
    }

    /// What is read first of all: on the first set-up that is doubtful, where it stands in one line.
    fn read_first(&self, width: f64) -> Result<Option<Block>, fonts::Fault> {
        let Some(first) = self.planned.first.as_ref().filter(|_| self.is_first_in_doubt()) else { return Ok(None) };
        let text = words::answer::first_on_sheet(first);
        if STRONG.wrap(&text, width)?.len() > 1 {
            return Ok(None);
        }
        Ok(verdict::line(&text, width)?.rows.pop())
    }

    /// Strips put on, and every page checked.
    pub(super) fn finished(&self, id: &str, mut pages: Vec<Page>) -> Result<Vec<Page>, Fault> {
        let count = pages.len();
        for (at, page) in pages.iter_mut().enumerate() {
            let (number, before) = ((at + 1, count), page.marks.len());
            strip::onto(self, page, id, number).map_err(|fault| self.letters("title strip", fault))?;
            page.lead_with(before, at == 0);
            let faults = check::faults(page);
            if !faults.is_empty() {
                return Err(Fault::Page { sheet: id.into(), page: at + 1, faults });
            }
        }
        Ok(pages)
    }
}

/// Whether a page has a mark of memory.
fn rests_on_memory(page: &Page) -> bool {
    page.marks.iter().any(|mark| matches!(&mark.ink, Ink::Text(text) if words::marks_memory(&text.text)))
}

/// Fills a zone with a section from its top, what has no room goes on.
fn fill(
    page: &mut Page,
    name: &str,
    zone: Rect,
    section: Section,
    over: &mut Vec<Section>,
) -> Result<(), fonts::Fault> {
    let area = page.area(name, zone);
    let Some((mut bar, again)) = section.bar.filter(|_| !section.rows.is_empty()) else { return Ok(()) };
    let room = zone.height() - bar.height;
    let top = zone.top + bar.height;
    if fitting(&section.rows, room, false) == section.rows.len() {
        bar.onto(page, area, (zone.left, zone.top), Kind::H2);
        stack(page, area, zone.left, top, section.rows);
        return Ok(());
    }
    let (now, later, in_bar) = overleaf::parted(section.rows, room, name == "cuts")?;
    if in_bar {
        overleaf::note(&mut bar, zone.width(), words::GOES_ON)?;
    }
    bar.onto(page, area, (zone.left, zone.top), Kind::H2);
    stack(page, area, zone.left, top, now);
    over.push(Section { name: section.name, bar: Some((again.clone(), again)), rows: later });
    Ok(())
}

/// Puts cautions that stand apart at the foot of a zone.
fn cautions_onto(page: &mut Page, some: Option<(Block, Vec<Block>)>, zone: Rect) {
    let Some((bar, rows)) = some else { return };
    let top = zone.bottom - bar.height - lists::high(&rows);
    let area = page.area(words::CAUTIONS, Rect { top, ..zone });
    let under = top + bar.height;
    bar.onto(page, area, (zone.left, top), Kind::H2);
    stack(page, area, zone.left, under, rows);
}

/// Puts rows under each other.
pub(super) fn stack(page: &mut Page, area: super::AreaId, left: f64, top: f64, rows: Vec<Block>) {
    let mut y = top;
    for row in rows {
        let high = row.height;
        row.onto(page, area, (left, y), Kind::P);
        y += high;
    }
}
