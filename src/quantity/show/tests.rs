//! How figures come out in the units of print.

use super::*;

fn near(number: f64, doubt: Option<f64>, unit: Unit, print: Print) -> String {
    shown(number, doubt, unit, Rounds::Nearest, print)
}

#[test]
fn figures_have_no_tail_and_no_negative_zero() {
    assert_eq!(figure(208.907_512), "208.908");
    assert_eq!(figure(13.0), "13");
    assert_eq!(figure(-0.000_000_01), "0");
    assert_eq!(figure(0.000_123_4), "0.000123");
}

#[test]
fn the_parts_of_a_figure_are_apart_until_they_are_set() {
    let shown = Shown::usual(-25.4, Some(0.01), Unit::Mm, Rounds::Nearest, Print::Both);
    assert!(shown.number.negative);
    assert_eq!((shown.number.whole.as_str(), shown.number.fraction.as_str(), shown.unit), ("25", "400", "mm"));
    assert_eq!(shown.doubt.as_ref().unwrap().to_string(), "0.010");
    assert_eq!(shown.beside.as_ref().unwrap().to_string(), "−1.0000 ± 0.0004 in");
    assert_eq!(shown.alone().to_string(), "−25.400 ± 0.010 mm");
}

#[test]
fn units_follow_the_shop() {
    let to =
        |number, decimals, print| Shown::of(number, None, Unit::Mm, (decimals, Rounds::Nearest), print).to_string();
    assert_eq!(near(25.4, None, Unit::Mm, Print::Imperial), "1.0000 in");
    assert_eq!(near(25.4, Some(0.01), Unit::Mm, Print::Both), "25.400 ± 0.010 mm (1.0000 ± 0.0004 in)");
    assert_eq!(near(430.0, None, Unit::RevPerMin, Print::Imperial), "430 rev/min");
    assert_eq!(near(-0.0001, None, Unit::Mm, Print::Metric), "0.000 mm");
    assert_eq!(to(8.25, Decimals::Exactly(1), Print::Imperial), "0.3248 in");
    assert_eq!(to(0.27, Decimals::AsTyped, Print::Metric), "0.27 mm");
}

#[test]
fn a_doubt_has_two_figures_rounded_up_and_its_figure_the_same_decimals() {
    for (number, doubt, said) in [
        (15.929_46, 0.005_32, "15.929 ± 0.006 mm"),
        (21.55, 0.014_142, "21.550 ± 0.015 mm"),
        (2.476, 0.360_6, "2.48 ± 0.37 mm"),
        (18.0, 0.3, "18.00 ± 0.30 mm"),
        (7.0, 0.0996, "7.00 ± 0.10 mm"),
        (7.0, 0.1, "7.00 ± 0.10 mm"),
        (3.0, 12.2, "3 ± 13 mm"),
        (0.000_93, 0.000_001_2, "0.001 ± 0.001 mm"),
    ] {
        assert_eq!(near(number, Some(doubt), Unit::Mm, Print::Metric), said);
    }
    // Forces and stresses are not read finer for a small doubt, and no doubt prints as none.
    assert_eq!(near(2464.2, Some(0.3), Unit::N, Print::Metric), "2460 ± 10 N");
    assert_eq!(near(50.9, Some(0.01), Unit::MPa, Print::Metric), "50.9 ± 0.1 MPa");
    assert_eq!(near(15_706.0, Some(132.4), Unit::N, Print::Metric), "15700 ± 200 N");
}

#[test]
fn a_lower_limit_rounds_up_and_an_upper_one_down() {
    let of = |mm, rounds| shown(mm, None, Unit::Mm, rounds, Print::Metric);
    assert_eq!(of(20.042_37, Rounds::Down), "20.042 mm");
    assert_eq!(of(20.042_97, Rounds::Down), "20.042 mm");
    assert_eq!(of(20.021_63, Rounds::Up), "20.022 mm");
    assert_eq!(of(8.270_633, Rounds::Up), "8.271 mm");
    assert_eq!(of(8.483, Rounds::Down), "8.483 mm");
    assert_eq!(of(16.009_44, Rounds::Up), "16.010 mm");
    // Degrees never round over a stop, in either system.
    assert_eq!(shown(149.96, None, Unit::DegC, Rounds::Down, Print::Metric), "149 °C");
    assert_eq!(shown(150.0, None, Unit::DegC, Rounds::Down, Print::Imperial), "302 °F");
    assert_eq!(shown(149.9, None, Unit::DegC, Rounds::Down, Print::Imperial), "301 °F");
}

