use pull::published::{CALIBRATION, NINETY_PERCENT, calibration};
use quantity::unit;
use working::{Evidence, Source};

use super::refused;
use crate::definition::{Input, Output, Range, Worksheet};
use crate::run::{Failure, Sheet, Values};

static SPREAD: Source = Source::new(
    "spread assumed for computed and for measured forces; no published value was found",
    Evidence::Judgement,
);

const fn ratio(key: &'static str, symbol: &'static str) -> Input {
    Input::quantity(key, symbol, "measured over computed force", unit::ONE, Range::Positive)
}

/// Keys and symbols of the readings.
const READINGS: [(&str, &str); 6] = [
    ("ratio_1", "r1"),
    ("ratio_2", "r2"),
    ("ratio_3", "r3"),
    ("ratio_4", "r4"),
    ("ratio_5", "r5"),
    ("ratio_6", "r6"),
];

pub(super) static CALIBRATION_SHEET: Worksheet = Worksheet {
    id: "calibration",
    title: "correction of a forecast from measured over computed",
    inputs: &[
        ratio("ratio_1", "r1"),
        ratio("ratio_2", "r2").optional(),
        ratio("ratio_3", "r3").optional(),
        ratio("ratio_4", "r4").optional(),
        ratio("ratio_5", "r5").optional(),
        ratio("ratio_6", "r6").optional(),
        Input::quantity(
            "prior_sd",
            "s0",
            "standard deviation of the logarithm before readings",
            unit::ONE,
            Range::Within(1e-3, 3.0),
        )
        .or("0.4", &SPREAD),
        Input::quantity(
            "observation_sd",
            "s1",
            "standard deviation of the logarithm of one reading",
            unit::ONE,
            Range::Within(1e-3, 3.0),
        )
        .or("0.1", &SPREAD),
    ],
    outputs: &[
        Output::new("factor", "median of the correction", unit::ONE),
        Output::new("sd_ln", "standard deviation of its logarithm", unit::ONE),
        Output::new("p90", "correction exceeded in one case of ten", unit::ONE),
    ],
    source: CALIBRATION.source(),
    example: &[("ratio_1", "1.25"), ("ratio_2", "1.20"), ("ratio_3", "1.30")],
    run: run_calibration,
};

fn run_calibration(v: &Values) -> Result<Sheet, Failure> {
    let (symbols, ratios): (Vec<_>, Vec<_>) = READINGS
        .iter()
        .filter_map(|(key, symbol)| v.optional(key).map(|value| (*symbol, value)))
        .unzip();
    let found = calibration(&ratios, v.si("prior_sd"), v.si("observation_sd"))
        .map_err(|e| refused(&CALIBRATION_SHEET, &e))?;
    let source = || CALIBRATION.source();
    let mut w = v.open();
    let precision = format!("1/s0^2 + {}/s1^2", ratios.len());
    w.derive("P", "reciprocal of the variance", &precision, unit::ONE, source());
    let logs: Vec<_> = symbols.iter().map(|s| format!("ln({s})")).collect();
    let mean = format!("({})/s1^2/P", logs.join(" + "));
    w.derive("M", "mean of the logarithm", &mean, unit::ONE, source());
    w.result("k", "median of the correction", "exp(M)", found.factor, unit::ONE, source());
    w.result("s", "its spread", "1/sqrt(P)", found.sd_ln, unit::ONE, source());
    let p90 = format!("exp(M + {NINETY_PERCENT}*s)");
    w.result("k90", "correction for one case in ten", &p90, found.p90, unit::ONE, source());
    Ok(Sheet::new(&[("factor", found.factor), ("sd_ln", found.sd_ln), ("p90", found.p90)], w))
}
