//! Forgiving where the meaning is plain: other ways to write a size, brought to the one that is read; and what has two meanings,
//! with what to write in its place.

use super::misread::Misread;
use super::{Kind, Unit, drawer};
use std::borrow::Cow;

/// Fractions that are one sign.
const FRACTIONS: [(char, &str); 9] = [
    ('½', "1/2"),
    ('¼', "1/4"),
    ('¾', "3/4"),
    ('⅛', "1/8"),
    ('⅜', "3/8"),
    ('⅝', "5/8"),
    ('⅞', "7/8"),
    ('⅓', "1/3"),
    ('⅔', "2/3"),
];

/// Words that are a unit to one and another to the next, with what is meant by each.
const TWO_MEANINGS: [(&[&str], &str); 4] = [
    (
        &["thousandth", "thousandths"],
        "a thousandth is one of an inch to one and of a millimetre to another: write `thou` or `um`",
    ),
    (&["mil", "mils"], "a mil is a millimetre to one and a thousandth of an inch to another: write `mm` or `thou`"),
    (&["tenth", "tenths"], "a tenth is 0.1 mm to one and 0.0001 in to another: write `0.1 mm` or `0.0001 in`"),
    (
        &["ton", "tons", "tonf"],
        "a ton may be long (9.96 kN, 2240 lbf), short (8.90 kN, 2000 lbf) or metric (9.81 kN, 2205 lbf): write `kN` or `lbf` for a force, `kg` or `lb` for a mass",
    ),
];

/// Units that are not those of the kind that is asked for, as the trade says them, with what to write; of what is held in which unit.
const OTHER_UNITS: [(Unit, &[&str], &str); 11] = [
    (Unit::N, &["lb", "lbs", "pound", "pounds"], "a pound is a mass: as a force it is a pound-force, write `lbf`"),
    (Unit::N, &["kg", "g"], "a kilogram is a mass, and weighs 9.81 N: write the force in `N` or `kN`"),
    (Unit::N, &["kgf", "kp"], "1 kgf is 9.81 N: write `N` or `kN`"),
    (Unit::N, &["t", "tonne", "tonnes"], "a tonne is a mass, and weighs 9.81 kN: write the force in `kN`"),
    (
        Unit::N,
        &["bar", "psi", "mpa", "n/mm2", "n/mm²"],
        "that is a pressure: the force is the pressure times the area of the ram; write it in `kN` or `lbf`",
    ),
    (
        Unit::Nm,
        &[
            "lb-ft", "lb ft", "lb·ft", "lbft", "ft-lb", "ft lb", "ft·lb", "ftlb", "ft-lbs", "ft lbs", "lbf-ft",
            "ft-lbf", "ft lbf", "ft·lbf",
        ],
        "write the foot-pound as `lbf·ft`",
    ),
    (
        Unit::Nm,
        &[
            "in-lb", "in lb", "in·lb", "inlb", "in-lbs", "in lbs", "lb-in", "lb in", "lb·in", "lbf-in", "in-lbf",
            "in lbf", "in·lbf",
        ],
        "write the inch-pound as `lbf·in`",
    ),
    (Unit::Nm, &["kgf·m", "kgf m", "kgm", "mkg", "kpm", "kp·m"], "1 kgf·m is 9.81 N·m: write `N·m`"),
    (Unit::MPa, &["bar"], "1 bar is 0.1 MPa: write `MPa` or `psi`"),
    (Unit::MPa, &["kgf/mm2", "kgf/mm²", "kg/mm2", "kg/mm²"], "1 kgf/mm² is 9.81 MPa: write `MPa`"),
    (Unit::Kg, &["t", "tonne", "tonnes", "lbs", "pound", "pounds"], "write the mass in `kg` or `lb`"),
];

/// A figure in a unit of another kind, or in one that is written otherwise here.
pub(super) fn other_unit(kind: &Kind, text: &str) -> Option<Misread> {
    let unit = text.rsplit(|c: char| c.is_ascii_digit() || c == '.').next().unwrap_or_default().trim().to_lowercase();
    let own = OTHER_UNITS.iter().filter(|(of, ..)| *of == kind.unit);
    let (.., says) = own.into_iter().find(|(_, units, _)| units.contains(&unit.as_str()))?;
    Some(Misread::Meanings { text: text.into(), says })
}

