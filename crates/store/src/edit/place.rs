//! Where things stand in a text: headers, entries, and the ends of lines.

use std::ops::Range;

use toml_edit::{Item, Table, Value};

/// One header with its path (entries of lists by number) and the bytes of its lines, entries included.
#[derive(Debug)]
pub(super) struct Block {
    pub(super) path: Vec<String>,
    /// From the start of the header's line to the end of the line of the last entry.
    pub(super) lines: Range<usize>,
}

/// Every header of a text, in the order of the text.
pub(super) fn blocks(text: &str, root: &Table) -> Vec<Block> {
    let mut out = Vec::new();
    collect(text, root, &mut Vec::new(), &mut out);
    out.sort_by_key(|block| block.lines.start);
    out
}

fn collect(text: &str, table: &Table, path: &mut Vec<String>, out: &mut Vec<Block>) {
    if let Some(span) = table.span().filter(|_| !path.is_empty() && is_headed(table)) {
        let end = line_end(text, last_byte(table).unwrap_or(span.end).max(span.end));
        out.push(Block { path: path.clone(), lines: line_start(text, span.start)..end });
    }
    for (key, item) in table.iter() {
        path.push(key.to_owned());
        match item {
            Item::Table(inner) => collect(text, inner, path, out),
            Item::ArrayOfTables(list) => {
                for (i, inner) in list.iter().enumerate() {
                    path.push(i.to_string());
                    collect(text, inner, path, out);
                    path.pop();
                }
            }
            _ => {}
        }
        path.pop();
    }
}

/// Whether a table has a header of its own.
pub(super) fn is_headed(table: &Table) -> bool {
    !table.is_implicit() && !table.is_dotted()
}

/// End of the last value that stands below the table's own header, dotted keys included.
pub(super) fn last_byte(table: &Table) -> Option<usize> {
    table.iter().filter_map(|(_, item)| entry_end(item)).max()
}

/// End of an entry's value; nothing for what has its own header.
pub(super) fn entry_end(item: &Item) -> Option<usize> {
    match item {
        Item::Value(value) => value_end(value),
        Item::Table(inner) if inner.is_dotted() => last_byte(inner),
        _ => None,
    }
}

/// Start of the first entry of the table's own lines.
pub(super) fn first_byte(table: &Table) -> Option<usize> {
    table
        .iter()
        .filter_map(|(key, item)| match item {
            Item::Value(_) => table.key(key)?.span().map(|s| s.start),
            Item::Table(inner) if inner.is_dotted() => first_byte(inner),
            _ => None,
        })
        .min()
}

fn value_end(value: &Value) -> Option<usize> {
    match value {
        // A table of dotted keys inside braces has no span of its own.
        Value::InlineTable(inner) if inner.is_dotted() => {
            inner.iter().filter_map(|(_, v)| value_end(v)).max()
        }
        value => value.span().map(|s| s.end),
    }
}

/// Bytes of the values of a table in braces, each from its key on.
pub(super) fn pairs(table: &toml_edit::InlineTable) -> Vec<Range<usize>> {
    table
        .iter()
        .filter_map(|(key, value)| {
            let start = table.key(key)?.span()?.start;
            Some(start..value_end(value)?)
        })
        .collect()
}

/// Start of the line that holds a byte.
pub(super) fn line_start(text: &str, at: usize) -> usize {
    text.get(..at).and_then(|t| t.rfind('\n')).map_or_else(|| bom(text), |newline| newline + 1)
}

/// End of the line that holds a byte, its line feed included.
pub(super) fn line_end(text: &str, at: usize) -> usize {
    text.get(at..).and_then(|t| t.find('\n')).map_or(text.len(), |newline| at + newline + 1)
}

/// Bytes of a byte order mark.
pub(super) fn bom(text: &str) -> usize {
    if text.starts_with('\u{feff}') { '\u{feff}'.len_utf8() } else { 0 }
}

/// The end of line that a text uses.
pub(super) fn newline(text: &str) -> &'static str {
    match text.find('\n') {
        Some(at) if text.get(..at).is_some_and(|t| t.ends_with('\r')) => "\r\n",
        _ => "\n",
    }
}

/// Start of the comment lines that stand directly above a line.
pub(super) fn above(text: &str, line: usize) -> usize {
    let mut start = line;
    while start > bom(text) {
        let before = line_start(text, start - 1);
        if before >= start
            || !text.get(before..start).is_some_and(|l| l.trim_start().starts_with('#'))
        {
            break;
        }
        start = before;
    }
    start
}
