//! The command line of underhaul: reads what was typed, prints results to standard output and errors to standard error,
//! and ends with 0 (all checks made and met), 1 (computed, but a check is not met or could not be made) or
//! 2 (wrong input or a system error).

use std::io::{self, Write};
use std::process::ExitCode;

use clap::{CommandFactory, FromArgMatches};

use self::cli::Cli;
use self::failure::{Failure, Outcome};
use self::print::Page;

mod cli;
mod commands;
mod crossing_file;
mod failure;
mod invocation;
mod print;

fn main() -> ExitCode {
    let width = print::width_of_output();
    let typed = Cli::command().term_width(width).try_get_matches();
    let cli = match typed.and_then(|matches| Cli::from_arg_matches(&matches)) {
        Ok(cli) => cli,
        Err(message) => {
            // A closed pipe is the only way in which this print fails; nobody is left to be told.
            let _ = message.print();
            return ExitCode::from(u8::try_from(message.exit_code()).unwrap_or(2));
        }
    };
    let mut out = anstream::stdout().lock();
    let result = cli.run(&mut Page::new(&mut out, width));
    let result = result.and_then(|outcome| Failure::unless_closed(out.flush(), outcome));
    match result {
        Ok(outcome) => outcome.into(),
        Err(failure) => {
            // When neither stream takes the complaint, the exit code still tells.
            let _ = complain(&failure, cli.wants_json(), &mut out);
            ExitCode::from(2)
        }
    }
}

fn complain(failure: &Failure, json: bool, out: &mut dyn Write) -> io::Result<()> {
    let mut err = anstream::stderr().lock();
    failure.print(&mut Page::new(&mut err, print::width_of_output()))?;
    if json {
        print::json(out, &failure.to_json())?;
    }
    Ok(())
}

impl From<Outcome> for ExitCode {
    fn from(outcome: Outcome) -> Self {
        match outcome {
            Outcome::Done => ExitCode::SUCCESS,
            Outcome::NotMet => ExitCode::from(1),
        }
    }
}
