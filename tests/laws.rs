//! The laws of a laid-out page over whole jobs, on both papers and in all units of print; and that each of them can be broken.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common;

use common::laws::{broken, filled, of_sheet, texts};
use setover::plan::Plan;
use setover::proof::{Check, Verdict};
use setover::quantity::Print;
use setover::sheet::layout;
use setover::sheet::page::{Ink, Mark, Page, Role};
use setover::shop::{Paper, Shop};

const DEMO: &str = include_str!("../demo/tidewater.yaml");
const DEMO_SHOP: &str = include_str!("../demo/shop.yaml");

const UNITS: [Print; 3] = [Print::Metric, Print::Imperial, Print::Both];

fn demo(paper: Paper, print: Print) -> Plan {
    let shop = Shop { paper, units: print, ..common::shop(DEMO_SHOP) };
    common::plan(DEMO, Some(&shop))
}

fn pages(plan: &Plan) -> Vec<Page> {
    layout::pages(std::slice::from_ref(plan)).expect("pages")
}

fn set_ups(plan: &Plan) -> usize {
    // What is only figures has a page too.
    plan.operations.iter().map(|planned| planned.answer.set_ups.len().max(1)).sum()
}

/// One page a set-up (law 6), at least 60 % of it used (law 7), and every law that asks what the plan says.
#[test]
fn the_demo_holds_every_law() {
    for paper in [Paper::A4, Paper::Letter] {
        let plan = demo(paper, Print::Metric);
        let pages = pages(&plan);
        assert_eq!(broken(&plan, &pages), Vec::<String>::new());
        let over: Vec<&Page> = pages.iter().filter(|page| texts(page, "verdict").is_empty()).collect();
        assert_eq!(pages.len() - over.len(), set_ups(&plan), "{paper:?}");
        assert!(over.is_empty(), "{paper:?}: {}", over.len());
        let thin: Vec<String> = pages
            .iter()
            .filter(|page| texts(page, "ways out").len() != 1 + 1)
            .filter(|page| !texts(page, "verdict").is_empty() && filled(page) < 0.6)
            .map(|page| format!("{} {:.2}", texts(page, "id")[0].text, filled(page)))
            .collect();
        assert_eq!(thin, Vec::<String>::new(), "{paper:?}");
    }
}

#[test]
fn every_unit_of_print_holds_the_laws_of_figures() {
    for (paper, print) in [(Paper::Letter, Print::Imperial), (Paper::A4, Print::Both)] {
        let plan = demo(paper, print);
        assert_eq!(broken(&plan, &pages(&plan)), Vec::<String>::new(), "{print:?}");
    }
}

/// Every law holds on either paper in every unit of print, for the examples and for the demonstration; and each of their set-ups
/// has one page.
#[test]
fn the_laws_hold_on_each_paper_in_each_unit() {
    let own = common::shop(&std::fs::read_to_string("examples/shop.yaml").expect("a shop"));
    let mut found = Vec::new();
    let examples = common::committed_jobs().into_iter().filter(|(path, _)| path.starts_with("examples"));
    let jobs: Vec<(String, String)> = examples.map(|(path, job)| (path.to_owned(), job.to_owned())).collect();
    let papers = [Paper::A4, Paper::Letter];
    for (paper, units) in papers.iter().flat_map(|paper| UNITS.map(|units| (*paper, units))) {
        let examples = jobs.iter().map(|(path, job)| {
            let plan = common::plan(job, Some(&Shop { paper, units, ..own.clone() }));
            (path.as_str(), plan)
        });
        for (path, plan) in examples.chain([("the demonstration", demo(paper, units))]) {
            let pages = pages(&plan);
            let mut say = |what: String| found.push(format!("{path} {paper:?} {units:?}: {what}"));
            broken(&plan, &pages).into_iter().for_each(&mut say);
            if pages.len() > set_ups(&plan) {
                let ids: Vec<&str> = pages.iter().map(|page| texts(page, "id")[0].text.as_str()).collect();
                say(format!("further pages: {ids:?}"));
            }
        }
    }
    assert_eq!(found, Vec::<String>::new());
}

