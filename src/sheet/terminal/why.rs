//! One figure down to what it rests on, for a terminal.

use super::lines::Lines;
use crate::quantity::{Decimals, Print, Rounds, Shown, in_other_unit, shown, with_inch};
use crate::sheet::why::{From, Given, Root, ShownAs, Step, Why};
use crate::sheet::words::why as said;

impl Why {
    /// As text.
    pub fn text(&self, print: Print) -> String {
        let mut out = Lines::default();
        let ShownAs(value) = &self.shown;
        let figure = |number, doubt| shown(number, doubt, value.unit, value.rounds, print);
        out.hanging(
            "",
            &said::head(
                &self.address,
                &figure(value.number, Some(value.plus_minus)),
                &super::in_units(self.means, print),
            ),
        );
        if let Some((low, high)) = self.band {
            out.hanging("  ", &said::band(self.of_books, &figure(low, None), &figure(high, None)));
        }
        for judged in &self.judged_by {
            out.hanging("  ", &said::judged(judged.state, judged.check, &judged.asks));
        }
        if self.workings.is_empty() {
            out.hanging("  ", &from(&self.from, print));
        }
        out.heading(said::DOUBTS);
        match (self.doubts.is_empty(), self.at_worst_end) {
            (true, _) => out.line(&format!("  {}", said::NO_DOUBT)),
            (false, true) => out.hanging("  ", said::AT_WORST_END),
            (false, false) => {}
        }
        let rows = self.doubts.iter().map(|doubt| {
            let alone = shown(doubt.plus_minus, None, value.unit, Rounds::Up, print);
            let place = doubt.at.as_ref().map_or_else(String::new, said::at);
            vec![said::part(doubt.part), format!("± {alone}"), format!("{} {place}", doubt.of)]
        });
        out.table(2, &rows.collect::<Vec<_>>());
        if !self.workings.is_empty() {
            out.heading(said::WORKINGS);
            let then = self.from.then.iter().rev().cloned().collect::<Vec<_>>().join("; ");
            if !then.is_empty() {
                out.hanging("  ", &in_print(&then, print));
            }
            if print != Print::Metric {
                out.hanging("  ", said::WORKED_METRIC);
            }
        }
        self.workings.iter().for_each(|step| working(&mut out, step, print));
        out.finish()
    }
}

fn working(out: &mut Lines, step: &Step, print: Print) {
    for (at, line) in step.says.iter().enumerate() {
        let number = if at == 0 { step.number.to_string() } else { String::new() };
        let beside =
            step.result.filter(|_| print != Print::Metric).and_then(|(number, unit)| in_other_unit(number, unit));
        let beside = beside.map_or_else(String::new, |beside| format!(" ({beside})"));
        // The numbers of a formula stay in its own units: what it was given stands below in those of print.
        let line = if step.result.is_some() { line.clone() } else { in_print(line, print) };
        out.hanging(&format!("{number:>3}  "), &format!("{line}{beside}"));
    }
    if !step.source.is_empty() {
        out.hanging("     ", &said::source(&step.source));
    }
    for given in &step.given {
        let letter = given.symbol.map_or_else(String::new, |symbol| format!("{symbol} = "));
        let figure = figure(given, print);
        let figure = if figure.is_empty() { figure } else { figure + ": " };
        out.hanging("       ", &format!("{letter}{figure}{}", from(&given.from, print)));
    }
}

fn figure(given: &Given, print: Print) -> String {
    let shown = given
        .value
        .zip(given.unit)
        .map(|(number, unit)| Shown::of(number, None, unit, (Decimals::AsTyped, Rounds::Nearest), print).to_string());
    match (shown, given.word) {
        (Some(shown), Some(word)) => format!("{shown}, {word}"),
        (shown, _) => shown.unwrap_or_default(),
    }
}

/// A sentence with its figures in the units of print too.
fn in_print(text: &str, print: Print) -> String {
    if print == Print::Metric { text.to_owned() } else { with_inch(text) }
}

/// Where a figure comes from, with what was done to it.
fn from(from: &From, print: Print) -> String {
    let root = match &from.root {
        Root::Working(number) => said::working(*number),
        Root::Typed(at) => said::typed(at),
        Root::Assumed(why) => said::assumed(&in_print(why, print)),
        Root::Row { says, source, .. } => said::row(&in_print(says, print), source),
        Root::AsLeft(_) => said::AS_LEFT.to_owned(),
    };
    let then = from.then.iter().rev().map(|then| in_print(then, print));
    std::iter::once(root).chain(then).collect::<Vec<_>>().join("; ")
}
