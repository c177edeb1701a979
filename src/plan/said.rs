//! The shapes of a job planned: answers with the words of their cards filled in. This is what every output is made from.

use crate::drawing::Sketch;
use crate::job::{self, Address};
use crate::operations::{Answer, Cut, Station};
use crate::proof::{Judged, Place, State, Verdict, Weight};
use crate::quantity::Print;
use crate::shop::{Paper, View};

/// A job planned.
#[derive(Clone, Debug)]
pub struct Plan {
    /// The job's name.
    pub job: String,
    /// The engine.
    pub engine: Option<String>,
    /// The day on the sheets.
    pub date: Option<String>,
    /// The shop's name.
    pub shop: Option<String>,
    /// Units of print.
    pub print: Print,
    /// Paper of its sheets.
    pub paper: Paper,
    /// How views stand to each other.
    pub view: View,
    /// Its operations in the order of the file.
    pub operations: Vec<Planned>,
}

/// An operation planned.
#[derive(Clone, Debug)]
pub struct Planned {
    /// Where it stands.
    pub address: Address,
    /// Its word.
    pub word: String,
    /// Its title.
    pub title: String,
    /// What it does.
    pub does: String,
    /// The part's material and hardness, in words.
    pub material: Option<String>,
    /// The remark of the part or of the set-up.
    pub note: Option<String>,
    /// Its verdict.
    pub verdict: Verdict,
    /// What the stamp says, where it says more than the verdict.
    pub stamp_note: Option<String>,
    /// The answer itself.
    pub answer: Answer,
    /// Choices in words.
    pub choices: Vec<SaidChoice>,
    /// Alternatives in words.
    pub alternatives: Vec<SaidAlternative>,
    /// Checks in words.
    pub checks: Vec<SaidCheck>,
    /// Set-ups in words.
    pub set_ups: Vec<PlannedSetUp>,
    /// What was assumed.
    pub assumed: Vec<String>,
    /// Cautions of the whole operation.
    pub cautions: Vec<String>,
    /// What the shop lacks.
    pub missing: Vec<String>,
    /// What could not be worked out.
    pub refused: Option<String>,
}

/// A choice in words.
#[derive(Clone, Debug)]
pub struct SaidChoice {
    /// What was chosen.
    pub name: String,
    /// The choice.
    pub chosen: String,
    /// Why.
    pub why: String,
}

/// A alternative in words.
#[derive(Clone, Debug)]
pub struct SaidAlternative {
    /// Its name.
    pub name: String,
    /// Its verdict.
    pub verdict: Verdict,
    /// Its answer.
    pub answer: Answer,
    /// Its checks in words.
    pub checks: Vec<SaidCheck>,
    /// Whether it was chosen.
    pub chosen: bool,
    /// Why not.
    pub why_not: Option<String>,
    /// What could not be worked out.
    pub refused: Option<String>,
}

/// A check in words.
#[derive(Clone, Debug)]
pub struct SaidCheck {
    /// The check.
    pub check: String,
    /// The key of the value that is judged, where it has a name.
    pub about: Option<&'static str>,
    /// What it asks.
    pub asks: String,
    /// Its figures.
    pub judged: Option<Judged>,
    /// What became of it.
    pub state: State,
    /// What it counts for.
    pub weight: Weight,
    /// The keys that would let it be made, where it was not.
    pub missing: Vec<String>,
    /// Whether it rests on a figure that was remembered and not read.
    pub from_memory: bool,
    /// What would mend it, where it is not proven.
    pub remedy: Option<String>,
    /// Remedies with the figure that each gives, where it is not proven.
    pub remedies: Vec<String>,
    /// The line to mend.
    pub place: Option<Place>,
}

/// A set-up in words.
#[derive(Clone, Debug)]
pub struct PlannedSetUp {
    /// Its id in the card.
    pub id: String,
    /// Its title.
    pub title: String,
    /// The kind of place.
    pub station: Station,
    /// The machine, or the kind of place where the shop has no name for it.
    pub machine: String,
    /// How it is held and trued.
    pub hold: Vec<String>,
    /// Steps in working order.
    pub steps: Vec<SaidStep>,
    /// The sketch, its labels in words.
    pub sketch: Sketch,
    /// Minutes at the machine.
    pub minutes: f64,
    /// Minutes that run by themselves.
    pub unattended: f64,
    /// States that must hold before it.
    pub needs: Vec<job::State>,
    /// States that hold after it.
    pub leaves: Vec<job::State>,
    /// The checks that its page shows; empty shows all.
    pub checks: Vec<String>,
    /// Blanks.
    pub blanks: Vec<SaidBlank>,
    /// Cautions of just these steps.
    pub cautions: Vec<String>,
}

/// A step in words.
#[derive(Clone, Debug)]
pub struct SaidStep {
    /// Its id in the card.
    pub id: String,
    /// Its words.
    pub text: String,
    /// Its figures, where it cuts.
    pub cut: Option<Cut<String>>,
}

/// A blank in words.
#[derive(Clone, Debug)]
pub struct SaidBlank {
    /// Its label.
    pub label: String,
    /// As found.
    pub as_found: Option<String>,
    /// Target with limits.
    pub target: Option<String>,
}

/// Checks that were not made for want of the keys under one parent key, in one line.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Unmade {
    /// The checks by name.
    pub checks: Vec<String>,
    /// The keys that would open them, nested ones with dots.
    pub keys: Vec<String>,
}

impl Planned {
    /// The checks that were not made, those of one parent key together: first those that must be made, then those that may.
    pub fn unmade(&self) -> [Vec<Unmade>; 2] {
        let of = |weight: Weight| {
            let mut groups: Vec<(String, Unmade)> = Vec::new();
            for check in self.checks.iter().filter(|check| check.state == State::NotChecked && check.weight == weight) {
                let parent = |key: &String| key.split('.').next().unwrap_or(key).to_owned();
                let parent = check.missing.first().map(parent).unwrap_or_default();
                let at = groups.iter().position(|group| group.0 == parent).unwrap_or_else(|| {
                    groups.push((parent, Unmade { checks: Vec::new(), keys: Vec::new() }));
                    groups.len() - 1
                });
                let Some((_, group)) = groups.get_mut(at) else { continue };
                group.checks.push(check.asks.clone());
                let new = check.missing.iter().filter(|key| !group.keys.contains(key)).cloned().collect::<Vec<_>>();
                group.keys.extend(new);
            }
            groups.into_iter().map(|group| group.1).collect()
        };
        [of(Weight::Must), of(Weight::May)]
    }

    /// The checks that rest on a figure that was remembered and not read.
    pub fn from_memory(&self) -> Vec<&str> {
        let rests = self.checks.iter().filter(|check| check.from_memory && check.state.verdict().is_some());
        rests.map(|check| check.check.as_str()).collect()
    }
}

impl SaidCheck {
    /// The verdict, where it was made.
    pub fn verdict(&self) -> Option<Verdict> {
        self.state.verdict()
    }

    /// What it does to the stamp; none where it does nothing.
    pub fn stamps(&self) -> Option<Verdict> {
        match (self.weight, self.state) {
            (Weight::Advice, _) => None,
            (_, State::Made(verdict)) => Some(verdict),
            (Weight::Must, State::NotChecked) => Some(Verdict::Doubtful),
            _ => None,
        }
    }
}
