//! `book insert M8x1.25`: the hole of a wire thread insert, its lengths and depths, the rules with their marks.

use super::{Offer, Question, Reply, Row, wording};
use crate::handbook::InsertLength;
use crate::handbook::threads::insert::{self, InsertHole, Lead, row, rule};
use crate::handbook::{
    Thread,
    threads::{insert_rows, tapping},
};
use crate::operations::Name;
use crate::proof::{At, Refusal, Worked};
use crate::quantity::{Mm, Quantity, Ratio};
use crate::reading::Problem;
use crate::shop::Shop;
use schemars::JsonSchema;
use serde::Deserialize;

/// The hole of a wire thread insert, its lengths and depths.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub(super) struct InsertAsked {
    /// Thread of the bolt.
    thread: At<Thread>,
}

const MAJOR_MIN: Name<Mm> = Name::lower("hole_major_min", "insert hole: major diameter, least");
const PITCH_MIN: Name<Mm> = Name::lower("hole_pitch_min", "insert hole: pitch diameter, least");
const PITCH_MAX: Name<Mm> = Name::upper("hole_pitch_max", "insert hole: pitch diameter, most");
const MINOR_MIN: Name<Mm> = Name::lower("hole_minor_min", "insert hole: minor diameter, least");
const MINOR_MAX: Name<Mm> = Name::upper("hole_minor_max", "insert hole: minor diameter, most");
const DRILL: Name<Mm> = Name::new("drill_diameter", "drill for the insert tap");
const SET_DOWN_PLAIN: Name<Mm> = Name::new("set_down_plain", "set-down of the first coil, at most, no countersink");
const SET_DOWN_SUNK: Name<Mm> = Name::new("set_down_countersunk", "set-down of the first coil, at most, countersunk");
const LENGTH: Name<Mm> = Name::new("nominal_length", "nominal length, not measurable");
const ASSEMBLED: Name<Mm> = Name::new("assembled_length", "length that the coil occupies, the short end");
const FULL_THREAD: Name<Mm> = Name::new("full_thread_depth", "full thread in a blind hole, at least");
const DEPTH_PLUG: Name<Mm> = Name::new("drilled_depth_plug", "drilled depth to the full diameter, plug tap");
const DEPTH_BOTTOMING: Name<Mm> =
    Name::new("drilled_depth_bottoming", "drilled depth to the full diameter, bottoming tap without male centre");
const THROUGH: Name<Mm> = Name::new("through_wall", "least wall of a through hole, countersunk");
const PERCENT_OWN: Name<Ratio> =
    Name::new("thread_percent_full_depth", "per cent of insert thread, basis: full depth of the form");
const PERCENT_BASIC: Name<Ratio> =
    Name::new("thread_percent_three_quarter_h", "per cent of insert thread, basis: 3/4 H a side (American)");
const PERCENT_ISO: Name<Ratio> =
    Name::new("thread_percent_five_eighths_h", "per cent of insert thread, basis: 5/8 H a side (ISO 68-1)");

impl Question for InsertAsked {
    const PLAIN: Option<&'static str> = Some("thread");

    fn names() -> Vec<(String, String)> {
        let known = Thread::all().filter(|thread| insert_rows::row(*thread).is_ok());
        known.map(|thread| (thread.name().to_owned(), thread.row().series.text().to_owned())).collect()
    }

    fn reply(&self, _: Option<&Shop>) -> Result<Reply, Vec<Problem>> {
        let thread = self.thread.value;
        let mut reply = Reply::new(wording::insert_title(thread));
        if let Err(refusal) = hole(&mut reply, thread) {
            reply.refuse(wording::INSERT_HOLE, refusal);
            return Ok(reply);
        }
        reply.offers_heading = Some(wording::LENGTHS);
        for length in InsertLength::ALL {
            match one_length(thread, length) {
                Ok(offer) => reply.offers.push(offer),
                Err(refusal) => reply.refuse(length.text(), refusal),
            }
        }
        reply.put_or_say(&SET_DOWN_PLAIN, insert::set_down(false, &thread.pitch()));
        reply.put_or_say(&SET_DOWN_SUNK, insert::set_down(true, &thread.pitch()));
        for rule in insert_rows::rules() {
            let figure = (rule.value, rule.value, rule.unit.as_str());
            reply.rows.push(Row::figure(
                wording::RULES,
                rule.rule.replace('-', " "),
                figure,
                &rule.note,
                rule.source(),
            ));
        }
        reply.note(wording::DEPTH_TO_FULL_DIAMETER);
        Ok(reply)
    }
}

fn hole(reply: &mut Reply, thread: Thread) -> Result<(), Refusal> {
    let (diameter, pitch) = (thread.major(), thread.pitch());
    let row = row(thread)?;
    let hole = InsertHole::of(thread.form(), &diameter, &pitch)?;
    reply.put(&MAJOR_MIN, &hole.major_min);
    reply.put(&PITCH_MIN, &hole.pitch_min);
    reply.put_or_say(&PITCH_MAX, row.pitch_max(&hole.pitch_min, &pitch));
    reply.put(&MINOR_MIN, &hole.minor_min);
    let minor_max = reply.put_or_say(&MINOR_MAX, row.minor_max(&hole.minor_min, &pitch));
    let drill = minor_max.and_then(|most| reply.put_or_say(&DRILL, row.drill(&hole.minor_min, &most)));
    if let Some(drill) = drill {
        for (basis, height) in tapping::bases(thread.form()) {
            let name = match basis.as_str() {
                "3/4H a side" => &PERCENT_BASIC,
                "5/8H a side" => &PERCENT_ISO,
                _ => &PERCENT_OWN,
            };
            reply.put_or_say(name, tapping::thread_percentage(&hole.major_min, &drill, &height, &pitch));
        }
    }
    reply.note(row.drill_called().map_or_else(String::new, |name| wording::drill_of_the_list(&name)));
    reply.note(wording::also_meant(thread));
    if row.doubtful() {
        reply.note(wording::VINTAGE_INSERT);
    }
    reply.note(row.note.clone());
    Ok(())
}

fn one_length(thread: Thread, length: InsertLength) -> Result<Offer, Refusal> {
    let (diameter, pitch) = (thread.major(), thread.pitch());
    let long = length.nominal(&diameter)?;
    let depth = |lead: Lead, centre: &Worked<Mm>| {
        let (clear, set) = (rule("end-clearance")?, rule("set-down-allowed")?);
        insert::drilled_depth(&long, &lead.threads()?, &clear, &set, centre, &pitch)
    };
    let none = Worked::exact(Mm::new(0.0), rule("male-centre")?.origin().clone());
    let centre = match diameter.number() <= rule("male-centre-largest")?.number() {
        true => insert::male_centre(&diameter)?,
        false => none.clone(),
    };
    Ok(Offer::new(length.text(), "")
        .with(&LENGTH, &long)
        .with(&ASSEMBLED, &insert::assembled_length(&long, &pitch)?)
        .with(&FULL_THREAD, &insert::full_thread_depth(&long, &pitch)?)
        .with(&DEPTH_PLUG, &depth(Lead::Plug, &centre)?)
        .with(&DEPTH_BOTTOMING, &depth(Lead::Bottoming, &none)?)
        .with(&THROUGH, &insert::through_wall_countersunk(&long, &pitch)?))
}
