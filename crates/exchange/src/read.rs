use crate::fields::Rows;
use crate::ground_data::{Format, GroundData};
use crate::issue::{DataIssue, Issues, Place};
use crate::{ags, assemble, old_ags, plain, text};

/// Largest file that is read, bytes.
pub const LARGEST_FILE: usize = 50_000_000;

/// Rows among which a GROUP row must come in an AGS4 file.
const FIRST_ROWS: usize = 1000;

/// Reads a file of ground data. AGS4 and the table of `docs/ground-data.md` are recognised by what they hold; the name
/// is only printed.
///
/// Lines end with CR LF, LF or CR; a byte order mark is passed over; bytes that are not UTF-8 are read as
/// windows-1252, which is a warning.
///
/// # Errors
/// Every error of the file, with the warnings, in the order of the file: for a file above [`LARGEST_FILE`], of another
/// format, or with values that are missing, not readable, or in contradiction.
pub fn read_ground(name: &str, bytes: &[u8]) -> Result<GroundData, Vec<DataIssue>> {
    let mut issues = Issues::default();
    let data = read(name, bytes, &mut issues);
    let failed = issues.failed();
    let messages = issues.finish();
    match data {
        Some(data) if !failed => Ok(GroundData { warnings: messages, ..data }),
        _ => Err(messages),
    }
}

/// Reads and joins; nothing, or an error noted, means that the file cannot be used.
fn read(name: &str, bytes: &[u8], issues: &mut Issues) -> Option<GroundData> {
    if bytes.len() > LARGEST_FILE {
        let found = format!("{} bytes", bytes.len());
        issues
            .error("too_large", Place::line(1), format!("{name} has {found}"))
            .found(found)
            .allowed(format!("at most {LARGEST_FILE} bytes"))
            .hint("take out the groups that are not read, or the borings away from the line");
        return None;
    }
    let text = text::decode(name, bytes, issues)?;
    if text.trim().is_empty() {
        issues
            .error("empty", Place::line(1), format!("{name} is empty"))
            .allowed("AGS4, or a table as CSV")
            .hint("was the file copied to its end?");
        return None;
    }
    let mut rows = Rows::of_lines(&text, ',').take(FIRST_ROWS);
    if rows.any(|row| row.text(0) == "GROUP") {
        let read = ags::read(&text, issues);
        let borings = assemble::assemble(read.records, &ags::NAMES, issues);
        let format = Format::Ags4 { edition: read.edition };
        return Some(GroundData { format, borings, warnings: Vec::new(), not_read: read.not_read });
    }
    if old_ags::is_old(&text) {
        old_ags::refuse(name, &text, issues);
        return None;
    }
    if plain::is_table(&text) {
        let records = plain::read(name, &text, issues)?;
        let borings = assemble::assemble(records, &plain::NAMES, issues);
        let format = Format::Csv;
        return Some(GroundData { format, borings, warnings: Vec::new(), not_read: Vec::new() });
    }
    unknown(name, &text, issues);
    None
}

fn unknown(name: &str, text: &str, issues: &mut Issues) {
    let start = text.trim_start();
    let hint = if start.starts_with('<') {
        "XML is not read: ask for AGS4, or write the borings into a CSV table"
    } else {
        "an AGS4 file has rows that begin with \"GROUP\"; a table begins with a header that has the columns row and \
         boring"
    };
    issues
        .error(
            "unknown_format",
            Place::line(1),
            format!("{name} is neither AGS4 nor a table of ground data"),
        )
        .found(start.lines().next().unwrap_or_default())
        .allowed("AGS4, or the CSV table of docs/ground-data.md")
        .hint(hint);
}
