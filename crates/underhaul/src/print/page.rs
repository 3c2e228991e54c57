use std::io::{self, IsTerminal, Write};

use anstyle::Style;
use project::{Diagnostic, Severity};

use super::style::{BAD, CLOSE, HEADING};
use super::text::{cut, tidy, width, wrap};
use super::{Cell, Table};

/// Columns when neither the terminal nor COLUMNS says how many there are.
const USUAL_WIDTH: usize = 80;
/// Fewer columns than this are taken as this many: tables need room for a name and a number.
const LEAST_WIDTH: usize = 40;
/// Sentences do not run wider than this, however wide the terminal is.
const WIDEST_TEXT: usize = 100;

/// Columns that lines may take: COLUMNS, else the terminal of standard output, else 80.
pub(crate) fn width_of_output() -> usize {
    let told = std::env::var("COLUMNS").ok().and_then(|text| text.trim().parse().ok());
    let seen = || {
        let terminal = io::stdout().is_terminal().then(terminal_size::terminal_size).flatten();
        terminal.map(|(width, _)| usize::from(width.0))
    };
    told.filter(|w| *w > 0).or_else(seen).unwrap_or(USUAL_WIDTH).max(LEAST_WIDTH)
}

/// Where results are written: a stream and the columns its lines may take.
pub(crate) struct Page<'a> {
    out: &'a mut dyn Write,
    width: usize,
}

impl<'a> Page<'a> {
    /// A page on a stream that drops styles where they do not belong.
    pub(crate) fn new(out: &'a mut dyn Write, width: usize) -> Self {
        Self { out, width }
    }

    /// The stream itself, for what is not laid out: JSON, a file.
    pub(crate) fn stream(&mut self) -> &mut dyn Write {
        self.out
    }

    /// Columns that a line may take.
    pub(crate) fn width(&self) -> usize {
        self.width
    }

    fn text_width(&self) -> usize {
        self.width.min(WIDEST_TEXT)
    }

    /// An empty line.
    pub(crate) fn gap(&mut self) -> io::Result<()> {
        writeln!(self.out)
    }

    /// An empty line and a heading.
    pub(crate) fn heading(&mut self, text: &str) -> io::Result<()> {
        self.gap()?;
        self.title(text)
    }

    /// A heading; one that is too long for three lines is cut.
    pub(crate) fn title(&mut self, text: &str) -> io::Result<()> {
        const MOST_LINES: usize = 3;
        let mut lines = wrap(&tidy(text), self.text_width());
        if let Some(next) = lines.get(MOST_LINES).cloned() {
            lines.truncate(MOST_LINES);
            if let Some(last) = lines.last_mut() {
                *last = cut(&format!("{last} {next}"), self.text_width());
            }
        }
        lines.iter().try_for_each(|line| writeln!(self.out, "{HEADING}{line}{HEADING:#}"))
    }

    /// A line that stays in one piece, as a command to be typed.
    pub(crate) fn line(&mut self, text: &str) -> io::Result<()> {
        writeln!(self.out, "{text}")
    }

    /// Wrapped text, every line indented.
    pub(crate) fn paragraph(&mut self, indent: usize, text: &str) -> io::Result<()> {
        self.wrapped("", indent, indent, text, super::style::PLAIN)
    }

    /// Wrapped text that a reader may skip, every line indented.
    pub(crate) fn quiet(&mut self, indent: usize, text: &str) -> io::Result<()> {
        self.wrapped("", indent, indent, text, super::style::QUIET)
    }

    /// Wrapped text behind a mark, the lines below it indented.
    pub(crate) fn indented(&mut self, mark: &str, indent: usize, text: &str) -> io::Result<()> {
        self.wrapped(mark, width(mark) + 1, indent, text, super::style::PLAIN)
    }

    /// Wrapped text behind an indented mark, the lines below it indented under the text.
    pub(crate) fn paragraph_after(
        &mut self,
        indent: usize,
        mark: &str,
        text: &str,
    ) -> io::Result<()> {
        let mark = format!("{:indent$}{mark}", "");
        self.indented(&mark, width(&mark) + 1, text)
    }

