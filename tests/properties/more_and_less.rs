//! More of this means more, or less, of that.

use super::given;
use crate::seeds;
use proptest::prelude::*;
use setover::handbook::Thread;
use setover::handbook::{
    cutting::{drilling, speeds},
    joints::{heating, press},
    materials::{groups::Kind, hardness},
    threads::{insert, thread_strength as strength},
};
use setover::proof::Cause;
use setover::quantity::{Hardness, Mm, Ratio, Scale, Stress};

/// Pressure of bronze in aluminium.
fn pressure(delta: f64, joint: f64, bore: f64, outside: f64) -> f64 {
    let d = given::<Mm>(joint);
    let gives = press::bush_gives(&d, &given(bore), &given(0.34)).expect("bush");
    let opens = press::housing_gives(&d, &given(outside), &given(0.33)).expect("housing");
    let (bronze, aluminium) = (given::<Stress>(103e3), given::<Stress>(71e3));
    press::joint_pressure(&given(delta), &d, &gives, &bronze, &opens, &aluminium).expect("pressure").number()
}

proptest! {
    #![proptest_config(seeds::config(256, "tests/regressions/more_and_less.txt"))]

    #[test]
    fn more_interference_and_thicker_walls_press_harder(
        delta in 0.005_f64..0.2, joint in 5.0_f64..100.0, bore in 0.5_f64..0.9, outside in 1.2_f64..4.0, more in 1.01_f64..1.5,
    ) {
        let p = pressure(delta, joint, bore * joint, outside * joint);
        prop_assert!(pressure(delta * more, joint, bore * joint, outside * joint) > p);
        prop_assert!(pressure(delta, joint, bore * joint, outside * joint * more) > p);
        prop_assert!(pressure(delta, joint, bore * joint / more, outside * joint) > p);
        let force = |length| press::press_force(&given(0.2), &given(p.min(1999.0)), &given(joint), &given(length)).expect("force").number();
        prop_assert!(force(20.0 * more) > force(20.0));
    }

    #[test]
    fn a_warmer_housing_is_wanted_for_more_interference(delta in 0.005_f64..0.1, more in 0.001_f64..0.05, chilled in 0.0_f64..0.02) {
        let of = |delta: f64, chilled: f64| {
            heating::housing_temperature(&given(delta), &given(0.02), &given(chilled), &given(23.0), &given(30.0)).expect("heat").number()
        };
        prop_assert!(of(delta + more, chilled) > of(delta, chilled));
        prop_assert!(of(delta, chilled) <= of(delta, 0.0));
    }

    #[test]
    fn hardness_goes_up_on_every_scale_together(hrc in 22.2_f64..57.0, more in 0.05_f64..0.8) {
        let of = |number: f64, to| {
            hardness::on_scale(Hardness { number, scale: Scale::Hrc }, to, Kind::Steel).expect("a number").number()
        };
        prop_assert!(of(hrc + more, Scale::Hv) > of(hrc, Scale::Hv));
        prop_assert!(of(hrc + more, Scale::Hb) > of(hrc, Scale::Hb));
        let back = hardness::on_scale(Hardness { number: of(hrc, Scale::Hv), scale: Scale::Hv }, Scale::Hrc, Kind::Steel);
        prop_assert!((back.expect("back").number() - hrc).abs() < 1e-9, "there and back");
    }

    #[test]
    fn a_larger_part_turns_slower(v in 5.0_f64..200.0, d in 3.0_f64..300.0, more in 1.01_f64..3.0) {
        let turns = |v: f64, d: f64| speeds::spindle_speed(&given(v), &given(d)).expect("a speed");
        prop_assert!(turns(v, d * more).number() < turns(v, d).number());
        prop_assert!(turns(v * more, d).number() > turns(v, d).number());
        let back = speeds::surface_speed(&turns(v, d), &given(d)).expect("back").number();
        prop_assert!((back / v - 1.0).abs() < 1e-12, "there and back");
    }

    #[test]
    fn a_larger_drill_and_feed_ask_more(d in 1.0_f64..30.0, f in 0.02_f64..0.5, more in 1.01_f64..2.0) {
        let of = |d: f64, f: f64| {
            let (drill, feed, k) = (given::<Mm>(d), given(f), given::<Ratio>(2.0));
            let torque = drilling::k_form_torque(&k, &drill, &feed).expect("torque").number();
            let thrust = drilling::k_form_thrust(&k, &drill, &feed).expect("thrust").number();
            (torque, thrust)
        };
        prop_assert!(of(d * more, f).0 > of(d, f).0 && of(d * more, f).1 > of(d, f).1);
        prop_assert!(of(d, f * more).0 > of(d, f).0 && of(d, f * more).1 > of(d, f).1);
    }

    #[test]
    fn a_longer_insert_holds_more_and_goes_deeper(length in 4.0_f64..40.0, more in 0.1_f64..10.0) {
        let area = |length: f64| {
            strength::nut_shear_area(&given(1.25), &given(length), &given(9.624), &given(8.937)).expect("area").number()
        };
        let depth = |length: f64| {
            let one = given::<Ratio>(1.0);
            insert::drilled_depth(&given(length), &given(4.0), &one, &one, &given(4.0), &given(1.25)).expect("depth").number()
        };
        prop_assert!(area(length + more) > area(length));
        prop_assert!((depth(length + more) - depth(length) - more).abs() < 1e-9);
    }

    #[test]
    fn doubts_together_are_more_than_each_and_less_than_their_sum(a in 0.001_f64..0.1, b in 0.001_f64..0.1) {
        let figure = given::<Mm>(1.0).with_doubt(Cause::Named("one"), a).with_doubt(Cause::Named("other"), b);
        let both = figure.plus_minus();
        prop_assert!(both >= a.max(b) && both <= a + b);
    }
}

#[test]
fn every_thread_has_its_diameters_in_order() {
    let mut checked = 0;
    for thread in Thread::all() {
        let (major, pitch) = (thread.major().number(), thread.pitch_diameter().expect("pitch diameter").number());
        let minor = thread.minor_diameter().expect("minor diameter").number();
        assert!(0.0 < minor && minor < pitch && pitch < major, "{}: {minor} {pitch} {major}", thread.name());
        if let Some(drill) = thread.tap_drill() {
            let drill = drill.number();
            assert!(
                minor - 0.25 * thread.pitch().number() < drill && drill < major,
                "{}: drill {drill}",
                thread.name()
            );
        }
        let area = thread.stress_area().expect("area").number();
        let circle = |d: f64| std::f64::consts::PI / 4.0 * d * d;
        assert!(circle(minor) * 0.9 < area && area < circle(pitch), "{}: {area}", thread.name());
        checked += 1;
    }
    assert!(checked > 150, "{checked}");
}
