use std::io::{self, Write};

use anstyle::Style;

use super::style::{NAME, PLAIN, QUIET};
use super::text::{cut, tidy, width, wrap};

/// Columns between two columns of a table.
const GAP: usize = 2;
/// Columns before a table.
const INDENT: usize = 2;

/// A cell: a text with a style.
#[derive(Debug, Clone)]
pub(crate) struct Cell {
    text: String,
    style: Style,
}

/// A column: heading, side to which its cells keep, and what happens when the table is too wide.
#[derive(Debug, Clone)]
pub(crate) struct Column {
    heading: String,
    right: bool,
    /// The fewest columns to which it may shrink, and whether its text then wraps or is cut.
    shrinks: Option<(usize, Shrink)>,
}

#[derive(Debug, Clone, Copy, PartialEq)]
enum Shrink {
    Cut,
    Wrap,
}

/// Aligned columns. One that is too wide even when its columns shrink is printed in parts, each with the first column.
#[derive(Debug)]
pub(crate) struct Table {
    columns: Vec<Column>,
    rows: Vec<Vec<Cell>>,
}

impl Cell {
    /// A text without style.
    pub(crate) fn new(text: impl AsRef<str>) -> Self {
        Self::styled(text, PLAIN)
    }

    /// A text with a style.
    pub(crate) fn styled(text: impl AsRef<str>, style: Style) -> Self {
        Self { text: tidy(text.as_ref()), style }
    }

    /// A name that can be typed.
    pub(crate) fn name(text: impl AsRef<str>) -> Self {
        Self::styled(text, NAME)
    }
}

impl Column {
    /// A column of words.
    pub(crate) fn left(heading: impl Into<String>) -> Self {
        Self { heading: heading.into(), right: false, shrinks: None }
    }

    /// A column of numbers.
    pub(crate) fn right(heading: impl Into<String>) -> Self {
        Self { heading: heading.into(), right: true, shrinks: None }
    }

    /// The same, cut when there is no room, down to so many columns.
    pub(crate) fn cut(mut self, least: usize) -> Self {
        self.shrinks = Some((least, Shrink::Cut));
        self
    }

    /// The same, wrapped when there is no room, down to so many columns.
    pub(crate) fn wrap(mut self, least: usize) -> Self {
        self.shrinks = Some((least, Shrink::Wrap));
        self
    }

    fn lines(&self, text: &str, width: usize) -> Vec<String> {
        match self.shrinks {
            Some((_, Shrink::Wrap)) => wrap(text, width),
            _ => vec![cut(text, width)],
        }
    }
}

impl Table {
    /// An empty table.
    pub(crate) fn new(columns: Vec<Column>) -> Self {
        Self { columns, rows: Vec::new() }
    }

    /// Two columns without headings: names, and what they mean.
    pub(crate) fn of_names(rows: Vec<(Cell, Cell)>) -> Self {
        let columns = vec![Column::left("").cut(12), Column::left("").wrap(20)];
        Self { columns, rows: rows.into_iter().map(|(a, b)| vec![a, b]).collect() }
    }

    /// One more row.
    pub(crate) fn row(&mut self, cells: Vec<Cell>) {
        self.rows.push(cells);
    }

    /// Writes the table in at most so many columns.
    pub(crate) fn write(&self, out: &mut dyn Write, width: usize) -> io::Result<()> {
        let all: Vec<usize> = (0..self.columns.len()).collect();
        let mut rest: &[usize] = &all;
        let mut first = true;
        while let Some((part, widths, after)) = self.next_part(rest, first, width) {
            if !first {
                writeln!(out)?;
            }
            self.write_part(out, &part, &widths)?;
            rest = after;
            first = false;
        }
        Ok(())
    }

