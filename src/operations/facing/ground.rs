//! What the rest stands on: the part's sizes, its metal and hardness, the lathe and the dial that puts the depth on.

use super::{Asked, INSIDE, LENGTH, OUTSIDE, swing};
use crate::handbook::Material;
use crate::handbook::constants::constant;
use crate::handbook::materials::groups::Kind;
use crate::operations::kit::hard::{at_least, cuts_as, over};
use crate::operations::{Answer, Bench, Station, kit};
use crate::proof::{Check, Counted, Dialled, Fact, Mark, Refusal, Source, Verdict, Words, Worked};
use crate::quantity::{Angle, Hardness, Mm, Print, Quantity, Scale};
use crate::shop::{Axis, Cutting, Dial, Gauge, Machine};

/// The part as it comes to the lathe.
pub(in crate::operations) struct Ground<'a> {
    pub asked: Asked<'a>,
    /// The part's metal.
    pub material: Material,
    /// The metal whose cutting rows are taken: that of the hard groups for a steel that was hardened.
    pub cuts_as: Material,
    pub hardness: Option<Hardness>,
    /// Whether high-speed steel is out of the question.
    pub too_hard_for_hss: bool,
    pub outside: Worked<Mm>,
    /// 0 where it is solid.
    pub inside: Worked<Mm>,
    pub length: Worked<Mm>,
    pub lathe: Option<&'a Cutting>,
    pub dial: DepthDial,
    pub print: Print,
}

/// The dial that puts the depth on.
pub(in crate::operations) struct DepthDial {
    /// The slide in words; none where nobody says.
    pub slide: Option<&'static str>,
    /// Whether it is the top slide's: the carriage stays locked.
    pub on_the_top_slide: bool,
    pub division: Worked<Mm>,
    pub per_turn: Option<f64>,
    /// Degrees from the bed: 0 is parallel.
    pub set_over: Worked<Angle>,
}

/// The dial that puts the depth on, where no more of the part need be known.
pub(in crate::operations) fn dial_alone(
    bench: &Bench,
    asked: &Asked,
    answer: &mut Answer,
) -> Result<DepthDial, Refusal> {
    depth_dial(lathe(bench, asked, &asked.outside.into(), answer)?, answer)
}

impl<'a> Ground<'a> {
    /// Reads what every facing cut stands on.
    pub(crate) fn of(bench: &Bench<'a>, asked: Asked<'a>, answer: &mut Answer) -> Result<Self, Refusal> {
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
        match material.kind() {
            Kind::Lining => {
                answer.check(Check::of_kind("never-cut", Verdict::Fails));
            }
            _ => answer.does_not_apply(&["never-cut"]),
        }
        let outside = answer.record(&OUTSIDE, asked.outside.into());
        let inside = match asked.inside {
            Some(inside) => inside.into(),
            None => answer.assume("inside", Worked::assumed(Mm::new(0.0), "solid to the centre")),
        };
        let inside = answer.record(&INSIDE, inside);
        let length = answer.read(bench, "length", Gauge::Outside, asked.length)?;
        let length = answer.record(&LENGTH, length);
        let lathe = lathe(bench, &asked, &outside, answer)?;
        let print = bench.shop.map_or(Print::Metric, |shop| shop.units);
        answer.fact("material", material.typed());
        answer.fact("hardness", hardness.map_or(Fact::named("not-known"), |h| h.to_string().into()));
        let dial = depth_dial(lathe, answer)?;
        let too_hard_for_hss = at_least(hardness, "hss-hardest")?;
        Ok(Self { asked, material, cuts_as, hardness, too_hard_for_hss, outside, inside, length, lathe, dial, print })
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
        let through = bench.part.through_hardened.as_ref().is_some_and(|at| at.value);
        Ok(!through && at_least(self.hardness, "case-asked-hardness")?)
    }

    /// Whether it is cut as hard metal.
    pub(crate) fn is_hard(&self) -> Result<bool, Refusal> {
        Ok(self.cuts_as.kind() == Kind::HardSteel || at_least(self.hardness, "hard-group-hardness")?)
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

/// The lathe named, else the first whose swing clears the part.
fn lathe<'a>(
    bench: &Bench<'a>,
    asked: &Asked,
    outside: &Worked<Mm>,
    answer: &mut Answer,
) -> Result<Option<&'a Cutting>, Refusal> {
    answer.fact("machine", Station::Lathe.named());
    let Some(shop) = bench.shop else {
        answer.assume_words(Words::of("steps-not-checked"));
        answer.no_shop(&["swing", "chuck-speed"]);
        return Ok(None);
    };
    let clears = |lathe: &&Cutting| {
        let asked = swing::asked(outside, asked.hold, lathe).ok().flatten();
        let asked = asked.map_or(outside.number(), |asked| asked.number());
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
    swing::judge(outside, asked.hold, lathe, bench.guard(), answer)?;
    Ok(Some(lathe))
}

/// Facing depth goes on with the top slide, else along the bed; never on a dial that counts a diameter.
fn depth_dial(lathe: Option<&Cutting>, answer: &mut Answer) -> Result<DepthDial, Refusal> {
    let set_over = |dial: &Dial| dial.set_over.as_ref().map_or(0.0, |angle| angle.value.number());
    let across: Worked<Angle> = constant("slide-stands-across")?;
    let top = lathe.and_then(|lathe| lathe.dial(Axis::Top)).filter(|dial| set_over(dial) < across.number());
    let dial = top.or_else(|| lathe.and_then(|lathe| lathe.dial(Axis::Along)));
    let parallel = || {
        let says = vec!["the slide moves along the bed".into()];
        Worked::method(Angle::new(0.0), says, Source::fixed("geometry of the slide", Mark::Derived))
    };
    let Some(dial) = dial else {
        let division = answer.assume("dial", constant("division-unknown")?);
        answer.fact("slide", Fact::named("slide-along-the-bed"));
        let (slide, on_the_top_slide) = (None, false);
        return Ok(DepthDial { slide, on_the_top_slide, division, per_turn: None, set_over: parallel() });
    };
    let slide = dial.axis.value.text();
    answer.fact("slide", dial.axis.value.named());
    let set_over = match (&dial.set_over, dial.axis.value) {
        (Some(angle), _) => angle.into(),
        (None, Axis::Top) => answer.assume("set-over", Worked::assumed(Angle::new(0.0), "parallel to the bed")),
        (None, _) => parallel(),
    };
    let per_turn = dial.per_turn.as_ref().map(|turn| turn.value.number());
    let on_the_top_slide = dial.axis.value == Axis::Top;
    Ok(DepthDial { slide: Some(slide), on_the_top_slide, division: (&dial.division).into(), per_turn, set_over })
}

impl DepthDial {
    /// What the dial reads at a depth from the touch, as it counts; none where nobody says which slide it is.
    pub(crate) fn reads(&self, depth: f64) -> Result<Option<Dialled>, Refusal> {
        let Some(slide) = self.slide else { return Ok(None) };
        let touch = Worked::assumed(Mm::new(depth), "depth from the touch");
        let reading = crate::handbook::cutting::stock::slide_reading(&touch, &self.set_over)?.number();
        Ok(Some(Dialled::Slide(Counted::of(slide, reading, self.division.number(), self.per_turn))))
    }
}
