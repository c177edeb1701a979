//! Beside the house: the only room that opens and renames. It knows nothing of what a file says.

use std::io::{self, Read, Write};
use std::path::{Path, PathBuf};

/// A job or a shop is prose of a few hundred lines; a file beyond this is not one.
pub const MOST_BYTES: u64 = 4 * 1024 * 1024;

/// Why a file could not be read or written.
#[derive(Debug, thiserror::Error)]
pub enum FileFault {
    /// It could not be opened or read.
    #[error("{}: {error}", path.display())]
    Unreadable {
        /// The file.
        path: PathBuf,
        /// What the system says.
        error: io::Error,
    },
    /// It is a folder or a device.
    #[error("{}: this is not a plain file", .0.display())]
    NotAFile(PathBuf),
    /// It is larger than any job or shop.
    #[error("{}: this file is larger than {} MB, which no job or shop is", path.display(), MOST_BYTES / (1024 * 1024))]
    TooLarge {
        /// The file.
        path: PathBuf,
    },
    /// It is not text in UTF-8.
    #[error("{}:{line}: this is not text in UTF-8", path.display())]
    NotText {
        /// The file.
        path: PathBuf,
        /// The line of the first bad byte.
        line: usize,
    },
    /// It could not be written.
    #[error("{}: not written: {error}", path.display())]
    Unwritten {
        /// The file.
        path: PathBuf,
        /// What the system says.
        error: io::Error,
    },
}

/// Reads a text file of a bounded size.
///
/// # Errors
/// [`FileFault`] as its variants say.
pub fn read_text(path: &Path) -> Result<String, FileFault> {
    let unreadable = |error| FileFault::Unreadable { path: path.into(), error };
    let about = std::fs::metadata(path).map_err(unreadable)?;
    if !about.is_file() {
        return Err(FileFault::NotAFile(path.into()));
    }
    let too_large = || FileFault::TooLarge { path: path.into() };
    if about.len() > MOST_BYTES {
        return Err(too_large());
    }
    let mut bytes = Vec::new();
    std::fs::File::open(path).map_err(unreadable)?.take(MOST_BYTES + 1).read_to_end(&mut bytes).map_err(unreadable)?;
    if bytes.len() as u64 > MOST_BYTES {
        return Err(too_large());
    }
    String::from_utf8(bytes).map_err(|error| {
        let good = error.utf8_error().valid_up_to();
        let line = error.as_bytes().iter().take(good).filter(|byte| **byte == b'\n').count() + 1;
        FileFault::NotText { path: path.into(), line }
    })
}

/// Writes a file beside its name and renames it: a full disk or an interrupted run never leaves half a file or destroys the
/// old one.
///
/// # Errors
/// [`FileFault::Unwritten`].
pub fn write_whole(path: &Path, bytes: &[u8]) -> Result<(), FileFault> {
    let unwritten = |error| FileFault::Unwritten { path: path.into(), error };
    let folder = path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    let mut beside = tempfile::Builder::new().prefix(".setover-").tempfile_in(folder).map_err(unwritten)?;
    beside.write_all(bytes).map_err(unwritten)?;
    beside.as_file().sync_all().map_err(unwritten)?;
    readable_by_all(beside.as_file()).map_err(unwritten)?;
    beside.persist(path).map_err(|error| unwritten(error.error))?;
    Ok(())
}

/// A sheet is to be read by whoever may read the folder, not only by who wrote it.
#[cfg(unix)]
fn readable_by_all(file: &std::fs::File) -> io::Result<()> {
    use std::os::unix::fs::PermissionsExt;
    file.set_permissions(std::fs::Permissions::from_mode(0o644))
}

#[cfg(not(unix))]
fn readable_by_all(_: &std::fs::File) -> io::Result<()> {
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_write_that_fails_leaves_the_old_file() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("sheets.pdf");
        write_whole(&path, b"old").unwrap();
        assert!(write_whole(&folder.path().join("none/sheets.pdf"), b"new").is_err());
        assert_eq!(read_text(&path).unwrap(), "old");
        write_whole(&path, b"new").unwrap();
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
}
