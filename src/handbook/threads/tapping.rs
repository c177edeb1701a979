//! Tapping: percentage of thread on a named basis, torque.

use super::insert::Lead;
use super::thread_form::Form;
use crate::formula;
use crate::handbook::materials::groups::{Kind, Material};
use crate::handbook::table::{cited, rows, seen};
use crate::proof::{Mark, Refusal, Worked};
use crate::quantity::{Angle, Mm, NewtonMetre, Quantity, Ratio, Stress, figure};
use serde::Deserialize;
use std::sync::LazyLock;

formula! {
    /// Percentage of thread that a drill leaves, on a basis whose full height (both sides) is `k` pitches.
    thread_percentage(d: Mm = "the major diameter" in 0.2..=300.0, drill: Mm = "the drill" in 0.1..=300.0,
        k: Ratio = "the full height over the pitch" in 1.0..=1.4, P: Mm = "the pitch" in 0.05..=12.0)
        -> pct: Ratio { 100.0 * (d - drill) / (k * P) }
    source Read "tapping notes of a thread supplier; ISO 68-1 page for the 5/8 H basis"
}
formula! {
    /// Drill for a wanted percentage of thread.
    drill_for_percentage(d: Mm = "the major diameter" in 0.2..=300.0, pct: Ratio = "the percentage of thread" in 1.0..=110.0,
        k: Ratio = "the full height over the pitch" in 1.0..=1.4, P: Mm = "the pitch" in 0.05..=12.0)
        -> drill: Mm { d - k * P * pct / 100.0 }
    source Read "tapping notes of a thread supplier"
}
formula! {
    /// Torque on a tap, by the drill that went before.
    tap_torque(half: Angle = "half the flank angle" in 20.0..=35.0, kc: Stress = "the specific force of tapping" in 100.0..=10_000.0,
        K: Ratio = "the factor of lead and flute" in 0.5..=3.0, D: Mm = "the major diameter cut" in 0.5..=120.0,
        D_o: Mm = "the drill" in 0.3..=120.0)
        -> M: NewtonMetre { tan(half) * kc * K * sq(D - D_o) * (D + 2.0 * D_o) / 24000.0 }
    source Read "tap maker's catalogue, editions of 2016 and 2021"
}
formula! {
    /// Torque on a tap, the shorter form that does not see the drill.
    tap_torque_short(kc: Stress = "the specific force of tapping" in 100.0..=10_000.0, P: Mm = "the pitch" in 0.1..=8.0,
        d: Mm = "the nominal diameter" in 0.5..=120.0)
        -> M: NewtonMetre { kc * sq(P) * d / 8000.0 }
    source Read "another tap maker's page"
}

#[derive(Debug, Deserialize)]
struct BasisRow {
    form: Form,
    flank_angle_deg: f64,
    basis_name: String,
    basis_height_over_pitch: f64,
    source: String,
    #[serde(deserialize_with = "seen")]
    seen: Mark,
}

fn basis_rows(form: Form) -> impl Iterator<Item = &'static BasisRow> {
    static ROWS: LazyLock<Vec<BasisRow>> = LazyLock::new(|| rows(include_str!("../../../shared/thread-forms.csv")));
    ROWS.iter().filter(move |row| row.form == form)
}

/// The included angle of a form's flanks.
///
/// # Errors
/// [`Refusal::NoRow`] where the table lacks the form.
pub(crate) fn flank_angle(form: Form) -> Result<Worked<Angle>, Refusal> {
    let row = basis_rows(form).next();
    let row = row.ok_or_else(|| Refusal::NoRow { table: "flank angle", wanted: form.standard().into() })?;
    let says = format!("{}: flanks at {} deg", form.standard(), figure(row.flank_angle_deg));
    Ok(Worked::row(Angle::new(row.flank_angle_deg), says, cited(&row.source, row.seen)))
}

