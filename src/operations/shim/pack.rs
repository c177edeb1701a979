//! Which pack: every one that the drawer gives is looked at, the best are shown beside each other, and one is taken.

use super::bare::{Bare, aim_of};
use super::frost::Frost;
use super::keys::Shim;
use super::names::{AS_ONE, LEFT, LOOKED_AT, OFF_AIM, PACK, RUNNING, TO_ORDER, WANTED, WORST_HIGH, WORST_LOW};
use crate::handbook::constants::constant;
use crate::handbook::measuring::packs::{Found, Group, Kind, Pack};
use crate::handbook::measuring::{stack, window};
use crate::operations::kit;
use crate::operations::linked::{self, Linked};
use crate::operations::{Answer, Bench};
use crate::proof::{Cause, Check, Fact, Keep, Mark, Origin, Place, Refusal, Source, Verdict, Words, Worked};
use crate::quantity::{Mm, Quantity, Ratio, Shift};
use crate::shop::{ShimStock, Shop};

/// Shims of the drawer as they count: the thickness with its doubt, and whether it was measured.
pub(super) struct Stock {
    pub(super) thickness: Worked<Mm>,
    /// What stands on it, mm.
    marked: Option<f64>,
    measured: bool,
    count: u32,
}

impl Stock {
    /// How far a shim as it was measured is off these, mm.
    pub(super) fn off(&self, shim: &Worked<Mm>) -> f64 {
        (self.thickness.number() - shim.number()).abs()
    }

    /// Whether there are more of them than so many.
    pub(super) fn has_more_than(&self, taken: usize) -> bool {
        self.count as usize > taken
    }
}

/// The pack that was taken.
pub(super) struct Taken {
    /// How thick it is.
    pub(super) thick: Worked<Mm>,
    /// Its shims from the hard face to the one that turns, mm.
    pub(super) shims: Vec<f64>,
}

/// What the pack is judged with.
pub(super) struct Judged<'a> {
    pub(super) bare: &'a Bare,
    pub(super) growth: Option<&'a Worked<Shift>>,
    /// What the coldest takes from it; none where nothing grows otherwise than another, or nobody says that it gets warm at all.
    pub(super) frost: Option<&'a Frost>,
    pub(super) aim: &'a Worked<Shift>,
}

/// How many packs are shown beside each other.
pub(super) const SHOWN: usize = 3;

/// Where a pack's thickness comes from.
pub(super) const PILE: Source = Source::fixed("shims of one instrument share its doubt", Mark::Derived);

/// The shims of a stock with what their thickness is worth.
fn stock(shop: &Shop, stock: &ShimStock) -> Result<Option<Stock>, Refusal> {
    let known = kit::shim_thickness(shop, stock)?;
    let marked = stock.marked.as_ref().map(|marked| marked.value.number());
    Ok(known.map(|(thickness, measured)| Stock { thickness, marked, measured, count: stock.count.value }))
}

/// What shims have in common with each other and with the float.
#[derive(Clone, Copy, PartialEq)]
enum Shared {
    /// An instrument of which nobody knows what its readings share.
    Whole(Place),
    /// What all readings of an instrument share.
    Known(Cause),
}

fn shared(cause: Cause) -> Option<Shared> {
    match cause {
        Cause::Read(_, _, instrument) => Some(Shared::Whole(instrument)),
        Cause::Instrument(_) => Some(Shared::Known(cause)),
        _ => None,
    }
}

/// The drawer as plain numbers, and what the float without shims has in each group of doubt.
pub(super) fn plainly(bare: &Worked<Shift>, stocks: &[Stock]) -> (Vec<Kind>, Vec<Group>, f64) {
    let mut groups: Vec<Shared> = Vec::new();
    let mut kinds = Vec::new();
    for stock in stocks {
        let mut kind = Kind {
            thickness: stock.thickness.number(),
            count: stock.count,
            measured: stock.measured,
            shares: Vec::new(),
            own: 0.0,
        };
        for (cause, share) in stock.thickness.shares() {
            match shared(*cause) {
                Some(group) => {
                    let at = groups.iter().position(|known| *known == group).unwrap_or(groups.len());
                    if at == groups.len() {
                        groups.push(group);
                    }
                    kind.shares.push((at, *share));
                }
                None => kind.own = kind.own.hypot(*share),
            }
        }
        kinds.push(kind);
    }
    let of = |group: &Shared| -> Group {
        let own: Vec<f64> = bare.shares().iter().filter(|s| shared(s.0) == Some(*group)).map(|s| s.1).collect();
        let (sum, squares) = (own.iter().sum(), own.iter().map(|share| share * share).sum());
        Group { sum, squares, together: matches!(group, Shared::Known(_)) }
    };
    let groups: Vec<Group> = groups.iter().map(of).collect();
    let in_groups = |group: &Group| {
        let together = group.sum * group.sum;
        if group.together { together } else { together.max(group.squares) }
    };
    let rest = bare.plus_minus().powi(2) - groups.iter().map(in_groups).sum::<f64>();
    (kinds, groups, rest.max(0.0))
}

