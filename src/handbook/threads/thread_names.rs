//! The many names of one thread: `No. 8-32`, `8-32 UNC` and `#8-32 UNC` are one.

/// A name without case, spaces, quotes and the word for number; a series by one name.
pub(super) fn normal(text: &str) -> String {
    let signs = [
        ("×", "x"),
        ("*", "x"),
        ("\"", ""),
        ("″", ""),
        ("–", "-"),
        ("½", " 1/2"),
        ("¼", " 1/4"),
        ("¾", " 3/4"),
        ("⅛", " 1/8"),
        ("⅜", " 3/8"),
        ("⅝", " 5/8"),
        ("⅞", " 7/8"),
    ];
    let words = [("no.", "#"), ("no ", "#"), ("tpi", ""), ("inch", ""), (" in ", " ")];
    let renamed = [
        ("whitworth", "bsw"),
        ("whit", "bsw"),
        ("cycle", "bsc"),
        ("cei", "bsc"),
        ("bscy", "bsc"),
        ("bspp", "bsp"),
        ("b.s.f.", "bsf"),
        ("b.s.w.", "bsw"),
        ("b.a.", "ba"),
    ];
    let put = |name: String, (from, to): (&str, &str)| if name.contains(from) { name.replace(from, to) } else { name };
    let spaced = signs.into_iter().chain(words).chain(renamed).fold(text.trim().to_lowercase(), put);
    let spaced = size_and_count(&whole_and_fraction(spaced.trim()));
    let joined: String = spaced.chars().filter(|c| !c.is_whitespace()).collect();
    // `x 26` after an inch size means 26 threads an inch; after a metric size it means the pitch, also after a hyphen.
    let joined = match joined.strip_prefix('m') {
        Some(_) => without_noughts(joined.replace(',', ".").replace('-', "x")),
        None => series_last(joined.replace('x', "-")),
    };
    // `W 1/4` is how a Whitworth thread is called outside Britain.
    if let Some(size) =
        joined.strip_prefix('w').filter(|size| size.contains('/') && !size.contains(char::is_alphabetic))
    {
        return format!("{size}bsw");
    }
    match joined.strip_prefix("ba").or_else(|| joined.strip_prefix('g')) {
        Some(size) if joined.starts_with("ba") => format!("{size}ba"),
        Some(size) => format!("{size}bsp"),
        None => joined,
    }
}

/// `m6x1.0` is `m6x1`.
fn without_noughts(name: String) -> String {
    // `m8x.75` is `m8x0.75`.
    let name = name.replace("x.", "x0.");
    match name.split_once('.') {
        Some(_) if name.ends_with(|c: char| c.is_ascii_digit()) => {
            name.trim_end_matches('0').trim_end_matches('.').to_owned()
        }
        _ => name,
    }
}

/// `bsf1/4` is `1/4bsf`.
fn series_last(name: String) -> String {
    let series = ["bsf", "bsw", "bsc", "bsp", "unef", "unc", "unf"].into_iter();
    let first = series.filter_map(|series| Some((series, name.strip_prefix(series)?.trim_start_matches('-'))));
    let sized = |&(_, size): &(&str, &str)| size.starts_with(|c: char| c.is_ascii_digit() || c == '#');
    first.filter(sized).map(|(series, size)| format!("{size}{series}")).next().unwrap_or(name)
}

/// `1/4 26` is a size and its threads per inch: `1/4-26`.
fn size_and_count(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut after_size = false;
    for word in text.split_whitespace() {
        if !out.is_empty() {
            out.push(if after_size && word.bytes().all(|b| b.is_ascii_digit()) { '-' } else { ' ' });
        }
        out.push_str(word);
        after_size = word.contains('/') && word.ends_with(|c: char| c.is_ascii_digit());
    }
    out
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
