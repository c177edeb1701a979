//! Cases of the trade to the digits printed.

use super::{Case, agrees, collar, hub, kilonewtons, missing, plate, remedies, ring, state, value, verdict, washer};
use crate::operations::Answer;
use crate::proof::{Outcome, Verdict, Weight};

/// A flywheel of 11 kg with six gaps, a millimetre of it in the grip.
#[test]
fn a_flywheel_by_a_millimetre() {
    let mut case = Case::new(
        "{in: jaws, diameter: 120 mm, grip: 1 mm, overhang: 38 mm, stop: step, nipped: hard}",
        [230.0, 0.0, 40.0],
        150.0,
    );
    (case.material, case.mass, case.gaps) = ("GG15", Some(11.0), 6);
    let it = case.judged();
    agrees("12.7", value(&it, "grip_length_asked"));
    agrees("1333", value(&it, "jaw_pressure"));
    kilonewtons("18.8", &it, "grip_by_moment");
    kilonewtons("15.0", &it, "grip_by_moment_worst");
    for id in ["grip-length", "jaw-pressure", "grip-moment"] {
        assert_eq!(verdict(&it, id), Verdict::Fails, "{id}");
    }
    let longer = case.hold("grip: 1 mm", "grip: 15 mm").hold("overhang: 38 mm", "overhang: 25 mm").judged();
    for (printed, key) in [
        ("10.8", "grip_by_torque"),
        ("8.1", "grip_by_torque_worst"),
        ("8.6", "grip_by_moment"),
        ("6.9", "grip_by_moment_worst"),
        ("11.2", "jaw_force_low"),
    ] {
        kilonewtons(printed, &longer, key);
    }
    agrees("46", value(&longer, "jaw_pressure"));
    for id in ["grip-length", "jaw-pressure", "grip", "grip-moment"] {
        assert_eq!(verdict(&longer, id), Verdict::Proven, "{id}");
    }
}

#[test]
fn a_ring_gripped_over_its_whole_length() {
    let mut case =
        Case::new("{in: soft-jaws, diameter: 52 mm, grip: 21.85 mm, overhang: 0 mm}", [52.0, 32.0, 21.85], 100.0);
    case.removed = 0.30;
    let it = case.judged();
    agrees("-1.00", value(&it, "tool_clear"));
    assert_eq!(verdict(&it, "tool-clear"), Verdict::Fails);
    assert_eq!(remedies(&it, "tool-clear"), ["grip-less 19.8 mm"]);
    let less = case.hold("grip: 21.85 mm, overhang: 0 mm", "grip: 19.8 mm, overhang: 2.05 mm").judged();
    assert_eq!(verdict(&less, "tool-clear"), Verdict::Proven);
}

#[test]
fn a_diameter_that_the_jaws_do_not_reach() {
    let at = |diameter: &str| {
        let hold = format!("{{in: jaws, diameter: {diameter}, grip: 10 mm, overhang: 10 mm}}");
        verdict(&Case::new(&hold, [240.0, 0.0, 20.0], 100.0).judged(), "jaw-reach")
    };
    assert_eq!(at("238 mm"), Verdict::Fails);
    assert_eq!(at("160 mm"), Verdict::Doubtful);
    assert_eq!(at("144 mm"), Verdict::Proven);
    let inside = |diameter: &str| {
        let hold = format!("{{in: jaws, grips: inside, diameter: {diameter}, grip: 10 mm, overhang: 10 mm}}");
        verdict(&Case::new(&hold, [240.0, 0.0, 20.0], 100.0).judged(), "jaw-reach")
    };
    assert_eq!(inside("56 mm"), Verdict::Proven);
    assert_eq!(inside("55 mm"), Verdict::Fails);
}

