//! The design file itself, as text.

use axum::extract::{Path, State};
use maud::{Markup, html};

use super::Refused;
use super::layout::{Place, page};
use crate::app::{LOCAL, Shared};

/// `GET /designs/{id}/text`
pub async fn text(State(app): State<Shared>, Path(id): Path<i64>) -> Result<Markup, Refused> {
    let revision = app.store().current(id).map_err(Refused::of(&app))?;
    let draft = app.store().load_draft(id, LOCAL).map_err(Refused::of(&app))?;
    let shown = draft.as_ref().map_or(revision.text.as_str(), |d| d.text.as_str());
    let base = draft.as_ref().map_or(revision.number, |d| d.base);
    let body = html! {
        h1 { (revision.name) ": the design file" }
        p { "The file is the truth: comments and order stay as they are. Revision " (revision.number) "." }
        @if draft.is_some() {
            p.note #draft-note { "This is what you typed last; it is not saved as a revision yet." }
        }
        @if !revision.files.is_empty() {
            p { "Beside it: " (revision.files.iter().map(|f| f.name.as_str()).collect::<Vec<_>>().join(", ")) }
        }
        form #file data-design=(id) data-base=(base) data-current=(revision.number) {
            div.editor {
                textarea #text name="text" spellcheck="false" rows="34" aria-label="design file" wrap="off" { (shown) }
            }
            label { "what changed " input name="note" maxlength="200" autocomplete="off" size="40"; }
            button #save { "save as revision" }
            button #fresh type="button" { "back to the saved text" }
            a href=(format!("/api/v1/designs/{id}/file")) { "download" }
        }
        ul.faults #faults role="alert" hidden {}
        script type="module" src="/assets/text.js" {}
    };
    Ok(page(&app, &revision.name, &Place::Design(id, &revision.name, "text"), body))
}
