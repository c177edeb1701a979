//! The pictures that compare, in words.

use crate::drawing::{
    Bar, Bars, Goes, Grip, Ladder, LinkRow, Links, Pack, Polar, Ruler, Spot, Spots, Stretch, Touches, Wear, WearAxis,
    WearKind, WearLine,
};
use crate::sheet::draughting::{BarsDrawn, LadderDrawn, LinksDrawn, PackDrawn, PolarDrawn, SpotsDrawn, WearDrawn};
use crate::sheet::words;

/// Before the lengths of a ladder.
const LENGTHS: &str = "Lengths side by side in one wall";
/// Of the length that was taken.
const FRAMED: &str = "framed, it is the one chosen";
/// Before the bars.
const BARS: &str = "Sizes as bars on one scale";
/// Before the scale.
const SCALE: &str = "Scale";
/// Before the figures of a ruler.
const RULER: &str = "ruler";
/// Before the readings round a circle.
const ROUND: &str = "Readings round the work, the first jaw up, angles as the clock goes";
/// Before the heights of a face.
const SPOTS: &str = "The face from above, the blacker a mark the higher it stands";
/// Before what the marks mean.
const BANDS: &str = "Marks from empty to black";

/// Lengths side by side: what stands over and under each column, and which is framed.
pub(in crate::sheet) fn ladder(ladder: &Ladder, drawn: &LadderDrawn) -> String {
    let lines = ladder.lines.iter().filter(|line| !line.is_empty()).cloned().collect::<Vec<_>>().join(", ");
    let mut told = vec![format!("{LENGTHS}; {lines}")];
    for (at, rung) in ladder.rungs.iter().enumerate() {
        let rows = ladder.above.iter().chain(&ladder.below);
        let cells = rows.filter_map(|row| {
            let cell = row.cells.get(at).filter(|cell| !cell.is_empty())?;
            Some(format!("{} {cell}", row.caption).trim_start().to_owned())
        });
        told.push(cells.chain(rung.chosen.then(|| FRAMED.to_owned())).collect::<Vec<_>>().join(", "));
    }
    told.push(format!("{SCALE} {}", drawn.scale));
    told.join(". ") + "."
}

/// Bars: each with its ends, what lies between, the ruler.
pub(in crate::sheet) fn bars(bars: &Bars, drawn: &BarsDrawn) -> String {
    let mut told = vec![BARS.to_owned()];
    told.extend(groups(bars, drawn.scale));
    told.join(". ") + "."
}

/// What bars show, and their scale.
fn groups(bars: &Bars, scale: f64) -> Vec<String> {
    let mut told = Vec::new();
    let bar = |bar: &Bar| format!("{} {} … {}", bar.name, bar.ends[0], bar.ends[1]);
    for group in &bars.groups {
        told.extend(group.bars.iter().map(bar));
        told.extend(group.gap.as_ref().map(|gap| format!("{} {}", gap.name, gap.says.join(", "))));
        told.push(ruler(&group.ruler));
    }
    told.push(format!("{SCALE} {}", words::a_micrometre(scale)));
    told
}

fn ruler(ruler: &Ruler) -> String {
    let figures = |ticks: &[(f64, String)]| ticks.iter().map(|tick| tick.1.clone()).collect::<Vec<_>>().join(", ");
    let under = ruler.under.iter().map(|(caption, marks)| format!("; {caption} {}", figures(marks)));
    format!("{RULER}, {}: {}{}", ruler.caption, figures(&ruler.ticks), under.collect::<String>())
}

/// Readings round a circle: each with its angle, each jaw with what is done to it.
pub(in crate::sheet) fn polar(polar: &Polar, drawn: &PolarDrawn) -> String {
    let reads = polar.reads.iter().map(|read| format!("{}° {}", crate::quantity::figure(read.degrees), read.says));
    let reads = reads.collect::<Vec<_>>().join(", ");
    let mut told = vec![if reads.is_empty() { ROUND.to_owned() } else { format!("{ROUND}: {reads}") }];
    told.extend(polar.says.iter().flatten().cloned());
    told.extend(polar.grips.iter().map(grip));
    told.push(words::off_centre_times(drawn.times));
    told.join(". ") + "."
}

