//! Two set-ups at the bench: the face mapped on three points, then lapped, washed and mapped again.

use super::consequences::LEAST_READ;
use super::flat::Flat;
use super::keys::{Across, Joint, Lap};
use super::map::{LAP_IT, MAP_IT, picture};
use super::names::{AREA, CLEARANCE_AFTER, COMPRESSION_AFTER, FLAT_AFTER, FLAT_FOUND, REMOVED, SET_DOWN_AFTER};
use super::places::Read;
use crate::handbook::constants::constant;
use crate::handbook::materials::groups::Kind;
use crate::handbook::{StateKind, set_up_minutes};
use crate::operations::Limits;
use crate::operations::kit::{self, found, mm};
use crate::operations::{Answer, Bench, Blank, Drawer, HoldPoint, Pull, SetUp, Station, Target};
use crate::proof::{Fact, Refusal, Words};
use crate::quantity::{Decimals, Mm, Quantity, Ratio, Rounds, Unit};
use crate::shop::Gauge;

/// Decimals of a millimetre that an indicator of a workshop is read to.
const PLACES: i32 = 3;
/// Places at which the height is taken before and after.
const HEIGHTS: usize = 3;
/// What the metal that is lapped off takes from, millimetre for millimetre.
const TAKEN_BY_LAPPING: [&str; 4] = ["too-deep", "case", "squish", "set-down"];

impl Lap {
    pub(super) fn set_ups(
        &self,
        bench: &Bench,
        answer: &mut Answer,
        (reads, flat): (&[Read], &Flat),
        lapped: bool,
    ) -> Result<(), Refusal> {
        let mut map = SetUp::at(MAP_IT, Station::Bench);
        // All heights are read from one nought: a map that is broken off begins again.
        map.pause = false;
        map.hold.push(Words::of("on-three-points").into());
        map.step(if self.out_first.is_some() { "take-out-first" } else { "look-what-stands-proud" });
        map.step("wash-the-face").step("stand-on-three-points").step("map-the-face");
        map.takes(self.mapping(reads)?);
        map.needs = kit::of_part(bench, &[StateKind::Washed]);
        map.leaves = kit::of_part(bench, &[StateKind::StudsOut]);
        answer.picture = Some(picture(reads, flat, self.grid.is_some()));
        let line = kit::blank("flat-found", None, None);
        map.blanks.push(Blank { as_found: found(answer, FLAT_FOUND.key), ..line });
        if lapped {
            answer.set_ups.push(map);
            return self.lap_it(bench, answer, (reads, flat));
        }
        map.step("put-back");
        map.leaves.push(kit::of_this(bench, StateKind::Flat));
        answer.set_ups.push(map);
        Ok(())
    }

    /// Minutes of a map.
    fn mapping(&self, reads: &[Read]) -> Result<f64, Refusal> {
        Ok(reads.len() as f64 * set_up_minutes::start("joint face, one place of a map")?)
    }

    /// The grits in working order: the coarse one only where much must go.
    fn grits(&self, flat: &Flat) -> Result<Vec<f64>, Refusal> {
        let grit = |name| constant::<Ratio>(name).map(|grit| grit.number());
        let (coarse, middle, fine) = (grit("lap-grit-coarse")?, grit("lap-grit-middle")?, grit("lap-grit-fine")?);
        let much = flat.found.number() > constant::<Mm>("lap-coarse-over")?.number();
        let own = self.grits.as_ref().map(|own| own.iter().map(|at| f64::from(at.value)).collect::<Vec<_>>());
        let all = own.unwrap_or_else(|| vec![coarse, middle, fine]);
        let taken: Vec<f64> = all.iter().copied().filter(|grit| much || *grit >= middle).collect();
        Ok(if taken.is_empty() { all.last().copied().into_iter().collect() } else { taken })
    }

