use std::f64::consts::{PI, TAU};

use quantity::{Length, show, unit};

use crate::GroundError;
use crate::argument::{axis_depth, distance, poisson, volume, within};

/// Greatest slope of the heaved surface times its depth over the heave above the axis, `3√3/8`.
const SLOPE_FACTOR: f64 = 0.649_519_052_838_329;

/// Movement of the surface of an elastic half-space in which a cylinder grows: up, and sideways away
/// from the axis.
///
/// ```text
/// s = 2 (1 − ν) V/π · h/(x² + h²)        s_x = s |x|/h
/// ```
/// | symbol | meaning                                                  | unit | argument            |
/// |--------|----------------------------------------------------------|------|---------------------|
/// | V      | volume per length gained, −100 to 100; a loss settles    | m³/m | `volume_per_length` |
/// | h      | depth of the axis, deeper than the radius of V           | m    | `axis_depth`        |
/// | x      | offset to either side                                    | m    | `offset`            |
/// | ν      | Poisson's ratio, 0 to 0.5; 0.5 keeps the volume          | –    | `poisson_ratio`     |
///
/// With ν below 0.5 the surface rises by more than V in all, as the ground above is stretched: real
/// soil densifies instead. Small movements, ground that is the same everywhere.
///
/// # Source
/// Surface of the field of [`buried_displacement`]; at ν = 0.5 the form of Sagaseta 1987. Derived
/// and tested.
/// # Errors
/// [`GroundError::OutOfRange`] names the argument.
/// # Checked by
/// `cases/ground/ground-heave.toml` (derived).
pub fn surface_heave(
    volume_per_length: f64,
    axis_depth: Length,
    offset: Length,
    poisson_ratio: f64,
) -> Result<(Length, Length), GroundError> {
    let v = volume(volume_per_length)?;
    let h = deep_enough(v, axis_depth)?;
    let x = distance("offset", offset.si())?.abs();
    let nu = poisson(poisson_ratio)?;
    let up = 2.0 * (1.0 - nu) * v / PI * h / (x * x + h * h);
    Ok((Length::from_si(up), Length::from_si(up * x / h)))
}

/// Greatest slope of the heaved surface and its distance from the axis.
///
/// ```text
/// j = 3√3/8 · s0/h        at x = h/√3        s0 = 2 (1 − ν) V/(π h)
/// ```
/// Symbols as in [`surface_heave`].
///
/// # Source
/// Extreme of the slope of [`surface_heave`], derived and tested.
/// # Errors
/// As [`surface_heave`].
/// # Checked by
/// `cases/ground/ground-heave.toml` (derived).
pub fn greatest_surface_slope(
    volume_per_length: f64,
    axis_depth: Length,
    poisson_ratio: f64,
) -> Result<(f64, Length), GroundError> {
    let (above, _) = surface_heave(volume_per_length, axis_depth, Length::ZERO, poisson_ratio)?;
    Ok((SLOPE_FACTOR * above.si().abs() / axis_depth.si(), axis_depth / 3f64.sqrt()))
}

/// Movement of a place inside an elastic half-space in which a cylinder grows: up, and sideways away
/// from the axis.
///
/// ```text
/// u_up   = V/(2π) { −z1/r1² − z2/r2² + 2 [ 2 (1 − ν) z2/r2² − z (x² − z2²)/r2⁴ ] }
/// u_side = V/(2π) |x| {  1/r1² + 1/r2² + 2 [ (1 − 2ν)/r2² − 2 z z2/r2⁴ ] }
/// z1 = z − h,  z2 = z + h,  r1² = x² + z1²,  r2² = x² + z2²
/// ```
/// | symbol | meaning                                                  | unit | argument            |
/// |--------|----------------------------------------------------------|------|---------------------|
/// | V      | volume per length gained, −100 to 100; a loss turns the signs | m³/m | `volume_per_length` |
/// | h      | depth of the axis, deeper than the radius of V           | m    | `axis_depth`        |
/// | x      | offset to either side                                    | m    | `offset`            |
/// | z      | depth of the place below the surface, 0 to 1000 m        | m    | `depth`             |
/// | ν      | Poisson's ratio, 0 to 0.5; 0.5 keeps the volume          | –    | `poisson_ratio`     |
///
/// Places nearer to the axis than the radius of V are refused: they lie in the cylinder. Small
/// movements, ground that is the same everywhere.
///
/// # Source
/// A line that expands and its image above the surface, with the stress of both taken off the
/// surface (after Verruijt & Booker 1996, without their ovalisation). Derived: tests hold that the
/// field is in equilibrium, that the surface is free of stress, and that V leaves the axis, which
/// together leave no other field.
/// # Errors
/// [`GroundError::OutOfRange`] names the argument.
/// # Checked by
/// `cases/ground/buried-displacement.toml` (derived).
pub fn buried_displacement(
    volume_per_length: f64,
    axis_depth: Length,
    offset: Length,
    depth: Length,
    poisson_ratio: f64,
) -> Result<(Length, Length), GroundError> {
    let v = volume(volume_per_length)?;
    let h = deep_enough(v, axis_depth)?;
    let x = distance("offset", offset.si())?.abs();
    let z = depth.si();
    within("depth", z, unit::M, (0.0..=1000.0).contains(&z), "0 to 1000 m")?;
    let nu = poisson(poisson_ratio)?;
    let r = x.hypot(z - h);
    if r <= cavity_radius(v) || r < NEAREST {
        return Err(GroundError::OutOfRange {
            quantity: "distance from the axis",
            found: show(r, unit::M),
            allowed: "greater than the radius of the volume, sqrt(V/pi)",
        });
    }
    let (up, side) = field(h, x, z, nu);
    Ok((Length::from_si(v / TAU * up), Length::from_si(v / TAU * side)))
}

/// Nearest place to an axis, m. Judgement: a tenth of a millimetre lies in every cylinder.
const NEAREST: f64 = 1e-4;

/// The field for a volume of 2π: up, and sideways in the direction of `x`.
fn field(h: f64, x: f64, z: f64, nu: f64) -> (f64, f64) {
    let (z1, z2) = (z - h, z + h);
    let (r1, r2) = (x * x + z1 * z1, x * x + z2 * z2);
    let up =
        -z1 / r1 - z2 / r2 + 2.0 * (2.0 * (1.0 - nu) * z2 / r2 - z * (x * x - z2 * z2) / (r2 * r2));
    let side = x * (1.0 / r1 + 1.0 / r2 + 2.0 * ((1.0 - 2.0 * nu) / r2 - 2.0 * z * z2 / (r2 * r2)));
    (up, side)
}

/// Radius of a cylinder of a volume per length.
fn cavity_radius(v: f64) -> f64 {
    (v.abs() / PI).sqrt()
}

/// An axis that lies deeper than the radius of the volume around it.
pub(super) fn deep_enough(v: f64, depth: Length) -> Result<f64, GroundError> {
    let h = axis_depth(depth.si())?;
    let holds = h > cavity_radius(v);
    within("axis depth", h, unit::M, holds, "greater than the radius of the volume, sqrt(V/pi)")
}
