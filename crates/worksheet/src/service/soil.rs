use quantity::{Angle, Length, Pressure, UnitWeight, unit};
use service::{Road, silo_load, silo_ratio, terzaghi_load, traffic_pressure};
use working::{Evidence, Source};

use crate::definition::{Input, Output, Range, Worksheet};
use crate::run::{Failure, Sheet, Values};

const F1962: Source =
    Source::new("ASTM F1962 form; K read, kappa remembered", Evidence::FromMemory);
const TERZAGHI: Source = Source::new("Terzaghi's arching theory", Evidence::FromMemory);
const ANNEX_F: Source = Source::new("EN 545:2010 annex F", Evidence::FromMemory);
static NO_COHESION: Source = Source::new("no cohesion: the larger load", Evidence::Judgement);

const UNIT_WEIGHT: Input = Input::quantity(
    "unit_weight",
    "gamma",
    "unit weight of soil",
    unit::KN_PER_M3,
    Range::Positive,
);
const COVER: Input =
    Input::quantity("cover", "H", "cover above the bore", unit::M, Range::NotNegative);
const FRICTION_ANGLE: Input = Input::quantity(
    "friction_angle",
    "phi",
    "friction angle of soil",
    unit::DEG,
    Range::Between(0.0, std::f64::consts::FRAC_PI_2),
);

pub(super) static SILO_LOAD: Worksheet = Worksheet {
    id: "silo-load",
    title: "earth pressure in a bore, silo arching (F1962 form)",
    inputs: &[
        UNIT_WEIGHT,
        COVER,
        Input::quantity(
            "silo_width",
            "B",
            "silo width, 1.5 x bore diameter",
            unit::M,
            Range::Positive,
        ),
        FRICTION_ANGLE,
    ],
    outputs: &[
        Output::new("ratio", "share of the prism that arrives", unit::ONE),
        Output::new("pressure", "earth pressure", unit::KPA),
    ],
    source: F1962,
    example: &[
        ("unit_weight", "18 kN/m3"),
        ("cover", "10 m"),
        ("silo_width", "0.675 m"),
        ("friction_angle", "30 deg"),
    ],
    run: run_silo,
};

pub(super) static TERZAGHI_LOAD: Worksheet = Worksheet {
    id: "terzaghi-load",
    title: "earth pressure in a bore, Terzaghi's tunnel form",
    inputs: &[
        UNIT_WEIGHT,
        COVER,
        Input::quantity("bore_diameter", "D_b", "bore diameter", unit::M, Range::Positive),
        FRICTION_ANGLE,
        Input::quantity("cohesion", "c", "cohesion", unit::KPA, Range::NotNegative)
            .or("0 kPa", &NO_COHESION),
    ],
    outputs: &[Output::new(
        "pressure",
        "earth pressure; zero where cohesion carries the ground",
        unit::KPA,
    )],
    source: TERZAGHI,
    example: &[
        ("unit_weight", "18 kN/m3"),
        ("cover", "10 m"),
        ("bore_diameter", "0.45 m"),
        ("friction_angle", "30 deg"),
    ],
    run: run_terzaghi,
};

pub(super) static TRAFFIC_LOAD: Worksheet = Worksheet {
    id: "traffic-load",
    title: "pressure of road traffic on a pipe (EN 545)",
    inputs: &[
        Input::choice("road", "kind of road", &["main", "access", "rural"]),
        Input::quantity(
            "nominal_diameter",
            "DN",
            "nominal diameter; a bare number is in mm",
            unit::MM,
            Range::SIZE,
        )
        .bare(unit::MM),
        Input::quantity("cover", "H", "cover", unit::M, Range::Within(0.3, 1000.0)),
    ],
    outputs: &[Output::new("pressure", "traffic pressure", unit::KPA)],
    source: ANNEX_F,
    example: &[("road", "main"), ("nominal_diameter", "300 mm"), ("cover", "1.2 m")],
    run: run_traffic,
};

fn run_silo(v: &Values) -> Result<Sheet, Failure> {
    let cover = Length::from_si(v.si("cover"));
    let width = Length::from_si(v.si("silo_width"));
    let phi = Angle::from_si(v.si("friction_angle"));
    let gamma = UnitWeight::from_si(v.si("unit_weight"));
    let refused = |e| Failure::at("", e);
    let ratio = silo_ratio(cover, width, phi).map_err(refused)?;
    let p = silo_load(gamma, cover, width, phi).map_err(refused)?.si();
    let mut s = v.open();
    s.derive("K", "earth pressure ratio", "tan(pi/4 - phi/2)^2", unit::ONE, F1962);
    let x = s.derive("x", "depth number", "2*K*H/B*tan(phi/2)", unit::ONE, F1962);
    // The quotient has no value at the surface, where the whole prism arrives.
    let formula = if x > 0.0 { "(1 - exp(-x))/x" } else { "1" };
    s.result("kappa", "share that arrives", formula, ratio, unit::ONE, F1962);
    s.result("p", "earth pressure", "kappa*gamma*H", p, unit::KPA, F1962);
    Ok(Sheet::new(&[("ratio", ratio), ("pressure", p)], s))
}

fn run_terzaghi(v: &Values) -> Result<Sheet, Failure> {
    let p = terzaghi_load(
        UnitWeight::from_si(v.si("unit_weight")),
        Length::from_si(v.si("cover")),
        Length::from_si(v.si("bore_diameter")),
        Angle::from_si(v.si("friction_angle")),
        Pressure::from_si(v.si("cohesion")),
    )
    .map_err(|e| Failure::at("", e))?
    .si();
    let mut s = v.open();
    s.derive("B", "width of the arch", "D_b*(1 + 2*tan(pi/4 - phi/2))", unit::M, TERZAGHI);
    let formula = "max(0, (gamma - 2*c/B)/(2*tan(phi)/B)*(1 - exp(-2*tan(phi)*H/B)))";
    s.result("p", "earth pressure", formula, p, unit::KPA, TERZAGHI);
    Ok(Sheet::new(&[("pressure", p)], s))
}

fn run_traffic(v: &Values) -> Result<Sheet, Failure> {
    let road = match v.word("road") {
        "main" => Road::Main,
        "access" => Road::Access,
        _ => Road::Rural,
    };
    let dn = Length::from_si(v.si("nominal_diameter"));
    let cover = Length::from_si(v.si("cover"));
    let p = traffic_pressure(road.factor(), dn, cover);
    let p = p.map_err(|e| Failure::at("nominal_diameter", e))?.si();
    let mut s = v.open();
    s.given_from("beta", "factor of the road", road.factor(), unit::ONE, ANNEX_F);
    s.result("p_t", "traffic pressure", "40e3*beta*(1 - 0.2*DN)/H", p, unit::KPA, ANNEX_F);
    Ok(Sheet::new(&[("pressure", p)], s))
}
