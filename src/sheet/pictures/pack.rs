//! A pack of shims and the float that it leaves, read out of an answer.

use super::{first, window};
use crate::drawing::{Pack, Stretch};
use crate::operations::{self, Answer, Value, kit};
use crate::quantity::{Decimals, Print, Rounds, Shown, Unit, shown};
use crate::sheet::words;

/// Decimals of a millimetre to which shims are called.
const CALLED: Decimals = Decimals::Exactly(3);

/// The pack of an answer as a drawing list; nothing where the float that it leaves has no figure.
#[must_use]
pub fn pack(answer: &Answer<String>, of: &operations::Pack, print: Print) -> Option<Pack> {
    let print = first(print);
    let (left, bare) = (answer.value(of.left)?, answer.value(of.bare)?);
    let called = |mm: f64| Shown::of(mm, None, Unit::Mm, (CALLED, Rounds::Nearest), print);
    let mut links = Vec::new();
    let mut at = 0.0;
    for link in &of.links {
        let to = at + link.by * link.size;
        links.push(Stretch {
            name: link.name.clone(),
            from: at,
            to,
            says: called(link.size).to_string(),
            is_hatched: link.by < 0.0,
        });
        at = to;
    }
    let doubtful = |value: &Value| shown(value.number, Some(value.plus_minus), value.unit, value.rounds, print);
    if !links.is_empty() {
        let name = words::WITHOUT_SHIMS.to_owned();
        links.push(Stretch { name, from: 0.0, to: bare.number, says: doubtful(bare), is_hatched: false });
    }
    let (low, high) = of.wanted;
    let unit = words::unit_of_sizes(print);
    let [least, most] = window((low, high), print);
    let float = |name: &str, (from, to): (f64, f64), says, is_hatched| Stretch {
        name: name.to_owned(),
        from,
        to,
        says,
        is_hatched,
    };
    let ends = (left.number - left.plus_minus, left.number + left.plus_minus);
    // As the step calls them, which is what a hand looks for in the drawer.
    let shims = kit::shims_as_marked(&of.shims).map(|shims| shims.said(None, print));
    let thick = called(of.shims.iter().sum());
    Some(Pack {
        links,
        shims: of.shims.clone(),
        pack: [words::pack_of(shims), thick.to_string()],
        left: left.number,
        floats: vec![
            float(words::FLOAT_WANTED, (low, high), format!("{} {unit}", words::band_of(&least, &most)), true),
            float(words::FLOAT_LEFT, ends, doubtful(left), false),
        ],
    })
}
