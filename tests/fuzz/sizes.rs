//! Sizes, and whatever else is read out of one text: what must hold of each.

use setover::handbook::joints::fits::Class;
use setover::handbook::materials::cleaners::Cleaner;
use setover::handbook::rigging::Aspect;
use setover::handbook::{BoltClass, Fit, InsertLength, Material, StateKind, Thread, ToolMaterial};
use setover::job::{Address, Service};
use setover::proof::Place;
use setover::quantity::{
    Angle, Celsius, ClockTime, Date, Decimals, Expansion, ForceShift, Form, Hardness, KiloWatt, Kilogram, MPerMin,
    MPerS, Measured, Minutes, Misread, Mm, Mm2, Mm4, MmPerMin, MmPerRev, Moment, Newton, NewtonMetre, Print, Quantity,
    Ratio, Removal, RevPerMin, Roughness, Rounds, Row, Shift, Shown, SpringRate, Steps, Stress, Tpi, Unit, Volume,
    Wanted, Warmth, Weekdays, Written, shown,
};
use setover::reading::Node;
use setover::shop::{Axis, ReamedHole};
use std::fmt::Display;
use std::str::FromStr;

/// A size, in every quantity, and whatever else is read out of one text.
pub fn size(bytes: &[u8]) {
    let Ok(text) = std::str::from_utf8(bytes) else { return };
    // What ends in no unit of a kind is refused in much the same words, slowly: a run in sixteen is enough for that.
    let sum = bytes.iter().fold(0_u8, |sum, byte| sum.wrapping_add(*byte));
    let all = sum.is_multiple_of(16);
    for read in [
        quantity::<Mm>,
        quantity::<Shift>,
        quantity::<Roughness>,
        quantity::<Angle>,
        quantity::<Celsius>,
        quantity::<Warmth>,
        quantity::<Newton>,
        quantity::<ForceShift>,
        quantity::<NewtonMetre>,
        quantity::<SpringRate>,
        quantity::<Stress>,
        quantity::<KiloWatt>,
        quantity::<Kilogram>,
        quantity::<Minutes>,
        quantity::<MPerMin>,
        quantity::<MmPerMin>,
        quantity::<MPerS>,
        quantity::<Volume>,
        quantity::<MmPerRev>,
        quantity::<RevPerMin>,
        quantity::<Expansion>,
        quantity::<Mm2>,
        quantity::<Mm4>,
        quantity::<Removal>,
        quantity::<Tpi>,
        quantity::<Ratio>,
    ] {
        read(text, all);
    }
    if all || text.ends_with(['m', 'n', 'g', 'u']) {
        row::<Mm>(text);
        row::<Shift>(text);
        row::<Angle>(text);
    }
    prints_twice(text, |hardness: &Hardness| hardness.number > 1e-3);
    prints_twice(text, |fit: &Fit| fit.nominal.is_none_or(|size| size > 1e-3));
    again::<Address>(text);
    // A name that is not known is held against thousands.
    if sum.is_multiple_of(128) {
        read_or_said::<Thread>(text);
        read_or_said::<Material>(text);
        read_or_said::<BoltClass>(text);
        read_or_said::<Cleaner>(text);
        read_or_said::<StateKind>(text);
        read_or_said::<Aspect>(text);
        read_or_said::<Axis>(text);
        read_or_said::<ReamedHole>(text);
        read_or_said::<Service>(text);
        read_or_said::<InsertLength>(text);
        read_or_said::<ToolMaterial>(text);
        read_or_said::<Weekdays>(text);
    }
    if let Ok(class) = text.parse::<Class>() {
        deviations(&class, text);
    }
    again::<ClockTime>(text);
    again::<Moment>(text);
    if let Ok(date) = text.parse::<Date>() {
        assert_eq!(date.plus(1).number(), date.number() + 1, "{text:?} is no day of the calendar");
        again::<Date>(text);
    }
    let steps = Node::text(Place::start(0), text);
    if (all || text.ends_with("rpm") || text.ends_with("rev/min"))
        && let Ok(steps) = steps.read::<Steps<RevPerMin>>()
    {
        let all: Vec<f64> = steps.iter().map(Quantity::number).collect();
        assert!(all.is_sorted() && all.iter().all(|step| step.is_finite()), "{text:?}: {all:?}");
    }
}

