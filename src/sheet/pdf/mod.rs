//! Laid-out pages as a PDF file: vectors, and letters that can be selected and searched.
//!
//! `printpdf` makes the document: pages and their boxes, fonts, information. `lopdf` finishes and writes it, with outline and page labels
//! (`places.rs`) and metadata (`about.rs`). What every page has, its stream (`content.rs`) and its tags (`tags.rs`), is packed where
//! the page is laid out and put behind that as text (`file.rs`), which is smaller and many times faster than an object a mark and
//! an object an element; the figures stand in `docs/performance.md`. A page is packed as soon as it is laid out ([`Packed`]), so
//! that no more than a few stand in memory. The same pages give the same bytes: there is no clock, and `/ID` is a hash of the content.

mod about;
mod content;
mod file;
mod letters;
mod places;
mod tags;

pub use places::{Chapter, Leaf};

use super::fonts;
use super::fonts::Font;
use super::page::{Page, Paper};
use crate::spread;
use file::File;
use letters::{Letters, Used};
use libdeflater::{CompressionLvl, Compressor};
use lopdf::{Document, Object, ObjectId, Stream, dictionary, text_string};
use printpdf::{Mm, Op, PdfDocument, PdfPage, PdfSaveOptions};
use std::cell::RefCell;
use tags::{Tagged, Tags, Tree};

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
    /// Its day, as the job has it.
    pub date: Option<String>,
    /// The list of places beside it: operations, and their sheets in the order of the pages.
    pub chapters: Vec<Chapter>,
}

