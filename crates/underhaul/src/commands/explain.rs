//! `explain`: how the numbers of one check were obtained.

use std::io;
use std::path::PathBuf;

use assess::Explanation;
use clap::Args;
use project::{Design, Technique};
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
        let Some(explanation) = assess::explain_design(&reading.design, &self.check) else {
            return Err(self.unknown(&reading.design));
        };
        let written = if self.json {
            print::json(page.stream(), &explanation)
        } else {
            self.print(page, &reading.design, &explanation, self.units.into())
        };
        Failure::unless_closed(written, Outcome::Done)
    }

    fn print(
        &self,
        page: &mut Page<'_>,
        design: &Design,
        explanation: &Explanation,
        system: System,
    ) -> io::Result<()> {
        let file = crossing_file::name(&self.file);
        print::assessment::title(page, &file, design.name(), design.note())?;
        print_check(page, design.technique(), explanation, system)
    }

    fn unknown(&self, design: &Design) -> Failure {
        let known = assess::check_ids_of(design);
        let ids = || known.iter().map(String::as_str);
        let list = || format!("its checks are {}", ids().collect::<Vec<_>>().join(", "));
        let message = format!("this file has no check \"{}\"", self.check);
        Complaint::new("unknown_check", message)
            .about(&self.check)
            .hint(match did_you_mean(&self.check, ids(), String::new) {
                near if near.is_empty() => list(),
                near => format!("{near} {}", list()),
            })
            .into()
    }
}

/// Ids of the checks that every file has: those of the demos without the checks of their own obstacles and neighbours.
pub(super) fn ids() -> Vec<String> {
    const OWN: [&str; 4] =
        ["line.clearance.", "ground.settlement.", "ground.heave.", "burst.neighbour."];
    let of = |file: &str, text: &str| {
        let read = project::read_design(file, text, &project::no_files);
        read.map_or_else(|_| Vec::new(), |r| assess::check_ids_of(&r.design))
    };
    let mut ids = of(demo::FILE, demo::EMBEDDED);
    for id in of(demo::BURSTING_FILE, demo::BURSTING) {
        if !ids.contains(&id) {
            ids.push(id);
        }
    }
    ids.retain(|id| !OWN.iter().any(|start| id.starts_with(start)));
    ids
}

fn print_check(
    page: &mut Page<'_>,
    technique: Technique,
    e: &Explanation,
    system: System,
) -> io::Result<()> {
    let check = &e.check;
    page.heading(&format!("{}: {}", check.id, check.title))?;
    page.gap()?;
    let (sign, word, style) = sign(check.status);
    page.marked(&format!("{sign} {word}:"), style, 4, &comparison(technique, e, system))?;
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
fn comparison(technique: Technique, e: &Explanation, system: System) -> String {
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
        let word = if technique == Technique::Bursting { "chainage" } else { "md" };
        parts.push(format!("at {word} {}", place(check.at, system)));
    }
    parts.join(", ")
}
