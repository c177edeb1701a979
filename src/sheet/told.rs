//! A sketch in words, from its drawing list: for somebody who hears the sheet, and for whatever shows its text alone.

mod pictures;

pub(super) use pictures::{bars, ladder, links, pack, polar, spots, wear};

use super::draughting::Drawing;
use super::words;
use crate::drawing::{Item, Shows, Sketch};
use crate::operations::Station;

/// What is shown of metal and of the work.
const SECTION: &str = "metal cut through, hatched";
const CUT_AWAY: &str = "metal that comes off, cross-hatched";
const VOID: &str = "hole";
const OLD: &str = "in phantom lines what was there before";
const JAW: &str = "what holds the part";
const TOOLING: &str = "tool on its axis";
const TOOL: &str = "turning tool";
const BROKEN: &str = "broken off where its end is not known";
const SYMMETRY: &str = "drawn above its axis only, the other half is the same";
const THREAD: &str = "thread";
const INDICATOR: &str = "indicator on its face";
const FEED: &str = "arrow of the feed";
const TURNING: &str = "arrow of the turning tool";
const WRENCH: &str = "arrow of the turning tool, and a wrench";
/// Before the list of what is shown.
const SHOWN: &str = "Shown";
/// Before the list of sizes.
const SIZES: &str = "Sizes";
/// Before the list of labels.
const LABELS: &str = "Labels";
/// Before the scale.
const SCALE: &str = "Scale";
/// Behind a size whose line is not as long as its figure says.
const SHORTENED: &str = "drawn shorter";

/// How a part lies in the sketch of a station.
const fn lie(station: Station) -> &'static str {
    match station {
        Station::Lathe => "at the lathe, axis level",
        Station::Drilling => "under the upright spindle",
        Station::Press => "in the press",
        Station::Oven => "in the oven",
        Station::Bench => "at the bench",
    }
}

/// What a sketch is of.
#[derive(Clone, Copy, Debug)]
pub(super) struct Of<'a> {
    /// The part.
    pub part: &'a str,
    /// The set-up.
    pub set_up: &'a str,
    /// Where it stands.
    pub station: Station,
}

/// A figure of a sketch with its name, as the sheet prints both.
pub(super) struct Named {
    /// Its name.
    pub name: String,
    /// The figure.
    pub figure: String,
}

/// The sketch in words: what it is of and how it lies, its balloons, its metal, each dimension with name and figure, its labels, its
/// scale.
pub(super) fn sketch(sketch: &Sketch, of: Of<'_>, drawing: &Drawing, named: impl Fn(&'static str) -> Named) -> String {
    let mut told = vec![format!("{}: {}, {}", of.part, of.set_up, lie(of.station))];
    let size = |shows: &Shows| {
        let each = shows.values().map(&named).map(|n| match n.name == shows.before {
            true => format!("{}: {}", n.name, n.figure),
            false => format!("{} {}{}", n.name, shows.before, n.figure),
        });
        each.collect::<Vec<_>>().join(", ")
    };
    let sizes = sketch.items.iter().filter_map(|item| match item {
        Item::Dimension { shows, shortened: true, .. } => Some(format!("{}, {SHORTENED}", size(shows))),
        Item::Dimension { shows, .. } | Item::Roughness { shows, .. } | Item::Reads { shows, .. } => Some(size(shows)),
        _ => None,
    });
    let labels = sketch.items.iter().filter_map(|item| match item {
        Item::Label { text, .. } | Item::Moving { label: text, .. } => Some(text.clone()),
        _ => None,
    });
    let balloons = drawing.balloons.iter().map(|balloon| format!("{} {}", balloon.sign(), words::balloon(*balloon)));
    told.extend(list(None, balloons));
    told.extend(list(Some(SHOWN), shown(sketch).into_iter()));
    told.extend(list(Some(SIZES), sizes));
    told.extend(list(Some(LABELS), labels));
    let details = drawing.details.iter().map(|(letter, scale)| words::detail(*letter, &scale.to_string()));
    told.extend(list(Some(SCALE), std::iter::once(drawing.scale.to_string()).chain(details)));
    told.join(". ") + "."
}

