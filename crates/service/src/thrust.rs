use std::f64::consts::PI;

use pipe::end_thrust;
use quantity::{Angle, Force, Length, Pressure, show, unit};

use crate::ServiceError;
use crate::error::within;

/// Thrust of the pressure on a bend, along its bisector, `2 p A sin(θ/2)` with A of the outside
/// diameter.
///
/// # Source
/// Statics; US Army ETL 1110-3-446 appendix C, read.
/// # Errors
/// [`ServiceError::OutOfRange`] for an angle outside 0 to 180°, or as [`pipe::end_thrust`].
/// # Checked by
/// `cases/service/thrust.toml`.
pub fn bend_thrust(
    pressure: Pressure,
    outside_diameter: Length,
    bend_angle: Angle,
) -> Result<Force, ServiceError> {
    let theta = bend_angle.si();
    within("bend angle", theta, unit::DEG, theta > 0.0 && theta <= PI, || {
        format!("greater than 0 and at most {}", show(PI, unit::DEG))
    })?;
    Ok(2.0 * (theta / 2.0).sin() * end_thrust(pressure, outside_diameter)?)
}

/// Thrust on a tee, `p A` of the branch.
///
/// # Source
/// Statics.
/// # Errors
/// As [`pipe::end_thrust`].
pub fn tee_thrust(
    pressure: Pressure,
    branch_outside_diameter: Length,
) -> Result<Force, ServiceError> {
    Ok(end_thrust(pressure, branch_outside_diameter)?)
}

/// Thrust on a reducer towards its small end, `p (A₁ − A₂)`.
///
/// # Source
/// Statics.
/// # Errors
/// [`ServiceError::OutOfRange`] where the second diameter is not the smaller one, or as
/// [`pipe::end_thrust`].
pub fn reducer_thrust(
    pressure: Pressure,
    large: Length,
    small: Length,
) -> Result<Force, ServiceError> {
    within("smaller outside diameter", small.si(), unit::MM, small < large, || {
        format!("less than the larger one ({})", show(large.si(), unit::MM))
    })?;
    Ok(end_thrust(pressure, large)? - end_thrust(pressure, small)?)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_half_turn_doubles_the_dead_end_and_a_reducer_to_nothing_equals_it() {
        let (p, d) = (Pressure::bar(15.0), Length::millimetres(635.0));
        let end = end_thrust(p, d).expect("valid").si();
        let half_turn = bend_thrust(p, d, Angle::degrees(180.0)).expect("valid").si();
        assert!((half_turn / end - 2.0).abs() < 1e-12);
        let reducer = reducer_thrust(p, d, Length::millimetres(1e-6)).expect("valid").si();
        assert!((reducer / end - 1.0).abs() < 1e-12);
        assert!(reducer_thrust(p, d, d).is_err());
    }
}
