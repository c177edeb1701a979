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
    let next = AtomicUsize::new(0);
    let done = Mutex::new(Vec::with_capacity(items.len()));
    let work = || {
        let mut own = Vec::new();
        loop {
            let at = next.fetch_add(1, Ordering::Relaxed);
            let Some(item) = items.get(at) else { break };
            let made = each(item);
            // What comes after a failure is not needed, what came before it is.
            if made.is_err() {
                next.fetch_max(items.len(), Ordering::Relaxed);
            }
            own.push((at, made));
        }
        if let Ok(mut done) = done.lock() {
            done.append(&mut own);
        }
    };
    thread::scope(|scope| {
        for _ in 1..processors() {
            scope.spawn(work);
        }
        work();
    });
    let mut done = done.into_inner().unwrap_or_else(std::sync::PoisonError::into_inner);
    done.sort_unstable_by_key(|(at, _)| *at);
    done.into_iter().map(|(_, made)| made).collect()
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
