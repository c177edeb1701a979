//! How it is bored: on which machine, how fast it turns and is fed, and in which cuts, each with the size that the head is set to.

use super::found::Found;
use super::keys::Bore;
use super::names::{BORED, FEED, PASSES, SPEED, SURFACE, TIME_A_PASS};
use crate::handbook::constants::constant;
use crate::handbook::cutting::speeds::{self, Work};
use crate::handbook::cutting::times;
use crate::operations::hole_making;
use crate::operations::spindle::{Begins, any_motor, slow_enough, step_at_or_below};
use crate::operations::{Answer, Bench, Cut, HeldIn, Pass, PassKind, kit, turning};
use crate::proof::{Dialled, Fact, Origin, Refusal, Verdict, Words, Worked};
use crate::quantity::{Mm, MmPerRev, Quantity, Ratio, RevPerMin};
use crate::shop::{BoringBar, Machine};

/// What it is bored with.
pub(super) struct Boring<'a> {
    /// The machine; none where the shop has none for it.
    pub machine: Option<&'a Machine>,
    /// The cuts before the last, and the last with those at its setting.
    pub cuts: Option<[Cut; 2]>,
}

impl Bore {
    /// The machine, the bar's edge, speed, feed and cuts of the piston that was chosen.
    pub(super) fn boring<'a>(
        &self,
        bench: &Bench<'a>,
        found: &Found,
        answer: &mut Answer,
    ) -> Result<Boring<'a>, Refusal> {
        // A lathe carries it on its saddle or swings it on the faceplate: neither bar nor balance of that is judged here.
        let elsewhere = |machine: &Machine| match machine {
            Machine::Lathe(_) => Verdict::Doubtful,
            _ => Verdict::Fails,
        };
        let machine = hole_making::on_a_mill(bench, self.set_up.as_ref(), elsewhere, answer);
        let none = |machine| Ok(Boring { machine, cuts: None });
        let bar = self.bar_of(bench, found.least.number())?;
        self.held(bench, bar, answer)?;
        let Some(bar) = bar else {
            answer.not_checked(&["bar-hard-enough", "spindle-too-fast"], &["bar"]);
            return none(machine);
        };
        let Some(material) = &bench.part.material else {
            answer.not_checked(&["bar-hard-enough", "spindle-too-fast"], &["material"]);
            return none(machine);
        };
        hole_making::hard_enough(
            bench,
            &material.value,
            bar.material.value,
            ("bar-hard-enough", material.place),
            answer,
        )?;
        let Some(step) = self.step(bench, bar, machine, answer)? else { return none(machine) };
        let (feed, by_hand) = feed_of(machine, answer)?;
        let fed = times::length_fed(&(&self.length).into(), &constant("approach")?, &constant("overrun")?)?;
        let once = Worked::exact(Ratio::new(1.0), Origin::Assumed("one pass".into()));
        let time = answer.record(&TIME_A_PASS, times::turning_time(&fed, &feed, &step, &once)?);
        let passes = passes(found.least.number(), answer)?;
        let cut = |passes: Vec<Pass>| Cut {
            tool: Fact::from(&bar.name.value).into(),
            spindle: Some(step.number()),
            feed: Some(feed.number()).filter(|_| !by_hand),
            minutes: time.number() * passes.len() as f64,
            passes,
        };
        Ok(Boring { machine, cuts: passes.map(|passes| passes.map(cut)) })
    }

    /// The step at or below what the edge wants in this metal; on a faceplate the lowest, until it was balanced.
    fn step(
        &self,
        bench: &Bench,
        bar: &BoringBar,
        machine: Option<&Machine>,
        answer: &mut Answer,
    ) -> Result<Option<Worked<RevPerMin>>, Refusal> {
        const ID: &str = "spindle-too-fast";
        let on_a_lathe = machine.is_some_and(|machine| machine.lathe().is_some());
        let machine = machine.and_then(|machine| machine.drills().or_else(|| machine.lathe()));
        let Some(metal) = &bench.part.material else { return Ok(None) };
        let metal = turning::cuts_as(&metal.value, bench.part.hardness.as_ref().map(|at| at.value))?;
        let inside: Worked<Ratio> = constant("speed-factor-internal")?;
        let of = |work| Begins::of(&metal, (work, bar.material.value), inside.clone());
        let begins = of(Work::TurnFinish).or_else(|_| of(Work::TurnRough))?;
        let bored = answer.value(BORED.key).map_or(self.nominal.value.number(), |bored| bored.number);
        let bored = Worked::exact(Mm::new(bored), Origin::Assumed("as it is bored".into()));
        let Some(machine) = machine else {
            match bench.shop {
                None => answer.no_shop(&[ID]),
                Some(_) => answer.not_checked(&[ID], &["mill"]),
            }
            return Ok(None);
        };
        // On a lathe it turns itself, whatever bolts it down; so it does on a faceplate.
        let swung = self.hold.as_ref().is_some_and(|hold| hold.held_in.value == HeldIn::Faceplate);
        let lowest = machine.spindle.value.lowest().filter(|_| swung || on_a_lathe);
        let step = match lowest {
            Some(lowest) => {
                let lowest = Worked::exact(lowest, Origin::Assumed("on the faceplate, until it was balanced".into()));
                let step = step_at_or_below(machine, &lowest, ID, answer);
                slow_enough(&step, &lowest, ID, bench, answer);
                step
            }
            None => begins.step((bench, machine), &bored, ID, any_motor, answer)?,
        };
        answer.record(&SURFACE, speeds::surface_speed(&step, &bored)?);
        Ok(Some(answer.record(&SPEED, step)))
    }
}

