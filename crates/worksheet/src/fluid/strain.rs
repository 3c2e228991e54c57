use quantity::unit;
use working::{Evidence, Source};

use super::limit::{
    AT_RADIUS, BORE_RADIUS, COHESION, DELFT, EFFECTIVE, FRICTION, MODULUS, PORE, cavity,
    strength_steps,
};
use super::refused;
use crate::definition::{Input, Output, Range, Worksheet};
use crate::run::{Failure, Sheet, Values};

const LEVEL: Source = Source::new("effective stress", Evidence::Derived);

pub(super) static STRAIN_LIMITED_PRESSURE: Worksheet = Worksheet {
    id: "strain-limited-pressure",
    title: "pressure in the bore at which its wall has a strain, drained (Delft)",
    inputs: &[
        EFFECTIVE,
        FRICTION,
        COHESION,
        MODULUS,
        BORE_RADIUS,
        Input::quantity(
            "wall_strain",
            "e",
            "strain of the wall; 5 % in sand by NEN 3650-1, from memory",
            unit::PERCENT,
            Range::Above(0.0, 0.2),
        ),
        PORE,
    ],
    outputs: &[
        Output::new("limit", "total pressure at this strain", unit::KPA),
        Output::new("effective_limit", "effective pressure at this strain", unit::KPA),
        Output::new(
            "plastic_radius",
            "radius of the plastic zone; less than the bore's while elastic",
            unit::M,
        ),
        Output::new("wall", "plastic, or still elastic at this strain", unit::ONE),
    ],
    source: DELFT,
    example: &[
        ("effective_stress", "60 kPa"),
        ("friction_angle", "32 deg"),
        ("cohesion", "0 kPa"),
        ("shear_modulus", "5000 kPa"),
        ("bore_radius", "82.5 mm"),
        ("wall_strain", "5 %"),
        ("pore_pressure", "30 kPa"),
    ],
    run: run_strain,
};

fn run_strain(v: &Values) -> Result<Sheet, Failure> {
    let mut s = v.open();
    let fail = |e| refused(&STRAIN_LIMITED_PRESSURE, &e);
    let bore = cavity(v);
    let strain = v.si("wall_strain");
    let radius = bore.strain_limited_radius(strain).map_err(fail)?;
    let limit = bore.strain_limited_pressure(strain).map_err(fail)?.si();
    let first = bore.first_yield().map_err(fail)?.si();
    strength_steps(&mut s, first, bore.stiffness_ratio().map_err(fail)?);
    let formula = "R_0*sqrt(2*e/q)";
    s.result("R_p", "radius of the plastic zone", formula, radius.si(), unit::M, DELFT);
    let elastic = radius < bore.bore_radius;
    let formula = if elastic { "sigma + 2*G*e" } else { AT_RADIUS };
    s.result("p_e", "limit, effective", formula, limit, unit::KPA, DELFT);
    let total = s.derive("p", "limit, total", "p_e + u", unit::KPA, LEVEL);
    let outputs = [("limit", total), ("effective_limit", limit), ("plastic_radius", radius.si())];
    let word = if elastic { "elastic" } else { "plastic" };
    Ok(Sheet::new(&outputs, s).with_word("wall", word))
}
