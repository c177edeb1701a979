//! The hold: grip enough and not too much, nothing standing out too far, the tool clear of the jaws.
//!
//! [`Held`] is all that a hold is judged by. What the cut asks stands in [`needed`], what the chuck gives in [`jaw_force`];
//! length, pressure, reach and clearance in [`reach`]; what the jaws do to a ring in [`ring`], to a plate in [`dish`]; a flange
//! under the tool in [`flange`]; holds that only a test can judge in [`looked_at`].

mod bends;
mod carries;
mod clamps;
mod dish;
mod flange;
mod given;
mod jaw_force;
mod kept;
mod looked_at;
mod needed;
mod reach;
mod ring;
mod spoilt;
mod stiffness;

pub(super) use carries::Trial;
pub(super) use jaw_force::{chuck_most, chuck_of};
pub(super) use kept::Kept;
pub(super) use reach::overhang;
pub(in crate::operations) use reach::stands_out;

use self::spoilt::Spoilt;
use super::{Piece, Way};
use crate::handbook::Material;
use crate::handbook::constants::{constant, row};
use crate::operations::kit::{as_true_as_read, at_end};
use crate::operations::{Answer, Bench, HeldIn, Hold, Nip, Stop};
use crate::proof::{Origin, Refusal, Side, Words, Worked};
use crate::quantity::{Kilogram, Mm, Newton, Quantity, Ratio, RevPerMin, SpringRate};
use crate::shop::{Chuck, Gauge};

/// What stands out behind, of a part whose whole length is known.
const WHIPS_BEHIND: &str = "whips-behind";
/// What seats on a step of the jaws ends there.
const SEATS: &str = "seats-on-step";
/// What stands behind the jaws goes through chuck and spindle.
const THROUGH: &str = "goes-through";
/// Every check of the grip that a hold opens.
const ALL: [&str; 18] = [
    bends::ID,
    "grip",
    "grip-moment",
    "grip-length",
    "jaw-pressure",
    "jaw-reach",
    "tool-clear",
    "overhang",
    WHIPS_BEHIND,
    SEATS,
    THROUGH,
    clamps::ID,
    "ring-stress",
    "dish",
    "flange",
    "grip-looked-at",
    "ring-lobe",
    "gives-way",
];

/// The cut as the grip sees it.
pub(super) struct Cut<'a> {
    /// Greatest cutting force of all cuts: its number at the factors used, the high end of its band the worst.
    pub force: &'a Worked<Newton>,
    pub step: &'a Worked<RevPerMin>,
    pub nose: &'a Worked<Mm>,
    /// The depth of the last cut, mm.
    pub last: f64,
    /// Whether hard metal pushes back: any depth of the cuts up to three nose radii.
    pub pushes_back: bool,
}

/// How far the tool comes towards what holds the part.
#[derive(Clone)]
pub(in crate::operations) struct Reach {
    /// Length or thickness after the cut.
    pub left: Worked<Mm>,
    /// How far beyond the end as found the nose comes, along the axis.
    pub removed: Worked<Mm>,
    /// The thinnest diameter that stands out of the grip when it is cut.
    pub thinnest: Worked<Mm>,
    /// The bore that runs through it then; 0 where it is solid.
    pub bored: Worked<Mm>,
    /// The bore that runs into the length gripped, whatever the hold says of its own; none where none does.
    pub into_the_grip: Option<Worked<Mm>>,
    /// How far that bore lies off the middle of the outside; none where it is taken to lie there.
    pub off: Option<Worked<Mm>>,
    /// How round it must come out, on the radius; none where nobody says.
    pub round_within: Option<Worked<Mm>>,
}

/// All that a hold is judged by, with what is cut in it.
struct Held<'a> {
    under: &'a Under<'a>,
    cut: Cut<'a>,
    /// Whether anybody reads what is said of it.
    told: bool,
}

impl<'a> std::ops::Deref for Held<'a> {
    type Target = Under<'a>;

    fn deref(&self) -> &Under<'a> {
        self.under
    }
}

