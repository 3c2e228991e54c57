use pipe::{barrel_axial_capacity, end_thrust, joint_offset, pull_from_pressure};
use quantity::{Angle, Length, Pressure, unit};
use service::bend_thrust;
use working::{Evidence, Source};

use crate::definition::{Input, Output, Range, Worksheet};
use crate::run::{Failure, Sheet, Values};

const STATICS: Source = Source::new("statics, outside diameter", Evidence::Derived);
static PROOF: Source = Source::new("EN 545 table 5, lower proof strength", Evidence::FromMemory);

const OUTSIDE: Input =
    Input::quantity("outside_diameter", "DE", "outside diameter", unit::MM, Range::SIZE);

pub(super) static END_THRUST: Worksheet = Worksheet {
    id: "end-thrust",
    title: "thrust of the pressure on a dead end or a bend",
    inputs: &[
        OUTSIDE,
        Input::quantity("pressure", "p", "pressure", unit::BAR, Range::NotNegative),
        Input::quantity(
            "bend_angle",
            "theta",
            "angle of a bend; left out for a dead end or a tee",
            unit::DEG,
            Range::Within(0.0, std::f64::consts::PI),
        )
        .optional(),
    ],
    outputs: &[Output::new("force", "thrust; of a bend along its bisector", unit::KN)],
    source: STATICS,
    example: &[("outside_diameter", "635 mm"), ("pressure", "15 bar")],
    run: run_thrust,
};

pub(super) static BARREL_CAPACITY: Worksheet = Worksheet {
    id: "barrel-capacity",
    title: "axial force at the proof strength of a barrel",
    inputs: &[
        OUTSIDE,
        Input::quantity("wall_min", "e", "minimum wall", unit::MM, Range::SIZE),
        Input::quantity("proof_strength", "R", "0.2 % proof strength", unit::MPA, Range::Positive)
            .or("270 MPa", &PROOF),
    ],
    outputs: &[Output::new("force", "axial force at proof strength", unit::KN)],
    source: Source::new("statics of a thin ring", Evidence::Derived),
    example: &[("outside_diameter", "635 mm"), ("wall_min", "8.0 mm")],
    run: run_barrel,
};

pub(super) static PULL_FROM_PRESSURE: Worksheet = Worksheet {
    id: "pull-from-pressure",
    title: "permitted pull guessed from a joint's pressure rating",
    inputs: &[
        OUTSIDE,
        Input::quantity(
            "joint_pfa",
            "PFA",
            "allowable operating pressure of the restrained joint",
            unit::BAR,
            Range::Positive,
        ),
    ],
    outputs: &[Output::new("force", "permitted pull, indicative", unit::KN)],
    source: Source::new(
        "1.5 x end thrust: indicative, agrees with two published values",
        Evidence::Judgement,
    ),
    example: &[("outside_diameter", "635 mm"), ("joint_pfa", "32 bar")],
    run: run_proxy,
};

pub(super) static JOINT_OFFSET: Worksheet = Worksheet {
    id: "joint-offset",
    title: "how far a pipe's end moves aside when its joint turns",
    inputs: &[
        Input::quantity("laying_length", "a", "laying length", unit::M, Range::Positive),
        Input::quantity(
            "joint_angle",
            "delta",
            "angle of the joint",
            unit::DEG,
            Range::JOINT_ANGLE_OR_NONE,
        ),
    ],
    outputs: &[Output::new("offset", "offset of the far end", unit::MM)],
    source: Source::new("plane geometry", Evidence::Derived),
    example: &[("laying_length", "6 m"), ("joint_angle", "3 deg")],
    run: run_offset,
};

fn run_thrust(v: &Values) -> Result<Sheet, Failure> {
    let de = Length::from_si(v.si("outside_diameter"));
    let p = Pressure::from_si(v.si("pressure"));
    let refused = |e: &dyn std::fmt::Display| Failure::at("", e);
    let mut s = v.open();
    let n = end_thrust(p, de).map_err(|e| refused(&e))?.si();
    s.result("N", "thrust on a closed end", "p*pi/4*DE^2", n, unit::KN, STATICS);
    let force = match v.optional("bend_angle") {
        None => n,
        Some(theta) => {
            let bend = bend_thrust(p, de, Angle::from_si(theta));
            let f = bend.map_err(|e| Failure::at("bend_angle", e))?.si();
            s.result("F", "thrust along the bisector", "2*N*sin(theta/2)", f, unit::KN, STATICS)
        }
    };
    Ok(Sheet::new(&[("force", force)], s))
}

fn run_barrel(v: &Values) -> Result<Sheet, Failure> {
    let de = Length::from_si(v.si("outside_diameter"));
    let e = Length::from_si(v.si("wall_min"));
    let r = Pressure::from_si(v.si("proof_strength"));
    let f = barrel_axial_capacity(r, de, e).map_err(|e| Failure::at("wall_min", e))?.si();
    let mut s = v.open();
    s.result("F", "force at proof strength", "R*pi*(DE - e)*e", f, unit::KN, STATICS);
    Ok(Sheet::new(&[("force", f)], s))
}

fn run_proxy(v: &Values) -> Result<Sheet, Failure> {
    let de = Length::from_si(v.si("outside_diameter"));
    let pfa = Pressure::from_si(v.si("joint_pfa"));
    let pull = pull_from_pressure(pfa, de).map_err(|e| Failure::at("", e))?;
    let f = pull.value.si();
    let mut s = v.open();
    s.result("T", "permitted pull", "1.5*PFA*pi/4*DE^2", f, unit::KN, pull.source);
    Ok(Sheet::new(&[("force", f)], s))
}

fn run_offset(v: &Values) -> Result<Sheet, Failure> {
    let a = Length::from_si(v.si("laying_length"));
    let delta = Angle::from_si(v.si("joint_angle"));
    let offset = joint_offset(a, delta).map_err(|e| Failure::at("joint_angle", e))?.si();
    let exact = Source::new("plane geometry", Evidence::Derived);
    let mut s = v.open();
    s.result("y", "offset of the far end", "a*sin(delta)", offset, unit::MM, exact);
    Ok(Sheet::new(&[("offset", offset)], s))
}