/// Roughness parameters that are not Ra.
const OTHER_ROUGHNESS: [&str; 5] = ["Rz", "Rt", "Rq", "Rmax", "RMS"];

/// The signs of a size as the reader knows them: a fraction in one sign as a common fraction, `to` between two ends.
pub(super) fn signs(text: &str) -> Cow<'_, str> {
    let fraction = |c: char| FRACTIONS.iter().find(|(sign, _)| *sign == c).map(|(_, digits)| *digits);
    let text = without_full_stop(out_of_quotes(text));
    let of_plain_signs = text.split('±').all(str::is_ascii);
    if of_plain_signs && !text.contains("..") && !text.contains("''") && !text.contains('+') {
        return Cow::Borrowed(text);
    }
    let mut out = String::with_capacity(text.len() + 4);
    for c in text.chars() {
        match fraction(c) {
            Some(digits) => {
                if out.ends_with(|c: char| c.is_ascii_digit()) {
                    out.push(' ');
                }
                out.push_str(digits);
            }
            None => out.push(match c {
                '⁄' | '∕' => '/',
                '”' | '“' => '"',
                other => other,
            }),
        }
    }
    let out = out.replace('…', "..").replace("...", "..");
    let out = between_dashes(&out).unwrap_or(out);
    let out = out.replace(" .. ", TO).replace("..", TO).replace("''", "\"").replace("’’", "\"");
    Cow::Owned(out.replace("+/-", "±").replace("+-", "±"))
}

/// A text out of the quotes that a telephone puts about it; an inch sign is none of a pair.
fn out_of_quotes(text: &str) -> &str {
    const PAIRS: [(char, char); 5] = [('“', '”'), ('„', '“'), ('‘', '’'), ('‚', '‘'), ('«', '»')];
    let within = |(open, shut): (char, char)| text.strip_prefix(open)?.strip_suffix(shut);
    PAIRS.into_iter().find_map(within).map_or(text, str::trim)
}

/// Two ends with the long dash of print between them (`23.95 – 24.00 mm`); a fraction has a dash of its own.
fn between_dashes(text: &str) -> Option<String> {
    let (low, high) = text.split_once(['–', '—'])?;
    let (low, high) = (low.trim(), high.trim());
    let ends = low.ends_with(|c: char| c.is_ascii_digit() || c.is_alphabetic() || c == '"' || c == '.');
    let is_range = ends && high.starts_with(|c: char| c.is_ascii_digit() || c == '.');
    let plain = !text.contains(['±', '+', '/']) && !high.contains(['–', '—']);
    (is_range && plain).then(|| format!("{low}{TO}{high}"))
}

/// What stands between the two ends of a range.
pub(super) const TO: &str = " to ";

/// A full stop behind a unit ends a sentence (`18 mm.`, `5/8 in.`).
fn without_full_stop(text: &str) -> &str {
    let bare = text.strip_suffix('.').unwrap_or(text);
    if bare.ends_with(|c: char| c.is_alphabetic() || c == '"') { bare } else { text }
}

