//! Reading a log line by line.

use super::entry::Entry;
use super::sum::parted;
use crate::in_order::InOrder;
use crate::job::Address;
use crate::proof::Place;
use crate::reading::{Node, Problem};
use std::collections::{BTreeMap, BTreeSet, HashMap};

/// What is wrong with a line.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FaultKind {
    /// The last line was cut off: its figures are not used.
    Torn,
    /// It cannot be read: its figures are not used.
    Broken,
    /// It was changed after it was written; figures are used.
    Changed,
    /// Two lines have its number: neither is used.
    Doubled,
}

impl FaultKind {
    /// Every kind.
    pub const ALL: [Self; 4] = [Self::Torn, Self::Broken, Self::Changed, Self::Doubled];

    /// The id of its words in the card.
    pub const fn id(self) -> &'static str {
        match self {
            Self::Torn => "log-torn",
            Self::Broken => "log-broken",
            Self::Changed => "log-changed",
            Self::Doubled => "log-doubled",
        }
    }
}

/// What is wrong with a line, and what it says.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fault {
    /// What is wrong.
    pub kind: FaultKind,
    /// The line of the file, from one.
    pub line: u32,
    /// Where it was changed: the first line that may be it, for a line without a sum is held by the next that has one, and the last
    /// that stood there when it was changed.
    pub between: (u32, u32),
    /// The line as it stands there.
    pub text: String,
}

/// A line that was cut off and turned into a remark: what it told of is known no more.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Lost {
    /// The operation that it told of, where that stands whole in it.
    pub of: Option<Address>,
    /// The line of the file, from one.
    pub line: u32,
    /// What is left of it.
    pub text: String,
}

/// A log as it was read.
#[derive(Clone, Debug, Default)]
pub struct Log {
    /// Its entries in their order; those of which two have one number are not among them.
    pub entries: Vec<Entry>,
    /// What is wrong with lines, in their order.
    pub faults: Vec<Fault>,
    /// What no log can say, each at its place.
    pub problems: Vec<Problem>,
    /// Where its text begins.
    pub start: Place,
    /// The greatest number in it.
    pub last: u32,
    /// What lines told of that were cut off and turned into remarks, in their order.
    pub lost: Vec<Lost>,
    /// The numbers of entries that count no more.
    gone: BTreeSet<u32>,
    /// The numbers of entries that were passed over, because nothing that is to be written touches them.
    passed: BTreeSet<u32>,
}

/// What new lines may meet in those that are there: names of values that they give, and entries that they correct or take back.
#[derive(Clone, Debug, Default)]
pub struct Near {
    /// Names of values.
    pub names: Vec<String>,
    /// Numbers of entries.
    pub numbers: BTreeSet<u32>,
    /// The number of the first new line, once it stands there.
    pub first: Option<u32>,
}

impl Near {
    /// The number of a line that says nothing of all this: as the program writes lines, with its sum right, so that it was looked
    /// at when it was written. None where it must be read.
    fn passes(&self, row: &Row) -> Option<u32> {
        let text = std::str::from_utf8(row.text).ok().filter(|_| row.whole && row.sum == Some(true))?;
        let (n, rest) = text.strip_prefix("- {n: ")?.split_once(", ")?;
        let is_old = |n: &u32| self.first.is_none_or(|first| *n < first) && !self.numbers.contains(n);
        let n = n.parse().ok().filter(is_old)?;
        let meets = |word: &str| memchr::memmem::find(rest.as_bytes(), word.as_bytes()).is_some();
        let takes_back = meets("corrects: ") || meets("withdraws: ");
        (!takes_back && !self.names.iter().any(|name| meets(name))).then_some(n)
    }
}

/// A line while it is read.
struct Row<'a> {
    number: u32,
    text: &'a [u8],
    /// Whether its sum is right; none where it has none.
    sum: Option<bool>,
    /// The first line that a wrong sum tells of, where it is wrong by more than what the sum before it tells of already.
    changed_from: Option<u32>,
    /// Whether it ends as a line does.
    whole: bool,
}

impl Log {
    /// Reads a log; its places are those of the text that begins at `start`.
    pub fn read(bytes: &[u8], start: Place) -> Self {
        Self::read_near(bytes, start, None)
    }

