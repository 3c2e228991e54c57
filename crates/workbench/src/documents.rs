//! Documents being made in the background, with progress, and kept for download.

use std::collections::HashMap;
use std::io::{Cursor, Write};
use std::sync::atomic::{AtomicU64, Ordering};
use std::sync::{Arc, Mutex, PoisonError};

use book::dossier::{Dossier, Part};
use sheets::{Issue, NamedFile, Subject};
use store::Revision;

use crate::app::read_revision;
use crate::fault::{Fault, Refusal};

/// Jobs that are kept: enough for a day at a desk; the oldest goes first.
const MOST_JOBS: usize = 24;

/// All jobs.
#[derive(Default)]
pub struct Jobs {
    next: AtomicU64,
    list: Mutex<HashMap<u64, Arc<Mutex<Job>>>>,
}

/// One order of documents.
#[derive(Debug, Default)]
pub struct Job {
    /// Design and revision that the documents are of.
    pub design: i64,
    /// The revision.
    pub revision: u32,
    /// Parts that were asked for, with whether they are done.
    pub parts: Vec<(&'static str, bool)>,
    /// What was made so far.
    pub dossier: Dossier,
    /// Why it broke off.
    pub errors: Vec<Fault>,
    /// Whether nothing more comes.
    pub finished: bool,
}

impl Jobs {
    fn list(&self) -> std::sync::MutexGuard<'_, HashMap<u64, Arc<Mutex<Job>>>> {
        self.list.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// The job with a number.
    ///
    /// # Errors
    /// When there is none, or no more.
    pub fn find(&self, job: u64) -> Result<Arc<Mutex<Job>>, Refusal> {
        self.list().get(&job).cloned().ok_or_else(|| {
            Refusal::not_found("these documents are no longer kept: make them again")
        })
    }

    /// Begins a job and returns its number.
    pub fn start(
        &self,
        revision: Revision,
        parts: Vec<Part>,
        issue: Issue,
        system: quantity::System,
    ) -> u64 {
        let number = self.next.fetch_add(1, Ordering::Relaxed) + 1;
        let job = Arc::new(Mutex::new(Job {
            design: revision.project,
            revision: revision.number,
            parts: parts.iter().map(|p| (p.word(), false)).collect(),
            ..Job::default()
        }));
        let mut list = self.list();
        while list.len() >= MOST_JOBS {
            let Some(oldest) = list.keys().min().copied() else { break };
            list.remove(&oldest);
        }
        list.insert(number, Arc::clone(&job));
        drop(list);
        tokio::task::spawn_blocking(move || {
            let result = make(&job, &revision, &parts, issue, system);
            let mut job = job.lock().unwrap_or_else(PoisonError::into_inner);
            if let Err(refusal) = result {
                job.errors = refusal.faults;
            }
            job.finished = true;
        });
        number
    }
}

fn make(
    job: &Mutex<Job>,
    revision: &Revision,
    parts: &[Part],
    issue: Issue,
    system: quantity::System,
) -> Result<(), Refusal> {
    let reading = quantity::for_reader(system, || read_revision(revision))?;
    let file = format!("design-{}-revision-{}.toml", revision.project, revision.number);
    let subject = Subject::new(&reading.design, &file, issue, system);
    for (part, k) in parts.iter().zip(0..) {
        let made =
            book::dossier::make(&subject, *part).map_err(|e| Refusal::internal(e.to_string()))?;
        let mut job = job.lock().unwrap_or_else(PoisonError::into_inner);
        job.dossier.extend(made);
        if let Some(state) = job.parts.get_mut(k) {
            state.1 = true;
        }
    }
    Ok(())
}

/// All files in one archive; the same files give the same bytes.
///
/// # Errors
/// When the archive cannot be put together.
pub fn archive(files: &[NamedFile]) -> Result<Vec<u8>, Refusal> {
    let failed = |e: zip::result::ZipError| Refusal::internal(format!("the archive failed: {e}"));
    let mut writer = zip::ZipWriter::new(Cursor::new(Vec::new()));
    let options =
        zip::write::SimpleFileOptions::default().last_modified_time(zip::DateTime::default());
    for file in files {
        writer.start_file(&file.name, options).map_err(failed)?;
        writer.write_all(&file.bytes).map_err(|e| failed(e.into()))?;
    }
    Ok(writer.finish().map_err(failed)?.into_inner())
}
