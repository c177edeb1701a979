//! A reply of the book as text and as JSON. Every figure carries the number of its source and its mark.

use super::json::SCHEMA;
use crate::lookup::{Offer, Reply, Row, WANTED, source_of, wording};
use crate::operations::Value;
use crate::proof::Origin;
use crate::quantity::{Print, Shown, Unit, figure, in_other_unit};
use crate::reading::harmless;
use serde::Serialize;
use std::collections::BTreeMap;

/// A reply in the outer shape.
#[derive(Serialize)]
pub struct ReplyOut<'a> {
    schema: u32,
    topic: String,
    title: String,
    values: BTreeMap<&'static str, &'a Value>,
    rows: Vec<RowOut>,
    candidates: Vec<OfferOut<'a>>,
    refused: Vec<RefusedOut>,
    notes: Vec<String>,
    sources: Vec<String>,
}

#[derive(Serialize)]
struct RowOut {
    under: &'static str,
    what: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    low: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    high: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    unit: Option<String>,
    says: String,
    source: String,
    mark: &'static str,
}

#[derive(Serialize)]
struct OfferOut<'a> {
    name: String,
    says: String,
    values: BTreeMap<&'static str, &'a Value>,
}

#[derive(Serialize)]
struct RefusedOut {
    what: String,
    why: String,
}

/// Puts a reply in the outer shape.
pub fn output<'a>(topic: &str, reply: &'a Reply) -> ReplyOut<'a> {
    let values = |all: &'a [Value]| all.iter().map(|value| (value.key, value)).collect();
    let offer = |c: &'a Offer| OfferOut { name: c.name.clone(), says: c.says.clone(), values: values(&c.values) };
    ReplyOut {
        schema: SCHEMA,
        topic: topic.into(),
        title: reply.title.clone(),
        values: values(&reply.values),
        rows: reply.rows.iter().map(row_out).collect(),
        candidates: reply.offers.iter().map(offer).collect(),
        refused: reply
            .refused
            .iter()
            .map(|(what, why)| RefusedOut { what: what.clone(), why: why.to_string() })
            .collect(),
        notes: reply.notes.clone(),
        sources: reply.sources(),
    }
}

fn row_out(row: &Row) -> RowOut {
    let figure = row.figure.as_ref();
    RowOut {
        under: row.under,
        what: row.what.clone(),
        low: figure.map(|f| f.0),
        high: figure.map(|f| f.1),
        unit: figure.map(|f| if f.2.is_empty() { "1".into() } else { f.2.clone() }),
        says: row.says.clone(),
        source: row.source.to_string(),
        mark: row.source.mark.text(),
    }
}

/// A reply as text: what is wanted first, where the reply has that, and the rest where `all` is asked for.
pub fn text(reply: &Reply, print: Print, all: bool) -> String {
    let of = |reply: &Reply| Printer { sources: reply.sources(), print, out: String::new() }.reply(reply);
    match reply.brief && !all {
        true => {
            let rest = if reply.wants_rows() { wording::THE_REST } else { wording::THE_REST_OF_OFFERS };
            of(&reply.first()) + "\n" + rest + "\n"
        }
        false => of(reply),
    }
}

struct Printer {
    sources: Vec<String>,
    print: Print,
    out: String,
}

impl Printer {
    fn reply(mut self, reply: &Reply) -> String {
        self.line(0, &reply.title);
        let first = |row: &&Row| row.under == WANTED;
        reply.rows.iter().filter(first).for_each(|row| self.row(row));
        if reply.rows.iter().any(|row| row.under == WANTED) && !reply.values.is_empty() {
            self.line(0, "");
        }
        for value in &reply.values {
            self.value(value, 2);
            if let Origin::Formula(working, _) = &*value.origin {
                self.line(4, &working.in_print(self.print));
            }
        }
        if !reply.offers.is_empty() {
            self.heading(reply.offers_heading.unwrap_or(wording::CANDIDATES));
            reply.offers.iter().for_each(|offer| self.offer(offer));
        }
        let mut under = "";
        for row in reply.rows.iter().filter(|row| row.under != WANTED) {
            if row.under != under {
                self.heading(row.under);
                under = row.under;
            }
            self.row(row);
        }
        if !reply.refused.is_empty() {
            self.heading(wording::REFUSED);
            reply.refused.iter().for_each(|(what, why)| self.line(2, &format!("{what}: {}", why.in_print(self.print))));
        }
        if !reply.notes.is_empty() {
            self.heading(wording::NOTES);
            reply.notes.iter().for_each(|note| self.line(2, note));
        }
        // A reply that lists sources is its own list.
        if reply.rows.iter().all(|row| row.under != wording::SOURCES) {
            self.heading(wording::SOURCES);
            for (number, source) in (1..).zip(std::mem::take(&mut self.sources)) {
                self.line(2, &format!("[{number}] {source}"));
            }
        }
        self.out
    }

