//! From the text of a file to records of readings, section by section.

use toml::Spanned;
use toml::de::{DeTable, DeValue};

use crate::diagnostic::{Place, Report, brief};
use crate::fields::{Need, Section, Shape, Technique};
use crate::syntax::report_syntax;
use crate::value::{Reading, read_value};
use crate::wording::{kind_of, nearest};

/// What stood in the file, section by section.
#[derive(Debug, Default)]
pub(crate) struct Tree {
    records: Vec<Record>,
}

/// One table of the file.
#[derive(Debug)]
pub(crate) struct Record {
    pub(crate) section: &'static Section,
    pub(crate) place: Place,
    /// Whether the table stood in the file.
    pub(crate) present: bool,
    entries: Vec<Entry>,
}

/// One value of a table; without reading where it was noted as an error.
#[derive(Debug)]
pub(crate) struct Entry {
    pub(crate) key: &'static str,
    pub(crate) place: Place,
    pub(crate) reading: Option<Reading>,
}

/// Reads the whole file; everything that is wrong with it is noted.
///
/// In a file with faults of syntax the values that were found are read, but keys that are unknown
/// or missing are not reported: they may be an effect of the fault.
pub(crate) fn read_tree(text: &str, technique: Technique, report: &mut Report<'_>) -> Tree {
    let (root, faults) = DeTable::parse_recoverable(text);
    report_syntax(text, &faults, report);
    let sections = technique.sections();
    let mut walk = Walk { tree: Tree::default(), sections, report, complete: faults.is_empty() };
    if let Some(top) = sections.first() {
        walk.table(top, root.get_ref(), Place::default());
    }
    walk.absent_sections();
    walk.tree
}

impl Tree {
    /// The record of a section that stands once; an empty one where it is absent.
    pub(crate) fn one(&self, key: &str) -> Option<&Record> {
        self.records.iter().find(|r| r.section.key == key)
    }

    /// The records of a section that stands any number of times.
    pub(crate) fn all(&self, key: &str) -> impl Iterator<Item = &Record> {
        self.records.iter().filter(move |r| r.section.key == key)
    }
}

impl Record {
    /// The entry of a key, where it stood in the file.
    pub(crate) fn entry(&self, key: &str) -> Option<&Entry> {
        self.entries.iter().find(|e| e.key == key)
    }

    /// Whether a key stood in the file, readable or not.
    pub(crate) fn has(&self, key: &str) -> bool {
        self.entry(key).is_some()
    }

    /// Place of a key: where it stood, else the header of its section.
    pub(crate) fn place_of(&self, key: &str) -> Place {
        self.entry(key).map_or_else(|| self.place.below(key), |e| e.place.clone())
    }
}

struct Walk<'w, 'a> {
    tree: Tree,
    sections: &'static [&'static Section],
    report: &'w mut Report<'a>,
    complete: bool,
}

impl Walk<'_, '_> {
    fn table(&mut self, section: &'static Section, table: &DeTable<'_>, place: Place) {
        let mut record = Record { section, place: place.clone(), present: true, entries: vec![] };
        let mut parts = Vec::new();
        for (key, value) in table {
            let name: &str = key.get_ref();
            if let Some(field) = section.field(name) {
                let at = place.below(name).at(value.span());
                let reading = read_value(field, value, &at, self.report);
                record.entries.push(Entry { key: field.key, place: at, reading });
            } else if let Some(part) = part_of(self.sections, section, name) {
                parts.push((part, value, place.below(name).at(value.span())));
            } else if self.complete {
                let at = place.below(brief(name)).at(key.span());
                self.unknown(section, name, &at);
            }
        }
        if self.complete {
            for field in section.fields {
                if matches!(field.need, Need::Required) && !record.has(field.key) {
                    let at = place.below(field.key);
                    let (key, header) = (field.key, in_section(section));
                    let message = format!("{key} is missing{header}: {}", field.meaning);
                    self.report
                        .error("missing", &at, message)
                        .hint(format!("add a line {key} = {}{header}", field.example));
                }
            }
        }
        self.tree.records.push(record);
        for (part, value, at) in parts {
            self.part(part, value, at);
        }
    }

