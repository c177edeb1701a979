//! A day planned, as every output is made from it. Times are minutes from midnight of its first day.

use super::no_time::NoAppointment;
use super::search::{Minute, Proof};
use crate::handbook::order_rules::OrderRule;
use crate::job::{Address, State};
use crate::operations::Drawer;
use crate::proof::Verdict;
use crate::quantity::{Date, Print};
use crate::shop::Paper;
use std::fmt;

/// A day planned.
#[derive(Clone, Debug)]
pub struct Day {
    /// The jobs by their names.
    pub jobs: Vec<String>,
    /// The engines that they name.
    pub engines: Vec<String>,
    /// The shop.
    pub shop: Option<String>,
    /// Paper of its page.
    pub paper: Paper,
    /// Units of print.
    pub print: Print,
    /// The first day.
    pub date: Option<Date>,
    /// Open stretches of a day, min from midnight.
    pub hours: Vec<(Minute, Minute)>,
    /// When the hands begin.
    pub from: Minute,
    /// How many days were asked for.
    pub days: u32,
    /// End of the last work of the hands, or of what must be watched.
    pub finish: Minute,
    /// How well the order is known to be the best.
    pub proof: Proof,
    /// Whether every level of it is proved.
    pub exact: bool,
    /// No order finishes before this.
    pub bound: Minute,
    /// Open minutes between bound and finish.
    pub gap: Minute,
    /// Open minutes from the start to the finish.
    pub open: Minute,
    /// Late minutes over all that is due.
    pub late: Minute,
    /// Minutes of the hands at work.
    pub hands: Minute,
    /// Minutes of change-overs.
    pub change: Minute,
    /// Open minutes in which the hands have nothing to do before the finish.
    pub waiting: Minute,
    /// Minutes that nobody knows, among those of the hands.
    pub not_known: Minute,
    /// How many part-orders were kept to prove it.
    pub labels: usize,
    /// The set-ups in their order.
    pub lines: Vec<Line>,
    /// Minutes by machine.
    pub machines: Vec<OfMachine>,
    /// Better rules that are broken.
    pub better_broken: Vec<Broken>,
    /// What must be at hand, by drawer, by first need.
    pub pull: Vec<Pulled>,
    /// What the shop lacks.
    pub missing: Vec<Lacking>,
    /// What stands outside the day.
    pub left_out: Vec<LeftOut>,
    /// What begins after the last day asked for.
    pub left_over: Vec<LeftOver>,
    /// Those of it for which a machine is changed over in these days already.
    pub ahead: Vec<Line>,
    /// Set-ups that the log says are done.
    pub logged: Vec<DoneByLog>,
    /// States that are needed and that nothing of the day brings.
    pub taken_as_done: Vec<State>,
    /// Every default used.
    pub assumed: Vec<Assumed>,
    /// Appointments that cannot be.
    pub impossible: Vec<NoAppointment>,
    /// Lines of the logs that are not whole, each as its check quotes it.
    pub log_faults: Vec<String>,
    /// Rules of order left out, with the reason where a job gives one.
    pub rules_left_out: Vec<(String, Option<String>)>,
}

