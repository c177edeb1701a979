//! Setup sheets: every page passes the checker, nothing is lost however long the lists, and the same plan gives the same bytes.
#![allow(clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

use crate::common;
use crate::seeds;

use proptest::prelude::*;
use setover::drawing::{Balloon, Item, Point, Shows, Side, Sketch, Stroke, rectangle};
use setover::job::Address;
use setover::operations::{
    Alternative, Answer, Blank, Cut, HoldLine, Pass, PassKind, SetUp, Station, Step, Target, Wait,
};
use setover::plan::{OfDay, Plan, Planned};
use setover::proof::{Check, Counted, Dialled, Fact, Judged, Keep, Outcome, Refusal, Remedy, Verdict, Weight};
use setover::quantity::{Print, Unit};
use setover::sheet::layout::{self, Working};
use setover::sheet::page::{Ink, Page, Role, Text};
use setover::sheet::{check, terminal};
use setover::shop::{Paper, Shop, View};
use std::collections::BTreeMap;

const JOB: &str = include_str!("fixtures/thread-insert.yaml");

/// A plan of the worked example, with the job changed.
fn worked(paper: Paper, print: Print, change: impl Fn(&str) -> String) -> Plan {
    let shop = Shop { paper, units: print, ..common::shop(common::SHOP) };
    common::plan(&change(JOB), Some(&shop))
}

fn as_it_is(job: &str) -> String {
    job.to_owned()
}

fn texts(page: &Page) -> Vec<&Text> {
    let mut texts = Vec::new();
    for mark in &page.marks {
        if let Ink::Text(text) = &mark.ink {
            texts.push(text);
        }
    }
    texts
}

/// Every text of some pages, line after line.
fn all_text(pages: &[Page]) -> String {
    pages.iter().flat_map(texts).map(|text| text.text.as_str()).collect::<Vec<_>>().join("\n")
}

/// The pages of a plan, each held against the checker.
#[track_caller]
fn laid(plan: &Plan) -> Vec<Page> {
    let pages = held(layout::pages(std::slice::from_ref(plan)).expect("pages"));
    assert_eq!(common::laws::broken(plan, &pages), Vec::<String>::new());
    pages
}

/// The same with its working pages.
#[track_caller]
fn worked_out(plan: &Plan) -> Vec<Page> {
    held(layout::pages_with(std::slice::from_ref(plan), Working::All).expect("pages"))
}

#[track_caller]
fn held(pages: Vec<Page>) -> Vec<Page> {
    for page in &pages {
        assert_eq!(check::faults(page), []);
    }
    pages
}

#[test]
fn every_paper_and_every_unit_gives_pages_without_fault() {
    for paper in [Paper::A4, Paper::Letter] {
        for print in [Print::Metric, Print::Imperial, Print::Both] {
            for change in ["lead: bottoming", "lead: plug", "lead: taper"] {
                let pages = laid(&worked(paper, print, |job| job.replace("lead: bottoming", change)));
                assert!(pages.len() >= 2 && pages.iter().all(|page| page.paper.size().0 > 209.0));
            }
        }
    }
}

#[test]
fn the_same_plan_gives_the_same_bytes() {
    let bytes = |plan: Plan| layout::pdf(&[plan]).expect("pdf");
    let first = bytes(worked(Paper::A4, Print::Both, as_it_is));
    assert_eq!(first, bytes(worked(Paper::A4, Print::Both, as_it_is)));
    assert_ne!(first, bytes(worked(Paper::Letter, Print::Both, as_it_is)));
}

/// Three jobs with papers of their own, the second of which fails: made one operation after the other the file is the same to the
/// byte, and each page has its paper.
#[test]
fn sheets_made_one_after_the_other_are_the_same_bytes() {
    let fails = |job: &str| job.replace("lead: bottoming", "lead: plug");
    let plans = [
        worked(Paper::A4, Print::Metric, as_it_is),
        worked(Paper::Letter, Print::Both, fails),
        worked(Paper::A4, Print::Metric, as_it_is),
    ];
    let each = |plan: &Plan| {
        let numbered = plan.operations.iter().zip(1..);
        numbered.map(|(planned, number)| layout::packed(plan, planned, number)).collect::<Vec<_>>()
    };
    let jobs: Vec<_> = plans.iter().map(|plan| (plan.clone(), each(plan))).collect();
    let lists = terminal::sheets_made(jobs.iter().map(|(_, sheets)| sheets));
    assert_eq!(lists, terminal::sheets(&plans));
    let whole = layout::pdf(&plans).expect("pdf");
    assert_eq!(layout::streamed_pdf(jobs).expect("pdf").concat(), whole);
    let wide: Vec<bool> = plans.iter().flat_map(laid).map(|page| page.paper == Paper::Letter).collect();
    let boxes = String::from_utf8_lossy(&whole);
    let boxes: Vec<bool> = boxes.split("/MediaBox[0 0 ").skip(1).map(|rest| rest.starts_with("612")).collect();
    assert_eq!(boxes.iter().filter(|wide| **wide).count(), wide.iter().filter(|wide| **wide).count());
    assert_eq!(boxes.len(), wide.len());
}

#[test]
fn title_author_language_and_one_place_a_sheet_stand_in_the_file() {
    let bytes = layout::pdf(&[worked(Paper::A4, Print::Metric, as_it_is)]).expect("pdf");
    let file = lopdf::Document::load_mem(&bytes).expect("a PDF");
    let words = |id: &lopdf::Object| lopdf::decode_text_string(id).expect("text");
    let info =
        file.get_dictionary(file.trailer.get(b"Info").and_then(|o| o.as_reference()).expect("info")).expect("info");
    assert!(words(info.get(b"Title").expect("title")).contains("Worked example"));
    assert_eq!(words(info.get(b"Author").expect("author")), "Example bench");
    assert_eq!(words(file.catalog().expect("catalogue").get(b"Lang").expect("language")), "en-GB");
    let marks = file.objects.values().filter(|o| o.as_dict().is_ok_and(|d| d.has(b"Dest"))).count();
    assert_eq!(marks, 3, "a place for the operation and one for each of its two sheets");
}

