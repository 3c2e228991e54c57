//! Faults of a line, each at the value of the file to look at first.

use line::{Field, LineError};

use crate::context::Context;
use crate::diagnostic::Place;
use crate::tree::Record;
use crate::value::Reading;

/// Notes the faults of a line, each at the value to look at first.
pub(super) fn report(
    cx: &mut Context<'_>,
    record: &Record,
    parts: &[&Record],
    faults: Vec<LineError>,
) {
    for fault in faults {
        let place = place_of(record, parts, fault.field());
        let diagnostic = cx.report.error(fault.code(), &place, fault.to_string());
        if let LineError::OutOfRange { found, allowed, .. } = &fault {
            diagnostic.found(found.as_str()).allowed(*allowed);
        }
        if let Some(hint) = hint(&fault) {
            diagnostic.hint(hint);
        }
    }
}

fn hint(fault: &LineError) -> Option<&'static str> {
    Some(match fault {
        LineError::CurveNeedsDepth { .. } => {
            "lower lowest_level, or make the radius or the angle of this end smaller"
        }
        LineError::LevelPartShort { .. } => {
            "lengthen run, steepen the angles, make the radii smaller, or raise lowest_level"
        }
        LineError::LevelPartAboveEnd { .. } => {
            "levels count upwards: lowest_level must lie below entry_level and exit_level"
        }
        LineError::NeverReachesDepth { .. } => "give an angle greater than 0",
        LineError::NotRising { .. } => "put the stations in the order of drilling, each once",
        LineError::TooFew { .. } => "a line needs more than that",
        _ => return None,
    })
}

/// Where a value of the line stands in the file.
fn place_of(record: &Record, parts: &[&Record], field: Option<Field>) -> Place {
    let part = |i: usize, key: &str| {
        parts.get(i).map_or_else(|| record.place.clone(), |p| p.place_of(key))
    };
    let cell = |row: usize, column: usize| match record.entry("survey") {
        Some(entry) => match &entry.reading {
            Some(Reading::Rows(rows)) => rows
                .get(row)
                .and_then(|r| r.get(column))
                .map_or_else(|| entry.place.clone(), |c| c.place.clone()),
            _ => entry.place.clone(),
        },
        None => record.place.clone(),
    };
    match field {
        None => record.place.clone(),
        Some(Field::EntryLevel | Field::EntryDepth | Field::StartPosition) => {
            record.place_of("entry_level")
        }
        Some(Field::ExitLevel | Field::ExitDepth) => record.place_of("exit_level"),
        Some(Field::LowestLevel) => record.place_of("lowest_level"),
        Some(Field::Run) => record.place_of("run"),
        Some(Field::EntryAngle | Field::StartInclination) => record.place_of("entry_angle"),
        Some(Field::ExitAngle) => record.place_of("exit_angle"),
        Some(Field::EntryRadius) => record.place_of("entry_radius"),
        Some(Field::ExitRadius) => record.place_of("exit_radius"),
        Some(Field::Azimuth) => record.place_of("azimuth"),
        Some(Field::BendStart(i)) => part(i, "start"),
        Some(Field::BendRadius(i)) => part(i, "radius"),
        Some(Field::BendAngle(i)) => part(i, "angle"),
        Some(Field::Elements) => record.place.clone(),
        Some(Field::ElementLength(i)) => part(i, "length"),
        Some(Field::ElementRadius(i)) => part(i, "radius"),
        Some(Field::ElementTurn(i)) => part(i, "turn"),
        Some(Field::ElementToolface(i)) => part(i, "toward"),
        Some(Field::Stations) => record.place_of("survey"),
        Some(Field::StationMd(i)) => cell(i, 0),
        Some(Field::StationInclination(i)) => cell(i, 1),
        Some(Field::StationAzimuth(i)) => cell(i, 2),
    }
}
