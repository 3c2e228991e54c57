//! The field reference in Markdown, kept in the repository as `docs/crossing-file.md`.

use std::fmt::Write;

use crate::fields::{Field, Section, Technique};

const HEAD: &str = "\
# The crossing file

This page is made from the definitions in `crates/project/src/fields`; a test keeps it true. Do
not edit it by hand: `UPDATE_REFERENCE=1 cargo test -p project reference` writes it anew.

A crossing is one text file in TOML, at most 5 MB, in UTF-8. A quantity is a text with a unit
(`\"12 m\"`, `\"40 ft\"`, `\"12 ft 6 in\"`, `\"9 deg\"`, `\"16 %\"`) or a bare number in the unit that
the field names; a number in quotes without a unit, as `\"12\"`, is read in that unit too. Nothing is
changed silently: a value that nobody gave is listed with its source in every result, and what
cannot be assessed without a missing value is listed as not assessed.
";

/// The reference of all fields in Markdown.
#[must_use]
pub fn reference() -> String {
    let mut out = HEAD.to_owned();
    for (technique, title) in [
        (Technique::Drilling, "A drilled crossing"),
        (Technique::Bursting, "A main renewed by pipe bursting, `technique = \"bursting\"`"),
    ] {
        let _ = write!(out, "\n## {title}\n");
        for section in technique.sections().iter().copied() {
            write_section(&mut out, section);
        }
    }
    out
}

fn write_section(out: &mut String, section: &Section) {
    let title = if section.key.is_empty() {
        "The top of the file".to_owned()
    } else {
        format!("`{}`", section.header())
    };
    let need = match (section.key.is_empty(), section.required) {
        (true, _) => "",
        (false, true) => " This section is required.",
        (false, false) => " This section may be left out.",
    };
    let _ = write!(out, "\n### {title}\n\n{}{need}\n", section.meaning);
    let _ = writeln!(out, "\n| key | meaning | value | allowed | need | example |");
    let _ = writeln!(out, "|---|---|---|---|---|---|");
    for field in section.fields {
        write_field(out, field);
    }
}

fn write_field(out: &mut String, field: &Field) {
    let cells = [
        format!("`{}`", field.key),
        cell(field.meaning),
        cell(&field.kind_in_words()),
        cell(&field.allowed_in_words().unwrap_or_default()),
        cell(&field.need_in_words()),
        format!("`{}`", cell(field.example)),
    ];
    let _ = writeln!(out, "| {} |", cells.join(" | "));
}

/// A bar would end the cell.
fn cell(text: &str) -> String {
    text.replace('|', "\\|")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_reference_in_the_repository_is_up_to_date() {
        let path = concat!(env!("CARGO_MANIFEST_DIR"), "/../../docs/crossing-file.md");
        if std::env::var_os("UPDATE_REFERENCE").is_some() {
            std::fs::write(path, reference()).unwrap();
        }
        let kept = std::fs::read_to_string(path).unwrap_or_default();
        assert!(kept == reference(), "run UPDATE_REFERENCE=1 cargo test -p project reference");
    }
}
