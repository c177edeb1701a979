//! The threads of the book: handles looked up by name, with what defines each and what was read of its limits.

use super::thread_form::Form;
use super::thread_meant::{Named, asked_back};
use super::thread_names::normal;
pub use super::thread_rows::Series;
use super::thread_rows::{Row, rows, table};
use super::thread_strength as strength;
use crate::proof::{Refusal, Worked};
use crate::quantity::{Mm, Mm2, Quantity, figure};
use crate::reading::near;
use serde::{Deserialize, Deserializer};

/// The first number of a name. No spelling changes it: who looks a name up need not read the rows of other numbers.
fn first_number(name: &str) -> &str {
    let digit = |c: char| c.is_ascii_digit();
    let from = name.find(digit).map_or("", |at| name.get(at..).unwrap_or_default());
    from.split(|c| !digit(c)).next().unwrap_or_default()
}

/// A thread of the book: a handle that was looked up when it was read.
#[derive(Clone, Copy, Debug)]
pub struct Thread(&'static Row, Option<&'static Row>);

impl PartialEq for Thread {
    fn eq(&self, other: &Self) -> bool {
        std::ptr::eq(self.0, other.0)
    }
}

impl Thread {
    /// Every thread of the book.
    pub fn all() -> impl Iterator<Item = Self> {
        table().map(|row| Self(row, None))
    }

    /// The row.
    pub fn row(self) -> &'static Row {
        self.0
    }

    /// Its designation.
    pub fn name(self) -> &'static str {
        &self.0.designation
    }

    /// The thread of another form that has the same size and as many threads an inch, where no series was typed to tell the two
    /// apart (`5/16-18` is UNC, and BSW).
    pub fn also_meant(self) -> Option<&'static str> {
        self.1.map(|row| row.designation.as_str())
    }

    /// Its form.
    pub fn form(self) -> Form {
        self.0.form
    }

    /// Major diameter.
    pub fn major(self) -> Worked<Mm> {
        let inch = if self.0.tpi.is_some() { format!(" ({} in)", figure(self.0.major / 25.4)) } else { String::new() };
        self.figure(self.0.major, &format!("major diameter {} mm{inch}", figure(self.0.major)))
    }

    /// Pitch.
    pub fn pitch(self) -> Worked<Mm> {
        let tpi = self.0.tpi.map(|tpi| format!(" ({} tpi)", figure(tpi))).unwrap_or_default();
        self.figure(self.0.pitch, &format!("pitch {} mm{tpi}", figure(self.0.pitch)))
    }

    /// Basic pitch diameter.
    ///
    /// # Errors
    /// As [`Form::pitch_diameter`].
    pub fn pitch_diameter(self) -> Result<Worked<Mm>, Refusal> {
        self.form().pitch_diameter(&self.major(), &self.pitch())
    }

    /// Basic minor diameter.
    ///
    /// # Errors
    /// As [`Form::minor_diameter`].
    pub fn minor_diameter(self) -> Result<Worked<Mm>, Refusal> {
        self.form().minor_diameter(&self.major(), &self.pitch())
    }

    /// Tensile stress area of a bolt of this thread.
    ///
    /// # Errors
    /// [`Refusal::Outside`] where the size is no bolt.
    pub fn stress_area(self) -> Result<Worked<Mm2>, Refusal> {
        match self.form() {
            Form::Iso => strength::stress_area_metric(&self.major(), &self.pitch()),
            Form::Unified => strength::stress_area_inch(&self.major(), &self.pitch()),
            Form::Whitworth | Form::Ba | Form::Cycle => {
                strength::stress_area_mean(&self.pitch_diameter()?, &self.minor_diameter()?)
            }
        }
    }

    /// The tapping drill of the table, where it has one; where lists disagree, with their band.
    pub fn tap_drill(self) -> Option<Worked<Mm>> {
        let (drill, source) = (self.0.tap_drill?, self.0.drill_source.clone()?);
        let named =
            if self.0.tap_drill_name.is_empty() { String::new() } else { format!(" ({})", self.0.tap_drill_name) };
        let says = format!("{}: tapping drill {} mm{named}", self.name(), figure(drill));
        let listed = Worked::row(Mm::new(drill), says, source);
        let others = other_list(&self.0.note);
        let (low, high) = others.iter().fold((drill, drill), |(low, high), d| (low.min(*d), high.max(*d)));
        Some(if low < high { listed.with_band(low, high) } else { listed })
    }

    /// The least minor diameter of its nut, where its row was read.
    pub fn minor_limit_least(self) -> Option<Worked<Mm>> {
        let [least, ..] = self.0.limits;
        least.map(|least| self.limit(least, "least minor diameter"))
    }

    /// The greatest minor diameter of its nut, where its row was read.
    pub fn minor_limit_most(self) -> Option<Worked<Mm>> {
        let [_, most, ..] = self.0.limits;
        most.map(|most| self.limit(most, "greatest minor diameter"))
    }

    fn limit(self, number: f64, what: &str) -> Worked<Mm> {
        let says = format!("{}: {what} {} mm", self.name(), figure(number));
        Worked::row(Mm::new(number), says, self.0.limits_source.clone())
    }

    fn figure(self, number: f64, says: &str) -> Worked<Mm> {
        Worked::row(Mm::new(number), format!("{}: {says}", self.name()), self.0.source.clone())
    }
}

