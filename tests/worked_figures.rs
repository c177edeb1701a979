//! Worked figures of measuring and deciding that stand in no other file, and slips that give others: each is what somebody gets who
//! takes a short way.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common::{self, SHOP, agrees, doubt, first, in_shop, plan, plan_left, shop, value, verdict, with};
use approx::assert_abs_diff_eq;
use setover::handbook::joints::lapping;
use setover::proof::{Verdict, Worked};
use setover::quantity::{Quantity, Ratio, Unit, Volume};

const FIT: &str = "job: Warm\nparts:\n  - part: barrel\n    material: GG25\n    operations:\n      - fit-up: {bore: READ, shaft: 66.600 ± 0.005 mm, shaft-material: GG25, clearance: 0.1 .. 0.3 mm}\n";

/// Iron at 38 degC under a gauge at 20, and under one as warm as the iron.
#[test]
fn a_warm_bore_is_brought_to_twenty() {
    let bore = |read: &str| value(first(&plan(&FIT.replace("READ", read), Some(&shop(crate::rebore::SHOP)))), "bore");
    agrees("66.8020", bore("{size: 66.815 ± 0.01 mm, at: 38 degC, gauge-at: 20 degC}"));
    let both = bore("{size: 66.815 ± 0.01 mm, at: 38 degC, gauge-at: 38 degC}");
    agrees("0.0008", both - 66.815);
}

/// A setter read worse never betters the clearance that it sets: by subtracting its doubt from the gauge's it would fall from 0.0086 to
/// 0.0042.
#[test]
fn a_worse_setter_betters_no_clearance() {
    let of = |doubt_of_setter: &str| {
        let owned = with(
            crate::rebore::SHOP,
            "uncertainty: 5 um, repeat: 2 um",
            &format!("uncertainty: {doubt_of_setter} um, repeat: 2 um"),
        );
        doubt(first(&plan(crate::rebore::BARREL, Some(&shop(&owned)))), "clearance")
    };
    assert_abs_diff_eq!(of("5"), 0.00856, epsilon = 5e-6);
    let all: Vec<f64> = ["5", "6", "7", "8", "9"].map(of).into();
    assert!(all.windows(2).all(|two| two[1] >= two[0] - 1e-12), "{all:?}");
}

const FOUR: &str = "job: Shaft\nparts:\n  - part: pump shaft\n    material: mild steel\n    operations:\n      - set-true: {hold: {in: four-jaw}, with: lever indicator, jaw-readings: 0 -0.045 -0.130 -0.075 mm, true-within: 0.02 mm}\n";

/// Half of what an indicator reads between two jaws is what the work moves; the whole would turn the key twice as far.
#[test]
fn the_key_turns_for_half_of_the_difference() {
    let it = in_shop(FOUR);
    let turn = |key: &str| value(first(&it), key);
    assert_abs_diff_eq!(turn("turns_first"), 9.21, epsilon = 0.005);
    assert_abs_diff_eq!(turn("turns_second"), 2.13, epsilon = 0.005);
    assert!((turn("turns_first") - 18.4).abs() > 9.0, "by the whole difference");
}

/// Read again after the move: what the centre still makes, with the doubt of the readings, is inside.
#[test]
fn what_is_left_after_the_move_is_read_again() {
    let folder = tempfile::tempdir().unwrap();
    std::fs::write(folder.path().join("job.yaml"), with(FOUR, "job: Shaft", "job: Shaft\nshop: shop.yaml")).unwrap();
    std::fs::write(folder.path().join("shop.yaml"), SHOP).unwrap();
    let run = |words: &[&str]| {
        let output = std::process::Command::new(env!("CARGO_BIN_EXE_setover"));
        let output = { output }.args(words).current_dir(folder.path()).output().unwrap();
        String::from_utf8_lossy(&output.stdout).into_owned() + &String::from_utf8_lossy(&output.stderr)
    };
    let reads = "tir_after=0.002 -0.001 -0.004 0.001 mm";
    let logged =
        run(&["log", "job.yaml", "pump shaft/set-true", reads, "with=lever indicator", "--date", "2026-12-01"]);
    assert!(logged.starts_with("L1"), "{logged}");
    let plan: serde_json::Value = serde_json::from_str(&run(&["plan", "job.yaml", "--format", "json"])).unwrap();
    let after = &plan["operations"][0]["values"]["tir_after"];
    assert_abs_diff_eq!(after["value"].as_f64().unwrap(), 0.00632, epsilon = 5e-6);
    // Twice the repeat, a root of two less; so near to the centre the way to it turns, and the wider side counts.
    let doubt = after["plus_minus"].as_f64().unwrap();
    assert!((0.00283 - 5e-6..0.0030).contains(&doubt), "{doubt}");
    let checks = plan["operations"][0]["checks"].as_array().unwrap();
    let true_enough = checks.iter().find(|check| check["check"] == "true-enough").unwrap();
    assert_eq!(true_enough["state"], "proven");
}

