use ground::{buried_displacement, greatest_surface_slope, surface_heave};
use quantity::{Length, unit};
use working::{Evidence, Source};

use super::{AXIS_DEPTH, OFFSET, VOLUME, volume};
use crate::definition::{Input, Output, Range, Worksheet};
use crate::run::{Failure, Sheet, Values};

const FIELD: Source = Source::new(
    "growing cylinder in an elastic half-space, after Sagaseta 1987 and Verruijt & Booker 1996",
    Evidence::Derived,
);
static UNDRAINED: Source = Source::new("ground keeps its volume", Evidence::Judgement);

const POISSON: Input =
    Input::quantity("poisson", "nu", "Poisson's ratio", unit::ONE, Range::Within(0.0, 0.5))
        .or("0.5", &UNDRAINED);

pub(super) static GROUND_HEAVE: Worksheet = Worksheet {
    id: "ground-heave",
    title: "movement of the surface above a volume gained (heave) or lost",
    inputs: &[
        volume("volume per length gained; negative: lost", VOLUME),
        AXIS_DEPTH,
        OFFSET,
        POISSON,
    ],
    outputs: &[
        Output::new("heave", "movement of the surface upwards", unit::MM),
        Output::new("sideways", "movement of the surface away from the axis", unit::MM),
    ],
    source: FIELD,
    example: &[("volume_per_length", "0.0354 m3/m"), ("axis_depth", "1.5 m"), ("offset", "0.75 m")],
    run: surface,
};

pub(super) static BURIED_DISPLACEMENT: Worksheet = Worksheet {
    id: "buried-displacement",
    title: "movement of a buried place beside a volume gained or lost",
    inputs: &[
        volume("volume per length gained; negative: lost", VOLUME),
        AXIS_DEPTH,
        OFFSET,
        Input::quantity(
            "depth",
            "z",
            "depth of the place below the surface",
            unit::M,
            Range::Within(0.0, 1000.0),
        ),
        POISSON,
    ],
    outputs: &[
        Output::new("up", "movement of the place upwards", unit::MM),
        Output::new("sideways", "movement of the place away from the axis", unit::MM),
    ],
    source: FIELD,
    example: &[
        ("volume_per_length", "0.0354 m3/m"),
        ("axis_depth", "1.5 m"),
        ("offset", "0.5 m"),
        ("depth", "1 m"),
    ],
    run: buried,
};

fn surface(v: &Values) -> Result<Sheet, Failure> {
    let (volume, nu) = (v.si("volume_per_length"), v.si("poisson"));
    let h = Length::from_si(v.si("axis_depth"));
    let refused = |e| Failure::at("axis_depth", e);
    let (up, side) =
        surface_heave(volume, h, Length::from_si(v.si("offset")), nu).map_err(refused)?;
    let (slope, place) = greatest_surface_slope(volume, h, nu).map_err(refused)?;
    let mut w = v.open();
    let formula = "2*(1 - nu)*V/pi*h/(x^2 + h^2)";
    w.result("s", "heave", formula, up.si(), unit::MM, FIELD);
    w.result("s_x", "movement sideways", "s*abs(x)/h", side.si(), unit::MM, FIELD);
    w.derive("s_0", "heave above the axis", "2*(1 - nu)*V/(pi*h)", unit::MM, FIELD);
    let formula = "3*sqrt(3)/8*abs(s_0)/h";
    w.result("j", "greatest slope of the surface", formula, slope, unit::PERCENT, FIELD);
    w.result("x_j", "its offset", "h/sqrt(3)", place.si(), unit::M, FIELD);
    Ok(Sheet::new(&[("heave", up.si()), ("sideways", side.si())], w))
}

fn buried(v: &Values) -> Result<Sheet, Failure> {
    let (volume, nu) = (v.si("volume_per_length"), v.si("poisson"));
    let h = Length::from_si(v.si("axis_depth"));
    // The surface above the axis is refused for the depth of the axis alone.
    surface_heave(volume, h, Length::ZERO, nu).map_err(|e| Failure::at("axis_depth", e))?;
    let (x, z) = (Length::from_si(v.si("offset")), Length::from_si(v.si("depth")));
    let (up, side) =
        buried_displacement(volume, h, x, z, nu).map_err(|e| Failure::at("depth", e))?;
    let mut w = v.open();
    w.derive("z_1", "depth below the axis", "z - h", unit::M, FIELD);
    w.derive("z_2", "depth below the image of the axis", "z + h", unit::M, FIELD);
    w.derive("q_1", "square of the distance from the axis", "x^2 + z_1^2", unit::M2, FIELD);
    w.derive("q_2", "square of the distance from the image", "x^2 + z_2^2", unit::M2, FIELD);
    let formula = "V/(2*pi)*(-z_1/q_1 - z_2/q_2 \
                   + 2*(2*(1 - nu)*z_2/q_2 - z*(x^2 - z_2^2)/(q_2*q_2)))";
    w.result("u_z", "movement upwards", formula, up.si(), unit::MM, FIELD);
    let formula = "V/(2*pi)*abs(x)*(1/q_1 + 1/q_2 + 2*((1 - 2*nu)/q_2 - 2*z*z_2/(q_2*q_2)))";
    w.result("u_x", "movement sideways", formula, side.si(), unit::MM, FIELD);
    Ok(Sheet::new(&[("up", up.si()), ("sideways", side.si())], w))
}