/// A set-up in the day.
#[derive(Clone, Debug)]
pub struct Line {
    /// The id of its sheet.
    pub id: String,
    /// Its job, part and set-up in the plans: the sheet that belongs to it.
    pub sheet: (usize, usize, usize),
    /// Its job.
    pub job: String,
    /// Its part.
    pub part: String,
    /// Its title.
    pub set_up: String,
    /// Its machine.
    pub machine: String,
    /// Another machine that works for it unattended: the freezer beside the oven.
    pub beside: Option<String>,
    /// The hands begin.
    pub start: Minute,
    /// The hands are done.
    pub end: Minute,
    /// Minutes of the hands.
    pub hands: Minute,
    /// Whether these are only assumed.
    pub not_known: bool,
    /// Until when it runs unattended.
    pub by_itself_until: Option<Minute>,
    /// Whether somebody must be by it meanwhile: it is in no oven, and the job says that it is watched.
    pub watched: bool,
    /// Whether it stays in its machine meanwhile: what only cools is taken off.
    pub stays: bool,
    /// What changes the machine over for it.
    pub change: Option<ChangeOver>,
    /// What is measured there may change the day.
    pub hold_point: bool,
    /// When that can be read: when the hands are done; in an oven or freezer, when it has been in there long enough.
    pub read_at: Minute,
    /// What it waits for may change: from the hold point at this time on.
    pub may_change_after: Option<Minute>,
    /// Its verdict.
    pub verdict: Verdict,
    /// It belongs to an operation that fails, and measures only.
    pub measuring_only: bool,
    /// Another sheet of its part fails.
    pub part_fails: bool,
    /// It is longer than any stretch between breaks.
    pub too_long: bool,
    /// When it is due, where the job says.
    pub due: Option<Minute>,
    /// The set-up that fetches it, and when, where it is a load of an oven or freezer.
    pub fetched: Option<(String, Minute)>,
    /// Why it stands behind the line before it.
    pub why: Why,
    /// What it stands apart from that comes before it.
    pub apart: Vec<Edge>,
    /// What must come before it, each with the rule.
    pub after: Vec<Edge>,
    /// How many minutes later it could begin with the same late minutes and finish.
    pub slack: Minute,
}

impl Line {
    /// The stretch in which it runs unattended in a machine, where it does.
    pub fn unattended_in(&self, machine: &str) -> Option<(Minute, Minute)> {
        let is_there = self.stays && self.machine == machine || self.beside.as_deref() == Some(machine);
        self.by_itself_until.filter(|_| is_there).map(|until| (self.end, until))
    }
}

/// A set-up that the log says is done.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct DoneByLog {
    /// Its id.
    pub id: String,
    /// Its part.
    pub part: String,
    /// Its title.
    pub set_up: String,
    /// The entry.
    pub entry: u32,
    /// What is to be written down of it and is not in the log.
    pub not_logged: Vec<&'static str>,
    /// What of it is doubtful as it was left.
    pub doubts: Vec<String>,
}

/// What changes a machine over.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ChangeOver {
    /// What is fitted.
    pub what: String,
    /// When: in several pieces where a wait was used.
    pub pieces: Vec<(Minute, Minute)>,
}

/// What must come before a set-up.
#[derive(Clone, Debug)]
pub struct Edge {
    /// The earlier set-up.
    pub id: String,
    /// When it is over, with its tail and the rest after it.
    pub released: Minute,
    /// Least minutes of rest among these.
    pub rest: Minute,
    /// Why: every reason, a rule of order before all else.
    pub because: Vec<Because>,
}

/// Why one set-up comes before another.
#[derive(Clone, Debug, PartialEq)]
pub enum Because {
    /// A rule of order.
    Rule(&'static OrderRule),
    /// It leaves a state that the other needs.
    State(State),
    /// The other reads one of its sizes.
    Reads(Address),
    /// It is held on a diameter that the earlier makes.
    HeldOn(Address),
    /// It goes by a size that the earlier makes, whatever its place is called.
    SizedBy(Address),
    /// It cuts the diameter away on which the earlier is held.
    CutsTheGrip(Address),
    /// It takes from a size that the earlier goes by.
    CutsTheSize(Address),
    /// The job says so.
    After,
    /// Set-ups of one operation stand in turn.
    InTurn,
    /// The part is in an oven or freezer until then.
    Away,
    /// The part is let alone until then: what cures, or cools where it was pressed, is not worked.
    LetAlone,
    /// It works one of the parts, which is to be as cool as the other when both are measured.
    Worked,
    /// This one follows at once behind what is hot by hand, and is bound: by what.
    AtOnce(String, Box<Self>),
}

/// As a circle names it: the rule, or how the job says it.
impl fmt::Display for Because {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Rule(rule) => f.write_str(&rule.rule),
            Self::State(state) => write!(f, "needs {state}"),
            Self::Reads(address) => write!(f, "reads {address}"),
            Self::HeldOn(address) => write!(f, "held on what {address} makes"),
            Self::SizedBy(address) => write!(f, "goes by what {address} makes"),
            Self::CutsTheGrip(address) => write!(f, "cuts what {address} is held on"),
            Self::CutsTheSize(address) => write!(f, "cuts what {address} goes by"),
            Self::After => f.write_str("after"),
            Self::Away => f.write_str("fetched"),
            Self::LetAlone => f.write_str("let alone"),
            Self::Worked => f.write_str("worked"),
            Self::InTurn => f.write_str("in turn"),
            Self::AtOnce(id, own) => write!(f, "{id} follows at once: {own}"),
        }
    }
}

