//! Pictures, where a sheet has one: lengths in one wall where nothing may be cut or the depth is doubtful, sizes that fit where
//! they are measured, both on the working page always; others in the place of a sketch.

use super::block::{Block, in_line};
use super::flow::Section;
use super::lists::bars;
use super::zones::Zones;
use super::{Sheet, draughting, mapped, pictures, sketch, svg};
use crate::operations::{FitGroup, Picture};
use crate::sheet::fonts;
use crate::sheet::page::{AreaId, Kind, Page, Point, Rect};
use crate::sheet::pictures::Pictured;
use crate::sheet::words;

/// Above a picture under other rows, mm.
const ABOVE: f64 = 1.2;
/// Most of a page that a picture takes, mm.
const HIGHEST: f64 = 150.0;

/// Puts the picture of a sheet under the rows of a section, where it belongs there and its zone has the room.
pub(super) fn onto(sheet: &Sheet, section: &mut Section, zone: Rect) -> Result<(), fonts::Fault> {
    let taken: f64 = section.rows.iter().map(|row| row.height).sum();
    let bar = section.bar.as_ref().map_or(0.0, |bar| bar.0.height);
    let room = (zone.width(), zone.height() - bar - taken - ABOVE);
    let drawn = match &sheet.planned.answer.picture {
        Some(Picture::Lengths(lengths)) if shows_lengths(sheet, lengths.check) => whole(sheet, room)?,
        Some(Picture::Fit(fit)) if !sheet.may_not_be_cut() && in_place_of_sketch(sheet).is_empty() => {
            let here = sheet.set_up.map_or("", |set_up| set_up.id);
            let of_this = pictures::bars(&sheet.planned.answer, fit, sheet.plan.print, |group| group.set_up == here);
            of_this.map(|bars| block(sheet, room, &bars)).transpose()?.flatten()
        }
        Some(Picture::Links(_)) if sheet.set_up.is_none() && in_place_of_sketch(sheet).is_empty() => {
            whole(sheet, room)?
        }
        Some(Picture::Wear(_)) if sheet.number == 1 => whole(sheet, room)?,
        Some(Picture::Spots(_)) if !sheet.may_not_be_cut() => mapped::blanks(sheet, room)?,
        _ => None,
    };
    section.rows.extend(drawn);
    Ok(())
}

/// The picture of a sheet alone, where a place has the room for it.
pub(super) fn beneath(sheet: &Sheet, place: Rect) -> Result<Option<Block>, fonts::Fault> {
    let mut alone = Section { name: words::CUTS, bar: None, rows: Vec::new() };
    onto(sheet, &mut alone, place)?;
    Ok(alone.rows.pop())
}

/// Whether a picture of sizes that fit, or blanks as the places of a face lie, belong under the steps of a sheet.
pub(super) fn stands_under_steps(sheet: &Sheet) -> bool {
    let here = sheet.set_up.map_or("", |set_up| set_up.id);
    let belongs = match &sheet.planned.answer.picture {
        Some(Picture::Fit(fit)) => {
            in_place_of_sketch(sheet).is_empty() && fit.groups.iter().any(|group| group.set_up == here)
        }
        Some(Picture::Spots(face)) => face.set_ups.contains(&here),
        _ => false,
    };
    belongs && !sheet.may_not_be_cut()
}

/// Whether a sheet shows what other lengths would do: the first of an operation that must not be cut, and one whose depth is
/// doubtful.
fn shows_lengths(sheet: &Sheet, check: &str) -> bool {
    if sheet.may_not_be_cut() {
        return sheet.number == 1;
    }
    sheet.owned().any(|owned| owned.id == check && super::verdict::is_open(owned))
}

/// The picture that stands in the place of a sheet's sketch, and after it what of it may stand there where the whole has no
/// room: of sizes that fit, where nothing else is drawn, the last group, which is what the others are measured for. Nothing
/// where it has none such.
pub(super) fn in_place_of_sketch(sheet: &Sheet) -> Vec<Box<dyn Pictured>> {
    let (answer, print) = (&sheet.planned.answer, sheet.plan.print);
    let whole = || pictures::whole(answer, print).into_iter();
    match (&answer.picture, sheet.set_up) {
        (Some(Picture::Links(_)), None) => whole().filter(|links| has_room(sheet, &**links)).collect(),
        (Some(Picture::Fit(fit)), Some(set_up)) if set_up.sketch.items.is_empty() && !sheet.may_not_be_cut() => {
            let last = fit.groups.len().saturating_sub(1);
            let is_last = |group: &FitGroup<String>| fit.groups.get(last).is_some_and(|other| other == group);
            let of_last = pictures::bars(answer, fit, print, is_last);
            whole().chain(of_last.map(|bars| Box::new(bars) as Box<dyn Pictured>)).collect()
        }
        (Some(picture), Some(set_up)) if picture.is_sketch_of(set_up.id) => whole().collect(),
        _ => Vec::new(),
    }
}

/// Where a sketch stands: beside it too, where nothing is set up and nothing stands there.
pub(super) fn zone(sheet: &Sheet) -> Rect {
    let Zones { sketch, beside, .. } = Zones::of(sheet.paper);
    if sheet.set_up.is_none() { sketch.and(&beside) } else { sketch }
}

