use line::{barrel_tilt, bore_for_barrel, combined_radius, joint_polygon};
use quantity::{Angle, Length, unit};
use working::{Evidence, Source};

use super::{EXACT, NOT_VERTICAL};
use crate::definition::{Input, Output, Range, Worksheet};
use crate::run::{Failure, Sheet, Values};

pub(super) static JOINT_RADIUS: Worksheet = Worksheet {
    id: "joint-radius",
    title: "radius of a curve that turns every joint by an angle",
    inputs: &[
        Input::quantity(
            "laying_length",
            "a",
            "laying length of one pipe",
            unit::M,
            Range::Positive,
        ),
        Input::quantity(
            "joint_angle",
            "delta",
            "angle at each joint",
            unit::DEG,
            Range::JOINT_ANGLE,
        ),
    ],
    outputs: &[
        Output::new("radius", "radius of the circle through the joints", unit::M),
        Output::new("mid_offset", "offset of the barrel's middle from the circle", unit::MM),
    ],
    source: Source::new("chord of a circle, exact", Evidence::Derived),
    example: &[("laying_length", "6 m"), ("joint_angle", "3 deg")],
    run: joint_radius,
};

fn joint_radius(v: &Values) -> Result<Sheet, Failure> {
    let (a, delta) = (Length::from_si(v.si("laying_length")), Angle::from_si(v.si("joint_angle")));
    let polygon = joint_polygon(a, delta).map_err(|e| Failure::at("joint_angle", e))?;
    let mut w = v.open();
    let (radius, offset) = (polygon.radius.si(), polygon.mid_offset.si());
    w.result("R", "radius", "a / (2*sin(delta/2))", radius, unit::M, EXACT);
    w.result("m", "mid-barrel offset", "2*R*sin(delta/4)^2", offset, unit::MM, EXACT);
    Ok(Sheet::new(&[("radius", radius), ("mid_offset", offset)], w))
}

const COMBINED: Source = Source::new(
    "one manufacturer's trenchless manual (German edition), p. 50, for a level bore; \
     inclination derived",
    Evidence::Published,
);
static LEVEL_PLACE: Source =
    Source::new("the level place of a bend, where its radius is smallest", Evidence::Derived);

pub(super) static COMBINED_RADIUS: Worksheet = Worksheet {
    id: "combined-radius",
    title: "radius in space of a plan bend laid over a profile curve",
    inputs: &[
        Input::quantity("radius_vertical", "Rv", "radius in profile", unit::M, Range::Positive),
        Input::quantity(
            "radius_horizontal",
            "Rh",
            "radius of the plan line",
            unit::M,
            Range::Positive,
        ),
        Input::quantity("inclination", "P", "inclination at the place", unit::DEG, NOT_VERTICAL)
            .or("0 deg", &LEVEL_PLACE),
    ],
    outputs: &[Output::new("radius", "radius of the curve in space", unit::M)],
    source: COMBINED,
    example: &[("radius_vertical", "400 m"), ("radius_horizontal", "400 m")],
    run: combined,
};

fn combined(v: &Values) -> Result<Sheet, Failure> {
    let metres = |key| Length::from_si(v.si(key));
    let inclination = Angle::from_si(v.si("inclination"));
    let radius =
        combined_radius(metres("radius_vertical"), metres("radius_horizontal"), inclination)
            .map_err(|e| Failure::at("inclination", e))?
            .si();
    let mut w = v.open();
    w.result("R", "combined radius", "1/sqrt(1/Rv^2 + cos(P)^4/Rh^2)", radius, unit::M, COMBINED);
    Ok(Sheet::new(&[("radius", radius)], w))
}

