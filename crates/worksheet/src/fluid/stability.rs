use fluid::{overload_number, support_pressure, unloading_radius};
use quantity::{Angle, unit};
use working::{Evidence, Source};

use super::limit::{BORE_RADIUS, COHESION, EFFECTIVE, FRICTION, PORE};
use super::{KIRSCH, length, pressure, refused};
use crate::definition::{Input, Output, Range, Worksheet};
use crate::run::{Failure, Sheet, Values};

const TRESCA: Source = Source::new("equilibrium of a cylinder without friction", Evidence::Derived);

pub(super) static BORE_SUPPORT: Worksheet = Worksheet {
    id: "bore-support",
    title: "pressure below which the wall of a drained bore yields inward",
    inputs: &[EFFECTIVE, FRICTION, COHESION, PORE],
    outputs: &[
        Output::new("support", "total pressure; below the pore pressure none is needed", unit::KPA),
        Output::new("effective_support", "effective pressure at the wall", unit::KPA),
    ],
    source: KIRSCH,
    example: &[
        ("effective_stress", "60 kPa"),
        ("friction_angle", "32 deg"),
        ("cohesion", "0 kPa"),
        ("pore_pressure", "30 kPa"),
    ],
    run: run_support,
};

fn run_support(v: &Values) -> Result<Sheet, Failure> {
    let mut s = v.open();
    let angle = Angle::from_si(v.si("friction_angle"));
    let effective =
        support_pressure(pressure(v, "effective_stress"), angle, pressure(v, "cohesion"))
            .map_err(|e| refused(&BORE_SUPPORT, &e))?
            .si();
    let formula = "sigma*(1 - sin(phi)) - c*cos(phi)";
    s.result("p_e", "effective support", formula, effective, unit::KPA, KIRSCH);
    let total = s.derive("p", "support, total", "p_e + u", unit::KPA, KIRSCH);
    Ok(Sheet::new(&[("support", total), ("effective_support", effective)], s))
}

pub(super) static OVERLOAD_NUMBER: Worksheet = Worksheet {
    id: "overload-number",
    title: "overload of a bore in clay and how far it yields inward",
    inputs: &[
        Input::quantity(
            "total_stress",
            "sigma",
            "mean total stress across the bore",
            unit::KPA,
            Range::NotNegative,
        ),
        Input::quantity(
            "pressure",
            "p",
            "total pressure of the fluid in the bore",
            unit::KPA,
            Range::NotNegative,
        ),
        Input::quantity(
            "undrained_strength",
            "s_u",
            "undrained shear strength",
            unit::KPA,
            Range::Positive,
        ),
        BORE_RADIUS,
    ],
    outputs: &[
        Output::new("overload", "overload number; yields from 1", unit::ONE),
        Output::new(
            "plastic_radius",
            "radius of the zone that yields; the bore's own while elastic",
            unit::M,
        ),
        Output::new("wall", "plastic, or elastic", unit::ONE),
    ],
    source: TRESCA,
    example: &[
        ("total_stress", "156 kPa"),
        ("pressure", "66 kPa"),
        ("undrained_strength", "30 kPa"),
        ("bore_radius", "300 mm"),
    ],
    run: run_overload,
};

fn run_overload(v: &Values) -> Result<Sheet, Failure> {
    let mut s = v.open();
    let fail = |e| refused(&OVERLOAD_NUMBER, &e);
    let (stress, inside) = (pressure(v, "total_stress"), pressure(v, "pressure"));
    let n = overload_number(stress, inside, pressure(v, "undrained_strength")).map_err(fail)?;
    let bore = length(v, "bore_radius");
    let zone = unloading_radius(bore, n).map_err(fail)?;
    let radius = zone.unwrap_or(bore).si();
    s.result("N", "overload number", "(sigma - p)/s_u", n, unit::ONE, TRESCA);
    let formula = "R_0*exp(max(N - 1, 0)/2)";
    s.result("R_p", "radius of the zone that yields", formula, radius, unit::M, TRESCA);
    let word = if zone.is_some() { "plastic" } else { "elastic" };
    Ok(Sheet::new(&[("overload", n), ("plastic_radius", radius)], s).with_word("wall", word))
}
