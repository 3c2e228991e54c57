use pipe::EN545_MODULUS;
use quantity::{Length, Pressure, unit};
use service::{
    Ovality, RING_YIELD, allowable_ovality, effective_wall, ovality_stress, ovality_under_load,
    ring_buckling, ring_stiffness,
};
use working::{Builder, Evidence, Source};

use crate::definition::{Input, Output, Range, Worksheet};
use crate::run::{Failure, Sheet, Values};

const RINGS: Source = Source::new("theory of thin rings", Evidence::Derived);
const ANNEX_C: Source = Source::new("EN 545:2010 annex C", Evidence::FromMemory);
const ANNEX_F: Source = Source::new("EN 545:2010 annex F", Evidence::FromMemory);
static IRON: Source = Source::new("EN 545 handbooks", Evidence::FromMemory);
static POISSON: Source = Source::new("AWWA and surge guides", Evidence::FromMemory);
static ROUND: Source = Source::new("round pipe", Evidence::Judgement);
static LINE_SUPPORT: Source = Source::new("line support in a bore", Evidence::FromMemory);
static NO_SOIL: Source = Source::new("bore full of fluid", Evidence::Judgement);

const OUTSIDE: Input =
    Input::quantity("outside_diameter", "DE", "outside diameter", unit::MM, Range::SIZE);
/// A least wall, m: a thinner one is a slip of the unit. Judgement.
const THIN: Range = Range::Within(0.5e-3, 10.0);
const WALL: Input = Input::quantity("wall_min", "e_min", "minimum wall", unit::MM, THIN);
const NOMINAL: Input = Input::quantity(
    "nominal_diameter",
    "DN",
    "nominal diameter, for the tolerance; a bare number is in mm",
    unit::MM,
    Range::SIZE,
)
.bare(unit::MM);

pub(super) static RING_BUCKLING: Worksheet = Worksheet {
    id: "ring-buckling",
    title: "pressure from outside at which a free ring buckles",
    inputs: &[
        OUTSIDE,
        WALL,
        Input::quantity("modulus", "E", "modulus of the iron", unit::GPA, Range::Positive)
            .or("170 GPa", &IRON),
        Input::quantity("poisson", "nu", "Poisson's ratio", unit::ONE, Range::Within(0.0, 0.49))
            .or("0.28", &POISSON),
        Input::quantity("ovality", "d", "ovality", unit::PERCENT, Range::Within(0.0, 0.5))
            .or("0 %", &ROUND),
    ],
    outputs: &[Output::new("pressure", "buckling pressure, without safety", unit::KPA)],
    source: RINGS,
    example: &[("outside_diameter", "945 mm"), ("wall_min", "8.4 mm")],
    run: run_buckling,
};

pub(super) static RING_STIFFNESS: Worksheet = Worksheet {
    id: "ring-stiffness",
    title: "ring stiffness and allowable ovality (EN 545)",
    inputs: &[OUTSIDE, WALL, NOMINAL],
    outputs: &[
        Output::new("effective_wall", "wall that stands for the whole ring", unit::MM),
        Output::new("stiffness", "diametral ring stiffness", unit::KPA),
        Output::new(
            "allowable_ovality",
            "by ring bending, at most 4 % for the lining",
            unit::PERCENT,
        ),
    ],
    source: ANNEX_C,
    example: &[
        ("outside_diameter", "326 mm"),
        ("wall_min", "4.6 mm"),
        ("nominal_diameter", "300 mm"),
    ],
    run: run_stiffness,
};

pub(super) static OVALITY: Worksheet = Worksheet {
    id: "ovality",
    title: "ovality of the ring under earth and traffic (EN 545)",
    inputs: &[
        OUTSIDE,
        WALL,
        NOMINAL,
        Input::quantity("earth_pressure", "p_e", "earth pressure", unit::KPA, Range::NotNegative),
        Input::quantity("traffic_pressure", "p_t", "traffic", unit::KPA, Range::NotNegative)
            .or("0 kPa", &NO_SOIL),
        Input::quantity("bedding_factor", "K", "bedding factor", unit::ONE, Range::Positive)
            .or("0.11", &LINE_SUPPORT),
        Input::quantity("soil_modulus", "E1", "soil reaction E'", unit::KPA, Range::NotNegative)
            .or("0 kPa", &NO_SOIL),
    ],
    outputs: &[
        Output::new("ovality", "ovality under the load", unit::PERCENT),
        Output::new("allowable_ovality", "allowable ovality", unit::PERCENT),
        Output::new("stress", "bending stress of the ring at this ovality", unit::MPA),
    ],
    source: ANNEX_F,
    example: &[
        ("outside_diameter", "326 mm"),
        ("wall_min", "4.6 mm"),
        ("nominal_diameter", "300 mm"),
        ("earth_pressure", "24 kPa"),
        ("traffic_pressure", "47 kPa"),
        ("bedding_factor", "0.105"),
        ("soil_modulus", "2000 kPa"),
    ],
    run: run_ovality,
};

