//! Figures of other people's practice, worked by the commands and formulas themselves. Each says where it is from: `read`, or
//! `worked by hand` from a definition that was read.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common::{self, agrees, first, in_shop, plan, shop, value, verdict, with};
use crate::rebore::{BARREL, number, of};
use approx::assert_abs_diff_eq;
use setover::proof::{Cause, Verdict, Worked};
use setover::quantity::{Mm, Quantity};

/// Read: a maker's page on shimming a crankshaft. Shims in steps of 0.05 are taken down to the step, never up.
#[test]
fn a_shim_is_ordered_down_to_its_step() {
    for (found, ordered) in [("2.26", "2.25"), ("2.28", "2.25"), ("2.33", "2.30")] {
        let job = format!(
            "job: Crankshaft\nparts:\n  - part: crankshaft\n    material: mild steel\n    operations:\n      - shim: {{float: 0.10 .. 0.30 mm, aim: 0.20 mm, round: down to 0.05 mm, chain: [{{link: cases, opens: 2{found} ± 0.005 mm}}, {{link: crankshaft, closes: 19.80 ± 0.005 mm}}]}}\n"
        );
        let it = in_shop(&job);
        assert_abs_diff_eq!(value(first(&it), "pack_wanted"), found.parse::<f64>().unwrap(), epsilon = 1e-9);
        agrees(ordered, value(first(&it), "pack_to_order"));
    }
}

/// Read: a service manual of a gearbox. The shim is both depths less the shaft less 0.25, the middle of 0.10 to 0.40.
#[test]
fn a_selector_shaft_is_shimmed_to_the_middle_of_its_float() {
    let it = in_shop(
        "job: Selector\nparts:\n  - part: selector shaft\n    material: mild steel\n    operations:\n      - shim: {float: 0.10 .. 0.40 mm, chain: [{link: case, opens: 61.42 ± 0.005 mm}, {link: cover, opens: 23.18 ± 0.005 mm}, {link: shaft, closes: 83.55 ± 0.005 mm}]}\n",
    );
    assert_abs_diff_eq!(value(first(&it), "pack_wanted"), 61.42 + 23.18 - 83.55 - 0.25, epsilon = 1e-9);
}

/// Read: a car maker's service manual, bored size = piston + clearance − what the hone takes, 0.02.
#[test]
fn a_bore_is_bored_to_piston_and_clearance_less_the_hone() {
    let it = crate::rebore::worked(&with(BARREL, "honing: 0.05 mm", "honing: 0.02 mm"));
    assert_abs_diff_eq!(value(first(&it), "bored_size"), 67.085 + 0.09525 - 0.02, epsilon = 1e-9);
}

/// Two makers' definitions, read; the six diameters are worked by hand. The one takes out of round over all depths, the other at each.
#[test]
fn out_of_round_and_taper_by_two_makers() {
    let readings = with(
        BARREL,
        "thrust: 66.815 66.765 66.705 mm, pin: 66.775 66.745 66.695 mm",
        "thrust: 79.13 79.08 79.02 mm, pin: 79.09 79.06 79.01 mm",
    );
    let readings = with(&with(&readings, "nominal: 2 5/8 in", "nominal: 79 mm"), "size: 66.680 mm", "size: 79.000 mm");
    for (definition, round, taper) in [("same-depth", 0.04, 0.11), ("mixed-depth", 0.12, 0.11)] {
        let it = crate::rebore::worked(&with(&readings, "same-depth", definition));
        assert_abs_diff_eq!(value(first(&it), "bore_worst"), 79.13, epsilon = 1e-9);
        assert_abs_diff_eq!(value(first(&it), "out_of_round"), round, epsilon = 1e-9);
        assert_abs_diff_eq!(value(first(&it), "taper"), taper, epsilon = 1e-9);
    }
}

