//! One sheet: its zones filled, what overflows on a further page, its pages numbered and checked.

use super::block::{Block, NUMBERED};
use super::flow::{Flow, Section, TooHigh, fitting};
use super::zones::Zones;
use super::{
    Fault, Sheet, beside, by_pencil, check, cuts, draughting, fonts, lists, measure, overleaf, picture, sketch, strip,
    under, verdict, ways, words,
};
use crate::in_order::InOrder;
use crate::proof::{Check, Outcome, Verdict, Weight};
use crate::quantity::Print;
use crate::sheet::figures;
use crate::sheet::page::{Ink, Kind, Mark, Page, Rect};

impl<'a> Sheet<'a> {
    /// Its pages: as all sheets are set; where that cannot be, without the sketch; where that cannot be, line by line.
    pub(super) fn pages(&self) -> Result<Vec<Page>, Fault> {
        let why = match self.numbered() {
            Ok(pages) if pages.len() > 1 && self.plan.print == Print::Both => return Ok(self.briefly(pages)),
            Ok(pages) => return Ok(pages),
            Err(why) => why,
        };
        let note = words::without_sketch(&why.to_string());
        let without = Self { sketched: false, notes: vec![note], ..self.clone() };
        without.numbered().or_else(|_| self.line_by_line(&why))
    }

    /// The same in fewer pages, where words with the figures of one unit alone give fewer: what is set, held to and measured
    /// large keeps both.
    fn briefly(&self, pages: Vec<Page>) -> Vec<Page> {
        let brief = self.planned.in_one_unit.as_ref().filter(|_| !self.may_not_be_cut());
        let Some(set_up) = brief.and_then(|brief| brief.set_ups.get(self.number - 1)) else { return pages };
        match (Sheet { set_up: Some(set_up), ..self.clone() }).numbered() {
            Ok(fewer) if fewer.len() < pages.len() => fewer,
            _ => pages,
        }
    }

    /// Its pages, which say so where a sign stands as its number.
    fn numbered(&self) -> Result<Vec<Page>, Fault> {
        let laid = self.zoned()?;
        let is_number = |mark: &Mark| matches!(&mark.ink, Ink::Text(text) if text.text.contains(NUMBERED));
        if !laid.iter().flat_map(|page| &page.marks).any(is_number) {
            return Ok(laid);
        }
        let mut said = self.clone();
        said.notes.push(words::LACKED.into());
        said.zoned()
    }

    /// The zones of the first page filled; what overflows goes on: rather in what room others leave on that page than overleaf.
    fn zoned(&self) -> Result<Vec<Page>, Fault> {
        let pages = self.zoned_in(false)?;
        if pages.len() == 1 {
            return Ok(pages);
        }
        Ok(self.zoned_in(true).ok().filter(|fewer| fewer.len() < pages.len()).unwrap_or(pages))
    }

