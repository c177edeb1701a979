//! Fonts in the file: cut down to the letters used, each character with a code of its own.
//!
//! Two characters may share a glyph (µ and μ, hyphen and soft hyphen). A code per *character*, mapped to its glyph,
//! keeps them apart, so that the text read back from the file is the text that was laid out. The code of a character is the same
//! in every file (`fonts::code`): a page can be written before it is known what the others hold.

use super::{Fault, Hash, real};
use crate::sheet::fonts::{self, Font};
use lopdf::{Document, Object};
use printpdf::{FontId, FontMetrics, Op, ParsedFont, PdfDocument, PdfFont, PdfFontHandle, Pt, TextItem};
use std::collections::BTreeMap;
use subsetter::GlyphRemapper;

/// The name of a font in page streams.
pub(super) const fn key(font: Font) -> &'static str {
    match font {
        Font::Sans => "S",
        Font::Bold => "B",
        Font::Mono => "M",
    }
}

/// Which codes of a font are used: a bit each, as far as the greatest of them.
#[derive(Clone, Default)]
struct Codes(Vec<u64>);

/// The codes that are used of each font.
#[derive(Clone, Default)]
pub(super) struct Used([Codes; 3]);

impl Used {
    /// A letter is used.
    pub(super) fn take(&mut self, font: Font, code: u16) {
        let [sans, bold, mono] = &mut self.0;
        let codes = match font {
            Font::Sans => sans,
            Font::Bold => bold,
            Font::Mono => mono,
        };
        let word = usize::from(code / 64);
        if codes.0.len() <= word {
            codes.0.resize(word + 1, 0);
        }
        if let Some(bits) = codes.0.get_mut(word) {
            *bits |= 1 << (code % 64);
        }
    }

    /// The codes used of each font, in order.
    pub(super) fn listed(&self) -> Vec<(Font, u16)> {
        let mut listed = Vec::new();
        for (font, codes) in Font::ALL.into_iter().zip(&self.0) {
            let used = (0_u16..).zip(&codes.0).filter(|(_, bits)| **bits != 0);
            let each = used.flat_map(|(word, bits)| {
                (0..64).filter(move |bit| bits >> bit & 1 == 1).map(move |bit| word * 64 + bit)
            });
            listed.extend(each.map(|code| (font, code)));
        }
        listed
    }
}

/// The characters of a file's fonts.
pub(super) struct Letters(BTreeMap<Font, Chosen>);

/// The characters of one font.
struct Chosen {
    /// With their codes.
    chars: BTreeMap<char, u16>,
    /// Their glyphs, numbered anew.
    glyphs: GlyphRemapper,
    /// From codes (two bytes each, from 0) to the new numbers.
    map: Vec<u8>,
}

impl Letters {
    /// Those of some codes.
    pub(super) fn of(used: Vec<(Font, u16)>) -> Result<Self, Fault> {
        let mut all: BTreeMap<Font, BTreeMap<char, u16>> = BTreeMap::new();
        for (font, code) in used {
            if let Some(c) = fonts::sign(font, code)? {
                all.entry(font).or_default().insert(c, code);
            }
        }
        let chosen = |(font, chars): (Font, BTreeMap<char, u16>)| {
            let (glyphs, map) = glyphs(font.face()?, &chars);
            Ok((font, Chosen { chars, glyphs, map }))
        };
        all.into_iter().map(chosen).collect::<Result<_, Fault>>().map(Self)
    }

