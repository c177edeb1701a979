//! A document that is written plainly, read event by event: maps with words for keys, lists, texts, plain numbers. It is most of
//! what anybody writes, and is so read three times as fast; whatever else YAML can say, and every slip, is left to the whole reader,
//! which then reads the text from its beginning.

use super::node::{Kind, Node};
use crate::proof::Place;
use granit_parser::{Event, Parser, ScalarStyle, Span};

/// More than this is left to the whole reader, which knows its bounds.
const MOST_NODES: usize = 100_000;
const MOST_DEPTH: usize = 32;
const MOST_KEYS: usize = 200;

/// A list or a map in the making.
struct Open {
    place: Place,
    /// Items, or keys and values in turn.
    nodes: Vec<Node>,
    is_map: bool,
}

/// The tree of a document so written, its places counted from the first line; none where anything in it is written otherwise.
pub(super) fn plain(text: &str) -> Option<Node> {
    let mut open: Vec<Open> = Vec::new();
    let mut whole = None;
    let mut count = 0;
    for event in Parser::new_from_str(text) {
        let (event, span) = event.ok()?;
        count += 1;
        if count > MOST_NODES || open.len() > MOST_DEPTH {
            return None;
        }
        let node = match event {
            Event::StreamStart | Event::DocumentStart(false, None) | Event::DocumentEnd | Event::StreamEnd => continue,
            Event::SequenceStart(_, 0, None) => {
                open.push(Open { place: place(span), nodes: Vec::new(), is_map: false });
                continue;
            }
            Event::MappingStart(_, 0, None) => {
                open.push(Open { place: place(span), nodes: Vec::new(), is_map: true });
                continue;
            }
            Event::SequenceEnd | Event::MappingEnd => open.pop()?.closed()?,
            Event::Scalar(value, style, 0, None) => Node { place: place(span), kind: kind(&value, style)? },
            _ => return None,
        };
        match open.last_mut() {
            Some(open) => open.nodes.push(node),
            None if whole.is_none() => whole = Some(node),
            None => return None,
        }
    }
    whole.filter(|node| matches!(node.kind, Kind::Map(_) | Kind::List(_)))
}

impl Open {
    /// The list or the map as a node; none where a key is no word, or stands twice.
    fn closed(self) -> Option<Node> {
        let Self { place, nodes, is_map } = self;
        if !is_map {
            return Some(Node { place, kind: Kind::List(nodes) });
        }
        let mut entries: Vec<(Node, Node)> = Vec::with_capacity(nodes.len() / 2);
        let mut nodes = nodes.into_iter();
        while let Some(key) = nodes.next() {
            let Kind::Text(name) = &key.kind else { return None };
            let twice = entries.iter().any(|(other, _)| matches!(&other.kind, Kind::Text(other) if other == name));
            if twice || entries.len() > MOST_KEYS {
                return None;
            }
            entries.push((key, nodes.next()?));
        }
        Some(Node { place, kind: Kind::Map(entries) })
    }
}

/// Where a node stands, counted from the first line.
fn place(span: Span) -> Place {
    let count = |n: usize| u32::try_from(n).unwrap_or(u32::MAX);
    let length = span.end.index().saturating_sub(span.start.index());
    Place {
        source: 0,
        line: count(span.start.line()),
        column: count(span.start.col() + 1),
        length: count(length).max(1),
    }
}

/// What a text in one line is; none of what is no plain text and no plain number.
fn kind(value: &str, style: ScalarStyle) -> Option<Kind> {
    match style {
        ScalarStyle::SingleQuoted | ScalarStyle::DoubleQuoted => Some(Kind::Text(value.into())),
        ScalarStyle::Plain => match value.bytes().next()? {
            b'0'..=b'9' | b'-' | b'+' | b'.' => {
                number(value).map(|number| Kind::Number(number, String::new())).or_else(|| measured(value))
            }
            b'A'..=b'Z' | b'a'..=b'z' => match value {
                "true" | "yes" => Some(Kind::Truth(true, String::new())),
                "false" | "no" => Some(Kind::Truth(false, String::new())),
                _ => (!is_other(value)).then(|| Kind::Text(value.into())),
            },
            // A path, a remark in brackets, a letter of another writing, or a sign such as Ø.
            b'/' | b'(' | 128.. => Some(Kind::Text(value.into())),
            _ => None,
        },
        _ => None,
    }
}

