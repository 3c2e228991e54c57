use fluid::{annulus_loss, pressure_at_depth};
use quantity::{Density, GRAVITY, Length, UnitWeight, unit};
use working::{Evidence, Source};

use super::annulus::laminar_steps;
use super::{CONSISTENCY, FLOW, HOLE, INDEX, SLOT, STRING, YIELD, flow, length, refused, rheology};
use crate::definition::{Input, Output, Range, Worksheet};
use crate::run::{Failure, Sheet, Values};

const COLUMN: Source = Source::new("hydrostatics and loss on the way, exact", Evidence::Derived);

pub(super) static PRESSURE_AT_DEPTH: Worksheet = Worksheet {
    id: "pressure-at-depth",
    title: "pressure of the fluid in the bore at a place: column and friction to the outlet",
    inputs: &[
        Input::quantity(
            "density",
            "rho",
            "density of the returns, with cuttings",
            unit::KG_PER_M3,
            Range::Positive,
        ),
        Input::quantity(
            "depth",
            "z",
            "depth below the pit where returns come out",
            unit::M,
            Range::NotNegative,
        ),
        Input::quantity("distance", "L", "length of bore to that pit", unit::M, Range::NotNegative),
        HOLE,
        STRING,
        FLOW,
        YIELD,
        CONSISTENCY,
        INDEX,
    ],
    outputs: &[
        Output::new("column", "pressure of the column alone", unit::KPA),
        Output::new("friction", "loss on the way to the pit", unit::KPA),
        Output::new("pressure", "pressure in the bore", unit::KPA),
    ],
    source: COLUMN,
    example: &[
        ("density", "1080 kg/m3"),
        ("depth", "8 m"),
        ("distance", "120 m"),
        ("hole_diameter", "165.1 mm"),
        ("string_diameter", "88.9 mm"),
        ("flow", "378.5 l/min"),
        ("yield_stress", "4.088 Pa"),
        ("consistency", "0.259"),
        ("flow_index", "0.6374"),
    ],
    run: run_depth,
};

fn run_depth(v: &Values) -> Result<Sheet, Failure> {
    let mut s = v.open();
    let fail = |e| refused(&PRESSURE_AT_DEPTH, &e);
    let fluid = rheology(v).map_err(fail)?;
    let (hole, string) = (length(v, "hole_diameter"), length(v, "string_diameter"));
    let loss = annulus_loss(&fluid, hole, string, flow(v)).map_err(fail)?;
    let density = Density::from_si(v.si("density"));
    let (depth, distance) = (length(v, "depth"), length(v, "distance"));
    let part = |gradient: UnitWeight, depth: Length| {
        pressure_at_depth(density, depth, gradient, distance).map_err(fail)
    };
    let column = part(UnitWeight::ZERO, depth)?.si();
    let friction = part(loss.gradient, Length::ZERO)?.si();
    let whole = part(loss.gradient, depth)?.si();
    let gravity = Source::new("ISO 80000-3, m/s2", Evidence::Published);
    s.given_from("g", "acceleration of gravity", GRAVITY, unit::ONE, gravity);
    laminar_steps(&mut s, &loss);
    let formula = "4*tau_w/(D2 - D1)";
    let gradient = loss.gradient.si();
    s.result("G", "pressure lost per length", formula, gradient, unit::PA_PER_M, SLOT);
    s.result("p_z", "column alone", "rho*g*z", column, unit::KPA, COLUMN);
    s.result("p_f", "loss on the way", "G*L", friction, unit::KPA, COLUMN);
    s.result("p", "pressure in the bore", "p_z + p_f", whole, unit::KPA, COLUMN);
    Ok(Sheet::new(&[("column", column), ("friction", friction), ("pressure", whole)], s))
}
