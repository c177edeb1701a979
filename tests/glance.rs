//! A glance at a sheet: a reader that knows the paper alone, letters with their places and heights, and neither zones nor
//! elements, finds the stamp, the spindle, the feed, the dial and the target where they always stand.
#![allow(clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

use crate::common;
use common::jobs::Maker;
use common::{SHOP, shop, try_plan};
use setover::operations::SetUp;
use setover::plan::Plan;
use setover::proof::{Dialled, Verdict};
use setover::quantity::Print;
use setover::sheet::layout;
use setover::sheet::page::{Ink, Page, Paper};
use setover::shop::Shop;

/// Words as the eye meets them: left end and right end, base line, height of the capitals, mm.
struct Seen<'a> {
    left: f64,
    right: f64,
    base: f64,
    high: f64,
    words: &'a str,
}

fn seen(page: &Page) -> Vec<Seen<'_>> {
    let texts = page.marks.iter().filter_map(|mark| match &mark.ink {
        Ink::Text(text) => Some((mark, text)),
        _ => None,
    });
    texts
        .map(|(mark, text)| Seen {
            left: mark.bounds.left,
            right: mark.bounds.right,
            base: text.at.y,
            high: text.capital,
            words: &text.text,
        })
        .collect()
}

/// Where things stand on a paper, mm: left edge of the stamp, bottom of the steps.
fn stands(paper: Paper) -> (f64, f64) {
    match paper {
        Paper::A4 => (102.0, 203.0),
        Paper::Letter => (107.9, 187.0),
    }
}

/// Height of a figure that is looked for, of the id, of the stamp, mm.
const FIGURE: f64 = 7.5;
const ID: f64 = 5.0;
const STAMP: f64 = 10.0;

fn is_high(seen: &Seen, high: f64) -> bool {
    (seen.high - high).abs() < 1e-6
}

/// The figures that stand in the cells under a caption, cell by cell: each within seven millimetres under it, and no further to
/// the right than a cell is wide.
fn in_cells(all: &[Seen], caption: &str, width: f64) -> Vec<Vec<String>> {
    let captions = all.iter().filter(|seen| seen.words == caption && is_high(seen, 3.0));
    captions
        .map(|caption| {
            let mut figures: Vec<&Seen> = all
                .iter()
                .filter(|seen| is_high(seen, FIGURE))
                .filter(|seen| seen.base > caption.base + 3.0 && seen.base < caption.base + 7.0)
                .filter(|seen| seen.left > caption.left && seen.right < caption.left + width)
                .collect();
            figures.sort_by(|a, b| a.left.total_cmp(&b.left));
            figures.iter().map(|seen| seen.words.to_owned()).collect()
        })
        .collect()
}

/// Whether a printed figure is one that was worked out, in mm or inches, to the digits printed.
fn is(printed: &str, worked: f64) -> bool {
    let digits = printed.trim_end_matches('ᵐ');
    let places = digits.split_once('.').map_or(0, |(_, places)| places.len());
    let half = 0.500_001 * 10.0_f64.powi(-(places as i32));
    let printed: f64 = digits.parse().expect("a figure");
    [worked, worked / 25.4].iter().any(|worked| (printed - worked).abs() <= half)
}

/// The large figures of a dial.
fn dialled(dial: &Dialled, print: Print) -> Vec<f64> {
    let first = if print == Print::Both { Print::Metric } else { print };
    match dial {
        Dialled::Slide(counted) if counted.turns > 0 => vec![f64::from(counted.turns), counted.divisions],
        Dialled::Slide(counted) => vec![counted.divisions],
        // In inches to a thousandth, never deeper.
        Dialled::Stop(counted) if counted.divided_in.print(first) == Print::Imperial => {
            vec![(counted.travel_mm / 25.4 * 1000.0 + 1e-6).floor() / 1000.0 * 25.4]
        }
        Dialled::Stop(counted) => vec![counted.travel_mm],
        Dialled::Size { to_mm, .. } => vec![*to_mm],
        // Turns of the hand stand in the words too, and large where there is room.
        Dialled::Same | Dialled::Turns { .. } => Vec::new(),
    }
}

/// Whether words belong to a dial that a reading sets.
fn is_reckoned(words: &str) -> bool {
    words.starts_with("by the reading of step ") || words == "whole div"
}

/// What was found of what was looked for.
#[derive(Debug, Default)]
struct Found {
    stamps: usize,
    spindles: usize,
    feeds: usize,
    dials: usize,
    targets: usize,
    by_lines: Vec<String>,
    not: Vec<String>,
}

