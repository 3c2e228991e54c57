use quantity::{Angle, Length, unit};

use crate::FormulaError;
use crate::first_level::steep;
use crate::formula_error::{positive, require};

/// Horizontal lengths that a bore needs to rise from a level part.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RiseFromLevel {
    /// S3: by one arc that still rises at the end.
    pub arc_only: Length,
    /// S4: along a straight, without any curve.
    pub straight_only: Length,
    /// S5: by an arc up to the angle and a straight from there.
    pub arc_then_straight: Length,
}

/// Horizontal lengths in which a bore rises from a level part to the surface.
///
/// ```text
/// S3 = sqrt(2 d R) · sqrt(1 − d/(2R))                 one arc
/// S4 = d / tan α                                      one straight
/// S5 = R sin α + ( d − R (1 − cos α) ) / tan α        arc, then straight
/// ```
/// | symbol | meaning                    | unit | argument |
/// |--------|----------------------------|------|----------|
/// | d      | depth of the level part    | m    | `depth`  |
/// | R      | radius of the arc          | m    | `radius` |
/// | α      | angle at the surface       | rad  | `angle`  |
///
/// Valid for 0 < d ≤ R and 0 < α < 90°. S5 needs d ≥ R (1 − cos α): a smaller depth is reached
/// before the angle is.
///
/// # Source
/// Najafi, Trenchless Technology Piping, p. 212, eq. 5.8, 5.10 and the equation after 5.8.
/// Deviation: none.
/// # Errors
/// [`FormulaError::OutOfRange`].
/// # Checked by
/// `cases/geometry/rise-from-level.toml`; test: S3 and S5 agree where the arc takes up the whole
/// depth.
pub fn rise_from_level(
    depth: Length,
    radius: Length,
    angle: Angle,
) -> Result<RiseFromLevel, FormulaError> {
    let d = positive("depth", depth.si(), unit::M)?;
    let r = positive("radius", radius.si(), unit::M)?;
    let alpha = steep(angle, "angle")?;
    let most = format!("at most the radius, {radius}");
    require(d <= r, "depth", d, unit::M, most)?;
    let drop = 2.0 * r * (0.5 * alpha).sin().powi(2);
    let largest = Angle::from_si(2.0 * (0.5 * d / r).sqrt().min(1.0).asin());
    let most = format!("at most {largest}, which the arc reaches at this depth");
    // An arc that takes up the whole depth may miss it by rounding.
    require(d - drop >= -1e-12 * d, "angle", alpha, unit::DEG, most)?;
    Ok(RiseFromLevel {
        arc_only: Length::from_si((2.0 * d * r).sqrt() * (1.0 - d / (2.0 * r)).sqrt()),
        straight_only: Length::from_si(d / alpha.tan()),
        arc_then_straight: Length::from_si(r * alpha.sin() + (d - drop).max(0.0) / alpha.tan()),
    })
}

/// The hump over which a string is lifted before it enters the bore.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Overbend {
    /// Length of the string on the hump.
    pub length: Length,
    /// Height of the hump's top above its start.
    pub height: Length,
}

/// Length and height of the overbend that turns a string from the horizontal to the bore's angle.
///
/// ```text
/// s = R β,   h = R (1 − cos β)
/// ```
/// | symbol | meaning              | unit | argument |
/// |--------|----------------------|------|----------|
/// | R      | radius of the hump   | m    | `radius` |
/// | β      | angle of the bore    | rad  | `angle`  |
/// | s, h   | length and height    | m    | returned |
///
/// Valid for R > 0 and 0 < β < 90°.
///
/// # Source
/// Circular arc, exact. Deviation: none.
/// # Errors
/// [`FormulaError::OutOfRange`].
/// # Checked by
/// `cases/geometry/overbend.toml`.
pub fn overbend(radius: Length, angle: Angle) -> Result<Overbend, FormulaError> {
    let r = positive("radius", radius.si(), unit::M)?;
    let beta = steep(angle, "angle")?;
    Ok(Overbend {
        length: Length::from_si(r * beta),
        height: Length::from_si(2.0 * r * (0.5 * beta).sin().powi(2)),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_arc_over_the_whole_depth_needs_no_straight() {
        let (r, alpha) = (100.0, 0.3f64);
        let depth = Length::from_si(r * (1.0 - alpha.cos()));
        let rise = rise_from_level(depth, Length::from_si(r), Angle::from_si(alpha)).unwrap();
        approx::assert_relative_eq!(
            rise.arc_only.si(),
            rise.arc_then_straight.si(),
            max_relative = 1e-12
        );
    }

    #[test]
    fn a_depth_that_is_reached_before_the_angle_is_refused() {
        let feet = Length::feet;
        let error = rise_from_level(feet(6.0), feet(100.0), Angle::degrees(20.0)).unwrap_err();
        assert!(error.to_string().contains("19.95 deg"), "{error}");
    }
}
