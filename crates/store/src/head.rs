//! What a list shows of a text: its name and its technique; and what may be stored at all.

use project::{LARGEST_FILE, Technique};

use crate::error::StoreError;

/// Longest name, remark or key that is kept, bytes. Judgement: a long page of text.
const LONGEST_WORDS: usize = 10_000;

/// Name and technique as a text gives them.
pub(crate) struct Head {
    pub(crate) name: String,
    pub(crate) technique: Technique,
}

/// Reads the head of a text that is to become a revision.
pub(crate) fn head(text: &str) -> Result<Head, StoreError> {
    sized("the text", text, LARGEST_FILE)?;
    let table: toml::Table = toml::from_str(text).map_err(|e: toml::de::Error| {
        StoreError::NotToml(e.message().trim().replace('\n', "; "))
    })?;
    let word = |key: &str| table.get(key).and_then(toml::Value::as_str).map(str::trim);
    let name = word("name").filter(|name| !name.is_empty()).ok_or(StoreError::NoName)?;
    words("the name", name)?;
    // The same rule by which the reader of the file chooses: without a known word it is a drilled crossing.
    let technique = match word("technique") {
        Some(word) if word.eq_ignore_ascii_case(Technique::Bursting.word()) => Technique::Bursting,
        _ => Technique::Drilling,
    };
    Ok(Head { name: name.to_owned(), technique })
}

/// Form of a name in which it is searched: without regard to capitals.
pub(crate) fn folded(name: &str) -> String {
    name.to_lowercase()
}

/// The technique of a word that was stored.
pub(crate) fn technique(word: &str) -> Result<Technique, StoreError> {
    Technique::ALL
        .into_iter()
        .find(|t| t.word() == word)
        .ok_or_else(|| StoreError::Damaged(format!("{word:?} is no technique")))
}

/// Refuses words longer than are kept.
pub(crate) fn words(what: &'static str, text: &str) -> Result<(), StoreError> {
    sized(what, text, LONGEST_WORDS)
}

/// Refuses a text longer than is read back as a crossing file.
pub(crate) fn text_size(text: &str) -> Result<(), StoreError> {
    sized("the text", text, LARGEST_FILE)
}

fn sized(what: &'static str, text: &str, allowed: usize) -> Result<(), StoreError> {
    if text.len() > allowed {
        return Err(StoreError::TooLong { what, found: text.len(), allowed });
    }
    Ok(())
}
