use fluid::{DialReadings, FluidError, Model, Rheology, fit};
use quantity::unit;
use working::{Builder, Evidence, Source};

use super::API;
use crate::definition::{Input, Output, Range, Worksheet};
use crate::run::{Failure, Sheet, Values};

const FIELD: Source = Source::new("rule of the standard viscometer", Evidence::FromMemory);
const GUO: Source = Source::new(
    "Guo & Liu, Applied Drilling Circulation Systems, eq. 2.12 to 2.14",
    Evidence::Published,
);
const READINGS: Source = Source::new(
    "API RP 13D equations of May 2002; Guo & Liu, Applied Drilling Circulation Systems, eq. 2.12 \
     to 2.14; Bingham's rule from memory",
    Evidence::FromMemory,
);

/// A reading: a tenth of a degree is the least that can be read.
const DIAL: Range = Range::Above(0.0, 1000.0);

const fn dial(key: &'static str, symbol: &'static str, meaning: &'static str) -> Input {
    Input::quantity(key, symbol, meaning, unit::ONE, DIAL)
}

pub(super) static FLUID_MODEL: Worksheet = Worksheet {
    id: "fluid-model",
    title: "parameters of a drilling fluid from the dial readings of a viscometer",
    inputs: &[
        dial("r600", "R600", "reading at 600 turns a minute"),
        dial("r300", "R300", "reading at 300 turns a minute"),
        dial("r100", "R100", "reading at 100 turns a minute"),
        dial("r6", "R6", "reading at 6 turns a minute"),
        dial("r3", "R3", "reading at 3 turns a minute"),
    ],
    outputs: &[
        Output::new("bingham_viscosity", "plastic viscosity of Bingham's law", unit::MPA_S),
        Output::new("bingham_yield", "yield point of Bingham's law", unit::PA),
        Output::new("power_index", "flow index of the power law for an annulus", unit::ONE),
        Output::new("power_consistency", "its consistency, Pa·s^n", unit::ONE),
        Output::new("pipe_index", "flow index of the power law inside rods", unit::ONE),
        Output::new("pipe_consistency", "its consistency, Pa·s^n", unit::ONE),
        Output::new("hb_yield", "yield stress of the Herschel-Bulkley law", unit::PA),
        Output::new("hb_index", "its flow index", unit::ONE),
        Output::new("hb_consistency", "its consistency, Pa·s^n", unit::ONE),
        Output::new(
            "hb_law",
            "herschel-bulkley, or power-law where the readings give no yield stress",
            unit::ONE,
        ),
    ],
    source: READINGS,
    example: &[("r600", "50"), ("r300", "35"), ("r100", "22"), ("r6", "10"), ("r3", "9")],
    run: run_model,
};

fn run_model(v: &Values) -> Result<Sheet, Failure> {
    let readings = DialReadings {
        r600: v.si("r600"),
        r300: v.si("r300"),
        r100: Some(v.si("r100")),
        r6: Some(v.si("r6")),
        r3: Some(v.si("r3")),
    };
    let of = |model| fit(model, &readings).map_err(|e| at_reading(&e));
    let bingham = of(Model::Bingham)?.rheology;
    let annulus = of(Model::PowerLawAnnulus)?.rheology;
    let rods = of(Model::PowerLawPipe)?.rheology;
    let hb = of(Model::HerschelBulkley)?;
    let mut s = v.open();
    let (mu, tau) = (bingham.consistency(), bingham.yield_stress().si());
    let (field, one) = (|| FIELD, unit::ONE);
    s.result("mu_p", "plastic viscosity", "(R600 - R300)*0.001", mu, unit::MPA_S, field());
    let formula = "(2*R300 - R600)*0.478802590";
    s.result("tau_0", "yield point, of lbf/100 ft2", formula, tau, unit::PA, field());
    power(&mut s, "a", "power law, annulus", &annulus, "ln(R100/R3)/ln(100/3)", "R100/170.3");
    power(&mut s, "p", "power law, rods", &rods, "ln(R600/R300)/ln(2)", "R300/511");
    let law = hb.rheology;
    s.derive("theta", "reading that yield alone gives", "max(2*R3 - R6, 0)", one, GUO);
    let tau_y = law.yield_stress().si();
    s.result("tau_y", "Herschel-Bulkley: yield stress", "0.511*theta", tau_y, unit::PA, GUO);
    let formula = "ln((R600 - theta)/(R300 - theta))/ln(2)";
    let (index, consistency) = (law.flow_index(), law.consistency());
    s.result("n_h", "Herschel-Bulkley: flow index", formula, index, one, GUO);
    let formula = "0.511*(R300 - theta)/511^n_h";
    s.result("K_h", "Herschel-Bulkley: consistency, Pa·s^n", formula, consistency, one, GUO);
    let name = if hb.remark.is_some() { "power-law" } else { "herschel-bulkley" };
    Ok(Sheet::new(
        &[
            ("bingham_viscosity", mu),
            ("bingham_yield", tau),
            ("power_index", annulus.flow_index()),
            ("power_consistency", annulus.consistency()),
            ("pipe_index", rods.flow_index()),
            ("pipe_consistency", rods.consistency()),
            ("hb_yield", tau_y),
            ("hb_index", index),
            ("hb_consistency", consistency),
        ],
        s,
    )
    .with_word("hb_law", name))
}

/// Index and consistency of a power law; `at` is the reading over its shear rate.
fn power(s: &mut Builder, mark: &str, name: &str, law: &Rheology, index: &str, at: &str) {
    let (n, k) = (format!("n_{mark}"), format!("K_{mark}"));
    s.result(&n, &format!("{name}: flow index"), index, law.flow_index(), unit::ONE, API);
    let (reading, rate) = at.split_once('/').unwrap_or((at, "1"));
    let formula = format!("0.511*{reading}/{rate}^{n}");
    let meaning = format!("{name}: consistency, Pa·s^n");
    s.result(&k, &meaning, &formula, law.consistency(), unit::ONE, API);
}

/// A refusal at the reading that it names first.
fn at_reading(error: &FluidError) -> Failure {
    let text = error.to_string();
    // The longer speed first: "at 6" also stands in "at 600".
    let speeds = [("600", "r600"), ("300", "r300"), ("100", "r100"), ("6", "r6"), ("3", "r3")];
    let key = speeds
        .into_iter()
        .filter_map(|(speed, key)| Some((text.find(&format!("at {speed}"))?, key)))
        .min_by_key(|(at, _)| *at)
        .map_or("", |(_, key)| key);
    Failure::at(key, error)
}
