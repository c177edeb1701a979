//! A card that is written line by line: sections, texts by id under them, two texts under the id of a check. Whatever else YAML
//! can say is left to the reader of YAML.

use super::{Card, CheckWords, Text, Texts};

/// A card so written; none where a line of it is anything else.
pub(super) fn card(text: &'static str) -> Option<Card> {
    let mut card = Card::default();
    let mut section = "";
    let mut check: Option<(&'static str, [Option<Text>; 3])> = None;
    let mut lines = lines(text).map(str::trim_end).filter(|line| !line.is_empty() && !line.starts_with('#'));
    while let Some(line) = lines.next() {
        let words = line.trim_start_matches(' ');
        let (key, value) = words.split_at_checked(memchr::memchr(b':', words.as_bytes())?)?;
        let value = value.get(1..)?;
        let value = value.strip_prefix(' ').or_else(|| value.is_empty().then_some(""))?;
        if !key.bytes().all(|byte| byte.is_ascii_alphanumeric() || byte == b'-' || byte == b'_') {
            return None;
        }
        match (line.len() - words.len(), value) {
            (4, value) => {
                let (_, [asks, remedy, stamp]) = check.as_mut()?;
                let place = match key {
                    "asks" => asks,
                    "remedy" => remedy,
                    "stamp" => stamp,
                    _ => return None,
                };
                once(place.replace(scalar(value)?))?;
            }
            (depth @ (0 | 2), value) => {
                close(&mut card, check.take())?;
                match (depth, value) {
                    (0, "") => {
                        section = key;
                        // Room for all of it is taken once: the common card has hundreds of names.
                        let own = lines.clone().take_while(|line| line.starts_with(' ')).count();
                        match texts(&mut card, section) {
                            Some(texts) => texts.reserve(own),
                            None => card.checks.reserve(own / 3),
                        }
                    }
                    (0, value) => {
                        let place = match key {
                            "operation" => &mut card.operation,
                            "title" => &mut card.title,
                            "does" => &mut card.does,
                            _ => return None,
                        };
                        *place = scalar(value).filter(|_| place.is_empty())?;
                        section = "";
                    }
                    (_, "") if section == "checks" => check = Some((key, [None, None, None])),
                    (_, value) => once(texts(&mut card, section)?.insert(key.into(), scalar(value)?))?,
                }
            }
            _ => return None,
        }
    }
    close(&mut card, check)?;
    let whole = [&card.operation, &card.title, &card.does].iter().all(|text| !text.is_empty());
    whole.then_some(card)
}

/// The lines of a text, without their ends.
fn lines(text: &'static str) -> impl Iterator<Item = &'static str> + Clone {
    let mut from = 0;
    let ends = memchr::memchr_iter(b'\n', text.as_bytes()).chain([text.len()]);
    ends.map(move |end| text.get(std::mem::replace(&mut from, end + 1)..end).unwrap_or_default())
}

/// Something stands in a place for the first time.
fn once<T>(before: Option<T>) -> Option<()> {
    before.is_none().then_some(())
}

/// Puts down a check whose texts were both read.
fn close(card: &mut Card, check: Option<(&'static str, [Option<Text>; 3])>) -> Option<()> {
    let Some((id, [asks, remedy, stamp])) = check else { return Some(()) };
    once(card.checks.insert(id.into(), CheckWords { asks: asks?, remedy: remedy?, stamp }))
}

/// The section of a name.
fn texts<'a>(card: &'a mut Card, section: &str) -> Option<&'a mut Texts> {
    Some(match section {
        "set-ups" => &mut card.set_ups,
        "steps" => &mut card.steps,
        "hold" => &mut card.hold,
        "remedies" => &mut card.remedies,
        "reasons" => &mut card.reasons,
        "assumed" => &mut card.assumed,
        "names" => &mut card.names,
        "missing" => &mut card.missing,
        "cautions" => &mut card.cautions,
        "blanks" => &mut card.blanks,
        "labels" => &mut card.labels,
        "questions" => &mut card.questions,
        _ => return None,
    })
}

/// A text: in double quotes with nothing in it that is written otherwise than it is read, or plain words.
fn scalar(value: &'static str) -> Option<Text> {
    if let Some(quoted) = value.strip_prefix('"').and_then(|rest| rest.strip_suffix('"')) {
        return memchr::memchr2(b'"', b'\\', quoted.as_bytes()).is_none().then_some(quoted.into());
    }
    let first = value.bytes().next()?;
    // Single words may be truths or nothing, in the one or other YAML.
    let odd = ["true", "false", "null", "yes", "no", "on", "off", "y", "n"];
    let plain = first.is_ascii_alphabetic()
        && !value.contains(": ")
        && !value.contains(" #")
        && !value.ends_with(':')
        && !odd.iter().any(|odd| value.eq_ignore_ascii_case(odd));
    plain.then_some(value.into())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::operations::Request;

    #[test]
    fn every_built_in_card_is_read_by_lines_as_by_yaml() {
        let common = include_str!("../../../ops/common.yaml");
        let built_in = Request::WORDS.iter().map(|word| Request::built_in_card(word).expect("a card"));
        for text in built_in.chain([common]) {
            let by_yaml = Card::read(text, 0).expect("a card that reads");
            let by_lines = card(text).unwrap_or_else(|| panic!("`{}` is not written line by line", by_yaml.operation));
            assert_eq!(by_lines, by_yaml);
            assert!(by_lines.checks.len() + by_lines.steps.len() > 1, "{}", by_yaml.operation);
        }
    }

    #[test]
    fn what_is_written_otherwise_is_left_to_the_reader_of_yaml() {
        let good = "operation: a\ntitle: A title\ndoes: \"Something: else\"\n# a remark\n\nsteps:\n  one: \"The {one}.\"\n\
                    checks:\n  two:\n    asks: it asks\n    remedy: \"it mends\"\n";
        let read = card(good).expect("a card");
        assert_eq!((&*read.does, &*read.steps["one"]), ("Something: else", "The {one}."));
        assert_eq!((&*read.checks["two"].asks, &*read.checks["two"].remedy), ("it asks", "it mends"));
        let bad = [
            ("The {one}.", "a \\\"word\\\""),
            ("\"The {one}.\"", "|"),
            ("\"The {one}.\"", "'quoted'"),
            ("\"The {one}.\"", "true"),
            ("\"The {one}.\"", "5"),
            ("\"The {one}.\"", "words # and a remark"),
            ("\"The {one}.\"", "words: and more"),
            ("\"The {one}.\"", "\"words\" # and a remark"),
            ("  one:", "   one:"),
            ("  one:", "\t one:"),
            ("steps:", "stepz:"),
            ("    asks: it asks\n", ""),
            ("    remedy: \"it mends\"\n", ""),
            ("    remedy:", "    asks:"),
            ("title: A title\n", ""),
            ("title: A title\n", "title: A title\ntitle: Another\n"),
            ("checks:", "  one: again\nchecks:"),
            ("checks:", "- a list\nchecks:"),
        ];
        for (from, to) in bad {
            let text: &str = good.replace(from, to).leak();
            assert!(text == good || card(text).is_none(), "{text}");
        }
    }
}