/// The drills of another list, as the remark of a row keeps them ("another list: 5.4 mm", "another list: 3.3 soft, 3.5 hard metal").
fn other_list(note: &str) -> Vec<f64> {
    let list = note.split(';').find_map(|part| part.trim().strip_prefix("another list: "));
    let words = list.into_iter().flat_map(|list| list.split([' ', ',']));
    words.filter_map(|word| word.parse().ok()).collect()
}

impl std::str::FromStr for Thread {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, String> {
        let wanted = normal(coarse(text).unwrap_or(text));
        let number = first_number(&wanted);
        let of_number = || rows(|name| first_number(name) == number);
        if let Some(row) = of_number().find(|row| row.keys.contains(&wanted)) {
            let bare = !wanted.contains(|c: char| c.is_alphabetic());
            let alike = |other: &&'static Row| {
                let same = (other.major - row.major).abs() < 1e-6 && (other.pitch - row.pitch).abs() < 1e-6;
                same && other.form != row.form
            };
            return Ok(Self(row, of_number().filter(|_| bare).find(alike)));
        }
        let names: Vec<Named<'_>> = table().map(Row::named).collect();
        if let Some(asked) = asked_back(text, &names) {
            return Err(asked);
        }
        let known = table().map(|row| row.designation.as_str());
        let near = near(text, known);
        let list = if near.starts_with("did you mean") { "" } else { "; `setover book threads` lists all" };
        Err(format!("the book has no thread `{text}`; {near}{list}"))
    }
}

/// `M8 coarse` is M8: the coarse series is the one that a metric size alone names.
fn coarse(text: &str) -> Option<&str> {
    let size = text.trim().strip_suffix("coarse")?.trim_end();
    let digits = size.strip_prefix(['M', 'm'])?;
    digits.parse::<f64>().is_ok().then_some(size)
}

impl<'de> Deserialize<'de> for Thread {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        String::deserialize(from)?.parse().map_err(serde::de::Error::custom)
    }
}

