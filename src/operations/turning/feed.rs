//! The feed step: as fine as the finish asks at the rough end of what a nose really leaves.

use super::edge::Edge;
use super::speed::{self, Speed};
use super::{FEED, FINISH, FINISH_EXPECTED, Piece};
use crate::handbook::constants::constant;
use crate::handbook::cutting::finish;
use crate::handbook::materials::groups::Kind;
use crate::operations::{Answer, Bench};
use crate::proof::{At, Check, Keep, Mark, Origin, Refusal, Side, Source, Verdict, Words, Worked};
use crate::quantity::{MmPerRev, Quantity, Ratio, Roughness, Rounds, Steps, Unit, figure, shown};
use crate::shop::Cutting;

/// The feed step.
pub(in crate::operations) struct Feed {
    pub step: Worked<MmPerRev>,
    /// Fed by hand: the figure is what to aim at.
    pub by_hand: bool,
}

/// The greatest step that holds the finish at the high end of the roughness ratio; where none does the greatest that holds it
/// at the middle, and that is doubtful. Never over what the nose stands.
pub(super) fn work(
    bench: &Bench,
    piece: &Piece,
    edge: &Edge,
    speed: &Speed,
    answer: &mut Answer,
) -> Result<Feed, Refusal> {
    let limit: Worked<Roughness> = match piece.asked.finish {
        Some(at) => Worked::exact(at.value.high, Origin::Typed(at.place)),
        None => answer.assume("finish", constant("finish-unknown")?),
    };
    let limit = answer.record(&FINISH, limit);
    let real = finish::real_over_ideal(&piece.cuts_as, edge.material)?;
    let by_nose = finish::feed_most(&constant("most-feed-over-nose")?, &edge.nose)?;
    let for_ratio = |ratio: &Worked<Ratio>| {
        let by_finish = finish::feed_for_ra(&limit, &edge.nose, ratio)?;
        Ok(if by_nose.number() < by_finish.number() { by_nose.clone() } else { by_finish })
    };
    let at_worst = for_ratio(&real.worst(Side::High, bench.guard()))?;
    let steps = piece.lathe.and_then(|lathe| Some((lathe, steps_of(piece, lathe)?)));
    let (step, by_hand) = match steps {
        Some((lathe, steps)) => {
            let middle = for_ratio(&real.nominal("no feed step holds the finish at the rough end of the ratio"))?;
            let held = piece.eased.feed.map(|most| held_down(most, piece, answer));
            let wishes = held.as_ref().map_or([&at_worst, &middle], |held| [held, held]);
            (feed_step(lathe, &steps.value, piece.goes_across(), wishes), false)
        }
        None => {
            answer.assume_words(Words::of(hand_fed(piece)));
            (at_worst, true)
        }
    };
    let step = answer.record(&FEED, step);
    let expected = answer.record(&FINISH_EXPECTED, finish::roughness_ra(&step, &edge.nose, &real)?);
    answer.judge(bench, "finish", &expected, Keep::AtMost, &limit).about = Some(FINISH_EXPECTED.key);
    // Under it the nose does not make the face any more: built-up edge, side flow and the machine do.
    let builds_up = speed::edge_builds_up(piece, edge, speed)?;
    let least: Worked<Roughness> = constant(match piece.cuts_as.kind() {
        _ if builds_up => "finish-least-built-up",
        Kind::HardSteel => "finish-least-hard",
        Kind::CopperAlloy | Kind::Aluminium | Kind::Magnesium | Kind::Plastic => "finish-least-soft",
        _ => "finish-least",
    })?;
    let check = Check::judge("finish", &least, Keep::AtMost, &limit, bench.guard());
    let stands = check.is_proven();
    let check = answer.check(check.not_worse_than(Verdict::Doubtful).about(FINISH_EXPECTED.key));
    if !stands {
        check.remedy(Words::of(if builds_up { "runs-too-slow-for-it" } else { "no-lathe-leaves-it" }));
    }
    Ok(Feed { step, by_hand })
}