    /// As many of the columns that are left as fit, with the widths they get, and those that are left then.
    fn next_part<'r>(
        &self,
        rest: &'r [usize],
        first: bool,
        width: usize,
    ) -> Option<(Vec<usize>, Vec<usize>, &'r [usize])> {
        if rest.is_empty() {
            return None;
        }
        let part = |n: usize| -> Vec<usize> {
            let repeated = if first { None } else { Some(0) };
            repeated.into_iter().chain(rest.iter().copied().take(n)).collect()
        };
        for n in (1..=rest.len()).rev() {
            let columns = part(n);
            // The first column alone says nothing: then it is better cut.
            if first && n == 1 && rest.len() > 1 {
                break;
            }
            if let Some(widths) = self.widths(&columns, width) {
                return Some((columns, widths, rest.get(n..).unwrap_or_default()));
            }
        }
        let n = if first { 2.min(rest.len()) } else { 1 };
        let columns = part(n);
        let room = width.saturating_sub(INDENT + GAP * (columns.len() - 1)) / columns.len();
        let widths = columns.iter().map(|c| self.natural(*c).0.min(room)).collect();
        Some((columns, widths, rest.get(n..).unwrap_or_default()))
    }

    /// Widest cell of a column with its heading in one line, and with its heading wrapped.
    fn natural(&self, column: usize) -> (usize, usize) {
        let cells = self.rows.iter().filter_map(|r| r.get(column)).map(|c| width(&c.text));
        let cells = cells.max().unwrap_or(0);
        let heading = self.columns.get(column).map_or("", |c| c.heading.as_str());
        let word = heading.split_whitespace().map(width).max().unwrap_or(0);
        (cells.max(width(heading)), cells.max(word))
    }

    fn widths(&self, columns: &[usize], width: usize) -> Option<Vec<usize>> {
        let room = width.checked_sub(INDENT + GAP * columns.len().saturating_sub(1))?;
        let natural: Vec<_> = columns.iter().map(|c| self.natural(*c)).collect();
        if natural.iter().map(|n| n.0).sum::<usize>() <= room {
            return Some(natural.into_iter().map(|n| n.0).collect());
        }
        let mut widths: Vec<usize> = natural.into_iter().map(|n| n.1).collect();
        while widths.iter().sum::<usize>() > room {
            // One column of text at a time from the widest that may shrink: few and small numbers.
            let widest = columns
                .iter()
                .zip(widths.iter_mut())
                .filter(|(c, w)| {
                    let shrinks = self.columns.get(**c).and_then(|c| c.shrinks);
                    shrinks.is_some_and(|(least, _)| **w > least)
                })
                .max_by_key(|(_, w)| **w)?;
            *widest.1 -= 1;
        }
        Some(widths)
    }

    fn write_part(
        &self,
        out: &mut dyn Write,
        columns: &[usize],
        widths: &[usize],
    ) -> io::Result<()> {
        let chosen: Vec<_> = columns.iter().filter_map(|c| self.columns.get(*c)).collect();
        if chosen.iter().any(|c| !c.heading.is_empty()) {
            let headings: Vec<Vec<String>> =
                chosen.iter().zip(widths).map(|(c, w)| wrap(&c.heading, *w)).collect();
            let depth = headings.iter().map(Vec::len).max().unwrap_or(0);
            // Headings stand on the rule, so that a short one is next to its cells.
            let headings: Vec<Vec<String>> = headings
                .into_iter()
                .map(|h| [vec![String::new(); depth - h.len()], h].concat())
                .collect();
            write_lines(out, &chosen, widths, &headings, &vec![PLAIN; chosen.len()])?;
            let rule = widths.iter().sum::<usize>() + GAP * widths.len().saturating_sub(1);
            writeln!(out, "{:INDENT$}{QUIET}{}{QUIET:#}", "", "─".repeat(rule))?;
        }
        for row in &self.rows {
            let cells: Vec<_> = columns.iter().filter_map(|c| row.get(*c)).collect();
            let lines: Vec<_> = cells
                .iter()
                .zip(&chosen)
                .zip(widths)
                .map(|((cell, column), w)| column.lines(&cell.text, *w))
                .collect();
            let styles: Vec<_> = cells.iter().map(|c| c.style).collect();
            write_lines(out, &chosen, widths, &lines, &styles)?;
        }
        Ok(())
    }
}

/// The lines of one row; blanks at the end of a line are left out.
fn write_lines(
    out: &mut dyn Write,
    columns: &[&Column],
    widths: &[usize],
    cells: &[Vec<String>],
    styles: &[Style],
) -> io::Result<()> {
    let depth = cells.iter().map(Vec::len).max().unwrap_or(0);
    for i in 0..depth {
        let mut blanks = INDENT;
        for (((column, room), cell), style) in columns.iter().zip(widths).zip(cells).zip(styles) {
            let text = cell.get(i).map_or("", String::as_str);
            let spare = room.saturating_sub(width(text));
            let (before, mut after) = if column.right { (spare, 0) } else { (0, spare) };
            blanks += before;
            // Blanks that keep digits in line count as room, not as text.
            after += text.len() - text.trim_end_matches(' ').len();
            let text = text.trim_end_matches(' ');
            if !text.is_empty() {
                write!(out, "{:blanks$}{style}{text}{style:#}", "")?;
                blanks = 0;
            }
            blanks += after + GAP;
        }
        writeln!(out)?;
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn text(table: &Table, width: usize) -> String {
        let mut out = Vec::new();
        table.write(&mut out, width).unwrap();
        anstream::adapter::strip_str(&String::from_utf8(out).unwrap()).to_string()
    }

    fn numbers() -> Table {
        let mut table = Table::new(vec![
            Column::left("size"),
            Column::right("wall (mm)"),
            Column::right("mass"),
        ]);
        table.row(vec![Cell::new("DN 80"), Cell::new("6"), Cell::new("13.6")]);
        table.row(vec![Cell::new("DN 1000"), Cell::new("13.5"), Cell::new("")]);
        table
    }

    #[test]
    fn numbers_stand_under_each_other() {
        let expected = "  size     wall (mm)  mass\n  ────────────────────────\n  DN 80            6  13.6\n  DN 1000       13.5\n";
        assert_eq!(text(&numbers(), 80), expected);
    }

    #[test]
    fn headings_wrap_before_anything_is_lost() {
        let expected = "  size     wall  mass\n           (mm)\n";
        let narrow = text(&numbers(), 22);
        assert_eq!(narrow.lines().count(), expected.lines().count() + 3, "{narrow}");
        assert!(narrow.contains("wall") && !narrow.contains("wall (mm)"), "{narrow}");
    }

    #[test]
    fn a_table_that_cannot_shrink_comes_in_parts_with_the_first_column() {
        let parts = text(&numbers(), 18);
        assert_eq!(parts.matches("DN 1000").count(), 2, "{parts}");
        assert!(parts.lines().all(|l| width(l) <= 18), "{parts}");
    }

    #[test]
    fn long_names_are_cut_and_long_sentences_wrapped() {
        let mut table = Table::new(vec![Column::left("id").cut(6), Column::left("why").wrap(10)]);
        table.row(vec![Cell::new("line.clearance.横断工事の管路"), Cell::new("a b ".repeat(30))]);
        for room in [24, 40, 60] {
            let lines = text(&table, room);
            assert!(lines.contains('…'), "{lines}");
            assert!(lines.lines().all(|l| width(l) <= room), "{lines}");
        }
    }
}
