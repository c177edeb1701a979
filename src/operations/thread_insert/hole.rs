//! The insert hole and its limits, the tap.

use super::keys::{HoleKind, ThreadInsert};
use super::names::{
    DRILL_DIAMETER, MAJOR_MIN, MINOR_MAX, MINOR_MIN, PERCENT_BASIC, PERCENT_ISO, PITCH_MAX, PITCH_MIN, POINT,
};
use crate::handbook::threads::{insert, tapping};
use crate::handbook::{Lead, ToolMaterial};
use crate::operations::{Answer, Bench};
use crate::proof::{Mark, Refusal, Source, Words, Worked};
use crate::quantity::{Mm, Quantity, Ratio};

/// The insert hole and the tools that make it.
pub(super) struct Hole {
    pub major_min: Worked<Mm>,
    pub pitch_max: Worked<Mm>,
    pub minor_max: Worked<Mm>,
    pub drill: Worked<Mm>,
    pub drill_material: ToolMaterial,
    pub half_point: f64,
    pub point: Worked<Mm>,
    pub lead: Lead,
    pub threads_of_lead: Worked<Ratio>,
    pub centre: Worked<Mm>,
    /// What the male centre adds where the tap has none now: nothing, or what another tap would have.
    pub bottoming: Worked<Ratio>,
}

impl ThreadInsert {
    pub(super) fn hole(
        &self,
        bench: &Bench,
        answer: &mut Answer,
        diameter: &Worked<Mm>,
        pitch: &Worked<Mm>,
    ) -> Result<Hole, Refusal> {
        let thread = self.thread.value;
        let form = thread.form();
        let limits = insert::InsertHole::of(form, diameter, pitch)?;
        let major_min = answer.record(&MAJOR_MIN, limits.major_min);
        let pitch_min = answer.record(&PITCH_MIN, limits.pitch_min);
        let minor_min = answer.record(&MINOR_MIN, limits.minor_min);
        let row = insert::row(thread)?;
        let pitch_max = answer.record(&PITCH_MAX, row.pitch_max(&pitch_min, pitch)?);
        let minor_max = answer.record(&MINOR_MAX, row.minor_max(&minor_min, pitch)?);
        let taken = self.drill(bench, answer, (&minor_min, &minor_max), row)?;
        let drill = answer.record(&DRILL_DIAMETER, taken.diameter);
        let half_point = taken.point.number() / 2.0;
        let point = answer.record(&POINT, insert::drill_point(&drill, &taken.point)?);
        for (name, percent) in
            [PERCENT_BASIC, PERCENT_ISO].iter().zip(tapping::percentages(form, &major_min, &drill, pitch)?)
        {
            answer.record(name, percent);
        }
        let (lead, centred) = self.lead(bench, answer);
        let threads_of_lead = lead.threads()?;
        let largest = insert::rule("male-centre-largest")?;
        let centre = match centred && diameter.number() <= largest.number() {
            true => insert::male_centre(diameter)?,
            false => Worked::method(
                Mm::new(0.0),
                vec!["no male centre on this tap".into()],
                Source::fixed("ASME B18.29.2M notes", Mark::Read),
            ),
        };
        answer.fact("lead", lead.text());
        let bottoming = Lead::Bottoming.threads()?;
        let drill_material = taken.material;
        Ok(Hole {
            major_min,
            pitch_max,
            minor_max,
            drill,
            drill_material,
            half_point,
            point,
            lead,
            threads_of_lead,
            centre,
            bottoming,
        })
    }

    /// The lead asked for; left out: plug through, else the shortest that the shop owns, else plug. And whether the tap has
    /// its male centre.
    fn lead(&self, bench: &Bench, answer: &mut Answer) -> (Lead, bool) {
        let taps: Vec<_> = bench.shop.map(|shop| shop.insert_taps(self.thread.value).collect()).unwrap_or_default();
        let shortest = || taps.iter().map(|tap| tap.lead.value).min_by_key(|lead| lead.rank());
        let lead = match (&self.lead, self.hole.value) {
            (Some(lead), _) => lead.value,
            (None, HoleKind::Through) => assumed_lead(answer, Lead::Plug),
            (None, HoleKind::Blind) => assumed_lead(answer, shortest().unwrap_or(Lead::Plug)),
        };
        let of = |lead: Lead| taps.iter().find(|tap| tap.lead.value == lead);
        let tap = of(lead);
        // A bottoming tap starts no thread: a plug tap goes before it.
        let first = (lead == Lead::Bottoming).then_some(Lead::Plug);
        let wanted = first.into_iter().chain([lead]).filter(|lead| bench.shop.is_some() && of(*lead).is_none());
        answer.missing.extend(wanted.map(|lead| Words::of("tap").with("lead", lead.text())));
        let known = tap.and_then(|tap| tap.male_centre.as_ref()).map(|centre| centre.value);
        (lead, known.unwrap_or(lead != Lead::Bottoming))
    }
}

fn assumed_lead(answer: &mut Answer, lead: Lead) -> Lead {
    answer.assume_words(Words::of("lead").with("value", lead.text()));
    lead
}