#[test]
fn a_limit_of_a_table_is_exact_or_rounded_inwards() {
    let of = |mm, upper| shown(mm, None, Unit::Mm, if upper { Rounds::Down } else { Rounds::Up }, Print::Both);
    assert_eq!(of(24.9895, false), "24.9895 mm (0.9839 in)");
    assert_eq!(of(25.0105, true), "25.0105 mm (0.9846 in)");
    assert_eq!(of(25.4, true), "25.400 mm (1.0000 in)");
}

#[test]
fn a_window_is_rounded_inwards_and_never_closes() {
    let of = |low, high, decimals, print| {
        let (low, high) = Shown::window(low, high, Unit::Mm, decimals, print);
        format!("{low} to {high}")
    };
    let metric = |low, high| of(low, high, Decimals::Usual, Print::Metric);
    assert_eq!(metric(16.0124, 16.0318), "16.013 mm to 16.031 mm");
    assert_eq!(metric(16.021_9, 16.022_3), "16.0219 mm to 16.0223 mm");
    assert_eq!(metric(16.021_92, 16.022_28), "16.0220 mm to 16.0222 mm");
    assert_eq!(metric(8.270_633, 8.483), "8.271 mm to 8.483 mm");
    assert_eq!(of(16.0124, 16.0318, Decimals::Usual, Print::Imperial), "0.6305 in to 0.6311 in");
    assert_eq!(of(16.021_9, 16.022_3, Decimals::Usual, Print::Imperial), "0.630784 in to 0.630799 in");
    for at in 0..2_000 {
        let (low, width) = (10.0 + f64::from(at) * 0.000_517, 0.000_1 + f64::from(at % 40) * 0.000_3);
        for (print, inch) in [(Print::Metric, 1.0), (Print::Imperial, 25.4)] {
            let (least, most) = Shown::window(low, low + width, Unit::Mm, Decimals::Exactly(3), print);
            let number = |shown: Shown| shown.number.to_string().parse::<f64>().unwrap() * inch;
            let (least, most) = (number(least), number(most));
            assert!(low - 1e-7 <= least && least < most && most <= low + width + 1e-7, "{low} {width}");
        }
    }
}

#[test]
fn a_difference_of_temperatures_has_no_other_zero() {
    let of = |number, unit, print| Shown::apart(number, unit, (Decimals::Usual, Rounds::Up), print).to_string();
    assert_eq!(near(100.0, Some(10.0), Unit::DegC, Print::Imperial), "212 ± 18 °F");
    assert_eq!(of(10.0, Unit::DegC, Print::Imperial), "18 °F");
    assert_eq!(of(10.0, Unit::DegC, Print::Metric), "10 °C");
    let typed = |print| Shown::apart(10.0, Unit::DegC, (Decimals::AsTyped, Rounds::Up), print).to_string();
    assert_eq!([Print::Metric, Print::Imperial].map(typed), ["10 °C", "18 °F"]);
}

#[test]
fn a_margin_that_is_there_is_never_printed_as_nought() {
    let of = |number, rounds| Shown::apart(number, Unit::Mm, (Decimals::Usual, rounds), Print::Metric).to_string();
    assert_eq!(of(-0.000_4, Rounds::Down), "−0.001 mm");
    assert_eq!(of(0.000_4, Rounds::Down), "0.0004 mm");
    assert_eq!(of(0.0, Rounds::Down), "0.000 mm");
    assert_eq!(of(1.115_9, Rounds::Down), "1.115 mm");
}

