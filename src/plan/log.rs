//! What the log of a job says of its operations: sizes as they were left, each with the doubt of what measured it, and what is wrong
//! with lines of the log, which every operation of the job then carries.

use super::order::{self, Task};
use super::together::stale::{Cut, Day};
use crate::job::{Address, JobFile, Ledger, Log, LogEntry, LogFault, LogFaultKind, LostLine, PartFacts, Warm, is_read};
use crate::operations::{
    Bench, CANNOT_READ, DOUBT_PLAUSIBLE, Declared, Left, OfPart, OfRow, Registered, read_left, read_row_left,
};
use crate::proof::{At, Check, Figure, Place, Verdict, Worked};
use crate::quantity::{Measured, Mm, Quantity, Row, Shift, Unit};
use crate::reading::{Problem, near};
use crate::shop::{Gauge, Shop};
use std::collections::{HashMap, HashSet};

/// A log as the operations of a job see it.
#[derive(Clone, Debug, Default)]
pub struct Logged {
    /// Sizes as they were left.
    pub(super) ledger: Ledger,
    /// What is doubtful because of the log: of one operation, or of every one.
    pub(super) doubtful: Vec<(Option<Address>, Check)>,
    /// What was done, by operation; without keys where only what is not of the part was written down.
    pub(super) cuts: Vec<Cut>,
    /// Work of which it says that all of it was done, and may have no figure of what was left.
    pub(super) said: Vec<Cut>,
    /// Work of which it says that it was done, or when it was finished.
    pub(super) told: Vec<Told>,
}

/// Work of which the log says that it was done, or when it was finished.
#[derive(Clone, Debug)]
pub(super) struct Told {
    /// Its operation.
    pub of: Address,
    /// Which of its job's that is.
    pub operation: usize,
    /// The set-up, as it was named; none where all of them are meant.
    pub set_up: Option<String>,
    /// The entry.
    pub entry: u32,
}

impl From<Ledger> for Logged {
    fn from(ledger: Ledger) -> Self {
        Self { ledger, ..Self::default() }
    }
}

impl Logged {
    /// What it tells of an operation.
    pub(super) fn logged(&self, of: &Address) -> Option<&Cut> {
        self.cuts.iter().find(|cut| cut.of == *of && cut.is_done())
    }

    /// What was done, also where somebody only says so: it proves nothing of what was left, and what was read before it is gone.
    pub(super) fn cuts_and_said(&self) -> Vec<Cut> {
        let said = self.said.iter().filter(|said| self.logged(&said.of).is_none());
        self.cuts
            .iter()
            .filter(|cut| cut.is_done() || !self.said.iter().any(|said| said.of == cut.of))
            .chain(said)
            .cloned()
            .collect()
    }

    /// Takes in what the log of a further job says, the `nth` of those given together: its lines stay its own.
    pub(crate) fn add(&mut self, other: Self, nth: u32) {
        self.ledger.add_left(other.ledger, nth.saturating_mul(LINES));
        self.doubtful.extend(other.doubtful);
        self.cuts.extend(other.cuts.into_iter().map(|cut| Cut { log: nth, ..cut }));
        self.said.extend(other.said.into_iter().map(|cut| Cut { log: nth, ..cut }));
        self.told.extend(other.told);
    }

    /// The same log with more that is doubtful of operations.
    pub(super) fn with_doubts(&self, more: Vec<(Option<Address>, Check)>) -> Self {
        let mut log = self.clone();
        log.doubtful.extend(more);
        log
    }

