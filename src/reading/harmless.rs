//! The one filter for every word that did not come from us: keys, values, names, paths, echoes of errors.
//!
//! It stands before the terminal, the page and the JSON alike. What a terminal would obey shows as its code, what would
//! end a line is a space, and signs that nobody sees but that turn or hide the text around them are left out.

use std::borrow::Cow;

/// What a sign may do to the text around it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Sign {
    /// It is only read.
    Read,
    /// It ends a line or moves along it.
    Space,
    /// A terminal obeys it.
    Obeyed,
    /// It is not seen: it turns the direction of reading, joins, hides or selects.
    Unseen,
}

impl Sign {
    const fn of(c: char) -> Self {
        match c {
            '\t'..='\r' | '\u{85}' | '\u{2028}' | '\u{2029}' => Self::Space,
            // Controls C0 and C1 (Unicode category Cc).
            '\0'..='\u{1f}' | '\u{7f}'..='\u{9f}' => Self::Obeyed,
            // Unicode's Default_Ignorable_Code_Point and the formatting signs (category Cf) beside it.
            '\u{ad}' | '\u{34f}' | '\u{600}'..='\u{605}' | '\u{61c}' | '\u{6dd}' | '\u{70f}' | '\u{8e2}' => {
                Self::Unseen
            }
            '\u{115f}'..='\u{1160}' | '\u{17b4}'..='\u{17b5}' | '\u{180b}'..='\u{180f}' => Self::Unseen,
            '\u{200b}'..='\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2060}'..='\u{206f}' | '\u{3164}' => Self::Unseen,
            '\u{fe00}'..='\u{fe0f}' | '\u{feff}' | '\u{ffa0}' | '\u{fff0}'..='\u{fffb}' => Self::Unseen,
            '\u{1bca0}'..='\u{1bca3}' | '\u{1d173}'..='\u{1d17a}' | '\u{e0000}'..='\u{e0fff}' => Self::Unseen,
            _ => Self::Read,
        }
    }
}

/// A text of one line with nothing in it that a terminal, a viewer or a reader's eye would be led by.
pub fn harmless(text: &str) -> String {
    without_harm(text).into_owned()
}

/// The same; what is harmless as it stands is not copied.
pub(crate) fn without_harm(text: &str) -> Cow<'_, str> {
    let plain = |byte: &u8| matches!(byte, b' '..=b'~');
    if text.as_bytes().iter().all(plain) || text.chars().all(|c| matches!(c, ' '..='~') || Sign::of(c) == Sign::Read) {
        return Cow::Borrowed(text);
    }
    let mut clean = String::with_capacity(text.len());
    for c in text.chars() {
        match Sign::of(c) {
            Sign::Read => clean.push(c),
            Sign::Space => clean.push(' '),
            Sign::Obeyed => clean.push_str(&format!("(U+{:04X})", u32::from(c))),
            Sign::Unseen => {}
        }
    }
    Cow::Owned(clean)
}

/// The same sign for sign, so that columns still count: every sign that is not simply read is a space.
pub(super) fn harmless_in_place(text: &str) -> String {
    text.chars().map(|c| if Sign::of(c) == Sign::Read { c } else { ' ' }).collect()
}

/// The signs of a text that are not seen, by their numbers: who is told that a word is wrong wants to know what hides in it.
pub(super) fn hidden(text: &str) -> String {
    let mut numbers: Vec<String> = Vec::new();
    for c in text.chars().filter(|c| matches!(Sign::of(*c), Sign::Unseen | Sign::Obeyed)) {
        let number = format!("U+{:04X}", u32::from(c));
        if !numbers.contains(&number) {
            numbers.push(number);
        }
    }
    numbers.join(", ")
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Every sign that must never come through, with a letter at both ends.
    fn bad() -> impl Iterator<Item = char> {
        let ranges = ['\0'..='\u{1f}', '\u{7f}'..='\u{9f}', '\u{200e}'..='\u{200f}', '\u{2028}'..='\u{202e}'];
        let more = ['\u{61c}', '\u{feff}', '\u{ad}', '\u{200b}', '\u{200d}', '\u{2060}', '\u{e0041}', '\u{fe0f}'];
        ranges.into_iter().flatten().chain('\u{2066}'..='\u{2069}').chain(more)
    }

    #[test]
    fn no_sign_that_leads_or_hides_comes_through() {
        for c in bad() {
            let text = harmless(&format!("a{c}b"));
            assert!(text.starts_with('a') && text.ends_with('b'), "U+{:04X}: {text:?}", u32::from(c));
            assert!(!text.contains(c), "U+{:04X} comes through", u32::from(c));
            assert!(text.chars().all(|c| Sign::of(c) == Sign::Read || c == ' '), "{text:?}");
            assert_eq!(harmless_in_place(&format!("a{c}b")), "a b");
        }
    }

    #[test]
    fn what_is_only_read_stays_as_it_is() {
        for text in ["Ø 20 ± 0.3 mm", "Καρτερ Ж 漢", "½\" · 10⁻⁶ — “x”", "é e\u{301}"] {
            assert_eq!(harmless(text), text);
        }
        assert_eq!(harmless("\u{1b}[2J\n"), "(U+001B)[2J ");
    }
}
