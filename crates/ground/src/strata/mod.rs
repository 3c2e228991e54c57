//! Strata between and beside borings.

pub use self::boring::{Boring, ConeReading, PenetrationTest, Stratum};
pub use self::column::{Column, Layer};
pub use self::model::GroundModel;

mod boring;
mod column;
mod matching;
mod model;
