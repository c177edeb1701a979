//! Flat and square: what the tram leaves of a face, how far the cutter gives way, and what the clamps bend.

use super::cutter::Cutter;
use super::keys::{Bears, MillFace};
use super::names::{GIVES, HOLLOW, LEFT, OUT_OF_FLAT, OUT_OF_SQUARE, SWAYS, THICKNESS};
use crate::handbook::Material;
use crate::handbook::constants::{constant, row, worst};
use crate::handbook::cutting::{deflection, drill_column, milling as law, work_holding};
use crate::operations::{Answer, Bench, HeldIn, Hold, kit};
use crate::proof::{At, Check, Keep, Mark, Origin, Refusal, Source, Verdict, Words, Worked};
use crate::quantity::{Mm, Mm4, Newton, Quantity, Ratio, Wanted};
use crate::shop::Gauge;

/// A strip is no weaker than this, mm⁴: what bends of none.
const LEAST_STRIP: f64 = 1e-6;

/// A wanted limit as a figure.
fn limit(at: &At<Wanted<Mm>>) -> Worked<Mm> {
    Worked::exact(at.value.high, Origin::Typed(at.place))
}

impl MillFace {
    /// Hollow of a track and step between tracks against the flatness wanted; lean of the spindle and truth of the hold against the
    /// squareness wanted.
    pub(super) fn by_tram(&self, bench: &Bench, cutter: &Cutter, answer: &mut Answer) -> Result<(), Refusal> {
        self.bears_on(answer);
        let Some(tram) = &self.tram else {
            answer.not_checked(&["flat-by-tram", "square"], &["tram"]);
            return Ok(());
        };
        let reads = answer.read_difference(bench, "tram.reads", Gauge::Depth, &tram.reads)?;
        let reads = reads.at_least(0.0, "not under nothing");
        let over: Worked<Mm> = (&tram.over).into();
        let hollow = answer.record(&HOLLOW, law::hollow_by_tram(&reads, &over, &cutter.across, &cutter.track)?);
        let step =
            if cutter.lanes > 1.0 { cutter.track.clone() } else { cutter.track.scaled(0.0, "one track: no step") };
        let step = law::slope_by_tram(&reads, &over, &step)?;
        let out = answer.record(&OUT_OF_FLAT, law::faults_together(&hollow, &step)?);
        match &self.flat_within {
            None => answer.not_checked(&["flat-by-tram"], &["flat-within"]),
            Some(at) => {
                let check = Check::judge("flat-by-tram", &out, Keep::AtMost, &limit(at), bench.guard());
                answer.check(check.about(OUT_OF_FLAT.key).at(at.place));
            }
        }
        let (Some(square), Some(truth)) = (&self.square_within, self.truth()) else {
            let missing = if self.square_within.is_none() { "square-within" } else { "hold.true-within" };
            answer.not_checked(&["square"], &[missing]);
            return Ok(());
        };
        let lean = law::slope_by_tram(&reads, &over, &(&self.width).into())?;
        let out = answer.record(&OUT_OF_SQUARE, law::faults_together(&lean, &kit::as_true_as_read(bench, truth))?);
        let check = Check::judge("square", &out, Keep::AtMost, &limit(square), bench.guard());
        answer.check(check.about(OUT_OF_SQUARE.key).at(square.place));
        Ok(())
    }

    /// What is bent when it is clamped springs back hollow when it is let go.
    fn bears_on(&self, answer: &mut Answer) {
        const ID: &str = "clamped-on-metal";
        let Some(bears) = &self.bears else { return answer.not_checked(&[ID], &["bears"]) };
        let verdict = if bears.value == Bears::OnSolid { Verdict::Proven } else { Verdict::Doubtful };
        answer.check(Check::of_kind(ID, verdict).at(bears.place));
    }

    /// What is thin bows between the jaws of a vice, and under the cutter between the supports of its clamps, and is let go hollow.
    pub(super) fn thin_as_held(&self, bench: &Bench, answer: &mut Answer) -> Result<(), Refusal> {
        const ID: &str = "thin-as-held";
        let Some(hold) = &self.hold else {
            answer.not_checked(&[ID], &["hold"]);
            return Ok(());
        };
        let (length, width): (Worked<Mm>, Worked<Mm>) = ((&self.length).into(), (&self.width).into());
        let (share, span) = match hold.held_in.value {
            HeldIn::Vice => ("thin-in-a-vice", if length.number() < width.number() { length } else { width }),
            _ => ("thin-on-supports", if length.number() > width.number() { length } else { width }),
        };
        let least = work_holding::share_of(&constant(share)?, &span)?;
        let Some(left) = answer.value(LEFT.key) else { return Ok(()) };
        let left = Worked::exact(Mm::new(left.number - left.plus_minus), Origin::Assumed("at its thinnest".into()));
        let check = Check::judge(ID, &left, Keep::AtLeast, &least, bench.guard()).at(hold.held_in.place);
        answer.check(check.with("in", hold.named()).not_worse_than(Verdict::Doubtful));
        Ok(())
    }

    /// The hold as it is judged: what is gripped stands out by all of its thickness that is not in the grip, whatever was typed.
    pub(super) fn as_it_stands(&self, answer: &Answer) -> Option<Hold> {
        let mut hold = self.hold.clone()?;
        if let (Some(grip), Some(out)) = (&hold.grip, self.stands_up(&hold, answer)) {
            let least = Mm::new(out.max(hold.overhang.as_ref().map_or(0.0, |typed| typed.value.number())));
            hold.overhang = Some(At { value: least, place: grip.place });
        }
        Some(hold)
    }