/// What is shown of metal and of the work, each once.
fn shown(sketch: &Sketch) -> Vec<String> {
    let mut shown: Vec<String> = Vec::new();
    for item in &sketch.items {
        let name = match item {
            Item::Section { .. } => SECTION.into(),
            Item::CutAway(_) => CUT_AWAY.into(),
            Item::Void(_) => VOID.into(),
            Item::Old(_) => OLD.into(),
            Item::Jaw(_) => JAW.into(),
            Item::Tooling(_) => TOOLING.into(),
            Item::Tool { .. } => TOOL.into(),
            Item::Break { .. } => BROKEN.into(),
            Item::Symmetry { .. } => SYMMETRY.into(),
            Item::Thread { .. } => THREAD.into(),
            Item::Indicator { .. } => INDICATOR.into(),
            Item::Feed { .. } => FEED.into(),
            Item::Turning { wrench: false, .. } => TURNING.into(),
            Item::Turning { wrench: true, .. } => WRENCH.into(),
            Item::Datum { letter, .. } => format!("datum {letter}"),
            _ => continue,
        };
        if !shown.contains(&name) {
            shown.push(name);
        }
    }
    shown
}

/// A list, behind its heading where it has one; nothing where it is empty.
fn list(heading: Option<&str>, items: impl Iterator<Item = String>) -> Option<String> {
    let items = items.collect::<Vec<_>>().join("; ");
    let said = heading.map_or_else(String::new, |heading| format!("{heading}: "));
    (!items.is_empty()).then(|| said + &items)
}

#[cfg(test)]
mod tests {
    use super::{Named, Of, sketch};
    use crate::drawing::{Balloon, Item, Point, Shows, Side, Sketch, rectangle};
    use crate::operations::Station;
    use crate::sheet::draughting;
    use crate::sheet::page::{Page, Paper, Rect};

    #[test]
    fn every_dimension_is_told_by_name_and_figure_and_what_is_drawn_once() {
        let mut drawn = Sketch::default();
        drawn
            .section(rectangle(-5.0, 0.0, 5.0, 8.0), 0)
            .section(rectangle(-9.0, 0.0, -6.0, 8.0), 0)
            .cut_away(rectangle(-5.0, 0.0, 5.0, 2.0))
            .label(Point::new(0.0, 0.0), Side::Above, "soft jaws");
        let dimension = |from: (f64, f64), to: (f64, f64), side, shows, shortened| Item::Dimension {
            from: Point::new(from.0, from.1),
            to: Point::new(to.0, to.1),
            faces: ["", ""],
            side,
            shortened,
            half: false,
            shows,
        };
        drawn.push(dimension((5.0, 0.0), (5.0, 8.0), Side::Right, Shows::value("wall"), false));
        drawn.push(dimension((-5.0, 8.0), (5.0, 8.0), Side::Below, Shows::limits("bore", "least"), true));
        drawn.push(Item::Datum { at: Point::new(0.0, 0.0), towards: Side::Above, letter: 'A' });
        drawn.push(Item::Balloon { balloon: Balloon::Grip, at: Point::new(-9.0, 4.0), towards: Side::Left });
        let figure = "8.00 ± 0.02".to_owned();
        let named = |key: &'static str| Named { name: format!("the {key}"), figure: figure.clone() };
        let of = Of { part: "ring", set_up: "face", station: Station::Press };
        let room = Rect::new(0.0, 0.0, 180.0, 180.0);
        let mut page = Page::new(Paper::A4);
        let area = page.area("sketch", room);
        let drawing = draughting::draw(&mut page, area, room, (&drawn, 3.0), |_| Some(figure.clone())).unwrap();
        let scale = drawing.scale;
        assert_eq!(
            sketch(&drawn, of, &drawing, named),
            format!(
                "ring: face, in the press. ① grip. Shown: metal cut through, hatched; metal that comes off, cross-hatched; \
                 datum A. Sizes: the wall 8.00 ± 0.02; the bore Ø8.00 ± 0.02, the least Ø8.00 ± 0.02, drawn shorter. \
                 Labels: soft jaws. Scale: {scale}."
            )
        );
    }
}
