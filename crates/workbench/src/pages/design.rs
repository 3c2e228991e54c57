//! The page of the line: section, strips, plan, cross-section, checks, forms.

use axum::extract::{Path, State};
use maud::{Markup, html};
use project::Technique;

use super::Refused;
use super::layout::{Place, page};
use crate::app::Shared;

/// `GET /designs/{id}`
pub async fn design(State(app): State<Shared>, Path(id): Path<i64>) -> Result<Markup, Refused> {
    let revision = app.store().current(id).map_err(Refused::of(&app))?;
    let drilled = revision.technique == Technique::Drilling;
    let body = html! {
        div #design data-design=(id) data-revision=(revision.number) data-technique=(revision.technique.word()) {
            div.headline {
                h1 #name { (revision.name) }
                p #verdict data-status="" aria-live="polite" { "…" }
                div.buttons {
                    span { "revision " span #revision { (revision.number) } }
                    button #undo type="button" title="Ctrl+Z" { "undo" }
                    button #redo type="button" title="Ctrl+Y" { "redo" }
                    button #closer type="button" title="+" { "closer" }
                    button #wider type="button" title="−" { "wider" }
                    button #whole type="button" title="0" { "whole line" }
                }
            }
            p #connection hidden { "The program does not answer. What you see stays; it will go on by itself when the program runs again." }
            div.desk {
                div.drawing {
                    svg #section tabindex="0" role="group" aria-label=(if drilled {
                        "long section with handles; arrow keys move a reading line, Tab reaches the handles"
                    } else {
                        "section along the old main with pits as handles; arrow keys move a reading line"
                    }) {}
                    p.reading { output #place {} }
                    p #no-handles hidden {
                        "This line is described by elements or by a survey: it has no handles. Its values stand in the forms below."
                    }
                    div #strips {}
                    div role="tablist" aria-label="below the strips" {
                        button role="tab" aria-selected="true" aria-controls="panel-forms" { "values" }
                        @if drilled { button role="tab" aria-selected="false" aria-controls="panel-plan" tabindex="-1" { "plan" } }
                        button role="tab" aria-selected="false" aria-controls="panel-cross" tabindex="-1" { "cross-section" }
                    }
                    div #panel-forms role="tabpanel" aria-label="values" { div #forms {} }
                    div #panel-plan role="tabpanel" aria-label="plan" hidden { svg #plan role="img" aria-label="plan of the line" {} }
                    div #panel-cross role="tabpanel" aria-label="cross-section" hidden { svg #cross role="img" {} }
                }
                aside.beside aria-label="checks" {
                    h2 { "Checks, the tightest first" }
                    div #checks {}
                    details #changes data-design=(id) {
                        summary { "What must change?" }
                        div.answer {}
                    }
                }
            }
        }
        script type="module" src="/assets/design.js" {}
    };
    Ok(page(&app, &revision.name, &Place::Design(id, &revision.name, "line"), body))
}
