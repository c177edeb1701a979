//! Sizes as somebody wrote them, by their place: a sheet says `1 1/2 in` to whoever wrote that.

use crate::proof::Place;
use crate::quantity::{Form, Mm, Quantity, Written};
use crate::reading::Node;
use std::sync::Arc;

/// A size as it was written.
#[derive(Clone, Debug, PartialEq)]
pub struct WrittenSize<'a> {
    /// Its number letter by letter, `1 1/2`; nothing where it has a doubt or limits.
    pub nominal: Option<&'a str>,
    /// Its unit as a sheet sets it.
    pub unit: &'static str,
    /// Whether that is an inch or thousandths of one.
    pub is_inch: bool,
    /// The size; of a span its lower end, mm.
    pub mm: f64,
}

impl<'a> WrittenSize<'a> {
    /// What a text says, where it is a size.
    fn read(text: &'a str) -> Option<Self> {
        let text = text.trim();
        let units = Mm::SPELLINGS.iter().filter(|unit| text.ends_with(unit.text));
        let spelling = units.max_by_key(|unit| unit.text.len())?;
        let written: Written<Mm> = text.parse().ok()?;
        let unit = match spelling.text {
            "inch" | "inches" | "\"" | "″" => "in",
            "tho" => "thou",
            "um" | "μm" => "µm",
            other => other,
        };
        let digits = text.strip_suffix(spelling.text)?.trim_end();
        let nominal = (written.form == Form::Plain).then_some(digits);
        // 127 is in an inch of 25.4 mm, and in no unit of millimetres.
        Some(Self { nominal, unit, is_inch: spelling.up % 127 == 0, mm: written.value.number() })
    }
}

/// Every size of a job as it was written: few are asked for, and each is read when it is.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct WrittenSizes {
    /// Texts with a figure, in the order of their places.
    texts: Arc<[(Place, Box<str>)]>,
}

impl WrittenSizes {
    /// The sizes of a tree.
    pub(super) fn of(node: &Node) -> Self {
        let has_figure = |text: &str| text.bytes().any(|byte| byte.is_ascii_digit());
        let texts = node.texts().into_iter().filter(|(text, _)| has_figure(text));
        Self::ordered(texts.map(|(text, place)| (place, text.into())).collect())
    }

    /// These and those of another text.
    pub(super) fn and(self, other: &Self) -> Self {
        Self::ordered(self.texts.iter().chain(&*other.texts).cloned().collect())
    }

    fn ordered(mut texts: Vec<(Place, Box<str>)>) -> Self {
        texts.sort_by_key(|text| text.0);
        Self { texts: texts.into() }
    }

    /// What was written at a place, where that is a size.
    #[must_use]
    pub fn at(&self, place: Place) -> Option<WrittenSize<'_>> {
        let at = self.texts.binary_search_by_key(&place, |text| text.0).ok()?;
        self.texts.get(at).and_then(|text| WrittenSize::read(&text.1))
    }
}

#[cfg(test)]
mod tests {
    use super::WrittenSizes;
    use crate::proof::Place;
    use crate::reading::Node;

    #[test]
    fn a_size_is_found_by_its_place_as_it_was_written() {
        let text = "a: 1 1/2 in\nb: {c: 0.75 ± 0.01 in, d: 22 mm}\ne: [9 thou, mild steel]\nf: 3/8\"\n";
        let node = Node::yaml(text, Place::start(3)).unwrap();
        let sizes = WrittenSizes::of(&node);
        let read = sizes.texts.iter().filter_map(|(place, _)| sizes.at(*place));
        let said: Vec<(Option<&str>, &str, bool)> = read.map(|size| (size.nominal, size.unit, size.is_inch)).collect();
        let wanted = [
            (Some("1 1/2"), "in", true),
            (None, "in", true),
            (Some("22"), "mm", false),
            (Some("9"), "thou", true),
            (Some("3/8"), "in", true),
        ];
        assert_eq!(said, wanted);
        assert_eq!(sizes.at(Place::start(3)), None);
    }
}
