//! What each user prefers, as units or theme: a text under a key.

use rusqlite::{OptionalExtension, params};

use crate::error::StoreError;
use crate::head::words;
use crate::store::Store;

impl Store {
    /// Notes what a user prefers; it replaces what was noted under the key.
    ///
    /// # Errors
    /// When something is too long, and what file and disk say.
    pub fn set_preference(&mut self, user: &str, key: &str, value: &str) -> Result<(), StoreError> {
        words("the name of the user", user)?;
        words("the key", key)?;
        words("the value", value)?;
        let transaction = self.write()?;
        transaction.execute(
            "INSERT INTO preference (user, key, value) VALUES (?1, ?2, ?3) \
             ON CONFLICT (user, key) DO UPDATE SET value = excluded.value",
            params![user, key, value],
        )?;
        transaction.commit()?;
        Ok(())
    }

    /// What a user prefers under a key; nothing where that was never said.
    ///
    /// # Errors
    /// What file and disk say.
    pub fn preference(&self, user: &str, key: &str) -> Result<Option<String>, StoreError> {
        Ok(self
            .connection
            .prepare_cached("SELECT value FROM preference WHERE user = ?1 AND key = ?2")?
            .query_row(params![user, key], |row| row.get(0))
            .optional()?)
    }

    /// Everything that a user prefers, by key.
    ///
    /// # Errors
    /// What file and disk say.
    pub fn preferences(&self, user: &str) -> Result<Vec<(String, String)>, StoreError> {
        let mut statement = self
            .connection
            .prepare_cached("SELECT key, value FROM preference WHERE user = ?1 ORDER BY key")?;
        let rows = statement.query_map(params![user], |row| Ok((row.get(0)?, row.get(1)?)))?;
        Ok(rows.collect::<Result<_, _>>()?)
    }
}
