//! The many names of one thread: `No. 8-32`, `8-32 UNC` and `#8-32 UNC` are one.

/// A name without case, spaces, quotes and the word for number; a series by one name.
pub(super) fn normal(text: &str) -> String {
    let signs = [("×", "x"), ("*", "x"), ("\"", ""), ("″", ""), ("–", "-")];
    let words = [("no.", "#"), ("no ", "#"), ("tpi", ""), ("inch", "")];
    let renamed = [
        ("whitworth", "bsw"),
        ("whit", "bsw"),
        ("cycle", "bsc"),
        ("cei", "bsc"),
        ("bspp", "bsp"),
        ("b.s.f.", "bsf"),
        ("b.s.w.", "bsw"),
        ("b.a.", "ba"),
    ];
    let put = |name: String, (from, to): (&str, &str)| if name.contains(from) { name.replace(from, to) } else { name };
    let spaced = signs.into_iter().chain(words).chain(renamed).fold(text.trim().to_lowercase(), put);
    let spaced = whole_and_fraction(spaced.trim());
    let joined: String = spaced.chars().filter(|c| !c.is_whitespace()).collect();
    // `x 26` after an inch size means 26 threads an inch; after a metric size it means the pitch.
    let joined = if joined.starts_with('m') { joined } else { joined.replace('x', "-") };
    match joined.strip_prefix("ba").or_else(|| joined.strip_prefix('g')) {
        Some(size) if joined.starts_with("ba") => format!("{size}ba"),
        Some(size) => format!("{size}bsp"),
        None => joined,
    }
}

/// `1 1/8` is kept apart from `11/8`.
fn whole_and_fraction(text: &str) -> String {
    let words: Vec<&str> = text.split_whitespace().collect();
    let plain = |word: &str| !word.is_empty() && word.chars().all(|c| c.is_ascii_digit());
    match words.as_slice() {
        [whole, rest @ ..] if plain(whole) && rest.first().is_some_and(|word| word.contains('/')) => {
            format!("{whole}+{}", rest.join(" "))
        }
        _ => text.into(),
    }
}

/// Every key that a designation answers to; `pitch` is in mm for a metric thread, else threads per inch.
pub(super) fn keys(designation: &str, pitch: Option<f64>) -> Vec<String> {
    let own = normal(designation);
    let mut all = vec![own.clone()];
    let Some(pitch) = pitch.map(crate::quantity::figure) else { return all };
    if own.starts_with('m') {
        if !own.contains('x') {
            all.push(format!("{own}x{pitch}"));
        }
        return all;
    }
    let series: String =
        own.chars().rev().take_while(|c| c.is_alphabetic()).collect::<Vec<_>>().into_iter().rev().collect();
    let sized = own.strip_suffix(&series).unwrap_or(&own);
    let size = sized.split_once('-').map_or(sized, |(size, _)| size);
    if let Some(number) = size.strip_prefix('#') {
        // Without the sign a numbered size needs its threads per inch: `1 UNC` is one inch.
        all.extend([format!("{number}-{pitch}{series}"), format!("{number}-{pitch}")]);
    }
    if series == "ba" {
        all.push(format!("#{size}{series}"));
        return all;
    }
    all.push(format!("{size}-{pitch}{series}"));
    // 26 tpi is the usual cycle thread; other counts of the same size must be named.
    if series != "bsc" || pitch == "26" || !sized.contains('-') {
        all.push(format!("{size}{series}"));
    }
    if series.starts_with("un") {
        all.push(format!("{size}-{pitch}"));
    }
    all.dedup();
    all
}
