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
    if let Some(bare) = without_class(text) {
        return Some(format!("`{text}`: the class of a thread is not read here: write `{bare}`"));
    }
    if let Some(row) =
        decimal_size(&folded).and_then(|plain| table.iter().find(|row| row.keys.contains(&normal(&plain))))
    {
        return Some(format!("`{text}`: a size of an inch thread is a fraction: is `{}` meant?", row.designation));
    }
    if let Some(says) = other_kinds(&folded) {
        return Some(format!("`{text}`: {says}"));
    }
    if let Some(row) = old_series(&folded).and_then(|name| table.iter().find(|row| row.keys.contains(&normal(&name)))) {
        return Some(format!("`{text}` is an old name of a series: is `{}` meant?", row.designation));
    }
    if let Some(size) = folded.strip_suffix("mm").map(str::trim)
        && let Some(row) = named(&format!("M{size}"))
    {
        return Some(format!("`{text}` is a size and no thread: is `{}` meant?", row.designation));
    }
    // `8x1.25`: all but its letter.
    let folded = folded.strip_suffix("mm").map_or(folded.as_str(), str::trim).to_owned();
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
    // `1/4 fine` and `1/4 coarse` of an inch size.
    let of_inch = |row: &&Named<'_>| {
        let series: &[&str] = match folded.rsplit_once(' ') {
            Some((_, "fine")) => &["BSF", "UNF"],
            Some((_, "coarse")) => &["BSW", "UNC"],
            _ => return false,
        };
        let size = folded.split(' ').next().unwrap_or_default();
        let rest = row.designation.strip_prefix(size).filter(|rest| size.contains('/') && rest.starts_with([' ', '-']));
        rest.is_some_and(|rest| series.iter().any(|own| rest.ends_with(own)))
    };
    let counted = normal(text);
    let of_count = |row: &&Named<'_>| {
        let rest = row.keys.iter().filter_map(|key| key.strip_prefix(&counted));
        counted.contains('-') && rest.into_iter().any(|rest| rest.chars().all(char::is_alphabetic))
    };
    let mut may: Vec<&str> = table
        .iter()
        .filter(|row| of_fine(row) || of_inch(row) || of_count(row) || of_size(row))
        .map(|row| row.designation)
        .collect();
    may.dedup();
    let (last, others) = may.split_last()?;
    let names = others.iter().map(|name| format!("`{name}`")).collect::<Vec<_>>().join(", ");
    Some(match others.is_empty() {
        true => format!("`{text}` names no series: is `{last}` meant?"),
        false => format!("`{text}` may be {names} or `{last}`: write which"),
    })
}

/// Threads of a kind that is not worked here, and a thing that has one of several.
fn other_kinds(folded: &str) -> Option<&'static str> {
    let joined: String = folded.chars().filter(|c| !c.is_whitespace()).collect();
    let is_trapezoidal = joined.strip_prefix("tr").is_some_and(|size| size.starts_with(|c: char| c.is_ascii_digit()));
    let ends = |all: &[&str]| all.iter().any(|end| joined.ends_with(end));
    if ends(&["npt", "nptf", "bspt"]) || joined.starts_with("rc") {
        return Some("a tapered pipe thread seals by its taper and is not worked here; those of the book are parallel");
    }
    if is_trapezoidal || ends(&["acme"]) {
        return Some("a thread that moves a slide is not worked here; those of the book hold things together");
    }
    let is_plug = folded.contains("spark plug") || folded.contains("sparking plug");
    is_plug.then_some("spark plugs have M10x1, M12x1.25, M14x1.25 or M18x1.5: measure it, and write which")
}

/// A name by one of the older series of inch threads, with the newer one that has its size and pitch.
fn old_series(folded: &str) -> Option<String> {
    let (size, series) = folded.rsplit_once([' ', '-'])?;
    let now = match series {
        "nc" | "uss" | "anc" => "unc",
        "nf" | "sae" | "anf" => "unf",
        _ => return None,
    };
    Some(format!("{} {now}", size.trim()))
}

/// A name without the tolerance class behind it: `M8-6H`, `M8x1.25-6g`, `5/16-18 UNC-2B`.
fn without_class(text: &str) -> Option<&str> {
    let (bare, class) = text.trim().rsplit_once(['-', ' '])?;
    let letters = class.trim_start_matches(|c: char| c.is_ascii_digit());
    let grade = class.strip_suffix(letters)?;
    let is_class = match bare.starts_with(['M', 'm']) {
        true => {
            matches!(letters, "H" | "G" | "h" | "g" | "e" | "f") && matches!(grade, "3" | "4" | "5" | "6" | "7" | "8")
        }
        false => matches!(letters, "A" | "B" | "a" | "b") && matches!(grade, "1" | "2" | "3"),
    };
    is_class.then(|| bare.trim_end_matches(['-', ' ']))
}

/// `.25-20` and `0.3125-18 UNC` with the fraction that the decimal is.
fn decimal_size(folded: &str) -> Option<String> {
    let (size, rest) = folded.split_at(folded.find(['-', ' '])?);
    let inch: f64 = size.parse().ok().filter(|_| size.contains('.'))?;
    let parts = (inch * 64.0).round();
    if !(1.0..=256.0).contains(&parts) || (parts / 64.0 - inch).abs() > 0.0006 {
        return None;
    }
    Some(format!("{}{rest}", crate::quantity::parts_of_an_inch(parts / 64.0 * 25.4)?.trim_end_matches(" in")))
}
