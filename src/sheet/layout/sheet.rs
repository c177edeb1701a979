//! One sheet: how its pages are set, whose its checks are, and what its stamp says.

use super::block::NUMBERED;
use super::filled::Laid;
use super::{Fault, Sheet, draughting, fonts, strip, verdict, words};
use crate::in_order::InOrder;
use crate::proof::{Check, Outcome, Verdict, Weight};
use crate::quantity::Print;
use crate::sheet::figures;
use crate::sheet::page::{Ink, Mark, Page};

impl<'a> Sheet<'a> {
    /// Its pages: as all sheets are set; where that cannot be, without the sketch; where that cannot be, line by line.
    pub(super) fn pages(&self) -> Result<Vec<Page>, Fault> {
        let why = match self.numbered() {
            Ok(laid) if self.is_set_again(&laid) && self.plan.print == Print::Both => {
                return Ok(self.briefly(laid).pages);
            }
            Ok(laid) => return Ok(laid.pages),
            Err(why) => why,
        };
        let note = words::without_sketch(&why.to_string());
        let without = Self { sketched: false, notes: vec![note], ..self.clone() };
        without.numbered().map(|laid| laid.pages).or_else(|_| self.line_by_line(&why))
    }

    /// The same in fewer pages, or with more of what belongs on its page, where words with the figures of one unit alone give that:
    /// what is set, held to and measured large keeps both.
    fn briefly(&self, laid: Laid) -> Laid {
        let brief = self.planned.in_one_unit.as_ref().filter(|_| !self.may_not_be_cut());
        let Some(set_up) = brief.and_then(|brief| brief.set_ups.get(self.number - 1)) else { return laid };
        match (Sheet { set_up: Some(set_up), ..self.clone() }).numbered() {
            Ok(brief) if brief.is_better_than(&laid) => brief,
            _ => laid,
        }
    }

    /// Its pages, which say so where a sign stands as its number.
    fn numbered(&self) -> Result<Laid, Fault> {
        let laid = self.zoned()?;
        let is_number = |mark: &Mark| matches!(&mark.ink, Ink::Text(text) if text.text.contains(NUMBERED));
        if !laid.pages.iter().flat_map(|page| &page.marks).any(is_number) {
            return Ok(laid);
        }
        let mut said = self.clone();
        said.notes.push(words::LACKED.into());
        said.zoned()
    }

    /// Whether nothing of its operation may be cut or fitted.
    pub(super) fn may_not_be_cut(&self) -> bool {
        self.planned.verdict == Verdict::Fails || self.set_up.is_none()
    }

