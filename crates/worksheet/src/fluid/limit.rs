use std::f64::consts::FRAC_PI_3;

use fluid::{Cavity, UndrainedCavity};
use quantity::{Angle, unit};
use working::{Builder, Evidence, Source};

use super::{length, pressure, refused};
use crate::definition::{Input, Output, Range, Worksheet};
use crate::run::{Failure, Sheet, Values};

pub(super) const DELFT: Source = Source::new(
    "cavity expansion after Luger & Hergarden 1988, derived again and held against integration",
    Evidence::Derived,
);
const TRESCA: Source = Source::new("cavity expansion without friction, derived", Evidence::Derived);
const LEVEL: Source = Source::new("effective stress", Evidence::Derived);

pub(super) const EFFECTIVE: Input = Input::quantity(
    "effective_stress",
    "sigma",
    "mean effective stress across the bore, (1 + K0)/2 of the vertical one",
    unit::KPA,
    Range::NotNegative,
);
pub(super) const FRICTION: Input = Input::quantity(
    "friction_angle",
    "phi",
    "friction angle of the ground",
    unit::DEG,
    Range::Above(0.0, FRAC_PI_3),
);
pub(super) const COHESION: Input =
    Input::quantity("cohesion", "c", "cohesion of the ground", unit::KPA, Range::NotNegative);
pub(super) const MODULUS: Input = Input::quantity(
    "shear_modulus",
    "G",
    "shear modulus at strains of per cents",
    unit::MPA,
    Range::Positive,
);
pub(super) const BORE_RADIUS: Input =
    Input::quantity("bore_radius", "R_0", "radius of the bore", unit::MM, Range::SIZE);
const PLASTIC_RADIUS: Input = Input::quantity(
    "plastic_radius",
    "R_p",
    "largest radius of the plastic zone, from the axis",
    unit::M,
    Range::Positive,
);
pub(super) const PORE: Input =
    Input::quantity("pore_pressure", "u", "pore pressure", unit::KPA, Range::NotNegative);

pub(super) static LIMIT_PRESSURE: Worksheet = Worksheet {
    id: "limit-pressure",
    title: "pressure in the bore that the ground bears, drained (Delft)",
    inputs: &[EFFECTIVE, FRICTION, COHESION, MODULUS, BORE_RADIUS, PLASTIC_RADIUS, PORE],
    outputs: &[
        Output::new("limit", "total pressure at which the zone has this radius", unit::KPA),
        Output::new("first_yield", "total pressure at which the wall begins to yield", unit::KPA),
        Output::new("bore_growth", "radius of the bore at the limit over its own", unit::ONE),
    ],
    source: DELFT,
    example: &[
        ("effective_stress", "60 kPa"),
        ("friction_angle", "32 deg"),
        ("cohesion", "0 kPa"),
        ("shear_modulus", "5000 kPa"),
        ("bore_radius", "82.5 mm"),
        ("plastic_radius", "4 m"),
        ("pore_pressure", "30 kPa"),
    ],
    run: run_drained,
};

/// The bore of the inputs.
pub(super) fn cavity(v: &Values) -> Cavity {
    Cavity {
        effective_stress: pressure(v, "effective_stress"),
        friction_angle: Angle::from_si(v.si("friction_angle")),
        cohesion: pressure(v, "cohesion"),
        shear_modulus: pressure(v, "shear_modulus"),
        bore_radius: length(v, "bore_radius"),
    }
}

/// Effective first yield and ratio of strength to modulus.
pub(super) fn strength_steps(s: &mut Builder, first_yield: f64, ratio: f64) {
    let formula = "sigma*(1 + sin(phi)) + c*cos(phi)";
    s.result("p_f", "first yield, effective", formula, first_yield, unit::KPA, DELFT);
    let formula = "(sigma*sin(phi) + c*cos(phi))/G";
    s.result("q", "strength over modulus", formula, ratio, unit::ONE, DELFT);
}

