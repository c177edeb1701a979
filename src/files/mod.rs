//! Beside the layers: the only module that opens and renames. It knows nothing of what a file says.

mod whole;

mod kept;

pub(crate) use kept::{Kept, read_bytes_if_there};

use std::io::{self, Read, Write};
use std::path::{Path, PathBuf};
use whole::replace;

/// A job or a shop is prose of a few hundred lines; a file beyond this is not one.
pub(crate) const MOST_BYTES: u64 = 4 * 1024 * 1024;

/// Of a file that is only looked through so much is held, bytes.
const PIECE: u64 = 64 * 1024;

/// Why a file could not be read or written.
#[derive(Debug, thiserror::Error)]
pub enum FileFault {
    /// It could not be opened or read.
    #[error("{}: {}", path.display(), plainly(error))]
    Unreadable {
        /// The file.
        path: PathBuf,
        /// What the system says.
        error: io::Error,
    },
    /// It is a folder or a device.
    #[error("{}: {}", .0.display(), if .0.is_dir() { "this is a folder: name a file in it" } else { "this is not a plain file" })]
    NotAFile(PathBuf),
    /// It is larger than any job or shop.
    #[error("{}: this file is larger than {} MB, which no job or shop is", path.display(), MOST_BYTES / (1024 * 1024))]
    TooLarge {
        /// The file.
        path: PathBuf,
    },
    /// It is not text in UTF-8.
    #[error("{}:{line}: this is not text in UTF-8: save it as that in your editor", path.display())]
    NotText {
        /// The file.
        path: PathBuf,
        /// The line of the first bad byte.
        line: usize,
    },
    /// The output is one of the files that were read.
    #[error("{}: not written: it is {}, which this run reads; give another name", path.display(), input.display())]
    IsInput {
        /// The output.
        path: PathBuf,
        /// The input.
        input: PathBuf,
    },
    /// The output is there already and is a job, a shop or a card by its name.
    #[error("{}: not written: by its name this is a job, a shop or a card; give another name", .0.display())]
    IsYaml(PathBuf),
    /// What is there already was not written by this program.
    #[error("{}: not written: setover did not write what is there; give another name, or --force", .0.display())]
    NotOurs(PathBuf),
    /// Another hand keeps it to itself.
    #[error("{}: not written: {holder} holds {}; try again when it is done", path.display(), lock.display())]
    Held {
        /// The file.
        path: PathBuf,
        /// The file that is locked.
        lock: PathBuf,
        /// Who holds it.
        holder: String,
    },
    /// It could not be written.
    #[error("{}: not written: {}", path.display(), plainly(error))]
    Unwritten {
        /// The file.
        path: PathBuf,
        /// What the system says.
        error: io::Error,
    },
}

/// What the system says of a file, in plain words.
pub fn plainly(error: &io::Error) -> String {
    match error.kind() {
        io::ErrorKind::NotFound => "there is no such file or folder".into(),
        io::ErrorKind::PermissionDenied => "this user may not do that here".into(),
        io::ErrorKind::StorageFull => "the disk is full".into(),
        io::ErrorKind::IsADirectory => "this is a folder".into(),
        io::ErrorKind::NotADirectory => "a file stands where a folder is named".into(),
        io::ErrorKind::ReadOnlyFilesystem => "nothing can be written on this disk".into(),
        _ => {
            let says = error.to_string();
            says.split(" (os error").next().unwrap_or(&says).to_owned()
        }
    }
}

impl FileFault {
    /// The line of what is wrong in it, from one.
    pub fn line(&self) -> u32 {
        match self {
            Self::NotText { line, .. } => u32::try_from(*line).unwrap_or(u32::MAX),
            _ => 1,
        }
    }

    /// What is wrong, without the name of the file.
    pub fn says(&self) -> String {
        let whole = self.to_string();
        whole.split_once(": ").map_or(whole.as_str(), |(_, says)| says).to_owned()
    }
}

/// Reads a text file of a bounded size.
///
/// # Errors
/// [`FileFault`] as its variants say.
pub(crate) fn read_text(path: &Path) -> Result<String, FileFault> {
    let unreadable = |error| FileFault::Unreadable { path: path.into(), error };
    let about = std::fs::metadata(path).map_err(unreadable)?;
    if !about.is_file() {
        return Err(FileFault::NotAFile(path.into()));
    }
    let too_large = || FileFault::TooLarge { path: path.into() };
    if about.len() > MOST_BYTES {
        return Err(too_large());
    }
    text_of(path, std::fs::File::open(path).map_err(unreadable)?, about.len())
}

/// Reads a job from standard input, of the same bounded size.
///
/// # Errors
/// [`FileFault`] as its variants say.
pub(crate) fn read_standard_input() -> Result<String, FileFault> {
    text_of(Path::new("-"), io::stdin().lock(), 0)
}

