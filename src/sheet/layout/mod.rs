//! Laying a plan out on pages: one page a set-up, further ones only where a list is too long for it.
//!
//! A sheet is made of blocks that know their height before they have a place. Sketches of several sizes are tried, and the
//! largest that leaves the set-up on one page is taken. Every page goes through the checker: a page with a fault is never
//! written. A sheet that cannot be laid out so is set without its sketch, then line by line, and says so: no sheet takes the
//! others with it.

mod block;
mod checks;
mod cuts;
mod flow;
mod lists;
mod measure;
mod plainly;
mod sheet;
mod sketch;
mod strip;

use super::page::{Page, Paper};
use super::pdf::{self, Chapter, Leaf, Meta, Packed};
use super::{check, draughting, fonts, printed, spread, svg, words};
use crate::operations::SetUp;
use crate::plan::{Plan, Planned};
use crate::proof::{Check, Verdict};
use crate::shop;

/// Why pages could not be made.
#[derive(Debug, thiserror::Error)]
pub enum Fault {
    /// A text cannot be set: characters that the fonts lack.
    #[error("sheet {sheet}, {part}: {fault}")]
    Letters {
        /// The sheet.
        sheet: String,
        /// The part of the sheet.
        part: &'static str,
        /// What is wrong.
        fault: fonts::Fault,
    },
    /// A sketch cannot be drawn.
    #[error("sheet {sheet}, sketch: {fault}")]
    Sketch {
        /// The sheet.
        sheet: String,
        /// What is wrong.
        fault: draughting::Fault,
    },
    /// A row is higher than a page.
    #[error("sheet {sheet}, {part}: a row is higher than a page")]
    TooHigh {
        /// The sheet.
        sheet: String,
        /// The part of the sheet.
        part: &'static str,
    },
    /// A page was laid out wrongly.
    #[error("sheet {sheet}, page {page}: {}", listed(faults))]
    Page {
        /// The sheet.
        sheet: String,
        /// Counted from 1.
        page: usize,
        /// Everything wrong with it.
        faults: Vec<check::Fault>,
    },
    /// The file could not be written as PDF.
    #[error("{0}")]
    Pdf(#[from] pdf::Fault),
}

fn listed(faults: &[check::Fault]) -> String {
    faults.iter().map(ToString::to_string).collect::<Vec<_>>().join("; ")
}

/// How a table is set.
#[derive(Clone, Copy, Debug)]
struct Look {
    /// Width, mm.
    width: f64,
    /// Above and below a row, mm.
    pad: f64,
    /// Whether every millimetre counts.
    close: bool,
}

/// How closely a sheet is set.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Setting {
    /// With air between rows, the cautions under the measures.
    Open,
    /// Rows close, what is proven in two columns, lists run into each other or beside the sketch where there is room: only
    /// where that saves a page.
    Close,
}

/// One set-up of one operation, as its sheet needs it.
#[derive(Clone, Debug)]
struct Sheet<'a> {
    plan: &'a Plan,
    planned: &'a Planned,
    /// Nothing where the operation has no set-up at all.
    set_up: Option<&'a SetUp<String>>,
    paper: Paper,
    /// Number of the operation in its job, counted from 1.
    operation: usize,
    /// Number of the set-up in its operation, counted from 1.
    number: usize,
    setting: Setting,
    /// Whether its sketch is drawn.
    sketched: bool,
    /// What is to be said of the sheet itself, under its strip.
    notes: Vec<String>,
}

impl<'a> Sheet<'a> {
    /// Every sheet of a plan.
    fn all(plan: &'a Plan) -> Vec<Self> {
        let mut sheets = Vec::new();
        for (at, planned) in plan.operations.iter().enumerate() {
            let paper = paper(plan.paper);
            let (operation, setting) = (at + 1, Setting::Open);
            let (sketched, notes) = (true, Vec::new());
            let sheet = Self { plan, planned, set_up: None, paper, operation, number: 1, setting, sketched, notes };
            if planned.answer.set_ups.is_empty() {
                sheets.push(sheet);
                continue;
            }
            for (number, set_up) in planned.answer.set_ups.iter().enumerate() {
                sheets.push(Self { set_up: Some(set_up), number: number + 1, ..sheet.clone() });
            }
        }
        sheets
    }

    /// How its tables are set.
    fn look(&self, width: f64) -> Look {
        let close = self.setting == Setting::Close;
        Look { width, pad: if close { 0.45 } else { 1.2 }, close }
    }

    /// Its own number in the job: operation, set-up.
    fn id(&self) -> String {
        self.id_of(self.number)
    }

    fn id_of(&self, number: usize) -> String {
        format!("{}.{number}", self.operation)
    }

    /// Its pages, packed.
    fn packed(&self) -> Result<Vec<Packed>, Fault> {
        let pages = self.pages()?;
        Ok(pages.iter().zip(1..).map(|(page, number)| Packed::new(page, number)).collect::<Result<_, _>>()?)
    }