impl schemars::JsonSchema for Thread {
    fn schema_name() -> std::borrow::Cow<'static, str> {
        "Thread".into()
    }
    fn json_schema(_: &mut schemars::SchemaGenerator) -> schemars::Schema {
        schemars::json_schema!({ "type": "string", "description": "a thread of the book", "examples": ["M8x1.25", "1/4 BSF", "2 BA", "8-32 UNC"] })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    #[test]
    fn a_thread_has_many_names() {
        for (names, wanted) in [
            (&["M8", "M8x1.25", "m8 x 1.25", "M8×1.25"][..], "M8"),
            (&["1/4 BSF", "1/4\" BSF", "1/4-26 BSF", "1/4 x 26 BSF"], "1/4 BSF"),
            (&["No. 8-32 UNC", "8-32 UNC", "#8-32 UNC", "No 8-32", "8-32", "#8-32"], "No. 8-32 UNC"),
            (&["1/4-20", "1/4 UNC", "1/4-20 UNC"], "1/4-20 UNC"),
            (&["2BA", "2 BA", "BA 2", "No. 2 BA"], "2 BA"),
            (&["1/4 BSC", "1/4 CEI", "1/4-26 BSC", "1/4 cycle", "1/4 x 26 cycle"], "1/4-26 BSC"),
            (&["G 1/4", "1/4 BSP", "1/4 BSPP"], "1/4 BSP"),
            (&["1/4 Whitworth", "1/4 BSW"], "1/4 BSW"),
            (&["M8x1,25", "M8-1.25", "M8 - 1.25", "M8x1.250"], "M8"),
            (&["M6x1.0", "M6x1", "M6"], "M6"),
            (&["½ BSW", "1/2 BSW"], "1/2 BSW"),
            (&["BSF 1/4", "bsf 1/4\""], "1/4 BSF"),
            (&["UNC 1/4-20", "1/4 20 UNC", "1/4\" 20 tpi UNC"], "1/4-20 UNC"),
            (&["5/16 CEI", "CEI 5/16"], "5/16-26 BSC"),
        ] {
            for name in names {
                assert_eq!(name.parse::<Thread>().map(Thread::name), Ok(wanted), "{name}");
            }
        }
    }

    #[test]
    fn what_is_no_thread_by_itself_is_asked_back() {
        for (name, says) in [
            ("8mm", "is `M8` meant?"),
            ("8 mm", "is `M8` meant?"),
            ("8x1.25", "is `M8x1.25` meant (M8)?"),
            ("10x1", "is `M10x1` meant"),
            ("5/16", "`5/16-24 UNF`"),
            ("5/16", "`5/16-26 BSC` or `5/16-24 BSC`: write which"),
            ("M10 fine", "may be `M10x1.25` or `M10x1`"),
            ("1/4\" 26 tpi", "may be `1/4 BSF` or `1/4-26 BSC`"),
            ("1/4 x 26", "may be `1/4 BSF` or `1/4-26 BSC`"),
        ] {
            let said = name.parse::<Thread>().unwrap_err();
            assert!(said.contains(says), "{name}: {said}");
        }
    }

    #[test]
    fn every_other_list_is_a_band() {
        for row in table().filter(|row| row.note.contains("another list:")) {
            let others = other_list(&row.note);
            assert!(
                !others.is_empty() && others.iter().all(|d| *d < row.major && *d > row.major / 2.0),
                "{}",
                row.note
            );
        }
        let drill = |name: &str| name.parse::<Thread>().unwrap().tap_drill().unwrap().band();
        assert_eq!(drill("1/4 BSF"), Some((5.3, 5.4)));
        assert_eq!(drill("9/32 BSF"), None);
    }

    #[test]
    fn every_name_begins_with_the_number_of_its_designation() {
        for row in table() {
            let number = first_number(&row.designation);
            assert!(!number.is_empty() && row.keys.iter().all(|key| first_number(key) == number), "{:?}", row.keys);
        }
    }

    #[test]
    fn no_name_means_two_threads() {
        let geometry = |row: &Row| (row.major, row.pitch, row.form);
        for row in table() {
            for key in &row.keys {
                let others = table().filter(|other| other.keys.contains(key));
                assert!(others.into_iter().all(|other| geometry(other) == geometry(row)), "{key}: {}", row.designation);
            }
        }
    }
}
