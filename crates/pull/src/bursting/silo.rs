//! Drag of a collapsed hole over which the ground arches.

use std::f64::consts::FRAC_PI_4;

use quantity::{Angle, Force, Length, Pressure, UnitWeight, unit};
use working::Evidence;

use super::acute;
use super::drag::{barrel_drag, mean_radial_stress, prism_stress};
use crate::published::{Method, PublishedError, range};

/// The silo.
pub const DRAG_SILO: Method = Method {
    name: "collapsed hole, silo load over the whole length",
    document: "Terzaghi's and Janssen's silo with the width of an arch over the expander",
    evidence: Evidence::FromMemory,
    validity: "ground that arches: not under vibration, not in running sand, not at a cover below about two widths",
};

/// Ground over the expander, for [`silo_stress`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SiloGround {
    /// Unit weight.
    pub unit_weight: UnitWeight,
    /// Cover over the crown.
    pub cover: Length,
    /// Friction angle of the ground, which sets the width of the silo.
    pub friction_angle: Angle,
    /// Friction angle on the walls of the silo; the ground's own where nothing smoother stands there.
    pub wall_friction_angle: Angle,
    /// Horizontal over vertical stress.
    pub stress_ratio: f64,
    /// Cohesion.
    pub cohesion: Pressure,
    /// Load on the surface.
    pub surcharge: Pressure,
}

/// What [`drag_silo`] returns.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SiloDrag {
    /// Width of the silo.
    pub width: Length,
    /// Vertical stress at the crown.
    pub vertical: Pressure,
    /// Mean stress around the pipe.
    pub mean: Pressure,
    /// Drag.
    pub force: Force,
}

/// Width of the silo and vertical stress at the crown.
///
/// ```text
/// B   = D_e·[1 + 2·tan(45° − φ/2)]
/// σ_v = (B·γ − 2·c)/(2·K·tan δ)·(1 − e^(−2·K·tan δ·H/B)) + q·e^(−2·K·tan δ·H/B)
/// ```
/// | symbol | meaning                              | unit  | argument                        |
/// |--------|--------------------------------------|-------|---------------------------------|
/// | D_e    | outside diameter of expander         | m     | `expander`                      |
/// | φ, δ   | friction angles of ground and silo wall | rad | `friction_angle`, `wall_friction_angle` |
/// | γ, H   | unit weight, cover                   | N/m³, m | `unit_weight`, `cover`        |
/// | K      | horizontal over vertical stress      | –     | `stress_ratio`                  |
/// | c, q   | cohesion, load on the surface        | Pa    | `cohesion`, `surcharge`         |
///
/// Where cohesion carries the ground (2·c ≥ B·γ) the first term is zero instead of negative: the hole stands open, and
/// [`super::drag_sockets`] is the model for it. Valid for 0 < φ, δ < 90°, K > 0, c, q, H ≥ 0.
///
/// # Source
/// [`DRAG_SILO`].
/// # Errors
/// [`PublishedError::OutOfRange`].
/// # Checked by
/// `cases/burst/drag-comparison.toml` (computed); property: for a wide silo it is the prism.
pub fn silo_stress(
    ground: &SiloGround,
    expander: Length,
) -> Result<(Length, Pressure), PublishedError> {
    let de = range::positive("expander diameter", expander.si(), unit::MM)?;
    let phi = acute("friction angle", ground.friction_angle)?;
    let delta = acute("wall friction angle", ground.wall_friction_angle)?;
    let k = range::positive("stress ratio", ground.stress_ratio, unit::ONE)?;
    let c = range::not_negative("cohesion", ground.cohesion.si(), unit::KPA)?;
    let q = range::not_negative("surcharge", ground.surcharge.si(), unit::KPA)?;
    prism_stress(ground.unit_weight, ground.cover, ground.surcharge)?;
    let (gamma, h) = (ground.unit_weight.si(), ground.cover.si());
    let width = de * (1.0 + 2.0 * (FRAC_PI_4 - phi / 2.0).tan());
    let wall = 2.0 * k * delta.tan();
    let depth = wall * h / width;
    let carried = (width * gamma - 2.0 * c).max(0.0) / wall * -(-depth).exp_m1();
    let vertical = range::result("vertical stress", carried + q * (-depth).exp())?;
    Ok((Length::metres(width), Pressure::pascals(vertical)))
}

/// Drag of a collapsed hole over which the ground arches.
///
/// ```text
/// T = μ·σ_v·(1 + K)/2·π·D·L
/// ```
/// | symbol | meaning                                | unit | argument   |
/// |--------|----------------------------------------|------|------------|
/// | σ_v, K | vertical stress, stress ratio; see [`silo_stress`] | Pa, – | `ground` |
/// | D      | outside diameter of barrel             | m    | `diameter` |
/// | L      | length of string in the ground         | m    | `length`   |
/// | μ      | friction of pipe on ground             | –    | `friction` |
///
/// # Source
/// [`DRAG_SILO`].
/// # Errors
/// [`PublishedError::OutOfRange`].
/// # Checked by
/// `cases/burst/drag-comparison.toml` (computed).
pub fn drag_silo(
    ground: &SiloGround,
    expander: Length,
    diameter: Length,
    length: Length,
    friction: f64,
) -> Result<SiloDrag, PublishedError> {
    let (width, vertical) = silo_stress(ground, expander)?;
    let mean = mean_radial_stress(vertical, ground.stress_ratio)?;
    let force = barrel_drag(mean, diameter, length, friction)?;
    Ok(SiloDrag { width, vertical, mean, force })
}
