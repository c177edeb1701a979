//! The part on the lathe: its metal and hardness, the machine, what is cut of it and which way.

use super::swing;
use crate::handbook::Material;
use crate::handbook::materials::groups::Kind;
use crate::job::Reading;
use crate::operations::kit::hard::{at_least, cuts_as, over};
use crate::operations::kit::mass_from_sizes;
use crate::operations::{Answer, Bench, Hold, SetUpWish, Station, kit};
use crate::proof::{At, Fact, Refusal, Verdict, Words, Worked};
use crate::quantity::{Hardness, Kilogram, Mm, Print, Quantity, Roughness, Scale, Wanted};
use crate::shop::{Cutting, Machine};

/// The keys that any cut on a lathe may have.
#[derive(Clone, Copy, Debug, Default)]
pub(in crate::operations) struct Asked<'a> {
    /// Whether the length named is over both ends of the part, so that grip and overhang share it.
    pub over_both_ends: bool,
    pub finish: Option<&'a At<Wanted<Roughness>>>,
    pub square_within: Option<&'a At<Wanted<Mm>>>,
    pub flat_within: Option<&'a At<Wanted<Mm>>>,
    pub thickness_at_rim: Option<&'a At<Reading>>,
    pub interrupted: Option<&'a At<u32>>,
    pub hold: Option<&'a Hold>,
    pub tool: Option<&'a At<String>>,
    pub mass: Option<&'a At<Kilogram>>,
    pub off_centre: Option<&'a At<Mm>>,
    pub set_up: Option<&'a SetUpWish>,
}

impl Asked<'_> {
    /// Slots in the way of the cut; none is 0.
    pub(crate) fn slots(&self) -> u32 {
        self.interrupted.map_or(0, |slots| slots.value)
    }
}

/// Which way a cut goes: what tool, speed, force and hold see of it.
#[derive(Clone, Debug)]
pub(in crate::operations) enum Way {
    /// Across an end.
    Across,
    /// Along an outside, over so much of it.
    Along(Worked<Mm>),
    /// Along a bore, over so much of it.
    Inside(Worked<Mm>),
    /// Down through it, with a blade.
    Off,
}

/// What a cut is held down to so that grip and motor carry it; nothing where they carry all that tool and finish allow.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(in crate::operations) struct Eased {
    /// The most that the spindle may turn, rev/min.
    pub step: Option<f64>,
    /// The most that the tool may be fed, mm/rev.
    pub feed: Option<f64>,
    /// In so many cuts at the least.
    pub cuts: Option<u32>,
}

/// The part as tool, speed, force and hold see it.
#[derive(Clone)]
pub(in crate::operations) struct Piece<'a> {
    pub asked: Asked<'a>,
    /// The part's metal.
    pub material: Material,
    /// The metal whose cutting rows are taken: that of the hard groups for a steel that was hardened.
    pub cuts_as: Material,
    pub hardness: Option<Hardness>,
    /// Whether high-speed steel is out of the question.
    pub too_hard_for_hss: bool,
    /// The largest diameter that is cut.
    pub cut_at: Worked<Mm>,
    /// The diameter of the last cut: of one along an outside the smallest.
    pub last_cut_at: Worked<Mm>,
    /// The outside of the part there.
    pub outside: Worked<Mm>,
    /// The greatest outside that is named of it: it weighs as if it were that all along.
    pub thickest: Worked<Mm>,
    /// The bore of the part; 0 where it is solid.
    pub inside: Worked<Mm>,
    /// Its length.
    pub length: Worked<Mm>,
    pub lathe: Option<&'a Cutting>,
    pub print: Print,
    pub way: Way,
    /// How far its outside swings off the spindle's axis, where that is so much that it counts.
    pub swings: Option<Worked<Mm>>,
    /// What the cut is held down to.
    pub eased: Eased,
}

impl<'a> Piece<'a> {
    /// Reads what the metal of the part says; the sizes are the operation's own.
    pub(crate) fn of(
        bench: &Bench<'a>,
        asked: Asked<'a>,
        lathe: Option<&'a Cutting>,
        metal: Metal,
        [outside, inside, length]: [Worked<Mm>; 3],
        way: Way,
    ) -> Self {
        let Metal { material, cuts_as, hardness, too_hard_for_hss } = metal;
        let print = bench.shop.map_or(Print::Metric, |shop| shop.units);
        let [cut_at, last_cut_at, thickest] = [(); 3].map(|()| outside.clone());
        let asked = Asked { mass: asked.mass.or(bench.part.mass.as_ref()), ..asked };
        Self {
            asked,
            material,
            cuts_as,
            hardness,
            too_hard_for_hss,
            cut_at,
            last_cut_at,
            outside,
            thickest,
            inside,
            length,
            lathe,
            print,
            way,
            swings: None,
            eased: Eased::default(),
        }
    }

    /// The same part, which is thicker than where it is cut.
    pub(crate) fn with_thickest(self, thickest: Worked<Mm>) -> Self {
        Self { thickest, ..self }
    }

    /// As typed, else from the sizes named; none where the book has no density.
    ///
    /// # Errors
    /// As [`mass_from_sizes`].
    pub(crate) fn mass(&self) -> Result<Option<Worked<Kilogram>>, Refusal> {
        match self.asked.mass {
            Some(mass) => Ok(Some(mass.into())),
            None => mass_from_sizes(&self.material, [&self.thickest, &self.inside, &self.length]),
        }
    }

