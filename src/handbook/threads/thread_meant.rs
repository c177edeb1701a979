//! What a name may mean that is no thread on its own: a size alone, a size with its threads per inch, a size with `fine`.

use super::thread_names::normal;

/// The names of one thread of the book.
pub(super) struct Named<'a> {
    /// Its designation.
    pub designation: &'a str,
    /// Whether it is metric fine.
    pub fine: bool,
    /// Every key that it answers to.
    pub keys: &'a [String],
}

/// How a left-hand thread is marked.
const LEFT_HAND: [&str; 5] = ["lh", "l.h.", "left hand", "left-hand", "left"];

/// What is asked back; `None` where nothing can be guessed.
pub(super) fn asked_back(text: &str, table: &[Named<'_>]) -> Option<String> {
    let folded = text.trim().to_lowercase();
    let named = |wanted: &str| table.iter().find(|row| row.designation.eq_ignore_ascii_case(wanted));
    if let Some(right) = LEFT_HAND.iter().find_map(|sign| folded.strip_suffix(sign)) {
        let right = text.trim().get(..right.len()).unwrap_or_default().trim_end_matches([' ', '-', ',']);
        return Some(format!(
            "`{text}`: left-hand threads are not worked here, for every tap, insert and way of turning is right-hand; the sizes alone are those of `{right}`"
        ));
    }
    if let Some(size) = folded.strip_suffix("mm").map(str::trim)
        && let Some(row) = named(&format!("M{size}"))
    {
        return Some(format!("`{text}` is a size and no thread: is `{}` meant?", row.designation));
    }
    // `8x1.25`: all but its letter.
    let lettered = normal(&format!("M{folded}"));
    if folded.starts_with(|c: char| c.is_ascii_digit())
        && folded.contains('x')
        && let Some(row) = table.iter().find(|row| row.designation.starts_with('M') && row.keys.contains(&lettered))
    {
        return Some(format!("`{text}` lacks its letter: is `M{folded}` meant ({})?", row.designation));
    }
    let of_size = |row: &&Named<'_>| {
        let is_fraction = folded.contains('/') && folded.chars().all(|c| c.is_ascii_digit() || c == '/');
        is_fraction && row.designation.strip_prefix(&folded).is_some_and(|rest| rest.starts_with([' ', '-']))
    };
    let fine = folded.strip_suffix("fine").map(|size| size.trim().trim_start_matches('m').to_owned());
    let of_fine = |row: &&Named<'_>| {
        let size = fine.as_deref().filter(|size| !size.is_empty());
        row.fine && size.is_some_and(|size| row.designation.starts_with(&format!("M{size}x")))
    };
    let counted = normal(text);
    let of_count = |row: &&Named<'_>| {
        let rest = row.keys.iter().filter_map(|key| key.strip_prefix(&counted));
        counted.contains('-') && rest.into_iter().any(|rest| rest.chars().all(char::is_alphabetic))
    };
    let mut may: Vec<&str> =
        table.iter().filter(|row| of_fine(row) || of_count(row) || of_size(row)).map(|row| row.designation).collect();
    may.dedup();
    let (last, others) = may.split_last()?;
    let names = others.iter().map(|name| format!("`{name}`")).collect::<Vec<_>>().join(", ");
    Some(match others.is_empty() {
        true => format!("`{text}` names no series: is `{last}` meant?"),
        false => format!("`{text}` may be {names} or `{last}`: write which"),
    })
}
