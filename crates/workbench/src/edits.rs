//! Changes of single values, as pages and programs send them, put into the text of a design.

use std::collections::BTreeMap;

use axum::http::StatusCode;
use project::Technique;
use project::fields::{Field, Section, Shape, Value as Allowed};
use quantity::{System, Unit, significant};
use serde::Deserialize;
use store::edit::{Change, EditError, Value, set};

use crate::fault::{Fault, Refusal};

/// One change: exactly one of `si`, `text`, `remove` and `append` stands in it.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Edit {
    /// Place in the design file, as `/line/entry_angle`; entries of lists are counted from 0.
    path: String,
    /// New value in SI, written in the reader's unit.
    si: Option<f64>,
    /// New value as typed.
    text: Option<String>,
    /// Takes the value, the table or the entry out.
    #[serde(default)]
    remove: bool,
    /// Adds an entry with these values to a list of tables.
    append: Option<BTreeMap<String, String>>,
}

/// Digits of a value that a hand moved: finer than any hand.
const DIGITS: usize = 6;

/// The text with all edits.
///
/// # Errors
/// With the place of the first edit that cannot be made; nothing is half done.
pub fn edited(
    text: &str,
    technique: Technique,
    edits: &[Edit],
    system: System,
) -> Result<String, Refusal> {
    let mut text = text.to_owned();
    for edit in edits {
        let change = edit.change(technique, system)?;
        text = set(&text, &edit.path, &change).map_err(|e| refused(&edit.path, &e))?;
    }
    Ok(text)
}

fn refused(path: &str, error: &EditError) -> Refusal {
    let fault = Fault::new(error.code(), path, error.to_string()).hint(error.hint());
    Refusal::one(StatusCode::UNPROCESSABLE_ENTITY, fault)
}

/// The section and field at a path, indexes left out.
pub fn definition(technique: Technique, path: &str) -> Option<(&'static Section, &'static Field)> {
    let keys: Vec<&str> = path
        .split('/')
        .filter(|k| !k.is_empty() && !k.bytes().all(|b| b.is_ascii_digit()))
        .collect();
    let (key, section) = keys.split_last()?;
    let section = section.join(".");
    let found = technique.sections().iter().copied().find(|s| s.key == section)?;
    found.field(key).map(|field| (found, field))
}

impl Edit {
    fn change(&self, technique: Technique, system: System) -> Result<Change, Refusal> {
        let said = [self.si.is_some(), self.text.is_some(), self.remove, self.append.is_some()];
        if said.iter().filter(|s| **s).count() != 1 {
            let fault = Fault::new("edit_unclear", &self.path, "an edit says one thing")
                .allowed("one of si, text, remove, append");
            return Err(Refusal::bad(fault));
        }
        if self.remove {
            return Ok(Change::Remove);
        }
        if let Some(entries) = &self.append {
            return self.appended(technique, entries);
        }
        let field = definition(technique, &self.path).map(|(_, field)| field);
        let field = field.ok_or_else(|| unknown(&self.path, technique))?;
        let value = match (self.si, &self.text) {
            (Some(si), _) => in_unit(si, field, &self.path, system)?,
            (None, Some(text)) => typed(text, field, &self.path)?,
            (None, None) => return Ok(Change::Remove),
        };
        Ok(Change::To(value))
    }

    fn appended(
        &self,
        technique: Technique,
        entries: &BTreeMap<String, String>,
    ) -> Result<Change, Refusal> {
        let key = self.path.trim_matches('/').replace('/', ".");
        let section = technique
            .sections()
            .iter()
            .find(|s| s.key == key && s.shape == Shape::Array)
            .ok_or_else(|| unknown(&self.path, technique))?;
        let mut list = Vec::new();
        // In the order of the definition, so that the file reads as others do.
        for field in section.fields {
            if let Some(text) = entries.get(field.key) {
                let path = format!("{}/{}", self.path, field.key);
                list.push((field.key.to_owned(), typed(text, field, &path)?));
            }
        }
        if let Some(other) = entries.keys().find(|k| section.field(k).is_none()) {
            return Err(unknown(&format!("{}/{other}", self.path), technique));
        }
        Ok(Change::Append(list))
    }
}

fn unknown(path: &str, technique: Technique) -> Refusal {
    let message = format!("a design for {} has no field at this path", technique.word());
    let fault = Fault::new("unknown_field", path, message)
        .hint("all fields stand in docs/crossing-file.md and below /fields of the design");
    Refusal::one(StatusCode::UNPROCESSABLE_ENTITY, fault)
}

/// A value in SI as a text with the reader's unit.
fn in_unit(si: f64, field: &Field, path: &str, system: System) -> Result<Value, Refusal> {
    let unit: Unit = field.unit().ok_or_else(|| {
        Refusal::bad(
            Fault::new("no_quantity", path, "this field holds no quantity").hint("send text"),
        )
    })?;
    if !si.is_finite() {
        return Err(Refusal::bad(Fault::new("not_finite", path, "the value is no number")));
    }
    let shown = unit.in_system(system);
    let number = significant(shown.from_si(si), DIGITS);
    Ok(match shown.symbol() {
        "" => Value::Number(number.parse().unwrap_or(si)),
        symbol => Value::Text(format!("{number} {symbol}")),
    })
}

