//! Bodies of requests as JSON, refused in our own words.

use axum::extract::{FromRequest, Request};
use axum::http::StatusCode;
use serde::de::DeserializeOwned;

use crate::fault::{Fault, Refusal};
use crate::guard::LARGEST_BODY;

/// The body of a request, read as JSON.
pub struct Body<T>(pub T);

impl<S: Send + Sync, T: DeserializeOwned> FromRequest<S> for Body<T> {
    type Rejection = Refusal;

    async fn from_request(request: Request, _: &S) -> Result<Self, Refusal> {
        let bytes =
            axum::body::to_bytes(request.into_body(), LARGEST_BODY).await.map_err(|_| {
                let most = LARGEST_BODY / 1_000_000;
                let fault =
                    Fault::new("body_too_large", "", "the request broke off or is too large")
                        .allowed(format!("up to {most} MB"))
                        .hint("nothing was changed; send less, or send it again");
                Refusal::one(StatusCode::PAYLOAD_TOO_LARGE, fault)
            })?;
        serde_json::from_slice(&bytes).map(Body).map_err(|e| {
            let fault = Fault::new("not_json", "", format!("the body cannot be read: {e}"))
                .hint("the document /api/v1/openapi.json says what each request takes");
            Refusal::bad(fault)
        })
    }
}
