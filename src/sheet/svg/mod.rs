//! Laid-out pages, and the sketches on them, as SVG: the same marks as in the PDF, in millimetres, letters as letters.
//!
//! The fonts are named, not enclosed: each text is told its length, so that it takes the room it was given whatever font the
//! viewer has. There is no script and nothing from outside. The same page gives the same text.

use super::fonts::{self, Font};
use super::page::{Dash, ElementId, Fill, Ink, Kind, Mark, Page, Point, Rect, Text};
use super::xml::escaped;
use std::fmt::Write as _;

/// Air about a sketch, mm.
const AIR: f64 = 1.0;

/// A whole page, `title` its name; each of its sketches with its words.
#[must_use]
pub fn page(page: &Page, title: &str) -> String {
    let (width, height) = page.paper.size();
    let mut out = opened(&Rect::new(0.0, 0.0, width, height), title, None);
    let mut figure = None;
    for mark in &page.marks {
        let of = figure_of(page, mark);
        if of != figure {
            let alt = of.and_then(|id| page.element_of(id)).and_then(|element| element.alt.as_deref());
            out += if figure.is_some() { "</g>\n" } else { "" };
            if of.is_some() {
                let _ = writeln!(out, "<g role=\"img\"><desc>{}</desc>", escaped(alt.unwrap_or_default()));
            }
            figure = of;
        }
        drawn(&mut out, mark);
    }
    out += if figure.is_some() { "</g>\n" } else { "" };
    out + "</svg>\n"
}

/// The sketches of a page, each alone, `title` their name.
#[must_use]
pub fn pictures(page: &Page, title: &str) -> Vec<String> {
    let figures = page.numbered_elements().filter(|(_, element)| element.kind == Kind::Figure);
    let picture = |(id, element): (ElementId, &super::page::Element)| {
        let marks = || page.marks.iter().filter(|mark| figure_of(page, mark) == Some(id));
        let covered = marks().map(|mark| mark.bounds).reduce(|all, bounds| all.and(&bounds))?;
        let mut svg = opened(&covered.grown(AIR), title, Some(element.alt.as_deref().unwrap_or_default()));
        marks().for_each(|mark| drawn(&mut svg, mark));
        svg += "</svg>\n";
        Some(svg)
    };
    figures.filter_map(picture).collect()
}

/// The figure that a mark is part of.
fn figure_of(page: &Page, mark: &Mark) -> Option<ElementId> {
    let mut lineage = mark.element.into_iter().flat_map(|id| page.lineage(id));
    lineage.find(|(_, element)| element.kind == Kind::Figure).map(|(id, _)| id)
}

/// The beginning of a file that shows a piece of paper.
fn opened(shown: &Rect, title: &str, alt: Option<&str>) -> String {
    let (width, height) = (Mm(shown.width()), Mm(shown.height()));
    let role = if alt.is_some() { " role=\"img\"" } else { "" };
    let mut out = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width}mm\" height=\"{height}mm\" viewBox=\"{} {} {width} \
         {height}\"{role} xml:space=\"preserve\" fill=\"none\" stroke-linecap=\"round\" stroke-linejoin=\"round\">\n\
         <title>{}</title>\n",
        Mm(shown.left),
        Mm(shown.top),
        escaped(title)
    );
    if let Some(alt) = alt {
        let _ = writeln!(out, "<desc>{}</desc>", escaped(alt));
    }
    out
}

fn drawn(out: &mut String, mark: &Mark) {
    match &mark.ink {
        Ink::Text(text) => words(out, text, mark.bounds.width()),
        Ink::Line { points, width, dash } => {
            let dashes = match dash {
                Dash::Whole => String::new(),
                dash => format!(" stroke-dasharray=\"{}\"", dash.lengths()),
            };
            let _ = write!(out, "<polyline stroke=\"#000\" stroke-width=\"{}\"{dashes} points=\"", Mm(*width));
            places(out, points);
            out.push_str("\"/>\n");
        }
        Ink::Polygon { points, fill, stroke } => {
            out.push_str("<polygon fill-rule=\"evenodd\"");
            match fill {
                Fill::None => {}
                Fill::White => out.push_str(" fill=\"#fff\""),
                Fill::Ink => out.push_str(" fill=\"#000\""),
                Fill::Grey(grey) => {
                    let level = (u16::from(100 - (*grey).min(100)) * 255 + 50) / 100;
                    let _ = write!(out, " fill=\"#{level:02x}{level:02x}{level:02x}\"");
                }
            }
            if let Some(width) = stroke {
                let _ = write!(out, " stroke=\"#000\" stroke-width=\"{}\"", Mm(*width));
            }
            out.push_str(" points=\"");
            places(out, points);
            out.push_str("\"/>\n");
        }
    }
}

