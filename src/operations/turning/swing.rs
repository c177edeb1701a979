//! Whether the part clears the bed as it turns, the jaws as far out as they stand.

use crate::handbook::constants::{constant, row};
use crate::handbook::cutting::work_holding as holding;
use crate::operations::{Answer, HeldIn, Hold};
use crate::proof::{At, Check, Fact, Keep, Mark, Refusal, Source, Verdict, Words, Worked};
use crate::quantity::{Decimals, Mm, Quantity};
use crate::shop::Cutting;

/// The diameter that must clear the bed; none where the chuck's is not known.
pub(super) fn asked(outside: &Worked<Mm>, hold: Option<&Hold>, lathe: &Cutting) -> Result<Option<Worked<Mm>>, Refusal> {
    let clearance = constant("swing-clearance")?;
    let swings = hold.and_then(|hold| hold.swings.as_ref()).map(Worked::<Mm>::from);
    let outside = swings.as_ref().filter(|at| at.number() > outside.number()).unwrap_or(outside);
    let in_jaws = hold.is_none_or(|hold| hold.held_in.value.jaws().is_some());
    let (gripped, chuck) = if in_jaws {
        let Some(chuck) = super::grip::chuck_of(lathe, hold).and_then(|chuck| chuck.diameter.as_ref()) else {
            return Ok(None);
        };
        let gripped = hold.and_then(|hold| hold.diameter.as_ref()).map(Worked::from);
        (gripped.unwrap_or_else(|| outside.clone()), Worked::from(chuck))
    } else {
        let none = || Worked::method(Mm::new(0.0), vec!["no jaws".into()], Source::fixed("geometry", Mark::Derived));
        (none(), plate_of(lathe, hold).map_or_else(none, Worked::from))
    };
    holding::swing_asked(outside, &gripped, &constant("jaw-room-share")?, &chuck, &clearance).map(Some)
}

/// The diameter of the faceplate, where it is bolted to that and the shop says.
fn plate_of<'a>(lathe: &'a Cutting, hold: Option<&Hold>) -> Option<&'a At<Mm>> {
    let plate = hold.is_some_and(|hold| hold.held_in.value.on_a_lathe() == HeldIn::Faceplate);
    lathe.faceplate.as_ref().filter(|_| plate)?.diameter.as_ref()
}

/// Judges whether a part clears the bed that somebody else's work holds, or centres: by its own diameter alone.
pub(in crate::operations) fn part_alone(
    outside: &Worked<Mm>,
    lathe: &Cutting,
    guard: f64,
    answer: &mut Answer,
) -> Result<(), Refusal> {
    let Some(there) = &lathe.swing else {
        answer.not_checked(&["swing"], &["swing of the machine"]);
        return Ok(());
    };
    let none = Worked::method(Mm::new(0.0), vec!["no jaws".into()], Source::fixed("geometry", Mark::Derived));
    let (room, clearance) = (constant("jaw-room-share")?, constant("swing-clearance")?);
    let asked = holding::swing_asked(outside, &none, &room, &none, &clearance)?;
    answer.check(Check::judge("swing", &asked, Keep::AtMost, &there.into(), guard));
    Ok(())
}

/// Judges whether work that is turned along clears the cross slide, which comes under it as the carriage goes; and whether what stands
/// further out beside it does, where the slide may be kept clear of it.
pub(in crate::operations) fn over_the_slide(
    (outside, beside): (&Worked<Mm>, &Worked<Mm>),
    length: &Worked<Mm>,
    lathe: Option<&Cutting>,
    guard: f64,
    answer: &mut Answer,
) -> Result<(), Refusal> {
    const ID: &str = "clears-the-slide";
    let is_beside = beside.number() > outside.number();
    if length.number() <= row("slide-under-work-from")?.value && !is_beside {
        answer.does_not_apply(&[ID]);
        return Ok(());
    }
    // Without a lathe it was said that the swing is not judged.
    let Some(lathe) = lathe else {
        answer.not_checked(&[ID], &["lathe"]);
        return Ok(());
    };
    let typed = lathe.swing_over_slide.as_ref().map(Worked::<Mm>::from);
    let there = match (&typed, &lathe.swing) {
        (Some(typed), _) => typed.clone(),
        (None, Some(swing)) => {
            let share = row("swing-over-slide-share")?.value;
            Worked::from(swing).scaled(share, "a share of the swing over the bed")
        }
        (None, None) => {
            answer.not_checked(&[ID], &["swing-over-slide of the machine"]);
            return Ok(());
        }
    };
    let clearance: Worked<Mm> = constant("swing-clearance")?;
    let judged = |of: &Worked<Mm>| {
        let source = Source::fixed("the work, and room about it", Mark::Derived);
        let asked = Worked::sum(&[(1.0, of), (1.0, &clearance)], 0.0, "the work, and room about it", source);
        Check::judge(ID, &asked, Keep::AtMost, &there, guard)
    };
    let (check, of_beside) = (judged(outside), judged(beside));
    if is_beside && check.is_proven() && !of_beside.is_proven() {
        if typed.is_none() {
            answer.assume("over-the-slide", there);
        }
        answer.check(of_beside.not_worse_than(Verdict::Doubtful)).remedy(Words::of("tool-out-of-the-slide"));
        return Ok(());
    }
    if typed.is_some() {
        answer.check(check);
        return Ok(());
    }
    if !check.is_proven() {
        answer.assume("over-the-slide", there);
    }
    answer.check(check.not_worse_than(Verdict::Doubtful));
    Ok(())
}

/// Judges the swing.
pub(in crate::operations) fn judge(
    outside: &Worked<Mm>,
    hold: Option<&Hold>,
    lathe: &Cutting,
    guard: f64,
    answer: &mut Answer,
) -> Result<(), Refusal> {
    let asked = asked(outside, hold, lathe)?;
    let (Some(asked), Some(there)) = (&asked, &lathe.swing) else {
        let mut missing = Vec::new();
        missing.extend(lathe.swing.is_none().then_some("swing of the machine"));
        let four = hold.is_some_and(|hold| hold.held_in.value == HeldIn::FourJaw);
        missing.extend(asked.is_none().then_some(if four { "four-jaw.diameter" } else { "chuck.diameter" }));
        answer.not_checked(&["swing"], &missing);
        return Ok(());
    };
    if hold.is_none_or(|hold| hold.held_in.value.jaws().is_some() && hold.diameter.is_none()) {
        answer.assume("gripped", outside.clone());
    }
    let told = hold.is_some_and(|hold| hold.swings.is_some());
    let check = Check::judge("swing", asked, Keep::AtMost, &there.into(), guard);
    // What is bolted to a plate is seldom round: somebody must say how far it reaches.
    let on_a_plate = hold.filter(|hold| hold.held_in.value.on_a_lathe() == HeldIn::Faceplate);
    if check.is_proven() && on_a_plate.is_some() && !told {
        answer.not_checked(&["swing"], &["hold.swings"]);
        return Ok(());
    }
    if on_a_plate.is_none() && !told {
        let gripped = hold.and_then(|hold| hold.diameter.as_ref()).map_or(0.0, |at| Worked::<Mm>::from(at).number());
        let reaches = Fact::figure(outside.number().max(gripped), Mm::UNIT).to(Decimals::AsTyped);
        answer.assume_words(Words::of("reaches-no-further").with("value", reaches));
    }
    answer.check(check);
    Ok(())
}
