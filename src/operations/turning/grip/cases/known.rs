//! What is known of chuck and hold, and what is not.

use super::{CHUCK, Case, agrees, collar, hub, missing, remedies, ring, state, value, verdict, washer};
use crate::proof::{Outcome, Verdict};

#[test]
fn a_hold_that_no_table_judges_is_tried() {
    for held_in in ["mandrel", "collet", "faceplate", "clamps", "vice", "angle-plate"] {
        let case = hub().hold("in: soft-jaws", &format!("in: {held_in}")).hold(", stop: step", "");
        let it = case.judged();
        assert_eq!(verdict(&it, "grip-looked-at"), Verdict::Doubtful, "{held_in}");
        // 2.0 × 1.5 × 65.86 × 120/2000 = 11.86; at the worst end 1.5 × 1.5 × 79.30 × 0.06 = 10.71.
        assert_eq!(remedies(&it, "grip-looked-at"), ["bar-and-balance 11.9 N·m"]);
        for id in
            ["grip", "grip-moment", "grip-length", "jaw-pressure", "jaw-reach", "ring-lobe", "ring-stress", "dish"]
        {
            if (held_in, id) == ("collet", "grip-length") {
                assert_eq!(verdict(&it, id), Verdict::Proven, "a collet grips over a length");
                continue;
            }
            if matches!(held_in, "faceplate" | "clamps" | "angle-plate") && id == "dish" {
                assert_eq!(state(&it, id), Outcome::NotChecked, "what lies behind a thin plate is asked");
                continue;
            }
            assert_eq!(state(&it, id), Outcome::DoesNotApply, "{held_in}: {id}");
        }
        for id in ["tool-clear", "overhang", "flange"] {
            assert_eq!(verdict(&it, id), Verdict::Proven, "{held_in}: {id}");
        }
        let tried = |torque: &str| {
            let it = case.hold("grip: 12 mm", &format!("grip: 12 mm, tested: {torque}")).judged();
            assert_eq!(state(&it, "grip-looked-at"), Outcome::DoesNotApply);
            verdict(&it, "grip")
        };
        assert_eq!(tried("12.0 ± 0.1 N·m"), Verdict::Proven);
        assert_eq!(tried("12.0 ± 0.5 N·m"), Verdict::Doubtful);
        assert_eq!(tried("12 N·m"), Verdict::Doubtful, "half a unit of the last digit");
        assert_eq!(tried("11 ± 0.1 N·m"), Verdict::Fails);
    }
}

#[test]
fn what_is_missing_is_said() {
    let all = |case: Case| {
        let it = case.judged();
        move |id: &str| (state(&it, id), missing(&it, id))
    };
    let short = all(collar().hold(", grip: 10 mm", ""));
    assert_eq!(short("grip-moment"), (Outcome::NotChecked, vec!["hold.grip"]));
    assert_eq!(short("grip-length"), (Outcome::NotChecked, vec!["hold.grip"]));
    assert_eq!(short("jaw-pressure"), (Outcome::NotChecked, vec!["hold.grip"]));
    assert_eq!(short("grip").0, Outcome::Made(Verdict::Proven));
    let bare = all(collar().hold("diameter: 52 mm, ", ""));
    for id in ["grip", "grip-moment", "jaw-reach", "ring-stress", "dish", "flange", "overhang"] {
        assert_eq!(bare(id), (Outcome::NotChecked, vec!["hold.diameter"]), "{id}");
    }
    let no_chuck = all(Case { chuck: String::new(), ..collar() });
    assert_eq!(no_chuck("grip"), (Outcome::NotChecked, vec!["chuck.jaw-force", "hold.tested"]));
    assert_eq!(no_chuck("grip-moment"), (Outcome::NotChecked, vec!["chuck.jaw-force"]));
    for id in ["ring-stress", "ring-lobe", "dish", "jaw-pressure", "jaw-reach"] {
        assert_eq!(no_chuck(id).0, Outcome::NotChecked, "{id}");
    }
    let small = all(Case { chuck: "{diameter: 70 mm}".into(), ..collar() });
    assert_eq!(small("grip").0, Outcome::NotChecked, "outside the table of chucks");
    let four = all(Case { chuck: "{diameter: 160 mm}".into(), ..collar().hold("soft-jaws", "four-jaw") });
    assert_eq!(four("grip").0, Outcome::NotChecked, "the table is of scroll chucks");
    let no_speed = all(Case { chuck: "{jaw-force: 20 kN, jaw-width: 20 mm, reach: 160 mm}".into(), ..collar() });
    assert_eq!(no_speed("grip-moment"), (Outcome::NotChecked, vec!["chuck.most"]));
    assert_eq!(no_speed("ring-stress").0, Outcome::Made(Verdict::Proven));
    let no_shop = all(Case { shop: false, chuck: String::new(), ..collar() });
    assert_eq!(no_shop("grip"), (Outcome::NotChecked, vec!["hold.tested"]));
    for id in ["ring-stress", "ring-lobe", "dish", "jaw-pressure", "jaw-reach"] {
        assert_eq!(no_shop(id).0, Outcome::NoShop, "{id}");
    }
    let tried =
        Case { shop: false, chuck: String::new(), ..collar().hold("stop: step", "stop: step, tested: 20 N·m") };
    assert_eq!(verdict(&tried.judged(), "grip"), Verdict::Proven);
}