/// Where nothing is drawn of a part, the picture of its figures stands in the zone of the sketch, on the front.
#[test]
fn the_picture_of_a_fit_and_of_a_chain_stands_where_a_sketch_would() {
    let own = common::shop(&std::fs::read_to_string("examples/shop.yaml").expect("a shop"));
    for (file, said) in [("fit-up", "clearance, cold"), ("chain", "the links leave")] {
        let job = std::fs::read_to_string(format!("examples/{file}.yaml")).expect("a job");
        for (paper, units) in
            [(Paper::A4, Print::Metric), (Paper::Letter, Print::Imperial), (Paper::Letter, Print::Both)]
        {
            let plan = common::plan(&job, Some(&Shop { paper, units, ..own.clone() }));
            let pages = pages(&plan);
            let sketch: Vec<&str> = texts(&pages[0], "sketch").iter().map(|text| text.text.as_str()).collect();
            assert!(sketch.contains(&said), "{file} {paper:?} {units:?}: {sketch:?}");
            assert_eq!(pages.len(), 1, "{file} {paper:?} {units:?}");
        }
    }
}

/// The jobs of the worked examples made to fail, each in its own way, several at once.
fn failing() -> Vec<Plan> {
    let case = |file: &str, changes: &[(&str, &str)]| {
        let text = std::fs::read_to_string(format!("tests/fixtures/{file}.yaml")).expect("a job");
        let job = changes.iter().fold(text, |job, (from, to)| common::with(&job, from, to));
        let plan = common::in_shop(&job);
        assert_eq!(common::first(&plan).verdict, Verdict::Fails, "{file} {changes:?}");
        plan
    };
    vec![
        case("thread-insert", &[("wall: 18.0", "wall: 14.0")]),
        case("thread-insert", &[("wall: 18.0", "wall: 14.0"), ("present-hole: 8.0 mm", "present-hole: 9.4 mm")]),
        case("thread-insert", &[("lead: bottoming", "lead: plug")]),
        case("face", &[("wear: 0.25", "wear: 0.95")]),
        case("skim", &[("length: 8.00", "length: 7.40")]),
        case("ream-bush", &[("outside: 20.045", "outside: 20.445")]),
    ]
}

#[test]
fn what_fails_stands_whole_on_the_front_the_worst_first() {
    for plan in failing() {
        let planned = common::first(&plan);
        let pages = pages(&plan);
        assert_eq!(broken(&plan, &pages), Vec::<String>::new(), "{}", planned.address);
        let front = of_sheet(&pages, "1.1")[0];
        let said = texts(front, "ways out").iter().map(|text| text.text.as_str()).collect::<Vec<_>>().join(" ");
        let fails = |check: &&Check<String>| check.stamps() == Some(Verdict::Fails);
        assert!(planned.answer.checks.iter().filter(fails).count() > 0);
        assert!(!said.contains("--working"), "{}: a remedy is hidden: {said}", planned.address);
    }
}

/// Takes texts away from the pages, or changes them: what the laws see then.
fn after(plan: &Plan, change: impl Fn(&mut Page)) -> Vec<String> {
    let mut all = pages(plan);
    all.iter_mut().for_each(change);
    broken(plan, &all)
}

fn without(part: &'static str) -> impl Fn(&mut Page) {
    move |page: &mut Page| page.marks.retain(|mark| !matches!(&mark.ink, Ink::Text(text) if text.text.contains(part)))
}

#[test]
fn each_law_can_be_broken() {
    let breaks = |found: Vec<String>, law: u8| {
        let wanted = format!("law {law}:");
        assert!(found.iter().any(|what| what.contains(&wanted)), "{law}: {found:?}");
    };
    let fails = &failing()[0];
    breaks(after(fails, without("metal left under")), 9);
    breaks(after(fails, without("lead ground back")), 9);
    breaks(
        after(fails, |page| {
            if let Some(Ink::Text(text)) = page.marks.iter_mut().rev().map(|mark| &mut mark.ink).next() {
                text.role = Role::Figure;
            }
            page.marks.iter_mut().for_each(|mark| {
                if let Ink::Text(text) = &mut mark.ink {
                    text.role = Role::Figure;
                }
            });
        }),
        8,
    );
    breaks(after(fails, without("−")), 8);
    let proven = common::in_shop(include_str!("fixtures/thread-insert.yaml"));
    breaks(after(&proven, without(" proven")), 11);
    let unexplained = |page: &mut Page| {
        let is_beside = |mark: &Mark| page.area_of(mark.area).is_some_and(|area| area.name == "beside");
        page.marks = page.marks.iter().filter(|mark| !is_beside(mark)).cloned().collect();
    };
    breaks(after(&proven, unexplained), 20);
    breaks(
        after(&proven, |page| {
            page.marks.iter_mut().for_each(|mark| {
                if let Ink::Text(text) = &mut mark.ink
                    && text.role == Role::Figure
                {
                    text.text = "16.012345".into();
                }
            });
        }),
        13,
    );
    let page = &pages(&proven)[0];
    let mut empty = page.clone();
    empty.marks.clear();
    assert!(filled(page) > 0.6 && filled(&empty) < 0.01);
}

