use fluid::{cut_volume, fluid_volume, largest_advance, pass_diameters};
use quantity::{Length, unit};
use working::{Evidence, Source};

use super::{VOLUMES, flow, length, refused};
use crate::definition::{Input, Output, Range, Worksheet};
use crate::run::{Failure, Sheet, Values};

const EQUAL: Source = Source::new("equal areas of all passes, exact", Evidence::Derived);

const BEFORE: Input = Input::quantity(
    "diameter_before",
    "D_b",
    "diameter before the pass; 0 for a pilot",
    unit::MM,
    Range::SIZE_OR_NONE,
);
const AFTER: Input =
    Input::quantity("diameter_after", "D_a", "diameter after the pass", unit::MM, Range::SIZE);
pub(super) const RATIO: Input = Input::quantity(
    "fluid_ratio",
    "r",
    "volume of fluid over ground cut in this pass",
    unit::ONE,
    Range::Positive,
);

pub(super) static REAM_VOLUME: Worksheet = Worksheet {
    id: "ream-volume",
    title: "ground cut by a pass and drilling fluid that it needs",
    inputs: &[
        Input::quantity("length", "L", "length of the pass", unit::M, Range::NotNegative),
        BEFORE,
        AFTER,
        RATIO,
    ],
    outputs: &[
        Output::new("cut_volume", "ground cut by this pass", unit::M3),
        Output::new("fluid_volume", "drilling fluid for it", unit::M3),
    ],
    source: VOLUMES,
    example: &[
        ("length", "150 m"),
        ("diameter_before", "350 mm"),
        ("diameter_after", "500 mm"),
        ("fluid_ratio", "3"),
    ],
    run: run_volume,
};

fn run_volume(v: &Values) -> Result<Sheet, Failure> {
    let mut s = v.open();
    let fail = |e| refused(&REAM_VOLUME, &e);
    let (before, after) = (length(v, "diameter_before"), length(v, "diameter_after"));
    let cut = cut_volume(length(v, "length"), before, after).map_err(fail)?;
    let fluid = fluid_volume(cut, v.si("fluid_ratio")).map_err(fail)?.si();
    let formula = "pi/4*(D_a^2 - D_b^2)*L";
    s.result("V", "ground cut by this pass", formula, cut.si(), unit::M3, VOLUMES);
    s.result("V_f", "drilling fluid for it", "r*V", fluid, unit::M3, VOLUMES);
    Ok(Sheet::new(&[("cut_volume", cut.si()), ("fluid_volume", fluid)], s))
}

pub(super) static REAM_STEPS: Worksheet = Worksheet {
    id: "ream-steps",
    title: "diameter after a reaming pass when every pass cuts the same area",
    inputs: &[
        Input::quantity("pilot", "D_0", "diameter of the pilot bore", unit::MM, Range::SIZE),
        Input::quantity("last", "D_m", "diameter of the last pass", unit::MM, Range::SIZE),
        Input::quantity("passes", "m", "number of passes", unit::ONE, Range::Within(1.0, 50.0)),
        Input::quantity("pass", "i", "which pass, from 1", unit::ONE, Range::Within(1.0, 50.0)),
    ],
    outputs: &[
        Output::new("diameter", "diameter after this pass", unit::MM),
        Output::new("area", "area that every pass cuts", unit::M2),
    ],
    source: EQUAL,
    example: &[("pilot", "165 mm"), ("last", "615 mm"), ("passes", "3"), ("pass", "1")],
    run: run_steps,
};

/// A count from 1 to `most`.
fn count(v: &Values, key: &'static str, most: u32) -> Result<u32, Failure> {
    let wanted = v.si(key);
    (1..=most)
        .find(|whole| f64::from(*whole) == wanted)
        .ok_or_else(|| Failure::at(key, format!("must be a whole number from 1 to {most}")))
}

fn run_steps(v: &Values) -> Result<Sheet, Failure> {
    let mut s = v.open();
    let passes = count(v, "passes", 50)?;
    let pass = count(v, "pass", passes)?;
    let fail = |e| Failure::at("last", e);
    let list = pass_diameters(length(v, "pilot"), length(v, "last"), passes).map_err(fail)?;
    let diameter = (1..).zip(&list).find(|(i, _)| *i == pass).map_or(f64::NAN, |(_, d)| d.si());
    let whole = cut_volume(Length::metres(1.0), length(v, "pilot"), length(v, "last"));
    let area = whole.map_err(fail)?.si() / f64::from(passes);
    let formula = "pi/4*(D_m^2 - D_0^2)/m";
    s.result("A", "area that every pass cuts", formula, area, unit::M2, EQUAL);
    let formula = "sqrt(D_0^2 + i/m*(D_m^2 - D_0^2))";
    s.result("D_i", "diameter after this pass", formula, diameter, unit::MM, EQUAL);
    Ok(Sheet::new(&[("diameter", diameter), ("area", area)], s))
}

pub(super) static ADVANCE_LIMIT: Worksheet = Worksheet {
    id: "advance-limit",
    title: "fastest advance of a pass that the pump can serve",
    inputs: &[
        Input::quantity("flow", "Q", "rated flow of the pump", unit::L_PER_MIN, Range::Positive),
        Input::quantity(
            "efficiency",
            "eta",
            "share of it that the pump delivers",
            unit::PERCENT,
            Range::Above(0.0, 1.0),
        ),
        RATIO,
        BEFORE,
        AFTER,
        Input::quantity("rod_length", "L_r", "length of one rod", unit::M, Range::Positive),
    ],
    outputs: &[
        Output::new("advance", "fastest advance", unit::M_PER_MIN),
        Output::new("rod_time", "time that one rod takes", unit::MIN),
    ],
    source: VOLUMES,
    example: &[
        ("flow", "600 l/min"),
        ("efficiency", "90 %"),
        ("fluid_ratio", "3"),
        ("diameter_before", "500 mm"),
        ("diameter_after", "615 mm"),
        ("rod_length", "4.5 m"),
    ],
    run: run_advance,
};

fn run_advance(v: &Values) -> Result<Sheet, Failure> {
    let mut s = v.open();
    let (before, after) = (length(v, "diameter_before"), length(v, "diameter_after"));
    let (efficiency, ratio) = (v.si("efficiency"), v.si("fluid_ratio"));
    let advance = largest_advance(flow(v), efficiency, ratio, before, after)
        .map_err(|e| refused(&ADVANCE_LIMIT, &e))?
        .si();
    let formula = "Q*eta/(r*pi/4*(D_a^2 - D_b^2))";
    s.result("v", "fastest advance", formula, advance, unit::M_PER_MIN, VOLUMES);
    let time = s.derive("t", "time that one rod takes", "L_r/v", unit::MIN, VOLUMES);
    Ok(Sheet::new(&[("advance", advance), ("rod_time", time)], s))
}