/// A force, a torque, a power is an estimate: three digits that count at most, in either system, each rounded its own way; a size
/// keeps its own.
#[test]
fn an_estimate_has_three_digits_at_most() {
    assert_eq!(shown(6_564.0, None, Unit::N, Rounds::Up, Print::Metric), "6570 N");
    assert_eq!(shown(11_129.0, None, Unit::N, Rounds::Down, Print::Metric), "11100 N");
    assert_eq!(shown(11_129.0, None, Unit::N, Rounds::Up, Print::Imperial), "2510 lbf");
    assert_eq!(near(17.82, None, Unit::Nm, Print::Metric), "17.8 N·m");
    assert_eq!(near(1.2345, None, Unit::KW, Print::Metric), "1.23 kW");
    assert_eq!(near(1_234.567, None, Unit::Mm, Print::Metric), "1234.567 mm");
    for at in 1..4_000_u32 {
        let number = 10_f64.powf(f64::from(at) * 0.618_034 % 1.0 * 6.0 - 1.0);
        for (unit, print) in [(Unit::N, Print::Metric), (Unit::Nm, Print::Metric), (Unit::KW, Print::Metric)] {
            for (rounds, is_so) in [(Rounds::Up, 1.0), (Rounds::Down, -1.0)] {
                let printed = Shown::usual(number, None, unit, rounds, print).number;
                let digits = format!("{}{}", printed.whole, printed.fraction);
                let count = digits.trim_start_matches('0').trim_end_matches('0').len();
                let off = (printed.number() - number) * is_so;
                assert!(count <= 3, "{number} {unit:?}: {printed}");
                assert!(off >= -1e-6 * number, "{number} {rounds:?}: {printed}");
                let step = 10_f64.powi(-(unit.decimals() as i32));
                assert!(off <= (0.0101 * number).max(step), "{number} {rounds:?}: {printed}");
            }
        }
    }
}

/// A micrometre or two is less than the last place of an inch: a limit of it is not printed as nought.
#[test]
fn what_is_not_nought_is_not_printed_as_nought_in_inches() {
    let inch = |mm: f64| shown(mm, None, Unit::Mm, Rounds::Nearest, Print::Imperial);
    assert_eq!(inch(0.0009), "0.00004 in");
    assert_eq!(inch(-0.0009), "−0.00004 in");
    assert_eq!(inch(0.0), "0.0000 in");
    assert_eq!(inch(0.0254), "0.0010 in");
}

/// A step of roughness has one name in each unit, at a limit as at a figure.
#[test]
fn a_step_of_roughness_is_called_as_it_is_in_inches() {
    for (um, called) in [(3.2, "125"), (1.6, "63"), (0.8, "32"), (6.3, "250")] {
        assert_eq!(near(um, None, Unit::Um, Print::Imperial), format!("{called} µin"));
        let most = Shown::window(um - 1.0, um, Unit::Um, Decimals::Usual, Print::Imperial).1;
        assert_eq!(most.number.to_string(), called);
    }
    assert_eq!(near(2.0, None, Unit::Um, Print::Imperial), "79 µin");
    assert_eq!(near(3.2, None, Unit::Um, Print::Metric), "3.2 µm");
}

#[test]
fn what_was_written_stands_as_it_was_written() {
    let typed = |number| Shown::typed(number, Unit::Mm, Rounds::Nearest, Print::Imperial).to_string();
    assert_eq!(typed(203.2), "8 in");
    assert_eq!(typed(38.1), "1.5 in");
    assert_eq!(typed(40.0), "1.575 in");
    assert_eq!(typed(0.1), "0.0039 in");
    let drawn = |number, print| as_written(number, (Unit::Mm, Decimals::AsTyped), print);
    assert_eq!(drawn(40.0, Print::Imperial), Print::Metric);
    assert_eq!(drawn(203.2, Print::Imperial), Print::Imperial);
    assert_eq!(drawn(0.1, Print::Imperial), Print::Imperial);
}

#[test]
fn inches_say_no_more_than_the_millimetres_that_were_asked_for() {
    let to = |number, places| {
        Shown::of(number, None, Unit::Mm, (Decimals::Exactly(places), Rounds::Down), Print::Imperial).to_string()
    };
    assert_eq!(to(3.74, 2), "0.147 in");
    assert_eq!(to(3.741, 3), "0.1472 in");
    assert_eq!(to(100.0, 0), "3.93 in");
}

#[test]
fn a_stress_in_psi_has_three_digits() {
    let psi = |number, doubt| {
        Shown::of(number, doubt, Unit::MPa, (Decimals::Usual, Rounds::Down), Print::Imperial).to_string()
    };
    assert_eq!(psi(196.37, None), "28400 psi");
    assert_eq!(psi(-99.35, None), "−14500 psi");
}

#[test]
fn limits_of_roughness_have_their_names() {
    let (low, high) = Shown::window(0.2, 0.8, Unit::Um, Decimals::Usual, Print::Metric);
    assert_eq!((low.to_string(), high.to_string()), ("0.2 µm".to_owned(), "0.8 µm".to_owned()));
}