/// A size is finite with all that stands beside it, within its limits, and is the same when it is written out and read again.
fn quantity<Q: Quantity>(text: &str, all: bool) {
    let is_kind = |text: &str| match Q::SPELLINGS {
        [] => text.ends_with(|c: char| c.is_ascii_digit()),
        all => all.iter().any(|spelling| text.ends_with(spelling.text)),
    };
    if !all && !is_kind(text.trim_end()) {
        return;
    }
    let written = match text.parse::<Written<Q>>() {
        Ok(written) => written,
        Err(fault) => return assert!(!fault.to_string().is_empty()),
    };
    let value = written.value.number();
    assert!(value.is_finite(), "{text:?}: {value}");
    assert!(written.grain.is_none_or(|grain| grain >= 0.0 && grain.is_finite()), "{text:?}: {:?}", written.grain);
    match written.form {
        Form::Plain => assert!(value >= Q::LEAST, "{text:?}: {value}"),
        Form::PlusMinus(doubt) => {
            assert!(doubt >= 0.0 && doubt.is_finite(), "{text:?}: {doubt}");
            printed::<Q>(value, Some(doubt), text);
        }
        Form::Deviations(up, down) => {
            assert!(up >= 0.0 && down >= 0.0 && (up + down).is_finite(), "{text:?}: {up} {down}")
        }
        Form::Span(high) => assert!(high >= value && high.is_finite(), "{text:?}: {high}"),
    }
    match text.parse::<Measured<Q>>() {
        Ok(measured) => {
            assert!(measured.value.number() == value, "{text:?}");
            assert!(
                measured.plus_minus.is_none_or(|doubt| doubt >= 0.0 && doubt.is_finite()),
                "{text:?}: {measured:?}"
            );
        }
        // What is advised can be read.
        Err(Misread::OneFigure { as_in: Some(advised) }) => {
            let read = advised.parse::<Measured<Q>>();
            assert!(read.is_ok(), "{text:?} is to be written {advised:?}, which is refused: {read:?}");
        }
        Err(_) => {}
    }
    if let Ok(wanted) = text.parse::<Wanted<Q>>() {
        let (low, high) = (wanted.low.number(), wanted.high.number());
        assert!(low <= high && low.is_finite() && high.is_finite(), "{text:?}: {wanted:?}");
        assert!(low >= Q::LEAST, "{text:?}: {wanted:?}");
        window::<Q>(low, high, text);
    }
    if let Some(again) = typed_again::<Q>(&value.to_string()) {
        assert!((again - value).abs() <= 1e-12 * value.abs(), "{text:?} is {value}, and read again {again}");
    }
    printed::<Q>(value, None, text);
}

/// A number with the unit held, which is the first of its spellings or none, read as a size.
fn typed_again<Q: Quantity>(number: &str) -> Option<f64> {
    let unit = Q::SPELLINGS.iter().find(|spelling| (spelling.up, spelling.down, spelling.zero) == (1, 1, 0));
    let unit = unit.map_or("", |unit| unit.text);
    let written = format!("{} {number} {unit}", Q::BEFORE).parse::<Written<Q>>();
    written.ok().map(|written| written.value.number())
}

/// How far a printed figure may be off its last place: the dust of binary fractions.
const DUST: f64 = 2e-6;

/// The number that is printed, and one of its last place.
fn of_digits(shown: &Shown) -> (f64, f64) {
    let number = shown.number.to_string().replace('−', "-");
    (number.parse().unwrap_or(f64::NAN), 10_f64.powi(-(shown.number.fraction.len() as i32)))
}

