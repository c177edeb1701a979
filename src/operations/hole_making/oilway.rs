//! The oilway that a hole through a bush must meet: does it open into it, have its chips a way out, and how deep does the bush lie under its
//! mouth?

use crate::handbook::cutting::oil_hole as law;
use crate::job::{Difference, Reading};
use crate::operations::kit::above_zero;
use crate::operations::{Answer, Bench};
use crate::proof::{At, Check, Fact, Keep, Refusal, Verdict, Words, Worked};
use crate::quantity::{Decimals, Mm, Rounds};
use crate::reading::Problem;
use crate::shop::Gauge;
use schemars::JsonSchema;
use serde::Deserialize;

/// At which ends an oilway is open.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub(in crate::operations) enum Open {
    /// It can be flushed through.
    BothEnds,
    /// It ends at the bush.
    OneEnd,
}

/// The oilway that the hole must meet.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub(in crate::operations) struct Oilway {
    /// Its diameter (measured).
    pub diameter: At<Reading>,
    /// Its middle from the outer end of the bush (measured).
    pub at: At<Reading>,
    /// How deep the bush lies under its mouth, along the drill (measured); asked where the bush is in.
    pub depth: Option<At<Difference>>,
    /// At which ends it is open.
    pub open: Option<At<Open>>,
}

/// What its keys are called where they lack.
#[derive(Clone, Copy)]
pub(in crate::operations) struct Called {
    /// All of it.
    pub oilway: &'static str,
    /// At which ends it is open.
    pub open: &'static str,
    /// How deep it is.
    pub depth: &'static str,
    /// How long the bush is, where its hole is set out from the inner end.
    pub from_inner: Option<f64>,
}

/// How deep the face that the drill meets lies under the mouth of what it goes down through.
#[derive(Clone, Debug)]
pub(in crate::operations) enum Sunk {
    /// It lies open.
    Level,
    /// Nobody says how deep, by this key.
    Unknown(&'static str),
    /// So deep.
    By(Worked<Mm>),
}

crate::names! { pub(in crate::operations) OILWAY_VALUES,
    OILWAY: Mm = new("oilway", "diameter of the oilway");
    OILWAY_AT: Mm = new("oilway_at", "middle of the oilway from the outer end of the bush");
    SUNK: Mm = new("oilway_depth", "how deep the bush lies under the mouth of the oilway");
    BESIDE: Mm = new("beside_oilway", "how far the hole lies beside the middle of its oilway");
    ROOM: Mm = upper("oilway_room", "how far it may lie beside it and open into it whole");
}

impl Oilway {
    /// Sizes that cannot be.
    pub(in crate::operations) fn problems(&self, all: &mut Vec<Problem>) {
        above_zero("`diameter` of the oilway", &self.diameter, all);
        if let Some(depth) = self.depth.as_ref().filter(|at| at.value.typed().is_some_and(|depth| depth < 0.0)) {
            all.push(Problem::new(depth.place, "`depth` of the oilway is 0 mm where the bush lies bare, and no less"));
        }
    }
}

/// How deep a bush that is in lies under the mouth of its oilway; one that is not in lies open.
pub(in crate::operations) fn sunk(
    bench: &Bench,
    oilway: Option<&Oilway>,
    (called, is_in): (Called, bool),
    answer: &mut Answer,
) -> Result<Sunk, Refusal> {
    if !is_in {
        return Ok(Sunk::Level);
    }
    let Some(oilway) = oilway else { return Ok(Sunk::Unknown(called.oilway)) };
    let depth = answer.read_difference_if(bench, "oilway.depth", Gauge::Depth, oilway.depth.as_ref())?;
    Ok(depth.map_or(Sunk::Unknown(called.depth), |depth| Sunk::By(answer.record(&SUNK, depth))))
}

/// The whole of the hole opens into the oilway; less than half of it misses. And its chips have a way out.
pub(in crate::operations) fn meets(
    bench: &Bench,
    (oilway, called): (Option<&Oilway>, Called),
    (at, drill): (&Worked<Mm>, &Worked<Mm>),
    answer: &mut Answer,
) -> Result<(), Refusal> {
    const CHIPS: &str = "chips-come-out";
    let Some(oilway) = oilway else {
        answer.not_checked(&["meets-oilway"], &[called.oilway]);
        answer.not_checked(&[CHIPS], &[called.open]);
        return Ok(());
    };
    match &oilway.open {
        None => answer.not_checked(&[CHIPS], &[called.open]),
        Some(open) => {
            let verdict = if open.value == Open::BothEnds { Verdict::Proven } else { Verdict::Doubtful };
            answer.check(Check::of_kind(CHIPS, verdict).at(open.place));
        }
    }
    let across = answer.read(bench, "oilway.diameter", Gauge::Inside, &oilway.diameter)?;
    let across = answer.record(&OILWAY, across);
    let middle = answer.read(bench, "oilway.at", Gauge::Depth, &oilway.at)?;
    let middle = answer.record(&OILWAY_AT, middle);
    let beside = answer.record(&BESIDE, law::beside_oilway(at, &middle)?);
    let room = answer.record(&ROOM, law::oilway_room(&across, drill)?);
    let half = across.scaled(0.5, "half of the hole opens into it");
    let check = Check::judge_two("meets-oilway", (&beside, &room), Keep::AtMost, (&beside, &half), bench.guard());
    let check = answer.check(check.about(BESIDE.key).at(oilway.at.place));
    if !check.is_proven() {
        let (id, there) = match called.from_inner {
            None => ("set-it-out-there", middle.number()),
            Some(length) => ("set-it-out-from-inner", length - middle.number()),
        };
        let there = Fact::mm(there).to(Decimals::Exactly(1)).rounded(Rounds::Nearest);
        check.remedy(Words::of(id).with("at", there));
    }
    Ok(())
}
