//! The words of the book's pages: headings, notes, titles. Arithmetic stands elsewhere, sentences nowhere else.

use crate::handbook::cutting::speeds::{self, Work};
use crate::handbook::joints::{fit_pair::UsualFit, reaming_rows};
use crate::handbook::threads::thread_match::{Decides, Side};
use crate::handbook::{Fit, Material, Thread, ToolMaterial};
use crate::quantity::{Hardness, drawer_name, figure};

use super::Row;

/// Heading of what a question may mean or have.
pub(crate) const CANDIDATES: &str = "candidates";
/// Heading of what could not be worked out.
pub(crate) const REFUSED: &str = "not worked out";
/// Heading of notes.
pub(crate) const NOTES: &str = "notes";
/// Heading of the list of sources, and of a page's own rows of it.
pub(crate) const SOURCES: &str = "sources";

/// How the rest is seen.
pub(crate) const THE_REST: &str = "Limits, depths, areas, leads and what they stand on: the same with --all.";
/// The same of what a question may mean.
pub(crate) const THE_REST_OF_OFFERS: &str = "Figures of each, and what they stand on: the same with --all.";
/// A thread's names of what is wanted first.
pub(super) const TAPPING_DRILL: &str = "tapping drill";
pub(super) const THREAD_LEFT: &str = "thread that it leaves";
pub(super) const THREAD_PITCH: &str = "pitch";
pub(super) const THREAD_MAJOR: &str = "major diameter";
/// A clearance drill by its fit.
pub(super) fn clearance_drill(fit: &str) -> String {
    format!("clearance drill, {fit}")
}

/// The count of a thread on an inch, as it is called.
pub(super) fn count_of(thread: Thread) -> String {
    match thread.row().tpi {
        Some(count) => format!("{} tpi", figure(count)),
        None => format!("{} to the inch", figure((254.0 / thread.pitch().number()).round() / 10.0)),
    }
}

/// A tapping drill, with what other lists say.
pub(super) fn drill_of_lists(named: String, band: Option<(f64, f64)>) -> String {
    match band.filter(|(low, high)| low < high) {
        Some((low, high)) => format!("{named} (lists disagree: {} to {} mm)", figure(low), figure(high)),
        None => named,
    }
}

/// How much thread a drill leaves on a basis.
pub(super) fn percent_on(percent: f64, basis: &str) -> String {
    format!("{percent:.0} %, basis: {basis}")
}

pub(super) const LEADS: &str = "lead forms of taps, length at this pitch";
pub(super) const RULES: &str = "rules of wire thread inserts";
pub(super) const DEVIATIONS: &str = "deviations of ISO 286";
pub(super) const USUAL_FITS: &str = "usual fits of pressed bushes at this size";
pub(super) const OLD_ALLOWANCES: &str = "old inch allowances of interference at this diameter";
pub(super) const PHYSICAL: &str = "of the group";
pub(super) const HARDNESS: &str = "hardness";
pub(super) const DENSITY: &str = "density";
pub(super) const OTHER_NAMES: &str = "other names";
pub(super) const COOLANTS: &str = "coolant or lubricant";
pub(super) const CAUTIONS: &str = "cautions";
pub(super) const RUNNING: &str = "running clearance by duty, taking this size as the shaft";
pub(super) const UNCERTAINTY: &str = "usual expanded uncertainty, k = 2";
pub(super) const REAMING: &str = "what is printed about reaming at this size";
pub(super) const LENGTHS: &str = "standard lengths";
pub(super) const MACHINES: &str = "machines of this shop";
pub(super) const FORMS: &str = "forces by each form";
pub(super) const FACTORS: &str = "factors of the cut";
pub(super) const ROWS: &str = "rows";

pub(super) const INSERT_HOLE: &str = "the insert hole";
pub(super) const WHICH_THREAD: &str = "which thread is this?";
pub(super) const SOURCES_TITLE: &str = "what the tables stand on";
pub(super) const COUNTED: &str = "counted over the tables";

pub(super) const NO_STRIPPING: &str =
    "no stripping area of the nut: the limits that it stands on were not read for this thread";
pub(super) const NO_BOLT_STRIPPING: &str =
    "the bolt's own stripping area is not given: its least pitch diameter was not read";
pub(super) const NO_TAP_DRILL: &str = "no tapping drill was read for this thread: give drill=… for its percentage";
pub(super) const TWO_BASES: &str =
    "the two bases of the 60 deg form differ by about 15 points for one drill: always say which is meant";
