use quantity::{Angle, ForcePerLength, Length, Pressure, UnitWeight, unit};
use service::{
    Bearing, Bisector, Encasement, restrained_length_bearing, restrained_length_bisector,
};
use working::{Builder, Evidence, Source};

use crate::definition::{Input, Output, Range, Worksheet};
use crate::run::{Failure, Sheet, Values};

const US: Source =
    Source::new("US Army ETL 1110-3-446 appendix C; terms remembered", Evidence::FromMemory);
const GW368: Source =
    Source::new("DVGW GW 368 (2002), tables reconstructed from equilibrium", Evidence::Derived);
static NO_ADHESION: Source = Source::new("no cohesion", Evidence::Judgement);
static BARE: Source = Source::new("no polyethylene sleeve", Evidence::Judgement);
static SAFETY: Source = Source::new("US practice", Evidence::FromMemory);
static FITTED: Source = Source::new("fitted to the tables of GW 368", Evidence::Computed);
static TWO_JOINTS: Source = Source::new("GW 368: at least two joints", Evidence::Published);
static DEFAULT_SIGMA: Source = Source::new("GW 368 tables, 95 % Proctor", Evidence::Published);

const fn ratio(key: &'static str, symbol: &'static str, meaning: &'static str) -> Input {
    Input::quantity(key, symbol, meaning, unit::ONE, Range::Within(0.0, 1.0))
}

pub(super) static RESTRAINED_LENGTH: Worksheet = Worksheet {
    id: "restrained-length",
    title: "restrained length beside a bend or behind a dead end",
    inputs: &[
        Input::choice(
            "method",
            "friction-bearing: US form; bisector: German form, reconstructed",
            &["friction-bearing", "bisector"],
        ),
        Input::quantity("pressure", "p", "test pressure", unit::BAR, Range::Positive),
        Input::quantity("outside_diameter", "D", "outside diameter", unit::MM, Range::SIZE),
        Input::quantity(
            "bend_angle",
            "theta",
            "angle of a bend; left out for a dead end or a tee",
            unit::DEG,
            Range::Between(0.0, std::f64::consts::PI),
        )
        .optional(),
        Input::quantity("cover", "H", "cover over the crown", unit::M, Range::Positive),
        Input::quantity(
            "unit_weight",
            "gamma",
            "unit weight of the backfill; 19.5 kN/m3 reproduces GW 368",
            unit::KN_PER_M3,
            Range::Positive,
        ),
        Input::quantity("pipe_weight", "w_p", "weight of pipe", unit::KN_PER_M, Range::NotNegative),
        Input::quantity(
            "water_weight",
            "w_w",
            "weight of water",
            unit::KN_PER_M,
            Range::NotNegative,
        ),
        Input::quantity(
            "friction_angle",
            "phi",
            "friction angle of the soil; for friction-bearing",
            unit::DEG,
            Range::Within(0.0, 1.5),
        )
        .optional(),
        ratio("friction_ratio", "f_phi", "pipe friction angle / soil's; for friction-bearing")
            .optional(),
        ratio("passive_share", "K_n", "share of the passive pressure; for friction-bearing bends")
            .optional(),
        Input::quantity("cohesion", "C_s", "cohesion", unit::KPA, Range::NotNegative)
            .or("0 kPa", &NO_ADHESION),
        ratio("adhesion_ratio", "f_c", "adhesion on the pipe / cohesion").or("0", &NO_ADHESION),
        Input::choice("encasement", "loose polyethylene sleeve", &["none", "polyethylene"])
            .or("none", &BARE),
        Input::quantity("safety", "S_f", "safety, friction-bearing", unit::ONE, Range::Positive)
            .or("1.5", &SAFETY),
        Input::quantity("friction", "mu", "friction; for bisector", unit::ONE, Range::Positive)
            .optional(),
        Input::quantity(
            "soil_pressure",
            "sigma",
            "pressure on the trench wall, bisector",
            unit::KPA,
            Range::NotNegative,
        )
        .or("40 kPa", &DEFAULT_SIGMA),
        Input::quantity(
            "passive_length",
            "l_p",
            "leg it acts on, bisector",
            unit::M,
            Range::NotNegative,
        )
        .or("2.1 m", &FITTED),
        Input::quantity("minimum", "L_0", "least length, bisector", unit::M, Range::NotNegative)
            .or("12 m", &TWO_JOINTS),
    ],
    outputs: &[
        Output::new("length", "length to restrain on each side", unit::M),
        Output::new("calculated", "length before the minimum", unit::M),
    ],
    source: US,
    example: &[
        ("method", "friction-bearing"),
        ("pressure", "15 bar"),
        ("outside_diameter", "326 mm"),
        ("bend_angle", "90 deg"),
        ("cover", "1.2 m"),
        ("unit_weight", "18 kN/m3"),
        ("pipe_weight", "0.59 kN/m"),
        ("water_weight", "0.71 kN/m"),
        ("friction_angle", "30 deg"),
        ("friction_ratio", "0.5"),
        ("passive_share", "0.4"),
    ],
    run: run_length,
};

