//! Adds a key, a section, or a table of a list to a text, where the reference of the file has it.

use project::Technique;
use project::fields::{Section, Shape};
use toml_edit::{InlineTable, Item, Table};

use super::place::{
    above, blocks, bom, entry_end, first_byte, is_headed, last_byte, line_end, line_start, newline,
    pairs,
};
use super::value::{Value, key};
use super::{EditError, Found, Splice, Target};

impl Target<'_> {
    /// Adds what is missing at the path.
    pub(super) fn insert(&self, toml: &str) -> Result<Splice, EditError> {
        let deepest = (0..self.keys.len()).rev().find_map(|n| Some((n, self.find(n)?)));
        let (count, found) = deepest.ok_or_else(|| self.nothing())?;
        let missing = self.keys.get(count..).unwrap_or_default();
        match found {
            Found::Table(table) => self.add_to_table(table, count, missing, toml),
            Found::Item(Item::Value(toml_edit::Value::InlineTable(table)))
            | Found::Value(toml_edit::Value::InlineTable(table)) => {
                self.add_in_braces(table, &format!("{} = {toml}", dotted(missing)))
            }
            Found::Item(Item::ArrayOfTables(_) | Item::Value(toml_edit::Value::Array(_)))
            | Found::Value(toml_edit::Value::Array(_)) => Err(self.nothing()),
            _ => Err(self.kind("a single value")),
        }
    }

    fn add_to_table(
        &self,
        table: &Table,
        count: usize,
        missing: &[String],
        toml: &str,
    ) -> Result<Splice, EditError> {
        let Some((last, sections)) = missing.split_last() else { return Err(self.nothing()) };
        if table.is_dotted() {
            // `rods.length = 3` below [bore]: the next one is written alike.
            let headed = (0..count).rev().find(
                |n| matches!(self.find(*n), Some(Found::Table(t)) if *n == 0 || !t.is_dotted()),
            );
            let from = headed.ok_or_else(|| self.layout())?;
            let name = dotted(self.keys.get(from..).unwrap_or_default());
            let end = last_byte(table).ok_or_else(|| self.layout())?;
            return Ok(self.line_behind(end, &format!("{name} = {toml}")));
        }
        let line = format!("{} = {toml}", key(last));
        if sections.is_empty() && (count == 0 || is_headed(table)) {
            return self.add_line(table, last, &line);
        }
        // A number here would be an entry of a list that is not there.
        if sections.iter().any(|name| name.parse::<usize>().is_ok()) {
            return Err(self.nothing());
        }
        let path = self.keys.get(..self.keys.len() - 1).unwrap_or_default();
        if path.iter().any(|name| name.parse::<usize>().is_ok()) {
            // A section inside one table of a list: it must stand directly behind that table.
            return Err(self.layout());
        }
        let header = format!("[{}]", dotted(path));
        Ok(self.section(&path.join("."), Shape::Table, &[header, line]))
    }

    /// Adds a line among those of a table: behind the nearest key that the reference has before it.
    fn add_line(&self, table: &Table, name: &str, line: &str) -> Result<Splice, EditError> {
        let section = self.definition();
        let rank = |key: &str| section.and_then(|s| s.fields.iter().position(|f| f.key == key));
        let own = rank(name);
        let before = table
            .iter()
            .filter(|(key, _)| own.is_some() && rank(key) < own && rank(key).is_some())
            .filter_map(|(_, item)| entry_end(item))
            .max();
        let behind = if own.is_some() { before } else { last_byte(table) };
        if let Some(end) = behind {
            return Ok(self.line_behind(end, line));
        }
        // The first one: below the header, at the top of the file above the first key.
        if let Some(header) = table.span().filter(|_| !std::ptr::eq(table, self.root)) {
            return Ok(self.line_behind(header.end, line));
        }
        let at = match first_byte(table) {
            Some(first) => line_start(self.text, first),
            None => match blocks(self.text, self.root).first() {
                Some(block) => above(self.text, block.lines.start),
                None => return Ok(self.line_behind(self.text.len(), line)),
            },
        };
        let at = at.max(bom(self.text));
        Ok(Splice { at: at..at, by: format!("{line}{}", newline(self.text)) })
    }

    /// A new line behind the one that holds a byte.
    fn line_behind(&self, byte: usize, line: &str) -> Splice {
        let end = line_end(self.text, byte);
        let feed = newline(self.text);
        let closed =
            end == bom(self.text) || self.text.get(..end).is_some_and(|t| t.ends_with('\n'));
        let by = if closed { format!("{line}{feed}") } else { format!("{feed}{line}") };
        Splice { at: end..end, by }
    }

    fn add_in_braces(&self, table: &InlineTable, pair: &str) -> Result<Splice, EditError> {
        let span = table.span().ok_or_else(|| self.layout())?;
        let (at, by) = match pairs(table).iter().map(|p| p.end).max() {
            Some(end) => (end, format!(", {pair}")),
            None => (span.start + 1, format!(" {pair} ")),
        };
        Ok(Splice { at: at..at, by })
    }

    /// Adds a table to a list of tables.
    pub(super) fn append(&self, entries: &[(String, Value)]) -> Result<Splice, EditError> {
        let mut lines = Vec::new();
        for (name, value) in entries {
            lines.push(format!("{} = {}", key(name), value.toml()?));
        }
        if self.keys.iter().any(|name| name.parse::<usize>().is_ok()) {
            return Err(self.kind("a list inside a table of a list"));
        }
        match self.find(self.keys.len()) {
            Some(Found::Item(Item::Value(toml_edit::Value::Array(list)))) => {
                let braces = format!("{{ {} }}", lines.join(", "));
                let span = list.span().ok_or_else(|| self.layout())?;
                let last = list.iter().filter_map(toml_edit::Value::span).map(|s| s.end).max();
                if list.iter().any(|v| !v.is_inline_table()) {
                    return Err(self.kind("a list of values"));
                }
                let (at, by) = match last {
                    Some(end) => (end, format!(", {braces}")),
                    None => (span.start + 1, braces),
                };
                Ok(Splice { at: at..at, by })
            }
            Some(Found::Item(Item::ArrayOfTables(_))) | None => {
                let key = self.keys.join(".");
                lines.insert(0, format!("[[{}]]", dotted(self.keys)));
                Ok(self.section(&key, Shape::Array, &lines))
            }
            Some(Found::Table(_)) => Err(self.kind("a table")),
            Some(_) => Err(self.kind("a single value")),
        }
    }

    /// Adds a header with its lines: behind the tables of the same list, else before the first header that the reference
    /// has after it, with the comments above that one.
    fn section(&self, name: &str, shape: Shape, lines: &[String]) -> Splice {
        let feed = newline(self.text);
        let body = lines.join(feed);
        let all = blocks(self.text, self.root);
        if shape == Shape::Array {
            // Parts of the last table go with it.
            let below = format!("{name}.");
            let last = all
                .iter()
                .rev()
                .find(|b| key_of(&b.path) == name || key_of(&b.path).starts_with(&below));
            if let Some(last) = last.filter(|b| b.path.iter().any(|k| k.parse::<usize>().is_ok())) {
                return self.paragraph(last.lines.end, &body, feed);
            }
        }
        let sections = self.technique().sections();
        let rank = |key: &str| sections.iter().position(|s| s.key == key);
        let own = rank(name);
        let next = all.iter().find(|block| own.is_some() && rank(&key_of(&block.path)) > own);
        let at = next.map_or(self.text.len(), |block| above(self.text, block.lines.start));
        self.paragraph(at, &body, feed)
    }

    /// Lines with an empty line before and behind them.
    fn paragraph(&self, at: usize, body: &str, feed: &str) -> Splice {
        let before = self.text.get(bom(self.text)..at).unwrap_or_default();
        let behind = self.text.get(at..).unwrap_or_default();
        let blank =
            |text: &str| text.is_empty() || text.ends_with("\n\n") || text.ends_with("\r\n\r\n");
        let mut by = String::new();
        if !before.is_empty() && !before.ends_with('\n') {
            by.push_str(feed);
        }
        if !blank(before) {
            by.push_str(feed);
        }
        by.push_str(body);
        by.push_str(feed);
        if !behind.is_empty() && !behind.starts_with(['\n', '\r']) {
            by.push_str(feed);
        }
        Splice { at: at..at, by }
    }

    /// Definition of the section in which the last key of the path stands.
    fn definition(&self) -> Option<&'static Section> {
        let path = self.keys.get(..self.keys.len() - 1)?;
        let name = key_of(path);
        self.technique().sections().iter().copied().find(|s| s.key == name)
    }

    fn technique(&self) -> Technique {
        let word = self.root.get("technique").and_then(Item::as_str).unwrap_or_default();
        if word.trim().eq_ignore_ascii_case(Technique::Bursting.word()) {
            Technique::Bursting
        } else {
            Technique::Drilling
        }
    }
}

/// Key of the section at a path: the path without the numbers of tables in lists.
fn key_of(path: &[String]) -> String {
    let names = path.iter().map(String::as_str).filter(|k| k.parse::<usize>().is_err());
    names.collect::<Vec<_>>().join(".")
}

/// Keys as a dotted key.
fn dotted(keys: &[String]) -> String {
    keys.iter().map(|k| key(k)).collect::<Vec<_>>().join(".")
}
