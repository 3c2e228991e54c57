//! Pressure of the ground on the expander.

use quantity::{Angle, Length, Pressure, UnitWeight, unit};
use working::Evidence;

use super::acute;
use crate::published::{Method, PublishedError, range};

/// Cavity expansion in clay.
pub const CAVITY_CLAY: Method = Method {
    name: "cylindrical cavity in clay, undrained",
    document: "Gibson and Anderson 1961, after first yield; before it elastic",
    evidence: Evidence::FromMemory,
    validity: "deep cavity in saturated clay that keeps its volume; near the surface the cap governs",
};

/// Cavity expansion in sand.
pub const CAVITY_SAND: Method = Method {
    name: "cylindrical cavity in sand, drained, without dilation",
    document: "form of Hughes, Wroth and Windle 1977, derived again; before first yield elastic",
    evidence: Evidence::FromMemory,
    validity: "deep cavity in sand that does not loosen; dense sand dilates and presses more, trench walls more still",
};

/// Limit of the pressure near the surface.
pub const SHALLOW_CAP: Method = Method {
    name: "uplift of the cover",
    document: "breakout of a strip of ground, remembered form",
    evidence: Evidence::FromMemory,
    validity: "shallow lines; where it governs the surface heaves, and that governs the design instead of the force",
};

/// Factor of [`shallow_cap`] in loose ground; from memory.
pub const UPLIFT_LOOSE: f64 = 0.3;

/// Factor of [`shallow_cap`] in dense ground; from memory.
pub const UPLIFT_DENSE: f64 = 0.5;

/// Share by which a cavity grows in area, 1 − (a₀/a)².
fn growth(before: Length, after: Length) -> Result<f64, PublishedError> {
    let a0 = range::positive("radius before", before.si(), unit::MM)?;
    let a = range::at_least("radius after", after.si(), a0, unit::MM)?;
    // As a product, so that a small growth keeps its digits.
    Ok((1.0 - a0 / a) * (1.0 + a0 / a))
}

/// Pressure in a cylindrical cavity that grows in clay without drainage.
///
/// ```text
/// x = G/s_u·[1 − (a₀/a)²]
/// p = p₀ + s_u·(1 + ln x)     x > 1, the ground yields
/// p = p₀ + s_u·x              x ≤ 1, elastic
/// ```
/// | symbol | meaning                            | unit | argument             |
/// |--------|------------------------------------|------|----------------------|
/// | p₀     | horizontal stress in the ground, total | Pa | `initial_stress`   |
/// | s_u    | undrained strength                 | Pa   | `undrained_strength` |
/// | G      | shear modulus                      | Pa   | `shear_modulus`      |
/// | a₀, a  | radius before and after            | m    | `radius_before`, `radius_after` |
///
/// Valid for p₀ ≥ 0, s_u > 0, G > 0, a ≥ a₀ > 0. Both branches meet at x = 1.
///
/// # Source
/// [`CAVITY_CLAY`].
/// # Errors
/// [`PublishedError::OutOfRange`].
/// # Checked by
/// `cases/burst/cavity.toml` (computed).
pub fn cavity_clay(
    initial_stress: Pressure,
    undrained_strength: Pressure,
    shear_modulus: Pressure,
    radius_before: Length,
    radius_after: Length,
) -> Result<Pressure, PublishedError> {
    let p0 = range::not_negative("initial stress", initial_stress.si(), unit::KPA)?;
    let su = range::positive("undrained strength", undrained_strength.si(), unit::KPA)?;
    let g = range::positive("shear modulus", shear_modulus.si(), unit::KPA)?;
    let x = g / su * growth(radius_before, radius_after)?;
    let rise = if x > 1.0 { su * (1.0 + x.ln()) } else { su * x };
    range::result("cavity pressure", p0 + rise).map(Pressure::pascals)
}

