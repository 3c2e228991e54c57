//! Documents: order, progress, download.

use axum::Json;
use axum::extract::{Path, State};
use axum::http::{StatusCode, header};
use axum::response::{IntoResponse, Response};
use book::dossier::Part;
use serde::Deserialize;
use serde_json::{Value, json};
use sheets::{Date, Issue};
use std::sync::PoisonError;

use crate::app::Shared;
use crate::body::Body;
use crate::documents::{self, Job};
use crate::fault::{Fault, Refusal};

/// What is ordered.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Order {
    /// Parts: `book`, `drawings`, `workbook`, `data`; all without it.
    parts: Option<Vec<String>>,
    /// Day of the issue, as 2026-05-31.
    date: Option<String>,
    revision: Option<String>,
    author: Option<String>,
}

/// Characters of a word in a title block.
const LONGEST: usize = 80;

/// `POST /designs/{id}/documents`
pub async fn start(
    State(app): State<Shared>,
    Path(id): Path<i64>,
    Body(order): Body<Order>,
) -> Result<Response, Refusal> {
    let revision = app.store().current(id)?;
    let mut faults = Vec::new();
    let parts = parts(order.parts, &mut faults);
    let date = order.date.filter(|d| !d.trim().is_empty()).and_then(|text| {
        text.trim()
            .parse::<Date>()
            .map_err(|e| faults.push(Fault::new("no_day", "/date", e.to_string())))
            .ok()
    });
    let mut word = |path: &str, text: Option<String>| {
        let text = text.map(|t| t.trim().to_owned()).filter(|t| !t.is_empty())?;
        if text.chars().count() > LONGEST || text.chars().any(char::is_control) {
            let fault = Fault::new("too_long", path, "one short line is allowed");
            faults.push(fault.allowed(format!("up to {LONGEST} characters")));
            return None;
        }
        Some(text)
    };
    let issue = Issue {
        date,
        revision: word("/revision", order.revision),
        author: word("/author", order.author),
    };
    if !faults.is_empty() {
        let more = serde_json::Map::new();
        return Err(Refusal { status: StatusCode::UNPROCESSABLE_ENTITY, faults, more });
    }
    let job = app.jobs.start(revision, parts, issue, app.system());
    let at = format!("/api/v1/documents/{job}");
    Ok((StatusCode::ACCEPTED, [(header::LOCATION, at)], Json(json!({ "job": job })))
        .into_response())
}

fn parts(words: Option<Vec<String>>, faults: &mut Vec<Fault>) -> Vec<Part> {
    let Some(words) = words else { return Part::ALL.to_vec() };
    let known = Part::ALL.map(Part::word).join(", ");
    if words.is_empty() {
        faults.push(Fault::new("no_parts", "/parts", "nothing was ordered").allowed(known.clone()));
    }
    let mut list = Vec::new();
    for (word, k) in words.iter().zip(0..) {
        match Part::ALL.into_iter().find(|p| p.word() == word) {
            Some(part) if !list.contains(&part) => list.push(part),
            Some(_) => {}
            None => {
                let path = format!("/parts/{k}");
                let fault = Fault::new("unknown_part", &path, "there is no such part");
                faults.push(fault.found(word).allowed(known.clone()));
            }
        }
    }
    list
}

/// `GET /documents/{job}`
pub async fn state(
    State(app): State<Shared>,
    Path(job): Path<u64>,
) -> Result<Json<Value>, Refusal> {
    let found = app.jobs.find(job)?;
    let j = found.lock().unwrap_or_else(PoisonError::into_inner);
    let files: Vec<Value> = j
        .dossier
        .files
        .iter()
        .map(|f| json!({ "name": f.name, "title": f.title, "media_type": f.media_type, "bytes": f.bytes.len() }))
        .collect();
    let omitted: Vec<Value> =
        j.dossier.omitted.iter().map(|o| json!({ "name": o.name, "reason": o.reason })).collect();
    let parts: Vec<Value> =
        j.parts.iter().map(|(p, done)| json!({ "part": p, "done": done })).collect();
    Ok(Json(json!({
        "job": job, "design": j.design, "revision": j.revision, "parts": parts, "files": files,
        "omitted": omitted, "errors": j.errors, "finished": j.finished,
    })))
}

/// `GET /documents/{job}/files/{name}`
pub async fn file(
    State(app): State<Shared>,
    Path((job, name)): Path<(u64, String)>,
) -> Result<Response, Refusal> {
    let found = app.jobs.find(job)?;
    let j = found.lock().unwrap_or_else(PoisonError::into_inner);
    let file = j.dossier.files.iter().find(|f| f.name == name);
    let file = file.ok_or_else(|| Refusal::not_found("there is no such file in this order"))?;
    let headers = [
        (header::CONTENT_TYPE, file.media_type.to_owned()),
        (header::CONTENT_DISPOSITION, format!("attachment; filename=\"{}\"", file.name)),
    ];
    Ok((headers, file.bytes.clone()).into_response())
}

/// `GET /documents/{job}/all.zip`
pub async fn all(State(app): State<Shared>, Path(job): Path<u64>) -> Result<Response, Refusal> {
    let found = app.jobs.find(job)?;
    let j: std::sync::MutexGuard<'_, Job> = found.lock().unwrap_or_else(PoisonError::into_inner);
    if !j.finished {
        let fault = Fault::new("not_finished", "", "the documents are still being made");
        return Err(Refusal::one(StatusCode::CONFLICT, fault.hint("ask again in a moment")));
    }
    let bytes = documents::archive(&j.dossier.files)?;
    let name = format!("attachment; filename=\"design-{}-revision-{}.zip\"", j.design, j.revision);
    let headers =
        [(header::CONTENT_TYPE, "application/zip".to_owned()), (header::CONTENT_DISPOSITION, name)];
    Ok((headers, bytes).into_response())
}
