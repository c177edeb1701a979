//! What is plainly meant is read, each form as the plain one is; what is not is asked back in words of its own. A row a form, through
//! the whole job: what reads one size in the library stands beside it.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

mod holds;
mod plain_words;

use crate::common::{SHOP, shop, try_plan};
use setover::handbook::{Material, Thread};
use setover::plan::Plan;
use setover::proof::Place;
use setover::reading::Node;
use setover::shop::Shop;

const INSERT: &str = include_str!("../examples/thread-insert.yaml");
const TURN: &str = include_str!("../examples/turn.yaml");

/// A job with a key of its operation or its part at another value, in quotes as a careful hand writes it.
#[track_caller]
fn with(job: &str, key: &str, value: &str) -> String {
    let head = format!("{key}: ");
    assert!(job.lines().any(|line| line.trim_start().trim_start_matches("- ").starts_with(&head)), "no {key}");
    let line = |line: &str| match line.trim_start().trim_start_matches("- ").starts_with(&head) {
        true => {
            let before = line.find(&head).unwrap_or_default();
            format!("{}{head}'{}'", &line[..before], value.replace('\'', "''"))
        }
        false => line.to_owned(),
    };
    job.lines().map(line).collect::<Vec<_>>().join("\n")
}

#[track_caller]
fn planned(job: &str) -> Plan {
    try_plan(job, Some(&shop(SHOP))).unwrap_or_else(|all| panic!("{all:#?}"))
}

/// Every figure that a job comes to.
#[track_caller]
fn figures(job: &str) -> Vec<(&'static str, u64)> {
    let values = planned(job).operations.into_iter().flat_map(|planned| planned.answer.values);
    values.map(|value| (value.key, value.number.to_bits())).collect()
}

#[track_caller]
fn refused(job: &str, says: &str) {
    let Err(all) = try_plan(job, Some(&shop(SHOP))) else { panic!("nothing is wrong: {job}") };
    assert!(all.iter().any(|problem| problem.says.contains(says)), "no `{says}`: {all:#?}");
    assert!(all.iter().all(|problem| problem.place.is_some()), "without a place: {all:#?}");
}

#[test]
fn a_size_in_each_form_is_the_same_size() {
    for (key, typed, plain) in [
        ("wall", ".709 in", "0.709 in"),
        ("wall", "1.1/4 in", "1 1/4 in"),
        ("wall", "18. mm", "18 mm"),
        ("wall", "1½ in", "1 1/2 in"),
        ("wall", "600 tho", "600 thou"),
        ("wall", "25.4 mm ± 0.01 mm", "25.4 ± 0.01 mm"),
        ("wall", "18.0 ± 0.3mm", "18.0 ± 0.3 mm"),
        ("wall", "18.0 mm +/- 0.3 mm", "18.0 ± 0.3 mm"),
        ("wall", "18.0 +/-0.3mm", "18.0 ± 0.3 mm"),
        ("wall", "18.0 MM", "18.0 mm"),
        ("wall", "2 inches", "2 in"),
        ("wall", "2\"", "2 in"),
        ("wall", "⅝ in", "5/8 in"),
        ("wall", "5/8\"", "5/8 in"),
        ("wall", "5/8”", "5/8 in"),
        ("wall", "1 ⅜ in", "1 3/8 in"),
        ("wall", "1 3⁄8 in", "1 3/8 in"),
        ("wall", "“18.0 mm”", "18.0 mm"),
        ("wall", "18.0\u{a0}±\u{a0}0.3\u{a0}mm", "18.0 ± 0.3 mm"),
        ("wall", "18.0\u{202f}mm", "18.0 mm"),
        ("wall", "18.0\u{2009}mm", "18.0 mm"),
        ("wall", "600 thous", "600 thou"),
        ("wall", "18 mm.", "18 mm"),
        ("wall", "11/16\" ± 0.005\"", "11/16 ± 0.005 in"),
        ("wall", "11/16 ± 1/64 in", "11/16 ± 1/64 in"),
    ] {
        assert_eq!(figures(&with(INSERT, key, typed)), figures(&with(INSERT, key, plain)), "{typed}");
    }
    for typed in [
        "23.95 to 24.00 mm",
        "23.95 mm to 24.00 mm",
        "24.00 mm +0 -0.05 mm",
        "24.00 mm +0/-0.05 mm",
        "23.975 ± 0.025 mm",
        "24.00 +0/-0.05 mm",
        "24.00 0/-0.05 mm",
        "24.00 -0.05/+0 mm",
        "23.95 – 24.00 mm",
        "23.95–24.00 mm",
        "23.95…24.00 mm",
        "23.95 ... 24.00 mm",
        "23.90 +0.1/+0.05 mm",
    ] {
        let limits = |job: &str| -> Vec<f64> {
            let of = |key: &str| planned(job).operations[0].answer.value(key).map(|value| value.number).expect("limit");
            vec![of("diameter_least"), of("diameter_most")]
        };
        let (typed_limits, plain) =
            (limits(&with(TURN, "outside", typed)), limits(&with(TURN, "outside", "23.95 .. 24.00 mm")));
        assert!(typed_limits.iter().zip(&plain).all(|(a, b)| (a - b).abs() < 1e-9), "{typed}: {typed_limits:?}");
    }
}

