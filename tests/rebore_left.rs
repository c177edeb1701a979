//! What would scrap a barrel: a rebore judged by less than all of it, and by what the log says was left.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common::{doubt, first, plan, plan_left, shop, state, try_plan, value, verdict, with};
use crate::rebore::{BARREL, SHOP, judged, number, of, worked};
use approx::assert_abs_diff_eq;
use setover::handbook::cutting::deflection;
use setover::plan::Planned;
use setover::proof::{Outcome, Verdict, Worked};
use setover::quantity::{Quantity, Unit};
use std::process::Command;

/// The barrel of whose ring nobody speaks.
fn no_ring() -> String {
    with(BARREL, "          ring-gap: {found: 0.25 ± 0.02 mm, in: 67.183 mm}\n", "")
}

/// The barrel with sizes as they were left, each ± what a bore gauge has.
fn left(sizes: &[(&str, f64)]) -> Planned {
    let left: Vec<_> = sizes.iter().map(|(key, size)| (*key, *size, Unit::Mm, 0.007)).collect();
    first(&plan_left(&no_ring(), &shop(SHOP), ("barrel", "bore"), &left)).clone()
}

/// Bored to the finished size, there is nothing for the hone; honed after that, the piston is loose.
#[test]
fn a_bore_that_left_nothing_for_the_hone_fails() {
    let all = |size: f64| {
        let it = left(&[("bored_size", size)]);
        (verdict(&it, "hone-left"), verdict(&it, "cleans-up"), it.verdict)
    };
    assert_eq!(all(67.130), (Verdict::Proven, Verdict::Proven, Verdict::Proven));
    assert_eq!(all(67.18025).0, Verdict::Fails);
    assert_eq!(all(67.200), (Verdict::Fails, Verdict::Proven, Verdict::Fails));
    assert_eq!(all(67.165).0, Verdict::Doubtful, "the marks of the tool stay");
    // Bored too little: not clean before the hone, and more than a hand keeps round.
    assert_eq!(all(66.990), (Verdict::Doubtful, Verdict::Doubtful, Verdict::Doubtful));
    let finished = |size: f64| {
        let it = left(&[("bored_size", 67.130), ("finish_bore", size)]);
        (verdict(&it, "clearance"), it.verdict)
    };
    assert_eq!(finished(67.180), (Verdict::Proven, Verdict::Proven));
    assert_eq!(finished(67.192).0, Verdict::Doubtful);
    assert_eq!(finished(67.23025), (Verdict::Fails, Verdict::Fails), "honed on from the finished size");
    assert_eq!(finished(67.150), (Verdict::Doubtful, Verdict::Doubtful), "tight: it is honed on");
}

/// A bore that went over its limits has the wall of what it is, not of what was planned.
#[test]
fn a_bore_that_went_too_far_has_less_wall() {
    let thick = with(BARREL, "least-wall: 2.5 mm", "least-wall: 2.9 mm");
    let it = |size: f64| {
        let left = [("bored_size", size, Unit::Mm, 0.0095)];
        verdict(first(&plan_left(&thick, &shop(SHOP), ("barrel", "bore"), &left)), "wall")
    };
    assert_eq!(it(67.130), Verdict::Proven);
    assert_ne!(it(67.500), Verdict::Proven);
}

