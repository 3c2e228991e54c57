//! Why a request is refused, for programs and people alike.

use axum::Json;
use axum::http::StatusCode;
use axum::response::{IntoResponse, Response};
use project::Diagnostic;
use serde::Serialize;
use store::StoreError;

/// One reason: where, what was found, what is allowed, what to do.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct Fault {
    /// Stable name of the kind of fault, never reused.
    pub code: String,
    /// Place in the request or in the design file, as `/line/entry_radius`.
    pub path: String,
    /// What is wrong, in one sentence.
    pub message: String,
    /// What was found, where one value is at fault.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub found: Option<String>,
    /// What is allowed.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub allowed: Option<String>,
    /// What to do.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub hint: Option<String>,
    /// Line of the design file, from 1.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub line: Option<usize>,
    /// Column of the design file, from 1.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub column: Option<usize>,
}

impl Fault {
    /// A fault of a request.
    pub fn new(code: &str, path: &str, message: impl Into<String>) -> Self {
        let (code, path) = (code.to_owned(), path.to_owned());
        Self { code, path, message: message.into(), ..Self::default() }
    }

    /// The same with what was found.
    pub fn found(mut self, found: impl Into<String>) -> Self {
        self.found = Some(found.into());
        self
    }

    /// The same with what is allowed.
    pub fn allowed(mut self, allowed: impl Into<String>) -> Self {
        self.allowed = Some(allowed.into());
        self
    }

    /// The same with what to do.
    pub fn hint(mut self, hint: impl Into<String>) -> Self {
        self.hint = Some(hint.into());
        self
    }
}

impl From<&Diagnostic> for Fault {
    fn from(d: &Diagnostic) -> Self {
        Self {
            code: d.code.to_owned(),
            path: d.path.clone(),
            message: d.message.clone(),
            found: d.found.clone(),
            allowed: d.allowed.clone(),
            hint: d.hint.clone(),
            line: Some(d.line),
            column: Some(d.column),
        }
    }
}

/// A refusal: status and every fault, with more that helps to go on.
#[derive(Debug)]
pub struct Refusal {
    /// Status of the answer.
    pub status: StatusCode,
    /// Every fault.
    pub faults: Vec<Fault>,
    /// More members of the answer.
    pub more: serde_json::Map<String, serde_json::Value>,
}

impl Refusal {
    /// A refusal with one fault.
    pub fn one(status: StatusCode, fault: Fault) -> Self {
        Self { status, faults: vec![fault], more: serde_json::Map::new() }
    }

    /// Nothing lies at this address.
    pub fn not_found(what: impl Into<String>) -> Self {
        Self::one(StatusCode::NOT_FOUND, Fault::new("not_found", "", what))
    }

    /// The request itself is wrong.
    pub fn bad(fault: Fault) -> Self {
        Self::one(StatusCode::BAD_REQUEST, fault)
    }

    /// A design file with errors.
    pub fn file(list: &[Diagnostic]) -> Self {
        Self {
            status: StatusCode::UNPROCESSABLE_ENTITY,
            faults: list.iter().map(Fault::from).collect(),
            more: serde_json::Map::new(),
        }
    }

    /// A fault of this program, told plainly.
    pub fn internal(message: impl Into<String>) -> Self {
        let fault = Fault::new("internal", "", message)
            .hint("nothing was changed; report what you did and this message");
        Self::one(StatusCode::INTERNAL_SERVER_ERROR, fault)
    }

    /// The same with one more member in the answer.
    pub fn with(mut self, key: &str, value: serde_json::Value) -> Self {
        self.more.insert(key.to_owned(), value);
        self
    }

    /// As JSON: `{"errors": […]}`.
    pub fn to_json(&self) -> serde_json::Value {
        let mut body = self.more.clone();
        body.insert("errors".to_owned(), serde_json::json!(self.faults));
        serde_json::Value::Object(body)
    }
}

impl From<StoreError> for Refusal {
    fn from(error: StoreError) -> Self {
        let status = match error.code() {
            "no_such_project" | "no_such_revision" | "no_such_copy" => StatusCode::NOT_FOUND,
            "archived" | "nothing_to_undo" | "nothing_to_redo" => StatusCode::CONFLICT,
            "not_toml" | "no_name" | "too_long" | "file_name" | "file_twice" => {
                StatusCode::UNPROCESSABLE_ENTITY
            }
            "disk_full" => StatusCode::INSUFFICIENT_STORAGE,
            "busy" => StatusCode::SERVICE_UNAVAILABLE,
            _ => StatusCode::INTERNAL_SERVER_ERROR,
        };
        let fault = Fault::new(error.code(), "", error.to_string()).hint(error.hint());
        Self::one(status, fault)
    }
}

impl IntoResponse for Refusal {
    fn into_response(self) -> Response {
        (self.status, Json(self.to_json())).into_response()
    }
}
