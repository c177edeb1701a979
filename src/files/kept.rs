//! A file that only grows: one hand at a time, and a death at any moment leaves the old bytes or the new ones, never a mixture.
//!
//! The lock is a file of its own that stays: a lock on the file itself would be lost with it, because renaming puts another in its
//! place, and the next hand would then hold what nobody reads any more.

use super::{FileFault, MOST_BYTES, followed};
use std::fs::{File, OpenOptions, Permissions, TryLockError};
use std::io::{self, Read, Write};
use std::path::{Path, PathBuf};
use std::time::Duration;

/// How often a hand that waits for the one before it looks again.
const LOOK: Duration = Duration::from_millis(5);

/// The bytes of a file; none where it is not there.
///
/// # Errors
/// [`FileFault`] as its variants say.
pub(crate) fn read_bytes_if_there(path: &Path) -> Result<Option<Vec<u8>>, FileFault> {
    let unreadable = |error| FileFault::Unreadable { path: path.into(), error };
    let file = match File::open(path) {
        Ok(file) => file,
        Err(error) if error.kind() == io::ErrorKind::NotFound => return Ok(None),
        Err(error) => return Err(unreadable(error)),
    };
    if !file.metadata().map_err(unreadable)?.is_file() {
        return Err(FileFault::NotAFile(path.into()));
    }
    let mut bytes = Vec::new();
    file.take(MOST_BYTES + 1).read_to_end(&mut bytes).map_err(unreadable)?;
    match bytes.len() as u64 > MOST_BYTES {
        true => Err(FileFault::TooLarge { path: path.into() }),
        false => Ok(Some(bytes)),
    }
}

/// A file that this process alone may put another in the place of, until this is dropped.
#[derive(Debug)]
pub(crate) struct Kept {
    path: PathBuf,
    /// Holds the lock; the system lets go of it with the process, however that ends.
    _lock: File,
}

impl Kept {
    /// Waits for the lock of a file, so long and no longer. Links are followed: the lock lies beside what is replaced.
    ///
    /// # Errors
    /// [`FileFault::Held`] where another hand keeps it longer, [`FileFault::Unwritten`] where no lock can be made.
    pub(crate) fn within(path: &Path, patience: Duration) -> Result<Self, FileFault> {
        let path = followed(path)?;
        let lock = beside(&path, "", ".lock");
        let unwritten = |error| FileFault::Unwritten { path: lock.clone(), error };
        let mut file =
            OpenOptions::new().read(true).write(true).create(true).truncate(false).open(&lock).map_err(unwritten)?;
        let mut left = patience;
        loop {
            match file.try_lock() {
                Ok(()) => break,
                Err(TryLockError::WouldBlock) if left.is_zero() => {
                    let mut holder = String::new();
                    let named = file.read_to_string(&mut holder).is_ok() && !holder.trim().is_empty();
                    let holder = if named { holder.trim().to_owned() } else { "another process".into() };
                    return Err(FileFault::Held { path, lock, holder });
                }
                Err(TryLockError::WouldBlock) => {
                    std::thread::sleep(LOOK);
                    left = left.saturating_sub(LOOK);
                }
                Err(TryLockError::Error(error)) => return Err(unwritten(error)),
            }
        }
        let holder = format!("process {}\n", std::process::id());
        file.set_len(0).and_then(|()| file.write_all(holder.as_bytes())).map_err(unwritten)?;
        Ok(Self { path, _lock: file })
    }

    /// The file itself, at the end of its links.
    pub(crate) fn path(&self) -> &Path {
        &self.path
    }

    /// Puts these bytes in the place of the old ones, and comes back when the disk has them.
    ///
    /// # Errors
    /// [`FileFault::Unwritten`]: the old bytes stand.
    pub(crate) fn replace(&self, bytes: &[u8]) -> Result<(), FileFault> {
        replace_by(&Disk, &self.path, bytes).map_err(|error| FileFault::Unwritten { path: self.path.clone(), error })
    }
}

/// A name in the same folder: renaming is one stroke only within one.
fn beside(path: &Path, before: &str, after: &str) -> PathBuf {
    let name = path.file_name().unwrap_or_default().to_string_lossy().into_owned();
    path.with_file_name(format!("{before}{name}{after}"))
}