impl Shim {
    /// The drawer's shims, in its order; nothing where there is no shop.
    pub(super) fn stocks(bench: &Bench) -> Result<Option<Vec<Stock>>, Refusal> {
        let Some(shop) = bench.shop else { return Ok(None) };
        let all = shop.drawers.shims.iter().map(|each| stock(shop, each)).collect::<Result<Vec<_>, _>>()?;
        Ok(Some(all.into_iter().flatten().collect()))
    }

    /// The most shims in a pack: as typed, else the shop's habit, else the usual.
    fn most(&self, bench: &Bench, answer: &mut Answer) -> Result<u32, Refusal> {
        let habit = || bench.shop?.habits.most_shims.as_ref();
        if let Some(most) = self.pack.most.as_ref().or_else(habit) {
            return Ok(most.value);
        }
        let usual = constant::<Ratio>("shims-in-a-pack-most")?;
        Ok(answer.assume("most-shims", usual).number() as u32)
    }

    /// Looks through the drawer, shows the best packs and takes the first.
    pub(super) fn choose_pack(&self, bench: &Bench, answer: &mut Answer, on: &Judged) -> Result<Taken, Refusal> {
        let wanted = answer.record(&WANTED, stack::pack_wanted(&on.bare.float, on.aim)?);
        self.to_order(bench, answer, on, &wanted)?;
        let Some(stocks) = Self::stocks(bench)? else { return self.without_a_drawer(bench, answer, on, &wanted) };
        let found = self.looked_through(bench, answer, on, &stocks)?;
        let looked_at = Ratio::new(found.looked_at as f64);
        let counted = vec!["every pack that the drawer gives".into()];
        answer.record(&LOOKED_AT, Worked::method(looked_at, counted, Source::fixed("counted", Mark::Derived)));
        for pack in &found.packs {
            let (name, pile) = (named(pack, &stocks), pile(pack, &stocks));
            answer.alternative(bench, name, |bench, row| {
                self.judge_pack(bench, row, on, &pile, pack.measured).map(|_| self.thin_alone(row, pack, &stocks))
            });
        }
        for row in &mut answer.alternatives {
            row.why_not = Some(Words::of("further-from-the-aim"));
        }
        // The search goes by the float cold and warm; of the few best it is the one that stands the frost surest.
        let surest = answer.alternatives.iter().enumerate().min_by_key(|(at, row)| (row.answer.verdict(), *at));
        let surest = surest.map_or(0, |(at, _)| at);
        answer.choose_alternative(surest);
        self.more_shims(bench, answer, on, (&stocks, &found))?;
        let Some(best) = found.packs.get(surest) else {
            return Ok(Taken { thick: Worked::assumed(Mm::new(0.0), "no pack"), shims: Vec::new() });
        };
        answer.choose(
            "pack",
            named(best, &stocks),
            Words::of(if best.measured { "nearest-aim" } else { "marked-only" }),
        );
        let shims = self.in_order(best, &stocks);
        answer.fact("stack", as_marked(&shims, &stocks));
        if best.verdict == Verdict::Fails {
            let size = answer.value(TO_ORDER.key).map(|value| value.number);
            if let Some(size) = size {
                answer.missing.push(Words::of("a-pack-of").with("size", Fact::mm(size)));
            }
        }
        let drawers = bench.shop.iter().map(|shop| &shop.drawers);
        answer.takes.extend(drawers.flat_map(|drawers| drawers.take_shims(&best.shims)));
        let pack = pile(best, &stocks);
        if best.shims.len() > 1
            && let Some(first) = best.shims.first().and_then(|at| stocks.get(*at))
        {
            let one = Worked::sum(&[(1.0, &first.thickness)], pack.number() - first.thickness.number(), "as one", PILE);
            let left = stack::float_left(&on.bare.float, &one)?;
            answer.record(
                &AS_ONE,
                Worked::assumed(
                    Mm::new(left.plus_minus()),
                    "the pack measured as one, with what measured its first shim",
                ),
            );
        }
        Ok(Taken { thick: pack, shims })
    }