/// The bore is made to the piston in hand: measured again, it moves every size.
#[test]
fn the_piston_that_was_measured_decides() {
    let it = left(&[("piston", 67.120)]);
    assert_abs_diff_eq!(value(&it, "finish_bore"), 67.120 + 0.09525, epsilon = 1e-9);
    assert_abs_diff_eq!(value(&it, "bored_size"), 67.120 + 0.04525, epsilon = 1e-9);
    let small = left(&[("piston", 66.840)]);
    let chosen = small.answer.alternatives.iter().find(|one| one.chosen).unwrap();
    assert_eq!((chosen.name.as_str(), verdict(&small, "cleans-up")), ("+0.010 in", Verdict::Fails));
    assert_eq!(small.verdict, Verdict::Fails);
    // A piston that was only marked is in hand once it was measured.
    let marked = shop(&with(SHOP, "oversize: 0.020 in, size: 67.085 mm, with: micrometer", "oversize: 0.020 in"));
    let bought = [("piston", 67.085, Unit::Mm, 0.005)];
    let it = plan_left(BARREL, &marked, ("barrel", "bore"), &bought);
    assert_eq!(verdict(first(&it), "piston-in-hand"), Verdict::Proven);
    assert_ne!(state(first(&it), "can-be-measured"), Outcome::NotChecked);
    assert_eq!(verdict(&left(&[("ring_gap", 0.10)]), "ring-gap"), Verdict::Doubtful, "it is filed");
}

/// The log by its command: the names that it asks for, and the setter of the gauge that read the piston too.
#[test]
fn the_log_takes_what_was_bored_and_finished() {
    let folder = tempfile::tempdir().unwrap();
    std::fs::write(folder.path().join("job.yaml"), with(BARREL, "job: Barrel", "job: Barrel\nshop: shop.yaml"))
        .unwrap();
    std::fs::write(folder.path().join("shop.yaml"), SHOP).unwrap();
    let run = |words: &[&str]| {
        let output =
            Command::new(env!("CARGO_BIN_EXE_setover")).args(words).current_dir(folder.path()).output().unwrap();
        (
            output.status.code(),
            String::from_utf8_lossy(&output.stdout).into_owned() + &String::from_utf8_lossy(&output.stderr),
        )
    };
    for size in ["piston=67.085 mm", "bored_size=67.130 mm", "finish_bore=67.180 mm", "ring_gap=0.24 ± 0.02 mm"] {
        let with = if size.starts_with("piston") { "with=micrometer" } else { "with=bore gauge" };
        let words = ["log", "job.yaml", "barrel/bore", size, with, "--date", "2026-12-01"];
        let words = if size.starts_with("ring") { &words[..4] } else { &words[..] };
        let date = if size.starts_with("ring") { &["--date", "2026-12-01"][..] } else { &[] };
        let (code, said) = run(&[words, date].concat());
        assert_eq!(code, Some(0), "{said}");
    }
    // The barrel is of iron: nobody knows what a warm piston is at 20 degC.
    let warm =
        ["log", "job.yaml", "barrel/bore", "piston=67.085 mm", "with=micrometer", "at=40 degC", "gauge-at=20 degC"];
    let (code, said) = run(&[&warm[..], &["corrects=1", "--date", "2026-12-01"]].concat());
    assert!(code == Some(2) && said.contains("not of the part's metal"), "{said}");
    let (code, said) = run(&["plan", "job.yaml", "--format", "json"]);
    assert_eq!(code, Some(0), "{said}");
    let answer: serde_json::Value = serde_json::from_str(&said).unwrap();
    let clearance = &answer["operations"][0]["values"]["clearance"];
    // The micrometer set the gauge and read the piston: its share is in both and cancels as far as it repeats.
    assert_abs_diff_eq!(clearance["plus_minus"].as_f64().unwrap(), 0.00856, epsilon = 5e-5);
}

/// Two points see no lobes: a bore of three lobes of a hundredth a side reads round, and needs two hundredths more.
#[test]
fn lobes_that_no_two_points_see_are_left_room_for() {
    let square = with(&no_ring(), "base-square: 0.01 ± 0.003 mm", "base-square: 0.001 ± 0.0005 mm");
    let about_worn = with(&with(&square, "true-within: 0.02 mm", "true-within: 0.001 mm"), "axis: old", "axis: worn");
    let with_piston = |size: &str| {
        let shop = shop(&with(SHOP, "size: 66.831 mm", &format!("size: {size} mm")));
        let it = plan(&about_worn, Some(&shop));
        let row = of(first(&it), "+0.010 in");
        (judged(row, "cleans-up").0, judged(row, "lobes").0, row.verdict())
    };
    assert_eq!(with_piston("66.845"), (Verdict::Proven, Verdict::Doubtful, Verdict::Doubtful));
    assert_eq!(with_piston("66.860"), (Verdict::Proven, Verdict::Proven, Verdict::Proven));
}