    /// How high it stands over what grips it, mm; none where nobody says how deep it is gripped.
    pub(super) fn stands_up(&self, hold: &Hold, answer: &Answer) -> Option<f64> {
        let thick = answer.value(THICKNESS.key)?.number;
        let gripped = hold.held_in.value == HeldIn::Vice || hold.held_in.value.has_jaws();
        if !gripped {
            return Some(thick);
        }
        hold.grip.as_ref().map(|grip| (thick - grip.value.number()).max(0.0))
    }

    /// How far the work that stands up over its hold sways under the cut, against the flatness wanted: a quarter of it is proven.
    pub(super) fn sways(
        &self,
        bench: &Bench,
        metal: &Material,
        force: &Worked<Newton>,
        answer: &mut Answer,
    ) -> Result<(), Refusal> {
        const ID: &str = "work-sways";
        let (Some(hold), Some(flat)) = (&self.hold, &self.flat_within) else {
            answer.not_checked(&[ID], &[if self.hold.is_none() { "hold" } else { "flat-within" }]);
            return Ok(());
        };
        let Some(high) = self.stands_up(hold, answer) else {
            answer.not_checked(&[ID], &["hold.grip"]);
            return Ok(());
        };
        let (length, width) = (self.length.value.number(), self.width.value.number());
        // What is hollow stands up by its walls: the thinnest of them is what the cutter pushes over.
        let solid = length.min(width);
        let thin = self.walls.as_ref().map_or(solid, |wall| wall.value.number().min(solid));
        let sways = self.sway((high, thin), metal, force)?;
        let sways = answer.record(&SWAYS, sways);
        let wanted = limit(flat);
        let quarter = work_holding::share_of(&constant("lobe-share-of-flatness")?, &wanted)?;
        let judge = |sways| Check::judge_two(ID, (sways, &quarter), Keep::AtMost, (sways, &wanted), bench.guard());
        let check = judge(&sways);
        if self.walls.is_none() {
            answer.assume_words(Words::of("solid-under-its-face"));
            // Cases and covers are cast hollow: where it hangs on that, somebody must say.
            let cored = row("cast-wall-least")?.value.min(solid);
            if metal.is_cast() && check.is_proven() && !judge(&self.sway((high, cored), metal, force)?).is_proven() {
                answer.not_checked(&[ID], &["walls"]);
                return Ok(());
            }
        }
        answer.check(check.about(SWAYS.key).at(hold.held_in.place));
        Ok(())
    }

    /// How far a wall so high and so thick gives way, pushed at one end of the face.
    fn sway(&self, (high, thin): (f64, f64), metal: &Material, force: &Worked<Newton>) -> Result<Worked<Mm>, Refusal> {
        let long = self.length.value.number().max(self.width.value.number());
        // Pushed at one end no more of it bears than it stands high.
        let bears = long.min(high.max(thin));
        let says = vec![format!("a strip {bears:.1} mm long and {thin:.1} mm thick: b t³/12")];
        let strip = Mm4::new((bears * thin.powi(3) / 12.0).max(LEAST_STRIP));
        let strip = Worked::method(strip, says, Source::fixed("geometry", Mark::Derived));
        let high = Worked::assumed(Mm::new(high), "how high it stands over its hold");
        deflection::deflection_cantilever(force, &high, &metal.modulus()?, &strip)
    }

    /// How far the cutter standing out gives way, against the flatness wanted: a quarter of it is proven.
    pub(super) fn stiff(
        &self,
        bench: &Bench,
        cutter: &Cutter,
        force: &Worked<Newton>,
        answer: &mut Answer,
    ) -> Result<(), Refusal> {
        const ID: &str = "cutter-stiff";
        let (Some(out), Some(flat)) = (&self.stick_out, &self.flat_within) else {
            let missing = if self.stick_out.is_none() { "stick-out" } else { "flat-within" };
            answer.not_checked(&[ID], &[missing]);
            return Ok(());
        };
        let Some((modulus, _)) = drill_column::drill_metal(cutter.tool)? else {
            answer.not_checked(&[ID], &[]);
            return Ok(());
        };
        let shank = match &cutter.shank {
            Some(typed) => typed.clone(),
            None => {
                let share = drill_column::drill_body(&cutter.across, &constant("mill-shank-share")?)?;
                let most = constant::<Mm>("mill-shank-most")?.number();
                answer.assume("shank", share.at_most(most, "what carries it in the spindle"))
            }
        };
        let bar = deflection::second_moment_round(&shank)?;
        // A cutter of carbide has inserts on a shank of steel, or a shank no stiffer than steel is taken to be.
        let modulus = if cutter.tool.is_carbide() { worst("tool-modulus-steel", false)? } else { modulus };
        let gives = deflection::deflection_cantilever(force, &out.into(), &modulus, &bar)?;
        let gives = answer.record(&GIVES, gives);
        let share: Worked<Ratio> = constant("lobe-share-of-flatness")?;
        let wanted = limit(flat);
        let quarter = work_holding::share_of(&share, &wanted)?;
        let check = Check::judge_two(ID, (&gives, &quarter), Keep::AtMost, (&gives, &wanted), bench.guard());
        answer.check(check.about(GIVES.key).at(out.place));
        Ok(())
    }
}
