//! What a facing cut stands on: the part on the lathe, and the dial that puts the depth on.

use super::{Asked, INSIDE, LENGTH, OUTSIDE};
use crate::handbook::constants::constant;
use crate::handbook::cutting::stock::slide_reading;
use crate::operations::turning::{self, Metal, Piece, Way};
use crate::operations::{Answer, Bench};
use crate::proof::{Counted, Dialled, Fact, Mark, Refusal, Source, Worked};
use crate::quantity::{Angle, Mm, Quantity};
use crate::shop::{Axis, Cutting, Dial, Gauge};

/// The part as it comes to be faced.
pub(in crate::operations) struct Ground<'a> {
    pub asked: Asked<'a>,
    pub piece: Piece<'a>,
    pub dial: DepthDial,
}

/// The dial that puts the depth on.
pub(in crate::operations) struct DepthDial {
    /// The slide in words; none where nobody says.
    pub slide: Option<&'static str>,
    /// Whether it is the top slide's: the carriage stays locked.
    pub on_the_top_slide: bool,
    /// The depth that one of its divisions puts on.
    pub division: Worked<Mm>,
    /// One of its divisions, along the slide, mm.
    pub own: f64,
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
    depth_dial(turning::lathe_for(bench, &asked.of_any_cut(), &asked.outside.into(), answer)?, answer)
}

impl<'a> Ground<'a> {
    /// Reads what every facing cut stands on.
    pub(crate) fn of(bench: &Bench<'a>, asked: Asked<'a>, answer: &mut Answer) -> Result<Self, Refusal> {
        let metal = Metal::of(bench, false, answer)?;
        let outside = answer.record(&OUTSIDE, asked.outside.into());
        let inside = match asked.inside {
            Some(inside) => inside.into(),
            None => answer.assume("inside", Worked::assumed(Mm::new(0.0), "solid to the centre")),
        };
        let inside = answer.record(&INSIDE, inside);
        let length = answer.read(bench, "length", Gauge::Outside, asked.length)?;
        let length = answer.record(&LENGTH, length);
        let lathe = turning::lathe_for(bench, &asked.of_any_cut(), &outside, answer)?;
        let dial = depth_dial(lathe, answer)?;
        let piece = Piece::of(bench, asked.of_any_cut(), lathe, metal, [outside, inside, length], Way::Across);
        Ok(Self { asked, piece, dial })
    }
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
        let own = division.number();
        return Ok(DepthDial { slide, on_the_top_slide, division, own, per_turn: None, set_over: parallel() });
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
    let own: Worked<Mm> = (&dial.division).into();
    let share = set_over.number().to_radians().cos();
    let division =
        if set_over.number() > 0.0 { own.scaled(share, "what a slide that is set over puts on") } else { own.clone() };
    let own = own.number();
    Ok(DepthDial { slide: Some(slide), on_the_top_slide, division, own, per_turn, set_over })
}

impl DepthDial {
    /// How far along the slide for each mm of depth, where it stands over: what is measured is dialled so many times.
    pub(crate) fn stretched(&self) -> Result<Option<f64>, Refusal> {
        if self.set_over.number() <= 0.0 {
            return Ok(None);
        }
        let one = Worked::assumed(Mm::new(1.0), "a millimetre of depth");
        Ok(Some(slide_reading(&one, &self.set_over)?.number()))
    }

    /// What the dial reads at a depth from the touch, as it counts; none where nobody says which slide it is.
    pub(crate) fn reads(&self, depth: f64) -> Result<Option<Dialled>, Refusal> {
        let Some(slide) = self.slide else { return Ok(None) };
        let along = |depth: f64| {
            let depth = Worked::assumed(Mm::new(depth), "depth from the touch");
            slide_reading(&depth, &self.set_over).map(|along| along.number())
        };
        let counted = Counted::of(slide, along(depth)?, self.own, self.per_turn);
        Ok(Some(Dialled::Slide(Counted { per_measured: along(1.0)?, ..counted })))
    }
}
