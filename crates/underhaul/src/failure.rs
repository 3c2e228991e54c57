//! How a command ends: done, done with a check that is not met, or not done and why.

use std::io;

use project::{Diagnostic, Severity};
use serde::Serialize;
use serde_json::{Value, json};

use crate::print::{Page, counted, style};

/// What a command found.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Outcome {
    /// Everything that was asked for.
    Done,
    /// A check is not met, or could not be made.
    NotMet,
}

/// Why a command could not do what was asked.
#[derive(Debug)]
pub(crate) enum Failure {
    /// What was typed, or a file, cannot be used.
    Told(Vec<Complaint>),
    /// A crossing file has errors.
    File(Vec<Diagnostic>),
}

/// One complaint: what is wrong and what to do.
#[derive(Debug, Serialize)]
pub(crate) struct Complaint {
    /// Stable name of the kind of complaint.
    pub code: &'static str,
    /// The word at fault, where there is one.
    pub key: Option<String>,
    /// What is wrong.
    pub message: String,
    /// What to do.
    pub hint: Option<String>,
}

impl Complaint {
    /// A complaint without the word at fault.
    pub(crate) fn new(code: &'static str, message: impl Into<String>) -> Self {
        Self { code, key: None, message: message.into(), hint: None }
    }

    /// The same with the word at fault.
    pub(crate) fn about(mut self, key: impl Into<String>) -> Self {
        self.key = Some(key.into());
        self
    }

    /// The same with what to do.
    pub(crate) fn hint(mut self, hint: impl Into<String>) -> Self {
        self.hint = Some(hint.into());
        self
    }
}

impl From<Complaint> for Failure {
    fn from(complaint: Complaint) -> Self {
        Failure::Told(vec![complaint])
    }
}

impl Failure {
    /// The outcome, unless writing failed; a reader who closed the pipe has seen enough and nothing went wrong.
    pub(crate) fn unless_closed(
        written: io::Result<()>,
        outcome: Outcome,
    ) -> Result<Outcome, Self> {
        match written {
            Err(e) if e.kind() != io::ErrorKind::BrokenPipe => {
                let message = format!("the results could not be written: {e}");
                Err(Complaint::new("not_written", message).into())
            }
            _ => Ok(outcome),
        }
    }

    /// Prints for a person.
    pub(crate) fn print(&self, page: &mut Page<'_>) -> io::Result<()> {
        match self {
            Failure::Told(list) => {
                for complaint in list {
                    let mark = format!("error[{}]:", complaint.code);
                    page.marked(&mark, style::BAD, 2, &complaint.message)?;
                    if let Some(hint) = &complaint.hint {
                        page.indented("  hint:", 4, hint)?;
                    }
                }
                Ok(())
            }
            Failure::File(list) => print_diagnostics(page, list),
        }
    }

    /// For a program: `{"errors": […]}`.
    pub(crate) fn to_json(&self) -> Value {
        match self {
            Failure::File(list) => json!({ "errors": list }),
            Failure::Told(list) => json!({ "errors": list }),
        }
    }
}

fn print_diagnostics(page: &mut Page<'_>, list: &[Diagnostic]) -> io::Result<()> {
    for diagnostic in list {
        page.diagnostic(diagnostic)?;
    }
    let errors = list.iter().filter(|d| d.severity == Severity::Error).count();
    if errors > 0 {
        let count = counted(errors, "error", "errors");
        page.paragraph(0, &format!("{count}: nothing was computed."))?;
    }
    Ok(())
}
