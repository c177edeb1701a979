//! One sheet set as its page holds it: its zones as they stand on the paper, and where something has no room, closer: steps go on
//! under what is measured, cautions stand under the steps, and the zone of the sketch leaves the steps what it can spare.

use super::block::Block;
use super::filled::{LOWEST, Laid, Shares, Top, stack};
use super::flow::{Section, fitting};
use super::zones::Zones;
use super::{Fault, Sheet, beside, by_pencil, lists, picture, sketch, words};
use crate::sheet::page::{Page, Rect};

/// By how much the zone of a sketch may be lower for the steps, mm.
const LOWER: [f64; 4] = [6.0, 12.0, 18.0, 24.0];
/// A sketch of more items fills its zone.
const CROWDED: usize = 24;
/// So much smaller a sketch may be for it: one scale.
const ONE_SCALE: f64 = 0.4;

impl Laid {
    /// Whether all that belongs on its page stands there.
    pub(super) fn is_whole(&self) -> bool {
        self.pages.len() == 1 && self.lacks == 0 && self.named == 0 && self.behind.1 == 0
    }

    /// Whether less of it gave way.
    pub(super) fn is_better_than(&self, other: &Self) -> bool {
        let of = |laid: &Self| (laid.pages.len(), laid.behind.0, laid.lacks, laid.named, laid.behind.1);
        of(self) < of(other)
    }
}

impl Top {
    /// Whether its sketch says all that another says, at least `share` as large; and where that is no smaller what stands beside it too.
    fn says_as_much(&self, other: &Self, share: f64) -> bool {
        let beside = |top: &Self| top.beside.before_steps.len() + top.beside.with_verdict.len();
        self.over.is_empty()
            && self.drawn.apart.is_none()
            && self.drawn.left_out == other.drawn.left_out
            && self.drawn.factor >= other.drawn.factor * share - 1e-9
            && (share < 1.0 || beside(self) <= beside(other))
    }
}

