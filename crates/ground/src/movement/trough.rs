use std::f64::consts::TAU;

use quantity::{Length, unit};

use crate::GroundError;
use crate::argument::{axis_depth, distance, unsigned_volume, within};

/// Settlement of the surface across a bore in the shape of a bell curve; upside down, a heave that
/// goes straight up.
///
/// ```text
/// s(x) = S exp(−x²/(2 i²))        S = V / (i √(2π))        i = K z
/// ```
/// | symbol | meaning                                               | unit | argument            |
/// |--------|-------------------------------------------------------|------|---------------------|
/// | V      | volume per length lost (or displaced), 0 to 100       | m³/m | `volume_per_length` |
/// | z      | depth of the axis below the surface, 0.01 m to 1000 m | m    | `depth`             |
/// | K      | width factor: sand 0.25 to 0.45, clay 0.4 to 0.6      | –    | `width_factor`, 0.1 to 1 |
/// | i      | distance of the steepest place from the axis          | m    | `width`             |
/// | x      | distance from the axis                                | m    | `offset`            |
///
/// The volume of the trough is that of the loss: ground neither loosens nor densens on the way.
///
/// # Source
/// Practice of tunnelling, from memory; that the trough holds V follows from its form and is tested.
/// The ends of K are a judgement.
/// # Errors
/// [`GroundError::OutOfRange`] names the argument.
/// # Checked by
/// `cases/ground/settlement-trough.toml` (computed).
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Trough {
    /// Volume per length, m³/m.
    pub volume: f64,
    /// Distance of the steepest place from the axis, i.
    pub width: Length,
}

/// Half of the trough over i: beyond it less than 5 % of the greatest settlement is left.
const HALF_WIDTH: f64 = 2.5;

impl Trough {
    /// Trough above a volume lost at a depth.
    ///
    /// # Errors
    /// [`GroundError::OutOfRange`] names the argument.
    pub fn new(
        volume_per_length: f64,
        depth: Length,
        width_factor: f64,
    ) -> Result<Trough, GroundError> {
        let volume = unsigned_volume(volume_per_length)?;
        let depth = axis_depth(depth.si())?;
        // Judgement: measured troughs lie between 0.25 and 0.6.
        let holds = (0.1..=1.0).contains(&width_factor);
        let factor = within("width factor", width_factor, unit::ONE, holds, "0.1 to 1")?;
        Ok(Trough { volume, width: Length::from_si(factor * depth) })
    }

    /// Settlement at an offset to either side.
    ///
    /// # Errors
    /// [`GroundError::OutOfRange`] unless the offset is a number within 1000 km.
    pub fn settlement(&self, offset: Length) -> Result<Length, GroundError> {
        let x = distance("offset", offset.si())? / self.width.si();
        Ok(self.greatest() * (-0.5 * x * x).exp())
    }

    /// Settlement above the axis, S.
    #[must_use]
    pub fn greatest(&self) -> Length {
        Length::from_si(self.volume / (self.width.si() * TAU.sqrt()))
    }

    /// Slope of the surface where it is steepest, at i from the axis: `S e^(−1/2) / i`.
    #[must_use]
    pub fn greatest_slope(&self) -> f64 {
        self.greatest() / self.width * (-0.5f64).exp()
    }

    /// Half of the trough's width, 2.5 i; less than 5 % of the settlement reaches farther.
    #[must_use]
    pub fn half_width(&self) -> Length {
        self.width * HALF_WIDTH
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn settlement(trough: &Trough, x: f64) -> f64 {
        trough.settlement(Length::from_si(x)).unwrap().si()
    }

    proptest! {
        #[test]
        fn the_trough_holds_the_volume(v in 1e-4f64..1.0, z in 0.5f64..30.0, k in 0.2f64..0.7) {
            let trough = Trough::new(v, Length::from_si(z), k).unwrap();
            // The rule of rectangles is exact to rounding on a bell curve.
            let step = trough.width.si() / 4.0;
            let sum: f64 = (-40..=40).map(|n| settlement(&trough, f64::from(n) * step)).sum();
            prop_assert!((sum * step / v - 1.0).abs() < 1e-9);
        }

        #[test]
        fn the_steepest_place_is_at_the_width(v in 1e-3f64..1.0, z in 0.5f64..30.0) {
            let trough = Trough::new(v, Length::from_si(z), 0.4).unwrap();
            let (i, d) = (trough.width.si(), 1e-4 * trough.width.si());
            let slope = |x| (settlement(&trough, x - d) - settlement(&trough, x + d)) / (2.0 * d);
            prop_assert!((slope(i) / trough.greatest_slope() - 1.0).abs() < 1e-6);
            prop_assert!(slope(0.9 * i) < slope(i) && slope(1.1 * i) < slope(i));
            let edge = settlement(&trough, trough.half_width().si()) / trough.greatest().si();
            prop_assert!(edge < 0.05);
            prop_assert_eq!(settlement(&trough, -i), settlement(&trough, i));
        }

        #[test]
        fn nothing_but_numbers_leaves(
            v in prop_oneof![0f64..100.0, prop::num::f64::ANY],
            z in prop_oneof![0.01f64..1000.0, prop::num::f64::ANY],
            k in prop_oneof![0.1f64..1.0, prop::num::f64::ANY],
            x in prop::num::f64::ANY,
        ) {
            if let Ok(trough) = Trough::new(v, Length::from_si(z), k) {
                prop_assert!(trough.greatest().is_finite() && trough.greatest_slope().is_finite());
                let s = trough.settlement(Length::from_si(x));
                prop_assert!(s.is_err() || s.is_ok_and(|s| s.si() >= 0.0 && s <= trough.greatest()));
            }
        }
    }
}
