//! What stands on the front of a sheet: the worst of what is doubtful, every caution whole, what is set; and nothing goes on
//! overleaf for a word.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common;
use common::jobs::Maker;
use common::laws::{PRINTED, STRIP, of_sheet, texts};
use setover::plan::{Plan, Planned};
use setover::proof::{Check, Verdict};
use setover::sheet::layout;
use setover::sheet::page::{Ink, Page, Text};
use setover::shop::Shop;
use std::sync::Mutex;

/// Fewest lines for which a sheet goes on.
const FEWEST: usize = 3;

fn flat(text: &str) -> String {
    text.replace('ᵐ', "").replace('`', "\"").split_whitespace().collect()
}

fn said(page: &Page, area: &str) -> String {
    flat(&texts(page, area).iter().map(|text| text.text.as_str()).collect::<Vec<_>>().join(" "))
}

/// What is wrong with the pages of each set-up.
fn faults(plan: &Plan, pages: &[Page]) -> Vec<String> {
    let mut found = Vec::new();
    for (planned, operation) in plan.operations.iter().zip(1..) {
        for number in 1..=planned.answer.set_ups.len().max(1) {
            let id = format!("{operation}.{number}");
            let own = of_sheet(pages, &id);
            let mut say = |what: String| found.push(format!("{id}: {what}"));
            let Some(first) = own.first() else {
                say("was not laid out as all sheets are".into());
                continue;
            };
            names_its_worst(planned, number, first, &mut say);
            cautions_whole(planned, number, &own, &mut say);
            goes_on_for_enough(&own, &mut say);
            bar_holds_no_step(&own, &mut say);
            measures_alone(planned, number, &own, &mut say);
            stands_apart(first, &mut say);
            mends_its_worst(planned, number, first, &mut say);
        }
    }
    found
}

/// A doubtful sheet says on its front what the worst of it is.
fn names_its_worst(planned: &Planned, number: usize, first: &Page, say: &mut impl FnMut(String)) {
    if said(first, "stamp").starts_with("DOUBTFUL") {
        let owner = |check: &Check<String>| planned.answer.owner_of(check.id).unwrap_or(0) + 1;
        let own = planned.answer.checks.iter().filter(|check| owner(check) == number);
        let doubtful: Vec<&Check<String>> =
            own.filter(|check| check.verdict().is_some() && check.stamps() == Some(Verdict::Doubtful)).collect();
        let outside = |check: &Check<String>| {
            check.judged.as_ref().map_or(0.0, |judged| -judged.margin / judged.limit.abs().max(judged.doubt).max(1e-9))
        };
        let worst = doubtful.iter().map(|check| outside(check)).fold(f64::MIN, f64::max);
        let verdict = ["verdict", "ways out"].map(|area| said(first, area)).concat();
        let is_said = |check: &Check<String>| {
            let brief = planned.in_one_unit.iter().flat_map(|brief| &brief.checks).find(|other| other.id == check.id);
            verdict.contains(&flat(&check.asks)) || brief.is_some_and(|brief| verdict.contains(&flat(&brief.asks)))
        };
        // Where cautions take its room the reason under the stamp says it, and the verdict names it.
        let stamp = said(first, "stamp");
        let is_named = |check: &Check<String>| {
            let name = flat(&check.id.replace('-', " "));
            stamp.contains(&flat(&check.called)) && (verdict.contains(&name) || verdict.contains('…'))
        };
        let is_said = |check: &Check<String>| is_said(check) || is_named(check);
        if !doubtful.is_empty() && !doubtful.iter().any(|check| outside(check) >= worst && is_said(check)) {
            say(format!("doubtful, and the front does not say of what: {verdict}"));
        }
    }
}

/// Each caution stands whole on the front, or whole where it goes on.
fn cautions_whole(planned: &Planned, number: usize, own: &[&Page], say: &mut impl FnMut(String)) {
    let set_up = planned.answer.set_ups.get(number - 1);
    let all = set_up.into_iter().flat_map(|set_up| &set_up.cautions).chain(&planned.answer.cautions);
    // In the foot, and where that has no room overleaf under their own heading: never among steps, sizes or findings.
    let places: Vec<String> = own.iter().flat_map(|page| ["foot", "Cautions"].map(|area| said(page, area))).collect();
    let others: Vec<String> =
        own.iter().flat_map(|page| ["cuts", "measure", "ways out", "verdict"].map(|area| said(page, area))).collect();
    for caution in all {
        if !places.iter().any(|place| place.contains(&flat(caution))) {
            say(format!("parted or not there: {caution}"));
        }
        if others.iter().any(|place| place.contains(&flat(caution))) {
            say(format!("out of its place: {caution}"));
        }
    }
}

