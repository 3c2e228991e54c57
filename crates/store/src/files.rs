//! Files that a text names, as its borings: kept with the revision, once for as long as they stay the same.

use std::collections::BTreeSet;

use rusqlite::{Connection, OptionalExtension, params};

use crate::error::StoreError;
use crate::head;

/// Largest file that is kept beside a text, bytes. Judgement: ten times the largest text.
const LARGEST: usize = 50_000_000;

/// A file by the name that the text gives it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NamedBytes {
    /// As in `ground.file`.
    pub name: String,
    /// Its content.
    pub bytes: Vec<u8>,
}

/// Files of a revision that is saved.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Files<'a> {
    /// Those of the revision it is based on.
    AsBefore,
    /// These and no others.
    These(&'a [NamedBytes]),
}

/// Refuses names and sizes that cannot be kept.
pub(crate) fn check(files: &[NamedBytes]) -> Result<(), StoreError> {
    let mut names = BTreeSet::new();
    for file in files {
        head::words("the name of a file", &file.name)?;
        if file.name.trim().is_empty() || file.name.chars().any(char::is_control) {
            return Err(StoreError::FileName(file.name.clone()));
        }
        if !names.insert(file.name.as_str()) {
            return Err(StoreError::FileTwice(file.name.clone()));
        }
        if file.bytes.len() > LARGEST {
            let found = file.bytes.len();
            return Err(StoreError::TooLong { what: "a file", found, allowed: LARGEST });
        }
    }
    Ok(())
}

/// Stores the files of a revision; `base` is the revision whose files may be the same.
pub(crate) fn keep(
    connection: &Connection,
    project: i64,
    number: u32,
    base: Option<u32>,
    files: Files<'_>,
) -> Result<(), StoreError> {
    let files = match files {
        Files::AsBefore => {
            connection.execute(
                "INSERT INTO revision_file (project, number, name, content) \
                 SELECT project, ?2, name, content FROM revision_file WHERE project = ?1 AND number = ?3",
                params![project, number, base],
            )?;
            return Ok(());
        }
        Files::These(files) => files,
    };
    for file in files {
        let content = content(connection, project, base, file)?;
        connection.execute(
            "INSERT INTO revision_file (project, number, name, content) VALUES (?1, ?2, ?3, ?4)",
            params![project, number, file.name, content],
        )?;
    }
    Ok(())
}

/// Number under which the bytes are kept: that of the base's file where it has the same ones.
pub(crate) fn content(
    connection: &Connection,
    project: i64,
    base: Option<u32>,
    file: &NamedBytes,
) -> Result<i64, StoreError> {
    let same = connection
        .query_row(
            "SELECT c.id FROM revision_file f JOIN content c ON c.id = f.content \
             WHERE f.project = ?1 AND f.number = ?2 AND f.name = ?3 AND c.bytes = ?4",
            params![project, base, file.name, file.bytes],
            |row| row.get(0),
        )
        .optional()?;
    if let Some(id) = same {
        return Ok(id);
    }
    connection.execute("INSERT INTO content (bytes) VALUES (?1)", params![file.bytes])?;
    Ok(connection.last_insert_rowid())
}

/// The files of a revision, by name.
pub(crate) fn of_revision(
    connection: &Connection,
    project: i64,
    number: u32,
) -> Result<Vec<NamedBytes>, StoreError> {
    collect(
        connection,
        "SELECT f.name, c.bytes FROM revision_file f JOIN content c ON c.id = f.content \
         WHERE f.project = ?1 AND f.number = ?2 ORDER BY f.name",
        params![project, number],
    )
}

/// The files of a text that was set aside, by name.
pub(crate) fn of_copy(connection: &Connection, copy: i64) -> Result<Vec<NamedBytes>, StoreError> {
    collect(
        connection,
        "SELECT f.name, c.bytes FROM set_aside_file f JOIN content c ON c.id = f.content \
         WHERE f.set_aside = ?1 ORDER BY f.name",
        params![copy],
    )
}

fn collect(
    connection: &Connection,
    sql: &str,
    values: impl rusqlite::Params,
) -> Result<Vec<NamedBytes>, StoreError> {
    let mut statement = connection.prepare_cached(sql)?;
    let rows = statement
        .query_map(values, |row| Ok(NamedBytes { name: row.get(0)?, bytes: row.get(1)? }))?;
    Ok(rows.collect::<Result<_, _>>()?)
}