#[test]
fn the_stamp_is_that_of_the_set_up_and_a_doubt_elsewhere_is_a_line() {
    let stamp = |plan: &Plan| {
        let pages = laid(plan);
        let stamps: Vec<String> = pages
            .iter()
            .map(|page| {
                let words = texts(page).into_iter().filter(|text| text.role == Role::Stamp);
                words.map(|text| text.text.clone()).collect::<Vec<_>>().join(" ")
            })
            .collect();
        assert!(stamps.iter().all(|stamp| !stamp.is_empty()), "every page carries it: {stamps:?}");
        (stamps[0].clone(), all_text(&pages))
    };
    let (word, text) = stamp(&worked(Paper::A4, Print::Metric, |job| job.replace("lead: bottoming", "lead: plug")));
    assert_eq!(word, "DO NOT CUT");
    assert!(text.contains("FAILS"), "{text}");
    let (word, text) = stamp(&worked(Paper::A4, Print::Metric, |job| job.replace("wall: 18.0", "wall: 16.8")));
    assert_eq!(word, "DOUBTFUL");
    let words = text.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(words.contains("1.1 is doubtful."), "{text}");
    let (word, text) = stamp(&synthetic(3, 3, 1, Verdict::Proven));
    assert_eq!(word, "PROVEN");
    assert!(text.contains("for depth; strength not asked"), "{text}");
    let (word, text) = stamp(&synthetic(3, 3, 1, Verdict::Fails));
    assert_eq!(word, "DO NOT CUT");
    assert!(!text.contains("strength not asked"), "DO NOT CUT has no conditions");
}

/// A failing operation gives nobody a spindle step, a feed, a dial, a depth or a target, on no output.
#[test]
fn what_fails_can_be_followed_on_no_output() {
    let case = |file: &str, from: &str, to: &str| {
        let text = std::fs::read_to_string(format!("tests/fixtures/{file}.yaml")).expect("a job");
        let plan = common::in_shop(&common::with(&text, from, to));
        assert_eq!(common::first(&plan).verdict, Verdict::Fails, "{file}");
        plan
    };
    for plan in [
        case("thread-insert", "wall: 18.0", "wall: 14.0"),
        case("face", "wear: 0.25", "wear: 0.95"),
        case("skim", "length: 8.00", "length: 7.40"),
        case("ream-bush", "outside: 20.045", "outside: 20.445"),
    ] {
        let planned = common::first(&plan);
        let sound: Vec<&Pass> = planned
            .answer
            .set_ups
            .iter()
            .flat_map(|s| &s.steps)
            .filter_map(|s| s.cut.as_ref())
            .flat_map(|c| &c.passes)
            .collect();
        let dials: Vec<String> = sound.iter().filter_map(|pass| Some(pass.dial.as_ref()?.said(plan.print))).collect();
        let steps: Vec<&String> = planned.answer.set_ups.iter().flat_map(|s| &s.steps).map(|s| &s.words).collect();
        let pages = worked_out(&plan);
        let outputs = [
            terminal::plans(std::slice::from_ref(&plan)).split_whitespace().collect::<Vec<_>>().join(" "),
            all_text(&pages).replace('\n', " "),
            serde_json::to_string(&setover::sheet::json::output(std::slice::from_ref(&plan))).expect("JSON"),
        ];
        for text in outputs {
            assert!(text.contains("No steps, settings or targets are printed"), "{text}");
            for line in steps.iter().copied().chain(&dials) {
                assert!(!text.contains(line.as_str()), "`{line}` in {text}");
            }
            assert!(!text.contains("; target ") && !text.contains("spindle_rev_min\":"), "{text}");
        }
        let large = pages.iter().flat_map(texts).filter(|text| text.role == Role::Figure);
        assert_eq!(large.map(|text| text.text.clone()).collect::<Vec<_>>(), Vec::<String>::new());
    }
}

/// The stamp of a page.
fn stamp_of(page: &Page) -> String {
    let words = texts(page).into_iter().filter(|text| text.role == Role::Stamp);
    words.map(|text| text.text.clone()).collect::<Vec<_>>().join(" ")
}

#[test]
fn what_fails_is_not_to_be_cut_at_a_machine_and_not_to_be_fitted_elsewhere() {
    for (station, word) in [
        (Station::Lathe, "DO NOT CUT"),
        (Station::Drilling, "DO NOT CUT"),
        (Station::Bench, "DO NOT FIT"),
        (Station::Press, "DO NOT FIT"),
        (Station::Oven, "DO NOT FIT"),
    ] {
        let mut plan = synthetic(2, 2, 1, Verdict::Fails);
        plan.operations[0].answer.set_ups[0].station = station;
        assert!(laid(&plan).iter().all(|page| stamp_of(page) == word), "{station:?}");
        assert!(terminal::plans(&[plan.clone()]).starts_with(word), "{station:?}");
        plan.operations[0].verdict = Verdict::Doubtful;
        assert!(laid(&plan).iter().all(|page| stamp_of(page) == "DOUBTFUL"), "{station:?}");
    }
}

#[test]
fn letters_are_as_high_as_the_distance_asks() {
    let pages = laid(&worked(Paper::Letter, Print::Imperial, as_it_is));
    for text in pages.iter().flat_map(texts) {
        assert!(text.capital >= text.role.least_capital() - 1e-9, "{text:?}");
    }
    let large: Vec<&str> =
        pages.iter().flat_map(texts).filter(|t| t.role == Role::Figure).map(|t| t.text.as_str()).collect();
    for figure in ["660", "0.3257", "0.3331"] {
        assert!(large.contains(&figure), "{figure} stands large: {large:?}");
    }
    let second: Vec<&str> =
        pages.iter().flat_map(texts).filter(|t| t.role == Role::Second).map(|t| t.text.as_str()).collect();
    assert!(second.contains(&"0.5118"), "a further target stands a step lower: {second:?}");
}

