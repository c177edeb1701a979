//! A list from a machine's plate: one text with its unit once (`38 62 100 rev/min`), or a YAML list of full sizes.

use super::written::read;
use super::{Form, Kind, Misread, Quantity, Unit};
use serde::{Deserialize, Deserializer, de};
use std::fmt;
use std::marker::PhantomData;

/// The steps that are really on a plate, lowest first.
#[derive(Clone, Debug, PartialEq)]
pub struct Steps<Q>(Vec<Q>);

impl<Q: Quantity> Steps<Q> {
    /// From any list: sorted, doubles dropped.
    pub fn new(steps: Vec<Q>) -> Self {
        Self::of(sorted(steps.into_iter().map(Q::number).collect()))
    }

    fn of(sorted: Vec<f64>) -> Self {
        Self(sorted.into_iter().map(Q::new).collect())
    }

    /// The steps, lowest first.
    pub fn iter(&self) -> impl DoubleEndedIterator<Item = Q> + '_ {
        self.0.iter().copied()
    }

    /// The highest step that is not above `most`.
    pub fn at_or_below(&self, most: f64) -> Option<Q> {
        self.iter().rev().find(|step| step.number() <= most)
    }

    /// The lowest step.
    pub fn lowest(&self) -> Option<Q> {
        self.0.first().copied()
    }
}

fn sorted(mut steps: Vec<f64>) -> Vec<f64> {
    steps.sort_by(f64::total_cmp);
    steps.dedup();
    steps
}

impl<'de, Q: Quantity + Deserialize<'de>> Deserialize<'de> for Steps<Q> {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        struct Plate<Q>(PhantomData<Q>);
        impl<'de, Q: Quantity + Deserialize<'de>> de::Visitor<'de> for Plate<Q> {
            type Value = Steps<Q>;
            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                write!(f, "a list from the plate such as `{}`", example(Q::KIND))
            }
            fn visit_str<E: de::Error>(self, text: &str) -> Result<Steps<Q>, E> {
                plate(Q::KIND, text).map(Steps::of).map_err(E::custom)
            }
            fn visit_seq<A: de::SeqAccess<'de>>(self, mut items: A) -> Result<Steps<Q>, A::Error> {
                let (mut steps, mut bare) = (Vec::new(), Vec::new());
                while let Some(step) = items.next_element::<Step<Q>>()? {
                    match step {
                        Step::Whole(step, _) => steps.push(step),
                        Step::Bare(figure) => bare.push(figure),
                    }
                }
                match bare.as_slice() {
                    [] => above_zero(Q::KIND, steps).map(Steps::of).map_err(de::Error::custom),
                    some => Err(de::Error::custom(Misread::bare::<Q>(some.join(" ")))),
                }
            }
        }
        from.deserialize_any(Plate(PhantomData))
    }
}

/// One step of a list: a whole size, or a figure whose unit is to stand behind all of them.
enum Step<Q> {
    Whole(f64, PhantomData<Q>),
    Bare(String),
}

impl<'de, Q: Quantity> Deserialize<'de> for Step<Q> {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        struct One<Q>(PhantomData<Q>);
        impl<Q: Quantity> de::Visitor<'_> for One<Q> {
            type Value = Step<Q>;
            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                write!(f, "a step with its unit, of a list such as `{}`", example(Q::KIND))
            }
            fn visit_str<E: de::Error>(self, text: &str) -> Result<Step<Q>, E> {
                match text.trim().parse::<f64>() {
                    Ok(_) => Ok(Step::Bare(text.trim().into())),
                    Err(_) => match plate(Q::KIND, text).map_err(E::custom)?.as_slice() {
                        [one] => Ok(Step::Whole(*one, PhantomData)),
                        _ => Err(E::custom("one step stands between two commas")),
                    },
                }
            }
            fn visit_f64<E: de::Error>(self, number: f64) -> Result<Step<Q>, E> {
                Ok(Step::Bare(number.to_string()))
            }
            fn visit_i64<E: de::Error>(self, number: i64) -> Result<Step<Q>, E> {
                Ok(Step::Bare(number.to_string()))
            }
            fn visit_u64<E: de::Error>(self, number: u64) -> Result<Step<Q>, E> {
                Ok(Step::Bare(number.to_string()))
            }
        }
        from.deserialize_any(One(PhantomData))
    }
}

