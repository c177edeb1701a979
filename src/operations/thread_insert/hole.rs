//! The insert hole: its limits, the drill for it, what becomes of the old hole.

use super::*;
use crate::handbook::{ToolMaterial, constants::constant, threads::{insert, tapping}};
use crate::proof::{Keep, Mark, Origin, Source};
use crate::quantity::{Angle, figure};
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
}

impl ThreadInsert {
    /// Reads what was measured and works what all lengths share.
    pub(super) fn case<'a>(&'a self, bench: &Bench<'a>, answer: &mut Answer) -> Result<Case<'a>, Refusal> {
        let material = self.material(bench).cloned().ok_or(Refusal::NotGiven { what: "the metal of the casting", key: "material" })?;
        let (diameter, pitch) = (self.thread.value.major(), self.thread.value.pitch());
        answer.fact("thread", self.thread.value.name());
        answer.fact("material", material.typed());
        answer.fact("pitch", as_typed(pitch.number()));
        let wall = answer.read(bench, "wall", Gauge::Depth, &self.wall)?;
        let wall = answer.record(&WALL, wall);
        let beyond = answer.read_if(bench, "beyond", Gauge::Depth, self.beyond.as_ref())?;
        let beyond = beyond.map(|gap| answer.record(&BEYOND, gap));
        let present_hole = answer.read_if(bench, "present-hole", Gauge::Inside, self.present_hole.as_ref())?;
        let present_depth = answer.read_if(bench, "present-depth", Gauge::Depth, self.present_depth.as_ref())?;
        let edge = answer.read_if(bench, "edge", Gauge::Outside, self.edge.as_ref())?;
        let least_left = match (&self.least_left, self.hole.value) {
            (Some(at), _) => Worked::exact(at.value.high, Origin::Typed(at.place)),
            (None, HoleKind::Blind) => answer.assume("least-left", Worked::assumed(Mm::new(1.0), "metal to leave under a blind hole")),
            (None, HoleKind::Through) => Worked::assumed(Mm::new(0.0), "a through hole leaves none"),
        };
        let hole = self.hole(bench, answer, &diameter, &pitch)?;
        let dilation = strength::dilation(edge.as_ref(), &hole.major_min, answer)?;
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
            depth_stop: depth_stop(bench, self.machine(bench), answer),
            hole,
            dilation,
            diameter,
            pitch,
        })
    }

    /// Through: out; blind: in, if left out.
    fn tang(&self, answer: &mut Answer) -> Tang {
        let usual = if self.hole.value == HoleKind::Through { Tang::Out } else { Tang::In };
        self.tang.as_ref().map_or_else(
            || {
                answer.assume_words(Words::of("tang").with("value", if usual == Tang::In { "stays in" } else { "comes out" }));
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

    fn hole(&self, bench: &Bench, answer: &mut Answer, diameter: &Worked<Mm>, pitch: &Worked<Mm>) -> Result<Hole, Refusal> {
        let thread = self.thread.value;
        let form = thread.form();
        let limits = insert::InsertHole::of(form, diameter, pitch)?;
        let major_min = answer.record(&MAJOR_MIN, limits.major_min);
        let pitch_min = answer.record(&PITCH_MIN, limits.pitch_min);
        let minor_min = answer.record(&MINOR_MIN, limits.minor_min);
        let row = insert::row(thread)?;
        let pitch_max = answer.record(&PITCH_MAX, row.pitch_max(&pitch_min, pitch)?);
        let minor_max = answer.record(&MINOR_MAX, row.minor_max(&minor_min, pitch)?);
        if row.doubtful() {
            answer.check(Check::of_kind("vintage-form", Verdict::Doubtful));
        }
        let (drill, drill_material, angle) = self.drill(bench, answer, &minor_min, &minor_max, row)?;
        let drill = answer.record(&DRILL_DIAMETER, drill);
        let half_point = angle.number() / 2.0;
        let point = if half_point >= 89.5 {
            Worked::method(Mm::new(0.0), vec!["a flat-bottomed cutter has no point".into()], Source::fixed("geometry", Mark::Derived))
        } else {
            insert::drill_point(&drill, &angle)?
        };
        let point = answer.record(&POINT, point);
        for (name, percent) in [PERCENT_BASIC, PERCENT_ISO].iter().zip(tapping::percentages(form, &major_min, &drill, pitch)?) {
            answer.record(name, percent);
        }
        let (lead, centred) = self.lead(bench, answer);
        let threads_of_lead = lead.threads()?;
        let centre = match centred && diameter.number() <= 8.0 {
            true => insert::male_centre(diameter)?,
            false => Worked::method(Mm::new(0.0), vec!["no male centre on this tap".into()], Source::fixed("ASME B18.29.2M notes", Mark::Read)),
        };
        answer.fact("lead", lead.text());
        Ok(Hole { major_min, pitch_max, minor_max, drill, drill_material, half_point, point, lead, threads_of_lead, centre })
    }

    /// The drill nearest the upper limit among those of the shop that lie inside the minor diameter's limits; without a shop
    /// that of the table.
    fn drill(
        &self,
        bench: &Bench,
        answer: &mut Answer,
        least: &Worked<Mm>,
        most: &Worked<Mm>,
        row: &insert::InsertRow,
    ) -> Result<(Worked<Mm>, ToolMaterial, Worked<Angle>), Refusal> {
        let assumed_angle = || Worked::assumed(Angle::new(118.0), "the usual point of a jobber drill");
        let inside = |d: f64| d >= least.number() - 1e-9 && d <= most.number() + 1e-9;
        let drills = bench.shop.map(|shop| shop.drills()).unwrap_or_default();
        if let Some(drill) = drills.iter().rev().find(|drill| inside(drill.diameter)) {
            let rule = format!(
                "{}: the largest drill inside {} .. {} mm is {} mm",
                drill.from,
                figure(least.number()),
                figure(most.number()),
                figure(drill.diameter)
            );
            let picked = Worked::exact(Mm::new(drill.diameter), Origin::Picked { rule, wanted: Box::new(most.origin().clone()) });
            let angle = answer.typed_or(drill.point.as_ref(), "point-angle", assumed_angle);
            answer.choose("drill", format!("{}, {}", bench.say(&as_typed(drill.diameter)), drill.from), Words::of("largest-drill-inside"));
            return Ok((picked, drill.material, angle));
        }
        let table = row.drill(least, most)?;
        if bench.shop.is_some() {
            answer.missing.push(Words::of("drill").with("size", as_typed(table.number())));
            answer.check(Check::of_kind("drill-in-shop", Verdict::Doubtful));
        }
        let table = answer.assume("drill-of-table", table);
        answer.choose("drill", format!("{}, of the table", bench.say(&as_typed(table.number()))), Words::of("drill-of-table"));
        let angle = answer.typed_or(None, "point-angle", assumed_angle);
        Ok((table, ToolMaterial::Hss, angle))
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
            answer.check(Check::of_kind("tap-in-shop", Verdict::Doubtful).with("lead", lead.text()));
        }
        let known = tap.and_then(|tap| tap.male_centre.as_ref()).map(|centre| centre.value);
        (lead, known.unwrap_or(lead != Lead::Bottoming))
    }
}

/// A size as its table has it.
fn as_typed(number: f64) -> Fact {
    Fact::mm(number).to(Decimals::AsTyped)
}

fn assumed_lead(answer: &mut Answer, lead: Lead) -> Lead {
    answer.assume_words(Words::of("lead").with("value", lead.text()));
    lead
}

/// The doubt of the depth stop: the machine's, else the shop's habit, else 0.2 mm, assumed.
fn depth_stop(bench: &Bench, machine: Option<&crate::shop::Machine>, answer: &mut Answer) -> f64 {
    let of_machine = machine.and_then(|m| m.drills()).and_then(|m| m.depth_stop.as_ref());
    let typed = of_machine.map(|stop| stop.plus_minus.unwrap_or(stop.value.value.number()));
    typed.or_else(|| bench.shop.and_then(|shop| shop.habits.depth_stop())).unwrap_or_else(|| {
        answer.assume_words(Words::of("depth-stop").with("value", as_typed(0.2).plus_minus()));
        0.2
    })
}

impl Case<'_> {
    /// Checks that all lengths share: the edge, the old hole.
    pub(super) fn checks(&self, bench: &Bench, answer: &mut Answer) -> Result<(), Refusal> {
        match &self.edge {
            Some(edge) => {
                let wall = answer.record(&EDGE_WALL, insert::edge_wall(edge, &self.hole.major_min)?);
                answer.judge(bench, "edge-wall", &wall, Keep::AtLeast, &insert::edge_wall_asked(&self.hole.major_min)?).about =
                    Some(EDGE_WALL.key);
                let asked = insert::edge_distance_asked(&self.diameter)?;
                let check = Check::judge("edge-distance", edge, Keep::AtLeast, &asked, bench.guard());
                answer.check(check.not_worse_than(Verdict::Doubtful));
            }
            None => answer.assume_words(Words::of("edge-not-given")),
        }
        self.old_hole(bench, answer)
    }

    /// Is the old hole swallowed by the new one, and does it leave enough thread?
    fn old_hole(&self, bench: &Bench, answer: &mut Answer) -> Result<(), Refusal> {
        let Some(old) = &self.present_hole else {
            answer.assume_words(Words::of("old-hole-not-given"));
            return Ok(());
        };
        let most = self.hole.minor_max.number();
        let (chosen, why) = match old {
            old if old.high() <= most => ("swallowed", "old-hole-swallowed"),
            old if old.number() <= most => ("perhaps swallowed", "old-hole-perhaps"),
            _ => ("not swallowed", "old-hole-wider"),
        };
        answer.choose("old_hole", chosen, Words::of(why));
        let form = self.asked.thread.value.form();
        if let Some((_, basis)) = tapping::bases(form).first() {
            let least = constant("thread-percent-least")?;
            let widest = tapping::drill_for_percentage(&self.hole.major_min, &least, basis, &self.pitch)?;
            answer.judge(bench, "old-hole", old, Keep::AtMost, &widest);
        }
        Ok(())
    }
}
