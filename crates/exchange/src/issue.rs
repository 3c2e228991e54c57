use std::fmt;

use serde::Serialize;

/// Most errors, and most warnings, that one file gets; the last message then says how many more there are.
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
#[derive(Debug, Clone, PartialEq, Eq, Serialize, thiserror::Error)]
pub struct DataIssue {
    /// Stable name of the kind of message, never reused.
    pub code: &'static str,
    /// Whether it keeps the file from being read.
    pub severity: Severity,
    /// Line, counted from 1.
    pub line: usize,
    /// Column where the value starts, in characters counted from 1; nothing where the whole line is meant.
    pub column: Option<usize>,
    /// What is wrong, in one sentence without full stop.
    pub message: String,
    /// What was found, where one value is at fault.
    pub found: Option<String>,
    /// What is allowed.
    pub allowed: Option<String>,
    /// What to do.
    pub hint: Option<String>,
}

/// The message in one line, with its place.
impl fmt::Display for DataIssue {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "line {}", self.line)?;
        if let Some(column) = self.column {
            write!(f, ", column {column}")?;
        }
        write!(f, ": {}", self.message)?;
        if let Some(allowed) = &self.allowed {
            write!(f, "; allowed: {allowed}")?;
        }
        if let Some(hint) = &self.hint {
            write!(f, "; {hint}")?;
        }
        Ok(())
    }
}

impl DataIssue {
    /// Adds what was found.
    pub(crate) fn found(&mut self, text: impl AsRef<str>) -> &mut Self {
        self.found = Some(brief(text.as_ref()));
        self
    }

    /// Adds what is allowed.
    pub(crate) fn allowed(&mut self, text: impl AsRef<str>) -> &mut Self {
        self.allowed = Some(printable(text.as_ref()));
        self
    }

    /// Adds what to do.
    pub(crate) fn hint(&mut self, text: impl AsRef<str>) -> &mut Self {
        self.hint = Some(printable(text.as_ref()));
        self
    }
}

/// A place in the file.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Place {
    pub(crate) line: usize,
    pub(crate) column: Option<usize>,
}

impl Place {
    /// A whole line.
    pub(crate) fn line(line: usize) -> Self {
        Self { line, column: None }
    }
}

/// A value and where it stands.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Located<T> {
    pub(crate) value: T,
    pub(crate) place: Place,
}

/// Collects the messages on one file.
#[derive(Debug, Default)]
pub(crate) struct Issues {
    errors: Kept,
    warnings: Kept,
}

#[derive(Debug, Default)]
struct Kept {
    list: Vec<DataIssue>,
    left_out: usize,
}

impl Kept {
    fn note(&mut self, issue: DataIssue) -> &mut DataIssue {
        // Beyond the limit messages are only counted; the newest takes one spare place, so that its parts have
        // somewhere to go.
        if self.list.len() >= MOST {
            self.list.truncate(MOST);
            self.left_out += 1;
        }
        self.list.push(issue);
        let last = self.list.len() - 1;
        &mut self.list[last]
    }

    fn finish(mut self, severity: Severity) -> Vec<DataIssue> {
        if self.left_out > 0 {
            self.list.truncate(MOST);
            let kind = if severity == Severity::Error { "errors" } else { "warnings" };
            let message = format!("{} more {kind} are not shown", self.left_out);
            let line = self.list.iter().map(|i| i.line).max().unwrap_or(1);
            self.list.push(issue("too_many", severity, Place::line(line), message));
        }
        self.list
    }
}

impl Issues {
    /// Notes an error; what it returns takes what was found, what is allowed and a hint.
    pub(crate) fn error(
        &mut self,
        code: &'static str,
        place: Place,
        message: impl AsRef<str>,
    ) -> &mut DataIssue {
        self.errors.note(issue(code, Severity::Error, place, message))
    }

    /// Notes a warning.
    pub(crate) fn warning(
        &mut self,
        code: &'static str,
        place: Place,
        message: impl AsRef<str>,
    ) -> &mut DataIssue {
        self.warnings.note(issue(code, Severity::Warning, place, message))
    }

