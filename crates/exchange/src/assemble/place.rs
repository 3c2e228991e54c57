use crate::issue::Issues;

use super::Boring;

/// Notes what a boring's place lacks.
pub(super) fn check_place(boring: &Boring<'_>, issues: &mut Issues) {
    let (record, names) = (boring.record, boring.names);
    let (id, place) = (boring.id(), record.id.place);
    match (&record.easting, &record.northing) {
        (Some(given), None) | (None, Some(given)) => {
            let (with, without) = if record.easting.is_some() {
                (names.easting, names.northing)
            } else {
                (names.northing, names.easting)
            };
            issues
                .error(
                    "half_a_place",
                    given.place,
                    format!("boring {id} has {with} but no {without}"),
                )
                .allowed("both or neither")
                .hint(format!("give {without}"));
        }
        (Some(easting), Some(northing)) if easting.value == 0.0 && northing.value == 0.0 => {
            issues
                .warning(
                    "zero_place",
                    easting.place,
                    format!("boring {id} stands at {} 0 and {} 0", names.easting, names.northing),
                )
                .hint("a placeholder for coordinates that were not known? leave them empty");
        }
        _ => {}
    }
    if let (Some(offset), None) = (&record.offset, &record.chainage) {
        issues
            .warning(
                "half_a_place",
                offset.place,
                format!("boring {id} has {} but no {}", names.offset, names.chainage),
            )
            .hint(format!("an offset tells nothing alone: give {}", names.chainage));
    }
    if record.easting.is_none() && record.northing.is_none() && record.chainage.is_none() {
        issues
            .warning("no_place", place, format!("boring {id} has no place"))
            .allowed(format!("{} and {}, or {}", names.easting, names.northing, names.chainage))
            .hint("without one it cannot be set beside the line");
    }
    if record.ground_level.is_none() {
        issues
            .warning("no_level", place, format!("boring {id} has no {}", names.ground_level))
            .hint("without it depths do not become levels");
    }
}