#[test]
fn a_thread_in_each_form_is_the_same_thread() {
    let thread =
        |text: &str| text.parse::<Thread>().unwrap_or_else(|fault| panic!("{text}: {fault}")).name().to_owned();
    for (typed, plain) in [
        ("M8x1,25", "M8"),
        ("M8-1.25", "M8"),
        ("M8 x 1.25", "M8"),
        ("M8X1.25", "M8"),
        ("m8", "M8"),
        ("BSF 1/4", "1/4 BSF"),
        ("1/4 bsf", "1/4 BSF"),
        ("5/16 CEI", "5/16-26 BSC"),
        ("2BA", "2 BA"),
        ("#10-32", "No. 10-32 UNF"),
        ("M8 coarse", "M8"),
        ("M8x.75", "M8x0.75"),
        ("M8 × 1,25", "M8"),
        ("M8,0", "M8"),
        ("5/16 BSCy", "5/16-26 BSC"),
        ("5/16\" x 18 tpi", "5/16-18 UNC"),
        ("¼ BSF", "1/4 BSF"),
        ("BA 2", "2 BA"),
        ("G1/8", "1/8 BSP"),
        ("W 5/16", "5/16 BSW"),
        ("Whitworth 5/16", "5/16 BSW"),
    ] {
        assert_eq!(thread(typed), thread(plain), "{typed}");
    }
    for (typed, says) in [
        ("8mm", "is `M8` meant?"),
        ("8 mm", "is `M8` meant?"),
        ("1/4\" 26 tpi", "may be `1/4 BSF` or `1/4-26 BSC`: write which"),
        ("M10 fine", "may be `M10x1.25` or `M10x1`: write which"),
        ("M99", "the book has no thread"),
        ("8x1.25", "is `M8x1.25` meant"),
        ("8 x 1.25 mm", "is `M8 x 1.25` meant (M8)?"),
        ("7/16 NF", "is `7/16-20 UNF` meant?"),
        ("7/16 NC", "is `7/16-14 UNC` meant?"),
        ("3/8 USS", "is `3/8-16 UNC` meant?"),
        ("3/8 SAE", "is `3/8-24 UNF` meant?"),
        ("1/8 NPT", "a tapered pipe thread seals by its taper"),
        ("Tr8x1.5", "a thread that moves a slide"),
        ("14mm spark plug", "M12x1.25, M14x1.25 or M18x1.5"),
        ("M8 LH", "left-hand threads are not worked here"),
        ("M8 6H", "the class of a thread is not read here"),
    ] {
        refused(&with(INSERT, "thread", typed), says);
    }
}

