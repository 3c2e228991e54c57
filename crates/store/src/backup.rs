//! Copies of the whole store while it is in use, and the way back from one.

use std::ffi::OsString;
use std::fs;
use std::path::{Path, PathBuf};
use std::time::Duration;

use rusqlite::backup::{Backup, StepResult};
use rusqlite::{Connection, OpenFlags};

use crate::error::StoreError;
use crate::store::{Store, check, refuse_strangers};

/// Whether a file that is there may be replaced.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Overwrite {
    /// No: that is an error.
    Refuse,
    /// Yes.
    Replace,
}

/// What a restore did.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Restored {
    /// Where the file that was replaced lies now.
    pub put_aside: Option<PathBuf>,
}

impl Store {
    /// Copies the store to a file while others may go on working; the copy is checked before it gets its name.
    ///
    /// # Errors
    /// [`StoreError::TargetExists`] where a file is there that may not be replaced, [`StoreError::CopyDamaged`], and what
    /// file and disk say. Then no file of this name was written.
    pub fn backup(&self, to: impl AsRef<Path>, overwrite: Overwrite) -> Result<(), StoreError> {
        let to = to.as_ref();
        refuse_existing(to, overwrite)?;
        if self.connection.path().is_some_and(|own| same_file(Path::new(own), to)) {
            return Err(StoreError::TargetExists(to.display().to_string()));
        }
        if to.exists() {
            refuse_used(to)?;
        }
        put_aside(to, &["-wal", "-shm"])?;
        copy_checked(&self.connection, to)
    }

    /// Puts a copy made by [`Store::backup`] in the place of a store. A file that is replaced is put aside beside it, not
    /// deleted; nobody may have it open.
    ///
    /// # Errors
    /// What is wrong with the copy, as a newer version or damage; [`StoreError::TargetExists`]; [`StoreError::Busy`] while
    /// the store to be replaced is in use; and what file and disk say. Then the target is as it was.
    pub fn restore(
        from: impl AsRef<Path>,
        to: impl AsRef<Path>,
        overwrite: Overwrite,
    ) -> Result<Restored, StoreError> {
        let (from, to) = (from.as_ref(), to.as_ref());
        refuse_existing(to, overwrite)?;
        if same_file(from, to) {
            return Err(StoreError::TargetExists(to.display().to_string()));
        }
        let source = Connection::open_with_flags(
            from,
            OpenFlags::SQLITE_OPEN_READ_ONLY | OpenFlags::SQLITE_OPEN_NO_MUTEX,
        )?;
        source.pragma_update(None, "trusted_schema", false)?;
        if refuse_strangers(&source)? == 0 {
            return Err(StoreError::Foreign);
        }
        check(&source)?;
        if !to.exists() {
            put_aside(to, &["-wal", "-shm"])?;
            copy_checked(&source, to)?;
            return Ok(Restored { put_aside: None });
        }
        refuse_used(to)?;
        let fresh = beside(to, ".restoring");
        copy_checked(&source, &fresh)?;
        let aside = put_aside(to, &["", "-wal", "-shm"])?;
        fs::rename(&fresh, to)?;
        Ok(Restored { put_aside: Some(aside) })
    }
}

/// Renames what lies at a path, or the log that a store left beside it: a log would be taken for that of the new file.
fn put_aside(to: &Path, endings: &[&str]) -> Result<PathBuf, StoreError> {
    let aside = free_name(to);
    for ending in endings {
        let part = beside(to, ending);
        if part.exists() {
            fs::rename(&part, beside(&aside, ending))?;
        }
    }
    Ok(aside)
}

fn refuse_existing(to: &Path, overwrite: Overwrite) -> Result<(), StoreError> {
    if overwrite == Overwrite::Refuse && fs::symlink_metadata(to).is_ok() {
        return Err(StoreError::TargetExists(to.display().to_string()));
    }
    Ok(())
}

fn same_file(a: &Path, b: &Path) -> bool {
    matches!((a.canonicalize(), b.canonicalize()), (Ok(a), Ok(b)) if a == b)
}

/// Copies under a passing name, checks the copy, and gives it its name; on failure nothing stays.
fn copy_checked(source: &Connection, to: &Path) -> Result<(), StoreError> {
    let part = beside(to, ".part");
    let clear = || {
        for ending in ["", "-journal", "-wal", "-shm"] {
            // What is not there need not go.
            let _ = fs::remove_file(beside(&part, ending));
        }
    };
    clear();
    let done = copy(source, &part).and_then(|()| {
        fs::File::open(&part)?.sync_all()?;
        Ok(fs::rename(&part, to)?)
    });
    if done.is_err() {
        clear();
    }
    done
}

fn copy(source: &Connection, part: &Path) -> Result<(), StoreError> {
    let mut copy = Connection::open(part)?;
    let backup = Backup::new(source, &mut copy)?;
    // All pages in one step: readers and writers of a store with a write-ahead log go on meanwhile.
    match backup.step(-1)? {
        StepResult::Done => {}
        StepResult::Busy | StepResult::Locked => return Err(StoreError::Busy),
        _ => return Err(StoreError::CopyDamaged("it is not complete".to_owned())),
    }
    drop(backup);
    // One file without a log beside it, so that it can be carried about.
    copy.pragma_update(None, "journal_mode", "DELETE")?;
    check(&copy).map_err(|fault| StoreError::CopyDamaged(fault.to_string()))?;
    copy.close().map_err(|(_, error)| StoreError::from(error))
}

/// Refuses a store that another connection has open. A damaged one can be replaced.
fn refuse_used(path: &Path) -> Result<(), StoreError> {
    let flags = OpenFlags::SQLITE_OPEN_READ_WRITE | OpenFlags::SQLITE_OPEN_NO_MUTEX;
    let Ok(connection) = Connection::open_with_flags(path, flags) else { return Ok(()) };
    connection.busy_timeout(Duration::ZERO)?;
    // The log can be given up only where nobody else uses it; then its content is in the file, too.
    match connection.pragma_update(None, "journal_mode", "DELETE").map_err(StoreError::from) {
        Err(StoreError::Busy) => Err(StoreError::Busy),
        _ => Ok(()),
    }
}

/// The path with something added to the name.
fn beside(path: &Path, ending: &str) -> PathBuf {
    let mut name = OsString::from(path);
    name.push(ending);
    PathBuf::from(name)
}

/// A name beside the path that no file has.
fn free_name(path: &Path) -> PathBuf {
    let mut number = 1_u32;
    loop {
        let name = beside(path, &format!(".replaced-{number}"));
        let free = ["", "-wal"].iter().all(|e| fs::symlink_metadata(beside(&name, e)).is_err());
        if free || number == u32::MAX {
            return name;
        }
        number += 1;
    }
}
