use pipe::EN545_MODULUS;
use quantity::{Length, Pressure, unit};

use crate::ServiceError;
use crate::error::{finite, not_negative, positive, ring};

/// Ring bending yield strength in EN 545 / ISO 10803; from memory.
pub const RING_YIELD: Pressure = Pressure::from_si(500.0e6);

/// Safety against ring yield in the allowable ovality; from memory.
const OVALITY_SAFETY: f64 = 1.5;

/// Deformation factor of EN 545; from memory. Depends on the bedding; 3.5 is the standard's value.
const DEFORMATION_FACTOR: f64 = 3.5;

/// Ovality that a mortar lining bears; from memory.
const LINING_LIMIT: f64 = 0.04;

/// Share of the soil's modulus that supports the ring; from memory.
const SOIL_SHARE: f64 = 0.061;

/// Wall that stands for the whole ring in EN 545 annexes C and F, `e_s = e_min + (1.3 mm + 0.001
/// DN)/2`.
///
/// # Source
/// EN 545:2010 annex C, from memory.
/// # Errors
/// [`ServiceError::OutOfRange`] names the argument.
pub fn effective_wall(wall_min: Length, nominal_diameter: Length) -> Result<Length, ServiceError> {
    let e = positive("minimum wall", wall_min.si(), unit::MM)?;
    let dn = positive("nominal diameter", nominal_diameter.si(), unit::MM)?;
    finite("effective wall", e + 0.5 * (0.0013 + 0.001 * dn)).map(Length::from_si)
}

/// Diametral stiffness of the ring, `S = E I / D³ = (E/12) (e_s / (DE − e_s))³`.
///
/// | symbol | meaning                        | unit | argument           |
/// |--------|--------------------------------|------|--------------------|
/// | E      | modulus of the iron, 170 GPa   | Pa   | [`EN545_MODULUS`]  |
/// | e_s    | effective wall                 | m    | `effective_wall`, see [`effective_wall`] |
/// | DE     | outside diameter               | m    | `outside_diameter` |
///
/// # Source
/// EN 545:2010 annex C, from memory.
/// # Errors
/// [`ServiceError::OutOfRange`] names the argument.
/// # Checked by
/// `cases/service/ring-stiffness.toml` (computed).
pub fn ring_stiffness(
    outside_diameter: Length,
    effective_wall: Length,
) -> Result<Pressure, ServiceError> {
    let (de, e) = ring("outside diameter", outside_diameter.si(), effective_wall.si())?;
    finite("ring stiffness", EN545_MODULUS.si() / 12.0 * (e / (de - e)).powi(3))
        .map(Pressure::from_si)
}

/// Ovality that bending stress and lining allow, as a share of the diameter.
///
/// ```text
/// δ = min( R_f (DE − e_s) / (SF E e_s DF), 4 % )
/// ```
/// R_f 500 MPa, SF 1.5, DF 3.5; the other symbols as in [`ring_stiffness`].
///
/// # Source
/// EN 545:2010 annex C, ISO 10803, from memory.
/// # Errors
/// [`ServiceError::OutOfRange`] names the argument.
/// # Checked by
/// `cases/service/ring-stiffness.toml` (computed).
pub fn allowable_ovality(
    outside_diameter: Length,
    effective_wall: Length,
) -> Result<f64, ServiceError> {
    let (de, e) = ring("outside diameter", outside_diameter.si(), effective_wall.si())?;
    let stress =
        RING_YIELD.si() * (de - e) / (OVALITY_SAFETY * EN545_MODULUS.si() * e * DEFORMATION_FACTOR);
    Ok(finite("allowable ovality", stress)?.min(LINING_LIMIT))
}

/// What deforms a ring and what holds it, for [`ovality_under_load`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ovality {
    /// Ring stiffness S.
    pub stiffness: Pressure,
    /// Earth pressure p_e.
    pub earth: Pressure,
    /// Traffic pressure p_t.
    pub traffic: Pressure,
    /// Bedding factor K: 0.110 for line support to 0.085 for a wide bed.
    pub bedding_factor: f64,
    /// Modulus of soil reaction E′; zero in a bore full of fluid.
    pub soil_modulus: Pressure,
}

/// Ovality of the ring under earth and traffic, as a share of the diameter.
///
/// ```text
/// δ = K (p_e + p_t) / (8 S + 0.061 E′)
/// ```
/// # Source
/// EN 545:2010 annex F, from memory.
/// # Errors
/// [`ServiceError::OutOfRange`] names the argument.
/// # Checked by
/// `cases/service/ovality.toml` (computed).
pub fn ovality_under_load(ring: &Ovality) -> Result<f64, ServiceError> {
    let s = positive("ring stiffness", ring.stiffness.si(), unit::KPA)?;
    let earth = not_negative("earth pressure", ring.earth.si(), unit::KPA)?;
    let traffic = not_negative("traffic pressure", ring.traffic.si(), unit::KPA)?;
    let k = positive("bedding factor", ring.bedding_factor, unit::ONE)?;
    let soil = not_negative("modulus of soil reaction", ring.soil_modulus.si(), unit::KPA)?;
    finite("ovality", k * (earth + traffic) / (8.0 * s + SOIL_SHARE * soil))
}

/// Bending stress in a ring of a given ovality, `σ = DF E (e_s/(DE − e_s)) δ`.
///
/// # Source
/// EN 545:2010 annex F, from memory; inverse of the stress part of [`allowable_ovality`].
/// # Errors
/// [`ServiceError::OutOfRange`] names the argument.
pub fn ovality_stress(
    outside_diameter: Length,
    effective_wall: Length,
    ovality: f64,
) -> Result<Pressure, ServiceError> {
    let (de, e) = ring("outside diameter", outside_diameter.si(), effective_wall.si())?;
    let o = not_negative("ovality", ovality, unit::PERCENT)?;
    finite("bending stress", DEFORMATION_FACTOR * EN545_MODULUS.si() * e / (de - e) * o)
        .map(Pressure::from_si)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_percent_on_dn_300_stresses_the_ring_with_a_hundred_megapascals() {
        let (d, e) = (Length::millimetres(326.0), Length::millimetres(5.4));
        let s = ovality_stress(d, e, 0.01).expect("valid");
        assert!((s.to_megapascals() - 100.0).abs() < 0.5, "{}", s.to_megapascals());
    }

    #[test]
    fn the_allowable_ovality_stresses_the_ring_to_yield_over_safety() {
        let (d, e) = (Length::millimetres(326.0), Length::millimetres(5.4));
        let o = allowable_ovality(d, e).expect("valid");
        let s = ovality_stress(d, e, o).expect("valid");
        assert!((s.si() * OVALITY_SAFETY / RING_YIELD.si() - 1.0).abs() < 1e-12);
    }
}