    fn lap_it(&self, bench: &Bench, answer: &mut Answer, (reads, flat): (&[Read], &Flat)) -> Result<(), Refusal> {
        let grits = self.grits(flat)?;
        let named: Vec<String> = grits.iter().map(|grit| format!("{grit:.0}")).collect();
        answer.fact("grits", named.join(", "));
        let mut set_up = SetUp::at(LAP_IT, Station::Bench);
        set_up.hold.push(Words::of("by-its-own-weight").into());
        let gone = self.gone_so_far(bench, answer);
        // No more than may be gone; what is planned stands in the step.
        let most = gone.as_ref().and_then(|(_, gone)| gone.limits.most.clone()).map(Target::UpTo);
        let may_nothing_go = gone.as_ref().is_some_and(|(most, _)| *most <= 0.0);
        match gone {
            _ if may_nothing_go => {
                set_up.step(if self.short_of_set_down(answer) { "lap-nothing-yet" } else { "lap-nothing-as-known" });
            }
            hold => {
                set_up.step("heights-before").step("lap-with-grit");
                set_up.hold_at(Words::of("heights-between"), hold.map(|(_, hold)| hold));
            }
        }
        set_up.step("wash-every-grain");
        set_up.hold_at(Words::of("map-again"), self.map_again(bench, answer, reads));
        if self.inserts.as_ref().is_some_and(|inserts| !inserts.is_empty()) {
            set_up.step("measure-the-set-down");
        }
        set_up.step("put-back");
        let minutes = set_up_minutes::start("joint face, lapping with one grit")?;
        set_up.takes(minutes * grits.len() as f64 + self.mapping(reads)?);
        set_up.needs = kit::of_part(bench, &[StateKind::StudsOut]);
        set_up.leaves = vec![kit::of_this(bench, StateKind::Flat), kit::of_this(bench, StateKind::Lapped)];
        if self.bores_across.as_ref().is_some_and(|across| across.value == Across::BoredAfter) {
            set_up.leaves.push(kit::of_this(bench, StateKind::JointLapped));
        }
        if self.joint.as_ref().is_some_and(|joint| joint.value == Joint::Base) {
            set_up.leaves.push(kit::of_this(bench, StateKind::BaseLapped));
        }
        // Every grain is washed off before it is mapped again.
        set_up.leaves.extend(kit::of_part(bench, &[StateKind::Washed]));
        set_up.warns(&["grit-everywhere"]);
        let kind = bench.part.material.as_ref().map(|at| at.value.kind());
        if matches!(kind, Some(Kind::Aluminium | Kind::Magnesium | Kind::CopperAlloy | Kind::Sintered) | None) {
            set_up.warns(&["grit-in-soft-metal"]);
        }
        if kind == Some(Kind::Magnesium) {
            // Lapping makes nothing but fines.
            set_up.warns(&["magnesium-fines"]);
        }
        set_up.pulls.push(Pull { drawer: Drawer::Abrasives, item: Words::of("loose-grit"), count: 1 });
        let line = kit::blank("flat-after", found(answer, FLAT_FOUND.key), None);
        let target = Some(Target::UpTo(mm(self.most_read(bench, answer))));
        set_up.blanks.push(kit::read_with(Blank { target, ..line }.left_as(&FLAT_AFTER), 1, bench, Gauge::Indicator));
        let removed = kit::blank("removed-at-three-places", None, found(answer, REMOVED.key));
        let target = most.or(removed.target).filter(|_| !may_nothing_go);
        set_up.blanks.push(Blank { readings: HEIGHTS, target, ..removed }.left_as(&REMOVED));
        // As deep as it was fitted it may stand; what is lapped off it may not pass the least.
        let least = answer.facts.iter().find(|fact| fact.0 == LEAST_READ).map(|fact| fact.1.clone());
        if let Some((left, least)) = answer.value(SET_DOWN_AFTER.key).zip(least) {
            let most = left.band.map_or(left.number, |band| band.1) + left.plus_minus;
            let most = mm(most).to(Decimals::Exactly(3)).rounded(Rounds::Down);
            let target = Some(Target::Between(least, most)).filter(|_| !may_nothing_go);
            set_up.blanks.push(Blank { target, ..kit::blank("set-down-left", None, None) });
        }
        answer.set_ups.push(set_up);
        Ok(())
    }

    /// What may be read so that the face is sure to be flat: what is allowed less the doubt of reading it.
    fn most_read(&self, bench: &Bench, answer: &Answer) -> f64 {
        kit::most_to_read(self.flat_within.value.number(), Self::doubt_of_reading(bench, answer))
    }

    fn doubt_of_reading(bench: &Bench, answer: &Answer) -> f64 {
        answer.value(FLAT_FOUND.key).map_or(0.0, |found| found.plus_minus) * bench.guard() / 2.0
    }

    /// What may be gone by any grit, mm: a face that is not flat by then is not lapped on. Where that is nothing, nothing is lapped.
    fn gone_so_far(&self, bench: &Bench, answer: &Answer) -> Option<(f64, HoldPoint)> {
        let removed = answer.value(REMOVED.key)?.number;
        // What each of these has to spare goes as the metal does, and as it may be misread.
        let spared = answer.checks.iter().filter(|check| TAKEN_BY_LAPPING.contains(&check.id));
        let spared = spared.filter_map(|check| Some(check.judged?.margin));
        let spared = spared.chain(self.spared_by_compression(answer)).reduce(f64::min).unwrap_or(0.0);
        let gauge = kit::gauge_used(bench, removed, Gauge::Indicator, false);
        let doubt = gauge.doubt.unwrap_or(0.0) * bench.guard() / 2.0;
        let most = removed + spared - doubt;
        let limits = Limits::asked((None, Some(most)), PLACES, Unit::Mm);
        Some((most, HoldPoint::asking(REMOVED.key, HEIGHTS, gauge.name, limits).then("not-flat-by-then")))
    }

    /// Whether it is the set-down of an insert that has least to spare, and not enough.
    fn short_of_set_down(&self, answer: &Answer) -> bool {
        let taken = answer.checks.iter().filter(|check| TAKEN_BY_LAPPING.contains(&check.id));
        let margins = taken.filter_map(|check| Some((check.id, check.judged?.margin)));
        margins.min_by(|one, other| one.1.total_cmp(&other.1)).is_some_and(|(id, _)| id == "set-down")
    }

    /// How much more may go before the compression is too high, mm: (V + V_c)/V_c rises by V/V_c^2 for each volume lost.
    fn spared_by_compression(&self, answer: &Answer) -> Option<f64> {
        let margin = answer.checks.iter().find(|check| check.id == "compression")?.judged?.margin;
        let number = |key: &str| answer.value(key).map(|value| value.number);
        let (left, area) = (number(CLEARANCE_AFTER.key)? * 1e3, number(AREA.key)?);
        let swept = (number(COMPRESSION_AFTER.key)? - 1.0) * left;
        // By the steepest that it comes to on the way.
        let least = swept / (swept / left + margin.max(0.0));
        Some(margin * least * left / swept / area)
    }

    fn map_again(&self, bench: &Bench, answer: &Answer, reads: &[Read]) -> HoldPoint {
        let named = self.with.as_ref().map(|name| Fact::from(&name.value));
        let used = kit::gauge_used(bench, self.flat_within.value.number(), Gauge::Indicator, false).name;
        let limits = Limits::asked((None, Some(self.most_read(bench, answer))), PLACES, Unit::Mm);
        let says = kit::cannot_decide(self.flat_within.value.number(), Self::doubt_of_reading(bench, answer));
        HoldPoint::asking(FLAT_AFTER.key, reads.len(), named.unwrap_or(used), limits).saying(says)
    }
}
