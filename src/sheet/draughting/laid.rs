//! A sketch laid out at one scale within a room.

use super::dimensions::{self, Wanted};
use super::labels::{self, DIGIT, Says, WIDEST};
use super::lay::{Align, Block, Lay};
use super::part::{finite, parts};
use super::scale::{self, View};
use super::{EDGE, Fault, Point, Rect, SIDES, Scale, clip, detail, symbols, words};
use crate::drawing::{Balloon, Item, Shows, Side, Sketch};
use crate::sheet::fonts::{self, Font};
use nalgebra::Vector2;

/// Between a drawing and its scale under it, mm at least.
const ABOVE_SCALE: f64 = 1.0;

/// A sketch with its texts measured.
#[derive(Debug)]
pub(super) struct Measured {
    sketch: Sketch,
    /// Height of the capitals, mm.
    capital: f64,
    /// What the part covers, mm of the part.
    extents: Rect,
    /// The text of each item that has one, in the order of the sketch.
    texts: Vec<Option<Block>>,
}

/// The sketch laid out at one scale.
#[derive(Debug)]
pub(super) struct Laid {
    pub(super) scale: Scale,
    pub(super) lay: Lay,
    /// Letters and scales of its details.
    pub(super) details: Vec<(char, Scale)>,
    pub(super) bounds: Rect,
}

impl Measured {
    /// Reads a sketch; `value` gives the text of a value by its name.
    pub(super) fn new(sketch: Sketch, capital: f64, value: &impl Fn(&str) -> Option<String>) -> Result<Self, Fault> {
        finite(&sketch)?;
        let extents = scale::extents(&sketch).ok_or(Fault::Empty)?;
        let texts = sketch.items.iter().map(|item| text(item, capital, value)).collect::<Result<_, _>>()?;
        Ok(Self { sketch, capital, extents, texts })
    }

    /// The balloons in it, by number.
    pub(super) fn balloons(&self) -> Vec<Balloon> {
        let mut balloons: Vec<Balloon> = self.sketch.items.iter().filter_map(balloon).collect();
        balloons.sort_unstable();
        balloons.dedup();
        balloons
    }

    /// The sketch at one scale; nothing where it cannot be read within a width and a height, mm. Where upright dimensions
    /// crowd one side they are shared out to both.
    pub(super) fn at(&self, scale: Scale, room: (f64, f64)) -> Result<Option<Laid>, Fault> {
        if !self.has_room(scale, room) {
            return Ok(None);
        }
        let view = View::new(scale);
        let all = self.dimensions(&view);
        let mut part = None;
        for radius in detail::RADII {
            let mut sizes = all.clone();
            let details = detail::wanted(&self.sketch, &view, radius, &mut sizes);
            let shared = dimensions::balanced(&sizes);
            for sizes in std::iter::once(sizes).chain(shared) {
                if !fits(&self.least(&view, &sizes), room) {
                    continue;
                }
                // The part is the same, however its dimensions stand.
                let part = part.get_or_insert_with(|| self.part(&view, room)).clone();
                let lay = self.lay_out(part, &view, &sizes, &details)?;
                let Some(bounds) = lay.bounds().filter(|_| lay.fits() && lay.legible()) else { continue };
                let details = details.iter().map(|detail| (detail.letter, detail.scale)).collect();
                return Ok(Some(Laid { scale, details, bounds: bounds.grown(EDGE), lay }));
            }
            if details.is_empty() {
                break;
            }
        }
        Ok(None)
    }

    /// Whether a width and a height, mm, hold the part alone at a scale.
    pub(super) fn has_room(&self, scale: Scale, room: (f64, f64)) -> bool {
        self.extents.width() * scale.factor() <= room.0 && self.extents.height() * scale.factor() <= room.1
    }

    /// The part alone, with the room that everything about it may take.
    fn part(&self, view: &View, room: (f64, f64)) -> Lay {
        let (layers, breaks) = parts(&self.sketch, view);
        let mut lay = Lay::of(self.capital, layers);
        lay.breaks = breaks;
        lay.keep_within(room.0 - 2.0 * EDGE, room.1 - 2.0 * EDGE);
        lay
    }

    /// The part on the paper with the rows of its dimensions: no drawing at this scale is smaller.
    fn least(&self, view: &View, sizes: &[Wanted]) -> Rect {
        let [left, right, above, below] = SIDES.map(|side| dimensions::margin(side, sizes));
        let a = view.at(Point::new(self.extents.left, self.extents.top));
        let b = view.at(Point::new(self.extents.right, self.extents.bottom));
        Rect::new(a.x - left, a.y - above, b.x + right, b.y + below)
    }

    fn items(&self) -> impl Iterator<Item = (&Item, Option<&Block>)> {
        self.sketch.items.iter().zip(self.texts.iter().map(Option::as_ref))
    }

