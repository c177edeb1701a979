//! Readings of a bore: a row of diameters for each axis, named as one likes.

use crate::job::Reading;
use crate::proof::At;
use crate::quantity::{Angle, Celsius, Mm, Row, Shift};
use schemars::{JsonSchema, Schema, SchemaGenerator};
use serde::Deserialize;
use serde::de::{Deserializer, Error, MapAccess, Visitor};
use std::borrow::Cow;
use std::fmt;

/// What is read.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub(super) enum ReadAs {
    /// Diameters, across.
    Diameter,
    /// Radii, from the gauge's own axis.
    Radius,
}

/// The readings.
#[derive(Clone, Debug)]
pub(super) struct Readings {
    /// The gauge; left out, the shop's for such a size.
    pub(super) with: Option<At<String>>,
    /// How warm the part was; left out, 20 degC.
    pub(super) at: Option<At<Celsius>>,
    /// How warm the gauge was; left out, it is taken to be at 20 °C.
    pub(super) gauge_at: Option<At<Celsius>>,
    /// The depths, from the top.
    pub(super) depths: At<Row<Mm>>,
    /// The axes, each with a reading at every depth, in the order typed.
    pub(super) axes: Vec<(String, At<Row<Shift>>)>,
    /// What was read as radii, where it was.
    pub(super) radii: Option<Radii>,
}

/// Radii from the gauge's own axis.
#[derive(Clone, Debug)]
pub(super) struct Radii {
    /// Radius at the nought of the indicator (measured).
    pub(super) from: At<Reading>,
    /// The angles, degrees.
    pub(super) angles: At<Row<Angle>>,
    /// A row of readings at every angle for each depth.
    pub(super) reads: Vec<At<Row<Shift>>>,
}

impl Readings {
    /// At how many places it is read.
    pub(super) fn places(&self) -> usize {
        let round = self.radii.as_ref().map_or(self.axes.len(), |radii| radii.angles.value.reads.len());
        round * self.depths.value.reads.len()
    }

    /// The gauge of diameters, where one is named.
    pub(super) fn bore_gauge(&self) -> Option<&At<String>> {
        self.with.as_ref().filter(|_| self.radii.is_none())
    }

    /// Every row of readings.
    pub(super) fn rows(&self) -> impl Iterator<Item = &At<Row<Shift>>> {
        let radii = self.radii.iter().flat_map(|radii| &radii.reads);
        self.axes.iter().map(|axis| &axis.1).chain(radii)
    }
}

impl<'de> Deserialize<'de> for Readings {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        struct Keys;
        impl<'de> Visitor<'de> for Keys {
            type Value = Readings;
            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                write!(f, "readings such as `{{kind: diameter, depths: 15 55 95 mm, thrust: … mm, pin: … mm}}`")
            }
            fn visit_map<A: MapAccess<'de>>(self, mut entries: A) -> Result<Readings, A::Error> {
                let (mut kind, mut with, mut at, mut gauge_at, mut depths) = (None, None, None, None, None);
                let (mut from, mut angles, mut reads) = (None, None, None);
                let mut axes = Vec::new();
                while let Some(key) = entries.next_key::<String>()? {
                    match key.as_str() {
                        "kind" => kind = Some(entries.next_value::<ReadAs>()?),
                        "with" => with = Some(entries.next_value()?),
                        "at" => at = Some(entries.next_value()?),
                        "gauge-at" => gauge_at = Some(entries.next_value()?),
                        "depths" => depths = Some(entries.next_value()?),
                        "from" => from = Some(entries.next_value()?),
                        "angles" => angles = Some(entries.next_value()?),
                        "reads" => reads = Some(entries.next_value()?),
                        _ => {
                            if let Some(meant) = slip(&key) {
                                let says = format!(
                                    "an axis may have any name, but `{key}` looks like a slip: did you mean `{meant}`?"
                                );
                                return Err(A::Error::custom(says));
                            }
                            axes.push((key, entries.next_value()?));
                        }
                    }
                }
                let kind = kind.ok_or_else(|| A::Error::missing_field("kind"))?;
                let depths = depths.ok_or_else(|| A::Error::missing_field("depths"))?;
                let radii = match (kind, from, angles, reads) {
                    (ReadAs::Diameter, None, None, None) => None,
                    (ReadAs::Diameter, ..) => {
                        return Err(A::Error::custom("`from`, `angles` and `reads` go with `kind: radius`"));
                    }
                    (ReadAs::Radius, Some(from), Some(angles), Some(reads)) if axes.is_empty() => {
                        Some(Radii { from, angles, reads })
                    }
                    (ReadAs::Radius, None, ..) if axes.is_empty() => return Err(A::Error::missing_field("from")),
                    (ReadAs::Radius, _, None, _) if axes.is_empty() => return Err(A::Error::missing_field("angles")),
                    (ReadAs::Radius, _, _, None) if axes.is_empty() => return Err(A::Error::missing_field("reads")),
                    (ReadAs::Radius, ..) => {
                        return Err(A::Error::custom(
                            "radii have `from`, `angles` and `reads`, a row for each depth, and no diameters beside them",
                        ));
                    }
                };
                Ok(Readings { with, at, gauge_at, depths, axes, radii })
            }
        }
        from.deserialize_map(Keys)
    }
}

/// The key that a name is one letter off: an axis is called as one likes, but a slip of the pen is none. A number behind it is no slip.
fn slip(name: &str) -> Option<&'static str> {
    const KNOWN: [&str; 9] = ["kind", "with", "gauge-at", "depths", "thrust", "pin", "from", "angles", "reads"];
    let is_near = |known: &&&str| strsim::osa_distance(name, known) == 1;
    KNOWN.iter().find(is_near).copied().filter(|_| !name.ends_with(|c: char| c.is_ascii_digit()))
}

/// The keys that a newcomer is told of: any further key is an axis too.
#[derive(JsonSchema)]
#[schemars(rename_all = "kebab-case")]
#[expect(dead_code, reason = "its schema alone is asked for")]
struct Told {
    /// What is read.
    kind: ReadAs,
    /// The gauge; left out, the shop's for such a size.
    with: Option<At<String>>,
    /// How warm the part was; left out, 20 degC.
    at: Option<At<Celsius>>,
    /// How warm the gauge was; left out, it is taken to be at 20 °C.
    gauge_at: Option<At<Celsius>>,
    /// The depths, from the top.
    depths: At<Row<Mm>>,
    /// Diameters across the crankshaft, one at every depth (measured); left out, radii are given.
    thrust: Option<At<Row<Shift>>>,
    /// Diameters along the crankshaft, one at every depth (measured); left out, radii are given.
    pin: Option<At<Row<Shift>>>,
    /// Of radii: the radius at the indicator's nought (measured); left out, diameters are given.
    from: Option<At<Reading>>,
    /// Of radii: the angles that they were read at; left out, diameters are given.
    angles: Option<At<Row<Angle>>>,
    /// Of radii: a row for each depth, a reading at every angle (measured); left out, diameters are given.
    reads: Option<Vec<At<Row<Shift>>>>,
}

impl JsonSchema for Readings {
    fn schema_name() -> Cow<'static, str> {
        "BoreReadings".into()
    }
    fn json_schema(generator: &mut SchemaGenerator) -> Schema {
        let mut schema = Told::json_schema(generator);
        let axis = generator.subschema_for::<Row<Shift>>();
        schema.insert("additionalProperties".into(), axis.to_value());
        schema
    }
}