#[test]
fn a_bar_that_stands_out_on_a_short_grip() {
    let case =
        Case::new("{in: jaws, diameter: 30 mm, grip: 8 mm, overhang: 60 mm, nipped: hard}", [30.0, 0.0, 68.0], 200.0);
    let it = case.judged();
    // Gripped as it is cut, torque alone; the axial force is held too where nothing stops it.
    let torque = value(&case.hold("nipped: hard", "nipped: hard, stop: rod").judged(), "grip_by_torque") / 1000.0;
    agrees("5.0", torque);
    kilonewtons("5.6", &it, "grip_by_torque");
    kilonewtons("4.2", &it, "grip_by_torque_worst");
    kilonewtons("22.6", &it, "grip_by_moment");
    kilonewtons("18.1", &it, "grip_by_moment_worst");
    assert_eq!((verdict(&it, "grip"), verdict(&it, "grip-moment")), (Verdict::Proven, Verdict::Fails));
    let longer = Case { sizes: [30.0, 0.0, 90.0], ..case.hold("grip: 8 mm", "grip: 30 mm") }.judged();
    kilonewtons("8.6", &longer, "grip_by_moment");
    kilonewtons("6.9", &longer, "grip_by_moment_worst");
    assert_eq!(verdict(&longer, "grip-moment"), Verdict::Proven);
    // The remedies are true: gripped as long as they say it carries; seated it would not, and nobody is sent there.
    let said = remedies(&it, "grip-moment");
    let seated = case.hold("nipped: hard", "nipped: hard, stop: step").judged();
    assert_ne!(verdict(&seated, "grip-moment"), Verdict::Proven);
    assert!(!said.iter().any(|line| line.starts_with("seat-against-stop")), "{said:?}");
    let grip = said.iter().find_map(|line| line.strip_prefix("longer-grip ")).unwrap();
    let so_long = case.hold("grip: 8 mm", &format!("grip: {grip}")).judged();
    assert_eq!(verdict(&so_long, "grip-moment"), Verdict::Proven, "{grip}");
}

#[test]
fn a_washer_dishes_under_any_nip() {
    let normal = washer().judged();
    agrees("0.111", value(&normal, "dish_by_jaws"));
    kilonewtons("14.0", &normal, "jaw_force_high");
    let light = washer().hold("grip: 3 mm", "grip: 3 mm, nipped: light").judged();
    agrees("0.048", value(&light, "dish_by_jaws"));
    for it in [&normal, &light] {
        assert_eq!(verdict(it, "dish"), Verdict::Fails);
        assert!(remedies(it, "dish").iter().any(|line| line == "other-hold"), "{:?}", remedies(it, "dish"));
    }
    let told = remedies(&normal, "dish");
    assert!(told.last().is_some_and(|last| last.starts_with("nip-light-too-much 0.04")), "{told:?}");
    let unsaid = Case { flat: None, ..washer() }.judged();
    assert_eq!((state(&unsaid, "dish"), missing(&unsaid, "dish")), (Outcome::NotChecked, vec!["flat-within"]));
    let thick = Case { left: (45.1, 0.0), ..washer() }.judged();
    assert_eq!(state(&thick, "dish"), Outcome::DoesNotApply);
    let perhaps = Case { left: (45.1, 0.2), ..washer() }.judged();
    assert!(state(&perhaps, "dish").verdict().is_some(), "a doubt does not take the question away");
}

#[test]
fn a_ring_is_squeezed_out_of_round_and_bent() {
    let of = |jaws: &str, nip: &str, material: &'static str| {
        let case = ring().hold("in: jaws", &format!("in: {jaws}, nipped: {nip}"));
        Case { material, ..case }.judged()
    };
    let hard = of("jaws", "normal", "mild steel");
    agrees("0.0226", value(&hard, "ring_lobe"));
    assert_eq!(verdict(&hard, "ring-lobe"), Verdict::Fails);
    let light = of("jaws", "light", "mild steel");
    agrees("0.0097", value(&light, "ring_lobe"));
    assert_eq!(verdict(&light, "ring-lobe"), Verdict::Doubtful);
    let soft = of("soft-jaws", "light", "mild steel");
    agrees("0.0024", value(&soft, "ring_lobe"));
    assert_eq!(verdict(&soft, "ring-lobe"), Verdict::Proven);
    let bent = |it: &Answer| it.checks.iter().find(|check| check.id == "ring-stress").unwrap().judged.unwrap().got;
    agrees("89.3", bent(&hard));
    agrees("38.3", bent(&light));
    assert_eq!(verdict(&hard, "ring-stress"), Verdict::Proven);
    assert_eq!(verdict(&of("jaws", "normal", "GG15"), "ring-stress"), Verdict::Fails);
    assert_eq!(verdict(&of("jaws", "light", "GG15"), "ring-stress"), Verdict::Doubtful);
}

