//! Every check seen from outside, in one binary: the library is linked once, and the slow ones share the machine with the quick
//! ones. One file is asked for by its name: `cargo test --test all random_jobs::`.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

/// As the program does it.
#[global_allocator]
static MEMORY: mimalloc::MiMalloc = mimalloc::MiMalloc;

mod after_the_log;
mod another_part;
mod answer;
mod any_bytes;
mod as_it_is_held;
mod as_left;
mod asked;
mod at_the_machine;
mod begin;
mod beside_others;
mod between;
mod book;
mod bore_hole;
mod by_hand;
mod by_pencil;
mod carried;
mod cautions;
mod chain;
mod chill;
mod clears;
mod cli;
mod common;
mod cut_elsewhere;
mod cut_left;
mod day;
mod day_done;
mod day_held;
mod day_json;
mod day_lists;
mod day_logged;
mod day_named;
mod day_orders;
mod day_page;
mod day_parts;
mod day_planner;
mod day_reasons;
mod day_sense;
mod day_told;
mod days_of_one;
mod decide;
mod decide_metal;
mod decide_orders;
mod decide_planned;
mod decide_table;
mod drawers;
mod drill;
mod drill_oil_hole;
mod drilled_and_tapped;
mod face;
mod families;
mod first_mended;
mod fit_up;
mod forms;
mod front;
mod fuzzed;
#[path = "fuzz/given.rs"]
mod given;
mod glance;
mod grip;
mod guide;
mod half_cut;
mod handed_on;
mod held_so;
mod hold_points;
mod house;
mod html;
mod insert_relations;
mod jobs;
mod joined;
mod kept_places;
mod killed;
mod lap;
mod last_left;
mod laws;
mod learn;
mod led_astray;
mod left_points;
mod lighter_cuts;
mod log;
mod log_decides;
mod log_loop;
mod log_proves;
mod log_slips;
mod log_told;
mod made_first;
mod mill_face;
mod mutants;
mod newcomer;
mod obeyed;
mod on_paper;
#[cfg(target_os = "linux")]
mod on_terminal;
mod one_day;
mod one_page;
mod one_part;
mod other_name;
mod over;
mod owners;
mod part_off;
mod photocopy;
mod pictures;
mod piston_at_hand;
mod policy;
mod polish_seal;
mod practice;
mod press_in;
mod press_joint;
mod press_out;
mod press_stands;
mod printed_limits;
mod promises;
mod properties;
mod published;
mod random_jobs;
mod reached;
mod reading;
mod ream_bush;
mod rebore;
mod rebore_left;
mod rebored_again;
mod registry;
mod relations;
mod right_line;
mod rightly_apart;
mod rows;
mod said;
mod said_too_little;
mod second_opinion;
#[path = "common/seeds.rs"]
mod seeds;
mod sense;
mod set_true;
mod shaking;
mod sheets;
mod shim;
mod shop;
mod shortened;
mod sketches;
mod skim;
mod slips;
mod spot_face;
mod states;
mod stopped;
#[path = "published/support/mod.rs"]
mod support;
mod tags;
mod taken;
mod tap;
mod thread_insert;
mod together;
mod told_at_once;
mod told_done;
mod told_plainly;
mod toy;
mod trued;
mod turn;
mod twenty_questions;
mod typed_otherwise;
mod unfinished;
mod unsaid;
mod vain_remedies;
mod warm;
mod what_hurts;
mod why;
mod width;
mod words;
mod worked_figures;
mod worked_slips;
mod worst_ends;
mod written;

/// A file that is not named above would be built by nobody and run by nobody.
#[test]
fn every_file_of_checks_is_named_here() {
    for entry in std::fs::read_dir("tests").unwrap() {
        let name = entry.unwrap().file_name().to_string_lossy().into_owned();
        if let Some(name) = name.strip_suffix(".rs").filter(|name| *name != "all") {
            assert!(include_str!("all.rs").contains(&format!("\nmod {name};\n")), "tests/{name}.rs is not run");
        }
    }
}
