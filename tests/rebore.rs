//! A cylinder rebored: which piston cleans it about which axis, and whether its clearance can be proven.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common::{doubt, first, in_shop, plan, shop, state, try_plan, value, verdict, with};
use approx::assert_abs_diff_eq;
use setover::operations::Target;
use setover::plan::{Plan, Planned};
use setover::proof::{Outcome, Verdict};

const EXAMPLE: &str = include_str!("../examples/bore.yaml");

/// A shop whose bore gauge is set by the micrometer that reads the pistons too.
pub const SHOP: &str = "shop: Quay\nunits: metric\npaper: A4\nhabits: {clean-up: 0.03 mm, guard: 2}\nmachines:\n  - mill: {name: mill, spindle: 80 \
                    135 210 325 rev/min, feeds-quill: 0.04 0.08 0.15 mm/rev, power: 1 kW, efficiency: 0.75}\ntools:\n  - boring-bar: {name: bar 36, diameter: 36 mm, bar: \
                    carbide, reach: 130 mm, material: carbide, nose: 0.2 mm, edge-angle: 90 deg}\ndrawers:\n  pistons:\n    - {for: barrel, \
                    oversize: 0.010 in, size: 66.831 mm, with: micrometer, metal: al-cast-hisi}\n    - {for: barrel, oversize: \
                    0.020 in, size: 67.085 mm, with: micrometer, metal: al-cast-hisi}\n    - {for: barrel, oversize: 0.50 mm, \
                    size: 67.077 mm, with: micrometer, metal: al-cast-hisi}\ninstruments:\n  - {name: micrometer, kind: outside \
                    micrometer, from: 50 mm, to: 75 mm, uncertainty: 5 um, repeat: 2 um}\n  - {name: bore gauge, kind: bore gauge, \
                    from: 20 mm, to: 150 mm, uncertainty: 9.5 um, transfer: 8.08 um, set-by: [micrometer]}\n";

/// A worn barrel.
pub const BARREL: &str = "job: Barrel\nparts:\n  - part: barrel\n    material: GG25\n    operations:\n      - bore:\n          nominal: 2 5/8 \
                      in\n          length: 110 mm\n          readings: {kind: diameter, with: bore gauge, at: 20 degC, depths: 15 55 95 \
                      mm, thrust: 66.815 66.765 66.705 mm, pin: 66.775 66.745 66.695 mm}\n          unworn: {size: 66.680 mm, with: \
                      bore gauge}\n          definition: same-depth\n          limits: {wear: 0.10 mm, taper: 0.10 mm, out-of-round: \
                      0.05 mm}\n          axis: old\n          series: inch\n          piston-now: {size: 66.600 mm, with: \
                      micrometer}\n          clearance: 3.0 .. 4.5 thou\n          honing: 0.05 mm\n          outside: {size: 73.50 ± \
                      0.05 mm, eccentric: 0.10 ± 0.05 mm}\n          least-wall: 2.5 mm\n          ring-gap: {found: 0.25 ± 0.02 mm, \
                      in: 67.183 mm}\n          stroke: 3 1/2 in\n          compression: 6.0\n          running: {piston: 130 degC, \
                      bore: 120 degC}\n          least-running: 0 mm\n          base-square: 0.01 ± 0.003 mm\n          hold: {in: \
                      clamps, true-within: 0.02 mm, tested: 15.0 N·m}\n";

pub fn worked(job: &str) -> Plan {
    plan(job, Some(&shop(SHOP)))
}

/// The alternative of a mark.
pub fn of<'a>(it: &'a Planned, marked: &str) -> &'a setover::operations::Answer<String> {
    &it.answer.alternatives.iter().find(|one| one.name == marked).unwrap_or_else(|| panic!("no {marked}")).answer
}

pub fn number(of: &setover::operations::Answer<String>, key: &str) -> f64 {
    of.value(key).unwrap_or_else(|| panic!("no {key}")).number
}

pub fn judged(of: &setover::operations::Answer<String>, id: &str) -> (Verdict, f64) {
    let check = of.checks.iter().find(|check| check.id == id).unwrap();
    (check.verdict().unwrap(), check.judged.unwrap().margin)
}

#[test]
fn the_example_is_proven() {
    let it = in_shop(EXAMPLE);
    assert_eq!(first(&it).verdict, Verdict::Proven, "{:#?}", first(&it).answer.checks);
}

