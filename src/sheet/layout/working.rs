//! The working page of an operation: every check with figure, limit and margin, what was worked out and from what, what else
//! was worked, what was assumed. It stands behind the sheets of its operation.

use super::block::{BODY, Block};
use super::flow::{Flow, Section, TooHigh, inner};
use super::lists::{self, bars, chunks};
use super::strip;
use super::zones::Zones;
use super::{Fault, Sheet, checks, picture};
use crate::quantity::Shown;
use crate::sheet::page::Page;
use crate::sheet::{figures, fonts, words};

impl Sheet<'_> {
    /// The working pages of its operation.
    pub(super) fn working(&self) -> Result<Vec<Page>, Fault> {
        let width = inner(self.paper);
        let letters = |fault| self.letters(words::WORKED, fault);
        let mut flow = Flow::new(self.paper, Zones::of(self.paper).strip());
        let mut sections = vec![checks::section(self, width).map_err(letters)?];
        let alternatives = &self.planned.answer.alternatives;
        if !alternatives.is_empty() {
            sections.push(checks::alternatives(alternatives, self.plan.print, width).map_err(letters)?);
        }
        sections.extend(picture::section(self, width).map_err(letters)?);
        let answer = &self.planned.answer;
        sections.extend(lists::list(words::ASSUMED, &answer.assumed, width).map_err(letters)?);
        let mut names = strip::all_names(self);
        names.extend(self.planned.note.as_ref().map(|note| words::named(words::NOTE, note)));
        sections.extend(lists::list(words::IN_FULL, &names, width).map_err(letters)?);
        sections.push(self.values(width).map_err(letters)?);
        for section in &sections {
            flow.put(section).map_err(|TooHigh(part)| Fault::TooHigh { sheet: self.working_id(), part })?;
        }
        self.finished(&self.working_id(), flow.pages)
    }

    /// What was worked out: figure, meaning, and where it comes from.
    fn values(&self, width: f64) -> Result<Section, fonts::Fault> {
        let mut rows: Vec<Block> = Vec::new();
        for value in &self.planned.answer.values {
            let doubt = Some(value.plus_minus);
            let shown = Shown::usual(value.number, doubt, value.unit, value.rounds, self.plan.print);
            let figure = figures::marked(&shown, value.from_memory);
            let mut text = format!("{}: {}", value.means, figure);
            for said in std::iter::once(value.origin.source()).chain(value.origin.working_in(self.plan.print)) {
                if !said.is_empty() {
                    text = format!("{text}; {said}");
                }
            }
            rows.extend(chunks(&BODY.wrap(&text, width)?, 0.0, 0.3, BODY)?);
        }
        let memory = self.planned.from_memory();
        let mut last = vec![words::working_in_full(&self.planned.address.to_string())];
        last.extend((!memory.is_empty()).then(|| words::from_memory(&memory)));
        for text in last {
            rows.extend(chunks(&BODY.wrap(&text, width)?, 0.0, 0.3, BODY)?);
        }
        Ok(Section { name: words::WORKED, bar: Some(bars(width, words::WORKED, &[])?), rows })
    }
}
