//! Every field of a design with what stands in it, for forms.

use std::collections::BTreeMap;

use axum::Json;
use axum::extract::{Path, State};
use project::Technique;
use project::fields::{Fallback, Field, Need, Section, Shape, Value as Allowed};
use serde::Serialize;
use store::Revision;
use working::Assumption;

use crate::app::{Shared, heavy, read_revision};
use crate::fault::Refusal;

/// All fields of a design.
#[derive(Debug, Serialize)]
pub struct Fields {
    revision: u32,
    sections: Vec<SectionRow>,
    lists: Vec<ListRow>,
}

/// A table of the file, or one entry of a list of tables.
#[derive(Debug, Serialize)]
struct SectionRow {
    /// Place, as `/site/obstacle/2`.
    path: String,
    title: String,
    meaning: &'static str,
    /// Whether it is an entry of a list.
    entry: bool,
    fields: Vec<FieldRow>,
}

/// A list of tables to which entries can be added.
#[derive(Debug, Serialize)]
struct ListRow {
    path: String,
    title: String,
    /// Values that would do.
    example: BTreeMap<&'static str, String>,
}

/// A field.
#[derive(Debug, Serialize)]
struct FieldRow {
    key: &'static str,
    path: String,
    meaning: &'static str,
    /// `text`, `integer`, `quantity`, `choice`, `choice-or-quantity`, `list`, `rows`.
    kind: &'static str,
    unit: Option<&'static str>,
    words: Vec<WordRow>,
    /// What is needed: empty where it may be left out without loss.
    need: String,
    /// What stands in the file.
    text: Option<String>,
    /// What is taken where nothing stands.
    taken: Option<String>,
    /// Where the taken value comes from.
    why: Option<String>,
    allowed: Option<String>,
}

#[derive(Debug, Serialize)]
struct WordRow {
    word: &'static str,
    meaning: &'static str,
}

/// `GET /designs/{id}/fields`
pub async fn fields(
    State(app): State<Shared>,
    Path(id): Path<i64>,
) -> Result<Json<Fields>, Refusal> {
    heavy(move || {
        let revision = app.store().current(id)?;
        quantity::for_reader(app.system(), || of(&revision).map(Json))
    })
    .await
}

/// All fields of a revision.
///
/// # Errors
/// When its text cannot be read.
pub fn of(revision: &Revision) -> Result<Fields, Refusal> {
    let technique = revision.technique;
    let table: toml::Table = revision
        .text
        .parse()
        .map_err(|e: toml::de::Error| Refusal::internal(e.message().to_owned()))?;
    let reading = read_revision(revision)?;
    let assumed = match &reading.design {
        project::Design::Crossing(p) => &p.assumptions,
        project::Design::Renewal(r) => &r.assumptions,
    };
    let root = toml::Value::Table(table);
    let mut sections = Vec::new();
    let mut lists = Vec::new();
    for section in technique.sections() {
        match section.shape {
            Shape::Table => sections.push(row(section, section.path(), &root, assumed, technique)),
            Shape::Array => {
                let count =
                    at(&root, &section.path()).and_then(toml::Value::as_array).map_or(0, Vec::len);
                for k in 0..count {
                    let path = format!("{}/{k}", section.path());
                    sections.push(row(section, path, &root, assumed, technique));
                }
                lists.push(ListRow {
                    path: section.path(),
                    title: words(section.key),
                    example: example(section, &root),
                });
            }
        }
    }
    Ok(Fields { revision: revision.number, sections, lists })
}

/// What an entry begins with: every field that must stand, of fields for several cases those of the first case (a field of
/// another one would contradict them), and a name that no other entry has.
fn example(section: &Section, root: &toml::Value) -> BTreeMap<&'static str, String> {
    let case = section.fields.iter().find_map(|f| match f.need {
        Need::RequiredWhen(case) => Some(case),
        _ => None,
    });
    let mut values: BTreeMap<&'static str, String> = section
        .fields
        .iter()
        .filter(|f| match f.need {
            Need::Required => true,
            Need::RequiredWhen(of) => Some(of) == case,
            _ => false,
        })
        .map(|f| (f.key, f.example.trim_matches('"').to_owned()))
        .collect();
    if let Some(name) = values.get_mut("name") {
        let entries = at(root, &section.path()).and_then(toml::Value::as_array);
        let taken: Vec<&str> = entries
            .into_iter()
            .flatten()
            .filter_map(|e| e.get("name").and_then(toml::Value::as_str))
            .collect();
        // One number more than there are entries, so that one of them is free.
        let mut free = (2..=taken.len() + 2).map(|k| format!("{name} {k}"));
        if taken.contains(&name.as_str())
            && let Some(other) = free.find(|n| !taken.contains(&n.as_str()))
        {
            *name = other;
        }
    }
    values
}