    /// The same; where that is asked, steps go on under what is measured, and the verdict begins where that ends.
    fn zoned_in(&self, shares: bool) -> Result<Vec<Page>, Fault> {
        let zones = Zones::of(self.paper);
        let mut below = zones.verdict;
        let mut page = Page::new(self.paper);
        let mut over: Vec<Section> = Vec::new();
        let drawn = self.sketch_zone(&mut page, picture::zone(self), &mut over)?;
        let letters = |part: &'static str| move |fault| self.letters(part, fault);
        let beside = beside::beside(self, &drawn.balloons, &drawn.left_out, zones.beside);
        let beside = beside.map_err(letters(words::HOLD))?;
        let area = page.area("beside", zones.beside);
        stack(&mut page, area, zones.beside.left, zones.beside.top, beside.rows);
        let (wide, mut with_verdict) = (zones.cuts.width(), beside.with_verdict.clone());
        let mut findings = verdict::findings(self, wide).map_err(letters(words::CHECKS))?;
        if self.may_not_be_cut() {
            let made = ways::section(self, zones.ways_out(), &mut findings).map_err(letters(words::WAYS_OUT))?;
            let (mut here, mut later) = (made.section, made.later);
            let held = lists::marked(&beside.before_steps, wide).map_err(letters(words::HOLD))?;
            if later.is_empty() {
                here.rows.extend(held)
            } else {
                later.extend(held)
            };
            picture::onto(self, &mut here, zones.ways_out()).map_err(letters(words::WAYS_OUT))?;
            // A line or two stand with the verdict rather than overleaf.
            if later.iter().map(|row| row.height).sum::<f64>() < under::FEWEST as f64 * under::LINE {
                findings.push(verdict::Finding::of(String::new(), std::mem::take(&mut later)));
            }
            let bar = here.bar.as_ref().map(|bar| (bar.1.clone(), bar.1.clone()));
            // What was worked out without a set-up may stand whole in the place of a sketch.
            if self.set_up.is_some() || !here.rows.is_empty() {
                fill(&mut page, "ways out", zones.ways_out(), here, &mut over).map_err(letters(words::WAYS_OUT))?;
            }
            over.extend((!later.is_empty()).then_some(Section { name: words::WAYS_OUT, bar, rows: later }));
        } else if let Some(set_up) = self.set_up {
            let before = lists::marked(&beside.before_steps, wide).map_err(letters(words::HOLD))?;
            let high = zones.cuts.height() - before.iter().map(|row| row.height).sum::<f64>();
            let steps = cuts::section(self, set_up, wide, high).map_err(letters(words::CUTS))?;
            let mut made = steps;
            made.rows.splice(0..0, before.clone());
            let rows = made.rows.len();
            picture::onto(self, &mut made, zones.cuts).map_err(letters(words::CUTS))?;
            let mut pictured = made.rows.len() > rows || !picture::stands_under_steps(self);
            if !pictured {
                // Set as closely as steps may be, they may leave it the room.
                let close = cuts::section(self, set_up, wide, 0.0).map_err(letters(words::CUTS))?;
                let mut closely = close;
                closely.rows.splice(0..0, before);
                let rows = closely.rows.len();
                picture::onto(self, &mut closely, zones.cuts).map_err(letters(words::CUTS))?;
                if closely.rows.len() > rows {
                    (made, pictured) = (closely, true);
                }
            }
            // What the shop lacks stands before the steps, where those leave the room.
            let first = lists::notes(&with_verdict, wide).map_err(letters(words::NOTE))?;
            let bar = made.bar.as_ref().map_or(0.0, |bar| bar.0.height);
            let taken: f64 = made.rows.iter().chain(&first).map(|row| row.height).sum();
            if taken + bar <= zones.cuts.height() {
                made.rows.splice(0..0, first);
                with_verdict.clear();
            }
            let high = zones.measure.height();
            let spare = self.spare(zones.verdict, (&findings, &with_verdict)).map_err(letters(words::CHECKS))?;
            let spare = if shares { 0.0 } else { spare };
            let measured = measure::section(self, set_up, (wide, high), high + spare);
            let measured = measured.map_err(letters(words::MEASURE))?;
            let ends = overleaf::end_of(&measured, &zones);
            let mut place = zones.measure;
            if ends > place.bottom && ends <= place.bottom + spare {
                // Every blank and figure of it, with the verdict below.
                place.bottom = ends;
                below.top = below.top.max(ends + overleaf::CLOSE);
            }
            let ends = ends.min(place.bottom);
            // A picture that has no room under the steps stands under what is measured, where the verdict leaves it that.
            let spread = Rect::new(zones.cuts.left, ends, zones.cuts.right, zones.verdict.top + spare);
            let beneath =
                if pictured || shares { None } else { picture::beneath(self, spread).map_err(letters(words::CUTS))? };
            let under = overleaf::beneath(&made, &measured, &zones).map_err(letters(words::CUTS))?.filter(|_| shares);
            let here = under.as_ref().map_or(made, |under| under.here.clone());
            fill(&mut page, "cuts", zones.cuts, here, &mut over).map_err(letters(words::CUTS))?;
            fill(&mut page, "measure", place, measured, &mut over).map_err(letters(words::MEASURE))?;
            if let Some(picture) = beneath {
                let bottom = ends + picture.height;
                let area = page.area("picture", Rect { bottom, ..spread });
                stack(&mut page, area, spread.left, spread.top, vec![picture]);
                below.top = below.top.max(bottom + overleaf::CLOSE);
            }
            if shares {
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
        let shared = self.verdict_zone(&mut page, below, (findings, &with_verdict), &mut over);
        shared.map_err(letters(words::CHECKS))?;
        let full = lists::list(words::IN_FULL, &strip::in_full(self), wide).map_err(letters(words::IN_FULL))?;
        over.extend(full);
        let pages = self.going_on(page, &over, drawn.apart)?;
        self.finished(&self.id(), pages)
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
    fn spare(&self, zone: Rect, (findings, more): (&[verdict::Finding], &[String])) -> Result<f64, fonts::Fault> {
        let mut taken = under::least(self, zone.width())?;
        for text in self.notes.iter().filter(|_| self.sketched).chain(more) {
            taken += verdict::line(text, zone.width())?.height();
        }
        taken += findings.iter().map(verdict::Finding::height).sum::<f64>();
        Ok(f64::max(zone.height() - taken - overleaf::CLOSE, 0.0))
    }

    /// The verdict from the top of its zone, the foot from its bottom. Findings that have no room are named: they stand on
    /// the working page.
    fn verdict_zone(
        &self,
        page: &mut Page,
        zone: Rect,
        (findings, more): (Vec<verdict::Finding>, &[String]),
        over: &mut Vec<Section>,
    ) -> Result<(), fonts::Fault> {
        let width = zone.width();
        let said = self.notes.iter().filter(|_| self.sketched).chain(more);
        let said = said.map(|text| verdict::line(text, width)).collect::<Result<Vec<_>, _>>()?;
        let (lines, findings) = findings.into_iter().partition::<Vec<_>, _>(|finding| finding.name.is_empty());
        let wanted = under::Wanted {
            lines: said.into_iter().chain(lines).collect(),
            findings,
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
        Ok(())
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

    /// Whether nothing of its operation may be cut or fitted.
    pub(super) fn may_not_be_cut(&self) -> bool {
        self.planned.verdict == Verdict::Fails || self.set_up.is_none()
    }

    /// What fails of its operation, the worst first.
    pub(super) fn failing(&self) -> Vec<&'a Check<String>> {
        let checks = self.planned.answer.checks.iter();
        let mut all: Vec<&Check<String>> = checks.filter(|check| check.stamps() == Some(Verdict::Fails)).collect();
        all.order_by(|one, other| verdict::worse_first(one, other));
        all
    }

    /// The checks that a set-up of its operation stands on: each has one owner, the first that names it, else the first of all.
    pub(super) fn owned(&self) -> impl Iterator<Item = &'a Check<String>> + use<'a> {
        let (planned, number) = (self.planned, self.number);
        planned.answer.checks.iter().filter(move |check| planned.answer.is_of_set_up(check, number.wrapping_sub(1)))
    }

    /// Whether it was worked already.
    pub(super) fn is_done(&self) -> bool {
        self.set_up.is_some_and(|set_up| set_up.steps.first().is_some_and(|step| step.id == words::DONE_ID))
    }

    /// The word of its stamp: of what was worked already that it was.
    pub(super) fn stamp(&self) -> &'static str {
        if self.is_done() {
            return words::DONE_STAMP;
        }
        match self.set_up {
            Some(set_up) => words::stamp(self.verdict(), Some(set_up.station)),
            None => words::stamp_of_whole(self.planned),
        }
    }

    /// The verdict of the frame about its stamp: what was worked is told apart by its word, and what of that is in doubt by its frame.
    pub(super) fn framed(&self) -> Verdict {
        if self.is_done() { self.verdict().min(Verdict::Doubtful) } else { self.verdict() }
    }

    /// Its own verdict: a failure is that of the whole operation.
    pub(super) fn verdict(&self) -> Verdict {
        self.verdict_of(self.number)
    }

    fn verdict_of(&self, number: usize) -> Verdict {
        let planned = self.planned;
        // What is proven makes nothing worse: whose it is need not be known.
        let worst = |of: &dyn Fn(&&Check<String>) -> bool| {
            let open = planned.answer.checks.iter().filter(|check| check.stamps() > Some(Verdict::Proven));
            open.filter(of).filter_map(Check::stamps).max().unwrap_or(Verdict::Proven)
        };
        if planned.verdict == Verdict::Fails {
            return Verdict::Fails;
        }
        // What no check says of the operation's verdict is the first sheet's.
        let unsaid = number == 1 && worst(&|_| true) < planned.verdict;
        let own = worst(&|check| planned.answer.is_of_set_up(check, number.wrapping_sub(1)));
        if unsaid { planned.verdict } else { own.min(planned.verdict) }
    }

    /// Other set-ups of its operation whose own verdict is doubtful.
    pub(super) fn doubtful_elsewhere(&self) -> Vec<String> {
        let others = (1..=self.planned.answer.set_ups.len()).filter(|number| *number != self.number);
        others.filter(|number| self.verdict_of(*number) == Verdict::Doubtful).map(|number| self.id_of(number)).collect()
    }

    /// Of the proven checks whose figures have no doubt the one with the least margin for its limit.
    fn nearest(&self) -> Option<&'a Check<String>> {
        let made = self.owned().filter(|check| check.is_proven());
        let share = |check: &'a Check<String>| {
            let judged = check.judged.as_ref().filter(|judged| judged.limit.abs() > 0.0)?;
            Some((judged.margin / judged.limit.abs(), check))
        };
        made.filter_map(share).min_by(|one, other| one.0.total_cmp(&other.0)).map(|nearest| nearest.1)
    }

    /// The reason under its stamp, in one line.
    pub(super) fn reason(&self) -> String {
        self.reason_in(true)
    }

    /// The same, not `whole` without the words that every margin has.
    pub(super) fn reason_in(&self, whole: bool) -> String {
        match self.doubt_of_done() {
            Some(_) => words::doubt_of_done(&self.reason_of_verdict(whole)),
            None if self.is_done() => words::DONE_REASON.into(),
            None => self.reason_of_verdict(whole),
        }
    }

    /// What is in doubt of a set-up that was worked already.
    pub(super) fn doubt_of_done(&self) -> Option<String> {
        (self.is_done() && self.verdict() == Verdict::Doubtful).then(|| self.reason_of_verdict(true))
    }

    fn reason_of_verdict(&self, whole: bool) -> String {
        // What proof is limited to is no reason of a doubt; that no shop was given is.
        let says = self.verdict() == Verdict::Proven || self.plan.shop.is_none();
        if let Some(note) = strip::stamp_note(self).filter(|_| says) {
            return strip::short(note);
        }
        // A check that is doubtful though its figure holds rests on something doubtful: its figure is no reason.
        let says = |check: &Check<String>| match &check.judged {
            Some(judged) if check.is_proven() || judged.margin < 0.0 => {
                words::reason(&check.called, &figures::inside(judged, self.plan.print).0, judged.margin < 0.0, whole)
            }
            _ => words::reason_of_kind(&check.called, check.verdict().unwrap_or(Verdict::Doubtful)),
        };
        match self.verdict() {
            Verdict::Fails if self.planned.answer.refused.is_some() => words::REFUSED.into(),
            Verdict::Fails => self.failing().first().map_or_else(String::new, |worst| says(worst)),
            Verdict::Doubtful if self.owned().any(|check| check.unfinished.is_some()) => words::UNFINISHED.into(),
            Verdict::Doubtful => {
                let open: Vec<&str> = self
                    .owned()
                    .filter(|check| check.state == Outcome::NotChecked && check.weight == Weight::Must)
                    .map(|check| check.called.as_str())
                    .collect();
                let made = self.owned().filter(|c| c.verdict().is_some() && c.stamps() == Some(Verdict::Doubtful));
                // As the findings have them: what stamps the sheet stands first there, with its remedies.
                match made.min_by(|one, other| verdict::worse_first(one, other)) {
                    Some(check) => says(check),
                    None if open.is_empty() => String::new(),
                    None => strip::not_made(&open),
                }
            }
            Verdict::Proven => verdict::closest(self).or_else(|| self.nearest()).map_or_else(
                || {
                    let proven: Vec<&str> =
                        self.owned().filter(|check| check.is_proven()).map(|check| check.called.as_str()).collect();
                    if proven.is_empty() { words::NO_CHECK.into() } else { strip::held(&proven) }
                },
                says,
            ),
        }
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

/// Puts rows under each other.
fn stack(page: &mut Page, area: super::AreaId, left: f64, top: f64, rows: Vec<Block>) {
    let mut y = top;
    for row in rows {
        let high = row.height;
        row.onto(page, area, (left, y), Kind::P);
        y += high;
    }
}
