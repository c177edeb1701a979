//! The JSON of a day. Times are clock times of their day; minutes are minutes.

use super::words::day as said;
use crate::plan::day::{Day, Edge, Line};
use crate::proof::Verdict;
use schemars::JsonSchema;
use serde::Serialize;

/// The version of the shape.
pub const SCHEMA: u32 = 1;

/// Everything that is said of a day.
#[derive(Serialize, JsonSchema)]
pub struct DayOut {
    /// The version of this shape.
    schema: u32,
    /// The day as a whole.
    day: Whole,
    /// The set-ups in their order.
    lines: Vec<LineOut>,
    /// Minutes by machine.
    machines: Vec<MachineOut>,
    /// Better rules that are broken.
    better_broken: Vec<BrokenOut>,
    /// What must be at hand, by drawer, by first need.
    pull: Vec<PullOut>,
    /// What the shop lacks.
    missing: Vec<MissingOut>,
    /// What stands outside the day.
    left_out: Vec<LeftOutOut>,
    /// What is for another day.
    left_over: Vec<LeftOverOut>,
    /// Appointments that cannot be.
    impossible: Vec<ImpossibleOut>,
    /// Rules of order that were left out.
    rules_left_out: Vec<RuleOut>,
    /// Set-ups that the log says are done, each with the number of the entry.
    done_by_log: Vec<LoggedOut>,
    /// States that are needed and that nothing of the day brings.
    taken_as_done: Vec<String>,
    /// Every default used.
    assumed: Vec<String>,
    /// Lines of the logs that are not whole, quoted.
    log_faults: Vec<String>,
}

#[derive(Serialize, JsonSchema)]
struct LoggedOut {
    id: String,
    entry: u32,
    /// What of it is doubtful as it was left.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    doubtful: Vec<String>,
}

#[derive(Serialize, JsonSchema)]
struct Whole {
    date: Option<String>,
    from: String,
    to: String,
    finish: String,
    exact: bool,
    bound: String,
    gap_min: u32,
    late_min: u32,
    hands_min: u32,
    not_known_min: u32,
    change_over_min: u32,
    waiting_min: u32,
    labels: usize,
}

#[derive(Serialize, JsonSchema)]
struct LineOut {
    id: String,
    job: String,
    part: String,
    set_up: String,
    machine: String,
    start: String,
    end: String,
    by_itself_until: Option<String>,
    change_over: Vec<PieceOut>,
    hands_min: u32,
    /// Whether nobody said how many minutes.
    assumed: bool,
    hold_point: bool,
    /// When what is measured there can be read; nothing without a hold point.
    read_at: Option<String>,
    may_change_after: Option<String>,
    verdict: Verdict,
    measuring_only: bool,
    /// When it is due, where the job says.
    due: Option<String>,
    /// Minutes after that.
    late_min: u32,
    why: Vec<WhyOut>,
    slack_min: u32,
}

#[derive(Serialize, JsonSchema)]
struct PieceOut {
    what: String,
    start: String,
    end: String,
}

#[derive(Serialize, JsonSchema)]
struct WhyOut {
    kind: &'static str,
    with: Option<String>,
    rule: Option<String>,
    text: String,
}

#[derive(Serialize, JsonSchema)]
struct MachineOut {
    name: String,
    hands_min: u32,
    change_over_min: u32,
    by_itself_min: u32,
}

#[derive(Serialize, JsonSchema)]
struct BrokenOut {
    rule: String,
    first: String,
    then: String,
    keeping_costs_min: Option<u32>,
    /// Whether as many others are broken then.
    keeping_breaks_another: bool,
}

#[derive(Serialize, JsonSchema)]
struct PullOut {
    drawer: &'static str,
    item: String,
    count: u32,
    /// Whether the shop lacks it.
    missing: bool,
    first_at: String,
    #[serde(rename = "for")]
    sheets: Vec<String>,
}

#[derive(Serialize, JsonSchema)]
struct MissingOut {
    item: String,
    #[serde(rename = "for")]
    sheet: String,
    at: Option<String>,
    could_serve: Vec<String>,
}

#[derive(Serialize, JsonSchema)]
struct LeftOutOut {
    id: String,
    because: String,
    stopped_by: String,
}

#[derive(Serialize, JsonSchema)]
struct LeftOverOut {
    id: String,
    part: String,
    set_up: String,
    minutes: u32,
    /// What it waits for of what is left over too.
    waits_for: Vec<String>,
    /// What it waits for of what is done in the days asked for.
    rests_on: Option<RestOut>,
}

#[derive(Serialize, JsonSchema)]
struct RestOut {
    id: String,
    /// When that lets it go.
    until: String,
}

#[derive(Serialize, JsonSchema)]
struct ImpossibleOut {
    id: String,
    at: String,
    earliest: Option<String>,
    text: String,
}

#[derive(Serialize, JsonSchema)]
struct RuleOut {
    rule: String,
    why: Option<String>,
}

