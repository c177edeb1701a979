//! What must hold of whatever is given: a size, a shop, a job, a card, the words of a command. Each is answered or refused at a
//! place, in words; nothing panics, nothing that is not finite comes out, and no verdict is better than its checks.
//!
//! These functions are the targets of the fuzzer in this folder, and `tests/fuzzed.rs` runs them over what the fuzzer kept.
#![allow(dead_code)]

use setover::handbook::{BoltClass, Fit, InsertLength, Material, Thread, ToolMaterial};
use setover::job::{Address, JobFile, Ledger};
use setover::lookup;
use setover::operations::{COMMON_CHECKS, Card, Registered, Request};
use setover::plan::{Cards, Plan, Planned, work};
use setover::proof::{At, Keep, Place, Verdict};
use setover::quantity::{
    Angle, Celsius, ClockTime, Date, Form, Hardness, KiloWatt, Kilogram, MPerMin, Measured, Minutes, Mm, MmPerRev,
    Moment, Newton, NewtonMetre, Print, Quantity, RevPerMin, Roughness, SpringRate, Steps, Stress, Tpi, Wanted,
    Weekdays, Written,
};
use setover::reading::{ARGUMENT, Node, Problem, Text, point};
use setover::sheet::{json, layout, terminal};
use setover::shop::Shop;
use std::fmt::Display;
use std::str::FromStr;
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
/// A card that is bent.
pub const CARD: &str = include_str!("../../ops/face.yaml");

