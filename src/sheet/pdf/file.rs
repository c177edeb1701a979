//! The end of a file. What stands in it once was made by `printpdf` and is written by `lopdf`; what every page has, its stream
//! and its tags, is put behind that as it was packed, so that no more than that is held, and one table of objects stands over
//! all (ISO 32000-1, 7.5.7 and 7.5.8).

use super::{Fault, deflated, number};
use lopdf::Document;

/// Small objects to be packed together, as text.
#[derive(Debug, Default)]
pub(super) struct Objects {
    /// Number of each, and where it begins.
    places: Vec<(u32, usize)>,
    text: Vec<u8>,
}

/// Small objects packed.
#[derive(Debug)]
pub(super) struct Together {
    numbers: Vec<u32>,
    /// Where the first object begins, behind the numbers.
    first: usize,
    content: Vec<u8>,
}

impl Objects {
    /// Another object, as `write` writes it.
    pub(super) fn add(&mut self, number: u32, write: impl FnOnce(&mut Vec<u8>)) {
        self.places.push((number, self.text.len()));
        write(&mut self.text);
        self.text.push(b'\n');
    }

    /// All of them packed.
    pub(super) fn packed(self) -> Result<Together, Fault> {
        let mut content = Vec::with_capacity(self.text.len() + 12 * self.places.len());
        for (object, place) in &self.places {
            for figure in [i64::from(*object), i64::try_from(*place).unwrap_or(i64::MAX)] {
                number(&mut content, figure);
                content.push(b' ');
            }
        }
        let first = content.len();
        content.extend_from_slice(&self.text);
        let numbers = self.places.iter().map(|(number, _)| *number).collect();
        Ok(Together { numbers, first, content: deflated(&content)? })
    }
}

/// Where an object stands.
#[derive(Clone, Copy, Debug)]
enum Place {
    Nowhere,
    At(usize),
    In { stream: u32, nth: u16 },
}

/// A file in the making: its bytes in pieces, so that what was packed is neither copied nor held twice.
pub(super) struct File {
    pieces: Vec<Vec<u8>>,
    length: usize,
    places: Vec<Place>,
}

/// Width of an entry of the table: kind, place, number in its stream.
const WIDTHS: [usize; 3] = [1, 4, 2];

impl File {
    /// What `lopdf` writes of a document, without its table of objects.
    pub(super) fn of(document: &mut Document) -> Result<Self, Fault> {
        let streams = document.objects.values().filter_map(|object| object.as_stream().ok());
        let long: usize = streams.map(|stream| stream.content.len()).sum();
        // Beside the streams most documents are small.
        let mut bytes = Vec::with_capacity(long + 16 * 1024);
        document.reference_table.cross_reference_type = lopdf::xref::XrefType::CrossReferenceTable;
        document.save_to(&mut bytes)?;
        let unlike = || Fault::Made("a file without the objects that it was made of".into());
        let mut file = Self { pieces: Vec::new(), length: 0, places: Vec::new() };
        let mut from = 0;
        for (id, object) in &document.objects {
            let at = found(&bytes, from, format!("{} {} obj\n", id.0, id.1).as_bytes()).ok_or_else(unlike)?;
            file.stands(id.0, Place::At(at));
            // They stand in the order of their numbers, and what a stream holds is not looked through.
            from = at + object.as_stream().map_or(1, |stream| stream.content.len());
        }
        let start = found(&bytes, from, b"\nxref\n").ok_or_else(unlike)? + 1;
        bytes.truncate(start);
        file.push(bytes);
        Ok(file)
    }

    fn push(&mut self, piece: impl Into<Vec<u8>>) {
        let piece = piece.into();
        self.length += piece.len();
        self.pieces.push(piece);
    }

    fn stands(&mut self, object: u32, place: Place) {
        let at = usize::try_from(object).unwrap_or(usize::MAX);
        if self.places.len() <= at {
            self.places.resize(at + 1, Place::Nowhere);
        }
        if let Some(slot) = self.places.get_mut(at) {
            *slot = place;
        }
    }

