//! `completions`: what a shell needs to complete commands and options.

use clap::{Args, CommandFactory};
use clap_complete::Shell;

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

impl Completions {
    /// Prints.
    pub(crate) fn run(&self, page: &mut Page<'_>) -> Result<Outcome, Failure> {
        // Through a buffer, because the generator panics when its stream is closed.
        let mut script = Vec::new();
        clap_complete::generate(self.shell, &mut Cli::command(), "underhaul", &mut script);
        Failure::unless_closed(page.stream().write_all(&script), Outcome::Done)
    }
}
