use std::fmt;
use std::ops::Range;

use serde::Serialize;

use crate::source::{Excerpt, SourceText};

/// Most messages that one file gets; the last one then says how many more there are.
const MOST: usize = 200;

/// Whether a message keeps the file from being read.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Severity {
    /// The file cannot be used as it is.
    Error,
    /// The file can be used, but somebody should look.
    Warning,
}

/// One message on a file: where, what was found, what is allowed, what to do.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Diagnostic {
    /// Stable name of the kind of message, never reused.
    pub code: &'static str,
    /// Whether it keeps the file from being read.
    pub severity: Severity,
    /// What is wrong, in one sentence without full stop.
    pub message: String,
    /// What was found, where one value is at fault.
    pub found: Option<String>,
    /// What is allowed.
    pub allowed: Option<String>,
    /// What to do.
    pub hint: Option<String>,
    /// Place in the file's data, as `/line/entry_radius`.
    pub path: String,
    /// Name of the file as it was given.
    pub file: String,
    /// Line, counted from 1.
    pub line: usize,
    /// First column, in characters from 1.
    pub column: usize,
    /// Column after the last one.
    pub end_column: usize,
    #[serde(skip)]
    excerpt: Excerpt,
}

/// A place in the file: path of the data and bytes of the text.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(crate) struct Place {
    pub(crate) path: String,
    pub(crate) span: Range<usize>,
}

/// Collects the messages on one file.
#[derive(Debug)]
pub(crate) struct Report<'a> {
    source: SourceText<'a>,
    list: Vec<Diagnostic>,
    left_out: usize,
    errors: usize,
}

impl Diagnostic {
    /// Adds what is allowed.
    pub(crate) fn allowed(&mut self, text: impl Into<String>) -> &mut Self {
        self.allowed = Some(printable(&text.into()));
        self
    }

    /// Adds what was found.
    pub(crate) fn found(&mut self, text: impl Into<String>) -> &mut Self {
        self.found = Some(printable(&text.into()));
        self
    }

    /// Adds what to do.
    pub(crate) fn hint(&mut self, text: impl Into<String>) -> &mut Self {
        self.hint = Some(printable(&text.into()));
        self
    }
}

impl Place {
    /// A place below this one in the data, at the same bytes until it is given its own.
    pub(crate) fn below(&self, key: impl fmt::Display) -> Self {
        Self { path: format!("{}/{key}", self.path), span: self.span.clone() }
    }

    /// The same place in the data at other bytes.
    pub(crate) fn at(mut self, span: Range<usize>) -> Self {
        self.span = span;
        self
    }
}

impl<'a> Report<'a> {
    pub(crate) fn new(name: &'a str, text: &'a str) -> Self {
        let source = SourceText::new(name, text);
        Self { source, list: Vec::new(), left_out: 0, errors: 0 }
    }

    /// Notes an error; what it returns takes what was found, what is allowed and a hint.
    pub(crate) fn error(
        &mut self,
        code: &'static str,
        place: &Place,
        message: impl Into<String>,
    ) -> &mut Diagnostic {
        self.errors += 1;
        self.note(Severity::Error, code, place, message.into())
    }

    /// Notes a warning.
    pub(crate) fn warning(
        &mut self,
        code: &'static str,
        place: &Place,
        message: impl Into<String>,
    ) -> &mut Diagnostic {
        self.note(Severity::Warning, code, place, message.into())
    }

    /// Number of errors so far.
    pub(crate) fn errors(&self) -> usize {
        self.errors
    }

    /// Whether a message of this kind was noted.
    pub(crate) fn has(&self, code: &str) -> bool {
        self.list.iter().any(|d| d.code == code)
    }

    /// All messages in the order of the file.
    pub(crate) fn finish(mut self) -> Vec<Diagnostic> {
        self.list.truncate(MOST);
        self.list.sort_by(|a, b| {
            (a.line, a.column, a.code, &a.path).cmp(&(b.line, b.column, b.code, &b.path))
        });
        if self.left_out > 0 {
            let message = format!("{} more messages are not shown", self.left_out);
            let severity = if self.errors > 0 { Severity::Error } else { Severity::Warning };
            let last = self.describe(severity, "too_many", &Place::default(), message);
            self.list.push(last);
        }
        self.list
    }