/// Why a set-up stands behind the one before it.
#[derive(Clone, Debug, PartialEq)]
pub enum Why {
    /// It is the first.
    First,
    /// It must.
    Must(String, Because),
    /// It waits for what runs unattended, or rests.
    Waits {
        /// The set-up that it waits for.
        id: String,
        /// When that is over with its tail.
        over: Minute,
        /// Minutes of rest after it.
        rest: Minute,
    },
    /// It stands apart from another: which, when that is over with its tail or fetched, the rest, and why.
    Apart(String, Minute, Minute, Because),
    /// It has a time of its own.
    Fixed(Minute),
    /// Its part comes at this time.
    NotBefore(Minute),
    /// It would not fit before the break.
    Break,
    /// Turned round, the day ends so many minutes later.
    SavesFinish(Minute),
    /// Turned round, more is late by so many minutes.
    SavesLate(Minute),
    /// Turned round, so many more better rules are broken.
    KeepsRules(u32),
    /// Turned round, change-overs cost so many minutes more.
    SavesChange(Minute),
    /// Turned round it could not be worked at all.
    NoOther,
    /// Turned round another would come while the part is in an oven or freezer, or let alone: which, and by what that may not be.
    Bars(String, Because),
    /// The hands would wait else.
    Fills,
    /// It goes in no sooner than it is wanted: what fetches it.
    WantedBy(String),
    /// It stands as in the order before.
    Kept,
    /// It stands as the jobs list it.
    AsListed,
}

/// Minutes of a machine, or of the bench.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OfMachine {
    /// Its name.
    pub name: String,
    /// Minutes of the hands.
    pub hands: Minute,
    /// Minutes of change-overs.
    pub change: Minute,
    /// Minutes unattended, those of several things at once counted once.
    pub by_itself: Minute,
    /// Open minutes in which it is in use, whatever goes on there.
    pub in_use: Minute,
}

/// A better rule that is broken.
#[derive(Clone, Debug, PartialEq)]
pub struct Broken {
    /// The rule.
    pub rule: &'static OrderRule,
    /// What better came first.
    pub first: String,
    /// What better came then.
    pub then: String,
    /// How many minutes later the day ends where it is kept; none where it cannot be kept.
    pub keeping_costs: Option<Minute>,
    /// Whether as many others are broken then.
    pub for_another: bool,
}

/// Something to be pulled out of a drawer.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Pulled {
    /// The drawer.
    pub drawer: Drawer,
    /// What.
    pub item: String,
    /// How many.
    pub count: u32,
    /// Whether it is used up, so that their number matters.
    pub is_counted: bool,
    /// Whether the shop lacks it: it stands on the list of what is missing too.
    pub is_missing: bool,
    /// When it is first needed.
    pub first_at: Minute,
    /// For which sheets.
    pub sheets: Vec<String>,
}

/// Something that the shop lacks.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Lacking {
    /// What.
    pub item: String,
    /// For which sheet.
    pub id: String,
    /// When it is needed; none where that stands outside the day.
    pub at: Option<Minute>,
    /// What could serve.
    pub could_serve: Vec<String>,
}

