use ground::{
    ISO_STRESS, OVERBURDEN_CAP, REFERENCE_PRESSURE, bore_factor, friction_angle_kulhawy,
    friction_angle_peck, overburden_factor, overburden_factor_iso, relative_density, rod_factor,
    spt_energy_corrected, strength_factor_spt, undrained_strength_spt,
};
use quantity::{Length, Pressure, unit};
use working::{Evidence, Source};

use super::{EFFECTIVE, KULHAWY, REFERENCE, STRESS, unused};
use crate::definition::{Input, Output, Range, Worksheet};
use crate::run::{Failure, Sheet, Values};

const SKEMPTON: Source = Source::new(
    "Skempton 1986 after Ameratunga 2016, through an open geotechnical library",
    Evidence::Published,
);
const LIAO: Source =
    Source::new("Liao & Whitman 1986, through an open geotechnical library", Evidence::Published);
const ISO: Source =
    Source::new("EN ISO 22476-3, through an open geotechnical library", Evidence::Published);
const PECK: Source = Source::new(
    "Peck, Hanson & Thornburn 1974, through an open geotechnical library",
    Evidence::Published,
);
const SALGADO: Source =
    Source::new("Salgado 2008, through an open geotechnical library", Evidence::Published);
const BETWEEN_BORES: Source =
    Source::new("Skempton 1986; straight between 115, 150 and 200 mm", Evidence::Judgement);
static STANDARD_SAMPLER: Source = Source::new("standard sampler", Evidence::Judgement);

/// Blows that a sounding gives; at 100 driving has stopped.
const BLOWS: Range = Range::Within(0.0, 100.0);
const SOME_BLOWS: Range = Range::Above(0.0, 100.0);

pub(super) static SPT_N60: Worksheet = Worksheet {
    id: "spt-n60",
    title: "blow count of a standard penetration test at 60 % energy",
    inputs: &[
        Input::quantity("blows", "N", "blows for the last 300 mm", unit::ONE, BLOWS),
        Input::quantity(
            "hammer_efficiency",
            "eta_H",
            "share of the free-fall energy that reaches the rods",
            unit::PERCENT,
            Range::Within(0.3, 1.0),
        ),
        Input::quantity(
            "bore_diameter",
            "d_b",
            "diameter of the borehole, 65 to 200 mm",
            unit::MM,
            Range::SIZE,
        ),
        Input::quantity(
            "rod_length",
            "l_r",
            "length of the rods",
            unit::M,
            Range::Above(0.0, 200.0),
        ),
        Input::quantity(
            "sampler_factor",
            "eta_S",
            "factor of the sampler",
            unit::ONE,
            Range::Within(0.8, 1.3),
        )
        .or("1", &STANDARD_SAMPLER),
    ],
    outputs: &[Output::new("n60", "blow count at 60 % energy", unit::ONE)],
    source: SKEMPTON,
    example: &[
        ("blows", "20"),
        ("hammer_efficiency", "45 %"),
        ("bore_diameter", "70 mm"),
        ("rod_length", "5 m"),
    ],
    run: n60,
};

pub(super) static SPT_OVERBURDEN: Worksheet = Worksheet {
    id: "spt-overburden",
    title: "blow count at 60 % energy brought to a common overburden",
    inputs: &[
        Input::choice(
            "method",
            "liao-whitman: to 100 kPa; iso-22476-3: to 98 kPa",
            &["liao-whitman", "iso-22476-3"],
        ),
        Input::quantity("n60", "N_60", "blow count at 60 % energy", unit::ONE, BLOWS),
        EFFECTIVE,
    ],
    outputs: &[
        Output::new("factor", "overburden factor, at most 2", unit::ONE),
        Output::new("n1_60", "blow count at 60 % energy and common overburden", unit::ONE),
    ],
    source: LIAO,
    example: &[("method", "liao-whitman"), ("n60", "20"), ("effective_vertical", "80 kPa")],
    run: overburden,
};

