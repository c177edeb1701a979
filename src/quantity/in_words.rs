//! Figures inside a sentence, with their inch units behind them.

use super::{Unit, in_other_unit};

/// The units as a sentence has them.
const UNITS: [(&str, Unit); 13] = [
    ("mm", Unit::Mm),
    ("mm/rev", Unit::MmPerRev),
    ("mm/min", Unit::MmPerMin),
    ("N", Unit::N),
    ("N·m", Unit::Nm),
    ("N/mm", Unit::NPerMm),
    ("MPa", Unit::MPa),
    ("N/mm²", Unit::MPa),
    ("kW", Unit::KW),
    ("kg", Unit::Kg),
    ("m/min", Unit::MPerMin),
    ("degC", Unit::DegC),
    ("°C", Unit::DegC),
];

/// A sentence with the inch figure in brackets behind each of its metric figures.
pub fn with_inch(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut before: Option<f64> = None;
    for (nth, word) in text.split(' ').enumerate() {
        if nth > 0 {
            out.push(' ');
        }
        let bare = word.trim_end_matches([',', ';', ':', '.', ')']);
        let unit = UNITS.iter().find(|(text, _)| *text == bare).map(|(_, unit)| *unit);
        out += bare;
        if let Some(inch) = before.zip(unit).and_then(|(number, unit)| in_other_unit(number, unit)) {
            out += &format!(" ({inch})");
        }
        out += word.strip_prefix(bare).unwrap_or_default();
        // What a comma parts belongs to no unit behind it.
        before = if word == bare { bare.trim_start_matches('(').replace('−', "-").parse().ok() } else { None };
    }
    out
}

#[cfg(test)]
mod tests {
    use super::with_inch;

    #[test]
    fn each_metric_figure_has_its_inch_behind_it() {
        assert_eq!(
            with_inch("up to whole divisions of 0.02 mm: 15 divisions, 0.3 mm"),
            "up to whole divisions of 0.02 mm (0.0008 in): 15 divisions, 0.3 mm (0.0118 in)"
        );
        assert_eq!(with_inch("a blade cuts square to its feed: 90°"), "a blade cuts square to its feed: 90°");
        assert_eq!(with_inch("k = 2, mm by mm"), "k = 2, mm by mm");
    }
}