#[test]
fn what_the_page_says_is_what_the_file_says() {
    let plan = worked(Paper::A4, Print::Metric, |job| job.replace("timing chest", "Καρτερ Ж"));
    let pages = laid(&plan);
    let bytes = layout::pdf(&[plan]).expect("pdf");
    let file = lopdf::Document::load_mem(&bytes).expect("a PDF");
    let numbers: Vec<u32> = file.get_pages().keys().copied().collect();
    assert_eq!(numbers.len(), pages.len());
    let said: String = file.extract_text(&numbers).expect("text").split_whitespace().collect();
    for text in pages.iter().flat_map(texts) {
        let words: String = text.text.split_whitespace().collect();
        assert!(said.contains(&words), "{words} is in the file");
    }
}

#[test]
fn a_sign_that_the_letters_lack_stands_as_its_number_and_the_sheet_says_so() {
    let plan = worked(Paper::A4, Print::Metric, |job| job.replace("timing chest", "timing 漢 chest"));
    let text = all_text(&laid(&plan));
    assert!(text.contains("timing ⟨U+6F22⟩ chest"), "{text}");
    assert!(text.contains("Characters that this sheet's letters lack are printed as their numbers"), "{text}");
    assert!(layout::pdf(&[plan]).is_ok());
    let usual = all_text(&laid(&worked(Paper::A4, Print::Metric, as_it_is)));
    assert!(!usual.contains("Characters that this sheet"), "{usual}");
}

/// A name of so many letters, in words.
fn long(letters: usize) -> String {
    "Namen ".chars().cycle().take(letters).collect()
}

#[test]
fn a_name_of_any_length_stands_in_full_and_costs_no_sheet() {
    for letters in [161, 400, 3_000, 20_000] {
        let mut plan = synthetic(3, 3, 1, Verdict::Doubtful);
        let before = worked_out(&plan).len();
        let name = long(letters);
        (plan.job, plan.engine, plan.date, plan.shop) =
            (name.clone(), Some(name.clone()), Some(name.clone()), Some(name.clone()));
        let planned = &mut plan.operations[0];
        planned.address = Address::of(&name, "face");
        (planned.material, planned.stamp_note) = (Some(name.clone()), Some(name.clone()));
        (planned.answer.set_ups[0].title, planned.answer.set_ups[0].machine) = (name.clone(), name.clone());
        let pages = worked_out(&plan);
        assert!(pages.len() >= before);
        let count = all_text(&pages).matches("Namen").count();
        assert!(count >= 9 * (letters / 6), "{letters}: {count} words of {}", flat(&all_text(&pages)));
        assert!(all_text(&pages).contains("STEP3"), "{letters}");
    }
    // One word without a place to break it.
    let mut plan = synthetic(2, 1, 1, Verdict::Proven);
    plan.operations[0].address = Address::of(&"x".repeat(3_000), "face");
    plan.operations[0].answer.alternatives[0].name = "y".repeat(3_000);
    plan.operations[0].answer.set_ups[0].blanks[0].words = "z".repeat(3_000);
    let text = all_text(&worked_out(&plan));
    assert!(["x", "y", "z"].iter().all(|sign| text.matches(sign).count() >= 3_000));
}

#[test]
fn a_sketch_that_cannot_be_drawn_costs_no_sheet() {
    let mut plan = synthetic(3, 3, 1, Verdict::Doubtful);
    let mut second = plan.operations[0].clone();
    second.address = Address::of("other ring", "face");
    let sketch = &mut plan.operations[0].answer.set_ups[0].sketch;
    *sketch = Sketch::default();
    for at in 0..200 {
        let side = [Side::Left, Side::Right][at % 2];
        sketch.items.push(Item::Label { at: Point::new(0.0, at as f64), towards: side, text: long(300) });
    }
    plan.operations.push(second);
    let pages = worked_out(&plan);
    let text = all_text(&pages);
    assert!(text.contains("The sketch could not be drawn"), "{text}");
    assert!(text.contains("STEP3") && text.contains("CHECK3") && text.contains("other ring"), "{text}");
    plan.operations[0].answer.set_ups[0].sketch = section();
    plan.operations[0].answer.set_ups[0].sketch.items.push(Item::Line {
        stroke: Stroke::Visible,
        points: vec![Point::new(f64::NAN, 0.0), Point::new(1.0, f64::INFINITY)],
    });
    assert!(layout::pdf(&[plan]).is_ok(), "a sketch that is no drawing");
}

/// Texts of pages in one line, words that a line end parted put together again.
fn flat(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn checks_that_were_not_made_stand_in_one_line_for_a_key_with_what_opens_them() {
    let mut plan = synthetic(2, 1, 1, Verdict::Doubtful);
    let not_made = |id: &'static str, weight: Weight, missing: &[&'static str]| Check {
        id,
        asks: id.replace('-', " "),
        judged: None,
        state: Outcome::NotChecked,
        weight,
        missing: missing.to_vec(),
        remedy: None,
        ..check(3)
    };
    let checks = &mut plan.operations[0].answer.checks;
    checks.push(not_made("grip-moment", Weight::Must, &["hold.grip", "hold.overhang"]));
    checks.push(not_made("jaw-reach", Weight::Must, &["hold.diameter"]));
    checks.push(not_made("least-case", Weight::Must, &["least-case"]));
    checks.push(not_made("power", Weight::May, &["set-up.machine"]));
    checks.push(Check { state: Outcome::DoesNotApply, ..not_made("pack", Weight::May, &[]) });
    checks.push(Check { state: Outcome::NoShop, ..not_made("swing", Weight::Must, &[]) });
    for text in [flat(&all_text(&laid(&plan))), flat(&terminal::plans(&[plan.clone()]))] {
        assert!(
            text.contains("2 checks not made (grip moment, jaw reach): type hold (grip, overhang, diameter)"),
            "{text}"
        );
        assert!(text.contains("check not made (least case): type least-case"), "{text}");
        assert!(text.contains("heck not made (power): type set-up (machine)"), "{text}");
        assert!(!text.contains("pack"), "what does not apply is not on the sheet: {text}");
    }
}

