//! Loading a run's inputs: jobs, the shop that each names, cards beside the jobs. All problems of all inputs in one run.

use super::keys::example_of;
use super::stop::SHOWN;
use super::today::not_yet;
use crate::files::{FileFault, read_bytes_if_there, read_standard_input, read_text, whole_path};
use crate::job::{JobFile, Log, NearInLog};
use crate::operations::{Registered, Request};
use crate::plan::decide::{Decided, decide};
use crate::plan::{
    Cards, Change, Given, Logged, Plan, Planned, addresses, by_their_entries, changes, logged, no_longer,
    no_longer_since, work, work_each_in_a_line, work_each_to_print, work_to_print, work_together, worked_by_log,
};
use crate::proof::{At, Place};
use crate::quantity::Print;
use crate::reading::{Node, Problem, Text, by_example};
use crate::shop::Shop;
use std::path::{Path, PathBuf};

/// In a log of more lines than this a job is not worked again for every line.
pub(super) const LINES: u32 = 1000;

/// How jobs are worked to plans.
type Work = fn(&[Given<Request>]) -> Result<Vec<Plan>, Vec<Problem>>;

/// A job as it was read, with its shop and its log.
struct OneJob<'a> {
    path: &'a Path,
    job: JobFile<Request>,
    shop: Option<Shop>,
    log: Log,
}

/// The texts of a run and the problems found in them.
#[derive(Default)]
pub(super) struct Inputs {
    pub texts: Vec<Text>,
    pub problems: Vec<Problem>,
    /// Every file that was read: none of them is ever written.
    pub files: Vec<PathBuf>,
    /// The units of print, in place of the shop's.
    print: Option<Print>,
    /// The shops that were read, each once: its instruments are the same for every job, and so is what is wrong in one, which is none.
    shops: Vec<(PathBuf, Option<Shop>)>,
}

/// What the log changed.
#[derive(Default)]
pub(super) struct Since {
    pub changes: Vec<Change>,
    /// What held before anything was logged and by those entries holds no longer.
    pub no_longer: Vec<Change>,
    /// The number of the last entry.
    pub last: u32,
}

impl Inputs {
    /// Those of a run in these units, whatever the shop prints in.
    pub(super) fn printing(units: Option<impl Into<Print>>) -> Self {
        Self { print: units.map(Into::into), ..Self::default() }
    }

    /// The units of print where there is this shop, or none.
    pub(super) fn units_of(&self, shop: Option<&Shop>) -> Print {
        self.print.or_else(|| shop.map(|shop| shop.units)).unwrap_or_default()
    }

    /// Takes a text in and says where it begins.
    pub(super) fn text(&mut self, name: impl Into<String>, text: impl Into<String>) -> Place {
        let source = u32::try_from(self.texts.len()).unwrap_or(u32::MAX);
        self.texts.push(Text { name: name.into(), text: text.into() });
        Place::start(source)
    }

    /// Reads a YAML file as a tree.
    fn yaml(&mut self, path: &Path, asked_at: Option<Place>) -> Option<Node> {
        let read = if path.as_os_str() == "-" { read_standard_input() } else { read_text(path) };
        let text = match read {
            Ok(text) => text,
            Err(fault) => {
                self.unreadable(path, &fault, asked_at);
                return None;
            }
        };
        self.files.push(path.into());
        let name = if path.as_os_str() == "-" { "standard input".to_owned() } else { path.display().to_string() };
        let start = self.text(name, text.clone());
        Node::yaml(&text, start).map_err(|problem| self.problems.push(problem)).ok()
    }

    fn unreadable(&mut self, path: &Path, fault: &FileFault, asked_at: Option<Place>) {
        let place = match fault {
            FileFault::NotText { line, .. } => {
                let start = self.text(path.display().to_string(), "");
                Some(Place { line: u32::try_from(*line).unwrap_or(1), ..start })
            }
            // The file as a whole.
            _ => asked_at.or_else(|| Some(Place { line: 0, ..self.text(path.display().to_string(), "") })),
        };
        let longer = path.with_extension("yaml");
        let says = match longer.is_file() && !path.exists() {
            true => format!("{fault}; did you mean `{}`?", longer.display()),
            // Its line stands before it.
            false if matches!(fault, FileFault::NotText { .. }) => fault.says(),
            false => fault.to_string(),
        };
        self.problems.push(Problem::new(place, says));
    }

