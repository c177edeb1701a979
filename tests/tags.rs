//! The tags of the sheets' file: who hears the file hears every word that was laid out, in the order in which it was, and each
//! sheet is found by its id.
#![allow(clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

use crate::common;
use lopdf::content::Content;
use lopdf::{Dictionary, Document, Object, ObjectId};
use setover::plan::Plan;
use setover::proof::Verdict;
use setover::sheet::page::{Ink, Kind, Page};
use setover::sheet::{layout, svg};
use std::collections::BTreeMap;

fn demo() -> Plan {
    common::plan(include_str!("../demo/tidewater.yaml"), Some(&common::shop(include_str!("../demo/shop.yaml"))))
}

fn reference(dictionary: &Dictionary, key: &[u8]) -> ObjectId {
    dictionary.get(key).and_then(Object::as_reference).expect("a reference")
}

/// Words of a string of two-byte codes: a code is its character.
fn said(codes: &[u8]) -> String {
    codes.chunks(2).map(|code| char::from_u32(u32::from(code[0]) << 8 | u32::from(code[1])).expect("a sign")).collect()
}

/// Words of pieces by their number.
type Pieces = BTreeMap<Option<i64>, Vec<String>>;

/// The words of each marked piece of a page, by its number; those of decoration under nothing.
fn pieces(file: &Document, page: ObjectId) -> Pieces {
    let content = Content::decode(&file.get_page_content(page)).expect("content");
    let (mut pieces, mut open): (Pieces, Option<Option<i64>>) = (Pieces::new(), None);
    for operation in content.operations {
        match operation.operator.as_str() {
            "BDC" | "BMC" => {
                assert!(open.is_none(), "no piece stands in another");
                let number = operation.operands.get(1).map(|set| {
                    set.as_dict().and_then(|set| set.get(b"MCID")).and_then(Object::as_i64).expect("a number")
                });
                let artifact = operation.operands[0].as_name().expect("a tag") == b"Artifact";
                assert_eq!(artifact, number.is_none());
                open = Some(number);
                pieces.entry(number).or_default();
            }
            "EMC" => assert!(open.take().is_some()),
            "Tj" => {
                let codes = operation.operands[0].as_str().expect("codes");
                pieces.get_mut(&open.expect("text in a piece")).expect("it").push(said(codes).trim_end().into());
            }
            "S" | "s" | "f*" | "b*" => assert!(open.is_some(), "lines in a piece"),
            _ => {}
        }
    }
    assert!(open.is_none());
    pieces
}

/// A marked piece of the file: its page and number, in the order in which the tree names them, with the element it is of.
type Named = (ObjectId, i64, ObjectId);

fn walk(file: &Document, id: ObjectId, parent: ObjectId, named: &mut Vec<Named>) {
    let element = file.get_dictionary(id).expect("an element");
    assert_eq!(reference(element, b"P"), parent);
    let kids = element.get(b"K").expect("kids");
    let one = std::slice::from_ref(kids);
    for kid in kids.as_array().map_or(one, Vec::as_slice) {
        match kid {
            Object::Integer(number) => named.push((reference(element, b"Pg"), *number, id)),
            Object::Reference(below) => walk(file, *below, id, named),
            other => panic!("{other:?}"),
        }
    }
}

/// The words of a page that are read, and those that are not.
fn words(page: &Page, read: bool) -> Vec<String> {
    let texts = page.marks.iter().filter(|mark| mark.element.is_some() == read);
    texts
        .filter_map(|mark| if let Ink::Text(text) = &mark.ink { Some(text.text.trim_end().to_owned()) } else { None })
        .collect()
}

