//! The list of designs.

use axum::extract::{Query, State};
use maud::{Markup, html};
use serde::Deserialize;
use store::{Listing, Order, ProjectLine, Shown};

use super::Refused;
use super::layout::{Place, page, time};
use crate::app::Shared;

/// Designs on one page.
const ON_A_PAGE: u32 = 50;

/// What is listed.
#[derive(Debug, Deserialize)]
pub struct Wanted {
    #[serde(default)]
    search: String,
    #[serde(default)]
    page: u32,
    #[serde(default)]
    archived: bool,
}

/// `GET /`
pub async fn designs(
    State(app): State<Shared>,
    Query(wanted): Query<Wanted>,
) -> Result<Markup, Refused> {
    let listing = Listing {
        search: wanted.search.clone(),
        shown: if wanted.archived { Shown::Archived } else { Shown::AtWork },
        order: Order::LastChange,
        skip: wanted.page.saturating_mul(ON_A_PAGE),
        most: ON_A_PAGE,
    };
    let found = app.store().list(&listing).map_err(Refused::of(&app))?;
    let last = found.total.saturating_sub(1) / ON_A_PAGE;
    let address = |page: u32| {
        format!("/?page={page}&archived={}&search={}", wanted.archived, encoded(&wanted.search))
    };
    let body = html! {
        h1 { @if wanted.archived { "Archived designs" } @else { "Designs" } }
        div.tools {
            form method="get" role="search" {
                label { "name " input type="search" name="search" value=(wanted.search); }
                @if wanted.archived { input type="hidden" name="archived" value="true"; }
                button { "find" }
            }
            @if wanted.archived { a href="/" { "designs at work" } } @else { a href="/?archived=true" { "archived" } }
        }
        @if found.projects.is_empty() {
            p.empty {
                @if !wanted.search.is_empty() { "No design has “" (wanted.search) "” in its name." }
                @else if wanted.archived { "Nothing is archived." }
                @else { "There is no design yet. Begin with a file to start from, or import one of yours." }
            }
        } @else {
            table.designs {
                thead { tr { th { "design" } th { "technique" } th { "verdict" } th { "revision" } th { "last change" } th {} } }
                tbody { @for line in &found.projects { (row(line)) } }
            }
            p.pages {
                (found.total) " in all"
                @if wanted.page > 0 { " · " a href=(address(wanted.page - 1)) { "earlier page" } }
                @if wanted.page < last { " · " a href=(address(wanted.page + 1)) { "next page" } }
            }
        }
        @if !wanted.archived {
            section.begin aria-label="new design" {
                h2 { "New design" }
                button type="button" data-new="drilling" { "start a drilled crossing" }
                button type="button" data-new="bursting" { "start a renewal by bursting" }
                form #import {
                    label { "import design files with the files of borings that they name "
                        input type="file" name="file" multiple accept=".toml,.ags,.csv"; }
                    button { "import" }
                }
                ul.faults #import-faults hidden {}
            }
        }
    };
    Ok(page(&app, "designs", &Place::Designs, body))
}

fn row(p: &ProjectLine) -> Markup {
    let address = format!("/designs/{}", p.id);
    html! {
        tr {
            td { a href=(address) { (p.name) } }
            td { (p.technique.word()) }
            td.verdict { (p.verdict.as_deref().unwrap_or("–")) }
            td.number { (p.current) }
            td { (time(p.changed_at)) br; small { (p.changed_by) } }
            td {
                @if p.archived_at.is_some() { button type="button" data-restore=(p.id) { "restore" } }
                @else { button type="button" data-archive=(p.id) { "archive" } }
            }
        }
    }
}

/// Text inside an address.
fn encoded(text: &str) -> String {
    text.bytes()
        .map(|b| {
            if b.is_ascii_alphanumeric() { char::from(b).to_string() } else { format!("%{b:02X}") }
        })
        .collect()
}
