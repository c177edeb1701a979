//! What was measured of the housing, and how tight a bush of an outside is in it.

use super::asked::Asked;
use super::keys::Stands;
use super::metals::Metals;
use super::names::fitted::{LEFT, LOSS};
use super::names::joint::{BUSH_LENGTH, HOUSING_BORE, HOUSING_LENGTH, HOUSING_OUTSIDE, JOINT_LENGTH};
use crate::handbook::cutting::work_holding;
use crate::handbook::{constants::constant, joints::press, materials::groups::Kind};
use crate::job::Reading;
use crate::operations::{Answer, Bench, PartSize, ReadElsewhere, Value, kit};
use crate::proof::{At, Check, Keep, Refusal, Side, Verdict, Words, Worked};
use crate::quantity::{Mm, Quantity, Ratio, Shift};
use crate::shop::Gauge;

/// The housing, and what does not depend on the bush's own sizes.
pub(in crate::operations) struct Sizes {
    /// The joint diameter: the bore of the housing.
    pub d: Worked<Mm>,
    pub housing_outside: Worked<Mm>,
    pub length: Worked<Mm>,
    /// What the surfaces lose as they bed in.
    pub loss: Worked<Mm>,
}

/// How tight the bush is.
pub(in crate::operations) struct Tight {
    /// As measured, without loss, with the doubt of both readings: the middle of a stress.
    pub measured: Worked<Shift>,
    /// Once the surfaces have bedded in; its band goes up to no loss.
    pub settled: Worked<Shift>,
    /// Its worst end for grip.
    pub least: Worked<Shift>,
    /// Its worst end for stress, press and heat: no loss.
    pub most: Worked<Shift>,
}

impl Sizes {
    /// How tight a bush of this outside is.
    pub(in crate::operations) fn tight(&self, bench: &Bench, outside: &Worked<Mm>) -> Result<Tight, Refusal> {
        let measured = press::interference(outside, &self.d)?;
        let settled = press::interference_left(&measured, &self.loss)?;
        let settled = settled.clone().with_band(settled.number(), measured.number());
        let least = settled.worst(Side::Low, bench.guard());
        let most = measured.worst(Side::High, bench.guard());
        Ok(Tight { measured, settled, least, most })
    }

    /// The doubt of the interference of a bush that is made here: that of the bore, and that of what its outside will be read with, mm.
    pub(in crate::operations) fn to_be_read(&self, bench: &Bench) -> f64 {
        let gauge = kit::gauge_used(bench, self.d.number(), Gauge::Outside, false);
        self.d.plus_minus().hypot(gauge.doubt.unwrap_or_default())
    }
}

/// Whether a size was read, and is not handed on by what makes it.
pub(super) fn is_read(at: &At<Reading>) -> bool {
    matches!(at.value, Reading::Size { .. })
}