/// The strokes by which a file is put in the place of another: what a machine may die between.
trait Strokes {
    /// Makes the new file, empty; what a death left under its name goes.
    fn make(&self, path: &Path) -> io::Result<File>;
    /// Writes all bytes.
    fn write(&self, file: &mut File, bytes: &[u8]) -> io::Result<()>;
    /// Gives it the mode of the old one.
    fn mode(&self, file: &File, mode: Permissions) -> io::Result<()>;
    /// Waits until the disk has it.
    fn sync(&self, file: &File) -> io::Result<()>;
    /// Puts it in the place of the old one.
    fn rename(&self, from: &Path, to: &Path) -> io::Result<()>;
    /// Waits until the disk has the name.
    fn sync_folder(&self, folder: &Path) -> io::Result<()>;
    /// Takes away what will not be needed.
    fn remove(&self, path: &Path) -> io::Result<()>;
}

struct Disk;

impl Strokes for Disk {
    fn make(&self, path: &Path) -> io::Result<File> {
        File::create(path)
    }

    fn write(&self, file: &mut File, bytes: &[u8]) -> io::Result<()> {
        file.write_all(bytes)
    }

    fn mode(&self, file: &File, mode: Permissions) -> io::Result<()> {
        file.set_permissions(mode)
    }

    fn sync(&self, file: &File) -> io::Result<()> {
        file.sync_all()
    }

    fn rename(&self, from: &Path, to: &Path) -> io::Result<()> {
        std::fs::rename(from, to)
    }

    #[cfg(unix)]
    fn sync_folder(&self, folder: &Path) -> io::Result<()> {
        File::open(folder)?.sync_all()
    }

    #[cfg(not(unix))]
    fn sync_folder(&self, _: &Path) -> io::Result<()> {
        Ok(())
    }

    fn remove(&self, path: &Path) -> io::Result<()> {
        std::fs::remove_file(path)
    }
}

fn replace_by(strokes: &impl Strokes, path: &Path, bytes: &[u8]) -> io::Result<()> {
    let new = beside(path, ".", ".new");
    let filled = fill(strokes, &new, path, bytes);
    if let Err(error) = filled.and_then(|()| strokes.rename(&new, path)) {
        // What could not be finished only takes room on a disk that may be full.
        let _ = strokes.remove(&new);
        return Err(error);
    }
    let folder = path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    strokes.sync_folder(folder)
}

