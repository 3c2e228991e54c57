use pull::bursting::{
    DRAG_PRISM, DRAG_SILO, DRAG_SOCKETS, SiloGround, SocketedString, drag_prism, drag_silo,
    drag_sockets, mean_radial_stress, prism_stress,
};
use quantity::{Angle, Force, Length, Pressure, UnitWeight, unit};
use working::{Builder, Evidence, Source};

use super::guide::guide_steps;
use super::{
    ACUTE, COVER, EXPANDER, FRICTION, LAYING_LENGTH, LENGTH, SOCKET, SOCKET_LENGTH, UNIT_WEIGHT,
    no_part, not_negative, positive, size,
};
use crate::definition::{Input, Output, Range, Worksheet};
use crate::pulling::refused;
use crate::run::{Failure, Sheet, Values};

const NONE_GIVEN: Source = Source::new("none given", Evidence::Judgement);
const AS_GROUND: Source =
    Source::new("none given: as the friction angle of the ground", Evidence::Judgement);

pub(super) static BURST_DRAG: Worksheet = Worksheet {
    id: "burst-drag",
    title: "friction of the ground on the new string, four models",
    inputs: &[
        Input::choice(
            "model",
            "collapsed hole (prism, silo), planning guide, or open hole (sockets)",
            &["prism", "guide", "silo", "sockets"],
        ),
        UNIT_WEIGHT,
        COVER,
        size("outside_diameter", "D", "outside diameter of the new pipe's barrel"),
        LENGTH,
        FRICTION,
        EXPANDER.optional(),
        Input::quantity(
            "friction_angle",
            "phi",
            "friction angle of the ground; for silo",
            unit::DEG,
            ACUTE,
        )
        .optional(),
        Input::quantity(
            "wall_friction_angle",
            "delta",
            "friction angle on the silo's walls; left out: that of the ground",
            unit::DEG,
            ACUTE,
        )
        .optional(),
        positive(
            "stress_ratio",
            "K",
            "horizontal over vertical stress; for silo and sockets",
            unit::ONE,
        )
        .optional(),
        not_negative("cohesion", "c", "cohesion; for silo", unit::KPA).optional(),
        not_negative("surcharge", "q", "load on the surface; for silo and sockets", unit::KPA)
            .optional(),
        SOCKET.optional(),
        SOCKET_LENGTH.optional(),
        LAYING_LENGTH.optional(),
        Input::quantity(
            "collapsed_share",
            "chi",
            "collapsed share of the hole; for sockets: 0 open, 0.25 to plan, 1 all",
            unit::ONE,
            Range::Within(0.0, 1.0),
        )
        .optional(),
    ],
    outputs: &[
        Output::new("force", "drag on the string", unit::KN),
        Output::new("stress", "mean stress around the pipe where the ground bears", unit::KPA),
    ],
    source: Source::new(
        "Najafi, Trenchless Technology Piping, p. 270-272 (prism, guide); silo remembered; sockets derived",
        Evidence::FromMemory,
    ),
    example: &[
        ("model", "sockets"),
        ("unit_weight", "18 kN/m3"),
        ("cover", "1.4 m"),
        ("outside_diameter", "170 mm"),
        ("length", "100 m"),
        ("friction", "0.3"),
        ("stress_ratio", "1"),
        ("socket_diameter", "239 mm"),
        ("socket_length", "0.15 m"),
        ("laying_length", "6 m"),
        ("collapsed_share", "0"),
    ],
    run: run_drag,
};

const OF_SOCKETS: [&str; 4] =
    ["socket_diameter", "socket_length", "laying_length", "collapsed_share"];
const OF_SILO: [&str; 4] =
    ["expander_diameter", "friction_angle", "wall_friction_angle", "cohesion"];
const OF_BOTH: [&str; 2] = ["stress_ratio", "surcharge"];

/// What every model takes.
struct Common {
    unit_weight: UnitWeight,
    cover: Length,
    diameter: Length,
    length: Length,
    friction: f64,
}

fn run_drag(v: &Values) -> Result<Sheet, Failure> {
    let common = Common {
        unit_weight: UnitWeight::from_si(v.si("unit_weight")),
        cover: Length::from_si(v.si("cover")),
        diameter: Length::from_si(v.si("outside_diameter")),
        length: Length::from_si(v.si("length")),
        friction: v.si("friction"),
    };
    let mut w = v.open();
    let (force, stress) = match v.word("model") {
        "prism" => {
            no_part(v, &[&OF_SOCKETS[..], &OF_SILO, &OF_BOTH].concat(), "model=prism")?;
            prism(&common, &mut w)?
        }
        "guide" => {
            no_part(v, &[&OF_SOCKETS[..], &OF_SILO, &OF_BOTH].concat(), "model=guide")?;
            let Common { unit_weight, cover, diameter, length, friction } = common;
            let guide = guide_steps(&mut w, unit_weight, cover, diameter, length, friction)
                .map_err(|e| refused(&BURST_DRAG, &e))?;
            let stress = w.derive(
                "sigma",
                "stress on the pipe",
                "gamma*d_eff",
                unit::KPA,
                pull::bursting::DRAG_GUIDE.source(),
            );
            (guide.force.si(), stress)
        }
        "silo" => {
            no_part(v, &OF_SOCKETS, "model=silo")?;
            silo(v, &common, &mut w)?
        }
        _ => {
            no_part(v, &OF_SILO, "model=sockets")?;
            sockets(v, &common, &mut w)?
        }
    };
    Ok(Sheet::new(&[("force", force), ("stress", stress)], w))
}

