//! Projects: created from a text, archived and brought back, never deleted.

use rusqlite::{Connection, OptionalExtension, params};

use crate::error::StoreError;
use crate::files::{self, Files, NamedBytes};
use crate::head::{folded, head, words};
use crate::movement;
use crate::store::Store;

/// What a new project begins with.
#[derive(Debug, Clone, Copy)]
pub struct NewProject<'a> {
    /// Text of its crossing file, which gives the name.
    pub text: &'a str,
    /// Files that the text names.
    pub files: &'a [NamedBytes],
    /// Who creates it.
    pub who: &'a str,
    /// When, in milliseconds since 1970 began (UTC).
    pub at: i64,
}

/// Where a project stands.
pub(crate) struct Standing {
    pub(crate) current: u32,
    pub(crate) latest: u32,
}

impl Store {
    /// Creates a project; its text is revision 1. Names need not differ.
    ///
    /// # Errors
    /// When the text is not TOML or gives no name, when something is too long, and what file and disk say.
    pub fn create(&mut self, new: &NewProject<'_>) -> Result<i64, StoreError> {
        let head = head(new.text)?;
        words("the name of who acts", new.who)?;
        files::check(new.files)?;
        let transaction = self.write()?;
        transaction.execute(
            "INSERT INTO project (name, name_folded, technique, current, latest, created_at, created_by, changed_at, \
             changed_by) VALUES (?1, ?2, ?3, 1, 1, ?4, ?5, ?4, ?5)",
            params![head.name, folded(&head.name), head.technique.word(), new.at, new.who],
        )?;
        let id = transaction.last_insert_rowid();
        transaction.execute(
            "INSERT INTO revision (project, number, base, saved_at, saved_by, what_changed, name, technique, text) \
             VALUES (?1, 1, NULL, ?2, ?3, '', ?4, ?5, ?6)",
            params![id, new.at, new.who, head.name, head.technique.word(), new.text],
        )?;
        files::keep(&transaction, id, 1, None, Files::These(new.files))?;
        movement::note(&transaction, id, "save", 1, new.who, new.at)?;
        transaction.commit()?;
        Ok(id)
    }

    /// Takes a project out of the list. Everything of it is kept; nothing of it can be changed until it is restored.
    /// To archive an archived project changes nothing.
    ///
    /// # Errors
    /// When there is no such project, and what file and disk say.
    pub fn archive(&mut self, project: i64, who: &str, at: i64) -> Result<(), StoreError> {
        words("the name of who acts", who)?;
        self.set_archived(
            project,
            "UPDATE project SET archived_at = coalesce(archived_at, ?2), archived_by = coalesce(archived_by, ?3) \
             WHERE id = ?1",
            params![project, at, who],
        )
    }

    /// Brings a project back into the list.
    ///
    /// # Errors
    /// When there is no such project, and what file and disk say.
    pub fn restore_project(&mut self, project: i64) -> Result<(), StoreError> {
        self.set_archived(
            project,
            "UPDATE project SET archived_at = NULL, archived_by = NULL WHERE id = ?1",
            params![project],
        )
    }

    fn set_archived(
        &mut self,
        project: i64,
        sql: &str,
        values: impl rusqlite::Params,
    ) -> Result<(), StoreError> {
        let transaction = self.write()?;
        if transaction.execute(sql, values)? == 0 {
            return Err(StoreError::NoSuchProject(project));
        }
        transaction.commit()?;
        Ok(())
    }
}

/// Where a project stands, archived or not.
pub(crate) fn standing(connection: &Connection, project: i64) -> Result<Standing, StoreError> {
    Ok(find(connection, project)?.0)
}

/// Where a project stands that is about to be changed.
pub(crate) fn changeable(connection: &Connection, project: i64) -> Result<Standing, StoreError> {
    let (standing, archived) = find(connection, project)?;
    if archived { Err(StoreError::Archived(project)) } else { Ok(standing) }
}

fn find(connection: &Connection, project: i64) -> Result<(Standing, bool), StoreError> {
    connection
        .query_row(
            "SELECT current, latest, archived_at IS NOT NULL FROM project WHERE id = ?1",
            params![project],
            |row| Ok((Standing { current: row.get(0)?, latest: row.get(1)? }, row.get(2)?)),
        )
        .optional()?
        .ok_or(StoreError::NoSuchProject(project))
}
