//! `book fit "25 H7/p6"`: limits, tolerances, clearances; what is usual; the old allowances in inches.

use super::{Page, Question, Row, words};
use crate::handbook::joints::clearance::{Duty, duty_clearance};
use crate::handbook::joints::fit_pair::{clearance_least, clearance_most, old_allowances, tolerance, usual_fits};
use crate::handbook::{Fit, cited, joints::fits::Class};
use crate::operations::Name;
use crate::proof::{At, Mark, Origin, Worked};
use crate::quantity::{Mm, Quantity, Shift};
use crate::reading::Problem;
use crate::shop::Shop;
use serde::Deserialize;

/// The question.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub(super) struct FitAsked {
    fit: At<Fit>,
}

/// The three names of one side of a fit.
struct Side {
    least: Name<Mm>,
    most: Name<Mm>,
    tolerance: Name<Mm>,
}

const HOLE: Side = Side {
    least: Name::lower("hole_min", "hole: least limit"),
    most: Name::upper("hole_max", "hole: greatest limit"),
    tolerance: Name::new("hole_tolerance", "hole: tolerance"),
};
const SHAFT: Side = Side {
    least: Name::lower("shaft_min", "shaft: least limit"),
    most: Name::upper("shaft_max", "shaft: greatest limit"),
    tolerance: Name::new("shaft_tolerance", "shaft: tolerance"),
};
const NOMINAL: Name<Mm> = Name::new("nominal", "nominal size");
const CLEARANCE_MAX: Name<Shift> = Name::upper("clearance_max", "clearance, most (negative: interference)");
const CLEARANCE_MIN: Name<Shift> = Name::lower("clearance_min", "clearance, least (negative: interference)");

impl Question for FitAsked {
    const PLAIN: Option<&'static str> = Some("fit");

    fn page(&self, _: Option<&Shop>) -> Result<Page, Vec<Problem>> {
        let fit = &self.fit.value;
        let Some(nominal) = fit.nominal else {
            return Err(vec![Problem::new(self.fit.place, words::fit_without_size(fit))]);
        };
        let mut page = Page::new(words::fit_title(fit));
        let size = Worked::exact(Mm::new(nominal), Origin::Typed(self.fit.place));
        page.put(&NOMINAL, &size);
        let hole = fit.hole.as_ref().and_then(|class| side(&mut page, &HOLE, class, nominal));
        let shaft = fit.shaft.as_ref().and_then(|class| side(&mut page, &SHAFT, class, nominal));
        if let (Some(hole), Some(shaft)) = (hole, shaft) {
            together(&mut page, &hole, &shaft);
        }
        usual(&mut page, fit, nominal);
        old(&mut page, &size);
        running(&mut page, &size);
        page.note(words::ENGINE_DATA_FIRST);
        Ok(page)
    }
}

type Limits = (Worked<Mm>, Worked<Mm>);

/// The limits and the tolerance of one side; nothing where the standard has no such class there.
fn side(page: &mut Page, names: &Side, class: &Class, nominal: f64) -> Option<Limits> {
    let limits = match class.limits(nominal) {
        Ok(limits) => limits,
        Err(refusal) => {
            page.refuse(class.text(), refusal);
            return None;
        }
    };
    page.put(&names.least, &limits.0);
    page.put(&names.most, &limits.1);
    page.put_or_say(&names.tolerance, tolerance(class.grade(), nominal));
    if let Ok(rows) = class.deviations(nominal) {
        let says = words::deviations(rows.lower, rows.upper);
        let what = format!("{} {}", crate::quantity::figure(nominal), class.text());
        page.rows.push(Row::figure(
            words::DEVIATIONS,
            what,
            (rows.lower, rows.upper, "um"),
            says,
            cited(&rows.sources, Mark::Read),
        ));
    }
    Some(limits)
}

fn together(page: &mut Page, hole: &Limits, shaft: &Limits) {
    let most = page.put_or_say(&CLEARANCE_MAX, clearance_most(&hole.1, &shaft.0));
    let least = page.put_or_say(&CLEARANCE_MIN, clearance_least(&hole.0, &shaft.1));
    if let (Some(most), Some(least)) = (most, least) {
        page.note(words::kind_of_fit(least.number(), most.number()));
    }
}

/// The usual fits of pressed bushes at that size; those that name a class asked about come first.
fn usual(page: &mut Page, fit: &Fit, nominal: f64) {
    let asked: Vec<String> = fit.hole.iter().chain(&fit.shaft).map(Class::text).collect();
    let mut rows: Vec<_> = usual_fits(nominal).collect();
    rows.sort_by_key(|row| !asked.iter().any(|class| row.names(class)));
    for row in rows {
        let parts: Vec<String> = row.parts().map(|(part, class)| format!("{part} {class}")).collect();
        let says = [parts.join(", "), row.note.clone()];
        let says: Vec<String> = says.into_iter().filter(|text| !text.is_empty()).collect();
        page.rows.push(Row::words(words::USUAL_FITS, &row.case, says.join("; "), row.source()));
    }
}

fn old(page: &mut Page, size: &Worked<Mm>) {
    match old_allowances(size) {
        Ok(rows) => {
            for row in rows {
                let worked = Row::worked(words::OLD_ALLOWANCES, row.fit, &row.interference, row.note, row.source);
                page.rows.push(worked);
            }
        }
        Err(refusal) => page.refuse(words::OLD_ALLOWANCES, refusal),
    }
}

/// The running clearance of each duty for a shaft of that size.
fn running(page: &mut Page, size: &Worked<Mm>) {
    for duty in Duty::ALL {
        match duty_clearance(duty, size) {
            Ok(clearance) => {
                let ends = (clearance.low.number(), clearance.high.number(), "mm");
                page.rows.push(Row::figure(words::RUNNING, duty.text(), ends, clearance.rules, clearance.source));
            }
            Err(refusal) => page.refuse(duty.text(), refusal),
        }
    }
    page.note(words::DUTY_DOUBTFUL);
}
