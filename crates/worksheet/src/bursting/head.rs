use pull::bursting::{
    BREAKING, CONE, SPLITTING, Splitting, breaking_force, cone_force, splitting_force,
};
use quantity::{Angle, Length, Pressure, unit};
use working::{Evidence, Source};

use super::{EXPANDER, HALF_ANGLE, HOST_INSIDE, not_negative, positive, size};
use crate::definition::{Input, Output, Range, Worksheet};
use crate::pulling::refused;
use crate::run::{Failure, Sheet, Values};

static START: Source = Source::new(
    "to start from; vary it from 20 to 100 mm, no measurement has fixed it",
    Evidence::Judgement,
);
static TEAR: Source = Source::new("about 1 for ductile metal", Evidence::Judgement);

const WALL: Input = size("wall", "t", "wall of the old pipe");
const CONE_FRICTION: Input =
    Input::quantity("friction", "mu", "friction on the cone", unit::ONE, Range::Within(0.0, 1.0));

pub(super) static BURST_BREAKING: Worksheet = Worksheet {
    id: "burst-breaking",
    title: "force that breaks a brittle pipe with a cone",
    inputs: &[
        WALL,
        positive("tensile_strength", "s_t", "tensile strength of the old pipe", unit::MPA),
        size("contact_length", "l", "length of old pipe in contact with the cone")
            .or("50 mm", &START),
        HALF_ANGLE,
        CONE_FRICTION,
    ],
    outputs: &[Output::new("force", "axial force on the head", unit::KN)],
    source: BREAKING.source(),
    example: &[
        ("wall", "11 mm"),
        ("tensile_strength", "150 MPa"),
        ("half_angle", "15 deg"),
        ("friction", "0.3"),
    ],
    run: run_breaking,
};

fn run_breaking(v: &Values) -> Result<Sheet, Failure> {
    let force = breaking_force(
        Length::from_si(v.si("wall")),
        Pressure::from_si(v.si("tensile_strength")),
        Length::from_si(v.si("contact_length")),
        Angle::from_si(v.si("half_angle")),
        v.si("friction"),
    )
    .map_err(|e| refused(&BURST_BREAKING, &e))?
    .si();
    let source = || BREAKING.source();
    let mut w = v.open();
    w.derive("N", "radial force that bursts the ring", "2*pi*t*s_t*l", unit::KN, source());
    let formula = "N*(tan(alpha) + mu)/(1 - mu*tan(alpha))";
    w.result("F", "axial force on the head", formula, force, unit::KN, source());
    Ok(Sheet::new(&[("force", force)], w))
}

pub(super) static BURST_SPLITTING: Worksheet = Worksheet {
    id: "burst-splitting",
    title: "force of blades that split a ductile pipe",
    inputs: &[
        WALL,
        positive("flow_stress", "s_0", "flow stress of the old pipe's metal", unit::MPA),
        size("cut_length", "l", "length of the cut that a blade keeps open"),
        Input::quantity(
            "friction",
            "mu",
            "friction of blade on metal",
            unit::ONE,
            Range::Above(0.0, 1.0),
        ),
        positive("tear", "d_t", "opening of the tear over the wall", unit::ONE).or("1", &TEAR),
        positive("cutters", "n", "blades that cut at the same time", unit::ONE),
    ],
    outputs: &[Output::new("force", "axial force on the head", unit::KN)],
    source: SPLITTING.source(),
    example: &[
        ("wall", "6 mm"),
        ("flow_stress", "350 MPa"),
        ("cut_length", "100 mm"),
        ("friction", "0.3"),
        ("cutters", "1"),
    ],
    run: run_splitting,
};

fn run_splitting(v: &Values) -> Result<Sheet, Failure> {
    let force = splitting_force(&Splitting {
        wall: Length::from_si(v.si("wall")),
        flow_stress: Pressure::from_si(v.si("flow_stress")),
        cut_length: Length::from_si(v.si("cut_length")),
        friction: v.si("friction"),
        tear: v.si("tear"),
        cutters: v.si("cutters"),
    })
    .map_err(|e| refused(&BURST_SPLITTING, &e))?
    .si();
    let mut w = v.open();
    let formula = "n*3.28*s_0*d_t^0.2*l^0.4*t^1.6*mu^0.4";
    w.result("F", "axial force on the head", formula, force, unit::KN, SPLITTING.source());
    Ok(Sheet::new(&[("force", force)], w))
}

pub(super) static BURST_CONE: Worksheet = Worksheet {
    id: "burst-cone",
    title: "force that pushes the ground aside with a cone",
    inputs: &[
        HOST_INSIDE,
        EXPANDER,
        HALF_ANGLE,
        CONE_FRICTION,
        not_negative("pressure", "p", "pressure of the ground on the cone", unit::KPA),
    ],
    outputs: &[Output::new("force", "axial force on the head", unit::KN)],
    source: CONE.source(),
    example: &[
        ("host_inside_diameter", "150 mm"),
        ("expander_diameter", "260 mm"),
        ("half_angle", "15 deg"),
        ("friction", "0.3"),
        ("pressure", "280 kPa"),
    ],
    run: run_cone,
};

fn run_cone(v: &Values) -> Result<Sheet, Failure> {
    let force = cone_force(
        Length::from_si(v.si("host_inside_diameter")),
        Length::from_si(v.si("expander_diameter")),
        Angle::from_si(v.si("half_angle")),
        v.si("friction"),
        Pressure::from_si(v.si("pressure")),
    )
    .map_err(|e| refused(&BURST_CONE, &e))?
    .si();
    let source = || CONE.source();
    let mut w = v.open();
    let formula = "pi/4*(D_e - d_i)*(D_e + d_i)";
    w.derive("A", "ring between old bore and expander", formula, unit::M2, source());
    let formula = "p*A*(1 + mu/tan(alpha))";
    w.result("F", "axial force on the head", formula, force, unit::KN, source());
    Ok(Sheet::new(&[("force", force)], w))
}
