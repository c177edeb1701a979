//! Words of the page that says what must be done with each part.

use crate::plan::decide::{Cure, Decided, Decision, Limit, Line, Order, Row, Why};
use crate::proof::{Fact, Keep, Verdict};
use crate::quantity::{Decimals, Print, Unit};

/// The page.
pub(in crate::sheet) const DECIDE: &str = "What must be done";
/// What is ordered.
pub(in crate::sheet) const ORDERS: &str = "Order list";
/// What was assumed.
pub(in crate::sheet) const ASSUMED: &str = "Assumed";
/// Where nothing is judged.
pub(in crate::sheet) const NOTHING: &str = "nothing was inspected";
/// Heads of the columns.
pub(in crate::sheet) const FEATURE: &str = "Feature";
pub(in crate::sheet) const FOUND: &str = "Found";
pub(in crate::sheet) const LIMIT: &str = "Limit";
pub(in crate::sheet) const MARGIN: &str = "At its worst end";
/// The same where room is short.
pub(in crate::sheet) const WORST: &str = "worst";
pub(in crate::sheet) const DECISION: &str = "Decision";
pub(in crate::sheet) const WHY: &str = "Why";
pub(in crate::sheet) const SHEET: &str = "Sheet";
pub(in crate::sheet) const ORDER: &str = "Order";
/// Where there is none.
pub(in crate::sheet) const NONE: &str = "–";

/// A row in words.
pub(in crate::sheet) struct Said {
    /// Part and feature.
    pub feature: String,
    /// What was found.
    pub found: String,
    /// Its limits, and what it is when new.
    pub limit: String,
    /// How far inside or outside it is at its worst end.
    pub margin: String,
    /// What must be done.
    pub decision: String,
    /// Why.
    pub why: String,
    /// The sheets.
    pub sheet: String,
    /// What it takes.
    pub order: String,
}

/// A row in words.
pub(in crate::sheet) fn said(row: &Row, print: Print) -> Said {
    let none = || NONE.to_owned();
    let found = row.found.map_or_else(none, |found| {
        let size = Fact::doubted(found.number, found.plus_minus, found.unit).said(None, print);
        if found.as_left { format!("{size} as left") } else { size }
    });
    let joined = |texts: Vec<String>| if texts.is_empty() { none() } else { texts.join("; ") };
    let unit = unit(row);
    let why = row.why.iter().map(|why| self::why(why, (unit, print))).collect();
    Said {
        feature: format!("{}, {}", row.part, row.feature),
        found,
        limit: limits(row, print),
        margin: row.margin.map_or_else(none, |margin| self::margin(margin, unit, print)),
        decision: decision(row),
        why: joined(why),
        sheet: if row.sheets.is_empty() { none() } else { row.sheets.join(", ") },
        order: joined(row.orders.iter().map(order).collect()),
    }
}

fn unit(row: &Row) -> Unit {
    let of_limit = || row.limits.first().map(|limit| limit.unit);
    row.found.map(|found| found.unit).or_else(of_limit).unwrap_or(Unit::Mm)
}

fn limits(row: &Row, print: Print) -> String {
    let one = |limit: &Limit| Fact::figure(limit.number, limit.unit).rounded(limit.keep.rounds());
    let service = match row.limits.as_slice() {
        [] => NONE.into(),
        [low, high, ..] => Fact::span(one(low), one(high)).said(None, print),
        [limit] => match limit.keep {
            Keep::AtLeast => format!("at least {}", one(limit).said(None, print)),
            Keep::AtMost => format!("at most {}", one(limit).said(None, print)),
        },
    };
    match row.new {
        Some((low, high)) if low < high => {
            let span = Fact::span(Fact::figure(low, unit(row)), Fact::figure(high, unit(row)));
            format!("{service} (new {})", span.said(None, print))
        }
        Some((new, _)) => format!("{service} (new {})", Fact::figure(new, unit(row)).said(None, print)),
        None => service,
    }
}

fn apart(number: f64, unit: Unit, print: Print) -> String {
    Fact::apart(number.abs(), unit).said(None, print)
}

/// A margin inside is rounded down, one outside up: neither looks better than it is.
fn margin(margin: f64, unit: Unit, print: Print) -> String {
    let rounds = crate::quantity::Rounds::Down;
    match margin {
        m if m >= 0.0 => format!("{} inside", crate::quantity::Shown::apart(m, unit, (Decimals::Usual, rounds), print)),
        m => format!("{} outside", apart(m, unit, print)),
    }
}