/// Five readings at no equal distances: twice their mean times the cosine is another centre.
#[test]
fn readings_at_unequal_angles_are_fitted() {
    let reads = "readings: {at: 10 80 150 215 300 deg, reads: 21 34 -6 -31 -14 um}";
    let five = in_shop(&with(FOUR, "jaw-readings: 0 -0.045 -0.130 -0.075 mm", reads));
    assert_abs_diff_eq!(value(first(&five), "eccentricity"), 0.03401, epsilon = 5e-6);
    assert_abs_diff_eq!(value(first(&five), "towards"), 55.33, epsilon = 0.005);
    let (at, reads) = ([10.0, 80.0, 150.0, 215.0, 300.0_f64], [21.0, 34.0, -6.0, -31.0, -14.0]);
    let part =
        |of: fn(f64) -> f64| -> f64 { at.iter().zip(reads).map(|(at, read)| 0.4 * read * of(at.to_radians())).sum() };
    assert_abs_diff_eq!(part(f64::cos).hypot(part(f64::sin)) / 1000.0, 0.03254, epsilon = 5e-6);
}

/// The bore grows by the square of what the diameter grows by.
#[test]
fn what_is_swept_grows_by_the_square() {
    let swept = value(first(&crate::rebore::worked(crate::rebore::BARREL)), "swept");
    agrees("315.119", swept);
    let (bore, old) = (67.18025_f64, 66.675);
    assert_abs_diff_eq!(swept / 310.397, (bore / old).powi(2), epsilon = 5e-6);
    assert_abs_diff_eq!(bore / old - 1.0, 0.0076, epsilon = 5e-5);
}

/// Compression is the whole over what is left, not the swept alone.
#[test]
fn compression_counts_the_clearance_twice() {
    let exact = |volume: f64| Worked::<Volume>::assumed(Volume::new(volume), "worked by hand");
    let (swept, left) =
        (exact(315.119), exact(62.079 - std::f64::consts::PI / 4.0 * 67.18025_f64.powi(2) * 0.05 / 1000.0));
    let compression: Worked<Ratio> = lapping::compression(&swept, &left).unwrap();
    agrees("6.0906", compression.number());
    agrees("5.0906", swept.number() / left.number());
}

const DRAWER: &str =
    "shims: [{thickness: 0.248 mm, marked: 0.25 mm, count: 2}, {thickness: 0.530 mm, marked: 0.50 mm, count: 1}]";

/// Two shims by their marks, 0.25 and 0.50, are 0.778 and not 0.75 thick; a gasket counted the wrong way leaves half a millimetre.
#[test]
fn a_pack_is_as_thick_as_it_is_measured() {
    let job = "job: Idler\nparts:\n  - part: idler shaft\n    material: mild steel\n    operations:\n      - shim:\n          float: 0.15 .. 0.25 mm\n          aim: 0.20 mm\n          chain:\n            - {link: case, opens: 84.512 ± 0.008 mm}\n            - {link: gasket, opens: 0.245 ± 0.002 mm}\n            - {link: spigot, closes: 6.120 ± 0.002 mm}\n            - {link: shaft, closes: 56.080 ± 0.002 mm}\n            - {link: collar, closes: 21.6414 ± 0.002 mm}\n";
    let drawer =
        "shims: [{thickness: 0.10 mm, count: 4}, {thickness: 0.27 mm, count: 1}, {thickness: 0.50 mm, count: 2}]";
    let owned = shop(&with(SHOP, drawer, DRAWER));
    let put_in = |pack: f64| {
        let left = [("pack_thickness", pack, Unit::Mm, 0.004)];
        let it = plan_left(job, &owned, ("idler shaft", "shim"), &left);
        (value(first(&it), "float_left"), verdict(first(&it), "float"))
    };
    let (left, held) = put_in(0.530 + 0.248);
    agrees("0.1376", left);
    assert_eq!(held, Verdict::Fails);
    let (claimed, held) = put_in(0.750);
    agrees("0.1656", claimed);
    assert_ne!(held, Verdict::Fails, "by the marks it looks good");
    let (wide, held) = put_in(0.248);
    agrees("0.668", wide);
    assert_eq!(held, Verdict::Fails);
    assert_eq!(common::state(first(&plan(job, Some(&owned))), "all-cuts-known"), setover::proof::Outcome::DoesNotApply);
}
