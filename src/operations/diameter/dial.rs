//! The dial of the cross slide: what it counts decides whether its figure is a diameter or a radius.

use crate::handbook::constants::constant;
use crate::operations::Answer;
use crate::proof::{Check, Counted, Dialled, Fact, Origin, Refusal, Verdict, Words, Worked};
use crate::quantity::{Mm, Quantity};
use crate::shop::{Axis, Cutting, Reads};

/// The dial that puts the depth on.
pub(in crate::operations) struct CrossDial {
    /// The slide in words; none where nobody says.
    pub slide: Option<&'static str>,
    /// A division, as it is engraved.
    pub division: Worked<Mm>,
    pub per_turn: Option<f64>,
    /// Whether it counts the way of the slide, half of what a diameter changes by.
    pub on_radius: bool,
}

impl CrossDial {
    /// The cross dial of a lathe. One of which nobody says what it counts is taken to count the way of the slide: if it counts the
    /// diameter, half of the metal is left on, and none is gone.
    pub(crate) fn of(lathe: Option<&Cutting>, in_shop: bool, answer: &mut Answer) -> Result<Self, Refusal> {
        const ID: &str = "dial-known";
        let dial = lathe.and_then(|lathe| lathe.dial(Axis::Across));
        answer.fact("slide", Axis::Across.named());
        let Some(dial) = dial else {
            match in_shop {
                true => {
                    let check = answer.check(Check::of_kind(ID, Verdict::Doubtful));
                    check.remedy(Words::of("no-cross-dial"));
                }
                false => answer.no_shop(&[ID]),
            }
            let division = answer.assume("cross-dial", constant("cutting-dial-unknown")?);
            answer.fact("dial_counts", Fact::named("counts-nobody-knows-what"));
            return Ok(Self { slide: None, division, per_turn: None, on_radius: false });
        };
        let reads = dial.reads.as_ref().map(|at| at.value);
        let verdict = if reads.is_some() { Verdict::Proven } else { Verdict::Doubtful };
        let check = answer.check(Check::of_kind(ID, verdict));
        if reads.is_none() {
            check.remedy(Words::of("dial-counts-unknown"));
            answer.assume_words(Words::of("dial-counts-radius"));
        }
        let on_radius = reads != Some(Reads::Diameter);
        answer.fact("dial_counts", Fact::named(if on_radius { "counts-radius" } else { "counts-diameter" }));
        let per_turn = dial.per_turn.as_ref().map(|turn| turn.value.number());
        let division = Worked::from(&dial.division);
        Ok(Self { slide: Some(dial.axis.value.text()), division, per_turn, on_radius })
    }

    /// What a division changes the diameter by.
    pub(crate) fn on_diameter(&self) -> Worked<Mm> {
        let factor = if self.on_radius { 2.0 } else { 1.0 };
        let says = format!("a division changes the diameter by {} mm", factor * self.division.number());
        Worked::exact(Mm::new(factor * self.division.number()), Origin::Assumed(says.into()))
    }

    /// Depth of cut that a division gives, mm.
    pub(crate) fn depth(&self) -> f64 {
        self.on_diameter().number() / 2.0
    }

    /// What the dial reads when the diameter has changed by so much since the touch, mm; none where nobody says which it is.
    pub(crate) fn reads(&self, change: f64) -> Option<Dialled> {
        let travel = if self.on_radius { change / 2.0 } else { change };
        let counted = Counted::of(self.slide?, travel, self.division.number(), self.per_turn);
        Some(Dialled::Slide(Counted { per_measured: if self.on_radius { 0.5 } else { 1.0 }, ..counted }))
    }
}
