//! A document that is written plainly, read as it stands: maps with words for keys, lists, brackets over as many lines as they take,
//! texts and plain numbers each in one line. It is most of what anybody writes, and is so read ten times as fast; whatever else YAML
//! can say, and every slip, is left to the whole reader, which then reads the text from its beginning.

use super::node::{Kind, Node};
use super::scalar;
use crate::proof::Place;

/// More than this is left to the whole reader, which knows its bounds.
const MOST_NODES: usize = 90_000;
const MOST_DEPTH: usize = 32;
const MOST_KEYS: usize = 200;
const LONGEST_KEY: usize = 200;

/// The tree of a document so written, its places counted from the first line; none where anything in it is written otherwise.
pub(super) fn plain(text: &str) -> Option<Node> {
    if !has_plain_signs(text) {
        return None;
    }
    let mut reader = Reader { text, at: 0, line: 1, begins: 0, counted: (0, 1), indent: None, nodes: 0, depth: 0 };
    reader.go_on()?;
    let column = reader.indent?;
    let whole = match reader.here()? {
        b'{' | b'[' => {
            let whole = reader.brackets(None)?;
            reader.go_on()?;
            whole
        }
        _ => reader.block(column)?,
    };
    reader.indent.is_none().then_some(whole)
}

/// Whether no sign stands in a text that is not printed, or that may part lines.
fn has_plain_signs(text: &str) -> bool {
    let bytes = text.as_bytes();
    // The first bytes of all of them that are not ASCII: from U+0080, U+2000 and U+F000 on.
    let other = |at: usize| text.get(at..).and_then(|rest| rest.chars().next());
    let is_odd =
        |c: char| matches!(c, '\u{80}'..='\u{9f}' | '\u{2028}' | '\u{2029}' | '\u{feff}' | '\u{fffe}' | '\u{ffff}');
    bytes.iter().all(|byte| *byte == b'\n' || (*byte >= b' ' && *byte != 0x7f))
        && !memchr::memchr3_iter(0xc2, 0xe2, 0xef, bytes).filter_map(other).any(is_odd)
}

/// Whether a sign parts what stands in brackets.
const fn parts(byte: u8) -> bool {
    matches!(byte, b',' | b'[' | b']' | b'{' | b'}')
}

struct Reader<'a> {
    text: &'a str,
    /// Where it stands.
    at: usize,
    /// The line, from 1, and where it begins.
    line: u32,
    begins: usize,
    /// Up to where the signs of the line were counted, and the column there, from 1.
    counted: (usize, u32),
    /// How far in the line stands at whose beginning it is; none behind the last.
    indent: Option<usize>,
    nodes: usize,
    depth: usize,
}

