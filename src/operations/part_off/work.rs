//! Parting from its keys to its set-up.

use super::blade;
use super::keys::{Caught, PartOff};
use super::names::{BAR_LEFT, INSIDE, LENGTH, OUTSIDE, PART_LENGTH};
use super::sketch;
use crate::handbook::constants::constant;
use crate::handbook::cutting::stock;
use crate::handbook::{StateKind, set_up_minutes};
use crate::operations::diameter::{self, CrossDial};
use crate::operations::kit::{LeftWithin, mm};
use crate::operations::turning::{self, CuttingData, Metal, Piece, Reach, Way};
use crate::operations::{Answer, Bench, Cut, HeldIn, HoldPoint, Limits, Pass, PassKind, SetUp, Station, kit, safety};
use crate::proof::{At, Cause, Check, Fact, Keep, Mark, Origin, Refusal, Side, Source, Verdict, Words, Worked};
use crate::quantity::{Mm, Quantity, Unit};
use crate::shop::{Axis, Cutting, Gauge};

/// Decimals of a length that is set with a rule or a depth gauge.
const PLACES: i32 = 1;

impl PartOff {
    pub(super) fn work_it(&self, bench: &Bench, answer: &mut Answer) -> Result<(), Refusal> {
        let metal = Metal::of(bench, false, answer)?;
        let typed = |at: &At<Mm>| Worked::<Mm>::from(at);
        let outside = answer.record(&OUTSIDE, typed(&self.outside));
        let bore = match &self.bore {
            Some(bore) => typed(bore),
            None => answer.assume("inside", Worked::assumed(Mm::new(0.0), "solid to the centre")),
        };
        let bore = answer.record(&INSIDE, bore);
        let over_all = answer.read(bench, "over-all", Gauge::Outside, &self.over_all)?;
        let over_all = answer.record(&PART_LENGTH, over_all);
        let lathe = turning::lathe_for(bench, &self.asked(), &outside, answer)?;
        let length = self.length_set(bench, lathe, answer)?;
        let dial = CrossDial::of(lathe, bench.shop.is_some(), answer)?;
        let sizes = [outside.clone(), bore.clone(), over_all.clone()];
        let piece = Piece::of(bench, self.asked(), lathe, metal, sizes, Way::Off);
        let blade = self.blade(bench, &bore, answer)?;
        let stands = stock::blade_stands(&length, &blade.width)?;
        let source = Source::fixed("geometry", Mark::Derived);
        let left = Worked::sum(&[(1.0, &over_all), (-1.0, &stands)], 0.0, "the bar less piece and slot", source);
        answer.record(&BAR_LEFT, left.at_least(0.0, "not under nothing"));
        let thin = diameter::stands("piece-stands", bench, &length, &outside)?.about(LENGTH.key).at(self.length.place);
        answer.check(thin).remedy(Words::of("part-it-long"));
        blade::near_the_jaws(bench, &piece, &stands, answer)?;
        self.centres(answer);
        self.is_caught(bench, &piece, &length, answer)?;
        let reach = Reach {
            left: length.clone(),
            removed: stands,
            thinnest: outside,
            bored: bore,
            into_the_grip: None,
            off: None,
            round_within: None,
        };
        let width = blade.width.clone();
        let cutting = turning::work_off(bench, &piece, blade.edge, &width, reach, answer)?;
        self.set_up_of(bench, &piece, (&dial, &width), &cutting, answer)
    }

