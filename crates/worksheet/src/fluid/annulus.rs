use fluid::{AnnulusFlow, annulus_loss, bingham_asymptote, eccentric_factor, slot_velocity};
use quantity::{Pressure, Viscosity, unit};
use working::{Builder, Evidence, Source};

use super::{
    CONSISTENCY, FLOW, HOLE, INDEX, SLOT, STRING, YIELD, flow, length, pressure, refused, rheology,
};
use crate::definition::{Input, Output, Range, Worksheet};
use crate::run::{Failure, Sheet, Values};

const GUO: Source =
    Source::new("Guo & Liu, Applied Drilling Circulation Systems, eq. 2.59", Evidence::Published);
const ECCENTRIC: Source = Source::new("Haciislamoglu & Langlinais 1990", Evidence::FromMemory);

/// Mean velocity in a slot of gap h from wall stress and share of the plug.
const PROFILE: &str = "h/2*n/(2*n + 1)*(tau_w/K)^(1/n)*(1 - phi)^((n + 1)/n)*(1 + n/(n + 1)*phi)";

pub(super) static ANNULUS_LOSS: Worksheet = Worksheet {
    id: "annulus-loss",
    title: "pressure lost per length in the annulus, laminar",
    inputs: &[HOLE, STRING, FLOW, YIELD, CONSISTENCY, INDEX],
    outputs: &[
        Output::new("gradient", "pressure lost per length", unit::PA_PER_M),
        Output::new("velocity", "mean velocity", unit::M_PER_S),
        Output::new("wall_stress", "shear stress at the walls", unit::PA),
    ],
    source: SLOT,
    example: &[
        ("hole_diameter", "165.1 mm"),
        ("string_diameter", "88.9 mm"),
        ("flow", "378.5 l/min"),
        ("yield_stress", "4.088 Pa"),
        ("consistency", "0.259"),
        ("flow_index", "0.6374"),
    ],
    run: run_loss,
};

fn run_loss(v: &Values) -> Result<Sheet, Failure> {
    let mut s = v.open();
    let loss = rheology(v)
        .and_then(|fluid| {
            annulus_loss(&fluid, length(v, "hole_diameter"), length(v, "string_diameter"), flow(v))
        })
        .map_err(|e| refused(&ANNULUS_LOSS, &e))?;
    laminar_steps(&mut s, &loss);
    let gradient = loss.gradient.si();
    let formula = "4*tau_w/(D2 - D1)";
    s.result("G", "pressure lost per length", formula, gradient, unit::PA_PER_M, SLOT);
    let outputs = [
        ("gradient", gradient),
        ("velocity", loss.velocity.si()),
        ("wall_stress", loss.wall_stress.si()),
    ];
    Ok(Sheet::new(&outputs, s))
}

/// Velocity, gap and wall stress of laminar flow, with the velocity that the wall stress gives.
pub(super) fn laminar_steps(s: &mut Builder, loss: &AnnulusFlow) {
    let formula = "Q/(pi/4*(D2^2 - D1^2))";
    let (v, tau_w) = (loss.velocity.si(), loss.wall_stress.si());
    s.result("v", "mean velocity", formula, v, unit::M_PER_S, SLOT);
    s.derive("h", "gap", "(D2 - D1)/2", unit::MM, SLOT);
    let way = "wall stress at which the slot carries v, by Brent's method";
    s.found("tau_w", "shear stress at the walls", way, tau_w, unit::PA, SLOT);
    if tau_w > 0.0 {
        s.derive("phi", "share of the gap that moves as a plug", "tau_y/tau_w", unit::ONE, SLOT);
        s.derive("v_c", "velocity at this wall stress", PROFILE, unit::M_PER_S, SLOT);
    }
}

pub(super) static SLOT_VELOCITY: Worksheet = Worksheet {
    id: "slot-velocity",
    title: "mean velocity in a plane slot at a wall stress, laminar",
    inputs: &[
        Input::quantity("gap", "h", "gap", unit::MM, Range::SIZE),
        Input::quantity(
            "wall_stress",
            "tau_w",
            "shear stress at the walls",
            unit::PA,
            Range::Positive,
        ),
        YIELD,
        CONSISTENCY,
        INDEX,
    ],
    outputs: &[Output::new("velocity", "mean velocity; 0 up to the yield stress", unit::M_PER_S)],
    source: SLOT,
    example: &[
        ("gap", "40 mm"),
        ("wall_stress", "10 Pa"),
        ("yield_stress", "4 Pa"),
        ("consistency", "0.5"),
        ("flow_index", "0.6"),
    ],
    run: run_slot,
};