    /// Puts the fonts, cut down to their letters, into a document under the names of the page streams. To its maker a code is a
    /// glyph; [`Self::finish`] maps the codes to the glyphs.
    pub(super) fn put_into(&self, document: &mut PdfDocument) -> Result<(), Fault> {
        for (font, Chosen { chars, glyphs, .. }) in &self.0 {
            let face = font.face()?;
            let cut = subsetter::subset(font.file(), 0, glyphs)
                .map_err(|e| Fault::Subset { font: font.name(), why: e.to_string() })?;
            let codes = chars.iter().map(|(c, code)| (u32::from(*c), *code)).collect();
            let widths =
                chars.iter().filter_map(|(c, code)| Some((*code, face.glyph_hor_advance(face.glyph_index(*c)?)?)));
            let metrics = FontMetrics { ascent: face.ascender(), descent: face.descender() };
            let name = Some(font.name().to_owned());
            let mut parsed =
                ParsedFont::with_glyph_data(cut, 0, name, codes, widths.collect(), face.units_per_em(), metrics);
            let bounds = face.global_bounding_box();
            parsed.pdf_font_metrics.x_min = bounds.x_min;
            parsed.pdf_font_metrics.y_min = bounds.y_min;
            parsed.pdf_font_metrics.x_max = bounds.x_max;
            parsed.pdf_font_metrics.y_max = bounds.y_max;
            parsed.pdf_font_metrics.us_weight_class = face.weight().to_number();
            document.resources.fonts.map.insert(FontId(key(*font).into()), PdfFont::new(parsed));
        }
        Ok(())
    }

    /// Every letter once, so that the document's maker takes the fonts in.
    pub(super) fn named_once(&self) -> Vec<Op> {
        let each = self.0.iter().flat_map(|(font, Chosen { chars, .. })| {
            let font = PdfFontHandle::External(FontId(key(*font).into()));
            let text = chars.keys().collect();
            [Op::SetFont { font, size: Pt(1.0) }, Op::ShowText { items: vec![TextItem::Text(text)] }]
        });
        [Op::StartTextSection].into_iter().chain(each).chain([Op::EndTextSection]).collect()
    }

    /// What the maker of the document cannot know of a font: the glyph of each code, the height of the capitals, the tag of a
    /// font that was cut down.
    pub(super) fn finish(&self, file: &mut Document, hash: &mut Hash) -> Result<(), Fault> {
        for (font, Chosen { chars, map, .. }) in &self.0 {
            let name = Object::Name(format!("{}+{}", tag(chars), font.name()).into_bytes());
            let map = super::pack(map)?;
            hash.take(&map.content);
            let map = file.add_object(map);
            let is_font = |object: &Object| {
                object.as_dict().is_ok_and(|d| {
                    d.get(b"BaseFont").and_then(Object::as_name).is_ok_and(|n| n == font.name().as_bytes())
                })
            };
            let Some(id) = file.objects.iter().find(|(_, object)| is_font(object)).map(|(id, _)| *id) else { continue };
            let font = file.get_object_mut(id)?.as_dict_mut()?;
            font.set("BaseFont", name.clone());
            let Some(descendant) = font.get_mut(b"DescendantFonts")?.as_array_mut()?.first_mut() else { continue };
            let descendant = descendant.as_dict_mut()?;
            descendant.set("BaseFont", name.clone());
            descendant.set("CIDToGIDMap", map);
            let descriptor = descendant.get(b"FontDescriptor")?.as_reference()?;
            let descriptor = file.get_object_mut(descriptor)?.as_dict_mut()?;
            descriptor.set("FontName", name);
            descriptor.set("CapHeight", real(fonts::CAPITAL * 1000.0));
        }
        Ok(())
    }
}

/// The glyphs of the letters, numbered anew, and the map from codes (two bytes each, from 0) to them.
fn glyphs(face: &ttf_parser::Face, chars: &BTreeMap<char, u16>) -> (GlyphRemapper, Vec<u8>) {
    let mut glyphs = GlyphRemapper::new();
    let last = chars.values().max().copied().unwrap_or(0);
    let mut map = vec![0; 2 * (usize::from(last) + 1)];
    let (slots, _) = map.as_chunks_mut::<2>();
    for (c, code) in chars {
        let glyph = face.glyph_index(*c).unwrap_or_default();
        if let Some(slot) = slots.get_mut(usize::from(*code)) {
            *slot = glyphs.remap(glyph.0).to_be_bytes();
        }
    }
    (glyphs, map)
}

/// Six capitals that name the choice of letters.
fn tag(chars: &BTreeMap<char, u16>) -> String {
    let mut hash = Hash::new();
    chars.keys().for_each(|c| hash.take(&u32::from(*c).to_be_bytes()));
    let bytes = hash.0.to_be_bytes();
    bytes.iter().take(6).map(|b| char::from(b'A' + b % 26)).collect()
}