pub(super) const TAP_TORQUE_SPREAD: &str =
    "the two forms of the tapping torque are by two tap makers; the short one does not see the drill: take the higher";
pub(super) const NO_PROOF: &str = "no proof stress is known for this class: no clamping force or torque is given";
pub(super) const ENGINE_DATA_FIRST: &str = "the engine's own data come first";
pub(super) const NEITHER_MEASURED: &str =
    "give what was measured: diameter=\"6.33 ± 0.02 mm\", pitch=\"26 tpi\", or both";
pub(super) const NO_SUCH_THREAD: &str = "no thread of the book comes near what was measured";
pub(super) const NONE_NEAR: &str =
    "even the nearest is no match: measure again, or the thread is worn, stretched, or not in the book";
pub(super) const SEVERAL_AGREE: &str = "more than one thread agrees with what was measured: do not cut before the measurement named beside the second was made";
pub(super) const AGREES: &str = "agrees";
pub(super) const NEAR_MISS: &str = "near miss";
pub(super) const FAR: &str = "far";
pub(super) const VINTAGE_INSERT: &str = "DOUBTFUL: no insert table of this form was read; the hole is worked by analogy: measure the tap and the coil before drilling";
pub(super) const DEPTH_TO_FULL_DIAMETER: &str =
    "drilled depths are to the full diameter: the drill's point comes on top of them";
pub(super) const NO_HABIT: &str = "no habit named";
pub(super) const BUSH: &str = "the bush";
pub(super) const DRILLING: &str = "drilling";
pub(super) const TURNING: &str = "the cut in the lathe";
pub(super) const MILLING: &str = "the cut of the mill";
pub(super) const ONE_HOLE: &str = "one hole";
pub(super) const ONE_PASS: &str = "one pass";
pub(super) const CHIP_AT_FLOOR: &str =
    "the chip is thinner than the law of the specific force holds for: its floor was taken, the edge rubs";
pub(super) const WIDTH_OVER_CUTTER: &str = "wider than the cutter: no one cut takes it";
pub(super) const SHARP_EDGES: &str = "force and power are those of sharp edges without run-out: worn ones ask for more, and one tooth of a crooked cutter takes most";
pub(super) const NOMINAL_SIZE: &str = "the nominal size";
pub(super) const NOT_CHILLED: &str = "the bush is not chilled";
pub(super) const LOSS_SHARE: &str = "the rule takes this share; a harsher one was not read";
pub(super) const NOT_DEEP: &str = "not deep enough to be eased";
pub(super) const HANDBOOK_FORM: &str = "handbook form, standard point, with its factor for wear";
pub(super) const KIENZLE_FORM: &str = "Kienzle form (specific force at its chip, two lips), sharp drill";
pub(super) const CONSTANT_FORM: &str = "a maker's form with one constant of the metal, sharp drill";
pub(super) const FINISH_ASSUMED: &str = "finish: that of a surface where nobody says was taken for both";
pub(super) const BORE_OVER_JOINT: &str = "the bore of a bush is smaller than the joint";
pub(super) const JOINT_OVER_OUTSIDE: &str = "the outside of a housing is larger than the joint";
pub(super) const YIELDS_AT_BORE: &str = "at the greatest interference the bush begins to yield at its bore; beyond that the bore closes by one to d/D_i times the excess (band)";
pub(super) const YIELDS_THROUGH: &str = "DOUBTFUL: the whole bush yields: the joint presses no harder than that, and what is beyond goes into the bore (band)";
pub(super) const BUSH_DOUBTFUL: &str = "DOUBTFUL: the bush is asked for more than is proven of its metal";
pub(super) const BUSH_FAILS: &str = "FAILS: the bush is asked for more than its strength";
pub(super) const HOUSING_DOUBTFUL: &str = "DOUBTFUL: the housing is asked for more than is proven of its metal";
pub(super) const NO_LENGTH: &str = "no force is given: it needs length=…";
pub(super) const OVER_STOP: &str = "hotter than the housing may go: chill the bush as well, or take less interference";
pub(super) const NOT_REAMED: &str = "this metal must not be reamed: its running surface would be lost";
pub(super) const CUTS_OVER: &str =
    "a reamer cuts over its size by an amount of its own: try it in scrap of the same metal first";
