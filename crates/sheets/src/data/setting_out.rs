//! The table that the line is set out by, as CSV.

use assess::{SettingOut, SettingOutRow};

use super::table::{Cell, csv as table};

type Column = (&'static str, fn(&SettingOutRow) -> Option<f64>);

const DEGREES: f64 = 180.0 / std::f64::consts::PI;

/// Columns of both techniques; those that no row fills are left out.
const COLUMNS: &[Column] = &[
    ("md_m", |r| Some(r.md)),
    ("chainage_m", |r| Some(r.chainage)),
    ("level_m", |r| Some(r.level)),
    ("inclination_deg", |r| r.inclination.map(|v| v * DEGREES)),
    ("inclination_percent", |r| r.inclination.map(|v| 100.0 * v.tan())),
    ("inclination_change_deg", |r| r.change.map(|v| v * DEGREES)),
    ("azimuth_deg", |r| r.azimuth.map(|v| v * DEGREES)),
    ("azimuth_change_deg", |r| r.azimuth_change.map(|v| v * DEGREES)),
    ("offset_m", |r| r.offset),
    ("radius_m", |r| r.radius),
    ("ground_level_m", |r| r.ground),
    ("cover_m", |r| r.cover),
];

/// One row for the end of every rod or pipe; the notes on the table stand in the last column of its first row.
pub(super) fn csv(t: &SettingOut) -> Result<Vec<u8>, String> {
    let places: [Column; 2] = if t.epsg.is_some() {
        [("easting_m", |r| r.east), ("northing_m", |r| r.north)]
    } else {
        [("east_m", |r| r.east), ("north_m", |r| r.north)]
    };
    let filled = |c: &&Column| t.rows.iter().any(|r| c.1(r).is_some());
    let columns: Vec<&Column> = COLUMNS.iter().chain(&places).filter(filled).collect();
    let runs = t.rows.iter().any(|r| r.run.is_some());
    let mut header = Vec::new();
    header.extend(runs.then_some("run"));
    header.push(t.unit);
    header.extend(columns.iter().map(|c| c.0));
    header.extend(["remark", "note"]);
    let notes = t.notes.join("; ");
    let rows = t.rows.iter().enumerate().map(|(i, row)| {
        let mut cells = Vec::with_capacity(header.len());
        if runs {
            cells.push(Cell::Text(row.run.as_deref().unwrap_or_default()));
        }
        cells.push(Cell::Number(Some(f64::from(row.number))));
        cells.extend(columns.iter().map(|c| Cell::Number(c.1(row))));
        cells.push(Cell::Text(&row.remark));
        cells.push(Cell::Text(if i == 0 { &notes } else { "" }));
        cells
    });
    table(&header, rows)
}
