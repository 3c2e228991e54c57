//! AGS 3 and older: recognised, told apart, and refused. Groups, headings and units have other names there.

use crate::fields::{Row, Rows};
use crate::issue::{Issues, Place};

/// Rows in which the mark of a format must come.
const FIRST_ROWS: usize = 1000;

/// Whether groups are written as `**PROJ`.
pub(crate) fn is_old(text: &str) -> bool {
    first_group(text).is_some()
}

fn first_group(text: &str) -> Option<Row<'_>> {
    Rows::of_lines(text, ',').take(FIRST_ROWS).find(|row| row.text(0).starts_with("**"))
}

/// Notes that the file is too old, with its edition where it says one.
pub(crate) fn refuse(name: &str, text: &str, issues: &mut Issues) {
    let Some(group) = first_group(text) else { return };
    let edition = edition(text);
    let called = edition.as_deref().map_or("AGS 3 or older".to_owned(), |e| format!("AGS {e}"));
    issues
        .error(
            "old_ags",
            Place { line: group.line, column: group.place(0).column },
            format!("{name} is in the format {called}, which is not read"),
        )
        .found(format!("{called}: a group written as {}", group.text(0)))
        .allowed("AGS4: groups written as \"GROUP\",\"PROJ\"")
        .hint("ask whoever issued the file for AGS4, or convert it, or write the borings into a CSV table");
}

/// What stands under `*PROJ_AGS`: the heading row, then rows that do not begin with a mark of the format.
fn edition(text: &str) -> Option<String> {
    let mut at = None;
    for row in Rows::of_lines(text, ',').take(FIRST_ROWS) {
        let first = row.text(0);
        if first.starts_with("**") && at.is_some() {
            return None;
        }
        let heading =
            row.fields.iter().position(|f| f.text.trim_start_matches(['*', '?']) == "PROJ_AGS");
        if first.starts_with('*') && heading.is_some() {
            at = heading;
        } else if let Some(at) = at
            && !first.starts_with(['*', '<'])
        {
            let edition = row.text(at);
            let written =
                !edition.is_empty() && edition.chars().all(|c| c.is_ascii_digit() || c == '.');
            return written.then(|| edition.to_owned());
        }
    }
    None
}