/// Whatever its own sheet lets pass runs when it is warm; what is bored too large for its piston is made for the next.
#[test]
fn the_sheet_lets_no_bore_pass_that_binds_warm() {
    let hone = |piston: &str| {
        let it = worked(&with(&no_ring(), "piston: 130 degC", piston));
        let hone = it.operations[0].answer.set_ups.last().unwrap();
        let holds = hone.steps.iter().rev().find_map(|step| step.hold_point.as_ref()).unwrap();
        let (least, most) = holds.limits.numbers();
        (least.unwrap(), most.unwrap(), verdict(first(&it), "running"))
    };
    let (cool, hot) = (hone("piston: 100 degC"), hone("piston: 130 degC"));
    assert_eq!((cool.1, cool.2, hot.2), (hot.1, Verdict::Proven, Verdict::Proven));
    assert!(hot.0 > cool.0 + 0.005, "{cool:?} {hot:?}");
    let at = |size: f64| verdict(&left(&[("bored_size", size - 0.05), ("finish_bore", size)]), "running");
    assert_eq!((at(hot.0 + 0.0005), at(hot.0 - 0.001)), (Verdict::Proven, Verdict::Doubtful));
    let large = left(&[("finish_bore", 67.240)]);
    let check =
        large.answer.checks.iter().find(|check| check.verdict() == Some(Verdict::Fails) && check.id == "clearance");
    let says: Vec<&str> = check.unwrap().remedies.iter().map(|remedy| remedy.words.as_str()).collect();
    assert!(says.iter().any(|words| words.contains("+0.030 in")), "{says:?}");
    let chosen = large.answer.alternatives.iter().find(|one| one.chosen).unwrap();
    assert_eq!(chosen.answer.verdict(), Verdict::Fails);
}

/// An oversize in inches is none in millimetres: taken for one another the ring gap is out by π times the difference.
#[test]
fn an_inch_oversize_taken_for_a_metric_one_moves_the_ring_gap() {
    let gap = |bore: &str| value(first(&worked(&with(BARREL, "in: 67.183 mm", &format!("in: {bore} mm")))), "ring_gap");
    assert_abs_diff_eq!(gap("67.175") - gap("67.183"), 0.0251, epsilon = 5e-5);
    assert!(worked(BARREL).operations[0].answer.alternatives.iter().all(|one| one.name != "+0.50 mm"));
}

