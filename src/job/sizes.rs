//! Sizes as somebody wrote them, by their place: a sheet says `1 1/2 in` to whoever wrote that.

use crate::proof::Place;
use crate::quantity::{Form, Mm, Quantity, Written};
use crate::reading::Node;

/// A size as it was written.
#[derive(Clone, Debug, PartialEq)]
pub struct WrittenSize {
    /// Its number letter by letter, `1 1/2`; nothing where it has a doubt or limits.
    pub nominal: Option<Box<str>>,
    /// Its unit as a sheet sets it.
    pub unit: &'static str,
    /// Whether that is an inch or thousandths of one.
    pub is_inch: bool,
    /// The size; of a span its lower end, mm.
    pub mm: f64,
}

impl WrittenSize {
    /// What a text says, where it is a size.
    fn read(text: &str) -> Option<Self> {
        if !text.bytes().any(|byte| byte.is_ascii_digit()) {
            return None;
        }
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
        let nominal = (written.form == Form::Plain).then(|| digits.into());
        // 127 is in an inch of 25.4 mm, and in no unit of millimetres.
        Some(Self { nominal, unit, is_inch: spelling.up % 127 == 0, mm: written.value.number() })
    }
}

/// Every size of a job as it was written.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct WrittenSizes {
    /// In the order of their places.
    sizes: Vec<(Place, WrittenSize)>,
}

impl WrittenSizes {
    /// The sizes of a tree.
    pub(super) fn of(node: &Node) -> Self {
        let texts = node.texts().into_iter();
        let mut sizes: Vec<(Place, WrittenSize)> =
            texts.filter_map(|(text, place)| Some((place, WrittenSize::read(text)?))).collect();
        sizes.sort_by_key(|size| size.0);
        Self { sizes }
    }

    /// These and those of another text.
    pub(super) fn and(mut self, other: Self) -> Self {
        self.sizes.extend(other.sizes);
        self.sizes.sort_by_key(|size| size.0);
        self
    }

    /// What was written at a place, where that is a size.
    #[must_use]
    pub fn at(&self, place: Place) -> Option<&WrittenSize> {
        let at = self.sizes.binary_search_by_key(&place, |size| size.0).ok()?;
        self.sizes.get(at).map(|size| &size.1)
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
        let said: Vec<(Option<&str>, &str, bool)> =
            sizes.sizes.iter().map(|(_, size)| (size.nominal.as_deref(), size.unit, size.is_inch)).collect();
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