/// The feed that the grip carries, where it carries no coarser one.
fn held_down(most: f64, piece: &Piece, answer: &mut Answer) -> Worked<MmPerRev> {
    let says = vec![format!("the grip carries this cut with no more than {} mm/rev", figure(most))];
    let source = Source::fixed("step by step down until it is carried", Mark::Own);
    let said = shown(most, None, Unit::MmPerRev, Rounds::Down, piece.print);
    answer.choose("feed_cap", said, Words::of("feed-held-down"));
    Worked::method(MmPerRev::new(most), says, source)
}

/// The feed step of the machine at or below one; none where the machine has none that way.
pub(super) fn step_at_or_below(piece: &Piece, most: f64) -> Option<f64> {
    let steps = steps_of(piece, piece.lathe?)?;
    steps.value.at_or_below(most).map(MmPerRev::number)
}

/// The feed of a blade: no finish is asked of it, the chip must be thick enough to curl and thin enough not to jam. Where grip or motor do
/// not carry it, the step under it that they carry and that still cuts a chip.
pub(super) fn of_a_blade(
    piece: &Piece,
    carries: impl Fn(&Worked<MmPerRev>) -> Result<bool, Refusal>,
    answer: &mut Answer,
) -> Result<Feed, Refusal> {
    let wish: Worked<MmPerRev> = constant("parting-feed")?;
    let steps = piece.lathe.and_then(|lathe| Some((lathe, steps_of(piece, lathe)?)));
    let (step, by_hand) = match steps {
        Some((lathe, steps)) => {
            let first = feed_step(lathe, &steps.value, true, [&wish, &wish]);
            let under = steps.value.iter().rev().filter(|step| step.number() < first.number());
            let under = under.filter(|step| step.number() >= wish.low() - 1e-9).map(|step| {
                let rule = format!("{}: the highest cross feed step that grip and motor carry", lathe.name.value);
                Worked::exact(step, Origin::Picked { rule, wanted: wish.origin().clone() })
            });
            let mut taken = first.clone();
            for step in std::iter::once(first.clone()).chain(under) {
                // Where none is carried, the finest is nearest to it.
                let is_carried = carries(&step)?;
                taken = step;
                if is_carried {
                    break;
                }
            }
            (taken, false)
        }
        None => {
            answer.assume_words(Words::of(hand_fed(piece)));
            (wish.nominal("the feed to aim at"), true)
        }
    };
    Ok(Feed { step: answer.record(&FEED, step), by_hand })
}

/// The feed steps of the machine the way that the cut goes.
fn steps_of<'a>(piece: &Piece, lathe: &'a Cutting) -> Option<&'a At<Steps<MmPerRev>>> {
    if piece.goes_across() { lathe.feeds_across.as_ref() } else { lathe.feeds_along.as_ref() }
}

/// What is assumed where the machine has no steps that way.
const fn hand_fed(piece: &Piece) -> &'static str {
    if piece.goes_across() { "hand-fed" } else { "hand-fed-along" }
}

/// The greatest step at or below the first wish that has one; else the lowest of the machine.
fn feed_step(
    lathe: &Cutting,
    steps: &Steps<MmPerRev>,
    across: bool,
    wishes: [&Worked<MmPerRev>; 2],
) -> Worked<MmPerRev> {
    let picked = |wish: &Worked<MmPerRev>, step: MmPerRev, rule: &str| {
        let (most, step_is) = (figure(wish.number()), figure(step.number()));
        let rule = format!("{}: {rule} {most} mm/rev is {step_is} mm/rev", lathe.name.value);
        Worked::exact(step, Origin::Picked { rule, wanted: wish.origin().clone() })
    };
    for wish in wishes {
        if let Some(step) = steps.at_or_below(wish.number() + 1e-9) {
            return match across {
                true => picked(wish, step, "the cross feed step at or below"),
                false => picked(wish, step, "the feed step at or below"),
            };
        }
    }
    let [wish, _] = wishes;
    let lowest = steps.lowest().unwrap_or(wish.value());
    match across {
        true => picked(wish, lowest, "no cross feed step is as low as"),
        false => picked(wish, lowest, "no feed step is as low as"),
    }
}
