use std::f64::consts::FRAC_PI_2;

use pull::published::{
    Arc, ArcForces, BendPlane, Contact, STIFF_PIPE, StiffPipe, arc_stiff, straight,
};
use quantity::{Angle, Force, ForcePerLength, Length, Pressure, unit};
use working::{Builder, Evidence, Source};

use super::refused;
use crate::definition::{Input, Output, Range, Worksheet};
use crate::run::{Failure, Sheet, Values};

const STATICS: Source = Source::new("statics of a body on a slope", Evidence::Derived);
const BEAM: Source = Source::new("beam on three supports under tension", Evidence::Derived);
const GEOMETRY: Source = Source::new("geometry of the circle", Evidence::Derived);

static NO_PULL_BEHIND: Source =
    Source::new("tail of the string free, as at the bore mouth", Evidence::Judgement);
static SAG_BEND: Source =
    Source::new("both bends of an ordinary crossing are sag bends", Evidence::Judgement);

const OUTSIDE_DIAMETER: Input =
    Input::quantity("outside_diameter", "D", "outside diameter of the pipe", unit::MM, Range::SIZE);
const NET_WEIGHT: Input = Input::quantity(
    "net_weight",
    "w",
    "net weight in the fluid, positive sinks",
    unit::N_PER_M,
    Range::Any,
);
const FRICTION: Input = Input::quantity(
    "friction",
    "mu",
    "friction on the wall of the bore",
    unit::ONE,
    Range::Within(0.0, 1.0),
);
const FLUID_STRESS: Input = Input::quantity(
    "fluid_stress",
    "tau",
    "shear stress of the fluid on the pipe",
    unit::PA,
    Range::NotNegative,
);

pub(super) static PULL_STRAIGHT: Worksheet = Worksheet {
    id: "pull-straight",
    title: "pull over a straight, level or inclined",
    inputs: &[
        OUTSIDE_DIAMETER,
        NET_WEIGHT,
        Input::quantity("length", "L", "length of the straight", unit::M, Range::NotNegative),
        Input::quantity(
            "inclination",
            "theta",
            "inclination, positive where the pipe climbs in the direction of the pull",
            unit::DEG,
            Range::Between(-FRAC_PI_2, FRAC_PI_2),
        ),
        Input::quantity("force_in", "T1", "pull behind the straight", unit::KN, Range::Any)
            .or("0 kN", &NO_PULL_BEHIND),
        FRICTION,
        FLUID_STRESS,
    ],
    outputs: &[
        Output::new("weight_friction", "friction of the net weight", unit::KN),
        Output::new("drag", "drag of the fluid", unit::KN),
        Output::new("weight_along", "net weight along the pipe, negative helps", unit::KN),
        Output::new("force_out", "pull ahead of the straight", unit::KN),
    ],
    source: STIFF_PIPE.source(),
    example: &[
        ("outside_diameter", "635 mm"),
        ("net_weight", "-1000 N/m"),
        ("length", "60 m"),
        ("inclination", "-10 deg"),
        ("friction", "0.3"),
        ("fluid_stress", "50 Pa"),
    ],
    run: run_straight,
};

fn contact(v: &Values) -> Contact {
    Contact { friction: v.si("friction"), fluid_stress: Pressure::from_si(v.si("fluid_stress")) }
}

fn run_straight(v: &Values) -> Result<Sheet, Failure> {
    let pipe = StiffPipe {
        outside_diameter: Length::from_si(v.si("outside_diameter")),
        // A straight has no use for wall and stiffness.
        wall: Length::ZERO,
        modulus: Pressure::ZERO,
        net_weight: ForcePerLength::from_si(v.si("net_weight")),
    };
    let f = straight(
        &pipe,
        &contact(v),
        Force::from_si(v.si("force_in")),
        Length::from_si(v.si("length")),
        Angle::from_si(v.si("inclination")),
    )
    .map_err(|e| refused(&PULL_STRAIGHT, &e))?;
    let mut w = v.open();
    let mut step = |symbol, meaning, formula, force: Force| {
        w.result(symbol, meaning, formula, force.si(), unit::KN, STATICS)
    };
    let rub =
        step("F_w", "friction of the net weight", "mu*abs(w)*L*cos(theta)", f.weight_friction);
    let drag = step("F_d", "drag of the fluid", "pi*D*L*tau", f.drag);
    let along = step("F_s", "net weight along the pipe", "w*L*sin(theta)", f.weight_along);
    let out = step("T2", "pull ahead", "T1 + F_w + F_d + F_s", f.force_out);
    Ok(Sheet::new(
        &[("weight_friction", rub), ("drag", drag), ("weight_along", along), ("force_out", out)],
        w,
    ))
}

