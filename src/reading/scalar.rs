//! What a text without quotes is: a plain text, a plain number, a truth.

use super::node::Kind;

/// What it is; none of what is no plain text and no plain number.
pub(super) fn kind(value: &str) -> Option<Kind> {
    match value.bytes().next()? {
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
