//! One sheet: its sections in order, its sketch at the size that fits best, its pages numbered and checked.

use super::block::{Block, NUMBERED};
use super::flow::{EDGE, Flow, Section, TooHigh, inner};
use super::sketch::{self, Drawings, Drawn, MOST, PLACINGS, Placing};
use super::strip::{self, Strip};
use super::{Fault, Setting, Sheet, check, checks, cuts, draughting, fonts, lists, measure, words};
use crate::sheet::page::{AreaId, Ink, Kind, Mark, Page, Rect};

/// The parts of a sheet that do not depend on its sketch.
struct Parts {
    before: Vec<Section>,
    hold: Option<Section>,
    after: Vec<Section>,
    cautions: Option<Section>,
    standing: Section,
    alternatives: Option<Section>,
    foot: Section,
    /// The foot where what was assumed stands elsewhere.
    short_foot: Section,
}

/// Room that a list beside the sketch may take under the sketch's lower edge, mm.
const OVERHANG: f64 = 8.0;

/// Between lists beside the sketch, mm.
const BETWEEN: f64 = 1.5;

/// What stands beside the sketch.
#[derive(Clone, Copy, Debug, Default)]
struct Beside {
    hold: bool,
    cautions: bool,
    alternatives: bool,
    assumed: bool,
}