/// Units as they are said or written elsewhere, each of which is one of ours and nothing else; of what is held in which unit.
const OUR_UNITS: [(Unit, &[&str], &str); 21] = [
    (Unit::Mm, &["millimetres", "millimetre", "millimeters", "millimeter"], "mm"),
    (Unit::Mm, &["centimetres", "centimetre", "centimeters", "centimeter"], "cm"),
    (Unit::Mm, &["microns", "micron", "micrometres"], "um"),
    (Unit::Mm, &["ins"], "in"),
    (Unit::Mm, &["thous"], "thou"),
    (Unit::KW, &["kilowatts", "kilowatt"], "kW"),
    (Unit::KW, &["watts", "watt"], "W"),
    (Unit::KW, &["horsepower", "horse power"], "hp"),
    (Unit::Um, &["microns", "micron"], "um"),
    (Unit::Um, &["microinches", "microinch", "micro-inches", "micro-inch"], "uin"),
    (Unit::Deg, &["degrees", "degree", "degs"], "deg"),
    (Unit::DegC, &["degrees celsius", "degrees c", "deg c", "degc", "celsius", "° c", "°c", "c"], "degC"),
    (Unit::DegC, &["degrees fahrenheit", "degrees f", "deg f", "degf", "fahrenheit", "° f", "°f", "f"], "degF"),
    (Unit::Nm, &["newton metres", "newton metre", "newton-metres", "newton-metre", "n m", "n-m", "n*m", "nm"], "N·m"),
    (Unit::N, &["newtons", "newton"], "N"),
    (Unit::N, &["kilonewtons", "kilonewton"], "kN"),
    (Unit::Kg, &["kilograms", "kilogram", "kilogrammes", "kilos", "kilo", "kgs"], "kg"),
    (Unit::Min, &["minutes", "minute", "mins"], "min"),
    (Unit::Min, &["hours", "hour", "hrs", "hr"], "h"),
    (
        Unit::RevPerMin,
        &[
            "revolutions per minute",
            "revs per minute",
            "revs/min",
            "rev per min",
            "r.p.m.",
            "r.p.m",
            "r/min",
            "turns/min",
        ],
        "rev/min",
    ),
    (Unit::MPerMin, &["feet per minute", "feet/min", "ft per min", "sfm", "fpm"], "ft/min"),
];

/// The same size with its units as ours; none where no word in it is another's unit.
pub(super) fn in_our_units(kind: &Kind, text: &str) -> Option<String> {
    let mut out = text.to_lowercase();
    let mut found = false;
    for (_, words, ours) in OUR_UNITS.iter().filter(|(of, ..)| *of == kind.unit) {
        for word in *words {
            let mut from = 0;
            while let Some(at) = out.get(from..).and_then(|rest| rest.find(word)).map(|at| at + from) {
                let end = at + word.len();
                let before = out.get(..at).and_then(|text| text.chars().next_back());
                let after = out.get(end..).and_then(|text| text.chars().next());
                let is_whole = ![before, after].into_iter().flatten().any(|c| c.is_alphabetic() || c == '/');
                if is_whole {
                    out.replace_range(at..end, ours);
                    found = true;
                }
                from = at + if is_whole { ours.len() } else { word.len() };
            }
        }
    }
    found.then_some(out)
}

/// The same size with its unit in small letters (`18.0 MM`, `Inch`), where that is the only other way to read it: a unit of two
/// letters and more, all of them small. `M` and `m`, `MPa` and `mPa` stay what they are.
pub(super) fn small_letters(kind: &Kind, text: &str) -> Option<String> {
    let small = text.to_lowercase();
    let is_small =
        |unit: &str| unit.chars().count() >= 2 && unit.chars().all(|c| !c.is_alphabetic() || c.is_lowercase());
    let known = kind.spellings.iter().filter(|unit| small.ends_with(unit.text)).max_by_key(|unit| unit.text.len())?;
    (small != text && is_small(known.text)).then_some(small)
}

/// Whether a metric thread is named (`M8`, `M8x1.25`).
fn is_thread(text: &str) -> bool {
    let size = text.trim().strip_prefix(['M', 'm']).unwrap_or_default();
    let digit = |c: char| c.is_ascii_digit();
    size.starts_with(digit) && size.chars().all(|c| digit(c) || matches!(c, '.' | 'x' | 'X' | '×' | '-'))
}

/// Whether a size is named with a tolerance class in the place of its limits (`25 H7`, `3/4 in H7/p6`).
fn has_class(kind: &Kind, text: &str) -> bool {
    let last = text.trim_end().rsplit(|c: char| c.is_whitespace() || c == '/').next().unwrap_or_default();
    let last = last.trim_start_matches(|c: char| c.is_ascii_digit() || c == '.');
    let letters = last.trim_end_matches(|c: char| c.is_ascii_digit());
    let is_class = (1..=2).contains(&letters.len())
        && letters.bytes().all(|b| b.is_ascii_alphabetic())
        && (1..=2).contains(&(last.len() - letters.len()));
    let is_unit = kind.spellings.iter().any(|unit| unit.text.eq_ignore_ascii_case(letters));
    text.starts_with(|c: char| c.is_ascii_digit() || c == '.') && is_class && !is_unit
}

