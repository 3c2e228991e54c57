//! What all requests share.

use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use std::time::{SystemTime, UNIX_EPOCH};

use project::{DesignReading, Diagnostic};
use quantity::System;
use store::{NamedBytes, Revision, Store};
use tokio::sync::broadcast;

use crate::documents::Jobs;
use crate::fault::Refusal;

/// A design that has a new current revision.
#[derive(Debug, Clone)]
pub struct Changed {
    /// The design.
    pub design: i64,
    /// Its current revision.
    pub revision: u32,
    /// Mark of the window that made it.
    pub window: String,
}

/// What all requests share.
pub struct App {
    store: Mutex<Store>,
    /// Tells every window of a design that it moved on.
    pub changed: broadcast::Sender<Changed>,
    /// Documents being made.
    pub jobs: Jobs,
}

/// The shared state, as handlers take it.
pub type Shared = Arc<App>;

/// The person at a desk that asks for no name.
pub const LOCAL: &str = "local";

impl App {
    /// The state around a store.
    #[must_use]
    pub fn new(store: Store) -> Shared {
        let (changed, _) = broadcast::channel(256);
        Arc::new(Self { store: Mutex::new(store), changed, jobs: Jobs::default() })
    }

    /// The store. Its own transactions keep it sound, so that a panic elsewhere does not poison it.
    pub fn store(&self) -> MutexGuard<'_, Store> {
        self.store.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// Units of the reader.
    pub fn system(&self) -> System {
        match self.store().preference(LOCAL, "units") {
            Ok(Some(word)) if word == "us" => System::Customary,
            _ => System::Metric,
        }
    }

    /// Name that stands beside changes.
    pub fn who(&self) -> String {
        match self.store().preference(LOCAL, "name") {
            Ok(Some(name)) if !name.is_empty() => name,
            _ => "not named".to_owned(),
        }
    }

    /// Tells other windows.
    pub fn tell(&self, design: i64, revision: u32, window: &str) {
        // Without a window there is nobody to tell.
        let _ = self.changed.send(Changed { design, revision, window: window.to_owned() });
    }
}

/// Now, in milliseconds since 1970 began (UTC).
pub fn now() -> i64 {
    let since = SystemTime::now().duration_since(UNIX_EPOCH).unwrap_or_default();
    i64::try_from(since.as_millis()).unwrap_or(i64::MAX)
}

/// Reads a text with the files that lie beside it.
///
/// # Errors
/// Every message on the text.
pub fn read(text: &str, files: &[NamedBytes]) -> Result<DesignReading, Vec<Diagnostic>> {
    let load = |name: &str| {
        files.iter().find(|f| f.name == name).map(|f| f.bytes.clone()).ok_or_else(|| {
            "there is no such file beside this design: import it with the design".to_owned()
        })
    };
    project::read_bytes(FILE, text.as_bytes(), &load)
}

/// Name under which messages speak of the text.
pub const FILE: &str = "design file";

/// Does heavy work without keeping other requests waiting.
///
/// # Errors
/// What the work says; a refusal as well when it broke off.
pub async fn heavy<T: Send + 'static>(
    work: impl FnOnce() -> Result<T, Refusal> + Send + 'static,
) -> Result<T, Refusal> {
    match tokio::task::spawn_blocking(work).await {
        Ok(result) => result,
        Err(_) => Err(Refusal::internal("the work broke off")),
    }
}

/// A revision with the reading of its text.
///
/// # Errors
/// Every message on the text, as a refusal.
pub fn read_revision(revision: &Revision) -> Result<DesignReading, Refusal> {
    read(&revision.text, &revision.files).map_err(|list| Refusal::file(&list))
}