/// Why a file cannot be written.
#[derive(Debug, thiserror::Error)]
pub enum Fault {
    /// There is nothing to print.
    #[error("no pages to write")]
    NoPages,
    /// A place points past the last page, or back.
    #[error("{title:?} points to page {page}, where no sheet of {pages} pages begins", page = page + 1)]
    NoSuchPage {
        /// The place.
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
    /// The document's maker has something to object to.
    #[error("the document cannot be made: {0}")]
    Made(String),
    /// The file cannot be put together.
    #[error("the file cannot be put together: {0}")]
    Write(#[from] std::io::Error),
    /// A stream cannot be packed.
    #[error("a stream cannot be packed: {0}")]
    Pack(#[from] lopdf::Error),
}

/// FNV-1a of 128 bits (its published offset and prime), over words of eight bytes: names a file by its content, guards nothing.
#[derive(Debug)]
struct Hash(u128);

impl Hash {
    const fn new() -> Self {
        Self(0x6c62_272e_07bb_0142_62b8_2175_6295_c58d)
    }

    fn take(&mut self, bytes: &[u8]) {
        let mut word = |word: u64| {
            self.0 = (self.0 ^ u128::from(word)).wrapping_mul(0x0000_0000_0100_0000_0000_0000_0000_013B);
        };
        let (words, rest) = bytes.as_chunks::<8>();
        words.iter().for_each(|bytes| word(u64::from_le_bytes(*bytes)));
        // Each with a bit that says it is alone: a nought more is another content.
        rest.iter().for_each(|byte| word(u64::from(*byte) | 1 << 8));
    }
}

/// A page as it stands in a file, packed, and the letters that it uses.
#[derive(Debug)]
pub struct Packed {
    paper: Paper,
    content: Vec<u8>,
    used: Vec<(Font, u16)>,
    tags: Tags,
    hash: Hash,
}

impl Packed {
    /// Packs a page, the `number`th (from 1) of those that are laid out together.
    ///
    /// # Errors
    /// A mark that is not finite, a missing glyph: neither is ever written.
    pub fn new(page: &Page, number: usize) -> Result<Self, Fault> {
        let (content, used, marked) = content::stream(page, number)?;
        let (content, tags, mut hash) = (deflated(&content)?, Tags::of(page, &marked), Hash::new());
        hash.take(&content);
        tags.says().for_each(|words| hash.take(words.as_bytes()));
        Ok(Self { paper: page.paper, content, used: used.listed(), tags, hash })
    }
}

/// How hard streams are packed: what more effort gains is a twentieth of a file.
const EFFORT: i32 = 1;

thread_local! {
    /// Each thread packs with one packer: to make one takes longer than to pack a small stream with it.
    static PACKER: RefCell<Compressor> = RefCell::new(Compressor::new(CompressionLvl::new(EFFORT).unwrap_or_default()));
}

fn deflated(bytes: &[u8]) -> Result<Vec<u8>, Fault> {
    PACKER.with_borrow_mut(|packer| {
        let mut out = vec![0; packer.zlib_compress_bound(bytes.len())];
        let size = packer.zlib_compress(bytes, &mut out).map_err(std::io::Error::other)?;
        out.truncate(size);
        out.shrink_to_fit();
        Ok(out)
    })
}

/// Bytes as a packed stream.
fn pack(bytes: &[u8]) -> Result<Stream, Fault> {
    Ok(packed(deflated(bytes)?))
}

fn packed(content: Vec<u8>) -> Stream {
    Stream::new(dictionary! { "Filter" => "FlateDecode" }, content).with_compression(false)
}

/// The pages as the bytes of a PDF 1.7 file.
///
/// # Errors
/// [`Fault`]; nothing that is not finite and no missing glyph is ever written.
pub fn write(pages: &[Page], meta: &Meta) -> Result<Vec<u8>, Fault> {
    let packed = pages.iter().zip(1..).map(|(page, number)| Packed::new(page, number));
    bound(packed.collect::<Result<_, _>>()?, meta)
}

/// Packed pages as the bytes of a PDF 1.7 file.
///
/// # Errors
/// [`Fault`].
pub fn bound(pages: Vec<Packed>, meta: &Meta) -> Result<Vec<u8>, Fault> {
    Ok(in_pieces(pages, meta)?.concat())
}

/// The same in pieces that follow each other.
///
/// # Errors
/// [`Fault`].
pub fn in_pieces(pages: Vec<Packed>, meta: &Meta) -> Result<Vec<Vec<u8>>, Fault> {
    if pages.is_empty() {
        return Err(Fault::NoPages);
    }
    let mut from = 0;
    for leaf in meta.leaves() {
        if leaf.page >= pages.len() || leaf.page < from {
            return Err(Fault::NoSuchPage { title: leaf.title.clone(), page: leaf.page, pages: pages.len() });
        }
        from = leaf.page + 1;
    }
    let mut used = Used::default();
    pages.iter().flat_map(|page| &page.used).for_each(|(font, code)| used.take(*font, *code));
    let letters = Letters::of(used.listed())?;
    let mut document = made(&pages, meta, &letters)?;
    let mut hash = Hash::new();
    letters.finish(&mut document, &mut hash)?;
    named(&mut document, &mut hash, meta)?;
    pages.iter().for_each(|page| hash.take(&page.hash.0.to_be_bytes()));
    // What stands behind the document: a stream a page, the tags, what they are packed in, the table.
    let ids: Vec<ObjectId> = document.get_pages().into_values().collect();
    let about = document.add_object(about::packet(meta));
    document.catalog_mut()?.set("Metadata", about);
    places::put_into(&mut document, &ids, meta)?;
    let streams = document.max_id + 1;
    let root = streams + u32::try_from(ids.len()).unwrap_or(0);
    refer(&mut document, &ids, (streams, root))?;
    pack_all(&mut document)?;
    let mut file = File::of(&mut document)?;
    let said = said(&document, &hash)?;
    drop(document);
    let mut tagged = Vec::with_capacity(pages.len());
    for ((page, id), stream) in pages.into_iter().zip(&ids).zip(streams..) {
        file.stream(stream, "", page.content);
        tagged.push(Tagged { page: id.0, tags: page.tags });
    }
    let sheets = meta.sheets(ids.len());
    let tree = Tree::new(&tagged, &sheets, root);
    let packed = spread::over(&tree.parts(), |part| tree.objects(part.as_ref()).packed())?;
    let mut next = tree.end();
    for objects in packed {
        file.together(next, objects);
        next += 1;
    }
    file.finished(next, &said)
}

/// Has the pages name their streams and the catalogue the tags, which stand behind the document.
fn refer(document: &mut Document, pages: &[ObjectId], (streams, root): (u32, u32)) -> Result<(), Fault> {
    let mut resources = None;
    for ((number, id), stream) in (0_i64..).zip(pages).zip(streams..) {
        let page = document.get_object_mut(*id)?.as_dict_mut()?;
        let (own, marks) = (page.get(b"Resources")?.as_reference()?, page.get(b"Contents")?.as_reference()?);
        let shared = *resources.get_or_insert(own);
        page.set("Resources", Object::Reference(shared));
        page.set("Contents", Object::Reference((stream, 0)));
        page.set("StructParents", number);
        page.set("Tabs", "S");
        page.remove(b"Annots");
        // Every page has the same letters, and its marks stand behind the document.
        document.objects.remove(&marks);
        if own != shared {
            document.objects.remove(&own);
        }
    }
    let catalogue = document.catalog_mut()?;
    catalogue.set("StructTreeRoot", Object::Reference((root, 0)));
    catalogue.set("MarkInfo", dictionary! { "Marked" => true });
    Ok(())
}

/// What the table of objects says of the file, with an `/ID` of the content.
fn said(document: &Document, hash: &Hash) -> Result<String, Fault> {
    let of = |key: &[u8]| document.trailer.get(key).and_then(Object::as_reference);
    let (root, info, id) = (of(b"Root")?, of(b"Info")?, hash.0);
    Ok(format!("/Root {} 0 R/Info {} 0 R/ID[<{id:032X}><{id:032X}>]", root.0, info.0))
}

/// The document without its marks: its maker makes one page of each paper, and the others are copies of it. The first page names
/// every letter once, so that the fonts are taken in; its stream is set anew like the others'.
fn made(pages: &[Packed], meta: &Meta, letters: &Letters) -> Result<Document, Fault> {
    let mut document = PdfDocument::new(&meta.title);
    document.metadata.info.author.clone_from(&meta.author);
    letters.put_into(&mut document)?;
    let mut papers: Vec<Paper> = Vec::new();
    for page in pages {
        if !papers.contains(&page.paper) {
            papers.push(page.paper);
        }
    }
    let page = |(number, paper): (usize, &Paper)| {
        let (width, height) = paper.size();
        let ops: Vec<Op> = if number == 0 { letters.named_once() } else { Vec::new() };
        PdfPage::new(Mm(width as f32), Mm(height as f32), ops)
    };
    document.with_pages(papers.iter().enumerate().map(page).collect());
    let mut warnings = Vec::new();
    let mut file = document.to_lopdf_document(&PdfSaveOptions::default(), &mut warnings);
    if let Some(warning) = warnings.first() {
        return Err(Fault::Made(format!("{warning:?}")));
    }
    repeat(&mut file, &papers, pages)?;
    Ok(file)
}

/// Has a document, which has one page of each of some papers, have the pages that are wanted.
fn repeat(file: &mut Document, papers: &[Paper], wanted: &[Packed]) -> Result<(), Fault> {
    let first: Vec<ObjectId> = file.get_pages().into_values().collect();
    for page in &first {
        let page = file.get_object_mut(*page)?.as_dict_mut()?;
        // As large as the paper, which is what a page without them has (ISO 32000-1, 7.7.3.3).
        page.remove(b"CropBox");
        page.remove(b"TrimBox");
    }
    let mut used = vec![false; first.len()];
    let mut kids: Vec<Object> = Vec::with_capacity(wanted.len());
    for page in wanted {
        let at = papers.iter().position(|paper| *paper == page.paper).unwrap_or_default();
        let (Some(id), Some(used)) = (first.get(at).copied(), used.get_mut(at)) else { continue };
        let copied = if *used { Some(file.get_object(id)?.clone()) } else { None };
        *used = true;
        kids.push(copied.map_or(id, |page| file.add_object(page)).into());
    }
    let Some(one) = first.first() else { return Ok(()) };
    let tree = file.get_object(*one)?.as_dict()?.get(b"Parent")?.as_reference()?;
    let tree = file.get_object_mut(tree)?.as_dict_mut()?;
    tree.set("Count", i64::try_from(kids.len()).unwrap_or(i64::MAX));
    tree.set("Kids", kids);
    Ok(())
}

/// What the catalogue and the information must say besides: version, language, how the file opens.
fn named(file: &mut Document, hash: &mut Hash, meta: &Meta) -> Result<(), Fault> {
    file.version = "1.7".into();
    let own = [&meta.title, &meta.author, &meta.language].into_iter().chain(&meta.date);
    let places = meta.chapters.iter().map(|chapter| &chapter.title);
    for said in own.chain(places).chain(meta.leaves().flat_map(|leaf| [&leaf.id, &leaf.title])) {
        hash.take(said.as_bytes());
        hash.take(&[0]);
    }
    let catalogue = file.catalog_mut()?;
    catalogue.set("Lang", text_string(&meta.language));
    catalogue.set("ViewerPreferences", dictionary! { "DisplayDocTitle" => true });
    catalogue.set("PageMode", "UseNone");
    catalogue.remove(b"Metadata");
    let information = file.trailer.get(b"Info")?.as_reference()?;
    let information = file.get_object_mut(information)?.as_dict_mut()?;
    // Left empty, or the day 0 of a clock that nobody asked.
    for empty in
        ["GTS_PDFXVersion", "Identifier", "CreationDate", "ModDate", "Creator", "Producer", "Subject", "Keywords"]
    {
        information.remove(empty.as_bytes());
    }
    Ok(())
}

/// The fonts and what they mean come unpacked: all are packed once, here.
fn pack_all(file: &mut Document) -> Result<(), Fault> {
    for stream in file.objects.values_mut().filter_map(|object| object.as_stream_mut().ok()) {
        // Metadata stand unpacked, so that they are found without reading the rest.
        if !stream.dict.has(b"Filter") && !stream.dict.has_type(b"Metadata") {
            let content = deflated(&stream.content)?;
            stream.dict.set("Filter", "FlateDecode");
            stream.set_content(content);
        }
    }
    Ok(())
}

/// A whole number as text.
fn number(out: &mut Vec<u8>, value: i64) {
    out.extend_from_slice(itoa::Buffer::new().format(value).as_bytes());
}

/// A number to three places.
fn real(value: f64) -> Object {
    Object::Real(((value * 1000.0).round() / 1000.0) as f32)
}

#[cfg(test)]
mod tests;
