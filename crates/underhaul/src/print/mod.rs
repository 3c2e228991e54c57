//! Text for a person's screen: wrapped, aligned, readable without colour.

pub(crate) use self::page::{Page, width_of_output};
pub(crate) use self::table::{Cell, Column, Table};

pub(crate) mod assessment;
pub(crate) mod bursting;
pub(crate) mod style;
pub(crate) mod text;
pub(crate) mod working;

pub(crate) mod joints;
mod page;
mod table;

use std::io::{self, Write};

use project::Diagnostic;
use serde::Serialize;

/// Writes a value as JSON, with a line end.
pub(crate) fn json<T: Serialize + ?Sized>(out: &mut dyn Write, value: &T) -> io::Result<()> {
    serde_json::to_writer_pretty(&mut *out, value)?;
    writeln!(out)
}

/// A count with its noun.
pub(crate) fn counted(count: usize, one: &str, many: &str) -> String {
    format!("{count} {}", if count == 1 { one } else { many })
}

/// Prints the warnings on a file to standard error.
pub(crate) fn warn(warnings: &[Diagnostic]) {
    let mut err = anstream::stderr().lock();
    let mut page = Page::new(&mut err, width_of_output());
    // A closed standard error must not keep the results from being printed.
    let _ = warnings.iter().try_for_each(|warning| page.diagnostic(warning));
}
