//! What has several answers: a thing with keys under it, the items of a list, and whatever else may be said.

use super::{Interview, is_measured, plain};
use crate::cli::Stop;
use crate::cli::dialogue::Reply;
use crate::cli::draft::quoted;
use crate::in_order::InOrder;
use crate::reading::{Key, near};

/// A key with its example for an answer.
fn like(key: &Key) -> (String, String) {
    let value = if key.list { format!("[{}]", quoted(&key.example)) } else { key.example.clone() };
    (key.key.clone(), value)
}

/// The range of what has no sign.
const AT_LEAST_NOUGHT: &str = "0 or more";

impl Interview<'_> {
    /// Whether a key may still be given: where its example is refused beside what was said, it goes with another answer.
    pub(super) fn would_do(&mut self, key: &Key) -> bool {
        self.draft.answers.push(like(key));
        let does = self.read().err().is_none_or(|problems| problems.is_empty());
        self.draft.answers.pop();
        does
    }

    /// The range of a key, by the type of its field; where nought is no such size, by what a job with nought in it is told.
    pub(super) fn range(&mut self, key: &Key) -> String {
        if key.range != AT_LEAST_NOUGHT || key.unit.is_empty() || key.list {
            return key.range.clone();
        }
        // With an example for what is not answered yet: what cannot be a real part is told of whole jobs alone.
        let before = self.draft.answers.clone();
        let open = self.asked.iter().filter(|other| other.required && other.key != key.key);
        let open: Vec<(String, String)> = open.filter(|other| !self.is_answered(&other.key)).map(like).collect();
        self.draft.answers.extend(open);
        self.draft.answers.push((key.key.clone(), format!("0 {}", key.unit)));
        let told = [self.read().err(), self.plan().err()];
        self.draft.answers = before;
        let last = format!("`{}`", key.last());
        let is_refused = |says: &str| says.contains("above zero") && says.contains(&last);
        let refused = told.into_iter().flatten().flatten().any(|problem| is_refused(&problem.says));
        if refused { "more than 0".to_owned() } else { key.range.clone() }
    }

    /// Asks for a thing that may be left out and that a check wants: its first key may be skipped, and the thing with it.
    pub(super) fn thing(&mut self, thing: &Key, check: &str) -> Result<bool, Stop> {
        if self.draft.answers.iter().any(|(key, _)| key.starts_with(&format!("{}.", thing.key))) {
            return Ok(true);
        }
        if thing.list {
            return self.items(thing, Some(check));
        }
        let mut under: Vec<&Key> = thing.under.iter().filter(|key| key.required || is_measured(key)).collect();
        under.order_by_key(|key| !key.required);
        for (at, key) in under.into_iter().enumerate() {
            if at > 0 && !key.required && !self.would_do(key) {
                continue;
            }
            let own = Key { required: false, ..key.clone() };
            let goes_on = self.key(&own, Some(check).filter(|_| at == 0))?;
            if !self.is_answered(&key.key) && (at == 0 || key.required) {
                self.drop(&format!("{}.", thing.key), &key.key)?;
                return Ok(goes_on);
            }
            if !goes_on {
                return Ok(false);
            }
        }
        Ok(true)
    }

    /// Takes back what was said of a thing of which a key is not known that it needs.
    fn drop(&mut self, within: &str, wants: &str) -> Result<(), Stop> {
        let before = self.draft.answers.len();
        self.draft.answers.retain(|(key, _)| !key.starts_with(within));
        if self.draft.answers.len() < before {
            self.dialogue.say(&format!("Left out again: it needs `{}`.", plain(wants)))?;
        }
        Ok(())
    }

    /// Asks for the things of a list, one after the other, until an empty line.
    pub(super) fn items(&mut self, list: &Key, check: Option<&str>) -> Result<bool, Stop> {
        /// Nobody types more of them than this.
        const MOST: usize = 100;
        let mut under: Vec<&Key> = list.under.iter().filter(|key| key.required || is_measured(key)).collect();
        under.order_by_key(|key| !key.required);
        for number in 0..MOST {
            let head = if number == 0 { list.key.clone() } else { format!("{}[{number}]", list.key) };
            for (at, key) in under.iter().enumerate() {
                let tail = key.key.strip_prefix(list.key.as_str()).unwrap_or(&key.key);
                let path = format!("{head}{tail}");
                let must = key.required && number == 0 && check.is_none();
                let own = Key { required: must, key: path.clone(), ..(*key).clone() };
                let more = (number > 0 && at == 0).then_some("One more? An empty line: that is all.");
                let goes_on = self.key_with(&own, check.filter(|_| number == 0 && at == 0), more)?;
                if !self.is_answered(&path) && (at == 0 || key.required) {
                    self.drop(&format!("{head}."), &path)?;
                    return Ok(goes_on);
                }
                if !goes_on {
                    return Ok(false);
                }
            }
        }
        Ok(true)
    }

    /// What may be said beside: each key by its name, until an empty line.
    pub(super) fn anything_else(&mut self) -> Result<(), Stop> {
        let open: Vec<String> = self.tree.iter().map(|key| key.key.clone()).filter(|key| !self.is_begun(key)).collect();
        if open.is_empty() {
            return Ok(());
        }
        let mut question = format!("More may be said of: {}.", open.join(", "));
        loop {
            let hint = format!(
                "as in `{}`; an empty line: that is all; what each means: setover keys {}",
                self.like(),
                self.draft.operation
            );
            let said = match self.dialogue.ask(&format!("\n{question}"), &hint)? {
                Reply::Ended | Reply::Skipped => return Ok(()),
                Reply::Given(said) => said,
            };
            question = "Anything more?".to_owned();
            let Some((key, value)) = said.split_once(':').map(|(key, value)| (key.trim(), value.trim())) else {
                self.dialogue.say("A key, a colon and its value are wanted.")?;
                continue;
            };
            let known = self.tree.iter().chain(&self.asked).map(|known| known.key.as_str());
            if !known.clone().any(|known| known == key) {
                self.dialogue.say(&format!("There is no key `{key}` here; {}", near(key, known)))?;
                continue;
            }
            if self.is_begun(key) || value.is_empty() {
                self.dialogue.say(&format!("`{key}` was given already, or nothing stands behind it."))?;
                continue;
            }
            self.draft.answers.push((key.to_owned(), value.to_owned()));
            let problems = match self.read() {
                Err(problems) if !problems.is_empty() => problems,
                _ => self.plan().err().unwrap_or_default(),
            };
            if !problems.is_empty() {
                self.draft.answers.pop();
                problems.iter().try_for_each(|problem| self.dialogue.say_sentence(&problem.says))?;
            }
        }
    }

    /// A key that is open, with its example.
    fn like(&self) -> String {
        let open =
            self.tree.iter().find(|key| !self.is_begun(&key.key) && key.under.is_empty() && !key.example.is_empty());
        open.map_or_else(|| "key: value".to_owned(), |key| format!("{}: {}", key.key, key.example))
    }

    /// Whether a key or one under it has an answer.
    fn is_begun(&self, key: &str) -> bool {
        let under = [format!("{key}."), format!("{key}[")];
        self.draft.answers.iter().any(|(own, _)| own == key || under.iter().any(|under| own.starts_with(under)))
    }

    /// Asks for a list of texts, one a line, until an empty line.
    pub(super) fn rows(&mut self, key: &Key, question: &str, hint: &str) -> Result<bool, Stop> {
        if !self.one(&key.key, question, hint, key.required)? {
            return Ok(false);
        }
        let at = self.draft.answers.iter().position(|(own, _)| *own == key.key);
        let Some(at) = at else { return Ok(true) };
        let first = self.draft.answers.get(at).map(|(_, value)| value.clone()).unwrap_or_default();
        if first.starts_with('[') {
            return Ok(true);
        }
        let mut rows = vec![first];
        loop {
            let hint = format!("{hint}; an empty line: that is all");
            match self.dialogue.ask("The next of them?", &hint)? {
                Reply::Given(row) => rows.push(row),
                Reply::Skipped => return Ok(true),
                Reply::Ended => return Ok(false),
            }
            let before = self.draft.answers.get(at).cloned();
            if let Some((_, value)) = self.draft.answers.get_mut(at) {
                *value = format!("[{}]", rows.iter().map(|row| quoted(row)).collect::<Vec<_>>().join(", "));
            }
            if let Err(problems) = self.read()
                && !problems.is_empty()
            {
                rows.pop();
                if let (Some(slot), Some(before)) = (self.draft.answers.get_mut(at), before) {
                    *slot = before;
                }
                problems.iter().try_for_each(|problem| self.dialogue.say_sentence(&problem.says))?;
            }
        }
    }
}
