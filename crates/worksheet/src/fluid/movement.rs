use fluid::{
    clinging_laminar, clinging_newtonian_exact, clinging_turbulent, piston_velocity, surge_velocity,
};
use quantity::{Velocity, unit};
use working::{Evidence, Source};

use super::{HOLE, STRING, VOLUMES, length, refused};
use crate::definition::{Input, Output, Range, Worksheet};
use crate::run::{Failure, Sheet, Values};

const GUO: Source = Source::new(
    "Guo & Liu, Applied Drilling Circulation Systems, eq. 2.80 to 2.83",
    Evidence::Published,
);
const COUETTE: Source =
    Source::new("Newtonian fluid dragged through an annulus, exact", Evidence::Derived);
static SLOW: Source = Source::new("pipe is pulled in slowly", Evidence::Judgement);

pub(super) static SURGE_VELOCITY: Worksheet = Worksheet {
    id: "surge-velocity",
    title: "velocity of the fluid around a closed string that moves along the bore",
    inputs: &[
        HOLE,
        STRING,
        Input::quantity(
            "string_velocity",
            "v_p",
            "speed of the string",
            unit::M_PER_MIN,
            Range::NotNegative,
        ),
        Input::choice(
            "clinging_law",
            "how the fluid clings to the string",
            &["laminar", "turbulent", "newtonian"],
        )
        .or("laminar", &SLOW),
    ],
    outputs: &[
        Output::new("displaced", "mean velocity of the displaced fluid", unit::M_PER_S),
        Output::new("clinging", "clinging factor", unit::ONE),
        Output::new("velocity", "velocity with which the loss is computed", unit::M_PER_S),
    ],
    source: GUO,
    example: &[
        ("hole_diameter", "500 mm"),
        ("string_diameter", "326 mm"),
        ("string_velocity", "3 m/min"),
    ],
    run: run_surge,
};

fn run_surge(v: &Values) -> Result<Sheet, Failure> {
    let mut s = v.open();
    let fail = |e| refused(&SURGE_VELOCITY, &e);
    let (hole, string) = (length(v, "hole_diameter"), length(v, "string_diameter"));
    let speed = Velocity::from_si(v.si("string_velocity"));
    let displaced = piston_velocity(hole, string, speed).map_err(fail)?.si();
    let k = s.derive("k", "diameter ratio", "D1/D2", unit::ONE, VOLUMES);
    let (kappa, formula, source) = match v.word("clinging_law") {
        "turbulent" => (clinging_turbulent(k), "0.1*k + 0.41", GUO),
        "newtonian" => {
            (clinging_newtonian_exact(k), "1/(-2*ln(k)) - 1/(exp(-2*ln(k)) - 1)", COUETTE)
        }
        _ => (clinging_laminar(k), "0.275*k + 0.25", GUO),
    };
    let kappa = kappa.map_err(|e| Failure::at("string_diameter", e))?;
    let velocity = surge_velocity(hole, string, speed, kappa).map_err(fail)?.si();
    s.result("kappa", "clinging factor", formula, kappa, unit::ONE, source);
    let formula = "v_p*D1^2/(D2^2 - D1^2)";
    s.result("v_a", "displaced fluid", formula, displaced, unit::M_PER_S, VOLUMES);
    s.result("v", "velocity for the loss", "v_a + kappa*v_p", velocity, unit::M_PER_S, GUO);
    Ok(Sheet::new(&[("displaced", displaced), ("clinging", kappa), ("velocity", velocity)], s))
}
