//! Files are the same twice, say what was laid out, and open clean elsewhere.

use super::{Chapter, Fault, Leaf, Meta, write};
use crate::sheet::fonts::Font;
use crate::sheet::page::{Anchor, Dash, Fill, Page, Paper, Point, Rect, Role, Text};
use lopdf::Document;
use std::process::Command;

const WORDS: &str = "Ø 8.4 mm, µ and μ, ≤ 25 °C, картер, κιβώτιο";

fn page() -> Page {
    let mut page = Page::new(Paper::A4);
    let area = page.area("all", Rect::new(12.0, 12.0, 198.0, 285.0));
    for (i, font) in Font::ALL.into_iter().enumerate() {
        let at = Point::new(20.0, 60.0 + 10.0 * i as f64);
        page.text(area, at, Anchor::Left, Text::new(font, Role::Body, 3.5, WORDS)).unwrap();
    }
    page.rectangle(area, Rect::new(20.0, 100.0, 60.0, 120.0), Fill::Grey(15), Some(0.5));
    page.line(area, vec![Point::new(20.0, 130.0), Point::new(60.0, 140.0)], 0.25, Dash::Chain);
    page
}

fn meta() -> Meta {
    let sheet = |id: &str, page| Leaf { id: id.into(), title: format!("{id} картер"), page };
    let chapters = vec![Chapter { title: "Wand".into(), sheets: vec![sheet("1.1", 0), sheet("1.2", 1)] }];
    let date = Some("2026-11-26".into());
    Meta { title: "Setup sheet Ø".into(), author: "the shop".into(), language: "en-GB".into(), date, chapters }
}

#[test]
fn the_same_pages_give_the_same_bytes_and_other_pages_another_id() {
    let pages = [page(), page()];
    let (once, twice) = (write(&pages, &meta()).unwrap(), write(&pages, &meta()).unwrap());
    assert_eq!(once, twice);
    let other = write(&pages, &Meta { title: "other".into(), ..meta() }).unwrap();
    let id = |bytes: &[u8]| Document::load_mem(bytes).unwrap().trailer.get(b"ID").unwrap().clone();
    assert_ne!(id(&once), id(&other));
}

#[test]
fn the_file_says_what_it_is() {
    let file = Document::load_mem(&write(&[page(), page()], &meta()).unwrap()).unwrap();
    assert_eq!(file.version, "1.7");
    assert_eq!(file.get_pages().len(), 2);
    assert_eq!(file.catalog().unwrap().get(b"Lang").unwrap().as_str().unwrap(), b"en-GB");
    assert!(file.catalog().unwrap().has(b"Outlines"));
}

/// By this it is known again before it is written over, without reading the rest.
#[test]
fn what_made_it_stands_unpacked() {
    let bytes = write(&[page(), page()], &meta()).unwrap();
    let mark = b"<xmp:CreatorTool>setover</xmp:CreatorTool>";
    assert!(bytes.windows(mark.len()).any(|piece| piece == mark));
}

#[test]
fn faults_are_said_and_not_written() {
    assert!(matches!(write(&[], &meta()), Err(Fault::NoPages)));
    assert!(matches!(write(&[page()], &meta()), Err(Fault::NoSuchPage { page: 1, .. })));
    let mut broken = page();
    let area = broken.area("x", Rect::new(0.0, 0.0, 1.0, 1.0));
    broken.line(area, vec![Point::new(0.0, f64::NAN), Point::new(1.0, 1.0)], 0.5, Dash::Whole);
    assert!(matches!(write(&[broken, page()], &meta()), Err(Fault::NotFinite { page: 1, mark: 6 })));
}

/// Runs a viewer's tool on a file; nothing when it is not on this machine.
fn run(tool: &str, arguments: &[&str]) -> Option<(bool, String, String)> {
    let out = Command::new(tool).args(arguments).output().ok()?;
    Some((
        out.status.success(),
        String::from_utf8_lossy(&out.stdout).into_owned(),
        String::from_utf8_lossy(&out.stderr).into_owned(),
    ))
}

#[test]
fn it_opens_clean_elsewhere_and_the_text_read_back_is_the_text_laid_out() {
    let path = std::env::temp_dir().join(format!("setover-pdf-{}.pdf", std::process::id()));
    std::fs::write(&path, write(&[page(), page()], &meta()).unwrap()).unwrap();
    let name = path.to_string_lossy().into_owned();
    if let Some((clean, out, err)) = run("qpdf", &["--check", &name]) {
        assert!(clean && err.is_empty(), "{out}{err}");
    }
    if let Some((clean, out, err)) = run("pdftotext", &["-raw", &name, "-"]) {
        assert!(clean && err.is_empty(), "{err}");
        assert_eq!(out.matches(WORDS).count(), 6, "{out}");
    }
    if let Some((clean, out, err)) = run("pdfinfo", &[&name]) {
        assert!(clean && err.is_empty() && out.contains("Setup sheet Ø"), "{out}{err}");
    }
    std::fs::remove_file(path).unwrap();
}
