//! `schema`: the JSON schema of the crossing file.

use clap::Args;

use crate::cli::Technique;
use crate::failure::{Failure, Outcome};
use crate::print::{self, Page};

const AFTER: &str = "\
Examples:
  underhaul schema > crossing.schema.json
  underhaul schema --technique bursting > bursting.schema.json

Exit codes:
  0  printed
  2  a system error";

/// Prints the JSON schema of the crossing file.
///
/// For editors that complete and check while one types. What depends on several fields at once is left to "check".
#[derive(Debug, Args)]
#[command(after_help = AFTER)]
pub(crate) struct Schema {
    /// How the string gets into the ground.
    #[arg(long, value_enum, default_value_t)]
    technique: Technique,
}

impl Schema {
    /// Prints.
    pub(crate) fn run(&self, page: &mut Page<'_>) -> Result<Outcome, Failure> {
        let written = print::json(page.stream(), &project::schema(self.technique.into()));
        Failure::unless_closed(written, Outcome::Done)
    }
}
