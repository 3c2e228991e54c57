use std::f64::consts::TAU;

use line::{
    Attitude, Steering, SurveyAccuracy, position_uncertainty, steer, survey_step, toolface,
};
use quantity::{Angle, Length, unit};
use working::{Builder, Evidence, Source};

use super::{EXACT, FULL_TURN, INCLINATION, NOT_VERTICAL};
use crate::definition::{Input, Output, Range, Worksheet};
use crate::run::{Failure, Sheet, Values};

const MINIMUM_CURVATURE: Source = Source::new(
    "minimum-curvature method of directional surveying, as in a published worked example; \
     half-angle form derived",
    Evidence::Published,
);

pub(super) static SURVEY_STEP: Worksheet = Worksheet {
    id: "survey-step",
    title: "displacement over a survey interval, minimum curvature",
    inputs: &[
        Input::quantity(
            "course_length",
            "s",
            "measured distance between the stations",
            unit::M,
            Range::Positive,
        ),
        Input::quantity(
            "inclination_from",
            "P1",
            "inclination from horizontal at the first station, up positive",
            unit::DEG,
            INCLINATION,
        ),
        Input::quantity("azimuth_from", "A1", "azimuth at the first station", unit::DEG, FULL_TURN),
        Input::quantity(
            "inclination_to",
            "P2",
            "inclination from horizontal at the second station, up positive",
            unit::DEG,
            INCLINATION,
        ),
        Input::quantity("azimuth_to", "A2", "azimuth at the second station", unit::DEG, FULL_TURN),
    ],
    outputs: &[
        Output::new("north", "displacement to the north", unit::M),
        Output::new("east", "displacement to the east", unit::M),
        Output::new("rise", "displacement upwards", unit::M),
        Output::new("dogleg", "angle between the two directions", unit::DEG),
        Output::new("radius", "radius of the arc, or the word straight", unit::M),
        Output::new("ratio_factor", "factor on the mean of the two directions", unit::ONE),
    ],
    source: MINIMUM_CURVATURE,
    example: &[
        ("course_length", "6 m"),
        ("inclination_from", "-12 deg"),
        ("azimuth_from", "40 deg"),
        ("inclination_to", "-10.5 deg"),
        ("azimuth_to", "41 deg"),
    ],
    run: step,
};

fn attitude(v: &Values, inclination: &str, azimuth: &str) -> Attitude {
    Attitude {
        inclination: Angle::from_si(v.si(inclination)),
        azimuth: Angle::from_si(v.si(azimuth)),
    }
}

fn both_ends(v: &Values) -> (Attitude, Attitude) {
    (attitude(v, "inclination_from", "azimuth_from"), attitude(v, "inclination_to", "azimuth_to"))
}

/// Adds the lines up to the dogleg, which the caller has computed.
fn show_dogleg(w: &mut Builder, dogleg: Angle) {
    let mut difference =
        |symbol, meaning, formula| w.derive(symbol, meaning, formula, unit::ONE, EXACT);
    difference("dN", "change of direction, north", "cos(P2)*cos(A2) - cos(P1)*cos(A1)");
    difference("dE", "change of direction, east", "cos(P2)*sin(A2) - cos(P1)*sin(A1)");
    difference("dV", "change of direction, up", "sin(P2) - sin(P1)");
    let formula = "2*asin(sqrt(dN^2 + dE^2 + dV^2)/2)";
    w.result("b", "dogleg", formula, dogleg.si(), unit::DEG, EXACT);
}

