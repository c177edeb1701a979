//! A pack of shims on the paper: the sizes that open and close the float end to end at one scale, and under them the pack between its
//! two faces, far larger, with the float that it leaves and what that may be.

use super::hatching;
use super::scale::SCALES;
use super::{Fault, Point, Rect, Scale};
use crate::drawing::{Pack, Stretch, rectangle};
use crate::sheet::fonts::{self, Font};
use crate::sheet::page::{Anchor, AreaId, Dash, Fill, Page, Role, Text};
use crate::sheet::words;

/// Height of the capitals, from line to line, what a row has more than its lines, mm.
const CAPITAL: f64 = 3.0;
const LINE: f64 = 4.4;
const MORE: f64 = 0.4;
/// Widest names, mm.
const NAMES: f64 = 46.0;
/// Between two columns, and between words and a bar, mm.
const BETWEEN: f64 = 2.0;
/// Height of a bar, of the shims, and of the faces beside them over that, mm.
const BAR: f64 = 3.0;
const SHIMS: f64 = 8.0;
const FACE: (f64, f64) = (5.0, 1.0);
/// Between the sizes and the pack, mm.
const ABOVE_PACK: f64 = 2.0;
/// Lines, mm: outline, thin, what is allowed.
const OUTLINE: f64 = 0.5;
const THIN: f64 = 0.25;
const LIMIT: f64 = 0.35;

/// What was drawn.
#[derive(Clone, Debug, PartialEq)]
pub struct PackDrawn {
    /// Scale of the sizes, which it prints itself; nothing where there are none.
    pub sizes: Option<Scale>,
    /// Scale of the pack and the float, which it prints itself.
    pub pack: Scale,
    /// Where the pack begins.
    pub from: f64,
    /// What it covers.
    pub bounds: Rect,
}

/// Draws a pack into a room (mm of paper) of a page, from its upper left corner.
///
/// # Errors
/// [`Fault`], and then nothing is drawn.
pub fn pack(page: &mut Page, area: AreaId, room: Rect, pack: &Pack) -> Result<PackDrawn, Fault> {
    let no_room = Fault::NoRoom { width: room.width(), height: room.height() };
    let laid = Laid::of(pack, room)?.ok_or(no_room)?;
    laid.draw(page, area)
}

/// The picture laid out.
struct Laid<'a> {
    pack: &'a Pack,
    room: Rect,
    /// Names of the sizes in lines, of the pack and of the floats.
    links: Vec<Vec<String>>,
    shims: Vec<String>,
    floats: Vec<Vec<String>>,
    /// How wide the names are.
    named: f64,
    sizes: Option<Scale>,
    scale: Scale,
    /// Where the pack begins.
    from: f64,
}

fn width(text: &str) -> Result<f64, Fault> {
    Ok(fonts::width(Font::Sans, CAPITAL, text)?)
}

fn high(lines: &[String]) -> f64 {
    lines.len().max(1) as f64 * LINE + MORE
}

/// The least and the greatest of some stretches, mm.
fn span<'a>(all: impl Iterator<Item = &'a Stretch>) -> (f64, f64) {
    all.fold((0.0, 0.0), |(low, high): (f64, f64), one| (low.min(one.from).min(one.to), high.max(one.from).max(one.to)))
}