#[test]
fn what_was_found_of_a_worn_barrel() {
    let it = worked(BARREL);
    let it = first(&it);
    for (key, wanted, off) in [
        ("wear", 0.135, 1e-9),
        ("out_of_round", 0.040, 1e-9),
        ("taper", 0.110, 1e-9),
        ("clearance_now", 0.215, 1e-9),
        ("clean_up_worn", 66.875, 1e-9),
        ("clean_up_old", 67.010, 1e-9),
        ("axis_shift", 0.0675, 1e-9),
        ("wear_permille", 2.0247, 5e-5),
    ] {
        assert_abs_diff_eq!(value(it, key), wanted, epsilon = off);
    }
    // The gauge is set by one micrometer: its share cancels in a difference and adds up in twice the diameter.
    for (key, wanted) in
        [("wear", 0.0118), ("out_of_round", 0.0118), ("clean_up_worn", 0.0095), ("clean_up_old", 0.0192)]
    {
        assert_abs_diff_eq!(doubt(it, key), wanted, epsilon = 5e-5);
    }
    assert_eq!(verdict(it, "wear"), Verdict::Fails);
    assert_eq!(verdict(it, "out-of-round"), Verdict::Doubtful);
    assert_eq!(verdict(it, "worn-clearance"), Verdict::Fails);
    // What was found bad never stamps what cures it.
    assert_eq!(it.verdict, Verdict::Proven, "{:#?}", it.answer.checks);
    let no_repeat = shop(&with(SHOP, ", repeat: 2 um", ""));
    let whole = plan(BARREL, Some(&no_repeat));
    assert_abs_diff_eq!(doubt(first(&whole), "clean_up_old"), 0.0212, epsilon = 5e-4);
}

/// Two makers mean two things by out of round; where nobody says which, the worse is judged.
#[test]
fn the_worse_definition_judges_where_none_is_named() {
    let mixed = worked(&with(BARREL, "definition: same-depth", "definition: mixed-depth"));
    let none = worked(&with(BARREL, "          definition: same-depth\n", ""));
    for it in [&mixed, &none] {
        assert_abs_diff_eq!(value(first(it), "out_of_round"), 0.120, epsilon = 1e-9);
        assert_abs_diff_eq!(value(first(it), "taper"), 0.110, epsilon = 1e-9);
        assert_eq!(verdict(first(it), "out-of-round"), Verdict::Fails);
    }
}

#[test]
fn the_piston_that_cleans_the_old_axis_is_taken() {
    let it = worked(BARREL);
    let it = first(&it);
    let chosen = it.answer.alternatives.iter().find(|one| one.chosen).unwrap();
    assert_eq!(chosen.name, "+0.020 in");
    for (key, wanted, off) in [
        ("finish_bore", 67.18025, 1e-9),
        ("bored_size", 67.13025, 1e-9),
        ("bore_min", 67.1662, 1e-9),
        ("bore_max", 67.1943, 1e-9),
        ("clearance", 0.09525, 1e-9),
        ("wall_left", 3.0499, 5e-5),
        ("ring_gap", 0.2414, 5e-5),
        ("swept", 315.119, 5e-4),
        ("compression_after", 6.0761, 5e-5),
        ("clearance_running", 0.0239, 5e-5),
    ] {
        assert_abs_diff_eq!(value(it, key), wanted, epsilon = off);
    }
    assert_abs_diff_eq!(doubt(it, "clearance"), 0.00856, epsilon = 5e-6);
    assert_abs_diff_eq!(doubt(it, "clearance_running"), 0.0199, epsilon = 1e-4);
    assert_abs_diff_eq!(doubt(it, "wall_left"), 0.0559, epsilon = 5e-5);
    assert_eq!(verdict(it, "can-be-measured"), Verdict::Proven);
    let (clean, margin) = judged(of(it, "+0.020 in"), "cleans-up");
    assert_eq!(clean, Verdict::Proven);
    // As cold as it was read within a degree, which the figure of the old axis has twice.
    assert_abs_diff_eq!(margin, 0.1011, epsilon = 1e-4);
    // The next smaller one: about its old axis not even honed, about the worn place clean by the hone alone.
    assert_eq!(judged(of(it, "+0.010 in"), "cleans-up").0, Verdict::Fails);
    assert_abs_diff_eq!(number(of(it, "+0.010 in"), "bored_size"), 66.87625, epsilon = 1e-9);
    // Trued and standing as square as can be, no side of it lies further off than what cleans a side.
    let square = with(BARREL, "base-square: 0.01 ± 0.003 mm", "base-square: 0.001 ± 0.0005 mm");
    let trued = with(&square, "true-within: 0.02 mm", "true-within: 0.001 mm");
    let about_worn = worked(&with(&trued, "axis: old", "axis: worn"));
    let small = of(first(&about_worn), "+0.010 in");
    let (clean, margin) = judged(small, "cleans-up");
    assert_eq!(clean, Verdict::Doubtful);
    assert_abs_diff_eq!(margin, -0.0083, epsilon = 1e-4);
    let about_worn = worked(&with(BARREL, "axis: old", "axis: worn"));
    assert_abs_diff_eq!(value(first(&about_worn), "wall_left"), 3.0499 - 0.0675, epsilon = 5e-5);
    assert!(it.answer.alternatives.iter().all(|one| !one.name.contains("mm")), "millimetres are no inches");
    let metric = worked(&with(BARREL, "series: inch", "series: metric"));
    let half = of(first(&metric), "+0.50 mm");
    assert_abs_diff_eq!(number(half, "finish_bore"), 67.17225, epsilon = 1e-9);
    assert_abs_diff_eq!(judged(half, "cleans-up").1, 0.0931, epsilon = 1e-4);
}

