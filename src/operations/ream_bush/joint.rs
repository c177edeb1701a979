//! The joint: pressure, stresses, close-in, forces.

use super::bore::Finished;
use super::sizes::Sizes;
use super::*;
use crate::handbook::joints::fits::{Grade, tolerance};
use crate::handbook::materials::groups::Kind;
use crate::handbook::{constants::constant, joints::{press, reaming}};
use crate::proof::{Cause, Keep, Mark, Source};
use crate::shop::Gauge;

/// The joint once the bush is in.
pub(super) struct Joint {
    /// Bore after pressing.
    pub pressed: Worked<Mm>,
    pub close_in: Worked<Mm>,
    /// Elastic close-in over interference.
    pub share: Worked<Ratio>,
}

/// What walls and metals make of an interference.
struct Walls<'a> {
    d: &'a Worked<Mm>,
    outside: &'a Worked<Mm>,
    bore: Worked<Mm>,
    gives: Worked<Ratio>,
    opens: Worked<Ratio>,
    e_bush: Worked<Stress>,
    e_housing: Worked<Stress>,
    full_yield: Option<Worked<Stress>>,
}

impl<'a> Walls<'a> {
    fn of(metals: &Metals, d: &'a Worked<Mm>, outside: &'a Worked<Mm>, bore: &Worked<Mm>) -> Result<Self, Refusal> {
        let bore = plain(bore);
        let gives = press::bush_gives(d, &bore, &metals.bush.poisson()?)?;
        let opens = press::housing_gives(d, outside, &metals.housing.poisson()?)?;
        let (e_bush, e_housing) = (metals.bush.modulus()?, metals.housing.modulus()?);
        let full_yield = metals.bush.yield_low().ok().map(|re| press::full_plastic(&re, d, &bore)).transpose()?;
        Ok(Self { d, outside, bore, gives, opens, e_bush, e_housing, full_yield })
    }

    /// Elastic pressure; no interference, no pressure.
    fn pressure(&self, interference: &Worked<Shift>) -> Result<Worked<Stress>, Refusal> {
        press::joint_pressure(
            &not_negative(interference),
            self.d,
            &self.gives,
            &self.e_bush,
            &self.opens,
            &self.e_housing,
        )
    }

    /// Pressure, not more than the bush can bear.
    fn capped(&self, elastic: Worked<Stress>) -> Worked<Stress> {
        match &self.full_yield {
            Some(cap) if elastic.number() > cap.number() => cap.clone(),
            _ => elastic,
        }
    }

    /// Close-in at an interference: elastic, or beyond full yield with the band of what goes into the bore.
    fn close_in(&self, interference: &Worked<Shift>) -> Result<Worked<Mm>, Refusal> {
        let elastic = self.pressure(interference)?;
        let Some(cap) = self.full_yield.as_ref().filter(|cap| elastic.number() > cap.number()) else {
            return press::close_in(&elastic, self.d, &self.bore, &self.e_bush);
        };
        let at_cap = press::close_in(cap, self.d, &self.bore, &self.e_bush)?;
        let reached =
            press::interference_for_pressure(cap, self.d, &self.gives, &self.e_bush, &self.opens, &self.e_housing)?;
        let most = press::plastic_share_most(self.d, &self.bore)?;
        let least = Worked::assumed(Ratio::new(1.0), "all of it goes into the bore, none into length");
        let middle = (most.number() + 1.0) / 2.0;
        let line = format!("between 1 and {:.3}: {middle:.3}", most.number());
        let share = Worked::method(Ratio::new(middle), vec![line], Source::fixed("volume kept", Mark::Derived));
        let with = |share: &Worked<Ratio>| press::close_in_plastic(&at_cap, share, interference, &reached);
        let (low, high) = (with(&least)?.number(), with(&most)?.number());
        Ok(with(&share)?.with_band(low, high))
    }
}

fn not_negative(interference: &Worked<Shift>) -> Worked<Shift> {
    if interference.number() >= 0.0 { interference.clone() } else { interference.end(0.0, "no interference") }
}

