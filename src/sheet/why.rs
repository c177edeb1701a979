//! One figure down to what it rests on: the workings that lead to it, each with what it was worked from, and whose doubt costs most.

use crate::operations::Value;
use crate::plan::Planned;
use crate::proof::{BadEnds, Cause, Draw, Graph, Origin, Outcome, Place, doubts_in};
use crate::quantity::Unit;
use serde::Serialize;
use std::sync::Arc;

/// What somebody typed, and where.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct TypedAt {
    /// The file, as it was given.
    pub file: String,
    /// The line, from one.
    pub line: u32,
    /// The keys that lead there, with dots.
    pub key: String,
    /// What stands there.
    pub typed: String,
    /// Whether it is an argument, which has no lines.
    #[serde(skip)]
    pub is_argument: bool,
}

/// One figure with all that leads to it.
#[derive(Clone, Debug, Serialize)]
pub struct Why {
    pub(super) schema: u32,
    /// Part, operation and value.
    pub(super) address: String,
    /// What it is.
    pub(super) means: &'static str,
    pub(super) value: f64,
    pub(super) unit: Unit,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) plus_minus: Option<f64>,
    /// Low and high where the books disagree, or limits were typed.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) band: Option<(f64, f64)>,
    /// Where it comes from.
    pub(super) from: From,
    /// The workings that lead to it, each once; `from` names them by their numbers.
    pub(super) workings: Vec<Step>,
    /// Whose doubt is in it, what costs most first.
    pub(super) doubts: Vec<Doubt>,
    /// Whether the figure stands at its worst end already: the doubts are counted in the number.
    pub(super) at_worst_end: bool,
    /// The checks that judge it, each with what became of it.
    pub(super) judged_by: Vec<JudgedBy>,
    /// Whether a row of the book leads to it, so that its band may be the books'.
    #[serde(skip)]
    pub(super) of_books: bool,
    #[serde(skip)]
    pub(super) shown: ShownAs,
}

/// The value as it is printed.
#[derive(Clone, Debug)]
pub(super) struct ShownAs(pub Value);

/// One working.
#[derive(Clone, Debug, Serialize)]
pub(super) struct Step {
    /// Its number, from one.
    pub number: usize,
    /// What was done, line by line: of a formula its text with the numbers put in.
    pub says: Vec<String>,
    /// Where the rule comes from, with its mark.
    pub source: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub mark: Option<&'static str>,
    /// What went into it.
    pub given: Vec<Given>,
    /// What came out of a formula, with its unit.
    #[serde(skip)]
    pub result: Option<(f64, Unit)>,
}

/// What went into a working.
#[derive(Clone, Debug, Serialize)]
pub(super) struct Given {
    /// Its letter in the formula.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub symbol: Option<&'static str>,
    /// What it is.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub word: Option<&'static str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub value: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub unit: Option<Unit>,
    /// Where it comes from.
    pub from: From,
}

/// Where a figure comes from.
#[derive(Clone, Debug, Serialize)]
pub(super) struct From {
    /// What was done to it on the way, the last first.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub then: Vec<String>,
    #[serde(flatten)]
    pub root: Root,
}

