//! The list of projects, by pages.

use project::Technique;
use rusqlite::params;

use crate::error::StoreError;
use crate::head::{folded, technique, words};
use crate::store::Store;

/// Most projects on one page.
const LARGEST_PAGE: u32 = 1000;

/// What is listed.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Listing {
    /// Part of the name, without regard to capitals; empty for all.
    pub search: String,
    /// Archived projects or those at work.
    pub shown: Shown,
    /// In which order.
    pub order: Order,
    /// How many are passed over.
    pub skip: u32,
    /// How many are listed at most, up to 1000; 0 stands for 1000.
    pub most: u32,
}

/// Which projects are listed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Shown {
    /// Those that are not archived.
    #[default]
    AtWork,
    /// The archived ones.
    Archived,
    /// Both.
    All,
}

/// Order of a list; equal ones by number.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Order {
    /// The last changed one first.
    #[default]
    LastChange,
    /// By name, without regard to capitals.
    Name,
}

/// One page of a list.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Page {
    /// The projects.
    pub projects: Vec<ProjectLine>,
    /// How many there are on all pages.
    pub total: u32,
}

/// A project as a list shows it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ProjectLine {
    /// Number of the project.
    pub id: i64,
    /// Name that its current text gives.
    pub name: String,
    /// Technique that its current text gives.
    pub technique: Technique,
    /// The revision at which it stands.
    pub current: u32,
    /// How many revisions it has.
    pub revisions: u32,
    /// When it was last changed, in milliseconds since 1970 began (UTC).
    pub changed_at: i64,
    /// Who changed it last.
    pub changed_by: String,
    /// When it was archived.
    pub archived_at: Option<i64>,
    /// The line that was left with the current revision.
    pub verdict: Option<String>,
}

impl Store {
    /// Lists projects.
    ///
    /// # Errors
    /// When the search is too long, and what file and disk say.
    pub fn list(&self, listing: &Listing) -> Result<Page, StoreError> {
        words("the search", &listing.search)?;
        let kept = match listing.shown {
            Shown::AtWork => "p.archived_at IS NULL",
            Shown::Archived => "p.archived_at IS NOT NULL",
            Shown::All => "1",
        };
        let order = match listing.order {
            Order::LastChange => "p.changed_at DESC, p.id DESC",
            Order::Name => "p.name_folded, p.id",
        };
        let needle = folded(listing.search.trim());
        let most = match listing.most {
            0 => LARGEST_PAGE,
            most => most.min(LARGEST_PAGE),
        };
        let transaction = self.read()?;
        // `instr` takes the search as it is; LIKE would read % and _ in it.
        let total = transaction
            .prepare_cached(&format!(
                "SELECT count(*) FROM project p WHERE {kept} AND instr(p.name_folded, ?1) > 0"
            ))?
            .query_row(params![needle], |row| row.get(0))?;
        let mut statement = transaction.prepare_cached(&format!(
            "SELECT p.id, p.name, p.current, p.latest, p.changed_at, p.changed_by, p.archived_at, r.verdict, \
             p.technique FROM project p JOIN revision r ON r.project = p.id AND r.number = p.current \
             WHERE {kept} AND instr(p.name_folded, ?1) > 0 ORDER BY {order} LIMIT ?2 OFFSET ?3"
        ))?;
        let mut rows = statement.query(params![needle, most, listing.skip])?;
        let mut projects = Vec::new();
        while let Some(row) = rows.next()? {
            let word: String = row.get(8)?;
            projects.push(ProjectLine {
                id: row.get(0)?,
                name: row.get(1)?,
                technique: technique(&word)?,
                current: row.get(2)?,
                // Revisions are numbered without gaps, so that the last number is their count.
                revisions: row.get(3)?,
                changed_at: row.get(4)?,
                changed_by: row.get(5)?,
                archived_at: row.get(6)?,
                verdict: row.get(7)?,
            });
        }
        Ok(Page { projects, total })
    }
}
