//! Wire thread inserts: lengths, leads, how deep the hole goes, what a coil occupies, what stands about it.

pub use super::insert_hole::InsertHole;
pub use super::insert_rows::{InsertRow, row, rule};
pub use super::insert_zero::*;
pub use super::lead::Lead;
use crate::formula;
use crate::proof::{Refusal, Worked};
use crate::quantity::{Angle, Mm, Ratio};

formula! {
    /// Nominal length of an insert of so many diameters.
    insert_length(k: Ratio = "the length in diameters" in 0.5..=4.0, D: Mm = "the nominal diameter" in 1.0..=100.0)
        -> L: Mm { k * D }
    source Read "ASME B18.29.2M notes: nominal lengths 1D to 3D"
}
formula! {
    /// Least depth of full insert thread in a blind hole.
    full_thread_depth(L: Mm = "the insert length" in 0.5..=300.0, P: Mm = "the pitch" in 0.2..=6.0)
        -> T: Mm { L + P }
    source Read "ASME B18.29.2M notes: full thread at least L + 1 P"
}
formula! {
    /// Drilled depth to the full diameter: lead of the tap, clearance at its end, set-down and countersink.
    drilled_depth(L: Mm = "the insert length" in 0.5..=300.0, lead: Ratio = "the lead of the tap in threads" in 0.5..=12.0,
        clear: Ratio = "the clearance at the end in pitches" in 0.0..=3.0, set: Ratio = "the set-down in pitches" in 0.0..=3.0,
        centre: Mm = "the male centre of the tap" in 0.0..=10.0, P: Mm = "the pitch" in 0.2..=6.0)
        -> H: Mm { L + centre + (lead + clear + set) * P }
    source Read "ASME B18.29.2M notes; Machinery's Handbook 31 p. 1746 (drawing note M8 x 1.25 x 12)"
}
formula! {
    /// Length of the male centre of a small tap.
    male_centre(D: Mm = "the nominal diameter" in 1.0..=8.0)
        -> centre: Mm { 0.5 * D }
    source Read "ASME B18.29.2M notes: 0.5 D up to 8 mm"
}
formula! {
    /// Length of a drill's point.
    drill_point(d: Mm = "the drill" in 0.1..=100.0, point: Angle = "the point angle" in 60.0..=180.0)
        -> p: Mm { d / 2.0 / tan(point / 2.0) }
    source Derived "geometry of the cone"
}
formula! {
    /// What a coil occupies when it sits in a basic hole: the short end.
    assembled_length(L: Mm = "the insert length" in 0.5..=300.0, P: Mm = "the pitch" in 0.2..=6.0)
        -> L_a: Mm { L - 0.75 * P }
    source Read "ASME B18.29.2M notes: assembled length L - 0.5 P to L - 0.75 P"
}
formula! {
    /// Engaged length that the bolt's reach gives.
    engaged_by_reach(reach: Mm = "the reach of the bolt" in 0.0..=300.0, P: Mm = "the pitch" in 0.2..=6.0)
        -> L_r: Mm { reach - 0.5 * P }
    source CommonPractice "the first coil sits half a pitch down"
}
formula! {
    /// Least depth of the foot of the coil under the face, without a countersink.
    foot_least(L: Mm = "the insert length" in 0.5..=300.0, P: Mm = "the pitch" in 0.2..=6.0)
        -> foot: Mm { L - 0.5 * P }
    source Read "ASME B18.29.2M notes; set-down 0.25 P to 0.5 P without a countersink"
}
formula! {
    /// The most that a bolt may reach while the tang stays in.
    reach_with_tang(foot: Mm = "the foot of the coil" in 0.0..=300.0, P: Mm = "the pitch" in 0.2..=6.0)
        -> reach: Mm { foot - P }
    source FromMemory "installation practice: the screw stops 1 P short of the tang"
}
formula! {
    /// Wall that a through insert asks with a countersink.
    through_wall_countersunk(L: Mm = "the insert length" in 0.5..=300.0, P: Mm = "the pitch" in 0.2..=6.0)
        -> W: Mm { L + P }
    source Read "ASME B18.29.2M notes: least thickness L, countersunk L + 1 P"
}
formula! {
    /// Distance from the hole to the nearest edge.
    edge_wall(edge: Mm = "the edge distance" in 0.0..=1000.0, D_hole: Mm = "the major diameter of the hole" in 0.5..=120.0)
        -> R: Mm { edge - D_hole / 2.0 }
    source Derived "geometry"
}
formula! {
    /// Metal asked between hole and edge, as a share of the hole's major diameter.
    edge_wall_share(k: Ratio = "the share" in 0.05..=2.0, D_hole: Mm = "the major diameter of the hole" in 0.5..=120.0)
        -> R: Mm { k * D_hole }
    source Read "insert maker's construction page: a share of the hole's major diameter; the share says which rule it is of"
}
formula! {
    /// Edge distance that another maker asks.
    edge_distance_asked(D: Mm = "the nominal diameter" in 1.0..=100.0)
        -> edge: Mm { 2.0 * D }
    source Read "another insert maker's design notes: hole centre to edge at least 2 x thread"
}
formula! {
    /// Depth that the tap's first thread reaches: full thread and the lead.
    tap_depth(T: Mm = "the full thread" in 0.0..=400.0, lead: Ratio = "the lead of the tap in threads" in 0.5..=12.0,
        P: Mm = "the pitch" in 0.2..=6.0)
        -> t: Mm { T + lead * P }
    source Derived "full thread plus the lead"
}
formula! {
    /// Turns of the tap over its depth.
    turns(t: Mm = "the depth tapped" in 0.0..=500.0, P: Mm = "the pitch" in 0.2..=6.0)
        -> k: Ratio { t / P }
    source Derived "one pitch a turn"
}
formula! {
    /// Set-down of the first coil, at most, with a countersink.
    set_down_countersunk(P: Mm = "the pitch" in 0.2..=6.0)
        -> s: Mm { 1.5 * P }
    source Read "ASME B18.29.2M notes, NASM33537: 0.75 P to 1.5 P with a countersink"
}
formula! {
    /// Set-down of the first coil, at most, without a countersink.
    set_down_plain(P: Mm = "the pitch" in 0.2..=6.0)
        -> s: Mm { 0.5 * P }
    source Read "insert maker's design notes, DIN 8140 page: 0.25 P to 0.5 P without"
}
formula! {
    /// Reach at which the bolt passes the last coil.
    reach_past_coil(L: Mm = "the insert length" in 0.5..=300.0, P: Mm = "the pitch" in 0.2..=6.0)
        -> reach: Mm { L + 2.0 * P }
    source Read "insert maker's design notes: at least 2 P past the last coil where possible"
}
formula! {
    /// A boss taken as round about the hole.
    boss_across(edge: Mm = "the edge distance" in 0.0..=1000.0)
        -> s: Mm { 2.0 * edge }
    source Derived "twice the distance to the nearest edge"
}

/// Set-down of the first coil, at most.
///
/// # Errors
/// [`Refusal::Outside`] for a pitch of no insert.
pub(crate) fn set_down(countersunk: bool, pitch: &Worked<Mm>) -> Result<Worked<Mm>, Refusal> {
    if countersunk { set_down_countersunk(pitch) } else { set_down_plain(pitch) }
}
