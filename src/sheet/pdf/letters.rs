//! Fonts in the file: cut down to the letters used, each character with a code of its own.
//!
//! Two characters may share a glyph (µ and μ, hyphen and soft hyphen). A code per *character*, mapped to its glyph,
//! keeps them apart, so that the text read back from the file is the text that was laid out.

use super::{Fault, File, Hash, real};
use crate::sheet::fonts::{self, Font};
use crate::sheet::page::Text;
use lopdf::{Dictionary, Object, ObjectId, dictionary};
use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;
use subsetter::GlyphRemapper;

/// Mappings that one block of a character map may hold (PDF reference).
const BLOCK: usize = 100;
/// Stem of upright letters over 1000, which only a viewer that replaces the font looks at.
const STEM: i64 = 80;

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

    /// Puts the fonts into a file; gives back the dictionary that names them.
    pub(super) fn embed(&self, file: &mut File) -> Result<Dictionary, Fault> {
        let mut named = Dictionary::new();
        for (font, chars) in &self.0 {
            named.set(key(*font), embed(file, *font, chars)?);
        }
        Ok(named)
    }
}

fn embed(file: &mut File, font: Font, chars: &BTreeMap<char, u16>) -> Result<ObjectId, Fault> {
    let face = font.face()?;
    let mut glyphs = GlyphRemapper::new();
    let mut map = vec![0_u8, 0];
    let mut widths = Vec::with_capacity(chars.len());
    let per_thousand = 1000.0 / f64::from(face.units_per_em());
    for c in chars.keys() {
        let glyph = face.glyph_index(*c).unwrap_or_default();
        map.extend_from_slice(&glyphs.remap(glyph.0).to_be_bytes());
        widths.push(real(f64::from(face.glyph_hor_advance(glyph).unwrap_or(0)) * per_thousand));
    }
    let cut = subsetter::subset(font.file(), 0, &glyphs)
        .map_err(|e| Fault::Subset { font: font.name(), why: e.to_string() })?;
    let name = format!("{}+{}", tag(&map, chars), font.name());
    let length = i64::try_from(cut.len()).unwrap_or(i64::MAX);
    let program = file.stream(dictionary! { "Length1" => length }, cut)?;
    let map = file.stream(Dictionary::new(), map)?;
    let to_unicode = file.stream(Dictionary::new(), to_unicode(chars).into_bytes())?;
    let box_ = face.global_bounding_box();
    let scaled = |v: i16| real(f64::from(v) * per_thousand);
    let descriptor = file.add(dictionary! {
        "Type" => "FontDescriptor",
        "FontName" => Object::Name(name.clone().into_bytes()),
        "Flags" => 4,
        "FontBBox" => vec![scaled(box_.x_min), scaled(box_.y_min), scaled(box_.x_max), scaled(box_.y_max)],
        "ItalicAngle" => 0,
        "Ascent" => scaled(face.ascender()),
        "Descent" => scaled(face.descender()),
        "CapHeight" => real(fonts::CAPITAL * 1000.0),
        "StemV" => STEM,
        "FontFile2" => program,
    });
    let descendant = file.add(dictionary! {
        "Type" => "Font",
        "Subtype" => "CIDFontType2",
        "BaseFont" => Object::Name(name.clone().into_bytes()),
        "CIDSystemInfo" => dictionary! {
            "Registry" => Object::string_literal("Adobe"),
            "Ordering" => Object::string_literal("Identity"),
            "Supplement" => 0,
        },
        "FontDescriptor" => descriptor,
        "CIDToGIDMap" => map,
        "W" => vec![Object::Integer(1), Object::Array(widths)],
    });
    Ok(file.add(dictionary! {
        "Type" => "Font",
        "Subtype" => "Type0",
        "BaseFont" => Object::Name(name.into_bytes()),
        "Encoding" => "Identity-H",
        "DescendantFonts" => vec![Object::Reference(descendant)],
        "ToUnicode" => to_unicode,
    }))
}

/// Six capitals that name the choice of letters.
fn tag(map: &[u8], chars: &BTreeMap<char, u16>) -> String {
    let mut hash = Hash::new();
    hash.take(map);
    chars.keys().for_each(|c| hash.take(&u32::from(*c).to_be_bytes()));
    let bytes = hash.0.to_be_bytes();
    bytes.iter().take(6).map(|b| char::from(b'A' + b % 26)).collect()
}

/// The map from codes to characters, for searching and copying.
fn to_unicode(chars: &BTreeMap<char, u16>) -> String {
    let mut map = String::from(
        "/CIDInit /ProcSet findresource begin\n12 dict begin\nbegincmap\n\
         /CIDSystemInfo << /Registry (Adobe) /Ordering (UCS) /Supplement 0 >> def\n\
         /CMapName /Adobe-Identity-UCS def\n/CMapType 2 def\n\
         1 begincodespacerange\n<0000> <FFFF>\nendcodespacerange\n",
    );
    let all: Vec<(&char, &u16)> = chars.iter().collect();
    for block in all.chunks(BLOCK) {
        let _ = writeln!(map, "{} beginbfchar", block.len());
        for (c, code) in block {
            let _ = write!(map, "<{code:04X}> <");
            for unit in c.encode_utf16(&mut [0; 2]) {
                let _ = write!(map, "{unit:04X}");
            }
            map.push_str(">\n");
        }
        map.push_str("endbfchar\n");
    }
    map.push_str("endcmap\nCMapName currentdict /CMap defineresource pop\nend\nend\n");
    map
}

#[cfg(test)]
mod tests {
    use super::to_unicode;

    #[test]
    fn characters_beyond_the_first_plane_are_two_units() {
        let map = to_unicode(&[('A', 1), ('𝐀', 2)].into_iter().collect());
        assert!(map.contains("<0001> <0041>") && map.contains("<0002> <D835DC00>"));
    }
}
