//! A part is in one place at a time, is worked cold, and stays in the chuck that it was trued in.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common::{shop, try_plan, with};
use setover::plan::day::{Asked, Assumed, Day, Line, Stop, day};

const SHOP: &str = include_str!("../demo/shop.yaml");
const WARM: &str = "      - warm: {bore: 24 mm, outside: 46 mm, length: 20 mm, interference: 0.028 mm, near: [nothing], temper: as-cast}\n";
const PRESS_IN: &str = "      - press-in: {housing: {bore: 24.010 ± 0.004 mm, outside: 46 mm, length: 20 mm, finish: Ra 0.8 um}, bush: {outside: 24.030 ± 0.004 mm, bore: 18.000 ± 0.004 mm, length: 20 mm, material: phosphor bronze, finish: Ra 0.8 um}, opened-by: 0.055 mm, stands: flush, support: {inside: 30 mm, under: boss}}\n";
const BORE: &str = "      - bore-hole: {present: 24.2 ± 0.05 mm, bore: 25.00 .. 25.05 mm, depth: 30 mm, through: true, behind: 6.0 ± 0.5 mm, outside: 48.0 ± 0.1 mm, over-all: 30 ± 0.1 mm, eccentric: 0.05 ± 0.02 mm, least-wall: 10 mm, true-to: bore, finish: Ra 3.2 um, hold: {in: soft-jaws, diameter: 48 mm, grip: 18 mm, overhang: 12 mm, true-within: 0.03 mm, stop: step}}\n";
const REAM: &str = "      - ream-bush: {housing: {bore: 20.010 ± 0.004 mm, outside: 40 mm, length: 20 mm, material: cast aluminium, finish: Ra 0.8 um}, bush: {outside: 20.045 ± 0.004 mm, bore: 15.950 ± 0.004 mm, length: 20 mm, material: phosphor bronze, finish: Ra 0.8 um}, shaft: 15.984 ± 0.003 mm, clearance: 1 .. 2 thou, duty: gear, oil-holes: [{diameter: 3 mm, at: 10 mm}], assemble: warm-and-chill, by: hand}\n";

fn cover(operations: &[&str]) -> String {
    let head = "job: Cover\nparts:\n  - part: pump cover\n    material: cast aluminium\n    operations:\n";
    format!("{head}{}", operations.concat())
}

fn planned(job: &str) -> Day {
    let plans = vec![try_plan(job, Some(&shop(SHOP))).unwrap_or_else(|all| panic!("{all:#?}"))];
    day(&plans, &Asked { days: 2, ..Asked::default() }).unwrap_or_else(|all| panic!("{all:#?}"))
}

fn line<'a>(day: &'a Day, id: &str) -> &'a Line {
    day.lines.iter().find(|line| line.id == id).unwrap_or_else(|| panic!("no line {id}"))
}

/// Nothing is done on a part that is in the oven, and nothing cut or measured on it within the hour after it was warm.
fn is_in_one_place_and_cold(day: &Day) -> usize {
    let mut loads = 0;
    for load in day.lines.iter().filter(|line| line.machine == "kitchen oven") {
        loads += 1;
        let fetcher = load.fetched.as_ref().map(|(id, _)| line(day, id));
        let out = fetcher.map_or_else(|| load.by_itself_until.unwrap(), |fetcher| fetcher.end);
        let is_other = |own: &&Line| own.id != load.id && fetcher.is_none_or(|fetcher| fetcher.id != own.id);
        for other in day.lines.iter().filter(|own| own.part == load.part).filter(is_other) {
            let is_work = !["kitchen oven", "freezer", "arbor press"].contains(&other.machine.as_str());
            let free = if is_work { out + 60 } else { out };
            assert!(other.end <= load.start || other.start >= free, "{} while {} is warm", other.id, load.id);
        }
    }
    loads
}

#[test]
fn a_part_in_the_oven_is_nowhere_else_and_what_is_warm_is_not_cut() {
    let featured = |operation: &str| operation.replacen(": {", ": {set-up: {feature: bore}, ", 1);
    for operations in [
        vec![WARM.to_owned(), PRESS_IN.into(), BORE.into()],
        vec![featured(WARM), featured(PRESS_IN), BORE.into()],
        vec![BORE.into(), REAM.into(), WARM.into()],
        vec![REAM.to_owned(), WARM.into()],
    ] {
        let operations: Vec<&str> = operations.iter().map(String::as_str).collect();
        let day = planned(&cover(&operations));
        assert!(day.left_out.is_empty(), "{:?}", day.left_out);
        assert!(is_in_one_place_and_cold(&day) > 0);
    }
}

