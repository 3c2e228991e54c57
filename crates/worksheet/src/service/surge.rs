use pipe::WATER_DENSITY;
use quantity::{Length, Pressure, Velocity, unit};
use service::{Restraint, WATER_MODULUS, pressure_rise, wave_speed};
use working::{Evidence, Source};

use crate::definition::{Input, Output, Range, Worksheet};
use crate::run::{Failure, Sheet, Values};

const KORTEWEG: Source =
    Source::new("Korteweg and Joukowsky, in a solver's documentation", Evidence::Published);
const WATER: Source = Source::new("cold fresh water, handbook value", Evidence::FromMemory);
/// A wall of iron, m: no pipe has less than 1 mm. Judgement.
const WALL: Range = Range::Within(1e-3, 10.0);
static IRON: Source = Source::new("EN 545 handbooks", Evidence::FromMemory);
static POISSON: Source = Source::new("AWWA and surge guides", Evidence::FromMemory);

pub(super) static WAVE_SPEED: Worksheet = Worksheet {
    id: "wave-speed",
    title: "speed of a pressure wave, and the rise of a sudden stop",
    inputs: &[
        Input::quantity("inside_diameter", "D", "inside diameter", unit::MM, Range::SIZE),
        Input::quantity("wall", "e", "wall of the iron", unit::MM, WALL),
        Input::choice(
            "restraint",
            "unrestrained joints, anchored throughout (a pulled string), or anchored at one end",
            &["joints", "anchored", "one-end"],
        ),
        Input::quantity("modulus", "E", "modulus of the iron", unit::GPA, Range::Positive)
            .or("170 GPa", &IRON),
        Input::quantity("poisson", "nu", "Poisson's ratio", unit::ONE, Range::Within(0.0, 0.49))
            .or("0.28", &POISSON),
    ],
    outputs: &[
        Output::new("speed", "speed of the wave", unit::M_PER_S),
        Output::new("rise_per_velocity", "pressure rise of a change of 1 m/s", unit::KPA),
    ],
    source: KORTEWEG,
    example: &[("inside_diameter", "209.4 mm"), ("wall", "6.3 mm"), ("restraint", "joints")],
    run: run_wave,
};

fn run_wave(v: &Values) -> Result<Sheet, Failure> {
    let (restraint, factor) = match v.word("restraint") {
        "joints" => (Restraint::Joints, "1"),
        "anchored" => (Restraint::Anchored, "1 - nu^2"),
        _ => (Restraint::OneEnd, "1 - nu/2"),
    };
    let refused = |e| Failure::at("", e);
    let speed = wave_speed(
        Length::from_si(v.si("inside_diameter")),
        Length::from_si(v.si("wall")),
        Pressure::from_si(v.si("modulus")),
        v.si("poisson"),
        restraint,
    )
    .map_err(refused)?;
    let rise = pressure_rise(speed, Velocity::from_si(1.0)).map_err(refused)?.si();
    let mut s = v.open();
    s.given_from("K", "bulk modulus of water", WATER_MODULUS.si(), unit::GPA, WATER);
    s.given_from("rho", "density of water", WATER_DENSITY.si(), unit::KG_PER_M3, WATER);
    s.derive("c", "factor of the restraint", factor, unit::ONE, KORTEWEG);
    let formula = "sqrt(K/rho)/sqrt(1 + K/E*D/e*c)";
    s.result("a", "speed of the wave", formula, speed.si(), unit::M_PER_S, KORTEWEG);
    s.result("dp", "rise of a change of 1 m/s", "rho*a*1", rise, unit::KPA, KORTEWEG);
    Ok(Sheet::new(&[("speed", speed.si()), ("rise_per_velocity", rise)], s))
}
