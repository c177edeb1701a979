//! What is done when the hands begin: what was said, what follows from it, and what is not so any more.

use super::asked::Asked;
use super::frame::{Assumed, Because};
use super::items::Item;
use super::known::{Known, bars};
use super::link::{Link, is_before_by};
use super::logged;
use super::rounded;
use super::search::{DAY, Minute};
use super::times::Times;
use crate::handbook::StateKind;
use crate::handbook::constants::constant;
use crate::handbook::order_rules::Scope;
use crate::quantity::{ClockTime, Minutes};
use crate::reading::{Problem, near};

/// What is done when the hands begin.
#[derive(Clone, Debug)]
pub(super) struct Done {
    /// When each set-up that is done was done.
    pub when: Vec<Option<Minute>>,
    /// Set-ups of which nobody says when they were done.
    pub untimed: Vec<usize>,
    /// The set-up that is in hand.
    pub in_hand: Option<usize>,
    /// What was made warm or cold and came out again for nothing, and when.
    pub came_out: Vec<(usize, Minute)>,
}

/// What can stand no more before what is done: itself, what is done, and why it was to stand before that.
pub(super) type TooLate = (usize, usize, String);

/// When each set-up that is done was done: as the command line says, else as the log does; what nobody says was done when the hands begin.
///
/// # Errors
/// Ids that no set-up has, and set-ups that by the log are not finished.
pub(super) fn done(items: &[Item], asked: &Asked, times: &Times) -> Result<Done, Vec<Problem>> {
    let start = times.start;
    let mut untimed = Vec::new();
    let mut when: Vec<Option<Minute>> = items.iter().map(|_| None).collect();
    let mut problems = Vec::new();
    for (id, at) in &asked.done {
        match number(items, id) {
            Ok(_) if at.is_some_and(|at| at.minutes() > start) => {
                let (at, from) = (at.map_or(start, ClockTime::minutes), start % DAY);
                let (at, from) = (ClockTime::of(at), ClockTime::of(from));
                let says =
                    format!("`{id}@{at}`: the hands begin at {from}, and it is not done by then; say --from too");
                problems.push(Problem::new(None, says));
            }
            Ok(place) if items.get(place).and_then(logged::unfinished).is_some() => {
                let entry = items.get(place).and_then(logged::unfinished).map_or(0, |(worked, _)| worked.entry);
                let says = format!(
                    "`{id}` is not finished by L{entry} of the log: write down what is left of it now (`setover log … --corrects L{entry}`), and it is done by that"
                );
                problems.push(Problem::new(None, says));
            }
            Ok(place) => {
                let told = || items.get(place).and_then(|item| logged::done_at(item, times));
                let time = at.map(ClockTime::minutes).or_else(told);
                if time.is_none() {
                    untimed.push(place);
                }
                when.get_mut(place).into_iter().for_each(|slot| *slot = Some(time.unwrap_or(start).min(start)));
            }
            Err(problem) => problems.push(problem),
        }
    }
    let in_hand = asked.at_work.as_ref().map(|id| number(items, id)).transpose();
    let in_hand = in_hand.unwrap_or_else(|problem| {
        problems.push(problem);
        None
    });
    if let (Some(id), Some(at)) = (&asked.at_work, in_hand)
        && when.get(at).is_some_and(Option::is_some)
    {
        problems.push(Problem::new(None, format!("`{id}` is either done or at work: both are said of it")));
    }
    if problems.is_empty() { Ok(Done { when, untimed, in_hand, came_out: Vec::new() }) } else { Err(problems) }
}

impl Done {
    /// What the log says is done is not at work too.
    ///
    /// # Errors
    /// It is said to be.
    pub(super) fn not_at_work_too(&self, items: &[Item]) -> Result<(), Vec<Problem>> {
        let Some(item) = self.in_hand.filter(|at| self.is(*at)).and_then(|at| items.get(at)) else { return Ok(()) };
        let entry = logged::entries(item).filter(|worked| worked.is_done).last().map(|worked| worked.entry);
        let by = entry.map_or_else(String::new, |entry| format!(" by L{entry} of the log"));
        let says = format!(
            "`{}` is done{by}, and cannot be at work; leave --at-work out, or withdraw that entry where it is to be done again",
            item.id()
        );
        Err(vec![Problem::new(None, says)])
    }

