//! `turn`: an outside brought to size along the axis. Is it held for that, does it spring, where does the tool stop?
//!
//! What it shares with the boring of a hole is worked in [`super::diameter`].

mod sketch;

use super::diameter::{self, Asked, CleansUp, Corner, CrossDial, Extra, PART_LENGTH, Size, Springs, TURNED};
use super::kit;
use super::kit::above_zero;
use super::turning::{self, CaseKeys, Metal, Piece, Reach, Tools, Way};
use super::{Answer, Bench, Declared, Hold, HoldPoint, Limits, Operation, PartSize, SetUpWish};
use crate::handbook::cutting::stock;
use crate::handbook::{Material, StateKind};
use crate::job::{Difference, PartFacts, Reading};
use crate::names;
use crate::proof::{At, CheckRule, Origin, Refusal, Words, Worked};
use crate::quantity::{Kilogram, Mm, Quantity, Roughness, Unit, Wanted, figure};
use crate::reading::Problem;
use crate::shop::Gauge;
use schemars::JsonSchema;
use serde::Deserialize;

names! { ,
    INSIDE: Mm = new("inside", "bore of the part").found(PartSize::Inside);
    WALL: Mm = new("wall_left", "thinnest wall left about the bore").comes();
    SHOULDER: Mm = new("shoulder", "diameter at which the cut ends").comes();
}

/// A shoulder that stands less far out is met by no gauge, mm.
const SHOULDER_SEEN: f64 = 0.16;

/// An outside turned to size.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
#[schemars(extend("x-wants" = [["part.material"]]))]
pub struct Turn {
    /// Its diameter as found (measured).
    present: At<Reading>,
    /// Its diameter (wanted).
    outside: At<Wanted<Mm>>,
    /// How far it is turned from the free end (wanted).
    length: At<Wanted<Mm>>,
    /// Length of the part over both ends (measured).
    over_all: At<Reading>,
    /// Diameter of the shoulder that the cut ends at; left out, the metal as found stands there; 0 mm where the tool runs out free.
    shoulder: Option<At<Mm>>,
    /// Greatest round that may stay in the corner of the shoulder (wanted); a range has a least as well.
    corner: Option<At<Wanted<Mm>>>,
    /// Bore of the part, 0 mm where it is solid; left out, it is taken as solid, and what the jaws do to a ring is not checked.
    inside: Option<At<Mm>>,
    /// Roughness wanted.
    finish: Option<At<Wanted<Roughness>>>,
    /// Gaps that interrupt the cut; left out, none.
    interrupted: Option<At<u32>>,
    /// Thickness of a free rim that is turned, where a smaller diameter is gripped (measured).
    thickness_at_rim: Option<At<Reading>>,
    /// Least hard case that may be left (wanted).
    least_case: Option<At<Wanted<Mm>>>,
    /// Metal that went here since it was new, on the radius: worn off, and taken off in earlier overhauls (measured); left out, none is assumed where a case is judged.
    removed_before: Option<At<Difference>>,
    /// How the part is held.
    hold: Option<Hold>,
    /// The tool by its name in the shop; left out, the one that does it in least time is chosen.
    tool: Option<At<String>>,
    /// Mass of the part.
    mass: Option<At<Kilogram>>,
    /// How far its centre of mass lies off the spindle's axis.
    off_centre: Option<At<Mm>>,
    /// Machine, name, feature, remark; left out, none.
    set_up: Option<SetUpWish>,
}

const CHECKS: &[CheckRule] = diameter::diameter_checks!(
    CheckRule::must("tool-clear", &["hold.overhang"]),
    CheckRule::must("work-stands-it", &["hold.overhang", "hold.diameter"]),
    CheckRule::must("flange", &["hold.diameter", "thickness-at-rim"]),
    CheckRule::must("clear-of-clamps", &["hold.clamped"]),
    CheckRule::must("clears-the-slide", &["swing-over-slide of the machine"]),
);

impl Turn {
    /// Whether it ends at a shoulder: where nobody says, at the metal as found.
    fn ends(&self) -> bool {
        self.shoulder.as_ref().is_none_or(|at| at.value.number() > 0.0)
    }

    /// The wall between the least outside and the bore, which may lie off as far as it runs out.
    fn wall_left(
        &self,
        bench: &Bench,
        (size, inside): (&Size, &Worked<Mm>),
        off: Option<&Worked<Mm>>,
        answer: &mut Answer,
    ) -> Result<(), Refusal> {
        const ID: &str = "wall-stands";
        if inside.number() <= 0.0 {
            answer.does_not_apply(&[ID]);
            return Ok(());
        }
        let Some(off) = off else {
            answer.not_checked(&[ID], &["hold.true-within"]);
            return Ok(());
        };
        let least = size.most_gone(self.outside.place);
        let wall = answer.record(&WALL, stock::wall_of_bore(&least, inside, off)?);
        diameter::wall_stands(bench, &wall, &least, WALL.key, answer)
    }