#[test]
fn a_material_by_its_everyday_name_is_known() {
    for name in [
        "4140",
        "303",
        "6082",
        "EN16",
        "steel",
        "iron",
        "alloy",
        "dural",
        "aluminum",
        "silver steel",
        "gauge plate",
        "drill rod",
        "bronze",
        "brass",
        "bright mild",
        "6061",
        "En8",
        "EN 8",
        "gray iron",
        "GG 25",
    ] {
        assert!(name.parse::<Material>().is_ok(), "{name}");
    }
    for (typed, says) in [
        ("babbitt", "the book knows `babbitt` and has no figures of it: no strength"),
        ("White Metal", "the book knows `White Metal` and has no figures of it"),
        ("tool steel", "tool steels are of many kinds: name it; silver steel, O1 and W1 are in the book"),
        ("malleable iron", "the book knows `malleable iron` and has no figures of it"),
        ("Zamak", "the book knows `Zamak` and has no figures of it"),
        ("pot metal", "the book knows `pot metal` and has no figures of it"),
        ("high tensile", "EN16, EN19 and EN24 are in the book"),
        ("cast iorn", "did you mean `cast iron`"),
        ("xqzzy", "no name comes near it; `setover book materials` lists all"),
    ] {
        refused(&with(INSERT, "material", typed), says);
    }
}

#[test]
fn a_size_that_may_mean_two_things_is_asked_back() {
    for (typed, says) in [
        ("25.4 mm ± 0.01", "0.01 of what?"),
        ("18 mil", "write `mm` or `thou`"),
        ("2 tenths", "write `0.1 mm` or `0.0001 in`"),
        ("18 in mm", "one size has one unit"),
        ("25.40 to 25.42 mm", "give one figure, with ± for its doubt, as in `25.41 ± 0.01 mm`"),
        (".750 to .752 in", "as in `0.751 ± 0.001 in`"),
        ("18 mm +0.1 -0.2 mm", "as in `17.95 ± 0.15 mm`"),
        ("18 +0.1/-0.2 mm", "as in `17.95 ± 0.15 mm`"),
        ("18 ± mm", "a figure is missing before the unit, or behind ±"),
        ("1 000 mm", "without blanks it is `1000`"),
        ("0 mm", "`wall` must be above zero"),
        ("18,0 mm", "the decimal sign is a point: `18.0 mm`"),
        ("18", "a length needs its unit"),
        ("18.", "a length needs its unit"),
        ("18 H7", "a tolerance class is not read here: give the figure alone"),
        ("0,5 mm", "the decimal sign is a point: `0.5 mm`"),
        ("18,0 ± 0,3 mm", "the decimal sign is a point: `18.0 ± 0.3 mm`"),
        ("17.7 – 18.3 mm", "as in `18 ± 0.3 mm`"),
        ("17.7-18.3 mm", "give one figure, and where it was read its doubt behind ±"),
        ("11/16 in ± 5 thou", "write `11/16 ± 0.005 in`"),
        ("about 18 mm", "write that behind it"),
        ("~18 mm", "write that behind it"),
        ("Ø18 mm", "whether it is a diameter or a radius depends on the key"),
        ("18 mm min", "one end is no size"),
        ("18 mm (measured)", "a remark goes behind a #"),
        ("unknown", "what is not known yet is measured first"),
        ("700 thousandths", "write `thou` or `um`"),
        ("2 ton", "a ton may be long"),
    ] {
        refused(&with(INSERT, "wall", typed), says);
    }
    for (typed, says) in [
        ("Rz 6.3 um", "only Ra is read here"),
        ("N7", "a roughness grade is not read here"),
        ("3.2 um", "write the parameter before the figure"),
    ] {
        refused(&with(TURN, "finish", typed), says);
    }
}

