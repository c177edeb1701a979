//! `book which-thread diameter="6.33 ± 0.02 mm" pitch="26 tpi"`: what a measured thread may be, and what would decide.

use super::reading::{PitchRead, length, pitch};
use super::{Offer, Question, Reply, wording};
use crate::handbook::constants::row;
use crate::handbook::threads::thread_match::{Match, Side, deciding, matches};
use crate::operations::Name;
use crate::proof::{At, Worked};
use crate::quantity::{Measured, Mm, Ratio};
use crate::reading::Problem;
use crate::shop::{Gauge, Shop};
use schemars::JsonSchema;
use serde::Deserialize;

/// The side that was measured.
#[derive(Clone, Copy, Debug, Default, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
enum Of {
    /// Over the crests of a bolt.
    #[default]
    Bolt,
    /// Inside the crests of a nut or tapped hole.
    Nut,
}

/// What a measured thread may be, and what would decide.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub(super) struct WhichThread {
    /// Over the crests of a bolt, or inside those of a nut.
    diameter: Option<At<Measured<Mm>>>,
    /// In millimetres, or threads on an inch.
    pitch: Option<At<PitchRead>>,
    /// What was measured.
    #[serde(default)]
    of: Of,
}

const DIAMETER: Name<Mm> = Name::new("diameter", "diameter measured over the crests");
const PITCH: Name<Mm> = Name::new("pitch", "pitch measured");
const DISTANCE: Name<Ratio> = Name::new("distance", "distance from what was measured, in combined doubts");
const OF_DIAMETER: Name<Ratio> = Name::new("distance_of_diameter", "of it, the diameter");
const OF_PITCH: Name<Ratio> = Name::new("distance_of_pitch", "of it, the pitch");
const LEAST: Name<Mm> = Name::new("diameter_min", "least that its diameter can be");
const MOST: Name<Mm> = Name::new("diameter_max", "most that its diameter can be");
const ITS_PITCH: Name<Mm> = Name::new("its_pitch", "its pitch");

impl Question for WhichThread {
    const PLAIN: Option<&'static str> = None;

    fn reply(&self, shop: Option<&Shop>) -> Result<Reply, Vec<Problem>> {
        if self.diameter.is_none() && self.pitch.is_none() {
            return Err(vec![Problem::new(None, wording::NEITHER_MEASURED)]);
        }
        let mut reply = Reply::new(wording::WHICH_THREAD);
        let (side, gauge) = match self.of {
            Of::Bolt => (Side::Bolt, Gauge::Outside),
            Of::Nut => (Side::Nut, Gauge::Inside),
        };
        let diameter = self.diameter.as_ref().map(|at| length(&mut reply, shop, "diameter", gauge, at));
        if let Some(diameter) = &diameter {
            reply.put(&DIAMETER, diameter);
        }
        let pitch = match self.pitch.as_ref().map(|at| pitch(&mut reply, shop, at)).transpose() {
            Ok(pitch) => pitch,
            Err(refusal) => {
                reply.refuse(PITCH.means, refusal);
                return Ok(reply);
            }
        };
        if let Some(pitch) = &pitch {
            reply.put(&PITCH, pitch);
        }
        match matches(side, diameter.as_ref(), pitch.as_ref()) {
            Ok(found) => offers(&mut reply, &found, diameter.as_ref()),
            Err(refusal) => reply.refuse(DISTANCE.means, refusal),
        }
        reply.note(wording::spread(side));
        reply.brief = !reply.offers.is_empty();
        Ok(reply)
    }
}

/// Offers beyond these help nobody.
const MOST_OFFERS: usize = 8;

fn offers(reply: &mut Reply, found: &[Match], diameter: Option<&Worked<Mm>>) {
    let Some(first) = found.first() else {
        reply.note(wording::NO_SUCH_THREAD);
        return;
    };
    let limit = |name| row(name).map_or(f64::NAN, |row| row.value);
    let (agrees, near) = (limit("thread-match-agrees"), limit("thread-match-near"));
    let doubt = diameter.map_or(0.0, Worked::plus_minus);
    for m in found.iter().take(MOST_OFFERS) {
        let word = match m.distance.number() {
            z if z <= agrees => wording::AGREES,
            z if z <= near => wording::NEAR_MISS,
            _ => wording::FAR,
        };
        let told = if std::ptr::eq(m, first) {
            String::new()
        } else {
            deciding(first, m, doubt).map_or_else(|why| why.to_string(), |all| wording::told_apart(first.thread, &all))
        };
        reply.offers.push(offer(m, [word, &told]));
    }
    let agreeing = found.iter().filter(|m| m.distance.number() <= agrees).count();
    if agreeing > 1 {
        reply.note(wording::SEVERAL_AGREE);
    }
    if agreeing > MOST_OFFERS {
        reply.note(wording::more_agree(agreeing - MOST_OFFERS));
    }
    if first.distance.number() > near {
        reply.note(wording::NONE_NEAR);
    }
}

fn offer(m: &Match, says: [&str; 2]) -> Offer {
    let thread = m.thread;
    let says: Vec<&str> = says.into_iter().filter(|text| !text.is_empty()).collect();
    let name = format!("{} ({})", thread.name(), wording::thread_kind(thread));
    let mut offer = Offer::new(name, says.join("; "))
        .with(&DISTANCE, &m.distance)
        .with(&LEAST, &m.spread.0)
        .with(&MOST, &m.spread.1)
        .with(&ITS_PITCH, &thread.pitch());
    for (name, part) in [(&OF_DIAMETER, &m.diameter), (&OF_PITCH, &m.pitch)] {
        if let Some(part) = part {
            offer = offer.with(name, part);
        }
    }
    offer
}