    /// Reads a shop; one that was read before is the same shop.
    pub(super) fn shop(&mut self, path: &Path, asked_at: Option<Place>) -> Option<Shop> {
        let whole = whole_path(path);
        if let Some((_, shop)) = self.shops.iter().find(|(known, _)| *known == whole) {
            return shop.clone();
        }
        let shop = self.new_shop(path, asked_at);
        self.shops.push((whole, shop.clone()));
        shop
    }

    fn new_shop(&mut self, path: &Path, asked_at: Option<Place>) -> Option<Shop> {
        let node = self.yaml(path, asked_at)?;
        if node.under("parts").is_some() && node.under("machines").is_none() {
            let says =
                "this is a job file: a shop has `machines`, `tools` and `instruments`; jobs are given without --shop";
            self.problems.push(Problem::new(node.place(), says));
            return None;
        }
        let mut shop: Shop = node.read_known().map_err(|all| self.problems.extend(all)).ok()?;
        let problems = shop.problems();
        self.problems.extend(problems);
        shop.units = self.print.unwrap_or(shop.units);
        Some(shop)
    }

    /// The cards of a job: built in, or the shop's own copies in `ops/` beside it.
    pub(super) fn cards(&mut self, words: &[&str], beside: Option<&Path>) -> Option<Cards> {
        let mut cards = Cards::built_in(words.iter().copied()).map_err(|all| self.problems.extend(all)).ok()?;
        cards = cards.printing(self.print);
        for word in words {
            let Some(path) = beside.map(|folder| folder.join("ops").join(format!("{word}.yaml"))) else { continue };
            // The project's own cards lie in `ops/` too; a copy that is the built-in one changes nothing.
            if !path.is_file() {
                continue;
            }
            match read_text(&path) {
                Ok(text) => {
                    self.files.push(path.clone());
                    cards.put_own(word, path.display().to_string(), text);
                }
                // Like any other slip in an own card it costs its operation, not the job.
                Err(fault) => cards.put_unread(word, path.display().to_string(), fault.line(), fault.says()),
            }
        }
        Some(cards)
    }

    /// Works a job that was read.
    pub(super) fn work(&mut self, job: &JobFile<Request>, shop: Option<&Shop>, beside: Option<&Path>) -> Option<Plan> {
        let cards = self.cards(&words_of(job), beside)?;
        work(job, shop, &cards, Logged::default()).map_err(|all| self.problems.extend(all)).ok()
    }

    /// The log beside a job; an empty one where there is none.
    pub(super) fn log(&mut self, job: &Path) -> Option<Log> {
        if job.as_os_str() == "-" {
            return Some(Log::default());
        }
        let path = log_of(job);
        let read = read_bytes_if_there(&path);
        self.files.push(path.clone());
        match read {
            Ok(bytes) => Some(bytes.map_or_else(Log::default, |bytes| self.log_text(&path, &bytes, None))),
            Err(fault) => {
                self.problems.push(Problem::new(None, fault.to_string()));
                None
            }
        }
    }

    /// Takes the bytes of a log in: the whole, or what new lines may meet.
    pub(super) fn log_text(&mut self, path: &Path, bytes: &[u8], near: Option<&NearInLog>) -> Log {
        let start = self.text(path.display().to_string(), String::from_utf8_lossy(bytes));
        Log::read_near(bytes, start, near)
    }

    /// Reads a job file with its shop.
    pub(super) fn job_and_shop(
        &mut self,
        path: &Path,
        shop: Option<&Path>,
    ) -> Option<(JobFile<Request>, Option<Shop>)> {
        let folder = path.parent();
        let node = self.yaml(path, None)?;
        if node.under("parts").is_none() && node.under("machines").is_some() {
            let says = "this is a shop file: a job has `job` and `parts`, and names its shop by `shop: FILE`";
            self.problems.push(Problem::new(node.place(), says));
            return None;
        }
        let named = node.text_under("shop").map(|(name, place)| At { value: name.to_owned(), place });
        let job = JobFile::<Request>::read(node).map_err(|all| self.problems.extend(all)).ok();
        self.problems.extend(job.iter().flat_map(not_yet));
        let wanted: Option<(PathBuf, Option<Place>)> = match (shop, named) {
            (Some(path), _) => Some((path.into(), None)),
            (None, Some(at)) => Some((folder.unwrap_or(Path::new("")).join(&at.value), Some(at.place))),
            (None, None) => None,
        };
        let shop = match wanted {
            Some((path, place)) => Some(self.shop(&path, place)?),
            None => None,
        };
        Some((job?, shop))
    }

