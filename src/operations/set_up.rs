//! A set-up: everything done on one part in one holding on one machine.

use super::balloon::{self, HoldLine};
use super::hold_point::{HoldPoint, HoldPointOut};
use crate::drawing::Balloon;
use crate::drawing::Sketch;
use crate::job::State;
use crate::proof::{Dialled, Fact, Section, Speak, Words};
use crate::quantity::{Print, Shown};
use schemars::JsonSchema;
use serde::{Serialize, Serializer};

/// The kind of place where a set-up stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Station {
    /// A lathe.
    Lathe,
    /// A mill or a drill press.
    Drilling,
    /// A press.
    Press,
    /// An oven (and freezer).
    Oven,
    /// The bench.
    Bench,
}

impl Station {
    /// Its name, where the shop has none for the machine.
    pub const fn named(self) -> Fact {
        Fact::named(match self {
            Self::Lathe => "station-lathe",
            Self::Drilling => "station-drilling",
            Self::Press => "station-press",
            Self::Oven => "station-oven",
            Self::Bench => "station-bench",
        })
    }
}

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
    /// Minutes at the machine.
    pub minutes: f64,
    /// Minutes that run by themselves (oven, cooling).
    pub unattended: f64,
    /// States that must hold before it.
    pub needs: Vec<State>,
    /// States that hold after it.
    pub leaves: Vec<State>,
    /// The checks that it owns: those that its work, and no earlier one, cannot undo. Each check has one owner.
    pub checks: Vec<&'static str>,
    /// What is measured, with blanks for the as-left.
    #[serde(skip)]
    pub blanks: Vec<Blank<W>>,
    /// Cautions of just these steps.
    #[serde(skip)]
    pub cautions: Vec<W>,
}

impl<W> SetUp<W> {
    /// The same set-up in other words.
    ///
    /// # Errors
    /// Where a text has no other words.
    pub(crate) fn try_map_words<S: Speak<W>>(&self, speaker: &S) -> Result<SetUp<S::Said>, S::Slip> {
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
            Ok(Blank { words, as_found, target, readings: blank.readings, gauge })
        };
        Ok(SetUp {
            id: self.id,
            title: speaker.say(Section::SetUps, &self.title, &[])?,
            station: self.station,
            machine: speaker.say(Section::Names, &self.machine, &[])?,
            hold: self.hold.iter().map(|line| line.try_map_words(speaker)).collect::<Result<_, _>>()?,
            steps: self.steps.iter().map(step).collect::<Result<_, _>>()?,
            sketch: self.sketch.clone(),
            minutes: self.minutes,
            unattended: self.unattended,
            needs: self.needs.clone(),
            leaves: self.leaves.clone(),
            checks: self.checks.clone(),
            blanks: self.blanks.iter().map(blank).collect::<Result<_, _>>()?,
            cautions: speaker.say_all(Section::Cautions, &self.cautions)?,
        })
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
            minutes: 0.0,
            unattended: 0.0,
            needs: Vec::new(),
            leaves: Vec::new(),
            checks: Vec::new(),
            blanks: Vec::new(),
            cautions: Vec::new(),
        }
    }

    /// Puts it on a machine of the shop, where there is one.
    pub fn on(&mut self, machine: Option<&str>) {
        if let Some(machine) = machine {
            self.machine = Fact::from(machine).into();
        }
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
        self.minutes += cut.minutes;
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

/// One line of a sheet.
#[derive(Clone, Debug, PartialEq)]
pub struct Step<W = Words> {
    /// Its id in the card.
    pub id: &'static str,
    /// Its words.
    pub words: W,
    /// Its figures, where it cuts.
    pub cut: Option<Cut<W>>,
    /// What is measured there before the work goes on, where anything is.
    pub hold_point: Option<HoldPoint<W>>,
}

impl<W> Step<W> {
    /// The balloon that it belongs to: ④ where it cuts, ③ where it takes the zero.
    pub fn balloon(&self) -> Option<Balloon> {
        self.cut.as_ref().map(|_| Balloon::Tool).or_else(|| balloon::of_step(self.id))
    }
}

impl Step {
    /// A step without figures.
    pub const fn by_hand(words: Words) -> Self {
        Self { id: words.id, words, cut: None, hold_point: None }
    }
}

/// The steps of a set-up as the JSON has them: all in words, and those that cut with their figures.
#[derive(Serialize, JsonSchema)]
struct StepsAndCuts<'a, W> {
    /// Steps in working order.
    steps: Vec<&'a W>,
    /// Those that cut.
    cuts: Vec<CutInWords<'a, W>>,
    /// What is measured at some of the steps before the work goes on.
    hold_points: Vec<HoldPointOut<'a, W>>,
}