    /// As the outline lists it.
    fn title(&self) -> String {
        let set_up = self.set_up.map_or(words::NO_SET_UP, |set_up| &set_up.title);
        block::in_line(&format!("{} {set_up}", self.id()))
    }

    /// Its operation, as the outline lists it: with its verdict.
    fn chapter(&self) -> String {
        let (part, title) = (&self.planned.address.part, &self.planned.title);
        let verdict = words::verdict(self.planned.verdict);
        block::in_line(&format!("{} {part}, {title}: {verdict}", self.operation))
    }

    /// The checks that the sheet shows: its own, those that no sheet of the operation claims (on the first), and, because
    /// the stamp is that of the whole operation, what is not proven on another sheet, with the number of that sheet.
    fn checks(&self) -> Vec<(&'a Check<String>, Option<String>)> {
        let made = self.planned.answer.checks.iter().filter(|check| check.verdict().is_some());
        made.filter_map(|check| self.shows(check).map(|elsewhere| (check, elsewhere))).collect()
    }

    fn shows(&self, check: &Check<String>) -> Option<Option<String>> {
        let claims = |set_up: &SetUp<String>| set_up.checks.is_empty() || set_up.checks.contains(&check.id);
        if self.set_up.is_none_or(claims) {
            return Some(None);
        }
        match self.planned.answer.set_ups.iter().position(claims) {
            None if self.number == 1 => Some(None),
            None => (check.stamps().is_some_and(|v| v != Verdict::Proven)).then(|| Some(self.id_of(1))),
            Some(owner) => (check.stamps().is_some_and(|v| v != Verdict::Proven)).then(|| Some(self.id_of(owner + 1))),
        }
    }
}

fn paper(paper: shop::Paper) -> Paper {
    match paper {
        shop::Paper::A4 => Paper::A4,
        shop::Paper::Letter => Paper::Letter,
    }
}

/// The pages of several plans.
///
/// # Errors
/// Where a text or a sketch cannot be laid out, and where a page would have a fault.
pub fn pages(plans: &[Plan]) -> Result<Vec<Page>, Fault> {
    let plans = printed::printed(plans);
    let sheets: Vec<Sheet> = plans.iter().flat_map(Sheet::all).collect();
    Ok(spread::over(&sheets, Sheet::pages)?.concat())
}

/// The sheets of several plans as one PDF: an outline of operations and sheets, the same plans the same bytes.
///
/// # Errors
/// As [`pages`], and where the PDF cannot be written.
pub fn pdf(plans: &[Plan]) -> Result<Vec<u8>, Fault> {
    let plans = printed::printed(plans);
    let sheets: Vec<Sheet> = plans.iter().flat_map(Sheet::all).collect();
    let mut all = Vec::new();
    let mut chapters: Vec<Chapter> = Vec::new();
    for (sheet, packed) in sheets.iter().zip(spread::over(&sheets, Sheet::packed)?) {
        if sheet.number == 1 {
            chapters.push(Chapter { title: sheet.chapter(), sheets: Vec::new() });
        }
        if let Some(chapter) = chapters.last_mut() {
            chapter.sheets.push(Leaf { id: sheet.id(), title: sheet.title(), page: all.len() });
        }
        all.extend(packed);
    }
    let each = |said: fn(&Plan) -> Option<&str>| {
        let mut names: Vec<String> = Vec::new();
        for name in plans.iter().filter_map(said).map(block::in_line) {
            if !names.contains(&name) {
                names.push(name);
            }
        }
        names.join("; ")
    };
    let title = format!("{}: {}", words::SHEETS, each(|plan| Some(&plan.job)));
    let author = each(|plan| plan.shop.as_deref());
    let date = Some(each(|plan| plan.date.as_deref())).filter(|date| !date.is_empty());
    Ok(pdf::bound(all, &Meta { title, author, language: words::LANGUAGE.into(), date, chapters })?)
}

/// The sketches of several plans, each alone as SVG, with the id of its sheet; with several plans the number of the plan stands
/// before the id.
///
/// # Errors
/// As [`pages`].
pub fn sketches(plans: &[Plan]) -> Result<Vec<(String, String)>, Fault> {
    let plans = printed::printed(plans);
    let mut all = Vec::new();
    for (plan, number) in plans.iter().zip(1..) {
        let sheets = Sheet::all(plan);
        for (sheet, pages) in sheets.iter().zip(spread::over(&sheets, Sheet::pages)?) {
            let id = if plans.len() > 1 { format!("{number}-{}", sheet.id()) } else { sheet.id() };
            let pictures = pages.iter().flat_map(|page| svg::pictures(page, &id));
            all.extend(pictures.map(|svg| (id.clone(), svg)));
        }
    }
    Ok(all)
}