    /// Whether a set-up is done.
    pub(super) fn is(&self, at: usize) -> bool {
        self.when.get(at).is_some_and(Option::is_some)
    }

    /// When it was done.
    pub(super) fn at(&self, at: usize) -> Option<Minute> {
        self.when.get(at).copied().flatten()
    }

    /// Whether it is done, or begun.
    pub(super) fn is_begun(&self, at: usize) -> bool {
        self.is(at) || self.in_hand == Some(at)
    }

    /// What nobody says the time of was done before whatever of the same operation, or whatever took what it made warm or cold, was done.
    pub(super) fn before_what_follows(&mut self, items: &[Item], musts: &[Link], assumed: &mut Vec<Assumed>) {
        loop {
            let later = |link: &&Link| self.untimed.contains(&link.before) && is_of_one(items, link);
            let earlier = |link: &Link| self.at(link.after).filter(|then| Some(*then) < self.at(link.before));
            let next = musts.iter().filter(later).find_map(|link| Some((link.before, earlier(link)?)));
            let Some((before, when)) = next else { break };
            self.when.get_mut(before).into_iter().for_each(|slot| *slot = Some(when));
        }
        let told = self.untimed.iter().filter_map(|at| Some(Assumed::DoneAt(items.get(*at)?.id(), self.at(*at)?)));
        assumed.extend(told);
    }

    /// What must stand before something that is done, or that is in hand, is done too where the two are of one operation, or where
    /// it was made warm or cold for that.
    pub(super) fn with_all_before(&mut self, items: &[Item], musts: &[Link], assumed: &mut Vec<Assumed>) {
        loop {
            let over = |at: usize| self.at(at).or((self.in_hand == Some(at)).then_some(0));
            let open = musts.iter().filter(|link| !self.is_begun(link.before) && is_of_one(items, link));
            let next = open.into_iter().find_map(|link| Some((link.before, over(link.after)?)));
            let Some((before, when)) = next else { return };
            if let (Some(slot), Some(item)) = (self.when.get_mut(before), items.get(before)) {
                *slot = Some(when);
                assumed.push(Assumed::DoneAt(item.id(), when));
            }
        }
    }

    /// What must stand before something that is done or in hand in another operation, and of which nobody said that it is done.
    /// What would undo or spoil that can be done no more; all else stays to be done, and the rule that it breaks is named.
    pub(super) fn late(&self, items: &[Item], musts: &[Link]) -> (Vec<TooLate>, Vec<Assumed>) {
        let (mut too_late, mut named): (Vec<TooLate>, Vec<Assumed>) = (Vec::new(), Vec::new());
        let id = |at: usize| items.get(at).map(Item::id).unwrap_or_default();
        let is_late = |link: &&Link| !self.is_begun(link.before) && self.is_begun(link.after) && !link.fetches(items);
        for link in musts.iter().filter(is_late) {
            if !items.get(link.before).zip(items.get(link.after)).is_some_and(|(one, other)| one.same_operation(other))
            {
                if spoils(items, link) {
                    too_late.push((link.before, link.after, link.because.to_string()));
                } else {
                    named.push(Assumed::ComesLate(id(link.before), id(link.after), link.because.to_string()));
                }
            }
        }
        (too_late, named)
    }

    /// What was made warm or cold and is still wanted is done again where it is so no more: it was on another day, nobody was there
    /// when its time was over, nobody fetched it for hours, it was out already for another, or it must come out before it is
    /// fetched. `all`: whatever the time.
    pub(super) fn again(&mut self, known: &Known, times: &Times, all: bool, assumed: &mut Vec<Assumed>) -> bool {
        let mut again = false;
        for (at, item) in known.items.iter().enumerate() {
            let Some(when) = self.at(at) else { continue };
            let own = |link: &&Link| link.before == at && link.fetches(known.items);
            let fetchers: Vec<usize> = known.links.musts.iter().filter(own).map(|link| link.after).collect();
            // What others fetched is made so again where somebody wants it so still.
            let is_fetched = fetchers.iter().any(|fetcher| self.is_begun(*fetcher));
            let is_open = |link: &Link| link.before == at && link.is_wanted() && !self.is_begun(link.after);
            if fetchers.is_empty() || is_fetched && !known.links.musts.iter().any(is_open) {
                continue;
            }
            let load = Load { at, item, when, fetchers: &fetchers };
            let Some(out) = self.out(known, times, &load).or(all.then_some(times.start)) else { continue };
            self.when.get_mut(at).into_iter().for_each(|slot| *slot = None);
            self.came_out.push((at, out));
            assumed.push(Assumed::Again(item.id()));
            again = true;
        }
        again
    }

