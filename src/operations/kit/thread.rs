//! How a thread is named in an answer.

use crate::handbook::Thread;
use crate::operations::Answer;
use crate::proof::{At, Check, Verdict};

/// The check of the series.
const ID: &str = "series-known";

/// The thread by its full name; where no series was typed and another form has the same size and pitch, nobody knows of which flanks the
/// old thread is.
pub fn name_thread(thread: &At<Thread>, answer: &mut Answer) {
    let (of, place) = (thread.value, thread.place);
    answer.fact("thread", of.name());
    let Some(other) = of.also_meant() else {
        answer.does_not_apply(&[ID]);
        return;
    };
    answer.fact("other_thread", other);
    answer.check(Check::of_kind(ID, Verdict::Doubtful).at(place));
}
