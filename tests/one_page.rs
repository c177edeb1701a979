//! One set-up, one page: over random jobs and ordinary ones, on either paper in each unit of print; and where a sheet goes on,
//! what is set and what may hurt stand on its front.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common;
use common::jobs::Maker;
use common::laws::{PRINTED, STRIP, of_sheet, texts};
use setover::plan::Plan;
use setover::quantity::Print;
use setover::sheet::layout;
use setover::sheet::page::Page;
use setover::shop::{Paper, Shop};
use std::collections::BTreeMap;
use std::sync::Mutex;

/// How many set-ups there are, and those that go on, each with what goes on.
#[derive(Default)]
struct Counted {
    set_ups: usize,
    further: Vec<String>,
}

/// The sheets of a plan, each with its pages.
fn sheets<'a>(plan: &Plan, pages: &'a [Page]) -> Vec<(String, Vec<&'a Page>)> {
    let mut all = Vec::new();
    for (planned, operation) in plan.operations.iter().zip(1..) {
        for number in 1..=planned.answer.set_ups.len().max(1) {
            let own = of_sheet(pages, &format!("{operation}.{number}"));
            let set_up = planned.answer.set_ups.get(number - 1).map_or("none", |set_up| set_up.id);
            all.push((format!("{} {set_up}", planned.address), own));
        }
    }
    all
}

fn goes_on(own: &[&Page]) -> Vec<String> {
    let areas = own.iter().skip(1).flat_map(|page| page.areas.iter().map(move |area| (page, area)));
    let areas =
        areas.filter(|(page, area)| !STRIP.contains(&area.name.as_str()) && !texts(page, &area.name).is_empty());
    areas.map(|(_, area)| format!("{} {:.0}", area.name, area.bounds.height())).collect()
}

/// Counts over random jobs, by paper and units.
fn counted(jobs: u64) -> BTreeMap<String, Counted> {
    let counted: Mutex<BTreeMap<String, Counted>> = Mutex::default();
    common::over_jobs(common::jobs_asked(jobs), |at| {
        let job = Maker::of(at).job();
        if let Ok(folder) = std::env::var("SETOVER_FOUND") {
            std::fs::write(format!("{folder}/{at}.yaml"), job.replacen("parts:", "shop: shop.yaml\nparts:", 1))
                .unwrap();
        }
        for (paper, units) in PRINTED {
            let shop = Shop { paper, units, ..common::shop(common::SHOP) };
            let Ok(plan) = common::try_plan(&job, Some(&shop)) else { return };
            let pages = layout::pages(std::slice::from_ref(&plan)).expect("pages");
            let mut all = counted.lock().unwrap();
            let here = all.entry(format!("{paper:?} {units:?}")).or_default();
            for (name, own) in sheets(&plan, &pages) {
                here.set_ups += 1;
                assert!(!own.is_empty(), "{at} {name} on {paper:?} in {units:?}: no page as all sheets are set");
                if own.len() > 1 {
                    here.further.push(format!("{at} {name}: {:?}", goes_on(&own)));
                }
            }
        }
    });
    counted.into_inner().unwrap()
}

/// Of jobs as if by chance, every second of them wild, few set-ups go on overleaf.
#[test]
fn few_random_set_ups_go_on() {
    const FEW: f64 = 0.12;
    for (printed, counted) in counted(60) {
        println!("{printed}: {} of {} go on", counted.further.len(), counted.set_ups);
        counted.further.iter().for_each(|line| println!("   {line}"));
        let share = counted.further.len() as f64 / counted.set_ups as f64;
        assert!(share <= FEW, "{printed}: {share:.2} go on: {:#?}", counted.further);
    }
}

/// A job of one operation on a part.
fn job(material: &str, operation: &str) -> String {
    format!(
        "job: One\nparts:\n  - part: piece of the engine\n    material: {material}\n    operations:\n      - {operation}\n"
    )
}

/// Ordinary set-ups of a workshop have one page each; where steps have no room above what is measured they go on under it.
#[test]
fn ordinary_set_ups_have_one_page() {
    const DRILL: &str = "drill: {diameter: 8 mm, wall: 40 ± 0.3 mm, through: true, beyond: clear, starts-on: flat, edge: 14 ± 0.2 mm, \
        hold: {in: vice, diameter: 40 mm, grip: 12 mm, overhang: 6 mm, tested: 30 N·m}}";
    const SKIM: &str = "skim: {outside: 90 mm, inside: 60 mm, length: 12.00 ± 0.02 mm, wear: 0.25 ± 0.02 mm, dish: 0.05 ± 0.02 mm, \
        from: straight-edge, finish: Ra 3.2 um, square-within: 0.03 mm, interrupted: 6, hold: {in: soft-jaws, diameter: 60 mm, \
        inside: 30 mm, grip: 10 mm, overhang: 14 mm, true-within: 0.02 mm, stop: step}, least-thickness: 11.2 mm}";
    const TURN: &str = "turn: {present: 30.60 ± 0.02 mm, outside: 30.00 ± 0.02 mm, length: 22 ± 0.2 mm, over-all: 60 mm, \
        finish: Ra 3.2 um, hold: {in: jaws, diameter: 30.6 mm, grip: 30 mm, overhang: 30 mm, true-within: 0.05 mm, stop: step}}";
    let mut further = Vec::new();
    let mut under = 0;
    for (material, operation) in
        ["GG25", "EN8", "brass"].iter().flat_map(|metal| [DRILL, SKIM, TURN].map(|of| (metal, of)))
    {
        for (paper, units) in [(Paper::A4, Print::Metric), (Paper::A4, Print::Both), (Paper::Letter, Print::Imperial)] {
            let shop = Shop { paper, units, ..common::shop(common::SHOP) };
            let plan = common::plan(&job(material, operation), Some(&shop));
            let pages = layout::pages(std::slice::from_ref(&plan)).expect("pages");
            if pages.len() > 1 {
                let own: Vec<&Page> = pages.iter().collect();
                further.push(format!("{material} {paper:?} {units:?} {:.12}: {:?}", operation, goes_on(&own)));
            }
            under += usize::from(texts(&pages[0], "cuts").iter().any(|text| text.text == "goes on under Measure"));
        }
    }
    println!("{further:#?}, {under} under what is measured");
    assert!(further.len() <= 2, "{further:#?}");
    assert!(under > 0, "nothing stands under what is measured");
}

/// Where steps are many the tools stand beside the sketch alone: an insert that is new, countersunk, its zero taken on a strip, has one
/// page in inches too.
#[test]
fn many_steps_of_several_tools_have_one_page() {
    const INSERT: &str = "thread-insert: {thread: \"M8x1\", wall: 29.4 ± 0.2 mm, hole: blind, present-hole: none, lead: bottoming, \
        bolt: {class: \"4.6\", reach: 9.8 mm, threads: dry}, tang: out, countersink: true, hold: {in: clamps, tested: 200 N·m}, \
        zero: strip, strip: 0.50 mm}";
    let shop = Shop { paper: Paper::Letter, units: Print::Imperial, ..common::shop(common::SHOP) };
    let plan = common::plan(&job("mild steel", INSERT), Some(&shop));
    let pages = layout::pages(std::slice::from_ref(&plan)).expect("pages");
    assert_eq!(of_sheet(&pages, "1.1").len(), 1);
    let said = |area: &str| texts(&pages[0], area).iter().map(|text| text.text.clone()).collect::<Vec<_>>().join(" ");
    assert!(said("beside").contains("insert tap M8x1, bottoming"), "{}", said("beside"));
}