#[test]
fn the_tags_name_every_word_once_in_the_order_laid_out() {
    let plans = [demo()];
    let pages = layout::pages(&plans).expect("pages");
    let file = Document::load_mem(&layout::pdf(&plans).expect("pdf")).expect("a PDF");
    let catalogue = file.catalog().expect("catalogue");
    assert!(catalogue.get(b"MarkInfo").and_then(Object::as_dict).is_ok_and(|info| info.has(b"Marked")));
    let root = file.get_dictionary(reference(catalogue, b"StructTreeRoot")).expect("a tree");
    let mut named = Vec::new();
    walk(&file, reference(root, b"K"), reference(catalogue, b"StructTreeRoot"), &mut named);
    let tree = file.get_dictionary(reference(root, b"ParentTree")).expect("parents");
    let parents = tree.get(b"Nums").and_then(Object::as_array).expect("numbers");
    let ids: Vec<ObjectId> = file.get_pages().into_values().collect();
    assert_eq!(ids.len(), pages.len());
    for (number, (id, page)) in ids.iter().zip(&pages).enumerate() {
        let leaf = file.get_dictionary(*id).expect("a page");
        assert_eq!(leaf.get(b"StructParents").and_then(Object::as_i64).expect("its number"), number as i64);
        assert_eq!(leaf.get(b"Tabs").and_then(Object::as_name).expect("tabs"), b"S");
        let pieces = pieces(&file, *id);
        let own: Vec<&Named> = named.iter().filter(|(page, _, _)| page == id).collect();
        let numbers: Vec<i64> = own.iter().map(|(_, number, _)| *number).collect();
        assert_eq!(numbers, (0..numbers.len() as i64).collect::<Vec<_>>(), "page {number}: read as it stands");
        let back = parents[2 * number + 1].as_reference().and_then(|id| file.get_object(id));
        let back: Vec<ObjectId> = back
            .and_then(Object::as_array)
            .expect("parents of a page")
            .iter()
            .map(|parent| parent.as_reference().expect("a reference"))
            .collect();
        assert_eq!(back, own.iter().map(|(_, _, element)| *element).collect::<Vec<_>>());
        let read: Vec<String> = numbers.iter().flat_map(|number| pieces[&Some(*number)].clone()).collect();
        assert_eq!(read, words(page, true));
        assert_eq!(pieces.get(&None).cloned().unwrap_or_default(), words(page, false));
        let is_further = |words: &String| words.starts_with("page ") && !words.starts_with("page 1 ");
        let not_read = words(page, false);
        assert_eq!(not_read.iter().any(is_further), !not_read.is_empty(), "only a strip that repeats: {not_read:?}");
    }
}

#[test]
fn page_labels_are_the_ids_of_the_sheets_and_the_outline_has_two_levels() {
    let plan = demo();
    let file = Document::load_mem(&layout::pdf(std::slice::from_ref(&plan)).expect("pdf")).expect("a PDF");
    let catalogue = file.catalog().expect("catalogue");
    let text = |object: &Object| lopdf::decode_text_string(object).expect("text");
    let labels = catalogue.get(b"PageLabels").and_then(Object::as_dict).expect("labels");
    let labels: Vec<String> = labels
        .get(b"Nums")
        .and_then(Object::as_array)
        .expect("numbers")
        .chunks(2)
        .map(|pair| text(pair[1].as_dict().and_then(|label| label.get(b"P")).expect("a prefix")))
        .collect();
    let pages: Vec<ObjectId> = file.get_pages().into_values().collect();
    assert_eq!(labels.len(), pages.len());
    let items = |of: &Dictionary| {
        let mut items = Vec::new();
        let mut at = of.get(b"First").and_then(Object::as_reference).ok();
        while let Some(id) = at {
            let item = file.get_dictionary(id).expect("an item");
            items.push(item.clone());
            at = item.get(b"Next").and_then(Object::as_reference).ok();
        }
        items
    };
    let label_of = |item: &Dictionary| {
        let place = item.get(b"Dest").and_then(Object::as_array).expect("a place")[0].as_reference().expect("a page");
        labels[pages.iter().position(|page| *page == place).expect("of this file")].clone()
    };
    let chapters = items(file.get_dictionary(reference(catalogue, b"Outlines")).expect("an outline"));
    assert_eq!(chapters.len(), plan.operations.len());
    let mut first = Vec::new();
    for ((chapter, operation), number) in chapters.iter().zip(&plan.operations).zip(1..) {
        let title = text(chapter.get(b"Title").expect("a title"));
        assert!(title.starts_with(&format!("{number} {}", operation.address.part)), "{title}");
        assert!(["proven", "doubtful", "FAILS"].iter().any(|verdict| title.ends_with(verdict)), "{title}");
        let sheets = items(chapter);
        // What fails has one sheet: its steps are withheld.
        let most = operation.answer.set_ups.len().max(1);
        let least = if operation.verdict == Verdict::Fails { 1 } else { most };
        assert!((least..=most).contains(&sheets.len()), "{title}: {} sheets", sheets.len());
        for (sheet, nth) in sheets.iter().zip(1..) {
            let id = format!("{number}.{nth}");
            assert_eq!(label_of(sheet), id);
            assert!(text(sheet.get(b"Title").expect("a title")).starts_with(&format!("{id} ")));
            first.push(id);
        }
    }
    let further = |label: &&String| label.split_once('/').is_some_and(|(id, _)| first.contains(&id.to_owned()));
    assert_eq!(labels.iter().filter(|label| !further(label)).cloned().collect::<Vec<_>>(), first);
    assert!(catalogue.has(b"Metadata"));
}