    fn note(
        &mut self,
        severity: Severity,
        code: &'static str,
        place: &Place,
        message: String,
    ) -> &mut Diagnostic {
        // Beyond the limit messages are only counted. The newest takes one spare place, so that its
        // parts have somewhere to go; its place in the file is not looked up, which costs time in a
        // file with one long line.
        let place = if self.list.len() < MOST { place } else { &Place::default() };
        if self.list.len() >= MOST {
            self.list.truncate(MOST);
            self.left_out += 1;
        }
        let entry = self.describe(severity, code, place, message);
        self.list.push(entry);
        let last = self.list.len() - 1;
        &mut self.list[last]
    }

    fn describe(
        &self,
        severity: Severity,
        code: &'static str,
        place: &Place,
        message: String,
    ) -> Diagnostic {
        let at = self.source.position(&place.span);
        Diagnostic {
            code,
            severity,
            message: printable(&message),
            found: None,
            allowed: None,
            hint: None,
            path: printable(&place.path),
            file: self.source.name.to_owned(),
            line: at.line,
            column: at.column,
            end_column: at.end_column,
            excerpt: self.source.excerpt(at),
        }
    }
}

/// A text of the file without the characters that would steer a terminal.
fn printable(text: &str) -> String {
    text.chars().map(|c| if c.is_control() { '\u{fffd}' } else { c }).collect()
}

/// A text of the file, cut to a length that a message can carry.
pub(crate) fn brief(text: &str) -> String {
    const MOST_CHARACTERS: usize = 60;
    match text.char_indices().nth(MOST_CHARACTERS) {
        Some((at, _)) => format!("{}…", text.get(..at).unwrap_or_default()),
        None => text.to_owned(),
    }
}

/// The message with its line of the file, as printed on a terminal.
impl fmt::Display for Diagnostic {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let word = match self.severity {
            Severity::Error => "error",
            Severity::Warning => "warning",
        };
        writeln!(f, "{word}[{}]: {}", self.code, self.message)?;
        write!(f, "  --> {}:{}:{}", self.file, self.line, self.column)?;
        if !self.path.is_empty() {
            write!(f, "   at {}", self.path)?;
        }
        writeln!(f)?;
        writeln!(f, "{:>5} | {}", self.line, self.excerpt.text)?;
        let (gap, mark) = (" ".repeat(self.excerpt.before), "^".repeat(self.excerpt.marked));
        writeln!(f, "      | {gap}{mark}")?;
        if let Some(allowed) = &self.allowed {
            writeln!(f, "  allowed: {allowed}")?;
        }
        if let Some(hint) = &self.hint {
            writeln!(f, "  hint: {hint}")?;
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn report() -> Report<'static> {
        Report::new("creek.toml", "format = 1\nentry_radius = \"-120 m\"\n")
    }

    #[test]
    fn a_message_says_where_what_allowed_and_what_to_do() {
        let mut report = report();
        let place = Place { path: "/line/entry_radius".to_owned(), span: 26..34 };
        report
            .error("out_of_range", &place, "entry_radius must be greater than 0, but was -120 m")
            .allowed("greater than 0")
            .hint("write the radius as a positive length");
        let shown = report.finish().first().map(ToString::to_string);
        assert_eq!(
            shown.as_deref(),
            Some(concat!(
                "error[out_of_range]: entry_radius must be greater than 0, but was -120 m\n",
                "  --> creek.toml:2:16   at /line/entry_radius\n",
                "    2 | entry_radius = \"-120 m\"\n",
                "      |                ^^^^^^^^\n",
                "  allowed: greater than 0\n",
                "  hint: write the radius as a positive length\n",
            ))
        );
    }

    #[test]
    fn messages_beyond_the_limit_are_counted() {
        let mut report = report();
        for i in 0..MOST + 7 {
            report.error("unknown_key", &Place::default(), format!("{i}")).hint("none");
        }
        let list = report.finish();
        assert_eq!(list.len(), MOST + 1);
        assert_eq!(list.last().map(|d| d.message.as_str()), Some("7 more messages are not shown"));
    }

    #[test]
    fn messages_come_in_the_order_of_the_file() {
        let mut report = report();
        report.error("b", &Place { path: String::new(), span: 11..12 }, "second");
        report.error("a", &Place { path: String::new(), span: 0..1 }, "first");
        let order: Vec<_> = report.finish().into_iter().map(|d| d.message).collect();
        assert_eq!(order, ["first", "second"]);
    }
}
