//! A set-up: everything done on one part in one holding on one machine.

use super::blank::{Blank, Target};
use super::cut::Cut;
use super::day::{Carried, Lies, Pull, Wait};
use super::station::Station;
use super::step::{Step, StepsAndCuts, steps_and_cuts, words_of};
use crate::drawing::Sketch;
use crate::handbook::rigging::Aspect;
use crate::job::State;
use crate::operations::balloon::HoldLine;
use crate::operations::hold_point::HoldPoint;
use crate::proof::{Fact, Section, Speak, Words, try_each};
use schemars::JsonSchema;
use serde::Serialize;
use std::collections::BTreeMap;

/// One holding on one machine, generic over its words as the answer is.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct SetUp<W = Words> {
    /// Its id in the card.
    pub id: &'static str,
    /// Its title.
    pub title: W,
    /// The kind of place.
    #[serde(skip)]
    pub station: Station,
    /// The machine by its name in the shop, else by the kind of place.
    pub machine: W,
    /// How it is held and trued, each line with its balloon.
    #[serde(serialize_with = "words_of")]
    #[schemars(with = "Vec<W>")]
    pub hold: Vec<HoldLine<W>>,
    /// Steps in working order; those that cut carry their figures.
    #[serde(flatten, serialize_with = "steps_and_cuts")]
    #[schemars(with = "StepsAndCuts<'static, String>")]
    pub steps: Vec<Step<W>>,
    /// The sketch.
    #[serde(skip)]
    pub sketch: Sketch,
    /// Minutes of the hands: loading and truing the part, cutting, handling; never what changes the machine over for it. None
    /// where they are not known.
    pub minutes: Option<f64>,
    /// A wait before it, from the end of what left the state that it needs; it takes no machine.
    pub rest: Option<Wait>,
    /// Whether its part is warm as the work begins, and cools for so long first.
    #[serde(skip)]
    pub is_warm_now: bool,
    /// A wait after it, that runs unattended.
    pub tail: Option<Wait>,
    /// Whether it may be put down for a break.
    pub pause: bool,
    /// What the machine must carry.
    pub rigging: BTreeMap<Aspect, Carried>,
    /// States that must hold before it.
    pub needs: Vec<State>,
    /// States that hold after it.
    pub leaves: Vec<State>,
    /// The checks that it owns: those that its work, and no earlier one, cannot undo. Each check has one owner.
    pub checks: Vec<&'static str>,
    /// What is measured, with blanks for the as-left.
    #[serde(skip)]
    pub blanks: Vec<Blank<W>>,
    /// What must be at hand beside the tools of its cuts and the gauges of its blanks.
    #[serde(skip)]
    pub pulls: Vec<Pull<W>>,
    /// Tools of its cuts as their drawers call them.
    #[serde(skip)]
    pub lies: Vec<Lies<W>>,
    /// Cautions of just these steps.
    #[serde(skip)]
    pub cautions: Vec<W>,
    /// The entry of the log by which it was worked, where that has no size of it.
    #[serde(skip)]
    pub told: Option<u32>,
}

impl<W> SetUp<W> {
    /// What a size of it should be: limits are no wider than those of the hold point at which it is read when the last cut is
    /// done.
    pub fn target_of(&self, blank: &Blank<W>) -> Option<Target> {
        let (target, key) = (blank.target.clone()?, blank.log.map(|log| log.key));
        let read = self.steps.iter().rev().take_while(|step| step.cut.is_none());
        let mut held = read.filter_map(|step| step.hold_point.as_ref()).filter(|hold| Some(hold.measures) == key);
        Some(held.next().map_or_else(|| target.clone(), |hold| target.within(&hold.limits)))
    }

    /// The same set-up in other words.
    ///
    /// # Errors
    /// Where a text has no other words.
    pub(crate) fn try_map_words<S: Speak<W>>(&self, speaker: &S) -> Result<SetUp<S::Said>, S::Slip>
    where
        S::Said: Default,
    {
        let step = |step: &Step<W>| {
            let cut = step.cut.as_ref().map(|cut| Ok(cut.with_tool(speaker.say(Section::Names, &cut.tool, &[])?)));
            let words = speaker.say(Section::Steps, &step.words, &[])?;
            let hold_point = step.hold_point.as_ref().map(|hold| hold.try_map_words(speaker)).transpose()?;
            Ok(Step { id: step.id, words, cut: cut.transpose()?, hold_point })
        };
        let blank = |blank: &Blank<W>| {
            let words = speaker.say(Section::Blanks, &blank.words, &[])?;
            let gauge = blank.gauge.as_ref().map(|gauge| speaker.say(Section::Names, gauge, &[])).transpose()?;
            let (as_found, target) = (blank.as_found.clone(), blank.target.clone());
            let (readings, is_expected, log) = (blank.readings, blank.is_expected, blank.log);
            Ok(Blank { words, as_found, is_expected, target, readings, gauge, log })
        };
        Ok(SetUp {
            machine: speaker.say(Section::Names, &self.machine, &[])?,
            hold: try_each(&self.hold, |line| line.try_map_words(speaker))?,
            steps: try_each(&self.steps, step)?,
            sketch: self.sketch.clone(),
            rigging: self.rigging.clone(),
            needs: self.needs.clone(),
            leaves: self.leaves.clone(),
            blanks: try_each(&self.blanks, blank)?,
            pulls: try_each(&self.pulls, |pull| pull.try_map_words(speaker))?,
            lies: try_each(&self.lies, |lies| lies.try_map_words(speaker))?,
            cautions: speaker.say_all(Section::Cautions, &self.cautions)?,
            ..self.try_map_title(speaker)?
        })
    }

