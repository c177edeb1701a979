//! What is read plainly is what the whole reader reads.

use super::*;

/// Every text of the project that is a job, a shop or a card.
fn texts() -> Vec<(String, String)> {
    let folders = ["examples", "demo", "tests/jobs", "tests/fixtures", "ops"];
    let files = folders.iter().flat_map(|folder| std::fs::read_dir(folder).unwrap()).map(|file| file.unwrap().path());
    let yaml = files.filter(|path| path.extension().is_some_and(|end| end == "yaml"));
    yaml.map(|path| (path.display().to_string(), std::fs::read_to_string(path).unwrap())).collect()
}

/// Whether it is read plainly; then with the very places that the whole reader gives, once a block is shown by its key.
#[track_caller]
fn both_alike(name: &str, text: &str) -> bool {
    let read = plain(text);
    if let Some(node) = &read {
        let whole = Node::whole(text, Place::start(0)).unwrap_or_else(|problem| panic!("{name}: {problem}\n{text}"));
        let settled = |node: &Node| {
            let mut node = node.clone();
            node.settle(Place::start(0));
            format!("{node:?}")
        };
        assert_eq!(settled(node), settled(&whole), "{name}\n{text}");
    }
    read.is_some()
}

#[test]
fn what_is_read_plainly_is_what_the_whole_reader_reads() {
    let all = texts();
    assert!(all.len() > 20);
    let left: Vec<&str> =
        all.iter().filter(|(name, text)| !both_alike(name, text)).map(|(name, _)| name.as_str()).collect();
    assert!(left.len() * 10 <= all.len(), "not written plainly: {left:?}");
}

/// Any bytes from a seed.
struct Dice(u64);

impl Dice {
    fn below(&mut self, most: usize) -> usize {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        usize::try_from(self.0 >> 33).unwrap() % most.max(1)
    }
}

/// Signs of YAML, and others that may be taken for them.
const SIGNS: [&str; 40] = [
    ":", ": ", "- ", "{", "}", "[", "]", ",", ", ", "\"", "'", "#", " #", "\n", "\n  ", "\n\n", "&a ", "*a ", "!", "|",
    ">", "?", "1", "~", "%", "\t", " ", "  ", "\r\n", "-", "...\n", "---\n", "null", "yes", "1e5", "0x1", "\u{a0}",
    "\u{2028}", "±", "\\",
];

/// One slip in a text: a sign put in or taken out, a line left out, doubled, moved, set in or out, or joined to the next.
fn slip(text: &str, dice: &mut Dice) -> String {
    let places: Vec<usize> = text.char_indices().map(|(at, _)| at).chain([text.len()]).collect();
    let at = places[dice.below(places.len())];
    let mut lines: Vec<String> = text.split('\n').map(str::to_owned).collect();
    let line = dice.below(lines.len());
    match dice.below(9) {
        0 | 1 => return format!("{}{}{}", &text[..at], SIGNS[dice.below(SIGNS.len())], &text[at..]),
        2 => return text[..at].to_owned() + text[at..].chars().next().map_or("", |c| &text[at + c.len_utf8()..]),
        3 => drop(lines.remove(line)),
        4 => lines.insert(line, lines[line].clone()),
        5 => {
            let other = dice.below(lines.len());
            lines.swap(line, other);
        }
        6 => lines[line].insert_str(0, &" ".repeat(1 + dice.below(4))),
        7 => lines[line] = lines[line].strip_prefix(&" ".repeat(1 + dice.below(3))).unwrap_or(&lines[line]).to_owned(),
        _ if line + 1 < lines.len() => {
            let next = lines.remove(line + 1);
            lines[line] += &next;
        }
        _ => {}
    }
    lines.join("\n")
}

/// Slips that nobody thought of, up to four in one text; `SETOVER_SLIPS` asks for so many of each text.
#[test]
fn a_text_with_slips_is_read_alike_or_left() {
    let asked = std::env::var("SETOVER_SLIPS").ok().and_then(|count| count.parse().ok());
    let each = asked.unwrap_or(60);
    let mut dice = Dice(20_261_128);
    let (mut read, mut left) = (0, 0);
    for (name, text) in texts().iter().filter(|(_, text)| text.len() < 6_000) {
        for _ in 0..each {
            let mut slipped = text.clone();
            for _ in 0..=dice.below(4) {
                slipped = slip(&slipped, &mut dice);
            }
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

/// Lists and maps in each other, brackets over several lines, remarks wherever one may stand.
#[test]
fn what_is_laid_out_otherwise_is_read_alike() {
    for text in [
        "a: # remark\n  b: 1\n",
        "a:\n\n  # remark\n  b: 1\n# remark\n  c: 2\n",
        "a:\n- 1\n- b: 2\n  c: 3\nd: 4\n",
        "- - a\n  - b\n- c: {d: 1,\n    e: [1, 2]}\n",
        "- # remark\n  a: 1\n-\n  b: 2\n",
        "  a: 1\n  b:\n     - c\n",
        "a: {b: 1, # remark\n  c: 2\n  }\nd: []\n",
        "a: {b: Ø 5 ± 1 mm, c: 2}",
        "{a: [\nb, {c: 1}\n]}\n# remark\n",
    ] {
        assert!(both_alike("a layout", text), "{text}");
    }
    for text in [
        "a: {b: 1,\nc: 2}\n",
        "a: {b: 1,}\n",
        "a: [1,]\n",
        "a: {b:1}\n",
        "a:\t1\n",
        "a: 1\r\nb: 2\r\n",
        "a: 1\n...\n",
        "a: b\n  c\n",
        "a: \"b\" c\n",
        "a: 'b''c'\n",
        "a: \"b\n  c\"\n",
        "a: b: c\n",
        "a: \u{1}\n",
        "  a: 1\nb: 2\n",
        "- a\n - b\n",
    ] {
        assert!(!both_alike("a layout", text), "{text}");
    }
}
