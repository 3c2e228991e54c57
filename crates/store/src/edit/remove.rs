//! Takes a value, a table or an entry of a list out of a text.

use std::ops::Range;

use toml_edit::{Item, Value};

use super::place::{blocks, line_end, line_start, pairs};
use super::{EditError, Found, Splice, Target};

impl Target<'_> {
    pub(super) fn remove(&self) -> Result<Vec<Splice>, EditError> {
        let count = self.keys.len();
        let last = self.keys.last().ok_or_else(|| self.nothing())?;
        let found = self.find(count).ok_or_else(|| self.nothing())?;
        match (&found, self.find(count - 1)) {
            (Found::Item(Item::Value(value)), Some(Found::Table(table))) => {
                let key = table.key(last).and_then(toml_edit::Key::span);
                let (key, value) = key.zip(value.span()).ok_or_else(|| self.layout())?;
                // The comment on the line belongs to the value and goes with it.
                let lines = line_start(self.text, key.start)..line_end(self.text, value.end);
                Ok(vec![Splice { at: lines, by: String::new() }])
            }
            (Found::Table(_) | Found::Item(Item::ArrayOfTables(_)), _) => self.remove_tables(),
            (
                Found::Value(value),
                Some(Found::Item(Item::Value(around)) | Found::Value(around)),
            ) => {
                let parts: Vec<Range<usize>> = match around {
                    Value::Array(list) => list.iter().filter_map(Value::span).collect(),
                    Value::InlineTable(table) => pairs(table),
                    _ => return Err(self.layout()),
                };
                let end = value.span().ok_or_else(|| self.layout())?.end;
                let at = parts.iter().position(|part| part.end == end);
                Ok(self.without_part(&parts, at.ok_or_else(|| self.layout())?))
            }
            _ => Err(self.layout()),
        }
    }

    /// Takes out every header at or below the path, with its entries and one empty line behind it.
    fn remove_tables(&self) -> Result<Vec<Splice>, EditError> {
        let splices: Vec<Splice> = blocks(self.text, self.root)
            .into_iter()
            .filter(|block| block.path.starts_with(self.keys))
            .map(|block| {
                let next = line_end(self.text, block.lines.end);
                let blank =
                    self.text.get(block.lines.end..next).is_some_and(|l| l.trim().is_empty());
                let end = if blank { next } else { block.lines.end };
                Splice { at: block.lines.start..end, by: String::new() }
            })
            .collect();
        if splices.is_empty() { Err(self.layout()) } else { Ok(splices) }
    }

    /// Takes out one entry of a list or of a table in braces, with the comma behind it, else with the one before it.
    fn without_part(&self, parts: &[Range<usize>], at: usize) -> Vec<Splice> {
        let Some(part) = parts.get(at).cloned() else { return Vec::new() };
        let mut out = vec![];
        if let Some(comma) = self.comma(part.end) {
            let spaces = self
                .text
                .get(comma + 1..)
                .map_or(0, |rest| rest.len() - rest.trim_start_matches([' ', '\t']).len());
            if self.text.get(part.end..comma).is_some_and(|t| t.trim().is_empty()) {
                out.push(Splice { at: part.start..comma + 1 + spaces, by: String::new() });
            } else {
                // A comment stands between them and stays.
                out.push(Splice { at: part, by: String::new() });
                out.push(Splice { at: comma..comma + 1, by: String::new() });
            }
        } else {
            let before = at.checked_sub(1).and_then(|i| parts.get(i));
            if let Some(comma) = before.and_then(|before| self.comma(before.end)) {
                out.push(Splice { at: comma..comma + 1, by: String::new() });
            }
            out.push(Splice { at: part, by: String::new() });
        }
        out
    }

    /// The comma behind an entry, with nothing but spaces, ends of lines and comments between.
    fn comma(&self, from: usize) -> Option<usize> {
        let mut comment = false;
        for (i, byte) in self.text.get(from..)?.bytes().enumerate() {
            match byte {
                b'\n' => comment = false,
                _ if comment => {}
                b'#' => comment = true,
                b',' => return Some(from + i),
                b' ' | b'\t' | b'\r' => {}
                _ => return None,
            }
        }
        None
    }
}
