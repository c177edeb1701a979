//! What is left: thickness, and hard case below it; and whether the raw face is gone.

use super::keys::MillFace;
use super::names::{LEFT, REMOVED, THICKNESS, UNEVEN};
use crate::handbook::cutting::stock;
use crate::operations::kit::{self, mm};
use crate::operations::turning::{self, CaseKeys};
use crate::operations::{Answer, Bench};
use crate::proof::{At, Cause, Check, Keep, Mark, Origin, Refusal, Source, Verdict, Words, Worked};
use crate::quantity::Mm;
use crate::shop::Gauge;

impl MillFace {
    /// How true it is held, where somebody says.
    pub(super) fn truth(&self) -> Option<&At<Mm>> {
        self.hold.as_ref()?.true_within.as_ref()
    }

    /// The metal to remove, down to whole divisions: never deeper than was asked.
    pub(super) fn left(&self, bench: &Bench, division: f64, answer: &mut Answer) -> Result<Worked<Mm>, Refusal> {
        let asked: Worked<Mm> = (&self.removed).into();
        let whole = (asked.number() / division + 1e-9).floor() * division;
        let removed = asked.shifted(whole - asked.number(), "whole divisions, never deeper");
        let removed = answer.record(&REMOVED, removed.with_doubt(Cause::Set("dial"), division / 2.0));
        let thickness = answer.read(bench, "thickness", Gauge::Outside, &self.thickness)?;
        let thickness = answer.record(&THICKNESS, thickness);
        let planned = stock::length_after(&thickness, &removed)?;
        let left = bench.left(&LEFT)?;
        kit::left_even(left.as_ref(), [self.flat_within.as_ref(), self.square_within.as_ref()], bench, answer);
        let as_planned = left.is_none();
        let (after, gone) = match left {
            Some(left) => {
                answer.fact(LEFT.key, mm(planned.number()));
                let gone = kit::gone(1.0, (&thickness, &left));
                kit::grown(bench, (1.0, &thickness, &left), (LEFT.key, self.thickness.place), answer);
                (left, gone)
            }
            // The last pass is set by the thickness: what that is off as it was found, so much more or less goes.
            None => {
                let gone = removed.clone().with_doubt(Cause::Set("set by the thickness"), thickness.plus_minus());
                (planned, gone)
            }
        };
        let after = answer.record(&LEFT, after);
        match &self.least_thickness {
            None => answer.not_checked(&["thickness-left"], &["least-thickness"]),
            Some(at) => {
                let least = Worked::exact(at.value.high, Origin::Typed(at.place));
                // What is measured once it is cut is its thinnest; what is planned lies thinner where it is not held true.
                let thinnest = match self.truth().filter(|_| as_planned) {
                    Some(truth) => {
                        let source = Source::fixed("how true it is held", Mark::Derived);
                        let truth = kit::as_true_as_read(bench, truth);
                        Worked::sum(&[(1.0, &after), (-1.0, &truth)], 0.0, "its thinnest as it is held", source)
                    }
                    None => after.clone(),
                };
                let check = Check::judge("thickness-left", &thinnest, Keep::AtLeast, &least, bench.guard());
                answer.check(check.about(LEFT.key).at(at.place));
            }
        }
        match (&self.uneven, self.truth()) {
            (None, _) => answer.not_checked(&["cleans-up"], &["uneven"]),
            (Some(_), None) => answer.not_checked(&["cleans-up"], &["hold.true-within"]),
            (Some(at), Some(truth)) => {
                let uneven = answer.read_difference(bench, "uneven", Gauge::Depth, at)?;
                let uneven = answer.record(&UNEVEN, uneven);
                // Touched at its highest place, its lowest lies as much deeper as it is not true.
                let source = Source::fixed("how uneven it is, and how true it is held", Mark::Derived);
                let terms = [(1.0, &uneven), (1.0, &kit::as_true_as_read(bench, truth))];
                let lowest = Worked::sum(&terms, 0.0, "its lowest place as it is held", source);
                let check = Check::judge("cleans-up", &gone, Keep::AtLeast, &lowest, bench.guard());
                let check = check.about(REMOVED.key).at(at.place);
                // Nothing is spoilt by metal that stands: it is milled on.
                let check = match as_planned {
                    true => check,
                    false => check.not_worse_than(Verdict::Doubtful).unfinished(LEFT.key),
                };
                let is_short = check.unfinished.is_some();
                let check = answer.check(check);
                if is_short {
                    check.remedy(Words::of("mill-on"));
                }
            }
        }
        let keys =
            CaseKeys { least: self.least_case.as_ref(), usual: None, removed_before: self.removed_before.as_ref() };
        self.clears_its_hold(bench, [&thickness, &removed], answer)?;
        turning::case_below(bench, keys, &gone.at_least(0.0, "nothing is put on"), answer)?;
        Ok(removed)
    }
}