pub(super) const BUILT_UP_EDGE: &str = "carbide in steel as slow as this builds up an edge: take HSS, or run faster";
pub(super) const HOUSING_YIELDS: &str = "FAILS: the housing is asked for more than its strength";
pub(super) const STEEL_ONLY: &str = "unalloyed and low-alloy steel only; nothing is taken outside the table";
pub(super) const SHOP_FIRST: &str = "the figure of one's own instrument, from its certificate or a trial, goes first";
pub(super) const DUTY_DOUBTFUL: &str = "every running clearance by duty is doubtful until the engine's own is known";
pub(super) const NO_SHOP: &str = "no machine is known here: give --shop FILE for the spindle step";
pub(super) const MARKS: &str = "marks: read (or read in a damaged copy), from memory, common practice, derived, own; the source line shows the best mark of a source's rows";

/// What stands in the list of names of a question that takes any metal of the book.
pub(super) const METALS: &str = "a metal";
/// Where they are listed.
pub(super) const METALS_LISTED: &str = "`setover book materials` lists them, with every other name";
/// The scales of a hardness, each with what it is.
pub(super) const SCALES: [(&str, &str); 3] =
    [("58 HRC", "Rockwell C, of hard steel"), ("220 HB", "Brinell, ball of 10 mm and 3000 kgf"), ("650 HV", "Vickers")];

/// Title of a thread.
pub(super) fn thread_title(thread: Thread) -> String {
    format!("{}: {}, form of {}", thread.name(), thread.row().series.text(), thread.form().standard())
}

/// The drill of an insert hole by the name on its drawer.
pub(super) fn drill_of_the_list(name: &str) -> String {
    format!("drill of the list: {name}")
}

/// Which of two threads was taken.
pub(super) const TAKEN: &str = "the thread";

/// What else a thread may be whose series was not typed; empty of every other.
pub(super) fn also_meant(thread: Thread) -> String {
    thread.also_meant().map_or_else(String::new, |other| {
        format!(
            "no series was typed: {} is taken; {other} has the same size and pitch with other flanks, and wants a tap of its own",
            thread.name()
        )
    })
}

/// Series and flanks of a thread in a few words.
pub(super) fn thread_kind(thread: Thread) -> String {
    format!("{}, {} deg", thread.row().series.text(), figure(2.0 * thread.form().half_angle()))
}

/// Title of an insert.
pub(super) fn insert_title(thread: Thread) -> String {
    format!("{}: hole of a wire thread insert", thread.name())
}

/// A usual fit: its sizes, and the class of each part.
pub(super) fn usual_fit(row: &UsualFit) -> String {
    let parts = row.parts().map(|(part, class)| format!("{part} {}", class.replace("..", " to ")));
    std::iter::once(row.sizes()).filter(|sizes| !sizes.is_empty()).chain(parts).collect::<Vec<_>>().join(", ")
}

/// Title of a fit.
pub(super) fn fit_title(fit: &Fit) -> String {
    let is_of_inches = |mm: &f64| (mm * 100.0 - (mm * 100.0).round()).abs() > 1e-6;
    let named = fit.nominal.filter(is_of_inches).and_then(|mm| Some((mm, drawer_name(mm)?)));
    let fit = match named {
        // With the size as it was meant, and its unit.
        Some((mm, name)) => format!("{name} ({} mm) {}", figure(mm), Fit { nominal: None, ..fit.clone() }),
        None => fit.to_string(),
    };
    format!("{fit}: limits and fits, ISO 286")
}

/// Title of a material.
pub(super) fn material_title(material: &Material) -> String {
    let row = material.row();
    let own = format!("{} ({}), ISO 513 {}, VDI 3323 group {}", row.name, row.members, row.iso513, row.vdi3323);
    // Whoever asks for a family is told so before any figure.
    match material.family() {
        Some(_) => {
            format!("`{}` is a family and no alloy; its weakest, not what you have in hand: {own}", material.typed())
        }
        None => own,
    }
}

/// A name that is a family: whose figures the page shows, and what to ask for.
pub(super) fn family(material: &Material) -> String {
    let members: Vec<&str> = material.members().iter().map(|member| member.row().name.as_str()).collect();
    let (typed, weakest) = (material.typed(), &material.row().name);
    let members = members.join("; ");
    let note = material.family().map(|family| family.note.as_str()).filter(|note| !note.is_empty());
    let note = note.map_or_else(String::new, |note| format!(" ({note})"));
    format!(
        "DOUBTFUL: `{typed}` is a family and no alloy{note}: figures of the weakest ({weakest}), speeds of the slowest; ask for one of: {members}"
    )
}

