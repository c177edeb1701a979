//! A set-up: everything done on one part in one holding on one machine.

use crate::drawing::Sketch;
use crate::job::State;
use crate::proof::{Fact, Words};

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

/// One holding on one machine.
#[derive(Clone, Debug, PartialEq)]
pub struct SetUp {
    /// Its id in the card, which gives its title.
    pub id: &'static str,
    /// The kind of place.
    pub station: Station,
    /// The machine, where the shop has one.
    pub machine: Option<String>,
    /// How it is held and trued.
    pub hold: Vec<Words>,
    /// Steps in working order; those that cut carry their figures.
    pub steps: Vec<Step>,
    /// The sketch.
    pub sketch: Sketch,
    /// Minutes at the machine.
    pub minutes: f64,
    /// Minutes that run by themselves (oven, cooling).
    pub unattended: f64,
    /// States that must hold before it.
    pub needs: Vec<State>,
    /// States that hold after it.
    pub leaves: Vec<State>,
    /// The checks that its page shows; empty shows all.
    pub checks: &'static [&'static str],
    /// What is measured, with blanks for the as-left.
    pub blanks: Vec<Blank>,
    /// Cautions of just these steps.
    pub cautions: Vec<&'static str>,
}

impl SetUp {
    /// An empty set-up at a station.
    pub fn at(id: &'static str, station: Station) -> Self {
        Self {
            id,
            station,
            machine: None,
            hold: Vec::new(),
            steps: Vec::new(),
            sketch: Sketch::default(),
            minutes: 0.0,
            unattended: 0.0,
            needs: Vec::new(),
            leaves: Vec::new(),
            checks: &[],
            blanks: Vec::new(),
            cautions: Vec::new(),
        }
    }

    /// Adds a hand step.
    pub fn step(&mut self, id: &'static str) -> &mut Self {
        self.steps.push(Step { words: Words::of(id), cut: None });
        self
    }

    /// Adds a hand step with figures of its own for its blanks.
    pub fn step_with(&mut self, words: Words) -> &mut Self {
        self.steps.push(Step { words, cut: None });
        self
    }

    /// Adds a cut.
    pub fn cut(&mut self, words: Words, cut: Cut) -> &mut Self {
        self.minutes += cut.minutes;
        self.steps.push(Step { words, cut: Some(cut) });
        self
    }

    /// Adds cautions, each once.
    pub fn warns(&mut self, ids: &[&'static str]) {
        ids.iter().for_each(|id| {
            if !self.cautions.contains(id) {
                self.cautions.push(id);
            }
        });
    }

    /// The cuts among the steps.
    pub fn cuts(&self) -> impl Iterator<Item = &Cut> {
        self.steps.iter().filter_map(|step| step.cut.as_ref())
    }
}

/// One line of a sheet.
#[derive(Clone, Debug, PartialEq)]
pub struct Step {
    /// Its words in the card.
    pub words: Words,
    /// Its figures, where it cuts.
    pub cut: Option<Cut>,
}

/// One tool doing one thing.
#[derive(Clone, Debug, PartialEq)]
pub struct Cut<T = Fact> {
    /// The tool: a name of the shop or of the card; in words once the card was asked.
    pub tool: T,
    /// Spindle step, rev/min; none by hand.
    pub spindle: Option<f64>,
    /// Feed step, mm/rev; none by hand.
    pub feed: Option<f64>,
    /// Passes in order.
    pub passes: Vec<Pass>,
    /// Cutting minutes.
    pub minutes: f64,
}

impl<T> Cut<T> {
    /// The same cut with its tool put another way.
    pub fn with_tool<U>(&self, tool: U) -> Cut<U> {
        Cut { tool, spindle: self.spindle, feed: self.feed, passes: self.passes.clone(), minutes: self.minutes }
    }
}

/// What a pass is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PassKind {
    /// Takes the most.
    Rough,
    /// One of the last cuts.
    Finish,
    /// The same dial again.
    Spring,
    /// A drill, tap or reamer to its depth.
    Depth,
}

impl PassKind {
    /// As a sheet names it.
    pub const fn text(self) -> &'static str {
        match self {
            Self::Rough => "rough",
            Self::Finish => "finish",
            Self::Spring => "spring",
            Self::Depth => "to depth",
        }
    }
}

/// One pass.
#[derive(Clone, Debug, PartialEq)]
pub struct Pass {
    /// What it is for.
    pub kind: PassKind,
    /// Depth of cut, or depth of the hole, mm.
    pub depth: f64,
    /// What the dial must read, as that dial counts, in words with its unit.
    pub dial: Option<String>,
}

/// A line to write the as-left in.
#[derive(Clone, Debug, PartialEq)]
pub struct Blank {
    /// Its label in the card, under `blanks`.
    pub words: Words,
    /// As found, with its unit.
    pub as_found: Option<Fact>,
    /// The target with its limits and unit.
    pub target: Option<Fact>,
}
