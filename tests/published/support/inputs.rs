//! What a row gives, read by the program's own reader of sizes: `major_in=0.25` is `0.25 in`.

use setover::proof::Worked;
use setover::quantity::{
    Angle, Celsius, Expansion, Form, KiloWatt, Kilogram, MPerMin, Mm, MmPerRev, Newton, Quantity, Ratio, RevPerMin,
    Roughness, Stress, Written,
};
use std::collections::BTreeMap;

/// What a row gives, by key.
pub struct Inputs(BTreeMap<String, String>);

impl Inputs {
    /// Reads `key=value;key=value`.
    pub fn read(text: &str) -> Self {
        let pair = |part: &str| {
            let (key, value) = part.split_once('=').unwrap_or_else(|| panic!("`{part}` is no key=value"));
            (key.trim().to_owned(), value.trim().to_owned())
        };
        Self(text.split(';').map(pair).collect())
    }

    /// A word.
    pub fn text(&self, key: &str) -> Option<&str> {
        self.0.get(key).map(String::as_str)
    }

    /// A plain number.
    pub fn plain(&self, key: &str) -> Result<f64, String> {
        let text = self.text(key).ok_or_else(|| format!("`{key}` is not given"))?;
        text.parse().map_err(|_| format!("`{key}={text}` is no number"))
    }

    /// A plain number, or what is meant where it is left out.
    pub fn plain_or(&self, key: &str, otherwise: f64) -> f64 {
        self.plain(key).unwrap_or(otherwise)
    }

    /// A pure number.
    pub fn ratio(&self, key: &str) -> Result<Worked<Ratio>, String> {
        self.plain(key).map(of)
    }

    /// A length, in whatever unit the row gives it; without one the figures of the row share a unit, and mm do.
    pub fn length(&self, key: &str) -> Result<Worked<Mm>, String> {
        if self.text(key).is_some() {
            return self.plain(key).map(of);
        }
        let nanometres = format!("{key}_nm");
        if self.text(&nanometres).is_some() {
            return self.plain(&nanometres).map(|nm| of(nm / 1e6));
        }
        self.sized(key, &[("mm", "mm"), ("in", "in"), ("um", "um")])
    }

    /// A pitch, from itself or from threads per inch.
    pub fn pitch(&self) -> Result<Worked<Mm>, String> {
        if self.text("tpi").is_some() { self.plain("tpi").map(|tpi| of(25.4 / tpi)) } else { self.length("pitch") }
    }

    /// A stress, pressure or modulus.
    pub fn stress(&self, key: &str) -> Result<Worked<Stress>, String> {
        if self.text(&format!("{key}_mpsi")).is_some() {
            return self.plain(&format!("{key}_mpsi")).map(|mpsi| of(mpsi * 6_894.757_293_168_361));
        }
        self.sized(key, &[("mpa", "MPa"), ("gpa", "GPa"), ("n_mm2", "MPa"), ("psi", "psi")])
    }

    /// A roughness, Ra.
    pub fn roughness(&self, key: &str) -> Result<Worked<Roughness>, String> {
        self.plain(&format!("{key}_um")).map(of)
    }

    /// A thermal expansion, given per kelvin.
    pub fn expansion(&self, key: &str) -> Result<Worked<Expansion>, String> {
        self.plain(&format!("{key}_per_k")).map(|per_k| of(per_k * 1e6))
    }

    /// A temperature or a difference of two.
    pub fn celsius(&self, key: &str) -> Result<Worked<Celsius>, String> {
        let keys = [format!("{key}_degc"), format!("{key}_c"), format!("{key}_k")];
        let found = keys.iter().find(|key| self.text(key).is_some());
        self.plain(found.ok_or_else(|| format!("`{key}` is not given"))?).map(of)
    }

    /// A force.
    pub fn force(&self, key: &str) -> Result<Worked<Newton>, String> {
        self.sized(key, &[("n", "N"), ("lbf", "lbf")])
    }

    /// A power.
    pub fn power(&self, key: &str) -> Result<Worked<KiloWatt>, String> {
        self.sized(key, &[("w", "W"), ("hp", "hp")])
    }

    /// A mass.
    pub fn mass(&self, key: &str) -> Result<Worked<Kilogram>, String> {
        self.sized(key, &[("kg", "kg"), ("g", "g")])
    }

    /// A feed for a turn.
    pub fn feed(&self) -> Result<Worked<MmPerRev>, String> {
        self.sized("f", &[("mm_rev", "mm/rev"), ("in_rev", "in/rev")])
    }

    /// A cutting speed.
    pub fn speed(&self) -> Result<Worked<MPerMin>, String> {
        self.sized("v", &[("m_min", "m/min"), ("ft_min", "ft/min")])
    }

    /// A spindle speed.
    pub fn turns(&self, key: &str) -> Result<Worked<RevPerMin>, String> {
        self.sized(key, &[("rpm", "rpm")])
    }

    /// An angle.
    pub fn angle(&self, key: &str) -> Result<Worked<Angle>, String> {
        self.sized(key, &[("deg", "deg")])
    }

    fn sized<Q: Quantity>(&self, key: &str, endings: &[(&str, &str)]) -> Result<Worked<Q>, String> {
        let given = endings.iter().find_map(|(ending, unit)| Some((self.text(&format!("{key}_{ending}"))?, unit)));
        let (digits, unit) = given.ok_or_else(|| format!("`{key}` is not given"))?;
        let text = format!("{digits} {unit}");
        let written: Written<Q> = text.parse().map_err(|e| format!("{text}: {e}"))?;
        match written.form {
            Form::Plain => Ok(of(written.value.number())),
            _ => Err(format!("{text} is no plain size")),
        }
    }
}

/// A figure as the row gives it.
pub fn of<Q: Quantity>(number: f64) -> Worked<Q> {
    Worked::assumed(Q::new(number), "given in print")
}
