//! The drill of an insert hole: how much a drill cuts over size, and whether the hole it makes lies inside its limits.

use crate::formula;
use crate::handbook::constants::constant;
use crate::proof::{Check, Keep, Refusal, Verdict, Worked};
use crate::quantity::{Mm, Quantity};

formula! {
    /// A figure between two rows of a table.
    over_between(d: Mm = "the drill" in 0.1..=100.0, d1: Mm = "the drill of the row before" in 0.0..=100.0,
        o1: Mm = "the oversize of the row before" in 0.0..=2.0, d2: Mm = "the drill of the row behind" in 0.1..=100.0,
        o2: Mm = "the oversize of the row behind" in 0.0..=2.0)
        -> o: Mm { o1 + (d - d1) * (o2 - o1) / (d2 - d1) }
    source FromMemory "Machinery's Handbook: oversize of drilled holes, linear between the rows"
}
formula! {
    /// The hole that a drill makes.
    hole_of_drill(d: Mm = "the drill" in 0.1..=100.0, o: Mm = "what it cuts over size" in 0.0..=5.0)
        -> D: Mm { d + o }
    source Derived "drill and oversize"
}
formula! {
    /// The least drill that is taken without doubt.
    least_drill(D1: Mm = "the least minor diameter" in 0.2..=120.0, u: Mm = "how far a drill may be under" in 0.0..=2.0)
        -> d: Mm { D1 - u }
    source Own "a little under the least minor diameter: the tap cuts the crests"
}

/// Rows of the oversize of drills: the drill and the name of its row.
const OVER: [(f64, &str); 4] =
    [(3.0, "drill-over-at-3"), (6.0, "drill-over-at-6"), (8.0, "drill-over-at-8"), (13.0, "drill-over-at-13")];

/// How much a drill cuts over size: between the rows linear, outside them the end rows.
///
/// # Errors
/// [`Refusal::NoRow`] where the table lacks a row.
pub(crate) fn drill_over(drill: &Worked<Mm>) -> Result<Worked<Mm>, Refusal> {
    let d = drill.number();
    let after = OVER.iter().position(|(at, _)| *at >= d);
    let (low, high) = match after {
        Some(0) => return constant(OVER[0].1),
        None => return constant(OVER[3].1),
        Some(at) => match (OVER.get(at - 1), OVER.get(at)) {
            (Some(low), Some(high)) => (low, high),
            _ => return Err(Refusal::NoRow { table: "oversize of a drill", wanted: crate::quantity::figure(d) }),
        },
    };
    let at = |mm: f64| Worked::assumed(Mm::new(mm), "the drill of the row");
    over_between(drill, &at(low.0), &constant(low.1)?, &at(high.0), &constant(high.1)?)
}

/// Judges a drill that is not the row's own: the hole it makes may not pass the greatest minor diameter; much under the least
/// it is doubtful.
///
/// # Errors
/// As [`drill_over`].
pub(crate) fn judge_drill(
    id: &'static str,
    drill: &Worked<Mm>,
    over: &Worked<Mm>,
    (least, most): (&Worked<Mm>, &Worked<Mm>),
    guard: f64,
) -> Result<Check, Refusal> {
    let hole = hole_of_drill(drill, over)?;
    let check = Check::judge(id, &hole, Keep::AtMost, most, guard);
    Ok(if too_small(drill, least)? { check.not_better_than(Verdict::Doubtful) } else { check })
}

/// Whether a drill is smaller than the least minor diameter by more than the table allows.
///
/// # Errors
/// [`Refusal::NoRow`] where the table lacks the row.
pub(crate) fn too_small(drill: &Worked<Mm>, least: &Worked<Mm>) -> Result<bool, Refusal> {
    let floor =
        least_drill(&least.nominal("a rule of size, not a limit that is judged"), &constant("drill-under-minor")?)?;
    // 1e-9: a drill of just that size is none too small.
    Ok(drill.number() < floor.number() - 1e-9)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn of(mm: f64) -> Worked<Mm> {
        Worked::assumed(Mm::new(mm), "a test")
    }

    #[test]
    fn a_drill_cuts_over_by_its_row() {
        for (drill, over) in [(1.0, 0.08), (3.0, 0.08), (4.5, 0.09), (8.4, 0.1116), (10.5, 0.12), (40.0, 0.13)] {
            assert!((drill_over(&of(drill)).unwrap().number() - over).abs() < 1e-9, "{drill}");
        }
    }

    #[test]
    fn a_drill_inside_the_limits_may_still_cut_outside_them() {
        let judged = |drill: f64, least: f64, most: f64| {
            let over = drill_over(&of(drill)).unwrap();
            judge_drill("a-test", &of(drill), &over, (&of(least), &of(most)), 2.0).unwrap().verdict()
        };
        assert_eq!(judged(6.4, 6.217, 6.407), Some(Verdict::Fails));
        assert_eq!(judged(8.4, 8.271, 8.483), Some(Verdict::Fails));
        assert_eq!(judged(6.2, 6.217, 6.407), Some(Verdict::Proven));
        assert_eq!(judged(6.1, 6.217, 6.407), Some(Verdict::Doubtful));
    }
}
