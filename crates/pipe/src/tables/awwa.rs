use quantity::unit;

use super::{Cell, Table, cell, column, computed, maybe, text};
use crate::data::data;
use crate::{PipeError, awwa_pipe, awwa_unrestrained_bell, laying_type};

/// Walls of AWWA C151.
pub(super) fn walls() -> Result<Table, PipeError> {
    let mut rows = Vec::new();
    for r in &data()?.awwa {
        let pipe = awwa_pipe(r.size, r.class_psi)?;
        let d = pipe.data();
        rows.push(vec![
            text(r.size),
            maybe(d.class_pressure.as_ref()),
            cell(&d.outside_diameter),
            cell(&d.wall_nominal),
            cell(&d.wall_min),
            computed(pipe.iron_bore()),
            computed(pipe.barrel_mass_per_length()),
            cell(&awwa_unrestrained_bell(r.size)?),
        ]);
    }
    Ok(Table {
        id: "awwa-c151",
        title: "AWWA C151: outside diameters, walls and bells",
        source: "ANSI/AWWA C151/A21.51-17 as tabulated in an open data book",
        columns: vec![
            column("size", unit::ONE),
            column("class", unit::PSI),
            column("OD", unit::INCH),
            column("wall", unit::INCH),
            column("min wall", unit::INCH),
            column("iron bore", unit::INCH),
            column("barrel", unit::LB_PER_FT),
            column("bell OD", unit::INCH),
        ],
        rows,
        notes: vec![
            "Bells are those of unrestrained push-on pipe; a restrained bell is larger.",
            "The barrel's mass holds a cement lining of single thickness.",
        ],
    })
}

/// Laying conditions of AWWA C150.
pub(super) fn laying_types() -> Result<Table, PipeError> {
    let mut rows = Vec::new();
    for r in &data()?.laying {
        let t = laying_type(r.number)?;
        let evidence = t.source.evidence;
        rows.push(vec![
            text(t.number),
            Cell::Number(t.soil_modulus.si(), evidence),
            Cell::Number(t.bedding_angle.si(), evidence),
            Cell::Number(t.moment_coefficient, evidence),
            Cell::Number(t.deflection_coefficient, evidence),
            text(t.trench),
        ]);
    }
    Ok(Table {
        id: "awwa-laying-types",
        title: "AWWA C150: laying conditions",
        source: "AWWA C150, from memory; confirmed by reproducing the published cover table",
        columns: vec![
            column("type", unit::ONE),
            column("E'", unit::PSI),
            column("bedding", unit::DEG),
            column("Kb", unit::ONE),
            column("Kx", unit::ONE),
            column("trench", unit::ONE),
        ],
        rows,
        notes: Vec::new(),
    })
}
