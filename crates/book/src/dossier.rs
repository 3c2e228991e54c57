//! All documents of a design, by part.

use sheets::data::Omitted;
use sheets::scene::{self, Drawing};
use sheets::{NamedFile, Subject};

use crate::{BookError, calculation_book, drawing_pdf};

/// A part of the dossier that can be made alone.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Part {
    /// The calculation book.
    Book,
    /// The drawings as SVG, DXF and PDF.
    Drawings,
    /// The workbook.
    Workbook,
    /// The data files.
    Data,
}

impl Part {
    /// All parts, in the order in which a reader wants them.
    pub const ALL: [Part; 4] = [Part::Book, Part::Drawings, Part::Workbook, Part::Data];

    /// Its name on command line and in addresses.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Part::Book => "book",
            Part::Drawings => "drawings",
            Part::Workbook => "workbook",
            Part::Data => "data",
        }
    }
}

/// Documents that were made and not yet written.
#[derive(Debug, Clone, Default)]
pub struct Dossier {
    /// Files in the order in which a reader wants them.
    pub files: Vec<NamedFile>,
    /// Files that could not be made for this design, and why.
    pub omitted: Vec<Omitted>,
}

impl Dossier {
    /// Puts the files of another part behind these.
    pub fn extend(&mut self, other: Dossier) {
        self.files.extend(other.files);
        self.omitted.extend(other.omitted);
    }
}

/// Makes one part.
///
/// # Errors
/// [`BookError`] when a document cannot be typeset or a workbook cannot be put together, which is a fault of this
/// program.
pub fn make(subject: &Subject<'_>, part: Part) -> Result<Dossier, BookError> {
    subject.for_reader(|subject| match part {
        Part::Book => {
            let drawings = sheets::drawing::drawings(subject);
            let bytes = calculation_book(subject, &drawings, &assess::setting_out(subject.design))?;
            Ok(one("calculation-book.pdf", "application/pdf", "calculation book", bytes))
        }
        Part::Drawings => drawings(subject),
        Part::Workbook => {
            let bytes = sheets::workbook::workbook(subject)
                .map_err(|e| BookError::Workbook(e.to_string()))?;
            let media = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet";
            Ok(one("workbook.xlsx", media, "workbook with live formulas", bytes))
        }
        Part::Data => {
            let (files, omitted) = sheets::data::files(subject);
            Ok(Dossier { files, omitted })
        }
    })
}

fn one(name: &str, media_type: &'static str, title: &str, bytes: Vec<u8>) -> Dossier {
    let file = NamedFile { name: name.to_owned(), media_type, title: title.to_owned(), bytes };
    Dossier { files: vec![file], omitted: Vec::new() }
}

fn drawings(subject: &Subject<'_>) -> Result<Dossier, BookError> {
    let drawings = sheets::drawing::drawings(subject);
    let title = format!("{}: drawings", subject.assessment.crossing.name);
    let bytes = drawing_pdf(&drawings, &title, &subject.issue)?;
    let mut made = one("drawings.pdf", "application/pdf", "all drawings", bytes);
    for drawing in &drawings {
        made.files.extend(files_of(drawing));
    }
    Ok(made)
}

/// The DXF of a drawing and the SVG of each of its sheets.
fn files_of(drawing: &Drawing) -> Vec<NamedFile> {
    let mut files = vec![NamedFile {
        name: format!("{}.dxf", drawing.id),
        media_type: "image/vnd.dxf",
        title: drawing.title.clone(),
        bytes: scene::dxf::dxf(drawing),
    }];
    let several = drawing.sheets.len() > 1;
    for (sheet, number) in drawing.sheets.iter().zip(1_usize..) {
        let name = if several { format!("{}-{number}", drawing.id) } else { drawing.id.clone() };
        files.push(NamedFile {
            name: format!("{name}.svg"),
            media_type: "image/svg+xml",
            title: sheet.title.clone(),
            bytes: scene::svg::svg(sheet).into_bytes(),
        });
    }
    files
}