    /// Reads of a log what new lines may meet, where that is said; of the other lines the number and the sum alone.
    pub fn read_near(bytes: &[u8], start: Place, near: Option<&Near>) -> Self {
        let rows = rows(bytes);
        let mut log = Self { start, ..Self::default() };
        let torn = log.sums(&rows);
        // Lines that could not be read may have had numbers.
        let mut unread = 0;
        let mut seen: BTreeMap<u32, u32> = BTreeMap::new();
        let mut doubled: BTreeSet<u32> = BTreeSet::new();
        for row in rows.iter().filter(|row| Some(row.number) != torn) {
            if let Some(n) = near.and_then(|near| near.passes(row)).filter(|n| *n == log.last + 1) {
                (log.last, unread) = (n, 0);
                seen.insert(n, row.number);
                log.passed.insert(n);
                continue;
            }
            let place = Place { line: row.number, length: line_length(row.text), ..start };
            let Some(node) = node_of(row.text, place) else {
                let last = rows.last().is_some_and(|last| last.number == row.number);
                log.fault(if last { FaultKind::Torn } else { FaultKind::Broken }, row);
                unread += 1;
                continue;
            };
            let entry = match Entry::read(node, place) {
                Ok(entry) => entry,
                Err(problems) => {
                    log.problems.extend(problems);
                    unread += 1;
                    continue;
                }
            };
            let n = entry.n.value;
            if let Some(line) = seen.get(&n) {
                if doubled.insert(n)
                    && let Some(first) = rows.iter().find(|row| row.number == *line)
                {
                    log.fault(FaultKind::Doubled, first);
                }
                log.fault(FaultKind::Doubled, row);
                continue;
            }
            if n <= log.last || n > log.last + 1 + unread {
                let says = format!("the entry after {} has the number {}, not {n}", log.last, log.last + 1);
                log.problems.push(Problem::new(entry.n.place, says));
            }
            (log.last, unread) = (log.last.max(n), 0);
            seen.insert(n, row.number);
            log.entries.push(entry);
        }
        log.entries.retain(|entry| !doubled.contains(&entry.n.value));
        log.stand_in_their_places();
        log.takes_back();
        log.lost = lost(bytes, start);
        log.faults.order_by_key(|fault| fault.line);
        log
    }

    /// Looks at the ends and the sums of all lines; gives the line that is torn.
    fn sums(&mut self, rows: &[Row]) -> Option<u32> {
        let (last, before) = rows.split_last()?;
        // Of a line that was written behind a change the sum is right again.
        let stood = rows.iter().rfind(|row| row.sum == Some(false)).map_or(0, |row| row.number);
        for row in before.iter().filter(|row| row.changed_from.is_some()) {
            self.fault(FaultKind::Changed, row);
            if let (Some(fault), Some(from)) = (self.faults.last_mut(), row.changed_from) {
                fault.between = (from, stood);
            }
        }
        let torn = !last.whole || last.changed_from.is_some();
        if torn {
            self.fault(FaultKind::Torn, last);
        }
        torn.then_some(last.number)
    }

    fn fault(&mut self, kind: FaultKind, row: &Row) {
        let text = String::from_utf8_lossy(row.text).trim_end().to_owned();
        self.faults.push(Fault { kind, line: row.number, between: (row.number, row.number), text });
    }

    /// Where each entry stands that was written in the place of another.
    fn stand_in_their_places(&mut self) {
        let mut at: BTreeMap<u32, u32> = BTreeMap::new();
        for entry in &mut self.entries {
            let of_other = entry.corrects.as_ref().and_then(|other| at.get(&other.value));
            entry.stands_at = of_other.copied().unwrap_or(entry.n.value);
            at.insert(entry.n.value, entry.stands_at);
        }
    }

