//! Rows of separated values with the place of every value.
//!
//! The rows are split here and not by the `csv` crate because a reader of messages needs the line and the column of
//! a value, in files with any line ends, and because a quotation mark that is never closed must be an error at its
//! place instead of swallowing the rest of the file. On well-formed rows both agree; a test holds that.

use std::borrow::Cow;

use crate::issue::{Issues, Place};

/// One value of a row, without its quotation marks.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Field<'t> {
    pub(crate) text: Cow<'t, str>,
    pub(crate) place: Place,
}

/// One row.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Row<'t> {
    pub(crate) line: usize,
    /// The text of the row without its line end.
    pub(crate) raw: &'t str,
    pub(crate) fields: Vec<Field<'t>>,
    /// Why its quotation marks do not pair; the fields then end there.
    pub(crate) fault: Option<Fault>,
}

/// Quotation marks that do not pair.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Fault {
    /// No closing mark for the one at this place.
    Unclosed(Place),
    /// Text between a closing mark and the next separator, at this place.
    AfterClosing(Place),
}

impl<'t> Row<'t> {
    /// The row split at every `","`, where marks inside of values were not written twice, as in `"6" pipe"`; nothing
    /// where it does not begin and end with a mark.
    pub(crate) fn split_at_marks(&self) -> Option<Row<'t>> {
        let inner = self.raw.trim_end().strip_prefix('"')?.strip_suffix('"')?;
        let mut column = 1;
        let fields = inner
            .split("\",\"")
            .map(|part| {
                let place = Place { line: self.line, column: Some(column) };
                column += part.chars().count() + 3;
                let text = if part.contains("\"\"") {
                    Cow::Owned(part.replace("\"\"", "\""))
                } else {
                    Cow::Borrowed(part)
                };
                Field { text, place }
            })
            .collect();
        Some(Row { line: self.line, raw: self.raw, fields, fault: None })
    }

    /// Text of a field without blanks around it; empty where the row is shorter.
    pub(crate) fn text(&self, at: usize) -> &str {
        self.fields.get(at).map_or("", |field| field.text.trim())
    }

    /// Place of a field; of the line where the row is shorter.
    pub(crate) fn place(&self, at: usize) -> Place {
        self.fields.get(at).map_or(Place::line(self.line), |field| field.place)
    }

    pub(crate) fn is_blank(&self) -> bool {
        self.fault.is_none() && self.fields.iter().all(|field| field.text.trim().is_empty())
    }

    /// Notes marks that do not pair; whether they do.
    pub(crate) fn pairs(&self, issues: &mut Issues) -> bool {
        let (place, message) = match self.fault {
            None => return true,
            Some(Fault::Unclosed(place)) => (place, "a quotation mark is opened and not closed"),
            Some(Fault::AfterClosing(place)) => {
                (place, "text follows a closing quotation mark before the next separator")
            }
        };
        issues
            .error("quotes", place, message)
            .hint("close the value with \", and write a mark inside of it twice: \"\"");
        false
    }
}

/// The rows of a text, one after the other.
#[derive(Debug, Clone)]
pub(crate) struct Rows<'t> {
    cursor: Cursor<'t>,
    separator: char,
    across_lines: bool,
    remarks: bool,
}

#[derive(Debug, Clone, Copy)]
struct Cursor<'t> {
    rest: &'t str,
    line: usize,
    column: usize,
}

impl<'t> Rows<'t> {
    /// Rows whose values end with their line, as in AGS.
    pub(crate) fn of_lines(text: &'t str, separator: char) -> Self {
        let cursor = Cursor { rest: text, line: 1, column: 1 };
        Self { cursor, separator, across_lines: false, remarks: false }
    }

    /// Rows in which a quoted value may hold line ends, as spreadsheets write them; a line that begins with `#` is one
    /// value.
    pub(crate) fn across_lines(text: &'t str, separator: char) -> Self {
        Self { across_lines: true, remarks: true, ..Self::of_lines(text, separator) }
    }

