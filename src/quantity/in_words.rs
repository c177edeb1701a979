//! Figures inside a sentence, with their inch units behind them or in their place.

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
    told(text, |metric, inch| format!("{metric} ({inch})"))
}

/// A sentence with the inch figure in the place of each of its metric figures.
pub fn in_inches(text: &str) -> String {
    told(text, |metric, inch| {
        let open = metric.len() - metric.trim_start_matches('(').len();
        format!("{}{inch}", "(".repeat(open))
    })
}

/// A sentence with what `say` makes of each metric figure and the same in inch units.
fn told(text: &str, say: impl Fn(&str, &str) -> String) -> String {
    let mut out: Vec<String> = Vec::new();
    let mut before: Option<f64> = None;
    for word in text.split(' ') {
        let bare = word.trim_end_matches([',', ';', ':', '.', ')']);
        let unit = UNITS.iter().find(|(text, _)| *text == bare).map(|(_, unit)| *unit);
        let behind = word.strip_prefix(bare).unwrap_or_default();
        match before.zip(unit).and_then(|(number, unit)| in_other_unit(number, unit)) {
            Some(inch) => {
                let figure = out.pop().unwrap_or_default();
                out.push(say(&format!("{figure} {bare}"), &inch.to_string()) + behind);
            }
            None => out.push(word.to_owned()),
        }
        // What a comma parts belongs to no unit behind it.
        before = if word == bare { bare.trim_start_matches('(').replace('−', "-").parse().ok() } else { None };
    }
    out.join(" ")
}

#[cfg(test)]
mod tests {
    use super::{in_inches, with_inch};

    #[test]
    fn each_metric_figure_has_its_inch_behind_it() {
        assert_eq!(
            with_inch("up to whole divisions of 0.02 mm: 15 divisions, 0.3 mm"),
            "up to whole divisions of 0.02 mm (0.0008 in): 15 divisions, 0.3 mm (0.0118 in)"
        );
        assert_eq!(with_inch("a blade cuts square to its feed: 90°"), "a blade cuts square to its feed: 90°");
        assert_eq!(with_inch("k = 2, mm by mm"), "k = 2, mm by mm");
    }

    #[test]
    fn in_the_place_of_each_metric_figure_stands_its_inch() {
        assert_eq!(
            in_inches("the grip is longer than the part (8.001 mm), or 25.4 mm: mend it"),
            "the grip is longer than the part (0.3150 in), or 1.0000 in: mend it"
        );
        assert_eq!(in_inches("k = 2, mm by mm"), "k = 2, mm by mm");
    }
}
