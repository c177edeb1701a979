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
    if all.iter().any(has_measured) {
        out.gap();
        out.hanging("", words::READ_WITH);
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

/// Whether a key, or one under it, takes a size with what read it.
fn has_measured(key: &Key) -> bool {
    key.takes.contains(words::BY_INSTRUMENT) || key.under.iter().any(has_measured)
}

/// A key and those under it, each as deep as it is typed, the first of each thing of a list behind its dash.
fn rows(key: &Key, deep: usize) -> Vec<Vec<String>> {
    let of_list = key.under.iter().any(|under| under.begins);
    rows_behind(key, &"  ".repeat(deep), deep)
        .into_iter()
        .chain(key.under.iter().flat_map(|under| match (of_list, under.begins) {
            (true, begins) => {
                let mut all = rows(under, deep + 2);
                if let Some(name) = all.first_mut().and_then(|row| row.first_mut()).filter(|_| begins) {
                    name.replace_range(2 * deep + 2..2 * deep + 4, "- ");
                }
                all
            }
            (false, _) => rows(under, deep + 1),
        }))
        .collect()
}

/// The row of a key itself.
fn rows_behind(key: &Key, indent: &str, deep: usize) -> Vec<Vec<String>> {
    let name = key.last();
    let mark = if key.under.is_empty() { "" } else { ":" };
    let must = if deep > 0 && key.required { words::MUST_WITH } else { "" };
    vec![vec![format!("{indent}{name}{mark}"), words::told(key, must)]]
}
