//! Worksheets: single formulas with their working.

use std::collections::BTreeMap;

use axum::Json;
use axum::extract::{Path, State};
use axum::http::StatusCode;
use serde_json::{Value, json};
use worksheet::Worksheet;

use crate::app::Shared;
use crate::body::Body;
use crate::fault::{Fault, Refusal};

/// `GET /worksheets`
pub async fn list() -> Json<Value> {
    let list: Vec<Value> =
        worksheet::all().iter().map(|w| json!({ "id": w.id, "title": w.title })).collect();
    Json(json!({ "worksheets": list }))
}

/// The worksheet with an id.
///
/// # Errors
/// With the nearest id.
pub fn find(id: &str) -> Result<&'static Worksheet, Refusal> {
    worksheet::find(id).ok_or_else(|| {
        let fault = Fault::new("unknown_worksheet", "", format!("there is no worksheet \"{id}\""));
        let hint = worksheet::nearest(id).map(|near| format!("did you mean {near}?"));
        Refusal::one(
            StatusCode::NOT_FOUND,
            fault.hint(hint.unwrap_or_else(|| "the list: /api/v1/worksheets".to_owned())),
        )
    })
}

/// `GET /worksheets/{id}`
pub async fn one(Path(id): Path<String>) -> Result<Json<Value>, Refusal> {
    Ok(Json(find(&id)?.to_json()))
}

/// `POST /worksheets/{id}`: inputs by key, each a text as typed, in; the result with its working out.
pub async fn compute(
    State(app): State<Shared>,
    Path(id): Path<String>,
    Body(inputs): Body<BTreeMap<String, Value>>,
) -> Result<Json<Value>, Refusal> {
    let sheet = find(&id)?;
    let pairs: Vec<(String, String)> = inputs
        .into_iter()
        .map(|(key, value)| match value {
            Value::String(text) => (key, text),
            other => (key, other.to_string()),
        })
        .collect();
    quantity::for_reader(app.system(), || match worksheet::evaluate(sheet, &pairs) {
        Ok(worked) => Ok(Json(json!(worked))),
        Err(errors) => Err(Refusal {
            status: StatusCode::UNPROCESSABLE_ENTITY,
            faults: errors
                .iter()
                .map(|e| Fault::new(e.code(), &format!("/{}", e.key()), e.to_string()))
                .collect(),
            more: serde_json::Map::new(),
        }),
    })
}