pub(super) static BORE_FOR_BARREL: Worksheet = Worksheet {
    id: "bore-for-barrel",
    title: "smallest bore that a rigid barrel passes in a curve",
    inputs: &[
        Input::quantity(
            "barrel_diameter",
            "D",
            "outside diameter of the barrel",
            unit::MM,
            Range::SIZE,
        ),
        Input::quantity(
            "socket_diameter",
            "Ds",
            "outside diameter of the socket",
            unit::MM,
            Range::SIZE,
        ),
        Input::quantity(
            "laying_length",
            "a",
            "laying length of one pipe",
            unit::M,
            Range::Positive,
        ),
        Input::quantity("radius", "R", "radius of the bore axis", unit::M, Range::Positive),
    ],
    outputs: &[
        Output::new("bore_diameter", "bore diameter by the usual form", unit::MM),
        Output::new("bore_diameter_exact", "bore diameter by exact geometry", unit::MM),
        Output::new("smallest_bore", "bore that passes barrel and socket", unit::MM),
        Output::new("governs", "what decides the smallest bore", unit::ONE),
    ],
    source: EXACT,
    example: &[
        ("barrel_diameter", "635 mm"),
        ("socket_diameter", "742 mm"),
        ("laying_length", "6 m"),
        ("radius", "171.9 m"),
    ],
    run: barrel_bore,
};

fn barrel_bore(v: &Values) -> Result<Sheet, Failure> {
    let metres = |key| Length::from_si(v.si(key));
    let bore = bore_for_barrel(
        metres("barrel_diameter"),
        metres("socket_diameter"),
        metres("laying_length"),
        metres("radius"),
    )
    .map_err(|e| {
        let key = if e.quantity() == "radius" { "radius" } else { "socket_diameter" };
        Failure::at(key, e)
    })?;
    let (usual, exact) = (bore.bore_diameter.si(), bore.bore_diameter_exact.si());
    let smallest = bore.smallest_bore.si();
    let mut w = v.open();
    w.result("Db", "bore, usual form", "(D + Ds)/2 + a^2/(8*R)", usual, unit::MM, EXACT);
    let formula = "(D + Ds)/2 + a^2/(8*R + 2*(D + Ds))";
    w.result("Dx", "bore, exact", formula, exact, unit::MM, EXACT);
    w.result("Dm", "smallest bore", "max(Dx, Ds)", smallest, unit::MM, EXACT);
    let governs = if bore.curve_governs() { "curve" } else { "socket" };
    let outputs =
        [("bore_diameter", usual), ("bore_diameter_exact", exact), ("smallest_bore", smallest)];
    Ok(Sheet::new(&outputs, w).with_word("governs", governs))
}

pub(super) static BARREL_TILT: Worksheet = Worksheet {
    id: "barrel-tilt",
    title: "angle at which a barrel lies from corner to corner of a wider bore",
    inputs: &[
        Input::quantity("bore_diameter", "Db", "diameter of the bore", unit::MM, Range::SIZE),
        Input::quantity(
            "socket_diameter",
            "Ds",
            "outside diameter of the socket",
            unit::MM,
            Range::SIZE,
        ),
        Input::quantity(
            "laying_length",
            "a",
            "laying length of one pipe",
            unit::M,
            Range::Positive,
        ),
    ],
    outputs: &[
        Output::new("tilt", "angle between bore and barrel", unit::DEG),
        Output::new("joint_angle", "joint between two that lie in opposite senses", unit::DEG),
    ],
    source: EXACT,
    example: &[
        ("bore_diameter", "1113 mm"),
        ("socket_diameter", "742 mm"),
        ("laying_length", "6 m"),
    ],
    run: tilt,
};

fn tilt(v: &Values) -> Result<Sheet, Failure> {
    let metres = |key| Length::from_si(v.si(key));
    let tilt =
        barrel_tilt(metres("bore_diameter"), metres("socket_diameter"), metres("laying_length"))
            .map_err(|e| Failure::at("socket_diameter", e))?
            .si();
    let mut w = v.open();
    w.result("t", "tilt", "atan((Db - Ds)/a)", tilt, unit::DEG, EXACT);
    let joint = w.derive("delta", "joint in a zigzag", "2*t", unit::DEG, EXACT);
    Ok(Sheet::new(&[("tilt", tilt), ("joint_angle", joint)], w))
}
