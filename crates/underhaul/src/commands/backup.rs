//! `backup` and `restore`: the store as a whole.

use std::path::PathBuf;

use clap::Args;
use store::{Overwrite, Store};

use super::serve::refused;
use crate::failure::{Complaint, Failure, Outcome};
use crate::print::Page;

const BACKUP: &str = "\
Examples:
  underhaul backup job.designs backup/job.designs

Exit codes:
  0  copied, and the copy is sound
  2  the store cannot be read, the copy exists already, or a system error";

const RESTORE: &str = "\
Examples:
  underhaul restore backup/job.designs job.designs

Exit codes:
  0  restored
  2  the backup cannot be read or is damaged, the store exists already, or a
     system error";

/// Copies a store while it may be in use, and checks the copy.
#[derive(Debug, Args)]
#[command(after_help = BACKUP)]
pub(crate) struct Backup {
    /// The store.
    store: PathBuf,
    /// The copy.
    to: PathBuf,
    /// Replace a copy that exists already.
    #[arg(long)]
    replace: bool,
}

/// Puts a backup back as a store; a store that stands there already is kept beside it.
#[derive(Debug, Args)]
#[command(after_help = RESTORE)]
pub(crate) struct Restore {
    /// The backup.
    backup: PathBuf,
    /// The store.
    to: PathBuf,
    /// Take the place of a store that exists already; it is put aside under another name.
    #[arg(long)]
    replace: bool,
}

const fn overwrite(replace: bool) -> Overwrite {
    if replace { Overwrite::Replace } else { Overwrite::Refuse }
}

impl Backup {
    /// Copies.
    pub(crate) fn run(&self, page: &mut Page<'_>) -> Result<Outcome, Failure> {
        if !self.store.exists() {
            let name = self.store.display().to_string();
            let complaint = Complaint::new("file_not_found", format!("there is no store {name}"));
            return Err(complaint.about(name).into());
        }
        let store = Store::open(&self.store).map_err(|e| refused(&self.store, &e))?;
        store.backup(&self.to, overwrite(self.replace)).map_err(|e| refused(&self.to, &e))?;
        let words = format!("Copied to {}; the copy is sound.", self.to.display());
        Failure::unless_closed(page.paragraph(0, &words), Outcome::Done)
    }
}

impl Restore {
    /// Puts back.
    pub(crate) fn run(&self, page: &mut Page<'_>) -> Result<Outcome, Failure> {
        let restored = Store::restore(&self.backup, &self.to, overwrite(self.replace))
            .map_err(|e| refused(&self.backup, &e))?;
        let aside = restored.put_aside.map_or_else(String::new, |p| {
            format!(" The store that stood there is kept as {}.", p.display())
        });
        let words = format!("Restored {}.{aside}", self.to.display());
        Failure::unless_closed(page.paragraph(0, &words), Outcome::Done)
    }
}