pub(super) static SPT_RELATIVE_DENSITY: Worksheet = Worksheet {
    id: "spt-relative-density",
    title: "relative density of sand by the blow count",
    inputs: &[
        Input::quantity("n1_60", "N_1", "blow count at 60 % energy and 100 kPa", unit::ONE, BLOWS),
        Input::quantity(
            "grain_size",
            "d_50",
            "size that half of the grains pass, 0.06 to 2 mm",
            unit::MM,
            Range::SIZE,
        ),
    ],
    outputs: &[Output::new("density", "relative density", unit::PERCENT)],
    source: KULHAWY,
    example: &[("n1_60", "30"), ("grain_size", "0.2 mm")],
    run: density,
};

pub(super) static SPT_FRICTION_ANGLE: Worksheet = Worksheet {
    id: "spt-friction-angle",
    title: "friction angle of sand by the blow count",
    inputs: &[
        Input::choice(
            "method",
            "peck: by N1,60; kulhawy: by the blow count as driven and the stress",
            &["peck", "kulhawy"],
        ),
        Input::quantity(
            "n1_60",
            "N_1",
            "blow count at 60 % energy and 100 kPa; for peck",
            unit::ONE,
            Range::Within(0.0, 60.0),
        )
        .optional(),
        Input::quantity(
            "blows",
            "N",
            "blow count, not normalised; for kulhawy",
            unit::ONE,
            SOME_BLOWS,
        )
        .optional(),
        Input::quantity(
            "effective_vertical",
            "s_v",
            "effective vertical stress; for kulhawy",
            unit::KPA,
            STRESS,
        )
        .optional(),
    ],
    outputs: &[Output::new("friction_angle", "effective friction angle", unit::DEG)],
    source: PECK,
    example: &[("method", "peck"), ("n1_60", "25")],
    run: friction_angle,
};

pub(super) static SPT_UNDRAINED_STRENGTH: Worksheet = Worksheet {
    id: "spt-undrained-strength",
    title: "undrained strength of clay by the blow count",
    inputs: &[
        Input::quantity("n60", "N_60", "blow count at 60 % energy", unit::ONE, SOME_BLOWS),
        Input::quantity(
            "plasticity_index",
            "PI",
            "plasticity index",
            unit::PERCENT,
            Range::Within(0.15, 0.6),
        ),
    ],
    outputs: &[Output::new("strength", "undrained strength", unit::KPA)],
    source: SALGADO,
    example: &[("n60", "30"), ("plasticity_index", "30 %")],
    run: strength,
};

fn n60(v: &Values) -> Result<Sheet, Failure> {
    let bore = Length::from_si(v.si("bore_diameter"));
    let rods = Length::from_si(v.si("rod_length"));
    let of_bore = bore_factor(bore).map_err(|e| Failure::at("bore_diameter", e))?;
    let of_rods = rod_factor(rods).map_err(|e| Failure::at("rod_length", e))?;
    let n = spt_energy_corrected(
        v.si("blows"),
        v.si("hammer_efficiency"),
        bore,
        rods,
        v.si("sampler_factor"),
    )
    .map_err(|e| Failure::at("", e))?;
    let mut w = v.open();
    let table = "1 up to 115 mm, 1.05 at 150 mm, 1.15 at 200 mm, straight between";
    w.found("eta_B", "factor of the borehole", table, of_bore, unit::ONE, BETWEEN_BORES);
    let table = "0.75 up to 4 m, 0.85 up to 6 m, 0.95 up to 10 m, 1 above";
    w.found("eta_R", "factor of the rods", table, of_rods, unit::ONE, SKEMPTON);
    let formula = "N*eta_H/0.6*eta_B*eta_S*eta_R";
    w.result("N_60", "blow count at 60 % energy", formula, n, unit::ONE, SKEMPTON);
    Ok(Sheet::new(&[("n60", n)], w))
}