/// What cannot be read because it has two meanings, or is another thing than what is asked for.
pub(super) fn two_meanings(kind: &Kind, text: &str) -> Option<Misread> {
    let last = text.rsplit(|c: char| !c.is_alphabetic()).next().unwrap_or_default().to_lowercase();
    if let Some((_, says)) = TWO_MEANINGS.iter().find(|(words, _)| words.contains(&last.as_str())) {
        return Some(Misread::Meanings { text: text.into(), says });
    }
    if kind.unit == Unit::Mm && drawer::is_bare_letter(text) {
        return Some(Misread::Letter(text.into()));
    }
    if kind.unit == Unit::Mm && is_thread(text) {
        let says = "a thread is no size: give the diameter that was read, or that `setover book thread` has";
        return Some(Misread::Meanings { text: text.into(), says });
    }
    if text.matches(['±']).count() > 1 {
        let says = "one ± stands behind a size: give the whole doubt there";
        return Some(Misread::Meanings { text: text.into(), says });
    }
    if kind.unit == Unit::Mm && has_class(kind, text) {
        return Some(Misread::Class { text: text.into(), wanted: true });
    }
    if kind.unit != Unit::One && text.contains('%') {
        let says = "a share is not read here: write the doubt as a size, in the unit of the figure before it";
        return Some(Misread::Meanings { text: text.into(), says });
    }
    if kind.before != "Ra" {
        return None;
    }
    let folded = text.to_lowercase();
    if !folded.contains(|c: char| c.is_ascii_digit()) {
        let says = "a roughness is a figure, as in `Ra 0.8 um` or `Ra 32 uin`";
        return Some(Misread::Meanings { text: text.into(), says });
    }
    let is_other = |word: &str| folded.starts_with(word) || folded.ends_with(word);
    if OTHER_ROUGHNESS.iter().any(|word| is_other(&word.to_lowercase())) {
        return Some(Misread::Meanings {
            text: text.into(),
            says: "only Ra is read here, and no factor turns another parameter into it: give Ra, as in `Ra 0.8 um`",
        });
    }
    let grade =
        folded.strip_prefix('n').is_some_and(|grade| !grade.is_empty() && grade.bytes().all(|b| b.is_ascii_digit()));
    grade.then(|| Misread::Meanings {
        text: text.into(),
        says: "a roughness grade is not read here: write the Ra that it stands for, as in `Ra 0.8 um`",
    })
}

#[cfg(test)]
mod tests {
    use super::super::{
        Celsius, Form, Measured, Mm, MmPerRev, Newton, NewtonMetre, Quantity, RevPerMin, Roughness, Steps, Written,
    };

