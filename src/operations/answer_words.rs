//! An answer in other words: all of it, or as far as a list tells of it.

use super::{Alternative, Answer, Choice};
use crate::proof::{Facts, Section, Speak, try_each};

impl<W> Answer<W> {
    /// The same answer in other words. `speaker` gives who speaks for an answer: this one or one of its alternatives, which
    /// fill their blanks from their own figures.
    ///
    /// # Errors
    /// Where a text has no other words.
    pub(crate) fn try_map_words<'a, S: Speak<W>>(
        &'a self,
        speaker: &dyn Fn(&'a Self) -> S,
    ) -> Result<Answer<S::Said>, S::Slip>
    where
        S::Said: Default,
    {
        let own = speaker(self);
        let choice = |choice: &Choice<W>| {
            let why = own.say(Section::Reasons, &choice.why, &[])?;
            let named = |of: &W| own.say(Section::Names, of, &[]);
            let instead = choice.instead.as_ref().map(named).transpose()?;
            Ok(Choice { name: choice.name, chosen: named(&choice.chosen)?, why, instead })
        };
        let alternative = |alternative: &'a Alternative<W>| {
            let answer = &alternative.answer;
            let why_not = alternative.why_not.as_ref().map(|words| speaker(answer).say(Section::Reasons, words, &[]));
            Ok(Alternative {
                name: own.say(Section::Names, &alternative.name, &[])?,
                answer: answer.try_map_words(speaker)?,
                chosen: alternative.chosen,
                why_not: why_not.transpose()?,
            })
        };
        let serves = |(lacks, name): &(&'static str, W)| Ok((*lacks, own.say(Section::Names, name, &[])?));
        Ok(Answer {
            values: self.values.clone(),
            choices: try_each(&self.choices, choice)?,
            alternatives: try_each(&self.alternatives, alternative)?,
            checks: try_each(&self.checks, |check| check.try_map_words(&own))?,
            set_ups: try_each(&self.set_ups, |set_up| set_up.try_map_words(&own))?,
            assumed: own.say_all(Section::Assumed, &self.assumed)?,
            cautions: own.say_all(Section::Cautions, &self.cautions)?,
            missing: own.say_all(Section::Missing, &self.missing)?,
            lacks: self.lacks.clone(),
            serves: try_each(&self.serves, serves)?,
            takes: self.takes.clone(),
            no_hole: self.no_hole,
            out_of_float: self.out_of_float,
            closes: self.closes,
            elsewhere: Vec::new(),
            refused: self.refused.clone(),
            picture: self.picture.as_ref().map(|picture| picture.try_map_words(&own)).transpose()?,
            proving: self.proving.clone(),
            facts: Facts::new(),
            declared: self.declared,
        })
    }

    /// The same answer as far as a list tells of it: what its checks are called and how they came out, and the titles of its set-ups.
    ///
    /// # Errors
    /// Where one of these has no other words.
    pub(crate) fn try_map_titles<S: Speak<W>>(&self, own: &S) -> Result<Answer<S::Said>, S::Slip>
    where
        S::Said: Default,
    {
        Ok(Answer {
            checks: try_each(&self.checks, |check| check.try_map_called(own))?,
            set_ups: try_each(&self.set_ups, |set_up| set_up.try_map_title(own))?,
            refused: self.refused.clone(),
            ..Answer::default()
        })
    }
}
