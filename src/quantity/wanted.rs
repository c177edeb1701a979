//! The three kinds of key: measured (a reading with its doubt), wanted (a size with its limits), nominal (neither).

use super::both_sides::in_order;
use super::misread::dashed;
use super::plain::{TO, signs};
use super::written::read;
use super::{Form, Kind, Misread, Quantity, Written};
use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::{Deserialize, Deserializer, de};
use std::borrow::Cow;
use std::fmt;
use std::marker::PhantomData;

/// What a person reads off an instrument: a value and, where it was typed, its expanded uncertainty (k = 2).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Measured<Q> {
    /// The value.
    pub value: Q,
    /// The doubt that was typed with `±`, in the unit held.
    pub plus_minus: Option<f64>,
    /// One unit of the last digit typed; none for a fraction.
    pub grain: Option<f64>,
}

/// What is wanted: a size and the limits it may have.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wanted<Q> {
    /// The size named; for a span its middle.
    pub nominal: Q,
    /// The lower limit.
    pub low: Q,
    /// The upper limit.
    pub high: Q,
}

impl<Q: Quantity> TryFrom<Written<Q>> for Measured<Q> {
    type Error = Misread;

    fn try_from(written: Written<Q>) -> Result<Self, Misread> {
        let plus_minus = match written.form {
            Form::Plain => None,
            Form::PlusMinus(doubt) => Some(doubt),
            Form::Deviations(..) | Form::Span(_) => {
                return Err(Misread::OneFigure { as_in: None });
            }
        };
        Ok(Self { value: written.value, plus_minus, grain: written.grain })
    }
}

impl<Q: Quantity> TryFrom<Written<Q>> for Wanted<Q> {
    type Error = Misread;

    fn try_from(written: Written<Q>) -> Result<Self, Misread> {
        let value = written.value.number();
        let (nominal, low, high) = match written.form {
            Form::Plain => (value, value, value),
            Form::PlusMinus(half) => (value, value - half, value + half),
            Form::Deviations(up, down) => (value, value - down, value + up),
            Form::Span(high) => ((value + high) / 2.0, value, high),
        };
        match low >= Q::LEAST {
            true => Ok(Self { nominal: Q::new(nominal), low: Q::new(low), high: Q::new(high) }),
            false => {
                Err(Misread::Form("its lower limit is less than any such size can be: give the size with its limits"))
            }
        }
    }
}

impl<Q: Quantity> std::str::FromStr for Measured<Q> {
    type Err = Misread;
    fn from_str(text: &str) -> Result<Self, Misread> {
        text.parse::<Written<Q>>().and_then(Self::try_from).map_err(|misread| typed_as(misread, text))
    }
}

impl<Q: Quantity> std::str::FromStr for Wanted<Q> {
    type Err = Misread;
    fn from_str(text: &str) -> Result<Self, Misread> {
        text.parse::<Written<Q>>()?.try_into()
    }
}

/// Two ends, or a size with what may be above and below it, as one figure with its doubt; none where it holds anything else than
/// decimal figures and one unit.
fn one_figure(text: &str) -> Option<String> {
    let text = signs(text.trim());
    let text = in_order(&text).map_or(text, std::borrow::Cow::Owned);
    let unit = text.rsplit(|c: char| c.is_ascii_digit() || c == '.').next()?.trim();
    // A unit with a figure of its own (`1e-6/K`) is not found so.
    if unit.is_empty() || unit.starts_with('/') {
        return None;
    }
    let figures = text.replace(unit, " ");
    let number = |part: &str| part.trim().trim_end_matches('/').trim().parse::<f64>().ok();
    let (middle, half) = match figures.split_once(TO) {
        Some((low, high)) => ((number(low)? + number(high)?) / 2.0, (number(high)? - number(low)?) / 2.0),
        None => {
            let (size, rest) = figures.split_once('+')?;
            let (up, down) = rest.split_once(['-', '−'])?;
            let (size, up, down) = (number(size)?, number(up)?, number(down)?);
            (size + (up - down) / 2.0, (up + down) / 2.0)
        }
    };
    let shown = |number: f64| super::figure((number * 1e6).round() / 1e6);
    Some(format!("{} ± {} {unit}", shown(middle), shown(half)))
}

/// The same where no limits may stand in the place of a class.
fn without_limits(misread: Misread) -> Misread {
    match misread {
        Misread::Class { text, .. } => Misread::Class { text, wanted: false },
        other => other,
    }
}

/// The same with what was typed in the form that is wanted, where that can be told.
fn typed_as(misread: Misread, text: &str) -> Misread {
    match misread {
        Misread::OneFigure { .. } => Misread::OneFigure { as_in: one_figure(text) },
        Misread::Number(figures, _) if dashed(&figures).is_some() => Misread::Meanings {
            text: text.into(),
            says: "no limits stand here: give one figure, and where it was read its doubt behind ±",
        },
        other => without_limits(other),
    }
}

