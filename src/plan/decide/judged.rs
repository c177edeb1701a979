//! Judging a feature that was inspected.

use super::frame::{Limit, Line, Size, Why};
use super::ground::{Ground, SAME, remedies_of};
use super::later::{Last, cut_since, has_come_back, last};
use super::mends::{BEFORE, BEFORE_OF_NO_SIZE, after};
use super::rebored::{Rebored, rebored};
use super::rests::{is_found, only_measures, rests_on};
use crate::handbook::constants::row;
use crate::handbook::remedies;
use crate::handbook::wear::{self, ReadWith, Wears};
use crate::job::{Address, Found, Inspected, PartFacts, Reading, feature_key};
use crate::operations::{Answer, Bench, CANNOT_READ, OfPart, PartSize};
use crate::plan::Planned;
use crate::plan::together::stale::Cut;
use crate::proof::{At, Cause, Check, Keep, Origin, Outcome, Refusal, Verdict, Words, Worked};
use crate::quantity::{Measured, Mm, Quantity};
use crate::shop::{Gauge, Shop, doubt_of_reading};

/// How a feature stands.
pub(super) struct Judged {
    /// What was found, of several the one that judges.
    pub found: Option<Size>,
    /// Its limits.
    pub limits: Vec<Limit>,
    /// How far inside it is at the worst end.
    pub margin: Option<f64>,
    /// How it stands.
    pub verdict: Option<Verdict>,
    /// Why.
    pub why: Vec<Why>,
    /// What was assumed of its readings, as texts of the common card.
    pub assumed: Vec<Words>,
}

/// One reading against one limit.
struct OfReading {
    size: Size,
    check: Check,
    with: Option<String>,
    rests_on: Option<Why>,
}

/// The id of the check of a feature.
const SERVICE: &str = "service";