/// Read: TM 9-2815-220-24, limits of the bore for each oversize, inches: those of the standard bore and the oversize.
#[test]
fn each_oversize_has_the_limits_of_the_standard_bore_and_the_oversize() {
    let job = "job: Engine\nparts:\n  - part: liner\n    material: GG25\n    operations:\n      - bore: {nominal: 5.7520 in, length: 250 mm, readings: {kind: diameter, with: bore gauge, depths: 20 125 230 mm, thrust: 5.7560 5.7550 5.7540 in, pin: 5.7530 5.7530 5.7530 in}, unworn: 5.7520 ± 0.0002 in, limits: {out-of-round: 0.0030 in}, definition: same-depth, series: inch, clearance: 0.0060 .. 0.0080 in}\n";
    let it = plan(job, Some(&shop(crate::rebore::SHOP)));
    let inches = |of: f64| of / 25.4;
    for (marked, least, greatest) in [
        ("+0.010 in", 5.7610, 5.7630),
        ("+0.020 in", 5.7710, 5.7730),
        ("+0.030 in", 5.7810, 5.7830),
        ("+0.040 in", 5.7910, 5.7930),
    ] {
        let one = of(first(&it), marked);
        assert_abs_diff_eq!(inches(number(one, "bore_min")), least, epsilon = 1e-9);
        assert_abs_diff_eq!(inches(number(one, "bore_max")), greatest, epsilon = 1e-9);
    }
    // Worn, it may be 0.0030 out of round: just that, read with any doubt, is doubtful, and a thousandth less is not.
    assert_eq!(verdict(first(&it), "out-of-round"), Verdict::Doubtful);
    let less = with(job, "thrust: 5.7560", "thrust: 5.7549");
    assert_eq!(verdict(first(&plan(&less, Some(&shop(crate::rebore::SHOP)))), "out-of-round"), Verdict::Proven);
}

/// Worked by hand from volumes: what lapping a barrel of 79 by 87 mm at 7.5 : 1 does to its compression.
#[test]
fn compression_by_what_is_lapped_off_a_barrel() {
    let lapped = |flat: f64| {
        // Two places low by as much as is to be lapped, less what finishes it.
        let low = flat * 1000.0 - 10.0;
        let job = format!(
            "job: Barrel\nparts:\n  - part: barrel\n    material: GG25\n    operations:\n      - lap: {{points: {{radius: 48 mm, at: 0 45 90 135 180 225 270 315 deg, reads: 0 {low} 0 {low} 0 {low} 0 {low} um}}, flat-within: 0.01 mm, finish-stock: 0.010 mm, joint: head, bore: 79 mm, swept: 426.45 cm3, clearance-volume: 65.61 cm3, out-first: []}}\n"
        );
        let it = in_shop(&job);
        let (off, after) = (value(first(&it), "metal_to_lap"), value(first(&it), "compression_after"));
        (off, after)
    };
    for (asked, wanted) in [(0.05, 7.524), (0.10, 7.549), (0.25, 7.624), (0.50, 7.752), (1.00, 8.025)] {
        let (off, after) = lapped(asked);
        // The doubt of the map is lapped off too: held at what is really lapped, between the rows of the table.
        let area = std::f64::consts::PI / 4.0 * 79.0 * 79.0;
        let exact = |x: f64| {
            let left = 65.61 - area * x / 1000.0;
            (426.45 + left) / left
        };
        assert_abs_diff_eq!(exact(asked), wanted, epsilon = 6e-4);
        assert_abs_diff_eq!(after, exact(off), epsilon = 1e-6);
        assert!((off - asked).abs() < 0.03, "{off}");
    }
}

/// Worked by hand: the budget of a bore gauge in um, one standard doubt each; together 4.77, twice that 9.53.
#[test]
fn the_doubts_of_a_bore_gauge_add_by_their_squares() {
    let causes = ["the ring", "repeat", "resolution", "warmth", "form"];
    let budget = [2.89, 2.31, 2.0, 1.02, 2.0];
    let of = |times: f64| {
        let parts = causes.iter().zip(budget);
        let exact = Worked::<Mm>::assumed(Mm::new(66.68), "a reading");
        parts.fold(exact, |read, (cause, um)| read.with_doubt(Cause::Named(cause), times * um / 1000.0)).plus_minus()
            * 1000.0
    };
    // The sheet that it is from has 4.76: cut off, not rounded.
    agrees("4.77", of(1.0));
    agrees("9.53", of(2.0));
    // As an instrument of a shop it is this that a reading gets.
    let owned = with(
        crate::rebore::SHOP,
        "uncertainty: 9.5 um, transfer: 8.08 um, set-by: [micrometer]",
        "uncertainty: 9.53 um",
    );
    let it = plan(BARREL, Some(&shop(&owned)));
    let read = common::doubt(first(&it), "bore_worst");
    assert!((read - 0.00953).abs() < 1e-4, "{read}");
}
