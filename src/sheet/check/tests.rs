//! Each fault found, and a clean page passed.

use super::{Fault, faults};
use crate::sheet::fonts::Font;
use crate::sheet::page::{Anchor, AreaId, Dash, Fill, Page, Paper, Point, Rect, Role, Text};

fn page() -> (Page, AreaId) {
    let mut page = Page::new(Paper::A4);
    let area = page.area("cuts", Rect::new(12.0, 30.0, 198.0, 200.0));
    (page, area)
}

fn write(page: &mut Page, area: AreaId, x: f64, y: f64, role: Role, capital: f64) {
    page.text(area, Point::new(x, y), Anchor::Left, Text::new(Font::Sans, role, capital, "18.00 mm")).unwrap();
}

fn only(page: &Page) -> Fault {
    let found = faults(page);
    assert_eq!(found.len(), 1, "{found:?}");
    found[0].clone()
}

#[test]
fn a_clean_page_has_no_faults() {
    let (mut page, area) = page();
    page.rectangle(area, Rect::new(20.0, 50.0, 80.0, 70.0), Fill::Grey(15), Some(0.5));
    write(&mut page, area, 30.0, 60.0, Role::Body, 3.0);
    write(&mut page, area, 30.0, 66.0, Role::Body, 3.0);
    assert_eq!(faults(&page), []);
}

#[test]
fn texts_upon_each_other() {
    let (mut page, area) = page();
    write(&mut page, area, 30.0, 60.0, Role::Body, 3.0);
    write(&mut page, area, 32.0, 61.0, Role::Body, 3.0);
    assert!(matches!(only(&page), Fault::TextOnText { .. }));
}

#[test]
fn a_line_through_a_text() {
    let (mut page, area) = page();
    write(&mut page, area, 30.0, 60.0, Role::Body, 3.0);
    page.line(area, vec![Point::new(20.0, 58.5), Point::new(70.0, 58.5)], 0.5, Dash::Whole);
    assert_eq!(only(&page).to_string(), "cuts: a line 0.5 mm wide crosses \"18.00 mm\"");
}

#[test]
fn leaving_area_margin_and_pin() {
    let (mut page, area) = page();
    write(&mut page, area, 186.0, 60.0, Role::Body, 3.0);
    assert!(matches!(faults(&page)[..], [Fault::LeavesArea { .. }, Fault::InMargin { .. }]));
    let mut page = Page::new(Paper::A4);
    let strip = page.area("strip", Rect::new(12.0, 12.0, 198.0, 30.0));
    write(&mut page, strip, 100.0, 20.0, Role::Body, 3.0);
    assert!(matches!(only(&page), Fault::UnderPin { .. }));
}

#[test]
fn letters_too_small_for_their_role() {
    for (role, capital) in [(Role::Body, 2.9), (Role::Figure, 7.4), (Role::Stamp, 9.9)] {
        let (mut page, area) = page();
        write(&mut page, area, 30.0, 60.0, role, capital);
        assert!(matches!(only(&page), Fault::TooSmall { .. }));
    }
}

#[test]
fn dark_fills_and_fills_on_top() {
    let (mut page, area) = page();
    page.rectangle(area, Rect::new(20.0, 50.0, 80.0, 70.0), Fill::Grey(16), None);
    write(&mut page, area, 30.0, 60.0, Role::Body, 3.0);
    assert!(matches!(only(&page), Fault::TooDark { .. }));
    let (mut page, area) = self::page();
    write(&mut page, area, 30.0, 60.0, Role::Body, 3.0);
    page.rectangle(area, Rect::new(20.0, 50.0, 80.0, 70.0), Fill::White, None);
    assert!(matches!(only(&page), Fault::Hidden { .. }));
}

#[test]
fn what_is_not_finite() {
    let (mut page, area) = page();
    page.line(area, vec![Point::new(20.0, f64::NAN), Point::new(70.0, 58.5)], 0.5, Dash::Whole);
    assert!(matches!(only(&page), Fault::NotFinite { .. }));
}
