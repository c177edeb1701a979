//! `chain`: a gap that several sizes open and close, and whose doubt matters in it.

use super::linked::{self, Linked};
use super::{Answer, Bench, Declared, LinkShare, Links, Operation, Picture, SetUpWish};
use crate::handbook::Material;
use crate::handbook::measuring::{stack, window};
use crate::job::{Address, PartFacts, Reading};
use crate::names;
use crate::proof::{At, Check, CheckRule, Fact, Keep, Origin, Refusal, Verdict, Words, Worked};
use crate::quantity::{Mm, Quantity, Ratio, Shift, Wanted};
use crate::reading::Problem;
use schemars::JsonSchema;
use serde::Deserialize;

names! { pub(super),
    GAP: Shift = new("gap", "what the links leave").comes();
    LIMITS_WORST: Mm = new("limits_worst", "how far limits let it go, every link at its bad one");
    ROOT: Mm = new("root_sum_square", "the same by the root of the sum of squares: shown, never judged");
    ALL_OFF: Mm = new("worst_case", "how far it would be off with every link off the bad way at once: shown, never judged");
    SHARE: Ratio = new("dearest_share", "share of the dearest link in the squared doubt");
    SAVES: Mm = new("halve_saves", "by how much the doubt falls where that of the dearest link is halved");
    QUARTER: Mm = upper("quarter_of_window", "what the doubt may be: a quarter of the window");
}

/// A link: a size, and how it counts.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
struct Link {
    /// What it is.
    link: At<String>,
    /// How often it counts, with its sign; left out, once, opening (the first link alone may leave it out).
    by: Option<At<Ratio>>,
    /// Its size as read.
    size: Option<At<Reading>>,
    /// Its limits, where it is not made yet; left out, its `size` is given.
    limits: Option<At<Wanted<Mm>>>,
    /// What it is made of, where it was read warm; left out, as the part.
    material: Option<At<Material>>,
}

/// A gap that sizes in a row open and close.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Chain {
    /// What the gap is; left out, the sheet says `the gap`.
    of: Option<At<String>>,
    /// What is wanted of it (limits; negative is an overlap).
    wanted: Option<At<Wanted<Shift>>>,
    /// The links, two or more.
    links: Vec<Link>,
    /// Name, feature, remark; left out, none.
    set_up: Option<SetUpWish>,
}

impl Link {
    fn by(&self) -> f64 {
        self.by.as_ref().map_or(1.0, |by| by.value.number())
    }

    /// The link worked: as read, or between its limits.
    fn worked(&self, bench: &Bench, answer: &mut Answer) -> Result<Linked, Refusal> {
        let size = match (&self.size, &self.limits) {
            (Some(size), _) => {
                let (name, metal) = (&self.link.value, self.material.as_ref());
                // Something that stands out of a face stands out more as that is lapped.
                let typed = linked::Typed { name, size, metal, by: self.by(), wrong: Verdict::Doubtful };
                linked::read(bench, answer, "links.size", &typed)?
            }
            (None, Some(limits)) => {
                let (low, high) = (limits.value.low.number(), limits.value.high.number());
                Worked::exact(Mm::new((low + high) / 2.0), Origin::Typed(limits.place)).with_band(low, high)
            }
            (None, None) => return Err(Refusal::NotGiven { what: "the size of a link", key: "links.size" }),
        };
        Ok(Linked { name: self.link.value.clone(), by: self.by(), size, place: self.link.place })
    }

    fn problems(&self, all: &mut Vec<Problem>) {
        match (&self.size, &self.limits) {
            (Some(size), None) => linked::problems(size, self.material.as_ref(), all),
            (None, Some(limits)) if limits.value.low.number() <= 0.0 => {
                all.push(Problem::new(limits.place, "the limits of a link are above zero"));
            }
            (Some(size), Some(_)) => {
                all.push(Problem::new(size.place, "a link has a `size` as read, or `limits`: one of the two"));
            }
            (None, _) => {}
        }
        if let Some(by) = self.by.as_ref().filter(|by| by.value.number() == 0.0) {
            all.push(Problem::new(by.place, "a link that counts nought is none: leave it out"));
        }
    }
}

