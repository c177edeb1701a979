//! What lies in a drawer is taken once: whoever comes later in the files finds what is left, over all operations and all jobs that
//! are given together.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common::{SHOP, plan, shop, value, verdict, with};
use setover::plan::{Cards, Given, Logged, Plan, Planned, work_together};
use setover::proof::{Place, Verdict};
use setover::reading::Node;

const BORE: &str = include_str!("../examples/bore.yaml");
const INSERT: &str = include_str!("../examples/thread-insert.yaml");
const SHIM: &str = include_str!("../examples/shim.yaml");
const FACE: &str = include_str!("fixtures/face.yaml");

/// The lines of the first part of a job, under another name, or of its operation alone.
fn of_part(job: &str, name: &str) -> String {
    let from = job.find("  - part: ").expect("a part");
    let part = &job[from..];
    let own = part["  - part: ".len()..].lines().next().expect("its name").trim();
    part.replacen(&format!("  - part: {own}"), &format!("  - part: {name}"), 1)
}

fn operation(job: &str, name: &str) -> String {
    let from = job.find("    operations:\n").expect("operations") + "    operations:\n".len();
    let (head, keys) = job[from..].split_once('\n').expect("keys");
    format!("{head}\n          set-up: {{name: {name}}}\n{keys}")
}

fn owning(from: &str, to: &str) -> setover::shop::Shop {
    shop(&with(SHOP, from, to))
}

fn chosen<'a>(planned: &'a Planned, name: &str) -> &'a str {
    &planned.answer.choices.iter().find(|choice| choice.name == name).expect(name).chosen
}

const INSERTS: &str = "inserts: [{thread: M8x1.25, length: 1D, count: 6}, {thread: M8x1.25, length: 1.5D, count: 4}]";
const PISTONS: &str = "{for: pump barrel, oversize: 0.010 in, size: 46.170 ± 0.004 mm, metal: al-cast-hisi}, {for: pump barrel, \
                       oversize: 0.020 in, size: 46.420 ± 0.004 mm, metal: al-cast-hisi}";
const PISTON: &str = "{for: pump barrel, oversize: 0.020 in, size: 46.420 ± 0.004 mm, metal: al-cast-hisi}";

#[test]
fn one_insert_is_not_fitted_twice() {
    let own = owning(INSERTS, "inserts: [{thread: M8x1.25, length: 1D, count: 1}]");
    let alone = plan(INSERT, Some(&own));
    let job = format!("{INSERT}{}", of_part(INSERT, "other chest"));
    let both = plan(&job, Some(&own));
    assert_eq!(alone.operations[0].verdict, Verdict::Proven);
    assert_eq!(format!("{:?}", both.operations[0].answer), format!("{:?}", alone.operations[0].answer));
    let later = &both.operations[1];
    assert_eq!(verdict(later, "insert-in-drawer"), Verdict::Doubtful);
    assert!(later.answer.missing.iter().any(|line| line.contains("insert M8")), "{:?}", later.answer.missing);
    assert!(later.answer.assumed.iter().any(|line| line.contains("timing chest/thread-insert")));
    let two =
        owning(INSERTS, "inserts: [{thread: M8x1.25, length: 1D, count: 1}, {thread: M8x1.25, length: 1D, count: 1}]");
    let both = plan(&job, Some(&two));
    assert!(both.operations.iter().all(|one| one.verdict == Verdict::Proven), "two lines of one are two");
}

/// The piston that a bore is made to is its own: the next bore is made to the next piston, or waits for one.
#[test]
fn one_piston_is_not_put_into_two_bores() {
    let job = format!("{BORE}{}", operation(BORE, "second bore"));
    let both = plan(&job, Some(&owning(PISTONS, PISTON)));
    assert_eq!(both.operations[0].verdict, Verdict::Proven);
    assert_ne!(both.operations[1].verdict, Verdict::Proven);
    assert_eq!(verdict(&both.operations[1], "piston-in-hand"), Verdict::Doubtful);
    assert!(!both.operations[1].answer.missing.is_empty());
    let third = format!("{job}{}", operation(BORE, "third bore"));
    let other = PISTON.replace("46.420", "46.424");
    let two = plan(&third, Some(&owning(PISTONS, &format!("{PISTON}, {other}"))));
    let of = |at: usize| (verdict(&two.operations[at], "piston-in-hand"), value(&two.operations[at], "piston"));
    assert_eq!(of(0), (Verdict::Proven, 46.420));
    assert_eq!(of(1), (Verdict::Proven, 46.424));
    assert_eq!(verdict(&two.operations[2], "piston-in-hand"), Verdict::Doubtful);
}

