//! What commands say, heard for the fuzzer, which alone builds with `--cfg fuzzing`.

use std::cell::RefCell;

thread_local! {
    /// What was said since it was last asked for.
    static SAID: RefCell<Vec<u8>> = const { RefCell::new(Vec::new()) };
}

/// Takes a copy of what goes to standard output or standard error.
pub(super) fn hear(pieces: &[impl AsRef<[u8]>]) {
    SAID.with_borrow_mut(|said| pieces.iter().for_each(|piece| said.extend_from_slice(piece.as_ref())));
}

/// What was said since this was last asked.
pub(super) fn heard() -> String {
    String::from_utf8_lossy(&SAID.take()).into_owned()
}
