//! Text that is no revision yet: drafts of what is being typed, and texts that came too late and were set aside.

use rusqlite::{Connection, OptionalExtension, params};

use crate::error::StoreError;
use crate::files::{self, Files, NamedBytes};
use crate::head::{text_size, words};
use crate::project_row::standing;
use crate::revision::Save;
use crate::store::Store;

/// What a client typed last; it need not be valid.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Draft {
    /// The text as typed.
    pub text: String,
    /// The revision on which it was begun.
    pub base: u32,
    /// Who typed it.
    pub who: String,
    /// When, in milliseconds since 1970 began (UTC).
    pub at: i64,
}

/// A text that was set aside because another one was faster.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Copy {
    /// Number under which it is kept.
    pub id: i64,
    /// The text as it came.
    pub text: String,
    /// Files that came with it; none where they were those of its base.
    pub files: Vec<NamedBytes>,
    /// The revision on which it was based.
    pub base: u32,
    /// What was changed, in the words of who saved it.
    pub what_changed: String,
    /// Who saved it.
    pub who: String,
    /// When, in milliseconds since 1970 began (UTC).
    pub at: i64,
}

impl Store {
    /// Keeps what a client has typed; it replaces the client's earlier draft of this project.
    ///
    /// # Errors
    /// When there is no such project, when something is too long, and what file and disk say.
    pub fn save_draft(
        &mut self,
        project: i64,
        client: &str,
        draft: &Draft,
    ) -> Result<(), StoreError> {
        words("the name of the client", client)?;
        words("the name of who acts", &draft.who)?;
        text_size(&draft.text)?;
        let transaction = self.write()?;
        standing(&transaction, project)?;
        transaction.execute(
            "INSERT INTO draft (project, client, base, saved_at, saved_by, text) VALUES (?1, ?2, ?3, ?4, ?5, ?6) \
             ON CONFLICT (project, client) DO UPDATE SET base = excluded.base, saved_at = excluded.saved_at, \
             saved_by = excluded.saved_by, text = excluded.text",
            params![project, client, draft.base, draft.at, draft.who, draft.text],
        )?;
        transaction.commit()?;
        Ok(())
    }

    /// What a client typed last in this project; nothing where it has no draft.
    ///
    /// # Errors
    /// When there is no such project, and what file and disk say.
    pub fn load_draft(&self, project: i64, client: &str) -> Result<Option<Draft>, StoreError> {
        let transaction = self.read()?;
        standing(&transaction, project)?;
        let draft = transaction
            .prepare_cached(
                "SELECT text, base, saved_by, saved_at FROM draft WHERE project = ?1 AND client = ?2",
            )?
            .query_row(params![project, client], |row| {
                Ok(Draft { text: row.get(0)?, base: row.get(1)?, who: row.get(2)?, at: row.get(3)? })
            })
            .optional()?;
        Ok(draft)
    }

    /// Forgets a client's draft, as after its text was saved; nothing happens where there is none.
    ///
    /// # Errors
    /// When there is no such project, and what file and disk say.
    pub fn drop_draft(&mut self, project: i64, client: &str) -> Result<(), StoreError> {
        let transaction = self.write()?;
        standing(&transaction, project)?;
        transaction.execute(
            "DELETE FROM draft WHERE project = ?1 AND client = ?2",
            params![project, client],
        )?;
        transaction.commit()?;
        Ok(())
    }

    /// The texts of a project that were set aside and are not settled, the first one first.
    ///
    /// # Errors
    /// When there is no such project, and what file and disk say.
    pub fn copies(&self, project: i64) -> Result<Vec<Copy>, StoreError> {
        let transaction = self.read()?;
        standing(&transaction, project)?;
        let mut statement = transaction.prepare_cached(
            "SELECT id, text, base, what_changed, set_aside_by, set_aside_at FROM set_aside \
             WHERE project = ?1 AND settled_at IS NULL ORDER BY id",
        )?;
        let mut rows = statement.query(params![project])?;
        let mut copies = Vec::new();
        while let Some(row) = rows.next()? {
            let id = row.get(0)?;
            copies.push(Copy {
                id,
                text: row.get(1)?,
                files: files::of_copy(&transaction, id)?,
                base: row.get(2)?,
                what_changed: row.get(3)?,
                who: row.get(4)?,
                at: row.get(5)?,
            });
        }
        Ok(copies)
    }

    /// Marks a text that was set aside as dealt with: it is no longer listed, and still kept.
    ///
    /// # Errors
    /// When there is no such text, and what file and disk say.
    pub fn settle_copy(&mut self, copy: i64, who: &str, at: i64) -> Result<(), StoreError> {
        words("the name of who acts", who)?;
        let transaction = self.write()?;
        let count = transaction.execute(
            "UPDATE set_aside SET settled_at = coalesce(settled_at, ?2), settled_by = coalesce(settled_by, ?3) \
             WHERE id = ?1",
            params![copy, at, who],
        )?;
        if count == 0 {
            return Err(StoreError::NoSuchCopy(copy));
        }
        transaction.commit()?;
        Ok(())
    }
}

/// Sets a text aside with the files that came with it.
pub(crate) fn set_aside(connection: &Connection, save: &Save<'_>) -> Result<i64, StoreError> {
    connection.execute(
        "INSERT INTO set_aside (project, base, set_aside_at, set_aside_by, what_changed, text) \
         VALUES (?1, ?2, ?3, ?4, ?5, ?6)",
        params![save.project, save.base, save.at, save.who, save.what_changed, save.text],
    )?;
    let id = connection.last_insert_rowid();
    if let Files::These(files) = save.files {
        for file in files {
            let content = files::content(connection, save.project, Some(save.base), file)?;
            connection.execute(
                "INSERT INTO set_aside_file (set_aside, name, content) VALUES (?1, ?2, ?3)",
                params![id, file.name, content],
            )?;
        }
    }
    Ok(id)
}
