//! Revisions: the whole text, byte for byte, with its files; saved only on what the caller has seen.

use project::Technique;
use rusqlite::{Connection, OptionalExtension, params};

use crate::compare::{Comparison, compare};
use crate::draft;
use crate::error::StoreError;
use crate::files::{self, Files, NamedBytes};
use crate::head::{folded, head, technique, words};
use crate::movement;
use crate::project_row::{changeable, standing};
use crate::store::Store;

/// One revision of a project.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Revision {
    /// The project.
    pub project: i64,
    /// Number within the project, from 1.
    pub number: u32,
    /// The revision it was based on; nothing for the first.
    pub base: Option<u32>,
    /// Name that the text gives.
    pub name: String,
    /// Technique that the text gives.
    pub technique: Technique,
    /// The text as it was saved.
    pub text: String,
    /// Files that the text names, by name.
    pub files: Vec<NamedBytes>,
    /// What was changed, in the words of who saved it.
    pub what_changed: String,
    /// Who saved it.
    pub who: String,
    /// When, in milliseconds since 1970 began (UTC).
    pub at: i64,
    /// The line that [`Store::set_verdict`] left.
    pub verdict: Option<String>,
}

/// One line of the history: a revision without its text.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct HistoryLine {
    /// Number within the project.
    pub number: u32,
    /// The revision it was based on.
    pub base: Option<u32>,
    /// Name that the text gives.
    pub name: String,
    /// What was changed.
    pub what_changed: String,
    /// Who saved it.
    pub who: String,
    /// When, in milliseconds since 1970 began (UTC).
    pub at: i64,
    /// The line that [`Store::set_verdict`] left.
    pub verdict: Option<String>,
    /// Whether the project stands at it.
    pub current: bool,
}

/// A text to be saved as the next revision.
#[derive(Debug, Clone, Copy)]
pub struct Save<'a> {
    /// The project.
    pub project: i64,
    /// The revision that was current when the text was begun.
    pub base: u32,
    /// The whole text.
    pub text: &'a str,
    /// Its files.
    pub files: Files<'a>,
    /// What was changed, in a few words; may be empty.
    pub what_changed: &'a str,
    /// Who saves.
    pub who: &'a str,
    /// When, in milliseconds since 1970 began (UTC).
    pub at: i64,
    /// Whether a text that comes too late is set aside, so that it cannot be lost.
    pub set_aside: bool,
}

/// What became of a text.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Saved {
    /// It is this revision now, and current.
    Revision(u32),
    /// Somebody else was faster: the project stands at another revision than the text was based on.
    Conflict {
        /// The revision that is current.
        current: Box<Revision>,
        /// Number under which the text was set aside, where that was asked for; see [`Store::copies`].
        copy: Option<i64>,
    },
}

impl Store {
    /// Saves a text as the next revision, if the project still stands at the revision that it is based on.
    ///
    /// # Errors
    /// When the text is not TOML or gives no name (keep it as a draft), when something is too long, when there is no such
    /// project or it is archived, and what file and disk say.
    pub fn save(&mut self, save: &Save<'_>) -> Result<Saved, StoreError> {
        let head = head(save.text)?;
        words("the name of who acts", save.who)?;
        words("what was changed", save.what_changed)?;
        if let Files::These(files) = save.files {
            files::check(files)?;
        }
        let project = save.project;
        let transaction = self.write()?;
        let standing = changeable(&transaction, project)?;
        if standing.current != save.base {
            let current = Box::new(read_revision(&transaction, project, standing.current)?);
            let copy =
                if save.set_aside { Some(draft::set_aside(&transaction, save)?) } else { None };
            transaction.commit()?;
            return Ok(Saved::Conflict { current, copy });
        }
        let number = standing.latest.checked_add(1).ok_or_else(|| {
            StoreError::Damaged(format!("project {project} has no number left for a revision"))
        })?;
        transaction.execute(
            "INSERT INTO revision (project, number, base, saved_at, saved_by, what_changed, name, technique, text) \
             VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9)",
            params![
                project,
                number,
                save.base,
                save.at,
                save.who,
                save.what_changed,
                head.name,
                head.technique.word(),
                save.text
            ],
        )?;
        files::keep(&transaction, project, number, Some(save.base), save.files)?;
        movement::note(&transaction, project, "save", number, save.who, save.at)?;
        transaction.execute(
            "UPDATE project SET current = ?2, latest = ?2, name = ?3, name_folded = ?4, technique = ?5, \
             changed_at = ?6, changed_by = ?7 WHERE id = ?1",
            params![
                project,
                number,
                head.name,
                folded(&head.name),
                head.technique.word(),
                save.at,
                save.who
            ],
        )?;
        transaction.commit()?;
        Ok(Saved::Revision(number))
    }

