//! Links of a gap: sizes that open and close it, with what each has in its doubt, whether each was measured, and whether two ways to
//! one gap agree. Whichever operation adds them up.

use super::kit::mm;
use super::{Answer, Bench, LinkOf, Name, Value};
use crate::handbook::Material;
use crate::handbook::measuring::stack;
use crate::job::{Address, PartFacts, Reading};
use crate::proof::{
    At, Cause, Check, Fact, Mark, Origin, Place, Refusal, Source, Verdict, Words, Worked, doubt_with_term,
    shares_of_terms,
};
use crate::quantity::{Mm, Quantity, Ratio, Shift};
use crate::reading::Problem;
use crate::shop::{Gauge, Shop};

/// A link as it was worked.
#[derive(Clone, Debug)]
pub(super) struct Linked {
    /// Its name.
    pub name: String,
    /// How often it counts, with its sign.
    pub by: f64,
    /// Its size.
    pub size: Worked<Mm>,
    /// Where it was typed.
    pub place: Place,
}

/// A link as it is read.
const LINK: Name<Mm> = Name::new("link", "a link");

/// A link as it was typed.
pub(super) struct Typed<'a> {
    /// Its name.
    pub name: &'a str,
    /// Its size as read.
    pub size: &'a At<Reading>,
    /// What it is made of.
    pub metal: Option<&'a At<Material>>,
    /// How often it counts, with its sign.
    pub by: f64,
    /// What is said where metal that another operation takes counts the wrong way.
    pub wrong: Verdict,
}

/// Reads a link. A link may be of any part: where it was read warm its own metal counts, never that of the part at hand. An
/// instrument is never guessed: a chain is read with several. What another operation hands on may be no size at all but metal that it
/// takes off: as fine as that must be read it was judged there.
pub(super) fn read(bench: &Bench, answer: &mut Answer, key: &'static str, link: &Typed) -> Result<Worked<Mm>, Refusal> {
    let of_link = PartFacts { material: link.metal.cloned(), ..bench.part.clone() };
    let at_link = bench.with_part(&of_link);
    let (size, of) = match &link.size.value {
        Reading::Of(address) => {
            let size = answer.read_handed(&at_link, key, Gauge::FromCentre, address)?;
            (size, Some(LinkOf { of: address.clone(), by: link.by, wrong: link.wrong }))
        }
        Reading::Size { .. } => (answer.read(&at_link, key, Gauge::FromCentre, link.size)?, None),
    };
    answer.read_link(link.name, Value::of(&LINK, &size), of);
    Ok(size)
}

/// What the links leave: the gap, with the doubts by what they have in common and limits at their worst.
pub(super) fn gap(links: &[Linked]) -> Result<Worked<Shift>, Refusal> {
    let mut gap = Worked::assumed(Shift::new(0.0), "no link yet");
    for link in links {
        let by = Worked::exact(Ratio::new(link.by), Origin::Typed(link.place));
        gap = stack::and_link(&gap, &by, &link.size)?;
    }
    Ok(gap)
}

/// What all links off together the bad way would make: printed, never judged.
pub(super) fn all_off(links: &[Linked]) -> Worked<Mm> {
    let reach = |link: &Linked| {
        let (low, high) = link.size.band().unwrap_or((link.size.number(), link.size.number()));
        link.by.abs() * ((high - low) / 2.0 + link.size.plus_minus())
    };
    Worked::assumed(Mm::new(links.iter().map(reach).sum()), "every link off the bad way at once")
}

/// The share of each link in the squared doubt of what they leave.
pub(super) fn shares(links: &[Linked]) -> Vec<f64> {
    let terms: Vec<(f64, &Worked<Mm>)> = links.iter().map(|link| (link.by, &link.size)).collect();
    shares_of_terms(&terms)
}

/// The link that has most in the doubt.
#[derive(Clone, Debug)]
pub(super) struct Dearest {
    /// Its name.
    pub name: String,
    /// Its share of the squared doubt.
    pub share: f64,
    /// By how much the doubt falls where its own is halved.
    pub saves: f64,
    /// What its doubt may be at most so that the whole is so much; nothing where it alone does not do it.
    needed: Option<f64>,
}

impl Dearest {
    /// What would mend a figure that is too doubtful.
    pub(super) fn remedy(&self) -> Words {
        match self.needed {
            Some(needed) => Words::of("dearest-to").with("link", self.name.clone()).with("needed", mm(needed)),
            None => Words::of("dearest-first").with("link", self.name.clone()).with("saves", mm(self.saves)),
        }
    }
}

/// Halvings of a doubt that are tried: beyond a thousandth of it no instrument of a shop goes.
const HALVINGS: i32 = 10;

/// Says what share each link has in the doubt and gives the dearest; nothing where there is no doubt. `most` is what the doubt
/// may be.
pub(super) fn dearest(answer: &mut Answer, links: &[Linked], most: Option<f64>) -> Option<Dearest> {
    let terms: Vec<(f64, &Worked<Mm>)> = links.iter().map(|link| (link.by, &link.size)).collect();
    let shares = shares(links);
    let (at, share) = shares.iter().enumerate().rev().max_by(|a, b| a.1.total_cmp(b.1))?;
    let link = links.get(at).filter(|_| *share > 0.0)?;
    let percent = |share: f64| format!("{:.1} %", 100.0 * share);
    let each = links.iter().zip(&shares).filter(|(_, share)| **share > 0.0);
    let each = each.map(|(link, share)| Fact::from(format!("{} {}", link.name, percent(*share)))).collect();
    answer.choose("shares_of_doubt", Fact::Series(each, "; "), Words::of("shares-of-doubt"));
    let saves = doubt_with_term(&terms, at, 1.0) - doubt_with_term(&terms, at, 0.5);
    let finer = (1..=HALVINGS).map(|times| 0.5_f64.powi(times));
    let needed = most.and_then(|most| finer.into_iter().find(|times| doubt_with_term(&terms, at, *times) <= most));
    let needed = needed.map(|times| times * link.size.plus_minus());
    Some(Dearest { name: link.name.clone(), share: *share, saves, needed })
}