impl Chain {
    /// The links with their shares of the doubt.
    fn picture(&self, links: &[Linked]) -> Picture {
        let all = self.links.iter().zip(links).zip(linked::shares(links));
        let link = |((typed, link), share): ((&Link, &Linked), f64)| LinkShare {
            name: link.name.clone(),
            by: link.by,
            size: link.size.number(),
            doubt: link.size.plus_minus(),
            limits: typed.size.is_none().then(|| link.size.band()).flatten(),
            share,
        };
        let ends = |at: &At<Wanted<Shift>>| (at.value.low.number(), at.value.high.number());
        Picture::Links(Box::new(Links {
            gap: GAP.key,
            wanted: self.wanted.as_ref().map(ends),
            links: all.map(link).collect(),
        }))
    }

    /// The sizes that other operations leave.
    fn of_others(&self) -> impl Iterator<Item = &At<Address>> {
        self.links.iter().filter_map(|link| match &link.size.as_ref()?.value {
            Reading::Of(address) => Some(address),
            Reading::Size { .. } => None,
        })
    }

    /// What limits let it go, and the root of their squares beside it.
    fn limits(&self, answer: &mut Answer) -> Result<(), Refusal> {
        let nothing = || Worked::assumed(Mm::new(0.0), "no limits yet");
        let (mut worst, mut root) = (nothing(), nothing());
        for (link, limits) in self.links.iter().filter_map(|link| Some((link, link.limits.as_ref()?))) {
            let half = Mm::new((limits.value.high.number() - limits.value.low.number()) / 2.0);
            let half = Worked::exact(half, Origin::Typed(limits.place));
            let by = Worked::exact(Ratio::new(link.by().abs()), Origin::Typed(link.link.place));
            worst = stack::and_limits(&worst, &by, &half)?;
            root = stack::and_squares(&root, &by, &half)?;
        }
        if self.links.iter().any(|link| link.limits.is_some()) {
            answer.record(&LIMITS_WORST, worst);
            answer.record(&ROOT, root);
        }
        Ok(())
    }

    /// Whether what some links open is closed by others. A link that does not say so opens, and is named: the first may leave it out,
    /// it begins the gap; of any other, and where nothing closes, it may have been forgotten.
    fn signs(&self, answer: &mut Answer) {
        let silent = || self.links.iter().filter(|link| link.by.is_none());
        if silent().next().is_some() {
            let names = silent().map(|link| Fact::from(&link.link.value)).collect();
            answer.assume_words(Words::of("counts-once-opening").with("links", Fact::Series(names, "; ")));
        }
        let all_open = self.links.iter().all(|link| link.by() > 0.0);
        let forgotten = self.links.iter().skip(1).rfind(|link| link.by.is_none());
        let doubted = forgotten.or_else(|| silent().next_back().filter(|_| all_open));
        let verdict = if doubted.is_some() { Verdict::Doubtful } else { Verdict::Proven };
        let place = doubted.or(self.links.first()).map_or_else(Default::default, |link| link.link.place);
        answer.check(Check::of_kind("opened-and-closed", verdict).at(place));
    }

