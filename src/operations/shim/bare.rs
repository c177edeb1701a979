//! The float without a shim: by the sizes in its path, by the float as it was found, or both against each other.

use super::keys::Shim;
use super::names::{APART, BARE, BARE_FOUND, FOUND, LEFT};
use crate::handbook::constants::constant;
use crate::handbook::measuring::stack;
use crate::job::Difference;
use crate::operations::linked::{self, Linked};
use crate::operations::{Answer, Bench};
use crate::proof::{At, Cause, Check, Keep, Origin, Refusal, Verdict, Worked};
use crate::quantity::{Mm, Quantity, Shift, Unit};
use crate::shop::Gauge;

/// The float without a shim, with the links that it was worked from.
pub(super) struct Bare {
    pub(super) float: Worked<Shift>,
    pub(super) links: Vec<Linked>,
    /// The same by the float as it was found, where there are links too: both are judged.
    pub(super) found: Option<Worked<Shift>>,
}

impl Shim {
    /// The float without a shim: by its links where there are any, else as it was found. Where both are there they must agree.
    pub(super) fn bare(&self, bench: &Bench, answer: &mut Answer) -> Result<Bare, Refusal> {
        let found = self.found(bench, answer)?;
        let links = self.links(bench, answer)?;
        let by_links = if links.is_empty() { None } else { Some(linked::gap(&links)?) };
        match (&by_links, &found) {
            (Some(links), Some(found)) => self.closed(bench, answer, (links, found))?,
            _ => answer.does_not_apply(&["chain-closed"]),
        }
        let lacking = Refusal::NotGiven {
            what: "the float as it was found, or what opens and closes it,",
            key: "float-found` or `chain",
        };
        let (float, found) = match (by_links, found) {
            (Some(links), found) => (links, found.as_ref().map(as_if_read_well).transpose()?),
            (None, found) => (found.ok_or(lacking)?, None),
        };
        let (got, most) = (float.number(), constant::<Mm>("float-bare-most")?.number());
        if got.abs() > most {
            // A link with the wrong sign, or in the wrong unit, or one that is missing.
            return Err(Refusal::Outside { what: "float", got, least: -most, most, unit: Unit::Mm });
        }
        linked::cuts_known(bench, answer, self.of_others());
        let sizes = self.chain.iter().filter_map(|link| Some(link.read()?.0)).map(|at| (&at.value, at.place));
        // No pack at all was not read: it is sure without.
        let was_read = |at: &&At<Difference>| at.value.typed() != Some(0.0);
        let with_pack = self.float_found.iter().map(|found| &found.with_pack).filter(was_read);
        let as_found = self.float_found.iter().map(|found| &found.size).chain(with_pack);
        let as_found = as_found.map(|at| (&*at.value, at.place));
        linked::doubts_known(bench, answer, self.float.place, sizes.chain(as_found));
        Ok(Bare { float: answer.record(&BARE, float), links, found })
    }

    fn links(&self, bench: &Bench, answer: &mut Answer) -> Result<Vec<Linked>, Refusal> {
        let mut all = Vec::new();
        for link in &self.chain {
            let Some((size, by)) = link.read() else { continue };
            // A float lies inside its case: what is lapped off a joint of that closes it.
            let name = &link.link.value;
            let typed = linked::Typed { name, size, metal: link.material.as_ref(), by, wrong: Verdict::Fails };
            let size = linked::read(bench, answer, "chain", &typed)?;
            all.push(Linked { name: link.link.value.clone(), by, size, place: link.link.place });
        }
        Ok(all)
    }

    /// The float as it was found, without the pack that was in.
    fn found(&self, bench: &Bench, answer: &mut Answer) -> Result<Option<Worked<Shift>>, Refusal> {
        let Some(found) = &self.float_found else { return Ok(None) };
        let float = answer.read_difference(bench, "float-found.size", Gauge::Indicator, &found.size)?;
        let pack = answer.read_difference(bench, "float-found.with-pack", Gauge::Outside, &found.with_pack)?;
        // No float at all is read as exactly none: what reads it can be off all the same.
        let float = match float.plus_minus() > 0.0 {
            true => float,
            false => float.with_doubt(Cause::Reading(found.size.place), constant::<Mm>("typed-doubt-least")?.number()),
        };
        let float = answer.record(&FOUND, float.becomes());
        let bare = stack::bare_by_pack(&float, &pack)?;
        Ok(Some(answer.record(&BARE_FOUND, bare)))
    }

    /// Whether the float by its links is the float that was found: else a link is missing or a reading is wrong. Readings that are
    /// together further out than half of what is allowed would hide a link that matters: those show nothing (own). A float that was read
    /// worse than the shop can is held as if it were read well: a coarser reading hides no link.
    fn closed(
        &self,
        bench: &Bench,
        answer: &mut Answer,
        (links, found): (&Worked<Shift>, &Worked<Shift>),
    ) -> Result<(), Refusal> {
        let place = self.float_found.as_ref().map_or(self.float.place, |found| found.size.place);
        let apart = answer.record(&APART, linked::apart(links, found));
        let well_read = found.plus_minus().min(constant::<Mm>("float-read-well")?.number()).hypot(links.plus_minus());
        let doubt = apart.plus_minus().min(well_read) * bench.guard() / 2.0;
        let half = (self.float.value.high.number() - self.float.value.low.number()) / 2.0;
        let (apart, most) = match apart.plus_minus() * bench.guard() / 2.0 <= half {
            true => {
                let middle = apart.nominal("against the doubt of both, which stands in the limit");
                (middle, Worked::assumed(Mm::new(doubt), "the doubt of both together"))
            }
            false => (apart, Worked::assumed(Mm::new(half), "half of what the float may vary")),
        };
        let check = Check::judge("chain-closed", &apart, Keep::AtMost, &most, bench.guard());
        answer.check(check.not_worse_than(Verdict::Doubtful).at(place));
        Ok(())
    }

    /// The same where the log has the float that the pack left.
    pub(super) fn closed_by_log(
        &self,
        bench: &Bench,
        answer: &mut Answer,
        planned: &Worked<Shift>,
    ) -> Result<(), Refusal> {
        if let Some(left) = bench.left(&LEFT)? {
            self.closed(bench, answer, (planned, &linked::as_sure_as_read(bench, &left)?))?;
        }
        Ok(())
    }
}

/// A float as it was found, as well as a shop can read it: read worse it says no more against the links, and no less.
fn as_if_read_well(found: &Worked<Shift>) -> Result<Worked<Shift>, Refusal> {
    let doubt = found.plus_minus().min(constant::<Mm>("float-read-well")?.number());
    Ok(found.nominal("read no worse than a shop can").with_doubt(Cause::Set("the float as it was found"), doubt))
}

/// What is aimed at: as typed, else the middle.
pub(super) fn aim_of(shim: &Shim) -> Worked<Shift> {
    match &shim.aim {
        Some(aim) => aim.into(),
        None => {
            let middle = (shim.float.value.low.number() + shim.float.value.high.number()) / 2.0;
            Worked::exact(Shift::new(middle), Origin::Typed(shim.float.place))
        }
    }
}