/// Judges a feature at the worst of its readings against each of its limits.
pub(super) fn judged(ground: &Ground, part: &PartFacts, of: &Inspected) -> Judged {
    let limits: Vec<Limit> = of.service.value.limits().iter().map(|(keep, limit)| limit_of(*keep, *limit)).collect();
    let none = |why: Why, assumed| Judged {
        found: None,
        limits: limits.clone(),
        margin: None,
        verdict: None,
        why: vec![why],
        assumed,
    };
    if of.found.value == Found::NotMeasured {
        return none(Why::NotMeasured, Vec::new());
    }
    let found = Found::readings(&of.found);
    let mut readings: Vec<At<Reading>> =
        found.iter().map(|at| At { value: (*at.value).clone(), place: at.place }).collect();
    // What was read of the part as it came says nothing of it any more: typed here, or found by the operation that was done.
    let as_it_came = |reading: &At<Reading>, of: &Address| match reading.value.address() {
        Some(address) => address.owner() == *of && is_found(ground, address),
        None => true,
    };
    let is_of_it = |cut: &Cut| readings.iter().any(|reading| as_it_came(reading, &cut.of));
    if let Some(cut) = done_since(ground, part, of, &readings, is_of_it) {
        match left_by(ground, cut, of, &readings) {
            Some(value) => {
                let place = of.found.place;
                readings = vec![At { value: Reading::Of(At { value: cut.of.value(value), place }), place }];
            }
            None => {
                let left = may_be_meant(ground, cut, &readings);
                return none(done(of, cut, ground.line(cut), left), Vec::new());
            }
        }
    }
    // What another operation went on from says nothing of it any more either.
    let mut left_last = None;
    for reading in &mut readings {
        let place = reading.place;
        match reading.value.address().and_then(|address| last(ground, address)) {
            Some(Last::Left(value, cut)) => {
                left_last = Some(Why::LeftLast(cut.of.to_string(), ground.line(cut)));
                reading.value = Reading::Of(At { value, place });
            }
            Some(Last::Unknown(cut)) => {
                return none(Why::DoneSince(cut.of.to_string(), ground.line(cut), None), Vec::new());
            }
            None => {}
        }
    }
    let mut answer = Answer::default();
    let mut all = Vec::new();
    for reading in readings {
        match read(ground, part, of, &reading, &mut answer) {
            Ok(of_reading) => all.extend(of_reading),
            Err(refusal) => return none(Why::NotWorked(refusal.to_string()), answer.assumed),
        }
    }
    let margin = |one: &OfReading| one.check.judged.map_or(f64::NEG_INFINITY, |judged| judged.margin);
    let worse =
        |a: &OfReading, b: &OfReading| a.check.verdict().cmp(&b.check.verdict()).then(margin(b).total_cmp(&margin(a)));
    let more = all.iter().filter_map(|one| more_than_new(one.size, of, &limits)).fold(None, greater);
    let sizes: Vec<Size> = all.iter().map(|one| one.size).collect();
    let Some(worst) = all.into_iter().max_by(worse) else { return none(Why::NotMeasured, answer.assumed) };
    let verdict = worst.check.verdict();
    if let Some(rebored) = rebored(ground, part, of, &sizes).filter(|_| verdict != Some(Verdict::Proven)) {
        let Rebored { found, verdict, why } = rebored;
        let (limits, assumed) = (Vec::new(), answer.assumed);
        return Judged { found: Some(found), limits, margin: None, verdict, why, assumed };
    }
    let asks = more.map(Why::MoreThanNew).or_else(|| is_far_off(worst.size, of, &limits).then_some(Why::FarOff));
    let came = !worst.size.as_left && Found::readings(&of.found).iter().any(|at| at.value.address().is_none());
    let moved = || came.then(|| moved_by(ground, part, of))?;
    let more = || came.then(|| read_wrong(ground, part, of, &worst.size))?;
    let asks = asks.or_else(|| against_wear(of, &limits)).or_else(moved).or_else(more);
    if let Some(why) = asks.filter(|_| verdict == Some(Verdict::Proven)) {
        let margin = worst.check.judged.map(|judged| judged.margin);
        let (verdict, why) = (Some(Verdict::Doubtful), vec![why]);
        return Judged { found: Some(worst.size), limits, margin, verdict, why, assumed: answer.assumed };
    }
    let middle = worst.check.judged.map_or(0.0, |judged| judged.inside(judged.got, judged.limit));
    let mut why = vec![match verdict {
        Some(Verdict::Proven) => Why::Inside,
        Some(Verdict::Doubtful) => worst.rests_on.clone().unwrap_or(Why::MiddleInside(middle)),
        _ => Why::Outside(-middle),
    }];
    if verdict == Some(Verdict::Fails) {
        why.extend(worst.rests_on.clone());
    }
    if verdict == Some(Verdict::Doubtful) && worst.rests_on.is_none() {
        why.push(measure_with(ground, &of.feature.value, &worst, middle));
    }
    why.extend(left_last);
    Judged {
        found: Some(worst.size),
        limits,
        margin: worst.check.judged.map(|judged| judged.margin),
        verdict,
        why,
        assumed: answer.assumed,
    }
}

/// By how much a feature has more metal than when it was new, beyond its doubt: nothing wears that way. Where it has limits on both
/// sides nobody knows which way is wear.
fn more_than_new(found: Size, of: &Inspected, limits: &[Limit]) -> Option<f64> {
    let (new, [limit]) = (of.new.as_ref()?, limits) else { return None };
    let more = match limit.keep {
        Keep::AtLeast => found.number - new.high.number(),
        Keep::AtMost => new.low.number() - found.number,
    };
    (more > found.plus_minus).then_some(more)
}

/// Whether a size is so many times the least that it may be that a slip of the decimal point is likelier, and nobody says how large a new
/// one is.
fn is_far_off(found: Size, of: &Inspected, limits: &[Limit]) -> bool {
    let (None, [Limit { keep: Keep::AtLeast, number, .. }]) = (&of.new, limits) else { return false };
    row("found-far-off").is_ok_and(|times| *number > 0.0 && found.number > times.value * number)
}