/// Title of a speed.
pub(super) fn speed_title(material: &Material, work: Work, tool: ToolMaterial) -> String {
    format!("{} with {} in {}", work.text(), tool.text(), material.row().name)
}

/// Title of a cut in the lathe.
pub(super) fn turn_title(material: &Material, tool: ToolMaterial) -> String {
    format!("a cut in the lathe with {} in {}", tool.text(), material.row().name)
}

/// Title of a cut of the mill.
pub(super) fn mill_title(material: &Material, tool: ToolMaterial) -> String {
    format!("a cut of the mill with {} in {}", tool.text(), material.row().name)
}

/// Title of a bush.
pub(super) fn bush_title(bush: &Material, housing: &Material) -> String {
    format!("bush of {} pressed into {}", bush.row().name, housing.row().name)
}

/// Title of a reamer.
pub(super) fn reamer_title(hole: &Fit) -> String {
    format!("fixed reamer for a hole {hole}, DIN 1420")
}

/// A reamer is asked for by something else than one hole.
pub(super) fn reamer_without_hole(fit: &Fit) -> String {
    format!("`{fit}` is not one hole with its size, as in `16 H7`")
}

/// Title of a hardness.
pub(super) fn hardness_title(hardness: Hardness) -> String {
    format!("{hardness} on the other scales, ISO 18265")
}

/// Title of an instrument.
pub(super) fn instrument_title(kind: &str) -> String {
    format!("{kind}: what it is usually worth")
}

/// Title of a drill.
pub(super) fn drill_title(material: &Material) -> String {
    format!("twist drill of HSS in {}", material.row().name)
}

/// A range of sizes.
pub(super) fn range(from: f64, to: f64) -> String {
    format!("{} to {} mm", figure(from), figure(to))
}

/// What the shop says of its own.
pub(super) fn of_the_shop(name: &str, uncertainty: f64) -> String {
    format!("of this shop: {name}, ± {} mm", figure(uncertainty))
}

/// A row of the table of reaming.
pub(super) fn reaming_row(row: &'static reaming_rows::Row) -> Row {
    let by = if row.by == "any" { String::new() } else { format!(" by {}", row.by) };
    let of = if matches!(row.material.as_str(), "" | "any") { String::new() } else { format!(", {}", row.material) };
    let what = format!("{}{by}{of}", row.topic.replace('-', " "));
    match (row.low, row.high) {
        (Some(low), Some(high)) => Row::figure(REAMING, what, (low, high, row.unit.as_str()), &row.note, row.source()),
        _ => Row::words(REAMING, what, &row.note, row.source()),
    }
}

/// Limits that no row gave.
pub(super) fn no_limits(lacking: &[&str]) -> String {
    format!("no limit was read, and none is invented: {}", lacking.join("; "))
}

/// A lead form in words.
pub(super) fn lead(low: f64, high: f64, purpose: &str, note: &str) -> String {
    let threads = if low == high { figure(low) } else { format!("{} to {}", figure(low), figure(high)) };
    joined(&[&format!("{threads} threads"), purpose, note])
}

/// The texts that say something, one after the other.
pub(super) fn joined(texts: &[&str]) -> String {
    let said: Vec<&str> = texts.iter().copied().filter(|text| !text.is_empty()).collect();
    said.join("; ")
}

/// The doubt of an instrument that was taken.
pub(super) fn doubt_of_instrument(key: &str, half: f64, instrument: &str) -> String {
    format!("{key}: doubt taken as ± {} mm, that of {instrument}", figure(half))
}

/// The doubt that was taken for want of any.
pub(super) fn doubt_of_last_digit(key: &str, half: &str) -> String {
    format!("{key}: no doubt was given, ± {half} was taken (half a unit of the last digit)")
}

/// How the spread of a thread was treated.
pub(super) fn spread(side: Side) -> &'static str {
    match side {
        Side::Bolt => {
            "a bolt's crests lie under nominal: its least limit where one was read, else up to 0.2 of the pitch under; agrees: within 1 combined doubt, near miss: within 5"
        }
        Side::Nut => {
            "a nut's crests lie over basic: its limits where they were read, else up to 0.25 of the pitch over; agrees: within 1 combined doubt, near miss: within 5"
        }
    }
}

