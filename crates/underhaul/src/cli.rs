//! What may be typed.

use clap::builder::Styles;
use clap::{Parser, Subcommand, ValueEnum};
use quantity::System;

use crate::commands::documents::{MakeBook, MakeData, MakeDossier, MakeDrawings, MakeWorkbook};
use crate::commands::{
    backup, check, completions, demo, explain, new, schema, serve, tables, worksheet,
};
use crate::failure::{Failure, Outcome};
use crate::print::{Page, style};

const AFTER: &str = "\
Examples:
  underhaul                                      the demo, then the workbench
  underhaul new creek.toml                       a commented file to start from
  underhaul check creek.toml                     every check, with reasons
  underhaul explain creek.toml pull.joint-force  how one number was obtained
  underhaul dossier creek.toml -o creek          all documents, into a folder
  underhaul serve                                the workbench in a browser
  underhaul worksheet joint-radius laying_length=\"6 m\" joint_angle=3deg

Exit codes:
  0  done; for a crossing: every check was made and is met
  1  computed, but a check is not met or could not be made
  2  wrong input, or a system error

Results go to standard output, errors and warnings to standard error. Colour
appears on a terminal only and never alone; NO_COLOR switches it off. Lines are
as wide as COLUMNS says, else as the terminal, else 80 columns.

An aid to a qualified engineer: local codes, the authority and licensed practice
decide.";

/// Checks whether restrained-joint ductile iron pipe can be put into the ground without a trench.
///
/// One text file describes a crossing that is drilled, or an old main that is burst: ground, neighbours, line, string of
/// pipes, tools and machine. underhaul says whether it can be built as described, what governs, with how much margin, and
/// why. Without a command it does so for the demo crossing.
#[derive(Debug, Parser)]
#[command(name = "underhaul", version, after_help = AFTER, styles = STYLES)]
pub(crate) struct Cli {
    #[command(subcommand)]
    command: Option<Command>,
}

const STYLES: Styles = Styles::plain()
    .header(style::HEADING)
    .usage(style::HEADING)
    .literal(style::NAME)
    .error(style::BAD)
    .invalid(style::CLOSE)
    .valid(style::GOOD);

#[derive(Debug, Subcommand)]
enum Command {
    Check(check::Check),
    Explain(explain::Explain),
    Dossier(MakeDossier),
    Book(MakeBook),
    Drawings(MakeDrawings),
    Workbook(MakeWorkbook),
    Data(MakeData),
    Serve(serve::Serve),
    Backup(backup::Backup),
    Restore(backup::Restore),
    Worksheet(worksheet::Sheet),
    Tables(tables::Tables),
    New(new::New),
    Schema(schema::Schema),
    Completions(completions::Completions),
}

/// Units in which values are printed.
#[derive(Debug, Clone, Copy, Default, ValueEnum)]
pub(crate) enum Units {
    /// Metres, kilonewtons, bar.
    #[default]
    Metric,
    /// Feet, pounds-force, psi.
    Us,
}

/// How the string gets into the ground.
#[derive(Debug, Clone, Copy, Default, ValueEnum)]
pub(crate) enum Technique {
    /// Directional drilling.
    #[default]
    Drilling,
    /// Pipe bursting.
    Bursting,
}

impl From<Technique> for project::Technique {
    fn from(technique: Technique) -> Self {
        match technique {
            Technique::Drilling => project::Technique::Drilling,
            Technique::Bursting => project::Technique::Bursting,
        }
    }
}

impl From<Units> for System {
    fn from(units: Units) -> Self {
        match units {
            Units::Metric => System::Metric,
            Units::Us => System::Customary,
        }
    }
}

impl Cli {
    /// Does what was typed.
    pub(crate) fn run(&self, page: &mut Page<'_>) -> Result<Outcome, Failure> {
        match &self.command {
            None => demo::run(page),
            Some(Command::Check(c)) => c.run(page),
            Some(Command::Explain(c)) => c.run(page),
            Some(Command::Dossier(c)) => c.run(page),
            Some(Command::Book(c)) => c.run(page),
            Some(Command::Drawings(c)) => c.run(page),
            Some(Command::Workbook(c)) => c.run(page),
            Some(Command::Data(c)) => c.run(page),
            Some(Command::Serve(c)) => c.run(page),
            Some(Command::Backup(c)) => c.run(page),
            Some(Command::Restore(c)) => c.run(page),
            Some(Command::Worksheet(c)) => c.run(page),
            Some(Command::Tables(c)) => c.run(page),
            Some(Command::New(c)) => c.run(page),
            Some(Command::Schema(c)) => c.run(page),
            Some(Command::Completions(c)) => c.run(page),
        }
    }

    /// Whether a program reads what is printed, so that errors are JSON too.
    pub(crate) fn wants_json(&self) -> bool {
        match &self.command {
            Some(Command::Check(c)) => c.json,
            Some(Command::Explain(c)) => c.json,
            Some(Command::Worksheet(c)) => c.json,
            Some(Command::Tables(c)) => c.json,
            _ => false,
        }
    }
}

#[cfg(test)]
mod tests {
    use clap::CommandFactory;

    #[test]
    fn the_definition_of_the_commands_is_sound() {
        super::Cli::command().debug_assert();
    }

    #[test]
    fn every_command_says_what_it_returns() {
        let whole = super::Cli::command();
        for command in whole.get_subcommands().chain([&whole]) {
            let after = command.get_after_help().map(ToString::to_string).unwrap_or_default();
            assert!(after.contains("Exit codes:"), "{}", command.get_name());
            assert!(after.lines().all(|l| l.chars().count() <= 80), "{}", command.get_name());
        }
    }
}