/// What must be done, in a few words.
pub(in crate::sheet) fn decision(row: &Row) -> String {
    match &row.decision {
        // Nothing is wrong with what was measured: what it is held against is.
        Decision::Doubtful(_) if row.why.iter().any(|why| matches!(why, Why::AgainstWear(_))) => {
            "DOUBTFUL: say the other limit".into()
        }
        Decision::Reuse => "reuse".into(),
        Decision::Doubtful(cure) if matches!(cure.as_ref(), Cure::Failed(_)) => {
            format!("DOUBTFUL: {}", self::cure(cure))
        }
        // What is good as it was found, and spoilt by what is planned, no measuring helps.
        Decision::Doubtful(cure) => match spoilt_by(row) {
            Some(word) => format!("DOUBTFUL: without {word} as it is planned; with it, {}", self::cure(cure)),
            None => format!("DOUBTFUL: measure better; if not, {}", self::cure(cure)),
        },
        Decision::Cure(cure) => self::cure(cure),
        // It was measured: what it is held against is missing.
        Decision::Measure if row.found.is_some() && lacks_limits(row) => "say its limit: not reused".into(),
        Decision::Measure => "MEASURE: not reused".into(),
        Decision::Follows(word) => format!("replace: follows the {word}"),
    }
}

/// What is planned and leaves a size outside that is inside as it was found, with all its doubt.
fn spoilt_by(row: &Row) -> Option<&str> {
    let is_inside = row.margin.is_some_and(|margin| margin >= 0.0);
    let mut planned =
        row.why.iter().filter_map(|why| if let Why::LeavesIt(word, ..) = why { Some(word.as_str()) } else { None });
    planned.next().filter(|_| is_inside)
}

/// Whether nothing but limits is missing to judge a row.
fn lacks_limits(row: &Row) -> bool {
    let is_limit = |why: &Why| matches!(why, Why::Lacks(keys) if keys.iter().all(|key| key.starts_with("limits.")));
    !row.why.is_empty() && row.why.iter().all(is_limit)
}

fn cure(cure: &Cure) -> String {
    match cure {
        Cure::Proven(word) => word.clone(),
        Cure::Doubtful(word) => format!("{word} (DOUBTFUL)"),
        Cure::Unplanned(word) => format!("plan `{word}` first"),
        Cure::Anew(word) => format!("plan `{word}` anew: as planned it fails"),
        Cure::Otherwise(word) => format!("plan `{word}` anew"),
        Cure::Failed(word) => format!("{word} was done, and FAILS as it was left"),
        Cure::Unsaid => "say what puts it right".into(),
        Cure::Replace => "replace".into(),
    }
}

/// The kinds of decisions, as the JSON names them.
pub(in crate::sheet) const KINDS: [&str; 7] =
    ["reuse", "doubtful", "measure", "replace", "put-right", "put-right-doubtful", "plan-first"];

/// The kind of a decision, as the JSON names it.
pub(in crate::sheet) const fn kind(decision: &Decision) -> &'static str {
    match decision {
        Decision::Reuse => "reuse",
        Decision::Doubtful(_) => "doubtful",
        Decision::Measure => "measure",
        Decision::Follows(_) | Decision::Cure(Cure::Replace) => "replace",
        Decision::Cure(Cure::Proven(_)) => "put-right",
        Decision::Cure(Cure::Doubtful(_)) => "put-right-doubtful",
        Decision::Cure(Cure::Unplanned(_) | Cure::Anew(_) | Cure::Otherwise(_) | Cure::Failed(_) | Cure::Unsaid) => {
            "plan-first"
        }
    }
}