#[test]
fn advice_is_shown_as_advice_and_never_as_a_verdict() {
    let mut plan = synthetic(1, 1, 1, Verdict::Proven);
    let advised = |verdict| Check { weight: Weight::Advice, state: Outcome::Made(verdict), ..check(2) };
    for verdict in [Verdict::Doubtful, Verdict::Fails] {
        plan.operations[0].answer.checks = vec![advised(verdict)];
        for text in [flat(&all_text(&laid(&plan))), flat(&terminal::plans(&[plan.clone()]))] {
            assert!(text.contains("advice ") && text.contains("take less, or another tool"), "{text}");
            assert!(!text.contains("doubtful CHECK2") && !text.contains("FAILS CHECK2"), "{text}");
        }
    }
}

#[test]
fn what_rests_on_memory_is_marked_and_listed_at_the_foot() {
    let mut plan = synthetic(2, 3, 1, Verdict::Doubtful);
    plan.operations[0].answer.checks[2].from_memory = true;
    for text in [flat(&all_text(&worked_out(&plan))), flat(&terminal::plans(&[plan.clone()]))] {
        assert!(text.contains("ᵐ rests on a figure from memory, whose doubt is counted: check 3."), "{text}");
    }
    let sheet = flat(&all_text(&laid(&plan)));
    assert!(sheet.contains("ᵐ from memory, not read"), "{sheet}");
    plan.operations[0].answer.checks[2].from_memory = false;
    assert!(!all_text(&worked_out(&plan)).contains('ᵐ'));
}

#[test]
fn every_sheet_with_a_mark_of_memory_says_what_it_means() {
    let plan = worked(Paper::A4, Print::Metric, as_it_is);
    let marked = plan.operations[0].answer.values.iter().filter(|value| value.from_memory).count();
    assert!(marked > 0, "the point of the drill is remembered");
    for id in ["1.1", "1.2"] {
        let pages = laid(&plan);
        let own = pages.into_iter().filter(|page| texts(page).iter().any(|text| text.text == id)).collect::<Vec<_>>();
        let text = flat(&all_text(&own));
        let (marks, meanings) = (text.matches('ᵐ').count(), text.matches("ᵐ from memory, not read").count());
        assert!(meanings == usize::from(marks > 0), "{id}: {text}");
        assert!(id != "1.1" || text.contains("2.48ᵐ"), "{text}");
    }
}

#[test]
fn the_margin_is_that_of_the_worst_case_and_the_worst_end_of_a_band_is_said() {
    let mut plan = synthetic(1, 1, 1, Verdict::Doubtful);
    plan.print = Print::Metric;
    plan.operations[0].answer.checks[0].judged = Some(Judged {
        got: 3.125,
        at_worst_end: 3.91,
        doubt: 0.1,
        limit: 3.5,
        keep: Keep::AtMost,
        margin: -0.71,
        unit: Unit::Um,
    });
    plan.operations[0].answer.checks[0].state = Outcome::Made(Verdict::Doubtful);
    let page = all_text(&worked_out(&plan));
    for figure in ["3.12 ± 0.10", "worst 4.01", "max 3.50", "worst 3.30", "−0.71", "worst margin"] {
        assert!(page.contains(figure), "{figure}: {page}");
    }
    let text = flat(&terminal::plans(&[plan]));
    let line = "3.12 ± 0.10 µm (worst 4.01 µm), max 3.50 µm (worst 3.30 µm), worst margin −0.71 µm";
    assert!(text.contains(line), "{text}");
}

#[test]
fn without_a_shop_the_stamp_says_what_was_not_judged() {
    let plan = common::plan(&JOB.replace("shop: shop.yaml\n", ""), None);
    let note = "no shop: machine, tools not judged";
    assert!(plan.operations.iter().all(|o| o.stamp_note.as_ref().is_some_and(|said| said.contains(note))));
    if plan.verdict() != Verdict::Fails {
        let lines = laid(&plan).iter().map(|page| flat(&all_text(std::slice::from_ref(page)))).collect::<Vec<_>>();
        assert!(lines.iter().all(|text| text.contains("no shop: machine")), "{lines:?}");
        assert!(terminal::plans(&[plan]).contains(note));
    }
    assert!(common::in_shop(JOB).operations.iter().all(|o| !o.stamp_note.as_deref().unwrap_or("").contains("no shop")));
}

/// The worked examples of every operation.
const EXAMPLES: [&str; 4] = [
    include_str!("../examples/face.yaml"),
    include_str!("../examples/skim.yaml"),
    include_str!("../examples/ream-bush.yaml"),
    include_str!("../examples/thread-insert.yaml"),
];

#[test]
fn every_must_that_was_not_made_is_on_the_first_sheet_and_the_stamp_is_never_better() {
    let mut seen = 0;
    for job in EXAMPLES {
        for shop in [None, Some(common::shop(include_str!("../examples/shop.yaml")))] {
            let plan = common::plan(job, shop.as_ref());
            for (at, planned) in plan.operations.iter().enumerate() {
                let worst = planned.answer.checks.iter().filter_map(Check::stamps).max().unwrap_or(Verdict::Proven);
                assert_eq!(planned.verdict, if planned.answer.refused.is_some() { Verdict::Fails } else { worst });
                let alone = Plan { operations: vec![planned.clone()], ..plan.clone() };
                let pages = laid(&alone);
                let number = format!("{}.1", 1);
                let first: Vec<Page> =
                    pages.iter().filter(|page| texts(page).iter().any(|t| t.text == number)).cloned().collect();
                let text = flat(&all_text(&first));
                let musts =
                    planned.answer.checks.iter().filter(|c| c.state == Outcome::NotChecked && c.weight == Weight::Must);
                for check in musts {
                    assert!(
                        text.contains(check.asks.split(' ').next().unwrap_or_default()),
                        "{at}: {}: {text}",
                        check.id
                    );
                    seen += 1;
                }
            }
        }
    }
    println!("{seen} checks not made");
}