    /// Which entries count no more, because a later one corrects them or takes them back.
    fn takes_back(&mut self) {
        let mut known: BTreeSet<u32> = self.entries.iter().map(|entry| entry.n.value).collect();
        known.extend(&self.passed);
        let take = |entry: &Entry| Some((entry.n.value, entry.withdraws.as_ref()?.value));
        let backs: BTreeMap<u32, u32> = self.entries.iter().filter_map(take).collect();
        let doubled = self.faults.iter().any(|fault| fault.kind == FaultKind::Doubled);
        let mut gone = Gone::default();
        for entry in &self.entries {
            let was_gone = |n: u32| gone.numbers.contains(&n);
            let Some(other) = entry.corrects.as_ref().or(entry.withdraws.as_ref()) else { continue };
            let (n, taken) = (entry.n.value, other.value);
            if taken >= n || (!known.contains(&taken) && !doubled) {
                let says = format!("there is no entry {taken} before this one");
                self.problems.push(Problem::new(other.place, says));
            } else if let Some(back) = entry.withdraws.as_ref().and(backs.get(&taken)) {
                let says =
                    format!("entry {taken} takes {back} back, and that is not undone: write down anew what was left");
                self.problems.push(Problem::new(other.place, says));
            } else if was_gone(taken) {
                let says = format!("entry {taken} was corrected or taken back before: name the entry that counts now");
                self.problems.push(Problem::new(other.place, says));
            }
            gone.takes(entry);
        }
        self.gone = gone.numbers;
        let by_number: HashMap<u32, &Entry> = self.entries.iter().map(|entry| (entry.n.value, entry)).collect();
        let drops: Vec<Problem> = self.entries.iter().filter_map(|entry| drops(&by_number, entry)).collect();
        self.problems.extend(drops);
    }

    /// The entries that count, up to a number.
    pub fn standing(&self, upto: Option<u32>) -> impl Iterator<Item = &Entry> {
        let within = move |n: u32| upto.is_none_or(|upto| n <= upto);
        let gone_by: BTreeSet<u32> = match upto {
            None => self.gone.clone(),
            Some(_) => counts_no_more(self.entries.iter().filter(|entry| within(entry.n.value))),
        };
        self.entries.iter().filter(move |entry| within(entry.n.value) && !gone_by.contains(&entry.n.value))
    }

    /// The same log without what was taken back: that never was.
    pub fn without_what_was_taken_back(&self) -> Self {
        let taken: BTreeSet<u32> =
            self.entries.iter().filter_map(|entry| Some(entry.withdraws.as_ref()?.value)).collect();
        let stays = |entry: &&Entry| entry.withdraws.is_none() && !taken.contains(&entry.n.value);
        let entries: Vec<Entry> = self.entries.iter().filter(stays).cloned().collect();
        Self { gone: counts_no_more(entries.iter()), entries, ..self.clone() }
    }

    /// The torn line, where the last one is.
    pub fn torn(&self) -> Option<&Fault> {
        self.faults.iter().find(|fault| fault.kind == FaultKind::Torn)
    }

    /// The bytes with the torn line turned into a remark: nothing of it is lost, and nothing of it is read.
    pub fn mended(bytes: &[u8]) -> Vec<u8> {
        let end = bytes.trim_ascii_end();
        let from = end.iter().rposition(|byte| *byte == b'\n').map_or(0, |at| at + 1);
        let (before, torn) = bytes.split_at(from);
        [before, REMARK, torn.strip_suffix(b"\n").unwrap_or(torn), b"\n"].concat()
    }
}

/// What a correction would drop without a word: it stands in the place of an entry, so it is of the same operation and gives all
/// that the entry gave.
fn drops(by_number: &HashMap<u32, &Entry>, entry: &Entry) -> Option<Problem> {
    let at = entry.corrects.as_ref()?;
    let other = by_number.get(&at.value).filter(|other| other.n.value < entry.n.value)?;
    let of = |entry: &Entry| entry.of.as_ref().map(|of| of.value.to_string());
    let taken = at.value;
    if other.of.is_some() && of(entry) != of(other) {
        let says = format!(
            "entry {taken} tells of {}, and a correction is of the same operation: `withdraws: {taken}` takes it back",
            of(other).unwrap_or_default()
        );
        return Some(Problem::new(at.place, says));
    }
    let lost = other.values.iter().find(|(name, _)| !entry.values.iter().any(|own| own.0.value == name.value))?;
    let name = &lost.0.value;
    let says =
        format!("entry {taken} gives `{name}`, and this one, which stands in its place, does not: give it again");
    Some(Problem::new(at.place, says))
}

/// The numbers of entries that count no more because one of these, which come in their order, corrects them or takes them back.
fn counts_no_more<'a>(entries: impl Iterator<Item = &'a Entry>) -> BTreeSet<u32> {
    let mut gone = Gone::default();
    entries.for_each(|entry| gone.takes(entry));
    gone.numbers
}

/// What counts no more by the entries that were looked at.
#[derive(Default)]
struct Gone {
    numbers: BTreeSet<u32>,
    /// What each corrects.
    corrected: BTreeMap<u32, u32>,
}

