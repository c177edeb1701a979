//! Written whole or not at all: beside the name, then renamed. A signal that would end the process waits for that, so that nothing is
//! left beside; what a process that was killed outright left there, the next one takes away.

use super::put;
use signal_hook::{consts::TERM_SIGNALS, flag, low_level};
use std::ffi::{OsStr, c_int};
use std::io;
use std::path::Path;
use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};
use std::sync::{Arc, LazyLock};
use std::time::Duration;

/// How the name begins of what is written beside, and how many letters follow.
const BESIDE: (&str, usize) = (".setover-", 6);
/// What is younger may have a writer that has not locked it yet.
const YOUNG: Duration = Duration::from_secs(1);

/// Writes beside the name and renames; the mode of a file that was there is kept. What is `lasting` lies on the disk before it has its
/// name; what can be made again is left to the system, which puts it there when it sees fit: half of a page's time goes into that.
pub(super) fn replace(path: &Path, pieces: &[impl AsRef<[u8]>], lasting: bool) -> io::Result<()> {
    let folder = path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    take_away_what_was_left(folder);
    undisturbed(|| {
        let mut builder = tempfile::Builder::new();
        builder.prefix(BESIDE.0).rand_bytes(BESIDE.1);
        let as_new = as_any_new_file();
        as_new.iter().for_each(|mode| {
            builder.permissions(mode.clone());
        });
        let mut beside = builder.tempfile_in(folder)?;
        // Where the folder knows no locks nothing is ever taken away from it.
        let _ = beside.as_file().lock();
        put(beside.as_file_mut(), pieces)?;
        if let Ok(old) = std::fs::metadata(path) {
            beside.as_file().set_permissions(old.permissions())?;
        }
        if lasting {
            beside.as_file().sync_all()?;
        } else if exchanged(beside.path(), path) {
            // The old bytes bear the name beside now, and go with it.
            return Ok(());
        }
        beside.persist(path).map_err(|error| error.error)?;
        Ok(())
    })
}

/// Two files have changed names in one stroke. Renaming over a file that is there makes some systems put the bytes on the disk first,
/// which takes as long as half a page.
#[cfg(target_os = "linux")]
fn exchanged(one: &Path, other: &Path) -> bool {
    use rustix::fs::{CWD, RenameFlags, renameat_with};
    renameat_with(CWD, one, CWD, other, RenameFlags::EXCHANGE).is_ok()
}

#[cfg(not(target_os = "linux"))]
fn exchanged(_: &Path, _: &Path) -> bool {
    false
}

/// Files of ours that no process writes any more.
fn take_away_what_was_left(folder: &Path) {
    let Ok(all) = std::fs::read_dir(folder) else { return };
    for path in all.flatten().filter(|entry| is_beside(&entry.file_name())).map(|entry| entry.path()) {
        let Ok(file) = std::fs::File::open(&path) else { continue };
        let about = file.metadata();
        let old = about.and_then(|about| about.modified()).ok().and_then(|at| at.elapsed().ok());
        if old.is_some_and(|old| old > YOUNG) && file.try_lock().is_ok() {
            let _ = std::fs::remove_file(&path);
        }
    }
}

fn is_beside(name: &OsStr) -> bool {
    let letters = name.to_str().and_then(|name| name.strip_prefix(BESIDE.0));
    letters.is_some_and(|letters| letters.len() == BESIDE.1 && letters.bytes().all(|byte| byte.is_ascii_alphanumeric()))
}

/// Whether a signal ends the process at once, and the one that came while it could not.
struct Signals {
    at_once: Arc<AtomicBool>,
    came: Arc<AtomicUsize>,
}

static SIGNALS: LazyLock<Signals> = LazyLock::new(|| {
    let signals = Signals { at_once: Arc::new(AtomicBool::new(true)), came: Arc::default() };
    for signal in ending() {
        // Where one cannot be taken it ends the process as ever.
        if flag::register_conditional_default(signal, Arc::clone(&signals.at_once)).is_ok() {
            let _ =
                flag::register_usize(signal, Arc::clone(&signals.came), usize::try_from(signal).unwrap_or_default());
        }
    }
    signals
});

/// The signals that end a process and can be waited with.
fn ending() -> impl Iterator<Item = c_int> {
    #[cfg(unix)]
    let more = [signal_hook::consts::SIGHUP];
    #[cfg(not(unix))]
    let more = [];
    TERM_SIGNALS.iter().copied().chain(more)
}

/// Does what no signal may cut in two; one that came meanwhile ends the process as soon as it is done.
fn undisturbed<T>(act: impl FnOnce() -> T) -> T {
    SIGNALS.at_once.store(false, Ordering::SeqCst);
    let done = act();
    SIGNALS.at_once.store(true, Ordering::SeqCst);
    if let Ok(signal @ 1..) = c_int::try_from(SIGNALS.came.load(Ordering::SeqCst)) {
        let _ = low_level::emulate_default_handler(signal);
    }
    done
}

/// A sheet is to be read by whoever may read the person's other files: the system takes its mask off this.
#[cfg(unix)]
fn as_any_new_file() -> Option<std::fs::Permissions> {
    use std::os::unix::fs::PermissionsExt;
    Some(std::fs::Permissions::from_mode(0o666))
}

#[cfg(not(unix))]
fn as_any_new_file() -> Option<std::fs::Permissions> {
    None
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_was_left_beside_is_taken_away_and_nothing_else() {
        let folder = tempfile::tempdir().unwrap();
        let long_ago = std::time::SystemTime::now() - 100 * YOUNG;
        let put = |name: &str, old: bool| {
            let file = std::fs::File::create(folder.path().join(name)).unwrap();
            if old {
                file.set_modified(long_ago).unwrap();
            }
            file
        };
        drop(put(".setover-aB3dEf", true));
        drop(put(".setover-young1", false));
        let written = put(".setover-locked", true);
        written.lock().unwrap();
        for name in [".setover-notes.md", ".setover-", ".setover-a-b-c-", "setover-aB3dEf"] {
            drop(put(name, true));
        }
        replace(&folder.path().join("sheets.pdf"), &[b"new"], false).unwrap();
        let mut left: Vec<String> = std::fs::read_dir(folder.path())
            .unwrap()
            .map(|entry| entry.unwrap().file_name().into_string().unwrap())
            .collect();
        left.sort();
        let wanted = [
            ".setover-",
            ".setover-a-b-c-",
            ".setover-locked",
            ".setover-notes.md",
            ".setover-young1",
            "setover-aB3dEf",
            "sheets.pdf",
        ];
        assert_eq!(left, wanted);
    }
}
