//! What the reader chose: units, theme, name.

use axum::Json;
use axum::extract::State;
use serde_json::{Map, Value, json};

use crate::app::{LOCAL, Shared};
use crate::body::Body;
use crate::fault::{Fault, Refusal};

/// Keys with the words that may stand; any words for those with none.
const KNOWN: [(&str, &[&str]); 3] =
    [("units", &["metric", "us"]), ("theme", &["system", "light", "dark"]), ("name", &[])];

/// Characters of a name.
const LONGEST: usize = 80;

/// `GET /preferences`
pub async fn all(State(app): State<Shared>) -> Result<Json<Value>, Refusal> {
    let pairs = app.store().preferences(LOCAL)?;
    let map: Map<String, Value> = pairs.into_iter().map(|(k, v)| (k, Value::String(v))).collect();
    Ok(Json(Value::Object(map)))
}

/// `PUT /preferences`
pub async fn set(
    State(app): State<Shared>,
    Body(wanted): Body<std::collections::BTreeMap<String, String>>,
) -> Result<Json<Value>, Refusal> {
    for (key, value) in &wanted {
        let path = format!("/{key}");
        let Some((_, words)) = KNOWN.iter().find(|(k, _)| k == key) else {
            let fault = Fault::new("unknown_key", &path, "there is no such preference");
            return Err(Refusal::bad(fault.allowed(KNOWN.map(|(k, _)| k).join(", "))));
        };
        if !words.is_empty() && !words.contains(&value.as_str()) {
            let fault = Fault::new("unknown_word", &path, "this cannot be chosen");
            return Err(Refusal::bad(fault.found(value).allowed(words.join(", "))));
        }
        if value.chars().count() > LONGEST || value.chars().any(char::is_control) {
            let fault = Fault::new("too_long", &path, "one short line is allowed");
            return Err(Refusal::bad(fault.allowed(format!("up to {LONGEST} characters"))));
        }
    }
    for (key, value) in &wanted {
        app.store().set_preference(LOCAL, key, value)?;
    }
    Ok(Json(json!(wanted)))
}
