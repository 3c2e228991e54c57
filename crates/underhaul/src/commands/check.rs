//! `check`: every check of a crossing, with reasons.

use std::io;
use std::path::PathBuf;

use assess::{Assessment, Status};
use clap::Args;
use quantity::System;

use crate::cli::Units;
use crate::crossing_file;
use crate::failure::{Failure, Outcome};
use crate::invocation::{file_word, invocation};
use crate::print::{self, Page};

const AFTER: &str = "\
Examples:
  underhaul check creek.toml
  underhaul check creek.toml --brief
  underhaul check creek.toml --json > creek.json
  underhaul check - < creek.toml

Exit codes:
  0  every check was made and is met
  1  computed, but a check is not met or could not be made
  2  the file cannot be used, or a system error; with --json the errors are
     printed to standard output as {\"errors\": [...]}, too";

/// Checks a crossing: can it be built as described, what governs, and why.
///
/// Reads a crossing file. Prints the crossing in figures, the verdict, every check with value, limit, share used and
/// place, the reasons of all checks that are not simply met, what must change, the pull by each method, all values that
/// were assumed, and cautions. Warnings on the file go to standard error.
#[derive(Debug, Args)]
#[command(after_help = AFTER)]
pub(crate) struct Check {
    /// The crossing file; "-" reads standard input.
    file: PathBuf,
    /// Print the whole assessment as JSON, values in SI units.
    #[arg(long)]
    pub(crate) json: bool,
    /// Units of printed values and sentences; values of --json are SI.
    #[arg(long, value_enum, default_value_t)]
    units: Units,
    /// Print the verdict and the checks that are not met or not made, with their reasons, only.
    #[arg(long, conflicts_with = "json")]
    brief: bool,
}

impl Check {
    /// Reads, assesses, prints.
    pub(crate) fn run(&self, page: &mut Page<'_>) -> Result<Outcome, Failure> {
        quantity::for_reader(self.units.into(), || self.run_for_reader(page))
    }

    fn run_for_reader(&self, page: &mut Page<'_>) -> Result<Outcome, Failure> {
        let reading = crossing_file::read(&self.file)?;
        print::warn(&reading.warnings);
        let mut assessment = assess::assess_design(&reading.design);
        assessment.file = Some(crossing_file::name(&self.file));
        let written = if self.json {
            print::json(page.stream(), &assessment)
        } else if self.brief {
            self.brief(page, &assessment, self.units.into())
        } else {
            self.full(page, &assessment, self.units.into())
        };
        Failure::unless_closed(written, outcome(&assessment))
    }

    fn full(&self, page: &mut Page<'_>, a: &Assessment, system: System) -> io::Result<()> {
        self.title(page, a)?;
        print::assessment::figures(page, a, system)?;
        print::assessment::verdict(page, a)?;
        page.gap()?;
        print::assessment::checks(page, a, a.checks.iter(), system)?;
        page.gap()?;
        print::assessment::legend(page, a, a.checks.iter())?;
        page.quiet(2, "how a number was obtained:")?;
        page.line(&self.explain_command(a, page.width()))?;
        print::assessment::reasons(page, a.checks.iter())?;
        print::assessment::remedies(page, a)?;
        print::assessment::limits(page, a, system)?;
        print::assessment::passes(page, a, system)?;
        print::bursting::forces(page, a, system)?;
        print::bursting::runs(page, a, system)?;
        print::assessment::methods(page, a, system)?;
        print::assessment::assumptions(page, &a.assumptions)?;
        print::assessment::cautions(page, a)
    }
}

impl Check {
    fn title(&self, page: &mut Page<'_>, a: &Assessment) -> io::Result<()> {
        let file = crossing_file::name(&self.file);
        print::assessment::title(page, &file, &a.crossing.name, a.crossing.note.as_deref())
    }

    fn brief(&self, page: &mut Page<'_>, a: &Assessment, system: System) -> io::Result<()> {
        self.title(page, a)?;
        print::assessment::verdict(page, a)?;
        let open =
            || a.checks.iter().filter(|c| matches!(c.status, Status::Fail | Status::NotAssessed));
        if open().next().is_none() {
            return Ok(());
        }
        page.gap()?;
        print::assessment::checks(page, a, open(), system)?;
        print::assessment::reasons(page, open())
    }

    /// The command that explains the governing check; with words in place of names that are too long for a line.
    fn explain_command(&self, a: &Assessment, width: usize) -> String {
        let check = a.verdict.governing.as_deref().unwrap_or("CHECK");
        let command =
            |file: &str, check: &str| format!("      {} explain {file} {check}", invocation());
        let whole = [command(&file_word(&self.file), check), command("FILE", check)];
        let fits = whole.into_iter().find(|c| print::text::width(c) <= width);
        fits.unwrap_or_else(|| command("FILE", "CHECK"))
    }
}

/// Done only when every check was made and is met.
pub(super) fn outcome(a: &Assessment) -> Outcome {
    if a.all_met() { Outcome::Done } else { Outcome::NotMet }
}