/// Every finding of a doubtful sheet has its remedies with it, or is named with the page where it stands.
#[test]
fn a_worse_remedy_never_stands_before_a_better_one() {
    let plan = &failing()[0];
    let all = pages(plan);
    let mut swapped = plan.clone();
    for check in &mut swapped.operations[0].answer.checks {
        for remedy in &mut check.remedies {
            remedy.gives = remedy.gives.map(|gives| match gives {
                Verdict::Proven => Verdict::Fails,
                Verdict::Fails => Verdict::Proven,
                Verdict::Doubtful => Verdict::Doubtful,
            });
        }
    }
    assert!(broken(plan, &all).is_empty());
    assert!(broken(&swapped, &all).iter().any(|what| what.contains("stands behind one")));
}

/// The cover: a row a set-up with its word and reason, the sums, and every remark whole.
#[test]
fn the_cover_says_how_each_set_up_came_out_and_every_remark_whole() {
    for paper in [Paper::A4, Paper::Letter] {
        let plan = demo(paper, Print::Metric);
        let extras = layout::Extras { working: layout::Working::None, cover: true };
        let all = layout::pages_with(std::slice::from_ref(&plan), extras).expect("pages");
        let cover: Vec<&Page> = of_sheet(&all, "cover");
        assert!(!cover.is_empty() && all.len() == cover.len() + pages(&plan).len(), "{paper:?}");
        let said: String = cover
            .iter()
            .flat_map(|page| page.areas.iter().flat_map(|area| texts(page, &area.name)))
            .map(|text| text.text.as_str())
            .collect::<Vec<_>>()
            .join(" ");
        for (at, planned) in plan.operations.iter().enumerate() {
            assert!(
                planned.note.as_ref().is_none_or(|note| said.contains(note.as_str())),
                "{:?}: {said}",
                planned.note
            );
            for number in 1..=planned.answer.set_ups.len() {
                assert!(said.contains(&format!(" {}.{number} ", at + 1)), "{said}");
            }
        }
        let stamps = |word: &str| said.matches(word).count();
        let verdicts = setover::sheet::terminal::sheets(std::slice::from_ref(&plan));
        for word in ["DO NOT CUT", "DO NOT FIT", "DOUBTFUL", "PROVEN"] {
            assert_eq!(stamps(word), verdicts.matches(word).count(), "{word}");
        }
        assert!(said.contains("22 set-ups: 2 must not be done, 6 doubtful, 14 proven"), "{said}");
    }
}

/// What the program itself prints of what must not be cut names the reading that would prove it.
#[test]
fn the_file_says_which_reading_would_prove_what_was_asked() {
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("sheets.pdf");
    let mut command = std::process::Command::new(env!("CARGO_BIN_EXE_setover"));
    let done = command.args(["sheets", "demo/tidewater.yaml", "-o"]).arg(&file).output().expect("it runs");
    assert!(file.exists(), "{}", String::from_utf8_lossy(&done.stderr));
    let read = lopdf::Document::load(&file).expect("a PDF");
    let said: String = read.extract_text(&[1]).expect("text").split_whitespace().collect();
    assert!(said.contains("atleast16.15mmwouldproveitasasked"), "{said}");
}

