//! The JSON schema of the crossing file, for editors that complete and check while one types.

use serde_json::{Map, Value as Json, json};

use crate::fields::{Column, Fallback, Field, Need, Range, Section, Shape, Technique, Value, Word};

/// JSON schema (draft 2020-12) of the crossing file as an editor sees it after reading the TOML.
///
/// What depends on several fields at once is left to the reader of the file. The keywords `x-unit`
/// (unit of a bare number), `x-default` (default that follows from other fields) and `x-usual`
/// (values of practice) are notes for people.
#[must_use]
pub fn schema(technique: Technique) -> Json {
    let sections = technique.sections();
    let mut root = sections.first().map_or_else(Map::new, |top| object(sections, top));
    let head = json!({
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "Crossing file, format 1",
    });
    if let Json::Object(head) = head {
        let mut whole = head;
        whole.append(&mut root);
        return Json::Object(whole);
    }
    Json::Object(root)
}

fn object(sections: &'static [&'static Section], section: &'static Section) -> Map<String, Json> {
    let mut properties = Map::new();
    let mut required = Vec::new();
    for field in section.fields {
        properties.insert(field.key.to_owned(), Json::Object(property(field)));
        if matches!(field.need, Need::Required) {
            required.push(json!(field.key));
        }
    }
    for part in sections.iter().copied() {
        let Some(key) = key_below(section, part) else { continue };
        let inner = Json::Object(object(sections, part));
        let value = match part.shape {
            Shape::Table => inner,
            Shape::Array => json!({ "type": "array", "items": inner }),
        };
        properties.insert(key.to_owned(), value);
        if part.required {
            required.push(json!(key));
        }
    }
    let mut out = Map::new();
    out.insert("description".to_owned(), json!(section.meaning));
    out.insert("type".to_owned(), json!("object"));
    out.insert("properties".to_owned(), Json::Object(properties));
    out.insert("required".to_owned(), Json::Array(required));
    out.insert("additionalProperties".to_owned(), json!(false));
    out
}

/// Key of a section inside the one directly above it.
fn key_below(above: &Section, part: &'static Section) -> Option<&'static str> {
    if part.key.is_empty() {
        return None;
    }
    let (parent, key) = part.key.rsplit_once('.').unwrap_or(("", part.key));
    (parent == above.key).then_some(key)
}

fn property(field: &Field) -> Map<String, Json> {
    let mut out = Map::new();
    let text = format!("{}. {}.", capital(field.meaning), capital(&field.need_in_words()));
    out.insert("description".to_owned(), json!(text));
    if let Json::Object(mut shape) = shape(&field.value) {
        out.append(&mut shape);
    }
    if let Some(unit) = field.unit() {
        out.insert("x-unit".to_owned(), json!(unit.symbol()));
    }
    if let Some((usual, unit)) = field.usual.zip(field.unit()) {
        out.insert("x-usual".to_owned(), json!(usual.describe(unit)));
    }
    match &field.need {
        Need::Default(Fallback::Value(text), _) => {
            if let Some(value) = literal(text) {
                out.insert("default".to_owned(), value);
            }
        }
        Need::Default(Fallback::Rule(rule), _) => {
            out.insert("x-default".to_owned(), json!(rule));
        }
        _ => {}
    }
    if let Some(value) = literal(field.example) {
        out.insert("examples".to_owned(), json!([value]));
    }
    out
}

fn shape(value: &Value) -> Json {
    match value {
        Value::Text => json!({ "type": "string", "minLength": 1 }),
        Value::Integer(range) => whole(*range),
        Value::Quantity(_, range) => json!({ "anyOf": quantity(*range) }),
        Value::Choice(list) => words(list),
        Value::ChoiceOrQuantity(list, _, range) => {
            let mut any = vec![words(list)];
            any.extend(quantity(*range));
            json!({ "anyOf": any })
        }
        Value::Integers(range) => array(whole(*range)),
        Value::Quantities(_, range) => array(json!({ "anyOf": quantity(*range) })),
        Value::Rows(columns) => array(row(None, columns)),
        Value::Texts => array(json!({ "type": "string", "minLength": 1 })),
        Value::NamedRows(name, columns) => array(row(Some(name), columns)),
    }
}

fn row(name: Option<&str>, columns: &[Column]) -> Json {
    let name = name.map(|n| json!({ "description": n, "type": "string", "minLength": 1 }));
    let cells: Vec<_> = name
        .into_iter()
        .chain(columns.iter().map(|c| {
            json!({
                "description": c.name,
                "anyOf": quantity(c.range),
                "x-unit": c.unit.symbol(),
            })
        }))
        .collect();
    let count = cells.len();
    json!({
        "type": "array",
        "prefixItems": cells,
        "items": false,
        "minItems": count,
        "maxItems": count,
    })
}

fn array(items: Json) -> Json {
    json!({ "type": "array", "minItems": 1, "items": items })
}

fn words(list: &[Word]) -> Json {
    json!({ "enum": list.iter().map(|w| w.word).collect::<Vec<_>>() })
}

fn whole(range: Range) -> Json {
    let mut out = bounds(range);
    out.insert("type".to_owned(), json!("integer"));
    Json::Object(out)
}

/// A bare number in the field's unit, or a text that begins with a number.
fn quantity(range: Range) -> Vec<Json> {
    let mut number = bounds(range);
    number.insert("type".to_owned(), json!("number"));
    let text = json!({ "type": "string", "pattern": "^\\s*[-+]?[0-9.]" });
    vec![Json::Object(number), text]
}

fn bounds(range: Range) -> Map<String, Json> {
    let mut out = Map::new();
    if let Some((value, itself)) = range.low() {
        let key = if itself { "minimum" } else { "exclusiveMinimum" };
        out.insert(key.to_owned(), json!(value));
    }
    if let Some((value, itself)) = range.high() {
        let key = if itself { "maximum" } else { "exclusiveMaximum" };
        out.insert(key.to_owned(), json!(value));
    }
    out
}

/// A value as written in the file, as JSON.
fn literal(text: &str) -> Option<Json> {
    let table: toml::Table = toml::from_str(&format!("value = {text}")).ok()?;
    serde_json::to_value(table.get("value")?).ok()
}

fn capital(text: &str) -> String {
    let mut rest = text.chars();
    rest.next().map_or_else(String::new, |c| c.to_uppercase().chain(rest).collect())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_example_and_default_is_a_value_of_the_file() {
        for section in Technique::ALL.iter().flat_map(|t| t.sections()) {
            for field in section.fields {
                assert!(literal(field.example).is_some(), "{}/{}", section.path(), field.key);
            }
        }
    }

    #[test]
    fn the_schema_is_a_schema_and_knows_every_section() {
        for technique in Technique::ALL {
            let schema = schema(technique);
            assert!(jsonschema::meta::is_valid(&schema));
            for section in technique.sections().iter().filter(|s| !s.key.is_empty()) {
                let mut at = &schema;
                for key in section.key.split('.') {
                    at = &at["properties"][key];
                    if at["type"] == "array" {
                        at = &at["items"];
                    }
                }
                assert_eq!(at["additionalProperties"], json!(false), "{}", section.key);
            }
        }
    }
}
