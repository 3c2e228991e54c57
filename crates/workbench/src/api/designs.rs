//! Designs: list, create, read, change, judge.

use axum::Json;
use axum::extract::{Path, Query, State};
use axum::http::{StatusCode, header};
use axum::response::{IntoResponse, Response};
use serde::{Deserialize, Serialize};
use serde_json::{Value, json};
use store::{
    Files, Listing, NamedBytes, NewProject, Order, ProjectLine, Revision, Save, Saved, Shown,
};

use crate::app::{App, Shared, heavy, now, read_revision};
use crate::body::Body;
use crate::edits::{Edit, edited};
use crate::fault::{Fault, Refusal};
use crate::live::drawn;

/// What is listed.
#[derive(Debug, Deserialize)]
pub struct Wanted {
    #[serde(default)]
    search: String,
    #[serde(default)]
    archived: bool,
    #[serde(default)]
    skip: u32,
    #[serde(default)]
    most: u32,
    #[serde(default)]
    order: Option<String>,
}

/// A design as a list shows it.
pub fn line(p: &ProjectLine) -> Value {
    json!({
        "id": p.id, "name": p.name, "technique": p.technique.word(), "revision": p.current,
        "revisions": p.revisions, "changed_at": p.changed_at, "changed_by": p.changed_by,
        "archived_at": p.archived_at, "verdict": p.verdict,
    })
}

/// `GET /designs`
pub async fn list(
    State(app): State<Shared>,
    Query(wanted): Query<Wanted>,
) -> Result<Json<Value>, Refusal> {
    let order =
        if wanted.order.as_deref() == Some("name") { Order::Name } else { Order::LastChange };
    let shown = if wanted.archived { Shown::Archived } else { Shown::AtWork };
    let most = if wanted.most == 0 { 100 } else { wanted.most };
    let listing = Listing { search: wanted.search, shown, order, skip: wanted.skip, most };
    let page = app.store().list(&listing)?;
    let designs: Vec<Value> = page.projects.iter().map(line).collect();
    Ok(Json(json!({ "designs": designs, "total": page.total })))
}

/// A file beside a design.
#[derive(Debug, Deserialize, Serialize)]
pub struct BesideFile {
    name: String,
    text: String,
}

/// What a new design begins with.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct New {
    /// Text of the design file; without it a commented file to start from.
    text: Option<String>,
    /// `drilling` or `bursting`, for a file to start from.
    technique: Option<String>,
    /// Files that the text names.
    #[serde(default)]
    files: Vec<BesideFile>,
}

/// `POST /designs`
pub async fn create(State(app): State<Shared>, Body(new): Body<New>) -> Result<Response, Refusal> {
    let text = match (new.text, new.technique.as_deref()) {
        (Some(text), None) => text,
        (None, Some("drilling") | None) => project::starter(project::Technique::Drilling),
        (None, Some("bursting")) => project::starter(project::Technique::Bursting),
        (None, Some(other)) => {
            let fault = Fault::new("unknown_technique", "/technique", "there is no such technique");
            return Err(Refusal::bad(fault.found(other).allowed("drilling, bursting")));
        }
        (Some(_), Some(_)) => {
            let fault =
                Fault::new("text_and_technique", "/technique", "a text says its technique itself");
            return Err(Refusal::bad(fault.hint("leave one of them out")));
        }
    };
    let files: Vec<NamedBytes> = new
        .files
        .into_iter()
        .map(|f| NamedBytes { name: f.name, bytes: f.text.into_bytes() })
        .collect();
    heavy(move || {
        let verdict = verdict_of(&text, &files)?;
        let who = app.who();
        let mut store = app.store();
        let id = store.create(&NewProject { text: &text, files: &files, who: &who, at: now() })?;
        store.set_verdict(id, 1, &verdict)?;
        let at = format!("/api/v1/designs/{id}");
        let body = Json(json!({ "id": id, "revision": 1 }));
        Ok((StatusCode::CREATED, [(header::LOCATION, at)], body).into_response())
    })
    .await
}

/// Reads a text and judges it: the line that a list shows.
fn verdict_of(text: &str, files: &[NamedBytes]) -> Result<String, Refusal> {
    let reading = crate::app::read(text, files).map_err(|list| Refusal::file(&list))?;
    Ok(assess::judge_design(&reading.design).verdict.sentence)
}

/// A revision for programs.
pub fn whole(r: &Revision) -> Value {
    let files: Vec<Value> = r
        .files
        .iter()
        .map(|f| json!({ "name": f.name, "text": String::from_utf8_lossy(&f.bytes) }))
        .collect();
    json!({
        "id": r.project, "revision": r.number, "base": r.base, "name": r.name,
        "technique": r.technique.word(), "text": r.text, "files": files, "what_changed": r.what_changed,
        "who": r.who, "at": r.at, "verdict": r.verdict,
    })
}

/// `GET /designs/{id}`
pub async fn one(State(app): State<Shared>, Path(id): Path<i64>) -> Result<Json<Value>, Refusal> {
    Ok(Json(whole(&app.store().current(id)?)))
}

/// A whole new text.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct NewText {
    /// The revision that was current when the text was begun.
    base: u32,
    text: String,
    #[serde(default)]
    note: String,
    #[serde(default)]
    window: String,
    /// New files; without them those of the revision before.
    files: Option<Vec<BesideFile>>,
}

