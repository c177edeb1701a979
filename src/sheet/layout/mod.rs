//! Laying a plan out on pages: one page a set-up, each thing in its zone; a further one only where a zone overflows.
//!
//! A zone is filled with blocks that know their height before they have a place. Every page goes through the checker: a page
//! with a fault is never written. A sheet that cannot be laid out so is set without its sketch, then line by line, and says
//! so: no sheet takes the others with it. What was worked and compared stands on a working page, one an operation, where it
//! is asked for.

mod beside;
mod block;
mod by_pencil;
mod cells;
mod checks;
mod cover;
mod cuts;
mod day;
mod decide;
mod filled;
mod flow;
mod hold;
mod in_figures;
mod ladder;
mod lists;
mod mapped;
mod measure;
mod overleaf;
mod overview;
mod picture;
mod plainly;
mod sheet;
mod sketch;
mod streamed;
mod strip;
mod under;
mod verdict;
mod wanted;
mod ways;
mod working;
mod zoned;
mod zones;

pub use day::{day_pages, day_pdf};
pub use decide::{decide_pages, decide_pdf};
pub use overview::Listed;
pub(super) use overview::{Line, overview};
pub use streamed::{Sheets, packed, streamed_pdf};

use super::page::{AreaId, Page, Paper};
use super::pdf::{self, Chapter, Leaf, Meta, Packed};
use super::{check, draughting, fonts, html, pictures, printed, spread, svg, words};
use crate::operations::SetUp;
use crate::plan::{Plan, Planned};
use crate::quantity::Print;

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

/// Which working pages are made.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Working {
    /// None.
    None,
    /// That of every operation.
    All,
}

/// What stands beside the sheets.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Extras {
    /// Which working pages are made.
    pub working: Working,
    /// Whether a cover stands before the sheets of each job.
    pub cover: bool,
}

impl From<Working> for Extras {
    fn from(working: Working) -> Self {
        Self { working, cover: false }
    }
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
    /// Whether its sketch is drawn.
    sketched: bool,
    /// The units of the figures of its sketch.
    sketched_in: Print,
    /// What is to be said of the sheet itself, under its strip.
    notes: Vec<String>,
}

impl<'a> Sheet<'a> {
    /// Every sheet of a plan; `stopped` stand in the place of operations that pages may not show as they are.
    fn shown(plan: &'a Plan, stopped: &'a [Option<Planned>]) -> Vec<Self> {
        let shown = plan.operations.iter().zip(stopped);
        Self::of(plan, shown.map(|(planned, stopped)| stopped.as_ref().unwrap_or(planned)))
    }

    fn of(plan: &'a Plan, operations: impl Iterator<Item = &'a Planned>) -> Vec<Self> {
        operations.zip(1..).flat_map(|(planned, operation)| Self::of_operation(plan, planned, operation)).collect()
    }

    /// The sheets of one operation, which has that number in its job.
    fn of_operation(plan: &'a Plan, planned: &'a Planned, operation: usize) -> Vec<Self> {
        let (paper, sketched, sketched_in, notes) = (plan.paper, true, plan.print, Vec::new());
        let sheet = Self { plan, planned, set_up: None, paper, operation, number: 1, sketched, sketched_in, notes };
        let set_ups = planned.answer.set_ups.iter().zip(1..);
        let sheets: Vec<Self> =
            set_ups.map(|(set_up, number)| Self { set_up: Some(set_up), number, ..sheet.clone() }).collect();
        if sheets.is_empty() { vec![sheet] } else { sheets }
    }

    /// Its pages as they belong together; `each` is done to them where they are made.
    fn bundle<T>(&self, each: impl Fn(&str, Vec<Page>) -> Result<Vec<T>, Fault>) -> Result<Bundle<T>, Fault> {
        let (id, chapter) = (self.id(), (self.number == 1).then(|| self.chapter()));
        Ok(Bundle { pages: each(&id, self.pages()?)?, id, title: self.title(), chapter })
    }

    /// Its own number in the job: operation, set-up.
    fn id(&self) -> String {
        self.id_of(self.number)
    }

    fn id_of(&self, number: usize) -> String {
        self.plan.sheet_id(self.operation, number)
    }

    /// The id of the working page of its operation.
    fn working_id(&self) -> String {
        self.plan.of_jobs(format!("W{}", self.operation))
    }

    /// As the outline lists it.
    fn title(&self) -> String {
        let set_up = self.set_up.map_or(words::without_set_up(self.planned), |set_up| &set_up.title);
        block::in_line(&format!("{} {set_up}", self.id()))
    }

    /// Its operation, as the outline lists it: with its verdict.
    fn chapter(&self) -> String {
        let (part, title) = (&self.planned.address.part, &self.planned.title);
        let verdict = words::verdict(self.planned.verdict);
        block::in_line(&format!("{} {part}, {title}: {verdict}", self.plan.of_jobs(self.operation)))
    }
}

