//! Is it flat as it came, how much goes, and can such readings tell?

use super::flat::Flat;
use super::keys::Lap;
use super::names::{FLAT_AFTER, FLAT_FOUND, METAL_TO_LAP, REMOVED};
use super::places::Read;
use crate::handbook::constants::constant;
use crate::handbook::cutting::stock;
use crate::handbook::materials::groups::Kind;
use crate::handbook::measuring::window;
use crate::operations::facing;
use crate::operations::turning::{self, CaseKeys};
use crate::operations::{Answer, Bench};
use crate::proof::{Check, Fact, Keep, Mark, Place, Refusal, Source, Verdict, Words, Worked};
use crate::quantity::{Kilogram, Mm, Quantity, Ratio, Unit};

/// Where what is foretold comes from.
const FORETOLD: Source = Source::fixed("foretold", Mark::Derived);

/// Whether each quarter of what the readings span was read: what lies on the middle counts to both sides.
fn every_quarter(reads: &[Read]) -> bool {
    let ends = |of: &dyn Fn(&Read) -> f64| {
        let all = reads.iter().map(of);
        (all.clone().fold(f64::INFINITY, f64::min), all.fold(f64::NEG_INFINITY, f64::max))
    };
    let ((left, right), (near, far)) = (ends(&|read| read.x), ends(&|read| read.y));
    let (x, y) = (f64::midpoint(left, right), f64::midpoint(near, far));
    // A hair off the middle is the dust of sines and cosines.
    let (dx, dy) = (1e-6 * (right - left), 1e-6 * (far - near));
    let beside = |off: f64, hair: f64, sign: f64| sign * off >= -hair;
    [-1.0, 1.0].iter().all(|across| {
        [-1.0, 1.0]
            .iter()
            .all(|along| reads.iter().any(|read| beside(read.x - x, dx, *along) && beside(read.y - y, dy, *across)))
    })
}

impl Lap {
    /// Where the readings were typed.
    pub(super) fn place(&self) -> Place {
        self.grid.as_ref().map_or(self.flat_within.place, |grid| grid.y.place)
    }

    /// Every reading at its place.
    fn reads(&self, bench: &Bench, answer: &mut Answer) -> Result<Vec<Read>, Refusal> {
        let with = self.with.as_ref();
        match (&self.grid, &self.points) {
            (Some(grid), _) => grid.reads(bench, answer, with),
            (None, Some(points)) => points.reads(bench, answer, with),
            (None, None) => Err(Refusal::NotGiven { what: "the readings of the face", key: "grid" }),
        }
    }

    pub(super) fn work_it(&self, bench: &Bench, answer: &mut Answer) -> Result<(), Refusal> {
        bench.part.material.iter().flat_map(|at| at.value.safety_without_chips()).for_each(|id| answer.caution(id));
        answer.caution("asbestos");
        self.metal_takes_it(bench, answer);
        self.out_first(bench, answer)?;
        let reads = self.reads(bench, answer)?;
        let flat = self.flat(answer, &reads)?;
        self.enough_points(answer, &reads)?;
        let lapped = self.as_found(bench, answer, &flat);
        let metal = self.metal(bench, answer, &flat, lapped)?;
        self.goes_over_the_plate(bench, answer, lapped)?;
        self.after(bench, answer, &flat, lapped)?;
        self.consequences(bench, answer, &metal)?;
        self.set_ups(bench, answer, (&reads, &flat), lapped)
    }

    /// Flat as it came: then nobody laps it. Gives whether it is lapped.
    fn as_found(&self, bench: &Bench, answer: &mut Answer, flat: &Flat) -> bool {
        let check = Check::judge("flat", &flat.found, Keep::AtMost, &(&self.flat_within).into(), bench.guard());
        let check = check.about(FLAT_FOUND.key).at(self.flat_within.place);
        let lapped = !check.is_proven();
        answer.check(check);
        let (way, why) = if lapped { ("lap-the-face", "out-of-flat") } else { ("leave-the-face", "flat-as-found") };
        answer.choose("what_is_done", Fact::named(way), Words::of(why));
        lapped
    }

