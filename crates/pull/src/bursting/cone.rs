use std::f64::consts::PI;

use quantity::{Angle, Force, Length, Pressure, unit};
use working::Evidence;

use super::{acute, expander_and_host};
use crate::published::{Method, PublishedError, range};

/// Pushing the ground aside.
pub const CONE: Method = Method {
    name: "cone against a pressure",
    document: "balance of forces on a cone under a uniform pressure, derived",
    evidence: Evidence::Derived,
    validity: "as good as the pressure that is put in: small in soft or shallow ground, ruling in tight trenches and \
               rock",
};

/// Axial force of a cone that widens the hole from the host's bore to the expander's diameter.
///
/// ```text
/// F = p·π·(r₁² − r₀²)·(1 + μ/tan α),   r₀ = d_i/2,  r₁ = D_e/2
/// ```
/// | symbol | meaning                                         | unit | argument      |
/// |--------|-------------------------------------------------|------|---------------|
/// | d_i    | inside diameter of the host                     | m    | `host_inside` |
/// | D_e    | outside diameter of expander                    | m    | `expander`    |
/// | α      | half the cone's angle, usually 10° to 20°       | rad  | `half_angle`  |
/// | μ      | friction of ground and fragments on the cone    | –    | `friction`    |
/// | p      | pressure at right angles to the cone            | Pa   | `pressure`    |
///
/// Valid for D_e ≥ d_i > 0, 0 < α < 90°, μ from 0 to 1, p ≥ 0. Without expansion there is no force.
///
/// # Source
/// [`CONE`].
/// # Errors
/// [`PublishedError::OutOfRange`].
/// # Checked by
/// `cases/burst/cone.toml` (computed).
pub fn cone_force(
    host_inside: Length,
    expander: Length,
    half_angle: Angle,
    friction: f64,
    pressure: Pressure,
) -> Result<Force, PublishedError> {
    let (expander, host) = expander_and_host(expander, host_inside)?;
    let alpha = acute("half angle", half_angle)?;
    let mu = range::friction("friction", friction)?;
    let p = range::not_negative("pressure", pressure.si(), unit::KPA)?;
    let ring = PI / 4.0 * (expander - host) * (expander + host);
    range::result("cone force", p * ring * (1.0 + mu / alpha.tan())).map(Force::newtons)
}
