//! Pages that are worked out and committed: held equal by a test, written again when `SETOVER_WRITE` is set.

use std::io::Write;
use std::path::Path;

/// The columns of the count.
pub const COLUMNS: &str =
    "\n| source | mark | counted | to the digits | within | errors | not counted |\n|---|---|---|---|---|---|---|\n";

/// The head of the count of printed figures.
pub fn heading() -> String {
    "# Figures checked against print\n\n\
     Worked by `cargo test --test all published::`; written again with `SETOVER_WRITE=1`. Every row of `tests/published/*.csv` is\n\
     worked by the handbook and held to the digits that were printed, or, where the source itself rounded on the way or uses\n\
     another table, within what its row says. *errors* are errors in print and rules of thumb: they must **not** be met.\n\
     Several pages of one house are one source, and a source of part 1 is none of part 2.\n"
        .into()
}

/// Says something on every run: what goes to the stream itself is not kept back where a test passes.
pub fn say(text: &str) {
    let mut out = std::io::stdout().lock();
    let _ = writeln!(out, "\n{text}");
}

/// Holds a committed page equal to what was worked out.
pub fn hold(page: &str, text: &str) {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(page);
    if std::env::var_os("SETOVER_WRITE").is_some() {
        std::fs::create_dir_all(path.parent().expect("a folder")).expect("folder");
        std::fs::write(&path, text).expect("page");
    }
    let committed = std::fs::read_to_string(&path).unwrap_or_default();
    assert!(committed == text, "{page} is not what was worked out: look, then write it again with SETOVER_WRITE=1");
}
