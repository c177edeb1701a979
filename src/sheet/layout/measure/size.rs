//! A size that is measured, its figures as they are set.

use super::super::Sheet;
use super::super::block::{BODY, Block, Style, plain};
use crate::operations::{Blank, LeftAs, SetUp, Target};
use crate::proof::Fact;
use crate::quantity::{Print, Rounds, Shown, Unit};
use crate::sheet::as_typed;
use crate::sheet::figures::{self, Run};
use crate::sheet::fonts::Fault;
use crate::sheet::page::{Anchor, Point};
use crate::sheet::words;

/// Between words of a target, mm.
const SPACE: f64 = 1.3;

/// A size with its figures as they are set.
#[derive(Clone)]
pub(super) struct Size {
    /// What it is.
    pub label: String,
    /// What is known of it before it is read.
    pub found: Option<String>,
    /// The same in two parts: how it is known, and its figure.
    pub known: &'static str,
    pub figure: String,
    /// In the first unit of print.
    pub target: Vec<Run>,
    /// The same in the other, in brackets.
    pub other: String,
    /// The same as it stands behind the name.
    pub other_behind_its_name: String,
    /// The unit in which it is written down.
    pub unit: &'static str,
    /// The name under which the log holds it.
    pub log: Option<LeftAs>,
    /// How many blanks stand for it.
    pub readings: usize,
    /// How many readings its step asks.
    pub asked: usize,
}

impl Size {
    pub(super) fn of(sheet: &Sheet, set_up: &SetUp<String>, blank: &Blank<String>) -> Self {
        let print = sheet.plan.print;
        let first = if print == Print::Both { Print::Metric } else { print };
        // What is to be made is found and made in one unit, that of its target.
        let alone = blank.as_found.as_ref().filter(|_| blank.target.is_none());
        let typed = alone.and_then(|found| as_typed::found(sheet.plan, &sheet.planned.answer, found));
        let figure = blank
            .as_found
            .as_ref()
            .map(|found| plain(&typed.as_ref().map_or_else(|| found.said(None, first), as_typed::Typed::line)));
        let known = words::known_before(blank);
        let found = figure.as_ref().map(|figure| plain(&format!("{known} {figure}")));
        let wanted = set_up.target_of(blank);
        // A nominal size that somebody wrote is aimed at as it was written, where that is no finer than it is read.
        let is_whole = |parts: f64| (parts - parts.round()).abs() < 1e-6;
        let aimed = match &wanted {
            Some(Target::Aim(aim @ Fact::Figure { doubt: None, number, .. }))
                if is_whole(number * 1000.0) || is_whole(number / 25.4 * 10_000.0) =>
            {
                let typed = as_typed::found(sheet.plan, &sheet.planned.answer, aim);
                let in_inches = |typed: &as_typed::Typed| typed.unit == words::unit_of_sizes(Print::Imperial);
                // Of both units the first is large, whatever it was typed in.
                let stands = typed.filter(|typed| typed.doubt.is_none() && !(print == Print::Both && in_inches(typed)));
                stands.map(|typed| {
                    let inches = in_inches(&typed);
                    let print = if inches { Print::Imperial } else { Print::Metric };
                    Shown::typed(*number, Unit::Mm, Rounds::Nearest, print)
                })
            }
            _ => None,
        };
        let target = match (&aimed, &wanted) {
            (Some(aimed), _) => figures::with_unit(figures::number(&aimed.number), aimed.unit),
            (None, Some(target)) => figures::target(target, first).concat(),
            (None, None) => Vec::new(),
        };
        let in_inches = wanted.as_ref().filter(|_| print == Print::Both);
        let in_inches = in_inches.map(|target| figures::target_line(target, Print::Imperial));
        let other = in_inches.as_ref().map_or_else(String::new, |line| format!("({line})"));
        // Behind a size as found it says that it is not that one.
        let other_behind_its_name = match (&in_inches, &found) {
            (Some(line), Some(_)) => words::to_become(line),
            _ => other.clone(),
        };
        Self {
            label: plain(&blank.words),
            found,
            known,
            figure: figure.unwrap_or_default(),
            target,
            other,
            other_behind_its_name,
            unit: typed
                .map(|typed| typed.unit)
                .or(aimed.map(|aimed| aimed.unit))
                .unwrap_or_else(|| figures::unit_of(blank, first)),
            log: blank.log,
            readings: blank.readings.max(1),
            asked: blank.readings.max(1),
        }
    }

    /// Name and size as found.
    pub(super) fn name(&self) -> String {
        self.named(&self.label)
    }

    /// The same, with how many readings are asked where fewer blanks stand for it.
    pub(super) fn name_and_readings(&self) -> String {
        self.named(&self.label_for(self.readings))
    }

    fn named(&self, label: &str) -> String {
        self.found.as_ref().map_or_else(|| label.to_owned(), |found| format!("{label}: {found}"))
    }

    /// Its label; where fewer blanks stand for it than readings are asked, with how many those are.
    pub(super) fn label_for(&self, blanks: usize) -> String {
        if blanks < self.asked { words::with_readings(&self.label, self.asked) } else { self.label.clone() }
    }
}

pub(super) fn style(run: &Run, large: Style) -> Style {
    if run.large { large } else { BODY }
}

pub(super) fn width_of(runs: &[Run], large: Style) -> Result<f64, Fault> {
    let mut wide = 0.0;
    for run in runs {
        wide += style(run, large).width(&run.text)? + SPACE;
    }
    Ok(f64::max(wide - SPACE, 0.0))
}

pub(super) fn set(block: &mut Block, runs: &[Run], large: Style, at: Point) -> Result<(), Fault> {
    let mut x = at.x;
    for run in runs {
        x = block.text(Point::new(x, at.y), Anchor::Left, style(run, large), &run.text)?.right + SPACE;
    }
    Ok(())
}