/// A pack is laid of what is left, whoever took the rest: another pack, or a face that is shimmed.
#[test]
fn one_shim_is_not_laid_twice() {
    let few = "shims: [{thickness: 0.10 mm, count: 4}, {thickness: 0.27 mm, count: 1}, {thickness: 0.50 mm, count: 2}]";
    let own = owning(few, "shims: [{thickness: 0.50 mm, count: 1}, {thickness: 0.10 mm, count: 2}]");
    let job = format!("{SHIM}{}", of_part(SHIM, "second shaft"));
    let both = plan(&job, Some(&own));
    let (first, second) = (&both.operations[0], &both.operations[1]);
    assert_eq!(chosen(first, "pack"), "0.500 + 0.100 + 0.100 mm");
    assert_eq!(first.verdict, plan(SHIM, Some(&own)).operations[0].verdict);
    assert_ne!(second.verdict, Verdict::Proven);
    assert!(!chosen(second, "pack").contains("0.500"), "{}", chosen(second, "pack"));
    let faced = |name: &str| {
        let face = with(FACE, "bears: in-groove", "bears: in-groove\n          float-wanted: 0.15 .. 0.25 mm");
        if name.is_empty() { face } else { of_part(&face, name) }
    };
    let twice = plan(&format!("{}{}", faced(""), faced("other piece")), Some(&shop(SHOP)));
    assert_eq!(chosen(&twice.operations[0], "shim_taken"), "0.27 mm");
    assert_ne!(chosen(&twice.operations[1], "shim_taken"), "0.27 mm");
    assert_eq!(verdict(&twice.operations[1], "shim-in-drawer"), Verdict::Doubtful);
}

/// However many come, all of them together take no more than lies there, and each lays what it would lay were the rest of it all.
#[test]
fn each_later_pack_finds_what_all_before_it_left() {
    let thicknesses = [("0.099", 4_usize), ("0.152", 2), ("0.248", 2), ("0.305", 1), ("0.530", 1)];
    let few = "shims: [{thickness: 0.10 mm, count: 4}, {thickness: 0.27 mm, count: 1}, {thickness: 0.50 mm, count: 2}]";
    let drawer = |left: &[(&str, usize)]| {
        let lines = left.iter().filter(|(_, count)| *count > 0);
        let lines = lines.map(|(thick, count)| format!("{{thickness: {thick} mm, count: {count}, with: micrometer}}"));
        owning(few, &format!("shims: [{}]", lines.collect::<Vec<_>>().join(", ")))
    };
    let names = ["second shaft", "third shaft", "fourth shaft"].map(|name| of_part(SHIM, name));
    let all = plan(&format!("{SHIM}{}", names.concat()), Some(&drawer(&thicknesses)));
    let mut left = thicknesses;
    for planned in &all.operations {
        let alone = plan(SHIM, Some(&drawer(&left)));
        let alone = &alone.operations[0];
        assert_eq!((chosen(planned, "pack"), planned.verdict), (chosen(alone, "pack"), alone.verdict));
        if planned.verdict != Verdict::Fails {
            for shim in chosen(planned, "pack").trim_end_matches(" mm").split(" + ") {
                let stock = left.iter_mut().find(|(thick, _)| *thick == shim).expect("a shim of the drawer");
                stock.1 = stock.1.checked_sub(1).expect("it lies there");
            }
        }
    }
    let stamps: Vec<Verdict> = all.operations.iter().map(|planned| planned.verdict).collect();
    assert_eq!(stamps[0], stamps[1]);
    assert_eq!(stamps[2], Verdict::Fails, "what is left does not reach");
}

/// Over several jobs as in one; one that fails takes nothing.
#[test]
fn jobs_given_together_have_one_drawer() {
    let own = owning(INSERTS, "inserts: [{thread: M8x1.25, length: 1D, count: 1}]");
    let together = |first: &str| -> Vec<Plan> {
        let second = INSERT.replace("timing chest", "other chest");
        let read = |text: &str, source: u32| {
            setover::job::JobFile::read(Node::yaml(text, Place::start(source)).unwrap()).unwrap()
        };
        let (one, two) = (read(first, 0), read(&second, 1));
        let cards = Cards::built_in(setover::operations::Request::WORDS.iter().copied()).unwrap();
        let given = [&one, &two].map(|job| Given { job, shop: Some(&own), cards: &cards, log: Logged::default() });
        work_together::<setover::operations::Request>(&given).unwrap()
    };
    let both = together(INSERT);
    assert_eq!(both[0].operations[0].verdict, Verdict::Proven);
    assert_eq!(verdict(&both[1].operations[0], "insert-in-drawer"), Verdict::Doubtful);
    let thin = together(&with(INSERT, "wall: 18.0 ± 0.3 mm", "wall: 9.0 ± 0.3 mm"));
    assert_eq!(thin[0].operations[0].verdict, Verdict::Fails);
    assert_eq!(thin[1].operations[0].verdict, Verdict::Proven);
}