/// Whether a reading says what it is worth: by its own ±, by an instrument of the shop, or by the operation that leaves it.
fn says_its_doubt(reading: &Reading, shop: Option<&Shop>) -> bool {
    match reading {
        Reading::Of(_) => true,
        Reading::Size { size, with, .. } => {
            let named = with.as_ref().and_then(|name| shop?.instrument(&name.value));
            size.plus_minus.is_some() || named.is_some()
        }
    }
}

/// Judges whether each reading says its doubt: one that only has its last digit is worth what nobody knows.
pub(super) fn doubts_known<'a>(
    bench: &Bench,
    answer: &mut Answer,
    place: Place,
    mut readings: impl Iterator<Item = (&'a Reading, Place)>,
) {
    let silent = readings.find(|(reading, _)| !says_its_doubt(reading, bench.shop));
    let verdict = if silent.is_some() { Verdict::Doubtful } else { Verdict::Proven };
    answer.check(Check::of_kind("doubts-known", verdict).at(silent.map_or(place, |(_, at)| at)));
}

/// Whether every size that a cut leaves was measured after it: a planned one is a hold point, one of a cut that fails will not be
/// there.
pub(super) fn cuts_known<'a>(bench: &Bench, answer: &mut Answer, others: impl Iterator<Item = &'a At<Address>>) {
    const ID: &str = "all-cuts-known";
    let (mut open, mut first) = (Vec::new(), None);
    for address in others {
        first = first.or(Some(address.place));
        let entry = bench.look_up(&address.value);
        match entry.map(|entry| (entry.as_left, entry.fails)) {
            Some((true, _)) => {}
            Some((false, false)) => open.push((address, "log-the-cut")),
            // A cut that fails is told before those that only wait.
            Some((false, true)) | None => open.insert(0, (address, "the-cut-fails")),
        }
    }
    match (first, open.first()) {
        (None, _) => answer.does_not_apply(&[ID]),
        (Some(place), None) => {
            answer.check(Check::of_kind(ID, Verdict::Proven).at(place));
        }
        (Some(_), Some((address, _))) => {
            let check = answer.check(Check::of_kind(ID, Verdict::Doubtful).at(address.place));
            for (address, remedy) in open {
                check.remedy(Words::of(remedy).with("address", address.value.to_string()));
            }
        }
    }
}

/// Whether one of some sizes is planned and not measured yet.
pub(super) fn waits_for_a_cut<'a>(bench: &Bench, mut others: impl Iterator<Item = &'a At<Address>>) -> bool {
    others.any(|address| bench.look_up(&address.value).is_none_or(|entry| !entry.as_left))
}

/// Where a difference of two figures of one gap comes from.
const APART_OF: Source = Source::fixed("one gap worked in two ways", Mark::Derived);

/// A gap as it was written down, to be held against another figure of it: worth no less than what the shop reads such a gap with. A reading
/// that is called coarser would agree with whatever is wrong.
pub(super) fn as_sure_as_read(bench: &Bench, left: &Worked<Shift>) -> Result<Worked<Shift>, Refusal> {
    let counts = held_with(bench, left.number(), left.plus_minus())?;
    if left.plus_minus() <= counts {
        return Ok(left.clone());
    }
    let bare = left.nominal("held against another figure of it, with the least doubt that a reading here has");
    Ok(bare.with_doubt(Cause::Named("what such a gap is read with"), counts))
}

/// The doubt with which a reading of a gap is held against another figure of it.
pub(super) fn held_with(bench: &Bench, gap: f64, doubt: f64) -> Result<f64, Refusal> {
    Ok(doubt.min(super::readings::finest_doubt(bench, gap.abs(), Gauge::Indicator)?))
}

/// How far two figures of one gap lie apart, without the sign: within the doubt of that they are one.
pub(super) fn apart(one: &Worked<Shift>, other: &Worked<Shift>) -> Worked<Mm> {
    let sign = if one.number() < other.number() { -1.0 } else { 1.0 };
    Worked::sum(&[(sign, one), (-sign, other)], 0.0, "one less the other, without its sign", APART_OF).becomes()
}

/// Two links of one name: one that was typed twice counts twice, and nobody sees it.
pub(super) fn named_once<'a>(names: impl Iterator<Item = &'a At<String>>, all: &mut Vec<Problem>) {
    let mut seen: Vec<String> = Vec::new();
    for at in names {
        let name = at.value.trim().to_lowercase();
        if seen.contains(&name) {
            let says =
                "a link of this name is there already: was it typed twice? Two that are alike have names of their own";
            all.push(Problem::new(at.place, says));
        } else {
            seen.push(name);
        }
    }
}

/// What cannot be a link that was read.
pub(super) fn problems(at: &At<Reading>, metal: Option<&At<Material>>, all: &mut Vec<Problem>) {
    super::kit::above_zero("the size of a link", at, all);
    let Reading::Size { warmth: Some(_), .. } = &at.value else { return };
    match metal {
        None => all.push(Problem::new(at.place, "a link that was read warm names its metal: `material`")),
        Some(metal) if metal.value.family().is_some() => {
            let says = "a link that was read warm names its alloy: each of a family grows by its own";
            all.push(Problem::new(metal.place, says));
        }
        Some(_) => {}
    }
}
