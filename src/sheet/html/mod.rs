//! A job as one self-contained page for a telephone or a screen: nothing is fetched, and it reads whole without its script.
//!
//! It is made of the laid-out pages, whose elements know the order of reading: first one column in that order, its blanks to be
//! filled in, then the pages themselves as they are printed, typed figures in their blanks. Every text goes through the one
//! filter of [`super::xml`].

mod body;
mod tree;

use super::page::{ElementId, Page, Paper};
use super::xml::escaped;
use super::{svg, words};
use crate::proof::Verdict;
use body::Column;
use std::fmt::Write as _;
use tree::Filled;

/// How it looks.
const STYLE: &str = include_str!("style.css");
/// What it does beside showing itself: keep what is typed, put it into the pages, give it out as text.
const SCRIPT: &str = include_str!("script.js");
/// What the page may load: nothing.
const POLICY: &str = "default-src 'none'; style-src 'unsafe-inline'; script-src 'unsafe-inline'; base-uri 'none'; \
    form-action 'none'";

/// One sheet.
#[derive(Clone, Debug)]
pub(super) struct Sheet {
    /// Its id, which no other has.
    pub id: String,
    /// As a list of sheets has it.
    pub title: String,
    /// Its operation with its verdict, where it is the first of it.
    pub chapter: Option<String>,
    /// The word of its stamp.
    pub stamp: &'static str,
    /// The verdict of the frame about it.
    pub framed: Verdict,
    /// The address of its operation.
    pub address: String,
    /// The gauge of the shop for each size that the log asks for, by its name there.
    pub gauges: Vec<(&'static str, String)>,
    /// Its pages.
    pub pages: Vec<Page>,
    /// The reason under its stamp, and its line of facts, whole.
    pub reason: String,
    pub facts: String,
    /// A picture that stands under its verdict: its heading, and the picture as SVG.
    pub picture: Option<(&'static str, String)>,
}

/// A job as one page.
pub(super) fn document(title: &str, language: &str, sheets: &[Sheet]) -> String {
    let mut out = String::new();
    let name = escaped(title);
    let _ = write!(
        out,
        "<!DOCTYPE html>\n<html lang=\"{language}\">\n<head>\n<meta charset=\"utf-8\">\n<title>{name}</title>\n\
         <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n\
         <meta http-equiv=\"Content-Security-Policy\" content=\"{POLICY}\">\n\
         <style>\n{STYLE}@page {{ size: {}; margin: 0 }}\n</style>\n</head>\n<body data-key=\"{name} {:08x}\">\n<div class=\"screen\">\n",
        paper(sheets),
        state_of(sheets)
    );
    contents(&mut out, &name, sheets);
    out.push_str("<main>\n");
    let mut filled = Vec::with_capacity(sheets.len());
    for sheet in sheets {
        filled.push(section(&mut out, sheet));
    }
    out.push_str("</main>\n");
    readings(&mut out);
    out.push_str("</div>\n<div class=\"print\">\n");
    for (sheet, filled) in sheets.iter().zip(&filled) {
        printed(&mut out, sheet, filled);
    }
    let _ = write!(out, "</div>\n<script>\n{SCRIPT}</script>\n</body>\n</html>\n");
    out
}

/// A sum over how each sheet stands: what was typed on a page belongs to the plan that printed it, and stands on none of another.
fn state_of(sheets: &[Sheet]) -> u32 {
    let mut sum = crc32fast::Hasher::new();
    for text in sheets.iter().flat_map(|sheet| [&sheet.id, &sheet.address, &sheet.reason, &sheet.facts]) {
        sum.update(text.as_bytes());
        sum.update(b"\n");
    }
    sum.finalize()
}

/// The paper of the pages.
fn paper(sheets: &[Sheet]) -> String {
    let paper = sheets.iter().flat_map(|sheet| &sheet.pages).map(|page| page.paper).next().unwrap_or(Paper::A4);
    let (width, height) = paper.size();
    format!("{width}mm {height}mm")
}

/// The list of the sheets.
fn contents(out: &mut String, name: &str, sheets: &[Sheet]) {
    let _ = write!(out, "<header>\n<h1>{name}</h1>\n<nav aria-label=\"{}\">\n<ul>\n", words::SHEETS);
    for sheet in sheets {
        if let Some(chapter) = &sheet.chapter {
            let _ = writeln!(out, "<li class=\"chapter\">{}</li>", escaped(chapter));
        }
        let (id, title) = (escaped(&sheet.id), escaped(&sheet.title));
        let _ = writeln!(out, "<li><a href=\"#s{id}\">{title} <b>{}</b></a></li>", escaped(sheet.stamp));
    }
    out.push_str("</ul>\n</nav>\n</header>\n");
}

/// One sheet in one column; gives back what can be filled in on each of its pages.
fn section(out: &mut String, sheet: &Sheet) -> Vec<Vec<Filled>> {
    let (id, address) = (escaped(&sheet.id), escaped(&sheet.address));
    let _ = writeln!(out, "<section id=\"s{id}\" aria-labelledby=\"h{id}\" data-address=\"{address}\">");
    let filled = Column::new(out, sheet).pages();
    if let Some((heading, picture)) = &sheet.picture {
        let _ = write!(out, "<details>\n<summary>{heading}</summary>\n");
        body::picture(out, picture, heading, sheet.pages.first().map_or(0.0, |page| page.paper.size().0));
        out.push_str("</details>\n");
    }
    out.push_str("</section>\n");
    filled
}

/// Where what was typed is given out.
fn readings(out: &mut String) {
    let _ = write!(
        out,
        "<section id=\"readings\" aria-labelledby=\"readings-heading\" hidden>\n<h2 id=\"readings-heading\">{0}</h2>\n\
         <textarea id=\"text\" aria-label=\"{0}\" readonly rows=\"6\"></textarea>\n\
         <p><button type=\"button\" id=\"copy\">{1}</button> <button type=\"button\" id=\"save\">{2}</button></p>\n\
         <p role=\"status\" id=\"said\" data-copied=\"{3}\" data-by-hand=\"{4}\"></p>\n</section>\n",
        words::READINGS,
        words::COPY,
        words::SAVE,
        words::COPIED,
        words::COPY_BY_HAND,
    );
}

/// The pages of a sheet as they are printed, with a place in each blank for what was typed.
fn printed(out: &mut String, sheet: &Sheet, filled: &[Vec<Filled>]) {
    for (page, filled) in sheet.pages.iter().zip(filled) {
        let drawn = svg::page(page, &sheet.title);
        out.push_str(drawn.trim_end().trim_end_matches("</svg>"));
        for one in filled {
            let (c, high) = (one.bounds.centre(), one.letters());
            let (x, y) = (c.x, f64::midpoint(c.y, one.bounds.bottom).min(c.y + high / 3.0));
            let _ = writeln!(
                out,
                "<text data-of=\"{}\" x=\"{x:.2}\" y=\"{y:.2}\" font-size=\"{high:.2}\" text-anchor=\"middle\" fill=\"#000\" \
                 font-family=\"sans-serif\"></text>",
                escaped(&one.id)
            );
        }
        out.push_str("</svg>\n");
    }
}

/// What a field is called in the text of the page: its sheet, and its number there.
fn field_id(sheet: &str, number: usize) -> String {
    format!("f{sheet}-{number}")
}

/// An element of a page of a sheet.
type Of<'a> = (&'a Page, ElementId);
