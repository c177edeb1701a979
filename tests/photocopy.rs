//! A sheet after a worn printer and a photocopier: grey, a hundred dots an inch, every dot black or white. Every word of it must
//! still be there. Needs `pdftoppm` of poppler; without it the test says that it was skipped.
#![allow(clippy::expect_used, clippy::indexing_slicing, clippy::panic, clippy::unwrap_used)]

use crate::common;

use setover::quantity::Print;
use setover::sheet::layout;
use setover::sheet::page::{Ink, Page, Rect, Text};
use setover::shop::{Paper, Shop};
use std::path::Path;
use std::process::Command;

/// Dots an inch of the copy; how many times finer the original is looked at.
const COPY: usize = 100;
const FINER: usize = 3;
/// Least likeness (correlation) of a word on the copy with the original.
const LIKE: f64 = 0.6;

/// A picture of a page: darkness of each dot, 0 to 1.
struct Dots {
    wide: usize,
    dark: Vec<f64>,
}

impl Dots {
    fn of(pdf: &Path, page: usize, dpi: usize) -> Self {
        let out = pdf.with_extension(format!("{page}-{dpi}"));
        let (page, dpi) = (page.to_string(), dpi.to_string());
        let mut made = Command::new("pdftoppm");
        made.args(["-gray", "-singlefile", "-r", &dpi, "-f", &page, "-l", &page]).arg(pdf).arg(&out);
        assert!(made.status().expect("pdftoppm runs").success());
        let bytes = std::fs::read(format!("{}.pgm", out.display())).expect("a picture");
        // P5, width, height, greatest value, each followed by one space or line end.
        let mut ends = bytes.iter().enumerate().filter(|(_, byte)| byte.is_ascii_whitespace()).map(|(at, _)| at);
        let (_, first, second, third) = (ends.next(), ends.next(), ends.next(), ends.next().expect("a head"));
        let number = |from: usize, to: usize| std::str::from_utf8(&bytes[from..to]).unwrap().trim().parse().unwrap();
        let (first, second) = (first.unwrap(), second.unwrap());
        let (wide, high): (usize, usize) = (number(2, first), number(first, second));
        let dark = bytes[third + 1..].iter().map(|grey| 1.0 - f64::from(*grey) / 255.0).collect::<Vec<_>>();
        assert_eq!(dark.len(), wide * high);
        Self { wide, dark }
    }

    fn at(&self, x: usize, y: usize) -> f64 {
        self.dark.get(y * self.wide + x).copied().filter(|_| x < self.wide).unwrap_or(0.0)
    }

    /// The mean over a dot of the copy.
    fn coarse(&self, x: usize, y: usize) -> f64 {
        let fine = (0..FINER).flat_map(|dx| (0..FINER).map(move |dy| (FINER * x + dx, FINER * y + dy)));
        fine.map(|(x, y)| self.at(x, y)).sum::<f64>() / (FINER * FINER) as f64
    }
}

/// How alike the copy is to the original over a box, moved by so many dots.
fn like(copy: &Dots, original: &Dots, room: &Rect, moved: usize) -> f64 {
    let dot = |mm: f64| mm / 25.4 * COPY as f64;
    let (left, right) = (dot(room.left).floor() as usize, dot(room.right).ceil() as usize);
    let (top, bottom) = (dot(room.top).floor() as usize, dot(room.bottom).ceil() as usize);
    let places = (top..=bottom).flat_map(|y| (left..=right).map(move |x| (x, y)));
    let black = |x: usize, y: usize| f64::from(u8::from(copy.at(x + moved, y) > 0.5));
    let pairs: Vec<(f64, f64)> = places.map(|(x, y)| (black(x, y), original.coarse(x, y))).collect();
    let count = pairs.len() as f64;
    let (a, b) = (pairs.iter().map(|p| p.0).sum::<f64>() / count, pairs.iter().map(|p| p.1).sum::<f64>() / count);
    let sum = |of: &dyn Fn(&(f64, f64)) -> f64| pairs.iter().map(of).sum::<f64>();
    let (with, own, other) =
        (sum(&|p| (p.0 - a) * (p.1 - b)), sum(&|p| (p.0 - a).powi(2)), sum(&|p| (p.1 - b).powi(2)));
    if own * other > 0.0 { with / (own * other).sqrt() } else { 0.0 }
}

fn texts(page: &Page) -> Vec<(&Rect, &Text)> {
    let of =
        |mark: &'_ setover::sheet::page::Mark| matches!(&mark.ink, Ink::Text(text) if !text.text.trim().is_empty());
    let marks = page.marks.iter().filter(|mark| of(mark));
    marks
        .map(|mark| {
            (
                &mark.bounds,
                match &mark.ink {
                    Ink::Text(text) => text,
                    _ => unreachable!(),
                },
            )
        })
        .collect()
}

#[test]
fn every_word_is_still_there_on_a_photocopy() {
    if Command::new("pdftoppm").arg("-v").output().is_err() {
        println!("SKIPPED: no pdftoppm here");
        return;
    }
    let folder = tempfile::tempdir().expect("a folder");
    let mut words = 0;
    for (paper, print, wanted) in [(Paper::A4, Print::Metric, 4), (Paper::Letter, Print::Both, 9)] {
        let shop = Shop { paper, units: print, ..common::shop(include_str!("../demo/shop.yaml")) };
        let plan = common::plan(include_str!("../demo/tidewater.yaml"), Some(&shop));
        let plans = std::slice::from_ref(&plan);
        let pages = layout::pages(plans).expect("pages");
        let file = folder.path().join(format!("{print:?}.pdf"));
        std::fs::write(&file, layout::pdf(plans).expect("a file")).expect("written");
        for (at, page) in pages.iter().enumerate().step_by(wanted) {
            let (copy, original) = (Dots::of(&file, at + 1, COPY), Dots::of(&file, at + 1, FINER * COPY));
            let (mut gone, mut off) = (Vec::new(), 0);
            for (room, text) in texts(page) {
                words += 1;
                let found = like(&copy, &original, room, 0);
                if found < LIKE {
                    gone.push(format!("{:?} {found:.2}", text.text));
                }
                off += usize::from(like(&copy, &original, room, 3) < LIKE);
            }
            assert_eq!(gone, Vec::<String>::new(), "page {}", at + 1);
            // What is not where it should be is not found.
            assert!(off * 10 > texts(page).len() * 9, "page {}: {off}", at + 1);
        }
    }
    assert!(words > 300, "{words} words");
}
