//! How a number was obtained.
//!
//! A [`Working`] is an ordered list of [`Step`]s: symbol, meaning, formula, the numbers put in, value, unit and
//! [`Source`]. Formulas are kept in a small notation that can be evaluated ([`expression`]), so that a test
//! recomputes every step from its own text and so that a report, a page and a workbook can show the same formula.
//!
//! All values are SI; a step carries the unit in which a person reads it.

pub use self::builder::Builder;
pub use self::source::{Assumption, Evidence, Source};
pub use self::step::{Formula, Step, Working};

pub mod expression;

mod builder;
mod source;
mod step;