    fn line(&mut self, indent: usize, text: &str) {
        let line = format!("{:indent$}{text}", "");
        self.out += harmless(&line).trim_end();
        self.out.push('\n');
    }

    fn heading(&mut self, heading: &str) {
        self.line(0, "");
        self.line(0, heading);
    }

    /// The figure, what it is, its source and mark.
    fn value(&mut self, value: &Value, indent: usize) {
        let shown = |number, doubt| Shown::usual(number, doubt, value.unit, value.rounds, self.print);
        let figure = match value.unit {
            Unit::One => pure(value.number),
            _ => shown(value.number, Some(value.plus_minus)).to_string(),
        };
        let band = value.band.filter(|(low, high)| low < high).map(|(low, high)| match value.unit {
            Unit::One => format!(" ({} to {})", pure(low), pure(high)),
            _ => {
                let (mut low, high) = (shown(low, None), shown(high, None));
                // The unit stands once where there is one system of units.
                if self.print != Print::Both {
                    low.unit = "";
                }
                format!(" ({low} to {high})")
            }
        });
        let figure = figure + &band.unwrap_or_default();
        let told = self.told(&value.origin);
        self.line(indent, &format!("{:<30} {figure:<24} {} {told}", value.key, value.means));
    }

    /// The number of the source and its mark; what was given or assumed says so.
    fn told(&self, origin: &Origin) -> String {
        match (source_of(origin), origin.mark()) {
            (Some(source), Some(mark)) => self.cite(&source, mark.text()),
            _ => format!("[{}]", origin.source()),
        }
    }

    fn cite(&self, source: &str, mark: &str) -> String {
        let number = self.sources.iter().position(|known| known == source).map_or(0, |at| at + 1);
        format!("[{number}: {mark}]")
    }

    fn row(&mut self, row: &Row) {
        let figures = row.figure.as_ref().map(|(low, high, unit)| self.figures(*low, *high, unit));
        let told = match row.under == wording::SOURCES {
            true => row.source.text.to_string(),
            false => self.cite(&row.source.to_string(), row.source.mark.text()),
        };
        let figures = figures.unwrap_or_default();
        let parts = [figures.trim_end(), &row.says, &told];
        let said: Vec<&str> = parts.into_iter().filter(|text| !text.is_empty()).collect();
        self.line(2, &format!("{}: {}", row.what, said.join("  ")));
    }

    /// The figures of a row: as its table spells them, in inches where those are printed and the unit is a length.
    fn figures(&self, low: f64, high: f64, unit: &str) -> String {
        let length = [("mm", 1.0), ("um", 1e-3)].into_iter().find(|(text, _)| *text == unit);
        let in_inches = |factor: f64| {
            let [low, high] = [low, high].map(|end| in_other_unit(end * factor, Unit::Mm));
            Some((low?, high?))
        };
        let span = |low: String, high: String| if low == high { low } else { format!("{low} to {high}") };
        let own = format!("{} {unit}", span(figure(low), figure(high)));
        if unit == DENSITY {
            let [low, high] = [low, high].map(|end| format!("{:.3}", end * CM3_OF_AN_INCH / GRAMS_OF_A_POUND));
            let inch = format!("{} lb/in3", span(low, high));
            return match self.print {
                Print::Metric => own,
                Print::Imperial => inch,
                Print::Both => format!("{own} ({inch})"),
            };
        }
        match (self.print, length.and_then(|(_, factor)| in_inches(factor))) {
            (Print::Metric, _) | (_, None) => own,
            (Print::Imperial, Some((low, high))) => span(low.to_string(), high.to_string()),
            (Print::Both, Some((low, high))) => format!("{own} ({})", span(low.to_string(), high.to_string())),
        }
    }

    fn offer(&mut self, offer: &Offer) {
        let says = if offer.says.is_empty() { String::new() } else { format!(": {}", offer.says) };
        self.line(2, &format!("{}{says}", offer.name));
        offer.values.iter().for_each(|value| self.value(value, 6));
    }
}

/// The unit of a density, and what it is in the other.
const DENSITY: &str = "g/cm3";
const CM3_OF_AN_INCH: f64 = 16.387_064;
const GRAMS_OF_A_POUND: f64 = 453.592_37;

/// A pure number: counts whole, ratios to three or four figures.
fn pure(number: f64) -> String {
    let decimals = match number.abs() {
        _ if number.fract() == 0.0 => 0,
        large if large >= 100.0 => 0,
        middle if middle >= 10.0 => 1,
        _ => 2,
    };
    format!("{number:.decimals$}")
}
