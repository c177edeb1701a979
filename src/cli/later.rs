//! Arguments of a command that are told to the parser only where that command is asked for: nearly all that it would be told else is of
//! other commands, and telling it takes as long as reading a job.

use super::Arguments;
use clap::builder::Resettable;
use clap::{ArgMatches, Args, Command, CommandFactory, Error, FromArgMatches, Id};
use std::ops::Deref;
use std::sync::atomic::{AtomicBool, Ordering};

/// Whether every command is told its arguments at once.
static AT_ONCE: AtomicBool = AtomicBool::new(false);

/// The whole definition, for who goes over all of it.
pub(super) fn whole() -> Command {
    AT_ONCE.store(true, Ordering::Relaxed);
    Arguments::command()
}

/// A command with its arguments. What it does it says already: what its arguments have in common with those of others says nothing of it.
fn told<T: Args>(command: Command) -> Command {
    let said = [command.get_about().cloned(), command.get_long_about().cloned()];
    let [about, long] = said.map(|text| text.map_or(Resettable::Reset, Resettable::Value));
    T::augment_args(command).about(about).long_about(long)
}

/// The arguments of a command.
pub(super) struct Later<T>(T);

impl<T> Deref for Later<T> {
    type Target = T;
    fn deref(&self) -> &T {
        &self.0
    }
}

impl<T: FromArgMatches> FromArgMatches for Later<T> {
    fn from_arg_matches(matches: &ArgMatches) -> Result<Self, Error> {
        T::from_arg_matches(matches).map(Self)
    }

    fn from_arg_matches_mut(matches: &mut ArgMatches) -> Result<Self, Error> {
        T::from_arg_matches_mut(matches).map(Self)
    }

    fn update_from_arg_matches(&mut self, matches: &ArgMatches) -> Result<(), Error> {
        self.0.update_from_arg_matches(matches)
    }

    fn update_from_arg_matches_mut(&mut self, matches: &mut ArgMatches) -> Result<(), Error> {
        self.0.update_from_arg_matches_mut(matches)
    }
}

impl<T: Args> Args for Later<T> {
    fn group_id() -> Option<Id> {
        T::group_id()
    }

    fn augment_args(command: Command) -> Command {
        if AT_ONCE.load(Ordering::Relaxed) { T::augment_args(command) } else { command.defer(told::<T>) }
    }

    fn augment_args_for_update(command: Command) -> Command {
        T::augment_args_for_update(command)
    }
}
