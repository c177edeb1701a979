//! What a part is held in, in one word: each that is read with the hold that it is, each that is not with what is said of it.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use super::{INSERT, figures, planned, refused};

/// What a part is held in stands alone where nothing more is said of it, by each word that the trade has for it.
#[test]
fn a_hold_in_a_word_is_the_hold_of_that_word() {
    let whole = |value: &str| {
        let plan = planned(&held(value));
        let choice = |planned: &setover::plan::Planned| {
            planned.answer.set_ups.iter().map(|one| format!("{:?}", one.hold)).collect::<Vec<_>>()
        };
        (plan.operations.iter().map(choice).collect::<Vec<_>>(), figures(&held(value)))
    };
    for (typed, word) in [
        ("vice", "vice"),
        ("Vice", "vice"),
        ("vise", "vice"),
        ("'vice'", "vice"),
        ("jaws", "three-jaw"),
        ("three-jaw", "three-jaw"),
        ("three jaw", "three-jaw"),
        ("3-jaw", "three-jaw"),
        ("3 jaw chuck", "three-jaw"),
        ("hard jaws", "three-jaw"),
        ("soft jaws", "soft-jaws"),
        ("four-jaw", "four-jaw"),
        ("4 jaw", "four-jaw"),
        ("four jaw chuck", "four-jaw"),
        ("independent", "four-jaw"),
        ("collet", "collet"),
        ("mandrel", "mandrel"),
        ("faceplate", "faceplate"),
        ("clamps", "clamps"),
        ("Clamps", "clamps"),
        ("angle plate", "angle-plate"),
        ("press support", "press-support"),
    ] {
        assert_eq!(whole(typed), whole(&format!("{{in: {word}}}")), "{typed}");
    }
    for (typed, says) in [
        ("chuck", "which chuck is it? `three-jaw`, or bored `soft-jaws` in it, `four-jaw`, or a `collet`"),
        ("{in: chuck}", "which chuck is it?"),
        ("machine vice", "what is called `machine vice` elsewhere is `vice` here"),
        ("arbor", "what is called `arbor` elsewhere is `mandrel` here"),
        ("face plate", "what is called `face plate` elsewhere is `faceplate` here"),
        ("clamp", "what is called `clamp` elsewhere is `clamps` here"),
        ("magnet", "what holds the work is one of three-jaw, soft-jaws, four-jaw"),
        ("between centres", "what holds the work is one of three-jaw"),
        ("collett", "did you mean `collet`?"),
        ("12 mm", "what holds the work is one of three-jaw"),
        ("[vice]", "a list stands here; keys are wanted: `in: …`"),
        ("{holding: vice}", "`hold.in` is missing"),
    ] {
        refused(&held(typed), says);
    }
}

/// The job with another hold, as it is typed.
fn held(value: &str) -> String {
    let line = INSERT.lines().find(|line| line.trim_start().starts_with("hold: ")).expect("a hold");
    INSERT.replace(line, &format!("          hold: {value}"))
}