/// All that a hold is judged by, whatever is cut in it.
struct Under<'a> {
    hold: &'a Hold,
    chuck: Option<&'a Chuck>,
    /// Bore through chuck and spindle, where the shop says.
    bore: Option<Worked<Mm>>,
    /// The chuck with a scroll that the lathe has, whatever holds this part: it tells how large the lathe is.
    scroll: Option<&'a Chuck>,
    in_shop: bool,
    guard: f64,
    material: &'a Material,
    /// The diameter that is cut, and the outside of the part there.
    cut_at: Worked<Mm>,
    outside: Worked<Mm>,
    thickest: Worked<Mm>,
    inside: Worked<Mm>,
    length: Worked<Mm>,
    /// Length or thickness after the cut.
    left: Worked<Mm>,
    removed: Worked<Mm>,
    /// How far it stands out, where that is known.
    overhang: Option<Worked<Mm>>,
    /// Its length over both ends, where that is known.
    whole: Option<Worked<Mm>>,
    /// Thickness of the flange at its rim, before the cut.
    rim: Option<Worked<Mm>>,
    flat_within: Option<Worked<Mm>>,
    square_within: Option<Worked<Mm>>,
    true_within: Option<Worked<Mm>>,
    round_within: Option<Worked<Mm>>,
    thinnest: Worked<Mm>,
    bored: Worked<Mm>,
    into_the_grip: Option<Worked<Mm>>,
    off: Option<Worked<Mm>>,
    /// How far the part sits off the spindle's axis, where that counts: one jaw stands so much further out.
    swings: Option<Worked<Mm>>,
    way: &'a Way,
    mass: Option<Worked<Kilogram>>,
    gaps: u32,
    /// The diameter gripped and how much of it, where somebody says.
    gripped: Option<Worked<Mm>>,
    grip: Option<Worked<Mm>>,
    /// What follows from these.
    kept: &'a Kept,
}

impl Cut<'_> {
    /// Whether hard metal pushes back along the axis: 45 HRC and over, and a depth of no more than three nose radii.
    pub(super) fn pushes_back(piece: &Piece, depths: &[f64], nose: &Worked<Mm>) -> Result<bool, Refusal> {
        let most = row("thrust-hard-depth-over-nose")?.value * nose.number();
        Ok(piece.is_hard()? && depths.iter().any(|depth| *depth <= most + 1e-9))
    }
}

/// Works every check of the hold.
pub(super) fn work(
    bench: &Bench,
    (piece, kept): (&Piece, &Kept),
    reach: Reach,
    cut: Cut,
    answer: &mut Answer,
) -> Result<Option<Worked<SpringRate>>, Refusal> {
    let Some(hold) = piece.asked.hold else {
        answer.not_checked(&asked_of(piece), &["hold"]);
        if matches!(piece.way, Way::Across) {
            stiffness::square_unknown(piece.asked.square_within.is_some(), answer);
        }
        return Ok(None);
    };
    given::gripped_as_given(hold, &piece.outside, answer)?;
    let under = Under::of(bench, (piece, kept), hold, reach, answer)?;
    let held = Held { under: &under, cut, told: true };
    held.judge(answer)?;
    match piece.way {
        Way::Along(_) | Way::Inside(_) => stiffness::of_the_part(&held),
        Way::Across | Way::Off => Ok(None),
    }
}

/// The checks of the grip that a hold opens, of a cut that goes this way on a part of which so much is known.
fn asked_of(piece: &Piece) -> Vec<&'static str> {
    let whole = |id: &str| !matches!(id, WHIPS_BEHIND | SEATS | THROUGH) || piece.asked.over_both_ends;
    ALL.into_iter().filter(|id| is_asked(id, &piece.way) && whole(id)).collect()
}

/// Whether a cut that goes this way asks for a check.
fn is_asked(id: &str, way: &Way) -> bool {
    match id {
        "dish" | "gives-way" => matches!(way, Way::Across),
        "flange" | clamps::ID | bends::ID => matches!(way, Way::Across | Way::Along(_)),
        "tool-clear" => !matches!(way, Way::Inside(_)),
        _ => true,
    }
}

/// The smaller of two limits, where there are any.
fn least_of(one: Option<Worked<Mm>>, other: Option<Worked<Mm>>) -> Option<Worked<Mm>> {
    match (one, other) {
        (Some(one), Some(other)) => Some(if other.number() < one.number() { other } else { one }),
        (one, other) => one.or(other),
    }
}

/// The same; listed as assumed where nobody typed it.
fn overhang_known(piece: &Piece, answer: &mut Answer) -> Option<Worked<Mm>> {
    let out = stands_out(piece)?;
    let typed = piece.asked.hold.is_some_and(|hold| hold.overhang.is_some());
    Some(if typed { out } else { answer.assume("overhang", out) })
}

/// Thickness of a flange at its rim; left out, a skim takes its thickness at the contact.
fn rim(bench: &Bench, piece: &Piece, answer: &mut Answer) -> Result<Option<Worked<Mm>>, Refusal> {
    if let Some(at) = piece.asked.thickness_at_rim {
        return answer.read(bench, "thickness-at-rim", Gauge::Outside, at).map(Some);
    }
    Ok((!piece.asked.over_both_ends).then(|| piece.length.clone()))
}