    /// The length as it is set: by what measures it to the blade, and as near as the carriage goes to that.
    fn length_set(&self, bench: &Bench, lathe: Option<&Cutting>, answer: &mut Answer) -> Result<Worked<Mm>, Refusal> {
        const ID: &str = "length-kept";
        let at = &self.length;
        let middle = Mm::new(f64::midpoint(at.value.low.number(), at.value.high.number()));
        let gauge = kit::gauge_used(bench, middle.number(), Gauge::Depth, true).doubt;
        let half = lathe.and_then(|lathe| lathe.dial(Axis::Along)).map(|dial| dial.division.value.number() / 2.0);
        let aim = Worked::exact(middle, Origin::Typed(at.place))
            .with_doubt(Cause::Named("the gauge"), gauge.unwrap_or(0.0))
            .with_doubt(Cause::Set("carriage"), half.unwrap_or(0.0));
        let has_limits = at.value.low.number() < at.value.high.number();
        if let Some(left) = bench.left(&LENGTH)? {
            answer.fact(LENGTH.key, mm(aim.number()));
            let left = answer.record(&LENGTH, left);
            let limits = [at.value.low.number(), at.value.high.number()];
            match has_limits {
                // What is parted too long can be faced, what is too short is lost.
                true => {
                    LeftWithin { id: ID, key: LENGTH.key, limits, place: at.place, stands: Side::High, is_off: true }
                        .judge(bench, &left, answer)
                }
                false => answer.not_checked(&[ID], &["limits of the length"]),
            }
            return Ok(aim);
        }
        // Whatever its own sheet accepts is handed on, till it is measured: anything between the limits.
        let (low, high) = (at.value.low.number(), at.value.high.number());
        answer.record(&LENGTH, if has_limits { aim.clone().with_band(low, high) } else { aim.clone() });
        if bench.shop.is_none() {
            answer.no_shop(&[ID]);
        } else if !has_limits {
            answer.not_checked(&[ID], &["limits of the length"]);
        } else if gauge.is_none() {
            answer.missing.push(Words::of("gauge").with("size", Fact::mm(middle.number())));
            answer.check(Check::of_kind(ID, Verdict::Doubtful).at(at.place)).remedy(Words::of("part-it-long"));
        } else {
            for (keep, limit) in [(Keep::AtLeast, at.value.low), (Keep::AtMost, at.value.high)] {
                let limit = Worked::exact(limit, Origin::Typed(at.place));
                let check = Check::judge(ID, &aim, keep, &limit, bench.guard()).about(LENGTH.key).at(at.place);
                let proven = check.is_proven();
                let check = answer.check(check);
                if !proven {
                    check.remedy(Words::of("part-it-long"));
                }
            }
        }
        Ok(aim)
    }

    /// Between centres the blade is jammed by the halves as they close on it.
    fn centres(&self, answer: &mut Answer) {
        const ID: &str = "never-between-centres";
        let Some(hold) = &self.hold else {
            answer.not_checked(&[ID], &["hold"]);
            return;
        };
        let verdict = match hold.held_in.value {
            HeldIn::Jaws | HeldIn::SoftJaws | HeldIn::FourJaw | HeldIn::Collet => Verdict::Proven,
            HeldIn::Mandrel => Verdict::Fails,
            _ => Verdict::Doubtful,
        };
        let check = Check::of_kind(ID, verdict).with("in", hold.named_on_a_lathe()).at(hold.held_in.place);
        answer.check(check);
    }

    /// A piece that nobody holds as it comes off flies, or rolls between the blade and the rest.
    fn is_caught(&self, bench: &Bench, piece: &Piece, length: &Worked<Mm>, answer: &mut Answer) -> Result<(), Refusal> {
        const ID: &str = "caught";
        let mass = turning::mass_from_sizes(&piece.material, [&piece.outside, &piece.inside, length])?;
        let Some(at) = &self.caught else {
            answer.not_checked(&[ID], &["caught"]);
            return Ok(());
        };
        let check = match (at.value, &mass) {
            (Caught::Rod, _) => Check::of_kind(ID, Verdict::Proven),
            (Caught::Tray, Some(mass)) => {
                let most = constant("caught-in-a-tray-most")?;
                Check::judge(ID, mass, Keep::AtMost, &most, bench.guard()).not_worse_than(Verdict::Doubtful)
            }
            (Caught::Tray, None) => Check::of_kind(ID, Verdict::Doubtful),
            (Caught::Sawn, _) => Check::of_kind(ID, Verdict::Proven),
        };
        let check = answer.check(check.at(at.place));
        if !check.is_proven() {
            check.remedy(Words::of("saw-the-last-off"));
        }
        Ok(())
    }