    /// One revision with its text and files.
    ///
    /// # Errors
    /// When there is no such project or revision, and what file and disk say.
    pub fn revision(&self, project: i64, number: u32) -> Result<Revision, StoreError> {
        let transaction = self.read()?;
        standing(&transaction, project)?;
        read_revision(&transaction, project, number)
    }

    /// The revision at which the project stands.
    ///
    /// # Errors
    /// When there is no such project, and what file and disk say.
    pub fn current(&self, project: i64) -> Result<Revision, StoreError> {
        let transaction = self.read()?;
        let standing = standing(&transaction, project)?;
        read_revision(&transaction, project, standing.current)
    }

    /// All revisions without their texts, the first one first.
    ///
    /// # Errors
    /// When there is no such project, and what file and disk say.
    pub fn history(&self, project: i64) -> Result<Vec<HistoryLine>, StoreError> {
        let transaction = self.read()?;
        let current = standing(&transaction, project)?.current;
        let mut statement = transaction.prepare_cached(
            "SELECT number, base, name, what_changed, saved_by, saved_at, verdict FROM revision \
             WHERE project = ?1 ORDER BY number",
        )?;
        let rows = statement.query_map(params![project], |row| {
            let number = row.get(0)?;
            Ok(HistoryLine {
                number,
                base: row.get(1)?,
                name: row.get(2)?,
                what_changed: row.get(3)?,
                who: row.get(4)?,
                at: row.get(5)?,
                verdict: row.get(6)?,
                current: number == current,
            })
        })?;
        Ok(rows.collect::<Result<_, _>>()?)
    }

    /// Leaves a line with a revision, as its verdict, for the list of projects; it changes nothing else and may be set
    /// again.
    ///
    /// # Errors
    /// When there is no such project or revision, when the line is too long, and what file and disk say.
    pub fn set_verdict(&mut self, project: i64, number: u32, line: &str) -> Result<(), StoreError> {
        words("the verdict", line)?;
        let transaction = self.write()?;
        standing(&transaction, project)?;
        let count = transaction.execute(
            "UPDATE revision SET verdict = ?3 WHERE project = ?1 AND number = ?2",
            params![project, number, line],
        )?;
        if count == 0 {
            return Err(StoreError::NoSuchRevision { project, number });
        }
        transaction.commit()?;
        Ok(())
    }

    /// What differs between the texts of two revisions.
    ///
    /// # Errors
    /// When there is no such project or revision, and what file and disk say.
    pub fn compare(&self, project: i64, a: u32, b: u32) -> Result<Comparison, StoreError> {
        let transaction = self.read()?;
        standing(&transaction, project)?;
        let first = read_revision(&transaction, project, a)?;
        let second = read_revision(&transaction, project, b)?;
        Ok(compare(&first.text, &second.text))
    }
}

/// A revision of a project that exists.
pub(crate) fn read_revision(
    connection: &Connection,
    project: i64,
    number: u32,
) -> Result<Revision, StoreError> {
    let found = connection
        .prepare_cached(
            "SELECT base, name, text, what_changed, saved_by, saved_at, verdict, technique FROM revision \
             WHERE project = ?1 AND number = ?2",
        )?
        .query_row(params![project, number], |row| {
            let revision = Revision {
                project,
                number,
                base: row.get(0)?,
                name: row.get(1)?,
                technique: Technique::Drilling,
                text: row.get(2)?,
                files: Vec::new(),
                what_changed: row.get(3)?,
                who: row.get(4)?,
                at: row.get(5)?,
                verdict: row.get(6)?,
            };
            Ok((revision, row.get::<_, String>(7)?))
        })
        .optional()?;
    let (revision, word) = found.ok_or(StoreError::NoSuchRevision { project, number })?;
    Ok(Revision {
        technique: technique(&word)?,
        files: files::of_revision(connection, project, number)?,
        ..revision
    })
}
