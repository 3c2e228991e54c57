use pull::published::{CAPSTAN, chain_capstan, joint_side_force};
use quantity::{Angle, Force, unit};

use super::refused;
use crate::definition::{Input, Output, Range, Worksheet};
use crate::run::{Failure, Sheet, Values};

pub(super) static CHAIN_CAPSTAN: Worksheet = Worksheet {
    id: "chain-capstan",
    title: "pull ahead over pull behind of a hinged chain on a bend",
    inputs: &[
        Input::quantity(
            "joints",
            "n",
            "number of joints on the bend",
            unit::ONE,
            Range::Within(1.0, 1e6),
        ),
        Input::quantity(
            "joint_angle",
            "delta",
            "angle at each joint",
            unit::DEG,
            Range::JOINT_ANGLE_OR_NONE,
        ),
        Input::quantity(
            "friction",
            "mu",
            "friction on the wall of the bore",
            unit::ONE,
            Range::Within(0.0, 1.0),
        ),
    ],
    outputs: &[
        Output::new("force_ratio", "pull ahead over pull behind of the chain", unit::ONE),
        Output::new("smooth_ratio", "the same of a rope around the same angle", unit::ONE),
    ],
    source: CAPSTAN.source(),
    example: &[("joints", "20"), ("joint_angle", "1.5 deg"), ("friction", "0.3")],
    run: run_chain_capstan,
};

fn run_chain_capstan(v: &Values) -> Result<Sheet, Failure> {
    let ratios =
        chain_capstan(v.si("joints"), Angle::from_si(v.si("joint_angle")), v.si("friction"))
            .map_err(|e| refused(&CHAIN_CAPSTAN, &e))?;
    let mut w = v.open();
    let one = "(cos(delta/2) + mu*sin(delta/2)) / (cos(delta/2) - mu*sin(delta/2))";
    w.derive("q", "ratio at one joint", one, unit::ONE, CAPSTAN.source());
    w.result("r", "force ratio of the chain", "q^n", ratios.chain, unit::ONE, CAPSTAN.source());
    w.result(
        "s",
        "force ratio of a rope",
        "exp(mu*n*delta)",
        ratios.smooth,
        unit::ONE,
        CAPSTAN.source(),
    );
    Ok(Sheet::new(&[("force_ratio", ratios.chain), ("smooth_ratio", ratios.smooth)], w))
}

pub(super) static JOINT_SIDE_FORCE: Worksheet = Worksheet {
    id: "joint-side-force",
    title: "force of one joint on the wall of the bore",
    inputs: &[
        Input::quantity("force", "T", "pull at the joint", unit::KN, Range::NotNegative),
        Input::quantity(
            "joint_angle",
            "delta",
            "angle at the joint",
            unit::DEG,
            Range::JOINT_ANGLE_OR_NONE,
        ),
    ],
    outputs: &[Output::new("side_force", "force across the string", unit::KN)],
    source: CAPSTAN.source(),
    example: &[("force", "500 kN"), ("joint_angle", "2 deg")],
    run: run_joint_side_force,
};

fn run_joint_side_force(v: &Values) -> Result<Sheet, Failure> {
    let side = joint_side_force(Force::from_si(v.si("force")), Angle::from_si(v.si("joint_angle")))
        .map_err(|e| refused(&JOINT_SIDE_FORCE, &e))?
        .si();
    let mut w = v.open();
    w.result("F", "force across the string", "2*T*sin(delta/2)", side, unit::KN, CAPSTAN.source());
    Ok(Sheet::new(&[("side_force", side)], w))
}
