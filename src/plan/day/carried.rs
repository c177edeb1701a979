//! What each machine must carry for its set-ups, and what a change-over takes.

use super::frame::Assumed;
use super::items::{Item, Stands};
use super::rounded;
use super::search::{self, Rigging};
use crate::handbook::change_over;
use crate::handbook::rigging::Aspect;
use crate::operations::{Carried, HeldIn};
use crate::plan::ShopOfDay;
use crate::reading::Problem;
use std::collections::BTreeMap;

/// What is fitted on a machine, by the aspect.
pub(super) type Fittings = BTreeMap<String, Vec<String>>;

/// What a machine carries in an aspect: the row of the table for it, and what is fitted.
struct Fitted {
    aspect: Aspect,
    row: &'static str,
    things: Vec<String>,
    /// How deep jaws are bored for a part that seats on their step, mm.
    deep: Option<f64>,
    /// Whether they are jaws that open in a bore.
    opens: bool,
}

impl Fitted {
    /// What is fitted, in the words of the table.
    fn said(&self) -> String {
        match self.row {
            _ if self.opens => OPENED.to_owned(),
            row if row.contains(' ') => row.to_owned(),
            row => said(row),
        }
    }
}

const BORED: &str = "soft jaws bored to size";
/// The same of jaws that open in a bore: their row and their minutes are those of the others.
const OPENED: &str = "soft jaws turned to size";
const OF_ANOTHER_SIZE: &str = "collet or mandrel of another size";
const TURNED: &str = "hard jaws turned round";
const SET_OVER: &str = "set over or back";
const TOOL: &str = "other tool in the post";
const BARE: &str = "bare";
const GRIPS_OUTSIDE: &str = "outside";
const GRIPS_INSIDE: &str = "inside";

/// What a set-up needs on its machine.
fn fitted(item: &Item, kind: &str) -> Vec<Fitted> {
    let one = |aspect, row, thing: String| Fitted { aspect, row, things: vec![thing], deep: None, opens: false };
    let mut all: Vec<Fitted> = Vec::new();
    for (aspect, carried) in &item.set_up.rigging {
        all.extend(match carried {
            Carried::Held(device) => Some(one(*aspect, device.word(), device.word().into())),
            Carried::BoredMm(size, deep) => Some(Fitted { deep: *deep, ..one(*aspect, BORED, format!("{size} mm")) }),
            Carried::OpensInMm(size) => {
                Some(Fitted { opens: true, ..one(*aspect, BORED, format!("inside {size} mm")) })
            }
            Carried::ForMm(size) => Some(one(*aspect, OF_ANOTHER_SIZE, format!("for {size} mm"))),
            Carried::TurnedRound => Some(one(*aspect, TURNED, GRIPS_INSIDE.into())),
            Carried::SetOverDeg(angle) => Some(one(*aspect, SET_OVER, format!("{angle} deg"))),
            Carried::AtDegC(_) => None,
        });
    }
    let device = item.set_up.rigging.get(&Aspect::Device);
    let has_jaws = item.set_up.rigging.contains_key(&Aspect::Jaws);
    match device {
        Some(Carried::Held(HeldIn::Jaws)) if !has_jaws => all.push(one(Aspect::Jaws, TURNED, GRIPS_OUTSIDE.into())),
        // Nobody said to which size: no other part fits them.
        Some(Carried::Held(HeldIn::SoftJaws)) if !has_jaws => {
            all.push(one(Aspect::Jaws, BORED, item.operation.address.to_string()));
        }
        _ => {}
    }
    if kind == "lathe" {
        let mut tools: Vec<String> = item.set_up.cuts().map(|cut| cut.tool.clone()).collect();
        tools.sort();
        tools.dedup();
        if !tools.is_empty() {
            all.push(Fitted { aspect: Aspect::Tool, row: TOOL, things: tools, deep: None, opens: false });
        }
    }
    all
}

/// Minutes of fitting, in hundredths: the shop's own, else the table's; and whether they are the table's.
fn hundredths(fitted: &Fitted, stands: &Stands, shop: Option<&ShopOfDay>) -> (u32, bool) {
    let own = shop.into_iter().flat_map(|shop| &shop.change_over);
    let own = own.into_iter().find(|own| own.is_of((&stands.name, stands.kind), fitted.aspect, fitted.row));
    let table = || change_over::row(stands.kind, fitted.aspect, fitted.row);
    let in_hundredths = |minutes: f64| (minutes * 100.0).round().clamp(0.0, 1e7) as u32;
    match own {
        Some(own) => (in_hundredths(crate::quantity::Quantity::number(own.minutes.value)), false),
        None => table().map_or((0, false), |row| (in_hundredths(row.start_min), row.start_min > 0.0)),
    }
}