// Every one of these gives nothing where it meets what is not written plainly.
impl Reader<'_> {
    fn here(&self) -> Option<u8> {
        self.ahead(0)
    }

    fn ahead(&self, by: usize) -> Option<u8> {
        self.text.as_bytes().get(self.at + by).copied()
    }

    fn skip_blanks(&mut self) {
        while self.here() == Some(b' ') {
            self.at += 1;
        }
    }

    /// The place of what stands between two places of the line.
    fn place(&mut self, from: usize, to: usize) -> Place {
        let signs = |from, to| self.text.get(from..to).map_or(0, |text| text.chars().count());
        let count = |n: usize| u32::try_from(n).unwrap_or(u32::MAX);
        let column = self.counted.1 + count(signs(self.counted.0, from));
        let length = count(signs(from, to)).max(1);
        self.counted = (from, column);
        Place { source: 0, line: self.line, column, length }
    }

    /// Over the end of a line.
    fn over_line(&mut self) -> Option<()> {
        self.at += 1;
        self.line += 1;
        self.begins = self.at;
        self.counted = (self.at, 1);
        let rest = self.text.get(self.at..)?;
        // Documents part there.
        (!rest.starts_with("---") && !rest.starts_with("...")).then_some(())
    }

    /// From where something ends to the next that is said; a remark goes to the end of its line. Whether that is in another line.
    fn over_blanks(&mut self) -> Option<bool> {
        loop {
            let from = self.at;
            self.skip_blanks();
            match self.here() {
                Some(b'\n') => self.over_line()?,
                Some(b'#') if self.at > from || from == self.begins => {
                    let rest = self.text.get(self.at..)?;
                    self.at += memchr::memchr(b'\n', rest.as_bytes()).unwrap_or(rest.len());
                }
                _ => return Some(from == self.begins),
            }
        }
    }

    /// From the end of what a line says to the next line that says something.
    fn go_on(&mut self) -> Option<()> {
        let is_new = self.over_blanks()?;
        self.indent = self.here().map(|_| self.at - self.begins);
        (is_new || self.indent.is_none()).then_some(())
    }

    /// One thing more, which must not be too many.
    fn node(&mut self, place: Place, kind: Kind) -> Option<Node> {
        self.nodes += 1;
        (self.nodes <= MOST_NODES).then_some(Node { place, kind })
    }

    fn deeper<T>(&mut self, within: impl FnOnce(&mut Self) -> Option<T>) -> Option<T> {
        self.depth += 1;
        let made = (self.depth <= MOST_DEPTH).then(|| within(self)).flatten();
        self.depth -= 1;
        made
    }

    /// A list or a map that begins here, in a column.
    fn block(&mut self, column: usize) -> Option<Node> {
        self.deeper(|reader| if reader.is_dash() { reader.list(column) } else { reader.map(column) })
    }

    fn is_dash(&self) -> bool {
        self.here() == Some(b'-') && matches!(self.ahead(1), Some(b' ' | b'\n'))
    }

    fn list(&mut self, column: usize) -> Option<Node> {
        let place = self.place(self.at, self.at);
        let mut items = Vec::new();
        loop {
            self.at += 1;
            items.push(self.item(column)?);
            match self.indent {
                Some(indent) if indent > column => return None,
                Some(indent) if indent == column && self.is_dash() => {}
                _ => return self.node(place, Kind::List(items)),
            }
        }
    }

    /// What stands behind a dash.
    fn item(&mut self, column: usize) -> Option<Node> {
        if self.ends_here() {
            return self.below(column);
        }
        let own = self.at - self.begins;
        match self.here()? {
            b'{' | b'[' | b'"' | b'\'' => self.in_line(column),
            _ if self.is_dash() => self.block(own),
            _ => match self.extent(false) {
                Some(end) if self.text.as_bytes().get(end) == Some(&b':') => self.block(own),
                _ => self.in_line(column),
            },
        }
    }

    fn map(&mut self, column: usize) -> Option<Node> {
        let place = self.place(self.at, self.at);
        let mut entries = Vec::new();
        loop {
            let key = self.key(false)?;
            let value = if self.ends_here() { self.under_key(column)? } else { self.in_line(column)? };
            put(&mut entries, key, value)?;
            match self.indent {
                Some(indent) if indent > column => return None,
                Some(indent) if indent == column => {}
                _ => return self.node(place, Kind::Map(entries)),
            }
        }
    }

    /// Goes to what stands next in the line, where that is no remark; whether nothing does.
    fn ends_here(&mut self) -> bool {
        let from = self.at;
        self.skip_blanks();
        let ends = matches!(self.here(), None | Some(b'\n' | b'#'));
        if ends {
            self.at = from;
        }
        ends
    }

    /// What stands in the lines below, further in.
    fn below(&mut self, column: usize) -> Option<Node> {
        self.go_on()?;
        self.block(self.indent.filter(|indent| *indent > column)?)
    }

    /// The same under a key: a list may stand in the very column of the key.
    fn under_key(&mut self, column: usize) -> Option<Node> {
        self.go_on()?;
        let is_list = self.indent == Some(column) && self.is_dash();
        self.block(self.indent.filter(|indent| is_list || *indent > column)?)
    }

    /// A value in its line. What stands further in below it would belong to it.
    fn in_line(&mut self, column: usize) -> Option<Node> {
        let value = self.value(Some(column), false)?;
        self.go_on()?;
        self.indent.is_none_or(|indent| indent <= column).then_some(value)
    }

    /// A value where it stands, in brackets or not.
    fn value(&mut self, column: Option<usize>, bracketed: bool) -> Option<Node> {
        match self.here()? {
            b'{' | b'[' => self.deeper(|reader| reader.brackets(column)),
            quote @ (b'"' | b'\'') => self.quoted(quote),
            _ => {
                let (from, end) = (self.at, self.extent(bracketed)?);
                let kind = scalar::kind(self.text.get(from..end)?)?;
                let place = self.place(from, end);
                self.at = end;
                self.node(place, kind)
            }
        }
    }

    /// A text in quotes, without a sign that stands for another.
    fn quoted(&mut self, quote: u8) -> Option<Node> {
        let from = self.at;
        let rest = self.text.get(from + 1..)?;
        let length = rest.bytes().position(|byte| byte == quote || matches!(byte, b'\n' | b'\\'))?;
        let (said, end) = (rest.get(..length)?, from + length + 2);
        let is_whole = rest.as_bytes().get(length) == Some(&quote) && rest.as_bytes().get(length + 1) != Some(&quote);
        let place = self.place(from, end);
        self.at = end;
        self.node(place, Kind::Text(said.into())).filter(|_| is_whole)
    }

    /// Where a text without quotes ends that begins here: at a colon before a blank, a remark, the end of the line, in brackets at
    /// what parts them.
    fn extent(&self, bracketed: bool) -> Option<usize> {
        let bytes = self.text.as_bytes();
        let ends = |byte: Option<&u8>| byte.is_none_or(|byte| matches!(byte, b' ' | b'\n'));
        if self.here() == Some(b'-') && (ends(bytes.get(self.at + 1)) || self.ahead(1).is_some_and(parts)) {
            return None;
        }
        let mut end = self.at;
        for (at, byte) in bytes.iter().enumerate().skip(self.at) {
            match byte {
                b' ' => {}
                b'\n' => break,
                b':' if ends(bytes.get(at + 1)) => break,
                b':' if bracketed && bytes.get(at + 1).copied().is_some_and(parts) => return None,
                b'#' if at > end => break,
                byte if bracketed && parts(*byte) => break,
                _ => end = at + 1,
            }
        }
        (end > self.at).then_some(end)
    }

    /// A key with its colon.
    fn key(&mut self, bracketed: bool) -> Option<Node> {
        let (from, end) = (self.at, self.extent(bracketed)?);
        let kind = scalar::kind(self.text.get(from..end)?)?;
        let place = self.place(from, end);
        self.at = end;
        let is_key = self.here() == Some(b':') && matches!(self.ahead(1), Some(b' ' | b'\n'));
        self.at += 1;
        let is_word = matches!(kind, Kind::Text(_)) && end - from <= LONGEST_KEY;
        self.node(place, kind).filter(|_| is_key && is_word)
    }

    /// What stands in brackets, in the block of a column: in its further lines further in than that.
    fn brackets(&mut self, column: Option<usize>) -> Option<Node> {
        let place = self.place(self.at, self.at + 1);
        let close = if self.here() == Some(b'{') { b'}' } else { b']' };
        let (mut entries, mut items) = (Vec::new(), Vec::new());
        self.at += 1;
        self.over_blanks_within(column)?;
        let mut is_open = self.here() != Some(close);
        while is_open {
            if close == b'}' {
                let key = self.key(true)?;
                self.over_blanks_within(column)?;
                let value = self.value(column, true)?;
                put(&mut entries, key, value)?;
            } else {
                items.push(self.value(column, true)?);
            }
            self.over_blanks_within(column)?;
            is_open = self.here() == Some(b',');
            if is_open {
                self.at += 1;
                self.over_blanks_within(column)?;
            }
        }
        let is_closed = self.here() == Some(close);
        self.at += 1;
        let kind = if close == b'}' { Kind::Map(entries) } else { Kind::List(items) };
        self.node(place, kind).filter(|_| is_closed)
    }

    fn over_blanks_within(&mut self, column: Option<usize>) -> Option<()> {
        let is_new = self.over_blanks()?;
        let is_within = column.is_none_or(|column| self.at - self.begins > column);
        (!is_new || is_within).then_some(())
    }
}

/// Puts an entry down; none where its key stands twice.
fn put(entries: &mut Vec<(Node, Node)>, key: Node, value: Node) -> Option<()> {
    let Kind::Text(name) = &key.kind else { return None };
    let twice = entries.iter().any(|(other, _)| matches!(&other.kind, Kind::Text(other) if other == name));
    if twice || entries.len() >= MOST_KEYS {
        return None;
    }
    entries.push((key, value));
    Some(())
}

#[cfg(test)]
mod tests;