    /// Reads jobs that are to be worked, each with its log; those that cannot be read are not among them.
    fn with_logs<'a>(&mut self, paths: &'a [PathBuf], shop: Option<&Path>) -> Vec<OneJob<'a>> {
        let read = paths.iter().filter_map(|path| {
            let (job, shop) = self.job_and_shop(path, shop)?;
            Some(OneJob { path, job, shop, log: self.log(path)? })
        });
        let all: Vec<OneJob> = read.collect();
        let idle = |one: &OneJob| one.job.parts.iter().all(|part| part.operations.is_empty());
        if all.iter().all(idle) {
            let says = "this job asks for no operation; `setover decide` says what must be done with what was found";
            self.problems.extend(all.first().map(|one| Problem::new(one.job.job.place, says)));
        }
        all
    }

    /// Works jobs as one set, with the entries of the log of each by its place up to one, or all.
    fn together<T>(
        &mut self,
        jobs: &[OneJob],
        upto: impl Fn(usize) -> Option<u32>,
        work: impl Fn(&[Given<Request>]) -> Result<T, Vec<Problem>>,
    ) -> Option<T> {
        self.with_entries(jobs, |nth| Some((&jobs.get(nth)?.log, upto(nth))), work)
    }

    /// The same with the entries of the log of each, by its place, that are given.
    fn with_entries<'l, T>(
        &mut self,
        jobs: &[OneJob],
        entries: impl Fn(usize) -> Option<(&'l Log, Option<u32>)>,
        work: impl Fn(&[Given<Request>]) -> Result<T, Vec<Problem>>,
    ) -> Option<T> {
        let before = self.problems.len();
        let cards: Vec<Option<Cards>> =
            jobs.iter().map(|one| self.cards(&words_of(&one.job), one.path.parent())).collect();
        let mut given = Vec::with_capacity(jobs.len());
        for (nth, (one, cards)) in jobs.iter().zip(&cards).enumerate() {
            let Some((entries, upto)) = entries(nth) else { continue };
            let log = logged(&one.job, one.shop.as_ref(), entries, upto);
            let log =
                log.map_err(|all| self.problems.extend(all.into_iter().map(|it| renamed(&one.job, &one.log, it)))).ok();
            if let (Some(log), Some(cards)) = (log, cards) {
                given.push(Given { job: &one.job, shop: one.shop.as_ref(), cards, log });
            }
        }
        let worked = work(&given).map_err(|all| self.problems.extend(all)).ok();
        worked.filter(|_| self.problems.len() == before)
    }

    /// Works jobs as one set, and holds the plans against those as they were before anything was logged.
    fn held(&mut self, work: Work, jobs: &[OneJob]) -> Vec<Plan> {
        let Some(mut plans) = self.together(jobs, |_| None, work) else { return Vec::new() };
        for (plan, one) in plans.iter_mut().zip(jobs) {
            match worked_by_log(plan, &one.log) {
                Ok(all) => plan.worked = all,
                Err(problems) => self.problems.extend(problems),
            }
        }
        if jobs.iter().any(|one| !one.log.entries.is_empty())
            && let Some(unlogged) = self.together(jobs, |_| Some(0), work)
        {
            let logs: Vec<&Log> = jobs.iter().map(|one| &one.log).collect();
            let mut all = no_longer(&unlogged, &plans, &logs);
            all.iter_mut().for_each(|own| self.caused(jobs, own, work));
            plans.iter_mut().zip(all).for_each(|(plan, own)| plan.no_longer = own);
        }
        plans
    }

    /// Jobs worked with the entries of the log of the first up to one, or all; nothing where something cannot be read.
    pub(super) fn upto(mut self, paths: &[PathBuf], shop: Option<&Path>, upto: Option<u32>) -> Option<Vec<Plan>> {
        let jobs = self.with_logs(paths, shop);
        let plans = self.together(&jobs, |nth| upto.filter(|_| nth == 0), work_together);
        plans.filter(|_| self.problems.is_empty())
    }

    /// What the entries of each log after one changed in the plans of jobs, and what by them holds no longer.
    pub(super) fn since(&mut self, paths: &[PathBuf], shop: Option<&Path>, since: u32) -> Since {
        let jobs = self.with_logs(paths, shop);
        let last = jobs.iter().map(|one| one.log.last).max().unwrap_or(0);
        if since > last {
            let says = match last {
                0 => format!("there is no L{since}: nothing is in the log yet"),
                last => format!(
                    "there is no L{since}: the last entry is L{last}; --since L0 shows what all of them changed"
                ),
            };
            self.problems.push(Problem::new(None, says));
            return Since::default();
        }
        let mut upto = |upto| self.together(&jobs, |_| upto, work_together);
        let (Some(unlogged), Some(old), Some(new)) = (upto(Some(0)), upto(Some(since)), upto(None)) else {
            return Since::default();
        };
        let logs: Vec<&Log> = jobs.iter().map(|one| &one.log).collect();
        let by_then = |change: &Change| change.entry.is_some_and(|entry| entry > since);
        let mut no_longer = no_longer_since(&unlogged, &old, &new, &logs);
        let mut changes = changes(&old, &new, &logs, since);
        [&mut no_longer, &mut changes].into_iter().for_each(|all| self.caused(&jobs, all, work_together));
        no_longer.retain(by_then);
        Since { changes, no_longer, last }
    }

    /// Puts to what the logs changed the entries by which it did, where they are short enough to be worked again and again.
    fn caused(&mut self, jobs: &[OneJob], all: &mut [Change], work: Work) {
        let logs: Vec<(&str, &Log)> = jobs.iter().map(|one| (one.job.job.value.as_str(), &one.log)).collect();
        if logs.iter().all(|(_, log)| log.last <= LINES) {
            let logs_then: Vec<Log> = jobs.iter().map(|one| one.log.without_what_was_taken_back()).collect();
            by_their_entries(all, &logs, |nth, n| {
                let log = |at: usize| Some((logs_then.get(at)?, (at == nth).then_some(n)));
                self.with_entries(jobs, log, work)
            });
        }
    }

    /// Reads all jobs as one, works them and decides over their parts.
    pub(super) fn decided(&mut self, paths: &[PathBuf], shop: Option<&Path>) -> Option<Decided> {
        let mut together: Option<(JobFile<Request>, Option<Shop>)> = None;
        let (mut counts, mut log) = (Vec::new(), Logged::default());
        for (path, nth) in paths.iter().zip(0..) {
            let Some((job, shop)) = self.job_and_shop(path, shop) else { continue };
            let own = self.log(path)?;
            let told = logged(&job, shop.as_ref(), &own, None);
            let own = told.map_err(|all| self.problems.extend(all.into_iter().map(|it| renamed(&job, &own, it)))).ok();
            log.add(own.unwrap_or_default(), nth);
            counts.push((job.job.value.clone(), job.parts.iter().map(|part| part.operations.len()).sum::<usize>()));
            match &mut together {
                None => together = Some((job, shop)),
                Some((all, first)) => {
                    let name = |shop: &Option<Shop>| shop.as_ref().map(|shop| shop.shop.value.clone());
                    if name(first) != name(&shop) {
                        let says = "jobs given together are of one shop: name the same in each, or give --shop";
                        self.problems.push(Problem::new(job.job.place, says));
                    }
                    all.add(job);
                }
            }
        }
        let (job, shop) = together.filter(|_| self.problems.is_empty())?;
        let cards = self.cards(&words_of(&job), paths.first().and_then(|path| path.parent()))?;
        let plan = work(&job, shop.as_ref(), &cards, log.clone()).map_err(|all| self.problems.extend(all)).ok()?;
        let decided = decide(&job, (&plan, &counts), (shop.as_ref(), &cards), &log, Request::WORDS);
        decided.map_err(|all| self.problems.extend(all)).ok()
    }

    /// Reads and works all jobs.
    pub(super) fn jobs(&mut self, paths: &[PathBuf], shop: Option<&Path>) -> Vec<Plan> {
        let jobs = self.with_logs(paths, shop);
        with_work(self.held(work_together, &jobs), |plan| plan.operations.is_empty())
    }

    /// The same, one operation after the other, where there are several and no log tells of them: what `each` makes of an operation is
    /// kept, and the operation is not.
    pub(super) fn each_or_whole<T: Send>(
        &mut self,
        paths: &[PathBuf],
        shop: Option<&Path>,
        each: impl Fn(&Plan, &Planned, usize) -> T + Sync,
    ) -> Result<Vec<Vec<T>>, Vec<Plan>> {
        let jobs = self.with_logs(paths, shop);
        let count: usize = jobs.iter().flat_map(|one| &one.job.parts).map(|part| part.operations.len()).sum();
        if count < 2 || jobs.iter().any(|one| !one.log.entries.is_empty()) {
            return Err(with_work(self.held(work_together, &jobs), |plan| plan.operations.is_empty()));
        }
        let made = |plan: &Plan, planned: Planned, number| each(plan, &planned, number);
        let all = self.together(&jobs, |_| None, |given| work_each_in_a_line(given, made)).unwrap_or_default();
        Ok(with_work(all.into_iter().map(|(_, made)| made).collect(), Vec::is_empty))
    }

    /// The same for an output that shows every limit of a hold point, and of which nothing is shaken.
    pub(super) fn jobs_to_print(&mut self, paths: &[PathBuf], shop: Option<&Path>) -> Vec<Plan> {
        let jobs = self.with_logs(paths, shop);
        with_work(self.held(work_to_print, &jobs), |plan| plan.operations.is_empty())
    }

    /// Reads and works all jobs to be printed, one operation after the other: what `each` makes of an operation, by its number in
    /// its job, is kept, and the operation is not.
    pub(super) fn each_to_print<T: Send>(
        &mut self,
        paths: &[PathBuf],
        shop: Option<&Path>,
        each: impl Fn(&Plan, Planned, usize) -> T + Sync,
    ) -> Vec<(Plan, Vec<T>)> {
        let jobs = self.with_logs(paths, shop);
        let all = self.together(&jobs, |_| None, |given| work_each_to_print(given, &each)).unwrap_or_default();
        with_work(all, |(_, made)| made.is_empty())
    }

    /// The answer, unless something cannot be read.
    pub(super) fn settle<T>(self, answer: T) -> Result<T, super::Stop> {
        let print = self.units_of(self.shops.iter().find_map(|(_, shop)| shop.as_ref()));
        // Of more than are shown nobody sees the example.
        let by_example = |(nth, problem): (usize, Problem)| match nth < SHOWN {
            true => by_example(problem.in_print(print), |word, key| example_of(word, key, print)),
            false => problem,
        };
        let told: Vec<Problem> = self.problems.into_iter().enumerate().map(by_example).collect();
        if told.is_empty() { Ok(answer) } else { Err(super::Stop::Input(told, self.texts)) }
    }
}