/// The aspects that need no minutes of their own beside this one.
fn covers(fitted: &Fitted, kind: &str) -> Vec<String> {
    let row = change_over::row(kind, fitted.aspect, fitted.row);
    row.map_or_else(Vec::new, |row| row.covers.iter().map(|aspect| aspect.text().to_owned()).collect())
}

/// One machine of the day, with what its set-ups want of it, the same wish once.
#[derive(Debug, Default)]
pub(super) struct Wants {
    /// The wishes, in words of the search.
    wishes: Vec<search::Wish>,
    /// Settings, where it is an oven or freezer.
    settings: Vec<f64>,
    /// How deep jaws of a size are bored for the first that wants them, mm.
    deep: Vec<(Vec<String>, f64)>,
}

impl Wants {
    /// The number of what a set-up wants; none where it wants nothing.
    pub(super) fn number(
        &mut self,
        item: &Item,
        stands: &Stands,
        shop: Option<&ShopOfDay>,
        assumed: &mut Vec<Assumed>,
    ) -> Option<usize> {
        if has_room(stands.kind) {
            let Some(Carried::AtDegC(setting)) = item.set_up.rigging.get(&Aspect::Setting) else { return None };
            return Some(place_of(&mut self.settings, *setting));
        }
        let wish: search::Wish = fitted(item, stands.kind)
            .into_iter()
            .map(|fitted| {
                let (hundredths, of_table) = hundredths(&fitted, stands, shop);
                if of_table {
                    let minutes = rounded(f64::from(hundredths) / 100.0);
                    assumed.push(Assumed::ChangeOver(stands.name.clone(), fitted.said(), minutes));
                }
                let covers = covers(&fitted, stands.kind);
                let aspect = fitted.aspect.text().into();
                search::Aspect { aspect, to: self.bored(fitted), hundredths, covers }
            })
            .collect();
        (!wish.is_empty()).then(|| place_of(&mut self.wishes, wish))
    }

    /// What is fitted; jaws whose step lies at another depth than that of the first of their size are others.
    fn bored(&mut self, fitted: Fitted) -> Vec<String> {
        let Some(deep) = fitted.deep else { return fitted.things };
        match self.deep.iter().find(|(things, _)| *things == fitted.things) {
            Some((_, first)) if (first - deep).abs() > 0.05 => {
                fitted.things.iter().map(|size| format!("{size}, deep {deep} mm")).collect()
            }
            Some(_) => fitted.things,
            None => {
                self.deep.push((fitted.things.clone(), deep));
                fitted.things
            }
        }
    }

    /// What a machine carries at the start, as the command line says.
    ///
    /// # Errors
    /// What no machine of that kind carries.
    pub(super) fn said(stands: &Stands, said: Option<&str>) -> Result<Fittings, Problem> {
        let said = said.filter(|_| !has_room(stands.kind));
        said.map_or_else(|| Ok(Fittings::new()), |said| carries(stands.kind, said))
    }

    /// The change-overs of the machine, from what it carries at the start; of an oven or freezer from the setting that is said.
    ///
    /// # Errors
    /// What is no setting.
    pub(super) fn rigging(
        &self,
        stands: &Stands,
        (first, said): (&Fittings, Option<&str>),
    ) -> Result<Rigging, Problem> {
        if has_room(stands.kind) {
            let of =
                |to: &str| change_over::row(stands.kind, Aspect::Setting, to).map_or(0, |row| rounded(row.start_min));
            let costs = (of("other temperature up"), of("other temperature down"));
            let first = said.map(|said| degrees(said).ok_or_else(|| no_setting(said))).transpose()?;
            return Ok(Rigging::settings(&self.settings, costs, first));
        }
        let first: Vec<_> = first.iter().map(|(aspect, on)| (aspect.clone(), on.clone())).collect();
        Ok(Rigging::new(&self.wishes, &first))
    }

    /// What is fitted for a want.
    pub(super) fn fittings(&self, number: usize) -> Fittings {
        let wish = self.wishes.get(number).into_iter().flatten();
        wish.map(|own| (own.aspect.clone(), own.to.clone())).collect()
    }

