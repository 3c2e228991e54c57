//! Strength, stiffness and stress of the ground from soundings and from each other.
//!
//! A correlation carries the scatter of the tests behind it; where the source that was read gives a
//! spread, it stands with the formula. Soundings are normalised by a pressure of 100 kPa.

use quantity::Pressure;

pub use self::at_rest::{k0_cpt, k0_normally_consolidated, k0_overconsolidated, mean_stress};
pub use self::cpt::{
    CONE_FACTOR, friction_angle_cpt, shear_wave_velocity_cpt, undrained_strength_cpt,
};
pub use self::spt::{
    ISO_STRESS, OVERBURDEN_CAP, bore_factor, overburden_factor, overburden_factor_iso, rod_factor,
    spt_energy_corrected,
};
pub use self::spt_soil::{
    SptSoil, friction_angle_kulhawy, friction_angle_peck, relative_density, strength_factor_spt,
    undrained_strength_spt, youngs_modulus_spt,
};
pub use self::stiffness::{
    OPERATIONAL_SHARE, operational_shear_modulus, shear_modulus_from_youngs,
    shear_modulus_small_clay, shear_modulus_small_sand, youngs_from_oedometric,
};

mod at_rest;
mod cpt;
mod spt;
mod spt_soil;
mod stiffness;

/// Pressure that makes stresses and cone resistances dimensionless, p_a; 100 kPa in the formulas
/// read, not the standard atmosphere.
pub const REFERENCE_PRESSURE: Pressure = Pressure::from_si(P_A);

/// The same as a number, Pa.
const P_A: f64 = 100.0e3;

/// Pascals in the unit of the formulas that are written in kilopascals.
const KILOPASCAL: f64 = 1.0e3;
