use fluid::{rock_fracture_limit, rock_joint_limit, tensile_limit, undrained_yield_anisotropic};
use quantity::unit;
use working::{Evidence, Source};

use super::limit::PORE;
use super::{KIRSCH, pressure, refused};
use crate::definition::{Input, Output, Range, Worksheet};
use crate::run::{Failure, Sheet, Values};

const ROCK: Source = Source::new(
    "Hubbert & Willis for intact rock; least stress on an open joint",
    Evidence::FromMemory,
);
static NONE: Source = Source::new("no tensile strength: the safe side", Evidence::Judgement);

const TENSILE: Input = Input::quantity(
    "tensile_strength",
    "T",
    "tensile strength of the ground",
    unit::KPA,
    Range::NotNegative,
)
.or("0 kPa", &NONE);

pub(super) static TENSILE_LIMIT: Worksheet = Worksheet {
    id: "tensile-limit",
    title: "pressure in the bore at which an elastic wall of soil cracks",
    inputs: &[
        Input::quantity(
            "effective_vertical",
            "sigma",
            "vertical effective stress",
            unit::KPA,
            Range::NotNegative,
        ),
        Input::quantity(
            "k0",
            "K0",
            "horizontal over vertical effective stress",
            unit::ONE,
            Range::Within(0.0, 10.0),
        ),
        PORE,
        TENSILE,
    ],
    outputs: &[
        Output::new("limit", "total pressure at which the wall cracks", unit::KPA),
        Output::new("place", "where it cracks: crown or springline", unit::ONE),
    ],
    source: KIRSCH,
    example: &[("effective_vertical", "97.14 kPa"), ("k0", "0.5"), ("pore_pressure", "58.86 kPa")],
    run: run_tensile,
};

fn run_tensile(v: &Values) -> Result<Sheet, Failure> {
    let mut s = v.open();
    let k0 = v.si("k0");
    let (sigma, u) = (pressure(v, "effective_vertical"), pressure(v, "pore_pressure"));
    let limit = tensile_limit(sigma, k0, u, pressure(v, "tensile_strength"))
        .map_err(|e| refused(&TENSILE_LIMIT, &e))?
        .si();
    let formula = "u + min(3*K0 - 1, 3 - K0)*sigma + T";
    s.result("p", "total pressure at which the wall cracks", formula, limit, unit::KPA, KIRSCH);
    let place = if k0 <= 1.0 { "crown" } else { "springline" };
    Ok(Sheet::new(&[("limit", limit)], s).with_word("place", place))
}

pub(super) static UNDRAINED_YIELD: Worksheet = Worksheet {
    id: "undrained-yield",
    title: "pressure in the bore at which clay under unequal stresses begins to yield",
    inputs: &[
        Input::quantity(
            "vertical_total",
            "sigma_v",
            "vertical total stress",
            unit::KPA,
            Range::NotNegative,
        ),
        Input::quantity(
            "horizontal_total",
            "sigma_h",
            "horizontal total stress",
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
    ],
    outputs: &[Output::new("limit", "total pressure at first yield", unit::KPA)],
    source: KIRSCH,
    example: &[
        ("vertical_total", "156 kPa"),
        ("horizontal_total", "109.2 kPa"),
        ("undrained_strength", "30 kPa"),
    ],
    run: run_yield,
};

fn run_yield(v: &Values) -> Result<Sheet, Failure> {
    let mut s = v.open();
    let limit = undrained_yield_anisotropic(
        pressure(v, "vertical_total"),
        pressure(v, "horizontal_total"),
        pressure(v, "undrained_strength"),
    )
    .map_err(|e| refused(&UNDRAINED_YIELD, &e))?
    .si();
    let formula = "s_u + (3*min(sigma_v, sigma_h) - max(sigma_v, sigma_h))/2";
    s.result("p", "total pressure at first yield", formula, limit, unit::KPA, KIRSCH);
    Ok(Sheet::new(&[("limit", limit)], s))
}

pub(super) static ROCK_LIMIT: Worksheet = Worksheet {
    id: "rock-limit",
    title: "pressure in the bore that cracks intact rock or opens its joints",
    inputs: &[
        Input::quantity(
            "least_stress",
            "sigma_min",
            "least total stress across the bore",
            unit::KPA,
            Range::NotNegative,
        ),
        Input::quantity(
            "greatest_stress",
            "sigma_max",
            "greatest total stress across the bore",
            unit::KPA,
            Range::NotNegative,
        ),
        PORE,
        TENSILE,
    ],
    outputs: &[
        Output::new("fracture", "total pressure that cracks intact rock", unit::KPA),
        Output::new("joint", "total pressure that opens a joint", unit::KPA),
    ],
    source: ROCK,
    example: &[
        ("least_stress", "109.2 kPa"),
        ("greatest_stress", "156 kPa"),
        ("pore_pressure", "58.86 kPa"),
        ("tensile_strength", "500 kPa"),
    ],
    run: run_rock,
};

fn run_rock(v: &Values) -> Result<Sheet, Failure> {
    let mut s = v.open();
    let fail = |e| refused(&ROCK_LIMIT, &e);
    let (min, max) = (pressure(v, "least_stress"), pressure(v, "greatest_stress"));
    let (u, t) = (pressure(v, "pore_pressure"), pressure(v, "tensile_strength"));
    let fracture = rock_fracture_limit(min, max, u, t).map_err(fail)?.si();
    let joint = rock_joint_limit(min).map_err(fail)?.si();
    let formula = "3*sigma_min - sigma_max - u + T";
    s.result("p_r", "cracks intact rock", formula, fracture, unit::KPA, ROCK);
    s.result("p_j", "opens a joint", "sigma_min", joint, unit::KPA, ROCK);
    Ok(Sheet::new(&[("fracture", fracture), ("joint", joint)], s))
}
