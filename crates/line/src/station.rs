use std::f64::consts::TAU;

use glam::DVec3;
use quantity::{Angle, Length};

/// A place on a bore line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Station {
    /// Measured distance along the bore from the entry point.
    pub md: Length,
    /// Horizontal distance along the plan line from the entry point.
    pub chainage: Length,
    /// Position in metres: x east, y north, z level.
    pub position: DVec3,
    /// Level, the same as `position.z`.
    pub level: Length,
    /// Angle from the horizontal, positive where the bore rises.
    pub inclination: Angle,
    /// Direction in plan from north, clockwise, from 0 up to 360 degrees.
    pub azimuth: Angle,
    /// Unit vector along the bore, in the direction of rising measured distance.
    pub tangent: DVec3,
    /// Curvature in 1/m, pointing to the centre of the curve; zero on straights.
    ///
    /// Where two parts of the line meet it is that of the part that begins there.
    pub curvature: DVec3,
}

impl Station {
    /// Horizontal unit vector across the bore, to the right looking from entry to exit.
    #[must_use]
    pub fn right(&self) -> DVec3 {
        let (sin, cos) = self.azimuth.si().sin_cos();
        DVec3::new(cos, -sin, 0.0)
    }

    /// Unit vector across the bore, upwards.
    #[must_use]
    pub fn up(&self) -> DVec3 {
        self.right().cross(self.tangent)
    }
}

/// Unit vector of an inclination and an azimuth in radians.
pub(crate) fn direction(inclination: f64, azimuth: f64) -> DVec3 {
    let (sin_p, cos_p) = inclination.sin_cos();
    let (sin_a, cos_a) = azimuth.sin_cos();
    DVec3::new(cos_p * sin_a, cos_p * cos_a, sin_p)
}

/// Inclination and azimuth of a unit vector, radians.
pub(crate) fn attitude(tangent: DVec3) -> (f64, f64) {
    let flat = tangent.x.hypot(tangent.y);
    (tangent.z.atan2(flat), whole_turn(tangent.x.atan2(tangent.y)))
}

/// An angle brought into 0 up to 2π.
pub(crate) fn whole_turn(angle: f64) -> f64 {
    let turned = angle.rem_euclid(TAU);
    if turned >= TAU { 0.0 } else { turned }
}

/// Angle between two unit vectors; keeps its digits at small angles, where the arc cosine loses
/// them.
pub(crate) fn angle_between(a: DVec3, b: DVec3) -> f64 {
    2.0 * (a - b).length().atan2((a + b).length())
}