    /// To the lowest place at the worst end of the doubt, and a little more; nothing where it is flat.
    fn metal(&self, bench: &Bench, answer: &mut Answer, flat: &Flat, lapped: bool) -> Result<Worked<Mm>, Refusal> {
        let stock = match &self.finish_stock {
            Some(at) => Worked::from(at),
            None => answer.assume("finish-stock", constant("lap-finish-stock")?),
        };
        let metal = match lapped {
            true => {
                let (found, doubt) = (facing::middle(&flat.found), facing::doubt_of(bench, &flat.found));
                stock::metal_to_remove(&found, &doubt, &stock)?
            }
            false => Worked::assumed(Mm::new(0.0), "flat as found: it is not lapped"),
        };
        let metal = answer.record(&METAL_TO_LAP, metal);
        let left = bench.left(&REMOVED)?;
        // Where less is gone than it was out of flat, its low places stand; mapped flat all the same, one of the readings is wrong.
        let mapped = bench.left(&FLAT_AFTER)?.is_some();
        let is_short = |gone: &&Worked<Mm>| lapped && (!mapped || gone.number() < flat.found.number());
        if let Some(gone) = left.as_ref().filter(is_short) {
            facing::deep_enough(bench, (gone, &flat.found), (REMOVED.key, self.place()), answer);
        }
        let removed = answer.record(&REMOVED, left.unwrap_or(metal));
        let check = Check::judge("too-deep", &removed, Keep::AtMost, &constant("lap-most")?, bench.guard());
        answer.check(check.about(REMOVED.key).at(self.place()));
        self.case(bench, answer, &removed)?;
        Ok(removed)
    }

    /// It is moved over the plate by two hands: no longer than such a plate lets it go, no heavier than one person lifts.
    fn goes_over_the_plate(&self, bench: &Bench, answer: &mut Answer, lapped: bool) -> Result<(), Refusal> {
        const ID: &str = "goes-over-the-plate";
        let Some(face) = self.face.as_ref().filter(|_| lapped) else {
            if lapped {
                answer.not_checked(&[ID], &["face"]);
            } else {
                answer.does_not_apply(&[ID]);
            }
            return Ok(());
        };
        let longest = if face.long.value.number() > face.wide.value.number() { &face.long } else { &face.wide };
        let (most, heaviest): (Worked<Mm>, Worked<Kilogram>) = (constant("lap-face-most")?, constant("lifting-mass")?);
        let is_long = longest.value.number() > most.number();
        let is_heavy = bench.part.mass.as_ref().is_some_and(|mass| mass.value.number() > heaviest.number());
        let verdict = if is_long || is_heavy { Verdict::Doubtful } else { Verdict::Proven };
        let check = Check::of_kind(ID, verdict).with("most", Fact::mm(most.number()));
        answer.check(check.with("heaviest", Fact::figure(heaviest.number(), Unit::Kg)).at(longest.place));
        Ok(())
    }

    /// A hard case goes by what is lapped off its high places; a face that is not lapped keeps it.
    fn case(&self, bench: &Bench, answer: &mut Answer, removed: &Worked<Mm>) -> Result<(), Refusal> {
        if removed.number() <= 0.0 {
            answer.does_not_apply(&["case"]);
            return Ok(());
        }
        let keys =
            CaseKeys { least: self.least_case.as_ref(), usual: None, removed_before: self.removed_before.as_ref() };
        turning::case_below(bench, keys, removed, answer).map(drop)
    }

    /// What is foretold of the face, or what was read of it, against what is asked; and whether the indicator is fine enough.
    fn after(&self, bench: &Bench, answer: &mut Answer, flat: &Flat, lapped: bool) -> Result<(), Refusal> {
        let within: Worked<Mm> = (&self.flat_within).into();
        let left = bench.left(&FLAT_AFTER)?;
        let planned = left.is_none();
        // Lapped, as the log says, and not mapped since: nobody lays it on the plate again before it is.
        let unmapped = planned && bench.left(&REMOVED)?.is_some();
        let foretold = || match lapped {
            true => Worked::sum(
                &[(1.0, &flat.found)],
                -flat.found.number(),
                "lapped by what was read: the doubt of the readings stays",
                FORETOLD,
            ),
            false => flat.found.clone(),
        };
        let after = answer.record(&FLAT_AFTER, left.unwrap_or_else(foretold));
        let check = Check::judge("flat-after", &after, Keep::AtMost, &within, bench.guard()).about(FLAT_AFTER.key);
        // What still stands can be lapped, as far as a face may come down at all.
        let room = constant::<Mm>("lap-most")?.number() - answer.value(REMOVED.key).map_or(0.0, |gone| gone.number);
        let check = match (planned, after.number() + after.plus_minus() <= room) {
            (true, _) if unmapped => check.judged_as(Verdict::Doubtful),
            (true, _) => check.not_worse_than(Verdict::Doubtful),
            (false, true) => check.not_worse_than(Verdict::Doubtful).unfinished(FLAT_AFTER.key),
            (false, false) => check,
        };
        let proven = check.is_proven();
        let check = answer.check(check.at(self.flat_within.place));
        if unmapped {
            check.remedy(Words::of("map-it-now"));
        } else if !planned && !proven {
            check.remedy(Words::of("lap-on"));
        }
        let doubt = Worked::assumed(Mm::new(flat.found.plus_minus()), "the doubt of how far it is out of flat");
        let quarter = window::quarter(&Worked::assumed(Mm::new(0.0), "nothing"), &within)?;
        let check = Check::judge("can-be-measured", &doubt, Keep::AtMost, &quarter, bench.guard());
        answer.check(check.not_worse_than(Verdict::Doubtful).at(self.place()));
        Ok(())
    }

