//! The steps from one version of the file to the next. The list only grows: a step that was released is never changed.

/// One step; the version of a file is the number of steps it has seen.
pub(crate) struct Migration {
    /// Why the step exists.
    #[cfg_attr(
        not(test),
        expect(dead_code, reason = "for people and for the test that asks for it")
    )]
    pub(crate) reason: &'static str,
    pub(crate) sql: &'static str,
}

/// All steps in order.
pub(crate) const MIGRATIONS: &[Migration] = &[
    Migration {
        reason: "projects, their revisions with texts and files, and every movement between revisions",
        sql: PROJECTS,
    },
    Migration {
        reason: "no typed text is lost: drafts and texts set aside; what each user prefers",
        sql: DRAFTS,
    },
];

// The text stands last in its row: a listing then reads only the beginning of long rows.
const PROJECTS: &str = "
CREATE TABLE project (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    name TEXT NOT NULL,
    name_folded TEXT NOT NULL,
    technique TEXT NOT NULL,
    current INTEGER NOT NULL,
    latest INTEGER NOT NULL,
    created_at INTEGER NOT NULL,
    created_by TEXT NOT NULL,
    changed_at INTEGER NOT NULL,
    changed_by TEXT NOT NULL,
    archived_at INTEGER,
    archived_by TEXT,
    FOREIGN KEY (id, current) REFERENCES revision (project, number) DEFERRABLE INITIALLY DEFERRED,
    FOREIGN KEY (id, latest) REFERENCES revision (project, number) DEFERRABLE INITIALLY DEFERRED
) STRICT;
CREATE INDEX project_by_change ON project (changed_at);
CREATE TABLE revision (
    project INTEGER NOT NULL REFERENCES project (id) DEFERRABLE INITIALLY DEFERRED,
    number INTEGER NOT NULL CHECK (number >= 1),
    base INTEGER CHECK (base < number),
    saved_at INTEGER NOT NULL,
    saved_by TEXT NOT NULL,
    what_changed TEXT NOT NULL,
    name TEXT NOT NULL,
    technique TEXT NOT NULL,
    verdict TEXT,
    text TEXT NOT NULL,
    UNIQUE (project, number),
    FOREIGN KEY (project, base) REFERENCES revision (project, number)
) STRICT;
CREATE TABLE content (
    id INTEGER PRIMARY KEY,
    bytes BLOB NOT NULL
) STRICT;
CREATE TABLE revision_file (
    project INTEGER NOT NULL,
    number INTEGER NOT NULL,
    name TEXT NOT NULL,
    content INTEGER NOT NULL REFERENCES content (id),
    PRIMARY KEY (project, number, name),
    FOREIGN KEY (project, number) REFERENCES revision (project, number)
) STRICT, WITHOUT ROWID;
CREATE TABLE movement (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    project INTEGER NOT NULL,
    kind TEXT NOT NULL CHECK (kind IN ('save', 'undo', 'redo')),
    to_number INTEGER NOT NULL,
    moved_at INTEGER NOT NULL,
    moved_by TEXT NOT NULL,
    FOREIGN KEY (project, to_number) REFERENCES revision (project, number)
) STRICT;
CREATE INDEX movement_by_project ON movement (project, id);
";

const DRAFTS: &str = "
CREATE TABLE draft (
    project INTEGER NOT NULL REFERENCES project (id),
    client TEXT NOT NULL,
    base INTEGER NOT NULL,
    saved_at INTEGER NOT NULL,
    saved_by TEXT NOT NULL,
    text TEXT NOT NULL,
    PRIMARY KEY (project, client)
) STRICT;
CREATE TABLE set_aside (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    project INTEGER NOT NULL REFERENCES project (id),
    base INTEGER NOT NULL,
    set_aside_at INTEGER NOT NULL,
    set_aside_by TEXT NOT NULL,
    what_changed TEXT NOT NULL,
    settled_at INTEGER,
    settled_by TEXT,
    text TEXT NOT NULL
) STRICT;
CREATE INDEX set_aside_by_project ON set_aside (project, id);
CREATE TABLE set_aside_file (
    set_aside INTEGER NOT NULL REFERENCES set_aside (id),
    name TEXT NOT NULL,
    content INTEGER NOT NULL REFERENCES content (id),
    PRIMARY KEY (set_aside, name)
) STRICT, WITHOUT ROWID;
CREATE TABLE preference (
    user TEXT NOT NULL,
    key TEXT NOT NULL,
    value TEXT NOT NULL,
    PRIMARY KEY (user, key)
) STRICT, WITHOUT ROWID;
";

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_step_says_why_in_one_line() {
        for step in MIGRATIONS {
            assert!(!step.reason.is_empty() && !step.reason.contains('\n'), "{}", step.sql);
        }
    }
}