fn run_slot(v: &Values) -> Result<Sheet, Failure> {
    let mut s = v.open();
    let velocity = rheology(v)
        .and_then(|fluid| slot_velocity(&fluid, pressure(v, "wall_stress"), length(v, "gap")))
        .map_err(|e| refused(&SLOT_VELOCITY, &e))?
        .si();
    let formula = "min(tau_y/tau_w, 1)";
    s.derive("phi", "share of the gap that moves as a plug", formula, unit::ONE, SLOT);
    s.result("v", "mean velocity", PROFILE, velocity, unit::M_PER_S, SLOT);
    Ok(Sheet::new(&[("velocity", velocity)], s))
}

pub(super) static BINGHAM_ASYMPTOTE: Worksheet = Worksheet {
    id: "bingham-asymptote",
    title: "pressure lost per length by a Bingham fluid, usual high-flow form for comparison",
    inputs: &[
        HOLE,
        STRING,
        FLOW,
        Input::quantity(
            "plastic_viscosity",
            "mu_p",
            "plastic viscosity",
            unit::MPA_S,
            Range::Positive,
        ),
        Input::quantity("yield_point", "tau_0", "yield point", unit::PA, Range::NotNegative),
    ],
    outputs: &[
        Output::new("gradient", "pressure lost per length, asymptote", unit::PA_PER_M),
        Output::new("exact", "pressure lost per length, exact slot", unit::PA_PER_M),
    ],
    source: GUO,
    example: &[
        ("hole_diameter", "165.1 mm"),
        ("string_diameter", "88.9 mm"),
        ("flow", "378.5 l/min"),
        ("plastic_viscosity", "15 mPa·s"),
        ("yield_point", "9.576 Pa"),
    ],
    run: run_asymptote,
};

fn run_asymptote(v: &Values) -> Result<Sheet, Failure> {
    let mut s = v.open();
    let mu = Viscosity::from_si(v.si("plastic_viscosity"));
    let tau: Pressure = pressure(v, "yield_point");
    let (hole, string) = (length(v, "hole_diameter"), length(v, "string_diameter"));
    let fail = |e| refused(&BINGHAM_ASYMPTOTE, &e);
    let gradient = bingham_asymptote(mu, tau, hole, string, flow(v)).map_err(fail)?.si();
    let fluid = fluid::Rheology::bingham(mu, tau).map_err(fail)?;
    let exact = annulus_loss(&fluid, hole, string, flow(v)).map_err(fail)?.gradient.si();
    s.derive("v", "mean velocity", "Q/(pi/4*(D2^2 - D1^2))", unit::M_PER_S, SLOT);
    let formula = "48*mu_p*v/(D2 - D1)^2 + 6*tau_0/(D2 - D1)";
    s.result("G", "asymptote", formula, gradient, unit::PA_PER_M, GUO);
    let way = "slot of a Bingham fluid, as annulus-loss";
    s.found("G_x", "exact slot", way, exact, unit::PA_PER_M, SLOT);
    Ok(Sheet::new(&[("gradient", gradient), ("exact", exact)], s))
}

pub(super) static ECCENTRIC_ANNULUS: Worksheet = Worksheet {
    id: "eccentric-annulus",
    title: "share of the concentric loss that an eccentric string leaves, laminar power law",
    inputs: &[
        HOLE,
        STRING,
        Input::quantity("flow_index", "n", "flow index", unit::ONE, Range::Within(0.4, 1.0)),
        Input::quantity(
            "eccentricity",
            "e",
            "offset of the axes over the gap; the fit ends at 0.95, 1 lies on the wall",
            unit::ONE,
            Range::Within(0.0, 1.0),
        ),
    ],
    outputs: &[Output::new("factor", "loss over the concentric one", unit::ONE)],
    source: ECCENTRIC,
    example: &[
        ("hole_diameter", "165.1 mm"),
        ("string_diameter", "88.9 mm"),
        ("flow_index", "0.5146"),
        ("eccentricity", "0.6"),
    ],
    run: run_eccentric,
};

fn run_eccentric(v: &Values) -> Result<Sheet, Failure> {
    let mut s = v.open();
    let k = s.derive("k", "diameter ratio", "D1/D2", unit::ONE, SLOT);
    let factor = eccentric_factor(v.si("flow_index"), k, v.si("eccentricity"))
        .map_err(|e| Failure::at("string_diameter", e))?;
    let formula = "1 - 0.072*e/n*k^0.8454 - 1.5*e^2*sqrt(n)*k^0.1852 + 0.96*e^3*sqrt(n)*k^0.2527";
    s.result("R", "share of the concentric loss", formula, factor, unit::ONE, ECCENTRIC);
    Ok(Sheet::new(&[("factor", factor)], s))
}
