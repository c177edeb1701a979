//! What is done with what is worn: the first remedy that is proven, else the first that is doubtful.

use super::frame::{Cure, Order, Row, Why};
use super::ground::{goes_on_with_another, remedies_of};
use super::mends::{is_before, lacks_metal, laps_under, leaves_outside, left_of, takes_off_what_lacks, thins_under};
use super::planned_by::{is_for_another_size, mends_less, planned_by_another, reads_another};
use super::rests::only_measures;
use crate::handbook::remedies::{self, REPLACE};
use crate::handbook::wear::{self, Wears};
use crate::job::{Found, Inspected, feature_key};
use crate::plan::together::stale::Cut;
use crate::plan::{Plan, Planned};
use crate::proof::{Check, Verdict, closest};
use std::cmp::Ordering;

/// A cure with its reasons, its sheets and what it takes.
pub(super) struct Cured<'a> {
    /// How it is put right.
    pub cure: Cure,
    /// Why so and not otherwise.
    pub why: Vec<Why>,
    /// The sheets by which it is done.
    pub sheets: Vec<String>,
    /// What it takes.
    pub orders: Vec<Order>,
    /// The operation.
    pub by: Option<&'a Planned>,
}

/// The planned operations of all jobs, with the ids of their sheets.
pub(super) struct Work<'a> {
    /// The plan of all jobs.
    pub plan: &'a Plan,
    /// The jobs in their order, each with its number of operations.
    pub jobs: &'a [(String, usize)],
    /// What the log says was done.
    pub cuts: &'a [Cut],
}