    /// What fails of its operation, the worst first.
    pub(super) fn failing(&self) -> Vec<&'a Check<String>> {
        let checks = self.planned.answer.checks.iter();
        let mut all: Vec<&Check<String>> = checks.filter(|check| check.stamps() == Some(Verdict::Fails)).collect();
        all.order_by(|one, other| verdict::worse_first(one, other));
        all
    }

    /// The checks that a set-up of its operation stands on: each has one owner, the first that names it, else the first of all.
    pub(super) fn owned(&self) -> impl Iterator<Item = &'a Check<String>> + use<'a> {
        let (planned, number) = (self.planned, self.number);
        planned.answer.checks.iter().filter(move |check| planned.answer.is_of_set_up(check, number.wrapping_sub(1)))
    }

    /// Whether it was worked already.
    pub(super) fn is_done(&self) -> bool {
        self.set_up.is_some_and(|set_up| set_up.steps.first().is_some_and(|step| step.id == words::DONE_ID))
    }

    /// The word of its stamp: of what was worked already that it was.
    pub(super) fn stamp(&self) -> &'static str {
        if self.is_done() {
            return words::DONE_STAMP;
        }
        match self.set_up {
            Some(set_up) => words::stamp(self.planned, self.verdict(), Some(set_up.station)),
            None => words::stamp_of_whole(self.planned),
        }
    }

    /// The verdict of the frame about its stamp: what was worked is told apart by its word, and what of that is in doubt by its frame.
    pub(super) fn framed(&self) -> Verdict {
        if self.is_done() { self.verdict().min(Verdict::Doubtful) } else { self.verdict() }
    }

    /// Its own verdict: a failure is that of the whole operation.
    pub(super) fn verdict(&self) -> Verdict {
        self.verdict_of(self.number)
    }

    /// Whether it is the first set-up of its operation that is doubtful.
    pub(super) fn is_first_in_doubt(&self) -> bool {
        let is_doubtful = |number: &usize| self.verdict_of(*number) == Verdict::Doubtful;
        (1..=self.planned.answer.set_ups.len()).find(is_doubtful) == Some(self.number)
    }

    fn verdict_of(&self, number: usize) -> Verdict {
        let planned = self.planned;
        // What is proven makes nothing worse: whose it is need not be known.
        let worst = |of: &dyn Fn(&&Check<String>) -> bool| {
            let open = planned.answer.checks.iter().filter(|check| check.stamps() > Some(Verdict::Proven));
            open.filter(of).filter_map(Check::stamps).max().unwrap_or(Verdict::Proven)
        };
        if planned.verdict == Verdict::Fails {
            return Verdict::Fails;
        }
        // What no check says of the operation's verdict is the first sheet's.
        let unsaid = number == 1 && worst(&|_| true) < planned.verdict;
        let own = worst(&|check| planned.answer.is_of_set_up(check, number.wrapping_sub(1)));
        if unsaid { planned.verdict } else { own.min(planned.verdict) }
    }

    /// Other set-ups of its operation whose own verdict is doubtful.
    pub(super) fn doubtful_elsewhere(&self) -> Vec<String> {
        let others = (1..=self.planned.answer.set_ups.len()).filter(|number| *number != self.number);
        others.filter(|number| self.verdict_of(*number) == Verdict::Doubtful).map(|number| self.id_of(number)).collect()
    }

    /// Of the proven checks whose figures have no doubt the one with the least margin for its limit.
    fn nearest(&self) -> Option<&'a Check<String>> {
        let made = self.owned().filter(|check| check.is_proven());
        let share = |check: &'a Check<String>| {
            let judged = check.judged.as_ref().filter(|judged| judged.limit.abs() > 0.0)?;
            Some((judged.margin / judged.limit.abs(), check))
        };
        made.filter_map(share).min_by(|one, other| one.0.total_cmp(&other.0)).map(|nearest| nearest.1)
    }

    /// The reason under its stamp, in one line.
    pub(super) fn reason(&self) -> String {
        self.reason_in(true)
    }

    /// The same, not `whole` without the words that every margin has.
    pub(super) fn reason_in(&self, whole: bool) -> String {
        match self.doubt_of_done() {
            Some(_) => words::doubt_of_done(&self.reason_of_verdict(whole)),
            None if self.is_done() => words::DONE_REASON.into(),
            None => self.reason_of_verdict(whole),
        }
    }

    /// What is in doubt of a set-up that was worked already.
    pub(super) fn doubt_of_done(&self) -> Option<String> {
        (self.is_done() && self.verdict() == Verdict::Doubtful).then(|| self.reason_of_verdict(true))
    }

    fn reason_of_verdict(&self, whole: bool) -> String {
        // What proof is limited to is no reason of a doubt; that no shop was given is.
        let says = self.verdict() == Verdict::Proven || self.plan.shop.is_none();
        if let Some(note) = strip::stamp_note(self).filter(|_| says) {
            return strip::short(note);
        }
        // A check that is doubtful though its figure holds rests on something doubtful: its figure is no reason.
        let says = |check: &Check<String>| match &check.judged {
            Some(judged) if check.is_proven() || judged.margin < 0.0 => {
                words::reason(&check.called, &figures::inside(judged, self.plan.print).0, judged.margin < 0.0, whole)
            }
            _ => words::reason_of_kind(&check.called, check.verdict().unwrap_or(Verdict::Doubtful)),
        };
        match self.verdict() {
            Verdict::Fails if self.planned.answer.refused.is_some() => words::REFUSED.into(),
            Verdict::Fails => self.failing().first().map_or_else(String::new, |worst| says(worst)),
            Verdict::Doubtful if self.owned().any(|check| check.unfinished.is_some()) => words::UNFINISHED.into(),
            Verdict::Doubtful => {
                let open: Vec<&str> = self
                    .owned()
                    .filter(|check| check.state == Outcome::NotChecked && check.weight == Weight::Must)
                    .map(|check| check.called.as_str())
                    .collect();
                let made = self.owned().filter(|c| c.verdict().is_some() && c.stamps() == Some(Verdict::Doubtful));
                // As the findings have them: what stamps the sheet stands first there, with its remedies.
                match made.min_by(|one, other| verdict::worse_first(one, other)) {
                    Some(check) => says(check),
                    None if open.is_empty() => String::new(),
                    None => strip::not_made(&open),
                }
            }
            Verdict::Proven => verdict::closest(self).or_else(|| self.nearest()).map_or_else(
                || {
                    let proven: Vec<&str> =
                        self.owned().filter(|check| check.is_proven()).map(|check| check.called.as_str()).collect();
                    if proven.is_empty() { words::NO_CHECK.into() } else { strip::held(&proven) }
                },
                says,
            ),
        }
    }

    pub(super) fn sketch(&self, fault: draughting::Fault) -> Fault {
        match fault {
            draughting::Fault::Letters(fault) => self.letters(words::SKETCH, fault),
            fault => Fault::Sketch { sheet: self.id(), fault },
        }
    }

    pub(super) fn letters(&self, part: &'static str, fault: fonts::Fault) -> Fault {
        Fault::Letters { sheet: self.id(), part, fault }
    }
}
