use ground::{
    OPERATIONAL_SHARE, SptSoil, operational_shear_modulus, shear_modulus_from_youngs,
    shear_modulus_small_clay, shear_modulus_small_sand, youngs_from_oedometric, youngs_modulus_spt,
};
use quantity::{Pressure, unit};
use working::{Evidence, Source};

use super::{MODULUS, RESISTANCE, STRESS, unused};
use crate::definition::{Input, Output, Range, Worksheet};
use crate::run::{Failure, Sheet, Values};

const AASHTO: Source =
    Source::new("AASHTO 1997, through an open geotechnical library", Evidence::Published);
const RIX: Source =
    Source::new("Rix & Stokoe 1991, through an open geotechnical library", Evidence::Published);
const MAYNE_RIX: Source =
    Source::new("Mayne & Rix 1993, through an open geotechnical library", Evidence::Published);
const SHARE: Source = Source::new("shear strain of 0.5 % to 2 %", Evidence::FromMemory);
const ELASTIC: Source = Source::new("theory of elasticity, exact", Evidence::Derived);
static DRAINED: Source = Source::new("drained ground", Evidence::Judgement);

pub(super) static SPT_MODULUS: Worksheet = Worksheet {
    id: "spt-modulus",
    title: "modulus of granular ground by the blow count",
    inputs: &[
        Input::choice(
            "soil",
            "silt; fine-sand: clean, fine to medium; coarse-sand; gravel",
            &["silt", "fine-sand", "coarse-sand", "gravel"],
        ),
        Input::quantity(
            "n1_60",
            "N_1",
            "blow count at 60 % energy and 100 kPa",
            unit::ONE,
            Range::Above(0.0, 100.0),
        ),
        Input::quantity("poisson", "nu", "Poisson's ratio", unit::ONE, Range::Within(0.0, 0.5))
            .or("0.3", &DRAINED),
    ],
    outputs: &[
        Output::new("youngs_modulus", "Young's modulus", unit::MPA),
        Output::new("shear_modulus", "shear modulus", unit::MPA),
    ],
    source: AASHTO,
    example: &[("soil", "coarse-sand"), ("n1_60", "25")],
    run: by_blows,
};

pub(super) static SMALL_STRAIN_MODULUS: Worksheet = Worksheet {
    id: "small-strain-modulus",
    title: "shear modulus at small strain by the resistance of a cone",
    inputs: &[
        Input::choice("soil", "sand or clay", &["sand", "clay"]),
        Input::quantity("tip_resistance", "q_c", "tip resistance", unit::MPA, RESISTANCE),
        Input::quantity(
            "effective_vertical",
            "s_v",
            "effective vertical stress; for sand",
            unit::KPA,
            STRESS,
        )
        .optional(),
    ],
    outputs: &[
        Output::new("modulus", "shear modulus at very small strain", unit::MPA),
        Output::new("least", "shear modulus at 2 % of shear strain, about", unit::MPA),
        Output::new("greatest", "shear modulus at 0.5 % of shear strain, about", unit::MPA),
    ],
    source: RIX,
    example: &[("soil", "sand"), ("tip_resistance", "15 MPa"), ("effective_vertical", "100 kPa")],
    run: small_strain,
};

pub(super) static SHEAR_MODULUS: Worksheet = Worksheet {
    id: "shear-modulus",
    title: "shear modulus from another modulus",
    inputs: &[
        Input::choice(
            "kind",
            "youngs: free to widen; oedometric: no sideways strain",
            &["youngs", "oedometric"],
        ),
        Input::quantity("modulus", "M", "the known modulus", unit::MPA, MODULUS),
        Input::quantity(
            "poisson",
            "nu",
            "Poisson's ratio; below 0.5 for oedometric",
            unit::ONE,
            Range::Within(0.0, 0.5),
        )
        .or("0.3", &DRAINED),
    ],
    outputs: &[
        Output::new("youngs_modulus", "Young's modulus", unit::MPA),
        Output::new("shear_modulus", "shear modulus", unit::MPA),
    ],
    source: ELASTIC,
    example: &[("kind", "oedometric"), ("modulus", "20 MPa")],
    run: from_another,
};

