use pipe::{flange_rating, rating_from_wall, wall_for_pressure};
use quantity::{Length, Pressure, unit};
use working::{Evidence, Source};

use crate::definition::{Input, Output, Range, Worksheet};
use crate::run::{Failure, Sheet, Values};

const EN545: Source =
    Source::new("EN 545:2010, Rm 420 MPa, safety 3, mean diameter DE - e", Evidence::Published);
const PMA: Source = Source::new("EN 545 / EN 805 as quoted by a maker", Evidence::Published);

const OUTSIDE: Input =
    Input::quantity("outside_diameter", "DE", "outside diameter", unit::MM, Range::SIZE);

pub(super) static WALL_EN545: Worksheet = Worksheet {
    id: "wall-en545",
    title: "minimum wall for a pressure class (EN 545)",
    inputs: &[
        OUTSIDE,
        Input::quantity(
            "pressure_class",
            "p",
            "pressure class, the allowable operating pressure; a bare number is in bar, as in C40",
            unit::BAR,
            Range::Positive,
        )
        .bare(unit::BAR),
    ],
    outputs: &[Output::new(
        "wall_min",
        "minimum wall; casting needs at least 3.0 mm, which the formula does not know",
        unit::MM,
    )],
    source: Source::new("EN 545:2010, pressure formula, checked on its table", Evidence::Published),
    example: &[("outside_diameter", "326 mm"), ("pressure_class", "40")],
    run: run_wall,
};

pub(super) static PRESSURE_EN545: Worksheet = Worksheet {
    id: "pressure-en545",
    title: "allowable pressures from the minimum wall (EN 545)",
    inputs: &[OUTSIDE, Input::quantity("wall_min", "e", "minimum wall", unit::MM, Range::SIZE)],
    outputs: &[
        Output::new("pfa", "allowable operating pressure", unit::BAR),
        Output::new("pma", "allowable maximum operating pressure, with surge", unit::BAR),
        Output::new("pea", "allowable site test pressure", unit::BAR),
    ],
    source: Source::new("EN 545:2010, pressure formula, checked on its table", Evidence::Published),
    example: &[("outside_diameter", "326 mm"), ("wall_min", "4.6 mm")],
    run: run_pressure,
};

fn run_wall(v: &Values) -> Result<Sheet, Failure> {
    let de = Length::from_si(v.si("outside_diameter"));
    let p = Pressure::from_si(v.si("pressure_class"));
    let wall = wall_for_pressure(de, p).map_err(|e| Failure::at("", e))?.si();
    let mut s = v.open();
    s.given_from("Rm", "tensile strength", pipe::TENSILE_STRENGTH.si(), unit::MPA, EN545);
    s.given_from("SF", "safety against bursting", pipe::PRESSURE_SAFETY, unit::ONE, EN545);
    s.result("e_min", "minimum wall", "p*SF*DE/(2*Rm + p*SF)", wall, unit::MM, EN545);
    Ok(Sheet::new(&[("wall_min", wall)], s))
}

fn run_pressure(v: &Values) -> Result<Sheet, Failure> {
    let de = Length::from_si(v.si("outside_diameter"));
    let e = Length::from_si(v.si("wall_min"));
    let r = rating_from_wall(de, e).map_err(|e| Failure::at("wall_min", e))?;
    let (pfa, pma, pea) = (r.pfa.si(), r.pma.si(), r.pea.si());
    let mut s = v.open();
    s.given_from("Rm", "tensile strength", pipe::TENSILE_STRENGTH.si(), unit::MPA, EN545);
    s.given_from("SF", "safety against bursting", pipe::PRESSURE_SAFETY, unit::ONE, EN545);
    s.result("PFA", "allowable operating pressure", "2*e*Rm/((DE - e)*SF)", pfa, unit::BAR, EN545);
    s.result("PMA", "allowable maximum operating pressure", "1.2*PFA", pma, unit::BAR, PMA);
    s.result("PEA", "allowable site test pressure", "PMA + 5e5", pea, unit::BAR, PMA);
    Ok(Sheet::new(&[("pfa", pfa), ("pma", pma), ("pea", pea)], s))
}

pub(super) static FLANGE_RATING: Worksheet = Worksheet {
    id: "flange-rating",
    title: "allowable pressures of a flanged component (EN 545)",
    inputs: &[Input::choice("nominal_pressure", "PN of the flange", &["10", "16", "25", "40"])],
    outputs: &[
        Output::new("pfa", "allowable operating pressure", unit::BAR),
        Output::new("pma", "allowable maximum operating pressure, with surge", unit::BAR),
        Output::new("pea", "allowable site test pressure", unit::BAR),
    ],
    source: PMA,
    example: &[("nominal_pressure", "10")],
    run: run_flange,
};

fn run_flange(v: &Values) -> Result<Sheet, Failure> {
    let refused = |e: &dyn std::fmt::Display| Failure::at("nominal_pressure", e);
    let number = v.word("nominal_pressure").parse().map_err(|e| refused(&e))?;
    let r = flange_rating(number).map_err(|e| refused(&e))?;
    let (pfa, pma, pea) = (r.pfa.si(), r.pma.si(), r.pea.si());
    let mut s = v.open();
    s.given_from("PFA", "allowable operating pressure", pfa, unit::BAR, r.source.clone());
    s.given_from("PMA", "allowable maximum operating pressure", pma, unit::BAR, r.source);
    s.given_from("PEA", "allowable site test pressure", pea, unit::BAR, r.pea_source);
    Ok(Sheet::new(&[("pfa", pfa), ("pma", pma), ("pea", pea)], s))
}