/// The feed step at or below what leaves little for the hone to find, and whether it is fed by hand for want of one.
fn feed_of(machine: Option<&Machine>, answer: &mut Answer) -> Result<(Worked<MmPerRev>, bool), Refusal> {
    let wish: Worked<MmPerRev> = constant("cylinder-boring-feed")?;
    let steps = match machine {
        Some(Machine::Mill(mill)) => mill.feeds_quill.as_ref(),
        Some(Machine::Lathe(lathe)) => lathe.feeds_along.as_ref(),
        _ => None,
    };
    let step = kit::feed_step(steps, &wish);
    let by_hand = step.is_none();
    if by_hand {
        answer.assume_words(Words::of("fed-by-hand"));
    }
    Ok((answer.record(&FEED, step.unwrap_or(wish)), by_hand))
}

/// As few cuts as keep each inside what is bored finely at once, two at least, all alike; the last again at its setting. None
/// where nothing is left to bore.
fn passes(least: f64, answer: &Answer) -> Result<Option<[Vec<Pass>; 2]>, Refusal> {
    let Some(bored) = answer.value(BORED.key).map(|bored| bored.number) else { return Ok(None) };
    let deep = (bored - least) / 2.0;
    if deep <= 0.0 {
        return Ok(None);
    }
    let most = constant::<Mm>("cylinder-boring-most-depth")?.number();
    let count = (deep / most - 1e-9).ceil().max(2.0);
    let set_to = |cut: f64| match cut < count {
        // Hundredths: as fine as a head is set before it is measured what it cut.
        true => ((least + 2.0 * deep * cut / count) * 1e2).round() / 1e2,
        false => bored,
    };
    // A small whole number.
    let count = count as u32;
    let pass = |at: u32| {
        let (from, to) = (if at == 1 { least } else { set_to(f64::from(at - 1)) }, set_to(f64::from(at)));
        let kind = if at + 1 < count { PassKind::Rough } else { PassKind::Finish };
        Pass {
            kind,
            depth: (to - from) / 2.0,
            dial: Some(Dialled::Size { to_mm: to, more_mm: to - from }),
            leaves: None,
        }
    };
    let again = answer.value(PASSES.key).map_or(1.0, |passes| (passes.number - 1.0).max(1.0)) as usize;
    let spring = Pass { kind: PassKind::Spring, depth: 0.0, dial: Some(Dialled::Same), leaves: None };
    let early: Vec<Pass> = (1..count).map(pass).collect();
    let last = std::iter::once(pass(count)).chain(std::iter::repeat_n(spring, again)).collect();
    Ok(Some([early, last]))
}
