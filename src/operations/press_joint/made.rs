//! The bush of a joint as it is, and the outsides at which all of the joint is proven.

use super::asked::Asked;
use super::climate::Climate;
use super::gauge::bore_gauge;
use super::metals::Metals;
use super::names::fitted::{BUSH_OUTSIDE, OUTSIDE_LEAST, OUTSIDE_MOST};
use super::names::joint::BUSH_BORE;
use super::sizes::{Sizes, Tight, is_read};
use crate::handbook::constants::constant;
use crate::handbook::joints::heating;
use crate::handbook::joints::joint::PressJoint;
use crate::handbook::joints::press::bore_pressed;
use crate::handbook::materials::groups::Kind;
use crate::operations::kit::mm;
use crate::operations::{Answer, Bench, PartSize, ReadElsewhere, Value};
use crate::proof::{Cause, Fact, Mark, Refusal, Source, Verdict, Words, Worked};
use crate::quantity::{Decimals, Mm, Quantity, Ratio};

/// The bush.
pub(in crate::operations) struct Made {
    pub bore: Worked<Mm>,
    pub tight: Tight,
    /// The outsides at which the joint is proven, mm; nothing where no outside is.
    pub proven: Option<(f64, f64)>,
}

/// The joint of this bush with such a bore.
pub(in crate::operations) fn press_joint<'a>(metals: &'a Metals, sizes: &Sizes, bore: &Worked<Mm>) -> PressJoint<'a> {
    PressJoint::new((&metals.bush, &metals.housing), &sizes.d, bore, &sizes.housing_outside)
}

/// The room that a bush wants to drop into its housing.
pub(in crate::operations) fn room_to_drop_in(d: &Worked<Mm>) -> Result<Worked<Mm>, Refusal> {
    let share = constant::<Ratio>("assembly-clearance-share")?;
    heating::assembly_clearance(&share, d, &constant("assembly-clearance-least")?)
}

/// The outsides at which everything of the joint is proven, by so much doubt of the interference; nothing where none is.
pub(in crate::operations) fn proven_outsides(
    bench: &Bench,
    joint: &PressJoint,
    sizes: &Sizes,
    climate: &Climate,
    doubt: f64,
) -> Result<Option<(f64, f64)>, Refusal> {
    let Some((least, most)) = climate.proven(joint, sizes, bench.guard())? else { return Ok(None) };
    let (d, doubt) = (sizes.d.number(), doubt * bench.guard() / 2.0);
    let (low, high) = (d + least + doubt, d + most - doubt);
    Ok((low <= high).then_some((low, high)))
}

/// What alone would make the joint proven, as a remedy.
pub(in crate::operations) fn cure(made: &Made) -> Words {
    match made.proven {
        Some(ends) => Words::of("outside-proven").with("outsides", outsides(ends)),
        None => Words::of("no-outside-proven"),
    }
}

/// Limits of an outside, rounded inward.
pub(in crate::operations) fn outsides((low, high): (f64, f64)) -> Fact {
    let end = |number: f64| mm(number).to(Decimals::Exactly(3));
    Fact::span(end(low), end(high))
}

