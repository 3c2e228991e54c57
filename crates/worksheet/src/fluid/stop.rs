use fluid::{restart_gradient, restart_gradient_in_pipe};
use quantity::unit;
use working::{Evidence, Source};

use super::{HOLE, STRING, length, pressure, refused};
use crate::definition::{Input, Output, Range, Worksheet};
use crate::run::{Failure, Sheet, Values};

const FORCES: Source = Source::new("balance of forces on the gel, exact", Evidence::Derived);

const GEL: Input = Input::quantity(
    "gel_strength",
    "tau_g",
    "gel strength after the stop",
    unit::PA,
    Range::NotNegative,
);
const LENGTH: Input =
    Input::quantity("length", "L", "length of the gel", unit::M, Range::NotNegative);

pub(super) static RESTART_PRESSURE: Worksheet = Worksheet {
    id: "restart-pressure",
    title: "pressure that breaks the gel in the annulus after a stop",
    inputs: &[GEL, LENGTH, HOLE, STRING],
    outputs: &[
        Output::new("pressure", "pressure that breaks the gel", unit::KPA),
        Output::new("gradient", "the same per length", unit::PA_PER_M),
    ],
    source: FORCES,
    example: &[
        ("gel_strength", "20 lbf/100ft2"),
        ("length", "120 m"),
        ("hole_diameter", "165 mm"),
        ("string_diameter", "89 mm"),
    ],
    run: run_annulus,
};

fn run_annulus(v: &Values) -> Result<Sheet, Failure> {
    let mut s = v.open();
    let (hole, string) = (length(v, "hole_diameter"), length(v, "string_diameter"));
    let gradient = restart_gradient(pressure(v, "gel_strength"), hole, string)
        .map_err(|e| refused(&RESTART_PRESSURE, &e))?
        .si();
    let formula = "4*tau_g/(D2 - D1)";
    s.result("G", "pressure per length", formula, gradient, unit::PA_PER_M, FORCES);
    let whole = s.derive("p", "pressure that breaks the gel", "G*L", unit::KPA, FORCES);
    Ok(Sheet::new(&[("pressure", whole), ("gradient", gradient)], s))
}

pub(super) static RESTART_PRESSURE_RODS: Worksheet = Worksheet {
    id: "restart-pressure-rods",
    title: "pressure that breaks the gel inside rods after a stop",
    inputs: &[
        GEL,
        LENGTH,
        Input::quantity("inside_diameter", "d", "bore of the rods", unit::MM, Range::SIZE),
    ],
    outputs: &[
        Output::new("pressure", "pressure that breaks the gel", unit::KPA),
        Output::new("gradient", "the same per length", unit::PA_PER_M),
    ],
    source: FORCES,
    example: &[
        ("gel_strength", "20 lbf/100ft2"),
        ("length", "120 m"),
        ("inside_diameter", "50.8 mm"),
    ],
    run: run_rods,
};

fn run_rods(v: &Values) -> Result<Sheet, Failure> {
    let mut s = v.open();
    let gel = pressure(v, "gel_strength");
    let gradient = restart_gradient_in_pipe(gel, length(v, "inside_diameter"))
        .map_err(|e| refused(&RESTART_PRESSURE_RODS, &e))?
        .si();
    s.result("G", "pressure per length", "4*tau_g/d", gradient, unit::PA_PER_M, FORCES);
    let whole = s.derive("p", "pressure that breaks the gel", "G*L", unit::KPA, FORCES);
    Ok(Sheet::new(&[("pressure", whole), ("gradient", gradient)], s))
}
