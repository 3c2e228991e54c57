//! Pages, made here in Rust; modules of the page only draw, drag and send.

use axum::Router;
use axum::extract::State;
use axum::http::{StatusCode, Uri};
use axum::response::{IntoResponse, Response};
use axum::routing::get;
use maud::{Markup, html};

use self::layout::{Place, page};
use crate::app::Shared;
use crate::fault::Refusal;

mod bench;
mod design;
mod designs;
mod documents;
mod history;
mod layout;
mod math;
mod text;
mod working;

/// All routes of pages.
pub fn routes() -> Router<Shared> {
    Router::new()
        .route("/", get(designs::designs))
        .route("/designs/{id}", get(design::design))
        .route("/designs/{id}/text", get(text::text))
        .route("/designs/{id}/history", get(history::history))
        .route("/designs/{id}/documents", get(documents::documents))
        .route("/designs/{id}/checks/{check}", get(working::check))
        .route("/designs/{id}/changes", get(working::changes))
        .route("/bench", get(bench::list))
        .route("/bench/{id}", get(bench::sheet))
}

/// A page that is not there.
pub async fn missing(State(app): State<Shared>, uri: Uri) -> Response {
    let body = html! {
        h1 { "Nothing lies here" }
        p { "There is no page at " code { (uri.path()) } "." }
        p { a href="/" { "All designs" } }
    };
    (StatusCode::NOT_FOUND, page(&app, "not found", &Place::Other, body)).into_response()
}

/// A refusal as a page.
pub struct Refused(Shared, Refusal);

impl Refused {
    /// For `map_err`.
    fn of<E: Into<Refusal>>(app: &Shared) -> impl FnOnce(E) -> Self {
        let app = Shared::clone(app);
        move |e| Self(app, e.into())
    }
}

impl IntoResponse for Refused {
    fn into_response(self) -> Response {
        let Self(app, refusal) = self;
        let body: Markup = html! {
            h1 { "This cannot be shown" }
            ul.faults {
                @for fault in &refusal.faults {
                    li {
                        @if let Some(line) = fault.line { "line " (line) ", " }
                        @if !fault.path.is_empty() { code { (fault.path) } ": " }
                        (fault.message)
                        @if let Some(allowed) = &fault.allowed { "; allowed: " (allowed) }
                        @if let Some(hint) = &fault.hint { br; (hint) }
                    }
                }
            }
            p { a href="/" { "All designs" } }
        };
        (refusal.status, page(&app, "cannot be shown", &Place::Other, body)).into_response()
    }
}
