//! Workings as fragments of a page: formula, numbers put in, value, source.

use assess::{Assessment, Explanation};
use axum::extract::{Path, State};
use maud::{Markup, html};
use quantity::System;
use working::{Formula, Step, Working};

use super::math;
use crate::app::{Shared, heavy, read_revision};
use crate::fault::Refusal;

/// `GET /designs/{id}/checks/{check}`: the working of a check as a fragment.
pub async fn check(
    State(app): State<Shared>,
    Path((id, check)): Path<(i64, String)>,
) -> Result<Markup, Refusal> {
    heavy(move || {
        let revision = app.store().current(id)?;
        let system = app.system();
        quantity::for_reader(system, || {
            let reading = read_revision(&revision)?;
            let found = assess::explain_design(&reading.design, &check);
            let found = found.ok_or_else(|| Refusal::not_found("this design has no such check"))?;
            Ok(explained(&found, system))
        })
    })
    .await
}

fn explained(e: &Explanation, system: System) -> Markup {
    html! {
        p.basis { "basis: " (e.check.basis) }
        @if !e.check.missing.is_empty() { p { "missing: " (e.check.missing.join(", ")) } }
        (steps(&e.working, system))
        @for note in &e.notes { p.note { (note) } }
    }
}

/// The lines of a working as a table.
pub fn steps(working: &Working, system: System) -> Markup {
    html! {
        @if !working.steps.is_empty() {
            table.steps {
                caption { "working; numbers put in are SI" }
                tbody {
                    @for step in &working.steps { (line(working, step, system)) }
                }
            }
        }
    }
}

fn line(working: &Working, step: &Step, system: System) -> Markup {
    html! {
        tr {
            th scope="row" { (math::symbol(&step.symbol)) }
            td {
                (step.meaning)
                @match &step.formula {
                    Formula::Given => {}
                    Formula::Expression(text) => {
                        (math::equation(&step.symbol, text))
                        @if let Some(numbers) = working.numbers_put_in(step) {
                            span.numbers { "= " (numbers) }
                        }
                    }
                    Formula::Procedure(text) => { span.numbers { "found by: " (text) } }
                }
                small.source { (step.source) }
            }
            td.value { (step.shown(system)) }
        }
    }
}

/// `GET /designs/{id}/changes`: what must change, as a fragment.
pub async fn changes(State(app): State<Shared>, Path(id): Path<i64>) -> Result<Markup, Refusal> {
    heavy(move || {
        let revision = app.store().current(id)?;
        quantity::for_reader(app.system(), || {
            let reading = read_revision(&revision)?;
            Ok(must_change(&assess::assess_design(&reading.design)))
        })
    })
    .await
}

fn must_change(a: &Assessment) -> Markup {
    if a.all_met() {
        return html! { p { "Every check was made and is met: nothing must change." } };
    }
    html! {
        @if !a.fixes.is_empty() {
            h3 { "Together these changes make every check pass" }
            ul.changes {
                @for c in &a.fixes {
                    li { code { (c.parameter) } ": " (c.from) " → " strong { (c.to) } @if !c.note.is_empty() { " – " (c.note) } }
                }
            }
        }
        @if !a.remedies.is_empty() {
            h3 { "One change at a time" }
            table {
                thead { tr { th { "check" } th { "value" } th { "now" } th { "would do" } th { "look also at" } } }
                tbody {
                    @for r in &a.remedies {
                        tr { td { (r.check) } td { code { (r.parameter) } } td { (r.from) } td { strong { (r.to) } } td { (r.note) } }
                    }
                }
            }
        }
        @if a.fixes.is_empty() && a.remedies.is_empty() {
            p { "No change of one value was found that makes a failing check pass." }
        }
        @if !a.search_complete { p.note { "The search ended at its bound of work: there may be more, and simpler, changes." } }
    }
}