    /// What is fitted for a want, in words: the device and the size of its jaws, what is on already left aside.
    pub(super) fn says(&self, number: usize, on: &Fittings) -> String {
        let Some(wish) = self.wishes.get(number) else { return String::new() };
        let is_on = |own: &search::Aspect| on.get(&own.aspect) == Some(&own.to);
        // A chuck that stays is not fitted: with it stay its jaws.
        let is_held = [Aspect::Device, Aspect::Jaws];
        let is_held = |own: &&search::Aspect| is_held.iter().any(|aspect| own.aspect == aspect.text());
        let stays = wish.iter().filter(is_held).all(is_on);
        let is_new = |own: &&search::Aspect| if is_held(own) { !stays } else { !is_on(own) };
        let wish: Vec<&search::Aspect> = wish.iter().filter(is_new).collect();
        let of =
            |aspect: Aspect| wish.iter().find(|own| own.aspect == aspect.text()).map(|own| said(&own.to.join(", ")));
        let jaws = of(Aspect::Jaws).filter(|jaws| jaws.ends_with(" mm"));
        let parts = [of(Aspect::Device), jaws, of(Aspect::TopSlide)];
        let mut text = parts.into_iter().flatten().collect::<Vec<_>>().join(" ");
        if text.is_empty() {
            // Of several tools in a post those that are there stay.
            let is_there = |own: &search::Aspect, to: &String| on.get(&own.aspect).is_some_and(|on| on.contains(to));
            let new = wish.iter().flat_map(|own| own.to.iter().filter(|to| !is_there(own, to)));
            text = new.cloned().collect::<Vec<_>>().join(", ");
        }
        text
    }
}

/// Whether a kind of machine takes parts inside and leaves them there.
pub(super) fn has_room(kind: &str) -> bool {
    matches!(kind, "oven" | "freezer")
}

/// A word of the tables as it is said.
fn said(word: &str) -> String {
    word.replace('-', " ")
}

/// The place of a thing in a list, put at its end where it is new.
fn place_of<T: PartialEq>(list: &mut Vec<T>, thing: T) -> usize {
    list.iter().position(|known| *known == thing).unwrap_or_else(|| {
        list.push(thing);
        list.len() - 1
    })
}

fn degrees(text: &str) -> Option<f64> {
    text.split_whitespace().next()?.parse().ok().filter(|degrees: &f64| degrees.is_finite())
}

fn no_setting(text: &str) -> Problem {
    Problem::new(None, format!("`{text}` is no setting such as `110 degC`"))
}

/// What a machine carries at the start, as the command line says: a hold word, and for soft jaws the size that they are bored to.
fn carries(kind: &str, text: &str) -> Result<Fittings, Problem> {
    if text.trim() == BARE {
        return Ok(Fittings::new());
    }
    let (word, size) =
        text.trim().split_once(' ').map_or((text.trim(), None), |(word, size)| (word, Some(size.trim())));
    let word = if word == "jaws" { "three-jaw" } else { word };
    if change_over::row(kind, Aspect::Device, word).is_none() {
        let rows = change_over::all().iter().filter(|row| row.machine == kind && row.aspect == Aspect::Device);
        let known = crate::reading::near(word, rows.map(|row| row.to.as_str()));
        return Err(Problem::new(None, format!("no {} carries `{word}`; {known}", said(kind))));
    }
    let mut first = Fittings::from([(Aspect::Device.text().to_owned(), vec![word.to_owned()])]);
    if word == "three-jaw" {
        first.insert(Aspect::Jaws.text().into(), vec![GRIPS_OUTSIDE.into()]);
    }
    if let Some(size) = size {
        let none = || Problem::new(None, format!("`{size}` is no size of jaws such as `58 mm`"));
        let mm: f64 = size.trim_end_matches("mm").trim().parse().map_err(|_| none())?;
        first.insert(Aspect::Jaws.text().into(), vec![format!("{mm} mm")]);
    }
    Ok(first)
}

/// The number of a machine, put behind the others where it is new.
pub(super) fn number_of(machines: &mut Vec<(Stands, Wants)>, stands: &Stands) -> usize {
    machines.iter().position(|(known, _)| known.name == stands.name).unwrap_or_else(|| {
        machines.push((stands.clone(), Wants::default()));
        machines.len() - 1
    })
}
