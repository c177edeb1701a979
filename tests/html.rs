//! The page for a screen, as text: whole, in the order of the paper, nothing from outside, each field named once. How it looks a
//! browser says: `tests/browser/run`.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common;

use common::jobs::random_jobs_keep;
use common::{shop, try_plan};
use setover::plan::Plan;
use setover::sheet::layout::{Working, html, pages};
use setover::sheet::page::{Field, Ink, Kind, Page};
use std::collections::BTreeSet;

fn demo() -> Plan {
    let read = |path: &str| std::fs::read_to_string(path).unwrap();
    try_plan(&read("demo/tidewater.yaml"), Some(&shop(&read("demo/shop.yaml")))).unwrap()
}

fn made(plan: &Plan) -> String {
    html(std::slice::from_ref(plan), Working::None).unwrap()
}

/// The column: what a screen shows.
fn column(page: &str) -> &str {
    page.split_once("<main>").unwrap().1.split_once("</main>").unwrap().0
}

/// Every tag with its name and the rest of it.
fn tags(page: &str) -> Vec<(&str, &str)> {
    let pieces = page.split('<').skip(1).filter(|piece| !piece.starts_with('!'));
    pieces
        .map(|piece| {
            let inside = piece.split_once('>').unwrap().0;
            inside.split_once([' ', '\n']).unwrap_or((inside, ""))
        })
        .collect()
}

fn attribute<'a>(rest: &'a str, name: &str) -> Option<&'a str> {
    let from = rest.find(&format!("{name}=\""))? + name.len() + 2;
    rest[from..].split_once('"').map(|pair| pair.0)
}

