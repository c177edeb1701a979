//! What a look-up costs at start: each table is parsed on first use only, and only once. `cargo bench --bench start_up`.

use setover::handbook::cutting::speeds::{Work, start_speed};
use setover::handbook::joints::fits::Class;
use setover::handbook::{BoltClass, Material, Thread, ToolMaterial, sources};
use std::hint::black_box;
use std::time::{Duration, Instant};

/// A look-up by name.
type LookUp = (&'static str, fn() -> bool);

const LOOK_UPS: &[LookUp] = &[
    ("sources", || !sources().is_empty()),
    ("threads", || "1/4 BSF".parse::<Thread>().is_ok()),
    ("bolts", || "8.8".parse::<BoltClass>().is_ok()),
    ("limits and fits", || "H7".parse::<Class>().and_then(|c| c.deviations(25.0).map_err(|e| e.to_string())).is_ok()),
    ("materials", || "phosphor bronze".parse::<Material>().is_ok()),
    ("cutting speeds", || {
        "EN8".parse::<Material>().is_ok_and(|m| start_speed(&m, Work::Drill, ToolMaterial::Hss).is_ok())
    }),
];

fn timed(look_up: fn() -> bool) -> (Duration, bool) {
    let start = Instant::now();
    let found = black_box(look_up());
    (start.elapsed(), found)
}

fn main() {
    println!("{:<18} {:>12} {:>12}", "table", "first use", "after that");
    let mut whole = Duration::ZERO;
    for (name, look_up) in LOOK_UPS {
        let (first, found) = timed(*look_up);
        let again = (0..100).map(|_| timed(*look_up).0).min().unwrap_or_default();
        whole += first;
        println!("{name:<18} {first:>12.1?} {again:>12.1?}{}", if found { "" } else { "  NOT FOUND" });
    }
    println!("{:<18} {whole:>12.1?}", "all together");
}