pub(super) static PULL_ARC_STIFF: Worksheet = Worksheet {
    id: "pull-arc-stiff",
    title: "pull over an arc, the pipe as a stiff beam",
    inputs: &[
        OUTSIDE_DIAMETER,
        Input::quantity("wall", "t", "wall that carries bending", unit::MM, Range::SIZE),
        Input::quantity("modulus", "E", "modulus of elasticity", unit::GPA, Range::Positive),
        Input::quantity("radius", "R", "radius of the arc", unit::M, Range::Positive),
        Input::quantity(
            "arc_angle",
            "a",
            "angle between the ends of the arc",
            unit::DEG,
            Range::Above(0.0, FRAC_PI_2),
        ),
        Input::quantity("force_in", "T1", "pull behind the arc", unit::KN, Range::NotNegative),
        NET_WEIGHT,
        Input::quantity(
            "mean_inclination",
            "theta",
            "mean inclination of the arc, its sense given by direction",
            unit::DEG,
            Range::Within(0.0, 1.57),
        ),
        FRICTION,
        FLUID_STRESS,
        Input::choice("direction", "whether the pipe moves up or down", &["up", "down"]),
        Input::choice("plane", "plane and sense of the bend", &["sag", "over", "plan"])
            .or("sag", &SAG_BEND),
    ],
    outputs: &[
        Output::new("force_out", "pull ahead of the arc", unit::KN),
        Output::new("centre_reaction", "force of the bore at the middle of the arc", unit::KN),
    ],
    source: STIFF_PIPE.source(),
    example: &[
        ("outside_diameter", "610 mm"),
        ("wall", "12.7 mm"),
        ("modulus", "207 GPa"),
        ("radius", "732 m"),
        ("arc_angle", "10 deg"),
        ("force_in", "524.68 kN"),
        ("net_weight", "-1600 N/m"),
        ("mean_inclination", "5 deg"),
        ("friction", "0.3"),
        ("fluid_stress", "345 Pa"),
        ("direction", "up"),
    ],
    run: run_arc_stiff,
};

/// Below this slenderness X and Y are differences of nearly equal numbers that no longer recompute from their
/// formulas; the working then names the limit instead.
const SLENDER: f64 = 2e-3;

fn run_arc_stiff(v: &Values) -> Result<Sheet, Failure> {
    let up = v.word("direction") == "up";
    let plane = match v.word("plane") {
        "over" => BendPlane::Over,
        "plan" => BendPlane::Plan,
        _ => BendPlane::Sag,
    };
    let pipe = StiffPipe {
        outside_diameter: Length::from_si(v.si("outside_diameter")),
        wall: Length::from_si(v.si("wall")),
        modulus: Pressure::from_si(v.si("modulus")),
        net_weight: ForcePerLength::from_si(v.si("net_weight")),
    };
    let inclination = if up { v.si("mean_inclination") } else { -v.si("mean_inclination") };
    let arc = Arc {
        radius: Length::from_si(v.si("radius")),
        angle: Angle::from_si(v.si("arc_angle")),
        mean_inclination: Angle::from_si(inclination),
        plane,
    };
    let f = arc_stiff(&pipe, &contact(v), Force::from_si(v.si("force_in")), &arc)
        .map_err(|e| refused(&PULL_ARC_STIFF, &e))?;
    let mut w = v.open();
    let formula = if up { "theta" } else { "-theta" };
    w.result("i", "inclination, positive climbs", formula, inclination, unit::DEG, GEOMETRY);
    w.result("L", "length of the arc", "R*a", f.length.si(), unit::M, GEOMETRY);
    let h = f.mid_ordinate.si();
    w.result("h", "mid-ordinate, R*(1 - cos(a/2))", "2*R*sin(a/4)^2", h, unit::M, GEOMETRY);
    let second_moment = "pi*(D - t)^3*t/8";
    w.derive("I", "second moment of the wall's section, m4", second_moment, unit::ONE, BEAM);
    let mean = f.mean_force.si();
    let how = "(T1 + T2)/2, with T2 from the last line put in again until it stands still";
    w.found("T", "mean pull in the arc", how, mean, unit::KN, STIFF_PIPE.source());
    levers(&mut w, &f);
    let reaction = match plane {
        BendPlane::Sag => "(T*h - w*cos(i)*Y)/X",
        BendPlane::Over => "(T*h + w*cos(i)*Y)/X",
        BendPlane::Plan => "T*h/X",
    };
    let n = f.centre_reaction.si();
    let meaning = "force of the bore at the middle";
    if slenderness(&f) > SLENDER {
        w.result("N", meaning, reaction, n, unit::KN, BEAM);
    } else {
        let how = "limit of the formula for a pipe without pull, 48*E*I*h/L^3 less 5/8 of the load";
        w.found("N", meaning, how, n, unit::KN, BEAM);
    }
    w.derive("F_N", "friction of the three reactions", "2*mu*abs(N)", unit::KN, BEAM);
    w.derive("F_d", "drag of the fluid", "pi*D*L*tau", unit::KN, STIFF_PIPE.source());
    let out = match plane {
        BendPlane::Plan => "T1 + 2*mu*abs(N) + mu*abs(w)*L*cos(i) + pi*D*L*tau + w*L*sin(i)",
        _ => "T1 + 2*mu*abs(N) + pi*D*L*tau + w*L*sin(i)",
    };
    w.result("T2", "pull ahead", out, f.force_out.si(), unit::KN, STIFF_PIPE.source());
    Ok(Sheet::new(&[("force_out", f.force_out.si()), ("centre_reaction", n)], w))
}

