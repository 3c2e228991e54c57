use fluid::{
    annulus_loss, annulus_loss_any_regime, annulus_loss_equal_pipe, laminar_limit, turbulent_limit,
};
use quantity::{Density, unit};
use working::{Evidence, Source};

use super::annulus::laminar_steps;
use super::{
    API, CONSISTENCY, DENSITY, FLOW, HOLE, INDEX, LAMINAR_LIMIT, SLOT, STRING, TURBULENT_LIMIT,
    YIELD, flow, length, refused, rheology,
};
use crate::definition::{Output, Worksheet};
use crate::run::{Failure, Sheet, Values};

const GUO: Source =
    Source::new("Guo & Liu, Applied Drilling Circulation Systems, p. 45", Evidence::Published);
const GREATER: Source = Source::new(
    "API RP 13D equations of May 2002; between the limits the greater loss",
    Evidence::Judgement,
);

pub(super) static ANNULUS_REGIME: Worksheet = Worksheet {
    id: "annulus-regime",
    title: "pressure lost per length in the annulus, laminar or turbulent",
    inputs: &[HOLE, STRING, FLOW, DENSITY, YIELD, CONSISTENCY, INDEX],
    outputs: &[
        Output::new("gradient", "pressure lost per length", unit::PA_PER_M),
        Output::new("velocity", "mean velocity", unit::M_PER_S),
        Output::new("reynolds", "Reynolds number", unit::ONE),
        Output::new("regime", "laminar, transition or turbulent", unit::ONE),
    ],
    source: GREATER,
    example: &[
        ("hole_diameter", "165.1 mm"),
        ("string_diameter", "88.9 mm"),
        ("flow", "378.5 l/min"),
        ("density", "1080 kg/m3"),
        ("yield_stress", "0 Pa"),
        ("consistency", "3.03466"),
        ("flow_index", "0.2549"),
    ],
    run: run_regime,
};

/// Word for the regime of a Reynolds number.
pub(super) fn regime(reynolds: f64, flow_index: f64) -> &'static str {
    if reynolds <= laminar_limit(flow_index) {
        "laminar"
    } else if reynolds < turbulent_limit(flow_index) {
        "transition"
    } else {
        "turbulent"
    }
}

fn run_regime(v: &Values) -> Result<Sheet, Failure> {
    let mut s = v.open();
    let fail = |e| refused(&ANNULUS_REGIME, &e);
    let fluid = rheology(v).map_err(fail)?;
    let (hole, string) = (length(v, "hole_diameter"), length(v, "string_diameter"));
    let density = Density::from_si(v.si("density"));
    let laminar = annulus_loss(&fluid, hole, string, flow(v)).map_err(fail)?;
    let (loss, re, is_laminar) =
        annulus_loss_any_regime(&fluid, hole, string, flow(v), density).map_err(fail)?;
    laminar_steps(&mut s, &laminar);
    if laminar.velocity.si() > 0.0 {
        s.result("Re", "Reynolds number", "12*rho*v^2/tau_w", re, unit::ONE, SLOT);
    }
    s.derive("Re_l", "laminar up to", "3470 - 1370*n", unit::ONE, LAMINAR_LIMIT);
    s.derive("Re_t", "turbulent from", "4270 - 1370*n", unit::ONE, TURBULENT_LIMIT);
    let gradient = loss.gradient.si();
    let formula = if is_laminar {
        "4*tau_w/(D2 - D1)"
    } else {
        let formula = "(log10(n) + 3.93)/50/Re^((1.75 - log10(n))/7)";
        s.derive("f", "friction factor of turbulent flow", formula, unit::ONE, API);
        "4*max(tau_w, f*rho*v^2/2)/(D2 - D1)"
    };
    s.result("G", "pressure lost per length", formula, gradient, unit::PA_PER_M, GREATER);
    let outputs = [("gradient", gradient), ("velocity", loss.velocity.si()), ("reynolds", re)];
    let word = regime(re, fluid.flow_index());
    Ok(Sheet::new(&outputs, s).with_word("regime", word))
}

pub(super) static ANNULUS_EQUAL_PIPE: Worksheet = Worksheet {
    id: "annulus-equal-pipe",
    title: "turbulent loss in the annulus by an equal pipe, oil-field form for comparison",
    inputs: &[HOLE, STRING, FLOW, DENSITY, YIELD, CONSISTENCY, INDEX],
    outputs: &[
        Output::new("gradient", "pressure lost per length", unit::PA_PER_M),
        Output::new("velocity", "mean velocity", unit::M_PER_S),
        Output::new("reynolds", "Reynolds number of the equal pipe", unit::ONE),
        Output::new("friction_factor", "Fanning's friction factor", unit::ONE),
    ],
    source: GUO,
    example: &[
        ("hole_diameter", "8.5 in"),
        ("string_diameter", "4.5 in"),
        ("flow", "300 gal/min"),
        ("density", "10.5 ppg"),
        ("yield_stress", "0 Pa"),
        ("consistency", "0.020"),
        ("flow_index", "0.8"),
    ],
    run: run_equal_pipe,
};

fn run_equal_pipe(v: &Values) -> Result<Sheet, Failure> {
    let mut s = v.open();
    let fail = |e| refused(&ANNULUS_EQUAL_PIPE, &e);
    let fluid = rheology(v).map_err(fail)?;
    let (hole, string) = (length(v, "hole_diameter"), length(v, "string_diameter"));
    let density = Density::from_si(v.si("density"));
    let laminar = annulus_loss(&fluid, hole, string, flow(v)).map_err(fail)?;
    let equal = annulus_loss_equal_pipe(&fluid, hole, string, flow(v), density).map_err(fail)?;
    laminar_steps(&mut s, &laminar);
    let (re, f) = (equal.reynolds, equal.friction_factor);
    let gradient = equal.flow.gradient.si();
    s.result("Re", "Reynolds number", "0.816*12*rho*v^2/tau_w", re, unit::ONE, GUO);
    s.result("f", "friction factor", "0.0791/Re^0.25", f, unit::ONE, GUO);
    let formula = "2*f*rho*v^2/(0.816*(D2 - D1))";
    s.result("G", "pressure lost per length", formula, gradient, unit::PA_PER_M, GUO);
    let outputs = [
        ("gradient", gradient),
        ("velocity", equal.flow.velocity.si()),
        ("reynolds", re),
        ("friction_factor", f),
    ];
    Ok(Sheet::new(&outputs, s))
}