    fn field(&mut self, fault: &mut Option<Fault>) -> Field<'t> {
        let blanks = self.cursor.rest.len() - self.cursor.rest.trim_start_matches(' ').len();
        let quoted = self.cursor.rest.get(blanks..).is_some_and(|text| text.starts_with('"'));
        if quoted {
            self.cursor.take(blanks);
            let place = self.cursor.place();
            return Field { text: self.quoted(fault), place };
        }
        let place = self.cursor.place();
        let ends = |c: char| c == self.separator || is_line_end(c);
        let length = self.cursor.rest.find(ends).unwrap_or(self.cursor.rest.len());
        Field { text: Cow::Borrowed(self.cursor.take(length)), place }
    }

    fn quoted(&mut self, fault: &mut Option<Fault>) -> Cow<'t, str> {
        let opened = self.cursor;
        self.cursor.take(1);
        let mut text = Cow::Borrowed("");
        loop {
            let across = self.across_lines;
            let stops = |c: char| c == '"' || (!across && is_line_end(c));
            let length = self.cursor.rest.find(stops);
            let part = self.cursor.take(length.unwrap_or(self.cursor.rest.len()));
            join(&mut text, part);
            if self.cursor.skip('"') {
                if self.cursor.skip('"') {
                    join(&mut text, "\"");
                    continue;
                }
                break;
            }
            if across {
                // Nothing closes it up to the end of the file. The mark is at fault, not all that follows: values
                // end with their line from here on.
                self.across_lines = false;
                self.cursor = opened;
                return self.quoted(fault);
            }
            *fault = Some(Fault::Unclosed(opened.place()));
            return text;
        }
        let blanks = self.cursor.rest.len() - self.cursor.rest.trim_start_matches(' ').len();
        self.cursor.take(blanks);
        let next = self.cursor.rest.chars().next();
        if next.is_some_and(|c| c != self.separator && !is_line_end(c)) {
            *fault = Some(Fault::AfterClosing(self.cursor.place()));
            let length = self.cursor.rest.find(is_line_end).unwrap_or(self.cursor.rest.len());
            self.cursor.take(length);
        }
        text
    }
}

impl<'t> Iterator for Rows<'t> {
    type Item = Row<'t>;

    fn next(&mut self) -> Option<Row<'t>> {
        if self.cursor.rest.is_empty() {
            return None;
        }
        let start = self.cursor.rest;
        let mut row = Row { line: self.cursor.line, raw: start, fields: Vec::new(), fault: None };
        if self.remarks && self.cursor.rest.starts_with('#') {
            let place = self.cursor.place();
            let length = self.cursor.rest.find(is_line_end).unwrap_or(self.cursor.rest.len());
            let text = Cow::Borrowed(self.cursor.take(length));
            row.fields.push(Field { text, place });
            self.cursor.skip_line_end();
            return Some(row);
        }
        loop {
            let field = self.field(&mut row.fault);
            row.fields.push(field);
            if !self.cursor.skip(self.separator) {
                break;
            }
        }
        let length = start.len() - self.cursor.rest.len();
        row.raw = start.get(..length).unwrap_or(start);
        self.cursor.skip_line_end();
        Some(row)
    }
}

impl<'t> Cursor<'t> {
    fn place(&self) -> Place {
        Place { line: self.line, column: Some(self.column) }
    }

    /// Takes so many bytes, which may hold line ends.
    fn take(&mut self, length: usize) -> &'t str {
        let (taken, rest) = self.rest.split_at_checked(length).unwrap_or((self.rest, ""));
        self.rest = rest;
        let mut after_return = false;
        for c in taken.chars() {
            match c {
                '\n' if after_return => {}
                '\r' | '\n' => {
                    self.line += 1;
                    self.column = 1;
                }
                _ => self.column += 1,
            }
            after_return = c == '\r';
        }
        taken
    }

    fn skip(&mut self, wanted: char) -> bool {
        let found = self.rest.starts_with(wanted);
        if found {
            self.take(wanted.len_utf8());
        }
        found
    }

    fn skip_line_end(&mut self) {
        let length = match self.rest.as_bytes() {
            [b'\r', b'\n', ..] => 2,
            [b'\r' | b'\n', ..] => 1,
            _ => 0,
        };
        self.take(length);
    }
}

fn is_line_end(c: char) -> bool {
    c == '\r' || c == '\n'
}

