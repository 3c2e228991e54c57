use pull::bursting::{
    DifficultyClass, EQUIVALENT_SIZE, PlasticSeries, equivalent_plastic_size, sizes_up,
    upsize_class,
};
use quantity::{Length, unit};

use super::EXPANDER;
use crate::definition::{Input, Output, Range, Worksheet};
use crate::pulling::refused;
use crate::run::{Failure, Sheet, Values};

/// Nominal diameter of the old pipe; a bare number is in millimetres.
pub(super) const HOST_NOMINAL: Input = Input::quantity(
    "host_diameter",
    "DN",
    "nominal diameter of the old pipe; a bare number is in mm",
    unit::MM,
    Range::SIZE,
)
.bare(unit::MM);

/// A class as a word.
pub(super) fn word(class: DifficultyClass) -> &'static str {
    match class {
        DifficultyClass::A => "A",
        DifficultyClass::B => "B",
        DifficultyClass::C => "C",
    }
}

pub(super) static BURST_UPSIZE: Worksheet = Worksheet {
    id: "burst-upsize",
    title: "upsize of a socketed pipe by its expander",
    inputs: &[EXPANDER, HOST_NOMINAL],
    outputs: &[
        Output::new("least_diameter", "plastic pipe that the expander would fit", unit::MM),
        Output::new("metric_diameter", "next metric size, outside diameter", unit::MM),
        Output::new("inch_diameter", "next inch size, outside diameter", unit::MM),
        Output::new("sizes_up", "inch sizes from the old pipe up to that one", unit::ONE),
        Output::new("class", "class of the new pipe: A routine to C challenging", unit::ONE),
    ],
    source: EQUIVALENT_SIZE.source(),
    example: &[("expander_diameter", "260 mm"), ("host_diameter", "150 mm")],
    run: run_upsize,
};

fn run_upsize(v: &Values) -> Result<Sheet, Failure> {
    let expander = Length::from_si(v.si("expander_diameter"));
    let host = Length::from_si(v.si("host_diameter"));
    let at = |e| refused(&BURST_UPSIZE, &e);
    let metric = equivalent_plastic_size(expander, PlasticSeries::Metric).map_err(at)?;
    let inch = equivalent_plastic_size(expander, PlasticSeries::Inch).map_err(at)?;
    let sizes = f64::from(sizes_up(expander, host).map_err(at)?);
    let class = upsize_class(expander, host).map_err(at)?;
    let source = || EQUIVALENT_SIZE.source();
    let (least, metric) = (metric.least_diameter.si(), metric.outside_diameter.si());
    let (inch, nominal) = (inch.outside_diameter.si(), inch.nominal_diameter.si());
    let mut w = v.open();
    w.result("D_p", "plastic pipe it would fit", "D_e/1.2", least, unit::MM, source());
    let next = "next size of the series";
    w.found("D_1", "metric size", next, metric, unit::MM, source());
    w.found("D_2", "inch size", next, inch, unit::MM, source());
    w.found("DN_2", "its nominal diameter", "same size as DN", nominal, unit::MM, source());
    let counted = "sizes above DN up to and with DN_2";
    w.found("n", "sizes up", counted, sizes, unit::ONE, source());
    Ok(Sheet::new(
        &[
            ("least_diameter", least),
            ("metric_diameter", metric),
            ("inch_diameter", inch),
            ("sizes_up", sizes),
        ],
        w,
    )
    .with_word("class", word(class)))
}
