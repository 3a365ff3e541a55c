//! Where the database stands: the one that was named, or that of the user.

use std::fs::{self, File};
use std::io::{ErrorKind, Read};
use std::path::{Path, PathBuf};

use stowfast_core::{Error, Result};

/// How every database of SQLite begins.
const HEAD: &[u8] = b"SQLite format 3\0";

/// The file that was named, if it may be a database: else somebody's own file would be set aside as damaged.
///
/// # Errors
/// [`Error::InvalidInput`] for a folder, a folder that is not there, and a file of another kind.
pub(crate) fn named(path: &Path) -> Result<PathBuf> {
    let folder = path.parent().filter(|folder| !folder.as_os_str().is_empty());
    let expected = if path.is_dir() {
        "a file, not a folder"
    } else if folder.is_some_and(|folder| !folder.is_dir()) {
        "a file in a folder that is there"
    } else if is_foreign(path)? {
        "a database of Stowfast, or a name that is not there yet"
    } else {
        return Ok(path.to_owned());
    };
    let expected = format!("{expected}. Nothing was changed at {}", path.display());
    Err(Error::InvalidInput { field: "--db".to_owned(), expected })
}

/// Whether it is a file that never was a database of ours: it begins otherwise, not with zeros as a power cut
/// may leave it, and has no backup.
fn is_foreign(path: &Path) -> Result<bool> {
    let mut head = Vec::new();
    let most = u64::try_from(HEAD.len()).unwrap_or_default();
    match File::open(path).and_then(|open| open.take(most).read_to_end(&mut head)) {
        Ok(_) => {}
        Err(error) if error.kind() == ErrorKind::NotFound => return Ok(false),
        Err(source) => return Err(Error::Io { path: path.to_owned(), source }),
    }
    let blank = head.iter().all(|byte| *byte == 0);
    Ok(!blank && head != HEAD && !has_backup(path))
}

fn has_backup(path: &Path) -> bool {
    let name = path.file_name().unwrap_or_default().to_string_lossy();
    let copies = fs::read_dir(path.with_file_name("backup")).into_iter().flatten().flatten();
    let start = format!("{name}.");
    copies.into_iter().any(|copy| copy.file_name().to_string_lossy().starts_with(&start))
}

/// `stowfast.db` in the user's own data folder (XDG Base Directory Specification: a path that is
/// not absolute counts for nothing).
pub(crate) fn usual() -> Result<PathBuf> {
    let set = |name: &str| std::env::var_os(name).map(PathBuf::from).filter(|it| it.is_absolute());
    let data = set("XDG_DATA_HOME").or_else(|| Some(set("HOME")?.join(".local/share")));
    let Some(data) = data else {
        let expected = "a file: neither HOME nor XDG_DATA_HOME says where your data folder is";
        return Err(Error::InvalidInput {
            field: "--db".to_owned(),
            expected: expected.to_owned(),
        });
    };
    let folder = data.join("stowfast");
    fs::create_dir_all(&folder).map_err(|source| Error::Io { path: folder.clone(), source })?;
    Ok(folder.join("stowfast.db"))
}
