//! Why the store refuses: a stable code, one sentence, and what to do.

use rusqlite::ErrorCode;

/// Why something could not be stored or read.
#[derive(Debug, thiserror::Error)]
pub enum StoreError {
    /// The file was written by a newer version of the program.
    #[error("the file has version {found}, but this program knows versions up to {known}")]
    Newer {
        /// Version of the file.
        found: i64,
        /// Newest version known here.
        known: i64,
    },
    /// A database, but not one of this program.
    #[error("the file is a database of another program")]
    Foreign,
    /// Not a database at all.
    #[error("the file is no database, or its beginning is damaged")]
    NotADatabase,
    /// Damaged content.
    #[error("the file is damaged: {0}")]
    Damaged(String),
    /// Writing is not permitted.
    #[error("the file or its folder may only be read")]
    ReadOnly,
    /// No space is left.
    #[error("the disk is full, or the file has reached its largest size")]
    Full,
    /// The disk does not answer as it should.
    #[error("reading from or writing to the disk failed: {0}")]
    Disk(String),
    /// The file cannot be opened.
    #[error("the file cannot be opened: {0}")]
    CannotOpen(String),
    /// Another program holds the file.
    #[error("another program is using the file and did not let go within the time allowed")]
    Busy,
    /// Anything else that the database says.
    #[error("the database refused: {0}")]
    Database(String),
    /// No project has this number.
    #[error("there is no project {0}")]
    NoSuchProject(i64),
    /// The project has no such revision.
    #[error("project {project} has no revision {number}")]
    NoSuchRevision {
        /// The project.
        project: i64,
        /// What was asked for.
        number: u32,
    },
    /// No text was set aside under this number.
    #[error("no text was set aside under the number {0}")]
    NoSuchCopy(i64),
    /// An archived project is not changed.
    #[error("project {0} is archived")]
    Archived(i64),
    /// The first revision has none before it.
    #[error("project {0} stands at its first revision: there is nothing to undo")]
    NothingToUndo(i64),
    /// Nothing was undone since the last save.
    #[error("project {0} stands at its last revision: there is nothing to redo")]
    NothingToRedo(i64),
    /// A revision must be TOML.
    #[error("the text is not TOML: {0}")]
    NotToml(String),
    /// A revision must name its project.
    #[error("the text gives no name: a line name = \"…\" above the first [section] is needed")]
    NoName,
    /// Longer than is kept.
    #[error("{what} has {found} bytes; at most {allowed} are kept")]
    TooLong {
        /// What is too long.
        what: &'static str,
        /// Its length in bytes.
        found: usize,
        /// Most that is kept.
        allowed: usize,
    },
    /// The name of a file cannot be kept.
    #[error(
        "{0:?} cannot be the name of a file: a name has characters, none of them control characters"
    )]
    FileName(String),
    /// Two files of one name.
    #[error("two files are called {0:?}")]
    FileTwice(String),
    /// The target of a copy exists.
    #[error("there is a file already at {0}")]
    TargetExists(String),
    /// The copy does not hold what it should.
    #[error("the copy is not sound and was thrown away: {0}")]
    CopyDamaged(String),
}

impl StoreError {
    /// Stable name of the kind of error, never reused.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            Self::Newer { .. } => "newer_version",
            Self::Foreign => "foreign_database",
            Self::NotADatabase => "not_a_database",
            Self::Damaged(_) => "damaged",
            Self::ReadOnly => "read_only",
            Self::Full => "disk_full",
            Self::Disk(_) => "disk",
            Self::CannotOpen(_) => "cannot_open",
            Self::Busy => "busy",
            Self::Database(_) => "database",
            Self::NoSuchProject(_) => "no_such_project",
            Self::NoSuchRevision { .. } => "no_such_revision",
            Self::NoSuchCopy(_) => "no_such_copy",
            Self::Archived(_) => "archived",
            Self::NothingToUndo(_) => "nothing_to_undo",
            Self::NothingToRedo(_) => "nothing_to_redo",
            Self::NotToml(_) => "not_toml",
            Self::NoName => "no_name",
            Self::TooLong { .. } => "too_long",
            Self::FileName(_) => "file_name",
            Self::FileTwice(_) => "file_twice",
            Self::TargetExists(_) => "target_exists",
            Self::CopyDamaged(_) => "copy_damaged",
        }
    }

    /// What to do.
    #[must_use]
    pub const fn hint(&self) -> &'static str {
        match self {
            Self::Newer { .. } => {
                "open it with the newer version of the program; nothing in it was changed"
            }
            Self::Foreign => "name another file, or a new one; nothing in this one was changed",
            Self::NotADatabase => {
                "is this the right file? if it is, put it aside, restore the last backup, and keep it for a repair"
            }
            Self::Damaged(_) => {
                "stop working with it, keep a copy of it with its -wal file, and restore the last backup"
            }
            Self::ReadOnly => {
                "give yourself the right to write to the file and to its folder, then try again"
            }
            Self::Full => {
                "make space on the disk and try again; what was stored before is unharmed"
            }
            Self::Disk(_) => {
                "check the disk and its connection, then try again; what was stored before is unharmed"
            }
            Self::CannotOpen(_) => {
                "check that the folder exists and that you may read and write there"
            }
            Self::Busy => {
                "try again in a moment; if that does not help, close other programs that use the file"
            }
            Self::Database(_) => {
                "try again; if it repeats, check the file and restore the last backup"
            }
            Self::NoSuchProject(_) => "look it up in the list of projects, archived ones too",
            Self::NoSuchRevision { .. } => "look it up in the history of the project",
            Self::NoSuchCopy(_) => "look it up in the list of texts that were set aside",
            Self::Archived(_) => "bring the project back from the archive, then change it",
            Self::NothingToUndo(_) => "open an earlier revision from the history if you need one",
            Self::NothingToRedo(_) => "redo is there after an undo, until the next save",
            Self::NotToml(_) => "keep the text as a draft and correct it; then save it",
            Self::NoName => "write name = \"…\" below format; until then keep the text as a draft",
            Self::TooLong { .. } => "shorten it, or keep it outside and name it in a note",
            Self::FileName(_) => "give the file another name, here and in the text",
            Self::FileTwice(_) => "give each file a name of its own",
            Self::TargetExists(_) => "name another file, or say that this one may be replaced",
            Self::CopyDamaged(_) => "try another disk; check the store itself as well",
        }
    }
}