    /// When what was made warm or cold was so no more; none where it is so still.
    fn out(&self, known: &Known, times: &Times, load: &Load) -> Option<Minute> {
        let start = times.start;
        let fetched = load.fetchers.iter().filter_map(|fetcher| self.at(*fetcher)).max();
        let tail = load.item.set_up.tail.map(|tail| rounded(tail.minutes));
        let is_warm = load.item.leaves(StateKind::Warm);
        // Out for one it cools, and the next wants it warm.
        if let Some(fetched) = fetched {
            return (is_warm && fetched < start).then_some(fetched);
        }
        if load.fetchers.iter().any(|fetcher| self.in_hand == Some(*fetcher)) {
            return None;
        }
        let Some(tail) = tail else { return (load.when < start).then_some(load.when) };
        let over = load.when + tail;
        let today = load.when > 0 && over.saturating_sub(1) / DAY == start / DAY;
        let closing = times.clock.closing(load.when.saturating_sub(1));
        let was_watched = !load.item.set_up.tail.is_some_and(|tail| tail.watched) || over <= closing;
        let longest = if is_warm { over.saturating_add(stays_longest()) } else { Minute::MAX };
        if !today || !was_watched || longest < start {
            return Some(over.min(longest).min(start));
        }
        let open = |at: usize| !self.is_begun(at);
        let before = |other: usize, fetcher: usize| is_before_by((known.items, known.links), open, other, fetcher);
        // The first that wants it takes it out: what stands before a later one is no matter of this load.
        let wants = |at: usize| {
            let own = known.links.musts.iter().filter(|link| (link.before, link.after) == (load.at, at));
            { own }.any(Link::is_wanted)
        };
        let first = load.fetchers.iter().copied().filter(|at| open(*at));
        let first = first.min_by_key(|at| (!wants(*at), *at < load.at, *at));
        let comes_first = |other: usize| {
            let is_wanted = first.is_some_and(|fetcher| fetcher != other && before(other, fetcher));
            is_wanted && open(other) && bars(known, load.at, other).is_some()
        };
        (0..known.items.len()).any(comes_first).then_some(start)
    }
}

/// Whether the two are of one operation, or the one was made warm or cold for the other.
fn is_of_one(items: &[Item], link: &Link) -> bool {
    let pair = items.get(link.before).zip(items.get(link.after));
    pair.is_some_and(|(one, other)| one.same_operation(other) || link.fetches(items))
}

/// What was made warm or cold.
struct Load<'a> {
    at: usize,
    item: &'a Item<'a>,
    when: Minute,
    fetchers: &'a [usize],
}

/// So long a part stays in the oven after its time, min; after that it is taken to be out, and cooling.
pub(super) fn stays_longest() -> Minute {
    constant::<Minutes>("oven-stays-longest").map_or(0, |longest| rounded(longest.number()))
}

/// Whether the earlier of two set-ups, done after the later, undoes or spoils it: an old bush pushed out where the new one is
/// in, a face cut over an insert. What was measured for a press says nothing behind it. Wherever else on the part it stands,
/// and whatever the job alone asks for, it still is to be done.
fn spoils(items: &[Item], link: &Link) -> bool {
    let Some((earlier, later)) = items.get(link.before).zip(items.get(link.after)) else { return false };
    let Because::Rule(rule) = &link.because else { return false };
    let of_one = rule.scope == Scope::Feature || rule.in_file.is_some();
    of_one && (later.presses() || earlier.cuts_metal() || earlier.leaves(StateKind::PressedOut))
}

/// The set-up of an id.
///
/// # Errors
/// Where no set-up has it.
pub(super) fn number(items: &[Item], id: &str) -> Result<usize, Problem> {
    let ids: Vec<String> = items.iter().map(Item::id).collect();
    ids.iter().position(|known| known == id.trim()).ok_or_else(|| {
        let known = near(id, ids.iter().map(String::as_str));
        Problem::new(None, format!("no set-up has the id `{id}`; {known}"))
    })
}
