use quantity::{Angle, Length, unit};

use crate::FormulaError;
use crate::formula_error::{positive, require};

/// Polygon of equal chords on a circle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct JointPolygon {
    /// Radius of the circle through the joints.
    pub radius: Length,
    /// Offset of a chord's middle from the circle.
    pub mid_offset: Length,
}

/// Radius of a curve that uses the same angle at every joint, and how far the middle of a barrel
/// lies off the circle.
///
/// ```text
/// R = a / ( 2 sin(δ/2) ),   m = R ( 1 − cos(δ/2) )
/// ```
/// | symbol | meaning                         | unit | argument        |
/// |--------|---------------------------------|------|-----------------|
/// | R      | radius through the joints       | m    | returned        |
/// | m      | offset of the barrel's middle   | m    | returned        |
/// | a      | laying length                   | m    | `laying_length` |
/// | δ      | angle at each joint             | rad  | `joint_angle`   |
///
/// Valid for a > 0 and 0 < δ < 180°.
///
/// # Source
/// Chord of a circle, exact. Manufacturers' tables round the result. Deviation: none.
/// # Errors
/// [`FormulaError::OutOfRange`].
/// # Checked by
/// published radii: `cases/geometry/joint-radius-trenchless-manual-p22.toml` and `…-p50.toml`,
/// exact ones: `cases/geometry/joint-radius-exact.toml`; property: chords of length a meet at angle
/// δ.
pub fn joint_polygon(
    laying_length: Length,
    joint_angle: Angle,
) -> Result<JointPolygon, FormulaError> {
    let a = positive("laying length", laying_length.si(), unit::M)?;
    let delta = joint_angle.si();
    let holds = delta > 0.0 && delta < std::f64::consts::PI;
    let allowed = "greater than 0 deg and less than 180 deg";
    require(holds, "joint angle", delta, unit::DEG, allowed)?;
    let radius = a / (2.0 * (0.5 * delta).sin());
    let mid_offset = 2.0 * radius * (0.25 * delta).sin().powi(2);
    Ok(JointPolygon { radius: Length::from_si(radius), mid_offset: Length::from_si(mid_offset) })
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    proptest! {
        #[test]
        fn chords_of_one_laying_length_meet_at_the_joint_angle(
            a in 0.5f64..12.0, degrees in 0.01f64..60.0,
        ) {
            let delta = degrees.to_radians();
            let polygon = joint_polygon(Length::from_si(a), Angle::from_si(delta)).unwrap();
            let r = polygon.radius.si();
            let joint = |i: f64| (r * (delta * i).cos(), r * (delta * i).sin());
            let ((x0, y0), (x1, y1), (x2, y2)) = (joint(0.0), joint(1.0), joint(2.0));
            prop_assert!(((x1 - x0).hypot(y1 - y0) - a).abs() < 1e-9);
            let turn = (y2 - y1).atan2(x2 - x1) - (y1 - y0).atan2(x1 - x0);
            prop_assert!((turn.rem_euclid(std::f64::consts::TAU) - delta).abs() < 1e-7);
            let middle = (0.5 * (x0 + x1)).hypot(0.5 * (y0 + y1));
            prop_assert!((r - middle - polygon.mid_offset.si()).abs() < 1e-9);
        }
    }

    #[test]
    fn angles_and_lengths_without_a_polygon_are_refused() {
        for (a, delta) in [(0.0, 0.1), (6.0, 0.0), (6.0, 4.0), (f64::NAN, 0.1), (6.0, f64::NAN)] {
            let error = joint_polygon(Length::from_si(a), Angle::from_si(delta)).unwrap_err();
            assert_eq!(error.code(), "out_of_range");
        }
    }
}
