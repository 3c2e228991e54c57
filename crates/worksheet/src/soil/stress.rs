use ground::{
    REFERENCE_PRESSURE, k0_cpt, k0_normally_consolidated, k0_overconsolidated, mean_stress,
};
use quantity::{Angle, Pressure, unit};
use working::{Evidence, Source};

use super::{EFFECTIVE, FRICTION_ANGLE, REFERENCE, STRESS_OR_NONE, TIP};
use crate::definition::{Input, Output, Range, Worksheet};
use crate::run::{Failure, Sheet, Values};

const MESRI: Source =
    Source::new("Mesri & Hayat 1993, through an open geotechnical library", Evidence::Published);
const MAYNE: Source =
    Source::new("Mayne 2007, through an open geotechnical library", Evidence::Published);
const MEAN: Source = Source::new("mean of two principal stresses, exact", Evidence::Derived);
static NEVER_MORE: Source = Source::new("never loaded more than today", Evidence::Judgement);

const OVERCONSOLIDATION: Input = Input::quantity(
    "ocr",
    "OCR",
    "greatest effective vertical stress ever over today's",
    unit::ONE,
    Range::Within(1.0, 100.0),
)
.or("1", &NEVER_MORE);

pub(super) static K0: Worksheet = Worksheet {
    id: "k0",
    title: "horizontal over vertical effective stress at rest",
    inputs: &[FRICTION_ANGLE, OVERCONSOLIDATION],
    outputs: &[
        Output::new("k0", "horizontal over vertical effective stress", unit::ONE),
        Output::new("normal", "the same without earlier load", unit::ONE),
    ],
    source: MESRI,
    example: &[("friction_angle", "32 deg"), ("ocr", "4")],
    run: at_rest,
};

pub(super) static K0_CPT: Worksheet = Worksheet {
    id: "k0-cpt",
    title: "horizontal over vertical effective stress of sand by a cone",
    inputs: &[TIP, EFFECTIVE, FRICTION_ANGLE, OVERCONSOLIDATION],
    outputs: &[Output::new("k0", "horizontal over vertical effective stress", unit::ONE)],
    source: MAYNE,
    example: &[
        ("tip_resistance", "10 MPa"),
        ("effective_vertical", "100 kPa"),
        ("friction_angle", "36 deg"),
        ("ocr", "2"),
    ],
    run: by_cone,
};

pub(super) static MEAN_STRESS: Worksheet = Worksheet {
    id: "mean-stress",
    title: "mean effective stress in the plane across the bore",
    inputs: &[
        Input::quantity(
            "effective_vertical",
            "s_v",
            "effective vertical stress",
            unit::KPA,
            STRESS_OR_NONE,
        ),
        Input::quantity(
            "k0",
            "K_0",
            "horizontal over vertical effective stress",
            unit::ONE,
            Range::Within(0.0, 20.0),
        ),
    ],
    outputs: &[Output::new("mean", "mean effective stress", unit::KPA)],
    source: MEAN,
    example: &[("effective_vertical", "97.14 kPa"), ("k0", "0.5")],
    run: mean,
};

fn at_rest(v: &Values) -> Result<Sheet, Failure> {
    let angle = Angle::from_si(v.si("friction_angle"));
    let normal = k0_normally_consolidated(angle).map_err(|e| Failure::at("friction_angle", e))?;
    let k0 = k0_overconsolidated(angle, v.si("ocr")).map_err(|e| Failure::at("ocr", e))?;
    let mut w = v.open();
    w.result("K_n", "ratio without earlier load", "1 - sin(phi)", normal, unit::ONE, MESRI);
    w.result("K_0", "ratio at rest", "K_n*OCR^sin(phi)", k0, unit::ONE, MESRI);
    Ok(Sheet::new(&[("k0", k0), ("normal", normal)], w))
}

fn by_cone(v: &Values) -> Result<Sheet, Failure> {
    let k0 = k0_cpt(
        Pressure::from_si(v.si("tip_resistance")),
        Pressure::from_si(v.si("effective_vertical")),
        v.si("ocr"),
        Angle::from_si(v.si("friction_angle")),
    )
    .map_err(|e| Failure::at("tip_resistance", e))?;
    let mut w = v.open();
    w.given_from("p_a", "reference pressure", REFERENCE_PRESSURE.si(), unit::KPA, REFERENCE);
    let formula = "(1 + sin(phi))/(1 - sin(phi))";
    w.derive("K_p", "ratio at which ground yields sideways", formula, unit::ONE, MAYNE);
    let formula = "min(0.192*(q_t/p_a)^0.22*(p_a/s_v)^0.31*OCR^0.27, K_p)";
    w.result("K_0", "ratio at rest", formula, k0, unit::ONE, MAYNE);
    Ok(Sheet::new(&[("k0", k0)], w))
}

fn mean(v: &Values) -> Result<Sheet, Failure> {
    let mean = mean_stress(Pressure::from_si(v.si("effective_vertical")), v.si("k0"))
        .map_err(|e| Failure::at("effective_vertical", e))?
        .si();
    let mut w = v.open();
    w.result("s_0", "mean effective stress", "(1 + K_0)/2*s_v", mean, unit::KPA, MEAN);
    Ok(Sheet::new(&[("mean", mean)], w))
}