/// A set-up outside the day.
#[derive(Clone, Debug)]
pub struct LeftOut {
    /// Its id.
    pub id: String,
    /// Its part and title.
    pub part: String,
    /// Its title.
    pub set_up: String,
    /// Whether it fails itself, and cuts or fits.
    pub stop: Stop,
    /// The set-up that stops it, itself or another.
    pub stopped_by: String,
}

/// Why a set-up stands outside the day.
#[derive(Clone, Debug, PartialEq)]
pub enum Stop {
    /// It must not be cut: the reasons.
    DoNotCut(Vec<String>),
    /// It must not be fitted: the reasons.
    DoNotFit(Vec<String>),
    /// It waits for one that is left out.
    WaitsFor,
    /// It makes a part warm or cold for one that is left out.
    NotFetched,
    /// It needs its part warm, and nothing of the job warms it.
    NothingWarmsIt,
    /// Another part of its operation fails.
    OperationFails,
    /// No day of the shop holds it with what must be watched after it.
    NoDayHoldsIt,
    /// One set-up would come while the part of another is in the oven or warm, in every order: both.
    NotApart(String, String),
    /// What it was to stand before is done, and would be undone by it: by what rule.
    TooLate(String),
}

/// A set-up that the days asked for do not hold.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LeftOver {
    /// Its id.
    pub id: String,
    /// Its part.
    pub part: String,
    /// Its title.
    pub set_up: String,
    /// Minutes of the hands.
    pub minutes: Minute,
    /// What it still waits for among what is left over, the nearest.
    pub waits_for: Vec<String>,
    /// What is done in the days asked for and lets it go after they close, and when.
    pub rests_on: Option<(String, Minute)>,
}

/// A default that was used.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Assumed {
    /// The hours of the shop.
    Hours(Minute, Minute),
    /// Every day is open.
    EveryDay,
    /// How many parts go into an oven or freezer.
    Room(String, u32),
    /// A part goes in: nobody said how long it is.
    GoesIn(String, String),
    /// What a change-over takes, of the table.
    ChangeOver(String, String, Minute),
    /// Machines carry nothing at the start.
    Bare,
    /// What a machine carries still, by which entry of the log.
    Carries(String, String, u32),
    /// What is in hand: since when, by which entry of the log, and what is left of its minutes.
    GoesOn(String, Minute, u32, Minute),
    /// How long a set-up takes.
    Minutes(String, Minute),
    /// When what is done was done.
    DoneAt(String, Minute),
    /// What comes after something that is done already, though it must stand before it: by what.
    ComesLate(String, String, String),
    /// What was made warm or cold is not so any more: it is done again.
    Again(String),
    /// What is made warm or cold, and nothing of the day takes out: what, the place, and as what.
    NothingFetches(String, String, &'static str),
    /// What was set true and is so no more, by what: it is done again.
    TrueNoMore(String, String),
    /// What is done and is in an oven or freezer still, where that is, and what fetches it.
    StillIn(String, String, String),
    /// What is not finished by what the log says of it: the entry, and why.
    NotFinished(String, u32, String),
    /// A must that gives way to others: by what rule, what was to come before what.
    NotKept(String, String, String),
    /// What does not come while a load is in the oven: it would be in there for hours.
    KeptOut(String, String),
}

impl Day {
    /// The lines that come after a set-up by what must be, near or far.
    pub fn decided_by(&self, id: &str) -> Vec<&Line> {
        let mut ids = vec![id.to_owned()];
        let mut all = Vec::new();
        for line in &self.lines {
            if line.after.iter().any(|edge| ids.contains(&edge.id)) {
                ids.push(line.id.clone());
                all.push(line);
            }
        }
        all
    }

    /// Whether all that was asked is in the days asked for, on time.
    pub fn is_whole(&self) -> bool {
        let stops = |out: &LeftOut| !matches!(out.stop, Stop::WaitsFor | Stop::NotFetched);
        !self.left_out.iter().any(stops) && self.left_over.is_empty() && self.late == 0 && self.impossible.is_empty()
    }
}