fn slenderness(f: &ArcForces) -> f64 {
    f.stiffness_length.map_or(0.0, |j| f.length / j)
}

fn levers(w: &mut Builder, f: &ArcForces) {
    let (x, y) = (f.force_lever.si(), f.load_lever.si());
    let (lever, of_load) = ("lever of the middle force", "lever of the weight");
    if slenderness(f) > SLENDER {
        w.derive("j", "length of the beam's stiffness", "sqrt(E*I/T)", unit::M, BEAM);
        w.derive("U", "slenderness", "L/j", unit::ONE, BEAM);
        w.result("X", lever, "L/4 - j/2*tanh(U/2)", x, unit::M, BEAM);
        w.result("Y", of_load, "L^2/8 - j^2*(1 - 1/cosh(U/2))", y, unit::M2, BEAM);
    } else {
        let how = "first term of the series in U = L/sqrt(E*I/T), which is nearly zero";
        w.found("X", lever, how, x, unit::M, BEAM);
        w.found("Y", of_load, how, y, unit::M2, BEAM);
    }
}

#[cfg(test)]
mod tests {
    use crate::{evaluate, find};

    fn given(changes: &[(&'static str, &'static str)]) -> Vec<(&'static str, &'static str)> {
        let sheet = find("pull-arc-stiff").unwrap();
        let mut given = sheet.example.to_vec();
        for (key, text) in changes {
            given.retain(|(k, _)| k != key);
            given.push((key, text));
        }
        given
    }

    #[test]
    fn working_recomputes_in_every_plane_direction_and_limit() {
        let sheet = find("pull-arc-stiff").unwrap();
        for changes in [
            &[("plane", "over"), ("direction", "down")][..],
            &[("plane", "plan"), ("net_weight", "965 N/m")],
            &[("modulus", "1 Pa")],
            &[("arc_angle", "0.01 deg"), ("force_in", "1 N")],
            &[("force_in", "0 N"), ("friction", "0"), ("fluid_stress", "0"), ("net_weight", "0")],
            &[("arc_angle", "90 deg"), ("friction", "1"), ("mean_inclination", "45 deg")],
        ] {
            let worked = evaluate(sheet, &given(changes)).unwrap();
            let (difference, symbol) = worked.working.largest_difference().unwrap();
            assert!(difference < 1e-6, "{changes:?}: {symbol} differs by {difference:e}");
        }
    }

    #[test]
    fn an_arc_narrower_than_the_pipe_is_refused_at_its_radius() {
        let sheet = find("pull-arc-stiff").unwrap();
        let errors = evaluate(sheet, &given(&[("radius", "0.1 m")])).unwrap_err();
        let text = errors[0].to_string();
        assert_eq!(errors[0].key(), "radius");
        assert!(text.contains("greater than 0."), "{text}");
        assert!(!text.contains("inf"), "{text}");
    }

    #[test]
    fn a_pipe_that_runs_down_by_itself_is_refused() {
        let sheet = find("pull-arc-stiff").unwrap();
        let heavy = given(&[
            ("net_weight", "20 kN/m"),
            ("direction", "down"),
            ("mean_inclination", "40 deg"),
            ("force_in", "0 N"),
            ("friction", "0"),
        ]);
        let errors = evaluate(sheet, &heavy).unwrap_err();
        assert_eq!(errors[0].code(), "refused");
        assert!(errors[0].to_string().contains("runs down by its own weight"), "{errors:?}");
    }
}