/// A printed figure is finite, near what it was, on the side that it is rounded to, and prints the same when it is read again.
fn printed<Q: Quantity>(value: f64, doubt: Option<f64>, text: &str) {
    for print in [Print::Metric, Print::Imperial, Print::Both] {
        let says = shown(value, doubt, Q::UNIT, Rounds::Nearest, print);
        assert!(!says.contains("NaN") && !says.contains("inf"), "{text:?} prints as {says}");
    }
    let metric = |number: f64, rounds| of_digits(&Shown::usual(number, None, Q::UNIT, rounds, Print::Metric));
    // Beyond this the places of a float are no thousandths.
    if doubt.is_some() || value.abs() >= 1e9 {
        return;
    }
    let (near, step) = metric(value, Rounds::Nearest);
    // Of an estimate three digits count.
    let off = (0.51 * step).max(0.00502 * value.abs());
    assert!((near - value).abs() <= off, "{text:?} is {value} and prints as {near}");
    let dust = DUST * step.max(value.abs() * 0.01) + 1e-12 * value.abs();
    let (up, down) = (metric(value, Rounds::Up).0, metric(value, Rounds::Down).0);
    assert!(up >= value - dust && down <= value + dust, "{text:?}: {value} is {down} down and {up} up");
    if let Some(again) = typed_again::<Q>(&near.to_string()) {
        assert_eq!(metric(again, Rounds::Nearest).0, near, "{text:?} prints as {near}, and read again otherwise");
    }
}

/// No limit of a printed window is bettered by rounding.
fn window<Q: Quantity>(low: f64, high: f64, text: &str) {
    if low.abs().max(high.abs()) >= 1e9 {
        return;
    }
    for print in [Print::Metric, Print::Imperial] {
        let (least, most) = Shown::window(low, high, Q::UNIT, Decimals::Usual, print);
        let ((least, step), (most, _)) = (of_digits(&least), of_digits(&most));
        let factor = match (print, Q::UNIT) {
            (Print::Metric, _) => 1.0,
            (_, Unit::Mm) => 1.0 / 25.4,
            _ => continue,
        };
        let (low, high) = (low * factor, high * factor);
        let dust = DUST * step.max(high.abs().max(low.abs()) * 0.01) + 1e-12 * high.abs().max(low.abs());
        assert!(least >= low - dust && most <= high + dust, "{text:?}: {low} to {high} prints as {least} to {most}");
    }
}

/// Readings in a row are finite, and so is the last digit of the coarsest.
fn row<Q: Quantity>(text: &str) {
    let row = match text.parse::<Row<Q>>() {
        Ok(row) => row,
        Err(fault) => return assert!(!fault.is_empty()),
    };
    let reads: Vec<f64> = row.reads.iter().flatten().map(|read| read.number()).collect();
    assert!(reads.iter().all(|read| read.is_finite() && *read >= Q::LEAST), "{text:?}: {reads:?}");
    assert!(row.grain.is_finite() && row.grain >= 0.0 && row.greatest().is_finite(), "{text:?}: {row:?}");
    assert!(row.numbers().is_none_or(|all| all == reads), "{text:?}: {row:?}");
}

/// What a class allows is finite and the right way round at any size.
fn deviations(class: &Class, text: &str) {
    for size in [0.0, 0.5, 3.0, 10.0, 47.3, 500.0, 3150.0, 1e6] {
        let Ok(deviations) = class.deviations(size) else { continue };
        let (lower, upper) = (deviations.lower, deviations.upper);
        assert!(lower.is_finite() && upper.is_finite() && lower <= upper, "{text:?} at {size}: {deviations:?}");
    }
}

/// What is not read is refused in words.
fn read_or_said<T: FromStr>(text: &str)
where
    T::Err: Display,
{
    if let Err(fault) = text.parse::<T>() {
        assert!(!fault.to_string().is_empty(), "{text:?} is refused without a word");
    }
}

/// What is read is the same when it is printed and read again.
fn again<T: FromStr + Display + PartialEq>(text: &str)
where
    T::Err: Display,
{
    match text.parse::<T>() {
        Ok(read) => assert!(read.to_string().parse::<T>().is_ok_and(|again| again == read), "{text:?} is {read}"),
        Err(fault) => assert!(!fault.to_string().is_empty(), "{text:?} is refused without a word"),
    }
}

/// What is read prints the same when it is printed and read again, where its figures are none that print as nought.
fn prints_twice<T: FromStr + Display>(text: &str, is_seen: impl Fn(&T) -> bool)
where
    T::Err: Display,
{
    match text.parse::<T>() {
        Ok(read) if is_seen(&read) => {
            let says = read.to_string();
            let again = says.parse::<T>().map(|again| again.to_string());
            assert!(again.as_ref().is_ok_and(|again| *again == says), "{text:?} is {says}, and read again not");
        }
        Ok(_) => {}
        Err(fault) => assert!(!fault.to_string().is_empty(), "{text:?} is refused without a word"),
    }
}