/// A micrometer whose repeat nobody knows shares nothing that is sure: the clearance cannot be measured with it.
#[test]
fn what_the_setter_shares_cancels_only_where_it_is_known() {
    let apart = shop(&with(SHOP, ", transfer: 8.08 um, set-by: [micrometer]", ""));
    let it = plan(BARREL, Some(&apart));
    assert_abs_diff_eq!(doubt(first(&it), "clearance"), 0.01074, epsilon = 5e-6);
    assert_eq!(verdict(first(&it), "can-be-measured"), Verdict::Doubtful);
}

#[test]
fn a_piston_that_is_only_marked_is_doubtful() {
    let marked = shop(&with(SHOP, "oversize: 0.020 in, size: 67.085 mm, with: micrometer", "oversize: 0.020 in"));
    let it = plan(BARREL, Some(&marked));
    assert_eq!(first(&it).verdict, Verdict::Doubtful);
    assert_eq!(verdict(first(&it), "piston-in-hand"), Verdict::Doubtful);
    assert_eq!(state(first(&it), "can-be-measured"), Outcome::NotChecked);
}

/// Of pistons that are all still to be bought the one that comes clean is ordered, not the smallest; and a ring gap that a file cures
/// rules none out.
#[test]
fn what_is_ordered_is_what_least_is_in_doubt_of() {
    let none = shop(&with(SHOP, "{for: barrel", "{for: another"));
    let it = plan(BARREL, Some(&none));
    let of = |id: &str, row: &setover::operations::Alternative<String>| {
        row.answer.checks.iter().filter(|check| check.id == id).filter_map(|check| check.verdict()).max()
    };
    let taken = first(&it).answer.alternatives.iter().find(|row| row.chosen).expect("one");
    assert_eq!(of("cleans-up", taken), Some(Verdict::Proven), "{}", taken.name);
    let short = worked(&with(BARREL, "ring-gap: {found: 0.25 ± 0.02 mm", "ring-gap: {found: 0.12 ± 0.02 mm"));
    assert_eq!(verdict(first(&short), "ring-gap"), Verdict::Doubtful);
}

