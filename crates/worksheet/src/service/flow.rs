use quantity::{Flow, KinematicViscosity, Length, unit};
use service::{LAMINAR_LIMIT, full_pipe_flow, hazen_williams};
use working::{Evidence, Source};

use crate::definition::{Input, Output, Range, Worksheet};
use crate::run::{Failure, Sheet, Values};

const COLEBROOK: Source = Source::new("Colebrook-White and Darcy-Weisbach", Evidence::FromMemory);
const HAZEN: Source = Source::new("Hazen-Williams, SI form", Evidence::FromMemory);
static INDUSTRY: Source = Source::new("US industry value for mortar lining", Evidence::FromMemory);

/// Coefficients from the roughest old main to the smoothest pipe. Judgement.
const COEFFICIENT: Range = Range::Within(50.0, 170.0);

const INSIDE: Input = Input::quantity(
    "inside_diameter",
    "D",
    "inside diameter, of the lining",
    unit::MM,
    Range::SIZE,
);
const FLOW: Input = Input::quantity("flow", "Q", "flow", unit::L_PER_S, Range::Positive);

pub(super) static HEAD_LOSS: Worksheet = Worksheet {
    id: "head-loss",
    title: "head loss of a full main (Colebrook-White)",
    inputs: &[
        INSIDE,
        FLOW,
        Input::quantity(
            "roughness",
            "k",
            "roughness: 0.1 mm for a network with joints, 0.03 mm for smooth lining",
            unit::MM,
            Range::SIZE_OR_NONE,
        ),
        Input::quantity(
            "viscosity",
            "nu",
            "kinematic viscosity, 1.31 mm2/s at 10 C",
            unit::MM2_PER_S,
            Range::Positive,
        ),
    ],
    outputs: &[
        Output::new("gradient", "head lost per length, m/m", unit::ONE),
        Output::new("velocity", "mean velocity", unit::M_PER_S),
        Output::new("friction_factor", "Darcy's friction factor", unit::ONE),
    ],
    source: COLEBROOK,
    example: &[
        ("inside_diameter", "201.4 mm"),
        ("flow", "30 l/s"),
        ("roughness", "0.1 mm"),
        ("viscosity", "1.31 mm2/s"),
    ],
    run: run_colebrook,
};

pub(super) static HAZEN_WILLIAMS: Worksheet = Worksheet {
    id: "hazen-williams",
    title: "head loss of a full main (Hazen-Williams)",
    inputs: &[
        INSIDE,
        FLOW,
        Input::quantity("coefficient", "C", "coefficient C", unit::ONE, COEFFICIENT)
            .or("140", &INDUSTRY),
    ],
    outputs: &[Output::new("gradient", "head lost per length, m/m", unit::ONE)],
    source: HAZEN,
    example: &[("inside_diameter", "201.4 mm"), ("flow", "30 l/s")],
    run: run_hazen,
};

fn run_colebrook(v: &Values) -> Result<Sheet, Failure> {
    let flow = full_pipe_flow(
        Length::from_si(v.si("inside_diameter")),
        Flow::from_si(v.si("flow")),
        Length::from_si(v.si("roughness")),
        KinematicViscosity::from_si(v.si("viscosity")),
    )
    .map_err(|e| Failure::at("", e))?;
    let mut s = v.open();
    let (velocity, f, gradient) = (flow.velocity.si(), flow.friction_factor, flow.gradient);
    s.given_from(
        "g",
        "acceleration of gravity",
        quantity::GRAVITY,
        unit::ONE,
        Source::new("ISO 80000-3, m/s2", Evidence::Published),
    );
    s.result("v", "mean velocity", "Q/(pi/4*D^2)", velocity, unit::M_PER_S, COLEBROOK);
    s.result("Re", "Reynolds number", "v*D/nu", flow.reynolds, unit::ONE, COLEBROOK);
    if flow.reynolds < LAMINAR_LIMIT {
        s.result("f", "friction factor, laminar", "64/Re", f, unit::ONE, COLEBROOK);
    } else {
        let procedure = "root of 1/sqrt(f) = -2 log10(k/(3.7 D) + 2.51/(Re sqrt(f)))";
        s.found("f_0", "friction factor, solved", procedure, f, unit::ONE, COLEBROOK);
        let formula = "(-2*log10(k/(3.7*D) + 2.51/(Re*sqrt(f_0))))^-2";
        s.result("f", "friction factor, put in again", formula, f, unit::ONE, COLEBROOK);
    }
    s.result("J", "head lost per length", "f*v^2/(2*g*D)", gradient, unit::ONE, COLEBROOK);
    Ok(Sheet::new(&[("gradient", gradient), ("velocity", velocity), ("friction_factor", f)], s))
}

fn run_hazen(v: &Values) -> Result<Sheet, Failure> {
    let d = Length::from_si(v.si("inside_diameter"));
    let gradient = hazen_williams(d, Flow::from_si(v.si("flow")), v.si("coefficient"));
    let gradient = gradient.map_err(|e| Failure::at("", e))?;
    let mut s = v.open();
    let formula = "10.67*Q^1.852/(C^1.852*D^4.8704)";
    s.result("J", "head lost per length", formula, gradient, unit::ONE, HAZEN);
    Ok(Sheet::new(&[("gradient", gradient)], s))
}
