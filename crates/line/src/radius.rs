use quantity::{Angle, Length, Pressure, unit};

use crate::FormulaError;
use crate::formula_error::{positive, require};

/// Radius in space of a bend in plan laid over a curve in profile.
///
/// ```text
/// 1/R² = 1/R_v² + cos⁴P / R_h²
/// ```
/// | symbol | meaning                                           | unit | argument      |
/// |--------|---------------------------------------------------|------|---------------|
/// | R_v    | radius in profile                                 | m    | `vertical`    |
/// | R_h    | radius of the plan line (horizontal projection)   | m    | `horizontal`  |
/// | P      | inclination at the place                          | rad  | `inclination` |
/// | R      | radius in space                                   | m    | returned      |
///
/// Valid for R_v, R_h > 0 and |P| < 90°. At P = 0 it is the form printed in trenchless manuals,
/// R = sqrt( R_h² R_v² / (R_h² + R_v²) ).
///
/// # Source
/// P = 0: one manufacturer's trenchless manual (German edition), p. 50. General form: derived,
/// k² = (dP/ds)² + cos²P·(dA/ds)² with dA/ds = cos P/R_h.
/// # Errors
/// [`FormulaError::OutOfRange`].
/// # Checked by
/// `cases/geometry/combined-radius-level.toml`, `cases/geometry/combined-radius-inclined.toml`;
/// test: curvature of a compound line by finite differences.
pub fn combined_radius(
    vertical: Length,
    horizontal: Length,
    inclination: Angle,
) -> Result<Length, FormulaError> {
    let rv = positive("radius in profile", vertical.si(), unit::M)?;
    let rh = positive("radius in plan", horizontal.si(), unit::M)?;
    let p = inclination.si();
    let holds = p.abs() < std::f64::consts::FRAC_PI_2;
    require(holds, "inclination", p, unit::DEG, "greater than -90 deg and less than 90 deg")?;
    let cos = p.cos();
    let curvature = (1.0 / rv).hypot(cos * cos / rh);
    Ok(Length::from_si(1.0 / curvature))
}

/// Ratio of the smallest bending radius of a drill rod to its diameter: 100 ft per inch.
const ROD_RADIUS_RATIO: f64 = 1200.0;

/// Smallest bending radius of a drill rod by the rule of 100 ft per inch of diameter.
///
/// ```text
/// R = 1200 D
/// ```
/// | symbol | meaning                 | unit | argument   |
/// |--------|-------------------------|------|------------|
/// | D      | outside diameter of rod | m    | `diameter` |
/// | R      | smallest radius         | m    | returned   |
///
/// Rods of small rigs are rated by their makers to far smaller radii; the maker's figure overrides
/// this rule.
///
/// # Source
/// Najafi, Trenchless Technology Piping, eq. 5.1, p. 192, which quotes ASTM F1962-05. Deviation:
/// none.
/// # Errors
/// [`FormulaError::OutOfRange`] unless D > 0.
/// # Checked by
/// `cases/geometry/rod-radius-najafi-p192.toml`.
pub fn rod_radius(diameter: Length) -> Result<Length, FormulaError> {
    Ok(Length::from_si(ROD_RADIUS_RATIO * positive("rod diameter", diameter.si(), unit::MM)?))
}

/// Arc length of a quarter turn, which crews often call the bend radius of a rod: π R / 2.
///
/// # Source
/// Najafi, Trenchless Technology Piping, p. 206. Exact.
/// # Errors
/// [`FormulaError::OutOfRange`] unless R > 0.
/// # Checked by
/// `cases/geometry/rod-quarter-bend-najafi-p206.toml`.
pub fn quarter_bend_length(radius: Length) -> Result<Length, FormulaError> {
    let r = positive("radius", radius.si(), unit::M)?;
    Ok(Length::from_si(std::f64::consts::FRAC_PI_2 * r))
}

/// Bending stress in the outer fibre of a rod or pipe that follows a curve elastically.
///
/// ```text
/// σ = E D / (2 R)
/// ```
/// | symbol | meaning               | unit | argument   |
/// |--------|-----------------------|------|------------|
/// | E      | modulus of elasticity | Pa   | `modulus`  |
/// | D      | outside diameter      | m    | `diameter` |
/// | R      | radius of the curve   | m    | `radius`   |
/// | σ      | bending stress        | Pa   | returned   |
///
/// In a turning rod the stress reverses at every revolution: fatigue decides, not yield. Not for
/// strings with free joints, whose barrels stay straight.
///
/// # Source
/// Theory of beams, derived. Deviation: none.
/// # Errors
/// [`FormulaError::OutOfRange`] unless all are greater than zero.
/// # Checked by
/// `cases/geometry/rod-bending.toml`.
pub fn rod_bending_stress(
    diameter: Length,
    radius: Length,
    modulus: Pressure,
) -> Result<Pressure, FormulaError> {
    let d = positive("rod diameter", diameter.si(), unit::MM)?;
    let r = positive("radius", radius.si(), unit::M)?;
    let e = positive("modulus of elasticity", modulus.si(), unit::GPA)?;
    Ok(Pressure::from_si(e * d / (2.0 * r)))
}