fn grip(grip: &Grip) -> String {
    let place = format!("{:.0}°", grip.degrees.rem_euclid(360.0));
    let name = grip.number.map_or_else(|| place.clone(), |number| format!("jaw {number} at {place}"));
    let goes = grip.goes.map(|goes| if goes == Goes::In { "arrow inwards" } else { "arrow outwards" });
    let all = std::iter::once(name).chain(grip.says.iter().cloned()).chain(goes.map(str::to_owned));
    all.collect::<Vec<_>>().join(", ")
}

/// A face from above: each place with its height, which touch the planes, what the marks mean.
pub(in crate::sheet) fn spots(spots: &Spots, drawn: &SpotsDrawn) -> String {
    let mut told = vec![format!("{SPOTS}; {}", spots.says.join("; "))];
    let place = |spot: &Spot| {
        let (x, y) = (crate::quantity::figure(spot.x), crate::quantity::figure(-spot.y));
        let touches = match spot.touches {
            Some(Touches::Upper) => ", touches the upper plane",
            Some(Touches::Lower) => ", touches the lower plane",
            None => "",
        };
        format!("at {x}, {y}: {}{touches}", spot.says)
    };
    told.push(spots.places.iter().map(place).collect::<Vec<_>>().join("; "));
    told.push(format!("{BANDS}: {}", spots.bands.join(", ")));
    told.push(format!("{SCALE} {}", drawn.scale));
    told.join(". ") + "."
}

/// Links of a gap: each with its size and its share, then the gap.
pub(in crate::sheet) fn links(links: &Links, drawn: &LinksDrawn) -> String {
    let row = |row: &LinkRow| format!("{} {}, {}", row.name, row.size, row.says);
    let mut told = vec![format!("{}, {}", words::LINKS, words::LINK_SHARE)];
    told.extend(links.rows.iter().map(row));
    told.extend(groups(&links.closing, drawn.scale));
    told.join(". ") + "."
}

/// A pack of shims: the sizes, the pack, the floats.
pub(in crate::sheet) fn pack(pack: &Pack, drawn: &PackDrawn) -> String {
    let said = |one: &Stretch| format!("{} {}", one.name, one.says);
    let size = |one: &Stretch| match one.is_hatched {
        true => format!("{} {}, closes", one.name, one.says),
        false => format!("{} {}", one.name, one.says),
    };
    let mut told = vec![words::PACK.to_owned()];
    told.extend(pack.links.iter().map(size));
    told.push(pack.pack.join(", "));
    told.extend(pack.floats.iter().map(said));
    told.push(words::scales_of_pack(drawn.sizes, drawn.pack));
    told.join(". ") + "."
}

/// A worn bore: each axis with its diameters, then what they are held against.
pub(in crate::sheet) fn wear(wear: &Wear, drawn: &WearDrawn) -> String {
    let mut told = vec![words::WEAR.to_owned()];
    let axis = |axis: &WearAxis| {
        let sizes = axis.sizes.iter().zip(&wear.depths);
        let sizes = sizes.map(|(size, depth)| format!("{} at {}", crate::quantity::figure(*size), depth.1));
        format!("{}: {}", axis.name, sizes.collect::<Vec<_>>().join(", "))
    };
    told.extend(wear.axes.iter().map(axis));
    let line = |line: &WearLine| {
        let taken = if line.kind == WearKind::Taken { words::BORED_TO } else { "" };
        format!("{} {} {taken}", line.name, line.says).trim_end().to_owned()
    };
    told.extend(wear.lines.iter().map(line));
    told.push(words::scales_of_wear(drawn.across, drawn.down));
    told.join(". ") + "."
}
