//! Work shared out over the processors that the machine gives, its results in the order of what was given.

use std::convert::Infallible;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::{LazyLock, Mutex};
use std::thread;

/// Fewer than this are done where they stand: a further thread costs more than it saves.
const WORTH_SHARING: usize = 4;

/// Does `each` to every item.
pub(crate) fn all<T: Sync, R: Send>(items: &[T], each: impl Fn(&T) -> R + Sync) -> Vec<R> {
    over(items, |item| Ok::<R, Infallible>(each(item))).unwrap_or_default()
}

/// Does `each` to every item; the first failure in the order of the items is the one that is told.
///
/// # Errors
/// That of the first item that failed.
pub(crate) fn over<T: Sync, R: Send, E: Send>(
    items: &[T],
    each: impl Fn(&T) -> Result<R, E> + Sync,
) -> Result<Vec<R>, E> {
    if items.len() < WORTH_SHARING || processors() < 2 {
        return items.iter().map(each).collect();
    }
    let done: Vec<_> = items.iter().map(|_| Mutex::new(None)).collect();
    until_done(items.len(), &|at| {
        let Some((item, done)) = items.get(at).zip(done.get(at)) else { return false };
        let made = each(item);
        let is_well = made.is_ok();
        // Nobody waits: each item is given to one thread alone.
        if let Ok(mut done) = done.lock() {
            *done = Some(made);
        }
        is_well
    });
    // What comes after a failure is not needed, what came before it is.
    done.into_iter().map_while(|done| done.into_inner().ok().flatten()).collect()
}

/// Does `each` to so many things, by their numbers; after one that did not go well no further one is begun.
fn until_done(count: usize, each: &(dyn Fn(usize) -> bool + Sync)) {
    let next = AtomicUsize::new(0);
    let work = || {
        loop {
            let at = next.fetch_add(1, Ordering::Relaxed);
            if at >= count {
                break;
            }
            if !each(at) {
                next.fetch_max(count, Ordering::Relaxed);
            }
        }
    };
    thread::scope(|scope| {
        for _ in 1..processors() {
            scope.spawn(work);
        }
        work();
    });
}

/// How many processors the machine gives: asked once, for the system reads several files to say it.
fn processors() -> usize {
    static PROCESSORS: LazyLock<usize> = LazyLock::new(|| thread::available_parallelism().map_or(1, usize::from));
    *PROCESSORS
}

#[cfg(test)]
mod tests {
    use super::over;

    #[test]
    fn results_come_in_the_order_of_the_items() {
        let items: Vec<usize> = (0..1000).collect();
        assert_eq!(over(&items, |n| Ok::<_, ()>(n * 2)), Ok(items.iter().map(|n| n * 2).collect()));
    }

    #[test]
    fn the_first_failure_is_told_however_the_work_was_shared() {
        let items: Vec<usize> = (0..1000).collect();
        for _ in 0..20 {
            assert_eq!(over(&items, |n| if *n % 300 == 299 { Err(*n) } else { Ok(*n) }), Err(299));
        }
    }
}
