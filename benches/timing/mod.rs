//! A thing done so many times: its least and its middle time.

use std::hint::black_box;
use std::time::{Duration, Instant};

/// Does it so many times and prints the least and the middle time.
pub fn timed<T, E>(name: &str, times: usize, each: impl Fn() -> Result<T, E>) -> Result<(), E> {
    let mut all = Vec::with_capacity(times);
    for _ in 0..times {
        let start = Instant::now();
        black_box(each()?);
        all.push(start.elapsed());
    }
    all.sort_unstable();
    let least = all.first().copied().unwrap_or(Duration::ZERO);
    let middle = all.get(times / 2).copied().unwrap_or(Duration::ZERO);
    println!("{name:<44} {least:>12.1?} {middle:>12.1?}");
    Ok(())
}
