//! What the trade calls elsewhere what has another word here, and what is said of a word that may be two of them.

/// What others call a thing that is typed here under another word, by that word; the first that is known here is meant.
const ELSEWHERE: &[(&str, &[&str])] = &[
    ("end-mill", &["milling-cutter"]),
    ("endmill", &["milling-cutter"]),
    ("face-mill", &["milling-cutter"]),
    ("fly-cutter", &["milling-cutter"]),
    ("slot-drill", &["milling-cutter"]),
    ("cutter", &["milling-cutter"]),
    ("drill-bit", &["drill"]),
    ("twist-drill", &["drill"]),
    ("drill-set", &["drills"]),
    ("lathe-tool", &["turning"]),
    ("turning-tool", &["turning"]),
    ("knife-tool", &["turning"]),
    ("boring-tool", &["boring-bar"]),
    ("parting-tool", &["parting-blade"]),
    ("cut-off-blade", &["parting-blade"]),
    ("sti-tap", &["insert-tap"]),
    ("milling-machine", &["mill"]),
    ("drilling-machine", &["drill-press"]),
    ("pillar-drill", &["drill-press"]),
    ("bench-drill", &["drill-press"]),
    ("adjustable", &["expanding"]),
    ("bushing", &["bush"]),
    ("wall-thickness", &["wall"]),
    ("speeds", &["spindle"]),
    ("feeds", &["feeds-along", "feed"]),
    ("cross", &["feeds-across"]),
    ("cross-feeds", &["feeds-across"]),
    // The word that another operation has for its size.
    ("size", &["diameter", "hole", "bore", "outside"]),
    ("diameter", &["hole", "bore", "outside", "size"]),
    ("hole", &["diameter", "bore"]),
    ("bore", &["hole", "inside"]),
    ("outside", &["diameter"]),
    ("thickness", &["wall", "length"]),
    ("present", &["hole", "present-hole"]),
    ("depth", &["length"]),
    ("dia", &["diameter"]),
    ("max", &["most"]),
    ("max-speed", &["most"]),
    ("three-jaw", &["chuck"]),
    ("3-jaw", &["chuck"]),
    ("4-jaw", &["four-jaw"]),
    ("arbor", &["mandrel"]),
    ("face-plate", &["faceplate"]),
    ("machine-vice", &["vice"]),
    ("machine-vise", &["vice"]),
    ("clamp", &["clamps"]),
    ("clamped", &["clamps"]),
    ("toe-clamps", &["clamps"]),
    ("strap-clamps", &["clamps"]),
    ("clamped-to-table", &["clamps"]),
    ("bolted-down", &["clamps"]),
    ("arbor-press", &["press"]),
    ("hydraulic-press", &["press"]),
];

pub(super) fn called_elsewhere(word: &str, known: &[&'static str]) -> Option<&'static str> {
    let small = word.trim().to_lowercase().replace([' ', '_'], "-");
    let (_, ours) = ELSEWHERE.iter().find(|(other, _)| *other == small)?;
    ours.iter().copied().find(|ours| known.contains(ours))
}

/// The holds, as the trade names them: a list of what is known has every other word for them too.
const HOLDS: &str =
    "three-jaw, soft-jaws, four-jaw, faceplate, mandrel, collet, vice, clamps, angle-plate, press-support";

/// What is said of a word for what holds the work that is none of those known, where it stands in such a place.
pub(super) fn of_holds(word: &str, near: &str, known: &[&'static str]) -> Option<String> {
    if !["vice", "faceplate", "four-jaw"].iter().all(|hold| known.contains(hold)) {
        return None;
    }
    if ["chuck", "lathe-chuck", "lathe chuck", "the chuck"].contains(&word.trim().to_lowercase().as_str()) {
        return Some("which chuck is it? `three-jaw`, or bored `soft-jaws` in it, `four-jaw`, or a `collet`".into());
    }
    (!near.starts_with("did you mean")).then(|| format!("what holds the work is one of {HOLDS}"))
}
