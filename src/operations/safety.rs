//! What holds for every set-up that cuts, whatever the operation: cautions of the machine, and the cutting fluid of the metal.

use super::{Answer, Drawer, Pull, SetUp, Station, Step, kit};
use crate::handbook::Material;
use crate::handbook::constants::constant;
use crate::handbook::cutting::coolants;
use crate::handbook::materials::groups::Kind;
use crate::handbook::set_up_minutes;
use crate::proof::{At, Fact, Refusal, Words, Worked};
use crate::quantity::{Kilogram, Mm};

/// A metal that a set-up cuts, and the fluid asked for it: the operation of the table of coolants.
pub(super) type Wetted = (Material, &'static str);

/// Cautions of every machine that turns.
const CUTTING: [&str; 4] = ["isolate", "guards", "loose-things", "compressed-air"];

/// Cautions of the lathe beside these.
const TURNING: [&str; 2] = ["chuck-key", "emery"];

/// What a fluid runs over that is not cut: it counts where it is magnesium.
pub(super) const BESIDE: &str = "beside";

/// What is wetted of an operation, where some of it is magnesium that alone: whatever else is cut there, no water comes near it.
pub(super) fn with_what_lies_beside(mut wetted: Vec<Wetted>, part: Option<&Material>) -> Vec<Wetted> {
    let burns = |metal: &Material| metal.kind() == Kind::Magnesium;
    if !wetted.is_empty() {
        wetted.extend(part.filter(|metal| burns(metal)).map(|metal| (metal.clone(), BESIDE)));
    }
    let burning: Vec<Wetted> = wetted.iter().filter(|(metal, _)| burns(metal)).cloned().collect();
    let named = |(metal, operation): Wetted| (metal, if operation == BESIDE { "any" } else { operation });
    match burning.is_empty() {
        true => wetted.into_iter().filter(|(_, operation)| *operation != BESIDE).collect(),
        // Its own row of the operation before that of any.
        false => {
            let own = burning.iter().find(|(_, operation)| *operation != BESIDE).or(burning.first());
            own.cloned().map(named).into_iter().collect()
        }
    }
}

/// Puts the cautions of its station on every set-up that cuts or warms, and on every one of a part whose weight is known, and names the cutting fluid; where magnesium was cut the machine
/// is left clean of it.
///
/// # Errors
/// [`Refusal::NoRow`] where the table of minutes lacks a row.
pub(super) fn on_every_set_up(
    answer: &mut Answer,
    mass: Option<&At<Kilogram>>,
    wetted: impl Fn(&str) -> Vec<Wetted>,
) -> Result<(), Refusal> {
    for set_up in &mut answer.set_ups {
        if let Some(mass) = mass {
            lifting(set_up, &mass.into())?;
        }
        if set_up.station == Station::Oven {
            set_up.warns(&["weld-solvent"]);
        }
        if set_up.cuts().next().is_none() {
            continue;
        }
        if set_up.station == Station::Lathe {
            set_up.warns(&TURNING);
        }
        if matches!(set_up.station, Station::Lathe | Station::Drilling) {
            set_up.warns(&CUTTING);
            let says = |words: &Words| words.id.starts_with("swarf");
            if !set_up.cautions.iter().any(says) {
                set_up.warns(&["swarf"]);
            }
        }
        let all = wetted(set_up.id);
        let fluids: Vec<Words> = all.iter().map(|wetted| fluid(set_up, wetted)).collect();
        let burns = all.iter().any(|(metal, _)| metal.kind() == Kind::Magnesium);
        if burns {
            set_up.cautions.retain(|words| words.id != "dry-dust");
            set_up.warns(&["magnesium-fines"]);
            // It stands before gloves and guards, and goes overleaf for none of them.
            set_up.cautions.retain(|words| words.id != "magnesium");
            set_up.cautions.insert(0, Words::of("magnesium"));
        }
        let first_cut = set_up.steps.iter().position(|step| step.cut.is_some()).unwrap_or(0);
        let steps = fluids.into_iter().map(Step::by_hand);
        set_up.steps.splice(first_cut..first_cut, steps);
        if burns {
            // What is cut next on this machine may be wet, or throw chips that glow.
            set_up.step("sweep-what-burns").takes(set_up_minutes::start("chips that burn, swept up")?);
        }
    }
    Ok(())
}

/// The line that names the fluid: the row of the operation, else that of any; what the book does not know is said.
fn fluid(set_up: &mut SetUp, (metal, operation): &Wetted) -> Words {
    let row = coolants::for_operation(metal, operation);
    let dry = row.is_some_and(|row| row.coolant.starts_with("dry"));
    let iron = matches!(metal.kind(), Kind::GreyIron | Kind::DuctileIron);
    if dry || iron {
        set_up.warns(&["dry-dust"]);
    }
    if !dry {
        set_up.warns(&["cutting-fluid"]);
        let oil = row.and_then(|row| wet(&row.coolant)).map(|oil| Words::from(Fact::from(oil)));
        set_up.pulls.extend(oil.map(|item| Pull { drawer: Drawer::Oils, item, count: 1 }));
    }
    let id = if *operation == "tap" { "tapping-fluid" } else { "cutting-fluid" };
    let says = row.map_or("not known for this metal", |row| row.coolant.as_str());
    Words::of(id).with("fluid", says)
}

/// Of several fluids that serve the first that is named: it is fetched. Air is no fluid.
fn wet(coolant: &str) -> Option<&str> {
    let all = coolant.split([',', ';']).flat_map(|some| some.split(" or ")).map(str::trim);
    { all }.find(|one| ["oil", "soluble", "paraffin"].iter().any(|wet| one.contains(wet)))
}

/// The same of a round part of these sizes, whose weight nobody took.
///
/// # Errors
/// As [`lifting`].
pub(super) fn lifting_of(set_up: &mut SetUp, material: &Material, sizes: [&Worked<Mm>; 3]) -> Result<(), Refusal> {
    kit::mass_from_sizes(material, sizes)?.map_or(Ok(()), |mass| lifting(set_up, &mass))
}

/// A part too heavy to be held by one hand on a bed or lifted alone, at the worst end of its mass.
///
/// # Errors
/// [`Refusal::NoRow`] where the table lacks the limit.
pub(super) fn lifting(set_up: &mut SetUp, mass: &Worked<Kilogram>) -> Result<(), Refusal> {
    let limit = if set_up.station == Station::Lathe { "lifting-mass-over-bed" } else { "lifting-mass" };
    if mass.high() > constant::<Kilogram>(limit)?.number() {
        set_up.warns(&["lifting"]);
    }
    Ok(())
}
