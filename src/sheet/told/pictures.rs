//! The pictures that compare, in words.

use crate::drawing::{Bar, Bars, Goes, Grip, Ladder, Polar, Ruler};
use crate::sheet::draughting::{BarsDrawn, LadderDrawn, PolarDrawn};
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
    let bar = |bar: &Bar| format!("{} {} … {}", bar.name, bar.ends[0], bar.ends[1]);
    for group in &bars.groups {
        told.extend(group.bars.iter().map(bar));
        told.extend(group.gap.as_ref().map(|gap| format!("{} {}", gap.name, gap.says.join(", "))));
        told.push(ruler(&group.ruler));
    }
    told.push(format!("{SCALE} {}", words::a_micrometre(drawn.scale)));
    told.join(". ") + "."
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
