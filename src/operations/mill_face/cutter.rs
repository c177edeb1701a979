//! The mill and the cutter in it: which, of what, how many teeth, how deep it may go, how many passes and tracks.

use super::keys::{MillFace, Way};
use super::names::{CUTTER, DEPTH, ENGAGED, LANES, MOST_DEPTH, PASSES, TEETH, THICKNESS, TRACK};
use crate::handbook::constants::{constant, row};
use crate::handbook::cutting::cutting_force as force;
use crate::handbook::{Material, ToolMaterial};
use crate::operations::hole_making;
use crate::operations::{Answer, Bench, kit};
use crate::proof::{Check, Fact, Keep, Mark, Origin, Refusal, Source, Verdict, Words, Worked};
use crate::quantity::{Mm, Quantity, Ratio};
use crate::shop::{Axis, Cutting, Dial, Gauge, Machine};

/// The cutter, and how the face is divided for it.
pub(super) struct Cutter {
    pub across: Worked<Mm>,
    pub tool: ToolMaterial,
    pub teeth: Worked<Ratio>,
    pub track: Worked<Mm>,
    pub engaged: Worked<Ratio>,
    pub lanes: f64,
    /// What carries it, where the shop says.
    pub shank: Option<Worked<Mm>>,
}

/// The depths set, each from the touch, in whole divisions of the dial that sets them.
pub(super) struct Depths {
    pub readings: Vec<f64>,
    pub deepest: Worked<Mm>,
}

/// The dial that sets the depth.
pub(super) struct DepthDial {
    pub slide: Option<&'static str>,
    pub division: f64,
    pub per_turn: Option<f64>,
}