    /// The same part, trued by something that lies off its middle.
    pub(crate) fn swinging(self, off: Option<Worked<Mm>>) -> Self {
        Self { swings: off, ..self }
    }

    /// The same part, cut at a diameter of its own: a bore.
    pub(crate) fn cut_at(self, diameter: Worked<Mm>) -> Self {
        Self { last_cut_at: diameter.clone(), cut_at: diameter, ..self }
    }

    /// The same part, whose last cut is that of the size that it comes to.
    pub(crate) fn last_cut_at(self, diameter: Worked<Mm>) -> Self {
        Self { last_cut_at: diameter, ..self }
    }

    /// Whether the cut goes from one diameter to another, and its speed with it.
    pub(crate) const fn goes_across(&self) -> bool {
        matches!(self.way, Way::Across | Way::Off)
    }

    /// How far carbide can be trusted on this metal: up to its limit, doubtful before that.
    pub(crate) fn for_carbide(&self) -> Result<Verdict, Refusal> {
        if over(self.hardness, "carbide-hardest")? {
            return Ok(Verdict::Fails);
        }
        Ok(if over(self.hardness, "carbide-doubtful-over")? { Verdict::Doubtful } else { Verdict::Proven })
    }

    /// Whether the part is so hard that its case must be known: it is not said to be hard all through.
    pub(crate) fn asks_for_case(&self, bench: &Bench) -> Result<bool, Refusal> {
        let through = bench.part.is_hard_through();
        Ok(!through && at_least(self.hardness, "case-asked-hardness")?)
    }

    /// Whether it is cut as hard metal.
    pub(crate) fn is_hard(&self) -> Result<bool, Refusal> {
        Ok(self.cuts_as.kind() == Kind::HardSteel || at_least(self.hardness, "hard-group-hardness")?)
    }
}

/// What the part is made of, and what cuts it.
pub(in crate::operations) struct Metal {
    material: Material,
    cuts_as: Material,
    hardness: Option<Hardness>,
    too_hard_for_hss: bool,
}

impl Metal {
    /// The metal of the part, with what is dangerous in it; `runs` is whether a shaft runs in what is cut.
    pub(crate) fn of(bench: &Bench, runs: bool, answer: &mut Answer) -> Result<Self, Refusal> {
        let material = bench.part.material.as_ref().map(|at| at.value.clone());
        let material = material.ok_or(Refusal::NotGiven { what: "the metal of the part", key: "material" })?;
        let hardness = hardness(bench, &material, answer);
        let cuts_as = cuts_as(&material, hardness)?;
        if cuts_as.id() != material.id() {
            answer.assume_words(Words::of("hard-group").with("group", cuts_as.row().name.clone()));
        }
        for id in material.safety().chain(cuts_as.safety()) {
            answer.caution(id);
        }
        match runs {
            true => kit::pores_stay_open(material.kind(), answer),
            false => kit::never_cut(material.kind(), answer),
        }
        answer.fact("material", material.typed());
        answer.fact("hardness", hardness.map_or(Fact::named("not-known"), |h| h.to_string().into()));
        let too_hard_for_hss = at_least(hardness, "hss-hardest")?;
        Ok(Self { material, cuts_as, hardness, too_hard_for_hss })
    }
}

/// The hardness as tested, else that of the material's row where it is a hard group.
fn hardness(bench: &Bench, material: &Material, answer: &mut Answer) -> Option<Hardness> {
    if let Some(at) = &bench.part.hardness {
        return Some(at.value);
    }
    let row = material.row();
    let low =
        row.hardness_low.filter(|_| material.kind() == Kind::HardSteel && row.hardness_unit == Scale::Hrc.text())?;
    let assumed = Hardness { number: low, scale: Scale::Hrc };
    answer.assume_words(Words::of("hardness").with("value", assumed.to_string()));
    Some(assumed)
}

/// The lathe named, else the first whose swing clears the largest diameter of the part.
pub(in crate::operations) fn lathe_for<'a>(
    bench: &Bench<'a>,
    asked: &Asked,
    largest: &Worked<Mm>,
    answer: &mut Answer,
) -> Result<Option<&'a Cutting>, Refusal> {
    answer.fact("machine", Station::Lathe.named());
    let Some(shop) = bench.shop else {
        answer.assume_words(Words::of("steps-not-checked"));
        answer.no_shop(&["swing", "chuck-speed"]);
        return Ok(None);
    };
    let clears = |lathe: &&Cutting| {
        let asked = swing::asked(largest, asked.hold, lathe).ok().flatten();
        let asked = asked.map_or(largest.number(), |asked| asked.number());
        lathe.swing.as_ref().is_none_or(|s| s.value.number() >= asked)
    };
    let lathes = || shop.machines.iter().filter_map(Machine::lathe);
    let named = asked.set_up.and_then(|wish| wish.machine.as_ref());
    let lathe = match named {
        Some(_) => kit::machine_named(bench, asked.set_up).and_then(Machine::lathe),
        None => lathes().find(clears).or_else(|| lathes().next()),
    };
    let Some(lathe) = lathe else {
        answer.missing.push(Words::of("lathe"));
        answer.not_checked(&["swing", "chuck-speed", "most-depth"], &["lathe"]);
        return Ok(None);
    };
    answer.fact("machine", lathe.name.value.clone());
    if named.is_none() {
        answer.assume_words(Words::of("machine"));
    }
    swing::judge(largest, asked.hold, lathe, bench.guard(), answer)?;
    Ok(Some(lathe))
}
