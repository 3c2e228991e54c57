//! What all sheets share: names, widths, heads of tables, paper, and cells that take any text.

use std::collections::BTreeMap;

use rust_xlsxwriter::{Format, Formula, Worksheet, XlsxError};

use super::style::Styles;
use super::text::{briefly, clean, lines};
use crate::Subject;

/// A worksheet being filled; every text goes through here, and none is ever taken for a formula.
pub struct Page {
    pub sheet: Worksheet,
    widths: Vec<f64>,
    /// Lines of words in the fullest cell of each row.
    lines: BTreeMap<u32, f64>,
}

/// Height of a line of words, points.
const LINE: f64 = 13.0;
/// Heights of rows that the format allows, points.
const HEIGHTS: (f64, f64) = (15.0, 405.0);

impl Page {
    /// A sheet with columns of some widths, in characters.
    pub fn new(subject: &Subject, name: &str, widths: &[f64]) -> Result<Self, XlsxError> {
        let mut sheet = Worksheet::new();
        sheet.set_name(name)?;
        for (column, width) in (0u16..).zip(widths) {
            sheet.set_column_width(column, *width)?;
        }
        let design = briefly(&subject.assessment.crossing.name, 60).replace('&', "&&");
        sheet
            .set_landscape()
            .set_paper_size(9)
            .set_margins(0.4, 0.4, 0.5, 0.6, 0.3, 0.3)
            .set_print_fit_to_pages(1, 0)
            .set_screen_gridlines(false)
            .set_footer(format!("&L{design} &C{name}&RPage &P of &N"));
        Ok(Self { sheet, widths: widths.to_vec(), lines: BTreeMap::new() })
    }

    /// Words in a cell.
    pub fn words(
        &mut self,
        row: u32,
        column: u16,
        words: &str,
        format: &Format,
    ) -> Result<(), XlsxError> {
        let words = clean(words);
        let width = self.widths.get(usize::from(column)).copied().unwrap_or(0.0);
        self.note_lines(row, lines(&words, width));
        self.sheet.write_string_with_format(row, column, words, format).map(|_| ())
    }

    /// Not every program makes rows high enough for wrapped words when it opens a file.
    fn note_lines(&mut self, row: u32, lines: f64) {
        let most = self.lines.entry(row).or_insert(1.0);
        *most = most.max(lines);
    }

    /// Words on one line that run on over the cells to the right.
    pub fn run_on(
        &mut self,
        row: u32,
        column: u16,
        words: &str,
        format: &Format,
    ) -> Result<(), XlsxError> {
        let format = format.clone().unset_text_wrap();
        self.sheet.write_string_with_format(row, column, clean(words), &format).map(|_| ())
    }

    /// The sheet, its rows as high as their words need.
    pub fn finish(mut self) -> Result<Worksheet, XlsxError> {
        for (row, lines) in &self.lines {
            let height = (LINE * lines + 2.0).clamp(HEIGHTS.0, HEIGHTS.1);
            self.sheet.set_row_height(*row, height)?;
        }
        Ok(self.sheet)
    }

    /// A number in a cell; words where it is not finite.
    pub fn number(
        &mut self,
        row: u32,
        column: u16,
        value: f64,
        format: &Format,
    ) -> Result<(), XlsxError> {
        if value.is_finite() {
            self.sheet.write_number_with_format(row, column, value, format).map(|_| ())
        } else {
            self.words(row, column, "no finite value", format)
        }
    }

    /// A formula with the result that this program found.
    pub fn formula(
        &mut self,
        row: u32,
        column: u16,
        formula: &str,
        result: impl Into<String>,
        format: &Format,
    ) -> Result<(), XlsxError> {
        let formula = Formula::new(format!("={formula}")).set_result(result);
        self.sheet.write_formula_with_format(row, column, formula, format).map(|_| ())
    }

    /// Words over several columns, in a row high enough for them.
    pub fn across(
        &mut self,
        row: u32,
        columns: (u16, u16),
        words: &str,
        format: &Format,
    ) -> Result<(), XlsxError> {
        let words = clean(words);
        let width: f64 = self
            .widths
            .iter()
            .skip(columns.0.into())
            .take(usize::from(columns.1 - columns.0) + 1)
            .sum();
        self.note_lines(row, lines(&words, width));
        self.sheet.merge_range(row, columns.0, row, columns.1, &words, format).map(|_| ())
    }

    /// The title of the sheet and a sentence on it.
    pub fn title(&mut self, title: &str, sentence: &str, styles: &Styles) -> Result<(), XlsxError> {
        let last = self.last();
        self.run_on(0, 0, title, &styles.title)?;
        self.note_lines(0, 1.6);
        self.across(1, (0, last), sentence, &styles.words)
    }

    /// The head of the table, frozen with all above it and repeated on paper; `>` stands before the name of a column of
    /// numbers.
    pub fn head(&mut self, row: u32, names: &[&str], styles: &Styles) -> Result<(), XlsxError> {
        for (column, name) in (0u16..).zip(names) {
            let behind = column
                .checked_sub(1)
                .and_then(|c| names.get(usize::from(c)))
                .is_some_and(|left| left.starts_with('>'));
            let (name, format) = match name.strip_prefix('>') {
                Some(name) => (name, &styles.head_of_numbers),
                None if behind => (*name, &styles.head_behind),
                None => (*name, &styles.head),
            };
            self.words(row, column, name, format)?;
        }
        self.sheet.set_freeze_panes(row + 1, 0)?;
        self.sheet.set_repeat_rows(row, row).map(|_| ())
    }

    /// Filters on a table whose head stands in a row.
    pub fn filter(&mut self, head: u32, last: u32) -> Result<(), XlsxError> {
        let column = self.last();
        self.sheet.autofilter(head, 0, last.max(head + 1), column).map(|_| ())
    }

    /// The last column.
    pub fn last(&self) -> u16 {
        u16::try_from(self.widths.len().saturating_sub(1)).unwrap_or(u16::MAX)
    }
}

/// The name of a cell, as `C12`; rows and columns count from 0.
pub fn cell(row: u32, column: u16) -> String {
    rust_xlsxwriter::utility::row_col_to_cell(row, column)
}

/// A number with all its digits, as a stored result.
pub fn exact(value: f64) -> String {
    format!("{value}")
}
