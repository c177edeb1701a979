//! Which length is taken, and why each other is not.

use super::keys::ThreadInsert;
use crate::handbook::InsertLength;
use crate::handbook::constants::constant;
use crate::operations::{Answer, Bench};
use crate::proof::{Check, Fact, Refusal, Verdict, Words};
use crate::quantity::Mm;

impl ThreadInsert {
    /// The lengths that are worked: the standard ones, for a spark plug those of its reaches; one that was typed besides.
    pub(super) fn lengths(&self) -> Result<Vec<InsertLength>, Refusal> {
        // Where the table lacks its figure no length in mm is taken for a standard one.
        constant::<Mm>("shortest-mm-of-length")?;
        let mut all = if self.spark_plug() { InsertLength::reaches()? } else { InsertLength::ALL.to_vec() };
        if let Some(typed) = self.typed_length().filter(|typed| !all.contains(typed)) {
            all.push(typed);
        }
        Ok(all)
    }

    fn typed_length(&self) -> Option<InsertLength> {
        let typed = self.length.as_ref()?.value;
        Some(if self.spark_plug() { typed } else { typed.as_sold(self.thread.value) })
    }

    /// A length that was typed is judged. Else the shortest in the drawer that is proven for depth and strength, else the
    /// shortest proven, of the doubtful ones the surest, the shortest; where strength is not asked the longest in the drawer that is proven,
    /// else the longest proven.
    pub(super) fn choose(&self, bench: &Bench, lengths: &[InsertLength], answer: &mut Answer) {
        let verdicts: Vec<Verdict> = answer.alternatives.iter().map(|row| row.answer.verdict()).collect();
        let typed = self.typed_length().and_then(|typed| lengths.iter().position(|length| *length == typed));
        let first = |wanted: Verdict| verdicts.iter().position(|verdict| *verdict == wanted);
        let in_drawer = |length: &InsertLength| {
            bench.shop.is_some_and(|shop| shop.drawers.inserts_of(self.thread.value, *length) > 0)
        };
        let owned: Vec<bool> = lengths.iter().map(in_drawer).collect();
        let has = |at: usize| owned.get(at) == Some(&true);
        let in_hand = |at: &usize| verdicts.get(*at) == Some(&Verdict::Proven) && has(*at);
        // Of those that may hold the one with the fewest doubts, that it is not in the drawer one of them; of alike ones that which is
        // in the drawer, then the shortest.
        let doubts = |at: usize| {
            let own = answer.alternatives.get(at).map_or(&[][..], |row| &row.answer.checks);
            let open = own.iter().filter(|check| check.stamps() == Some(Verdict::Doubtful)).count();
            (open + usize::from(bench.shop.is_some() && !has(at)), !has(at), at)
        };
        let may_hold = (0..lengths.len()).filter(|at| verdicts.get(*at) == Some(&Verdict::Doubtful));
        let may_hold = match first(Verdict::Doubtful) {
            Some(_) if bench.shop.is_some() => may_hold.min_by_key(|at| doubts(*at)),
            shortest => shortest,
        };
        let why_it_may = if may_hold.is_some_and(has) { "surest-in-hand" } else { "shortest-that-may-hold" };
        let (chosen, why) = match (typed, self.bolt.is_some()) {
            (Some(typed), _) => (typed, "length-typed"),
            (None, true) => match ((0..lengths.len()).find(in_hand), first(Verdict::Proven), may_hold) {
                (Some(at), ..) => (at, "shortest-in-hand"),
                (None, Some(at), _) => (at, "shortest-that-holds"),
                (None, None, Some(at)) => (at, why_it_may),
                (None, None, None) => (0, "no-length-will-do"),
            },
            (None, false) => {
                let longest = verdicts.iter().rposition(|verdict| *verdict == Verdict::Proven);
                match ((0..lengths.len()).rev().find(in_hand), longest, may_hold) {
                    (Some(at), ..) => (at, "longest-in-hand"),
                    (None, Some(at), _) => (at, "longest-proven-in-depth"),
                    (None, None, Some(at)) => (at, why_it_may),
                    (None, None, None) => (0, "no-length-will-do"),
                }
            }
        };
        shorter_by_all_its_checks(lengths, &verdicts, answer);
        self.say_why_not((chosen, typed.is_some()), &verdicts, &owned, answer);
        answer.choose_alternative(chosen);
        let Some(length) = lengths.get(chosen).copied() else { return };
        answer.choose("insert_length", length.text(), Words::of(why));
        self.drawer(bench, length, answer);
        if self.bolt.is_none() {
            answer.fact("stamp_note", Fact::named("for-depth-only"));
        }
    }

