//! Words of the pictures that compare.

use crate::quantity::Print;
use std::fmt::Display;

/// The far side of a wall.
pub(in crate::sheet) const FAR_SIDE: &str = "breaks through";
/// The far side, where holes go through.
pub(in crate::sheet) const FAR_FACE: &str = "far face";
/// The least that must be left.
pub(in crate::sheet) fn least_left(figure: &str) -> String {
    format!("least left {figure}")
}
/// Before how many of each length are there.
pub(in crate::sheet) const IN_DRAWER: &str = "(in drawer)";
/// Before what a length leaves.
pub(in crate::sheet) const LEFT_AT_WORST: &str = "left at worst";
/// Before what a wall is longer than a length asks.
pub(in crate::sheet) const SPARE_AT_WORST: &str = "to spare at worst";
/// Before why a length will not do though its depth would.
pub(in crate::sheet) const BECAUSE: &str = "because";

/// The least of something.
pub(in crate::sheet) fn least(figure: &str) -> String {
    format!("least {figure}")
}

/// The greatest of something.
pub(in crate::sheet) fn greatest(figure: &str) -> String {
    format!("greatest {figure}")
}

/// Both ends of a bar, written beside it.
pub(in crate::sheet) fn both_ends(low: &str, high: &str) -> String {
    format!("{low} to {high}")
}

/// The scale of bars, which are mm of paper for each micrometre: as it is whatever unit is printed.
pub(in crate::sheet) fn a_micrometre(mm: f64) -> String {
    match mm {
        mm if mm >= 0.001 => format!("{}:1", crate::quantity::figure(mm * 1000.0)),
        _ => format!("1:{}", crate::quantity::figure(1.0 / (mm * 1000.0))),
    }
}

/// The unit of the sizes beside bars.
pub(in crate::sheet) const fn unit_of_sizes(print: Print) -> &'static str {
    if matches!(print, Print::Imperial) { "in" } else { "mm" }
}

/// Heading of lengths side by side.
pub(in crate::sheet) const LENGTHS: &str = "Lengths in this wall";
/// Heading of sizes that fit into each other.
pub(in crate::sheet) const FITS: &str = "How the sizes fit";
/// Heading of readings round the work.
pub(in crate::sheet) const ROUND: &str = "Readings round the work";

/// How far a centre is off.
pub(in crate::sheet) fn off_by(figure: &str) -> String {
    format!("centre off {figure}")
}

/// Towards where it is off, from the first jaw.
pub(in crate::sheet) fn towards(angle: &str) -> String {
    format!("towards {angle}")
}

/// What an indicator may read in a turn: its circle is dashed.
pub(in crate::sheet) fn allowed_in_a_turn(figure: &str) -> String {
    format!("dashed: what is allowed in a turn, {figure};")
}

/// The scale of something that is drawn so many times as large as it is.
fn scale(times: f64) -> String {
    let figure = crate::quantity::figure;
    if times < 1.0 { format!("1:{}", figure(1.0 / times)) } else { format!("{}:1", figure(times)) }
}

/// The scale of what a centre is off.
pub(in crate::sheet) fn off_centre_times(by: f64) -> String {
    format!("off centre {}", scale(by))
}

/// At a jaw that is not moved.
pub(in crate::sheet) const STAYS: &str = "stays";
/// At a jaw that gets a shim.
pub(in crate::sheet) const SHIM_UNDER: &str = "shim under it";
/// At a jaw that would get one.
pub(in crate::sheet) const NO_SHIM: &str = "no shim";
/// Where work is tapped.
pub(in crate::sheet) const TAP_HERE: &str = "tap here";

/// Which of the moves of a chuck's jaws it is, by its letter, and which way: a number beside a jaw is the jaw's.
pub(in crate::sheet) fn in_order(order: u8, loosened: bool) -> String {
    let letter = char::from(b'a'.saturating_add(order.saturating_sub(1)));
    format!("{letter}) {}", if loosened { "loosen" } else { "tighten" })
}