#[test]
fn a_ring_with_almost_no_wall_fails_with_its_figure() {
    for bore in [79.0, 79.999, 79.999_999_9] {
        let thin = Case { sizes: [80.0, bore, 20.0], ..ring() }.judged();
        assert_eq!(verdict(&thin, "ring-lobe"), Verdict::Fails, "{bore}");
        assert_eq!(verdict(&thin, "ring-stress"), Verdict::Fails, "{bore}");
        assert!(value(&thin, "ring_lobe").is_finite());
    }
    let solid = Case { sizes: [80.0, 0.0, 20.0], ..ring() }.judged();
    let hub = Case { sizes: [120.0, 84.0, 20.0], ..ring() }.judged();
    for (it, want) in [(solid, Outcome::DoesNotApply), (hub, Outcome::NotChecked)] {
        assert_eq!([state(&it, "ring-lobe"), state(&it, "ring-stress")], [want; 2]);
    }
}

/// A long liner gripped on its end bends there more than its whole length would let it.
#[test]
fn a_long_ring_works_no_further_than_the_load_spreads() {
    let stress = |length: f64| {
        let it = Case { sizes: [80.0, 64.0, length], ..ring() }.judged();
        it.checks.iter().find(|check| check.id == "ring-stress").unwrap().judged.unwrap().got
    };
    assert!(stress(30.0) < stress(20.0));
    assert_eq!(stress(200.0), stress(100.0));
}

#[test]
fn a_thin_plate_on_a_hub_fails_and_an_unknown_one_is_not_proven() {
    let it = plate().judged();
    agrees("12.0", value(&it, "flange_slenderness"));
    assert_eq!(verdict(&it, "flange"), Verdict::Fails);
    assert_eq!(state(&it, "dish"), Outcome::DoesNotApply);
    let unknown = Case { rim: None, ..plate() }.judged();
    assert_eq!(
        (state(&unknown, "flange"), missing(&unknown, "flange")),
        (Outcome::NotChecked, vec!["thickness-at-rim"])
    );
    let check = unknown.checks.iter().find(|check| check.id == "flange").unwrap();
    assert_eq!((check.weight, check.stamps()), (Weight::Must, Some(Verdict::Doubtful)));
    let unsaid = Case { rim: Some(10.0), flat: None, ..plate() }.judged();
    assert_eq!(verdict(&unsaid, "flange"), Verdict::Doubtful, "nobody says how flat");
}

#[test]
fn the_collar_to_the_digits_printed() {
    let it = collar().judged();
    for (printed, key) in [
        ("5359", "jaw_force_low"),
        ("14000", "jaw_force_high"),
        ("2755", "grip_by_torque"),
        ("2384", "grip_by_torque_worst"),
        ("2464", "grip_by_moment"),
        ("2270", "grip_by_moment_worst"),
        ("2755", "grip_needed"),
        ("2384", "grip_needed_worst"),
        ("4.0", "grip_length_asked"),
        ("24.6", "jaw_pressure"),
        ("11.0", "tool_clear"),
        ("0.0009", "ring_lobe"),
        ("0.0020", "dish_by_jaws"),
    ] {
        agrees(printed, value(&it, key));
    }
    let stress = it.checks.iter().find(|check| check.id == "ring-stress").unwrap().judged.unwrap();
    agrees("50.9", stress.got);
    agrees("400", stress.limit);
    for id in [
        "grip",
        "grip-moment",
        "grip-length",
        "jaw-pressure",
        "jaw-reach",
        "tool-clear",
        "overhang",
        "ring-stress",
        "dish",
        "ring-lobe",
        "square",
        "gives-way",
    ] {
        assert_eq!(verdict(&it, id), Verdict::Proven, "{id}");
    }
    for id in ["flange", "grip-looked-at"] {
        assert_eq!(state(&it, id), Outcome::DoesNotApply, "{id}");
    }
    let gauged = Case { chuck: collar().chuck.replace("20 kN", "20 kN, jaw-force-by: gauge"), ..collar() }.judged();
    agrees("7656", value(&gauged, "jaw_force_low"));
    agrees("14000", value(&gauged, "jaw_force_high"));
}