impl Sheet<'_> {
    /// The zones of the first page filled; what overflows goes on: rather in what room others leave on that page than overleaf.
    pub(super) fn zoned(&self) -> Result<Laid, Fault> {
        let top = self.top(0.0)?;
        let too_high = || Fault::TooHigh { sheet: self.id(), part: words::CAUTIONS };
        let mut best = self.set(&top)?.ok_or_else(too_high)?;
        // A picture in the place of a sketch may be another in less room.
        let is_sketch = picture::in_place_of_sketch(self).is_empty();
        let may_be_lower = is_sketch && !self.may_not_be_cut() && top.drawn.apart.is_none() && top.over.is_empty();
        for lower in LOWER.into_iter().filter(|_| may_be_lower) {
            if !self.is_set_again(&best) || top.zones.sketch.height() - lower < LOWEST {
                break;
            }
            // To draw a sketch takes longest: first what would come of it.
            let would = self.beneath(&top, lower).and_then(|as_it_is| self.set(&as_it_is)).ok().flatten();
            if !would.is_some_and(|would| would.is_better_than(&best)) {
                continue;
            }
            let Ok(lowered) = self.top(lower) else { continue };
            // For what only gives way the sketch is no smaller; where it would be it is so in less room too.
            let goes_on = best.pages.len() > 1 || best.behind.0;
            if !lowered.says_as_much(&top, if goes_on { ONE_SCALE } else { 1.0 }) {
                if goes_on {
                    continue;
                }
                break;
            }
            if let Ok(Some(laid)) = self.set(&lowered)
                && laid.is_better_than(&best)
            {
                best = laid;
            }
        }
        Ok(best)
    }

    /// Whether what gives way is worth setting the sheet again: for less than a page nobody draws a crowded sketch again, which is smaller
    /// in any less room.
    pub(super) fn is_set_again(&self, laid: &Laid) -> bool {
        let items = self.set_up.map_or(0, |set_up| set_up.sketch.items.len());
        laid.pages.len() > 1 || laid.behind.0 || (!laid.is_whole() && items <= CROWDED)
    }

    /// The pages under such a top, set closer where they must be.
    fn set(&self, top: &Top) -> Result<Option<Laid>, Fault> {
        let Some(mut best) = self.laid(top, Shares::default())? else { return Ok(None) };
        let free = best.free;
        self.closer(top, &mut best);
        self.findings_whole(top, free, &mut best);
        Ok(Some(best))
    }

    /// A top in zones so much lower as another, with the sketch that this has, mm.
    fn beneath(&self, top: &Top, lower: f64) -> Result<Top, Fault> {
        let zones = self.lower(lower);
        let drawn = top.drawn.clone();
        let beside = self.beside(&drawn, &zones)?;
        Ok(Top { page: Page::new(self.paper), zones, drawn, beside, over: top.over.clone() })
    }

    /// The zones of a first page, those of the sketch and what stands beside it so much lower, mm.
    fn lower(&self, lower: f64) -> Zones {
        let mut zones = Zones::of(self.paper);
        zones.sketch.bottom -= lower;
        zones.beside.bottom -= lower;
        zones.cuts.top -= lower;
        zones
    }

    /// What stands beside a sketch.
    fn beside(&self, drawn: &sketch::Drawn, zones: &Zones) -> Result<beside::Beside, Fault> {
        let beside = beside::beside(self, &drawn.balloons, &drawn.left_out, zones.beside);
        beside.map_err(|fault| self.letters(words::HOLD, fault))
    }

    /// Sets what goes on overleaf closer, as long as it does.
    fn closer(&self, top: &Top, best: &mut Laid) {
        let shared = |shares: Shares, best: &mut Laid| -> Option<bool> {
            let laid = self.laid(top, shares).ok().flatten()?;
            let steps_stand = laid.steps_stand;
            if laid.is_better_than(best) {
                *best = laid;
            }
            Some(steps_stand)
        };
        if best.pages.len() == 1 {
            return;
        }
        let stand = shared(Shares { below: true, cautions: 0 }, best);
        if stand != Some(true) {
            return;
        }
        for cautions in 1..=lists::cautions(self).len() {
            if best.pages.len() == 1 || shared(Shares { below: true, cautions }, best).is_none() {
                return;
            }
        }
    }

    /// Findings that have no room in a page stand there where cautions stand under its steps, or where the verdict begins where what is
    /// measured ends. So many mm are free under the steps.
    fn findings_whole(&self, top: &Top, free: f64, best: &mut Laid) {
        for below in [false, true] {
            if best.pages.len() > 1 || best.named == 0 {
                return;
            }
            let try_with = |cautions: usize, best: &mut Laid| -> Option<(bool, f64)> {
                let laid = self.laid(top, Shares { below, cautions }).ok().flatten()?;
                let (is_better, free) = (laid.is_better_than(best), laid.free);
                if is_better {
                    *best = laid;
                }
                Some((is_better, free))
            };
            let free = if below { try_with(0, best).map_or(0.0, |made| made.1) } else { free };
            // Where as many cautions as have room there bring nothing, fewer bring no more.
            let most = self.cautions_in(top, free);
            if most == 0 {
                continue;
            }
            let Ok(Some(all)) = self.laid(top, Shares { below, cautions: most }) else { continue };
            if !all.is_better_than(best) {
                continue;
            }
            for cautions in 1..most {
                if best.named == 0 || try_with(cautions, best).is_none() {
                    break;
                }
            }
            if all.is_better_than(best) {
                *best = all;
            }
        }
    }

    /// How many of the cautions have room in so many mm under the steps.
    fn cautions_in(&self, top: &Top, free: f64) -> usize {
        let (all, wide) = (lists::cautions(self), top.zones.cuts.width());
        let has_room = |moved: &usize| {
            let (_, under) = all.split_at(all.len() - moved);
            let made = lists::cautions_apart(under, wide).ok().flatten();
            made.is_some_and(|(bar, rows)| bar.height + lists::high(&rows) <= free)
        };
        (1..=all.len()).take_while(has_room).last().unwrap_or(0)
    }

    /// The sketch and what stands beside it, in zones so much lower, mm.
    fn top(&self, lower: f64) -> Result<Top, Fault> {
        let zones = self.lower(lower);
        let (mut page, mut over) = (Page::new(self.paper), Vec::new());
        let mut zone = picture::zone(self);
        zone.bottom -= lower;
        let drawn = self.sketch_zone(&mut page, zone, &mut over)?;
        let mut beside = self.beside(&drawn, &zones)?;
        let area = page.area("beside", zones.beside);
        stack(&mut page, area, zones.beside.left, zones.beside.top, std::mem::take(&mut beside.rows));
        Ok(Top { page, zones, drawn, beside, over })
    }

    /// The sketch in its zone. Where it cannot be drawn the zone says so.
    fn sketch_zone(&self, page: &mut Page, zone: Rect, over: &mut Vec<Section>) -> Result<sketch::Drawn, Fault> {
        let area = page.area("sketch", zone);
        let notes = lists::notes(&self.notes, zone.width()).map_err(|fault| self.letters(words::NOTE, fault))?;
        // What must not be made is not drawn as made.
        let is_made_later = self.may_not_be_cut() && self.number > 1;
        let pictures = picture::in_place_of_sketch(self);
        if self.sketched && !pictures.is_empty() && !is_made_later {
            return picture::draw_in_place(self, &pictures, (page, area, zone)).map_err(|fault| self.sketch(fault));
        }
        let has = self.sketched && self.set_up.is_some_and(|set_up| !set_up.sketch.items.is_empty());
        if !has || is_made_later {
            let mut notes = notes;
            let is_blank = self.set_up.is_some() && notes.is_empty();
            if is_blank {
                let why =
                    if is_made_later { words::DRAWN_WHERE_IT_FAILS.into() } else { words::not_drawn(self.plan.print) };
                let said = lists::notes(&[why], zone.width());
                notes = said.map_err(|fault| self.letters(words::NOTE, fault))?;
            }
            let (now, later) = parted(notes, zone.height());
            let under = zone.top + now.iter().map(|row| row.height).sum::<f64>();
            stack(page, area, zone.left, zone.top, now);
            if is_blank && !is_made_later {
                by_pencil::frame(page, area, (zone, under), self.plan.print);
            }
            over.extend((!later.is_empty()).then_some(Section { name: words::NOTE, bar: None, rows: later }));
            return Ok(sketch::Drawn::default());
        }
        sketch::draw(self, page, area, zone).map_err(|fault| self.sketch(fault))
    }
}

/// Rows that fit a height, and the others.
fn parted(mut rows: Vec<Block>, height: f64) -> (Vec<Block>, Vec<Block>) {
    let later = rows.split_off(fitting(&rows, height, false));
    (rows, later)
}