/// A new piston of the standard size in a bore worn three thousandths and more: never.
#[test]
fn a_standard_piston_is_no_answer_to_a_worn_bore() {
    let standard = with(SHOP, "oversize: 0.010 in, size: 66.831 mm", "oversize: 0 mm, size: 66.580 mm");
    let it = plan(
        &with(BARREL, "series: inch", "axis: worn").replacen("          axis: old\n", "", 1),
        Some(&shop(&standard)),
    );
    let one = &first(&it).answer.alternatives[0];
    assert!(!one.chosen && one.answer.verdict() == Verdict::Fails, "{}", one.name);
    let no_data = with(BARREL, "          clearance: 3.0 .. 4.5 thou\n", "");
    assert_eq!(verdict(first(&worked(&no_data)), "worn-clearance"), Verdict::Fails, "3.2 thousandths of the bore");
    let less = with(&no_data, "{size: 66.600 mm", "{size: 66.650 mm");
    assert_eq!(verdict(first(&worked(&less)), "worn-clearance"), Verdict::Doubtful);
    // However wide a clearance is asked, so loose a piston is loose.
    let wide = with(BARREL, "3.0 .. 4.5 thou", "3.0 .. 12 thou");
    assert_eq!(verdict(first(&worked(&wide)), "worn-clearance"), Verdict::Fails);
}

/// What hurts: a key left out, a worse figure, another spelling never makes it better.
#[test]
fn what_is_missing_is_never_proven() {
    for (key, id) in [
        ("          least-wall: 2.5 mm\n", "wall"),
        ("          least-running: 0 mm\n", "running"),
        ("          base-square: 0.01 ± 0.003 mm\n", "base-square"),
        ("          running: {piston: 130 degC, bore: 120 degC}\n", "running"),
        ("          outside: {size: 73.50 ± 0.05 mm, eccentric: 0.10 ± 0.05 mm}\n", "wall"),
        ("          hold: {in: clamps, true-within: 0.02 mm, tested: 15.0 N·m}\n", "wall"),
    ] {
        let it = worked(&with(BARREL, key, ""));
        assert_eq!(state(first(&it), id), Outcome::NotChecked, "{key}");
        assert_eq!(first(&it).verdict, Verdict::Doubtful, "{key}");
    }
    for (from, to, id) in [
        ("          unworn: {size: 66.680 mm, with: bore gauge}\n", "", "cleans-up"),
        ("          clearance: 3.0 .. 4.5 thou\n", "", "clearance"),
        ("honing: 0.05 mm", "honing: 0.15 mm", "hone-left"),
    ] {
        let it = worked(&with(BARREL, from, to));
        assert_eq!(verdict(first(&it), id), Verdict::Doubtful, "{from}");
        assert_eq!(first(&it).verdict, Verdict::Doubtful, "{from}");
    }
    for (from, to, id) in [
        ("honing: 0.05 mm", "honing: 0 mm", "hone-left"),
        ("base-square: 0.01 ± 0.003 mm", "base-square: 0.03 ± 0.003 mm", "base-square"),
        ("least-wall: 2.5 mm", "least-wall: 3.5 mm", "wall"),
    ] {
        let it = worked(&with(BARREL, from, to));
        assert_eq!(verdict(first(&it), id), Verdict::Fails, "{from}");
    }
    // A piston that binds is passed over: what is taken for it is only marked, and doubtful.
    let hot = worked(&with(BARREL, "piston: 130 degC", "piston: 150 degC"));
    assert_eq!(judged(of(first(&hot), "+0.020 in"), "running").0, Verdict::Fails);
    assert_ne!(first(&hot).verdict, Verdict::Proven);
    // A bar too thin for its length.
    let thin = shop(&with(SHOP, "diameter: 36 mm", "diameter: 14 mm"));
    assert_eq!(verdict(first(&plan(BARREL, Some(&thin))), "bar"), Verdict::Fails);
    // Without a shop there is no bar and no piston: nothing of this is proven.
    let it = plan(
        &BARREL.replace("with: bore gauge, ", "").replace(", with: bore gauge", " ").replace(", with: micrometer", ""),
        None,
    );
    assert_eq!(first(&it).verdict, Verdict::Doubtful);
    assert_eq!(state(first(&it), "bar"), Outcome::NotChecked);
}

/// A ring that reads larger than the bore, as a slip of the pen: the old axis is not clean for that.
#[test]
fn an_unworn_ring_larger_than_the_bore_cleans_nothing() {
    let it = worked(&with(BARREL, "unworn: {size: 66.680 mm", "unworn: {size: 66.980 mm"));
    assert!(value(first(&it), "clean_up_old") >= value(first(&it), "clean_up_worn"));
}

