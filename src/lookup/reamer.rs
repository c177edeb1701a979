//! `book reamer "16 H7"`: what a fixed reamer for that hole measures; with a metal, stock, speed, feed, lubricant.

use super::{Question, Reply, Row, wording};
use crate::handbook::joints::fits::Class;
use crate::handbook::{
    Fit, Material,
    joints::{reaming, reaming_rows, reaming_run},
};
use crate::operations::Name;
use crate::proof::{At, Refusal, Worked};
use crate::quantity::{MPerMin, Mm, MmPerRev, RevPerMin};
use crate::reading::Problem;
use crate::shop::Shop;
use schemars::JsonSchema;
use serde::Deserialize;

/// What a fixed reamer for a hole measures; stock, speed, feed.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub(super) struct ReamerAsked {
    hole: At<Fit>,
    /// The metal that is reamed.
    material: Option<At<Material>>,
}

const HOLE_MIN: Name<Mm> = Name::lower("hole_min", "hole: least limit");
const HOLE_MAX: Name<Mm> = Name::upper("hole_max", "hole: greatest limit");
const REAMER_MIN: Name<Mm> = Name::lower("reamer_min", "reamer: smallest");
const REAMER_MAX: Name<Mm> = Name::upper("reamer_max", "reamer: largest");
const STOCK_HAND: Name<Mm> = Name::new("stock_by_hand", "stock on diameter by hand: to aim at, and its band");
const STOCK_MACHINE: Name<Mm> = Name::new("stock_by_machine", "stock on diameter by machine: to aim at, and its band");
const SPEED: Name<MPerMin> = Name::new("surface_speed", "reaming speed by machine");
const SPINDLE: Name<RevPerMin> = Name::new("spindle_wanted", "spindle speed wanted");
const FEED: Name<MmPerRev> = Name::new("feed", "reaming feed by machine");

impl Question for ReamerAsked {
    const PLAIN: Option<&'static str> = Some("hole");

    fn names() -> Vec<(String, String)> {
        super::metals()
    }

    fn reply(&self, _: Option<&Shop>) -> Result<Reply, Vec<Problem>> {
        let fit = &self.hole.value;
        let (Some(nominal), Some(class), None) = (fit.nominal, &fit.hole, &fit.shaft) else {
            return Err(vec![Problem::new(self.hole.place, wording::reamer_without_hole(fit))]);
        };
        let mut reply = Reply::new(wording::reamer_title(fit));
        if let Err(refusal) = size(&mut reply, nominal, class) {
            reply.refuse(REAMER_MAX.means, refusal);
        }
        if let Some(material) = &self.material {
            with_metal(&mut reply, nominal, material);
        }
        for row in reaming_rows::rows_at(nominal) {
            reply.rows.push(wording::reaming_row(row));
        }
        reply.note(wording::CUTS_OVER);
        Ok(reply)
    }
}

fn size(reply: &mut Reply, nominal: f64, class: &Class) -> Result<(), Refusal> {
    let (least, most) = class.limits(nominal)?;
    reply.put(&HOLE_MIN, &least);
    reply.put(&HOLE_MAX, &most);
    let reamer = reaming::reamer_size(nominal, class)?;
    reply.put(&REAMER_MIN, &reamer.low);
    reply.put(&REAMER_MAX, &reamer.high);
    Ok(())
}

fn with_metal(reply: &mut Reply, nominal: f64, material: &Material) {
    if reaming::forbids_reaming(material).is_some() {
        reply.note(wording::NOT_REAMED);
        return;
    }
    for (name, by_hand) in [(&STOCK_HAND, true), (&STOCK_MACHINE, false)] {
        let way = if by_hand { reaming::Way::FixedByHand } else { reaming::Way::Machine };
        let stock = reaming::stock(way, nominal);
        reply.put_or_say(name, stock.map(|s| s.aim.with_band(s.least.number(), s.most.number())));
    }
    let speed = reply.put_or_say(&SPEED, reaming_run::reaming_speed(material));
    if let Some(speed) = speed {
        let diameter = Worked::assumed(crate::quantity::Quantity::new(nominal), wording::NOMINAL_SIZE);
        reply.put_or_say(&SPINDLE, crate::handbook::cutting::speeds::spindle_speed(&speed, &diameter));
    }
    reply.put_or_say(&FEED, reaming_run::reaming_feed(nominal));
    if let Some((lubricant, source)) = reaming_run::lubricant(material) {
        reply.rows.push(Row::words(wording::COOLANTS, material.row().name.as_str(), lubricant, source));
    }
}