fn step(v: &Values) -> Result<Sheet, Failure> {
    let (from, to) = both_ends(v);
    let step = survey_step(Length::from_si(v.si("course_length")), from, to)
        .map_err(|e| Failure::at("inclination_to", e))?;
    let mut w = v.open();
    show_dogleg(&mut w, step.dogleg);
    let (meaning, factor) = ("ratio factor", step.ratio_factor);
    if step.radius.is_some() {
        w.result("RF", meaning, "2*tan(b/2)/b", factor, unit::ONE, MINIMUM_CURVATURE);
    } else {
        w.found("RF", meaning, "1 on a straight", factor, unit::ONE, MINIMUM_CURVATURE);
    }
    let (north, east, rise) = (step.north.si(), step.east.si(), step.rise.si());
    let mut put = |symbol, meaning, formula, value| {
        w.result(symbol, meaning, formula, value, unit::M, MINIMUM_CURVATURE)
    };
    put("N", "to the north", "s/2*RF*(cos(P1)*cos(A1) + cos(P2)*cos(A2))", north);
    put("E", "to the east", "s/2*RF*(cos(P1)*sin(A1) + cos(P2)*sin(A2))", east);
    put("Z", "upwards", "s/2*RF*(sin(P1) + sin(P2))", rise);
    let radius = step.radius.map(|radius| put("R", "radius", "s/b", radius.si()));
    w.derive("DLS", "turn over 30 m", "b*30/s", unit::DEG, EXACT);
    let mut outputs = vec![
        ("north", north),
        ("east", east),
        ("rise", rise),
        ("dogleg", step.dogleg.si()),
        ("ratio_factor", factor),
    ];
    Ok(match radius {
        Some(radius) => {
            outputs.push(("radius", radius));
            Sheet::new(&outputs, w)
        }
        None => Sheet::new(&outputs, w).with_word("radius", "straight"),
    })
}

const STEERING: Source = Source::new(
    "spherical trigonometry, exact; toolface 0 up, 90 deg right, 180 deg down, -90 deg left",
    Evidence::Derived,
);

pub(super) static STEER: Worksheet = Worksheet {
    id: "steer",
    title: "direction of the bore after a turn at a toolface",
    inputs: &[
        Input::quantity(
            "inclination_from",
            "P1",
            "inclination before, up positive",
            unit::DEG,
            NOT_VERTICAL,
        ),
        Input::quantity("azimuth_from", "A1", "azimuth before", unit::DEG, FULL_TURN),
        Input::quantity(
            "dogleg",
            "b",
            "angle turned",
            unit::DEG,
            Range::Within(0.0, std::f64::consts::FRAC_PI_2),
        ),
        Input::quantity("toolface", "T", "toolface, 0 up, right positive", unit::DEG, FULL_TURN),
    ],
    outputs: &[
        Output::new("inclination_to", "inclination after", unit::DEG),
        Output::new("azimuth_to", "azimuth after, 0 to 360 deg", unit::DEG),
    ],
    source: STEERING,
    example: &[
        ("inclination_from", "-12 deg"),
        ("azimuth_from", "30 deg"),
        ("dogleg", "2 deg"),
        ("toolface", "45 deg"),
    ],
    run: steering,
};

fn steering(v: &Values) -> Result<Sheet, Failure> {
    let from = attitude(v, "inclination_from", "azimuth_from");
    let turn = Steering {
        dogleg: Angle::from_si(v.si("dogleg")),
        toolface: Angle::from_si(v.si("toolface")),
    };
    let to = steer(from, turn).map_err(|e| Failure::at("inclination_from", e))?;
    let (inclination, azimuth) = (to.inclination.si(), to.azimuth.si());
    let mut w = v.open();
    let formula = "asin(sin(P1)*cos(b) + cos(P1)*sin(b)*cos(T))";
    w.result("P2", "inclination after", formula, inclination, unit::DEG, STEERING);
    let formula = "atan2(sin(b)*sin(T), cos(P1)*cos(b) - sin(P1)*sin(b)*cos(T))";
    let change = w.derive("dA", "change of azimuth", formula, unit::DEG, STEERING);
    let turns = ((azimuth - from.azimuth.si() - change) / TAU).round();
    let formula = if turns == 0.0 { "A1 + dA".into() } else { format!("A1 + dA + ({turns})*2*pi") };
    w.result("A2", "azimuth after", &formula, azimuth, unit::DEG, STEERING);
    Ok(Sheet::new(&[("inclination_to", inclination), ("azimuth_to", azimuth)], w))
}

pub(super) static TOOLFACE: Worksheet = Worksheet {
    id: "toolface",
    title: "toolface and dogleg from one direction to another",
    inputs: &[
        Input::quantity(
            "inclination_from",
            "P1",
            "inclination before, up positive",
            unit::DEG,
            NOT_VERTICAL,
        ),
        Input::quantity("azimuth_from", "A1", "azimuth before", unit::DEG, FULL_TURN),
        Input::quantity(
            "inclination_to",
            "P2",
            "inclination after, up positive",
            unit::DEG,
            NOT_VERTICAL,
        ),
        Input::quantity("azimuth_to", "A2", "azimuth after", unit::DEG, FULL_TURN),
    ],
    outputs: &[
        Output::new("toolface", "toolface, 0 up, right positive", unit::DEG),
        Output::new("dogleg", "angle turned", unit::DEG),
    ],
    source: STEERING,
    example: &[
        ("inclination_from", "-12 deg"),
        ("azimuth_from", "30 deg"),
        ("inclination_to", "-10.6 deg"),
        ("azimuth_to", "31.4 deg"),
    ],
    run: facing,
};