/// How far the key of a jaw turns, degrees.
pub(in crate::sheet) fn turn_of_key(degrees: f64) -> String {
    let turns = (degrees / 360.0).floor();
    let rest = degrees - turns * 360.0;
    match turns {
        0.0 if rest < 9.95 => format!("key {rest:.1}°"),
        0.0 => format!("key {rest:.0}°"),
        1.0 => format!("key 1 turn {rest:.0}°"),
        _ => format!("key {turns:.0} turns {rest:.0}°"),
    }
}

/// Heading of a face from above.
pub(in crate::sheet) const SPOTS: &str = "High spots of the face";

/// What the figures of a face are.
pub(in crate::sheet) fn heights_in(unit: &str) -> String {
    format!("{unit} over the lower plane; black is high.")
}

/// What the lines on a face are.
pub(in crate::sheet) const LINES_OF_HEIGHT: &str = "Lines between these:";

/// From one height to another.
pub(in crate::sheet) fn band_of(from: &str, to: &str) -> String {
    format!("{from} to {to}")
}

/// Heading of the links of a gap.
pub(in crate::sheet) const LINKS: &str = "Links of the gap, the dearest first";
/// Over the names of links.
pub(in crate::sheet) const LINK: &str = "link";
/// Over their sizes.
pub(in crate::sheet) const LINK_SIZE: &str = "counts";
/// Over their shares.
pub(in crate::sheet) const LINK_SHARE: &str = "share of the doubt";
/// Beside a link that has no share of the doubt.
pub(in crate::sheet) const NO_DOUBT: &str = "none";
/// Before the limits of a gap.
pub(in crate::sheet) const WANTED: &str = "wanted";
/// Before what links leave.
pub(in crate::sheet) const LINKS_LEAVE: &str = "the links leave";

/// A share in hundredths.
pub(in crate::sheet) fn percent(share: f64) -> String {
    format!("{:.1} %", 100.0 * share)
}

/// Heading of a pack of shims.
pub(in crate::sheet) const PACK: &str = "The pack and the float that it leaves";
/// Before the float that no shim takes.
pub(in crate::sheet) const WITHOUT_SHIMS: &str = "float without shims";
/// Before the float that is wanted.
pub(in crate::sheet) const FLOAT_WANTED: &str = "float wanted";
/// Before the float that is left.
pub(in crate::sheet) const FLOAT_LEFT: &str = "float left";

/// The shims of a pack as they lie.
pub(in crate::sheet) fn pack_of(shims: Option<String>) -> String {
    shims.map_or_else(|| "no shim".into(), |shims| format!("from the hard face: {shims}"))
}

/// The scales of a pack, and of the sizes that it closes.
pub(in crate::sheet) fn scales_of_pack(sizes: Option<impl Display>, pack: impl Display) -> String {
    sizes.map_or_else(|| format!("pack {pack}"), |sizes| format!("sizes {sizes}, pack {pack}"))
}

/// Heading of a worn bore.
pub(in crate::sheet) const WEAR: &str = "Wear of the bore against the oversizes";
/// The bore when it was new.
pub(in crate::sheet) const AS_NEW: &str = "as new";
/// What cleans it about the middle of its worn place.
pub(in crate::sheet) const CLEANS_WORN: &str = "cleans it about the worn place";
/// What cleans it about the axis that it had when it was new.
pub(in crate::sheet) const CLEANS_OLD: &str = "cleans it about the old axis";
/// The widest of several diameters at each depth.
pub(in crate::sheet) const WIDEST: &str = "widest";
/// The narrowest of them.
pub(in crate::sheet) const NARROWEST: &str = "narrowest";
/// Behind the oversize that is bored for.
pub(in crate::sheet) const BORED_TO: &str = "taken";

/// What it is bored to for an oversize.
pub(in crate::sheet) fn bored_for(marked: &str) -> String {
    format!("bored for {marked}")
}

/// Over the depths.
pub(in crate::sheet) fn depth_in(unit: &str) -> String {
    format!("depth, {unit}")
}

/// The scales of a worn bore: across and down.
pub(in crate::sheet) fn scales_of_wear(across: f64, down: impl Display) -> String {
    format!("diameters {}, depths {down}", scale(across))
}
