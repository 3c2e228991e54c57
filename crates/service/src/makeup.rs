use quantity::{Flow, Length, Pressure, unit};

use crate::ServiceError;
use crate::error::{finite, not_negative, positive};

/// Divisor of the formula in US units; read. An older edition had 133 200.
const DIVISOR: f64 = 148_000.0;

const FOOT: f64 = 0.3048;
const INCH: f64 = 0.0254;
const PSI: f64 = 6_894.757_293_168_361;
const GALLON_PER_HOUR: f64 = 3.785_411_784e-3 / 3600.0;

/// Testing allowance: make-up water that keeps the test pressure (AWWA C600).
///
/// ```text
/// L = S D √P / 148 000        [gal/h; ft, in, psi]
/// ```
/// | symbol | meaning                      | unit | argument           |
/// |--------|------------------------------|------|--------------------|
/// | L      | make-up water                | m³/s | returned           |
/// | S      | length                       | m    | `length`           |
/// | D      | *nominal* diameter           | m    | `nominal_diameter` |
/// | P      | average test pressure        | Pa   | `test_pressure`    |
///
/// Measured as make-up water, never inferred from a drop in pressure. About fourteen times laxer
/// than EN 805: never mix.
///
/// # Source
/// ANSI/AWWA C600, read in several specifications.
/// # Errors
/// [`ServiceError::OutOfRange`] names the argument.
/// # Checked by
/// published values: `cases/service/c600-makeup.toml`.
pub fn makeup_c600(
    length: Length,
    nominal_diameter: Length,
    test_pressure: Pressure,
) -> Result<Flow, ServiceError> {
    let s = positive("length", length.si(), unit::M)? / FOOT;
    let d = positive("nominal diameter", nominal_diameter.si(), unit::MM)? / INCH;
    let p = not_negative("test pressure", test_pressure.si(), unit::KPA)? / PSI;
    finite("make-up water", s * d * p.sqrt() / DIVISOR * GALLON_PER_HOUR).map(Flow::from_si)
}
