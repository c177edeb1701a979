//! Links of a gap with their shares of its doubt, read out of an answer.

use super::{first, ruled, size};
use crate::drawing::{Bar, Bars, LinkRow, Links};
use crate::in_order::InOrder;
use crate::operations::{self, Answer, LinkShare};
use crate::quantity::{Decimals, Print, Rounds, Shown, Unit, figure};
use crate::sheet::{figures, words};

/// The links of an answer as a drawing list, the dearest first; nothing where the gap has no figure.
#[must_use]
pub fn links(answer: &Answer<String>, of: &operations::Links, print: Print) -> Option<Links> {
    let print = first(print);
    let gap = answer.value(of.gap)?;
    let (low, high) = gap.band.unwrap_or((gap.number, gap.number));
    let (low, high) = (low - gap.plus_minus, high + gap.plus_minus);
    let mut bars = Vec::new();
    if let Some((least, most)) = of.wanted.filter(|(least, most)| least <= most) {
        let ends = super::window((least, most), print);
        bars.push(Bar { name: words::WANTED.to_owned(), low: least, high: most, ends });
    }
    let ends = [size(low, Rounds::Down, print), size(high, Rounds::Up, print)];
    bars.push(Bar { name: words::LINKS_LEAVE.to_owned(), low, high, ends });
    let mut all: Vec<&LinkShare> = of.links.iter().collect();
    all.order_by(|one, other| other.share.total_cmp(&one.share));
    let row = |link: &&LinkShare| LinkRow {
        name: link.name.clone(),
        size: counted(link, print),
        share: link.share.clamp(0.0, 1.0),
        says: if link.share > 0.0 { words::percent(link.share) } else { words::NO_DOUBT.to_owned() },
    };
    Some(Links {
        captions: [words::LINK, words::LINK_SIZE, words::LINK_SHARE].map(str::to_owned),
        rows: all.iter().map(row).collect(),
        closing: Bars { groups: vec![ruled(bars, words::unit_of_sizes(print), print)?] },
    })
}

/// The size of a link as it counts: with its sign, and how often where that is not once.
fn counted(link: &LinkShare, print: Print) -> String {
    let sign = if link.by < 0.0 { "−" } else { "+" };
    let times = if link.by.abs() == 1.0 { String::new() } else { format!("{} × ", figure(link.by.abs())) };
    let size = match link.limits {
        Some((low, high)) => {
            let (low, high) = Shown::window(low, high, Unit::Mm, Decimals::Usual, print);
            // A sign stands before both ends.
            format!("({})", words::band_of(&figures::number(&low.number), &figures::number(&high.number)))
        }
        None => {
            let shown = Shown::usual(link.size, Some(link.doubt), Unit::Mm, Rounds::Nearest, print);
            let doubt = shown.doubt.as_ref().map_or_else(String::new, |doubt| format!(" ± {doubt}"));
            format!("{}{doubt}", figures::number(&shown.number))
        }
    };
    format!("{sign}{times}{size}")
}
