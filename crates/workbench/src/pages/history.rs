//! Revisions of a design, and what differs between two of them.

use axum::extract::{Path, Query, State};
use maud::{Markup, html};
use serde::Deserialize;
use store::{Comparison, Side};

use super::Refused;
use super::layout::{Place, page, time};
use crate::app::Shared;

/// Two revisions to compare.
#[derive(Debug, Deserialize)]
pub struct Two {
    from: Option<u32>,
    to: Option<u32>,
}

/// `GET /designs/{id}/history`
pub async fn history(
    State(app): State<Shared>,
    Path(id): Path<i64>,
    Query(two): Query<Two>,
) -> Result<Markup, Refused> {
    let lines = app.store().history(id).map_err(Refused::of(&app))?;
    let name = lines.iter().find(|l| l.current).map_or("", |l| l.name.as_str()).to_owned();
    let comparison = match (two.from, two.to) {
        (Some(from), Some(to)) => {
            Some((from, to, app.store().compare(id, from, to).map_err(Refused::of(&app))?))
        }
        _ => None,
    };
    let copies = app.store().copies(id).map_err(Refused::of(&app))?;
    let current = lines.iter().find(|l| l.current).map_or(1, |l| l.number);
    let body = html! {
        h1 { (name) ": history" }
        @if !copies.is_empty() {
            p.note {
                (copies.len()) " text(s) were set aside because another window was faster: "
                a href=(format!("/api/v1/designs/{id}/copies")) { "fetch them" } "."
            }
        }
        form method="get" {
            table.history {
                thead { tr { th { "revision" } th { "what changed" } th { "who, when" } th { "verdict" } th { "from" } th { "to" } } }
                tbody {
                    @for l in lines.iter().rev() {
                        tr aria-current=[l.current.then_some("true")] {
                            td.number { (l.number) @if l.current { " (current)" } }
                            td { (if l.what_changed.is_empty() { "–" } else { &l.what_changed }) }
                            td { (l.who) br; small { (time(l.at)) } }
                            td.verdict { (l.verdict.as_deref().unwrap_or("–")) }
                            td { input type="radio" name="from" value=(l.number) aria-label=(format!("compare from {}", l.number))
                                checked[two.from.unwrap_or(current.saturating_sub(1).max(1)) == l.number]; }
                            td { input type="radio" name="to" value=(l.number) aria-label=(format!("compare to {}", l.number))
                                checked[two.to.unwrap_or(current) == l.number]; }
                        }
                    }
                }
            }
            button { "compare" }
        }
        @if let Some((from, to, c)) = &comparison { (compared(*from, *to, c)) }
    };
    Ok(page(&app, &name, &Place::Design(id, &name, "history"), body))
}

fn compared(from: u32, to: u32, c: &Comparison) -> Markup {
    html! {
        section #comparison {
            h2 { "From revision " (from) " to " (to) }
            @if c.lines.is_empty() { p { "The texts are the same." } }
            @if !c.fields.is_empty() {
                h3 { "Values" }
                table {
                    thead { tr { th { "place" } th { "before" } th { "after" } } }
                    tbody {
                        @for f in &c.fields {
                            tr {
                                td { code { (f.path) } }
                                td { (f.from.as_deref().unwrap_or("–")) }
                                td { (f.to.as_deref().unwrap_or("–")) }
                            }
                        }
                    }
                }
            }
            @if !c.lines.is_empty() {
                h3 { "Lines" }
                ol.lines {
                    @for l in &c.lines {
                        @let taken = l.side == Side::From;
                        li data-side=(if taken { "from" } else { "to" }) {
                            span.sign { (if taken { "− " } else { "+ " }) } span.line { (l.line) } " " code { (l.text) }
                        }
                    }
                }
            }
        }
    }
}
