//! How a reader finds a sheet in the file: the outline, operations with their sheets, and the ids of the sheets in the place of
//! page numbers.

use super::{Fault, Meta};
use lopdf::{Document, Object, ObjectId, dictionary, text_string};
use std::ops::Range;

/// An operation in the outline.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Chapter {
    /// As it is listed.
    pub title: String,
    /// Its sheets, in the order of the pages.
    pub sheets: Vec<Leaf>,
}

/// A sheet in the outline.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Leaf {
    /// Its id, such as `7.1`.
    pub id: String,
    /// As it is listed.
    pub title: String,
    /// Its first page, counted from 0.
    pub page: usize,
}

impl Meta {
    /// Every sheet, in the order of the pages.
    pub(super) fn leaves(&self) -> impl Iterator<Item = &Leaf> {
        self.chapters.iter().flat_map(|chapter| &chapter.sheets)
    }

    /// The pages of each sheet; of a file that names none, all of them.
    pub(super) fn sheets(&self, pages: usize) -> Vec<Range<usize>> {
        let mut starts: Vec<usize> = self.leaves().map(|leaf| leaf.page).collect();
        if starts.first() != Some(&0) {
            starts.insert(0, 0);
        }
        let ends = starts.iter().skip(1).copied().chain([pages]);
        starts.iter().copied().zip(ends).map(|(start, end)| start..end).collect()
    }

    /// What each page is called: the id of its sheet, with the number of the page behind it where that is not the first.
    fn labels(&self, pages: usize) -> Vec<String> {
        let ends = self.leaves().skip(1).map(|leaf| leaf.page).chain([pages]);
        let label = |id: &str, number: usize| if number == 1 { id.to_owned() } else { format!("{id}/{number}") };
        let each = self.leaves().zip(ends);
        each.flat_map(|(leaf, end)| (1..=end.saturating_sub(leaf.page)).map(|n| label(&leaf.id, n))).collect()
    }
}

/// Puts outline and page labels into a file whose pages are `pages`.
pub(super) fn put_into(file: &mut Document, pages: &[ObjectId], meta: &Meta) -> Result<(), Fault> {
    if meta.chapters.is_empty() {
        return Ok(());
    }
    let labels = meta.labels(pages.len());
    let numbered = (0_i64..).zip(labels);
    let numbers: Vec<Object> =
        numbered.flat_map(|(at, label)| [at.into(), dictionary! { "P" => text_string(&label) }.into()]).collect();
    let root = outline(file, pages, &meta.chapters);
    let catalogue = file.catalog_mut()?;
    catalogue.set("PageLabels", dictionary! { "Nums" => numbers });
    catalogue.set("Outlines", root);
    catalogue.set("PageMode", "UseOutlines");
    Ok(())
}

/// The outline, all of it open.
fn outline(file: &mut Document, pages: &[ObjectId], chapters: &[Chapter]) -> ObjectId {
    let root = file.new_object_id();
    let heads: Vec<ObjectId> = chapters.iter().map(|_| file.new_object_id()).collect();
    for (at, (chapter, head)) in chapters.iter().zip(&heads).enumerate() {
        let leaves: Vec<ObjectId> = chapter.sheets.iter().map(|_| file.new_object_id()).collect();
        for (nth, (leaf, id)) in chapter.sheets.iter().zip(&leaves).enumerate() {
            item(file, *id, &leaf.title, pages.get(leaf.page), *head, (&leaves, nth), &[]);
        }
        let page = chapter.sheets.first().and_then(|leaf| pages.get(leaf.page));
        item(file, *head, &chapter.title, page, root, (&heads, at), &leaves);
    }
    let all = chapters.len() + chapters.iter().map(|chapter| chapter.sheets.len()).sum::<usize>();
    let mut said = dictionary! { "Type" => "Outlines", "Count" => count(all) };
    ends(&mut said, &heads);
    file.set_object(root, said);
    root
}

/// An item of the outline, the `nth` of its row.
fn item(
    file: &mut Document,
    id: ObjectId,
    title: &str,
    page: Option<&ObjectId>,
    parent: ObjectId,
    (row, nth): (&[ObjectId], usize),
    below: &[ObjectId],
) {
    let mut said = dictionary! { "Title" => text_string(title), "Parent" => parent };
    if let Some(page) = page {
        said.set("Dest", vec![(*page).into(), "Fit".into()]);
    }
    if let Some(before) = nth.checked_sub(1).and_then(|at| row.get(at)) {
        said.set("Prev", *before);
    }
    if let Some(next) = row.get(nth + 1) {
        said.set("Next", *next);
    }
    if !below.is_empty() {
        said.set("Count", count(below.len()));
        ends(&mut said, below);
    }
    file.set_object(id, said);
}

fn ends(said: &mut lopdf::Dictionary, below: &[ObjectId]) {
    if let (Some(first), Some(last)) = (below.first(), below.last()) {
        said.set("First", *first);
        said.set("Last", *last);
    }
}

fn count(of: usize) -> i64 {
    i64::try_from(of).unwrap_or(i64::MAX)
}

#[cfg(test)]
mod tests {
    use super::{Chapter, Leaf, Meta};

    fn leaf(id: &str, page: usize) -> Leaf {
        Leaf { id: id.into(), title: id.into(), page }
    }

    #[test]
    fn further_pages_of_a_sheet_bear_its_id_and_their_number() {
        let chapters = vec![
            Chapter { title: "7".into(), sheets: vec![leaf("7.1", 0), leaf("7.2", 2)] },
            Chapter { title: "8".into(), sheets: vec![leaf("8.1", 3)] },
        ];
        let meta = Meta { chapters, ..Meta::default() };
        assert_eq!(meta.labels(5), ["7.1", "7.1/2", "7.2", "8.1", "8.1/2"]);
        assert_eq!(meta.sheets(5), [0..2, 2..3, 3..5]);
        assert_eq!(Meta::default().sheets(5).as_slice(), std::slice::from_ref(&(0..5)));
    }
}