/// `PUT /designs/{id}`
pub async fn put(
    State(app): State<Shared>,
    Path(id): Path<i64>,
    Body(new): Body<NewText>,
) -> Result<Json<Value>, Refusal> {
    heavy(move || {
        let base = app.store().revision(id, new.base)?;
        let files = new.files.map(|list| {
            list.into_iter()
                .map(|f| NamedBytes { name: f.name, bytes: f.text.into_bytes() })
                .collect::<Vec<_>>()
        });
        let verdict = verdict_of(&new.text, files.as_deref().unwrap_or(&base.files))?;
        let change =
            Change { id, base: new.base, text: &new.text, note: &new.note, window: &new.window };
        change.save(&app, files.as_deref(), &verdict)
    })
    .await
}

/// Some changed values.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Edits {
    /// The revision on which the edits stand.
    base: u32,
    edits: Vec<Edit>,
    #[serde(default)]
    note: String,
    #[serde(default)]
    window: String,
}

/// `PATCH /designs/{id}`
pub async fn patch(
    State(app): State<Shared>,
    Path(id): Path<i64>,
    Body(change): Body<Edits>,
) -> Result<Json<Value>, Refusal> {
    heavy(move || {
        let base = app.store().revision(id, change.base)?;
        let text = edited(&base.text, base.technique, &change.edits, app.system())?;
        let verdict = verdict_of(&text, &base.files)?;
        let change = Change {
            id,
            base: change.base,
            text: &text,
            note: &change.note,
            window: &change.window,
        };
        change.save(&app, None, &verdict)
    })
    .await
}

struct Change<'a> {
    id: i64,
    base: u32,
    text: &'a str,
    note: &'a str,
    window: &'a str,
}

impl Change<'_> {
    fn save(
        &self,
        app: &App,
        files: Option<&[NamedBytes]>,
        verdict: &str,
    ) -> Result<Json<Value>, Refusal> {
        let who = app.who();
        let saved = app.store().save(&Save {
            project: self.id,
            base: self.base,
            text: self.text,
            files: files.map_or(Files::AsBefore, Files::These),
            what_changed: self.note,
            who: &who,
            at: now(),
            set_aside: true,
        })?;
        match saved {
            Saved::Revision(number) => {
                app.store().set_verdict(self.id, number, verdict)?;
                app.tell(self.id, number, self.window);
                Ok(Json(json!({ "revision": number })))
            }
            Saved::Conflict { current, copy } => {
                let message = format!("revision {} was saved meanwhile", current.number);
                let fault = Fault::new("conflict", "/base", message)
                    .found(self.base.to_string())
                    .hint("your text was set aside and can be fetched under copies; look at the new revision and change it");
                Err(Refusal::one(StatusCode::CONFLICT, fault)
                    .with("current", json!(current.number))
                    .with("copy", json!(copy)))
            }
        }
    }
}

/// `POST /designs/{id}/try`: whether edits can be read and what they would mean; nothing is saved.
pub async fn attempt(
    State(app): State<Shared>,
    Path(id): Path<i64>,
    Body(change): Body<Edits>,
) -> Result<Json<Value>, Refusal> {
    heavy(move || {
        let base = app.store().revision(id, change.base)?;
        let system = app.system();
        let text = edited(&base.text, base.technique, &change.edits, system)?;
        Ok(Json(json!(drawn(&text, &base, system)?)))
    })
    .await
}

/// `POST /designs/{id}/archive`
pub async fn archive(
    State(app): State<Shared>,
    Path(id): Path<i64>,
) -> Result<Json<Value>, Refusal> {
    let who = app.who();
    app.store().archive(id, &who, now())?;
    Ok(Json(json!({ "archived": true })))
}

/// `POST /designs/{id}/restore`
pub async fn restore(
    State(app): State<Shared>,
    Path(id): Path<i64>,
) -> Result<Json<Value>, Refusal> {
    app.store().restore_project(id)?;
    Ok(Json(json!({ "archived": false })))
}

/// `GET /designs/{id}/file`: the design file as it stands.
pub async fn file(State(app): State<Shared>, Path(id): Path<i64>) -> Result<Response, Refusal> {
    let revision = app.store().current(id)?;
    let name = format!("attachment; filename=\"design-{id}-revision-{}.toml\"", revision.number);
    let headers = [
        (header::CONTENT_TYPE, "application/toml".to_owned()),
        (header::CONTENT_DISPOSITION, name),
    ];
    Ok((headers, revision.text).into_response())
}

/// `GET /designs/{id}/picture`
pub async fn picture(
    State(app): State<Shared>,
    Path(id): Path<i64>,
) -> Result<Json<Value>, Refusal> {
    heavy(move || {
        let revision = app.store().current(id)?;
        Ok(Json(json!(drawn(&revision.text, &revision, app.system())?)))
    })
    .await
}

/// `GET /designs/{id}/assessment`: everything that was found, with what must change.
pub async fn assessment(
    State(app): State<Shared>,
    Path(id): Path<i64>,
) -> Result<Json<Value>, Refusal> {
    heavy(move || {
        let revision = app.store().current(id)?;
        quantity::for_reader(app.system(), || {
            let reading = read_revision(&revision)?;
            Ok(Json(json!(assess::assess_design(&reading.design))))
        })
    })
    .await
}

/// `GET /designs/{id}/checks/{check}`: a check with its working.
pub async fn check(
    State(app): State<Shared>,
    Path((id, check)): Path<(i64, String)>,
) -> Result<Json<Value>, Refusal> {
    heavy(move || {
        let revision = app.store().current(id)?;
        quantity::for_reader(app.system(), || {
            let reading = read_revision(&revision)?;
            let found = assess::explain_design(&reading.design, &check);
            let found = found.ok_or_else(|| {
                let known = assess::check_ids_of(&reading.design).join(", ");
                let fault =
                    Fault::new("unknown_check", "", format!("this design has no check {check}"));
                Refusal::one(StatusCode::NOT_FOUND, fault.allowed(known))
            })?;
            Ok(Json(json!(found)))
        })
    })
    .await
}
