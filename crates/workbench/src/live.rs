//! The live line between a design page and the program: a position of a handle in, a picture out.

use std::time::Instant;

use assess::Assessment;
use axum::extract::ws::{Message, WebSocket, WebSocketUpgrade};
use axum::extract::{Path, Query, State};
use axum::response::Response;
use quantity::System;
use serde::{Deserialize, Serialize};
use store::Revision;
use tokio::sync::broadcast::error::RecvError;

use crate::app::{self, Shared, heavy};
use crate::edits::{Edit, edited};
use crate::fault::{Fault, Refusal};
use crate::picture::Picture;

/// What a window asks for.
#[derive(Debug, Deserialize)]
pub struct Asked {
    /// Number of the request, rising.
    seq: u64,
    /// Revision on which the edits stand.
    revision: u32,
    /// Changes that are not saved.
    #[serde(default)]
    edits: Vec<Edit>,
}

/// What a window is told.
#[derive(Debug, Serialize)]
#[serde(rename_all = "kebab-case", tag = "kind")]
enum Told {
    /// The picture with the edits.
    Picture {
        seq: u64,
        picture: Box<Picture>,
        /// Time that the program took, ms.
        server_ms: f64,
    },
    /// The design with the edits cannot be read.
    Refused { seq: u64, errors: Vec<Fault>, server_ms: f64 },
    /// Somebody saved a revision.
    Changed { revision: u32, window: String },
}

/// Mark of a window.
#[derive(Debug, Deserialize)]
pub struct WindowMark {
    /// Made by the window.
    #[serde(default)]
    window: String,
}

/// Longest message that a window sends.
const LONGEST: usize = 200_000;

/// `GET /api/v1/designs/{id}/live`
pub async fn live(
    State(app): State<Shared>,
    Path(design): Path<i64>,
    Query(mark): Query<WindowMark>,
    upgrade: WebSocketUpgrade,
) -> Result<Response, Refusal> {
    // A design that does not exist is refused before the line opens.
    app.store().current(design)?;
    let upgrade = upgrade.max_message_size(LONGEST).max_frame_size(LONGEST);
    Ok(upgrade.on_upgrade(move |socket| talk(app, design, mark.window, socket)))
}

async fn talk(app: Shared, design: i64, window: String, mut socket: WebSocket) {
    let mut changes = app.changed.subscribe();
    let mut at_hand: Option<Revision> = None;
    loop {
        let told = tokio::select! {
            message = socket.recv() => match message {
                Some(Ok(Message::Text(text))) => {
                    let Ok(asked) = serde_json::from_str::<Asked>(&text) else { break };
                    answer(&app, design, asked, &mut at_hand).await
                }
                Some(Ok(Message::Ping(_) | Message::Pong(_))) => continue,
                _ => break,
            },
            change = changes.recv() => match change {
                Ok(c) if c.design == design && c.window != window => {
                    Told::Changed { revision: c.revision, window: c.window }
                }
                // Changes of other designs; after too many of them the window asks for its revision anyway.
                Ok(_) | Err(RecvError::Lagged(_)) => continue,
                Err(RecvError::Closed) => break,
            },
        };
        let Ok(text) = serde_json::to_string(&told) else { break };
        if socket.send(Message::Text(text.into())).await.is_err() {
            break;
        }
    }
}

async fn answer(app: &Shared, design: i64, asked: Asked, at_hand: &mut Option<Revision>) -> Told {
    let start = Instant::now();
    let seq = asked.seq;
    let result = picture(app, design, asked, at_hand).await;
    let server_ms = start.elapsed().as_secs_f64() * 1000.0;
    match result {
        Ok(picture) => Told::Picture { seq, picture: Box::new(picture), server_ms },
        Err(refusal) => Told::Refused { seq, errors: refusal.faults, server_ms },
    }
}

async fn picture(
    app: &Shared,
    design: i64,
    asked: Asked,
    at_hand: &mut Option<Revision>,
) -> Result<Picture, Refusal> {
    let revision = match at_hand.take() {
        Some(revision) if revision.number == asked.revision => revision,
        _ => app.store().revision(design, asked.revision)?,
    };
    let system = app.system();
    let (revision, picture) = heavy(move || {
        let picture = edited(&revision.text, revision.technique, &asked.edits, system)
            .and_then(|text| drawn(&text, &revision, system));
        Ok((revision, picture))
    })
    .await?;
    *at_hand = Some(revision);
    picture
}

/// The picture of a text with the files of a revision.
///
/// # Errors
/// Every message on the text.
pub fn drawn(text: &str, revision: &Revision, system: System) -> Result<Picture, Refusal> {
    quantity::for_reader(system, || {
        let reading = app::read(text, &revision.files).map_err(|list| Refusal::file(&list))?;
        let assessment: Assessment = assess::judge_design(&reading.design);
        Ok(Picture::of(&reading.design, &assessment, system))
    })
}