/// Said where the only limit stands on the side to which a feature of such a name does not wear: a bore that must be `at least` so large
/// is inside however worn it is.
fn against_wear(of: &Inspected, limits: &[Limit]) -> Option<Why> {
    let [limit] = limits else { return None };
    let wears_away = match limit.keep {
        Keep::AtLeast => Wears::Larger,
        Keep::AtMost => Wears::Smaller,
    };
    (wear::way(&of.feature.value) == Some(wears_away)).then_some(Why::AgainstWear(limit.keep))
}

fn greater(one: Option<f64>, other: f64) -> Option<f64> {
    Some(one.map_or(other, |one| one.max(other)))
}

/// Said where it was read before a cut that found it so, or after one and has more metal than that left.
fn read_wrong(ground: &Ground, part: &PartFacts, of: &Inspected, found: &Size) -> Option<Why> {
    let (feature, size) = (feature_key(&of.feature.value), (found.number, found.plus_minus));
    if let Some(cut) = cut_since(ground, (&part.name, &feature), size, |cut| !is_newer(of, cut)) {
        return Some(Why::DoneSince(cut.of.to_string(), ground.line(cut), None));
    }
    let (cut, left) = has_come_back(ground, (&part.name, &feature), size, |cut| is_newer(of, cut))?;
    Some(Why::CameBack(cut.of.to_string(), ground.line(cut), left))
}

/// What was done to a feature since it was read as it came: the log tells of an operation that puts it right, that works on it, that
/// goes by the very same reading, or that cut a face which may be this one. `is_of_it` says of which cut it is a reading from before.
fn done_since<'a>(
    ground: &Ground<'a>,
    part: &PartFacts,
    of: &Inspected,
    readings: &[At<Reading>],
    is_of_it: impl Fn(&Cut) -> bool,
) -> Option<&'a Cut> {
    let (remedies, key) = (remedies_of(of), feature_key(&of.feature.value));
    let is_face = remedies::is_plane(&of.feature.value);
    let works_on_it = |planned: &Planned| {
        let named = planned.of_day.wish.feature.as_ref();
        // One that names another feature does nothing for this one by its word alone.
        let by_word = || named.is_none() && remedies.contains(&planned.word.as_str());
        let by_face = || named.is_none() && is_face && cuts_a_face(planned);
        let by_name = named.is_some_and(|at| at.value.key() == key) || feature_key(&planned.address.operation) == key;
        by_name || by_word() || by_face() || readings.iter().any(|reading| was_read_so(planned, &reading.value))
    };
    let of_part = ground.cuts.iter().filter(|cut| cut.of.part == part.name && cut.is_done() && !is_newer(of, cut));
    let mut done = of_part.filter(|cut| {
        let planned = ground.plan.operations.iter().find(|planned| planned.address == cut.of);
        planned.is_some_and(works_on_it) && is_of_it(cut)
    });
    done.next_back()
}

/// Whether an operation cuts a face of its part.
fn cuts_a_face(planned: &Planned) -> bool {
    let leaves = planned.sizes.iter().any(|(_, of)| *of == OfPart::Leaves(PartSize::Faces));
    leaves || planned.answer.value("metal_to_lap").is_some()
}

