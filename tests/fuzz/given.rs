//! What must hold of whatever is given: a size, a shop, a job, a card, the words of a command. Each is answered or refused at a
//! place, in words; nothing panics, nothing that is not finite comes out, and no verdict is better than its checks.
//!
//! These functions are the targets of the fuzzer in this folder, and `tests/fuzzed.rs` runs them over what the fuzzer kept.
#![allow(dead_code)]

mod logs;
mod sizes;

pub use logs::log;
use setover::job::{JobFile, Ledger};
use setover::lookup;
use setover::operations::{COMMON_CHECKS, Card, Registered, Request};
use setover::plan::day::{Asked, day};
use setover::plan::decide::decide;
use setover::plan::{Cards, Logged, Plan, Planned, work};
use setover::proof::{At, Keep, Place, Verdict};
use setover::quantity::Print;
use setover::reading::{ARGUMENT, Node, Problem, Text, harmless, point};
use setover::sheet::{decide_html, json, layout, terminal};
use setover::shop::Shop;
pub use sizes::size;
use std::sync::OnceLock;

/// Jobs that are bent.
pub const JOBS: [&str; 6] = [
    include_str!("../../examples/face.yaml"),
    include_str!("../../examples/skim.yaml"),
    include_str!("../../examples/ream-bush.yaml"),
    include_str!("../../examples/thread-insert.yaml"),
    include_str!("../../demo/tidewater.yaml"),
    include_str!("../fixtures/thread-insert.yaml"),
];
/// The shop that they are worked in.
pub const SHOP: &str = include_str!("../../examples/shop.yaml");
/// A larger shop, in which jobs of the fuzzer are worked.
const DEMO: &str = include_str!("../../demo/shop.yaml");
/// A card that is bent.
pub const CARD: &str = include_str!("../../ops/face.yaml");