impl<'a> Laid<'a> {
    fn of(pack: &'a Pack, room: Rect) -> Result<Option<Self>, Fault> {
        let stretches = || pack.links.iter().chain(&pack.floats);
        let is_finite = |one: &Stretch| one.from.is_finite() && one.to.is_finite();
        if !stretches().all(is_finite) || !pack.left.is_finite() || !pack.shims.iter().all(|shim| *shim > 0.0) {
            return Ok(None);
        }
        let names = |text: &String| fonts::wrap(Font::Sans, CAPITAL, text, NAMES);
        let links = pack.links.iter().map(|one| names(&one.name)).collect::<Result<Vec<_>, _>>()?;
        let floats = pack.floats.iter().map(|one| names(&one.name)).collect::<Result<Vec<_>, _>>()?;
        let shims = names(&pack.pack[0])?;
        let mut named = 0.0_f64;
        for line in links.iter().chain(&floats).flatten().chain(&shims) {
            named = named.max(width(line)?);
        }
        let wide = room.width() - named - BETWEEN;
        let (low, _) = span(pack.links.iter());
        let mut ends = Vec::new();
        for one in &pack.links {
            ends.push((one.from.max(one.to) - low, BETWEEN + width(&one.says)?));
        }
        let fits = |scale: &Scale| ends.iter().all(|(end, says)| end * scale.factor() + says <= wide);
        let sizes = SCALES.into_iter().find(fits).filter(|_| !pack.links.is_empty());
        if !pack.links.is_empty() && sizes.is_none() {
            return Ok(None);
        }
        let mut laid = Self {
            pack,
            room,
            links,
            shims,
            floats,
            named,
            sizes,
            scale: Scale { paper: 1, part: 1 },
            from: room.left,
        };
        for scale in SCALES {
            laid.scale = scale;
            if let Some(from) = laid.begins()? {
                laid.from = from;
                let fits = laid.height() <= room.height();
                return Ok(fits.then_some(laid));
            }
        }
        Ok(None)
    }

    fn thick(&self) -> f64 {
        self.pack.shims.iter().sum()
    }

    /// Where the pack begins at its scale, so that everything has room; nothing where it has not.
    fn begins(&self) -> Result<Option<f64>, Fault> {
        let factor = self.scale.factor();
        let (thick, face) = (self.thick() * factor, FACE.0);
        let (low, high) = span(self.pack.floats.iter());
        let most = thick + high.max(self.pack.left) * factor;
        let mut right = (most + face).max(thick + face + width(&self.pack.pack[1])? + BETWEEN);
        for one in &self.pack.floats {
            right = right.max(thick + one.to.max(one.from).max(0.0) * factor + BETWEEN + width(&one.says)?);
        }
        let left = (-(thick + low * factor)).max(0.0).max(face);
        let from = self.room.left + self.named + BETWEEN + left;
        Ok((from + right <= self.room.right && thick + low.abs().max(high) * factor > 0.0).then_some(from))
    }

    fn height(&self) -> f64 {
        let rows = |all: &[Vec<String>]| all.iter().map(|lines| high(lines)).sum::<f64>();
        let sizes = if self.links.is_empty() { 0.0 } else { rows(&self.links) + ABOVE_PACK };
        sizes + self.shims_high() + rows(&self.floats) + LINE
    }

    fn shims_high(&self) -> f64 {
        (SHIMS + 2.0 * FACE.1).max(high(&self.shims)) + MORE
    }

    fn draw(&self, page: &mut Page, area: AreaId) -> Result<PackDrawn, Fault> {
        let mut y = self.room.top;
        if let Some(scale) = self.sizes {
            y = self.sizes(page, area, y, scale)? + ABOVE_PACK;
        }
        y = self.shims(page, area, y)?;
        let zero = self.from + self.thick() * self.scale.factor();
        let top = y;
        for (one, lines) in self.pack.floats.iter().zip(&self.floats) {
            let [from, to] = [one.from, one.to].map(|at| zero + at * self.scale.factor());
            self.row(page, area, (y, lines), ([from, to], from.max(to).max(zero)), one)?;
            y += high(lines);
        }
        // The float begins where the pack ends.
        page.line(area, vec![Point::new(zero, top - MORE), Point::new(zero, y)], THIN, Dash::Whole);
        self.say(page, area, self.room.left, y, &words::scales_of_pack(self.sizes, self.scale))?;
        let bounds = Rect::new(self.room.left, self.room.top, self.room.right, self.room.top + self.height());
        Ok(PackDrawn { sizes: self.sizes, pack: self.scale, from: self.from, bounds })
    }

