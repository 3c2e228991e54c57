//! `new`: a commented file to start from.

use std::fs::OpenOptions;
use std::io::{self, Write};
use std::path::{Path, PathBuf};

use clap::Args;

use super::demo;
use crate::cli::Technique;
use crate::failure::{Complaint, Failure, Outcome};
use crate::invocation::invocation;
use crate::print::Page;

const AFTER: &str = "\
Examples:
  underhaul new                    print the file
  underhaul new crossing.toml      write it
  underhaul new --demo creek.toml  write the demo crossing instead
  underhaul new --technique bursting street.toml

Exit codes:
  0  printed or written
  2  the file exists already or cannot be written";

/// Writes a commented crossing file to start from.
///
/// Every field stands in it with its meaning, unit and default. Prints it, or writes it to FILE, which must not exist
/// yet.
#[derive(Debug, Args)]
#[command(after_help = AFTER)]
pub(crate) struct New {
    /// The file to write; none or "-" prints.
    file: Option<PathBuf>,
    /// How the string gets into the ground.
    #[arg(long, value_enum, default_value_t)]
    technique: Technique,
    /// The demo instead of the commented starter.
    #[arg(long)]
    demo: bool,
}

impl New {
    /// Prints or writes.
    pub(crate) fn run(&self, page: &mut Page<'_>) -> Result<Outcome, Failure> {
        let text = match (self.demo, self.technique) {
            (true, Technique::Drilling) => demo::EMBEDDED.to_owned(),
            (true, Technique::Bursting) => demo::BURSTING.to_owned(),
            (false, technique) => project::starter(technique.into()),
        };
        let written = match self.file.as_deref() {
            Some(file) if file != Path::new("-") => {
                write(file, &text)?;
                tell(page, file)
            }
            _ => page.stream().write_all(text.as_bytes()),
        };
        Failure::unless_closed(written, Outcome::Done)
    }
}

fn write(file: &Path, text: &str) -> Result<(), Failure> {
    let created = OpenOptions::new().write(true).create_new(true).open(file);
    created
        .and_then(|mut f| f.write_all(text.as_bytes()))
        .map_err(|e| Failure::from(refused(file, &e)))
}

fn refused(file: &Path, error: &io::Error) -> Complaint {
    let name = file.display();
    let complaint = match error.kind() {
        io::ErrorKind::AlreadyExists => {
            Complaint::new("file_exists", format!("{name} exists already and was left as it is"))
                .hint("give another name, or move the file away first")
        }
        io::ErrorKind::NotFound => {
            Complaint::new("folder_not_found", format!("the folder of {name} does not exist"))
                .hint("make the folder first, or give another name")
        }
        _ => Complaint::new("file_not_written", format!("{name} cannot be written: {error}")),
    };
    complaint.about(name.to_string())
}

fn tell(page: &mut Page<'_>, file: &Path) -> io::Result<()> {
    let name = file.display();
    page.paragraph(0, &format!("Wrote {name}. Edit it, then:"))?;
    page.line(&format!("  {} check {name}", invocation()))
}