/// What tells a candidate from the first.
pub(super) fn told_apart(first: Thread, all: &[Decides]) -> String {
    if all.is_empty() {
        return format!("nothing that is easily measured tells it from {}", first.name());
    }
    let one = |decides: &Decides| match decides {
        Decides::Length { over, one, other } => {
            format!("length over {} threads ({other:.2} mm, not {one:.2})", figure(*over))
        }
        Decides::Flanks { one, other } => format!("flank angle gauge ({} deg, not {})", figure(*other), figure(*one)),
        Decides::Diameter { one, other } if other < one => {
            format!("diameter (at most {other:.2} mm, not at least {one:.2})")
        }
        Decides::Diameter { one, other } => format!("diameter (at least {other:.2} mm, not at most {one:.2})"),
    };
    let told: Vec<String> = all.iter().map(one).collect();
    format!("told from {} by {}", first.name(), told.join(", or "))
}

/// A fit that names no size.
pub(super) fn fit_without_size(fit: &Fit) -> String {
    format!("the limits need the nominal size in mm before the classes, as in `25 {fit}`")
}

/// Threads that agree and are not shown.
pub(super) fn more_agree(count: usize) -> String {
    format!("{count} more agree and are not listed: measure the pitch as well")
}

/// Deviations in words.
pub(super) fn deviations(lower: f64, upper: f64) -> String {
    format!("{lower:+} / {upper:+} um")
}

/// Clearance, transition or interference.
pub(super) fn kind_of_fit(least: f64, most: f64) -> &'static str {
    match (least >= 0.0, most <= 0.0) {
        (true, _) => "a clearance fit",
        (false, true) => "an interference fit",
        (false, false) => "a transition fit: it may come out with clearance or with interference",
    }
}

/// A machine that the shop does not have for this.
pub(super) fn no_machine(name: &str, known: &str) -> String {
    format!("the shop has no machine `{name}` for this work; {known}")
}

/// The lowest step is still too fast.
pub(super) fn step_over(ratio: f64) -> String {
    format!("no step is low enough: the lowest is {:.0} % over what is wanted", 100.0 * (ratio - 1.0))
}

/// How a source is cited.
pub(super) fn cited(kind: &str, marks: &[String], tables: &[String]) -> String {
    if marks.is_empty() {
        return format!("{kind}; no row of a table cites it");
    }
    format!("{kind}; {}; in {}", marks.join(", "), tables.join(", "))
}

/// What a property of the cutting table is called.
fn property(id: &str) -> &str {
    match id {
        "kc1.1" => "specific force at 1 mm chip, kc1.1",
        "kc1.1-fit" => "specific force at 1 mm chip, fitted",
        "kc-at-feed" => "specific force at a feed",
        "mc" => "exponent of the chip's thickness, mc",
        "mc-fit" => "exponent of the chip's thickness, fitted",
        "turn-vc-rough" => "rough turning, speed",
        "turn-vc-finish" => "finish turning, speed",
        "turn-feed" => "turning, feed",
        "turn-feed-rough" => "rough turning, feed",
        "turn-feed-finish" => "finish turning, feed",
        "drill-vc" => "drilling, speed",
        "ream-vc" => "reaming, speed",
        "ream-vc-factor" => "reaming, speed over drilling's",
        "tap-vc" => "tapping, speed",
        "tap-note" => "tapping",
        "mill-vc" => "milling, speed",
        "mill-fz" => "milling, feed a tooth",
        "machining" => "machining",
        other => other,
    }
}

/// What a flag of the cutting table means.
fn flag(id: &str) -> &str {
    match id {
        "ceiling" => "CEILING, never a start",
        "distressed" => "DISTRESSED, never a start",
        "refuse" => "REFUSED",
        "alternative" => "another group or edition beside the row that is used",
        other => other,
    }
}

/// Heading of the cutting rows.
pub(super) const CUTTING: &str = "cutting rows, each as its source has it";

/// A row of the cutting table.
pub(super) fn cutting_row(row: &'static speeds::Row) -> Row {
    let tool = if matches!(row.tool, "" | "any") { String::new() } else { format!(", {}", row.tool) };
    let what = format!("{}{tool}", property(row.property));
    let says = joined(&[flag(row.flag), row.condition, row.note]);
    match (row.low, row.high) {
        (Some(low), Some(high)) => Row::figure(CUTTING, what, (low, high, row.unit), says, row.source()),
        _ => Row::words(CUTTING, what, says, row.source()),
    }
}

/// A family in the list of materials.
pub(super) fn any_of(names: &[&str]) -> String {
    let others: Vec<&str> = names.iter().skip(1).copied().collect();
    let of = "a family: every member is judged and the worst is kept";
    if others.is_empty() { of.to_owned() } else { format!("{of}; also {}", others.join(", ")) }
}
