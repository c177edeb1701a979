//! The keys of an operation, of a job or of a shop, as a person types them.

use super::lines::Lines;
use crate::reading::Key;
use crate::sheet::words::keys as words;

/// The list of keys under a heading: what must be given, then what may be left out.
pub fn keys(title: &str, all: &[Key]) -> String {
    let mut out = Lines::default();
    out.hanging("", title);
    for (heading, required) in [(words::MUST, true), (words::MAY, false)] {
        let of: Vec<&Key> = all.iter().filter(|key| key.required == required).collect();
        if !of.is_empty() {
            out.heading(heading);
            let rows: Vec<Vec<String>> = of.into_iter().flat_map(|key| rows(key, 0)).collect();
            out.table(2, &rows);
        }
    }
    out.finish()
}

/// Words with what each means, in two columns.
pub fn listed(title: &str, all: &[(String, String)]) -> String {
    let mut out = Lines::default();
    out.hanging("", title);
    out.gap();
    out.table(2, &all.iter().map(|(word, means)| vec![word.clone(), means.clone()]).collect::<Vec<_>>());
    out.finish()
}

/// A key and those under it, each as deep as it is typed.
fn rows(key: &Key, deep: usize) -> Vec<Vec<String>> {
    let name = key.last();
    let mark = if key.under.is_empty() { "" } else { ":" };
    let must = if deep > 0 && key.required { words::MUST_WITH } else { "" };
    let mut all = vec![vec![format!("{}{name}{mark}", "  ".repeat(deep)), words::told(key, must)]];
    all.extend(key.under.iter().flat_map(|under| rows(under, deep + 1)));
    all
}
