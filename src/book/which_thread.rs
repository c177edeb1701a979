//! `book which-thread diameter="6.33 ± 0.02 mm" pitch="26 tpi"`: what a measured thread may be, and what would decide.

use super::reading::{PitchRead, length, pitch};
use super::{Candidate, Page, Question, words};
use crate::handbook::constants::row;
use crate::handbook::threads::thread_match::{Match, Side, deciding, matches};
use crate::operations::Name;
use crate::proof::{At, Worked};
use crate::quantity::{Measured, Mm, Ratio};
use crate::reading::Problem;
use crate::shop::{Gauge, Shop};
use serde::Deserialize;

/// The side that was measured.
#[derive(Clone, Copy, Debug, Default, Deserialize)]
#[serde(rename_all = "lowercase")]
enum Of {
    /// Over the crests of a bolt.
    #[default]
    Bolt,
    /// Inside the crests of a nut or tapped hole.
    Nut,
}

/// The question.
#[derive(Debug, Deserialize)]
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

    fn page(&self, shop: Option<&Shop>) -> Result<Page, Vec<Problem>> {
        if self.diameter.is_none() && self.pitch.is_none() {
            return Err(vec![Problem::new(None, words::NEITHER_MEASURED)]);
        }
        let mut page = Page::new(words::WHICH_THREAD);
        let (side, gauge) = match self.of {
            Of::Bolt => (Side::Bolt, Gauge::Outside),
            Of::Nut => (Side::Nut, Gauge::Inside),
        };
        let diameter = self.diameter.as_ref().map(|at| length(&mut page, shop, "diameter", gauge, at));
        if let Some(diameter) = &diameter {
            page.put(&DIAMETER, diameter);
        }
        let pitch = match self.pitch.as_ref().map(|at| pitch(&mut page, shop, at)).transpose() {
            Ok(pitch) => pitch,
            Err(refusal) => {
                page.refuse(PITCH.means, refusal);
                return Ok(page);
            }
        };
        if let Some(pitch) = &pitch {
            page.put(&PITCH, pitch);
        }
        match matches(side, diameter.as_ref(), pitch.as_ref()) {
            Ok(found) => candidates(&mut page, &found, diameter.as_ref()),
            Err(refusal) => page.refuse(DISTANCE.means, refusal),
        }
        page.note(words::spread(side));
        Ok(page)
    }
}

/// Candidates beyond these help nobody.
const MOST_CANDIDATES: usize = 8;

fn candidates(page: &mut Page, found: &[Match], diameter: Option<&Worked<Mm>>) {
    let Some(first) = found.first() else {
        page.note(words::NO_SUCH_THREAD);
        return;
    };
    let limit = |name| row(name).map_or(f64::NAN, |row| row.value);
    let (agrees, near) = (limit("thread-match-agrees"), limit("thread-match-near"));
    let doubt = diameter.map_or(0.0, Worked::plus_minus);
    for m in found.iter().take(MOST_CANDIDATES) {
        let word = match m.distance.number() {
            z if z <= agrees => words::AGREES,
            z if z <= near => words::NEAR_MISS,
            _ => words::FAR,
        };
        let told = if std::ptr::eq(m, first) {
            String::new()
        } else {
            deciding(first, m, doubt).map_or_else(|why| why.to_string(), |all| words::told_apart(first.thread, &all))
        };
        page.candidates.push(candidate(m, [word, &told]));
    }
    let agreeing = found.iter().filter(|m| m.distance.number() <= agrees).count();
    if agreeing > 1 {
        page.note(words::SEVERAL_AGREE);
    }
    if agreeing > MOST_CANDIDATES {
        page.note(words::more_agree(agreeing - MOST_CANDIDATES));
    }
    if first.distance.number() > near {
        page.note(words::NONE_NEAR);
    }
}

fn candidate(m: &Match, says: [&str; 2]) -> Candidate {
    let thread = m.thread;
    let says: Vec<&str> = says.into_iter().filter(|text| !text.is_empty()).collect();
    let name = format!("{} ({})", thread.name(), words::thread_kind(thread));
    let mut candidate = Candidate::new(name, says.join("; "))
        .with(&DISTANCE, &m.distance)
        .with(&LEAST, &m.spread.0)
        .with(&MOST, &m.spread.1)
        .with(&ITS_PITCH, &thread.pitch());
    for (name, part) in [(&OF_DIAMETER, &m.diameter), (&OF_PITCH, &m.pitch)] {
        if let Some(part) = part {
            candidate = candidate.with(name, part);
        }
    }
    candidate
}