impl Sheet<'_> {
    /// Its pages: as all sheets are set; where that cannot be, without the sketch; where that cannot be, line by line.
    pub(super) fn pages(&self) -> Result<Vec<Page>, Fault> {
        let why = match self.numbered() {
            Ok(pages) => return Ok(pages),
            Err(why) => why,
        };
        let note = words::without_sketch(&why.to_string());
        let without = Self { sketched: false, notes: vec![note], ..self.clone() };
        without.numbered().or_else(|_| self.line_by_line(&why))
    }

    /// Its pages, which say so where a sign stands as its number.
    fn numbered(&self) -> Result<Vec<Page>, Fault> {
        let pages = self.usual()?;
        let is_number = |mark: &Mark| matches!(&mark.ink, Ink::Text(text) if text.text.contains(NUMBERED));
        if !pages.iter().flat_map(|page| &page.marks).any(is_number) {
            return Ok(pages);
        }
        let mut said = self.clone();
        said.notes.push(words::LACKED.into());
        said.usual()
    }

    /// Set open, or close where that saves a page.
    fn usual(&self) -> Result<Vec<Page>, Fault> {
        let strip = Strip::of(self).map_err(|fault| self.letters("title strip", fault))?;
        let mut drawings = Drawings::default();
        let mut laid = self.laid(&strip, &self.parts()?, &mut drawings)?.pages;
        if laid.len() > 1 {
            let close = Self { setting: Setting::Close, ..self.clone() };
            let closer = close.laid(&strip, &close.parts()?, &mut drawings)?.pages;
            if closer.len() < laid.len() {
                laid = closer;
            }
        }
        self.finished(&strip, laid)
    }

    /// The sheet with the largest sketch that costs no page; else with the fewest pages.
    fn laid(&self, strip: &Strip, parts: &Parts, drawings: &mut Drawings) -> Result<Flow, Fault> {
        let without = self.flow(strip, parts, None)?;
        if !self.sketched || self.set_up.is_none_or(|set_up| set_up.sketch.items.is_empty()) {
            return Ok(without);
        }
        let page = (inner(self.paper), Flow::room(self.paper, strip.height()));
        let mut drawn = |placing| drawings.drawn(self, placing, page).map_err(|fault| self.sketch(fault));
        let Some(largest) = drawn(MOST)? else {
            let apart = match drawn(Placing::Apart)? {
                Some(apart) => apart,
                None => sketch::thinned(self, page).map_err(|fault| self.sketch(fault))?,
            };
            return self.flow(strip, parts, Some((Placing::Apart, &apart)));
        };
        let mut best: Option<Flow> = None;
        for placing in PLACINGS {
            let Some(drawn) =
                drawn(placing)?.filter(|drawn| drawn.is_worth_taking(&largest, self.setting == Setting::Close))
            else {
                continue;
            };
            let flow = self.flow(strip, parts, Some((placing, &drawn)))?;
            let pages = flow.pages.len();
            if best.as_ref().is_none_or(|best| pages < best.pages.len()) {
                best = Some(flow);
            }
            if pages <= without.pages.len() {
                break;
            }
        }
        // The largest is among the placings: there is always one.
        Ok(best.unwrap_or(without))
    }

    fn parts(&self) -> Result<Parts, Fault> {
        let width = inner(self.paper);
        let section = |part: &'static str, made: Result<Option<Section>, fonts::Fault>| {
            made.map_err(|fault| self.letters(part, fault))
        };
        let mut before = Vec::new();
        before.extend(section(words::NOTE, lists::notes(&self.notes, width))?);
        before.extend(section(words::NOTE, lists::note(self, width))?);
        let mut after = Vec::new();
        after.extend(section(words::REFUSED, lists::refused(self, width))?);
        after.extend(section(words::MISSING, lists::missing(self, width))?);
        if let Some(set_up) = self.set_up {
            after.extend(section(words::CUTS, cuts::section(self, set_up, self.look(width)).map(Some))?);
        }
        after.extend(section(words::CHECKS, checks::section(self, self.look(width)).map(Some))?);
        if let Some(set_up) = self.set_up {
            after.extend(section(
                words::MEASURE,
                measure::section(set_up, self.plan.print, self.look(width)).map(Some),
            )?);
        }
        after.extend(section(words::IN_FULL, lists::list(words::IN_FULL, &strip::in_full(self), width))?);
        let lines = if self.setting == Setting::Close { lists::run_in } else { lists::list };
        let cautions = section(words::CAUTIONS, lines(words::CAUTIONS, &lists::cautions(self), width))?;
        let alternatives = match self.setting {
            Setting::Open => self.alternatives(width),
            Setting::Close if self.number > 1 => Ok(None),
            Setting::Close => {
                lists::run_in(words::ALTERNATIVES, &checks::compared(&self.planned.answer.alternatives), width)
            }
        };
        let alternatives = section(words::ALTERNATIVES, alternatives)?;
        let hold = section(words::HOLD, lines(words::HOLD, lists::hold(self), width))?;
        let standing = lists::standing(width).map_err(|fault| self.letters(words::CAUTIONS, fault))?;
        let foot =
            |with_assumed| lists::foot(self, with_assumed, width).map_err(|fault| self.letters(words::ASSUMED, fault));
        let (foot, short_foot) = (foot(true)?, foot(false)?);
        Ok(Parts { before, hold, after, cautions, standing, alternatives, foot, short_foot })
    }

    /// The alternatives, on the first sheet of an operation.
    fn alternatives(&self, width: f64) -> Result<Option<Section>, fonts::Fault> {
        let all = &self.planned.answer.alternatives;
        if self.number > 1 || all.is_empty() {
            return Ok(None);
        }
        checks::alternatives(all, width).map(Some)
    }

    /// The sheet laid out with one of its sketches.
    fn flow(&self, strip: &Strip, parts: &Parts, top: Option<(Placing, &Drawn)>) -> Result<Flow, Fault> {
        let mut flow = Flow::new(self.paper, strip.height());
        let high = |TooHigh(part)| Fault::TooHigh { sheet: self.id(), part };
        for section in &parts.before {
            flow.put(section).map_err(high)?;
        }
        let mut alternatives = parts.alternatives.as_ref();
        let mut cautions = parts.cautions.as_ref();
        let mut foot = &parts.foot;
        let whole = |block: Block| Section { name: words::SKETCH, bar: None, rows: vec![block] };
        let mut apart = None;
        match top {
            Some((placing @ Placing::Beside(..), drawn)) => {
                let (block, beside) = self.beside(placing, drawn.block.clone())?;
                flow.put(&whole(block)).map_err(high)?;
                if !beside.hold {
                    parts.hold.iter().try_for_each(|hold| flow.put(hold)).map_err(high)?;
                }
                alternatives = alternatives.filter(|_| !beside.alternatives);
                cautions = cautions.filter(|_| !beside.cautions);
                if beside.assumed {
                    foot = &parts.short_foot;
                }
            }
            Some((Placing::Wide(_), drawn)) => {
                flow.put(&whole(drawn.block.clone())).map_err(high)?;
                parts.hold.iter().try_for_each(|hold| flow.put(hold)).map_err(high)?;
            }
            Some((Placing::Apart, drawn)) => {
                parts.hold.iter().try_for_each(|hold| flow.put(hold)).map_err(high)?;
                apart = Some(drawn.block.clone());
            }
            None => parts.hold.iter().try_for_each(|hold| flow.put(hold)).map_err(high)?,
        }
        for section in parts.after.iter().chain(cautions).chain([&parts.standing]).chain(alternatives) {
            flow.put(section).map_err(high)?;
        }
        if apart.is_some() {
            let note = lists::sketch_apart(inner(self.paper)).map_err(|fault| self.letters(words::SKETCH, fault))?;
            flow.put(&note).map_err(high)?;
        }
        flow.put(foot).map_err(high)?;
        if let Some(block) = apart {
            flow.turn();
            flow.put(&whole(block)).map_err(high)?;
        }
        Ok(flow)
    }

    /// The sketch with the holding and, where there is room, more beside it.
    fn beside(&self, placing: Placing, mut block: Block) -> Result<(Block, Beside), Fault> {
        let all = inner(self.paper);
        let mut beside = Beside::default();
        let Some(x) = placing.beside(all) else { return Ok((block, beside)) };
        let most = block.height + OVERHANG;
        let mut y = 0.0;
        let mut take = |section: Option<Section>| {
            let Some(section) = section else { return false };
            let bar = section.bar.iter().map(|bars| (&bars.0, Kind::H2));
            let blocks: Vec<(&Block, Kind)> = bar.chain(section.rows.iter().map(|row| (row, Kind::P))).collect();
            if y + blocks.iter().map(|(block, _)| block.height).sum::<f64>() > most {
                return false;
            }
            for (part, kind) in blocks {
                block.set_as(part, x, y, kind);
                y += part.height;
            }
            block.height = block.height.max(y);
            y += BETWEEN;
            true
        };
        beside.hold = take(
            lists::list(words::HOLD, lists::hold(self), all - x).map_err(|fault| self.letters(words::HOLD, fault))?,
        );
        if self.setting == Setting::Close {
            let cautions = lists::list(words::CAUTIONS, &lists::cautions(self), all - x)
                .map_err(|fault| self.letters(words::CAUTIONS, fault))?;
            beside.cautions = take(cautions);
        }
        let alternatives = self.alternatives(all - x).map_err(|fault| self.letters(words::ALTERNATIVES, fault))?;
        beside.alternatives = take(alternatives);
        if self.setting == Setting::Close {
            let assumed = lists::assumed(self, all - x).map_err(|fault| self.letters(words::ASSUMED, fault))?;
            beside.assumed = take(assumed);
        }
        Ok((block, beside))
    }

    /// Strips put on, and every page checked.
    fn finished(&self, strip: &Strip, mut pages: Vec<Page>) -> Result<Vec<Page>, Fault> {
        let count = pages.len();
        let right = self.paper.size().0 - EDGE;
        for (at, page) in pages.iter_mut().enumerate() {
            let numbered = strip.numbered(&self.id(), at + 1, count).map_err(|f| self.letters("title strip", f))?;
            let area = page.area("title strip", Rect::new(EDGE, EDGE, right, EDGE + strip.height()));
            strip_onto(page, area, &numbered, at == 0);
            sketch::tell(self, page);
            let faults = check::faults(page);
            if !faults.is_empty() {
                return Err(Fault::Page { sheet: self.id(), page: at + 1, faults });
            }
        }
        Ok(pages)
    }

    fn sketch(&self, fault: draughting::Fault) -> Fault {
        match fault {
            draughting::Fault::Letters(fault) => self.letters(words::SKETCH, fault),
            fault => Fault::Sketch { sheet: self.id(), fault },
        }
    }

    pub(super) fn letters(&self, part: &'static str, fault: fonts::Fault) -> Fault {
        Fault::Letters { sheet: self.id(), part, fault }
    }
}

/// Puts the strip on a page, ahead of all that stands there: it is read first. Where it repeats it is not read again.
pub(super) fn strip_onto(page: &mut Page, area: AreaId, strip: &Block, first: bool) {
    let before = page.marks.len();
    strip.onto(page, area, EDGE, EDGE, Some(Kind::P));
    page.marks.rotate_left(before);
    let repeated = page.marks.len() - before;
    if !first {
        page.marks.iter_mut().take(repeated).for_each(|mark| mark.element = None);
    }
}
