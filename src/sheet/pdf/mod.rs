//! Laid-out pages as a PDF file: vectors, and letters that can be selected and searched.
//!
//! Streams are written here and put together by `lopdf`. The same pages give the same bytes: objects are numbered as
//! they are made, there is no clock, and `/ID` is a hash of the content.

mod content;
mod letters;

use super::fonts;
use super::page::{Ink, Page};
use letters::Letters;
use lopdf::{Dictionary, Document, Object, ObjectId, Stream, dictionary, text_string};

/// Points to the millimetre.
const POINTS: f64 = 72.0 / 25.4;

/// What a file says of itself.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Meta {
    /// Its title.
    pub title: String,
    /// Who made it.
    pub author: String,
    /// Language of its words, such as `en-GB`.
    pub language: String,
    /// The list of places beside it.
    pub bookmarks: Vec<Bookmark>,
}

/// A place in a file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Bookmark {
    /// As it is listed.
    pub title: String,
    /// Its page, counted from 0.
    pub page: usize,
}

/// Why a file cannot be written.
#[derive(Debug, thiserror::Error)]
pub enum Fault {
    /// There is nothing to print.
    #[error("no pages to write")]
    NoPages,
    /// A bookmark points past the last page.
    #[error("bookmark {title:?} points to page {page}, the file has {pages}", page = page + 1)]
    NoSuchPage {
        /// The bookmark.
        title: String,
        /// Its page, counted from 0.
        page: usize,
        /// Pages there are.
        pages: usize,
    },
    /// A coordinate is not finite.
    #[error("page {page}: mark {mark} is not finite")]
    NotFinite {
        /// Counted from 1.
        page: usize,
        /// Counted from 1.
        mark: usize,
    },
    /// A text cannot be set.
    #[error(transparent)]
    Letters(#[from] fonts::Fault),
    /// A font cannot be cut down to the letters used.
    #[error("the font {font} cannot be cut down: {why}")]
    Subset {
        /// Name of the font.
        font: &'static str,
        /// What the subsetter says.
        why: String,
    },
    /// The file cannot be put together.
    #[error("the file cannot be put together: {0}")]
    Write(#[from] std::io::Error),
    /// A stream cannot be packed.
    #[error("a stream cannot be packed: {0}")]
    Pack(#[from] lopdf::Error),
}

/// The file in the making: objects numbered in the order in which they are made, and the hash of their content.
struct File {
    document: Document,
    hash: Hash,
}

impl File {
    fn add(&mut self, object: impl Into<Object>) -> ObjectId {
        self.document.add_object(object)
    }

    /// A packed stream; its content goes into the hash.
    fn stream(&mut self, dictionary: Dictionary, content: Vec<u8>) -> Result<ObjectId, Fault> {
        self.hash.take(&content);
        let mut stream = Stream::new(dictionary, content);
        stream.compress()?;
        Ok(self.add(stream))
    }
}

/// FNV-1a of 128 bits (its published offset and prime): names a file by its content, guards nothing.
struct Hash(u128);

impl Hash {
    const fn new() -> Self {
        Self(0x6c62_272e_07bb_0142_62b8_2175_6295_c58d)
    }

    fn take(&mut self, bytes: &[u8]) {
        for byte in bytes {
            self.0 = (self.0 ^ u128::from(*byte)).wrapping_mul(0x0000_0000_0100_0000_0000_0000_0000_013B);
        }
    }
}

/// The pages as the bytes of a PDF 1.7 file.
///
/// # Errors
/// [`Fault`]; nothing that is not finite and no missing glyph is ever written.
pub fn write(pages: &[Page], meta: &Meta) -> Result<Vec<u8>, Fault> {
    if pages.is_empty() {
        return Err(Fault::NoPages);
    }
    if let Some(stray) = meta.bookmarks.iter().find(|b| b.page >= pages.len()) {
        return Err(Fault::NoSuchPage { title: stray.title.clone(), page: stray.page, pages: pages.len() });
    }
    let letters = Letters::used(pages.iter().flat_map(|page| &page.marks).filter_map(|mark| match &mark.ink {
        Ink::Text(text) => Some(text),
        _ => None,
    }))?;
    let mut file = File { document: Document::with_version("1.7"), hash: Hash::new() };
    let fonts = letters.embed(&mut file)?;
    let resources = file.add(dictionary! { "Font" => fonts });
    let tree = file.document.new_object_id();
    let mut kids = Vec::with_capacity(pages.len());
    for (number, page) in pages.iter().enumerate() {
        let content = content::stream(page, &letters).map_err(|mark| Fault::NotFinite { page: number + 1, mark })?;
        let content = file.stream(Dictionary::new(), content)?;
        let (width, height) = page.paper.size();
        kids.push(file.add(dictionary! {
            "Type" => "Page",
            "Parent" => tree,
            "MediaBox" => vec![Object::Integer(0), Object::Integer(0), real(width * POINTS), real(height * POINTS)],
            "Resources" => resources,
            "Contents" => content,
        }));
    }
    let count = i64::try_from(kids.len()).unwrap_or(i64::MAX);
    let references: Vec<Object> = kids.iter().map(|id| Object::Reference(*id)).collect();
    file.document.set_object(tree, dictionary! { "Type" => "Pages", "Kids" => references, "Count" => count });
    finish(file, tree, &kids, meta)
}

/// Catalogue, outline, title and `/ID`, and the bytes.
fn finish(mut file: File, tree: ObjectId, kids: &[ObjectId], meta: &Meta) -> Result<Vec<u8>, Fault> {
    let mut catalogue = dictionary! {
        "Type" => "Catalog",
        "Pages" => tree,
        "Lang" => text_string(&meta.language),
        "ViewerPreferences" => dictionary! { "DisplayDocTitle" => true },
    };
    if let Some(outline) = outline(&mut file, kids, &meta.bookmarks) {
        catalogue.set("Outlines", outline);
        catalogue.set("PageMode", "UseOutlines");
    }
    let root = file.add(catalogue);
    let info = file.add(dictionary! { "Title" => text_string(&meta.title), "Author" => text_string(&meta.author) });
    for said in [&meta.title, &meta.author, &meta.language] {
        file.hash.take(said.as_bytes());
        file.hash.take(&[0]);
    }
    let id = Object::String(file.hash.0.to_be_bytes().to_vec(), lopdf::StringFormat::Hexadecimal);
    file.document.trailer.set("Root", root);
    file.document.trailer.set("Info", info);
    file.document.trailer.set("ID", vec![id.clone(), id]);
    // A plain table of objects: the stream form leaves entry 0 out, which some viewers warn about.
    file.document.reference_table.cross_reference_type = lopdf::xref::XrefType::CrossReferenceTable;
    let mut bytes = Vec::new();
    file.document.save_to(&mut bytes)?;
    Ok(bytes)
}

/// The flat list of bookmarks; nothing when there are none.
fn outline(file: &mut File, kids: &[ObjectId], bookmarks: &[Bookmark]) -> Option<ObjectId> {
    let root = file.document.new_object_id();
    let ids: Vec<ObjectId> = bookmarks.iter().map(|_| file.document.new_object_id()).collect();
    let (first, last) = (*ids.first()?, *ids.last()?);
    for (i, (bookmark, id)) in bookmarks.iter().zip(&ids).enumerate() {
        let page = kids.get(bookmark.page)?;
        file.hash.take(bookmark.title.as_bytes());
        file.hash.take(&bookmark.page.to_be_bytes());
        let mut item = dictionary! {
            "Title" => text_string(&bookmark.title),
            "Parent" => root,
            "Dest" => vec![Object::Reference(*page), Object::Name(b"Fit".to_vec())],
        };
        if let Some(before) = i.checked_sub(1).and_then(|i| ids.get(i)) {
            item.set("Prev", *before);
        }
        if let Some(after) = ids.get(i + 1) {
            item.set("Next", *after);
        }
        file.document.set_object(*id, item);
    }
    let count = i64::try_from(ids.len()).unwrap_or(i64::MAX);
    file.document
        .set_object(root, dictionary! { "Type" => "Outlines", "First" => first, "Last" => last, "Count" => count });
    Some(root)
}

/// A number to three places.
fn real(value: f64) -> Object {
    Object::Real(((value * 1000.0).round() / 1000.0) as f32)
}

#[cfg(test)]
mod tests;
