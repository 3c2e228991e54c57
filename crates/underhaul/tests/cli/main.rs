//! The program as its user meets it: what is typed, and what comes out on both streams with which exit code.

#![expect(clippy::unwrap_used, reason = "a test that cannot go on may stop where it stands")]

mod documents;
mod files;
mod output;
mod readme;
mod renewal;
mod served;
mod snapshots;
mod terminal;
