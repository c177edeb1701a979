//! What a sheet prints as good is good: a size written down at either end of a hold point or of a target brings no check down that
//! was proven in the plan.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::as_left::{Asked, Job, THE_LESS_THE_BETTER, all_jobs, jobs_in};
use crate::common::over_jobs;
use setover::operations::{Declared, SetUp, Target};
use setover::plan::Planned;
use setover::proof::{Fact, Verdict};
use setover::quantity::{Print, Unit};
use std::collections::BTreeMap;
use std::sync::Mutex;

/// A printed end of a size that the log takes: where it stands, and the figure.
type End = (&'static str, f64, f64);

/// A number as a sheet prints it.
fn number(text: &str) -> Option<f64> {
    text.replace('\u{2212}', "-").parse().ok()
}

/// The ends that stand in a set-up for a size, as they are printed in millimetres, each with the doubt of the gauge that is named.
fn ends(job: &Job, planned: &Planned, set_up: &SetUp<String>, name: &Declared) -> Vec<End> {
    let plan = planned.answer.value(name.key).map_or(0.001, |value| value.plus_minus);
    let doubt_of = |gauge: Option<&str>| {
        // What a comparison shows, and differences that one indicator reads, are no surer and no less sure than in the plan.
        if name.unit == Unit::Um || THE_LESS_THE_BETTER.contains(&name.key) {
            return plan;
        }
        let own = job.shop.instruments.iter().find(|own| Some(own.name.value.as_str()) == gauge);
        own.map_or(plan, |own| setover::quantity::Quantity::number(own.uncertainty.value))
    };
    let mut all = Vec::new();
    for hold in set_up.steps.iter().filter_map(|step| step.hold_point.as_ref()) {
        // What nothing reads yet is judged when a gauge is there.
        if hold.measures != name.key
            || hold.taken_off != 0.0
            || ["a gauge", "a bore gauge set by micrometer"].contains(&hold.gauge.as_str())
        {
            continue;
        }
        let (least, most) = hold.limits.numbers();
        let doubt = doubt_of(Some(&hold.gauge));
        all.extend([least, most].into_iter().flatten().map(|end| ("hold", end, doubt)));
    }
    let unread = |hold: &setover::operations::HoldPoint<String>| {
        hold.measures == name.key && hold.gauge == "a bore gauge set by micrometer"
    };
    if set_up.steps.iter().filter_map(|step| step.hold_point.as_ref()).any(unread) {
        return all;
    }
    for blank in set_up.blanks.iter().filter(|blank| blank.log.is_some_and(|log| log.key == name.key)) {
        let Some(target) = set_up.target_of(blank) else { continue };
        let doubt = doubt_of(blank.gauge.as_deref());
        let shown = target.shown(Print::Metric);
        let numbers = shown.iter().filter_map(|shown| number(&shown.number.to_string()));
        match target {
            // What is foretold with a doubt is a window as well as it is printed: whatever lies in it is good.
            Target::Aim(Fact::Figure { .. }) => {
                let off = shown.first().and_then(|shown| number(&shown.doubt.as_ref()?.to_string())).unwrap_or(0.0);
                all.extend(numbers.flat_map(|aim| [("aim", aim - off, doubt), ("aim", aim + off, doubt)]));
            }
            Target::Aim(_) => {}
            Target::Between(..) | Target::UpTo(_) => all.extend(numbers.map(|end| ("target", end, doubt))),
        }
    }
    all
}

fn rank(verdict: Option<Verdict>) -> u8 {
    verdict.map_or(0, |verdict| verdict as u8)
}

/// The checks that were better in the plan.
fn lost(plan: &Planned, left: &Planned) -> Vec<&'static str> {
    let of = |it: &Planned, id: &str| {
        it.answer.checks.iter().filter(|check| check.id == id).map(|check| rank(check.stamps())).max().unwrap_or(0)
    };
    let ids = left.answer.checks.iter().map(|check| check.id);
    ids.filter(|id| of(left, id) > of(plan, id)).collect()
}

#[test]
fn a_size_at_a_printed_limit_is_as_good_as_the_plan() {
    // The gauges of the barrel share what set them: one figure for all of it is not what is read there.
    let own = [include_str!("../examples/shop.yaml"), include_str!("../demo/shop.yaml")];
    let jobs: Vec<Job> = all_jobs().into_iter().filter(|job| job.path != "a barrel").collect();
    let jobs: Vec<Job> = jobs.into_iter().chain(own.into_iter().flat_map(jobs_in)).collect();
    let all: Vec<(&Job, &Asked)> =
        jobs.iter().flat_map(|job| job.asked.iter().map(move |asked| (job, asked))).collect();
    let worse: Mutex<BTreeMap<String, String>> = Mutex::default();
    let tried: Mutex<BTreeMap<&str, usize>> = Mutex::default();
    over_jobs(all.len() as u64, |nth| {
        let (job, asked) = all[nth as usize];
        let planned = &job.plan.operations[asked.0];
        if planned.verdict == Verdict::Fails {
            return;
        }
        for set_up in &planned.answer.set_ups {
            for (from, end, doubt) in ends(job, planned, set_up, &asked.1) {
                if end <= 0.0 && asked.1.unit != Unit::Mm {
                    continue;
                }
                let left = job.left(asked, end, doubt);
                *tried.lock().unwrap().entry(asked.1.key).or_default() += 1;
                // One half is in the log and the other not: two halves are held against each other when both are. And whether a
                // gauge is fine enough is no question of the size that it reads.
                // What was lapped off says nothing of how flat it is: that is mapped.
                // Nor does one size of it say what else of the work was to be written down.
                let says_how_sure = |id: &&str| {
                    ["both-halves", "can-be-measured", "measured-so-closely", "size-written-down"].contains(id)
                        || *id == "flat-after" && asked.1.key == "removed"
                };
                let lost: Vec<&str> = lost(planned, &left).into_iter().filter(|id| !says_how_sure(id)).collect();
                if !lost.is_empty() {
                    let key = format!("{} {} {from}: {lost:?}", planned.word, asked.1.key);
                    let says = format!("{}: {end} ± {doubt}: {:?}", job.path, left.verdict);
                    worse.lock().unwrap().entry(key).or_insert(says);
                }
            }
        }
    });
    let worse = worse.into_inner().unwrap();
    assert!(worse.is_empty(), "{worse:#?}");
    let tried = tried.into_inner().unwrap();
    assert!(tried.len() > 10, "{tried:?}");
}