/// What a figure begins with.
#[derive(Clone, Debug, Serialize)]
#[serde(rename_all = "snake_case")]
pub(super) enum Root {
    /// A working of the list, by its number.
    Working(usize),
    /// What somebody typed.
    Typed(TypedAt),
    /// A default that nobody typed.
    Assumed(String),
    /// A row of the book.
    Row { says: String, source: String, mark: &'static str },
    /// A size as it was left, from the log.
    AsLeft(bool),
}

/// A share of the doubt.
#[derive(Clone, Debug, Serialize)]
pub(super) struct Doubt {
    /// Whose.
    pub of: String,
    /// Where it was typed, where it was.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub at: Option<TypedAt>,
    /// How far it alone moves the figure (k = 2).
    pub plus_minus: f64,
    /// Its part of the sum of squares, 0 to 1.
    pub part: f64,
}

/// A check that judges the figure.
#[derive(Clone, Debug, Serialize)]
pub(super) struct JudgedBy {
    pub check: &'static str,
    pub state: &'static str,
    pub asks: String,
}

impl Why {
    /// One value of an operation. `typed` tells what stands at a place, `name` what a cause of doubt is called.
    pub fn of(
        planned: &Planned,
        value: &Value,
        typed: &dyn Fn(Place) -> TypedAt,
        name: &dyn Fn(Cause) -> String,
    ) -> Self {
        let mut chain = Chain { typed, steps: Vec::new(), met: Vec::new() };
        let from = chain.from(&value.origin);
        let about = planned.answer.checks.iter().filter(|check| check.about == Some(value.key));
        let shares = if value.shares.is_empty() { in_the_number(value) } else { value.shares.clone() };
        let made = about.filter(|check| matches!(check.state, Outcome::Made(_)));
        let has_rows = |from: &From| matches!(from.root, Root::Row { .. });
        let of_books =
            has_rows(&from) || chain.steps.iter().flat_map(|step| &step.given).any(|one| has_rows(&one.from));
        Self {
            schema: super::json::SCHEMA,
            of_books,
            address: planned.address.value(value.key).to_string(),
            means: value.means,
            value: value.number,
            unit: value.unit,
            plus_minus: (value.plus_minus > 0.0).then_some(value.plus_minus),
            band: value.band.filter(|(low, high)| low < high),
            from,
            workings: chain.steps,
            at_worst_end: value.shares.is_empty() && !shares.is_empty(),
            doubts: doubts(&shares, typed, name),
            judged_by: made
                .map(|check| JudgedBy { check: check.id, state: check.state.text(), asks: check.asks.clone() })
                .collect(),
            shown: ShownAs(value.clone()),
        }
    }
}

/// How far each cause moves a figure that was taken at its worst end somewhere on its way: each alone by the whole of its doubt.
fn in_the_number(value: &Value) -> Vec<(Cause, f64)> {
    /// A doubt is two standard deviations (k = 2).
    const WHOLE: f64 = 2.0;
    let graph = Graph::of([&value.node]);
    let (mut room, mut draw) = (Vec::new(), graph.as_read(BadEnds::Thawed));
    let mut worked = |draw: &Draw| graph.work(draw, &mut room).first().copied().unwrap_or(f64::NAN);
    let middle = worked(&draw);
    let mut all = Vec::new();
    for (at, cause) in graph.causes().iter().enumerate() {
        draw.off.iter_mut().zip(0..).for_each(|(off, other)| *off = if other == at { WHOLE } else { 0.0 });
        let moved = worked(&draw) - middle;
        if moved.is_finite() && moved != 0.0 {
            all.push((*cause, moved));
        }
    }
    all
}

/// The shares of each cause together, the greatest first.
fn doubts(shares: &[(Cause, f64)], typed: &dyn Fn(Place) -> TypedAt, name: &dyn Fn(Cause) -> String) -> Vec<Doubt> {
    let causes = doubts_in(shares);
    let squares: f64 = causes.iter().map(|(_, share)| share * share).sum();
    let one = |(cause, share): (Cause, f64)| Doubt {
        of: name(cause),
        at: cause.place().map(typed),
        plus_minus: share,
        part: share * share / squares,
    };
    causes.into_iter().map(one).collect()
}

/// The workings in the making: each once, whoever asks for it.
struct Chain<'a> {
    typed: &'a dyn Fn(Place) -> TypedAt,
    steps: Vec<Step>,
    met: Vec<(*const Origin, usize)>,
}

impl Chain<'_> {
    fn from(&mut self, origin: &Arc<Origin>) -> From {
        let mut then = Vec::new();
        let mut at = origin;
        loop {
            let root = match &**at {
                Origin::Nominal { reason, of } => {
                    then.push(format!("taken at its middle: {reason}"));
                    at = of;
                    continue;
                }
                Origin::End { says, of } => {
                    then.push(says.to_string());
                    at = of;
                    continue;
                }
                Origin::Typed(place) => Root::Typed((self.typed)(*place)),
                Origin::Assumed(why) => Root::Assumed(why.clone().into_owned()),
                Origin::AsLeft(_) => Root::AsLeft(true),
                Origin::Row(cited) => Root::Row {
                    says: cited.row.to_string(),
                    source: cited.source.to_string(),
                    mark: cited.source.mark.text(),
                },
                Origin::Formula(..) | Origin::Picked { .. } | Origin::Method { .. } => Root::Working(self.step(at)),
            };
            return From { then, root };
        }
    }

    /// The number of a working; one that is new is put down, and then what went into it.
    fn step(&mut self, origin: &Arc<Origin>) -> usize {
        let own = Arc::as_ptr(origin);
        if let Some((_, number)) = self.met.iter().find(|met| met.0 == own) {
            return *number;
        }
        let number = self.steps.len() + 1;
        self.met.push((own, number));
        self.steps.push(Step {
            number,
            says: Vec::new(),
            source: origin.source(),
            mark: origin.mark().map(crate::proof::Mark::text),
            given: Vec::new(),
            result: None,
        });
        let (says, given, result) = match &**origin {
            Origin::Formula(working, from) => {
                let symbols = working.formula.symbols.iter().zip(&working.given).zip(from.iter());
                let given = symbols.map(|((symbol, value), from)| Given {
                    symbol: Some(symbol.name),
                    word: Some(symbol.word),
                    value: Some(*value),
                    unit: Some(symbol.unit),
                    from: self.from(from),
                });
                let given = given.collect();
                (vec![working.to_string()], given, Some((working.result, working.formula.unit)))
            }
            Origin::Picked { rule, wanted } => (vec![rule.clone()], vec![self.bare(wanted)], None),
            Origin::Method { lines, of, .. } => {
                let given: Vec<Given> = of.iter().map(|origin| self.bare(origin)).collect();
                // What it began from has its own lines.
                let begun: Vec<String> = of.iter().flat_map(|origin| origin.working()).collect();
                (lines.iter().filter(|line| !begun.contains(line)).cloned().collect(), given, None)
            }
            _ => (Vec::new(), Vec::new(), None),
        };
        if let Some(step) = self.steps.get_mut(number - 1) {
            (step.says, step.given, step.result) = (says, given, result);
        }
        number
    }

    /// What has no letter of its own.
    fn bare(&mut self, origin: &Arc<Origin>) -> Given {
        Given { symbol: None, word: None, value: None, unit: None, from: self.from(origin) }
    }
}
