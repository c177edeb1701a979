//! Work by hand: the bath suits the metal, the instrument the window, nothing turns under a hand.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common::{agrees, first, in_shop, plan, state, value, verdict, with};
use setover::operations::Station;
use setover::proof::{Outcome, Verdict};

const WASH: &str = include_str!("../examples/wash.yaml");
const MEASURE: &str = include_str!("../examples/measure.yaml");
const DEBURR: &str = include_str!("../examples/deburr.yaml");
const HAND: &str = include_str!("../examples/hand.yaml");

#[test]
fn the_examples_are_proven() {
    for job in [WASH, MEASURE, DEBURR] {
        assert_eq!(first(&in_shop(job)).verdict, Verdict::Proven, "{job}");
    }
    // What no check knows is never proven, whatever it says.
    assert_eq!(first(&in_shop(HAND)).verdict, Verdict::Doubtful);
    assert_eq!(verdict(first(&in_shop(HAND)), "judged"), Verdict::Doubtful);
}

/// A file skates on a hard edge; a stone does not.
#[test]
fn steel_does_not_bite_on_a_hard_edge() {
    let hard = with(DEBURR, "operations:", "hardness: 60 HRC\n    operations:");
    for (by, wanted) in [
        ("file", Verdict::Fails),
        ("scraper", Verdict::Fails),
        ("countersink", Verdict::Fails),
        ("stone", Verdict::Proven),
    ] {
        let line = hard.lines().find(|line| line.contains("by:")).expect("by").to_owned();
        let at = line.split("by: ").nth(1).expect("a word");
        let word = at.split([',', '}', ' ']).next().expect("a word");
        let job = hard.replace(&format!("by: {word}"), &format!("by: {by}"));
        assert_eq!(verdict(first(&in_shop(&job)), "edge-bites"), wanted, "{job}");
    }
}

/// A bush goes into the bath with its casting.
#[test]
fn a_bath_that_eats_what_was_pressed_in_fails() {
    let of = |bush: &str, cleaner: &str, wash_first: bool| {
        let press = format!(
            "      - press-in: {{housing: {{bore: 24.010 ± 0.004 mm, outside: 46 mm, length: 20 mm, finish: Ra 0.8 um}}, bush: {{outside: 24.036 ± 0.004 mm, bore: 18.000 ± 0.004 mm, length: 20 mm, material: {bush}}}, stands: flush, support: {{inside: 30 mm, under: boss}}}}\n"
        );
        let wash = format!("      - wash: {{cleaner: {cleaner}, dirt: oil, cavities: 0}}\n");
        let lines = if wash_first { wash + &press } else { press + &wash };
        let plan = in_shop(&format!("job: Bath\nparts:\n  - part: case\n    material: GG25\n    operations:\n{lines}"));
        let washed = plan.operations.iter().find(|planned| planned.word == "wash").unwrap();
        verdict(washed, "cleaner-suits")
    };
    assert_eq!(of("6082", "hot caustic", false), Verdict::Fails, "aluminium");
    assert_eq!(of("phosphor bronze", "hot caustic", false), Verdict::Doubtful);
    assert_eq!(of("phosphor bronze", "hot caustic", true), Verdict::Proven, "it is not in yet");
    assert_eq!(of("phosphor bronze", "paraffin", false), Verdict::Proven);
}

/// Caustic eats aluminium; iron stands it; a part whose metal nobody names is not put into it unasked.
#[test]
fn a_bath_that_eats_the_metal_fails() {
    let caustic = with(WASH, "paraffin", "hot caustic");
    assert_eq!(verdict(first(&in_shop(&caustic)), "cleaner-suits"), Verdict::Fails);
    let iron = with(&caustic, "cast aluminium", "GG25");
    assert_eq!(verdict(first(&in_shop(&iron)), "cleaner-suits"), Verdict::Proven);
    let unknown = with(&caustic, "    material: cast aluminium\n", "");
    let unknown = in_shop(&unknown);
    assert_eq!(state(first(&unknown), "cleaner-suits"), Outcome::NotChecked);
    assert_eq!(first(&unknown).verdict, Verdict::Doubtful);
    let petrol = with(WASH, "paraffin", "petrol");
    assert_eq!(first(&in_shop(&petrol)).verdict, Verdict::Fails);
    let acid = with(&with(WASH, "paraffin", "phosphoric pickle"), "cast aluminium", "AZ91");
    assert_eq!(verdict(first(&in_shop(&acid)), "cleaner-suits"), Verdict::Fails, "magnesium in acid");
}