    fn asked(&self) -> turning::Asked<'_> {
        turning::Asked {
            over_both_ends: true,
            finish: self.finish.as_ref(),
            thickness_at_rim: self.thickness_at_rim.as_ref(),
            interrupted: self.interrupted.as_ref(),
            hold: self.hold.as_ref(),
            tool: self.tool.as_ref(),
            mass: self.mass.as_ref(),
            off_centre: self.off_centre.as_ref(),
            set_up: self.set_up.as_ref(),
            ..turning::Asked::default()
        }
    }
}

/// What it gives, with the length that it has: where it runs out free nothing ends there to be measured.
macro_rules! given {
    ($length:expr) => {
        &[
            VALUES,
            diameter::TURNED_VALUES,
            $length,
            diameter::VALUES,
            turning::OF_CUT,
            turning::OF_ALONG,
            turning::OF_HOLD,
            turning::OF_PASSES,
            turning::OF_CLEAR,
            turning::OF_FLANGE,
        ]
    };
}

impl Operation for Turn {
    fn values(&self) -> &'static [&'static [Declared]] {
        if self.ends() { const { given!(diameter::TO_ITS_END) } } else { const { given!(diameter::OUT_FREE) } }
    }

    fn checks(&self) -> &'static [CheckRule] {
        CHECKS
    }

    fn hold(&self) -> Option<&Hold> {
        self.hold.as_ref()
    }

    fn set_up(&self) -> Option<&SetUpWish> {
        self.set_up.as_ref()
    }

    fn cuts_as(&self, part: &PartFacts, metal: &Material) -> Result<Material, Refusal> {
        turning::cuts_as(metal, part.hardness.as_ref().map(|at| at.value))
    }

    fn problems(&self, part: &PartFacts) -> Vec<Problem> {
        let mut all = Vec::new();
        above_zero("`present`", &self.present, &mut all);
        above_zero("`outside`", &self.outside, &mut all);
        above_zero("`length`", &self.length, &mut all);
        above_zero("`over-all`", &self.over_all, &mut all);
        turning::lathe_problems(&self.asked(), part, self.present.place, &mut all);
        let (present, outside) = (self.present.value.typed(), self.outside.value);
        if let Some(present) = present.filter(|present| outside.low.number() >= *present) {
            let says = format!("`outside` must be smaller than it is now ({} mm)", figure(present));
            all.push(Problem::of_sizes(self.outside.place, says));
        }
        if let (Some(inside), low) = (&self.inside, outside.low.number())
            && inside.value.number() >= low
        {
            all.push(Problem::of_sizes(
                inside.place,
                format!("`inside` must be smaller than `outside` ({} mm)", figure(low)),
            ));
        }
        let wanted = outside.high.number();
        if let Some(shoulder) =
            self.shoulder.as_ref().filter(|at| at.value.number() > 0.0 && at.value.number() <= wanted)
        {
            all.push(Problem::new(
                shoulder.place,
                format!(
                    "a shoulder is larger than what is turned ({} mm); 0 mm where the tool runs out free",
                    figure(wanted)
                ),
            ));
        }
        if let Some(over_all) = self.over_all.value.typed() {
            if self.length.value.high.number() > over_all {
                all.push(Problem::new(self.length.place, "it is turned further than the part is long (`over-all`)"));
            }
            turning::hold_problems(self.hold.as_ref(), over_all, &mut all);
        }
        turning::mandrel_stands(self.hold.as_ref(), self.inside.as_ref(), &mut all);
        if let Some(hold) = &self.hold {
            let bored = self.inside.as_ref().map(|bore| turning::Bored::Part(bore.value.number()));
            turning::nothing_to_grip(hold, outside.low.number(), bored, &mut all);
        }
        all
    }

    fn work(&self, bench: &Bench, answer: &mut Answer) -> Result<(), Refusal> {
        let metal = Metal::of(bench, false, answer)?;
        let typed = |at: &At<Mm>| Worked::<Mm>::from(at);
        let inside = match &self.inside {
            Some(inside) => typed(inside),
            None => answer.assume("inside", Worked::assumed(Mm::new(0.0), "solid to the centre")),
        };
        let inside = answer.record(&INSIDE, inside);
        let over_all = answer.read(bench, "over-all", Gauge::Outside, &self.over_all)?;
        let over_all = answer.record(&PART_LENGTH, over_all);
        let present = answer.read(bench, "present", Gauge::Outside, &self.present)?;
        let shoulder = self.shoulder.as_ref().filter(|at| at.value.number() > 0.0).map(typed);
        let (present_diameter, present_doubt) = (present.number(), present.plus_minus());
        let largest = shoulder.clone().filter(|at| at.number() > present.number()).unwrap_or_else(|| present.clone());
        if self.ends() {
            let ends_at = shoulder.unwrap_or_else(|| answer.assume("shoulder", present.clone()));
            answer.record(&SHOULDER, ends_at);
        }
        let lathe = turning::lathe_for(bench, &self.asked(), &largest, answer)?;
        let dial = CrossDial::of(lathe, bench.shop.is_some(), answer)?;
        let ends = Corner { ends: self.ends(), corner: self.corner.as_ref() };
        let length = ends.length(bench, &self.length, lathe, answer)?;
        let swings = self.hold.as_ref().and_then(|hold| hold.swings.as_ref()).map(typed);
        let beside = swings.filter(|at| at.number() > largest.number()).unwrap_or_else(|| largest.clone());
        if bench.shop.is_some() {
            turning::over_the_slide((&present, &beside), &length, lathe, bench.guard(), answer)?;
        } else {
            answer.no_shop(&["clears-the-slide"]);
        }
        let run_out = self.hold.as_ref().and_then(|hold| hold.true_within.as_ref()).map(typed);
        let off = run_out.as_ref().map(|out| out.scaled(0.5, "half of the run-out: off to one side"));
        let clean = CleansUp { off, missing: vec!["hold.true-within"] };
        let after = (&TURNED, bench.left(&TURNED)?);
        let asked = Asked { present: &self.present, wanted: &self.outside, inside: false, after };
        let size = asked.work(bench, &dial, &clean, answer)?;
        let sizes = [size.present.clone(), inside.clone(), over_all];
        let piece = Piece::of(bench, self.asked(), lathe, metal, sizes, Way::Along(length.clone()))
            .with_thickest(largest.clone())
            .last_cut_at(Worked::exact(self.outside.value.nominal, Origin::Typed(self.outside.place)));
        self.wall_left(bench, (&size, &inside), clean.off.as_ref(), answer)?;
        let keys =
            CaseKeys { least: self.least_case.as_ref(), usual: None, removed_before: self.removed_before.as_ref() };
        let case = turning::case_left(bench, &piece, keys, &size.removed_at_its_deepest(&clean), answer)?;
        let also = |bench: &Bench, _: Option<usize>, cutting: &turning::CuttingData, answer: &mut Answer| {
            diameter::corner(bench, ends, cutting, answer)
        };
        let reach = Reach {
            left: size.present.clone(),
            removed: length.clone(),
            thinnest: Worked::exact(self.outside.value.low, Origin::Typed(self.outside.place)),
            bored: inside,
            into_the_grip: None,
            off: None,
            round_within: size.width.as_ref().map(|width| width.scaled(0.5, "the limits, on the radius")),
        };
        let tools = Tools::turning(bench, &also);
        let Some(mut cut) = turning::work_cut(bench, &piece, &size.amount, reach, &tools, answer)? else {
            return Ok(());
        };
        let lacking = vec!["hold.overhang", "hold.diameter"];
        let springs = Springs { stiffness: cut.part, lacking, varies: run_out, pushes_back: cut.pushes_back };
        diameter::spring_left(bench, (&size, self.length.value.nominal), &springs, &mut cut.cutting, answer)?;
        // A shoulder that stands already stops the tool where it is, whatever length was asked for.
        let stands = largest.number() - present_diameter > 2.0 * SHOULDER_SEEN + present_doubt;
        let shoulder_stands = stands.then(|| {
            let gauge = kit::gauge_used(bench, length.number(), Gauge::Depth, false).name;
            // Beyond where the stop may let the tool run.
            let short = length.number() + length.plus_minus();
            let (_, long) = kit::read_ends(bench, (short, self.length.value.high.number()), Gauge::Depth);
            // A length that has no limits may be longer where it ends at a shoulder.
            let has_limits = self.length.value.high.number() > self.length.value.low.number();
            let ends = (Some(short), has_limits.then_some(long));
            HoldPoint::asking(diameter::LENGTH.key, 1, gauge, Limits::asked(ends, 1, Unit::Mm))
        });
        let mut before = vec![Words::of("true-up")];
        let reaches_the_end = length.number() >= piece.length.number() - piece.length.plus_minus();
        before.push(match (ends.ends, reaches_the_end) {
            (true, _) => diameter::set_the_stop(lathe),
            (false, true) => Words::of("run-out-free"),
            // Nobody asks for a shoulder there, and the metal as found stands there all the same.
            (false, false) => Words::of("stop-in-the-metal"),
        });
        let mut after: Vec<Words> = ends.ends.then(|| Words::of("face-the-shoulder")).into_iter().collect();
        after.push(Words::of("deburr"));
        let extra = Extra {
            id: "turn-the-outside",
            trued: "true-within",
            minutes: "diameter, measuring",
            state: StateKind::Finished,
            before,
            held_before: shoulder_stands.map(|hold| (Words::of("shoulder-stands"), hold.then("outside-work-again"))),
            after,
            sketch: sketch::draw(&piece, &size, [&length, &largest], cut.cutting.edge.angle.number(), ends.ends),
            blanks: Vec::new(),
            test_hardness: case.test_hardness,
            ends: ends.ends,
        };
        diameter::set_up(bench, &piece, (&size, &dial, &self.length), &cut.cutting, extra, answer)
    }
}