/// Whether a picture has room where a sketch stands.
fn has_room(sheet: &Sheet, picture: &dyn Pictured) -> bool {
    let zone = zone(sheet);
    let mut page = Page::new(sheet.paper);
    let area = page.area("", zone);
    picture.put(&mut page, area, zone).is_ok()
}

/// Draws the first of such pictures that has room in the zone of the sketch there; where none has, the whole as a page of its own.
pub(super) fn draw_in_place(
    sheet: &Sheet,
    pictures: &[Box<dyn Pictured>],
    (page, area, zone): (&mut Page, AreaId, Rect),
) -> Result<sketch::Drawn, draughting::Fault> {
    let mut why = draughting::Fault::Empty;
    for picture in pictures {
        let figure = page.open(Kind::Figure);
        let drawn = picture.put(page, area, zone);
        page.close();
        match drawn {
            Ok((_, told)) => {
                page.describe(figure, in_line(&told));
                return Ok(sketch::Drawn::default());
            }
            Err(fault) => why = fault,
        }
    }
    let (width, _) = sheet.paper.size();
    let room = (width - 2.0 * super::flow::EDGE, HIGHEST);
    let whole = pictures.first().map(|picture| block(sheet, room, &**picture)).transpose()?.flatten();
    let apart = whole.ok_or(why)?;
    sketch::say_apart(page, area, zone)?;
    Ok(sketch::Drawn { apart: Some(apart), ..sketch::Drawn::default() })
}

/// The whole picture of an operation in a section of its own, where it stands on no sheet in the place of a sketch.
pub(super) fn section(sheet: &Sheet, width: f64) -> Result<Option<Section>, fonts::Fault> {
    if stands_on_sheets(sheet) {
        return Ok(None);
    }
    let Some(picture) = pictures::whole(&sheet.planned.answer, sheet.plan.print) else { return Ok(None) };
    let Some(block) = block(sheet, (width, HIGHEST), &*picture)? else { return Ok(None) };
    let heading = picture.heading();
    Ok(Some(Section { name: heading, bar: Some(bars(width, heading, &[])?), rows: vec![block] }))
}

/// Whether the picture of an operation is the sketch of one of its set-ups.
fn stands_on_sheets(sheet: &Sheet) -> bool {
    let answer = &sheet.planned.answer;
    let is_sketch = |picture: &Picture<String>| answer.set_ups.iter().any(|set_up| picture.is_sketch_of(set_up.id));
    answer.picture.as_ref().is_some_and(is_sketch)
}

/// The whole picture of an operation; nothing where it has none, or no room.
pub(super) fn whole(sheet: &Sheet, room: (f64, f64)) -> Result<Option<Block>, fonts::Fault> {
    let picture = pictures::whole(&sheet.planned.answer, sheet.plan.print);
    Ok(picture.map(|picture| block(sheet, room, &*picture)).transpose()?.flatten())
}

/// A picture drawn into a room so wide and high, as a block that says in words what it shows; nothing where it has no room there.
fn block(sheet: &Sheet, (width, height): (f64, f64), picture: &dyn Pictured) -> Result<Option<Block>, fonts::Fault> {
    if height <= 0.0 {
        return Ok(None);
    }
    let mut page = Page::new(sheet.paper);
    let room = Rect::new(0.0, 0.0, width, height);
    let area = page.area("", room);
    let figure = page.open(Kind::Figure);
    let drawn = picture.put(&mut page, area, room);
    page.close();
    match drawn {
        Ok((bounds, told)) => {
            page.describe(figure, in_line(&told));
            Ok(Some(Block::of_page(&page, Point::new(0.0, -ABOVE), bounds.bottom + ABOVE)))
        }
        Err(draughting::Fault::Letters(fault)) => Err(fault),
        Err(_) => Ok(None),
    }
}

/// The picture of an operation as SVG: what compares where it has that, else the sketch of its first set-up.
pub(super) fn alone(sheet: &Sheet) -> Result<Option<String>, super::Fault> {
    if let Some((_, drawn)) = under_verdict(sheet)? {
        return Ok(Some(drawn));
    }
    Ok(sheet.pages()?.iter().flat_map(|page| svg::pictures(page, &sheet.title())).next())
}

/// The picture as SVG, with its heading.
pub(super) fn under_verdict(sheet: &Sheet) -> Result<Option<(&'static str, String)>, super::Fault> {
    let letters = |fault| sheet.letters(words::SKETCH, fault);
    let (width, _) = sheet.paper.size();
    let room = Rect::new(0.0, 0.0, width - 2.0 * super::flow::EDGE, HIGHEST);
    let mut page = Page::new(sheet.paper);
    let area = page.area(words::SKETCH, room);
    let Some(picture) = pictures::whole(&sheet.planned.answer, sheet.plan.print) else { return Ok(None) };
    let drawn = block(sheet, (room.width(), room.height()), &*picture).map_err(letters)?;
    let Some(block) = drawn else { return Ok(None) };
    block.onto(&mut page, area, (0.0, 0.0), Kind::P);
    let heading = picture.heading();
    Ok(svg::pictures(&page, heading).into_iter().next().map(|drawn| (heading, drawn)))
}
