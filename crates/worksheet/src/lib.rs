//! Worksheets: single formulas on their own, with their working.
//!
//! A [`Worksheet`] names its inputs and outputs once; command line, pages, workbook, method pages and published cases
//! read that definition. The calculation itself lives in the calculation crates: a worksheet only puts numbers in and
//! tells how the result came about.

pub use self::definition::{Input, Need, Output, Range, Shape, Worksheet};
pub use self::error::InputError;
pub use self::run::{Sheet, Values, Worked, evaluate};

mod bursting;
mod definition;
mod describe;
mod error;
mod fluid;
mod geometry;
mod json;
mod pipes;
mod pulling;
mod run;
mod service;
mod soil;

/// All worksheets, in the order in which they are listed.
#[must_use]
pub fn all() -> Vec<&'static Worksheet> {
    [
        geometry::SHEETS,
        soil::SHEETS,
        fluid::SHEETS,
        pulling::SHEETS,
        bursting::SHEETS,
        pipes::SHEETS,
        service::SHEETS,
    ]
    .into_iter()
    .flatten()
    .copied()
    .collect()
}

/// The worksheet with this id.
#[must_use]
pub fn find(id: &str) -> Option<&'static Worksheet> {
    all().into_iter().find(|w| w.id == id)
}

/// The id nearest to a misspelt one.
#[must_use]
pub fn nearest(id: &str) -> Option<&'static str> {
    nearest_of(id, all().into_iter().map(|w| w.id))
}

/// The word nearest to a misspelt one, if it is near at all.
pub(crate) fn nearest_of<'a>(word: &str, known: impl Iterator<Item = &'a str>) -> Option<&'a str> {
    known
        .map(|k| (strsim::normalized_damerau_levenshtein(word, k), k))
        .filter(|(score, _)| *score >= 0.5)
        .max_by(|a, b| a.0.total_cmp(&b.0))
        .map(|(_, k)| k)
}