    /// The sizes end to end; gives back where they end.
    fn sizes(&self, page: &mut Page, area: AreaId, top: f64, scale: Scale) -> Result<f64, Fault> {
        let (low, _) = span(self.pack.links.iter());
        let left = self.room.left + self.named + BETWEEN;
        let mut y = top;
        for (n, (one, lines)) in self.pack.links.iter().zip(&self.links).enumerate() {
            let [from, to] = [one.from, one.to].map(|at| left + (at - low) * scale.factor());
            self.row(page, area, (y, lines), ([from, to], from.max(to)), one)?;
            // It goes on where it ended.
            if n + 1 < self.pack.links.len() {
                let ends = [y + f64::midpoint(LINE, BAR), y + high(lines) + f64::midpoint(LINE, -BAR)];
                page.line(area, ends.map(|y| Point::new(to, y)).to_vec(), THIN, Dash::Whole);
            }
            y += high(lines);
        }
        Ok(y)
    }

    /// A name, a bar, and its figure behind it.
    fn row(
        &self,
        page: &mut Page,
        area: AreaId,
        (top, lines): (f64, &[String]),
        ([from, to], says): ([f64; 2], f64),
        one: &Stretch,
    ) -> Result<(), Fault> {
        for (n, line) in lines.iter().enumerate() {
            self.say(page, area, self.room.left, top + n as f64 * LINE, line)?;
        }
        let (left, right) = (from.min(to), from.max(to));
        let (over, under) = (top + f64::midpoint(LINE, -BAR), top + f64::midpoint(LINE, BAR));
        if right - left < OUTLINE {
            let x = f64::midpoint(left, right);
            page.line(area, vec![Point::new(x, over), Point::new(x, under)], OUTLINE, Dash::Whole);
        } else {
            let bar = rectangle(left, over, right, under);
            if one.is_hatched {
                for (a, b) in hatching::section(&bar, 0, &[], &[]) {
                    page.line(area, vec![a, b], THIN, Dash::Whole);
                }
            }
            page.polygon(area, bar, Fill::None, Some(LIMIT));
        }
        self.say(page, area, says + BETWEEN, top, &one.says)
    }

    /// The pack between its faces; gives back where it ends.
    fn shims(&self, page: &mut Page, area: AreaId, top: f64) -> Result<f64, Fault> {
        let factor = self.scale.factor();
        for (n, line) in self.shims.iter().enumerate() {
            self.say(page, area, self.room.left, top + FACE.1 + n as f64 * LINE, line)?;
        }
        let (over, under) = (top + FACE.1, top + FACE.1 + SHIMS);
        let mut x = self.from;
        for (n, shim) in self.pack.shims.iter().enumerate() {
            let plate = rectangle(x, over, x + shim * factor, under);
            for (a, b) in hatching::section(&plate, n as u8 % 2, &[], &[]) {
                page.line(area, vec![a, b], THIN, Dash::Whole);
            }
            page.polygon(area, plate, Fill::None, Some(LIMIT));
            x += shim * factor;
        }
        // Where no room is left it touches the pack.
        let turning = x + self.pack.left.max(0.0) * factor;
        for (edge, towards) in [(self.from, -1.0), (turning, 1.0)] {
            let far = edge + towards * FACE.0;
            let block = rectangle(edge.min(far), top, edge.max(far), under + FACE.1);
            for (a, b) in hatching::crossed(&block, &[], &[]) {
                page.line(area, vec![a, b], THIN, Dash::Whole);
            }
            page.line(area, vec![Point::new(edge, top), Point::new(edge, under + FACE.1)], OUTLINE, Dash::Whole);
        }
        let says = self.room.right - width(&self.pack.pack[1])?;
        self.say(page, area, says.min(turning + FACE.0 + BETWEEN), over + (SHIMS - LINE) / 2.0, &self.pack.pack[1])?;
        Ok(top + self.shims_high())
    }

    fn say(&self, page: &mut Page, area: AreaId, x: f64, top: f64, text: &str) -> Result<(), Fault> {
        let at = Point::new(x, top + f64::midpoint(LINE, CAPITAL));
        page.text(area, at, Anchor::Left, Text::new(Font::Sans, Role::Body, CAPITAL, text))?;
        Ok(())
    }
}
