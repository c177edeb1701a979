//! Pictures that compare, where a sheet has one: lengths in one wall where nothing may be cut or the depth is doubtful, sizes
//! that fit where they are measured; on the working page always.

use super::block::{Block, in_line};
use super::flow::Section;
use super::lists::bars;
use super::{Sheet, draughting, pictures, svg};
use crate::drawing::Bars;
use crate::operations::Picture;
use crate::sheet::fonts;
use crate::sheet::page::{AreaId, Kind, Page, Point, Rect};
use crate::sheet::{told, words};

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
        Some(Picture::Fit(fit)) if !sheet.may_not_be_cut() => {
            let here = sheet.set_up.map_or("", |set_up| set_up.id);
            let of_this = pictures::bars(&sheet.planned.answer, fit, sheet.plan.print, |group| group.set_up == here);
            of_this.map(|bars| fit_block(sheet, room, &bars)).transpose()?.flatten()
        }
        _ => None,
    };
    section.rows.extend(drawn);
    Ok(())
}

/// Whether a sheet shows what other lengths would do: the first of an operation that must not be cut, and one whose depth is
/// doubtful.
fn shows_lengths(sheet: &Sheet, check: &str) -> bool {
    if sheet.may_not_be_cut() {
        return sheet.number == 1;
    }
    sheet.owned().any(|owned| owned.id == check && super::verdict::is_open(owned))
}

/// The whole picture of an operation in a section of its own.
pub(super) fn section(sheet: &Sheet, width: f64) -> Result<Option<Section>, fonts::Fault> {
    let Some(heading) = heading(sheet) else { return Ok(None) };
    let Some(block) = whole(sheet, (width, HIGHEST))? else { return Ok(None) };
    Ok(Some(Section { name: heading, bar: Some(bars(width, heading, &[])?), rows: vec![block] }))
}

/// The whole picture of an operation; nothing where it has none, or no room.
pub(super) fn whole(sheet: &Sheet, room: (f64, f64)) -> Result<Option<Block>, fonts::Fault> {
    let (answer, print) = (&sheet.planned.answer, sheet.plan.print);
    match &answer.picture {
        Some(Picture::Lengths(lengths)) => {
            let Some(ladder) = pictures::ladder(answer, lengths, print) else { return Ok(None) };
            block(sheet, room, |page, area, at| {
                let drawn = draughting::ladder(page, area, at, &ladder)?;
                Ok((drawn.bounds, told::ladder(&ladder, &drawn)))
            })
        }
        Some(Picture::Fit(fit)) => {
            let Some(bars) = pictures::bars(answer, fit, print, |_| true) else { return Ok(None) };
            fit_block(sheet, room, &bars)
        }
        None => Ok(None),
    }
}

fn fit_block(sheet: &Sheet, room: (f64, f64), bars: &Bars) -> Result<Option<Block>, fonts::Fault> {
    block(sheet, room, |page, area, at| {
        let drawn = draughting::bars(page, area, at, bars)?;
        Ok((drawn.bounds, told::bars(bars, &drawn)))
    })
}

/// What is drawn into a room so wide and high, as a block that says in words what it shows; nothing where it has no room there.
fn block(
    sheet: &Sheet,
    (width, height): (f64, f64),
    draw: impl FnOnce(&mut Page, AreaId, Rect) -> Result<(Rect, String), draughting::Fault>,
) -> Result<Option<Block>, fonts::Fault> {
    if height <= 0.0 {
        return Ok(None);
    }
    let mut page = Page::new(sheet.paper);
    let room = Rect::new(0.0, 0.0, width, height);
    let area = page.area("", room);
    let figure = page.open(Kind::Figure);
    let drawn = draw(&mut page, area, room);
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

/// What compares as SVG, with its heading.
pub(super) fn under_verdict(sheet: &Sheet) -> Result<Option<(&'static str, String)>, super::Fault> {
    let letters = |fault| sheet.letters(words::SKETCH, fault);
    let (width, _) = sheet.paper.size();
    let room = Rect::new(0.0, 0.0, width - 2.0 * super::flow::EDGE, HIGHEST);
    let mut page = Page::new(sheet.paper);
    let area = page.area(words::SKETCH, room);
    let drawn = whole(sheet, (room.width(), room.height())).map_err(letters)?;
    let Some((heading, block)) = heading(sheet).zip(drawn) else { return Ok(None) };
    block.onto(&mut page, area, (0.0, 0.0), Kind::P);
    Ok(svg::pictures(&page, heading).into_iter().next().map(|drawn| (heading, drawn)))
}

/// Over the picture of an operation.
fn heading(sheet: &Sheet) -> Option<&'static str> {
    match &sheet.planned.answer.picture {
        Some(Picture::Lengths(_)) => Some(words::LENGTHS),
        Some(Picture::Fit(_)) => Some(words::FITS),
        None => None,
    }
}
