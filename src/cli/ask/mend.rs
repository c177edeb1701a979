//! The draft planned as far as it is answered; what cannot be is asked again.

use super::{ENDED, FIRST, Interview, is_measured, plain};
use crate::cli::Stop;
use crate::cli::draft::quoted;
use crate::cli::load::Inputs;
use crate::in_order::InOrder;
use crate::job::JobFile;
use crate::plan::Plan;
use crate::proof::{Place, Verdict};
use crate::reading::{Key, Node, Problem};
use std::path::Path;

impl Interview<'_> {
    /// The plan of the draft; what cannot be a real part is asked again.
    pub(super) fn mended(&mut self) -> Result<Plan, Stop> {
        loop {
            let problems = match self.plan() {
                Ok(plan) => return Ok(plan),
                Err(problems) => problems,
            };
            for problem in &problems {
                self.dialogue.say_sentence(&problem.says)?;
            }
            // A key that it names and that was not asked yet goes before one that would be asked again.
            if let Some(key) = problems.iter().find_map(|problem| self.named_in(&problem.says)) {
                if self.key(&key, None)? {
                    continue;
                }
                return Err(Stop::Arguments(ENDED.into()));
            }
            let answer = problems.iter().find_map(|problem| self.draft.answer_in(problem.place?.line));
            let Some(at) = answer.filter(|at| *at < self.draft.answers.len()) else {
                let says = problems.into_iter().map(|problem| problem.says).collect::<Vec<_>>().join("; ");
                return Err(Stop::Arguments(says));
            };
            let (key, value) = self.draft.answers.remove(at);
            let required = self.asked.iter().any(|one| one.key == plain(&key) && one.required);
            // What need not be known is left out where no other answer comes.
            let more = self.one(&key, &format!("{key} was {}: and now?", quoted(&value)), "", required)?;
            if !more && required {
                return Err(Stop::Arguments(ENDED.into()));
            }
        }
    }

    /// Asks for what is read off the part and would settle a check that is doubtful without it; whether more may be asked.
    pub(super) fn what_would_settle(&mut self, seen: &mut Vec<String>) -> Result<bool, Stop> {
        loop {
            let plan = self.mended()?;
            let checks = plan.operations.iter().flat_map(|planned| &planned.answer.checks);
            let doubtful = checks.filter(|check| check.stamps() == Some(Verdict::Doubtful));
            let named = doubtful.flat_map(|check| check.remedies.iter().map(move |remedy| (remedy, check)));
            let mut open = named.filter_map(|(remedy, check)| Some((self.settles(&remedy.words)?, check.asks.clone())));
            let Some((key, check)) = open.find(|(key, _)| !seen.contains(&key.key)) else { return Ok(true) };
            seen.push(key.key.clone());
            if !self.key(&Key { required: false, ..key }, Some(&check))? {
                return Ok(false);
            }
        }
    }

    /// The measured key of the operation itself that a remedy names in brackets, where it has no answer yet.
    fn settles(&self, says: &str) -> Option<Key> {
        let named = says.split('(').skip(1).filter_map(|rest| Some(rest.split_once(')')?.0));
        let open = |key: &&Key| is_measured(key) && !self.is_answered(&key.key);
        named.filter_map(|name| self.asked.iter().filter(open).find(|key| key.key == name)).next().cloned()
    }

    /// The first key named in a message that has no answer yet: it must be given now. `material` of the housing is
    /// `housing.material`; where the operation has none of that name, it is the part's.
    pub(super) fn named_in(&self, says: &str) -> Option<Key> {
        let open = |key: &str| !self.draft.answers.iter().any(|(own, _)| own == key);
        let whole = |name: &str| self.asked.iter().find(|key| key.key == name && open(name)).cloned();
        let under = |name: &str| {
            let ends = format!(".{name}");
            let mut all: Vec<&Key> =
                self.asked.iter().filter(|key| key.key.ends_with(&ends) && open(&key.key)).collect();
            let is_of = |key: &Key| says.contains(key.key.split('.').next().unwrap_or_default());
            all.order_by_key(|key| !is_of(key));
            all.first().map(|key| (*key).clone())
        };
        let of_part = |name: &str| {
            let key = format!("part.{name}");
            let (_, means, example) = FIRST.iter().find(|(own, ..)| *own == key && open(&key))?;
            Some(Key { key, means: (*means).into(), example: (*example).into(), ..Key::default() })
        };
        let named = says.split('`').skip(1).step_by(2);
        let mut found =
            named.filter_map(|name| whole(name).or_else(|| under(name)).or_else(|| of_part(name))).next()?;
        found.required = true;
        Some(found)
    }

    pub(super) fn plan(&self) -> Result<Plan, Vec<Problem>> {
        let mut inputs = Inputs::default();
        inputs.text("job", self.draft.text());
        // Now what is missing counts too: a key given in a group may need another of it.
        let node = Node::yaml(&self.draft.text(), Place::start(0)).map_err(|problem| vec![problem])?;
        let job = JobFile::read(node)?;
        let shop = match &self.draft.shop {
            Some(path) => Some(
                inputs
                    .shop(&self.folder.join(Path::new(path)), None)
                    .ok_or_else(|| std::mem::take(&mut inputs.problems))?,
            ),
            None => None,
        };
        let plan = inputs.work(&job, shop.as_ref(), None);
        plan.ok_or(inputs.problems)
    }
}