/// Reads a nominal quantity: one figure with its unit, no doubt, no limits.
pub(super) fn nominal<'de, Q: Quantity, D: Deserializer<'de>>(from: D) -> Result<Q, D::Error> {
    let plain = |written: Written<Q>| match written.form {
        Form::Plain => Ok(written.value),
        _ => Err(Misread::Form("one plain figure is wanted here, without ± or limits")),
    };
    from.deserialize_any(Text { take: plain, bare: Q::SPELLINGS.is_empty(), limits: false, kind: PhantomData::<Q> })
}

impl<'de, Q: Quantity> Deserialize<'de> for Measured<Q> {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        let take = |written: Written<Q>| written.try_into();
        from.deserialize_any(Text { take, bare: Q::SPELLINGS.is_empty(), limits: false, kind: PhantomData::<Q> })
    }
}

impl<'de, Q: Quantity> Deserialize<'de> for Wanted<Q> {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        let take = |written: Written<Q>| written.try_into();
        from.deserialize_any(Text { take, bare: Q::SPELLINGS.is_empty(), limits: true, kind: PhantomData::<Q> })
    }
}

/// Takes a written size out of a document; a bare number is an error unless the kind has no unit.
struct Text<F, Q> {
    take: F,
    bare: bool,
    /// Whether limits may be typed.
    limits: bool,
    kind: PhantomData<Q>,
}

impl<T, Q: Quantity, F: Fn(Written<Q>) -> Result<T, Misread>> de::Visitor<'_> for Text<F, Q> {
    type Value = T;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}{}", Q::WHAT, example(Q::KIND))
    }

    fn visit_str<E: de::Error>(self, text: &str) -> Result<T, E> {
        let read = read(Q::KIND, text).and_then(|written| (self.take)(written.of()));
        read.map_err(|misread| E::custom(if self.limits { misread } else { typed_as(misread, text) }))
    }

    fn visit_f64<E: de::Error>(self, number: f64) -> Result<T, E> {
        if !self.bare {
            return Err(E::custom(Misread::bare::<Q>(number.to_string())));
        }
        if !number.is_finite() {
            return Err(E::custom("a finite number is wanted here"));
        }
        (self.take)(Written { value: Q::new(number), form: Form::Plain, grain: None }).map_err(E::custom)
    }

    fn visit_i64<E: de::Error>(self, number: i64) -> Result<T, E> {
        self.visit_f64(number as f64)
    }

    fn visit_u64<E: de::Error>(self, number: u64) -> Result<T, E> {
        self.visit_f64(number as f64)
    }
}

fn example(kind: &Kind) -> String {
    match (kind.before, kind.spellings.first()) {
        (_, None) => " such as `6`".into(),
        ("", Some(unit)) => format!(" such as `12.5 {}`", unit.text),
        (before, Some(unit)) => format!(" such as `{before} 0.8 {}`", unit.text),
    }
}

/// What a key asks for, as its schema says it beside the usual words: `asks` is measured, wanted or nominal, `unit` the unit held.
fn schema(kind: &Kind, asks: &str, more: &str) -> Schema {
    let unit = kind.unit.text();
    let typed = match (kind.before, kind.spellings.first()) {
        (_, None) => return json_schema!({ "type": "number", "x-asks": asks, "x-unit": unit, "x-least": kind.least }),
        ("", Some(spelling)) => format!("12.5 {}", spelling.text),
        (before, Some(spelling)) => format!("{before} 0.8 {}", spelling.text),
    };
    let says = format!("{}, with its unit{more}{}", kind.what, example(kind));
    json_schema!({ "type": "string", "description": says, "examples": [typed], "x-asks": asks, "x-unit": unit, "x-least": kind.least })
}

/// The schema of a nominal quantity.
pub(super) fn nominal_schema(kind: &Kind) -> Schema {
    schema(kind, "nominal", "")
}

impl<Q: Quantity> JsonSchema for Measured<Q> {
    fn inline_schema() -> bool {
        true
    }
    fn schema_name() -> Cow<'static, str> {
        format!("Measured {}", Q::WHAT).into()
    }
    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        schema(Q::KIND, "measured", " and, after ±, its doubt")
    }
}

impl<Q: Quantity> JsonSchema for Wanted<Q> {
    fn inline_schema() -> bool {
        true
    }
    fn schema_name() -> Cow<'static, str> {
        format!("Wanted {}", Q::WHAT).into()
    }
    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        schema(Q::KIND, "wanted", ", limits allowed")
    }
}
