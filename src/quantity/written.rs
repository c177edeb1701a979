//! The ways the trade writes a size: `25.4 mm`, `1 3/8 in`, `0.02 ± 0.005 mm`, `14.2 +0.1/-0.05 mm`, `1 .. 2 thou`.

use super::aside::beside;
use super::both_sides::in_order;
use super::exact::Fraction;
use super::misread::Misread;
use super::plain::{TO, in_our_units, other_unit, signs, small_letters, two_meanings};
use super::{Kind, Quantity, Spelling, Unit, drawer};

/// How a size was written.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Form {
    /// `25.4 mm`.
    Plain,
    /// `25.4 ± 0.01 mm`; the half-width, in the unit held.
    PlusMinus(f64),
    /// `25.4 +0.1/-0.05 mm`; what is added and taken off, both not negative.
    Deviations(f64, f64),
    /// `25.4 .. 25.6 mm`; the upper end (the value is the lower).
    Span(f64),
}

/// A size as it was written, in the unit held.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Written<Q> {
    /// The size; for a span its lower end.
    pub value: Q,
    /// The form it came in.
    pub form: Form,
    /// One unit of the last digit typed; none for a fraction.
    pub grain: Option<f64>,
}

impl<Q: Quantity> std::str::FromStr for Written<Q> {
    type Err = Misread;

    fn from_str(typed: &str) -> Result<Self, Misread> {
        read(Q::KIND, typed).map(Written::of)
    }
}

impl Written<f64> {
    /// The same as the quantity that its number is.
    pub(super) fn of<Q: Quantity>(self) -> Written<Q> {
        Written { value: Q::new(self.value), form: self.form, grain: self.grain }
    }
}

/// A size of a kind, its number in the unit held.
pub(super) fn read(kind: &Kind, typed: &str) -> Result<Written<f64>, Misread> {
    let text = signs(typed.trim());
    if kind.unit == Unit::Mm
        && let Some(inches) = drawer::inches(&text)
    {
        return Ok(Written { grain: Some(0.0), ..read_exactly(kind, &inches?)? });
    }
    read_exactly(kind, &text).or_else(|fault| {
        let others = [small_letters(kind, &text), in_our_units(kind, &text), in_order(&text)];
        let read = others.into_iter().flatten().find_map(|other| read_exactly(kind, &other).ok());
        read.ok_or_else(|| {
            let reads = |part: &str| read_exactly(kind, part).is_ok();
            // What is told for its unit or its sign is told better than for a word beside it.
            let is_plain = matches!(fault, Misread::Unit { .. } | Misread::Number(..) | Misread::Units(_, None));
            let told = if is_plain { beside(kind, &text, &reads) } else { None };
            told.unwrap_or(fault)
        })
    })
}

fn read_exactly(kind: &Kind, text: &str) -> Result<Written<f64>, Misread> {
    if text.contains(',') {
        return Err(comma(text));
    }
    if let Some(meanings) = two_meanings(kind, text) {
        return Err(meanings);
    }
    let before = || match cut_unit(kind, text) {
        Some(_) => Misread::Before { before: kind.before, text: text.into() },
        // What is written as it would be told stands.
        None => no_unit(kind, text),
    };
    let bare = after_word(kind, text).ok_or_else(before)?;
    let (digits, unit) = cut_unit(kind, bare).ok_or_else(|| no_unit(kind, text))?;
    let of_figures_alone = parts_of_figures(digits);
    if of_figures_alone.is_none() && !has_one_unit(kind, digits, unit) {
        return Err(Misread::Units(text.into(), in_one_unit(kind, text)));
    }
    let size = |part: &str| size(part, unit);
    let written = if let Some((figure, None)) = of_figures_alone {
        let (value, grain) = size(figure)?;
        Written { value, form: Form::Plain, grain }
    } else if let Some((figure, Some(doubt))) = of_figures_alone {
        let value = size(figure)?;
        Written { value: value.0, form: Form::PlusMinus(length_of(doubt, unit)?), grain: value.1 }
    } else if let Some((low, high)) = digits.split_once(TO) {
        let (low, high) = (size(low)?, size(high)?);
        if high.0 < low.0 {
            return Err(Misread::Order(text.into()));
        }
        Written { value: low.0, form: Form::Span(high.0), grain: low.1 }
    } else if let Some((value, doubt)) = digits.split_once('±').or_else(|| digits.split_once("+/-")) {
        // A doubt alone (`± 0.2 mm`) is a doubt about nothing typed.
        let value = if value.trim().is_empty() { (0.0, None) } else { size(value)? };
        let doubt = length_of(doubt, unit)?;
        Written { value: value.0, form: Form::PlusMinus(doubt), grain: value.1 }
    } else if let Some((value, up, down)) = deviations(digits) {
        let (value, up, down) = (size(value)?, length_of(up, unit)?, length_of(down, unit)?);
        Written { value: value.0, form: Form::Deviations(up, down), grain: value.1 }
    } else {
        let (value, grain) = size(digits)?;
        Written { value, form: Form::Plain, grain }
    };
    let least = written.value - if let Form::Deviations(_, down) = written.form { down } else { 0.0 };
    if least < kind.least || !least.is_finite() {
        return Err(Misread::Impossible { what: kind.what, text: text.into() });
    }
    Ok(written)
}

