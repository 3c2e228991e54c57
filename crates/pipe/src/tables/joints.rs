use quantity::{Length, unit};
use working::Evidence;

use super::{Cell, Table, cell, column, computed, text};
use crate::data::data;
use crate::{PipeError, angle_sets, en545_pipe, pull_sets, push_on_socket_mass};

/// Permitted pull of restrained joints, every set side by side.
pub(super) fn pulls() -> Result<Table, PipeError> {
    let names = [
        "published trenchless table",
        "GW 321 / GW 323",
        "end thrust at PFA",
        "1.5 x end thrust",
        "single published job",
    ];
    let mut rows = Vec::new();
    for r in &data()?.trenchless {
        let sets = pull_sets(r.dn)?;
        let mut row = vec![text(r.dn)];
        for name in names {
            let set = sets.iter().find(|s| s.name == name);
            row.push(set.map_or(Cell::Missing, |s| cell(&s.pull)));
        }
        rows.push(row);
    }
    Ok(Table {
        id: "joints",
        title: "restrained joints: permitted pull, sets side by side",
        source: "each column its own; the first one is the default",
        columns: vec![
            column("DN", unit::ONE),
            column("published table", unit::KN),
            column("GW 321/323", unit::KN),
            column("PFA thrust", unit::KN),
            column("1.5 x thrust", unit::KN),
            column("single job", unit::KN),
        ],
        rows,
        notes: vec![
            "The sets disagree, they belong to different joints: never mix rows of different sets.",
            "Use the maker's certificate where there is one.",
            "The last but one column is indicative: it agrees with two published values.",
        ],
    })
}

/// Joint angles, every set side by side.
pub(super) fn angles() -> Result<Table, PipeError> {
    let names = [
        "published trenchless table",
        "maker, lowest restrained",
        "maker, highest restrained",
        "EN 545 least, restrained",
        "maker, highest unrestrained",
        "EN 545 least, unrestrained",
    ];
    let mut rows = Vec::new();
    for size in &data()?.sizes {
        let sets = angle_sets(size.dn)?;
        let mut row = vec![text(size.dn)];
        for name in names {
            let set = sets.iter().find(|s| s.name == name);
            row.push(set.map_or(Cell::Missing, |s| cell(&s.angle)));
        }
        let radius = data()?.trenchless.iter().find(|r| r.dn == size.dn).map(|r| r.radius_m);
        row.push(radius.map_or(Cell::Missing, |m| Cell::Number(m, Evidence::Published)));
        rows.push(row);
    }
    Ok(Table {
        id: "joint-angles",
        title: "joint angles, sets side by side",
        source: "each column its own",
        columns: vec![
            column("DN", unit::ONE),
            column("trenchless table", unit::DEG),
            column("maker low", unit::DEG),
            column("maker high", unit::DEG),
            column("EN 545 least", unit::DEG),
            column("unrestr. high", unit::DEG),
            column("unrestr. least", unit::DEG),
            column("radius", unit::M),
        ],
        rows,
        notes: vec![
            "The last two columns of angles are for unrestrained joints, for comparison only.",
            "The radius is the published least one of the trenchless table, 6 m pipe.",
        ],
    })
}

/// Crew and time to join one pipe.
pub(super) fn assembly() -> Result<Table, PipeError> {
    let number = |v: Option<f64>, factor: f64| {
        v.map_or(Cell::Missing, |n| Cell::Number(n * factor, Evidence::FromMemory))
    };
    let rows = data()?
        .trenchless
        .iter()
        .map(|r| {
            let [bare, rubber, shrink] = r.minutes;
            vec![
                text(r.dn),
                number(r.fitters, 1.0),
                number(bare, 60.0),
                number(rubber, 60.0),
                number(shrink, 60.0),
            ]
        })
        .collect();
    Ok(Table {
        id: "joint-assembly",
        title: "fitters and minutes for one restrained joint",
        source: "industry handbook, from memory; 5 min at DN 80 and 30 min at DN 1000 were read",
        columns: vec![
            column("DN", unit::ONE),
            column("fitters", unit::ONE),
            column("no protection", unit::MIN),
            column("rubber sleeve", unit::MIN),
            column("shrink sleeve", unit::MIN),
        ],
        rows,
        notes: Vec::new(),
    })
}

/// Diameters and masses of sockets.
pub(super) fn sockets() -> Result<Table, PipeError> {
    let mut rows = Vec::new();
    for size in &data()?.sizes {
        let pipe = en545_pipe(size.dn, "K9")?;
        let d = pipe.data();
        rows.push(vec![
            text(size.dn),
            cell(&d.outside_diameter),
            d.socket_outside_diameter.as_ref().map_or(Cell::Missing, cell),
            pipe.largest_diameter().map_or(Cell::Missing, computed),
            cell(&push_on_socket_mass(Length::millimetres(size.de))?),
            cell(&d.socket_mass),
        ]);
    }
    Ok(Table {
        id: "sockets",
        title: "EN 545: sockets of two-chamber restrained joints",
        source: "diameter: fit from memory, DN 600 published; mass: published push-on x 1.45",
        columns: vec![
            column("DN", unit::ONE),
            column("DE", unit::MM),
            column("socket OD", unit::MM),
            column("with sleeve", unit::MM),
            column("push-on mass", unit::KG),
            column("restrained mass", unit::KG),
        ],
        rows,
        notes: vec![
            "The diameter decides the bore: take the maker's figure where there is one.",
            "Sleeve and cone are allowed for with 25 mm on the diameter.",
        ],
    })
}