/// A doubtful sheet says on its front what would mend the worst of it, where its zone leaves it the room.
fn mends_its_worst(planned: &Planned, number: usize, first: &Page, say: &mut impl FnMut(String)) {
    const LINE: f64 = 4.4;
    const LETTERS: usize = 85;
    if planned.verdict == Verdict::Fails {
        return;
    }
    let ends = |area: &str| {
        let of = |mark: &&setover::sheet::page::Mark| first.area_of(mark.area).is_some_and(|one| one.name == area);
        let zone = first.areas.iter().find(|one| one.name == area).map(|one| one.bounds.bottom);
        zone.map_or(0.0, |bottom| {
            bottom - first.marks.iter().filter(of).map(|mark| mark.bounds.bottom).fold(0.0, f64::max)
        })
    };
    let free = ends("verdict");
    let verdict = said(first, "verdict");
    let owner = |check: &Check<String>| planned.answer.owner_of(check.id).unwrap_or(0) + 1;
    let own = planned.answer.checks.iter().filter(|check| owner(check) == number);
    let place = |check: &Check<String>| verdict.find(&flat(&check.asks)).map(|at| at + flat(&check.asks).len());
    let doubtful = own.filter(|check| check.stamps() == Some(Verdict::Doubtful));
    let Some((at, worst)) = doubtful.filter_map(|check| Some((place(check)?, check))).min_by_key(|found| found.0)
    else {
        return;
    };
    // Up to what follows it: another finding, or what is proven.
    let behind = verdict[at..].split_once("→W").map_or("", |pair| pair.1);
    let is_next = verdict[at..].split("→W").next().is_some_and(|figures| figures.len() < 90 && !figures.contains('→'));
    let remedies = worst.remedies.iter().map(|remedy| remedy.words.as_str());
    let of_it = |remedy: &str| behind.contains(&flat(remedy));
    let least = remedies.clone().chain(worst.remedy.as_deref()).map(|remedy| remedy.len().div_ceil(LETTERS)).min();
    if let Some(lines) = least.filter(|_| is_next && !behind.is_empty() && !remedies.clone().any(of_it))
        && free > (lines + 2) as f64 * LINE
    {
        say(format!("{} without a remedy, {free:.0} mm are free: {verdict}", worst.id));
    }
}

/// That codes, manual and practice come first stands in the foot on lines of its own, heavy, after every caution that stands there;
/// cautions that stand elsewhere on the front say what they are.
fn stands_apart(first: &Page, say: &mut impl FnMut(String)) {
    const STANDING: &str = "Local codes, the machine's manual and competent practice come first.";
    let foot = texts(first, "foot");
    // The last line of a caution may be a word that stands in it too.
    let is_of_it = |text: &&&Text| STANDING.contains(text.text.trim()) && text.text.trim().len() > "first.".len();
    let own: Vec<&&Text> = foot.iter().filter(is_of_it).collect();
    let whole = own.iter().map(|text| text.text.trim()).collect::<Vec<_>>().join(" ");
    if whole != STANDING || own.iter().any(|text| format!("{:?}", text.font) != "Bold") {
        let foot: Vec<&str> = foot.iter().map(|text| text.text.as_str()).collect();
        say(format!("the standing line does not stand apart: {foot:?}"));
    }
    // Cautions, the standing line, and last of all what the marks and units are.
    let last = own.iter().map(|text| text.at.y).fold(0.0, f64::max);
    let legend: Vec<&&Text> = foot.iter().filter(|text| text.text.contains("lengths in ")).collect();
    if legend.len() != 1 || legend.iter().any(|text| text.at.y < last || text.text.contains('•')) {
        say(format!("what the marks and units are does not stand last: {}", said(first, "foot")));
    }
    for text in own {
        if let Some(beside) = foot.iter().find(|other| other.text != text.text && (other.at.y - text.at.y).abs() < 1.0)
        {
            say(format!("{} stands beside the standing line", beside.text));
        }
    }
}

/// Lines of words under the strip, without those of bars that say what goes on.
fn lines(page: &Page) -> usize {
    let mut bases: Vec<f64> = page
        .marks
        .iter()
        .filter(|mark| page.area_of(mark.area).is_some_and(|area| !STRIP.contains(&area.name.as_str())))
        .filter_map(|mark| match &mark.ink {
            Ink::Text(text) if !text.text.ends_with(", continued") => Some(text.at.y),
            _ => None,
        })
        .collect();
    bases.sort_by(f64::total_cmp);
    bases.dedup_by(|one, other| (*one - *other).abs() < 1.0);
    bases.len()
}