impl Asked<'_> {
    /// Reads the housing.
    pub(in crate::operations) fn sizes(&self, bench: &Bench, answer: &mut Answer) -> Result<Sizes, Refusal> {
        let of_housing = self.housing.material.as_ref().map(|at| bench.part_of(&at.value, at.place));
        let at_housing = of_housing.as_ref().map_or(*bench, |part| bench.with_part(part));
        let d = answer.read(&at_housing, "housing bore", Gauge::Inside, &self.housing.bore)?;
        let d = answer.record(&HOUSING_BORE, d);
        if is_read(&self.housing.bore) {
            // The housing may be bored as a part of another name.
            answer.elsewhere.push(ReadElsewhere::of_another(PartSize::Inside, Value::of(&HOUSING_BORE, &d)));
        }
        let housing_outside = answer.record(&HOUSING_OUTSIDE, (&self.housing.outside).into());
        let length = self.joint_length(answer);
        self.long_enough(bench, (&length, &d), answer)?;
        let rough = || constant("finish-unknown");
        let of_housing = match &self.housing.finish {
            Some(at) => at.into(),
            None => answer.assume("finish-of-housing", rough()?),
        };
        let of_bush = match &self.bush.finish {
            Some(at) => at.into(),
            None => answer.assume("finish-of-bush", rough()?),
        };
        let share =
            constant::<Ratio>("roughness-loss")?.nominal("the rule takes this share; a harsher one was not read");
        let loss = answer.record(&LOSS, press::roughness_loss(&share, &of_housing, &of_bush)?);
        Ok(Sizes { d, housing_outside, length, loss })
    }

    /// The shorter of the two: a flange and what stands proud do not grip.
    fn joint_length(&self, answer: &mut Answer) -> Worked<Mm> {
        let bush = answer.record(&BUSH_LENGTH, (&self.bush.length).into());
        if let Some(at) = &self.housing.length {
            answer.record(&HOUSING_LENGTH, at.into());
        }
        let outside = self.length_outside();
        let inside = if outside > 0.0 { bush.shifted(-outside, "what lies in the housing") } else { bush };
        let length = match &self.housing.length {
            // What stands below the face leaves so much of the housing empty; the bush may come out at its far end.
            Some(at) if at.value.number() - self.sunk() < inside.number() => match self.sunk() > 0.0 {
                true => Worked::from(at).shifted(-self.sunk(), "what of the housing lies before the bush"),
                false => at.into(),
            },
            Some(_) => inside,
            None => {
                answer.assume_words(Words::of("housing-as-long"));
                inside
            }
        };
        answer.record(&JOINT_LENGTH, length)
    }

    /// How far the bush stands below the face, mm.
    pub(in crate::operations) fn sunk(&self) -> f64 {
        match self.stands.as_ref().map(|at| at.value) {
            Some(Stands::By(by)) => (-by.number()).max(0.0),
            _ => 0.0,
        }
    }

    /// How far the bush stands out of the face, mm, where that was typed as an amount; of one with a flange, beyond that: a flange that
    /// lies on the face stands as far out as it is thick.
    pub(in crate::operations) fn stands_proud(&self) -> f64 {
        match self.stands.as_ref().map(|at| at.value) {
            Some(Stands::By(by)) => (by.number() - self.flange_thickness()).max(0.0),
            _ => 0.0,
        }
    }

    fn flange_thickness(&self) -> f64 {
        self.flange.as_ref().map_or(0.0, |flange| flange.thickness.value.number())
    }

    /// A bush that sits on a rim tips, and works loose, whatever the figure of its grip says.
    fn long_enough(
        &self,
        bench: &Bench,
        (length, d): (&Worked<Mm>, &Worked<Mm>),
        answer: &mut Answer,
    ) -> Result<(), Refusal> {
        let least = work_holding::share_of(&constant("joint-length-share-least")?, d)?;
        let check = Check::judge("long-enough", length, Keep::AtLeast, &least, bench.guard());
        answer.check(check.about(JOINT_LENGTH.key).not_worse_than(Verdict::Doubtful).at(self.bush.length.place));
        Ok(())
    }

    /// How much of the bush lies outside the housing, mm.
    pub(in crate::operations) fn length_outside(&self) -> f64 {
        self.flange_thickness() + self.stands_proud()
    }

    /// Is there any interference: none at the middle fails, none at worst is doubtful. No doubt, however wide, turns a loose bush
    /// into one of which nothing is known.
    pub(in crate::operations) fn grip(
        &self,
        bench: &Bench,
        (metals, tight): (&Metals, &Tight),
        make: Option<Words>,
        answer: &mut Answer,
    ) {
        let none = Worked::assumed(Shift::new(0.0), "a bush without interference turns");
        let check = Check::judge("interference", &tight.settled, Keep::AtLeast, &none, bench.guard());
        // No interference at all is none: a limit that is just met does not hold here.
        let verdict = match (tight.settled.number() > 0.0, tight.least.number() > 0.0) {
            (false, _) => Verdict::Fails,
            (true, false) => Verdict::Doubtful,
            (true, true) => Verdict::Proven,
        };
        // Plastic gives way under its own grip, and no figure says how soon.
        let creeps =
            [&metals.bush, &metals.housing].iter().any(|metal| matches!(metal.kind(), Kind::Plastic | Kind::Lining));
        let verdict = if creeps { verdict.max(Verdict::Doubtful) } else { verdict };
        let place = self.bush.outside.as_ref().map_or(self.housing.bore.place, |at| at.place);
        let check = answer.check(check.judged_as(verdict).about(LEFT.key).at(place));
        if creeps {
            check.remedy(Words::of("plastic-lets-go"));
        }
        if let Some(words) = make {
            check.remedy(words);
        }
        check.remedy(Words::of("sleeve-the-housing"));
    }
}
