//! Opening a file, its settings, and bringing it to the newest version.

use std::path::Path;
use std::time::Duration;

use rusqlite::{Connection, OpenFlags, Transaction, TransactionBehavior};

use crate::error::StoreError;
use crate::migrations::MIGRATIONS;

/// Version of the files that this program writes.
#[expect(clippy::cast_possible_wrap, reason = "a few migrations")]
pub const NEWEST_VERSION: i64 = MIGRATIONS.len() as i64;

/// Marks a database of this program in its header: `Uhl1` as four bytes.
const APPLICATION: i64 = 0x5568_6c31;

/// How long a writer waits for another one.
const PATIENCE: Duration = Duration::from_millis(5000);

/// One open file, or a store in memory.
#[derive(Debug)]
pub struct Store {
    pub(crate) connection: Connection,
}

impl Store {
    /// Opens a file, creates it where there is none, and brings an older one to the newest version.
    ///
    /// # Errors
    /// [`StoreError::Newer`], [`StoreError::Foreign`], and what file and disk say. A file that is refused is not changed.
    pub fn open(path: impl AsRef<Path>) -> Result<Self, StoreError> {
        // Without the flag for addresses: a name that begins with `file:` is a name.
        let flags = OpenFlags::SQLITE_OPEN_READ_WRITE
            | OpenFlags::SQLITE_OPEN_CREATE
            | OpenFlags::SQLITE_OPEN_NO_MUTEX;
        Self::with(Connection::open_with_flags(path, flags)?)
    }

    /// A store that is gone when it is dropped.
    ///
    /// # Errors
    /// When no memory can be had.
    pub fn in_memory() -> Result<Self, StoreError> {
        Self::with(Connection::open_in_memory()?)
    }

    fn with(connection: Connection) -> Result<Self, StoreError> {
        connection.busy_timeout(PATIENCE)?;
        connection.pragma_update(None, "trusted_schema", false)?;
        // A stranger's file must not be touched, not even its journal mode.
        refuse_strangers(&connection)?;
        connection.pragma_update(None, "journal_mode", "WAL")?;
        connection.pragma_update(None, "synchronous", "FULL")?;
        // Where the system knows a stronger order to the disk than fsync, as macOS.
        connection.pragma_update(None, "fullfsync", true)?;
        connection.pragma_update(None, "foreign_keys", true)?;
        let mut store = Self { connection };
        store.migrate()?;
        Ok(store)
    }

    /// Takes the steps that the file has not seen. Two programs may start at once: the second one finds them taken.
    fn migrate(&mut self) -> Result<(), StoreError> {
        let transaction = self.write()?;
        let seen = refuse_strangers(&transaction)?;
        let missing = usize::try_from(seen).ok().and_then(|n| MIGRATIONS.get(n..));
        for step in missing.unwrap_or_default() {
            transaction.execute_batch(step.sql)?;
        }
        if seen < NEWEST_VERSION {
            transaction.pragma_update(None, "application_id", APPLICATION)?;
            transaction.pragma_update(None, "user_version", NEWEST_VERSION)?;
        }
        transaction.commit()?;
        Ok(())
    }

    /// Version of the file; [`NEWEST_VERSION`] once it is open.
    ///
    /// # Errors
    /// What file and disk say.
    pub fn version(&self) -> Result<i64, StoreError> {
        number(&self.connection, "PRAGMA user_version")
    }

    /// Looks through the whole file for damage; takes a while for a large one.
    ///
    /// # Errors
    /// [`StoreError::Damaged`] with what was found, and what file and disk say.
    pub fn check(&self) -> Result<(), StoreError> {
        check(&self.connection)
    }

    /// Begins to write; nobody else can until it ends.
    pub(crate) fn write(&mut self) -> Result<Transaction<'_>, StoreError> {
        Ok(self.connection.transaction_with_behavior(TransactionBehavior::Immediate)?)
    }

    /// Begins to read; all that is read is of one moment.
    pub(crate) fn read(&self) -> Result<Transaction<'_>, StoreError> {
        Ok(self.connection.unchecked_transaction()?)
    }
}

