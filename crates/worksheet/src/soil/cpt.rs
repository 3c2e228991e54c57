use ground::{
    CONE_FACTOR, REFERENCE_PRESSURE, friction_angle_cpt, shear_wave_velocity_cpt,
    undrained_strength_cpt,
};
use quantity::{Pressure, unit};
use working::{Evidence, Source};

use super::{EFFECTIVE, KULHAWY, REFERENCE, TIP, TOTAL};
use crate::definition::{Input, Output, Range, Worksheet};
use crate::run::{Failure, Sheet, Values};

const RAD: Source =
    Source::new("Rad & Lunne 1988, through an open geotechnical library", Evidence::Published);
const ROBERTSON: Source = Source::new(
    "Robertson & Cabal 2015, through an open geotechnical library",
    Evidence::Published,
);

pub(super) static CPT_FRICTION_ANGLE: Worksheet = Worksheet {
    id: "cpt-friction-angle",
    title: "friction angle of sand by the resistance of a cone",
    inputs: &[TIP, EFFECTIVE],
    outputs: &[Output::new("friction_angle", "effective friction angle", unit::DEG)],
    source: KULHAWY,
    example: &[("tip_resistance", "10 MPa"), ("effective_vertical", "100 kPa")],
    run: friction_angle,
};

pub(super) static CPT_UNDRAINED_STRENGTH: Worksheet = Worksheet {
    id: "cpt-undrained-strength",
    title: "undrained strength of clay by the resistance of a cone",
    inputs: &[
        TIP,
        TOTAL,
        Input::quantity(
            "cone_factor",
            "N_k",
            "cone factor, 10 to 20 where not calibrated on site",
            unit::ONE,
            Range::Within(5.0, 30.0),
        ),
    ],
    outputs: &[
        Output::new("strength", "undrained strength", unit::KPA),
        Output::new("least", "strength with the greatest published cone factor, 20", unit::KPA),
        Output::new("greatest", "strength with the least published cone factor, 10", unit::KPA),
    ],
    source: RAD,
    example: &[("tip_resistance", "1 MPa"), ("total_vertical", "100 kPa"), ("cone_factor", "15")],
    run: strength,
};

pub(super) static CPT_WAVE_SPEED: Worksheet = Worksheet {
    id: "cpt-wave-speed",
    title: "speed of shear waves by the resistance of a cone",
    inputs: &[
        TIP,
        TOTAL,
        Input::quantity(
            "behaviour_index",
            "I_c",
            "soil behaviour type index",
            unit::ONE,
            Range::Within(1.0, 4.0),
        ),
    ],
    outputs: &[Output::new("speed", "speed of shear waves", unit::M_PER_S)],
    source: ROBERTSON,
    example: &[
        ("tip_resistance", "5 MPa"),
        ("total_vertical", "100 kPa"),
        ("behaviour_index", "2"),
    ],
    run: wave_speed,
};

fn friction_angle(v: &Values) -> Result<Sheet, Failure> {
    let tip = Pressure::from_si(v.si("tip_resistance"));
    let stress = Pressure::from_si(v.si("effective_vertical"));
    let angle = friction_angle_cpt(tip, stress).map_err(|e| Failure::at("tip_resistance", e))?.si();
    let mut w = v.open();
    w.given_from("p_a", "reference pressure", REFERENCE_PRESSURE.si(), unit::KPA, REFERENCE);
    w.derive("Q", "normalised tip resistance", "q_t/p_a/sqrt(s_v/p_a)", unit::ONE, KULHAWY);
    let formula = "(17.6 + 11*log10(Q))*pi/180";
    w.result("phi", "friction angle", formula, angle, unit::DEG, KULHAWY);
    Ok(Sheet::new(&[("friction_angle", angle)], w))
}

fn strength(v: &Values) -> Result<Sheet, Failure> {
    let tip = Pressure::from_si(v.si("tip_resistance"));
    let total = Pressure::from_si(v.si("total_vertical"));
    let of = |factor| {
        undrained_strength_cpt(tip, total, factor)
            .map(Pressure::si)
            .map_err(|e| Failure::at("tip_resistance", e))
    };
    let (strength, least, greatest) =
        (of(v.si("cone_factor"))?, of(CONE_FACTOR.1)?, of(CONE_FACTOR.0)?);
    let mut w = v.open();
    w.result("s_u", "undrained strength", "(q_t - s_t)/N_k", strength, unit::KPA, RAD);
    w.given_from("N_max", "greatest published cone factor", CONE_FACTOR.1, unit::ONE, RAD);
    w.given_from("N_min", "least published cone factor", CONE_FACTOR.0, unit::ONE, RAD);
    w.result("s_min", "least strength", "(q_t - s_t)/N_max", least, unit::KPA, RAD);
    w.result("s_max", "greatest strength", "(q_t - s_t)/N_min", greatest, unit::KPA, RAD);
    Ok(Sheet::new(&[("strength", strength), ("least", least), ("greatest", greatest)], w))
}

fn wave_speed(v: &Values) -> Result<Sheet, Failure> {
    let tip = Pressure::from_si(v.si("tip_resistance"));
    let total = Pressure::from_si(v.si("total_vertical"));
    let speed = shear_wave_velocity_cpt(tip, total, v.si("behaviour_index"))
        .map_err(|e| Failure::at("tip_resistance", e))?
        .si();
    let mut w = v.open();
    w.given_from("p_a", "reference pressure", REFERENCE_PRESSURE.si(), unit::KPA, REFERENCE);
    let formula = "sqrt(10^(0.55*I_c + 1.68)*(q_t - s_t)/p_a)";
    w.result("V_s", "speed of shear waves", formula, speed, unit::M_PER_S, ROBERTSON);
    Ok(Sheet::new(&[("speed", speed)], w))
}
