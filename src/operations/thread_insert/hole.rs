//! What was measured, the insert hole and its limits, the tap, what becomes of the old hole.

use super::*;
use crate::handbook::threads::{insert, tapping};
use crate::handbook::{ToolMaterial, constants::constant};
use crate::proof::{Keep, Mark, Origin, Source};
use crate::shop::Gauge;

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
    /// Reads what was measured and works what all lengths share.
    pub(super) fn case<'a>(&'a self, bench: &Bench<'a>, answer: &mut Answer) -> Result<Case<'a>, Refusal> {
        let material = self
            .material(bench)
            .cloned()
            .ok_or(Refusal::NotGiven { what: "the metal of the casting", key: "material" })?;
        let (diameter, pitch) = (self.thread.value.major(), self.thread.value.pitch());
        answer.fact("thread", self.thread.value.name());
        answer.fact("material", material.typed());
        answer.fact("pitch", as_typed(pitch.number()));
        let wall = answer.read(bench, "wall", Gauge::Depth, &self.wall)?;
        let wall = answer.record(&WALL, wall);
        let beyond = self.beyond.as_ref().and_then(|at| read_at(at, at.value.reading()));
        let beyond = answer.read_if(bench, "beyond", Gauge::Depth, beyond.as_ref())?;
        let beyond = beyond.map(|gap| answer.record(&BEYOND, gap));
        let old = self.present_hole.as_ref().and_then(|at| read_at(at, at.value.reading()));
        let present_hole = answer.read_if(bench, "present-hole", Gauge::Inside, old.as_ref())?;
        let present_depth = answer.read_if(bench, "present-depth", Gauge::Depth, self.present_depth.as_ref())?;
        let edge = answer.read_if(bench, "edge", Gauge::FromCentre, self.edge.as_ref())?;
        let least_left = match (&self.least_left, self.hole.value) {
            (Some(at), _) => Worked::exact(at.value.high, Origin::Typed(at.place)),
            (None, HoleKind::Blind) => answer.assume("least-left", constant("least-left")?),
            (None, HoleKind::Through) => constant("least-left")?,
        };
        let hole = self.hole(bench, answer, &diameter, &pitch)?;
        let zero = self.zero(bench, answer, &hole, present_hole.as_ref())?;
        Ok(Case {
            asked: self,
            material,
            wall,
            beyond,
            least_left,
            present_hole,
            present_depth,
            edge,
            countersink: self.countersunk(answer),
            tang: self.tang(answer),
            stop: depth_stop(bench, self.machine(bench), answer)?,
            hole,
            zero,
            diameter,
            pitch,
        })
    }

    /// Through: out; blind: in, if left out.
    fn tang(&self, answer: &mut Answer) -> Tang {
        let usual = if self.hole.value == HoleKind::Through { Tang::Out } else { Tang::In };
        self.tang.as_ref().map_or_else(
            || {
                answer.assume_words(
                    Words::of("tang")
                        .with("value", Fact::named(if usual == Tang::In { "tang-stays-in" } else { "tang-comes-out" })),
                );
                usual
            },
            |tang| tang.value,
        )
    }

    /// Without a countersink, if left out.
    fn countersunk(&self, answer: &mut Answer) -> bool {
        self.countersink.as_ref().map_or_else(
            || {
                answer.assume_words(Words::of("no-countersink-asked"));
                false
            },
            |countersink| countersink.value,
        )
    }

    fn hole(
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
        let tap = taps.iter().find(|tap| tap.lead.value == lead);
        if bench.shop.is_some() && tap.is_none() {
            answer.missing.push(Words::of("tap").with("lead", lead.text()));
        }
        let known = tap.and_then(|tap| tap.male_centre.as_ref()).map(|centre| centre.value);
        (lead, known.unwrap_or(lead != Lead::Bottoming))
    }
}

/// A size as its table has it.
pub(super) fn as_typed(number: f64) -> Fact {
    Fact::mm(number).to(Decimals::AsTyped)
}

fn assumed_lead(answer: &mut Answer, lead: Lead) -> Lead {
    answer.assume_words(Words::of("lead").with("value", lead.text()));
    lead
}

/// The doubt of the depth stop: the machine's, else the shop's habit, else the table's, assumed.
fn depth_stop(bench: &Bench, machine: Option<&crate::shop::Machine>, answer: &mut Answer) -> Result<f64, Refusal> {
    let of_machine = machine.and_then(|m| m.drills()).and_then(|m| m.depth_stop.as_ref());
    let typed = of_machine.map(|stop| stop.plus_minus.unwrap_or(stop.value.value.number()));
    match typed.or_else(|| bench.shop.and_then(|shop| shop.habits.depth_stop())) {
        Some(typed) => Ok(typed),
        None => {
            let usual = constant::<Mm>("depth-stop-doubt")?.number();
            answer.assume_words(Words::of("depth-stop").with("value", as_typed(usual).plus_minus()));
            Ok(usual)
        }
    }
}

impl Case<'_> {
    /// Checks that all lengths share: the edge, the old hole.
    pub(super) fn checks(&self, bench: &Bench, answer: &mut Answer) -> Result<(), Refusal> {
        match &self.edge {
            Some(edge) => {
                let major = &self.hole.major_min;
                let wall = answer.record(&EDGE_WALL, insert::edge_wall(edge, major)?);
                let proven = insert::edge_wall_share(&insert::rule("edge-wall-over-hole-major")?, major)?;
                let least = insert::edge_wall_share(&constant("edge-wall-least-share")?, major)?;
                let check =
                    Check::judge_two("edge-wall", (&wall, &proven), Keep::AtLeast, (&wall, &least), bench.guard());
                answer.check(
                    check.about(EDGE_WALL.key).at(self
                        .asked
                        .edge
                        .as_ref()
                        .map_or(self.asked.wall.place, |at| at.place)),
                );
                let asked = insert::edge_distance_asked(&self.diameter)?;
                let check = Check::judge("edge-distance", edge, Keep::AtLeast, &asked, bench.guard());
                answer.check(check.not_worse_than(Verdict::Doubtful));
            }
            None => answer.not_checked(&["edge-wall", "edge-distance"], &["edge"]),
        }
        self.old_hole(bench, answer);
        Ok(())
    }

    /// Is the old hole drilled away by the new one? Of an old thread its roots count, which lie at its nominal diameter at least.
    fn old_hole(&self, bench: &Bench, answer: &mut Answer) {
        let Some(old) = &self.present_hole else {
            match self.asked.opens_old_hole() {
                true => answer.not_checked(&["old-hole"], &["present-hole"]),
                false => answer.does_not_apply(&["old-hole"]),
            }
            return;
        };
        let roots =
            old.at_least(self.diameter.number(), "the roots of the old thread lie at its nominal diameter at least");
        let check = Check::judge("old-hole", &roots, Keep::AtMost, &self.hole.minor_max, bench.guard());
        let (chosen, why) = match check.verdict() {
            Some(Verdict::Proven) => ("drilled-away", "old-hole-drilled-away"),
            Some(Verdict::Doubtful) => ("perhaps-not-drilled-away", "old-hole-perhaps"),
            _ => ("not-drilled-away", "old-hole-wider"),
        };
        answer.choose("old_hole", Fact::named(chosen), Words::of(why));
        let place = self.asked.present_hole.as_ref().map_or(self.asked.wall.place, |at| at.place);
        answer.check(check.at(place)).remedies.extend(["next-size", "solid-bush", "weld"].map(Words::of));
    }
}