/// The bases of percentage of thread of a form: the form's own first, then, for the 60° forms, that of ISO 68-1.
pub fn bases(form: Form) -> Vec<(String, Worked<Ratio>)> {
    basis_rows(form)
        .map(|row| {
            let says = format!("{} basis: full height {} P", row.basis_name, figure(row.basis_height_over_pitch));
            let basis = Worked::row(Ratio::new(row.basis_height_over_pitch), says, cited(&row.source, row.seen));
            (row.basis_name.clone(), basis)
        })
        .collect()
}

/// The percentage of thread on each basis of the form.
///
/// # Errors
/// [`Refusal::Outside`] where the drill is no drill for this thread.
pub(crate) fn percentages(
    form: Form,
    major: &Worked<Mm>,
    drill: &Worked<Mm>,
    pitch: &Worked<Mm>,
) -> Result<Vec<Worked<Ratio>>, Refusal> {
    bases(form).iter().map(|(_, basis)| thread_percentage(major, drill, basis, pitch)).collect()
}

#[derive(Debug, Deserialize)]
struct ForceRow {
    material_id: String,
    kc_mpa: f64,
    source: String,
    #[serde(deserialize_with = "seen")]
    seen: Mark,
}

/// Specific force of tapping in a material.
///
/// # Errors
/// [`Refusal::NoRow`] where the table has no such material.
pub fn specific_force(material: &Material) -> Result<Worked<Stress>, Refusal> {
    static ROWS: LazyLock<Vec<ForceRow>> = LazyLock::new(|| rows(include_str!("../../../shared/tapping-kc.csv")));
    let row = ROWS.iter().find(|row| row.material_id == material.id());
    let row =
        row.ok_or_else(|| Refusal::NoRow { table: "specific force of tapping", wanted: material.row().name.clone() })?;
    let says = format!("{}: specific force of tapping {} MPa", material.row().name, figure(row.kc_mpa));
    Ok(Worked::row(Stress::new(row.kc_mpa), says, cited(&row.source, row.seen)))
}

#[derive(Debug, Deserialize)]
struct FactorRow {
    lead: String,
    by: String,
    kinds: String,
    k_coarse: f64,
    k_fine: Option<f64>,
    source: String,
    #[serde(deserialize_with = "seen")]
    seen: Mark,
}

/// Factor of the torque for a hand tap's lead in a kind of material; a taper lead is taken as plug.
///
/// # Errors
/// [`Refusal::NoRow`] where the table has no such kind.
pub(crate) fn hand_tap_factor(lead: Lead, kind: Kind, fine: bool) -> Result<Worked<Ratio>, Refusal> {
    static ROWS: LazyLock<Vec<FactorRow>> = LazyLock::new(|| rows(include_str!("../../../shared/tapping-k.csv")));
    let lead = if lead == Lead::Bottoming { "bottoming" } else { "plug" };
    let of_kind = |row: &&FactorRow| row.kinds.split(';').any(|name| kind.text() == name);
    let row = ROWS.iter().filter(|row| row.by == "hand" && row.lead == lead).find(of_kind);
    let row = row.ok_or_else(|| Refusal::NoRow { table: "factor of tapping torque", wanted: kind.text().into() })?;
    let factor = row.k_fine.filter(|_| fine).unwrap_or(row.k_coarse);
    let says = format!("hand tap, {lead} lead in {}: factor {}", kind.text(), figure(factor));
    Ok(Worked::row(Ratio::new(factor), says, cited(&row.source, row.seen)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::handbook::table::audit;

    #[test]
    fn every_row_loads() {
        for (all, good, first) in [
            audit::<BasisRow>(include_str!("../../../shared/thread-forms.csv")),
            audit::<ForceRow>(include_str!("../../../shared/tapping-kc.csv")),
            audit::<FactorRow>(include_str!("../../../shared/tapping-k.csv")),
        ] {
            assert_eq!(all, good, "{first}");
        }
    }
}
