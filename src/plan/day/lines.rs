//! The lines of a day out of what the search found.

use super::carried::{Fittings, has_room};
use super::frame::{Because, Broken, ChangeOver, Edge, LeftOver, Line, OfMachine, Stop, Why};
use super::items::Item;
use super::known::{Known, bars, kept_by};
use super::link::Links;
use super::made::Made;
use super::search::{self, DAY, Limits, Minute, Model, Placed, Planned, Reason};
use super::solved::Solved;
use super::stopped::Out;
use crate::in_order::InOrder;
use crate::plan::ShopOfDay;
use crate::proof::Verdict;

/// What the lines are written from.
pub(super) struct Found<'a> {
    /// All set-ups.
    pub items: &'a [Item<'a>],
    /// What stands between them.
    pub links: &'a Links,
    /// The shop.
    pub shop: Option<&'a ShopOfDay>,
    /// What is out.
    pub out: &'a [Out],
    /// The model's parts.
    pub made: &'a Made,
    /// What the search found.
    pub solved: &'a Solved,
}

impl Found<'_> {
    fn model(&self) -> &Model {
        &self.solved.model
    }

    fn planned(&self) -> &Planned {
        &self.solved.planned
    }

    fn item(&self, piece: usize) -> Option<&Item<'_>> {
        self.items.get(*self.made.item_of.get(piece)?)
    }

    fn id(&self, piece: usize) -> String {
        self.model().piece(piece).map(|piece| piece.id.clone()).unwrap_or_default()
    }

    /// The lines, in their order.
    pub(super) fn lines(&self) -> Vec<Line> {
        let reasons = search::reasons(self.model(), self.planned());
        let slacks = search::slacks(self.model(), self.planned());
        let placed = self.planned().placed.iter().zip(reasons).zip(slacks);
        placed.filter_map(|((placed, reason), slack)| self.line(placed, reason, slack)).collect()
    }

    fn line(&self, placed: &Placed, reason: Reason, slack: Minute) -> Option<Line> {
        let item = self.item(placed.number)?;
        let piece = self.model().piece(placed.number)?;
        let (stands, wants) = self.made.machines.get(piece.machine)?;
        let change = piece.want.filter(|_| placed.change > 0);
        let change = change.map(|want| ChangeOver {
            what: wants.says(want, &self.on_before(placed.number)),
            pieces: placed.pieces.clone(),
        });
        let fails = item.operation.verdict == Verdict::Fails;
        let out_of_part = |(other, out): (&Item, &Out)| {
            let follows = |stop: &Stop| {
                let is_late = matches!(stop, Stop::TooLate(_) | Stop::NoDayHoldsIt | Stop::NotApart(..));
                is_late || matches!(stop, Stop::WaitsFor | Stop::NotFetched)
            };
            let is_stop = out.as_ref().is_some_and(|(stop, _)| !follows(stop));
            is_stop && other.same_part(item) && !other.same_operation(item)
        };
        Some(Line {
            id: piece.id.clone(),
            sheet: item.sheet,
            job: item.plan.job.clone(),
            part: item.operation.address.part.clone(),
            set_up: item.set_up.title.clone(),
            machine: stands.name.clone(),
            beside: item.beside(item.plan.shop_of_day.as_ref()).map(|stands| stands.name),
            start: placed.start,
            end: placed.end,
            hands: piece.hands,
            not_known: self.made.not_known.get(placed.number).copied().unwrap_or_default(),
            by_itself_until: (piece.tail > 0).then_some(placed.over),
            watched: piece.watched && !piece.tail_holds,
            stays: piece.tail_holds || has_room(stands.kind) || stands.kind == "bench",
            change,
            hold_point: item.set_up.hold_point().is_some(),
            read_at: read_at(item, placed),
            may_change_after: self.may_change_after(placed.number),
            verdict: item.operation.answer.verdict_of_set_up(item.sheet.2),
            measuring_only: fails,
            part_fails: self.items.iter().zip(self.out).any(out_of_part),
            too_long: piece.hands > self.model().clock.longest() && !piece.pause,
            due: piece.due,
            fetched: self.fetched(placed.number),
            why: self.let_go(placed.number, placed.start).unwrap_or_else(|| self.why(placed.number, reason)),
            after: self.edges(placed.number),
            apart: self.apart(placed.number),
            slack,
        })
    }

    /// The set-up that fetches a load, and when.
    fn fetched(&self, load: usize) -> Option<(String, Minute)> {
        let fetcher = self.model().fetcher(load)?;
        let placed = self.planned().placed.iter().find(|placed| placed.number == fetcher)?;
        Some((self.id(fetcher), placed.start))
    }

    /// The first end of a hold point that must come before it.
    fn may_change_after(&self, piece: usize) -> Option<Minute> {
        let holds = |placed: &&Placed| {
            self.model().must_precede(placed.number, piece)
                && self.item(placed.number).is_some_and(|item| item.set_up.hold_point().is_some())
        };
        let holds = self.planned().placed.iter().filter(holds);
        holds.filter_map(|placed| Some(decided_at(self.item(placed.number)?, placed))).min()
    }

    /// What must come before a set-up: of several edges from one the longest rest, a rule of order before all else.
    fn edges(&self, piece: usize) -> Vec<Edge> {
        let over =
            |number: usize| self.planned().placed.iter().find(|placed| placed.number == number).map(|at| at.over);
        let edge = |&(before, rest): &(usize, Minute)| {
            let named = self.model().edges.iter().filter(|edge| edge.before == before && edge.after == piece);
            let mut because: Vec<Because> = named.filter_map(|edge| self.because(edge.rule)).collect();
            because.order_by_key(rank);
            Some(Edge { id: self.id(before), released: over(before)? + rest, rest, because })
        };
        self.model().before(piece).iter().filter_map(edge).collect()
    }

    /// What it stands apart from that comes before it.
    fn apart(&self, piece: usize) -> Vec<Edge> {
        let place = self.planned().placed.iter().position(|placed| placed.number == piece).unwrap_or_default();
        let all = search::apart(self.model(), self.planned(), place).into_iter();
        let edge = |(load, over, rest): (usize, Minute, Minute)| {
            let because = self.bars(load, piece);
            let is_away = matches!(because, Because::Away | Because::LetAlone | Because::Worked);
            // What must come before it, and lets it go no earlier, says it already.
            let says = |&(before, own): &(usize, Minute)| {
                let of_load = before == load || self.model().fetcher(load) == Some(before);
                let placed = self.planned().placed.iter().find(|placed| placed.number == before);
                of_load && placed.is_some_and(|placed| placed.over + own >= over + rest)
            };
            let is_said = is_away && self.model().before(piece).iter().any(says);
            (!is_said).then(|| Edge { id: self.id(load), released: over + rest, rest, because: vec![because] })
        };
        let edges: Vec<Edge> = all.filter_map(edge).collect();
        // Of all work that warms what is measured the last one says it.
        let is_work = |edge: &Edge| edge.because.contains(&Because::Worked);
        let last = edges.iter().filter(|edge| is_work(edge)).map(|edge| edge.released).max();
        edges.into_iter().filter(|edge| !is_work(edge) || Some(edge.released) == last).collect()
    }

    /// By what one keeps the other from coming.
    fn bars(&self, load: usize, other: usize) -> Because {
        let of = |piece: usize| self.made.item_of.get(piece).copied();
        let known = Known { items: self.items, links: self.links, shop: self.shop };
        let found = of(load).zip(of(other)).and_then(|(load, other)| bars(&known, load, other)?.1);
        of(load).map_or(Because::Away, |load| kept_by(&known, load, found))
    }

    /// What is done and by its rest lets it go no earlier than then.
    fn let_go(&self, number: usize, at: Minute) -> Option<Why> {
        let own = self.made.let_go.get(number)?.as_ref().filter(|own| own.rest > 0 && own.over + own.rest == at)?;
        let id = self.items.get(own.by).map(Item::id)?;
        Some(Why::Apart(id, own.over, own.rest, own.because.clone()))
    }

    fn because(&self, link: usize) -> Option<Because> {
        self.made.musts.get(link).map(|link| link.because.clone())
    }

    fn why(&self, number: usize, reason: Reason) -> Why {
        let typed = self.made.spec.pieces.get(number).map(|piece| piece.not_before);
        match reason {
            Reason::First => Why::First,
            Reason::Must(edge) => {
                let Some(edge) = self.model().edges.get(edge) else { return Why::NoOther };
                let same = |other: &&search::Edge| (other.before, other.after) == (edge.before, edge.after);
                let named = self.model().edges.iter().filter(same).filter_map(|edge| self.because(edge.rule));
                named.min_by_key(rank).map_or(Why::NoOther, |because| Why::Must(self.id(edge.before), because))
            }
            Reason::Waits(number, over, rest) => Why::Waits { id: self.id(number), over, rest },
            Reason::Apart(load, over, rest) => Why::Apart(self.id(load), over, rest, self.bars(load, number)),
            Reason::Fixed(at) => Why::Fixed(at),
            Reason::NotBefore(at) => {
                match self.model().fetcher(number).filter(|_| typed.is_some_and(|typed| typed < at)) {
                    Some(fetcher) => Why::WantedBy(self.id(fetcher)),
                    None => Why::NotBefore(at),
                }
            }
            Reason::Break => Why::Break,
            Reason::SavesLate(minutes) => Why::SavesLate(minutes),
            Reason::SavesFinish(minutes) => Why::SavesFinish(minutes),
            Reason::KeepsRules(count) => Why::KeepsRules(count),
            Reason::SavesChange(minutes) => Why::SavesChange(minutes),
            Reason::NoOther => self.bars_the_one_before(number).unwrap_or(Why::NoOther),
            Reason::Fills => Why::Fills,
            Reason::Kept if self.made.spec.order_before.is_empty() => Why::AsListed,
            Reason::Kept => Why::Kept,
        }
    }

    /// The set-up before it, where that may not come while the part of this one is away.
    fn bars_the_one_before(&self, number: usize) -> Option<Why> {
        let place = self.planned().placed.iter().position(|placed| placed.number == number)?;
        let before = self.planned().placed.get(place.checked_sub(1)?)?.number;
        let known = Known { items: self.items, links: self.links, shop: self.shop };
        let load = *self.made.item_of.get(number)?;
        let (_, rule) = bars(&known, load, *self.made.item_of.get(before)?)?;
        Some(Why::Bars(self.id(before), kept_by(&known, load, rule)))
    }

    /// What its machine carries before it.
    fn on_before(&self, number: usize) -> Fittings {
        let Some(machine) = self.model().piece(number).map(|piece| piece.machine) else { return Fittings::new() };
        let mut on = self.made.first.get(machine).cloned().unwrap_or_default();
        let before = self.planned().placed.iter().take_while(|placed| placed.number != number);
        let pieces = before.filter_map(|placed| self.model().piece(placed.number));
        let wants = self.made.machines.get(machine).map(|(_, wants)| wants);
        for want in pieces.filter(|piece| piece.machine == machine).filter_map(|piece| piece.want) {
            on.extend(wants.map(|wants| wants.fittings(want)).unwrap_or_default());
        }
        on
    }

    /// Minutes by machine, in the order in which they are first used.
    /// What is fitted `ahead` for another day is counted with its change-over alone.
    pub(super) fn machines(&self, lines: &[Line], ahead: &[Line], until: Minute) -> Vec<OfMachine> {
        let mut names: Vec<&str> = Vec::new();
        let fitted = ahead.iter().map(|line| &line.machine);
        for name in lines.iter().flat_map(|line| std::iter::once(&line.machine).chain(&line.beside)).chain(fitted) {
            if !names.contains(&name.as_str()) {
                names.push(name);
            }
        }
        names.into_iter().map(|name| self.of_machine(name, (lines, ahead), until)).collect()
    }

    fn of_machine(&self, name: &str, (lines, ahead): (&[Line], &[Line]), until: Minute) -> OfMachine {
        let own = || lines.iter().filter(|line| line.machine == name);
        let fitted = || own().chain(ahead.iter().filter(|line| line.machine == name));
        let pieces = || fitted().flat_map(|line| &line.change).flat_map(|change| change.pieces.iter().copied());
        let by_itself = || lines.iter().filter_map(|line| line.unattended_in(name));
        let clock = &self.model().clock;
        let (start, finish) = (self.model().start, until);
        let all = own().map(|line| (line.start, line.end)).chain(pieces()).chain(by_itself());
        let in_use = joined(all.collect()).into_iter();
        OfMachine {
            name: name.to_owned(),
            hands: own().map(|line| line.hands).sum(),
            change: pieces().map(|(from, to)| to - from).sum(),
            by_itself: joined(by_itself().collect()).iter().map(|(from, to)| to - from).sum(),
            in_use: in_use.map(|(from, to)| clock.open_between(from.max(start), to.min(finish))).sum(),
        }
    }

    /// Better rules that are broken, each with what keeping it would cost.
    pub(super) fn broken(&self) -> Vec<Broken> {
        let place = |piece: usize| self.planned().placed.iter().position(|placed| placed.number == piece);
        let mut all = Vec::new();
        for (better, wish) in self.made.spec.better.iter().zip(&self.made.wishes) {
            let Some(wish) = self.links.wishes.get(*wish) else { continue };
            let (first, then, broken) = match better {
                search::Better::Before(first, then) => (*first, *then, place(*first) > place(*then)),
                search::Better::Together { one, other, parted_by } => {
                    (*one, *other, parted_by.iter().any(|by| self.is_between(*by, (*one, *other))))
                }
            };
            if broken {
                let kept = self.kept(better);
                let own = self.planned().vector;
                let keeping_costs = kept.map(|kept| kept.finish.saturating_sub(own.finish));
                let for_another = kept.is_some_and(|kept| kept.better >= own.better);
                let (first, then) = (self.id(first), self.id(then));
                all.push(Broken { rule: wish.rule, first, then, keeping_costs, for_another });
            }
        }
        all
    }

    /// Whether a set-up stands between two.
    fn is_between(&self, own: usize, (one, other): (usize, usize)) -> bool {
        let place = |piece: usize| self.planned().placed.iter().position(|placed| placed.number == piece);
        let (Some(own), Some(from), Some(to)) = (place(own), place(one), place(other)) else { return false };
        from.min(to) < own && own < from.max(to)
    }

    /// What the day reaches where a better rule is a must; not asked of many set-ups, nor of two that stand together.
    fn kept(&self, better: &search::Better) -> Option<search::Vector> {
        let search::Better::Before(before, after) = *better else { return None };
        if self.made.spec.pieces.len() > Limits::default().exact {
            return None;
        }
        let mut spec = self.made.spec.clone();
        spec.edges.push(search::Edge { before, after, rest: 0, rule: usize::MAX });
        Some(search::plan(&Model::new(spec).ok()?, Limits::default())?.vector)
    }
}

