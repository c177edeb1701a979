//! `hand`: work that no formula knows, in the job's own words: so that it stands in the day with its minutes and its states.

use super::state_word::StateWord;
use crate::handbook::StateKind;
use crate::job::PartFacts;
use crate::operations::kit::{above_zero, machine_named, of_part, rig};
use crate::operations::{Answer, Bench, Declared, Hold, Operation, SetUp, SetUpWish, Station, Wait};
use crate::proof::{At, Check, CheckRule, Fact, Refusal, Verdict};
use crate::quantity::{Decimals, Minutes, Quantity, Unit};
use crate::reading::Problem;
use schemars::JsonSchema;
use serde::Deserialize;

/// Work in the job's own words.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Hand {
    /// What is done.
    does: At<String>,
    /// Minutes of the hands; left out, nobody knows.
    minutes: Option<At<Minutes>>,
    /// What runs unattended afterwards; left out, nothing.
    waits: Option<Waits>,
    /// What must be true before: `washed`, `cover:measured`, `case/left:pressed`; left out, nothing.
    #[serde(default)]
    needs: Vec<At<StateWord>>,
    /// What is true afterwards; left out, `done`.
    #[serde(default)]
    leaves: Vec<At<StateWord>>,
    /// What holds the part, where the machine must carry it.
    hold: Option<Hold>,
    /// Whether it may be put down for a break; left out, work at the bench may and other work may not.
    pause: Option<At<bool>>,
    /// Machine, name, feature, remark; left out, none.
    set_up: Option<SetUpWish>,
}

/// What runs unattended.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
struct Waits {
    /// How long.
    minutes: At<Minutes>,
    /// Whether it must end before the shop is closed; left out, it need not.
    watched: Option<At<bool>>,
    /// Whether it keeps the machine; left out, it does not.
    holds: Option<At<bool>>,
}

impl Waits {
    fn wait(&self) -> Wait {
        let said = |at: &Option<At<bool>>| at.as_ref().is_some_and(|at| at.value);
        Wait { minutes: self.minutes.value.number(), watched: said(&self.watched), holds: said(&self.holds) }
    }
}

/// Letters of a title: what is longer ends at a word.
const TITLE: usize = 40;

/// What is done in a few words: the text up to its first stop.
fn title(does: &str) -> String {
    let first = does.trim().split([',', ';', ':', '.', '\n']).map(str::trim).find(|piece| !piece.is_empty());
    let first = first.unwrap_or(does.trim());
    if first.chars().count() <= TITLE {
        return first.to_owned();
    }
    let mut short = String::new();
    for word in first.split_whitespace() {
        if short.chars().count() + word.chars().count() >= TITLE {
            break;
        }
        short = if short.is_empty() { word.to_owned() } else { format!("{short} {word}") };
    }
    // One endless word is cut where it must be.
    let short = if short.is_empty() { first.chars().take(TITLE).collect() } else { short };
    format!("{short} …")
}

impl Operation for Hand {
    fn values(&self) -> &'static [&'static [Declared]] {
        &[]
    }

    fn checks(&self) -> &'static [CheckRule] {
        const { &[CheckRule::must("judged", &[]), CheckRule::may("minutes-known", &["minutes"])] }
    }

    fn set_up(&self) -> Option<&SetUpWish> {
        self.set_up.as_ref()
    }

    fn problems(&self, _: &PartFacts) -> Vec<Problem> {
        let mut all = Vec::new();
        if self.does.value.trim().is_empty() {
            all.push(Problem::new(self.does.place, "`does` must say what is done"));
        }
        above_zero("`minutes`", self.minutes.as_ref(), &mut all);
        self.hold.iter().for_each(|hold| hold.problems(None, &mut all));
        above_zero("`minutes` of the wait", self.waits.as_ref().map(|waits| &waits.minutes), &mut all);
        all
    }

    fn work(&self, bench: &Bench, answer: &mut Answer) -> Result<(), Refusal> {
        bench.part.material.iter().flat_map(|at| at.value.safety_without_chips()).for_each(|id| answer.caution(id));
        answer.fact("does", self.does.value.clone());
        answer.fact("in_short", title(&self.does.value));
        // Nothing of the work itself is judged: a sheet in the job's own words is never proven.
        answer.check(Check::of_kind("judged", Verdict::Doubtful).at(self.does.place));
        let known = self.minutes.as_ref().map_or(Verdict::Doubtful, |_| Verdict::Proven);
        let place = self.minutes.as_ref().map_or(self.does.place, |at| at.place);
        answer.check(Check::of_kind("minutes-known", known).at(place));
        let machine = machine_named(bench, self.set_up.as_ref());
        let mut set_up = SetUp::at("by-hand", machine.map_or(Station::Bench, Station::of));
        set_up.on(machine.map(crate::shop::Machine::name));
        if matches!(set_up.station, Station::Lathe | Station::Drilling) {
            set_up.warns(&["isolate", "guards", "loose-things", "swarf"]);
        }
        if let Some(hold) = &self.hold {
            rig(&mut set_up, Some(hold), hold.held_in.value);
        }
        let said = |words: &[At<StateWord>]| words.iter().map(|at| at.value.said()).collect::<Vec<_>>().join("; ");
        if !self.needs.is_empty() {
            answer.fact("before", said(&self.needs));
            set_up.step("true-before");
        }
        set_up.step("as-it-says");
        if let Some(waits) = &self.waits {
            let long = Fact::figure(waits.minutes.value.number(), Unit::Min).to(Decimals::Exactly(0));
            answer.fact("unattended", long);
            set_up.step("then-by-itself");
        }
        if !self.leaves.is_empty() {
            answer.fact("after", said(&self.leaves));
            set_up.step("true-after");
        }
        set_up.minutes = self.minutes.as_ref().map(|at| at.value.number());
        set_up.tail = self.waits.as_ref().map(Waits::wait);
        set_up.pause = self.pause.as_ref().map_or(set_up.pause, |at| at.value);
        let states = |words: &[At<StateWord>]| words.iter().map(|at| at.value.state(&bench.part.name)).collect();
        set_up.needs = states(&self.needs);
        set_up.leaves = if self.leaves.is_empty() { of_part(bench, &[StateKind::Done]) } else { states(&self.leaves) };
        answer.set_ups.push(set_up);
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::title;

    #[test]
    fn a_title_is_the_text_up_to_its_first_stop_and_ends_at_a_word() {
        assert_eq!(title("Glue the gasket to the cover, clamp it."), "Glue the gasket to the cover");
        assert_eq!(title(" Fit it. Then look. "), "Fit it");
        assert_eq!(title(". , Fit it"), "Fit it");
        let long = title("Carry the heavy gear case with two persons to the bench under the window");
        assert_eq!(long, "Carry the heavy gear case with two …");
        assert_eq!(title(&"x".repeat(60)).chars().count(), super::TITLE + 2);
        assert_eq!(title("..."), "...");
    }
}