fn facing(v: &Values) -> Result<Sheet, Failure> {
    let (from, to) = both_ends(v);
    let turn = toolface(from, to).map_err(|e| Failure::at("inclination_to", e))?;
    let mut w = v.open();
    show_dogleg(&mut w, turn.dogleg);
    let formula = "atan2(cos(P2)*sin(A2 - A1), cos(P1)*sin(P2) - sin(P1)*cos(P2)*cos(A2 - A1))";
    let angle = turn.toolface.si();
    w.result("T", "toolface", formula, angle, unit::DEG, STEERING);
    Ok(Sheet::new(&[("toolface", angle), ("dogleg", turn.dogleg.si())], w))
}

static NOT_STATED: Source =
    Source::new("left out of the sum where nobody states it", Evidence::Judgement);
const PROPAGATION: Source = Source::new(
    "propagation of errors, exact for small angles; a minimum, survey tools have more terms",
    Evidence::Derived,
);

pub(super) static POSITION_UNCERTAINTY: Worksheet = Worksheet {
    id: "position-uncertainty",
    title: "spread of the bore's position at a measured distance",
    inputs: &[
        Input::quantity("distance", "s", "measured distance", unit::M, Range::NotNegative),
        Input::quantity(
            "azimuth_error",
            "sA",
            "azimuth error, the same all along, 1 sigma",
            unit::DEG,
            Range::NotNegative,
        ),
        Input::quantity(
            "inclination_error",
            "sP",
            "inclination error, the same all along, 1 sigma",
            unit::DEG,
            Range::NotNegative,
        ),
        Input::quantity(
            "entry_lateral",
            "eL",
            "lateral error of the entry point, 1 sigma",
            unit::M,
            Range::NotNegative,
        )
        .or("0 m", &NOT_STATED),
        Input::quantity(
            "entry_vertical",
            "eV",
            "error of the entry level, 1 sigma",
            unit::M,
            Range::NotNegative,
        )
        .or("0 m", &NOT_STATED),
        Input::quantity(
            "reading_error",
            "sR",
            "error of a single reading by chance, 1 sigma",
            unit::DEG,
            Range::NotNegative,
        )
        .or("0 deg", &NOT_STATED),
        Input::quantity("spacing", "D", "distance between readings", unit::M, Range::NotNegative)
            .or("0 m", &NOT_STATED),
    ],
    outputs: &[
        Output::new("lateral", "sideways, 1 sigma", unit::M),
        Output::new("vertical", "up and down, 1 sigma", unit::M),
    ],
    source: PROPAGATION,
    example: &[
        ("distance", "200 m"),
        ("azimuth_error", "0.484 deg"),
        ("inclination_error", "0.1 %"),
        ("reading_error", "0.1 deg"),
        ("spacing", "3 m"),
    ],
    run: uncertainty,
};

fn uncertainty(v: &Values) -> Result<Sheet, Failure> {
    let metres = |key| Length::from_si(v.si(key));
    let angle = |key| Angle::from_si(v.si(key));
    let accuracy = SurveyAccuracy {
        entry_lateral: metres("entry_lateral"),
        entry_vertical: metres("entry_vertical"),
        azimuth: angle("azimuth_error"),
        inclination: angle("inclination_error"),
        reading: angle("reading_error"),
        spacing: metres("spacing"),
    };
    let sigma = position_uncertainty(metres("distance"), &accuracy)
        .map_err(|e| Failure::at("distance", e))?;
    let (lateral, vertical) = (sigma.lateral.si(), sigma.vertical.si());
    let mut w = v.open();
    let formula = "sqrt(eL^2 + (s*sA)^2 + s*D*sR^2)";
    w.result("SL", "lateral", formula, lateral, unit::M, PROPAGATION);
    let formula = "sqrt(eV^2 + (s*sP)^2 + s*D*sR^2)";
    w.result("SV", "vertical", formula, vertical, unit::M, PROPAGATION);
    Ok(Sheet::new(&[("lateral", lateral), ("vertical", vertical)], w))
}