#[test]
fn the_terminal_says_the_verdict_first_and_what_would_mend_the_next_length() {
    let text = terminal::plans(&[worked(Paper::A4, Print::Metric, as_it_is)]);
    assert!(text.starts_with("PROVEN: timing chest/thread-insert"), "{text}");
    let at = |piece: &str| text.find(piece).unwrap_or_else(|| panic!("no {piece}: {text}"));
    let fails = terminal::plans(&[worked(Paper::A4, Print::Metric, |job| job.replace("wall: 18.0", "wall: 14.0"))]);
    let mends = |piece: &str| fails.find(piece).unwrap_or_else(|| panic!("no {piece}: {fails}"));
    assert!(mends("What would make 1.5D hold") < fails.rfind("gives 2.52 mm").unwrap_or(0), "{fails}");
    assert!(at("metal_left") < at("Checks") && at("Checks") < at("Sheet 1.1") && at("Sheet 1.1") < at("Assumed"));
    assert!(text.ends_with("competent practice come first.\n"), "{text}");
}

/// A step with a cut of some passes.
fn step(number: usize, passes: usize) -> Step<String> {
    let cut = Cut {
        tool: format!("carbide bar {number}"),
        spindle: (!number.is_multiple_of(4)).then_some(12_500.0),
        feed: (!number.is_multiple_of(3)).then_some(0.0635),
        passes: (0..passes)
            .map(|at| Pass {
                kind: if at + 1 == passes { PassKind::Spring } else { PassKind::Rough },
                depth: 0.3,
                dial: Some(Dialled::Slide(Counted::of("top slide", 0.3 * at as f64, 0.02, Some(0.5)))),
                leaves: None,
            })
            .collect(),
        minutes: 2.5,
    };
    let words = format!("STEP{number}: face to the line, the carriage locked, from one side, the rest by micrometer.");
    Step { id: "face", words, cut: (!number.is_multiple_of(5)).then_some(cut), hold_point: None }
}

fn check(number: usize) -> Check<String> {
    let verdict = [Verdict::Proven, Verdict::Fails, Verdict::Doubtful][number % 3];
    let units = [Unit::Mm, Unit::N, Unit::DegC, Unit::RevPerMin];
    let judged = Judged {
        got: 12_345.678 / number as f64,
        at_worst_end: 12_345.678 / number as f64,
        doubt: 0.02,
        limit: 1.0,
        keep: if number.is_multiple_of(2) { Keep::AtLeast } else { Keep::AtMost },
        margin: if verdict == Verdict::Fails { -1.234 } else { 1.234 },
        unit: units[number % units.len()],
    };
    Check {
        id: format!("check-{number}").leak(),
        about: None,
        called: format!("check {number}"),
        asks: format!("CHECK{number}: metal left between the bore and the nearest edge of the casting"),
        judged: (!number.is_multiple_of(7)).then_some(judged),
        state: Outcome::Made(verdict),
        weight: Weight::Must,
        missing: Vec::new(),
        from_memory: false,
        remedy: (verdict != Verdict::Proven).then(|| "take less, or another tool".into()),
        remedies: vec![
            Remedy { words: "grind it: 0.050 mm".into(), gives: None };
            if verdict == Verdict::Fails { 4 } else { 0 }
        ],
        place: None,
        unfinished: None,
        of_every_set_up: false,
        of_those_behind: false,
        facts: Vec::new(),
        worked_from: None,
        other_ends: Vec::new(),
    }
}

fn section() -> Sketch {
    let mut sketch = Sketch::default();
    sketch
        .section(rectangle(-20.0, 0.0, 20.0, 18.0), 0)
        .axis(0.0, 0.0, 18.0)
        .line(Stroke::Visible, vec![Point::new(-20.0, 0.0), Point::new(20.0, 0.0)]);
    sketch
}

/// A plan that nobody would write: as many cuts, checks and blanks as asked for.
fn synthetic(steps: usize, checks: usize, blanks: usize, verdict: Verdict) -> Plan {
    let set_up = SetUp {
        id: "face",
        title: "Face the ring".into(),
        station: Station::Lathe,
        machine: "belt lathe".into(),
        hold: vec![HoldLine { balloon: Balloon::Grip, words: "Held in soft jaws bored to size.".into() }; 3],
        steps: (1..=steps).map(|number| step(number, 1 + number % 7)).collect(),
        sketch: section(),
        minutes: Some(95.0),
        rest: None,
        is_warm_now: false,
        tail: Some(Wait { minutes: 30.0, watched: false, holds: false }),
        pause: false,
        rigging: BTreeMap::new(),
        needs: Vec::new(),
        leaves: Vec::new(),
        checks: (1..=checks).map(|number| check(number).id).collect(),
        blanks: (1..=blanks)
            .map(|number| Blank {
                is_expected: false,
                log: None,
                words: format!("BLANK{number} over the faces"),
                as_found: Some(Fact::doubted(25.4, 0.004, Unit::Mm)),
                target: Some(Target::Between(Fact::mm(12_345.678), Fact::mm(12_345.698))),
                readings: 1,
                gauge: None,
            })
            .collect(),
        pulls: Vec::new(),
        lies: Vec::new(),
        cautions: vec!["Hard turning: glowing dry chips, no cotton.".into(); 1],
        told: None,
    };
    let mut failing: Answer<String> = Answer::default();
    failing.checks.push(check(1));
    let alternative = |number: usize| Alternative {
        name: format!("reamer {number}"),
        answer: failing.clone(),
        chosen: number == 2,
        why_not: Some("cuts over the limit by 0.004 mm".into()),
    };
    let mut answer: Answer<String> = Answer::default();
    answer.alternatives = (1..=blanks).map(alternative).collect();
    answer.checks = (1..=checks).map(check).collect();
    answer.set_ups = vec![set_up];
    answer.assumed = (1..=checks).map(|number| format!("ASSUMED{number} edge angle of the tool 90 degrees")).collect();
    answer.missing = (1..=blanks).map(|number| format!("MISSING{number} shim")).collect();
    let planned = Planned {
        may_be_logged: Vec::new(),
        sizes: Vec::new(),
        address: Address::of("distance ring", "face"),
        word: "face".into(),
        title: "Face".into(),
        does: "Faces.".into(),
        material: Some("case-hardened steel, 60 HRC".into()),
        note: None,
        verdict,
        spoilt: None,
        stamp_note: Some("for depth; strength not asked".into()),
        of_day: OfDay::default(),
        answer,
        in_one_unit: None,
        first: None,
    };
    Plan {
        no_longer: Vec::new(),
        nth: None,
        worked: Vec::new(),
        job: "Synthetic".into(),
        engine: None,
        date: None,
        shop: Some("Example bench".into()),
        print: Print::Both,
        paper: Paper::Letter,
        view: View::ThirdAngle,
        shop_of_day: None,
        own_order: None,
        written: setover::job::WrittenSizes::default(),
        operations: vec![planned],
    }
}