/// The bar of the worked page, and one that is too thin.
#[test]
fn a_thin_bar_copies_the_old_shape() {
    fn as_is<Q: Quantity>(number: f64) -> Worked<Q> {
        Worked::assumed(Q::new(number), "worked by hand")
    }
    let of = |across: f64| {
        let moment = deflection::second_moment_round(&as_is(across)).unwrap();
        let stiff = deflection::stiffness_cantilever(&as_is(206_000.0), &moment, &as_is(130.0)).unwrap();
        let share = deflection::share_left(&as_is(0.30 * 4272.0 * 0.08), &stiff).unwrap();
        // What the first of several passes leaves of δ, on the diameter.
        (stiff.number(), share.number(), 2.0 * share.number() * 0.1275)
    };
    let (stiff, share, left) = of(36.0);
    assert_abs_diff_eq!(stiff, 23_192.0, epsilon = 1.0);
    assert_abs_diff_eq!(share, 0.00440, epsilon = 5e-6);
    assert_abs_diff_eq!(left, 0.0011, epsilon = 5e-5);
    let (stiff, share, left) = of(16.0);
    assert_abs_diff_eq!(stiff, 905.0, epsilon = 0.5);
    assert_abs_diff_eq!(share, 0.1018, epsilon = 5e-5);
    assert_abs_diff_eq!(left, 0.026, epsilon = 5e-4);
    let bar = |from: &str, to: &str| verdict(first(&plan(BARREL, Some(&shop(&with(SHOP, from, to))))), "bar");
    assert_eq!(bar("diameter: 36 mm, bar: carbide", "diameter: 16 mm"), Verdict::Fails);
    assert_eq!(bar("reach: 130 mm", "reach: 100 mm"), Verdict::Fails);
    assert_eq!(bar(", reach: 130 mm", ""), Verdict::Doubtful);
    assert_eq!(bar("diameter: 36 mm", "diameter: 36.5 mm"), Verdict::Proven);
    // One that is named goes in, or it is said: over seven tenths of the bore its chips have no room.
    let thick = shop(&with(SHOP, "{name: bar 36, diameter: 36 mm", "{name: bar 36, diameter: 60 mm"));
    let named = with(BARREL, "          honing: 0.05 mm\n", "          honing: 0.05 mm\n          bar: bar 36\n");
    assert_eq!(verdict(first(&plan(&named, Some(&thick))), "bar"), Verdict::Fails);
}

/// What a cylinder is bored on: its edge, its speed and its machine.
#[test]
fn machine_edge_and_speed_are_judged() {
    let it = worked(BARREL);
    for id in ["on-a-mill", "bar-hard-enough", "spindle-too-fast"] {
        assert_eq!(verdict(first(&it), id), Verdict::Proven, "{id}");
    }
    let with_shop = |from: &str, to: &str, id: &str| {
        let shop = shop(&with(SHOP, from, to));
        let it = plan(BARREL, Some(&shop));
        (verdict(first(&it), id), first(&it).verdict)
    };
    let drills = with_shop("  - mill: {name: mill", "  - drill-press: {name: mill", "on-a-mill");
    assert_eq!(drills, (Verdict::Doubtful, Verdict::Doubtful), "none of the shop's is a mill");
    let wish = "          hold: {in: clamps, true-within: 0.02 mm, tested: 15.0 N·m}\n";
    let on = |kind: &str| {
        let shop = shop(&with(SHOP, "  - mill: {name: mill", &format!("  - {kind}: {{name: other")));
        let job = with(BARREL, wish, &format!("{wish}          set-up: {{machine: other}}\n"));
        verdict(first(&plan(&job, Some(&shop))), "on-a-mill")
    };
    assert_eq!((on("lathe"), on("drill-press"), on("mill")), (Verdict::Doubtful, Verdict::Fails, Verdict::Proven));
    assert_eq!(with_shop("80 135 210 325 rev/min", "900 rev/min", "spindle-too-fast").0, Verdict::Doubtful);
    let hard = with(BARREL, "    material: GG25\n", "    material: GG25\n    hardness: 62 HRC\n");
    let steel = shop(&with(SHOP, "material: carbide, nose", "material: HSS, nose"));
    let it = plan(&hard, Some(&steel));
    assert_ne!(first(&it).verdict, Verdict::Proven);
    // Every cut says what the head is set to; the last is the size that is bored, and it is cut again.
    let it = worked(BARREL);
    let steps = it.operations[0].answer.set_ups[0].steps.iter().filter_map(|step| step.cut.as_ref());
    let passes: Vec<_> = steps.flat_map(|cut| &cut.passes).collect();
    let set: Vec<f64> = passes
        .iter()
        .filter_map(|pass| match pass.dial {
            Some(setover::proof::Dialled::Size { to_mm, .. }) => Some(to_mm),
            _ => None,
        })
        .collect();
    assert!(set.len() >= 2 && set.windows(2).all(|pair| pair[0] < pair[1]), "{set:?}");
    assert_abs_diff_eq!(*set.last().unwrap(), value(first(&it), "bored_size"), epsilon = 1e-9);
    assert!(passes.len() > set.len(), "the last again at its setting");
}