#[test]
fn a_chuck_of_which_only_the_diameter_is_known() {
    let it = Case { chuck: "{diameter: 160 mm}".into(), ..collar() }.judged();
    // 0.40 × 0.7 × 15 kN less what the speed takes (2387 rev/min at the body), and 0.70 × 40 kN.
    agrees("28000", value(&it, "jaw_force_high"));
    agrees("4097", value(&it, "jaw_force_low"));
    assert!(it.assumed.iter().any(|words| words.id == "jaw-force-by-diameter"));
    let light = Case { chuck: "{diameter: 160 mm}".into(), ..collar().hold("stop: step", "stop: step, nipped: light") };
    agrees("4000", value(&light.judged(), "jaw_force_high"));
}

/// A light nip that does not carry, of a part that a normal nip spoils: not doubtful, but another hold.
#[test]
fn no_nip_will_do() {
    let case = washer().hold("grip: 3 mm", "grip: 3 mm, nipped: light");
    let heavy = Case { force: (150.0, 150.0), ..case };
    let it = heavy.judged();
    assert_eq!(verdict(&it, "grip-moment"), Verdict::Fails);
    assert!(remedies(&it, "grip-moment").iter().any(|line| line == "other-hold"));
}

/// The force outwards of the jaws is the same however lightly they were closed.
#[test]
fn a_light_nip_at_speed_is_not_proven() {
    let hold = "{in: soft-jaws, diameter: 60 mm, grip: 20 mm, overhang: 10 mm, stop: step, nipped: light}";
    let at = |step: f64, most: &str| {
        let mut case = Case::new(hold, [60.0, 0.0, 30.0], 10.0);
        (case.step, case.chuck) = (step, CHUCK.replace("1e9", most));
        let it = case.judged();
        (verdict(&it, "grip"), value(&it, "jaw_force_low"))
    };
    assert_eq!(at(100.0, "1800").0, Verdict::Proven);
    assert_eq!(at(900.0, "1800").0, Verdict::Doubtful, "{}", at(900.0, "1800").1);
}

#[test]
fn jaws_that_open_press_harder_at_speed_and_lose_nothing() {
    let hold = "{in: jaws, grips: inside, diameter: 64 mm, grip: 8 mm, overhang: 12 mm, true-within: 0.02 mm}";
    let at = |step: f64| {
        let case = Case { hold: hold.into(), step, chuck: CHUCK.replace("1e9", "1800"), ..ring() };
        let it = case.judged();
        assert!(state(&it, "dish").verdict().is_some(), "a plate gripped inside always asks");
        (value(&it, "jaw_force_low"), value(&it, "jaw_force_high"), value(&it, "ring_lobe"))
    };
    let (slow, fast) = (at(10.0), at(1500.0));
    assert_eq!(slow.0, fast.0);
    assert!(fast.1 > 1.5 * slow.1 && fast.2 > slow.2);
}