fn overburden(v: &Values) -> Result<Sheet, Failure> {
    let stress = Pressure::from_si(v.si("effective_vertical"));
    let (factor, reference, source) = match v.word("method") {
        "iso-22476-3" => (overburden_factor_iso(stress), ISO_STRESS, ISO),
        _ => (overburden_factor(stress), REFERENCE_PRESSURE, LIAO),
    };
    let factor = factor.map_err(|e| Failure::at("effective_vertical", e))?;
    let mut w = v.open();
    w.given_from("s_r", "common overburden", reference.si(), unit::KPA, source.clone());
    w.given_from("C_max", "cap of the factor", OVERBURDEN_CAP, unit::ONE, LIAO);
    w.result(
        "C_N",
        "overburden factor",
        "min(sqrt(s_r/s_v), C_max)",
        factor,
        unit::ONE,
        source.clone(),
    );
    let n = w.derive("N_1", "normalised blow count", "C_N*N_60", unit::ONE, source);
    Ok(Sheet::new(&[("factor", factor), ("n1_60", n)], w))
}

fn density(v: &Values) -> Result<Sheet, Failure> {
    let size = Length::from_si(v.si("grain_size"));
    // With a blow count of zero only the grain size can be at fault.
    relative_density(0.0, size).map_err(|e| Failure::at("grain_size", e))?;
    let density = relative_density(v.si("n1_60"), size).map_err(|e| Failure::at("n1_60", e))?;
    let mut w = v.open();
    let formula = "sqrt(N_1/(60 + 25*log10(d_50/1e-3)))";
    w.result("D_r", "relative density", formula, density, unit::PERCENT, KULHAWY);
    Ok(Sheet::new(&[("density", density)], w))
}

fn friction_angle(v: &Values) -> Result<Sheet, Failure> {
    let method = v.word("method");
    let why = format!("for method={method}");
    let mut w = v.open();
    let angle = if method == "kulhawy" {
        unused(v, &["n1_60"], "method=kulhawy")?;
        let stress = Pressure::from_si(v.needed("effective_vertical", &why)?);
        let angle = friction_angle_kulhawy(v.needed("blows", &why)?, stress)
            .map_err(|e| Failure::at("blows", e))?
            .si();
        w.given_from("p_a", "reference pressure", REFERENCE_PRESSURE.si(), unit::KPA, REFERENCE);
        let formula = "atan((N/(12.2 + 20.3*s_v/p_a))^0.34)";
        w.result("phi", "friction angle", formula, angle, unit::DEG, KULHAWY)
    } else {
        unused(v, &["blows", "effective_vertical"], "method=peck")?;
        let angle = friction_angle_peck(v.needed("n1_60", &why)?)
            .map_err(|e| Failure::at("n1_60", e))?
            .si();
        let formula = "(27.1 + 0.3*N_1 - 0.00054*N_1^2)*pi/180";
        w.result("phi", "friction angle", formula, angle, unit::DEG, PECK)
    };
    Ok(Sheet::new(&[("friction_angle", angle)], w))
}

fn strength(v: &Values) -> Result<Sheet, Failure> {
    let index = v.si("plasticity_index");
    let factor = strength_factor_spt(index).map_err(|e| Failure::at("plasticity_index", e))?;
    let strength =
        undrained_strength_spt(v.si("n60"), index).map_err(|e| Failure::at("n60", e))?.si();
    let mut w = v.open();
    let table = "0.068, 0.055, 0.048, 0.045, 0.044, 0.043 at 15, 20, 25, 30, 40, 60 %";
    w.found("alpha", "strength factor", table, factor, unit::ONE, SALGADO);
    w.given_from("p_a", "reference pressure", REFERENCE_PRESSURE.si(), unit::KPA, REFERENCE);
    w.result("s_u", "undrained strength", "alpha*p_a*N_60", strength, unit::KPA, SALGADO);
    Ok(Sheet::new(&[("strength", strength)], w))
}