/// A target by its name.
pub type Target = (&'static str, fn(&[u8]));

/// The targets by their names: what is tried with any bytes.
pub const TARGETS: [Target; 6] =
    [("size", size), ("shop", shop), ("job", job), ("card", card), ("arguments", arguments), ("log", log)];

/// A shop, and a job worked in it, as a day too.
pub fn shop(bytes: &[u8]) {
    let Ok(text) = std::str::from_utf8(bytes) else { return };
    let job = JOBS[bytes.len() % 4];
    let Ok(plan) = worked(job, text, None) else {
        answered(job, text, None, false);
        return;
    };
    shows(std::slice::from_ref(&plan), text, bytes.len().is_multiple_of(16));
    of_day(&[plan], text);
}

/// A job, worked in the shop of the demo; of the pages one kind a run.
pub fn job(bytes: &[u8]) {
    let Ok(text) = std::str::from_utf8(bytes) else { return };
    let Ok(plan) = worked(text, DEMO, None) else {
        answered(text, DEMO, None, false);
        return;
    };
    let plans = [plan];
    shows(&plans, text, bytes.len().is_multiple_of(4));
    match bytes.len() % 8 {
        1 => of_day(&plans, text),
        3 => {
            let shows = terminal::Shows { values: true, all: true, ..terminal::Shows::default() };
            says_figures(&terminal::answers(&plans, &shows).unwrap_or_default(), text);
        }
        5 => says_figures(&layout::html(&plans, layout::Working::All).expect("a page for a screen"), text),
        6 => layout::pictures(&plans).expect("pictures").iter().for_each(|svg| says_figures(svg, text)),
        7 => decided(text, &plans[0]),
        _ => {}
    }
}

/// The day of plans: found and told, or refused in words.
fn of_day(plans: &[Plan], given: &str) {
    match day(plans, &Asked { days: 1, ..Asked::default() }) {
        Ok(day) => says_figures(&terminal::day(&day, &terminal::Reasons::All).unwrap_or_default(), given),
        Err(problems) => told(&problems, &[("job.yaml", given), ("shop.yaml", given)]),
    }
}

/// What is decided over the parts of a job that was worked alone.
fn decided(text: &str, plan: &Plan) {
    let job = tree(text, 0).and_then(JobFile::<Request>::read).expect("read once");
    let shop = shop_of(DEMO).expect("shop");
    let counts = [(job.job.value.clone(), job.parts.iter().map(|part| part.operations.len()).sum::<usize>())];
    let log = Logged::default();
    match decide(&job, (plan, &counts), (Some(&shop), &built_in()), &log, Request::WORDS) {
        Ok(decided) => {
            says_figures(&terminal::decided(&decided), text);
            says_figures(&decide_html::decide_html(&decided), text);
        }
        Err(problems) => told(&problems, &[("job.yaml", text)]),
    }
}

/// No figure of a text is none: what is not finite has no words here but those that were given.
fn says_figures(text: &str, given: &str) {
    // A sign that hides in a word that was given is not said with it.
    let shown = harmless(given);
    let is_given = |word: &str| given.contains(word) || shown.contains(word);
    let is_none = |word: &&str| matches!(*word, "NaN" | "inf" | "infinity") && !is_given(word);
    let found = text.split(|c: char| !c.is_alphanumeric()).find(is_none);
    assert!(found.is_none(), "{found:?} stands in {text}: {given}");
}

/// A card, and the job that takes its words: a slip in a card costs its words and no verdict gets better.
pub fn card(bytes: &[u8]) {
    let Ok(text) = std::str::from_utf8(bytes) else { return };
    if let Err(problems) = Card::read(text, 0) {
        told(&problems, &[("face.yaml", text)]);
    }
    let job = Request::example(operation_of(text)).unwrap_or(JOBS[0]);
    let code = answered(job, SHOP, Some(text), bytes.len().is_multiple_of(8));
    assert!(code < 2, "a card never costs the job: {text}");
}

/// The words of a command line, one a line. The fuzzer runs them through the command line itself; `cargo test`, in whose build that
/// has no door, those of `try` and `book` through the library.
pub fn arguments(bytes: &[u8]) {
    let Ok(text) = std::str::from_utf8(bytes) else { return };
    let words: Vec<&str> = text.lines().collect();
    #[cfg(fuzzing)]
    commanded(&words);
    #[cfg(not(fuzzing))]
    if let [command, first, words @ ..] = words.as_slice() {
        let words: Vec<String> = words.iter().filter(|word| !word.starts_with("--")).map(ToString::to_string).collect();
        match *command {
            "try" => tried(first, &words),
            "book" => looked_up(first, &words),
            _ => {}
        }
    }
}

/// A command run in a folder that has a job with its shop, and answered with an exit code of ours.
#[cfg(fuzzing)]
fn commanded(words: &[&str]) {
    static THERE: OnceLock<()> = OnceLock::new();
    THERE.get_or_init(|| {
        let folder = std::env::temp_dir().join(format!("setover-fuzz-{}", std::process::id()));
        std::fs::create_dir_all(&folder).expect("a folder");
        std::fs::write(folder.join("job.yaml"), JOBS[1]).expect("a job");
        std::fs::write(folder.join("shop.yaml"), SHOP).expect("a shop");
        std::env::set_current_dir(folder).expect("a folder");
    });
    let given = words.join("\n");
    let (code, says) = setover::cli::fuzzing::run(words);
    assert!((0..=2).any(|known| std::process::ExitCode::from(known) == code), "{code:?} of {given:?}: {says}");
    assert!(!says.trim().is_empty() || code == std::process::ExitCode::SUCCESS, "{given:?} ends without a word");
    assert!(!says.contains(['\u{202e}', '\u{0}']), "{given:?}: {says:?}");
    assert!(!says.contains("a fault of this program"), "{given:?}: {says}");
    says_figures(&says, &given);
}

fn looked_up(topic: &str, words: &[String]) {
    let (keys, names): (Vec<String>, Vec<String>) = words.iter().cloned().partition(|word| word.contains('='));
    let name = (!names.is_empty()).then(|| At { value: names.join(" "), place: Place::start(1) });
    let texts: Vec<(&str, &str)> =
        [(ARGUMENT, topic)].into_iter().chain(keys.iter().map(|key| (ARGUMENT, key.as_str()))).collect();
    let keys = match Node::arguments(&keys, 1) {
        Ok(keys) => keys,
        Err(problems) => return told(&problems, &texts),
    };
    match lookup::open(&At { value: topic.to_owned(), place: Place::start(0) }, name, keys, None) {
        Ok(reply) => {
            let page = setover::sheet::lookup::text(&reply, Print::Both, true);
            assert!(!page.contains(LEADS), "{page}");
            assert!(!page.contains("NaN"), "{page}");
        }
        Err(problems) => told(&problems, &texts),
    }
}

fn tried(operation: &str, words: &[String]) {
    let place = Place::start(0);
    let texts: Vec<(&str, &str)> =
        [(ARGUMENT, operation)].into_iter().chain(words.iter().map(|word| (ARGUMENT, word.as_str()))).collect();
    let mut keys = match Node::arguments(words, 1) {
        Ok(keys) => keys,
        Err(problems) => return told(&problems, &texts),
    };
    let mut part = keys.take("part").unwrap_or_else(|| Node::map(place));
    part.insert("part", Node::text(place, "part"));
    let mut request = Node::map(place);
    request.insert(operation, keys);
    part.insert("operations", request.alone());
    let mut whole = Node::map(place);
    whole.insert("job", Node::text(place, "try"));
    whole.insert("parts", part.alone());
    let worked = JobFile::<Request>::read(whole).and_then(|job| {
        let shop = shop_of(SHOP)?;
        work(&job, Some(&shop), &built_in(), Ledger::default())
    });
    match worked {
        Ok(plan) => shows(&[plan], operation, false),
        Err(problems) => told(&problems, &texts),
    }
}

/// Signs that lead a terminal or a reader's eye.
const LEADS: [char; 3] = ['\u{1b}', '\u{202e}', '\u{0}'];

/// Problems, each with words that can be shown.
fn told(problems: &[Problem], texts: &[(&str, &str)]) {
    let texts: Vec<Text> =
        texts.iter().map(|(name, text)| Text { name: (*name).into(), text: (*text).into() }).collect();
    assert!(!problems.is_empty(), "refused without a word: {texts:?}");
    for problem in problems {
        let says = point(problem, &texts, false);
        assert!(!says.is_empty() && !says.contains(LEADS), "{says:?}");
    }
}

/// Every output of plans is made, and leads nobody.
fn shows(plans: &[Plan], given: &str, with_pages: bool) {
    let faults: Vec<String> = plans
        .iter()
        .flat_map(|plan| &plan.operations)
        .filter_map(|operation| Some(operation.answer.refused.as_ref()?.to_string()))
        .collect();
    assert!(faults.iter().all(|why| !why.contains("a fault of this program")), "{faults:?}: {given}");
    assert!(serde_json::to_string(&json::output(plans)).is_ok());
    let text = terminal::plans(plans);
    assert!(!text.contains(LEADS));
    says_figures(&text, given);
    plans.iter().for_each(|plan| finite(plan, given));
    // What asks for no operation has no sheet.
    if with_pages && plans.iter().any(|plan| !plan.operations.is_empty()) {
        let pdf = layout::pdf(plans);
        assert!(pdf.is_ok(), "{}: {given}", pdf.err().map(|fault| fault.to_string()).unwrap_or_default());
    }
}

/// Every figure of a plan is finite, also where no page shows it.
fn finite(plan: &Plan, given: &str) {
    for operation in &plan.operations {
        let answer = &operation.answer;
        for value in answer.values.iter().chain(answer.alternatives.iter().flat_map(|one| &one.answer.values)) {
            let is_figure = value.number.is_finite() && value.plus_minus.is_finite() && value.plus_minus >= 0.0;
            assert!(is_figure, "{}: {value:?}: {given}", operation.address);
        }
        for set_up in &answer.set_ups {
            let minutes = set_up.minutes.is_none_or(f64::is_finite) && set_up.by_itself().is_finite();
            assert!(minutes, "{}: minutes of {}: {given}", operation.address, set_up.id);
        }
    }
}

fn built_in() -> Cards {
    static CARDS: OnceLock<Cards> = OnceLock::new();
    CARDS.get_or_init(|| Cards::built_in(Request::WORDS.iter().copied()).expect("cards")).clone()
}

/// Works a job as the program does; the exit code.
pub fn answered(job: &str, shop: &str, card: Option<&str>, with_pages: bool) -> u8 {
    match worked(job, shop, card) {
        Err(problems) => {
            told(&problems, &[("job.yaml", job), ("shop.yaml", shop)]);
            problems
                .iter()
                .for_each(|problem| assert!(problem.place.is_some(), "{} has no place: {job}", problem.says));
            2
        }
        Ok(plan) => {
            let fails = plan.verdict() == Verdict::Fails;
            // Whatever word was given may be said again.
            shows(&[plan], &[job, shop, card.unwrap_or_default()].concat(), with_pages);
            u8::from(fails)
        }
    }
}

fn tree(text: &str, source: u32) -> Result<Node, Vec<Problem>> {
    Node::yaml(text, Place::start(source)).map_err(|problem| vec![problem])
}

/// A shop that can be worked with; those that were not bent are read once.
fn shop_of(text: &str) -> Result<Shop, Vec<Problem>> {
    static WHOLE: [OnceLock<Shop>; 2] = [const { OnceLock::new() }; 2];
    let kept = [SHOP, DEMO].iter().position(|whole| *whole == text).map(|at| &WHOLE[at]);
    if let Some(shop) = kept.and_then(OnceLock::get) {
        return Ok(shop.clone());
    }
    let shop: Shop = tree(text, 1)?.read()?;
    let wrong = shop.problems();
    if !wrong.is_empty() {
        return Err(wrong);
    }
    Ok(kept.map_or_else(|| shop.clone(), |kept| kept.get_or_init(|| shop.clone()).clone()))
}

/// The operation that a card names, where there is one of that name; else that of the card that is bent elsewhere.
fn operation_of(card: &str) -> &'static str {
    let named = card.lines().find_map(|line| line.strip_prefix("operation:")).unwrap_or_default().trim();
    Request::WORDS.iter().find(|word| **word == named).copied().unwrap_or("face")
}

