//! What a feature asks that nobody has: addresses, instruments, remedies; and limits that a new part would not hold.

use crate::handbook::remedies::REPLACE;
use crate::job::{Address, Found, Inspected, Reading};
use crate::plan::Plan;
use crate::proof::At;
use crate::reading::{Problem, near};
use crate::shop::Shop;

/// What of a feature nobody has, and what cannot be.
pub(super) fn problems(plan: &Plan, shop: Option<&Shop>, of: &Inspected, words: &[&str]) -> Vec<Problem> {
    let mut problems = Vec::new();
    for reading in Found::readings(&of.found) {
        match (&*reading.value, shop) {
            (Reading::Of(at), _) => problems.extend(unknown_value(plan, at)),
            (Reading::Size { with: Some(name), .. }, Some(shop)) if shop.instrument(&name.value).is_none() => {
                let names = near(&name.value, shop.instruments.iter().map(|i| i.name.value.as_str()));
                problems
                    .push(Problem::new(name.place, format!("the shop has no instrument `{}`; {names}", name.value)));
            }
            _ => {}
        }
    }
    for remedy in &of.remedies {
        if remedy.value != REPLACE && !words.contains(&remedy.value.as_str()) {
            let names = near(&remedy.value, words.iter().copied().chain([REPLACE]));
            problems.push(Problem::new(
                remedy.place,
                format!("`{}` is no operation and not `{REPLACE}`; {names}", remedy.value),
            ));
        }
    }
    let service = of.service.value;
    if let Some(new) = of.new.as_ref().filter(|new| !(service.holds(new.low) && service.holds(new.high))) {
        let says = "a new part would be worn out by this limit: is it on the wrong side, or `new` another size?";
        problems.push(Problem::new(new.place, says));
    }
    problems
}

fn unknown_value(plan: &Plan, at: &At<Address>) -> Option<Problem> {
    let owner = at.value.owner();
    let Some(planned) = plan.operations.iter().find(|planned| planned.address == owner) else {
        let known: Vec<String> = plan.operations.iter().map(|planned| planned.address.to_string()).collect();
        let names = || near(&owner.to_string(), known.iter().map(String::as_str));
        let says = match plan.operations.iter().any(|planned| planned.address.part == owner.part) {
            true => format!("no operation of these jobs has the address `{owner}`; {}", names()),
            false => format!(
                "no operation of these jobs has the address `{owner}`: give the job that has it with this one, `setover decide THIS.yaml OTHER.yaml`"
            ),
        };
        return Some(Problem::new(at.place, says));
    };
    let value = at.value.value.as_deref()?;
    // What was refused has no values: the row says so.
    if planned.answer.refused.is_some() || planned.answer.value(value).is_some() {
        return None;
    }
    let names = near(value, planned.answer.values.iter().map(|value| value.key));
    Some(Problem::new(at.place, format!("`{owner}` gives no value `{value}`; {names}")))
}