#[test]
fn what_is_no_reading_is_refused_at_its_place() {
    let says = |job: &str| {
        let problems = try_plan(job, Some(&shop(SHOP))).unwrap_err();
        problems.iter().map(|problem| problem.to_string()).collect::<Vec<_>>().join("\n")
    };
    let one = worked(&with(BARREL, ", pin: 66.775 66.745 66.695 mm", ""));
    assert!(first(&one).answer.refused.as_ref().is_some_and(|why| why.to_string().contains("two axes")));
    assert_ne!(first(&one).verdict, Verdict::Proven);
    assert!(says(&with(BARREL, "66.775 66.745 66.695 mm", "66.775 66.745 mm")).contains("at every depth"));
    assert!(says(&with(BARREL, "66.775 66.745 66.695 mm", "66.775 66.745 26.695 mm")).contains("not this bore"));
    assert!(says(&with(BARREL, "66.775 66.745 66.695 mm", "66.775 - 66.695 mm")).contains("missing"));
    assert!(says(&with(BARREL, "kind: diameter, ", "")).contains("kind"));
    // An oversize without its unit.
    let bare = with(SHOP, "oversize: 0.020 in", "oversize: +0.020");
    let read =
        setover::reading::Node::yaml(&bare, setover::proof::Place::start(1)).unwrap().read::<setover::shop::Shop>();
    assert!(read.is_err());
}

/// More wear never gives a piston a better verdict.
#[test]
fn more_wear_never_gives_a_better_verdict() {
    let rank = |worst: f64| {
        let job = with(BARREL, "66.815", &format!("{worst:.3}"));
        let it = worked(&job);
        let of = of(first(&it), "+0.020 in");
        of.verdict()
    };
    let mut last = Verdict::Proven;
    for step in 0..12 {
        let now = rank(66.815 + 0.02 * f64::from(step));
        assert!(now >= last, "at {step}");
        last = now;
    }
    assert_eq!(last, Verdict::Fails);
}

/// What holds nothing that turns fails, what squeezes the wall or was never tried is not proven, and a test is judged.
#[test]
fn a_cylinder_that_is_not_held_is_never_proven() {
    let held = |hold: &str| worked(&with(BARREL, "clamps, true-within: 0.02 mm, tested: 15.0 N·m", hold));
    let support = held("press-support, true-within: 0.02 mm, tested: 15.0 N·m");
    assert_eq!(verdict(first(&support), "held"), Verdict::Fails);
    assert_eq!(verdict(first(&support), "stays-round"), Verdict::Fails);
    assert_eq!(first(&support).verdict, Verdict::Fails);
    for squeezed in ["vice", "jaws", "soft-jaws", "four-jaw", "collet"] {
        let it = held(&format!(
            "{squeezed}, true-within: 0.02 mm{}, diameter: 73.5 mm, grip: 60 mm, overhang: 40 mm, tested: 15.0 N·m",
            if squeezed.contains("jaw") { ", stop: step" } else { "" }
        ));
        assert_eq!(verdict(first(&it), "stays-round"), Verdict::Doubtful, "{squeezed}");
        assert_eq!(first(&it).verdict, Verdict::Doubtful, "{squeezed}");
    }
    let untried = held("clamps, true-within: 0.02 mm");
    assert_eq!(verdict(first(&untried), "grip-looked-at"), Verdict::Doubtful);
    assert_eq!(first(&untried).verdict, Verdict::Doubtful);
    let steps = untried.operations[0].answer.set_ups[0].steps.iter().map(|step| step.id);
    assert!(steps.into_iter().any(|id| id == "try-the-grip"));
    for hold in
        ["clamps, true-within: 0.02 mm, tested: 0.5 N·m", "jaws, true-within: 0.02 mm, nipped: hard, tested: 0.5 N·m"]
    {
        assert_eq!(verdict(first(&held(hold)), "grip"), Verdict::Fails, "{hold}");
    }
}

/// Until it is honed a bore can still be made larger: what the finished bore must be is the hone's, what the boring takes off is
/// the boring's; and the last setting of the head is reckoned, not printed.
#[test]
fn the_hone_owns_the_finished_bore() {
    let it = in_shop(&std::fs::read_to_string("examples/bore.yaml").unwrap());
    let [boring, honing] = first(&it).answer.set_ups.as_slice() else { panic!("two set-ups") };
    for id in ["clearance", "can-be-measured", "running"] {
        assert!(honing.checks.contains(&id) && !boring.checks.contains(&id), "{id}");
    }
    for id in ["cleans-up", "piston-in-hand", "wall", "bar", "hone-left"] {
        assert!(boring.checks.contains(&id), "{id}");
    }
    let pages = setover::sheet::layout::pages(std::slice::from_ref(&it)).unwrap();
    let said = crate::common::laws::texts(&pages[0], "cuts");
    assert!(said.iter().any(|text| text.text == "mm to open"), "{said:?}");
    assert_eq!(pages.len(), 2, "a page a set-up");
}

