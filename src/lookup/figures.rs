//! Figures of the book for the names of their rows, in what is said of keys.

use crate::handbook::constants;
use crate::quantity::figure;

/// A text with the figures of the book for the names of their rows, as in `{oven-doubt}`.
pub(crate) fn figures_in(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut rest = text;
    while let Some((before, after)) = rest.split_once('{') {
        out += before;
        let row = after
            .split_once('}')
            .and_then(|(name, after)| Some((constants::all().find(|row| row.name == name)?, after)));
        rest = match row {
            Some((row, after)) => {
                out += &figure(row.value);
                if row.unit != "-" && row.unit != "x u_c" {
                    out += &format!(" {}", row.unit);
                }
                after
            }
            None => {
                out.push('{');
                after
            }
        };
    }
    out + rest
}
