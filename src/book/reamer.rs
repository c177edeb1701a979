//! `book reamer "16 H7"`: what a fixed reamer for that hole measures; with a metal, stock, speed, feed, lubricant.

use super::{Page, Question, Row, words};
use crate::handbook::joints::fits::Class;
use crate::handbook::{Fit, Material, joints::reaming};
use crate::operations::Name;
use crate::proof::{At, Refusal, Worked};
use crate::quantity::{MPerMin, Mm, MmPerRev, RevPerMin};
use crate::reading::Problem;
use crate::shop::Shop;
use serde::Deserialize;

/// The question.
#[derive(Debug, Deserialize)]
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

    fn page(&self, _: Option<&Shop>) -> Result<Page, Vec<Problem>> {
        let fit = &self.hole.value;
        let (Some(nominal), Some(class), None) = (fit.nominal, &fit.hole, &fit.shaft) else {
            return Err(vec![Problem::new(self.hole.place, words::reamer_without_hole(fit))]);
        };
        let mut page = Page::new(words::reamer_title(fit));
        if let Err(refusal) = size(&mut page, nominal, class) {
            page.refuse(REAMER_MAX.means, refusal);
        }
        if let Some(material) = &self.material {
            with_metal(&mut page, nominal, material);
        }
        for row in reaming::rows_at(nominal) {
            page.rows.push(words::reaming_row(row));
        }
        page.note(words::CUTS_OVER);
        Ok(page)
    }
}

fn size(page: &mut Page, nominal: f64, class: &Class) -> Result<(), Refusal> {
    let (least, most) = class.limits(nominal)?;
    page.put(&HOLE_MIN, &least);
    page.put(&HOLE_MAX, &most);
    let reamer = reaming::reamer_size(nominal, class)?;
    page.put(&REAMER_MIN, &reamer.low);
    page.put(&REAMER_MAX, &reamer.high);
    Ok(())
}

fn with_metal(page: &mut Page, nominal: f64, material: &Material) {
    if reaming::forbids_reaming(material).is_some() {
        page.note(words::NOT_REAMED);
        return;
    }
    for (name, by_hand) in [(&STOCK_HAND, true), (&STOCK_MACHINE, false)] {
        let way = if by_hand { reaming::Way::FixedByHand } else { reaming::Way::Machine };
        let stock = reaming::stock(way, nominal);
        page.put_or_say(name, stock.map(|s| s.aim.with_band(s.least.number(), s.most.number())));
    }
    let speed = page.put_or_say(&SPEED, reaming::reaming_speed(material));
    if let Some(speed) = speed {
        let diameter = Worked::assumed(crate::quantity::Quantity::new(nominal), words::NOMINAL_SIZE);
        page.put_or_say(&SPINDLE, crate::handbook::cutting::speeds::spindle_speed(&speed, &diameter));
    }
    page.put_or_say(&FEED, reaming::reaming_feed(nominal));
    if let Some((lubricant, source)) = reaming::lubricant(material) {
        page.rows.push(Row::words(words::COOLANTS, material.row().name.as_str(), lubricant, source));
    }
}