/// What moves a size that was read on the parts as they came: the operation that puts it right goes by what a cut leaves (a float by the
/// collar that is faced), and it was not read after that cut.
fn moved_by(ground: &Ground, part: &PartFacts, of: &Inspected) -> Option<Why> {
    let (remedies, key) = (remedies_of(of), feature_key(&of.feature.value));
    let is_for_it = |planned: &Planned| {
        let named = planned.of_day.wish.feature.as_ref().is_none_or(|at| at.value.key() == key);
        planned.address.part == part.name && named && remedies.contains(&planned.word.as_str())
    };
    let puts_right = ground.plan.operations.iter().zip(ground.named).filter(|(planned, _)| is_for_it(planned));
    puts_right.flat_map(|(_, named)| &named.addresses).find_map(|address| {
        let owner = address.value.owner();
        let by = ground.plan.operations.iter().find(|planned| planned.address == owner)?;
        let read_since = ground.cuts.iter().any(|cut| cut.of == owner && is_newer(of, cut));
        let cuts = !only_measures(by) && !is_found(ground, &address.value);
        (cuts && !read_since).then(|| Why::MovedBy(owner.to_string()))
    })
}

/// Said of what was read before a cut was done, or on its very day.
fn done(of: &Inspected, cut: &Cut, line: Line, left: Option<String>) -> Why {
    let is_of_one_day = of.measured.as_ref().map(|at| at.value).zip(cut.date).is_some_and(|(read, cut)| read == cut);
    let say = if is_of_one_day { Why::OfOneDay } else { Why::DoneSince };
    say(cut.of.to_string(), line, left)
}

/// Whether it was measured after a day on which the log tells of a cut.
fn is_newer(of: &Inspected, cut: &Cut) -> bool {
    of.measured.as_ref().map(|at| at.value).zip(cut.date).is_some_and(|(measured, cut)| measured > cut)
}

/// What of the log may be meant where it is read again: what the operation leaves of a size that is as large as the one that was found.
fn may_be_meant(ground: &Ground, cut: &Cut, readings: &[At<Reading>]) -> Option<String> {
    let planned = ground.plan.operations.iter().find(|planned| planned.address == cut.of)?;
    let [At { value: Reading::Size { size, .. }, .. }] = readings else { return None };
    let after = after(&planned.answer, Some(size.value.number()))?;
    let left = cut.keys.contains(&after.key).then(|| cut.of.value(after.key))?;
    match last(ground, &left) {
        None => Some(left.to_string()),
        Some(Last::Left(left, _)) => Some(left.to_string()),
        Some(Last::Unknown(_)) => None,
    }
}

/// The value by which the log tells what was left of the very thing that was found here: the finding is that one now. The operation
/// must be of this feature or of none that is named; it found it itself (`flat_found`, `flat_after`), or it goes by the same reading
/// (`length`) or the same limits (a float).
fn left_by(ground: &Ground, cut: &Cut, of: &Inspected, readings: &[At<Reading>]) -> Option<&'static str> {
    let planned = ground.plan.operations.iter().find(|planned| planned.address == cut.of)?;
    let named = planned.of_day.wish.feature.as_ref();
    if named.is_some_and(|named| named.value.key() != feature_key(&of.feature.value)) {
        return None;
    }
    let [reading] = readings else { return None };
    let after = match &reading.value {
        Reading::Of(at) => {
            let found = at.value.value.as_deref()?;
            let after = after(&planned.answer, None)?;
            (found.strip_suffix("_found")? == after.key.strip_suffix("_after")?).then_some(after)?
        }
        Reading::Size { size, .. } => {
            let found = size.value.number();
            let after = after(&planned.answer, Some(found))?;
            (was_read_so(planned, &reading.value) || has_limits(planned, after.key, of)).then_some(after)?
        }
    };
    cut.keys.contains(&after.key).then_some(after.key)
}

/// Whether an operation goes by the very same reading.
fn was_read_so(planned: &Planned, reading: &Reading) -> bool {
    let Reading::Size { size, .. } = reading else { return false };
    let before = BEFORE.iter().chain(&BEFORE_OF_NO_SIZE).filter_map(|key| planned.answer.value(key));
    before.into_iter().any(|value| (value.number - size.value.number()).abs() < SAME)
}

