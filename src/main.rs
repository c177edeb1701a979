//! The thin end: everything is in the library.

use std::process::ExitCode;

/// A plan and a page are made of many short texts: their memory comes quicker from here.
#[global_allocator]
static MEMORY: mimalloc::MiMalloc = mimalloc::MiMalloc;

fn main() -> ExitCode {
    setover::cli::run()
}