fn run_buckling(v: &Values) -> Result<Sheet, Failure> {
    let p = ring_buckling(
        Length::from_si(v.si("outside_diameter")),
        Length::from_si(v.si("wall_min")),
        Pressure::from_si(v.si("modulus")),
        v.si("poisson"),
        v.si("ovality"),
    )
    .map_err(|e| Failure::at("wall_min", e))?
    .si();
    let mut s = v.open();
    let plastic = Source::new("practice for plastic pipe", Evidence::FromMemory);
    s.derive("f_o", "ovality factor", "((1 - d)/(1 + d)^2)^3", unit::ONE, plastic);
    let formula = "2*E/(1 - nu^2)*(e_min/(DE - e_min))^3*f_o";
    s.result("p_cr", "buckling pressure", formula, p, unit::KPA, RINGS);
    Ok(Sheet::new(&[("pressure", p)], s))
}

/// Effective wall, stiffness and allowable ovality, with their steps.
struct Ring {
    wall: Length,
    stiffness: Pressure,
    allowable: f64,
}

fn ring(v: &Values, s: &mut Builder) -> Result<Ring, Failure> {
    let de = Length::from_si(v.si("outside_diameter"));
    let min = Length::from_si(v.si("wall_min"));
    let refused = |e| Failure::at("wall_min", e);
    let wall = effective_wall(min, Length::from_si(v.si("nominal_diameter"))).map_err(refused)?;
    let stiffness = ring_stiffness(de, wall).map_err(refused)?;
    let allowable = allowable_ovality(de, wall).map_err(refused)?;
    s.given_from("E", "modulus of the iron", EN545_MODULUS.si(), unit::GPA, IRON.clone());
    s.given_from("R_f", "ring yield strength", RING_YIELD.si(), unit::MPA, ANNEX_C);
    let formula = "e_min + 0.5*(0.0013 + 0.001*DN)";
    s.result("e_s", "effective wall", formula, wall.si(), unit::MM, ANNEX_C);
    let formula = "E/12*(e_s/(DE - e_s))^3";
    s.result("S", "ring stiffness", formula, stiffness.si(), unit::KPA, ANNEX_C);
    let formula = "min(R_f*(DE - e_s)/(1.5*E*e_s*3.5), 0.04)";
    s.result("delta_a", "allowable ovality", formula, allowable, unit::PERCENT, ANNEX_C);
    Ok(Ring { wall, stiffness, allowable })
}

fn run_stiffness(v: &Values) -> Result<Sheet, Failure> {
    let mut s = v.open();
    let r = ring(v, &mut s)?;
    Ok(Sheet::new(
        &[
            ("effective_wall", r.wall.si()),
            ("stiffness", r.stiffness.si()),
            ("allowable_ovality", r.allowable),
        ],
        s,
    ))
}

fn run_ovality(v: &Values) -> Result<Sheet, Failure> {
    let mut s = v.open();
    let r = ring(v, &mut s)?;
    let refused = |e| Failure::at("", e);
    let ovality = ovality_under_load(&Ovality {
        stiffness: r.stiffness,
        earth: Pressure::from_si(v.si("earth_pressure")),
        traffic: Pressure::from_si(v.si("traffic_pressure")),
        bedding_factor: v.si("bedding_factor"),
        soil_modulus: Pressure::from_si(v.si("soil_modulus")),
    })
    .map_err(refused)?;
    let de = Length::from_si(v.si("outside_diameter"));
    let stress = ovality_stress(de, r.wall, ovality).map_err(refused)?.si();
    let formula = "K*(p_e + p_t)/(8*S + 0.061*E1)";
    s.result("delta", "ovality under the load", formula, ovality, unit::PERCENT, ANNEX_F);
    let formula = "3.5*E*e_s/(DE - e_s)*delta";
    s.result("sigma", "bending stress", formula, stress, unit::MPA, ANNEX_F);
    Ok(Sheet::new(
        &[("ovality", ovality), ("allowable_ovality", r.allowable), ("stress", stress)],
        s,
    ))
}