impl Gone {
    /// Looks at the next entry. What is taken back never was: what it corrected counts again.
    fn takes(&mut self, entry: &Entry) {
        if let Some(other) = &entry.corrects {
            self.numbers.insert(other.value);
            self.corrected.insert(entry.n.value, other.value);
        }
        if let Some(other) = &entry.withdraws {
            self.numbers.insert(other.value);
            if let Some(back) = self.corrected.get(&other.value) {
                self.numbers.remove(back);
            }
        }
    }
}

/// What stands before a line that was cut off and turned into a remark.
const REMARK: &[u8] = b"# torn: ";

/// The lines that were turned into remarks.
fn lost(bytes: &[u8], start: Place) -> Vec<Lost> {
    let of = |text: &str| {
        // The longest beginning that is whole tells of which work it was.
        let ends = text.rmatch_indices(", ").map(|(at, _)| at).chain(text.ends_with('}').then(|| text.len() - 1));
        let whole = ends.filter_map(|at| text.get(..at)).find_map(|whole| {
            let node = node_of(format!("{whole}}}").as_bytes(), start)?;
            let named = |key: &str| node.under(key).and_then(Node::typed);
            Some((named("part")?, named("operation")?))
        });
        whole.map(|(part, operation)| Address::of(&part, &operation))
    };
    let lines = bytes.split(|byte| *byte == b'\n').zip(1..);
    let torn = lines.filter_map(|(line, number)| Some((line.strip_prefix(REMARK)?, number)));
    let read = torn.map(|(line, number)| {
        let text = String::from_utf8_lossy(line).trim_end().to_owned();
        Lost { of: of(&text), line: number, text }
    });
    read.collect()
}

/// How many characters a line has, for a mark under it.
fn line_length(text: &[u8]) -> u32 {
    u32::try_from(String::from_utf8_lossy(text).trim_end().chars().count()).unwrap_or(1).max(1)
}

/// The lines that are to be read: neither empty nor remarks, each with its sum held against the bytes before it, and against the sum
/// before it with the bytes from there: by the first alone every line behind a change would be wrong.
fn rows(bytes: &[u8]) -> Vec<Row<'_>> {
    let is_held = |to_here: &crc32fast::Hasher, before: &[u8], said: u32| {
        let mut to_here = to_here.clone();
        super::sum::fed(&mut to_here, before);
        to_here.finalize() == said
    };
    let (mut sum, mut behind, mut from) = (crc32fast::Hasher::new(), crc32fast::Hasher::new(), 1);
    let mut rows = Vec::new();
    for (text, number) in bytes.split_inclusive(|byte| *byte == b'\n').zip(1..) {
        let (mut held, mut changed_from) = (None, None);
        match super::sum::parted(text) {
            Some((before, said)) => {
                let right = is_held(&sum, before, said);
                held = Some(right);
                changed_from = (!right && !is_held(&behind, before, said)).then_some(from);
                behind = crc32fast::Hasher::new_with_initial(said);
                super::sum::fed(&mut behind, text.get(before.len()..).unwrap_or_default());
                from = number + 1;
            }
            None => super::sum::fed(&mut behind, text),
        }
        super::sum::fed(&mut sum, text);
        let bare = text.trim_ascii();
        if !bare.is_empty() && !bare.starts_with(b"#") {
            rows.push(Row { number, text, sum: held, changed_from, whole: text.ends_with(b"\n") });
        }
    }
    rows
}

/// The tree of one line; none where it is no entry on a line of its own.
fn node_of(text: &[u8], place: Place) -> Option<Node> {
    let text = std::str::from_utf8(text).ok()?.trim_end();
    // The sum was looked at as bytes; `12345678` and `1e234567` would be numbers to YAML.
    let entry =
        parted(text.as_bytes()).and_then(|(before, _)| Some(format!("{}}}", std::str::from_utf8(before).ok()?)));
    let entry = entry.unwrap_or_else(|| text.to_owned());
    let flow =
        entry.strip_prefix("- ").map(str::trim_start).filter(|flow| flow.starts_with('{') && flow.ends_with('}'))?;
    let lead = u32::try_from(entry.len() - flow.len()).ok()?;
    let node = Node::yaml(flow, Place { column: 1 + lead, ..place }).ok()?;
    node.is_map().then_some(node)
}