impl<'a> Work<'a> {
    /// The operation of a part by its word: where there are several the one named as the feature, else the worst of them. One that
    /// names another feature does nothing for this one.
    fn of(&self, part: &str, feature: &str, word: &str) -> Option<&'a Planned> {
        let at = |planned: &Planned| planned.of_day.wish.feature.as_ref().map(|at| at.value.key().to_owned());
        let key = feature_key(feature);
        let is_here = |planned: &Planned| at(planned).is_none_or(|at| at == key);
        let all = self.plan.operations.iter().filter(|planned| planned.address.part == part && planned.word == word);
        let is_called = |planned: &Planned| feature_key(&planned.address.operation) == key;
        let own = all.filter(|planned| is_called(planned) || is_here(planned));
        let named = own.clone().find(|planned| is_called(planned) || at(planned).is_some());
        // Of two that are alike the first.
        let worst = |a: &&Planned, b: &&Planned| if b.verdict > a.verdict { Ordering::Less } else { Ordering::Greater };
        named.or_else(|| own.max_by(worst))
    }

    /// The same where it names no feature of its own.
    pub(super) fn unnamed(&self, part: &str, feature: &str, word: &str) -> Option<&'a Planned> {
        let is_called = |planned: &Planned| feature_key(&planned.address.operation) == feature_key(feature);
        let names_none = |planned: &&Planned| planned.of_day.wish.feature.is_none() && !is_called(planned);
        self.of(part, feature, word).filter(names_none)
    }

    /// The operations of the part that are still to be done: what was done is in what was found, or that was read before it and says nothing.
    fn still_to_do<'b>(&'b self, row: &'b Row) -> impl Iterator<Item = &'a Planned> + 'b {
        let is_done = |planned: &Planned| self.cuts.iter().any(|cut| cut.of == planned.address && cut.is_done());
        let of_part = self.plan.operations.iter().filter(|planned| planned.address.part == row.part);
        of_part.filter(move |planned| !is_done(planned))
    }

    /// The operation of the part that goes by another reading of the very size that was found: one of the two is wrong.
    pub(super) fn goes_by_another(&self, row: &Row, remedies: &[&str]) -> Option<(&'a Planned, Why)> {
        self.still_to_do(row).find_map(|planned| {
            let is_remedy = remedies.contains(&planned.word.as_str());
            Some((planned, reads_another(planned, row, is_remedy)?))
        })
    }

    /// The operation of the part that leaves of the very size that was found what does not lie inside the limits, and what it leaves.
    pub(super) fn cuts_it(&self, row: &Row) -> Option<(&'a Planned, Why)> {
        let found = row.found?;
        self.still_to_do(row).find_map(|planned| {
            let cut = || is_before(planned, row).then(|| leaves_outside(planned, row))?;
            let cut = cut().map(|(_, end, unit)| (end, unit));
            let under =
                || laps_under(planned, &found, &row.limits).or_else(|| thins_under(planned, &found, &row.limits));
            let (end, unit) = cut.or_else(under)?;
            Some((planned, Why::LeavesIt(planned.word.clone(), end, unit)))
        })
    }

    /// The ids of the sheets of an operation: operation of its job and set-up, and the job where there are several.
    pub(super) fn sheets(&self, of: &Planned) -> Vec<String> {
        let Some(mut at) = self.plan.operations.iter().position(|planned| planned.address == of.address) else {
            return Vec::new();
        };
        // Sheets are numbered over the jobs that have any: a file of readings alone is none of them.
        let jobs: Vec<usize> = self.jobs.iter().map(|(_, count)| *count).filter(|count| *count > 0).collect();
        let mut job = 0;
        for count in &jobs {
            if at < *count {
                break;
            }
            at -= count;
            job += 1;
        }
        let own = |number: usize| format!("{}.{number}", at + 1);
        let id = |number| if jobs.len() > 1 { format!("{}/{}", job + 1, own(number)) } else { own(number) };
        (1..=of.answer.set_ups.len()).map(id).collect()
    }

    /// The remedies of a feature, first choice first: as typed or as is usual; of one that the table has not the operation that it is a value
    /// of; none where other work on the part is planned, and nobody says whether that is for it.
    pub(super) fn remedies<'b>(&'b self, part: &str, of: &'b Inspected) -> Vec<&'b str> {
        if !of.remedies.is_empty() || !remedies::known(&of.feature.value).is_empty() {
            return remedies_of(of);
        }
        let of_part =
            || self.plan.operations.iter().filter(|planned| planned.address.part == part && !only_measures(planned));
        let readings = Found::readings(&of.found);
        let is_its = |planned: &&Planned| {
            let mut read = readings.iter().filter_map(|reading| reading.value.address());
            read.any(|address| address.owner() == planned.address)
        };
        match (of_part().find(is_its), of_part().next()) {
            (Some(its), _) => vec![its.word.as_str(), REPLACE],
            (None, Some(_)) => Vec::new(),
            // What is worn thinner gets no metal back; of anything else nobody says what is done about it.
            (None, None) => match wear::way(&of.feature.value) {
                Some(Wears::Smaller) => vec![REPLACE],
                _ => Vec::new(),
            },
        }
    }

    /// The cure of a feature of a part by these remedies, first choice first.
    pub(super) fn cure(&self, row: &Row, remedies: &[&str]) -> Cured<'a> {
        let (part, feature) = (row.part.as_str(), row.feature.as_str());
        let mut why = Vec::new();
        if remedies.is_empty() {
            let planned = self.plan.operations.iter().filter(|planned| planned.address.part == part);
            let words = planned.filter(|planned| !only_measures(planned)).map(|planned| planned.word.clone());
            why.push(Why::NoUsual(words.collect()));
            return Cured { cure: Cure::Unsaid, why, sheets: Vec::new(), orders: Vec::new(), by: None };
        }
        let mut doubtful: Option<&Planned> = None;
        let mut unplanned: Option<&str> = None;
        let mut lacking: Option<&Planned> = None;
        let mut failing: Option<&Planned> = None;
        let mut anew: Option<&Planned> = None;
        let mut takes_off: Vec<&str> = Vec::new();
        let lacks = lacks_metal(row);
        for (at, remedy) in remedies.iter().enumerate() {
            if *remedy == REPLACE {
                // Whoever names it first wants it; further down it is what is left.
                if at == 0 {
                    return Cured::replace(part, why);
                }
                continue;
            }
            if lacks && remedies::takes_metal_off(remedy) {
                takes_off.push(remedy);
                continue;
            }
            let Some(planned) = self.of(part, feature, remedy) else {
                unplanned = unplanned.or(Some(*remedy));
                continue;
            };
            if takes_off_what_lacks(planned, row.found.as_ref(), &row.limits) {
                takes_off.push(remedy);
                continue;
            }
            if self.unnamed(part, feature, remedy).is_some() && is_for_another_size(planned, row) {
                unplanned = unplanned.or(Some(*remedy));
                continue;
            }
            let outside = leaves_outside(planned, row);
            let done = self.done_already(planned, row);
            let other = done.or_else(|| mends_less(planned, row)).or_else(|| planned_by_another(planned, row));
            // What is not finished goes on: nothing is lost by what it left so far.
            let most = if planned.answer.is_unfinished() { Verdict::Doubtful } else { Verdict::Fails };
            let mends = outside.map_or(Verdict::Proven, |(verdict, ..)| verdict.min(most));
            let mends = if other.is_some() { mends.max(Verdict::Doubtful) } else { mends };
            why.extend(other);
            why.extend(outside.map(|(_, end, unit)| Why::LeavesIt(planned.word.clone(), end, unit)));
            match planned.verdict.max(mends) {
                Verdict::Proven => return self.by(planned, Cure::Proven(planned.word.clone()), why),
                verdict => {
                    if planned.verdict != Verdict::Proven {
                        why.extend(open(planned, planned.verdict));
                    }
                    if verdict == Verdict::Doubtful {
                        doubtful = doubtful.or(Some(planned));
                    }
                    if verdict == Verdict::Fails {
                        failing = failing.or(Some(planned));
                        anew = anew.or(Some(planned).filter(|_| {
                            fails_as_planned(planned)
                                && (mends != Verdict::Fails || fails_by_what_it_leaves(planned, row))
                        }));
                    }
                    if mends == Verdict::Proven && !planned.answer.missing.is_empty() {
                        lacking = lacking.or(Some(planned));
                    }
                }
            }
        }
        if !takes_off.is_empty() {
            why.push(Why::TakesOff(takes_off.into_iter().map(str::to_owned).collect()));
        }
        // A part is not scrapped, nor another way gone, for want of a bar, a hold or a gauge.
        if let (None, Some(planned)) = (doubtful, anew) {
            return self.anew(planned, why);
        }
        match (doubtful, unplanned) {
            (Some(planned), _) => self.by(planned, Cure::Doubtful(planned.word.clone()), why),
            (None, Some(remedy)) => {
                Cured { cure: Cure::Unplanned(remedy.into()), why, sheets: Vec::new(), orders: Vec::new(), by: None }
            }
            // Nobody replaces what may not be replaced: what fails for want of a thing is got, and planned again.
            (None, None) if remedies.contains(&REPLACE) => Cured::replace(part, why),
            (None, None) => match (lacking, failing) {
                (Some(planned), _) => self.by(planned, Cure::Anew(planned.word.clone()), why),
                (None, Some(planned)) => self.anew(planned, why),
                (None, None) => Cured::replace(part, why),
            },
        }
    }

    /// Whether what was read behind an operation is what that should have put right. What it left unfinished goes on.
    fn done_already(&self, planned: &Planned, row: &Row) -> Option<Why> {
        let was_read = row.found.is_some_and(|found| !found.as_left) && !planned.answer.is_unfinished();
        let cut = self.cuts.iter().rev().find(|cut| was_read && cut.of == planned.address && cut.is_done())?;
        Some(Why::DoneAlready(cut.of.to_string(), super::ground::line(self.jobs, cut)))
    }

    /// The same operation, planned otherwise.
    fn anew(&self, planned: &'a Planned, mut why: Vec<Why>) -> Cured<'a> {
        why.extend(proven_instead(planned));
        let cured = self.by(planned, Cure::Anew(planned.word.clone()), why);
        Cured { sheets: Vec::new(), by: None, ..cured }
    }

    fn by(&self, planned: &'a Planned, cure: Cure, why: Vec<Why>) -> Cured<'a> {
        let mates = remedies::of(&planned.word).map_or(&[][..], |row| &row.follows);
        let chosen = planned.answer.choices.iter().filter(|choice| mates.iter().any(|mate| mate == choice.name));
        let chosen = chosen.map(|choice| Why::Chooses(choice.name.into(), choice.chosen.clone()));
        let nearest = nearest(planned).filter(|_| matches!(cure, Cure::Proven(_)));
        let part = &planned.address.part;
        // What takes its size from what is made here has a row of its own, and is ordered there.
        let lacking = planned.answer.missing.iter().filter(|item| !mates.iter().any(|mate| item.contains(mate)));
        let mut orders: Vec<Order> = lacking.map(|item| order(item, part, false)).collect();
        let fresh = remedies::of(&planned.word).into_iter().flat_map(|row| &row.fresh);
        orders.extend(fresh.map(|item| order(item, part, false)));
        Cured {
            cure,
            why: why.into_iter().chain(chosen).chain(nearest).collect(),
            sheets: self.sheets(planned),
            orders,
            by: Some(planned),
        }
    }
}

/// One of an item without a size.
pub(super) fn order(item: &str, part: &str, in_drawer: bool) -> Order {
    Order { item: item.into(), size: None, count: 1, part: part.into(), in_drawer }
}

impl Cured<'_> {
    fn replace(part: &str, why: Vec<Why>) -> Self {
        Self { cure: Cure::Replace, why, sheets: Vec::new(), orders: vec![order(part, part, false)], by: None }
    }
}