/// What is trued no closer than this lies so far off that what cleans a side does not clean it.
#[test]
fn trued_badly_it_does_not_come_clean() {
    let margin = |within: &str| {
        let it = worked(&with(BARREL, "true-within: 0.02 mm", &format!("true-within: {within} mm")));
        judged(of(first(&it), "+0.020 in"), "cleans-up").1
    };
    // It leans by 0.013 at the worst, twice on the diameter: 0.026 of the 0.06 that cleans both sides.
    assert_abs_diff_eq!(margin("0.02") - margin("0.03"), 0.0, epsilon = 1e-9);
    assert_abs_diff_eq!(margin("0.02") - margin("0.16"), 0.126, epsilon = 1e-9);
}

/// A ring that reads larger than the bore even at worst: one of the two was misread, and nothing rests on it.
#[test]
fn a_bore_smaller_than_its_unworn_ring_proves_nothing() {
    let it = worked(&with(BARREL, "unworn: {size: 66.680 mm", "unworn: {size: 66.880 mm"));
    assert_ne!(verdict(first(&it), "wear"), Verdict::Proven);
    assert_ne!(first(&it).verdict, Verdict::Proven);
}

/// Looser than 3.1 thousandths of the bore no new piston of the same size cures it, however wide a clearance is asked; where that
/// hangs on the doubt, nobody can say.
#[test]
fn a_piston_loose_by_the_doubt_is_not_reused() {
    let wide = with(BARREL, "3.0 .. 4.5 thou", "3.0 .. 12 thou");
    let of = |now: &str| {
        verdict(first(&worked(&with(&wide, "{size: 66.600 mm", &format!("{{size: {now} mm")))), "worn-clearance")
    };
    assert_eq!(of("66.600"), Verdict::Fails);
    assert_eq!(of("66.612"), Verdict::Doubtful);
    assert_eq!(of("66.650"), Verdict::Proven);
}

/// Every must is there, whatever is left out, and what is left out proves nothing.
#[test]
fn every_must_is_there_whatever_is_left_out() {
    const MUSTS: [&str; 11] = [
        "cleans-up",
        "piston-in-hand",
        "clearance",
        "wall",
        "running",
        "base-square",
        "bar",
        "on-a-mill",
        "bar-hard-enough",
        "spindle-too-fast",
        "hone-left",
    ];
    let keys = [
        "unworn",
        "definition",
        "limits",
        "axis",
        "series",
        "piston-now",
        "clearance",
        "honing",
        "outside",
        "least-wall",
        "ring-gap",
        "stroke",
        "compression",
        "running",
        "least-running",
        "base-square",
        "hold",
    ];
    let whole = worked(BARREL);
    for key in keys {
        let line = BARREL.lines().find(|line| line.trim_start().starts_with(&format!("{key}:"))).unwrap();
        let less = worked(&BARREL.replace(&format!("{line}\n"), ""));
        for id in MUSTS {
            assert!(first(&less).answer.checks.iter().any(|check| check.id == id), "without {key} no {id}");
        }
        assert!(first(&less).verdict >= first(&whole).verdict, "without {key}");
    }
    let no_metal = worked(&with(BARREL, "    material: GG25\n", ""));
    assert_ne!(first(&no_metal).verdict, Verdict::Proven);
    assert_eq!(state(first(&no_metal), "bar-hard-enough"), Outcome::NotChecked);
    assert!(doubt(first(&whole), "clearance") > 0.0 && number(of(first(&whole), "+0.020 in"), "honing_left") > 0.0);
}