/// Words that may mean a truth, a number or nothing in the one or other YAML.
fn is_other(word: &str) -> bool {
    const WORDS: [&str; 13] =
        ["true", "false", "null", "yes", "no", "on", "off", "y", "n", "nan", "inf", "infinity", "none"];
    word.len() <= 8 && WORDS.iter().any(|other| word.eq_ignore_ascii_case(other))
}

/// A number of plain digits, with or without a point and a sign: what every YAML reads alike.
fn number(value: &str) -> Option<f64> {
    let digits = value.strip_prefix('-').unwrap_or(value);
    let (whole, fraction) = digits.split_once('.').map_or((digits, None), |(whole, fraction)| (whole, Some(fraction)));
    let plain = |text: &str| !text.is_empty() && text.len() <= 9 && text.bytes().all(|byte| byte.is_ascii_digit());
    let leads = whole.len() > 1 && whole.starts_with('0');
    if !plain(whole) || leads || !fraction.is_none_or(plain) || value.starts_with("-0") {
        return None;
    }
    value.parse().ok()
}

/// A text that begins like a number and is none: it has a blank within, a sign that stands in no number, or a letter that stands in
/// none (`1.5D`); or it is a day.
fn measured(value: &str) -> Option<Kind> {
    let sign = |byte: u8| matches!(byte, b' ' | b'/' | b'%' | b'"' | b'#') || byte >= 128;
    let letter = |byte: u8| byte.is_ascii_alphabetic() && !matches!(byte, b'e' | b'E');
    let mut bytes = value.bytes();
    let (first, second) = (bytes.next()?, bytes.next());
    let counted = first.is_ascii_digit() && !(first == b'0' && second.is_some_and(|byte| byte.is_ascii_alphabetic()));
    let day = value.len() == 10
        && value
            .bytes()
            .enumerate()
            .all(|(at, byte)| if matches!(at, 4 | 7) { byte == b'-' } else { byte.is_ascii_digit() });
    (value.bytes().any(sign) || counted && value.bytes().any(letter) || day).then(|| Kind::Text(value.into()))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Every text of the project that is a job, a shop or a card.
    fn texts() -> Vec<(String, String)> {
        let folders = ["examples", "demo", "tests/jobs", "tests/fixtures", "ops"];
        let files =
            folders.iter().flat_map(|folder| std::fs::read_dir(folder).unwrap()).map(|file| file.unwrap().path());
        let yaml = files.filter(|path| path.extension().is_some_and(|end| end == "yaml"));
        yaml.map(|path| (path.display().to_string(), std::fs::read_to_string(path).unwrap())).collect()
    }

    #[track_caller]
    fn both_alike(name: &str, text: &str) -> bool {
        let by_events = plain(text);
        if let Some(node) = &by_events {
            let whole =
                Node::whole(text, Place::start(0)).unwrap_or_else(|problem| panic!("{name}: {problem}\n{text}"));
            assert_eq!(format!("{node:?}"), format!("{whole:?}"), "{name}\n{text}");
        }
        by_events.is_some()
    }

    #[test]
    fn what_is_read_by_events_is_what_the_whole_reader_reads() {
        let all = texts();
        assert!(all.len() > 20);
        let left: Vec<&str> =
            all.iter().filter(|(name, text)| !both_alike(name, text)).map(|(name, _)| name.as_str()).collect();
        assert!(left.len() * 10 <= all.len(), "not written plainly: {left:?}");
    }

    /// Slips that nobody thought of: signs of YAML put where they do not belong.
    #[test]
    fn a_text_with_a_slip_is_read_alike_or_left() {
        let signs = [
            ":", ": ", "- ", "{", "}", "[", "]", ",", "\"", "'", "#", " #", "\n", "\n  ", "&a ", "*a ", "!", "|", ">",
            "?", "1", "~", "%",
        ];
        let mut state = 20_261_126_u64;
        let mut next = |below: usize| {
            state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            usize::try_from(state >> 33).unwrap() % below
        };
        let (mut read, mut left) = (0, 0);
        for (name, text) in texts().iter().filter(|(_, text)| text.len() < 6_000) {
            for _ in 0..30 {
                let places: Vec<usize> = text.char_indices().map(|(at, _)| at).collect();
                let (at, sign) = (places[next(places.len())], signs[next(signs.len())]);
                let slipped = format!("{}{sign}{}", &text[..at], &text[at..]);
                if both_alike(name, &slipped) { read += 1 } else { left += 1 }
            }
        }
        assert!(read > 100 && left > 100, "{read} read, {left} left");
    }

    /// Words that YAML may take otherwise than they look, in every place where a value may stand.
    #[test]
    fn odd_words_are_read_alike_or_left() {
        let words = [
            "/a/b.yaml",
            "../a.yaml",
            "./a",
            "(a b)",
            "(a",
            "/",
            "1.5D",
            "2D",
            "10h6",
            "1e5D",
            "0D",
            "0xD",
            "1d",
            "5x",
            "1b",
            "1o",
            "12h30",
            "0b1D",
            "1f",
            "1inf",
            "1nan",
            "1_0D",
            "1",
            "-1",
            "+1",
            "01",
            "-0",
            "0",
            "0.5",
            "-0.5",
            "00.5",
            ".5",
            "5.",
            "1e5",
            "1.5e3",
            "0x1F",
            "0o17",
            "0b11",
            "1_000",
            "1_0 mm",
            "12:30",
            "12:30:45",
            "2026-11-26",
            "2026-11-26 10:00",
            ".inf",
            "-.inf",
            ".nan",
            "inf",
            "nan",
            "Infinity",
            "true",
            "True",
            "yes",
            "No",
            "on",
            "OFF",
            "y",
            "N",
            "null",
            "Null",
            "~",
            "none",
            "None",
            "'quoted'",
            "\"dou\\nble\"",
            "\"\"",
            "''",
            "18.0 ± 0.3 mm",
            "1/4",
            "1/4 BSF",
            "8-32",
            "#8-32",
            "5 %",
            "5%",
            "M8x1.25",
            "H7",
            "4140",
            "1.4305",
            "12345678901234567890",
            "123456789.123456789",
            "1.7976931348623157e308",
            "- x",
            "? x",
            "a: b",
            "a #b",
            "a # b",
            "&x a",
            "*x",
            "!!str 5",
            "!x 5",
            "<<",
            "=",
            "@a",
            "`a",
            "%a",
            "|\n    block",
            ">-\n    folded\n    text",
            "a\n    b",
            "[1, 2]",
            "{a: 1}",
            "[a, {b: c}]",
            "{a: }",
            "[ ]",
            "{ }",
            "Ø 20",
            "–5",
            "−5 mm",
            "52 mm",
            "10 .. 12 mm",
            "1 .. 2 thou",
            "Ra 1.6 um",
            "60 HRC",
            "0.42",
            "100",
            "0x",
            "e5",
            "E5",
            "1e",
            "-",
            "--",
            "---",
            "...",
            "+",
            ".",
            "..",
            "-a",
            "+a",
            ".a",
            "-5 mm",
            "+5 mm",
            ".5 mm",
            "0 mm",
            "1,5",
            "1,5 mm",
            "a, b",
            "a]b",
            "a}b",
            "'it''s'",
        ];
        let frames = [
            "a: W\n",
            "- W\n",
            "a:\n  b: W\n  c: 1\n",
            "a: {b: W, c: 2}\n",
            "a: [W, 2]\n",
            "W: a\n",
            "# first\na: W # last\n",
        ];
        let mut read = 0;
        for (word, frame) in words.iter().flat_map(|word| frames.iter().map(move |frame| (word, frame))) {
            read += usize::from(both_alike(word, &frame.replace('W', word)));
        }
        assert!(read > 300, "{read}");
    }

    #[test]
    fn what_is_not_written_plainly_is_left() {
        for text in [
            "a: 1\na: 2\n",
            "a: &x 1\nb: *x\n",
            "a: !!str 1\n",
            "--- \na: 1\n",
            "a: 1\n---\nb: 2\n",
            "? [a]\n: 1\n",
            "1: a\n",
            "a:\n",
            "just words\n",
            "a: [1\n",
            "a: True\n",
            "a: y\n",
            "%YAML 1.2\n---\na: 1\n",
            "a: |\n  b\n",
        ] {
            assert!(plain(text).is_none(), "{text}");
        }
    }
}