/// Whether the operation holds what it leaves to limits of the feature, and to no others; of two it keeps the worse.
fn has_limits(planned: &Planned, key: &str, of: &Inspected) -> bool {
    let own = planned.answer.checks.iter().filter(|check| check.about == Some(key)).filter_map(|check| check.judged);
    let own: Vec<_> = own.collect();
    let is_of = |judged: &&crate::proof::Judged| {
        let same = |limit: &Mm| (judged.limit - limit.number()).abs() < SAME;
        of.service.value.limits().iter().any(|(keep, limit)| judged.keep == *keep && same(limit))
    };
    !own.is_empty() && own.iter().all(|judged| is_of(&judged))
}

fn limit_of(keep: Keep, limit: Mm) -> Limit {
    Limit { keep, number: limit.number(), unit: Mm::UNIT }
}

/// One reading against every limit.
fn read(
    ground: &Ground,
    part: &PartFacts,
    of: &Inspected,
    reading: &At<Reading>,
    answer: &mut Answer,
) -> Result<Vec<OfReading>, Refusal> {
    let address = Address::of(&part.name, &of.feature.value);
    let bench = Bench::new(ground.shop, part, &address, ground.ledger);
    let (size, with) = match &reading.value {
        Reading::Size { size, with, .. } => (Some(size), with.as_ref().map(|name| name.value.clone())),
        Reading::Of(_) => (None, None),
    };
    let mut own = Answer::default();
    let at = reading.clone();
    // What sort of size a feature is its name alone may say: of an instrument that was named only its range can be judged.
    let unnamed = size.filter(|_| with.is_none());
    let by_name = gauge_of(&of.feature.value);
    let gauge =
        unnamed.map_or(Ok(Gauge::FromCentre), |size| by_name.map_or_else(|| worst_gauge(ground.shop, size), Ok))?;
    let read = match own.read(&bench, "found", gauge, &at) {
        // A small difference may have a doubt of its own size.
        Err(Refusal::Unread { doubt, .. }) => match (reading.value.address(), size) {
            (Some(address), _) => {
                let handed = bench.handed::<Mm>(address)?;
                let own = handed.plus_minus() > 0.0;
                Some(if own { handed } else { handed.with_doubt(Cause::Reading(reading.place), doubt) })
            }
            (None, size) => size.map(|size| {
                Worked::exact(size.value, Origin::Typed(reading.place)).with_doubt(Cause::Reading(reading.place), doubt)
            }),
        },
        other => Some(other?),
    };
    let Some(mut read) = read else { return Ok(Vec::new()) };
    // A nought has the doubt that was typed with it.
    if let Some(typed) = size.and_then(|size| size.plus_minus).filter(|_| read.plus_minus() <= 0.0) {
        read = read.with_doubt(Cause::Reading(reading.place), typed);
    }
    let told = |id: &str| own.checks.iter().any(|check| check.remedies.iter().any(|remedy| remedy.id == id));
    let rests_on = match (told("say-how-warm-the-gauge-was"), &with) {
        (true, _) => Some(Why::RestsOn("how warm the gauge was, which nobody said".to_owned())),
        (_, Some(name)) if told(CANNOT_READ) => Some(Why::RestsOn(format!("{name}, which does not reach that size"))),
        (_, Some(name)) if is_of_another_kind(ground, of, name, read.number()) => {
            Some(Why::RestsOn(format!("{name}, which cannot have read that, by its kind")))
        }
        _ => rests_on(ground, &at.value),
    };
    let left = at.value.address().and_then(|address| ground.ledger.get(address)).is_some_and(|entry| entry.as_left);
    own.assumed.into_iter().for_each(|words| answer.assume_words(words));
    let size = Size { number: read.number(), plus_minus: read.plus_minus(), unit: Mm::UNIT, as_left: left };
    let judge = |(keep, limit): &(crate::proof::Keep, Mm)| {
        let limit = Worked::exact(*limit, Origin::Typed(of.service.place));
        let check = Check::judge(SERVICE, &read, *keep, &limit, bench.guard());
        let check = if rests_on.is_some() { doubtful_at_best(check) } else { check };
        OfReading { size, check, with: with.clone(), rests_on: rests_on.clone() }
    };
    Ok(of.service.value.limits().iter().map(judge).collect())
}