fn run_length(v: &Values) -> Result<Sheet, Failure> {
    let mut s = v.open();
    s.derive("N", "thrust", "p*pi/4*D^2", unit::KN, US);
    match v.word("method") {
        "bisector" => bisector(v, s),
        _ => bearing(v, s),
    }
}

fn bearing(v: &Values, mut s: Builder) -> Result<Sheet, Failure> {
    let why = "for method=friction-bearing";
    let bend_angle = v.optional("bend_angle");
    let passive_share = match bend_angle {
        Some(_) => v.needed("passive_share", "for a bend by method=friction-bearing")?,
        None => v.optional("passive_share").unwrap_or(0.0),
    };
    let sleeved = v.word("encasement") == "polyethylene";
    let encasement = if sleeved { Encasement::Polyethylene } else { Encasement::None };
    let terms = restrained_length_bearing(&Bearing {
        pressure: Pressure::from_si(v.si("pressure")),
        outside_diameter: Length::from_si(v.si("outside_diameter")),
        bend_angle: bend_angle.map(Angle::from_si),
        cover: Length::from_si(v.si("cover")),
        unit_weight: UnitWeight::from_si(v.si("unit_weight")),
        friction_angle: Angle::from_si(v.needed("friction_angle", why)?),
        friction_ratio: v.needed("friction_ratio", why)?,
        cohesion: Pressure::from_si(v.si("cohesion")),
        adhesion_ratio: v.si("adhesion_ratio"),
        passive_share,
        pipe_weight: ForcePerLength::from_si(v.si("pipe_weight")),
        water_weight: ForcePerLength::from_si(v.si("water_weight")),
        encasement,
        safety: v.si("safety"),
    })
    .map_err(|e| Failure::at("", e))?;
    s.given_from("k", "share of friction left", encasement.friction_share(), unit::ONE, US);
    s.derive("W", "weight on the pipe", "2*gamma*H*D + w_p + w_w", unit::KN_PER_M, US);
    let formula = "k*(pi*D/2*f_c*C_s + W*tan(f_phi*phi))";
    s.result("F_f", "friction", formula, terms.friction, unit::KN_PER_M, US);
    let length = terms.length.si();
    if bend_angle.is_some() {
        s.derive("N_phi", "passive ratio", "tan(pi/4 + phi/2)^2", unit::ONE, US);
        let passive = "gamma*(H + D/2)*N_phi + 2*C_s*sqrt(N_phi)";
        s.derive("P_p", "passive pressure", passive, unit::KPA, US);
        s.result("R_s", "bearing", "K_n*P_p*D", terms.bearing, unit::KN_PER_M, US);
        let formula = "S_f*N*tan(theta/2)/(F_f + R_s/2)";
        s.result("L", "length to restrain", formula, length, unit::M, US);
    } else {
        s.result("L", "length to restrain", "S_f*N/F_f", length, unit::M, US);
    }
    Ok(Sheet::new(&[("length", length), ("calculated", length)], s))
}

fn bisector(v: &Values, mut s: Builder) -> Result<Sheet, Failure> {
    let bend_angle = v.optional("bend_angle");
    let calculated = restrained_length_bisector(&Bisector {
        pressure: Pressure::from_si(v.si("pressure")),
        outside_diameter: Length::from_si(v.si("outside_diameter")),
        bend_angle: bend_angle.map(Angle::from_si),
        cover: Length::from_si(v.si("cover")),
        unit_weight: UnitWeight::from_si(v.si("unit_weight")),
        friction: v.needed("friction", "for method=bisector")?,
        pipe_weight: ForcePerLength::from_si(v.si("pipe_weight")),
        water_weight: ForcePerLength::from_si(v.si("water_weight")),
        soil_pressure: Pressure::from_si(v.si("soil_pressure")),
        passive_length: Length::from_si(v.si("passive_length")),
    })
    .map_err(|e| Failure::at("", e))?
    .si();
    let formula = "mu*(2*gamma*H*D + w_p + w_w)";
    s.derive("r", "friction", formula, unit::KN_PER_M, GW368);
    let formula = if bend_angle.is_some() {
        s.derive("E", "passive force on a leg", "sigma*D*l_p", unit::KN, GW368);
        "(N - E/tan(theta/2))/r"
    } else {
        "N/r"
    };
    s.result("L_c", "calculated length", formula, calculated, unit::M, GW368);
    let length = s.derive("L", "length to restrain", "max(L_c, L_0)", unit::M, GW368);
    Ok(Sheet::new(&[("length", length), ("calculated", calculated)], s))
}
