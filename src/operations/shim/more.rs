//! The search through the drawer; and whether a pack of more shims than are usual would do, where none of so few does.

use super::keys::{MOST_SHIMS, Shim};
use super::pack::{Judged, SHOWN, Stock, named, plainly};
use crate::handbook::constants::constant;
use crate::handbook::measuring::packs::{Float, Found, search};
use crate::operations::{Answer, Bench};
use crate::proof::{Refusal, Side, Verdict, Words, Worked};
use crate::quantity::{Quantity, Ratio, Shift};

/// Least, middle and greatest of a figure with a band.
fn ends(figure: &Worked<Shift>) -> [f64; 3] {
    [figure.band_end(Side::Low), figure.number(), figure.band_end(Side::High)]
}

impl Shim {
    /// Every pack of so many shims at the most.
    pub(super) fn searched(&self, bench: &Bench, on: &Judged, stocks: &[Stock], most: u32) -> Result<Found, Refusal> {
        let (kinds, groups, rest) = plainly(&on.bare.float, stocks);
        let float = Float {
            bare: ends(&on.bare.float),
            limits: (self.float.value.low.number(), self.float.value.high.number()),
            aim: on.aim.number(),
            warm: on.growth.map(|growth| (ends(growth), growth.plus_minus().powi(2))),
            rest,
            groups,
            guard: bench.guard(),
        };
        let bear = constant::<Ratio>("shim-packs-most")?.number() as u64;
        Ok(search(&kinds, &float, most, SHOWN, bear))
    }

    /// Names the first pack of more shims that is proven, where nobody said how many there may be.
    pub(super) fn more_shims(
        &self,
        bench: &Bench,
        answer: &mut Answer,
        on: &Judged,
        (stocks, found): (&[Stock], &Found),
    ) -> Result<(), Refusal> {
        let is_proven = |found: &Found| found.packs.first().is_some_and(|pack| pack.verdict == Verdict::Proven);
        if self.pack.most.is_some() || is_proven(found) {
            return Ok(());
        }
        for most in found.most + 1..=MOST_SHIMS {
            let more = self.searched(bench, on, stocks, most)?;
            if more.most < most {
                break;
            }
            if let Some(pack) = more.packs.first().filter(|pack| pack.verdict == Verdict::Proven) {
                let words =
                    Words::of("more-in-a-pack").with("most", most.to_string()).with("pack", named(pack, stocks));
                let open = answer.checks.iter_mut().find(|check| check.id == "float" && !check.is_proven());
                open.into_iter().for_each(|check| {
                    check.remedy(words.clone());
                });
                break;
            }
        }
        Ok(())
    }
}