    /// The dimensions at one scale.
    fn dimensions(&self, view: &View) -> Vec<Wanted> {
        let one = |(item, block): (&Item, Option<&Block>)| match (item, block) {
            (Item::Dimension { from, to, side, shortened, half, .. }, Some(block)) => Some(Wanted {
                from: view.at(*from),
                to: view.at(*to),
                side: *side,
                shortened: *shortened,
                half: *half,
                block: block.clone(),
            }),
            _ => None,
        };
        self.items().filter_map(one).collect()
    }

    /// Everything about the part: what stands on a place of its own first, then the dimensions, the details, and last what
    /// may stand anywhere. What is too much for the room is left off there and then.
    fn lay_out(&self, mut lay: Lay, view: &View, sizes: &[Wanted], details: &[detail::Detail]) -> Result<Lay, Fault> {
        let mut labels = detail::ringed(&mut lay, view, details)?;
        labels.extend(self.labels(&mut lay, view));
        lay.lanes = dimensions::lanes(sizes);
        lay.extensions = dimensions::extensions(sizes);
        // What is said of a feed goes with its arrow.
        for (wished, placed) in self.signs(&mut lay, view) {
            let about = labels.iter_mut().filter(|label| (label.at - wished).norm() < 1e-6);
            about.for_each(|label| label.at = placed);
        }
        for side in SIDES {
            dimensions::place(&mut lay, side, sizes);
        }
        if lay.fits() {
            detail::place(&mut lay, &self.sketch, view, details)?;
        }
        if lay.fits() {
            labels::place(&mut lay, &labels);
        }
        if lay.fits() {
            self.say_scale(&mut lay, view.scale)?;
        }
        Ok(lay)
    }

    /// The scale and the sign of projection, low on the left where there is room.
    fn say_scale(&self, lay: &mut Lay, scale: Scale) -> Result<(), Fault> {
        let block = Block::new(Font::Sans, self.capital, [format!("{} {scale}", words::SCALE)])?;
        let (wide, high) = self.sketch.projection.map_or((0.0, 0.0), |_| symbols::PROJECTION);
        let size = Vector2::new(block.width.max(wide), block.height + ABOVE_SCALE + high);
        let corner = lay.bounds().map(|reach| Point::new(reach.left, reach.bottom));
        let found = corner.and_then(|corner| detail::free_corner(lay, size, corner));
        if let Some(corner) = lay.or_crowded(found.map(Some), None) {
            lay.set(&block, corner.x, corner.y + ABOVE_SCALE, Align::Left);
            if let Some(projection) = self.sketch.projection {
                let under = Point::new(corner.x, corner.y + ABOVE_SCALE + block.height);
                symbols::projection(lay, under, projection);
            }
        }
        Ok(())
    }

    /// What is asked for as a label. Names of neighbours that have room inside them are set there.
    fn labels(&self, lay: &mut Lay, view: &View) -> Vec<labels::Wanted> {
        let mut labels = Vec::new();
        for (item, block) in self.items() {
            let Some(block) = block.filter(|block| block.width > 0.0) else { continue };
            let mut ask = |at: Point, side: Side, says: Says| {
                labels.push(labels::Wanted { at, side, says, block: block.clone() });
            };
            match item {
                Item::Moving { outline, .. } => {
                    if let Some(at) = beside(lay, &view.all(outline), block) {
                        ask(at, Side::Right, Says::Words);
                    }
                }
                Item::Label { at, towards, .. } | Item::Reads { at, towards, .. } => {
                    ask(view.at(*at), *towards, Says::Words);
                }
                Item::Balloon { at, towards, .. } => ask(view.at(*at), *towards, Says::Balloon),
                _ => {}
            }
        }
        labels
    }

    /// Signs of a fixed place first, then those that stand upon a face, then the feed near its tool, and last those on a
    /// line, which may be pushed further off. Gives back where the middle of each feed was wished, and where it stands.
    fn signs(&self, lay: &mut Lay, view: &View) -> Vec<(Point, Point)> {
        for item in &self.sketch.items {
            match item {
                Item::Turning { at, wrench } => symbols::turning(lay, view.at(*at), *wrench),
                Item::Tool { nose, feed, free, edge } => symbols::tool(lay, view.at(*nose), *feed, *free, *edge),
                Item::Symmetry { from, to } => symbols::symmetry(lay, view.at(*from), view.at(*to)),
                _ => {}
            }
        }
        for (item, block) in self.items() {
            match (item, block) {
                (Item::Roughness { at, towards: side @ Side::Above, .. }, Some(block)) => {
                    symbols::roughness(lay, view.at(*at), *side, block);
                }
                (Item::Datum { at, towards, .. }, Some(block)) => symbols::datum(lay, view.at(*at), *towards, block),
                (Item::Indicator { at, towards }, _) => symbols::indicator(lay, view.at(*at), *towards),
                _ => {}
            }
        }
        let mut feeds = Vec::new();
        for item in &self.sketch.items {
            if let Item::Feed { from, to } = item {
                let placed = symbols::feed(lay, view.at(*from), view.at(*to));
                feeds.extend(placed.map(|placed| (view.at(nalgebra::center(from, to)), placed)));
            }
        }
        for (item, block) in self.items() {
            match (item, block) {
                (Item::Roughness { at, towards, .. }, Some(block)) if *towards != Side::Above => {
                    symbols::roughness(lay, view.at(*at), *towards, block);
                }
                _ => {}
            }
        }
        feeds
    }
}