/// A target by its name.
pub type Target = (&'static str, fn(&[u8]));

/// The targets by their names: what is tried with any bytes.
pub const TARGETS: [Target; 5] =
    [("size", size), ("shop", shop), ("job", job), ("card", card), ("arguments", arguments)];

/// A size, in every quantity, and whatever else is read out of one text.
pub fn size(bytes: &[u8]) {
    let Ok(text) = std::str::from_utf8(bytes) else { return };
    quantity::<Mm>(text);
    quantity::<Angle>(text);
    quantity::<Celsius>(text);
    quantity::<Newton>(text);
    quantity::<NewtonMetre>(text);
    quantity::<SpringRate>(text);
    quantity::<Stress>(text);
    quantity::<KiloWatt>(text);
    quantity::<Kilogram>(text);
    quantity::<MPerMin>(text);
    quantity::<MmPerRev>(text);
    quantity::<Minutes>(text);
    quantity::<RevPerMin>(text);
    quantity::<Roughness>(text);
    quantity::<Tpi>(text);
    read_or_said::<Hardness>(text);
    read_or_said::<Fit>(text);
    // A name that is not known is held against thousands: a run in eight is enough for those.
    if bytes.len().is_multiple_of(8) {
        read_or_said::<Thread>(text);
        read_or_said::<Material>(text);
        read_or_said::<BoltClass>(text);
    }
    read_or_said::<InsertLength>(text);
    read_or_said::<ToolMaterial>(text);
    read_or_said::<Address>(text);
    read_or_said::<Weekdays>(text);
    again::<ClockTime>(text);
    again::<Moment>(text);
    if let Ok(date) = text.parse::<Date>() {
        assert_eq!(date.plus(1).number(), date.number() + 1, "{text:?} is no day of the calendar");
        again::<Date>(text);
    }
    let steps = Node::text(Place::start(0), text).read::<Steps<RevPerMin>>();
    if let Ok(steps) = steps {
        let all: Vec<f64> = steps.iter().map(Quantity::number).collect();
        assert!(all.is_sorted() && all.iter().all(|step| step.is_finite()), "{text:?}: {all:?}");
    }
}

/// A size is finite with all that stands beside it, within its limits, and is the same when it is written out and read again.
fn quantity<Q: Quantity>(text: &str) {
    let written = match text.parse::<Written<Q>>() {
        Ok(written) => written,
        Err(fault) => return assert!(!fault.to_string().is_empty()),
    };
    let value = written.value.number();
    assert!(value.is_finite(), "{text:?}: {value}");
    assert!(written.grain.is_none_or(|grain| grain > 0.0 && grain.is_finite()), "{text:?}: {:?}", written.grain);
    match written.form {
        Form::Plain => assert!(value >= Q::LEAST, "{text:?}: {value}"),
        Form::PlusMinus(doubt) => assert!(doubt >= 0.0 && doubt.is_finite(), "{text:?}: {doubt}"),
        Form::Deviations(up, down) => {
            assert!(up >= 0.0 && down >= 0.0 && (up + down).is_finite(), "{text:?}: {up} {down}")
        }
        Form::Span(high) => assert!(high >= value && high.is_finite(), "{text:?}: {high}"),
    }
    if let Ok(measured) = text.parse::<Measured<Q>>() {
        assert!(measured.value.number() == value, "{text:?}");
        assert!(measured.plus_minus.is_none_or(|doubt| doubt >= 0.0 && doubt.is_finite()), "{text:?}: {measured:?}");
    }
    if let Ok(wanted) = text.parse::<Wanted<Q>>() {
        let (low, high) = (wanted.low.number(), wanted.high.number());
        assert!(low <= high && low.is_finite() && high.is_finite(), "{text:?}: {wanted:?}");
        assert!(low >= Q::LEAST, "{text:?}: {wanted:?}");
    }
    // The unit held is the first of its spellings or none.
    let unit = Q::SPELLINGS.iter().find(|spelling| (spelling.up, spelling.down, spelling.zero) == (1, 1, 0));
    let (before, unit) = (Q::BEFORE, unit.map_or("", |unit| unit.text));
    if let Ok(again) = format!("{before} {value} {unit}").parse::<Written<Q>>() {
        let same = (again.value.number() - value).abs() <= 1e-12 * value.abs();
        assert!(same, "{text:?} is {value}, and read again {}", again.value.number());
    }
}

/// What is not read is refused in words.
fn read_or_said<T: FromStr>(text: &str)
where
    T::Err: Display,
{
    if let Err(fault) = text.parse::<T>() {
        assert!(!fault.to_string().is_empty(), "{text:?} is refused without a word");
    }
}

/// What is read is the same when it is printed and read again.
fn again<T: FromStr + Display + PartialEq>(text: &str)
where
    T::Err: Display,
{
    match text.parse::<T>() {
        Ok(read) => assert!(read.to_string().parse::<T>().is_ok_and(|again| again == read), "{text:?} is {read}"),
        Err(fault) => assert!(!fault.to_string().is_empty(), "{text:?} is refused without a word"),
    }
}

/// A shop, and a job worked in it.
pub fn shop(bytes: &[u8]) {
    if let Ok(text) = std::str::from_utf8(bytes) {
        answered(JOBS[3], text, None, false);
    }
}

/// A job, worked in the shop of the examples.
pub fn job(bytes: &[u8]) {
    if let Ok(text) = std::str::from_utf8(bytes) {
        answered(text, SHOP, None, bytes.len().is_multiple_of(32));
    }
}

/// A card, and the job that takes its words: a slip in a card costs its words and no verdict gets better.
pub fn card(bytes: &[u8]) {
    let Ok(text) = std::str::from_utf8(bytes) else { return };
    if let Err(problems) = Card::read(text, 0) {
        told(&problems, &[("face.yaml", text)]);
    }
    let code = answered(JOBS[0], SHOP, Some(text), false);
    assert!(code < 2, "a card never costs the job: {text}");
}

/// The words of `try` and `book`, a line each: the operation or the topic first.
pub fn arguments(bytes: &[u8]) {
    let Ok(text) = std::str::from_utf8(bytes) else { return };
    let mut lines = text.lines();
    let Some(first) = lines.next() else { return };
    let words: Vec<String> = lines.map(str::to_owned).collect();
    if lookup::TOPICS.contains(&first) { looked_up(first, &words) } else { tried(first, &words) }
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
    if with_pages {
        let pdf = layout::pdf(plans);
        assert!(pdf.is_ok(), "{}: {given}", pdf.err().map(|fault| fault.to_string()).unwrap_or_default());
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
            shows(&[plan], job, with_pages);
            u8::from(fails)
        }
    }
}

fn tree(text: &str, source: u32) -> Result<Node, Vec<Problem>> {
    Node::yaml(text, Place::start(source)).map_err(|problem| vec![problem])
}

/// A shop that can be worked with; the one that was not bent is read once.
fn shop_of(text: &str) -> Result<Shop, Vec<Problem>> {
    static WHOLE: OnceLock<Shop> = OnceLock::new();
    if let Some(shop) = WHOLE.get().filter(|_| text == SHOP) {
        return Ok(shop.clone());
    }
    let shop: Shop = tree(text, 1)?.read()?;
    let wrong = shop.problems();
    if !wrong.is_empty() {
        return Err(wrong);
    }
    Ok(if text == SHOP { WHOLE.get_or_init(|| shop).clone() } else { shop })
}

fn worked(job: &str, shop: &str, card: Option<&str>) -> Result<Plan, Vec<Problem>> {
    let shop = shop_of(shop)?;
    let file = job;
    let job: JobFile<Request> = JobFile::read(tree(job, 0)?)?;
    let mut cards = built_in();
    if let Some(card) = card {
        cards.put_own("face", "ops/face.yaml".into(), card.into());
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