/// What the database says, in the words of somebody who has to do something about it.
impl From<rusqlite::Error> for StoreError {
    fn from(error: rusqlite::Error) -> Self {
        let rusqlite::Error::SqliteFailure(cause, text) = &error else {
            // A value of another type than its column declares can only come from damage.
            return match &error {
                rusqlite::Error::InvalidColumnType(..)
                | rusqlite::Error::FromSqlConversionFailure(..)
                | rusqlite::Error::IntegralValueOutOfRange(..)
                | rusqlite::Error::Utf8Error(..) => Self::Damaged(error.to_string()),
                _ => Self::Database(error.to_string()),
            };
        };
        let words = text.clone().unwrap_or_else(|| cause.to_string());
        match cause.code {
            ErrorCode::DiskFull => Self::Full,
            ErrorCode::SystemIoFailure => Self::Disk(words),
            ErrorCode::DatabaseCorrupt => Self::Damaged(words),
            ErrorCode::NotADatabase => Self::NotADatabase,
            ErrorCode::CannotOpen => Self::CannotOpen(words),
            ErrorCode::ReadOnly | ErrorCode::PermissionDenied => Self::ReadOnly,
            ErrorCode::DatabaseBusy | ErrorCode::DatabaseLocked => Self::Busy,
            _ => Self::Database(words),
        }
    }
}

/// What the file system says.
impl From<std::io::Error> for StoreError {
    fn from(error: std::io::Error) -> Self {
        use std::io::ErrorKind::{NotFound, PermissionDenied, ReadOnlyFilesystem, StorageFull};
        match error.kind() {
            StorageFull => Self::Full,
            PermissionDenied | ReadOnlyFilesystem => Self::ReadOnly,
            NotFound => Self::CannotOpen(error.to_string()),
            _ => Self::Disk(error.to_string()),
        }
    }
}

#[cfg(test)]
mod tests {
    use rusqlite::ffi;

    use super::*;

    fn code(sqlite: i32) -> &'static str {
        StoreError::from(rusqlite::Error::SqliteFailure(ffi::Error::new(sqlite), None)).code()
    }

    #[test]
    fn every_fault_of_file_and_disk_has_its_own_words() {
        assert_eq!(code(ffi::SQLITE_FULL), "disk_full");
        assert_eq!(code(ffi::SQLITE_IOERR_FSYNC), "disk");
        assert_eq!(code(ffi::SQLITE_CORRUPT_VTAB), "damaged");
        assert_eq!(code(ffi::SQLITE_NOTADB), "not_a_database");
        assert_eq!(code(ffi::SQLITE_CANTOPEN_ISDIR), "cannot_open");
        assert_eq!(code(ffi::SQLITE_READONLY_DIRECTORY), "read_only");
        assert_eq!(code(ffi::SQLITE_PERM), "read_only");
        assert_eq!(code(ffi::SQLITE_BUSY_SNAPSHOT), "busy");
        assert_eq!(code(ffi::SQLITE_LOCKED), "busy");
        assert_eq!(code(ffi::SQLITE_MISUSE), "database");
        let full = std::io::Error::from(std::io::ErrorKind::StorageFull);
        assert_eq!(StoreError::from(full).code(), "disk_full");
    }
}
