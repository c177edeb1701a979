//! The slips that are made in laying a document out, each in plain words at the line that is to be mended: blanks before a key,
//! the colon, the dash, quotes and brackets. The reader of YAML finds where it can go no further, which is often a line later.

use crate::proof::Place;

/// A line of the text: how far it stands in, and what it says without a remark of its own line.
#[derive(Clone, Copy)]
struct Line<'a> {
    number: u32,
    indent: usize,
    says: &'a str,
}

/// What is wrong in the layout of a text that cannot be read on from `place`, where the reader said `error`; none where it is no
/// slip of layout. Places count from the first line of the text.
pub(super) fn plainly(text: &str, place: Place, error: &str) -> Option<(Place, String)> {
    let at = |line: Line, says: String| {
        let length = u32::try_from(line.says.chars().count()).unwrap_or(1).max(1);
        let column = u32::try_from(line.indent).unwrap_or(0) + 1;
        Some((Place { line: line.number, column, length, ..place }, says))
    };
    let here = |says: &str| Some((place, says.to_owned()));
    let lines = lines(text);
    let own = lines.iter().rev().find(|line| line.number <= place.line).copied()?;
    let before = lines.iter().rev().find(|line| line.number < own.number).copied();
    let has = |sign: &str| error.contains(sign);
    if has("unclosed quote") {
        return here("a quote is opened here and never closed: close it, or leave it away");
    }
    if let Some(bracket) =
        ["{", "["].into_iter().find(|bracket| error.contains(&format!("unclosed bracket '{bracket}'")))
    {
        return here(&format!("a `{bracket}` is opened here and never closed"));
    }
    if has("multiple YAML documents") {
        let line = lines.iter().find(|line| line.says == "---" && line.number > 1).copied().unwrap_or(own);
        return at(line, "a second document begins here: one file holds one job or one shop".into());
    }
    if has("unexpected character") || has("cannot start any token") {
        let sign: String =
            own.says.chars().skip((place.column as usize).saturating_sub(own.indent + 1)).take(1).collect();
        return here(&format!("no value begins with `{sign}`: put it in quotes"));
    }
    if has("expected ',' or '}'") || has("expected ',' or ']'") {
        return here("a comma is missing before this, or the bracket is closed too late");
    }
    if has("simple key expected") {
        return at(own, says_no_colon(own.says));
    }
    if has("not allowed in this context") {
        if two_colons(own.says) {
            return at(own, says_two_colons(own.says));
        }
        let before = before?;
        if let Some(says) = wrong_in(before.says) {
            return at(before, says);
        }
        return (own.indent > before.indent).then(|| at(own, deeper(own, before)))?;
    }
    let indents = has("did not find expected") || has("expected block end") || has("wrong indentation");
    if indents {
        let before = before?;
        return at(own, not_under(own, before, &lines));
    }
    if own.says.contains("\"\"") {
        return at(own, "an inch sign closes the quotes that it stands in: write `in` for inches".into());
    }
    // Whatever else: a line that is no key and value, or a bracket that stays open and takes in what stands below it.
    if let Some(says) = wrong_in(own.says).filter(|_| !own.says.contains(['[', '{', ']', '}', '"', '\''])) {
        return at(own, says);
    }
    let opens = |line: &&Line| line.says.matches(['[', '{']).count() > line.says.matches([']', '}']).count();
    let line = lines.iter().rev().filter(|line| line.number <= place.line).find(opens).copied()?;
    let sign = if line.says.matches('[').count() > line.says.matches(']').count() { '[' } else { '{' };
    at(line, format!("a `{sign}` is opened here and never closed"))
}

/// The lines that say something.
fn lines(text: &str) -> Vec<Line<'_>> {
    let line = |(number, line): (u32, &'_ str)| -> Option<(u32, usize)> {
        let says = line.trim();
        (!says.is_empty() && !says.starts_with('#')).then(|| (number, line.len() - line.trim_start().len()))
    };
    let numbered = (1..).zip(text.lines());
    numbered
        .filter_map(|(number, whole)| {
            line((number, whole)).map(|(number, indent)| Line { number, indent, says: whole.trim() })
        })
        .collect()
}

