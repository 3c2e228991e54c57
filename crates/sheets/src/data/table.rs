//! Tables as CSV (RFC 4180): UTF-8, comma, lines end with CR LF, first line is the header with units.
//!
//! A text cell that begins with `=`, `+`, `-`, `@`, a tab or a line break is given an apostrophe in front, so that no
//! spreadsheet takes it for a formula; numbers are left alone. Control characters other than tab and line breaks become
//! U+FFFD. Numbers have as many digits as it takes to read the same number back; a value that is not known is an empty cell.

/// One cell.
pub(super) enum Cell<'c> {
    /// A text of the user or of ours.
    Text(&'c str),
    /// A number.
    Number(Option<f64>),
}

/// A table from its header and its rows.
pub(super) fn csv<'c>(
    header: &[&str],
    rows: impl Iterator<Item = Vec<Cell<'c>>>,
) -> Result<Vec<u8>, String> {
    let mut writer =
        csv::WriterBuilder::new().terminator(csv::Terminator::CRLF).from_writer(Vec::new());
    writer.write_record(header).map_err(|e| e.to_string())?;
    for row in rows {
        let cells = row.into_iter().map(|cell| match cell {
            Cell::Text(text) => harmless(text),
            Cell::Number(value) => number(value),
        });
        writer.write_record(cells).map_err(|e| e.to_string())?;
    }
    writer.into_inner().map_err(|e| e.to_string())
}

fn number(value: Option<f64>) -> String {
    // Adding zero turns -0 into 0.
    value.filter(|v| v.is_finite()).map_or_else(String::new, |v| format!("{}", v + 0.0))
}

fn harmless(text: &str) -> String {
    let mark = if text.starts_with(['=', '+', '-', '@', '\t', '\r', '\n']) { "'" } else { "" };
    let clean = text.chars().map(|c| match c {
        '\t' | '\n' | '\r' => c,
        c if c.is_control() => char::REPLACEMENT_CHARACTER,
        c => c,
    });
    mark.chars().chain(clean).collect()
}
