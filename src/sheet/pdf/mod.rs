//! Laid-out pages as a PDF file: vectors, and letters that can be selected and searched.
//!
//! `printpdf` makes the document: pages and their boxes, fonts, information. Set into it here are the structure tree (`tags.rs`),
//! outline and page labels (`places.rs`), metadata (`about.rs`) and the streams of the pages (`content.rs`), which is smaller and several times faster than one operation a mark; the figures stand in
//! `docs/performance.md`. A page is packed as soon as it is laid out ([`Packed`]), so that no more than a few stand in memory. The
//! same pages give the same bytes: there is no clock, and `/ID` is a hash of the content.

mod about;
mod content;
mod letters;
mod places;
mod tags;

pub use places::{Chapter, Leaf};

use super::fonts;
use super::fonts::Font;
use super::page::{Page, Paper};
use flate2::Compression;
use flate2::write::ZlibEncoder;
use letters::Letters;
use lopdf::{Document, Object, ObjectId, SaveOptions, Stream, dictionary, text_string};
use printpdf::{Mm, Op, PdfDocument, PdfPage, PdfSaveOptions};
use std::io::Write as _;
use tags::{Tagged, Tags};

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

/// A page as it stands in a file, packed, and the letters that it uses.
#[derive(Debug)]
pub struct Packed {
    paper: Paper,
    content: Vec<u8>,
    used: Vec<(Font, u16)>,
    tags: Tags,
}

impl Packed {
    /// Packs a page, the `number`th (from 1) of those that are laid out together.
    ///
    /// # Errors
    /// A mark that is not finite, a missing glyph: neither is ever written.
    pub fn new(page: &Page, number: usize) -> Result<Self, Fault> {
        let (content, used, marked) = content::stream(page, number)?;
        let (content, tags) = (deflated(&content)?, Tags::of(page, marked));
        Ok(Self { paper: page.paper, content, used: used.listed(), tags })
    }
}

/// How hard streams are packed: 6 takes a third longer for a thirtieth of the size, 9 four times as long for a twentieth.
const EFFORT: u32 = 5;

/// Objects that are packed together: a reader unpacks them together too.
const TOGETHER: usize = 200;

fn deflated(bytes: &[u8]) -> Result<Vec<u8>, Fault> {
    let mut packer = ZlibEncoder::new(Vec::with_capacity(bytes.len() / 4), Compression::new(EFFORT));
    packer.write_all(bytes)?;
    Ok(packer.finish()?)
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
    let letters = Letters::of(pages.iter().flat_map(|page| page.used.iter().copied()))?;
    let mut file = made(&pages, meta, &letters)?;
    let mut hash = Hash::new();
    letters.finish(&mut file, &mut hash)?;
    let ids: Vec<ObjectId> = file.get_pages().into_values().collect();
    let mut tagged = Vec::with_capacity(pages.len());
    for (page, id) in pages.into_iter().zip(&ids) {
        hash.take(&page.content);
        let contents = file.get_dictionary(*id)?.get(b"Contents")?.as_reference()?;
        file.set_object(contents, packed(page.content));
        tagged.push(Tagged { id: *id, tags: page.tags });
    }
    named(&mut file, &mut hash, meta)?;
    file.prune_objects();
    pack_all(&mut file)?;
    let about = file.add_object(about::packet(meta));
    file.catalog_mut()?.set("Metadata", about);
    places::put_into(&mut file, &ids, meta)?;
    tags::put_into(&mut file, &tagged, &meta.sheets(ids.len()))?;
    finish(file, hash)
}

/// The document without its marks. The first page names every letter once, so that the fonts are taken in; its stream is set
/// anew like the others'.
fn made(pages: &[Packed], meta: &Meta, letters: &Letters) -> Result<Document, Fault> {
    let mut document = PdfDocument::new(&meta.title);
    document.metadata.info.author.clone_from(&meta.author);
    letters.put_into(&mut document)?;
    let page = |(number, page): (usize, &Packed)| {
        let (width, height) = page.paper.size();
        let ops: Vec<Op> = if number == 0 { letters.named_once() } else { Vec::new() };
        PdfPage::new(Mm(width as f32), Mm(height as f32), ops)
    };
    document.with_pages(pages.iter().enumerate().map(page).collect());
    let mut warnings = Vec::new();
    let file = document.to_lopdf_document(&PdfSaveOptions::default(), &mut warnings);
    match warnings.first() {
        Some(warning) => Err(Fault::Made(format!("{warning:?}"))),
        None => Ok(file),
    }
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
        if !stream.dict.has(b"Filter") {
            let content = deflated(&stream.content)?;
            stream.dict.set("Filter", "FlateDecode");
            stream.set_content(content);
        }
    }
    Ok(())
}

/// The bytes, with an `/ID` of the content in the place of a random one.
fn finish(mut file: Document, hash: Hash) -> Result<Vec<u8>, Fault> {
    let id = Object::String(hash.0.to_be_bytes().to_vec(), lopdf::StringFormat::Hexadecimal);
    file.trailer.set("ID", vec![id.clone(), id]);
    // The structure tree is many small objects: they are packed together.
    let options = SaveOptions::builder().use_object_streams(true).use_xref_streams(true);
    let options = options.max_objects_per_stream(TOGETHER).compression_level(EFFORT).build();
    let mut bytes = Vec::new();
    file.save_with_options(&mut bytes, options)?;
    Ok(bytes)
}

/// A number to three places.
fn real(value: f64) -> Object {
    Object::Real(((value * 1000.0).round() / 1000.0) as f32)
}

#[cfg(test)]
mod tests;