/// Version of a file that is ours or empty.
pub(crate) fn refuse_strangers(connection: &Connection) -> Result<i64, StoreError> {
    let found = number(connection, "PRAGMA user_version")?;
    let application = number(connection, "PRAGMA application_id")?;
    let tables = number(connection, "SELECT count(*) FROM sqlite_schema")?;
    let empty = found == 0 && application == 0 && tables == 0;
    if !empty && (application != APPLICATION || found < 1) {
        return Err(StoreError::Foreign);
    }
    if found > NEWEST_VERSION {
        return Err(StoreError::Newer { found, known: NEWEST_VERSION });
    }
    Ok(found)
}

/// Looks for damage of pages, of indexes and of references between tables.
pub(crate) fn check(connection: &Connection) -> Result<(), StoreError> {
    let mut faults: Vec<String> = connection
        .prepare("PRAGMA integrity_check(10)")?
        .query_map([], |row| row.get(0))?
        .collect::<Result<_, _>>()?;
    faults.retain(|fault| fault != "ok");
    let mut statement = connection.prepare("PRAGMA foreign_key_check")?;
    let mut orphans = statement.query([])?;
    if let Some(orphan) = orphans.next()? {
        faults.push(format!("a row of {} refers to nothing", orphan.get::<_, String>(0)?));
    }
    if faults.is_empty() { Ok(()) } else { Err(StoreError::Damaged(faults.join("; "))) }
}

fn number(connection: &Connection, sql: &str) -> Result<i64, StoreError> {
    Ok(connection.query_row(sql, [], |row| row.get(0))?)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::project_row::NewProject;

    fn setting(store: &Store, name: &str) -> String {
        let value: rusqlite::types::Value =
            store.connection.query_row(&format!("PRAGMA {name}"), [], |row| row.get(0)).unwrap();
        match value {
            rusqlite::types::Value::Integer(n) => n.to_string(),
            rusqlite::types::Value::Text(text) => text,
            other => panic!("{other:?}"),
        }
    }

    #[test]
    fn the_safe_settings_are_on() {
        let folder = tempfile::tempdir().unwrap();
        let store = Store::open(folder.path().join("a.store")).unwrap();
        let found =
            ["journal_mode", "synchronous", "foreign_keys", "trusted_schema", "busy_timeout"]
                .map(|name| setting(&store, name));
        assert_eq!(found, ["wal", "2", "1", "0", "5000"]);
        assert_eq!(store.version().unwrap(), NEWEST_VERSION);
    }

    #[test]
    fn every_table_is_strict() {
        let store = Store::in_memory().unwrap();
        let loose = number(
            &store.connection,
            "SELECT count(*) FROM pragma_table_list \
             WHERE strict = 0 AND schema = 'main' AND name NOT LIKE 'sqlite_%'",
        );
        assert_eq!(loose.unwrap(), 0);
    }

    fn create(store: &mut Store, text: &str) -> Result<i64, StoreError> {
        store.create(&NewProject { text, files: &[], who: "A", at: 1 })
    }

    #[test]
    fn full_and_read_only_stores_say_so_and_keep_what_they_have() {
        let mut store = Store::in_memory().unwrap();
        let first = create(&mut store, "name = \"a\"").unwrap();
        let pages = number(&store.connection, "PRAGMA page_count").unwrap();
        store.connection.pragma_update(None, "max_page_count", pages).unwrap();
        let long = format!("name = \"b\"\n# {}", "x".repeat(100_000));
        let full = create(&mut store, &long).unwrap_err();
        assert!(matches!(full, StoreError::Full), "{full:?}");
        store.connection.pragma_update(None, "max_page_count", 1_000_000).unwrap();
        store.connection.pragma_update(None, "query_only", true).unwrap();
        let refused = store.set_preference("A", "theme", "dark").unwrap_err();
        assert!(matches!(refused, StoreError::ReadOnly), "{refused:?}");
        assert_eq!(store.revision(first, 1).unwrap().text, "name = \"a\"");
        store.check().unwrap();
    }

    #[test]
    fn a_writer_that_waits_too_long_says_so() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("a.store");
        let mut one = Store::open(&path).unwrap();
        let mut two = Store::open(&path).unwrap();
        two.connection.busy_timeout(Duration::from_millis(20)).unwrap();
        let held = one.write().unwrap();
        let waiting = create(&mut two, "name = \"a\"").unwrap_err();
        assert!(matches!(waiting, StoreError::Busy), "{waiting:?}");
        drop(held);
        create(&mut two, "name = \"a\"").unwrap();
    }
}
