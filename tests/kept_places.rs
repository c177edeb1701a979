//! The same thing in the same place on either paper, in any units: the side on which a tool stands, how large a round part is drawn,
//! the blanks of a face that is read at many places.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common::laws::{of_sheet, texts};
use crate::common::printed::each_printed;
use setover::operations::Picture;
use setover::plan::Plan;
use setover::sheet::page::{Dash, Fill, Ink, Mark, Page};

/// Stroke of a tool's cutting edge, mm.
const EDGE: f64 = 0.7;
/// A round part less high on the paper is drawn above its axis only, mm.
const SMALL: f64 = 40.0;

fn in_area<'a>(page: &'a Page, name: &str) -> Vec<&'a Mark> {
    page.marks.iter().filter(|mark| page.area_of(mark.area).is_some_and(|area| area.name == name)).collect()
}

/// Each committed job that is no test's, as it is printed.
fn each(looked_at: impl Fn(&str, &Plan, &[Page]) + Sync) {
    let wanted = |path: &str, _, _| !path.starts_with("tests/f");
    each_printed(wanted, |printed| looked_at(&printed.name(), &printed.plan, &printed.pages));
}

/// On the lathe the tool stands above the axis, and a part that would be small is drawn above it only.
#[test]
fn the_tool_stands_above_the_axis_on_either_paper() {
    let seen = std::sync::atomic::AtomicUsize::new(0);
    each(|path, plan, pages| {
        for (planned, operation) in plan.operations.iter().zip(1..) {
            for (set_up, number) in planned.answer.set_ups.iter().zip(1..) {
                let id = format!("{operation}.{number}");
                let Some(diameter) = set_up.sketch.round else { continue };
                let own = of_sheet(pages, &id);
                let Some(first) = own.first() else { continue };
                let marks = in_area(first, "sketch");
                let axis = marks.iter().filter_map(|mark| match &mark.ink {
                    Ink::Line { points, dash: Dash::Chain, .. } if (points[0].y - points[1].y).abs() < 0.01 => {
                        Some(((points[0].x - points[1].x).abs(), points[0].y))
                    }
                    _ => None,
                });
                let Some((_, axis)) = axis.max_by(|one, other| one.0.total_cmp(&other.0)) else { continue };
                let edges = marks.iter().filter(
                    |mark| matches!(&mark.ink, Ink::Line { width, dash: Dash::Whole, .. } if (width - EDGE).abs() < 1e-6),
                );
                for edge in edges {
                    assert!(edge.bounds.top < axis, "{path} {id}: a tool at {:?}, axis {axis}", edge.bounds);
                    seen.fetch_add(1, std::sync::atomic::Ordering::Relaxed);
                }
                let scale = texts(first, "sketch").iter().find_map(|text| text.text.strip_prefix("Scale "));
                let Some((paper, part)) = scale.and_then(|scale| scale.split_once(':')) else { continue };
                let scale = paper.parse::<f64>().unwrap() / part.parse::<f64>().unwrap();
                let sections = marks.iter().filter_map(|mark| match &mark.ink {
                    Ink::Polygon { stroke: Some(_), .. } if mark.bounds.height() > 1.0 => Some(mark.bounds.bottom),
                    _ => None,
                });
                let lowest = sections.fold(0.0, f64::max);
                let is_whole = lowest > axis + 0.4 * diameter * scale;
                assert!(!is_whole || diameter * scale >= SMALL - 1e-6, "{path} {id}: whole, {:.0}", diameter * scale);
            }
        }
    });
    assert!(seen.into_inner() > 100);
}

/// A face that is read at many places has a blank for each reading where those are taken, as the places lie: none lies on another.
#[test]
fn a_face_read_at_many_places_has_a_blank_for_each() {
    let seen = std::sync::atomic::AtomicUsize::new(0);
    each(|path, plan, pages| {
        for (planned, operation) in plan.operations.iter().zip(1..) {
            let Some(Picture::Spots(face)) = &planned.answer.picture else { continue };
            if !path.starts_with("examples") {
                continue;
            }
            let id = format!("{operation}.1");
            let own = of_sheet(pages, &id);
            let cuts = in_area(own[0], "cuts");
            let blanks: Vec<_> = cuts
                .iter()
                .filter(|mark| matches!(mark.ink, Ink::Polygon { fill: Fill::None, stroke: Some(_), .. }))
                .map(|mark| mark.bounds)
                .collect();
            assert_eq!(blanks.len(), face.places.len(), "{path} {id}");
            for (place, blank) in face.places.iter().zip(&blanks) {
                for (other, beside) in face.places.iter().zip(&blanks) {
                    assert!(place.x <= other.x + 1e-6 || blank.left > beside.left, "{path} {id}: {blank:?} {beside:?}");
                    assert!(place.y <= other.y + 1e-6 || blank.top < beside.top, "{path} {id}: {blank:?} {beside:?}");
                }
            }
            seen.fetch_add(blanks.len(), std::sync::atomic::Ordering::Relaxed);
        }
    });
    assert!(seen.into_inner() > 50);
}

/// Where a bore is read to know what is left to ream, the bars of the fit stand under the steps, on either paper. Figures in both
/// units take their room on the lower paper.
#[test]
fn the_bars_of_a_fit_stand_where_the_stock_is_read_off_them() {
    let seen = std::sync::atomic::AtomicUsize::new(0);
    each(|path, plan, pages| {
        for (planned, operation) in plan.operations.iter().zip(1..) {
            let Some(Picture::Fit(fit)) = &planned.answer.picture else { continue };
            let is_full = path.ends_with("Letter Both");
            if path.starts_with("tests") || is_full || planned.verdict == setover::proof::Verdict::Fails {
                continue;
            }
            for group in fit.groups.iter().filter(|group| group.left_to.is_some()) {
                let at =
                    planned.answer.set_ups.iter().position(|set_up| set_up.id == group.set_up).expect("its set-up");
                let id = format!("{operation}.{}", at + 1);
                let own = of_sheet(pages, &id);
                let all: Vec<&str> = texts(own[0], "cuts").iter().map(|text| text.text.as_str()).collect();
                assert!(all.contains(&group.ruler.as_str()), "{path} {id}: {all:?}");
                seen.fetch_add(1, std::sync::atomic::Ordering::Relaxed);
            }
        }
    });
    assert!(seen.into_inner() > 10);
}
