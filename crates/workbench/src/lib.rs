//! Pages and API for designing with the line in your hand.
//!
//! [`Server::run`] answers on an address until it is told to stop. Pages are made here in Rust; small modules of the page draw
//! and drag. Everything a page needs is inside the program: it works without internet, and the policy of its answers lets
//! nothing foreign run.

pub use self::app::{App, Shared, now};
pub use self::fault::{Fault, Refusal};
pub use self::server::{Server, bind, router};

pub mod picture;

mod api;
mod app;
mod assets;
mod body;
mod documents;
mod edits;
mod fault;
mod guard;
mod live;
mod pages;
mod server;
