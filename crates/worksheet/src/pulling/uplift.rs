use pull::published::{MINI_RULE, mini_rule_uplift};
use quantity::{ForcePerLength, Length, unit};

use super::refused;
use crate::definition::{Input, Output, Range, Worksheet};
use crate::run::{Failure, Sheet, Values};

pub(super) static MINI_UPLIFT: Worksheet = Worksheet {
    id: "mini-uplift",
    title: "net upward force on an empty pipe, shortcut of the one-third rule",
    inputs: &[
        Input::quantity(
            "outside_diameter",
            "D",
            "outside diameter of the pipe",
            unit::MM,
            Range::SIZE,
        ),
        Input::quantity(
            "weight_air",
            "w_a",
            "weight of the empty pipe in air",
            unit::N_PER_M,
            Range::NotNegative,
        ),
    ],
    outputs: &[Output::new("uplift", "net upward force; negative sinks", unit::N_PER_M)],
    source: MINI_RULE.source(),
    example: &[("outside_diameter", "4.50 in"), ("weight_air", "2.325 lbf/ft")],
    run: run_uplift,
};

fn run_uplift(v: &Values) -> Result<Sheet, Failure> {
    let diameter = Length::from_si(v.si("outside_diameter"));
    let uplift = mini_rule_uplift(diameter, ForcePerLength::from_si(v.si("weight_air")))
        .map_err(|e| refused(&MINI_UPLIFT, &e))?
        .si();
    let source = || MINI_RULE.source();
    let mut w = v.open();
    // The rule's own units: inches give pounds-force a foot.
    let formula = "0.5*(D/0.0254)^2*4.4482216152605/0.3048 - w_a";
    w.result("w_b", "net upward force", formula, uplift, unit::N_PER_M, source());
    Ok(Sheet::new(&[("uplift", uplift)], w))
}
