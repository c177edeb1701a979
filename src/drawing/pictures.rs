//! Pictures that compare: lengths side by side in one wall, and sizes as level bars on one scale. They hold what is drawn and
//! what is written beside it, in millimetres of the part: no page, no ink.

/// A row of words over or under columns: a caption before them, and one cell a column.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TextRow {
    /// What the row says.
    pub caption: String,
    /// A cell a column.
    pub cells: Vec<String>,
    /// Whether it stands bold.
    pub strong: bool,
}

/// Lengths of one thread side by side in one wall, each with its hole.
#[derive(Clone, Debug, PartialEq)]
pub struct Ladder {
    /// From the face to the far side, mm.
    pub wall: f64,
    /// The hole, the roots of its thread, the inside of the coil: diameters, mm.
    pub across: [f64; 3],
    /// Metal that must stay under a hole, mm; nothing where holes go through.
    pub least_left: Option<f64>,
    /// What is said of the far side, and of the least that must be left.
    pub lines: [String; 2],
    /// Diameter and depth of the old hole, mm.
    pub old: Option<(f64, f64)>,
    /// A column a length, the shortest first.
    pub rungs: Vec<Rung>,
    /// What stands over the columns, the uppermost first.
    pub above: Vec<TextRow>,
    /// What stands under the columns.
    pub below: Vec<TextRow>,
}

/// One length.
#[derive(Clone, Debug, PartialEq)]
pub struct Rung {
    /// Its hole; nothing where it could not be worked out.
    pub hole: Option<RungHole>,
    /// Whether it was chosen: it is framed.
    pub chosen: bool,
}

/// The hole of one length, depths from the face, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RungHole {
    /// Where its full diameter ends.
    pub depth: f64,
    /// Its tip.
    pub tip: f64,
    /// Last full thread.
    pub thread: f64,
    /// First and last coil.
    pub coil: (f64, f64),
    /// Where the tip may be at worst; nothing where it hangs on something else.
    pub worst_tip: Option<f64>,
}

/// Sizes as level bars, all groups on one scale, each from a nought of its own.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Bars {
    /// The groups, the uppermost first.
    pub groups: Vec<BarGroup>,
}

/// Bars over one ruler.
#[derive(Clone, Debug, PartialEq)]
pub struct BarGroup {
    /// The bars, the uppermost first.
    pub bars: Vec<Bar>,
    /// How far the second last bar is from the last.
    pub gap: Option<Gap>,
    /// Limits as upright lines; the ends of the bars are then written at the right of all.
    pub limits: Vec<LimitLine>,
    /// The ruler under them.
    pub ruler: Ruler,
}

/// One size from its least to its greatest, mm.
#[derive(Clone, Debug, PartialEq)]
pub struct Bar {
    /// What it is.
    pub name: String,
    /// Least.
    pub low: f64,
    /// Greatest.
    pub high: f64,
    /// Both as they are written.
    pub ends: [String; 2],
}

/// A limit, mm, as a line across some of the bars.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LimitLine {
    /// Where it stands.
    pub at: f64,
    /// The bars that it holds for, by their places: from the first to before the second.
    pub holds: (usize, usize),
}

/// What lies between the last two bars of a group.
#[derive(Clone, Debug, PartialEq)]
pub struct Gap {
    /// What it is.
    pub name: String,
    /// Least and greatest as they are written.
    pub says: [String; 2],
    /// Whether it is room, which is hatched.
    pub is_room: bool,
}

/// A ruler: places of its lines, mm, each with its figure.
#[derive(Clone, Debug, PartialEq)]
pub struct Ruler {
    /// What is read or marked on it.
    pub caption: String,
    /// Long lines, the nought first.
    pub ticks: Vec<(f64, String)>,
    /// Between short lines, mm.
    pub fine: f64,
    /// What is read off under it, and its lines.
    pub under: Option<(String, Vec<(f64, String)>)>,
}

impl BarGroup {
    /// From the least to the greatest that it shows, ruler and all, mm.
    #[must_use]
    pub fn span(&self) -> (f64, f64) {
        let ends = self.bars.iter().flat_map(|bar| [bar.low, bar.high]);
        let all =
            ends.chain(self.ruler.ticks.iter().map(|tick| tick.0)).chain(self.limits.iter().map(|limit| limit.at));
        all.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), at| (low.min(at), high.max(at)))
    }
}