/// 46 x 40: what was read within 3 mm of the top says nothing of the rest, and no depth lies below the bottom.
#[test]
fn a_bore_is_read_all_along() {
    let at = |depths: &str| with(EXAMPLE, "depths: 6 20 34 mm", &format!("depths: {depths} mm"));
    let read = |depths: &str| state_of_example(&at(depths));
    assert_eq!(
        (read("6 20 34"), read("1 2 3"), read("2 4 38")),
        (Verdict::Proven, Verdict::Doubtful, Verdict::Doubtful)
    );
    // Nothing was read where the rings turn about, at either end.
    assert_eq!(
        (read("18 20 22"), read("12 20 34"), read("6 20 28")),
        (Verdict::Doubtful, Verdict::Doubtful, Verdict::Doubtful)
    );
    let deep = try_plan(&at("6 20 60"), Some(&shop(crate::common::SHOP))).unwrap_err();
    assert!(deep.iter().any(|problem| problem.to_string().contains("40 mm long")), "{deep:?}");
}

fn state_of_example(job: &str) -> Verdict {
    let plan = in_shop(job);
    verdict(first(&plan), "read-all-along")
}

/// 0.6 to 1.0 for 0.06 to 0.10 on 46: nobody fits a new piston looser than 3.1 in a thousand.
#[test]
fn a_clearance_of_a_worn_out_piston_is_a_slip() {
    let of = |clearance: &str| {
        let plan = in_shop(&with(EXAMPLE, "clearance: 0.06 .. 0.10 mm", &format!("clearance: {clearance} mm")));
        first(&plan).verdict
    };
    assert_eq!((of("0.06 .. 0.10"), of("0.10 .. 0.15")), (Verdict::Proven, Verdict::Doubtful));
    assert_ne!(of("0.6 .. 1.0"), Verdict::Proven);
}

/// A bar that is too short is no fault of the piston: the one that cleans it is named, what the bar must reach is said with its
/// figure, and nothing is bought.
#[test]
fn a_bar_that_is_too_short_asks_for_another_bar_and_no_other_piston() {
    let short = shop(&with(SHOP, "reach: 130 mm", "reach: 60 mm"));
    let it = plan(BARREL, Some(&short));
    let it = first(&it);
    assert_eq!(it.verdict, Verdict::Fails);
    let chosen = it.answer.alternatives.iter().find(|one| one.chosen).unwrap();
    assert_eq!(chosen.name, "+0.020 in");
    let bar = it.answer.checks.iter().find(|check| check.id == "bar").unwrap();
    let judged = bar.judged.unwrap();
    assert_abs_diff_eq!(judged.got, 60.0, epsilon = 1e-9);
    assert!(judged.limit > 110.0 && format!("{:?}", bar.remedies).contains("stands out"), "{bar:#?}");
    assert!(it.answer.missing.iter().all(|item| !item.contains("piston")), "{:?}", it.answer.missing);
    // Where no size cleans it, it is still that.
    let worn = with(BARREL, "66.815 66.765 66.705 mm", "69.815 66.765 66.705 mm");
    let it = plan(&worn, Some(&short));
    let piston = first(&it).answer.choices.iter().find(|choice| choice.name == "piston").unwrap();
    assert!(piston.why.contains("a sleeve"), "{}", piston.why);
}