/// What a plate may say.
fn example(kind: &Kind) -> String {
    let steps = if kind.unit == Unit::MmPerRev { "0.06 0.10 0.16" } else { "38 62 100" };
    format!("{steps} {}", kind.unit)
}

/// The steps of a text in the unit held, lowest first.
fn plate(kind: &Kind, text: &str) -> Result<Vec<f64>, String> {
    let text = text.trim();
    let ends = || match text.chars().all(|c| c.is_ascii_digit() || matches!(c, '.' | ' ')) && text.contains(' ') {
        // All that was typed, its unit behind it.
        true => Misread::without_unit(kind, text.into()).to_string(),
        false => format!("a list from the plate ends with its unit, as in `{}`", example(kind)),
    };
    // A comma inside each figure is a decimal comma, one between two figures parts them.
    let is_decimal = |figure: &str| figure.matches(',').count() == 1 && !figure.ends_with(',');
    let with_commas: Vec<&str> = text.split_whitespace().filter(|figure| figure.contains(',')).collect();
    let are_several = with_commas.len() > 1 || with_commas.iter().any(|figure| figure.starts_with("0,"));
    if are_several && with_commas.iter().all(|figure| is_decimal(figure)) {
        return Err(Misread::Comma(text.replace(',', ".")).to_string());
    }
    if text.contains(',') {
        return Err(format!("the steps of a plate stand apart by spaces alone: `{}`", spaced(text)));
    }
    let (figures, unit) = text.rsplit_once(char::is_whitespace).ok_or_else(ends)?;
    if unit.starts_with(|c: char| c.is_ascii_digit() || c == '.') {
        return Err(ends());
    }
    let is_range = |figure: &str| figure.trim_start_matches('-').contains(['-', '–']) || figure.contains("..");
    if figures.split_whitespace().any(|figure| is_range(figure) || figure == "to") {
        return Err(format!(
            "`{text}`: a range is no list of steps: write the steps that can be set, as in `{}`",
            example(kind)
        ));
    }
    let one = |figure: &str| match read(kind, &format!("{figure} {unit}")) {
        Ok(written) if written.form != Form::Plain => {
            Err(format!("`{figure}`: a step is one figure, without ± or limits, as in `{}`", example(kind)))
        }
        read => read.map_err(|misread| misread.to_string()),
    };
    above_zero(kind, figures.split_whitespace().map(|f| one(f).map(|w| w.value)).collect::<Result<_, _>>()?)
}

/// A list with commas as it is read: blanks between the figures, the unit that stood behind each once, at the end.
pub(super) fn spaced(text: &str) -> String {
    let items: Vec<&str> = text.split(',').map(str::trim).filter(|item| !item.is_empty()).collect();
    let is_figure = |c: char| c.is_ascii_digit() || matches!(c, '.' | '-' | '−' | '+' | '/');
    let unit = |item: &str| item.trim_start_matches(|c: char| is_figure(c) || c == ' ').to_owned();
    let last = items.last().map(|item| unit(item)).unwrap_or_default();
    let bare = |item: &&str| item.strip_suffix(last.as_str()).unwrap_or(item).trim_end().to_owned();
    let figures: Vec<String> = items.iter().map(bare).collect();
    format!("{} {last}", figures.join(" ")).trim_end().to_owned()
}

fn above_zero(kind: &Kind, steps: Vec<f64>) -> Result<Vec<f64>, String> {
    match steps.iter().all(|step| *step > 0.0) && !steps.is_empty() {
        true => Ok(sorted(steps)),
        false if steps.is_empty() => Err(format!("a plate has one step at least, as in `{}`", example(kind))),
        false => Err(format!("every step on a plate is above zero {}", kind.unit)),
    }
}

impl<Q: Quantity> schemars::JsonSchema for Steps<Q> {
    fn inline_schema() -> bool {
        true
    }
    fn schema_name() -> std::borrow::Cow<'static, str> {
        format!("Steps of {}", Q::WHAT).into()
    }
    fn json_schema(_: &mut schemars::SchemaGenerator) -> schemars::Schema {
        schemars::json_schema!({ "type": ["string", "array"], "description": format!("the steps on the plate, as in `{}`", example(Q::KIND)) })
    }
}