/// A finding that stands without its remedies, and a line for the rest that takes two: both have their room above the foot.
#[test]
fn the_line_for_the_rest_has_its_room_however_long_it_is() {
    let shop = "shop: Shed\nunits: inch\npaper: Letter\nmachines:\n  - drill-press: {name: drill press, spindle: 500 800 1250 2000 3100 rpm}\ntools:\n  - drills: {name: metric drills, material: HSS, from: 1 mm, to: 10 mm, by: 0.1 mm}\n";
    let job = "job: M8 in a cover\nshop: shop.yaml\nparts:\n  - part: side cover\n    material: 6082\n    operations:\n      - drill: {starts-on: flat, diameter: 6.8 mm, depth: 25 mm, wall: 1.5 in, edge: 0.5 in, hold: {in: vice}}\n";
    for paper in [Paper::A4, Paper::Letter] {
        let plan = common::plan(job, Some(&Shop { paper, ..common::shop(shop) }));
        assert_eq!(broken(&plan, &pages(&plan)), Vec::<String>::new());
    }
}

/// The larger paper has no fewer blanks than the smaller.
#[test]
fn there_are_as_many_blanks_on_either_paper() {
    let blanks = |page: &Page| {
        let of = |mark: &&setover::sheet::page::Mark| {
            let here = page.area_of(mark.area).is_some_and(|area| area.name == "measure");
            here && matches!(mark.ink, Ink::Polygon { fill: setover::sheet::page::Fill::None, .. })
        };
        page.marks.iter().filter(of).count()
    };
    let mut seen = 0;
    for (path, job) in common::committed_jobs().into_iter().filter(|(path, _)| !path.starts_with("tests")) {
        let shop = if path.starts_with("demo") { include_str!("../demo/shop.yaml") } else { common::SHOP };
        let on = |paper| pages(&common::plan(&job, Some(&Shop { paper, ..common::shop(shop) })));
        let id = |page: &Page| texts(page, "id").first().map(|text| text.text.clone()).unwrap_or_default();
        let first = |pages: Vec<Page>| -> Vec<(String, usize)> {
            let mut all: Vec<(String, usize)> = pages.iter().map(|page| (id(page), blanks(page))).collect();
            all.dedup_by(|one, other| one.0 == other.0);
            all
        };
        let fewer = first(on(Paper::A4)).into_iter().zip(first(on(Paper::Letter)));
        for ((id, on_a4), (_, on_letter)) in fewer {
            assert!(on_a4 >= on_letter, "{path} {id}: {on_a4} blanks on A4, {on_letter} on Letter");
            seen += on_a4;
        }
    }
    assert!(seen > 100, "{seen}");
}

/// A ladder is walked down: no pass stands overleaf behind a later one.
#[test]
fn passes_stand_in_turn_wherever_a_page_ends() {
    let job = "job: Much to ream\nparts:\n  - part: case\n    material: cast aluminium\n    operations:\n      - ream-bush: {housing: {bore: 20.010 ± 0.004 mm, outside: 40 mm, length: 20 mm, finish: Ra 0.8 um}, bush: {outside: 20.045 ± 0.004 mm, bore: 15.60 ± 0.004 mm, length: 20 mm, material: phosphor bronze, finish: Ra 0.8 um}, shaft: 15.984 ± 0.003 mm, clearance: 1 .. 2 thou, duty: gear, oil-holes: [{diameter: 3 mm, at: 10 mm}, {diameter: 2 mm, at: 4 mm}], assemble: press, gauge: plugs, by: hand}\n";
    let mut passes = 0;
    for paper in [Paper::A4, Paper::Letter] {
        let mut plan = common::in_shop(job);
        plan.paper = paper;
        let mut last = ("".to_owned(), 0);
        for page in &pages(&plan) {
            let id = texts(page, "id").first().map(|text| text.text.clone()).unwrap_or_default();
            if last.0 != id {
                last = (id, 0);
            }
            let named = page.elements.iter().filter_map(|element| element.field.as_ref());
            let numbers =
                named.filter_map(|(_, name)| name.strip_prefix("pass ")?.split(' ').next()?.parse::<usize>().ok());
            let numbers: Vec<usize> = numbers.collect();
            assert!(
                numbers.iter().all(|number| *number >= last.1),
                "{paper:?} {}: {numbers:?} after {}",
                last.0,
                last.1
            );
            last.1 = numbers.iter().copied().max().unwrap_or(last.1);
            passes = passes.max(last.1);
        }
    }
    assert!(passes > 8, "{passes}");
}