fn worked(job: &str, shop: &str, card: Option<&str>) -> Result<Plan, Vec<Problem>> {
    let shop = shop_of(shop)?;
    let file = job;
    let job: JobFile<Request> = JobFile::read(tree(job, 0)?)?;
    let mut cards = built_in();
    if let Some(card) = card {
        let word = operation_of(card);
        cards.put_own(word, format!("ops/{word}.yaml"), card.into());
    }
    let plan = work(&job, Some(&shop), &cards, Ledger::default())?;
    for (request, planned) in job.parts.iter().flat_map(|part| &part.operations).zip(&plan.operations) {
        hold(request, planned, file);
    }
    Ok(plan)
}

/// No check vanishes, no stamp is better than its worst check, no check is better than its worst-case margin.
fn hold(request: &Request, planned: &Planned, job: &str) {
    for rule in request.declared_checks().iter().chain(&COMMON_CHECKS) {
        let count = planned.answer.checks.iter().filter(|check| check.id == rule.id).count();
        assert!(
            count == 1 || (count > 1 && rule.id == "order-of-operations"),
            "{} stands {count} times: {job}",
            rule.id
        );
    }
    let worst = planned.answer.checks.iter().filter_map(|check| check.stamps()).max().unwrap_or(Verdict::Proven);
    assert!(planned.verdict >= worst, "{:?} with a check that is {worst:?}: {job}", planned.verdict);
    assert!(planned.answer.refused.is_none() || planned.verdict == Verdict::Fails, "refused and not failing: {job}");
    for check in &planned.answer.checks {
        let Some(judged) = check.judged else { continue };
        let middle = match judged.keep {
            Keep::AtLeast => judged.got - judged.limit,
            Keep::AtMost => judged.limit - judged.got,
        };
        let noise = 1e-9 * (1.0 + judged.got.abs() + judged.limit.abs());
        assert!(
            judged.margin <= middle - judged.doubt + noise,
            "{}: a margin better than the worst case: {job}",
            check.id
        );
        assert!(
            check.verdict() != Some(Verdict::Proven) || judged.margin >= 0.0,
            "{} is proven at {}: {job}",
            check.id,
            judged.margin
        );
        assert!(judged.margin.is_finite() && judged.doubt >= 0.0, "{}: {judged:?}: {job}", check.id);
    }
}