/// No page is turned for a word: but for two steps at least.
fn goes_on_for_enough(own: &[&Page], say: &mut impl FnMut(String)) {
    let fewest = |page: &Page| if texts(page, "Cuts").is_empty() { FEWEST } else { FEWEST - 1 };
    for page in own.iter().skip(1).filter(|page| lines(page) < fewest(page)) {
        let all: Vec<String> = page
            .areas
            .iter()
            .filter(|area| !STRIP.contains(&area.name.as_str()))
            .map(|area| texts(page, &area.name).iter().map(|text| text.text.as_str()).collect::<Vec<_>>().join(" "))
            .collect();
        say(format!("overleaf stands no more than {all:?}"));
    }
}

/// The words of no step stand in the zone of what is measured.
fn measures_alone(planned: &Planned, number: usize, own: &[&Page], say: &mut impl FnMut(String)) {
    let steps = planned.answer.set_ups.get(number - 1).into_iter().flat_map(|set_up| &set_up.steps);
    let zones: Vec<String> = own.iter().map(|page| said(page, "measure")).collect();
    for step in steps.map(|step| flat(&step.words)).filter(|words| words.len() > SHORTEST) {
        if zones.iter().any(|zone| zone.contains(&step)) {
            say(format!("a step where sizes are written down: {step}"));
        }
    }
}

/// Fewer letters may be those of a size.
const SHORTEST: usize = 12;

/// In the bar over what is measured stand its heading, the day and the initials, and no step.
fn bar_holds_no_step(own: &[&Page], say: &mut impl FnMut(String)) {
    for page in own {
        let all = texts(page, "measure");
        let Some(heading) = all.iter().find(|text| text.text == "Measure") else { continue };
        // What stands before the bar stands on white, as the steps above it.
        let in_bar = |text: &&&Text| (text.at.y - heading.at.y).abs() < 1.0 && text.at.x > heading.at.x - 1.0;
        let beside = all.iter().filter(in_bar);
        for text in beside.filter(|text| !["Measure", "date", "initials", ""].contains(&text.text.as_str())) {
            say(format!("in the bar of what is measured: {}", text.text));
        }
    }
}

fn looked_at(name: &str, job: &str, shop: Option<&Shop>, found: &Mutex<Vec<String>>) {
    let Ok(plan) = common::try_plan(job, shop) else { return };
    let pages = layout::pages(std::slice::from_ref(&plan)).expect("pages");
    tell(name, faults(&plan, &pages), found);
}

fn tell(name: &str, all: Vec<String>, found: &Mutex<Vec<String>>) {
    found.lock().expect("no other failed").extend(all.into_iter().map(|what| format!("{name} {what}")));
}

/// Of a list that may be long, how many and the first.
fn none(found: &Mutex<Vec<String>>) {
    let found = found.lock().expect("no other failed");
    if let Ok(file) = std::env::var("SETOVER_FOUND") {
        std::fs::write(file, found.join("\n")).expect("written");
    }
    assert!(found.is_empty(), "{}: {:#?}", found.len(), &found[..found.len().min(20)]);
}

#[test]
fn the_front_of_every_committed_job_says_what_counts() {
    let found = Mutex::default();
    let wanted = |_: &str, paper, units| PRINTED.contains(&(paper, units));
    common::printed::each_printed(wanted, |printed| {
        tell(&printed.name(), faults(&printed.plan, &printed.pages), &found);
    });
    none(&found);
}

/// However many findings have no room, the line that names them has its own above the foot.
#[test]
fn what_has_no_room_is_named_in_its_own_room() {
    let job = std::fs::read_to_string("tests/jobs/absurdly-large.yaml").expect("a job");
    let bores: Vec<f64> = (0..60).map(|at| 150.0 + f64::from(at) * 0.9).chain([161.64]).collect();
    let found = Mutex::default();
    common::over_jobs((bores.len() * PRINTED.len()) as u64, |at| {
        let (bore, (paper, units)) = (bores[at as usize / PRINTED.len()], PRINTED[at as usize % PRINTED.len()]);
        let shop = Shop { paper, units, ..common::shop(common::SHOP) };
        let job = common::with(&job, "bore: 179.6 ±", &format!("bore: {bore:.2} ±"));
        looked_at(&format!("{bore} {paper:?} {units:?}"), &job, Some(&shop), &found);
    });
    none(&found);
}

#[test]
fn the_front_of_random_jobs_says_what_counts() {
    let found = Mutex::default();
    common::over_jobs(common::jobs_asked(200), |at| {
        let (paper, units) = PRINTED[at as usize % PRINTED.len()];
        let shop = Shop { paper, units, ..common::shop(common::SHOP) };
        looked_at(&format!("job {at} {paper:?} {units:?}"), &Maker::of(at).job(), Some(&shop), &found);
    });
    none(&found);
}
