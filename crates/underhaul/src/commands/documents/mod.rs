//! What leaves the engineer's desk: the whole dossier, and each part of it alone.

use std::path::{Path, PathBuf};

use assess::Status;
use book::dossier::{Dossier, Part};
use clap::Args;
use sheets::{Date, Issue, Subject};

use self::output::write_all;
use super::check;
use crate::cli::Units;
use crate::crossing_file;
use crate::failure::{Complaint, Failure, Outcome};
use crate::print::{self, Page, counted};

mod output;

/// Characters of a revision or an author that a title block takes.
const LONGEST_WORD: usize = 80;

/// Examples with the exit codes that all these commands share.
macro_rules! after {
    ($examples:literal) => {
        concat!(
            $examples,
            "

Exit codes:
  0  made; every check was made and is met
  1  made, but a check is not met or could not be made: the documents say so
  2  nothing was made: the file cannot be used, a file is in the way, or a
     system error"
        )
    };
}

/// Options that all documents share.
#[derive(Debug, Args)]
pub(crate) struct Options {
    /// The crossing file; "-" reads standard input.
    file: PathBuf,
    /// Day of the issue, as 2026-05-31; without it the documents show none.
    #[arg(long, value_name = "DAY")]
    date: Option<Date>,
    /// Revision in the title blocks.
    #[arg(long, value_name = "WORD", value_parser = word)]
    revision: Option<String>,
    /// Who issues the documents.
    #[arg(long, value_name = "NAME", value_parser = word)]
    author: Option<String>,
    /// Units of printed values; workbook formulas and data files are SI.
    #[arg(long, value_enum, default_value_t)]
    units: Units,
    /// Replace files that exist already.
    #[arg(long)]
    replace: bool,
}

/// A word of a title block: one line that fits.
fn word(text: &str) -> Result<String, String> {
    let text = text.trim();
    if text.is_empty() || text.chars().count() > LONGEST_WORD || text.chars().any(char::is_control)
    {
        return Err(format!("one line of 1 to {LONGEST_WORD} characters is allowed"));
    }
    Ok(text.to_owned())
}

/// Makes all documents of a design: calculation book, drawings, workbook, data files.
///
/// Reads a crossing file and writes into the folder DIR: the calculation book (PDF), drawings (PDF, SVG, DXF), the workbook
/// with live formulas (XLSX), curves and setting-out (CSV), the line (LandXML, and GeoJSON where the file gives
/// coordinates) and the assessment (JSON). The same file with the same options gives the same bytes.
#[derive(Debug, Args)]
#[command(after_help = DOSSIER)]
pub(crate) struct MakeDossier {
    #[command(flatten)]
    options: Options,
    /// Folder for the files; made where it does not exist.
    #[arg(short, long, value_name = "DIR")]
    output: PathBuf,
}

const DOSSIER: &str = after!(
    "\
Examples:
  underhaul dossier creek.toml -o creek
  underhaul dossier creek.toml -o creek --date 2026-05-31 --revision B"
);

/// Makes the calculation book.
///
/// Verdict, every check with its working in formulas, numbers and sources, drawings, curves, all assumptions.
#[derive(Debug, Args)]
#[command(after_help = BOOK)]
pub(crate) struct MakeBook {
    #[command(flatten)]
    options: Options,
    /// The PDF to write.
    #[arg(short, long, value_name = "PDF")]
    output: PathBuf,
}

const BOOK: &str = after!(
    "\
Examples:
  underhaul book creek.toml -o creek.pdf"
);

/// Makes the drawings as PDF, SVG and DXF.
///
/// Long section, plan, cross-section, site layout. A DXF holds real coordinates in metres in its model, and the sheets at
/// scale as layouts.
#[derive(Debug, Args)]
#[command(after_help = DRAWINGS)]
pub(crate) struct MakeDrawings {
    #[command(flatten)]
    options: Options,
    /// Folder for the files; made where it does not exist.
    #[arg(short, long, value_name = "DIR")]
    output: PathBuf,
}

const DRAWINGS: &str = after!(
    "\
Examples:
  underhaul drawings creek.toml -o drawings"
);

/// Makes the workbook, in which every working is a live formula.
#[derive(Debug, Args)]
#[command(after_help = WORKBOOK)]
pub(crate) struct MakeWorkbook {
    #[command(flatten)]
    options: Options,
    /// The XLSX to write.
    #[arg(short, long, value_name = "XLSX")]
    output: PathBuf,
}

const WORKBOOK: &str = after!(
    "\
Examples:
  underhaul workbook creek.toml -o creek.xlsx"
);

