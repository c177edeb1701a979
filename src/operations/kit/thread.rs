//! How a thread is named in an answer.

use crate::handbook::Thread;
use crate::operations::Answer;
use crate::proof::Words;

/// The thread by its full name; where no series was typed and another form has the same size and pitch, that is said.
pub fn name_thread(thread: Thread, answer: &mut Answer) {
    answer.fact("thread", thread.name());
    if let Some(other) = thread.also_meant() {
        answer.assume_words(Words::of("thread-series").with("thread", thread.name()).with("other", other));
    }
}
