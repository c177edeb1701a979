//! A worn bore read out of an answer: its axes by depth, and what they are held against.

use super::{first, size};
use crate::drawing::{Wear, WearAxis, WearKind, WearLine};
use crate::operations::{Answer, WornBore};
use crate::quantity::{Print, Rounds};
use crate::sheet::words;

/// Oversizes that are shown over the one that is taken.
const BEYOND: usize = 1;

/// The bore of an answer as a drawing list; nothing where it was read at no depth.
#[must_use]
pub fn wear(answer: &Answer<String>, of: &WornBore, print: Print) -> Option<Wear> {
    let print = first(print);
    let axis = |(at, (name, sizes)): (usize, &(Option<String>, Vec<f64>))| {
        let unnamed = if at == 0 { words::WIDEST } else { words::NARROWEST };
        let name = name.clone().unwrap_or_else(|| unnamed.to_owned());
        (sizes.len() == of.depths.len()).then(|| WearAxis { name, sizes: sizes.clone() })
    };
    let axes = of.axes.iter().enumerate().map(axis).collect::<Option<Vec<_>>>()?;
    if of.depths.len() < 2 || axes.is_empty() {
        return None;
    }
    let unit = words::unit_of_sizes(print);
    let line = |at: f64, name: String, rounds: Rounds, kind: WearKind| WearLine {
        at,
        name,
        says: format!("{} {unit}", size(at, rounds, print)),
        kind,
    };
    let mut lines = vec![line(of.nominal, words::AS_NEW.to_owned(), Rounds::Nearest, WearKind::New)];
    for (key, name) in of.cleans.into_iter().zip([words::CLEANS_WORN, words::CLEANS_OLD]) {
        let value = answer.value(key)?;
        lines.push(line(value.number, name.to_owned(), value.rounds, WearKind::Cleans));
    }
    let all = of.bored.map_or(&[][..], |_| answer.alternatives.as_slice());
    let taken = all.iter().position(|one| one.chosen).unwrap_or(all.len());
    for (at, one) in all.iter().enumerate().take(taken + BEYOND + 1) {
        let Some(value) = of.bored.and_then(|key| one.answer.value(key)) else { continue };
        let kind = if at == taken { WearKind::Taken } else { WearKind::Oversize };
        // What was logged of the one that was taken stands in the answer, and not in what was worked beside it.
        let number =
            if at == taken { answer.value(value.key).map_or(value.number, |own| own.number) } else { value.number };
        lines.push(line(number, words::bored_for(&one.name), Rounds::Nearest, kind));
    }
    let depth = |depth: &f64| (*depth, size(*depth, Rounds::Nearest, print));
    Some(Wear { depths: of.depths.iter().map(depth).collect(), caption: words::depth_in(unit), axes, lines })
}
