//! The pictures that compare, in words.

use crate::drawing::{Bar, Bars, Ladder, Ruler};
use crate::sheet::draughting::{BarsDrawn, LadderDrawn};
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