/// Looks at the pages of a set-up for what its plan says.
fn look(pages: &[&Page], set_up: &SetUp<String>, (fails, print): (bool, Print), found: &mut Found) {
    let first = seen(pages[0]);
    let (left, bottom) = stands(pages[0].paper);
    let stamp: Vec<&Seen> = first.iter().filter(|seen| is_high(seen, STAMP)).collect();
    let [stamp] = stamp.as_slice() else { panic!("one stamp a page, not {}", stamp.len()) };
    assert!((stamp.base - 39.2).abs() < 0.05 && stamp.left > left, "{}", stamp.words);
    assert_eq!(stamp.words.starts_with("DO NOT "), fails, "{}", stamp.words);
    found.stamps += 1;
    let large = || pages.iter().flat_map(|page| seen(page)).filter(|seen| is_high(seen, FIGURE)).count();
    if fails {
        assert_eq!(large(), 0, "nothing to be set or reached");
        return;
    }
    let wide = (pages[0].paper.size().0 - 24.0) / 3.0;
    let cells: Vec<Vec<Vec<String>>> = ["SPINDLE", "FEED", "DIAL"]
        .iter()
        .map(|caption| pages.iter().flat_map(|page| in_cells(&seen(page), caption, wide)).collect())
        .collect();
    let in_cell = |cells: &[Vec<String>], wanted: &[f64]| {
        cells.iter().any(|cell| cell.len() == wanted.len() && cell.iter().zip(wanted).all(|(a, b)| is(a, *b)))
    };
    for cut in set_up.cuts() {
        if let Some(step) = cut.spindle {
            found.spindles += 1;
            // What no plate has is printed in whole revolutions.
            if !in_cell(&cells[0], &[step]) && !in_cell(&cells[0], &[step.floor()]) {
                found.not.push(format!("spindle {step} in {:?}", cells[0]));
            }
        }
        if let Some(step) = cut.feed.filter(|_| cut.spindle.is_some()) {
            found.feeds += 1;
            if !in_cell(&cells[1], &[step]) {
                found.not.push(format!("feed {step} in {:?}", cells[1]));
            }
        }
        if let ([pass], true) = (cut.passes.as_slice(), cut.spindle.is_some())
            && let Some(dial) = &pass.dial
        {
            // A dial that a reading sets is left blank, and the line under it says how it is reckoned.
            let by_reading = pages.iter().any(|page| seen(page).iter().any(|seen| is_reckoned(seen.words)));
            let wanted = dialled(dial, print);
            found.dials += 1;
            if !by_reading && !in_cell(&cells[2], &wanted) {
                found.not.push(format!("dial {wanted:?} in {:?}", cells[2]));
            }
        }
    }
    // A target in both units may be too long for large figures: it stands in words then.
    if print != Print::Both && set_up.blanks.iter().any(|blank| blank.target.is_some()) {
        found.targets += 1;
        let target = first.iter().any(|seen| is_high(seen, FIGURE) && (seen.base - (bottom + 1.0 + 17.6)).abs() < 0.05);
        if !target {
            found.not.push(format!("no target at its place: {:?}", set_up.title));
        }
    }
}

/// The pages of each set-up of a plan, by the number that stands at the top of the first.
fn look_at(plan: &Plan, found: &mut Found) {
    let pages = layout::pages(std::slice::from_ref(plan)).expect("pages");
    let id = |page: &Page| {
        seen(page).iter().find(|s| is_high(s, ID) && s.base < 20.0 && s.left > 100.0).map(|s| s.words.to_owned())
    };
    for (operation, number) in plan.operations.iter().zip(1..) {
        for (set_up, nth) in operation.answer.set_ups.iter().zip(1..) {
            let own: Vec<&Page> = pages.iter().filter(|page| id(page) == Some(format!("{number}.{nth}"))).collect();
            if own.is_empty() {
                // Set line by line, which a sheet says itself.
                let why = pages.iter().flat_map(seen).filter(|seen| seen.words.contains("usual form"));
                found.by_lines.push(why.map(|seen| seen.words).collect());
                continue;
            }
            look(&own, set_up, (operation.verdict == Verdict::Fails, plan.print), found);
        }
    }
}

#[test]
fn a_glance_finds_what_is_looked_for_on_every_sheet_of_the_demo() {
    let mut found = Found::default();
    for paper in ["paper: A4", "paper: Letter"] {
        let text = include_str!("../demo/shop.yaml").replace("paper: A4", paper);
        look_at(&common::plan(include_str!("../demo/tidewater.yaml"), Some(&common::shop(&text))), &mut found);
    }
    println!("{found:?}");
    assert!(found.not.is_empty(), "{:#?}", found.not);
    assert!(found.stamps > 40 && found.spindles > 3 && found.targets > 10, "{found:?}");
}

#[test]
fn a_glance_finds_what_is_looked_for_on_the_sheets_of_random_jobs() {
    let paper = SHOP.replace("paper: A4", "paper: Letter").replace("units: metric", "units: both");
    let shops: [Option<Shop>; 4] =
        [None, Some(shop(SHOP)), Some(shop(&paper)), Some(shop(include_str!("jobs/inch-shop.yaml")))];
    let all = std::sync::Mutex::new(Found::default());
    let jobs = common::jobs_asked(300);
    common::over_jobs(jobs, |number| {
        let job = Maker::of(number).job();
        let plan =
            try_plan(&job, shops[(number % 4) as usize].as_ref()).unwrap_or_else(|all| panic!("{job}\n{all:#?}"));
        let mut found = Found::default();
        look_at(&plan, &mut found);
        let mut all = all.lock().expect("no other failed");
        all.stamps += found.stamps;
        all.spindles += found.spindles;
        all.feeds += found.feeds;
        all.dials += found.dials;
        all.targets += found.targets;
        all.by_lines.extend(found.by_lines);
        all.not.extend(found.not.into_iter().map(|not| format!("job {number}: {not}")));
    });
    let found = all.into_inner().expect("no other failed");
    println!(
        "{} stamps, {} spindles, {} feeds, {} dials, {} targets",
        found.stamps, found.spindles, found.feeds, found.dials, found.targets
    );
    assert!(found.not.is_empty(), "{} not found: {:#?}", found.not.len(), &found.not[..found.not.len().min(30)]);
    assert!(found.by_lines.len() * 20 < found.stamps, "sheets line by line: {:#?}", found.by_lines);
    let jobs = jobs as usize;
    assert!(found.stamps > jobs && found.spindles * 5 > jobs && found.targets * 3 > jobs, "{} jobs", jobs);
}
