//! A job in the making: answers by their keys, and the YAML that they are.

/// A job of one part and one operation, as far as it is answered.
#[derive(Clone, Default)]
pub(super) struct Draft {
    /// The operation's word.
    pub operation: String,
    /// The part's name.
    pub part: String,
    /// The shop file that it names.
    pub shop: Option<String>,
    /// Keys with their values, nested ones with dots; those of the part begin with `part.`. A further item of a list has its number
    /// behind the key (`chain[1].link`).
    pub answers: Vec<(String, String)>,
    /// Keys that hold a list of maps.
    pub lists: Vec<String>,
}

/// The answers as a tree, in the order in which they came.
#[derive(Default)]
struct Tree(Vec<(String, Branch)>);

enum Branch {
    Value(String, usize),
    Keys(Tree),
}

impl Tree {
    fn plant(&mut self, path: &str, value: &str, answer: usize) {
        let Some((head, tail)) = path.split_once('.') else {
            self.0.push((path.to_owned(), Branch::Value(value.to_owned(), answer)));
            return;
        };
        let at = self.0.iter().position(|(key, _)| key == head).unwrap_or_else(|| {
            self.0.push((head.to_owned(), Branch::Keys(Self::default())));
            self.0.len() - 1
        });
        if let Some((_, Branch::Keys(keys))) = self.0.get_mut(at) {
            keys.plant(tail, value, answer);
        }
    }

    fn lines(&self, indent: usize, lists: &[String], lines: &mut Vec<(String, Option<usize>)>) {
        for (key, branch) in &self.0 {
            // A further item stands with the first.
            if key.contains('[') {
                continue;
            }
            let before = format!("{}{key}:", " ".repeat(indent));
            match branch {
                Branch::Value(value, answer) => lines.push((format!("{before} {}", quoted(value)), Some(*answer))),
                Branch::Keys(keys) if lists.contains(key) => {
                    lines.push((before, None));
                    let more = format!("{key}[");
                    let further = self.0.iter().filter(|(other, _)| other.starts_with(&more));
                    let further = further.filter_map(|(_, branch)| match branch {
                        Branch::Keys(keys) => Some(keys),
                        Branch::Value(..) => None,
                    });
                    for item in std::iter::once(keys).chain(further) {
                        let first = lines.len();
                        item.lines(indent + 4, lists, lines);
                        if let Some((line, _)) = lines.get_mut(first) {
                            line.replace_range(indent..indent + 4, "  - ");
                        }
                    }
                }
                Branch::Keys(keys) => {
                    lines.push((before, None));
                    keys.lines(indent + 2, lists, lines);
                }
            }
        }
    }
}

impl Draft {
    /// The file's lines, each with the answer that stands in it.
    fn lines(&self) -> Vec<(String, Option<usize>)> {
        let (mut part, mut operation) = (Tree::default(), Tree::default());
        for (at, (path, value)) in self.answers.iter().enumerate() {
            match path.strip_prefix("part.") {
                Some(fact) => part.plant(fact, value, at),
                None => operation.plant(path, value, at),
            }
        }
        let mut lines = vec![(format!("job: {}", quoted(&format!("{}, {}", self.part, self.operation))), None)];
        lines.extend(self.shop.as_ref().map(|shop| (format!("shop: {}", quoted(shop)), None)));
        lines.push(("parts:".to_owned(), None));
        lines.push((format!("  - part: {}", quoted(&self.part)), None));
        part.lines(4, &self.lists, &mut lines);
        lines.push(("    operations:".to_owned(), None));
        let empty = if operation.0.is_empty() { " {}" } else { "" };
        lines.push((format!("      - {}:{empty}", self.operation), None));
        operation.lines(10, &self.lists, &mut lines);
        lines
    }

    /// The file.
    pub(super) fn text(&self) -> String {
        self.lines().into_iter().map(|(line, _)| line + "\n").collect()
    }

    /// The answer that stands in a line, counted from 1.
    pub(super) fn answer_in(&self, line: u32) -> Option<usize> {
        self.lines().get(line.checked_sub(1)? as usize)?.1
    }
}

/// A value as YAML reads it back: quoted where a sign in it would mean something else.
pub(super) fn quoted(value: &str) -> String {
    let given = value.starts_with(['{', '[', '"', '\'']);
    let means = |c: char| "#&*!|>%@`,[]{}\"'".contains(c);
    let risky = value.is_empty()
        || value.starts_with(['-', '?', ':'])
        || value.contains(": ")
        || value.ends_with(':')
        || value.contains(means);
    if given || !risky { value.to_owned() } else { format!("'{}'", value.replace('\'', "''")) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::proof::Place;
    use crate::reading::Node;

    #[test]
    fn a_draft_is_the_yaml_of_its_answers() {
        let answers = [
            ("part.material", "EN8"),
            ("thread", "1/4\" BSF"),
            ("hold.in", "vice"),
            ("wall", "18.0 ± 0.3 mm"),
            ("hold.grip", "12 mm"),
            ("what.name", "journal"),
            ("what.size", "12 mm"),
            ("what[1].name", "bore"),
        ];
        let answers = answers.map(|(key, value)| (key.to_owned(), value.to_owned())).to_vec();
        let draft = Draft {
            operation: "thread-insert".into(),
            part: "no. 2: lid".into(),
            shop: None,
            answers,
            lists: vec!["what".into()],
        };
        let text = draft.text();
        let node = Node::yaml(&text, Place::start(0)).unwrap();
        let part = &node.under("parts").unwrap().items()[0];
        assert_eq!(part.text_under("part").unwrap().0, "no. 2: lid");
        let keys = part.under("operations").unwrap().items()[0].under("thread-insert").unwrap();
        assert_eq!(keys.text_under("thread").unwrap().0, "1/4\" BSF");
        assert_eq!(keys.under("hold").unwrap().text_under("grip").unwrap().0, "12 mm");
        assert_eq!(keys.under("what").unwrap().items()[0].text_under("size").unwrap().0, "12 mm", "{text}");
        assert_eq!(keys.under("what").unwrap().items()[1].text_under("name").unwrap().0, "bore", "{text}");
        let line = text.lines().position(|line| line.contains("grip")).unwrap() + 1;
        assert_eq!(draft.answer_in(line as u32), Some(4), "{text}");
        assert_eq!(draft.answer_in(1), None);
    }
}