impl Asked<'_> {
    /// The bush of these sizes, with the outsides that would be proven; `read` where its outside was measured, not made here.
    pub(in crate::operations) fn made(
        &self,
        bench: &Bench,
        (metals, sizes, climate): (&Metals, &Sizes, &Climate),
        (bore, outside, read): (Worked<Mm>, Worked<Mm>, bool),
        answer: &mut Answer,
    ) -> Result<Made, Refusal> {
        answer.record(&BUSH_OUTSIDE, outside.clone());
        answer.record(&BUSH_BORE, bore.clone());
        // The bush is another part, which may be made in the same job.
        if self.bush.outside.as_ref().is_some_and(is_read) {
            answer.elsewhere.push(ReadElsewhere::of_another(PartSize::Outside, Value::of(&BUSH_OUTSIDE, &outside)));
        }
        if self.bush.bore.as_ref().is_some_and(is_read) {
            answer.elsewhere.push(ReadElsewhere::of_another(PartSize::Inside, Value::of(&BUSH_BORE, &bore)));
        }
        let tight = sizes.tight(bench, &outside)?;
        let doubt = if read { tight.measured.plus_minus() } else { sizes.to_be_read(bench) };
        let proven = proven_outsides(bench, &press_joint(metals, sizes, &bore), sizes, climate, doubt)?;
        // Where the strength of a metal is not known no outside proves anything.
        let proven = proven.filter(|_| climate.trusted() == Verdict::Proven);
        // Nor of a metal of which no joint is better than doubtful.
        let proven = proven.filter(|_| metals.bush.kind() != Kind::Plastic && metals.housing.kind() != Kind::Plastic);
        // What must drop in and does not is none that is proven.
        let drops = |(low, high): (f64, f64)| Ok::<_, Refusal>((low, high.min(self.drops_in_to(bench, sizes, doubt)?)));
        let proven = proven.map(drops).transpose()?.filter(|(low, high)| low <= high);
        let proven = match proven {
            Some(ends) => self.told_apart(bench, (metals, sizes), (&bore, &outside), ends)?,
            None => None,
        };
        // Nor does one that no hand can turn to and no gauge can tell.
        let least = constant::<Mm>("outside-window-least")?.number();
        let proven = proven.filter(|(low, high)| high - low >= least);
        if let Some((low, high)) = proven {
            let line =
                |end: f64| vec![format!("bore, and the interference at which all of the joint is proven: {end:.4} mm")];
            let of = |end: f64| {
                let source = Source::fixed("the limits of the joint", Mark::Derived);
                Worked::method_of(Mm::new(end), line(end), source, [sizes.d.origin()])
            };
            answer.record(&OUTSIDE_LEAST, of(low));
            answer.record(&OUTSIDE_MOST, of(high));
        }
        Ok(Made { bore, tight, proven })
    }

    /// The greatest outside that drops in for certain, mm: any where it is pressed in cold.
    fn drops_in_to(&self, bench: &Bench, sizes: &Sizes, doubt: f64) -> Result<f64, Refusal> {
        let Some(gives) = self.gives else { return Ok(f64::INFINITY) };
        let room = room_to_drop_in(&sizes.d.nominal("a change of size: the doubt of the diameter is small beside it"))?;
        Ok(sizes.d.number() + gives - room.number() - doubt * bench.guard() / 2.0)
    }

    /// The bore of the bush as it is known when it is pressed: as measured; of one that is made here as well as its gauge will read it.
    pub(super) fn as_it_is_read(&self, bench: &Bench, bore: &Worked<Mm>) -> Result<Worked<Mm>, Refusal> {
        if self.bush.bore.is_some() {
            return Ok(bore.clone());
        }
        let doubt = bore_gauge(bench, bore.number())?.doubt.unwrap_or_default();
        Ok(bore
            .nominal("what it is made to is read before it is pressed")
            .with_doubt(Cause::Set("the bore as it will be read"), doubt))
    }

    /// Of outsides at which the joint is proven those with which the bore closes in by so much that its gauge is sure to tell it.
    pub(in crate::operations) fn told_apart(
        &self,
        bench: &Bench,
        (metals, sizes): (&Metals, &Sizes),
        (bore, outside): (&Worked<Mm>, &Worked<Mm>),
        (low, high): (f64, f64),
    ) -> Result<Option<(f64, f64)>, Refusal> {
        let bore = &self.as_it_is_read(bench, bore)?;
        let joint = press_joint(metals, sizes, bore);
        let tells = |at: f64| -> Result<bool, Refusal> {
            let tried = outside.shifted(at - outside.number(), "an outside that is tried");
            let settled = sizes.tight(bench, &tried)?.settled;
            if settled.number() <= 0.0 {
                return Ok(false);
            }
            self.gauge_tells(bench, &bore_pressed(bore, &joint.close_in(&settled)?)?, bore)
        };
        if !tells(high)? {
            return Ok(None);
        }
        let (mut none, mut some) = (low, high);
        if tells(low)? {
            some = low;
        }
        while some - none > HUNDREDTH_OF_A_MICROMETRE {
            let middle = f64::midpoint(none, some);
            if tells(middle)? { some = middle } else { none = middle }
        }
        Ok(Some((some, high)))
    }
}

/// As near as an end of outsides is sought, mm.
const HUNDREDTH_OF_A_MICROMETRE: f64 = 1e-5;