/// What drops into a warm part is measured before the oven and goes in while that is warm, in whichever order the two are listed.
#[test]
fn what_drops_in_warm_waits_for_the_warmth_and_is_measured_before_it() {
    for (operations, warm, press) in [([WARM, PRESS_IN], "1.1", "2"), ([PRESS_IN, WARM], "2.1", "1")] {
        let day = planned(&cover(&operations));
        let home = line(&day, &format!("{press}.2"));
        assert_eq!(line(&day, warm).fetched.as_ref().map(|(id, _)| id.as_str()), Some(home.id.as_str()));
        assert!(line(&day, &format!("{press}.1")).end <= line(&day, warm).start);
        assert!(home.start >= line(&day, warm).by_itself_until.unwrap());
        assert!(!day.taken_as_done.iter().any(|state| state.to_string().contains("warm")), "{:?}", day.taken_as_done);
        is_in_one_place_and_cold(&day);
    }
    let alone = planned(&cover(&[PRESS_IN]));
    assert!(alone.taken_as_done.iter().any(|state| state.to_string().contains("warm")), "{:?}", alone.taken_as_done);
}

/// Between truing and its cut nothing else stands on that spindle, though another part is asked for in between: it waits.
#[test]
fn what_was_trued_is_cut_before_anything_else_comes_on_that_spindle() {
    let job = "job: Trued
parts:
  - part: pump shaft
    material: mild steel
    operations:
      - set-true: {readings: {at: 0 45 90 135 180 225 270 315 deg, reads: 0 -6 -19 -31 -36 -30 -18 -6 um}, with: lever indicator, true-within: 0.02 mm, hold: {in: four-jaw}}
      - turn: {set-up: {not-before: \"11:00\"}, present: 24.60 ± 0.02 mm, outside: 23.95 .. 24.00 mm, length: 22.0 ± 0.2 mm, over-all: 70 ± 0.2 mm, corner: 0.4 mm, finish: Ra 3.2 um, hold: {in: four-jaw, tested: 400 N·m, diameter: 24.6 mm, grip: 40 mm, overhang: 30 mm, true-within: 0.05 mm, stop: step, nipped: hard}}
  - part: distance piece
    material: case-hardened steel
    hardness: 60 HRC
    case-depth: 1.0 ± 0.1 mm
    operations:
      - face: {outside: 52 mm, inside: 32 mm, length: 21.85 ± 0.01 mm, wear: 0.25 ± 0.02 mm, finish: Ra 1.6 um, square-within: 0.02 mm, hold: {in: soft-jaws, diameter: 52 mm, grip: 10 mm, overhang: 12 mm, true-within: 0.01 mm, stop: step}, least-case: 0.5 mm, removed-before: 0 mm, float: opens, as-found-float: 0.42 ± 0.01 mm, bears: in-groove}
";
    let early = with(job, "      - face: {", "      - face: {set-up: {due: \"09:00\"}, ");
    let late = with(job, "      - set-true: {", "      - set-true: {set-up: {due: \"09:00\"}, ");
    for job in [job, &early, &late] {
        let day = planned(job);
        let lathe: Vec<&str> =
            day.lines.iter().filter(|line| line.machine == "belt lathe").map(|line| line.id.as_str()).collect();
        let at = |id: &str| lathe.iter().position(|own| *own == id).unwrap();
        assert_eq!(at("2.1"), at("1.1") + 1, "{lathe:?}");
        // The chuck stays: only the tool is fitted.
        let fitted = line(&day, "2.1").change.as_ref().map(|change| change.what.as_str());
        assert!(fitted.is_some_and(|what| !what.contains("jaw")), "{fitted:?}");
    }
}

/// Soft jaws are bored to a diameter, and to the depth of the step that a part seats on.
#[test]
fn soft_jaws_of_another_depth_are_bored_again() {
    let job = "job: Two rings
parts:
  - part: ring
    material: mild steel
    operations:
      - face: {outside: 46 mm, inside: 18 mm, length: 40.00 ± 0.01 mm, wear: 0.2 ± 0.02 mm, finish: Ra 3.2 um, square-within: 0.05 mm, least-length: 37 mm, hold: {in: soft-jaws, diameter: 46 mm, grip: 30 mm, overhang: 10 mm, true-within: 0.02 mm, stop: step}}
  - part: sleeve
    material: mild steel
    operations:
      - turn: {present: 46.0 ± 0.02 mm, outside: 44.00 .. 44.05 mm, length: 15 ± 0.2 mm, over-all: 40 ± 0.1 mm, shoulder: 46 mm, finish: Ra 3.2 um, inside: 18 mm, hold: {in: soft-jaws, diameter: 46 mm, grip: 17.5 mm, overhang: 22.5 mm, true-within: 0.02 mm, stop: step}}
";
    let bored_again = |job: &str| {
        let day = planned(job);
        let whats: Vec<&str> =
            day.lines.iter().filter_map(|line| line.change.as_ref()).map(|change| change.what.as_str()).collect();
        whats.iter().filter(|what| what.contains("soft jaws 46 mm")).count()
    };
    assert_eq!(bored_again(job), 2);
    let alike = with(&with(job, "grip: 17.5 mm", "grip: 30 mm"), "overhang: 22.5 mm", "overhang: 10 mm");
    assert_eq!(bored_again(&with(&alike, "length: 15 ± 0.2 mm", "length: 5 ± 0.2 mm")), 1);
}

/// A bush that is chilled alone is in the freezer, and blocks no oven.
#[test]
fn a_bush_that_is_chilled_alone_is_in_the_freezer() {
    let job = with(&cover(&[REAM]), "assemble: warm-and-chill", "assemble: chill-bush").replace("20.045", "20.030");
    let day = planned(&job);
    assert_eq!(line(&day, "1.2").machine, "freezer");
}

/// What was warmed yesterday, or went in too late to be watched to its end, is warmed again.
#[test]
fn what_is_warm_no_more_is_warmed_again() {
    let plans = vec![try_plan(&cover(&[REAM]), Some(&shop(SHOP))).unwrap()];
    let again = |done: &[(&str, &str)], from: &str| {
        let done = done.iter().map(|(id, at)| ((*id).to_owned(), Some(at.parse().unwrap()))).collect();
        let asked = Asked { done, from: Some(from.parse().unwrap()), days: 2, ..Asked::default() };
        day(&plans, &asked)
    };
    let late = again(&[("1.1", "16:00"), ("1.2", "16:30")], "16:40").unwrap();
    let warm = line(&late, "1.2");
    assert!(warm.start >= 24 * 60 && line(&late, "1.3").start / 1440 == warm.start / 1440);
    assert!(late.assumed.iter().any(|own| matches!(own, Assumed::Again(id) if id == "1.2")), "{:?}", late.assumed);
    let fresh = again(&[("1.1", "09:00"), ("1.2", "10:00")], "10:20").unwrap();
    assert!(fresh.lines.iter().all(|line| line.id != "1.2") && line(&fresh, "1.3").start < 12 * 60);
    let slip = again(&[("1.2", "10:00")], "09:00").expect_err("not done yet");
    assert!(slip[0].says.contains("not done by then"), "{slip:?}");
}

/// A bush that is a part of its own is made cold before it drops in.
#[test]
fn the_bush_that_is_chilled_drops_in_while_it_is_cold() {
    let cold = PRESS_IN.replace("opened-by: 0.055 mm", "chilled-by: 0.055 mm");
    let job = cover(&[&cold])
        + "  - part: bush\n    material: LG2\n    operations:\n      - chill: {in: freezer, outside: 24 mm, bore: 20 mm, length: 20 mm, interference: 0.022 mm, opened-by: 0.040 mm, bagged: true}\n";
    let day = planned(&job);
    assert_eq!(line(&day, "2.1").fetched.as_ref().map(|(id, _)| id.as_str()), Some("1.2"));
}

/// What is done was done; what must stand before it in another operation stays to be done, and the rule is named.
#[test]
fn what_another_operation_was_to_do_before_stays_to_be_done() {
    let rear = REAM.replacen(": {", ": {set-up: {name: rear, feature: rear}, ", 1);
    let front = REAM.replacen(": {", ": {set-up: {name: front, feature: front}, ", 1);
    let plans = vec![try_plan(&cover(&[&front, &rear]), Some(&shop(SHOP))).unwrap()];
    let asked = Asked { done: vec![("1.6".into(), None)], days: 2, ..Asked::default() };
    let day = day(&plans, &asked).unwrap();
    let ids: Vec<&str> = day.lines.iter().map(|line| line.id.as_str()).collect();
    assert_eq!(ids.iter().filter(|id| id.starts_with("2.")).count(), 6, "{ids:?}");
    assert!(!ids.iter().any(|id| id.starts_with("1.")), "{ids:?}");
    let late = |own: &Assumed| matches!(own, Assumed::ComesLate(before, done, _) if before == "2.3" && done == "1.6");
    assert!(day.assumed.iter().any(late), "{:?}", day.assumed);
}

/// An oven that was hotter is cooled empty: the next part goes in when it has the other setting, not when the last came out.
#[test]
fn an_oven_changes_its_setting_empty() {
    let part = |name: &str, to: &str, more: &str| {
        format!(
            "  - part: {name}\n    material: cast aluminium\n    operations:\n      - warm: {{{more}bore: 24 mm, outside: 46 mm, length: 20 mm, to: {to}, near: [nothing], temper: as-cast}}\n"
        )
    };
    let job = format!(
        "job: Two\nparts:\n{}{}",
        part("hot", "130 degC", ""),
        part("mild", "90 degC", "set-up: {after: hot/warm}, ")
    );
    let day = planned(&job);
    let (hot, mild) = (line(&day, "1.1"), line(&day, "2.1"));
    let change = setover::handbook::change_over::row(
        "oven",
        setover::handbook::rigging::Aspect::Setting,
        "other temperature down",
    );
    let minutes = change.unwrap().start_min as u32;
    assert!(minutes > 0 && mild.start >= hot.by_itself_until.unwrap() + minutes, "{} {}", hot.start, mild.start);
    // Hot when the hands begin: it cools from then on.
    let plans =
        vec![try_plan(&format!("job: One\nparts:\n{}", part("mild", "90 degC", "")), Some(&shop(SHOP))).unwrap()];
    let rigged = vec![("kitchen oven".into(), "200 degC".into())];
    let from_hot = setover::plan::day::day(&plans, &Asked { rigged, days: 1, ..Asked::default() }).unwrap();
    assert!(line(&from_hot, "1.1").start >= from_hot.from + minutes);
}

/// Parts of one assembly in two jobs are of one assembly: the shims wait for the face that moves them.
#[test]
fn an_assembly_holds_over_the_jobs_that_are_given() {
    let of = |job: &str, part: &str| {
        let part = format!("  - part: {part}\n");
        let job = with(job, &part, &format!("{part}    assembly: pump end\n"));
        try_plan(&job, Some(&shop(include_str!("../examples/shop.yaml")))).unwrap_or_else(|all| panic!("{all:#?}"))
    };
    let shim = of(include_str!("../examples/shim.yaml"), "idler shaft");
    let face = of(include_str!("../examples/face.yaml"), "distance piece");
    let day = day(&[shim, face], &Asked { days: 1, ..Asked::default() }).unwrap();
    assert!(line(&day, "2/1.1").end <= line(&day, "1/1.1").start);
}

/// A part of one name in two jobs is one part: what is bolted to it in the one is bolted to it in the other.
#[test]
fn a_part_of_two_jobs_is_of_the_assemblies_of_both() {
    let of = |job: &str| {
        try_plan(job, Some(&shop(include_str!("../examples/shop.yaml")))).unwrap_or_else(|all| panic!("{all:#?}"))
    };
    let face = include_str!("../examples/face.yaml");
    let shim = include_str!("../examples/shim.yaml");
    let day = |shim: &str| day(&[of(shim), of(face)], &Asked { days: 1, ..Asked::default() }).unwrap();
    let waits = |day: &Day| line(day, "2/1.1").end <= line(day, "1/1.1").start;
    let same = shim.replace("part: idler shaft", "part: distance piece");
    assert!(waits(&day(&same)));
    // The shims go on a shaft that the piece stands beside.
    let beside = format!(
        "{shim}\n  - part: distance piece\n    operations:\n      - hand: {{does: Wash it., minutes: 5 min, leaves: [washed]}}\n"
    );
    assert!(waits(&day(&beside)));
    assert!(!waits(&day(shim)), "of two jobs that name no part alike");
}

/// The old bush is out before the housing is measured, and before the new bush's warmth; what was pushed out warm is measured cold.
#[test]
fn the_old_bush_is_out_before_the_new_one_is_begun() {
    let out = "      - press-out: {housing: {outside: 46 mm, length: 20 mm}, bush: {outside: 24.02 ± 0.02 mm, bore: 18.10 ± 0.02 mm, length: 23 mm, material: LG2}, interference: 0.030 mm, held-by: flange, push-from: inner, flange: {diameter: 30 mm, thickness: 3 mm}, mandrel: {diameter: 23.5 mm, length: 40 mm}, support: {inside: 32 mm, height: 40 mm, under: boss}, warm-to: 120 degC}\n";
    let warm =
        "      - warm: {bore: 20 mm, outside: 46 mm, length: 20 mm, to: 120 degC, near: [nothing], temper: as-cast}\n";
    let featured = |operation: &str| operation.replacen(": {", ": {set-up: {feature: front bush}, ", 1);
    let plain = |operation: &str| operation.to_owned();
    let both: [&dyn Fn(&str) -> String; 2] = [&featured, &plain];
    for name in both {
        let alone = planned(&cover(&[&name(out), &name(REAM)]));
        // Nobody comes into the shop to a hot casting.
        let stop = alone.left_out.iter().find(|out| out.id == "1.1").map(|out| &out.stop);
        assert_eq!(stop, Some(&Stop::NothingWarmsIt), "{:?}", alone.left_out);
        let whole = planned(&cover(&[&name(warm), &name(out), &name(REAM)]));
        assert!(whole.left_out.is_empty(), "{:?}", whole.left_out);
        assert_eq!(line(&whole, "1.1").fetched.as_ref().map(|(id, _)| id.as_str()), Some("2.1"));
        assert!(line(&whole, "3.1").start >= line(&whole, "2.1").end + 60);
        is_in_one_place_and_cold(&whole);
    }
}

/// Two bushes that are made cold: each is cold before it drops in, whether one job says so or two, with a feature named or without.
#[test]
fn each_bush_is_cold_before_it_drops_in() {
    let bush = |name: &str, wish: &str| {
        format!(
            "  - part: {name}\n    material: phosphor bronze\n    operations:\n      - chill: {{{wish}in: freezer, outside: 24.036 mm, bore: 18 mm, length: 20 mm, interference: 0.032 mm, opened-by: 0.062 mm, bagged: true}}\n"
        )
    };
    let press = |wish: &str| PRESS_IN.replacen(": {", &format!(": {{{wish}chilled-by: 0.008 mm, "), 1);
    let case = |all: String| format!("  - part: cover\n    material: cast aluminium\n    operations:\n{all}");
    let of = |a: &str, b: &str| {
        let bushes = format!("job: Two\nparts:\n{}{}", bush("one", a), bush("other", b));
        (bushes, case(format!("{WARM}{}{}", press(a), press(b))))
    };
    let in_time = |day: &Day, chills: [&str; 2], presses: [&str; 2]| {
        for (chill, press) in chills.into_iter().zip(presses) {
            let (chill, press) = (line(day, chill), line(day, press));
            assert!(chill.by_itself_until.unwrap() <= press.start, "{} {}", chill.id, press.id);
        }
    };
    for (a, b) in [("", ""), ("set-up: {feature: front}, ", "set-up: {feature: rear}, ")] {
        let (bushes, cover) = of(a, b);
        in_time(&planned(&format!("{bushes}{cover}")), ["1.1", "2.1"], ["4.2", "5.2"]);
    }
    let (bushes, cover) = of("", "");
    let plan = |text: &str| try_plan(text, Some(&shop(SHOP))).unwrap_or_else(|all| panic!("{all:#?}"));
    let two = [plan(&bushes), plan(&format!("job: Cover\nparts:\n{cover}"))];
    let both = day(&two, &Asked { days: 2, ..Asked::default() }).unwrap();
    in_time(&both, ["1/1.1", "1/2.1"], ["2/2.2", "2/3.2"]);
}

/// A bush that is pressed in cold finds no interference in a casting that came out of the oven for another, and no float is read in
/// one.
#[test]
fn nothing_is_pressed_cold_into_a_warm_casting() {
    let front = PRESS_IN.replacen(": {", ": {set-up: {feature: front}, ", 1).replace("opened-by: 0.055 mm, ", "");
    let rear = REAM.replacen(": {", ": {set-up: {feature: rear}, ", 1);
    for operations in [[front.as_str(), rear.as_str()], [rear.as_str(), front.as_str()]] {
        let day = planned(&cover(&operations));
        assert!(day.left_out.is_empty(), "{:?}", day.left_out);
        let (cold, warm) = if operations[0] == front { ("1.2", "2.2") } else { ("2.2", "1.2") };
        let load = line(&day, warm);
        let out = load.fetched.as_ref().map_or(load.by_itself_until.unwrap(), |(id, _)| line(&day, id).end);
        let pressed = line(&day, cold);
        assert!(pressed.end <= load.start || pressed.start >= out + 60, "{} {} {out}", pressed.start, load.start);
    }
}