/// Most sizes are a figure, or one with its doubt: no sign in them has to be looked for, and no further unit can stand in them.
fn parts_of_figures(digits: &str) -> Option<(&str, Option<&str>)> {
    let is_figure = |part: &str| {
        let part = part.trim();
        let points = part.bytes().filter(|byte| *byte == b'.').count();
        !part.is_empty() && points < 2 && part.bytes().all(|byte| byte.is_ascii_digit() || byte == b'.')
    };
    match digits.split_once('±') {
        Some((figure, doubt)) => (is_figure(figure) && is_figure(doubt)).then_some((figure, Some(doubt))),
        None => is_figure(digits).then_some((digits, None)),
    }
}

/// What stands after the word that goes before (`Ra`, `ra`).
fn after_word<'a>(kind: &Kind, text: &'a str) -> Option<&'a str> {
    let (word, rest) = text.split_at_checked(kind.before.len())?;
    word.eq_ignore_ascii_case(kind.before).then(|| rest.trim_start())
}

/// Sizes that stand with commas as they stand in a list: the unit that they all have once, behind the last.
fn listed(text: &str) -> String {
    let sizes: Vec<&str> = text.split(", ").map(str::trim).collect();
    let unit = |size: &str| size.rsplit_once(' ').map(|(_, unit)| unit.to_owned());
    let Some((last, before)) = sizes.split_last() else { return String::new() };
    let shared = unit(last).filter(|own| before.iter().all(|size| unit(size).as_ref() == Some(own)));
    let bare = |size: &&str| match &shared {
        Some(unit) => size.strip_suffix(unit.as_str()).unwrap_or(size).trim_end().to_owned(),
        None => (*size).to_owned(),
    };
    before.iter().map(bare).chain([(*last).to_owned()]).collect::<Vec<_>>().join(" ")
}

/// `12,5 mm` has a decimal comma; three figures behind it may as well be the rest of a thousand.
fn comma(text: &str) -> Misread {
    if text.contains(", ") {
        return Misread::Listed(listed(text));
    }
    let mut parts = text.split(',');
    let first = parts.next().unwrap_or_default();
    let head = first.trim_start_matches(['±', '+', '-', '−', ' ']);
    // No thousands begin with a nought.
    let is_head = head.chars().all(|c| c.is_ascii_digit()) && !head.starts_with('0');
    let of_thousands = |part: &str| {
        let figures = part.chars().take_while(char::is_ascii_digit).count();
        figures == 3 && !part.get(figures..).unwrap_or_default().starts_with('.')
    };
    // `1.250,5` and `1,250.5`: the last sign is the decimal one, what stands before it parts thousands.
    let with_point = match (text.rfind(','), text.rfind('.')) {
        (Some(comma), Some(point)) if comma > point => text.replace('.', "").replace(',', "."),
        (Some(_), Some(_)) => text.replace(',', ""),
        _ => text.replace(',', "."),
    };
    match is_head && parts.all(of_thousands) {
        true => Misread::Thousands { text: text.into(), whole: text.replace(',', ""), point: with_point },
        false => Misread::Comma(with_point),
    }
}