fn words(key: &str) -> String {
    if key.is_empty() { "whole".to_owned() } else { key.replace('.', ": ").replace('_', " ") }
}

fn row(
    section: &'static Section,
    path: String,
    root: &toml::Value,
    assumed: &[Assumption],
    technique: Technique,
) -> SectionRow {
    let entry = section.shape == Shape::Array;
    let here = at(root, &path);
    let name = here.and_then(|t| t.get("name")).and_then(toml::Value::as_str);
    let title = match (entry, name) {
        (true, Some(name)) => format!("{}: {name}", words(section.key)),
        (true, None) => {
            let number =
                path.rsplit('/').next().and_then(|n| n.parse::<usize>().ok()).unwrap_or(0) + 1;
            format!("{} {number}", words(section.key))
        }
        _ if section.key.is_empty() => technique.word().to_owned(),
        _ => words(section.key),
    };
    let fields = section
        .fields
        .iter()
        .filter(|f| !(section.key.is_empty() && matches!(f.key, "format" | "technique")))
        .map(|f| field(f, &path, here, assumed))
        .collect();
    SectionRow { path, title, meaning: section.meaning, entry, fields }
}

fn field(
    f: &'static Field,
    section: &str,
    here: Option<&toml::Value>,
    assumed: &[Assumption],
) -> FieldRow {
    let path = format!("{section}/{}", f.key);
    let (kind, list) = match &f.value {
        Allowed::Text => ("text", &[][..]),
        Allowed::Integer(_) => ("integer", &[][..]),
        Allowed::Quantity(..) => ("quantity", &[][..]),
        Allowed::Choice(words) => ("choice", *words),
        Allowed::ChoiceOrQuantity(words, ..) => ("choice-or-quantity", *words),
        Allowed::Integers(_) | Allowed::Quantities(..) | Allowed::Texts => ("list", &[][..]),
        Allowed::Rows(_) | Allowed::NamedRows(..) => ("rows", &[][..]),
    };
    let allowed = match &f.value {
        Allowed::Integer(range) => Some(range.describe(quantity::unit::ONE)),
        Allowed::Quantity(unit, range)
        | Allowed::Quantities(unit, range)
        | Allowed::ChoiceOrQuantity(_, unit, range) => Some(range.describe(*unit)),
        Allowed::Rows(columns) => Some(rows_of("", columns)),
        Allowed::NamedRows(name, columns) => Some(rows_of(name, columns)),
        _ => None,
    };
    let taken = assumed.iter().find(|a| a.path == path);
    let (need, fallback) = match &f.need {
        Need::Required => ("must stand".to_owned(), None),
        Need::RequiredWhen(case) => (format!("must stand when {case}"), None),
        Need::Optional(without) => (format!("without it: {without}"), None),
        Need::Default(Fallback::Value(v), why) => {
            (String::new(), Some((v.trim_matches('"'), why.source())))
        }
        Need::Default(Fallback::Rule(rule), why) => (String::new(), Some((*rule, why.source()))),
    };
    FieldRow {
        key: f.key,
        meaning: f.meaning,
        kind,
        unit: f.unit().map(quantity::Unit::symbol).filter(|s| !s.is_empty()),
        words: list.iter().map(|w| WordRow { word: w.word, meaning: w.meaning }).collect(),
        need,
        text: here.and_then(|t| t.get(f.key)).map(text),
        taken: taken
            .map(|a| a.value.clone())
            .or_else(|| fallback.as_ref().map(|(v, _)| (*v).to_owned())),
        why: taken
            .map(|a| a.source.to_string())
            .or_else(|| fallback.map(|(_, source)| source.to_string())),
        allowed,
        path,
    }
}

fn rows_of(name: &str, columns: &[project::fields::Column]) -> String {
    let names = columns.iter().map(|c| match c.unit.symbol() {
        "" => c.name.to_owned(),
        symbol => format!("{} in {symbol}", c.name),
    });
    let first = (!name.is_empty()).then(|| name.to_owned());
    format!("rows of {}", first.into_iter().chain(names).collect::<Vec<_>>().join(", "))
}

/// A value as it is typed into a form.
fn text(value: &toml::Value) -> String {
    match value {
        toml::Value::String(s) => s.clone(),
        other => other.to_string(),
    }
}

/// The value at a path; entries of lists are counted from 0.
fn at<'a>(root: &'a toml::Value, path: &str) -> Option<&'a toml::Value> {
    path.split('/').filter(|k| !k.is_empty()).try_fold(root, |here, key| match here {
        toml::Value::Array(list) => key.parse::<usize>().ok().and_then(|k| list.get(k)),
        other => other.get(key),
    })
}
