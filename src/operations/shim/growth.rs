//! What warmth adds to the float: every link grows by its own metal and its own warmth.

use super::keys::{Link, Shim, WarmAs};
use super::names::GROWTH;
use crate::handbook::Material;
use crate::handbook::constants::constant;
use crate::handbook::measuring::stack::grown_by;
use crate::job::Reading;
use crate::operations::Answer;
use crate::operations::kit;
use crate::operations::linked::Linked;
use crate::proof::{At, Cause, Mark, Refusal, Source, Worked};
use crate::quantity::{Celsius, Expansion, Mm, Quantity, Shift};

/// The expansion of a metal: of a family anything between its members, of what nobody named anything at all.
pub(super) fn expansion(metal: Option<&At<Material>>) -> Result<Worked<Expansion>, Refusal> {
    let Some(metal) = metal else {
        let most = constant::<Expansion>("expansion-unsaid-most")?;
        let unsaid = Worked::assumed(Expansion::new(0.0), "nobody said what it is made of");
        return Ok(unsaid.with_band(0.0, most.number()));
    };
    let own = kit::expansion(&metal.value, Cause::Named(metal.value.id()))?;
    if metal.value.family().is_some() {
        let members = metal.value.members();
        let all = members.iter().map(Material::expansion).collect::<Result<Vec<_>, _>>()?;
        let ends = all.iter().map(Worked::number);
        let (low, high) = (ends.clone().fold(f64::INFINITY, f64::min), ends.fold(f64::NEG_INFINITY, f64::max));
        return Ok(own.with_band(low, high));
    }
    Ok(own)
}

/// Where what is worked warm comes from.
pub(super) const WARM: Source = Source::fixed("linear expansion of every link", Mark::Derived);

impl Link {
    /// Whether nobody said of what it is, and it is so long that it matters: a gasket grows by nothing that counts.
    fn grows_unsaid(&self) -> bool {
        let size = self.read().and_then(|(reading, _)| match &reading.value {
            Reading::Size { size, .. } => Some(size.value.number()),
            Reading::Of(_) => None,
        });
        let thin = constant::<Mm>("link-thin").map_or(0.0, |thin| thin.number());
        self.material.is_none() && size.is_none_or(|size| size > thin)
    }
}

impl Shim {
    /// How warm a link runs.
    fn temperature(&self, link: &Link, opens: bool) -> Result<Option<Worked<Celsius>>, Refusal> {
        let Some(warm) = &self.warm else { return Ok(None) };
        let of_case = kit::runs_at(&warm.case, Cause::Named("temperature of the case"))?;
        let of_shaft = kit::runs_at(&warm.shaft, Cause::Named("temperature of the shaft"))?;
        let (case, shaft) = (warm.case.value.number(), warm.shaft.value.number());
        Ok(Some(match link.warm_as.as_ref().map(|at| at.value) {
            Some(WarmAs::Case) => of_case,
            Some(WarmAs::Shaft) => of_shaft,
            None if opens => of_case.with_band(case, shaft),
            None => of_shaft.with_band(case, shaft),
        }))
    }

    /// Whether nobody said of what a link is that grows by something that counts.
    pub(super) fn grows_by_what_nobody_named(&self) -> bool {
        self.chain.iter().any(Link::grows_unsaid)
    }

    /// Whether two links are of metals that do not grow alike, or nobody said of what one of them is: warm, the float is another.
    pub(super) fn grows_unlike(&self) -> bool {
        if self.grows_by_what_nobody_named() {
            return true;
        }
        let named = self.chain.iter().filter_map(|link| link.material.as_ref());
        let grows: Vec<f64> = named.filter_map(|metal| Some(expansion(Some(metal)).ok()?.number())).collect();
        let (least, most) = grows.iter().fold((f64::INFINITY, 0.0_f64), |(low, high), a| (low.min(*a), high.max(*a)));
        constant::<Expansion>("expansion-alike").is_ok_and(|alike| most - least > alike.number())
    }

    /// What the shaft grows more than its case where it is so much warmer as two that run in one another may be, mm; of the longer side.
    pub(super) fn grown_apart(&self, links: &[Linked]) -> Result<f64, Refusal> {
        let apart = constant::<Celsius>("warmth-apart")?.number();
        let (mut opening, mut closing) = (0.0, 0.0);
        for (link, worked) in self.chain.iter().zip(links) {
            let grows = worked.by * worked.size.number() * expansion(link.material.as_ref())?.number() * apart * 1e-6;
            if grows > 0.0 { opening += grows } else { closing -= grows }
        }
        Ok(f64::max(opening, closing))
    }

    /// What warmth adds to the float; nothing where nobody said how warm it runs.
    pub(super) fn growth(&self, answer: &mut Answer, links: &[Linked]) -> Result<Option<Worked<Shift>>, Refusal> {
        let mut grown: Vec<(f64, Worked<Shift>)> = Vec::new();
        for (link, worked) in self.chain.iter().zip(links) {
            let Some(at) = self.temperature(link, worked.by > 0.0)? else { return Ok(None) };
            let alpha = expansion(link.material.as_ref())?;
            // Its doubt moves what it grows by millionths.
            let size = worked.size.nominal("its doubt does not matter in what it grows");
            grown.push((worked.by, grown_by(&size, &alpha, &at)?));
        }
        let terms: Vec<(f64, &Worked<Shift>)> = grown.iter().map(|(by, grown)| (*by, grown)).collect();
        let growth = Worked::sum(&terms, 0.0, "what every link grows, opening and closing", WARM);
        Ok((!terms.is_empty()).then(|| answer.record(&GROWTH, growth)))
    }
}