fn read_shop(text: &str) -> Result<Shop, Vec<String>> {
    let says = |all: Vec<setover::reading::Problem>| all.into_iter().map(|problem| problem.says).collect::<Vec<_>>();
    let shop: Shop = Node::yaml(text, Place::start(0)).map_err(|p| says(vec![p]))?.read_known().map_err(says)?;
    let problems = shop.problems();
    if problems.is_empty() { Ok(shop) } else { Err(says(problems)) }
}

/// What others call a slide, a tool or a machine is told with the word that is used here.
#[test]
fn a_shop_in_other_words_is_told_ours() {
    let lathe = |keys: &str| format!("shop: x\nmachines:\n  - lathe: {{name: a, spindle: 100 rev/min, {keys}}}\n");
    let dial = |axis: &str| lathe(&format!("dials: [{{axis: {axis}, division: 0.02 mm}}]"));
    let tool = |tool: &str| format!("shop: x\ntools:\n  - {tool}\n");
    for (text, says) in [
        (dial("cross"), "what is called `cross` elsewhere is `across` here"),
        (dial("compound"), "what is called `compound` elsewhere is `top` here"),
        (dial("saddle"), "what is called `saddle` elsewhere is `along` here"),
        (
            tool("end-mill: {diameter: 12 mm, material: HSS}"),
            "what is called `end-mill` elsewhere is `milling-cutter` here",
        ),
        (
            tool("fly-cutter: {diameter: 60 mm, material: HSS}"),
            "what is called `fly-cutter` elsewhere is `milling-cutter` here",
        ),
        (tool("boring-tool: {diameter: 60 mm}"), "what is called `boring-tool` elsewhere is `boring-bar` here"),
        (
            "shop: x\nmachines:\n  - pillar-drill: {name: a, spindle: 100 rev/min}\n".into(),
            "what is called `pillar-drill` elsewhere is `drill-press` here",
        ),
        (lathe("feeds-along: 0.05 0.1"), "as in `0.05 0.1 mm/rev` or `0.05 0.1 in/rev`"),
        ("shop: x\nmachines:\n  - lathe: {name: a, spindle: '38, 62 rev/min'}\n".into(), "stand apart by spaces alone"),
        (
            "shop: x\ninstruments:\n  - {name: a, kind: laser, from: 0 mm, to: 25 mm, uncertainty: 0.01 mm}\n".into(),
            "`laser` does not say what it reads: write a kind such as outside micrometer, snap gauge",
        ),
        (lathe("swing: 100 mm, chuck: {diameter: 160 mm}"), "the chuck is larger than this swing"),
        ("shop: x\nreamers:\n  - fixed: {name: a, size: 5/8}\n".into(), "is not a fit such as `25 H7`"),
        ("shop: x\nreamers:\n  - fixed: {name: a, size: 5/8 ± 0.01 in}\n".into(), "is not a fit such as `25 H7`"),
    ] {
        let all = read_shop(&text).err().unwrap_or_else(|| panic!("nothing is wrong: {text}"));
        assert!(all.iter().any(|own| own.contains(says)), "no `{says}`: {all:#?}");
    }
    for good in ["16 H7", "1 in H7", "5/8 in", "16 mm"] {
        let text = format!("shop: x\nreamers:\n  - fixed: {{name: a, size: {good}}}\n");
        assert!(read_shop(&text).is_ok(), "{good}: {:?}", read_shop(&text).err());
    }
}