/// When what is measured at a hold point can first be read: what is made warm or cold when it is so, a size that is there already before
/// metal is cut by it, what the work leaves at its end.
fn read_at(item: &Item, placed: &Placed) -> Minute {
    if item.cuts_metal() && item.set_up.is_read_first() { placed.start } else { decided_at(item, placed) }
}

/// When all is read that decides what comes behind a set-up.
fn decided_at(item: &Item, placed: &Placed) -> Minute {
    if item.passes_off() { placed.over.max(placed.end) } else { placed.end }
}

/// Which of several reasons is named: a rule of order says most.
fn rank(because: &Because) -> u8 {
    match because {
        Because::Rule(_) => 0,
        Because::After => 1,
        Because::State(_) => 2,
        Because::Reads(_) | Because::HeldOn(_) | Because::SizedBy(_) | Because::CutsTheGrip(_) => 3,
        Because::CutsTheSize(_) => 4,
        Because::Away | Because::LetAlone | Because::Worked => 5,
        Because::InTurn => 6,
        Because::AtOnce(..) => 7,
    }
}

/// Takes out of the lines what begins after the last day asked for.
///
/// Beside it those lines for which a machine is changed over before, and when that day closes.
pub(super) fn left_over(
    lines: &mut Vec<Line>,
    clock: &search::Clock,
    (start, days): (Minute, u32),
) -> (Vec<LeftOver>, Vec<Line>, Minute) {
    let mut day = start / DAY;
    let mut open = u32::from(clock.is_open_on(day));
    while open < days.max(1) {
        day += 1;
        open += u32::from(clock.is_open_on(day));
    }
    let closing = clock.closing(day * DAY);
    let late: Vec<Line> = lines.extract_if(.., |line| line.start >= closing).collect();
    let is_late = |id: &String| late.iter().find(|line| line.id == *id);
    let before = |line: &Line| line.after.iter().filter_map(|edge| is_late(&edge.id)).collect::<Vec<_>>();
    // What another of them waits for is not said again.
    let waits = |line: &Line| {
        let all = before(line);
        let is_nearest = |own: &&&Line| !all.iter().any(|other| other.after.iter().any(|edge| edge.id == own.id));
        all.iter().filter(is_nearest).map(|own| own.id.clone()).collect::<Vec<String>>()
    };
    let lets_go = |line: &Line| {
        let done = line.after.iter().chain(&line.apart).filter(|edge| is_late(&edge.id).is_none());
        let done = done.filter(|edge| edge.released > closing).map(|edge| (edge.id.clone(), edge.released));
        done.reduce(|one, other| if other.1 > one.1 { other } else { one })
    };
    let rests_on = |line: &Line| {
        let own = lets_go(line)?;
        let before = before(line).into_iter().filter_map(lets_go).map(|(_, until)| until).max();
        before.is_none_or(|until| until < own.1).then_some(own)
    };
    let left = |line: &Line| LeftOver {
        id: line.id.clone(),
        part: line.part.clone(),
        set_up: line.set_up.clone(),
        minutes: line.hands,
        waits_for: waits(line),
        rests_on: rests_on(line),
    };
    let over = late.iter().map(left).collect();
    let mut ahead = Vec::new();
    for mut line in late {
        line.change.iter_mut().for_each(|change| change.pieces.retain(|(from, _)| *from < closing));
        if line.change.as_ref().is_some_and(|change| !change.pieces.is_empty()) {
            ahead.push(line);
        }
    }
    (over, ahead, closing)
}

/// Stretches of time with those that meet made one.
fn joined(mut all: Vec<(Minute, Minute)>) -> Vec<(Minute, Minute)> {
    all.sort_unstable();
    let mut joined: Vec<(Minute, Minute)> = Vec::new();
    for (from, to) in all {
        match joined.last_mut().filter(|last| from <= last.1) {
            Some(last) => last.1 = last.1.max(to),
            None => joined.push((from, to)),
        }
    }
    joined
}