fn fits(bounds: &Rect, room: (f64, f64)) -> bool {
    bounds.width() <= room.0 && bounds.height() <= room.1
}

fn balloon(item: &Item) -> Option<Balloon> {
    match item {
        Item::Balloon { balloon, .. } => Some(*balloon),
        _ => None,
    }
}

/// The text of an item as it is set.
fn text(item: &Item, capital: f64, value: &impl Fn(&str) -> Option<String>) -> Result<Option<Block>, Fault> {
    let sans = |lines: Vec<String>| Block::new(Font::Sans, capital, lines);
    let wrapped = |text: &str| sans(fonts::wrap(Font::Sans, capital, text, WIDEST)?);
    let block = match item {
        Item::Dimension { side, shows, .. } => sans(lines_of(*side, &figure(shows, value)?))?,
        // Each figure in a line of its own: one that runs on is parted from its unit.
        Item::Reads { shows, .. } => {
            let lines: Vec<Vec<String>> = figure(shows, value)?
                .lines()
                .map(|line| fonts::wrap(Font::Sans, capital, line, WIDEST))
                .collect::<Result<_, _>>()?;
            sans(lines.concat())?
        }
        Item::Roughness { shows, .. } => sans(vec![roughness(shows, value)?])?,
        Item::Label { text, .. } => wrapped(text)?,
        Item::Moving { label, .. } => wrapped(label)?,
        Item::Datum { letter, .. } => Block::new(Font::Bold, capital, [letter.to_string()])?,
        Item::Balloon { balloon, .. } => {
            Block::new(Font::Bold, DIGIT, [balloon.number().to_string()])?.meaning(balloon.sign())
        }
        _ => return Ok(None),
    };
    Ok(Some(block))
}

/// A figure with what stands before it, of two limits one under the other.
fn figure(shows: &Shows, value: &impl Fn(&str) -> Option<String>) -> Result<String, Fault> {
    let mut lines = Vec::new();
    for key in shows.values() {
        let known = value(key).filter(|figure| !figure.trim().is_empty());
        let figure = known.ok_or(Fault::NoValue { key })?;
        lines.extend(figure.lines().map(|line| before(shows.before, line)));
    }
    Ok(lines.join("\n"))
}

/// The figure of a roughness in one line, and behind it the least where it has one.
fn roughness(shows: &Shows, value: &impl Fn(&str) -> Option<String>) -> Result<String, Fault> {
    let line = |shows: Shows| Ok::<_, Fault>(figure(&shows, value)?.replace('\n', " "));
    let most = line(Shows { least: None, ..*shows })?;
    let Some(least) = shows.least else { return Ok(most) };
    Ok(format!("{most}, {} {}", words::LEAST, line(Shows::value(least))?))
}

/// The lines of a figure: along a level dimension line there is room for the doubt beside it.
fn lines_of(side: Side, text: &str) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for line in text.lines() {
        match lines.last_mut() {
            Some(last) if line.starts_with('±') && matches!(side, Side::Above | Side::Below) => {
                last.push(' ');
                last.push_str(line);
            }
            _ => lines.push(line.to_owned()),
        }
    }
    lines
}

/// A line of a figure with what stands before figures; words among the lines stay as they are.
fn before(sign: &str, line: &str) -> String {
    if line.starts_with(|c: char| c.is_ascii_digit()) { format!("{sign}{line}") } else { line.to_owned() }
}

/// Sets the name of a neighbour inside it where there is room; else gives the place that a label has to lead to.
fn beside(lay: &mut Lay, outline: &[Point], block: &Block) -> Option<Point> {
    let c = Rect::about(outline)?.centre();
    let room = block.bounds(c.x - block.width / 2.0, c.y - block.height / 2.0);
    let air = room.grown(1.5);
    let holds = [(air.left, air.top), (air.right, air.top), (air.right, air.bottom), (air.left, air.bottom)]
        .iter()
        .all(|(x, y)| clip::inside(Point::new(*x, *y), outline));
    if holds && !lay.edge_through(&room) {
        lay.set(block, room.left, room.top, Align::Left);
        return None;
    }
    Some(c)
}