    fn part(&mut self, part: &'static Section, value: &Spanned<DeValue<'_>>, at: Place) {
        match (part.shape, value.get_ref()) {
            (Shape::Table, DeValue::Table(table)) => self.table(part, table, at),
            (Shape::Array, DeValue::Array(entries)) => {
                for (i, entry) in entries.iter().enumerate() {
                    let at = at.below(i).at(entry.span());
                    match entry.get_ref() {
                        DeValue::Table(table) => self.table(part, table, at),
                        other => self.not_a_section(part, other, &at),
                    }
                }
            }
            (_, other) => self.not_a_section(part, other, &at),
        }
    }

    fn not_a_section(&mut self, part: &'static Section, found: &DeValue<'_>, at: &Place) {
        let (header, found) = (part.header(), kind_of(found));
        let message = format!("{} must be a section {header}, but was {found}", part.key);
        let hint = format!("write {header} on a line of its own and its fields below");
        self.report.error("wrong_type", at, message).found(found).allowed(header).hint(hint);
        // Present but unreadable: what is missing inside is not a second fault.
        self.absent(part, at.clone());
    }

    fn unknown(&mut self, section: &'static Section, name: &str, at: &Place) {
        let header = in_section(section);
        let shown = brief(name);
        let known: Vec<&str> = section
            .fields
            .iter()
            .map(|f| f.key)
            .chain(parts_of(self.sections, section).map(|part| last(part.key)))
            .collect();
        let elsewhere = self.sections.iter().find(|s| s.field(name).is_some());
        let hint = match (nearest(name, known.iter().copied()), elsewhere) {
            (Some(near), _) => format!("did you mean {near}?"),
            (None, Some(other)) if other.key.is_empty() => {
                format!("{shown} belongs above the first section header")
            }
            (None, Some(other)) => format!("{shown} belongs in {}", other.header()),
            (None, None) => "take it out, or put a # before it".to_owned(),
        };
        self.report
            .error("unknown_key", at, format!("there is no field \"{shown}\"{header}"))
            .found(shown)
            .allowed(known.join(", "))
            .hint(hint);
    }

    /// Adds an empty record for every section that stands once and was not written.
    fn absent_sections(&mut self) {
        for section in self.sections.iter().copied() {
            if section.shape == Shape::Array || self.tree.one(section.key).is_some() {
                continue;
            }
            let place = Place { path: section.path(), span: 0..0 };
            if section.required && self.complete {
                let header = section.header();
                let needed: Vec<_> = section
                    .fields
                    .iter()
                    .filter(|f| matches!(f.need, Need::Required))
                    .map(|f| f.key)
                    .collect();
                let with = match needed.as_slice() {
                    [] => String::new(),
                    keys => format!(" with {}", keys.join(", ")),
                };
                let message = format!("section {header} is missing: {}", section.meaning);
                let hint = format!("add the section {header}{with}");
                self.report.error("missing", &place, message).hint(hint);
            }
            self.absent(section, place);
        }
    }

    fn absent(&mut self, section: &'static Section, place: Place) {
        self.tree.records.push(Record { section, place, present: false, entries: vec![] });
    }
}

fn parts_of(
    sections: &'static [&'static Section],
    section: &'static Section,
) -> impl Iterator<Item = &'static Section> {
    let above = section.key;
    sections.iter().copied().filter(move |s| {
        !s.key.is_empty() && s.key.rsplit_once('.').map_or("", |(above, _)| above) == above
    })
}

fn part_of(
    sections: &'static [&'static Section],
    section: &'static Section,
    name: &str,
) -> Option<&'static Section> {
    parts_of(sections, section).find(|part| last(part.key) == name)
}

fn last(key: &str) -> &str {
    key.rsplit_once('.').map_or(key, |(_, last)| last)
}

/// " in [bore]" for a message; nothing for the top of the file.
pub(crate) fn in_section(section: &Section) -> String {
    if section.key.is_empty() { String::new() } else { format!(" in {}", section.header()) }
}