/// The parts of the first page of a sheet stand in the order of its zones.
#[test]
fn a_sheet_is_read_in_the_order_of_its_zones() {
    let plan = demo();
    let pages = layout::pages(std::slice::from_ref(&plan)).expect("pages");
    let mut blanks = 0;
    for page in &pages {
        let mut kinds: Vec<Kind> = Vec::new();
        for mark in &page.marks {
            let Some(whole) = mark.element.and_then(|id| page.lineage(id).last()) else { continue };
            if kinds.last() != Some(&whole.1.kind) {
                kinds.push(whole.1.kind);
            }
        }
        blanks += page.elements.iter().filter(|element| element.actual_text == Some("blank")).count();
        let texts = words(page, true);
        if !texts.iter().any(|text| text.starts_with("page 1 ")) {
            continue;
        }
        // Part and operation; stamp, facts; sketch, what its numbers mean; steps; what is measured; verdict; foot.
        if texts.iter().any(|text| text == "No sketch: this must not be made.") {
            kinds.insert(2, Kind::Figure);
        }
        assert_eq!(kinds[..4], [Kind::H1, Kind::P, Kind::Figure, Kind::List], "{texts:?}");
        assert_eq!(kinds[4], Kind::H2, "{texts:?}");
        assert_eq!(kinds.last(), Some(&Kind::P), "{texts:?}");
        let verdict =
            page.elements.iter().position(|element| element.actual_text == Some("Verdict")).expect("a verdict");
        assert_eq!(page.elements[verdict].kind, Kind::H2);
        let is_below = |mark: &setover::sheet::page::Mark| {
            mark.element.and_then(|id| page.lineage(id).last()).is_some_and(|(id, _)| id.number() > verdict)
        };
        let zone = page.areas.iter().find(|area| area.name == "verdict").expect("a zone").bounds;
        for mark in page.marks.iter().filter(|mark| matches!(mark.ink, Ink::Text(_)) && mark.element.is_some()) {
            let is_strip = mark.bounds.bottom < 60.0;
            assert!(is_strip || is_below(mark) == (mark.bounds.top > zone.top), "{mark:?}");
        }
    }
    assert!(blanks > 100, "{blanks} blanks");
}

/// Cells: each row of a table has a cell that names it and one that says something or is blank.
#[test]
fn each_row_of_a_table_has_a_head() {
    let plan = demo();
    for page in layout::pages(std::slice::from_ref(&plan)).expect("pages") {
        for (row, _) in page.numbered_elements().filter(|(_, element)| element.kind == Kind::Row) {
            let cells: Vec<Kind> = page.elements.iter().filter(|e| e.parent == Some(row)).map(|e| e.kind).collect();
            assert!(matches!(cells[0], Kind::HeadCell(_)) && cells.len() > 1, "{cells:?}");
        }
        for (item, _) in page.numbered_elements().filter(|(_, element)| element.kind == Kind::Item) {
            let parts = page.elements.iter().filter(|e| e.parent == Some(item));
            assert_eq!(parts.filter(|e| e.kind == Kind::Body).count(), 1, "an item has its words in one piece");
        }
        for (_, element) in page.numbered_elements() {
            let parent = element.parent.and_then(|id| page.element_of(id)).map(|parent| parent.kind);
            let fits = match element.kind {
                Kind::Row => parent == Some(Kind::Table),
                Kind::Cell | Kind::HeadCell(_) => parent == Some(Kind::Row),
                Kind::Item => parent == Some(Kind::List),
                Kind::Label | Kind::Body => parent == Some(Kind::Item),
                Kind::List => matches!(parent, None | Some(Kind::Body)),
                Kind::Span => parent.is_some(),
                _ => parent.is_none(),
            };
            assert!(fits, "{:?} in {parent:?}", element.kind);
        }
    }
}