    fn say_why_not(&self, (chosen, typed): (usize, bool), verdicts: &[Verdict], owned: &[bool], answer: &mut Answer) {
        let taken = verdicts.get(chosen).copied().unwrap_or(Verdict::Fails);
        for (at, alternative) in answer.alternatives.iter_mut().enumerate() {
            let reason = match (alternative.answer.refused.is_some(), alternative.answer.verdict()) {
                _ if at == chosen => None,
                (true, _) => Some("not-worked-out"),
                (_, Verdict::Fails) => Some(alternative.answer.worst_check_reason()),
                _ if typed => Some("another-length-was-asked"),
                (_, verdict) if verdict > taken => Some("less-sure-than-chosen"),
                // Doubtful as the one chosen is, and in the drawer or longer: it has more that is doubtful.
                (_, Verdict::Doubtful)
                    if owned.get(at) == Some(&true) || owned.get(chosen) != Some(&true) && at < chosen =>
                {
                    Some("less-sure-than-chosen")
                }
                _ if at < chosen && self.bolt.is_some() => Some("not-in-hand"),
                _ if at < chosen => Some("longer-one-is-proven"),
                _ if self.bolt.is_none() && taken == Verdict::Proven => Some("not-in-hand"),
                _ => Some("shorter-one-holds"),
            };
            alternative.why_not = reason.map(Words::of);
        }
    }

    /// What the drawer lacks, insert or tap, is a doubt and a line on the missing list; without a shop nobody asks.
    fn drawer(&self, bench: &Bench, length: InsertLength, answer: &mut Answer) {
        answer.fact("length", length.text());
        let Some(shop) = bench.shop else {
            answer.no_shop(&["insert-in-drawer"]);
            return;
        };
        let count = shop.drawers.inserts_of(self.thread.value, length);
        let tap = !answer.missing.iter().any(|line| line.id == "tap");
        if count == 0 {
            answer.missing.push(Words::of("insert"));
        }
        answer.takes.extend(shop.drawers.take_insert(self.thread.value, length));
        let verdict = if count > 0 && tap { Verdict::Proven } else { Verdict::Doubtful };
        let check = answer.check(Check::of_kind("insert-in-drawer", verdict).with("count", count.to_string()));
        if !tap {
            check.remedy(Words::of("another-lead"));
        }
    }
}

/// The next shorter length as a remedy is judged by all that it must hold, not by its depth alone.
fn shorter_by_all_its_checks(lengths: &[InsertLength], verdicts: &[Verdict], answer: &mut Answer) {
    for (length, alternative) in lengths.iter().zip(&mut answer.alternatives) {
        let shorter = length.shorter().and_then(|shorter| lengths.iter().position(|other| *other == shorter));
        let checks = &mut alternative.answer.checks;
        let Some(verdict) = shorter.and_then(|at| verdicts.get(at)) else {
            checks.iter_mut().for_each(|check| check.remedies.retain(|remedy| remedy.id != "shorter-insert"));
            continue;
        };
        if *verdict == Verdict::Fails {
            // What fails as well is no way out.
            checks.iter_mut().for_each(|check| check.remedies.retain(|remedy| remedy.id != "shorter-insert"));
        }
        let remedies = alternative.answer.checks.iter_mut().flat_map(|check| &mut check.remedies);
        remedies.filter(|remedy| remedy.id == "shorter-length").for_each(|remedy| remedy.at_best(*verdict));
    }
}

impl Answer {
    /// The reason that a failing length is given: its depth first, then its strength, then the bolt against the tang.
    fn worst_check_reason(&self) -> &'static str {
        let fails = |check: &str| self.checks.iter().any(|f| f.id == check && f.verdict() == Some(Verdict::Fails));
        match () {
            () if fails("break-through") => "breaks-through",
            () if fails("wall-for-insert") => "longer-than-the-wall",
            () if fails("while-cutting") || fails("when-assembled") => "fouls-beyond",
            () if fails("tang-clear") => "bolt-meets-tang",
            () => "too-weak",
        }
    }
}