    /// The same as far as a list tells of it: its title, its minutes and whose checks are its own.
    ///
    /// # Errors
    /// Where the title has no other words.
    pub(crate) fn try_map_title<S: Speak<W>>(&self, speaker: &S) -> Result<SetUp<S::Said>, S::Slip>
    where
        S::Said: Default,
    {
        Ok(SetUp {
            id: self.id,
            title: speaker.say(Section::SetUps, &self.title, &[])?,
            station: self.station,
            machine: S::Said::default(),
            hold: Vec::new(),
            steps: Vec::new(),
            sketch: Sketch::default(),
            minutes: self.minutes,
            rest: self.rest,
            is_warm_now: self.is_warm_now,
            tail: self.tail,
            pause: self.pause,
            rigging: BTreeMap::new(),
            needs: Vec::new(),
            leaves: Vec::new(),
            checks: self.checks.clone(),
            blanks: Vec::new(),
            pulls: Vec::new(),
            lies: Vec::new(),
            cautions: Vec::new(),
            told: self.told,
        })
    }

    /// The step after which the day may have to be planned again: the last at which what is measured decides what follows.
    pub fn hold_point(&self) -> Option<&'static str> {
        self.steps.iter().rev().find(|step| step.hold_point.is_some()).map(|step| step.id)
    }

    /// Whether something is read before its work begins: at its first hold point, no size that the work itself leaves, nor any behind a cut.
    pub fn is_read_first(&self) -> bool {
        let is_left = |key: &str| self.blanks.iter().filter_map(|blank| blank.log).any(|log| log.key == key);
        let before_cutting = self.steps.iter().take_while(|step| step.cut.is_none());
        let first = before_cutting.filter_map(|step| step.hold_point.as_ref()).next();
        first.is_some_and(|hold| !is_left(hold.measures))
    }

    /// Minutes that run unattended, before it and after it.
    pub fn by_itself(&self) -> f64 {
        [self.rest, self.tail].iter().flatten().map(|wait| wait.minutes).sum()
    }

    /// The cuts among the steps.
    pub fn cuts(&self) -> impl Iterator<Item = &Cut<W>> {
        self.steps.iter().filter_map(|step| step.cut.as_ref())
    }
}

impl SetUp {
    /// An empty set-up at a station.
    pub fn at(id: &'static str, station: Station) -> Self {
        Self {
            id,
            title: Words::of(id),
            station,
            machine: station.named().into(),
            hold: Vec::new(),
            steps: Vec::new(),
            sketch: Sketch::default(),
            minutes: Some(0.0),
            rest: None,
            is_warm_now: false,
            tail: None,
            pause: station == Station::Bench,
            rigging: BTreeMap::new(),
            needs: Vec::new(),
            leaves: Vec::new(),
            checks: Vec::new(),
            blanks: Vec::new(),
            pulls: Vec::new(),
            lies: Vec::new(),
            cautions: Vec::new(),
            told: None,
        }
    }

    /// Puts it on a machine of the shop, where there is one.
    pub fn on(&mut self, machine: Option<&str>) {
        if let Some(machine) = machine {
            self.machine = Fact::from(machine).into();
        }
    }

    /// Adds minutes of the hands.
    pub fn takes(&mut self, minutes: f64) -> &mut Self {
        self.minutes = self.minutes.map(|before| before + minutes);
        self
    }

    /// Says what the machine must carry.
    pub(crate) fn carries(&mut self, aspect: Aspect, what: Carried) -> &mut Self {
        self.rigging.insert(aspect, what);
        self
    }

    /// Adds a hand step.
    pub fn step(&mut self, id: &'static str) -> &mut Self {
        self.step_with(Words::of(id))
    }

    /// Adds a hand step with figures of its own for its blanks.
    pub(crate) fn step_with(&mut self, words: Words) -> &mut Self {
        self.steps.push(Step::by_hand(words));
        self
    }

    /// Adds a hand step at which something is measured before the work goes on.
    pub fn hold_at(&mut self, words: Words, hold: impl Into<Option<HoldPoint>>) -> &mut Self {
        self.steps.push(Step { hold_point: hold.into(), ..Step::by_hand(words) });
        self
    }

    /// Adds a cut.
    pub fn cut(&mut self, words: Words, cut: Cut) -> &mut Self {
        self.takes(cut.minutes);
        self.steps.push(Step { cut: Some(cut), ..Step::by_hand(words) });
        self
    }

    /// Adds cautions, each once.
    pub fn warns(&mut self, ids: &[&'static str]) {
        ids.iter().for_each(|id| {
            if !self.cautions.iter().any(|known| known.id == *id) {
                self.cautions.push(Words::of(id));
            }
        });
    }
}

/// Which set-ups of an operation are done, by the figures that were written down: one is when a size that its work leaves is given, or
/// when somebody said that it was worked, and so is what comes before one that is. `given` is what tells of a figure, by its key.
pub fn done_by<W>(set_ups: &[SetUp<W>], given: impl Fn(&str) -> Option<u32>) -> Vec<Option<u32>> {
    let told = |set_up: &SetUp<W>| {
        let mut closing = set_up.blanks.iter().filter_map(|blank| blank.log).filter(|left| left.closes);
        closing.find_map(|left| given(left.key)).or(set_up.told)
    };
    let mut done = Vec::with_capacity(set_ups.len());
    for set_up in set_ups.iter().rev() {
        let later = done.last().copied().flatten();
        done.push(told(set_up).or(later));
    }
    done.reverse();
    done
}
