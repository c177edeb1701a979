//! The smallest operation: a piece sawn off a bar by hand, judged by what is left of the bar.

use schemars::JsonSchema;
use serde::Deserialize;
use setover::drawing::{Point, Shows, Side, Sketch, Stroke, rectangle};
use setover::handbook::{StateKind, set_up_minutes};
use setover::job::{PartFacts, Reading};
use setover::operations::kit::{above_zero, mm, of_part};
use setover::operations::{Answer, Bench, Declared, Operation, SetUp, SetUpWish, Station};
use setover::proof::{At, CheckRule, Keep, Origin, Refusal, Worked};
use setover::quantity::{Mm, Quantity, Wanted};
use setover::reading::Problem;
use setover::shop::Gauge;
use setover::{formula, names};

formula! {
    /// What a saw leaves of a bar.
    left_of_bar(L: Mm = "the bar" in 0.0..=10_000.0, p: Mm = "the piece" in 0.0..=10_000.0, w: Mm = "the width of the cut" in 0.0..=20.0)
        -> L_1: Mm { L - p - w }
    source Derived "the saw turns its own width to chips"
}

names! { pub(self),
    BAR: Mm = new("bar", "length of the bar as found");
    LEFT: Mm = new("left", "length of the bar that is left");
}

/// A piece sawn off a bar by hand.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct SawOff {
    /// Length of the bar (measured).
    length: At<Reading>,
    /// Length of the piece.
    piece: At<Mm>,
    /// Width of the cut.
    cut: At<Mm>,
    /// Least length that must be left (wanted).
    least: At<Wanted<Mm>>,
    /// Machine, name, remark.
    set_up: Option<SetUpWish>,
}

impl Operation for SawOff {
    fn values(&self) -> &'static [&'static [Declared]] {
        &[VALUES]
    }

    fn checks(&self) -> &'static [CheckRule] {
        const { &[CheckRule::must("enough-left", &["least"])] }
    }

    fn set_up(&self) -> Option<&SetUpWish> {
        self.set_up.as_ref()
    }

    fn problems(&self, _: &PartFacts) -> Vec<Problem> {
        let mut all = Vec::new();
        above_zero("`piece`", &self.piece, &mut all);
        above_zero("`cut`", &self.cut, &mut all);
        all
    }

    fn work(&self, bench: &Bench, answer: &mut Answer) -> Result<(), Refusal> {
        let bar = answer.read(bench, "length", Gauge::Outside, &self.length)?;
        let bar = answer.record(&BAR, bar);
        let left = answer.record(&LEFT, left_of_bar(&bar, &(&self.piece).into(), &(&self.cut).into())?);
        answer.fact("piece", mm(self.piece.value.number()));
        let least = Worked::exact(self.least.value.low, Origin::Typed(self.least.place));
        answer.judge(bench, "enough-left", &left, Keep::AtLeast, &least).about = Some(LEFT.key);
        let mut set_up = SetUp::at("saw-it", Station::Bench);
        set_up.step("saw");
        set_up.takes(set_up_minutes::start("hole, drilling")?);
        set_up.sketch = sketch(bar.number(), left.number());
        set_up.needs = of_part(bench, &[StateKind::Measured]);
        set_up.leaves = of_part(bench, &[StateKind::Done]);
        answer.set_ups.push(set_up);
        Ok(())
    }
}

/// The bar lying, what is left at the left, the cut and the piece to its right.
fn sketch(bar: f64, left: f64) -> Sketch {
    let (high, mut sketch) = (bar / 10.0, Sketch::default());
    let end = |x: f64| (Point::new(x, 0.0), Point::new(x, high));
    sketch.section(rectangle(0.0, 0.0, left, high), 0).old(rectangle(left, 0.0, bar, high));
    for (name, (from, to)) in [("end", end(0.0)), ("sawn", end(left)), ("far end", end(bar))] {
        sketch.line(Stroke::Visible, vec![from, to]).face(name, from, to);
    }
    sketch.between("end", "sawn", Side::Below, Shows::value(LEFT.key));
    sketch.between("end", "far end", Side::Below, Shows::value(BAR.key));
    sketch
}
