use pull::bursting::{
    CAVITY_CLAY, CAVITY_SAND, ExpansionGoverns, SHALLOW_CAP, cavity_clay, cavity_sand,
    expansion_pressure, shallow_cap,
};
use quantity::{Angle, Length, Pressure, UnitWeight, unit};
use working::Source;

use super::{ACUTE, COVER, EXPANDER, UNIT_WEIGHT, no_part, not_negative, positive, size};
use crate::definition::{Input, Output, Worksheet};
use crate::pulling::refused;
use crate::run::{Failure, Sheet, Values};

pub(super) static BURST_CAVITY: Worksheet = Worksheet {
    id: "burst-cavity",
    title: "pressure of the ground on the expander, cavity expansion",
    inputs: &[
        Input::choice("soil", "clay without drainage, or sand with it", &["clay", "sand"]),
        not_negative(
            "initial_stress",
            "p_0",
            "horizontal stress in the ground: total in clay, effective in sand",
            unit::KPA,
        ),
        positive("undrained_strength", "s_u", "undrained strength; for clay", unit::KPA).optional(),
        Input::quantity("friction_angle", "phi", "friction angle; for sand", unit::DEG, ACUTE)
            .optional(),
        positive("shear_modulus", "G", "shear modulus", unit::KPA),
        size("radius_before", "a_0", "radius of the old bore"),
        size("radius_after", "a", "radius of the expander"),
    ],
    outputs: &[
        Output::new("pressure", "pressure in the cavity", unit::KPA),
        Output::new("state", "whether the ground yields: elastic or plastic", unit::ONE),
    ],
    source: CAVITY_CLAY.source(),
    example: &[
        ("soil", "clay"),
        ("initial_stress", "20 kPa"),
        ("undrained_strength", "50 kPa"),
        ("shear_modulus", "5 MPa"),
        ("radius_before", "75 mm"),
        ("radius_after", "130 mm"),
    ],
    run: run_cavity,
};

fn run_cavity(v: &Values) -> Result<Sheet, Failure> {
    let p0 = Pressure::from_si(v.si("initial_stress"));
    let g = Pressure::from_si(v.si("shear_modulus"));
    let (before, after) =
        (Length::from_si(v.si("radius_before")), Length::from_si(v.si("radius_after")));
    let at = |e| refused(&BURST_CAVITY, &e);
    let growth = "(1 - a_0/a)*(1 + a_0/a)";
    if v.word("soil") == "clay" {
        let su = Pressure::from_si(v.needed("undrained_strength", "for soil=clay")?);
        no_part(v, &["friction_angle"], "soil=clay")?;
        let p = cavity_clay(p0, su, g, before, after).map_err(at)?;
        let source = CAVITY_CLAY.source();
        let forms = ["p_0 + s_u*x", "p_0 + s_u*(1 + ln(x))"];
        Ok(sheet(v, &format!("G/s_u*{growth}"), forms, p, source))
    } else {
        let phi = Angle::from_si(v.needed("friction_angle", "for soil=sand")?);
        no_part(v, &["undrained_strength"], "soil=sand")?;
        let p = cavity_sand(p0, phi, g, before, after).map_err(at)?;
        let source = CAVITY_SAND.source();
        let forms = ["p_0*(1 + sin(phi)*x)", "p_0*(1 + sin(phi))*x^(sin(phi)/(1 + sin(phi)))"];
        Ok(sheet(v, &format!("G/(p_0*sin(phi))*{growth}"), forms, p, source))
    }
}

fn sheet(v: &Values, x: &str, [elastic, plastic]: [&str; 2], p: Pressure, source: Source) -> Sheet {
    let mut w = v.open();
    let x = w.derive("x", "strain over strain at first yield", x, unit::ONE, source.clone());
    let (state, formula) = if x > 1.0 { ("plastic", plastic) } else { ("elastic", elastic) };
    w.result("p", "pressure in the cavity", formula, p.si(), unit::KPA, source);
    Sheet::new(&[("pressure", p.si())], w).with_word("state", state)
}

pub(super) static BURST_CAP: Worksheet = Worksheet {
    id: "burst-cap",
    title: "pressure at which the cover over the expander lifts",
    inputs: &[
        UNIT_WEIGHT,
        COVER,
        EXPANDER,
        not_negative("uplift_factor", "f", "0.3 in loose ground, 0.5 in dense", unit::ONE),
        not_negative("cavity_pressure", "p", "pressure by burst-cavity", unit::KPA),
    ],
    outputs: &[
        Output::new("cap", "pressure that lifts the cover", unit::KPA),
        Output::new("pressure", "pressure on the expander: the smaller one", unit::KPA),
        Output::new("governs", "cavity, or cap: the surface heaves", unit::ONE),
    ],
    source: SHALLOW_CAP.source(),
    example: &[
        ("unit_weight", "18 kN/m3"),
        ("cover", "1.37 m"),
        ("expander_diameter", "260 mm"),
        ("uplift_factor", "0.5"),
        ("cavity_pressure", "280 kPa"),
    ],
    run: run_cap,
};

fn run_cap(v: &Values) -> Result<Sheet, Failure> {
    let at = |e| refused(&BURST_CAP, &e);
    let cap = shallow_cap(
        UnitWeight::from_si(v.si("unit_weight")),
        Length::from_si(v.si("cover")),
        Length::from_si(v.si("expander_diameter")),
        v.si("uplift_factor"),
    )
    .map_err(at)?;
    let found = expansion_pressure(Pressure::from_si(v.si("cavity_pressure")), cap).map_err(at)?;
    let governs = match found.governs {
        ExpansionGoverns::Cavity => "cavity",
        ExpansionGoverns::Cap => "cap",
    };
    let (cap, pressure) = (cap.si(), found.pressure.si());
    let source = || SHALLOW_CAP.source();
    let mut w = v.open();
    let formula = "gamma*H*(1 + f*H/D_e)";
    w.result("p_c", "pressure that lifts the cover", formula, cap, unit::KPA, source());
    w.result("p_e", "pressure on the expander", "min(p, p_c)", pressure, unit::KPA, source());
    Ok(Sheet::new(&[("cap", cap), ("pressure", pressure)], w).with_word("governs", governs))
}
