//! Why the set-ups of a day stand in their order, in words.

use super::clock;
use crate::plan::day::{Because, Day, Edge, Line, Why};

/// Why a set-up comes before another.
fn because(because: &Because) -> String {
    match because {
        Because::Rule(rule) => format!("{}: {} [{}]", rule.rule, rule.reason, rule.source),
        Because::State(state) => format!("it must be {} ({})", state.kind.text(), state.of),
        Because::Reads(address) => format!("it reads {address}"),
        Because::HeldOn(address) => format!("it is held on the diameter that {address} makes"),
        Because::SizedBy(address) => format!("it goes by the size that {address} makes"),
        Because::CutsTheGrip(address) => format!("it cuts away the diameter on which {address} is held"),
        Because::CutsTheSize(address) => format!("it takes from a size that {address} goes by"),
        Because::After => "the job says so".into(),
        Because::InTurn => "set-ups of one operation, in turn".into(),
        Because::Away => "its part is in the oven or freezer until then".into(),
        Because::LetAlone => "its part is let alone until then".into(),
        Because::Worked => "a part that is measured is worked until then, and cools".into(),
        Because::AtOnce(..) => because.to_string(),
    }
}

/// The kind of a reason, as the JSON names it.
pub(in crate::sheet) const fn kind(why: &Why) -> &'static str {
    match why {
        Why::First => "first",
        Why::Must(..) => "must",
        Why::Waits { .. } | Why::Apart(..) => "waits",
        Why::Fixed(_) | Why::NotBefore(_) | Why::WantedBy(_) => "fixed",
        Why::Break => "break",
        Why::SavesFinish(_)
        | Why::SavesLate(_)
        | Why::KeepsRules(_)
        | Why::SavesChange(_)
        | Why::NoOther
        | Why::Bars(..)
        | Why::Fills => "saves",
        Why::Kept | Why::AsListed => "kept",
    }
}

/// Why a set-up stands behind the one before it.
pub(in crate::sheet) fn why(day: &Day, reason: &Why) -> String {
    match reason {
        Why::First => "the first".into(),
        Why::Must(id, rule) => format!("after {id}: {}", because(rule)),
        Why::Waits { id, over, rest: 0 } => format!("after {id}, over at {}", clock(day, *over)),
        Why::Waits { id, over, rest } => format!("after {id}, over at {}, + {rest} min of rest", clock(day, *over)),
        Why::Apart(id, over, 0, by) => format!("after {id}, over at {}: {}", clock(day, *over), because(by)),
        Why::Apart(id, over, rest, by) => {
            format!("after {id}, over at {}, + {rest} min of rest: {}", clock(day, *over), because(by))
        }
        Why::Fixed(at) => format!("fixed at {}", clock(day, *at)),
        Why::NotBefore(at) => format!("not before {}", clock(day, *at)),
        Why::Break => "it would not fit before the break".into(),
        Why::SavesFinish(minutes) => format!("the other way round the day ends {minutes} min later"),
        Why::SavesLate(minutes) => format!("the other way round {minutes} min more are late"),
        Why::KeepsRules(1) => "the other way round one more preference is not kept".into(),
        Why::KeepsRules(count) => format!("the other way round {count} more preferences are not kept"),
        Why::SavesChange(minutes) => format!("the other way round costs {minutes} min more change-over"),
        Why::NoOther => "the other way round cannot be done".into(),
        Why::Bars(id, Because::Rule(rule)) => {
            format!("{id} may not come behind it: {}: {} [{}]", rule.rule, rule.reason, rule.source)
        }
        Why::Bars(id, Because::Away) => {
            format!("the other way round {id} would come while its part is in the oven or freezer")
        }
        Why::Bars(id, _) => format!("the other way round {id} would come while its part is let alone"),
        Why::Fills => "the hands would wait else".into(),
        Why::WantedBy(id) => format!("no sooner than {id} wants it"),
        Why::Kept => "as in the order before".into(),
        Why::AsListed => "as the jobs list them: the other way round is no better".into(),
    }
}

/// What must come before a set-up, and when that lets it go.
pub(in crate::sheet) fn edge(day: &Day, edge: &Edge) -> String {
    let rest = if edge.rest > 0 { format!(", {} min of rest among them", edge.rest) } else { String::new() };
    let reasons = edge.because.iter().map(because).collect::<Vec<_>>().join("; ");
    format!("after {}: {reasons}; free at {}{rest}", edge.id, clock(day, edge.released))
}

/// How much later a set-up could begin.
pub(in crate::sheet) fn slack(line: &Line) -> String {
    match line.slack {
        0 => "no minute later without a later finish".into(),
        minutes => format!("up to {minutes} min later with the same finish"),
    }
}