impl<'a> Under<'a> {
    /// A hold, towards which a cut comes so far.
    fn of(
        bench: &Bench,
        (piece, kept): (&'a Piece, &'a Kept),
        hold: &'a Hold,
        reach: Reach,
        answer: &mut Answer,
    ) -> Result<Self, Refusal> {
        let limit =
            |at: &crate::proof::At<crate::quantity::Wanted<Mm>>| Worked::exact(at.value.high, Origin::Typed(at.place));
        let true_within = hold.true_within.as_ref().map(Worked::<Mm>::from);
        let square_within = piece.asked.square_within.map(limit);
        let flat_within = piece.asked.flat_within.map(limit);
        Ok(Self {
            hold,
            chuck: piece.lathe.and_then(|lathe| chuck_of(lathe, Some(hold))),
            bore: piece.lathe.and_then(|lathe| lathe.bore.as_ref()).map(Worked::from),
            scroll: piece.lathe.and_then(|lathe| lathe.chuck.as_ref()),
            in_shop: bench.shop.is_some(),
            guard: bench.guard(),
            material: &piece.material,
            cut_at: piece.cut_at.clone(),
            outside: piece.outside.clone(),
            thickest: piece.thickest.clone(),
            inside: piece.inside.clone(),
            length: piece.length.clone(),
            left: reach.left,
            removed: reach.removed,
            overhang: overhang_known(piece, answer),
            whole: piece.asked.over_both_ends.then(|| piece.length.clone()),
            rim: rim(bench, piece, answer)?,
            flat_within: flat_within.or_else(|| square_within.clone()).or_else(|| true_within.clone()),
            square_within,
            round_within: least_of(reach.round_within, true_within),
            true_within: hold.true_within.as_ref().map(|within| as_true_as_read(bench, within)),
            thinnest: reach.thinnest,
            bored: reach.bored,
            into_the_grip: reach.into_the_grip,
            off: reach.off,
            swings: piece.swings.clone(),
            way: &piece.way,
            mass: piece.asked.mass.map(Worked::from),
            gaps: piece.asked.slots(),
            gripped: hold.diameter.as_ref().map(Worked::from),
            grip: hold.grip.as_ref().map(Worked::from),
            kept,
        })
    }
}