/// The text of what is read, of about so many bytes.
fn text_of(path: &Path, from: impl Read, about: u64) -> Result<String, FileFault> {
    let unreadable = |error| FileFault::Unreadable { path: path.into(), error };
    let too_large = || FileFault::TooLarge { path: path.into() };
    // One more than there is, so that the end is seen without making room.
    let mut bytes = Vec::with_capacity(usize::try_from(about + 1).unwrap_or_default());
    from.take(MOST_BYTES + 1).read_to_end(&mut bytes).map_err(unreadable)?;
    if bytes.len() as u64 > MOST_BYTES {
        return Err(too_large());
    }
    String::from_utf8(bytes).map_err(|error| {
        let good = error.utf8_error().valid_up_to();
        let line = error.as_bytes().iter().take(good).filter(|byte| **byte == b'\n').count() + 1;
        FileFault::NotText { path: path.into(), line }
    })
}

/// Where an output goes.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Target {
    /// A plain file, there already or not: written beside its name and renamed.
    Plain(PathBuf),
    /// A device or a pipe: written to, never replaced.
    Stream(PathBuf),
}

impl Target {
    /// What a path means as an output: links are followed, so that the link stays and what it points to is replaced.
    ///
    /// # Errors
    /// [`FileFault::IsInput`] where it is one of the files that this run read, by whatever name;
    /// [`FileFault::NotAFile`] for a folder; [`FileFault::Unwritten`] for links in a circle.
    pub fn of(path: &Path, inputs: &[PathBuf]) -> Result<Self, FileFault> {
        if let Some(input) = inputs.iter().find(|input| is_same_file(input, path)) {
            return Err(FileFault::IsInput { path: path.into(), input: input.clone() });
        }
        match std::fs::metadata(path) {
            Ok(about) if about.is_dir() => Err(FileFault::NotAFile(path.into())),
            Ok(about) if !about.is_file() => Ok(Self::Stream(path.into())),
            Ok(_) if is_yaml(path) => Err(FileFault::IsYaml(path.into())),
            _ => followed(path).map(Self::Plain),
        }
    }

    /// The same, unless a plain file is there that this program did not write.
    ///
    /// # Errors
    /// [`FileFault::NotOurs`].
    pub fn ours(self, marks: &[&str]) -> Result<Self, FileFault> {
        let Self::Plain(path) = &self else { return Ok(self) };
        let Ok(there) = std::fs::File::open(path) else { return Ok(self) };
        match has_any(there, marks) {
            Ok(false) => Err(FileFault::NotOurs(path.clone())),
            Ok(true) | Err(_) => Ok(self),
        }
    }

    /// Writes all of it: a full disk or an interrupted run never leaves half a plain file or destroys the old one. A job or a shop
    /// that a person has answered questions for outlives a power cut as well; a page is made again from them.
    ///
    /// # Errors
    /// [`FileFault::Unwritten`].
    pub fn write(&self, bytes: &[u8]) -> Result<(), FileFault> {
        self.write_pieces(&[bytes])
    }

    /// The same of bytes in pieces that follow each other.
    ///
    /// # Errors
    /// [`FileFault::Unwritten`].
    pub fn write_pieces(&self, pieces: &[impl AsRef<[u8]>]) -> Result<(), FileFault> {
        let (path, written) = match self {
            Self::Plain(path) => (path, replace(path, pieces, is_yaml(path))),
            Self::Stream(path) => (path, pour(path, pieces)),
        };
        written.map_err(|error| FileFault::Unwritten { path: path.clone(), error })
    }
}

/// Whether there is any of some marks in what is read, or nothing at all; no more than a piece of it is held at once.
fn has_any(mut there: impl Read, marks: &[&str]) -> io::Result<bool> {
    // What a piece keeps of the one before, so that no mark is cut in two.
    let kept = marks.iter().map(|mark| mark.len()).max().unwrap_or_default();
    let (mut piece, mut is_first) = (Vec::with_capacity(PIECE as usize + kept), true);
    loop {
        let old = piece.len().saturating_sub(kept);
        piece.drain(..old);
        if (&mut there).take(PIECE).read_to_end(&mut piece)? == 0 {
            return Ok(is_first);
        }
        is_first = false;
        if marks.iter().any(|mark| memchr::memmem::find(&piece, mark.as_bytes()).is_some()) {
            return Ok(true);
        }
    }
}

/// Whether a file, by the name at the end of its links, is a job, a shop or a card.
fn is_yaml(path: &Path) -> bool {
    let end = followed(path).unwrap_or_else(|_| path.into());
    end.extension().is_some_and(|e| e.eq_ignore_ascii_case("yaml") || e.eq_ignore_ascii_case("yml"))
}

/// More links than this in a row are a circle.
const MOST_LINKS: usize = 40;

/// The file at the end of a row of links; it need not be there.
fn followed(path: &Path) -> Result<PathBuf, FileFault> {
    let mut at = path.to_path_buf();
    for _ in 0..MOST_LINKS {
        match std::fs::read_link(&at) {
            Ok(next) => at = at.parent().unwrap_or(Path::new("")).join(next),
            Err(_) => return Ok(at),
        }
    }
    Err(FileFault::Unwritten { path: path.into(), error: io::Error::other("these links lead round in a circle") })
}

