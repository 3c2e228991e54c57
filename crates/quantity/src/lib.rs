//! Physical quantities over SI `f64`.
//!
//! Three things live here and nothing else: [`Unit`] (a symbol and how it converts to SI), the newtypes
//! ([`Length`], [`Angle`], [`Force`], …) that public functions of the calculation crates take and return,
//! and [`parse`] / [`show`], the only two places where text and numbers meet.
//!
//! Everything is stored in SI: metres, radians, newtons, pascals, kilograms, seconds.

pub use self::kind::Kind;
pub use self::newtype::{
    Angle, Area, Density, Flow, Force, ForcePerLength, KinematicViscosity, Length, Mass,
    MassPerLength, Pressure, Time, UnitWeight, Velocity, Viscosity, Volume,
};
pub use self::parse::{ParseError, parse, parse_number};
pub use self::show::{for_reader, reader, show, show_briefly, show_with, significant};
pub use self::unit::{System, Unit};

pub mod unit;

mod kind;
mod newtype;
mod parse;
mod show;

/// Standard acceleration of gravity, m/s².
///
/// ISO 80000-3 (conventional value); the trade's tables use 9.81, a difference of 0.03 %.
pub const GRAVITY: f64 = 9.806_65;
