use quantity::unit;
use working::Evidence;

use super::{Cell, Table, cell, column, computed, maybe, text};
use crate::data::data;
use crate::en545::PRESSURE_CLASSES;
use crate::{Pipe, PipeError, en545_pipe, preferred_class};

/// Dimensions, masses and ratings: K9 and the preferred class of every size.
pub(super) fn dimensions() -> Result<Table, PipeError> {
    let mut rows = Vec::new();
    for size in &data()?.sizes {
        for class in ["K9", preferred_class(size.dn)?] {
            rows.push(dimension_row(size.dn, &en545_pipe(size.dn, class)?)?);
        }
    }
    Ok(Table {
        id: "en545",
        title: "EN 545 / ISO 2531: K9 and preferred class of each size",
        source: "EN 545:2010 and the K classes of EN 545 to 2006; masses and ratings computed",
        columns: vec![
            column("DN", unit::ONE),
            column("class", unit::ONE),
            column("DE", unit::MM),
            column("wall", unit::MM),
            column("min wall", unit::MM),
            column("bore", unit::MM),
            column("barrel", unit::KG_PER_M),
            column("6 m pipe", unit::KG),
            column("PFA", unit::BAR),
            column("PMA", unit::BAR),
            column("PEA", unit::BAR),
        ],
        rows,
        notes: vec![
            "Ratings are the pipe's: a restrained joint has its own, usually lower, one.",
            "Masses hold lining and no coating; the pipe's mass a two-chamber restrained socket.",
            "A C25 or C30 pipe is up to 2 mm thinner than a K9 one of the same size.",
        ],
    })
}

fn dimension_row(dn: u32, pipe: &Pipe) -> Result<Vec<Cell>, PipeError> {
    let rating = pipe.rating()?;
    let evidence = rating.source.evidence;
    let d = pipe.data();
    Ok(vec![
        text(dn),
        text(pipe.class()),
        cell(&d.outside_diameter),
        cell(&d.wall_nominal),
        cell(&d.wall_min),
        computed(pipe.bore()),
        computed(pipe.barrel_mass_per_length()),
        computed(pipe.mass_per_pipe()),
        Cell::Number(rating.pfa.si(), evidence),
        Cell::Number(rating.pma.si(), evidence),
        Cell::Number(rating.pea.si(), rating.pea_source.evidence),
    ])
}

/// Least walls of the pressure classes.
pub(super) fn classes() -> Result<Table, PipeError> {
    let mut rows = Vec::new();
    for size in &data()?.sizes {
        let mut row = vec![text(size.dn)];
        for class in PRESSURE_CLASSES {
            row.push(cell(&en545_pipe(size.dn, &format!("C{class}"))?.data().wall_min));
        }
        row.push(text(preferred_class(size.dn)?));
        rows.push(row);
    }
    Ok(Table {
        id: "en545-classes",
        title: "EN 545:2010: minimum wall of the pressure classes",
        source: "EN 545:2010, table of minimum walls; computed cells from the pressure formula",
        columns: vec![
            column("DN", unit::ONE),
            column("C25", unit::MM),
            column("C30", unit::MM),
            column("C40", unit::MM),
            column("C50", unit::MM),
            column("C64", unit::MM),
            column("C100", unit::MM),
            column("preferred", unit::ONE),
        ],
        rows,
        notes: vec![
            "Computed cells stand outside the table that was read: 0.1 mm steps, at least 3.0 mm.",
        ],
    })
}

/// Thickness of the cement mortar lining, and what it leaves of the bore.
pub(super) fn lining() -> Result<Table, PipeError> {
    let mut rows = Vec::new();
    for size in &data()?.sizes {
        let k9 = en545_pipe(size.dn, "K9")?;
        let preferred = en545_pipe(size.dn, preferred_class(size.dn)?)?;
        rows.push(vec![
            text(size.dn),
            Cell::Number(k9.lining().thickness.si(), Evidence::Published),
            computed(k9.iron_bore()),
            computed(k9.bore()),
            computed(preferred.bore()),
            maybe(Some(&k9.data().outside_diameter)),
            Cell::Number(size.de_tolerance_minus * 1e-3, de_tolerance_evidence(size.dn)),
        ]);
    }
    Ok(Table {
        id: "lining",
        title: "EN 545: cement mortar lining and bores",
        source: "one technical page quoting EN 545; bores computed",
        columns: vec![
            column("DN", unit::ONE),
            column("lining", unit::MM),
            column("iron bore K9", unit::MM),
            column("bore K9", unit::MM),
            column("bore preferred", unit::MM),
            column("DE", unit::MM),
            column("DE minus", unit::MM),
        ],
        rows,
        notes: vec!["Bores are nominal; use them for volumes and flow in place of DN."],
    })
}

fn de_tolerance_evidence(dn: u32) -> Evidence {
    if dn <= 1000 { Evidence::Published } else { Evidence::FromMemory }
}