    /// Takes in that an entry tells of a value of an operation. What is not of the part (the piston, a ring, a shim) is known of it, and
    /// nothing was done to it by that.
    fn done(&mut self, of: &Address, (key, left): (&'static str, &Left), entry: &LogEntry) {
        if !left.is_foreign {
            self.cut(of, Some(key), entry);
        } else if !self.cuts.iter().any(|cut| cut.of == *of) {
            self.cuts.push(Cut::of(of, entry));
        }
    }

    /// Takes in that by an entry an operation was done: a value of it was left, or somebody says so.
    fn cut(&mut self, of: &Address, key: Option<&'static str>, entry: &LogEntry) {
        let days: Vec<Day> = key.iter().map(|key| Day::of(key, entry)).collect();
        let new = Cut { keys: key.into_iter().collect(), is_told: key.is_none(), days, ..Cut::of(of, entry) };
        match self.cuts.iter_mut().find(|cut| cut.of == *of) {
            Some(cut) if !cut.is_done() => *cut = new,
            Some(cut) => {
                cut.keys.extend(key);
                cut.days.extend(new.days);
                cut.is_told |= key.is_none();
                // Where one entry has no day nobody knows which was the last.
                cut.line = cut.line.max(new.line);
                (cut.entry, cut.date) = (new.entry, cut.date.zip(new.date).map(|(old, new)| old.max(new)));
                cut.first = cut.first.zip(new.first).map(|(old, new)| old.min(new));
            }
            None => self.cuts.push(new),
        }
    }
}

/// The addresses of a job's operations, in the order of the file.
pub fn addresses<R: Registered>(job: &JobFile<R>) -> Vec<Address> {
    let facts: Vec<PartFacts> = job.parts.iter().map(|part| part.facts()).collect();
    order::tasks((0, job, None), &facts).into_iter().map(|task| task.address).collect()
}

/// The addresses of other jobs' operations that a job goes on from, each once.
pub fn elsewhere<R: Registered>(job: &JobFile<R>) -> Vec<Address> {
    let facts: Vec<PartFacts> = job.parts.iter().map(|part| part.facts()).collect();
    let tasks = order::tasks((0, job, None), &facts);
    let own: HashSet<&Address> = tasks.iter().map(|task| &task.address).collect();
    let mut all = Vec::new();
    for need in tasks.iter().flat_map(|task| &task.named.addresses) {
        let owner = need.value.owner();
        if !own.contains(&owner) && !all.contains(&owner) {
            all.push(owner);
        }
    }
    all
}

/// More lines than a log has: the numbers of several logs stay apart by it.
const LINES: u32 = 10_000_000;

/// Reads what a log says of a job, up to an entry where one is named.
///
/// # Errors
/// Every entry that cannot be of this job: an operation that it has not, a name that the operation does not ask for, another unit, a
/// second figure of one value, an instrument that the shop has not.
pub fn logged<R: Registered>(
    job: &JobFile<R>,
    shop: Option<&Shop>,
    log: &Log,
    upto: Option<u32>,
) -> Result<Logged, Vec<Problem>> {
    // Most jobs have no log yet.
    if log.entries.is_empty() && log.lost.is_empty() && log.problems.is_empty() {
        return Ok(Logged { doubtful: faults(&log.faults), ..Logged::default() });
    }
    let facts: Vec<PartFacts> = job.parts.iter().map(|part| part.facts()).collect();
    let tasks = order::tasks((0, job, shop), &facts);
    let by_address: HashMap<&Address, &Task> = tasks.iter().rev().map(|task| (&task.address, task)).collect();
    let mut logged = Logged { doubtful: faults(&log.faults), ..Logged::default() };
    logged.doubtful.extend(log.lost.iter().flat_map(|lost| told_by_it(lost, log, &tasks)));
    let mut problems = log.problems.clone();
    let mut given: HashMap<(&Address, &str), u32> = HashMap::new();
    let ledger = Ledger::default();
    for entry in log.standing(upto) {
        let Some(of) = &entry.of else { continue };
        let Some(task) = by_address.get(&of.value) else {
            let known: Vec<String> = tasks.iter().map(|task| task.address.to_string()).collect();
            let names = near(&of.value.to_string(), known.iter().map(String::as_str));
            problems.push(Problem::new(
                of.place,
                format!("no operation of this job has the address `{of}`; {names}", of = of.value),
            ));
            continue;
        };
        if entry.done || entry.set_up.is_some() && entry.to.is_some() {
            let operation = tasks.iter().position(|task| task.address == of.value).unwrap_or_default();
            let (of, set_up) = (of.value.clone(), entry.set_up.as_ref().map(|at| at.value.clone()));
            logged.told.push(Told { of, operation, set_up, entry: entry.n.value });
        }
        // Where a size can be measured that alone proves what was done to the part.
        if entry.done && task.request.declared().iter().all(|declared| declared.left.is_none()) {
            logged.cut(&of.value, None, entry);
        } else if entry.done && entry.set_up.is_none() {
            logged.said.push(Cut { is_told: true, ..Cut::of(&of.value, entry) });
        }
        if let (Some(with), Some(shop)) = (&entry.with, shop)
            && shop.instrument(&with.value).is_none()
        {
            let names = near(&with.value, shop.instruments.iter().map(|i| i.name.value.as_str()));
            problems.push(Problem::new(with.place, format!("the shop has no instrument `{}`; {names}", with.value)));
        }
        let bench = Bench::new(shop, task.part, &task.address, &ledger);
        for (name, typed) in &entry.values {
            let (key, left) = match asked_for(task, name) {
                Ok(asked) => asked,
                Err(problem) => {
                    problems.push(problem);
                    continue;
                }
            };
            if let Some(first) = given.insert((&task.address, key), entry.n.value) {
                let says = format!(
                    "entry {first} gives `{key}` already: `corrects: {first}` (--corrects L{first}) puts this in its place"
                );
                problems.push(Problem::new(name.place, says));
                continue;
            }
            match figure(&bench, task, (key, &left), entry, typed) {
                Ok((figures, doubtful)) => {
                    for (key, figure) in figures {
                        logged.ledger.leave(&task.address, key, figure.left_by(entry.n.value));
                    }
                    logged.done(&task.address, (key, &left), entry);
                    let of_it = |check: Check| (Some(task.address.clone()), check.about(key));
                    logged.doubtful.extend(doubtful.into_iter().map(of_it));
                }
                Err(says) => problems.push(Problem::new(typed.place, says)),
            }
        }
    }
    if problems.is_empty() { Ok(logged) } else { Err(problems) }
}

/// The value that a name of an entry means, where the operation asks the log for it.
fn asked_for(task: &Task, name: &At<String>) -> Result<(&'static str, Left), Problem> {
    let asked: Vec<_> = task.request.declared().into_iter().filter_map(|d| Some((d.key, d.left?))).collect();
    if let Some(found) = asked.iter().find(|(key, _)| *key == name.value) {
        return Ok(*found);
    }
    let names: Vec<&str> = asked.iter().map(|asked| asked.0).collect();
    let says = match names.is_empty() {
        true => format!("`{}` asks the log for no figure: that it was done is said by `done=yes`", task.address),
        false => format!("`{}` does not ask the log for `{}`; {}", task.address, name.value, near(&name.value, names)),
    };
    Err(Problem::new(name.place, says))
}

/// A figure of an entry: at 20 °C, with the doubt of the instrument that was named, else as typed, else of the shop's own.
fn figure(
    bench: &Bench,
    task: &Task,
    (key, left): (&'static str, &Left),
    entry: &LogEntry,
    typed: &At<String>,
) -> Result<(Vec<OfRow>, Vec<Check>), String> {
    let read = match (left.read(&typed.value), typed.value.parse::<Row<Shift>>()) {
        (Ok(read), _) => read,
        (Err(_), Ok(row)) if left.unit() == Unit::Mm && row.reads.len() > 1 => {
            return row_figure(bench, task, (key, left), entry, &At { value: row, place: typed.place });
        }
        (Err(misread), _) => return Err(misread.to_string()),
    };
    if read.plus_minus == Some(0.0) {
        return Err("no reading is without doubt: leave ± out to take the instrument's".into());
    }
    let (n, unit) = (entry.n.value, left.unit());
    if unit != Unit::Mm {
        let doubt = read.plus_minus.or(read.grain.map(|grain| grain / 2.0)).unwrap_or_default();
        return Ok((vec![(key, Figure::as_left(read.value, unit, doubt, n))], Vec::new()));
    }
    // What is made between two faces is a size; a clearance, a float or how deep a thing sits may be next to nothing.
    let is_made = |own: &Declared| own.key == key && matches!(own.part, Some(OfPart::Leaves(_) | OfPart::Opens(_)));
    let is_across = matches!(left.gauge, Gauge::Outside | Gauge::Inside);
    if is_across && task.request.declared().into_iter().any(is_made) {
        is_read(read.value, read.plus_minus.unwrap_or_default())?;
    }
    if left.is_foreign && entry.at.is_some() {
        return Err(format!("`{key}` is not of the part's metal: measure it at 20 degC, and leave `at` out"));
    }
    let size = Measured { value: Mm::new(read.value), plus_minus: read.plus_minus, grain: read.grain };
    let warm = entry.at.as_ref().map(|at| Warm { at: at.clone(), gauge_at: entry.gauge_at.clone() });
    let with = entry.with.as_ref().map(|with| with.value.as_str());
    let found = read_left(bench, key, left.gauge, &size, (with, warm.as_ref()), typed.place);
    let (worked, checks) = found.map_err(|refusal| refusal.to_string())?;
    Ok((vec![(key, worked.figure())], checks))
}

/// A figure out of readings in a row: as the operation makes one of them, else the size at several places, which lies between the
/// least and the greatest of them.
fn row_figure(
    bench: &Bench,
    task: &Task,
    (key, left): (&'static str, &Left),
    entry: &LogEntry,
    row: &At<Row<Shift>>,
) -> Result<(Vec<OfRow>, Vec<Check>), String> {
    if entry.at.is_some() {
        return Err("readings in a row are taken at 20 degC: give one figure of a part that was warm".into());
    }
    let with = entry.with.as_ref().map(|with| with.value.as_str());
    let found = read_row_left(bench, key, left.gauge, row, with);
    let (reads, checks) = found.map_err(|refusal| refusal.to_string())?;
    let made = match task.request.operation().left_of_row(key, &reads) {
        Some(made) => made.map_err(|refusal| refusal.to_string())?,
        None => vec![(key, between(&reads).ok_or("nothing was read")?.figure())],
    };
    Ok((made, checks))
}

/// The middle of readings of one size at several places, with all of them as its band.
fn between(reads: &[Worked<Shift>]) -> Option<Worked<Mm>> {
    let by_size = |a: &&Worked<Shift>, b: &&Worked<Shift>| a.number().total_cmp(&b.number());
    let (least, most) = (reads.iter().min_by(by_size)?, reads.iter().max_by(by_size)?);
    let middle = (least.number() + most.number()) / 2.0;
    let read = most.becomes::<Mm>().shifted(middle - most.number(), "the middle of the readings");
    Some(if most.number() > least.number() { read.with_spread(least.number(), most.number()) } else { read })
}

/// What is wrong with lines of the log, the first of each kind quoted: it makes every operation doubtful, because nobody knows of
/// which the line told.
fn faults(faults: &[LogFault]) -> Vec<(Option<Address>, Check)> {
    LogFaultKind::ALL
        .into_iter()
        .filter_map(|kind| {
            let first = faults.iter().find(|fault| fault.kind == kind)?;
            let check = Check::of_kind(kind.id(), Verdict::Doubtful).of_every_set_up();
            let check = match kind {
                LogFaultKind::Changed => {
                    let all: Vec<String> = faults.iter().filter(|fault| fault.kind == kind).map(which).collect();
                    check.with("line", all.join(", ")).with("stood", first.between.1.to_string())
                }
                _ => check.with("line", first.line.to_string()),
            };
            Some((None, check.with("quoted", quoted(&first.text))))
        })
        .collect()
}

/// The line that was changed, or the lines of which it is one.
fn which(fault: &LogFault) -> String {
    let (from, to) = (fault.between.0, fault.line);
    if from == to { to.to_string() } else { format!("{from}..{to}") }
}

/// What is doubtful because a line was cut off that told of an operation, and of that nothing was written down since; where nobody
/// can read of which, it may be each of which that is so.
fn told_by_it(lost: &LostLine, log: &Log, tasks: &[Task]) -> Vec<(Option<Address>, Check)> {
    let since = |of: &Address| {
        let mut later = log.standing(None).filter(|entry| entry.place.line > lost.line);
        later.any(|entry| entry.of.as_ref().is_some_and(|told| told.value == *of))
    };
    let meant = tasks.iter().map(|task| &task.address).filter(|of| lost.of.as_ref().is_none_or(|lost| lost == *of));
    let open = meant.filter(|of| !since(of)).map(|of| {
        let check = Check::of_kind("log-lost", Verdict::Doubtful).of_every_set_up();
        let check = check.with("line", lost.line.to_string()).with("quoted", quoted(&lost.text));
        (Some(of.clone()), check)
    });
    open.collect()
}

/// Letters of a bad line that are quoted on a page.
const QUOTED: usize = 60;

fn quoted(text: &str) -> String {
    let begins: String = text.chars().take(QUOTED).collect();
    if text.chars().nth(QUOTED).is_some() { format!("{begins}…") } else { begins }
}

impl Logged {
    /// The places of figures that the instrument which was named cannot have read.
    pub(crate) fn misread(&self) -> impl Iterator<Item = Place> {
        let cannot = |check: &&Check| check.remedies.iter().any(|remedy| remedy.words.id == CANNOT_READ);
        self.doubtful.iter().map(|(_, check)| check).filter(cannot).filter_map(|check| check.place)
    }

    /// Whether what was read of an operation when it was done is doubtful as a reading.
    pub(super) fn is_doubted(&self, address: &Address) -> bool {
        self.doubtful.iter().any(|(of, check)| of.as_ref() == Some(address) && check.id == DOUBT_PLAUSIBLE.id)
    }

    /// What is doubtful of one operation because of the log, at the place of its part.
    pub(super) fn doubtful(&self, address: &Address, place: Place) -> impl Iterator<Item = Check> {
        let own = move |of: &Option<Address>| of.as_ref().is_none_or(|of| of == address);
        self.doubtful.iter().filter(move |(of, _)| own(of)).map(move |(_, check)| check.clone().at(place))
    }
}