fn join<'t>(text: &mut Cow<'t, str>, part: &'t str) {
    if text.is_empty() {
        *text = Cow::Borrowed(part);
    } else {
        text.to_mut().push_str(part);
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn texts(rows: Rows<'_>) -> Vec<Vec<String>> {
        rows.map(|row| row.fields.iter().map(|f| f.text.to_string()).collect()).collect()
    }

    #[test]
    fn every_line_end_counts_one_line() {
        let rows: Vec<_> = Rows::of_lines("a\r\nb\nc\rd\n\n\"e\",f", ',').collect();
        let lines: Vec<_> = rows.iter().map(|row| (row.line, row.text(0))).collect();
        assert_eq!(lines, [(1, "a"), (2, "b"), (3, "c"), (4, "d"), (5, ""), (6, "e")]);
        assert_eq!(rows[5].place(1), Place { line: 6, column: Some(5) });
        assert_eq!(rows[5].place(9), Place::line(6));
        assert!(rows[4].is_blank() && !rows[5].is_blank());
    }

    #[test]
    fn columns_count_characters() {
        let row = Rows::of_lines("\"Ø°\", \"b\",c,", ',').next().unwrap();
        let places: Vec<_> = row.fields.iter().map(|f| (f.place.column, f.text.as_ref())).collect();
        assert_eq!(places, [(Some(1), "Ø°"), (Some(7), "b"), (Some(11), "c"), (Some(13), "")]);
    }

    #[test]
    fn marks_are_doubled_inside_a_value() {
        assert_eq!(texts(Rows::of_lines("\"a \"\"b\"\"\",\"\"\"\"", ',')), [["a \"b\"", "\""]]);
    }

    #[test]
    fn values_may_hold_line_ends_only_where_they_may() {
        let text = "\"a\r\nb\",c\nd";
        assert_eq!(texts(Rows::across_lines(text, ',')), [vec!["a\r\nb", "c"], vec!["d"]]);
        let rows: Vec<_> = Rows::across_lines(text, ',').collect();
        assert_eq!((rows[0].place(1).line, rows[1].line), (2, 3));
        let faults: Vec<_> = Rows::of_lines(text, ',').map(|row| row.fault).collect();
        let unclosed = |line, column| Some(Fault::Unclosed(Place { line, column: Some(column) }));
        assert_eq!(faults[0], unclosed(1, 1));
    }

    #[test]
    fn an_unclosed_mark_does_not_swallow_the_rest() {
        for rows in
            [Rows::of_lines("a,\"b\nc,d\n\"e\"", ','), Rows::across_lines("a,\"b\nc,d", ',')]
        {
            let rows: Vec<_> = rows.collect();
            let place = Place { line: 1, column: Some(3) };
            assert_eq!(rows[0].fault, Some(Fault::Unclosed(place)));
            assert_eq!((rows[1].text(0), rows[1].text(1), rows[1].fault), ("c", "d", None));
        }
    }

    #[test]
    fn marks_that_were_not_doubled_can_be_told_apart_where_every_value_has_its_own() {
        let row = Rows::of_lines("\"51°46'47.4\"\",\"2°58'\",\"a \"\"b\"\"\",\"\"\r\n", ',')
            .next()
            .unwrap();
        assert!(row.fault.is_some());
        let row = row.split_at_marks().unwrap();
        let texts: Vec<_> = row.fields.iter().map(|f| (f.text.as_ref(), f.place.column)).collect();
        let expected =
            [("51°46'47.4\"", Some(1)), ("2°58'", Some(15)), ("a \"b\"", Some(23)), ("", Some(33))];
        assert_eq!(texts, expected);
        assert_eq!(Rows::of_lines("a,b", ',').next().unwrap().split_at_marks(), None);
        assert_eq!(Rows::of_lines("\"", ',').next().unwrap().split_at_marks(), None);
    }

    #[test]
    fn a_remark_is_one_value() {
        let text = "# it's, \"so\na,b";
        assert_eq!(texts(Rows::across_lines(text, ',')), [vec!["# it's, \"so"], vec!["a", "b"]]);
    }

    #[test]
    fn text_after_a_closing_mark_is_a_fault_of_its_row_only() {
        let rows: Vec<_> = Rows::of_lines("\"6\" pipe\",b\nc", ',').collect();
        let place = Place { line: 1, column: Some(5) };
        assert_eq!(rows[0].fault, Some(Fault::AfterClosing(place)));
        assert_eq!((rows.len(), rows[1].text(0)), (2, "c"));
    }

    proptest! {
        /// The `csv` crate reads what it has written; so does this splitter, with the same values.
        #[test]
        fn well_formed_rows_agree_with_the_csv_crate(
            rows in prop::collection::vec(prop::collection::vec("[a-z0-9,;\"'# \n°]{0,6}", 2..5), 1..6),
        ) {
            let mut writer = csv::WriterBuilder::new()
                .flexible(true)
                .quote_style(csv::QuoteStyle::Always)
                .from_writer(Vec::new());
            for row in &rows {
                writer.write_record(row).unwrap();
            }
            let text = String::from_utf8(writer.into_inner().unwrap()).unwrap();
            prop_assert_eq!(texts(Rows::across_lines(&text, ',')), rows);
        }

        #[test]
        fn lines_are_those_of_the_text(text in "[a\",\r\n]{0,40}") {
            let plain = text.replace("\r\n", "\n").replace('\r', "\n");
            let rows: Vec<_> = Rows::of_lines(&text, ',').collect();
            prop_assert_eq!(rows.len(), plain.lines().count());
            for (index, row) in rows.iter().enumerate() {
                prop_assert_eq!(row.line, index + 1);
            }
        }
    }
}