/// What stays behind a plug goes into the first bearing.
#[test]
fn a_hollow_that_is_shut_or_not_counted_is_never_proven() {
    let shut = with(WASH, "plugs-out: true", "plugs-out: false");
    assert_eq!(verdict(first(&in_shop(&shut)), "hollows-open"), Verdict::Fails);
    for missing in ["          cavities: 3            # oilways, blind holes, hollows\n", "          plugs-out: true\n"]
    {
        let job = in_shop(&with(WASH, missing, ""));
        assert_eq!(first(&job).verdict, Verdict::Doubtful, "{missing}");
    }
    let none = in_shop(&with(WASH, "cavities: 3 ", "cavities: 0 "));
    assert_eq!(state(first(&none), "hollows-open"), Outcome::DoesNotApply);
    // Ten minutes of washing and two for each hollow.
    assert_eq!(first(&in_shop(WASH)).answer.set_ups[0].minutes, Some(16.0));
    assert_eq!(first(&none).answer.set_ups[0].minutes, Some(10.0));
}

/// A size with limits that nothing in the shop reads is not proven by what another is read with; old sealant warns of asbestos.
#[test]
fn one_size_that_nothing_reads_is_not_proven_by_another() {
    let line = MEASURE.lines().find(|line| line.trim_start().starts_with("- {name:")).expect("a size");
    let keyway = "            - {name: keyway depth, size: 3.5 .. 3.7 mm, gauge: inside}";
    let both = in_shop(&with(MEASURE, line, &format!("{line}\n{keyway}")));
    assert_eq!(verdict(first(&both), "instrument-reads-it"), Verdict::Doubtful);
    let warned = |dirt: &str| {
        let dirty = WASH.lines().find(|line| line.trim_start().starts_with("dirt:")).expect("dirt");
        let plan = in_shop(&with(WASH, dirty, &format!("          dirt: {dirt}")));
        let cautions = first(&plan).answer.set_ups.iter().flat_map(|set_up| &set_up.cautions);
        let all: Vec<String> = cautions.chain(&first(&plan).answer.cautions).cloned().collect();
        all.iter().any(|says| says.contains("asbestos"))
    };
    assert!(warned("sealant") && !warned("oil"));
}

/// The instrument of 4 um against a quarter of 25 um; finer limits ask more of it, and over half the window it decides nothing.
#[test]
fn an_instrument_is_a_quarter_of_the_window() {
    let plan = in_shop(MEASURE);
    agrees("0.00625", value(first(&plan), "quarter_of_window"));
    agrees("0.004", value(first(&plan), "instrument_doubt"));
    let narrow = |to: &str| verdict(first(&in_shop(&with(MEASURE, "15.985", to))), "instrument-fine-enough");
    assert_eq!(narrow("15.977"), Verdict::Proven, "4.25 um");
    assert_eq!(narrow("15.975"), Verdict::Doubtful, "3.75 um");
    assert_eq!(narrow("15.969"), Verdict::Doubtful, "2.25 um, half of it 4.5");
    assert_eq!(narrow("15.967"), Verdict::Fails, "1.75 um, half of it 3.5");
}

/// What is accepted on the sheet lies inside the limits by the doubt of the gauge.
#[test]
fn the_line_to_write_in_is_narrowed_by_the_doubt() {
    let plan = in_shop(MEASURE);
    let blank = &first(&plan).answer.set_ups[0].blanks[0];
    let shown: Vec<String> =
        blank.target.as_ref().unwrap().shown(plan.print).iter().map(|s| s.number.to_string()).collect();
    assert_eq!(shown, ["15.965", "15.980"]);
    assert_eq!((blank.readings, blank.gauge.as_deref()), (6, Some("micrometer")));
}

#[test]
fn an_instrument_of_another_kind_or_range_reads_nothing() {
    let bore = with(MEASURE, "{name: journal, gauge: outside", "{name: journal, gauge: inside");
    assert_eq!(verdict(first(&in_shop(&bore)), "instrument-reads-it"), Verdict::Fails, "a micrometer in a bore");
    let large = with(MEASURE, "15.960 .. 15.985", "35.960 .. 35.985");
    assert_eq!(verdict(first(&in_shop(&large)), "instrument-reads-it"), Verdict::Fails, "0 to 25 mm only");
    let unnamed = with(MEASURE, "size: 15.960 .. 15.985 mm, with: micrometer", "with: micrometer");
    assert_eq!(
        verdict(first(&in_shop(&unnamed)), "instrument-reads-it"),
        Verdict::Doubtful,
        "of what size nobody says"
    );
    assert_eq!(state(first(&plan(MEASURE, None)), "instrument-reads-it"), Outcome::NoShop);
}