/// The unit that a doubt without one is likely to be meant in: nobody reads a size to ± 10 inches.
fn unit_of_the_doubt(text: &str, last: &str, of_size: &'static str) -> &'static str {
    let is_large =
        text.contains('±') && last.trim_start_matches('±').trim().parse::<f64>().is_ok_and(|last| last >= 1.0);
    match of_size {
        "in" if is_large => "thou",
        "mm" if is_large => "um",
        of_size => of_size,
    }
}

fn no_unit(kind: &Kind, text: &str) -> Misread {
    if let (Some(first), last) = parts(text)
        && let Some((_, unit)) = cut_unit(kind, first.trim())
    {
        let unit = unit_of_the_doubt(text, last.trim(), unit.text);
        return Misread::OfWhat { last: last.trim().into(), text: text.into(), unit };
    }
    if let Some(other) = other_unit(kind, text) {
        return other;
    }
    let figures = after_word(kind, text).unwrap_or(text);
    let is_bare = figures.contains(|c: char| c.is_ascii_digit())
        && figures.chars().all(|c| c.is_ascii_digit() || matches!(c, '.' | '/' | ' ' | '±' | '+' | '-'));
    if is_bare && kind.unit != Unit::One {
        return Misread::without_unit(kind, figures.into());
    }
    let mut units: Vec<&str> = kind.spellings.iter().map(|s| s.text).collect();
    units.dedup();
    if let Some(unit) = units.first().filter(|_| ["none", "nothing", "nil", "nought", "no"].contains(&text.trim())) {
        return Misread::SaidToBeNone { text: text.into(), unit };
    }
    Misread::Unit { text: text.into(), what: kind.what, units: units.join(", ") }
}

/// Cuts the unit off the end; the longest spelling wins (`mm` before `m`).
fn cut_unit<'a>(kind: &Kind, text: &'a str) -> Option<(&'a str, Spelling)> {
    if kind.spellings.is_empty() {
        return Some((text, Spelling { text: "", up: 1, down: 1, zero: 0 }));
    }
    kind.spellings
        .iter()
        .filter_map(|unit| Some((text.strip_suffix(unit.text)?.trim_end(), *unit)))
        .min_by_key(|(digits, _)| digits.len())
}

/// A size whose doubt has a unit of its own (`1 1/4 in ± 5 thou`) with the unit of the size behind both.
fn in_one_unit(kind: &Kind, text: &str) -> Option<String> {
    let (figure, doubt) = text.split_once('±')?;
    let ((figure, of_figure), (doubt, of_doubt)) = (cut_unit(kind, figure.trim())?, cut_unit(kind, doubt.trim())?);
    if of_figure.text.is_empty() || of_doubt.text.is_empty() || of_figure.zero != 0 || size(figure, of_figure).is_err()
    {
        return None;
    }
    let doubt = length_of(doubt, of_doubt).ok()? * of_figure.down as f64 / of_figure.up as f64;
    let doubt = super::figure((doubt * 1e7).round() / 1e7);
    Some(format!("{} ± {doubt} {}", figure.trim(), of_figure.text))
}

/// No figure before the last unit has another; the same unit may stand behind each figure (`18 mm ± 0.3 mm`).
fn has_one_unit(kind: &Kind, digits: &str, unit: Spelling) -> bool {
    let is_unit = |word: &str| kind.spellings.iter().any(|unit| !unit.text.is_empty() && unit.text == word);
    let alone = |part: &str| {
        let ends_in_none = cut_unit(kind, part.trim()).is_none_or(|(_, own)| own.text.is_empty());
        ends_in_none && !part.split_whitespace().any(is_unit)
    };
    let (first, last) = parts(digits);
    let first = match first.map(str::trim) {
        Some(first) => first.strip_suffix(unit.text).unwrap_or(first),
        None => "",
    };
    alone(first) && alone(last)
}

/// What stands before and after the sign between two figures.
fn parts(digits: &str) -> (Option<&str>, &str) {
    let cut = [TO, "±", "+/-"].iter().find_map(|sign| digits.split_once(sign));
    let cut = cut.or_else(|| deviations(digits).map(|(size, ..)| (size, digits.get(size.len()..).unwrap_or_default())));
    cut.map_or((None, digits), |(first, last)| (Some(first), last))
}

