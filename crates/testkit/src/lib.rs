//! Runs the published check cases and the rules of the house.
//!
//! [`cases`] walks `cases/`, reads every file strictly, runs the method that it names and holds the result against the
//! printed value. [`house`] holds the tree against its own rules: who may import whom, which licences may enter, how
//! long a file may be, and that no path of a machine stands in it.
//!
//! Nothing imports this crate, so it may import everything.

pub mod cases;
pub mod house;
pub mod worksheet_pages;

use std::path::PathBuf;

/// Root of the workspace.
#[must_use]
pub fn workspace_root() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../..")
}