/// Effective pressure at the plastic radius `R_p`.
pub(super) const AT_RADIUS: &str = "max(p_f, (p_f + c/tan(phi))*((R_0/R_p)^2 + q)\
    ^(-sin(phi)/(1 + sin(phi))) - c/tan(phi))";

fn run_drained(v: &Values) -> Result<Sheet, Failure> {
    let mut s = v.open();
    let fail = |e| refused(&LIMIT_PRESSURE, &e);
    let bore = cavity(v);
    let rp = length(v, "plastic_radius");
    let first = bore.first_yield().map_err(fail)?;
    let limit = bore.pressure(rp).map_err(fail)?.si();
    let ratio = bore.stiffness_ratio().map_err(fail)?;
    let growth = bore.wall_growth(rp).map_err(fail)?;
    strength_steps(&mut s, first.si(), ratio);
    s.result("p_e", "limit, effective", AT_RADIUS, limit, unit::KPA, DELFT);
    let total = s.derive("p", "limit, total", "p_e + u", unit::KPA, LEVEL);
    let yields = s.derive("p_y", "first yield, total", "p_f + u", unit::KPA, LEVEL);
    let formula = "sqrt(1 + q*(R_p/R_0)^2)";
    s.result("g", "growth of the bore", formula, growth, unit::ONE, DELFT);
    Ok(Sheet::new(&[("limit", total), ("first_yield", yields), ("bore_growth", growth)], s))
}

pub(super) static LIMIT_PRESSURE_UNDRAINED: Worksheet = Worksheet {
    id: "limit-pressure-undrained",
    title: "pressure in the bore that clay bears, undrained",
    inputs: &[
        Input::quantity(
            "total_stress",
            "sigma",
            "mean total stress across the bore",
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
        MODULUS,
        BORE_RADIUS,
        PLASTIC_RADIUS,
    ],
    outputs: &[
        Output::new("limit", "total pressure at which the zone has this radius", unit::KPA),
        Output::new("first_yield", "total pressure at which the wall begins to yield", unit::KPA),
        Output::new("unlimited", "the zone grows without end; never for design", unit::KPA),
        Output::new("bore_growth", "radius of the bore at the limit over its own", unit::ONE),
    ],
    source: TRESCA,
    example: &[
        ("total_stress", "150 kPa"),
        ("undrained_strength", "25 kPa"),
        ("shear_modulus", "2500 kPa"),
        ("bore_radius", "150 mm"),
        ("plastic_radius", "4 m"),
    ],
    run: run_undrained,
};

fn run_undrained(v: &Values) -> Result<Sheet, Failure> {
    let mut s = v.open();
    let fail = |e| refused(&LIMIT_PRESSURE_UNDRAINED, &e);
    let bore = UndrainedCavity {
        total_stress: pressure(v, "total_stress"),
        undrained_strength: pressure(v, "undrained_strength"),
        shear_modulus: pressure(v, "shear_modulus"),
        bore_radius: length(v, "bore_radius"),
    };
    let rp = length(v, "plastic_radius");
    let first = bore.first_yield().map_err(fail)?.si();
    let limit = bore.pressure(rp).map_err(fail)?.si();
    let unlimited = bore.unlimited().map_err(fail)?.si();
    let growth = bore.wall_growth(rp).map_err(fail)?;
    s.result("p_f", "first yield", "sigma + s_u", first, unit::KPA, TRESCA);
    let formula = "max(p_f, sigma + s_u - s_u*ln((R_0/R_p)^2 + s_u/G))";
    s.result("p", "limit", formula, limit, unit::KPA, TRESCA);
    let formula = "sigma + s_u*(1 + ln(G/s_u))";
    s.result("p_u", "zone without end", formula, unlimited, unit::KPA, TRESCA);
    let formula = "sqrt(1 + s_u/G*(R_p/R_0)^2)";
    s.result("g", "growth of the bore", formula, growth, unit::ONE, TRESCA);
    let outputs = [
        ("limit", limit),
        ("first_yield", first),
        ("unlimited", unlimited),
        ("bore_growth", growth),
    ];
    Ok(Sheet::new(&outputs, s))
}