/// What a line says behind its dash.
fn behind_dash(says: &str) -> &str {
    says.strip_prefix("- ").unwrap_or(says).trim_start()
}

/// What is wrong in a line that the reader took for a text: a dash or a colon without its blank, or no colon.
fn wrong_in(says: &str) -> Option<String> {
    if says.len() > 1 && says.starts_with('-') && !says.starts_with("- ") {
        return Some("a blank is missing after the dash: write `- ` and then the key".into());
    }
    let says = without_remark(behind_dash(says));
    match says.split_once(':') {
        Some((key, value)) if !value.is_empty() && !value.starts_with(' ') => {
            Some(format!("a blank is missing after the colon: write `{key}: {value}`"))
        }
        Some(_) => None,
        None => Some(says_no_colon(says)),
    }
}

/// A line without the remark behind it.
fn without_remark(says: &str) -> &str {
    says.split_once(" #").map_or(says, |(says, _)| says.trim_end())
}

fn says_no_colon(says: &str) -> String {
    let says = without_remark(behind_dash(says));
    let is_key = |key: &str| !key.is_empty() && key.chars().all(|c| c.is_ascii_lowercase() || c == '-');
    // `wall:18.0 mm`, `wall = 18.0 mm`.
    if let Some((key, value)) = says.split_once(':').filter(|(key, value)| is_key(key) && !value.is_empty()) {
        return format!("a blank is missing after the colon: write `{key}: {}`", value.trim());
    }
    let (key, value) = says.split_once([' ', '=']).unwrap_or((says, ""));
    let value = value.trim_start_matches([' ', '=']);
    format!("a colon is missing after the key: write `{}`", format!("{key}: {value}").trim())
}

/// Whether a value without quotes has a colon of its own.
fn two_colons(says: &str) -> bool {
    let value = behind_dash(says).split_once(": ").map_or("", |(_, value)| value);
    !value.starts_with(['"', '\'', '{', '[']) && (value.contains(": ") || value.ends_with(':'))
}

/// A value with a colon of its own: keys in a line that want their brackets, or a text that wants its quotes.
fn says_two_colons(says: &str) -> String {
    let (key, value) = behind_dash(says).split_once(": ").unwrap_or((says, ""));
    let are_keys = value.split(", ").all(|part| {
        let key = part.split_once(": ").map_or("", |(key, _)| key);
        !key.is_empty() && key.chars().all(|c| c.is_ascii_lowercase() || c == '-')
    });
    // A name or a remark has no keys in it.
    let is_text = ["job", "part", "note", "name", "engine", "shop"].contains(&key);
    match are_keys && !is_text {
        true => format!("keys in one line stand in brackets: write `{key}: {{{value}}}`"),
        false => format!("two colons stand in this line: put the value in quotes, `{key}: \"{value}\"`"),
    }
}

fn blanks(count: usize) -> String {
    if count == 1 { "1 blank".into() } else { format!("{count} blanks") }
}

fn deeper(own: Line, before: Line) -> String {
    let (key, _) = behind_dash(before.says).split_once(':').unwrap_or((before.says, ""));
    let level = before.indent + before.says.len() - behind_dash(before.says).len();
    format!(
        "this line stands {} in, further than `{key}` above it, which has a value already: keys of one level stand under each other ({})",
        blanks(own.indent),
        blanks(level)
    )
}

fn not_under(own: Line, before: Line, lines: &[Line]) -> String {
    let levels = lines.iter().filter(|line| line.number < own.number);
    let mut known: Vec<usize> =
        levels.flat_map(|line| [line.indent, line.indent + line.says.len() - behind_dash(line.says).len()]).collect();
    known.sort_unstable();
    known.dedup();
    let above = before.indent + before.says.len() - behind_dash(before.says).len();
    match known.contains(&own.indent) {
        false => format!(
            "this line stands {} in and no line above it does: keys of one level stand under each other ({} in the line above)",
            blanks(own.indent),
            blanks(above)
        ),
        true => format!(
            "what stands {} in above is a list or a closed block, and this line is none of it: give it its dash, or move it in ({} in the line above)",
            blanks(own.indent),
            blanks(above)
        ),
    }
}

