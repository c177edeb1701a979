//! The clock of a day: open stretches, days, and moments as minutes from midnight of the first day.

use super::asked::Asked;
use super::frame::Assumed;
use super::search::{Clock, DAY, Minute};
use crate::handbook::constants::constant;
use crate::plan::Plan;
use crate::proof::At;
use crate::quantity::{ClockTime, Date, Minutes, Moment};
use crate::reading::Problem;
use crate::shop::{Opening, Stretch};

/// When a day is worked.
#[derive(Clone, Debug)]
pub(super) struct Times {
    /// The first day, where it is known.
    pub date: Option<Date>,
    /// The open minutes.
    pub clock: Clock,
    /// When the hands begin.
    pub start: Minute,
}

/// Reads them out of what is asked, the shop and the jobs.
///
/// # Errors
/// Hours that hold no minute.
pub(super) fn times(plans: &[Plan], asked: &Asked, assumed: &mut Vec<Assumed>) -> Result<Times, Problem> {
    let shop = plans.iter().find_map(|plan| plan.shop_of_day.as_ref());
    let opening = shop.map_or_else(Opening::default, |shop| shop.opening.clone());
    let of_job = || plans.iter().find_map(|plan| plan.date.as_ref()?.parse().ok());
    let date: Option<Date> = asked.date.or_else(of_job);
    let mut hours = match &opening.hours {
        Some(hours) => hours.value,
        None => usual(assumed)?,
    };
    if let Some(to) = asked.to {
        hours.to = to;
    }
    let week = match (&opening.days, date) {
        (Some(days), Some(date)) => days.value.from(date.weekday()),
        (Some(_), None) => {
            assumed.push(Assumed::EveryDay);
            [true; 7]
        }
        (None, _) => [true; 7],
    };
    let closed = opening.closed.iter().filter_map(|closed| closed.value.number().checked_sub(date?.number())).collect();
    let none = || Problem::new(None, "no minute of the day is open");
    let clock = Clock::new(opening.stretches(hours), week, closed).ok_or_else(none)?;
    let start = asked.from.map_or_else(|| clock.stretch(0).0, ClockTime::minutes);
    Ok(Times { date, start, clock })
}

/// The usual hours, of a shop that names none.
fn usual(assumed: &mut Vec<Assumed>) -> Result<Stretch, Problem> {
    let refused = |refusal: crate::proof::Refusal| Problem::new(None, refusal.to_string());
    let from = constant::<Minutes>("opening-usual").map_err(refused)?;
    let to = constant::<Minutes>("closing-usual").map_err(refused)?;
    let (from, to) = (super::rounded(from.number()), super::rounded(to.number()));
    assumed.push(Assumed::Hours(from, to));
    Ok(Stretch { from: ClockTime::of(from), to: ClockTime::of(to) })
}

impl Times {
    /// A moment as minutes from midnight of the first day; what lies before that day is its beginning.
    ///
    /// # Errors
    /// A moment with a day, where nobody says which day the first is.
    pub(super) fn minute(&self, moment: &At<Moment>) -> Result<Minute, Problem> {
        let time = moment.value.time.minutes();
        let Some(day) = moment.value.date else { return Ok(time) };
        let says = "a time with a day asks which day is planned: give the job its `date`, or the command one";
        let first = self.date.ok_or_else(|| Problem::new(moment.place, says))?;
        let far = 400;
        match day.number().checked_sub(first.number()) {
            Some(days) if days > far => Err(Problem::new(moment.place, "this day lies more than a year ahead")),
            Some(days) => Ok(days * DAY + time),
            None => Ok(0),
        }
    }
}