/// A reamer on which no class stands proves nothing that one with its class would not, and says what was taken.
#[test]
fn a_reamer_without_a_class_is_never_sure() {
    use setover::proof::Verdict;
    let bush = include_str!("../examples/ream-bush.yaml");
    let own = |size: &str| {
        let text = format!(
            "shop: x\nreamers:\n  - fixed: {{name: the reamer, size: {size}, by: hand, cuts-over: 0.001 mm}}\n"
        );
        let plan = try_plan(bush, Some(&read_shop(&text).expect("shop"))).expect("planned");
        plan.operations[0].answer.alternatives[0].clone()
    };
    let verdict = |of: &setover::operations::Alternative<String>, id: &str| {
        of.answer.checks.iter().find(|check| check.id == id).and_then(|check| check.verdict()).expect("judged")
    };
    let (classed, plain) = (own("16 H7"), own("16 mm"));
    for id in ["reamer-not-under", "reamer-not-over"] {
        assert!(verdict(&plain, id) >= verdict(&classed, id).max(Verdict::Doubtful), "{id}");
    }
    let says = "has no class marked on it: taken for H7";
    assert!(plain.answer.assumed.iter().any(|text| text.contains(says)), "{:?}", plain.answer.assumed);
    assert!(classed.answer.assumed.iter().all(|text| !text.contains(says)));
}

#[test]
fn a_drill_for_a_form_without_a_table_can_be_bought() {
    let bare = "job: x\nparts:\n  - part: a\n    material: cast aluminium\n    operations:\n      - thread-insert: {hold: {in: clamps, tested: 60 N·m}, thread: THREAD, wall: 40 ± 0.3 mm, hole: blind}\n";
    for thread in ["1/4 BSF", "5/16 CEI", "2 BA", "1/4 BSP"] {
        let plan = try_plan(&bare.replace("THREAD", thread), None).expect("planned");
        let drill = plan.operations[0].answer.value("drill_diameter").expect("drill").number;
        let twentieths = drill * 20.0;
        assert!((twentieths - twentieths.round()).abs() < 1e-6, "{thread}: {drill}");
    }
}

/// A drill that is not there is asked for by the name that is on its drawer.
#[test]
fn a_drill_that_is_missing_has_its_drawer_name() {
    let bush = |size: &str| {
        format!(
            "job: x\nparts:\n  - part: a\n    material: EN8\n    operations:\n      - ream-bush: {{bush: {{material: LG2, length: 1 in}}, housing: {{bore: 0.7503 ± 0.0002 in, outside: 1.25 in}}, shaft: 0.6245 ± 0.0002 in, oil-holes: [{{diameter: {size}, at: 1/2 in}}]}}\n"
        )
    };
    let bare = read_shop("shop: x\n").expect("shop");
    for (size, name) in [("1/8 in", "drill 1/8 in"), ("no. 30", "#30 ("), ("3 mm", "3.000 mm")] {
        let plan = try_plan(&bush(size), Some(&bare)).expect("planned");
        let missing = &plan.operations[0].answer.missing;
        assert!(missing.iter().any(|text| text.contains(name)), "{size}: {missing:?}");
    }
}

/// Whatever is typed, an error speaks the trade.
#[test]
fn no_error_speaks_of_the_program() {
    let words =
        ["struct", "sequence", "u32", "newtype", "enum", "variant", "mapping", "scalar", "deserialize", "Option"];
    let lines: Vec<&str> = INSERT.lines().collect();
    let mut seen = 0;
    for at in 0..lines.len() {
        let Some((key, _)) = lines[at].split_once(": ") else { continue };
        for value in ["", "[]", "{}", "[1, 2]", "{a: b}", "true", "3", "-1", "1e400", "x y z", "~", "{of: a}", "''"] {
            let own = format!("{key}: {value}");
            let job: Vec<&str> =
                lines.iter().enumerate().map(|(n, line)| if n == at { own.as_str() } else { line }).collect();
            let Err(all) = try_plan(&job.join("\n"), Some(&shop(SHOP))) else { continue };
            for problem in all {
                seen += 1;
                let wrong = words
                    .iter()
                    .find(|word| problem.says.split(|c: char| !c.is_alphanumeric()).any(|own| own == **word));
                assert!(wrong.is_none(), "{own}: {}", problem.says);
            }
        }
    }
    assert!(seen > 40, "{seen}");
}