/// A reason.
fn why(why: &Why, (unit, print): (Unit, Print)) -> String {
    match why {
        Why::Inside => "inside with all its doubt".into(),
        Why::MiddleInside(by) => {
            format!("inside by {} as read, but its doubt reaches over the limit", apart(*by, unit, print))
        }
        Why::Outside(by) => format!("outside by {} as read", apart(*by, unit, print)),
        Why::MoreThanNew(by) => format!(
            "it has more metal than when it was new, by {}, and nothing wears that way: measure it again, or it is another size",
            apart(*by, unit, print)
        ),
        Why::FarOff => {
            "it is many times its limit: a slip of the decimal point, or another size? If it is so, say how large a new one is (`new`)"
                .into()
        }
        Why::AgainstWear(Keep::AtLeast) => {
            "by its name it wears larger, and `at least` alone never sees that: say how large it may be (`at most`, or both)".into()
        }
        Why::AgainstWear(Keep::AtMost) => {
            "by its name it wears smaller, and `at most` alone never sees that: say how small it may be (`at least`, or both)".into()
        }
        Why::RestsOn(what) => format!("not proven: it rests on {what}"),
        Why::Planned(what) => format!("not proven: it is what {what} plans, and nobody has measured it yet"),
        Why::NotMeasured => "nobody measured it; what is not measured is not reused".into(),
        Why::DoneSince(operation, entry, left) => {
            let again = format!(
                "read before {operation} was done ({}): measure it again, and say when by `measured`",
                line(entry)
            );
            match left {
                Some(left) => format!("{again}, or take what the log has of it where that is it: `found: {{of: {left}}}`"),
                None => again,
            }
        }
        Why::FoundBefore(operation, entry) => format!(
            "read before {operation} was done ({}), which is not proven as it was left: see there",
            line(entry)
        ),
        Why::LeftLast(operation, entry) => {
            format!("as {operation} left it, the last that was done to it by the log ({})", line(entry))
        }
        Why::Rebored(operation, entry, verdict) => {
            let stands = if *verdict == Verdict::Proven { "is proven" } else { "is not proven as it was left: see there" };
            format!("as {operation} left it ({}), which {stands}; its limit was that of the size before", line(entry))
        }
        Why::CameBack(operation, entry, left) => format!(
            "read after {operation} had left {} ({}), and metal that is gone does not come back: measure it again, and correct whichever of the two is wrong",
            apart(*left, unit, print),
            line(entry)
        ),
        Why::FailsByLog(operation) => format!("not proven: by the log {operation} fails"),
        Why::Lacks(keys) => format!("not judged for want of {}", keys.join(", ")),
        Why::NotWorked(says) => format!("not judged: {says}"),
        Why::OnTheLimit => {
            "it stands on its limit: no instrument decides it; do what is named here, or let it be known and go by it"
                .into()
        }
        Why::MeasureTo(to, with) => {
            let to = decides(*to, unit, print);
            match with {
                Some(name) => format!("measure with the {name}: ± {to} or better decides"),
                None => format!("measure with something good to ± {to}; the shop file has none named for it"),
            }
        }
        Why::NameWhatRead(to, name) => format!(
            "read with the {name} it would be decided (± {} or better): say so, `with: {name}`, or measure with it",
            decides(*to, unit, print)
        ),
        Why::SayWhatRead(to) => format!(
            "say what it was read with (`with`), or measure with something good to ± {}",
            decides(*to, unit, print)
        ),
        Why::Settles(what) => format!("what would make it sure: {what}"),
        Why::Chooses(what, which) => format!("{what} {which}"),
        Why::Nearest(word, asks, by, unit) => {
            format!("{word} is proven; nearest: {asks}, {}", margin(*by, *unit, print))
        }
        Why::Checked(word, asks, verdict, remedy) => {
            let remedy = remedy.as_ref().map(|remedy| format!(" ({remedy})")).unwrap_or_default();
            let state = if *verdict == Verdict::Fails { "fails" } else { "is doubtful" };
            format!("{word} {state}: {asks}{remedy}")
        }
        Why::MovedBy(by) => format!("{by} moves it, and it was read before that"),
        Why::LeavesIt(word, end, unit) => {
            format!("{word} leaves it outside: {} at its worst", apart(*end, *unit, print))
        }
        Why::PlannedBy(word, reading, unit) => format!(
            "{word} is planned by a reading of {}, which is not what was found: plan it by that",
            apart(*reading, *unit, print)
        ),
        Why::TakesOffLess(word, worn, unit) => {
            format!("{word} is planned for {} of it alone: plan it by what was found", apart(*worn, *unit, print))
        }
        Why::BeyondPlan(word, end, (keep, planned_for), unit) => format!(
            "it may be {}, and {word} is planned for {} {}: measure it better, or plan it by that",
            apart(*end, *unit, print),
            if *keep == Keep::AtMost { "at most" } else { "at least" },
            apart(*planned_for, *unit, print)
        ),
        Why::ProvenInstead(what, which) => format!("with the {what} {which} it would be proven"),
        Why::Refused(word, says) => format!("{word} was not worked out: {says}"),
        Why::SeeAlso(features) => format!("but the part does not go back as it is: see its {}", listed(features)),
        Why::ForAnother(by, size) => {
            format!("but not in the bore of {by}: that is made for one of {}", apart(*size, unit, print))
        }
        Why::GoesWith(features) => {
            format!("the part is replaced for its {}: nothing of the old one is cut, and no mate is got for it", listed(features))
        }
        Why::PartnerGoes(other) => {
            format!("{other}, the other half, is replaced: plan this one by its own wear, without `pair`")
        }
        Why::DoneAlready(operation, entry) => format!(
            "{operation} stands in the log as done ({}), and this was read behind it: measure again, and correct whichever of the two is wrong",
            line(entry)
        ),
        Why::OfOneDay(operation, entry, left) => {
            let said = format!(
                "read on the day on which {operation} was done ({}), and nobody knows which came first: put what it left into the log, or measure it again on a later day",
                line(entry)
            );
            match left {
                Some(left) => format!("{said}, or take what the log has of it where that is it: `found: {{of: {left}}}`"),
                None => said,
            }
        }
        Why::NeverAgain => "never used again: a new one goes in".into(),
        Why::TakesOff(words) => format!(
            "{} off, and metal is what lacks: only with a mate made to suit, and its own limits",
            match words.as_slice() {
                [word] => format!("{word} takes metal"),
                words => format!("{} take metal", listed(words)),
            }
        ),
        Why::Spends(feature) => format!("but what it takes off leaves the part's {feature} outside its limits: see there"),
        Why::NotByOther(word, feature) => format!("but {word} is not planned by what was found of the part's {feature}: see there"),
        Why::GoesByReplaced(word, part) => {
            format!("but {word} goes by {part}, which is replaced: measure the new one, and plan it by that")
        }
        Why::After(operation) => format!("it is matched to what {operation} leaves"),
        Why::NoUsual(words) => format!(
            "nobody says what is done about it, and its name tells nothing: type `remedies`, as [{}replace]",
            words.iter().map(|word| format!("{word}, ")).collect::<String>()
        ),
        Why::OneOf(operation, features) => format!(
            "{operation} names no feature, and puts right one of {}: give it the `feature` that it is for, and plan the others",
            features.join(", ")
        ),
    }
}