impl ReamBush {
    /// Works the joint and judges it.
    pub(super) fn joint(
        &self,
        bench: &Bench,
        metals: &Metals,
        sizes: &Sizes,
        finished: &Finished,
        answer: &mut Answer,
    ) -> Result<Joint, Refusal> {
        let (d, outside) = (plain(&sizes.d), plain(&sizes.housing_outside));
        let settled = settled_to_worst(sizes);
        let bore = match &self.bush.bore {
            Some(at) => answer.read(bench, "bush bore", Gauge::Inside, at)?,
            None => self.bore_to_make(bench, metals, (&d, &outside), &settled, finished, answer)?,
        };
        let bore = answer.record(&BUSH_BORE, bore);
        let walls = Walls::of(metals, &d, &outside, &bore)?;
        let elastic = walls.pressure(&settled)?;
        let nominal = answer.record(&PRESSURE_NOMINAL, walls.capped(elastic.clone()));
        let worst = walls.pressure(&sizes.most)?;
        let most = answer.record(&PRESSURE, walls.capped(worst.clone()));
        let least = walls.capped(walls.pressure(&sizes.least)?);
        let least = answer.record(&PRESSURE_MIN, least);
        self.bush_yield(bench, metals, &walls, (&elastic, &worst), answer)?;
        self.housing_stress(bench, metals, &walls, (&nominal, &most), answer)?;
        let close_in = answer.record(&CLOSE_IN, walls.close_in(&settled)?);
        let share = walls.elastic_share()?;
        let share = answer.record(&CLOSE_IN_SHARE, share);
        let mut pressed = press::bore_pressed(&bore, &close_in)?;
        if let Some((low, high)) = close_in.band() {
            pressed = pressed.with_band(bore.number() - high, bore.number() - low);
        }
        let pressed = answer.record(&BORE_PRESSED, pressed);
        answer.record(&BOSS_GROWTH, press::boss_growth(&nominal, &d, &outside, &walls.e_housing)?);
        self.forces(bench, sizes, (&nominal, &most, &least), answer)?;
        Ok(Joint { pressed, close_in, share })
    }

    /// The bore that leaves the stock after pressing: pressing closes it by what depends on that bore, so it is worked until
    /// it stands still.
    fn bore_to_make(
        &self,
        bench: &Bench,
        metals: &Metals,
        (d, outside): (&Worked<Mm>, &Worked<Mm>),
        settled: &Worked<Shift>,
        finished: &Finished,
        answer: &mut Answer,
    ) -> Result<Worked<Mm>, Refusal> {
        let by_hand = self.by() == By::Hand;
        let aim = match self.forbids(metals) {
            Some(_) => Worked::assumed(Mm::new(0.0), "it is not reamed"),
            None => plain(&reaming::stock(metals.bush.kind(), finished.middle.number(), by_hand)?.aim),
        };
        let aim = answer.assume("stock-aimed-at", aim);
        let middle = plain(&finished.middle);
        let nothing = Worked::assumed(Mm::new(0.0), "not pressed yet");
        let mut bore = press::bore_to_make(&middle, &aim, &nothing)?;
        for _ in 0..ROUNDS {
            let close_in = Walls::of(metals, d, outside, &bore)?.close_in(&plain(settled))?;
            bore = press::bore_to_make(&middle, &aim, &close_in)?;
        }
        let half = tolerance(Grade::Number(7), bore.number())? / 2000.0;
        answer.fact("bore_tolerance", mm(half).plus_minus());
        Ok(answer.record(&BORE_TO_MAKE, bore.with_doubt(Cause::Named("the bore to make"), half)))
    }

    /// Up to first yield the bush is elastic and proven; between first and full yield the elastic figures are doubtful; beyond,
    /// the joint presses no harder and the rest goes into the bore.
    fn bush_yield(
        &self,
        bench: &Bench,
        metals: &Metals,
        walls: &Walls,
        (elastic, worst): (&Worked<Stress>, &Worked<Stress>),
        answer: &mut Answer,
    ) -> Result<(), Refusal> {
        let pressure = walls.capped(worst.clone());
        let mut hoop = press::hoop_bush_bore(&pressure, walls.d, &walls.bore)?;
        if let (Ok(re), Some(full)) = (metals.bush.yield_low(), &walls.full_yield) {
            let first = answer.record(&FIRST_YIELD, press::first_yield(&re, &walls.bore, walls.d)?);
            let full = answer.record(&FULL_YIELD, full.clone());
            let at_first = press::interference_for_pressure(
                &first,
                walls.d,
                &walls.gives,
                &walls.e_bush,
                &walls.opens,
                &walls.e_housing,
            )?;
            answer.record(&YIELD_INTERFERENCE, at_first);
            let check = Check::judge("bush-yield", elastic, Keep::AtMost, &first, bench.guard());
            let check = check.not_worse_than(Verdict::Doubtful).at(self.bush.length.place);
            answer.check(check).remedy(Words::of("less-interference")).remedy(Words::of("trust-the-measured-bore"));
            if worst.number() > full.number() {
                hoop = re.end(-re.number(), "yields all through, in compression");
                answer.check(Check::of_kind("bush-plastic", Verdict::Doubtful));
            }
        } else {
            answer.assume_words(Words::of("no-yield-of-bush"));
        }
        answer.record(&HOOP_BUSH, hoop);
        Ok(())
    }