    /// Each form that is read, with the plain one that it is the same as.
    #[test]
    fn what_is_plainly_meant_is_read() {
        for (typed, plain) in [
            (".594 in", "0.594 in"),
            ("1.1/4 in", "1 1/4 in"),
            ("18. mm", "18 mm"),
            ("½ in", "1/2 in"),
            ("1½ in", "1 1/2 in"),
            ("1 ⅜ in", "1 3/8 in"),
            ("6 tho", "6 thou"),
            ("25.4 mm ± 0.01 mm", "25.4 ± 0.01 mm"),
            ("18.0 ± 0.3mm", "18.0 ± 0.3 mm"),
            ("18.0±0.3mm", "18.0 ± 0.3 mm"),
            ("18.0 mm +/- 0.3 mm", "18.0 ± 0.3 mm"),
            ("18.0 +/-0.3 mm", "18.0 ± 0.3 mm"),
            ("18.0 +- 0.3 mm", "18.0 ± 0.3 mm"),
            ("18 +0.1 -0.2 mm", "18 +0.1/-0.2 mm"),
            ("18+0.1-0.2 mm", "18 +0.1/-0.2 mm"),
            ("25.40 to 25.42 mm", "25.40 .. 25.42 mm"),
            ("25.40 mm to 25.42 mm", "25.40 .. 25.42 mm"),
            ("18.0 MM", "18.0 mm"),
            ("18.0 ± 0.3 MM", "18.0 ± 0.3 mm"),
            ("18.0 MM ± 0.3 MM", "18.0 ± 0.3 mm"),
            ("2 inches", "2 in"),
            ("2 Inch", "2 in"),
            ("0.5 IN", "0.5 in"),
            ("9 THOU", "9 thou"),
            ("18 millimetres", "18 mm"),
            ("18 Millimeters", "18 mm"),
            ("18 ± 0.3 millimetres", "18 ± 0.3 mm"),
            ("18 millimetres ± 0.3 millimetres", "18 ± 0.3 mm"),
            ("12 microns", "12 um"),
            ("2 ins", "2 in"),
            ("5⁄8 in", "5/8 in"),
            ("1 5∕8 in", "1 5/8 in"),
            ("1''", "1 in"),
            ("5/8”", "5/8 in"),
            ("18 mm.", "18 mm"),
            ("5/8 in.", "5/8 in"),
            ("18..19 mm", "18 to 19 mm"),
        ] {
            let read = |text: &str| text.parse::<Written<Mm>>().unwrap_or_else(|e| panic!("{text}: {e}"));
            let (typed_read, plain_read) = (read(typed), read(plain));
            assert_eq!(typed_read.value.number().to_bits(), plain_read.value.number().to_bits(), "{typed}");
            assert_eq!(typed_read.form, plain_read.form, "{typed}");
        }
        assert_eq!("ra 0.8 UM".parse::<Written<Roughness>>().unwrap().value.number(), 0.8);
        let degrees = |text: &str| text.parse::<Written<Celsius>>().unwrap_or_else(|e| panic!("{text}: {e}")).value;
        for (typed, plain) in [
            ("80 C", "80 degC"),
            ("80 ° C", "80 degC"),
            ("80 deg C", "80 degC"),
            ("176 F", "80 degC"),
            ("176 degrees F", "80 degC"),
        ] {
            assert_eq!(degrees(typed), degrees(plain), "{typed}");
        }
        for typed in ["22 N m", "22 N-m", "22 newton metres", "22 NM", "22 N·m."] {
            let torque = typed.parse::<Written<NewtonMetre>>().unwrap_or_else(|e| panic!("{typed}: {e}"));
            assert_eq!(torque.value.number(), 22.0, "{typed}");
        }
        assert!("22 kN m".parse::<Written<NewtonMetre>>().is_err());
        assert_eq!("430 r.p.m.".parse::<Written<RevPerMin>>().unwrap().value.number(), 430.0);
        assert_eq!("430 RPM".parse::<Written<RevPerMin>>().unwrap().value.number(), 430.0);
        assert!(matches!("0.1 to 0.2 mm".parse::<Written<Mm>>().unwrap().form, Form::Span(high) if high == 0.2));
    }