/// The words of a page as a reader hears them, without tags and pictures.
fn words(column: &str) -> String {
    let mut text = String::new();
    let mut rest = column;
    while let Some((before, after)) = rest.split_once('<') {
        text.push_str(before);
        let picture = after.starts_with("svg");
        rest = if picture { after.split_once("</svg>").unwrap().1 } else { after.split_once('>').unwrap().1 };
        text.push(' ');
    }
    text.push_str(rest);
    let signs = [("&lt;", "<"), ("&gt;", ">"), ("&quot;", "\""), ("&#39;", "'"), ("&nbsp;", " "), ("&amp;", "&")];
    let plain = signs.iter().fold(text, |text, (entity, sign)| text.replace(entity, sign));
    plain.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// The texts of a page that are read and stand in no picture.
fn read(page: &Page) -> Vec<String> {
    let is_read = |mark: &&setover::sheet::page::Mark| {
        let mut way = mark.element.into_iter().flat_map(|id| page.lineage(id));
        mark.element.is_some() && way.all(|(_, element)| element.kind != Kind::Figure && element.actual_text.is_none())
    };
    let text = |mark: &setover::sheet::page::Mark| match &mark.ink {
        Ink::Text(text) => Some(text.text.clone()),
        _ => None,
    };
    page.marks.iter().filter(is_read).filter_map(text).collect()
}

/// What breaks a law of the page of a plan.
fn broken(plan: &Plan) -> Vec<String> {
    let mut wrong = Vec::new();
    let page = made(plan);
    // Ids and labels.
    let mut ids = BTreeSet::new();
    for (tag, rest) in tags(page.split_once("<script>").unwrap().0) {
        if let Some(id) =
            attribute(rest, " id").or_else(|| rest.starts_with("id=\"").then(|| attribute(rest, "id")).flatten())
            && !ids.insert(id.to_owned())
        {
            wrong.push(format!("{id} twice"));
        }
        if tag == "input" && attribute(rest, "aria-label").is_none_or(|label| label.trim().len() < 5) {
            wrong.push(format!("a field without a name: {rest}"));
        }
        for outside in ["src", "srcset", "href", "action", "data", "poster", "background"] {
            let spaced = format!(" {rest}");
            let link = attribute(&spaced, &format!(" {outside}"));
            if link.is_some_and(|link| !link.starts_with('#')) {
                wrong.push(format!("{tag} leads to {link:?}"));
            }
        }
    }
    for (_, rest) in tags(&page) {
        for name in ["aria-labelledby", "href"] {
            let to = attribute(rest, name).map(|to| to.trim_start_matches('#'));
            if to.is_some_and(|to| !ids.contains(to)) {
                wrong.push(format!("nothing has the id {to:?}"));
            }
        }
    }
    let without_space = page.replace("http://www.w3.org/2000/svg", "");
    for outside in ["http:", "https:", "//www", "@import", "url(", "<link", "<iframe", "<img"] {
        if without_space.contains(outside) {
            wrong.push(format!("{outside} stands in the page"));
        }
    }
    // Every word of every page, and every set-up, in order.
    let column = column(&page);
    let said = words(column);
    let all = pages(std::slice::from_ref(plan)).unwrap();
    let meant = |text: &str| !text.ends_with('…') && !text.starts_with("page ") && !text.starts_with("goes on ");
    let mut fields = 0;
    for laid in &all {
        fields += laid.elements.iter().filter(|element| element.field.is_some()).count();
        for text in read(laid).iter().filter(|text| meant(text) && !text.ends_with("continued")) {
            let text = text.trim_end().trim_end_matches('•').split_whitespace().collect::<Vec<_>>().join(" ");
            if !said.contains(&text) {
                wrong.push(format!("{text:?} is left out"));
            }
        }
    }
    let typed = column.matches("<input ").count();
    if typed != fields {
        wrong.push(format!("{typed} fields for {fields} blanks and boxes"));
    }
    let mut from = 0;
    for (operation, planned) in plan.operations.iter().enumerate() {
        for set_up in 1..=planned.answer.set_ups.len().max(1) {
            let section = format!("<section id=\"s{}.{set_up}\"", operation + 1);
            match column[from..].find(&section) {
                Some(at) => from += at,
                None => wrong.push(format!("{section} is missing or out of order")),
            }
            let own = &column[from..];
            wrong.extend(out_of_turn(&own[..own.find("</section>").unwrap_or(own.len())]));
        }
    }
    wrong
}

/// Steps of a section that stand before one with a lower number, or behind what is measured.
fn out_of_turn(section: &str) -> Vec<String> {
    let measure = section.find("<h3><b>Measure</b>").unwrap_or(section.len());
    let mut last = 0;
    let mut wrong = Vec::new();
    for (at, _) in section.match_indices("<b>") {
        let before = ["<p>", "<p class=\"hold\">"].iter().any(|tag| section[..at].ends_with(tag));
        let number = section[at + 3..].split_once("</b>").and_then(|(number, _)| number.parse::<usize>().ok());
        let Some(number) = number.filter(|_| before) else { continue };
        if number <= last || at > measure {
            wrong.push(format!("step {number} behind step {last}, or behind what is measured"));
        }
        last = number;
    }
    wrong
}

#[test]
fn the_demonstration_keeps_the_laws() {
    let plan = demo();
    let wrong = broken(&plan);
    assert!(wrong.is_empty(), "{wrong:#?}");
    assert_eq!(made(&plan), made(&plan));
}

#[test]
fn random_jobs_keep_the_laws() {
    random_jobs_keep(24, |plan| broken(plan).into_iter().collect());
}

#[test]
fn the_parts_of_a_sheet_are_read_in_the_order_of_its_zones() {
    let page = made(&demo());
    let sheet = page.split_once("<section id=\"s2.1\"").unwrap().1.split_once("</section>").unwrap().0;
    let marks = [
        "<h2",
        "class=\"stamp\"",
        "<svg",
        "③",
        "<h3><b>Cuts",
        "HOLD POINT",
        "SPINDLE",
        "<h3><b>Measure",
        "<h3>Verdict",
        "Local codes",
    ];
    let at: Vec<Option<usize>> = marks.iter().map(|mark| sheet.find(mark)).collect();
    assert!(at.iter().all(Option::is_some) && at.is_sorted(), "{at:?}");
    // Steps that go on overleaf stand before what is measured.
    let steps: Vec<usize> = (1..=9).filter_map(|n| sheet.find(&format!("<p><b>{n}</b> "))).collect();
    assert!(steps.len() > 5 && steps.is_sorted() && *steps.last().unwrap() < at[7].unwrap(), "{steps:?}");
}

#[test]
fn what_must_not_be_cut_has_no_field_for_a_pass_and_no_figure() {
    let page = made(&demo());
    let sheet = page.split_once("<section id=\"s1.1\"").unwrap().1.split_once("</section>").unwrap().0;
    assert!(sheet.contains("DO NOT CUT") && !sheet.contains("checkbox") && !sheet.contains("class=\"figure\""));
    assert!(!sheet.contains("SPINDLE") && !sheet.contains("DIAL"));
}

#[test]
fn names_with_signs_are_words_and_never_tags() {
    let evil = "<img src=x onerror=alert(1)> & \"wall\" 'x' </script>";
    let mut plan = demo();
    plan.job = evil.into();
    plan.operations.truncate(2);
    for planned in &mut plan.operations {
        planned.address.part = evil.into();
        planned.note = Some(evil.into());
        for set_up in &mut planned.answer.set_ups {
            set_up.title = evil.into();
            set_up.machine = evil.into();
            set_up.blanks.iter_mut().for_each(|blank| blank.words = evil.into());
            set_up.steps.iter_mut().for_each(|step| step.words = evil.into());
        }
    }
    let page = made(&plan);
    assert!(!page.contains("<img") && page.matches("</script>").count() == 1, "a name became a tag");
    assert!(words(column(&page)).contains("<img src=x onerror=alert(1)>"));
}

/// What is reckoned with a reading is named for what it is: the reading and what is to go in millimetres, what is turned in
/// divisions; the words about the blanks say the unit, so nothing says it twice.
#[test]
fn a_reckoning_asks_for_divisions_where_divisions_are_turned() {
    let page = html(&[demo()], Working::None).unwrap();
    let units = |name: &str| -> BTreeSet<&str> {
        let own = page.split("<input").filter(|input| input.contains(&format!("data-name=\"{name}")));
        own.map(|input| input.split("data-unit=\"").nth(1).unwrap().split('"').next().unwrap()).collect()
    };
    assert_eq!(units("to turn by step"), BTreeSet::from(["div"]));
    assert_eq!(units("to go by step"), BTreeSet::from(["mm"]));
    assert!(!page.contains("&nbsp;mm</span> <b>mm"));
}

#[test]
fn every_blank_for_a_size_has_a_unit_and_every_pass_a_box() {
    let all = pages(&[demo()]).unwrap();
    let fields: Vec<Field> = all
        .iter()
        .flat_map(|page| &page.elements)
        .filter_map(|element| element.field.as_ref().map(|field| field.0))
        .collect();
    assert!(fields.iter().all(|field| !matches!(field, Field::Size(""))));
    let ticks = fields.iter().filter(|field| **field == Field::Tick).count();
    assert!(ticks >= 10, "{ticks} boxes");
}

/// The verdict is told by the frame of its stamp too, as on paper, and the numbers of the sketch are round.
#[test]
fn each_verdict_has_a_frame_of_its_own() {
    let own = shop(include_str!("../examples/shop.yaml"));
    let page = made(
        &try_plan(include_str!("../demo/tidewater.yaml"), Some(&shop(include_str!("../demo/shop.yaml")))).unwrap(),
    );
    for (word, class) in [("DO NOT ", "stamp stopped"), ("DOUBTFUL", "stamp doubtful"), ("PROVEN", "stamp")] {
        let frame = format!("<p class=\"{class}\">");
        let after = |at: usize| page[at + frame.len()..].chars().take(80).collect::<String>();
        let framed: Vec<String> = page.match_indices(&frame).map(|(at, _)| after(at)).collect();
        assert!(!framed.is_empty() && framed.iter().all(|text| text.contains(word)), "{class}: {framed:?}");
    }
    let turned = made(&try_plan(include_str!("../examples/turn.yaml"), Some(&own)).unwrap());
    assert_eq!(turned.matches("class=\"label balloon\"").count(), 4);
}
