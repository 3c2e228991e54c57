//! The bench: single formulas with their working.

use axum::extract::{Path, Query, State};
use maud::{Markup, html};
use worksheet::{Input, Need, Shape, Worked, Worksheet};

use super::layout::{Place, page};
use super::{Refused, working};
use crate::api::worksheets::find;
use crate::app::Shared;

/// `GET /bench`
pub async fn list(State(app): State<Shared>) -> Markup {
    let body = html! {
        h1 { "Bench" }
        p { "Single formulas on their own, each with its working and source." }
        label.filter { "find " input #filter type="search" autocomplete="off"; }
        ul.sheets #sheets {
            @for w in worksheet::all() {
                li { a href=(format!("/bench/{}", w.id)) { (w.title) } " " small { (w.id) } }
            }
        }
        script type="module" src="/assets/bench.js" {}
    };
    page(&app, "bench", &Place::Bench, body)
}

/// `GET /bench/{id}`: inputs as parameters of the address, so that a result can be kept as a link.
pub async fn sheet(
    State(app): State<Shared>,
    Path(id): Path<String>,
    Query(typed): Query<Vec<(String, String)>>,
) -> Result<Markup, Refused> {
    let sheet = find(&id).map_err(Refused::of(&app))?;
    let system = app.system();
    let filled: Vec<(String, String)> =
        typed.into_iter().filter(|(_, value)| !value.trim().is_empty()).collect();
    let body = quantity::for_reader(system, || {
        let result = (!filled.is_empty()).then(|| worksheet::evaluate(sheet, &filled));
        let fault = |key: &str| {
            result
                .as_ref()
                .and_then(|r| r.as_ref().err())
                .map(|errors| {
                    errors
                        .iter()
                        .filter(|e| e.key() == key)
                        .map(ToString::to_string)
                        .collect::<Vec<_>>()
                        .join("; ")
                })
                .filter(|text| !text.is_empty())
        };
        let value =
            |key: &str| filled.iter().find(|(k, _)| k == key).map_or("", |(_, v)| v.as_str());
        html! {
            p { a href="/bench" { "bench" } }
            h1 { (sheet.title) }
            form.sheet method="get" {
                @for i in sheet.inputs { (input(i, value(i.key), fault(i.key))) }
                button { "compute" }
                button type="button" #example data-example=(example(sheet)) { "fill in an example" }
            }
            @match &result {
                Some(Ok(worked)) => { (answer(worked, system)) }
                Some(Err(errors)) => {
                    ul.faults role="alert" { @for e in errors { li { (e) } } }
                }
                None => { p.empty { "Fill in the values; a unit may stand behind a number, as in 12 in or 3 deg." } }
            }
            h2 { "Source" }
            p { (sheet.source) }
        }
    });
    let body = html! { (body) script type="module" src="/assets/bench.js" {} };
    Ok(page(&app, sheet.title, &Place::Bench, body))
}

fn example(sheet: &Worksheet) -> String {
    let map: serde_json::Map<String, serde_json::Value> = sheet
        .example
        .iter()
        .map(|(k, v)| ((*k).to_owned(), serde_json::Value::String((*v).to_owned())))
        .collect();
    serde_json::Value::Object(map).to_string()
}

fn input(i: &Input, value: &str, fault: Option<String>) -> Markup {
    let id = format!("input-{}", i.key);
    let (default, required) = match i.need {
        Need::Default(text, _) => (Some(text), false),
        Need::Required => (None, true),
        Need::Optional => (None, false),
    };
    html! {
        div.field {
            label for=(id) { (i.key.replace('_', " ")) @if required { " *" } small { (i.symbol) } }
            @match i.shape {
                Shape::Quantity(unit, range) => {
                    input id=(id) name=(i.key) value=(value) placeholder=[default] autocomplete="off"
                        aria-invalid=[fault.is_some().then_some("true")];
                    p.help { (i.meaning) "; " (range.describe(unit)) "; a bare number is in " (bare(i, unit)) }
                }
                Shape::Choice(words) => {
                    select id=(id) name=(i.key) {
                        option value="" { (default.map_or("–".to_owned(), |d| format!("– ({d})"))) }
                        @for w in words { option value=(w) selected[*w == value] { (w) } }
                    }
                    p.help { (i.meaning) }
                }
            }
            @if let Some(text) = fault { p.fault role="alert" { (text) } }
        }
    }
}

fn bare(i: &Input, unit: quantity::Unit) -> &'static str {
    match i.bare.unwrap_or(unit.kind().si()).symbol() {
        "" => "its own measure",
        symbol => symbol,
    }
}

fn answer(worked: &Worked, system: quantity::System) -> Markup {
    let sheet = worked.definition();
    html! {
        section #result {
            h2 { "Result" }
            dl.outputs {
                @for o in sheet.outputs {
                    @let word = worked.word(o.key).map(str::to_owned);
                    @let shown = word.or_else(|| worked.number(o.key).map(|v| quantity::show_with(v, o.unit, system)));
                    @if let Some(shown) = shown {
                        dt { (o.meaning) } dd data-output=(o.key) { (shown) }
                    }
                }
            }
            (working::steps(&worked.working, system))
            @if !worked.assumptions.is_empty() {
                h3 { "Assumed" }
                ul { @for a in &worked.assumptions { li { (a.meaning) ": " (a.value) ". " small { (a.source) } } } }
            }
        }
    }
}