/// Puts a day in the shape of the JSON.
pub fn output(day: &Day) -> DayOut {
    let at = |minute| said::clock(day, minute);
    let (first, last) = (day.from, day.hours.last().map_or(day.finish, |stretch| stretch.1));
    DayOut {
        schema: SCHEMA,
        day: Whole {
            date: day.date.map(|date| date.to_string()),
            from: at(first),
            to: at(last),
            finish: at(day.finish),
            exact: day.exact,
            bound: at(day.bound),
            gap_min: day.gap,
            late_min: day.late,
            hands_min: day.hands,
            not_known_min: day.not_known,
            change_over_min: day.change,
            waiting_min: day.waiting,
            labels: day.labels,
        },
        lines: day.lines.iter().map(|own| line(day, own)).collect(),
        machines: day.machines.iter().map(machine).collect(),
        better_broken: day.better_broken.iter().map(broken).collect(),
        pull: day.pull.iter().map(|own| pull(day, own)).collect(),
        missing: day.missing.iter().map(|own| missing(day, own)).collect(),
        left_out: day.left_out.iter().map(left_out).collect(),
        left_over: day.left_over.iter().map(|own| left_over(day, own)).collect(),
        impossible: day.impossible.iter().map(|own| impossible(day, own)).collect(),
        rules_left_out: day
            .rules_left_out
            .iter()
            .map(|(rule, why)| RuleOut { rule: rule.clone(), why: why.clone() })
            .collect(),
        done_by_log: day
            .logged
            .iter()
            .map(|own| LoggedOut { id: own.id.clone(), entry: own.entry, doubtful: own.doubts.clone() })
            .collect(),
        taken_as_done: day.taken_as_done.iter().map(ToString::to_string).collect(),
        assumed: day.assumed.iter().map(said::assumed).collect(),
        log_faults: day.log_faults.clone(),
    }
}

fn line(day: &Day, line: &Line) -> LineOut {
    let at = |minute| said::clock(day, minute);
    let pieces = line.change.iter().flat_map(|change| change.pieces.iter().map(move |piece| (&change.what, piece)));
    LineOut {
        id: line.id.clone(),
        job: line.job.clone(),
        part: line.part.clone(),
        set_up: line.set_up.clone(),
        machine: line.machine.clone(),
        start: at(line.start),
        end: at(line.end),
        by_itself_until: line.by_itself_until.map(at),
        change_over: pieces
            .map(|(what, (from, to))| PieceOut { what: what.clone(), start: at(*from), end: at(*to) })
            .collect(),
        hands_min: line.hands,
        assumed: line.not_known,
        hold_point: line.hold_point,
        read_at: line.hold_point.then(|| at(line.read_at)),
        may_change_after: line.may_change_after.map(at),
        verdict: line.verdict,
        measuring_only: line.measuring_only,
        due: line.due.map(at),
        late_min: line.due.map_or(0, |due| line.end.saturating_sub(due)),
        why: why(day, line),
        slack_min: line.slack,
    }
}

/// The reason for its place, then all that must come before it.
fn why(day: &Day, line: &Line) -> Vec<WhyOut> {
    use crate::plan::day::{Because, Why};
    let rule = |because: &Because| if let Because::Rule(rule) = because { Some(rule.rule.clone()) } else { None };
    let (with, named) = match &line.why {
        Why::Must(id, because) | Why::Apart(id, _, _, because) => (Some(id.clone()), rule(because)),
        Why::Waits { id, .. } => (Some(id.clone()), None),
        _ => (None, None),
    };
    let first = WhyOut { kind: said::kind(&line.why), with, rule: named, text: said::why(day, &line.why) };
    let edge = |edge: &Edge| WhyOut {
        kind: "must",
        with: Some(edge.id.clone()),
        rule: edge.because.iter().find_map(rule),
        text: said::edge(day, edge),
    };
    [first].into_iter().chain(line.after.iter().map(edge)).collect()
}

fn machine(own: &crate::plan::day::OfMachine) -> MachineOut {
    MachineOut {
        name: own.name.clone(),
        hands_min: own.hands,
        change_over_min: own.change,
        by_itself_min: own.by_itself,
    }
}

fn broken(own: &crate::plan::day::Broken) -> BrokenOut {
    BrokenOut {
        rule: own.rule.rule.clone(),
        first: own.first.clone(),
        then: own.then.clone(),
        keeping_costs_min: own.keeping_costs,
        keeping_breaks_another: own.for_another,
    }
}

fn pull(day: &Day, own: &crate::plan::day::Pulled) -> PullOut {
    PullOut {
        drawer: said::drawer(own.drawer),
        item: own.item.clone(),
        count: own.count,
        missing: own.is_missing,
        first_at: said::clock(day, own.first_at),
        sheets: own.sheets.clone(),
    }
}

fn missing(day: &Day, own: &crate::plan::day::Lacking) -> MissingOut {
    MissingOut {
        item: own.item.clone(),
        sheet: own.id.clone(),
        at: own.at.map(|at| said::clock(day, at)),
        could_serve: own.could_serve.clone(),
    }
}

fn left_out(own: &crate::plan::day::LeftOut) -> LeftOutOut {
    LeftOutOut { id: own.id.clone(), because: said::left_out(own), stopped_by: own.stopped_by.clone() }
}

fn left_over(day: &Day, own: &crate::plan::day::LeftOver) -> LeftOverOut {
    let rests_on = own.rests_on.as_ref();
    LeftOverOut {
        id: own.id.clone(),
        part: own.part.clone(),
        set_up: own.set_up.clone(),
        minutes: own.minutes,
        waits_for: own.waits_for.clone(),
        rests_on: rests_on.map(|(id, at)| RestOut { id: id.clone(), until: said::clock(day, *at) }),
    }
}

fn impossible(day: &Day, own: &crate::plan::day::NoAppointment) -> ImpossibleOut {
    ImpossibleOut {
        id: own.id.clone(),
        at: said::clock(day, own.at),
        earliest: own.earliest().map(|at| said::clock(day, at)),
        text: said::appointment(day, own),
    }
}
