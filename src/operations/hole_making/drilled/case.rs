//! What is read and picked for a drilled hole: its metal, its drill, its wall, the stop.

use super::names::{DIAMETER, POINT, WALL};
use super::{Drilled, Thick};
use crate::handbook::constants::constant;
use crate::handbook::threads::insert;
use crate::handbook::{Material, ToolMaterial};
use crate::operations::hole_making;
use crate::operations::hole_making::QuillDial;
use crate::operations::kit::{drill_size, hard};
use crate::operations::{Answer, Bench};
use crate::proof::{Check, Mark, Refusal, Source, Verdict, Words, Worked};
use crate::quantity::{Angle, Mm, Quantity};
use crate::shop::{Gauge, Machine};

/// What was read and picked.
pub(in crate::operations) struct Case {
    /// The metal whose cutting rows are taken: that of the hard groups for a steel that was hardened.
    pub cuts_as: Material,
    /// The drill.
    pub diameter: Worked<Mm>,
    /// Metal from the face to the far side, along the axis of the hole.
    pub wall: Worked<Mm>,
    /// How much further along the axis its far corner comes out: nothing where it goes in square.
    pub corner: Worked<Mm>,
    /// Where its tip stands as the stop is set to zero: so far under the face, along the axis of the hole.
    pub zero: Worked<Mm>,
    /// Its point.
    pub point: Worked<Mm>,
    /// The angle of its point.
    pub angle: Worked<Angle>,
    /// What it is made of.
    pub tool: ToolMaterial,
    /// Doubt of the stop, mm.
    pub stop: f64,
    /// The dial of the quill.
    pub dial: QuillDial,
}

impl Drilled<'_> {
    /// Reads and picks it.
    ///
    /// # Errors
    /// Where the metal is not given, or a table lacks what is asked of it.
    pub(in crate::operations) fn case(
        &self,
        bench: &Bench,
        machine: Option<&Machine>,
        answer: &mut Answer,
    ) -> Result<Case, Refusal> {
        let material = hole_making::metal(bench, answer)?;
        let diameter = answer.record(&DIAMETER, self.diameter.into());
        let (tool, angle) = self.picked(bench, answer)?;
        hole_making::hard_enough(bench, &material, tool, ("drill-hard-enough", self.diameter.place), answer)?;
        let cuts_as = hard::cuts_as(&material, bench.part.hardness.as_ref().map(|at| at.value))?;
        if cuts_as.id() != material.id() {
            answer.assume_words(Words::of("hard-group").with("group", cuts_as.row().name.clone()));
        }
        let point = answer.record(&POINT, insert::drill_point(&diameter, &angle)?);
        let wall = match self.wall {
            Thick::Read(at) => answer.read(bench, "wall", Gauge::Depth, at)?,
            Thick::Bush { wall, .. } => wall.clone(),
        };
        let wall = answer.record(&WALL, wall);
        let stop = hole_making::depth_stop(bench, machine, answer)?;
        let dial = hole_making::quill_dial(machine)?;
        let corner = Worked::assumed(Mm::new(0.0), "square to the face");
        let touches = Source::fixed("the point touches the face", Mark::Derived);
        let zero = Worked::method(Mm::new(0.0), vec!["the tip is level with the face".into()], touches);
        Ok(Case { cuts_as, diameter, wall, corner, zero, point, angle, tool, stop, dial })
    }

    /// The drill of that size in the drawer, with its point; what lacks is a doubt and a line on the missing list.
    fn picked(&self, bench: &Bench, answer: &mut Answer) -> Result<(ToolMaterial, Worked<Angle>), Refusal> {
        const ID: &str = "drill-in-drawer";
        let drills = bench.shop.map(|shop| shop.drills()).unwrap_or_default();
        let size = self.diameter.value.number();
        let owned = drills.iter().find(|drill| (drill.diameter - size).abs() < 1e-6);
        match (owned, bench.shop) {
            (_, None) => answer.no_shop(&[ID]),
            (Some(_), _) => {
                answer.check(Check::of_kind(ID, Verdict::Proven).at(self.diameter.place));
            }
            (None, _) => {
                answer.missing.push(Words::of("drill").with("size", drill_size(size)));
                answer.check(Check::of_kind(ID, Verdict::Doubtful).at(self.diameter.place));
            }
        }
        let tool = owned.map_or(ToolMaterial::Hss, |drill| drill.material);
        let angle = match owned.and_then(|drill| drill.point.as_ref()) {
            Some(typed) => typed.into(),
            None => answer.assume("point-angle", constant("drill-point-angle")?),
        };
        Ok((tool, angle))
    }
}