    /// Enough readings, over enough of the face; of a face of which nobody says how large it is nobody knows.
    fn enough_points(&self, answer: &mut Answer, reads: &[Read]) -> Result<(), Refusal> {
        let spread = |of: &dyn Fn(&Read) -> f64| {
            let all = reads.iter().map(of);
            all.clone().fold(f64::NEG_INFINITY, f64::max) - all.fold(f64::INFINITY, f64::min)
        };
        let share = constant::<Ratio>("lap-share-of-face")?.number();
        let wide = self.face.as_ref().is_some_and(|face| {
            let over = |spread: f64, size: Mm| spread >= share * size.number();
            over(spread(&|read| read.x), face.long.value) && over(spread(&|read| read.y), face.wide.value)
        });
        let many = reads.len() as f64 >= constant::<Ratio>("lap-points-least")?.number();
        let all_over = every_quarter(reads);
        let verdict = if many && wide && all_over { Verdict::Proven } else { Verdict::Doubtful };
        answer.fact("places", reads.len().to_string());
        let check = answer.check(Check::of_kind("enough-points", verdict).at(self.place()));
        if !all_over {
            check.remedy(Words::of("a-quarter-not-read"));
        }
        if self.face.is_none() {
            check.remedy(Words::of("say-how-large"));
        }
        Ok(())
    }

    /// What stands in the face comes out first: a proud stud or liner ruins the lap.
    fn out_first(&self, bench: &Bench, answer: &mut Answer) -> Result<(), Refusal> {
        const ID: &str = "out-first";
        if let Some(proud) = &self.proud {
            let stands = answer.read_difference(bench, "proud", crate::shop::Gauge::Depth, proud)?;
            if stands.high() > 0.0 {
                let verdict = if stands.number() > 0.0 { Verdict::Fails } else { Verdict::Doubtful };
                answer.check(Check::of_kind(ID, verdict).at(proud.place));
            }
        }
        let Some(out) = &self.out_first else {
            // What stands proud fails whatever else is said.
            if !answer.checks.iter().any(|check| check.id == ID) {
                answer.not_checked(&[ID], &["out-first"]);
            }
            return Ok(());
        };
        let place = out.first().map_or(self.flat_within.place, |out| out.what.place);
        let named: Vec<String> = out
            .iter()
            .filter(|out| out.count.value > 0)
            .map(|out| format!("{} × {}", out.count.value, out.what.value))
            .collect();
        answer
            .fact("out", if named.is_empty() { Fact::named("nothing-stands-in-it") } else { named.join(", ").into() });
        answer.check(Check::of_kind(ID, Verdict::Proven).at(place));
        Ok(())
    }

    /// Metal that is lapped with loose grit: friction lining is asbestos, pores keep the grit, and bearing metal laps its shaft.
    fn metal_takes_it(&self, bench: &Bench, answer: &mut Answer) {
        let Some(metal) = &bench.part.material else { return };
        let verdict = match metal.value.kind() {
            Kind::Lining | Kind::Sintered | Kind::Plastic => Verdict::Fails,
            Kind::CopperAlloy => Verdict::Doubtful,
            _ => Verdict::Proven,
        };
        answer.check(Check::of_kind("metal-takes-it", verdict).at(metal.place));
    }
}
