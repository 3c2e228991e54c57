//! `explain`: how the numbers of one check were obtained.

use std::io;
use std::path::PathBuf;

use assess::Explanation;
use clap::Args;
use project::Project;
use quantity::System;

use super::{NameOf, demo, did_you_mean};
use crate::cli::Units;
use crate::crossing_file;
use crate::failure::{Complaint, Failure, Outcome};
use crate::print::assessment::{is_kept_rule, limit, place, sign, used};
use crate::print::{self, Page};

const AFTER: &str = "\
Examples:
  underhaul explain creek.toml pull.joint-force
  underhaul explain creek.toml bore.diameter --json

Exit codes:
  0  explained, also when the check is not met
  2  the file cannot be used, the check is not known, or a system error; with
     --json the errors are printed to standard output as {\"errors\": [...]}, too";

/// Shows how the numbers of one check were obtained.
///
/// Reads a crossing file and the id of a check, as the table of "check" prints it. Prints the check and its working, line
/// by line: symbol, value, meaning, formula, the numbers put in (SI units), and the source with how well it is founded.
#[derive(Debug, Args)]
#[command(after_help = AFTER)]
pub(crate) struct Explain {
    /// The crossing file; "-" reads standard input.
    file: PathBuf,
    /// Id of the check, as "pull.joint-force".
    #[arg(value_parser = NameOf(ids), hide_possible_values = true)]
    check: String,
    /// Print check, working and notes as JSON, values in SI units.
    #[arg(long)]
    pub(crate) json: bool,
    /// Units of printed values; numbers put in a formula are SI, --json too.
    #[arg(long, value_enum, default_value_t)]
    units: Units,
}

impl Explain {
    /// Reads, computes, prints.
    pub(crate) fn run(&self, page: &mut Page<'_>) -> Result<Outcome, Failure> {
        quantity::for_reader(self.units.into(), || self.run_for_reader(page))
    }

    fn run_for_reader(&self, page: &mut Page<'_>) -> Result<Outcome, Failure> {
        let reading = crossing_file::read(&self.file)?;
        print::warn(&reading.warnings);
        let Some(explanation) = assess::explain(&reading.project, &self.check) else {
            return Err(self.unknown(&reading.project));
        };
        let written = if self.json {
            print::json(page.stream(), &explanation)
        } else {
            self.print(page, &reading.project, &explanation, self.units.into())
        };
        Failure::unless_closed(written, Outcome::Done)
    }

    fn print(
        &self,
        page: &mut Page<'_>,
        project: &Project,
        explanation: &Explanation,
        system: System,
    ) -> io::Result<()> {
        let file = crossing_file::name(&self.file);
        print::assessment::title(page, &file, &project.name, project.note.as_deref())?;
        print_check(page, explanation, system)
    }

    fn unknown(&self, project: &Project) -> Failure {
        let known = assess::check_ids(project);
        let ids = || known.iter().map(String::as_str);
        let list = || format!("its checks are {}", ids().collect::<Vec<_>>().join(", "));
        let message = format!("this crossing has no check \"{}\"", self.check);
        Complaint::new("unknown_check", message)
            .about(&self.check)
            .hint(match did_you_mean(&self.check, ids(), String::new) {
                near if near.is_empty() => list(),
                near => format!("{near} {}", list()),
            })
            .into()
    }
}

/// Ids of the checks that every crossing has: those of the demo without the checks of its own obstacles.
pub(super) fn ids() -> Vec<String> {
    let Ok(demo) = project::read(demo::FILE, demo::EMBEDDED) else { return Vec::new() };
    let obstacle = |id: &String| id.starts_with("line.clearance.");
    assess::check_ids(&demo).into_iter().filter(|id| !obstacle(id)).collect()
}

fn print_check(page: &mut Page<'_>, e: &Explanation, system: System) -> io::Result<()> {
    let check = &e.check;
    page.heading(&format!("{}: {}", check.id, check.title))?;
    page.gap()?;
    let (sign, word, style) = sign(check.status);
    page.marked(&format!("{sign} {word}:"), style, 4, &comparison(e, system))?;
    page.paragraph(2, &check.because)?;
    if !check.missing.is_empty() {
        page.indented("  missing:", 4, &check.missing.join(", "))?;
    }
    page.indented("  basis:", 4, &check.basis.to_string())?;
    if !e.working.steps.is_empty() {
        page.heading("Working")?;
        print::working::steps(page, &e.working, system)?;
    }
    print::joints::joints(page, &e.joints, system)?;
    if !e.notes.is_empty() {
        page.heading("Notes")?;
        e.notes.iter().try_for_each(|note| page.indented("  -", 4, note))?;
    }
    Ok(())
}

/// Value, limit, share and place in one line.
fn comparison(e: &Explanation, system: System) -> String {
    let check = &e.check;
    let mut parts = Vec::new();
    if let Some(demand) = check.demand {
        parts.push(format!("value {}", demand.shown(system)));
    }
    if check.limit.is_some() {
        parts.push(format!("limit {}", limit(check, system)));
    }
    if check.utilisation.is_some() && !is_kept_rule(check) {
        parts.push(format!("{} used", used(check)));
    }
    if check.at.is_some() {
        parts.push(format!("at md {}", place(check.at, system)));
    }
    parts.join(", ")
}