/// Words, `length` mm wide.
fn words(out: &mut String, text: &Text, length: f64) {
    if text.text.is_empty() {
        return;
    }
    let family = match text.font {
        Font::Sans => "'DejaVu Sans Condensed','DejaVu Sans',Arial,sans-serif\" font-stretch=\"condensed",
        Font::Bold => {
            "'DejaVu Sans Condensed','DejaVu Sans',Arial,sans-serif\" font-stretch=\"condensed\" font-weight=\"bold"
        }
        Font::Mono => "'DejaVu Sans Mono',monospace",
    };
    let (x, y, size) = (Mm(text.at.x), Mm(text.at.y), Mm(fonts::em(text.capital)));
    let length = if length > 0.0 {
        format!(" textLength=\"{}\" lengthAdjust=\"spacingAndGlyphs\"", Mm(length))
    } else {
        String::new()
    };
    let words = escaped(&text.text);
    let _ = writeln!(
        out,
        "<text x=\"{x}\" y=\"{y}\" fill=\"#000\" font-family=\"{family}\" font-size=\"{size}\"{length}>{words}</text>"
    );
}

fn places(out: &mut String, points: &[Point]) {
    for (at, p) in points.iter().enumerate() {
        let _ = write!(out, "{}{},{}", if at == 0 { "" } else { " " }, Mm(p.x), Mm(p.y));
    }
}

/// A number to a thousandth, without needless noughts, never a minus nought.
struct Mm(f64);

impl std::fmt::Display for Mm {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let rounded = (self.0 * 1000.0).round() / 1000.0 + 0.0;
        write!(f, "{rounded}")
    }
}

#[cfg(test)]
mod tests {
    use super::super::page::{Anchor, Dash, Fill, Kind, Page, Paper, Point, Rect, Role, Text};
    use super::super::xml::escaped;
    use super::{Font, Mm, page, pictures};

    fn sheet() -> Page {
        let mut page = Page::new(Paper::A4);
        let area = page.area("all", Rect::new(12.0, 12.0, 198.0, 285.0));
        page.open(Kind::P);
        let words = |text: &str| Text::new(Font::Bold, Role::Body, 3.0, text);
        page.text(area, Point::new(20.0, 40.0), Anchor::Left, words("<wall> & 'Ø 8.4'")).unwrap();
        page.close();
        let figure = page.open(Kind::Figure);
        page.text(area, Point::new(50.0, 90.0), Anchor::Left, words("18.00")).unwrap();
        page.line(area, vec![Point::new(40.0, 80.0), Point::new(60.0, 80.0)], 0.5, Dash::Chain);
        page.close();
        page.describe(figure, "a wall \"18.00\" <thick>");
        page.rectangle(area, Rect::new(20.0, 100.0, 60.0, 120.0), Fill::Grey(12), Some(0.5));
        page
    }

    #[test]
    fn every_word_stands_escaped_in_the_page_and_the_sketch_has_its_description() {
        let svg = page(&sheet(), "1.1");
        for words in ["<wall> & 'Ø 8.4'", "18.00"] {
            assert!(svg.contains(&format!(">{}</text>", escaped(words))), "{svg}");
        }
        assert!(svg.contains("viewBox=\"0 0 210 297\"") && svg.contains("width=\"210mm\""), "{svg}");
        assert!(svg.contains("<desc>a wall &quot;18.00&quot; &lt;thick&gt;</desc>"), "{svg}");
        assert!(svg.contains("fill=\"#e0e0e0\"") && svg.contains("stroke-dasharray=\"6 1.3 0.5 1.3\""), "{svg}");
        assert_eq!(svg, page(&sheet(), "1.1"));
    }

    #[test]
    fn a_sketch_alone_holds_its_own_marks_and_no_others() {
        let alone = pictures(&sheet(), "1.1");
        assert_eq!(alone.len(), 1);
        assert!(alone[0].contains("18.00</text>") && !alone[0].contains("wall&gt; &amp;"), "{}", alone[0]);
        assert!(alone[0].contains("viewBox=\"38.75 78.75 "), "{}", alone[0]);
    }

    #[test]
    fn numbers_are_short() {
        let all: Vec<String> = [0.0, -0.0001, 1.5, -12.3456, 297.0].iter().map(|v| Mm(*v).to_string()).collect();
        assert_eq!(all, ["0", "0", "1.5", "-12.346", "297"]);
    }
}
