//! The curves along the line as two tables: a long one with a row a point, from which any curve is filtered by its id,
//! and a short one that says what each id means. The title stands once, not at each of a hundred thousand points.

use super::table::{Cell, csv};
use crate::Subject;

/// `profile` is the stable id, `unit` the SI unit of `value`.
pub(super) fn points(subject: &Subject<'_>) -> Result<Vec<u8>, String> {
    let rows = known(subject)?.iter().flat_map(|p| {
        p.md.iter().zip(&p.values).map(move |(md, value)| {
            vec![
                Cell::Text(&p.id),
                Cell::Text(p.unit),
                Cell::Number(Some(*md)),
                Cell::Number(Some(*value)),
            ]
        })
    });
    csv(&["profile", "unit", "md_m", "value"], rows)
}

/// One row a curve: its id as in the table of points, what it shows, the SI unit of its values and how many points it has.
pub(super) fn list(subject: &Subject<'_>) -> Result<Vec<u8>, String> {
    let counted: Vec<_> = known(subject)?
        .iter()
        .map(|p| (p, p.md.iter().zip(&p.values).count().to_string()))
        .collect();
    let rows = counted.iter().map(|(p, points)| {
        vec![Cell::Text(&p.id), Cell::Text(&p.title), Cell::Text(p.unit), Cell::Text(points)]
    });
    csv(&["profile", "title", "unit", "points"], rows)
}

fn known<'s>(subject: &'s Subject<'_>) -> Result<&'s [assess::Profile], String> {
    let profiles = &subject.assessment.profiles;
    if profiles.iter().all(|p| p.md.is_empty()) {
        return Err(
            "the assessment has no curve: what they need is missing in the design".to_owned()
        );
    }
    Ok(profiles)
}
