//! Rules that hold for every material of the book: what a machinist would doubt at a glance must not be on a page.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use setover::handbook::cutting::coolants;
use setover::handbook::cutting::speeds::{Row, Work, rows_of, start_speed};
use setover::handbook::joints::reaming::forbids_reaming;
use setover::handbook::joints::reaming_run::{reaming_speed, reaming_speed_with};
use setover::handbook::materials::groups::Kind;
use setover::handbook::{Material, ToolMaterial};
use std::collections::BTreeSet;

/// The materials that have a row of cutting; the row `any` is none.
fn materials() -> Vec<Material> {
    let mut table = csv::ReaderBuilder::new().comment(Some(b'#')).from_path("shared/cutting.csv").unwrap();
    let at = table.headers().unwrap().iter().position(|column| column.trim() == "material").unwrap();
    let ids: BTreeSet<String> = table.records().map(|row| row.unwrap()[at].trim().to_owned()).collect();
    let found: Vec<Material> = ids.into_iter().filter(|id| *id != "any").map(|id| id.parse().unwrap()).collect();
    assert_eq!(found.len(), 31);
    found
}

fn start(material: &Material, work: Work, tool: ToolMaterial) -> Option<f64> {
    start_speed(material, work, tool).ok().map(|speed| speed.number())
}

#[test]
fn a_reamer_begins_no_faster_than_a_drill() {
    for material in materials() {
        let drilling = [ToolMaterial::Hss, ToolMaterial::HssCo].map(|tool| start(&material, Work::Drill, tool));
        let Some(drilling) = drilling.into_iter().flatten().next() else { continue };
        for tool in [ToolMaterial::Hss, ToolMaterial::Carbide] {
            if let Ok(reaming) = reaming_speed_with(&material, tool) {
                let share = if tool == ToolMaterial::Hss { 0.5 } else { 1.0 };
                assert!(reaming.number() <= share * drilling + 1e-9, "{}: {}", material.id(), reaming.number());
            }
        }
    }
}

#[test]
fn carbide_is_never_slower_than_hss() {
    for material in materials() {
        for work in Work::ALL.into_iter().filter(|work| *work != Work::Ream) {
            let of = |tool| start(&material, work, tool);
            if let (Some(hss), Some(carbide)) = (of(ToolMaterial::Hss), of(ToolMaterial::Carbide)) {
                assert!(hss <= carbide, "{} {}: HSS {hss}, carbide {carbide}", material.id(), work.text());
            }
        }
        if let (Ok(hss), Ok(carbide)) = (reaming_speed(&material), reaming_speed_with(&material, ToolMaterial::Carbide))
        {
            assert!(hss.number() <= carbide.number(), "{}", material.id());
        }
    }
}

#[test]
fn a_harder_condition_of_the_same_steel_is_begun_no_faster() {
    let ladders = [
        &["en8-1045", "en8-1045-qt"][..],
        &["grey-iron-soft", "grey-iron-barrel"],
        &["4140-soft", "4140-30hrc", "4140-40hrc"],
    ];
    for ladder in ladders {
        for work in Work::ALL {
            for tool in [ToolMaterial::Hss, ToolMaterial::Carbide] {
                // The carbide rows of annealed chrome-moly are brazed tools': slow, and no measure of the harder ones.
                if tool == ToolMaterial::Carbide && ladder[0] == "4140-soft" {
                    continue;
                }
                let begun: Vec<f64> = ladder.iter().filter_map(|id| start(&id.parse().unwrap(), work, tool)).collect();
                assert!(
                    begun.is_sorted_by(|soft, hard| soft >= hard),
                    "{ladder:?} {} {}: {begun:?}",
                    work.text(),
                    tool.text()
                );
            }
        }
    }
}

#[test]
fn a_carbon_steel_drill_begins_at_half_the_speed_of_high_speed_steel() {
    for material in materials() {
        let of = |tool| start(&material, Work::Drill, tool);
        let (carbon, hss) = (of(ToolMaterial::CarbonSteel), of(ToolMaterial::Hss));
        assert_eq!(carbon, hss.map(|speed| speed * 0.5), "{}", material.id());
    }
}

#[test]
fn no_start_is_a_flagged_row() {
    let properties = ["turn-vc-rough", "turn-vc-finish", "drill-vc", "ream-vc", "tap-vc", "mill-vc"];
    for material in materials() {
        for (work, property) in [
            (Work::TurnRough, properties[0]),
            (Work::TurnFinish, properties[1]),
            (Work::Drill, properties[2]),
            (Work::Ream, properties[3]),
            (Work::Tap, properties[4]),
            (Work::Mill, properties[5]),
        ] {
            // A carbon steel drill has no rows: it takes half of those of high-speed steel.
            for tool in ToolMaterial::ALL.into_iter().filter(|tool| *tool != ToolMaterial::CarbonSteel) {
                let Some(begun) = start(&material, work, tool) else { continue };
                let free = |row: &&Row| row.flag.is_empty() && row.low == Some(begun);
                let rows = rows_of(&material, property, Some(tool));
                assert!(rows.into_iter().any(|row| free(&row)), "{} {property}: {begun}", material.id());
            }
        }
    }
}

#[test]
fn hard_metal_gives_no_speed_for_hss() {
    let hard: Vec<Material> = materials().into_iter().filter(|m| m.kind() == Kind::HardSteel).collect();
    assert_eq!(hard.len(), 2);
    for material in hard {
        for work in Work::ALL {
            assert_eq!(start(&material, work, ToolMaterial::Hss), None, "{} {}", material.id(), work.text());
        }
        assert!(reaming_speed(&material).is_err(), "{}", material.id());
    }
}

#[test]
fn what_must_not_be_cut_or_reamed_gives_no_speed() {
    let lining: Material = "cork-friction".parse().unwrap();
    for tool in ToolMaterial::ALL {
        assert!(Work::ALL.into_iter().all(|work| start(&lining, work, tool).is_none()), "{}", tool.text());
    }
    assert!(reaming_speed(&lining).is_err());
    let sintered: Material = "sintered-bronze".parse().unwrap();
    assert!(forbids_reaming(&sintered).is_some() && reaming_speed(&sintered).is_err());
}

#[test]
fn coolants_of_magnesium_name_no_water_and_sintered_bronze_has_no_liquid() {
    let magnesium: Material = "mg-cast".parse().unwrap();
    let rows: Vec<&str> = coolants::of(&magnesium).map(|row| row.coolant.as_str()).collect();
    assert_eq!(rows.len(), 3);
    for says in rows {
        assert!(!says.contains("soluble") && !says.contains("emulsion"), "{says}");
        assert!(says.contains("no water"), "must forbid it: {says}");
    }
    let sintered: Material = "sintered-bronze".parse().unwrap();
    let rows: Vec<&str> = coolants::of(&sintered).map(|row| row.coolant.as_str()).collect();
    assert!(!rows.is_empty());
    assert!(rows.iter().all(|says| says.starts_with("dry") && !says.contains("oil")), "{rows:?}");
}

#[test]
fn every_metal_that_is_drilled_has_the_thrust_of_a_worn_drill() {
    use setover::handbook::cutting::drilling;
    for material in materials() {
        let metal = !matches!(material.kind(), Kind::Plastic | Kind::Lining | Kind::Sintered | Kind::HardSteel);
        assert_eq!(drilling::work_factor(&material).is_ok(), metal, "{}", material.id());
    }
}
