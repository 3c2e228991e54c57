//! The curves along the line as one long table: one row a point, so that any of them can be filtered out by its id.

use super::table::{Cell, csv};
use crate::Subject;

/// `profile` is the stable id, `unit` the SI unit of `value`.
pub(super) fn csv_of(profiles: &[assess::Profile]) -> Result<Vec<u8>, String> {
    let rows = profiles.iter().flat_map(|p| {
        p.md.iter().zip(&p.values).map(move |(md, value)| {
            vec![
                Cell::Text(&p.id),
                Cell::Text(&p.title),
                Cell::Text(p.unit),
                Cell::Number(Some(*md)),
                Cell::Number(Some(*value)),
            ]
        })
    });
    csv(&["profile", "title", "unit", "md_m", "value"], rows)
}

pub(super) fn csv_all(subject: &Subject<'_>) -> Result<Vec<u8>, String> {
    if subject.assessment.profiles.iter().all(|p| p.md.is_empty()) {
        return Err(
            "the assessment has no curve: what they need is missing in the design".to_owned()
        );
    }
    csv_of(&subject.assessment.profiles)
}
