//! Every set-up that cuts names its cutting fluid and says what holds at every machine; every one that warms says so of solvents.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common;

use common::*;
use setover::handbook::Material;
use setover::operations::{SetUp, Station};
use setover::plan::Plan;

const FACE: &str = include_str!("fixtures/face.yaml");
const SKIM: &str = include_str!("fixtures/skim.yaml");
const INSERT: &str = include_str!("fixtures/thread-insert.yaml");
const REAM: &str = include_str!("fixtures/ream-bush.yaml");

fn cuts(set_up: &SetUp<String>) -> bool {
    set_up.steps.iter().any(|step| step.cut.is_some())
}

fn says(set_up: &SetUp<String>, words: &str) -> bool {
    set_up.cautions.iter().any(|caution| caution.contains(words))
}

fn fluids(plan: &Plan) -> Vec<String> {
    let steps = first(plan).answer.set_ups.iter().flat_map(|set_up| &set_up.steps);
    steps.filter(|step| step.id.ends_with("-fluid")).map(|step| step.words.clone()).collect()
}

#[test]
fn every_machine_that_cuts_says_what_holds_at_every_machine() {
    for job in [FACE, SKIM, INSERT, REAM] {
        let plan = in_shop(job);
        for set_up in &first(&plan).answer.set_ups {
            let machine = matches!(set_up.station, Station::Lathe | Station::Drilling);
            if machine && cuts(set_up) {
                for words in ["Isolate", "guard", "loose", "swarf", "air drives chips"] {
                    assert!(says(set_up, words), "{}: {words}: {:#?}", set_up.id, set_up.cautions);
                }
            }
            assert!(set_up.station != Station::Lathe || says(set_up, "key"), "{}", set_up.id);
            assert!(set_up.station != Station::Oven || says(set_up, "solvent"), "{}: {:?}", set_up.id, set_up.cautions);
            let mut once = set_up.cautions.clone();
            once.sort();
            once.dedup();
            assert_eq!(once.len(), set_up.cautions.len(), "{}: said twice", set_up.id);
        }
    }
}

#[test]
fn the_fluid_is_named_before_the_first_cut() {
    for (job, count) in [(FACE, 1), (SKIM, 1), (INSERT, 2)] {
        let plan = in_shop(job);
        assert_eq!(fluids(&plan).len(), count, "{:?}", fluids(&plan));
        for set_up in first(&plan).answer.set_ups.iter().filter(|set_up| cuts(set_up)) {
            let cut = set_up.steps.iter().position(|step| step.cut.is_some()).unwrap();
            let fluid = set_up.steps.iter().position(|step| step.id.ends_with("-fluid")).unwrap();
            assert!(fluid < cut, "{}", set_up.id);
        }
    }
    assert_eq!(fluids(&in_shop(INSERT))[1], "Tapping fluid: soluble oil or light oil.");
}

/// No fluid on magnesium holds water; where it is cut dry, or iron is cut, the dust is kept off the slideways.
#[test]
fn no_metal_is_wetted_with_what_harms_it() {
    for material in Material::all() {
        if material.id() == "cork-friction" {
            continue;
        }
        let plan = in_shop(&with(SKIM, "material: mild steel", &format!("material: {}", material.id())));
        if first(&plan).answer.refused.is_some() {
            continue;
        }
        let named = fluids(&plan);
        assert_eq!(named.len(), 1, "{}", material.id());
        let dry = named[0].contains(": dry");
        if material.id() == "mg-cast" {
            assert!(!named[0].contains("soluble") && named[0].contains("no water"), "{named:?}");
        }
        let set_up = first(&plan).answer.set_ups.iter().find(|set_up| cuts(set_up)).unwrap();
        let iron = material.id().contains("iron") || material.id().contains("ductile");
        let magnesium = material.id() == "mg-cast";
        assert_eq!(says(set_up, "cover the slideways"), dry || iron || magnesium, "{}", material.id());
        // A vacuum cleaner takes fire from magnesium.
        assert_eq!(says(set_up, "no vacuum"), magnesium, "{}", material.id());
        assert!(!magnesium || !says(set_up, "vacuum, wipe"), "{}", material.id());
        assert_eq!(says(set_up, "off the skin"), !dry, "{}", material.id());
    }
}

#[test]
fn a_heavy_part_is_lifted_by_two_or_a_hoist() {
    let heavy = |mass: &str| {
        let plan =
            in_shop(&with(FACE, "        outside: 52 mm", &format!("        mass: {mass}\n          outside: 52 mm")));
        says(&first(&plan).answer.set_ups[0], "hoist")
    };
    assert!(!heavy("4.9 kg") && heavy("5.5 kg") && heavy("40 kg"));
}

/// Where not all cautions find room on the first page, what burns stands there: gloves may go overleaf.
#[test]
fn what_burns_is_said_on_the_first_page() {
    use setover::sheet::page::Ink;
    const TURN: &str = include_str!("../examples/turn.yaml");
    let shop = shop(include_str!("../examples/shop.yaml"));
    let plan = plan(&with(TURN, "material: mild steel", "material: AZ91"), Some(&shop));
    let pages = setover::sheet::layout::pages(std::slice::from_ref(&plan)).expect("pages");
    let text = |mark: &setover::sheet::page::Mark| match &mark.ink {
        Ink::Text(text) => Some(text.text.clone()),
        _ => None,
    };
    let first: Vec<String> = pages[0].marks.iter().filter_map(text).collect();
    assert!(first.iter().any(|line| line.contains("Magnesium burns")), "{first:#?}");
}