fn fill(strokes: &impl Strokes, new: &Path, old: &Path, bytes: &[u8]) -> io::Result<()> {
    let mut file = strokes.make(new)?;
    strokes.write(&mut file, bytes)?;
    if let Ok(old) = std::fs::metadata(old) {
        strokes.mode(&file, old.permissions())?;
    }
    strokes.sync(&file)
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::cell::Cell;

    fn at_once(path: &Path) -> Result<Kept, FileFault> {
        Kept::within(path, Duration::ZERO)
    }

    /// Dies at one stroke: before it, or with half of it done; after that nothing is done any more.
    struct Dying {
        at: usize,
        half: bool,
        done: Cell<usize>,
    }

    impl Dying {
        fn stroke(
            &self,
            whole: impl FnOnce() -> io::Result<()>,
            half: impl FnOnce() -> io::Result<()>,
        ) -> io::Result<()> {
            let now = self.done.replace(self.done.get() + 1);
            match now.cmp(&self.at) {
                std::cmp::Ordering::Less => whole(),
                std::cmp::Ordering::Equal if self.half => half().and(Err(io::Error::other("dead"))),
                _ => Err(io::Error::other("dead")),
            }
        }
    }

    impl Strokes for Dying {
        fn make(&self, path: &Path) -> io::Result<File> {
            self.stroke(|| Ok(()), || Disk.make(path).map(drop))?;
            Disk.make(path)
        }
        fn write(&self, file: &mut File, bytes: &[u8]) -> io::Result<()> {
            let (one, other) = (file.try_clone()?, file.try_clone()?);
            let put = |mut file: File, bytes: &[u8]| file.write_all(bytes);
            self.stroke(|| put(one, bytes), || put(other, &bytes[..bytes.len() / 2]))
        }
        fn mode(&self, file: &File, mode: Permissions) -> io::Result<()> {
            self.stroke(|| Disk.mode(file, mode), || Ok(()))
        }
        fn sync(&self, file: &File) -> io::Result<()> {
            self.stroke(|| Disk.sync(file), || Ok(()))
        }
        fn rename(&self, from: &Path, to: &Path) -> io::Result<()> {
            self.stroke(|| Disk.rename(from, to), || Disk.rename(from, to))
        }
        fn sync_folder(&self, folder: &Path) -> io::Result<()> {
            self.stroke(|| Disk.sync_folder(folder), || Ok(()))
        }
        fn remove(&self, path: &Path) -> io::Result<()> {
            self.stroke(|| Disk.remove(path), || Ok(()))
        }
    }

    #[test]
    fn a_death_at_any_stroke_leaves_the_old_or_the_new() {
        let (old, new) = (b"old line\n".as_slice(), b"old line\nnew line\n".as_slice());
        let (mut seen_old, mut seen_new) = (0, 0);
        for (at, half) in (0..8).flat_map(|at| [(at, false), (at, true)]) {
            let folder = tempfile::tempdir().unwrap();
            let path = folder.path().join("job.log.yaml");
            std::fs::write(&path, old).unwrap();
            let dying = Dying { at, half, done: Cell::new(0) };
            let said = replace_by(&dying, &path, new);
            let there = std::fs::read(&path).unwrap();
            assert!(there == old || there == new, "stroke {at}, half {half}: {there:?}");
            assert!(said.is_err() || there == new, "stroke {at}: told as done and not done");
            seen_old += usize::from(there == old);
            seen_new += usize::from(there == new);
            // Whoever comes next goes on from what is there.
            at_once(&path).unwrap().replace(new).unwrap();
            assert_eq!(std::fs::read(&path).unwrap(), new);
        }
        assert!(seen_old >= 8 && seen_new >= 4, "{seen_old} {seen_new}");
    }

    /// Kills its own process at one stroke, before it or with half of it done: nothing of it runs any more, no destructor and no
    /// handler, as when the machine stops.
    #[cfg(unix)]
    struct Killing(Dying);

    #[cfg(unix)]
    impl Killing {
        fn dead<T>(result: io::Result<T>) -> io::Result<T> {
            if result.is_err() {
                let _ = signal_hook::low_level::raise(signal_hook::consts::SIGKILL);
            }
            result
        }
    }

    #[cfg(unix)]
    impl Strokes for Killing {
        fn make(&self, path: &Path) -> io::Result<File> {
            Self::dead(self.0.make(path))
        }
        fn write(&self, file: &mut File, bytes: &[u8]) -> io::Result<()> {
            Self::dead(self.0.write(file, bytes))
        }
        fn mode(&self, file: &File, mode: Permissions) -> io::Result<()> {
            Self::dead(self.0.mode(file, mode))
        }
        fn sync(&self, file: &File) -> io::Result<()> {
            Self::dead(self.0.sync(file))
        }
        fn rename(&self, from: &Path, to: &Path) -> io::Result<()> {
            Self::dead(self.0.rename(from, to))
        }
        fn sync_folder(&self, folder: &Path) -> io::Result<()> {
            Self::dead(self.0.sync_folder(folder))
        }
        fn remove(&self, path: &Path) -> io::Result<()> {
            Self::dead(self.0.remove(path))
        }
    }

    /// Where the process that dies finds its file, and at which stroke it dies.
    const DIES: &str = "SETOVER_DIES_AT";

    /// The process of the test below; run alone it has nothing to do.
    #[cfg(unix)]
    #[test]
    fn dies_where_it_is_told() {
        let Ok(told) = std::env::var(DIES) else { return };
        let mut told = told.splitn(3, ' ');
        let at = told.next().unwrap().parse().unwrap();
        let half = told.next() == Some("half");
        let kept = at_once(Path::new(told.next().unwrap())).unwrap();
        let killing = Killing(Dying { at, half, done: Cell::new(0) });
        replace_by(&killing, kept.path(), b"old line\nnew line\n").unwrap();
    }

    /// A process of its own, killed at each stroke of its writing, holding the lock: the file is the old one or the new one, the lock
    /// is free, and whoever comes next goes on.
    #[cfg(unix)]
    #[test]
    fn a_process_killed_at_any_stroke_leaves_the_old_or_the_new() {
        use std::os::unix::process::ExitStatusExt;
        let (old, new) = (b"old line\n".as_slice(), b"old line\nnew line\n".as_slice());
        let (mut killed, mut seen_old, mut seen_new) = (0, 0, 0);
        for (at, half) in (0..8).flat_map(|at| [(at, "before"), (at, "half")]) {
            let folder = tempfile::tempdir().unwrap();
            let path = folder.path().join("job.log.yaml");
            std::fs::write(&path, old).unwrap();
            let me = std::env::current_exe().unwrap();
            let mut dying = std::process::Command::new(me);
            dying.args(["--exact", "files::kept::tests::dies_where_it_is_told", "--nocapture"]);
            dying.env(DIES, format!("{at} {half} {}", path.display()));
            let status = dying.output().unwrap().status;
            let there = std::fs::read(&path).unwrap();
            assert!(there == old || there == new, "stroke {at}, {half}: {there:?}");
            match status.signal() {
                Some(signal) => assert_eq!(signal, signal_hook::consts::SIGKILL),
                None => assert!(status.success() && there == new, "stroke {at}, {half}: {status}"),
            }
            killed += usize::from(status.signal().is_some());
            seen_old += usize::from(there == old);
            seen_new += usize::from(there == new);
            at_once(&path).unwrap().replace(new).unwrap();
            assert_eq!(std::fs::read(&path).unwrap(), new);
        }
        assert!(killed == 12 && seen_old >= 8 && seen_new >= 4, "{killed} killed: {seen_old} old, {seen_new} new");
    }

    /// What appends to the file itself instead leaves half a line at some stroke: the test above can tell.
    #[test]
    fn appending_in_place_would_leave_half_a_line() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("job.log.yaml");
        std::fs::write(&path, "old line\n").unwrap();
        let mut file = OpenOptions::new().append(true).open(&path).unwrap();
        let dying = Dying { at: 0, half: true, done: Cell::new(0) };
        assert!(dying.write(&mut file, b"new line\n").is_err());
        assert_eq!(std::fs::read(&path).unwrap(), b"old line\nnew ");
    }

    #[test]
    fn a_second_hand_waits_and_is_told_who_holds_it() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("job.log.yaml");
        let first = at_once(&path).unwrap();
        first.replace(b"first\n").unwrap();
        let begun = std::time::Instant::now();
        let second = Kept::within(&path, Duration::from_millis(20)).unwrap_err();
        assert!(begun.elapsed() >= Duration::from_millis(20), "{:?}", begun.elapsed());
        assert!(matches!(second, FileFault::Held { .. }), "{second}");
        assert!(second.to_string().contains(&format!("process {}", std::process::id())), "{second}");
        // Who lets go in time is waited for.
        let lets_go = std::thread::spawn(move || {
            std::thread::sleep(Duration::from_millis(20));
            drop(first);
        });
        drop(Kept::within(&path, Duration::from_secs(60)).unwrap());
        lets_go.join().unwrap();
        at_once(&path).unwrap().replace(b"first\nsecond\n").unwrap();
        assert_eq!(read_bytes_if_there(&path).unwrap().unwrap(), b"first\nsecond\n");
        let mut names: Vec<_> =
            std::fs::read_dir(folder.path()).unwrap().map(|e| e.unwrap().file_name().into_string().unwrap()).collect();
        names.sort();
        assert_eq!(names, ["job.log.yaml", "job.log.yaml.lock"]);
    }

    /// A lock on the file itself is lost by the rename: two hands hold "it" at once, each an inode of its own.
    #[cfg(unix)]
    #[test]
    fn a_lock_on_the_file_itself_would_hold_nobody() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("job.log.yaml");
        std::fs::write(&path, "old\n").unwrap();
        let one = File::open(&path).unwrap();
        one.try_lock().unwrap();
        replace_by(&Disk, &path, b"new\n").unwrap();
        let other = File::open(&path).unwrap();
        assert!(other.try_lock().is_ok(), "the renamed file is not locked");
        let _first = at_once(&path).unwrap();
        assert!(at_once(&path).is_err(), "a lock beside it is");
    }

    #[cfg(unix)]
    #[test]
    fn a_link_stays_and_so_does_a_mode() {
        use std::os::unix::fs::PermissionsExt;
        let folder = tempfile::tempdir().unwrap();
        let here = |name: &str| folder.path().join(name);
        std::fs::create_dir(here("far")).unwrap();
        std::fs::write(here("far/job.log.yaml"), "old\n").unwrap();
        std::fs::set_permissions(here("far/job.log.yaml"), Permissions::from_mode(0o640)).unwrap();
        std::os::unix::fs::symlink("far/job.log.yaml", here("job.log.yaml")).unwrap();
        at_once(&here("job.log.yaml")).unwrap().replace(b"new\n").unwrap();
        assert!(std::fs::symlink_metadata(here("job.log.yaml")).unwrap().is_symlink());
        assert_eq!(std::fs::read(here("far/job.log.yaml")).unwrap(), b"new\n");
        assert_eq!(std::fs::metadata(here("far/job.log.yaml")).unwrap().permissions().mode() & 0o777, 0o640);
        assert!(here("far/job.log.yaml.lock").is_file());
    }
}
