//! `/api/v1`: everything that the pages do, for programs.

use axum::Router;
use axum::routing::{get, post};

use crate::app::Shared;
use crate::live;

pub mod designs;
pub mod documents;
pub mod fields;
pub mod openapi;
pub mod preferences;
pub mod revisions;
pub mod worksheets;

/// All routes below `/api/v1`.
pub fn routes() -> Router<Shared> {
    Router::new()
        .route("/", get(openapi::start))
        .route("/openapi.json", get(openapi::document))
        .route("/designs", get(designs::list).post(designs::create))
        .route("/designs/{id}", get(designs::one).put(designs::put).patch(designs::patch))
        .route("/designs/{id}/try", post(designs::attempt))
        .route("/designs/{id}/archive", post(designs::archive))
        .route("/designs/{id}/restore", post(designs::restore))
        .route("/designs/{id}/undo", post(revisions::undo))
        .route("/designs/{id}/redo", post(revisions::redo))
        .route("/designs/{id}/history", get(revisions::history))
        .route("/designs/{id}/revisions/{number}", get(revisions::one))
        .route("/designs/{id}/compare", get(revisions::compare))
        .route("/designs/{id}/copies", get(revisions::copies))
        .route(
            "/designs/{id}/draft",
            get(revisions::draft).put(revisions::save_draft).delete(revisions::drop_draft),
        )
        .route("/designs/{id}/file", get(designs::file))
        .route("/designs/{id}/fields", get(fields::fields))
        .route("/designs/{id}/picture", get(designs::picture))
        .route("/designs/{id}/assessment", get(designs::assessment))
        .route("/designs/{id}/checks/{check}", get(designs::check))
        .route("/designs/{id}/live", get(live::live))
        .route("/designs/{id}/documents", post(documents::start))
        .route("/documents/{job}", get(documents::state))
        .route("/documents/{job}/files/{name}", get(documents::file))
        .route("/documents/{job}/all.zip", get(documents::all))
        .route("/worksheets", get(worksheets::list))
        .route("/worksheets/{id}", get(worksheets::one).post(worksheets::compute))
        .route("/preferences", get(preferences::all).put(preferences::set))
}