impl MillFace {
    /// The mill named, else the shop's first. A drill press is none: its chuck drops out under a side load.
    pub(super) fn mill<'a>(&self, bench: &Bench<'a>, answer: &mut Answer) -> Option<&'a Machine> {
        hole_making::on_a_mill(bench, self.set_up.as_ref(), |_| Verdict::Fails, answer)
    }

    /// The cutter of that size in the drawer; what lacks is a doubt and a line on the missing list.
    pub(super) fn cutter_of(&self, bench: &Bench, metal: &Material, answer: &mut Answer) -> Result<Cutter, Refusal> {
        let (size, place) = (self.cutter.value.number(), self.cutter.place);
        let owned = kit::cutter_with_teeth(bench, size, self.teeth.as_ref().map(|at| at.value));
        kit::cutter_owned("cutter-in-drawer", bench, owned.is_some(), (size, place), answer);
        let tool = owned.map_or(ToolMaterial::Hss, |cutter| cutter.material.value);
        hole_making::hard_enough(bench, metal, tool, ("cutter-hard-enough", place), answer)?;
        let teeth = self.teeth.as_ref().or_else(|| owned.and_then(|cutter| cutter.teeth.as_ref()));
        let teeth = match teeth {
            Some(at) => Worked::exact(Ratio::new(f64::from(at.value)), Origin::Typed(at.place)),
            None => answer.assume("teeth", constant("mill-teeth")?),
        };
        let teeth = answer.record(&TEETH, teeth);
        let across = answer.record(&CUTTER, (&self.cutter).into());
        let most = row("mill-engaged-most")?.value * size;
        let lanes = (self.width.value.number() / most - 1e-9).ceil().max(1.0);
        let track = Worked::<Mm>::from(&self.width).scaled(1.0 / lanes, "tracks beside each other");
        let track = answer.record(&TRACK, track);
        let engaged = answer.record(&ENGAGED, force::engaged(&track, &across)?);
        answer.record(&LANES, count(lanes));
        self.way_of_cut(answer);
        let shank = owned.and_then(|cutter| cutter.shank.as_ref()).map(Worked::from);
        Ok(Cutter { across, tool, teeth, track, engaged, lanes, shank })
    }

    /// With play in its screw a table is pulled under the cutter by the teeth of a climbing cut.
    fn way_of_cut(&self, answer: &mut Answer) {
        const ID: &str = "way-of-cut";
        let Some(way) = &self.way else { return answer.not_checked(&[ID], &["way"]) };
        let verdict = if way.value == Way::Conventional { Verdict::Proven } else { Verdict::Doubtful };
        answer.check(Check::of_kind(ID, verdict).at(way.place));
    }

    /// The dial that sets the depth; one of which nobody says anything is no finer than a usual one.
    pub(super) fn depth_dial(machine: Option<&Cutting>, answer: &mut Answer) -> Result<DepthDial, Refusal> {
        let dial = machine.and_then(Self::dial_of);
        let Some(dial) = dial else {
            let division: Worked<Mm> = answer.assume("dial", constant("cutting-dial-unknown")?);
            answer.fact("slide", Fact::named("slide-of-depth"));
            return Ok(DepthDial { slide: None, division: division.number(), per_turn: None });
        };
        answer.fact("slide", dial.axis.value.named());
        let per_turn = dial.per_turn.as_ref().map(|turn| turn.value.number());
        Ok(DepthDial { slide: Some(dial.axis.value.text()), division: dial.division.value.number(), per_turn })
    }

    /// As few passes as keep each inside what machine and cutter stand, two at least where there is metal for two: then it can be
    /// measured before the last.
    pub(super) fn depths(
        &self,
        bench: &Bench,
        machine: Option<&Cutting>,
        (removed, division): (&Worked<Mm>, f64),
        answer: &mut Answer,
    ) -> Result<Depths, Refusal> {
        let of_machine = match machine.and_then(|machine| machine.most_depth.as_ref()) {
            Some(typed) => typed.into(),
            None => answer.assume("most-depth", constant("mill-most-depth-unknown")?),
        };
        let share = row("mill-depth-over-cutter")?.value;
        let of_cutter = Worked::<Mm>::from(&self.cutter).scaled(share, "a share of the cutter");
        let most = if of_cutter.number() < of_machine.number() { of_cutter } else { of_machine };
        let most = answer.record(&MOST_DEPTH, most);
        let least: Worked<Mm> = constant("mill-least-depth")?;
        let all = removed.number();
        let two = if all >= 2.0 * least.number() - 1e-9 { 2.0 } else { 1.0 };
        let passes = (all / most.number() - 1e-9).ceil().max(two);
        // Dials stand at whole divisions; the last at all of it.
        let reading = |pass: f64| ((all * pass / passes / division + 1e-9).round() * division).min(all);
        let readings: Vec<f64> = (1..=(passes as u32)).map(|pass| reading(f64::from(pass))).collect();
        let depth_of = |pair: (&f64, f64)| pair.0 - pair.1;
        let before = std::iter::once(0.0).chain(readings.iter().copied());
        let depths: Vec<f64> = readings.iter().zip(before).map(depth_of).collect();
        let thick = depths.iter().copied().fold(0.0, f64::max);
        let thin = depths.iter().copied().fold(f64::INFINITY, f64::min);
        answer.record(&PASSES, count(passes));
        let says = vec![format!("the deepest of {passes} passes in whole divisions")];
        let deepest = Worked::method(Mm::new(thick), says, Source::fixed("whole divisions", Mark::Derived));
        let deepest = answer.record(&DEPTH, deepest);
        let check = Check::judge("most-depth", &deepest, Keep::AtMost, &most, bench.guard());
        answer.check(check.about(DEPTH.key).at(self.removed.place));
        let says = vec!["the thinnest pass".into()];
        let thinnest = Worked::method(Mm::new(thin), says, Source::fixed("whole divisions", Mark::Derived));
        let half = least.scaled(0.5, "doubtful to half of it");
        let check = Check::judge_two("bite", (&thinnest, &least), Keep::AtLeast, (&thinnest, &half), bench.guard());
        answer.check(check.at(self.removed.place));
        self.measured_between(bench, (machine, passes > 1.0), answer);
        Ok(Depths { readings, deepest })
    }

    /// Measured before the last pass, and that set by what was read: there must be two passes, a gauge for it and a dial to set it by.
    fn measured_between(&self, bench: &Bench, (machine, several): (Option<&Cutting>, bool), answer: &mut Answer) {
        const ID: &str = "measured-between";
        let thickness = answer.value(THICKNESS.key).map_or(0.0, |thick| thick.number);
        let in_shop = bench.shop.is_some();
        let gauge = !in_shop || kit::instrument(bench, thickness, Gauge::Outside).is_some();
        let dial = machine.is_none_or(|machine| Self::dial_of(machine).is_some());
        let holds = several && gauge && dial;
        let check = Check::of_kind(ID, if holds { Verdict::Proven } else { Verdict::Doubtful });
        let check = answer.check(check.at(self.removed.place));
        if !gauge {
            check.remedy(Words::of("gauge-for-the-thickness"));
        }
        if !dial {
            check.remedy(Words::of("dial-for-the-depth"));
        }
    }

    /// The dial of the knee, else that of the quill.
    fn dial_of(machine: &Cutting) -> Option<&Dial> {
        machine.dial(Axis::Knee).or_else(|| machine.dial(Axis::Quill))
    }
}

/// A whole number that was counted.
fn count(number: f64) -> Worked<Ratio> {
    Worked::method(
        Ratio::new(number),
        vec!["the least whole number that holds".into()],
        Source::fixed("counted", Mark::Own),
    )
}
