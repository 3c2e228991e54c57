use pipe::elastic_stretch;
use pull::published::barrel_bending_stress;
use quantity::{Force, ForcePerLength, Length, Pressure, unit};
use working::{Evidence, Source};

use super::refused;
use crate::definition::{Input, Output, Range, Worksheet};
use crate::run::{Failure, Sheet, Values};

const HOOKE: Source = Source::new("Hooke's law", Evidence::Derived);
const BEAM: Source = Source::new("simply supported beam", Evidence::Derived);

static IRON: Source =
    Source::new("modulus of ductile iron used by the standards of the pipe", Evidence::FromMemory);
static NO_PLAY: Source = Source::new("joints fully extended", Evidence::Judgement);

const OUTSIDE_DIAMETER: Input =
    Input::quantity("outside_diameter", "D", "outside diameter", unit::MM, Range::SIZE);
const WALL: Input = Input::quantity("wall", "t", "wall of the barrel", unit::MM, Range::SIZE);

pub(super) static STRETCH_SHEET: Worksheet = Worksheet {
    id: "stretch",
    title: "wall stress and lengthening of a pulled string",
    inputs: &[
        Input::quantity(
            "force",
            "F",
            "pull, the same along the string",
            unit::KN,
            Range::NotNegative,
        ),
        Input::quantity("length", "L", "length of the string", unit::M, Range::NotNegative),
        OUTSIDE_DIAMETER,
        WALL,
        Input::quantity("modulus", "E", "modulus of elasticity", unit::GPA, Range::Positive)
            .or("170 GPa", &IRON),
        Input::quantity("joints", "n", "number of joints", unit::ONE, Range::NotNegative)
            .or("0", &NO_PLAY),
        Input::quantity("joint_play", "p", "play of one joint", unit::MM, Range::SIZE_OR_NONE)
            .or("0 mm", &NO_PLAY),
    ],
    outputs: &[
        Output::new("stress", "tensile stress in the wall", unit::MPA),
        Output::new("elastic", "elastic stretch", unit::MM),
        Output::new("total", "elastic stretch and play of the joints", unit::MM),
    ],
    source: HOOKE,
    example: &[
        ("force", "500 kN"),
        ("length", "326 m"),
        ("outside_diameter", "635 mm"),
        ("wall", "9.9 mm"),
        ("joints", "54"),
        ("joint_play", "8 mm"),
    ],
    run: run_stretch,
};

fn run_stretch(v: &Values) -> Result<Sheet, Failure> {
    let elastic = elastic_stretch(
        Force::from_si(v.si("force")),
        Length::from_si(v.si("length")),
        Pressure::from_si(v.si("modulus")),
        Length::from_si(v.si("outside_diameter")),
        Length::from_si(v.si("wall")),
    )
    .map_err(|e| Failure::at("wall", e))?
    .si();
    let mut w = v.open();
    let stress = w.derive("s", "stress in the wall", "F/(pi*(D - t)*t)", unit::MPA, HOOKE);
    w.result("dL", "elastic stretch", "s*L/E", elastic, unit::MM, HOOKE);
    let total = w.derive("dS", "stretch and play", "dL + n*p", unit::MM, HOOKE);
    Ok(Sheet::new(&[("stress", stress), ("elastic", elastic), ("total", total)], w))
}

pub(super) static BARREL_BENDING: Worksheet = Worksheet {
    id: "barrel-bending",
    title: "bending stress of one barrel held at its ends",
    inputs: &[
        Input::quantity("middle_force", "F", "force at the middle", unit::KN, Range::NotNegative),
        Input::quantity(
            "load",
            "w",
            "line load across the barrel, its magnitude counts",
            unit::N_PER_M,
            Range::Any,
        ),
        Input::quantity("laying_length", "a", "laying length", unit::M, Range::Positive),
        OUTSIDE_DIAMETER,
        WALL,
    ],
    outputs: &[Output::new("stress", "bending stress", unit::MPA)],
    source: BEAM,
    example: &[
        ("middle_force", "17.45 kN"),
        ("load", "-1855.93 N/m"),
        ("laying_length", "6 m"),
        ("outside_diameter", "635 mm"),
        ("wall", "9.9 mm"),
    ],
    run: run_barrel_bending,
};

fn run_barrel_bending(v: &Values) -> Result<Sheet, Failure> {
    let stress = barrel_bending_stress(
        Force::from_si(v.si("middle_force")),
        ForcePerLength::from_si(v.si("load")),
        Length::from_si(v.si("laying_length")),
        Length::from_si(v.si("outside_diameter")),
        Length::from_si(v.si("wall")),
    )
    .map_err(|e| refused(&BARREL_BENDING, &e))?
    .si();
    let mut w = v.open();
    w.derive("I", "second moment of the wall's section, m4", "pi*(D - t)^3*t/8", unit::ONE, BEAM);
    let formula = "(F*a/4 + abs(w)*a^2/8)*D/(2*I)";
    w.result("s", "bending stress", formula, stress, unit::MPA, BEAM);
    Ok(Sheet::new(&[("stress", stress)], w))
}
