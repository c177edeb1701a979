//! The text of a table as lines, and a line as its cells.

/// Where each line of a text begins and ends, its sign of the end within.
pub(super) fn lines(text: &'static str) -> impl Iterator<Item = (usize, usize)> {
    let mut from = 0;
    let ends = memchr::memchr_iter(b'\n', text.as_bytes()).map(|at| at + 1).chain([text.len()]);
    ends.map(move |end| (std::mem::replace(&mut from, end), end)).filter(|(from, end)| from < end)
}

/// The lines of a table, its heads first, without its remarks. No cell of a built-in table runs over a line.
pub(super) fn rows(text: &'static str) -> impl Iterator<Item = &'static str> {
    let rows = lines(text).map(|(from, to)| text.get(from..to).unwrap_or_default().trim_end_matches(['\r', '\n']));
    rows.filter(|line| !line.is_empty() && !line.starts_with('#'))
}

/// Puts the cells of a line into a list, in place of what is there: most have no quotes, and fall apart at their commas.
pub(super) fn part(line: &'static str, cells: &mut Vec<&'static str>) {
    cells.clear();
    if memchr::memchr(b'"', line.as_bytes()).is_some() {
        quoted(line, cells);
        return;
    }
    let mut from = 0;
    // Cells are short: a search that looks at many bytes at once has begun again before it has gained.
    for (comma, _) in line.bytes().enumerate().filter(|(_, byte)| *byte == b',') {
        cells.push(line.get(from..comma).unwrap_or_default());
        from = comma + 1;
    }
    cells.push(line.get(from..).unwrap_or_default());
}

/// The cells of a line with quotes. In quotes a comma is a comma, and two quotes are one; a test holds every table against the
/// reader of a library.
fn quoted(line: &'static str, cells: &mut Vec<&'static str>) {
    let mut rest = Some(line);
    while let Some(text) = rest {
        let Some(inside) = text.strip_prefix('"') else {
            let comma = memchr::memchr(b',', text.as_bytes());
            cells.push(text.get(..comma.unwrap_or(text.len())).unwrap_or_default());
            rest = comma.and_then(|comma| text.get(comma + 1..));
            continue;
        };
        let end = end_of_quotes(inside);
        let (cell, more) = (inside.get(..end).unwrap_or(inside), inside.get(end + 1..).unwrap_or_default());
        // What is read of a table stays, as its text does.
        cells.push(if cell.contains('"') { cell.replace("\"\"", "\"").leak() } else { cell });
        rest = more.strip_prefix(',');
    }
}

/// Where the quotes close: at one that is not followed by another.
fn end_of_quotes(inside: &str) -> usize {
    let mut from = 0;
    let bytes = inside.as_bytes();
    while let Some(at) = bytes.get(from..).and_then(|rest| memchr::memchr(b'"', rest)).map(|at| from + at) {
        if bytes.get(at + 1) != Some(&b'"') {
            return at;
        }
        from = at + 2;
    }
    inside.len()
}

/// The first cells of a line, which are bare words; a single one may stand in quotes.
pub(super) fn first_cells(line: &'static str, cells: usize) -> &'static str {
    if line.starts_with('"')
        && let Some((cell, _)) = line.get(1..).and_then(|rest| rest.split_once('"'))
    {
        return cell;
    }
    let end = memchr::memchr_iter(b',', line.as_bytes()).nth(cells.saturating_sub(1));
    end.and_then(|end| line.get(..end)).unwrap_or(line)
}

/// Whether the first cells of a line are these.
pub(super) fn begins_with(line: &str, cells: &str) -> bool {
    line.strip_prefix(cells).is_some_and(|rest| rest.starts_with(','))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Every table of the project, by its name.
    fn every_table() -> Vec<(String, &'static str)> {
        let folder = std::fs::read_dir("shared").unwrap().map(|entry| entry.unwrap().path());
        let tables = folder.filter(|path| path.extension().is_some_and(|end| end == "csv"));
        let text =
            |path: std::path::PathBuf| (path.display().to_string(), &*std::fs::read_to_string(path).unwrap().leak());
        tables.map(text).collect()
    }

    #[test]
    fn every_table_is_read_by_lines_as_by_a_library() {
        let all = every_table();
        assert!(all.len() > 20);
        for (name, text) in all {
            let mut builder = csv::ReaderBuilder::new();
            let mut whole = builder.comment(Some(b'#')).has_headers(false).flexible(true).from_reader(text.as_bytes());
            let by_library: Vec<Vec<String>> =
                whole.records().map(|record| record.unwrap().iter().map(str::to_owned).collect()).collect();
            let mut cells = Vec::new();
            let mut by_lines = Vec::new();
            for line in rows(text) {
                part(line, &mut cells);
                by_lines.push(cells.clone());
            }
            assert!(by_lines.len() > 1, "{name}");
            assert_eq!(by_lines, by_library, "{name}");
        }
    }
}
