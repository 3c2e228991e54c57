//! Revisions: history, undo and redo, comparison, drafts.

use axum::Json;
use axum::extract::{Path, Query, State};
use axum::http::StatusCode;
use serde::Deserialize;
use serde_json::{Value, json};
use store::{Draft, Moved, Side};

use super::designs::whole;
use crate::app::{App, LOCAL, Shared, now};
use crate::body::Body;
use crate::fault::{Fault, Refusal};

/// From where a step goes.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Step {
    /// The revision that the caller sees as current.
    from: u32,
    #[serde(default)]
    window: String,
}

/// `POST /designs/{id}/undo`
pub async fn undo(
    State(app): State<Shared>,
    Path(id): Path<i64>,
    Body(step): Body<Step>,
) -> Result<Json<Value>, Refusal> {
    let who = app.who();
    let moved = app.store().undo(id, step.from, &who, now())?;
    told(&app, id, moved, &step)
}

/// `POST /designs/{id}/redo`
pub async fn redo(
    State(app): State<Shared>,
    Path(id): Path<i64>,
    Body(step): Body<Step>,
) -> Result<Json<Value>, Refusal> {
    let who = app.who();
    let moved = app.store().redo(id, step.from, &who, now())?;
    told(&app, id, moved, &step)
}

fn told(app: &App, id: i64, moved: Moved, step: &Step) -> Result<Json<Value>, Refusal> {
    match moved {
        Moved::To(revision) => {
            app.tell(id, revision.number, &step.window);
            Ok(Json(json!({ "revision": revision.number })))
        }
        Moved::Conflict(current) => {
            let message = format!("revision {} is current, not {}", current.number, step.from);
            let fault = Fault::new("conflict", "/from", message).hint("look at it first");
            let refusal = Refusal::one(StatusCode::CONFLICT, fault);
            Err(refusal.with("current", json!(current.number)))
        }
    }
}

/// `GET /designs/{id}/history`
pub async fn history(
    State(app): State<Shared>,
    Path(id): Path<i64>,
) -> Result<Json<Value>, Refusal> {
    let lines = app.store().history(id)?;
    let list: Vec<Value> = lines
        .iter()
        .map(|l| {
            json!({
                "revision": l.number, "base": l.base, "name": l.name, "what_changed": l.what_changed,
                "who": l.who, "at": l.at, "verdict": l.verdict, "current": l.current,
            })
        })
        .collect();
    Ok(Json(json!({ "revisions": list })))
}

/// `GET /designs/{id}/revisions/{number}`
pub async fn one(
    State(app): State<Shared>,
    Path((id, number)): Path<(i64, u32)>,
) -> Result<Json<Value>, Refusal> {
    Ok(Json(whole(&app.store().revision(id, number)?)))
}

/// Two revisions.
#[derive(Debug, Deserialize)]
pub struct Two {
    from: u32,
    to: u32,
}

/// `GET /designs/{id}/compare`
pub async fn compare(
    State(app): State<Shared>,
    Path(id): Path<i64>,
    Query(two): Query<Two>,
) -> Result<Json<Value>, Refusal> {
    let c = app.store().compare(id, two.from, two.to)?;
    let lines: Vec<Value> = c
        .lines
        .iter()
        .map(|l| {
            let side = if l.side == Side::From { "from" } else { "to" };
            json!({ "side": side, "line": l.line, "text": l.text })
        })
        .collect();
    let fields: Vec<Value> =
        c.fields.iter().map(|f| json!({ "path": f.path, "from": f.from, "to": f.to })).collect();
    Ok(Json(json!({ "lines": lines, "fields": fields, "fields_compared": c.fields_compared })))
}

/// `GET /designs/{id}/copies`: texts that were set aside because another one was faster.
pub async fn copies(
    State(app): State<Shared>,
    Path(id): Path<i64>,
) -> Result<Json<Value>, Refusal> {
    let copies = app.store().copies(id)?;
    let list: Vec<Value> = copies
        .iter()
        .map(|c| json!({ "copy": c.id, "text": c.text, "base": c.base, "who": c.who, "at": c.at }))
        .collect();
    Ok(Json(json!({ "copies": list })))
}

/// `GET /designs/{id}/draft`
pub async fn draft(State(app): State<Shared>, Path(id): Path<i64>) -> Result<Json<Value>, Refusal> {
    let draft = app.store().load_draft(id, LOCAL)?;
    Ok(Json(draft.map_or(
        Value::Null,
        |d| json!({ "text": d.text, "base": d.base, "who": d.who, "at": d.at }),
    )))
}

/// Text as typed.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Typed {
    base: u32,
    text: String,
}

/// `PUT /designs/{id}/draft`: what was typed, valid or not.
pub async fn save_draft(
    State(app): State<Shared>,
    Path(id): Path<i64>,
    Body(typed): Body<Typed>,
) -> Result<Json<Value>, Refusal> {
    let draft = Draft { text: typed.text, base: typed.base, who: app.who(), at: now() };
    app.store().save_draft(id, LOCAL, &draft)?;
    Ok(Json(json!({ "kept": true })))
}

/// `DELETE /designs/{id}/draft`
pub async fn drop_draft(
    State(app): State<Shared>,
    Path(id): Path<i64>,
) -> Result<Json<Value>, Refusal> {
    app.store().drop_draft(id, LOCAL)?;
    Ok(Json(json!({ "kept": false })))
}
