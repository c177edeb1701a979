//! Words about a size that stand in its place or beside it: what is not known yet, about how large it is, a mark of the diameter, a remark.

use super::misread::Misread;
use super::{Kind, Unit};

/// What says that nobody knows it yet.
const NOT_KNOWN: [&str; 14] = [
    "unknown",
    "not known",
    "not measured",
    "to measure",
    "tbd",
    "t.b.d.",
    "tbc",
    "n/a",
    "na",
    "?",
    "??",
    "???",
    "todo",
    "dunno",
];

/// Words and signs before or behind a size, in small letters, with what is said of them.
const BESIDE: [(&[&str], &str); 4] = [
    (
        &["~", "≈", "about", "approx.", "approx", "approximately", "ca.", "ca", "circa", "roughly", "around", "nearly"],
        "nobody knows how far it may be off: write that behind it, as in `18 ± 0.5 mm`",
    ),
    (
        &[
            "<=", ">=", "<", ">", "≤", "≥", "min.", "min", "minimum", "max.", "max", "maximum", "at least", "at most",
            "over", "under",
        ],
        "one end is no size: where limits are wanted give both, as in `23.95 to 24.00 mm`, else the size alone",
    ),
    (
        &[
            "ø",
            "⌀",
            "∅",
            "dia.",
            "dia",
            "diam.",
            "diam",
            "diameter",
            "on diameter",
            "radius",
            "rad.",
            "on radius",
            "per side",
            "a side",
            "o.d.",
            "od",
            "i.d.",
            "id",
        ],
        "whether it is a diameter or a radius depends on the key (`setover keys` says which): give that figure alone",
    ),
    (
        &[
            "(measured)",
            "measured",
            "nominal",
            "(nominal)",
            "nom.",
            "nom",
            "as found",
            "new",
            "worn",
            "exactly",
            "full",
            "deep",
            "long",
            "wide",
            "thick",
        ],
        "nothing more stands beside a size: a remark goes behind a # and a blank",
    ),
];

/// What is said of a text that is no size for the words in it; `reads` says whether a part of it is one.
pub(super) fn beside(kind: &Kind, text: &str, reads: &dyn Fn(&str) -> bool) -> Option<Misread> {
    let folded = text.trim().to_lowercase();
    let told = |says: &'static str| Some(Misread::Meanings { text: text.into(), says });
    if NOT_KNOWN.contains(&folded.as_str()) {
        return told(
            "what is not known yet is measured first; a key that may be left out is left out, and the answer says what it would decide",
        );
    }
    if kind.unit == Unit::One {
        return None;
    }
    for (words, says) in BESIDE {
        let is_word = |word: &str| word.ends_with(char::is_alphabetic);
        let before = |word: &&&str| {
            let rest = folded.strip_prefix(**word)?;
            let apart = !is_word(word) || rest.starts_with(|c: char| c.is_whitespace() || c.is_ascii_digit());
            (apart && reads(rest.trim())).then_some(())
        };
        let behind = |word: &&&str| {
            let rest = folded.strip_suffix(**word)?;
            (rest.ends_with(|c: char| c.is_whitespace() || !c.is_alphanumeric()) && reads(rest.trim())).then_some(())
        };
        if words.iter().any(|word| before(&word).or_else(|| behind(&word)).is_some()) {
            return told(says);
        }
    }
    // `18 mm?`, `18 mm (by the drawing)`.
    let cut = folded.find(['(', '?', '!', ';'])?;
    let is_remark = !folded.get(cut..)?.contains(|c: char| c.is_ascii_digit()) && reads(folded.get(..cut)?.trim());
    if is_remark { told("nothing more stands beside a size: a remark goes behind a # and a blank") } else { None }
}

#[cfg(test)]
mod tests {
    use super::super::{Measured, Mm, Roughness};

    #[test]
    fn words_beside_a_size_are_answered_for_what_they_are() {
        let says = |text: &str| text.parse::<Measured<Mm>>().unwrap_err().to_string();
        for (typed, told) in [
            ("unknown", "what is not known yet is measured first"),
            ("TBD", "what is not known yet is measured first"),
            ("?", "what is not known yet is measured first"),
            ("~18 mm", "write that behind it"),
            ("≈ 18 mm", "write that behind it"),
            ("about 18 mm", "write that behind it"),
            ("approx. 18 mm", "write that behind it"),
            ("18 mm approx", "write that behind it"),
            ("ca. 18 mm", "write that behind it"),
            ("> 18 mm", "one end is no size"),
            ("<=18 mm", "one end is no size"),
            ("18 mm min", "one end is no size"),
            ("max 18 mm", "one end is no size"),
            ("Ø18 mm", "whether it is a diameter or a radius"),
            ("⌀ 18 mm", "whether it is a diameter or a radius"),
            ("dia 18 mm", "whether it is a diameter or a radius"),
            ("18 mm dia", "whether it is a diameter or a radius"),
            ("4.5 in radius", "whether it is a diameter or a radius"),
            ("18 mm (measured)", "a remark goes behind a #"),
            ("18 mm?", "a remark goes behind a #"),
            ("18 mm (by the drawing)", "a remark goes behind a #"),
            ("18 mm deep", "a remark goes behind a #"),
            // What has a figure of its own behind it is no remark.
            ("18 mm (19 mm)", "has no unit that a length can have"),
            ("6 thousandths", "a thousandth is one of an inch to one and of a millimetre to another"),
        ] {
            assert!(says(typed).contains(told), "{typed}: {}", says(typed));
        }
        assert!("Ra ?".parse::<Measured<Roughness>>().is_err());
        for (typed, size) in
            [("“18 mm”", 18.0), ("‘18 mm’", 18.0), ("„18 mm“", 18.0), ("«18 mm»", 18.0), ("6 thous", 0.1524)]
        {
            let read: Measured<Mm> = typed.parse().unwrap_or_else(|fault| panic!("{typed}: {fault}"));
            assert_eq!(super::super::Quantity::number(read.value), size, "{typed}");
        }
        // The inch sign alone, as a telephone has it.
        assert_eq!(super::super::Quantity::number("5/8”".parse::<Measured<Mm>>().unwrap().value), 15.875);
    }
}
