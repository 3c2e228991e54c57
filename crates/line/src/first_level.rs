use quantity::{Angle, Length, unit};

use crate::FormulaError;
use crate::formula_error::{not_negative, positive, require};

/// Where a bore first becomes level.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FirstLevel {
    /// Depth below the entry point.
    pub depth: Length,
    /// Horizontal distance from the entry point.
    pub setback: Length,
}

/// Depth and setback at which a bore first becomes level: first rod straight, then an arc.
///
/// ```text
/// d = l sin β + R (1 − cos β),   S = l cos β + R sin β
/// ```
/// | symbol | meaning                 | unit | argument      |
/// |--------|-------------------------|------|---------------|
/// | l      | length of the first rod | m    | `rod_length`  |
/// | R      | radius of the arc       | m    | `radius`      |
/// | β      | entry angle             | rad  | `entry_angle` |
/// | d, S   | depth and setback       | m    | returned      |
///
/// Valid for l ≥ 0, R > 0, 0 < β < 90°.
///
/// # Source
/// Depth: Najafi, Trenchless Technology Piping, p. 210–211, eq. 5.5 and 5.7. Setback: derived; it
/// agrees with the number in that text.
/// # Errors
/// [`FormulaError::OutOfRange`].
/// # Checked by
/// `cases/geometry/first-level-najafi-p211.toml`.
pub fn first_level(
    rod_length: Length,
    radius: Length,
    entry_angle: Angle,
) -> Result<FirstLevel, FormulaError> {
    let l = not_negative("rod length", rod_length.si(), unit::M)?;
    let r = positive("radius", radius.si(), unit::M)?;
    let beta = steep(entry_angle, "entry angle")?;
    Ok(FirstLevel {
        depth: Length::from_si(l * beta.sin() + 2.0 * r * (0.5 * beta).sin().powi(2)),
        setback: Length::from_si(l * beta.cos() + r * beta.sin()),
    })
}

/// An angle between the horizontal and the vertical, neither included.
pub(crate) fn steep(angle: Angle, quantity: &'static str) -> Result<f64, FormulaError> {
    let si = angle.si();
    let holds = si > 0.0 && si < std::f64::consts::FRAC_PI_2;
    let allowed = "greater than 0 deg and less than 90 deg";
    require(holds, quantity, si, unit::DEG, allowed)?;
    Ok(si)
}
