//! Does the wall of the bush stand the push, in or out? One that yields swells in its bore and sticks.

use super::metals::Metals;
use super::names::push::PUSH_STRESS;
use crate::handbook::materials::groups::Kind;
use crate::operations::{Answer, Bench};
use crate::proof::{Check, Keep, Mark, Place, Side, Source, Words, Worked};
use crate::quantity::{Mm, Newton, Quantity, Stress};
use std::f64::consts::PI;

/// What is known of what pushes and of the ring that it pushes on.
pub(in crate::operations) struct Push<'a> {
    /// Outside of what is pushed on: of the bush, or of the shoulder of the mandrel where that is the smaller.
    pub outside: &'a Worked<Mm>,
    pub bore: &'a Worked<Mm>,
    /// The greatest force, and the one that is looked for.
    pub most: &'a Worked<Newton>,
    pub middle: &'a Worked<Newton>,
    pub place: Place,
}

/// A ring is no smaller than this, mm²: what is left of none.
const LEAST_RING: f64 = 0.015;

/// Records what the greatest force puts on the wall.
pub(in crate::operations) fn push_on_wall(bench: &Bench, push: &Push, answer: &mut Answer) -> Worked<Stress> {
    answer.record(&PUSH_STRESS, on_ring(bench, push, push.most))
}

/// Judges it against what the metal of the bush stands: its yield stress, of grey iron, which has none, its tensile strength.
pub(in crate::operations) fn bush_stands_push(
    bench: &Bench,
    metals: &Metals,
    push: &Push,
    remedies: &[&'static str],
    answer: &mut Answer,
) {
    const ID: &str = "bush-stands-push";
    let worst = push_on_wall(bench, push, answer);
    let stands = match metals.bush.kind() {
        Kind::GreyIron => metals.bush.tensile_low(),
        _ => metals.bush.yield_low(),
    };
    let Ok(limit) = stands else { return answer.not_checked(&[ID], &["bush.material"]) };
    let ends = ((&worst, &limit), (&on_ring(bench, push, push.middle), &limit));
    let check = Check::judge_two(ID, ends.0, Keep::AtMost, ends.1, bench.guard());
    let check = answer.check(check.about(PUSH_STRESS.key).at(push.place));
    for remedy in remedies {
        check.remedy(Words::of(remedy));
    }
}

/// A force over the smallest ring that the readings leave.
fn on_ring(bench: &Bench, push: &Push, force: &Worked<Newton>) -> Worked<Stress> {
    let outside = push.outside.worst_number(Side::Low, bench.guard());
    let bore = push.bore.worst_number(Side::High, bench.guard());
    let area = (PI / 4.0 * (outside * outside - bore * bore)).max(LEAST_RING);
    let line = vec![format!("force over the wall of the bush, {area:.1} mm²")];
    let source = Source::fixed("force over area", Mark::Derived);
    Worked::method_of(Stress::new(force.number() / area), line, source, [force.origin()])
}