#[test]
fn long_lists_go_on_and_nothing_is_lost() {
    let pages = worked_out(&synthetic(40, 30, 20, Verdict::Doubtful));
    let text = all_text(&pages);
    let flat: String = text.split_whitespace().collect::<Vec<_>>().join(" ");
    let all = |word: &str, count: usize| (1..=count).map(|n| format!("{word}{n}")).collect::<Vec<_>>();
    for word in [all("STEP", 40), all("CHECK", 30), all("BLANK", 20), all("ASSUMED", 30), all("MISSING", 20)].concat() {
        assert!(flat.split([' ', ':']).any(|w| w == word), "{word} is there");
    }
    let own = laid(&synthetic(40, 30, 20, Verdict::Doubtful));
    for (at, page) in own.iter().enumerate() {
        let number = format!("page {} of {}", at + 1, own.len());
        assert!(texts(page).iter().any(|text| text.text == number), "{number}");
        assert!(texts(page).iter().any(|text| text.text == "distance ring"), "the strip on every page");
    }
    assert!(text.contains("Cuts, continued") && text.contains("Measure, continued"));
    assert!(text.contains("Checks, continued"), "on the working page");
}

#[test]
fn an_ordinary_bench_set_up_takes_one_page() {
    for paper in [Paper::A4, Paper::Letter] {
        let pages = laid(&worked(paper, Print::Metric, as_it_is));
        let second = pages.iter().filter(|page| texts(page).iter().any(|text| text.text == "1.2")).count();
        assert_eq!(second, 1, "{paper:?}");
    }
}

#[test]
fn an_operation_without_a_set_up_still_has_its_page() {
    let mut plan = synthetic(0, 2, 0, Verdict::Fails);
    plan.operations[0].answer.set_ups.clear();
    plan.operations[0].answer.refused = Some(Refusal::NotGiven { what: "the wall", key: "wall" });
    let text = all_text(&laid(&plan));
    assert!(text.contains("DO NOT") && text.contains("the wall"), "{text}");
}

#[test]
fn a_sketch_with_too_many_sizes_names_those_it_leaves_out() {
    let mut plan = synthetic(2, 1, 1, Verdict::Proven);
    let sketch = &mut plan.operations[0].answer.set_ups[0].sketch;
    for at in 0..60 {
        let y = 0.3 * f64::from(at);
        let (from, to) = (Point::new(20.0, y), Point::new(20.0, 18.0));
        sketch.items.push(Item::Dimension {
            from,
            to,
            side: Side::Right,
            faces: ["one", "other"],
            shortened: false,
            half: false,
            shows: Shows::value("depth"),
        });
    }
    let text = all_text(&laid(&plan));
    assert!(flat(&text).contains("No room in the sketch"), "{text}");
    assert!(text.contains("The sketch stands on its own page."));
}

#[test]
fn a_step_longer_than_a_page_goes_on() {
    let mut plan = synthetic(3, 1, 1, Verdict::Proven);
    let words: String = (0..2_000).map(|at| format!("W{at} ")).collect();
    for step in &mut plan.operations[0].answer.set_ups[0].steps {
        step.words = words.clone();
    }
    plan.operations[0].note = Some(words);
    let text = all_text(&worked_out(&plan));
    let mut times: BTreeMap<&str, usize> = BTreeMap::new();
    text.split_whitespace().for_each(|word| *times.entry(word).or_default() += 1);
    assert!((0..2_000).all(|at| times.get(format!("W{at}").as_str()).is_some_and(|times| *times >= 4)));
}

proptest! {
    #![proptest_config(seeds::config(24, "tests/regressions/sheets.txt"))]

    /// Names in any script a shop may type, of any length, and lists of any length.
    #[test]
    fn any_names_and_any_lists_make_pages_without_fault(
        names in proptest::collection::vec("[A-Za-zÀ-ÿΑ-ΡΣ-Ωα-ωА-я0-9 /().,;:'±Ø½-]{0,160}", 8),
        steps in 0_usize..14,
        checks in 0_usize..10,
        blanks in 0_usize..6,
        paper in prop_oneof![Just(Paper::A4), Just(Paper::Letter)],
        print in prop_oneof![Just(Print::Metric), Just(Print::Imperial), Just(Print::Both)],
    ) {
        let mut plan = synthetic(steps, checks, blanks, Verdict::Doubtful);
        (plan.paper, plan.print) = (paper, print);
        let mut names = names.into_iter();
        let mut next = || names.next().unwrap_or_default();
        (plan.job, plan.engine, plan.date, plan.shop) = (next(), Some(next()), Some(next()), Some(next()));
        let planned = &mut plan.operations[0];
        planned.address = Address::of(&next(), "face");
        planned.material = Some(next());
        planned.stamp_note = Some(next());
        planned.answer.set_ups[0].title = next();
        let pages = layout::pages_with(std::slice::from_ref(&plan), Working::All);
        prop_assert!(pages.is_ok(), "{}", pages.err().map(|fault| fault.to_string()).unwrap_or_default());
    }
}