    /// Puts a packed stream into the file; `says` is what its dictionary says besides its length.
    pub(super) fn stream(&mut self, object: u32, says: &str, content: Vec<u8>) {
        self.stands(object, Place::At(self.length));
        let length = content.len();
        self.push(format!("{object} 0 obj\n<<{says}/Filter/FlateDecode/Length {length}>>stream\n"));
        self.push(content);
        self.push(*b"\nendstream\nendobj\n");
    }

    /// Puts packed objects into the file, as an object of the number `stream`.
    pub(super) fn together(&mut self, stream: u32, objects: Together) {
        let (count, first) = (objects.numbers.len(), objects.first);
        self.stream(stream, &format!("/Type/ObjStm/N {count}/First {first}"), objects.content);
        for (nth, object) in (0..).zip(&objects.numbers) {
            self.stands(*object, Place::In { stream, nth });
        }
    }

    /// The bytes in pieces, with the table of objects, `says` being what it says of the file.
    pub(super) fn finished(mut self, table: u32, says: &str) -> Result<Vec<Vec<u8>>, Fault> {
        let start = self.length;
        self.stands(table, Place::At(start));
        let mut rows = Vec::with_capacity(self.places.len() * 8);
        let mut before = [0_u8; 7];
        for place in &self.places {
            let (kind, at, nth) = match place {
                Place::Nowhere => (0, 0, u16::MAX),
                Place::At(at) => (1, u32::try_from(*at).unwrap_or(u32::MAX), 0),
                Place::In { stream, nth } => (2, *stream, *nth),
            };
            let mut row = [0_u8; 7];
            let bytes = [kind].into_iter().chain(at.to_be_bytes()).chain(nth.to_be_bytes());
            row.iter_mut().zip(bytes).for_each(|(slot, byte)| *slot = byte);
            // Each row as what it is more than the row before: nearly nothing, which packs well.
            rows.push(2);
            rows.extend(row.iter().zip(before).map(|(now, before)| now.wrapping_sub(before)));
            before = row;
        }
        let [kind, at, nth] = WIDTHS;
        let (size, columns) = (self.places.len(), kind + at + nth);
        let form =
            format!("/Type/XRef/Size {size}/W[{kind} {at} {nth}]/DecodeParms<</Predictor 12/Columns {columns}>>{says}");
        self.stream(table, &form, deflated(&rows)?);
        self.push(format!("startxref\n{start}\n%%EOF\n"));
        Ok(self.pieces)
    }
}

/// Where a piece first stands from a place on.
fn found(bytes: &[u8], from: usize, piece: &[u8]) -> Option<usize> {
    memchr::memmem::find(bytes.get(from..)?, piece).map(|at| from + at)
}

/// A reference to an object.
pub(super) fn reference(out: &mut Vec<u8>, object: u32) {
    number(out, i64::from(object));
    out.extend_from_slice(b" 0 R ");
}

/// Words as a file holds them: in two bytes a sign.
pub(super) fn string(out: &mut Vec<u8>, text: &str) {
    out.push(b'(');
    if text.is_ascii() {
        text.bytes().for_each(|byte| escaped(out, byte));
    } else {
        for byte in std::iter::once(0xFEFF).chain(text.encode_utf16()).flat_map(u16::to_be_bytes) {
            escaped(out, byte);
        }
    }
    out.push(b')');
}

/// A byte of a string.
pub(super) fn escaped(out: &mut Vec<u8>, byte: u8) {
    match byte {
        b'(' | b')' | b'\\' => out.extend_from_slice(&[b'\\', byte]),
        // A reader takes it for the end of a line.
        b'\r' => out.extend_from_slice(b"\\r"),
        _ => out.push(byte),
    }
}

#[cfg(test)]
mod tests {
    use super::string;

    #[test]
    fn strings_escape_what_would_end_them() {
        let written = |text: &str| {
            let mut out = Vec::new();
            string(&mut out, text);
            out
        };
        assert_eq!(written("a(b)\\"), b"(a\\(b\\)\\\\)");
        assert_eq!(written("ȍ"), b"(\xFE\xFF\x02\\r)");
        assert_eq!(written("\u{228}"), b"(\xFE\xFF\x02\\()");
    }
}
