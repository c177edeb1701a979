//! Three jaws do not move apart: shims under two of them move the work.

use super::circle::{ByShims, Centre, shims_to_centre};
use super::keys::SetTrue;
use super::names::{SHIM_FIRST, SHIM_SECOND};
use crate::handbook::constants::row;
use crate::handbook::form::truing::{shim_first, shim_second};
use crate::operations::kit::mm;
use crate::operations::{Answer, Bench};
use crate::proof::{Check, Origin, Refusal, Verdict, Words, Worked};
use crate::quantity::{Angle, Mm, Quantity};

/// Degrees from one of three jaws to the next.
const APART: f64 = 360.0 / 3.0;

impl SetTrue {
    /// The shims that centre it; nothing where it stands in four jaws.
    pub(super) fn by_shims(
        &self,
        bench: &Bench,
        answer: &mut Answer,
        centre: &Centre,
    ) -> Result<Option<ByShims>, Refusal> {
        const ID: &str = "shims-in-drawer";
        if !self.in_three_jaws() {
            answer.does_not_apply(&[ID]);
            return Ok(None);
        }
        let (off, towards) = (centre.off()?, self.shims_towards(centre));
        let jaw = (towards / APART).floor().clamp(0.0, 2.0);
        let from = Worked::exact(Angle::new(towards - jaw * APART), Origin::Typed(self.hold.place));
        let factor = shims_to_centre()?;
        // A shim that moves it by a small share of what is allowed is none: nobody has one so thin.
        let thin = row("shim-counts-from")?.value * self.allowed().number();
        let counts = |shim: Worked<Mm>| if shim.number() < thin { shim.scaled(0.0, "too thin to count") } else { shim };
        let exact = [shim_first(&off, &from, &factor)?, shim_second(&off, &from, &factor)?];
        let [of_first, of_second] = exact.each_ref().map(Worked::number);
        let [first, second] = exact.map(counts);
        let (first, second) = (answer.record(&SHIM_FIRST, first), answer.record(&SHIM_SECOND, second));
        let jaws = [jaw + 1.0, (jaw + 1.0) % 3.0 + 1.0].map(|jaw| jaw as u8);
        for (name, jaw) in ["first_jaw", "second_jaw"].into_iter().zip(jaws) {
            answer.fact(name, jaw.to_string());
        }
        let by = |left: f64, [one, other]: [f64; 2]| {
            let [first, second] = jaws;
            Ok(Some(ByShims { left, under: [(first, one), (second, other)] }))
        };
        let Some(shop) = bench.shop else {
            answer.no_shop(&[ID]);
            answer.fact("first_shim", mm(first.number()));
            answer.fact("second_shim", mm(second.number()));
            return by(0.0, [first.number(), second.number()]);
        };
        let thick: Vec<f64> = shop.drawers.shims_measured().collect();
        let nearest = |wanted: f64| {
            let with_none = thick.iter().copied().chain([0.0]);
            with_none.min_by(|a, b| (a - wanted).abs().total_cmp(&(b - wanted).abs())).unwrap_or(0.0)
        };
        let (one, other) = (nearest(first.number()), nearest(second.number()));
        // Two ways 120 degrees apart.
        let left_of = |[one, other]: [f64; 2]| {
            let (a, b) = (one - of_first, other - of_second);
            (a * a + b * b - a * b).max(0.0).sqrt() / factor.number()
        };
        let near = 2.0 * left_of([one, other]) <= self.allowed().number();
        if !near {
            answer.missing.push(match (first.number() > 0.0, second.number() > 0.0) {
                (true, true) => {
                    Words::of("shims-for").with("first", mm(first.number())).with("second", mm(second.number()))
                }
                (one, _) => Words::of("shim-for").with("shim", mm(if one { first.number() } else { second.number() })),
            });
        }
        let verdict = if near { Verdict::Proven } else { Verdict::Doubtful };
        answer.check(Check::of_kind(ID, verdict).at(self.hold.place));
        // Where the drawer has none near enough those are asked for that would do it.
        let [one, other] = if near { [one, other] } else { [first.number(), second.number()] };
        answer.fact("first_shim", mm(one));
        answer.fact("second_shim", mm(other));
        by(2.0 * left_of([one, other]), [one, other])
    }

    /// The side of the shims, in degrees: an outside jaw pushes the work away with what lies under it, one in the bore draws it along.
    fn shims_towards(&self, centre: &Centre) -> f64 {
        let towards = centre.towards().number();
        if self.jaws_inside() { (towards + 180.0) % 360.0 } else { towards }
    }

    /// The step that slips them in: both, or the one that is not nothing; none where the drawer's least would move it too far.
    pub(super) fn slip_in(shims: &ByShims) -> Option<Words> {
        match shims.under {
            [(_, one), (_, other)] if one > 0.0 && other > 0.0 => Some(Words::of("slip-shims-in")),
            [(jaw, one), (other, second)] if one > 0.0 || second > 0.0 => {
                let (shim, jaw) = if one > 0.0 { (one, jaw) } else { (second, other) };
                Some(Words::of("slip-a-shim-in").with("shim", mm(shim)).with("jaw", jaw.to_string()))
            }
            _ => None,
        }
    }
}
