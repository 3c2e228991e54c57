//! Undo and redo: the pointer to the current revision moves, each move is recorded, nothing is deleted.
//!
//! Undo goes to the revision on which the current one was based. Redo goes back along the same way, up to the last save;
//! a save after an undo begins a new way, and the revisions of the old one stay in the history.

use rusqlite::{Connection, OptionalExtension, params};

use crate::error::StoreError;
use crate::head::{folded, words};
use crate::project_row::changeable;
use crate::revision::{Revision, read_revision};
use crate::store::Store;

/// What became of an undo or a redo.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Moved {
    /// The revision that is current now.
    To(Revision),
    /// Another one was current than the caller thought; nothing was moved.
    Conflict(Revision),
}

/// One recorded move of the pointer.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Movement {
    /// `save`, `undo` or `redo`.
    pub kind: String,
    /// The revision that became current.
    pub to: u32,
    /// Who moved it.
    pub who: String,
    /// When, in milliseconds since 1970 began (UTC).
    pub at: i64,
}

impl Store {
    /// Goes back to the revision on which the current one was based; `from` is the one that the caller sees as current.
    ///
    /// # Errors
    /// [`StoreError::NothingToUndo`] at the first revision; no such project, an archived one, and what file and disk say.
    pub fn undo(
        &mut self,
        project: i64,
        from: u32,
        who: &str,
        at: i64,
    ) -> Result<Moved, StoreError> {
        self.step(project, from, who, at, "undo")
    }

    /// Takes back the last undo since the last save; `from` as in [`Store::undo`].
    ///
    /// # Errors
    /// [`StoreError::NothingToRedo`] at the last saved revision; no such project, an archived one, and what file and disk
    /// say.
    pub fn redo(
        &mut self,
        project: i64,
        from: u32,
        who: &str,
        at: i64,
    ) -> Result<Moved, StoreError> {
        self.step(project, from, who, at, "redo")
    }

    /// Every move of the pointer, the first one first.
    ///
    /// # Errors
    /// When there is no such project, and what file and disk say.
    pub fn movements(&self, project: i64) -> Result<Vec<Movement>, StoreError> {
        let transaction = self.read()?;
        crate::project_row::standing(&transaction, project)?;
        let mut statement = transaction.prepare_cached(
            "SELECT kind, to_number, moved_by, moved_at FROM movement WHERE project = ?1 ORDER BY id",
        )?;
        let rows = statement.query_map(params![project], |row| {
            Ok(Movement { kind: row.get(0)?, to: row.get(1)?, who: row.get(2)?, at: row.get(3)? })
        })?;
        Ok(rows.collect::<Result<_, _>>()?)
    }

    fn step(
        &mut self,
        project: i64,
        from: u32,
        who: &str,
        at: i64,
        kind: &str,
    ) -> Result<Moved, StoreError> {
        words("the name of who acts", who)?;
        let transaction = self.write()?;
        let standing = changeable(&transaction, project)?;
        if standing.current != from {
            return Ok(Moved::Conflict(read_revision(&transaction, project, standing.current)?));
        }
        let to = if kind == "undo" {
            base_of(&transaction, project, from)?.ok_or(StoreError::NothingToUndo(project))?
        } else {
            above(&transaction, project, standing.latest, from)?
                .ok_or(StoreError::NothingToRedo(project))?
        };
        note(&transaction, project, kind, to, who, at)?;
        let revision = read_revision(&transaction, project, to)?;
        transaction.execute(
            "UPDATE project SET current = ?2, name = ?3, name_folded = ?4, technique = ?5, changed_at = ?6, \
             changed_by = ?7 WHERE id = ?1",
            params![
                project,
                to,
                revision.name,
                folded(&revision.name),
                revision.technique.word(),
                at,
                who
            ],
        )?;
        transaction.commit()?;
        Ok(Moved::To(revision))
    }
}

/// The revision on which another was based.
fn base_of(connection: &Connection, project: i64, number: u32) -> Result<Option<u32>, StoreError> {
    let base: Option<Option<u32>> = connection
        .prepare_cached("SELECT base FROM revision WHERE project = ?1 AND number = ?2")?
        .query_row(params![project, number], |row| row.get(0))
        .optional()?;
    Ok(base.flatten())
}

/// The revision above `number` on the way down from the last save. A base is always smaller than its revision, so that
/// the way ends.
fn above(
    connection: &Connection,
    project: i64,
    latest: u32,
    number: u32,
) -> Result<Option<u32>, StoreError> {
    let mut at = latest;
    while at > number {
        let Some(base) = base_of(connection, project, at)? else { return Ok(None) };
        if base == number {
            return Ok(Some(at));
        }
        at = base;
    }
    Ok(None)
}

/// Records a move.
pub(crate) fn note(
    connection: &Connection,
    project: i64,
    kind: &str,
    to: u32,
    who: &str,
    at: i64,
) -> Result<(), StoreError> {
    connection.execute(
        "INSERT INTO movement (project, kind, to_number, moved_at, moved_by) VALUES (?1, ?2, ?3, ?4, ?5)",
        params![project, kind, to, at, who],
    )?;
    Ok(())
}