/// The path of a file through whatever links, where it is there; else as it was given.
pub fn whole_path(path: &Path) -> PathBuf {
    std::fs::canonicalize(path).unwrap_or_else(|_| path.into())
}

/// Whether two paths lead to one file, through whatever links.
#[cfg(unix)]
fn is_same_file(one: &Path, other: &Path) -> bool {
    use std::os::unix::fs::MetadataExt;
    let id = |path| std::fs::metadata(path).map(|about| (about.dev(), about.ino())).ok();
    id(one).is_some_and(|one| Some(one) == id(other))
}

#[cfg(not(unix))]
fn is_same_file(one: &Path, other: &Path) -> bool {
    let whole = |path| std::fs::canonicalize(path).ok();
    whole(one).is_some_and(|one| Some(one) == whole(other))
}

fn pour(path: &Path, pieces: &[impl AsRef<[u8]>]) -> io::Result<()> {
    put(std::fs::OpenOptions::new().write(true).open(path)?, pieces)
}

/// Puts pieces one behind the other, and all of them out.
pub(crate) fn put(out: impl Write, pieces: &[impl AsRef<[u8]>]) -> io::Result<()> {
    let mut out = io::BufWriter::new(out);
    pieces.iter().try_for_each(|piece| out.write_all(piece.as_ref()))?;
    out.flush()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn write(path: &Path, bytes: &[u8]) -> Result<(), FileFault> {
        Target::of(path, &[])?.write(bytes)
    }

    #[test]
    fn a_write_that_fails_leaves_the_old_file() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("sheets.pdf");
        write(&path, b"old").unwrap();
        assert!(write(&folder.path().join("none/sheets.pdf"), b"new").is_err());
        assert!(matches!(write(folder.path(), b"new"), Err(FileFault::NotAFile(_))));
        assert_eq!(read_text(&path).unwrap(), "old");
        write(&path, b"new").unwrap();
        assert_eq!(read_text(&path).unwrap(), "new");
        assert_eq!(std::fs::read_dir(folder.path()).unwrap().count(), 1);
    }

    #[test]
    fn what_is_no_text_file_is_refused() {
        let folder = tempfile::tempdir().unwrap();
        assert!(matches!(read_text(folder.path()), Err(FileFault::NotAFile(_))));
        let path = folder.path().join("job.yaml");
        std::fs::write(&path, b"a: 1\nb: \xff\n").unwrap();
        assert!(matches!(read_text(&path), Err(FileFault::NotText { line: 2, .. })));
    }

    #[cfg(unix)]
    #[test]
    fn an_input_is_never_an_output_by_whatever_name() {
        let folder = tempfile::tempdir().unwrap();
        let here = |name: &str| folder.path().join(name);
        std::fs::write(here("job.yaml"), "job").unwrap();
        std::fs::hard_link(here("job.yaml"), here("hard.pdf")).unwrap();
        std::os::unix::fs::symlink("job.yaml", here("soft.pdf")).unwrap();
        std::os::unix::fs::symlink("soft.pdf", here("softer.pdf")).unwrap();
        for name in ["job.yaml", "./job.yaml", "hard.pdf", "soft.pdf", "softer.pdf"] {
            let fault = Target::of(&here(name), &[here("job.yaml")]).unwrap_err();
            assert!(matches!(fault, FileFault::IsInput { .. }), "{name}: {fault}");
        }
        assert!(Target::of(&here("sheets.pdf"), &[here("job.yaml")]).is_ok());
        std::fs::write(here("other.YML"), "job").unwrap();
        std::os::unix::fs::symlink("other.YML", here("other.pdf")).unwrap();
        for name in ["other.YML", "other.pdf"] {
            assert!(matches!(Target::of(&here(name), &[here("job.yaml")]), Err(FileFault::IsYaml(_))), "{name}");
        }
        assert!(Target::of(&here("new.yaml"), &[here("job.yaml")]).is_ok(), "a new file takes nothing away");
    }

    #[cfg(unix)]
    #[test]
    fn a_link_stays_and_so_does_a_mode() {
        use std::os::unix::fs::PermissionsExt;
        let folder = tempfile::tempdir().unwrap();
        let here = |name: &str| folder.path().join(name);
        std::fs::create_dir(here("far")).unwrap();
        std::os::unix::fs::symlink("far/sheets.pdf", here("link.pdf")).unwrap();
        write(&here("link.pdf"), b"first").unwrap();
        assert_eq!(read_text(&here("far/sheets.pdf")).unwrap(), "first");
        std::fs::set_permissions(here("far/sheets.pdf"), std::fs::Permissions::from_mode(0o600)).unwrap();
        write(&here("link.pdf"), b"second").unwrap();
        assert_eq!(read_text(&here("far/sheets.pdf")).unwrap(), "second");
        assert!(std::fs::symlink_metadata(here("link.pdf")).unwrap().is_symlink());
        assert_eq!(std::fs::metadata(here("far/sheets.pdf")).unwrap().permissions().mode() & 0o777, 0o600);
        std::os::unix::fs::symlink("round.pdf", here("round.pdf")).unwrap();
        assert!(write(&here("round.pdf"), b"x").is_err());
    }
}