/// The zones of both papers: left, top, right, bottom, mm.
const ZONES: [(&str, [f64; 4], [f64; 4]); 8] = [
    ("part", [12.0, 12.0, 91.0, 25.0], [12.0, 12.0, 94.0, 25.0]),
    ("id", [119.0, 12.0, 198.0, 25.0], [122.0, 12.0, 203.9, 25.0]),
    ("operation", [12.0, 26.0, 100.0, 48.0], [12.0, 26.0, 105.9, 48.0]),
    ("stamp", [102.0, 26.0, 198.0, 48.0], [107.9, 26.0, 203.9, 48.0]),
    ("sketch", [12.0, 55.0, 134.0, 125.0], [12.0, 55.0, 138.0, 115.0]),
    ("beside", [136.0, 55.0, 198.0, 125.0], [140.0, 55.0, 203.9, 115.0]),
    ("cuts", [12.0, 126.0, 198.0, 203.0], [12.0, 116.0, 203.9, 187.0]),
    ("measure", [12.0, 204.0, 198.0, 237.0], [12.0, 188.0, 203.9, 221.0]),
];

/// First pages of every set-up of the examples that may be cut, on a paper.
fn first_pages(paper: Paper, print: Print) -> Vec<Page> {
    let shop = Shop { paper, units: print, ..common::shop(include_str!("../examples/shop.yaml")) };
    let plans: Vec<Plan> = EXAMPLES.iter().map(|job| common::plan(job, Some(&shop))).collect();
    let pages = held(layout::pages(&plans).expect("pages"));
    let first = |page: &Page| texts(page).iter().any(|text| text.text.starts_with("page 1 of"));
    pages.into_iter().filter(|page| first(page)).collect()
}

#[test]
fn each_thing_stands_in_its_zone() {
    for (paper, print) in [(Paper::A4, Print::Metric), (Paper::Letter, Print::Imperial), (Paper::A4, Print::Both)] {
        let pages = first_pages(paper, print);
        assert!(pages.len() > 6);
        let mut raised = 0;
        for page in &pages {
            // A sketch that says as much in less room gives the steps what they need, by a whole step of the border.
            let of = |wanted: [f64; 4]| {
                let sketch = page.areas.iter().find(|area| area.name == "sketch");
                sketch.map_or(0.0, |sketch| ((wanted[3] - sketch.bounds.bottom) / 6.0).round().clamp(0.0, 4.0) * 6.0)
            };
            let (_, a4, letter) = ZONES.into_iter().find(|(name, ..)| *name == "sketch").expect("a sketch");
            let up = of(if paper == Paper::A4 { a4 } else { letter });
            raised += usize::from(up > 0.0);
            for (name, a4, letter) in ZONES {
                let mut wanted = if paper == Paper::A4 { a4 } else { letter };
                match name {
                    "sketch" | "beside" => wanted[3] -= up,
                    "cuts" => wanted[1] -= up,
                    _ => {}
                }
                let Some(area) = page.areas.iter().find(|area| area.name == name) else {
                    assert!(stamp_of(page).starts_with("DO NOT") && ["cuts", "measure"].contains(&name), "{name}");
                    continue;
                };
                let is = [area.bounds.left, area.bounds.top, area.bounds.right, area.bounds.bottom];
                let off = is.iter().zip(wanted).map(|(is, wanted)| (is - wanted).abs()).fold(0.0, f64::max);
                assert!(off <= 0.05, "{paper:?} {name}: {is:?}");
            }
            let stamp = texts(page).into_iter().find(|text| text.role == Role::Stamp).expect("a stamp");
            assert!((stamp.at.y - 39.2).abs() < 0.05 && (stamp.capital - 10.0).abs() < 1e-9, "{stamp:?}");
        }
        // Rather than that metal comes off behind what is measured.
        assert!(raised <= 3, "{raised} borders of {} on {paper:?} stand elsewhere", pages.len());
    }
}

/// Texts of an area of a page.
fn in_area<'a>(page: &'a Page, name: &str) -> Vec<&'a Text> {
    let all = page.marks.iter().filter(|mark| page.area_of(mark.area).is_some_and(|area| area.name == name));
    let texts = all.filter_map(|mark| match &mark.ink {
        Ink::Text(text) => Some(text),
        _ => None,
    });
    texts.collect()
}

#[test]
fn the_first_target_stands_where_the_eye_finds_it_and_as_high_as_spindle_and_dial() {
    let (mut targets, mut cells) = (0, 0);
    for paper in [Paper::A4, Paper::Letter] {
        let top = if paper == Paper::A4 { 204.0 } else { 188.0 };
        for page in first_pages(paper, Print::Metric) {
            for text in in_area(&page, "measure").into_iter().filter(|text| text.role == Role::Figure) {
                assert!((text.at.y - top - 17.6).abs() < 0.05, "{text:?}");
                targets += 1;
            }
            let figures: Vec<f64> = in_area(&page, "cuts")
                .into_iter()
                .filter(|text| text.role == Role::Figure)
                .map(|text| text.capital)
                .collect();
            assert!(figures.iter().all(|capital| (capital - 7.5).abs() < 1e-9), "{figures:?}");
            cells += figures.len();
        }
    }
    assert!(targets > 4 && cells > 4, "{targets} targets, {cells} figures in cells");
}

#[test]
fn a_working_page_stands_behind_the_sheets_where_it_is_asked_for() {
    let plan = worked(Paper::A4, Print::Metric, as_it_is);
    let ids = |pages: &[Page]| -> Vec<String> {
        let first = |page: &Page| in_area(page, "id").first().map(|text| text.text.clone());
        let mut ids: Vec<String> = pages.iter().filter_map(first).collect();
        ids.dedup();
        ids
    };
    assert_eq!(ids(&laid(&plan)), ["1.1", "1.2"]);
    assert_eq!(ids(&worked_out(&plan)), ["1.1", "1.2", "W1"]);
    let text = flat(&all_text(&worked_out(&plan)));
    for check in plan.operations[0].answer.checks.iter().filter(|check| check.verdict().is_some()) {
        assert!(text.contains(&flat(&check.asks)), "{}", check.asks);
    }
    assert!(plan.operations[0].answer.assumed.iter().all(|assumed| text.contains(&flat(assumed))));
}