/// Pressure in a cylindrical cavity that grows in sand with drainage and without dilation.
///
/// ```text
/// x = G/(p₀·sin φ)·[1 − (a₀/a)²]
/// p = p₀·(1 + sin φ)·x^[sin φ/(1 + sin φ)]      x > 1, the ground yields
/// p = p₀·(1 + sin φ·x)                          x ≤ 1, elastic
/// ```
/// | symbol | meaning                                | unit | argument         |
/// |--------|----------------------------------------|------|------------------|
/// | p₀     | horizontal stress in the ground, effective | Pa | `initial_stress` |
/// | φ      | friction angle                         | rad  | `friction_angle` |
/// | G      | shear modulus                          | Pa   | `shear_modulus`  |
/// | a₀, a  | radius before and after                | m    | `radius_before`, `radius_after` |
///
/// Valid for p₀ > 0, 0 < φ < 90°, G > 0, a ≥ a₀ > 0. Both branches meet at x = 1. Water pressure stands on top.
///
/// # Source
/// [`CAVITY_SAND`].
/// # Errors
/// [`PublishedError::OutOfRange`].
/// # Checked by
/// `cases/burst/cavity.toml` (computed).
pub fn cavity_sand(
    initial_stress: Pressure,
    friction_angle: Angle,
    shear_modulus: Pressure,
    radius_before: Length,
    radius_after: Length,
) -> Result<Pressure, PublishedError> {
    let p0 = range::positive("initial stress", initial_stress.si(), unit::KPA)?;
    let sin = acute("friction angle", friction_angle)?.sin();
    let g = range::positive("shear modulus", shear_modulus.si(), unit::KPA)?;
    let x = g / (p0 * sin) * growth(radius_before, radius_after)?;
    let p =
        if x > 1.0 { p0 * (1.0 + sin) * x.powf(sin / (1.0 + sin)) } else { p0 * (1.0 + sin * x) };
    range::result("cavity pressure", p).map(Pressure::pascals)
}

/// Pressure at which the cover over the expander lifts.
///
/// ```text
/// p = γ·H·(1 + f·H/D_e)
/// ```
/// | symbol | meaning                                  | unit | argument        |
/// |--------|------------------------------------------|------|-----------------|
/// | γ      | unit weight                              | N/m³ | `unit_weight`   |
/// | H      | cover over the crown                     | m    | `cover`         |
/// | D_e    | outside diameter of expander             | m    | `expander`      |
/// | f      | uplift factor: 0.3 loose, 0.5 dense      | –    | `uplift_factor` |
///
/// Valid for γ > 0, H ≥ 0, D_e > 0, f ≥ 0.
///
/// # Source
/// [`SHALLOW_CAP`].
/// # Errors
/// [`PublishedError::OutOfRange`].
/// # Checked by
/// `cases/burst/cap.toml` (computed).
pub fn shallow_cap(
    unit_weight: UnitWeight,
    cover: Length,
    expander: Length,
    uplift_factor: f64,
) -> Result<Pressure, PublishedError> {
    let gamma = range::positive("unit weight", unit_weight.si(), unit::KN_PER_M3)?;
    let h = range::not_negative("cover", cover.si(), unit::M)?;
    let expander = range::positive("expander diameter", expander.si(), unit::MM)?;
    let f = range::not_negative("uplift factor", uplift_factor, unit::ONE)?;
    range::result("cap", gamma * h * (1.0 + f * h / expander)).map(Pressure::pascals)
}

/// Which of two limits the pressure on the expander keeps.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ExpansionGoverns {
    /// The cavity in deep ground.
    Cavity,
    /// The weight and strength of the cover: the surface heaves.
    Cap,
}

/// What [`expansion_pressure`] returns.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ExpansionPressure {
    /// The smaller pressure.
    pub pressure: Pressure,
    /// Which one it is.
    pub governs: ExpansionGoverns,
}

/// Pressure on the expander: the cavity's, at most that which lifts the cover.
///
/// # Source
/// The smaller of two resistances; [`SHALLOW_CAP`].
/// # Errors
/// [`PublishedError::OutOfRange`].
/// # Checked by
/// `cases/burst/cap.toml` (computed).
pub fn expansion_pressure(
    cavity: Pressure,
    cap: Pressure,
) -> Result<ExpansionPressure, PublishedError> {
    let deep = range::not_negative("cavity pressure", cavity.si(), unit::KPA)?;
    let lift = range::not_negative("cap", cap.si(), unit::KPA)?;
    Ok(if lift < deep {
        ExpansionPressure { pressure: cap, governs: ExpansionGoverns::Cap }
    } else {
        ExpansionPressure { pressure: cavity, governs: ExpansionGoverns::Cavity }
    })
}