    /// A ductile housing by Tresca, grey iron by a share of its tensile strength.
    fn housing_stress(
        &self,
        bench: &Bench,
        metals: &Metals,
        walls: &Walls,
        (nominal, most): (&Worked<Stress>, &Worked<Stress>),
        answer: &mut Answer,
    ) -> Result<(), Refusal> {
        let hoop = press::hoop_housing_bore(most, walls.d, walls.outside)?;
        answer.record(&HOOP_HOUSING, hoop);
        let hoop = press::hoop_housing_bore(nominal, walls.d, walls.outside)?;
        let (check, got, limit) = if metals.housing.kind() == Kind::GreyIron {
            let most = press::iron_hoop_most(&constant("grey-iron-hoop-share")?, &metals.housing.tensile_low()?)?;
            ("housing-iron", hoop, most)
        } else {
            let Ok(limit) = metals.housing.yield_low() else {
                answer.assume_words(Words::of("no-yield-of-housing"));
                return Ok(());
            };
            ("housing-stress", press::tresca(&hoop, nominal)?, limit)
        };
        let check = Check::judge(check, &got, Keep::AtMost, &limit, bench.guard()).at(self.housing.outside.place);
        answer.check(check).remedy(Words::of("less-interference")).remedy(Words::of("support-the-boss"));
        Ok(())
    }

    fn forces(
        &self,
        bench: &Bench,
        sizes: &Sizes,
        (nominal, most, least): (&Worked<Stress>, &Worked<Stress>, &Worked<Stress>),
        answer: &mut Answer,
    ) -> Result<(), Refusal> {
        let force = |mu: &'static str, p: &Worked<Stress>| -> Result<Worked<Newton>, Refusal> {
            press::press_force(&plain(&constant(mu)?), p, &plain(&sizes.d), &plain(&sizes.length))
        };
        let greatest = force("friction-press-sizing", most)?;
        let end = greatest.number();
        let greatest = match constant::<Ratio>("friction-press-sizing")?.band() {
            Some((low, high)) => greatest.with_band(end * low / high, end),
            None => greatest,
        };
        let greatest = answer.record(&PRESS_FORCE, greatest);
        answer.record(&PRESS_FORCE_NOMINAL, force("friction-press-nominal", nominal)?);
        let holding = answer.record(&HOLDING_FORCE, force("friction-holding", least)?);
        answer.record(&SLIP_TORQUE, press::slip_torque(&holding, &plain(&sizes.d))?);
        let Some(shop) = bench.shop else {
            answer.assume_words(Words::of("press-not-checked"));
            return Ok(());
        };
        let named = self.set_up.as_ref().and_then(|wish| wish.machine.as_ref()).and_then(|at| shop.machine(&at.value));
        let press = named.and_then(|machine| machine.press()).or_else(|| shop.machines.iter().find_map(|m| m.press()));
        match press {
            None => {
                answer.missing.push(Words::of("press"));
                answer.check(Check::of_kind("press-in-shop", Verdict::Doubtful));
            }
            Some(press) => match &press.most {
                None => answer.assume_words(Words::of("press-force-unknown").with("press", &press.name.value)),
                Some(at) => {
                    let check = Check::judge("press-force", &greatest, Keep::AtMost, &at.into(), bench.guard()).about(PRESS_FORCE.key);
                    // What drops in warm needs the press only if it stops half way.
                    let worst = if self.assembles() == Assemble::Press { Verdict::Fails } else { Verdict::Doubtful };
                    let check = check.not_worse_than(worst).with("press", &press.name.value);
                    answer.check(check).remedy(Words::of("warm-and-chill")).remedy(Words::of("borrow-a-press"));
                }
            },
        }
        Ok(())
    }
}

/// Rounds after which a bore to make stands still: each mends the last by a hundred.
const ROUNDS: u32 = 8;

/// The settled interference with the doubt that reaches up to the greatest: readings and loss are not averaged, for the loss is
/// a rule of thumb.
fn settled_to_worst(sizes: &Sizes) -> Worked<Shift> {
    let left = not_negative(&plain(&sizes.left));
    let up = sizes.most.number() - left.number();
    left.with_doubt(Cause::Named("interference"), up)
}

impl Walls<'_> {
    /// Elastic close-in over interference: the same for every interference.
    fn elastic_share(&self) -> Result<Worked<Ratio>, Refusal> {
        let unit = Worked::assumed(Shift::new(0.01), "a hundredth, to see how much of it reaches the bore");
        let close_in = press::close_in(&self.pressure(&unit)?, self.d, &self.bore, &self.e_bush)?;
        press::close_in_share(&close_in, &unit)
    }
}