/// The check of a proven operation that is nearest to its limit: the one that its sheet names.
fn nearest(planned: &Planned) -> Option<Why> {
    let check = closest(planned.answer.checks.iter())?;
    let judged = check.judged?;
    Some(Why::Nearest(planned.word.clone(), check.asks.clone(), judged.margin, judged.unit))
}

/// The mate with which an operation would be proven, where it fails with the one that it is planned for.
fn proven_instead(planned: &Planned) -> Option<Why> {
    let mate = remedies::of(&planned.word)?.follows.first()?;
    let mut others = planned.answer.alternatives.iter().filter(|other| !other.chosen);
    let other = others.find(|other| other.answer.verdict() == Verdict::Proven)?;
    Some(Why::ProvenInstead(mate.clone(), other.name.clone()))
}

/// Whether all that makes an operation fail is how it is planned: machine, tool, hold, drawer or gauge, or a mate in whose place another would
/// do.
fn fails_as_planned(planned: &Planned) -> bool {
    let mut failing = failing(planned).peekable();
    planned.answer.refused.is_none()
        && failing.peek().is_some()
        && (failing.all(|check| remedies::is_of_the_plan(check.id)) || goes_on_with_another(planned))
}

/// Whether an operation fails by the very size that it leaves outside: planned otherwise it leaves another.
fn fails_by_what_it_leaves(planned: &Planned, row: &Row) -> bool {
    let left = left_of(planned, row).map(|left| left.key);
    failing(planned).any(|check| left.is_some() && check.about == left)
}

fn failing(planned: &Planned) -> impl Iterator<Item = &Check<String>> {
    planned.answer.checks.iter().filter(|check| check.stamps() == Some(Verdict::Fails))
}

/// What leaves an operation doubtful, or makes it fail.
fn open(planned: &Planned, verdict: Verdict) -> Vec<Why> {
    let word = &planned.word;
    let refused = planned.answer.refused.iter().map(|refusal| Why::Refused(word.clone(), refusal.to_string()));
    let open = planned.answer.checks.iter().filter(|check| check.stamps() == Some(verdict));
    let open = open.map(|check| Why::Checked(word.clone(), check.asks.clone(), verdict, check.remedy.clone()));
    refused.chain(open).collect()
}