#[cfg(test)]
mod tests {
    use crate::proof::Place;
    use crate::reading::Node;

    const JOB: &str = "job: x\nparts:\n  - part: a\n    operations:\n      - face:\n          length: 21 mm\n          wear: 0.2 mm\n";

    /// Each slip with the line that is to be mended and what is said of it.
    #[test]
    fn each_slip_is_told_at_its_own_line() {
        for (from, to, line, says) in [
            ("          wear", "         wear", 7, "stands 9 blanks in and no line above it does"),
            ("    operations", "     operations", 4, "further than `part` above it"),
            ("length: 21", "length 21", 6, "a colon is missing after the key: write `length: 21 mm`"),
            ("length: 21", "length:21", 6, "a blank is missing after the colon: write `length: 21 mm`"),
            ("length: 21", "length = 21", 6, "a colon is missing after the key: write `length: 21 mm`"),
            ("length: 21 mm", "length:21 mm # new", 6, "a blank is missing after the colon: write `length: 21 mm`"),
            ("length: 21 mm", "length 21 mm # new", 6, "a colon is missing after the key: write `length: 21 mm`"),
            ("parts:\n", "parts\n", 2, "a colon is missing after the key: write `parts:`"),
            ("part: a", "part:a", 3, "a blank is missing after the colon: write `part: a`"),
            ("- part: a", "-part: a", 3, "a blank is missing after the dash"),
            ("job: x", "job: \"x", 1, "a quote is opened here and never closed"),
            ("job: x", "job: 'x", 1, "a quote is opened here and never closed"),
            ("part: a", "part: [a", 3, "a `[` is opened here and never closed"),
            ("job: x", "job: Engine: first", 1, "two colons stand in this line"),
            ("- face:", "- face: length: 21 mm, wear: 0.2 mm", 5, "write `face: {length: 21 mm, wear: 0.2 mm}`"),
            ("length: 21 mm", "length: \"1\"\"", 6, "an inch sign closes the quotes"),
            ("job: x", "job: %x", 1, "no value begins with `%`"),
            ("job: x", "job: @x", 1, "no value begins with `@`"),
            ("job: x", "job: x\n---\njob: y", 2, "a second document begins here"),
            ("    operations", "  operations", 4, "give it its dash, or move it in"),
            ("  - part", "\t- part", 3, "a tab stands here"),
            ("job: x", "job: x\njob: y", 2, "a key stands here for the second time"),
        ] {
            let text = JOB.replacen(from, to, 1);
            let problem = Node::yaml(&text, Place::start(0)).expect_err(to);
            assert!(problem.says.contains(says), "{to:?}: {}", problem.says);
            assert_eq!(problem.place.map(|place| place.line), Some(line), "{to:?}: {}", problem.says);
        }
        let flow = JOB.replace("length: 21 mm\n", "length: {size: 21 mm with: rule}\n");
        let problem = Node::yaml(&flow, Place::start(0)).expect_err("flow");
        assert!(problem.says.contains("a comma is missing"), "{}", problem.says);
    }

    /// Whatever is cut out of a document or put into it, no message speaks in the reader's own words.
    #[test]
    fn no_slip_is_told_in_the_readers_words() {
        let mut seen = 0;
        for at in 0..JOB.len() {
            for put in ["", " ", "  ", ":", "-", "\"", "'", "{", "[", "}", "]", ",", "\t", "%", "\n", "|", "?"] {
                let text = format!("{}{put}{}", &JOB[..at], &JOB[at + usize::from(put.is_empty())..]);
                let Err(problem) = Node::yaml(&text, Place::start(0)) else { continue };
                seen += 1;
                for word in
                    ["mapping", "scalar", "parsing", "token", "indicator", "context", "flow", "serde", "from_str"]
                {
                    assert!(!problem.says.contains(word), "{text:?}: {}", problem.says);
                }
            }
        }
        assert!(seen > 200, "{seen}");
    }
}
