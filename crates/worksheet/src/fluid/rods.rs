use std::f64::consts::FRAC_PI_4;

use fluid::{Rheology, nozzle_loss, pipe_loss};
use quantity::{Area, Density, Pressure, unit};
use working::{Evidence, Source};

use super::regime::regime;
use super::{CONSISTENCY, DENSITY, INDEX, LAMINAR_LIMIT, TURBULENT_LIMIT, flow, length, refused};
use crate::definition::{Input, Output, Range, Worksheet};
use crate::run::{Failure, Sheet, Values};

const ROUND: Source = Source::new("laminar flow in a round pipe, exact", Evidence::Derived);
const GREATER: Source = Source::new(
    "API RP 13D equations of May 2002; between the limits the greater loss",
    Evidence::Judgement,
);
const JET: Source = Source::new("energy balance of a jet", Evidence::Derived);
static USUAL: Source =
    Source::new("Guo & Liu, Applied Drilling Circulation Systems, p. 53", Evidence::Published);

const FLOW: Input =
    Input::quantity("flow", "Q", "flow through the rods", unit::L_PER_MIN, Range::Positive);

pub(super) static ROD_FLOW: Worksheet = Worksheet {
    id: "rod-flow",
    title: "pressure lost per length inside rods, power law",
    inputs: &[
        Input::quantity("inside_diameter", "d", "bore of the rods", unit::MM, Range::SIZE),
        FLOW,
        DENSITY,
        CONSISTENCY,
        INDEX,
    ],
    outputs: &[
        Output::new("gradient", "pressure lost per length", unit::PA_PER_M),
        Output::new("velocity", "mean velocity", unit::M_PER_S),
        Output::new("reynolds", "Reynolds number", unit::ONE),
        Output::new("friction_factor", "Fanning's friction factor", unit::ONE),
        Output::new("regime", "laminar, transition or turbulent", unit::ONE),
    ],
    source: GREATER,
    example: &[
        ("inside_diameter", "50.8 mm"),
        ("flow", "400 l/min"),
        ("density", "1080 kg/m3"),
        ("consistency", "0.7225"),
        ("flow_index", "0.5146"),
    ],
    run: run_rods,
};

fn run_rods(v: &Values) -> Result<Sheet, Failure> {
    let mut s = v.open();
    let fail = |e| refused(&ROD_FLOW, &e);
    let n = v.si("flow_index");
    let fluid = Rheology::new(Pressure::ZERO, v.si("consistency"), n).map_err(fail)?;
    let density = Density::from_si(v.si("density"));
    let loss = pipe_loss(&fluid, length(v, "inside_diameter"), flow(v), density).map_err(fail)?;
    let (velocity, re, f) = (loss.velocity.si(), loss.reynolds, loss.friction_factor);
    let gradient = loss.gradient.si();
    s.result("v", "mean velocity", "Q/(pi/4*d^2)", velocity, unit::M_PER_S, ROUND);
    let formula = "K*(8*v/d*(3*n + 1)/(4*n))^n";
    s.derive("tau_w", "wall stress if laminar", formula, unit::PA, ROUND);
    s.result("Re", "Reynolds number", "8*rho*v^2/tau_w", re, unit::ONE, ROUND);
    s.derive("Re_l", "laminar up to", "3470 - 1370*n", unit::ONE, LAMINAR_LIMIT);
    s.derive("Re_t", "turbulent from", "4270 - 1370*n", unit::ONE, TURBULENT_LIMIT);
    let formula = if loss.laminar {
        "16/Re"
    } else {
        "max(16/Re, (log10(n) + 3.93)/50/Re^((1.75 - log10(n))/7))"
    };
    s.result("f", "friction factor", formula, f, unit::ONE, GREATER);
    s.result("G", "pressure lost per length", "2*f*rho*v^2/d", gradient, unit::PA_PER_M, ROUND);
    let outputs =
        [("gradient", gradient), ("velocity", velocity), ("reynolds", re), ("friction_factor", f)];
    Ok(Sheet::new(&outputs, s).with_word("regime", regime(re, n)))
}

pub(super) static NOZZLE_LOSS: Worksheet = Worksheet {
    id: "nozzle-loss",
    title: "pressure lost in the nozzles of the bit",
    inputs: &[
        Input::quantity("nozzles", "N", "number of nozzles", unit::ONE, Range::Within(1.0, 100.0)),
        Input::quantity("nozzle_diameter", "d", "diameter of each nozzle", unit::MM, Range::SIZE),
        FLOW,
        DENSITY,
        Input::quantity(
            "coefficient",
            "C_d",
            "discharge coefficient",
            unit::ONE,
            Range::Above(0.0, 1.1),
        )
        .or("0.95", &USUAL),
    ],
    outputs: &[
        Output::new("pressure", "pressure lost", unit::BAR),
        Output::new("area", "area of all nozzles", unit::MM2),
    ],
    source: JET,
    example: &[
        ("nozzles", "4"),
        ("nozzle_diameter", "4 mm"),
        ("flow", "400 l/min"),
        ("density", "1080 kg/m3"),
    ],
    run: run_nozzles,
};

fn run_nozzles(v: &Values) -> Result<Sheet, Failure> {
    let mut s = v.open();
    let d = v.si("nozzle_diameter");
    let area = v.si("nozzles") * FRAC_PI_4 * d * d;
    let density = Density::from_si(v.si("density"));
    let loss = nozzle_loss(density, flow(v), Area::from_si(area), v.si("coefficient"))
        .map_err(|e| refused(&NOZZLE_LOSS, &e))?
        .si();
    s.result("A", "area of all nozzles", "N*pi/4*d^2", area, unit::MM2, JET);
    s.result("p", "pressure lost", "rho*Q^2/(2*C_d^2*A^2)", loss, unit::BAR, JET);
    Ok(Sheet::new(&[("pressure", loss), ("area", area)], s))
}
