//! Changes one value in the text of a crossing file and leaves every other byte as it was.
//!
//! The text is not written anew from data: the bytes of the value are found and replaced, so that comments, order,
//! spaces and ends of lines stay. What comes out is read again and held against what was asked for; a layout in which
//! the change would touch something else is an error, never a surprise.
//!
//! ```
//! use store::edit::{Change, Value, set};
//! let text = "[line]\nentry_angle = \"12 deg\" # from the rig\n";
//! let changed = set(text, "/line/entry_angle", &Change::To(Value::Text("11 deg".into())))?;
//! assert_eq!(changed, "[line]\nentry_angle = \"11 deg\" # from the rig\n");
//! # Ok::<(), store::edit::EditError>(())
//! ```

pub use self::error::EditError;
pub use self::value::Value;

mod error;
mod insert;
mod place;
mod proof;
mod remove;
mod value;

use std::ops::Range;

use toml_edit::{Document, Item, Table};

/// What is done at a path.
#[derive(Debug, Clone, PartialEq)]
pub enum Change {
    /// The value becomes this one. A key that is missing is added where the reference of the file has it, with the
    /// section around it where that is missing, too.
    To(Value),
    /// The value, the table, or the entry of a list is taken out with its own lines; comments above them stay.
    Remove,
    /// A table with these entries is added behind the last one of a list of tables, as `/site/obstacle`.
    Append(Vec<(String, Value)>),
}

/// Bytes to be replaced, and by what.
pub(super) struct Splice {
    pub(super) at: Range<usize>,
    pub(super) by: String,
}

/// Changes the text at a path, as `/line/entry_angle` or `/site/obstacle/2/clearance`; entries of lists are counted
/// from 0. In a key `~1` stands for `/` and `~0` for `~`.
///
/// # Errors
/// When the text is not TOML, when the path is none or leads to nothing or to something of another kind, when a number
/// is not finite, and when the file is laid out so that the change would touch something else.
pub fn set(text: &str, path: &str, change: &Change) -> Result<String, EditError> {
    let keys = keys(path)?;
    let document = Document::parse(text)
        .map_err(|e| EditError::NotToml(e.message().trim().replace('\n', "; ")))?;
    let target = Target { text, path, keys: &keys, root: document.as_table() };
    let splices = match change {
        Change::To(value) => vec![target.to(value)?],
        Change::Remove => target.remove()?,
        Change::Append(entries) => vec![target.append(entries)?],
    };
    let out = spliced(text, splices).ok_or_else(|| target.layout())?;
    if proof::holds(text, &out, &keys, change) { Ok(out) } else { Err(target.layout()) }
}

/// What is changed, and in what.
pub(super) struct Target<'a> {
    pub(super) text: &'a str,
    pub(super) path: &'a str,
    pub(super) keys: &'a [String],
    pub(super) root: &'a Table,
}

/// What stands at a path.
pub(super) enum Found<'a> {
    Item(&'a Item),
    Table(&'a Table),
    Value(&'a toml_edit::Value),
}

impl<'a> Target<'a> {
    pub(super) fn layout(&self) -> EditError {
        EditError::Layout(self.path.to_owned())
    }

    pub(super) fn nothing(&self) -> EditError {
        EditError::Nothing(self.path.to_owned())
    }

    pub(super) fn kind(&self, found: &'static str) -> EditError {
        EditError::Kind { path: self.path.to_owned(), found }
    }

    /// What stands at the first keys of the path.
    pub(super) fn find(&self, count: usize) -> Option<Found<'a>> {
        let mut at = Found::Table(self.root);
        for key in self.keys.get(..count)? {
            at = step(&at, key)?;
        }
        Some(at)
    }

    fn to(&self, value: &Value) -> Result<Splice, EditError> {
        let toml = value.toml()?;
        match self.find(self.keys.len()) {
            Some(found) => {
                let span = match found {
                    Found::Table(_) => return Err(self.kind("a table")),
                    Found::Item(Item::ArrayOfTables(_)) => {
                        return Err(self.kind("a list of tables"));
                    }
                    Found::Item(item) => item.span(),
                    Found::Value(value) => value.span(),
                };
                Ok(Splice { at: span.ok_or_else(|| self.layout())?, by: toml })
            }
            None => self.insert(&toml),
        }
    }
}

fn step<'a>(at: &Found<'a>, key: &str) -> Option<Found<'a>> {
    let index = || key.parse::<usize>().ok();
    let of_value = |value: &'a toml_edit::Value| match value {
        toml_edit::Value::Array(list) => list.get(index()?).map(Found::Value),
        toml_edit::Value::InlineTable(table) => table.get(key).map(Found::Value),
        _ => None,
    };
    match at {
        Found::Table(table) => match table.get(key)? {
            Item::Table(inner) => Some(Found::Table(inner)),
            item => Some(Found::Item(item)),
        },
        Found::Item(Item::ArrayOfTables(list)) => list.get(index()?).map(Found::Table),
        Found::Item(Item::Value(value)) => of_value(value),
        Found::Item(_) => None,
        Found::Value(value) => of_value(value),
    }
}

fn keys(path: &str) -> Result<Vec<String>, EditError> {
    let refused = || EditError::Path(path.to_owned());
    let rest = path.strip_prefix('/').ok_or_else(refused)?;
    rest.split('/')
        .map(|key| {
            if key.is_empty() {
                return Err(refused());
            }
            Ok(key.replace("~1", "/").replace("~0", "~"))
        })
        .collect()
}

fn spliced(text: &str, mut splices: Vec<Splice>) -> Option<String> {
    splices.sort_by_key(|splice| splice.at.start);
    let mut out = String::with_capacity(text.len() + 100);
    let mut done = 0;
    for splice in splices {
        out.push_str(text.get(done..splice.at.start)?);
        out.push_str(&splice.by);
        done = splice.at.end;
    }
    out.push_str(text.get(done..)?);
    Some(out)
}
