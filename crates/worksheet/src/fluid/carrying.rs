use fluid::{particle_slip, transport_velocity};
use quantity::{Density, GRAVITY, Velocity, Viscosity, unit};
use working::{Evidence, Source};

use super::{HOLE, STRING, length, refused};
use crate::definition::{Input, Output, Range, Worksheet};
use crate::run::{Failure, Sheet, Values};

const GUO: Source = Source::new(
    "Guo & Liu, Applied Drilling Circulation Systems, pp. 55 and 56; coefficients remembered",
    Evidence::FromMemory,
);
const TRANSPORT: Source = Source::new(
    "Guo & Liu, Applied Drilling Circulation Systems, eq. 2.97 and 2.98",
    Evidence::Published,
);

pub(super) static PARTICLE_SLIP: Worksheet = Worksheet {
    id: "particle-slip",
    title: "velocity at which a grain sinks through the fluid",
    inputs: &[
        Input::quantity(
            "diameter",
            "d",
            "diameter of the sphere of equal volume",
            unit::MM,
            Range::SIZE,
        ),
        Input::quantity(
            "sphericity",
            "psi",
            "surface of that sphere over the grain's",
            unit::ONE,
            Range::Within(0.2, 1.0),
        ),
        Input::quantity(
            "particle_density",
            "rho_s",
            "density of the grain",
            unit::KG_PER_M3,
            Range::Positive,
        ),
        Input::quantity(
            "fluid_density",
            "rho",
            "density of the fluid",
            unit::KG_PER_M3,
            Range::Positive,
        ),
        Input::quantity(
            "viscosity",
            "mu",
            "viscosity of the fluid around the grain",
            unit::MPA_S,
            Range::Positive,
        ),
    ],
    outputs: &[
        Output::new("velocity", "slip of the grain", unit::M_PER_S),
        Output::new("reynolds", "Reynolds number of the grain", unit::ONE),
        Output::new("drag", "drag factor of the grain", unit::ONE),
    ],
    source: GUO,
    example: &[
        ("diameter", "0.25 in"),
        ("sphericity", "0.8"),
        ("particle_density", "2700 kg/m3"),
        ("fluid_density", "12 ppg"),
        ("viscosity", "6 mPa·s"),
    ],
    run: run_slip,
};

fn run_slip(v: &Values) -> Result<Sheet, Failure> {
    let mut s = v.open();
    let slip = particle_slip(
        length(v, "diameter"),
        v.si("sphericity"),
        Density::from_si(v.si("particle_density")),
        Density::from_si(v.si("fluid_density")),
        Viscosity::from_si(v.si("viscosity")),
    )
    .map_err(|e| refused(&PARTICLE_SLIP, &e))?;
    let gravity = Source::new("ISO 80000-3, m/s2", Evidence::Published);
    s.given_from("g", "acceleration of gravity", GRAVITY, unit::ONE, gravity);
    for (symbol, formula) in [
        ("A", "2.2954 - 2.2626*psi + 4.4395*psi^2 - 2.9825*psi^3"),
        ("B", "-0.4193 - 1.9014*psi + 3.3416*psi^2 - 2.0409*psi^3"),
        ("C", "0.1117 + 0.0553*psi - 0.1468*psi^2 + 0.1145*psi^3"),
    ] {
        s.derive(symbol, "coefficient of the drag", formula, unit::ONE, GUO);
    }
    let formula = "A + 2*log10(mu/(rho*d)) - log10(4*g*d*(rho_s - rho)/(3*rho))";
    s.derive("c_0", "constant of the equation for log10 Re", formula, unit::ONE, GUO);
    let (re, drag, velocity) = (slip.reynolds, slip.drag, slip.velocity.si());
    let formula = "10^((sqrt((2 + B)^2 - 4*C*c_0) - 2 - B)/(2*C))";
    s.result("Re", "Reynolds number of the grain", formula, re, unit::ONE, GUO);
    let formula = "10^(A + B*log10(Re) + C*log10(Re)^2)";
    s.result("f", "drag factor", formula, drag, unit::ONE, GUO);
    let formula = "sqrt(4*g*d*(rho_s - rho)/(3*f*rho))";
    s.result("v", "slip of the grain", formula, velocity, unit::M_PER_S, GUO);
    Ok(Sheet::new(&[("velocity", velocity), ("reynolds", re), ("drag", drag)], s))
}

pub(super) static TRANSPORT_VELOCITY: Worksheet = Worksheet {
    id: "transport-velocity",
    title: "velocity of returns that keeps the cuttings of the pilot at a concentration",
    inputs: &[
        Input::quantity(
            "advance",
            "v_b",
            "advance of the bit",
            unit::M_PER_MIN,
            Range::NotNegative,
        ),
        Input::quantity("cut_diameter", "D_c", "diameter of the bit", unit::MM, Range::SIZE),
        HOLE,
        STRING,
        Input::quantity(
            "concentration",
            "c",
            "share of solids that is allowed",
            unit::PERCENT,
            Range::Between(0.0, 1.0),
        ),
    ],
    outputs: &[Output::new("velocity", "add the slip of the grains", unit::M_PER_S)],
    source: TRANSPORT,
    example: &[
        ("advance", "1 m/min"),
        ("cut_diameter", "165.1 mm"),
        ("hole_diameter", "165.1 mm"),
        ("string_diameter", "88.9 mm"),
        ("concentration", "5 %"),
    ],
    run: run_transport,
};

fn run_transport(v: &Values) -> Result<Sheet, Failure> {
    let mut s = v.open();
    let velocity = transport_velocity(
        Velocity::from_si(v.si("advance")),
        length(v, "cut_diameter"),
        length(v, "hole_diameter"),
        length(v, "string_diameter"),
        v.si("concentration"),
    )
    .map_err(|e| refused(&TRANSPORT_VELOCITY, &e))?
    .si();
    let formula = "v_b*D_c^2/(c*(D2^2 - D1^2))";
    s.result("v_t", "velocity for transport", formula, velocity, unit::M_PER_S, TRANSPORT);
    Ok(Sheet::new(&[("velocity", velocity)], s))
}
