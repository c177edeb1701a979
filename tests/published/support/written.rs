//! Every formula as it is written in `src/`, and why a bent one is not noticed or one is not reached.

use std::path::Path;

/// A formula as it is written.
pub struct Written {
    /// Its name.
    pub name: String,
    /// Its file, from `src/`.
    pub file: String,
    /// The mark of its source, as code spells it.
    pub mark: String,
    /// Its source in words.
    pub source: String,
}

/// Every formula of the program, by file.
pub fn formulas() -> Vec<Written> {
    let mut all = Vec::new();
    folder(&Path::new(env!("CARGO_MANIFEST_DIR")).join("src"), "src", &mut all);
    all.sort_by(|a, b| (&a.file, &a.name).cmp(&(&b.file, &b.name)));
    all
}

fn folder(path: &Path, name: &str, all: &mut Vec<Written>) {
    for entry in std::fs::read_dir(path).expect("folder") {
        let path = entry.expect("entry").path();
        let file = format!("{name}/{}", path.file_name().expect("name").to_string_lossy());
        if path.is_dir() {
            folder(&path, &file, all);
        } else if file.ends_with(".rs") {
            let text = std::fs::read_to_string(&path).expect("text");
            all.extend(text.split("\nformula! {\n").skip(1).map(|block| written(block, &file)));
        }
    }
}

fn written(block: &str, file: &str) -> Written {
    let code = block.lines().map(str::trim).find(|line| !line.starts_with("///")).expect("a formula");
    let name = code.split('(').next().unwrap_or_default().to_owned();
    let cited = block.split("\n    source ").nth(1).expect("a source");
    let mark = cited.split_whitespace().next().unwrap_or_default().to_owned();
    let source = cited.split('"').nth(1).unwrap_or_default().to_owned();
    Written { name, file: file.to_owned(), mark, source }
}

/// What is known of a survivor by hand: the formula, a piece of the bent text, the reason.
const REASONS: &[(&str, &str, &str)] = &[
    ("drill_torque", "sin(kappa", "the one printed example has an edge angle of 90°, whose sine is 1"),
    ("drill_thrust", "sin(kappa", "the one printed example has an edge angle of 90°, whose sine is 1"),
    ("cutting_force", "k_", "the one printed example knows no factors: both are 1"),
];

/// Why no printed figure notices a bent formula that moves them by at most so many of their tolerances.
pub fn why_it_survives(formula: &str, bent: &str, most: f64) -> &'static str {
    let known = REASONS.iter().find(|(name, piece, _)| *name == formula && bent.contains(piece));
    match (known, most) {
        (_, m) if m > 0.0 && m < 0.01 => "moves no printed figure by a hundredth of what its digits allow",
        (Some((_, _, reason)), _) => reason,
        (None, m) if m <= 0.0 => "no printed case sees this place (its numbers make it nothing)",
        (None, _) => "leaves the printed figures within what their digits allow",
    }
}

fn why_not_reached(formula: &Written) -> &'static str {
    match formula.mark.as_str() {
        "Own" => "our own choice: nobody printed it",
        "Derived" => "follows by geometry or algebra; no printed example was read",
        "CommonPractice" => "a rule of the trade without a printed example",
        "FromMemory" => "remembered; no printed example was read",
        _ => "its source was read, a worked example of it was not",
    }
}

/// The committed page.
pub fn page(head: &str, table: &str, survivors: &str, unreached: &[&Written]) -> String {
    let mut text = format!(
        "# Formulas and the printed figures that hold them\n\n\
         Worked by `cargo test --test all mutants::`; written again with `SETOVER_WRITE=1`. Each formula that a published row reaches\n\
         is bent in every place of its own text: operators turned into one another, constants made a tenth and one larger, a\n\
         square or a root left out, sine, cosine and tangent exchanged, two symbols of one kind each in the place of the other.\n\
         At least one published figure must notice; which of them none notices is an assertion of the test.\n\n{head}\n\
         ## Reached\n\n| formula | text | figures | bent and noticed |\n|---|---|---|---|\n{table}\n## Not noticed\n\n"
    );
    text += if survivors.is_empty() { "none\n" } else { survivors };
    text += &format!("\n## Not reached: {}\n\n| file | formula | why |\n|---|---|---|\n", unreached.len());
    for formula in unreached {
        text += &format!("| {} | {} | {} |\n", formula.file, formula.name, why_not_reached(formula));
    }
    text
}
