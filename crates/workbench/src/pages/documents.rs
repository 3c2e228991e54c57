//! Documents of a design: order, progress, download.

use axum::extract::{Path, State};
use maud::{Markup, html};

use super::Refused;
use super::layout::{Place, page};
use crate::app::Shared;

/// `GET /designs/{id}/documents`
pub async fn documents(State(app): State<Shared>, Path(id): Path<i64>) -> Result<Markup, Refused> {
    let revision = app.store().current(id).map_err(Refused::of(&app))?;
    let who = app.who();
    let parts = [
        ("book", "calculation book (PDF)"),
        ("drawings", "drawings (PDF, SVG, DXF)"),
        ("workbook", "workbook with live formulas (XLSX)"),
        ("data", "curves, setting-out, line, assessment (CSV, LandXML, GeoJSON, JSON)"),
    ];
    let body = html! {
        h1 { (revision.name) ": documents" }
        p { "Of revision " (revision.number) ". The same revision with the same words gives the same bytes." }
        form #order data-design=(id) {
            fieldset {
                legend { "parts" }
                @for (word, title) in parts {
                    label.line { input type="checkbox" name="parts" value=(word) checked; " " (title) }
                }
            }
            fieldset {
                legend { "title block" }
                label { "date " input name="date" placeholder="2026-05-31" size="11" autocomplete="off"; }
                label { "revision " input name="revision" size="6" maxlength="80" value=(revision.number); }
                label { "author " input name="author" size="20" maxlength="80" value=(if who == "not named" { "" } else { &who }); }
            }
            button { "make" }
        }
        ul.faults #faults role="alert" hidden {}
        section #made hidden aria-live="polite" {
            h2 { "Made" }
            progress #progress max="1" value="0" {}
            p #state {}
            table { thead { tr { th { "file" } th { "what" } th { "size" } } } tbody #files {} }
            ul #omitted {}
            p { a #all hidden { "all in one archive" } }
        }
        script type="module" src="/assets/documents.js" {}
    };
    Ok(page(&app, &revision.name, &Place::Design(id, &revision.name, "documents"), body))
}