#[test]
fn the_collar_without_a_stop_with_a_rod_and_in_hard_jaws() {
    let figures = |it: &Answer, printed: [&str; 4]| {
        let keys = ["grip_by_torque", "grip_by_torque_worst", "grip_by_moment", "grip_by_moment_worst"];
        keys.iter().zip(printed).for_each(|(key, printed)| agrees(printed, value(it, key)));
    };
    let both = |it: &Answer| (verdict(it, "grip"), verdict(it, "grip-moment"));
    let none = collar().hold("stop: step", "stop: none");
    let it = none.judged();
    figures(&it, ["4967", "5332", "6756", "7740"]);
    agrees("6756", value(&it, "grip_needed"));
    assert_eq!(both(&it), (Verdict::Proven, Verdict::Doubtful));
    assert!(
        remedies(&it, "grip-moment")[0].starts_with("seat-against-stop 2270 N"),
        "{:?}",
        remedies(&it, "grip-moment")
    );
    let unsaid = collar().hold(", stop: step", "").judged();
    figures(&unsaid, ["4967", "5332", "6756", "7740"]);
    let hard = none.hold("stop: none", "stop: none, nipped: hard").judged();
    agrees("10719", value(&hard, "jaw_force_low"));
    agrees("0.0012", value(&hard, "ring_lobe"));
    agrees("0.0028", value(&hard, "dish_by_jaws"));
    agrees("35.1", value(&hard, "jaw_pressure"));
    agrees("72.7", hard.checks.iter().find(|check| check.id == "ring-stress").unwrap().judged.unwrap().got);
    assert!(hard.checks.iter().all(|check| check.verdict().is_none_or(|verdict| verdict == Verdict::Proven)));
    let rod = collar().hold("stop: step", "stop: rod").judged();
    figures(&rod, ["2755", "2384", "6756", "7740"]);
    assert_eq!(both(&rod), (Verdict::Proven, Verdict::Doubtful));
    let plain = none.hold("in: soft-jaws", "in: jaws").judged();
    figures(&plain, ["6209", "6664", "7368", "8441"]);
    agrees("0.0035", value(&plain, "ring_lobe"));
    assert_eq!(both(&plain), (Verdict::Doubtful, Verdict::Doubtful));
    assert_eq!(verdict(&plain, "ring-lobe"), Verdict::Doubtful);
    let plain_step = collar().hold("in: soft-jaws", "in: jaws").judged();
    figures(
        &plain_step,
        [
            "3444",
            "2980",
            &format!("{:.0}", value(&plain_step, "grip_by_moment")),
            &format!("{:.0}", value(&plain_step, "grip_by_moment_worst")),
        ],
    );
    assert_eq!(both(&plain_step), (Verdict::Proven, Verdict::Proven));
}

#[test]
fn the_hub_to_the_digits_printed() {
    let it = hub().judged();
    for (printed, key) in [
        ("5598", "jaw_force_low"),
        ("14000", "jaw_force_high"),
        ("3952", "grip_by_torque"),
        ("3568", "grip_by_torque_worst"),
        ("2981", "grip_by_moment"),
        ("2860", "grip_by_moment_worst"),
        ("3952", "grip_needed"),
        ("6.7", "grip_length_asked"),
        ("20.3", "jaw_pressure"),
        ("19.06", "tool_clear"),
        ("3.9", "flange_slenderness"),
        ("0.0010", "flange_gives"),
    ] {
        agrees(printed, value(&it, key));
    }
    for id in ["grip", "grip-moment", "grip-length", "jaw-pressure", "jaw-reach", "tool-clear", "overhang", "flange"] {
        assert_eq!(verdict(&it, id), Verdict::Proven, "{id}");
    }
    for id in ["dish", "ring-stress", "ring-lobe", "grip-looked-at"] {
        assert_eq!(state(&it, id), Outcome::DoesNotApply, "{id}");
    }
    let none = hub().hold("stop: step", "stop: none").judged();
    for (printed, key) in [
        ("4073", "grip_by_torque"),
        ("4125", "grip_by_moment"),
        ("3678", "grip_by_torque_worst"),
        ("3960", "grip_by_moment_worst"),
    ] {
        agrees(printed, value(&none, key));
    }
    assert_eq!((verdict(&none, "grip"), verdict(&none, "grip-moment")), (Verdict::Proven, Verdict::Proven));
}
