//! `completions`: what a shell needs to complete commands and options.

use clap::{Args, CommandFactory};
use clap_complete::Shell;

use super::{explain, tables, worksheet};
use crate::cli::Cli;
use crate::failure::{Failure, Outcome};
use crate::print::Page;

const AFTER: &str = "\
Examples:
  underhaul completions bash > underhaul.bash
  underhaul completions fish > ~/.config/fish/completions/underhaul.fish

Exit codes:
  0  printed
  2  the shell is not known, or a system error";

/// Prints the completions of a shell.
///
/// Write them to the file in which the shell looks for them.
#[derive(Debug, Args)]
#[command(after_help = AFTER)]
pub(crate) struct Completions {
    /// The shell.
    #[arg(value_enum)]
    shell: Shell,
}

/// The names that follow a subcommand.
fn fish_words() -> String {
    [("worksheet", worksheet::ids()), ("tables", tables::names()), ("explain", explain::ids())]
        .into_iter()
        .map(|(command, names)| {
            let names = names.join(" ");
            let seen = format!("__fish_seen_subcommand_from {command}");
            format!("complete -c underhaul -n \"{seen}\" -a \"{names}\"\n")
        })
        .collect()
}

impl Completions {
    /// Prints.
    pub(crate) fn run(&self, page: &mut Page<'_>) -> Result<Outcome, Failure> {
        // Through a buffer, because the generator panics when its stream is closed.
        let mut script = Vec::new();
        clap_complete::generate(self.shell, &mut Cli::command(), "underhaul", &mut script);
        if self.shell == Shell::Fish {
            // The generator knows no words of arguments without an option for this shell.
            script.extend(fish_words().bytes());
        }
        Failure::unless_closed(page.stream().write_all(&script), Outcome::Done)
    }
}