/// By hand: 16 mm of steel, 11.5 to 12.5 millionths a degree, 2 degrees warm are 0.0004 mm; at 60 degrees it reads half a hundredth large.
#[test]
fn a_warm_part_is_not_measured() {
    let off = value(first(&in_shop(MEASURE)), "off_by_warmth");
    assert!((0.00036..0.00041).contains(&off), "{off}");
    let warm = |degrees: &str| verdict(first(&in_shop(&with(MEASURE, "22 degC", degrees))), "at-20-degrees");
    assert_eq!(warm("31 degC"), Verdict::Proven, "2.1 um and the instrument's 4 of 6.25");
    assert_eq!(warm("40 degC"), Verdict::Doubtful, "3.8 um of 6.25, with the instrument's 4 more than that");
    assert_eq!(warm("60 degC"), Verdict::Fails, "7.7 um of 6.25");
    assert_eq!(warm("-20 degC"), Verdict::Fails, "cold is as wrong as warm");
    let waits = in_shop(&with(MEASURE, "temperature: 22 degC", "cooled: false"));
    assert_eq!(first(&waits).answer.set_ups[0].rest.map(|rest| rest.minutes), Some(90.0));
    let light = with(&with(MEASURE, "temperature: 22 degC", "cooled: false"), "mild steel", "cast aluminium");
    assert_eq!(first(&in_shop(&light)).answer.set_ups[0].rest.map(|rest| rest.minutes), Some(60.0));
}

/// Warmth and gauge share one quarter: each alone may hold, and both together not; over half the window nothing is sure.
#[test]
fn warmth_and_instrument_share_one_quarter_of_the_window() {
    let narrow = |to: &str, degrees: &str| {
        let plan = in_shop(&with(&with(MEASURE, "15.985", to), "22 degC", degrees));
        (verdict(first(&plan), "instrument-fine-enough"), verdict(first(&plan), "at-20-degrees"))
    };
    // 17 um: a quarter is 4.25; 4 of the micrometer and 0.4 of two degrees are 4.4.
    assert_eq!(narrow("15.977", "20 degC"), (Verdict::Proven, Verdict::Proven));
    assert_eq!(narrow("15.977", "22 degC"), (Verdict::Proven, Verdict::Doubtful));
    // 10 um: half is 5; 4 and 1.5 are more, and nothing is sure inside both limits.
    assert_eq!(narrow("15.970", "28 degC"), (Verdict::Doubtful, Verdict::Fails));
    let in_all = value(first(&in_shop(MEASURE)), "off_in_all");
    assert!((0.00436..0.00441).contains(&in_all), "{in_all}");
}

/// What is hot and waits first is not failed for its heat, nor proven before it is cold; of what nobody felt nothing is known.
#[test]
fn what_is_hot_and_waits_is_doubtful_until_it_is_cold() {
    let said = |how: &str| in_shop(&with(MEASURE, "temperature: 22 degC", how));
    let hot = said("temperature: 95 degC\n          cooled: false");
    assert_eq!(verdict(first(&hot), "at-20-degrees"), Verdict::Doubtful);
    let check = first(&hot).answer.checks.iter().find(|check| check.id == "at-20-degrees").unwrap();
    assert!(check.remedies.iter().any(|remedy| remedy.words.contains("waits first")), "{:?}", check.remedies);
    // The line is that of the part once it is cold: the limits, narrowed by the gauge alone.
    let blank = &first(&hot).answer.set_ups[0].blanks[0];
    let shown: Vec<String> =
        blank.target.as_ref().unwrap().shown(hot.print).iter().map(|s| s.number.to_string()).collect();
    assert_eq!(shown, ["15.964", "15.981"]);
    assert_eq!(verdict(first(&said("temperature: 95 degC\n          cooled: true")), "at-20-degrees"), Verdict::Fails);
    assert_eq!(verdict(first(&said("temperature: 95 degC")), "at-20-degrees"), Verdict::Fails);
    for missing in ["# nothing", "cooled: false"] {
        let plan = said(missing);
        assert_eq!(state(first(&plan), "at-20-degrees"), Outcome::NotChecked, "{missing}");
        assert_eq!(first(&plan).verdict, Verdict::Doubtful, "{missing}");
    }
    assert_eq!(first(&said("cooled: true")).verdict, Verdict::Proven);
}

