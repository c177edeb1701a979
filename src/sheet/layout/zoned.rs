//! The zones of one sheet filled: as they stand on the paper, and where something has no room, closer: steps go on under what is
//! measured, cautions stand under the steps, and the zone of the sketch leaves the steps what it can spare.

use super::block::{Block, STRONG};
use super::flow::{Flow, Section, TooHigh, fitting};
use super::zones::Zones;
use super::{
    Fault, Sheet, beside, by_pencil, check, cuts, fonts, lists, measure, overleaf, picture, sketch, strip, under,
    verdict, ways, words,
};
use crate::operations::SetUp;
use crate::sheet::page::{Ink, Kind, Page, Rect};

/// By how much the zone of a sketch may be lower for the steps, mm.
const LOWER: [f64; 4] = [6.0, 12.0, 18.0, 24.0];
/// Least height of it, mm.
const LOWEST: f64 = 36.0;
/// So much smaller a sketch may be for it: one scale.
const ONE_SCALE: f64 = 0.4;

/// How the zones of a sheet share its page.
#[derive(Clone, Copy, Debug, Default)]
struct Shares {
    /// Whether steps go on under what is measured, and the verdict begins where that ends.
    below: bool,
    /// How many of the cautions, from the last, stand under the steps.
    cautions: usize,
}

/// The strip's zones, the sketch and what stands beside it.
struct Top {
    page: Page,
    zones: Zones,
    drawn: sketch::Drawn,
    beside: beside::Beside,
    over: Vec<Section>,
}

/// The pages of a sheet, and what gave way on them.
struct Laid {
    pages: Vec<Page>,
    /// Whether what belongs under the steps, or into a cell of theirs, has no room.
    lacks: bool,
    /// Whether all steps stand in their zone.
    steps_stand: bool,
    /// How many findings are only named.
    named: usize,
}

/// The steps of a set-up as they are set.
struct Steps {
    section: Section,
    /// Whether the picture that belongs under them, if one does, stands there.
    pictured: bool,
    /// Whether a cell of theirs yields to the words.
    lacks: bool,
    /// Whether all of them stand in their zone.
    stands: bool,
}

impl Laid {
    fn is_whole(&self) -> bool {
        self.pages.len() == 1 && !self.lacks
    }

    fn is_better_than(&self, other: &Self) -> bool {
        (self.pages.len(), self.lacks, self.named) < (other.pages.len(), other.lacks, other.named)
    }
}

impl Top {
    /// Whether its sketch says all that another says, at least `share` as large; and where that is no smaller what stands beside it too.
    fn says_as_much(&self, other: &Self, share: f64) -> bool {
        let beside = |top: &Self| top.beside.before_steps.len() + top.beside.with_verdict.len();
        self.over.is_empty()
            && self.drawn.apart.is_none()
            && self.drawn.left_out == other.drawn.left_out
            && self.drawn.factor >= other.drawn.factor * share - 1e-9
            && (share < 1.0 || beside(self) <= beside(other))
    }
}

