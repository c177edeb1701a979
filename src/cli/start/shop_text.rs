//! The shop file that `start` writes: what was answered as keys, what was skipped as remarks that show how it would be written.

use super::{Answers, Question, of_inches, open};
use crate::cli::draft::quoted;

/// An answer and the line that it fills; `{}` is the answer.
type Line = (&'static str, &'static str);

/// Keys of the machines beside their spindle.
const LATHE: &[Line] = &[
    ("lathe-power", "power: {}"),
    ("feeds-along", "feeds-along: {}"),
    ("feeds-across", "feeds-across: {}"),
    ("swing", "swing: {}"),
    ("most-depth", "most-depth: {}"),
];
const MILL: &[Line] = &[("mill-power", "power: {}")];
const DRILL_PRESS: &[Line] = &[("drill-press-power", "power: {}")];

/// The keys of the chucks.
const CHUCKS: [(&str, &[Line]); 2] = [
    ("chuck", &[("chuck-diameter", "diameter: {}"), ("chuck-most", "most: {}"), ("chuck-force", "jaw-force: {}")]),
    (
        "four-jaw",
        &[
            ("four-jaw-diameter", "diameter: {}"),
            ("four-jaw-most", "most: {}"),
            ("four-jaw-force", "jaw-force: {}"),
            ("four-jaw-pitch", "screw-pitch: {}"),
        ],
    ),
];

/// A thing in braces, as a line of a list: the answer that says whether it is there, its keys that are always so, and those that are
/// answered.
type Thing = (&'static str, &'static str, &'static [Line]);

/// Its dials by machine: axis, division, what else was answered.
const DIALS_OF_LATHE: &[Thing] = &[
    ("top-slide", "axis: top", &[("top-slide", "division: {}"), ("top-slide-turn", "per-turn: {}")]),
    (
        "cross-slide",
        "axis: across",
        &[("cross-slide", "division: {}"), ("cross-slide-turn", "per-turn: {}"), ("cross-slide-reads", "reads: {}")],
    ),
    ("carriage", "axis: along", &[("carriage", "division: {}"), ("carriage-turn", "per-turn: {}")]),
];
const DIALS_OF_MILL: &[Thing] =
    &[("mill-quill", "axis: quill", &[("mill-quill", "division: {}"), ("mill-quill-turn", "per-turn: {}")])];
const DIALS_OF_DRILL_PRESS: &[Thing] =
    &[("drill-press-quill", "axis: quill", &[("drill-press-quill", "division: {}")])];

const TOOLS: &[(&str, Thing)] = &[
    ("turning", ("turning", "name: turning tool", &[("turning", "material: {}"), ("turning-nose", "nose: {}")])),
    (
        "boring-bar",
        (
            "bar",
            "name: boring bar",
            &[
                ("bar", "diameter: {}"),
                ("bar-material", "material: {}"),
                ("bar-nose", "nose: {}"),
                ("bar-reach", "reach: {}"),
            ],
        ),
    ),
    (
        "parting-blade",
        (
            "blade",
            "name: parting blade",
            &[("blade", "width: {}"), ("blade-material", "material: {}"), ("blade-reach", "reach: {}")],
        ),
    ),
    (
        "drills",
        (
            "drills-from",
            "name: drill drawer, material: HSS",
            &[("drills-from", "from: {}"), ("drills-to", "to: {}"), ("drills-by", "by: {}")],
        ),
    ),
];

/// Instruments: what each is called, its kind, whether it is taken where a reading names none.
const INSTRUMENTS: [(&str, &str, &str, bool); 4] = [
    ("micrometer", "micrometer", "outside micrometer", true),
    ("second", "larger micrometer", "outside micrometer", true),
    ("bore-gauge", "bore gauge", "bore gauge", true),
    ("depth-gauge", "depth gauge", "depth gauge", true),
];

/// What a shop file can say beside the answers, each to be taken out of its remark.
const LATER: [&str; 2] = [
    "
# What else lies in the drawers; take the # and the blank behind it away and write what is really there.
# drawers:
#   inserts: [{thread: M8x1.25, length: 1D, count: 6}]
#   shims: [{thickness: 0.10 mm, count: 4}]
# habits: {depth-stop-doubt: 0.2 mm, oven: 150 degC, freezer: -18 degC}
# Every key with its meaning: setover keys shop
",
    "
# What else lies in the drawers; take the # and the blank behind it away and write what is really there.
# drawers:
#   inserts: [{thread: 5/16-18 UNC, length: 1D, count: 6}]
#   shims: [{thickness: 0.004 in, count: 4}]
# habits: {depth-stop-doubt: 0.008 in, oven: 300 degF, freezer: 0 degF}
# Every key with its meaning: setover keys shop
",
];

/// The text of the shop file: of what was told, `answered` is what is whole.
pub(super) fn shop_text(questions: &[Question], answered: &Answers, all: &Answers) -> String {
    let told = Told { questions, answered, all };
    let mut out = String::from(
        "# What this shop owns. Figures that are wrong here are wrong on every sheet: take them from the machines.\n",
    );
    let name = answered.get("name").map_or("workshop", String::as_str);
    out += &format!("shop: {}\n", quoted(name));
    out += &told.line("", "units", "units: {}");
    out += &told.line("", "paper", "paper: {}");
    let has_machines = ["spindle", "mill", "drill-press", "press"].iter().any(|id| told.given(id).is_some());
    out += if has_machines { "machines:\n" } else { "# machines:\n" };
    out += &told.machine(("lathe", "lathe", "spindle"), LATHE, DIALS_OF_LATHE);
    out += &told.machine(("mill", "mill", "mill"), MILL, DIALS_OF_MILL);
    out += &told.machine(("drill-press", "drill press", "drill-press"), DRILL_PRESS, DIALS_OF_DRILL_PRESS);
    out += &told.line("  ", "press", "- press: {name: press, most: {}}");
    out += &told.tools();
    out += &told.reamers();
    out += &told.instruments();
    let [metric, inch] = LATER;
    out + if of_inches(answered) { inch } else { metric }
}

/// Questions and what was answered.
struct Told<'a> {
    questions: &'a [Question],
    answered: &'a Answers,
    /// With what was said of things that are left out.
    all: &'a Answers,
}