/// The rows of each table of the file take as many columns: the last cell of a shorter one says that it takes more.
#[test]
fn the_rows_of_a_table_close_to_a_grid() {
    let file = Document::load_mem(&layout::pdf(&[demo()]).expect("pdf")).expect("a PDF");
    let is =
        |element: &Dictionary, name: &[u8]| element.get(b"S").and_then(Object::as_name).is_ok_and(|kind| kind == name);
    let kids = |element: &Dictionary| -> Vec<Dictionary> {
        let all = element.get(b"K").and_then(Object::as_array).expect("kids").iter();
        all.filter_map(|kid| file.get_dictionary(kid.as_reference().ok()?).ok().cloned()).collect()
    };
    let columns = |cell: &Dictionary| {
        let attributes = cell.get(b"A").and_then(Object::as_dict).ok();
        attributes.and_then(|all| all.get(b"ColSpan").and_then(Object::as_i64).ok()).unwrap_or(1)
    };
    let (mut tables, mut shorter) = (0, 0);
    for table in file.objects.values().filter_map(|object| object.as_dict().ok()).filter(|e| is(e, b"Table")) {
        let rows: Vec<Vec<Dictionary>> = kids(table).iter().filter(|row| is(row, b"TR")).map(&kids).collect();
        let wide: Vec<i64> = rows.iter().map(|cells| cells.iter().map(columns).sum()).collect();
        assert!(wide.windows(2).all(|pair| pair[0] == pair[1]), "{wide:?}");
        tables += 1;
        shorter += rows.iter().filter(|cells| cells.iter().any(|cell| columns(cell) > 1)).count();
    }
    assert!(tables > 20 && shorter > 10, "{tables} tables, {shorter} shorter rows");
}

/// The figure of each dimension stands in the words of its sketch.
#[test]
fn a_sketch_in_words_has_every_figure_that_it_shows() {
    let plan = demo();
    let pages = layout::pages(std::slice::from_ref(&plan)).expect("pages");
    let mut figures = 0;
    for page in &pages {
        for (id, element) in page.numbered_elements().filter(|(_, element)| element.kind == Kind::Figure) {
            let alt = element.alt.as_deref().expect("words");
            let shown = page.marks.iter().filter(|mark| mark.element == Some(id));
            for mark in shown {
                let Ink::Text(text) = &mark.ink else { continue };
                let words = text.text.trim_start_matches(|c: char| !c.is_alphanumeric());
                if words.starts_with(|c: char| c.is_ascii_digit()) {
                    assert!(alt.contains(words.trim_end_matches(['(', ')'])), "{words} in {alt}");
                    figures += 1;
                }
            }
        }
    }
    assert!(figures > 50, "{figures} figures");
}

#[test]
fn every_word_of_a_page_stands_in_its_svg_and_nothing_runs_there() {
    let plan = demo();
    for page in layout::pages(std::slice::from_ref(&plan)).expect("pages") {
        let drawn = svg::page(&page, "a page");
        for words in words(&page, true).into_iter().chain(words(&page, false)) {
            let escaped = words.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;").replace('\'', "&#39;");
            assert!(drawn.contains(&escaped.replace('"', "&quot;")), "{words}");
        }
        assert!(!drawn.contains("<script") && !drawn.contains("href"));
        let tags = drawn.matches("<g ").count();
        assert_eq!(tags, drawn.matches("</g>").count());
        let (width, height) = page.paper.size();
        assert!(drawn.contains(&format!("viewBox=\"0 0 {width} {height}\"")));
    }
    let sketches = layout::sketches(std::slice::from_ref(&plan)).expect("sketches");
    assert!(sketches.len() >= plan.operations.len(), "{} sketches", sketches.len());
    for (id, drawn) in &sketches {
        let sheet = id.strip_suffix("-2").unwrap_or(id);
        assert!(drawn.contains("<desc>") && drawn.contains(&format!("<title>{sheet}</title>")), "{id}");
    }
    let names: std::collections::BTreeSet<_> = sketches.iter().map(|(id, _)| id).collect();
    assert_eq!(names.len(), sketches.len(), "one file would be written over the other");
}
