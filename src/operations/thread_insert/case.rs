//! What was measured and what all lengths share; what becomes of the old hole.

use super::hole::Hole;
use super::keys::{HoleKind, Tang, ThreadInsert};
use super::names::{BEYOND, EDGE, EDGE_WALL, PRESENT_DEPTH, PRESENT_HOLE, WALL};
use super::zero::Zero;
use crate::handbook::Material;
use crate::handbook::constants::constant;
use crate::handbook::threads::insert;
use crate::operations::hole_making::{self, read_at};
use crate::operations::kit::{self, mm_as_typed};
use crate::operations::{Answer, Bench};
use crate::proof::{Check, Fact, Keep, Origin, Refusal, Remedy, Verdict, Words, Worked};
use crate::quantity::{Mm, Quantity};
use crate::shop::{Countersink, Gauge};

/// What all lengths share: readings with their doubt, the hole, the drill, the zero, the metal.
pub(super) struct Case<'a> {
    pub asked: &'a ThreadInsert,
    pub material: Material,
    pub diameter: Worked<Mm>,
    pub pitch: Worked<Mm>,
    pub wall: Worked<Mm>,
    pub beyond: Option<Worked<Mm>>,
    pub least_left: Worked<Mm>,
    pub present_hole: Option<Worked<Mm>>,
    pub present_depth: Option<Worked<Mm>>,
    pub edge: Option<Worked<Mm>>,
    pub countersink: bool,
    pub tang: Tang,
    pub hole: Hole,
    pub zero: Zero,
    /// Doubt of the stop, mm.
    pub stop: f64,
}

impl ThreadInsert {
    /// Reads what was measured and works what all lengths share.
    pub(super) fn case<'a>(&'a self, bench: &Bench<'a>, answer: &mut Answer) -> Result<Case<'a>, Refusal> {
        let material = self
            .material(bench)
            .cloned()
            .ok_or(Refusal::NotGiven { what: "the metal of the casting", key: "material" })?;
        let (diameter, pitch) = (self.thread.value.major(), self.thread.value.pitch());
        kit::name_thread(&self.thread, answer);
        answer.fact("material", material.typed());
        answer.fact("pitch", mm_as_typed(pitch.number()));
        let wall = answer.read(bench, "wall", Gauge::Depth, &self.wall)?;
        let wall = answer.record(&WALL, wall);
        let beyond = self.beyond.as_ref().and_then(|at| read_at(at, at.value.reading()));
        let beyond = answer.read_if(bench, "beyond", Gauge::Depth, beyond.as_ref())?;
        let beyond = beyond.map(|gap| answer.record(&BEYOND, gap));
        let old = self.present_hole.as_ref().and_then(|at| read_at(at, at.value.reading()));
        answer.no_hole = !self.opens_old_hole();
        let present_hole = answer.read_if(bench, "present-hole", Gauge::Inside, old.as_ref())?;
        let present_hole = present_hole.map(|hole| answer.record(&PRESENT_HOLE, hole));
        let present_depth = answer.read_if(bench, "present-depth", Gauge::Depth, self.present_depth.as_ref())?;
        let present_depth = present_depth.map(|depth| answer.record(&PRESENT_DEPTH, depth));
        let edge = answer.read_if(bench, "edge", Gauge::FromCentre, self.edge.as_ref())?;
        let edge = edge.map(|edge| answer.record(&EDGE, edge));
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
            countersink: self.countersunk(bench, (&hole, &pitch), answer)?,
            tang: self.tang(answer),
            stop: hole_making::depth_stop(bench, self.machine(bench), answer)?,
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
    fn countersunk(
        &self,
        bench: &Bench,
        (hole, pitch): (&Hole, &Worked<Mm>),
        answer: &mut Answer,
    ) -> Result<bool, Refusal> {
        let Some(at) = &self.countersink else {
            answer.assume_words(Words::of("no-countersink-asked"));
            return Ok(false);
        };
        if at.value {
            Self::countersink_owned(bench, (hole, pitch), answer)?;
        }
        Ok(at.value)
    }

    /// A countersink of the angle of such mouths, and wide enough to break the thread's edge: what the shop lacks is listed.
    fn countersink_owned(
        bench: &Bench,
        (hole, pitch): (&Hole, &Worked<Mm>),
        answer: &mut Answer,
    ) -> Result<(), Refusal> {
        let Some(shop) = bench.shop else { return Ok(()) };
        let (angle, over) = (insert::rule("countersink-angle")?, insert::rule("countersink-over-hole-major")?);
        let near = insert::rule("countersink-angle-off")?.number();
        let (asked, wide) = (angle.number(), hole.major_min.number() + over.number() * pitch.number());
        let does = |sink: &Countersink| {
            (sink.angle.value.number() - asked).abs() <= near
                && sink.diameter.as_ref().is_none_or(|at| at.value.number() >= wide)
        };
        if !shop.countersinks().any(does) {
            answer.missing.push(Words::of("countersink").with("size", Fact::mm(wide)));
        }
        Ok(())
    }
}

impl Case<'_> {
    /// Checks that all lengths share: the edge, the old hole.
    pub(super) fn checks(&self, bench: &Bench, answer: &mut Answer) -> Result<(), Refusal> {
        match &self.edge {
            Some(edge) => {
                let place = self.asked.edge.as_ref().map_or(self.asked.wall.place, |at| at.place);
                hole_making::edge_wall(bench, &EDGE_WALL, (edge, place), &self.hole.major_min, answer)?;
                let asked = insert::edge_distance_asked(&self.diameter)?;
                let check = Check::judge("edge-distance", edge, Keep::AtLeast, &asked, bench.guard());
                answer.check(check.not_worse_than(Verdict::Doubtful));
            }
            None => answer.not_checked(&["edge-wall", "edge-distance"], &["edge"]),
        }
        self.old_hole(bench, answer);
        self.drill_reaches(bench, answer);
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
        answer.check(check.at(place)).remedies.extend(["next-size", "solid-bush", "weld"].map(Remedy::of));
    }
}