    fn set_up_of(
        &self,
        bench: &Bench,
        piece: &Piece,
        (dial, width): (&CrossDial, &Worked<Mm>),
        cutting: &CuttingData,
        answer: &mut Answer,
    ) -> Result<(), Refusal> {
        let mut set_up = SetUp::at("part-it-off", Station::Lathe);
        set_up.on(piece.lathe.map(|lathe| lathe.name.value.as_str()));
        let hold = self.hold.as_ref();
        set_up.takes(set_up_minutes::start(turning::loading(hold))? + set_up_minutes::start("parting, handling")?);
        kit::rig(&mut set_up, hold, HeldIn::Jaws);
        turning::hold_lines(hold, "true-within", &mut set_up);
        kit::try_the_grip(&mut set_up, hold, &turning::TORQUE_TO_STAND, answer);
        set_up.step("tailstock-back").step("turn-by-hand").step("blade-square");
        let gauge = kit::gauge_used(bench, self.length.value.nominal.number(), Gauge::Depth, true);
        let (low, high) = (self.length.value.low.number(), self.length.value.high.number());
        // What is parted too long can be faced, what is too short is lost: the blade may stand off by the doubt of its place.
        let off = answer.value(LENGTH.key).map_or(0.0, |length| length.plus_minus * bench.guard() / 2.0);
        let off = if high - low > 2.0 * off { off } else { 0.0 };
        let limits = Limits::asked((Some(low + off), (high > low).then_some(high - off)), PLACES, Unit::Mm);
        set_up.hold_at(Words::of("measure-to-the-blade"), HoldPoint::asking(LENGTH.key, 1, gauge.name, limits));
        set_up.step("lock");
        set_up.step("touch-with-the-blade");
        let caught = self.caught.as_ref().map(|at| at.value);
        let left = match caught {
            Some(Caught::Sawn) => left_to_saw(piece)?,
            _ => 0.0,
        };
        set_up.step_with(match caught {
            Some(Caught::Rod) => Words::of("catch-on-a-rod"),
            Some(Caught::Tray) | None => Words::of("catch-in-a-tray"),
            // Of a solid piece the dial leaves a core, as thick as it is across.
            Some(Caught::Sawn) if piece.inside.number() <= 0.0 => {
                Words::of("stop-at-a-core").with("left", Fact::mm(2.0 * left))
            }
            Some(Caught::Sawn) => Words::of("stop-at-a-ring").with("left", Fact::mm(left)),
        });
        let wall = (piece.outside.number() - piece.inside.number()) / 2.0;
        // To the division that is through; to the last before what is left to the saw.
        let on = dial.on_diameter().number();
        // Touched where the bar stands furthest out, its other side lies lower by all that it runs out.
        let runs_out = hold.and_then(|hold| hold.true_within.as_ref()).map_or(0.0, |within| within.value.number());
        let runs_out = if left > 0.0 { 0.0 } else { runs_out };
        let divisions = 2.0 * (wall + runs_out - left) / on;
        let whole = if left > 0.0 { (divisions + 1e-9).floor() } else { (divisions - 1e-9).ceil() };
        let depth = if left > 0.0 { whole * on / 2.0 } else { wall + runs_out };
        let pass = Pass { kind: PassKind::Depth, depth, dial: dial.reads(whole * on), leaves: None };
        let cut = Cut {
            tool: cutting.edge.name.clone().into(),
            spindle: Some(cutting.speed.step.number()),
            feed: Some(cutting.feed.step.number()).filter(|_| !cutting.feed.by_hand),
            passes: vec![pass],
            minutes: answer.value(turning::TIME.key).map_or(0.0, |time| time.number),
        };
        cutting.tell_the_hand(&mut set_up);
        set_up.cut(Words::of("part"), cut);
        if caught == Some(Caught::Sawn) {
            set_up.step("saw-the-last");
        }
        set_up.step("catch").step("deburr").step("wash-and-measure");
        set_up.sketch = sketch::draw(piece, width, answer);
        set_up.needs = kit::of_part(bench, &[StateKind::Washed, StateKind::Measured]);
        set_up.leaves = vec![kit::of_this(bench, StateKind::Done)];
        set_up.warns(&["swarf", "chuck-key", "work-secure", "blade-grabs"]);
        if let Some(mass) = piece.mass()? {
            safety::lifting(&mut set_up, &mass)?;
        }
        let target = match high > low {
            true => Some(kit::read_inside(bench, (low, high), Gauge::Outside)),
            false => kit::aimed(answer, LENGTH.key),
        };
        set_up.blanks =
            vec![kit::read_with(kit::blank("length-left", None, target), 1, bench, Gauge::Outside).left_as(&LENGTH)];
        answer.set_ups.push(set_up);
        Ok(())
    }
}

/// What of the wall, on the radius, a blade leaves to the saw: half of a core, or of a ring as much as holds and no more than half
/// of it, mm.
fn left_to_saw(piece: &Piece) -> Result<f64, Refusal> {
    let wall = (piece.outside.number() - piece.inside.number()) / 2.0;
    let left = if piece.inside.number() > 0.0 {
        constant::<Mm>("ring-to-saw")?.number()
    } else {
        constant::<Mm>("core-to-saw")?.number() / 2.0
    };
    Ok(left.min(wall / 2.0))
}
