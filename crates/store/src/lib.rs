//! Designs with their revisions, drafts and preferences in one SQLite file; a value of a crossing file changed in place.
//!
//! The text of the crossing file stays the truth. A [`Revision`] holds the whole text byte for byte, comments included,
//! with the files that it names; nothing is ever deleted: undo and redo move a pointer, removing a project archives it,
//! and a text that came too late is set aside. Time comes from the caller, in milliseconds since 1970 began (UTC), as
//! does the name of who acts, which is free text.
//!
//! # Where the file may lie
//! On a disk of the machine that runs the program. The write-ahead log beside the file (`-wal`, `-shm`) works between
//! processes of one machine only: a share of a network can damage the file. Copies for others are made by
//! [`Store::backup`], never by copying the file of a running program.
//!
//! # Several at once
//! Any number of [`Store`]s may be open on one file, in one process or many. Reading never waits; writing waits up to
//! five seconds for another writer and then says so.
//!
//! [`edit`] changes one value in a text and leaves every other byte as it was; [`compare()`] says what differs between two
//! texts.

pub use self::backup::{Overwrite, Restored};
pub use self::compare::{Comparison, FieldChange, LineChange, Side, compare};
pub use self::draft::{Copy, Draft};
pub use self::error::StoreError;
pub use self::files::{Files, NamedBytes};
pub use self::listing::{Listing, Order, Page, ProjectLine, Shown};
pub use self::movement::{Moved, Movement};
pub use self::project_row::NewProject;
pub use self::revision::{HistoryLine, Revision, Save, Saved};
pub use self::store::{NEWEST_VERSION, Store};

pub mod edit;

mod backup;
mod compare;
mod draft;
mod error;
mod files;
mod head;
mod listing;
mod migrations;
mod movement;
mod preference;
mod project_row;
mod revision;
mod store;
