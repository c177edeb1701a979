//! A sketch in words, from its drawing list: for somebody who hears the sheet, and for whatever shows its text alone.

use crate::drawing::{Drawn, Item, Shows, Sketch};
use crate::operations::Station;

/// What is shown of metal, in the order in which it is told.
const SECTION: &str = "metal cut through, hatched";
const CUT_AWAY: &str = "metal that comes off, cross-hatched";
const VOID: &str = "hole";
const THREAD: &str = "thread";
const INDICATOR: &str = "indicator on its face";
const FEED: &str = "arrow of the feed";
/// Before the list of what is shown.
const SHOWN: &str = "Shown";
/// Before the list of sizes.
const SIZES: &str = "Sizes";
/// Before the list of labels.
const LABELS: &str = "Labels";
/// Behind a size whose line is not as long as its figure says.
const NOT_TO_SCALE: &str = "not to scale";

/// How a part lies in the sketch of a station.
const fn lie(station: Station) -> &'static str {
    match station {
        Station::Lathe => "at the lathe",
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

/// The sketch in words: what it is of and how it lies, its metal, each dimension with name and figure, its labels, its notes
/// (scale, what is drawn larger).
pub(super) fn sketch(sketch: &Sketch, of: Of<'_>, notes: &str, named: impl Fn(&Shows) -> Named) -> String {
    let mut told = vec![format!("{}: {}, {}", of.part, of.set_up, lie(of.station))];
    told.extend(Some(notes.to_owned()).filter(|notes| !notes.is_empty()));
    let size = |shows: &Shows, drawn: Drawn| {
        let Named { name, figure } = named(shows);
        let not_to_scale = if drawn == Drawn::NotToScale { format!(", {NOT_TO_SCALE}") } else { String::new() };
        format!("{name} {}{figure}{not_to_scale}", shows.before)
    };
    let sizes = sketch.items.iter().filter_map(|item| match item {
        Item::Dimension { shows, drawn, .. } => Some(size(shows, *drawn)),
        Item::Roughness { shows, .. } => Some(size(shows, Drawn::ToScale)),
        _ => None,
    });
    let labels = sketch.items.iter().filter_map(|item| match item {
        Item::Label { text, .. } | Item::Moving { label: text, .. } => Some(text.clone()),
        _ => None,
    });
    told.extend(list(SHOWN, shown(sketch).into_iter(), "; "));
    told.extend(list(SIZES, sizes, "; "));
    told.extend(list(LABELS, labels, "; "));
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
            Item::Thread { .. } => THREAD.into(),
            Item::Indicator { .. } => INDICATOR.into(),
            Item::Feed { .. } => FEED.into(),
            Item::Datum { letter, .. } => format!("datum {letter}"),
            _ => continue,
        };
        if !shown.contains(&name) {
            shown.push(name);
        }
    }
    shown
}

/// A heading with a list behind it; nothing where the list is empty.
fn list(heading: &str, items: impl Iterator<Item = String>, between: &str) -> Option<String> {
    let items: Vec<String> = items.collect();
    (!items.is_empty()).then(|| format!("{heading}: {}", items.join(between)))
}

#[cfg(test)]
mod tests {
    use super::{Named, Of, sketch};
    use crate::drawing::{Item, Point, Shows, Side, Sketch, rectangle};
    use crate::operations::Station;

    #[test]
    fn every_dimension_is_told_by_name_and_figure_and_what_is_drawn_once() {
        let mut drawn = Sketch::default();
        drawn
            .section(rectangle(-5.0, 0.0, 5.0, 8.0), 0)
            .section(rectangle(-9.0, 0.0, -6.0, 8.0), 0)
            .cut_away(rectangle(-5.0, 0.0, 5.0, 0.2))
            .dimension(Point::new(5.0, 0.0), Point::new(5.0, 8.0), Side::Right, Shows::value("wall"))
            .dimension_not_to_scale(Point::new(-5.0, 8.0), Point::new(5.0, 8.0), Side::Below, Shows::diameter("bore"))
            .label(Point::new(0.0, 0.0), Side::Above, "soft jaws");
        drawn.push(Item::Datum { at: Point::new(0.0, 0.0), towards: Side::Above, letter: 'A' });
        let named = |shows: &Shows| Named { name: format!("the {}", shows.value), figure: "8.00 ± 0.02".into() };
        let of = Of { part: "ring", set_up: "face", station: Station::Lathe };
        assert_eq!(
            sketch(&drawn, of, "scale 2:1", named),
            "ring: face, at the lathe. scale 2:1. Shown: metal cut through, hatched; metal that comes off, cross-hatched; \
             datum A. Sizes: the wall 8.00 ± 0.02; the bore Ø8.00 ± 0.02, not to scale. Labels: soft jaws."
        );
    }
}
