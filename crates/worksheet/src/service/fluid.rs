use quantity::{Density, GRAVITY, Length, unit};
use service::column_pressure;
use working::{Evidence, Source};

use crate::definition::{Input, Output, Range, Worksheet};
use crate::run::{Failure, Sheet, Values};

const HYDROSTATICS: Source = Source::new("hydrostatics, exact", Evidence::Derived);
static AT_REST: Source = Source::new("fluid at rest under the open sky", Evidence::Judgement);

pub(super) static FLUID_COLUMN: Worksheet = Worksheet {
    id: "fluid-column",
    title: "pressure of a column of fluid: drilling fluid outside, ballast inside, a deep siphon",
    inputs: &[
        Input::quantity("density", "rho", "density of the fluid", unit::KG_PER_M3, Range::Positive),
        Input::quantity("height", "h", "height of the column", unit::M, Range::NotNegative),
        Input::quantity(
            "surplus",
            "p_0",
            "pressure on top of the column, as of a pump",
            unit::KPA,
            Range::NotNegative,
        )
        .or("0 kPa", &AT_REST),
    ],
    outputs: &[
        Output::new("column", "pressure of the column alone", unit::KPA),
        Output::new("pressure", "pressure at its foot", unit::KPA),
    ],
    source: HYDROSTATICS,
    example: &[("density", "1200 kg/m3"), ("height", "15 m")],
    run: run_column,
};

fn run_column(v: &Values) -> Result<Sheet, Failure> {
    let density = Density::from_si(v.si("density"));
    let column = column_pressure(density, Length::from_si(v.si("height")));
    let column = column.map_err(|e| Failure::at("", e))?.si();
    let mut s = v.open();
    let gravity = Source::new("ISO 80000-3, m/s2", Evidence::Published);
    s.given_from("g", "acceleration of gravity", GRAVITY, unit::ONE, gravity);
    s.result("p_h", "column alone", "rho*g*h", column, unit::KPA, HYDROSTATICS);
    let pressure = s.derive("p", "at its foot", "p_0 + p_h", unit::KPA, HYDROSTATICS);
    Ok(Sheet::new(&[("column", column), ("pressure", pressure)], s))
}
