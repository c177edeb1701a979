//! Fonts in the file: cut down to the letters used, each character with a code of its own.
//!
//! Two characters may share a glyph (µ and μ, hyphen and soft hyphen). A code per *character*, mapped to its glyph,
//! keeps them apart, so that the text read back from the file is the text that was laid out.

use super::{Fault, Hash, real};
use crate::sheet::fonts::{self, Font};
use crate::sheet::page::Text;
use lopdf::{Dictionary, Document, Object, Stream};
use printpdf::{FontId, FontMetrics, Op, ParsedFont, PdfDocument, PdfFont, PdfFontHandle, Pt, TextItem};
use std::collections::{BTreeMap, BTreeSet};
use subsetter::GlyphRemapper;

/// The name of a font in page streams.
pub(super) const fn key(font: Font) -> &'static str {
    match font {
        Font::Sans => "S",
        Font::Bold => "B",
        Font::Mono => "M",
    }
}

/// The characters used of each font, with their codes from 1.
pub(super) struct Letters(BTreeMap<Font, BTreeMap<char, u16>>);

impl Letters {
    /// Collects them from the texts of a file.
    pub(super) fn used<'a>(texts: impl Iterator<Item = &'a Text>) -> Result<Self, Fault> {
        let mut used: BTreeMap<Font, BTreeSet<char>> = BTreeMap::new();
        for text in texts {
            let face = text.font.face()?;
            let known = used.entry(text.font).or_default();
            for c in text.text.chars() {
                if !known.contains(&c) {
                    if face.glyph_index(c).is_none() {
                        return Err(Fault::Letters(fonts::Fault::Missing {
                            font: text.font,
                            text: text.text.clone(),
                            missing: vec![c],
                        }));
                    }
                    known.insert(c);
                }
            }
        }
        Ok(Self(used.into_iter().map(|(font, chars)| (font, chars.into_iter().zip(1..).collect())).collect()))
    }

    /// The code of a character.
    pub(super) fn code(&self, font: Font, c: char) -> Option<u16> {
        self.0.get(&font)?.get(&c).copied()
    }

    /// Puts the fonts, cut down to their letters, into a document under the names of the page streams. To its maker a code is a
    /// glyph; [`Self::finish`] maps the codes to the glyphs.
    pub(super) fn put_into(&self, document: &mut PdfDocument) -> Result<(), Fault> {
        for (font, chars) in &self.0 {
            let face = font.face()?;
            let (glyphs, _) = glyphs(face, chars);
            let cut = subsetter::subset(font.file(), 0, &glyphs)
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
        let each = self.0.iter().flat_map(|(font, chars)| {
            let font = PdfFontHandle::External(FontId(key(*font).into()));
            let text = chars.keys().collect();
            [Op::SetFont { font, size: Pt(1.0) }, Op::ShowText { items: vec![TextItem::Text(text)] }]
        });
        [Op::StartTextSection].into_iter().chain(each).chain([Op::EndTextSection]).collect()
    }

    /// What the maker of the document cannot know of a font: the glyph of each code, the height of the capitals, the tag of a
    /// font that was cut down.
    pub(super) fn finish(&self, file: &mut Document, hash: &mut Hash) -> Result<(), Fault> {
        for (font, chars) in &self.0 {
            let (_, map) = glyphs(font.face()?, chars);
            hash.take(&map);
            let name = Object::Name(format!("{}+{}", tag(&map, chars), font.name()).into_bytes());
            let map = file.add_object(Stream::new(Dictionary::new(), map));
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
    let mut map = vec![0_u8, 0];
    for c in chars.keys() {
        let glyph = face.glyph_index(*c).unwrap_or_default();
        map.extend_from_slice(&glyphs.remap(glyph.0).to_be_bytes());
    }
    (glyphs, map)
}

/// Six capitals that name the choice of letters.
fn tag(map: &[u8], chars: &BTreeMap<char, u16>) -> String {
    let mut hash = Hash::new();
    hash.take(map);
    chars.keys().for_each(|c| hash.take(&u32::from(*c).to_be_bytes()));
    let bytes = hash.0.to_be_bytes();
    bytes.iter().take(6).map(|b| char::from(b'A' + b % 26)).collect()
}
