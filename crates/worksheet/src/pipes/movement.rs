use pipe::{THERMAL_EXPANSION, thermal_movement};
use quantity::{Length, unit};
use working::{Evidence, Source};

use crate::definition::{Input, Output, Range, Worksheet};
use crate::run::{Failure, Sheet, Values};

const EXPANSION: Source = Source::new(
    "thermal expansion of ductile iron, 11e-6 1/K, EN handbooks 10 to 11",
    Evidence::FromMemory,
);

/// Word for an output whose input is missing.
const NOT_ASSESSED: &str = "not assessed";

pub(super) static THERMAL_MOVEMENT: Worksheet = Worksheet {
    id: "thermal-movement",
    title: "how far a string moves when its temperature changes",
    inputs: &[
        Input::quantity("length", "L", "length of the string", unit::M, Range::NotNegative),
        Input::quantity(
            "temperature_change",
            "dT",
            "change of temperature in kelvin, a bare number; positive warmer",
            unit::ONE,
            Range::Within(-200.0, 200.0),
        ),
        Input::quantity(
            "joints",
            "n",
            "number of joints that share it",
            unit::ONE,
            Range::Within(1.0, 1e6),
        )
        .optional(),
    ],
    outputs: &[
        Output::new("movement", "movement of a free string, positive longer", unit::MM),
        Output::new("per_joint", "share of one joint; a word without joints", unit::MM),
    ],
    source: EXPANSION,
    example: &[("length", "350 m"), ("temperature_change", "10"), ("joints", "58")],
    run: run_thermal,
};

fn run_thermal(v: &Values) -> Result<Sheet, Failure> {
    let length = Length::from_si(v.si("length"));
    let movement = thermal_movement(length, v.si("temperature_change"))
        .map_err(|e| Failure::at("length", e))?
        .si();
    let mut s = v.open();
    s.given_from("alpha", "thermal expansion, 1/K", THERMAL_EXPANSION, unit::ONE, EXPANSION);
    s.result("dL", "movement of a free string", "alpha*L*dT", movement, unit::MM, EXPANSION);
    if v.optional("joints").is_none() {
        let sheet = Sheet::new(&[("movement", movement)], s);
        return Ok(sheet.with_word("per_joint", NOT_ASSESSED));
    }
    let share = s.derive("d", "share of one joint", "dL/n", unit::MM, EXPANSION);
    Ok(Sheet::new(&[("movement", movement), ("per_joint", share)], s))
}