/// A value as typed: numbers stay numbers, lists are lists, all else is text. Whether it is allowed the reader of the
/// file says.
fn typed(text: &str, field: &Field, path: &str) -> Result<Value, Refusal> {
    let text = text.trim();
    match field.value {
        Allowed::Text | Allowed::Choice(_) => Ok(Value::Text(text.to_owned())),
        Allowed::Integer(_) => {
            Ok(text.parse().map_or_else(|_| Value::Text(text.to_owned()), Value::Integer))
        }
        Allowed::Quantity(..) | Allowed::ChoiceOrQuantity(..) => Ok(number_or_text(text)),
        Allowed::Integers(_)
        | Allowed::Quantities(..)
        | Allowed::Rows(_)
        | Allowed::Texts
        | Allowed::NamedRows(..) => list(text, path),
    }
}

fn number_or_text(text: &str) -> Value {
    let plain =
        text.bytes().all(|b| b.is_ascii_digit() || matches!(b, b'.' | b'-' | b'+' | b'e' | b'E'));
    match text.parse::<f64>() {
        Ok(number) if plain && number.is_finite() => Value::Number(number),
        _ => Value::Text(text.to_owned()),
    }
}

fn list(text: &str, path: &str) -> Result<Value, Refusal> {
    let refused = |why: String| {
        let fault = Fault::new("no_list", path, format!("this is no list: {why}")).allowed(
            "values in brackets with commas between them, as [1, 2] or [[0, 4.2], [60, 4.1]]",
        );
        Refusal::one(StatusCode::UNPROCESSABLE_ENTITY, fault)
    };
    let table: toml::Table = format!("list = {text}")
        .parse()
        .map_err(|e: toml::de::Error| refused(e.message().trim().to_owned()))?;
    match table.get("list") {
        Some(value @ toml::Value::Array(_)) if table.len() == 1 => converted(value)
            .ok_or_else(|| refused("it holds what no list of this file holds".to_owned())),
        _ => Err(refused("brackets are missing".to_owned())),
    }
}

fn converted(value: &toml::Value) -> Option<Value> {
    Some(match value {
        toml::Value::String(s) => Value::Text(s.clone()),
        toml::Value::Integer(i) => Value::Integer(*i),
        toml::Value::Float(f) => Value::Number(*f),
        toml::Value::Array(list) => Value::List(list.iter().map(converted).collect::<Option<_>>()?),
        _ => return None,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    const TEXT: &str =
        "format = 1\nname = \"a\" # kept\n\n[line]\nentry_angle = \"12 deg\" # kept too\n";

    fn edit(json: &str) -> Edit {
        serde_json::from_str(json).unwrap()
    }

    #[test]
    fn a_moved_value_is_written_in_the_readers_unit_and_comments_stay() {
        let angle = edit(r#"{"path": "/line/entry_angle", "si": 0.2}"#);
        let text = edited(TEXT, Technique::Drilling, &[angle], System::Metric).unwrap();
        assert_eq!(text, TEXT.replace("12 deg", "11.4592 deg"));
        let level = edit(r#"{"path": "/line/lowest_level", "si": -3.048}"#);
        let text = edited(TEXT, Technique::Drilling, &[level], System::Customary).unwrap();
        assert!(text.contains("lowest_level = \"-10 ft\""), "{text}");
    }

    #[test]
    fn an_edit_that_cannot_be_made_names_its_place() {
        for (json, code) in [
            (r#"{"path": "/line/entry_angel", "text": "1 deg"}"#, "unknown_field"),
            (r#"{"path": "/line/entry_angle"}"#, "edit_unclear"),
            (r#"{"path": "/line/entry_angle", "text": "1", "remove": true}"#, "edit_unclear"),
            (r#"{"path": "/site/ground", "text": "0, 1"}"#, "no_list"),
            (r#"{"path": "/site/ground", "text": "[]\nname = 1"}"#, "no_list"),
            (r#"{"path": "/name", "si": 1.0}"#, "no_quantity"),
        ] {
            let refusal =
                edited(TEXT, Technique::Drilling, &[edit(json)], System::Metric).unwrap_err();
            assert_eq!(refusal.faults[0].code, code, "{json}");
            assert!(refusal.faults[0].path.starts_with('/'));
        }
    }

    #[test]
    fn typed_values_keep_their_kind() {
        let rows = edit(r#"{"path": "/site/ground", "text": "[[0, 4.2], [60, 4]]"}"#);
        let dn = edit(r#"{"path": "/string/dn", "text": "400"}"#);
        let share = edit(r#"{"path": "/string/support_friction", "text": "0.1"}"#);
        let text = edited(TEXT, Technique::Drilling, &[rows, dn, share], System::Metric).unwrap();
        for line in ["ground = [[0, 4.2], [60, 4]]", "dn = 400", "support_friction = 0.1"] {
            assert!(text.contains(line), "{line} in {text}");
        }
    }
}