#[derive(Serialize, JsonSchema)]
struct CutInWords<'a, W> {
    /// The words of its step.
    what: &'a W,
    #[serde(flatten)]
    cut: &'a Cut<W>,
}

fn steps_and_cuts<W: Serialize, S: Serializer>(all: &[Step<W>], serializer: S) -> Result<S::Ok, S::Error> {
    let steps = all.iter().map(|step| &step.words).collect();
    let cuts = all.iter().filter_map(|step| Some(CutInWords { what: &step.words, cut: step.cut.as_ref()? })).collect();
    let held = all.iter().enumerate().filter_map(|(at, step)| Some(HoldPointOut::of(at, step.hold_point.as_ref()?)));
    StepsAndCuts { steps, cuts, hold_points: held.collect() }.serialize(serializer)
}

fn words_of<W: Serialize, S: Serializer>(hold: &[HoldLine<W>], serializer: S) -> Result<S::Ok, S::Error> {
    serializer.collect_seq(hold.iter().map(|line| &line.words))
}

/// One tool doing one thing.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Cut<W = Words> {
    /// The tool: a name of the shop or of the card.
    pub tool: W,
    /// Spindle step, rev/min; none by hand.
    #[serde(rename = "spindle_rev_min", skip_serializing_if = "Option::is_none")]
    pub spindle: Option<f64>,
    /// Feed step, mm/rev; none by hand.
    #[serde(rename = "feed_mm_rev", skip_serializing_if = "Option::is_none")]
    pub feed: Option<f64>,
    /// Passes in order.
    pub passes: Vec<Pass>,
    /// Cutting minutes.
    pub minutes: f64,
}

impl<T> Cut<T> {
    /// The same cut with its tool put another way.
    pub(crate) fn with_tool<U>(&self, tool: U) -> Cut<U> {
        Cut { tool, spindle: self.spindle, feed: self.feed, passes: self.passes.clone(), minutes: self.minutes }
    }
}

/// What a pass is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum PassKind {
    /// Over the outermost of a face only, so that there is something to measure.
    Trial,
    /// Takes the most.
    Rough,
    /// One of the last cuts.
    Finish,
    /// The same dial again.
    Spring,
    /// A drill, tap or reamer to its depth.
    #[serde(rename = "to depth")]
    Depth,
}

impl PassKind {
    /// As a sheet names it.
    pub const fn text(self) -> &'static str {
        match self {
            Self::Trial => "trial",
            Self::Rough => "rough",
            Self::Finish => "finish",
            Self::Spring => "spring",
            Self::Depth => "to depth",
        }
    }
}

/// One pass.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Pass {
    /// What it is for.
    pub kind: PassKind,
    /// Depth of cut, or depth of the hole, mm.
    #[serde(rename = "depth_mm")]
    pub depth: f64,
    /// What is set for it, where anything is.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub dial: Option<Dialled>,
}

/// A line to write the as-left in.
#[derive(Clone, Debug, PartialEq)]
pub struct Blank<W = Words> {
    /// Its label in the card, under `blanks`.
    pub words: W,
    /// As found, with its unit.
    pub as_found: Option<Fact>,
    /// What it should be.
    pub target: Option<Target>,
    /// How many readings its step asks.
    pub readings: usize,
    /// The gauge by its name in the shop, where the shop has one.
    pub gauge: Option<W>,
}

/// What a size should be when the work is done.
#[derive(Clone, Debug, PartialEq)]
pub enum Target {
    /// A figure aimed at, with its doubt where it has one.
    Aim(Fact),
    /// Anything between two limits.
    Between(Fact, Fact),
    /// Anything up to a limit.
    UpTo(Fact),
}

impl Target {
    /// A target: of a span its limits, else a figure aimed at.
    pub fn of(fact: Fact) -> Self {
        match fact {
            Fact::Span(low, high) => Self::Between(*low, *high),
            aim => Self::Aim(aim),
        }
    }

    /// Its figures with their parts apart; of two limits in one unit of print the upper alone names it.
    pub fn shown(&self, print: Print) -> Vec<Shown> {
        match self {
            Self::Aim(fact) | Self::UpTo(fact) => fact.shown(None, print).into_iter().collect(),
            Self::Between(low, high) => Fact::span_shown(low, high, None, print),
        }
    }
}