impl Sheet<'_> {
    /// The zones of the first page filled; what overflows goes on: rather in what room others leave on that page than overleaf.
    pub(super) fn zoned(&self) -> Result<Vec<Page>, Fault> {
        let top = self.top(0.0)?;
        let too_high = || Fault::TooHigh { sheet: self.id(), part: words::CAUTIONS };
        let mut best = self.laid(&top, Shares::default())?.ok_or_else(too_high)?;
        self.closer(&top, &mut best);
        self.findings_whole(&top, &mut best);
        // A picture in the place of a sketch may be another in less room.
        let is_sketch = picture::in_place_of_sketch(self).is_empty();
        let may_be_lower = is_sketch && !self.may_not_be_cut() && top.drawn.apart.is_none() && top.over.is_empty();
        for lower in LOWER.into_iter().filter(|_| may_be_lower) {
            if best.is_whole() || top.zones.sketch.height() - lower < LOWEST {
                break;
            }
            let Ok(lowered) = self.top(lower) else { continue };
            // For what only gives way the sketch is no smaller.
            if !lowered.says_as_much(&top, if best.pages.len() == 1 { 1.0 } else { ONE_SCALE }) {
                continue;
            }
            if let Ok(Some(laid)) = self.laid(&lowered, Shares::default())
                && laid.is_better_than(&best)
            {
                best = laid;
            }
            self.closer(&lowered, &mut best);
        }
        Ok(best.pages)
    }

    /// Sets what goes on overleaf closer, as long as it does.
    fn closer(&self, top: &Top, best: &mut Laid) {
        let shared = |shares: Shares, best: &mut Laid| -> Option<bool> {
            let laid = self.laid(top, shares).ok().flatten()?;
            let steps_stand = laid.steps_stand;
            if laid.is_better_than(best) {
                *best = laid;
            }
            Some(steps_stand)
        };
        if best.pages.len() == 1 {
            return;
        }
        let stand = shared(Shares { below: true, cautions: 0 }, best);
        if stand != Some(true) {
            return;
        }
        for cautions in 1..=lists::cautions(self).len() {
            if best.pages.len() == 1 || shared(Shares { below: true, cautions }, best).is_none() {
                return;
            }
        }
    }

    /// Findings that have no room in a page stand there where cautions stand under its steps.
    fn findings_whole(&self, top: &Top, best: &mut Laid) {
        for cautions in 1..=lists::cautions(self).len() {
            if best.pages.len() > 1 || best.named == 0 {
                return;
            }
            let Ok(Some(laid)) = self.laid(top, Shares { below: false, cautions }) else { return };
            if laid.is_better_than(best) {
                *best = laid;
            }
        }
    }

    /// The sketch and what stands beside it, in zones so much lower, mm.
    fn top(&self, lower: f64) -> Result<Top, Fault> {
        let mut zones = Zones::of(self.paper);
        zones.sketch.bottom -= lower;
        zones.beside.bottom -= lower;
        zones.cuts.top -= lower;
        let (mut page, mut over) = (Page::new(self.paper), Vec::new());
        let mut zone = picture::zone(self);
        zone.bottom -= lower;
        let drawn = self.sketch_zone(&mut page, zone, &mut over)?;
        let beside = beside::beside(self, &drawn.balloons, &drawn.left_out, zones.beside);
        let mut beside = beside.map_err(|fault| self.letters(words::HOLD, fault))?;
        let area = page.area("beside", zones.beside);
        stack(&mut page, area, zones.beside.left, zones.beside.top, std::mem::take(&mut beside.rows));
        Ok(Top { page, zones, drawn, beside, over })
    }

    /// The pages under such a top; nothing where cautions have no room under the steps.
    fn laid(&self, top: &Top, shares: Shares) -> Result<Option<Laid>, Fault> {
        let Top { zones, beside, .. } = top;
        let (mut page, mut over) = (top.page.clone(), top.over.clone());
        let mut below = zones.verdict;
        let letters = |part: &'static str| move |fault| self.letters(part, fault);
        let (wide, mut with_verdict) = (zones.cuts.width(), beside.with_verdict.clone());
        let mut findings = verdict::findings(self, wide).map_err(letters(words::CHECKS))?;
        let cautions = lists::cautions(self);
        let (in_foot, under_steps) = cautions.split_at(cautions.len().saturating_sub(shares.cautions));
        let (mut lacks, mut steps_stand) = (false, true);
        let moved = lists::cautions_apart(under_steps, wide).map_err(letters(words::CAUTIONS))?;
        let moved_high = moved.as_ref().map_or(0.0, |(bar, rows)| bar.height + lists::high(rows));
        if self.may_not_be_cut() {
            let zone = zones.ways_out();
            let zone = Rect { bottom: zone.bottom - moved_high, ..zone };
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
            let high = zones.measure.height();
            let spare =
                self.spare(zones.verdict, in_foot, (&findings, &with_verdict)).map_err(letters(words::CHECKS))?;
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
            lacks |= !pictured && beneath.is_none();
            let under = overleaf::beneath(&made, &measured, zones).map_err(letters(words::CUTS))?;
            let under = under.filter(|_| shares.below);
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
        let named = self.verdict_zone(&mut page, below, in_foot, (findings, &with_verdict), &mut over);
        let named = named.map_err(letters(words::CHECKS))?;
        let full = lists::list(words::IN_FULL, &strip::in_full(self), wide).map_err(letters(words::IN_FULL))?;
        over.extend(full);
        let pages = self.going_on(page, &over, top.drawn.apart.clone())?;
        Ok(Some(Laid { pages: self.finished(&self.id(), pages)?, lacks, steps_stand, named }))
    }

    /// The steps of a set-up with the picture that belongs under them, over so many mm that are kept for others.
    fn steps(&self, set_up: &SetUp<String>, Top { zones, beside, .. }: &Top, kept: f64) -> Result<Steps, Fault> {
        let letters = |part: &'static str| move |fault| self.letters(part, fault);
        let (wide, zone) = (zones.cuts.width(), Rect { bottom: zones.cuts.bottom - kept, ..zones.cuts });
        let before = beside::over_steps(&beside.before_steps, wide).map_err(letters(words::HOLD))?;
        let high = zone.height() - before.iter().map(|row| row.height).sum::<f64>();
        // Set as closely as steps may be, they may leave a picture the room.
        let mut set = Vec::new();
        for high in [high, 0.0] {
            let made = cuts::section(self, set_up, wide, high).map_err(letters(words::CUTS))?;
            let (mut section, yields) = (made.section, made.yields);
            section.rows.splice(0..0, before.clone());
            let rows = section.rows.len();
            picture::onto(self, &mut section, zone).map_err(letters(words::CUTS))?;
            let pictured = section.rows.len() > rows || !picture::stands_under_steps(self);
            let taken: f64 = section.rows.iter().map(|row| row.height).sum();
            let stands = taken + section.bar.as_ref().map_or(0.0, |bar| bar.0.height) <= zone.height();
            set.push(Steps { section, pictured, lacks: yields, stands });
            if pictured {
                break;
            }
        }
        let at = if set.last().is_some_and(|close| close.pictured) { set.len() - 1 } else { 0 };
        Ok(set.swap_remove(at))
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

    /// The sketch in its zone. Where it cannot be drawn the zone says so.
    fn sketch_zone(&self, page: &mut Page, zone: Rect, over: &mut Vec<Section>) -> Result<sketch::Drawn, Fault> {
        let area = page.area("sketch", zone);
        let notes = lists::notes(&self.notes, zone.width()).map_err(|fault| self.letters(words::NOTE, fault))?;
        // What must not be made is not drawn as made.
        let is_made_later = self.may_not_be_cut() && self.number > 1;
        let pictures = picture::in_place_of_sketch(self);
        if self.sketched && !pictures.is_empty() && !is_made_later {
            return picture::draw_in_place(self, &pictures, (page, area, zone)).map_err(|fault| self.sketch(fault));
        }
        let has = self.sketched && self.set_up.is_some_and(|set_up| !set_up.sketch.items.is_empty());
        if !has || is_made_later {
            let mut notes = notes;
            let is_blank = self.set_up.is_some() && notes.is_empty();
            if is_blank {
                let why =
                    if is_made_later { words::DRAWN_WHERE_IT_FAILS.into() } else { words::not_drawn(self.plan.print) };
                let said = lists::notes(&[why], zone.width());
                notes = said.map_err(|fault| self.letters(words::NOTE, fault))?;
            }
            let (now, later) = parted(notes, zone.height());
            let under = zone.top + now.iter().map(|row| row.height).sum::<f64>();
            stack(page, area, zone.left, zone.top, now);
            if is_blank && !is_made_later {
                by_pencil::frame(page, area, (zone, under), self.plan.print);
            }
            over.extend((!later.is_empty()).then_some(Section { name: words::NOTE, bar: None, rows: later }));
            return Ok(sketch::Drawn::default());
        }
        sketch::draw(self, page, area, zone).map_err(|fault| self.sketch(fault))
    }

    /// What the verdict and the foot leave of their zone when all of them stands there, mm.
    fn spare(
        &self,
        zone: Rect,
        cautions: &[String],
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
        cautions: &[String],
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

/// Rows that fit a height, and the others.
fn parted(mut rows: Vec<Block>, height: f64) -> (Vec<Block>, Vec<Block>) {
    let later = rows.split_off(fitting(&rows, height, false));
    (rows, later)
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
fn stack(page: &mut Page, area: super::AreaId, left: f64, top: f64, rows: Vec<Block>) {
    let mut y = top;
    for row in rows {
        let high = row.height;
        row.onto(page, area, (left, y), Kind::P);
        y += high;
    }
}