impl Held<'_> {
    fn judge(&self, answer: &mut Answer) -> Result<(), Refusal> {
        if is_asked("tool-clear", self.way) {
            reach::tool_clear(self, answer)?;
        }
        reach::overhang_kept(self, answer)?;
        reach::whips_behind(self, answer)?;
        reach::seats_on_step(self, answer)?;
        reach::goes_through(self, answer)?;
        if is_asked(clamps::ID, self.way) {
            clamps::clear(self, answer);
        }
        if matches!(self.way, Way::Across) {
            stiffness::square(self, answer);
            stiffness::gives_way(self, answer)?;
        }
        if is_asked("flange", self.way) {
            flange::work(self, answer)?;
        }
        if is_asked(bends::ID, self.way) {
            bends::work(self, answer)?;
        }
        let Some(jaws) = self.hold.held_in.value.jaws() else {
            return looked_at::work(self, answer);
        };
        answer.does_not_apply(&["grip-looked-at"]);
        let light = jaw_force::of_nip(self, Nip::Light)?;
        let (force, needed) = self.carried(answer)?;
        reach::grip_length(self, answer)?;
        reach::jaw_pressure(self, jaws, &force, answer)?;
        reach::jaw_reach(self, answer)?;
        let spoilt = Spoilt { force: &force, light: &light, light_carries: needed.carried_by(&light) };
        ring::work(self, &spoilt, answer)?;
        if is_asked("dish", self.way) {
            dish::work(self, &spoilt, answer)?;
        }
        self.no_nip_will_do(&needed, answer)
    }

    /// Whether the jaws carry the cut: what they have, and what it asks.
    fn carried(&self, answer: &mut Answer) -> Result<(jaw_force::JawForce, needed::Needed), Refusal> {
        let force = jaw_force::work(self, self.nip(answer), answer)?;
        let needed = needed::work(self, answer)?;
        needed::judge(self, &force, &needed, answer)?;
        Ok((force, needed))
    }

    /// How hard it is nipped.
    fn nip(&self, answer: &mut Answer) -> Nip {
        match &self.hold.nipped {
            Some(at) => at.value,
            None => {
                answer.assume_words(Words::of("nipped"));
                Nip::Normal
            }
        }
    }

    /// Nipped lightly it does not carry, and harder the part is spoilt: no nip will do.
    fn no_nip_will_do(&self, needed: &needed::Needed, answer: &mut Answer) -> Result<(), Refusal> {
        if !self.hold.nipped.as_ref().is_some_and(|at| at.value == Nip::Light) {
            return Ok(());
        }
        let normal = jaw_force::of_nip(self, Nip::Normal)?;
        let dished = || if is_asked("dish", self.way) { dish::spoils(self, &normal) } else { Ok(false) };
        let spoils = ring::spoils(self, &normal)? || dished()?;
        for (id, worst) in [("grip", &needed.torque), ("grip-moment", &needed.moment)] {
            let open = |check: &&mut crate::proof::Check| check.id == id;
            let check =
                answer.checks.iter_mut().find(open).filter(|check| check.verdict().is_some() && !check.is_proven());
            if let Some(check) = check.filter(|_| spoils && worst.is_some()) {
                check.state = crate::proof::Outcome::Made(crate::proof::Verdict::Fails);
                check.remedy(Words::of("other-hold"));
            }
        }
        Ok(())
    }

    /// The diameter gripped, where somebody says.
    fn gripped(&self) -> Option<Worked<Mm>> {
        self.gripped.clone()
    }

    fn grip(&self) -> Option<Worked<Mm>> {
        self.grip.clone()
    }

    /// As much of it as the jaws touch: a bar may stand further in the chuck than they are long.
    fn touched(&self) -> Result<Option<Worked<Mm>>, Refusal> {
        let touched = || {
            let longest = self.longest_jaw()?.map(|longest| longest.number());
            let says = "no jaw of this chuck is longer";
            Ok(self.grip().map(|grip| match longest.filter(|longest| grip.number() > *longest) {
                Some(longest) => grip.shifted(longest - grip.number(), says),
                None => grip,
            }))
        };
        self.kept.touched.or(touched)
    }

    /// The longest jaw of such a chuck; none where nobody says how large that is, or it has no jaws.
    fn longest_jaw(&self) -> Result<Option<Worked<Mm>>, Refusal> {
        let Some(chuck) = self.chuck.and_then(|chuck| chuck.diameter.as_ref()) else { return Ok(None) };
        if self.hold.held_in.value.jaws().is_none() {
            return Ok(None);
        }
        let share = row("jaw-length-share")?.value;
        Ok(Some(Worked::from(chuck).scaled(share, "the longest that a jaw of such a chuck is")))
    }

    fn is_soft(&self) -> bool {
        self.hold.held_in.value == HeldIn::SoftJaws
    }

    /// The keys of the chuck that is named, where they are those of a four-jaw.
    fn of_chuck(&self, key: &'static str) -> &'static str {
        if self.hold.held_in.value != HeldIn::FourJaw {
            return key;
        }
        match key {
            "chuck.most" => "four-jaw.most",
            "chuck.jaw-force" => "four-jaw.jaw-force",
            "chuck.jaw-width" => "four-jaw.jaw-width",
            "chuck.diameter" => "four-jaw.diameter",
            _ => key,
        }
    }

    fn on_a_step(&self) -> bool {
        self.hold.stop() == Stop::Step
    }

    /// The length that really grips.
    fn grips(&self) -> Result<Option<Worked<Mm>>, Refusal> {
        let corner = constant("jaw-corner")?;
        self.touched()?.map(|grip| crate::handbook::cutting::grip::length_that_grips(&grip, &corner)).transpose()
    }

    /// Whether it is gripped on a hub, so far in that the rest is a flange.
    fn on_a_hub(&self) -> Result<Option<bool>, Refusal> {
        let share = row("hub-share")?.value;
        Ok(self.gripped().map(|gripped| gripped.number() < share * self.outside.number()))
    }

    /// The factor of blows.
    fn blows(&self) -> Result<Worked<Ratio>, Refusal> {
        self.kept.blows.or(|| self.blows_of_its_gaps())
    }

    fn blows_of_its_gaps(&self) -> Result<Worked<Ratio>, Refusal> {
        let few = row("blow-few-gaps")?.value;
        match self.gaps {
            0 => Ok(Worked::row(
                Ratio::new(1.0),
                "a cut without interruption: 1",
                crate::proof::Source::fixed("no blows", crate::proof::Mark::Derived),
            )),
            gaps if f64::from(gaps) <= few => constant("blow-factor-few-gaps"),
            _ => constant("blow-factor"),
        }
    }

    /// What pushes the tool out of its cut, over the cutting force: along the axis in facing, across it in turning; the band of
    /// hard metal is its own.
    fn thrust(&self) -> Result<Worked<Ratio>, Refusal> {
        constant(if self.cut.pushes_back { "thrust-share-hard" } else { "thrust-share" })
    }

    /// The cutting force at the high end of its band; what is remembered of it still counts.
    fn worst_force(&self) -> Worked<Newton> {
        at_end(self.cut.force, Side::High)
    }

    /// The keys of a missing hold that are not there.
    fn lacking(&self, keys: &[&'static str]) -> Vec<&'static str> {
        let there = |key: &str| match key {
            "hold.diameter" => self.hold.diameter.is_some(),
            "hold.grip" => self.hold.grip.is_some(),
            "hold.overhang" => self.overhang.is_some(),
            _ => false,
        };
        keys.iter().filter(|key| !there(key)).copied().collect()
    }
}

#[cfg(test)]
mod cases;