/// A cut that is ended by measuring has no last figure for its dial: it is reckoned from the reading.
#[test]
fn a_cut_that_a_reading_ends_has_no_last_dial() {
    let mut plan = synthetic(1, 1, 1, Verdict::Proven);
    let steps = &mut plan.operations[0].answer.set_ups[0].steps;
    let mut last = step(1, 3);
    last.cut.as_mut().expect("a cut").passes[1].kind = PassKind::Finish;
    *steps = vec![
        Step { id: "measure-over-rim", words: "Measure over the rim.".into(), cut: None, hold_point: None },
        last.clone(),
    ];
    let with = flat(&all_text(&laid(&plan)));
    assert!(with.contains("− target") && with.contains("untouched"), "{with}");
    plan.operations[0].answer.set_ups[0].steps.remove(0);
    let without = flat(&all_text(&laid(&plan)));
    assert!(!without.contains("− target"), "{without}");
    let figures = |text: &str| text.matches(" div ").count();
    assert!(figures(&without) > 0);
}

/// Remedies that prove stand before those that do not, under their finding.
#[test]
fn ways_out_are_ordered_and_proven_ones_stand_first() {
    let plan = worked(Paper::A4, Print::Metric, |job| job.replace("wall: 18.0", "wall: 14.0"));
    let page = laid(&plan).remove(0);
    let text = in_area(&page, "ways out").into_iter().map(|text| text.text.as_str()).collect::<Vec<_>>().join(" ");
    let check = common::first(&plan).answer.checks.iter().find(|check| check.id == "break-through").expect("depth");
    let at = |remedy: &Remedy<String>| text.find(remedy.as_str()).unwrap_or_else(|| panic!("{}: {text}", remedy.words));
    let rank = |remedy: &Remedy<String>| remedy.gives.map_or(3, |verdict| verdict as u8);
    let mut remedies: Vec<(usize, u8)> = check.remedies.iter().map(|remedy| (at(remedy), rank(remedy))).collect();
    remedies.sort_unstable();
    assert!(remedies.len() > 3 && remedies[0].1 == 0, "{remedies:?}");
    assert!(remedies.is_sorted_by_key(|remedy| remedy.1), "{remedies:?}");
    assert!(text.contains("would prove it as asked"), "{text}");
    assert!(in_area(&page, "cuts").is_empty() && in_area(&page, "measure").is_empty());
}

/// The stamp is the worst verdict of the checks that a set-up owns, each check owned by the first that names it; a failure is
/// that of the whole operation.
#[test]
fn each_check_stamps_one_set_up() {
    let mut seen = [0; 3];
    for (job, change) in EXAMPLES.iter().flat_map(|job| [(job, ""), (job, "wall: 16.8"), (job, "wall: 14.0")]) {
        let job = if change.is_empty() { (*job).to_owned() } else { JOB.replace("wall: 18.0", change) };
        let plan = common::plan(&job, Some(&common::shop(include_str!("../examples/shop.yaml"))));
        for planned in &plan.operations {
            let alone = Plan { operations: vec![planned.clone()], ..plan.clone() };
            let pages = laid(&alone);
            let set_ups = &planned.answer.set_ups;
            for (at, _) in set_ups.iter().enumerate() {
                let owner = |check: &Check<String>| {
                    set_ups.iter().position(|set_up| set_up.checks.contains(&check.id)).unwrap_or(0)
                };
                let own =
                    planned.answer.checks.iter().filter(|check| owner(check) == at).filter_map(Check::stamps).max();
                let wanted = match own.unwrap_or(Verdict::Proven) {
                    _ if planned.verdict == Verdict::Fails => Verdict::Fails,
                    own => own,
                };
                let id = format!("1.{}", at + 1);
                let page =
                    pages.iter().find(|page| in_area(page, "id").iter().any(|text| text.text == id)).expect("its page");
                let stamp = stamp_of(page);
                let word = ["PROVEN", "DOUBTFUL", "DO NOT"][wanted as usize];
                assert!(stamp.starts_with(word), "{id} {stamp}, not {word}");
                seen[wanted as usize] += 1;
            }
        }
    }
    assert!(seen.iter().all(|count| *count > 0), "{seen:?}");
}

/// As many blanks as the step asks, the first of them on the first page.
#[test]
fn there_are_as_many_blanks_as_are_asked_for() {
    for job in EXAMPLES {
        let plan = common::plan(job, Some(&common::shop(include_str!("../examples/shop.yaml"))));
        for planned in plan.operations.iter().filter(|planned| planned.verdict != Verdict::Fails) {
            for set_up in planned.answer.set_ups.iter().filter(|set_up| !set_up.blanks.is_empty()) {
                let mut alone = planned.clone();
                alone.answer.set_ups = vec![set_up.clone()];
                let pages = laid(&Plan { operations: vec![alone], ..plan.clone() });
                let boxes = |page: &Page| {
                    let in_measure = |mark: &&setover::sheet::page::Mark| {
                        let named =
                            page.area_of(mark.area).is_some_and(|area| area.name.eq_ignore_ascii_case("measure"));
                        named && matches!(mark.ink, Ink::Polygon { fill: setover::sheet::page::Fill::None, .. })
                    };
                    page.marks.iter().filter(in_measure).count()
                };
                let counts: Vec<usize> = pages.iter().map(boxes).collect();
                assert!(counts[0] > 0, "on the first page");
                // The first with a target has a blank a reading, the others one at least.
                let first = set_up.blanks.iter().find(|blank| blank.target.is_some());
                let least = set_up.blanks.len() + first.map_or(0, |blank| blank.readings - 1);
                let asked: usize = set_up.blanks.iter().map(|blank| blank.readings).sum();
                let there = counts.iter().sum::<usize>();
                assert!((least..=asked).contains(&there), "{}: {there} of {asked}", set_up.title);
                // Where nothing is made there is the room for all of them.
                assert!(first.is_some() || there == asked, "{}: {there} of {asked}", set_up.title);
            }
        }
    }
}