/// Whether a feature that wears away was read by a gauge for bores, or one that wears open by one for outsides. An indicator, a depth
/// gauge or a feeler may have read either.
fn is_of_another_kind(ground: &Ground, of: &Inspected, name: &str, size: f64) -> bool {
    let Some(instrument) = ground.shop.and_then(|shop| shop.instrument(name)) else { return false };
    let may_have_read = |gauge| instrument.may_have_read(size.abs(), gauge);
    match wear::way(&of.feature.value) {
        Some(Wears::Larger) => may_have_read(Gauge::Outside) && !may_have_read(Gauge::Inside),
        Some(Wears::Smaller) => may_have_read(Gauge::Inside) && !may_have_read(Gauge::Outside),
        Some(Wears::Neither) | None => false,
    }
}

fn doubtful_at_best(check: Check) -> Check {
    match check.state {
        Outcome::Made(Verdict::Proven) => Check { state: Outcome::Made(Verdict::Doubtful), ..check },
        _ => check,
    }
}

/// Where nobody says what it was read with, nor what sort of size it is: the sort whose reading is the least sure, by the shop's
/// default instrument for it or, where it has none, by the last digit.
fn worst_gauge(shop: Option<&Shop>, size: &Measured<Mm>) -> Result<Gauge, Refusal> {
    let mut worst = (Gauge::FromCentre, f64::NEG_INFINITY);
    for gauge in [Gauge::Outside, Gauge::Inside, Gauge::Depth, Gauge::Indicator] {
        let (doubt, _) = doubt_of_reading(shop, size, None, gauge)?;
        if doubt > worst.1 {
            worst = (gauge, doubt);
        }
    }
    Ok(worst.0)
}

/// The sort of size that a feature of such a name is.
fn gauge_of(feature: &str) -> Option<Gauge> {
    Some(match wear::read_with(feature)? {
        ReadWith::Outside => Gauge::Outside,
        ReadWith::Inside => Gauge::Inside,
        ReadWith::Depth => Gauge::Depth,
        ReadWith::Indicator => Gauge::Indicator,
    })
}

/// How well it must be measured to know, and the first instrument of the shop of the same kind that does.
fn measure_with(ground: &Ground, feature: &str, worst: &OfReading, middle: f64) -> Why {
    let guard = ground.shop.map_or_else(crate::handbook::constants::guard_factor, |shop| shop.habits.guard());
    let wanted = middle * 2.0 / guard;
    if wanted < crate::handbook::constants::row("no-gauge-reads-to").map_or(0.0, |row| row.value) {
        return Why::OnTheLimit;
    }
    let size = worst.size.number.abs();
    let named = worst.with.as_ref().and_then(|name| ground.shop?.instrument(name));
    let kinds: Vec<Gauge> = match named {
        Some(named) => {
            let kinds = [Gauge::Outside, Gauge::Inside, Gauge::Depth, Gauge::Indicator];
            kinds.into_iter().filter(|gauge| named.can_read(size, *gauge)).collect()
        }
        None => gauge_of(feature).into_iter().collect(),
    };
    let finer = |other: &&crate::shop::Instrument| {
        other.uncertainty.value.number() <= wanted && kinds.iter().any(|gauge| other.can_read(size, *gauge))
    };
    let all = ground.shop.map_or(&[][..], |shop| shop.instruments.as_slice());
    let found = all.iter().find(finer).map(|instrument| instrument.name.value.clone());
    match (named, found) {
        // It may have been read with that one.
        (None, Some(name)) => Why::NameWhatRead(wanted, name),
        (None, None) if kinds.is_empty() => Why::SayWhatRead(wanted),
        (_, found) => Why::MeasureTo(wanted, found),
    }
}
