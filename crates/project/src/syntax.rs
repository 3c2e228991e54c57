//! Faults of syntax: what the TOML parser says, with what to do about it.

use std::ops::Range;

use crate::diagnostic::{Place, Report};

/// Notes the faults of syntax of a text.
///
/// A list that is not closed makes every line after it a fault of its own; they are reported as
/// one.
pub(crate) fn report_syntax(text: &str, faults: &[toml::de::Error], report: &mut Report<'_>) {
    let mut list: Vec<(Range<usize>, String)> = faults
        .iter()
        .map(|f| (f.span().unwrap_or(0..0), f.message().trim().replace('\n', "; ")))
        .collect();
    list.sort_by_key(|(span, _)| span.start);
    let unclosed = list.iter().any(|(_, message)| message.contains("unclosed array"));
    let mut runaway = false;
    for (span, message) in list {
        if runaway && is_of_a_list(&message) {
            continue;
        }
        let place = Place::default().at(span.clone());
        if unclosed && is_of_a_list(&message) && begins_a_line_of_the_file(text, span.start) {
            runaway = true;
            report
                .error("syntax", &place, "a list that begins above this line is not closed")
                .hint("put a ] behind the last entry of the list");
            continue;
        }
        runaway = false;
        let hint = hint(&message);
        report.error("syntax", &place, format!("not TOML: {message}")).hint(hint);
    }
}

/// Whether the parser was inside a list: then everything up to the end of the file may follow from
/// it.
fn is_of_a_list(message: &str) -> bool {
    ["array", "string values must be quoted"].iter().any(|part| message.contains(part))
}

/// Whether a place is the start of a line that is a section header or a field.
fn begins_a_line_of_the_file(text: &str, at: usize) -> bool {
    let start = text.get(..at).and_then(|t| t.rfind('\n')).map_or(0, |newline| newline + 1);
    let line = text.get(start..).and_then(|t| t.lines().next()).unwrap_or_default();
    let before = text.get(start..at).unwrap_or_default();
    let key = line.split('=').next().unwrap_or_default().trim();
    let is_key = line.contains('=')
        && !key.is_empty()
        && key.chars().all(|c| c.is_ascii_alphanumeric() || matches!(c, '_' | '.' | '-'));
    let header = line.trim();
    let is_header = header.starts_with('[') && header.ends_with(']') && !header.contains(',');
    before.trim().is_empty() && (is_key || is_header)
}

fn hint(message: &str) -> &'static str {
    const HINTS: [(&str, &str); 9] = [
        ("must be quoted", "put texts and quantities with a unit in double quotes: \"12 m\""),
        (
            "duplicate key",
            "write every field and every [section] once; [[section]] may be repeated",
        ),
        ("unclosed table", "close the section header with ]"),
        ("invalid basic string", "close the text with a double quote on the same line"),
        ("string", "close the text with the quotes it was opened with"),
        ("array", "separate the entries of a list with commas and close it with ]"),
        ("expected newline", "one field a line; decimals take a point: 120.5"),
        ("leading zero", "write the number without zeros before it"),
        ("mantissa", "write a digit before and after the decimal point: 0.5"),
    ];
    HINTS.iter().find(|(part, _)| message.contains(part)).map_or(
        "write key = value lines below [section] headers, texts in double quotes, lists in square \
         brackets",
        |(_, hint)| hint,
    )
}