/// An axis is called as one likes; a key that is one letter off another is told to be one.
#[test]
fn a_slip_in_a_key_of_the_readings_is_no_axis() {
    for (slip, meant) in [("pinn:", "`pin`"), ("trust:", "`thrust`"), ("wiht:", "`with`")] {
        let wrong = match slip {
            "wiht:" => with(BARREL, "with: bore gauge, at:", "wiht: 66.0 66.0 66.0 mm, at:"),
            "trust:" => with(BARREL, "thrust:", slip),
            _ => with(BARREL, ", pin:", &format!(", {slip}")),
        };
        let problems = try_plan(&wrong, None).expect_err("a slip");
        assert!(problems.iter().any(|problem| problem.says.contains(meant)), "{slip}: {problems:?}");
    }
    for name in ["across", "pin2", "45 deg"] {
        let named = with(BARREL, ", pin:", &format!(", {name}:"));
        assert!(try_plan(&named, None).is_ok(), "{name}");
    }
}

/// Read warm all over, every diameter is larger by the same: the wear is what it was cold, for the unworn ring was as warm.
#[test]
fn a_cylinder_read_warm_is_as_worn_as_cold() {
    let wear = |warmth: &str| {
        value(
            first(&in_shop(&with(EXAMPLE, "with: bore gauge, depths", &format!("with: bore gauge{warmth}, depths")))),
            "wear",
        )
    };
    let (cold, warm) = (wear(""), wear(", at: 40 degC, gauge-at: 20 degC"));
    assert!((cold - warm).abs() < 1e-4, "{cold} {warm}");
}

/// Bored about its worn place the old hole lies off wherever it is worn less: as far as the axis moves along both axes at once, as it is
/// trued, and as it leans.
#[test]
fn what_lies_off_the_worn_place_comes_clean_too() {
    let job = |pin: &str, within: &str, square: &str| {
        let worn = EXAMPLE.replace("clearance: 0.06", "axis: worn\n          clearance: 0.06");
        let worn = worn.replace("pin: 46.070 46.050 46.020", pin).replace("true-within: 0.02 mm", within);
        worn.replace("base-square: 0.010 ± 0.003 mm", square)
    };
    let cleans = |job: &str| {
        let it = in_shop(job);
        let row = of(first(&it), "+0.010 in");
        let clean = row.checks.iter().find(|check| check.id == "cleans-up").unwrap().judged.unwrap();
        (clean.limit, judged(row, "wall").1)
    };
    let (usual, square) = ("true-within: 0.02 mm", "base-square: 0.010 ± 0.003 mm");
    let (one, wall) = cleans(&job("pin: 46.010 46.010 46.010", usual, square));
    let (both, wall_both) = cleans(&job("pin: 46.090 46.060 46.020", usual, square));
    // By hand: half of the wear of 0.080 each way, 0.0566 on the diagonal, from the least diameter of 46.020: 46.133, trued and leaning
    // 46.133 + 0.020 + 0.026 = 46.179.
    assert_abs_diff_eq!(both, 46.179, epsilon = 2e-3);
    assert!(one < both && wall > wall_both, "{one} {both}, {wall} {wall_both}");
    let (loose, _) = cleans(&job("pin: 46.090 46.060 46.020", "true-within: 0.06 mm", square));
    assert_abs_diff_eq!(loose - both, 0.04, epsilon = 1e-6);
    let (leans, thinner) = cleans(&job("pin: 46.090 46.060 46.020", usual, "base-square: 0.030 ± 0.003 mm"));
    assert_abs_diff_eq!(leans - both, 0.04, epsilon = 1e-6);
    assert!(thinner < wall_both - 0.019, "{thinner} {wall_both}");
}

/// What the first set-up bores to is what the second accepts cold: nobody bores a barrel that is then refused.
#[test]
fn what_is_bored_is_what_the_hone_accepts() {
    for job in [EXAMPLE.to_owned(), with(EXAMPLE, "0.05 mm", "0.06 mm")] {
        let it = in_shop(&job);
        let [boring, honing] = first(&it).answer.set_ups.as_slice() else { panic!() };
        let accepted = honing.steps.iter().find(|step| step.id == "measure-cold").unwrap().hold_point.as_ref().unwrap();
        let (Some(least), Some(most)) = accepted.limits.numbers() else { panic!() };
        let line = boring.blanks.iter().find(|blank| blank.log.is_some_and(|log| log.key == "bored_size")).unwrap();
        let Some(Target::Between(low, high)) = &line.target else { panic!("{:?}", line.target) };
        assert_abs_diff_eq!(low.number().unwrap(), least, epsilon = 1.1e-3);
        assert_abs_diff_eq!(high.number().unwrap(), most, epsilon = 1.1e-3);
    }
}