/// A file that is not there is named for a program as one that cannot be read is, and has no line.
#[test]
fn a_file_that_is_not_there_is_named_for_a_program() {
    use std::process::Command;
    let folder = tempfile::tempdir().expect("folder");
    for words in [["plan", "no.yaml"], ["day", "no.yaml"], ["decide", "no.yaml"]] {
        let mut command = Command::new(env!("CARGO_BIN_EXE_setover"));
        let output = command.current_dir(folder.path()).args(words).args(["--format", "json"]).output().expect("runs");
        let said: serde_json::Value = serde_json::from_slice(&output.stdout).expect("JSON");
        let problem = &said["problems"][0];
        assert_eq!(problem["file"], "no.yaml", "{words:?}: {said}");
        assert!(problem["line"].is_null() && problem["column"].is_null(), "{said}");
        let mut command = Command::new(env!("CARGO_BIN_EXE_setover"));
        let output = command.current_dir(folder.path()).args(words).output().expect("runs");
        let said = String::from_utf8_lossy(&output.stderr).into_owned();
        assert!(said.starts_with("no.yaml: there is no such file or folder\n"), "{said}");
    }
}

/// Whatever goes wrong in whichever command, a program is told in JSON, and the exit code says what the long help says.
#[test]
fn each_command_tells_a_program_what_is_wrong() {
    use std::process::Command;
    let folder = tempfile::tempdir().expect("folder");
    std::fs::copy("examples/shop.yaml", folder.path().join("shop.yaml")).expect("copy");
    std::fs::copy("examples/face.yaml", folder.path().join("face.yaml")).expect("copy");
    for (words, code, says) in [
        ("plan no.yaml", 2, "there is no such file or folder"),
        ("plan shop.yaml", 2, "this is a shop file"),
        ("plan face.yaml --shop no.yaml", 2, "there is no such file"),
        ("sheets no.yaml", 2, "there is no such file"),
        ("sheets face.yaml -o no/x.pdf", 3, "no/x.pdf: not written: there is no such file or folder"),
        ("day no.yaml", 2, "there is no such file"),
        ("decide no.yaml", 2, "there is no such file"),
        ("decide face.yaml -o no/x.pdf", 3, "not written"),
        ("log no.yaml", 2, ""),
        ("try face", 2, "`outside` is missing"),
        ("try foo", 2, ""),
        ("try face --over x=1", 2, "--over is printed as text or drawn as svg"),
        ("why no.yaml x", 2, "there is no such file"),
        ("why face.yaml foo", 2, "no value `foo` was worked out"),
        ("book thread foo", 2, "the book has no thread `foo`"),
        ("book foo", 2, "the book has no topic `foo`"),
        ("keys foo", 2, "`setover keys` names what there is"),
        ("operations --foo", 2, "--foo"),
        ("ask foo", 2, ""),
        ("schema foo", 2, ""),
        ("start .", 2, ""),
        ("watch", 2, ""),
        ("foo", 2, "there is no command `foo`"),
    ] {
        let mut arguments: Vec<&str> = words.split(' ').collect();
        arguments.extend(["--format", "json"]);
        let mut run = Command::new(env!("CARGO_BIN_EXE_setover"));
        let output = run.current_dir(folder.path()).args(&arguments).output().expect("runs");
        assert_eq!(output.status.code(), Some(code), "{words}: {}", String::from_utf8_lossy(&output.stderr));
        let said: serde_json::Value = serde_json::from_slice(&output.stdout)
            .unwrap_or_else(|fault| panic!("{words}: {fault}: {}", String::from_utf8_lossy(&output.stdout)));
        let problems = said["problems"].as_array().unwrap_or_else(|| panic!("{words}: {said}"));
        let all: Vec<&str> = problems.iter().filter_map(|problem| problem["says"].as_str()).collect();
        assert!(all.iter().any(|own| own.contains(says)), "{words}: {all:#?}");
        assert!(all.iter().all(|own| !own.is_empty() && !own.contains("os error")), "{words}: {all:#?}");
    }
}