    /// Each form that is refused, with what is said of it.
    #[test]
    fn what_has_two_meanings_is_asked_back() {
        let length = |text: &str| text.parse::<Written<Mm>>().unwrap_err().to_string();
        for (typed, says) in [
            ("25.4 mm ± 0.01", "0.01 of what?"),
            ("25.4 in +/- 0.01", "0.01 of what?"),
            ("25.40 mm to 25.42", "25.42 of what?"),
            ("5 mil", "write `mm` or `thou`"),
            ("5 mils", "write `mm` or `thou`"),
            ("2 tenths", "write `0.1 mm` or `0.0001 in`"),
            ("18 in mm", "one size has one unit"),
            ("25.4 mm 1 in", "one size has one unit"),
            ("12,5 mm", "the decimal sign is a point: `12.5 mm`"),
            ("2.8, 4.2 mm", "with blanks between them and their unit once, behind the last: `2.8 4.2 mm`"),
            ("24.48 mm, 24.47 mm, 24.49 mm", "behind the last: `24.48 24.47 24.49 mm`"),
            ("1 in ± 10", "as in `1 in ± 10 thou`"),
            ("25.4 mm ± 10", "as in `25.4 mm ± 10 um`"),
            ("1,000 thou", "write `1000 thou` or `1.000 thou`"),
            ("2,500 mm", "write `2500 mm` or `2.500 mm`"),
            ("12,5000 mm", "the decimal sign is a point: `12.5000 mm`"),
            ("25 H7", "a tolerance class is not read here"),
            ("25H7", "a tolerance class is not read here"),
            ("3/4 in H7", "`setover book fit` gives them"),
            ("25 H7/p6", "a tolerance class is not read here"),
            ("25 js6", "a tolerance class is not read here"),
            ("5 mm2", "has no unit"),
            ("M8", "a thread is no size"),
            ("18 ± 0.3 mm ± 0.1 mm", "one ± stands behind a size"),
            ("1.250,5 mm", "the decimal sign is a point: `1250.5 mm`"),
            ("1,250.5 mm", "the decimal sign is a point: `1250.5 mm`"),
            ("18-19 mm", "limits are written `18 to 19 mm`"),
            ("6 thousandths", "a thousandth is one of an inch to one"),
            ("5'", "has no unit"),
            ("18 mm ± 5 %", "a share is not read here"),
            ("Q", "write `letter Q`"),
            ("1 M", "has no unit"),
            ("1.5/2 in", "is not a number"),
            ("18", "a length needs its unit, as in `18 mm`"),
            ("18.", "as in `18 mm`"),
            ("1/8", "as in `1/8 in`"),
            ("18 ± 0.3", "as in `18 ± 0.3 mm`"),
        ] {
            assert!(length(typed).contains(says), "{typed}: {}", length(typed));
        }
        let force = "2 ton".parse::<Written<Newton>>().unwrap_err().to_string();
        assert!(force.contains("2240 lbf), short") && force.contains("write `kN` or `lbf`"), "{force}");
        for (typed, says) in [
            ("Rz 6.3 um", "only Ra is read here"),
            ("N7", "a roughness grade is not read here"),
            ("0.8 um", "write the parameter before the figure: `Ra 0.8 um`"),
            ("63 uin", "write the parameter before the figure: `Ra 63 uin`"),
            ("Ra 1.6", "a roughness needs its unit, as in `Ra 1.6 um` or `Ra 1.6 uin`"),
            ("1.6", "a roughness needs its unit, as in `Ra 1.6 um` or `Ra 1.6 uin`"),
        ] {
            let said = typed.parse::<Written<Roughness>>().unwrap_err().to_string();
            assert!(said.contains(says), "{typed}: {said}");
        }
        let range = "25.40 to 25.42 mm".parse::<Measured<Mm>>().unwrap_err().to_string();
        assert!(range.contains("give one figure, with ± for its doubt"), "{range}");
        // What is measured has no limits, and no message advises them.
        let dashed = serde_json::from_str::<Measured<Mm>>("\"18-19 mm\"").unwrap_err().to_string();
        assert!(dashed.contains("no limits stand here") && !dashed.contains("limits are written"), "{dashed}");
        let feeds = |text: &str| serde_json::from_str::<Steps<MmPerRev>>(text).unwrap_err().to_string();
        for typed in ["\"0.05\"", "0.05"] {
            assert!(feeds(typed).contains("`0.06 0.10 0.16 mm/rev`"), "{typed}: {}", feeds(typed));
        }
        // None of the figures is lost in what is said.
        let said = feeds("\".002 .004 .006 .010\"");
        assert!(said.contains("as in `.002 .004 .006 .010 mm/rev` or `.002 .004 .006 .010 in/rev`"), "{said}");
        let bare = |text: &str| text.parse::<Written<Newton>>().unwrap_err().to_string();
        assert_eq!(bare("300"), "a force needs its unit, as in `300 N` or `300 lbf`");
        let plate: Result<Steps<RevPerMin>, _> = serde_json::from_str("\"38, 62, 100 rev/min\"");
        let said = plate.unwrap_err().to_string();
        assert!(said.contains("stand apart by spaces alone: `38 62 100 rev/min`"), "{said}");
    }
}