/// The doubt that decides, rounded down.
fn decides(to: f64, unit: Unit, print: Print) -> String {
    crate::quantity::Shown::apart(to, unit, (Decimals::Usual, crate::quantity::Rounds::Down), print).to_string()
}

/// Words after one another, the last with an `and`.
fn listed(words: &[String]) -> String {
    match words {
        [all @ .., last] if !all.is_empty() => format!("{} and {last}", all.join(", ")),
        words => words.join(""),
    }
}

/// A line of the log, and of which job's log where several are given.
fn line(line: &Line) -> String {
    let entry = super::log::entry(line.n);
    line.job.as_ref().map_or_else(|| entry.clone(), |job| format!("{entry} of {job}"))
}

/// What is ordered or taken out of a drawer.
pub(in crate::sheet) fn order(order: &Order) -> String {
    let size = order.size.as_ref().map(|size| format!(" {size}")).unwrap_or_default();
    let from = if order.in_drawer { "in the drawer" } else { "to buy" };
    format!("{}{size}, {from}", order.item)
}

/// An entry of the order list.
pub(in crate::sheet) fn entry(order: &Order) -> String {
    let size = order.size.as_ref().map(|size| format!(", size {size}")).unwrap_or_default();
    let from = if order.in_drawer { "in the drawer" } else { "to buy" };
    let part = if order.item == order.part { String::new() } else { format!(", for {}", order.part) };
    format!("{} × {}{size}{part}, {from}", order.count, order.item)
}

/// How many features stand how.
pub(in crate::sheet) fn sums(decided: &Decided) -> String {
    let count = |is: &dyn Fn(&Row) -> bool| decided.rows.iter().filter(|row| is(row)).count();
    let reused = count(&|row| row.decision == Decision::Reuse);
    let open = count(&|row| !row.is_settled());
    format!(
        "{} features: {reused} reuse, {} decided otherwise, {open} open",
        decided.rows.len(),
        decided.rows.len() - reused - open
    )
}

/// Jobs, engines and shop in one line.
pub(in crate::sheet) fn names(decided: &Decided) -> String {
    decided.jobs.iter().chain(&decided.engines).chain(&decided.shop).cloned().collect::<Vec<_>>().join(" · ")
}