    /// Whether the file cannot be used.
    pub(crate) fn failed(&self) -> bool {
        !self.errors.list.is_empty()
    }

    /// All messages in the order of the file.
    pub(crate) fn finish(self) -> Vec<DataIssue> {
        let mut list = self.errors.finish(Severity::Error);
        list.extend(self.warnings.finish(Severity::Warning));
        // What is left out comes last of its line.
        list.sort_by_key(|i| (i.line, i.code == "too_many", i.column, i.code));
        list
    }
}

fn issue(
    code: &'static str,
    severity: Severity,
    place: Place,
    message: impl AsRef<str>,
) -> DataIssue {
    DataIssue {
        code,
        severity,
        line: place.line,
        column: place.column,
        message: printable(message.as_ref()),
        found: None,
        allowed: None,
        hint: None,
    }
}

/// A text of the file without the characters that would steer a terminal.
fn printable(text: &str) -> String {
    text.chars().map(|c| if c.is_control() { '\u{fffd}' } else { c }).collect()
}

/// A text of the file, cut to a length that a message can carry.
pub(crate) fn brief(text: &str) -> String {
    const MOST_CHARACTERS: usize = 60;
    let mut cut: String = text.chars().take(MOST_CHARACTERS).collect();
    if cut.len() < text.len() {
        cut.push('…');
    }
    printable(&cut)
}

/// The nearest of some known words, where one is near enough to be meant.
pub(crate) fn nearest<'w>(
    wanted: &str,
    known: impl IntoIterator<Item = &'w str>,
) -> Option<&'w str> {
    const NEAR: f64 = 0.8;
    // Similarity costs the product of the lengths; no name is anywhere near this long.
    if wanted.len() > 100 {
        return None;
    }
    let wanted = wanted.to_lowercase();
    known
        .into_iter()
        .map(|word| (strsim::jaro_winkler(&wanted, &word.to_lowercase()), word))
        .filter(|(likeness, _)| *likeness >= NEAR)
        .max_by(|a, b| a.0.total_cmp(&b.0))
        .map(|(_, word)| word)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_message_says_where_what_allowed_and_what_to_do() {
        let mut issues = Issues::default();
        let place = Place { line: 12, column: Some(7) };
        issues
            .error("out_of_range", place, "GEOL_TOP must not be negative")
            .found("-1")
            .allowed("0 m to 1000 m")
            .hint("depths count downwards");
        let shown: Vec<_> = issues.finish().iter().map(ToString::to_string).collect();
        assert_eq!(
            shown,
            [concat!(
                "line 12, column 7: GEOL_TOP must not be negative; allowed: 0 m to 1000 m; ",
                "depths count downwards"
            )]
        );
    }

    #[test]
    fn errors_survive_many_warnings_and_the_rest_is_counted() {
        let mut issues = Issues::default();
        for line in 1..=MOST + 7 {
            issues.warning("gap", Place::line(line), "w").hint("none");
        }
        issues.error("overlap", Place::line(3), "e");
        assert!(issues.failed());
        let list = issues.finish();
        assert_eq!(list.len(), MOST + 2);
        assert!(list.iter().any(|i| i.code == "overlap" && i.line == 3));
        let last = list.last().map(|i| i.message.as_str());
        assert_eq!(last, Some("7 more warnings are not shown"));
    }

    #[test]
    fn texts_of_the_file_cannot_steer_a_terminal_and_are_short() {
        let mut issues = Issues::default();
        issues.error("x", Place::line(1), "a\u{1b}[31m").found("\u{7}".repeat(80));
        let list = issues.finish();
        let first = list.first().unwrap();
        assert!(!first.message.contains('\u{1b}'));
        assert_eq!(first.found.as_ref().unwrap().chars().count(), 61);
    }

    #[test]
    fn near_words_are_found_and_far_ones_are_not() {
        assert_eq!(nearest("geo_top", ["GEOL_TOP", "GEOL_BASE"]), Some("GEOL_TOP"));
        assert_eq!(nearest("xyz", ["GEOL_TOP"]), None);
        assert_eq!(nearest(&"GEOL_TOP".repeat(20), ["GEOL_TOP"]), None);
    }
}
