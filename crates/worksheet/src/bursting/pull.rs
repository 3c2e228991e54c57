use pull::bursting::{
    BURST_PULL, BurstFactors, BurstParts, CURVE, StringWeight, burst_pull, curve_factor,
    string_weight,
};
use quantity::{Angle, Force, ForcePerLength, Length, unit};
use working::{Evidence, Source};

use super::{FRICTION, LENGTH, not_negative};
use crate::definition::{Input, Output, Range, Worksheet};
use crate::pulling::refused;
use crate::run::{Failure, Sheet, Values};

static LEVEL: Source = Source::new("level line", Evidence::Judgement);
static STRAIGHT: Source = Source::new("straight line", Evidence::Judgement);
static LEFT_OUT: Source = Source::new("left out", Evidence::Judgement);
const STATICS: Source = Source::new("statics of a body on a slope", Evidence::Derived);

pub(super) static BURST_WEIGHT: Worksheet = Worksheet {
    id: "burst-weight",
    title: "pull of the string's own weight",
    inputs: &[
        Input::quantity(
            "net_weight",
            "w",
            "weight per length, net of buoyancy in a flooded hole; positive sinks",
            unit::N_PER_M,
            Range::Any,
        ),
        LENGTH,
        Input::quantity(
            "slope",
            "theta",
            "slope, positive where the string climbs in the pull",
            unit::DEG,
            Range::Between(-std::f64::consts::FRAC_PI_2, std::f64::consts::FRAC_PI_2),
        )
        .or("0 deg", &LEVEL),
        FRICTION,
    ],
    outputs: &[
        Output::new("friction_force", "friction of the weight", unit::KN),
        Output::new("along_force", "along the line, negative where it helps", unit::KN),
        Output::new("force", "both together", unit::KN),
    ],
    source: STATICS,
    example: &[("net_weight", "900 N/m"), ("length", "100 m"), ("friction", "0.3")],
    run: run_weight,
};

fn run_weight(v: &Values) -> Result<Sheet, Failure> {
    let weight = string_weight(
        ForcePerLength::from_si(v.si("net_weight")),
        Length::from_si(v.si("length")),
        Angle::from_si(v.si("slope")),
        v.si("friction"),
    )
    .map_err(|e| refused(&BURST_WEIGHT, &e))?;
    let (friction, along) = (weight.friction.si(), weight.along.si());
    let mut w = v.open();
    let formula = "mu*abs(w)*L*cos(theta)";
    w.result("F_f", "friction of the weight", formula, friction, unit::KN, STATICS);
    w.result("F_w", "along the line", "w*L*sin(theta)", along, unit::KN, STATICS);
    let force = w.derive("F", "both together", "F_f + F_w", unit::KN, STATICS);
    Ok(Sheet::new(&[("friction_force", friction), ("along_force", along), ("force", force)], w))
}

const fn turn(key: &'static str, symbol: &'static str, meaning: &'static str) -> Input {
    let range = Range::Within(0.0, std::f64::consts::TAU);
    Input::quantity(key, symbol, meaning, unit::DEG, range).or("0 deg", &STRAIGHT)
}

pub(super) static BURST_PULL_SHEET: Worksheet = Worksheet {
    id: "burst-pull",
    title: "what the string's joints and the rig carry",
    inputs: &[
        not_negative("breaking", "F_b", "breaking or splitting the old pipe", unit::KN),
        not_negative("cone", "F_c", "pushing the ground aside", unit::KN),
        not_negative("drag", "F_d", "friction of the ground on the string", unit::KN),
        not_negative("weight_friction", "F_f", "friction of the string's weight", unit::KN)
            .or("0 kN", &LEFT_OUT),
        Input::quantity(
            "weight_along",
            "F_w",
            "weight along the line, negative where it helps",
            unit::KN,
            Range::Any,
        )
        .or("0 kN", &LEFT_OUT),
        not_negative("rods", "F_t", "friction of the rods", unit::KN).or("0 kN", &LEFT_OUT),
        Input::quantity(
            "restart_factor",
            "k_r",
            "friction at restart over friction while moving, 1.2 to 1.5",
            unit::ONE,
            Range::Within(1.0, 10.0),
        ),
        turn("string_turn", "theta_s", "turns of the line behind the head"),
        turn("rod_turn", "theta_t", "turns of the line ahead of the head"),
        Input::quantity(
            "friction",
            "mu",
            "friction in the turns; needed where there are any",
            unit::ONE,
            Range::Within(0.0, 1.0),
        )
        .optional(),
    ],
    outputs: &[
        Output::new("string_force", "on the first joint behind the head", unit::KN),
        Output::new("head_force", "on the head: breaking and cone", unit::KN),
        Output::new("rig_force", "on the rig and its wall", unit::KN),
    ],
    source: BURST_PULL.source(),
    example: &[
        ("breaking", "320 kN"),
        ("cone", "21 kN"),
        ("drag", "67 kN"),
        ("restart_factor", "1.2"),
    ],
    run: run_pull,
};

fn run_pull(v: &Values) -> Result<Sheet, Failure> {
    let at = |e| refused(&BURST_PULL_SHEET, &e);
    let force = |key| Force::from_si(v.si(key));
    let (string_turn, rod_turn) =
        (Angle::from_si(v.si("string_turn")), Angle::from_si(v.si("rod_turn")));
    let mut w = v.open();
    let turns = string_turn.si() > 0.0 || rod_turn.si() > 0.0;
    let friction = match (v.optional("friction"), turns) {
        (Some(friction), _) => friction,
        (None, true) => v.needed("friction", "where the line turns")?,
        // Without turns it has no effect; the formula still wants a number.
        (None, false) => w.given_from("mu", "friction: no turn", 0.0, unit::ONE, STRAIGHT.clone()),
    };
    let string_curve = curve_factor(string_turn, friction).map_err(at)?;
    let rod_curve = curve_factor(rod_turn, friction).map_err(at)?;
    let parts = BurstParts {
        breaking: force("breaking"),
        cone: force("cone"),
        drag: force("drag"),
        weight: StringWeight { friction: force("weight_friction"), along: force("weight_along") },
        rods: force("rods"),
    };
    let factors = BurstFactors { restart: v.si("restart_factor"), string_curve, rod_curve };
    let pull = burst_pull(&parts, &factors).map_err(at)?;
    let (string, head, rig) = (pull.string.si(), pull.head.si(), pull.rig.si());
    let source = || BURST_PULL.source();
    let curve = || CURVE.source();
    let formula = "exp(mu*theta_s)";
    w.result("k_s", "curves behind the head", formula, string_curve, unit::ONE, curve());
    let formula = "exp(mu*theta_t)";
    w.result("k_t", "curves ahead of the head", formula, rod_curve, unit::ONE, curve());
    let formula = "(k_r*(F_d + F_f) + F_w)*k_s";
    w.result("F_s", "on the first joint behind the head", formula, string, unit::KN, source());
    w.result("F_h", "on the head", "F_b + F_c", head, unit::KN, source());
    let formula = "(F_s + F_h)*k_t + F_t";
    w.result("F_r", "on the rig and its wall", formula, rig, unit::KN, source());
    Ok(Sheet::new(&[("string_force", string), ("head_force", head), ("rig_force", rig)], w))
}