    /// Every pack that the drawer gives, the best first.
    pub(super) fn looked_through(
        &self,
        bench: &Bench,
        answer: &mut Answer,
        on: &Judged,
        stocks: &[Stock],
    ) -> Result<Found, Refusal> {
        let most = self.most(bench, answer)?;
        let found = self.searched(bench, on, stocks, most)?;
        if found.most < most {
            answer.assume_words(Words::of("fewer-in-a-pack").with("value", found.most.to_string()));
        }
        Ok(found)
    }

    /// Nobody knows a drawer: a pack of just the thickness wanted, to be found.
    fn without_a_drawer(
        &self,
        bench: &Bench,
        answer: &mut Answer,
        on: &Judged,
        wanted: &Worked<Shift>,
    ) -> Result<Taken, Refusal> {
        let thick = Worked::assumed(Mm::new(wanted.number().max(0.0)), "a pack of just what is wanted, to be found");
        let thick = thick.with_doubt(
            Cause::Named("a pack that was not measured yet"),
            constant::<Mm>("shim-marked-doubt")?.number(),
        );
        self.judge_pack(bench, answer, on, &thick, false)?;
        answer.not_checked(&["thin-alone"], &["pack.thin"]);
        let says = Words::of("no-drawer");
        answer.choose("pack", Fact::mm(thick.number()), says);
        answer.fact("stack", Fact::mm(thick.number()));
        let shims = Some(thick.number()).into_iter().filter(|shim| *shim > 0.0).collect();
        Ok(Taken { thick, shims })
    }

    /// What a pack leaves, cold and warm, against the limits.
    pub(super) fn judge_pack(
        &self,
        bench: &Bench,
        row: &mut Answer,
        on: &Judged,
        pack: &Worked<Mm>,
        measured: bool,
    ) -> Result<(), Refusal> {
        let pack = row.record(&PACK, pack.clone());
        let left = row.record(&LEFT, stack::float_left(&on.bare.float, &pack)?);
        row.record(&OFF_AIM, Worked::sum(&[(1.0, &left), (-1.0, on.aim)], 0.0, "the float left less the aim", PILE));
        let as_link = Linked { name: String::new(), by: -1.0, size: pack.clone(), place: self.float.place };
        let links: Vec<Linked> = on.bare.links.iter().cloned().chain([as_link]).collect();
        let reach = if on.bare.links.is_empty() { left.plus_minus() } else { linked::all_off(&links).number() };
        let at_once = |end: f64| {
            Worked::method(
                Shift::new(end),
                vec!["every reading off at once".into()],
                Source::fixed("sum", Mark::Derived),
            )
        };
        row.record(&WORST_LOW, at_once(left.number() - reach));
        row.record(&WORST_HIGH, at_once(left.number() + reach));
        self.judge_float(bench, row, "float", &left, measured);
        if let Some(found) = &on.bare.found {
            self.as_it_was_found(bench, row, &stack::float_left(found, &pack)?);
        }
        match on.growth {
            Some(growth) => {
                let terms = [(1.0, &left), (1.0, growth)];
                let running = Worked::sum(&terms, 0.0, "the float cold, and what warmth adds", PILE);
                let running = row.record(&RUNNING, running);
                self.judge_float(bench, row, "running", &running, measured);
            }
            None => self.not_seen_warm(row, on, &left)?,
        }
        self.judge_frost(bench, row, (&left, on.frost));
        Ok(())
    }

