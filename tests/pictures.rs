//! The pictures that compare: of lengths in one wall the columns are the standard lengths, drawn as deep as they are worked, the
//! chosen one framed; of sizes that fit the bars end at their values.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common;

use common::jobs::random_jobs_keep;
use common::{shop, try_plan};
use setover::operations::Picture;
use setover::plan::{Plan, Planned};
use setover::quantity::Print;
use setover::sheet::check::faults;
use setover::sheet::draughting::{bars, ladder};
use setover::sheet::page::{Ink, Page, Paper, Point, Rect};
use setover::sheet::pictures;
use std::collections::BTreeSet;

const ROOM: Rect = Rect::new(12.0, 50.0, 198.0, 230.0);

/// Every closed shape of a page with its line, mm.
fn shapes(page: &Page) -> Vec<(Vec<Point>, Option<f64>)> {
    let shape = |ink: &Ink| match ink {
        Ink::Polygon { points, stroke, .. } => Some((points.clone(), *stroke)),
        _ => None,
    };
    page.marks.iter().filter_map(|mark| shape(&mark.ink)).collect()
}

fn texts(page: &Page) -> Vec<(String, Rect)> {
    let text = |mark: &setover::sheet::page::Mark| match &mark.ink {
        Ink::Text(text) => Some((text.text.clone(), mark.bounds)),
        _ => None,
    };
    page.marks.iter().filter_map(text).collect()
}

fn lengths(planned: &Planned, page: &mut Page, said: &mut Vec<String>) {
    let answer = &planned.answer;
    let Some(Picture::Lengths(of)) = &answer.picture else { return };
    let Some(drawing) = pictures::ladder(answer, of, Print::Metric) else { return };
    let area = page.area("lengths", ROOM);
    let drawn = match ladder(page, area, ROOM, &drawing) {
        Ok(drawn) => drawn,
        Err(fault) => return said.push(fault.to_string()),
    };
    let all = &answer.alternatives;
    if drawn.columns.len() != all.len() {
        said.push(format!("{} columns for {} lengths", drawn.columns.len(), all.len()));
    }
    for (one, column) in all.iter().zip(&drawn.columns) {
        let inside = |p: &Point| p.x > column.left && p.x < column.right;
        let here: Vec<_> = shapes(page).into_iter().filter(|(points, _)| points.iter().all(inside)).collect();
        if !texts(page)
            .iter()
            .any(|(text, at)| text.starts_with(&one.name) && column.left < at.left && at.right < column.right)
        {
            said.push(format!("{} does not stand over its column", one.name));
        }
        for key in [of.depth, of.tip].iter().filter_map(|key| one.answer.value(key)) {
            let y = drawn.face + key.number * drawn.scale.factor();
            let ends = |points: &[Point]| points.iter().any(|p| (p.y - y).abs() < 0.1 * drawn.scale.factor());
            if !here.iter().any(|(points, _)| ends(points)) {
                said.push(format!("{}: {} is not drawn at {}", one.name, key.key, key.number));
            }
        }
        let framed = here.iter().any(|(points, stroke)| {
            *stroke == Some(0.7) && Rect::about(points).is_some_and(|r| r.width() > column.width() - 1.0)
        });
        if framed != one.chosen {
            said.push(format!("{}: framed {framed}, chosen {}", one.name, one.chosen));
        }
    }
    // The far side is a line over all columns, as far under the face as the wall is thick.
    let far = drawn.face + answer.value(of.wall).unwrap().number * drawn.scale.factor();
    let across = |ink: &Ink| match ink {
        Ink::Line { points, .. } => {
            points.iter().all(|p| (p.y - far).abs() < 1e-6)
                && points.len() == 2
                && (points[0].x - points[1].x).abs() > 20.0
        }
        _ => false,
    };
    if !page.marks.iter().any(|mark| across(&mark.ink)) {
        said.push("the far side is not drawn at the wall's thickness".into());
    }
}

fn fit(planned: &Planned, page: &mut Page, said: &mut Vec<String>) {
    let answer = &planned.answer;
    let Some(Picture::Fit(of)) = &answer.picture else { return };
    let Some(drawing) = pictures::bars(answer, of, Print::Metric, |_| true) else { return };
    let area = page.area("fit", ROOM);
    let drawn = match bars(page, area, ROOM, &drawing) {
        Ok(drawn) => drawn,
        Err(fault) => return said.push(fault.to_string()),
    };
    let words = texts(page);
    let place = |name: &str| words.iter().find(|(text, _)| text == name).map(|(_, at)| *at);
    for group in &drawing.groups {
        // The ruler alone says where a size stands: its nought and its scale, as printed.
        let (nought, label) = &group.ruler.ticks[0];
        let nought_x = words.iter().filter(|(text, _)| text == label).map(|(_, at)| at.centre().x);
        let below = |r: &Rect, name: &str| place(name).is_some_and(|at| at.top < r.bottom && at.bottom > r.top);
        let xs: Vec<f64> = nought_x.collect();
        for bar in &group.bars {
            let ends = [bar.low, bar.high].map(|at| (at - nought) * 1000.0 * drawn.scale);
            let is_drawn = shapes(page).iter().filter_map(|(points, _)| Rect::about(points)).any(|r| {
                below(&r, &bar.name)
                    && xs.iter().any(|x| (r.left - x - ends[0]).abs() < 0.05 && (r.right - x - ends[1]).abs() < 0.05)
            });
            if !is_drawn {
                said.push(format!("{} does not end at its values", bar.name));
            }
        }
    }
    for (group, drawn) in of.groups.iter().zip(&drawing.groups) {
        let values = group.sizes.iter().filter_map(|(_, ends)| match ends {
            setover::operations::Ends::Limits(low, high) => {
                Some((answer.value(low)?.number, answer.value(high)?.number))
            }
            setover::operations::Ends::Doubt(key) => {
                let value = answer.value(key)?;
                let band = value.band.unwrap_or((value.number, value.number));
                Some((band.0 - value.plus_minus, band.1 + value.plus_minus))
            }
        });
        if values.zip(&drawn.bars).any(|((low, high), bar)| (low, high) != (bar.low, bar.high)) {
            said.push("a bar is not its value".into());
        }
    }
}

/// What breaks a law, each with its operation.
fn broken(plan: &Plan) -> BTreeSet<String> {
    let mut all = BTreeSet::new();
    for planned in &plan.operations {
        let (mut page, mut said) = (Page::new(Paper::A4), Vec::new());
        lengths(planned, &mut page, &mut said);
        fit(planned, &mut page, &mut said);
        said.extend(faults(&page).iter().map(ToString::to_string));
        all.extend(said.into_iter().map(|fault| format!("{}: {fault}", planned.address)));
    }
    all
}

#[test]
fn the_demonstration_and_the_examples_keep_the_laws() {
    let read = |path: &str| std::fs::read_to_string(path).unwrap();
    let own = shop(&read("demo/shop.yaml"));
    let plan = try_plan(&read("demo/tidewater.yaml"), Some(&own)).unwrap();
    let pictures = plan.operations.iter().filter(|planned| planned.answer.picture.is_some()).count();
    assert_eq!(pictures, 6, "four inserts, two bushes");
    let mut all = broken(&plan);
    for word in ["ream-bush", "thread-insert"] {
        all.extend(broken(&try_plan(&read(&format!("examples/{word}.yaml")), None).unwrap()));
    }
    assert!(all.is_empty(), "{all:#?}");
}

#[test]
fn random_jobs_keep_the_laws() {
    random_jobs_keep(60, |plan| broken(plan).into_iter().collect());
}