fn by_blows(v: &Values) -> Result<Sheet, Failure> {
    let soil = match v.word("soil") {
        "silt" => SptSoil::Silt,
        "fine-sand" => SptSoil::FineSand,
        "coarse-sand" => SptSoil::CoarseSand,
        _ => SptSoil::Gravel,
    };
    let youngs = youngs_modulus_spt(v.si("n1_60"), soil).map_err(|e| Failure::at("n1_60", e))?;
    let shear = shear_modulus_from_youngs(youngs, v.si("poisson"))
        .map_err(|e| Failure::at("n1_60", e))?
        .si();
    let mut w = v.open();
    w.given_from("e", "modulus for one blow", soil.modulus_per_blow().si(), unit::MPA, AASHTO);
    w.result("E", "Young's modulus", "e*N_1", youngs.si(), unit::MPA, AASHTO);
    w.result("G", "shear modulus", "E/(2*(1 + nu))", shear, unit::MPA, ELASTIC);
    Ok(Sheet::new(&[("youngs_modulus", youngs.si()), ("shear_modulus", shear)], w))
}

fn small_strain(v: &Values) -> Result<Sheet, Failure> {
    let tip = Pressure::from_si(v.si("tip_resistance"));
    let (modulus, formula, source) = if v.word("soil") == "clay" {
        unused(v, &["effective_vertical"], "soil=clay")?;
        (shear_modulus_small_clay(tip), "2.78*(q_c/1e3)^1.335*1e3", MAYNE_RIX)
    } else {
        let stress = Pressure::from_si(v.needed("effective_vertical", "for soil=sand")?);
        let formula = "1634*(q_c/1e3)^0.25*(s_v/1e3)^0.375*1e3";
        (shear_modulus_small_sand(tip, stress), formula, RIX)
    };
    let refused = |e| Failure::at("tip_resistance", e);
    let modulus = modulus.map_err(refused)?;
    let (least, greatest) = operational_shear_modulus(modulus).map_err(refused)?;
    let mut w = v.open();
    w.result("G_max", "modulus at very small strain", formula, modulus.si(), unit::MPA, source);
    w.given_from("k_min", "least share that is left", OPERATIONAL_SHARE.0, unit::ONE, SHARE);
    w.given_from("k_max", "greatest share that is left", OPERATIONAL_SHARE.1, unit::ONE, SHARE);
    w.result("G_l", "least modulus", "k_min*G_max", least.si(), unit::MPA, SHARE);
    w.result("G_u", "greatest modulus", "k_max*G_max", greatest.si(), unit::MPA, SHARE);
    let outputs = [("modulus", modulus.si()), ("least", least.si()), ("greatest", greatest.si())];
    Ok(Sheet::new(&outputs, w))
}

fn from_another(v: &Values) -> Result<Sheet, Failure> {
    let (known, nu) = (Pressure::from_si(v.si("modulus")), v.si("poisson"));
    let (youngs, formula) = if v.word("kind") == "oedometric" {
        let youngs = youngs_from_oedometric(known, nu).map_err(|e| Failure::at("poisson", e))?;
        (youngs, "M*(1 + nu)*(1 - 2*nu)/(1 - nu)")
    } else {
        (known, "M")
    };
    let shear = shear_modulus_from_youngs(youngs, nu).map_err(|e| Failure::at("modulus", e))?.si();
    let mut w = v.open();
    w.result("E", "Young's modulus", formula, youngs.si(), unit::MPA, ELASTIC);
    w.result("G", "shear modulus", "E/(2*(1 + nu))", shear, unit::MPA, ELASTIC);
    Ok(Sheet::new(&[("youngs_modulus", youngs.si()), ("shear_modulus", shear)], w))
}
