//! Bending of one barrel of a pulled string.

use std::f64::consts::PI;

use quantity::{Force, ForcePerLength, Length, Pressure, unit};

use super::{PublishedError, range};

/// Bending stress of a barrel held at its ends, under a force at its middle and a line load.
///
/// ```text
/// σ = (F·a/4 + |w|·a²/8)·D / (2·I)        I = π·(D − t)³·t/8
/// ```
/// | symbol | meaning                     | unit | argument           |
/// |--------|-----------------------------|------|--------------------|
/// | σ      | bending stress              | Pa   | returned           |
/// | F      | force at the middle         | N    | `middle_force`     |
/// | w      | line load, magnitude        | N/m  | `load`             |
/// | a      | laying length               | m    | `laying_length`    |
/// | D, t   | outside diameter, wall      | m    | `outside_diameter`, `wall` |
///
/// Valid for F ≥ 0, a > 0, 0 < t < D/2.
///
/// # Source
/// Simply supported beam.
/// # Errors
/// [`PublishedError::OutOfRange`].
/// # Checked by
/// `cases/pull/barrel-bending.toml`.
pub fn barrel_bending_stress(
    middle_force: Force,
    load: ForcePerLength,
    laying_length: Length,
    outside_diameter: Length,
    wall: Length,
) -> Result<Pressure, PublishedError> {
    let f = range::not_negative("middle force", middle_force.si(), unit::KN)?;
    let w = range::any("load", load.si(), unit::N_PER_M)?.abs();
    let a = range::positive("laying length", laying_length.si(), unit::M)?;
    let d = range::positive("outside diameter", outside_diameter.si(), unit::MM)?;
    let t = range::wall(wall.si(), d)?;
    let second_moment = PI * (d - t).powi(3) * t / 8.0;
    let moment = f * a / 4.0 + w * a * a / 8.0;
    range::result("stress", moment * d / (2.0 * second_moment)).map(Pressure::pascals)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn inputs_outside_the_range_are_named() {
        let thick = barrel_bending_stress(
            Force::ZERO,
            ForcePerLength::ZERO,
            Length::metres(6.0),
            Length::metres(0.6),
            Length::metres(0.3),
        );
        assert_eq!(
            thick.unwrap_err().to_string(),
            "wall must be greater than 0 mm and less than 300 mm, but was 300 mm"
        );
    }
}