    /// Wrapped text behind a mark with a style, the lines below it indented.
    pub(crate) fn marked(
        &mut self,
        mark: &str,
        style: Style,
        indent: usize,
        text: &str,
    ) -> io::Result<()> {
        let mark_width = width(mark);
        let text = format!("{mark} {}", tidy(text));
        let mut lines = self.fill(0, indent, &text).into_iter();
        let first = lines.next().unwrap_or_default();
        let after = first.strip_prefix(mark);
        match after {
            Some(rest) if mark_width > 0 => writeln!(self.out, "{style}{mark}{style:#}{rest}")?,
            _ => writeln!(self.out, "{first}")?,
        }
        lines.try_for_each(|line| writeln!(self.out, "{:indent$}{line}", ""))
    }

    fn wrapped(
        &mut self,
        mark: &str,
        start: usize,
        indent: usize,
        text: &str,
        style: Style,
    ) -> io::Result<()> {
        let lines = self.fill(start, indent, &tidy(text));
        for (i, line) in lines.iter().enumerate() {
            let (mark, pad) = if i == 0 { (mark, start - width(mark)) } else { ("", indent) };
            writeln!(self.out, "{mark}{:pad$}{style}{line}{style:#}", "")?;
        }
        Ok(())
    }

    /// Lines of a text of which the first starts further to the right than the others, or less far.
    fn fill(&self, start: usize, indent: usize, text: &str) -> Vec<String> {
        let most = self.text_width();
        let room = most.saturating_sub(start).max(10);
        let first = wrap(text, room).into_iter().next().unwrap_or_default();
        let rest: usize = first.split_whitespace().count();
        let mut words = text.split_whitespace();
        // A word that fills more than the first line was broken inside: then all lines take the narrower room.
        if words.by_ref().take(rest).collect::<Vec<_>>().join(" ") != first {
            return wrap(text, room.min(most.saturating_sub(indent)));
        }
        let rest = words.collect::<Vec<_>>().join(" ");
        let mut lines = vec![first];
        if !rest.is_empty() {
            lines.extend(wrap(&rest, most.saturating_sub(indent).max(10)));
        }
        lines
    }

    /// Aligned columns.
    pub(crate) fn table(&mut self, table: &Table) -> io::Result<()> {
        table.write(self.out, self.width)
    }

    /// Names with what they mean, in two columns.
    pub(crate) fn names(&mut self, rows: Vec<(Cell, Cell)>) -> io::Result<()> {
        self.table(&Table::of_names(rows))
    }

    /// A message on a crossing file; the line of the file that it shows is not wrapped.
    pub(crate) fn diagnostic(&mut self, diagnostic: &Diagnostic) -> io::Result<()> {
        let style = match diagnostic.severity {
            Severity::Error => BAD,
            Severity::Warning => CLOSE,
        };
        for (i, line) in diagnostic.to_string().lines().enumerate() {
            match line.split_once(' ') {
                Some((word, text)) if i == 0 => self.marked(word, style, 2, text)?,
                _ if line.contains(" | ") => self.line(&cut(line, self.width))?,
                _ => {
                    let words = line.trim_start();
                    let indent = line.len() - words.len();
                    self.wrapped("", indent, indent + 2, words, super::style::PLAIN)?;
                }
            }
        }
        self.gap()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn printed(width: usize, print: impl Fn(&mut Page<'_>) -> io::Result<()>) -> String {
        let mut out = Vec::new();
        print(&mut Page::new(&mut out, width)).unwrap();
        anstream::adapter::strip_str(&String::from_utf8(out).unwrap()).to_string()
    }

    #[test]
    fn sentences_hang_below_their_mark() {
        let text =
            printed(40, |p| p.marked("✗ pull.rig", BAD, 4, "the pull at the rig exceeds it"));
        assert_eq!(text, "✗ pull.rig the pull at the rig exceeds\n    it\n");
        let text = printed(40, |p| p.indented("  hint:", 4, "give the diameter of the socket"));
        assert_eq!(text, "  hint: give the diameter of the socket\n");
    }

    #[test]
    fn no_line_is_wider_than_the_page_whatever_the_text() {
        let long = "横断".repeat(90) + " " + &"x".repeat(300);
        for indent in [0, 4, 12] {
            let text = printed(40, |p| {
                p.paragraph(indent, &long)?;
                p.marked("mark", BAD, indent, &long)?;
                p.indented("      mark", indent, &long)?;
                p.title(&long)
            });
            for line in text.lines() {
                assert!(width(line) <= 40, "{} columns: {line}", width(line));
            }
        }
    }
}