/// Makes the data files: curves, setting-out, line, assessment.
#[derive(Debug, Args)]
#[command(after_help = DATA)]
pub(crate) struct MakeData {
    #[command(flatten)]
    options: Options,
    /// Folder for the files; made where it does not exist.
    #[arg(short, long, value_name = "DIR")]
    output: PathBuf,
}

const DATA: &str = after!(
    "\
Examples:
  underhaul data creek.toml -o data"
);

impl MakeDossier {
    /// Reads, computes, writes.
    pub(crate) fn run(&self, page: &mut Page<'_>) -> Result<Outcome, Failure> {
        self.options.make(page, &Part::ALL, &Target::Folder(&self.output))
    }
}

impl MakeBook {
    /// Reads, computes, writes.
    pub(crate) fn run(&self, page: &mut Page<'_>) -> Result<Outcome, Failure> {
        self.options.make(page, &[Part::Book], &Target::File(&self.output))
    }
}

impl MakeDrawings {
    /// Reads, computes, writes.
    pub(crate) fn run(&self, page: &mut Page<'_>) -> Result<Outcome, Failure> {
        self.options.make(page, &[Part::Drawings], &Target::Folder(&self.output))
    }
}

impl MakeWorkbook {
    /// Reads, computes, writes.
    pub(crate) fn run(&self, page: &mut Page<'_>) -> Result<Outcome, Failure> {
        self.options.make(page, &[Part::Workbook], &Target::File(&self.output))
    }
}

impl MakeData {
    /// Reads, computes, writes.
    pub(crate) fn run(&self, page: &mut Page<'_>) -> Result<Outcome, Failure> {
        self.options.make(page, &[Part::Data], &Target::Folder(&self.output))
    }
}

/// Where documents go.
enum Target<'a> {
    /// Under their own names into a folder.
    Folder(&'a Path),
    /// The only one, under this name.
    File(&'a Path),
}

impl Options {
    fn make(
        &self,
        page: &mut Page<'_>,
        parts: &[Part],
        target: &Target<'_>,
    ) -> Result<Outcome, Failure> {
        quantity::for_reader(self.units.into(), || {
            let reading = crossing_file::read(&self.file)?;
            print::warn(&reading.warnings);
            let issue = Issue {
                date: self.date,
                revision: self.revision.clone(),
                author: self.author.clone(),
            };
            let name = crossing_file::name(&self.file);
            let base = Path::new(&name).file_name().map(|f| f.to_string_lossy().into_owned());
            let file = base.unwrap_or(name);
            let subject = Subject::new(&reading.design, &file, issue, self.units.into());
            let mut made = Dossier::default();
            for part in parts {
                made.extend(book::dossier::make(&subject, *part).map_err(|e| not_made(&e))?);
            }
            let files = match target {
                Target::Folder(folder) => {
                    made.files.iter().map(|f| (folder.join(&f.name), f)).collect::<Vec<_>>()
                }
                Target::File(path) => made.files.iter().map(|f| (path.to_path_buf(), f)).collect(),
            };
            let folder = matches!(target, Target::Folder(_));
            write_all(&files, folder, self.replace)?;
            let written = tell(page, &subject, &made, &files);
            Failure::unless_closed(written, check::outcome(&subject.assessment))
        })
    }
}

fn not_made(error: &book::BookError) -> Failure {
    Complaint::new("document_not_made", error.to_string())
        .hint("this is a fault of the program: report it together with the crossing file")
        .into()
}

fn tell(
    page: &mut Page<'_>,
    subject: &Subject<'_>,
    made: &Dossier,
    files: &[(PathBuf, &sheets::NamedFile)],
) -> std::io::Result<()> {
    let a = &subject.assessment;
    print::assessment::title(page, &subject.file, &a.crossing.name, a.crossing.note.as_deref())?;
    print::assessment::verdict(page, a)?;
    page.gap()?;
    page.paragraph(0, &format!("Wrote {}:", counted(files.len(), "file", "files")))?;
    for (path, file) in files {
        let size = file.bytes.len().div_ceil(1000);
        page.indented("  ", 6, &format!("{}  {} ({size} kB)", path.display(), file.title))?;
    }
    for left in &made.omitted {
        page.indented("  not made:", 6, &format!("{}: {}", left.name, left.reason))?;
    }
    let open = a.checks.iter().filter(|c| c.status == Status::NotAssessed).count();
    if open > 0 {
        let checks = counted(open, "check", "checks");
        page.paragraph(
            0,
            &format!("{checks} could not be made; the documents name what is missing."),
        )?;
    }
    Ok(())
}
