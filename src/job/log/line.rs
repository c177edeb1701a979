//! A line as it is written.

use super::sum::with_sum;
use crate::job::Address;
use crate::proof::Place;
use crate::quantity::Date;
use std::fmt::Write;

/// What a new line is to say.
#[derive(Clone, Debug, Default)]
pub struct NewLine {
    /// The day.
    pub date: Option<Date>,
    /// Who measured.
    pub by: Option<String>,
    /// Part and operation.
    pub of: Option<Address>,
    /// Names with their figures, and further keys of the entry, as typed.
    pub keys: Vec<(String, String)>,
    /// Where each key and what stands under it was typed; `part` and `operation` are keys like others.
    pub typed: Vec<(String, [Place; 2])>,
}

impl NewLine {
    /// The line, to be written behind these bytes of the log as the entry of this number.
    pub fn text(&self, old: &[u8], n: u32) -> String {
        let mut line = format!("- {{n: {n}");
        let mut put = |key: &str, value: &str| {
            // Writing to a text cannot fail.
            let _ = write!(line, ", {key}: {}", quoted(value));
        };
        if let Some(date) = self.date {
            put("date", &date.to_string());
        }
        if let Some(by) = &self.by {
            put("by", by);
        }
        if let Some(of) = &self.of {
            put("part", &of.part);
            put("operation", &of.operation);
        }
        self.keys.iter().for_each(|(key, value)| put(key, value));
        with_sum(old, &line)
    }
}

/// Words that YAML takes for something else than a text.
const OTHER: [&str; 8] = ["true", "false", "yes", "no", "on", "off", "null", "~"];

/// A text as it stands between the braces of a line: bare where that is the same text, else in quotes.
fn quoted(text: &str) -> String {
    let first = text.chars().next().unwrap_or(' ');
    let plain = |c: char| c.is_alphanumeric() || matches!(c, ' ' | '.' | '/' | '±' | '_' | '-' | '+' | '·');
    let bare = (first.is_alphanumeric() || (first == '-' && text.len() > 1 && !text.starts_with("- ")))
        && text.chars().all(plain)
        && text.trim() == text
        && !OTHER.contains(&text.to_lowercase().as_str());
    if bare { text.to_owned() } else { serde_json::Value::from(text).to_string() }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_not_the_same_bare_stands_in_quotes() {
        for (text, written) in [
            ("21.677 mm", "21.677 mm"),
            ("21.677 ± 0.004 mm", "21.677 ± 0.004 mm"),
            ("-0.02 mm", "-0.02 mm"),
            ("a, b", "\"a, b\""),
            ("a: b", "\"a: b\""),
            ("say \"so\"}", "\"say \\\"so\\\"}\""),
            ("yes", "\"yes\""),
            ("", "\"\""),
            ("#2", "\"#2\""),
            ("face#2", "\"face#2\""),
        ] {
            assert_eq!(quoted(text), written);
        }
    }
}
