//! Words in XML and HTML.

use std::borrow::Cow;

/// A text as it stands between tags or in quotes: the five signs with a meaning as entities, what XML cannot hold left out.
pub(super) fn escaped(text: &str) -> Cow<'_, str> {
    let is_plain = |c: char| !matches!(c, '&' | '<' | '>' | '"' | '\'') && is_held(c);
    if text.chars().all(is_plain) {
        return Cow::Borrowed(text);
    }
    let mut out = String::with_capacity(text.len() + 16);
    for c in text.chars().filter(|c| is_held(*c)) {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\'' => out.push_str("&#39;"),
            c => out.push(c),
        }
    }
    Cow::Owned(out)
}

/// Whether XML 1.0 may hold a character (its production 2).
const fn is_held(c: char) -> bool {
    matches!(c, '\t' | '\n' | '\r' | ' '..='\u{FFFD}' | '\u{10000}'..)
}

#[cfg(test)]
mod tests {
    use super::escaped;

    #[test]
    fn signs_with_a_meaning_are_entities_and_what_cannot_be_held_is_left_out() {
        assert_eq!(escaped("wall ≤ 18"), "wall ≤ 18");
        assert_eq!(escaped("<b a='1'>\"&\u{0}\u{b}\u{ffff}</b>"), "&lt;b a=&#39;1&#39;&gt;&quot;&amp;&lt;/b&gt;");
    }
}