fn prism(c: &Common, w: &mut Builder) -> Result<(f64, f64), Failure> {
    let force = drag_prism(c.unit_weight, c.cover, c.diameter, c.length, c.friction)
        .map_err(|e| refused(&BURST_DRAG, &e))?
        .si();
    let source = || DRAG_PRISM.source();
    let stress = w.derive("sigma", "stress on the pipe", "gamma*H", unit::KPA, source());
    w.result("T", "drag", "sigma*pi*D*L*mu", force, unit::KN, source());
    Ok((force, stress))
}

/// An input that may be left out, and the source of the zero that then stands for it.
fn or_none(v: &Values, w: &mut Builder, key: &str, symbol: &str, meaning: &str) -> Pressure {
    Pressure::from_si(
        v.optional(key)
            .unwrap_or_else(|| w.given_from(symbol, meaning, 0.0, unit::KPA, NONE_GIVEN)),
    )
}

fn silo(v: &Values, c: &Common, w: &mut Builder) -> Result<(f64, f64), Failure> {
    let why = "for model=silo";
    let phi = v.needed("friction_angle", why)?;
    let delta = v.optional("wall_friction_angle").unwrap_or_else(|| {
        w.given_from("delta", "friction angle on the walls of the silo", phi, unit::DEG, AS_GROUND)
    });
    let ground = SiloGround {
        unit_weight: c.unit_weight,
        cover: c.cover,
        friction_angle: Angle::from_si(phi),
        wall_friction_angle: Angle::from_si(delta),
        stress_ratio: v.needed("stress_ratio", why)?,
        cohesion: or_none(v, w, "cohesion", "c", "cohesion"),
        surcharge: or_none(v, w, "surcharge", "q", "load on the surface"),
    };
    let expander = Length::from_si(v.needed("expander_diameter", why)?);
    let found = drag_silo(&ground, expander, c.diameter, c.length, c.friction)
        .map_err(|e| refused(&BURST_DRAG, &e))?;
    let source = || DRAG_SILO.source();
    let (width, vertical) = (found.width.si(), found.vertical.si());
    let formula = "D_e*(1 + 2*tan(pi/4 - phi/2))";
    w.result("B", "width of the silo", formula, width, unit::M, source());
    w.derive("x", "depth number", "2*K*tan(delta)*H/B", unit::ONE, source());
    let formula = "max(B*gamma - 2*c, 0)/(2*K*tan(delta))*(1 - exp(-x)) + q*exp(-x)";
    w.result("sigma_v", "vertical stress at the crown", formula, vertical, unit::KPA, source());
    let mean = found.mean.si();
    let formula = "sigma_v*(1 + K)/2";
    w.result("sigma", "mean stress around the pipe", formula, mean, unit::KPA, source());
    let force: Force = found.force;
    w.result("T", "drag", "sigma*pi*D*L*mu", force.si(), unit::KN, source());
    Ok((force.si(), mean))
}

fn sockets(v: &Values, c: &Common, w: &mut Builder) -> Result<(f64, f64), Failure> {
    let why = "for model=sockets";
    let metres = |key| v.needed(key, why).map(Length::from_si);
    let string = SocketedString {
        barrel_diameter: c.diameter,
        socket_diameter: metres("socket_diameter")?,
        socket_length: metres("socket_length")?,
        laying_length: metres("laying_length")?,
    };
    let share = v.needed("collapsed_share", why)?;
    let k = v.needed("stress_ratio", why)?;
    let surcharge = or_none(v, w, "surcharge", "q", "load on the surface");
    let at = |e| refused(&BURST_DRAG, &e);
    let vertical = prism_stress(c.unit_weight, c.cover, surcharge).map_err(at)?;
    let stress = mean_radial_stress(vertical, k).map_err(at)?;
    let drag = drag_sockets(&string, stress, c.length, share, c.friction).map_err(at)?;
    let source = || DRAG_SOCKETS.source();
    let formula = "(gamma*H + q)*(1 + K)/2";
    w.result("sigma", "mean stress around the pipe", formula, stress.si(), unit::KPA, source());
    w.derive("A_s", "area of the sockets per length", "pi*D_s*L_s/L_p", unit::M, source());
    let formula = "chi*pi*D*(L_p - L_s)/L_p";
    w.derive("A_b", "area of collapsed barrels per length", formula, unit::M, source());
    let formula = "mu*sigma*A_s*L";
    w.result("T_s", "drag on the sockets", formula, drag.sockets.si(), unit::KN, source());
    let formula = "mu*sigma*A_b*L";
    w.result("T_b", "drag on the barrels", formula, drag.barrels.si(), unit::KN, source());
    w.result("T", "drag", "T_s + T_b", drag.force.si(), unit::KN, source());
    Ok((drag.force.si(), stress.si()))
}