impl<'a> Told<'a> {
    fn given(&self, id: &str) -> Option<&'a str> {
        self.answered.get(id).map(String::as_str)
    }

    /// What was said, where the thing that it was said of is left out; else an answer that is read, in the shop's units.
    fn example(&self, id: &str) -> Option<&'a str> {
        let question = self.questions.iter().find(|question| question.id == id)?;
        let said = self.all.get(id).map(String::as_str);
        Some(said.unwrap_or_else(|| question.example_in(self.answered)))
    }

    /// Why a thing is left out: what must be known of it and is not, where the rest was told.
    fn why_left_out(&self, question: &Question) -> String {
        let open = open(self.questions, self.all).filter(|open| open.of == question.id);
        let open: Vec<String> =
            open.map(|open| format!("{} ({} is an example)", open.asks, open.example_in(self.answered))).collect();
        if open.is_empty() { question.skipped.clone() } else { format!("not known yet: {}", open.join(" ")) }
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
            let example = self.example(id).unwrap_or_default();
            format!("{indent}# {}   # left out: {}\n", key.replace("{}", example), self.why_left_out(question))
        })
    }

    /// A machine with its keys, chucks and dials.
    fn machine(&self, (word, name, id): (&str, &str, &'static str), keys: &[Line], dials: &[Thing]) -> String {
        let Some(steps) = self.given(id) else {
            return self.remark("  ", id, &format!("- {word}: {{name: {name}, spindle: {{}}}}"));
        };
        let mut out = format!("  - {word}:\n      name: {name}\n      spindle: {}\n", quoted(steps));
        keys.iter().for_each(|(id, key)| out += &self.line("      ", id, key));
        if word == "lathe" {
            CHUCKS.iter().for_each(|(key, lines)| out += &self.group(key, lines));
        }
        out + &self.dials(dials)
    }

    /// Lines under a key of a machine; where none of them was answered the key is a remark as well.
    fn group(&self, key: &str, lines: &[Line]) -> String {
        let is_given = lines.iter().any(|(id, _)| self.given(id).is_some());
        let head = format!("      {}{key}:\n", if is_given { "" } else { "# " });
        let line = |(id, line): &Line| match (self.given(id), is_given) {
            (Some(answer), _) => format!("        {}\n", line.replace("{}", &quoted(answer))),
            (None, true) => self.remark("        ", id, line),
            (None, false) => self.remark("      ", id, &format!("  {line}")),
        };
        lines.iter().map(line).fold(head, |text, line| text + &line)
    }

    fn dials(&self, dials: &[Thing]) -> String {
        let is_given = dials.iter().any(|(id, ..)| self.given(id).is_some());
        let mut out = format!("      {}dials:\n", if is_given { "" } else { "# " });
        for thing in dials {
            out += &match self.thing(thing) {
                Some(keys) => format!("        - {{{keys}}}\n"),
                None => {
                    let indent = if is_given { "        " } else { "      " };
                    let inner = if is_given { "" } else { "  " };
                    self.remark(indent, thing.0, &format!("{inner}- {{{}, division: {{}}}}", thing.1))
                }
            };
        }
        out
    }

    /// The keys of a thing that is there.
    fn thing(&self, (id, fixed, lines): &Thing) -> Option<String> {
        self.given(id)?;
        let answered = lines.iter().filter_map(|(id, key)| Some(key.replace("{}", &quoted(self.given(id)?))));
        Some(std::iter::once((*fixed).to_owned()).chain(answered).collect::<Vec<_>>().join(", "))
    }

    /// The keys that it would have, all of them by their examples.
    fn like(&self, (_, fixed, lines): &Thing) -> String {
        let keys = lines.iter().filter_map(|(id, key)| Some(key.replace("{}", &quoted(self.example(id)?))));
        std::iter::once((*fixed).to_owned()).chain(keys).collect::<Vec<_>>().join(", ")
    }

    fn tools(&self) -> String {
        let has = TOOLS.iter().any(|(_, thing)| self.given(thing.0).is_some()) || self.given("taps").is_some();
        let mut out = String::from(if has { "tools:\n" } else { "# tools:\n" });
        for (word, thing) in TOOLS {
            out += &match self.thing(thing) {
                Some(keys) => format!("  - {word}: {{{keys}}}\n"),
                None => self.remark("  ", thing.0, &format!("- {word}: {{{}}}", self.like(thing))),
            };
        }
        match self.given("taps") {
            Some(taps) => each(taps).for_each(|tap| out += &format!("  - tap: {{thread: {}}}\n", quoted(tap))),
            None => {
                let thread = if of_inches(self.answered) { "5/16-18 UNC" } else { "M8" };
                out += &self.remark("  ", "taps", &format!("- tap: {{thread: {thread}}}"));
            }
        }
        out
    }

    fn reamers(&self) -> String {
        let of = |size: &str| format!("- fixed: {{name: {0}, size: {0}}}", quoted(size));
        match self.given("reamers") {
            Some(all) => each(all).fold("reamers:\n".to_owned(), |out, size| format!("{out}  {}\n", of(size))),
            None => {
                let size = if of_inches(self.answered) { "1/2 in" } else { "16 H7" };
                format!("# reamers:\n{}", self.remark("  ", "reamers", &of(size)))
            }
        }
    }

    fn instruments(&self) -> String {
        let has = INSTRUMENTS.iter().any(|one| self.given(one.0).is_some()) || self.given("indicator").is_some();
        let mut out = String::from(if has { "instruments:\n" } else { "# instruments:\n" });
        for (id, name, kind, default) in INSTRUMENTS {
            let of = |range: &str, doubt: &str| {
                let (from, to) = ends(range);
                let default = if default { ", default: true" } else { "" };
                format!(
                    "- {{name: {name}, kind: {kind}, from: {}, to: {}, uncertainty: {}{default}}}",
                    quoted(&from),
                    quoted(to),
                    quoted(doubt)
                )
            };
            let doubt = format!("{id}-doubt");
            out += &match self.given(id).zip(self.given(&doubt)) {
                Some((range, doubt)) => format!("  {}\n", of(range, doubt)),
                None => {
                    let like = self.example(id).zip(self.example(&doubt)).map(|(range, doubt)| of(range, doubt));
                    self.remark("  ", id, &like.unwrap_or_default())
                }
            };
        }
        let of = |to: &str, doubt: &str, repeat: Option<&str>| {
            let zero = if to.contains("in") { "0 in" } else { "0 mm" };
            let repeat = repeat.map_or_else(String::new, |repeat| format!(", repeat: {}", quoted(repeat)));
            let (to, doubt) = (quoted(to), quoted(doubt));
            format!(
                "- {{name: lever indicator, kind: lever indicator, from: {zero}, to: {to}, uncertainty: {doubt}{repeat}}}"
            )
        };
        out += &match self.given("indicator").zip(self.given("indicator-doubt")) {
            Some((to, doubt)) => format!("  {}\n", of(to, doubt, self.given("indicator-repeat"))),
            None => {
                let like = self.example("indicator").zip(self.example("indicator-doubt"));
                let like = like.map(|(to, doubt)| of(to, doubt, self.example("indicator-repeat")));
                self.remark("  ", "indicator", &like.unwrap_or_default())
            }
        };
        out
    }
}

/// The items of an answer with commas.
fn each(answer: &str) -> impl Iterator<Item = &str> {
    answer.split([',', ';']).map(str::trim).filter(|item| !item.is_empty())
}

/// The two ends of a range: `0 mm to 25 mm`, `0 to 1 in`, `0-25 mm`. What is no range stands for both, and is refused as that.
fn ends(range: &str) -> (String, &str) {
    let parts = range.split_once(" to ").or_else(|| range.split_once("..")).or_else(|| range.split_once(['-', '–']));
    let (from, to) = parts.unwrap_or((range, range));
    let (from, to) = (from.trim(), to.trim());
    // The unit behind the last figure stands for both.
    let is_bare = !from.is_empty() && from.chars().all(|c| c.is_ascii_digit() || matches!(c, '.' | '/' | ' '));
    let unit = to.trim_start_matches(|c: char| c.is_ascii_digit() || matches!(c, '.' | '/' | ' '));
    let from = if is_bare && parts.is_some() { format!("{from} {unit}") } else { from.to_owned() };
    (from, to)
}
