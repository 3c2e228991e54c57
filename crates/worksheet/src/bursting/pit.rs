use pull::bursting::{PIPE_PIT, PLASTIC_PIT, RAMP_PIT, pipe_pit, pit_width, plastic_pit, ramp_pit};
use quantity::{Angle, Length, unit};
use working::{Evidence, Source};

use super::{LAYING_LENGTH, SOCKET, not_negative, size};
use crate::definition::{Input, Output, Range, Worksheet};
use crate::pulling::refused;
use crate::run::{Failure, Sheet, Values};

static MIDDLE: Source = Source::new(
    "middle of 0.5 to 1.0 m, which gives the 7 to 8 m that a manual states for 6 m pipe",
    Evidence::Judgement,
);
static SIDES: Source = Source::new("middle of 0.4 to 0.6 m", Evidence::FromMemory);
const FORUM: Source = Source::new("trade forum on tips for bursting", Evidence::Published);

const DEPTH: Input = Input::quantity("depth", "d", "depth of the invert", unit::M, Range::Positive);

pub(super) static BURST_PIT: Worksheet = Worksheet {
    id: "burst-pit",
    title: "launch pit for one pipe at a time",
    inputs: &[
        LAYING_LENGTH,
        not_negative("head_length", "L_h", "length of head and expander", unit::M)
            .or("0.75 m", &MIDDLE),
        not_negative("joint_space", "L_j", "space to make the joint", unit::M)
            .or("0.75 m", &MIDDLE),
        SOCKET,
        not_negative("side_space", "b", "space beside the socket, each side", unit::M)
            .or("0.5 m", &SIDES),
    ],
    outputs: &[
        Output::new("length", "length of the pit", unit::M),
        Output::new("width", "width of the pit", unit::M),
    ],
    source: PIPE_PIT.source(),
    example: &[("laying_length", "6 m"), ("socket_diameter", "239 mm")],
    run: run_pit,
};

fn run_pit(v: &Values) -> Result<Sheet, Failure> {
    let at = |e| refused(&BURST_PIT, &e);
    let metres = |key| Length::from_si(v.si(key));
    let length = pipe_pit(metres("laying_length"), metres("head_length"), metres("joint_space"))
        .map_err(at)?
        .si();
    let width = pit_width(metres("socket_diameter"), metres("side_space")).map_err(at)?.si();
    let mut w = v.open();
    w.result("L", "length of the pit", "L_p + L_h + L_j", length, unit::M, PIPE_PIT.source());
    w.result("B", "width of the pit", "D_s + 2*b", width, unit::M, PIPE_PIT.source());
    Ok(Sheet::new(&[("length", length), ("width", width)], w))
}

pub(super) static BURST_RAMP_PIT: Worksheet = Worksheet {
    id: "burst-ramp-pit",
    title: "ramp for a string of joined pipes",
    inputs: &[
        LAYING_LENGTH,
        Input::quantity(
            "joint_angle",
            "theta",
            "angle that a joint allows",
            unit::DEG,
            Range::JOINT_ANGLE,
        ),
        Input::quantity("depth", "d", "depth of the bore's axis", unit::M, Range::Positive),
    ],
    outputs: &[
        Output::new("radius", "radius that the joints allow", unit::M),
        Output::new("length", "horizontal length of the ramp", unit::M),
        Output::new("angle", "angle of the ramp at the surface", unit::DEG),
    ],
    source: RAMP_PIT.source(),
    example: &[("laying_length", "6 m"), ("joint_angle", "3 deg"), ("depth", "2 m")],
    run: run_ramp,
};

fn run_ramp(v: &Values) -> Result<Sheet, Failure> {
    let pit = ramp_pit(
        Length::from_si(v.si("laying_length")),
        Angle::from_si(v.si("joint_angle")),
        Length::from_si(v.si("depth")),
    )
    .map_err(|e| refused(&BURST_RAMP_PIT, &e))?;
    let (radius, length, angle) = (pit.radius.si(), pit.length.si(), pit.angle.si());
    let source = || RAMP_PIT.source();
    let mut w = v.open();
    let formula = "L_p/(2*sin(theta/2))";
    w.result("R", "radius that the joints allow", formula, radius, unit::M, source());
    let formula = "2*asin(sqrt(d/(2*R)))";
    w.result("beta", "angle at the surface", formula, angle, unit::DEG, source());
    w.result("S", "length of the ramp", "sqrt(2*R*d - d^2)", length, unit::M, source());
    Ok(Sheet::new(&[("radius", radius), ("length", length), ("angle", angle)], w))
}

pub(super) static BURST_PLASTIC_PIT: Worksheet = Worksheet {
    id: "burst-plastic-pit",
    title: "launch pit for a bent plastic string, to compare with",
    inputs: &[size("outside_diameter", "D", "outside diameter of the plastic pipe"), DEPTH],
    outputs: &[
        Output::new("length", "length of the pit", unit::M),
        Output::new("flat_length", "level part", unit::M),
        Output::new("ramp_length", "ramp", unit::M),
        Output::new("quick_length", "by the quick rule, 3 depths", unit::M),
    ],
    source: PLASTIC_PIT.source(),
    example: &[("outside_diameter", "18 in"), ("depth", "10 ft")],
    run: run_plastic,
};

fn run_plastic(v: &Values) -> Result<Sheet, Failure> {
    let pit =
        plastic_pit(Length::from_si(v.si("outside_diameter")), Length::from_si(v.si("depth")))
            .map_err(|e| refused(&BURST_PLASTIC_PIT, &e))?;
    let (flat, ramp) = (pit.flat.si(), pit.ramp.si());
    let (length, quick) = (pit.length.si(), pit.quick.si());
    let source = || PLASTIC_PIT.source();
    let mut w = v.open();
    w.result("L_1", "level part", "12*D", flat, unit::M, source());
    w.result("L_2", "ramp", "2.5*d", ramp, unit::M, source());
    w.result("L", "length of the pit", "L_1 + L_2", length, unit::M, source());
    w.result("L_q", "by the quick rule", "3*d", quick, unit::M, FORUM);
    Ok(Sheet::new(
        &[
            ("length", length),
            ("flat_length", flat),
            ("ramp_length", ramp),
            ("quick_length", quick),
        ],
        w,
    ))
}