/// The same kind of bore read as radii from the gauge's own axis.
const RADII: &str = "job: Barrel\nparts:\n  - part: barrel\n    material: GG25\n    operations:\n      - bore:\n          nominal: 66.68 mm\n          \
                     length: 110 mm\n          readings: {kind: radius, with: lever indicator, from: 33.340 ± 0.004 mm, depths: 15 55 95 \
                     mm, angles: 0 60 120 180 240 300 deg, reads: [52 28 15 27 22 34 um, 40 23 3 3 5 23 um, 30 17 -6 -18 -14 12 \
                     um]}\n          axis: old\n          series: inch\n          clearance: 3.0 .. 4.5 thou\n";

fn with_indicator() -> setover::shop::Shop {
    let lever = "  - {name: lever indicator, kind: lever indicator 0.002, from: 0 mm, to: 0.4 mm, uncertainty: 6 um, repeat: 2 um}\n";
    shop(&format!("{SHOP}{lever}"))
}

/// Radii have an axis: what cleans it about the gauge's, about the mean and about any.
#[test]
fn radii_have_an_axis_and_a_least_cylinder() {
    let it = plan(RADII, Some(&with_indicator()));
    let it = first(&it);
    assert_eq!(it.answer.refused, None);
    for (key, wanted, off) in [
        ("clean_up_old", 66.8440, 5e-5),
        ("clean_up_mean", 66.8192, 5e-5),
        ("clean_up_worn", 66.8190, 5e-5),
        ("cylinder_form", 0.03800, 5e-6),
        ("taper_fit", -0.05233, 5e-6),
        ("lean", 0.01734, 5e-6),
    ] {
        assert_abs_diff_eq!(value(it, key), wanted, epsilon = off);
    }
    assert_eq!(verdict(it, "lobes"), Verdict::Doubtful, "six readings round");
    assert!(it.answer.value("out_of_round").is_none(), "no two axes were compared");
    // A constant error of the indicator widens every radius, and the nought it is set to as well.
    assert!(doubt(it, "clean_up_worn") >= 2.0 * 0.004);
    assert!(doubt(it, "lean") < 2.0 * doubt(it, "clean_up_worn"));
}

/// What is no round of radii is refused at its place, and a radius read larger cleans nothing smaller.
#[test]
fn radii_that_cannot_be_are_refused() {
    let says = |from: &str, to: &str| {
        let problems = try_plan(&with(RADII, from, to), Some(&with_indicator())).unwrap_err();
        problems.iter().map(|problem| problem.to_string()).collect::<Vec<_>>().join("; ")
    };
    assert!(says("from: 33.340 ± 0.004 mm, ", "").contains("from"));
    assert!(says("from: 33.340 ± 0.004 mm", "from: 66.680 ± 0.004 mm").contains("radius"));
    assert!(says(", 30 17 -6 -18 -14 12 um", "").contains("every depth"));
    assert!(says("52 28 15 27 22 34 um", "52 28 15 27 22 um").contains("every angle"));
    assert!(says("52 28 15 27 22 34 um", "52 28 - 27 22 34 um").contains("every angle"));
    assert!(says("kind: radius", "kind: diameter").contains("radius"));
    let clean = |reads: &str| {
        let it = plan(&with(RADII, "52 28 15 27 22 34 um", reads), Some(&with_indicator()));
        ["clean_up_old", "clean_up_worn"].map(|key| value(first(&it), key))
    };
    let (less, more) = (clean("52 28 15 27 22 34 um"), clean("72 28 15 27 22 34 um"));
    assert!(more[0] > less[0] && more[1] >= less[1] - 1e-9);
}

