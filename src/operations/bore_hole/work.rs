//! The bore from its keys to its set-up.

use super::bar::{self, Hole};
use super::keys::{BoreHole, TrueTo};
use super::names::OUTSIDE;
use super::sketch;
use crate::handbook::StateKind;
use crate::handbook::cutting::deflection;
use crate::job::PartFacts;
use crate::operations::diameter::{self, Asked, BORED, Corner, CrossDial, Extra, PART_LENGTH, Springs};
use crate::operations::turning::{self, CaseKeys, CuttingData, Metal, Piece, Reach, Tools, Way};
use crate::operations::{Answer, Bench, Hold, kit};
use crate::proof::{Fact, Mark, Origin, Refusal, Source, Words, Worked};
use crate::quantity::{Decimals, Mm, Quantity, Rounds};
use crate::shop::{BoringBar, Cutting, Gauge};

impl BoreHole {
    pub(super) fn work_it(&self, bench: &Bench, answer: &mut Answer) -> Result<(), Refusal> {
        answer.does_not_apply(&["metal-bored"]);
        // A bush has its own metal, and neither the hardness nor the case of what it sits in.
        let of_bush = self.material.as_ref().map(|at| PartFacts {
            material: Some(at.clone()),
            hardness: None,
            case_depth: None,
            case_depth_total: None,
            through_hardened: None,
            ..bench.part.clone()
        });
        let at_bush = of_bush.as_ref().map_or(*bench, |part| bench.with_part(part));
        let metal = Metal::of(&at_bush, true, answer)?;
        let outside = answer.read(bench, "outside", Gauge::Outside, &self.outside)?;
        let outside = answer.record(&OUTSIDE, outside);
        let over_all = answer.read(bench, "over-all", Gauge::Outside, &self.over_all)?;
        let over_all = answer.record(&PART_LENGTH, over_all);
        let off = self.off_axis(bench, answer)?;
        let swings = off.swings(self.true_to.as_ref().map(|at| at.value))?;
        let swept = swings.as_ref().map_or_else(|| outside.clone(), |off| swept(&outside, off));
        let lathe = turning::lathe_for(bench, &self.asked(), &swept, answer)?;
        self.jaw_clears_the_bed(bench, (&swept, swings.as_ref()), lathe, answer)?;
        let dial = CrossDial::of(lathe, bench.shop.is_some(), answer)?;
        let through = self.goes_through();
        let ends = Corner { ends: !through, corner: self.corner.as_ref() };
        let depth = ends.length(bench, &self.depth, lathe, answer)?;
        let after = (&BORED, bench.left(&BORED)?);
        let asked = Asked { present: &self.present, wanted: &self.bore, inside: true, after };
        let size = asked.work(bench, &dial, &off.clean(), answer)?;
        self.can_be_trued(bench, &off, answer)?;
        self.wall_left(bench, (&size, &outside), &off, answer)?;
        self.says_by_what(answer);
        self.at_its_end(bench, &depth, answer)?;
        let largest = Worked::exact(self.bore.value.high, Origin::Typed(self.bore.place));
        let sizes = [outside.clone(), largest.clone(), over_all];
        let piece = Piece::of(bench, self.asked(), lathe, metal, sizes, Way::Inside(depth.clone()));
        let piece = piece.cut_at(largest.clone()).swinging(swings);
        let keys =
            CaseKeys { least: self.least_case.as_ref(), usual: None, removed_before: self.removed_before.as_ref() };
        let deepest = size.removed_at_its_deepest(&off.clean());
        let case = turning::case_left(&at_bush, &piece, keys, &deepest, answer)?;
        let bars: Vec<&BoringBar> = bench.shop.into_iter().flat_map(|shop| shop.boring_bars()).collect();
        if bars.is_empty() && bench.shop.is_some() {
            let reach = Fact::mm(depth.number()).to(Decimals::Exactly(0)).rounded(Rounds::Up);
            answer.missing.push(Words::of("boring-bar").with("reach", reach));
        }
        let hole = Hole { present: &size.present, depth: &depth, through };
        let also = |bench: &Bench, at: Option<usize>, cutting: &CuttingData, answer: &mut Answer| {
            hole.judge(bench, at.and_then(|at| bars.get(at)).copied(), answer)?;
            diameter::corner(bench, ends, cutting, answer)
        };
        let reach = Reach {
            left: outside.clone(),
            removed: depth.clone(),
            thinnest: outside,
            into_the_grip: (self.runs_into_the_grip() != Some(false)).then(|| largest.clone()),
            bored: largest,
            off: off.of_outside.clone(),
            round_within: size.width.as_ref().map(|width| width.scaled(0.5, "the limits, on the radius")),
        };
        let tools = Tools { all: bar::candidates(&bars), also: &also };
        let Some(mut cut) = turning::work_cut(bench, &piece, &size.amount, reach, &tools, answer)? else {
            return Ok(());
        };
        let taken = bars.iter().find(|bar| Fact::from(&bar.name.value) == cut.cutting.edge.name);
        let of_bar = taken.map(|bar| hole.stiffness(bar)).transpose()?;
        let typed = |of: fn(&Hold) -> bool| self.hold.as_ref().is_some_and(of);
        let mut lacking = Vec::new();
        if !typed(|hold| hold.overhang.is_some()) {
            lacking.push("hold.overhang");
        }
        if !typed(|hold| hold.diameter.is_some()) {
            lacking.push("hold.diameter");
        }
        if of_bar.is_none() {
            lacking.push("bar");
        }
        let stiffness = match (of_bar, cut.part) {
            (Some(bar), Some(part)) => Some(deflection::stiffness_in_row(&bar, &part)?),
            _ => None,
        };
        let varies = off.of_hole.as_ref().map(|off| off.scaled(2.0, "deeper on one side, shallower on the other"));
        let springs = Springs { stiffness, lacking, varies, pushes_back: cut.pushes_back };
        diameter::spring_left(bench, (&size, self.depth.value.nominal), &springs, &mut cut.cutting, answer)?;
        let by_the_hole = self.true_to.as_ref().is_none_or(|at| at.value == TrueTo::Bore);
        let in_jaws = typed(|hold| hold.held_in.value.centres_itself() && hold.held_in.value.jaws().is_some());
        let mut before = vec![Words::of(match self.true_to.as_ref().map(|at| at.value) {
            Some(TrueTo::Outside) => "true-to-the-outside",
            Some(TrueTo::Bore) | None if in_jaws => "true-to-the-bore-in-jaws",
            Some(TrueTo::Bore) | None => "true-to-the-bore",
        })];
        before.push(Words::of("bar-through-by-hand"));
        answer.fact("bored_to", Fact::named(if through { "until-just-through" } else { "to-the-stop" }));
        before.extend((!through).then(|| diameter::set_the_stop(lathe)));
        let mut after: Vec<Words> = (!through).then(|| Words::of("face-the-bottom")).into_iter().collect();
        after.extend([Words::of("break-edges"), Words::of("wash")]);
        let wall = kit::found(answer, super::names::WALL.key).map(|wall| kit::blank("wall-left", None, Some(wall)));
        let extra = Extra {
            id: "bore-the-hole",
            trued: match self.true_to.as_ref().map(|at| at.value) {
                Some(TrueTo::Outside) => "true-within-by-the-outside",
                Some(TrueTo::Bore) | None => "true-within-by-the-bore",
            },
            minutes: "bore on the lathe, measuring",
            state: StateKind::Bored,
            before,
            held_before: None,
            after,
            sketch: sketch::draw(&piece, (&size, &depth), cut.cutting.edge.angle.number(), (through, by_the_hole)),
            blanks: wall.into_iter().collect(),
            test_hardness: case.test_hardness,
            ends: ends.ends,
        };
        diameter::set_up(bench, &piece, (&size, &dial, &self.depth), &cut.cutting, extra, answer)
    }
}

impl BoreHole {
    /// Of a part that is moved over in its jaws one of them stands further out, and sweeps more than the part does.
    fn jaw_clears_the_bed(
        &self,
        bench: &Bench,
        (swept, off): (&Worked<Mm>, Option<&Worked<Mm>>),
        lathe: Option<&Cutting>,
        answer: &mut Answer,
    ) -> Result<(), Refusal> {
        let in_jaws = self.hold.as_ref().filter(|hold| hold.held_in.value.jaws().is_some());
        let (Some(off), Some(hold), Some(lathe)) = (off, in_jaws, lathe) else { return Ok(()) };
        let mut moved = hold.clone();
        if let Some(at) = &mut moved.diameter {
            at.value = Mm::new(at.value.number() + 2.0 * off.high());
        }
        turning::clears_the_bed(swept, Some(&moved), lathe, bench.guard(), answer)
    }
}

/// What turns about something off its middle sweeps that much more, on either side.
fn swept(outside: &Worked<Mm>, off: &Worked<Mm>) -> Worked<Mm> {
    let source = Source::fixed("what turns off its middle", Mark::Derived);
    Worked::sum(&[(1.0, outside), (2.0, off)], 0.0, "the outside as it swings", source)
}
