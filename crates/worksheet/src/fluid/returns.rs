use fluid::{returns_density, solids_fraction};
use quantity::{Density, unit};
use working::{Evidence, Source};

use super::volumes::RATIO;
use super::{VOLUMES, refused};
use crate::definition::{Input, Output, Range, Worksheet};
use crate::run::{Failure, Sheet, Values};

const MASS: Source = Source::new("balance of mass, exact", Evidence::Derived);

pub(super) static RETURNS_DENSITY: Worksheet = Worksheet {
    id: "returns-density",
    title: "density of the returns with all cuttings in suspension",
    inputs: &[
        Input::quantity(
            "soil_density",
            "rho_s",
            "saturated density of the ground",
            unit::KG_PER_M3,
            Range::Positive,
        ),
        Input::quantity(
            "fluid_density",
            "rho_f",
            "density of the fluid pumped",
            unit::KG_PER_M3,
            Range::Positive,
        ),
        RATIO,
    ],
    outputs: &[Output::new("density", "density of the returns", unit::KG_PER_M3)],
    source: MASS,
    example: &[
        ("soil_density", "1900 kg/m3"),
        ("fluid_density", "1030 kg/m3"),
        ("fluid_ratio", "2"),
    ],
    run: run_density,
};

fn run_density(v: &Values) -> Result<Sheet, Failure> {
    let mut s = v.open();
    let density = |key: &str| Density::from_si(v.si(key));
    let ratio = v.si("fluid_ratio");
    let returns = returns_density(density("soil_density"), density("fluid_density"), ratio)
        .map_err(|e| refused(&RETURNS_DENSITY, &e))?
        .si();
    let formula = "(rho_s + r*rho_f)/(1 + r)";
    s.result("rho", "density of the returns", formula, returns, unit::KG_PER_M3, MASS);
    Ok(Sheet::new(&[("density", returns)], s))
}

pub(super) static SOLIDS_FRACTION: Worksheet = Worksheet {
    id: "solids-fraction",
    title: "share of solid grains in the returns by volume",
    inputs: &[
        Input::quantity(
            "porosity",
            "n",
            "porosity of the ground",
            unit::PERCENT,
            Range::Within(0.0, 0.99),
        ),
        RATIO,
    ],
    outputs: &[Output::new("fraction", "share of solid grains", unit::PERCENT)],
    source: VOLUMES,
    example: &[("porosity", "40 %"), ("fluid_ratio", "2")],
    run: run_solids,
};

fn run_solids(v: &Values) -> Result<Sheet, Failure> {
    let mut s = v.open();
    let fraction = solids_fraction(v.si("porosity"), v.si("fluid_ratio"))
        .map_err(|e| refused(&SOLIDS_FRACTION, &e))?;
    let formula = "(1 - n)/(1 + r)";
    s.result("c", "share of solid grains", formula, fraction, unit::PERCENT, VOLUMES);
    Ok(Sheet::new(&[("fraction", fraction)], s))
}
