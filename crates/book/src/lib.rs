//! Calculation book and drawings as PDF.
//!
//! Typesetting needs many crates of others: all of them stay behind this one. Texts of the user enter the templates as
//! data and never become code; nothing is read from disk or network, and no clock is asked.

use assess::SettingOut;
use sheets::scene::Drawing;
use sheets::{Issue, Subject};

pub mod dossier;

mod content;
mod curves;
mod drawing;
mod formula;
mod letters;
mod picture;
mod plot;
mod references;
mod typesetter;

/// Why no PDF could be made. It says nothing on the design: the fault lies in this program.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum BookError {
    /// The template could not be set.
    #[error("the document could not be set in type: {}", .0.join("; "))]
    Setting(Vec<String>),
    /// The pages could not be written as PDF.
    #[error("the document could not be written as PDF: {}", .0.join("; "))]
    Writing(Vec<String>),
    /// A part of the document could not be prepared.
    #[error("the document could not be prepared: {0}")]
    Preparing(String),
    /// The workbook could not be put together.
    #[error("{0}")]
    Workbook(String),
}

/// The calculation book of a design: verdict, every check with its working, curves, setting out, assumptions and
/// references, and the drawings that are handed in.
///
/// # Errors
/// [`BookError`] where this program's own template fails; no design and no text of a user is a reason.
pub fn calculation_book(
    subject: &Subject<'_>,
    drawings: &[Drawing],
    setting_out: &SettingOut,
) -> Result<Vec<u8>, BookError> {
    subject.for_reader(|subject| content::book(subject, drawings, setting_out))
}

/// Drawings as PDF, each sheet a page of its own size.
///
/// # Errors
/// As [`calculation_book`], and where no sheet is handed in.
pub fn drawing_pdf(drawings: &[Drawing], title: &str, issue: &Issue) -> Result<Vec<u8>, BookError> {
    drawing::pdf(drawings, title, issue)
}