/// Pages that belong together: a sheet, or the working of an operation.
struct Bundle<T> {
    id: String,
    /// As the outline lists it.
    title: String,
    /// Its operation, where it is the first of it.
    chapter: Option<String>,
    pages: Vec<T>,
}

/// The pages of several plans, sheet by sheet, each working page behind the last sheet of its operation. `each` is done to
/// the pages of a sheet where they are made.
fn bundles<T: Send>(
    plans: &[Plan],
    Extras { working, cover }: Extras,
    each: impl Fn(&str, Vec<Page>) -> Result<Vec<T>, Fault> + Sync,
) -> Result<Vec<Bundle<T>>, Fault> {
    let stopped: Vec<_> = plans.iter().map(printed::on_pages).collect();
    let sheets: Vec<Sheet> =
        plans.iter().zip(&stopped).flat_map(|(plan, stopped)| Sheet::shown(plan, stopped)).collect();
    let made = spread::over(&sheets, |sheet| sheet.bundle(&each))?;
    let last = |at: usize| sheets.get(at + 1).is_none_or(|next| next.number == 1);
    let mut wanted = Vec::new();
    if working == Working::All {
        wanted.extend(sheets.iter().enumerate().filter(|(at, _)| last(*at)).map(|(_, sheet)| sheet));
    }
    let behind = spread::over(&wanted, |sheet| {
        let id = sheet.working_id();
        let title = format!("{id} {}", words::WORKING);
        Ok::<_, Fault>(Bundle { pages: each(&id, sheet.working()?)?, id, title, chapter: None })
    })?;
    let mut behind = behind.into_iter();
    let mut all = Vec::new();
    let covered = |(plan, stopped): (&Plan, &Vec<Option<Planned>>)| {
        let title = block::in_line(&format!("{}: {}", words::COVER, plan.job));
        let pages = each(words::COVER_ID, cover::pages(plan, &Sheet::shown(plan, stopped))?)?;
        Ok::<_, Fault>(Bundle { pages, id: words::COVER_ID.into(), title: title.clone(), chapter: Some(title) })
    };
    let mut covers = plans.iter().zip(&stopped).filter(|_| cover);
    for (at, bundle) in made.into_iter().enumerate() {
        let begins = sheets.get(at).is_some_and(|sheet| sheet.operation == 1 && sheet.number == 1);
        if let Some(plan) = begins.then(|| covers.next()).flatten() {
            all.push(covered(plan)?);
        }
        all.push(bundle);
        if last(at) {
            all.extend(behind.next());
        }
    }
    Ok(all)
}

/// The pages of several plans, without working pages.
///
/// # Errors
/// Where a text or a sketch cannot be laid out, and where a page would have a fault.
pub fn pages(plans: &[Plan]) -> Result<Vec<Page>, Fault> {
    pages_with(plans, Working::None)
}

/// The pages of several plans.
///
/// # Errors
/// As [`pages`].
pub fn pages_with(plans: &[Plan], extras: impl Into<Extras>) -> Result<Vec<Page>, Fault> {
    Ok(bundles(plans, extras.into(), |_, pages| Ok(pages))?.into_iter().flat_map(|bundle| bundle.pages).collect())
}

/// The sheets of several plans as one PDF: an outline of operations and sheets, the same plans the same bytes.
///
/// # Errors
/// As [`pages`], and where the PDF cannot be written.
pub fn pdf(plans: &[Plan]) -> Result<Vec<u8>, Fault> {
    pdf_with(plans, Working::None)
}

/// The sheets of several plans as one PDF, with the working pages asked for.
///
/// # Errors
/// As [`pdf()`].
pub fn pdf_with(plans: &[Plan], extras: impl Into<Extras>) -> Result<Vec<u8>, Fault> {
    Ok(bound(bundles(plans, extras.into(), packed_pages)?, plans)?.concat())
}

fn packed_pages(_: &str, pages: Vec<Page>) -> Result<Vec<Packed>, Fault> {
    Ok(pages.iter().zip(1..).map(|(page, number)| Packed::new(page, number)).collect::<Result<_, _>>()?)
}

/// Packed sheets as one PDF, in pieces that follow each other; of the plans their frames are enough.
fn bound(bundles: impl IntoIterator<Item = Bundle<Packed>>, plans: &[Plan]) -> Result<Vec<Vec<u8>>, Fault> {
    let mut all = Vec::new();
    let mut chapters: Vec<Chapter> = Vec::new();
    for bundle in bundles {
        chapters.extend(bundle.chapter.map(|title| Chapter { title, sheets: Vec::new() }));
        if let Some(chapter) = chapters.last_mut() {
            chapter.sheets.push(Leaf { id: bundle.id, title: bundle.title, page: all.len() });
        }
        all.extend(bundle.pages);
    }
    let title = title(plans);
    let author = each(plans, |plan| plan.shop.as_deref());
    let date = Some(each(plans, |plan| plan.date.as_deref())).filter(|date| !date.is_empty());
    Ok(pdf::in_pieces(all, &Meta { title, author, language: words::LANGUAGE.into(), date, chapters })?)
}

