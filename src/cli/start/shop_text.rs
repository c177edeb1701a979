//! The shop file that `start` writes: what was answered as keys, what was skipped as remarks that show how it would be written.

use super::{Answers, Question};
use crate::cli::draft::quoted;

/// Which key each answer fills, and how deep it stands; `{}` is the answer.
const LATHE: [(&str, &str); 4] = [
    ("feeds-along", "feeds-along: {}"),
    ("feeds-across", "feeds-across: {}"),
    ("swing", "swing: {}"),
    ("most-depth", "most-depth: {}"),
];

/// The keys of its chucks.
const CHUCKS: [(&str, &[(&str, &str)]); 2] = [
    ("chuck", &[("chuck-diameter", "diameter: {}"), ("chuck-most", "most: {}")]),
    (
        "four-jaw",
        &[("four-jaw-diameter", "diameter: {}"), ("four-jaw-most", "most: {}"), ("four-jaw-pitch", "screw-pitch: {}")],
    ),
];

/// What a shop file can say beside the answers, each to be taken out of its remark.
const LATER: &str = "
# What lies in the drawers; take the # away and write what is really there.
# tools:
#   - drills: {name: drill drawer, material: HSS, from: 1 mm, to: 13 mm, by: 0.1 mm, point: 118 deg}
#   - turning: {name: carbide-04, material: carbide, nose: 0.4 mm, edge-angle: 95 deg}
#   - insert-tap: {thread: M8x1.25, lead: bottoming, male-centre: false}
# reamers:
#   - fixed: {name: 16 H7, size: 16 H7, by: machine}
# drawers:
#   inserts: [{thread: M8x1.25, length: 1D, count: 6}]
#   shims: [{thickness: 0.10 mm, count: 4}]
# habits: {depth-stop-doubt: 0.2 mm, oven: 150 degC, freezer: -18 degC}
# Every key with its meaning: setover keys shop
";

/// The text of the shop file.
pub(super) fn shop_text(questions: &[Question], answered: &Answers) -> String {
    let told = Told { questions, answered };
    let mut out = String::from(
        "# What this shop owns. Figures that are wrong here are wrong on every sheet: take them from the machines.\n",
    );
    let name = answered.get("name").map_or("workshop", String::as_str);
    out += &format!("shop: {}\n", quoted(name));
    out += &told.line("", "units", "units: {}");
    out += &told.line("", "paper", "paper: {}");
    let (lathe, mill) = (told.given("spindle"), told.given("mill"));
    out += if lathe.is_some() || mill.is_some() { "machines:\n" } else { "# machines:\n" };
    out += &told.machine("lathe", "lathe", "spindle");
    if lathe.is_some() {
        LATHE.iter().for_each(|(id, key)| out += &told.line("      ", id, key));
        CHUCKS.iter().for_each(|(key, lines)| out += &told.chuck(key, lines));
        out += &told.dials(&[("top-slide", "axis: top", ""), ("cross-slide", "axis: across", "reads: diameter")]);
    }
    out += &told.machine("mill", "mill", "mill");
    if mill.is_some() {
        out += &told.dials(&[("quill", "axis: quill", "")]);
    }
    out += &told.micrometer();
    out + LATER
}

/// Questions and what was answered.
struct Told<'a> {
    questions: &'a [Question],
    answered: &'a Answers,
}

impl<'a> Told<'a> {
    fn given(&self, id: &str) -> Option<&'a str> {
        self.answered.get(id).map(String::as_str)
    }

    /// A key with its answer, or as a remark with what it costs to leave it out.
    fn line(&self, indent: &str, id: &str, key: &str) -> String {
        match self.given(id) {
            Some(answer) => format!("{indent}{}\n", key.replace("{}", &quoted(answer))),
            None => self.remark(indent, id, key),
        }
    }

    fn remark(&self, indent: &str, id: &str, key: &str) -> String {
        let question = self.questions.iter().find(|question| question.id == id);
        question.map_or_else(String::new, |question| {
            format!("{indent}# {}   # left out: {}\n", key.replace("{}", &question.example), question.skipped)
        })
    }

    fn machine(&self, word: &str, name: &str, id: &str) -> String {
        match self.given(id) {
            Some(steps) => format!("  - {word}:\n      name: {name}\n      spindle: {}\n", quoted(steps)),
            None => self.remark("  ", id, &format!("- {word}: {{name: {name}, spindle: {{}}}}")),
        }
    }

    /// The micrometer, where its range is known too.
    fn micrometer(&self) -> String {
        let of = |from: &str, to: &str, doubt: &str| {
            format!(
                "{{name: micrometer, kind: outside micrometer, from: {from}, to: {to}, uncertainty: {doubt}, default: true}}"
            )
        };
        match ["micrometer-from", "micrometer-to", "micrometer"].map(|id| self.given(id).map(quoted)) {
            [Some(from), Some(to), Some(doubt)] => format!("instruments:\n  - {}\n", of(&from, &to, &doubt)),
            _ => self.remark("", "micrometer", &format!("instruments: [{}]", of("0 mm", "25 mm", "{}"))),
        }
    }

    fn chuck(&self, key: &str, lines: &[(&'static str, &str)]) -> String {
        self.group(key, &lines.iter().map(|(id, key)| (*id, (*key).to_owned())).collect::<Vec<_>>())
    }

    fn dials<'d>(&self, dials: &[(&'d str, &str, &str)]) -> String {
        let tail = |more: &str| if more.is_empty() { String::new() } else { format!(", {more}") };
        let line =
            |(id, axis, more): &(&'d str, &str, &str)| (*id, format!("- {{{axis}, division: {{}}{}}}", tail(more)));
        self.group("dials", &dials.iter().map(line).collect::<Vec<_>>())
    }

    /// Lines under a key of a machine; where none of them was answered the key is a remark as well.
    fn group(&self, key: &str, lines: &[(&str, String)]) -> String {
        let is_given = lines.iter().any(|(id, _)| self.given(id).is_some());
        let head = format!("      {}{key}:\n", if is_given { "" } else { "# " });
        let line = |(id, line): &(&str, String)| match (self.given(id), is_given) {
            (Some(answer), _) => format!("        {}\n", line.replace("{}", &quoted(answer))),
            (None, true) => self.remark("        ", id, line),
            (None, false) => self.remark("      ", id, &format!("  {line}")),
        };
        lines.iter().map(line).fold(head, |text, line| text + &line)
    }
}