    /// Where warmth was typed and nothing says what grows by it, or nobody said either, nobody knows how the float runs.
    pub(super) fn not_seen_warm(&self, answer: &mut Answer, on: &Judged, left: &Worked<Shift>) -> Result<(), Refusal> {
        match &self.warm {
            Some(_) => {
                let check = Check::of_kind("running", Verdict::Doubtful).at(self.float.place);
                answer.check(check).remedy(Words::of("say-what-grows"));
            }
            None if self.chain.is_empty() || self.grows_unlike() || self.apart_matters(on, left)? => {
                let check = Check::of_kind("running", Verdict::Doubtful).at(self.float.place);
                let check = answer.check(check);
                check.remedy(Words::of("say-how-warm-it-runs"));
                if self.chain.is_empty() || self.chain.iter().any(|link| link.material.is_none()) {
                    check.remedy(Words::of("say-what-grows"));
                }
            }
            None => answer.not_checked(&["running"], &["warm"]),
        }
        Ok(())
    }

    /// Whether the float that is left would miss its limits where all is of one metal, and the shaft runs warmer than its case, or cooler.
    fn apart_matters(&self, on: &Judged, left: &Worked<Shift>) -> Result<bool, Refusal> {
        let by = self.grown_apart(&on.bare.links)?;
        let limits = &self.float.value;
        Ok(left.number() - by < limits.low.number() || left.number() + by > limits.high.number())
    }

    /// A float against both limits.
    pub(super) fn judge_float(
        &self,
        bench: &Bench,
        row: &mut Answer,
        id: &'static str,
        float: &Worked<Shift>,
        measured: bool,
    ) {
        let end = |end: Shift| Worked::exact(end, Origin::Typed(self.float.place));
        let key = if id == "running" { RUNNING.key } else { LEFT.key };
        let limits = [(Keep::AtLeast, self.float.value.low), (Keep::AtMost, self.float.value.high)];
        for (keep, limit) in limits {
            let check = Check::judge(id, float, keep, &end(limit), bench.guard()).about(key).at(self.float.place);
            let check = row.check(if measured { check } else { check.not_better_than(Verdict::Doubtful) });
            if key == RUNNING.key && !check.is_proven() && self.grows_by_what_nobody_named() {
                check.remedy(Words::of("say-what-grows"));
            }
        }
    }

    /// The float that is left by the float as it was found: where that may miss the limits it is in doubt, however little is known of the
    /// links.
    fn as_it_was_found(&self, bench: &Bench, row: &mut Answer, left: &Worked<Shift>) {
        let limits = [(Keep::AtLeast, self.float.value.low), (Keep::AtMost, self.float.value.high)];
        for (keep, limit) in limits {
            let end = Worked::exact(limit, Origin::Typed(self.float.place));
            let check = Check::judge("float", left, keep, &end, bench.guard()).about(LEFT.key).at(self.float.place);
            row.check(check.not_worse_than(Verdict::Doubtful));
        }
    }

    /// Whether a thin shim can stand where nothing turns against it.
    fn thin_alone(&self, row: &mut Answer, pack: &Pack, stocks: &[Stock]) {
        const ID: &str = "thin-alone";
        let thick: Vec<f64> = pack.shims.iter().filter_map(|at| Some(stocks.get(*at)?.thickness.number())).collect();
        let thin = self.thin();
        if thick.iter().all(|shim| *shim >= thin) {
            row.does_not_apply(&[ID]);
            return;
        }
        self.thick_enough(row, thick.iter().copied().fold(0.0, f64::max));
    }

    /// Whether the thickest shim of a pack can stand against what turns.
    pub(super) fn thick_enough(&self, row: &mut Answer, thickest: f64) {
        let thin = self.thin();
        let verdict = if thickest >= thin { Verdict::Proven } else { Verdict::Doubtful };
        row.check(Check::of_kind("thin-alone", verdict).at(self.float.place).with("thin", Fact::mm(thin)));
    }

    fn thin(&self) -> f64 {
        let usual = || constant::<Mm>("shim-thin").map_or(0.0, |thin| thin.number());
        self.pack.thin.as_ref().map_or_else(usual, |thin| thin.value.number())
    }

    /// The shims as they go in, from the hard face to the turning one: the thickest at the hard face, one that is not thin
    /// against what turns, thin ones between.
    fn in_order(&self, pack: &Pack, stocks: &[Stock]) -> Vec<f64> {
        let mut order: Vec<f64> =
            pack.shims.iter().filter_map(|at| Some(stocks.get(*at)?.thickness.number())).collect();
        let thick = order.iter().filter(|shim| **shim >= self.thin()).count();
        // Of one thick shim alone: against what turns. Of more: the last of them.
        if let Some(last) = thick.checked_sub(1) {
            let last = order.remove(last);
            order.push(last);
        }
        order
    }