/// One size, behind which the unit of the whole may stand again, and one unit of its last digit.
fn size(part: &str, unit: Spelling) -> Result<(f64, Option<f64>), Misread> {
    let part = part.trim();
    let digits = if unit.text.is_empty() { part } else { part.strip_suffix(unit.text).unwrap_or(part).trim_end() };
    if digits.is_empty() {
        return Err(Misread::Nothing);
    }
    let read = Fraction::read(digits).ok_or_else(|| Misread::Number(part.into(), unit.text))?;
    let moved = Fraction { up: read.up - unit.zero * read.down, ..read };
    let grain = read.decimal.then(|| Fraction { up: 1, ..read }.times(unit.up, unit.down));
    Ok((moved.times(unit.up, unit.down), grain))
}

/// A difference (a doubt, a deviation): the zero of a temperature scale does not count.
fn length_of(part: &str, unit: Spelling) -> Result<f64, Misread> {
    let (value, _) = size(part, Spelling { zero: 0, ..unit })?;
    if value < 0.0 { Err(Misread::Number(part.trim().into(), unit.text)) } else { Ok(value) }
}

/// `14.2 +0.1/-0.05` and `14.2 +0.1 -0.05` in their three parts.
fn deviations(text: &str) -> Option<(&str, &str, &str)> {
    let start = text.char_indices().skip(1).find(|(_, c)| matches!(c, '+')).map(|(i, _)| i)?;
    let (value, rest) = text.split_at(start);
    let (up, down) = rest.strip_prefix('+')?.split_once(['-', '−'])?;
    Some((value, up.trim_end().trim_end_matches('/'), down))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{
        Angle, Celsius, KiloWatt, Kilogram, MPerMin, Minutes, Mm, MmPerRev, Newton, NewtonMetre, RevPerMin, Roughness,
        SpringRate, Stress, Tpi,
    };

    fn mm(text: &str) -> Written<Mm> {
        text.parse().unwrap_or_else(|e| panic!("{text}: {e}"))
    }

    #[test]
    fn every_form_is_read() {
        assert_eq!(mm("0.02 ± 0.005 mm").form, Form::PlusMinus(0.005));
        assert_eq!(mm("14.2 +0.1/-0.05 mm").form, Form::Deviations(0.1, 0.05));
        assert_eq!(mm("0.025 .. 0.045 mm").form, Form::Span(0.045));
        assert_eq!(mm("1 .. 2 thou").value.number(), 0.0254);
        assert_eq!(mm("1/2\"").value.number(), 12.7);
        assert_eq!(mm("1 3/8 in").grain, None);
        assert_eq!(mm("12.50 mm").grain, Some(0.01));
    }

    #[test]
    fn spellings_share_their_bits() {
        for (a, b) in
            [("9 thou", "0.2286 mm"), ("0.0090 in", "228.6 um"), ("1/64 in", "0.396875 mm"), ("2.54 cm", "1 in")]
        {
            assert_eq!(mm(a).value.number().to_bits(), mm(b).value.number().to_bits(), "{a} {b}");
        }
    }

    #[test]
    fn other_units_are_exact() {
        let torque = |t: &str| t.parse::<Written<NewtonMetre>>().unwrap().value.number();
        assert!((torque("10 lbf·ft") - 13.558_179_483_314_004).abs() < 1e-12);
        assert_eq!("1 hp".parse::<Written<KiloWatt>>().unwrap().value.number(), 0.7457);
        assert_eq!("212 degF".parse::<Written<Celsius>>().unwrap().value.number(), 100.0);
        assert_eq!("Ra 32 uin".parse::<Written<Roughness>>().unwrap().value.number(), 0.8128);
    }

    /// Every spelling that the trade's list has, with what one of it is in the unit held.
    #[test]
    fn every_unit_of_the_list_is_read() {
        fn one<Q: Quantity>(cases: &[(&str, f64)]) {
            for (text, wanted) in cases {
                let read = text.parse::<Written<Q>>().unwrap_or_else(|e| panic!("{text}: {e}")).value.number();
                assert!((read - wanted).abs() <= 1e-12 * wanted.abs().max(1.0), "{text}: {read}, not {wanted}");
            }
        }
        one::<Mm>(&[("1 mm", 1.0), ("1 cm", 10.0), ("1 m", 1000.0), ("1 um", 0.001), ("1 µm", 0.001), ("1 μm", 0.001)]);
        one::<Mm>(&[("1 in", 25.4), ("1\"", 25.4), ("1 thou", 0.0254), ("1/2 in", 12.7), ("1 3/8 in", 34.925)]);
        one::<Angle>(&[("60 deg", 60.0), ("60°", 60.0)]);
        one::<Celsius>(&[("20 degC", 20.0), ("20 °C", 20.0), ("68 degF", 20.0)]);
        one::<Newton>(&[("1 N", 1.0), ("1 kN", 1000.0), ("1 lbf", 4.448_221_615_260_5)]);
        one::<NewtonMetre>(&[("1 N·m", 1.0), ("1 Nm", 1.0)]);
        one::<NewtonMetre>(&[("1 lbf·ft", 1.355_817_948_331_400_4), ("1 lbf·in", 0.112_984_829_027_616_7)]);
        one::<SpringRate>(&[("9 N/mm", 9.0)]);
        one::<Stress>(&[("1 MPa", 1.0), ("1 N/mm2", 1.0), ("1 psi", 0.006_894_757_293_168_361)]);
        one::<KiloWatt>(&[("1 W", 0.001), ("1 kW", 1.0), ("1 hp", 0.7457)]);
        one::<MPerMin>(&[("25 m/min", 25.0), ("100 ft/min", 30.48)]);
        one::<MmPerRev>(&[("0.1 mm/rev", 0.1), ("0.01 in/rev", 0.254), ("1 thou/rev", 0.0254)]);
        one::<RevPerMin>(&[("430 rev/min", 430.0)]);
        one::<Roughness>(&[("Ra 0.8 um", 0.8), ("Ra 0.8 µm", 0.8), ("Ra 32 uin", 0.8128)]);
        one::<Tpi>(&[("26 tpi", 26.0)]);
        one::<Minutes>(&[("1 min", 1.0), ("1.5 h", 90.0)]);
        one::<Kilogram>(&[("11 kg", 11.0)]);
    }

    #[test]
    fn one_size_has_one_unit() {
        for text in [
            "18 in mm",
            "0.7 in thou",
            "18 mm mm",
            "18 mm in",
            "18 ± 0.3 in mm",
            "18 in ± 0.3 mm",
            "1 in .. 2 mm",
            "18 in mm ± 0.3 mm",
            "14.2 +0.1 in/-0.05 mm",
            "1/2 in \"",
            "1 m mm",
            "± 0.2 in mm",
        ] {
            let read = text.parse::<Written<Mm>>();
            assert!(read.is_err(), "{text}: {read:?}");
        }
        assert_eq!(
            "18 in mm".parse::<Written<Mm>>().unwrap_err().to_string(),
            "one size has one unit: `18 in mm` has two"
        );
        for (typed, one) in [
            ("1.1/4 in ± 5 thou", "1.1/4 ± 0.005 in"),
            ("18 mm ± 0.001 in", "18 ± 0.0254 mm"),
            ("1 in ± 20 um", "1 ± 0.000787 in"),
        ] {
            let says = typed.parse::<Written<Mm>>().unwrap_err().to_string();
            assert!(says.ends_with(&format!("has two; write `{one}`")), "{says}");
            assert!(mm(one).value.number() > 0.0);
        }
        assert!("212 degF ± 10 degC".parse::<Written<Celsius>>().is_err());
        assert_eq!(mm("18.0 mm ± 0.3 mm"), mm("18.0 ± 0.3 mm"));
        assert_eq!(mm("1 mm .. 2 mm"), mm("1 .. 2 mm"));
        let oven = "212 degF ± 18 degF".parse::<Written<Celsius>>().unwrap();
        assert_eq!((oven.value.number(), oven.form), (100.0, Form::PlusMinus(10.0)));
    }

    #[test]
    fn what_is_wrong_is_said() {
        let says = |t: &str| t.parse::<Written<Mm>>().unwrap_err().to_string();
        assert_eq!(says("12,5 mm"), "the decimal sign is a point: `12.5 mm`");
        assert_eq!(says("12.5"), "a length needs its unit, as in `12.5 mm` or `12.5 in`");
        assert_eq!(says("-3 mm"), "a length cannot be -3 mm");
        assert_eq!(says("2 .. 1 mm"), "the lower end comes first: `2 to 1 mm`");
        assert!(says("1e999 mm").contains("is not a number"));
        assert_eq!(
            "0.8 um".parse::<Written<Roughness>>().unwrap_err().to_string(),
            "write the parameter before the figure: `Ra 0.8 um`"
        );
    }
}
