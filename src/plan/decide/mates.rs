//! What goes with a part that was put right: mates of another size, what is never used again, and mates that are not for it any more.

use super::cured::{Work, order};
use super::frame::{Decision, Order, Row, Size, Why};
use crate::handbook::remedies;
use crate::plan::Planned;

/// The key of the size of the mate.
const MATE: &str = "piston";

/// What takes its size from what an operation makes.
pub(super) fn mates(by: &Planned, part: &str) -> Vec<Row> {
    let Some(known) = remedies::of(&by.word).filter(|known| !known.follows.is_empty()) else { return Vec::new() };
    let size = by.answer.choices.iter().find(|choice| known.follows.iter().any(|mate| mate == choice.name));
    let size = size.map(|choice| choice.chosen.clone());
    let lacks = |mate: &str| by.answer.missing.iter().any(|item| item.contains(mate));
    let orders = known.follows.iter().map(|mate| Order {
        size: size.clone(),
        // What was chosen lies in a drawer, unless it is said to be lacking; what goes with it nobody counted.
        ..order(mate, part, size.is_some() && known.follows.first() == Some(mate) && !lacks(mate))
    });
    vec![Row {
        part: part.into(),
        feature: known.follows.join(", "),
        found: by.answer.value("piston_now").map(|value| Size {
            number: value.number,
            plus_minus: value.plus_minus,
            unit: value.unit,
            as_left: false,
        }),
        orders: orders.collect(),
        ..follows(by, Why::After(by.address.operation.clone()))
    }]
}

/// What of the mates of work that is done is still wanted: it is to be bought, and the log has nothing of it yet. What lay in the drawer the
/// work was made to. None where nothing is.
pub(super) fn not_written_down(by: &Planned, mut row: Row) -> Option<Row> {
    let left = by.answer.values.iter().filter(|value| value.origin.entry().is_some());
    let left: Vec<&str> = left.map(|value| value.key).collect();
    row.orders
        .retain(|order| !order.in_drawer && !left.iter().any(|key| key.starts_with(order.item.trim_end_matches('s'))));
    row.feature = row.orders.iter().map(|order| order.item.as_str()).collect::<Vec<_>>().join(", ");
    (!row.orders.is_empty()).then_some(row)
}

/// What of work that is done is never used again: a new one goes in, and no log tells that it is in.
pub(super) fn never_used_again(by: &Planned) -> Option<Row> {
    let known = remedies::of(&by.word).filter(|known| !known.fresh.is_empty())?;
    let part = by.address.part.as_str();
    let orders = known.fresh.iter().map(|item| order(item, part, false));
    Some(Row { feature: known.fresh.join(", "), orders: orders.collect(), ..follows(by, Why::NeverAgain) })
}

/// The row of what is replaced because of what an operation does.
fn follows(by: &Planned, why: Why) -> Row {
    Row {
        part: by.address.part.clone(),
        feature: String::new(),
        found: None,
        limits: Vec::new(),
        new: None,
        margin: None,
        verdict: None,
        decision: Decision::Follows(by.word.clone()),
        why: vec![why],
        sheets: Vec::new(),
        orders: Vec::new(),
    }
}

/// A mate that could be used again, where a bore is made, or was made, to another size: it is not for that one.
pub(super) fn for_another(rows: &mut [Row], work: &Work) {
    let is_bored = |planned: &&Planned| {
        let by = |row: &Row| row.part == planned.address.part && row.is_put_right_by(&planned.word);
        work.cuts.iter().any(|cut| cut.of == planned.address && cut.is_done()) || rows.iter().any(by)
    };
    let bored = work.plan.operations.iter().filter(is_bored).filter_map(|planned| {
        let mate = remedies::of(&planned.word)?.follows.first()?;
        Some((mate, planned.answer.value(MATE)?, planned.address.to_string()))
    });
    let bored: Vec<_> = bored.collect();
    for row in rows.iter_mut().filter(|row| row.decision == Decision::Reuse) {
        let Some(found) = row.found else { continue };
        for (mate, size, by) in &bored {
            let is_mate = [&row.part, &row.feature].iter().any(|name| name.contains(mate.as_str()));
            let apart = (size.number - found.number).abs() > size.plus_minus + found.plus_minus;
            if is_mate && size.unit == found.unit && apart {
                row.why.push(Why::ForAnother(by.clone(), size.number));
            }
        }
    }
}