    /// Whether the doubt of the float is a quarter of its window, and whose doubt it is.
    pub(super) fn measurable(
        &self,
        bench: &Bench,
        answer: &mut Answer,
        on: &Judged,
        (pack, left): (&Worked<Mm>, &Worked<Shift>),
    ) -> Result<(), Refusal> {
        let nothing = Worked::assumed(Mm::new(0.0), "nothing");
        let wide = self.float.value.high.number() - self.float.value.low.number();
        let quarter = window::quarter(&nothing, &Worked::exact(Mm::new(wide), Origin::Typed(self.float.place)))?;
        let shims = Linked { name: "shims".into(), by: -1.0, size: pack.clone(), place: self.float.place };
        let links: Vec<Linked> = on.bare.links.iter().cloned().chain([shims]).collect();
        let dearest =
            if on.bare.links.is_empty() { None } else { linked::dearest(answer, &links, Some(quarter.number())) };
        let doubt = Worked::assumed(Mm::new(left.plus_minus()), "the doubt of the float that is left");
        let check = Check::judge("can-be-measured", &doubt, Keep::AtMost, &quarter, bench.guard());
        let as_one = answer.value(AS_ONE.key).map(|value| value.number);
        let mut check = check.not_worse_than(Verdict::Doubtful).at(self.float.place);
        if let Some(dearest) = dearest {
            check.remedy(dearest.remedy());
        }
        // The float was read itself: what is left is a finer gauge.
        if on.bare.links.is_empty() && !check.is_proven() {
            check.remedy = None;
            check.remedy(Words::of("finer-float"));
        }
        if let Some(as_one) = as_one.filter(|as_one| *as_one <= quarter.number()) {
            check.remedy(Words::of("pack-as-one").with("doubt", Fact::mm(as_one)));
        }
        answer.check(check);
        Ok(())
    }

    /// What is aimed at, on record as assumed where nobody said it.
    pub(super) fn aimed_at(&self, answer: &mut Answer) -> Worked<Shift> {
        let aim = aim_of(self);
        if self.aim.is_none() {
            answer.assume("aim-middle", aim.clone());
        }
        aim
    }
}

/// Thicknesses in a row.
fn series(all: impl Iterator<Item = f64>) -> Fact {
    kit::shims_as_marked(&all.collect::<Vec<_>>()).unwrap_or_else(|| Fact::named("no-shim"))
}

/// Shims by what stands on them, which is what a hand looks for in the drawer; where they measure otherwise that beside it.
fn as_marked(shims: &[f64], stocks: &[Stock]) -> Fact {
    let mark = |thickness: &f64| {
        let own = stocks.iter().find(|stock| (stock.thickness.number() - thickness).abs() < 1e-9);
        own.and_then(|stock| stock.marked).unwrap_or(*thickness)
    };
    let marks: Vec<f64> = shims.iter().map(mark).collect();
    if marks == shims {
        return series(shims.iter().copied());
    }
    let words = Words::of("marked-and-measured").with("marked", series(marks.into_iter()));
    words.with("measured", series(shims.iter().copied())).into()
}

/// A pack by its thicknesses, the thickest first.
pub(super) fn named(pack: &Pack, stocks: &[Stock]) -> Fact {
    series(pack.shims.iter().filter_map(|at| Some(stocks.get(*at)?.thickness.number())))
}

/// A pack as one figure: shims of one stock are one reading, those of one instrument share its doubt.
pub(super) fn pile(pack: &Pack, stocks: &[Stock]) -> Worked<Mm> {
    let mut terms: Vec<(f64, &Worked<Mm>)> = Vec::new();
    let mut last = None;
    for at in &pack.shims {
        match terms.last_mut().filter(|_| last == Some(*at)) {
            Some(term) => term.0 += 1.0,
            None => terms.extend(stocks.get(*at).map(|stock| (1.0, &stock.thickness))),
        }
        last = Some(*at);
    }
    Worked::sum(&terms, 0.0, "shims laid together", PILE)
}