/// The sketches of several plans, each alone as SVG, with the id of its sheet; with several plans the number of the plan stands
/// before the id.
///
/// # Errors
/// As [`pages`].
pub fn sketches(plans: &[Plan]) -> Result<Vec<(String, String)>, Fault> {
    let mut all = Vec::new();
    for (plan, number) in plans.iter().zip(1..) {
        let named = |id: &str| name_of(plan, (number, plans.len() > 1), id);
        let drawn = |id: &str, pages: Vec<Page>| {
            let pictures = pages.iter().flat_map(|page| svg::pictures(page, &named(id)));
            let name = |at: usize| if at == 0 { named(id) } else { format!("{}-{}", named(id), at + 1) };
            Ok(pictures.enumerate().map(|(at, svg)| (name(at), svg)).collect())
        };
        let made = bundles(std::slice::from_ref(plan), Working::None.into(), drawn)?;
        all.extend(made.into_iter().flat_map(|bundle| bundle.pages));
    }
    Ok(all)
}

/// The sheets of several plans as one self-contained page for a screen.
///
/// # Errors
/// As [`pages`].
pub fn html(plans: &[Plan], working: Working) -> Result<String, Fault> {
    let several = plans.len() > 1;
    let mut sheets = Vec::new();
    for (plan, number) in plans.iter().zip(1..) {
        let bundles = bundles(std::slice::from_ref(plan), working.into(), |_, pages| Ok(pages))?;
        let stopped = printed::on_pages(plan);
        let known = Sheet::shown(plan, &stopped);
        for bundle in bundles {
            let of = known.iter().find(|sheet| sheet.id() == bundle.id);
            let behind = || known.iter().rfind(|sheet| sheet.working_id() == bundle.id);
            let Some(sheet) = of.or_else(behind) else { continue };
            let drawn = bundle.pages.iter().map(|page| svg::pictures(page, "").len()).sum::<usize>();
            let sketched = sheet.set_up.is_some_and(|set_up| !set_up.sketch.items.is_empty());
            // Where there is more than the sketch the picture stands on its pages.
            let wanted = of.is_some() && sheet.number == 1 && drawn <= usize::from(sketched);
            sheets.push(html::Sheet {
                id: name_of(plan, (number, several), &bundle.id),
                title: bundle.title,
                chapter: bundle.chapter,
                stamp: sheet.stamp(),
                framed: sheet.framed(),
                address: block::in_line(&sheet.planned.address.to_string()),
                gauges: gauges(sheet),
                pages: bundle.pages,
                reason: block::plain(&sheet.reason()),
                facts: block::plain(&strip::line_of_facts(sheet)),
                picture: if wanted { picture::under_verdict(sheet)? } else { None },
            });
        }
    }
    Ok(html::document(&title(plans), words::LANGUAGE, &sheets))
}

/// The gauge of the shop for each size of a sheet that the log asks for.
fn gauges(sheet: &Sheet) -> Vec<(&'static str, String)> {
    let blanks = sheet.set_up.iter().flat_map(|set_up| &set_up.blanks);
    blanks.filter_map(|blank| Some((blank.log?.key, blank.gauge.as_ref()?.to_string()))).collect()
}

/// The id of a sheet as a file or a place in a page is named: without a slash, the number of the job before it where several are
/// given.
fn name_of(plan: &Plan, (number, several): (usize, bool), id: &str) -> String {
    let own = id.replace('/', "-");
    if several && plan.nth.is_none() { format!("{number}-{own}") } else { own }
}

/// The name of a file of sheets.
fn title(plans: &[Plan]) -> String {
    format!("{}: {}", words::SHEETS, each(plans, |plan| Some(&plan.job)))
}

/// What plans say, each once.
fn each(plans: &[Plan], said: fn(&Plan) -> Option<&str>) -> String {
    let mut names: Vec<String> = Vec::new();
    for name in plans.iter().filter_map(said).map(block::in_line) {
        if !names.contains(&name) {
            names.push(name);
        }
    }
    names.join("; ")
}

/// One picture an operation as SVG: what compares, where it has that, else the sketch of its first set-up.
///
/// # Errors
/// As [`pages`].
pub fn pictures(plans: &[Plan]) -> Result<Vec<String>, Fault> {
    let mut all = Vec::new();
    for plan in plans {
        for sheet in Sheet::shown(plan, &printed::on_pages(plan)).iter().filter(|sheet| sheet.number == 1) {
            all.extend(picture::alone(sheet)?);
        }
    }
    Ok(all)
}
