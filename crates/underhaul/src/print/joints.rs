//! The string joint by joint.

use std::io;

use assess::JointRow;
use quantity::{System, Unit, show_with, unit};

use super::page::Page;
use super::table::{Cell, Column, Table};

/// One line a joint, from the tail to the head.
pub(crate) fn joints(page: &mut Page<'_>, rows: &[JointRow], system: System) -> io::Result<()> {
    let Some(head) = rows.last() else { return Ok(()) };
    page.heading(&format!("Joints with the head at md {}", show_with(head.md, unit::M, system)))?;
    let columns =
        ["md", "tension", "on wall", "angle", "up", "right", "gap"].map(Column::right).to_vec();
    let mut table = Table::new(columns);
    for row in rows {
        let cell = |si: f64, unit: Unit| Cell::new(rounded(si, unit, system));
        table.row(vec![
            cell(row.md, unit::M),
            cell(row.tension, unit::KN),
            cell(row.side_force, unit::KN),
            cell(row.angle, unit::DEG),
            cell(row.up, unit::MM),
            cell(row.right, unit::MM),
            cell(row.clearance, unit::MM),
        ]);
    }
    page.table(&table)?;
    page.quiet(
        2,
        "tension ahead of the joint; force of the joint on the bore wall; up and right: offset from \
         the bore's axis; gap: from the middle of the barrel ahead to the wall",
    )
}

/// Three significant digits and no more decimals than the table can use.
fn rounded(si: f64, unit: Unit, system: System) -> String {
    let unit = unit.in_system(system);
    let value = unit.from_si(si);
    let value = if value.abs() < 5e-4 { 0.0 } else { value };
    format!("{} {}", quantity::significant(value, 3), unit.symbol())
}
