//! The routes, and the program that listens.

use std::net::SocketAddr;
use std::time::Duration;

use axum::Router;
use axum::extract::{DefaultBodyLimit, Request};
use axum::http::{StatusCode, Uri};
use axum::middleware::{Next, from_fn};
use axum::response::{IntoResponse, Response};
use tokio::net::TcpListener;

use crate::app::Shared;
use crate::fault::{Fault, Refusal};
use crate::guard::{LARGEST_BODY, guard};
use crate::{api, assets, pages};

/// Longest time for a whole request but the live line: half a request must not hold a place for ever.
const PATIENCE: Duration = Duration::from_secs(60);

/// All routes with their guard.
pub fn router(app: Shared) -> Router {
    let api = api::routes().fallback(no_api);
    Router::new()
        .nest("/api/v1", api)
        .merge(pages::routes())
        .route("/assets/{name}", axum::routing::get(assets::asset))
        .fallback(pages::missing)
        .layer(DefaultBodyLimit::max(LARGEST_BODY))
        .layer(from_fn(patient))
        .layer(from_fn(guard))
        .with_state(app)
}

async fn no_api(uri: Uri) -> Refusal {
    let fault = Fault::new("no_such_address", "", format!("there is nothing at {}", uri.path()));
    Refusal::one(StatusCode::NOT_FOUND, fault.hint("all addresses stand in /api/v1/openapi.json"))
}

async fn patient(request: Request, next: Next) -> Response {
    match tokio::time::timeout(PATIENCE, next.run(request)).await {
        Ok(response) => response,
        Err(_) => {
            let fault = Fault::new("too_slow", "", "the request did not arrive whole in time")
                .allowed(format!("{} s", PATIENCE.as_secs()));
            Refusal::one(StatusCode::REQUEST_TIMEOUT, fault).into_response()
        }
    }
}

/// A program that listens and does not answer yet.
#[derive(Debug)]
pub struct Server {
    listener: TcpListener,
    /// Where it listens.
    pub address: SocketAddr,
}

/// Listens on an address; port 0 takes any free one.
///
/// # Errors
/// When the address is taken or not of this machine.
pub async fn bind(address: SocketAddr) -> std::io::Result<Server> {
    let listener = TcpListener::bind(address).await?;
    let address = listener.local_addr()?;
    Ok(Server { listener, address })
}

impl Server {
    /// Answers until `stop` is done; requests under way are answered first.
    ///
    /// # Errors
    /// When the system no longer lets it listen.
    pub async fn run(
        self,
        app: Shared,
        stop: impl Future<Output = ()> + Send + 'static,
    ) -> std::io::Result<()> {
        axum::serve(self.listener, router(app)).with_graceful_shutdown(stop).await
    }
}
