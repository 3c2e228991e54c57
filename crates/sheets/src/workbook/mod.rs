//! The workbook: every check with its working as live formulas, for a reviewer who recomputes them elsewhere.
//!
//! Values put in stand once, on the sheet *Inputs*; each line of a working is a formula in SI units that refers to earlier
//! lines and to inputs, beside the value that this program found. What a procedure found stands as a number and says so.
//! Stored results are this program's values, so that a reader without recalculation sees them, too.

use rust_xlsxwriter::{DocProperties, ExcelDateTime, Workbook, XlsxError};

use self::inputs::Inputs;
use self::style::Styles;
use self::workings::Workings;
use crate::Subject;

mod charts;
mod checks;
mod curves;
mod formula;
mod inputs;
mod lists;
mod note;
mod page;
mod style;
mod text;
mod workings;

/// Why a workbook could not be made.
#[derive(Debug, thiserror::Error)]
pub enum WorkbookError {
    /// The writer of the format refused something.
    #[error("the workbook cannot be written: {0}")]
    Write(#[from] XlsxError),
}

/// The workbook of a design, as the bytes of an `.xlsx` file; the same subject gives the same bytes.
///
/// # Errors
/// [`WorkbookError::Write`] where the format holds no more, as more than a million rows.
pub fn workbook(subject: &Subject) -> Result<Vec<u8>, WorkbookError> {
    subject.for_reader(make)
}

fn make(subject: &Subject) -> Result<Vec<u8>, WorkbookError> {
    let styles = Styles::new();
    let inputs = Inputs::of(&subject.explanations);
    let workings = Workings::new(subject);
    let mut book = Workbook::new();
    book.set_properties(&properties(subject)?);
    book.push_worksheet(checks::sheet(subject, &workings, &styles)?);
    book.push_worksheet(inputs.sheet(subject, &styles)?);
    for sheet in workings.sheets(subject, &inputs, &styles)? {
        book.push_worksheet(sheet);
    }
    if let Some(sheet) = lists::joints(subject, &styles)? {
        book.push_worksheet(sheet);
    }
    let curves = curves::Curves::of(subject);
    if !curves.is_empty() {
        book.push_worksheet(charts::sheet(subject, &curves, &styles)?);
        book.push_worksheet(curves.sheet(subject, &styles)?);
    }
    for sheet in lists::sheets(subject, &styles)? {
        book.push_worksheet(sheet);
    }
    Ok(book.save_to_buffer()?)
}

/// What the file says about itself. The day is that of the issue; without one it is a constant, never the clock.
fn properties(subject: &Subject) -> Result<DocProperties, XlsxError> {
    let (year, month, day) = subject.issue.date.map_or((2000, 1, 1), crate::Date::parts);
    let mut properties = DocProperties::new()
        .set_title(text::briefly(&subject.assessment.crossing.name, 200))
        .set_subject("Checks of a design with their workings")
        .set_creation_datetime(&ExcelDateTime::from_ymd(year, month, day)?);
    if let Some(author) = &subject.issue.author {
        properties = properties.set_author(text::briefly(author, 200));
    }
    Ok(properties)
}
