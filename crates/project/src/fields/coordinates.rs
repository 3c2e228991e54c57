use quantity::unit;

use super::burst::CHAINAGE;
use super::definition::{Column, Field, Section, Shape, Value};
use super::range::Range;

/// Codes of coordinate systems that the register of EPSG gives out.
const CODE: Range = Range::within(1024.0, 32_767.0);
/// Grids with the number of their zone before the easting reach to some 10⁸ m.
const COORDINATE: Range = Range::within(-1e8, 1e8);

const EPSG: Field = Field::integer("epsg", "code of the projected grid in the EPSG register", CODE)
    .example("32631");

const DATUM: Field =
    Field::text("datum", "name of the datum from which all levels of the file count")
        .optional("documents say that levels count from the datum of the project")
        .example("\"mean sea level\"");

/// Where a drilled crossing lies.
pub(super) static COORDINATES: Section = Section {
    key: "coordinates",
    shape: Shape::Table,
    meaning: "Where the crossing lies in a projected grid, for documents and data files; without it they count from the \
              entry point. Distances of the line are taken as distances of the grid. A foot is the international one: \
              turn US survey feet into metres first, by 1200/3937.",
    required: false,
    fields: &[
        EPSG,
        Field::quantity("easting", "easting of the entry point", unit::M, COORDINATE)
            .example("\"500000 m\""),
        Field::quantity("northing", "northing of the entry point", unit::M, COORDINATE)
            .example("\"100000 m\""),
        DATUM,
    ],
};

/// Where an old main lies.
pub(super) static HOST_COORDINATES: Section = Section {
    key: "coordinates",
    shape: Shape::Table,
    meaning: "Where the old main lies in a projected grid, for documents and data files; without it they show no plan. \
              Between its points the main is taken to run straight. A foot is the international one: turn US survey \
              feet into metres first, by 1200/3937.",
    required: false,
    fields: &[
        EPSG,
        Field::other(
            "points",
            "points of the old main as [chainage, easting, northing], over the whole axis of [host]",
            Value::Rows(POINTS),
        )
        .example("[[0, 500000, 100000], [118, 500118, 100000]]"),
        DATUM,
    ],
};

const POINTS: &[Column] = &[
    Column { name: "chainage", unit: unit::M, range: CHAINAGE, hint: None },
    Column { name: "easting", unit: unit::M, range: COORDINATE, hint: None },
    Column { name: "northing", unit: unit::M, range: COORDINATE, hint: None },
];