/// A problem of a log; of a line whose operation the job has no more it says what is to be done. No line of a log is ever edited: it is the
/// job that goes back to the name.
fn renamed(job: &JobFile<Request>, log: &Log, mut problem: Problem) -> Problem {
    let known = addresses(job);
    let of_line = log.entries.iter().find(|entry| {
        entry.of.as_ref().is_some_and(|of| Some(of.place) == problem.place && !known.contains(&of.value))
    });
    if let Some(entry) = of_line {
        let n = format!("L{}", entry.n.value);
        let says = format!(
            "; if it was called that when {n} was written, call it that again in the job: no line of a log is edited (--withdraws {n} takes it back)"
        );
        problem.says.push_str(&says);
    }
    problem
}

/// The jobs that have work: a file of readings alone has no sheet, and takes no number from those that have. Where none has any, all.
fn with_work<T>(mut jobs: Vec<T>, is_empty: impl Fn(&T) -> bool) -> Vec<T> {
    if jobs.iter().any(|job| !is_empty(job)) {
        jobs.retain(|job| !is_empty(job));
    }
    jobs
}

/// The log of a job: beside it, by its name.
pub(super) fn log_of(job: &Path) -> PathBuf {
    job.with_extension("log.yaml")
}

/// The words of the operations of a job, each once.
fn words_of(job: &JobFile<Request>) -> Vec<&'static str> {
    let mut words: Vec<&str> = job.parts.iter().flat_map(|part| &part.operations).map(Request::word).collect();
    words.sort_unstable();
    words.dedup();
    words
}
