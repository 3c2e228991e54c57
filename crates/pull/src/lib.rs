//! Forces of pulling a string of socketed pipes into a bore.
//!
//! [`chain`] is the model of this project: rigid barrels joined by hinges, sockets that ride on the bore wall.
//! [`published`] holds the methods that a checking engineer expects to see beside it. [`bursting`] holds the single
//! formulas of replacing a pipe in its own line by bursting.

pub use self::barrel::{Barrel, BarrelLoad, BarrelStress, barrel_stress};

pub mod bursting;
pub mod chain;
pub mod published;

mod barrel;