/// A bath that suits the metal may leave the dirt where it is; what nobody knows is doubtful.
#[test]
fn a_bath_is_judged_against_the_dirt() {
    let washed = |cleaner: &str, dirt: &str| {
        let job = with(&with(&with(WASH, "paraffin", cleaner), "dirt: oil", dirt), "cast aluminium", "mild steel");
        verdict(first(&in_shop(&job)), "takes-the-dirt")
    };
    assert_eq!(washed("paraffin", "dirt: oil"), Verdict::Proven);
    assert_eq!(washed("paraffin", "dirt: grit"), Verdict::Proven);
    assert_eq!(washed("paraffin", "dirt: sealant"), Verdict::Doubtful);
    assert_eq!(washed("paraffin", "dirt: carbon"), Verdict::Doubtful);
    assert_eq!(washed("water and detergent", "dirt: sealant"), Verdict::Fails);
    assert_eq!(washed("hot caustic", "dirt: carbon"), Verdict::Proven);
    assert_eq!(washed("phosphoric pickle", "dirt: oil"), Verdict::Fails);
    assert_eq!(washed("hot caustic", "dirt: sealant"), Verdict::Doubtful, "no row");
}

/// In the day every set-up is told from every other by what it does.
#[test]
fn work_in_own_words_is_titled_by_what_it_does() {
    let plan = in_shop(HAND);
    assert_eq!(first(&plan).answer.set_ups[0].title, "Glue the gasket to the cover");
    let braces = in_shop(&with(HAND, "Glue the gasket to", "Glue {does} and {in_short} to"));
    assert_eq!(first(&braces).answer.set_ups[0].title, "Glue {does} and {in_short} to the cover");
}

/// No hand at turning work; no emery in soft metal, where its grains lap the shaft.
#[test]
fn nothing_turns_under_a_hand_and_no_grit_stays_in_a_bush() {
    let turning = with(DEBURR, "turning: false", "turning: true");
    assert_eq!(first(&in_shop(&turning)).verdict, Verdict::Fails);
    let emery = |metal: &str| {
        let job = with(&with(DEBURR, "by: stone", "by: emery"), "LG2", metal);
        verdict(first(&in_shop(&job)), "no-grit-left")
    };
    assert_eq!((emery("LG2"), emery("mild steel")), (Verdict::Fails, Verdict::Doubtful));
    assert_eq!(first(&in_shop(DEBURR)).answer.set_ups[0].minutes, Some(6.0), "four edges of a minute and a half");
    let lining = in_shop(&with(DEBURR, "LG2", "friction lining"));
    assert_eq!(verdict(first(&lining), "never-cut"), Verdict::Fails, "its dust");
}

#[test]
fn work_in_the_job_s_own_words_has_its_minutes_its_wait_and_its_states() {
    let plan = in_shop(HAND);
    let set_up = &first(&plan).answer.set_ups[0];
    let does = set_up.steps.iter().find(|step| step.id == "as-it-says").expect("what is done");
    assert!(does.words.starts_with("Glue the gasket"));
    assert_eq!(
        (set_up.minutes, set_up.tail.map(|tail| (tail.minutes, tail.watched))),
        (Some(10.0), Some((120.0, false)))
    );
    assert_eq!((set_up.station, set_up.pause), (Station::Bench, true));
    let said = |states: &[setover::job::State]| states.iter().map(ToString::to_string).collect::<Vec<_>>();
    assert_eq!(said(&set_up.needs), ["pump cover:washed"]);
    assert_eq!(said(&set_up.leaves), ["pump cover:joined"]);
    let guess = in_shop(&with(HAND, "          minutes: 10 min\n", ""));
    assert_eq!(first(&guess).answer.set_ups[0].minutes, None);
    assert_eq!(verdict(first(&guess), "minutes-known"), Verdict::Doubtful);
    let mill = in_shop(&with(HAND, "leaves: [joined]", "set-up: {machine: turret mill}"));
    let set_up = &first(&mill).answer.set_ups[0];
    assert_eq!((set_up.station, set_up.pause, set_up.machine.as_str()), (Station::Drilling, false, "turret mill"));
    assert_eq!(said(&set_up.leaves), ["pump cover:done"]);
}