/// A bore found beyond its limit is decided to be bored, with the piston that follows it.
#[test]
fn a_worn_bore_is_decided_to_be_bored() {
    let folder = tempfile::tempdir().unwrap();
    let inspected = "    material: GG25\n    inspect:\n      - {feature: bore, found: {size: 66.815 mm, with: bore gauge}, service: at most 66.78 mm, remedies: [bore, replace]}\n";
    let job = with(&with(BARREL, "job: Barrel", "job: Barrel\nshop: shop.yaml"), "    material: GG25\n", inspected);
    std::fs::write(folder.path().join("job.yaml"), job).unwrap();
    std::fs::write(folder.path().join("shop.yaml"), SHOP).unwrap();
    let words = ["decide", "job.yaml", "--format", "json"];
    let output = Command::new(env!("CARGO_BIN_EXE_setover")).args(words).current_dir(folder.path()).output().unwrap();
    let said = String::from_utf8_lossy(&output.stdout).into_owned();
    let decided: serde_json::Value =
        serde_json::from_str(&said).unwrap_or_else(|_| panic!("{said}{}", String::from_utf8_lossy(&output.stderr)));
    let rows = decided["rows"].as_array().unwrap();
    let row = rows.iter().find(|row| row["feature"] == "bore").unwrap_or_else(|| panic!("{decided:#}"));
    assert_eq!((&row["decision"], &row["by"]), (&"put-right".into(), &"bore".into()), "{row:#}");
    assert!((row["margin"].as_f64().unwrap() + 0.0445).abs() < 1e-3, "{row:#}");
    let follows = rows.iter().find(|row| row["feature"] == "piston, rings").unwrap_or_else(|| panic!("{decided:#}"));
    assert!(follows.to_string().contains("+0.020 in"), "{follows:#}");
}

/// Rings run in iron and steel: what else is bored is lined first, or keeps the grit of the hone.
#[test]
fn a_barrel_that_no_ring_runs_in_is_not_proven() {
    let of = |metal: &str| {
        verdict(first(&worked(&with(BARREL, "material: GG25", &format!("material: {metal}")))), "metal-takes-it")
    };
    assert_eq!(["GG25", "GG20"].map(of), [Verdict::Proven; 2]);
    assert_eq!(["LM4", "AZ91", "phosphor bronze"].map(of), [Verdict::Doubtful; 3]);
    assert_eq!(["nylon", "PTFE"].map(of), [Verdict::Fails; 2]);
    let washed = worked(&with(BARREL, "material: GG25", "material: AZ91"));
    let steps: Vec<&str> =
        first(&washed).answer.set_ups.iter().flat_map(|set_up| &set_up.steps).map(|step| step.words.as_str()).collect();
    assert!(!steps.iter().any(|step| step.contains("soapy water")), "{steps:?}");
}

/// A bar that does not reach is no reason to buy the largest piston.
#[test]
fn what_is_no_fault_of_the_piston_chooses_none() {
    let of = |shop_text: &str| {
        let plan = plan(BARREL, Some(&shop(shop_text)));
        let answer = &first(&plan).answer;
        let chosen = answer.alternatives.iter().find(|one| one.chosen).unwrap().name.clone();
        (chosen, first(&plan).verdict, answer.missing.iter().any(|line| line.contains("piston")))
    };
    let (by_wear, verdict, _) = of(SHOP);
    assert_eq!(verdict, Verdict::Proven);
    assert_eq!(of(&with(SHOP, "reach: 130 mm", "reach: 30 mm")), (by_wear, Verdict::Fails, false));
}

/// The ring that never wore is the least of the bore: one that reads larger hides the wear.
#[test]
fn a_ring_that_reads_larger_than_the_bore_is_in_doubt() {
    let of = |size: &str| {
        let ring = format!("unworn: {{size: {size} mm, with:");
        verdict(first(&worked(&with(BARREL, "unworn: {size: 66.680 mm, with:", &ring))), "unworn-is-least")
    };
    assert_eq!((of("66.680"), of("66.730")), (Verdict::Proven, Verdict::Doubtful));
    let negative = try_plan(&with(BARREL, "least-running: 0 mm", "least-running: -0.05 mm"), Some(&shop(SHOP)));
    assert!(negative.unwrap_err().iter().any(|problem| problem.to_string().contains("seizes")));
}
