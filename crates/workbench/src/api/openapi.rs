//! What the API offers, for programs that read it.

use axum::Json;
use serde_json::{Map, Value, json};

/// `GET /api/v1`
pub async fn start() -> Json<Value> {
    Json(json!({
        "version": env!("CARGO_PKG_VERSION"),
        "document": "/api/v1/openapi.json",
        "designs": "/api/v1/designs",
        "worksheets": "/api/v1/worksheets",
    }))
}

/// `GET /api/v1/openapi.json`
pub async fn document() -> Json<Value> {
    Json(openapi())
}

/// One address and method: summary, schema of the body, status of success.
type Operation = (&'static str, &'static str, &'static str, Option<&'static str>, &'static str);

const OPERATIONS: &[Operation] = &[
    ("/designs", "get", "Lists designs, the last changed one first.", None, "200"),
    (
        "/designs",
        "post",
        "Creates a design from a text, or from a file to start from.",
        Some("New"),
        "201",
    ),
    ("/designs/{id}", "get", "The current revision with its text and files.", None, "200"),
    ("/designs/{id}", "put", "Saves a whole text as the next revision.", Some("NewText"), "200"),
    (
        "/designs/{id}",
        "patch",
        "Changes single values; everything else of the text stays.",
        Some("Edits"),
        "200",
    ),
    (
        "/designs/{id}/try",
        "post",
        "The picture with some edits; nothing is saved.",
        Some("Edits"),
        "200",
    ),
    (
        "/designs/{id}/archive",
        "post",
        "Takes a design out of the list; nothing is deleted.",
        None,
        "200",
    ),
    ("/designs/{id}/restore", "post", "Puts an archived design back.", None, "200"),
    ("/designs/{id}/undo", "post", "Goes back one revision.", Some("Step"), "200"),
    ("/designs/{id}/redo", "post", "Takes back the last undo.", Some("Step"), "200"),
    ("/designs/{id}/history", "get", "All revisions.", None, "200"),
    (
        "/designs/{id}/revisions/{number}",
        "get",
        "One revision with its text and files.",
        None,
        "200",
    ),
    ("/designs/{id}/compare", "get", "What differs between two revisions.", None, "200"),
    (
        "/designs/{id}/copies",
        "get",
        "Texts that were set aside because another one was faster.",
        None,
        "200",
    ),
    (
        "/designs/{id}/draft",
        "get",
        "What was typed last, valid or not; null without a draft.",
        None,
        "200",
    ),
    ("/designs/{id}/draft", "put", "Keeps what was typed, valid or not.", Some("Typed"), "200"),
    ("/designs/{id}/draft", "delete", "Drops the draft.", None, "200"),
    ("/designs/{id}/file", "get", "The design file as it stands.", None, "200"),
    (
        "/designs/{id}/fields",
        "get",
        "Every field with what stands in it and what is assumed.",
        None,
        "200",
    ),
    (
        "/designs/{id}/picture",
        "get",
        "The design as the page draws it, numbers in SI.",
        None,
        "200",
    ),
    (
        "/designs/{id}/assessment",
        "get",
        "The whole assessment, with what must change.",
        None,
        "200",
    ),
    ("/designs/{id}/checks/{check}", "get", "A check with its working.", None, "200"),
    (
        "/designs/{id}/live",
        "get",
        "A WebSocket: positions of handles in, pictures out.",
        None,
        "101",
    ),
    ("/designs/{id}/documents", "post", "Orders documents.", Some("Order"), "202"),
    ("/documents/{job}", "get", "Progress of an order and its files.", None, "200"),
    ("/documents/{job}/files/{name}", "get", "One file.", None, "200"),
    ("/documents/{job}/all.zip", "get", "All files in one archive.", None, "200"),
    ("/worksheets", "get", "Lists the worksheets.", None, "200"),
    ("/worksheets/{id}", "get", "Inputs and outputs of a worksheet.", None, "200"),
    (
        "/worksheets/{id}",
        "post",
        "Computes a worksheet: texts by key in, the result with its working out.",
        Some("Inputs"),
        "200",
    ),
    ("/preferences", "get", "Units, theme and name of the reader.", None, "200"),
    ("/preferences", "put", "Changes them.", Some("Inputs"), "200"),
];

/// Parameters of the query, by address.
const QUERIES: &[(&str, &[(&str, &str)])] = &[
    (
        "/designs",
        &[
            ("search", "string"),
            ("archived", "boolean"),
            ("skip", "integer"),
            ("most", "integer"),
            ("order", "string"),
        ],
    ),
    ("/designs/{id}/compare", &[("from", "integer"), ("to", "integer")]),
    ("/designs/{id}/live", &[("window", "string")]),
];

/// The whole document.
pub fn openapi() -> Value {
    let mut paths = Map::new();
    for (address, method, summary, body, success) in OPERATIONS {
        let entry = paths.entry((*address).to_owned()).or_insert_with(|| json!({}));
        let mut operation = json!({
            "summary": summary,
            "operationId": operation_id(method, address),
            "parameters": parameters(address, method),
            "responses": {
                *success: { "description": "done" },
                "default": { "description": "refused", "content": { "application/json": {
                    "schema": { "$ref": "#/components/schemas/Refusal" } } } },
            },
        });
        if let Some(schema) = body {
            operation["requestBody"] = json!({ "required": true, "content": { "application/json": {
                "schema": { "$ref": format!("#/components/schemas/{schema}") } } } });
        }
        entry[*method] = operation;
    }
    json!({
        "openapi": "3.1.0",
        "info": { "title": "underhaul", "version": env!("CARGO_PKG_VERSION"),
            "description": "Design and check of restrained-joint ductile iron mains laid without a trench. Numbers are SI." },
        "servers": [{ "url": "/api/v1" }],
        "paths": paths,
        "components": { "schemas": schemas() },
    })
}

fn operation_id(method: &str, address: &str) -> String {
    let words = address
        .split('/')
        .filter(|w| !w.is_empty())
        .map(|w| w.trim_matches(['{', '}']).replace('.', "-"));
    std::iter::once(method.to_owned()).chain(words).collect::<Vec<_>>().join("-")
}

fn parameters(address: &str, method: &str) -> Vec<Value> {
    let inside = address.split('/').filter_map(|w| w.strip_prefix('{')?.strip_suffix('}'));
    let mut list: Vec<Value> = inside
        .map(|name| {
            let number = matches!(name, "number" | "job")
                || (name == "id" && address.starts_with("/designs"));
            let kind = if number { "integer" } else { "string" };
            json!({ "name": name, "in": "path", "required": true, "schema": { "type": kind } })
        })
        .collect();
    if method == "get"
        && let Some((_, query)) = QUERIES.iter().find(|(a, _)| *a == address)
    {
        let required = address.ends_with("compare");
        list.extend(query.iter().map(|(name, kind)| {
            json!({ "name": name, "in": "query", "required": required, "schema": { "type": kind } })
        }));
    }
    list
}

fn schemas() -> Value {
    let text = json!({ "type": "string" });
    let whole = json!({ "type": "integer", "minimum": 0 });
    let file = json!({ "type": "object", "required": ["name", "text"],
        "properties": { "name": text, "text": text } });
    let edit = json!({ "type": "object", "required": ["path"], "properties": {
        "path": text, "si": { "type": "number" }, "text": text,
        "remove": { "type": "boolean" },
        "append": { "type": "object", "additionalProperties": text } } });
    json!({
        "New": { "type": "object", "properties": { "text": text, "technique": { "enum": ["drilling", "bursting"] },
            "files": { "type": "array", "items": file } } },
        "NewText": { "type": "object", "required": ["base", "text"], "properties": { "base": whole, "text": text,
            "note": text, "window": text, "files": { "type": "array", "items": file } } },
        "Edits": { "type": "object", "required": ["base", "edits"], "properties": { "base": whole,
            "edits": { "type": "array", "items": edit }, "note": text, "window": text } },
        "Step": { "type": "object", "required": ["from"], "properties": { "from": whole, "window": text } },
        "Typed": { "type": "object", "required": ["base", "text"], "properties": { "base": whole, "text": text } },
        "Order": { "type": "object", "properties": {
            "parts": { "type": "array", "items": { "enum": ["book", "drawings", "workbook", "data"] } },
            "date": text, "revision": text, "author": text } },
        "Inputs": { "type": "object", "additionalProperties": text },
        "Refusal": { "type": "object", "required": ["errors"], "properties": { "errors": { "type": "array", "items": {
            "type": "object", "required": ["code", "path", "message"], "properties": { "code": text, "path": text,
                "message": text, "found": text, "allowed": text, "hint": text, "line": whole, "column": whole } } } } },
    })
}
