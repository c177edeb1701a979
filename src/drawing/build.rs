//! How a sketch is put together, and what it is asked for.

use super::{Balloon, Face, Item, Point, Shows, Side, Sketch, Stroke};

impl Sketch {
    /// Adds an item on top.
    pub fn push(&mut self, item: Item) -> &mut Self {
        self.items.push(item);
        self
    }

    /// Metal cut through.
    pub fn section(&mut self, outline: Vec<Point>, hatch: u8) -> &mut Self {
        self.push(Item::Section { outline, hatch })
    }

    /// Metal that comes off.
    pub fn cut_away(&mut self, outline: Vec<Point>) -> &mut Self {
        self.push(Item::CutAway(outline))
    }

    /// A space.
    pub fn void(&mut self, outline: Vec<Point>) -> &mut Self {
        self.push(Item::Void(outline))
    }

    /// A line from corner to corner.
    pub fn line(&mut self, stroke: Stroke, points: Vec<Point>) -> &mut Self {
        self.push(Item::Line { stroke, points })
    }

    /// An upright axis at `x` from `top` to `bottom`, mm.
    pub fn axis(&mut self, x: f64, top: f64, bottom: f64) -> &mut Self {
        self.line(Stroke::Centre, vec![Point::new(x, top), Point::new(x, bottom)])
    }

    /// An inside thread of major diameter `major` about the axis at `x`, full to `depth`, in a hole of `minor`, mm:
    /// thin lines at the root, a thick one where the full thread ends (ISO 6410).
    pub fn thread(&mut self, x: f64, major: f64, depth: f64) -> &mut Self {
        let r = major / 2.0;
        for side in [x - r, x + r] {
            self.push(Item::Thread { from: Point::new(side, 0.0), to: Point::new(side, depth) });
        }
        self.line(Stroke::Visible, vec![Point::new(x - r, depth), Point::new(x + r, depth)])
    }

    /// Names a straight face.
    pub fn face(&mut self, name: &'static str, from: Point, to: Point) -> &mut Self {
        self.faces.push(Face { name, from, to });
        self
    }

    /// Names both sides of what is `diameter` wide about the axis at `x`, from `top` to `bottom`, mm.
    pub fn faces_about(
        &mut self,
        names: [&'static str; 2],
        (x, diameter): (f64, f64),
        (top, bottom): (f64, f64),
    ) -> &mut Self {
        for (name, side) in names.into_iter().zip([x - diameter / 2.0, x + diameter / 2.0]) {
            self.face(name, Point::new(side, top), Point::new(side, bottom));
        }
        self
    }

    /// A size between two faces named before: its ends are those of the faces that lie nearest to the figure. A name that
    /// no face bears draws nothing.
    pub fn between(&mut self, first: &'static str, second: &'static str, side: Side, shows: Shows) -> &mut Self {
        let end = |name: &str| self.faces.iter().rev().find(|face| face.name == name).map(|face| face.nearest(side));
        match (end(first), end(second)) {
            (Some(from), Some(to)) => {
                let faces = [first, second];
                self.push(Item::Dimension { from, to, faces, side, shortened: false, half: false, shows })
            }
            _ => self,
        }
    }

    /// What was there before.
    pub fn old(&mut self, outline: Vec<Point>) -> &mut Self {
        self.push(Item::Old(outline))
    }

    /// A jaw, a clamp or a support.
    pub fn jaw(&mut self, outline: Vec<Point>) -> &mut Self {
        self.push(Item::Jaw(outline))
    }

    /// What presses, drills, reams or taps.
    pub fn tooling(&mut self, outline: Vec<Point>) -> &mut Self {
        self.push(Item::Tooling(outline))
    }

    /// An end that is not known.
    pub fn breaks(&mut self, from: Point, to: Point) -> &mut Self {
        self.push(Item::Break { from, to })
    }

    /// A balloon.
    pub fn balloon(&mut self, balloon: Balloon, at: Point, towards: Side) -> &mut Self {
        self.push(Item::Balloon { balloon, at, towards })
    }

    /// A thin cut.
    pub fn detail(&mut self, at: Point, across: f64) -> &mut Self {
        self.push(Item::Detail { at, across })
    }

    /// Words with a line to what they mean.
    pub fn label(&mut self, at: Point, towards: Side, text: impl Into<String>) -> &mut Self {
        self.push(Item::Label { at, towards, text: text.into() })
    }

    /// Every value that the sketch shows, in order.
    pub fn values(&self) -> impl Iterator<Item = &'static str> + '_ {
        self.items
            .iter()
            .filter_map(|item| match item {
                Item::Dimension { shows, .. } | Item::Roughness { shows, .. } | Item::Reads { shows, .. } => {
                    Some(shows.values())
                }
                _ => None,
            })
            .flatten()
    }
}

impl Face {
    /// The end that lies furthest towards a side.
    #[must_use]
    pub fn nearest(&self, side: Side) -> Point {
        let out = |p: &Point| match side {
            Side::Left => -p.x,
            Side::Right => p.x,
            Side::Above => -p.y,
            Side::Below => p.y,
        };
        if out(&self.from) >= out(&self.to) { self.from } else { self.to }
    }
}

#[cfg(test)]
mod tests {
    use crate::drawing::{Item, Point, Shows, Side, Sketch, rectangle};

    #[test]
    fn values_are_named_in_order() {
        let mut sketch = Sketch::default();
        sketch
            .section(rectangle(-5.0, 0.0, 5.0, 8.0), 0)
            .face("face", Point::new(-5.0, 0.0), Point::new(5.0, 0.0))
            .face("far face", Point::new(-5.0, 8.0), Point::new(5.0, 8.0))
            .between("face", "far face", Side::Right, Shows::limits("wall", "wall_least"))
            .push(Item::Roughness {
                at: Point::new(0.0, 0.0),
                towards: Side::Above,
                shows: Shows::roughness("finish"),
            });
        assert_eq!(sketch.values().collect::<Vec<_>>(), ["wall", "wall_least", "finish"]);
        assert!(matches!(sketch.items[1], Item::Dimension { from, .. } if from == Point::new(5.0, 0.0)));
    }

    #[test]
    fn a_thread_is_two_thin_lines_and_its_end() {
        let mut sketch = Sketch::default();
        sketch.thread(0.0, 9.62, 10.0);
        assert_eq!(sketch.items.len(), 3);
    }
}
