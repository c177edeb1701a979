//! What cannot be a real bush (exit 2).

use super::keys::ReamBush;
use crate::handbook::constants::constant;
use crate::job::PartFacts;
use crate::operations::kit::above_zero;
use crate::operations::kit::{Clearance, near_whole};
use crate::quantity::{Quantity, Ratio, figure};
use crate::reading::Problem;

impl ReamBush {
    /// Every size that cannot be, at its place.
    pub(super) fn all_problems(&self, part: &PartFacts) -> Vec<Problem> {
        let mut all = Vec::new();
        self.above_zero(&mut all);
        self.asked().problems(part, &mut all);
        self.shaft_too_thick(&mut all);
        self.holes_beyond(&mut all);
        self.fit_without_size(&mut all);
        if let Some(hold) = &self.hold {
            let length = self.housing.length.as_ref().unwrap_or(&self.bush.length);
            hold.problems(Some(length.value.number()), &mut all);
        }
        all
    }

    fn above_zero(&self, all: &mut Vec<Problem>) {
        above_zero("`shaft`", &self.shaft, all);
        for hole in &self.oil_holes {
            above_zero("`diameter`", &hole.diameter, all);
            above_zero("`stick-out`", hole.stick_out.as_ref(), all);
            hole.oilway.iter().for_each(|oilway| oilway.problems(all));
        }
        above_zero("`inside`", self.support.as_ref().map(|support| &support.inside), all);
        above_zero("`height`", self.support.as_ref().and_then(|support| support.height.as_ref()), all);
    }

    fn shaft_too_thick(&self, all: &mut Vec<Problem>) {
        let outside = self.bush.outside.as_ref().and_then(|at| at.value.typed());
        let room = [self.housing.bore.value.typed(), outside].into_iter().flatten().reduce(f64::min);
        if let (Some(shaft), Some(room)) = (self.shaft.value.typed(), room)
            && shaft >= room
        {
            let says = format!("this shaft does not go into the housing ({} mm) with a bush round it", figure(room));
            all.push(Problem::of_sizes(self.shaft.place, says));
        }
    }

    fn holes_beyond(&self, all: &mut Vec<Problem>) {
        let length = self.bush.length.value.number();
        let proud = self.asked().stands_proud();
        let covered = self.housing.length.as_ref().map_or(f64::INFINITY, |at| proud + at.value.number());
        for hole in &self.oil_holes {
            let (at, half) = (hole.at.value.number(), hole.diameter.value.number() / 2.0);
            if at - half < 0.0 || at + half > length {
                let says = format!("this oil hole lies beyond the bush, which is {} mm long", figure(length));
                all.push(Problem::of_sizes(hole.at.place, says));
            } else if at - half < proud || at + half > covered {
                let says =
                    "this oil hole lies outside the housing, as far as the bush stands out of it: no oilway meets it";
                all.push(Problem::new(hole.at.place, says));
            }
            let most = constant::<Ratio>("oil-hole-share-most").map_or(f64::INFINITY, |row| row.number());
            if let Some(bore) = self.bush.bore.as_ref().and_then(|at| at.value.typed()).or(self.shaft.value.typed())
                && bore > 0.0
                && 2.0 * half > most * bore
            {
                let says = format!(
                    "an oil hole of {} mm cannot be meant in a bore of {} mm",
                    figure(2.0 * half),
                    figure(bore)
                );
                all.push(Problem::new(hole.diameter.place, says));
            }
        }
    }

    /// A fit that names no size, on a shaft that is near no whole millimetre, as an inch shaft.
    fn fit_without_size(&self, all: &mut Vec<Problem>) {
        let Some(at) = &self.clearance else { return };
        if let (Clearance::Fit(fit), Some(shaft)) = (&at.value, self.shaft.value.typed())
            && fit.nominal.is_none()
            && shaft > 0.0
            && near_whole(shaft).is_none()
        {
            let says = format!(
                "this shaft ({} mm) is near no whole millimetre: give the fit its size, as in `16 H7/f7`",
                figure(shaft)
            );
            all.push(Problem::new(at.place, says));
        }
    }
}