    /// The gap against what is wanted, and its doubt against a quarter of the window.
    fn judge(&self, bench: &Bench, answer: &mut Answer, gap: &Worked<Shift>, links: &[Linked]) -> Result<(), Refusal> {
        let Some(wanted) = &self.wanted else {
            answer.not_checked(&["wanted", "can-be-measured"], &["wanted"]);
            linked::dearest(answer, links, None);
            return Ok(());
        };
        let end = |end: Shift| Worked::exact(end, Origin::Typed(wanted.place));
        let (low, high) = (end(wanted.value.low), end(wanted.value.high));
        let nothing = Worked::assumed(Mm::new(0.0), "nothing");
        let wide = Worked::exact(Mm::new(high.number() - low.number()), Origin::Typed(wanted.place));
        let quarter = answer.record(&QUARTER, window::quarter(&nothing, &wide)?);
        let dearest = linked::dearest(answer, links, Some(quarter.number()));
        if let Some(dearest) = &dearest {
            answer.record(&SHARE, Worked::assumed(Ratio::new(dearest.share), "its part of the squared doubt"));
            answer.record(&SAVES, Worked::assumed(Mm::new(dearest.saves), "the doubt before less the doubt after"));
            answer.choose("dearest_link", dearest.name.clone(), Words::of("dearest-link"));
        }
        for (keep, limit) in [(Keep::AtLeast, &low), (Keep::AtMost, &high)] {
            let check = Check::judge("wanted", gap, keep, limit, bench.guard()).about(GAP.key).at(wanted.place);
            let check = answer.check(check);
            if check.remedies.is_empty() {
                dearest.iter().for_each(|dearest| {
                    check.remedy(dearest.remedy());
                });
            }
        }
        if gap.plus_minus() <= 0.0 {
            answer.does_not_apply(&["can-be-measured"]);
            return Ok(());
        }
        let doubt = Worked::assumed(Mm::new(gap.plus_minus()), "the doubt of what the links leave");
        let check = Check::judge("can-be-measured", &doubt, Keep::AtMost, &quarter, bench.guard());
        let check = answer.check(check.not_worse_than(Verdict::Doubtful).at(wanted.place));
        dearest.iter().for_each(|dearest| {
            check.remedy(dearest.remedy());
        });
        Ok(())
    }
}

impl Operation for Chain {
    fn values(&self) -> &'static [&'static [Declared]] {
        &[VALUES]
    }

    fn checks(&self) -> &'static [CheckRule] {
        const {
            &[
                CheckRule::must("wanted", &["wanted"]),
                CheckRule::must("doubts-known", &["links.size"]),
                CheckRule::must("all-cuts-known", &["links.size"]),
                CheckRule::must("opened-and-closed", &["links.by"]),
                CheckRule::may("can-be-measured", &["wanted"]),
            ]
        }
    }

    fn set_up(&self) -> Option<&SetUpWish> {
        self.set_up.as_ref()
    }

    // A gap lies between parts: no metal is its own.
    fn metals<'a>(&'a mut self, _: &'a mut PartFacts) -> Vec<&'a mut At<Material>> {
        Vec::new()
    }

    fn problems(&self, _: &PartFacts) -> Vec<Problem> {
        let mut all = Vec::new();
        self.links.iter().for_each(|link| link.problems(&mut all));
        linked::named_once(self.links.iter().map(|link| &link.link), &mut all);
        if let Some(wanted) = self.wanted.as_ref().filter(|at| at.value.low.number() >= at.value.high.number()) {
            all.push(Problem::new(wanted.place, "`wanted` has two limits, as in `2.0 to 3.5 mm`"));
        }
        all
    }

    fn work(&self, bench: &Bench, answer: &mut Answer) -> Result<(), Refusal> {
        if self.links.len() < 2 {
            return Err(Refusal::NotGiven {
                what: "what opens the gap and what closes it, two links at least,",
                key: "links",
            });
        }
        let named = self.of.as_ref().map_or_else(|| Fact::named("the-gap"), |of| Fact::from(&of.value));
        answer.fact("gap_of", named);
        let links = self.links.iter().map(|link| link.worked(bench, answer)).collect::<Result<Vec<_>, _>>()?;
        let place = links.first().map_or_else(Default::default, |link| link.place);
        let sizes = self.links.iter().filter_map(|link| link.size.as_ref());
        linked::doubts_known(bench, answer, place, sizes.map(|at| (&at.value, at.place)));
        linked::cuts_known(bench, answer, self.of_others());
        self.signs(answer);
        let gap = answer.record(&GAP, linked::gap(&links)?);
        answer.record(&ALL_OFF, linked::all_off(&links));
        answer.picture = Some(self.picture(&links));
        self.limits(answer)?;
        answer.caution("one-temperature");
        self.judge(bench, answer, &gap, &links)
    }
}
