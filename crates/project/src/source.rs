use std::ops::Range;

/// Longest stretch of a line that is shown under a message, in characters.
const WINDOW: usize = 96;
/// Characters kept before the place of an error in a long line.
const LEAD: usize = 32;
/// Characters that a tab is shown as.
const TAB: &str = "    ";

/// The text of a file with its lines, to turn byte offsets into places for people.
#[derive(Debug)]
pub(crate) struct SourceText<'a> {
    /// Name of the file as it is printed.
    pub(crate) name: &'a str,
    text: &'a str,
    starts: Vec<usize>,
}

/// A stretch of one line: numbers count from 1, columns count characters.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Position {
    pub(crate) line: usize,
    pub(crate) column: usize,
    pub(crate) end_column: usize,
}

/// The line of an error, cut and cleaned for printing, with the stretch to be marked.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Excerpt {
    pub(crate) text: String,
    pub(crate) before: usize,
    pub(crate) marked: usize,
}

impl<'a> SourceText<'a> {
    pub(crate) fn new(name: &'a str, text: &'a str) -> Self {
        let after_breaks = text.match_indices('\n').map(|(at, _)| at + 1);
        Self { name, text, starts: std::iter::once(0).chain(after_breaks).collect() }
    }

    /// Where a span of bytes lies; what runs over the end of its first line is cut there.
    pub(crate) fn position(&self, span: &Range<usize>) -> Position {
        let (line, range) = self.line_at(span.start);
        let text = self.text.get(range.clone()).unwrap_or_default();
        let column = characters_to(text, span.start.saturating_sub(range.start));
        let end = characters_to(text, span.end.clamp(range.start, range.end) - range.start);
        Position { line: line + 1, column: column + 1, end_column: end.max(column + 1) + 1 }
    }

    /// The line of a position, ready to be printed.
    pub(crate) fn excerpt(&self, at: Position) -> Excerpt {
        let range = self.line_range(at.line.saturating_sub(1));
        let text = self.text.get(range).unwrap_or_default();
        let (from, to) = (at.column.saturating_sub(1), at.end_column.saturating_sub(1));
        let first = if text.chars().count() > WINDOW { from.saturating_sub(LEAD) } else { 0 };
        let mut shown = Excerpt { text: String::new(), before: 0, marked: 0 };
        if first > 0 {
            shown.text.push('…');
            shown.before = 1;
        }
        let mut rest = text.chars().enumerate().skip(first);
        for (i, c) in rest.by_ref().take(WINDOW) {
            let width = push_clean(&mut shown.text, c);
            if i < from {
                shown.before += width;
            } else if i < to {
                shown.marked += width;
            }
        }
        if rest.next().is_some() {
            shown.text.push('…');
        }
        shown.marked = shown.marked.max(1);
        shown
    }

    fn line_at(&self, offset: usize) -> (usize, Range<usize>) {
        let line = self.starts.partition_point(|start| *start <= offset).saturating_sub(1);
        (line, self.line_range(line))
    }

    /// Bytes of a line without its line break.
    fn line_range(&self, line: usize) -> Range<usize> {
        let start = self.starts.get(line).copied().unwrap_or(self.text.len());
        let next = self.starts.get(line + 1).map_or(self.text.len(), |next| next - 1);
        let body = self.text.get(start..next).unwrap_or_default();
        start..start + body.strip_suffix('\r').unwrap_or(body).len()
    }
}

/// Number of characters that begin before a byte offset of a text.
fn characters_to(text: &str, offset: usize) -> usize {
    text.char_indices().take_while(|(at, _)| *at < offset).count()
}

/// Appends a character as it may be printed and returns how many columns it takes.
fn push_clean(out: &mut String, c: char) -> usize {
    if c == '\t' {
        out.push_str(TAB);
        return TAB.len();
    }
    out.push(if c.is_control() { '\u{fffd}' } else { c });
    1
}

#[cfg(test)]
mod tests {
    use super::*;

    fn at(text: &str, span: Range<usize>) -> (Position, Excerpt) {
        let source = SourceText::new("x.toml", text);
        let position = source.position(&span);
        let excerpt = source.excerpt(position);
        (position, excerpt)
    }

    #[test]
    fn lines_and_columns_count_characters_from_one() {
        let (p, e) = at("a = 1\r\nbé = \"ü\"\r\n", 13..17);
        assert_eq!((p.line, p.column, p.end_column), (2, 6, 9));
        assert_eq!(e.text, "bé = \"ü\"");
        assert_eq!((e.before, e.marked), (5, 3));
    }

    #[test]
    fn tabs_and_control_characters_keep_the_mark_in_its_place() {
        let (_, e) = at("\tk\u{1b} = 7", 6..7);
        assert_eq!(e.text, "    k\u{fffd} = 7");
        assert_eq!(e.text.chars().nth(e.before), Some('7'));
    }

    #[test]
    fn a_long_line_is_cut_around_the_place() {
        let text = format!("k = [{}9 ]", "1, ".repeat(5_000));
        let (_, e) = at(&text, 15_005..15_006);
        assert!(e.text.chars().count() <= WINDOW + 2);
        assert_eq!(e.text.chars().nth(e.before), Some('9'));
    }

    #[test]
    fn spans_beyond_the_text_or_over_lines_are_cut_and_never_empty() {
        assert_eq!(at("", 5..9).0, Position { line: 1, column: 1, end_column: 2 });
        let (p, e) = at("ab\ncd", 1..5);
        assert_eq!((p.line, p.column, p.end_column, e.marked), (1, 2, 3, 1));
    }
}
