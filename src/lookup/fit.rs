//! `book fit "25 H7/p6"`: limits, tolerances, clearances; what is usual; the old allowances in inches.

use super::{Question, Reply, Row, wording};
use crate::handbook::joints::clearance::{Duty, duty_clearance};
use crate::handbook::joints::fit_pair::{
    clearance_least, clearance_most, old_allowances, tolerance, usual_cases, usual_fits,
};
use crate::handbook::{Fit, cited, joints::fits::Class};
use crate::in_order::InOrder;
use crate::operations::Name;
use crate::proof::{At, Mark, Origin, Worked};
use crate::quantity::{Mm, Quantity, Shift};
use crate::reading::Problem;
use crate::shop::Shop;
use schemars::JsonSchema;
use serde::Deserialize;

/// Limits, tolerances and clearances of a fit; what is usual.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub(super) struct FitAsked {
    /// The fit.
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

    fn names() -> Vec<(String, String)> {
        usual_cases().map(|row| (row.case.clone(), wording::usual_fit(row))).collect()
    }

    fn reply(&self, _: Option<&Shop>) -> Result<Reply, Vec<Problem>> {
        let fit = &self.fit.value;
        let Some(nominal) = fit.nominal else {
            return Err(vec![Problem::new(self.fit.place, wording::fit_without_size(fit))]);
        };
        let mut reply = Reply::new(wording::fit_title(fit));
        let size = Worked::exact(Mm::new(nominal), Origin::Typed(self.fit.place));
        reply.put(&NOMINAL, &size);
        let hole = fit.hole.as_ref().and_then(|class| side(&mut reply, &HOLE, class, nominal));
        let shaft = fit.shaft.as_ref().and_then(|class| side(&mut reply, &SHAFT, class, nominal));
        if let (Some(hole), Some(shaft)) = (hole, shaft) {
            together(&mut reply, &hole, &shaft);
        }
        usual(&mut reply, fit, nominal);
        old(&mut reply, &size);
        running(&mut reply, &size);
        reply.note(wording::ENGINE_DATA_FIRST);
        Ok(reply)
    }
}

type Limits = (Worked<Mm>, Worked<Mm>);

/// The limits and the tolerance of one side; nothing where the standard has no such class there.
fn side(reply: &mut Reply, names: &Side, class: &Class, nominal: f64) -> Option<Limits> {
    let limits = match class.limits(nominal) {
        Ok(limits) => limits,
        Err(refusal) => {
            reply.refuse(class.text(), refusal);
            return None;
        }
    };
    reply.put(&names.least, &limits.0);
    reply.put(&names.most, &limits.1);
    reply.put_or_say(&names.tolerance, tolerance(class.grade(), nominal));
    if let Ok(rows) = class.deviations(nominal) {
        let says = wording::deviations(rows.lower, rows.upper);
        let what = format!("{} {}", crate::quantity::figure(nominal), class.text());
        reply.rows.push(Row::figure(
            wording::DEVIATIONS,
            what,
            (rows.lower, rows.upper, "um"),
            says,
            cited(rows.sources, Mark::Read),
        ));
    }
    Some(limits)
}

fn together(reply: &mut Reply, hole: &Limits, shaft: &Limits) {
    let most = reply.put_or_say(&CLEARANCE_MAX, clearance_most(&hole.1, &shaft.0));
    let least = reply.put_or_say(&CLEARANCE_MIN, clearance_least(&hole.0, &shaft.1));
    if let (Some(most), Some(least)) = (most, least) {
        reply.note(wording::kind_of_fit(least.number(), most.number()));
    }
}

/// The usual fits of pressed bushes at that size; those that name a class asked about come first.
fn usual(reply: &mut Reply, fit: &Fit, nominal: f64) {
    let asked: Vec<String> = fit.hole.iter().chain(&fit.shaft).map(Class::text).collect();
    let mut rows: Vec<_> = usual_fits(nominal).collect();
    rows.order_by_key(|row| !asked.iter().any(|class| row.names(class)));
    for row in rows {
        let parts: Vec<String> = row.parts().map(|(part, class)| format!("{part} {class}")).collect();
        let says = [parts.join(", "), row.note.clone()];
        let says: Vec<String> = says.into_iter().filter(|text| !text.is_empty()).collect();
        reply.rows.push(Row::words(wording::USUAL_FITS, &row.case, says.join("; "), row.source()));
    }
}

fn old(reply: &mut Reply, size: &Worked<Mm>) {
    match old_allowances(size) {
        Ok(rows) => {
            for row in rows {
                let worked = Row::worked(wording::OLD_ALLOWANCES, row.fit, &row.interference, row.note, row.source);
                reply.rows.push(worked);
            }
        }
        Err(refusal) => reply.refuse(wording::OLD_ALLOWANCES, refusal),
    }
}

/// The running clearance of each duty for a shaft of that size.
fn running(reply: &mut Reply, size: &Worked<Mm>) {
    for duty in Duty::ALL {
        match duty_clearance(duty, size) {
            Ok(clearance) => {
                let ends = (clearance.low.number(), clearance.high.number(), "mm");
                reply.rows.push(Row::figure(wording::RUNNING, duty.text(), ends, clearance.rules, clearance.source));
            }
            Err(refusal) => reply.refuse(duty.text(), refusal),
        }
    }
    reply.note(wording::DUTY_DOUBTFUL);
}
