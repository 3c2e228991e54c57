//! The table that the line is set out by, with as many digits as a level or a steering tool reads.

use assess::{SettingOut, SettingOutRow};
use quantity::Unit;
use quantity::unit::{DEG, M};
use serde_json::{Value, json};

use super::Writer;

/// A column: its head, its unit and its value.
type Column = (&'static str, Unit, fn(&SettingOutRow) -> Option<f64>);

/// Columns behind the number; those without any value are left out.
const COLUMNS: &[Column] = &[
    ("md", M, |r| Some(r.md)),
    ("chainage", M, |r| Some(r.chainage)),
    ("level", M, |r| Some(r.level)),
    ("inclination", DEG, |r| r.inclination),
    ("change", DEG, |r| r.change),
    ("azimuth", DEG, |r| r.azimuth),
    ("turn", DEG, |r| r.azimuth_change),
    ("offset", M, |r| r.offset),
    ("east", M, |r| r.east),
    ("north", M, |r| r.north),
    ("radius", M, |r| r.radius),
    ("ground", M, |r| r.ground),
    ("cover", M, |r| r.cover),
];

/// The chapter's data; nothing where the table has no row.
pub(super) fn table(w: &Writer<'_>, t: &SettingOut) -> Value {
    if t.rows.is_empty() {
        return Value::Null;
    }
    let columns: Vec<&Column> =
        COLUMNS.iter().filter(|(_, _, of)| t.rows.iter().any(|r| of(r).is_some())).collect();
    let has_run = t.rows.iter().any(|r| r.run.is_some());
    let system = w.subject.system;
    let mut head: Vec<String> = Vec::new();
    if has_run {
        head.push("run".to_owned());
    }
    head.push(t.unit.to_owned());
    for (name, unit, _) in &columns {
        let symbol = unit.in_system(system).symbol();
        head.push(format!("{name} {}", if symbol == "deg" { "°" } else { symbol }));
    }
    let rows: Vec<Value> = t
        .rows
        .iter()
        .map(|r| {
            let mut cells: Vec<String> = Vec::new();
            if has_run {
                cells.push(r.run.as_ref().map_or_else(String::new, |run| w.letters.line(run)));
            }
            cells.push(r.number.to_string());
            cells.extend(columns.iter().map(|(name, unit, of)| {
                of(r).map_or_else(
                    || "–".to_owned(),
                    |v| digits(v, unit.in_system(system), *name == "radius"),
                )
            }));
            json!({ "cells": cells, "remark": w.letters.line(&r.remark) })
        })
        .collect();
    json!({
        "says": t.notes.iter().map(|note| w.letters.sentence(note)).collect::<Vec<_>>(),
        "has_run": has_run,
        "head": head,
        "rows": rows,
    })
}

/// Thousandths of a metre, hundredths of a foot or of a degree; a radius to a tenth.
fn digits(si: f64, unit: Unit, is_radius: bool) -> String {
    let value = unit.from_si(si);
    let text = if is_radius {
        format!("{value:.1}")
    } else if unit == M {
        format!("{value:.3}")
    } else {
        format!("{value:.2}")
    };
    match text.strip_prefix('-') {
        Some(rest) if rest.bytes().all(|b| b == b'0' || b == b'.') => rest.to_owned(),
        Some(rest) => format!("−{rest}"),
        None => text,
    }
}
